//! Blind rivets by EN 1993-1-3:2006, 8.3 and Tables 8.1 and 8.2 (from memory): values worked by hand from the tables'
//! formulas, the tables' limits, and laws.

use proptest::prelude::*;
use raisedbody::catalogue::Catalogue;
use raisedbody::check::{Check, Standing, Verdict};
use raisedbody::mechanics::joint::en_1993_1_3::{GAMMA_M2, alpha, bearing_n, net_section_n, pull_through_n};
use raisedbody::mechanics::joint::{BlindRivet, Demand, Format, Lap, Method, Report, RivetOrder};
use raisedbody::mechanics::sheet::{Sheet, SheetOrder};
use rstest::rstest;

fn sheet(mm: f64, fu_mpa: Option<f64>) -> Sheet {
    let order = SheetOrder { thickness_mm: Some(mm), fu_mpa, ..SheetOrder::default() };
    Sheet::new(&order, &Catalogue::standard().unwrap(), "").unwrap()
}

/// A rivet strong enough never to decide, in a hole that the table allows, unless changed.
fn rivet(d: f64) -> BlindRivet {
    let order = RivetOrder {
        diameter_mm: d,
        shear_n: Some(50_000.0),
        tension_n: Some(50_000.0),
        head_mm: Some(2.1 * d),
        hole_mm: Some(d + 0.1),
        ..RivetOrder::default()
    };
    BlindRivet::new(&order, &Catalogue::standard().unwrap(), "").unwrap()
}

fn lap(t_outer: f64, t_inner: f64, d: f64, fu_mpa: f64, pitch: f64, edge: f64) -> Lap {
    Lap::new(sheet(t_outer, Some(fu_mpa)), sheet(t_inner, Some(fu_mpa)), rivet(d), pitch, edge).unwrap()
}

fn check(lap: &Lap, shear_n: f64, tension_n: f64) -> Report {
    lap.check(Demand { shear_n, tension_n }, Method::En1993_1_3).unwrap()
}

fn find<'a>(report: &'a Report, name: &str) -> &'a Check {
    report.checks.iter().find(|c| c.name == name).unwrap()
}

// Table 8.1 worked by hand, γM2 = 1.25; resistance per rivet. Columns: t, t1, d, fu, e1; α; α fu d t; end-distance
// cap fu e1 t / 1.2; F_b,Rd. In the second row the end distance decides.
#[rstest]
#[case((0.9, 0.9, 4.8, 360.0, 12.0), 1.5588, 2424.3, 3240.0, 1939.5)]
#[case((1.2, 1.2, 6.4, 360.0, 9.6), 1.5588, 4309.9, 3456.0, 2764.8)]
#[case((1.2, 1.5, 4.8, 360.0, 12.0), 1.8500, 3836.2, 4320.0, 3068.9)]
fn bearing_by_hand(
    #[case] (t, t1, d, fu, e1): (f64, f64, f64, f64, f64),
    #[case] factor: f64,
    #[case] bearing: f64,
    #[case] cap: f64,
    #[case] design: f64,
) {
    let a = alpha(t, t1, d);
    assert!((a - factor).abs() < 5e-5, "{a}");
    assert!((a * fu * d * t - bearing).abs() < 0.05);
    assert!((fu * e1 * t / 1.2 - cap).abs() < 0.05);
    assert!((bearing_n(a, d, e1, fu * t) - design).abs() < 0.05);
    // The check of a whole lap arrives at the same, whichever sheet is outside.
    for (outer, inner) in [(t, t1), (t1, t)] {
        let report = check(&lap(outer, inner, d, fu, 100.0, e1), 900.0, 0.0);
        assert!((find(&report, "bearing").capacity.unwrap() - design).abs() < 0.05);
    }
}

