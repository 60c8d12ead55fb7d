//! EN 1999-1-4:2007 + A1:2011, clause 8: blind rivets in aluminium sheet, design values.
//!
//! The blind-rivet clause (8.2) is cited from memory. Its bearing rule has the form of the screw clause (8.3.2.1), which
//! was read in an extract (123docz.net/trich-doan/4647693): factors, interpolation, the cap on the strength and the
//! treatment of a thinner support.

use crate::check::{Check, Level, Standing, term};

use super::spacing::Side;
use super::{
    Numbers, OWN, Plane, ROUNDING, Rules, larger, limit_checks, lines_share, lines_share_check, not_below_nought,
    own_combination, smaller,
};

/// Partial factor for mechanical fasteners, EN 1999-1-4:2007, 2(3); nationally determined.
pub const GAMMA_M3: f64 = 1.25;

/// Tensile strength that bearing counts at most, MPa.
const MOST_FU_MPA: f64 = 260.0;

/// Tensile strength that pull-through counts at most, MPa; from memory and uncertain.
const MOST_FU_PULLED_MPA: f64 = 220.0;

/// Bearing resistance F<sub>b,Rd</sub>, N: 2.5 f<sub>u,min</sub> √(t³ d) / γ<sub>M3</sub>, at most 1.5 f<sub>u,min</sub>
/// t d / γ<sub>M3</sub>, for equal sheets; 1.5 f<sub>u,min</sub> t d / γ<sub>M3</sub> from t<sub>sup</sub> = 2.5 t;
/// linear between.
///
/// EN 1999-1-4:2007, 8.2.2.1 after the form of 8.3.2.1. `sheet_mm` is under the head, `support_mm` away from it; a
/// thinner support is taken for both. `fu_mpa`, the smaller of the two, counts up to 260 MPa.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::en_1999_1_4::bearing_n;
/// assert!((bearing_n(1.0, 1.0, 4.8, 220.0) - 964.0).abs() < 0.05);
/// ```
pub fn bearing_n(sheet_mm: f64, support_mm: f64, d_mm: f64, fu_mpa: f64) -> f64 {
    let t = sheet_mm.min(support_mm);
    let fu = smaller(fu_mpa, MOST_FU_MPA);
    let plateau = 1.5 * fu * t * d_mm;
    let equal = smaller(2.5 * fu * (t.powi(3) * d_mm).sqrt(), plateau);
    let share = ((support_mm / t - 1.0) / 1.5).clamp(0.0, 1.0);
    (equal + share * (plateau - equal)) / GAMMA_M3
}

/// Net-section resistance F<sub>net,Rd</sub>, N: A<sub>net</sub> f<sub>u</sub> / γ<sub>M3</sub> on the width of one
/// pitch less the hole. EN 1999-1-4:2007, 8.2.2.2, after 8.3.2.2 (read for screws).
pub fn net_section_n(pitch_mm: f64, hole_mm: f64, fu_t_n_mm: f64) -> f64 {
    not_below_nought(pitch_mm - hole_mm) * fu_t_n_mm / GAMMA_M3
}

/// Shear resistance of a rivet with an aluminium body, N: 38 d² / γ<sub>M3</sub>, d in mm.
///
/// EN 1999-1-4:2007, 8.2.2.3, from memory and uncertain: it only ever lowers what the product states.
pub fn aluminium_rivet_shear_n(d_mm: f64) -> f64 {
    38.0 * d_mm.powi(2) / GAMMA_M3
}

/// Tension resistance of a rivet with an aluminium body, N: 47 d² / γ<sub>M3</sub>, d in mm.
///
/// EN 1999-1-4:2007, 8.2.3.3, from memory and uncertain: it only ever lowers what the product states.
pub fn aluminium_rivet_tension_n(d_mm: f64) -> f64 {
    47.0 * d_mm.powi(2) / GAMMA_M3
}

