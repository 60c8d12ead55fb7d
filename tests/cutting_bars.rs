//! Plans of bars: known values, stops, large counts, and the checker's refusals.

use std::cell::Cell;

use super::common::bars::{concave, file, job, plan};
use raisedbody::shop::cutting::Ended;
use raisedbody::shop::cutting::bar_faults::{bar_faults, remnant_tenths};
use raisedbody::shop::cutting::bars::{BarEffort, BarJob, BarPattern, BarPlan, cut_bars};
use rstest::rstest;

/// Values as the files name them, each with its source: published for the first two, computed exactly for the others.
#[rstest]
#[case("N1C1W1_A", 25)]
#[case("Falkenauer_t60_00", 20)]
#[case("gilmore_gomory_1961", 170)]
fn known_values_are_proven(#[case] name: &str, #[case] value: i64) {
    let (job, written) = file(name);
    assert_eq!(written, value);
    let plan = plan(&job);
    assert_eq!((plan.price_coins, plan.bound_coins, plan.ended), (value, value, Ended::Proven));
}

/// By hand.
#[rstest]
#[case::kerf_between_but_not_behind(&[(1000, 7, None)], &[(490, 2)], 20, 7)]
#[case::kerf_one_too_much(&[(1000, 7, None)], &[(490, 2)], 21, 14)]
#[case::offcut_first(&[(1000, 7, None), (500, 0, Some(1))], &[(400, 3)], 0, 7)]
#[case::two_short_cheaper_than_long(&[(1000, 10, None), (500, 4, None)], &[(500, 2)], 0, 8)]
#[case::short_ones_run_out(&[(1000, 10, None), (500, 4, Some(1))], &[(500, 3)], 0, 14)]
#[case::all_free(&[(1000, 0, Some(3))], &[(600, 3)], 5, 0)]
// Three bars fill by length, yet 6 + 6 is more than 10: the relaxation itself says 3.
#[case::one_each(&[(10, 1, None)], &[(6, 3)], 0, 3)]
fn small_jobs(
    #[case] stock: &[(i64, i64, Option<u32>)],
    #[case] pieces: &[(i64, u32)],
    #[case] kerf: i64,
    #[case] price: i64,
) {
    let plan = plan(&job(stock, pieces, kerf));
    assert_eq!((plan.price_coins, plan.ended), (price, Ended::Proven));
}

#[test]
fn a_trim_costs_its_kerf_too() {
    let mut job = job(&[(1000, 7, None)], &[(480, 2)], 10);
    job.stock[0].trim_start_tenths = 20;
    assert_eq!(plan(&job).price_coins, 7);
    job.stock[0].trim_end_tenths = 1;
    assert_eq!(plan(&job).price_coins, 14);
}

#[test]
fn of_equal_prices_the_fewer_bars() {
    let plan = plan(&job(&[(500, 5, None), (1000, 10, None)], &[(500, 2)], 0));
    assert_eq!((plan.price_coins, plan.patterns.len(), plan.patterns[0].times), (10, 1, 1));
}

/// The same plan however it is told to stop, a plan always, and an honest end.
#[rstest]
#[case(0)]
#[case(1)]
#[case(5)]
fn stopped_there_is_a_plan(#[case] looks: u32) {
    let (job, value) = file("Falkenauer_t60_00");
    let asked = Cell::new(0);
    let go_on = || {
        asked.set(asked.get() + 1);
        asked.get() <= looks
    };
    let plan = cut_bars(&job, &BarEffort::default(), &go_on).unwrap();
    assert_eq!(bar_faults(&job, &plan), Vec::<String>::new());
    assert_eq!(plan.ended, Ended::Stopped);
    assert!(plan.price_coins > value && plan.bound_coins <= value);
}

#[test]
fn without_effort_there_is_a_plan() {
    let (job, _) = (concave(), 0);
    let plan = cut_bars(&job, &BarEffort { steps: 0 }, &|| true).unwrap();
    assert_eq!(bar_faults(&job, &plan), Vec::<String>::new());
    assert_eq!(plan.ended, Ended::Effort);
}

