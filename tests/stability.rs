//! Static stability factor T/2h, its angle, and stagnation pressure: worked by hand from the formulas.
#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use proptest::prelude::*;
use raisedbody::body::stability::{rigid_tilt_angle_deg, stagnation_pressure_pa, static_stability_factor};
use raisedbody::quantity::Speed;
use rstest::rstest;

// Track 1.95 m: T/2h before (h 1.10 m) and after 180 kg at 2.95 m came onto 7600 kg (h 1.1428 m).
#[rstest]
#[case(1100.0, 0.8864)]
#[case(1142.8, 0.8532)]
fn static_stability_by_hand(#[case] cg_mm: f64, #[case] factor: f64) {
    assert!((static_stability_factor(1950.0, cg_mm) - factor).abs() < 5e-5);
}

// atan(1) = 45 degrees; atan(1/√3) = 30 degrees; tan 28 degrees = 0.531 71 (the platform of UN R107, from memory).
#[rstest]
#[case(2000.0, 1000.0, 45.0)]
#[case(2000.0, 1_732.050_807_57, 30.0)]
#[case(2.0 * 531.709_431_66, 1000.0, 28.0)]
fn tilt_angle_by_hand(#[case] track_mm: f64, #[case] cg_mm: f64, #[case] degrees: f64) {
    assert!((rigid_tilt_angle_deg(track_mm, cg_mm, 0.0) - degrees).abs() < 1e-9);
}

// ½ × 1.225 kg/m3 × v²: 29.06, 27.78 and 33.53 m/s. The last is 688.5 Pa exactly worked, 689 rounded.
#[rstest]
#[case("65 mph", 517.0)]
#[case("100 km/h", 473.0)]
#[case("75 mph", 689.0)]
fn stagnation_pressure_by_hand(#[case] speed: &str, #[case] pascal: f64) {
    let speed: Speed = speed.parse().unwrap();
    let q = stagnation_pressure_pa(1.225, speed.m_s());
    assert!((q - pascal).abs() <= 0.5, "{q}");
}

proptest! {
    #[test]
    fn higher_is_less_stable_wider_is_more(track in 1000.0..2700.0f64, cg in 500.0..2500.0f64, more in 1.0..500.0f64) {
        prop_assert!(rigid_tilt_angle_deg(track, cg + more, 0.0) < rigid_tilt_angle_deg(track, cg, 0.0));
        prop_assert!(rigid_tilt_angle_deg(track + more, cg, 0.0) > rigid_tilt_angle_deg(track, cg, 0.0));
        prop_assert!((rigid_tilt_angle_deg(track, cg, 0.0).to_radians().tan() - static_stability_factor(track, cg)).abs() < 1e-12);
    }

    #[test]
    fn pressure_goes_with_the_square_of_speed(v in 0.0..60.0f64, times in 1.0..3.0f64) {
        let q = stagnation_pressure_pa(1.225, v);
        prop_assert!((stagnation_pressure_pa(1.225, times * v) - times * times * q).abs() <= 1e-9 * (1.0 + q * times * times));
    }
}
