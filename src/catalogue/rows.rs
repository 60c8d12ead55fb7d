//! The rows of the catalogue's tables.

use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::check::{Standing, significant};
use crate::error::{Problem, by_name};
use crate::quantity::{ArealMass, Density, Force, Length, LinearMass, LossRate, Mass, Pressure};

use super::Rows;

/// Which gauge series a number belongs to; the same number is a different thickness in each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
pub enum GaugeSystem {
    /// Manufacturers' standard gauge, uncoated carbon steel.
    #[serde(rename = "uncoated steel")]
    UncoatedSteel,
    /// Galvanized sheet gauge: the thickness includes the coating.
    #[serde(rename = "zinc-coated steel")]
    ZincCoatedSteel,
    /// United States standard gauge, today used for stainless steel.
    #[serde(rename = "stainless steel")]
    StainlessSteel,
    /// Brown and Sharpe gauge, used for aluminium.
    #[serde(rename = "aluminium")]
    Aluminium,
}

impl GaugeSystem {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::UncoatedSteel => "uncoated steel",
            Self::ZincCoatedSteel => "zinc-coated steel",
            Self::StainlessSteel => "stainless steel",
            Self::Aluminium => "aluminium",
        }
    }
}

/// Thickness and mass of one gauge number in one system.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Gauge {
    /// The series.
    pub system: GaugeSystem,
    /// The number.
    #[schemars(range(min = 0, max = 40))]
    pub gauge: u32,
    /// Nominal thickness, coating included where there is one.
    pub thickness: Length,
    /// Thinnest allowed by the usual tolerance.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Length>,
    /// Thickest allowed by the usual tolerance.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<Length>,
    /// Mass by which the trade invoices; an ordering convention, not a physical mass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trade_mass: Option<ArealMass>,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Physical constants of a metal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// Name, as grades refer to it.
    pub name: String,
    /// Mass per volume.
    pub density: Density,
    /// Modulus of elasticity.
    pub modulus: Pressure,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Thermal expansion, millionths per kelvin.
    pub expansion_um_m_k: f64,
    /// Gauge series that applies where no coating says otherwise.
    pub gauge_system: GaugeSystem,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Guaranteed strength of a grade; empty where the grade guarantees none.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Grade {
    /// Name: `"SS33"`, `"CS-B"`, `"S250GD"`, `"5052-H32"`.
    pub name: String,
    /// The metal, a name of the material table.
    pub material: String,
    /// Standard that defines it.
    pub standard: String,
    /// Least yield strength.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fy: Option<Pressure>,
    /// Least tensile strength.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fu: Option<Pressure>,
    /// What to know: typical values that are no guarantee, welding.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// What a coating is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
pub enum CoatingFamily {
    /// Hot-dip zinc.
    #[serde(rename = "zinc")]
    Zinc,
    /// Zinc-iron alloy (galvannealed).
    #[serde(rename = "zinc-iron")]
    ZincIron,
    /// 55 % aluminium-zinc.
    #[serde(rename = "aluminium-zinc")]
    AluminiumZinc,
    /// Aluminium or aluminium-silicon (aluminized).
    #[serde(rename = "aluminium")]
    Aluminium,
}

impl CoatingFamily {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Zinc => "zinc",
            Self::ZincIron => "zinc-iron",
            Self::AluminiumZinc => "aluminium-zinc",
            Self::Aluminium => "aluminium",
        }
    }
}

/// A metallic coating by designation.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Coating {
    /// Designation: `"G90"`, `"A40"`, `"Z275"`, `"AZ150"`.
    pub designation: String,
    /// What it is made of.
    pub family: CoatingFamily,
    /// Standard that defines it.
    pub standard: String,
    /// Mass on both sides together, triple-spot average, least allowed; none where the standard sets no minimum.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub both_sides: Option<ArealMass>,
    /// Mass on one side, least allowed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub one_side: Option<ArealMass>,
    /// Mass on both sides, single spot, least allowed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub single_spot: Option<ArealMass>,
    /// Density that turns mass into thickness.
    pub density: Density,
    /// Put on by current, not by dipping: thin and smooth, made to be painted.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub electrolytic: bool,
    /// What to know about edges, paint, bending.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// A blind rivet: one product in one diameter.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Rivet {
    /// Product standard, with its class where it has one: `"ISO 15976"`, `"ISO 15977 H"`, or a user's own name.
    pub product: String,
    /// Nominal diameter.
    pub diameter: Length,
    /// Least shear load of one rivet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shear: Option<Force>,
    /// Least tension load of one rivet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tension: Option<Force>,
    /// Head diameter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<Length>,
    /// Smallest hole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hole_least: Option<Length>,
    /// Largest hole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hole_most: Option<Length>,
    /// Mass of one rivet as set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// Countersunk head; else protruding.
    #[serde(default)]
    pub countersunk: bool,
    /// Closed end: no water passes the core.
    pub sealed: bool,
    /// Locked mandrel: the stem stays and carries shear.
    pub structural: bool,
    /// Metal of the body.
    pub body: String,
    /// Metal of the mandrel.
    pub mandrel: String,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// The stack of sheets that one length of a blind rivet holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Grip {
    /// Product, as in the rivet table.
    pub product: String,
    /// Nominal diameter.
    pub diameter: Length,
    /// Length of the body under the head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Length>,
    /// Code that the length is ordered by: `"84"`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<String>,
    /// Thinnest stack.
    pub least: Length,
    /// Thickest stack.
    pub most: Length,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

