//! What an evaluation sums up, as headings and rows: figures, checks, what is ordered, hours, masses, before and after, assumptions.

use crate::body::masses::{Change, MassItem};
use crate::body::splices::Insert;
use crate::body::survey::Side;
use crate::check::{Check, Verdict, significant};
use crate::plan::{Assumption, Effect, Evaluation, OrderLine, PostSplice, Reminder};
use crate::shop::hours::Task;

use super::cut_day::stop_work;
use super::text::{number, span};

pub(super) const FIGURE_HEADINGS: [&str; 2] = ["", "after the raise"];
pub(super) const CHECK_HEADINGS: [&str; 10] =
    ["verdict", "check", "where", "demand", "capacity", "unit", "share used", "why", "numbers", "clause"];
pub(super) const ORDER_HEADINGS: [&str; 5] = ["order", "from", "quantity", "unit", "note"];
pub(super) const TASK_HEADINGS: [&str; 5] = ["work", "quantity", "unit", "person-hours", "times"];
pub(super) const MASS_HEADINGS: [&str; 9] = [
    "mass",
    "of",
    "it is",
    "kg",
    "forward of the rear face, mm",
    "left of the middle, mm",
    "above the ground, mm",
    "rises by, mm",
    "numbers",
];
pub(super) const EFFECT_HEADINGS: [&str; 7] =
    ["before and after", "unit", "before", "after", "change", "numbers", "note"];
pub(super) const REMINDER_HEADINGS: [&str; 4] = ["the new height touches", "what to look at", "standing", "source"];
pub(super) const ASSUMED_HEADINGS: [&str; 4] = ["entry or default", "value", "standing", "source"];
pub(super) const BOW_HEADINGS: [&str; 5] =
    ["bow, feet", "sway stiffness before, N/mm", "after", "sway in a gust, mm", "P-delta factor"];
pub(super) const INSERT_HEADINGS: [&str; 6] =
    ["insert", "side", "post", "length", "bends, lower and upper", "cut from"];

/// Height, mass, bows, rivets, hours, price.
pub(super) fn figure_rows(e: &Evaluation) -> Vec<[String; 2]> {
    let mut rows: Vec<[String; 2]> = Vec::new();
    let mut row = |name: &str, value: String| rows.push([name.to_owned(), value]);
    let kg = significant;
    row("overall height", e.units.length(e.raised.heights.overall_mm));
    row("headroom", e.units.length(e.raised.headroom_mm));
    row("skin", format!("{}, {} kg", e.sheet, kg(e.mass.skin_kg)));
    let (added, removed, fit_out) = (kg(e.mass.added_kg), kg(e.mass.removed_kg), kg(e.mass.fit_out_kg));
    row("added / removed", format!("{added} kg / {removed} kg, of which fit-out {fit_out} kg"));
    if let Some(words) = e.mass.fit_out_words() {
        row("fit-out", words);
    }
    if let Some((low, high)) = e.mass.after {
        row("mass after", format!("{} kg", kg(low.mass_kg)));
        row("centre of gravity", format!("{} to {}", e.units.length(low.z_mm), e.units.length(high.z_mm)));
    }
    if let Some((front, rear)) = e.mass.axles_after_kg {
        row("axles", format!("front {} kg, rear {} kg", kg(front), kg(rear)));
    }
    for a in e.bows.iter().flat_map(|bows| &bows.answers) {
        let (before, after) = (a.sway_stiffness_before_n_mm, a.sway_stiffness_after_n_mm);
        let words = format!("feet {}: {} to {} N/mm", a.feet.words(), significant(before), significant(after));
        row("sway stiffness of a bow", words);
    }
    if let Some(words) = stop_work(e) {
        row("stop-work wind, roof off", words);
    }
    row("rivets", format!("{} of {}", e.takeoff.rivets, e.rivet));
    row("sheets", e.takeoff.sheets.to_string());
    row("labour", format!("{:.0} h", e.hours()));
    row("price", e.quote.as_ref().map_or_else(|| "no prices in the plan".to_owned(), |quote| quote.total_text()));
    rows
}

/// Every check, the worst verdicts first, of equals those that use most of what is there.
pub(super) fn checks_worst_first(e: &Evaluation) -> Vec<&Check> {
    let mut checks: Vec<&Check> = e.checks.iter().collect();
    let used = |c: &Check| c.utilisation().unwrap_or(0.0);
    checks.sort_by(|a, b| b.verdict.cmp(&a.verdict).then(used(b).total_cmp(&used(a))));
    checks
}

