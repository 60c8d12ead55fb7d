//! Incomplete diagonal tension: a flat web that goes on carrying shear after it has buckled, by folds that pull.
//!
//! NACA TN 2661 (Kuhn, Peterson, Levin 1952), equations restated by a secondary text and named at each function. Tests
//! were of aluminium-alloy webs.

use std::f64::consts::FRAC_PI_4;

use crate::check::{Standing, significant};
use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::all;

/// Depth over thickness of the webs tested. The paper's 115 is of the whole depth; the effective one is some percent less.
const SLENDERNESS: (f64, f64) = (110.0, 1500.0);
/// Spacing of uprights over depth of the webs tested (from memory).
const SPACING: (f64, f64) = (0.2, 1.0);
/// Metal stiffer than this is no aluminium alloy: the tests are carried over to it.
pub const STIFFEST_MPA: f64 = 90_000.0;

/// Diagonal tension factor, eq. (27): `k = tanh(0.5 log10(τ/τ_cr))`, nought before buckling.
pub fn diagonal_tension_factor(shear_mpa: f64, critical_mpa: f64) -> f64 {
    if shear_mpa <= critical_mpa { 0.0 } else { (0.5 * (shear_mpa / critical_mpa).log10()).tanh() }
}

/// `k_ss` of simple edges with `π²/(12 (1 - ν²))` in it, a fit to the paper's figure: `5.03 + 3.26 (short/long)²`.
pub fn simple_shear_coefficient(short_over_long: f64) -> f64 {
    5.03 + 3.26 * short_over_long.powi(2)
}

/// Elastic buckling stress of the web, MPa, eq. (32): `k_ss E (t/d_c)² [R_h + (R_d - R_h)/2 (d_c/h_c)³]`, for `d_c < h_c`.
pub fn web_buckling_stress_mpa(
    (k_ss, modulus_mpa, thickness_mm): (f64, f64, f64),
    (clear_spacing_mm, clear_depth_mm): (f64, f64),
    (restraint_h, restraint_d): (f64, f64),
) -> f64 {
    let restraint = restraint_h + 0.5 * (restraint_d - restraint_h) * (clear_spacing_mm / clear_depth_mm).powi(3);
    k_ss * modulus_mpa * (thickness_mm / clear_spacing_mm).powi(2) * restraint
}

/// Effective area of an upright, mm2, eq. (22): `A_U` on both sides of the web, `A_U/(1 + (e/ρ)²)` on one; `e` from the web's
/// middle to the upright's centroid, `ρ` its radius of gyration.
pub fn effective_upright_area_mm2(area_mm2: f64, eccentric: Option<(f64, f64)>) -> f64 {
    eccentric.map_or(area_mm2, |(e_mm, gyration_mm)| area_mm2 / (1.0 + (e_mm / gyration_mm).powi(2)))
}

/// Greatest over mean stress of an upright, a fit to figure 15: `1 + (1 - k) (0.78 - 0.65 d/h_U)`.
pub fn upright_peak_ratio(k: f64, spacing_over_length: f64) -> f64 {
    1.0 + (1.0 - k) * (0.78 - 0.65 * spacing_over_length)
}

/// Greatest over nominal shear stress of the web, eq. (33a): `(1 + k² C1) (1 + k C2)`, `C1 = 1/sin 2α - 1`; `C2` of a figure
/// tells the flanges' bending, nought for stiff ones.
pub fn web_peak_ratio(k: f64, angle_rad: f64, c2: f64) -> f64 {
    let c1 = 1.0 / (2.0 * angle_rad).sin() - 1.0;
    (1.0 + k.powi(2) * c1) * (1.0 + k * c2)
}

/// Effective length of an upright as a column, mm, eq. (35): `h_U / √(1 + k² (3 - 2 d/h_U))` for `d < 1.5 h_U`, else `h_U`.
pub fn effective_upright_length_mm(k: f64, length_mm: f64, spacing_mm: f64) -> f64 {
    let ratio = spacing_mm / length_mm;
    if ratio < 1.5 { length_mm / (1.0 + k.powi(2) * (3.0 - 2.0 * ratio)).sqrt() } else { length_mm }
}

