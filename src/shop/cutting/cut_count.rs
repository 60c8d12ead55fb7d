//! How many cuts a bar and a sheet take.

use super::bars::{BarJob, BarPattern};
use super::sheets::{Content, Part, SheetPattern, SheetStock};

/// Cuts of one bar: its trimmed ends, then one behind each piece, but for a last piece that ends where the bar does.
pub fn bar_cut_count(job: &BarJob, pattern: &BarPattern) -> i64 {
    let Some(stock) = job.stock.get(pattern.stock) else { return 0 };
    let trims = [stock.trim_start_tenths, stock.trim_end_tenths].iter().filter(|own| **own > 0).count();
    let pieces = || pattern.pieces.iter().filter_map(|piece| job.pieces.get(*piece));
    let kerfs = pieces().map(|own| own.kerf_tenths.unwrap_or(job.kerf_tenths));
    let between: i64 = kerfs.take(pattern.pieces.len().saturating_sub(1)).sum();
    let filled = pieces().map(|own| own.length_tenths).sum::<i64>() + between == stock.usable_tenths(job.kerf_tenths);
    trims as i64 + pattern.pieces.len() as i64 - i64::from(filled)
}

/// Cuts of one sheet: its trimmed edges, then one less than the parts of each division.
pub fn sheet_cut_count(stock: &SheetStock, pattern: &SheetPattern) -> i64 {
    fn inside(part: &Part) -> i64 {
        match &part.content {
            Content::Cut { parts, .. } => parts.iter().map(inside).sum::<i64>() + parts.len() as i64 - 1,
            _ => 0,
        }
    }
    let trim = stock.trim;
    let trims = [trim.start_tenths, trim.end_tenths, trim.lower_tenths, trim.upper_tenths];
    trims.iter().filter(|trim| **trim > 0).count() as i64 + inside(&pattern.inside)
}
