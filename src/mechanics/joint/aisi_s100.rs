//! AISI S100-16, J4 and J6: the screw rules used for blind rivets by analogy, allowable strengths.
//!
//! The rules are written for screws; handbooks ask for tests or product data where rivets are used. Every result is
//! marked as an analogy.

use crate::check::{Check, Level, Standing, term};

use super::{Demand, Lap};

/// Safety factor for screws, AISI S100-16, J4 (allowable strength design).
pub const OMEGA: f64 = 3.00;

/// Safety factor of the combined check, AISI S100-16, J4.5.1.
pub const OMEGA_COMBINED: f64 = 2.35;

/// Which thickness the lower end of the interpolation of J4.3.1 is worked with; published tables differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LowerAnchor {
    /// The rule for equal parts with the far part as thin as the near one: the lower value.
    #[default]
    EqualParts,
    /// The rule for equal parts with the real thicknesses.
    RealParts,
}

/// Nominal strength of a screw joint in tilting and bearing, N.
///
/// AISI S100-16, J4.3.1. `t1_mm`, `fu1_mpa` belong to the part under the head. t2/t1 ≤ 1.0: the least of 4.2
/// √(t2³ d) Fu2, 2.7 t1 d Fu1, 2.7 t2 d Fu2; t2/t1 ≥ 2.5: the lesser of the last two; linear between.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::aisi_s100::{LowerAnchor, tilting_and_bearing_n};
/// let pn = tilting_and_bearing_n(0.9, 0.9, 4.8, 360.0, 360.0, LowerAnchor::EqualParts);
/// assert!((pn - 2828.0).abs() < 0.5);
/// ```
pub fn tilting_and_bearing_n(
    t1_mm: f64,
    t2_mm: f64,
    d_mm: f64,
    fu1_mpa: f64,
    fu2_mpa: f64,
    anchor: LowerAnchor,
) -> f64 {
    let bearing = |t2: f64| (2.7 * t1_mm * d_mm * fu1_mpa).min(2.7 * t2 * d_mm * fu2_mpa);
    let tilting = |t2: f64| 4.2 * (t2.powi(3) * d_mm).sqrt() * fu2_mpa;
    let ratio = t2_mm / t1_mm;
    if ratio <= 1.0 {
        return tilting(t2_mm).min(bearing(t2_mm));
    }
    let anchor_t2 = match anchor {
        LowerAnchor::EqualParts => t1_mm,
        LowerAnchor::RealParts => t2_mm,
    };
    let low = tilting(anchor_t2).min(bearing(anchor_t2));
    let high = bearing(t2_mm);
    let share = ((ratio - 1.0) / 1.5).min(1.0);
    low + share * (high - low)
}

/// Nominal pull-over strength, N: 1.5 t1 d'w Fu1, d'w at most 19.1 mm; halved where the pull is eccentric.
///
/// AISI S100-16, J4.4.2 and its rule for eccentric, non-uniform pull-over.
pub fn pull_over_n(t1_mm: f64, head_mm: f64, fu1_mpa: f64, eccentric: bool) -> f64 {
    1.5 * t1_mm * head_mm.min(19.1) * fu1_mpa * if eccentric { 0.5 } else { 1.0 }
}

/// Nominal strength of the net section on the width of one pitch, N: Fu (s − d0) t U.
///
/// AISI S100-16, J6.2. For the shear lag factor U of a single row without washers the older form 2.5 d/s ≤ 1 is taken:
/// it is lower than 0.9 + 0.1 d/s of the 2016 edition, which could not be confirmed.
pub fn net_section_n(pitch_mm: f64, hole_mm: f64, d_mm: f64, fu_t_n_mm: f64) -> f64 {
    (pitch_mm - hole_mm).max(0.0) * fu_t_n_mm * (2.5 * d_mm / pitch_mm).min(1.0)
}

/// Nominal strength in tear-out to the sheet's end, N: 0.6 Fu · 2 t e<sub>net</sub>.
///
/// AISI S100-16, J6.1; e<sub>net</sub> is the clear distance from the hole's edge to the end of the sheet.
pub fn tear_out_n(edge_mm: f64, hole_mm: f64, fu_t_n_mm: f64) -> f64 {
    0.6 * 2.0 * (edge_mm - hole_mm / 2.0).max(0.0) * fu_t_n_mm
}

const SCREWS: &str = "AISI S100-16 J4.3.1, by analogy";
const PULL_OVER: &str = "AISI S100-16 J4.4.2, by analogy";
const RUPTURE: &str = "AISI S100-16 J6, by analogy";
const FASTENER: &str = "AISI S100-16 J4.3.2 and J4.4.3, by analogy";
const LIMITS: &str = "AISI S100-16 J4, by analogy";

