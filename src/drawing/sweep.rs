//! Sweeps and choices as text and HTML.

use std::fmt::Write as _;

use maud::{Markup, html};

use crate::check::significant;
use crate::plan::{Choice, Sweep};

use super::text::{heading, number, table};

/// Options that are shown; the rest are counted.
const SHOWN: usize = 20;

/// How far long work is: a line that the next one is written over, and at the end its own.
pub fn progress(what: &str, done: usize, of: usize, seconds: f64) -> String {
    if done == of {
        return format!("\r{of} {what} in {seconds:.0} s          \n");
    }
    if done == 0 {
        return format!("\r{of} {what} ");
    }
    let left = seconds * (of - done) as f64 / done as f64;
    format!("\r{done} of {of} {what}, about {left:.0} s left ")
}

/// What was swept, and the span of each number.
pub fn sweep(s: &Sweep) -> String {
    let axes: Vec<String> = s.axes().iter().map(|axis| format!("{} ({})", axis.path(), axis.values().len())).collect();
    let mut spans = table(&["", "least", "most", "not known"]);
    for name in s.names() {
        let (span, unknown) = s.span(name);
        spans.add_row([
            heading(name),
            number(span.map(|s| s.least)),
            number(span.map(|s| s.most)),
            unknown.to_string(),
        ]);
    }
    format!("{} combinations of {}; {} cannot be\n{spans}", s.len(), axes.join(" x "), s.impossible())
}

/// Cells of an option, and what stops it.
type Row = (Vec<String>, Vec<String>);

/// The headings and the rows of a choice: entries, what was wanted and bounded, what stops each.
fn rows(s: &Sweep, c: &Choice) -> (Vec<String>, Vec<Row>) {
    let mut names: Vec<&str> = c.objectives.iter().map(|objective| objective.name.as_str()).collect();
    for limit in &c.limits {
        if !names.contains(&limit.name.as_str()) {
            names.push(&limit.name);
        }
    }
    let paths = s.axes().iter().map(|axis| axis.path().to_owned());
    let headings = paths.chain(names.iter().map(|name| heading(name))).collect();
    let rows = c.chosen.iter().take(SHOWN).map(|own| {
        let entries = (0..s.axes().len()).map(|axis| s.label(own.row, axis));
        let numbers = names.iter().map(|name| s.value(own.row, name).map_or_else(|| number(None), significant));
        (entries.chain(numbers).collect(), own.stops.iter().map(|stop| stop.words.clone()).collect())
    });
    (headings, rows.collect())
}

/// What is left out and why, in a line.
fn left_out(c: &Choice) -> String {
    let counts: Vec<String> =
        c.left_out().into_iter().filter(|(_, count)| *count > 0).map(|(why, count)| format!("{why} {count}")).collect();
    let more = c.chosen.len().saturating_sub(SHOWN);
    let more = if more > 0 { format!("; {more} more options not shown") } else { String::new() };
    let out = if counts.is_empty() { "none".to_owned() } else { counts.join(", ") };
    format!("{} options; left out: {out}{more}", c.chosen.len())
}

/// The numbers tell nothing of what a sweep leaves out.
const MIND: &str =
    "the lift, the bows, the schedule and most checks are not in these numbers: evaluate what you choose";

/// The options and what keeps each from being better.
pub fn choice(s: &Sweep, c: &Choice) -> String {
    let (headings, rows) = rows(s, c);
    let mut options = table(&headings.iter().map(String::as_str).collect::<Vec<_>>());
    let mut stops = String::new();
    for (i, (cells, words)) in rows.into_iter().enumerate() {
        options.add_row(cells);
        let lines: Vec<String> = words.iter().map(|words| format!("  {words}\n")).collect();
        let _ = write!(stops, "{}. option:\n{}", i + 1, lines.concat());
    }
    format!("{}\n{options}\n{stops}{MIND}", left_out(c))
}

/// The same for a notebook.
pub fn choice_html(s: &Sweep, c: &Choice) -> String {
    let (headings, rows) = rows(s, c);
    let row = |(cells, words): Row| -> Markup {
        html! {
            tr {
                @for cell in cells { td { (cell) } }
                td { @for word in words { div { (word) } } }
            }
        }
    };
    html! {
        p { (left_out(c)) }
        table {
            thead { tr { @for heading in headings { th { (heading) } } th { "what keeps it from being better" } } }
            tbody { @for own in rows { (row(own)) } }
        }
        p { (MIND) }
    }
    .into_string()
}