// α of Table 8.1 at its corners: 3.6 √(t/d) for equal parts up to 2.1; 2.1 from t1 = 2.5 t.
#[rstest]
#[case(1.2, 1.5, 4.8, 1.85)] // 1.8 + (1.25 - 1)/1.5 × (2.1 - 1.8)
#[case(1.0, 2.5, 6.4, 2.1)]
#[case(1.0, 4.0, 6.4, 2.1)]
#[case(2.0, 2.0, 4.0, 2.1)] // 3.6 √0.5 = 2.546, capped
fn alpha_by_hand(#[case] t: f64, #[case] t1: f64, #[case] d: f64, #[case] factor: f64) {
    assert!((alpha(t, t1, d) - factor).abs() < 1e-12);
}

// Table 8.2: 0.5 dw t fu / γM2 under repeated wind; t 1.2, dw 13.4, fu 360: 2315.52 N (half of the static 4631 N).
#[test]
fn pull_through_under_repeated_wind() {
    assert!((pull_through_n(13.4, 1.2 * 360.0, 0.5) - 2315.52).abs() < 1e-9);
    let mut lap = lap(1.2, 1.2, 6.4, 360.0, 100.0, 16.0);
    lap.rivet.head_mm = Some(13.4);
    let over = find(&check(&lap, 0.0, 2315.0), "pull-through").clone();
    assert_eq!(over.verdict, Verdict::Passes);
    assert!((over.capacity.unwrap() - 2315.52).abs() < 1e-9);
    assert_eq!(find(&check(&lap, 0.0, 2316.0), "pull-through").verdict, Verdict::Fails);
}

// (p - d0) t fu / γM2 by hand: (100 - 6.5) × 1.2 × 360 / 1.25 = 32 313.6 N.
#[test]
fn net_section_by_hand() {
    assert!((net_section_n(100.0, 6.5, 432.0) - 32_313.6).abs() < 1e-6);
    assert!(net_section_n(6.0, 6.5, 432.0).abs() < 1e-12, "no metal left carries nothing");
}

// Shear and tension "by test": the product's least loads over γM2; ISO 15976, 6.4 mm: 3600 and 4000 N (from memory).
#[test]
fn rivet_loads_are_divided_by_the_partial_factor() {
    let order = RivetOrder { diameter_mm: 6.4, product: Some("ISO 15976".to_owned()), ..RivetOrder::default() };
    let mut lap = lap(1.2, 1.2, 6.4, 360.0, 100.0, 16.0);
    lap.rivet = BlindRivet::new(&order, &Catalogue::standard().unwrap(), "").unwrap();
    let report = check(&lap, 900.0, 150.0);
    assert!((find(&report, "rivet shear").capacity.unwrap() - 3600.0 / GAMMA_M2).abs() < 1e-9);
    assert!((find(&report, "rivet tension").capacity.unwrap() - 4000.0 / GAMMA_M2).abs() < 1e-9);
    assert_eq!(find(&report, "rivet shear").standing, Standing::Memory);
    // 8.3(8): 150/2315.52 + 900/3447.9 (bearing, edge not deciding) = 0.3258.
    let both = find(&report, "shear and tension");
    assert!((both.demand.unwrap() - (150.0 / 2315.52 + 900.0 / (4309.89 / 1.25))).abs() < 1e-4);
    assert_eq!(report.utilisation(), both.demand, "of all strengths the combination is used most");
    // 1.2 × 3448 N is more than the rivet's 2880 N: not ductile, so equal sharing is not earned.
    let ductile = find(&report, "ductility in shear");
    assert_eq!((ductile.verdict, report.verdict()), (Verdict::NotAssessed, Verdict::NotAssessed));
    assert_eq!(report.governing().unwrap().name, "ductility in shear");
}

#[test]
fn a_lap_that_passes_is_governed_by_a_strength() {
    let report = check(&lap(1.2, 1.2, 6.4, 360.0, 100.0, 16.0), 100.0, 10.0);
    assert_eq!(report.verdict(), Verdict::Passes);
    let governing = report.governing().unwrap();
    assert_eq!(governing.name, "shear and tension");
    assert_eq!(report.utilisation(), governing.utilisation());
}

