//! The classes `Cuts` and `Cut`.

use std::sync::Arc;

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::body::cuts::Cut as CoreCut;
use crate::body::raise::Ends;
use crate::drawing::{cut_day, html};
use crate::plan::{self as core, RANKED_BY};

use super::input::Nth;
use super::output::{Columns, Dict, Many, Recipe};
use super::plan::Plan;

/// Every cut to choose from for a plan's raise; `Plan.cuts` makes it. Cannot be changed.
///
/// A sequence of `Cut`: those that can be made, best first, then those turned down. Printed, or in a notebook, it shows the
/// best, the plan's own, and what turned the others down.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> cuts = rb.Plan.read("examples/workshop_bus.toml").cuts()
///     >>> cuts[0].rank, cuts[0].ends, cuts.own.ends
///     (1, 'whole roof', 'sloped')
#[pyclass(frozen, eq, sequence, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Cuts {
    plan: Plan,
    core: Arc<core::Cuts>,
}

impl Cuts {
    pub fn new(plan: Plan, core: core::Cuts) -> Self {
        Self { plan, core: Arc::new(core) }
    }

    fn cut(&self, index: usize) -> Cut {
        Cut { cuts: self.clone(), index }
    }
}

#[pymethods]
impl Cuts {
    /// A row for each cut: rank (NaN where it is turned down), verdict, reason, cut_mm, place, allowed_low_mm and
    /// allowed_high_mm (where else it may lie), first_post, last_post, ends, slope_run_mm, stub_below_mm, stub_above_mm,
    /// splices_count, skin_area_m2, transitions_count, headroom_gained_mm, raised_length_mm, labour_h (without the cuts
    /// of sheets and bars), labour_h_per_m, undominated, own.
    #[getter]
    fn table(&self) -> Columns {
        Columns::of(&self.core.all)
            .number("rank", |c| c.rank.map(|rank| rank as f64))
            .text("verdict", |c| verdict(c))
            .text("reason", |c| reasons(c).join("; "))
            .number("cut_mm", |c| c.raise.cut_mm)
            .text("place", |c| c.place.words())
            .number("allowed_low_mm", |c| c.allowed_mm.map(|a| a.0))
            .number("allowed_high_mm", |c| c.allowed_mm.map(|a| a.1))
            .count("first_post", |c| c.raise.first_post + 1)
            .count("last_post", |c| c.raise.last_post + 1)
            .text("ends", |c| ends(c).0)
            .number("slope_run_mm", |c| ends(c).1)
            .number("stub_below_mm", |c| c.stub_below_mm)
            .number("stub_above_mm", |c| c.stub_above_mm)
            .number("splices_count", |c| c.figures.map(|f| f.splices as f64))
            .number("skin_area_m2", |c| c.figures.map(|f| f.skin_area_m2))
            .number("transitions_count", |c| c.figures.map(|f| f.transitions as f64))
            .number("headroom_gained_mm", |c| c.figures.map(|f| f.headroom_gained_mm))
            .number("raised_length_mm", |c| c.figures.map(|f| f.raised_length_mm))
            .number("labour_h", |c| c.figures.map(|f| f.labour_h))
            .number("labour_h_per_m", |c| c.figures.map(|f| f.labour_h_per_m()))
            .flag("undominated", |c| c.undominated)
            .flag("own", |c| c.own)
            .done()
    }

    /// The plan's own cut; it has reasons against it where it is turned down here.
    #[getter]
    fn own(&self) -> Option<Cut> {
        self.core.all.iter().position(|cut| cut.own).map(|index| self.cut(index))
    }

    /// What cuts are ranked by, in words.
    #[getter]
    fn ranked_by(&self) -> &'static str {
        RANKED_BY
    }

    /// Run of the sloped ends among them, mm: the plan's own, or a default.
    #[getter]
    fn slope_run_mm(&self) -> f64 {
        self.core.slope_run_mm
    }

    /// How many cuts are turned down for each kind of reason; one cut may have several.
    #[getter]
    fn turned_down<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        for (kind, count) in self.core.turned_down() {
            dict.set_item(kind, count)?;
        }
        Ok(Dict(dict))
    }

    /// The table's rows as plain values; None for what is not known.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("cuts", self.table().rows(py)?)?;
        dict.set_item("turned_down", self.turned_down(py)?)?;
        Ok(Dict(dict))
    }

    fn __len__(&self) -> usize {
        self.core.all.len()
    }

    fn __getitem__(&self, index: Nth) -> PyResult<Cut> {
        let len = self.core.all.len();
        Ok(self.cut(index.within(len, &format!("a choice of {len} cuts"))?))
    }

    fn __str__(&self) -> String {
        cut_day::cuts(&self.core)
    }

    fn __repr__(&self) -> String {
        format!("<Cuts: {} of {} can be made>", self.core.ranked().count(), self.core.all.len())
    }

    fn _repr_html_(&self) -> String {
        html::cuts(&self.core)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let call = py.import("operator")?.getattr("methodcaller")?.call1(("cuts",))?;
        Ok(Recipe { call, with: PyTuple::new(py, [Bound::new(py, self.plan.clone())?])? })
    }
}

