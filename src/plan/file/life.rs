//! How long the skin is to last and what a year of it costs, as a planner writes it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::money::Price;
use crate::quantity::Ratio;

/// What a year of the skin costs: put on now, renewed each time its life ends, over the years that the vehicle is kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Life {
    /// Years that the vehicle is kept.
    #[schemars(range(min = 1, max = 100), example = 15)]
    pub horizon: u32,
    /// What ends the skin's life.
    pub ends: LifeEnd,
    /// Count the paint outside too, by its film on hot-dip zinc (ISO 12944-5); on other metals and coatings no film is tabulated.
    #[serde(default)]
    pub with_paint: bool,
    /// Interest by which later spending weighs less.
    #[serde(default)]
    pub discount: Option<Ratio>,
    /// What it costs to renew the skin, in today's money; without it as much as the whole job, which is more than a skin alone.
    #[serde(default)]
    pub renewal: Option<Price>,
}

/// What ends the skin's life.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum LifeEnd {
    /// The metallic coating is gone: rust shows.
    #[serde(rename = "coating gone")]
    CoatingGone,
    /// The sheet is eaten through.
    #[serde(rename = "eaten through")]
    EatenThrough,
}

impl LifeEnd {
    /// The words of the plan.
    pub fn words(self) -> &'static str {
        match self {
            Self::CoatingGone => "coating gone",
            Self::EatenThrough => "eaten through",
        }
    }
}
