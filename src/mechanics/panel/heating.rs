//! A sheet that is warmer or colder than the frame that holds it.
//!
//! A sheet as warm as its frame, of the same metal, is under no stress however hot both are: only the difference against
//! the day it was hung counts.

use std::f64::consts::PI;

use crate::check::Standing;
use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::{EXPANSION_PER_K, Edges, Panel, RISE_K, all};

/// Which way the frame keeps the sheet from growing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Restraint {
    /// Along `a` only; across, the sheet is free to grow.
    Along,
    /// Both ways.
    BothWays,
}

impl Restraint {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Along, Self::BothWays];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Along => "along a",
            Self::BothWays => "both ways",
        }
    }

    /// Strain that a held expansion is worth: `1` one way, `1/(1 - ν)` both ways.
    fn share(self, poisson: f64) -> f64 {
        match self {
            Self::Along => 1.0,
            Self::BothWays => 1.0 / (1.0 - poisson),
        }
    }
}

/// By how much the skin outgrows its frame since it was hung: `α_s (T_s - T_s,hung) - α_f (T_f - T_f,hung)`; below nought
/// the skin is pulled tight. Elementary.
pub fn mismatch_strain(skin: (f64, f64), frame: (f64, f64)) -> f64 {
    let grown = |(expansion_per_k, rise_k): (f64, f64)| expansion_per_k * rise_k;
    grown(skin) - grown(frame)
}

/// The temperature difference, skin over frame, that works on the sheet, K: the mismatch over the skin's expansion, less
/// what the rivets give way (slip over the panel's length). Slip never turns the sign.
pub fn skin_over_frame_k(mismatch_strain: f64, slip_strain: f64, expansion_per_k: f64) -> f64 {
    mismatch_strain.signum() * (mismatch_strain.abs() - slip_strain).max(0.0) / expansion_per_k
}

/// Stress of a sheet that is held and stays flat, MPa: `E α ΔT`, held both ways `E α ΔT / (1 - ν)`; times the thickness
/// the force on each millimetre of a rivet line, N/mm.
pub fn flat_line_force_n_mm(panel: &Panel, restraint: Restraint, expansion_per_k: f64, rise_k: f64) -> f64 {
    panel.modulus_mpa * expansion_per_k * rise_k * restraint.share(panel.poisson) * panel.thickness_mm
}

/// Rise at which a held sheet buckles, K: one way `k π² (t/b)² / (12 (1 - ν²) α)`, both ways `k π² (t/b)² / (12 (1 + ν) α)`;
/// `critical_mpa` is the buckling stress in that restraint.
pub fn critical_rise_k(critical_mpa: f64, panel: &Panel, restraint: Restraint, expansion_per_k: f64) -> f64 {
    critical_mpa / (panel.modulus_mpa * expansion_per_k * restraint.share(panel.poisson))
}

/// How far a long strip held both ways bows, mm; nought below its critical rise. Simple edges:
/// `w0 = (2b/π) √((1 + ν) α ΔT - π² t² / (12 b²))`; clamped: with `4 π² t² / (12 b²)`.
///
/// Derived: one wave across, edges immovable, the bow takes up what the strip grows beyond its buckling strain.
pub fn strip_bow_mm((width_mm, thickness_mm): (f64, f64), clamped: bool, poisson: f64, heat_strain: f64) -> f64 {
    let waves = if clamped { 4.0 } else { 1.0 };
    let buckling = waves * PI.powi(2) * thickness_mm.powi(2) / (12.0 * width_mm.powi(2));
    2.0 * width_mm / PI * ((1.0 + poisson) * heat_strain - buckling).max(0.0).sqrt()
}

/// A held sheet at a difference of temperature to its frame.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Heated {
    /// Buckling coefficient.
    pub k: f64,
    /// Difference at which it buckles, K.
    pub critical_rise_k: f64,
    /// Whether it does.
    pub buckled: bool,
    /// What a millimetre of the rivet line would carry if the sheet stayed flat, N/mm; below nought the sheet pulls. An
    /// upper bound after buckling.
    pub flat_force_n_mm: f64,
    /// What it carries, N/mm: the flat one, at most `σ_cr t`. After buckling the true one lies between the two: across a long
    /// bulge near this, along it nearer the flat one until the sheet falls into several bulges.
    pub line_force_n_mm: f64,
    /// How far a long strip of the shorter side's width bows, mm; only where it is held both ways. A squarer panel bows up to
    /// a tenth less, and frames give way: an upper figure.
    pub strip_bow_mm: Option<f64>,
    /// The rule of the line force.
    pub rule: &'static str,
    /// Where k is from.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

const RULE: &str =
    "derived: flat E α ΔT t (held both ways over 1 - ν), after buckling σ_cr t as a strut keeps its load";

impl Panel {
    /// The panel at a temperature difference, skin over frame.
    ///
    /// # Errors
    /// An expansion or difference that no skin has; a curved panel; a shape or edges that have no coefficient.
    pub fn heated(&self, restraint: Restraint, expansion_per_k: f64, rise_k: f64) -> Result<Heated, Vec<Problem>> {
        heat_in_range(expansion_per_k, rise_k)?;
        let (coefficient, critical_mpa) = match restraint {
            Restraint::Along => self.compression()?,
            Restraint::BothWays => self.biaxial()?,
        };
        let critical_rise_k = critical_rise_k(critical_mpa, self, restraint, expansion_per_k);
        let flat_force_n_mm = flat_line_force_n_mm(self, restraint, expansion_per_k, rise_k);
        Ok(Heated {
            k: coefficient.k,
            critical_rise_k,
            buckled: rise_k > critical_rise_k,
            flat_force_n_mm,
            line_force_n_mm: flat_force_n_mm.min(critical_mpa * self.thickness_mm),
            strip_bow_mm: (restraint == Restraint::BothWays).then(|| {
                let strip = (self.short_mm(), self.thickness_mm);
                strip_bow_mm(strip, self.edges == Edges::Clamped, self.poisson, expansion_per_k * rise_k)
            }),
            rule: RULE,
            source: coefficient.source,
            standing: coefficient.standing,
        })
    }
}

/// Refuses an expansion or a temperature difference that no skin has.
pub(super) fn heat_in_range(expansion_per_k: f64, rise_k: f64) -> Result<(), Vec<Problem>> {
    all([
        in_range("expansion", Some(expansion_per_k), EXPANSION_PER_K, "1/K"),
        in_range("rise", Some(rise_k), RISE_K, "K"),
    ])
}