// 8.3(11): the hole may be 0.1 mm wider than the rivet.
#[rstest]
#[case(6.4, 6.5, true)]
#[case(4.8, 4.9, true)]
#[case(6.4, 17.0 / 64.0 * 25.4, false)] // the trade's 17/64 in, 6.747 mm
#[case(6.35, 17.0 / 64.0 * 25.4, false)]
#[case(6.35, 0.257 * 25.4, false)] // F drill, 6.528 mm
#[case(6.4, 6.6, false)] // the upper end of the product's own range
fn hole_rule(#[case] d: f64, #[case] hole: f64, #[case] inside: bool) {
    let mut lap = lap(1.2, 1.2, d, 360.0, 100.0, 16.0);
    lap.rivet.hole_mm = hole;
    let report = check(&lap, 100.0, 10.0);
    let expected = if inside { Verdict::Passes } else { Verdict::OutsideRange };
    assert_eq!((find(&report, "hole").verdict, report.verdict()), (expected, expected));
    if !inside {
        assert_eq!(report.governing().unwrap().name, "hole");
        assert!(find(&report, "hole").reason.as_ref().unwrap().contains("drill"));
        assert!(find(&report, "bearing").reason.as_ref().unwrap().contains("hole"));
        assert_eq!((find(&report, "bearing").capacity, report.utilisation()), (None, None));
    }
}

// Geometry of Table 8.1, 3.2.4 and fu ≤ 550 MPa: the last value inside, the first outside.
#[rstest]
#[case("end distance", lap(1.2, 1.2, 6.4, 360.0, 100.0, 9.6), lap(1.2, 1.2, 6.4, 360.0, 100.0, 9.59))]
#[case("pitch", lap(1.2, 1.2, 6.4, 360.0, 19.2, 16.0), lap(1.2, 1.2, 6.4, 360.0, 19.19, 16.0))]
#[case("diameter, least", lap(1.2, 1.2, 2.6, 360.0, 50.0, 16.0), lap(1.2, 1.2, 2.5, 360.0, 50.0, 16.0))]
#[case("diameter, most", lap(1.2, 1.2, 6.4, 360.0, 50.0, 16.0), lap(1.2, 1.2, 6.5, 360.0, 50.0, 16.0))]
#[case("thickness, least", lap(0.45, 1.2, 6.4, 360.0, 50.0, 16.0), lap(0.44, 1.2, 6.4, 360.0, 50.0, 16.0))]
#[case("thickness, most", lap(1.2, 4.0, 6.4, 360.0, 50.0, 16.0), lap(1.2, 4.1, 6.4, 360.0, 50.0, 16.0))]
#[case("strength", lap(1.2, 1.2, 6.4, 550.0, 50.0, 16.0), lap(1.2, 1.2, 6.4, 551.0, 50.0, 16.0))]
fn limits(#[case] name: &str, #[case] inside: Lap, #[case] outside: Lap) {
    assert_eq!(check(&inside, 1.0, 1.0).verdict(), Verdict::Passes, "{name}");
    let report = check(&outside, 1.0, 1.0);
    assert_eq!(find(&report, name).verdict, Verdict::OutsideRange);
    assert_eq!(report.verdict(), Verdict::OutsideRange);
    assert_eq!(report.governing().unwrap().name, name);
}

// SS80-1 guarantees 570 MPa, beyond the table: refused, never capped.
#[test]
fn grade_beyond_the_strength_limit_is_refused() {
    let order = SheetOrder { gauge: Some(18), grade: Some("SS80-1".to_owned()), ..SheetOrder::default() };
    let strong = Sheet::new(&order, &Catalogue::standard().unwrap(), "").unwrap();
    let lap = Lap::new(strong.clone(), strong, rivet(6.4), 100.0, 16.0).unwrap();
    assert_eq!(check(&lap, 1.0, 1.0).verdict(), Verdict::OutsideRange);
}

