//! Hanging order and schedule as rows, words and plain text.

use std::fmt::Write as _;

use crate::plan::{Evaluation, HangingRow};
use crate::shop::schedule::{DayPart, Evening, Schedule, TaskKind, Wait, clock};

use super::text::table;

/// Of the hanging order.
pub(super) const HANGING_HEADINGS: [&str; 4] = ["hang", "sheet", "after", "why"];
/// Of the evenings.
pub(super) const EVENING_HEADINGS: [&str; 5] =
    ["day", "hung", "hang by now", "sealed by now", "weathertight overnight"];
/// Of the schedule.
pub(super) const SCHEDULE_HEADINGS: [&str; 8] = ["day", "start", "end", "task", "kind", "people", "tools", "waits for"];

/// In which order the sheets hang.
pub(super) fn hanging_rows(e: &Evaluation) -> Vec<[String; 4]> {
    let row =
        |(i, h): (usize, &HangingRow)| [(i + 1).to_string(), h.sheet.clone(), h.after.join(", "), h.reason.clone()];
    e.hanging_order.iter().enumerate().map(row).collect()
}

/// The body at the end of each day.
pub(super) fn evening_rows(s: &Schedule) -> Vec<[String; 5]> {
    let of = |kind: TaskKind| s.job().tasks.iter().filter(|task| task.kind == kind).count();
    let (sheets, sealed) = (of(TaskKind::Hang), of(TaskKind::Seal));
    let row = |evening: &Evening| {
        let night = match evening.weathertight {
            Some(true) => "yes".to_owned(),
            Some(false) if evening.open.len() <= 3 => format!("no, open: {}", evening.open.join("; ")),
            Some(false) => format!("no, {} places open", evening.open.len()),
            None => "not known".to_owned(),
        };
        let hung = if evening.hung.is_empty() { "–".to_owned() } else { evening.hung.join(", ") };
        let count = |now: usize, all: usize| format!("{now} of {all}");
        [evening.day.to_string(), hung, count(evening.hung_count, sheets), count(evening.sealed_count, sealed), night]
    };
    s.evenings().iter().map(row).collect()
}

/// Every task day by day.
pub(super) fn schedule_rows(s: &Schedule) -> Vec<[String; 8]> {
    let row = |part: &DayPart| {
        let task = s.job().tasks.get(part.task);
        let next = if part.end_day > part.day { format!(", day {}", part.end_day) } else { String::new() };
        [
            part.day.to_string(),
            clock(part.start_s),
            format!("{}{next}", clock(part.end_s)),
            task.map_or_else(String::new, |task| task.name.clone()),
            task.map_or_else(String::new, |task| task.kind.word().to_owned()),
            task.map_or_else(String::new, |task| task.people.to_string()),
            task.map_or_else(String::new, |task| task.tools.to_string()),
            s.waits().get(part.task).map_or_else(String::new, |wait| s.wait_words(*wait)),
        ]
    };
    s.days().iter().map(row).collect()
}

/// How long it takes and what decides that.
pub(super) fn schedule_words(s: &Schedule) -> Vec<String> {
    let (crew, days) = (s.job().crew, s.makespan_s().div_ceil(86_400));
    let name = |task: &usize| {
        let why = match s.waits().get(*task) {
            Some(Wait::People(_)) => " (waits for people)",
            Some(Wait::Tools(_)) => " (waits for a rivet tool)",
            Some(Wait::Hours(_)) => " (waits for its hours of the day)",
            Some(Wait::Closing) => " (waits for a day that closes it)",
            Some(Wait::Nothing | Wait::Task(_)) | None => "",
        };
        s.job().tasks.get(*task).map_or_else(String::new, |task| format!("{}{why}", task.name))
    };
    let chain: Vec<String> = s.critical_chain().iter().map(name).collect();
    vec![
        format!(
            "{days} days of {} with {} people and {} rivet tools, {:.1} person-hours",
            crew.words(),
            crew.people,
            crew.tools,
            s.person_hours()
        ),
        format!(
            "{:.1} h by the clock; no schedule takes less than {:.1} h, so it is at most {:.1} % from the best",
            s.makespan_h(),
            s.lower_bound_h(),
            100.0 * s.gap_ratio()
        ),
        format!("the end is decided by: {}", chain.join(" → ")),
    ]
}

/// A schedule as text: every task, every evening, what decides the end.
pub fn schedule(s: &Schedule) -> String {
    let (mut tasks, mut evenings) = (table(&SCHEDULE_HEADINGS), table(&EVENING_HEADINGS));
    tasks.add_rows(schedule_rows(s));
    evenings.add_rows(evening_rows(s));
    format!("{tasks}\n\n{evenings}\n\n{}\n", schedule_words(s).join("\n"))
}

/// Hanging order, evenings and what decides the end; the single tasks are told by [`schedule`].
pub(super) fn work(e: &Evaluation) -> String {
    let mut hanging = table(&HANGING_HEADINGS);
    hanging.add_rows(hanging_rows(e));
    let mut out = format!("{hanging}\n\n");
    match &e.schedule {
        Some(s) => {
            let mut evenings = table(&EVENING_HEADINGS);
            evenings.add_rows(evening_rows(s));
            // Writing to a string cannot fail.
            let _ = writeln!(out, "{evenings}\n\n{}\n", schedule_words(s).join("\n"));
        }
        None => out.push_str("no schedule: the plan has no crew\n\n"),
    }
    out
}
