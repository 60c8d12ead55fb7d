//! Several plans side by side: what differs between them first, then the numbers that decide.

use rust_decimal::Decimal;

use crate::check::Verdict;
use crate::error::{Error, Problem};
use crate::shop::quote::{Basis, Quote};
use crate::stop::look;

use super::metrics::Metric;
use super::{Evaluation, Plan};

/// A table of plans: a row each.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Names of the plans.
    pub names: Vec<String>,
    /// Entries in which the plans differ: path, and what each plan has there.
    pub differences: Vec<(String, Vec<String>)>,
    /// Verdict of each plan.
    pub verdicts: Vec<Verdict>,
    /// Price of each plan, with currency; empty where nothing is priced.
    pub prices: Vec<String>,
    /// Quote of each plan; none where nothing is priced.
    pub quotes: Vec<Option<Quote>>,
    /// The numbers, plan by plan; the same names in the same order for each.
    pub metrics: Vec<Vec<Metric>>,
}

/// Evaluates plans and sets them side by side.
///
/// # Errors
/// No plan at all, two plans of the same name, or a plan that cannot be evaluated.
///
/// # Example
/// ```
/// use raisedbody::plan::{Plan, compare};
/// let plan = Plan::read("examples/workshop_bus.toml").unwrap();
/// let heavier = plan.replace(&"skin.gauge = 16".parse().unwrap()).unwrap();
/// let table = compare(&[("18 ga", &plan), ("16 ga", &heavier)]).unwrap();
/// assert_eq!(table.differences[0].0, "skin.gauge");
/// ```
pub fn compare(plans: &[(&str, &Plan)]) -> Result<Comparison, Error> {
    if plans.is_empty() {
        return Err(Problem::missing("plans", "give at least one plan to compare").into());
    }
    for (i, (name, _)) in plans.iter().enumerate() {
        if plans[..i].iter().any(|(other, _)| other == name) {
            return Err(Problem::contradiction("plans", name, "two plans have this name; give each its own").into());
        }
    }
    let evaluate = |(_, plan): &(&str, &Plan)| {
        look();
        plan.evaluate()
    };
    let evaluations: Vec<Evaluation> = plans.iter().map(evaluate).collect::<Result<_, _>>()?;
    Ok(Comparison {
        names: plans.iter().map(|(name, _)| (*name).to_owned()).collect(),
        differences: differences(plans),
        verdicts: evaluations.iter().map(Evaluation::verdict).collect(),
        prices: evaluations.iter().map(|e| e.quote.as_ref().map_or_else(String::new, |q| q.total_text())).collect(),
        quotes: evaluations.iter().map(|e| e.quote.clone()).collect(),
        metrics: evaluations.into_iter().map(|e| e.metrics).collect(),
    })
}

impl Comparison {
    /// Every line of any quote by its name, in the order of the first that has it: what each plan pays for it, nought where it does
    /// not. Where it is an open item of a plan, and for plans without prices, there is none.
    pub fn lines(&self) -> Vec<(String, Vec<Option<Decimal>>)> {
        let mut names: Vec<&str> = Vec::new();
        for line in self.quotes.iter().flatten().flat_map(|quote| &quote.lines) {
            if !names.contains(&line.name.as_str()) {
                names.push(&line.name);
            }
        }
        let lines = || self.quotes.iter().flatten().flat_map(|quote| &quote.lines);
        let labour = |name: &str| lines().any(|line| line.name == name && line.basis == Basis::Labour);
        let paid = |quote: &Quote, name: &str| {
            let mut own = quote.lines.iter().filter(|line| line.name == name).peekable();
            let open = |item: &str| quote.open_items.iter().any(|open| open == item);
            let unknown = own.peek().is_none() && (open(name) || labour(name) && open("labour"));
            (!unknown).then(|| own.map(|line| line.amount).sum::<Decimal>())
        };
        let row = |name: &str| {
            let each = self.quotes.iter().map(|quote| quote.as_ref().and_then(|quote| paid(quote, name)));
            (name.to_owned(), each.collect())
        };
        names.into_iter().map(row).collect()
    }
}

/// Entries that are not the same in every plan, in the order of the first plan that has them.
fn differences(plans: &[(&str, &Plan)]) -> Vec<(String, Vec<String>)> {
    let flat: Vec<Vec<(String, String)>> = plans
        .iter()
        .map(|(_, plan)| {
            let mut entries = Vec::new();
            flatten(plan.table(), "", &mut entries);
            entries
        })
        .collect();
    let mut paths: Vec<&String> = Vec::new();
    for (path, _) in flat.iter().flatten() {
        if !paths.contains(&path) && path != "name" {
            paths.push(path);
        }
    }
    paths
        .into_iter()
        .filter_map(|path| {
            let values: Vec<String> = flat
                .iter()
                .map(|entries| entries.iter().find(|(p, _)| p == path).map_or_else(String::new, |(_, v)| v.clone()))
                .collect();
            let differ = values.iter().any(|v| *v != values[0]);
            differ.then(|| (path.clone(), values))
        })
        .collect()
}

/// Every entry by its path, whole, so that a change far inside a list is a difference of its own.
fn flatten(table: &toml::Table, path: &str, entries: &mut Vec<(String, String)>) {
    for (key, value) in table {
        let inner = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
        flatten_value(value, inner, entries);
    }
}

fn flatten_value(value: &toml::Value, path: String, entries: &mut Vec<(String, String)>) {
    match value {
        toml::Value::Table(table) => flatten(table, &path, entries),
        toml::Value::Array(items) if items.iter().any(toml::Value::is_table) => {
            for (i, item) in items.iter().enumerate() {
                flatten_value(item, format!("{path}[{i}]"), entries);
            }
        }
        toml::Value::String(text) => entries.push((path, text.clone())),
        other => entries.push((path, other.to_string())),
    }
}
