//! The checks turned round: values inverted by hand from the tables' formulas, and the laws of an inversion: the value
//! passes, the next does not, and the check that is named stops it.

use crate::common::{aluminium, check, lap, near, rivet, sheet};
use proptest::prelude::*;
use raisedbody::check::Verdict;
use raisedbody::mechanics::joint::turned::{LineLoad, Sheets, Turned};
use raisedbody::mechanics::joint::{Demand, Format, Lap, Method};
use rstest::rstest;

const EN: Method = Method::En1993_1_3;
const AISI: Method = Method::AisiS100(Format::Allowable);

fn joint() -> Lap {
    lap(sheet(0.9, 360.0), sheet(0.9, 360.0), 4.8, 50.0, 12.0)
}

fn line(shear_n_mm: f64, tension_n_mm: f64) -> LineLoad {
    LineLoad { shear_n_mm, tension_n_mm }
}

fn told(turned: &Turned) -> (f64, bool, Option<&str>) {
    (turned.value.unwrap(), turned.exact, turned.stopped_by.as_deref())
}

// Bearing 1939.5 N a rivet (table 8.1: t 0.9, d 4.8, fu 360, e1 12), at 20 N/mm: 96.976 mm. With the rivet's own 2000 N
// over 1.25 in its place: 80 mm. With suction of 2 N/mm on a head of 10.08 mm, 0.5 dw t fu / 1.25 = 1306.4 N: 1 /
// (20/1939.5 + 2/1306.4) = 84.44 mm.
#[test]
fn largest_pitch_by_hand() {
    let (value, exact, by) = {
        let turned = joint().largest_pitch(line(20.0, 0.0), EN).unwrap();
        (turned.value.unwrap(), turned.exact, turned.stopped_by)
    };
    assert!(near(value, 96.976, 0.005) && exact, "{value}");
    assert_eq!(by.as_deref(), Some("bearing"));
    let mut weak = joint();
    weak.rivet = rivet(4.8, 2000.0, 60_000.0);
    let turned = weak.largest_pitch(line(20.0, 0.0), EN).unwrap();
    // Not ductile at any pitch: the condition, not the strength, decides.
    assert_eq!((turned.value, turned.stopped_by.as_deref()), (None, Some("ductility in shear")));
    let turned = joint().largest_pitch(line(20.0, 2.0), EN).unwrap();
    assert!(near(told(&turned).0, 84.44, 0.005), "{turned:?}");
    assert_eq!((turned.exact, turned.stopped_by.as_deref()), (true, Some("shear and tension")));
}

// Next to no load: only the range of pitches ends the search. Too much: not even 3 d passes.
#[test]
fn ends_of_the_search() {
    let turned = joint().largest_pitch(line(0.5, 0.0), EN).unwrap();
    assert_eq!((turned.value, turned.exact, turned.stopped_by), (Some(1000.0), false, None));
    let turned = joint().largest_pitch(line(200.0, 0.0), EN).unwrap();
    assert_eq!((turned.value, turned.stopped_by.as_deref()), (None, Some("bearing")));
    assert_eq!(turned.report.verdict(), Verdict::Fails);
    let mut outside = joint();
    outside.rivet.hole_mm = 5.5;
    let turned = outside.largest_pitch(line(20.0, 0.0), EN).unwrap();
    assert_eq!((turned.value, turned.stopped_by.as_deref()), (None, Some("hole")));
}

// AISI's net section with its shear lag, q s ≤ 2.5 (d/s) (s − d0) Fu t / 3, stops wide pitches first where rivet and
// bearing are strong: s² q = 2.5 d Fu t (s − d0) / 3. t 4, d 6, d0 6.1, Fu 300, q 60: 60 s² − 6000 s + 36 600 = 0, s =
// (6000 + √(6000² − 4 × 60 × 36 600)) / 120 = 93.474 mm; bearing 2.7 × 4 × 6 × 300 / 3 = 6480 N would allow 108 mm, and
// tilting 4.2 √(64 × 6) × 300 / 3 = 8230 N more.
#[test]
fn where_the_net_section_decides_it_is_bracketed() {
    let joint = lap(sheet(4.0, 300.0), sheet(4.0, 300.0), 6.0, 50.0, 30.0);
    let turned = joint.largest_pitch(line(60.0, 0.0), AISI).unwrap();
    assert!(near(told(&turned).0, 93.474, 0.0005), "{turned:?}");
    assert_eq!((turned.exact, turned.stopped_by.as_deref()), (false, Some("net section")));
}

