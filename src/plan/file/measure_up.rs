//! The measure-up as a planner writes it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::Length;

/// How square the roof must go up, and how closely it is measured.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MeasureUp {
    /// How far the roof may be off where it should be, in every way that has no tolerance of its own.
    #[serde(default)]
    pub tolerance: Option<Length>,
    /// Of the drip rail's height at a post, up or down.
    #[serde(default)]
    pub height_tolerance: Option<Length>,
    /// Of the drip rail's place over the floor at a post, across and along.
    #[serde(default)]
    pub plumb_tolerance: Option<Length>,
    /// Of the difference between both diagonals in plan.
    #[serde(default)]
    pub diagonal_tolerance: Option<Length>,
    /// Measuring errors by kind of reading.
    #[serde(default)]
    pub errors: ReadingErrors,
    /// Posts that are measured, counted from the rear; all that are lengthened where left out.
    #[serde(default)]
    pub posts: Vec<u32>,
}

/// Measuring errors, one standard deviation each: readings of one thing, taken twice, differ by less than 2.8 of it nineteen
/// times of twenty.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReadingErrors {
    /// Of a height.
    #[serde(default)]
    pub height: Option<Length>,
    /// Of a plumb line, across or along.
    #[serde(default)]
    pub plumb: Option<Length>,
    /// Of a distance from the string.
    #[serde(default)]
    pub string: Option<Length>,
    /// Of each end of the string against the floor marks, each time it is set.
    #[serde(default)]
    pub string_setting: Option<Length>,
    /// Of a gap between punch marks.
    #[serde(default)]
    pub gap: Option<Length>,
    /// Of a diagonal or a width.
    #[serde(default)]
    pub diagonal: Option<Length>,
}
