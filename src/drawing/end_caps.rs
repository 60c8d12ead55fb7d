//! The end caps as rows, words and plain text.

use std::fmt::Write as _;

use crate::body::survey::Side;
use crate::plan::{CapCorner, CapPiece, EndCapSummary};
use crate::quantity::ShopUnits;

use super::text::{number, table};

/// Headings of the pieces.
pub(super) const CAP_PIECES: [&str; 6] = [
    "end caps",
    "good edge",
    "sheet, along and up",
    "lower and upper edge",
    "out of square if cut square (by radii alone)",
    "far end above the good edge if cut square (below nought: lower)",
];
/// Of the bend marks.
pub(super) const CAP_MARKS: [&str; 5] =
    ["bend mark, from the good edge", "corner", "on the lower edge", "on the upper edge", "off by at most, mm"];
/// Of the corners.
pub(super) const CAP_CORNERS: [&str; 6] = [
    "corner of the cap",
    "corner",
    "inside radius, lower and upper",
    "roll to, mm",
    "travel after touching, mm",
    "radius for each 0.1 mm of travel, mm",
];

/// One text for both edges where they are alike.
fn both(values: [String; 2]) -> String {
    let [lower, upper] = values;
    if lower == upper { lower } else { format!("{lower} / {upper}") }
}

/// Pieces: id, good edge, sheet, edges, wedge, climb.
pub(super) fn cap_pieces(caps: &EndCapSummary, units: ShopUnits) -> Vec<[String; 6]> {
    let row = |p: &CapPiece| {
        [
            p.id.clone(),
            p.good_edge.name().to_owned(),
            format!("{} by {}", units.length(p.flat.rectangle_mm[0]), units.length(p.flat.rectangle_mm[1])),
            both(p.flat.length_mm.map(|mm| units.length(mm))),
            format!("{} ({})", units.length(p.flat.out_of_square_mm), units.length(p.by_radii_mm)),
            both(p.flat.climb_mm.map(|mm| units.length(mm))),
        ]
    };
    caps.pieces.iter().map(row).collect()
}

/// Headings of [`cap_ordinates`].
pub(super) const CAP_ORDINATES: [&str; 5] = [
    "end cap",
    "lower edge: from the good edge",
    "lower edge: above the base line",
    "upper edge: from the good edge",
    "upper edge: above the base line",
];

/// The lines across each flat, on both of its edges: the base line stands square to the good edge at its lower end.
pub(super) fn cap_ordinates(caps: &EndCapSummary, units: ShopUnits) -> Vec<[String; 5]> {
    let of = |p: &CapPiece| {
        let row = |l: &crate::mechanics::forming::ScribeLine| {
            let [low, high] = [l.bottom_mm, l.top_mm].map(|at| at.map(|mm| units.length(mm)));
            let ([x0, y0], [x1, y1]) = (low, high);
            [p.id.clone(), x0, y0, x1, y1]
        };
        p.flat.lines.iter().map(row).collect::<Vec<_>>()
    };
    caps.pieces.iter().flat_map(of).collect()
}

/// Bend marks: piece and place, corner, both edges, error.
pub(super) fn cap_marks(caps: &EndCapSummary, units: ShopUnits) -> Vec<[String; 5]> {
    let of = |p: &CapPiece| {
        let row = |m: &crate::mechanics::forming::Mark| {
            let side = p.corners.get(m.corner).map_or("", |c| Side::name(c.side));
            [
                format!("{}, {}", p.id, if m.start { "start" } else { "end" }),
                side.to_owned(),
                units.length(m.at_mm[0]),
                units.length(m.at_mm[1]),
                format!("{:.1}", m.error_mm[0].max(m.error_mm[1])),
            ]
        };
        p.flat.marks.iter().map(row).collect::<Vec<_>>()
    };
    caps.pieces.iter().flat_map(of).collect()
}

/// Corners: piece, side, radii, radius to roll to, travel, sensitivity.
pub(super) fn cap_corners(caps: &EndCapSummary, units: ShopUnits) -> Vec<[String; 6]> {
    let row = |p: &CapPiece, c: &CapCorner| {
        let tenth = |mm: Option<f64>| mm.map_or_else(|| number(None), |mm| format!("{mm:.1}"));
        [
            p.id.clone(),
            c.side.name().to_owned(),
            both(c.radius_mm.map(|mm| units.length(mm))),
            both(c.roll_to_mm.map(tenth)),
            both(c.settings.map(|s| s.map_or_else(|| number(None), |s| format!("{:.2}", s.travel_mm)))),
            both(c.settings.map(|s| s.map_or_else(|| number(None), |s| format!("{:.2}", s.radius_per_tenth_mm)))),
        ]
    };
    caps.pieces.iter().flat_map(|p| p.corners.iter().map(move |c| row(p, c))).collect()
}

/// What to know of the caps, a line each.
pub(super) fn cap_words(caps: &EndCapSummary, units: ShopUnits) -> Vec<String> {
    let trims = caps.pieces.iter().map(|p| {
        let [lower, upper] = p.flat.trim_mm.map(|mm| units.length(mm));
        let past = both(p.flat.one_radius_past_mm.map(|mm| units.length(mm)));
        format!(
            "{}: a square cut leaves {lower} to trim at the lower edge and {upper} at the upper; with every corner rolled to the \
             first one's radius it reaches {past} past the lower and upper end",
            p.id
        )
    });
    trims.chain(caps.notes.iter().cloned()).collect()
}

/// The end caps as plain text.
pub fn end_caps(caps: &EndCapSummary, units: ShopUnits) -> String {
    let mut pieces = table(&CAP_PIECES);
    pieces.add_rows(cap_pieces(caps, units));
    let mut marks = table(&CAP_MARKS);
    marks.add_rows(cap_marks(caps, units));
    let mut corners = table(&CAP_CORNERS);
    corners.add_rows(cap_corners(caps, units));
    let mut out = format!("{pieces}\n\n{marks}\n\n{corners}\n\n");
    for line in cap_words(caps, units) {
        // Writing to a string cannot fail.
        let _ = writeln!(out, "  {line}");
    }
    out.push('\n');
    out
}
