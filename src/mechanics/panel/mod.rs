//! One rectangular panel of thin sheet held along its edges: when it buckles, how far it bows, what its edges carry, how
//! it drums, how it takes a dent; and how hot a sheet in the sun gets.
//!
//! Plates are thin, flat unless a radius is given, elastic, without imperfections. Real edges lie between simple and
//! clamped: work both and take the answers as a range. `a` runs along the compression, `b` across it; where only the
//! shape counts the shorter side is meant. Coefficients that were worked out here come from converged Ritz series of plate
//! theory and are held to published rows in the tests.

mod bow;
mod buckling;
mod curved;
mod dent;
mod diagonal_tension;
mod drumming;
mod heating;
mod sol_air;

use std::f64::consts::PI;
use std::fmt;
use std::str::FromStr;

pub use bow::{Bow, Bowing, LONGEST, linear_bow_mm};
pub use buckling::{Coefficient, biaxial, compression, critical_stress_mpa, shear};
pub use curved::{Curved, TEST_SHARE, THIN_SHELL, flat_stress_mpa, redshaw_mpa, shell_stress_mpa, timoshenko_mpa};
pub use dent::{Dent, load_ratio, stiffness_ratio};
pub use diagonal_tension::{
    DiagonalTension, Flange, FlatWeb, STIFFEST_MPA, Uprights, diagonal_tension_factor, effective_upright_area_mm2,
    effective_upright_length_mm, flange_rivets_n_mm, simple_shear_coefficient, upright_peak_ratio, upright_rivets_n_mm,
    web_buckling_stress_mpa, web_peak_ratio,
};
pub use drumming::{Drumming, frequency_hz};
pub use heating::{
    Heated, Restraint, critical_rise_k, flat_line_force_n_mm, mismatch_strain, skin_over_frame_k, strip_bow_mm,
};
pub use sol_air::{Attitude, ENVELOPE_RADIATION_K, OUTSIDE_FILM_W_M2_K, SolAir, sol_air_deg_c};

use crate::error::{Problem, by_name};
use crate::mechanics::sheet::in_range;

/// Shortest and longest side of a panel, mm.
pub const SIDE_MM: (f64, f64) = (10.0, 20_000.0);
/// Thinnest and thickest sheet, mm.
pub const THICKNESS_MM: (f64, f64) = (0.2, 6.0);
/// Thickest plate that is thin: shorter side over thickness. Below it shear makes the plate softer than thin-plate theory.
pub const LEAST_SLENDERNESS: f64 = 20.0;
/// Curvatures of a body's skin, mm.
pub const RADIUS_MM: (f64, f64) = (50.0, 1e6);
/// Thermal expansion of metals, 1/K.
pub const EXPANSION_PER_K: (f64, f64) = (5e-6, 40e-6);
/// Temperature differences that a skin meets, K.
pub const RISE_K: (f64, f64) = (-150.0, 150.0);

/// How the edges hold the sheet against turning. All edges hold it against moving out of its plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edges {
    /// Free to turn: the lower end of the range.
    Simple,
    /// Not free to turn: the upper end.
    Clamped,
    /// The sides along the compression clamped, the loaded ones free to turn; compression only.
    SidesClamped,
    /// One side along the compression not held at all, the other three free to turn; compression only.
    SideFree,
}

impl Edges {
    /// Every one.
    pub const ALL: [Self; 4] = [Self::Simple, Self::Clamped, Self::SidesClamped, Self::SideFree];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Simple => "simple",
            Self::Clamped => "clamped",
            Self::SidesClamped => "sides clamped",
            Self::SideFree => "side free",
        }
    }

    /// Simple or clamped all round.
    ///
    /// # Errors
    /// Another hold: only compression knows it.
    fn alike(self, answer: &str) -> Result<bool, Problem> {
        match self {
            Self::Simple => Ok(false),
            Self::Clamped => Ok(true),
            other => {
                let allowed = format!("\"simple\" or \"clamped\": {answer} is known for edges alike all round");
                Err(Problem::out_of_range("edges", format!("\"{}\"", other.name()), allowed))
            }
        }
    }
}

impl fmt::Display for Edges {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for Edges {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("edges", "hold of edges", text, &Self::ALL, Self::name)
    }
}

/// A panel between its supports.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Panel {
    /// Side along the compression, mm.
    pub a_mm: f64,
    /// Side across the compression, mm; of a curved panel the arc.
    pub b_mm: f64,
    /// Metal of the sheet, mm.
    pub thickness_mm: f64,
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// How the edges hold it.
    pub edges: Edges,
    /// Radius of the arc `b`, mm; none for a flat panel.
    pub radius_mm: Option<f64>,
}

