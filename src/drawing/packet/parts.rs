//! From the summary to the raised frame: what decides, the day of the cut, the measure-up, inserts.

use maud::{Markup, html};

use crate::body::squareness::Stage;
use crate::check::Verdict;
use crate::drawing::Subject;
use crate::drawing::cut_day::{lift_note, splice_words, stop_work};
use crate::drawing::measure_up::{BLANKS, READING_HEADINGS, groups, sides, tolerances};
use crate::drawing::overview::{ASSUMED_HEADINGS, assumed_rows, verdict_rows};
use crate::plan::{Assumption, CAUTIONS, MEASURE_UP_NOTES, MeasureUp};

use super::table::{Extra, lines, pictures, table};
use super::{Job, Part, Section};

/// The cautions that go with every evaluation.
pub(super) fn cautions() -> Markup {
    html! { div class="warn" { b { "Cautions" } ul { @for caution in CAUTIONS { li { (caution) } } } } }
}

/// Verdicts, figures, every check, what the numbers rest on.
pub(super) fn summary(job: &Job<'_>) -> Part {
    let e = job.e;
    let worst = e.verdict();
    let verdicts = html! {
        p class="lead" {
            "Of " (e.checks.len()) " checks the worst " @if worst == Verdict::Passes { "passes" } @else { b { (worst.words()) } }
            ". Only \"passes\" counts as passing."
        }
        (table(&["verdict", "checks"], &verdict_rows(e), Extra::default()))
        p { b { "Before the first cut: " } (e.gate.words()) }
    };
    let assumed = html! {
        (job.list("assumed", Extra::default()))
        @if !e.overrides.is_empty() { p class="lead" { "Catalogue rows of the plan's own:" } (lines(&e.overrides)) }
    };
    Part {
        title: "Summary",
        sections: vec![
            Section { title: "Verdicts", body: verdicts },
            job.section("figures"),
            Section { title: "Every check, what fails first", body: job.without("checks", "clause") },
            job.section("body"),
            job.section("effects"),
            job.section("reminders"),
            Section { title: "Assumed, common practice or from memory", body: assumed },
        ],
    }
}

/// What is read on the day of the cut.
pub(super) fn cut_day(job: &Job<'_>) -> Part {
    let e = job.e;
    let gate = html! {
        p class="lead" { (e.gate.words()) }
        (job.list("gate", Extra { tick: true, fill: &["day, name"] }))
    };
    let wind = html! {
        @match stop_work(e) {
            Some(words) => { div class="warn" { p { b { "Stop-work wind: " } (words) } } }
            None => { p { "The plan has no lift, so there is no stop-work wind: do not cut before one is known." } }
        }
        @if let Some(note) = lift_note(e) { p { (note) } }
        (pictures(&job.drawings, Subject::CutDay))
    };
    let tried = Extra { tick: true, fill: &[] };
    Part {
        title: "Cut day",
        sections: vec![
            Section { title: "Questions before the first cut", body: gate },
            Section { title: "The wind at which work stops", body: wind },
            job.section_with("supports", tried),
            job.section_with("lift steps", tried),
            job.section_with("braces", tried),
            job.section_with("ledger", tried),
            job.section("exits"),
        ],
    }
}

fn form(own: &MeasureUp) -> Markup {
    let blanks = BLANKS.map(|blank| [blank.to_owned()]);
    html! {
        p { (own.stage.purpose()) ". " (sides(own)) "." }
        (table(&["what"], &blanks, Extra { tick: false, fill: &["this time"] }))
        @for group in groups(own) {
            p class="lead" { b { (group.name) } ": " (group.how) }
            (table(&READING_HEADINGS, &group.rows, Extra { tick: false, fill: &["read"] }))
        }
        (table(&["tolerance", "of the plan"], &tolerances(own).map(|(name, words)| [name.to_owned(), words]), Extra::default()))
    }
}

/// The forms of the three stages, with blanks.
pub(super) fn measure_up(job: &Job<'_>) -> Part {
    let title = |stage| match stage {
        Stage::BeforeCut => "Measure-up before the cut",
        Stage::AfterLift => "Measure-up after the lift",
        Stage::AfterTacking => "Measure-up after tacking",
    };
    let forms = Stage::ALL.map(|stage| (stage, job.plan.measure_up(stage)));
    let assumed: Vec<Assumption> =
        forms.iter().find_map(|(_, own)| own.as_ref().ok()).map_or_else(Vec::new, |own| own.assumed.clone());
    let first = html! {
        ul { @for note in MEASURE_UP_NOTES { li { (note) } } }
        @if !assumed.is_empty() {
            p class="lead" { "Measuring errors that the plan does not give:" }
            (table(&ASSUMED_HEADINGS, &assumed_rows(&assumed), Extra::default()))
        }
    };
    let mut sections = vec![Section { title: "Before the first reading", body: first }];
    sections.extend(forms.into_iter().map(|(stage, own)| Section {
        title: title(stage),
        body: own.map_or_else(|problem| html! { p { "No form: " (problem) } }, |own| form(&own)),
    }));
    Part { title: "Measure-up", sections }
}

/// Inserts by side and post, how they fit, the frame that they make.
pub(super) fn frame(job: &Job<'_>) -> Part {
    let e = job.e;
    let splices = html! {
        (job.list("splices", Extra::default()))
        (lines(&splice_words(&e.splices)))
    };
    let bows = html! { (job.list("bows", Extra::default())) (pictures(&job.drawings, Subject::Frame)) };
    Part {
        title: "Posts and frame",
        sections: vec![
            job.section_with("inserts", Extra { tick: true, fill: &["length as cut"] }),
            Section { title: "How the inserts fit", body: splices },
            job.section("leaning sides"),
            job.section("framing"),
            Section { title: "Posts with their roof bow", body: bows },
        ],
    }
}

/// The body as drawn.
pub(super) fn body(job: &Job<'_>) -> Part {
    Part {
        title: "Body",
        sections: vec![Section { title: "Drawings of the body", body: pictures(&job.drawings, Subject::Body) }],
    }
}
