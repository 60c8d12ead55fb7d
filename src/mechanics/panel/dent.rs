//! Dents: one sheet against another, by proportion only.

use crate::check::Standing;
use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::{Panel, THICKNESS_MM, all};

/// Static load that first leaves a dent, of one sheet over another: `(f_y/f_y0) (t/t0)²` (from memory: car panels).
pub fn load_ratio((thickness_mm, fy_mpa): (f64, f64), (other_mm, other_fy_mpa): (f64, f64)) -> f64 {
    fy_mpa / other_fy_mpa * (thickness_mm / other_mm).powi(2)
}

/// Stiffness against a hand or a hailstone, of one flat sheet over another of the same metal: `(t/t0)³`, plate bending.
pub fn stiffness_ratio(thickness_mm: f64, other_mm: f64) -> f64 {
    (thickness_mm / other_mm).powi(3)
}

/// One sheet's resistance to dents over another's. Not a strength: neither sheet's own load is known here.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Dent {
    /// See [`load_ratio`].
    pub load_ratio: f64,
    /// See [`stiffness_ratio`].
    pub stiffness_ratio: f64,
    /// Where it is from.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

impl Panel {
    /// This sheet's resistance to dents over that of another thickness of the same metal; strengths where they differ.
    ///
    /// # Errors
    /// A thickness or strength that no sheet has.
    pub fn dent(&self, fy_mpa: f64, (other_mm, other_fy_mpa): (f64, f64)) -> Result<Dent, Vec<Problem>> {
        const STRENGTH_MPA: (f64, f64) = (20.0, 2000.0);
        all([
            in_range("fy", Some(fy_mpa), STRENGTH_MPA, "MPa"),
            in_range("other_thickness", Some(other_mm), THICKNESS_MM, "mm"),
            in_range("other_fy", Some(other_fy_mpa), STRENGTH_MPA, "MPa"),
        ])?;
        Ok(Dent {
            load_ratio: load_ratio((self.thickness_mm, fy_mpa), (other_mm, other_fy_mpa)),
            stiffness_ratio: stiffness_ratio(self.thickness_mm, other_mm),
            source: "static denting of car panels in proportion to f_y t², from memory; a comparison of two sheets, no load",
            standing: Standing::Memory,
        })
    }
}
