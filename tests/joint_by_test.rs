//! Resistances from tests: the tables and worked numbers of each rule, and what is refused.

use std::f64::consts::{FRAC_PI_2, PI};

use raisedbody::check::Standing;
use raisedbody::error::Problem;
use raisedbody::mechanics::joint::by_test::{
    ConnectionKind, Coupon, Distribution, Ordered, Scatter, Statistics, TestLevel, TestResult, TestSeries,
    few_tests_factor, k_d_n, k_n, log_deviation_of, log_normal_fractile_n, normal_fractile_n, resistance_factor,
};
use rstest::rstest;

use Distribution::{LogNormal, Normal};

const KNOWN: Scatter = Scatter::Known(0.08);
const UNKNOWN: Scatter = Scatter::Unknown;

/// Five single-rivet laps; loads invented.
const FIVE_N: [f64; 5] = [3620.0, 3780.0, 3550.0, 3910.0, 3690.0];

fn series(loads_n: &[f64]) -> TestSeries {
    TestSeries::of_loads(loads_n).unwrap()
}

fn near(value: f64, printed: f64, half_digit: f64) -> bool {
    (value - printed).abs() <= half_digit * (1.0 + 1e-9)
}

fn paths(problems: &[Problem]) -> Vec<&str> {
    problems.iter().map(|p| p.path()).collect()
}

fn same(k: Option<f64>, printed: Option<f64>) -> bool {
    match (k, printed) {
        (Some(k), Some(printed)) => near(k, printed, 1e-12),
        (k, printed) => k.is_none() && printed.is_none(),
    }
}

// EN 1990:2002, Table D1, as restated by a public R function (its corrected copy). Table D2 from memory; its columns 1
// and 2 too, which also follow from 3.08 sqrt(1 + 1/n).
#[rstest]
#[case(0, None, None, None, None)]
#[case(1, Some(2.31), None, Some(4.36), None)]
#[case(2, Some(2.01), None, Some(3.77), None)]
#[case(3, Some(1.89), Some(3.37), Some(3.56), None)]
#[case(4, Some(1.83), Some(2.63), Some(3.44), Some(11.40))]
#[case(5, Some(1.80), Some(2.33), Some(3.37), Some(7.85))]
#[case(6, Some(1.77), Some(2.18), Some(3.33), Some(6.36))]
#[case(8, Some(1.74), Some(2.00), Some(3.27), Some(5.07))]
#[case(10, Some(1.72), Some(1.92), Some(3.23), Some(4.51))]
#[case(20, Some(1.68), Some(1.76), Some(3.16), Some(3.64))]
#[case(30, Some(1.67), Some(1.73), Some(3.13), Some(3.44))]
// Linear between the columns, by arithmetic.
#[case(7, Some(1.755), Some(2.09), Some(3.30), Some(5.715))]
#[case(9, Some(1.73), Some(1.96), Some(3.25), Some(4.79))]
#[case(25, Some(1.675), Some(1.745), Some(3.145), Some(3.54))]
fn fractile_factors(
    #[case] n: usize,
    #[case] known: Option<f64>,
    #[case] unknown: Option<f64>,
    #[case] design_known: Option<f64>,
    #[case] design_unknown: Option<f64>,
) {
    assert!(same(k_n(n, KNOWN), known) && same(k_n(n, UNKNOWN), unknown));
    assert!(same(k_d_n(n, KNOWN), design_known) && same(k_d_n(n, UNKNOWN), design_unknown));
}

// The columns for infinity, 1.64 and 3.04, are never gone below.
#[test]
fn beyond_the_last_column_its_value_is_kept() {
    for n in [31, 100, usize::MAX] {
        for scatter in [KNOWN, UNKNOWN] {
            assert!(same(k_n(n, scatter), k_n(30, scatter)) && k_n(n, scatter).unwrap() > 1.64);
            assert!(same(k_d_n(n, scatter), k_d_n(30, scatter)) && k_d_n(n, scatter).unwrap() > 3.04);
        }
    }
}