/// Pull-through resistance F<sub>p,Rd</sub>, N: 2.35 α<sub>E</sub> t f<sub>u,o</sub> / γ<sub>M3</sub>, with t in mm and
/// f<sub>u,o</sub>, the sheet's tensile strength, in MPa up to 220. The constant holds millimetres.
///
/// EN 1999-1-4:2007, 8.2.3.1, from memory and uncertain. α<sub>E</sub> is 1.0, and 0.7 at a panel's edge, the clause's
/// lowest factor for eccentric places (judgement).
pub fn pull_through_n(t_mm: f64, fu_mpa: f64, panel_edge: bool) -> f64 {
    let alpha_e = if panel_edge { 0.7 } else { 1.0 };
    2.35 * alpha_e * t_mm * smaller(fu_mpa, MOST_FU_PULLED_MPA) / GAMMA_M3
}

/// Every comparison for two sheets, in numbers alone: single checks explain it, arrays run through it.
#[inline(always)]
pub(super) fn compare(n: &Numbers) -> Rules<7, 1, 9> {
    let d = n.diameter_mm;
    let fu = smaller(n.outer_fu_mpa, n.inner_fu_mpa);
    let bearing = bearing_n(n.outer_mm, n.inner_mm, d, fu);
    let net = net_section_n(n.pitch_mm, n.hole_mm, n.weaker_n_mm());
    // Head and thickness limit the pull-through alone: without a load away from the sheets they say nothing.
    let pulled = n.tension_n > 0.0;
    let head_mm = if pulled { n.head_mm } else { 9.5 };
    let through = pull_through_n(n.outer_mm, n.outer_fu_mpa, n.choices.panel_edge) + 0.0 * head_mm;
    let of_body = |product_n: f64, aluminium_n: f64| {
        if n.aluminium_rivet { smaller(product_n / GAMMA_M3, aluminium_n) } else { product_n / GAMMA_M3 }
    };
    let shear = of_body(n.rivet_shear_n, aluminium_rivet_shear_n(d));
    let tension = of_body(n.rivet_tension_n, aluminium_rivet_tension_n(d));
    Rules {
        strengths: [
            (n.shear_n, bearing),
            (n.shear_n * n.rows, net),
            (n.shear_n, shear),
            (n.tension_n, tension),
            (n.tension_n, through),
            (n.tension_n / through + larger(n.shear_n / bearing, n.shear_n * n.rows / net), 1.0),
            (n.shear_n / shear + n.tension_n / tension, 1.0),
        ],
        conditions: [lines_share(n, smaller(bearing, net / n.rows), shear)],
        limits: [
            (n.hole_mm, d + 0.1 + ROUNDING),
            (2.6, d + ROUNDING),
            (d, 6.4 + ROUNDING),
            (2.0 * d, n.edge_mm + ROUNDING),
            (3.0 * d, n.pitch_mm + ROUNDING),
            (9.5, head_mm + ROUNDING),
            (if pulled { n.outer_mm } else { 0.0 }, 1.5 + ROUNDING),
            (0.5, n.by_thickness_mm().0 + ROUNDING),
            (n.by_thickness_mm().1, 6.0 + ROUNDING),
        ],
    }
}

/// Names of the checks, in the order in which [`compare`] makes them.
pub(super) const NAMES: [&str; 18] = [
    "bearing",
    "net section",
    "rivet shear",
    "rivet tension",
    "pull-through",
    "shear and tension",
    "rivet shear and tension",
    "ductility in shear",
    "hole",
    "diameter, least",
    "diameter, most",
    "end distance",
    "pitch",
    "head, least",
    "thickness, pulled",
    "thickness, least",
    "thickness, most",
    "input",
];

const BEARING: &str = "EN 1999-1-4:2007 8.2.2.1";
const NET: &str = "EN 1999-1-4:2007 8.2.2.2";
const RIVET: &str = "EN 1999-1-4:2007 8.2";
const THROUGH: &str = "EN 1999-1-4:2007 8.2.3.1";

