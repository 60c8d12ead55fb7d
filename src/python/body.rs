//! The class `Body`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::body::measures::BodyMeasures;
use crate::body::outline::CrossSection;
use crate::body::raise::RaisedBody;
use crate::body::survey::{Side, Survey};
use crate::plan::Evaluation as CoreEvaluation;
use crate::quantity::Kind;

use super::evaluation::part_of;
use super::input::{Arguments, Quantity};
use super::output::{Columns, Dict, Recipe};
use super::plan::Plan;
use super::tables;

/// How far a chord of a drawn outline may miss its arc, mm.
const MISS_MM: f64 = 0.5;

/// The shape of the body before and after the raise: cross-section, areas, volume, headroom. Cannot be changed.
///
/// The cross-section comes from heights and insets, with the roof in one arc, or from the chain of lines and arcs in the
/// plan's ``survey.outline``. Volume and skins are those of a prism: the section runs through from the rear to the front
/// face, so that the rounding of end caps is not taken off, and the end faces are no part of the skins.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> body = rb.Plan.read("examples/workshop_bus.toml").evaluate().body
///     >>> round(body.frontal_area_after_m2 - body.frontal_area_before_m2, 3)  # 2.40 m wide, 0.25 m up
///     0.6
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Body {
    plan: Plan,
    core: BodyMeasures,
    survey: Survey,
    raised: RaisedBody,
}

impl Body {
    pub fn new(plan: Plan, e: &CoreEvaluation) -> Self {
        Self { plan, core: e.body, survey: e.survey.clone(), raised: e.raised.clone() }
    }

    fn section(&self, raised: bool) -> &CrossSection {
        if raised { &self.raised.section } else { &self.survey.section }
    }
}

#[pymethods]
impl Body {
    /// Height above the ground that frontal areas are counted from, mm.
    #[getter]
    fn skirt_mm(&self) -> f64 {
        self.core.skirt_mm
    }

    /// Width of the aisle at whose edge headroom is told, mm.
    #[getter]
    fn aisle_mm(&self) -> f64 {
        self.core.aisle_mm
    }

    /// Frontal area before, m2, without wheels below the clearance and fittings on the roof.
    #[getter]
    fn frontal_area_before_m2(&self) -> f64 {
        self.core.before.frontal_area_m2
    }

    /// Frontal area after, m2.
    #[getter]
    fn frontal_area_after_m2(&self) -> f64 {
        self.core.after.frontal_area_m2
    }

    /// Outside volume above the floor before, m3, end caps as if the section ran through to both faces.
    #[getter]
    fn enclosed_volume_before_m3(&self) -> f64 {
        self.core.before.enclosed_volume_m3
    }

    /// Outside volume above the floor after, m3; sloped ends count by half.
    #[getter]
    fn enclosed_volume_after_m3(&self) -> f64 {
        self.core.after.enclosed_volume_m3
    }

    /// Both sides up to the drip rail before, m2, from where the outline begins, openings included.
    #[getter]
    fn side_skin_before_m2(&self) -> f64 {
        self.core.before.side_skin_m2
    }

    /// Both sides up to the drip rail after, m2.
    #[getter]
    fn side_skin_after_m2(&self) -> f64 {
        self.core.after.side_skin_m2
    }

    /// Roof from drip rail to drip rail, m2; the raise does not change it.
    #[getter]
    fn roof_skin_m2(&self) -> f64 {
        self.core.before.roof_skin_m2
    }

    /// Clear height over the edge of the aisle as it stands, mm; None where a side stands in the way.
    #[getter]
    fn aisle_headroom_before_mm(&self) -> Option<f64> {
        self.core.before.aisle_headroom_mm
    }

    /// Clear height over the edge of the aisle after, floor and ceiling built up, mm.
    #[getter]
    fn aisle_headroom_after_mm(&self) -> Option<f64> {
        self.core.after.aisle_headroom_mm
    }

    /// The cross-section before, from the foot of the left side over the crown to that of the right: y_mm (right is
    /// negative), z_mm. No chord misses its arc by more than 0.5 mm.
    #[getter]
    fn outline_before(&self) -> Columns {
        points(self.section(false))
    }

    /// The cross-section after, where the roof is raised.
    #[getter]
    fn outline_after(&self) -> Columns {
        points(self.section(true))
    }

    /// Lines and arcs of the cross-section before, from the foot up to the crown: side, kind, ends, radius_mm (NaN for a
    /// line), length_mm.
    #[getter]
    fn pieces(&self) -> Columns {
        tables::pieces(self.section(false))
    }

    /// Where the outline changes its direction by more than 1 degree: side, y_mm, z_mm, turn_deg (positive turns inwards,
    /// going up).
    #[getter]
    fn kinks(&self) -> Columns {
        tables::kinks(self.section(false))
    }

    /// Features of the survey, and the rub rail of a side that has its own: name, kind, side, bottom_mm, top_mm, rear_mm,
    /// front_mm.
    #[getter]
    fn features(&self) -> Columns {
        tables::features(&self.survey.features)
    }

    /// Distance from the centre line to a side at a height above the ground.
    ///
    /// Args:
    ///     height: Above the ground, such as ``"2 m"``.
    ///     side: ``"left"`` or ``"right"``, facing forward.
    ///     raised: After the raise rather than before it.
    ///
    /// Returns:
    ///     The distance, mm; that of the foot below the outline, 0 above the crown.
    ///
    /// Raises:
    ///     InputError: There is no such side.
    ///     QuantityError: The height has no unit, or one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> body = rb.Plan.read("examples/workshop_bus.toml").evaluate().body
    ///     >>> body.half_width_mm("2 m")
    ///     1200.0
    #[pyo3(signature = (height, /, *, side = "left", raised = false))]
    fn half_width_mm(&self, height: Quantity<'_>, side: &str, raised: bool) -> PyResult<f64> {
        let mut given = Arguments::default();
        let height_mm = given.quantity("height", Kind::Length, &height)?;
        given.readable()?;
        let side: Side = side.parse()?;
        Ok(self.section(raised).half(side).half_width_mm(height_mm))
    }

    /// The values and tables by name; None for what is not known.
    pub fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, this) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in NAMES {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        let all = [
            ("outline_before", this.outline_before()),
            ("outline_after", this.outline_after()),
            ("pieces", this.pieces()),
            ("kinks", this.kinks()),
            ("features", this.features()),
        ];
        for (name, columns) in all {
            dict.set_item(name, columns.rows(py)?)?;
        }
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let (before, after) = (self.core.before, self.core.after);
        format!(
            "<Body frontal area {:.2} to {:.2} m2, volume {:.1} to {:.1} m3>",
            before.frontal_area_m2, after.frontal_area_m2, before.enclosed_volume_m3, after.enclosed_volume_m3
        )
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        part_of(py, &self.plan, "body")
    }
}

fn points(section: &CrossSection) -> Columns {
    Columns::of(section.points_mm(MISS_MM)).number("y_mm", |p| p.0).number("z_mm", |p| p.1).done()
}

const NAMES: [&str; 11] = [
    "skirt_mm",
    "aisle_mm",
    "frontal_area_before_m2",
    "frontal_area_after_m2",
    "enclosed_volume_before_m3",
    "enclosed_volume_after_m3",
    "side_skin_before_m2",
    "side_skin_after_m2",
    "roof_skin_m2",
    "aisle_headroom_before_mm",
    "aisle_headroom_after_mm",
];
