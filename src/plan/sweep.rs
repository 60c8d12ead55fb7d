//! A plan over a grid of choices: every combination of the values of some entries, and the numbers that each comes to.

use std::collections::BTreeMap;
use std::ops::Range;

use toml::{Table, Value};

use crate::error::{Error, Problem};
use crate::form::Document;

use super::essentials::Essentials;
use super::file::File;
use super::metrics::{METRICS, metrics};
use super::resolve::Resolved;
use super::results::Span;
use super::rows::{Group, MOST_KEPT, NO_BOOK, Worker, on_all_cores};
use super::{Plan, changed, merge, plan_schema};

/// More combinations than anyone waits for or has room for.
pub const MOST_COMBINATIONS: usize = 1_000_000;

/// Combinations that one core works through in a row, each taking over from the last what its choices leave as it was.
const RUN: usize = 128;

/// Values that are held against the whole form between two looks at whether to go on: some tenths of a second.
const LOOK: usize = 1024;

/// An entry of the plan and the values that it takes in turn.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    path: String,
    values: Vec<Value>,
}

impl Axis {
    /// The entry at a path such as `skin.gauge`; a value that is a table changes the entries in it.
    ///
    /// # Errors
    /// No path, no value, a value given twice, or rows of the catalogue.
    pub fn new(path: &str, values: Vec<Value>) -> Result<Self, Error> {
        let axis = Self::without_values("axes", path)?;
        if values.is_empty() {
            return Err(Problem::missing(format!("axes, {path}"), "give at least one value").into());
        }
        if values.len() > MOST_COMBINATIONS {
            let allowed = format!("at most {MOST_COMBINATIONS}");
            return Err(
                Problem::out_of_range(format!("axes, {path}"), format!("{} values", values.len()), allowed).into()
            );
        }
        // Compared with those that look alike; what lists and mappings hold may stand in another order.
        let mut seen: BTreeMap<String, Vec<&Value>> = BTreeMap::new();
        for value in &values {
            let plain = !(value.is_array() || value.is_table());
            let alike = seen.entry(if plain { label(value) } else { String::new() }).or_default();
            if alike.contains(&value) {
                let problem = "this value is given twice; give each once";
                return Err(Problem::contradiction(format!("axes, {path}"), label(value), problem).into());
            }
            alike.push(value);
        }
        Ok(Self { values, ..axis })
    }

    /// An entry that may vary, told as a fault of `field` where it may not. Each value is added once; any beyond the last one leaves
    /// the entry as it is.
    pub(super) fn without_values(field: &str, path: &str) -> Result<Self, Error> {
        if path.split('.').any(|step| step.is_empty() || step.contains('[')) {
            let fix = "name an entry by its path, such as skin.gauge; of a list give whole lists as values";
            return Err(Problem::Unreadable {
                path: field.to_owned(),
                value: path.to_owned(),
                problem: fix.to_owned(),
            }
            .into());
        }
        let fixed = match path.split('.').next() {
            _ if path == "prices.book" => NO_BOOK,
            Some("catalogue") => "rows of the catalogue are not varied: compare plans that each have their own",
            _ => return Ok(Self { path: path.to_owned(), values: Vec::new() }),
        };
        Err(Problem::contradiction(field, path, fixed).into())
    }

    /// The entry.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// Its values.
    pub fn values(&self) -> &[Value] {
        &self.values
    }

    /// How much of the plan follows from the entry, roughly: what more follows from is changed more seldom.
    pub(super) fn weight(&self) -> u8 {
        match (self.section(), self.path.as_str()) {
            ("vehicle" | "survey" | "hole_line", _) => 5,
            ("raise", _) => 4,
            ("skin" | "end_caps" | "crew", _) => 3,
            (_, "fastening.pitch") => 1,
            ("fastening", _) => 2,
            _ => 0,
        }
    }

    /// The part of the plan that it lies in.
    pub(super) fn section(&self) -> &str {
        self.path.split('.').next().unwrap_or_default()
    }

    /// One value more.
    pub(super) fn add(&mut self, value: Value) {
        self.values.push(value);
    }

    /// Entries as [`Plan::replace`] takes them; none beyond the last value.
    pub(super) fn changes(&self, choice: usize) -> Table {
        let Some(mut value) = self.values.get(choice).cloned() else { return Table::new() };
        for step in self.path.rsplit('.') {
            value = Value::Table(Table::from_iter([(step.to_owned(), value)]));
        }
        match value {
            Value::Table(table) => table,
            _ => Table::new(),
        }
    }
}