/// The same as rows.
pub(super) fn check_rows(e: &Evaluation) -> Vec<[String; 10]> {
    let row = |c: &Check| {
        [
            c.verdict.words().to_owned(),
            c.name.to_string(),
            c.subject.clone(),
            number(c.demand),
            number(c.capacity),
            c.unit.to_owned(),
            c.utilisation().map_or_else(|| number(None), |used| format!("{used:.3}")),
            c.reason.clone().unwrap_or_default(),
            c.standing.words().to_owned(),
            c.clause.to_string(),
        ]
    };
    checks_worst_first(e).into_iter().map(row).collect()
}

/// How many checks have each verdict.
pub(super) fn verdict_rows(e: &Evaluation) -> Vec<[String; 2]> {
    let row = |(verdict, count): (Verdict, usize)| [verdict.words().to_owned(), count.to_string()];
    e.verdict_counts().into_iter().rev().map(row).collect()
}

/// What to order.
pub(super) fn order_rows(e: &Evaluation) -> Vec<[String; 5]> {
    let row = |line: &OrderLine| {
        let from = line.supplier.clone().unwrap_or_default();
        [line.item.clone(), from, significant(line.quantity), line.unit.to_owned(), line.note.clone()]
    };
    e.order.iter().map(row).collect()
}

/// What is done, and for how long.
pub(super) fn task_rows(e: &Evaluation) -> Vec<[String; 5]> {
    let row = |task: &Task| {
        [
            task.name.to_owned(),
            significant(task.quantity),
            task.unit.to_owned(),
            format!("{:.1}", task.hours),
            task.standing.words().to_owned(),
        ]
    };
    e.tasks.iter().map(row).collect()
}

/// Every mass that changes.
pub(super) fn mass_rows(e: &Evaluation) -> Vec<[String; 9]> {
    let mm = |mm: f64| format!("{mm:.0}");
    let row = |item: &MassItem| {
        let rise = if let Change::Moved { rise_mm } = item.change { mm(rise_mm) } else { number(None) };
        [
            item.name.clone(),
            item.group.words().to_owned(),
            item.change.words().to_owned(),
            significant(item.mass_kg),
            mm(item.x_mm),
            mm(item.y_mm),
            mm(item.z_mm),
            rise,
            item.standing.words().to_owned(),
        ]
    };
    e.items.iter().map(row).collect()
}

/// Mass, stability and running cost before and after.
pub(super) fn effect_rows(e: &Evaluation) -> Vec<[String; 7]> {
    let row = |row: &Effect| {
        [
            row.name.to_owned(),
            row.unit.to_owned(),
            span(row.before),
            span(row.after),
            span(row.change),
            row.standing.words().to_owned(),
            row.note.clone(),
        ]
    };
    e.effects.iter().map(row).collect()
}

/// What the new height touches besides.
pub(super) fn reminder_rows(e: &Evaluation) -> Vec<[String; 4]> {
    let row = |r: &Reminder| [r.about, r.text, r.standing.words(), r.source].map(str::to_owned);
    e.reminders.iter().map(row).collect()
}

/// Everything assumed, common practice or from memory.
pub(super) fn assumed_rows(assumed: &[Assumption]) -> Vec<[String; 4]> {
    let row = |a: &Assumption| [a.field.clone(), a.value.clone(), a.standing.words().to_owned(), a.source.clone()];
    assumed.iter().map(row).collect()
}

/// The frames across the bus.
pub(super) fn bow_rows(e: &Evaluation) -> Vec<[String; 5]> {
    let answers = e.bows.iter().flat_map(|bows| &bows.answers);
    let rows = answers.map(|a| {
        [
            a.feet.words().to_owned(),
            significant(a.sway_stiffness_before_n_mm),
            significant(a.sway_stiffness_after_n_mm),
            a.sway_mm.map_or_else(|| "buckles".to_owned(), |mm| format!("{mm:.1}")),
            a.p_delta_ratio.map_or_else(String::new, |ratio| format!("{ratio:.3}")),
        ]
    });
    rows.collect()
}

/// Every insert by its side and post, left side first, rear to front.
pub(super) fn insert_rows(e: &Evaluation) -> Vec<[String; 6]> {
    let row = |post: &PostSplice| {
        let Insert { id, side, post: index, length_mm } = &post.insert;
        let bends = match post.bends_deg {
            [lower, upper] if lower.abs().max(upper.abs()) < 0.05 => "none".to_owned(),
            [lower, upper] => format!("{lower:.1}°, {upper:.1}°"),
        };
        let bar = post.bar.map_or_else(|| number(None), |bar| format!("bar {}", bar + 1));
        let side = e.side_names[usize::from(*side == Side::Right)];
        [id.clone(), side.to_owned(), (index + 1).to_string(), e.units.length(*length_mm), bends, bar]
    };
    e.splices.posts.iter().map(row).collect()
}
