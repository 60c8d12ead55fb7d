//! EN 1993-1-3:2006, 8.3 and Tables 8.1 and 8.2: blind rivets in thin sheet, design values.
//!
//! The tables are cited from memory. Shear, tension and pull-through of a blind rivet are "by test" in Table 8.1: shear
//! and tension come with the rivet, pull-through follows the screw rule of Table 8.2 as a stated analogy.

use crate::check::{Check, Level, Standing, Verdict, significant, term};

use super::spacing::Side;
use super::{Numbers, Plane, ROUNDING, Rules, larger, limit_checks, not_below_nought};

/// Partial factor for joints, EN 1993-1-3:2006, 2(3)P; nationally determined.
pub const GAMMA_M2: f64 = 1.25;

/// Bearing factor α of Table 8.1 for blind rivets.
///
/// `t_mm` is the thinner part, `t1_mm` the thicker. Equal parts: 3.6 √(t/d), at most 2.1; t1 ≥ 2.5 t: 2.1; linear
/// between.
pub fn alpha(t_mm: f64, t1_mm: f64, d_mm: f64) -> f64 {
    let equal = (3.6 * (t_mm / d_mm).sqrt()).min(2.1);
    let share = ((t1_mm / t_mm - 1.0) / 1.5).clamp(0.0, 1.0);
    equal + share * (2.1 - equal)
}

/// Bearing resistance F<sub>b,Rd</sub> of Table 8.1, N: α f<sub>u</sub> d t / γ<sub>M2</sub>, at most
/// f<sub>u</sub> e<sub>1</sub> t / (1.2 γ<sub>M2</sub>).
///
/// `fu_t_n_mm` is the product of strength and thickness, N/mm, the smaller of the two parts where they differ in
/// strength, so that the order of the parts does not matter.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::en_1993_1_3::{alpha, bearing_n};
/// // 1.2 mm on 1.2 mm, rivet 6.4 mm, fu 360 MPa, end distance 9.6 mm: the end distance decides.
/// let resistance = bearing_n(alpha(1.2, 1.2, 6.4), 6.4, 9.6, 360.0 * 1.2);
/// assert!((resistance - 2764.8).abs() < 1e-9);
/// ```
pub fn bearing_n(alpha: f64, d_mm: f64, e1_mm: f64, fu_t_n_mm: f64) -> f64 {
    (alpha * d_mm).min(e1_mm / 1.2) * fu_t_n_mm / GAMMA_M2
}

/// Net-section resistance F<sub>n,Rd</sub> of Table 8.1, N: A<sub>net</sub> f<sub>u</sub> / γ<sub>M2</sub>, on the
/// width of one pitch less the hole.
pub fn net_section_n(pitch_mm: f64, hole_mm: f64, fu_t_n_mm: f64) -> f64 {
    not_below_nought(pitch_mm - hole_mm) * fu_t_n_mm / GAMMA_M2
}

/// Share of d<sub>w</sub> t f<sub>u</sub> / γ<sub>M2</sub> that counts in pull-through: 1 under a steady load, 0.7 of it
/// at a panel's edge, 0.5 under repeated wind wherever the line is.
///
/// EN 1993-1-3:2006, Table 8.2 (screws), by analogy; the half was read, the rest is from memory: 0.7 is the lowest factor
/// of 8.3 for places off the middle. The two reductions are not multiplied.
pub fn pull_through_share(steady: bool, panel_edge: bool) -> f64 {
    match (steady, panel_edge) {
        (false, _) => 0.5,
        (true, true) => 0.7,
        (true, false) => 1.0,
    }
}

/// Pull-through resistance F<sub>p,Rd</sub>, N: the share of [`pull_through_share`] of d<sub>w</sub> t f<sub>u</sub> /
/// γ<sub>M2</sub>.
pub fn pull_through_n(head_mm: f64, fu_t_n_mm: f64, share: f64) -> f64 {
    share * head_mm * fu_t_n_mm / GAMMA_M2
}

