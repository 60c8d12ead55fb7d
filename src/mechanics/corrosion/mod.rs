//! How long a metal layer lasts outdoors: loss over the years by ISO 9224, and its inverse.
//!
//! A layer is eaten from one side. The loss after `t` years follows from the loss `r` in the first year by
//! `D = r t^b` (ISO 9224:2012, equation 1). Several readings of the standards are in use; their lives differ by a factor
//! of two and more for zinc and by far more for steel, so a [`LifeRange`] takes them all and says which one decides:
//!
//! - ISO 14713-1:2017 (from memory) divides thickness by rate: `b = 1`, [`Exponent::Linear`];
//! - ISO 9224 gives a mean exponent ([`Exponent::Mean`], B1) and a cautious upper one ([`Exponent::Upper`], B2);
//! - beyond 20 years its text goes on along the tangent ([`Beyond20::Tangent`], equation 3), while its table of
//!   factors, which runs to 100 years, stays on the power law ([`Beyond20::PowerLaw`]).
//!
//! What none of them covers: the rates were measured on flat, openly exposed plates. Laps, hems, mud pockets and wet
//! crevices lose metal faster; cut edges and scratches have no layer to begin with. The rate is
//! itself a loss over one year: for shorter times the power law is an extension, and there gives the *larger* loss.

mod climate;
mod year;

use std::fmt;

use crate::catalogue::{Corrosivity, MetalLost};
use crate::check::Standing;
use crate::error::Problem;

pub use climate::{CHLORIDE_MG_M2_D, Climate, FirstYear, HUMIDITY_PERCENT, SO2_MG_M2_D, TEMPERATURE_DEG_C, first_year};
pub use year::{Stay, mixed};

/// Years up to which the text of ISO 9224:2012 uses the power law.
pub const POWER_LAW_YEARS: f64 = 20.0;

/// Years at which the table of factors in ISO 9224:2012 ends; a longer life is drawn out beyond all that it tabulates.
pub const TABLE_YEARS: f64 = 100.0;

/// The two time exponents of a metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exponents {
    /// B1: the mean of the exposures evaluated.
    pub mean: f64,
    /// B2: a cautious upper value, for where too small a loss is the dangerous error.
    pub upper: f64,
    /// Where they come from.
    pub source: &'static str,
    /// How they are known.
    pub standing: Standing,
}

const ISO_9224_EXPONENTS: &str = "ISO 9224:2012, table of time exponents, as transcribed in \
     github.com/Institute-of-Surface-Science/CorWiz, data/tables/din-en-iso-92232012-05_tables_9224_table_3.csv";

/// Unalloyed carbon steel.
pub const STEEL: Exponents =
    Exponents { mean: 0.523, upper: 0.575, source: ISO_9224_EXPONENTS, standing: Standing::Read };

/// Zinc.
pub const ZINC: Exponents =
    Exponents { mean: 0.813, upper: 0.873, source: ISO_9224_EXPONENTS, standing: Standing::Read };

/// Copper.
pub const COPPER: Exponents =
    Exponents { mean: 0.667, upper: 0.726, source: ISO_9224_EXPONENTS, standing: Standing::Read };

/// Aluminium; it pits, so that a loss by mass says little of the depth.
pub const ALUMINIUM: Exponents =
    Exponents { mean: 0.728, upper: 0.807, source: ISO_9224_EXPONENTS, standing: Standing::Read };

/// The exponents of a metal.
pub const fn exponents(metal: MetalLost) -> Exponents {
    match metal {
        MetalLost::Steel => STEEL,
        MetalLost::Zinc => ZINC,
        MetalLost::Copper => COPPER,
        MetalLost::Aluminium => ALUMINIUM,
    }
}

/// Which time exponent is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Exponent {
    /// ISO 9224 B1, the mean.
    Mean,
    /// ISO 9224 B2, the cautious upper one.
    Upper,
    /// 1: the first year's loss every year, as ISO 14713-1 tabulates lives.
    Linear,
}

impl Exponent {
    /// The exponent `b` for a metal.
    pub const fn b(self, metal: MetalLost) -> f64 {
        match self {
            Self::Mean => exponents(metal).mean,
            Self::Upper => exponents(metal).upper,
            Self::Linear => 1.0,
        }
    }
}

/// How the loss goes on beyond 20 years.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Beyond20 {
    /// Along the tangent at 20 years: the text of ISO 9224. Always the larger loss.
    Tangent,
    /// By the same power law: the table of ISO 9224.
    PowerLaw,
}

