//! Jobs for the tests of bars.

use raisedbody::shop::cutting::bar_faults::bar_faults;
use raisedbody::shop::cutting::bars::{BarEffort, BarJob, BarPiece, BarPlan, BarStock, cut_bars};

/// Bars (length, price, count) and pieces (length, count), lengths in tenths of a millimetre.
pub fn job(stock: &[(i64, i64, Option<u32>)], pieces: &[(i64, u32)], kerf_tenths: i64) -> BarJob {
    let bar = |(i, &(length_tenths, price_coins, count)): (usize, &(i64, i64, Option<u32>))| BarStock {
        name: format!("bar {i}"),
        length_tenths,
        price_coins,
        count,
        trim_start_tenths: 0,
        trim_end_tenths: 0,
    };
    let piece = |(i, &(length_tenths, count)): (usize, &(i64, u32))| BarPiece {
        name: format!("piece {i}"),
        length_tenths,
        count,
        kerf_tenths: None,
    };
    BarJob {
        stock: stock.iter().enumerate().map(bar).collect(),
        pieces: pieces.iter().enumerate().map(piece).collect(),
        kerf_tenths,
    }
}

/// A job of `tests/cutting_data` and the value given there.
pub fn file(name: &str) -> (BarJob, i64) {
    let path = format!("{}/tests/cutting_data/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let data: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let rows = |list: &str| data[list].as_array().unwrap().clone();
    let number = |row: &serde_json::Value, key: &str| row[key].as_i64().unwrap();
    let stock: Vec<_> = rows("stock").iter().map(|r| (number(r, "length"), number(r, "cost"), None)).collect();
    let pieces: Vec<_> =
        rows("items").iter().map(|r| (number(r, "length"), u32::try_from(number(r, "demand")).unwrap())).collect();
    (job(&stock, &pieces, 0), number(&data["best_known"][0], "value"))
}

/// The plan, which passes the checker.
pub fn plan(job: &BarJob) -> BarPlan {
    let plan = cut_bars(job, &BarEffort::default(), &|| true).unwrap();
    assert_eq!(bar_faults(job, &plan), Vec::<String>::new(), "{job:?}");
    plan
}

/// A hundred pieces of 1 to 250 for seven bar lengths whose price is ten times the root of the length: the concave family of
/// the variable-sized problem (Haouari and Serairi 2009, from memory), numbers of our own.
pub fn concave() -> BarJob {
    let stock: Vec<_> = (0..7)
        .map(|i| 70 + 30 * i)
        .map(|length| (length, (10.0 * (length as f64).sqrt()).round() as i64, None))
        .collect();
    let mut state = 20_261_126_u64;
    let mut counts = std::collections::BTreeMap::new();
    for _ in 0..100 {
        // Knuth's multiplier, modulus 2^64.
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        *counts.entry(1 + i64::try_from((state >> 33) % 250).unwrap()).or_insert(0) += 1;
    }
    job(&stock, &counts.into_iter().collect::<Vec<_>>(), 0)
}
