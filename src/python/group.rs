//! The classes `RivetGroup`, `GroupForces` and `PlasticBounds`, and what pulls on a rivet away from the sheets.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::check::significant;
use crate::error::Problem;
use crate::mechanics::joint::group as core;
use crate::quantity::Kind;

use super::input::{Arguments, OneOrEach, Pair, Quantity, Several, Whole};
use super::joint::{call_with, given, rebuilt};
use super::output::{Columns, Dict, Many, Recipe};

/// A problem of the core under the name that the argument has here.
fn in_python(problem: Problem) -> Problem {
    let path = problem.path();
    let path = path.strip_prefix("load.").unwrap_or(path);
    let diameter = path.strip_prefix("rivets").and_then(|rest| rest.strip_suffix(".diameter"));
    let path = match diameter {
        Some(index) => format!("diameters{index}"),
        None => path.replacen("rivets", "places", 1).replacen("caps", "cap", 1),
    };
    problem.with_path(path)
}

fn refused(given: &Arguments, problems: Vec<Problem>) -> PyErr {
    given.refused(problems.into_iter().map(in_python).collect())
}

/// A place by its coordinates.
const PLACE: [(&str, Kind); 2] = [("x", Kind::Length), ("y", Kind::Length)];
/// A couple by one of its forces and the distance between the two.
const COUPLE: [(&str, Kind); 2] = [("force", Kind::Force), ("arm", Kind::Length)];

/// The load, once all that `given` holds is found readable.
fn load(
    given: &mut Arguments,
    x: Option<Quantity<'_>>,
    y: Option<Quantity<'_>>,
    at: Option<Pair<'_>>,
    couple: Option<Pair<'_>>,
) -> PyResult<core::InPlaneLoad> {
    let x_n = given.optional("x", Kind::Force, x.as_ref())?;
    let y_n = given.optional("y", Kind::Force, y.as_ref())?;
    let at_mm = at.map(|at| given.pair("at", PLACE, &at)).transpose()?;
    let couple = couple.map(|couple| given.pair("couple", COUPLE, &couple)).transpose()?;
    given.readable()?;
    if x_n.or(y_n).is_some() && at_mm.is_none() {
        let fix = "write a point on the line of the force, for example at=(\"100 mm\", \"0 mm\")";
        return Err(Problem::missing("at", fix).into());
    }
    if x_n.or(y_n).or(couple.map(|[force_n, _]| force_n)).is_none() {
        return Err(Problem::missing("load", "write the force the group carries as x and y, or a couple").into());
    }
    Ok(core::InPlaneLoad {
        x_n: x_n.unwrap_or_default(),
        y_n: y_n.unwrap_or_default(),
        at_mm: at_mm.unwrap_or_default(),
        couple_n_mm: couple.map_or(0.0, |[force_n, arm_mm]| force_n * arm_mm),
    })
}

fn lengths([x_mm, y_mm]: [f64; 2]) -> (String, String) {
    (Kind::Length.print(x_mm), Kind::Length.print(y_mm))
}

fn load_kwargs<'py>(py: Python<'py>, load: &core::InPlaneLoad) -> PyResult<Bound<'py, PyDict>> {
    let couple = Some(load.couple_n_mm).filter(|&couple_n_mm| couple_n_mm != 0.0);
    Ok(given!(
        py,
        "x" = Some(Kind::Force.print(load.x_n)),
        "y" = Some(Kind::Force.print(load.y_n)),
        "at" = Some(lengths(load.at_mm)),
        // The force that makes this couple on an arm of 1 mm.
        "couple" = couple.map(|n_mm| (Kind::Force.print(n_mm), Kind::Length.print(1.0))),
    ))
}

fn called_again<'py>(group: &RivetGroup, method: &str, kwargs: &Bound<'py, PyDict>) -> PyResult<Recipe<'py>> {
    let py = kwargs.py();
    let call = py.import("operator")?.getattr("methodcaller")?.call((method,), Some(kwargs))?;
    Ok(Recipe { call, with: PyTuple::new(py, [Bound::new(py, group.clone())?])? })
}

