//! Rivets by the screw rules of AISI S100-16, J4 and J6, by analogy: values worked by hand, constants printed on a
//! code office's sheet (lfportal.everettwa.gov, document 1550732, page 46), limits (from memory), and laws.

use proptest::prelude::*;
use raisedbody::catalogue::{Catalogue, Rows};
use raisedbody::check::{Check, Level, Standing, Verdict};
use raisedbody::error::Problem;
use raisedbody::mechanics::joint::aisi_s100::{
    LowerAnchor, SCREWS, net_section_n, pull_over_n, tear_out_n, tilting_and_bearing_n,
};
use raisedbody::mechanics::joint::{BlindRivet, Demand, Format, Lap, Method, Report, RivetOrder};
use raisedbody::mechanics::sheet::{Sheet, SheetOrder};
use rstest::rstest;

const REAL: LowerAnchor = LowerAnchor::RealParts;
const EQUAL: LowerAnchor = LowerAnchor::EqualParts;

fn sheet(mm: f64, fu_mpa: Option<f64>) -> Sheet {
    let order = SheetOrder { thickness_mm: Some(mm), fu_mpa, ..SheetOrder::default() };
    Sheet::new(&order, &Catalogue::standard().unwrap(), "").unwrap()
}

fn lap(t_outer: f64, t_inner: f64, d: f64, fu_mpa: f64, pitch: f64, edge: f64) -> Lap {
    let order = RivetOrder {
        diameter_mm: d,
        shear_n: Some(60_000.0),
        tension_n: Some(60_000.0),
        head_mm: Some(2.0 * d),
        hole_mm: Some(d + 0.1),
        ..RivetOrder::default()
    };
    let rivet = BlindRivet::new(&order, &Catalogue::standard().unwrap(), "").unwrap();
    Lap::new(sheet(t_outer, Some(fu_mpa)), sheet(t_inner, Some(fu_mpa)), rivet, pitch, edge).unwrap()
}

fn check(lap: &Lap, shear_n: f64, tension_n: f64) -> Report {
    lap.check(Demand { shear_n, tension_n }, Method::AisiS100(Format::Allowable)).unwrap()
}

fn find<'a>(report: &'a Report, name: &str) -> &'a Check {
    report.checks.iter().find(|c| c.name == name).unwrap()
}

// J4.3.1 by hand, equal sheets, Fu 360: 4.2 √(t³ d) Fu decides over 2.7 t d Fu in both rows.
#[rstest]
#[case(0.9, 4.8, 2828.0)]
#[case(1.2, 6.4, 5028.0)]
fn tilting_by_hand(#[case] t: f64, #[case] d: f64, #[case] nominal: f64) {
    for anchor in [EQUAL, REAL] {
        assert!((tilting_and_bearing_n(t, t, d, 360.0, 360.0, anchor) - nominal).abs() < 0.5);
    }
}

#[test]
fn check_divides_by_the_safety_factor_and_is_marked_an_analogy() {
    let report = check(&lap(0.9, 0.9, 4.8, 360.0, 60.0, 12.0), 900.0, 0.0);
    let bearing = find(&report, "bearing");
    assert!((bearing.capacity.unwrap() - 2828.0 / 3.0).abs() < 0.5);
    assert!(bearing.clause.contains("by analogy"));
    assert!(bearing.standing >= Standing::Memory);
    assert_eq!(bearing.verdict, Verdict::Passes);
}

