//! What is drilled, as rows, words and plain text: jigs, bits, every line's holes, lines over old holes.

use std::fmt::Write as _;

use crate::body::rivet_lines::RivetLine;
use crate::mechanics::hole_line::{Fate, Jig, JigPlace, jig_name};
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
pub(super) const OLD_LINE_HEADINGS: [&str; 9] = [
    "line over old holes",
    "in place of the even holes of",
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
pub(super) fn old_line_rows(lines: &[OldLine], units: ShopUnits) -> Vec<[String; 9]> {
    let row = |old: &OldLine| {
        let used = old.plan.fates.iter().filter(|fate| **fate == Fate::Used).count();
        let (least, most) = old.plan.pitch_range_mm();
        let edge = old.plan.nearest_edge().map(|(_, left)| units.length(left.least_mm()));
        [
            old.name.clone(),
            old.lies_on.as_ref().map_or_else(|| "none: on top of them".to_owned(), |on| on.line.clone()),
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

/// Holes one by one: a jig's, or those of a line.
pub(super) struct HoleTable {
    /// The jig or the line.
    pub name: String,
    /// What they are in, and where they are counted from.
    pub title: String,
    /// Headings.
    pub headings: [&'static str; 3],
    /// A row a hole.
    pub rows: Vec<[String; 3]>,
}

/// Every hole of every jig.
pub(super) fn jig_tables(d: &Drilling) -> Vec<HoleTable> {
    let one = |(i, jig): (usize, &Jig)| {
        let row = |(hole, place): (usize, &JigPlace)| {
            [hole.to_string(), inches_64(place.inch_mm()), format!("{:.1} mm", place.metric_mm())]
        };
        HoleTable {
            name: jig_name(i),
            title: format!(
                "jig {}: {} spaces, serves {}; hole 0 is the index hole",
                jig_name(i),
                jig.spaces(),
                if jig.gaps.len() == 1 { "one gap".to_owned() } else { format!("{} gaps", jig.gaps.len()) }
            ),
            headings: ["hole", "to 1/64 in", "to 0.1 mm"],
            rows: jig.places.iter().enumerate().map(row).collect(),
        }
    };
    d.jigs.iter().enumerate().map(one).collect()
}

/// The drilling table of every line.
pub(super) fn line_tables(e: &Evaluation) -> Vec<HoleTable> {
    let names = e.lines.iter().map(|line| (line.id.as_str(), start(line, e.units)));
    let taped = "places as taped along the old holes".to_owned();
    let on_top = e.old_lines.iter().filter(|old| old.lies_on.is_none()).map(|old| (old.name.as_str(), taped.clone()));
    let one = |(name, start): (&str, String)| HoleTable {
        name: name.to_owned(),
        title: format!("{name}: {start}{}", indexed(&e.drilling, name, e.units)),
        headings: ["hole", "from the start", "set out by"],
        rows: e
            .drilling
            .holes
            .iter()
            .filter(|hole| hole.line == name)
            .map(|hole| [hole.number.to_string(), mark(hole.along_mm, e.units), hole.by.words()])
            .collect(),
    };
    names.chain(on_top).map(one).filter(|table| !table.rows.is_empty()).collect()
}

/// A place as it is marked.
fn mark(mm: f64, units: ShopUnits) -> String {
    match units {
        ShopUnits::Inches => inches_64(mm),
        ShopUnits::Metric => format!("{mm:.1} mm"),
    }
}

/// What a line joins and where it starts.
fn start(line: &RivetLine, units: ShopUnits) -> String {
    let (along_mm, z_mm) = line.from_mm;
    let place = if line.side.is_some() {
        format!("{} forward of the rear face", units.length(along_mm))
    } else {
        format!("{} {} of the middle", units.length(along_mm.abs()), if along_mm < 0.0 { "right" } else { "left" })
    };
    format!("{}, starts {place}, {} above the ground", line.kind.words(), units.length(z_mm))
}

/// Where the index holes of the jigs go on a line.
fn indexed(d: &Drilling, line: &str, units: ShopUnits) -> String {
    let of = |(i, jig): (usize, &Jig)| {
        let own = jig.gaps.iter().filter_map(|served| d.gaps.get(served.gap)).filter(|gap| gap.line == line);
        let places: Vec<String> = own.map(|gap| mark(gap.from_mm, units)).collect();
        (!places.is_empty()).then(|| format!("; {} indexed at {}", jig_name(i), places.join(", ")))
    };
    d.jigs.iter().enumerate().filter_map(of).collect()
}

/// Hole tables as text, several holes in a row.
fn hole_text(tables: &[HoleTable]) -> String {
    const ACROSS: usize = 4;
    let mut out = String::new();
    for holes in tables {
        let entry = |row: &[String; 3]| format!("{:>3}  {}  {}", row[0], row[1], row[2]);
        let entries: Vec<String> = holes.rows.iter().map(entry).collect();
        let width = entries.iter().map(|entry| entry.chars().count()).max().unwrap_or(0) + 3;
        // Writing to a string cannot fail.
        let _ = writeln!(out, "{} ({})", holes.title, holes.headings.join(", "));
        for row in entries.chunks(ACROSS) {
            let cells: Vec<String> = row.iter().map(|entry| format!("{entry:<width$}")).collect();
            let _ = writeln!(out, "{}", cells.concat().trim_end());
        }
    }
    out
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
    let _ = writeln!(out, "\n{}\n{}", hole_text(&jig_tables(&e.drilling)), hole_text(&line_tables(e)));
    out
}