/// Load of the rivets that hold web to flange, N per mm: `S/h (1 + 0.414 k)` (from memory).
pub fn flange_rivets_n_mm(shear_n: f64, depth_mm: f64, k: f64) -> f64 {
    shear_n / depth_mm * (1.0 + 0.414 * k)
}

/// Pull that the rivets of web to upright are to hold, N per mm: 0.15 (uprights on both sides) or 0.22 (on one)
/// `σ_ult t` (from memory).
pub fn upright_rivets_n_mm(single: bool, fu_mpa: f64, thickness_mm: f64) -> f64 {
    if single { 0.22 * fu_mpa * thickness_mm } else { 0.15 * fu_mpa * thickness_mm }
}

/// The uprights of a web.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uprights {
    /// From one to the next, `d`, mm.
    pub spacing_mm: f64,
    /// Clear between them, `d_c`, mm.
    pub clear_spacing_mm: f64,
    /// Length between the flanges' rivet lines, `h_U`, mm.
    pub length_mm: f64,
    /// Area of one, `A_U`, mm2.
    pub area_mm2: f64,
    /// On one side of the web: from its middle to the upright's centroid `e`, and radius of gyration `ρ`, mm; none for
    /// uprights on both sides.
    pub eccentric: Option<(f64, f64)>,
    /// How they hold the web's edges against turning, `R_d`: 1 simple, 1.62 clamped.
    pub restraint: f64,
}

/// The flanges of a web.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Flange {
    /// Much stiffer than the web: they neither shorten nor bend.
    Stiff,
    /// Area of one, mm2, and `C2` of their bending.
    Of {
        /// `A_F`, mm2.
        area_mm2: f64,
        /// `C2` in [`web_peak_ratio`].
        c2: f64,
    },
}

/// A flat web between flanges, in shear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlatWeb {
    /// Between the flanges' centroids, `h_e`, mm.
    pub depth_mm: f64,
    /// Clear between the flanges, `h_c`, mm.
    pub clear_depth_mm: f64,
    /// Metal of the web, mm.
    pub thickness_mm: f64,
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Yield strength of the web, MPa: the theory is elastic.
    pub fy_mpa: f64,
    /// Tensile strength of the web, MPa: the uprights' rivets go by it.
    pub fu_mpa: f64,
    /// How the flanges hold the web's edges against turning, `R_h`: 1 simple, 1.62 clamped.
    pub restraint: f64,
    /// The uprights.
    pub uprights: Uprights,
    /// The flanges.
    pub flange: Flange,
}

/// A web at a shear force.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct DiagonalTension {
    /// Nominal shear stress, MPa: `τ = S/(h_e t)`.
    pub shear_mpa: f64,
    /// Stress at which the web buckles, MPa.
    pub critical_mpa: f64,
    /// Diagonal tension factor: 0 none, 1 all.
    pub k: f64,
    /// Of the folds against the flanges, degrees.
    pub angle_deg: f64,
    /// Greatest nominal shear stress of the web, MPa.
    pub web_mpa: f64,
    /// Mean stress of an upright, MPa; compression is below nought.
    pub upright_mpa: f64,
    /// Greatest stress of an upright, MPa.
    pub upright_peak_mpa: f64,
    /// Stress of the flanges from the folds, MPa; nought for stiff ones.
    pub flange_mpa: f64,
    /// Effective length of an upright as a column, mm.
    pub upright_effective_length_mm: f64,
    /// Load of the rivets of web to flange, N/mm.
    pub flange_rivets_n_mm: f64,
    /// Pull that the rivets of web to upright are to hold, N/mm; nought before the web buckles.
    pub upright_rivets_n_mm: f64,
    /// Where it is from.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

