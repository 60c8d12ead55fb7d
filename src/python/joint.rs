//! The classes `Sheet` and `BlindRivet`.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::catalogue::Catalogue;
use crate::mechanics::{joint as core, sheet};
use crate::quantity::Kind;

use super::input::{Arguments, Quantity, Whole};
use super::output::{Dict, Recipe};

/// Reads like the call, and is the recipe for pickling: a class and its keyword arguments.
pub(super) fn call_with(kwargs: &Bound<'_, PyDict>, class: &str) -> PyResult<String> {
    let mut parts = Vec::new();
    for (name, value) in kwargs {
        parts.push(format!("{name}={}", value.repr()?));
    }
    Ok(format!("{class}({})", parts.join(", ")))
}

pub(super) fn rebuilt<'py>(
    py: Python<'py>,
    class: &Bound<'py, PyAny>,
    kwargs: Bound<'py, PyDict>,
) -> PyResult<Recipe<'py>> {
    let call = py.import("copyreg")?.getattr("__newobj_ex__")?;
    let with = PyTuple::new(py, [class.clone(), PyTuple::empty(py).into_any(), kwargs.into_any()])?;
    Ok(Recipe { call, with })
}

/// Sets the keyword arguments that are there.
macro_rules! given {
    ($py:expr, $($name:literal = $value:expr),* $(,)?) => {{
        let dict = PyDict::new($py);
        $(if let Some(value) = $value { dict.set_item($name, value)?; })*
        dict
    }};
}
pub(super) use given;

/// A sheet as ordered, by gauge and grade, or as measured and certified. Cannot be changed.
///
/// Args:
///     gauge: Gauge number; the coating or the metal decides the series.
///     thickness: Measured or certified thickness, coating included, such as ``"1.2 mm"``; in place of the gauge.
///     coating: Coating designation, such as ``"A40"`` or ``"G90"``.
///     grade: Grade, such as ``"SS33"``.
///     fy: Yield strength from a certificate or coupon, such as ``"250 MPa"``.
///     fu: Tensile strength from a certificate or coupon.
///
/// Raises:
///     InputError: Unknown gauge, coating or grade (the nearest known is named); sizes that no sheet has; gauge and
///         thickness together, or neither.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> from raisedbody import Sheet
///     >>> sheet = Sheet(gauge=18, coating="A40", grade="SS33")
///     >>> round(sheet.thickness_mm, 3), sheet.fu_mpa
///     (1.311, 310.0)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Sheet {
    order: sheet::SheetOrder,
    pub core: sheet::Sheet,
}

impl Sheet {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let o = &self.order;
        Ok(given!(
            py,
            "gauge" = o.gauge,
            "thickness" = o.thickness_mm.map(|v| Kind::Length.print(v)),
            "coating" = o.coating.as_deref(),
            "grade" = o.grade.as_deref(),
            "fy" = o.fy_mpa.map(|v| Kind::Pressure.print(v)),
            "fu" = o.fu_mpa.map(|v| Kind::Pressure.print(v)),
        ))
    }
}

