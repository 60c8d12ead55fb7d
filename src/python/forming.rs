//! The classes `Bend`, `Springback`, `ThreeRoll`, `RollSetting` and `Frustum`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::catalogue::Catalogue;
use crate::check::significant;
use crate::mechanics::forming as core;
use crate::quantity::Kind;

use super::input::{Arguments, Quantity, Real, Whole, optional_real, whole};
use super::joint::{call_with, given, rebuilt};
use super::output::{Columns, Dict, Recipe};
use super::report::check_columns;

fn length(mm: f64) -> String {
    Kind::Length.print(mm)
}

/// Sets the getters of these names.
pub(super) fn to_dict<'py, T: pyo3::PyClass>(slf: &Bound<'py, T>, names: &[&str]) -> PyResult<Dict<'py>> {
    let dict = PyDict::new(slf.py());
    for name in names {
        dict.set_item(name, slf.as_any().getattr(*name)?)?;
    }
    Ok(Dict(dict))
}

/// A bend in sheet: how much it takes, how sharp it may be. Cannot be changed.
///
/// The neutral axis keeps its length; it lies K thicknesses from the inside face. K is your own, or out of the table of the
/// metal (Machinery's Handbook, restated by a secondary text), or 0.5 for an inside radius of 20 thicknesses and more (from
/// memory). Between table and rule nothing is extrapolated.
///
/// Args:
///     thickness: The sheet, such as ``"1.2 mm"``.
///     radius: Inside radius, such as ``"0.120 in"``.
///     angle: How far it turns: ``"90 deg"`` for a square corner.
///     k: Your own K, from a test bend, 0.2 to 0.5; in place of table and rule.
///     material: The metal, a name of the catalogue's material table.
///
/// Raises:
///     InputError: Sizes that no bend has; an unknown metal; a bend that neither table nor rule covers, without a K.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> bend = rb.Bend(thickness="0.060 in", radius="0.120 in", angle="90 deg")
///     >>> bend.k, round(bend.allowance_mm / 25.4, 4)
///     (0.463, 0.2321)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Bend {
    core: core::Bend,
    k: Option<f64>,
    material: String,
}

const BEND: [&str; 10] = [
    "thickness_mm",
    "radius_mm",
    "angle_deg",
    "k",
    "allowance_mm",
    "setback_mm",
    "deduction_mm",
    "outer_strain",
    "source",
    "standing",
];

#[pymethods]
impl Bend {
    #[new]
    #[pyo3(signature = (*, thickness, radius, angle, k = None, material = "carbon steel"))]
    fn new(
        thickness: Quantity<'_>,
        radius: Quantity<'_>,
        angle: Quantity<'_>,
        k: Option<Real>,
        material: &str,
    ) -> PyResult<Self> {
        let k = k.map(|own| own.0);
        let mut given = Arguments::default();
        let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
        let radius_mm = given.quantity("radius", Kind::Length, &radius)?;
        let angle_deg = given.quantity("angle", Kind::Angle, &angle)?;
        given.readable()?;
        let catalogue = Catalogue::standard()?;
        let core = core::Bend::new(&catalogue, material, thickness_mm, radius_mm, angle_deg, k)
            .map_err(|problems| given.refused(problems))?;
        Ok(Self { core, k, material: material.to_owned() })
    }

    /// Thickness of the sheet, mm.
    #[getter]
    fn thickness_mm(&self) -> f64 {
        self.core.thickness_mm
    }

    /// Inside radius, mm.
    #[getter]
    fn radius_mm(&self) -> f64 {
        self.core.radius_mm
    }

    /// How far it turns, degrees.
    #[getter]
    fn angle_deg(&self) -> f64 {
        self.core.angle_deg
    }

    /// Neutral axis from the inside face, in thicknesses.
    #[getter]
    fn k(&self) -> f64 {
        self.core.axis.k
    }

    /// Bend allowance, the sheet in the bend, mm: BA = (π/180) A (R + K t).
    #[getter]
    fn allowance_mm(&self) -> f64 {
        self.core.allowance_mm()
    }

    /// Outside setback, from the tangent point to where the outside faces would meet, mm: (R + t) tan(A/2); None from 180
    /// degrees on.
    #[getter]
    fn setback_mm(&self) -> Option<f64> {
        self.core.setback_mm()
    }

