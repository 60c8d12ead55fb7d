//! A job of sheets whose least price another solver proves.

use raisedbody::shop::cutting::sheet_faults::sheet_faults;
use raisedbody::shop::cutting::sheets::{SheetEffort, SheetJob, SheetPiece, SheetStock, Trim, cut_sheets};

/// Eighty pieces of class I of Berkey and Wang 1987 by a seed of our own: length, width, count.
const CLASS_1: [(i64, i64, u32); 48] = [
    (8, 7, 3),
    (5, 2, 3),
    (7, 7, 2),
    (4, 3, 2),
    (4, 7, 2),
    (1, 2, 1),
    (8, 2, 1),
    (1, 1, 1),
    (2, 6, 2),
    (1, 7, 3),
    (8, 10, 2),
    (6, 6, 1),
    (5, 9, 2),
    (6, 7, 2),
    (9, 6, 2),
    (6, 4, 1),
    (8, 4, 1),
    (5, 3, 1),
    (4, 9, 6),
    (5, 10, 1),
    (2, 8, 2),
    (3, 3, 1),
    (10, 3, 1),
    (4, 4, 2),
    (3, 8, 2),
    (8, 9, 2),
    (9, 2, 3),
    (9, 4, 1),
    (9, 8, 1),
    (3, 10, 3),
    (4, 10, 3),
    (10, 10, 2),
    (4, 6, 1),
    (5, 6, 2),
    (1, 9, 1),
    (4, 8, 1),
    (5, 1, 1),
    (2, 10, 2),
    (2, 3, 1),
    (3, 9, 1),
    (7, 2, 1),
    (6, 2, 1),
    (9, 7, 1),
    (3, 6, 1),
    (7, 3, 1),
    (10, 4, 1),
    (7, 6, 1),
    (7, 4, 1),
];

/// Sheets of 10 x 10 and less at invented prices: length, width, price.
const SHEETS: [(i64, i64, i64); 5] = [(10, 10, 100), (9, 9, 77), (7, 7, 38), (5, 7, 22), (5, 5, 10)];

/// CP-SAT of OR-Tools proves 2434 to be the least price, on the plate-and-cut programme of Furini, Malaguti and Thomopulos 2016. The
/// search without the dives stays at 2449.
#[test]
fn eighty_small_pieces_cost_what_a_plate_and_cut_programme_proves() {
    let stock = |&(l, w, price): &(i64, i64, i64)| SheetStock {
        name: format!("{l} x {w}"),
        length_tenths: l,
        width_tenths: w,
        price_coins: price,
        count: None,
        trim: Trim::default(),
        cut_coins: 0,
        longest_cut_tenths: None,
        throat_tenths: 0,
    };
    let piece = |&(l, w, count): &(i64, i64, u32)| SheetPiece {
        name: format!("{l} x {w}"),
        length_tenths: l,
        width_tenths: w,
        count,
        may_turn: false,
        bought_coins: None,
    };
    let job = SheetJob {
        stock: SHEETS.iter().map(stock).collect(),
        pieces: CLASS_1.iter().map(piece).collect(),
        kerf_tenths: 0,
        stages: None,
        first_cut: None,
        keep_tenths: (1, 1),
    };
    let plan = cut_sheets(&job, SheetEffort::default(), &|| true).unwrap();
    assert_eq!(sheet_faults(&job, &plan), Vec::<String>::new());
    assert_eq!(plan.price_coins, 2434);
    assert!((2429..=2434).contains(&plan.bound_coins), "{}", plan.bound_coins);
}
