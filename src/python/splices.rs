//! The class `Splices`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::drawing::{cut_day, html};
use crate::plan::SpliceSummary;
use crate::quantity::ShopUnits;

use super::evaluation::part_of;
use super::output::{Columns, Dict, Many, Recipe};
use super::plan::Plan;

/// How the inserts of a plan are joined to its posts; `Evaluation.splices` holds it. Cannot be changed.
///
/// An insert nests where it goes in with every tolerance against it. The plan is worked out raised straight up, where leaning
/// sides bend each insert at both cuts; what following the lean would ask instead is told beside it.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> splices = rb.Plan.read("examples/mobile_library.toml").evaluate().splices
///     >>> len(splices.inserts["id"]), splices.splices_count, round(splices.roof_too_wide_mm, 1)
///     (20, 40, 37.5)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Splices {
    plan: Plan,
    core: SpliceSummary,
    units: ShopUnits,
}

impl Splices {
    pub fn new(plan: Plan, core: SpliceSummary, units: ShopUnits) -> Self {
        Self { plan, core, units }
    }
}

#[pymethods]
impl Splices {
    /// The cut list, left side first, rear to front: id, side, post, length_mm, lower_bend_deg, upper_bend_deg (raised straight
    /// up), folded (sawn through three walls and folded at both bends, as the post leaves no room to tilt), shim_gauge,
    /// shim_mm, drain_hole, bar (counted from 1; NaN where it is joined from several).
    #[getter]
    fn inserts(&self) -> Columns {
        Columns::of(&self.core.posts)
            .text("id", |p| &p.insert.id)
            .text("side", |p| p.insert.side.name())
            .count("post", |p| p.insert.post + 1)
            .number("length_mm", |p| p.insert.length_mm)
            .number("lower_bend_deg", |p| p.bends_deg[0])
            .number("upper_bend_deg", |p| p.bends_deg[1])
            .flag("folded", |p| p.folded == Some(true))
            .number("shim_gauge", |p| p.shim.map(|s| f64::from(s.gauge)))
            .number("shim_mm", |p| p.shim.map(|s| s.thickness_mm))
            .flag("drain_hole", |p| p.nesting.is_some_and(|n| n.closed))
            .number("bar", |p| p.bar.map(|bar| (bar + 1) as f64))
            .done()
    }

    /// How each insert nests: id, side, post, fits, then mm: beside_mm (gap on each face beside), beside_least_mm and
    /// depth_least_mm (with the tolerances against it; below nought the parts interfere), depth_mm (play square to the skin),
    /// corner_least_mm (NaN where the faces meet before the corners), held_off_mm, step_mm (above nought the insert's outer
    /// face stands back from the post's), step_left_mm (after the shim). NaN where the splice or the post is not in the plan.
    #[getter]
    fn nesting(&self) -> Columns {
        Columns::of(&self.core.posts)
            .text("id", |p| &p.insert.id)
            .text("side", |p| p.insert.side.name())
            .count("post", |p| p.insert.post + 1)
            .flag("fits", |p| p.nesting.is_some_and(|n| n.fits()))
            .number("beside_mm", |p| p.nesting.map(|n| 0.5 * n.beside.nominal_mm))
            .number("beside_least_mm", |p| p.nesting.map(|n| 0.5 * n.beside.least_mm()))
            .number("depth_mm", |p| p.nesting.map(|n| n.depth.nominal_mm))
            .number("depth_least_mm", |p| p.nesting.map(|n| n.depth.least_mm()))
            .number("corner_least_mm", |p| p.nesting.and_then(|n| n.corner).map(|c| c.radius_mm - c.reach_mm))
            .number("held_off_mm", |p| p.nesting.map(|n| n.held_off_mm))
            .number("step_mm", |p| p.nesting.map(|n| n.step_mm))
            .number("step_left_mm", |p| p.nesting.map(|n| p.shim.map_or(n.step_mm.abs(), |s| s.remains_mm)))
            .done()
    }

