//! A blank or a jig laid flat: outline, holes, bend marks, with its dimensions.

use crate::body::takeoff::{Blanks, Grain};
use crate::plan::{Evaluation, Flat, FlatHole, FlatKind};
use crate::quantity::ShopUnits;

use super::canvas::{Canvas, Margins, marked};

/// Ordinates closer than this are not written, mm as printed: letters would touch.
const LETTERS_MM: f64 = 2.6;

/// Different ordinates of some holes along one axis, in order.
fn ordinates(flat: &Flat, axis: usize, of: impl Fn(&FlatHole) -> bool) -> Vec<f64> {
    let mut all: Vec<f64> = flat.holes.iter().filter(|hole| of(hole)).map(|hole| hole.at_mm[axis]).collect();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    all
}

/// What a shop asks of a blank before it cuts it.
fn words(e: &Evaluation, flat: &Flat) -> Vec<String> {
    let [length, height] = flat.size_mm();
    let mut words = vec![format!("{} by {}", e.units.length(length), e.units.length(height))];
    if flat.kind == FlatKind::Jig {
        words.push(format!(
            "{} holes drilled {} through; serves {}",
            flat.holes.len(),
            e.units.length(flat.holes.first().map_or(0.0, |hole| hole.diameter_mm)),
            served(e, &flat.id)
        ));
    } else {
        words.push(format!("{}, {:.2} mm with its coating", e.sheet, e.sheet_thickness_mm));
        words.push(format!("{} holes of {}", flat.holes.len(), e.units.length(e.drilling.hole_mm)));
        let own = |b: &&Blanks| b.ids.contains(&flat.id);
        words.extend(e.takeoff.blanks.iter().find(own).map(Blanks::words));
        let sheet = e.skins.sheets.iter().find(|s| s.id == flat.id).map(|s| (s.mass_kg, s.people));
        let panel = e.skins.ends.iter().find(|p| p.id == flat.id).map(|p| (p.mass_kg, p.people));
        words.extend(sheet.or(panel).map(|(kg, people)| format!("{kg:.1} kg, {people} to lift it")));
    }
    words.extend(flat.notes.iter().cloned());
    words
}

fn served(e: &Evaluation, jig: &str) -> String {
    let own = e.drilling.jigs.iter().enumerate().find(|(i, _)| crate::mechanics::hole_line::jig_name(*i) == jig);
    let count = own.map_or(0, |(_, jig)| jig.gaps.len());
    if count == 1 { "one gap".to_owned() } else { format!("{count} gaps") }
}

/// A blank or a jig as an SVG document, seen from outside.
pub fn flat_view(e: &Evaluation, flat: &Flat) -> String {
    let jig = flat.kind == FlatKind::Jig;
    let [length, height] = flat.size_mm();
    let cap = flat.kind == FlatKind::Cap;
    let top = if jig {
        4.0
    } else if cap {
        30.0
    } else {
        12.0
    };
    let margins = Margins { left: 22.0, right: 12.0, top, bottom: 24.0 };
    let mut canvas = Canvas::new((0.0, 0.0), (length, height), margins);
    let outline: Vec<(f64, f64)> = flat.outline_mm.iter().map(|[x, y]| (*x, *y)).collect();
    canvas.polygon("part", &outline);
    for bend in &flat.bends {
        let ([x0, y0], [x1, y1]) = (bend.from_mm, bend.to_mm);
        canvas.line("bend", (x0, y0), (x1, y1));
        canvas.upright_text("small halo", (x0 - canvas.u(0.8), f64::midpoint(y0, y1)), "middle", bend.what.clone());
    }
    for hole in &flat.holes {
        canvas.circle("drill", (hole.at_mm[0], hole.at_mm[1]), 0.5 * hole.diameter_mm);
    }
    if !jig {
        canvas.seen_from_outside(flat.front_to_right, height + if cap { canvas.u(18.0) } else { 0.0 });
        grain(&mut canvas, e, flat);
    }
    along(&mut canvas, e.units, flat);
    canvas.dim_across((0.0, length), -canvas.u(20.0), marked(e.units, length));
    // On a bar there is no room for letters.
    if height > canvas.u(12.0) {
        up(&mut canvas, e.units, flat);
        canvas.dim_up((0.0, height), -canvas.u(17.0), marked(e.units, height));
    }
    let title = if jig { format!("Drilling jig {}", flat.id) } else { format!("Blank {}", flat.id) };
    canvas.finish(e, &title, &words(e, flat))
}

