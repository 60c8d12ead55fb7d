//! The catalogue: gauges, grades, coatings, rivets, drills, sections, limits and defaults as data; look-up, no formula.
//!
//! Every row carries its source and its standing. A user's own file has the same form; its rows are added, and a row
//! with the key of an existing one replaces it, which the evaluation then says.

mod contact_rows;
mod paint_rows;
mod rows;

use std::collections::{BTreeMap, HashMap};
use std::path::Path;
use std::sync::{Arc, OnceLock};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::error::{Error, Problem, nearest};
use crate::form::{Document, schema_of};
use crate::quantity::Kind;

pub use contact_rows::{
    CoatedRange, Exposure, FamilyProperty, GalvanicLimit, GalvanicMetal, GalvanicOrder, PaintPreparation, Sacrifice,
    SeaPotential, SkinFamily, SurfaceState,
};
pub use paint_rows::{ApplicationLoss, DuplexFactor, Durability, DurabilityYears, LossOf, PaintCoat, PaintSystem};
pub use rows::{
    BendLimit, BitLife, Coating, CoatingFamily, Corrosivity, Default as DefaultValue, Drill, DrillKind, DrilledPart,
    Gauge, GaugeSystem, Grade, Grip, KFactor, KRule, Limit, Material, MetalLost, Rivet, Section, SectionShape, Surface,
};

/// The form of a catalogue file: rows of any table, and the sources they name.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Rows {
    /// Short names for sources; a row's `source` may be one of them or the source itself.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub sources: BTreeMap<String, String>,
    /// Thickness by gauge number, a row per system and number.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gauge: Vec<Gauge>,
    /// Density, stiffness and expansion.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub material: Vec<Material>,
    /// Strength of sheet.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub grade: Vec<Grade>,
    /// Metallic coatings.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub coating: Vec<Coating>,
    /// Blind rivets, a row per product and diameter.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rivet: Vec<Rivet>,
    /// Stacks that rivets hold, a row per product, diameter and length.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub grip: Vec<Grip>,
    /// Drills.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub drill: Vec<Drill>,
    /// Holes that a bit makes, a row per part and bit.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub bit_life: Vec<BitLife>,
    /// Tubes and hats.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub section: Vec<Section>,
    /// Height and width allowed by place.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub limit: Vec<Limit>,
    /// First-year metal loss by corrosivity category.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub corrosivity: Vec<Corrosivity>,
    /// Neutral axis of a bend, a row per metal, thickness and inside radius.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub k_factor: Vec<KFactor>,
    /// The trade's ranges of K.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub k_rule: Vec<KRule>,
    /// Sharpest bends by grade and coating.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub bend_limit: Vec<BendLimit>,
    /// Solar absorptance of paints and metals.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub surface: Vec<Surface>,
    /// Metals and platings in contact, with their anodic index.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub galvanic_metal: Vec<GalvanicMetal>,
    /// Greatest difference of anodic indices by exposure.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub galvanic_limit: Vec<GalvanicLimit>,
    /// Potentials in sea water, a row per series and entry.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sea_potential: Vec<SeaPotential>,
    /// Orders from anodic to cathodic, a row per order and entry.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub galvanic_order: Vec<GalvanicOrder>,
    /// Properties of the families of skin.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub family_property: Vec<FamilyProperty>,
    /// Thicknesses of coated sheet that a standard covers.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub coated_range: Vec<CoatedRange>,
    /// Years behind the classes of durability of paint, by edition of ISO 12944.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub durability: Vec<DurabilityYears>,
    /// Paint on hot-dip galvanized steel: film by category and durability.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub paint_system: Vec<PaintSystem>,
    /// Kinds of coat with their usual film.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub paint_coat: Vec<PaintCoat>,
    /// Paint and sealant lost in application.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub application_loss: Vec<ApplicationLoss>,
    /// Life of zinc and paint together over the sum of both.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub duplex_factor: Vec<DuplexFactor>,
    /// Values used where a plan gives none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub default: Vec<DefaultValue>,
}