    /// Bend deduction, mm: 2 OSSB - BA, what two outside dimensions together exceed the flat by; None from 180 degrees on.
    #[getter]
    fn deduction_mm(&self) -> Option<f64> {
        self.core.deduction_mm()
    }

    /// Stretch of the outer face: 1 / (1 + 2 R/t).
    #[getter]
    fn outer_strain(&self) -> f64 {
        self.core.strain()
    }

    /// Where K comes from.
    #[getter]
    fn source(&self) -> &str {
        &self.core.axis.source
    }

    /// How firmly K is known.
    #[getter]
    fn standing(&self) -> &str {
        self.core.axis.standing.words()
    }

    /// The inside radius against the sharpest bend of a grade or of a coating (from memory).
    ///
    /// Args:
    ///     of: A grade such as ``"SS33"``, or ``"zinc coating"`` or ``"zinc-iron coating"``.
    ///
    /// Returns:
    ///     The check, with the columns of `Report.table`; not assessed where nothing is known of that grade in this thickness.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> bend = rb.Bend(thickness="1.2 mm", radius="1.5 mm", angle="90 deg", k=0.42)
    ///     >>> [str(verdict) for verdict in bend.check("SS33")["verdict"]]
    ///     ['fails']
    #[pyo3(signature = (of, /))]
    fn check(&self, of: &str) -> PyResult<Columns> {
        Ok(check_columns(&[self.core.radius_check(Catalogue::standard()?.as_ref(), of)]))
    }

    /// The values by name, each ending in its unit.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        to_dict(slf, &BEND)
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Bend")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

impl Bend {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        Ok(given!(
            py,
            "thickness" = Some(length(self.core.thickness_mm)),
            "radius" = Some(length(self.core.radius_mm)),
            "angle" = Some(Kind::Angle.print(self.core.angle_deg)),
            "k" = self.k,
            "material" = Some(&self.material),
        ))
    }
}

/// Sharpest inside radius by the reduction of area in a tension test, mm: t (50/r - 1), not below nought (from memory).
///
/// Args:
///     thickness: The sheet.
///     reduction: Reduction of area, such as ``"40 %"``.
///
/// Returns:
///     The radius, mm.
///
/// Raises:
///     InputError: A thickness that no sheet has; a reduction outside 1 to 100 %.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.least_bend_radius_mm("2 mm", "25 %")
///     2.0
#[pyfunction]
#[pyo3(signature = (thickness, reduction))]
pub(super) fn least_bend_radius_mm(thickness: Quantity<'_>, reduction: Quantity<'_>) -> PyResult<f64> {
    let mut given = Arguments::default();
    let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
    let share = given.quantity("reduction", Kind::Ratio, &reduction)?;
    given.readable()?;
    core::least_radius_by_reduction_mm(thickness_mm, 100.0 * share).map_err(|problems| given.refused(problems))
}

/// Springback of sheet bent far past yield. Cannot be changed.
///
/// R_i / R_f = 4 x³ - 3 x + 1 with x = R_i Y / (E t), from forming handbooks; R_i is the radius under load, R_f the one that
/// is left. It holds for x from 0 to 0.5; at 0.5 the sheet is bent elastically and springs back flat, beyond it is refused.
/// Wide sheet bends in plane strain, with E / (1 - ν²) and 1.15 Y (from memory).
///
/// Args:
///     thickness: Metal of the sheet.
///     fy: Yield strength. A grade's least one understates springback, as real sheet is stronger: a coupon's is better.
///     modulus: Modulus of elasticity, such as ``"205 GPa"``.
///     poisson: Poisson's ratio, for sheet wide against its thickness; None for a strip free to narrow.
///
/// Raises:
///     InputError: A size, strength or ratio that no sheet has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> strip = rb.Springback(thickness="0.9 mm", fy="250 MPa", modulus="205 GPa", poisson=None)
///     >>> round(strip.final_mm("38 mm"), 2)
///     44.91
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Springback {
    core: core::Springback,
}

