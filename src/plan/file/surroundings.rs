//! Where the vehicle spends its year, as a planner writes it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{DepositionRate, Ratio, Temperature};

use super::Zones;

/// A part of the year in one place: its corrosivity category, or the climate that it follows from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Surrounding {
    /// What to call it.
    #[schemars(example = &"salted mountain roads")]
    pub name: String,
    /// Share of the year; those of all surroundings make up 100 %.
    pub share: Ratio,
    /// Corrosivity category (ISO 9223) of a plate in the open there: roof and upper sides.
    #[serde(default)]
    #[schemars(example = &"C3")]
    pub category: Option<String>,
    /// Climate of the place over a year, instead of a category.
    #[serde(default)]
    pub climate: Option<Climate>,
    /// Category of single zones there, where better known than by steps.
    #[serde(default)]
    pub zones: Zones,
}

/// Yearly means of a place, for the dose-response functions of ISO 9223.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Climate {
    /// Air temperature.
    pub temperature: Temperature,
    /// Relative humidity.
    pub humidity: Ratio,
    /// Sulphur dioxide that settles.
    pub so2: DepositionRate,
    /// Chloride that settles.
    pub chloride: DepositionRate,
}

/// By how many categories a zone is worse off than a plate in the open.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ZoneSteps {
    /// Roof and upper sides.
    #[serde(default)]
    #[schemars(range(min = 0, max = 5))]
    pub upper: Option<u8>,
    /// Lower half metre of the sides, rear face, drip rails.
    #[serde(default)]
    #[schemars(range(min = 0, max = 5))]
    pub lower: Option<u8>,
    /// Laps and crevices low on the body, under the floor.
    #[serde(default)]
    #[schemars(range(min = 0, max = 5))]
    pub laps: Option<u8>,
}
