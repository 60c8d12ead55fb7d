//! What sheets and bars are cut from, and what cuts them, as a planner writes it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::money::Price;
use crate::quantity::{Duration, Length};

/// Sheets and bars that can be had, and what cuts them: from it come cut list and order list at the least price.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Cutting {
    /// Whole sheets of the skin's gauge, coating and grade: bought, or lying in the shop. Blanks that a supplier cuts to size, who
    /// keeps the waste, are priced by `prices.sheet` and `prices.sheet_cutting`; each blank gets whichever is cheaper.
    #[serde(default)]
    pub sheets: Vec<StockSheet>,
    /// Who sells blanks cut to size.
    #[serde(default)]
    pub cut_to_size_by: Option<String>,
    /// Bars of the inserts' section; without them bars of `shop.bar`, as few as can be.
    #[serde(default)]
    pub insert_bars: Vec<StockBar>,
    /// Bars of backing tube; without them bars of `shop.bar`, as few as can be.
    #[serde(default)]
    pub tube_bars: Vec<StockBar>,
    /// What cuts sheets in the shop; without it every sheet is cut by whoever sells it.
    #[serde(default)]
    pub shear: Option<Shear>,
    /// What cuts bars in the shop.
    #[serde(default)]
    pub saw: Option<Saw>,
    /// Least rest of a sheet that is kept for the next job.
    #[serde(default)]
    pub keep: Option<RestSize>,
}

/// Whole sheets of one size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StockSheet {
    /// Length, the way of the grain.
    pub length: Length,
    /// Width.
    pub width: Length,
    /// Price of one, or by weight or area: `"98 USD"`, `"1.95 USD/kg"`; by weight it follows the gauge. `"0 USD"` for an offcut in
    /// the shop.
    pub price: Price,
    /// How many there are; without it as many as wanted can be bought. Those of a limited number are cut in the shop where there is a
    /// shear.
    #[serde(default)]
    #[schemars(range(min = 1, max = 10000), example = 2)]
    pub count: Option<u32>,
    /// Who sells them; without it they lie in the shop.
    #[serde(default)]
    pub supplier: Option<String>,
    /// The seller's charge for one cut from edge to edge, of any length; without it he sells whole sheets only.
    #[serde(default)]
    pub cut: Option<Price>,
    /// Bad edge along both long edges, cut off first.
    #[serde(default)]
    pub mill_edge: Option<Length>,
    /// Bad edge at both ends, cut off first.
    #[serde(default)]
    pub end_trim: Option<Length>,
}

/// Bars of one length.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StockBar {
    /// Length.
    pub length: Length,
    /// Price of one, or by length: `"31 USD"`, `"1.60 USD/ft"`; `"0 USD"` for an offcut in the shop.
    pub price: Price,
    /// How many there are; without it as many as wanted can be bought.
    #[serde(default)]
    #[schemars(range(min = 1, max = 10000), example = 2)]
    pub count: Option<u32>,
    /// Who sells them; without it they lie in the shop.
    #[serde(default)]
    pub supplier: Option<String>,
    /// The seller's charge for one cut; he cuts where that is below the price of `cutting.saw.cut_time`, else the shop. Which bars are
    /// bought does not hang on it.
    #[serde(default)]
    pub cut: Option<Price>,
    /// Bad metal at both ends, cut off first.
    #[serde(default)]
    pub end_trim: Option<Length>,
}

/// What cuts sheets in the shop, from edge to edge.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Shear {
    /// Longest cut.
    pub longest_cut: Length,
    /// Depth of the throat: a longer cut is made in several bites where what lies on one side of it goes through the throat.
    #[serde(default)]
    pub throat: Option<Length>,
    /// Kerf: nothing on a shear, which is what its absence means; it holds for sheets that their seller cuts too.
    #[serde(default)]
    pub kerf: Option<Length>,
    /// One cut: lay on, set the stop, cut, lay off; all hands together.
    pub cut_time: Duration,
    /// Most stages: all cuts one way before the sheet is turned; a last cut that trims a piece is not counted. Without it any
    /// number. It holds for sheets that their seller cuts too.
    #[serde(default)]
    #[schemars(range(min = 2, max = 3), example = 3)]
    pub stages: Option<u8>,
    /// How the first cuts run, once edges are trimmed; without it the better way for each sheet.
    #[serde(default)]
    pub first_cut: Option<FirstCut>,
}

/// How a cut runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FirstCut {
    /// Along the length of the sheet.
    Along,
    /// Across it.
    Across,
}

/// What cuts bars in the shop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Saw {
    /// What a cut takes off the length.
    #[serde(default)]
    pub kerf: Option<Length>,
    /// One cut, all hands together; part of `shop.post_time` where left out.
    #[serde(default)]
    pub cut_time: Option<Duration>,
}

/// A rest worth keeping.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RestSize {
    /// Its longer side at the least.
    pub length: Length,
    /// Its shorter side at the least.
    pub width: Length,
}
