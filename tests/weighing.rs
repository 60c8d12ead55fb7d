//! Height of the centre of gravity from a weighing: held against statics of the lifted vehicle, written out in
//! coordinates here, and against the tilt angle turned round. No published source: elementary statics.

use proptest::prelude::*;
use raisedbody::body::stability::rigid_tilt_angle_deg;
use raisedbody::body::weighing::{AxleLift, cg_height_from_tilt_mm};
use rstest::rstest;

/// A vehicle, in the plane of its length: the low axle's wheel centre is the origin, the other axle lies at +x.
#[derive(Debug, Clone, Copy)]
struct Vehicle {
    mass_kg: f64,
    wheelbase_mm: f64,
    low_radius_mm: f64,
    raised_radius_mm: f64,
    /// Centre of gravity: forward of the low axle, above the ground.
    at_mm: (f64, f64),
}

impl Vehicle {
    /// Load on the low axle when the other one has been lifted: turns every point by the angle that puts the lifted
    /// wheel centre at its height, found by bisection, then takes moments about that wheel.
    fn low_axle_load_kg(&self, lift_mm: f64) -> f64 {
        let turned =
            |(x, z): (f64, f64), angle: f64| (x * angle.cos() - z * angle.sin(), x * angle.sin() + z * angle.cos());
        let axle = (self.wheelbase_mm, self.raised_radius_mm - self.low_radius_mm);
        let (mut low, mut high) = (0.0, 1.4);
        for _ in 0..200 {
            let middle = f64::midpoint(low, high);
            if turned(axle, middle).1 < axle.1 + lift_mm { low = middle } else { high = middle }
        }
        let axle_x = turned(axle, low).0;
        let cg_x = turned((self.at_mm.0, self.at_mm.1 - self.low_radius_mm), low).0;
        self.mass_kg * (axle_x - cg_x) / axle_x
    }

    fn weighed(&self, lift_mm: f64) -> AxleLift {
        AxleLift {
            level_low_kg: self.low_axle_load_kg(0.0),
            level_raised_kg: self.mass_kg - self.low_axle_load_kg(0.0),
            lifted_low_kg: self.low_axle_load_kg(lift_mm),
            wheelbase_mm: self.wheelbase_mm,
            lift_mm,
            low_radius_mm: self.low_radius_mm,
            raised_radius_mm: self.raised_radius_mm,
        }
    }
}

// By hand: 4450 + 2950 kg, wheelbase 5.28 m, front axle lifted by 0.80 m, 4595 kg on the rear, wheels of 0.48 m:
// sin θ = 0.151 52, tan θ = 0.153 29; 5280 × 145/(7400 × 0.153 29) = 674.9 mm over the wheel centres: 1154.9 mm.
// One kilogram: 5280/(7400 × 0.153 29) = 4.655 mm.
#[test]
fn axle_lift_by_hand() {
    let weighing = AxleLift {
        level_low_kg: 4450.0,
        level_raised_kg: 2950.0,
        lifted_low_kg: 4595.0,
        wheelbase_mm: 5280.0,
        lift_mm: 800.0,
        low_radius_mm: 480.0,
        raised_radius_mm: 480.0,
    };
    assert!((weighing.cg_height_mm().unwrap() - 1154.9).abs() < 0.1);
    assert!((weighing.height_error_mm_per_kg().unwrap() - 4.655).abs() < 1e-3);
    // A load that does not change: the centre lies at the wheel centres.
    let unchanged = AxleLift { lifted_low_kg: 4450.0, ..weighing };
    assert!((unchanged.cg_height_mm().unwrap() - 480.0).abs() < 1e-9);
}

