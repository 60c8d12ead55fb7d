//! AISI S100-16, J3.3 and J6: the bolt rules used for blind rivets by analogy. Bearing and rupture are those of bolts;
//! pull-over and the rivet's own strengths stay those of screws, for a rivet is set, not tightened.

use crate::check::{Check, term};

use super::super::spacing::Side;
use super::super::{Format, Numbers, Plane, ROUNDING, Rules, limit_checks, smaller};
use super::{Explain, Factor, sharing, strengths};

/// Bearing without regard to hole deformation, AISI S100-16, J3.3.1 (φ read, Ω from memory).
pub const BEARING: Factor = Factor { omega: 2.50, phi: 0.60 };

/// Bearing with hole deformation considered, AISI S100-16, J3.3.2 (φ read, Ω from memory).
pub const DEFORMATION: Factor = Factor { omega: 2.22, phi: 0.65 };

/// Rupture, AISI S100-16, J6 (from memory).
pub const RUPTURE: Factor = Factor { omega: 2.22, phi: 0.65 };

/// m<sub>f</sub> of a single shear joint without washers, AISI S100-16, table J3.3.1-2. A rivet has none.
const WITHOUT_WASHERS: f64 = 0.75;

/// Bearing factor C: 3.0 for d/t below 10, 4 − 0.1 d/t up to 22, 1.8 above. AISI S100-16, table J3.3.1-1, from memory.
pub fn bearing_factor(d_mm: f64, t_mm: f64) -> f64 {
    (4.0 - 0.1 * d_mm / t_mm).clamp(1.8, 3.0)
}

/// Nominal bearing strength of a sheet round one bolt, N: C m<sub>f</sub> d t F<sub>u</sub>, m<sub>f</sub> = 0.75.
///
/// AISI S100-16, J3.3.1; the formula was read, the factors are from memory.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::aisi_s100::bolts::bearing_n;
/// // 3/8 in bolt in 0.06 in sheet of 55 ksi: 2.78 kip.
/// let nominal = bearing_n(0.06 * 25.4, 0.375 * 25.4, 55.0 * 6.894_757);
/// assert!((nominal / 4448.222 - 2.78).abs() < 0.005);
/// ```
pub fn bearing_n(t_mm: f64, d_mm: f64, fu_mpa: f64) -> f64 {
    bearing_factor(d_mm, t_mm) * WITHOUT_WASHERS * d_mm * t_mm * fu_mpa
}

/// Nominal bearing strength where the stretching of the hole counts, N: (4.64 α t + 1.53) d t F<sub>u</sub>, α = 0.0394
/// for t in mm. AISI S100-16, J3.3.2 (read).
pub fn stretching_n(t_mm: f64, d_mm: f64, fu_mpa: f64) -> f64 {
    (4.64 * 0.0394 * t_mm + 1.53) * d_mm * t_mm * fu_mpa
}

/// What the sheet holds round one bolt by both rules, divided by their factors, N; the second only where it counts.
fn available_n(t_mm: f64, fu_mpa: f64, n: &Numbers, format: Format) -> f64 {
    let strength = BEARING.available(bearing_n(t_mm, n.diameter_mm, fu_mpa), format);
    if n.choices.holes_may_stretch {
        return strength;
    }
    smaller(strength, DEFORMATION.available(stretching_n(t_mm, n.diameter_mm, fu_mpa), format))
}

/// Every comparison of J3.3 and J6 for two sheets, in numbers alone: single checks explain it, arrays run through it.
#[inline(always)]
pub(in super::super) fn compare(n: &Numbers, format: Format) -> Rules<8, 1, 6> {
    let (t, t1) = n.by_thickness_mm();
    let d = n.diameter_mm;
    let bearing =
        smaller(available_n(n.outer_mm, n.outer_fu_mpa, n, format), available_n(n.inner_mm, n.inner_fu_mpa, n, format));
    let strengths = strengths(n, bearing, RUPTURE, false, format);
    Rules {
        strengths,
        conditions: [sharing(n, &strengths)],
        limits: [
            (n.hole_mm, d + 0.8 + ROUNDING),
            (3.0 * d, n.pitch_mm + ROUNDING),
            (1.5 * d, n.edge_mm + ROUNDING),
            (0.61, t + ROUNDING),
            // The rule says "less than 4.76 mm".
            (t1, 4.76 - ROUNDING),
            (n.outer_fu_mpa.max(n.inner_fu_mpa), 550.0),
        ],
    }
}

/// Names of the checks, in the order in which [`compare`] makes them.
pub(in super::super) const NAMES: [&str; 16] = [
    "bearing",
    "net section",
    "tear-out",
    "rivet shear",
    "rivet tension",
    "pull-over",
    "shear and tension",
    "rivet shear and tension",
    "ductility in shear",
    "hole",
    "pitch",
    "end distance",
    "thickness, least",
    "thickness, most",
    "strength",
    "input",
];

const CLAUSE: &str = "AISI S100-16 J3.3, by analogy";
const LIMITS: &str = "AISI S100-16 J3, by analogy";

pub(in super::super) fn checks(plane: &Plane<'_>, format: Format) -> (Vec<Check>, Vec<Check>) {
    let n = &plane.numbers;
    let rules = compare(n, format);
    let explain = Explain { plane, format, rupture: RUPTURE };
    let (d, mut terms) = (n.diameter_mm, Vec::new());
    for (t, fu) in [(n.outer_mm, n.outer_fu_mpa), (n.inner_mm, n.inner_fu_mpa)] {
        terms.extend([
            term("t", t, "mm"),
            term("F_u", fu, "MPa"),
            term("C", bearing_factor(d, t), ""),
            term("P_n of J3.3.1", bearing_n(t, d, fu), "N"),
            term("P_n of J3.3.2", stretching_n(t, d, fu), "N"),
        ]);
    }
    terms.extend([term("d", d, "mm"), term("m_f", WITHOUT_WASHERS, "")]);
    terms.extend([BEARING.term(format), DEFORMATION.term(format)]);
    let formula = if n.choices.holes_may_stretch {
        "P_n = C m_f d t F_u (J3.3.1), of either sheet; holes may stretch"
    } else {
        "P_n = C m_f d t F_u (J3.3.1) and (4.64 α t + 1.53) d t F_u (J3.3.2), of either sheet"
    };
    let bearing = explain.check("bearing", CLAUSE, rules.strengths[0], "N").by(formula, terms);
    let words = [
        ("hole", LIMITS, "d0 ≤ d + 1/32 in (0.8 mm)", "mm", Side::Most),
        ("pitch", LIMITS, "spacing ≥ 3 d", "mm", Side::Least),
        ("end distance", LIMITS, "edge ≥ 1.5 d", "mm", Side::Least),
        ("thickness, least", LIMITS, "t ≥ 0.61 mm", "mm", Side::Least),
        ("thickness, most", LIMITS, "t < 4.76 mm", "mm", Side::Most),
        ("strength", "judgement, after EN 1993-1-3:2006 Table 8.1", "F_u ≤ 550 MPa", "MPa", Side::Most),
    ];
    let limits = limit_checks(words, rules.limits, &[term("d", d, "mm")], explain.standing());
    (explain.strengths(bearing, &rules, false), limits)
}
