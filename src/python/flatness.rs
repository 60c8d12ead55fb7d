//! Loads on the skins and how flat they lie, as tables.

use crate::body::flatness::Lying;
use crate::plan::{Evaluation, PanelRow, PanelSize, Span};

use super::output::Columns;

pub(super) fn skin_loads(e: &Evaluation) -> Columns {
    Columns::of(e.loads.rows())
        .text("load", |l| l.load.clone())
        .text("place", |l| l.place)
        .text("case", |l| l.case.clone())
        .number("value", |l| l.value)
        .text("unit", |l| l.unit)
        .done()
}

/// A row for each panel.
pub(super) fn panels(e: &Evaluation) -> Columns {
    let push = |l: &Lying| l.rise_k > 0.0;
    // Of the lowest and the highest of a pair.
    let rivet = |lying: Option<Lying>, low: bool, pushes: bool| {
        lying.map(|l| {
            let force = if low { l.line_n_mm.0 } else { l.line_n_mm.1 };
            if push(&l) == pushes { force } else { 0.0 }
        })
    };
    let sun = |row: &PanelRow<'_>| row.size.and_then(|s| s.sun);
    let cold = |row: &PanelRow<'_>| row.size.and_then(|s| s.cold);
    let drums = |row: &PanelRow<'_>| row.size.and_then(|s| s.drumming_hz);
    Columns::of(e.flatness.rows())
        .text("panel", |row| &row.panel.id)
        .text("part", |row| row.panel.part.words())
        .text("side", |row| row.panel.side.map_or("", |side| side.name()))
        .count("course", |row| row.panel.course.map_or(0, |course| course + 1))
        .number("width_mm", |row| row.panel.width_mm)
        .number("height_mm", |row| row.panel.height_mm)
        .text("zone", |row| row.panel.zone.words())
        .number("suction_pa", |row| row.panel.suction_pa)
        .text("suction_case", |row| row.panel.air_case.words())
        .number("suction_bow_low_mm", |row| row.suction_bow.and_then(|bow| bow.least_mm))
        .number("suction_bow_high_mm", |row| row.suction_bow.and_then(|bow| bow.most_mm))
        .text("sun", |row| row.size.map_or("not assessed", PanelSize::sun_words))
        .number("sun_k", |row| row.size.filter(|s| !s.slopes).map(|_| e.flatness.sun_k))
        .number("critical_low_k", |row| sun(row).map(|l| l.critical_k.0))
        .number("critical_high_k", |row| sun(row).map(|l| l.critical_k.1))
        .number("bow_low_mm", |row| sun(row).map(|l| l.bow_mm.0))
        .number("bow_high_mm", |row| sun(row).map(|l| l.bow_mm.1))
        .number("push_low_n_mm", |row| rivet(sun(row), true, true))
        .number("push_high_n_mm", |row| rivet(sun(row), false, true))
        .text("cold", |row| row.size.map_or("not assessed", PanelSize::cold_words))
        .number("cold_k", |row| row.size.map(|_| e.flatness.cold_k))
        .number("pull_low_n_mm", |row| rivet(cold(row), true, false))
        .number("pull_high_n_mm", |row| rivet(cold(row), false, false))
        .number("drumming_low_hz", |row| drums(row).map(|d| d.least))
        .number("drumming_high_hz", |row| drums(row).map(|d| d.most))
        .text("reason", PanelRow::reason)
        .text("note", PanelRow::note)
        .text("standing", |_| e.flatness.standing.words())
        .done()
}

/// A row for each size of panel and each way to keep it flat.
pub(super) fn advice(e: &Evaluation) -> Columns {
    let rows = e.flatness.sizes.iter().flat_map(|size| size.advice.iter().map(move |advice| (size, advice)));
    let least = |span: Option<Span>| span.map(|s| s.least);
    let most = |span: Option<Span>| span.map(|s| s.most);
    Columns::of(rows)
        .number("width_mm", |(s, _)| s.width_mm)
        .number("height_mm", |(s, _)| s.height_mm)
        .count("panels_count", |(s, _)| s.count)
        .text("remedy", |(_, a)| &a.remedy)
        .number("critical_low_k", |(_, a)| least(a.critical_k))
        .number("critical_high_k", |(_, a)| most(a.critical_k))
        .number("bow_low_mm", |(_, a)| least(a.bow_mm))
        .number("bow_high_mm", |(_, a)| most(a.bow_mm))
        .number("value_low", |(_, a)| least(a.value))
        .number("value_high", |(_, a)| most(a.value))
        .text("unit", |(_, a)| a.unit)
        .text("note", |(_, a)| &a.note)
        .done()
}