/// One way to read the standards.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Reading {
    /// The time exponent.
    pub exponent: Exponent,
    /// Beyond 20 years.
    pub beyond: Beyond20,
}

impl Reading {
    /// Every reading that differs from the others. Up to 20 years the two of one exponent agree.
    pub const ALL: [Self; 5] = [
        Self { exponent: Exponent::Linear, beyond: Beyond20::PowerLaw },
        Self { exponent: Exponent::Upper, beyond: Beyond20::Tangent },
        Self { exponent: Exponent::Mean, beyond: Beyond20::Tangent },
        Self { exponent: Exponent::Upper, beyond: Beyond20::PowerLaw },
        Self { exponent: Exponent::Mean, beyond: Beyond20::PowerLaw },
    ];

    /// The words shown to the user.
    pub const fn words(self) -> &'static str {
        match (self.exponent, self.beyond) {
            (Exponent::Linear, _) => "thickness over first-year rate",
            (Exponent::Mean, Beyond20::Tangent) => "ISO 9224 B1, tangent beyond 20 years",
            (Exponent::Mean, Beyond20::PowerLaw) => "ISO 9224 B1, power law throughout",
            (Exponent::Upper, Beyond20::Tangent) => "ISO 9224 B2, tangent beyond 20 years",
            (Exponent::Upper, Beyond20::PowerLaw) => "ISO 9224 B2, power law throughout",
        }
    }
}

/// Thickness of a coating on one side, µm, from its mass on that side: `t = m / rho`.
///
/// The definition of areal mass; with zinc at 7140 kg/m3, 7.14 g/m2 make 1 µm (ASTM A653/A653M, 8.1.3, restated by a
/// secondary text). Mass and density are positive numbers here: nothing is checked, the functions that take the
/// thickness check it.
///
/// # Example
/// ```
/// use raisedbody::mechanics::corrosion::coating_thickness_um;
/// // 0.90 oz/ft2 on both sides together, evenly split, is 137.3 g/m2 a side.
/// let per_side_um = coating_thickness_um(0.90 * 305.1517 / 2.0, 7140.0);
/// assert!((per_side_um - 19.2).abs() < 0.05);
/// ```
pub fn coating_thickness_um(mass_per_side_g_m2: f64, density_kg_m3: f64) -> f64 {
    1000.0 * mass_per_side_g_m2 / density_kg_m3
}

/// Metal lost on one side after `years`, µm.
///
/// ISO 9224:2012, restated by a secondary text: `D = r t^b` up to 20 years (equation 1); beyond them either
/// `D = r (20^b + b 20^(b-1) (t - 20))` (equation 3) or equation 1 still, see [`Beyond20`]. `rate_um_a` is the loss in
/// the first year. Valid for `0 < b <= 1`: the loss slows down or stays even.
///
/// # Errors
/// A negative or endless rate or time, an exponent out of its range; a loss too large for a number.
///
/// # Example
/// ```
/// use raisedbody::catalogue::MetalLost;
/// use raisedbody::mechanics::corrosion::{Beyond20, Exponent, loss_um};
/// // Steel at the upper bound of C4, 80 µm in the first year, after ten years:
/// let lost_um = loss_um(80.0, 10.0, Exponent::Mean.b(MetalLost::Steel), Beyond20::Tangent).unwrap();
/// assert_eq!(lost_um.round(), 267.0);
/// ```
pub fn loss_um(rate_um_a: f64, years: f64, b: f64, beyond: Beyond20) -> Result<f64, Problem> {
    not_negative("rate_um_a", rate_um_a, "µm/a")?;
    not_negative("years", years, "a")?;
    exponent_in_range(b)?;
    let lost_um = rate_um_a * factor(years, b, beyond);
    if lost_um.is_finite() {
        Ok(lost_um)
    } else {
        Err(Problem::out_of_range("years", format!("{years} a"), "a time whose loss is still a number"))
    }
}

