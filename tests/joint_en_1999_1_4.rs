//! Rivets in aluminium by EN 1999-1-4:2007, clause 8: values worked by hand from its formulas, limits (from memory), and
//! laws. The form of the bearing rule, its interpolation and caps: 123docz.net/trich-doan/4647693 (screw clause 8.3.2).

use crate::common::{aluminium, capacity, check, find, lap, near, sheet};
use proptest::prelude::*;
use raisedbody::check::{Standing, Verdict};
use raisedbody::mechanics::joint::en_1999_1_4::{
    aluminium_rivet_shear_n, aluminium_rivet_tension_n, bearing_n, net_section_n, pull_through_n,
};
use raisedbody::mechanics::joint::{Lap, Method};
use rstest::rstest;

const METHOD: Method = Method::En1999_1_4;

// γM3 1.25. Columns: t, t_sup, d, fu, F_b,Rd.
#[rstest]
// 2.5 × 220 × √4.8 / 1.25 = 964.0
#[case::equal(1.0, 1.0, 4.8, 220.0, 964.0)]
// 2.5 √(t³ d) = 2.5 × √(8 × 3) = 12.247 exceeds 1.5 t d = 9: 9 × 200 / 1.25
#[case::equal_capped(2.0, 2.0, 3.0, 200.0, 1440.0)]
// 1.5 × 220 × 4.8 / 1.25
#[case::thick_support(1.0, 2.5, 4.8, 220.0, 1267.2)]
#[case::thicker_still(1.0, 4.0, 4.8, 220.0, 1267.2)]
// Half way from 964.0 to 1267.2: t_sup = 1.75
#[case::between(1.0, 1.75, 4.8, 220.0, 1115.6)]
// 260 MPa counts of 300: 2.5 × 260 × √4.8 / 1.25
#[case::strength_capped(1.0, 1.0, 4.8, 300.0, 1139.3)]
// A thinner support is taken for both.
#[case::thin_support(1.5, 1.0, 4.8, 220.0, 964.0)]
fn bearing_by_hand(#[case] t: f64, #[case] support: f64, #[case] d: f64, #[case] fu: f64, #[case] design: f64) {
    assert!(near(bearing_n(t, support, d, fu), design, 0.05), "{}", bearing_n(t, support, d, fu));
    let report = check(&lap(aluminium(t, fu), aluminium(support, fu), d, 100.0, 20.0), 1.0, 0.0, METHOD);
    assert!(near(capacity(&report, "bearing"), design, 0.05));
    assert_eq!(find(&report, "bearing").standing, Standing::Memory);
}

// (100 - 4.9) × 1.0 × 220 / 1.25; 38 × 4.8² / 1.25 and 47 × 4.8² / 1.25; 2.35 × 1.0 × 220 / 1.25, and 0.7 of it at an
// edge. Rivet and pull-through rules are from memory and uncertain.
#[test]
fn the_other_resistances_by_hand() {
    assert!(near(net_section_n(100.0, 4.9, 220.0), 16_737.6, 0.05));
    assert!(near(aluminium_rivet_shear_n(4.8), 700.4, 0.05));
    assert!(near(aluminium_rivet_tension_n(4.8), 866.3, 0.05));
    assert!(near(pull_through_n(1.0, 220.0, false), 413.6, 0.05));
    assert!(near(pull_through_n(1.0, 300.0, false), 413.6, 0.05), "220 MPa count at most");
    assert!(near(pull_through_n(1.0, 220.0, true), 289.5, 0.05));
}

#[test]
fn an_aluminium_body_lowers_what_the_product_states() {
    let mut joint = lap(aluminium(1.2, 215.0), aluminium(1.2, 215.0), 4.8, 60.0, 12.0);
    for body in ["steel", "stainless steel A2", "nickel-copper alloy"] {
        joint.rivet.body = Some(body.to_owned());
        assert!(near(capacity(&check(&joint, 1.0, 0.0, METHOD), "rivet shear"), 60_000.0 / 1.25, 1e-9));
    }
    // By any other word, or none, the weaker metal is meant.
    for body in [None, Some("AlMg3.5"), Some("aluminum"), Some("aluminium alloy")] {
        joint.rivet.body = body.map(str::to_owned);
        assert!(near(capacity(&check(&joint, 1.0, 0.0, METHOD), "rivet shear"), 700.4, 0.05));
    }
    let report = check(&joint, 1.0, 0.0, METHOD);
    assert!(near(capacity(&report, "rivet shear"), 700.4, 0.05));
    assert!(near(capacity(&report, "rivet tension"), 866.3, 0.05));
    joint.rivet.shear_n = Some(500.0);
    assert!(near(capacity(&check(&joint, 1.0, 0.0, METHOD), "rivet shear"), 400.0, 1e-9));
}

