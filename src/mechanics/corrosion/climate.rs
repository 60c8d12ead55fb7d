//! The first year's loss from the climate of a place: the dose-response functions of ISO 9223.

use crate::catalogue::MetalLost;
use crate::check::Standing;
use crate::error::Problem;

use super::Rates;

/// The air of a place over a year: means, not extremes, and of a place, not of a season.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Climate {
    /// Temperature, degrees Celsius.
    pub temperature_deg_c: f64,
    /// Relative humidity, %.
    pub humidity_percent: f64,
    /// Deposition of sulphur dioxide, mg/(m2 d).
    pub so2_mg_m2_d: f64,
    /// Deposition of chloride, mg/(m2 d).
    pub chloride_mg_m2_d: f64,
}

/// The ranges that the functions were fitted over: ISO 9223:2012, table 3, as transcribed in
/// github.com/Institute-of-Surface-Science/CorWiz, data/tables/din-en-iso-92232012-05_tables_table_3.csv.
pub const TEMPERATURE_DEG_C: (f64, f64) = (-17.1, 28.7);
/// Of the relative humidity, %.
pub const HUMIDITY_PERCENT: (f64, f64) = (34.0, 93.0);
/// Of the deposition of sulphur dioxide, mg/(m2 d).
pub const SO2_MG_M2_D: (f64, f64) = (0.7, 150.4);
/// Of the deposition of chloride, mg/(m2 d).
pub const CHLORIDE_MG_M2_D: (f64, f64) = (0.4, 760.5);

impl Climate {
    /// What lies outside the ranges that the functions were fitted over; `path` names the climate.
    ///
    /// # Errors
    /// Every value outside its range, all at once.
    pub fn within(&self, path: &str) -> Result<(), Vec<Problem>> {
        let rows = [
            ("temperature", self.temperature_deg_c, TEMPERATURE_DEG_C, "degC"),
            ("humidity", self.humidity_percent, HUMIDITY_PERCENT, "%"),
            ("so2", self.so2_mg_m2_d, SO2_MG_M2_D, "mg/m2/d"),
            ("chloride", self.chloride_mg_m2_d, CHLORIDE_MG_M2_D, "mg/m2/d"),
        ];
        let problems: Vec<Problem> = rows
            .into_iter()
            .filter(|(_, value, (least, most), _)| !(least..=most).contains(&value))
            .map(|(name, value, (least, most), unit)| {
                let field = if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
                // 75 without its sign would be 7500 %.
                let sign = if unit == "%" { " (write \"75 %\")" } else { "" };
                let allowed = format!(
                    "{least} to {most} {unit}{sign}, the range of ISO 9223:2012, table 3; outside it name a category instead"
                );
                Problem::out_of_range(field, format!("{value} {unit}"), allowed)
            })
            .collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}

/// Coefficients of one metal's function: two terms, of sulphur dioxide and of chloride.
struct Function {
    so2: Term,
    /// Of `T - 10` in the first exponent, up to 10 degrees Celsius and above.
    around_10: (f64, f64),
    chloride: Term,
    /// Of `T` in the second exponent.
    chloride_per_k: f64,
    /// Exponent of chloride and coefficient of `T` as another source prints them.
    other_chloride: Option<(f64, f64)>,
    /// Least and most share of the estimate that the truth may be, ISO 9223:2012, table A.1 (from memory).
    level: (f64, f64),
    standing: Standing,
}

struct Term {
    factor: f64,
    exponent: f64,
    per_percent: f64,
}

const fn term(factor: f64, exponent: f64, per_percent: f64) -> Term {
    Term { factor, exponent, per_percent }
}

// Table A.1 of ISO 9223:2012, uncertainty of an estimate by dose-response function, from memory.
const STRUCTURAL: (f64, f64) = (0.67, 1.5);
const ALUMINIUM: (f64, f64) = (0.5, 2.0);

/// ISO 9223:2012, equations 1 to 4: steel, zinc, copper, aluminium.
fn function(metal: MetalLost) -> Function {
    match metal {
        // Restated by a research code.
        MetalLost::Steel => Function {
            so2: term(1.77, 0.52, 0.020),
            around_10: (0.150, -0.054),
            chloride: term(0.102, 0.62, 0.033),
            chloride_per_k: 0.040,
            other_chloride: None,
            level: STRUCTURAL,
            standing: Standing::Memory,
        },
        // The first term restated by a public script; the second from memory. That script prints S_d^0.52 and 0.038 T
        // in the second: then the hottest, saltiest air of the range would be C5 for zinc where it is CX for steel. In
        // the cold that form is the greater one. The range spans both.
        MetalLost::Zinc => Function {
            so2: term(0.0129, 0.44, 0.046),
            around_10: (0.038, -0.071),
            chloride: term(0.0175, 0.57, 0.008),
            chloride_per_k: 0.085,
            other_chloride: Some((0.52, 0.038)),
            level: STRUCTURAL,
            standing: Standing::Memory,
        },
        MetalLost::Copper => Function {
            so2: term(0.0053, 0.26, 0.059),
            around_10: (0.126, -0.080),
            chloride: term(0.01025, 0.27, 0.036),
            chloride_per_k: 0.049,
            other_chloride: None,
            level: STRUCTURAL,
            standing: Standing::Memory,
        },
        MetalLost::Aluminium => Function {
            so2: term(0.0042, 0.73, 0.025),
            around_10: (0.009, -0.043),
            chloride: term(0.0018, 0.60, 0.020),
            chloride_per_k: 0.094,
            other_chloride: None,
            level: ALUMINIUM,
            standing: Standing::Memory,
        },
    }
}

/// The first year's loss of an openly exposed plate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstYear {
    /// By the dose-response function, µm/a.
    pub rate_um_a: f64,
    /// The part of it that sulphur dioxide does, µm/a.
    pub so2_um_a: f64,
    /// The part that chloride does, µm/a.
    pub chloride_um_a: f64,
    /// By the other form of the function in circulation, µm/a, where there is one: for zinc.
    pub alternative_um_a: Option<f64>,
    /// The least and the most that it may be, as the standard states the uncertainty of such an estimate.
    pub range: Rates,
    /// How the coefficients are known.
    pub standing: Standing,
}

