//! Paint and sealant: how far a litre goes, how thick it lies wet, how long it lasts on zinc, and what a bead takes.
//!
//! Volumes are plain geometry: a litre of paint with `VS` of it solid leaves `VS` litres of dry film. How long paint lasts
//! is not: ISO 12944 sorts systems into classes of durability to the first major maintenance, which are no guarantee time,
//! and the same word has stood for different years in its editions. What its table does not list is not worked out here.

use std::fmt;

use crate::catalogue::{Catalogue, DuplexFactor, Durability, PaintSystem};
use crate::check::Standing;
use crate::error::Problem;

/// Edition of ISO 12944 whose classes of durability are used: the newest; that of 1998 is told beside it.
pub const EDITION: u32 = 2018;

/// Corrosivity categories of ISO 9223.
pub const CATEGORIES: [&str; 6] = ["C1", "C2", "C3", "C4", "C5", "CX"];

/// Thickest total film that systems on zinc reach in one coat, µm; about, from memory of ISO 12944-5.
pub const ONE_COAT_UM: f64 = 120.0;

fn within(path: &str, value: f64, unit: &str, (least, most): (f64, f64)) -> Result<(), Problem> {
    if (least..=most).contains(&value) {
        return Ok(());
    }
    let value = format!("{value} {unit}");
    Err(Problem::out_of_range(path, value.trim_end(), format!("{least} to {most} {unit}").trim_end()))
}

fn all<const N: usize>(looked_at: [Result<(), Problem>; N]) -> Result<(), Vec<Problem>> {
    let problems: Vec<Problem> = looked_at.into_iter().filter_map(Result::err).collect();
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

/// Area that a litre of paint covers, m2: 1000 · solids / film\[µm\] · (1 − loss).
///
/// The theoretical rate, without loss, follows from volume: 1000 · VS / DFT m2/L, or 1604 · VS / DFT\[mil\] ft2/gal, VS being
/// the solids by volume and DFT the dry film. The practical one multiplies by the share that stays on the sheet, 1 − loss,
/// which is also called transfer efficiency. More solids cover more: a sheet that prints 100 in the place of 1000 for solids
/// as a share is misprinted. The numbers are taken as they are; [`Coat::validate`] looks at them.
///
/// # Example
/// ```
/// use raisedbody::mechanics::paint::spreading_rate_m2_l;
/// assert_eq!(spreading_rate_m2_l(0.5, 50.0, 0.0), 10.0);
/// assert_eq!(spreading_rate_m2_l(0.5, 50.0, 0.25), 7.5);
/// ```
pub fn spreading_rate_m2_l(solids: f64, film_um: f64, loss: f64) -> f64 {
    1000.0 * solids / film_um * (1.0 - loss)
}

/// One coat of paint.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Coat {
    /// Dry film, µm.
    pub film_um: f64,
    /// Solids by volume, as a share.
    pub solids: f64,
    /// Paint that does not stay on the sheet, as a share.
    pub loss: f64,
}

impl Coat {
    /// Whether a coat can be so.
    ///
    /// # Errors
    /// A dry film outside 1 to 1000 µm, solids outside 1 to 100 %, a loss outside 0 to 95 %.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        all([
            within("film", self.film_um, "µm", (1.0, 1000.0)),
            within("solids", 100.0 * self.solids, "%", (1.0, 100.0)),
            within("loss", 100.0 * self.loss, "%", (0.0, 95.0)),
        ])
    }

    /// Area that a litre covers where nothing is lost, m2/L.
    pub fn theoretical_m2_l(&self) -> f64 {
        spreading_rate_m2_l(self.solids, self.film_um, 0.0)
    }

    /// Area that a litre covers, m2/L.
    pub fn practical_m2_l(&self) -> f64 {
        spreading_rate_m2_l(self.solids, self.film_um, self.loss)
    }

    /// How thick it is put on, µm: DFT / VS.
    pub fn wet_film_um(&self) -> f64 {
        self.film_um / self.solids
    }

    /// Paint for an area, loss included, litres.
    pub fn litres(&self, area_m2: f64) -> f64 {
        area_m2 / self.practical_m2_l()
    }
}

/// Cross-section of a bead of sealant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bead {
    /// A layer in a lap, or a filled joint.
    Rectangle {
        /// Width, mm.
        width_mm: f64,
        /// Depth, or thickness, mm.
        depth_mm: f64,
    },
    /// Along an edge, a triangle with two legs alike.
    Fillet {
        /// Each leg, mm.
        leg_mm: f64,
    },
    /// As it leaves the nozzle.
    Round {
        /// Diameter, mm.
        diameter_mm: f64,
    },
}

