//! The check: one comparison of a demand with a capacity, its verdict, and how far its numbers can be trusted.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::calculation::{Calculation, Form};

/// What became of a comparison. Only [`Passes`](Self::Passes) counts as passing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Verdict {
    /// The demand is within the capacity, inside the rule's range.
    #[serde(rename = "passes")]
    Passes,
    /// A value that the comparison needs is missing.
    #[serde(rename = "not assessed")]
    NotAssessed,
    /// The rule does not cover this case; nothing is said about its strength.
    #[serde(rename = "outside the rule's range")]
    OutsideRange,
    /// The demand exceeds the capacity.
    #[serde(rename = "fails")]
    Fails,
}

impl Verdict {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Passes => "passes",
            Self::NotAssessed => "not assessed",
            Self::OutsideRange => "outside the rule's range",
            Self::Fails => "fails",
        }
    }
}

/// How a value is known, from the firmest to the weakest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
pub enum Standing {
    /// Seen in the source named beside it, or plain arithmetic on such values.
    #[serde(rename = "read in the source")]
    Read,
    /// Given by the user: measured, certified or chosen.
    #[serde(rename = "given by the user")]
    Given,
    /// A habit of the trade, without a published source.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Known from a named source that was not opened again; confirm before relying on it.
    #[serde(rename = "from memory")]
    Memory,
    /// An engineering judgement standing in for a value that was not given.
    #[serde(rename = "assumed")]
    Assumed,
}

impl Standing {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the source",
            Self::Given => "given by the user",
            Self::CommonPractice => "common practice",
            Self::Memory => "from memory",
            Self::Assumed => "assumed",
        }
    }

    /// The weaker of two: what a result made from both is worth.
    #[must_use]
    pub fn with(self, other: Self) -> Self {
        self.max(other)
    }
}

/// What kind of number a strength is. Numbers of different levels are never compared with each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Level {
    /// Divided by a partial factor; compared with factored loads.
    #[serde(rename = "design")]
    Design,
    /// Divided by a safety factor; compared with service loads.
    #[serde(rename = "allowable")]
    Allowable,
    /// Times a resistance factor; compared with loads factored by the same rule set.
    #[serde(rename = "factored")]
    Factored,
    /// A guaranteed least strength, no factor in it; compared with ultimate loads.
    #[serde(rename = "minimum")]
    Minimum,
    /// Plain geometry, mass or rating: no safety factor in it.
    #[serde(rename = "as stated")]
    Stated,
}

impl Level {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Design => "design",
            Self::Allowable => "allowable",
            Self::Factored => "factored",
            Self::Minimum => "minimum",
            Self::Stated => "as stated",
        }
    }
}

/// One number put into a formula.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Term {
    /// Symbol as in the formula.
    pub symbol: &'static str,
    /// Its value.
    pub value: f64,
    /// Its unit; empty for a plain ratio.
    pub unit: &'static str,
}

/// Shorthand for a [`Term`].
pub const fn term(symbol: &'static str, value: f64, unit: &'static str) -> Term {
    Term { symbol, value, unit }
}

/// Utilisation up to which a demand is within its capacity: rounding in the last digits is no overload.
pub const FULL: f64 = 1.0 + 1e-12;

/// One comparison. See the module's page.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Check {
    /// What is checked, in the field's word: `"bearing"`.
    pub name: Cow<'static, str>,
    /// Where: a rivet line, an axle, a place. Empty where there is only one.
    pub subject: String,
    /// Rule set and clause.
    pub clause: Cow<'static, str>,
    /// The formula of the capacity, in the rule's symbols.
    pub formula: &'static str,
    /// The numbers put into it.
    pub terms: Vec<Term>,
    /// What is asked, in [`unit`](Self::unit).
    pub demand: Option<f64>,
    /// What is there, in [`unit`](Self::unit).
    pub capacity: Option<f64>,
    /// Unit of both.
    pub unit: &'static str,
    /// The level both are at.
    pub level: Level,
    /// What became of it.
    pub verdict: Verdict,
    /// Why, where the verdict does not speak for itself.
    pub reason: Option<String>,
    /// The weakest standing of what went in.
    pub standing: Standing,
}