// Table 8.1: fu e1 t / (1.2 γM2) = V: e1 = 1.2 × 1.25 × 900 / (360 × 0.9) = 4.167 mm, under 1.5 d = 7.2 mm, which stops
// it; for 1800 N 8.333 mm.
#[rstest]
#[case(900.0, 7.2, "end distance")]
#[case(1800.0, 8.3333, "bearing")]
fn smallest_edge_by_hand(#[case] shear_n: f64, #[case] mm: f64, #[case] stopped_by: &str) {
    let turned = joint().smallest_edge(Demand { shear_n, tension_n: 0.0 }, EN).unwrap();
    assert!(near(turned.value.unwrap(), mm, 5e-5), "{turned:?}");
    assert_eq!(turned.stopped_by.as_deref(), Some(stopped_by));
}

// AISI J6: 0.6 Fu · 2 t (e − d0/2) / 3 = V: e = 900 × 3 / (1.2 × 360 × 0.9) + 2.45 = 9.394 mm.
#[test]
fn smallest_edge_by_tear_out() {
    let turned = joint().smallest_edge(Demand { shear_n: 900.0, tension_n: 0.0 }, AISI).unwrap();
    assert!(near(turned.value.unwrap(), 9.394, 0.0005), "{turned:?}");
    assert_eq!(turned.stopped_by.as_deref(), Some("tear-out"));
}

// Equal sheets: 3.6 √(t/d) fu d t / 1.25 = V: t = (1.25 × 1200 / (3.6 × 360 × √4.8))^(2/3) = 0.6535 mm. The outer sheet
// alone on 2.5 mm: α = 2.1 from t1 = 2.5 t, so 2.1 × 360 × 4.8 t / 1.25 = 1200 gives 0.4134, under the table's 0.45 mm.
#[test]
fn thinnest_sheet_by_hand() {
    let demand = Demand { shear_n: 1200.0, tension_n: 0.0 };
    let both = joint().thinnest_sheet(demand, Sheets::Both, EN).unwrap();
    assert!(near(both.value.unwrap(), 0.6535, 5e-5), "{both:?}");
    assert_eq!((both.exact, both.stopped_by.as_deref()), (false, Some("bearing")));
    let on_thick = lap(sheet(0.9, 360.0), sheet(2.5, 360.0), 4.8, 50.0, 20.0);
    let outer = on_thick.thinnest_sheet(demand, Sheets::Outer, EN).unwrap();
    assert!(near(outer.value.unwrap(), 0.45, 5e-8), "{outer:?}");
    assert_eq!(outer.stopped_by.as_deref(), Some("thickness, least"));
}

// A line of 60 N/mm at 50 mm is 3000 N: bearing takes 1939.5 N, so two lines.
#[test]
fn fewest_rows_by_hand() {
    let turned = joint().fewest_rows(line(60.0, 0.0), EN).unwrap();
    assert_eq!(told(&turned), (2.0, true, Some("bearing")));
    assert_eq!((turned.unit, joint().fewest_rows(line(10.0, 0.0), EN).unwrap().value), ("", Some(1.0)));
    // 15 000 N tear the net section, (50 − 4.9) × 0.9 × 360 / 1.25 = 11 690 N, and no number of lines helps.
    let turned = joint().fewest_rows(line(300.0, 0.0), EN).unwrap();
    assert_eq!((turned.value, turned.stopped_by.as_deref()), (None, Some("net section")));
}

#[rstest]
#[case(line(0.0, 0.0))]
#[case(line(-1.0, 0.0))]
#[case(line(f64::NAN, 0.0))]
#[case(line(0.0, f64::INFINITY))]
fn loads_that_are_none(#[case] load: LineLoad) {
    assert!(joint().largest_pitch(load, EN).is_err() && joint().fewest_rows(load, EN).is_err());
}