/// P(|T| < t) of Student's t with whole degrees of freedom: the closed sums of Abramowitz and Stegun, 26.7.3 and
/// 26.7.4.
fn student_within(t: f64, freedom: usize) -> f64 {
    let angle = (t / (freedom as f64).sqrt()).atan();
    let (sin, cos) = angle.sin_cos();
    let first = if freedom % 2 == 1 { cos } else { 1.0 };
    let (mut term, mut sum) = (first, 0.0);
    let mut power = usize::from(freedom % 2 == 1);
    while power + 2 <= freedom {
        sum += term;
        term *= cos * cos * (power + 1) as f64 / (power + 2) as f64;
        power += 2;
    }
    match freedom {
        1 => angle / FRAC_PI_2,
        _ if freedom % 2 == 1 => 2.0 / PI * (angle + sin * sum),
        _ => sin * sum,
    }
}

fn student_quantile(probability: f64, freedom: usize) -> f64 {
    let (mut low, mut high) = (0.0, 1000.0);
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if 0.5 + 0.5 * student_within(middle, freedom) < probability { low = middle } else { high = middle }
    }
    low
}

// Any table of Student's t, to the printed digits: shows that the routine above is right.
#[rstest]
#[case(0.95, 1, 6.314)]
#[case(0.95, 2, 2.920)]
#[case(0.95, 3, 2.353)]
#[case(0.95, 9, 1.833)]
#[case(0.999, 3, 10.215)]
#[case(0.999, 10, 4.144)]
#[case(0.999, 29, 3.396)]
fn quantiles_of_student(#[case] probability: f64, #[case] freedom: usize, #[case] printed: f64) {
    assert!(near(student_quantile(probability, freedom), printed, 5e-4), "{}", student_quantile(probability, freedom));
}

// Where the tables come from, by arithmetic: prediction of the next result, `z sqrt(1 + 1/n)` or `t sqrt(1 + 1/n)`. The
// tables agree within 0.012 (D1; 0.017 at n = 1, printed 2.31 against 2.326) and 0.005 and 0.03 (D2, finite columns).
#[rstest]
fn tables_follow_from_quantiles(#[values(1, 2, 3, 4, 5, 6, 8, 10, 20, 30)] n: usize) {
    let root = (1.0 + 1.0 / n as f64).sqrt();
    assert!(near(k_n(n, KNOWN).unwrap(), 1.645 * root, if n == 1 { 0.017 } else { 0.012 }));
    assert!(near(k_d_n(n, KNOWN).unwrap(), 3.08 * root, 0.005));
    if n >= 3 {
        assert!(near(k_n(n, UNKNOWN).unwrap(), student_quantile(0.95, n - 1) * root, 0.012));
    }
    if n >= 4 {
        assert!(near(k_d_n(n, UNKNOWN).unwrap(), student_quantile(0.999, n - 1) * root, 0.03));
    }
}

// Between the columns the chord lies above the curve: interpolation errs on the safe side, but for the table's
// rounding.
#[test]
fn interpolation_is_safe() {
    for n in 3..=30 {
        let root = (1.0 + 1.0 / n as f64).sqrt();
        assert!(k_n(n, KNOWN).unwrap() >= 1.645 * root - 0.012);
        assert!(k_n(n, UNKNOWN).unwrap() >= student_quantile(0.95, n - 1) * root - 0.012);
        if n >= 4 {
            assert!(k_d_n(n, UNKNOWN).unwrap() >= student_quantile(0.999, n - 1) * root - 0.03);
        }
    }
}

// All by arithmetic from the rules and the invented loads.
#[test]
fn statistics_of_the_five() {
    let of = Statistics::of(&FIVE_N);
    assert!(near(of.mean_n, 3710.0, 1e-9));
    assert!(near(of.deviation_n.unwrap(), 140.53, 0.005));
    assert!(near(of.variation().unwrap(), 0.03788, 5e-6));
    assert!(near(of.log_mean, 8.218_217, 5e-7));
    assert!(near(of.log_deviation.unwrap(), 0.037_684, 5e-7));
    assert!(near(log_deviation_of(0.10), 0.099_751, 5e-7));
    assert!(near(log_deviation_of(0.08), 0.079_872, 5e-7));
}

#[test]
fn without_the_floor() {
    let of = Statistics::of(&FIVE_N);
    assert!(near(normal_fractile_n(of.mean_n, of.variation().unwrap(), 2.33), 3382.6, 0.05));
    assert!(near(log_normal_fractile_n(of.log_mean, of.log_deviation.unwrap(), 2.33), 3396.2, 0.05));
    // EN 1993-1-3, A.6.3 states no floor and is the normal form.
    let rk = series(&FIVE_N).characteristic_en_1993_1_3(0.7).unwrap();
    assert!(near(rk.value_n, 3382.6, 0.05));
    assert_eq!(rk.level, TestLevel::Characteristic);
}

