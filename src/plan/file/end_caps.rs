//! The end caps as a planner writes them: corners and rolls.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Length, Ratio};

/// The sheets that wrap the corners at both ends of the raised band, and the bender they are rolled in.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EndCaps {
    /// Corners at the rear.
    #[serde(default)]
    pub rear: Option<CapCorners>,
    /// Corners at the front.
    #[serde(default)]
    pub front: Option<CapCorners>,
    /// Three-roll bender; without it no travel is worked out.
    #[serde(default)]
    pub rolls: Option<Rolls>,
    /// Neutral axis from the inside face in thicknesses, from a test bend; by table and rule where left out.
    #[serde(default)]
    pub k: Option<Ratio>,
    /// How closely a bend mark is taped.
    #[serde(default)]
    pub tape_error: Option<Length>,
}

/// Both corners of an end.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CapCorners {
    /// Left corner, facing forward.
    pub left: CornerRadii,
    /// Right corner.
    pub right: CornerRadii,
    /// End face to the rivet line at which the cap ends on the left side; the nearest post where left out.
    #[serde(default)]
    pub reach_left: Option<Length>,
    /// The same on the right side.
    #[serde(default)]
    pub reach_right: Option<Length>,
}

/// A corner of the frame, by template.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CornerRadii {
    /// Radius of the frame, which is the inside radius of the sheet, at the lower edge of the band.
    pub radius: Length,
    /// At the upper edge, where it differs.
    #[serde(default)]
    pub top_radius: Option<Length>,
}

/// A three-roll bender of the pyramid kind.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Rolls {
    /// Radius of the lower rolls.
    pub lower_radius: Length,
    /// Middle of one lower roll to the middle of the other.
    pub spacing: Length,
    /// Radius of the top roll.
    pub top_radius: Length,
}
