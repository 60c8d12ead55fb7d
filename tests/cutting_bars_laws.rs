//! Laws of plans of bars, and brute force on small jobs.

use super::common::bars::{job, plan};
use proptest::prelude::*;
use raisedbody::shop::cutting::Ended;
use raisedbody::shop::cutting::bars::{BarEffort, BarJob, cut_bars};

/// The least price by trying, for piece after piece, every open bar and every new one; none where the bars do not suffice.
///
/// The rule is told anew: pieces and their kerfs, less the least kerf, within the bar less its trims and their kerfs.
fn brute(job: &BarJob) -> Option<i64> {
    let kerf = |p: usize| job.pieces[p].kerf_tenths.unwrap_or(job.kerf_tenths);
    let least = (0..job.pieces.len()).map(kerf).min()?;
    let mut pieces: Vec<i64> = Vec::new();
    for (i, piece) in job.pieces.iter().enumerate() {
        pieces.extend(std::iter::repeat_n(piece.length_tenths + kerf(i), piece.count as usize));
    }
    let mut rooms = Vec::new();
    for bar in &job.stock {
        let mut room = bar.length_tenths + least;
        for trim in [bar.trim_start_tenths, bar.trim_end_tenths] {
            room -= if trim > 0 { trim + job.kerf_tenths } else { 0 };
        }
        rooms.push((room, bar.price_coins, bar.count.unwrap_or(u32::MAX)));
    }
    let mut best = None;
    place(&pieces, &mut rooms, &mut Vec::new(), 0, &mut best);
    best
}

fn place(pieces: &[i64], rooms: &mut Vec<(i64, i64, u32)>, open: &mut Vec<i64>, price: i64, best: &mut Option<i64>) {
    if best.is_some_and(|b| price >= b) {
        return;
    }
    let Some((&first, rest)) = pieces.split_first() else {
        *best = Some(price);
        return;
    };
    for i in 0..open.len() {
        if open[i] >= first {
            open[i] -= first;
            place(rest, rooms, open, price, best);
            open[i] += first;
        }
    }
    for i in 0..rooms.len() {
        if rooms[i].0 >= first && rooms[i].2 > 0 {
            rooms[i].2 -= 1;
            open.push(rooms[i].0 - first);
            place(rest, rooms, open, price + rooms[i].1, best);
            open.pop();
            rooms[i].2 += 1;
        }
    }
}

/// One to three bars, some few of them, and at most seven pieces, with kerfs and trims.
fn small() -> impl Strategy<Value = BarJob> {
    let bar = (8_i64..40, 0_i64..30, prop::option::of(1_u32..4), 0_i64..3, 0_i64..2);
    let piece = (1_i64..24, 1_u32..3, prop::option::weighted(0.2, 0_i64..3));
    (prop::collection::vec(bar, 1..4), prop::collection::vec(piece, 1..5), 0_i64..3).prop_map(|(bars, pieces, kerf)| {
        let stock: Vec<_> = bars.iter().map(|b| (b.0, b.1, b.2)).collect();
        let list: Vec<_> = pieces.iter().map(|p| (p.0, p.1)).collect();
        let mut job = job(&stock, &list, kerf);
        for (stock, bar) in job.stock.iter_mut().zip(&bars) {
            (stock.trim_start_tenths, stock.trim_end_tenths) = (bar.3, bar.4);
        }
        for (piece, own) in job.pieces.iter_mut().zip(&pieces) {
            piece.kerf_tenths = own.2.map(|more| kerf + more);
        }
        while job.pieces.iter().map(|p| p.count).sum::<u32>() > 7 {
            job.pieces.pop();
        }
        job
    })
}

