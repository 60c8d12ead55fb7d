//! The classes `Task` and `Schedule`, and the function `hanging_order`.

use std::collections::BTreeMap;

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::drawing::{html, schedule as view};
use crate::error::Problem;
use crate::quantity::Kind;
use crate::shop::order::{LapGraph, Over};
use crate::shop::schedule::{self as core, Crew, Job, Length, Opening, TaskKind, clock, clock_s};

use super::errors::lap_loop_error;
use super::input::{Arguments, Quantity, Several, Tuple, Whole};
use super::interrupts::away;
use super::joint::{call_with, given, rebuilt};
use super::output::{Columns, Dict, Many, Recipe};

/// The order in which things hang: what lies beneath before what laps over it.
///
/// Where laps leave a choice, what comes first in `things` hangs first; what only a lap names comes after those, in the order
/// in which it is first named.
///
/// Args:
///     laps: Each lap as a pair of names: the one outside, then the one beneath.
///     things: Names in the order that decides wherever laps do not, such as the top row from the rear on.
///
/// Returns:
///     Every name once, in the order of hanging.
///
/// Raises:
///     LapLoopError: Laps that go round in a loop; it has the shortest one.
///     InputError: A name that is empty, or twice among the things.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.hanging_order([("A2", "A1"), ("A1", "B1"), ("A2", "B2"), ("B2", "B1")], things=["A1", "A2"])
///     ('B1', 'A1', 'B2', 'A2')
///     >>> rb.hanging_order([("A", "B"), ("B", "C"), ("C", "A")])
///     Traceback (most recent call last):
///     raisedbody.exceptions.LapLoopError: laps: A laps over B, B over C, C over A: each would have to hang before...
#[pyfunction]
#[pyo3(signature = (laps, *, things = None))]
pub(super) fn hanging_order(
    py: Python<'_>,
    laps: Several<(String, String)>,
    things: Option<Several<String>>,
) -> PyResult<Many<String>> {
    let laps: Vec<Over> = laps.0.into_iter().map(|(over, under)| Over { over, under }).collect();
    let things = things.map(|things| things.0).unwrap_or_default();
    let graph = LapGraph::new(&things, &laps).map_err(|problems| Arguments::default().refused(problems))?;
    let order = away(py, || graph.order())?.map_err(|found| lap_loop_error(found.problem("laps"), found.0))?;
    Ok(Many(order.into_iter().map(|hung| hung.name).collect()))
}

/// One task of a schedule. Cannot be changed.
///
/// Args:
///     name: What is done, such as ``"rivet L-A1"``; other tasks name it in their `after`.
///     kind: ``"strip"``, ``"cut"``, ``"lift"``, ``"lengthen"``, ``"scrape"``, ``"straighten"``, ``"prime"``, ``"clamp"``, ``"hang"``,
///         ``"drill"``, ``"deburr"``, ``"plug"``, ``"rivet"``, ``"seal"``, ``"paint"`` or ``"cure"``.
///     work: Hours of one person, shared out among the people on it, such as ``"3 h"`` or ``"25 min"``.
///     lasts: Hours from start to end however many are on it, in place of `work`.
///     people: People on it all the time; where left out, by common practice (no source) three hang, two rivet, nobody cures
///         and one does anything else. What nobody is on goes on at night too.
///     tools: Rivet tools it needs; where left out, one to rivet and none else.
///     after: Names of the tasks that end before it.
///     on: The sheet, stretch or panel it is done on.
///     starts_within: Two times of day between which it may start, such as ``("10:00", "16:00")`` for skins hung warm.
///     whole: It must end on the day on which it starts.
///
/// Raises:
///     InputError: An unknown kind; both `work` and `lasts`, or neither; times of day that are none.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> task = rb.Task("rivet L-A1", "rivet", work="3 h", after=["hang L-A1"])
///     >>> task.people, task.elapsed_h
///     (2, 1.5)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Task {
    core: core::Task,
    after: Vec<String>,
}

