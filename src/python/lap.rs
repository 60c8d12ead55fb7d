//! The class `Lap`.

use std::sync::Arc;

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::check::Level;
use crate::error::Problem;
use crate::mechanics::joint::turned::{LineLoad, Sheets};
use crate::mechanics::joint::{self as core, Choices, Demand, Loads, Method};
use crate::quantity::Kind;

use super::by_test::Tested;
use super::input::{Arguments, Quantity, Real, Several, Tuple, Whole, whole};
use super::joint::{BlindRivet, Sheet, call_with, given, rebuilt};
use super::output::{Dict, Recipe};
use super::report::{Answer, How, Report, Reports};
use super::turned::{Question, Turned};

/// Two sheets joined by a line of rivets, or by several lines side by side; a third may lie between. Cannot be changed.
///
/// Args:
///     outer: The sheet under the rivet's head.
///     inner: The other sheet, or the wall of a post as a sheet.
///     rivet: The rivet.
///     pitch: Spacing along the line, such as ``"4 1/4 in"``.
///     edge: The line to the sheet's edge, such as ``"5/8 in"``.
///     middle: A sheet between the two. Each pair of neighbours is then checked for the whole load in the plane: a load
///         that passes through from sheet to sheet. One pulled against both others carries the sum; enter that sum.
///     rows: Lines side by side, each at the same pitch.
///     row_spacing: From line to line; needed where there are several.
///     panel_edge: The line runs along a panel's edge, so that suction pulls on one side of the head only.
///     steady_tension: The load away from the sheets stays on, instead of coming and going as wind does.
///     lower_anchor: Reading of AISI S100 J4.3.1 between equal parts and a thick far part: ``"equal parts"``, the lower
///         one, or ``"real parts"``.
///     holes_may_stretch: Leave out AISI S100 J3.3.2, bearing with hole deformation considered.
///     handbook_bearing: Bearing strengths of the weaker sheet from a handbook, at edge distances of 1.5 and of 2.0
///         diameters, such as ``("600 MPa", "780 MPa")``; for the method ``"handbook bearing"``.
///
/// Raises:
///     InputError: A pitch, edge or spacing that no riveted line has; rows without their spacing.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> sheet = rb.Sheet(gauge=18, coating="A40", grade="SS33")
///     >>> rivet = rb.BlindRivet("6.4 mm", product="ISO 15976")
///     >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="4 1/4 in", edge="5/8 in")
///     >>> lap.pitch_mm
///     107.95
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Lap {
    outer: Sheet,
    middle: Option<Sheet>,
    inner: Sheet,
    rivet: BlindRivet,
    core: core::Lap,
}

impl Lap {
    pub(super) fn core(&self) -> &core::Lap {
        &self.core
    }

    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let (choices, default) = (self.core.choices, Choices::default());
        let length = |mm: f64| Kind::Length.print(mm);
        let flag = |on: bool| Some(on).filter(|&on| on);
        let pressures = |mpa: [f64; 2]| mpa.map(|mpa| Kind::Pressure.print(mpa));
        Ok(given!(
            py,
            "outer" = Some(self.outer.clone()),
            "inner" = Some(self.inner.clone()),
            "rivet" = Some(self.rivet.clone()),
            "pitch" = Some(length(self.core.pitch_mm)),
            "edge" = Some(length(self.core.edge_mm)),
            "middle" = self.middle.clone(),
            "rows" = Some(self.core.rows).filter(|&rows| rows > 1),
            "row_spacing" = self.core.row_spacing_mm.map(length),
            "panel_edge" = flag(choices.panel_edge),
            "steady_tension" = flag(choices.steady_tension),
            "lower_anchor" = Some(choices.lower_anchor).filter(|a| *a != default.lower_anchor).map(|a| a.name()),
            "holes_may_stretch" = flag(choices.holes_may_stretch),
            "handbook_bearing" = choices.handbook_bearing_mpa.map(pressures).map(|[near, far]| (near, far)),
        ))
    }

    /// The load of one rivet, given as such or per length of the line.
    fn demand(
        &self,
        given: &mut Arguments,
        shear: Option<&Quantity<'_>>,
        tension: Option<&Quantity<'_>>,
    ) -> PyResult<Demand> {
        let mut load = |name, quantity: Option<&Quantity<'_>>| -> PyResult<Option<(Kind, f64)>> {
            quantity.map_or(Ok(None), |quantity| given.one_of(name, &[Kind::Force, Kind::LineLoad], quantity))
        };
        let (shear, tension) = (load("shear", shear)?, load("tension", tension)?);
        Ok(Demand {
            shear_n: match shear {
                Some((Kind::LineLoad, n_mm)) => self.core.of_one_rivet_n(n_mm),
                Some((_, n)) => n,
                None => 0.0,
            },
            // Any one of several lines may be pulled by all of it.
            tension_n: match tension {
                Some((Kind::LineLoad, n_mm)) => n_mm * self.core.pitch_mm,
                Some((_, n)) => n,
                None => 0.0,
            },
        })
    }

    fn answer(&self, demand: Demand, how: How, report: core::Report) -> Arc<Answer> {
        Arc::new(Answer { lap: self.clone(), demand, how, report })
    }
}

