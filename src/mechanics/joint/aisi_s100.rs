//! AISI S100-16, J4 and J6: the screw rules used for blind rivets by analogy, allowable strengths.
//!
//! The rules are written for screws; handbooks ask for tests or product data where rivets are used. Every result is
//! marked as an analogy.

use crate::check::{Check, Level, Standing, term};

use super::{Demand, Lap, Numbers, ROUNDING, Rules, not_below_nought, smaller};

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
    1.5 * t1_mm * smaller(head_mm, 19.1) * fu1_mpa * if eccentric { 0.5 } else { 1.0 }
}

/// Nominal strength of the net section on the width of one pitch, N: Fu (s − d0) t U.
///
/// AISI S100-16, J6.2. For the shear lag factor U of a single row without washers the older form 2.5 d/s ≤ 1 is taken:
/// it is lower than 0.9 + 0.1 d/s of the 2016 edition, which could not be confirmed.
pub fn net_section_n(pitch_mm: f64, hole_mm: f64, d_mm: f64, fu_t_n_mm: f64) -> f64 {
    not_below_nought(pitch_mm - hole_mm) * fu_t_n_mm * (2.5 * d_mm / pitch_mm).min(1.0)
}

/// Nominal strength in tear-out to the sheet's end, N: 0.6 Fu · 2 t e<sub>net</sub>.
///
/// AISI S100-16, J6.1; e<sub>net</sub> is the clear distance from the hole's edge to the end of the sheet.
pub fn tear_out_n(edge_mm: f64, hole_mm: f64, fu_t_n_mm: f64) -> f64 {
    0.6 * 2.0 * not_below_nought(edge_mm - hole_mm / 2.0) * fu_t_n_mm
}

/// Whether J4.5.1, shear with pull-over, covers this lap: sheet 0.724 to 1.13 mm under the head, No. 12 to 14 screws,
/// head at most 19.1 mm, F<sub>u1</sub> at most 483 MPa, t2/t1 at least 2.5.
fn combined_rule_applies(n: &Numbers) -> bool {
    (0.724..=1.13).contains(&n.outer_mm)
        && (5.4..=6.35 + ROUNDING).contains(&n.diameter_mm)
        && n.head_mm <= 19.1
        && n.outer_fu_mpa <= 483.0
        && n.inner_mm >= 2.5 * n.outer_mm
}

/// Shear with pull-over, demand and capacity without unit: J4.5.1, V / (2.7 t1 d Fu1) + 0.71 T / P<sub>nov</sub> ≤
/// 1.10 / Ω, where it applies; elsewhere the plain sum of the two utilisations, which asks more (judgement).
fn combined(n: &Numbers, bearing_nominal_n: f64, over_nominal_n: f64) -> (f64, f64) {
    let by_rule = n.shear_n / (2.7 * n.outer_mm * n.diameter_mm * n.outer_fu_mpa) + 0.71 * n.tension_n / over_nominal_n;
    let by_sum = (n.shear_n / bearing_nominal_n + n.tension_n / over_nominal_n) * OMEGA;
    if combined_rule_applies(n) { (by_rule, 1.10 / OMEGA_COMBINED) } else { (by_sum, 1.0) }
}

/// Every comparison of J4 and J6 for one lap, in numbers alone: single checks explain it, arrays run through it.
pub(super) fn compare(n: &Numbers) -> Rules<7, 0, 4> {
    let (t1, t2, d) = (n.outer_mm, n.inner_mm, n.diameter_mm);
    let fu_t = smaller(n.outer_fu_mpa * t1, n.inner_fu_mpa * t2);
    // The least of several passes over what is not a number: where one strength is unknown, so is the result.
    let bearing = tilting_and_bearing_n(t1, t2, d, n.outer_fu_mpa, n.inner_fu_mpa, LowerAnchor::default()) + 0.0 * fu_t;
    let over = pull_over_n(t1, n.head_mm, n.outer_fu_mpa, n.panel_edge);
    Rules {
        strengths: [
            (n.shear_n, bearing / OMEGA),
            (n.shear_n, net_section_n(n.pitch_mm, n.hole_mm, d, fu_t) / OMEGA),
            (n.shear_n, tear_out_n(n.edge_mm, n.hole_mm, fu_t) / OMEGA),
            (n.shear_n, n.rivet_shear_n / OMEGA),
            (n.tension_n, n.rivet_tension_n / OMEGA),
            (n.tension_n, over / OMEGA),
            combined(n, bearing, over),
        ],
        conditions: [],
        limits: [
            (2.03, d + ROUNDING),
            (d, 6.35 + ROUNDING),
            (3.0 * d, n.pitch_mm + ROUNDING),
            (1.5 * d, n.edge_mm + ROUNDING),
        ],
    }
}

