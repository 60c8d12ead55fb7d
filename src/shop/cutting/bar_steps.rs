//! The cuts of a bar.

use super::bars::{BarJob, BarPattern};

/// Cuts that a bar takes: its trimmed ends, then one behind each piece, but for a last piece that ends where the bar does.
pub fn bar_cuts(job: &BarJob, pattern: &BarPattern) -> i64 {
    let Some(stock) = job.stock.get(pattern.stock) else { return 0 };
    let trims =
        [stock.trim_start_tenths, stock.trim_end_tenths].map(|own| if own > 0 { own + job.kerf_tenths } else { 0 });
    let usable = stock.length_tenths - trims.iter().sum::<i64>();
    let pieces = || pattern.pieces.iter().filter_map(|piece| job.pieces.get(*piece));
    let kerfs: i64 = pieces()
        .map(|own| own.kerf_tenths.unwrap_or(job.kerf_tenths))
        .take(pattern.pieces.len().saturating_sub(1))
        .sum();
    let filled = pieces().map(|own| own.length_tenths).sum::<i64>() + kerfs == usable;
    trims.iter().filter(|own| **own > 0).count() as i64 + pattern.pieces.len() as i64 - i64::from(filled)
}
