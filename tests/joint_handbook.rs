//! Bearing by the handbook's form: limits of MIL-HDBK-5H (t/D at least 0.18, read; e/D 1.5 to 2.0, from memory), values by
//! hand, laws. The bearing strengths are invented: the form takes the user's.

use crate::common::{capacity, check, find, lap, near, sheet};
use proptest::prelude::*;
use raisedbody::check::{Level, Verdict};
use raisedbody::mechanics::joint::handbook::bearing_stress_mpa;
use raisedbody::mechanics::joint::{Demand, Lap, Method};
use rstest::rstest;

const METHOD: Method = Method::Handbook;
const STRENGTHS: [f64; 2] = [600.0, 800.0];

fn joint(t: f64, d: f64, edge: f64) -> Lap {
    let mut joint = lap(sheet(t, 360.0), sheet(t, 360.0), d, 60.0, edge);
    joint.rivet.hole_mm = d;
    joint.choices.handbook_bearing_mpa = Some(STRENGTHS);
    joint
}

// Linear between 600 and 800 MPa, no credit above 2.0.
#[rstest]
#[case(1.5, 600.0)]
#[case(1.75, 700.0)]
#[case(2.0, 800.0)]
#[case(3.0, 800.0)]
fn stress_by_edge_distance(#[case] edge: f64, #[case] mpa: f64) {
    assert!(near(bearing_stress_mpa(edge, STRENGTHS), mpa, 1e-9));
    // 4.8 × 1.0 mm of bearing area.
    let report = check(&joint(1.0, 4.8, edge * 4.8), 100.0, 0.0, METHOD);
    assert!(near(capacity(&report, "bearing"), mpa * 4.8, 1e-6));
    assert_eq!((report.verdict(), find(&report, "bearing").level), (Verdict::Passes, Level::Minimum));
    assert!(near(capacity(&report, "rivet shear"), 60_000.0, 1e-9), "undivided");
}

#[test]
fn below_one_and_a_half_is_for_a_test() {
    assert!(bearing_stress_mpa(1.49, STRENGTHS).is_nan());
    let report = check(&joint(1.0, 4.8, 7.1), 100.0, 0.0, METHOD);
    assert_eq!(find(&report, "edge over diameter").verdict, Verdict::OutsideRange);
    assert_eq!((report.verdict(), find(&report, "bearing").capacity), (Verdict::OutsideRange, None));
}

// 0.9 mm sheet with a 6.4 mm rivet is t/D = 0.14: outside. 1.2 mm is 0.1875: inside.
#[test]
fn thin_sheet_is_outside() {
    let report = check(&joint(0.9, 6.4, 16.0), 100.0, 0.0, METHOD);
    let limit = find(&report, "thickness over diameter");
    assert_eq!(limit.verdict, Verdict::OutsideRange);
    assert!(near(limit.capacity.unwrap(), 0.14, 0.005));
    assert_eq!(check(&joint(1.2, 6.4, 16.0), 100.0, 0.0, METHOD).verdict(), Verdict::Passes);
}

#[test]
fn what_it_has_no_rule_for() {
    let report = check(&joint(1.2, 6.4, 16.0), 100.0, 10.0, METHOD);
    assert_eq!(find(&report, "no tension").verdict, Verdict::OutsideRange);
    let mut without = joint(1.2, 6.4, 16.0);
    without.choices.handbook_bearing_mpa = None;
    let report = check(&without, 100.0, 0.0, METHOD);
    assert_eq!((report.verdict(), report.utilisation()), (Verdict::NotAssessed, None));
    assert!(find(&report, "bearing").reason.as_ref().unwrap().contains("give the handbook"));
}

#[rstest]
#[case([800.0, 600.0], "which is which")]
#[case([f64::NAN, 600.0], "out of range")]
#[case([-1.0, 600.0], "out of range")]
fn strengths_that_are_none(#[case] strengths: [f64; 2], #[case] words: &str) {
    let mut wrong = joint(1.2, 6.4, 16.0);
    wrong.choices.handbook_bearing_mpa = Some(strengths);
    let problems = wrong.check(Demand::default(), METHOD).unwrap_err();
    assert_eq!(problems[0].path(), "handbook_bearing");
    assert!(problems[0].to_string().contains(words), "{}", problems[0]);
}

proptest! {
    #[test]
    fn more_edge_never_bears_less(edge in 1.5..3.0f64, more in 0.0..1.0f64) {
        prop_assert!(bearing_stress_mpa(edge + more, STRENGTHS) >= bearing_stress_mpa(edge, STRENGTHS));
    }
}