/// Years until `thickness_um` is lost from one side: the inverse of [`loss_um`].
///
/// With `q = d / r`: `t = q^(1/b)` up to 20 years; beyond them `t = 20 + (q - 20^b) / (b 20^(b-1))`, or `q^(1/b)`
/// still, see [`Beyond20`]. With `b = 1` this is the thickness over the rate, as ISO 14713-1 tabulates it.
///
/// # Errors
/// A negative or endless thickness, a rate that is not above nought (there is no life to give then), an exponent out of
/// its range; a life too long for a number.
///
/// # Example
/// ```
/// use raisedbody::catalogue::MetalLost;
/// use raisedbody::mechanics::corrosion::{Beyond20, Exponent, life_years};
/// // 20 µm of zinc at the upper bound of C3, 2.1 µm/a: 9.5 years at an even loss, 16 by the mean exponent.
/// let years = |exponent: Exponent| life_years(20.0, 2.1, exponent.b(MetalLost::Zinc), Beyond20::Tangent).unwrap();
/// assert!((years(Exponent::Linear) - 9.52).abs() < 0.01);
/// assert!((years(Exponent::Mean) - 16.0).abs() < 0.1);
/// ```
pub fn life_years(thickness_um: f64, rate_um_a: f64, b: f64, beyond: Beyond20) -> Result<f64, Problem> {
    not_negative("thickness_um", thickness_um, "µm")?;
    above_nought("rate_um_a", rate_um_a, "µm/a")?;
    exponent_in_range(b)?;
    let q = thickness_um / rate_um_a;
    let at_20 = POWER_LAW_YEARS.powf(b);
    let years = match beyond {
        Beyond20::Tangent if q > at_20 => POWER_LAW_YEARS + (q - at_20) / slope_at_20(b),
        Beyond20::Tangent | Beyond20::PowerLaw => q.powf(1.0 / b),
    };
    if years.is_finite() {
        Ok(years)
    } else {
        Err(Problem::out_of_range(
            "rate_um_a",
            format!("{rate_um_a} µm/a"),
            "a rate at which the life is still a number",
        ))
    }
}

/// Loss over `years` in units of the first year's.
fn factor(years: f64, b: f64, beyond: Beyond20) -> f64 {
    match beyond {
        Beyond20::Tangent if years > POWER_LAW_YEARS => {
            POWER_LAW_YEARS.powf(b) + slope_at_20(b) * (years - POWER_LAW_YEARS)
        }
        Beyond20::Tangent | Beyond20::PowerLaw => years.powf(b),
    }
}

fn slope_at_20(b: f64) -> f64 {
    b * POWER_LAW_YEARS.powf(b - 1.0)
}

/// A layer of metal on one side, or a sheet eaten from one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Thickness as ordered, µm.
    pub nominal_um: f64,
    /// Thinnest that the standard still permits, µm.
    pub least_um: f64,
}

impl Layer {
    /// A sheet's base metal, from mm.
    pub fn of_sheet_mm(nominal_mm: f64, least_mm: f64) -> Self {
        Self { nominal_um: 1000.0 * nominal_mm, least_um: 1000.0 * least_mm }
    }
}

/// First-year loss in a corrosivity category.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rates {
    /// Lower bound, µm/a; none where the category has none (C1).
    pub low_um_a: Option<f64>,
    /// Upper bound, µm/a.
    pub high_um_a: f64,
}

impl From<&Corrosivity> for Rates {
    fn from(row: &Corrosivity) -> Self {
        Self { low_um_a: Some(row.low.um_a()), high_um_a: row.high.um_a() }
    }
}

/// Within which years a layer is used up. A range, not a scatter: nothing says that its middle is the likeliest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LifeRange {
    /// Least thickness at the category's upper rate, by the reading that gives the shortest life.
    pub shortest_years: f64,
    /// That reading.
    pub shortest_by: Reading,
    /// Nominal thickness at the category's lower rate, by the reading that gives the longest life; none where the
    /// category has no lower rate, so that nothing bounds the life.
    pub longest_years: Option<f64>,
    /// That reading.
    pub longest_by: Option<Reading>,
    /// Least thickness over the upper rate, as ISO 14713-1 tabulates zinc.
    pub linear_shortest_years: f64,
    /// Nominal thickness over the lower rate, likewise.
    pub linear_longest_years: Option<f64>,
}

impl LifeRange {
    /// The two ends alone.
    pub fn years(&self) -> Years {
        Years { shortest_years: self.shortest_years, longest_years: self.longest_years }
    }

    /// Whether an end lies beyond the 100 years that ISO 9224 tabulates, and its number is a mere drawing-out.
    pub fn beyond_table(&self) -> bool {
        self.longest_years.unwrap_or(self.shortest_years) > TABLE_YEARS
    }
}

impl fmt::Display for LifeRange {
    /// As [`Years`].
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.years().fmt(f)
    }
}

/// From when to when something may end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Years {
    /// At the earliest.
    pub shortest_years: f64,
    /// At the latest; none where nothing bounds it.
    pub longest_years: Option<f64>,
}

