//! Lines of old holes as a planner measures them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Length, Ratio};

use super::Side;

/// A line of old rivet holes that a new line is laid over. Places are along the line from any mark, and off a string or rule
/// set beside it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HoleLine {
    /// What to call it.
    #[schemars(example = "rub rail, left")]
    pub name: String,
    /// The side it is on.
    #[serde(default)]
    pub side: Option<Side>,
    /// The rivet line of this plan that it lies on: its holes then take the place of that line's even ones. Where left out
    /// they come on top of all that is set out.
    #[serde(default)]
    pub lies_on: Option<LiesOn>,
    /// The old holes, in order along the line.
    pub holes: Vec<OldHole>,
    /// Standard error of a place along the line.
    #[schemars(example = &"0.5 mm")]
    pub along_error: Length,
    /// Standard error of a distance off the string.
    #[schemars(example = &"0.3 mm")]
    pub off_error: Length,
    /// Whether the metal with the old holes stays in sight or goes under new sheet.
    pub old_metal: OldMetal,
    /// The sheet's edge beside the line, where there is one.
    #[serde(default)]
    pub edge: Option<LineEdge>,
    /// Where the new line starts; a hole stands there.
    #[schemars(example = &"0 mm")]
    pub from: Length,
    /// Where it ends; a hole stands there.
    #[schemars(example = &"2311 mm")]
    pub to: Length,
    /// How far from an end an old hole may be and still be the end's hole.
    #[schemars(example = &"3 mm")]
    pub end_play: Length,
    /// Spacing that an even line has.
    pub pitch: Length,
    /// Smallest spacing.
    #[schemars(example = &"2 in")]
    pub least_pitch: Length,
    /// Largest spacing.
    #[schemars(example = &"5 in")]
    pub most_pitch: Length,
    /// Metal left between a new hole and an old one that is not used.
    #[schemars(example = &"6 mm")]
    pub clearance: Length,
    /// Diameter of the holes, where it is not that of the rivets.
    #[serde(default)]
    pub hole: Option<Length>,
    /// A space so much off the pitch is as bad as one more new hole: small for even spacing, large for few new holes.
    #[schemars(example = &"20 mm")]
    pub spacing_worth: Length,
    /// A jump so high, off the line from hole to hole, is as bad as one more new hole.
    #[schemars(example = &"2 mm")]
    pub jump_worth: Length,
    /// One plug is as bad as so many new holes.
    #[schemars(example = &"0.5")]
    pub plug_worth: Ratio,
}

/// Where on a rivet line of the plan a line of old holes lies; both run forward, or up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LiesOn {
    /// The rivet line, by the name it has in the evaluation's list of them.
    #[schemars(example = "L-bottom 1")]
    pub line: String,
    /// From the start of the rivet line (its rear or lower end) to `from` of this one; nought where left out.
    #[serde(default)]
    #[schemars(example = &"0 mm")]
    pub from: Option<Length>,
}

/// An old hole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OldHole {
    /// Along the line.
    pub along: Length,
    /// Off the string; above nought towards the edge.
    pub off: Length,
    /// Torn, worn oval or too large.
    #[serde(default)]
    pub spoilt: bool,
    /// Standard error of its distance off the string, where it is not that of the others.
    #[serde(default)]
    pub off_error: Option<Length>,
}

/// What becomes of the metal with the old holes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum OldMetal {
    /// It stays in sight: each old hole is used again or plugged.
    Stays,
    /// It goes under new sheet, and old holes guide the drill from inside.
    Covered,
}

/// A sheet's edge beside a line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LineEdge {
    /// Off the string.
    pub off: Length,
    /// Standard error of that; that of the holes where left out.
    #[serde(default)]
    pub error: Option<Length>,
    /// Least distance from a hole's middle.
    pub least: Length,
}