/// The look-up over standard rows and the user's own.
#[derive(Debug, Clone, Default)]
pub struct Catalogue {
    rows: Rows,
    defaults: HashMap<String, usize>,
    /// Defaults in numbers, as they are first asked for.
    read: Vec<OnceLock<(Kind, f64)>>,
    overrides: Vec<String>,
}

const FILES: [(&str, &str); 14] = [
    ("gauges.toml", include_str!("data/gauges.toml")),
    ("materials.toml", include_str!("data/materials.toml")),
    ("coatings.toml", include_str!("data/coatings.toml")),
    ("rivets.toml", include_str!("data/rivets.toml")),
    ("grips.toml", include_str!("data/grips.toml")),
    ("drills.toml", include_str!("data/drills.toml")),
    ("sections.toml", include_str!("data/sections.toml")),
    ("limits.toml", include_str!("data/limits.toml")),
    ("bends.toml", include_str!("data/bends.toml")),
    ("surfaces.toml", include_str!("data/surfaces.toml")),
    ("galvanic.toml", include_str!("data/galvanic.toml")),
    ("families.toml", include_str!("data/families.toml")),
    ("paints.toml", include_str!("data/paints.toml")),
    ("defaults.toml", include_str!("data/defaults.toml")),
];

impl Rows {
    /// Reads a catalogue file's text.
    pub fn parse(text: &str) -> Result<Self, Error> {
        static SCHEMA: OnceLock<serde_json::Value> = OnceLock::new();
        Document::parse(text)?.read(SCHEMA.get_or_init(schema_of::<Self>))
    }

    /// Reads a catalogue file.
    pub fn read(path: &Path) -> Result<Self, Error> {
        let text = crate::files::read_text(path)?;
        Self::parse(&text)
    }
}

/// Adds `new` to `table`, replacing the rows of equal key; says which.
fn merge<T: Clone>(table: &mut Vec<T>, new: &[T], what: &str, key: impl Fn(&T) -> String, says: &mut Vec<String>) {
    for row in new {
        let name = key(row);
        let place = table.iter().position(|old| key(old) == name);
        if let Some(i) = place {
            table[i] = row.clone();
            says.push(format!("{what} {name}: replaced by your own row"));
        } else {
            table.push(row.clone());
            says.push(format!("{what} {name}: your own row"));
        }
    }
}

impl Rows {
    /// Takes over the rows on contacts, families and ranges.
    fn merge_contacts(&mut self, new: &Self, says: &mut Vec<String>) {
        merge(&mut self.galvanic_metal, &new.galvanic_metal, "galvanic metal", |r| r.name.clone(), says);
        let limit = |r: &GalvanicLimit| r.exposure.name().to_owned();
        merge(&mut self.galvanic_limit, &new.galvanic_limit, "galvanic limit", limit, says);
        let potential = |r: &SeaPotential| format!("{}, {}", r.entry, r.series);
        merge(&mut self.sea_potential, &new.sea_potential, "potential in sea water", potential, says);
        let place = |r: &GalvanicOrder| format!("{}, {}", r.entry, r.series);
        merge(&mut self.galvanic_order, &new.galvanic_order, "galvanic order", place, says);
        let family = |r: &FamilyProperty| r.family.name().to_owned();
        merge(&mut self.family_property, &new.family_property, "properties of", family, says);
        merge(&mut self.coated_range, &new.coated_range, "thickness range", |r| r.standard.clone(), says);
    }
}