#[rstest]
#[case::no_lift(0.0, 4595.0, 4450.0, "vehicle.weighing.axle_lift.lift")]
#[case::down(-100.0, 4595.0, 4450.0, "vehicle.weighing.axle_lift.lift")]
#[case::on_end(5280.0, 4595.0, 4450.0, "vehicle.weighing.axle_lift.lift")]
#[case::nan(f64::NAN, 4595.0, 4450.0, "vehicle.weighing.axle_lift.lift")]
#[case::all_on_one_axle(800.0, 7400.0, 4450.0, "vehicle.weighing.axle_lift.low_axle_load")]
#[case::nothing_on_it(800.0, 0.0, 4450.0, "vehicle.weighing.axle_lift.low_axle_load")]
#[case::not_a_number(800.0, f64::NAN, 4450.0, "vehicle.weighing.axle_lift.low_axle_load")]
#[case::weightless(800.0, 4595.0, 0.0, "vehicle.axle_weights")]
fn impossible_lifts(#[case] lift_mm: f64, #[case] lifted: f64, #[case] level_low_kg: f64, #[case] path: &str) {
    let weighing = AxleLift {
        level_low_kg,
        level_raised_kg: 2950.0,
        lifted_low_kg: lifted,
        wheelbase_mm: 5280.0,
        lift_mm,
        low_radius_mm: 480.0,
        raised_radius_mm: 480.0,
    };
    let problem = weighing.cg_height_mm().unwrap_err();
    assert_eq!(problem.path(), path, "{problem}");
    assert!(problem.to_string().contains("allowed: above 0"), "{problem}");
}

#[rstest]
#[case(0.0)]
#[case(90.0)]
#[case(-28.0)]
#[case(f64::NAN)]
fn impossible_tilts(#[case] degrees: f64) {
    assert_eq!(cg_height_from_tilt_mm(1950.0, degrees).unwrap_err().path(), "vehicle.weighing.tilt_angle");
}

prop_compose! {
    fn vehicle()(mass_kg in 4000.0..16_000.0f64, wheelbase_mm in 3500.0..7000.0f64, low_radius_mm in 350.0..560.0f64,
                 raised_radius_mm in 350.0..560.0f64, share in 0.3..0.7f64, z in 700.0..1900.0f64) -> Vehicle {
        Vehicle { mass_kg, wheelbase_mm, low_radius_mm, raised_radius_mm, at_mm: (share * wheelbase_mm, z) }
    }
}

proptest! {
    #[test]
    fn the_height_is_found_again(bus in vehicle(), lift_mm in 300.0..1500.0f64) {
        let found = bus.weighed(lift_mm).cg_height_mm().unwrap();
        prop_assert!((found / bus.at_mm.1 - 1.0).abs() < 1e-9, "{} for {}", found, bus.at_mm.1);
    }

    #[test]
    fn a_kilogram_moves_it_by_what_is_said(bus in vehicle(), lift_mm in 300.0..1500.0f64, off in -20.0..20.0f64) {
        let weighing = bus.weighed(lift_mm);
        let wrong = AxleLift { lifted_low_kg: weighing.lifted_low_kg + off, ..weighing };
        let moved = wrong.cg_height_mm().unwrap() - weighing.cg_height_mm().unwrap();
        prop_assert!((moved - off * weighing.height_error_mm_per_kg().unwrap()).abs() < 1e-6);
    }

    #[test]
    fn a_higher_lift_makes_an_error_smaller(bus in vehicle(), lift_mm in 300.0..1000.0f64, more in 10.0..400.0f64) {
        let error = |lift| bus.weighed(lift).height_error_mm_per_kg().unwrap();
        prop_assert!(error(lift_mm + more) < error(lift_mm));
    }

    // Wherever the three readings lie within the scale's error, the height lies within the range.
    #[test]
    fn the_range_holds_every_reading(bus in vehicle(), lift_mm in 300.0..1500.0f64, error in 0.0..20.0f64,
                                     at in prop::array::uniform3(-1.0..=1.0f64)) {
        let weighing = bus.weighed(lift_mm);
        let (low, high) = weighing.cg_range_mm(error).unwrap();
        let read = AxleLift {
            level_low_kg: weighing.level_low_kg + at[0] * error,
            level_raised_kg: weighing.level_raised_kg + at[1] * error,
            lifted_low_kg: weighing.lifted_low_kg + at[2] * error,
            ..weighing
        };
        let height = read.cg_height_mm().unwrap();
        prop_assert!(low - 1e-9 <= height && height <= high + 1e-9, "{} not in {} to {}", height, low, high);
    }

    #[test]
    fn the_tilt_is_turned_round(track in 1500.0..2300.0f64, height in 500.0..2500.0f64) {
        let found = cg_height_from_tilt_mm(track, rigid_tilt_angle_deg(track, height, 0.0)).unwrap();
        prop_assert!((found / height - 1.0).abs() < 1e-9);
    }
}
