//! The first natural frequency of a flat panel: what it drums at.

use std::f64::consts::{PI, TAU};

use crate::check::Standing;
use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::{Panel, all, along_rows};

/// Clamped: `ω b² √(ρ t / D)` by shorter over longer side, 0 to 1 by 0.05; Ritz with even polynomials. 35.99 square and
/// 22.37 long as the tables of plate vibration have it (from memory).
const CLAMPED: [f64; 21] = [
    22.373, 22.388, 22.432, 22.512, 22.632, 22.799, 23.017, 23.296, 23.644, 24.068, 24.578, 25.182, 25.889, 26.707,
    27.642, 28.701, 29.888, 31.208, 32.663, 34.255, 35.985,
];

/// First natural frequency, Hz: `λ / (2π b²) √(D / (ρ t))`, `b` the shorter side, mass per area in kg/m2.
///
/// With D in N mm, b in mm and mass in kg/mm2, N = kg m/s2 = 1000 kg mm/s2.
pub fn frequency_hz(lambda: f64, short_mm: f64, stiffness_n_mm: f64, areal_mass_kg_m2: f64) -> f64 {
    lambda / (TAU * short_mm.powi(2)) * (stiffness_n_mm * 1e3 / (areal_mass_kg_m2 * 1e-6)).sqrt()
}

/// The tone of a panel, in still air and without tension; air and paint lower it, tension raises it.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Drumming {
    /// `λ` in [`frequency_hz`].
    pub lambda: f64,
    /// First natural frequency, Hz.
    pub frequency_hz: f64,
    /// Where λ is from.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

impl Panel {
    /// First natural frequency. Simple edges: `λ = π² (1 + (b/a)²)`; clamped by rows.
    ///
    /// # Errors
    /// A curved panel; edges not alike; a mass per area that no skin has.
    pub fn drumming(&self, areal_mass_kg_m2: f64) -> Result<Drumming, Vec<Problem>> {
        self.flat("the frequency")?;
        all([in_range("areal_mass", Some(areal_mass_kg_m2), (0.1, 200.0), "kg/m2")])?;
        let slender = 1.0 / self.aspect();
        let (lambda, source) = if self.edges.alike("the frequency").map_err(|p| vec![p])? {
            let source =
                "35.99 square and 22.37 long from memory; between them worked out here by a converged Ritz series";
            (along_rows(&CLAMPED, 0.0, 0.05, slender).unwrap_or(CLAMPED[0]), source)
        } else {
            (PI.powi(2) * (1.0 + slender.powi(2)), "π² (1 + (b/a)²), textbook of plate vibration, from memory")
        };
        Ok(Drumming {
            lambda,
            frequency_hz: frequency_hz(lambda, self.short_mm(), self.stiffness_n_mm(), areal_mass_kg_m2),
            source,
            standing: Standing::Memory,
        })
    }
}