#[rstest]
#[case(Normal, UNKNOWN, 2845.6)]
#[case(LogNormal, UNKNOWN, 2938.9)]
#[case(Normal, KNOWN, 3175.8)]
#[case(LogNormal, KNOWN, 3211.4)]
fn characteristic_of_the_five(#[case] law: Distribution, #[case] scatter: Scatter, #[case] printed: f64) {
    let rk = series(&FIVE_N).characteristic(law, scatter).unwrap();
    assert!(near(rk.value_n, printed, 0.05), "{}", rk.value_n);
    assert_eq!((rk.n, rk.level, rk.standing), (5, TestLevel::Characteristic, Standing::Memory));
}

#[rstest]
#[case(Normal, 2276.5)]
#[case(LogNormal, 2351.1)]
fn characteristic_over_its_partial_factor(#[case] law: Distribution, #[case] printed: f64) {
    let rd = series(&FIVE_N).characteristic(law, UNKNOWN).unwrap().design(1.0, 1.25).unwrap();
    assert!(near(rd.design_n().unwrap(), printed, 0.05));
}

#[rstest]
#[case(Normal, UNKNOWN, 797.7)]
#[case(LogNormal, UNKNOWN, 1694.5)]
#[case(Normal, KNOWN, 2709.8)]
#[case(LogNormal, KNOWN, 2832.9)]
fn design_of_the_five(#[case] law: Distribution, #[case] scatter: Scatter, #[case] printed: f64) {
    let of = series(&FIVE_N);
    assert!(near(of.design(law, scatter, 1.0).unwrap().design_n().unwrap(), printed, 0.05));
    assert!(near(of.design(law, scatter, 0.8).unwrap().value_n, 0.8 * printed, 0.05));
}

// AISI S100-16, K2.1.1, from memory; phi and Omega by arithmetic, connection not listed, scatter at its floor.
#[rstest]
#[case(3, 5.7, 0.551, 2.905)]
#[case(4, 3.75, 0.577, 2.774)]
#[case(6, 1.944, 0.603, 2.652)]
#[case(10, 1.414, 0.612, 2.616)]
#[case(10_000_000, 1.0, 0.618, 2.588)]
fn factors_by_number(#[case] n: usize, #[case] c_p: f64, #[case] phi: f64, #[case] omega: f64) {
    let found = resistance_factor(ConnectionKind::NotListed, n, 0.0).unwrap();
    assert!(near(few_tests_factor(n).unwrap(), c_p, 5e-4));
    assert!(near(found, phi, 5e-4) && near(1.6 / found, omega, 5e-4), "{found}");
}

#[test]
fn no_factor_below_three() {
    for n in 0..3 {
        assert_eq!((few_tests_factor(n), resistance_factor(ConnectionKind::Bolt, n, 0.1)), (None, None));
    }
}

// AISI S100-16, Table K2.1.1-1, from memory.
#[rstest]
#[case(ConnectionKind::Bolt, 0.08, 0.05)]
#[case(ConnectionKind::ScrewTiltingAndBearing, 0.08, 0.05)]
#[case(ConnectionKind::ScrewOther, 0.10, 0.10)]
#[case(ConnectionKind::FilletWeld, 0.08, 0.15)]
#[case(ConnectionKind::NotListed, 0.10, 0.15)]
fn material_and_fabrication(#[case] kind: ConnectionKind, #[case] v_m: f64, #[case] v_f: f64) {
    let f = kind.factors();
    let row = (f.material, f.material_variation, f.fabrication, f.fabrication_variation);
    assert_eq!(row, (1.10, v_m, 1.00, v_f));
}

#[rstest]
#[case(ConnectionKind::NotListed, 0.5964, 2.683)]
#[case(ConnectionKind::ScrewTiltingAndBearing, 0.6939, 2.306)]
fn nominal_of_the_five(#[case] kind: ConnectionKind, #[case] phi: f64, #[case] omega: f64) {
    let result = series(&FIVE_N).nominal_aisi_s100(kind).unwrap();
    let TestLevel::Nominal { phi: found, omega: over } = result.level else { panic!("{result:?}") };
    assert!(near(found, phi, 5e-5) && near(over, omega, 5e-4));
    assert!(near(result.value_n, 3710.0, 1e-9) && near(result.variation.unwrap(), 0.065, 1e-12));
    assert!(near(few_tests_factor(5).unwrap(), 2.4, 1e-12));
}