/// Every comparison of the tables for two sheets, in numbers alone: single checks explain it, arrays run through it.
#[inline(always)]
pub(super) fn compare(n: &Numbers) -> Rules<6, 2, 8> {
    let (t, t1) = n.by_thickness_mm();
    let fu_t = n.weaker_n_mm();
    let bearing = bearing_n(alpha(t, t1, n.diameter_mm), n.diameter_mm, n.edge_mm, fu_t);
    let net = net_section_n(n.pitch_mm, n.hole_mm, fu_t);
    let share = pull_through_share(n.choices.steady_tension, n.choices.panel_edge);
    let through = pull_through_n(n.head_mm, n.outer_fu_mpa * n.outer_mm, share);
    let (shear, tension) = (n.rivet_shear_n / GAMMA_M2, n.rivet_tension_n / GAMMA_M2);
    // Every line's rivets pull on the first line's net section.
    let sheet = bearing.min(net / n.rows);
    Rules {
        strengths: [
            (n.shear_n, bearing),
            (n.shear_n * n.rows, net),
            (n.shear_n, shear),
            (n.tension_n, tension),
            (n.tension_n, through),
            (n.tension_n / through + larger(n.shear_n / bearing, n.shear_n * n.rows / net), 1.0),
        ],
        conditions: [(1.2 * sheet, shear), (if n.tension_n > 0.0 { through } else { 0.0 }, tension)],
        limits: [
            (n.hole_mm, n.diameter_mm + 0.1 + ROUNDING),
            (2.6, n.diameter_mm + ROUNDING),
            (n.diameter_mm, 6.4 + ROUNDING),
            (1.5 * n.diameter_mm, n.edge_mm + ROUNDING),
            (3.0 * n.diameter_mm, n.pitch_mm + ROUNDING),
            (0.45, t + ROUNDING),
            (t1, 4.0 + ROUNDING),
            (n.outer_fu_mpa.max(n.inner_fu_mpa), 550.0),
        ],
    }
}

/// Names of the checks, in the order in which [`compare`] makes them.
pub(super) const NAMES: [&str; 17] = [
    "bearing",
    "net section",
    "rivet shear",
    "rivet tension",
    "pull-through",
    "shear and tension",
    "ductility in shear",
    "ductility in tension",
    "hole",
    "diameter, least",
    "diameter, most",
    "end distance",
    "pitch",
    "thickness, least",
    "thickness, most",
    "strength",
    "input",
];

const TABLE: &str = "EN 1993-1-3:2006 Table 8.1";
const ANALOGY: &str = "EN 1993-1-3:2006 Table 8.2, by analogy";