impl Panel {
    /// Refuses what is no panel; the answers below take the numbers as they are.
    ///
    /// # Errors
    /// Sizes or constants that no skin has, all at once; a plate too thick for thin-plate theory; an arc beyond a half
    /// circle.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        all([
            in_range("a", Some(self.a_mm), SIDE_MM, "mm"),
            in_range("b", Some(self.b_mm), SIDE_MM, "mm"),
            in_range("thickness", Some(self.thickness_mm), THICKNESS_MM, "mm"),
            in_range("modulus", Some(self.modulus_mpa), (1e4, 1e6), "MPa"),
            in_range("poisson", Some(self.poisson), (0.0, 0.49), ""),
            in_range("radius", self.radius_mm, RADIUS_MM, "mm"),
        ])?;
        let most_mm = self.short_mm() / LEAST_SLENDERNESS;
        let thin = in_range("thickness", Some(self.thickness_mm), (THICKNESS_MM.0, most_mm), "mm");
        let arc = self.radius_mm.map_or(Ok(()), |r| in_range("b", Some(self.b_mm), (SIDE_MM.0, PI * r), "mm"));
        all([thin, arc])
    }

    /// The shorter side, mm.
    pub fn short_mm(&self) -> f64 {
        self.a_mm.min(self.b_mm)
    }

    /// Longer side over shorter.
    pub fn aspect(&self) -> f64 {
        self.a_mm.max(self.b_mm) / self.short_mm()
    }

    /// Bending stiffness of the sheet, N mm: `D = E t³ / (12 (1 - ν²))`.
    pub fn stiffness_n_mm(&self) -> f64 {
        self.modulus_mpa * self.thickness_mm.powi(3) / (12.0 * (1.0 - self.poisson.powi(2)))
    }

    /// Elastic buckling coefficient and stress in compression along `a`.
    ///
    /// # Errors
    /// A curved panel; a shape outside the rows.
    pub fn compression(&self) -> Result<(Coefficient, f64), Vec<Problem>> {
        self.flat("compression of a flat panel")?;
        let coefficient = compression(self.edges, self.a_mm / self.b_mm).map_err(|p| vec![p])?;
        Ok((coefficient, critical_stress_mpa(coefficient.k, self, self.b_mm)))
    }

    /// Elastic buckling coefficient and stress in shear.
    ///
    /// # Errors
    /// A curved panel; edges not alike.
    pub fn shear(&self) -> Result<(Coefficient, f64), Vec<Problem>> {
        self.flat("shear")?;
        let coefficient = shear(self.edges, self.aspect()).map_err(|p| vec![p])?;
        Ok((coefficient, critical_stress_mpa(coefficient.k, self, self.short_mm())))
    }

    /// Elastic buckling coefficient and stress in equal compression both ways.
    ///
    /// # Errors
    /// A curved panel; edges not alike.
    pub fn biaxial(&self) -> Result<(Coefficient, f64), Vec<Problem>> {
        self.flat("compression both ways")?;
        let coefficient = biaxial(self.edges, self.aspect()).map_err(|p| vec![p])?;
        Ok((coefficient, critical_stress_mpa(coefficient.k, self, self.short_mm())))
    }

    /// An answer that only a flat panel has.
    fn flat(&self, answer: &str) -> Result<(), Vec<Problem>> {
        self.radius_mm.map_or(Ok(()), |radius| {
            let allowed = format!("none: {answer} is known here for flat panels only; leave the radius out");
            Err(vec![Problem::out_of_range("radius", format!("{radius} mm"), allowed)])
        })
    }
}

/// Every problem of several tests, or none.
fn all<const N: usize>(tests: [Result<(), Problem>; N]) -> Result<(), Vec<Problem>> {
    let problems: Vec<Problem> = tests.into_iter().filter_map(Result::err).collect();
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

/// Linear between evenly spaced rows, the first at `first`; none outside them.
fn along_rows(rows: &[f64], first: f64, step: f64, at: f64) -> Option<f64> {
    let place = (at - first) / step;
    // 0.3 / 0.05 is not quite 6.
    let place = if (place - place.round()).abs() < 1e-9 { place.round() } else { place };
    if !(0.0..=(rows.len().saturating_sub(1)) as f64).contains(&place) {
        return None;
    }
    let low = *rows.get(place.floor() as usize)?;
    let high = *rows.get(place.ceil() as usize)?;
    Some(low + (high - low) * place.fract())
}
