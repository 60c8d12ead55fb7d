//! Further contacts of two metals, as a planner writes them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::catalogue::Exposure;
use crate::quantity::Area;

/// Two metals in contact. Surfaces count: the plating, not the metal under it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Contact {
    /// What to call it.
    #[schemars(example = "earth lug")]
    pub name: String,
    /// One surface, a metal or plating of the catalogue.
    #[schemars(example = &"copper")]
    pub a: String,
    /// The other; the new skin where left out.
    #[serde(default)]
    #[schemars(example = &"hot-dip zinc")]
    pub b: Option<String>,
    /// Surface of the first that gets wet.
    #[serde(default)]
    pub area_a: Option<Area>,
    /// Surface of the other that gets wet.
    #[serde(default)]
    pub area_b: Option<Area>,
    /// How this contact is exposed, where it is not as the others.
    #[serde(default)]
    pub exposure: Option<Exposure>,
}
