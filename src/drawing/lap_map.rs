//! The lap map of a side: which sheet lies over which, and which way water runs over each lap.

use std::collections::BTreeMap;

use crate::body::skins::{Lap, LapKind};
use crate::body::survey::Side;
use crate::plan::Evaluation;

use super::canvas::{Canvas, Margins};

/// Rear and front edge, lower and upper edge, mm.
type Place = ((f64, f64), (f64, f64));

/// Sheets and panels of a side where they lie, those beneath first.
fn places(e: &Evaluation, side: Side) -> Vec<(&str, Place)> {
    let sheets = e.skins.sheets.iter().filter(|s| s.side == side);
    let mut all: Vec<(&str, Place)> =
        sheets.map(|s| (s.id.as_str(), ((s.x0_mm, s.x1_mm), (s.z0_mm, s.z1_mm)))).collect();
    all.extend(
        e.skins.ends.iter().filter_map(|p| Some((p.id.as_str(), (p.on_side_mm(side, &e.survey)?, p.edges_mm())))),
    );
    // How many lie beneath one another; a loop of laps, which no plan keeps, ends with the count of passes.
    let mut depth: BTreeMap<&str, usize> = all.iter().map(|(id, _)| (*id, 0)).collect();
    for _ in 0..all.len() {
        for lap in e.skins.laps.iter().filter(|lap| lap.side == Some(side)) {
            if let Some(under) = depth.get(lap.under.as_str()).copied()
                && let Some(over) = depth.get_mut(lap.over.as_str())
            {
                *over = (*over).max(under + 1).min(all.len());
            }
        }
    }
    all.sort_by_key(|(id, _)| depth.get(id).copied());
    all
}

/// Where on a lap its arrow goes, mm.
fn middle(e: &Evaluation, lap: &Lap, places: &[(&str, Place)]) -> Option<(f64, f64)> {
    // Beside what stays, a patch ends at its line there.
    let beside = |name: &str, own: Place, ahead: bool| {
        let patch = e.skins.sheets.iter().find(|sheet| sheet.id == name).and_then(|sheet| sheet.patch.as_ref());
        patch.map_or(if ahead { own.0.1 } else { own.0.0 }, |patch| patch.line_mm)
    };
    let on_post = lap.post.and_then(|post| e.survey.posts_mm.get(post)).copied();
    let find = |name: &str| places.iter().find(|(id, _)| *id == name).map(|(_, place)| *place);
    let shared = |a: (f64, f64), b: (f64, f64)| f64::midpoint(a.0.max(b.0), a.1.min(b.1));
    // Clear of the names in the middle.
    let aside = |a: (f64, f64), b: (f64, f64)| 0.8 * a.0.max(b.0) + 0.2 * a.1.min(b.1);
    match (find(&lap.over), find(&lap.under), lap.kind) {
        (Some(over), Some(under), LapKind::Upright) => Some((shared(over.0, under.0), shared(over.1, under.1))),
        (Some(over), Some(under), _) => Some((aside(over.0, under.0), shared(over.1, under.1))),
        // What stays of the body: rails above or below, the old side below, something beside.
        // What stays lies beneath a sheet's rear edge, and over its front edge.
        (Some(own), None, LapKind::Upright) => {
            Some((on_post.unwrap_or_else(|| beside(&lap.over, own, false)), shared(own.1, own.1)))
        }
        (None, Some(own), LapKind::Upright) => {
            Some((on_post.unwrap_or_else(|| beside(&lap.under, own, true)), shared(own.1, own.1)))
        }
        (None, Some(own), _) if lap.over == "drip rail" => Some((aside(own.0, own.0), own.1.1)),
        (Some(own), None, _) | (None, Some(own), _) => Some((aside(own.0, own.0), own.1.0)),
        (None, None, _) => None,
    }
}

