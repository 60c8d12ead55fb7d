//! The classes `Report` and `Check`.

use std::sync::Arc;

use pyo3::exceptions::PyIndexError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::check as core;
use crate::mechanics::joint::{Demand, Report as CoreReport};
use crate::quantity::Kind;

use super::joint::Lap;
use super::output::{Columns, Dict, Many, Recipe, quoted};

/// A lap, what was asked of it, and the answer.
#[derive(PartialEq)]
pub(super) struct Answer {
    pub lap: Lap,
    pub demand: Demand,
    pub report: CoreReport,
}

/// All checks of one lap by one rule set; `Lap.check` makes it. Cannot be changed. ``report[i]`` is its check i.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
///     >>> rivet = rb.BlindRivet("6.4 mm", shear="6 kN", tension="5 kN", head="13.4 mm", hole="6.5 mm")
///     >>> report = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="9.6 mm").check(shear="900 N")
///     >>> report.verdict, report.governing.name
///     ('passes', 'bearing')
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Report(pub Arc<Answer>);

impl Report {
    fn check(&self, index: usize) -> Check {
        Check { answer: Arc::clone(&self.0), index }
    }

    fn index_of(&self, check: &core::Check) -> Option<usize> {
        self.0.report.checks.iter().position(|c| std::ptr::eq(c, check))
    }
}

#[pymethods]
impl Report {
    /// The rule set: ``"EN 1993-1-3"`` or ``"AISI S100"``.
    #[getter]
    fn method(&self) -> &str {
        self.0.report.method.name()
    }

    /// ``"passes"``, ``"fails"``, ``"outside the rule's range"`` or ``"not assessed"``; only the first is a pass.
    #[getter]
    fn verdict(&self) -> &str {
        self.0.report.verdict().words()
    }

    /// Highest demand over capacity among the strengths; None outside the rule's range or where a value is missing.
    #[getter]
    fn utilisation(&self) -> Option<f64> {
        self.0.report.utilisation()
    }

    /// The check that decides the verdict.
    #[getter]
    fn governing(&self) -> Option<Check> {
        let check = self.0.report.governing()?;
        Some(self.check(self.index_of(check)?))
    }

    /// Every check: strengths first, then the rule's own limits.
    #[getter]
    fn checks(&self) -> Many<Check> {
        Many((0..self.0.report.checks.len()).map(|i| self.check(i)).collect())
    }

    /// The lap that was checked.
    #[getter]
    fn lap(&self) -> Lap {
        self.0.lap.clone()
    }

    /// Load asked of one rivet in the plane of the sheets, N.
    #[getter]
    fn shear_n(&self) -> f64 {
        self.0.demand.shear_n
    }

    /// Load asked of one rivet away from the sheets, N.
    #[getter]
    fn tension_n(&self) -> f64 {
        self.0.demand.tension_n
    }

    /// Every check as a hand calculation: formula, numbers with units, result, clause, standing.
    fn explain(&self) -> String {
        self.0.report.explain()
    }

    /// The checks as a table: name, clause, demand, capacity, unit, utilisation, level, verdict, reason, standing.
    #[getter]
    fn table(&self) -> Columns {
        check_columns(&self.0.report.checks)
    }

    /// Method, verdict, utilisation and checks as plain values.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("method", self.method())?;
        dict.set_item("verdict", self.verdict())?;
        dict.set_item("utilisation", self.utilisation())?;
        dict.set_item("checks", self.table().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __len__(&self) -> usize {
        self.0.report.checks.len()
    }

    fn __getitem__(&self, index: usize) -> PyResult<Check> {
        if index < self.__len__() {
            Ok(self.check(index))
        } else {
            Err(PyIndexError::new_err(format!("a report of {} checks has none at {index}", self.__len__())))
        }
    }

    fn __repr__(&self) -> String {
        let used = self.utilisation().map_or("None".to_owned(), |u| format!("{u:.3}"));
        let governing = self.0.report.governing().map_or("", |c| c.name.as_ref());
        format!("<Report by {}: {}, utilisation {used}, governed by {governing}>", self.method(), self.verdict())
    }

    fn _repr_html_(&self) -> String {
        crate::drawing::html::report(&self.0.report)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let call = Bound::new(py, self.0.lap.clone())?.getattr("check")?;
        let force = |n: f64| Kind::Force.print(n);
        let with = (force(self.0.demand.shear_n), force(self.0.demand.tension_n), self.method());
        Ok(Recipe { call, with: with.into_pyobject(py)? })
    }
}

/// One comparison of a demand with a capacity. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
pub(super) struct Check {
    answer: Arc<Answer>,
    index: usize,
}

impl PartialEq for Check {
    fn eq(&self, other: &Self) -> bool {
        self.core() == other.core()
    }
}

impl Check {
    fn core(&self) -> &core::Check {
        &self.answer.report.checks[self.index]
    }

