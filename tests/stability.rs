//! Static stability factor T/2h, its angle, roll on springs, crosswind and stagnation pressure: worked by hand from the
//! formulas.

use proptest::prelude::*;
use raisedbody::body::masses::Balance;
use raisedbody::body::stability::{
    Measure, RollSprings, SideWind, Stance, YARDSTICKS, rigid_tilt_angle_deg, stagnation_pressure_pa,
    static_stability_factor,
};
use raisedbody::catalogue::Catalogue;
use raisedbody::check::Standing;
use raisedbody::quantity::{Kind, Speed};
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

/// 7600 kg at 1.10 m with 180 kg more at 2.95 m, track 1.95 m.
const AFTER: Stance = Stance { track_mm: 1950.0, mass_kg: 7780.0, cg_height_mm: 1_142.802, cg_offset_mm: 0.0 };
const SPRINGS: RollSprings = RollSprings { stiffness_n_m_rad: 600e3, axis_height_mm: 650.0 };

// By hand from R = W h_s/(K − W h_s) and (T/2h)/(1 + R (1 − h_r/h)), with K 600 kNm/rad and the roll axis at 0.65 m:
// R 0.0669 rad/g, 3.83 degrees per g, threshold 0.829 g. (Elementary mechanics, small angles; first form from memory of a
// vehicle dynamics textbook.)
#[test]
fn roll_on_springs_by_hand() {
    let rate = SPRINGS.roll_rate_rad_g(AFTER).unwrap();
    assert!((rate - 0.0669).abs() < 5e-5, "{rate}");
    assert!((rate.to_degrees() - 3.83).abs() < 5e-3);
    assert!((SPRINGS.rollover_threshold_g(AFTER).unwrap() - 0.829).abs() < 5e-4);
}

// A 1966 intercity coach, read in a discussion of bus properties (mchenrysoftware.com): 22 633 lb empty, centre of gravity
// of the sprung mass at 48.4 in, tracks 79 and 66.5 in, 172.5 in behind the front axle and 87.49 in ahead of the rear one.
#[test]
fn a_coach_of_1966_is_plausible() {
    let mm = |text: &str| Kind::Length.parse(text).unwrap();
    let (ahead, behind) = (mm("172.5 in"), mm("87.49 in"));
    let mass_kg = Kind::Mass.parse("22633 lb").unwrap();
    let (z_mm, x_mm) = (mm("48.4 in"), behind);
    let (front, rear) = Balance { mass_kg, x_mm, y_mm: 0.0, z_mm }.axle_loads_kg(0.0, ahead + behind);
    assert!((front / mass_kg - 0.3365).abs() < 5e-5 && (front + rear - mass_kg).abs() < 1e-6, "engine at the rear");
    // Its height lies in the range that stands in for one not weighed.
    let catalogue = Catalogue::standard().unwrap();
    let bound = |key| catalogue.fallback_value(key, Kind::Length).unwrap();
    assert!(bound("cg_height_low") < z_mm && z_mm < bound("cg_height_high"), "{z_mm}");
    // With the mean of the tracks T/2h = 72.75/96.8 = 0.75155; on springs as stiff as any it tips before that.
    let track_mm = f64::midpoint(mm("79 in"), mm("66.5 in"));
    assert!((static_stability_factor(track_mm, z_mm) - 0.75155).abs() < 5e-5);
    let coach = Stance { track_mm, mass_kg, cg_height_mm: z_mm, cg_offset_mm: 0.0 };
    for stiffness_n_m_rad in [400e3, 1000e3] {
        let threshold = RollSprings { stiffness_n_m_rad, ..SPRINGS }.rollover_threshold_g(coach).unwrap();
        assert!((0.5..0.7515).contains(&threshold), "{threshold}");
    }
}