impl Springback {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let stress = |mpa: f64| Kind::Pressure.print(mpa);
        Ok(given!(
            py,
            "thickness" = Some(length(self.core.thickness_mm)),
            "fy" = Some(stress(self.core.fy_mpa)),
            "modulus" = Some(stress(self.core.modulus_mpa)),
            "poisson" = Some(self.core.poisson),
        ))
    }

    fn at(
        &self,
        radius: &Quantity<'_>,
        of: impl Fn(&core::Springback, f64) -> Result<f64, crate::error::Problem>,
    ) -> PyResult<f64> {
        let mut given = Arguments::default();
        let radius_mm = given.quantity("radius", Kind::Length, radius)?;
        given.readable()?;
        of(&self.core, radius_mm).map_err(|problem| given.refused(vec![problem]))
    }
}

#[pymethods]
impl Springback {
    #[new]
    #[pyo3(signature = (*, thickness, fy, modulus, poisson: "SupportsFloat | SupportsIndex | None" = 0.3))]
    fn new(
        thickness: Quantity<'_>,
        fy: Quantity<'_>,
        modulus: Quantity<'_>,
        #[pyo3(from_py_with = optional_real)] poisson: Option<f64>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let core = core::Springback {
            thickness_mm: given.quantity("thickness", Kind::Length, &thickness)?,
            fy_mpa: given.quantity("fy", Kind::Pressure, &fy)?,
            modulus_mpa: given.quantity("modulus", Kind::Pressure, &modulus)?,
            poisson,
        };
        given.readable()?;
        core.validate().map_err(|problems| given.refused(problems))?;
        Ok(Self { core })
    }

    /// Metal of the sheet, mm.
    #[getter]
    fn thickness_mm(&self) -> f64 {
        self.core.thickness_mm
    }

    /// Yield strength, MPa.
    #[getter]
    fn fy_mpa(&self) -> f64 {
        self.core.fy_mpa
    }

    /// Modulus of elasticity, MPa.
    #[getter]
    fn modulus_mpa(&self) -> f64 {
        self.core.modulus_mpa
    }

    /// Poisson's ratio; None for a strip free to narrow.
    #[getter]
    fn poisson(&self) -> Option<f64> {
        self.core.poisson
    }

    /// The radius that a bend opens to when it is let go, mm.
    ///
    /// Args:
    ///     radius: Inside radius under load.
    ///
    /// Raises:
    ///     InputError: A radius that no bend has, or so gentle that the sheet springs back flat.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (radius, /))]
    fn final_mm(&self, radius: Quantity<'_>) -> PyResult<f64> {
        self.at(&radius, core::Springback::final_mm)
    }

    /// The radius to bend to under load for one that is wanted, mm: the formula inverted numerically.
    ///
    /// Args:
    ///     radius: Inside radius that is to be left.
    ///
    /// Raises:
    ///     InputError: A radius that no bend has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> strip = rb.Springback(thickness="0.9 mm", fy="230 MPa", modulus="205 GPa", poisson=None)
    ///     >>> round(strip.loaded_mm("150 mm"), 2)
    ///     96.77
    #[pyo3(signature = (radius, /))]
    fn loaded_mm(&self, radius: Quantity<'_>) -> PyResult<f64> {
        self.at(&radius, core::Springback::loaded_mm)
    }

    /// How much gentler the final radius is for each MPa more of yield strength, mm.
    ///
    /// Args:
    ///     radius: Inside radius under load.
    ///
    /// Raises:
    ///     InputError: A radius that no bend has, or so gentle that the sheet springs back flat.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (radius, /))]
    fn final_mm_per_mpa(&self, radius: Quantity<'_>) -> PyResult<f64> {
        self.at(&radius, core::Springback::final_mm_per_mpa)
    }

    /// The values by name, each ending in its unit.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        to_dict(slf, &["thickness_mm", "fy_mpa", "modulus_mpa", "poisson"])
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Springback")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// A three-roll bender of the pyramid kind. Cannot be changed.
///
/// Geometry of a circle on two rolls: the top roll travels U = S - √(S² - (a/2)²) after it touches the flat sheet, S = R_o + r_L.
/// Its own size does not enter, but a bend under load is never sharper than it.
///
/// Args:
///     lower_radius: Radius of the lower rolls.
///     spacing: Middle of one lower roll to the middle of the other.
///     top_radius: Radius of the top roll.
///
/// Raises:
///     InputError: Rolls that no bender has; lower rolls that touch.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rolls = rb.ThreeRoll(lower_radius="25 mm", spacing="70 mm", top_radius="30 mm")
///     >>> round(rolls.travel_mm("150 mm", "0.9 mm"), 3)
///     3.517
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct ThreeRoll {
    core: core::ThreeRoll,
}

