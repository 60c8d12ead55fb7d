//! An evaluation, a comparison and reports side by side as plain text for a terminal.

use std::fmt::Write as _;

use comfy_table::{Cell, CellAlignment, ContentArrangement, Table, presets};

use crate::body::measures::Measures;
use crate::check::{Level, Verdict, significant};
use crate::form::shortened;
use crate::mechanics::joint::Report;
use crate::plan::{CAUTIONS, Comparison, Evaluation, Span};

use super::contacts::contacts;
use super::cut_day::{cut_day, lift, splices};
use super::cut_list::cut_list;
use super::drilling::drilling;
use super::end_caps::end_caps;
use super::flatness::flatness;
use super::lasting::lasting;
use super::overview::{
    BOW_HEADINGS, EFFECT_HEADINGS, ORDER_HEADINGS, TASK_HEADINGS, bow_rows, effect_rows, order_rows, task_rows,
};
use super::paint::paint;
use super::quote::quote;
use super::schedule;
use super::skins::skins;

pub(super) fn table(header: &[&str]) -> Table {
    let mut table = Table::new();
    table.load_preset(presets::UTF8_BORDERS_ONLY);
    table.set_content_arrangement(ContentArrangement::Disabled);
    table.set_header(header.to_vec());
    table
}

/// A number to five digits, or a dash.
pub(super) fn number(value: Option<f64>) -> String {
    value.map_or_else(|| "–".to_owned(), significant)
}

/// A span as its one value, or as its ends; a dash where it is not known.
pub(super) fn span(value: Option<Span>) -> String {
    let Some(Span { least, most }) = value else { return number(None) };
    let (low, high) = (significant(least), significant(most));
    if low == high { low } else { format!("{low} to {high}") }
}

/// A unit-bearing name as a heading: `added_mass_kg` becomes `added mass, kg`.
pub(super) fn heading(name: &str) -> String {
    if let Some(words) = name.strip_suffix("_n_mm") {
        return format!("{}, N/mm", words.replace('_', " "));
    }
    match name.rsplit_once('_') {
        Some((words, unit @ ("kg" | "mm" | "deg" | "years" | "h"))) => format!("{}, {unit}", words.replace('_', " ")),
        Some((words, "ratio" | "count" | "total")) => words.replace('_', " "),
        _ => name.replace('_', " "),
    }
}

/// The headings and rows of a comparison, a column a plan: entries that differ first.
pub(super) fn comparison_rows(c: &Comparison) -> Vec<(String, Vec<String>)> {
    let short = |values: &Vec<String>| values.iter().map(|v| shortened(v)).collect();
    let mut rows: Vec<(String, Vec<String>)> = c.differences.iter().map(|(path, v)| (path.clone(), short(v))).collect();
    rows.push(("verdict".to_owned(), c.verdicts.iter().map(|v| v.words().to_owned()).collect()));
    rows.push(("price".to_owned(), c.prices.clone()));
    let names = c.metrics.first().into_iter().flatten().map(|m| m.name);
    for (i, name) in names.enumerate().filter(|(_, name)| *name != "price_total") {
        let values = c.metrics.iter().map(|m| number(m.get(i).and_then(|m| m.value))).collect();
        rows.push((heading(name), values));
    }
    rows
}

/// A comparison as a text table, a column a plan.
pub fn comparison(c: &Comparison) -> String {
    let mut header = vec![""];
    header.extend(c.names.iter().map(String::as_str));
    let mut table = table(&header);
    for (name, values) in comparison_rows(c) {
        let cells = values.into_iter().map(|v| Cell::new(v).set_alignment(CellAlignment::Right));
        table.add_row(std::iter::once(Cell::new(name)).chain(cells));
    }
    table.to_string()
}

