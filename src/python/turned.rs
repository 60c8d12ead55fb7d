//! The class `Turned`: a check turned round.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::calculation::Form;
use crate::mechanics::joint::turned::{self as core, LineLoad, Sheets};
use crate::mechanics::joint::{Demand, Method};
use crate::quantity::Kind;

use super::input::Arguments;
use super::joint::given;
use super::lap::Lap;
use super::output::{Columns, Dict, Recipe};
use super::report::check_columns;

/// What was asked.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Question {
    LargestPitch(LineLoad),
    SmallestEdge(Demand),
    ThinnestSheet(Demand, Sheets),
    FewestRows(LineLoad),
}

/// How far a lap can go and still pass: `Lap.largest_pitch`, `Lap.smallest_edge`, `Lap.thinnest_sheet` and
/// `Lap.fewest_rows` make it. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Turned {
    lap: Lap,
    question: Question,
    method: Method,
    core: core::Turned,
}

impl Turned {
    pub fn new(lap: &Lap, question: Question, method: Method, given: &Arguments) -> PyResult<Self> {
        let core = match question {
            Question::LargestPitch(load) => lap.core().largest_pitch(load, method),
            Question::SmallestEdge(demand) => lap.core().smallest_edge(demand, method),
            Question::ThinnestSheet(demand, sheets) => lap.core().thinnest_sheet(demand, sheets, method),
            Question::FewestRows(load) => lap.core().fewest_rows(load, method),
        };
        let core = core.map_err(|problems| given.refused(problems))?;
        Ok(Self { lap: lap.clone(), question, method, core })
    }
}

#[pymethods]
impl Turned {
    /// The last value that passes, in `unit`; None where no value does.
    #[getter]
    fn value(&self) -> Option<f64> {
        self.core.value
    }

    /// ``"mm"``, or empty for a number of lines.
    #[getter]
    fn unit(&self) -> &str {
        self.core.unit
    }

    /// Worked out by inverting the rule, or counted; else bracketed to the last digits of a number.
    #[getter]
    fn exact(&self) -> bool {
        self.core.exact
    }

    /// The check that the next value does not pass or, where no value passes, that stops even the most favourable; None
    /// where only the range of the search ends it.
    #[getter]
    fn stopped_by(&self) -> Option<&str> {
        self.core.stopped_by.as_deref()
    }

    /// The rule set.
    #[getter]
    fn method(&self) -> &str {
        self.method.name()
    }

    /// The lap that was asked about.
    #[getter]
    fn lap(&self) -> Lap {
        self.lap.clone()
    }

    /// All checks at the value; where there is none, at the value most in the lap's favour.
    #[getter]
    fn table(&self) -> Columns {
        check_columns(&self.core.report.checks)
    }

    /// The checks at the value as hand calculations.
    ///
    /// Args:
    ///     form: ``"text"``, ``"html"`` or ``"latex"``.
    ///
    /// Raises:
    ///     InputError: Another form.
    #[pyo3(signature = (form = "text"))]
    fn explain(&self, form: &str) -> PyResult<String> {
        Ok(self.core.report.explain_as(form.parse::<Form>()?))
    }

    /// The values by name.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("value", self.value())?;
        dict.set_item("unit", self.unit())?;
        dict.set_item("exact", self.exact())?;
        dict.set_item("stopped_by", self.stopped_by())?;
        dict.set_item("method", self.method())?;
        dict.set_item("checks", self.table().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let value = self.value().map_or("none passes".to_owned(), |v| format!("{v} {}", self.unit()).trim().to_owned());
        let stop = self.stopped_by().map_or(String::new(), |name| format!(", stopped by {name}"));
        format!("<Turned by {}: {value}{stop}>", self.method())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let force = |n: f64| Some(Kind::Force.print(n));
        let line = |n_mm: f64| Some(Kind::LineLoad.print(n_mm));
        let (name, shear, tension, sheets) = match self.question {
            Question::LargestPitch(load) => ("largest_pitch", line(load.shear_n_mm), line(load.tension_n_mm), None),
            Question::SmallestEdge(demand) => ("smallest_edge", force(demand.shear_n), force(demand.tension_n), None),
            Question::ThinnestSheet(demand, sheets) => {
                ("thinnest_sheet", force(demand.shear_n), force(demand.tension_n), Some(sheets.name()))
            }
            Question::FewestRows(load) => ("fewest_rows", line(load.shear_n_mm), line(load.tension_n_mm), None),
        };
        let method = Some(self.method.name());
        let kwargs = given!(py, "shear" = shear, "tension" = tension, "method" = method, "sheets" = sheets);
        Recipe::of_method(&Bound::new(py, self.lap.clone())?, name, &kwargs)
    }
}