pub(super) fn checks(plane: &Plane<'_>) -> (Vec<Check>, Vec<Check>) {
    let n = &plane.numbers;
    let rules = compare(n);
    let standing = plane.standing().with(Standing::Memory);
    let check = |name: &'static str, clause: &'static str, (asked, has): (f64, f64), unit| {
        Check::compare(name, clause, (Some(asked), Some(has), unit), Level::Design, standing)
    };
    let gamma = term("γ_M3", GAMMA_M3, "");
    let d = term("d", n.diameter_mm, "mm");
    let [bearing, net, shear, tension, through, combined, body] = rules.strengths;
    let mut strengths = vec![
        check("bearing", BEARING, bearing, "N").by(
            "F_b,Rd = min(2.5 f_u,min √(t³ d), 1.5 f_u,min t d) / γ_M3 for t_sup = t, 1.5 f_u,min t d / γ_M3 from \
             t_sup = 2.5 t, linear between; f_u,min ≤ 260 MPa",
            [
                term("t", n.outer_mm, "mm"),
                term("t_sup", n.inner_mm, "mm"),
                d,
                term("f_u,min", smaller(n.outer_fu_mpa, n.inner_fu_mpa), "MPa"),
                gamma,
            ],
        ),
        check("net section", NET, net, "N").by(
            "F_net,Rd = (p − d0) f_u t / γ_M3 for all lines together",
            [
                term("lines", n.rows, ""),
                term("p", n.pitch_mm, "mm"),
                term("d0", n.hole_mm, "mm"),
                term("f_u t", n.weaker_n_mm(), "N/mm"),
                gamma,
            ],
        ),
        check("rivet shear", RIVET, shear, "N").by(
            if n.aluminium_rivet {
                "F_v,Rd = min(F_v,Rk, 38 d²) / γ_M3: the product's least shear load, body of aluminium or not known"
            } else {
                "F_v,Rd = F_v,Rk / γ_M3: the product's least shear load"
            },
            [term("F_v,Rk", n.rivet_shear_n, "N"), d, gamma],
        ),
        check("rivet tension", RIVET, tension, "N").by(
            if n.aluminium_rivet {
                "F_t,Rd = min(F_t,Rk, 47 d²) / γ_M3: the product's least tension load, body of aluminium or not known"
            } else {
                "F_t,Rd = F_t,Rk / γ_M3: the product's least tension load"
            },
            [term("F_t,Rk", n.rivet_tension_n, "N"), d, gamma],
        ),
        check("pull-through", THROUGH, through, "N").by(
            if n.choices.panel_edge {
                "F_p,Rd = 2.35 α_E t f_u,o / γ_M3 with α_E = 0.7 at a panel edge, f_u,o ≤ 220 MPa, t in mm"
            } else {
                "F_p,Rd = 2.35 α_E t f_u,o / γ_M3 with α_E = 1, f_u,o ≤ 220 MPa, t in mm"
            },
            [term("t", n.outer_mm, "mm"), term("f_u,o", n.outer_fu_mpa, "MPa"), gamma],
        ),
        check("shear and tension", RIVET, combined, "").by("F_t,Ed / F_p,Rd + F_v,Ed / min(F_b,Rd, F_net,Rd) ≤ 1", []),
        own_combination(check("rivet shear and tension", OWN, body, "")),
    ];
    strengths.extend(lines_share_check(n, rules.conditions[0], Level::Design, standing));
    let words = [
        ("hole", RIVET, "d0 ≤ d + 0.1 mm", "mm", Side::Most),
        ("diameter, least", RIVET, "d ≥ 2.6 mm", "mm", Side::Least),
        ("diameter, most", RIVET, "d ≤ 6.4 mm", "mm", Side::Most),
        ("end distance", RIVET, "e1 ≥ 2 d", "mm", Side::Least),
        ("pitch", RIVET, "p1, p2 ≥ 3 d", "mm", Side::Least),
        ("head, least", THROUGH, "d_w ≥ 9.5 mm where the head is pulled", "mm", Side::Least),
        ("thickness, pulled", THROUGH, "t ≤ 1.5 mm where the head is pulled", "mm", Side::Most),
        ("thickness, least", "EN 1999-1-4:2007, scope", "t ≥ 0.5 mm", "mm", Side::Least),
        ("thickness, most", "judgement", "t ≤ 6 mm: sheet", "mm", Side::Most),
    ];
    (strengths, limit_checks(words, rules.limits, &[d], standing))
}
