//! Springback: the radius that a bend opens to when it is let go, and the radius to roll to for the one that is wanted.

use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::bend::all;
use super::{RADIUS_MM, THICKNESS_MM};

/// Yield in plane strain over yield in tension, 2/√3 rounded as the trade does (from memory).
const PLANE_STRAIN_YIELD: f64 = 1.15;

/// From this `x` on the sheet springs back flat: it was never bent past yield.
const NO_SET: f64 = 0.5;

/// A sheet that springs back.
///
/// `R_i / R_f = 4 x³ - 3 x + 1` with `x = R_i Y / (E t)`, `0 ≤ x ≤ 0.5`: the elastic and the plastic part of an
/// elastic–ideally plastic sheet bent far past yield, as forming handbooks print it. At `x = 0.5` the loaded bend is just
/// elastic and nothing is left of it; beyond that the formula does not hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Springback {
    /// Metal of the sheet, mm.
    pub thickness_mm: f64,
    /// Yield strength, MPa. A guaranteed least one understates springback: real sheet is stronger.
    pub fy_mpa: f64,
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
    /// Poisson's ratio of a sheet wide against its thickness, which bends with `E / (1 - ν²)` and `1.15 Y` (from memory);
    /// none for a strip free to narrow.
    pub poisson: Option<f64>,
}

impl Springback {
    /// Refuses what no sheet has.
    ///
    /// # Errors
    /// Thickness outside 0.2 to 6 mm, strengths outside 20 to 2000 MPa, a modulus or Poisson's ratio that no metal has.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        all([
            in_range("thickness", Some(self.thickness_mm), THICKNESS_MM, "mm"),
            in_range("fy", Some(self.fy_mpa), (20.0, 2000.0), "MPa"),
            in_range("modulus", Some(self.modulus_mpa), (1e4, 1e6), "MPa"),
            in_range("poisson", self.poisson, (0.0, 0.5), ""),
        ])
    }

    /// `x` for each mm of loaded radius.
    fn x_per_mm(&self) -> f64 {
        let (yield_mpa, modulus_mpa) = match self.poisson {
            Some(nu) => (PLANE_STRAIN_YIELD * self.fy_mpa, self.modulus_mpa / (1.0 - nu * nu)),
            None => (self.fy_mpa, self.modulus_mpa),
        };
        yield_mpa / (modulus_mpa * self.thickness_mm)
    }

    /// `x = R_i Y / (E t)` of a loaded radius.
    pub fn x(&self, loaded_mm: f64) -> f64 {
        loaded_mm * self.x_per_mm()
    }

    /// The radius that a loaded bend opens to, mm.
    ///
    /// # Errors
    /// A radius outside 0.1 mm to 10 m; one so gentle that the sheet springs back flat.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::forming::Springback;
    /// let strip = Springback { thickness_mm: 0.9, fy_mpa: 250.0, modulus_mpa: 205e3, poisson: None };
    /// assert!((strip.final_mm(38.0).unwrap() - 44.91).abs() < 0.005);
    /// ```
    pub fn final_mm(&self, loaded_mm: f64) -> Result<f64, Problem> {
        in_range("radius", Some(loaded_mm), (0.1, RADIUS_MM.1), "mm")?;
        let x = self.x(loaded_mm);
        if x >= NO_SET {
            let gentlest = NO_SET / self.x_per_mm();
            return Err(Problem::out_of_range(
                "radius",
                format!("{loaded_mm:.1} mm"),
                format!("below {gentlest:.1} mm: from there on the sheet is bent elastically and springs back flat"),
            ));
        }
        Ok(loaded_mm / opened(x))
    }

    /// The radius to bend to, loaded, for a final one, mm: the inverse, solved by bisection to the last digit.
    ///
    /// # Errors
    /// A radius outside 0.1 mm to 1000 m.
    pub fn loaded_mm(&self, final_mm: f64) -> Result<f64, Problem> {
        in_range("radius", Some(final_mm), (0.1, 1e6), "mm")?;
        // x / (4x³ - 3x + 1) grows from nought without end on [0, 0.5): there is one root.
        let wanted = final_mm * self.x_per_mm();
        let (mut low, mut high) = (0.0, NO_SET);
        loop {
            let x = f64::midpoint(low, high);
            if x <= low || x >= high {
                return Ok(low / self.x_per_mm());
            }
            if x < wanted * opened(x) {
                low = x;
            } else {
                high = x;
            }
        }
    }

    /// How much the final radius moves with the loaded one: by derivation.
    ///
    /// # Errors
    /// As [`final_mm`](Self::final_mm).
    pub fn final_per_loaded(&self, loaded_mm: f64) -> Result<f64, Problem> {
        self.final_mm(loaded_mm)?;
        let x = self.x(loaded_mm);
        let share = opened(x);
        Ok((share + x * (3.0 - 12.0 * x * x)) / (share * share))
    }

    /// How much gentler the final radius is for each MPa more of yield strength, mm: by derivation.
    ///
    /// # Errors
    /// As [`final_mm`](Self::final_mm).
    pub fn final_mm_per_mpa(&self, loaded_mm: f64) -> Result<f64, Problem> {
        let final_mm = self.final_mm(loaded_mm)?;
        let x = self.x(loaded_mm);
        Ok(final_mm * (3.0 - 12.0 * x * x) * x / (opened(x) * self.fy_mpa))
    }
}

/// Loaded over final radius: `4 x³ - 3 x + 1 = (x + 1)(1 - 2x)²`, the second form without cancellation near 0.5.
fn opened(x: f64) -> f64 {
    (x + 1.0) * (1.0 - 2.0 * x).powi(2)
}
