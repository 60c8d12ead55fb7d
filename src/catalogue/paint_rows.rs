//! Rows on paint: durability, systems, coats, what is lost in application, zinc and paint together.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::check::Standing;
use crate::quantity::{Length, Ratio};

/// How long a paint system lasts to its first major maintenance; no guarantee time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Durability {
    /// L.
    Low,
    /// M.
    Medium,
    /// H.
    High,
    /// VH, since 2018.
    #[serde(rename = "very high")]
    VeryHigh,
}

impl Durability {
    /// Every class, from the shortest.
    pub const ALL: [Self; 4] = [Self::Low, Self::Medium, Self::High, Self::VeryHigh];

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Low => "low",
            Self::Medium => "medium",
            Self::High => "high",
            Self::VeryHigh => "very high",
        }
    }
}

/// Years behind a class of durability in one edition of ISO 12944.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DurabilityYears {
    /// Edition of ISO 12944: 1998 or 2018.
    #[schemars(range(min = 1998, max = 2018))]
    pub edition: u32,
    /// The class.
    pub band: Durability,
    /// Years from; none where the class has no lower bound.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from_years: Option<f64>,
    /// Years to; none where it has no upper bound.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to_years: Option<f64>,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Total nominal dry film of paint on hot-dip galvanized steel that each class of durability asks, in one category.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PaintSystem {
    /// Corrosivity category: `"C2"` to `"C5"`.
    pub category: String,
    /// For low durability; none where no system is listed for it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<Length>,
    /// For medium durability.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub medium: Option<Length>,
    /// For high durability.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<Length>,
    /// For very high durability.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub very_high: Option<Length>,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// A kind of coat.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PaintCoat {
    /// What it is: `"epoxy primer"`.
    pub name: String,
    /// Usual dry film, least.
    pub least: Length,
    /// Usual dry film, most.
    pub most: Length,
    /// Solids by volume, where they are known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solids: Option<Ratio>,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// What a loss is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LossOf {
    /// Paint that does not stay on the sheet, as a share of what is mixed.
    Paint,
    /// Sealant bought beyond the bead, as a share of the bead.
    Sealant,
}

impl LossOf {
    /// Its name, as in the data file.
    pub fn name(self) -> &'static str {
        match self {
            Self::Paint => "paint",
            Self::Sealant => "sealant",
        }
    }
}

/// Paint lost by a way of applying it, or sealant wasted by a hand.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ApplicationLoss {
    /// What is lost.
    pub of: LossOf,
    /// The way of applying it, or whose hand it is.
    pub by: String,
    /// Least share.
    pub least: Ratio,
    /// Greatest share.
    pub most: Ratio,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// How many times longer zinc and paint last together than one after the other.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DuplexFactor {
    /// Whose range it is.
    pub name: String,
    /// Corrosivity categories in which it decides; empty for a range that is only told beside the one that decides.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub categories: Vec<String>,
    /// Least factor.
    pub low: f64,
    /// Greatest factor.
    pub high: f64,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}
