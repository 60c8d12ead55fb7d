//! Rivets by the bolt rules of AISI S100, J3.3 and J6, by analogy: a worked example from an engineers' archive
//! (seaintarchive.org, 2004b, msg00065: 3/8 in bolt, 0.06 in sheet, 55 ksi), values by hand, limits (from memory), laws.

use crate::common::{capacity, check, find, lap, near, sheet};
use proptest::prelude::*;
use raisedbody::check::{Level, Verdict};
use raisedbody::mechanics::joint::aisi_s100::bolts::{BEARING, DEFORMATION, bearing_factor, bearing_n, stretching_n};
use raisedbody::mechanics::joint::{Format, Lap, Method};
use rstest::rstest;

const KIP_N: f64 = 4448.2216;
const KSI_MPA: f64 = 6.894_757;
const ASD: Method = Method::AisiS100Bolts(Format::Allowable);
const LRFD: Method = Method::AisiS100Bolts(Format::Factored);

// The archive prints 2.78 and 2.24 kip nominal, 1.67 and 1.45 kip factored (phi 0.60 and 0.65).
#[test]
fn the_worked_example() {
    let (d, t, fu) = (0.375 * 25.4, 0.06 * 25.4, 55.0 * KSI_MPA);
    assert!(near(bearing_factor(d, t), 3.0, 1e-12));
    let (plain, stretched) = (bearing_n(t, d, fu), stretching_n(t, d, fu));
    assert!(near(plain / KIP_N, 2.78, 0.005), "{}", plain / KIP_N);
    assert!(near(stretched / KIP_N, 2.24, 0.005), "{}", stretched / KIP_N);
    assert!(near(BEARING.available(plain, Format::Factored) / KIP_N, 1.67, 0.005));
    assert!(
        near(DEFORMATION.available(stretched, Format::Factored) / KIP_N, 1.45, 0.006),
        "printed from rounded values"
    );
}

// C by d/t, the table from memory.
#[rstest]
#[case(9.0, 3.0)]
#[case(10.0, 3.0)]
#[case(16.0, 2.4)]
#[case(22.0, 1.8)]
#[case(30.0, 1.8)]
fn bearing_factor_by_hand(#[case] d_over_t: f64, #[case] factor: f64) {
    assert!(near(bearing_factor(d_over_t, 1.0), factor, 1e-12));
}

// t 1.2, d 4.8, Fu 360: J3.3.1 3 × 0.75 × 4.8 × 1.2 × 360 = 4665.6; J3.3.2 (4.64 × 0.0394 × 1.2 + 1.53) × 2073.6 =
// 3627.5. Allowable: 4665.6/2.50 = 1866.2, 3627.5/2.22 = 1634.0; factored 2799.4, 2357.9.
#[test]
fn a_lap_by_hand() {
    let mut joint = lap(sheet(1.2, 360.0), sheet(2.0, 360.0), 4.8, 60.0, 12.0);
    let asd = check(&joint, 500.0, 50.0, ASD);
    assert_eq!((asd.verdict(), find(&asd, "bearing").level), (Verdict::Passes, Level::Allowable));
    assert!(near(capacity(&asd, "bearing"), 1634.0, 0.05), "{}", capacity(&asd, "bearing"));
    let lrfd = check(&joint, 500.0, 50.0, LRFD);
    assert_eq!(find(&lrfd, "bearing").level, Level::Factored);
    assert!(near(capacity(&lrfd, "bearing"), 2357.9, 0.05), "{}", capacity(&lrfd, "bearing"));
    joint.choices.holes_may_stretch = true;
    assert!(near(capacity(&check(&joint, 500.0, 50.0, ASD), "bearing"), 1866.2, 0.05));
    // Rupture takes the bolts' 2.22 and 0.65; the rivet's own loads the screws' 3.00 and 0.50.
    let nominal = |name: &str, symbol: &str| {
        let terms = &find(&asd, name).terms;
        terms.iter().find(|t| t.symbol == symbol).unwrap().value
    };
    assert!(near(capacity(&asd, "tear-out") * 2.22, nominal("tear-out", "P_n"), 1e-6));
    assert!(near(capacity(&lrfd, "net section"), 0.65 * nominal("net section", "P_n"), 1e-6));
    assert!(near(capacity(&asd, "rivet shear"), 60_000.0 / 3.0, 1e-6));
    assert!(near(capacity(&lrfd, "rivet tension"), 60_000.0 * 0.5, 1e-6));
    assert!(asd.checks.iter().all(|c| c.clause.contains("by analogy") || c.clause.contains("judgement")));
}

#[rstest]
#[case("hole", |l: &mut Lap| l.rivet.hole_mm = 5.61)]
#[case("pitch", |l: &mut Lap| l.pitch_mm = 14.3)]
#[case("end distance", |l: &mut Lap| l.edge_mm = 7.1)]
#[case("thickness, least", |l: &mut Lap| l.inner = sheet(0.6, 360.0))]
#[case("thickness, most", |l: &mut Lap| l.inner = sheet(4.76, 360.0))]
fn limits(#[case] name: &str, #[case] change: fn(&mut Lap)) {
    let mut joint = lap(sheet(1.2, 360.0), sheet(2.0, 360.0), 4.8, 60.0, 12.0);
    joint.rivet.hole_mm = 5.6;
    assert_eq!(check(&joint, 100.0, 10.0, ASD).verdict(), Verdict::Passes);
    change(&mut joint);
    let report = check(&joint, 100.0, 10.0, ASD);
    assert_eq!((report.verdict(), report.utilisation()), (Verdict::OutsideRange, None));
    assert_eq!(find(&report, name).verdict, Verdict::OutsideRange);
}

proptest! {
    #[test]
    fn thicker_or_wider_never_bears_less(t in 0.61..4.7f64, d in 2.0..8.0f64, more in 1.0..1.5f64) {
        let least = |t: f64, d: f64| bearing_n(t, d, 360.0).min(stretching_n(t, d, 360.0));
        prop_assert!(least(more * t, d) >= least(t, d));
        // C falls with d/t, up to d/t = 20 slower than d grows; beyond, the rule itself turns round.
        prop_assert!(least(t, more * d) >= least(t, d) * (1.0 - 1e-12));
    }
}
