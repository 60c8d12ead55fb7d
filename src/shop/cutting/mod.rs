//! The cut list: what to buy, how each sheet and bar is cut, and how good that is.

mod bar_steps;
pub mod bars;
mod geometry;
pub mod sheet_faults;
pub mod sheets;
pub mod steps;
mod worth;

pub use bar_steps::bar_cuts;
pub use geometry::{Rect, is_guillotine, placed};

/// A length in words.
fn mm(tenths: i64) -> String {
    crate::quantity::Kind::Length.print(tenths as f64 / 10.0)
}
