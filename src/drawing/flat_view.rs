//! A blank or a jig laid flat: outline, holes, bend marks, with its dimensions.

use crate::body::takeoff::{Blanks, Grain};
use crate::plan::{Evaluation, Flat, FlatHole, FlatKind};
use crate::quantity::ShopUnits;

use super::canvas::{Canvas, Margins, marked, spread};

/// Labels of ordinates stand so far apart, mm as printed: nearer, letters would touch.
const LETTERS_MM: f64 = 2.6;

/// Places of some holes along one axis.
fn ordinates(flat: &Flat, axis: usize, of: impl Fn(&FlatHole) -> bool) -> Vec<f64> {
    flat.holes.iter().filter(|hole| of(hole)).map(|hole| hole.at_mm[axis]).collect()
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
    let margins = Margins { left: 24.0, right: 10.0, top, bottom: 24.0 };
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
        if cap {
            let x = if flat.from_right { length - canvas.u(1.2) } else { canvas.u(3.0) };
            canvas.upright_text("small halo", (x, 0.5 * height), "middle", "GOOD EDGE");
        }
    }
    along(&mut canvas, e.units, flat);
    canvas.dim_across((0.0, length), -canvas.u(20.0), marked(e.units, length));
    // On a bar there is no room for letters.
    if height > canvas.u(12.0) {
        up(&mut canvas, e.units, flat);
        canvas.dim_up((0.0, height), -canvas.u(20.0), marked(e.units, height));
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

/// Ordinates under the part; of a jig from its index hole. Both edges of a cap have their own, the bends among them.
fn along(canvas: &mut Canvas, units: ShopUnits, flat: &Flat) {
    let [length, height] = flat.size_mm();
    let from_left = if flat.kind == FlatKind::Jig { flat.holes.first().map_or(0.0, |hole| hole.at_mm[0]) } else { 0.0 };
    let told = |x: f64| marked(units, if flat.from_right { length - x } else { x - from_left });
    if flat.kind == FlatKind::Cap {
        for (word, i, y, way) in [("lower edge", 0, 0.0, -1.0), ("upper edge", 1, height, 1.0)] {
            let mut places = ordinates(flat, 0, |hole| hole.of.contains(word));
            places.extend(flat.bends.iter().map(|bend| if i == 0 { bend.from_mm[0] } else { bend.to_mm[0] }));
            row(canvas, places, (length, y), way, told);
        }
    } else {
        row(canvas, ordinates(flat, 0, |_| true), (length, 0.0), -1.0, told);
    }
}

/// A row of ordinates below an edge, or above it; lines lead to where labels that are near each other belong.
fn row(canvas: &mut Canvas, places: Vec<f64>, (length, y): (f64, f64), way: f64, told: impl Fn(f64) -> String) {
    let anchor = if way < 0.0 { "end" } else { "start" };
    for (x, label) in spread(places, canvas.u(LETTERS_MM), length) {
        let (near, far) = (y + way * canvas.u(0.5), y + way * canvas.u(2.5));
        canvas.polyline("dim", &[(x, near), (label, far)]);
        canvas.upright_text("small", (label + canvas.u(0.7), y + way * canvas.u(3.0)), anchor, told(x));
    }
}

/// Ordinates from the lower edge, left of the part; of a cap those of its good end.
fn up(canvas: &mut Canvas, units: ShopUnits, flat: &Flat) {
    let [length, height] = flat.size_mm();
    let from_good = |hole: &FlatHole| if flat.from_right { length - hole.at_mm[0] } else { hole.at_mm[0] };
    let least = flat.holes.iter().map(from_good).fold(f64::INFINITY, f64::min);
    if flat.kind == FlatKind::Cap && flat.from_right {
        // They stand at the left for want of room.
        canvas.text("small", (-canvas.u(2.4), height + canvas.u(1.5)), "end", "at the good edge:");
    }
    let end = |hole: &FlatHole| flat.kind != FlatKind::Cap || from_good(hole) < least + 1.0;
    for (y, label) in spread(ordinates(flat, 1, end), canvas.u(LETTERS_MM), height) {
        canvas.polyline("dim", &[(-canvas.u(0.5), y), (-canvas.u(2.0), label)]);
        canvas.text("small", (-canvas.u(2.4), label - canvas.u(0.7)), "end", marked(units, y));
    }
}