impl Task {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let t = &self.core;
        let print = |hours: f64| Kind::Duration.print(hours);
        let (work, lasts) = match t.length {
            Length::PersonHours(h) => (Some(print(h)), None),
            Length::ElapsedHours(h) => (None, Some(print(h))),
        };
        let text = |(from_s, until_s): (u64, u64)| (clock(from_s), clock(until_s));
        Ok(given!(
            py,
            "name" = Some(&t.name),
            "kind" = Some(t.kind.word()),
            "work" = work,
            "lasts" = lasts,
            "people" = Some(t.people),
            "tools" = Some(t.tools),
            "after" = Some(self.after.clone()).filter(|after| !after.is_empty()),
            "on" = Some(&t.on).filter(|on| !on.is_empty()),
            "starts_within" = t.starts_within_s.map(text),
            "whole" = Some(true).filter(|_| t.whole),
        ))
    }
}

fn time_of_day(path: &str, text: &str) -> Result<u64, Problem> {
    let unreadable = |problem| Problem::Unreadable { path: path.to_owned(), value: text.to_owned(), problem };
    clock_s(text).map_err(unreadable)
}

#[pymethods]
impl Task {
    #[new]
    #[pyo3(signature = (
        name, kind, *, work = None, lasts = None, people = None, tools = None, after = None, on = String::new(),
        starts_within = None, whole = false
    ))]
    #[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
    fn new(
        name: String,
        kind: &str,
        work: Option<Quantity<'_>>,
        lasts: Option<Quantity<'_>>,
        people: Option<Whole<i64>>,
        tools: Option<Whole<i64>>,
        after: Option<Several<String>>,
        on: String,
        starts_within: Option<Tuple<(String, String)>>,
        whole: bool,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let work_h = given.optional("work", Kind::Duration, work.as_ref())?;
        let lasts_h = given.optional("lasts", Kind::Duration, lasts.as_ref())?;
        given.readable()?;
        let mut problems = Vec::new();
        let kind: TaskKind = kind.parse().map_err(|problem| problems.push(problem)).unwrap_or(TaskKind::Cure);
        let length = match (work_h, lasts_h) {
            (Some(h), None) => Length::PersonHours(h),
            (None, Some(h)) => Length::ElapsedHours(h),
            (Some(_), Some(h)) => {
                let problem = "work and lasts say the same thing; give one of them";
                problems.push(Problem::contradiction("lasts", Kind::Duration.print(h), problem));
                Length::ElapsedHours(h)
            }
            (None, None) => {
                problems.push(Problem::missing("work", "write the hours of one person, for example work=\"3 h\""));
                Length::PersonHours(0.0)
            }
        };
        if name.trim().is_empty() {
            problems.push(Problem::missing("name", "every task has a name, such as \"hang L-A1\""));
        }
        let mut read = |text: &str| time_of_day("starts_within", text).map_err(|problem| problems.push(problem)).ok();
        let window = starts_within.as_ref().map(|Tuple((from, until))| (read(from), read(until)));
        if !problems.is_empty() {
            return Err(given.refused(problems));
        }
        let mut count = |name: &str, number: Option<Whole<i64>>, otherwise: u32| {
            number.map_or(otherwise, |number| given.count(name, number))
        };
        let core = core::Task {
            on,
            people: count("people", people, kind.customary_people()),
            tools: count("tools", tools, kind.customary_tools()),
            starts_within_s: window.and_then(|(from, until)| from.zip(until)),
            whole,
            ..core::Task::new(name, kind, length)
        };
        Ok(Self { core, after: after.map(|after| after.0).unwrap_or_default() })
    }

    /// What is done.
    #[getter]
    fn name(&self) -> &str {
        &self.core.name
    }

    /// The kind of work.
    #[getter]
    fn kind(&self) -> &str {
        self.core.kind.word()
    }

    /// The sheet, stretch or panel it is done on; empty for the whole body.
    #[getter]
    fn on(&self) -> &str {
        &self.core.on
    }

    /// People on it; nought where it goes on by itself, at night too.
    #[getter]
    fn people(&self) -> u32 {
        self.core.people
    }

    /// Rivet tools it needs.
    #[getter]
    fn tools(&self) -> u32 {
        self.core.tools
    }

    /// Names of the tasks that end before it.
    #[getter]
    fn after(&self) -> Many<String> {
        Many(self.after.clone())
    }

    /// Times of day between which it may start; None where any is good.
    #[getter]
    fn starts_within(&self) -> Option<(String, String)> {
        self.core.starts_within_s.map(|(from_s, until_s)| (clock(from_s), clock(until_s)))
    }

    /// It must end on the day on which it starts.
    #[getter]
    fn whole(&self) -> bool {
        self.core.whole
    }

    /// Hours from start to end, nights not counted.
    #[getter]
    fn elapsed_h(&self) -> f64 {
        self.core.elapsed_h()
    }

    /// Hours of one person; nought where nobody is on it.
    #[getter]
    fn labour_h(&self) -> f64 {
        self.core.person_hours()
    }

    /// The values by name.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(slf.py());
        for name in
            ["name", "kind", "on", "people", "tools", "after", "starts_within", "whole", "elapsed_h", "labour_h"]
        {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Task")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// Who does what on which day, limited by people, rivet tools and hours of the day. Cannot be changed.
///
/// Each task in turn gets the first moment at which people and tools are free, the one with the longest chain behind it first;
/// passes backwards and forwards improve that, and of six tasks or fewer every order is tried. It is good, not proved best:
/// `gap_ratio` says how far from the best it is at most. The same job gives the same schedule on every machine.
///
/// Args:
///     tasks: The tasks; whose turn it is where all else is equal follows from their order.
///     people: People at work every day.
///     day: Hours of work in a day, in one piece, such as ``"8 h"``.
///     start: Start of work, such as ``"8:00"``.
///     tools: Rivet tools.
///     openings: Places where rain gets in, each as its name, the tasks that open it and those that close it again.
///     close_same_day: Nothing is opened that cannot be closed on the same day.
///
/// Raises:
///     InputError: No task; a name that is twice or unknown; more people or tools than there are; tasks that wait for each
///         other; a task that fits in no day; an opening that no day closes.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> tasks = [
///     ...     rb.Task("hang A1", "hang", work="2 h"),
///     ...     rb.Task("hang A2", "hang", work="2 h", after=["hang A1"]),
///     ...     rb.Task("rivet A1", "rivet", work="3 h", after=["hang A1"]),
///     ... ]
///     >>> schedule = rb.Schedule(tasks, people=3, day="8 h", start="8:00", tools=1)
///     >>> schedule.by_day["start"].tolist(), round(schedule.makespan_h, 3), schedule.gap_ratio
///     (['08:00', '08:40', '10:10'], 2.833, 0.0)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Schedule {
    core: core::Schedule,
}