// Rigid, by hand: 7600 kg, track 2 m, force at 2 m on 20 m2 with coefficient 1: F = 7600 × 9.80665 × 1/2 = 37 265 N;
// v = √(2 × 37 265/(1.225 × 20)) = 55.155 m/s.
#[test]
fn crosswind_by_hand() {
    let bus = Stance { track_mm: 2000.0, mass_kg: 7600.0, cg_height_mm: 1100.0, cg_offset_mm: 0.0 };
    let wind = SideWind { area_m2: 20.0, centre_mm: 2000.0, coefficient: 1.0, air_density_kg_m3: 1.225 };
    assert!((wind.unloading_m_s(bus, None, 1.0).unwrap() - 55.155).abs() < 5e-4);
    // On springs by moments about the far wheels, the lean φ = F (z − h_r)/(K − W h_s) written out:
    // F z + W h_s φ = W T/2 at the speed found.
    let speed = wind.unloading_m_s(bus, Some(SPRINGS), 1.0).unwrap();
    let (force, weight, arm) = (stagnation_pressure_pa(1.225, speed) * 20.0, 7600.0 * 9.806_65, 0.45);
    let lean = force * 1.35 / (600e3 - weight * arm);
    assert!((force * 2.0 + weight * arm * lean - weight * 1.0).abs() < 1e-6);
}

// Levels and whom they bind: 28 degrees (UN R107 Annex 3, the clause from memory), 35 and 28 degrees (dft.gov.uk project
// S300A/VC), 23 degrees or 4 m/s2 (UN R111, tank vehicles, from memory), 0.40 g (tank trucks, Billing and Patten).
#[test]
fn yardsticks_bind_others() {
    let levels: Vec<_> = YARDSTICKS.iter().map(|y| (y.measure, (y.level * 1000.0).round(), y.standing)).collect();
    let (tilt, threshold) = (Measure::TiltAngle, Measure::RolloverThreshold);
    let expected = [
        (tilt, 28_000.0, Standing::Memory),
        (tilt, 35_000.0, Standing::Read),
        (tilt, 28_000.0, Standing::Read),
        (tilt, 23_000.0, Standing::Memory),
        (threshold, 408.0, Standing::Memory),
        (threshold, 400.0, Standing::Read),
    ];
    assert_eq!(levels, expected);
    assert!(YARDSTICKS.iter().all(|y| y.binds.starts_with("new ") || y.binds.starts_with("tank ")));
}

#[test]
fn springs_that_do_not_hold_it_upright_are_refused() {
    let weight_moment = 7780.0 * 9.806_65 * 0.492_802;
    for stiffness_n_m_rad in [0.0, weight_moment * 0.999_999, f64::NAN, f64::NEG_INFINITY] {
        let springs = RollSprings { stiffness_n_m_rad, ..SPRINGS };
        let wind = SideWind { area_m2: 20.0, centre_mm: 2000.0, coefficient: 1.0, air_density_kg_m3: 1.225 };
        for refused in [
            springs.roll_rate_rad_g(AFTER),
            springs.rollover_threshold_g(AFTER),
            wind.unloading_m_s(AFTER, Some(springs), 1.0),
        ] {
            let problem = refused.unwrap_err();
            assert_eq!(problem.path(), "vehicle.roll_stiffness");
            assert!(problem.to_string().contains("above 37599 Nm/rad"), "{problem}");
        }
    }
    let barely = RollSprings { stiffness_n_m_rad: weight_moment * 1.000_001, ..SPRINGS };
    assert!(barely.rollover_threshold_g(AFTER).unwrap() < 1e-3);
}

prop_compose! {
    fn stance()(track_mm in 1500.0..2300.0f64, mass_kg in 4000.0..16_000.0f64, cg_height_mm in 800.0..1800.0f64,
                cg_offset_mm in -150.0..150.0f64) -> Stance {
        Stance { track_mm, mass_kg, cg_height_mm, cg_offset_mm }
    }
}