fn force_columns(group: &RivetGroup, forces: &[core::RivetForce]) -> Columns {
    Columns::of(group.places_mm.iter().zip(forces).enumerate())
        .count("index", |(i, _)| *i)
        .number("x_mm", |(_, (place, _))| place[0])
        .number("y_mm", |(_, (place, _))| place[1])
        .number("primary_x_n", |(_, (_, force))| force.primary_n[0])
        .number("primary_y_n", |(_, (_, force))| force.primary_n[1])
        .number("secondary_x_n", |(_, (_, force))| force.secondary_n[0])
        .number("secondary_y_n", |(_, (_, force))| force.secondary_n[1])
        .number("resultant_n", |(_, (_, force))| force.resultant_n())
        .done()
}

/// Rivets that share a load in the plane of the sheets. Cannot be changed.
///
/// Args:
///     places: x and y of each rivet, such as ``[("0 mm", "0 mm"), ("0 mm", "100 mm")]``.
///     diameters: Diameter of each rivet, which then is as stiff as its area; all are equally stiff where left out.
///
/// Raises:
///     InputError: No rivet, or more than 1000; two in one place; diameters that are not one for each; sizes that no
///         group has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///     TypeError: A place that is no pair.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> group = rb.RivetGroup([("0 mm", "0 mm"), ("0 mm", "100 mm"), ("0 mm", "200 mm"), ("0 mm", "300 mm")])
///     >>> forces = group.elastic(y="25 kN", at=("100 mm", "0 mm"))
///     >>> forces.worst, round(forces.worst_n, 1)
///     (0, 9762.8)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct RivetGroup {
    places_mm: Vec<[f64; 2]>,
    diameters_mm: Option<Vec<f64>>,
    core: core::RivetGroup,
}

impl RivetGroup {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let places: Vec<(String, String)> = self.places_mm.iter().copied().map(lengths).collect();
        let print = |mm: &Vec<f64>| mm.iter().map(|&mm| Kind::Length.print(mm)).collect::<Vec<_>>();
        Ok(given!(py, "places" = Some(places), "diameters" = self.diameters_mm.as_ref().map(print)))
    }
}

#[pymethods]
impl RivetGroup {
    #[new]
    #[pyo3(signature = (places, diameters = None))]
    fn new(places: Several<Pair<'_>>, diameters: Option<Several<Quantity<'_>>>) -> PyResult<Self> {
        let mut given = Arguments::default();
        let place = |(i, place)| given.pair(&format!("places[{i}]"), PLACE, place);
        let places_mm: Vec<[f64; 2]> = places.0.iter().enumerate().map(place).collect::<PyResult<_>>()?;
        let diameters_mm = diameters.map(|mm| given.each("diameters", Kind::Length, &mm.0)).transpose()?;
        given.readable()?;
        let core = match &diameters_mm {
            Some(mm) if mm.len() != places_mm.len() => {
                let fix = format!("give one for each of {} rivets", places_mm.len());
                return Err(Problem::contradiction("diameters", format!("{} diameters", mm.len()), fix).into());
            }
            Some(mm) => {
                let rivets: Vec<_> = places_mm.iter().copied().zip(mm.iter().copied()).collect();
                core::RivetGroup::by_area(&rivets)
            }
            None => core::RivetGroup::equal(&places_mm),
        };
        let core = core.map_err(|problems| refused(&given, problems))?;
        Ok(Self { places_mm, diameters_mm, core })
    }

    /// x and y of each rivet, mm.
    #[getter]
    fn places_mm(&self) -> Many<(f64, f64)> {
        Many(self.places_mm.iter().map(|&place| place.into()).collect())
    }

    /// Diameter of each rivet, mm; None where all are equally stiff.
    #[getter]
    fn diameters_mm(&self) -> Option<Many<f64>> {
        self.diameters_mm.clone().map(Many)
    }