impl Years {
    /// This, and then that.
    #[must_use]
    pub fn then(self, next: Self) -> Self {
        Self {
            shortest_years: self.shortest_years + next.shortest_years,
            longest_years: self.longest_years.zip(next.longest_years).map(|(own, next)| own + next),
        }
    }

    /// Whichever of the two ends first.
    #[must_use]
    pub fn or_sooner(self, other: Self) -> Self {
        let longest_years = match (self.longest_years, other.longest_years) {
            (Some(own), Some(other)) => Some(own.min(other)),
            (own, other) => own.or(other),
        };
        Self { shortest_years: self.shortest_years.min(other.shortest_years), longest_years }
    }
}

impl fmt::Display for Years {
    /// `"5.1 to 48 years"`. Above 100 years only that is said; the shortest is rounded down, the longest up.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.shortest_years > TABLE_YEARS {
            return write!(f, "more than 100 years");
        }
        let step = |years: f64| if years < 10.0 { 10.0 } else { 1.0 };
        let shortest = (self.shortest_years * step(self.shortest_years)).floor() / step(self.shortest_years);
        match self.longest_years {
            None => write!(f, "at least {shortest} years, no upper bound"),
            Some(years) if years > TABLE_YEARS => write!(f, "{shortest} to more than 100 years"),
            Some(years) => write!(f, "{shortest} to {} years", (years * step(years)).ceil() / step(years)),
        }
    }
}

/// Within which years a layer is used up in a corrosivity category.
///
/// Shortest: the least thickness at the upper rate, by the least of all [`Reading`]s. Longest: the nominal thickness at
/// the lower rate, by the greatest of them; from one year up that is B1 with the power law throughout. A lower rate that
/// is missing or nought leaves the longest open. See the module's page for what the standards do not cover.
///
/// # Errors
/// A negative or endless thickness or rate, an upper rate of nought, a least thickness above the nominal, a lower rate
/// above the upper.
///
/// # Example
/// ```
/// use raisedbody::catalogue::MetalLost;
/// use raisedbody::mechanics::corrosion::{Layer, Rates, life_range};
/// // G90 in C3: 19.2 µm a side if evenly split, 13.7 µm on the thinner side that is still permitted.
/// let g90 = Layer { nominal_um: 19.2, least_um: 13.7 };
/// let c3 = Rates { low_um_a: Some(0.7), high_um_a: 2.1 };
/// let life = life_range(g90, c3, MetalLost::Zinc).unwrap();
/// assert_eq!(life.to_string(), "6.5 to 59 years");
/// ```
pub fn life_range(layer: Layer, rates: Rates, metal: MetalLost) -> Result<LifeRange, Problem> {
    let lives = lives_by_reading(layer, rates, metal)?;
    // Of equal shortest lives the first reading is named, of equal longest ones the last: the plainest of each.
    let first = lives[0];
    let shortest = lives
        .into_iter()
        .fold(first, |best, next| if next.1.shortest_years < best.1.shortest_years { next } else { best });
    let longest = lives
        .into_iter()
        .filter_map(|(reading, years)| Some((reading, years.longest_years?)))
        .reduce(|best, next| if next.1 >= best.1 { next } else { best });
    Ok(LifeRange {
        shortest_years: shortest.1.shortest_years,
        shortest_by: shortest.0,
        longest_years: longest.map(|(_, years)| years),
        longest_by: longest.map(|(reading, _)| reading),
        linear_shortest_years: first.1.shortest_years,
        linear_longest_years: first.1.longest_years,
    })
}

