//! Many jobs at once: a base plan, and in each row what differs; of each its price, its numbers and its verdict, or why it cannot
//! be.

use std::collections::BTreeMap;
use std::ops::Range;

use rust_decimal::Decimal;
use toml::{Table, Value};

use crate::check::{Check, Verdict, worst};
use crate::error::{Error, Problem};
use crate::form::Document;
use crate::shop::quote::Quote;

use super::essentials::Essentials;
use super::evaluate::checks_of_essentials;
use super::file::File;
use super::metrics::{METRICS, metrics};
use super::resolve::Resolved;
use super::rows::{Group, MOST_KEPT, Worker, on_all_cores};
use super::sweep::{Axis, changes, order, overlap};
use super::{Plan, changed, plan_schema};

/// Rows that one core works through in a row, each taking over from the last what its entries leave as it was.
const RUN: usize = 64;

/// An entry of the plan, by its path such as `raise.height`, and its value in each row; none leaves the entry as it is.
#[derive(Debug, Clone, PartialEq)]
pub struct JobColumn {
    /// The entry.
    pub path: String,
    /// Its values.
    pub values: Vec<Option<Value>>,
}

/// How much of each job is worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// What the price and most numbers turn on. The cut list is left out: hours and price are those of the plan without its
    /// `cutting`, every blank bought cut to size and bars by the metre. So are the lift, the bows, the splices, the end caps, the
    /// flatness and their checks, rusted joints, metals in contact and the gate.
    Quote,
    /// The whole evaluation.
    Whole,
}

/// One job, quoted.
#[derive(Debug, Clone, PartialEq)]
pub struct QuotedJob {
    /// Its numbers in the order of [`job_numbers`], each none where it is not known.
    pub numbers: Vec<Option<f64>>,
    /// Its price, exact, and the ISO 4217 code of its currency; none where the plan has no prices.
    pub price: Option<(Decimal, &'static str)>,
    /// What has no price yet; the price lacks it.
    pub open_items: Vec<String>,
    /// The worst verdict of the checks that were made.
    pub verdict: Verdict,
    /// How many those are.
    pub checks: usize,
    /// Checks that fail, by name and what they are about.
    pub failing: Vec<String>,
}

/// Names of the numbers of a quoted job, with units.
pub fn job_numbers() -> &'static [&'static str] {
    &METRICS
}

impl QuotedJob {
    fn new(numbers: Vec<Option<f64>>, quote: Option<&Quote>, checks: &[Check]) -> Self {
        let name = |check: &Check| format!("{}, {}", check.name, check.subject);
        Self {
            numbers,
            price: quote.map(|quote| (quote.total, quote.currency)),
            open_items: quote.map_or_else(Vec::new, |quote| quote.open_items.clone()),
            verdict: worst(checks),
            checks: checks.len(),
            failing: checks.iter().filter(|check| check.verdict == Verdict::Fails).map(name).collect(),
        }
    }
}

