//! AISI S100-16, K2.1: nominal strength and its factors from tests. From memory throughout.

use std::str::FromStr;

use super::{Coupon, Statistics, TestLevel, TestResult, TestSeries, strays, too_few};
use crate::check::{Standing, term};
use crate::error::{Problem, by_name};

/// Least coefficient of variation of test results, AISI S100-16, K2.1.1 (from memory).
pub const LEAST_VARIATION_AISI_S100: f64 = 0.065;

/// Which connection was tested: row of AISI S100-16, Table K2.1.1-1 (from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum ConnectionKind {
    /// Bolts: shear, tension, bearing, net section, edge.
    Bolt,
    /// Screws: tilting and bearing.
    ScrewTiltingAndBearing,
    /// Screws: shear, tension, pull-out, pull-over, edge, net section.
    ScrewOther,
    /// Fillet welds, failure of the plate.
    FilletWeld,
    /// Connections the table does not list; blind rivets are among them.
    #[default]
    NotListed,
}

/// Means and coefficients of variation of material and fabrication.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MaterialAndFabrication {
    /// Mean of the material factor, M<sub>m</sub>.
    pub material: f64,
    /// Its coefficient of variation, V<sub>M</sub>.
    pub material_variation: f64,
    /// Mean of the fabrication factor, F<sub>m</sub>.
    pub fabrication: f64,
    /// Its coefficient of variation, V<sub>F</sub>.
    pub fabrication_variation: f64,
}

impl FromStr for ConnectionKind {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("connection", "connection", text, &Self::ALL, Self::name)
    }
}

impl ConnectionKind {
    /// Every row.
    pub const ALL: [Self; 5] =
        [Self::Bolt, Self::ScrewTiltingAndBearing, Self::ScrewOther, Self::FilletWeld, Self::NotListed];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Bolt => "bolt",
            Self::ScrewTiltingAndBearing => "screw, tilting and bearing",
            Self::ScrewOther => "screw, other",
            Self::FilletWeld => "fillet weld",
            Self::NotListed => "not listed",
        }
    }

    /// The table's row, AISI S100-16, Table K2.1.1-1 (from memory).
    pub const fn factors(self) -> MaterialAndFabrication {
        let (material_variation, fabrication_variation) = match self {
            Self::Bolt | Self::ScrewTiltingAndBearing => (0.08, 0.05),
            Self::ScrewOther => (0.10, 0.10),
            Self::FilletWeld => (0.08, 0.15),
            Self::NotListed => (0.10, 0.15),
        };
        MaterialAndFabrication { material: 1.10, material_variation, fabrication: 1.00, fabrication_variation }
    }
}

/// C<sub>P</sub> for the number of tests, AISI S100-16, K2.1.1: `(1 + 1/n) m / (m - 2)` with `m = n - 1` from four
/// tests, 5.7 for three; none below (from memory).
pub fn few_tests_factor(n: usize) -> Option<f64> {
    match n {
        0..=2 => None,
        3 => Some(5.7),
        _ => {
            let (n, m) = (n as f64, (n - 1) as f64);
            Some((1.0 + 1.0 / n) * m / (m - 2.0))
        }
    }
}

/// Resistance factor φ (LRFD), AISI S100-16, K2.1.1 (from memory); none for fewer than three tests. `Omega = 1.6 /
/// phi`.
///
/// `phi = Cphi Mm Fm Pm exp(-bo sqrt(VM^2 + VF^2 + CP VP^2 + VQ^2))` with Cphi 1.52, bo 3.5 for connections, VQ 0.21,
/// and Pm 1.0 because the nominal resistance is the mean of the tests themselves. `variation` is V<sub>P</sub>, a
/// ratio; less than [`LEAST_VARIATION_AISI_S100`] is raised to it.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::by_test::{ConnectionKind, resistance_factor};
/// let phi = resistance_factor(ConnectionKind::NotListed, 3, 0.065).unwrap_or_default();
/// assert!((phi - 0.551).abs() < 0.0005);
/// ```
pub fn resistance_factor(kind: ConnectionKind, n: usize, variation: f64) -> Option<f64> {
    let f = kind.factors();
    let v_p = variation.max(LEAST_VARIATION_AISI_S100);
    let spread = f.material_variation.powi(2) + f.fabrication_variation.powi(2) + few_tests_factor(n)? * v_p.powi(2);
    Some(1.52 * f.material * f.fabrication * (-3.5 * (spread + 0.21_f64.powi(2)).sqrt()).exp())
}

