//! Loss and life against ISO 9224, ISO 14713-1 and ASTM A653, and the laws that hold for all inputs.
// Where equality is asked, the two must be the same number, not close ones.

use proptest::prelude::*;
use raisedbody::catalogue::MetalLost::{self, Steel, Zinc};
use raisedbody::mechanics::corrosion::{
    Beyond20, Exponent, Layer, POWER_LAW_YEARS, Rates, Reading, coating_thickness_um, exponents, life_range,
    life_years, loss_um, perforation_range,
};
use rstest::rstest;

/// Half of the last printed digit, and a little for the arithmetic.
fn assert_prints(value: f64, printed: f64, decimals: i32) {
    let half = 0.5 * 10f64.powi(-decimals) + 1e-9;
    assert!((value - printed).abs() <= half, "{value} does not print as {printed}");
}

// ISO 9224:2012, time exponents, as transcribed in github.com/Institute-of-Surface-Science/CorWiz,
// data/tables/din-en-iso-92232012-05_tables_9224_table_3.csv
#[rstest]
#[case(Steel, 0.523, 0.575)]
#[case(Zinc, 0.813, 0.873)]
#[case(MetalLost::Copper, 0.667, 0.726)]
#[case(MetalLost::Aluminium, 0.728, 0.807)]
fn exponents_of_iso_9224(#[case] metal: MetalLost, #[case] b1: f64, #[case] b2: f64) {
    assert_eq!((exponents(metal).mean, exponents(metal).upper), (b1, b2));
    assert_eq!(Exponent::Mean.b(metal), b1);
    assert_eq!(Exponent::Upper.b(metal), b2);
    assert_eq!(Exponent::Linear.b(metal), 1.0);
}

// ISO 9224:2012, table of t^b with B1, same transcription. Copper and aluminium serve as further checks of the formula.
#[rstest]
#[case::steel(0.523, [1.437, 2.320, 3.334, 4.791])]
#[case::zinc(0.813, [1.757, 3.701, 6.501, 11.422])]
#[case::copper(0.667, [1.588, 2.926, 4.645, 7.375])]
#[case::aluminium(0.728, [1.656, 3.227, 5.346, 8.854])]
fn factors_of_iso_9224(#[case] b: f64, #[case] printed: [f64; 4]) {
    for (years, printed) in [2.0, 5.0, 10.0, 20.0].into_iter().zip(printed) {
        for beyond in [Beyond20::Tangent, Beyond20::PowerLaw] {
            assert_prints(loss_um(1.0, years, b, beyond).unwrap(), printed, 3);
        }
    }
}

// ISO 9224:2012, annex A (from memory; the arithmetic agrees): greatest loss is the category's upper rate times t^B1.
#[rstest]
#[case::steel_c4_10_years(Steel, 80.0, 10.0, 267.0, 0)]
#[case::zinc_c3_5_years(Zinc, 2.1, 5.0, 7.8, 1)]
fn greatest_losses_of_annex_a(
    #[case] metal: MetalLost,
    #[case] rate_um_a: f64,
    #[case] years: f64,
    #[case] printed_um: f64,
    #[case] decimals: i32,
) {
    let lost_um = loss_um(rate_um_a, years, Exponent::Mean.b(metal), Beyond20::Tangent).unwrap();
    assert_prints(lost_um, printed_um, decimals);
}

// ISO 9224:2012, annex B (from memory; the arithmetic agrees): mean rate over the first ten years, by category's bound.
#[rstest]
#[case::zinc(Zinc, [(0.7, 0.5, 1), (2.1, 1.4, 1), (4.2, 2.7, 1), (8.4, 5.5, 1), (25.0, 16.0, 0)])]
#[case::steel(Steel, [(25.0, 8.3, 1), (50.0, 17.0, 0), (80.0, 27.0, 0), (200.0, 67.0, 0), (700.0, 233.0, 0)])]
fn mean_rates_of_annex_b(#[case] metal: MetalLost, #[case] rows: [(f64, f64, i32); 5]) {
    for (bound_um_a, printed_um_a, decimals) in rows {
        let lost_um = loss_um(bound_um_a, 10.0, Exponent::Mean.b(metal), Beyond20::Tangent).unwrap();
        assert_prints(lost_um / 10.0, printed_um_a, decimals);
    }
}

