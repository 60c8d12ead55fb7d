//! The classes `Spacing`, `Wander` and `InterRivet`, and the function `wander`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::catalogue::Catalogue;
use crate::check::{Standing, significant};
use crate::error::Problem;
use crate::mechanics::joint::inter_rivet::{self, Bending, EndFixity};
use crate::mechanics::joint::spacing::{self as core, Compression, Distance, Family, Layout, MeasuredHole, Seam, Side};
use crate::mechanics::joint::{EDGE_MM, PITCH_MM, STRENGTH_MPA};
use crate::mechanics::sheet::in_range;
use crate::quantity::Kind;

use super::input::{Arguments, Quantity, Real, Several, optional_real};
use super::joint::{call_with, given, rebuilt};
use super::output::{Columns, Dict, Many, Recipe};
use super::report::check_columns;

/// What the core calls the fields of a compressed sheet, and what the caller does.
const COMPRESSION: [(&str, &str); 4] = [
    ("compression.stress", "compression_stress"),
    ("compression.fy", "fy"),
    ("compression.modulus", "modulus"),
    ("compression.flat_width", "flat_width"),
];

/// How close and how far apart the rivets of one line may stand, by every rule that has a say. Cannot be changed.
///
/// Rules made for plate can ask the impossible of sheet; `conflicts` names those that no distance can keep together.
/// `compression_stress`, `fy`, `modulus` and `flat_width` go together, for a sheet that is pressed along the line.
///
/// Args:
///     diameter: Rivet, such as ``"6.4 mm"`` or ``"1/4 in"``.
///     hole: Hole as drilled.
///     thickness: The thinner outside sheet.
///     pull: Which way the sheets pull: ``"across"`` the line, ``"along"`` it, or ``"both"``, which also stands for not
///         known.
///     pitch: Pitch, for rules that set the distance between lines by it.
///     countersunk: Countersunk heads.
///     exposed: Open to weather or spray.
///     bare_weathering_steel: Weathering steel left bare; otherwise painted or coated.
///     compression_stress: Compressive stress in the sheet under the design load, such as ``"100 MPa"``.
///     fy: Yield strength of the sheet.
///     modulus: Modulus of elasticity of the sheet, such as ``"205 GPa"``.
///     flat_width: Flat width of the narrowest free strip beside the line.
///     families: Whose rules: ``"EN 1993-1-3"``, ``"AISI S100"``, ``"EN 1993-1-8"``, ``"aircraft"``, ``"sealing"``; all
///         where left out.
///
/// Raises:
///     InputError: An unknown family or pull; some, but not all, of what a compressed sheet needs; sizes or strengths
///         that no riveted line has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> spacing = rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm", exposed=True,
///     ...                      families=["EN 1993-1-3", "EN 1993-1-8"])
///     >>> round(spacing.least_mm("pitch"), 3), round(spacing.most_mm("pitch"), 3)
///     (19.2, 16.8)
///     >>> len(spacing.conflicts)
///     2
#[pyclass(frozen, eq, module = "raisedbody")]
pub(super) struct Spacing {
    seam: Seam,
    families: Vec<Family>,
    bounds: Vec<core::Bound>,
}

impl PartialEq for Spacing {
    fn eq(&self, other: &Self) -> bool {
        // The bounds follow from these two.
        (&self.seam, &self.families) == (&other.seam, &other.families)
    }
}

impl Spacing {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let s = &self.seam;
        let length = |mm: f64| Kind::Length.print(mm);
        let stress = |mpa: f64| Kind::Pressure.print(mpa);
        Ok(given!(
            py,
            "diameter" = Some(length(s.diameter_mm)),
            "hole" = Some(length(s.hole_mm)),
            "thickness" = Some(length(s.thickness_mm)),
            "pull" = Some(s.pull.name()),
            "pitch" = s.pitch_mm.map(length),
            "countersunk" = Some(s.countersunk),
            "exposed" = Some(s.exposed),
            "bare_weathering_steel" = Some(s.bare_weathering_steel),
            "compression_stress" = s.compression.map(|c| stress(c.stress_mpa)),
            "fy" = s.compression.map(|c| stress(c.fy_mpa)),
            "modulus" = s.compression.map(|c| stress(c.modulus_mpa)),
            "flat_width" = s.compression.map(|c| length(c.flat_width_mm)),
            "families" = Some(self.families()),
        ))
    }

    /// The strictest of the rules that are required and cover this rivet, mm.
    fn strictest_mm(&self, distance: &str, side: Side) -> PyResult<Option<f64>> {
        let distance: Distance = distance.parse()?;
        let decisive: Vec<core::Bound> = self.bounds.iter().filter(|b| decides(b)).copied().collect();
        Ok(core::strictest(&decisive, distance, side).map(|b| b.mm))
    }
}

