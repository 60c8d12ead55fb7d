//! Pictures and pages of an evaluation; shows what was worked out and computes nothing.

mod body_view;
mod canvas;
mod contacts;
pub mod cut_day;
pub mod cut_list;
mod cut_sheets;
mod drawings;
mod drilling;
mod dxf;
pub mod end_caps;
mod flat_view;
mod flatness;
pub mod html;
mod lap_map;
mod lasting;
pub mod letter;
mod line_view;
mod load_views;
pub mod measure_up;
mod paint;
pub mod quote;
pub mod schedule;
mod shop_views;
mod side_view;
mod skins;
pub mod sweep;
mod templates;
pub mod text;

pub use cut_sheets::cut_sheet;
pub use drawings::{Drawing, Subject, drawing, drawing_names, drawings};
pub use dxf::{BENDS_LAYER, HOLES_LAYER, OUTLINE_LAYER, dxf};
pub use side_view::side_view;
pub use templates::{CHECK_MM, Paper, STRIP_MM, templates};