// T / F_p + V / min(F_b, F_net): 100/413.6 + 300/964.0 = 0.5530.
#[test]
fn shear_and_tension_add_up() {
    let report = check(&lap(aluminium(1.0, 220.0), aluminium(1.0, 220.0), 4.8, 60.0, 12.0), 300.0, 100.0, METHOD);
    assert!(near(find(&report, "shear and tension").demand.unwrap(), 0.5530, 5e-5));
    assert_eq!(report.verdict(), Verdict::Passes);
    assert_eq!(report.governing().unwrap().name, "shear and tension");
}

#[rstest]
#[case("hole", |l: &mut Lap| l.rivet.hole_mm = 5.0)]
#[case("diameter, most", |l: &mut Lap| { l.rivet.diameter_mm = 6.5; l.rivet.hole_mm = 6.6; l.rivet.head_mm = Some(13.0); })]
#[case("diameter, least", |l: &mut Lap| { l.rivet.diameter_mm = 2.5; l.rivet.hole_mm = 2.6; })]
#[case("end distance", |l: &mut Lap| l.edge_mm = 9.5)]
#[case("pitch", |l: &mut Lap| l.pitch_mm = 14.3)]
#[case("head, least", |l: &mut Lap| l.rivet.head_mm = Some(9.4))]
#[case("thickness, pulled", |l: &mut Lap| l.outer = aluminium(1.6, 220.0))]
#[case("thickness, least", |l: &mut Lap| l.inner = aluminium(0.45, 220.0))]
#[case("material", |l: &mut Lap| l.outer = sheet(1.0, 220.0))]
#[case("material", |l: &mut Lap| l.inner.material = "stainless steel".to_owned())]
fn outside_the_range_nothing_is_said(#[case] limit: &str, #[case] change: fn(&mut Lap)) {
    let mut joint = lap(aluminium(1.0, 220.0), aluminium(1.0, 220.0), 4.8, 60.0, 12.0);
    joint.rivet.head_mm = Some(10.0);
    assert_eq!(check(&joint, 100.0, 10.0, METHOD).verdict(), Verdict::Passes);
    change(&mut joint);
    let report = check(&joint, 100.0, 10.0, METHOD);
    assert_eq!((report.verdict(), report.utilisation()), (Verdict::OutsideRange, None));
    assert_eq!(find(&report, limit).verdict, Verdict::OutsideRange);
    assert!(find(&report, limit).reason.as_ref().unwrap().contains("test"));
    assert_eq!(find(&report, "bearing").capacity, None);
}

// The head and the sheet's thickness matter where the head is pulled.
#[test]
fn without_a_pull_the_head_may_be_small() {
    let mut joint = lap(aluminium(1.6, 220.0), sheet(2.0, 330.0), 4.8, 60.0, 12.0);
    joint.rivet.head_mm = None;
    assert_eq!(check(&joint, 100.0, 0.0, METHOD).verdict(), Verdict::Passes);
    joint.outer = aluminium(1.5, 220.0);
    assert_eq!(check(&joint, 100.0, 10.0, METHOD).verdict(), Verdict::NotAssessed);
}

proptest! {
    #[test]
    fn thicker_never_bears_less(t in 0.5..3.0f64, s in 0.5..5.0f64, more in 1.0..1.5f64, d in 2.6..6.4f64) {
        prop_assert!(bearing_n(more * t, more * s, d, 200.0) >= bearing_n(t, s, d, 200.0) * (1.0 - 1e-12));
        prop_assert!(bearing_n(t, more * s, d, 200.0) >= bearing_n(t, s, d, 200.0) * (1.0 - 1e-12));
    }

    // No jump at equal sheets, at a support of 2.5 t, or at the cap on the strength.
    #[test]
    fn no_jumps(t in 0.5..3.0f64, d in 2.6..6.4f64) {
        let jump = |a: f64, b: f64| ((a - b) / a).abs();
        for ratio in [1.0, 2.5] {
            let at = |r: f64| bearing_n(t, r * t, d, 200.0);
            prop_assert!(jump(at(ratio - 1e-9), at(ratio + 1e-9)) < 1e-7);
        }
        prop_assert!(jump(bearing_n(t, t, d, 260.0 - 1e-7), bearing_n(t, t, d, 260.0 + 1e-7)) < 1e-7);
    }
}