pub(super) fn checks(lap: &Lap, demand: Demand) -> (Vec<Check>, Vec<Check>) {
    let (d, d0, p, e) = (lap.rivet.diameter_mm, lap.rivet.hole_mm, lap.pitch_mm, lap.edge_mm);
    let (t1, t2) = (lap.outer.design_mm, lap.inner.design_mm);
    let standing = lap.standing().with(Standing::Memory);
    let fu = lap.outer.fu_mpa.zip(lap.inner.fu_mpa);
    let fu_t = fu.map(|(a, b)| (a * t1).min(b * t2));
    let head = lap.rivet.head_mm;
    let nan = f64::NAN;

    let bearing = fu.map(|(a, b)| tilting_and_bearing_n(t1, t2, d, a, b, LowerAnchor::default()));
    let over = lap.outer.fu_mpa.zip(head).map(|(f, dw)| pull_over_n(t1, dw, f, lap.panel_edge));
    let net = fu_t.map(|ft| net_section_n(p, d0, d, ft));
    let tear = fu_t.map(|ft| tear_out_n(e, d0, ft));

    let strength = |name: &'static str, clause: &'static str, asked: f64, nominal: Option<f64>| {
        let capacity = nominal.map(|n| n / OMEGA);
        Check::compare(name, clause, (Some(asked), capacity, "N"), Level::Allowable, standing)
    };
    let (fu1, fu2) = fu.unwrap_or((nan, nan));
    let strengths = vec![
        strength("bearing", SCREWS, demand.shear_n, bearing).by(
            "P_nv / Ω: least of 4.2 √(t2³ d) F_u2, 2.7 t1 d F_u1, 2.7 t2 d F_u2 by t2/t1 (lower anchor: equal parts)",
            [
                term("t1", t1, "mm"),
                term("t2", t2, "mm"),
                term("d", d, "mm"),
                term("F_u1", fu1, "MPa"),
                term("F_u2", fu2, "MPa"),
                term("Ω", OMEGA, ""),
            ],
        ),
        strength("net section", RUPTURE, demand.shear_n, net).by(
            "F_u (s − d0) t · min(1, 2.5 d/s) / Ω",
            [term("s", p, "mm"), term("d0", d0, "mm"), term("F_u t", fu_t.unwrap_or(nan), "N/mm")],
        ),
        strength("tear-out", RUPTURE, demand.shear_n, tear)
            .by("0.6 F_u · 2 t (e − d0/2) / Ω", [term("e", e, "mm"), term("d0", d0, "mm")]),
        strength("rivet shear", FASTENER, demand.shear_n, lap.rivet.shear_n)
            .by("P_nvs / Ω, P_nvs by test: the product's least shear load", [term("Ω", OMEGA, "")]),
        strength("rivet tension", FASTENER, demand.tension_n, lap.rivet.tension_n)
            .by("P_nts / Ω, P_nts by test: the product's least tension load", [term("Ω", OMEGA, "")]),
        strength("pull-over", PULL_OVER, demand.tension_n, over).by(
            if lap.panel_edge {
                "0.5 · 1.5 t1 d'_w F_u1 / Ω, eccentric at a panel edge"
            } else {
                "1.5 t1 d'_w F_u1 / Ω"
            },
            [term("t1", t1, "mm"), term("d_w", head.unwrap_or(nan), "mm"), term("F_u1", fu1, "MPa")],
        ),
        combined(lap, demand, bearing, over, standing),
    ];

    let limit = |name: &'static str, least: f64, has: f64| {
        Check::compare(name, LIMITS, (Some(least), Some(has), "mm"), Level::Stated, standing).as_range()
    };
    let limits = vec![
        limit("diameter, least", 2.03, d).by("d ≥ 0.08 in (2.03 mm)", []),
        // 0.25 in exactly; an inch rivet must not fail by the rounding of its own diameter.
        limit("diameter, most", d, 6.35 + 1e-9).by("d ≤ 0.25 in (6.35 mm)", []),
        limit("pitch", 3.0 * d, p).by("spacing ≥ 3 d", [term("d", d, "mm")]),
        limit("end distance", 1.5 * d, e).by("edge ≥ 1.5 d", [term("d", d, "mm")]),
    ];
    (strengths, limits)
}

/// Shear with pull-over: J4.5.1 inside its limits, else a plain sum of the two utilisations, which asks more.
fn combined(lap: &Lap, demand: Demand, bearing: Option<f64>, over: Option<f64>, standing: Standing) -> Check {
    let (t1, t2) = (lap.outer.design_mm, lap.inner.design_mm);
    let within = (0.724..=1.13).contains(&t1)
        && (5.4..=6.35).contains(&lap.rivet.diameter_mm)
        && lap.rivet.head_mm.is_some_and(|dw| dw <= 19.1)
        && lap.outer.fu_mpa.is_some_and(|f| f <= 483.0)
        && t2 / t1 >= 2.5;
    let fu1 = lap.outer.fu_mpa;
    if within {
        let sum = fu1
            .zip(over)
            .map(|(f, over)| demand.shear_n / (2.7 * t1 * lap.rivet.diameter_mm * f) + 0.71 * demand.tension_n / over);
        return Check::compare(
            "shear and tension",
            "AISI S100-16 J4.5.1, by analogy",
            (sum, Some(1.10 / OMEGA_COMBINED), ""),
            Level::Allowable,
            standing,
        )
        .by("V / (2.7 t1 d F_u1) + 0.71 T / P_nov ≤ 1.10 / Ω", [term("Ω", OMEGA_COMBINED, "")]);
    }
    let sum = bearing.zip(over).map(|(b, o)| (demand.shear_n / b + demand.tension_n / o) * OMEGA);
    Check::compare(
        "shear and tension",
        "judgement, where AISI S100-16 J4.5.1 does not apply",
        (sum, Some(1.0), ""),
        Level::Allowable,
        standing.with(Standing::Assumed),
    )
    .by("V Ω / P_nv + T Ω / P_nov ≤ 1", [])
}
