//! The first year's loss by climate against ISO 9223, a year in several surroundings, and the laws of both.

use proptest::prelude::*;
use raisedbody::catalogue::{Catalogue, MetalLost};
use raisedbody::mechanics::corrosion::{Climate, Rates, Stay, first_year, mixed};
use rstest::rstest;

const AIR: Climate =
    Climate { temperature_deg_c: 10.0, humidity_percent: 75.0, so2_mg_m2_d: 10.0, chloride_mg_m2_d: 3.0 };

// ISO 9223:2012, equation 1, as restated by a research code, worked out by hand at 10 °C, 75 %, 10 and 3 mg/(m2 d):
// 1.77 x 10^0.52 x e^1.5 = 26.267 and 0.102 x 3^0.62 x e^2.875 = 3.573.
#[test]
fn steel_at_the_check_value() {
    let steel = first_year(AIR, MetalLost::Steel).unwrap();
    assert!((steel.so2_um_a - 26.267).abs() < 5e-4);
    assert!((steel.chloride_um_a - 3.573).abs() < 5e-4);
    assert!((steel.rate_um_a - 29.84).abs() < 5e-3);
    assert_eq!(Catalogue::standard().unwrap().category_of(steel.rate_um_a, MetalLost::Steel), Some("C3"));
}

// Equations 2 to 4 (partly from memory), worked out by hand at the same air:
// zinc 0.0129 x 10^0.44 x e^3.45 = 1.1192, 0.0175 x 3^0.57 x e^1.45 = 0.1395;
// copper 0.0053 x 10^0.26 x e^4.425 = 0.8054, 0.01025 x 3^0.27 x e^3.19 = 0.3349;
// aluminium 0.0042 x 10^0.73 x e^1.875 = 0.1471, 0.0018 x 3^0.60 x e^2.44 = 0.0399.
#[rstest]
#[case(MetalLost::Zinc, 1.1192, 0.1395)]
#[case(MetalLost::Copper, 0.8054, 0.3349)]
#[case(MetalLost::Aluminium, 0.1471, 0.0399)]
fn other_metals(#[case] metal: MetalLost, #[case] so2_um_a: f64, #[case] chloride_um_a: f64) {
    let loss = first_year(AIR, metal).unwrap();
    assert!((loss.so2_um_a - so2_um_a).abs() < 1e-4, "{}", loss.so2_um_a);
    assert!((loss.chloride_um_a - chloride_um_a).abs() < 1e-4, "{}", loss.chloride_um_a);
}

// Above 10 °C the slope changes: steel at 20 °C, 1.77 x 10^0.52 x e^(1.5 - 0.54) = 15.307.
#[test]
fn warmth_dries() {
    let warm = first_year(Climate { temperature_deg_c: 20.0, ..AIR }, MetalLost::Steel).unwrap();
    assert!((warm.so2_um_a - 15.307).abs() < 1e-3, "{}", warm.so2_um_a);
}

// ISO 9223:2012, table A.1 (from memory): -33 to +50 %, aluminium -50 to +100 %.
#[rstest]
#[case(MetalLost::Steel, 0.67, 1.5)]
#[case(MetalLost::Zinc, 0.67, 1.5)]
#[case(MetalLost::Copper, 0.67, 1.5)]
#[case(MetalLost::Aluminium, 0.5, 2.0)]
fn uncertainty_of_an_estimate(#[case] metal: MetalLost, #[case] least: f64, #[case] most: f64) {
    for air in [AIR, Climate { temperature_deg_c: -10.0, chloride_mg_m2_d: 60.0, ..AIR }] {
        let loss = first_year(air, metal).unwrap();
        let other_um_a = loss.alternative_um_a.unwrap_or(loss.rate_um_a);
        let (lower_um_a, upper_um_a) = (loss.rate_um_a.min(other_um_a), loss.rate_um_a.max(other_um_a));
        assert!((loss.range.low_um_a.unwrap() / lower_um_a - least).abs() < 1e-12);
        assert!((loss.range.high_um_a / upper_um_a - most).abs() < 1e-12);
    }
    // Zinc's two forms of the chloride term cross: the other is the greater in cold salt.
    let salt = Climate { temperature_deg_c: -10.0, chloride_mg_m2_d: 60.0, ..AIR };
    let zinc = first_year(salt, MetalLost::Zinc).unwrap();
    assert!(zinc.alternative_um_a.unwrap() > zinc.rate_um_a);
}

