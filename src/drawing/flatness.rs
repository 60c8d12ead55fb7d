//! Loads on the skins and how flat they lie: headings and rows for text and HTML.

use std::fmt::Write as _;

use crate::body::flatness::Bounds;
use crate::check::significant;
use crate::plan::{Evaluation, FlatPanel, PanelRow, PanelSize, Span};

use super::text::{number, span, table};

pub(super) const LOAD_HEADINGS: [&str; 4] = ["load on the skin", "where", "when", "how much"];
pub(super) const JOINT_HEADINGS: [&str; 5] =
    ["rivet lines", "pull of a rivet, N", "mostly", "shear of a rivet, N", "mostly"];
pub(super) const SIZE_HEADINGS: [&str; 9] = [
    "panels",
    "in the sun",
    "skin over frame, K",
    "buckles at, K",
    "bow, mm",
    "push, N/mm",
    "in the cold",
    "pull, N/mm",
    "drums at, Hz",
];
pub(super) const SUCTION_HEADINGS: [&str; 5] = ["panels", "where", "suction, Pa", "when", "bow under it, mm"];
pub(super) const ADVICE_HEADINGS: [&str; 6] = ["panels", "what would help", "buckles at, K", "bow, mm", "", "note"];

/// Every load on the skins.
pub(super) fn load_rows(e: &Evaluation) -> Vec<[String; 4]> {
    let row = |l: crate::plan::SkinLoad| [l.load, l.place.to_owned(), l.case, format!("{} {}", short(l.value), l.unit)];
    e.loads.rows().into_iter().map(row).collect()
}

/// What one rivet of alike lines carries, service loads.
pub(super) fn joint_rows(e: &Evaluation) -> Vec<[String; 5]> {
    let row = |j: &crate::plan::JointCase| {
        [
            j.subject(e.units),
            format!("{:.0}", j.tension_n),
            j.air_case.words().to_owned(),
            format!("{:.0}", j.shear_n),
            j.line_load.governing().to_owned(),
        ]
    };
    e.joints.iter().map(row).collect()
}

/// Three digits are more than these loads are worth.
fn short(value: f64) -> String {
    if value.abs() >= 100.0 { format!("{value:.0}") } else { format!("{value:.2}") }
}

fn pair(value: Option<(f64, f64)>) -> String {
    span(value.and_then(|(a, b)| Span::of([a, b].map(|v| Some((v * 100.0).round() / 100.0)))))
}

fn whole(value: Option<Span>) -> String {
    span(value.map(|s| Span { least: (s.least * 10.0).round() / 10.0, most: (s.most * 10.0).round() / 10.0 }))
}

fn size_name(e: &Evaluation, size: &PanelSize) -> String {
    named(e, size, size.count)
}

fn named(e: &Evaluation, size: &PanelSize, count: usize) -> String {
    let how = match (size.bounds, size.slopes) {
        (Bounds::Bends, _) => " between bends",
        (Bounds::Lines, true) => " on a slope",
        (Bounds::Lines, false) => "",
    };
    format!("{count} of {} x {}{how}", e.units.length(size.width_mm), e.units.length(size.height_mm))
}