impl Schedule {
    pub fn of(core: core::Schedule) -> Self {
        Self { core }
    }

    fn names(&self, tasks: &[usize]) -> Vec<String> {
        tasks.iter().filter_map(|&task| self.core.job().tasks.get(task)).map(|task| task.name.clone()).collect()
    }

    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let Job { crew, openings, close_same_day, .. } = self.core.job();
        let opening = |o: &Opening| (o.name.clone(), self.names(&o.opened_by), self.names(&o.closed_by));
        let openings: Vec<_> = openings.iter().map(opening).collect();
        Ok(given!(
            py,
            "tasks" = Some(self.tasks()),
            "people" = Some(crew.people),
            "day" = Some(Kind::Duration.print(crew.day_hours)),
            "start" = Some(clock(crew.start_s)),
            "tools" = Some(crew.tools),
            "openings" = Some(openings).filter(|openings| !openings.is_empty()),
            "close_same_day" = Some(true).filter(|_| *close_same_day),
        ))
    }
}

/// The tasks of these names, by index.
fn indices(names: &[String], known: &BTreeMap<&str, usize>, path: &str, problems: &mut Vec<Problem>) -> Vec<usize> {
    let mut index = |name: &String| {
        let found = known.get(name.as_str()).copied();
        if found.is_none() {
            problems.push(Problem::unknown_name(path, "task", name, known.keys().copied()));
        }
        found
    };
    names.iter().filter_map(&mut index).collect()
}

/// Name, the tasks that open it, the tasks that close it.
type NamedOpening = (String, Several<String>, Several<String>);

