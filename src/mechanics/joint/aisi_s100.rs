//! AISI S100-16, J4 and J6: the screw rules used for blind rivets by analogy; J3.3 for bolts in [`bolts`].
//!
//! The rules are written for screws; handbooks ask for tests or product data where rivets are used. Every result is
//! marked as an analogy. Strengths are nominal; [`Factor`] makes them allowable or factored.

pub mod bolts;

use std::str::FromStr;

use crate::check::{Check, Standing, Term, term};
use crate::error::{Problem, by_name};

use super::spacing::Side;
use super::{
    Format, Method, Numbers, OWN, Plane, ROUNDING, Rules, limit_checks, lines_share, lines_share_check,
    not_below_nought, own_combination, smaller,
};

/// What turns a nominal strength into one that loads are compared with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factor {
    /// Safety factor Ω, allowable strength design.
    pub omega: f64,
    /// Resistance factor φ, load and resistance factor design.
    pub phi: f64,
}

/// Screws, AISI S100-16, J4 and J6 (Ω and φ read in an extract).
pub const SCREWS: Factor = Factor { omega: 3.00, phi: 0.50 };

/// Shear with pull-over, AISI S100-16, J4.5.1 (from memory).
pub const COMBINED: Factor = Factor { omega: 2.35, phi: 0.65 };

impl Factor {
    /// The strength to compare with loads of this format.
    pub fn available(self, nominal: f64, format: Format) -> f64 {
        match format {
            Format::Allowable => nominal / self.omega,
            Format::Factored => nominal * self.phi,
        }
    }

    fn term(self, format: Format) -> Term {
        match format {
            Format::Allowable => term("Ω", self.omega, ""),
            Format::Factored => term("φ", self.phi, ""),
        }
    }
}

/// Which thickness the lower end of the interpolation of J4.3.1 is worked with; published tables differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LowerAnchor {
    /// The rule for equal parts with the far part as thin as the near one: the lower value.
    #[default]
    EqualParts,
    /// The rule for equal parts with the real thicknesses.
    RealParts,
}

impl LowerAnchor {
    /// Both readings.
    pub const ALL: [Self; 2] = [Self::EqualParts, Self::RealParts];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::EqualParts => "equal parts",
            Self::RealParts => "real parts",
        }
    }
}

impl FromStr for LowerAnchor {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("lower_anchor", "reading", text, &Self::ALL, Self::name)
    }
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
/// 1.10 / Ω or 1.10 φ, where it applies; elsewhere the plain sum of the two utilisations, which asks more (judgement).
fn combined(n: &Numbers, bearing_n: f64, over_n: f64, by_rule: bool, format: Format) -> (f64, f64) {
    if by_rule {
        let shear = n.shear_n / (2.7 * n.outer_mm * n.diameter_mm * n.outer_fu_mpa);
        (shear + 0.71 * n.tension_n / over_n, COMBINED.available(1.10, format))
    } else {
        (n.shear_n / bearing_n + n.tension_n / SCREWS.available(over_n, format), 1.0)
    }
}

/// The strengths that screws and bolts have in common, round their own bearing strength, which is already divided by its
/// factor.
fn strengths(n: &Numbers, bearing_n: f64, rupture: Factor, by_rule: bool, format: Format) -> [(f64, f64); 8] {
    let fu_t = n.weaker_n_mm();
    let over = pull_over_n(n.outer_mm, n.head_mm, n.outer_fu_mpa, n.choices.panel_edge);
    let net = net_section_n(n.pitch_mm, n.hole_mm, n.diameter_mm, fu_t);
    let (shear, tension) = (SCREWS.available(n.rivet_shear_n, format), SCREWS.available(n.rivet_tension_n, format));
    [
        (n.shear_n, bearing_n),
        (n.shear_n * n.rows, rupture.available(net, format)),
        (n.shear_n, rupture.available(tear_out_n(n.edge_mm, n.hole_mm, fu_t), format)),
        (n.shear_n, shear),
        (n.tension_n, tension),
        (n.tension_n, SCREWS.available(over, format)),
        combined(n, bearing_n, over, by_rule, format),
        (n.shear_n / shear + n.tension_n / tension, 1.0),
    ]
}

/// The condition for sharing among lines, of the strengths above.
fn sharing(n: &Numbers, strengths: &[(f64, f64); 8]) -> (f64, f64) {
    let [(_, bearing), (_, net), (_, tear), (_, shear), ..] = *strengths;
    lines_share(n, smaller(smaller(bearing, tear), net / n.rows), shear)
}