/// One line: `42 pass, 3 fail, 2 outside the rule's range, 1 not assessed`.
pub(super) fn verdict_line(e: &Evaluation) -> String {
    let word = |v: Verdict| match v {
        Verdict::Passes => "pass",
        Verdict::Fails => "fail",
        other => other.words(),
    };
    let parts: Vec<String> =
        e.verdict_counts().into_iter().filter(|(_, n)| *n > 0).map(|(v, n)| format!("{n} {}", word(v))).collect();
    parts.join(", ")
}

/// How the frames across the bus sway; empty where the posts' section is not known.
fn bows(e: &Evaluation) -> String {
    if e.bows.is_none() {
        return String::new();
    }
    let mut frames = table(&BOW_HEADINGS);
    frames.add_rows(bow_rows(e));
    format!("{frames}\n\n")
}

/// Areas, volume and headroom of the body: what, before, after.
pub(super) fn body_rows(e: &Evaluation) -> Vec<(String, String, String)> {
    let b = &e.body;
    let row = |name: String, value: &dyn Fn(&Measures) -> String| (name, value(&b.before), value(&b.after));
    let length = |mm| e.units.length(mm);
    vec![
        row(format!("frontal area above {}", length(b.skirt_mm)), &|m| format!("{:.2} m2", m.frontal_area_m2)),
        row("volume above the floor, end caps as if square".to_owned(), &|m| format!("{:.1} m3", m.enclosed_volume_m3)),
        row("sides up to the drip rail, openings included".to_owned(), &|m| format!("{:.1} m2", m.side_skin_m2)),
        row("roof above the drip rail".to_owned(), &|m| format!("{:.1} m2", m.roof_skin_m2)),
        row(format!("headroom at the edge of an aisle of {}", length(b.aisle_mm)), &|m| {
            m.aisle_headroom_mm.map_or_else(|| "–".to_owned(), length)
        }),
    ]
}

/// Mass, stability and running cost before and after, with their notes.
fn effects(e: &Evaluation) -> String {
    let mut out = String::new();
    let [name, unit, before, after, change, numbers, _] = EFFECT_HEADINGS;
    let mut effects = table(&[name, unit, before, after, change, numbers]);
    effects.add_rows(effect_rows(e).into_iter().map(|[a, b, c, d, change, numbers, _]| [a, b, c, d, change, numbers]));
    // Writing to a string cannot fail.
    let _ = writeln!(out, "\n{effects}\n");
    for row in e.effects.iter().filter(|row| !row.note.is_empty()) {
        let _ = writeln!(out, "{}: {}", row.name, row.note);
    }
    out
}