impl Catalogue {
    /// The rows that ship with this library.
    ///
    /// # Example
    /// ```
    /// use raisedbody::catalogue::{Catalogue, GaugeSystem};
    /// let catalogue = Catalogue::standard().unwrap();
    /// let gauge = catalogue.gauge("skin.gauge", GaugeSystem::ZincCoatedSteel, 18).unwrap();
    /// assert_eq!(gauge.thickness.mm(), 0.0516 * 25.4);
    /// ```
    pub fn standard() -> Result<Arc<Self>, Error> {
        static STANDARD: OnceLock<Arc<Catalogue>> = OnceLock::new();
        if let Some(ready) = STANDARD.get() {
            return Ok(Arc::clone(ready));
        }
        let mut catalogue = Self::default();
        for (name, text) in FILES {
            let rows = Rows::parse(text).map_err(|e| Problem::Unreadable {
                path: name.to_owned(),
                value: String::new(),
                problem: e.to_string(),
            })?;
            catalogue = catalogue.extended(&rows);
        }
        catalogue.overrides.clear();
        Ok(Arc::clone(STANDARD.get_or_init(|| Arc::new(catalogue))))
    }

    /// This catalogue with further rows; a row of the same key replaces the old one.
    #[must_use]
    pub fn extended(&self, new: &Rows) -> Self {
        let mut all = self.clone();
        let mut new = new.clone();
        new.resolve_sources();
        let (rows, says) = (&mut all.rows, &mut all.overrides);
        merge(&mut rows.gauge, &new.gauge, "gauge", |r| format!("{} {}", r.system.words(), r.gauge), says);
        merge(&mut rows.material, &new.material, "material", |r| r.name.clone(), says);
        merge(&mut rows.grade, &new.grade, "grade", |r| r.name.clone(), says);
        merge(&mut rows.coating, &new.coating, "coating", |r| r.designation.clone(), says);
        merge(&mut rows.rivet, &new.rivet, "rivet", |r| format!("{} {}", r.product, r.diameter), says);
        merge(&mut rows.grip, &new.grip, "grip", |r| format!("{} {} {}", r.product, r.diameter, r.name()), says);
        merge(&mut rows.drill, &new.drill, "drill", |r| r.name.clone(), says);
        merge(&mut rows.bit_life, &new.bit_life, "bit life", |r| format!("{} {}", r.part.name(), r.bit), says);
        merge(&mut rows.section, &new.section, "section", |r| r.name.clone(), says);
        merge(&mut rows.limit, &new.limit, "limit", |r| r.place.clone(), says);
        merge(
            &mut rows.corrosivity,
            &new.corrosivity,
            "corrosivity",
            |r| format!("{} {}", r.category, r.metal.words()),
            says,
        );
        let bend = |r: &KFactor| format!("{} {} R {}", r.material, r.thickness, r.radius);
        merge(&mut rows.k_factor, &new.k_factor, "K factor", bend, says);
        merge(&mut rows.k_rule, &new.k_rule, "range of K", |r| format!("{} from {} t", r.metal, r.from_ratio), says);
        merge(&mut rows.bend_limit, &new.bend_limit, "sharpest bend", |r| r.of.clone(), says);
        merge(&mut rows.surface, &new.surface, "surface", |r| r.name.clone(), says);
        rows.merge_contacts(&new, says);
        let band = |r: &DurabilityYears| format!("{} of {}", r.band.words(), r.edition);
        merge(&mut rows.durability, &new.durability, "durability", band, says);
        merge(&mut rows.paint_system, &new.paint_system, "paint system", |r| r.category.clone(), says);
        merge(&mut rows.paint_coat, &new.paint_coat, "coat", |r| r.name.clone(), says);
        let loss = |r: &ApplicationLoss| format!("of {}, {}", r.of.name(), r.by);
        merge(&mut rows.application_loss, &new.application_loss, "loss", loss, says);
        merge(&mut rows.duplex_factor, &new.duplex_factor, "duplex factor", |r| r.name.clone(), says);
        merge(&mut rows.default, &new.default, "default", |r| r.key.clone(), says);
        all.defaults = all.rows.default.iter().enumerate().map(|(i, d)| (d.key.clone(), i)).collect();
        all.read = vec![OnceLock::new(); all.rows.default.len()];
        all
    }

