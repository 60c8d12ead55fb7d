//! The pyramid bender: two lower rolls and a top roll that presses the sheet down between them.

use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::bend::all;
use super::springback::Springback;
use super::{RADIUS_MM, THICKNESS_MM};

/// A three-roll bender.
///
/// Geometry of a circle on two rolls: with `S = R_o + r_L` and `h` half the spacing of the lower rolls, the top roll travels
/// `U = S - √(S² - h²)` after it touches the flat sheet. The top roll's own size does not enter; it only must be smaller than
/// the bend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThreeRoll {
    /// Radius of the lower rolls, mm.
    pub lower_radius_mm: f64,
    /// Middle of one lower roll to the middle of the other, mm.
    pub spacing_mm: f64,
    /// Radius of the top roll, mm.
    pub top_radius_mm: f64,
}

/// How to set the rolls for a radius.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct RollSetting {
    /// Inside radius that is wanted, mm.
    pub final_mm: f64,
    /// Inside radius under load to roll to, mm.
    pub loaded_mm: f64,
    /// Travel of the top roll after it touches the flat sheet, mm.
    pub travel_mm: f64,
    /// Final radius lost for each 0.1 mm more of travel, mm.
    pub radius_per_tenth_mm: f64,
    /// Travel for each mm less of final radius, mm.
    pub travel_per_mm: f64,
    /// How much gentler the final radius is for each MPa more of yield strength, mm.
    pub radius_per_mpa_mm: f64,
    /// Sheet that stays flat at each end, mm.
    pub flat_mm: f64,
}

