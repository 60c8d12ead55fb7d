//! The classes `Sweep` and `Choice`.

use std::sync::Arc;
use std::time::{Duration, Instant};

use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyDict, PyMapping, PyTuple};
#[cfg(feature = "stubs")]
use pyo3::{
    inspect::PyStaticConstant, inspect::PyStaticExpr, type_hint_identifier as name, type_hint_subscript as subscript,
    type_hint_union,
};

use crate::drawing::sweep as drawn;
use crate::error::short;
use crate::plan::{self as core, Aim, Axis, HardLimit, Objective};
use crate::stop::look;

use super::input::{Real, Several, ValuesByPath, Whole, entry, shown};
use super::interrupts::away;
use super::joint::given;
use super::output::{Columns, Dict, Many, Recipe, plain};
use super::plan::Plan;

/// Entries by their path, with the values that each takes.
pub(super) struct Axes(pub Vec<Axis>);

impl<'py> FromPyObject<'_, 'py> for Axes {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = ValuesByPath::INPUT_TYPE;

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        let axis = |(path, values): (String, Vec<Bound<'py, PyAny>>)| {
            let values = values.iter().map(|value| entry(value, &path, 0)).collect::<PyResult<_>>()?;
            Ok(Axis::new(&path, values)?)
        };
        obj.extract::<ValuesByPath<'_>>()?.0.into_iter().map(axis).collect::<PyResult<_>>().map(Self)
    }
}

/// Before this nothing is shown of how far it is.
const SHORT: Duration = Duration::from_secs(2);

/// Who is told how far it is.
pub(super) enum Progress {
    /// Standard error, where it takes long.
    Shown { since: Instant, last: Instant },
    /// Nobody.
    Hushed,
    /// The caller's own function.
    Told(Py<PyAny>),
}

impl Default for Progress {
    fn default() -> Self {
        let now = Instant::now();
        Self::Shown { since: now, last: now }
    }
}

impl<'py> FromPyObject<'_, 'py> for Progress {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        name!("builtins", "bool"),
        subscript!(
            name!("collections.abc", "Callable"),
            PyStaticExpr::Constant { value: PyStaticConstant::Ellipsis },
            name!("typing", "Any")
        )
    );

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(shown) = obj.cast::<PyBool>() {
            return Ok(if shown.is_true() { Self::default() } else { Self::Hushed });
        }
        if obj.is_callable() {
            return Ok(Self::Told(obj.to_owned().unbind()));
        }
        Err(PyTypeError::new_err(format!("progress: True, False or a callable is asked for; not {}", shown(&obj))))
    }
}

impl Progress {
    /// Tells how far it is, and ends the work where it is to be stopped.
    pub fn tell(&mut self, what: &str, done: usize, of: usize) -> PyResult<()> {
        look();
        Python::attach(|py| {
            match self {
                Self::Hushed => {}
                Self::Told(own) => {
                    own.call1(py, (done, of))?;
                }
                Self::Shown { since, last } => {
                    let now = Instant::now();
                    let (whole, shown) = (now - *since, *last > *since);
                    if done == of && shown || whole > SHORT && now - *last > Duration::from_millis(500) {
                        *last = now;
                        let line = drawn::progress(what, done, of, whole.as_secs_f64());
                        let out = py.import("sys")?.getattr("stderr")?;
                        if !out.is_none() {
                            out.call_method1("write", (line,))?;
                            out.call_method0("flush")?;
                        }
                    }
                }
            }
            Ok(())
        })
    }
}

/// Every combination of the values of some entries, and what each comes to; `Plan.sweep` makes it. Cannot be changed.
///
/// It pickles as the plan and what varies, and is worked out again where it is read.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> sweep = rb.Plan.read("examples/workshop_bus.toml").sweep({"skin.gauge": [16, 18, 20]})
///     >>> len(sweep)
///     3
///     >>> sweep.plan(0).to_dict()["skin"]["gauge"]
///     16
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Sweep(Arc<core::Sweep>);

impl Sweep {
    pub fn new(core: core::Sweep) -> Self {
        Self(Arc::new(core))
    }

    fn plan_of(&self, py: Python<'_>, row: usize) -> PyResult<Plan> {
        Ok(Plan(away(py, || self.0.plan(row))??))
    }

    /// A table of some combinations: their row, the values of each entry, then their numbers.
    fn of_rows(&self, rows: Vec<usize>) -> super::output::Rows<usize> {
        let core = &self.0;
        let mut columns = Columns::of(rows).count("row", |&row| row);
        for (i, axis) in core.axes().iter().enumerate() {
            columns = columns.text(axis.path(), |&row| core.label(row, i));
        }
        for (i, name) in core.names().iter().enumerate() {
            columns = columns.number(*name, |&row| core.row(row).and_then(|r| *r.as_ref().ok()?.get(i)?));
        }
        columns
    }
}