/// Ten bars of 3 + 3 + 4 and ten of 5 + 5, a hundred thousand times: the count of bars is the length by that of one bar.
#[test]
fn a_million_pieces() {
    let plan = plan(&job(&[(10, 1, None)], &[(5, 400_000), (4, 200_000), (3, 400_000)], 0));
    assert_eq!((plan.price_coins, plan.ended), (400_000, Ended::Proven));
    assert!(plan.patterns.len() <= 4, "{:?}", plan.patterns);
}

/// Every plan of the family is at its bound or says that it is not.
#[test]
fn many_bar_lengths_at_concave_prices() {
    let plan = plan(&concave());
    assert!(plan.bound_coins <= plan.price_coins);
    assert!(plan.gap_ratio().unwrap() < 0.01, "{} of {}", plan.price_coins, plan.bound_coins);
}

#[test]
fn the_same_job_twice_is_the_same_plan() {
    let (job, _) = (concave(), 0);
    assert_eq!(plan(&job), plan(&job));
}

/// A bar of 2000, pieces of 890 and 230, every kerf 10: by hand, as 2000 - 500 - 100 - 20 - 900 = 480.
#[rstest]
#[case(&[0, 0], 500, 100, 0)]
#[case(&[0], 500, 100, 480)]
#[case(&[1, 1, 1], 500, 100, 660)]
#[case(&[1, 1, 1], 0, 10, 1260)]
fn remnants(#[case] pieces: &[usize], #[case] trim_start: i64, #[case] trim_end: i64, #[case] left: i64) {
    let mut job = job(&[(2000, 1, None)], &[(890, 1), (230, 1)], 10);
    (job.stock[0].trim_start_tenths, job.stock[0].trim_end_tenths) = (trim_start, trim_end);
    let pattern = BarPattern { stock: 0, times: 1, pieces: pieces.to_vec() };
    assert_eq!(remnant_tenths(&job, &pattern), left);
}

fn spoilt(spoil: fn(&mut BarPlan)) -> (BarJob, BarPlan) {
    let job = job(&[(1000, 10, Some(2)), (500, 6, None)], &[(400, 4), (300, 1)], 20);
    let mut good = plan(&job);
    assert_eq!(good.patterns[0], BarPattern { stock: 0, times: 2, pieces: vec![0, 0] });
    assert_eq!(good.patterns[1], BarPattern { stock: 1, times: 1, pieces: vec![1] });
    spoil(&mut good);
    (job, good)
}

#[rstest]
#[case::too_long(|p: &mut BarPlan| p.patterns[0].pieces.push(1), "14 mm")]
#[case::one_short(|p: &mut BarPlan| p.patterns[1].times = 0, "0 cut, 1 needed")]
#[case::one_too_many(|p: &mut BarPlan| p.patterns[1].times = 2, "2 cut, 1 needed")]
#[case::more_bars_than_there_are(|p: &mut BarPlan| p.patterns[0].times = 3, "3 used, there are 2")]
#[case::price(|p: &mut BarPlan| p.price_coins -= 1, "the bars cost 26")]
#[case::bound(|p: &mut BarPlan| p.bound_coins += 1, "above the price")]
#[case::not_proven(|p: &mut BarPlan| p.bound_coins -= 1, "not the price")]
#[case::no_such_bar(|p: &mut BarPlan| p.patterns[0].stock = 2, "there is no stock[2]")]
#[case::no_such_piece(|p: &mut BarPlan| p.patterns[0].pieces[0] = 2, "there is no pieces[2]")]
#[case::empty(|p: &mut BarPlan| p.patterns[1].pieces.clear(), "nothing is cut")]
#[case::order(|p: &mut BarPlan| p.patterns[0].pieces = vec![1, 0], "not first")]
fn the_checker_refuses(#[case] spoil: fn(&mut BarPlan), #[case] words: &str) {
    let (job, plan) = spoilt(spoil);
    let problems = bar_faults(&job, &plan);
    assert!(problems.iter().any(|p| p.contains(words)), "{problems:?}");
}

/// A kerf too many: three of 320 with 20 between fill 1000, with 21 they do not.
#[test]
fn the_checker_counts_kerfs() {
    let mut job = job(&[(1000, 10, None)], &[(320, 3)], 20);
    let plan = plan(&job);
    assert_eq!(plan.patterns, [BarPattern { stock: 0, times: 1, pieces: vec![0, 0, 0] }]);
    job.kerf_tenths = 21;
    assert!(bar_faults(&job, &plan)[0].contains("0.2 mm"));
}
