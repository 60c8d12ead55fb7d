//! A rivet line with its holes: new ones, old ones used again, old ones plugged or covered, and where jigs are indexed.

use crate::body::rivet_lines::RivetLine;
use crate::mechanics::hole_line::{DrilledHole, Fate, SetOut, jig_name};
use crate::plan::{Evaluation, OldLine};

use super::canvas::{Canvas, Margins, marked, spread};

/// A line as it is drawn: level, from its start to the right.
struct Drawn<'a> {
    name: &'a str,
    length_mm: f64,
    old: Option<&'a OldLine>,
    /// Where the old line's stretch begins on this one, mm.
    from_mm: f64,
    /// Where it is and which way its start lies.
    words: Vec<String>,
}

/// A rivet line as an SVG document.
pub fn line_view(e: &Evaluation, line: &RivetLine) -> String {
    let old = e.old_lines.iter().find(|old| old.lies_on.as_ref().is_some_and(|on| on.line == line.id));
    let upright = (line.to_mm.0 - line.from_mm.0).abs() < 1.0;
    let start = match (upright, line.side.is_some()) {
        (true, _) => "the lower end is at the left",
        (false, true) => "the rear end is at the left",
        (false, false) if line.to_mm.0 < line.from_mm.0 => "the end on the left of the bus is at the left",
        (false, false) => "the end on the right of the bus is at the left",
    };
    let drawn = Drawn {
        name: &line.id,
        length_mm: line.length_mm(),
        old,
        from_mm: old.and_then(|old| old.lies_on.as_ref()).map_or(0.0, |on| on.from_mm),
        words: vec![format!(
            "{}; {start}; {} holes, widest space {}",
            line.kind.words(),
            line.holes_mm.len(),
            e.units.length(line.pitch_mm)
        )],
    };
    draw(e, &drawn)
}

/// A line over old holes that comes on top of those set out, as an SVG document.
pub fn old_line_view(e: &Evaluation, old: &OldLine) -> String {
    let (from, to) = old.line.stretch_mm;
    let side = old.side.map_or_else(String::new, |side| format!(", {}", side.name()));
    let drawn = Drawn {
        name: &old.name,
        length_mm: to - from,
        old: Some(old),
        from_mm: 0.0,
        words: vec![format!(
            "line over old holes{side}; places are those of the tape, whose zero lies {} before the drawn line's start",
            e.units.length(from)
        )],
    };
    draw(e, &drawn)
}

fn draw(e: &Evaluation, drawn: &Drawn<'_>) -> String {
    let top = if drawn.old.is_some() { 22.0 } else { 10.0 };
    let margins = Margins { left: 8.0, right: 8.0, top, bottom: 22.0 };
    let mut canvas = Canvas::new((0.0, 0.0), (drawn.length_mm.max(1.0), 1.0), margins);
    let radius = canvas.u(0.9).max(0.5 * e.drilling.hole_mm);
    let start =
        if drawn.old.is_some_and(|old| old.lies_on.is_none()) { drawn.old.map(|o| o.line.stretch_mm.0) } else { None };
    let along = |hole: &DrilledHole| hole.along_mm - start.unwrap_or(0.0);
    canvas.line("thin", (0.0, 0.0), (drawn.length_mm, 0.0));
    let mut words = drawn.words.clone();
    if let Some(old) = drawn.old {
        old_holes(&mut canvas, e, old, drawn, radius);
        let fates = [Fate::Used, Fate::Plugged, Fate::Covered, Fate::Beyond];
        let told = fates.map(|fate| (old.plan.fates.iter().filter(|f| **f == fate).count(), fate));
        let told: Vec<String> =
            told.iter().filter(|(n, _)| *n > 0).map(|(n, fate)| format!("{n} {}", fate.words())).collect();
        words.push(format!("old holes: {}", told.join(", ")));
        words.push(
            "open: new; full: old, used again; crossed: plug, its place above; grey: left under the sheet".to_owned(),
        );
    }
    let mut shown = f64::NEG_INFINITY;
    for hole in e.drilling.holes.iter().filter(|hole| hole.line == drawn.name) {
        let x = along(hole);
        canvas.circle(if matches!(hole.by, SetOut::Old(_)) { "again" } else { "drill" }, (x, 0.0), radius);
        if x - shown >= canvas.u(4.5) {
            shown = x;
            canvas.text("small", (x, canvas.u(2.0)), "middle", hole.number.to_string());
        }
    }
    let own = e.drilling.holes.iter().filter(|hole| hole.line == drawn.name).map(along).collect();
    for (x, label) in spread(own, canvas.u(2.6), drawn.length_mm) {
        canvas.polyline("dim", &[(x, -canvas.u(1.5)), (label, -canvas.u(3.0))]);
        let place = marked(e.units, x + start.unwrap_or(0.0));
        canvas.upright_text("small", (label + canvas.u(0.7), -canvas.u(3.5)), "end", place);
    }
    index_marks(&mut canvas, e, drawn, start.unwrap_or(0.0));
    canvas.dim_across((0.0, drawn.length_mm), -canvas.u(20.0), marked(e.units, drawn.length_mm));
    canvas.finish(e, &format!("Rivet line {}", drawn.name), &words)
}

/// The old holes that take no rivet, along the line; how far each is off it the table of the line tells.
fn old_holes(canvas: &mut Canvas, e: &Evaluation, old: &OldLine, drawn: &Drawn<'_>, radius: f64) {
    for (hole, fate) in old.line.holes.iter().zip(&old.plan.fates) {
        let x = hole.along_mm - old.line.stretch_mm.0 + drawn.from_mm;
        let at = (x, 0.0);
        match fate {
            // Drawn with the holes of the new line.
            Fate::Used => {}
            Fate::Plugged => {
                canvas.circle("drill", at, radius);
                canvas.line("arrow", (x - radius, -radius), (x + radius, radius));
                canvas.line("arrow", (x - radius, radius), (x + radius, -radius));
                canvas.upright_text(
                    "small",
                    (x + canvas.u(0.7), canvas.u(9.5)),
                    "start",
                    marked(e.units, hole.along_mm),
                );
            }
            Fate::Covered | Fate::Beyond => canvas.circle("covered", at, radius),
        }
    }
}

/// Where the index hole of each jig goes.
fn index_marks(canvas: &mut Canvas, e: &Evaluation, drawn: &Drawn<'_>, start_mm: f64) {
    let mut last = f64::NEG_INFINITY;
    let mut marks: Vec<(f64, String)> = Vec::new();
    for (i, jig) in e.drilling.jigs.iter().enumerate() {
        let own = jig.gaps.iter().filter_map(|served| e.drilling.gaps.get(served.gap));
        marks.extend(own.filter(|gap| gap.line == drawn.name).map(|gap| (gap.from_mm - start_mm, jig_name(i))));
    }
    marks.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (x, name) in marks {
        canvas.polygon(
            "head",
            &[(x, canvas.u(4.4)), (x - canvas.u(0.8), canvas.u(6.0)), (x + canvas.u(0.8), canvas.u(6.0))],
        );
        if x - last >= canvas.u(5.0) {
            last = x;
            canvas.text("small", (x, canvas.u(6.6)), "middle", name);
        }
    }
}