#[pymethods]
impl Sweep {
    /// A row for each combination: row, the value of each entry as text (named by its path), then numbers whose name ends in
    /// their unit (NaN where not known), and error: why the combination cannot be, empty where it can.
    #[getter]
    fn table(&self) -> Columns {
        let error = |row: &usize| match self.0.row(*row) {
            Some(Err(error)) => error.clone(),
            _ => String::new(),
        };
        self.of_rows((0..self.0.len()).collect()).text("error", error).done()
    }

    /// Names of the numbers.
    #[getter]
    fn names(&self) -> Many<&'static str> {
        Many(self.0.names().to_vec())
    }

    /// Paths of the entries that vary.
    #[getter]
    fn axes(&self) -> Many<String> {
        Many(self.0.axes().iter().map(|axis| axis.path().to_owned()).collect())
    }

    /// How many values each entry takes: the shape of the grid, the last entry fastest.
    #[getter]
    fn shape(&self) -> Many<usize> {
        Many(self.0.axes().iter().map(|axis| axis.values().len()).collect())
    }

    /// The whole plan of a combination.
    ///
    /// Args:
    ///     row: Its row, from 0.
    ///
    /// Returns:
    ///     The plan.
    ///
    /// Raises:
    ///     InputError: There is no such row, or the combination cannot be.
    #[pyo3(signature = (row, /))]
    fn plan(&self, py: Python<'_>, row: Whole<u32>) -> PyResult<Plan> {
        self.plan_of(py, row.index())
    }

    /// Those combinations that no other beats in all that is wanted, among those that keep every limit.
    ///
    /// Args:
    ///     minimise: Names of numbers that are to be small.
    ///     maximise: Names of numbers that are to be large.
    ///     limits: Least and most value that a number must keep, itself among them, by its name; None for no bound:
    ///         ``{"rear_axle_margin_kg": (0, None)}``.
    ///
    /// Returns:
    ///     The choice, and of each option what keeps it from being better.
    ///
    /// Raises:
    ///     InputError: Nothing is wanted or more than eight numbers are, a name that is no number of the sweep or is there
    ///         twice, or a limit without a bound or with its bounds the wrong way round.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> sweep = rb.Plan.read("examples/workshop_bus.toml").sweep({"skin.gauge": [16, 18, 20]})
    ///     >>> choice = sweep.choose(minimise=["skin_mass_kg"], limits={"sheet_thickness_mm": (1.2, None)})
    ///     >>> choice.table["skin.gauge"].tolist()
    ///     ['18']
    #[pyo3(signature = (minimise = None, maximise = None, limits = None))]
    fn choose(
        &self,
        py: Python<'_>,
        minimise: Option<Several<String>>,
        maximise: Option<Several<String>>,
        limits: Option<Limits>,
    ) -> PyResult<Choice> {
        let of = |names: Option<Several<String>>, aim| {
            names.map_or_else(Vec::new, |names| names.0.into_iter().map(|name| Objective { name, aim }).collect())
        };
        let mut objectives = of(minimise, Aim::Least);
        objectives.extend(of(maximise, Aim::Most));
        let limits = limits.map_or_else(Vec::new, |limits| limits.0);
        let core = away(py, || self.0.choose(objectives, limits))??;
        Ok(Choice { sweep: self.clone(), core })
    }

    /// The table's rows as plain values; None for what is not known.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("rows", self.table().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __len__(&self) -> usize {
        self.0.len()
    }

    fn __repr__(&self) -> String {
        drawn::sweep(&self.0)
    }

    fn __copy__(&self) -> Self {
        self.clone()
    }

    #[pyo3(signature = (_memo, /))]
    fn __deepcopy__(&self, _memo: Bound<'_, PyAny>) -> Self {
        self.clone()
    }

    // The plan and what varies: a pickle is read by other versions, whose numbers may be others.
    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let axes = PyDict::new(py);
        for axis in self.0.axes() {
            let values = axis.values().iter().map(|value| plain(py, value)).collect::<PyResult<Vec<_>>>()?;
            axes.set_item(axis.path(), values)?;
        }
        let sweep = Bound::new(py, Plan(self.0.base().clone()))?.into_any().getattr("sweep")?;
        let call = py
            .import("functools")?
            .getattr("partial")?
            .call((sweep, axes), Some(&given!(py, "progress" = Some(false))))?;
        Ok(Recipe { call, with: PyTuple::empty(py) })
    }
}

/// Bounds by the name of a number.
pub(super) struct Limits(Vec<HardLimit>);