    /// What the user's rows added or replaced, a line each.
    pub fn overrides(&self) -> &[String] {
        &self.overrides
    }

    /// All rows.
    pub fn rows(&self) -> &Rows {
        &self.rows
    }

    /// Thickness by gauge number; `path` names the field in an error.
    pub fn gauge(&self, path: &str, system: GaugeSystem, number: u32) -> Result<&Gauge, Problem> {
        let known = || self.rows.gauge.iter().filter(|g| g.system == system);
        known().find(|g| g.gauge == number).ok_or_else(|| {
            let near = known().min_by_key(|g| g.gauge.abs_diff(number)).map(|g| g.gauge.to_string());
            Problem::UnknownName {
                path: path.to_owned(),
                value: number.to_string(),
                what: format!("gauge of {}", system.words()),
                nearest: near,
            }
        })
    }

    /// A paint or metal in the sun, by name.
    pub fn surface(&self, path: &str, name: &str) -> Result<&Surface, Problem> {
        find(path, "surface", name, &self.rows.surface, |r| &r.name)
    }

    /// A metal or plating as its contact sees it, by its name or another that means it.
    pub fn galvanic_metal(&self, path: &str, name: &str) -> Result<&GalvanicMetal, Problem> {
        let rows = &self.rows.galvanic_metal;
        let own = rows.iter().find(|r| r.name == name);
        own.or_else(|| rows.iter().find(|r| r.also.iter().any(|other| other == name))).ok_or_else(|| {
            let known = rows.iter().flat_map(|r| std::iter::once(&r.name).chain(&r.also)).map(String::as_str);
            Problem::unknown_name(path, "metal or plating", name, known)
        })
    }

    /// The greatest difference of anodic indices in an exposure.
    pub fn galvanic_limit(&self, path: &str, exposure: Exposure) -> Result<&GalvanicLimit, Problem> {
        let row = self.rows.galvanic_limit.iter().find(|r| r.exposure == exposure);
        row.ok_or_else(|| Problem::missing(path, format!("add a galvanic_limit for {} exposure", exposure.name())))
    }

    /// Properties of a family of skin.
    pub fn family_property(&self, path: &str, family: SkinFamily) -> Result<&FamilyProperty, Problem> {
        let row = self.rows.family_property.iter().find(|r| r.family == family);
        row.ok_or_else(|| Problem::missing(path, format!("add a family_property for {}", family.name())))
    }

    /// Whether a family of skin may stay without paint outdoors.
    ///
    /// # Example
    /// ```
    /// use raisedbody::catalogue::{Catalogue, SkinFamily};
    /// let catalogue = Catalogue::standard().unwrap();
    /// assert!(!catalogue.unpainted_allowed(SkinFamily::ZincIron).unwrap());
    /// ```
    pub fn unpainted_allowed(&self, family: SkinFamily) -> Result<bool, Problem> {
        Ok(self.family_property("family", family)?.unpainted_outdoors)
    }

    /// Thicknesses that a standard of coated sheet covers; none where no row speaks of it.
    pub fn coated_range(&self, standard: &str) -> Option<&CoatedRange> {
        self.rows.coated_range.iter().find(|r| r.standard == standard)
    }

    /// What is lost of paint by a way of applying it, or of sealant by a hand.
    pub fn application_loss(&self, path: &str, of: LossOf, by: &str) -> Result<&ApplicationLoss, Problem> {
        let rows = || self.rows.application_loss.iter().filter(|r| r.of == of);
        rows().find(|r| r.by == by).ok_or_else(|| {
            let names: Vec<&str> = rows().map(|r| r.by.as_str()).collect();
            Problem::UnknownName {
                path: path.to_owned(),
                value: by.to_owned(),
                what: match of {
                    LossOf::Paint => "way of painting".to_owned(),
                    LossOf::Sealant => "hand".to_owned(),
                },
                nearest: Some(nearest(by, names.iter().copied()).map_or_else(|| names.join("\" or \""), str::to_owned)),
            }
        })
    }