impl TestSeries {
    /// Nominal strength with its φ and Ω for connections, AISI S100-16, K2.1: the mean of at least three tests.
    ///
    /// Where any result lies more than 15 % from the mean, at least three more are needed, six in all; then the mean of
    /// all counts. Loads on measured coupons are scaled down to the ordered sheet, never up (K2.1.1): in proportion to
    /// the strength, and to the thickness to the power 1.5, the steepest of the strengths in J4.3.1 (a judgement).
    ///
    /// # Errors
    /// Fewer than three results; fewer than six where they scatter by more than 15 %.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::joint::by_test::{ConnectionKind, TestSeries};
    /// # fn main() -> Result<(), Vec<raisedbody::error::Problem>> {
    /// let series = TestSeries::of_loads(&[3620.0, 3780.0, 3550.0, 3910.0, 3690.0])?;
    /// let nominal = series.nominal_aisi_s100(ConnectionKind::NotListed)?;
    /// assert!((nominal.allowable_n().map_err(|p| vec![p])? - 1383.0).abs() < 0.05);
    /// assert!(nominal.design_n().is_err(), "a nominal value is not a design value");
    /// # Ok(())
    /// # }
    /// ```
    pub fn nominal_aisi_s100(&self, kind: ConnectionKind) -> Result<TestResult, Vec<Problem>> {
        let down = |ratio: Option<f64>| ratio.unwrap_or(1.0).max(1.0);
        let scaled = |(coupon, thickness, strength): (&Coupon, Option<f64>, Option<f64>)| {
            coupon.load_n / (down(thickness).powf(1.5) * down(strength))
        };
        // A formula confirmed by its tests, Pm times the prediction, is the mean of the pooled loads.
        let loads = self.pooled().unwrap_or_else(|| self.ratios().map(scaled).collect());
        let of = Statistics::of(&loads);
        let (n, m) = (of.n, of.mean_n);
        let observed = of.variation().unwrap_or(0.0);
        let factors = few_tests_factor(n).zip(resistance_factor(kind, n, observed));
        let (c_p, phi) = factors.ok_or_else(|| too_few(n, "at least 3 (AISI S100 K2.1.1)"))?;
        if let (true, Some((i, load))) = (n < 6, loads.iter().enumerate().find(|(_, load)| strays(**load, m, 0.15))) {
            return Err(vec![Problem::out_of_range(
                format!("coupons[{i}].load"),
                format!("{load:.0} N"),
                format!(
                    "within 15 % of the mean of {m:.0} N; else pull at least 3 more, 6 in all, and enter all of them"
                ),
            )]);
        }
        let v_p = observed.max(LEAST_VARIATION_AISI_S100);
        let f = kind.factors();
        let mut notes = vec![self.correction_note("AISI S100-16 K2.1.1, down only", m)];
        if observed < LEAST_VARIATION_AISI_S100 {
            notes.push(format!("scatter taken as not less than {LEAST_VARIATION_AISI_S100}"));
        }
        let measured = self.coupons.iter().any(|c| c.thickness_mm.is_some());
        let omega = 1.6 / phi;
        Ok(TestResult {
            value_n: m,
            level: TestLevel::Nominal { phi, omega },
            method: "AISI S100-16 K2.1",
            n,
            mean_n: m,
            variation: Some(v_p),
            formula: "φ = 1.52 M_m F_m P_m exp(−3.5 √(V_M² + V_F² + C_P V_P² + 0.21²)), Ω = 1.6/φ, R_n = mean",
            terms: vec![
                term("R_n", m, "N"),
                term("n", n as f64, ""),
                term("M_m", f.material, ""),
                term("V_M", f.material_variation, ""),
                term("F_m", f.fabrication, ""),
                term("V_F", f.fabrication_variation, ""),
                term("P_m", 1.0, ""),
                term("C_P", c_p, ""),
                term("V_P", v_p, ""),
                term("φ", phi, ""),
                term("Ω", omega, ""),
            ],
            notes,
            standing: if measured { Standing::Memory.with(Standing::Assumed) } else { Standing::Memory },
        })
    }
}
