//! The day of the cut: what the cut goes through, the emergency exits, the questions to settle before.

use crate::body::ledger::{Action, Entry, Item, ItemKind, Relation, Wish};
use crate::body::raise::{Ends, Raise};
use crate::body::survey::Survey;
use crate::check::Standing;
use crate::error::Problem;
use crate::plan::file::{Answer, ExitPlace, FeatureKind, FeatureSide, LedgerAction, LedgerKind};
use crate::plan::gate::{Question, QuestionKey};
use crate::quantity::Kind;

use super::memory::OfCutDay;
use super::reader::Reader;

/// Heights that an item of a bus can have, mm.
const HEIGHTS_MM: (f64, f64) = (0.0, 5000.0);

/// Stations between which the roof goes up, mm.
fn raised_part_mm(survey: &Survey, raise: &Raise) -> (f64, f64) {
    let post = |i: usize| survey.posts_mm.get(i).copied().unwrap_or(0.0);
    match raise.ends {
        Ends::WholeRoof => (0.0, survey.length_mm),
        _ => (post(raise.first_post), post(raise.last_post)),
    }
}

/// The day of the cut.
#[derive(Debug, Clone)]
pub(in crate::plan) struct CutDay {
    /// What the cut goes through.
    pub ledger: Vec<Entry>,
    /// How high a small adult reaches, where an exit is in the roof.
    pub reach: Option<(f64, Standing)>,
    /// Day of the cut and the questions before it.
    pub gate: (Option<String>, Vec<Question>),
}

pub(super) fn cut_day(r: &mut Reader<'_>, file: &OfCutDay, body: Option<(&Survey, &Raise)>) -> CutDay {
    let ledger = body.map(|(survey, raise)| ledger(r, file, survey, raise)).unwrap_or_default();
    CutDay { ledger, reach: reach_mm(r, file), gate: gate(r, file) }
}

/// Every line of the ledger: windows, features, exits, and what the plan lists.
fn ledger(r: &mut Reader<'_>, file: &OfCutDay, survey: &Survey, raise: &Raise) -> Vec<Entry> {
    let mut lines = windows(survey, raise);
    lines.extend(features(r, file, survey, raise));
    lines.extend(exits(r, file, raise));
    lines.extend(listed(r, file, survey, raise));
    lines
}

/// The windows of both sides in runs of like fate.
fn windows(survey: &Survey, raise: &Raise) -> Vec<Entry> {
    let count = survey.posts_mm.len().saturating_sub(1);
    let raised = raise.raised_windows();
    let fate = |i: usize| {
        let inside = raised.contains(&i);
        match raise.window_kept.get(i) {
            Some(true) => (Relation::Stays, Action::Keep),
            _ if inside => (Relation::Deleted, Action::Close),
            _ => (Relation::Stays, Action::Keep),
        }
    };
    let mut lines: Vec<Entry> = Vec::new();
    let mut first = 0;
    for i in 0..count {
        let own = fate(i);
        if i + 1 < count && fate(i + 1) == own {
            continue;
        }
        let name = if first == i { format!("window {}", i + 1) } else { format!("windows {} to {}", first + 1, i + 1) };
        lines.push(Entry {
            name: format!("{name}, both sides"),
            kind: ItemKind::Window,
            relation: Some(own.0),
            action: Some(own.1),
            note: if own.1 == Action::Close { "skinned over" } else { "" }.to_owned(),
        });
        first = i + 1;
    }
    lines
}

/// Doors, windows and fittings that the survey lists by place.
fn features(r: &mut Reader<'_>, file: &OfCutDay, survey: &Survey, raise: &Raise) -> Vec<Entry> {
    let part = raised_part_mm(survey, raise);
    let mut lines = Vec::new();
    // The survey's features come first and in the plan's order; what follows them stands for rails.
    for (i, (given, feature)) in file.survey.features.iter().zip(&survey.features).enumerate() {
        let kind = match given.kind {
            FeatureKind::Window => ItemKind::Window,
            FeatureKind::Door => ItemKind::Door,
            FeatureKind::Fitting => ItemKind::Fitting,
            FeatureKind::RubRail | FeatureKind::DripRail | FeatureKind::EndCap => continue,
        };
        let crosses = item_crosses(feature.bottom_mm, feature.top_mm, raise.cut_mm);
        let in_raised_part = feature.rear_mm < part.1 && part.0 < feature.front_mm;
        if kind == ItemKind::Door && crosses && in_raised_part {
            // The raise itself is refused for it.
            continue;
        }
        // Exits and the plan's own lines say more of the same thing.
        let told = |name: &str| name == given.name;
        let exits = file.survey.exits.as_deref().unwrap_or_default();
        if exits.iter().any(|exit| told(&exit.name)) || file.ledger.iter().any(|item| told(&item.name)) {
            continue;
        }
        let item = Item {
            name: match given.side {
                FeatureSide::Left => format!("{}, left", given.name),
                FeatureSide::Right => format!("{}, right", given.name),
                FeatureSide::Both => given.name.clone(),
            },
            kind,
            bottom_mm: feature.bottom_mm,
            top_mm: feature.top_mm,
            in_raised_part,
            slack_mm: 0.0,
            // A window in a raised bay is skinned over with the rest of the bay.
            wish: (kind == ItemKind::Window && crosses && in_raised_part).then_some(Wish::Close),
        };
        let path = format!("survey.features[{i}]");
        let entry = item.entry(raise.cut_mm, raise.height_mm, &path).map_err(|problem| {
            // A feature has no action of its own: a line of the ledger gives it one.
            let fix =
                format!("it lies across the cut: write a line of the ledger named \"{}\" with its action", given.name);
            if problem.path().ends_with(".action") { Problem::missing("ledger", fix) } else { problem }
        });
        lines.extend(r.keep(entry));
    }
    lines
}