/// A requirement that covers rivets of this size.
fn decides(bound: &core::Bound) -> bool {
    bound.rule.binding && bound.covered
}

#[pymethods]
impl Spacing {
    #[new]
    #[pyo3(signature = (
        diameter, *, hole, thickness, pull = "both", pitch = None, countersunk = false, exposed = false,
        bare_weathering_steel = false, compression_stress = None, fy = None, modulus = None, flat_width = None,
        families = None
    ))]
    #[allow(clippy::too_many_arguments, clippy::fn_params_excessive_bools, reason = "keywords of their own in Python")]
    fn new(
        diameter: Quantity<'_>,
        hole: Quantity<'_>,
        thickness: Quantity<'_>,
        pull: &str,
        pitch: Option<Quantity<'_>>,
        countersunk: bool,
        exposed: bool,
        bare_weathering_steel: bool,
        compression_stress: Option<Quantity<'_>>,
        fy: Option<Quantity<'_>>,
        modulus: Option<Quantity<'_>>,
        flat_width: Option<Quantity<'_>>,
        families: Option<Several<String>>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let diameter_mm = given.quantity("diameter", Kind::Length, &diameter)?;
        let hole_mm = given.quantity("hole", Kind::Length, &hole)?;
        let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
        let pitch_mm = given.optional("pitch", Kind::Length, pitch.as_ref())?;
        let compression = [
            ("compression_stress", given.optional("compression_stress", Kind::Pressure, compression_stress.as_ref())?),
            ("fy", given.optional("fy", Kind::Pressure, fy.as_ref())?),
            ("modulus", given.optional("modulus", Kind::Pressure, modulus.as_ref())?),
            ("flat_width", given.optional("flat_width", Kind::Length, flat_width.as_ref())?),
        ];
        given.readable()?;
        let mut problems = Vec::new();
        let pull = pull.parse().map_err(|p| problems.push(p)).unwrap_or_default();
        let families = chosen(families.as_ref().map(|names| names.0.as_slice()), &mut problems);
        let compression = all_or_none(compression, &mut problems);
        let seam = Seam {
            pull,
            pitch_mm,
            countersunk,
            exposed,
            bare_weathering_steel,
            compression,
            ..Seam::new(diameter_mm, hole_mm, thickness_mm)
        };
        match core::bounds(&seam, &families) {
            Ok(bounds) if problems.is_empty() => Ok(Self { seam, families, bounds }),
            found => {
                problems.extend(found.err().unwrap_or_default());
                Err(given.refused_as(&COMPRESSION, problems))
            }
        }
    }

    /// Whose rules are asked.
    #[getter]
    fn families(&self) -> Many<&'static str> {
        Many(self.families.iter().map(|f| f.name()).collect())
    }

    /// Every rule: distance (``"pitch"``, ``"rows"``, ``"edge"``, ``"end"``), side (``"least"`` or ``"most"``), bound_mm,
    /// formula, family, clause, source, required (else a habit or a suggestion), covered (the rule is for rivets of this
    /// size), standing.
    #[getter]
    fn table(&self) -> Columns {
        Columns::of(&self.bounds)
            .text("distance", |b| b.rule.distance.name())
            .text("side", |b| b.rule.side.words())
            .number("bound_mm", |b| b.mm)
            .text("formula", |b| b.rule.formula)
            .text("family", |b| b.rule.book.family.name())
            .text("clause", |b| b.rule.book.clause)
            .text("source", |b| b.rule.book.source)
            .flag("required", |b| b.rule.binding)
            .flag("covered", |b| b.covered)
            .text("standing", |b| b.rule.book.standing.words())
            .done()
    }

    /// The least distance that keeps every required rule that covers this rivet.
    ///
    /// Args:
    ///     distance: ``"pitch"``, ``"rows"``, ``"edge"`` or ``"end"``.
    ///
    /// Returns:
    ///     The distance, mm; None where no such rule sets one.
    ///
    /// Raises:
    ///     InputError: An unknown distance.
    #[pyo3(signature = (distance, /))]
    fn least_mm(&self, distance: &str) -> PyResult<Option<f64>> {
        self.strictest_mm(distance, Side::Least)
    }

    /// The greatest distance that keeps every required rule that covers this rivet.
    ///
    /// Args:
    ///     distance: ``"pitch"``, ``"rows"``, ``"edge"`` or ``"end"``.
    ///
    /// Returns:
    ///     The distance, mm; None where no such rule sets one.
    ///
    /// Raises:
    ///     InputError: An unknown distance.
    #[pyo3(signature = (distance, /))]
    fn most_mm(&self, distance: &str) -> PyResult<Option<f64>> {
        self.strictest_mm(distance, Side::Most)
    }

    /// Every pair of required rules, both for rivets of this size, that no distance can keep together.
    #[getter]
    fn conflicts(&self) -> Many<String> {
        let found = core::conflicts(&self.bounds);
        Many(found.iter().filter(|c| decides(&c.least) && decides(&c.most)).map(ToString::to_string).collect())
    }

    /// Checks planned distances by every rule; those not given stay not assessed.
    ///
    /// A habit or a suggestion is not failed but pointed out. A greatest distance under a required least one, and a rule
    /// that does not cover rivets of this size, is outside its range.
    ///
    /// Args:
    ///     pitch: From rivet to rivet along the line; that of the spacing where left out.
    ///     rows: From line to line.
    ///     edge: From the line to the sheet's edge beside it.
    ///     end: From the last rivet to the sheet's end, along the line.
    ///
    /// Returns:
    ///     The checks, with the columns of `Report.table`.
    ///
    /// Raises:
    ///     InputError: A distance that no riveted line has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> spacing = rb.Spacing("6.4 mm", hole="6.5 mm", thickness="1.2 mm", families=["EN 1993-1-3"])
    ///     >>> checks = spacing.check(pitch="19 mm", edge="9.6 mm")
    ///     >>> dict(zip(checks["name"].tolist(), checks["verdict"].tolist()))["pitch, least"]
    ///     'fails'
    #[pyo3(signature = (*, pitch = None, rows = None, edge = None, end = None))]
    fn check(
        &self,
        pitch: Option<Quantity<'_>>,
        rows: Option<Quantity<'_>>,
        edge: Option<Quantity<'_>>,
        end: Option<Quantity<'_>>,
    ) -> PyResult<Columns> {
        let mut given = Arguments::default();
        let layout = Layout {
            pitch_mm: given.optional("pitch", Kind::Length, pitch.as_ref())?.or(self.seam.pitch_mm),
            rows_mm: given.optional("rows", Kind::Length, rows.as_ref())?,
            edge_mm: given.optional("edge", Kind::Length, edge.as_ref())?,
            end_mm: given.optional("end", Kind::Length, end.as_ref())?,
        };
        given.readable()?;
        layout.validate().map_err(|problems| given.refused(problems))?;
        // Rules on the distance of lines go by the pitch that is planned now.
        let seam = Seam { pitch_mm: layout.pitch_mm, ..self.seam.clone() };
        let bounds = core::bounds(&seam, &self.families).map_err(|problems| given.refused(problems))?;
        Ok(check_columns(&core::checks(&bounds, &layout)))
    }

    /// What was given, by name, and the rows of `table`.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let s = &self.seam;
        let dict = PyDict::new(py);
        dict.set_item("diameter_mm", s.diameter_mm)?;
        dict.set_item("hole_mm", s.hole_mm)?;
        dict.set_item("thickness_mm", s.thickness_mm)?;
        dict.set_item("pull", s.pull.name())?;
        dict.set_item("pitch_mm", s.pitch_mm)?;
        dict.set_item("countersunk", s.countersunk)?;
        dict.set_item("exposed", s.exposed)?;
        dict.set_item("bare_weathering_steel", s.bare_weathering_steel)?;
        dict.set_item("compression_stress_mpa", s.compression.map(|c| c.stress_mpa))?;
        dict.set_item("fy_mpa", s.compression.map(|c| c.fy_mpa))?;
        dict.set_item("modulus_mpa", s.compression.map(|c| c.modulus_mpa))?;
        dict.set_item("flat_width_mm", s.compression.map(|c| c.flat_width_mm))?;
        dict.set_item("families", self.families())?;
        dict.set_item("rules", self.table().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Spacing")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// The families of these names, each once; every family where none are named.
fn chosen(names: Option<&[String]>, problems: &mut Vec<Problem>) -> Vec<Family> {
    let Some(names) = names else { return Family::ALL.to_vec() };
    if names.is_empty() {
        let known = Family::ALL.map(Family::name).join("\", \"");
        problems
            .push(Problem::missing("families", format!("name one or more of \"{known}\", or leave it out for all")));
    }
    let named: Vec<Family> = names.iter().filter_map(|name| name.parse().map_err(|p| problems.push(p)).ok()).collect();
    Family::ALL.into_iter().filter(|family| named.contains(family)).collect()
}

/// What the rules for a compressed sheet need; a part of it is no use.
fn all_or_none(values: [(&'static str, Option<f64>); 4], problems: &mut Vec<Problem>) -> Option<Compression> {
    if let [(_, Some(stress_mpa)), (_, Some(fy_mpa)), (_, Some(modulus_mpa)), (_, Some(flat_width_mm))] = values {
        return Some(Compression { modulus_mpa, stress_mpa, fy_mpa, flat_width_mm });
    }
    if values.iter().any(|(_, value)| value.is_some()) {
        let fix = "a sheet in compression needs compression_stress, fy, modulus and flat_width; give all or none";
        let missing = values.iter().filter(|(_, value)| value.is_none());
        problems.extend(missing.map(|(name, _)| Problem::missing(*name, fix)));
    }
    None
}

/// What a measured line of holes leaves to a straight edge beside it; `wander` makes it. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Wander {
    holes: Vec<MeasuredHole>,
    edge_mm: f64,
    core: core::Wander,
}

#[pymethods]
impl Wander {
    /// Index of the hole nearest the edge, from 0 in the order given.
    #[getter]
    fn hole(&self) -> usize {
        self.core.hole
    }

    /// Where that hole is along the line, mm.
    #[getter]
    fn along_mm(&self) -> f64 {
        self.core.along_mm
    }

    /// Its distance to the edge as measured, mm.
    #[getter]
    fn least_mm(&self) -> f64 {
        self.core.least_mm
    }

    /// The distance of the hole farthest from the edge, mm.
    #[getter]
    fn most_mm(&self) -> f64 {
        self.core.most_mm
    }

    /// How wrong a measured distance can be, mm.
    #[getter]
    fn error_mm(&self) -> f64 {
        self.core.error_mm
    }

    /// The least edge distance that is certain, mm: as measured less the measuring error.
    #[getter]
    fn certain_mm(&self) -> f64 {
        self.core.certain_mm()
    }

    /// How much farther out the edge must run for every hole to have this edge distance for certain.
    ///
    /// Args:
    ///     edge: The edge distance, such as ``"12.8 mm"``.
    ///
    /// Returns:
    ///     The shift, mm; nought where every hole has it.
    ///
    /// Raises:
    ///     InputError: A distance that no sheet's edge has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (edge))]
    fn shift_mm(&self, edge: Quantity<'_>) -> PyResult<f64> {
        let mut given = Arguments::default();
        let edge_mm = given.quantity("edge", Kind::Length, &edge)?;
        given.readable()?;
        in_range("edge", Some(edge_mm), EDGE_MM, "mm").map_err(|problem| given.refused(vec![problem]))?;
        Ok(self.core.shift_mm(edge_mm))
    }

    /// Checks the hole nearest the edge by every rule on the least edge distance.
    ///
    /// Passes where even the worst measuring error leaves enough, fails where even the best does not; between the two the
    /// measurement cannot say. ``hole 1`` in the table is the first of the list.
    ///
    /// Args:
    ///     spacing: The rules.
    ///
    /// Returns:
    ///     The checks, with the columns of `Report.table`.
    #[pyo3(signature = (spacing))]
    fn check(&self, spacing: PyRef<'_, Spacing>) -> Columns {
        check_columns(&self.core.checks(&spacing.bounds))
    }

    /// The values by name, each ending in its unit.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("hole", self.hole())?;
        dict.set_item("along_mm", self.along_mm())?;
        dict.set_item("least_mm", self.least_mm())?;
        dict.set_item("most_mm", self.most_mm())?;
        dict.set_item("error_mm", self.error_mm())?;
        dict.set_item("certain_mm", self.certain_mm())?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let (holes, nearest, certain) = (self.holes.len(), self.hole(), significant(self.certain_mm()));
        format!("<Wander of {holes} holes: nearest the edge is holes[{nearest}], {certain} mm for certain>")
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let length = |mm: f64| Kind::Length.print(mm);
        let holes: Vec<(String, String)> = self.holes.iter().map(|h| (length(h.along_mm), length(h.off_mm))).collect();
        let kwargs = PyDict::new(py);
        kwargs.set_item("holes", holes)?;
        kwargs.set_item("edge", length(self.edge_mm))?;
        kwargs.set_item("error", length(self.error_mm()))?;
        Recipe::of_call("wander", &kwargs)
    }
}

/// The least edge distance over a line of holes that wander off it, as closely as they were measured.
///
/// Args:
///     holes: Each hole as a pair: along the line from its start, and off the line, above nought towards the edge.
///     edge: How far beside the straight line the sheet's edge runs.
///     error: The greatest error of a measured distance, both of the hole and of the edge.
///
/// Returns:
///     The hole nearest the edge and what it leaves.
///
/// Raises:
///     InputError: No hole; a place, an edge or an error that no riveted line has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> holes = [("0 mm", "0.2 mm"), ("100 mm", "1.5 mm"), ("200 mm", "-0.4 mm")]
///     >>> line = rb.wander(holes, edge="13 mm", error="0.5 mm")
///     >>> line.hole, line.least_mm, line.certain_mm
///     (1, 11.5, 11.0)
#[pyfunction]
#[pyo3(signature = (holes, *, edge, error))]
pub(super) fn wander(
    holes: Several<(Quantity<'_>, Quantity<'_>)>,
    edge: Quantity<'_>,
    error: Quantity<'_>,
) -> PyResult<Wander> {
    let mut given = Arguments::default();
    let mut measured = Vec::with_capacity(holes.0.len());
    for (i, (along, off)) in holes.0.iter().enumerate() {
        measured.push(MeasuredHole {
            along_mm: given.quantity(&format!("holes[{i}].along"), Kind::Length, along)?,
            off_mm: given.quantity(&format!("holes[{i}].off"), Kind::Length, off)?,
        });
    }
    let edge_mm = given.quantity("edge", Kind::Length, &edge)?;
    let error_mm = given.quantity("error", Kind::Length, &error)?;
    given.readable()?;
    let core = core::wander(&measured, edge_mm, error_mm).map_err(|problems| given.refused(problems))?;
    Ok(Wander { holes: measured, edge_mm, core })
}

/// A sheet that is pressed along a riveted line and bulges between rivets. Cannot be changed.
///
/// The formula is aircraft practice, from memory. Wrinkling, which drags the flange along, is not covered.
///
/// Args:
///     thickness: The sheet, such as ``"1.2 mm"``.
///     fy: Yield strength in compression, such as ``"350 MPa"``; caps the stress.
///     modulus: Modulus of elasticity, such as ``"205 GPa"``; that of carbon steel where left out, as an assumption.
///     fixity: How the rivets hold the sheet: ``"flat head"``, ``"spot weld"``, ``"round head"``,
///         ``"countersunk tension"``, ``"countersunk shear"`` or ``"hollow blind"``; the last, an assumption, where it,
///         `coefficient` and `effective_length` are left out.
///     coefficient: Your own coefficient of the column formula in place of `fixity`: 1 is hinged, 4 is clamped.
///     effective_length: Effective length in parts of the pitch, K, in place of `fixity`: the coefficient is 1 / K².
///     poisson: Poisson's ratio, for a sheet that bends as a wide plate; None for a strip free to narrow.
///
/// Raises:
///     InputError: An unknown fixity; more than one of fixity, coefficient and effective length; sizes or strengths that
///         no sheet has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> from raisedbody import InterRivet
///     >>> line = InterRivet(thickness="1.2 mm", fy="350 MPa", modulus="205 GPa", fixity="round head")
///     >>> round(line.stress_mpa("50 mm"), 1)
///     320.2
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct InterRivet {
    core: inter_rivet::InterRivet,
    /// Where the modulus comes from, if it was left out.
    modulus_source: Option<String>,
}

impl InterRivet {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let stress = |mpa: f64| Kind::Pressure.print(mpa);
        let (fixity, coefficient, effective_length) = match self.core.fixity {
            EndFixity::Own(c) => (None, Some(c), None),
            EndFixity::EffectiveLength(k) => (None, None, Some(k)),
            named => (Some(named.name()), None, None),
        };
        Ok(given!(
            py,
            "thickness" = Some(Kind::Length.print(self.core.thickness_mm)),
            "fy" = Some(stress(self.core.fy_mpa)),
            "modulus" = Some(stress(self.core.modulus_mpa)).filter(|_| self.modulus_source.is_none()),
            "fixity" = fixity,
            "coefficient" = coefficient,
            "effective_length" = effective_length,
            "poisson" = Some(self.poisson()),
        ))
    }

    fn in_mm(&self, pitch: &Quantity<'_>) -> PyResult<f64> {
        let mut given = Arguments::default();
        let pitch_mm = given.quantity("pitch", Kind::Length, pitch)?;
        given.readable()?;
        in_range("pitch", Some(pitch_mm), PITCH_MM, "mm").map_err(|problem| given.refused(vec![problem]))?;
        Ok(pitch_mm)
    }
}

