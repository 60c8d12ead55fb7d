//! Pictures and pages of an evaluation; shows what was worked out and computes nothing.

pub mod cut_day;
mod drilling;
pub mod html;
pub mod measure_up;
mod side_view;
pub mod text;

pub use side_view::side_view;
