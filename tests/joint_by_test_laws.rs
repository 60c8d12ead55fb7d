//! Resistances from tests: laws that hold for any loads.

use proptest::collection::vec;
use proptest::prelude::*;
use raisedbody::mechanics::joint::by_test::{
    ConnectionKind, Coupon, Distribution, Ordered, Scatter, TestLevel, TestResult, TestSeries, resistance_adjustment,
};

use Distribution::{LogNormal, Normal};

const KNOWN: Scatter = Scatter::Known(0.08);
const UNKNOWN: Scatter = Scatter::Unknown;

/// Mean of the five invented loads, N.
const MEAN_N: f64 = 3710.0;

fn series(loads_n: &[f64]) -> TestSeries {
    TestSeries::of_loads(loads_n).unwrap()
}

fn near(value: f64, expected: f64, within: f64) -> bool {
    (value - expected).abs() <= within
}

/// Five single-rivet laps on one sheet, ordered as 1.2 mm and 360 MPa; loads invented.
fn measured(thickness_mm: f64, strength_mpa: f64) -> TestSeries {
    let coupon = |&load_n: &f64| Coupon {
        load_n,
        thickness_mm: Some(thickness_mm),
        strength_mpa: Some(strength_mpa),
        predicted_n: None,
    };
    let ordered = Ordered { thickness_mm: Some(1.2), strength_mpa: Some(360.0), predicted_n: None };
    TestSeries::new([3620.0, 3780.0, 3550.0, 3910.0, 3690.0].iter().map(coupon).collect(), ordered).unwrap()
}

/// Every route that answers for this series, by name.
fn answers(of: &TestSeries) -> Vec<(&'static str, TestResult)> {
    [
        ("normal", of.characteristic(Normal, UNKNOWN)),
        ("log-normal", of.characteristic(LogNormal, UNKNOWN)),
        ("normal, known", of.characteristic(Normal, KNOWN)),
        ("log-normal, known", of.characteristic(LogNormal, KNOWN)),
        ("design, normal", of.design(Normal, UNKNOWN, 1.0)),
        ("design, log-normal", of.design(LogNormal, UNKNOWN, 1.0)),
        ("A.6", of.characteristic_en_1993_1_3(0.9)),
        ("AISI", of.nominal_aisi_s100(ConnectionKind::NotListed)),
    ]
    .into_iter()
    .filter_map(|(name, result)| result.ok().map(|r| (name, r)))
    .collect()
}

fn like_loads() -> impl Strategy<Value = Vec<f64>> {
    (500.0..20_000.0, vec(0.8..1.2, 1..40)).prop_map(|(mean, shares)| shares.iter().map(|s| s * mean).collect())
}

proptest! {
    // Twice the loads, twice every resistance; the order of the coupons says nothing.
    #[test]
    fn scale_and_order(loads in like_loads(), times in 0.1..10.0) {
        let more: Vec<f64> = loads.iter().rev().map(|l| l * times).collect();
        let (a, b) = (answers(&series(&loads)), answers(&series(&more)));
        prop_assert_eq!(a.len(), b.len());
        for ((name, a), (_, b)) in a.iter().zip(&b) {
            prop_assert!(near(b.value_n, a.value_n * times, 1e-9 * b.mean_n), "{} {} {}", name, a.value_n, b.value_n);
        }
    }

    // Above nought and never above the mean; and a mean is only ever the nominal value.
    #[test]
    fn between_nought_and_the_mean(loads in like_loads()) {
        for (name, result) in answers(&series(&loads)) {
            prop_assert!(result.value_n > 0.0 && result.value_n <= result.mean_n * (1.0 + 1e-12), "{}", name);
            prop_assert_eq!(name == "AISI", matches!(result.level, TestLevel::Nominal { .. }));
        }
    }

    // Knowing more scatter gives less resistance; the design fractile lies below the characteristic one.
    #[test]
    fn more_scatter_less_resistance(loads in like_loads(), v in 0.01..0.25, more in 0.0..0.05) {
        let of = series(&loads);
        for law in [Normal, LogNormal] {
            let k = |v: f64| of.characteristic(law, Scatter::Known(v)).unwrap().value_n;
            prop_assert!(k(v + more) <= k(v));
            if let Ok(design) = of.design(law, Scatter::Known(v), 1.0) {
                prop_assert!(design.value_n < k(v));
            }
        }
    }

    // Two coupons moved apart about their mean widen the scatter, and lower what does not know it beforehand.
    #[test]
    fn spreading_the_loads_never_helps(loads in like_loads(), apart in 0.0..0.3) {
        prop_assume!(loads.len() >= 3);
        let mut wider = loads.clone();
        wider.sort_by(f64::total_cmp);
        let step = apart * wider[0];
        let last = wider.len() - 1;
        wider[0] -= step;
        wider[last] += step;
        for law in [Normal, LogNormal] {
            let narrow = series(&loads).characteristic(law, UNKNOWN);
            let wide = series(&wider).characteristic(law, UNKNOWN);
            if let (Ok(narrow), Ok(wide)) = (narrow, wide) {
                prop_assert!(wide.value_n <= narrow.value_n * (1.0 + 1e-12));
            }
        }
    }

    // A thicker or stronger coupon never proves more.
    #[test]
    fn correction_is_monotonic(t in 0.88..1.12_f64, f in 0.75..2.0_f64, dt in 0.0..0.2, df in 0.0..0.5) {
        prop_assert!(resistance_adjustment(t + dt, f) >= resistance_adjustment(t, f));
        prop_assert!(resistance_adjustment(t, f + df) >= resistance_adjustment(t, f));
        prop_assert!(resistance_adjustment(t, f) >= t.min(1.0));
    }

    #[test]
    fn the_nominal_mean_is_never_raised(t in 1.06..1.34, f in 280.0..700.0) {
        let result = measured(t, f).nominal_aisi_s100(ConnectionKind::NotListed).unwrap();
        prop_assert!(result.value_n <= MEAN_N * (1.0 + 1e-12));
    }

    // Any bits at all: a problem or a number, never a panic, a NaN or a resistance below nought.
    #[test]
    fn any_loads_at_all(loads in vec(any::<f64>(), 0..8), v in any::<f64>(), factor in any::<f64>()) {
        if let Ok(of) = TestSeries::of_loads(&loads) {
            let mut found = answers(&of);
            found.extend(of.characteristic(LogNormal, Scatter::Known(v)).ok().map(|r| ("any", r)));
            found.extend(of.design(Normal, UNKNOWN, factor).ok().map(|r| ("any", r)));
            for (name, result) in found {
                prop_assert!(result.value_n.is_finite() && result.value_n > 0.0, "{}", name);
            }
        }
    }

    // The floors make no jump: a hair more or less of scatter, a hair more or less of resistance.
    #[test]
    fn continuous_at_the_floors(away in 0.05..0.14) {
        let three = |a: f64| series(&[4000.0 * (1.0 - a), 4000.0, 4000.0 * (1.0 + a)]);
        for ((name, a), (_, b)) in answers(&three(away)).iter().zip(&answers(&three(away + 1e-9))) {
            prop_assert!((a.value_n - b.value_n).abs() < 1e-3, "{}", name);
        }
    }
}
