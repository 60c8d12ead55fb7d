//! Odds of a quote: moments by formula, exact quantiles of a single cause, laws, the same draws on any number of threads.
//!
//! Mean and variance of the triangular distribution and of the beta distribution between two ends: Malcolm, Roseboom, Clark and
//! Fazar 1959, Operations Research 7(5), 646-669, with shapes 1 + 4 (m - a) / (b - a); its exact variance (mean - a) (b - mean) / 7
//! follows from the beta's. Quantiles beside `SciPy` stand in `tests/python/test_quotes.py`.

use proptest::prelude::*;
use raisedbody::error::Error;
use raisedbody::plan::Plan;
use raisedbody::shop::odds::{Cause, Odds, Shape, odds};
use raisedbody::shop::price_book::Stage;
use raisedbody::shop::quote::{Basis, Line, Quote};
use rstest::rstest;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

fn quote(amounts: &[(&str, i64)], share: i64) -> Quote {
    let line = |name: &str, basis, amount: Decimal, hours: Decimal| Line {
        name: name.to_owned(),
        basis,
        priced_by: name.to_owned(),
        stage: Stage::Skin,
        quantity: hours,
        unit: "h",
        unit_price: Decimal::ONE,
        amount,
        from: String::new(),
        note: String::new(),
    };
    let mut lines: Vec<Line> = amounts
        .iter()
        .map(|(name, amount)| line(name, Basis::Labour, Decimal::from(*amount), Decimal::from(*amount)))
        .collect();
    let sum: Decimal = lines.iter().map(|l| l.amount).sum();
    lines.push(line("margin", Basis::Share, sum * Decimal::new(share, 2), Decimal::ZERO));
    let total = lines.iter().map(|l| l.amount).sum();
    Quote { currency: "USD", lines, open_items: Vec::new(), open_hours: Decimal::ZERO, total }
}

fn cause(name: &str, of: &[&str], shape: Shape) -> Cause {
    Cause { name: name.to_owned(), of: of.iter().map(|s| (*s).to_owned()).collect(), each: false, shape }
}

fn drawn(quote: &Quote, causes: &[Cause], draws: usize, seed: u64) -> Odds {
    odds(quote, causes, (draws, seed), |_, _| Ok::<_, Error>(())).unwrap()
}

const WIDE: Shape = Shape::Triangular { least: 0.8, likely: 1.0, most: 1.5 };

#[rstest]
#[case(Shape::Triangular { least: 0.0, likely: 0.5, most: 1.0 }, 0.5, (1.0_f64 / 24.0).sqrt())]
#[case(Shape::Triangular { least: 0.0, likely: 0.0, most: 1.0 }, 1.0 / 3.0, (1.0_f64 / 18.0).sqrt())]
#[case(Shape::Pert { least: 0.0, likely: 0.5, most: 1.0 }, 0.5, (1.0_f64 / 28.0).sqrt())]
#[case(Shape::Pert { least: 0.8, likely: 1.0, most: 1.6 }, 6.4 / 6.0, ((6.4 / 6.0 - 0.8) * (1.6 - 6.4 / 6.0) / 7.0_f64).sqrt())]
#[case(Shape::Triangular { least: 1.2, likely: 1.2, most: 1.2 }, 1.2, 0.0)]
fn moments_by_formula(#[case] shape: Shape, #[case] mean: f64, #[case] sd: f64) {
    assert!((shape.mean() - mean).abs() < 1e-12 && (shape.sd() - sd).abs() < 1e-9, "{} {}", shape.mean(), shape.sd());
}