/// Which way the grain lies.
fn grain(canvas: &mut Canvas, e: &Evaluation, flat: &Flat) {
    let blanks = e.takeoff.blanks.iter().find(|b| b.ids.contains(&flat.id));
    let [length, height] = flat.size_mm();
    let corners = flat.outline_mm.len().max(1) as f64;
    let middle = (
        flat.outline_mm.iter().map(|p| p[0]).sum::<f64>() / corners,
        flat.outline_mm.iter().map(|p| p[1]).sum::<f64>() / corners,
    );
    let reach = canvas.u(9.0).min(0.2 * length.min(height));
    let ends = match blanks.map(|b| b.grain) {
        Some(Grain::Level) => [(middle.0 - reach, middle.1), (middle.0 + reach, middle.1)],
        Some(Grain::Upright) => [(middle.0, middle.1 - reach), (middle.0, middle.1 + reach)],
        Some(Grain::Either) | None => return,
    };
    canvas.arrow(("arrow", "head"), middle, ends[0]);
    canvas.arrow(("arrow", "head"), middle, ends[1]);
    canvas.text("small halo", (middle.0, middle.1 + canvas.u(1.5)), "middle", "grain");
}

/// Ordinates from the left edge, under the part; of a jig from its index hole. Both edges of a cap have their own.
fn along(canvas: &mut Canvas, units: ShopUnits, flat: &Flat) {
    let height = flat.size_mm()[1];
    let upper = |hole: &FlatHole| hole.of.contains("upper edge");
    if flat.kind == FlatKind::Cap {
        let lower = ordinates(flat, 0, |hole| hole.of.contains("lower edge"));
        let bends = |i: usize| flat.bends.iter().map(move |bend| if i == 0 { bend.from_mm[0] } else { bend.to_mm[0] });
        row(canvas, units, lower.into_iter().chain(bends(0)).collect(), (0.0, 0.0), -1.0);
        row(canvas, units, ordinates(flat, 0, upper).into_iter().chain(bends(1)).collect(), (0.0, height), 1.0);
    } else {
        let all = ordinates(flat, 0, |_| true);
        let from = if flat.kind == FlatKind::Jig { all.first().copied().unwrap_or(0.0) } else { 0.0 };
        row(canvas, units, all, (from, 0.0), -1.0);
    }
}

/// A row of ordinates below an edge, or above it.
fn row(canvas: &mut Canvas, units: ShopUnits, mut places: Vec<f64>, (from, y): (f64, f64), way: f64) {
    places.sort_by(f64::total_cmp);
    let mut last = f64::NEG_INFINITY;
    for x in places {
        if x - last < canvas.u(LETTERS_MM) {
            continue;
        }
        last = x;
        canvas.line("dim", (x, y + way * canvas.u(0.5)), (x, y + way * canvas.u(2.5)));
        let anchor = if way < 0.0 { "end" } else { "start" };
        let at = (x + canvas.u(0.7), y + way * canvas.u(3.0));
        canvas.upright_text("small", at, anchor, marked(units, x - from));
    }
}

/// Ordinates from the lower edge, left of the part; of a cap those of its good end.
fn up(canvas: &mut Canvas, units: ShopUnits, flat: &Flat) {
    let cap = flat.kind == FlatKind::Cap;
    let mut last = f64::NEG_INFINITY;
    let least = flat.holes.iter().map(|hole| hole.at_mm[0]).fold(f64::INFINITY, f64::min);
    for y in ordinates(flat, 1, |hole| !cap || hole.at_mm[0] < least + 20.0) {
        if y - last < canvas.u(LETTERS_MM) {
            continue;
        }
        last = y;
        canvas.line("dim", (-canvas.u(0.5), y), (-canvas.u(2.0), y));
        canvas.text("small", (-canvas.u(2.4), y - canvas.u(0.7)), "end", marked(units, y));
    }
}
