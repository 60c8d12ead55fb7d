//! Loads on the skin as a planner writes them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::{Angle, Length, LineLoad, Ratio, Speed};

/// What air, road and twist do to the skin. Suctions are in parts of the stagnation pressure and pull outward.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SkinLoads {
    /// On a side just behind the front edge, on the road.
    #[serde(default)]
    pub edge_suction: Option<Ratio>,
    /// Radius of the front's upright edges: rounded enough, the flow stays attached behind them. Instead of `edge_suction`.
    #[serde(default)]
    pub front_radius: Option<Length>,
    /// How far the zone behind the front edge reaches back.
    #[serde(default)]
    pub edge_zone: Option<Length>,
    /// On the rest of a side, on the road.
    #[serde(default)]
    pub side_suction: Option<Ratio>,
    /// On faces that look back, on the road.
    #[serde(default)]
    pub rear_suction: Option<Ratio>,
    /// Least pressure on faces that look forward, on the road: it presses inward.
    #[serde(default)]
    pub front_pressure: Option<Ratio>,
    /// What a vehicle that passes adds on a side.
    #[serde(default)]
    pub passing: Option<Ratio>,
    /// Pressure inside over the still air outside: a vent or window that catches the wind.
    #[serde(default)]
    pub inside: Option<Ratio>,
    /// Gust across the bus, for its skins and its frames.
    #[serde(default)]
    pub crosswind: Option<Speed>,
    /// On the lee side, in the crosswind.
    #[serde(default)]
    pub lee_suction: Option<Ratio>,
    /// On front and rear face near their windward edge, in the crosswind.
    #[serde(default)]
    pub strip_suction: Option<Ratio>,
    /// Jolt of the road over the weight of the skin, in parts of it.
    #[serde(default)]
    pub shock: Option<Ratio>,
    /// Shear flow in the skin from racking; from the front axle with one wheel off the ground where left out.
    #[serde(default)]
    pub racking: Option<LineLoad>,
    /// Angle by which the sides are racked, instead of `racking`: the flow of a sheet that does not fold.
    #[serde(default)]
    pub racking_angle: Option<Angle>,
    /// Share of the force of a wholly held sheet that reaches its rivets when it is warmer or colder than its frame.
    #[serde(default)]
    pub restraint: Option<Ratio>,
    /// How far the rivets let a sheet move in their holes before they hold it, over its length, as measured. Left out it is
    /// nothing, for `restraint` counts what rivets and holes give.
    #[serde(default)]
    pub play: Option<Length>,
}