impl ThreeRoll {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        Ok(given!(
            py,
            "lower_radius" = Some(length(self.core.lower_radius_mm)),
            "spacing" = Some(length(self.core.spacing_mm)),
            "top_radius" = Some(length(self.core.top_radius_mm)),
        ))
    }
}

#[pymethods]
impl ThreeRoll {
    #[new]
    #[pyo3(signature = (*, lower_radius, spacing, top_radius))]
    fn new(lower_radius: Quantity<'_>, spacing: Quantity<'_>, top_radius: Quantity<'_>) -> PyResult<Self> {
        let mut given = Arguments::default();
        let core = core::ThreeRoll {
            lower_radius_mm: given.quantity("lower_radius", Kind::Length, &lower_radius)?,
            spacing_mm: given.quantity("spacing", Kind::Length, &spacing)?,
            top_radius_mm: given.quantity("top_radius", Kind::Length, &top_radius)?,
        };
        given.readable()?;
        core.validate().map_err(|problems| given.refused(problems))?;
        Ok(Self { core })
    }

    /// Radius of the lower rolls, mm.
    #[getter]
    fn lower_radius_mm(&self) -> f64 {
        self.core.lower_radius_mm
    }

    /// Middle of one lower roll to the middle of the other, mm.
    #[getter]
    fn spacing_mm(&self) -> f64 {
        self.core.spacing_mm
    }

    /// Radius of the top roll, mm.
    #[getter]
    fn top_radius_mm(&self) -> f64 {
        self.core.top_radius_mm
    }

    /// Sheet that stays flat at each end, mm: about half the spacing.
    #[getter]
    fn flat_mm(&self) -> f64 {
        self.core.flat_mm()
    }

    /// What to do about the flats.
    #[getter]
    fn flats_advice(&self) -> String {
        self.core.flats_advice()
    }

    /// Travel of the top roll after it touches the flat sheet, mm.
    ///
    /// Args:
    ///     radius: Inside radius under load.
    ///     thickness: The sheet.
    ///
    /// Raises:
    ///     InputError: A radius that this bender does not reach; sizes that no sheet has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (radius, thickness))]
    fn travel_mm(&self, radius: Quantity<'_>, thickness: Quantity<'_>) -> PyResult<f64> {
        let mut given = Arguments::default();
        let radius_mm = given.quantity("radius", Kind::Length, &radius)?;
        let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
        given.readable()?;
        self.core.travel_mm(radius_mm, thickness_mm).map_err(|problems| given.refused(problems))
    }

    /// Inside radius under load for a travel of the top roll after touching, mm: R_o + r_L = (U² + (a/2)²) / (2 U).
    ///
    /// Args:
    ///     travel: How far the top roll is pressed down after it touches the flat sheet.
    ///     thickness: The sheet.
    ///
    /// Raises:
    ///     InputError: A travel that no bend of this bender has; sizes that no sheet has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (travel, thickness))]
    fn radius_mm(&self, travel: Quantity<'_>, thickness: Quantity<'_>) -> PyResult<f64> {
        let mut given = Arguments::default();
        let travel_mm = given.quantity("travel", Kind::Length, &travel)?;
        let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
        given.readable()?;
        self.core.radius_mm(travel_mm, thickness_mm).map_err(|problems| given.refused(problems))
    }