#[test]
fn factored_and_allowable_of_the_five() {
    let result = series(&FIVE_N).nominal_aisi_s100(ConnectionKind::default()).unwrap();
    assert!(near(result.factored_n().unwrap(), 2212.8, 0.05));
    assert!(near(result.allowable_n().unwrap(), 1383.0, 0.05));
    // The root in the exponent, worked back.
    let root = (1.52 * 1.10 / (result.factored_n().unwrap() / result.value_n)).ln() / 3.5;
    assert!(near(root, 0.29452, 5e-6));
}

#[test]
fn levels_cannot_be_mixed() {
    let of = series(&FIVE_N);
    let characteristic = of.characteristic(Normal, UNKNOWN).unwrap();
    let design = of.design(Normal, KNOWN, 1.0).unwrap();
    let nominal = of.nominal_aisi_s100(ConnectionKind::NotListed).unwrap();
    let level = |p: Problem| assert_eq!(p.path(), "level");
    for result in [&characteristic, &nominal] {
        level(result.design_n().unwrap_err());
    }
    for result in [&design, &nominal] {
        level(result.characteristic_n().unwrap_err());
    }
    assert!(near(characteristic.characteristic_n().unwrap(), characteristic.value_n, 0.0));
    for result in [&characteristic, &design] {
        level(result.allowable_n().unwrap_err());
        level(result.factored_n().unwrap_err());
    }
    for result in [&design, &nominal] {
        assert_eq!(paths(&result.design(1.0, 1.25).unwrap_err()), ["level"]);
    }
    // A design value is not divided again.
    assert_eq!(paths(&characteristic.design(1.0, 1.25).unwrap().design(1.0, 1.25).unwrap_err()), ["level"]);
    assert_eq!(paths(&characteristic.design(1.2, 0.9).unwrap_err()), ["gamma_m", "eta_d"]);
}

#[rstest]
#[case(&[], &["coupons"])]
#[case(&[3600.0, -3600.0, 3700.0], &["coupons[1].load"])]
#[case(&[0.0, 3600.0, f64::NAN], &["coupons[0].load", "coupons[2].load"])]
#[case(&[f64::INFINITY, 3600.0], &["coupons[0].load"])]
fn impossible_loads(#[case] loads: &[f64], #[case] expected: &[&str]) {
    assert_eq!(paths(&TestSeries::of_loads(loads).unwrap_err()), expected);
}

#[test]
fn too_few_results_are_refused() {
    let refused = |result: Result<TestResult, Vec<Problem>>| assert_eq!(paths(&result.unwrap_err()), ["coupons"]);
    for law in [Normal, LogNormal] {
        refused(series(&FIVE_N[..2]).characteristic(law, UNKNOWN));
        refused(series(&FIVE_N[..3]).design(law, UNKNOWN, 1.0));
        assert!(series(&FIVE_N[..1]).characteristic(law, KNOWN).is_ok());
        assert!(series(&FIVE_N[..3]).characteristic(law, UNKNOWN).is_ok());
    }
    refused(series(&FIVE_N[..2]).nominal_aisi_s100(ConnectionKind::NotListed));
    let message = series(&FIVE_N[..1]).characteristic(Normal, UNKNOWN).unwrap_err()[0].to_string();
    assert!(message.contains("1 result") && message.contains("at least 3"), "{message}");
}

// EN 1990, n = 4 at the floor: 1 - 11.40 * 0.10 is below nought. The log-normal form still answers.
#[test]
fn a_negative_normal_value_is_refused_and_points_to_the_log_normal() {
    let four = series(&FIVE_N[..4]);
    let problems = four.design(Normal, UNKNOWN, 1.0).unwrap_err();
    assert!(problems[0].to_string().contains("log-normal"), "{}", problems[0]);
    assert!(problems[0].value().unwrap().starts_with('-'));
    assert!(four.design(LogNormal, UNKNOWN, 1.0).unwrap().value_n > 0.0);
    // A.6.3 has no floor but can do the same where the loads scatter wildly.
    let wild = series(&[400.0, 3000.0, 500.0, 2900.0]).characteristic_en_1993_1_3(0.9).unwrap_err();
    assert!(wild[0].to_string().contains("log-normal"));
}