// Both rule sets are for carbon steel; aluminium has EN 1999-1-4, stainless steel EN 1993-1-4 (from memory).
#[rstest]
#[case("5052-H32")]
#[case("304")]
fn other_metals_are_outside_the_range(
    #[case] grade: &str,
    #[values(Method::En1993_1_3, Method::AisiS100(Format::Allowable))] method: Method,
    #[values(true, false)] outer: bool,
) {
    let order = SheetOrder { gauge: Some(16), grade: Some(grade.to_owned()), ..SheetOrder::default() };
    let mut lap = lap(1.2, 1.2, 4.8, 360.0, 100.0, 16.0);
    let demand = Demand { shear_n: 1.0, tension_n: 1.0 };
    assert_eq!(lap.check(demand, method).unwrap().verdict(), Verdict::Passes);
    *(if outer { &mut lap.outer } else { &mut lap.inner }) =
        Sheet::new(&order, &Catalogue::standard().unwrap(), "").unwrap();
    let report = lap.check(demand, method).unwrap();
    assert_eq!((report.verdict(), report.utilisation()), (Verdict::OutsideRange, None));
    assert_eq!(report.governing().unwrap().name, "material");
}

#[rstest]
#[case(None, Some(360.0))]
#[case(Some(360.0), None)]
#[case(None, None)]
fn unknown_strength_is_not_assessed(#[case] outer: Option<f64>, #[case] inner: Option<f64>) {
    let lap = Lap::new(sheet(1.2, outer), sheet(1.2, inner), rivet(6.4), 100.0, 16.0).unwrap();
    let report = check(&lap, 1.0, 1.0);
    for name in ["bearing", "net section", "shear and tension", "ductility in shear"] {
        assert_eq!(find(&report, name).verdict, Verdict::NotAssessed, "{name}");
    }
    assert_eq!((report.verdict(), report.utilisation()), (Verdict::NotAssessed, None));
}

#[rstest]
#[case(f64::NAN, 1.0)]
#[case(1.0, f64::INFINITY)]
#[case(-1.0, 1.0)]
fn impossible_demands_are_errors(#[case] shear_n: f64, #[case] tension_n: f64) {
    let lap = lap(1.2, 1.2, 6.4, 360.0, 100.0, 16.0);
    assert_eq!(lap.check(Demand { shear_n, tension_n }, Method::En1993_1_3).unwrap_err().len(), 1);
}

fn capacity(report: &Report, name: &str) -> f64 {
    find(report, name).capacity.unwrap()
}

prop_compose! {
    /// Inside every limit of the table.
    fn inside()(d in 2.6..6.4f64, t in 0.45..4.0f64, t1 in 0.45..4.0f64, fu in 250.0..550.0f64)(
        d in Just(d), t in Just(t), t1 in Just(t1), fu in Just(fu), p in 3.01 * d..150.0, e in 1.501 * d..40.0,
    ) -> Lap {
        lap(t, t1, d, fu, p, e)
    }
}

