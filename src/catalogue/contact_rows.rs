//! Rows on metals in contact, on families of skin, and on the thicknesses that a standard covers.

use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::check::Standing;
use crate::error::{Problem, by_name};
use crate::quantity::Length;

use super::rows::CoatingFamily;

/// How a contact is exposed; the limit on the difference of anodic indices follows from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Exposure {
    /// Outdoors, damp, salt: a road vehicle.
    Harsh,
    /// Under a roof, neither heated nor dried.
    Normal,
    /// Temperature and humidity are held.
    Controlled,
}

impl Exposure {
    /// Every one, the worst first.
    pub const ALL: [Self; 3] = [Self::Harsh, Self::Normal, Self::Controlled];

    /// Its name, as in plans and in the data file.
    pub fn name(self) -> &'static str {
        match self {
            Self::Harsh => "harsh",
            Self::Normal => "normal",
            Self::Controlled => "controlled",
        }
    }
}

impl FromStr for Exposure {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("exposure", "exposure", text, &Self::ALL, Self::name)
    }
}

/// A metal or plating as its contact sees it, and its anodic index.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GalvanicMetal {
    /// Name.
    pub name: String,
    /// Other names that mean it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub also: Vec<String>,
    /// Anodic index, volts against gold; the greater, the less noble. None where no source has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub index_v: Option<f64>,
    /// Where the index is only known to lie between two: the greater.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub index_most_v: Option<f64>,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Greatest difference of anodic indices in one exposure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GalvanicLimit {
    /// The exposure.
    pub exposure: Exposure,
    /// The limit, volts.
    pub limit_v: f64,
    /// What the exposure means.
    pub means: String,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Potential in sea water by one series.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SeaPotential {
    /// The series; potentials are compared within one series only.
    pub series: String,
    /// The entry of the series.
    pub entry: String,
    /// Metals of the table that it stands for.
    pub metals: Vec<String>,
    /// Active or passive, where the series tells them apart.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub state: Option<SurfaceState>,
    /// Lowest potential, volts.
    pub least_v: f64,
    /// Highest potential, volts; the same where the series has one value.
    pub most_v: f64,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Place in an order without potentials, from anodic to cathodic.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GalvanicOrder {
    /// The order.
    pub series: String,
    /// The entry of the order.
    pub entry: String,
    /// Metals of the table that it stands for.
    pub metals: Vec<String>,
    /// Active or passive, where the order tells them apart.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub state: Option<SurfaceState>,
    /// First place, 1 the most anodic.
    #[schemars(range(min = 1, max = 1000))]
    pub first: u32,
    /// Last place; the same where it has one.
    #[schemars(range(min = 1, max = 1000))]
    pub last: u32,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// State of the surface of a stainless steel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum SurfaceState {
    /// Its film is gone: in a wet crevice.
    Active,
    /// Its film is whole: in free air.
    Passive,
}

impl SurfaceState {
    /// Its name, as in the data file.
    pub fn name(self) -> &'static str {
        match self {
            Self::Active => "active",
            Self::Passive => "passive",
        }
    }
}

/// What a skin is made of, as far as rust, paint and welding go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
pub enum SkinFamily {
    /// Steel without a metallic coating.
    #[serde(rename = "bare steel")]
    BareSteel,
    /// Hot-dip zinc.
    #[serde(rename = "zinc")]
    Zinc,
    /// Zinc put on by current.
    #[serde(rename = "electrolytic zinc")]
    ElectrolyticZinc,
    /// Zinc-iron alloy (galvannealed).
    #[serde(rename = "zinc-iron")]
    ZincIron,
    /// 55 % aluminium-zinc.
    #[serde(rename = "aluminium-zinc")]
    AluminiumZinc,
    /// Aluminium or aluminium-silicon on steel (aluminized).
    #[serde(rename = "aluminium")]
    Aluminium,
    /// Stainless steel.
    #[serde(rename = "stainless steel")]
    StainlessSteel,
    /// Aluminium sheet.
    #[serde(rename = "aluminium sheet")]
    AluminiumSheet,
}

