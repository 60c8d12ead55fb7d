//! Mechanics of sheet, rivets and coatings; knows nothing of buses and can be used without one.

pub mod corrosion;
pub mod forming;
pub mod frame;
pub mod galvanic;
pub mod hole_line;
pub mod joint;
mod nodes;
pub mod paint;
pub mod panel;
pub mod section;
pub mod sheet;
pub mod space_frame;
