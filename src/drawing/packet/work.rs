//! From the order to the quote: what is bought, cut, drilled, hung and charged.

use maud::{Markup, html};

use crate::drawing::Subject;
use crate::drawing::cut_list::{bar_words, sheet_words};
use crate::drawing::drilling::{HoleTable, drilling_words, jig_tables, line_tables};
use crate::drawing::end_caps::cap_words;
use crate::drawing::overview::{ORDER_HEADINGS, order_rows};
use crate::drawing::quote::quote_words;
use crate::drawing::schedule::{EVENING_HEADINGS, evening_rows, schedule_words};
use crate::plan::BarCuts;
use crate::shop::schedule::Evening;

use super::table::{Extra, lines, pictures, table};
use super::{Job, Part, Section};

/// What the metal supplier and the others are asked for, a table for each of them.
pub(super) fn order(job: &Job<'_>) -> Part {
    let rows = order_rows(job.e);
    let mut suppliers: Vec<&str> = Vec::new();
    for [_, from, ..] in &rows {
        if !suppliers.contains(&from.as_str()) {
            suppliers.push(from);
        }
    }
    let [item, _, quantity, unit, note] = ORDER_HEADINGS;
    let own = |supplier: &str| -> Vec<[String; 4]> {
        let own = rows.iter().filter(|[_, from, ..]| from == supplier);
        own.map(|[item, _, quantity, unit, note]| [item, quantity, unit, note].map(Clone::clone)).collect()
    };
    let fill = Extra { tick: true, fill: &["ordered, day", "came, day"] };
    let body = html! {
        @for supplier in suppliers {
            h4 { @if supplier.is_empty() { "Supplier not in the plan" } @else { "From: " (supplier) } }
            (table(&[item, quantity, unit, note], &own(supplier), fill))
        }
    };
    Part { title: "Order", sections: vec![Section { title: "Order list", body }] }
}

/// Cut plans with their pictures, bars, what is kept.
pub(super) fn cutting(job: &Job<'_>) -> Part {
    let cut = &job.e.cut_list;
    let sheets = html! {
        (job.list("sheet cuts", Extra { tick: true, fill: &[] }))
        @if let Some(own) = &cut.sheets {
            (lines(&sheet_words(own)))
        }
        (pictures(&job.drawings, Subject::CutPlan))
    };
    let bars = |name, own: &Option<BarCuts>| {
        let words: Vec<String> = own.iter().map(bar_words).collect();
        html! { (job.list(name, Extra { tick: true, fill: &[] })) (lines(&words)) }
    };
    Part {
        title: "Cut plans",
        sections: vec![
            Section { title: "What is cut from which sheet", body: sheets },
            job.section_with("every cut", Extra { tick: true, fill: &[] }),
            job.section("remnants"),
            Section { title: "Bars for the inserts", body: bars("insert bars", &cut.inserts) },
            Section { title: "Bars behind sheet edges", body: bars("tube bars", &cut.backing) },
        ],
    }
}

/// Sheets, laps, blanks, end caps, rivets, paint.
pub(super) fn skin(job: &Job<'_>) -> Part {
    let e = job.e;
    let laps = html! { (job.list("laps", Extra::default())) (pictures(&job.drawings, Subject::Laps)) };
    let blanks = html! {
        (job.list("blanks", Extra { tick: true, fill: &[] }))
        (pictures(&job.drawings, Subject::Blank))
    };
    let rivet_lines = html! { (job.list("rivet lines", Extra::default())) (pictures(&job.drawings, Subject::Line)) };
    let caps = html! {
        (job.list("end caps", Extra::default()))
        @if let Some(caps) = &e.end_caps {
            h4 { "Bend marks" } (job.list("bend marks", Extra { tick: true, fill: &[] }))
            h4 { "Ordinates of both edges" } (job.list("cap ordinates", Extra::default()))
            h4 { "Corners" } (job.list("cap corners", Extra::default()))
            (lines(&cap_words(caps, e.units)))
        }
    };
    Part {
        title: "Skin",
        sections: vec![
            job.section("sheets"),
            Section { title: "Laps: which sheet lies over which", body: laps },
            Section { title: "Blanks that are cut alike", body: blanks },
            Section { title: "End caps", body: caps },
            job.section("rivets"),
            Section { title: "Rivet lines", body: rivet_lines },
            job.section("coats"),
            job.section("details"),
        ],
    }
}

/// Hole tables side by side.
fn holes(tables: &[HoleTable]) -> Markup {
    html! {
        div class="holes" {
            @for own in tables { div { p class="lead" { (own.title) } (table(&own.headings, &own.rows, Extra::default())) } }
        }
    }
}

/// Jigs, then every hole of every line.
pub(super) fn drilling(job: &Job<'_>) -> Part {
    let e = job.e;
    let jigs = html! {
        (job.list("jigs", Extra::default()))
        (lines(&drilling_words(&e.drilling)))
        (pictures(&job.drawings, Subject::Jig))
        (holes(&jig_tables(&e.drilling)))
    };
    Part {
        title: "Drilling",
        sections: vec![
            Section { title: "Drilling jigs", body: jigs },
            job.section("old lines"),
            Section { title: "Drilling tables", body: holes(&line_tables(e)) },
        ],
    }
}

/// What is open on evenings that are alike; where it is little the table of evenings tells it.
fn open(alike: &[Evening]) -> Markup {
    let (Some(first), Some(last)) = (alike.first(), alike.last()) else { return html! {} };
    let days = if first.day == last.day {
        format!("day {}", first.day)
    } else {
        format!("days {} to {}", first.day, last.day)
    };
    html! { @if first.open.len() > 3 { p { "Open on the evening of " (days) ": " (first.open.join("; ")) } } }
}

/// The order of hanging with a box for each sheet, and where the body is closed against the weather.
pub(super) fn hanging(job: &Job<'_>) -> Part {
    let e = job.e;
    let stops = html! {
        @match &e.schedule {
            Some(own) => {
                p class="lead" {
                    "A stop point is an evening on which the body is weathertight: only there may the job rest. On any other evening "
                    "what is open is covered."
                }
                (table(&EVENING_HEADINGS, &evening_rows(own), Extra { tick: true, fill: &["covered, name"] }))
                @for alike in own.evenings().chunk_by(|a, b| a.open == b.open) { (open(alike)) }
                (lines(schedule_words(own).get(..2).unwrap_or_default()))
            }
            None => {
                p {
                    "The plan has no crew, so there are no days and no stop points: hang no more in a day than can be made "
                    "weathertight before the evening."
                }
            }
        }
    };
    Part {
        title: "Hanging",
        sections: vec![
            job.section_with("hanging order", Extra { tick: true, fill: &["day, name"] }),
            Section { title: "Weathertight stop points", body: stops },
            Section {
                title: "Every task day by day",
                body: html! { (pictures(&job.drawings, Subject::Schedule)) (job.list("schedule", Extra::default())) },
            },
        ],
    }
}

/// Hours by task, and the price.
pub(super) fn hours_and_quote(job: &Job<'_>) -> Part {
    let e = job.e;
    let hours = html! {
        (job.list("hours", Extra { tick: false, fill: &["took, h"] }))
        p { b { "Together " (format!("{:.1}", e.hours())) " hours of one person." } }
    };
    let stages = html! { (job.list("stages", Extra::default())) (lines(&quote_words(e))) };
    Part {
        title: "Hours and quote",
        sections: vec![
            Section { title: "Hours by task", body: hours },
            Section { title: "Quote by stage", body: stages },
            job.section("quote"),
        ],
    }
}