/// Two bars without limit, the longer of which holds every piece, and some twenty pieces.
fn larger() -> impl Strategy<Value = BarJob> {
    let piece = (10_i64..90, 1_u32..5);
    (60_i64..100, 20_i64..90, prop::collection::vec(piece, 2..9), 0_i64..4)
        .prop_map(|(short, price, pieces, kerf)| job(&[(100, 100, None), (short, price, None)], &pieces, kerf))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn as_brute_force(job in small()) {
        match (cut_bars(&job, &BarEffort::default(), &|| true), brute(&job)) {
            (Ok(_), Some(price)) => {
                let plan = plan(&job);
                prop_assert_eq!((plan.price_coins, plan.bound_coins, plan.ended), (price, price, Ended::Proven));
            }
            (Err(problems), None) => prop_assert!(!problems[0].to_string().contains("no plan was found")),
            (solver, brute) => prop_assert!(false, "{:?} against {:?}", solver, brute),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn scaled_lengths_same_price(job in larger(), by in 2_i64..50) {
        let mut scaled = job.clone();
        scaled.kerf_tenths *= by;
        scaled.stock.iter_mut().for_each(|s| s.length_tenths *= by);
        scaled.pieces.iter_mut().for_each(|p| p.length_tenths *= by);
        let (a, b) = (plan(&job), plan(&scaled));
        prop_assert_eq!((a.price_coins, a.ended, b.ended), (b.price_coins, Ended::Proven, Ended::Proven));
    }

    #[test]
    fn scaled_prices_scale_the_price(job in larger(), by in 2_i64..50) {
        let mut scaled = job.clone();
        scaled.stock.iter_mut().for_each(|s| s.price_coins *= by);
        prop_assert_eq!(plan(&job).price_coins * by, plan(&scaled).price_coins);
    }

    #[test]
    fn another_bar_is_never_dearer(job in larger(), length in 30_i64..140, price in 10_i64..150, count in 1_u32..4) {
        let mut more = job.clone();
        let bar = crate::common::bars::job(&[(length, price, Some(count))], &[], 0).stock.remove(0);
        more.stock.push(raisedbody::shop::cutting::bars::BarStock { name: "more".to_owned(), ..bar });
        prop_assert!(plan(&more).price_coins <= plan(&job).price_coins);
    }

    #[test]
    fn kerf_trim_or_piece_is_never_cheaper(job in larger(), piece in 0_usize..9) {
        let price = plan(&job).price_coins;
        let mut kerf = job.clone();
        kerf.kerf_tenths += 1;
        prop_assert!(plan(&kerf).price_coins >= price);
        let mut trim = job.clone();
        trim.stock.iter_mut().for_each(|s| s.trim_end_tenths = 1);
        prop_assert!(plan(&trim).price_coins >= price);
        let mut more = job.clone();
        let at = piece % more.pieces.len();
        more.pieces[at].count += 1;
        prop_assert!(plan(&more).price_coins >= price);
    }

    #[test]
    fn the_order_of_input_changes_no_price(job in larger()) {
        let mut turned = job.clone();
        turned.stock.reverse();
        turned.pieces.reverse();
        prop_assert_eq!(plan(&job).price_coins, plan(&turned).price_coins);
    }

    #[test]
    fn the_same_job_has_the_same_plan(job in larger()) {
        prop_assert_eq!(plan(&job), plan(&job.clone()));
    }

    /// However early the search ends, it proves nothing that is not so.
    #[test]
    fn little_effort_proves_nothing_wrong(job in larger(), steps in prop::sample::select(vec![0_u64, 200, 2_000, 20_000, 200_000])) {
        let (Ok(hasty), Ok(whole)) = (
            cut_bars(&job, &BarEffort { steps }, &|| true),
            cut_bars(&job, &BarEffort::default(), &|| true),
        ) else { return Ok(()) };
        prop_assert!(hasty.bound_coins <= whole.price_coins, "{} above {}", hasty.bound_coins, whole.price_coins);
        prop_assert!(hasty.ended != Ended::Proven || hasty.price_coins == whole.price_coins);
    }
}

/// Many short pieces from few long offcuts: sums of their worths stay within whole numbers.
#[test]
fn many_small_pieces_from_few_bars() {
    let plan = plan(&job(&[(60_000, 0, Some(3)), (60_000, 900_000, Some(9))], &[(400, 420), (390, 70)], 0));
    assert!(plan.bound_coins <= 900_000);
    assert_eq!(plan.price_coins, 900_000);
}
