//! The gate before the first cut: questions with their days; any open one keeps the plan from saying that it is ready.

use serde::Serialize;

use crate::check::{Check, Level, Standing, Verdict};

/// A question that is settled before the first cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
pub enum QuestionKey {
    /// The insurer.
    Insurer,
    /// Title and inspection.
    Title,
    /// Ratings.
    Ratings,
    /// A licensed engineer.
    Engineer,
    /// What holds the roof.
    Supports,
    /// Fire and fuel.
    Fire,
    /// Battery and electronics.
    Battery,
    /// Old paint and foam.
    Lead,
    /// The weather.
    Weather,
}

impl QuestionKey {
    /// Its entry in the plan's gate.
    pub fn entry(self) -> &'static str {
        match self {
            Self::Insurer => "insurer",
            Self::Title => "title",
            Self::Ratings => "ratings",
            Self::Engineer => "engineer",
            Self::Supports => "supports",
            Self::Fire => "fire",
            Self::Battery => "battery",
            Self::Lead => "lead",
            Self::Weather => "weather",
        }
    }

    /// The question in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Insurer => "Does the insurer cover the work, and the vehicle once it is taller, in writing?",
            Self::Title => {
                "As what will it be titled, inspected and registered, and does that office accept a raised roof?"
            }
            Self::Ratings => "Do axle, tyre and gross ratings cover what it becomes, people, water and cargo included?",
            Self::Engineer => "Has a licensed engineer seen posts, splices, feet and what holds the roof?",
            Self::Supports => "Are cribs, jacks and braces for the roof there, rated, level, and tried under load?",
            Self::Fire => {
                "Are foam and insulation away from the heat, fuel closed off, extinguishers and a fire watch set?"
            }
            Self::Battery => "Are the battery and the electronics disconnected before anything is welded?",
            Self::Lead => {
                "Is old paint tested for lead and chromate, foam and insulation known, and breathing protected?"
            }
            Self::Weather => "Is dry weather with little wind forecast until the roof is fast again?",
        }
    }

    /// The ones about the people under the roof cannot be left out, nor can the engineer.
    pub fn always_asked(self) -> bool {
        matches!(self, Self::Engineer | Self::Supports | Self::Fire | Self::Battery | Self::Weather)
    }
}

/// A question with what the plan says of it; days as year-month-day.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Question {
    pub key: QuestionKey,
    pub settled: Option<String>,
    pub valid_until: Option<String>,
    pub not_needed: Option<String>,
    pub note: Option<String>,
}

/// Whether a question is settled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
pub enum GateState {
    /// Not settled for the day of the cut.
    Open,
    /// Settled.
    Settled,
    /// The planner says that it does not arise.
    NotNeeded,
}

impl GateState {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Settled => "settled",
            Self::NotNeeded => "not needed",
        }
    }
}

/// A row of the gate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GateRow {
    /// Which question.
    pub key: QuestionKey,
    /// Whether it is settled.
    pub state: GateState,
    /// Day on which it was settled, year-month-day.
    pub settled: Option<String>,
    /// Last day on which that holds.
    pub valid_until: Option<String>,
    /// Why it is open or not needed, and what the plan notes.
    pub note: String,
}

/// The gate before the first cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Gate {
    /// Day of the first cut, year-month-day.
    pub cut_day: Option<String>,
    /// Every question.
    pub rows: Vec<GateRow>,
    /// Checks of the plan that fail, and checks of the lift that do not pass.
    pub in_the_way: Vec<String>,
}

impl Gate {
    /// Questions that are open.
    pub fn open(&self) -> impl Iterator<Item = &GateRow> {
        self.rows.iter().filter(|row| row.state == GateState::Open)
    }

    /// Every question is settled for the day of the cut and nothing that was worked out stands in the way. No clearance.
    pub fn ready_to_cut(&self) -> bool {
        self.cut_day.is_some() && self.open().next().is_none() && self.in_the_way.is_empty()
    }

    /// What the plan says of itself.
    pub fn words(&self) -> String {
        if self.ready_to_cut() {
            let day = self.cut_day.as_deref().unwrap_or_default();
            return format!(
                "ready to cut on {day}: every question is settled and no check fails; no clearance, which the people who \
                 stand under the roof give on the day"
            );
        }
        let mut why = Vec::new();
        if self.cut_day.is_none() {
            why.push("no day of the cut (gate.cut_day)".to_owned());
        }
        let open: Vec<&str> = self.open().map(|row| row.key.entry()).collect();
        if !open.is_empty() {
            why.push(format!("open questions: {}", open.join(", ")));
        }
        if !self.in_the_way.is_empty() {
            why.push(format!("in the way: {}", self.in_the_way.join("; ")));
        }
        format!("not ready to cut: {}", why.join("; "))
    }
}

/// Holds the plan's answers against the day of the cut, and the plan's checks against the cut itself.
pub(super) fn gate((cut_day, questions): &(Option<String>, Vec<Question>), checks: &[Check]) -> Gate {
    let rows = questions.iter().map(|question| row(question, cut_day.as_deref())).collect();
    let stands =
        |check: &&Check| check.verdict == Verdict::Fails || (of_the_cut(check) && check.verdict != Verdict::Passes);
    let mut in_the_way: Vec<String> = Vec::new();
    for check in checks.iter().filter(stands) {
        let words = format!("{} ({})", check.name, check.verdict.words());
        if !in_the_way.contains(&words) {
            in_the_way.push(words);
        }
    }
    Gate { cut_day: cut_day.clone(), rows, in_the_way }
}

/// What holds the roof, what joins the posts again and what the cut goes through must be known to be in order, not only not
/// known to fail.
fn of_the_cut(check: &Check) -> bool {
    ["roof off", "splice", "ledger of the cut"].iter().any(|name| check.name.starts_with(name))
}

fn row(question: &Question, cut_day: Option<&str>) -> GateRow {
    let Question { key, settled, valid_until, not_needed, note } = question.clone();
    let (state, why) = match (&settled, &not_needed, cut_day) {
        (Some(_), _, Some(_)) if key == QuestionKey::Weather && valid_until.is_none() => {
            (GateState::Open, "a forecast holds for some days only: write until when (valid_until)".to_owned())
        }
        (None, Some(why), _) => (GateState::NotNeeded, why.clone()),
        (None, None, _) => (GateState::Open, "no answer in the plan".to_owned()),
        (Some(day), _, Some(cut)) if day.as_str() > cut => {
            (GateState::Open, format!("settled only after the cut on {cut}"))
        }
        (Some(_), ..) => match (&valid_until, cut_day) {
            (Some(until), Some(cut)) if until.as_str() < cut => {
                (GateState::Open, format!("holds until {until}, and the cut is on {cut}"))
            }
            (Some(_), None) => (GateState::Open, "holds for some days only: write the day of the cut".to_owned()),
            _ => (GateState::Settled, String::new()),
        },
    };
    let parts = [Some(why), note].into_iter().flatten().filter(|part| !part.is_empty());
    let note = parts.collect::<Vec<_>>().join("; ");
    GateRow { key, state, settled, valid_until, note }
}

/// One line among the checks: passes where the gate says that the plan is ready.
pub(super) fn gate_check(gate: &Gate) -> Check {
    let open = gate.open().count() as f64;
    let sides = (Some(open), Some(0.0), "open questions");
    let check =
        Check::compare("ready to cut", "questions and days; no legal advice", sides, Level::Stated, Standing::Given)
            .at("gate before the first cut");
    if gate.ready_to_cut() { check.because(gate.words()) } else { check.demoted(Verdict::NotAssessed, gate.words()) }
}
