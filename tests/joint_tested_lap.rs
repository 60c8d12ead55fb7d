//! Laps checked by tests of like laps, and test families pooled by predictions (EN 1993-1-3:2006, A.6.3.2; read in
//! www.eurocode.us/structural-members/is-1.html). Loads invented; results worked by hand.

use crate::common::{aluminium, capacity, find, lap, near, rivet, sheet};
use raisedbody::check::{Level, Verdict};
use raisedbody::mechanics::joint::by_test::{
    ConnectionKind, Coupon, Distribution, Ordered, Scatter, TestSeries, Tested, resistance_factor,
};
use raisedbody::mechanics::joint::{Demand, Format, Lap, Method, Report};
use rstest::rstest;

const FIVE_N: [f64; 5] = [3620.0, 3780.0, 3550.0, 3910.0, 3690.0];

/// A quarter-inch rivet in a 17/64 in hole: outside every table here.
fn coupon() -> Lap {
    let mut coupon = lap(sheet(1.2, 360.0), sheet(1.2, 360.0), 6.35, 50.0, 13.0);
    coupon.rivet.hole_mm = 6.75;
    coupon
}

fn series() -> TestSeries {
    TestSeries::of_loads(&FIVE_N).unwrap()
}

fn design() -> Tested {
    let rk = series().characteristic(Distribution::LogNormal, Scatter::Unknown).unwrap();
    Tested::new(coupon(), rk.design(1.0, 1.25).unwrap(), Format::Allowable).unwrap()
}

fn check(lap: &Lap, shear_n: f64, tension_n: f64, tension: Option<&Tested>) -> Report {
    lap.check_by_test(Demand { shear_n, tension_n }, &design(), tension).unwrap()
}

#[test]
fn a_tested_lap_keeps_its_tests() {
    let ordered = Ordered { predicted_n: Some(3000.0), ..Ordered::default() };
    let coupons = FIVE_N.map(|load_n| Coupon { load_n, predicted_n: Some(3000.0), ..Coupon::default() });
    let family = TestSeries::new(coupons.to_vec(), ordered).unwrap();
    assert_eq!(family.ordered(), &ordered);
    assert_eq!(series().ordered(), &Ordered::default());
    let rk = series().characteristic(Distribution::LogNormal, Scatter::Unknown).unwrap().design(1.0, 1.25).unwrap();
    assert_eq!(design().result(), &rk);
    assert_eq!(design().result().n, FIVE_N.len());
}

// EN 1990 D7.2, log-normal, unknown scatter not below 0.10: 2938.9 / 1.25 = 2351.1 N.
#[test]
fn outside_the_range_becomes_an_answer() {
    let demand = Demand { shear_n: 900.0, tension_n: 0.0 };
    let by_rule = coupon().check(demand, Method::En1993_1_3).unwrap();
    assert_eq!(by_rule.verdict(), Verdict::OutsideRange);
    // What would bring it inside is said: 6.35 + 0.1.
    assert!(find(&by_rule, "hole").reason.as_ref().unwrap().contains("a drill of at most 6.45 mm"));
    let report = check(&coupon(), 900.0, 0.0, None);
    assert_eq!((report.verdict(), report.level, report.method), (Verdict::Passes, Level::Design, "tested lap"));
    assert!(near(capacity(&report, "tested lap, shear"), 2351.1, 0.05));
    assert_eq!(check(&coupon(), 2352.0, 0.0, None).verdict(), Verdict::Fails);
}

// AISI K2.1: 1383.0 N allowable, 2212.8 N factored.
#[rstest]
#[case(Format::Allowable, Level::Allowable, 1383.0)]
#[case(Format::Factored, Level::Factored, 2212.8)]
fn nominal_tests_take_the_format(#[case] format: Format, #[case] level: Level, #[case] resistance_n: f64) {
    let nominal = series().nominal_aisi_s100(ConnectionKind::NotListed).unwrap();
    let tested = Tested::new(coupon(), nominal, format).unwrap();
    assert_eq!(tested.level(), level);
    assert!(near(tested.resistance_n(), resistance_n, 0.05));
    // Its level does not go with a design value's.
    let problems = coupon().check_by_test(Demand::default(), &design(), Some(&tested)).unwrap_err();
    assert_eq!(problems[0].path(), "tested_in_tension");
}

#[test]
fn a_characteristic_value_is_not_ready() {
    let rk = series().characteristic(Distribution::LogNormal, Scatter::Unknown).unwrap();
    assert_eq!(Tested::new(coupon(), rk, Format::Allowable).unwrap_err()[0].path(), "level");
}