#[rstest]
#[case(8.0)]
#[case(0.0)]
#[case(-0.1)]
#[case(f64::NAN)]
fn impossible_scatter(#[case] variation: f64) {
    let problems = series(&FIVE_N).characteristic(Normal, Scatter::Known(variation)).unwrap_err();
    assert_eq!(paths(&problems), ["scatter"]);
}

#[test]
fn impossible_factors() {
    assert_eq!(paths(&series(&FIVE_N).design(Normal, KNOWN, 1.1).unwrap_err()), ["eta_d"]);
    assert_eq!(paths(&series(&FIVE_N).characteristic_en_1993_1_3(1.0).unwrap_err()), ["eta_k"]);
}

// EN 1993-1-3, A.6.3.3, from memory; numbers by arithmetic.
#[rstest]
#[case(&[4000.0], 0.9 * 0.7 * 4000.0)]
#[case(&[4000.0, 4400.0], 0.7 * 4200.0)]
#[case(&[3600.0, 4000.0, 4400.0], 0.7 * 4000.0)]
fn three_results_or_fewer(#[case] loads: &[f64], #[case] expected: f64) {
    assert!(near(series(loads).characteristic_en_1993_1_3(0.7).unwrap().value_n, expected, 1e-9));
}

#[test]
fn two_or_three_far_apart_are_refused() {
    let problems = series(&[3500.0, 4000.0, 4400.0]).characteristic_en_1993_1_3(0.7).unwrap_err();
    assert_eq!(paths(&problems), ["coupons[0].load"]);
    assert!(series(&[3500.0, 4000.0, 4400.0, 3900.0]).characteristic_en_1993_1_3(0.7).is_ok());
}

// AISI S100-16, K2.1.1(a): one more than 15 % off asks for three more tests, then the mean of all counts.
#[test]
fn scatter_over_15_percent_asks_for_more() {
    let nominal = |loads: &[f64]| series(loads).nominal_aisi_s100(ConnectionKind::NotListed);
    // Right at 15 % is not more than 15 %.
    assert!(nominal(&[3400.0, 4000.0, 4600.0]).is_ok());
    let problems = nominal(&[3300.0, 4000.0, 4700.0]).unwrap_err();
    assert_eq!(paths(&problems), ["coupons[0].load"]);
    assert!(problems[0].to_string().contains("at least 3 more"));
    assert!(nominal(&[3300.0, 4000.0, 4700.0, 4000.0, 4000.0]).is_err());
    let six = nominal(&[3300.0, 4000.0, 4700.0, 4000.0, 4000.0, 4000.0]).unwrap();
    assert!(near(six.value_n, 4000.0, 1e-9) && six.variation.unwrap() > 0.065);
}

fn measured(thickness_mm: f64, strength_mpa: f64) -> TestSeries {
    let coupon = |&load_n: &f64| Coupon {
        load_n,
        thickness_mm: Some(thickness_mm),
        strength_mpa: Some(strength_mpa),
        predicted_n: None,
    };
    let ordered = Ordered { thickness_mm: Some(1.2), strength_mpa: Some(360.0), predicted_n: None };
    TestSeries::new(FIVE_N.iter().map(coupon).collect(), ordered).unwrap()
}

// EN 1993-1-3, A.6.2: a 0 or 1 (read in dnaop.com/html/62960_29.html), b 1 or 2 (from memory), whichever gives less.
// AISI S100-16, K2.1.1: down only. Means by arithmetic, 3710 N as tested.
#[rstest]
#[case::as_ordered(1.2, 360.0, 1.0, 1.0)]
#[case::thicker(1.32, 360.0, 1.0 / 1.21, 1.0 / 1.153_689_732_987_366_5)]
#[case::stronger(1.2, 396.0, 1.0 / 1.1, 1.0 / 1.1)]
#[case::weaker(1.2, 300.0, 1.0, 1.0)]
#[case::thinner(1.14, 360.0, 1.0 / 0.95, 1.0)]
fn results_are_brought_back(#[case] t: f64, #[case] fu: f64, #[case] en: f64, #[case] aisi: f64) {
    let of = measured(t, fu);
    for result in [of.characteristic(LogNormal, UNKNOWN), of.characteristic_en_1993_1_3(0.7)] {
        let result = result.unwrap();
        assert!(near(result.mean_n, 3710.0 * en, 1e-6), "{}", result.mean_n);
        assert_eq!(result.standing, Standing::Assumed, "tensile in place of yield strength is a judgement");
        assert!(result.notes[0].contains("thickness and strength"));
    }
    let nominal = of.nominal_aisi_s100(ConnectionKind::NotListed).unwrap();
    assert!(near(nominal.value_n, 3710.0 * aisi, 1e-6), "{}", nominal.value_n);
}

