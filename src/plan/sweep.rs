//! A plan over a grid of choices: every combination of the values of some entries, and the numbers that each comes to.

use std::ops::Range;

use rayon::prelude::*;
use toml::{Table, Value};

use crate::error::{Error, Problem};
use crate::form::Document;

use super::essentials::{Essentials, Worked};
use super::file::File;
use super::metrics::{METRICS, metrics};
use super::resolve::{self, Memory};
use super::results::Span;
use super::{Plan, changed, merge, plan_schema};

/// More combinations than anyone waits for or has room for.
pub const MOST_COMBINATIONS: usize = 1_000_000;

/// Combinations that one core works through in a row, each taking over from the last what its choices leave as it was.
const RUN: usize = 128;

/// Variants of a section that are read once and kept; where there are more, each is read when it is needed.
const MOST_KEPT: usize = 10_000;

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
        if path.split('.').any(|step| step.is_empty() || step.contains('[')) {
            let fix = "name an entry by its path, such as skin.gauge; of a list give whole lists as values";
            return Err(Problem::Unreadable {
                path: "axes".to_owned(),
                value: path.to_owned(),
                problem: fix.to_owned(),
            }
            .into());
        }
        if path.split('.').next() == Some("catalogue") {
            let problem = "rows of the catalogue are not swept over: compare plans that each have their own";
            return Err(Problem::contradiction("axes", path, problem).into());
        }
        if values.is_empty() {
            return Err(Problem::missing(format!("axes, {path}"), "give at least one value").into());
        }
        for (i, value) in values.iter().enumerate() {
            if values.iter().take(i).any(|other| other == value) {
                let problem = "this value is given twice; give each once";
                return Err(Problem::contradiction(format!("axes, {path}"), label(value), problem).into());
            }
        }
        Ok(Self { path: path.to_owned(), values })
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
    fn weight(&self) -> u8 {
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
    fn section(&self) -> &str {
        self.path.split('.').next().unwrap_or_default()
    }

    /// Entries as [`Plan::replace`] takes them.
    fn changes(&self, choice: usize) -> Table {
        let mut value = self.values.get(choice).cloned().unwrap_or(Value::Table(Table::new()));
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
fn order(axes: &[Axis]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..axes.len()).collect();
    order.sort_by_key(|i| std::cmp::Reverse(axes.get(*i).map(Axis::weight)));
    order
}

/// What some axes change together.
fn changes<'a>(axes: impl IntoIterator<Item = (&'a Axis, usize)>) -> Table {
    let mut all = Table::new();
    for (axis, pick) in axes {
        merge(&mut all, &axis.changes(pick));
    }
    all
}

/// The axes in one part of the plan, and that part with each of their combinations.
struct Group {
    section: String,
    /// Places of its axes among all.
    axes: Vec<usize>,
    /// The plan with each combination in this part only; none where its form is broken. Empty where there are too many.
    kept: Vec<Option<File>>,
}

impl Group {
    fn all(plan: &Plan, axes: &[Axis]) -> Vec<Self> {
        let mut groups: Vec<Self> = Vec::new();
        for (i, axis) in axes.iter().enumerate() {
            match groups.iter_mut().find(|group| group.section == axis.section()) {
                Some(group) => group.axes.push(i),
                None => groups.push(Self { section: axis.section().to_owned(), axes: vec![i], kept: Vec::new() }),
            }
        }
        for group in &mut groups {
            let own: Vec<Axis> = group.axes.iter().filter_map(|i| axes.get(*i)).cloned().collect();
            let count: usize = own.iter().map(|axis| axis.values.len()).product();
            if count <= MOST_KEPT {
                let read = |i| read(plan, own.iter().zip(picks(&own, i)));
                group.kept = (0..count).into_par_iter().map(read).collect();
            }
        }
        groups
    }

    /// Brings these picks in this part into a plan; whether its form allows it.
    fn bring_into(&self, file: &mut File, plan: &Plan, axes: &[Axis], picks: &[usize]) -> bool {
        let own = || self.axes.iter().filter_map(|i| Some((axes.get(*i)?, *picks.get(*i)?)));
        let read = if self.kept.is_empty() { read(plan, own()) } else { None };
        let index = own().fold(0, |index, (axis, pick)| index * axis.values.len() + pick);
        let variant = read.as_ref().or_else(|| self.kept.get(index)?.as_ref());
        if let Some(variant) = variant {
            file.take_section(&self.section, variant);
        }
        variant.is_some()
    }
}