#[pymethods]
impl InterRivet {
    #[new]
    #[pyo3(signature = (
        *, thickness, fy, modulus = None, fixity = None, coefficient = None, effective_length = None, poisson: "SupportsFloat | SupportsIndex | None" = 0.3
    ))]
    fn new(
        thickness: Quantity<'_>,
        fy: Quantity<'_>,
        modulus: Option<Quantity<'_>>,
        fixity: Option<&str>,
        coefficient: Option<Real>,
        effective_length: Option<Real>,
        #[pyo3(from_py_with = optional_real)] poisson: Option<f64>,
    ) -> PyResult<Self> {
        let [coefficient, effective_length] = [coefficient, effective_length].map(|given| given.map(|own| own.0));
        let mut given = Arguments::default();
        let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
        let fy_mpa = given.quantity("fy", Kind::Pressure, &fy)?;
        let modulus_mpa = given.optional("modulus", Kind::Pressure, modulus.as_ref())?;
        given.readable()?;
        let mut problems = Vec::new();
        let (fixity, called) = match (fixity, coefficient, effective_length) {
            (None, None, None) => (EndFixity::default(), "fixity"),
            (Some(name), None, None) => {
                (name.parse().map_err(|problem| problems.push(problem)).unwrap_or_default(), "fixity")
            }
            (None, Some(c), None) => (EndFixity::Own(c), "coefficient"),
            (None, None, Some(k)) => (EndFixity::EffectiveLength(k), "effective_length"),
            (name, Some(number), _) | (name, None, Some(number)) => {
                let value = name.map_or_else(|| number.to_string(), str::to_owned);
                let problem = "fixity, coefficient and effective_length say the same thing; give one of them";
                problems.push(Problem::contradiction("fixity", value, problem));
                (EndFixity::default(), "fixity")
            }
        };
        let catalogue = Catalogue::standard()?;
        let (modulus_mpa, modulus_source) = match modulus_mpa {
            Some(mpa) => (mpa, None),
            None => {
                let steel = catalogue.material("modulus", "carbon steel")?;
                (steel.modulus.mpa(), Some(format!("modulus of carbon steel, assumed: {}", steel.source)))
            }
        };
        let bending = poisson.map_or(Bending::Strip, Bending::Plate);
        let core = inter_rivet::InterRivet { fixity, bending, modulus_mpa, fy_mpa, thickness_mm };
        problems.extend(core.validate().err().unwrap_or_default());
        if problems.is_empty() {
            Ok(Self { core, modulus_source })
        } else {
            Err(given.refused_as(&[("fixity", called)], problems))
        }
    }

    /// Buckling stress between rivets, MPa: elastic, at most the yield strength.
    ///
    /// Near yield it is a little high: real sheet softens before it.
    ///
    /// Args:
    ///     pitch: Spacing of the rivets.
    ///
    /// Raises:
    ///     InputError: A pitch that no riveted line has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (pitch))]
    fn stress_mpa(&self, pitch: Quantity<'_>) -> PyResult<f64> {
        Ok(self.core.stress_mpa(self.in_mm(&pitch)?))
    }

    /// Elastic buckling stress between rivets, MPa, as if the sheet never yielded.
    ///
    /// Args:
    ///     pitch: Spacing of the rivets.
    ///
    /// Raises:
    ///     InputError: A pitch that no riveted line has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (pitch))]
    fn elastic_mpa(&self, pitch: Quantity<'_>) -> PyResult<f64> {
        Ok(self.core.elastic_mpa(self.in_mm(&pitch)?))
    }

    /// The largest pitch at which a stress does not buckle the sheet, mm.
    ///
    /// Args:
    ///     stress: Compressive stress in the sheet.
    ///
    /// Returns:
    ///     The pitch; None where the stress is above yield, so that no pitch helps.
    ///
    /// Raises:
    ///     InputError: A stress that is none.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> from raisedbody import InterRivet
    ///     >>> line = InterRivet(thickness="1.2 mm", fy="350 MPa", modulus="205 GPa", fixity="round head")
    ///     >>> round(line.pitch_mm("320.2 MPa"), 1), line.pitch_mm("360 MPa")
    ///     (50.0, None)
    #[pyo3(signature = (stress))]
    fn pitch_mm(&self, stress: Quantity<'_>) -> PyResult<Option<f64>> {
        let mut given = Arguments::default();
        let stress_mpa = given.quantity("stress", Kind::Pressure, &stress)?;
        given.readable()?;
        in_range("stress", Some(stress_mpa), (1e-3, STRENGTH_MPA.1), "MPa")
            .map_err(|problem| given.refused(vec![problem]))?;
        Ok(self.core.pitch_mm(stress_mpa))
    }

    /// Thickness of the sheet, mm.
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

    /// How the rivets hold the sheet; ``"own coefficient"`` or ``"effective length"`` where a number is given.
    #[getter]
    fn fixity(&self) -> &str {
        self.core.fixity.name()
    }

    /// The coefficient of the column formula: 1 is hinged, 4 is clamped.
    #[getter]
    fn coefficient(&self) -> f64 {
        self.core.fixity.coefficient()
    }

    /// Poisson's ratio; None for a strip free to narrow.
    #[getter]
    fn poisson(&self) -> Option<f64> {
        match self.core.bending {
            Bending::Plate(nu) => Some(nu),
            Bending::Strip => None,
        }
    }

    /// Where the coefficient comes from, and the modulus where it was left out.
    #[getter]
    fn source(&self) -> String {
        let fixity = self.core.fixity.source();
        self.modulus_source.as_ref().map_or_else(|| fixity.to_owned(), |modulus| format!("{fixity}; {modulus}"))
    }

    /// How firmly the stress is known, at the weakest: the formula is from memory, the coefficient may be weaker.
    #[getter]
    fn standing(&self) -> &str {
        let modulus = if self.modulus_source.is_some() { Standing::Assumed } else { Standing::Given };
        self.core.standing().with(modulus).words()
    }

    /// The values by name, each ending in its unit; None for what is not known.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("thickness_mm", self.thickness_mm())?;
        dict.set_item("fy_mpa", self.fy_mpa())?;
        dict.set_item("modulus_mpa", self.modulus_mpa())?;
        dict.set_item("fixity", self.fixity())?;
        dict.set_item("coefficient", self.coefficient())?;
        dict.set_item("poisson", self.poisson())?;
        dict.set_item("source", self.source())?;
        dict.set_item("standing", self.standing())?;
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "InterRivet")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}