proptest! {
    #[test]
    fn swapping_the_sheets_changes_nothing_in_bearing(lap in inside(), fu_inner in 250.0..550.0f64) {
        let mut lap = lap;
        lap.inner.fu_mpa = Some(fu_inner);
        let swapped = Lap { outer: lap.inner.clone(), inner: lap.outer.clone(), ..lap.clone() };
        for name in ["bearing", "net section"] {
            let [one, other] = [&lap, &swapped].map(|l| capacity(&check(l, 9.0, 9.0), name));
            prop_assert!((one - other).abs() <= one * f64::EPSILON);
        }
    }

    #[test]
    fn alpha_does_not_jump(t in 0.45..4.0f64, d in 2.6..6.4f64) {
        let step = 1e-9;
        // Where the rule changes: t1 = t, t1 = 2.5 t, and where equal parts reach 2.1 (t/d = (2.1/3.6)²).
        for ratio in [1.0, 2.5] {
            prop_assert!((alpha(t, t * (ratio + step), d) - alpha(t, t * (ratio - step).max(1.0), d)).abs() < 1e-8);
        }
        let t_cap = d * (2.1f64 / 3.6).powi(2);
        prop_assert!((alpha(t_cap * (1.0 + step), t_cap * (1.0 + step), d) - 2.1).abs() < 1e-8);
        prop_assert!((alpha(t_cap * (1.0 - step), t_cap * (1.0 - step), d) - 2.1).abs() < 1e-8);
    }

    // Of sheets of one strength. (A thicker outer sheet of higher strength can lower α, which the weaker inner one
    // then feels; the table does not speak of unlike strengths.)
    #[test]
    fn a_thicker_sheet_never_lowers_bearing(lap in inside(), more in 0.0..2.0f64) {
        for outer_grows in [true, false] {
            let mut thicker = lap.clone();
            let sheet = if outer_grows { &mut thicker.outer } else { &mut thicker.inner };
            sheet.design_mm = (sheet.design_mm + more).min(4.0);
            let (before, after) = (capacity(&check(&lap, 9.0, 9.0), "bearing"), capacity(&check(&thicker, 9.0, 9.0), "bearing"));
            prop_assert!(after >= before * (1.0 - 1e-12), "{before} to {after}");
        }
    }

    #[test]
    fn more_pitch_under_a_line_load_never_eases_bearing_or_rivet_shear(lap in inside(), q in 0.1..20.0f64, wider in 1.0..3.0f64) {
        let spread = Lap { pitch_mm: lap.pitch_mm * wider, ..lap.clone() };
        let [near, far] = [&lap, &spread].map(|l| check(l, q * l.pitch_mm, 0.0));
        for name in ["bearing", "rivet shear"] {
            let [a, b] = [&near, &far].map(|r| find(r, name).utilisation().unwrap());
            prop_assert!(b >= a * (1.0 - 1e-12), "{name}: {a} to {b}");
        }
        // Net section eases: the hole is a smaller part of a wider pitch.
        let [a, b] = [&near, &far].map(|r| find(r, "net section").utilisation().unwrap());
        prop_assert!(b <= a * (1.0 + 1e-12));
    }

    #[test]
    fn nothing_passes_outside_the_range_and_no_utilisation_is_nan(
        (t, t1, d) in (0.2..6.0f64, 0.2..6.0f64, 1.5..12.0f64),
        (fu, inner_fu) in (20.0..2000.0f64, proptest::option::of(20.0..2000.0f64)),
        (p, e, hole) in (1.0..1000.0f64, 1.0..300.0f64, 1.0..1.5f64),
        (v, f) in (0.0..1e5f64, 0.0..1e5f64),
    ) {
        let mut lap = lap(t, t1, d, fu, p, e);
        lap.inner.fu_mpa = inner_fu;
        lap.rivet.hole_mm = hole * d;
        let report = check(&lap, v, f);
        let within = (2.6..=6.4).contains(&d) && p >= 3.0 * d && e >= 1.5 * d && t.min(t1) >= 0.45 && t.max(t1) <= 4.0
            && fu.max(inner_fu.unwrap_or(0.0)) <= 550.0 && hole * d <= d + 0.1 + 1e-9;
        if within {
            prop_assert_ne!(report.verdict(), Verdict::OutsideRange);
        } else {
            prop_assert_eq!(report.verdict(), Verdict::OutsideRange);
            prop_assert_eq!(report.utilisation(), None);
        }
        prop_assert!(report.checks.iter().filter_map(Check::utilisation).all(f64::is_finite));
    }
}

// Table 8.2, steady: dw t fu / γM2 = 13.4 × 1.2 × 360 / 1.25 = 4631 N, twice that of repeated wind.
#[test]
fn a_steady_pull_is_not_halved() {
    assert!((pull_through_n(13.4, 1.2 * 360.0, 1.0) - 4631.04).abs() < 1e-9);
    let mut lap = lap(1.2, 1.2, 6.4, 360.0, 100.0, 16.0);
    lap.rivet.head_mm = Some(13.4);
    lap.choices.steady_tension = true;
    let through = |lap: &Lap| find(&check(lap, 0.0, 1.0), "pull-through").capacity.unwrap();
    assert!((through(&lap) - 4631.04).abs() < 1e-9);
    // At a panel's edge 0.7 of it; under repeated wind half, at an edge too: the two are not multiplied.
    lap.choices.panel_edge = true;
    assert!((through(&lap) - 0.7 * 4631.04).abs() < 1e-9);
    lap.choices.steady_tension = false;
    assert!((through(&lap) - 2315.52).abs() < 1e-9);
}