    /// Shares a load out by the elastic vector method: rigid sheets, every rivet a spring, small slip, holes filled.
    ///
    /// Args:
    ///     x: Force along x, such as ``"900 N"``.
    ///     y: Force along y.
    ///     at: A point on the line of the force, x and y, such as ``("100 mm", "0 mm")``; must be given with a force.
    ///     couple: A couple besides, anticlockwise, as one of its two forces and the distance between them, such as
    ///         ``("250 N", "100 mm")``; a negative force turns clockwise.
    ///
    /// Returns:
    ///     The force on each rivet.
    ///
    /// Raises:
    ///     InputError: No load; a force without its line; a load that no group has; a single rivet loaded off its centre.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///     TypeError: `at` or `couple` is no pair.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> pair = rb.RivetGroup([("0 mm", "0 mm"), ("100 mm", "0 mm")])
    ///     >>> pair.elastic(couple=("250 N", "100 mm")).table["secondary_y_n"].tolist()
    ///     [-250.0, 250.0]
    #[pyo3(signature = (x = None, y = None, at = None, couple = None))]
    fn elastic(
        &self,
        x: Option<Quantity<'_>>,
        y: Option<Quantity<'_>>,
        at: Option<Pair<'_>>,
        couple: Option<Pair<'_>>,
    ) -> PyResult<GroupForces> {
        let mut given = Arguments::default();
        let load = load(&mut given, x, y, at, couple)?;
        let core = self.core.elastic(load).map_err(|problems| refused(&given, problems))?;
        Ok(GroupForces { group: self.clone(), load, core })
    }

    /// Bounds how many times the load the group carries if every rivet gives way at its cap without breaking.
    ///
    /// It presumes ductile rivets: that none breaks and no sheet tears before the last ones reach their caps. Unless
    /// tests show it, use `elastic`, which is the default.
    ///
    /// Args:
    ///     x: Force along x, such as ``"900 N"``.
    ///     y: Force along y.
    ///     at: A point on the line of the force, x and y; must be given with a force.
    ///     couple: A couple besides, anticlockwise, as one of its two forces and the distance between them.
    ///     cap: Force at which a rivet gives way, such as ``"3 kN"``: one for all, or a list with one for each rivet.
    ///
    /// Returns:
    ///     The bounds, with the forces that prove the lower one.
    ///
    /// Raises:
    ///     InputError: No load; a force without its line; caps that are not one for each rivet or that no rivet has; a
    ///         single rivet loaded off its centre.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///     TypeError: `at` or `couple` is no pair.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> group = rb.RivetGroup([("-50 mm", "0 mm"), ("0 mm", "0 mm"), ("50 mm", "0 mm")])
    ///     >>> round(group.plastic(couple=("1 kN", "100 mm"), cap="3 kN").factor, 3)
    ///     3.0
    #[pyo3(signature = (x = None, y = None, at = None, couple = None, *, cap))]
    fn plastic(
        &self,
        x: Option<Quantity<'_>>,
        y: Option<Quantity<'_>>,
        at: Option<Pair<'_>>,
        couple: Option<Pair<'_>>,
        cap: OneOrEach<'_>,
    ) -> PyResult<PlasticBounds> {
        let mut given = Arguments::default();
        let caps_n = match &cap {
            OneOrEach::One(cap) => vec![given.quantity("cap", Kind::Force, cap)?; self.places_mm.len()],
            OneOrEach::Each(caps) => given.each("cap", Kind::Force, &caps.0)?,
        };
        let load = load(&mut given, x, y, at, couple)?;
        let core = self.core.plastic(load, &caps_n).map_err(|problems| {
            let mut problems: Vec<Problem> = problems.into_iter().map(in_python).collect();
            if matches!(cap, OneOrEach::One(_)) {
                // Written once, wrong once.
                let once = |p: Problem| if p.path().starts_with("cap[") { p.with_path("cap".to_owned()) } else { p };
                problems = problems.into_iter().map(once).collect();
                problems.dedup();
            }
            given.refused(problems)
        })?;
        Ok(PlasticBounds { group: self.clone(), load, caps_n, core })
    }