// A pull needs tests of its own; with them both add up, the pull at half of what was tested for repeated wind: 900/2351.1 +
// 500/1175.6 = 0.8081; at all of it where the pull is steady: 0.5955.
#[test]
fn a_pull_needs_its_own_tests() {
    let unsaid = check(&coupon(), 900.0, 500.0, None);
    assert_eq!((unsaid.verdict(), unsaid.utilisation()), (Verdict::NotAssessed, None));
    assert!(find(&unsaid, "tested lap, tension").reason.as_ref().unwrap().contains("pull heads through"));
    let both = check(&coupon(), 900.0, 500.0, Some(&design()));
    assert!(near(find(&both, "shear and tension").demand.unwrap(), 0.8081, 5e-5));
    assert_eq!(both.verdict(), Verdict::Passes);
    assert_eq!(check(&coupon(), 1200.0, 1200.0, Some(&design())).verdict(), Verdict::Fails);
    let mut steady = coupon();
    steady.choices.steady_tension = true;
    let both = check(&steady, 900.0, 500.0, Some(&design()));
    assert!(near(find(&both, "shear and tension").demand.unwrap(), 0.5955, 5e-5));
}

#[rstest]
#[case("thickness, outer", |l: &mut Lap| l.outer = sheet(1.1, 360.0))]
#[case("thickness, inner", |l: &mut Lap| l.inner = sheet(1.1, 360.0))]
#[case("strength, inner", |l: &mut Lap| l.inner = sheet(1.2, 350.0))]
#[case("metal, outer", |l: &mut Lap| l.outer = aluminium(1.2, 360.0))]
#[case("edge distance", |l: &mut Lap| l.edge_mm = 12.9)]
#[case("pitch", |l: &mut Lap| l.pitch_mm = 49.9)]
#[case("hole", |l: &mut Lap| l.rivet.hole_mm = 6.81)]
#[case("rivet", |l: &mut Lap| l.rivet = rivet(6.4, 60_000.0, 60_000.0))]
#[case("rivet", |l: &mut Lap| l.rivet.shear_n = Some(50_000.0))]
#[case("rivet", |l: &mut Lap| l.rivet.body = Some("aluminium".to_owned()))]
#[case("head", |l: &mut Lap| l.rivet.head_mm = Some(8.0))]
#[case("panel edge", |l: &mut Lap| l.choices.panel_edge = true)]
#[case("number of lines", |l: &mut Lap| { l.rows = 2; l.row_spacing_mm = Some(20.0); })]
#[case("number of sheets", |l: &mut Lap| l.middle = Some(sheet(1.2, 360.0)))]
fn a_lap_unlike_the_coupons_is_outside(#[case] limit: &str, #[case] change: fn(&mut Lap)) {
    let mut other = coupon();
    change(&mut other);
    let report = check(&other, 100.0, 0.0, None);
    assert_eq!(find(&report, limit).verdict, Verdict::OutsideRange, "{limit}");
    assert_eq!((report.verdict(), report.utilisation()), (Verdict::OutsideRange, None));
    assert_eq!(find(&report, "tested lap, shear").capacity, None);
}

// Lines closer together than those that were tested.
#[test]
fn lines_keep_the_distance_of_the_coupons() {
    let lines = |apart_mm| Lap { rows: 2, row_spacing_mm: Some(apart_mm), ..coupon() };
    let rk = series().characteristic(Distribution::LogNormal, Scatter::Unknown).unwrap();
    let tested = Tested::new(lines(40.0), rk.design(1.0, 1.25).unwrap(), Format::Allowable).unwrap();
    let verdict = |apart_mm| lines(apart_mm).check_by_test(Demand { shear_n: 900.0, tension_n: 0.0 }, &tested, None);
    assert_eq!(verdict(40.0).unwrap().verdict(), Verdict::Passes);
    let close = verdict(19.0).unwrap();
    assert_eq!(
        (close.verdict(), find(&close, "distance of lines").verdict),
        (Verdict::OutsideRange, Verdict::OutsideRange)
    );
}

