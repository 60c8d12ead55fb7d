//! Welds in sheet: lap fillets and butts, as for the splice of a post. All clauses are cited from memory.
//!
//! A weld burns the zinc off on both sides of it: see the coating outlook for what that costs.

use crate::error::Problem;

use super::super::sheet::in_range;
use super::{Format, aisi_s100::Factor, en_1993_1_3::GAMMA_M2};

/// A lap of two sheets joined by fillet welds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LapWeld {
    /// The thinner sheet, mm.
    pub thickness_mm: f64,
    /// Length of each weld, mm.
    pub length_mm: f64,
    /// Width of the sheet across the pull, mm.
    pub width_mm: f64,
    /// Tensile strength of the weaker sheet, MPa.
    pub fu_mpa: f64,
}

impl LapWeld {
    /// Whether the rules are for a lap like this.
    ///
    /// # Errors
    /// A sheet above 4 mm (EN 1993-1-3, 8.5.1) or below 0.45 mm; a length or width that no lap has; a strength above 550 MPa.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let problems: Vec<Problem> = [
            in_range("thickness", Some(self.thickness_mm), (0.45, 4.0), "mm"),
            in_range("length", Some(self.length_mm), (5.0, 1000.0), "mm"),
            in_range("width", Some(self.width_mm), (5.0, 1000.0), "mm"),
            in_range("fu", Some(self.fu_mpa), (20.0, 550.0), "MPa"),
        ]
        .into_iter()
        .filter_map(Result::err)
        .collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// Design resistance of a pair of side fillets, along the pull, one on each edge, N: t L (0.9 − 0.45 L/b)
    /// f<sub>u</sub>/γ<sub>M2</sub> for L up to b, 0.45 t b f<sub>u</sub>/γ<sub>M2</sub> beyond.
    ///
    /// EN 1993-1-3:2006, 8.5.2 (8.4a, 8.4b).
    pub fn side_pair_n(&self) -> f64 {
        let Self { thickness_mm: t, length_mm: l, width_mm: b, fu_mpa: fu } = *self;
        let effective_mm = if l <= b { l * (0.9 - 0.45 * l / b) } else { 0.45 * b };
        t * effective_mm * fu / GAMMA_M2
    }

    /// Design resistance of one end fillet, across the pull, N: t L (1 − 0.3 L/b) f<sub>u</sub>/γ<sub>M2</sub>, L at most b.
    ///
    /// EN 1993-1-3:2006, 8.5.2 (8.4c).
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::joint::weld::LapWeld;
    /// let weld = LapWeld { thickness_mm: 1.5, length_mm: 40.0, width_mm: 40.0, fu_mpa: 360.0 };
    /// assert!((weld.end_n() - 12_096.0).abs() < 1e-6);
    /// ```
    pub fn end_n(&self) -> f64 {
        let l = self.length_mm.min(self.width_mm);
        self.thickness_mm * l * (1.0 - 0.3 * l / self.width_mm) * self.fu_mpa / GAMMA_M2
    }

    /// Strength of one fillet along the pull, N: (1 − 0.01 L/t) L t F<sub>u</sub> for L/t below 25 (Ω 2.55), 0.75 L t
    /// F<sub>u</sub> beyond (Ω 3.05). AISI S100-16, J2.5.
    pub fn aisi_along_n(&self, format: Format) -> f64 {
        let Self { thickness_mm: t, length_mm: l, fu_mpa: fu, .. } = *self;
        let slender = l / t;
        let (nominal, factor) = if slender < 25.0 {
            ((1.0 - 0.01 * slender) * l * t * fu, Factor { omega: 2.55, phi: 0.60 })
        } else {
            (0.75 * l * t * fu, Factor { omega: 3.05, phi: 0.50 })
        };
        factor.available(nominal, format)
    }

    /// Strength of one fillet across the pull, N: L t F<sub>u</sub> (Ω 2.35). AISI S100-16, J2.5.
    pub fn aisi_across_n(&self, format: Format) -> f64 {
        let nominal = self.length_mm * self.thickness_mm * self.fu_mpa;
        Factor { omega: 2.35, phi: 0.65 }.available(nominal, format)
    }
}

/// Strength of a butt weld through the whole thickness, N: L t F<sub>y</sub>. AISI S100-16, J2.1 (nominal).
pub fn butt_n(length_mm: f64, thickness_mm: f64, fy_mpa: f64) -> f64 {
    length_mm * thickness_mm * fy_mpa
}