    /// Places and diameters by name.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("places_mm", self.places_mm())?;
        dict.set_item("diameters_mm", self.diameters_mm())?;
        Ok(Dict(dict))
    }

    fn __len__(&self) -> usize {
        self.places_mm.len()
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "RivetGroup")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// How a group shares a load out; `RivetGroup.elastic` makes it. Cannot be changed.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> ring = rb.RivetGroup([("0.1 m", "0 mm"), ("0 mm", "0.1 m"), ("-0.1 m", "0 mm"), ("0 mm", "-0.1 m")])
///     >>> ring.elastic(y="5 kN", at=("200 mm", "0 mm"))
///     <GroupForces of 4 rivets: 3750 N on rivet 0 at most>
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct GroupForces {
    group: RivetGroup,
    load: core::InPlaneLoad,
    core: core::GroupForces,
}

#[pymethods]
impl GroupForces {
    /// The group.
    #[getter]
    fn group(&self) -> RivetGroup {
        self.group.clone()
    }

    /// Centroid of the stiffnesses, x and y, mm.
    #[getter]
    fn centroid_mm(&self) -> (f64, f64) {
        self.core.centroid_mm.into()
    }

    /// Moment of the load about the centroid, anticlockwise, N mm.
    #[getter]
    fn moment_n_mm(&self) -> f64 {
        self.core.moment_n_mm
    }

    /// Which rivet is loaded most, from 0; the first where several are equal.
    #[getter]
    fn worst(&self) -> usize {
        self.core.worst().0
    }

    /// Force on the rivet that is loaded most, N.
    #[getter]
    fn worst_n(&self) -> f64 {
        self.core.worst().1
    }

    /// A row for each rivet: index, place, its share of the force (primary) and of the moment (secondary), resultant.
    #[getter]
    fn table(&self) -> Columns {
        force_columns(&self.group, &self.core.forces)
    }

    /// Centroid, moment, the worst rivet and the forces as plain values.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("centroid_mm", self.centroid_mm())?;
        dict.set_item("moment_n_mm", self.moment_n_mm())?;
        dict.set_item("worst", self.worst())?;
        dict.set_item("worst_n", self.worst_n())?;
        dict.set_item("forces", self.table().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let (rivets, (index, worst_n)) = (self.core.forces.len(), self.core.worst());
        format!("<GroupForces of {rivets} rivets: {} N on rivet {index} at most>", significant(worst_n))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        called_again(&self.group, "elastic", &load_kwargs(py, &self.load)?)
    }
}

/// Bounds on how many times the load a ductile group carries; `RivetGroup.plastic` makes it. Cannot be changed.
///
/// It presumes ductile rivets: that none breaks and no sheet tears before the last ones reach their caps. Unless tests
/// show it, use `RivetGroup.elastic`, which is the default.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct PlasticBounds {
    group: RivetGroup,
    load: core::InPlaneLoad,
    caps_n: Vec<f64>,
    core: core::PlasticBounds,
}

#[pymethods]
impl PlasticBounds {
    /// The group.
    #[getter]
    fn group(&self) -> RivetGroup {
        self.group.clone()
    }

    /// This many times the load is carried by the forces of `table`: use this one.
    #[getter]
    fn factor(&self) -> f64 {
        self.core.factor
    }

    /// No distribution of forces carries more than this many times the load: shows how close `factor` is.
    #[getter]
    fn factor_at_most(&self) -> f64 {
        self.core.factor_at_most
    }

    /// Force at which each rivet gives way, N.
    #[getter]
    fn caps_n(&self) -> Many<f64> {
        Many(self.caps_n.clone())
    }

    /// A row for each rivet, as that of `GroupForces`, at `factor` times the load; no resultant is above its cap.
    #[getter]
    fn table(&self) -> Columns {
        force_columns(&self.group, &self.core.forces)
    }

