//! Plans that differ in some entries, worked out one after another: what the last one left as it was is taken over.

use std::collections::BTreeMap;
use std::ops::Range;
use std::time::{Duration, Instant};

use rayon::prelude::*;
use serde_json::{Value as Json, json};
use toml::Table;

use crate::error::Error;
use crate::form::Document;
use crate::stop::look;

use super::essentials::{Essentials, Worked};
use super::file::File;
use super::resolve::{self, Memory, Resolved};
use super::sweep::{Axis, changes};
use super::{Plan, changed, plan_schema};

/// Variants of a part of the plan that are read once and kept; where there are more, each is read when it is needed.
pub(super) const MOST_KEPT: usize = 10_000;

/// Variants that are read between two looks at whether to go on: some tenths of a second.
const READ_BETWEEN_LOOKS: usize = 1024;

/// Time between two questions whether to go on, about. Work on all cores is only asked about between batches.
const A_BATCH: Duration = Duration::from_millis(250);

/// What no row can bring in.
pub(super) const NO_BOOK: &str =
    "a price book is read with its plan; read a plan with each book, or vary single prices";

/// The axes in one part of the plan, and that part with each of their combinations.
pub(super) struct Group {
    section: String,
    /// The form of that part.
    form: Json,
    /// Places of its axes among all.
    axes: Vec<usize>,
    /// The plan with each combination in this part only, by the picks of its axes; none where its form is broken.
    kept: BTreeMap<Vec<usize>, Option<File>>,
}

impl Group {
    /// Every part that any axis is in; `combinations` gives the picks of axes, by their places, that are read once and kept.
    pub(super) fn all(plan: &Plan, axes: &[Axis], combinations: impl Fn(&[usize]) -> Vec<Vec<usize>>) -> Vec<Self> {
        let mut groups: Vec<Self> = Vec::new();
        for (i, axis) in axes.iter().enumerate() {
            match groups.iter_mut().find(|group| group.section == axis.section()) {
                Some(group) => group.axes.push(i),
                None => groups.push(Self::new(axis.section(), i)),
            }
        }
        for group in &mut groups {
            let own: Vec<Axis> = group.axes.iter().filter_map(|i| axes.get(*i)).cloned().collect();
            let read = |picks: Vec<usize>| {
                let part = group.read(plan, own.iter().zip(picks.iter().copied()));
                (picks, part)
            };
            let mut kept = BTreeMap::new();
            for some in combinations(&group.axes).chunks(READ_BETWEEN_LOOKS) {
                look();
                kept.par_extend(some.par_iter().cloned().map(read));
            }
            group.kept = kept;
        }
        groups
    }

    fn new(section: &str, axis: usize) -> Self {
        let form = plan_schema().get("properties").and_then(|all| all.get(section)).cloned().unwrap_or_default();
        let form = json!({ "type": "object", "properties": { section: form } });
        Self { section: section.to_owned(), form, axes: vec![axis], kept: BTreeMap::new() }
    }

    /// The plan with some entries of the part changed; none where its form is broken. All else is shared with the plan.
    fn read<'a>(&self, plan: &Plan, axes: impl IntoIterator<Item = (&'a Axis, usize)>) -> Option<File> {
        let old = plan.table().get(&self.section).map(|part| (self.section.clone(), part.clone()));
        let mut document = Document::from(changed(&Table::from_iter(old), &changes(axes)));
        let book = document.table.get("prices").is_some_and(|own| own.get("book").is_some());
        if book || !document.problems(&self.form).is_empty() {
            return None;
        }
        let mut file = plan.file.clone();
        let part = document.table.remove(&self.section)?;
        file.fill_section(&self.section, part).then_some(file)
    }

    /// Brings these picks in this part into a plan; whether its form allows it.
    fn bring_into(&self, file: &mut File, plan: &Plan, axes: &[Axis], picks: &[usize]) -> bool {
        let own: Vec<usize> = self.axes.iter().filter_map(|i| picks.get(*i).copied()).collect();
        let untouched =
            self.axes.iter().zip(&own).all(|(&i, &pick)| axes.get(i).is_none_or(|a| pick >= a.values().len()));
        if untouched {
            file.take_section(&self.section, &plan.file);
            return true;
        }
        let read = if self.kept.contains_key(&own) {
            None
        } else {
            self.read(plan, self.axes.iter().filter_map(|&i| axes.get(i)).zip(own.iter().copied()))
        };
        let part = read.as_ref().or_else(|| self.kept.get(&own)?.as_ref());
        if let Some(part) = part {
            file.take_section(&self.section, part);
        }
        part.is_some()
    }
}

/// What works plans out one after another, and remembers the last.
pub(super) struct Worker<'a> {
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
    pub(super) fn new(plan: &'a Plan, axes: &'a [Axis], groups: &'a [Group]) -> Self {
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

    /// What the plan with these picks comes to, or why it cannot be.
    pub(super) fn row<T>(
        &mut self,
        picks: Vec<usize>,
        work: &dyn Fn(&File, &Resolved, Essentials) -> Result<T, Error>,
    ) -> Result<T, String> {
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
            return Err(match plan.replace(&changes) {
                Err(error) => error.to_string(),
                Ok(_) => format!("prices.book: {NO_BOOK}"),
            });
        };
        Essentials::of(file, &resolved, &plan.catalogue, (&mut self.worked, false))
            .and_then(|essentials| work(file, &resolved, essentials))
            .map_err(|error| error.to_string())
    }
}

/// Works through `0..count` on all cores, in runs of `run` that one worker takes one after another, and gives what they give in
/// that order. `go_on` is told now and then how many are done and of how many; its error ends the work.
pub(super) fn on_all_cores<W, T: Send, E>(
    (count, run): (usize, usize),
    worker: impl Fn() -> W + Sync,
    work: impl Fn(&mut W, Range<usize>) -> Vec<T> + Sync,
    mut go_on: impl FnMut(usize, usize) -> Result<(), E>,
) -> Result<Vec<T>, E> {
    let one_each = run * rayon::current_num_threads();
    let mut done = Vec::with_capacity(count);
    let mut batch = one_each;
    while done.len() < count {
        go_on(done.len(), count)?;
        let start = Instant::now();
        let end = count.min(done.len() + batch);
        let runs: Vec<Range<usize>> = (done.len()..end).step_by(run).map(|i| i..end.min(i + run)).collect();
        let own: Vec<Vec<T>> = runs.into_par_iter().map_init(&worker, &work).collect();
        done.extend(own.into_iter().flatten());
        // How long a row takes is not known before. What a row comes to does not depend on its batch.
        batch = if start.elapsed() < A_BATCH { 2 * batch } else { one_each.max(batch / 2) };
    }
    go_on(count, count)?;
    Ok(done)
}
