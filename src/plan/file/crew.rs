//! The crew as a planner writes it: who is there, when, and in which way the sheets go up.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::Duration;

/// Who does the work and when: from it comes a schedule by day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Crew {
    /// People at work every day.
    #[schemars(range(min = 1, max = 100), example = 3)]
    pub people: u32,
    /// Hours of work in a day, in one piece.
    pub hours: Duration,
    /// Start of work: `"8:00"`.
    #[schemars(example = "8:00")]
    pub start: String,
    /// People who hang a sheet together.
    #[serde(default)]
    #[schemars(range(min = 1, max = 100), example = 3)]
    pub hang_people: Option<u32>,
    /// People who set a rivet line together, one outside and one inside.
    #[serde(default)]
    #[schemars(range(min = 1, max = 100), example = 2)]
    pub rivet_people: Option<u32>,
    /// Rivet tools.
    #[serde(default)]
    #[schemars(range(min = 1, max = 100), example = 1)]
    pub rivet_tools: Option<u32>,
    /// Times of day between which a sheet may be hung, so that skins go up warm.
    #[serde(default)]
    pub hang_window: Option<HoursOfDay>,
    /// How long primer cures before a sheet hangs, at night too.
    #[serde(default)]
    pub primer_cure: Option<Duration>,
    /// The top row hangs first, its lower edge loose until the row below is slid behind it; otherwise the lower sheet hangs
    /// first.
    #[serde(default)]
    pub top_row_first: bool,
    /// Lower rows are riveted only once every sheet of their side hangs.
    #[serde(default)]
    pub hang_all_first: bool,
    /// Nothing is opened that cannot be closed on the same day.
    #[serde(default)]
    pub weathertight: bool,
}

/// Two times of day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HoursOfDay {
    /// The earlier: `"10:00"`.
    #[schemars(example = "10:00")]
    pub from: String,
    /// The later: `"16:00"`.
    #[schemars(example = "16:00")]
    pub until: String,
}
