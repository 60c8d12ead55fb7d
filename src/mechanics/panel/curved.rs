//! Curved panels compressed along the axis of the curve.

use crate::check::Standing;
use crate::error::Problem;

use super::{Edges, Panel};

/// Radius over thickness above which tests fall well below theory.
pub const THIN_SHELL: f64 = 500.0;
/// Tests over theory there, the lowest and the highest; from memory.
pub const TEST_SHARE: (f64, f64) = (0.2, 0.6);

/// Buckling stress of the panel laid flat, long and with simple edges, MPa: `σ_f = 4 π² E / (12 (1 - ν²)) (t/b)²`.
pub fn flat_stress_mpa(panel: &Panel) -> f64 {
    super::critical_stress_mpa(4.0, panel, panel.b_mm)
}

/// Buckling stress of the whole cylinder, MPa: `σ_c = E t / (R √(3 (1 - ν²)))`, 0.605 E t/R for ν 0.3.
pub fn shell_stress_mpa(panel: &Panel, radius_mm: f64) -> f64 {
    panel.modulus_mpa * panel.thickness_mm / (radius_mm * (3.0 * (1.0 - panel.poisson.powi(2))).sqrt())
}

/// Redshaw's buckling stress of a curved panel, MPa: `σ_f/2 + √(σ_f²/4 + σ_c²)` (from memory).
pub fn redshaw_mpa(flat_mpa: f64, shell_mpa: f64) -> f64 {
    flat_mpa / 2.0 + (flat_mpa.powi(2) / 4.0 + shell_mpa.powi(2)).sqrt()
}

/// Timoshenko's, MPa: `σ_f + σ_c²/(4 σ_f)` where `σ_c ≤ 2 σ_f`, else `σ_c` (from memory).
pub fn timoshenko_mpa(flat_mpa: f64, shell_mpa: f64) -> f64 {
    if shell_mpa <= 2.0 * flat_mpa { flat_mpa + shell_mpa.powi(2) / (4.0 * flat_mpa) } else { shell_mpa }
}

/// A curved panel by both rules, side by side: Redshaw's is up to a third higher (where `σ_c` is 1.41 `σ_f`).
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Curved {
    /// Laid flat, MPa.
    pub flat_mpa: f64,
    /// The whole cylinder, MPa.
    pub shell_mpa: f64,
    /// By Redshaw, MPa.
    pub redshaw_mpa: f64,
    /// By Timoshenko, MPa.
    pub timoshenko_mpa: f64,
    /// What tests leave of the lower of both, lowest and highest, MPa: knocked down where the radius is above 500
    /// thicknesses, though never below the flat panel.
    pub expected_mpa: (f64, f64),
    /// Whether it was knocked down.
    pub knocked_down: bool,
    /// Where all this is from.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

impl Panel {
    /// Buckling of a curved panel compressed along `a`, the axis of its curve; long and with simple edges.
    ///
    /// # Errors
    /// A flat panel; other edges; a panel shorter than wide.
    pub fn curved(&self) -> Result<Curved, Vec<Problem>> {
        let Some(radius_mm) = self.radius_mm else {
            return Err(vec![Problem::missing("radius", "give the radius of the curved panel")]);
        };
        let mut problems = Vec::new();
        if self.edges != Edges::Simple {
            let allowed =
                "\"simple\": the rules of curved panels take edges that are free to turn, a lower bound for others";
            problems.push(Problem::out_of_range("edges", format!("\"{}\"", self.edges), allowed));
        }
        if self.a_mm < self.b_mm * (1.0 - 1e-9) {
            let allowed = "b and more: the rules take a panel that is at least as long as wide";
            problems.push(Problem::out_of_range("a", format!("{} mm", self.a_mm), allowed));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let (flat_mpa, shell_mpa) = (flat_stress_mpa(self), shell_stress_mpa(self, radius_mm));
        let (redshaw_mpa, timoshenko_mpa) = (redshaw_mpa(flat_mpa, shell_mpa), timoshenko_mpa(flat_mpa, shell_mpa));
        let (low, high) = (redshaw_mpa.min(timoshenko_mpa), redshaw_mpa.max(timoshenko_mpa));
        let knocked_down = radius_mm > THIN_SHELL * self.thickness_mm;
        let tested = |share: f64| (share * low).max(flat_mpa);
        let expected_mpa = if knocked_down { (tested(TEST_SHARE.0), tested(TEST_SHARE.1)) } else { (low, high) };
        Ok(Curved {
            flat_mpa,
            shell_mpa,
            redshaw_mpa,
            timoshenko_mpa,
            expected_mpa,
            knocked_down,
            source: "Redshaw and Timoshenko, from memory; tests of shells with R/t above 500 at 0.2 to 0.6 of theory, from \
                memory",
            standing: Standing::Memory,
        })
    }
}
