//! The class `Lift`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::plan::LiftSummary;

use super::evaluation::part_of;
use super::output::{Columns, Dict, Many, Recipe};
use super::plan::Plan;

/// The roof off its posts: what supports and braces carry at each step, and the wind at which work stops; `Evaluation.lift`
/// makes it. Cannot be changed.
///
/// Every number is a planning figure and none is a clearance. None stands for what the plan gives too little for, or for what
/// is refused.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> lift = rb.Plan.read("examples/mobile_library.toml").evaluate().lift
///     >>> lift.refusals, lift.missing
///     ((), ())
///     >>> lift.governing_wind_m_s <= lift.stop_wind_m_s
///     True
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Lift {
    plan: Plan,
    core: LiftSummary,
}

impl Lift {
    pub fn new(plan: Plan, core: LiftSummary) -> Self {
        Self { plan, core }
    }
}

#[pymethods]
impl Lift {
    /// Mass of the roof, kg; None where it is not in the plan.
    #[getter]
    fn roof_mass_kg(&self) -> Option<f64> {
        self.core.roof_mass_kg
    }

    /// Weight of the roof, N.
    #[getter]
    fn weight_n(&self) -> Option<f64> {
        self.core.weight_n
    }

    /// The roof's centre before the lift, mm: forward of the rear face, left of the middle, above the ground.
    #[getter]
    fn centre_mm(&self) -> (f64, f64, f64) {
        let [x, y, z] = self.core.centre_mm;
        (x, y, z)
    }

    /// Way from the roof's centre to the nearest edge of the supports' outline, over which it would tip, mm.
    #[getter]
    fn tipping_margin_mm(&self) -> Option<f64> {
        self.core.tipping_margin_mm
    }

    /// The planner's factor on every load.
    #[getter]
    fn factor(&self) -> f64 {
        self.core.factor
    }

    /// The largest wind at which everything holds at every step with the planner's factor, m/s.
    #[getter]
    fn stop_wind_m_s(&self) -> Option<f64> {
        self.core.stop_wind_m_s
    }

    /// What gives way first above that wind.
    #[getter]
    fn stopped_by(&self) -> Option<&str> {
        self.core.stopped_by.as_deref()
    }

    /// How far the roof is up when it does, mm.
    #[getter]
    fn stopped_at_mm(&self) -> Option<f64> {
        self.core.stopped_at_mm
    }

    /// The wind at which the planner stops, m/s.
    #[getter]
    fn planned_wind_m_s(&self) -> Option<f64> {
        self.core.planned_wind_m_s
    }

    /// The lower of the planner's wind and the one worked out, m/s.
    #[getter]
    fn governing_wind_m_s(&self) -> Option<f64> {
        self.core.governing_wind_m_s
    }

    /// The wind that the forces in the tables hold for, m/s: the planner's, else the one worked out.
    #[getter]
    fn forces_wind_m_s(&self) -> Option<f64> {
        self.core.forces_wind_m_s
    }

    /// What the wind is counted on.
    #[getter]
    fn counted(&self) -> &str {
        &self.core.counted
    }

    /// Why there is no number where there is none: refused.
    #[getter]
    fn refusals(&self) -> Many<String> {
        Many(self.core.refusals.clone())
    }

    /// Entries of the plan without which something is not assessed.
    #[getter]
    fn missing(&self) -> Many<String> {
        Many(self.core.missing.clone())
    }

    /// Each support in still air: name, x_mm, y_mm, even_n (equally stiff and level), greatest_n (in any sharing that statics
    /// allows), lag_n (greatest when any one lags) and lagging (which), drop_n (its greatest load dropped through the gap),
    /// capacity_n.
    #[getter]
    fn supports(&self) -> Columns {
        Columns::of(&self.core.supports)
            .text("name", |s| &s.name)
            .number("x_mm", |s| s.x_mm)
            .number("y_mm", |s| s.y_mm)
            .number("even_n", |s| s.even_n)
            .number("greatest_n", |s| s.greatest_n)
            .number("lag_n", |s| s.lag_n)
            .text("lagging", |s| s.lagging.clone().unwrap_or_default())
            .number("drop_n", |s| s.drop_n)
            .number("capacity_n", |s| s.capacity_n)
            .done()
    }

    /// Each step, from the roof just cut free: rise_mm, stop_wind_m_s, stopped_by, leaning_factor, sway_mm, and the greatest
    /// load of a support and force of a brace with their names, the planner's factor in them.
    #[getter]
    fn steps(&self) -> Columns {
        let name = |most: &Option<(String, f64)>| most.as_ref().map_or_else(String::new, |(name, _)| name.clone());
        let force = |most: &Option<(String, f64)>| most.as_ref().map(|(_, n)| *n);
        Columns::of(&self.core.steps)
            .number("rise_mm", |s| s.rise_mm)
            .number("stop_wind_m_s", |s| s.stop.as_ref().and_then(|stop| stop.wind_m_s))
            .text("stopped_by", |s| s.stop.as_ref().map_or_else(String::new, |stop| stop.words()))
            .number("leaning_factor", |s| s.leaning_factor)
            .number("sway_mm", |s| s.extremes.as_ref().map(|e| e.sway_mm))
            .text("support", |s| name(&s.greatest_support))
            .number("support_n", |s| force(&s.greatest_support))
            .text("brace", |s| name(&s.greatest_brace))
            .number("brace_n", |s| force(&s.greatest_brace))
            .done()
    }

    /// Each brace at each step: rise_mm, name, length_mm (it is hung anew at each step), angle_deg over the level, tension_n
    /// and compression_n with the planner's factor in them, and what they may be.
    #[getter]
    fn braces(&self) -> Columns {
        Columns::of(&self.core.braces)
            .number("rise_mm", |b| b.rise_mm)
            .text("name", |b| &b.name)
            .number("length_mm", |b| b.length_mm)
            .number("angle_deg", |b| b.angle_deg)
            .number("tension_n", |b| b.tension_n)
            .number("compression_n", |b| b.compression_n)
            .number("tension_capacity_n", |b| b.tension_capacity_n)
            .number("compression_capacity_n", |b| b.compression_capacity_n)
            .done()
    }

    /// All numbers and tables as plain values; None for what is not known.
    pub fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, this) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in [
            "roof_mass_kg",
            "weight_n",
            "centre_mm",
            "tipping_margin_mm",
            "factor",
            "stop_wind_m_s",
            "stopped_by",
            "stopped_at_mm",
            "planned_wind_m_s",
            "governing_wind_m_s",
            "forces_wind_m_s",
            "counted",
            "refusals",
            "missing",
        ] {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        for (name, columns) in [("supports", this.supports()), ("steps", this.steps()), ("braces", this.braces())] {
            dict.set_item(name, columns.rows(py)?)?;
        }
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let c = &self.core;
        let supports = c.supports.len();
        let wind = match (c.stop_wind_m_s, c.refusals.is_empty(), c.missing.is_empty()) {
            (_, false, _) => "refused".to_owned(),
            (_, _, false) => "stop-work wind not assessed".to_owned(),
            (Some(wind), ..) => format!("work stops at {wind} m/s"),
            (None, ..) => "does not hold in still air".to_owned(),
        };
        format!("<Lift on {supports} supports: {wind}>")
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        part_of(py, &self.plan, "lift")
    }
}
