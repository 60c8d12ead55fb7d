//! What is drilled, as rows, words and plain text: jigs, bits, lines over old holes.

use std::fmt::Write as _;

use crate::mechanics::hole_line::{Fate, Jig, jig_name};
use crate::plan::{Drilling, Evaluation, OldLine};
use crate::quantity::{ShopUnits, inches_64};

use super::text::table;

/// Headings of [`jig_rows`].
pub(super) const JIG_HEADINGS: [&str; 5] = [
    "drilling jig",
    "index hole to last",
    "holes from the index hole",
    "greatest rounding, mm: 1/64 in, 0.1 mm",
    "gaps",
];

/// Headings of [`old_line_rows`].
pub(super) const OLD_LINE_HEADINGS: [&str; 8] = [
    "line over old holes",
    "use again",
    "plug",
    "new",
    "spacing",
    "jump, most",
    "off the line, most",
    "to the edge, least (95 %)",
];

/// Holes of a jig that its row shows; a table of the jig has all.
const SHOWN: usize = 8;

/// The holes of a jig as the shop reads them, the index hole left out.
fn places(jig: &Jig, units: ShopUnits) -> String {
    let place = |inch_mm: f64, metric_mm: f64| match units {
        ShopUnits::Inches => inches_64(inch_mm).trim_end_matches(" in").to_owned(),
        ShopUnits::Metric => format!("{metric_mm:.1}"),
    };
    let first = jig.places.iter().skip(1).take(SHOWN).map(|p| place(p.inch_mm(), p.metric_mm()));
    let unit = if units == ShopUnits::Inches { "in" } else { "mm" };
    let more = if jig.spaces() > SHOWN { format!(", {} in all", jig.spaces()) } else { String::new() };
    format!("{} {unit}{more}", first.collect::<Vec<_>>().join(", "))
}

/// A row a jig.
pub(super) fn jig_rows(d: &Drilling, units: ShopUnits) -> Vec<[String; 5]> {
    let row = |(i, jig): (usize, &Jig)| {
        [
            jig_name(i),
            units.length(jig.length_mm()),
            places(jig, units),
            format!("{:.2}, {:.2}", jig.inch_error_mm(), jig.metric_error_mm()),
            jig.gaps.len().to_string(),
        ]
    };
    d.jigs.iter().enumerate().map(row).collect()
}

/// A row a line over old holes.
pub(super) fn old_line_rows(lines: &[OldLine], units: ShopUnits) -> Vec<[String; 8]> {
    let row = |old: &OldLine| {
        let used = old.plan.fates.iter().filter(|fate| **fate == Fate::Used).count();
        let (least, most) = old.plan.pitch_range_mm();
        let edge = old.plan.nearest_edge().map(|(_, left)| units.length(left.least_mm()));
        [
            old.name.clone(),
            used.to_string(),
            old.plan.cost.plugs.to_string(),
            old.plan.cost.new_holes.to_string(),
            format!("{} to {}", units.length(least), units.length(most)),
            format!("{:.1} mm", old.plan.jumps_mm().fold(0.0, f64::max)),
            format!("{:.1} mm", old.fit.peak_mm),
            edge.unwrap_or_else(|| "–".to_owned()),
        ]
    };
    lines.iter().map(row).collect()
}

/// Drill and bits in words.
pub(super) fn drilling_words(d: &Drilling) -> Vec<String> {
    let mut words = Vec::new();
    if let Some(choice) = &d.drill {
        words.push(format!("drill {} for the rivets' holes", choice.drill.name));
    }
    let bits = d.bits.map_or_else(|| "not known".to_owned(), |(least, most)| format!("{least} to {most}"));
    let parts: Vec<String> = d.bit_uses.iter().map(|u| format!("{} holes through {}", u.holes, u.part)).collect();
    words.push(format!("pilot bits of 1/8 in: {bits}, common practice ({})", parts.join(", ")));
    words
}

/// Jigs, drill and bits, lines over old holes.
pub(super) fn drilling(e: &Evaluation) -> String {
    let mut out = String::new();
    let mut jigs = table(&JIG_HEADINGS);
    for row in jig_rows(&e.drilling, e.units) {
        jigs.add_row(row);
    }
    // Writing to a string cannot fail.
    let _ = writeln!(out, "{jigs}\n");
    for line in drilling_words(&e.drilling) {
        let _ = writeln!(out, "{line}");
    }
    if !e.old_lines.is_empty() {
        let mut lines = table(&OLD_LINE_HEADINGS);
        for row in old_line_rows(&e.old_lines, e.units) {
            lines.add_row(row);
        }
        let _ = writeln!(out, "\n{lines}");
    }
    out.push('\n');
    out
}