/// Within which years a layer is used up, by each [`Reading`] on its own, in the order of [`Reading::ALL`].
///
/// Shortest: the least thickness at the upper rate; longest: the nominal thickness at the lower rate, none where that is missing
/// or nought.
///
/// # Errors
/// As [`life_range`].
pub fn lives_by_reading(layer: Layer, rates: Rates, metal: MetalLost) -> Result<[(Reading, Years); 5], Problem> {
    not_negative("nominal_um", layer.nominal_um, "µm")?;
    not_negative("least_um", layer.least_um, "µm")?;
    above_nought("high_um_a", rates.high_um_a, "µm/a")?;
    if layer.least_um > layer.nominal_um {
        return Err(Problem::contradiction(
            "least_um",
            format!("{} µm", layer.least_um),
            format!("the least thickness cannot exceed the nominal {} µm", layer.nominal_um),
        ));
    }
    if let Some(low_um_a) = rates.low_um_a {
        not_negative("low_um_a", low_um_a, "µm/a")?;
        if low_um_a > rates.high_um_a {
            return Err(Problem::contradiction(
                "low_um_a",
                format!("{low_um_a} µm/a"),
                format!("the lower rate cannot exceed the upper of {} µm/a", rates.high_um_a),
            ));
        }
    }
    let mut lives = Reading::ALL.map(|reading| (reading, Years { shortest_years: 0.0, longest_years: None }));
    for (reading, years) in &mut lives {
        let life =
            |thickness_um, rate_um_a| life_years(thickness_um, rate_um_a, reading.exponent.b(metal), reading.beyond);
        years.shortest_years = life(layer.least_um, rates.high_um_a)?;
        years.longest_years = match rates.low_um_a.filter(|&low_um_a| low_um_a > 0.0) {
            Some(low_um_a) => Some(life(layer.nominal_um, low_um_a)?),
            // A layer that is not there lasts no time at any rate.
            None if layer.nominal_um == 0.0 => Some(0.0),
            None => None,
        };
    }
    Ok(lives)
}

/// Years after the coating is gone until the base metal's whole thickness is lost from one side.
///
/// [`life_range`] with the rates of steel: the steel's first year begins when the zinc is gone. The loss meant is the
/// mean over the surface; steel pits, so the first pinhole comes sooner than even the shortest of these years, and rust
/// shows from the start of them. If both sides are eaten, give half the thickness.
///
/// # Errors
/// As [`life_range`].
///
/// # Example
/// ```
/// use raisedbody::mechanics::corrosion::{Layer, Rates, perforation_range};
/// // 1.21 mm of steel in C5, 80 to 200 µm in the first year.
/// let c5 = Rates { low_um_a: Some(80.0), high_um_a: 200.0 };
/// let years = perforation_range(Layer::of_sheet_mm(1.21, 1.09), c5).unwrap();
/// assert_eq!(years.linear_shortest_years, 1090.0 / 200.0);
/// assert_eq!(years.to_string(), "5.4 to more than 100 years");
/// ```
pub fn perforation_range(base: Layer, steel: Rates) -> Result<LifeRange, Problem> {
    life_range(base, steel, MetalLost::Steel)
}

/// Between which losses a metal may lie after some years.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LossRange {
    /// At the lower rate, by the reading that gives the least; nought where there is no lower rate.
    pub least_um: f64,
    /// At the upper rate, by the reading that gives the most.
    pub most_um: f64,
}

/// Between which losses on one side a metal may lie after some years, by all [`Reading`]s of the standards.
///
/// # Errors
/// As [`loss_um`].
///
/// # Example
/// ```
/// use raisedbody::catalogue::MetalLost;
/// use raisedbody::mechanics::corrosion::{Rates, loss_range};
/// let c4 = Rates { low_um_a: Some(50.0), high_um_a: 80.0 };
/// let steel = loss_range(c4, 10.0, MetalLost::Steel).unwrap();
/// // By the mean exponent at the lower rate, and by the first year's loss every year at the upper one.
/// assert_eq!((steel.least_um.round(), steel.most_um), (167.0, 800.0));
/// ```
pub fn loss_range(rates: Rates, years: f64, metal: MetalLost) -> Result<LossRange, Problem> {
    let mut range = LossRange { least_um: f64::INFINITY, most_um: 0.0 };
    for reading in Reading::ALL {
        let loss = |rate_um_a| loss_um(rate_um_a, years, reading.exponent.b(metal), reading.beyond);
        range.least_um = range.least_um.min(loss(rates.low_um_a.unwrap_or_default())?);
        range.most_um = range.most_um.max(loss(rates.high_um_a)?);
    }
    Ok(range)
}

fn not_negative(name: &str, value: f64, unit: &str) -> Result<(), Problem> {
    if value.is_finite() && value >= 0.0 {
        Ok(())
    } else {
        Err(Problem::out_of_range(name, format!("{value} {unit}"), format!("0 {unit} and above")))
    }
}

fn above_nought(name: &str, value: f64, unit: &str) -> Result<(), Problem> {
    if value.is_finite() && value > 0.0 {
        Ok(())
    } else {
        Err(Problem::out_of_range(name, format!("{value} {unit}"), format!("above 0 {unit}")))
    }
}

fn exponent_in_range(b: f64) -> Result<(), Problem> {
    if b > 0.0 && b <= 1.0 { Ok(()) } else { Err(Problem::out_of_range("b", b, "above 0, up to 1")) }
}