// Two forms of zinc's chloride term are in circulation. At the hottest, wettest, saltiest air of the range steel is CX;
// with S_d^0.57 and 0.085 T zinc is too, with S_d^0.52 and 0.038 T it would fall back to C5.
#[test]
fn zinc_in_the_worst_salt_is_as_bad_as_steel() {
    let worst = Climate { temperature_deg_c: 28.7, humidity_percent: 93.0, so2_mg_m2_d: 0.7, chloride_mg_m2_d: 760.5 };
    let catalogue = Catalogue::standard().unwrap();
    for metal in [MetalLost::Steel, MetalLost::Zinc] {
        let rate_um_a = first_year(worst, metal).unwrap().rate_um_a;
        assert_eq!(catalogue.category_of(rate_um_a, metal), Some("CX"), "{metal:?} {rate_um_a}");
    }
    let zinc = first_year(worst, MetalLost::Zinc).unwrap();
    let other_um_a = 0.0175 * 760.5_f64.powf(0.52) * (0.008 * 93.0 + 0.038 * 28.7_f64).exp();
    assert!((zinc.alternative_um_a.unwrap() - zinc.so2_um_a - other_um_a).abs() < 1e-9 && other_um_a < 8.4);
}

// ISO 9223:2012, table 3, as transcribed in github.com/Institute-of-Surface-Science/CorWiz: the range of each value.
#[rstest]
#[case::cold(Climate { temperature_deg_c: -17.2, ..AIR }, "temperature", "-17.1 to 28.7 degC")]
#[case::hot(Climate { temperature_deg_c: 28.8, ..AIR }, "temperature", "-17.1 to 28.7 degC")]
#[case::dry(Climate { humidity_percent: 33.0, ..AIR }, "humidity", "34 to 93 % (write \"75 %\")")]
#[case::wet(Climate { humidity_percent: 94.0, ..AIR }, "humidity", "34 to 93 %")]
#[case::clean(Climate { so2_mg_m2_d: 0.0, ..AIR }, "so2", "0.7 to 150.4 mg/m2/d")]
#[case::foul(Climate { so2_mg_m2_d: 151.0, ..AIR }, "so2", "0.7 to 150.4 mg/m2/d")]
#[case::fresh(Climate { chloride_mg_m2_d: 0.3, ..AIR }, "chloride", "0.4 to 760.5 mg/m2/d")]
#[case::salty(Climate { chloride_mg_m2_d: 761.0, ..AIR }, "chloride", "0.4 to 760.5 mg/m2/d")]
#[case::nothing(Climate { chloride_mg_m2_d: f64::NAN, ..AIR }, "chloride", "0.4 to 760.5 mg/m2/d")]
fn outside_the_range_nothing_is_extrapolated(#[case] air: Climate, #[case] field: &str, #[case] allowed: &str) {
    let problems = first_year(air, MetalLost::Steel).unwrap_err();
    assert_eq!(problems.len(), 1);
    let text = problems[0].to_string();
    assert!(text.contains(field) && text.contains(allowed), "{text}");
}

#[test]
fn every_value_outside_is_named_at_once() {
    let air = Climate { temperature_deg_c: 40.0, humidity_percent: 10.0, ..AIR };
    assert_eq!(first_year(air, MetalLost::Zinc).unwrap_err().len(), 2);
}

// ISO 9223:2012, table 2: open below, closed above.
#[rstest]
#[case(MetalLost::Zinc, 0.7, Some("C2"))]
#[case(MetalLost::Zinc, 0.700_001, Some("C3"))]
#[case(MetalLost::Zinc, 25.0, Some("CX"))]
#[case(MetalLost::Zinc, 25.1, None)]
#[case(MetalLost::Zinc, 0.07 * 2.1 + 0.93 * 2.1, Some("C3"))]
#[case(MetalLost::Steel, 1.3, Some("C1"))]
#[case(MetalLost::Steel, 80.0, Some("C4"))]
#[case(MetalLost::Copper, 2.8, Some("C4"))]
#[case(MetalLost::Aluminium, 1.0, None)]
fn categories_are_open_below_and_closed_above(
    #[case] metal: MetalLost,
    #[case] rate_um_a: f64,
    #[case] category: Option<&str>,
) {
    assert_eq!(Catalogue::standard().unwrap().category_of(rate_um_a, metal), category);
}