impl Plan {
    /// Quotes many jobs, on all cores: each row is this plan with some entries changed. A row that cannot be says why and stops no
    /// other. `go_on` is told now and then how many are done and of how many; its error ends the work.
    ///
    /// # Errors
    /// An entry that the plan's form does not have, one that two columns change, columns of unlike length; or what `go_on` ended the
    /// work with.
    ///
    /// # Example
    /// ```
    /// use raisedbody::error::Error;
    /// use raisedbody::plan::{Depth, JobColumn, Plan};
    /// let plan = Plan::read("examples/workshop_bus.toml").unwrap();
    /// let gauge = |n: i64| Some(n.into());
    /// let column = JobColumn { path: "skin.gauge".to_owned(), values: vec![gauge(16), None, gauge(99)] };
    /// let jobs = plan.quote_jobs(&[column], 3, Depth::Quote, |_, _| Ok::<_, Error>(())).unwrap();
    /// assert!(jobs[0].is_ok() && jobs[1].is_ok());
    /// assert!(jobs[2].as_ref().unwrap_err().contains("gauge"));
    /// ```
    pub fn quote_jobs<E: From<Error>>(
        &self,
        columns: &[JobColumn],
        count: usize,
        depth: Depth,
        go_on: impl FnMut(usize, usize) -> Result<(), E>,
    ) -> Result<Vec<Result<QuotedJob, String>>, E> {
        let (axes, picks) = self.axes_of_rows(columns, count)?;
        // Rows that are alike follow one another, what much follows from changing slowest.
        let by_weight = order(&axes);
        let mut rows: Vec<usize> = (0..count).collect();
        rows.sort_by_cached_key(|&row| by_weight.iter().map(|&axis| picks[row][axis]).collect::<Vec<_>>());
        let repeated = |own: &[usize]| {
            let mut times: BTreeMap<Vec<usize>, usize> = BTreeMap::new();
            for picks in &picks {
                *times.entry(own.iter().map(|&axis| picks[axis]).collect()).or_default() += 1;
            }
            times.into_iter().filter(|(_, times)| *times > 1).map(|(own, _)| own).take(MOST_KEPT).collect()
        };
        let groups = if depth == Depth::Quote { Group::all(self, &axes, repeated) } else { Vec::new() };
        let work = |worker: &mut Worker<'_>, run: Range<usize>| -> Vec<_> {
            let mut last: Option<(&[usize], Result<QuotedJob, String>)> = None;
            let job = |&row: &usize| {
                let own = picks[row].as_slice();
                let job = match last.take() {
                    Some((same, job)) if same == own => job,
                    _ if depth == Depth::Quote => self.quick(worker, own.to_vec()),
                    _ => self.whole(&axes, own),
                };
                last = Some((own, job.clone()));
                (row, job)
            };
            rows[run].iter().map(job).collect()
        };
        let worker = || Worker::new(self, &axes, &groups);
        // A whole evaluation takes long enough to look after each whether to go on.
        let run = if depth == Depth::Quote { RUN } else { 1 };
        let mut done = on_all_cores((count, run), worker, work, go_on)?;
        done.sort_unstable_by_key(|(row, _)| *row);
        Ok(done.into_iter().map(|(_, job)| job).collect())
    }

    fn quick(&self, worker: &mut Worker<'_>, picks: Vec<usize>) -> Result<QuotedJob, String> {
        worker.row(picks, &|file: &File, r: &Resolved, mut e: Essentials| {
            let checks = checks_of_essentials((file, r), &self.catalogue, &mut e)?;
            let numbers = metrics(r, &e).iter().map(|m| m.value).collect();
            Ok(QuotedJob::new(numbers, e.quote.as_ref(), &checks))
        })
    }

    fn whole(&self, axes: &[Axis], picks: &[usize]) -> Result<QuotedJob, String> {
        let changes = changes(axes.iter().zip(picks.iter().copied()));
        let build = self.replace(&changes).and_then(|plan| plan.evaluate()).map_err(|error| error.to_string())?;
        let numbers = build.metrics.iter().take(METRICS.len()).map(|m| m.value).collect();
        Ok(QuotedJob::new(numbers, build.quote.as_ref(), &build.checks))
    }

    /// The columns with each value once, and which of them each row has.
    fn axes_of_rows(&self, columns: &[JobColumn], count: usize) -> Result<(Vec<Axis>, Vec<Vec<usize>>), Error> {
        let mut axes: Vec<Axis> = Vec::new();
        let mut picks = vec![Vec::with_capacity(columns.len()); count];
        let mut problems = Vec::new();
        for column in columns {
            if column.values.len() != count {
                let problem = format!("a value for each of {count} rows is asked for");
                problems.push(Problem::contradiction(&column.path, format!("{} values", column.values.len()), problem));
                continue;
            }
            let mut axis = Axis::without_values("jobs", &column.path)?;
            problems.extend(self.no_such_entry(&axis));
            let mut known: BTreeMap<String, usize> = BTreeMap::new();
            let mut own: Vec<Option<usize>> = Vec::with_capacity(count);
            for value in &column.values {
                own.push(value.as_ref().map(|value| {
                    let next = known.len();
                    *known.entry(value.to_string()).or_insert_with(|| {
                        axis.add(value.clone());
                        next
                    })
                }));
            }
            // Beyond the last value stands none.
            own.into_iter().zip(&mut picks).for_each(|(own, picks)| picks.push(own.unwrap_or(known.len())));
            axes.push(axis);
        }
        problems.extend(overlap("jobs", &axes));
        Error::from_problems(problems)?;
        Ok((axes, picks))
    }

    /// A path that the plan's form does not have, whatever its value.
    fn no_such_entry(&self, axis: &Axis) -> Option<Problem> {
        let mut entry = Value::Boolean(true);
        for step in axis.path().rsplit('.') {
            entry = Value::Table(Table::from_iter([(step.to_owned(), entry)]));
        }
        let changes = entry.as_table().cloned().unwrap_or_default();
        let problems = Document::from(changed(self.table(), &changes)).problems(plan_schema());
        problems.into_iter().find(|problem| matches!(problem, Problem::UnknownKey { .. }))
    }
}