impl Check {
    /// Compares a demand with a capacity: passes where `demand <= capacity`, rounding in the last digits aside.
    ///
    /// A number that is missing or not finite leaves the check not assessed; a capacity of nought or less fails
    /// against any demand above it.
    pub fn compare(
        name: impl Into<Cow<'static, str>>,
        clause: impl Into<Cow<'static, str>>,
        (demand, capacity, unit): (Option<f64>, Option<f64>, &'static str),
        level: Level,
        standing: Standing,
    ) -> Self {
        let finite = |v: Option<f64>| v.filter(|v| v.is_finite());
        let (demand, capacity) = (finite(demand), finite(capacity));
        let (verdict, reason) = match (demand, capacity) {
            // 2.08 m of headroom is 2.08 m whether it was written in metres or in inches.
            (Some(d), Some(c)) if d <= c || (c > 0.0 && d / c <= FULL) => (Verdict::Passes, None),
            (Some(_), Some(_)) => (Verdict::Fails, None),
            (None, Some(_)) => (Verdict::NotAssessed, Some("the demand is not known".to_owned())),
            (_, None) => (Verdict::NotAssessed, Some("the capacity is not known".to_owned())),
        };
        Self {
            name: name.into(),
            subject: String::new(),
            clause: clause.into(),
            formula: "",
            terms: Vec::new(),
            demand,
            capacity,
            unit,
            level,
            verdict,
            reason,
            standing,
        }
    }

    /// A check of a rule's own limits: where `demand <= capacity` does not hold, the rule does not apply.
    #[must_use]
    pub fn as_range(mut self) -> Self {
        if self.verdict == Verdict::Fails {
            self.verdict = Verdict::OutsideRange;
        }
        self
    }

    /// Adds the formula and the numbers put into it.
    #[must_use]
    pub fn by(mut self, formula: &'static str, terms: impl Into<Vec<Term>>) -> Self {
        self.formula = formula;
        self.terms = terms.into();
        self
    }

    /// Says where the check is made.
    #[must_use]
    pub fn at(mut self, subject: impl Into<String>) -> Self {
        self.subject = subject.into();
        self
    }

    /// Says why, in words.
    #[must_use]
    pub fn because(mut self, reason: impl Into<String>) -> Self {
        self.reason = Some(reason.into());
        self
    }

    /// Replaces the verdict: used where a rule's own limit overrides the comparison. Never turns anything into a pass.
    #[must_use]
    pub fn demoted(mut self, verdict: Verdict, reason: impl Into<String>) -> Self {
        if verdict != Verdict::Passes {
            self.verdict = verdict;
            self.reason = Some(reason.into());
        }
        self
    }

    /// Demand over capacity; none where either is missing or the capacity is not above nought.
    pub fn utilisation(&self) -> Option<f64> {
        match (self.demand, self.capacity) {
            (Some(d), Some(c)) if c > 0.0 => Some(d / c),
            _ => None,
        }
    }

    /// The comparison as a hand calculation, in plain text.
    pub fn explain(&self) -> String {
        self.calculation().write(Form::Text)
    }

    /// The comparison as a hand calculation: formula, numbers, result, verdict, standing.
    pub fn calculation(&self) -> Calculation<'_> {
        let place = if self.subject.is_empty() { String::new() } else { format!(" · {}", self.subject) };
        let show = |v: Option<f64>| v.map_or_else(|| "not known".to_owned(), significant);
        let (demand, capacity, unit) = (show(self.demand), show(self.capacity), self.unit);
        let mut results = vec![format!("demand {demand} {unit}, capacity {capacity} {unit} ({})", self.level.words())];
        results.extend(self.utilisation().map(|utilisation| format!("utilisation {utilisation:.3}")));
        let reason = self.reason.as_ref().map_or_else(String::new, |reason| format!(": {reason}"));
        results.push(format!("{}{reason}", self.verdict.words()));
        Calculation {
            title: format!("{}{place}", self.name),
            clause: &self.clause,
            formula: self.formula,
            terms: &self.terms,
            results,
            standing: self.standing,
        }
    }
}

/// A number to five significant digits, without trailing noughts.
pub fn significant(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let magnitude = value.abs().log10().floor() as i32;
    let decimals = (4 - magnitude).clamp(0, 9) as usize;
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// The worst verdict of several checks; *not assessed* where there is none.
pub fn worst<'a>(checks: impl IntoIterator<Item = &'a Check>) -> Verdict {
    checks.into_iter().map(|c| c.verdict).max().unwrap_or(Verdict::NotAssessed)
}

/// The check that decides: among those of the worst verdict the strength used most, or, where a rule does not apply,
/// the limit that is passed most; the first of equals.
pub fn governing<'a>(checks: impl IntoIterator<Item = &'a Check>) -> Option<&'a Check> {
    let rank = |c: &Check| (c.verdict, (c.level == Level::Stated) == (c.verdict == Verdict::OutsideRange));
    let used = |c: &Check| match (c.demand, c.capacity) {
        // Nothing to carry it with.
        (Some(demand), Some(capacity)) if demand > 0.0 && capacity <= 0.0 => f64::INFINITY,
        _ => c.utilisation().unwrap_or(0.0),
    };
    let above = |a: &Check, b: &Check| rank(a).cmp(&rank(b)).then(used(a).total_cmp(&used(b))).is_gt();
    checks.into_iter().reduce(|best, next| if above(next, best) { next } else { best })
}
