//! Welds in sheet: lap fillets, plugs and butts, as for the splice of a post. All clauses are cited from memory.
//!
//! A weld burns the zinc off on both sides of it: see the coating outlook for what that costs.

use std::f64::consts::FRAC_PI_4;

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

/// A plug weld: a hole drilled in one sheet and filled onto the sheet behind it.
///
/// EN 1993-1-8, 4.8, is for parts of 4 mm and more; for sheet the rules of EN 1993-1-3, 8.5.3, for arc spots are used, with
/// the hole for the spot's diameter at the joint face and at the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlugWeld {
    /// Hole, mm.
    pub hole_mm: f64,
    /// The thinner of the two sheets, mm.
    pub thickness_mm: f64,
    /// Tensile strength of the weaker sheet, MPa.
    pub fu_mpa: f64,
    /// Tensile strength of the filler metal, MPa.
    pub weld_fu_mpa: f64,
    /// Middle of the hole to the nearest edge that it pulls towards, mm.
    pub edge_mm: f64,
}

impl PlugWeld {
    /// Whether the rules are for a weld like this.
    ///
    /// # Errors
    /// A hole below 10 mm (EN 1993-1-3, 8.5.3) or above 30 mm; a sheet above 4 mm (8.5.1) or below 0.45 mm; strengths that no
    /// sheet or filler has; an edge within the hole.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let problems: Vec<Problem> = [
            in_range("hole", Some(self.hole_mm), (10.0, 30.0), "mm"),
            in_range("thickness", Some(self.thickness_mm), (0.45, 4.0), "mm"),
            in_range("fu", Some(self.fu_mpa), (20.0, 550.0), "MPa"),
            in_range("weld_fu", Some(self.weld_fu_mpa), (300.0, 900.0), "MPa"),
            in_range("edge", Some(self.edge_mm), (0.5 * self.hole_mm, 1000.0), "mm"),
        ]
        .into_iter()
        .filter_map(Result::err)
        .collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// Design resistance of the weld itself to shear, N: π/4 d² 0.625 f<sub>uw</sub>/γ<sub>M2</sub>.
    ///
    /// EN 1993-1-3:2006, 8.5.3.
    pub fn weld_n(&self) -> f64 {
        FRAC_PI_4 * self.hole_mm.powi(2) * 0.625 * self.weld_fu_mpa / GAMMA_M2
    }

    /// Design resistance of the sheet around the weld, N, with d<sub>p</sub> = d − t: 1.5 d<sub>p</sub> t f<sub>u</sub> up to
    /// d<sub>p</sub>/t of 18 √(420/f<sub>u</sub>), 0.9 d<sub>p</sub> t f<sub>u</sub> from 30 √(420/f<sub>u</sub>), 27
    /// √(420/f<sub>u</sub>) t² f<sub>u</sub> between, over γ<sub>M2</sub>.
    ///
    /// EN 1993-1-3:2006, 8.5.3.
    pub fn sheet_n(&self) -> f64 {
        let (t, fu) = (self.thickness_mm, self.fu_mpa);
        let (dp, root) = (self.hole_mm - t, (420.0 / fu).sqrt());
        let strength_n = if dp / t <= 18.0 * root {
            1.5 * dp * t * fu
        } else if dp / t < 30.0 * root {
            27.0 * root * t * t * fu
        } else {
            0.9 * dp * t * fu
        };
        strength_n / GAMMA_M2
    }

    /// Design resistance of the sheet between weld and edge, N: e t f<sub>u</sub>/(2.1 γ<sub>M2</sub>), the least edge distance
    /// of EN 1993-1-3:2006, 8.5.3, solved for the force, with the larger of its two factors.
    pub fn edge_n(&self) -> f64 {
        self.edge_mm * self.thickness_mm * self.fu_mpa / (2.1 * GAMMA_M2)
    }

    /// The least of the three, N.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::joint::weld::PlugWeld;
    /// let weld =
    ///     PlugWeld { hole_mm: 10.0, thickness_mm: 1.5, fu_mpa: 360.0, weld_fu_mpa: 480.0, edge_mm: 20.0 };
    /// assert!((weld.shear_n() - 20.0 * 1.5 * 360.0 / (2.1 * 1.25)).abs() < 1e-9);
    /// ```
    pub fn shear_n(&self) -> f64 {
        self.weld_n().min(self.sheet_n()).min(self.edge_n())
    }
}

/// Strength of a butt weld through the whole thickness, N: L t F<sub>y</sub>. AISI S100-16, J2.1 (nominal).
pub fn butt_n(length_mm: f64, thickness_mm: f64, fy_mpa: f64) -> f64 {
    length_mm * thickness_mm * fy_mpa
}