/// A value as one reads it: text without quotes, entries one after another.
pub(super) fn label(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Table(entries) => {
            entries.iter().map(|(key, value)| format!("{key} {}", label(value))).collect::<Vec<_>>().join(", ")
        }
        other => other.to_string(),
    }
}

/// Every combination of the values of some entries, and what each comes to. The last entry varies fastest.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    plan: Plan,
    axes: Vec<Axis>,
    rows: Vec<Row>,
}

impl Sweep {
    /// The plan of which entries are varied.
    pub fn base(&self) -> &Plan {
        &self.plan
    }

    /// What is varied.
    pub fn axes(&self) -> &[Axis] {
        &self.axes
    }

    /// Names of the numbers, with units.
    pub fn names(&self) -> &[&'static str] {
        &METRICS
    }

    /// How many combinations.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// There is always one at least.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The numbers of a combination in the order of the names, each none where it is not known; or why it cannot be.
    pub fn row(&self, row: usize) -> Option<&Result<Vec<Option<f64>>, String>> {
        self.rows.get(row)
    }

    /// A number of a combination; none where it is not known, the combination cannot be, or there is no such number.
    pub fn value(&self, row: usize, name: &str) -> Option<f64> {
        let column = METRICS.iter().position(|own| *own == name)?;
        *self.rows.get(row)?.as_ref().ok()?.get(column)?
    }

    /// How many combinations cannot be.
    pub fn impossible(&self) -> usize {
        self.rows.iter().filter(|row| row.is_err()).count()
    }

    /// The least and the most of a number over the combinations, and of how many that can be it is not known.
    pub fn span(&self, name: &str) -> (Option<Span>, usize) {
        let values: Vec<f64> = (0..self.len()).filter_map(|row| self.value(row, name)).collect();
        let span = Span::of(values.iter().copied().map(Some));
        (span, self.len() - self.impossible() - values.len())
    }

    /// The values of a combination, axis by axis.
    pub fn choices(&self, row: usize) -> Vec<&Value> {
        let picks = picks(&self.axes, row);
        self.axes.iter().zip(picks).filter_map(|(axis, pick)| axis.values.get(pick)).collect()
    }

    /// The value of one axis in a combination, as one reads it.
    pub fn label(&self, row: usize, axis: usize) -> String {
        self.choices(row).get(axis).map_or_else(String::new, |value| label(value))
    }

    /// The whole plan of a combination.
    ///
    /// # Errors
    /// A row that is not there, or the reason why the combination cannot be.
    pub fn plan(&self, row: usize) -> Result<Plan, Error> {
        if row >= self.len() {
            return Err(Problem::out_of_range("row", row, format!("0 to {}", self.len().saturating_sub(1))).into());
        }
        let picks = picks(&self.axes, row);
        self.plan.replace(&changes(self.axes.iter().zip(picks)))
    }
}

/// Which value of each axis a combination has.
fn picks(axes: &[Axis], row: usize) -> Vec<usize> {
    let each: Vec<usize> = (0..axes.len()).collect();
    picks_by(axes, &each, row)
}

/// Which value of each axis a combination has, where these axes are counted through, the last of them fastest.
fn picks_by(axes: &[Axis], order: &[usize], row: usize) -> Vec<usize> {
    let mut picks = vec![0; axes.len()];
    let mut rest = row;
    for &i in order.iter().rev() {
        if let (Some(axis), Some(pick)) = (axes.get(i), picks.get_mut(i)) {
            *pick = rest % axis.values.len();
            rest /= axis.values.len();
        }
    }
    picks
}

/// The combination that has these values.
fn row_of(axes: &[Axis], picks: &[usize]) -> usize {
    axes.iter().zip(picks).fold(0, |row, (axis, pick)| row * axis.values.len() + pick)
}

/// The axes in the order in which they are counted through: what much follows from changes slowest.
pub(super) fn order(axes: &[Axis]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..axes.len()).collect();
    order.sort_by_key(|i| std::cmp::Reverse(axes.get(*i).map(Axis::weight)));
    order
}

/// What some axes change together.
pub(super) fn changes<'a>(axes: impl IntoIterator<Item = (&'a Axis, usize)>) -> Table {
    let mut all = Table::new();
    for (axis, pick) in axes {
        merge(&mut all, &axis.changes(pick));
    }
    all
}