/// The lap map of a side as an SVG document, seen from outside.
pub fn lap_map(e: &Evaluation, side: Side) -> String {
    let places = places(e, side);
    let right = side == Side::Right;
    let x = |station: f64| if right { station } else { e.survey.length_mm - station };
    let low = places.iter().map(|(_, p)| p.1.0).fold(f64::INFINITY, f64::min).min(e.raised.heights.drip_rail_mm);
    let high = places.iter().map(|(_, p)| p.1.1).fold(f64::NEG_INFINITY, f64::max).max(e.raised.heights.drip_rail_mm);
    let margins = Margins { left: 6.0, right: 6.0, top: 16.0, bottom: 12.0 };
    let mut canvas = Canvas::new((0.0, low), (e.survey.length_mm, high), margins);
    for (id, ((rear, front), (bottom, top))) in &places {
        let taper = e.skins.ends.iter().find(|p| p.id == *id).and_then(|p| p.taper_mm);
        match taper {
            Some(taper) => {
                let upright = x(if taper > 0.0 { *rear } else { *front });
                canvas.polygon("sheet", &[(x(*rear), *bottom), (x(*front), *bottom), (upright, *top)]);
            }
            None => canvas.rectangle("sheet", (x(*rear), *bottom), (x(*front), *top)),
        }
    }
    for (id, ((rear, front), (bottom, top))) in &places {
        let at = (x(f64::midpoint(*rear, *front)), bottom + 0.3 * (top - bottom));
        let wide = front - rear > canvas.u(2.0) * id.chars().count() as f64;
        if wide {
            canvas.text("halo", at, "middle", *id);
        } else {
            canvas.upright_text("small halo", (at.0 + canvas.u(0.8), f64::midpoint(*bottom, *top)), "middle", *id);
        }
    }
    let mut faults = Vec::new();
    let reach = canvas.u(4.0);
    for lap in e.skins.laps.iter().filter(|lap| lap.side == Some(side)) {
        let Some((station, z)) = middle(e, lap, &places) else { continue };
        let at = (x(station), z);
        // Water runs down, and driven by the wind to the rear.
        let way = if lap.kind == LapKind::Upright { (if right { -reach } else { reach }, 0.0) } else { (0.0, -reach) };
        let (from, to) = ((at.0 - way.0, at.1 - way.1), (at.0 + way.0, at.1 + way.1));
        canvas.arrow(("water", "waterhead"), from, to);
        if lap.fault.is_some() {
            let c = canvas.u(2.0);
            canvas.line("fault", (at.0 - c, at.1 - c), (at.0 + c, at.1 + c));
            canvas.line("fault", (at.0 - c, at.1 + c), (at.0 + c, at.1 - c));
        }
        faults.extend(lap.fault.as_ref().map(|fault| format!("{} over {}: {fault}", lap.over, lap.under)));
    }
    let rail = e.raised.heights.drip_rail_mm;
    let (rear, front) = e.raise.roof_ends_mm(&e.survey);
    canvas.line("edge", (x(rear), rail), (x(front), rail));
    canvas.text("small halo", (x(f64::midpoint(rear, front)), rail + canvas.u(1.0)), "middle", "drip rail");
    canvas.seen_from_outside(Some(right), high);
    let mut words = vec![
        "drawn as they lie: what is on top hides what is beneath; dark edges are those that show".to_owned(),
        "arrows: the way water runs, down and, driven by the wind, to the rear; a red cross: it runs in".to_owned(),
    ];
    let rails = e.skins.laps.iter().filter(|lap| lap.side == Some(side) && !e.skins.is_new(&lap.over));
    let mut over: Vec<String> = rails.map(|lap| lap.over.clone()).collect();
    over.sort();
    over.dedup();
    if !over.is_empty() {
        words.push(format!("over the new sheets: {}", over.join(", ")));
    }
    words.extend(faults);
    canvas.finish(e, &format!("Lap map, {}", e.side_names[usize::from(right)]), &words)
}