// Pull-over, t1 1.2, d'w 13.4, Fu 360: nominal 8683 N; allowable 2894 N; at a panel edge half of that, 1447 N.
#[test]
fn pull_over_by_hand() {
    assert!((pull_over_n(1.2, 13.4, 360.0, false) - 8683.0).abs() < 0.5);
    assert!((pull_over_n(1.2, 13.4, 360.0, false) / SCREWS.omega - 2894.0).abs() < 0.5);
    assert!((pull_over_n(1.2, 13.4, 360.0, true) / SCREWS.omega - 1447.0).abs() < 0.5);
    let mut lap = lap(1.2, 1.2, 6.35, 360.0, 100.0, 16.0);
    lap.rivet.head_mm = Some(13.4);
    assert!((find(&check(&lap, 0.0, 1.0), "pull-over").capacity.unwrap() - 2894.4).abs() < 0.05);
    lap.choices.panel_edge = true;
    assert!((find(&check(&lap, 0.0, 1.0), "pull-over").capacity.unwrap() - 1447.2).abs() < 0.05);
    // J4.4.2 counts a head of 3/4 in (19.1 mm) at most.
    assert!((pull_over_n(1.0, 25.0, 100.0, false) - pull_over_n(1.0, 19.1, 100.0, false)).abs() < 1e-9);
}

// The code office prints allowable strengths, the rule divided by 3: 1.4 √(t2³ d) Fu2; 0.9 t1 d Fu1; 0.9 t2 d Fu2;
// pull-over 0.5 t1 dw Fu1.
#[test]
fn printed_constants_are_a_third() {
    let (t, d, fu) = (0.8, 5.0, 300.0);
    let tilting = tilting_and_bearing_n(t, t, d, fu, fu, EQUAL) / SCREWS.omega;
    assert!((tilting - 1.4 * (f64::powi(t, 3) * d).sqrt() * fu).abs() < 1e-9);
    let head_side = tilting_and_bearing_n(t, 2.5 * t, d, fu, fu, EQUAL) / SCREWS.omega;
    assert!((head_side - 0.9 * t * d * fu).abs() < 1e-9);
    let far_side = tilting_and_bearing_n(t, 2.5 * t, d, fu, 0.3 * fu, EQUAL) / SCREWS.omega;
    assert!((far_side - 0.9 * 2.5 * t * d * 0.3 * fu).abs() < 1e-9);
    assert!((pull_over_n(t, 12.0, fu, false) / SCREWS.omega - 0.5 * t * 12.0 * fu).abs() < 1e-9);
}

// J6 by hand, t 1.2, Fu 360, edge 16, hole 6.8: tear-out 0.6 × 360 × 2 × 1.2 × (16 - 6.8/2) = 6531.8 N;
// net section 360 × 1.2 × (100 - 6.8) × 2.5 × 6.4/100 = 6442.0 N, and without shear lag from s = 2.5 d down.
#[test]
fn rupture_by_hand() {
    assert!((tear_out_n(16.0, 6.8, 432.0) - 6531.84).abs() < 0.005);
    assert!((net_section_n(100.0, 6.8, 6.4, 432.0) - 6441.98).abs() < 0.005);
    assert!((net_section_n(16.0, 6.8, 6.4, 432.0) - 432.0 * 9.2).abs() < 1e-9);
    assert!(tear_out_n(3.0, 6.8, 432.0).abs() < 1e-12 && net_section_n(6.0, 6.8, 6.4, 432.0).abs() < 1e-12);
}

// J4: 0.08 to 0.25 in (2.03 to 6.35 mm), spacing 3 d, edge 1.5 d.
#[rstest]
#[case("diameter, least", lap(1.2, 1.2, 2.03, 360.0, 50.0, 16.0), lap(1.2, 1.2, 2.02, 360.0, 50.0, 16.0))]
#[case("diameter, most", lap(1.2, 1.2, 0.25 * 25.4, 360.0, 50.0, 16.0), lap(1.2, 1.2, 6.4, 360.0, 50.0, 16.0))]
#[case("pitch", lap(1.2, 1.2, 4.8, 360.0, 14.4, 16.0), lap(1.2, 1.2, 4.8, 360.0, 14.39, 16.0))]
#[case("end distance", lap(1.2, 1.2, 6.3, 360.0, 50.0, 9.45), lap(1.2, 1.2, 6.3, 360.0, 50.0, 9.44))]
fn limits(#[case] name: &str, #[case] inside: Lap, #[case] outside: Lap) {
    assert_eq!(check(&inside, 1.0, 1.0).verdict(), Verdict::Passes, "{name}");
    let report = check(&outside, 1.0, 1.0);
    assert_eq!((find(&report, name).verdict, report.verdict()), (Verdict::OutsideRange, Verdict::OutsideRange));
    assert_eq!((report.governing().unwrap().name.as_ref(), report.utilisation()), (name, None));
    assert_eq!(find(&report, "bearing").capacity, None);
}

