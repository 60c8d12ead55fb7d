//! EN 1990:2002, Annex D, and EN 1993-1-3:2006, A.6.

use std::str::FromStr;

use super::{Statistics, TestLevel, TestResult, TestSeries, conversion, strays, too_few};
use crate::check::{Standing, term};
use crate::error::{Problem, by_name};
use crate::mechanics::sheet::in_range;

/// Least coefficient of variation where it is not known beforehand, EN 1990:2002, D7.1 (from memory).
pub const LEAST_VARIATION_EN_1990: f64 = 0.10;

/// The law the results are taken to follow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Distribution {
    /// Normal: simple; can come out negative where few results scatter much, and is then refused.
    Normal,
    /// Log-normal: never negative.
    LogNormal,
}

impl Distribution {
    /// Both laws.
    pub const ALL: [Self; 2] = [Self::Normal, Self::LogNormal];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Normal => "normal",
            Self::LogNormal => "log-normal",
        }
    }
}

impl FromStr for Distribution {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("distribution", "distribution", text, &Self::ALL, Self::name)
    }
}

/// What is known of the scatter before the tests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Scatter {
    /// The coefficient of variation, as a ratio (0.08 for 8 %): an upper estimate from earlier, like series.
    Known(f64),
    /// Nothing: the scatter of the results themselves, not less than [`LEAST_VARIATION_EN_1990`].
    Unknown,
}

// EN 1990:2002, Table D1: read at second hand, in a public R function that restates it.
const KN_KNOWN: [(usize, f64); 10] =
    [(1, 2.31), (2, 2.01), (3, 1.89), (4, 1.83), (5, 1.80), (6, 1.77), (8, 1.74), (10, 1.72), (20, 1.68), (30, 1.67)];
const KN_UNKNOWN: [(usize, f64); 8] =
    [(3, 3.37), (4, 2.63), (5, 2.33), (6, 2.18), (8, 2.00), (10, 1.92), (20, 1.76), (30, 1.73)];
// EN 1990:2002, Table D2: from memory.
const KD_KNOWN: [(usize, f64); 10] =
    [(1, 4.36), (2, 3.77), (3, 3.56), (4, 3.44), (5, 3.37), (6, 3.33), (8, 3.27), (10, 3.23), (20, 3.16), (30, 3.13)];
const KD_UNKNOWN: [(usize, f64); 7] = [(4, 11.40), (5, 7.85), (6, 6.36), (8, 5.07), (10, 4.51), (20, 3.64), (30, 3.44)];

/// Fractile factor k<sub>n</sub> for the characteristic value, EN 1990:2002, Table D1 (restated by a secondary text).
///
/// Linear in `n` between the columns, which errs on the safe side. Beyond the last numbered column (30) its value is
/// kept: at most 0.09 above the limit of 1.64. None below the first column.
pub fn k_n(n: usize, scatter: Scatter) -> Option<f64> {
    match scatter {
        Scatter::Known(_) => interpolated(&KN_KNOWN, n),
        Scatter::Unknown => interpolated(&KN_UNKNOWN, n),
    }
}

/// Fractile factor k<sub>d,n</sub> for the design value, EN 1990:2002, Table D2 (from memory); read off as [`k_n`] is.
///
/// Its numbered columns are those of the 0.1 % fractile; beyond 30 its value is kept (limit 3.04).
pub fn k_d_n(n: usize, scatter: Scatter) -> Option<f64> {
    match scatter {
        Scatter::Known(_) => interpolated(&KD_KNOWN, n),
        Scatter::Unknown => interpolated(&KD_UNKNOWN, n),
    }
}

fn interpolated(table: &[(usize, f64)], n: usize) -> Option<f64> {
    let above = table.iter().position(|(column, _)| *column >= n);
    match above {
        Some(0) => table.first().filter(|(column, _)| *column == n).map(|(_, k)| *k),
        Some(i) => {
            let ((n0, k0), (n1, k1)) = (table[i - 1], table[i]);
            Some(k0 + (k1 - k0) * (n - n0) as f64 / (n1 - n0) as f64)
        }
        None => table.last().map(|(_, k)| *k),
    }
}

/// Lower fractile of a normal law, N: `m (1 - k V)`, EN 1990:2002, D7.2 and D7.3.
pub fn normal_fractile_n(mean_n: f64, variation: f64, k: f64) -> f64 {
    mean_n * (1.0 - k * variation)
}

