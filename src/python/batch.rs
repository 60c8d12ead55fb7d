//! Many jobs from Python: columns of entries in, a table of quotes out.

use std::collections::BTreeMap;

use pyo3::prelude::*;
use pyo3::types::PyFloat;
use toml::Value;

use crate::plan::{self as core, Depth, JobColumn, QuotedJob, job_numbers};

use super::input::{ValuesByPath, entry};
use super::interrupts::away;
use super::output::Columns;
use super::sweep::Progress;

/// Entries by their path, with a value for each row; what cannot be an entry of a plan is a fault of its row alone.
struct Jobs {
    columns: Vec<JobColumn>,
    count: usize,
    bad: BTreeMap<usize, String>,
}

impl From<ValuesByPath<'_>> for Jobs {
    fn from(given: ValuesByPath<'_>) -> Self {
        let mut jobs = Self { columns: Vec::new(), count: 0, bad: BTreeMap::new() };
        for (path, values) in given.0 {
            jobs.count = values.len();
            let mut column = JobColumn { path, values: Vec::with_capacity(jobs.count) };
            for (row, value) in values.iter().enumerate() {
                let read = cell(value, &column.path).map_err(|error| error.value(value.py()).to_string());
                column.values.push(read.unwrap_or_else(|why| {
                    jobs.bad.entry(row).or_insert(why);
                    None
                }));
            }
            jobs.columns.push(column);
        }
        jobs
    }
}

/// A cell of a table: nothing, also where a table of numbers has a gap, leaves the entry as it is. A whole number may come as a
/// float, as it does in a column that has gaps.
fn cell(value: &Bound<'_, PyAny>, path: &str) -> PyResult<Option<Value>> {
    // Gaps of dataframe libraries that have a value of their own for them.
    let gap = ["NAType", "NaTType"].contains(&value.get_type().name()?.to_str()?);
    if value.is_none() || gap {
        return Ok(None);
    }
    if value.is_instance_of::<PyFloat>() {
        let number: f64 = value.extract()?;
        let whole = number.fract() == 0.0 && number.abs() < 1e15;
        return Ok(match number {
            number if number.is_nan() => None,
            number if whole => Some(Value::Integer(number as i64)),
            number => Some(Value::Float(number)),
        });
    }
    entry(value, path, 0).map(Some)
}

/// Quotes the rows and tells of each what it comes to.
pub(super) fn quote_jobs(
    py: Python<'_>,
    plan: &core::Plan,
    jobs: ValuesByPath<'_>,
    whole: bool,
    mut progress: Progress,
) -> PyResult<Columns> {
    let jobs = Jobs::from(jobs);
    let depth = if whole { Depth::Whole } else { Depth::Quote };
    let tell = |done: usize, of: usize| progress.tell("quotes", done, of);
    let mut quoted = away(py, || plan.quote_jobs(&jobs.columns, jobs.count, depth, tell))??;
    for (row, why) in jobs.bad {
        if let Some(own) = quoted.get_mut(row) {
            *own = Err(why);
        }
    }
    let good = |job: &Result<QuotedJob, String>, text: &dyn Fn(&QuotedJob) -> String| {
        job.as_ref().map_or_else(|_| String::new(), text)
    };
    let mut columns = Columns::of(quoted)
        .text("price", |job| good(job, &|own| own.price.map_or_else(String::new, |(total, _)| total.to_string())))
        .text("currency", |job| good(job, &|own| own.price.map_or_else(String::new, |(_, code)| code.to_owned())))
        .text("open_items", |job| good(job, &|own| own.open_items.join(", ")))
        .text("verdict", |job| good(job, &|own| own.verdict.words().to_owned()))
        .number("checks_count", |job| job.as_ref().ok().map(|own| own.checks as f64))
        .text("failing", |job| good(job, &|own| own.failing.join("; ")));
    for (i, name) in job_numbers().iter().enumerate() {
        columns = columns.number(*name, |job| job.as_ref().ok().and_then(|own| *own.numbers.get(i)?));
    }
    Ok(columns.text("error", |job| job.as_ref().err().cloned().unwrap_or_default()).done())
}