// J4.5.1 where it applies: V/(2.7 t1 d Fu1) + 0.71 T/(1.5 t1 dw Fu1) ≤ 1.10/2.35. By hand for t1 1.0, t2 2.5, d 6.0,
// dw 12, Fu 360, V 900 N, T 500 N: 900/5832 + 0.71 × 500/6480 = 0.209105 against 0.46809.
#[test]
fn combined_rule_by_hand() {
    let report = check(&lap(1.0, 2.5, 6.0, 360.0, 100.0, 16.0), 900.0, 500.0);
    let both = find(&report, "shear and tension");
    assert!(both.clause.contains("J4.5.1, by analogy"));
    assert!((both.demand.unwrap() - 0.209_105).abs() < 5e-7);
    assert!((both.capacity.unwrap() - 0.468_09).abs() < 5e-6);
}

// Each limit of J4.5.1 crossed alone: sheet 0.724 to 1.13 mm, t2/t1 ≥ 2.5, Fu1 ≤ 483 MPa, No. 12 screw (5.4 mm) up,
// head up to 19.1 mm. Outside, the plain sum of both utilisations stands in and is marked as judgement.
#[rstest]
#[case(lap(0.724, 2.5, 6.0, 360.0, 100.0, 16.0), true)]
#[case(lap(0.723, 2.5, 6.0, 360.0, 100.0, 16.0), false)]
#[case(lap(1.13, 2.825, 6.0, 360.0, 100.0, 16.0), true)]
#[case(lap(1.14, 2.9, 6.0, 360.0, 100.0, 16.0), false)]
#[case(lap(1.0, 2.49, 6.0, 360.0, 100.0, 16.0), false)]
#[case(lap(1.0, 2.5, 6.0, 483.0, 100.0, 16.0), true)]
#[case(lap(1.0, 2.5, 6.0, 484.0, 100.0, 16.0), false)]
#[case(lap(1.0, 2.5, 5.39, 360.0, 100.0, 16.0), false)]
#[case({ let mut l = lap(1.0, 2.5, 6.0, 360.0, 100.0, 16.0); l.rivet.head_mm = Some(19.2); l }, false)]
fn combined_rule_within_its_limits_only(#[case] lap: Lap, #[case] applies: bool) {
    let report = check(&lap, 900.0, 500.0);
    let both = find(&report, "shear and tension");
    assert_eq!(both.clause.contains("J4.5.1, by analogy"), applies, "{}", both.clause);
    if !applies {
        let parts = find(&report, "bearing").utilisation().unwrap() + find(&report, "pull-over").utilisation().unwrap();
        assert!((both.demand.unwrap() - parts).abs() < 1e-12);
        assert_eq!((both.capacity, both.standing), (Some(1.0), Standing::Assumed));
    }
}

#[rstest]
#[case(None, Some(360.0), &["bearing", "net section", "tear-out", "pull-over", "shear and tension"])]
#[case(Some(360.0), None, &["bearing", "net section", "tear-out", "shear and tension"])]
fn unknown_strength_is_not_assessed(#[case] outer: Option<f64>, #[case] inner: Option<f64>, #[case] unknown: &[&str]) {
    let mut lap = lap(1.2, 1.2, 6.0, 360.0, 100.0, 16.0);
    (lap.outer.fu_mpa, lap.inner.fu_mpa) = (outer, inner);
    let report = check(&lap, 1.0, 1.0);
    for name in unknown {
        assert_eq!(find(&report, name).verdict, Verdict::NotAssessed, "{name}");
    }
    assert_eq!((report.verdict(), report.utilisation()), (Verdict::NotAssessed, None));
}