// A head that is not pulled need not be held: the rivet's tension is asked for only then.
#[test]
fn without_a_pull_the_rivets_tension_does_not_matter() {
    let mut lap = lap(2.0, 2.0, 6.4, 360.0, 100.0, 16.0);
    lap.rivet.tension_n = Some(3100.0);
    assert_eq!(find(&check(&lap, 500.0, 0.0), "ductility in tension").verdict, Verdict::Passes);
    assert_eq!(find(&check(&lap, 500.0, 10.0), "ductility in tension").verdict, Verdict::NotAssessed);
}

// No rule set here is written for a countersunk head.
#[test]
fn a_countersunk_head_is_outside_every_rule() {
    let mut lap = lap(1.2, 1.2, 4.8, 360.0, 60.0, 12.0);
    lap.rivet.countersunk = true;
    lap.choices.handbook_bearing_mpa = Some([600.0, 800.0]);
    for method in Method::ALL {
        let report = lap.check(Demand { shear_n: 100.0, tension_n: 0.0 }, method).unwrap();
        assert_eq!(find(&report, "head").verdict, Verdict::OutsideRange, "{method}");
        assert_eq!((report.verdict(), report.utilisation()), (Verdict::OutsideRange, None), "{method}");
    }
    let catalogue = Catalogue::standard().unwrap();
    let order =
        |product: &str| RivetOrder { diameter_mm: 4.8, product: Some(product.to_owned()), ..RivetOrder::default() };
    let countersunk = |product: &str| BlindRivet::new(&order(product), &catalogue, "").unwrap().countersunk;
    assert!(countersunk("ISO 15984") && !countersunk("ISO 15983"));
}

// The table's two conditions for ductility joined by "or" (from memory) and by "and" (as read for screws): 1.2 F_b of
// 3448 N and 1.2 F_n of 32 314 N; a rivet of 5000 / 1.25 N meets neither, of 6000 / 1.25 the first, of 50 000 / 1.25 both.
#[rstest]
#[case(5000.0, Verdict::NotAssessed, false)]
#[case(6000.0, Verdict::Passes, true)]
#[case(50_000.0, Verdict::Passes, false)]
fn both_readings_of_the_condition_are_told(#[case] shear_n: f64, #[case] verdict: Verdict, #[case] told: bool) {
    let mut lap = lap(1.2, 1.2, 6.4, 360.0, 100.0, 16.0);
    lap.rivet.shear_n = Some(shear_n);
    let report = check(&lap, 100.0, 0.0);
    let ductile = find(&report, "ductility in shear");
    assert_eq!(ductile.verdict, verdict);
    assert_eq!(ductile.reason.as_ref().is_some_and(|r| r.contains("\"and\"")), told);
}

// Every limit that is broken says what would keep it.
#[rstest]
#[case("end distance", lap(1.2, 1.2, 6.4, 360.0, 100.0, 9.0), "at least 9.6 mm")]
#[case("pitch", lap(1.2, 1.2, 6.4, 360.0, 19.0, 16.0), "at least 19.2 mm")]
#[case("diameter, most", lap(1.2, 1.2, 6.5, 360.0, 100.0, 16.0), "at most 6.4 mm")]
#[case("strength", lap(1.2, 1.2, 6.4, 560.0, 100.0, 16.0), "at most 550 MPa")]
fn a_broken_limit_says_what_would_keep_it(#[case] name: &str, #[case] lap: Lap, #[case] words: &str) {
    let report = check(&lap, 100.0, 0.0);
    let reason = find(&report, name).reason.clone().unwrap();
    assert!(reason.contains(words) && reason.contains("test of the lap"), "{reason}");
}
