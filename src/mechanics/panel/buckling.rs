//! Elastic buckling of flat panels: coefficients by shape and hold.

use std::f64::consts::PI;

use crate::check::{Standing, significant};
use crate::error::Problem;

use super::{Edges, Panel, along_rows};

/// A buckling coefficient and where it is from.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Coefficient {
    /// `k` in `σ_cr = k π² E / (12 (1 - ν²)) (t/b)²`.
    pub k: f64,
    /// Where it is from.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

/// Elastic buckling stress, MPa: `k π² E / (12 (1 - ν²)) (t/b)²` (Timoshenko and Gere, Theory of Elastic Stability,
/// chapter 9).
pub fn critical_stress_mpa(k: f64, panel: &Panel, width_mm: f64) -> f64 {
    k * PI.powi(2) * panel.stiffness_n_mm() / (panel.thickness_mm * width_mm.powi(2))
}

/// Squarest and longest panels in the rows of compression: `a/b`.
const ROWS: (f64, f64) = (0.5, 4.0);
const STEP: f64 = 0.05;
/// Widest panel in compression with simple edges, `a/b`: where Roark's rows begin.
const WIDEST: f64 = 0.2;

/// Clamped all round, `a/b` 0.5 to 4 by 0.05: Ritz with 12 by 6 polynomials of either symmetry along `a`. 10.07 at 1, 7.87
/// at 2, 7.36 at 3; Roark's 7.7, 6.7, 6.4 over 0.822 (9.36, 8.15, 7.78) disagree with the accepted values and are not used.
const CLAMPED: [f64; 71] = [
    19.339, 16.774, 14.889, 13.489, 12.444, 11.665, 11.090, 10.675, 10.384, 10.191, 10.074, 10.013, 9.989, 9.962,
    9.581, 9.263, 8.999, 8.782, 8.605, 8.463, 8.351, 8.265, 8.201, 8.156, 8.127, 8.110, 8.102, 8.099, 8.041, 7.948,
    7.867, 7.799, 7.741, 7.694, 7.657, 7.628, 7.606, 7.591, 7.581, 7.576, 7.573, 7.572, 7.541, 7.503, 7.469, 7.440,
    7.416, 7.396, 7.380, 7.368, 7.359, 7.353, 7.350, 7.348, 7.347, 7.343, 7.322, 7.303, 7.287, 7.273, 7.261, 7.251,
    7.243, 7.238, 7.234, 7.231, 7.229, 7.229, 7.229, 7.219, 7.208,
];
/// Sides clamped, loaded edges simple, the same shapes and method.
const SIDES_CLAMPED: [f64; 71] = [
    7.691, 7.278, 7.055, 6.973, 7.001, 7.116, 7.304, 7.553, 7.857, 7.992, 7.691, 7.457, 7.278, 7.147, 7.055, 6.999,
    6.973, 6.975, 7.001, 7.048, 7.116, 7.201, 7.304, 7.278, 7.186, 7.112, 7.055, 7.014, 6.987, 6.973, 6.972, 6.981,
    7.001, 7.030, 7.069, 7.116, 7.147, 7.096, 7.055, 7.023, 6.999, 6.983, 6.973, 6.971, 6.975, 6.985, 7.001, 7.022,
    7.048, 7.080, 7.055, 7.029, 7.008, 6.991, 6.980, 6.973, 6.971, 6.973, 6.978, 6.988, 7.001, 7.017, 7.037, 7.033,
    7.014, 6.999, 6.987, 6.979, 6.973, 6.971, 6.972,
];
/// A long panel with clamped sides, from any end: what the rows above fall to.
const LONG_CLAMPED: f64 = 6.97;
/// One side free, the others simple: Roark's K' at `a/b` 1, 2, 5.
const SIDE_FREE: [(f64, f64); 3] = [(1.0, 1.18), (2.0, 0.574), (5.0, 0.416)];
/// Roark's K' is k times this: π²/12.
const ROARK: f64 = PI * PI / 12.0;

const CLAMPED_SOURCE: &str = "accepted values 10.07 (a/b 1), 7.87 (2), 7.36 (3), long 6.97, from memory; between them \
    worked out here by a converged Ritz series";
const SIDES_SOURCE: &str = "Roark, 7th edition, Table 15.2, rows a/b 1 and long; between them worked out here by a \
    converged Ritz series";