impl Grip {
    /// What to order: the length, else the code, else the range.
    pub fn name(&self) -> String {
        match (&self.length, &self.code) {
            (Some(length), _) => format!("{} mm long", significant(length.mm())),
            (None, Some(code)) => format!("code {code}"),
            (None, None) => format!("{} to {} mm", significant(self.least.mm()), significant(self.most.mm())),
        }
    }

    /// Length, mm, where it is known, else the thickest stack, which grows with it: to order rivets by.
    pub(super) fn body_mm(&self) -> f64 {
        self.length.unwrap_or(self.most).mm()
    }
}

/// Which series a drill is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum DrillKind {
    /// Inch fractions.
    Fraction,
    /// Wire numbers.
    Number,
    /// Letters.
    Letter,
    /// Millimetres.
    Metric,
}

impl DrillKind {
    /// Every series.
    pub const ALL: [Self; 4] = [Self::Fraction, Self::Number, Self::Letter, Self::Metric];

    /// Its name, as in the data file.
    pub fn name(self) -> &'static str {
        match self {
            Self::Fraction => "fraction",
            Self::Number => "number",
            Self::Letter => "letter",
            Self::Metric => "metric",
        }
    }
}

impl FromStr for DrillKind {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("series", "series of drills", text, &Self::ALL, Self::name)
    }
}

/// A drill by name.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Drill {
    /// Name: `"17/64 in"`, `"#30"`, `"F"`, `"6.5 mm"`.
    pub name: String,
    /// Series.
    pub kind: DrillKind,
    /// Diameter.
    pub diameter: Length,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// How many holes a drill bit makes in one part before it is worn out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BitLife {
    /// The part that is drilled.
    pub part: DrilledPart,
    /// The bit.
    pub bit: String,
    /// Its diameter; of other bits the row says nothing.
    pub diameter: Length,
    /// The thickest sheet or wall that the row speaks of.
    pub thickest: Length,
    /// Holes at least.
    #[schemars(range(min = 1, max = 1_000_000))]
    pub holes_least: u32,
    /// Holes at most.
    #[schemars(range(min = 1, max = 1_000_000))]
    pub holes_most: u32,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// A part that is drilled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum DrilledPart {
    /// Skin sheet.
    Sheet,
    /// A hardened post or rib.
    Rib,
}

impl DrilledPart {
    /// Its name, as in the data file.
    pub fn name(self) -> &'static str {
        match self {
            Self::Sheet => "sheet",
            Self::Rib => "rib",
        }
    }
}

/// Shape of a framing section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
pub enum SectionShape {
    /// Closed rectangle.
    #[serde(rename = "rectangular tube")]
    RectangularTube,
    /// Open hat: crown, two webs, two flanges.
    #[serde(rename = "hat")]
    Hat,
}

/// A tube or hat.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Section {
    /// Name, as plans refer to it.
    pub name: String,
    /// Shape.
    pub shape: SectionShape,
    /// Outside depth, square to the skin.
    pub depth: Length,
    /// Outside width of tube or of the hat's crown, along the skin.
    pub width: Length,
    /// Width of each flange of a hat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flange: Option<Length>,
    /// Wall thickness.
    pub wall: Length,
    /// Mass per length where the maker states it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<LinearMass>,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Height and width that a place allows without a permit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// Short name: `"US-CO"`, `"EU"`, `"CA-ON"`.
    pub place: String,
    /// Full name.
    pub name: String,
    /// Greatest overall height.
    pub height: Length,
    /// Greatest overall width.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<Length>,
    /// What to know about it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Date the source was seen, or when it was noted from memory: year-month.
    pub date_seen: String,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// The metal whose loss is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum MetalLost {
    /// Unalloyed steel.
    Steel,
    /// Zinc.
    Zinc,
    /// Copper.
    Copper,
    /// Aluminium.
    Aluminium,
}

impl MetalLost {
    /// Every metal.
    pub const ALL: [Self; 4] = [Self::Steel, Self::Zinc, Self::Copper, Self::Aluminium];

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Zinc => "zinc",
            Self::Copper => "copper",
            Self::Aluminium => "aluminium",
        }
    }
}