#[pymethods]
impl Sheet {
    #[new]
    #[pyo3(signature = (*, gauge = None, thickness = None, coating = None, grade = None, fy = None, fu = None))]
    fn new(
        gauge: Option<Whole<u32>>,
        thickness: Option<Quantity<'_>>,
        coating: Option<String>,
        grade: Option<String>,
        fy: Option<Quantity<'_>>,
        fu: Option<Quantity<'_>>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let order = sheet::SheetOrder {
            gauge: gauge.map(|own| own.0),
            thickness_mm: given.optional("thickness", Kind::Length, thickness.as_ref())?,
            coating,
            grade,
            fy_mpa: given.optional("fy", Kind::Pressure, fy.as_ref())?,
            fu_mpa: given.optional("fu", Kind::Pressure, fu.as_ref())?,
        };
        given.readable()?;
        let catalogue = Catalogue::standard()?;
        let core = sheet::Sheet::new(&order, &catalogue, "").map_err(|problems| given.refused(problems))?;
        Ok(Self { order, core })
    }

    /// What to call it: ``"18 ga A40 SS33"``.
    #[getter]
    fn label(&self) -> &str {
        &self.core.label
    }

    /// The metal.
    #[getter]
    fn material(&self) -> &str {
        &self.core.material
    }

    /// Nominal thickness, coating included, mm.
    #[getter]
    fn thickness_mm(&self) -> f64 {
        self.core.thickness_mm
    }

    /// Least thickness, coating included, mm: as measured, or what the ordered gauge's tolerance permits; None where no
    /// tolerance is published.
    #[getter]
    fn least_mm(&self) -> Option<f64> {
        self.core.least_mm
    }

    /// Thickness of the metal under the coating, mm.
    #[getter]
    fn base_mm(&self) -> f64 {
        self.core.base_mm
    }

    /// Thickness that strengths are worked with, mm: reduced where the gauge's tolerance exceeds 5 %.
    #[getter]
    fn design_mm(&self) -> f64 {
        self.core.design_mm
    }

    /// Mass, kg/m2.
    #[getter]
    fn areal_mass_kg_m2(&self) -> f64 {
        self.core.areal_mass_kg_m2
    }

    /// Yield strength, MPa; None where the grade guarantees none and none is given.
    #[getter]
    fn fy_mpa(&self) -> Option<f64> {
        self.core.fy_mpa
    }

    /// Tensile strength, MPa; None where the grade guarantees none and none is given.
    #[getter]
    fn fu_mpa(&self) -> Option<f64> {
        self.core.fu_mpa
    }

    /// Coating on each side if its least mass is split evenly, um; None for a bare sheet.
    #[getter]
    fn coating_um(&self) -> Option<f64> {
        self.core.coating.as_ref().map(|c| c.even_um)
    }

    /// Coating on the thinner side that the standard still permits, um; None for a bare sheet.
    #[getter]
    fn coating_least_um(&self) -> Option<f64> {
        self.core.coating.as_ref().map(|c| c.least_um)
    }

    /// How its numbers are known, at the weakest.
    #[getter]
    fn standing(&self) -> &str {
        self.core.standing.words()
    }

    /// The values by name, each ending in its unit; None for what is not known.
    pub(super) fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("label", self.label())?;
        dict.set_item("material", self.material())?;
        dict.set_item("thickness_mm", self.thickness_mm())?;
        dict.set_item("least_mm", self.least_mm())?;
        dict.set_item("base_mm", self.base_mm())?;
        dict.set_item("design_mm", self.design_mm())?;
        dict.set_item("areal_mass_kg_m2", self.areal_mass_kg_m2())?;
        dict.set_item("fy_mpa", self.fy_mpa())?;
        dict.set_item("fu_mpa", self.fu_mpa())?;
        dict.set_item("coating_um", self.coating_um())?;
        dict.set_item("coating_least_um", self.coating_least_um())?;
        dict.set_item("standing", self.standing())?;
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Sheet")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// A blind rivet in its hole: a product of the catalogue, or values of your own. Cannot be changed.
///
/// Args:
///     diameter: Nominal diameter, such as ``"6.4 mm"`` or ``"1/4 in"``.
///     product: Product standard, such as ``"ISO 15976"``; values given here replace its values.
///     shear: Least shear load of one rivet, such as ``"3600 N"``.
///     tension: Least tension load of one rivet.
///     head: Head diameter.
///     hole: Hole as drilled; the product's smallest where left out.
///     sealed: Closed end: no water passes the core.
///     structural: Locked mandrel.
///     body: Metal of the body, such as ``"steel"``; taken for aluminium, the weaker, where it is not known.
///     countersunk: Countersunk head, which no rule set here covers.
///
/// Raises:
///     InputError: Unknown product or size (the known ones are named); a hole that is missing or smaller than the
///         rivet; loads or sizes that no rivet has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> from raisedbody import BlindRivet
///     >>> BlindRivet("6.4 mm", product="ISO 15976").shear_n
///     3600.0
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct BlindRivet {
    order: core::RivetOrder,
    pub core: core::BlindRivet,
}

