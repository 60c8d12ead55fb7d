//! Forming sheet: bends, springback, the three-roll bender, cones, and the flat of a sheet wrapped round corners.
//!
//! Radii are inside radii of the bent sheet unless a name says otherwise. A sheet laid on a frame has the frame's outside
//! radius inside.

mod bend;
mod blank;
mod cone;
mod springback;
mod three_roll;

pub use bend::{
    Bend, NeutralAxis, bend_allowance_mm, bend_deduction_mm, bend_limit, least_radius_by_reduction_mm, neutral_axis,
    outer_strain, outside_setback_mm,
};
pub use blank::{Blank, Corner, CornerPattern, FlatPattern, Mark, Run, ScribeLine};
pub use cone::{Frustum, ScribePoint};
pub use springback::Springback;
pub use three_roll::{RollSetting, ThreeRoll};

/// Thinnest and thickest sheet that is formed here, mm.
pub const THICKNESS_MM: (f64, f64) = (0.2, 6.0);
/// Sharpest and gentlest bend, mm.
pub const RADIUS_MM: (f64, f64) = (0.0, 10_000.0);
/// Where a neutral axis can lie, in thicknesses from the inside face.
pub const K: (f64, f64) = (0.2, 0.5);