// A metal that the rules are not written for is not made to pass by any size.
#[test]
fn another_metal_never_passes() {
    let wrong = lap(aluminium(0.9, 215.0), aluminium(0.9, 215.0), 4.8, 50.0, 12.0);
    let turned = wrong.smallest_edge(Demand { shear_n: 10.0, tension_n: 0.0 }, EN).unwrap();
    assert_eq!((turned.value, turned.report.verdict()), (None, Verdict::OutsideRange));
}

prop_compose! {
    fn any_lap()(t1 in 0.5..2.0f64, t2 in 0.5..3.0f64, d in 3.0..6.3f64, fu in 280.0..540.0f64, edge in 1.6..4.0f64)
        -> Lap
    {
        lap(sheet(t1, fu), sheet(t2, fu), d, 15.0 * d, edge * d)
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn the_largest_pitch_passes_and_the_next_does_not(joint in any_lap(), v in 1.0..60.0f64, t in 0.0..4.0f64) {
        for method in [EN, AISI, Method::AisiS100Bolts(Format::Factored)] {
            let turned = joint.largest_pitch(line(v, t), method).unwrap();
            let at = |pitch_mm: f64| check(&Lap { pitch_mm, ..joint.clone() }, v * pitch_mm, t * pitch_mm, method);
            // Without a stop it is the range of pitches that ends the search.
            let (Some(mm), Some(stopped_by)) = (turned.value, turned.stopped_by) else { continue };
            prop_assert_eq!(at(mm).verdict(), Verdict::Passes);
            prop_assert_eq!(turned.report.verdict(), Verdict::Passes);
            let beyond = at(mm * 1.00001);
            prop_assert_ne!(beyond.verdict(), Verdict::Passes);
            prop_assert_eq!(beyond.governing().unwrap().name.as_ref(), stopped_by);
        }
    }

    #[test]
    fn the_smallest_edge_passes_and_the_next_does_not(joint in any_lap(), v in 10.0..1500.0f64) {
        for method in [EN, AISI] {
            let demand = Demand { shear_n: v, tension_n: 0.0 };
            let turned = joint.smallest_edge(demand, method).unwrap();
            let Some(edge_mm) = turned.value else { continue };
            let at = |edge_mm: f64| Lap { edge_mm, ..joint.clone() }.check(demand, method).unwrap().verdict();
            prop_assert_eq!(at(edge_mm), Verdict::Passes);
            prop_assert_ne!(at(edge_mm * 0.9999), Verdict::Passes);
        }
    }

    #[test]
    fn the_thinnest_sheet_passes_and_the_next_does_not(joint in any_lap(), v in 10.0..1500.0f64) {
        let demand = Demand { shear_n: v, tension_n: 0.0 };
        for sheets in Sheets::ALL {
            let turned = joint.thinnest_sheet(demand, sheets, AISI).unwrap();
            let Some(mm) = turned.value else { continue };
            prop_assert_eq!(turned.report.verdict(), Verdict::Passes);
            prop_assert!((0.15..=6.0).contains(&mm));
        }
    }

    // What passes in so many lines carries no less in one more.
    #[test]
    fn more_lines_never_carry_less(joint in any_lap(), v in 1.0..200.0f64) {
        let turned = joint.fewest_rows(line(v, 0.0), EN).unwrap();
        let Some(rows) = turned.value else { return Ok(()) };
        let rows = rows as u32;
        let at = |rows: u32| {
            let joint = Lap { rows, row_spacing_mm: Some(3.0 * joint.rivet.diameter_mm), ..joint.clone() };
            check(&joint, joint.of_one_rivet_n(v), 0.0, EN).verdict()
        };
        prop_assert_eq!(at(rows), Verdict::Passes);
        prop_assert!(rows == 1 || at(rows - 1) != Verdict::Passes);
        prop_assert!(rows == 10 || at(rows + 1) == Verdict::Passes);
    }
}
