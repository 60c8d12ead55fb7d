//! Jobs of bars that are refused, by field, value and what is allowed.

use super::common::bars::job;
use raisedbody::shop::cutting::bars::{BarEffort, BarJob, cut_bars};
use rstest::rstest;

fn refused(job: &BarJob) -> Vec<String> {
    let problems = cut_bars(job, &BarEffort::default(), &|| true).unwrap_err();
    problems.iter().map(ToString::to_string).collect()
}

#[rstest]
#[case::kerf(|j: &mut BarJob| j.kerf_tenths = -1, "kerf: -0.1 mm is out of range; allowed: 0 mm to ")]
#[case::no_stock(|j: &mut BarJob| j.stock.clear(), "stock: missing")]
#[case::no_pieces(|j: &mut BarJob| j.pieces.clear(), "pieces: missing")]
#[case::bar_length(|j: &mut BarJob| j.stock[0].length_tenths = 0, "stock[0].length: 0 mm is out of range; allowed: 0.1 mm to ")]
#[case::trim(|j: &mut BarJob| j.stock[0].trim_end_tenths = -3, "stock[0].trim_end: -0.3 mm is out of range; allowed: 0 mm to ")]
#[case::price(|j: &mut BarJob| j.stock[0].price_coins = -1, "stock[0].price: -1 is out of range; allowed: 0 to ")]
#[case::bars(|j: &mut BarJob| j.stock[0].count = Some(0), "stock[0].count: 0 is out of range; allowed: 1 or more")]
#[case::length(|j: &mut BarJob| j.pieces[1].length_tenths = -5, "pieces[1].length: -0.5 mm is out of range; allowed: 0.1 mm to ")]
#[case::count(|j: &mut BarJob| j.pieces[1].count = 0, "pieces[1].count: 0 is out of range; allowed: 1 or more")]
#[case::own_kerf(|j: &mut BarJob| j.pieces[1].kerf_tenths = Some(29), "pieces[1].kerf: 2.9 mm is out of range; allowed: 3 mm to ")]
#[case::many(|j: &mut BarJob| j.pieces[1].count = 1_000_000, "pieces: 1000002 is out of range; allowed: at most 1000000 pieces")]
#[case::no_name(|j: &mut BarJob| j.pieces[0].name = " ".to_owned(), "pieces[0].name: missing")]
#[case::same_name(|j: &mut BarJob| j.pieces[1].name = "piece 0".to_owned(), "pieces[1].name: piece 0: pieces[0] has this name")]
#[case::too_long(
    |j: &mut BarJob| j.pieces[1].length_tenths = 60_001,
    "pieces[1].length: 6000.1 mm is out of range; allowed: at most 6000 mm, what \"bar 0\" (stock[0]) gives"
)]
#[case::longer_than_any_i64_sum(|j: &mut BarJob| j.pieces[0].length_tenths = i64::MAX, "pieces[0].length: 922337203685477600 mm is out")]
fn refused_by_field(#[case] spoil: fn(&mut BarJob), #[case] words: &str) {
    let mut job = job(&[(60_000, 2400, None), (40_000, 1700, Some(2))], &[(20_000, 2), (10_000, 3)], 30);
    assert!(cut_bars(&job, &BarEffort::default(), &|| true).is_ok());
    spoil(&mut job);
    let problems = refused(&job);
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert!(problems[0].starts_with(words), "{problems:?}");
}

#[test]
fn all_problems_at_once() {
    let mut job = job(&[(0, -1, None)], &[(0, 0)], -1);
    job.stock[0].name.clear();
    assert_eq!(refused(&job).len(), 6);
}

#[test]
fn too_many_kinds() {
    let pieces: Vec<(i64, u32)> = (1..=501).map(|l| (l, 1)).collect();
    assert!(
        refused(&job(&[(1000, 1, None)], &pieces, 0))[0]
            .starts_with("pieces: 501 is out of range; allowed: at most 500")
    );
}

/// Proved by length: 3 x 400 and 3 x 300 need 2100, two bars of 900 give 1800.
#[test]
fn too_few_bars_by_length() {
    let problems = refused(&job(&[(900, 5, Some(2))], &[(400, 3), (300, 3)], 0));
    assert!(problems[0].starts_with("stock: 2 pieces left over (2 x \"piece 1\"): cannot be cut"), "{problems:?}");
    assert!(problems[0].contains("30 mm are missing"), "{problems:?}");
}

/// Long enough in all, yet no two of these go on one bar of 1000.
#[test]
fn too_few_bars_whatever_is_tried() {
    let problems = refused(&job(&[(1000, 5, Some(2))], &[(600, 2), (550, 1)], 0));
    assert!(problems[0].contains("cannot be cut from these bars, though their length would do"), "{problems:?}");
}

/// Without effort nothing is proved, and that is said.
#[test]
fn none_found_is_not_called_impossible() {
    let (job, effort) = (job(&[(1000, 5, Some(2))], &[(600, 2), (550, 1)], 0), BarEffort { steps: 0 });
    let problems = cut_bars(&job, &effort, &|| true).unwrap_err();
    assert!(problems[0].to_string().contains("no plan was found within the effort"), "{problems:?}");
}