    /// How to set the rolls for the radius that is to be left.
    ///
    /// Args:
    ///     radius: Inside radius that is wanted.
    ///     thickness: The whole sheet, coating included.
    ///     springback: How the sheet springs back.
    ///
    /// Returns:
    ///     Radius under load, travel, and how they move with each other.
    ///
    /// Raises:
    ///     InputError: A radius that this bender does not reach in this sheet.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> rolls = rb.ThreeRoll(lower_radius="25 mm", spacing="70 mm", top_radius="30 mm")
    ///     >>> sheet = rb.Springback(thickness="0.9 mm", fy="230 MPa", modulus="205 GPa", poisson=None)
    ///     >>> setting = rolls.setting("150 mm", thickness="0.9 mm", springback=sheet)
    ///     >>> round(setting.loaded_mm, 2), round(setting.travel_mm, 2), round(setting.radius_per_tenth_mm, 1)
    ///     (96.77, 5.1, 5.5)
    #[pyo3(signature = (radius, *, thickness, springback))]
    fn setting(
        &self,
        radius: Quantity<'_>,
        thickness: Quantity<'_>,
        springback: PyRef<'_, Springback>,
    ) -> PyResult<RollSetting> {
        let mut given = Arguments::default();
        let radius_mm = given.quantity("radius", Kind::Length, &radius)?;
        let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
        given.readable()?;
        let core =
            self.core.setting(radius_mm, thickness_mm, &springback.core).map_err(|problems| given.refused(problems))?;
        Ok(RollSetting { rolls: self.clone(), springback: springback.clone(), thickness_mm, core })
    }

    /// The values by name, each ending in its unit.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        to_dict(slf, &["lower_radius_mm", "spacing_mm", "top_radius_mm", "flat_mm", "flats_advice"])
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "ThreeRoll")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// How to set a three-roll bender for a radius; `ThreeRoll.setting` makes it. Cannot be changed.
///
/// Roll a strip of the same coil first: the yield strength decides, and a certificate tells it better than a grade.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct RollSetting {
    rolls: ThreeRoll,
    springback: Springback,
    thickness_mm: f64,
    core: core::RollSetting,
}

#[pymethods]
impl RollSetting {
    /// Inside radius that is wanted, mm.
    #[getter]
    fn final_mm(&self) -> f64 {
        self.core.final_mm
    }

    /// Inside radius under load to roll to, mm.
    #[getter]
    fn loaded_mm(&self) -> f64 {
        self.core.loaded_mm
    }

    /// Travel of the top roll after it touches the flat sheet, mm.
    #[getter]
    fn travel_mm(&self) -> f64 {
        self.core.travel_mm
    }

    /// Final radius lost for each 0.1 mm more of travel, mm.
    #[getter]
    fn radius_per_tenth_mm(&self) -> f64 {
        self.core.radius_per_tenth_mm
    }

    /// Travel for each mm less of final radius, mm.
    #[getter]
    fn travel_per_mm(&self) -> f64 {
        self.core.travel_per_mm
    }

    /// How much gentler the final radius is for each MPa more of yield strength at this setting, mm.
    #[getter]
    fn radius_per_mpa_mm(&self) -> f64 {
        self.core.radius_per_mpa_mm
    }

    /// Sheet that stays flat at each end, mm.
    #[getter]
    fn flat_mm(&self) -> f64 {
        self.core.flat_mm
    }

    /// The values by name, each ending in its unit.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let names = [
            "final_mm",
            "loaded_mm",
            "travel_mm",
            "radius_per_tenth_mm",
            "travel_per_mm",
            "radius_per_mpa_mm",
            "flat_mm",
        ];
        to_dict(slf, &names)
    }

    fn __repr__(&self) -> String {
        let c = &self.core;
        let (final_mm, loaded, travel) = (significant(c.final_mm), significant(c.loaded_mm), significant(c.travel_mm));
        format!("<RollSetting for {final_mm} mm: roll to {loaded} mm, travel {travel} mm>")
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let kwargs = given!(
            py,
            "radius" = Some(length(self.core.final_mm)),
            "thickness" = Some(length(self.thickness_mm)),
            "springback" = Some(Bound::new(py, self.springback.clone())?),
        );
        Recipe::of_method(&Bound::new(py, self.rolls.clone())?, "setting", &kwargs)
    }
}