impl Bead {
    /// Whether a bead can be so.
    ///
    /// # Errors
    /// A size below nought or above 200 mm.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let size = |path, mm: f64| within(path, mm, "mm", (0.0, 200.0));
        match *self {
            Self::Rectangle { width_mm, depth_mm } => all([size("width", width_mm), size("depth", depth_mm)]),
            Self::Fillet { leg_mm } => all([size("leg", leg_mm)]),
            Self::Round { diameter_mm } => all([size("diameter", diameter_mm)]),
        }
    }

    /// Cross-section, mm2: w d, ½ a², π d²/4.
    pub fn area_mm2(&self) -> f64 {
        match *self {
            Self::Rectangle { width_mm, depth_mm } => width_mm * depth_mm,
            Self::Fillet { leg_mm } => 0.5 * leg_mm * leg_mm,
            Self::Round { diameter_mm } => std::f64::consts::FRAC_PI_4 * diameter_mm * diameter_mm,
        }
    }

    /// Sealant for a length, litres; `waste` is what is bought beyond the bead, as a share of it.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::paint::Bead;
    /// // A lap film 25 mm wide and 0.5 mm thick takes 12.5 mL a metre.
    /// let lap = Bead::Rectangle { width_mm: 25.0, depth_mm: 0.5 };
    /// assert_eq!(lap.litres(1.0, 0.0), 0.0125);
    /// ```
    pub fn litres(&self, length_m: f64, waste: f64) -> f64 {
        length_m * self.area_mm2() / 1000.0 * (1.0 + waste)
    }
}

/// Whole cartridges of this content that hold so much sealant; one more is not opened for a millionth of its content.
///
/// # Errors
/// Sealant below nought, a content outside 10 mL to 20 L, more cartridges than can be counted.
///
/// # Example
/// ```
/// use raisedbody::mechanics::paint::cartridges;
/// assert_eq!(cartridges(0.62, 0.310).unwrap(), 2);
/// assert_eq!(cartridges(0.63, 0.310).unwrap(), 3);
/// ```
pub fn cartridges(sealant_l: f64, content_l: f64) -> Result<u32, Vec<Problem>> {
    all([within("sealant", sealant_l, "L", (0.0, 1e6)), within("content", content_l, "L", (0.01, 20.0))])?;
    // At most 1e8.
    Ok((sealant_l / content_l - 1e-6).ceil().max(0.0) as u32)
}

/// What the table of ISO 12944-5 says of a film of paint on zinc.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FilmDurability {
    /// The highest class whose film is reached.
    Class(Durability),
    /// Thinner than any system that is listed in this category.
    BelowLowest,
    /// No system is listed in this category.
    NotTabulated,
}

impl FilmDurability {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Class(class) => class.words(),
            Self::BelowLowest => "below the lowest",
            Self::NotTabulated => "not tabulated",
        }
    }

    /// The class, where there is one.
    pub fn class(self) -> Option<Durability> {
        match self {
            Self::Class(class) => Some(class),
            Self::BelowLowest | Self::NotTabulated => None,
        }
    }
}

/// The films that a category asks, µm, from the lowest class listed to the highest.
pub fn films_um(system: &PaintSystem) -> impl Iterator<Item = (Durability, f64)> {
    let films = [system.low, system.medium, system.high, system.very_high];
    Durability::ALL.into_iter().zip(films).filter_map(|(class, film)| Some((class, 1000.0 * film?.mm())))
}

/// The class of durability that a total nominal dry film of paint on hot-dip galvanized steel reaches in a category.
///
/// ISO 12944-5:2018 (from memory) lists films by category and class. Between two films the lower class holds; below the lowest,
/// and in a category that is not listed (C1, CX), there is none: nothing is extrapolated.
///
/// # Errors
/// A film outside 0 to 5000 µm; a category that ISO 9223 does not have.
///
/// # Example
/// ```
/// use raisedbody::catalogue::{Catalogue, Durability};
/// use raisedbody::mechanics::paint::{FilmDurability, film_durability};
/// let catalogue = Catalogue::standard().unwrap();
/// let of = |film_um| film_durability(&catalogue, "C4", film_um).unwrap();
/// assert_eq!(of(130.0), FilmDurability::Class(Durability::Medium));
/// assert_eq!(of(60.0), FilmDurability::BelowLowest);
/// ```
pub fn film_durability(catalogue: &Catalogue, category: &str, film_um: f64) -> Result<FilmDurability, Vec<Problem>> {
    all([known(category), within("film", film_um, "µm", (0.0, 5000.0))])?;
    let Some(system) = system(catalogue, category) else { return Ok(FilmDurability::NotTabulated) };
    // Films that were added up may lack the last digit.
    let reached = films_um(system).filter(|(_, least_um)| film_um >= least_um - 1e-9).last();
    Ok(reached.map_or(FilmDurability::BelowLowest, |(class, _)| FilmDurability::Class(class)))
}

/// The row of a category, where it is listed.
pub fn system<'a>(catalogue: &'a Catalogue, category: &str) -> Option<&'a PaintSystem> {
    catalogue.rows().paint_system.iter().find(|row| row.category == category)
}

fn known(category: &str) -> Result<(), Problem> {
    if CATEGORIES.contains(&category) {
        return Ok(());
    }
    Err(Problem::UnknownName {
        path: "category".to_owned(),
        value: category.to_owned(),
        what: "corrosivity category".to_owned(),
        nearest: Some(CATEGORIES.join("\" or \"")),
    })
}

