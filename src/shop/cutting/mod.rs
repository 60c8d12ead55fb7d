//! The cut list: what to buy, how each sheet and bar is cut, and how good that is.

pub mod bar_faults;
pub mod bars;
mod cut_count;
mod geometry;
pub mod sheet_faults;
pub mod sheets;
pub mod steps;
mod worth;

pub use cut_count::{bar_cut_count, sheet_cut_count};
pub use geometry::{Rect, is_guillotine, placed};
pub use worth::Ended;

/// A length in words.
fn mm(tenths: i64) -> String {
    crate::quantity::Kind::Length.print(tenths as f64 / 10.0)
}
