//! `compare` and its result.

use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyMapping, PyTuple};
#[cfg(feature = "stubs")]
use pyo3::{PyTypeInfo, inspect::PyStaticExpr, type_hint_identifier as name, type_hint_subscript as subscript};

use rust_decimal::prelude::ToPrimitive;

use crate::drawing::{html, text};
use crate::error::Problem;
use crate::plan as core;

use super::interrupts::away;
use super::output::{Columns, Dict, Many, Recipe};
use super::plan::Plan;

/// Plans by name, in the order given.
pub(super) struct Plans(Vec<(String, Plan)>);

impl<'py> FromPyObject<'_, 'py> for Plans {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr =
        subscript!(name!("collections.abc", "Mapping"), name!("builtins", "str"), Plan::TYPE_HINT);

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        let mut plans = Vec::new();
        for item in obj.cast::<PyMapping>()?.items()?.iter() {
            let (name, plan): (Bound<'_, PyAny>, Bound<'_, PyAny>) = item.extract()?;
            let (Ok(name), Ok(plan)) = (name.extract::<String>(), plan.cast::<Plan>()) else {
                let kinds = (name.get_type().name()?, plan.get_type().name()?);
                return Err(PyTypeError::new_err(format!(
                    "plans are given as {{\"name\": plan}}; not {} and {}",
                    kinds.0, kinds.1
                )));
            };
            plans.push((name, plan.get().clone()));
        }
        Ok(Self(plans))
    }
}

/// Evaluates plans and sets them side by side. Other threads run meanwhile.
///
/// Args:
///     plans: The plans, or variants of one, by the name that each gets in the comparison.
///
/// Returns:
///     The comparison.
///
/// Raises:
///     InputError: There is no plan, or one cannot be evaluated.
///     TypeError: Something is not a plan.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> plan = rb.Plan.read("examples/workshop_bus.toml")
///     >>> both = rb.compare({"18 ga": plan, "16 ga": plan.replace(skin={"gauge": 16})})
///     >>> both.table["skin.gauge"].tolist()
///     ['18', '16']
#[pyfunction]
#[pyo3(signature = (plans, /))]
pub(super) fn compare(py: Python<'_>, plans: Plans) -> PyResult<Comparison> {
    let named: Vec<(&str, &core::Plan)> = plans.0.iter().map(|(name, plan)| (name.as_str(), &plan.0)).collect();
    let comparison = away(py, || core::compare(&named))??;
    Ok(Comparison { plans: plans.0, core: comparison })
}

/// Plans side by side; `compare` makes it. Cannot be changed. Printed, it is a table with a column for each plan.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Comparison {
    plans: Vec<(String, Plan)>,
    core: core::Comparison,
}

#[pymethods]
impl Comparison {
    /// A row for each plan: its name, the entries in which the plans differ (named by their path, such as
    /// ``skin.gauge``), verdict, price with its currency, then numbers whose name ends in their unit.
    #[getter]
    fn table(&self) -> Columns {
        let c = &self.core;
        let mut rows = Columns::of(0..c.names.len()).text("name", |&i| c.names[i].clone());
        for (path, values) in &c.differences {
            rows = rows.text(path, |&i| values[i].clone());
        }
        rows = rows.text("verdict", |&i| c.verdicts[i].words()).text("price", |&i| c.prices[i].clone());
        for (m, metric) in c.metrics.first().into_iter().flatten().enumerate() {
            rows = rows.number(metric.name, |&i| c.metrics[i][m].value);
        }
        rows.done()
    }

    /// The quotes line by line: line, then a column for each plan by its name with what it pays (0 where it has no such line, NaN
    /// where that has no price), then for each plan but the first ``difference, NAME``: what it pays more than the first (NaN where
    /// currencies differ); currency of the first.
    ///
    /// Raises:
    ///     InputError: A plan is called ``line``, ``currency`` or ``difference, ...``.
    #[getter]
    fn quotes(&self) -> PyResult<Columns> {
        let c = &self.core;
        let taken = |name: &&String| ["line", "currency"].contains(&name.as_str()) || name.starts_with("difference, ");
        if let Some(name) = c.names.iter().find(taken) {
            let problem = "a column of the quotes has this name; give the plan another";
            return Err(Problem::contradiction("plans", name, problem).into());
        }
        let currency = |i: usize| c.quotes.get(i).and_then(|quote| quote.as_ref().map(|own| own.currency));
        let mut rows = Columns::of(c.lines()).text("line", |(name, _)| name.clone());
        for (i, name) in c.names.iter().enumerate() {
            rows = rows.number(name, |(_, paid)| paid[i].and_then(|own| own.to_f64()));
        }
        for (i, name) in c.names.iter().enumerate().skip(1) {
            rows = rows.number(format!("difference, {name}"), |(_, paid)| {
                let (own, first) = paid[i].zip(paid[0]).filter(|_| currency(i) == currency(0))?;
                (own - first).to_f64()
            });
        }
        Ok(rows.text("currency", |_| currency(0).unwrap_or_default()).done())
    }

    /// The names of the plans.
    #[getter]
    fn names(&self) -> Many<String> {
        Many(self.core.names.clone())
    }

    /// The row of each plan by its name, as plain values; None for what is not known.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        for (name, row) in self.core.names.iter().zip(self.table().rows(py)?) {
            row.cast::<PyDict>()?.del_item("name")?;
            dict.set_item(name, row)?;
        }
        Ok(Dict(dict))
    }

    fn __len__(&self) -> usize {
        self.core.names.len()
    }

    fn __repr__(&self) -> String {
        text::comparison(&self.core)
    }

    fn _repr_html_(&self) -> String {
        html::comparison(&self.core)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let plans = PyDict::new(py);
        for (name, plan) in &self.plans {
            plans.set_item(name, plan.clone())?;
        }
        let call = py.import("raisedbody")?.getattr("compare")?;
        Ok(Recipe { call, with: PyTuple::new(py, [plans])? })
    }
}