// ISO 9224:2012, annex B (from memory; the arithmetic agrees): steady rate of zinc, the slope at ten years.
#[rstest]
#[case(0.7, 0.4, 1)]
#[case(2.1, 1.1, 1)]
#[case(4.2, 2.2, 1)]
#[case(8.4, 4.4, 1)]
#[case(25.0, 13.0, 0)]
fn steady_rates_of_annex_b(#[case] bound_um_a: f64, #[case] printed_um_a: f64, #[case] decimals: i32) {
    let lost_um = |years| loss_um(bound_um_a, years, Exponent::Mean.b(Zinc), Beyond20::Tangent).unwrap();
    assert_prints((lost_um(10.001) - lost_um(9.999)) / 0.002, printed_um_a, decimals);
}

// ISO 14713-1:2017, life to first maintenance (from memory; the arithmetic agrees): thickness over each bound of the
// category of ISO 9223, rounded to whole years; 100 stands for the printed ">100".
#[rstest]
#[case::sheet_20_um(20.0, [(10, 29), (5, 10), (2, 5), (1, 2)])]
#[case::sheet_42_um(42.0, [(20, 60), (10, 20), (5, 10), (2, 5)])]
#[case::batch_85_um(85.0, [(40, 100), (20, 40), (10, 20), (3, 10)])]
fn lives_of_iso_14713_1(#[case] thickness_um: f64, #[case] printed: [(i32, i32); 4]) {
    let categories = [(0.7, 2.1), (2.1, 4.2), (4.2, 8.4), (8.4, 25.0)];
    let layer = Layer { nominal_um: thickness_um, least_um: thickness_um };
    for ((low_um_a, high_um_a), (shortest, longest)) in categories.into_iter().zip(printed) {
        let life = life_range(layer, Rates { low_um_a: Some(low_um_a), high_um_a }, Zinc).unwrap();
        // 85 µm in C3 and C4 are 40.5 and 20.2 years, printed 40 and 20.
        assert!((life.linear_shortest_years - f64::from(shortest)).abs() <= 0.5);
        let longest_years = life.linear_longest_years.unwrap();
        if longest == 100 {
            assert!(longest_years > 100.0);
        } else {
            assert!((longest_years - f64::from(longest)).abs() <= 0.5);
        }
    }
}

// ASTM A653/A653M-15, table 1 (masses, both sides) and 8.1.3 (7.14 g/m2 = 1 µm): even split, by arithmetic.
#[rstest]
#[case::g30(0.30 * 305.1517, 6.4)]
#[case::g60(0.60 * 305.1517, 12.8)]
#[case::g90(0.90 * 305.1517, 19.2)]
#[case::g115(1.15 * 305.1517, 24.6)]
#[case::g140(1.40 * 305.1517, 29.9)]
#[case::g185(1.85 * 305.1517, 39.5)]
#[case::g235(2.35 * 305.1517, 50.2)]
#[case::z100(100.0, 7.0)]
#[case::z140(140.0, 9.8)]
#[case::z275(275.0, 19.3)]
#[case::z350(350.0, 24.5)]
fn coating_thickness_evenly_split(#[case] both_sides_g_m2: f64, #[case] per_side_um: f64) {
    assert_prints(coating_thickness_um(both_sides_g_m2 / 2.0, 7140.0), per_side_um, 1);
}

// ASTM A653/A653M-15, table 1: least mass on one side, 0.32 oz/ft2 for G90 and 0.20 for G60 and A60.
#[rstest]
#[case::g90(0.32, 13.7)]
#[case::g60(0.20, 8.5)]
fn coating_thickness_on_the_worst_side(#[case] one_side_oz_ft2: f64, #[case] um: f64) {
    assert_prints(coating_thickness_um(one_side_oz_ft2 * 305.1517, 7140.0), um, 1);
}

#[test]
fn beyond_20_years_by_hand() {
    // Zinc, b 0.813, 40 years: 20^0.813 + 0.813 * 20^-0.187 * 20 = 11.4219 * 1.813 = 20.708; 40^0.813 = 20.067.
    let lost_um = |beyond| loss_um(1.0, 40.0, 0.813, beyond).unwrap();
    assert_prints(lost_um(Beyond20::Tangent), 20.708, 3);
    assert_prints(lost_um(Beyond20::PowerLaw), 20.067, 3);
}