fn item_crosses(bottom_mm: f64, top_mm: f64, cut_mm: f64) -> bool {
    bottom_mm < cut_mm && cut_mm < top_mm
}

/// Emergency exits that are there before the raise.
fn exits(r: &mut Reader<'_>, file: &OfCutDay, raise: &Raise) -> Vec<Entry> {
    let exits = file.survey.exits.as_deref().unwrap_or_default();
    let mut lines = Vec::new();
    for (i, exit) in exits.iter().enumerate() {
        if let Some(step) = exit.step {
            r.length(&format!("survey.exits[{i}].step"), step, 0.0, 1500.0);
        }
        if exit.new && !exit.kept {
            let problem = "an exit that is made in the raise is kept; leave new out for one that is lost";
            r.problems.push(Problem::contradiction(format!("survey.exits[{i}].kept"), "false", problem));
        }
        if exit.new {
            continue;
        }
        let path = |entry: &str| format!("survey.exits[{i}].{entry}");
        let heights = match (exit.bottom, exit.top) {
            (Some(bottom), Some(top)) => {
                let (low, high) = (HEIGHTS_MM.0, HEIGHTS_MM.1);
                let bottom_mm = r.length(&path("bottom"), bottom, low, high);
                let top_mm = r.length(&path("top"), top, low, high);
                if bottom_mm >= top_mm {
                    let problem = format!("must be more than bottom at {bottom_mm:.0} mm; the two look exchanged");
                    r.problems.push(Problem::contradiction(path("top"), format!("{top_mm:.0} mm"), problem));
                }
                Some((bottom_mm, top_mm))
            }
            (None, None) => None,
            (bottom, _) => {
                let lacks = if bottom.is_none() { "bottom" } else { "top" };
                r.problems
                    .push(Problem::missing(path(lacks), "an exit goes from a lower to an upper edge: write both"));
                None
            }
        };
        let relation = match (heights, exit.place) {
            _ if !exit.kept => Some(Relation::Deleted),
            (_, Some(ExitPlace::Roof)) => Some(Relation::Moves),
            (Some((bottom_mm, top_mm)), _) if item_crosses(bottom_mm, top_mm, raise.cut_mm) => Some(Relation::Crosses),
            (Some((bottom_mm, _)), _) if bottom_mm >= raise.cut_mm => Some(Relation::Moves),
            (Some(_), _) => Some(Relation::Stays),
            (None, _) => None,
        };
        let (action, note) = match relation {
            Some(Relation::Deleted) => (Some(Action::Close), ""),
            Some(Relation::Crosses) => {
                (Some(Action::Relocate), "kept as an exit: make it anew or move it, and mark it again")
            }
            Some(Relation::Moves) => (Some(Action::Keep), "it rises with the roof: try whether people still reach it"),
            Some(Relation::Stays) => (Some(Action::Keep), ""),
            None => (None, "its heights are not in the plan: write its bottom and top (survey.exits)"),
        };
        lines.push(Entry { name: exit.name.clone(), kind: ItemKind::Exit, relation, action, note: note.to_owned() });
    }
    lines
}