    /// Each side's lean at the cut and what it asks: side, lean_below_deg, lean_above_deg; raised straight up kink_lower_deg,
    /// kink_upper_deg, tilt_mm (play in depth that an unbent insert needs); following the lean inwards_mm,
    /// following_length_mm, following_kink_deg.
    #[getter]
    fn leaning(&self) -> Columns {
        Columns::of(&self.core.leaning.sides)
            .text("side", |s| s.side.name())
            .number("lean_below_deg", |s| s.below_deg)
            .number("lean_above_deg", |s| s.above_deg)
            .number("kink_lower_deg", |s| s.kink_lower_deg)
            .number("kink_upper_deg", |s| s.kink_upper_deg)
            .number("tilt_mm", |s| s.tilt_mm)
            .number("inwards_mm", |s| s.inwards_mm)
            .number("following_length_mm", |s| s.following_length_mm)
            .number("following_kink_deg", |s| s.following_kink_deg)
            .done()
    }

    /// Width over the drip rails, which the roof keeps, mm.
    #[getter]
    fn roof_width_mm(&self) -> f64 {
        self.core.leaning.roof_width_mm
    }

    /// Following the lean: how much wider the roof is than the posts it is to stand on, mm.
    #[getter]
    fn roof_too_wide_mm(&self) -> f64 {
        self.core.leaning.roof_too_wide_mm()
    }

    /// Following the lean: how far the middle between the posts moves to the left, mm; nought where both sides lean alike.
    #[getter]
    fn middle_to_left_mm(&self) -> f64 {
        self.core.leaning.middle_to_left_mm()
    }

    /// ``"inside"`` or ``"over"`` the posts; None where the plan says nothing of splices.
    #[getter]
    fn fit(&self) -> Option<&'static str> {
        self.core.fit.map(|fit| fit.words())
    }

    /// Joints of inserts with posts: two for each insert.
    #[getter]
    fn splices_count(&self) -> usize {
        self.core.count()
    }

    /// Welds or rivets in a splice; None where their places are not in the plan.
    #[getter]
    fn fasteners_count(&self) -> Option<usize> {
        self.core.fasteners.map(|f| f.pattern.count())
    }

    /// From one fastener to the next in its line, mm; None where their places are not in the plan.
    #[getter]
    fn fastener_spacing_mm(&self) -> Option<f64> {
        self.core.fasteners.and_then(|f| f.pattern.spacing_mm())
    }

    /// Design load of the fastener that carries most, N; None where it is not known.
    #[getter]
    fn fastener_n(&self) -> Option<f64> {
        self.core.fasteners.and_then(|f| f.most_n)
    }

    /// Largest design moment at the cut of a post, however its foot is held, N·mm; None where it is not known.
    #[getter]
    fn moment_n_mm(&self) -> Option<f64> {
        self.core.fasteners.and_then(|f| f.actions).map(|a| a.moment_n_mm)
    }

    /// What to know: zinc, drains, the roof's width against leaning sides.
    #[getter]
    fn notes(&self) -> Many<String> {
        Many(self.core.notes.clone())
    }

    /// The values and tables by name; None for what is not known.
    pub fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, this) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in NAMES {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        let all = [("inserts", this.inserts()), ("nesting", this.nesting()), ("leaning", this.leaning())];
        for (name, columns) in all {
            dict.set_item(name, columns.rows(py)?)?;
        }
        Ok(Dict(dict))
    }

    fn __str__(&self) -> String {
        cut_day::splices(&self.core, self.units)
    }

    fn __repr__(&self) -> String {
        format!("<Splices of {} inserts>", self.core.posts.len())
    }

    fn _repr_html_(&self) -> String {
        html::splices(&self.core, self.units)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        part_of(py, &self.plan, "splices")
    }
}

const NAMES: [&str; 10] = [
    "roof_width_mm",
    "roof_too_wide_mm",
    "middle_to_left_mm",
    "fit",
    "splices_count",
    "fasteners_count",
    "fastener_spacing_mm",
    "fastener_n",
    "moment_n_mm",
    "notes",
];