#[pymethods]
impl Schedule {
    #[new]
    #[pyo3(signature = (tasks, *, people, day, start, tools, openings = None, close_same_day = false))]
    #[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
    fn new(
        py: Python<'_>,
        tasks: Several<PyRef<'_, Task>>,
        people: Whole<i64>,
        day: Quantity<'_>,
        start: &str,
        tools: Whole<i64>,
        openings: Option<Several<NamedOpening>>,
        close_same_day: bool,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let day_hours = given.quantity("day", Kind::Duration, &day)?;
        given.readable()?;
        let mut problems = Vec::new();
        let start_s = time_of_day("start", start).map_err(|problem| problems.push(problem)).unwrap_or(0);
        let mut known: BTreeMap<&str, usize> = BTreeMap::new();
        for (i, task) in tasks.0.iter().enumerate() {
            if known.insert(task.name(), i).is_some() {
                let problem = "this is named twice; give each task its own name";
                problems.push(Problem::contradiction(format!("tasks[{i}].name"), task.name(), problem));
            }
        }
        let mut own = Vec::with_capacity(tasks.0.len());
        for (i, task) in tasks.0.iter().enumerate() {
            let after = indices(&task.after, &known, &format!("tasks[{i}].after"), &mut problems);
            own.push(core::Task { after, ..task.core.clone() });
        }
        let mut open = Vec::new();
        for (i, (name, opened_by, closed_by)) in openings.into_iter().flat_map(|openings| openings.0).enumerate() {
            let path = format!("openings[{i}]");
            let opened_by = indices(&opened_by.0, &known, &format!("{path}.opened_by"), &mut problems);
            let closed_by = indices(&closed_by.0, &known, &format!("{path}.closed_by"), &mut problems);
            open.push(Opening { name, opened_by, closed_by });
        }
        if !problems.is_empty() {
            return Err(given.refused(problems));
        }
        let crew =
            Crew { people: given.count("people", people), tools: given.count("tools", tools), day_hours, start_s };
        // The length goes by the name under which it was given.
        let renamed = |problem: Problem| {
            let index = problem.path().strip_prefix("tasks[").and_then(|rest| rest.strip_suffix("].length"));
            let Some(index) = index.and_then(|index| index.parse::<usize>().ok()) else { return problem };
            let lasts = tasks.0.get(index).is_some_and(|task| matches!(task.core.length, Length::ElapsedHours(_)));
            problem.with_path(format!("tasks[{index}].{}", if lasts { "lasts" } else { "work" }))
        };
        let job = Job { tasks: own, crew, openings: open, close_same_day };
        let core = away(py, || job.schedule())?;
        let core = core.map_err(|problems| given.refused(problems.into_iter().map(renamed).collect()))?;
        Ok(Self { core })
    }

    /// The tasks it was made from, in their order.
    #[getter]
    fn tasks(&self) -> Many<Task> {
        let all = &self.core.job().tasks;
        let task = |task: &core::Task| Task {
            after: self.names(&task.after),
            core: core::Task { after: Vec::new(), ..task.clone() },
        };
        Many(all.iter().map(task).collect())
    }

    /// Every task, in the order given: task, kind, on, people, tools, labour_h, start_h and end_h (by the clock since the
    /// start of work on day 1), day, start, end_day, end (times of day to the minute), waits_for, critical.
    #[getter]
    fn by_task(&self) -> Columns {
        let (days, chain) = (self.core.days(), self.core.critical_chain());
        let first = |i: usize| days.iter().find(|part| part.task == i);
        let last = |i: usize| days.iter().rfind(|part| part.task == i);
        let hours =
            |i: usize, end: bool| self.core.span_s(i).map(|(from, to)| if end { to } else { from } as f64 / 3600.0);
        Columns::of(self.core.job().tasks.iter().zip(self.core.waits()).enumerate())
            .text("task", |(_, (task, _))| &task.name)
            .text("kind", |(_, (task, _))| task.kind.word())
            .text("on", |(_, (task, _))| &task.on)
            .number("people", |(_, (task, _))| f64::from(task.people))
            .number("tools", |(_, (task, _))| f64::from(task.tools))
            .number("labour_h", |(_, (task, _))| task.person_hours())
            .number("start_h", |(i, _)| hours(*i, false))
            .number("end_h", |(i, _)| hours(*i, true))
            .number("day", |(i, _)| first(*i).map(|part| part.day as f64))
            .text("start", |(i, _)| first(*i).map_or_else(String::new, |part| clock(part.start_s)))
            .number("end_day", |(i, _)| last(*i).map(|part| part.end_day as f64))
            .text("end", |(i, _)| last(*i).map_or_else(String::new, |part| clock(part.end_s)))
            .text("waits_for", |(_, (_, wait))| self.core.wait_words(**wait))
            .flag("critical", |(i, _)| chain.contains(i))
            .done()
    }