/// A right cone frustum, or a part of one, and its flat. Cannot be changed.
///
/// Geometry: slant s = √(h² + (R - r)²), arcs s R / |R - r| and s r / |R - r|, angle A |R - r| / s.
///
/// Args:
///     bottom_radius: Mean radius of the lower edge: inside radius and half the sheet.
///     top_radius: Mean radius of the upper edge.
///     height: Upright height.
///     angle: How far it goes round: ``"360 deg"`` for the whole.
///
/// Raises:
///     InputError: Sizes that no frustum has; equal radii, which make a cylinder.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> cone = rb.Frustum(bottom_radius="300 mm", top_radius="200 mm", height="500 mm", angle="360 deg")
///     >>> round(cone.slant_mm, 2), round(cone.bottom_arc_mm, 2), round(cone.developed_angle_deg, 2)
///     (509.9, 1529.71, 70.6)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Frustum {
    core: core::Frustum,
}

impl Frustum {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        Ok(given!(
            py,
            "bottom_radius" = Some(length(self.core.bottom_radius_mm)),
            "top_radius" = Some(length(self.core.top_radius_mm)),
            "height" = Some(length(self.core.height_mm)),
            "angle" = Some(Kind::Angle.print(self.core.angle_deg)),
        ))
    }
}

#[pymethods]
impl Frustum {
    #[new]
    #[pyo3(signature = (*, bottom_radius, top_radius, height, angle))]
    fn new(
        bottom_radius: Quantity<'_>,
        top_radius: Quantity<'_>,
        height: Quantity<'_>,
        angle: Quantity<'_>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let core = core::Frustum {
            bottom_radius_mm: given.quantity("bottom_radius", Kind::Length, &bottom_radius)?,
            top_radius_mm: given.quantity("top_radius", Kind::Length, &top_radius)?,
            height_mm: given.quantity("height", Kind::Length, &height)?,
            angle_deg: given.quantity("angle", Kind::Angle, &angle)?,
        };
        given.readable()?;
        core.validate().map_err(|problems| given.refused(problems))?;
        Ok(Self { core })
    }

    /// Along the cone, mm.
    #[getter]
    fn slant_mm(&self) -> f64 {
        self.core.slant_mm()
    }

    /// Radius of the lower edge in the flat, mm.
    #[getter]
    fn bottom_arc_mm(&self) -> f64 {
        self.core.bottom_arc_mm()
    }

    /// Radius of the upper edge in the flat, mm.
    #[getter]
    fn top_arc_mm(&self) -> f64 {
        self.core.top_arc_mm()
    }

    /// Angle of the flat, degrees.
    #[getter]
    fn developed_angle_deg(&self) -> f64 {
        self.core.developed_angle_deg()
    }

    /// Chord of the lower edge in the flat, mm.
    #[getter]
    fn bottom_chord_mm(&self) -> f64 {
        self.core.bottom_chord_mm()
    }

    /// Chord of the upper edge in the flat, mm.
    #[getter]
    fn top_chord_mm(&self) -> f64 {
        self.core.top_chord_mm()
    }

    /// Ordinates to scribe both edges through.
    ///
    /// Args:
    ///     parts: Equal parts of the angle, 1 to 1000.
    ///
    /// Returns:
    ///     A row for each line across: bottom_x_mm, bottom_y_mm, top_x_mm, top_y_mm; x from the middle, y from the chord of the
    ///     lower edge towards the upper edge.
    ///
    /// Raises:
    ///     InputError: Parts outside 1 to 1000.
    #[pyo3(signature = (parts: "SupportsIndex" = 12))]
    fn ordinates(&self, #[pyo3(from_py_with = whole)] parts: i64) -> PyResult<Columns> {
        let mut given = Arguments::default();
        let count = given.count("parts", Whole(parts));
        crate::mechanics::sheet::in_range("parts", Some(f64::from(count)), (1.0, 1000.0), "")
            .map_err(|problem| given.refused(vec![problem]))?;
        Ok(Columns::of(self.core.points(count as usize))
            .number("bottom_x_mm", |p| p.bottom_mm[0])
            .number("bottom_y_mm", |p| p.bottom_mm[1])
            .number("top_x_mm", |p| p.top_mm[0])
            .number("top_y_mm", |p| p.top_mm[1])
            .done())
    }

    /// The values by name, each ending in its unit.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let names =
            ["slant_mm", "bottom_arc_mm", "top_arc_mm", "developed_angle_deg", "bottom_chord_mm", "top_chord_mm"];
        to_dict(slf, &names)
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Frustum")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}
