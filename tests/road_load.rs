//! Drag, power and fuel: worked by hand from `½ ρ v² C_d A`, and how they go with speed.

use proptest::prelude::*;
use raisedbody::body::road_load::{Driveline, drag_n, power_kw};
use raisedbody::quantity::Kind;

const DIESEL: Driveline = Driveline { fuel_use_g_kwh: 220.0, efficiency: 0.9, fuel_density_kg_m3: 840.0 };

// By hand: 2.44 m wide, raised by 0.508 m, 6.98 to 8.22 m2; C_d 0.6, 65 mph, 1.225 kg/m3: 62.93 to 74.12 kW, 11.2 kW and
// 385 N more; at 220 g/kWh, 0.84 kg/L and 90 % to the wheels 3.1 L more on 100 km.
#[test]
fn half_a_metre_more_by_hand() {
    let v = Kind::Speed.parse("65 mph").unwrap();
    let drag = |area| drag_n(0.6, area, 1.225, v);
    let (before, after) = (drag(6.98), drag(8.22));
    assert!((power_kw(before, v) - 62.93).abs() < 0.01 && (power_kw(after, v) - 74.12).abs() < 0.01);
    assert!((power_kw(after - before, v) - 11.2).abs() < 0.05);
    assert!((after - before - 385.0).abs() < 0.5);
    assert!((DIESEL.fuel_l_100km(after - before) - 3.1).abs() < 0.05);
}

// By hand: 36 N over 100 km are 3.6 MJ, 1 kWh at the wheels; at 100 % and 840 g/kWh of a fuel of 0.84 kg/L that is 1 L.
#[test]
fn a_litre_by_hand() {
    let driveline = Driveline { fuel_use_g_kwh: 840.0, efficiency: 1.0, fuel_density_kg_m3: 840.0 };
    assert!((driveline.fuel_l_100km(36.0) - 1.0).abs() < 1e-12);
}

proptest! {
    #[test]
    fn drag_goes_with_the_square_and_power_with_the_cube(v in 1.0..40.0f64, times in 1.0..3.0f64, c in 0.3..1.0f64, area in 4.0..10.0f64) {
        let drag = |v| drag_n(c, area, 1.225, v);
        let power = |v| power_kw(drag(v), v);
        prop_assert!((drag(times * v) / drag(v) - times.powi(2)).abs() < 1e-9);
        prop_assert!((power(times * v) / power(v) - times.powi(3)).abs() < 1e-9);
        // A litre burnt is work done: the same force over the same way costs the same at any speed.
        prop_assert!((DIESEL.fuel_l_100km(drag(times * v)) / DIESEL.fuel_l_100km(drag(v)) - times.powi(2)).abs() < 1e-9);
    }
}