/// What the plan lists itself.
fn listed(r: &mut Reader<'_>, file: &OfCutDay, survey: &Survey, raise: &Raise) -> Vec<Entry> {
    let part = raised_part_mm(survey, raise);
    let mut lines = Vec::new();
    for (i, given) in file.ledger.iter().enumerate() {
        let path = |entry: &str| format!("ledger[{i}].{entry}");
        let before = r.problems.len();
        let bottom_mm = r.length(&path("bottom"), given.bottom, HEIGHTS_MM.0, HEIGHTS_MM.1);
        let top_mm = r.optional_length(&path("top"), given.top, HEIGHTS_MM.0, HEIGHTS_MM.1).unwrap_or(bottom_mm);
        let slack_mm = r.optional_length(&path("slack"), given.slack, 0.0, 5000.0).unwrap_or(0.0);
        let x_mm = r.optional_length(&path("x"), given.x, -3000.0, 25_000.0);
        if top_mm < bottom_mm {
            let problem = format!("must not be less than bottom at {bottom_mm:.0} mm; the two look exchanged");
            r.problems.push(Problem::contradiction(path("top"), Kind::Length.print(top_mm), problem));
        }
        if file.ledger.iter().take(i).any(|other| other.name == given.name) {
            let problem = "this name is used twice: one line of the ledger for each thing; number them";
            r.problems.push(Problem::contradiction(path("name"), &given.name, problem));
        }
        if r.problems.len() > before {
            continue;
        }
        let item = Item {
            name: given.name.clone(),
            kind: match given.kind {
                LedgerKind::Wires => ItemKind::Wires,
                LedgerKind::Hose => ItemKind::Hose,
                LedgerKind::Duct => ItemKind::Duct,
                LedgerKind::Hatch => ItemKind::Hatch,
                LedgerKind::Alarm => ItemKind::Alarm,
                LedgerKind::Lamp => ItemKind::Lamp,
                LedgerKind::Fitting => ItemKind::Fitting,
            },
            bottom_mm,
            top_mm,
            in_raised_part: x_mm.is_none_or(|x| part.0 <= x && x <= part.1),
            slack_mm,
            wish: given.action.map(|action| match action {
                LedgerAction::Lengthen => Wish::Lengthen,
                LedgerAction::Relocate => Wish::Relocate,
                LedgerAction::Keep => Wish::Keep,
                LedgerAction::Close => Wish::Close,
            }),
        };
        let wished = matches!(item.wish, Some(Wish::Relocate | Wish::Close));
        if x_mm.is_none() && raise.ends != Ends::WholeRoof && top_mm > raise.cut_mm && !wished {
            let note = format!(
                "only the roof between {:.0} and {:.0} mm from the rear goes up: write where it is (ledger[{i}].x)",
                part.0, part.1
            );
            lines.push(Entry { name: item.name, kind: item.kind, relation: None, action: None, note });
            continue;
        }
        lines.extend(r.keep(item.entry(raise.cut_mm, raise.height_mm, &format!("ledger[{i}]"))));
    }
    lines
}

/// The height up to which a small adult reaches, mm; asked only of a bus with an exit in its roof.
fn reach_mm(r: &mut Reader<'_>, file: &OfCutDay) -> Option<(f64, Standing)> {
    let exits = file.survey.exits.as_deref().unwrap_or_default();
    let in_roof = exits.iter().any(|exit| exit.place == Some(ExitPlace::Roof) && exit.kept);
    in_roof.then(|| r.fallback("", "overhead_reach", (1000.0, 2500.0), Kind::Length))
}

/// Days and reasons of the gate's questions.
fn gate(r: &mut Reader<'_>, file: &OfCutDay) -> (Option<String>, Vec<Question>) {
    let gate = &file.gate;
    let cut_day = gate.cut_day.clone().filter(|day| r.is_day("gate.cut_day", day));
    let mut question = |key: QuestionKey, answer: &Option<Answer>| {
        let path = |entry: &str| format!("gate.{}.{entry}", key.entry());
        let answer = answer.clone().unwrap_or_default();
        let mut day = |entry: &str, day: Option<String>| day.filter(|day| r.is_day(&path(entry), day));
        let (settled, valid_until) = (day("settled", answer.settled), day("valid_until", answer.valid_until));
        if let Some(why) = &answer.not_needed {
            if key.always_asked() {
                let problem =
                    "this one always arises: it is about the people under the roof; write settled = \"2026-11-20\"";
                r.problems.push(Problem::contradiction(path("not_needed"), why, problem));
            } else if why.trim().is_empty() {
                r.problems.push(Problem::missing(path("not_needed"), "write why the question does not arise"));
            } else if settled.is_some() {
                let problem = "a day on which it was settled is given too; leave one of them out";
                r.problems.push(Problem::contradiction(path("not_needed"), why, problem));
            }
        }
        if let (Some(until), Some(from)) = (&valid_until, &settled)
            && until < from
        {
            let problem = format!("it was settled later, on {from}; look at both days again");
            r.problems.push(Problem::contradiction(path("valid_until"), until, problem));
        }
        Question { key, settled, valid_until, not_needed: answer.not_needed, note: answer.note }
    };
    let questions = vec![
        question(QuestionKey::Insurer, &gate.insurer),
        question(QuestionKey::Title, &gate.title),
        question(QuestionKey::Ratings, &gate.ratings),
        question(QuestionKey::Engineer, &gate.engineer),
        question(QuestionKey::Supports, &gate.supports),
        question(QuestionKey::Fire, &gate.fire),
        question(QuestionKey::Battery, &gate.battery),
        question(QuestionKey::Lead, &gate.lead),
        question(QuestionKey::Weather, &gate.weather),
    ];
    (cut_day, questions)
}