fn line_load(
    given: &mut Arguments,
    shear: Option<&Quantity<'_>>,
    tension: Option<&Quantity<'_>>,
) -> PyResult<LineLoad> {
    let load = LineLoad {
        shear_n_mm: given.optional("shear", Kind::LineLoad, shear)?.unwrap_or(0.0),
        tension_n_mm: given.optional("tension", Kind::LineLoad, tension)?.unwrap_or(0.0),
    };
    given.readable()?;
    Ok(load)
}

#[pymethods]
impl Lap {
    #[new]
    #[pyo3(signature = (
        *, outer, inner, rivet, pitch, edge, middle = None, rows: "SupportsIndex" = 1, row_spacing = None, panel_edge = false,
        steady_tension = false, lower_anchor = "equal parts", holes_may_stretch = false, handbook_bearing = None
    ))]
    #[allow(clippy::too_many_arguments, clippy::fn_params_excessive_bools, reason = "each is a keyword in Python")]
    fn new(
        outer: PyRef<'_, Sheet>,
        inner: PyRef<'_, Sheet>,
        rivet: PyRef<'_, BlindRivet>,
        pitch: Quantity<'_>,
        edge: Quantity<'_>,
        middle: Option<PyRef<'_, Sheet>>,
        #[pyo3(from_py_with = whole)] rows: i64,
        row_spacing: Option<Quantity<'_>>,
        panel_edge: bool,
        steady_tension: bool,
        lower_anchor: &str,
        holes_may_stretch: bool,
        handbook_bearing: Option<Tuple<(Quantity<'_>, Quantity<'_>)>>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let pitch_mm = given.quantity("pitch", Kind::Length, &pitch)?;
        let edge_mm = given.quantity("edge", Kind::Length, &edge)?;
        let row_spacing_mm = given.optional("row_spacing", Kind::Length, row_spacing.as_ref())?;
        let rows = given.count("rows", Whole(rows));
        let handbook_bearing_mpa = match &handbook_bearing {
            Some(Tuple((near, far))) => Some([
                given.quantity("handbook_bearing", Kind::Pressure, near)?,
                given.quantity("handbook_bearing", Kind::Pressure, far)?,
            ]),
            None => None,
        };
        given.readable()?;
        let lower_anchor = lower_anchor.parse()?;
        let middle: Option<Sheet> = middle.map(|sheet| sheet.clone());
        let core = core::Lap {
            outer: outer.core.clone(),
            middle: middle.as_ref().map(|sheet| sheet.core.clone()),
            inner: inner.core.clone(),
            rivet: rivet.core.clone(),
            pitch_mm,
            edge_mm,
            rows,
            row_spacing_mm,
            choices: Choices { panel_edge, steady_tension, lower_anchor, holes_may_stretch, handbook_bearing_mpa },
        };
        core.validate().map_err(|problems| given.refused(problems))?;
        Ok(Self { outer: outer.clone(), middle, inner: inner.clone(), rivet: rivet.clone(), core })
    }

    /// The sheet under the rivet's head.
    #[getter]
    fn outer(&self) -> Sheet {
        self.outer.clone()
    }

    /// The sheet between the two; None where there is none.
    #[getter]
    fn middle(&self) -> Option<Sheet> {
        self.middle.clone()
    }

    /// The other sheet.
    #[getter]
    fn inner(&self) -> Sheet {
        self.inner.clone()
    }

    /// The rivet.
    #[getter]
    fn rivet(&self) -> BlindRivet {
        self.rivet.clone()
    }

    /// Spacing along the line, mm.
    #[getter]
    fn pitch_mm(&self) -> f64 {
        self.core.pitch_mm
    }

    /// The line to the sheet's edge, mm.
    #[getter]
    fn edge_mm(&self) -> f64 {
        self.core.edge_mm
    }

    /// Lines side by side.
    #[getter]
    fn rows(&self) -> u32 {
        self.core.rows
    }

    /// From line to line, mm; None where there is one.
    #[getter]
    fn row_spacing_mm(&self) -> Option<f64> {
        self.core.row_spacing_mm
    }

    /// The line runs along a panel's edge.
    #[getter]
    fn panel_edge(&self) -> bool {
        self.core.choices.panel_edge
    }

    /// The load away from the sheets stays on.
    #[getter]
    fn steady_tension(&self) -> bool {
        self.core.choices.steady_tension
    }

    /// Reading of AISI S100 J4.3.1.
    #[getter]
    fn lower_anchor(&self) -> &str {
        self.core.choices.lower_anchor.name()
    }

    /// AISI S100 J3.3.2 is left out.
    #[getter]
    fn holes_may_stretch(&self) -> bool {
        self.core.choices.holes_may_stretch
    }

    /// Bearing strengths from a handbook at edge distances of 1.5 and of 2.0 diameters, MPa; None where not given.
    #[getter]
    fn handbook_bearing_mpa(&self) -> Option<(f64, f64)> {
        self.core.choices.handbook_bearing_mpa.map(|[near, far]| (near, far))
    }

    /// Checks the lap by one rule set. Without a load the report still tells what the lap can carry.
    ///
    /// Args:
    ///     shear: Load in the plane of the sheets across the line: of one rivet, such as ``"900 N"``, or of the line,
    ///         such as ``"1.9 N/mm"``. A design load (factored) for EN, a service load for AISI S100, a factored load for
    ///         its LRFD, an ultimate load for handbook bearing.
    ///     tension: Load away from the sheets, given like `shear`. Each of several lines is checked for all of it.
    ///     method: ``"EN 1993-1-3"``, ``"EN 1999-1-4"`` (aluminium), ``"AISI S100"`` and ``"AISI S100 LRFD"`` (screw
    ///         rules, by analogy), ``"AISI S100 J3"`` and ``"AISI S100 J3 LRFD"`` (bolt bearing, by analogy) or
    ///         ``"handbook bearing"``.
    ///
    /// Returns:
    ///     The report.
    ///
    /// Raises:
    ///     InputError: A negative load, or an unknown method.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> sheet = rb.Sheet(gauge=18, coating="A40", grade="SS33")
    ///     >>> rivet = rb.BlindRivet("6.4 mm", product="ISO 15976", hole="17/64 in")
    ///     >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="4 1/4 in", edge="5/8 in")
    ///     >>> report = lap.check(shear="900 N", tension="150 N")
    ///     >>> report.verdict, report.governing.name, report.governing.reason
    ///     ("outside the rule's range", 'hole', 'needs a drill of at most 6.5 mm, or a test of the lap')
    #[pyo3(signature = (shear = None, tension = None, method = "EN 1993-1-3"))]
    fn check(&self, shear: Option<Quantity<'_>>, tension: Option<Quantity<'_>>, method: &str) -> PyResult<Report> {
        let method: Method = method.parse()?;
        let mut given = Arguments::default();
        let demand = self.demand(&mut given, shear.as_ref(), tension.as_ref())?;
        given.readable()?;
        let report = self.core.check(demand, method).map_err(|problems| given.refused(problems))?;
        Ok(Report(self.answer(demand, How::Rules, report)))
    }

    /// Checks the lap by several rule sets, side by side.
    ///
    /// Args:
    ///     methods: Names as `check` takes them.
    ///     shear: Load in the plane of the sheets, as `check` takes it.
    ///     tension: Load away from the sheets.
    ///     load_factor: Makes design, factored and ultimate loads of the given ones, which then are service loads. Needed
    ///         where the methods are at different levels; left out, the loads are at the level that all methods share.
    ///
    /// Returns:
    ///     A report for each method.
    ///
    /// Raises:
    ///     InputError: Methods at different levels without a load factor; no method; what `check` raises.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
    ///     >>> rivet = rb.BlindRivet("4.8 mm", product="ISO 16585")
    ///     >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="60 mm", edge="12 mm")
    ///     >>> reports = lap.check_by(["EN 1993-1-3", "AISI S100"], shear="400 N", load_factor=1.5)
    ///     >>> [(r.method, r.level, r.shear_n) for r in reports]
    ///     [('EN 1993-1-3', 'design', 600.0), ('AISI S100', 'allowable', 400.0)]
    #[pyo3(signature = (methods, *, shear = None, tension = None, load_factor = None))]
    fn check_by(
        &self,
        methods: Several<String>,
        shear: Option<Quantity<'_>>,
        tension: Option<Quantity<'_>>,
        load_factor: Option<Real>,
    ) -> PyResult<Reports> {
        let methods: Vec<Method> = methods.0.iter().map(|name| name.parse()).collect::<Result<_, Problem>>()?;
        let mut given = Arguments::default();
        let demand = self.demand(&mut given, shear.as_ref(), tension.as_ref())?;
        given.readable()?;
        let Some(first) = methods.first() else {
            return Err(Problem::missing("methods", "name at least one rule set, such as \"EN 1993-1-3\"").into());
        };
        let factored = match load_factor {
            Some(Real(factor)) if (1.0..=10.0).contains(&factor) => demand.times(factor),
            Some(Real(factor)) => return Err(Problem::out_of_range("load_factor", factor, "1 to 10").into()),
            None => {
                if let Some(other) = methods.iter().find(|m| m.level() != first.level()) {
                    let levels =
                        format!("{first} takes {} loads, {other} {}", first.level().words(), other.level().words());
                    return Err(Problem::missing("load_factor", format!("{levels}; levels are never mixed")).into());
                }
                demand
            }
        };
        let service = Some(demand).filter(|_| load_factor.is_some() || first.level() == Level::Allowable);
        let loads = Loads { service, design: Some(factored), factored: Some(factored), ultimate: Some(factored) };
        let reports = self.core.check_by(loads, &methods).map_err(|problems| given.refused(problems))?;
        let answers = reports.into_iter().map(|report| {
            let demand = if report.level == Level::Allowable { demand } else { factored };
            self.answer(demand, How::Rules, report)
        });
        Ok(Reports(answers.collect()))
    }

    /// Checks the lap by tests of like laps, so that what lies outside the tables gets an answer.
    ///
    /// A lap that falls short of the tested one in any size, or that is of other parts, is outside the tests' range. Unless
    /// the lap's tension is steady, half of a tested pull counts, as for repeated wind (EN 1993-1-3 Table 8.2, by analogy).
    ///
    /// Args:
    ///     tested: Tests in shear.
    ///     shear: Load in the plane of the sheets, as `check` takes it, at the level of the tests.
    ///     tension: Load away from the sheets.
    ///     tested_in_tension: Tests of heads pulled through like laps; without them a lap that is pulled is not assessed.
    ///
    /// Returns:
    ///     The report.
    ///
    /// Raises:
    ///     InputError: A negative load; tests at different levels.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (tested, *, shear = None, tension = None, tested_in_tension = None))]
    fn check_by_test(
        &self,
        tested: PyRef<'_, Tested>,
        shear: Option<Quantity<'_>>,
        tension: Option<Quantity<'_>>,
        tested_in_tension: Option<PyRef<'_, Tested>>,
    ) -> PyResult<Report> {
        let mut given = Arguments::default();
        let demand = self.demand(&mut given, shear.as_ref(), tension.as_ref())?;
        given.readable()?;
        let in_tension = tested_in_tension.as_ref().map(|tested| tested.core());
        let report =
            self.core.check_by_test(demand, tested.core(), in_tension).map_err(|problems| given.refused(problems))?;
        let how = How::Tests(Box::new((tested.clone(), tested_in_tension.map(|tested| tested.clone()))));
        Ok(Report(self.answer(demand, how, report)))
    }

    /// The largest pitch at which the lap carries a line load. Strength alone is asked; water and buckling between rivets
    /// set greatest spacings of their own: see `Spacing`.
    ///
    /// Args:
    ///     shear: Load in the plane of the sheets across the line, such as ``"20 N/mm"``.
    ///     tension: Load away from the sheets, such as ``"2 N/mm"``.
    ///     method: As `check` takes it.
    ///
    /// Returns:
    ///     The pitch, mm, and the check that stops it.
    ///
    /// Raises:
    ///     InputError: A negative load, or an unknown method.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> sheet = rb.Sheet(thickness="0.9 mm", fy="250 MPa", fu="360 MPa")
    ///     >>> rivet = rb.BlindRivet("4.8 mm", product="ISO 16585")
    ///     >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="12 mm")
    ///     >>> largest = lap.largest_pitch(shear="20 N/mm")
    ///     >>> round(largest.value, 2), largest.unit, largest.exact, largest.stopped_by
    ///     (96.97, 'mm', True, 'bearing')
    #[pyo3(signature = (shear = None, tension = None, method = "EN 1993-1-3"))]
    fn largest_pitch(
        &self,
        shear: Option<Quantity<'_>>,
        tension: Option<Quantity<'_>>,
        method: &str,
    ) -> PyResult<Turned> {
        let (method, mut given): (Method, _) = (method.parse()?, Arguments::default());
        let load = line_load(&mut given, shear.as_ref(), tension.as_ref())?;
        Turned::new(self, Question::LargestPitch(load), method, &given)
    }

    /// The smallest edge distance at which the lap carries its load.
    ///
    /// Args:
    ///     shear: Load in the plane of the sheets, as `check` takes it.
    ///     tension: Load away from the sheets.
    ///     method: As `check` takes it.
    ///
    /// Returns:
    ///     The distance, mm, and the check that stops it.
    ///
    /// Raises:
    ///     InputError: No load, a negative one, or an unknown method.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (shear = None, tension = None, method = "EN 1993-1-3"))]
    fn smallest_edge(
        &self,
        shear: Option<Quantity<'_>>,
        tension: Option<Quantity<'_>>,
        method: &str,
    ) -> PyResult<Turned> {
        let (method, mut given): (Method, _) = (method.parse()?, Arguments::default());
        let demand = self.demand(&mut given, shear.as_ref(), tension.as_ref())?;
        given.readable()?;
        Turned::new(self, Question::SmallestEdge(demand), method, &given)
    }

    /// The thinnest sheet with which the lap carries its load, as thickness of metal to count on (`Sheet.design_mm`).
    ///
    /// Args:
    ///     shear: Load in the plane of the sheets, as `check` takes it.
    ///     tension: Load away from the sheets.
    ///     method: As `check` takes it.
    ///     sheets: Which are made thinner: ``"outer"``, ``"inner"`` or ``"both"``, alike; a middle one stays as it is.
    ///
    /// Returns:
    ///     The thickness, mm, and the check that stops it.
    ///
    /// Raises:
    ///     InputError: A negative load, or an unknown method.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (shear = None, tension = None, method = "EN 1993-1-3", sheets = "both"))]
    fn thinnest_sheet(
        &self,
        shear: Option<Quantity<'_>>,
        tension: Option<Quantity<'_>>,
        method: &str,
        sheets: &str,
    ) -> PyResult<Turned> {
        let (method, sheets): (Method, Sheets) = (method.parse()?, sheets.parse()?);
        let mut given = Arguments::default();
        let demand = self.demand(&mut given, shear.as_ref(), tension.as_ref())?;
        given.readable()?;
        Turned::new(self, Question::ThinnestSheet(demand, sheets), method, &given)
    }

    /// The fewest lines of rivets, 10 at most, that carry a line load.
    ///
    /// Lines share the shear equally; each is checked for all of the tension.
    ///
    /// Args:
    ///     shear: Load in the plane of the sheets across the line, such as ``"60 N/mm"``.
    ///     tension: Load away from the sheets, such as ``"2 N/mm"``.
    ///     method: As `check` takes it.
    ///
    /// Returns:
    ///     The number of lines, and the check that stops one line fewer.
    ///
    /// Raises:
    ///     InputError: A negative load, or an unknown method.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (shear = None, tension = None, method = "EN 1993-1-3"))]
    fn fewest_rows(
        &self,
        shear: Option<Quantity<'_>>,
        tension: Option<Quantity<'_>>,
        method: &str,
    ) -> PyResult<Turned> {
        let (method, mut given): (Method, _) = (method.parse()?, Arguments::default());
        let load = line_load(&mut given, shear.as_ref(), tension.as_ref())?;
        Turned::new(self, Question::FewestRows(load), method, &given)
    }

    /// Parts and sizes by name.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("outer", self.outer.to_dict(py)?)?;
        dict.set_item("middle", self.middle.as_ref().map(|sheet| sheet.to_dict(py)).transpose()?)?;
        dict.set_item("inner", self.inner.to_dict(py)?)?;
        dict.set_item("rivet", self.rivet.to_dict(py)?)?;
        dict.set_item("pitch_mm", self.pitch_mm())?;
        dict.set_item("edge_mm", self.edge_mm())?;
        dict.set_item("rows", self.rows())?;
        dict.set_item("row_spacing_mm", self.row_spacing_mm())?;
        dict.set_item("panel_edge", self.panel_edge())?;
        dict.set_item("steady_tension", self.steady_tension())?;
        dict.set_item("lower_anchor", self.lower_anchor())?;
        dict.set_item("holes_may_stretch", self.holes_may_stretch())?;
        dict.set_item("handbook_bearing_mpa", self.handbook_bearing_mpa())?;
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Lap")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}
