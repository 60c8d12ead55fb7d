//! Loads on the skins and how flat they lie, as tables.

use crate::body::flatness::Lying;
use crate::plan::{Evaluation, Span};

use super::output::Columns;

fn words(lying: Option<Lying>) -> &'static str {
    lying.map_or("outside the rule's range", |l| l.lies.words())
}

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
    let rows = e.flatness.panels.iter().filter_map(|panel| e.flatness.sizes.get(panel.size).map(|size| (panel, size)));
    let push = |l: &Lying| l.rise_k > 0.0;
    // Of the lowest and the highest of a pair.
    let rivet = |lying: Option<Lying>, low: bool, pushes: bool| {
        lying.map(|l| {
            let force = if low { l.line_n_mm.0 } else { l.line_n_mm.1 };
            if push(&l) == pushes { force } else { 0.0 }
        })
    };
    Columns::of(rows)
        .text("panel", |(p, _)| &p.id)
        .text("side", |(p, _)| p.side.name())
        .count("course", |(p, _)| p.course + 1)
        .number("width_mm", |(_, s)| s.width_mm)
        .number("height_mm", |(_, s)| s.height_mm)
        .text("zone", |(p, _)| p.zone.words())
        .number("suction_pa", |(p, _)| p.suction_pa)
        .text("suction_case", |(p, _)| p.air_case.words())
        .text("sun", |(_, s)| words(s.sun))
        .number("sun_k", |_| e.flatness.sun_k)
        .number("critical_low_k", |(_, s)| s.sun.map(|l| l.critical_k.0))
        .number("critical_high_k", |(_, s)| s.sun.map(|l| l.critical_k.1))
        .number("bow_low_mm", |(_, s)| s.sun.map(|l| l.bow_mm.0))
        .number("bow_high_mm", |(_, s)| s.sun.map(|l| l.bow_mm.1))
        .number("push_low_n_mm", |(_, s)| rivet(s.sun, true, true))
        .number("push_high_n_mm", |(_, s)| rivet(s.sun, false, true))
        .text("cold", |(_, s)| words(s.cold))
        .number("cold_k", |_| e.flatness.cold_k)
        .number("pull_low_n_mm", |(_, s)| rivet(s.cold, true, false))
        .number("pull_high_n_mm", |(_, s)| rivet(s.cold, false, false))
        .number("drumming_low_hz", |(_, s)| s.drumming_hz.map(|d| d.least))
        .number("drumming_high_hz", |(_, s)| s.drumming_hz.map(|d| d.most))
        .text("reason", |(_, s)| s.outside.clone().unwrap_or_default())
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