#[test]
fn a_range_uses_the_least_and_the_greatest_reading() {
    let g90 = Layer { nominal_um: 19.2, least_um: 13.7 };
    let life = life_range(g90, Rates { low_um_a: Some(0.7), high_um_a: 2.1 }, Zinc).unwrap();
    assert_eq!(life.shortest_by.exponent, Exponent::Linear);
    assert!((life.shortest_years - 13.7 / 2.1).abs() < 1e-12);
    let longest = Reading { exponent: Exponent::Mean, beyond: Beyond20::PowerLaw };
    assert_eq!(life.longest_by, Some(longest));
    assert_eq!(life.longest_years.unwrap(), life_years(19.2, 0.7, 0.813, Beyond20::PowerLaw).unwrap());
    assert_eq!(life.to_string(), "6.5 to 59 years");
    assert!(!life.beyond_table());
}

#[test]
fn below_one_year_the_power_law_is_the_shorter() {
    // 8.5 µm at 25 µm/a: 0.34 years evenly, 0.34^(1/0.813) = 0.265 by the power law.
    let thin = Layer { nominal_um: 8.5, least_um: 8.5 };
    let life = life_range(thin, Rates { low_um_a: Some(8.4), high_um_a: 25.0 }, Zinc).unwrap();
    assert_eq!(life.shortest_by.exponent, Exponent::Mean);
    assert_prints(life.shortest_years, 0.265, 3);
    assert_prints(life.linear_shortest_years, 0.34, 3);
}

#[rstest]
#[case::missing(None)]
#[case::nought(Some(0.0))]
fn without_a_lower_rate_there_is_no_longest_life(#[case] low_um_a: Option<f64>) {
    let g90 = Layer { nominal_um: 19.2, least_um: 13.7 };
    let life = life_range(g90, Rates { low_um_a, high_um_a: 0.1 }, Zinc).unwrap();
    assert_eq!((life.longest_years, life.longest_by, life.linear_longest_years), (None, None, None));
    assert_eq!(life.to_string(), "more than 100 years");
    let quicker = life_range(g90, Rates { low_um_a, high_um_a: 2.1 }, Zinc).unwrap();
    assert_eq!(quicker.to_string(), "at least 6.5 years, no upper bound");
}

#[test]
fn a_layer_that_is_not_there_lasts_no_time() {
    let none = Layer { nominal_um: 0.0, least_um: 0.0 };
    let life = life_range(none, Rates { low_um_a: None, high_um_a: 2.1 }, Zinc).unwrap();
    assert_eq!((life.shortest_years, life.longest_years), (0.0, Some(0.0)));
    // A coating without a guaranteed minimum: its shortest life is nought, its longest is not.
    let unguaranteed = Layer { nominal_um: 7.0, least_um: 0.0 };
    let life = life_range(unguaranteed, Rates { low_um_a: Some(0.7), high_um_a: 2.1 }, Zinc).unwrap();
    assert_eq!(life.shortest_years, 0.0);
    assert!(life.longest_years.unwrap() > 10.0);
}

#[test]
fn perforation_is_the_steels_own_range() {
    // 1 mm in C4 (50 to 80 µm in the first year): 1000 / 80 = 12.5 years at the least.
    let steel = Rates { low_um_a: Some(50.0), high_um_a: 80.0 };
    let years = perforation_range(Layer::of_sheet_mm(1.0, 1.0), steel).unwrap();
    assert_eq!(years.shortest_years, 12.5);
    // The mean exponent draws the longest out to 20^(1/0.523) = 307 years, beyond anything tabulated.
    assert_prints(years.longest_years.unwrap(), 307.0, 0);
    assert!(years.beyond_table());
    assert_eq!(years.to_string(), "12 to more than 100 years");
}