/// An evaluation as text: verdicts, what does not pass and why, mass, order, hours, price, assumptions, cautions.
pub fn evaluation(e: &Evaluation) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = writeln!(out, "{}{}", e.name, if e.invented { " (figures invented for an example)" } else { "" });
    let _ = writeln!(out, "checks: {}\n", verdict_line(e));
    let mut checks = table(&["check", "where", "demand", "capacity", "verdict", "numbers"]);
    for c in &e.checks {
        checks.add_row([
            c.name.to_string(),
            c.subject.clone(),
            number(c.demand),
            format!("{} {}", number(c.capacity), c.unit),
            c.verdict.words().to_owned(),
            c.standing.words().to_owned(),
        ]);
    }
    let _ = writeln!(out, "{checks}\n");
    for c in e.checks.iter().filter(|c| c.verdict != Verdict::Passes) {
        if let Some(reason) = &c.reason {
            let _ = writeln!(out, "{}, {}: {reason}", c.name, c.subject);
        }
    }
    out.push_str(&effects(e));
    let mut body = table(&["body", "before", "after"]);
    for (name, before, after) in body_rows(e) {
        body.add_row([name, before, after]);
    }
    let _ = writeln!(out, "\n{body}");
    out.push_str(&cut_day(e));
    let mut order = table(&ORDER_HEADINGS);
    order.add_rows(order_rows(e));
    let _ = writeln!(out, "\n{order}\n");
    out.push_str(&cut_list(&e.cut_list));
    out.push_str(&(skins(e) + &contacts(e)));
    out.push_str(&drilling(e));
    out.push_str(&(flatness(e) + &bows(e)));
    let _ = writeln!(out, "{}", splices(&e.splices, e.units));
    out.push_str(&lift(e));
    if let Some(caps) = &e.end_caps {
        out.push_str(&end_caps(caps, e.units));
    }
    out.push_str(&lasting(e));
    out.push_str(&paint(e));
    let mut work = table(&TASK_HEADINGS);
    work.add_rows(task_rows(e));
    let _ = writeln!(out, "{work}\n\nhours {:.0}\n", e.hours());
    out.push_str(&schedule::work(e));
    if e.quote.is_some() {
        let _ = writeln!(out, "\n{}", quote(e));
    }
    if !e.reminders.is_empty() {
        let _ = writeln!(out, "\nthe new height touches:");
    }
    for reminder in &e.reminders {
        let (standing, source) = (reminder.standing.words(), reminder.source);
        let _ = writeln!(out, "  {}: {} [{standing}] {source}", reminder.about, reminder.text);
    }
    let _ = writeln!(out, "\nassumed, common practice or from memory:");
    for a in &e.assumed {
        let _ = writeln!(out, "  {} = {} [{}] {}", a.field, a.value, a.standing.words(), a.source);
    }
    for line in &e.overrides {
        let _ = writeln!(out, "  {line}");
    }
    let _ = writeln!(out);
    for caution in CAUTIONS {
        let _ = writeln!(out, "! {caution}");
    }
    out
}

/// The checks of several reports by name, strengths before limits, each in the order in which they first come: a cell a
/// report.
pub(super) fn side_by_side(reports: &[&Report]) -> Vec<(String, Vec<String>)> {
    let mut rows: Vec<(String, Vec<String>)> = Vec::new();
    let blank = || vec!["–".to_owned(); reports.len()];
    let each = reports.iter().enumerate().flat_map(|(i, report)| report.checks.iter().map(move |check| (i, check)));
    let (limits, strengths): (Vec<_>, Vec<_>) = each.partition(|(_, check)| check.level == Level::Stated);
    for (i, check) in strengths.into_iter().chain(limits) {
        let place = if check.subject.is_empty() { String::new() } else { format!(" · {}", check.subject) };
        let name = format!("{}{place}", check.name);
        let cell = match (check.level, check.utilisation()) {
            // A limit is kept or not; how far is no utilisation.
            (Level::Stated, _) | (_, None) => check.verdict.words().to_owned(),
            (_, Some(used)) => format!("{used:.3} of {} {}", number(check.capacity), check.unit).trim_end().to_owned(),
        };
        let at = rows.iter().position(|(known, _)| *known == name).unwrap_or_else(|| {
            rows.push((name, blank()));
            rows.len() - 1
        });
        if let Some(place) = rows.get_mut(at).and_then(|(_, cells)| cells.get_mut(i)) {
            *place = cell;
        }
    }
    rows
}

/// Reports as a text table, a column a rule set.
pub fn reports<'a>(reports: impl Iterator<Item = &'a Report>) -> String {
    let reports: Vec<&Report> = reports.collect();
    let mut header = vec![String::new()];
    header.extend(reports.iter().map(|report| format!("{} ({})", report.method, report.level.words())));
    let mut table = table(&header.iter().map(String::as_str).collect::<Vec<_>>());
    let verdicts = reports.iter().map(|report| report.verdict().words().to_owned()).collect();
    for (name, values) in std::iter::once(("verdict".to_owned(), verdicts)).chain(side_by_side(&reports)) {
        let cells = values.into_iter().map(|v| Cell::new(v).set_alignment(CellAlignment::Right));
        table.add_row(std::iter::once(Cell::new(name)).chain(cells));
    }
    table.to_string()
}