impl FlatWeb {
    /// Refuses numbers that no web has, and webs unlike those tested.
    ///
    /// # Errors
    /// All that is wrong at once; depth over thickness outside 110 to 1500; spacing outside 0.2 to 1 of the depth; uprights
    /// clear of each other by more than the clear depth.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        const SIDE_MM: (f64, f64) = (10.0, 20_000.0);
        const AREA_MM2: (f64, f64) = (1.0, 1e5);
        const RESTRAINT: (f64, f64) = (0.5, 1.62);
        const STRENGTH_MPA: (f64, f64) = (20.0, 2000.0);
        let u = &self.uprights;
        let (area_f, c2) = match self.flange {
            Flange::Stiff => (None, None),
            Flange::Of { area_mm2, c2 } => (Some(area_mm2), Some(c2)),
        };
        all([
            in_range("depth", Some(self.depth_mm), SIDE_MM, "mm"),
            in_range("clear_depth", Some(self.clear_depth_mm), SIDE_MM, "mm"),
            in_range("thickness", Some(self.thickness_mm), super::THICKNESS_MM, "mm"),
            in_range("modulus", Some(self.modulus_mpa), (1e4, 1e6), "MPa"),
            in_range("poisson", Some(self.poisson), (0.0, 0.49), ""),
            in_range("fy", Some(self.fy_mpa), STRENGTH_MPA, "MPa"),
            in_range("fu", Some(self.fu_mpa), STRENGTH_MPA, "MPa"),
            in_range("flange_restraint", Some(self.restraint), RESTRAINT, ""),
            in_range("spacing", Some(u.spacing_mm), SIDE_MM, "mm"),
            in_range("clear_spacing", Some(u.clear_spacing_mm), SIDE_MM, "mm"),
            in_range("upright_length", Some(u.length_mm), SIDE_MM, "mm"),
            in_range("upright_area", Some(u.area_mm2), AREA_MM2, "mm2"),
            in_range("upright_eccentricity", u.eccentric.map(|(e, _)| e), (0.0, 500.0), "mm"),
            in_range("upright_gyration", u.eccentric.map(|(_, rho)| rho), (0.1, 500.0), "mm"),
            in_range("upright_restraint", Some(u.restraint), RESTRAINT, ""),
            in_range("flange_area", area_f, AREA_MM2, "mm2"),
            in_range("c2", c2, (0.0, 2.0), ""),
        ])?;
        let t = self.thickness_mm;
        all([
            in_range("depth", Some(self.depth_mm), (SLENDERNESS.0 * t, SLENDERNESS.1 * t), "mm"),
            in_range("spacing", Some(u.spacing_mm), (SPACING.0 * self.depth_mm, SPACING.1 * self.depth_mm), "mm"),
            in_range("clear_depth", Some(self.clear_depth_mm), (SIDE_MM.0, self.depth_mm), "mm"),
            in_range("upright_length", Some(u.length_mm), (SIDE_MM.0, self.depth_mm), "mm"),
            // eq. (32) is of panels that are higher than wide.
            in_range(
                "clear_spacing",
                Some(u.clear_spacing_mm),
                (SIDE_MM.0, u.spacing_mm.min(self.clear_depth_mm)),
                "mm",
            ),
        ])
    }

    /// Elastic buckling stress in shear, MPa.
    pub fn critical_mpa(&self) -> f64 {
        let clear = (self.uprights.clear_spacing_mm, self.clear_depth_mm);
        let k_ss = simple_shear_coefficient(clear.0 / clear.1);
        web_buckling_stress_mpa(
            (k_ss, self.modulus_mpa, self.thickness_mm),
            clear,
            (self.restraint, self.uprights.restraint),
        )
    }

    /// Mean stress of upright and flange over the shear stress, and the angle of the folds, rad: eqs. (30a) to (30d) together.
    pub fn folds(&self, k: f64) -> (f64, f64, f64) {
        let u = &self.uprights;
        let area = effective_upright_area_mm2(u.area_mm2, u.eccentric);
        let upright_share = area / (u.spacing_mm * self.thickness_mm) + 0.5 * (1.0 - k);
        let flange_share = match self.flange {
            Flange::Stiff => None,
            Flange::Of { area_mm2, .. } => Some(2.0 * area_mm2 / (self.depth_mm * self.thickness_mm) + 0.5 * (1.0 - k)),
        };
        let stresses =
            |angle: f64| (-k * angle.tan() / upright_share, flange_share.map_or(0.0, |share| -k / angle.tan() / share));
        let mut angle = FRAC_PI_4;
        // A contraction: uprights that give way more turn the folds flatter, which relieves them.
        for _ in 0..200 {
            let (upright, flange) = stresses(angle);
            let double = (2.0 * angle).sin();
            let strain = 2.0 * k / double + (1.0 - k) * (1.0 + self.poisson) * double;
            let next = ((strain - flange) / (strain - upright)).sqrt().atan();
            let moved = (next - angle).abs();
            angle = f64::midpoint(angle, next);
            if moved < 1e-13 {
                break;
            }
        }
        let (upright, flange) = stresses(angle);
        (upright, flange, angle)
    }

    /// The web at a shear force.
    ///
    /// # Errors
    /// What [`FlatWeb::validate`] refuses; a force that no web meets; a web that would yield, where the theory ends.
    pub fn at(&self, shear_n: f64) -> Result<DiagonalTension, Vec<Problem>> {
        self.validate()?;
        all([in_range("shear", Some(shear_n), (0.0, 1e7), "N")])?;
        let u = &self.uprights;
        let shear_mpa = shear_n / (self.depth_mm * self.thickness_mm);
        let critical_mpa = self.critical_mpa();
        let k = diagonal_tension_factor(shear_mpa, critical_mpa);
        let (upright, flange, angle) = self.folds(k);
        let c2 = match self.flange {
            Flange::Stiff => 0.0,
            Flange::Of { c2, .. } => c2,
        };
        let web_mpa = shear_mpa * web_peak_ratio(k, angle, c2);
        let upright_mpa = upright * shear_mpa;
        // Pure shear yields at f_y/√3, pure diagonal tension (σ = 2 τ) at f_y/2.
        let yield_mpa = self.fy_mpa / (3.0_f64.sqrt() + k * (2.0 - 3.0_f64.sqrt()));
        if web_mpa > yield_mpa {
            let allowed = format!(
                "less: the web would reach {} MPa of shear and yields at {} MPa, where the elastic theory ends",
                significant(web_mpa),
                significant(yield_mpa)
            );
            return Err(vec![Problem::out_of_range("shear", format!("{shear_n} N"), allowed)]);
        }
        let steel = self.modulus_mpa > STIFFEST_MPA;
        let single = u.eccentric.is_some();
        Ok(DiagonalTension {
            shear_mpa,
            critical_mpa,
            k,
            angle_deg: angle.to_degrees(),
            web_mpa,
            upright_mpa,
            upright_peak_mpa: upright_mpa * upright_peak_ratio(k, u.spacing_mm / u.length_mm).max(1.0),
            flange_mpa: flange * shear_mpa,
            upright_effective_length_mm: effective_upright_length_mm(k, u.length_mm, u.spacing_mm),
            flange_rivets_n_mm: flange_rivets_n_mm(shear_n, self.depth_mm, k),
            upright_rivets_n_mm: if k > 0.0 {
                upright_rivets_n_mm(single, self.fu_mpa, self.thickness_mm)
            } else {
                0.0
            },
            source: if steel { STEEL } else { ALUMINIUM },
            standing: if steel { Standing::Assumed } else { Standing::Memory },
        })
    }
}

const ALUMINIUM: &str = "NACA TN 2661, eqs. (22), (27), (30), (32), (33a), (35), restated by a secondary text; rivet loads \
    from memory";
const STEEL: &str = "NACA TN 2661, eqs. (22), (27), (30), (32), (33a), (35), restated by a secondary text; rivet loads from \
    memory; its tests were of aluminium alloy, carried over to this metal";