pub(super) fn checks(plane: &Plane<'_>) -> (Vec<Check>, Vec<Check>) {
    let n = &plane.numbers;
    let rules = compare(n);
    let standing = plane.standing().with(Standing::Memory);
    let (t, t1) = n.by_thickness_mm();
    let fu_t = n.weaker_n_mm();
    let check = |name: &'static str, clause: &'static str, (asked, has): (f64, f64), unit| {
        Check::compare(name, clause, (Some(asked), Some(has), unit), Level::Design, standing)
    };
    let [bearing, net, shear, tension, through, combined] = rules.strengths;
    let strengths = vec![
        check("bearing", TABLE, bearing, "N").by(
            "F_b,Rd = min(α d, e1/1.2) f_u t / γ_M2, α by t1/t",
            [
                term("t", t, "mm"),
                term("t1", t1, "mm"),
                term("d", n.diameter_mm, "mm"),
                term("e1", n.edge_mm, "mm"),
                term("α", alpha(t, t1, n.diameter_mm), ""),
                term("f_u t", fu_t, "N/mm"),
                term("γ_M2", GAMMA_M2, ""),
            ],
        ),
        check("net section", TABLE, net, "N").by(
            "F_n,Rd = (p − d0) f_u t / γ_M2 for all lines together",
            [
                term("lines", n.rows, ""),
                term("p", n.pitch_mm, "mm"),
                term("d0", n.hole_mm, "mm"),
                term("f_u t", fu_t, "N/mm"),
                term("γ_M2", GAMMA_M2, ""),
            ],
        ),
        check("rivet shear", TABLE, shear, "N").by(
            "F_v,Rd = F_v,Rk / γ_M2, F_v,Rk by test: the product's least shear load",
            [term("F_v,Rk", n.rivet_shear_n, "N"), term("γ_M2", GAMMA_M2, "")],
        ),
        check("rivet tension", TABLE, tension, "N").by(
            "F_t,Rd = F_t,Rk / γ_M2, F_t,Rk by test: the product's least tension load",
            [term("F_t,Rk", n.rivet_tension_n, "N"), term("γ_M2", GAMMA_M2, "")],
        ),
        check("pull-through", ANALOGY, through, "N").by(
            match (n.choices.steady_tension, n.choices.panel_edge) {
                (false, _) => "F_p,Rd = 0.5 d_w t f_u / γ_M2, repeated wind",
                (true, true) => "F_p,Rd = 0.7 d_w t f_u / γ_M2, steady load at a panel edge",
                (true, false) => "F_p,Rd = d_w t f_u / γ_M2, steady load",
            },
            [
                term("d_w", n.head_mm, "mm"),
                term("f_u t", n.outer_fu_mpa * n.outer_mm, "N/mm"),
                term("γ_M2", GAMMA_M2, ""),
            ],
        ),
        check("shear and tension", "EN 1993-1-3:2006 8.3(8)", combined, "")
            .by("F_t,Ed / F_p,Rd + F_v,Ed / min(F_b,Rd, F_n,Rd) ≤ 1", []),
        both_readings(
            deformation(
                check("ductility in shear", TABLE, rules.conditions[0], "N")
                    .by("F_v,Rd ≥ 1.2 F_b,Rd or n_f F_v,Rd ≥ 1.2 F_n,Rd", []),
                "the rivet would shear before the sheet yields round its hole",
            ),
            1.2 * bearing.1.max(net.1 / n.rows),
        ),
        deformation(
            check("ductility in tension", TABLE, rules.conditions[1], "N")
                .by("F_t,Rd ≥ Σ F_p,Rd where the head is pulled", []),
            "the rivet would part before its head pulls through",
        ),
    ];
    let thickness = "EN 1993-1-3:2006 3.2.4";
    let words = [
        ("hole", "EN 1993-1-3:2006 8.3(11)", "d0 ≤ d + 0.1 mm", "mm", Side::Most),
        ("diameter, least", TABLE, "d ≥ 2.6 mm", "mm", Side::Least),
        ("diameter, most", TABLE, "d ≤ 6.4 mm", "mm", Side::Most),
        ("end distance", TABLE, "e1, e2 ≥ 1.5 d", "mm", Side::Least),
        ("pitch", TABLE, "p1, p2 ≥ 3 d", "mm", Side::Least),
        ("thickness, least", thickness, "t_cor ≥ 0.45 mm", "mm", Side::Least),
        ("thickness, most", thickness, "t_cor ≤ 4 mm in joints", "mm", Side::Most),
        ("strength", TABLE, "f_u ≤ 550 MPa", "MPa", Side::Most),
    ];
    (strengths, limit_checks(words, rules.limits, &[term("d", n.diameter_mm, "mm")], standing))
}

/// The two ways in which the condition for ductility is passed on: rivets with "or" (from memory), screws, in the table
/// beside it, with "and" (read). "Or" decides; where the other reading asks for more than there is, the check says so.
fn both_readings(mut check: Check, asked_by_and_n: f64) -> Check {
    if check.verdict == Verdict::Passes && check.capacity.is_some_and(|has_n| asked_by_and_n > has_n) {
        let asked = significant(asked_by_and_n);
        check.reason = Some(format!("by \"or\"; with \"and\", as for screws, {asked} N would be needed"));
    }
    check
}

/// Unmet, the condition is no failure: the table asks that another part of the structure give the deformation, which
/// is not known here.
fn deformation(check: Check, because: &str) -> Check {
    if check.verdict == Verdict::Fails {
        let reason =
            format!("{because}; equal sharing along the line must be shown another way (footnote to the table)");
        return check.demoted(Verdict::NotAssessed, reason);
    }
    check
}