impl ThreeRoll {
    /// Refuses rolls that no bender has.
    ///
    /// # Errors
    /// Radii outside 3 to 500 mm; a spacing outside 10 to 3000 mm, or so narrow that the lower rolls touch.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        all([
            in_range("lower_radius", Some(self.lower_radius_mm), (3.0, 500.0), "mm"),
            in_range("top_radius", Some(self.top_radius_mm), (3.0, 500.0), "mm"),
            in_range("spacing", Some(self.spacing_mm), (10.0, 3000.0), "mm"),
        ])?;
        if self.spacing_mm <= 2.0 * self.lower_radius_mm {
            let problem = format!(
                "the lower rolls of {} mm radius would touch; measure from middle to middle",
                self.lower_radius_mm
            );
            return Err(vec![Problem::contradiction("spacing", format!("{} mm", self.spacing_mm), problem)]);
        }
        Ok(())
    }

    /// Sheet that stays flat at each end, where it lies on one lower roll only, mm: about half the spacing.
    pub fn flat_mm(&self) -> f64 {
        self.spacing_mm / 2.0
    }

    /// What to do about the flats.
    pub fn flats_advice(&self) -> String {
        let flat = self.flat_mm();
        format!(
            "about {flat:.0} mm at each end stays flat: where an arc reaches nearer to an end, bend that end first, over a form \
             or in a brake, or roll a longer sheet and trim it"
        )
    }

    /// `S = R_o + r_L`, mm.
    fn reach_mm(&self, radius_mm: f64, thickness_mm: f64) -> f64 {
        radius_mm + thickness_mm + self.lower_radius_mm
    }

    /// Travel of the top roll after touching for an inside radius under load, mm.
    ///
    /// # Errors
    /// Sizes that no sheet has; a radius not above that of the top roll; one too sharp to lie on the lower rolls.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::forming::ThreeRoll;
    /// let rolls = ThreeRoll { lower_radius_mm: 25.0, spacing_mm: 70.0, top_radius_mm: 30.0 };
    /// assert!((rolls.travel_mm(150.0, 0.9).unwrap() - 3.517).abs() < 5e-4);
    /// ```
    pub fn travel_mm(&self, radius_mm: f64, thickness_mm: f64) -> Result<f64, Vec<Problem>> {
        all([
            in_range("radius", Some(radius_mm), (0.1, RADIUS_MM.1), "mm"),
            in_range("thickness", Some(thickness_mm), THICKNESS_MM, "mm"),
        ])?;
        self.bends_to(radius_mm).map_err(|p| vec![p])?;
        let (reach, half) = (self.reach_mm(radius_mm, thickness_mm), self.flat_mm());
        if reach <= half {
            let least = half - self.lower_radius_mm - thickness_mm;
            let problem = Problem::out_of_range(
                "radius",
                format!("{radius_mm:.1} mm"),
                format!("above {least:.1} mm: a sharper bend falls between the lower rolls"),
            );
            return Err(vec![problem]);
        }
        // S - √(S² - h²) without the difference of two large numbers.
        Ok(half * half / (reach + (reach * reach - half * half).sqrt()))
    }

    fn bends_to(&self, radius_mm: f64) -> Result<(), Problem> {
        if radius_mm > self.top_radius_mm {
            return Ok(());
        }
        Err(Problem::out_of_range(
            "radius",
            format!("{radius_mm:.1} mm"),
            format!(
                "above {} mm under load, the radius of the top roll: take a thinner top roll or another bender",
                self.top_radius_mm
            ),
        ))
    }

    /// Inside radius under load for a travel after touching, mm: `R_o + r_L = (U² + h²) / (2 U)`.
    ///
    /// # Errors
    /// Sizes that no sheet has; a travel that no bend of this bender has.
    pub fn radius_mm(&self, travel_mm: f64, thickness_mm: f64) -> Result<f64, Vec<Problem>> {
        let half = self.flat_mm();
        all([
            in_range("travel", Some(travel_mm), (1e-4, half), "mm"),
            in_range("thickness", Some(thickness_mm), THICKNESS_MM, "mm"),
        ])?;
        let reach = (travel_mm * travel_mm + half * half) / (2.0 * travel_mm);
        let radius_mm = reach - thickness_mm - self.lower_radius_mm;
        self.bends_to(radius_mm).map_err(|p| vec![p.with_path("travel").with_value(format!("{travel_mm} mm"))])?;
        Ok(radius_mm)
    }

    /// Radius under load lost for each mm more of travel, mm: `-dR/dU = (S - U) / U`.
    ///
    /// # Errors
    /// As [`travel_mm`](Self::travel_mm).
    pub fn radius_lost_per_mm(&self, radius_mm: f64, thickness_mm: f64) -> Result<f64, Vec<Problem>> {
        let travel = self.travel_mm(radius_mm, thickness_mm)?;
        Ok((self.reach_mm(radius_mm, thickness_mm) - travel) / travel)
    }

    /// How to set the rolls for a final inside radius in a sheet that springs back.
    ///
    /// `thickness_mm` is the whole sheet's; springback counts the metal alone.
    ///
    /// # Errors
    /// Rolls or a sheet that there are none of; a radius that the bender does not reach.
    pub fn setting(&self, final_mm: f64, thickness_mm: f64, sheet: &Springback) -> Result<RollSetting, Vec<Problem>> {
        self.validate()?;
        sheet.validate()?;
        let one = |p: Problem| vec![p];
        let loaded_mm = sheet.loaded_mm(final_mm).map_err(one)?;
        let travel_mm = self.travel_mm(loaded_mm, thickness_mm)?;
        let lost = self.radius_lost_per_mm(loaded_mm, thickness_mm)?;
        // The final radius moves faster than the loaded one.
        let opens = sheet.final_per_loaded(loaded_mm).map_err(one)?;
        Ok(RollSetting {
            final_mm,
            loaded_mm,
            travel_mm,
            radius_per_tenth_mm: 0.1 * lost * opens,
            travel_per_mm: 1.0 / (lost * opens),
            radius_per_mpa_mm: sheet.final_mm_per_mpa(loaded_mm).map_err(one)?,
            flat_mm: self.flat_mm(),
        })
    }
}