/// First-year loss of a metal in one corrosivity category: above `low`, up to `high`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Corrosivity {
    /// `"C1"` to `"C5"`, `"CX"`.
    pub category: String,
    /// The metal.
    pub metal: MetalLost,
    /// Lower bound, not included.
    pub low: LossRate,
    /// Upper bound, included.
    pub high: LossRate,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Where the neutral axis lies in a bend of one inside radius in sheet of one thickness.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KFactor {
    /// The metal, a name of the material table.
    pub material: String,
    /// Thickness of the sheet.
    pub thickness: Length,
    /// Inside radius of the bend.
    pub radius: Length,
    /// Neutral axis from the inside face, in thicknesses.
    pub k: f64,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// The trade's range of K, by inside radius over thickness.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KRule {
    /// The metal: the first word of its name in the material table, or `any`.
    pub metal: String,
    /// Inside radius over thickness, from this one on.
    pub from_ratio: f64,
    /// Up to this one; without end where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to_ratio: Option<f64>,
    /// Least K.
    pub low: f64,
    /// Greatest K.
    pub high: f64,
    /// Stands in where no K is given; otherwise it is only told where none is known.
    #[serde(default)]
    pub stands_in: bool,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// Sharpest bend of a grade or a coating.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BendLimit {
    /// The grade, a name of the grade table, or a coating family with the word `coating`.
    pub of: String,
    /// Thickest sheet that the row is for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub up_to: Option<Length>,
    /// Inside radius over thickness, least, where all goes well.
    pub low_ratio: f64,
    /// Inside radius over thickness, least, to plan with.
    pub high_ratio: f64,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// How much of the sun a surface takes up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Surface {
    /// The paint or metal.
    pub name: String,
    /// Solar absorptance: share of the sun that is taken up.
    pub absorptance: f64,
    /// Emittance in the infrared, where it is told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub emittance: Option<f64>,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// A value used where a plan gives none.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Default {
    /// Name in the code.
    pub key: String,
    /// The value as written, with its unit.
    pub value: String,
    /// What it is, in words.
    pub meaning: String,
    /// Where the row comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

impl Rows {
    /// Writes out the sources that rows name by their short name.
    pub(super) fn resolve_sources(&mut self) {
        let sources = std::mem::take(&mut self.sources);
        let resolve = |source: &mut String| {
            if let Some(full) = sources.get(source.as_str()) {
                source.clone_from(full);
            }
        };
        self.gauge.iter_mut().for_each(|r| resolve(&mut r.source));
        self.material.iter_mut().for_each(|r| resolve(&mut r.source));
        self.grade.iter_mut().for_each(|r| resolve(&mut r.source));
        self.coating.iter_mut().for_each(|r| resolve(&mut r.source));
        self.rivet.iter_mut().for_each(|r| resolve(&mut r.source));
        self.grip.iter_mut().for_each(|r| resolve(&mut r.source));
        self.drill.iter_mut().for_each(|r| resolve(&mut r.source));
        self.bit_life.iter_mut().for_each(|r| resolve(&mut r.source));
        self.section.iter_mut().for_each(|r| resolve(&mut r.source));
        self.limit.iter_mut().for_each(|r| resolve(&mut r.source));
        self.corrosivity.iter_mut().for_each(|r| resolve(&mut r.source));
        self.k_factor.iter_mut().for_each(|r| resolve(&mut r.source));
        self.k_rule.iter_mut().for_each(|r| resolve(&mut r.source));
        self.bend_limit.iter_mut().for_each(|r| resolve(&mut r.source));
        self.surface.iter_mut().for_each(|r| resolve(&mut r.source));
        self.galvanic_metal.iter_mut().for_each(|r| resolve(&mut r.source));
        self.galvanic_limit.iter_mut().for_each(|r| resolve(&mut r.source));
        self.sea_potential.iter_mut().for_each(|r| resolve(&mut r.source));
        self.galvanic_order.iter_mut().for_each(|r| resolve(&mut r.source));
        self.family_property.iter_mut().for_each(|r| resolve(&mut r.source));
        self.coated_range.iter_mut().for_each(|r| resolve(&mut r.source));
        self.durability.iter_mut().for_each(|r| resolve(&mut r.source));
        self.paint_system.iter_mut().for_each(|r| resolve(&mut r.source));
        self.paint_coat.iter_mut().for_each(|r| resolve(&mut r.source));
        self.application_loss.iter_mut().for_each(|r| resolve(&mut r.source));
        self.duplex_factor.iter_mut().for_each(|r| resolve(&mut r.source));
        self.default.iter_mut().for_each(|r| resolve(&mut r.source));
    }
}