#[rstest]
#[case::negative_rate(-1.0, 10.0, 0.8, "rate_um_a")]
#[case::no_number_for_rate(f64::NAN, 10.0, 0.8, "rate_um_a")]
#[case::endless_rate(f64::INFINITY, 10.0, 0.8, "rate_um_a")]
#[case::negative_time(1.0, -0.1, 0.8, "years")]
#[case::no_number_for_time(1.0, f64::NAN, 0.8, "years")]
#[case::loss_past_all_numbers(f64::MAX, 10.0, 0.8, "years")]
#[case::no_exponent(1.0, 10.0, 0.0, "b")]
#[case::growing_loss(1.0, 10.0, 1.1, "b")]
#[case::no_number_for_exponent(1.0, 10.0, f64::NAN, "b")]
fn loss_refuses(#[case] rate_um_a: f64, #[case] years: f64, #[case] b: f64, #[case] names: &str) {
    for beyond in [Beyond20::Tangent, Beyond20::PowerLaw] {
        assert_eq!(loss_um(rate_um_a, years, b, beyond).unwrap_err().path(), names);
    }
}

#[rstest]
#[case::negative_thickness(-1.0, 1.0, 0.8, "thickness_um")]
#[case::no_number_for_thickness(f64::NAN, 1.0, 0.8, "thickness_um")]
#[case::no_rate(10.0, 0.0, 0.8, "rate_um_a")]
#[case::no_number_for_rate(10.0, f64::NAN, 0.8, "rate_um_a")]
#[case::life_past_all_numbers(10.0, f64::MIN_POSITIVE, 0.8, "rate_um_a")]
#[case::no_number_for_exponent(10.0, 1.0, f64::NAN, "b")]
fn life_refuses(#[case] thickness_um: f64, #[case] rate_um_a: f64, #[case] b: f64, #[case] names: &str) {
    for beyond in [Beyond20::Tangent, Beyond20::PowerLaw] {
        assert_eq!(life_years(thickness_um, rate_um_a, b, beyond).unwrap_err().path(), names);
    }
}

#[rstest]
#[case::least_above_nominal(10.0, 11.0, Some(1.0), 2.0, "least_um")]
#[case::negative_least(10.0, -1.0, Some(1.0), 2.0, "least_um")]
#[case::no_number_for_nominal(f64::NAN, 1.0, Some(1.0), 2.0, "nominal_um")]
#[case::bounds_swapped(10.0, 8.0, Some(3.0), 2.0, "low_um_a")]
#[case::no_number_for_low(10.0, 8.0, Some(f64::NAN), 2.0, "low_um_a")]
#[case::no_upper_rate(10.0, 8.0, None, 0.0, "high_um_a")]
fn range_refuses(
    #[case] nominal_um: f64,
    #[case] least_um: f64,
    #[case] low_um_a: Option<f64>,
    #[case] high_um_a: f64,
    #[case] names: &str,
) {
    let error = life_range(Layer { nominal_um, least_um }, Rates { low_um_a, high_um_a }, Zinc).unwrap_err();
    assert_eq!(error.path(), names);
}

#[test]
fn a_refusal_says_what_is_allowed() {
    let error = loss_um(-1.0, 10.0, 0.8, Beyond20::Tangent).unwrap_err();
    assert_eq!(error.to_string(), "rate_um_a: -1 µm/a is out of range; allowed: 0 µm/a and above");
}

fn beyond() -> impl Strategy<Value = Beyond20> {
    prop_oneof![Just(Beyond20::Tangent), Just(Beyond20::PowerLaw)]
}

fn metal() -> impl Strategy<Value = MetalLost> {
    prop_oneof![Just(Steel), Just(Zinc)]
}