/// The plan with some entries changed, as a file; none where its form is broken.
fn read<'a>(plan: &Plan, axes: impl IntoIterator<Item = (&'a Axis, usize)>) -> Option<File> {
    Document::from(changed(plan.table(), &changes(axes))).read(plan_schema()).ok()
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
        let count = self.combinations(&axes)?;
        let (groups, order) = (Group::all(self, &axes), order(&axes));
        let mut rows: Vec<(usize, Row)> = Vec::with_capacity(count);
        // Runs enough for every core between two looks at whether to go on.
        let batch_rows = RUN * 8.max(4 * rayon::current_num_threads());
        while rows.len() < count {
            go_on(rows.len(), count)?;
            let batch = rows.len()..count.min(rows.len() + batch_rows);
            let runs: Vec<Range<usize>> = batch.clone().step_by(RUN).map(|i| i..batch.end.min(i + RUN)).collect();
            let worker = || Worker::new(self, &axes, &groups);
            let work = |worker: &mut Worker<'_>, run: Range<usize>| -> Vec<(usize, Row)> {
                run.map(|i| picks_by(&axes, &order, i))
                    .map(|picks| (row_of(&axes, &picks), worker.row(picks)))
                    .collect()
            };
            let done: Vec<Vec<(usize, Row)>> = runs.into_par_iter().map_init(worker, work).collect();
            rows.extend(done.into_iter().flatten());
        }
        go_on(count, count)?;
        rows.sort_unstable_by_key(|(row, _)| *row);
        let rows = rows.into_iter().map(|(_, row)| row).collect();
        Ok(Sweep { plan: self.clone(), axes, rows })
    }

    /// How many combinations there are, where they can be made at all.
    fn combinations(&self, axes: &[Axis]) -> Result<usize, Error> {
        if axes.is_empty() {
            return Err(Problem::missing("axes", "name at least one entry and the values that it takes").into());
        }
        let within = |a: &str, b: &str| a == b || a.strip_prefix(b).is_some_and(|rest| rest.starts_with('.'));
        for (i, axis) in axes.iter().enumerate() {
            let same = axes.iter().take(i).find(|o| within(&o.path, &axis.path) || within(&axis.path, &o.path));
            if let Some(other) = same {
                let problem =
                    format!("this changes what {} changes; let one of them go, or join their values", other.path);
                return Err(Problem::contradiction("axes", &axis.path, problem).into());
            }
            for pick in 0..axis.values.len() {
                let document = Document::from(changed(self.table(), &axis.changes(pick)));
                Error::from_problems(document.problems(plan_schema()))?;
            }
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
}

/// What works combinations out one after another, and remembers the last.
struct Worker<'a> {
    plan: &'a Plan,
    axes: &'a [Axis],
    groups: &'a [Group],
    file: File,
    /// The values that the file has, and of which groups they break its form.
    last: Option<Vec<usize>>,
    broken: Vec<bool>,
    memory: Memory,
    worked: Worked,
}

impl<'a> Worker<'a> {
    fn new(plan: &'a Plan, axes: &'a [Axis], groups: &'a [Group]) -> Self {
        Self {
            plan,
            axes,
            groups,
            file: plan.file.apart(),
            last: None,
            broken: vec![false; groups.len()],
            memory: Memory::default(),
            worked: Worked::default(),
        }
    }

    /// What a combination comes to.
    fn row(&mut self, picks: Vec<usize>) -> Row {
        for (group, broken) in self.groups.iter().zip(&mut self.broken) {
            let same = |last: &Vec<usize>| group.axes.iter().all(|i| last.get(*i) == picks.get(*i));
            if !self.last.as_ref().is_some_and(same) {
                *broken = !group.bring_into(&mut self.file, self.plan, self.axes, &picks);
            }
        }
        let picks = self.last.insert(picks);
        let (plan, file) = (self.plan, &self.file);
        let resolved = if self.broken.contains(&true) {
            None
        } else {
            resolve::resolve_next(file, &plan.document, &plan.catalogue, &mut self.memory).ok()
        };
        let Some(resolved) = resolved else {
            // Told in the words, and with the values, of the plan that it would be.
            let changes = changes(self.axes.iter().zip(picks.iter().copied()));
            return Err(plan.replace(&changes).err().map_or_else(String::new, |error| error.to_string()));
        };
        Essentials::of(file, &resolved, &plan.catalogue, (&mut self.worked, false))
            .map(|essentials| metrics(&resolved, &essentials).iter().map(|m| m.value).collect())
            .map_err(|error| error.to_string())
    }
}

/// Values, or why not.
type Row = Result<Vec<Option<f64>>, String>;