/// Zinc and paint together by one range of the factor.
#[derive(Debug, Clone, PartialEq)]
pub struct DuplexReading {
    /// Whose range it is.
    pub name: String,
    /// Least and greatest factor.
    pub k: (f64, f64),
    /// Years at least.
    pub shortest_years: f64,
    /// Years at most; none where one of the layers has no upper bound.
    pub longest_years: Option<f64>,
    /// Where the factor comes from.
    pub source: String,
    /// How the factor is known.
    pub standing: Standing,
}

/// How long zinc and the paint on it last together: a range, not a scatter.
#[derive(Debug, Clone, PartialEq)]
pub struct DuplexLife {
    /// By the factor for a vehicle in this category: a judgement.
    pub vehicle: DuplexReading,
    /// By the ranges that sources give, for comparison; they differ.
    pub sources: Vec<DuplexReading>,
}

impl fmt::Display for DuplexLife {
    /// `"75 to 120 years"`; the shortest is rounded down, the longest up.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // A millionth of a year is rounding.
        let step = |years: f64| if years < 10.0 { 10.0 } else { 1.0 };
        let down = |years: f64| (years * step(years) + 1e-6).floor() / step(years);
        let up = |years: f64| (years * step(years) - 1e-6).ceil() / step(years);
        let shortest = down(self.vehicle.shortest_years);
        match self.vehicle.longest_years {
            Some(years) => write!(f, "{shortest} to {} years", up(years)),
            None => write!(f, "at least {shortest} years, no upper bound"),
        }
    }
}

/// How long zinc and the paint on it last together, years: L = k (`L_zinc` + `L_paint`).
///
/// `zinc` and `paint` are the shortest and the longest life of each alone; a longest that is missing has no upper bound.
/// Galvanizers give k from 1.5 to 2.3, other texts to 2.5 or from 1.4 to 2.7. What decides for a vehicle is a judgement: 1.5
/// in C5 and CX, up to 2.0 in the other categories. A layer that may be gone at once keeps nothing from the other: where one of
/// the two lives is nought, so is what the factor adds.
///
/// # Errors
/// A category that ISO 9223 does not have; years below nought, above a million or not a number; a longest life below the
/// shortest. The first of them is told, by the name of its argument.
///
/// # Example
/// ```
/// use raisedbody::mechanics::paint::duplex_life;
/// // Zinc 40 years and paint 10 years in C5: 1.5 times their sum.
/// let life = duplex_life((40.0, Some(40.0)), (10.0, Some(10.0)), "C5").unwrap();
/// assert_eq!(life.vehicle.shortest_years, 75.0);
/// assert_eq!(life.to_string(), "75 to 75 years");
/// ```
pub fn duplex_life(zinc: (f64, Option<f64>), paint: (f64, Option<f64>), category: &str) -> Result<DuplexLife, Problem> {
    let catalogue = Catalogue::standard().map_err(|e| Problem::Unreadable {
        path: "duplex_factor".to_owned(),
        value: String::new(),
        problem: e.to_string(),
    })?;
    duplex_life_by(&catalogue, zinc, paint, category)
}

/// [`duplex_life`] with the factors of a catalogue that may hold rows of the user's own.
///
/// # Errors
/// As [`duplex_life`]; factors that are none; no factor for this category.
pub fn duplex_life_by(
    catalogue: &Catalogue,
    zinc: (f64, Option<f64>),
    paint: (f64, Option<f64>),
    category: &str,
) -> Result<DuplexLife, Problem> {
    known(category)?;
    for (path, (shortest, longest)) in [("zinc", zinc), ("paint", paint)] {
        within(path, shortest, "years", (0.0, 1e6))?;
        let Some(longest) = longest else { continue };
        within(path, longest, "years", (0.0, 1e6))?;
        if longest < shortest {
            let problem = format!("its longest life is below its shortest of {shortest} years");
            return Err(Problem::contradiction(path, format!("{longest} years"), problem));
        }
    }
    let together =
        |k: f64, zinc: f64, paint: f64| if zinc > 0.0 && paint > 0.0 { k * (zinc + paint) } else { zinc + paint };
    let reading = |row: &DuplexFactor| -> Result<DuplexReading, Problem> {
        let path = format!("duplex_factor {}", row.name);
        within(&path, row.low, "", (1.0, 10.0))?;
        within(&path, row.high, "", (row.low, 10.0))?;
        Ok(DuplexReading {
            name: row.name.clone(),
            k: (row.low, row.high),
            shortest_years: together(row.low, zinc.0, paint.0),
            longest_years: zinc.1.zip(paint.1).map(|(zinc, paint)| together(row.high, zinc, paint)),
            source: row.source.clone(),
            standing: row.standing,
        })
    };
    let rows = &catalogue.rows().duplex_factor;
    let decides = rows.iter().find(|row| row.categories.iter().any(|own| own == category));
    let decides = decides.ok_or_else(|| {
        Problem::missing("duplex_factor", format!("add a row whose categories hold \"{category}\" to the catalogue"))
    })?;
    let sources = rows.iter().filter(|row| row.categories.is_empty());
    Ok(DuplexLife { vehicle: reading(decides)?, sources: sources.map(reading).collect::<Result<_, _>>()? })
}