    /// Factors, caps and forces as plain values.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("factor", self.factor())?;
        dict.set_item("factor_at_most", self.factor_at_most())?;
        dict.set_item("caps_n", self.caps_n())?;
        dict.set_item("forces", self.table().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let (factor, at_most) = (significant(self.core.factor), significant(self.core.factor_at_most));
        format!("<PlasticBounds of {} rivets: {factor} times the load, at most {at_most}>", self.caps_n.len())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let kwargs = load_kwargs(py, &self.load)?;
        kwargs.set_item("cap", self.caps_n.iter().map(|&n| Kind::Force.print(n)).collect::<Vec<_>>())?;
        called_again(&self.group, "plastic", &kwargs)
    }
}

/// Prying force over applied tension at a flange, as a rigid bound (from memory): b' / a', a' at most 1.25 b'.
///
/// The rivet's tension is 1 + this ratio times the applied one. It holds for a flange no thinner than the sheet on it;
/// under a thinner sheet the prying moves into the sheet and the pull-over is eccentric instead.
///
/// Args:
///     to_web: b', the rivet to the face of the web or bend, such as ``"12 mm"``.
///     to_edge: a', the rivet to the free edge; no more than 1.25 b' of it counts.
///
/// Returns:
///     The ratio, never below 0.8.
///
/// Raises:
///     InputError: A distance outside 0.5 to 500 mm.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.prying_ratio("12 mm", "12 mm"), rb.prying_ratio("12 mm", "40 mm")
///     (1.0, 0.8)
#[pyfunction]
#[pyo3(signature = (to_web, to_edge))]
pub(super) fn prying_ratio(to_web: Quantity<'_>, to_edge: Quantity<'_>) -> PyResult<f64> {
    let mut given = Arguments::default();
    let to_web_mm = given.quantity("to_web", Kind::Length, &to_web)?;
    let to_edge_mm = given.quantity("to_edge", Kind::Length, &to_edge)?;
    given.readable()?;
    core::prying_ratio(to_web_mm, to_edge_mm).map_err(|problems| given.refused(problems))
}

/// Suction on one rivet of a line that holds a sheet over equally spaced ribs, N.
///
/// Statics of continuous beams on rigid ribs: at the sheet's end half a rib spacing pulls on the line, at the first inner
/// line a whole one times 1.25 over two spans, 1.10 over three, 8/7 over four and more.
///
/// Args:
///     suction: Net pressure outward, wind and inside pressure together, such as ``"0.8 kPa"``; factored or not as the
///         level of the check asks.
///     rib_spacing: From rib to rib, such as ``"700 mm"``.
///     pitch: From rivet to rivet along the line.
///     spans: For the first inner line, the spans that the sheet runs over; the line at the sheet's end where left out.
///
/// Returns:
///     The tension in one rivet, N, prying not included.
///
/// Raises:
///     InputError: A suction outside 0 to 0.1 MPa; a spacing or pitch outside 1 to 5000 mm; fewer than two spans.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> round(rb.suction_per_rivet_n("0.8 kPa", "700 mm", "100 mm", spans=2), 6)
///     70.0
#[pyfunction]
#[pyo3(signature = (suction, rib_spacing, pitch, spans = None))]
pub(super) fn suction_per_rivet_n(
    suction: Quantity<'_>,
    rib_spacing: Quantity<'_>,
    pitch: Quantity<'_>,
    spans: Option<Whole<i64>>,
) -> PyResult<f64> {
    let mut given = Arguments::default();
    let suction_mpa = given.quantity("suction", Kind::Pressure, &suction)?;
    let rib_spacing_mm = given.quantity("rib_spacing", Kind::Length, &rib_spacing)?;
    let pitch_mm = given.quantity("pitch", Kind::Length, &pitch)?;
    let line = spans
        .map_or(core::SuctionLine::End, |spans| core::SuctionLine::FirstInner { spans: given.count("spans", spans) });
    given.readable()?;
    core::suction_per_rivet_n(suction_mpa, rib_spacing_mm, pitch_mm, line).map_err(|problems| given.refused(problems))
}