impl BlindRivet {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let o = &self.order;
        let length = |v: Option<f64>| v.map(|v| Kind::Length.print(v));
        let force = |v: Option<f64>| v.map(|v| Kind::Force.print(v));
        Ok(given!(
            py,
            "diameter" = length(Some(o.diameter_mm)),
            "product" = o.product.as_deref(),
            "shear" = force(o.shear_n),
            "tension" = force(o.tension_n),
            "head" = length(o.head_mm),
            "hole" = length(o.hole_mm),
            "sealed" = o.sealed,
            "structural" = o.structural,
            "body" = o.body.as_deref(),
            "countersunk" = o.countersunk,
        ))
    }
}

#[pymethods]
impl BlindRivet {
    #[new]
    #[pyo3(signature = (
        diameter, *, product = None, shear = None, tension = None, head = None, hole = None, sealed = None,
        structural = None, body = None, countersunk = None
    ))]
    #[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
    fn new(
        diameter: Quantity<'_>,
        product: Option<String>,
        shear: Option<Quantity<'_>>,
        tension: Option<Quantity<'_>>,
        head: Option<Quantity<'_>>,
        hole: Option<Quantity<'_>>,
        sealed: Option<bool>,
        structural: Option<bool>,
        body: Option<String>,
        countersunk: Option<bool>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let order = core::RivetOrder {
            diameter_mm: given.quantity("diameter", Kind::Length, &diameter)?,
            product,
            shear_n: given.optional("shear", Kind::Force, shear.as_ref())?,
            tension_n: given.optional("tension", Kind::Force, tension.as_ref())?,
            head_mm: given.optional("head", Kind::Length, head.as_ref())?,
            hole_mm: given.optional("hole", Kind::Length, hole.as_ref())?,
            sealed,
            structural,
            body,
            countersunk,
        };
        given.readable()?;
        let catalogue = Catalogue::standard()?;
        let core = core::BlindRivet::new(&order, &catalogue, "").map_err(|problems| given.refused(problems))?;
        Ok(Self { order, core })
    }

    /// What to call it.
    #[getter]
    fn label(&self) -> &str {
        &self.core.label
    }

    /// Nominal diameter, mm.
    #[getter]
    fn diameter_mm(&self) -> f64 {
        self.core.diameter_mm
    }

    /// Hole, mm.
    #[getter]
    fn hole_mm(&self) -> f64 {
        self.core.hole_mm
    }

    /// Head diameter, mm; None where not known.
    #[getter]
    fn head_mm(&self) -> Option<f64> {
        self.core.head_mm
    }

    /// Least shear load of one rivet, N; None where not known.
    #[getter]
    fn shear_n(&self) -> Option<f64> {
        self.core.shear_n
    }

    /// Least tension load of one rivet, N; None where not known.
    #[getter]
    fn tension_n(&self) -> Option<f64> {
        self.core.tension_n
    }

    /// Closed end: no water passes the core.
    #[getter]
    fn sealed(&self) -> bool {
        self.core.sealed
    }

    /// Locked mandrel.
    #[getter]
    fn structural(&self) -> bool {
        self.core.structural
    }

    /// Countersunk head.
    #[getter]
    fn countersunk(&self) -> bool {
        self.core.countersunk
    }

    /// Metal of the body; None where not known.
    #[getter]
    fn body(&self) -> Option<&str> {
        self.core.body.as_deref()
    }

    /// How its numbers are known, at the weakest.
    #[getter]
    fn standing(&self) -> &str {
        self.core.standing.words()
    }

    /// The values by name, each ending in its unit; None for what is not known.
    pub(super) fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("label", self.label())?;
        dict.set_item("diameter_mm", self.diameter_mm())?;
        dict.set_item("hole_mm", self.hole_mm())?;
        dict.set_item("head_mm", self.head_mm())?;
        dict.set_item("shear_n", self.shear_n())?;
        dict.set_item("tension_n", self.tension_n())?;
        dict.set_item("sealed", self.sealed())?;
        dict.set_item("structural", self.structural())?;
        dict.set_item("body", self.body())?;
        dict.set_item("countersunk", self.countersunk())?;
        dict.set_item("standing", self.standing())?;
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "BlindRivet")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}