/// Lower fractile of a log-normal law, N: `exp(my - k sy)`, EN 1990:2002, D7.2 and D7.3.
pub fn log_normal_fractile_n(log_mean: f64, log_deviation: f64, k: f64) -> f64 {
    (log_mean - k * log_deviation).exp()
}

/// Deviation of the logarithms for a known coefficient of variation: `sqrt(ln(1 + V^2))`, EN 1990:2002, D7.2.
pub fn log_deviation_of(variation: f64) -> f64 {
    variation.powi(2).ln_1p().sqrt()
}

impl TestSeries {
    /// Characteristic value (5 % fractile), EN 1990:2002, D7.2: `m (1 - kn V)` or `exp(my - kn sy)`.
    ///
    /// Loads on measured coupons are first brought back to the ordered sheet by [`resistance_adjustment`]. An unknown
    /// scatter is taken as not less than [`LEAST_VARIATION_EN_1990`]; a known one as not less than that of the coupons.
    ///
    /// # Errors
    /// Fewer than three results where the scatter is unknown; a known variation outside 0.01 to 0.5; a coupon beyond
    /// the limits of the correction; a normal value that is not above nought.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::joint::by_test::{Distribution, Scatter, TestSeries};
    /// # fn main() -> Result<(), Vec<raisedbody::error::Problem>> {
    /// let series = TestSeries::of_loads(&[3620.0, 3780.0, 3550.0, 3910.0, 3690.0])?;
    /// let rk = series.characteristic(Distribution::LogNormal, Scatter::Unknown)?;
    /// assert!((rk.value_n - 2938.9).abs() < 0.05);
    /// assert!((rk.design(1.0, 1.25)?.value_n - 2351.1).abs() < 0.05);
    /// # Ok(())
    /// # }
    /// ```
    pub fn characteristic(&self, distribution: Distribution, scatter: Scatter) -> Result<TestResult, Vec<Problem>> {
        let k = k_n(self.coupons.len(), scatter);
        let formula = match distribution {
            Distribution::Normal => "R_k = m (1 − k_n V)",
            Distribution::LogNormal => "R_k = exp(m_y − k_n s_y)",
        };
        let needed = "at least 3 where the scatter is not known beforehand";
        let k = k.ok_or_else(|| too_few(self.coupons.len(), needed))?;
        self.fractile(distribution, scatter, ("k_n", k), ("EN 1990:2002 D7.2", formula, TestLevel::Characteristic))
    }

    /// Design value straight from the tests, EN 1990:2002, D7.3: `etad m (1 - kdn V)` or `etad exp(my - kdn sy)`.
    ///
    /// No partial factor comes on top. For cases no partial factor fits; elsewhere D7.2 with its partial factor.
    ///
    /// # Errors
    /// As [`characteristic`](Self::characteristic); fewer than four results where the scatter is unknown; `eta_d`
    /// outside 0.1 to 1.
    pub fn design(&self, distribution: Distribution, scatter: Scatter, eta_d: f64) -> Result<TestResult, Vec<Problem>> {
        conversion(eta_d).map_err(|p| vec![p])?;
        let k = k_d_n(self.coupons.len(), scatter);
        let formula = match distribution {
            Distribution::Normal => "R_d = η_d m (1 − k_d,n V)",
            Distribution::LogNormal => "R_d = η_d exp(m_y − k_d,n s_y)",
        };
        let needed = "at least 4 for a design value where the scatter is not known beforehand";
        let k = k.ok_or_else(|| too_few(self.coupons.len(), needed))?;
        let rule = ("EN 1990:2002 D7.3", formula, TestLevel::Design);
        let mut result = self.fractile(distribution, scatter, ("k_d,n", k), rule)?;
        result.value_n *= eta_d;
        result.terms.push(term("η_d", eta_d, ""));
        Ok(result)
    }