/// Names of the checks, in the order in which [`compare`] makes them.
pub(super) const NAMES: [&str; 12] = [
    "bearing",
    "net section",
    "tear-out",
    "rivet shear",
    "rivet tension",
    "pull-over",
    "shear and tension",
    "diameter, least",
    "diameter, most",
    "pitch",
    "end distance",
    "input",
];

const SCREWS: &str = "AISI S100-16 J4.3.1, by analogy";
const PULL_OVER: &str = "AISI S100-16 J4.4.2, by analogy";
const RUPTURE: &str = "AISI S100-16 J6, by analogy";
const FASTENER: &str = "AISI S100-16 J4.3.2 and J4.4.3, by analogy";
const LIMITS: &str = "AISI S100-16 J4, by analogy";

pub(super) fn checks(lap: &Lap, demand: Demand) -> (Vec<Check>, Vec<Check>) {
    let n = Numbers::of(lap, demand);
    let rules = compare(&n);
    let standing = lap.standing().with(Standing::Memory);
    let fu_t = smaller(n.outer_fu_mpa * n.outer_mm, n.inner_fu_mpa * n.inner_mm);
    let check = |name: &'static str, clause: &'static str, (asked, has): (f64, f64), unit| {
        Check::compare(name, clause, (Some(asked), Some(has), unit), Level::Allowable, standing)
    };
    let omega = term("Ω", OMEGA, "");
    let [bearing, net, tear, shear, tension, over, both] = rules.strengths;
    let combined = if combined_rule_applies(&n) {
        check("shear and tension", "AISI S100-16 J4.5.1, by analogy", both, "")
            .by("V / (2.7 t1 d F_u1) + 0.71 T / P_nov ≤ 1.10 / Ω", [term("Ω", OMEGA_COMBINED, "")])
    } else {
        let check = check("shear and tension", "judgement, where AISI S100-16 J4.5.1 does not apply", both, "");
        Check { standing: standing.with(Standing::Assumed), ..check }.by("V Ω / P_nv + T Ω / P_nov ≤ 1", [omega])
    };
    let strengths = vec![
        check("bearing", SCREWS, bearing, "N").by(
            "P_nv / Ω: least of 4.2 √(t2³ d) F_u2, 2.7 t1 d F_u1, 2.7 t2 d F_u2 by t2/t1 (lower anchor: equal parts)",
            [
                term("t1", n.outer_mm, "mm"),
                term("t2", n.inner_mm, "mm"),
                term("d", n.diameter_mm, "mm"),
                term("F_u1", n.outer_fu_mpa, "MPa"),
                term("F_u2", n.inner_fu_mpa, "MPa"),
                omega,
            ],
        ),
        check("net section", RUPTURE, net, "N").by(
            "F_u (s − d0) t · min(1, 2.5 d/s) / Ω",
            [term("s", n.pitch_mm, "mm"), term("d0", n.hole_mm, "mm"), term("F_u t", fu_t, "N/mm"), omega],
        ),
        check("tear-out", RUPTURE, tear, "N").by(
            "0.6 F_u · 2 t (e − d0/2) / Ω",
            [term("e", n.edge_mm, "mm"), term("d0", n.hole_mm, "mm"), term("F_u t", fu_t, "N/mm"), omega],
        ),
        check("rivet shear", FASTENER, shear, "N").by(
            "P_nvs / Ω, P_nvs by test: the product's least shear load",
            [term("P_nvs", n.rivet_shear_n, "N"), omega],
        ),
        check("rivet tension", FASTENER, tension, "N").by(
            "P_nts / Ω, P_nts by test: the product's least tension load",
            [term("P_nts", n.rivet_tension_n, "N"), omega],
        ),
        check("pull-over", PULL_OVER, over, "N").by(
            if lap.panel_edge {
                "0.5 · 1.5 t1 d'_w F_u1 / Ω, eccentric at a panel edge"
            } else {
                "1.5 t1 d'_w F_u1 / Ω"
            },
            [term("t1", n.outer_mm, "mm"), term("d_w", n.head_mm, "mm"), term("F_u1", n.outer_fu_mpa, "MPa"), omega],
        ),
        combined,
    ];
    let words = [
        ("diameter, least", "d ≥ 0.08 in (2.03 mm)"),
        ("diameter, most", "d ≤ 0.25 in (6.35 mm)"),
        ("pitch", "spacing ≥ 3 d"),
        ("end distance", "edge ≥ 1.5 d"),
    ];
    let d = term("d", n.diameter_mm, "mm");
    let limits = words.into_iter().zip(rules.limits).map(|((name, formula), limit)| {
        Check { level: Level::Stated, ..check(name, LIMITS, limit, "mm") }.as_range().by(formula, [d])
    });
    (strengths, limits.collect())
}
