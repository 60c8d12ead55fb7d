//! The letter to the customer, and what may turn out otherwise than quoted, as a planner writes them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::Ratio;

/// What the letter to the customer says besides the price.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Quoting {
    /// To whom it goes.
    #[serde(default)]
    pub to: Option<String>,
    /// From whom it comes.
    #[serde(default)]
    pub from: Option<String>,
    /// Its number.
    #[serde(default)]
    pub number: Option<String>,
    /// Its day: `"2026-12-01"`; prices whose last day is before it are told as out of date.
    #[serde(default)]
    #[schemars(example = "2026-12-01")]
    pub date: Option<String>,
    /// What the price does not cover, besides what no quote covers.
    #[serde(default)]
    pub excluded: Vec<String>,
    /// Terms: payment, delivery, what the customer sees to.
    #[serde(default)]
    pub terms: Vec<String>,
}

/// Something that makes lines of the quote cost more or less: a share of what they say, 1 for as quoted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Cause {
    /// What it is: `"a bad week"`.
    #[schemars(example = "a bad week")]
    pub name: String,
    /// Lines of the quote, by their names; or by what they are priced by (`"sheet"`, `"labour"`, a trade), by their stage
    /// (`"new skin"`) or kind (`"materials"`, `"labour"`, `"freight"`, `"extra"`).
    pub of: Vec<String>,
    /// Each line turns out for itself; else all of them together, as with a bad week.
    #[serde(default)]
    pub each: bool,
    /// How the shares between are spread.
    pub shape: ShapeOfOdds,
    /// The least share, of a triangular or PERT shape.
    #[serde(default)]
    #[schemars(example = "90 %")]
    pub least: Option<Ratio>,
    /// The likeliest share, of a triangular or PERT shape.
    #[serde(default)]
    #[schemars(example = "100 %")]
    pub likely: Option<Ratio>,
    /// The greatest share, of a triangular or PERT shape.
    #[serde(default)]
    #[schemars(example = "150 %")]
    pub most: Option<Ratio>,
    /// One case in ten is below this share, of a lognormal shape.
    #[serde(default)]
    #[schemars(example = "92 %")]
    pub low: Option<Ratio>,
    /// One case in ten is above this share, of a lognormal shape.
    #[serde(default)]
    #[schemars(example = "115 %")]
    pub high: Option<Ratio>,
}

/// How shares are spread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum ShapeOfOdds {
    /// Straight up to the likeliest share, straight down from it.
    #[serde(rename = "triangular")]
    Triangular,
    /// The beta distribution of network planning: four parts likeliest to one part each of least and greatest.
    #[serde(rename = "PERT")]
    Pert,
    /// A product of many small causes: never below nought, with a long tail upwards.
    #[serde(rename = "lognormal")]
    Lognormal,
}