    /// A kind of coat by name; none where the catalogue does not know it.
    pub fn paint_coat(&self, name: &str) -> Option<&PaintCoat> {
        self.rows.paint_coat.iter().find(|r| r.name == name)
    }

    /// Years behind a class of durability in an edition of ISO 12944; none where that edition has no such class.
    pub fn durability(&self, edition: u32, band: Durability) -> Option<&DurabilityYears> {
        self.rows.durability.iter().find(|r| r.edition == edition && r.band == band)
    }

    /// A grade by name.
    pub fn grade(&self, path: &str, name: &str) -> Result<&Grade, Problem> {
        find(path, "grade", name, &self.rows.grade, |r| &r.name)
    }

    /// A material by name.
    pub fn material(&self, path: &str, name: &str) -> Result<&Material, Problem> {
        find(path, "material", name, &self.rows.material, |r| &r.name)
    }

    /// A coating by designation.
    pub fn coating(&self, path: &str, designation: &str) -> Result<&Coating, Problem> {
        find(path, "coating", designation, &self.rows.coating, |r| &r.designation)
    }

    /// A section by name.
    pub fn section(&self, path: &str, name: &str) -> Result<&Section, Problem> {
        find(path, "section", name, &self.rows.section, |r| &r.name)
    }

    /// A legal limit by place.
    pub fn limit(&self, path: &str, place: &str) -> Result<&Limit, Problem> {
        find(path, "place", place, &self.rows.limit, |r| &r.place)
    }

    /// A drill by name: `"17/64 in"`, `"F"`, `"#30"`.
    pub fn drill(&self, path: &str, name: &str) -> Result<&Drill, Problem> {
        find(path, "drill", name, &self.rows.drill, |r| &r.name)
    }

    /// How long a bit of this diameter, mm, lasts in a part of this thickness, mm; none where no row speaks of it.
    pub fn bit_life(&self, part: DrilledPart, diameter_mm: f64, thickness_mm: f64) -> Option<&BitLife> {
        self.rows.bit_life.iter().find(|r| {
            r.part == part && (r.diameter.mm() - diameter_mm).abs() < 0.005 && thickness_mm <= r.thickest.mm() + 0.005
        })
    }

    /// A blind rivet by product and diameter, mm.
    pub fn rivet(&self, path: &str, product: &str, diameter_mm: f64) -> Result<&Rivet, Problem> {
        let rows = || self.rows.rivet.iter().filter(|r| r.product == product);
        if rows().next().is_none() {
            let known = self.rows.rivet.iter().map(|r| r.product.as_str());
            return Err(Problem::unknown_name(path, "rivet product", product, known));
        }
        rows().find(|r| (r.diameter.mm() - diameter_mm).abs() < 0.005).ok_or_else(|| {
            let sizes: Vec<String> = rows().map(|r| r.diameter.to_string()).collect();
            Problem::UnknownName {
                path: path.to_owned(),
                value: format!("{diameter_mm} mm"),
                what: format!("diameter of {product}"),
                nearest: Some(sizes.join("\" or \"")),
            }
        })
    }

    /// The grips of a product in one diameter, mm, from the shortest rivet to the longest.
    pub fn grips(&self, path: &str, product: &str, diameter_mm: f64) -> Result<Vec<&Grip>, Problem> {
        let rows = || self.rows.grip.iter().filter(|r| r.product == product);
        if rows().next().is_none() {
            let known = self.rows.grip.iter().map(|r| r.product.as_str());
            return Err(Problem::unknown_name(path, "product with known grips", product, known));
        }
        let mut found: Vec<&Grip> = rows().filter(|r| (r.diameter.mm() - diameter_mm).abs() < 0.005).collect();
        if found.is_empty() {
            let mut sizes: Vec<String> = rows().map(|r| r.diameter.to_string()).collect();
            sizes.dedup();
            return Err(Problem::UnknownName {
                path: path.to_owned(),
                value: format!("{diameter_mm} mm"),
                what: format!("diameter of {product} with known grips"),
                nearest: Some(sizes.join("\" or \"")),
            });
        }
        found.sort_by(|a, b| a.body_mm().total_cmp(&b.body_mm()));
        Ok(found)
    }

