//! What a thing costs a year: capital recovery against published tables, and the laws of renewal.

use proptest::prelude::*;
use raisedbody::shop::life_cost::{Spending, cost_per_year};
use rstest::rstest;

fn once(first: f64, horizon_years: f64, discount: f64) -> Spending {
    Spending { first, renewal: first, horizon_years, discount }
}

// Capital recovery factors A/P as every table of compound interest prints them, four decimals (for one: Blank and Tarquin,
// Engineering Economy, tables at the back; from memory, and the arithmetic agrees).
#[rstest]
#[case(0.08, 10.0, 0.1490)]
#[case(0.08, 20.0, 0.1019)]
#[case(0.05, 5.0, 0.2310)]
#[case(0.10, 15.0, 0.1315)]
#[case(0.04, 30.0, 0.0578)]
fn capital_recovery(#[case] discount: f64, #[case] years: f64, #[case] printed: f64) {
    let cost = cost_per_year(once(1.0, years, discount), None).unwrap();
    assert!((cost.per_year - printed).abs() <= 0.5e-4 + 1e-9, "{}", cost.per_year);
    assert_eq!(cost.renewals, 0);
}

// By hand: 1000 now and again after 4 and 8 years, at 5 %: 1000 (1 + 0.822702 + 0.676839) = 2499.541; A/P of 10 years at 5 %
// 0.129505: 323.70 a year. Without interest 3000 / 10.
#[test]
fn renewed_twice() {
    let cost = cost_per_year(once(1000.0, 10.0, 0.05), Some(4.0)).unwrap();
    assert_eq!(cost.renewals, 2);
    assert!((cost.per_year - 323.70).abs() < 0.01, "{}", cost.per_year);
    let plain = cost_per_year(once(1000.0, 10.0, 0.0), Some(4.0)).unwrap();
    assert!((plain.per_year - 300.0).abs() < 1e-9);
}

// A life that ends with the horizon is not renewed at its end.
#[test]
fn the_last_day_needs_no_renewal() {
    assert_eq!(cost_per_year(once(1000.0, 10.0, 0.0), Some(5.0)).unwrap().renewals, 1);
    assert_eq!(cost_per_year(once(1000.0, 10.0, 0.0), Some(10.0)).unwrap().renewals, 0);
}

#[rstest]
#[case(once(-1.0, 10.0, 0.0), Some(5.0), "first")]
#[case(Spending { renewal: f64::NAN, ..once(1.0, 10.0, 0.0) }, Some(5.0), "renewal")]
#[case(once(1.0, 0.0, 0.0), Some(5.0), "horizon_years")]
#[case(once(1.0, f64::INFINITY, 0.0), None, "horizon_years")]
#[case(once(1.0, 10.0, -0.1), None, "discount")]
#[case(once(1.0, 10.0, 0.0), Some(0.0), "life_years")]
#[case(once(1.0, 10.0, 0.0), Some(0.0001), "life_years")]
#[case(once(1.0, 10.0, 0.0), Some(f64::NAN), "life_years")]
fn nonsense_is_refused(#[case] spending: Spending, #[case] life: Option<f64>, #[case] field: &str) {
    assert!(cost_per_year(spending, life).unwrap_err().to_string().contains(field));
}

proptest! {
    #[test]
    fn a_longer_life_never_costs_more(life in 0.5..40.0, more in 1.0..3.0, discount in 0.0..0.2, horizon in 1.0..60.0) {
        let cost = |life| cost_per_year(once(1000.0, horizon, discount), Some(life)).unwrap().per_year;
        prop_assert!(cost(life * more) <= cost(life) + 1e-9);
    }

    #[test]
    fn twice_the_money_twice_the_cost(life in 0.5..40.0, discount in 0.0..0.2, horizon in 1.0..60.0) {
        let cost = |first| cost_per_year(once(first, horizon, discount), Some(life)).unwrap().per_year;
        prop_assert!((cost(2000.0) / cost(1000.0) - 2.0).abs() < 1e-12);
    }

    #[test]
    fn little_interest_is_nearly_none(life in 0.5..40.0, horizon in 1.0..60.0) {
        let cost = |discount| cost_per_year(once(1000.0, horizon, discount), Some(life)).unwrap().per_year;
        prop_assert!((cost(1e-9) / cost(0.0) - 1.0).abs() < 1e-5);
    }
}