// A row of the user's own is asked as his direct values are.
#[test]
fn own_rivet_rows_are_bounded() {
    let row = "rivet = [ { product = \"own\", diameter = \"4.8 mm\", shear = \"-9 N\", tension = \"900 N\", head = \"4 mm\", \
               hole_least = \"4 mm\", sealed = true, structural = true, body = \"steel\", mandrel = \"steel\", \
               source = \"own\", standing = \"given by the user\" } ]";
    let catalogue = Catalogue::standard().unwrap().extended(&Rows::parse(row).unwrap());
    let order = RivetOrder { diameter_mm: 4.8, product: Some("own".to_owned()), ..RivetOrder::default() };
    let problems = BlindRivet::new(&order, &catalogue, "fastening").unwrap_err();
    let paths: Vec<&str> = problems.iter().map(Problem::path).collect();
    assert_eq!(paths, ["fastening.shear", "fastening.head", "fastening.hole"]);
}

#[rstest]
#[case("rivet shear")]
#[case("rivet tension")]
#[case("pull-over")]
fn unknown_rivet_values_are_not_assessed(#[case] name: &str) {
    let mut lap = lap(1.2, 1.2, 6.0, 360.0, 100.0, 16.0);
    match name {
        "rivet shear" => lap.rivet.shear_n = None,
        "rivet tension" => lap.rivet.tension_n = None,
        _ => lap.rivet.head_mm = None,
    }
    let report = check(&lap, 1.0, 1.0);
    assert_eq!((find(&report, name).verdict, report.verdict()), (Verdict::NotAssessed, Verdict::NotAssessed));
}

proptest! {
    #[test]
    fn strength_does_not_jump(t1 in 0.3..3.0f64, d in 2.1..6.3f64, fu1 in 250.0..550.0f64, fu2 in 250.0..550.0f64) {
        let step = 1e-9;
        for ratio in [1.0, 2.5] {
            for anchor in [EQUAL, REAL] {
                let [below, above] = [ratio - step, ratio + step]
                    .map(|r| tilting_and_bearing_n(t1, r * t1, d, fu1, fu2, anchor));
                prop_assert!((above - below).abs() <= 1e-7 * above, "t2/t1 {ratio}: {below} to {above}");
            }
        }
    }

    #[test]
    fn the_lower_anchor_is_the_lower(t1 in 0.3..3.0f64, ratio in 0.2..4.0f64, d in 2.1..6.3f64,
                                     fu1 in 250.0..550.0f64, fu2 in 250.0..550.0f64) {
        let [equal, real] = [EQUAL, REAL].map(|a| tilting_and_bearing_n(t1, ratio * t1, d, fu1, fu2, a));
        prop_assert!(equal <= real * (1.0 + 1e-12));
        // Never above the bearing of either part.
        prop_assert!(real <= 2.7 * d * (t1 * fu1).min(ratio * t1 * fu2) * (1.0 + 1e-12));
    }

    #[test]
    fn a_thicker_far_part_never_lowers_it(t1 in 0.3..3.0f64, ratio in 0.2..4.0f64, more in 0.0..1.0f64, d in 2.1..6.3f64) {
        let [thin, thick] = [ratio, ratio + more].map(|r| tilting_and_bearing_n(t1, r * t1, d, 360.0, 360.0, EQUAL));
        prop_assert!(thick >= thin * (1.0 - 1e-12));
    }

    #[test]
    fn nothing_passes_outside_the_range_and_no_utilisation_is_nan(
        (t, t1, d) in (0.2..6.0f64, 0.2..6.0f64, 1.5..12.0f64),
        (fu, p, e) in (20.0..800.0f64, 1.0..1000.0f64, 1.0..300.0f64),
        (v, f) in (0.0..1e5f64, 0.0..1e5f64),
    ) {
        let report = check(&lap(t, t1, d, fu, p, e), v, f);
        let sheets = [t, t1].iter().all(|t| (0.45..=4.76).contains(t)) && fu <= 550.0;
        let within = (2.03..=6.35).contains(&d) && p >= 3.0 * d && e >= 1.5 * d && sheets;
        prop_assert_eq!(report.verdict() != Verdict::OutsideRange, within);
        prop_assert_eq!(report.utilisation().is_some(), within);
        prop_assert!(report.checks.iter().filter_map(Check::utilisation).all(f64::is_finite));
    }
}