#[rstest]
#[case("C2", 0, "C2")]
#[case("C2", 2, "C4")]
#[case("C5", 1, "CX")]
#[case("CX", 3, "CX")]
fn a_worse_category(#[case] from: &str, #[case] steps: usize, #[case] to: &str) {
    assert_eq!(Catalogue::standard().unwrap().worse_category("category", from, steps).unwrap(), to);
}

#[test]
fn an_unknown_category_names_the_nearest() {
    let error = Catalogue::standard().unwrap().worse_category("category", "C6", 1).unwrap_err().to_string();
    assert!(error.contains("corrosivity category \"C6\""), "{error}");
}

#[test]
fn shares_make_up_the_year() {
    let rates = Rates { low_um_a: Some(1.0), high_um_a: 2.0 };
    let stay = |share| Stay { share, rates };
    assert!(mixed(&[]).is_err());
    assert!(mixed(&[stay(0.5), stay(0.4)]).unwrap_err().to_string().contains("make up"));
    assert!(mixed(&[stay(0.0), stay(1.0)]).is_err());
    assert!(mixed(&[stay(f64::NAN)]).is_err());
    let open = Stay { share: 0.5, rates: Rates { low_um_a: None, high_um_a: 4.0 } };
    assert_eq!(mixed(&[stay(0.5), open]).unwrap(), Rates { low_um_a: None, high_um_a: 3.0 });
}

fn airs() -> impl Strategy<Value = Climate> {
    (-17.0..28.6, 35.0..92.0, 0.8..150.0, 0.5..760.0).prop_map(|(t, rh, p, s)| Climate {
        temperature_deg_c: t,
        humidity_percent: rh,
        so2_mg_m2_d: p,
        chloride_mg_m2_d: s,
    })
}

proptest! {
    #[test]
    fn fouler_wetter_saltier_air_takes_more(air in airs(), by in 1.001..1.01) {
        for metal in MetalLost::ALL {
            let rate = |air| first_year(air, metal).unwrap().rate_um_a;
            let base = rate(air);
            let fouler = Climate { so2_mg_m2_d: f64::min(air.so2_mg_m2_d * by, 150.4), ..air };
            let saltier = Climate { chloride_mg_m2_d: f64::min(air.chloride_mg_m2_d * by, 760.5), ..air };
            let wetter = Climate { humidity_percent: f64::min(air.humidity_percent * by, 93.0), ..air };
            for worse in [fouler, saltier, wetter] {
                prop_assert!(rate(worse) >= base);
            }
            prop_assert!(base.is_finite() && base > 0.0);
        }
    }

    #[test]
    fn no_jump_where_the_slope_changes(air in airs()) {
        for metal in MetalLost::ALL {
            let at = |t| first_year(Climate { temperature_deg_c: t, ..air }, metal).unwrap().rate_um_a;
            prop_assert!((at(10.0 - 1e-9) / at(10.0 + 1e-9) - 1.0).abs() < 1e-8);
        }
    }

    #[test]
    fn a_mixed_year_lies_between_its_parts(a in 0.1..20.0, b in 0.1..20.0, share in 0.001..0.999) {
        let stay = |share, high_um_a: f64| Stay { share, rates: Rates { low_um_a: Some(high_um_a / 2.0), high_um_a } };
        let both = mixed(&[stay(share, a), stay(1.0 - share, b)]).unwrap();
        prop_assert!(both.high_um_a >= f64::min(a, b) - 1e-12 && both.high_um_a <= f64::max(a, b) + 1e-12);
        let turned = mixed(&[stay(1.0 - share, b), stay(share, a)]).unwrap();
        prop_assert!((both.high_um_a - turned.high_um_a).abs() < 1e-12);
        prop_assert_eq!(mixed(&[stay(1.0, a)]).unwrap().high_um_a, a);
    }
}
