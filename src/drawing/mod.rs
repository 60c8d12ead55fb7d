//! Pictures and pages of an evaluation; shows what was worked out and computes nothing.

mod contacts;
pub mod cut_day;
pub mod cut_list;
mod cut_sheets;
mod drawings;
mod drilling;
pub mod end_caps;
mod flatness;
pub mod html;
mod lasting;
pub mod letter;
pub mod lists;
pub mod measure_up;
mod overview;
mod packet;
mod paint;
pub mod quote;
pub mod schedule;
mod side_view;
mod skins;
pub mod sweep;
pub mod text;

pub use cut_sheets::cut_sheet;
pub use drawings::{Drawing, Subject, drawings};
pub use packet::packet;
pub use side_view::side_view;
