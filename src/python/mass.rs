//! The class `Mass`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::body::masses::Balance;
use crate::plan::{HeightRange, MassSummary};

use super::evaluation::part_of;
use super::output::{Dict, Recipe};
use super::plan::Plan;

/// What a raise does to weight, centre of gravity, axle loads and stability. Cannot be changed.
///
/// A pair is the result at the lower and at the upper bound of the height of the centre of gravity, which an empty bus
/// seldom tells. None stands for what the plan gives too little for.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Mass {
    pub plan: Plan,
    pub core: MassSummary,
}

type Pair = Option<(f64, f64)>;

fn heights(balance: Option<(Balance, Balance)>) -> Pair {
    balance.map(|(low, high)| (low.z_mm, high.z_mm))
}

fn pair(range: Option<HeightRange>) -> Pair {
    range.map(|r| (r.low, r.high))
}

#[pymethods]
impl Mass {
    /// All that is added, kg.
    #[getter]
    fn added_kg(&self) -> f64 {
        self.core.added_kg
    }

    /// All that is removed, kg.
    #[getter]
    fn removed_kg(&self) -> f64 {
        self.core.removed_kg
    }

    /// All that is moved (the roof), kg.
    #[getter]
    fn moved_kg(&self) -> f64 {
        self.core.moved_kg
    }

    /// New skin with its coats, kg.
    #[getter]
    fn skin_kg(&self) -> f64 {
        self.core.skin_kg
    }

    /// Fit-out, kg.
    #[getter]
    fn fit_out_kg(&self) -> f64 {
        self.core.fit_out_kg
    }

    /// How many times the fit-out outweighs the new skin; None without a fit-out.
    #[getter]
    fn fit_out_over_skin(&self) -> Option<f64> {
        self.core.fit_out_over_skin()
    }

    /// Whole mass before, kg.
    #[getter]
    fn before_kg(&self) -> Option<f64> {
        self.core.before.map(|b| b.0.mass_kg)
    }

    /// Whole mass after, kg.
    #[getter]
    fn after_kg(&self) -> Option<f64> {
        self.core.after.map(|b| b.0.mass_kg)
    }

    /// Height of the centre of gravity before, mm: a pair.
    #[getter]
    fn cg_height_before_mm(&self) -> Pair {
        heights(self.core.before)
    }

    /// Height of the centre of gravity after, mm: a pair.
    #[getter]
    fn cg_height_after_mm(&self) -> Pair {
        heights(self.core.after)
    }

    /// Centre of gravity before, mm forward of the rear face of the body.
    #[getter]
    fn cg_station_before_mm(&self) -> Option<f64> {
        self.core.before.map(|b| b.0.x_mm)
    }

    /// Centre of gravity after, mm forward of the rear face of the body.
    #[getter]
    fn cg_station_after_mm(&self) -> Option<f64> {
        self.core.after.map(|b| b.0.x_mm)
    }

    /// Centre of gravity after, mm left of the middle; the empty bus is taken as balanced.
    #[getter]
    fn cg_offset_after_mm(&self) -> Option<f64> {
        self.core.after.map(|b| b.0.y_mm)
    }

    /// Front and rear axle load before, kg.
    #[getter]
    fn axles_before_kg(&self) -> Pair {
        self.core.axles_before_kg
    }

    /// Front and rear axle load after, kg.
    #[getter]
    fn axles_after_kg(&self) -> Pair {
        self.core.axles_after_kg
    }

    /// Share of the mass on the left wheels after.
    #[getter]
    fn left_share_after(&self) -> Option<f64> {
        self.core.left_share_after
    }

    /// Static stability factor before, track / (2 height): a pair.
    #[getter]
    fn stability_factor_before(&self) -> Pair {
        pair(self.core.stability_before)
    }

    /// Static stability factor after: a pair.
    #[getter]
    fn stability_factor_after(&self) -> Pair {
        pair(self.core.stability_after)
    }

    /// Angle at which the rigid body tips before, degrees: a pair. Springs and tyres make the real angle smaller.
    #[getter]
    fn tilt_before_deg(&self) -> Pair {
        pair(self.core.tilt_before_deg)
    }

    /// Angle at which the rigid body tips after, degrees: a pair.
    #[getter]
    fn tilt_after_deg(&self) -> Pair {
        pair(self.core.tilt_after_deg)
    }

    /// Lean on the springs before, degrees for a lateral acceleration of 1 g: a pair. None where the plan gives no roll
    /// stiffness.
    #[getter]
    fn roll_rate_before_deg_g(&self) -> Pair {
        pair(self.core.roll_rate_before_deg_g)
    }

    /// Lean on the springs after: a pair. None too where the springs do not hold the vehicle upright.
    #[getter]
    fn roll_rate_after_deg_g(&self) -> Pair {
        pair(self.core.roll_rate_after_deg_g)
    }

    /// Steady lateral acceleration at which the inner wheels carry nothing, before, in g: a pair. Lash and tyre crush
    /// make the real one lower.
    #[getter]
    fn rollover_threshold_before_g(&self) -> Pair {
        pair(self.core.threshold_before_g)
    }

    /// Steady lateral acceleration at which the inner wheels carry nothing, after, in g: a pair.
    #[getter]
    fn rollover_threshold_after_g(&self) -> Pair {
        pair(self.core.threshold_after_g)
    }

    /// The values by name.
    pub fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(slf.py());
        for name in NAMES {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let kg = |v: Option<f64>| v.map_or("not known".to_owned(), |v| format!("{v:.0} kg"));
        format!(
            "<Mass added {:.0} kg, removed {:.0} kg, before {}, after {}>",
            self.core.added_kg,
            self.core.removed_kg,
            kg(self.before_kg()),
            kg(self.after_kg())
        )
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        part_of(py, &self.plan, "mass")
    }
}

const NAMES: [&str; 24] = [
    "added_kg",
    "removed_kg",
    "moved_kg",
    "skin_kg",
    "fit_out_kg",
    "fit_out_over_skin",
    "before_kg",
    "after_kg",
    "cg_height_before_mm",
    "cg_height_after_mm",
    "cg_station_before_mm",
    "cg_station_after_mm",
    "cg_offset_after_mm",
    "axles_before_kg",
    "axles_after_kg",
    "left_share_after",
    "stability_factor_before",
    "stability_factor_after",
    "tilt_before_deg",
    "tilt_after_deg",
    "roll_rate_before_deg_g",
    "roll_rate_after_deg_g",
    "rollover_threshold_before_g",
    "rollover_threshold_after_g",
];