/// One cut to choose from; `Cuts` holds it, and `Plan.with_cut` takes it over. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Cut {
    cuts: Cuts,
    index: usize,
}

impl Cut {
    pub fn core(&self) -> &CoreCut {
        &self.cuts.core.all[self.index]
    }
}

#[pymethods]
impl Cut {
    /// Its rank from 1, the best; None where it is turned down.
    #[getter]
    fn rank(&self) -> Option<usize> {
        self.core().rank
    }

    /// ``"possible"`` or ``"turned down"``.
    #[getter]
    fn verdict(&self) -> &'static str {
        verdict(self.core())
    }

    /// All that speaks against it; empty where it can be made.
    #[getter]
    fn reasons(&self) -> Many<String> {
        Many(reasons(self.core()))
    }

    /// Where it passes: ``"through the windows"``, ``"above the windows"``, ...
    #[getter]
    fn place(&self) -> &'static str {
        self.core().place.words()
    }

    /// Height above the ground, mm.
    #[getter]
    fn cut_mm(&self) -> f64 {
        self.core().raise.cut_mm
    }

    /// Heights between which it may lie as well, mm; None where it is turned down.
    #[getter]
    fn allowed_mm(&self) -> Option<(f64, f64)> {
        self.core().allowed_mm
    }

    /// Rearmost post that is lengthened, counted from the rear.
    #[getter]
    fn first_post(&self) -> usize {
        self.core().raise.first_post + 1
    }

    /// Foremost post that is lengthened.
    #[getter]
    fn last_post(&self) -> usize {
        self.core().raise.last_post + 1
    }

    /// ``"whole roof"``, ``"stepped"`` or ``"sloped"``.
    #[getter]
    fn ends(&self) -> &'static str {
        ends(self.core()).0
    }

    /// Run of sloped ends, mm; None for others.
    #[getter]
    fn slope_run_mm(&self) -> Option<f64> {
        ends(self.core()).1
    }

    /// Joints of inserts with posts; None where it is turned down.
    #[getter]
    fn splices_count(&self) -> Option<usize> {
        self.core().figures.map(|f| f.splices)
    }

    /// New skin on the bus, m2; None where it is turned down.
    #[getter]
    fn skin_area_m2(&self) -> Option<f64> {
        self.core().figures.map(|f| f.skin_area_m2)
    }

    /// Hours of one person, all tasks but the cuts of sheets and bars; None where it is turned down.
    #[getter]
    fn labour_h(&self) -> Option<f64> {
        self.core().figures.map(|f| f.labour_h)
    }

    /// It is the plan's own.
    #[getter]
    fn own(&self) -> bool {
        self.core().own
    }

    /// Its row of the table as plain values; None for what is not known.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let row = self.cuts.table().rows(py)?.get_item(self.index)?;
        Ok(Dict(row.cast_into::<PyDict>()?))
    }

    fn __repr__(&self) -> String {
        let rank = self.rank().map_or_else(|| "turned down".to_owned(), |rank| format!("rank {rank}"));
        let (first, last) = (self.first_post(), self.last_post());
        format!("<Cut at {} mm, posts {first} to {last}, {}: {rank}>", self.cut_mm(), self.ends())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let call = py.import("operator")?.getattr("itemgetter")?.call1((self.index,))?;
        Ok(Recipe { call, with: PyTuple::new(py, [Bound::new(py, self.cuts.clone())?])? })
    }
}

fn verdict(cut: &CoreCut) -> &'static str {
    if cut.reasons.is_empty() { "possible" } else { "turned down" }
}

fn reasons(cut: &CoreCut) -> Vec<String> {
    cut.reasons.iter().map(ToString::to_string).collect()
}

fn ends(cut: &CoreCut) -> (&'static str, Option<f64>) {
    match cut.raise.ends {
        Ends::WholeRoof => ("whole roof", None),
        Ends::Stepped => ("stepped", None),
        Ends::Sloped { run_mm } => ("sloped", Some(run_mm)),
    }
}
