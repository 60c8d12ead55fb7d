//! The lift as planned: what holds the roof while it is off its posts.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Area, Force, Length, LineLoad, Pressure, Ratio, Speed};

use super::SectionChoice;

/// What holds the roof while it is off its posts. Heights and places are those before the lift.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Lift {
    /// Cribs or jacks that the roof stands on.
    #[serde(default)]
    pub supports: Vec<LiftSupport>,
    /// Bars, straps and chains from the body below the cut to the roof above it.
    #[serde(default)]
    pub braces: Vec<LiftBrace>,
    /// The roof's centre of mass, where it was found by weighing; otherwise the middle of its plan area.
    #[serde(default)]
    pub centre: Option<Spot>,
    /// How far the roof goes up at a time.
    #[serde(default)]
    pub step: Option<Length>,
    /// Widest gap between roof and crib while a jack lifts: how far it can fall.
    #[serde(default)]
    pub gap: Option<Length>,
    /// How far one support may lag behind the others.
    #[serde(default)]
    pub lag: Option<Length>,
    /// Slope of the ground under the bus.
    #[serde(default)]
    pub slope: Option<Slope>,
    /// How far a support may stand out of plumb, over its height.
    #[serde(default)]
    pub out_of_plumb: Option<Ratio>,
    /// Friction under the feet of the supports.
    #[serde(default)]
    pub friction: Option<Ratio>,
    /// How hard a support is to press down by a millimetre, the same for all.
    #[serde(default)]
    pub support_stiffness: Option<LineLoad>,
    /// The planner's factor on every load while the roof is off.
    #[serde(default)]
    pub factor: Option<Ratio>,
    /// The wind at which work stops, as the planner decides.
    #[serde(default)]
    pub wind: Option<Speed>,
    /// Push of the wind on a face of the roof, in parts of the stagnation pressure.
    #[serde(default)]
    pub wind_push: Option<Ratio>,
    /// Lift of the wind on the roof, in parts of the stagnation pressure.
    #[serde(default)]
    pub wind_uplift: Option<Ratio>,
}

/// A crib or jack.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LiftSupport {
    /// What to call it.
    #[schemars(example = "crib, rear left")]
    pub name: String,
    /// Forward of the rear face of the body.
    pub x: Length,
    /// To the left of the middle; right is negative.
    pub y: Length,
    /// What it stands on, above the ground.
    pub foot: Length,
    /// Where the roof rests on it before the lift, above the ground.
    pub top: Length,
    /// What its maker rates it for.
    #[serde(default)]
    pub capacity: Option<Force>,
}

/// A bar, strap or chain, pinned at both ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LiftBrace {
    /// What to call it.
    #[schemars(example = "strap, rear left")]
    pub name: String,
    /// Its point on the body, below the cut.
    pub from: Spot,
    /// Its point on the roof, above the cut; it rises with the roof.
    pub to: Spot,
    /// Its section, by name or by size.
    #[serde(default)]
    pub section: Option<SectionChoice>,
    /// Area of its section, in place of the section: a strap, a chain, a rod.
    #[serde(default)]
    pub area: Option<Area>,
    /// Modulus of elasticity, where it is not steel.
    #[serde(default)]
    pub modulus: Option<Pressure>,
    /// What it and its fittings may be pulled with.
    #[serde(default)]
    pub tension: Option<Force>,
    /// What it and its fittings may be pressed with: nought for a strap or chain.
    #[serde(default)]
    pub compression: Option<Force>,
}

/// A point of the bus.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Spot {
    /// Forward of the rear face of the body.
    pub x: Length,
    /// To the left of the middle; right is negative.
    pub y: Length,
    /// Above the ground.
    pub z: Length,
}

/// Slope of the ground, rise over run.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Slope {
    /// Along the bus.
    pub along: Ratio,
    /// Across the bus.
    pub across: Ratio,
}