#[rstest]
#[case(WIDE)]
#[case(Shape::Pert { least: 0.8, likely: 1.0, most: 1.6 })]
#[case(Shape::Lognormal { low: 0.9, high: 1.2 })]
fn one_cause_gives_its_own_distribution(#[case] shape: Shape) {
    // One line and one cause: the price's quantiles are the shape's, up to the spread of 200,000 draws.
    let quote = quote(&[("a", 1000)], 20);
    let odds = drawn(&quote, &[cause("c", &["a"], shape)], 200_000, 7);
    for share in [0.05, 0.5, 0.8, 0.9, 0.95] {
        let price = odds.price(share).unwrap().to_f64().unwrap();
        let expected = 1200.0 * shape.quantile(share);
        assert!((price / expected - 1.0).abs() < 0.004, "{share}: {price} for {expected}");
        assert!((odds.hours_at(share).unwrap() / (1000.0 * shape.quantile(share)) - 1.0).abs() < 0.004);
    }
    assert!((odds.mean / (1200.0 * shape.mean()) - 1.0).abs() < 0.002);
    assert!((odds.sd / (1200.0 * shape.sd()) - 1.0).abs() < 0.01);
    assert!((odds.drivers[0].of_variance - 1.0).abs() < 1e-9);
    let swing = 1200.0 * (shape.quantile(0.9) - shape.quantile(0.1));
    assert!((odds.drivers[0].swing - swing).abs() < 1e-9);
}

/// Independent lines add their variances; a common cause adds their standard deviations: a bad week is bad for all tasks.
#[test]
fn a_common_cause_spreads_wider_than_as_many_single_ones() {
    let quote = quote(&[("a", 1000), ("b", 1000), ("c", 1000), ("d", 1000)], 0);
    let shared = drawn(&quote, &[cause("week", &["labour"], WIDE)], 100_000, 1);
    let each = drawn(&quote, &[Cause { each: true, ..cause("task", &["labour"], WIDE) }], 100_000, 1);
    assert!((shared.sd / (4000.0 * WIDE.sd()) - 1.0).abs() < 0.01);
    assert!((each.sd / (2000.0 * WIDE.sd()) - 1.0).abs() < 0.01);
    assert_eq!(each.drivers.len(), 4);
    // A quarter of the variance each.
    assert!(each.drivers.iter().all(|own| (own.of_variance - 0.25).abs() < 0.02), "{:?}", each.drivers);
    assert!((shared.mean - each.mean).abs() < 8.0);
}

#[test]
fn the_same_draws_on_any_number_of_threads() {
    let plan = Plan::read("examples/mobile_library.toml").unwrap();
    let quote = plan.evaluate().unwrap().quote.unwrap();
    let on = |threads| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| drawn(&quote, plan.causes(), 30_000, 5))
    };
    let one = on(1);
    for threads in [2, 3, 8] {
        assert!(on(threads) == one, "{threads} threads");
    }
    assert!(drawn(&quote, plan.causes(), 30_000, 6) != one);
    // More draws begin with the same blocks.
    assert_eq!(one.totals.len(), 30_000);
    assert!(one.totals.windows(2).all(|pair| pair[0] <= pair[1]));
}

/// A task without a rate has no price, and takes its hours all the same.
#[test]
fn hours_of_tasks_without_a_rate_count() {
    let mut quote = quote(&[("a", 100)], 0);
    quote.open_hours = Decimal::from(50);
    let odds = drawn(&quote, &[cause("c", &["a"], WIDE)], 1000, 1);
    let share = odds.price(0.5).unwrap().to_f64().unwrap() / 100.0;
    assert!((odds.hours_at(0.5).unwrap() - (50.0 + 100.0 * share)).abs() < 0.02);
}

#[test]
fn certain_causes_change_nothing() {
    let sure = Shape::Triangular { least: 1.0, likely: 1.0, most: 1.0 };
    let odds = drawn(&quote(&[("a", 333), ("b", 667)], 15), &[cause("c", &["labour"], sure)], 1000, 1);
    assert_eq!(odds.price(0.01).unwrap(), odds.price(0.99).unwrap());
    assert_eq!((odds.price(0.5).unwrap(), odds.holds()), (Decimal::new(115_000, 2), 1.0));
    assert_eq!((odds.drivers[0].of_variance, odds.drivers[0].swing), (0.0, 0.0));
}