impl Plan {
    /// Works out every combination of the values of some entries, on all cores: of each the numbers that decide between plans,
    /// or why it cannot be. `go_on` is told now and then how many are done and of how many; its error ends the work.
    ///
    /// The numbers are those of an evaluation, in less time: its other parts (the lift, the bows, the schedule, most checks)
    /// are left out, so look at the whole evaluation of what you choose ([`Sweep::plan`]). The cut list is left out too: hours and
    /// price are those of the plan without its `cutting`, every blank bought cut to size and bars by the metre.
    ///
    /// # Errors
    /// No axis, two that change the same entry, more than [`MOST_COMBINATIONS`], values that no plan can hold; or what `go_on`
    /// ended the work with.
    ///
    /// # Example
    /// ```
    /// use raisedbody::error::Error;
    /// use raisedbody::plan::{Axis, Plan};
    /// let plan = Plan::read("examples/workshop_bus.toml").unwrap();
    /// let gauges = Axis::new("skin.gauge", vec![16.into(), 18.into(), 20.into()]).unwrap();
    /// let sweep = plan.sweep(vec![gauges], |_, _| Ok::<_, Error>(())).unwrap();
    /// assert!(sweep.value(0, "skin_mass_kg") > sweep.value(2, "skin_mass_kg"));
    /// ```
    pub fn sweep<E: From<Error>>(
        &self,
        axes: Vec<Axis>,
        mut go_on: impl FnMut(usize, usize) -> Result<(), E>,
    ) -> Result<Sweep, E> {
        let count = combinations(&axes)?;
        for axis in &axes {
            for pick in 0..axis.values.len() {
                if pick % LOOK == LOOK - 1 {
                    go_on(0, count)?;
                }
                let document = Document::from(changed(self.table(), &axis.changes(pick)));
                Error::from_problems(document.problems(plan_schema()))?;
            }
        }
        let every = |own: &[usize]| {
            let own: Vec<Axis> = own.iter().filter_map(|&i| axes.get(i)).cloned().collect();
            let combinations: usize = own.iter().map(|axis| axis.values.len()).product();
            let kept = if combinations <= MOST_KEPT { combinations } else { 0 };
            (0..kept).map(|i| picks(&own, i)).collect()
        };
        let (groups, order) = (Group::all(self, &axes, every), order(&axes));
        let worker = || Worker::new(self, &axes, &groups);
        let work = |worker: &mut Worker<'_>, run: Range<usize>| -> Vec<(usize, Row)> {
            run.map(|i| picks_by(&axes, &order, i))
                .map(|picks| {
                    let row = row_of(&axes, &picks);
                    let numbers =
                        |_: &File, r: &Resolved, e: Essentials| Ok(metrics(r, &e).iter().map(|m| m.value).collect());
                    (row, worker.row(picks, &numbers))
                })
                .collect()
        };
        let mut rows = on_all_cores((count, RUN), worker, work, go_on)?;
        rows.sort_unstable_by_key(|(row, _)| *row);
        let rows = rows.into_iter().map(|(_, row)| row).collect();
        Ok(Sweep { plan: self.clone(), axes, rows })
    }
}

/// How many combinations there are, where there is room for them.
fn combinations(axes: &[Axis]) -> Result<usize, Error> {
    if axes.is_empty() {
        return Err(Problem::missing("axes", "name at least one entry and the values that it takes").into());
    }
    if let Some(problem) = overlap("axes", axes) {
        return Err(problem.into());
    }
    let count = axes.iter().try_fold(1_usize, |count, axis| count.checked_mul(axis.values.len()));
    match count.filter(|count| *count <= MOST_COMBINATIONS) {
        Some(count) => Ok(count),
        None => {
            let given = axes.iter().map(|axis| axis.values.len().to_string()).collect::<Vec<_>>().join(" x ");
            Err(Problem::out_of_range("axes", given, format!("at most {MOST_COMBINATIONS} combinations")).into())
        }
    }
}

/// Two axes that change the same entry, told as a fault of `field`.
pub(super) fn overlap(field: &str, axes: &[Axis]) -> Option<Problem> {
    let within = |a: &str, b: &str| a == b || a.strip_prefix(b).is_some_and(|rest| rest.starts_with('.'));
    axes.iter().enumerate().find_map(|(i, axis)| {
        let other = axes.iter().take(i).find(|o| within(&o.path, &axis.path) || within(&axis.path, &o.path))?;
        let problem = format!("this changes what {} changes; let one of them go, or join their values", other.path);
        Some(Problem::contradiction(field, &axis.path, problem))
    })
}

/// Values, or why not.
type Row = Result<Vec<Option<f64>>, String>;