    /// The work day by day, a task that the night cuts once for each day: day, start, end, end_day (another day for what goes
    /// on at night), task, kind, on, people, tools, waits_for.
    #[getter]
    fn by_day(&self) -> Columns {
        let days = self.core.days();
        let rows = days
            .iter()
            .filter_map(|part| Some((part, self.core.job().tasks.get(part.task)?, self.core.waits().get(part.task)?)));
        Columns::of(rows)
            .number("day", |(part, ..)| part.day as f64)
            .text("start", |(part, ..)| clock(part.start_s))
            .text("end", |(part, ..)| clock(part.end_s))
            .number("end_day", |(part, ..)| part.end_day as f64)
            .text("task", |(_, task, _)| &task.name)
            .text("kind", |(_, task, _)| task.kind.word())
            .text("on", |(_, task, _)| &task.on)
            .number("people", |(_, task, _)| f64::from(task.people))
            .number("tools", |(_, task, _)| f64::from(task.tools))
            .text("waits_for", |(.., wait)| self.core.wait_words(**wait))
            .done()
    }

    /// The body at the end of each day: day, hung (on that day), hung_count and sealed_count (by then), weathertight (``"yes"``,
    /// ``"no"``, or ``"not known"`` without openings), open.
    #[getter]
    fn evenings(&self) -> Columns {
        Columns::of(self.core.evenings())
            .number("day", |e| e.day as f64)
            .text("hung", |e| e.hung.join("; "))
            .count("hung_count", |e| e.hung_count)
            .count("sealed_count", |e| e.sealed_count)
            .text("weathertight", |e| e.weathertight.map_or("not known", |yes| if yes { "yes" } else { "no" }))
            .text("open", |e| e.open.join("; "))
            .done()
    }

    /// The tasks that decide the end, in order of time: each waits for the one before, or for its people.
    #[getter]
    fn critical_chain(&self) -> Many<String> {
        Many(self.names(&self.core.critical_chain()))
    }

    /// From the start of work on day 1 to the end of the last task, by the clock, nights counted, h.
    #[getter]
    fn makespan_h(&self) -> f64 {
        self.core.makespan_h()
    }

    /// What the longest chain of tasks takes with all people free, h, counted like the makespan: no schedule is shorter.
    #[getter]
    fn path_bound_h(&self) -> f64 {
        self.core.path_bound_h()
    }

    /// What all work takes when it is shared out among the people without a gap, h: no schedule is shorter.
    #[getter]
    fn people_bound_h(&self) -> f64 {
        self.core.people_bound_h()
    }

    /// The same for the rivet tools, h.
    #[getter]
    fn tools_bound_h(&self) -> f64 {
        self.core.tools_bound_h()
    }

    /// The greatest of the three bounds, h.
    #[getter]
    fn lower_bound_h(&self) -> f64 {
        self.core.lower_bound_h()
    }

    /// How much longer than the lower bound it is, as a share; nought is proved best.
    #[getter]
    fn gap_ratio(&self) -> f64 {
        self.core.gap_ratio()
    }

    /// Hours of one person, all tasks.
    #[getter]
    fn labour_h(&self) -> f64 {
        self.core.person_hours()
    }

    /// Numbers and tables as plain values; None for what is not known.
    pub fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in [
            "makespan_h",
            "path_bound_h",
            "people_bound_h",
            "tools_bound_h",
            "lower_bound_h",
            "gap_ratio",
            "labour_h",
            "critical_chain",
        ] {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        for (name, columns) in [("by_task", own.by_task()), ("by_day", own.by_day()), ("evenings", own.evenings())] {
            dict.set_item(name, columns.rows(py)?)?;
        }
        Ok(Dict(dict))
    }

    fn __len__(&self) -> usize {
        self.core.job().tasks.len()
    }

    fn __str__(&self) -> String {
        view::schedule(&self.core)
    }

    fn __repr__(&self) -> String {
        let (tasks, hours) = (self.core.job().tasks.len(), crate::check::significant(self.core.makespan_h()));
        format!("<Schedule of {tasks} tasks: {hours} h by the clock>")
    }

    fn _repr_html_(&self) -> String {
        html::schedule(&self.core)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}