    /// A fractile of the corrected loads, before any conversion factor.
    fn fractile(
        &self,
        distribution: Distribution,
        scatter: Scatter,
        (symbol, k): (&'static str, f64),
        (method, formula, level): (&'static str, &'static str, TestLevel),
    ) -> Result<TestResult, Vec<Problem>> {
        let loads = self.adjusted()?;
        let of = Statistics::of(&loads);
        let observed = of.variation();
        let mut notes = vec![self.correction_note("EN 1993-1-3:2006 A.6.2", of.mean_n)];
        let (variation, log_deviation) = match scatter {
            Scatter::Known(v) => {
                in_range("scatter", Some(v), (0.01, 0.5), "").map_err(|p| vec![p])?;
                let observed = observed.unwrap_or(0.0);
                if observed > v {
                    let note = "these coupons scatter more than the variation said to be known: their own is taken";
                    notes.push(note.to_owned());
                }
                let v = v.max(observed);
                (v, log_deviation_of(v))
            }
            Scatter::Unknown => {
                let floor = LEAST_VARIATION_EN_1990;
                if observed.is_some_and(|o| o < floor) {
                    notes.push(format!("unknown scatter taken as not less than {floor:.2}"));
                }
                // Each form has its own floor, so that neither jumps where the scatter passes it.
                let (v, s_y) = (observed.unwrap_or(floor), of.log_deviation.unwrap_or(0.0));
                (v.max(floor), s_y.max(log_deviation_of(floor)))
            }
        };
        let (value_n, mut terms) = match distribution {
            Distribution::Normal => {
                (normal_fractile_n(of.mean_n, variation, k), vec![term("m", of.mean_n, "N"), term("V", variation, "")])
            }
            Distribution::LogNormal => (
                log_normal_fractile_n(of.log_mean, log_deviation, k),
                vec![term("m_y", of.log_mean, "ln N"), term("s_y", log_deviation, "")],
            ),
        };
        if value_n <= 0.0 {
            return Err(vec![not_above_nought(value_n)]);
        }
        terms.extend([term(symbol, k, ""), term("n", of.n as f64, "")]);
        Ok(TestResult {
            value_n,
            level,
            method,
            n: of.n,
            mean_n: of.mean_n,
            variation: Some(variation),
            formula,
            terms,
            notes,
            standing: self.adjusted_standing(),
        })
    }

    /// Characteristic value, EN 1993-1-3:2006, A.6.3: `Rk = Rm - k s` from four results on (read in the source; k,
    /// the row of k<sub>n</sub> for an unknown scatter, from memory and to be confirmed; no floor on the scatter is
    /// stated).
    ///
    /// With fewer (A.6.3.3, from memory): `0.9 etak Radj` from one, `etak Rm` from two or three that lie within 10 %
    /// of their mean. `eta_k` goes by the way of failing, 0.7 to 0.9; 0.7 is safe where it is not known. It is not
    /// used from four results on.
    ///
    /// # Errors
    /// `eta_k` outside 0.7 to 0.9; two or three results farther apart; a coupon beyond the limits of the correction; a
    /// value that is not above nought.
    pub fn characteristic_en_1993_1_3(&self, eta_k: f64) -> Result<TestResult, Vec<Problem>> {
        in_range("eta_k", Some(eta_k), (0.7, 0.9), "").map_err(|p| vec![p])?;
        let loads = self.adjusted()?;
        let of = Statistics::of(&loads);
        let m = of.mean_n;
        let count = term("n", of.n as f64, "");
        let few = [term("η_k", eta_k, ""), term("R_m", m, "N"), count];
        let (value_n, formula, terms, variation) = match (of.deviation_n, k_n(of.n, Scatter::Unknown)) {
            (None, _) => (0.9 * eta_k * m, "R_k = 0.9 η_k R_adj", few.to_vec(), None),
            (Some(s), Some(k)) if of.n >= 4 => {
                let terms = vec![term("R_m", m, "N"), term("k", k, ""), term("s", s, "N"), count];
                (m - k * s, "R_k = R_m − k s", terms, of.variation())
            }
            _ => {
                if let Some((i, load)) = farthest(&loads, m).filter(|(_, load)| strays(*load, m, 0.10)) {
                    return Err(vec![Problem::out_of_range(
                        format!("coupons[{i}].load"),
                        format!("{load:.0} N"),
                        format!("within 10 % of the mean of {m:.0} N where there are 2 or 3 results; pull at least 4"),
                    )]);
                }
                (eta_k * m, "R_k = η_k R_m", few.to_vec(), None)
            }
        };
        if value_n <= 0.0 {
            return Err(vec![not_above_nought(value_n)]);
        }
        Ok(TestResult {
            value_n,
            level: TestLevel::Characteristic,
            method: "EN 1993-1-3:2006 A.6.3",
            n: of.n,
            mean_n: m,
            variation,
            formula,
            terms,
            notes: vec![self.correction_note("EN 1993-1-3:2006 A.6.2", m)],
            standing: self.adjusted_standing(),
        })
    }

    /// The loads, each divided by its own adjustment, N.
    fn adjusted(&self) -> Result<Vec<f64>, Vec<Problem>> {
        if let Some(pooled) = self.pooled() {
            return Ok(pooled);
        }
        let mut problems = Vec::new();
        let mut loads = Vec::with_capacity(self.coupons.len());
        for (i, (coupon, thickness, strength)) in self.ratios().enumerate() {
            // A ratio of exactly 1.12 must not fail by the rounding of its division.
            let slack = 1e-9;
            if thickness.is_some_and(|r| !(0.88 - slack..=1.12 + slack).contains(&r)) {
                problems.push(beyond(
                    i,
                    "thickness",
                    coupon.thickness_mm,
                    "mm",
                    "within 12 % of the ordered thickness",
                ));
            }
            if strength.is_some_and(|r| r < 0.75 - slack) {
                problems.push(beyond(
                    i,
                    "strength",
                    coupon.strength_mpa,
                    "MPa",
                    "at least 0.75 of the ordered strength",
                ));
            }
            loads.push(coupon.load_n / resistance_adjustment(thickness.unwrap_or(1.0), strength.unwrap_or(1.0)));
        }
        if problems.is_empty() { Ok(loads) } else { Err(problems) }
    }

    /// The rules are from memory; putting the tensile in place of the yield strength is a judgement besides.
    fn adjusted_standing(&self) -> Standing {
        let by_strength = self.coupons.iter().any(|c| c.strength_mpa.is_some());
        if by_strength { Standing::Memory.with(Standing::Assumed) } else { Standing::Memory }
    }
}

/// Adjustment of a result to the ordered sheet, EN 1993-1-3:2006, A.6.2: `muR = (fobs/f)^a (tobs/t)^b`, `Radj =
/// Robs/muR`.
///
/// `thickness_ratio` and `strength_ratio` are measured over ordered. `a` is 0 where the coupon is not stronger than
/// ordered, else 1 (read in the source, for the yield strength; the tensile strength stands in for it, a judgement,
/// since it governs bearing). `b` is 1 or 2 (from memory, to be confirmed): the one that gives less resistance is
/// taken, 1 on a thinner and 2 on a thicker coupon. The routes of [`TestSeries`] hold to the clause's limits,
/// thickness at most 12 % over and strength at least 0.75 of the ordered one (read in the source), and refuse more
/// than 12 % under as well, a judgement: there the adjustment would raise the result.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::by_test::resistance_adjustment;
/// assert!((resistance_adjustment(1.10, 1.05) - 1.2705).abs() < 1e-12);
/// assert!((resistance_adjustment(0.95, 0.90) - 0.95).abs() < 1e-12);
/// ```
pub fn resistance_adjustment(thickness_ratio: f64, strength_ratio: f64) -> f64 {
    let by_thickness = if thickness_ratio > 1.0 { thickness_ratio.powi(2) } else { thickness_ratio };
    strength_ratio.max(1.0) * by_thickness
}

fn farthest(loads_n: &[f64], mean_n: f64) -> Option<(usize, f64)> {
    let away = |load: &f64| (load - mean_n).abs();
    loads_n.iter().copied().enumerate().max_by(|a, b| away(&a.1).total_cmp(&away(&b.1)))
}

fn beyond(i: usize, name: &str, value: Option<f64>, unit: &str, allowed: &str) -> Problem {
    let value = value.map_or_else(String::new, |v| format!("{v} {unit}"));
    Problem::out_of_range(format!("coupons[{i}].{name}"), value, format!("{allowed} (EN 1993-1-3 A.6.2)"))
}

fn not_above_nought(value_n: f64) -> Problem {
    Problem::contradiction(
        "coupons",
        format!("{value_n:.0} N"),
        "a normal law gives no resistance here: too few results for their scatter; take the log-normal form of \
         EN 1990 or pull more coupons",
    )
}
