//! Laps of three sheets and of several lines. No rule speaks of three sheets; each pair is checked for the whole load
//! (judgement, said in the result).

use crate::common::{check, find, lap, near, sheet};
use proptest::prelude::*;
use raisedbody::check::{Standing, Verdict};
use raisedbody::mechanics::joint::{Demand, Format, Lap, Loads, Method};

const EN: Method = Method::En1993_1_3;
const AISI: Method = Method::AisiS100(Format::Allowable);

fn three() -> Lap {
    Lap { middle: Some(sheet(0.9, 360.0)), ..lap(sheet(1.2, 360.0), sheet(2.0, 360.0), 4.8, 60.0, 12.0) }
}

#[test]
fn each_pair_is_a_lap_of_its_own() {
    let report = check(&three(), 900.0, 100.0, EN);
    let subjects: Vec<&str> =
        report.checks.iter().filter(|c| c.name == "bearing").map(|c| c.subject.as_str()).collect();
    assert_eq!(subjects, ["outer on middle", "middle on inner"]);
    let upper = check(&lap(sheet(1.2, 360.0), sheet(0.9, 360.0), 4.8, 60.0, 12.0), 900.0, 100.0, EN);
    let lower = check(&lap(sheet(0.9, 360.0), sheet(2.0, 360.0), 4.8, 60.0, 12.0), 900.0, 0.0, EN);
    let alone = upper.checks.iter().chain(&lower.checks);
    for (both, one) in report.checks.iter().zip(alone) {
        assert_eq!((both.name.as_ref(), both.demand, both.capacity), (one.name.as_ref(), one.demand, one.capacity));
        assert_eq!(both.standing, Standing::Assumed);
    }
    assert_eq!(report.verdict(), upper.verdict().max(lower.verdict()));
}

#[test]
fn a_middle_sheet_outside_the_range_takes_the_lap_with_it() {
    let mut thin = three();
    thin.middle = Some(sheet(0.4, 360.0));
    assert_eq!(check(&thin, 10.0, 0.0, EN).verdict(), Verdict::OutsideRange);
}

// Two lines: half the shear on each rivet, all of it on the net section, by hand: (60 − 4.9) × 1.2 × 360 / 1.25 =
// 19 042.6 N against 2 × 900.
#[test]
fn lines_share_the_shear_and_pull_on_one_net_section() {
    let one = lap(sheet(1.2, 360.0), sheet(1.2, 360.0), 4.8, 60.0, 12.0);
    let two = Lap { rows: 2, row_spacing_mm: Some(15.0), ..one.clone() };
    assert!(near(two.of_one_rivet_n(30.0), 900.0, 1e-9) && near(one.of_one_rivet_n(30.0), 1800.0, 1e-9));
    let report = check(&two, 900.0, 0.0, EN);
    let net = find(&report, "net section");
    assert!(near(net.demand.unwrap(), 1800.0, 1e-9) && near(net.capacity.unwrap(), 19_042.6, 0.05));
    assert!(near(find(&report, "bearing").demand.unwrap(), 900.0, 1e-9));
    assert_eq!((report.verdict(), find(&report, "distance of lines").verdict), (Verdict::Passes, Verdict::Passes));
    for method in [EN, AISI] {
        let close = Lap { row_spacing_mm: Some(14.3), ..two.clone() };
        let report = check(&close, 100.0, 0.0, method);
        assert_eq!(find(&report, "distance of lines").verdict, Verdict::OutsideRange);
        assert_eq!((report.verdict(), report.utilisation()), (Verdict::OutsideRange, None));
    }
}

// Lines even out only where the rivet outlasts its sheets: by every rule set, 1.2 times the sheet at most the rivet.
#[test]
fn lines_need_ductile_rivets() {
    let mut weak = lap(sheet(3.0, 360.0), sheet(3.0, 360.0), 4.8, 60.0, 12.0);
    weak.rivet.shear_n = Some(2400.0);
    for method in [AISI, Method::AisiS100Bolts(Format::Allowable)] {
        assert_eq!(check(&weak, 700.0, 0.0, method).verdict(), Verdict::Passes);
        let four = Lap { rows: 4, row_spacing_mm: Some(15.0), ..weak.clone() };
        let report = check(&four, 700.0, 0.0, method);
        assert_eq!(
            (report.verdict(), find(&report, "ductility in shear").verdict),
            (Verdict::NotAssessed, Verdict::NotAssessed)
        );
    }
}

// A rivet's own shear and tension together, as a plain sum where the rules are silent.
#[test]
fn a_rivet_sheared_and_pulled() {
    let mut joint = lap(sheet(3.0, 360.0), sheet(3.0, 360.0), 4.8, 60.0, 12.0);
    (joint.rivet.shear_n, joint.rivet.tension_n) = (Some(2400.0), Some(2800.0));
    let report = check(&joint, 0.95 * 800.0, 0.95 * 2800.0 / 3.0, AISI);
    assert_eq!(
        (report.verdict(), report.governing().unwrap().name.as_ref()),
        (Verdict::Fails, "rivet shear and tension")
    );
    assert!(near(find(&report, "rivet shear and tension").demand.unwrap(), 1.9, 1e-9));
}

#[test]
fn lines_without_their_distance_are_an_error() {
    let lost = Lap { rows: 2, ..lap(sheet(1.2, 360.0), sheet(1.2, 360.0), 4.8, 60.0, 12.0) };
    let problems = lost.check(Demand::default(), EN).unwrap_err();
    assert_eq!(problems[0].path(), "row_spacing");
    let none = Lap { rows: 0, ..lost };
    assert_eq!(none.check(Demand::default(), EN).unwrap_err()[0].path(), "rows");
}

// Levels are never mixed: a rule set without a load at its own level is an error, not a guess.
#[test]
fn side_by_side_each_at_its_own_level() {
    let joint = lap(sheet(1.2, 360.0), sheet(1.2, 360.0), 4.8, 60.0, 12.0);
    let service = Demand { shear_n: 400.0, tension_n: 40.0 };
    let loads = Loads { service: Some(service), design: Some(service.times(1.5)), ..Loads::default() };
    let reports = joint.check_by(loads, &[EN, AISI]).unwrap();
    assert_eq!(reports[0], joint.check(service.times(1.5), EN).unwrap());
    assert_eq!(reports[1], joint.check(service, AISI).unwrap());
    let problems = joint.check_by(loads, &[EN, Method::AisiS100(Format::Factored)]).unwrap_err();
    assert_eq!(problems[0].path(), "factored");
    assert_eq!(joint.check_by(loads, &[Method::Handbook]).unwrap_err()[0].path(), "ultimate");
}

proptest! {
    // The middle sheet as thick as the others makes two pairs of the same lap.
    #[test]
    fn three_equal_sheets_are_two_equal_laps(t in 0.5..3.0f64, v in 0.0..2000.0f64) {
        let pair = lap(sheet(t, 360.0), sheet(t, 360.0), 4.8, 60.0, 12.0);
        let stack = Lap { middle: Some(sheet(t, 360.0)), ..pair.clone() };
        for method in [EN, AISI] {
            let (a, b) = (check(&pair, v, 0.0, method), check(&stack, v, 0.0, method));
            prop_assert_eq!((a.verdict(), a.utilisation()), (b.verdict(), b.utilisation()));
        }
    }
}
