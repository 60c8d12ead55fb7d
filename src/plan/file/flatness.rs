//! How flat the skins are to lie, as a planner writes it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Irradiance, Length, Ratio, Temperature};

/// Paint, sun and temperatures. What counts is skin less frame, in service less on the day of hanging.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Flatness {
    /// Skin and frame on the day of hanging, by contact thermometer.
    #[serde(default)]
    pub hang: Option<Warmth>,
    /// Surface of the skin, a name of the catalogue: `"white paint"`.
    #[serde(default)]
    #[schemars(example = &"white paint")]
    pub surface: Option<String>,
    /// Share of the sun that the surface takes up, instead of its name.
    #[serde(default)]
    pub absorptance: Option<Ratio>,
    /// Sun on a side.
    #[serde(default)]
    pub sun: Option<Irradiance>,
    /// Hottest air outside.
    #[serde(default)]
    pub hot_air: Option<Temperature>,
    /// Air inside then.
    #[serde(default)]
    pub hot_cabin: Option<Temperature>,
    /// Coldest air outside.
    #[serde(default)]
    pub cold_air: Option<Temperature>,
    /// Air inside then, heated.
    #[serde(default)]
    pub cold_cabin: Option<Temperature>,
    /// How far the frame's temperature lies from the skin's (0) towards the cabin's (1).
    #[serde(default)]
    pub frame_share: Option<Ratio>,
    /// Skin and frame in the hottest sun as measured, instead of surface, sun and air.
    #[serde(default)]
    pub hot: Option<Warmth>,
    /// Skin and frame in the deepest cold as measured, instead of the air.
    #[serde(default)]
    pub cold: Option<Warmth>,
    /// How much of what a sheet would grow its frame holds.
    #[serde(default)]
    pub restraint: Option<Restraint>,
    /// Greatest bow of a panel that you accept, of heat by itself and of suction by itself; without it neither is checked.
    #[serde(default)]
    pub most_bow: Option<Length>,
}

/// How warm skin and frame are.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Warmth {
    /// The skin, in the middle of a panel.
    pub skin: Temperature,
    /// The frame, on a post's inner face.
    pub frame: Temperature,
}

/// From none (0) to all (1).
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Restraint {
    /// At least.
    #[serde(default)]
    pub least: Option<Ratio>,
    /// At most.
    #[serde(default)]
    pub most: Option<Ratio>,
}