impl SkinFamily {
    /// Every one.
    pub const ALL: [Self; 8] = [
        Self::BareSteel,
        Self::Zinc,
        Self::ElectrolyticZinc,
        Self::ZincIron,
        Self::AluminiumZinc,
        Self::Aluminium,
        Self::StainlessSteel,
        Self::AluminiumSheet,
    ];

    /// Its name, as in the data file.
    pub fn name(self) -> &'static str {
        match self {
            Self::BareSteel => "bare steel",
            Self::Zinc => "zinc",
            Self::ElectrolyticZinc => "electrolytic zinc",
            Self::ZincIron => "zinc-iron",
            Self::AluminiumZinc => "aluminium-zinc",
            Self::Aluminium => "aluminium",
            Self::StainlessSteel => "stainless steel",
            Self::AluminiumSheet => "aluminium sheet",
        }
    }

    /// The family of a sheet of this metal with this coating; `electrolytic` tells zinc put on by current from hot-dip zinc.
    pub fn of(material: &str, coating: Option<(CoatingFamily, bool)>) -> Self {
        match coating {
            Some((CoatingFamily::Zinc, true)) => Self::ElectrolyticZinc,
            Some((CoatingFamily::Zinc, false)) => Self::Zinc,
            Some((CoatingFamily::ZincIron, _)) => Self::ZincIron,
            Some((CoatingFamily::AluminiumZinc, _)) => Self::AluminiumZinc,
            Some((CoatingFamily::Aluminium, _)) => Self::Aluminium,
            None if material.starts_with("stainless") => Self::StainlessSteel,
            None if material.starts_with("aluminium") => Self::AluminiumSheet,
            None => Self::BareSteel,
        }
    }
}

impl FromStr for SkinFamily {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("family", "family of skin", text, &Self::ALL, Self::name)
    }
}

/// Whether a coating guards a cut edge by being eaten in the steel's place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Sacrifice {
    /// It does, while it lasts.
    Yes,
    /// It does a little.
    Weak,
    /// It does not.
    No,
}

impl Sacrifice {
    /// The word shown to the user.
    pub fn name(self) -> &'static str {
        match self {
            Self::Yes => "yes",
            Self::Weak => "weak",
            Self::No => "no",
        }
    }
}

/// What a surface needs before paint, besides cleaning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum PaintPreparation {
    /// Nothing.
    None,
    /// Phosphate or another conversion coat, or a primer made for zinc.
    Pretreatment,
    /// Etch primer, or abrasion to a key.
    Etch,
}

impl PaintPreparation {
    /// The word shown to the user.
    pub fn name(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Pretreatment => "pretreatment",
            Self::Etch => "etch",
        }
    }
}

/// Properties of a family of skin, to compare it by.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FamilyProperty {
    /// The family.
    pub family: SkinFamily,
    /// Whether it guards a cut edge.
    pub sacrificial_edge: Sacrifice,
    /// What becomes of a scratch.
    pub scratch: String,
    /// What a bend does to it.
    pub bending: String,
    /// Row of the table of sharpest bends that is for it; none where there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bend_limit: Option<String>,
    /// How it welds.
    pub welding: String,
    /// What it needs before paint.
    pub paint_preparation: PaintPreparation,
    /// Work that takes over cleaning and priming bare steel, minutes for a square metre.
    pub paint_extra_min_m2: f64,
    /// It may stay without paint outdoors.
    pub unpainted_outdoors: bool,
    /// What to know.
    pub note: String,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Thicknesses of coated sheet that a standard covers, coating included.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CoatedRange {
    /// The standard, as coatings name it.
    pub standard: String,
    /// From this thickness on.
    pub from: Length,
    /// Below this one.
    pub below: Length,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}