/// The first year's loss of a metal by the climate.
///
/// ISO 9223:2012, equations 1 to 4: `r = a P_d^b exp(c RH + f) + d S_d^e exp(g RH + h T)`, with `f` a slope on `T - 10` that
/// changes at 10 °C. The range is that of table A.1 (from memory): -33 to +50 % for steel, zinc and copper, -50 to +100 % for
/// aluminium, whose depth says little for it pits. Plates in the open: a bus in its own salt spray is another matter.
///
/// # Errors
/// Every value outside the range of table 3: nothing is extrapolated.
///
/// # Example
/// ```
/// use raisedbody::catalogue::MetalLost;
/// use raisedbody::mechanics::corrosion::{Climate, first_year};
/// let air =
///     Climate { temperature_deg_c: 10.0, humidity_percent: 75.0, so2_mg_m2_d: 10.0, chloride_mg_m2_d: 3.0 };
/// let steel = first_year(air, MetalLost::Steel).unwrap();
/// assert!((steel.rate_um_a - 29.84).abs() < 0.005);
/// assert!((steel.range.high_um_a - 44.76).abs() < 0.01);
/// ```
pub fn first_year(climate: Climate, metal: MetalLost) -> Result<FirstYear, Vec<Problem>> {
    climate.within("climate")?;
    let own = function(metal);
    let beyond_10 = climate.temperature_deg_c - 10.0;
    let slope = if beyond_10 <= 0.0 { own.around_10.0 } else { own.around_10.1 };
    let one = |term: &Term, dose: f64, by_temperature: f64| {
        term.factor * dose.powf(term.exponent) * (term.per_percent * climate.humidity_percent + by_temperature).exp()
    };
    let so2_um_a = one(&own.so2, climate.so2_mg_m2_d, slope * beyond_10);
    let by_heat = own.chloride_per_k * climate.temperature_deg_c;
    let chloride_um_a = one(&own.chloride, climate.chloride_mg_m2_d, by_heat);
    let rate_um_a = so2_um_a + chloride_um_a;
    let (least, most) = own.level;
    let other = |(exponent, per_k): (f64, f64)| {
        let term = Term { exponent, ..own.chloride };
        so2_um_a + one(&term, climate.chloride_mg_m2_d, per_k * climate.temperature_deg_c)
    };
    let alternative_um_a = own.other_chloride.map(other);
    let lower_um_a = alternative_um_a.map_or(rate_um_a, |other_um_a| rate_um_a.min(other_um_a));
    let upper_um_a = alternative_um_a.map_or(rate_um_a, |other_um_a| rate_um_a.max(other_um_a));
    let range = Rates { low_um_a: Some(least * lower_um_a), high_um_a: most * upper_um_a };
    Ok(FirstYear { rate_um_a, so2_um_a, chloride_um_a, alternative_um_a, range, standing: own.standing })
}