// The same nominal strength, 2828 N (t 0.9, d 4.8, Fu 360): over 3.00 against service loads, times 0.50 against factored
// ones; J4.5.1 with 1.10 / 2.35 and 1.10 × 0.65.
#[test]
fn both_formats_start_from_one_nominal_strength() {
    let lap = lap(0.9, 0.9, 4.8, 360.0, 60.0, 12.0);
    let by = |format| lap.check(Demand { shear_n: 300.0, tension_n: 0.0 }, Method::AisiS100(format)).unwrap();
    let (asd, lrfd) = (by(Format::Allowable), by(Format::Factored));
    assert!((find(&asd, "bearing").capacity.unwrap() - 942.7).abs() < 0.2);
    assert!((find(&lrfd, "bearing").capacity.unwrap() - 1414.0).abs() < 0.3);
    assert_eq!((asd.level, lrfd.level), (Level::Allowable, Level::Factored));
    for (a, b) in asd.checks.iter().zip(&lrfd.checks).filter(|(a, _)| a.unit == "N") {
        assert!((b.capacity.unwrap() / a.capacity.unwrap() - 1.5).abs() < 1e-12, "{}", a.name);
        assert!(a.terms.iter().any(|t| t.symbol.starts_with("P_n")), "{} shows its nominal strength", a.name);
    }
    let thin_on_thick = self::lap(1.0, 2.5, 6.0, 360.0, 60.0, 12.0);
    let both = |format| {
        let report =
            thin_on_thick.check(Demand { shear_n: 900.0, tension_n: 500.0 }, Method::AisiS100(format)).unwrap();
        find(&report, "shear and tension").capacity.unwrap()
    };
    assert!((both(Format::Allowable) - 1.10 / 2.35).abs() < 1e-12);
    assert!((both(Format::Factored) - 1.10 * 0.65).abs() < 1e-12);
}

// Between equal parts and t2 = 2.5 t1 the rule's lower end is read in two ways; the lower is taken unless asked, and which
// it is is said.
#[test]
fn the_reading_of_the_lower_anchor_is_the_users() {
    let mut lap = lap(1.0, 1.6, 6.0, 360.0, 60.0, 12.0);
    let bearing = |lap: &Lap| find(&check(lap, 1.0, 0.0), "bearing").clone();
    let low = bearing(&lap);
    lap.choices.lower_anchor = LowerAnchor::RealParts;
    let high = bearing(&lap);
    assert!(high.capacity > low.capacity);
    assert!(low.formula.contains("lower reading") && high.formula.contains("higher reading"));
    let nominal = tilting_and_bearing_n(1.0, 1.6, 6.0, 360.0, 360.0, REAL);
    assert!((high.capacity.unwrap() * 3.0 - nominal).abs() < 1e-9);
}

// Both shear-lag factors of a single row stand in the calculation: 2.5 d/s = 0.2 used, 0.9 + 0.1 d/s = 0.908 not.
#[test]
fn both_shear_lag_factors_are_shown() {
    let report = check(&lap(0.9, 0.9, 4.8, 360.0, 60.0, 12.0), 1.0, 0.0);
    let terms = &find(&report, "net section").terms;
    let value = |word: &str| terms.iter().find(|t| t.symbol.contains(word)).unwrap().value;
    assert!((value(", used") - 0.2).abs() < 1e-12 && (value("not used") - 0.908).abs() < 1e-12);
}