    fn in_newtons(&self, value: Option<f64>) -> Option<f64> {
        value.filter(|_| self.core().unit == "N")
    }
}

#[pymethods]
impl Check {
    /// What is checked: ``"bearing"``, ``"net section"``, ``"hole"``.
    #[getter]
    fn name(&self) -> &str {
        &self.core().name
    }

    /// Where it is checked; empty where there is only one place.
    #[getter]
    fn subject(&self) -> &str {
        &self.core().subject
    }

    /// Rule set and clause.
    #[getter]
    fn clause(&self) -> &str {
        &self.core().clause
    }

    /// The formula of the capacity, in the rule's symbols.
    #[getter]
    fn formula(&self) -> &str {
        self.core().formula
    }

    /// What is asked, in `unit`; None where it is not known.
    #[getter]
    fn demand(&self) -> Option<f64> {
        self.core().demand
    }

    /// What is there, in `unit`; None where it is not known or withdrawn.
    #[getter]
    fn capacity(&self) -> Option<f64> {
        self.core().capacity
    }

    /// What is asked, N; None where the check is not of forces or it is not known.
    #[getter]
    fn demand_n(&self) -> Option<f64> {
        self.in_newtons(self.core().demand)
    }

    /// What is there, N; None where the check is not of forces, or it is not known or withdrawn.
    #[getter]
    fn capacity_n(&self) -> Option<f64> {
        self.in_newtons(self.core().capacity)
    }

    /// Unit of demand and capacity; empty for a ratio.
    #[getter]
    fn unit(&self) -> &str {
        self.core().unit
    }

    /// Demand over capacity; None where either is not known.
    #[getter]
    fn utilisation(&self) -> Option<f64> {
        self.core().utilisation()
    }

    /// The kind of strength: ``"design"``, ``"allowable"`` or ``"as stated"``.
    #[getter]
    fn level(&self) -> &str {
        self.core().level.words()
    }

    /// ``"passes"``, ``"fails"``, ``"outside the rule's range"`` or ``"not assessed"``; only the first is a pass.
    #[getter]
    fn verdict(&self) -> &str {
        self.core().verdict.words()
    }

    /// Why, where the verdict does not speak for itself.
    #[getter]
    fn reason(&self) -> Option<&str> {
        self.core().reason.as_deref()
    }

    /// The weakest standing of the numbers that went in.
    #[getter]
    fn standing(&self) -> &str {
        self.core().standing.words()
    }

    /// The comparison as a hand calculation.
    fn explain(&self) -> String {
        self.core().explain()
    }

    /// The values by name; None for what is not known.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let row = check_columns(std::slice::from_ref(self.core())).rows(py)?.get_item(0)?;
        Ok(Dict(row.cast_into::<PyDict>()?))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let used = self.utilisation().map_or("None".to_owned(), |u| format!("{u:.3}"));
        Ok(format!("<Check {}: {}, utilisation {used}>", quoted(py, self.name())?, self.verdict()))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let call = py.import("operator")?.getattr("getitem")?;
        let report = Bound::new(py, Report(Arc::clone(&self.answer)))?.into_any();
        Ok(Recipe { call, with: PyTuple::new(py, [report, self.index.into_pyobject(py)?.into_any()])? })
    }
}

/// Checks as a table.
pub(super) fn check_columns(checks: &[core::Check]) -> Columns {
    Columns::of(checks)
        .text("name", |c| c.name.as_ref())
        .text("subject", |c| &c.subject)
        .text("clause", |c| c.clause.as_ref())
        .number("demand", |c| c.demand)
        .number("capacity", |c| c.capacity)
        .text("unit", |c| c.unit)
        .number("utilisation", |c| c.utilisation())
        .text("level", |c| c.level.words())
        .text("verdict", |c| c.verdict.words())
        .text("reason", |c| c.reason.clone().unwrap_or_default())
        .text("standing", |c| c.standing.words())
        .done()
}