prop_compose! {
    fn springs()(stiffness_n_m_rad in 400e3..2000e3f64, axis_height_mm in 300.0..800.0f64) -> RollSprings {
        RollSprings { stiffness_n_m_rad, axis_height_mm }
    }
}

prop_compose! {
    fn wind()(area_m2 in 10.0..40.0f64, centre_mm in 1200.0..2200.0f64, coefficient in 0.8..1.2f64) -> SideWind {
        SideWind { area_m2, centre_mm, coefficient, air_density_kg_m3: 1.225 }
    }
}

proptest! {
    #[test]
    fn a_higher_centre_tips_and_leans_earlier(at in stance(), springs in springs(), wind in wind(), more in 1.0..300.0f64) {
        let higher = Stance { cg_height_mm: at.cg_height_mm + more, ..at };
        let threshold = |s| springs.rollover_threshold_g(s).unwrap();
        prop_assert!(threshold(higher) < threshold(at));
        prop_assert!(springs.roll_rate_rad_g(higher).unwrap() > springs.roll_rate_rad_g(at).unwrap());
        prop_assert!(wind.unloading_m_s(higher, Some(springs), 1.0).unwrap() < wind.unloading_m_s(at, Some(springs), 1.0).unwrap());
    }

    #[test]
    fn left_and_right_are_alike(at in stance(), springs in springs(), wind in wind()) {
        let other = Stance { cg_offset_mm: -at.cg_offset_mm, ..at };
        prop_assert_eq!(springs.rollover_threshold_g(at).unwrap(), springs.rollover_threshold_g(other).unwrap());
        for springs in [None, Some(springs)] {
            let speed = |s| wind.unloading_m_s(s, springs, 2.0).unwrap();
            prop_assert_eq!(speed(at), speed(other));
            let middle = Stance { cg_offset_mm: 0.0, ..at };
            prop_assert!(speed(at) <= speed(middle));
        }
    }

    #[test]
    fn stiffer_springs_raise_the_threshold_towards_the_rigid_one(at in stance(), springs in springs(), times in 1.01..5.0f64) {
        let threshold = |k: f64| RollSprings { stiffness_n_m_rad: k, ..springs }.rollover_threshold_g(at).unwrap();
        let rigid = (at.track_mm / 2.0 - at.cg_offset_mm.abs()) / at.cg_height_mm;
        let k = springs.stiffness_n_m_rad;
        prop_assert!(threshold(k) < threshold(times * k) && threshold(times * k) < rigid);
        // What is missing falls with 1/K.
        prop_assert!((rigid - threshold(1e15)) / rigid < 1e-6);
        let middle = Stance { cg_offset_mm: 0.0, ..at };
        let stiff = RollSprings { stiffness_n_m_rad: 1e15, ..springs }.rollover_threshold_g(middle).unwrap();
        prop_assert!((stiff - static_stability_factor(at.track_mm, at.cg_height_mm)).abs() < 1e-6);
    }

    #[test]
    fn springs_and_gusts_only_make_it_worse(at in stance(), springs in springs(), wind in wind()) {
        let rigid = wind.unloading_m_s(at, None, 1.0).unwrap();
        let steady = wind.unloading_m_s(at, Some(springs), 1.0).unwrap();
        let gust = wind.unloading_m_s(at, Some(springs), 2.0).unwrap();
        prop_assert!(gust < steady && steady < rigid, "{} {} {}", gust, steady, rigid);
    }

    #[test]
    fn more_side_needs_less_wind(at in stance(), wind in wind(), times in 1.0..4.0f64) {
        let speed = |w: SideWind| w.unloading_m_s(at, None, 1.0).unwrap();
        let larger = SideWind { area_m2: wind.area_m2 * times, ..wind };
        // F goes with the square of the speed: four times the area, half the speed.
        prop_assert!((speed(larger) * times.sqrt() - speed(wind)).abs() < 1e-9 * speed(wind));
    }
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