/// Coefficient in compression along `a`; `aspect` is `a/b`, the width `b` lies across.
///
/// Simple edges: `(m b/a + a/(m b))²`, the least of all whole `m` (Timoshenko and Gere 9.2; Roark, 7th edition, Table 15.2
/// agrees). Clamped ones by rows up to `a/b` 4; a longer panel counts as endless, which is at most 4 % low.
///
/// # Errors
/// A shape outside the rows.
pub fn compression(edges: Edges, aspect: f64) -> Result<Coefficient, Problem> {
    let rows = |rows: &[f64]| if aspect > ROWS.1 { Some(LONG_CLAMPED) } else { along_rows(rows, ROWS.0, STEP, aspect) };
    let outside = |allowed: String| Problem::out_of_range("a", format!("a/b = {}", significant(aspect)), allowed);
    let from = |least: f64| outside(format!("{least} b and more, where the rows begin"));
    match edges {
        Edges::Simple if aspect >= WIDEST * (1.0 - 1e-9) => {
            let of = |waves: f64| (waves / aspect + aspect / waves).powi(2);
            let waves = aspect.floor().max(1.0);
            let source = "Timoshenko and Gere 9.2, (m b/a + a/(m b))²; Roark, 7th edition, Table 15.2";
            Ok(Coefficient { k: of(waves).min(of(waves + 1.0)), source, standing: Standing::Read })
        }
        Edges::Simple => Err(from(WIDEST)),
        Edges::Clamped => {
            let k = rows(&CLAMPED).ok_or_else(|| from(ROWS.0))?;
            Ok(Coefficient { k, source: CLAMPED_SOURCE, standing: Standing::Memory })
        }
        Edges::SidesClamped => {
            let k = rows(&SIDES_CLAMPED).ok_or_else(|| from(ROWS.0))?;
            Ok(Coefficient { k, source: SIDES_SOURCE, standing: Standing::Read })
        }
        Edges::SideFree => {
            // Twisting gives a constant, bending (b/a)²: between rows k is straight over (b/a)².
            let x = |aspect: f64| aspect.powi(-2);
            let between = SIDE_FREE.windows(2).find_map(|pair| match *pair {
                [(from, k0), (to, k1)] if (from..=to).contains(&aspect) => {
                    Some(k0 + (k1 - k0) * (x(aspect) - x(from)) / (x(to) - x(from)))
                }
                _ => None,
            });
            let k = between.ok_or_else(|| outside("b to 5 b, where the rows end".to_owned()))? / ROARK;
            let source = "Roark, 7th edition, Table 15.2, rows a/b 1, 2 and 5, straight over (b/a)² between them";
            Ok(Coefficient { k, source, standing: Standing::Read })
        }
    }
}

/// Coefficient in shear, with the shorter side as the width; `aspect` is longer over shorter.
///
/// `5.34 + 4.00/s²` simple, `8.98 + 5.60/s²` clamped (Timoshenko and Gere 9.7; 5.35 is in use too). The fit keeps within 4 %
/// of the exact coefficient: 1 % above it at `s` 1.5, 3 % below at 2.
///
/// # Errors
/// Edges that are not alike all round.
pub fn shear(edges: Edges, aspect: f64) -> Result<Coefficient, Problem> {
    let clamped = edges.alike("buckling in shear")?;
    let (long, square) = if clamped { (8.98, 5.60) } else { (5.34, 4.00) };
    let source = "Timoshenko and Gere 9.7, restated by a secondary text";
    Ok(Coefficient { k: long + square / aspect.powi(2), source, standing: Standing::Read })
}

/// Clamped, equal compression both ways, shorter over longer side 0 to 1 by 0.05: Ritz as above; a long panel by
/// `K tanh K + S tan S = 0`, `k = 4 (K² + S²) / π²`, least over `K`. (One cylindrical wave alone would give 4.)
const BIAXIAL_CLAMPED: [f64; 21] = [
    3.757, 3.760, 3.768, 3.783, 3.798, 3.826, 3.836, 3.880, 3.893, 3.902, 3.923, 3.960, 4.016, 4.091, 4.189, 4.311,
    4.457, 4.629, 4.827, 5.052, 5.304,
];

/// Coefficient in equal compression both ways, with the shorter side as the width; `aspect` is longer over shorter.
///
/// Simple edges: `1 + 1/s²` (Timoshenko and Gere 9.3, from memory).
///
/// # Errors
/// Edges that are not alike all round.
pub fn biaxial(edges: Edges, aspect: f64) -> Result<Coefficient, Problem> {
    let outside =
        || Problem::out_of_range("a", format!("a/b = {}", significant(aspect)), "longer over shorter side, 1 and more");
    if edges.alike("buckling under compression both ways")? {
        let k = along_rows(&BIAXIAL_CLAMPED, 0.0, 0.05, 1.0 / aspect).ok_or_else(outside)?;
        let source =
            "Timoshenko 5.30 (a/b 1), from memory; the other shapes worked out here by a converged Ritz series";
        Ok(Coefficient { k, source, standing: Standing::Memory })
    } else {
        let source = "Timoshenko and Gere 9.3, 1 + (b/a)², from memory";
        Ok(Coefficient { k: 1.0 + aspect.powi(-2), source, standing: Standing::Memory })
    }
}