#[rstest]
#[case(1.344, 360.0, &[])]
#[case(1.35, 360.0, &["thickness"])]
#[case(1.05, 360.0, &["thickness"])]
#[case(1.2, 270.0, &[])]
#[case(1.35, 269.0, &["thickness", "strength"])]
fn limits_of_the_correction(#[case] t: f64, #[case] fu: f64, #[case] expected: &[&str]) {
    let result = measured(t, fu).characteristic(Normal, UNKNOWN);
    let found: Vec<String> = result.err().unwrap_or_default().iter().map(|p| p.path().to_owned()).collect();
    let wanted: Vec<String> = (0..5).flat_map(|i| expected.iter().map(move |e| format!("coupons[{i}].{e}"))).collect();
    assert_eq!(found, if expected.is_empty() { Vec::new() } else { wanted });
}

#[test]
fn measured_on_all_or_none_and_with_its_ordered_value() {
    let bare = Coupon { load_n: 3600.0, ..Coupon::default() };
    let gauged = Coupon { thickness_mm: Some(1.2), ..bare };
    let ordered = Ordered { thickness_mm: Some(1.2), strength_mpa: None, predicted_n: None };
    let problems = |coupons: &[Coupon], ordered| TestSeries::new(coupons.to_vec(), ordered).unwrap_err();
    assert_eq!(paths(&problems(&[gauged, bare], ordered)), ["coupons[1].thickness"]);
    assert_eq!(paths(&problems(&[gauged, gauged], Ordered::default())), ["ordered.thickness"]);
    let broken = Coupon { thickness_mm: Some(f64::NAN), strength_mpa: Some(-1.0), ..bare };
    let expected = ["coupons[0].thickness", "coupons[0].strength", "ordered.strength"];
    assert_eq!(paths(&problems(&[broken], ordered)), expected);
    assert_eq!(TestSeries::new(vec![gauged, gauged], ordered).unwrap().coupons(), [gauged, gauged]);
}

#[test]
fn what_a_reviewer_is_told() {
    let notes = |result: Result<TestResult, Vec<Problem>>| result.unwrap().notes.join("; ");
    let of = series(&FIVE_N);
    assert!(notes(of.characteristic(Normal, UNKNOWN)).contains("not measured"));
    assert!(notes(of.characteristic(Normal, UNKNOWN)).contains("not less than 0.10"));
    assert!(notes(of.characteristic(Normal, Scatter::Known(0.02))).contains("scatter more"));
    assert!(notes(of.nominal_aisi_s100(ConnectionKind::NotListed)).contains("0.065"));
    assert!(notes(measured(1.25, 360.0).nominal_aisi_s100(ConnectionKind::NotListed)).contains("down only"));
    let rk = of.characteristic(Normal, UNKNOWN).unwrap();
    assert_eq!((rk.method, rk.formula), ("EN 1990:2002 D7.2", "R_k = m (1 − k_n V)"));
    let symbols: Vec<&str> = rk.terms.iter().map(|t| t.symbol).collect();
    assert_eq!(symbols, ["m", "V", "k_n", "n"]);
    // The design value keeps the numbers behind its characteristic value.
    let rd = rk.design(0.9, 1.25).unwrap();
    let symbols: Vec<&str> = rd.terms.iter().map(|t| t.symbol).collect();
    assert_eq!(symbols, ["η_d", "γ_M", "R_k", "m", "V", "k_n", "n"]);
    let text = rd.explain();
    for part in
        ["R_d = η_d R_k / γ_M", "γ_M = 1.25", "k_n = 2.33", "R_k = m (1 − k_n V)", "2048.8 N, design", "from memory"]
    {
        assert!(text.contains(part), "{part} not in {text}");
    }
}
