//! The classes `Report`, `Reports` and `Check`.

use std::sync::Arc;

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::calculation::Form;
use crate::check as core;
use crate::mechanics::joint::{Demand, Report as CoreReport};
use crate::quantity::Kind;

use super::by_test::Tested;
use super::input::{Nth, Several};
use super::joint::given;
use super::lap::Lap;
use super::output::{Columns, Dict, Many, Recipe, Rows, quoted};

/// A lap, what was asked of it, and the answer.
#[derive(PartialEq)]
pub(super) struct Answer {
    pub lap: Lap,
    pub demand: Demand,
    pub how: How,
    pub report: CoreReport,
}

/// By what a lap was checked.
#[derive(PartialEq)]
pub(super) enum How {
    /// The rule set that the report names.
    Rules,
    /// Tests in shear, and in tension.
    Tests(Box<(Tested, Option<Tested>)>),
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
    /// The rule set, or ``"tested lap"``.
    #[getter]
    fn method(&self) -> &str {
        self.0.report.method
    }

    /// The level of its strengths, and of the loads they are compared with: ``"design"``, ``"allowable"``, ``"factored"``
    /// or ``"minimum"``.
    #[getter]
    fn level(&self) -> &str {
        self.0.report.level.words()
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
    ///
    /// Args:
    ///     form: ``"text"``, ``"html"`` or ``"latex"``.
    ///
    /// Raises:
    ///     InputError: Another form.
    #[pyo3(signature = (form = "text"))]
    fn explain(&self, form: &str) -> PyResult<String> {
        Ok(self.0.report.explain_as(form.parse()?))
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
        dict.set_item("level", self.level())?;
        dict.set_item("shear_n", self.shear_n())?;
        dict.set_item("tension_n", self.tension_n())?;
        dict.set_item("verdict", self.verdict())?;
        dict.set_item("utilisation", self.utilisation())?;
        dict.set_item("checks", self.table().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __len__(&self) -> usize {
        self.0.report.checks.len()
    }

    fn __getitem__(&self, index: Nth) -> PyResult<Check> {
        Ok(self.check(index.within(self.__len__(), &format!("a report of {} checks", self.__len__()))?))
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
        let lap = Bound::new(py, self.0.lap.clone())?;
        let force = |n: f64| Some(Kind::Force.print(n));
        let (shear, tension) = (force(self.0.demand.shear_n), force(self.0.demand.tension_n));
        match &self.0.how {
            How::Rules => {
                let kwargs = given!(py, "shear" = shear, "tension" = tension, "method" = Some(self.method()));
                Recipe::of_method(&lap, "check", &kwargs)
            }
            How::Tests(tests) => {
                let (in_shear, in_tension) = &**tests;
                let kwargs = given!(
                    py,
                    "tested" = Some(in_shear.clone()),
                    "shear" = shear,
                    "tension" = tension,
                    "tested_in_tension" = in_tension.clone(),
                );
                Recipe::of_method(&lap, "check_by_test", &kwargs)
            }
        }
    }
}

/// One lap by several rule sets, side by side; `Lap.check_by` makes it. Cannot be changed. ``reports[i]`` is its report i.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Reports(pub Vec<Arc<Answer>>);

impl Reports {
    fn core(&self) -> impl Iterator<Item = &CoreReport> {
        self.0.iter().map(|answer| &answer.report)
    }
}

#[pymethods]
impl Reports {
    /// The worst of the verdicts.
    #[getter]
    fn verdict(&self) -> &str {
        self.core().map(CoreReport::verdict).max().unwrap_or(core::Verdict::NotAssessed).words()
    }

    /// The checks of all reports as a table: method, then the columns of `Report.table`.
    #[getter]
    fn table(&self) -> Columns {
        let rows = self.core().flat_map(|report| report.checks.iter().map(move |check| (report.method, check)));
        check_rows(Columns::of(rows).text("method", |row| row.0), |row| row.1).done()
    }

    /// Every check of every report as a hand calculation.
    ///
    /// Args:
    ///     form: ``"text"``, ``"html"`` or ``"latex"``.
    ///
    /// Raises:
    ///     InputError: Another form.
    #[pyo3(signature = (form = "text"))]
    fn explain(&self, form: &str) -> PyResult<String> {
        let form: Form = form.parse()?;
        let parts: Vec<String> = self.core().map(|report| report.explain_as(form)).collect();
        Ok(parts.join("\n"))
    }

    fn __len__(&self) -> usize {
        self.0.len()
    }

    fn __getitem__(&self, index: Nth) -> PyResult<Report> {
        Ok(Report(Arc::clone(
            &self.0[index.within(self.0.len(), &format!("a comparison of {} reports", self.0.len()))?],
        )))
    }

    fn __repr__(&self) -> String {
        let parts: Vec<String> = self.core().map(|r| format!("{}: {}", r.method, r.verdict().words())).collect();
        format!("<Reports {}>", parts.join(", "))
    }

    fn __str__(&self) -> String {
        crate::drawing::text::reports(self.core())
    }

    fn _repr_html_(&self) -> String {
        crate::drawing::html::reports(self.core())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let each: Vec<Report> = self.0.iter().map(Arc::clone).map(Report).collect();
        let call = py.import("raisedbody")?.getattr("Reports")?.getattr("of")?;
        Ok(Recipe { call, with: PyTuple::new(py, [each.into_pyobject(py)?.into_any()])? })
    }

    /// Puts reports side by side.
    ///
    /// Args:
    ///     reports: Reports, of any laps.
    #[staticmethod]
    fn of(reports: Several<PyRef<'_, Report>>) -> Self {
        Self(reports.0.iter().map(|report| Arc::clone(&report.0)).collect())
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

    /// The kind of strength: ``"design"``, ``"allowable"``, ``"factored"``, ``"minimum"`` or ``"as stated"``.
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

    /// The numbers put into the formula: symbol, value and unit of each; NaN for what is not known.
    #[getter]
    fn terms(&self) -> Many<(&str, f64, &str)> {
        Many(self.core().terms.iter().map(|t| (t.symbol, t.value, t.unit)).collect())
    }

    /// The comparison as a hand calculation.
    ///
    /// Args:
    ///     form: ``"text"``, ``"html"`` or ``"latex"``.
    ///
    /// Raises:
    ///     InputError: Another form.
    #[pyo3(signature = (form = "text"))]
    fn explain(&self, form: &str) -> PyResult<String> {
        Ok(self.core().calculation().write(form.parse()?))
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
    check_rows(Columns::of(checks), |check| check).done()
}

/// Adds the columns of a check to rows that hold one.
fn check_rows<T>(rows: Rows<T>, check: impl Fn(&T) -> &core::Check) -> Rows<T> {
    rows.text("name", |row| check(row).name.to_string())
        .text("subject", |row| check(row).subject.clone())
        .text("clause", |row| check(row).clause.to_string())
        .number("demand", |row| check(row).demand)
        .number("capacity", |row| check(row).capacity)
        .text("unit", |row| check(row).unit)
        .number("utilisation", |row| check(row).utilisation())
        .text("level", |row| check(row).level.words())
        .text("verdict", |row| check(row).verdict.words())
        .text("reason", |row| check(row).reason.clone().unwrap_or_default())
        .text("standing", |row| check(row).standing.words())
}