#[rstest]
#[case(&[], 1000, "odds: missing")]
#[case(&[cause("c", &["b"], WIDE)], 1000, "odds[0].of[0]: unknown line of the quote \"b\"")]
#[case(&[cause("c", &["margin"], WIDE)], 1000, "odds[0].of[0]: unknown line of the quote \"margin\"")]
#[case(&[cause("c", &["a"], WIDE)], 99, "draws: 99 is out of range; allowed: 100 to 20000000")]
fn what_cannot_be_drawn(#[case] causes: &[Cause], #[case] draws: usize, #[case] words: &str) {
    let error = odds(&quote(&[("a", 10)], 0), causes, (draws, 1), |_, _| Ok::<_, Error>(())).unwrap_err().to_string();
    assert!(error.contains(words), "{error}");
}

#[rstest]
#[case(0.0)]
#[case(1.0)]
#[case(f64::NAN)]
fn no_price_holds_in_all_cases(#[case] share: f64) {
    let odds = drawn(&quote(&[("a", 10)], 0), &[cause("c", &["a"], WIDE)], 100, 1);
    assert!(odds.price(share).is_err() && odds.hours_at(share).is_err());
}

#[rstest]
#[case(
    "shape = 'PERT', least = '90 %', likely = '80 %', most = '120 %'",
    "odds[0].likely: 80 %: it is below 90 %, which is least"
)]
#[case("shape = 'PERT', least = '90 %', most = '120 %'", "odds[0].likely: missing")]
#[case(
    "shape = 'lognormal', low = '90 %', high = '120 %', most = '130 %'",
    "odds[0].most: 130 %: a lognormal shape has low and high"
)]
#[case("shape = 'triangular', least = '-1', likely = '1', most = '2'", "odds[0].least: -1 is out of range")]
#[case("shape = 'normal', least = '1', likely = '1', most = '2'", "odds[0].shape: unknown choice \"normal\"")]
fn what_no_cause_may_say(#[case] entries: &str, #[case] words: &str) {
    let text = format!("odds = [{{ name = 'a', of = ['labour'], {entries} }}]");
    let plan = Plan::read("examples/mobile_library.toml").unwrap();
    let error = plan.replace(&text.parse().unwrap()).unwrap_err().to_string();
    assert!(error.contains(words), "{error}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// A wider shape never holds at a lower price; the quantile rises with the share; the mean lies between least and greatest.
    #[test]
    fn quantiles_rise(least in 0.5_f64..1.0, most in 1.0_f64..2.0, seed in 0_u64..1000) {
        let shape = Shape::Pert { least, likely: 1.0, most };
        let odds = drawn(&quote(&[("a", 500), ("b", 700)], 10), &[cause("c", &["a"], shape)], 2000, seed);
        let prices: Vec<Decimal> = [0.1, 0.3, 0.5, 0.8, 0.9].iter().map(|&s| odds.price(s).unwrap()).collect();
        prop_assert!(prices.windows(2).all(|pair| pair[0] <= pair[1]));
        let (low, high) = (1.1 * (500.0 * least + 700.0), 1.1 * (500.0 * most + 700.0));
        prop_assert!(odds.totals[0] >= low - 1e-6 && odds.totals[1999] <= high + 1e-6);
    }

    /// The quantile function turns the distribution back: half of a triangle's cases are below its median, by its own formula.
    #[test]
    fn shapes_quantiles_rise_between_their_ends(least in 0.5_f64..1.0, likely in 1.0_f64..1.5, add in 0.0_f64..1.0, share in 0.001_f64..0.999) {
        for shape in [Shape::Triangular { least, likely, most: likely + add }, Shape::Pert { least, likely, most: likely + add }] {
            let (own, more) = (shape.quantile(share), shape.quantile(f64::midpoint(share, 1.0)));
            prop_assert!((least..=likely + add + 1e-9).contains(&own) && own <= more + 1e-9);
        }
    }
}
