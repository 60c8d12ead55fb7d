//! Bearing strengths as aircraft handbooks tabulate them: ultimate bearing stress of a sheet at edge distances of 1.5 and
//! of 2.0 diameters, undivided.
//!
//! The strengths themselves are the user's, from a handbook's table for his metal. Form and limits: MIL-HDBK-5; that the
//! sheet is at least 0.18 diameters thick was read (MIL-HDBK-5H), edge distances and interpolation are from memory.

use crate::check::{Check, Level, Standing, term};

use super::spacing::Side;
use super::{Numbers, Plane, ROUNDING, Rules, limit_checks, lines_share, lines_share_check, not_below_nought, smaller};

/// Ultimate bearing stress at an edge distance, MPa: linear between the strengths at 1.5 and at 2.0 diameters, no credit
/// above 2.0. MIL-HDBK-5, chapter 8, from memory. Below 1.5 the handbook asks for a test: not a number.
pub fn bearing_stress_mpa(edge_over_diameter: f64, [at_1_5, at_2_0]: [f64; 2]) -> f64 {
    let share = smaller((edge_over_diameter - 1.5) / 0.5, 1.0);
    if share < -ROUNDING { f64::NAN } else { at_1_5 + not_below_nought(share) * (at_2_0 - at_1_5) }
}

/// Bearing strength of a sheet round one rivet, N: F<sub>bru</sub> D t. MIL-HDBK-5, chapter 8.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::handbook::{bearing_n, bearing_stress_mpa};
/// // Half way between 1.5 and 2.0 diameters: 700 MPa on 4.8 x 1.0 mm.
/// let stress = bearing_stress_mpa(1.75, [600.0, 800.0]);
/// assert!((bearing_n(stress, 4.8, 1.0) - 3360.0).abs() < 1e-9);
/// ```
pub fn bearing_n(stress_mpa: f64, d_mm: f64, t_mm: f64) -> f64 {
    stress_mpa * d_mm * t_mm
}

/// Edge distance and thickness in diameters of the hole, the larger diameter and so the lower reading.
fn in_diameters(n: &Numbers) -> (f64, f64) {
    (n.edge_mm / n.hole_mm, n.by_thickness_mm().0 / n.hole_mm)
}

/// Every comparison for two sheets, in numbers alone: single checks explain it, arrays run through it.
///
/// The bearing area is of the rivet's own diameter, the smaller one. A load away from the sheets is outside the range:
/// handbooks have no general rule for it.
#[inline(always)]
pub(super) fn compare(n: &Numbers) -> Rules<3, 1, 6> {
    let (edge, thickness) = in_diameters(n);
    // Below 1.5 diameters the limit, not the strength, is to decide.
    let strengths = n.choices.handbook_bearing_mpa.unwrap_or([f64::NAN; 2]);
    let stress = bearing_stress_mpa(if edge < 1.5 { 1.5 } else { edge }, strengths);
    let bearing = bearing_n(stress, n.diameter_mm, n.by_thickness_mm().0);
    let net = not_below_nought(n.pitch_mm - n.hole_mm) * n.weaker_n_mm();
    Rules {
        strengths: [(n.shear_n, bearing), (n.shear_n * n.rows, net), (n.shear_n, n.rivet_shear_n)],
        conditions: [lines_share(n, smaller(bearing, net / n.rows), n.rivet_shear_n)],
        limits: [
            (1.5, edge + ROUNDING),
            (0.18, thickness + ROUNDING),
            (3.0 * n.diameter_mm, n.pitch_mm + ROUNDING),
            (n.tension_n, ROUNDING),
            (n.hole_mm, 1.04 * n.diameter_mm + ROUNDING),
            (n.by_thickness_mm().1, 6.0 + ROUNDING),
        ],
    }
}

/// Names of the checks, in the order in which [`compare`] makes them.
pub(super) const NAMES: [&str; 11] = [
    "bearing",
    "net section",
    "rivet shear",
    "ductility in shear",
    "edge over diameter",
    "thickness over diameter",
    "pitch",
    "no tension",
    "hole",
    "thickness, most",
    "input",
];

const BEARING: &str = "MIL-HDBK-5 chapter 8";

pub(super) fn checks(plane: &Plane<'_>) -> (Vec<Check>, Vec<Check>) {
    let n = &plane.numbers;
    let rules = compare(n);
    let standing = plane.standing().with(Standing::Memory);
    let check = |name: &'static str, clause: &'static str, (asked, has): (f64, f64)| {
        Check::compare(name, clause, (Some(asked), Some(has), "N"), Level::Minimum, standing)
    };
    let [bearing, net, shear] = rules.strengths;
    let [at_1_5, at_2_0] = n.choices.handbook_bearing_mpa.unwrap_or([f64::NAN; 2]);
    let (edge, thickness) = in_diameters(n);
    let bearing = check("bearing", BEARING, bearing).by(
        "P_br = F_bru D t, F_bru linear between e/D = 1.5 and 2.0, no more above",
        [
            term("F_bru at 1.5", at_1_5, "MPa"),
            term("F_bru at 2.0", at_2_0, "MPa"),
            term("e/D", edge, ""),
            term("D", n.diameter_mm, "mm"),
            term("t", n.by_thickness_mm().0, "mm"),
        ],
    );
    let bearing = if n.choices.handbook_bearing_mpa.is_some() {
        bearing
    } else {
        bearing.because("give the handbook's bearing strengths of the weaker sheet at 1.5 and 2.0 diameters")
    };
    let mut strengths = vec![
        bearing,
        check("net section", "strength of materials", net).by(
            "(p − d0) F_tu t for all lines together",
            [
                term("lines", n.rows, ""),
                term("p", n.pitch_mm, "mm"),
                term("d0", n.hole_mm, "mm"),
                term("F_tu t", n.weaker_n_mm(), "N/mm"),
            ],
        ),
        check("rivet shear", "product", shear)
            .by("the product's least shear load", [term("P_s", n.rivet_shear_n, "N")]),
    ];
    strengths.extend(lines_share_check(n, rules.conditions[0], Level::Minimum, standing));
    let words = [
        ("edge over diameter", BEARING, "e/D ≥ 1.5", "", Side::Least),
        ("thickness over diameter", "MIL-HDBK-5H chapter 8", "t/D ≥ 0.18", "", Side::Least),
        ("pitch", "US Army TM 10-5410-229-13&P", "pitch ≥ 3 D", "mm", Side::Least),
        ("no tension", BEARING, "no load away from the sheets", "N", Side::Most),
        ("hole", "judgement, about MIL-HDBK-5's listed holes", "d0 ≤ 1.04 d", "mm", Side::Most),
        ("thickness, most", "judgement", "t ≤ 6 mm: sheet", "mm", Side::Most),
    ];
    let terms = [term("D", n.hole_mm, "mm"), term("e/D", edge, ""), term("t/D", thickness, "")];
    (strengths, limit_checks(words, rules.limits, &terms, standing))
}