impl<'py> FromPyObject<'_, 'py> for Limits {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = subscript!(
        name!("collections.abc", "Mapping"),
        name!("builtins", "str"),
        subscript!(name!("builtins", "tuple"), Option::<f64>::INPUT_TYPE, Option::<f64>::INPUT_TYPE)
    );

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        let mut limits = Vec::new();
        for item in obj.cast::<PyMapping>()?.items()?.iter() {
            let (name, bounds): (String, Bound<'_, PyAny>) = item.extract()?;
            let Ok((least, most)) = bounds.extract::<(Option<Real>, Option<Real>)>() else {
                let asked = "a pair of least and most is asked for, None where there is none, such as (0, None)";
                return Err(PyTypeError::new_err(format!("limits, {}: {asked}; not {}", short(&name), shown(&bounds))));
            };
            limits.push(HardLimit { name, least: least.map(|own| own.0), most: most.map(|own| own.0) });
        }
        Ok(Self(limits))
    }
}

/// The combinations of a sweep that no other beats; `Sweep.choose` makes it. Cannot be changed.
///
/// Printed, it lists the options with what keeps each from being better.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Choice {
    sweep: Sweep,
    core: core::Choice,
}

#[pymethods]
impl Choice {
    /// A row for each option, best in the first number wanted first: row (in the sweep), the values of each entry, the
    /// numbers, and stops: what keeps it from being better.
    #[getter]
    fn table(&self) -> Columns {
        let words = |row: &usize| {
            let own = self.core.chosen.iter().find(|chosen| chosen.row == *row);
            let stops = own.map_or(&[][..], |own| &own.stops);
            stops.iter().map(|stop| stop.words.as_str()).collect::<Vec<_>>().join("; ")
        };
        let rows = self.core.chosen.iter().map(|chosen| chosen.row).collect();
        self.sweep.of_rows(rows).text("stops", words).done()
    }

    /// A row for each thing that keeps an option from being better: option (its row in the sweep), number, by (the row that
    /// has it better, or would, NaN where none has), words.
    #[getter]
    fn stops(&self) -> Columns {
        let all = self.core.chosen.iter().flat_map(|own| own.stops.iter().map(move |stop| (own.row, stop)));
        Columns::of(all)
            .count("option", |(row, _)| *row)
            .text("number", |(_, stop)| stop.name.clone())
            .number("by", |(_, stop)| stop.row.map(|row| row as f64))
            .text("words", |(_, stop)| stop.words.clone())
            .done()
    }

    /// How many combinations are left out and why: beaten, not known, cannot be, and over each limit.
    #[getter]
    fn left_out<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        for (why, count) in self.core.left_out() {
            dict.set_item(why, count)?;
        }
        Ok(Dict(dict))
    }

    /// The sweep that it was chosen from.
    #[getter]
    fn sweep(&self) -> Sweep {
        self.sweep.clone()
    }

    /// The whole plan of an option.
    ///
    /// Args:
    ///     option: Its place in the table, from 0.
    ///
    /// Returns:
    ///     The plan.
    ///
    /// Raises:
    ///     InputError: There is no such option.
    #[pyo3(signature = (option, /))]
    fn plan(&self, py: Python<'_>, option: Whole<u32>) -> PyResult<Plan> {
        let row = self.core.row(option.index())?;
        self.sweep.plan_of(py, row)
    }

    /// The rows of the table, and what was left out, as plain values; None for what is not known.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("options", self.table().rows(py)?)?;
        dict.set_item("stops", self.stops().rows(py)?)?;
        dict.set_item("left_out", self.left_out(py)?.0)?;
        Ok(Dict(dict))
    }

    fn __len__(&self) -> usize {
        self.core.chosen.len()
    }

    fn __repr__(&self) -> String {
        drawn::choice(&self.sweep.0, &self.core)
    }

    fn __copy__(&self) -> Self {
        self.clone()
    }

    #[pyo3(signature = (_memo, /))]
    fn __deepcopy__(&self, _memo: Bound<'_, PyAny>) -> Self {
        self.clone()
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let of = |aim: Aim| -> Vec<&str> {
            self.core.objectives.iter().filter(|own| own.aim == aim).map(|own| own.name.as_str()).collect()
        };
        let limits = PyDict::new(py);
        for limit in &self.core.limits {
            limits.set_item(&limit.name, (limit.least, limit.most))?;
        }
        let kwargs =
            given!(py, "minimise" = Some(of(Aim::Least)), "maximise" = Some(of(Aim::Most)), "limits" = Some(limits),);
        Recipe::of_method(&Bound::new(py, self.sweep.clone())?, "choose", &kwargs)
    }

    fn _repr_html_(&self) -> String {
        drawn::choice_html(&self.sweep.0, &self.core)
    }
}