// Coupons that scatter more than was said to be known count with their own scatter, and the check says so: V 0.395, sy
// 0.3810, exp(mean of logarithms − 1.80 × 0.3810).
#[test]
fn a_known_scatter_is_not_below_the_coupons_own() {
    let wild = TestSeries::of_loads(&[2000.0, 3000.0, 4000.0, 5000.0, 6000.0]).unwrap();
    let rk = |v| wild.characteristic(Distribution::LogNormal, Scatter::Known(v)).unwrap();
    assert!(near(rk(0.05).value_n, rk(0.395_284_707_521_047_4).value_n, 1e-6));
    assert!(rk(0.05).value_n < 2000.0 && rk(0.05).notes.iter().any(|n| n.contains("their own is taken")));
    let tested = Tested::new(coupon(), rk(0.05).design(1.0, 1.25).unwrap(), Format::Allowable).unwrap();
    let report = coupon().check_by_test(Demand { shear_n: 900.0, tension_n: 0.0 }, &tested, None).unwrap();
    assert!(report.explain().contains("their own is taken"));
}

// More of everything is no less than what was tested.
#[test]
fn a_stouter_lap_is_covered() {
    let mut stout = coupon();
    (stout.outer, stout.inner) = (sheet(1.5, 400.0), sheet(2.0, 360.0));
    (stout.pitch_mm, stout.edge_mm, stout.rivet.hole_mm) = (80.0, 20.0, 6.7);
    assert_eq!(check(&stout, 900.0, 0.0, None).verdict(), Verdict::Passes);
}

/// Two families, 1.0 and 1.5 mm, each load a little above its own prediction: ratios 1.10, 1.05, 1.15, 1.10.
fn pooled(joint_n: f64) -> TestSeries {
    let coupon = |load_n, predicted_n| Coupon { load_n, predicted_n: Some(predicted_n), ..Coupon::default() };
    let coupons = vec![coupon(2200.0, 2000.0), coupon(2100.0, 2000.0), coupon(4600.0, 4000.0), coupon(4400.0, 4000.0)];
    TestSeries::new(coupons, Ordered { predicted_n: Some(joint_n), ..Ordered::default() }).unwrap()
}

// A.6.3.2 by hand: mean 1.10 × 3000 = 3300; s = √(2 × 0.05² / 3) × 3000 = 122.47; k of 4 results 2.63: Rk = 2977.9.
#[test]
fn families_are_pooled_by_their_predictions() {
    let result = pooled(3000.0).characteristic_en_1993_1_3(0.7).unwrap();
    assert!(near(result.mean_n, 3300.0, 1e-9) && near(result.value_n, 2977.9, 0.05), "{}", result.value_n);
    assert!(result.notes[0].contains("A.6.3.2") && result.notes[0].contains("1.1000"));
    // A joint of 4/3 the prediction has 4/3 the resistance.
    let more = pooled(4000.0).characteristic_en_1993_1_3(0.7).unwrap();
    assert!(near(more.value_n, 4.0 / 3.0 * result.value_n, 1e-6));
}

// AISI K2.1 confirms a formula with Pm, the mean of test over prediction: Pm 1.10 on the prediction of 3000 N is the mean
// of the pooled loads.
#[test]
fn a_formula_is_confirmed_by_its_tests() {
    let nominal = pooled(3000.0).nominal_aisi_s100(ConnectionKind::NotListed).unwrap();
    let phi = resistance_factor(ConnectionKind::NotListed, 4, 122.474 / 3300.0).unwrap();
    assert!(near(nominal.factored_n().unwrap(), phi * 1.10 * 3000.0, 0.05));
}

#[test]
fn predictions_hold_what_was_measured() {
    let both = Coupon { load_n: 2200.0, predicted_n: Some(2000.0), thickness_mm: Some(1.2), strength_mpa: None };
    let ordered = Ordered { predicted_n: Some(3000.0), thickness_mm: Some(1.2), strength_mpa: None };
    let problems = TestSeries::new(vec![both, both], ordered).unwrap_err();
    assert_eq!(problems[0].path(), "coupons");
    // Families prove the formula between them, not beyond.
    let far = Coupon { predicted_n: Some(2000.0), load_n: 2200.0, ..Coupon::default() };
    for joint_n in [1900.0, 2100.0] {
        let ordered = Ordered { predicted_n: Some(joint_n), ..Ordered::default() };
        assert_eq!(TestSeries::new(vec![far], ordered).unwrap_err()[0].path(), "ordered.predicted");
    }
    let alone = Coupon { predicted_n: Some(2000.0), load_n: 2200.0, ..Coupon::default() };
    let problems = TestSeries::new(vec![alone], Ordered::default()).unwrap_err();
    assert_eq!(problems[0].path(), "ordered.predicted");
}