proptest! {
    #[test]
    fn loss_and_life_are_inverse(
        rate_um_a in 0.01..700.0, years in 0.0..200.0, b in 0.3..=1.0, beyond in beyond(),
    ) {
        let lost_um = loss_um(rate_um_a, years, b, beyond).unwrap();
        let back_years = life_years(lost_um, rate_um_a, b, beyond).unwrap();
        prop_assert!((back_years - years).abs() <= 1e-12 * years.max(1.0));
        let again_um = loss_um(rate_um_a, back_years, b, beyond).unwrap();
        prop_assert!((again_um - lost_um).abs() <= 1e-12 * lost_um.max(1.0));
    }

    #[test]
    fn loss_grows_with_time_and_rate(
        rate_um_a in 0.01..700.0, years in 0.0..200.0, b in 0.3..=1.0, more in 0.001..50.0, beyond in beyond(),
    ) {
        let lost_um = loss_um(rate_um_a, years, b, beyond).unwrap();
        prop_assert!(loss_um(rate_um_a, years + more, b, beyond).unwrap() > lost_um);
        prop_assert!(loss_um(rate_um_a + more, years, b, beyond).unwrap() >= lost_um);
    }

    #[test]
    fn the_tangent_never_loses_less(rate_um_a in 0.01..700.0, years in 0.0..200.0, b in 0.1..=1.0) {
        let tangent_um = loss_um(rate_um_a, years, b, Beyond20::Tangent).unwrap();
        let power_um = loss_um(rate_um_a, years, b, Beyond20::PowerLaw).unwrap();
        if years <= POWER_LAW_YEARS {
            prop_assert_eq!(tangent_um, power_um);
        } else {
            prop_assert!(tangent_um >= power_um * (1.0 - 1e-14));
        }
    }

    #[test]
    fn loss_is_continuous_at_20_years(rate_um_a in 0.01..700.0, b in 0.1..=1.0, beyond in beyond()) {
        let at = |years| loss_um(rate_um_a, years, b, beyond).unwrap();
        // No step, and no kink: the slopes on both sides agree.
        let step = 1e-4;
        let (before, after) = (at(20.0) - at(20.0 - step), at(20.0 + step) - at(20.0));
        prop_assert!((after - before).abs() <= 1e-4 * before);
    }

    #[test]
    fn a_thicker_coating_never_lives_shorter(
        least_um in 0.0..60.0, spread_um in 0.0..30.0, more_um in 0.0..30.0,
        low_um_a in 0.05..8.4, rise_um_a in 0.0..20.0, metal in metal(),
    ) {
        let rates = Rates { low_um_a: Some(low_um_a), high_um_a: low_um_a + rise_um_a };
        let layer = Layer { nominal_um: least_um + spread_um, least_um };
        let thicker = Layer { nominal_um: layer.nominal_um + more_um, least_um: least_um + more_um };
        let (life, longer) = (life_range(layer, rates, metal).unwrap(), life_range(thicker, rates, metal).unwrap());
        prop_assert!(longer.shortest_years >= life.shortest_years);
        prop_assert!(longer.longest_years >= life.longest_years);
    }

    #[test]
    fn every_reading_lies_within_the_range(
        least_um in 0.0..60.0, spread_um in 0.0..30.0, low_um_a in 0.05..8.4, rise_um_a in 0.0..20.0, metal in metal(),
    ) {
        let rates = Rates { low_um_a: Some(low_um_a), high_um_a: low_um_a + rise_um_a };
        let life = life_range(Layer { nominal_um: least_um + spread_um, least_um }, rates, metal).unwrap();
        let longest_years = life.longest_years.unwrap();
        prop_assert!(life.shortest_years <= longest_years);
        for reading in Reading::ALL {
            let b = reading.exponent.b(metal);
            for (thickness_um, rate_um_a) in [(least_um, rates.high_um_a), (least_um + spread_um, low_um_a)] {
                let years = life_years(thickness_um, rate_um_a, b, reading.beyond).unwrap();
                prop_assert!((life.shortest_years..=longest_years).contains(&years));
            }
        }
        // From one year up the longest is B1 with the power law throughout.
        if (least_um + spread_um) / low_um_a >= 1.0 {
            let mean = life_years(least_um + spread_um, low_um_a, Exponent::Mean.b(metal), Beyond20::PowerLaw).unwrap();
            prop_assert_eq!(longest_years, mean);
        }
    }

    #[test]
    fn no_input_gives_anything_but_a_number_or_a_refusal(
        thickness_um in any::<f64>(), rate_um_a in any::<f64>(), b in any::<f64>(), beyond in beyond(),
    ) {
        for b in [b, 0.5] {
            for result in [loss_um(rate_um_a, thickness_um, b, beyond), life_years(thickness_um, rate_um_a, b, beyond)] {
                prop_assert!(result.map_or(true, |v| v.is_finite() && v >= 0.0));
            }
        }
        let layer = Layer { nominal_um: thickness_um, least_um: 0.0 };
        if let Ok(life) = life_range(layer, Rates { low_um_a: Some(rate_um_a), high_um_a: 2.1 }, Zinc) {
            prop_assert!(life.shortest_years.is_finite() && life.longest_years.is_none_or(f64::is_finite));
        }
    }
}
