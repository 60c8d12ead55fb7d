//! Paint and sealant as a planner writes them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::money::Price;
use crate::quantity::{Density, Duration, Length, Ratio, Volume};

/// Coats on the new skin and sealant in its laps. What is left out is one coat of primer inside and one of topcoat outside.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Paint {
    /// Coats outside, in the order in which they go on; an empty list for none.
    #[serde(default)]
    pub coats: Option<Vec<Coat>>,
    /// Coats inside; an empty list for none. Bare steel of inserts and tube is primed all the same.
    #[serde(default)]
    pub inside_coats: Option<Vec<Coat>>,
    /// The new skin stays as it is, outside and inside.
    #[serde(default)]
    pub unpainted: bool,
    /// What readies the new skin for paint, on each face that is painted.
    #[serde(default)]
    pub pretreatment: Option<Pretreatment>,
    /// Leg of a fillet of sealant along the edge of each lap, besides what lies in it.
    #[serde(default)]
    pub edge_bead: Option<Length>,
    /// Content of a cartridge: the order list then counts cartridges.
    #[serde(default)]
    #[schemars(example = "310 mL")]
    pub cartridge: Option<Volume>,
    /// Sealant bought beyond the beads.
    #[serde(default)]
    pub sealant_waste: Option<Ratio>,
    /// Whose hand lays the beads, in place of a waste: `"expert"`, `"average"` or `"new"`.
    #[serde(default)]
    #[schemars(example = &"average")]
    pub hand: Option<String>,
}

/// One coat.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Coat {
    /// What it is; a name of the catalogue, such as `"epoxy primer"`, has usual films and solids there.
    #[schemars(example = "epoxy primer")]
    pub name: String,
    /// Dry film.
    #[schemars(example = "60 um")]
    pub film: Length,
    /// Solids by volume, from the data sheet; told once for all coats of a paint.
    #[serde(default)]
    #[schemars(example = "45 %")]
    pub solids: Option<Ratio>,
    /// Paint that does not stay on the sheet.
    #[serde(default)]
    #[schemars(example = "30 %")]
    pub loss: Option<Ratio>,
    /// How it is put on, in place of a loss: `"conventional spray"`, `"airless spray"`, `"brush"`, `"roller"`.
    #[serde(default)]
    #[schemars(example = "airless spray")]
    pub method: Option<String>,
    /// Density of the dry film; with that of every coat the paint's mass follows from its films.
    #[serde(default)]
    pub dry_density: Option<Density>,
    /// Price, per litre as mixed.
    #[serde(default)]
    pub price: Option<Price>,
    /// Work for one square metre; not counted where left out.
    #[serde(default)]
    pub time: Option<Duration>,
}

/// What readies a metal for paint.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Pretreatment {
    /// What it is.
    #[schemars(example = "etch and rinse")]
    pub name: String,
    /// Work for one square metre of one face; not counted where left out.
    #[serde(default)]
    pub time: Option<Duration>,
    /// Price, per square metre of one face.
    #[serde(default)]
    pub price: Option<Price>,
}