/// Nominal strength in tilting and bearing of these sheets, N; not a number where a strength is unknown.
fn screw_bearing_n(n: &Numbers) -> f64 {
    let (t1, t2, anchor) = (n.outer_mm, n.inner_mm, n.choices.lower_anchor);
    // The least of several passes over what is not a number: where one strength is unknown, so is the result.
    tilting_and_bearing_n(t1, t2, n.diameter_mm, n.outer_fu_mpa, n.inner_fu_mpa, anchor) + 0.0 * n.weaker_n_mm()
}

/// Every comparison of J4 and J6 for two sheets, in numbers alone: single checks explain it, arrays run through it.
#[inline(always)]
pub(super) fn compare(n: &Numbers, format: Format) -> Rules<8, 1, 8> {
    let d = n.diameter_mm;
    let bearing = SCREWS.available(screw_bearing_n(n), format);
    let (t, t1) = n.by_thickness_mm();
    let strengths = strengths(n, bearing, SCREWS, combined_rule_applies(n), format);
    Rules {
        strengths,
        conditions: [sharing(n, &strengths)],
        limits: [
            (2.03, d + ROUNDING),
            (d, 6.35 + ROUNDING),
            (3.0 * d, n.pitch_mm + ROUNDING),
            (1.5 * d, n.edge_mm + ROUNDING),
            (n.hole_mm, d + FILLED_MM + ROUNDING),
            (0.45, t + ROUNDING),
            (t1, 4.76 + ROUNDING),
            (n.outer_fu_mpa.max(n.inner_fu_mpa), 550.0),
        ],
    }
}

/// A hole this much wider than the rivet still fills when it is set, mm: 1/64 in, as for wide-tolerance structural rivets
/// (judgement; screws have no hole).
const FILLED_MM: f64 = 0.4;

/// Names of the checks, in the order in which [`compare`] makes them.
pub(super) const NAMES: [&str; 18] = [
    "bearing",
    "net section",
    "tear-out",
    "rivet shear",
    "rivet tension",
    "pull-over",
    "shear and tension",
    "rivet shear and tension",
    "ductility in shear",
    "diameter, least",
    "diameter, most",
    "pitch",
    "end distance",
    "hole",
    "thickness, least",
    "thickness, most",
    "strength",
    "input",
];

const SCREW_BEARING: &str = "AISI S100-16 J4.3.1, by analogy";
const PULL_OVER: &str = "AISI S100-16 J4.4.2, by analogy";
const RUPTURE: &str = "AISI S100-16 J6, by analogy";
const FASTENER: &str = "AISI S100-16 J4.3.2 and J4.4.3, by analogy";
const LIMITS: &str = "AISI S100-16 J4, by analogy";

pub(super) fn checks(plane: &Plane<'_>, format: Format) -> (Vec<Check>, Vec<Check>) {
    let n = &plane.numbers;
    let rules = compare(n, format);
    let explain = Explain { plane, format, rupture: SCREWS };
    let bearing = explain.check("bearing", SCREW_BEARING, rules.strengths[0], "N").by(
        match n.choices.lower_anchor {
            LowerAnchor::EqualParts => {
                "P_nv: least of 4.2 √(t2³ d) F_u2, 2.7 t1 d F_u1, 2.7 t2 d F_u2 by t2/t1 (lower anchor: equal parts, \
                 the lower reading)"
            }
            LowerAnchor::RealParts => {
                "P_nv: least of 4.2 √(t2³ d) F_u2, 2.7 t1 d F_u1, 2.7 t2 d F_u2 by t2/t1 (lower anchor: real parts, \
                 the higher reading)"
            }
        },
        [
            term("t1", n.outer_mm, "mm"),
            term("t2", n.inner_mm, "mm"),
            term("d", n.diameter_mm, "mm"),
            term("F_u1", n.outer_fu_mpa, "MPa"),
            term("F_u2", n.inner_fu_mpa, "MPa"),
            term("P_nv", screw_bearing_n(n), "N"),
            SCREWS.term(format),
        ],
    );
    let words = [
        ("diameter, least", LIMITS, "d ≥ 0.08 in (2.03 mm)", "mm", Side::Least),
        ("diameter, most", LIMITS, "d ≤ 0.25 in (6.35 mm)", "mm", Side::Most),
        ("pitch", LIMITS, "spacing ≥ 3 d", "mm", Side::Least),
        ("end distance", LIMITS, "edge ≥ 1.5 d", "mm", Side::Least),
        ("hole", "judgement", "d0 ≤ d + 0.4 mm (1/64 in)", "mm", Side::Most),
        ("thickness, least", "judgement, after EN 1993-1-3:2006 3.2.4", "t ≥ 0.45 mm", "mm", Side::Least),
        ("thickness, most", "AISI S100-16 J, scope", "t ≤ 3/16 in (4.76 mm)", "mm", Side::Most),
        ("strength", "judgement, after EN 1993-1-3:2006 Table 8.1", "F_u ≤ 550 MPa", "MPa", Side::Most),
    ];
    let d = [term("d", n.diameter_mm, "mm")];
    let limits = limit_checks(words, rules.limits, &d, explain.standing());
    (explain.strengths(bearing, &rules, combined_rule_applies(n)), limits)
}