/// Panels of one size and zone under their greatest suction.
pub(super) fn suction_rows(e: &Evaluation) -> Vec<[String; 5]> {
    let mut alike: Vec<(PanelRow<'_>, usize)> = Vec::new();
    for row in e.flatness.rows().filter(|row| row.size.is_some()) {
        let same = |own: &FlatPanel| own.size == row.panel.size && own.zone == row.panel.zone;
        match alike.iter_mut().find(|(own, _)| same(own.panel)) {
            Some((_, count)) => *count += 1,
            None => alike.push((row, 1)),
        }
    }
    let outside = "outside the rule's range";
    let row = |(row, count): (PanelRow<'_>, usize)| {
        let (panel, size, bow) = (row.panel, row.size?, row.suction_bow?);
        let [least, most] = [bow.least_mm, bow.most_mm].map(|mm| mm.map(|mm| (mm * 10.0).round() / 10.0));
        let told = match (least, most) {
            (Some(least), None) => format!("{} to {outside}", number(Some(least))),
            (None, _) => outside.to_owned(),
            (Some(_), Some(_)) => span(Span::of([least, most])),
        };
        let (zone, case) = (panel.zone.words().to_owned(), panel.air_case.words().to_owned());
        Some([named(e, size, count), zone, format!("{:.0}", panel.suction_pa), case, told])
    };
    alike.into_iter().filter_map(row).collect()
}

/// Panels by size: how they lie.
pub(super) fn size_rows(e: &Evaluation) -> Vec<[String; 9]> {
    let row = |size: &PanelSize| {
        [
            size_name(e, size),
            size.sun_words().to_owned(),
            number(size.sun.map(|l| (l.rise_k * 10.0).round() / 10.0)),
            pair(size.sun.map(|l| l.critical_k)),
            pair(size.sun.map(|l| l.bow_mm)),
            pair(size.sun.map(|l| if l.rise_k > 0.0 { l.line_n_mm } else { (0.0, 0.0) })),
            size.cold_words().to_owned(),
            pair(size.cold.map(|l| if l.rise_k < 0.0 { l.line_n_mm } else { (0.0, 0.0) })),
            whole(size.drumming_hz),
        ]
    };
    e.flatness.sizes.iter().map(row).collect()
}

/// What would keep the panels of each size flat.
pub(super) fn advice_rows(e: &Evaluation) -> Vec<[String; 6]> {
    let of = |size: &PanelSize| {
        let name = size_name(e, size);
        let row = |a: &crate::plan::Advice| {
            let value = if a.value.is_some() { format!("{} {}", whole(a.value), a.unit) } else { String::new() };
            let critical = pair(a.critical_k.map(|s| (s.least, s.most)));
            [name.clone(), a.remedy.clone(), critical, pair(a.bow_mm.map(|s| (s.least, s.most))), value, a.note.clone()]
        };
        size.advice.iter().map(row).collect::<Vec<_>>()
    };
    e.flatness.sizes.iter().flat_map(of).collect()
}

/// The temperatures, then what to know.
pub(super) fn flatness_words(e: &Evaluation) -> Vec<String> {
    let f = &e.flatness;
    let at = |w: crate::body::flatness::Warmth| format!("skin {:.0} °C, frame {:.0} °C", w.skin_deg_c, w.frame_deg_c);
    let first = format!(
        "hung at {}; in the sun {}; in the cold {}: skin over frame since hanging {} and {} K",
        at(f.hung),
        at(f.hot),
        at(f.cold),
        significant((f.sun_k * 10.0).round() / 10.0),
        significant((f.cold_k * 10.0).round() / 10.0)
    );
    std::iter::once(first).chain(f.notes.iter().cloned()).collect()
}

/// Loads and flatness as plain text.
pub(super) fn flatness(e: &Evaluation) -> String {
    let mut loads = table(&LOAD_HEADINGS);
    loads.add_rows(load_rows(e));
    let mut joints = table(&JOINT_HEADINGS);
    joints.add_rows(joint_rows(e));
    let mut sizes = table(&SIZE_HEADINGS);
    sizes.add_rows(size_rows(e));
    let mut suction = table(&SUCTION_HEADINGS);
    suction.add_rows(suction_rows(e));
    let mut advice = table(&ADVICE_HEADINGS);
    advice.add_rows(advice_rows(e));
    let mut out = format!("{loads}\n\n{joints}\n\n{sizes}\n\n{suction}\n\n{advice}\n\n");
    for line in flatness_words(e) {
        // Writing to a string cannot fail.
        let _ = writeln!(out, "  {line}");
    }
    out.push('\n');
    out
}
