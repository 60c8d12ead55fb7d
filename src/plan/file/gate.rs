//! The questions to settle before the first cut, as written in a plan.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What must be settled before the first cut. A question that is not in the plan is open.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Gate {
    /// Day of the first cut: `"2026-12-01"`.
    #[serde(default)]
    #[schemars(example = "2026-12-01")]
    pub cut_day: Option<String>,
    /// The insurer, for the work and for the vehicle afterwards.
    #[serde(default)]
    pub insurer: Option<Answer>,
    /// Title and inspection as what the vehicle becomes.
    #[serde(default)]
    pub title: Option<Answer>,
    /// Axle, tyre and gross ratings.
    #[serde(default)]
    pub ratings: Option<Answer>,
    /// A licensed engineer.
    #[serde(default)]
    pub engineer: Option<Answer>,
    /// Cribs, jacks and braces for the roof.
    #[serde(default)]
    pub supports: Option<Answer>,
    /// Fire and fuel.
    #[serde(default)]
    pub fire: Option<Answer>,
    /// Battery and electronics disconnected.
    #[serde(default)]
    pub battery: Option<Answer>,
    /// Old lead and chromate paint, foam and insulation.
    #[serde(default)]
    pub lead: Option<Answer>,
    /// The weather until the roof is fast again.
    #[serde(default)]
    pub weather: Option<Answer>,
}

/// How a question was settled.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    /// Day on which it was settled: `"2026-11-20"`; open where left out.
    #[serde(default)]
    #[schemars(example = "2026-11-20")]
    pub settled: Option<String>,
    /// Last day on which that holds.
    #[serde(default)]
    #[schemars(example = "2026-12-03")]
    pub valid_until: Option<String>,
    /// Why the question does not arise, in place of a day.
    #[serde(default)]
    pub not_needed: Option<String>,
    /// Who settled it, by which paper.
    #[serde(default)]
    pub note: Option<String>,
}