/// What the explained checks of screws and bolts need.
struct Explain<'a> {
    plane: &'a Plane<'a>,
    format: Format,
    rupture: Factor,
}

impl Explain<'_> {
    fn standing(&self) -> Standing {
        self.plane.standing().with(Standing::Memory)
    }

    fn check(&self, name: &'static str, clause: &'static str, (asked, has): (f64, f64), unit: &'static str) -> Check {
        let level = Method::AisiS100(self.format).level();
        Check::compare(name, clause, (Some(asked), Some(has), unit), level, self.standing())
    }

    /// The checks in the order of [`strengths`], the bearing check being made already. Each shows its nominal strength.
    fn strengths<const L: usize>(&self, bearing: Check, rules: &Rules<8, 1, L>, by_rule: bool) -> Vec<Check> {
        let n = &self.plane.numbers;
        let (fu_t, screws, rupture) = (n.weaker_n_mm(), SCREWS.term(self.format), self.rupture.term(self.format));
        let over_n = pull_over_n(n.outer_mm, n.head_mm, n.outer_fu_mpa, n.choices.panel_edge);
        let net_n = net_section_n(n.pitch_mm, n.hole_mm, n.diameter_mm, fu_t);
        let lag = n.diameter_mm / n.pitch_mm;
        let [_, net, tear, shear, tension, over, both, body] = rules.strengths;
        let combined = if by_rule {
            self.check("shear and tension", "AISI S100-16 J4.5.1, by analogy", both, "")
                .by("V / (2.7 t1 d F_u1) + 0.71 T / P_nov ≤ 1.10 / Ω, or 1.10 φ", [COMBINED.term(self.format)])
        } else {
            let check =
                self.check("shear and tension", "judgement, where AISI S100-16 J4.5.1 does not apply", both, "");
            Check { standing: self.standing().with(Standing::Assumed), ..check }
                .by("V / P_av + T / P_aov ≤ 1, P_a the strengths above", [])
        };
        let mut checks = vec![
            bearing,
            self.check("net section", RUPTURE, net, "N").by(
                "P_n = F_u (s − d0) t · min(1, 2.5 d/s) for all lines together",
                [
                    term("lines", n.rows, ""),
                    term("s", n.pitch_mm, "mm"),
                    term("d0", n.hole_mm, "mm"),
                    term("F_u t", fu_t, "N/mm"),
                    term("2.5 d/s, edition before 2016, used", (2.5 * lag).min(1.0), ""),
                    term("0.9 + 0.1 d/s, 2016, from memory, not used", (0.9 + 0.1 * lag).min(1.0), ""),
                    term("P_n", net_n, "N"),
                    rupture,
                ],
            ),
            self.check("tear-out", RUPTURE, tear, "N").by(
                "P_n = 0.6 F_u · 2 t (e − d0/2)",
                [
                    term("e", n.edge_mm, "mm"),
                    term("d0", n.hole_mm, "mm"),
                    term("F_u t", fu_t, "N/mm"),
                    term("P_n", tear_out_n(n.edge_mm, n.hole_mm, fu_t), "N"),
                    rupture,
                ],
            ),
            self.check("rivet shear", FASTENER, shear, "N")
                .by("P_nvs by test: the product's least shear load", [term("P_nvs", n.rivet_shear_n, "N"), screws]),
            self.check("rivet tension", FASTENER, tension, "N")
                .by("P_nts by test: the product's least tension load", [term("P_nts", n.rivet_tension_n, "N"), screws]),
            self.check("pull-over", PULL_OVER, over, "N").by(
                if n.choices.panel_edge {
                    "P_nov = 0.5 · 1.5 t1 d'_w F_u1, eccentric at a panel edge"
                } else {
                    "P_nov = 1.5 t1 d'_w F_u1"
                },
                [
                    term("t1", n.outer_mm, "mm"),
                    term("d'_w", smaller(n.head_mm, 19.1), "mm"),
                    term("F_u1", n.outer_fu_mpa, "MPa"),
                    term("P_nov", over_n, "N"),
                    screws,
                ],
            ),
            combined,
            own_combination(self.check("rivet shear and tension", OWN, body, "")),
        ];
        let level = Method::AisiS100(self.format).level();
        checks.extend(lines_share_check(n, rules.conditions[0], level, self.standing()));
        checks
    }
}