    /// First-year loss of a metal in a corrosivity category.
    pub fn corrosivity(&self, path: &str, category: &str, metal: MetalLost) -> Result<&Corrosivity, Problem> {
        let rows = || self.rows.corrosivity.iter().filter(|r| r.metal == metal);
        rows().find(|r| r.category == category).ok_or_else(|| {
            Problem::unknown_name(path, "corrosivity category", category, rows().map(|r| r.category.as_str()))
        })
    }

    /// The category whose bounds hold a first-year loss: above its lower, up to its upper; none beyond the last.
    ///
    /// # Example
    /// ```
    /// use raisedbody::catalogue::{Catalogue, MetalLost};
    /// let catalogue = Catalogue::standard().unwrap();
    /// assert_eq!(catalogue.category_of(2.1, MetalLost::Zinc), Some("C3"));
    /// assert_eq!(catalogue.category_of(26.0, MetalLost::Zinc), None);
    /// ```
    pub fn category_of(&self, rate_um_a: f64, metal: MetalLost) -> Option<&str> {
        let mut rows = self.rows.corrosivity.iter().filter(|r| r.metal == metal);
        // A bound that was added up may lack its last digit.
        let up_to = |r: &&Corrosivity| r.high.um_a() * (1.0 + 1e-9);
        rows.find(|r| rate_um_a <= up_to(r)).map(|r| r.category.as_str())
    }

    /// The category that is some steps worse, at most the worst.
    pub fn worse_category(&self, path: &str, category: &str, steps: usize) -> Result<&str, Problem> {
        let start = self.corrosivity(path, category, MetalLost::Zinc)?;
        let rows: Vec<&Corrosivity> = self.rows.corrosivity.iter().filter(|r| r.metal == MetalLost::Zinc).collect();
        let at = rows.iter().position(|r| r.category == start.category).unwrap_or_default();
        Ok(rows.get(at + steps).or(rows.last()).map_or(start.category.as_str(), |r| r.category.as_str()))
    }

    /// The row of a default: a value, or a name, used where a plan gives none.
    pub fn fallback(&self, key: &str) -> Result<&DefaultValue, Problem> {
        self.defaults
            .get(key)
            .and_then(|&i| self.rows.default.get(i))
            .ok_or_else(|| Problem::missing(format!("default.{key}"), "add this default to the catalogue"))
    }

    /// The value used where a plan gives none, in the inside unit of `kind`.
    pub fn fallback_value(&self, key: &str, kind: Kind) -> Result<f64, Problem> {
        let row = self.fallback(key)?;
        let kept = self.defaults.get(key).and_then(|&i| self.read.get(i));
        if let Some((_, value)) = kept.and_then(OnceLock::get).filter(|(own, _)| *own == kind) {
            return Ok(*value);
        }
        let value = kind.parse(&row.value).map_err(|e| Problem::Unreadable {
            path: format!("default.{key}"),
            value: row.value.clone(),
            problem: e.to_string(),
        })?;
        if let Some(kept) = kept {
            // Whoever was first keeps it.
            let _ = kept.set((kind, value));
        }
        Ok(value)
    }
}

fn find<'a, T>(
    path: &str,
    what: &str,
    name: &str,
    rows: &'a [T],
    key: impl Fn(&T) -> &String,
) -> Result<&'a T, Problem> {
    rows.iter().find(|r| key(r) == name).ok_or_else(|| Problem::UnknownName {
        path: path.to_owned(),
        value: name.to_owned(),
        what: what.to_owned(),
        nearest: nearest(name, rows.iter().map(|r| key(r).as_str())).map(str::to_owned),
    })
}
