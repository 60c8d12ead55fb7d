//! Plane frames: `Frame`, `FrameLoad` and `FrameResult`.

use std::collections::BTreeMap;

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::error::Problem;
use crate::mechanics::frame::{self as core, Load, Member, Support};

use super::bulk::FloatsIn;
use super::input::{Arguments, Real, Several, Whole, real};
use super::interrupts::away;
use super::joint::{given, rebuilt};
use super::output::{Columns, Dict, Recipe};

/// A load on a plane frame. Cannot be changed.
///
/// Example:
///     >>> from raisedbody import FrameLoad
///     >>> FrameLoad.spread(1, y_n_mm=-1.5)
///     FrameLoad.spread(1, start=0.0, end=1.0, x_n_mm=0.0, y_n_mm=-1.5)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct FrameLoad(Load);

#[pymethods]
impl FrameLoad {
    /// On a node.
    ///
    /// Args:
    ///     node: Which, from 0.
    ///     x_n: Along x, N.
    ///     y_n: Along y, upwards, N.
    ///     moment_n_mm: Anticlockwise, N mm.
    #[staticmethod]
    #[pyo3(signature = (node, *, x_n: "SupportsFloat | SupportsIndex" = 0.0, y_n: "SupportsFloat | SupportsIndex" = 0.0, moment_n_mm: "SupportsFloat | SupportsIndex" = 0.0))]
    fn node(
        node: Whole<u32>,
        #[pyo3(from_py_with = real)] x_n: f64,
        #[pyo3(from_py_with = real)] y_n: f64,
        #[pyo3(from_py_with = real)] moment_n_mm: f64,
    ) -> Self {
        Self(Load::Node { node: node.index(), x_n, y_n, moment_n_mm })
    }

    /// Spread evenly over a member or part of it, per length of the member.
    ///
    /// Args:
    ///     member: Which, from 0.
    ///     start: Where it begins, in parts of the member's length.
    ///     end: Where it ends.
    ///     x_n_mm: Along x, N/mm.
    ///     y_n_mm: Along y, upwards, N/mm.
    #[staticmethod]
    #[pyo3(signature = (
        member, *, start: "SupportsFloat | SupportsIndex" = 0.0, end: "SupportsFloat | SupportsIndex" = 1.0, x_n_mm: "SupportsFloat | SupportsIndex" = 0.0, y_n_mm: "SupportsFloat | SupportsIndex" = 0.0
    ))]
    fn spread(
        member: Whole<u32>,
        #[pyo3(from_py_with = real)] start: f64,
        #[pyo3(from_py_with = real)] end: f64,
        #[pyo3(from_py_with = real)] x_n_mm: f64,
        #[pyo3(from_py_with = real)] y_n_mm: f64,
    ) -> Self {
        Self(Load::Spread { member: member.index(), from: start, to: end, x_n_mm, y_n_mm })
    }

    /// At a point of a member.
    ///
    /// Args:
    ///     member: Which, from 0.
    ///     at: Where, in parts of the member's length.
    ///     x_n: Along x, N.
    ///     y_n: Along y, upwards, N.
    #[staticmethod]
    #[pyo3(signature = (member, *, at, x_n: "SupportsFloat | SupportsIndex" = 0.0, y_n: "SupportsFloat | SupportsIndex" = 0.0))]
    fn point(
        member: Whole<u32>,
        at: Real,
        #[pyo3(from_py_with = real)] x_n: f64,
        #[pyo3(from_py_with = real)] y_n: f64,
    ) -> Self {
        Self(Load::Point { member: member.index(), at: at.0, x_n, y_n })
    }

    fn __repr__(&self) -> String {
        match self.0 {
            Load::Node { node, x_n, y_n, moment_n_mm } => {
                format!("FrameLoad.node({node}, x_n={x_n:?}, y_n={y_n:?}, moment_n_mm={moment_n_mm:?})")
            }
            Load::Spread { member, from, to, x_n_mm, y_n_mm } => {
                format!("FrameLoad.spread({member}, start={from:?}, end={to:?}, x_n_mm={x_n_mm:?}, y_n_mm={y_n_mm:?})")
            }
            Load::Point { member, at, x_n, y_n } => {
                format!("FrameLoad.point({member}, at={at:?}, x_n={x_n:?}, y_n={y_n:?})")
            }
        }
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        let py = slf.py();
        let (name, index, kwargs) = match slf.get().0 {
            Load::Node { node, x_n, y_n, moment_n_mm } => {
                ("node", node, given!(py, "x_n" = Some(x_n), "y_n" = Some(y_n), "moment_n_mm" = Some(moment_n_mm)))
            }
            Load::Spread { member, from, to, x_n_mm, y_n_mm } => (
                "spread",
                member,
                given!(py, "start" = Some(from), "end" = Some(to), "x_n_mm" = Some(x_n_mm), "y_n_mm" = Some(y_n_mm)),
            ),
            Load::Point { member, at, x_n, y_n } => {
                ("point", member, given!(py, "at" = Some(at), "x_n" = Some(x_n), "y_n" = Some(y_n)))
            }
        };
        let first = if name == "node" { "node" } else { "member" };
        kwargs.set_item(first, index)?;
        let class = slf.get_type();
        let call = py.import("functools")?.getattr("partial")?.call((class.getattr(name)?,), Some(&kwargs))?;
        Ok(Recipe { call, with: pyo3::types::PyTuple::empty(py) })
    }
}

/// A plane frame of straight members joined stiffly, by the direct stiffness method. Cannot be changed.
///
/// x runs to the right, y up; moments and rotations are anticlockwise. Members bend and stretch by elementary beam theory.
///
/// Args:
///     nodes_mm: Place of each node, an array of two columns, mm.
///     members: The two nodes of each member, from 0.
///     area_mm2: Area of the members' sections, one for all or one each, mm2.
///     second_moment_mm4: Second moment about the axis square to the frame's plane, mm4.
///     modulus_mpa: Modulus of elasticity, MPa.
///     pinned: Nodes held in place, free to turn.
///     fixed: Nodes held in place and against turning.
///     sprung_n_mm_rad: Nodes held in place, turning against a spring, N mm/rad.
///
/// Raises:
///     InputError: A node, member or support that cannot be (it is named); arrays of another shape.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> portal = rb.Frame(
///     ...     [[0, 0], [0, 1800], [2200, 1800], [2200, 0]], [(0, 1), (1, 2), (2, 3)],
///     ...     area_mm2=1e6, second_moment_mm4=[60e3, 40e3, 60e3], modulus_mpa=210e3, pinned=[0, 3],
///     ... )
///     >>> pushed = portal.solve([rb.FrameLoad.node(1, x_n=1000)])
///     >>> float(round(pushed.nodes["x_mm"][1], 1))
///     147.9
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Frame {
    core: core::Frame,
    pinned: Vec<usize>,
    fixed: Vec<usize>,
    sprung: BTreeMap<usize, f64>,
}

/// Places in a list.
pub(super) fn indices(given: &Several<Whole<u32>>) -> Vec<usize> {
    given.0.iter().map(|own| own.index()).collect()
}

/// One value for each member.
pub(super) fn each(name: &str, values: &FloatsIn<'_>, count: usize) -> Result<Vec<f64>, Problem> {
    let view = values.view();
    let given: Vec<f64> = view.iter().copied().collect();
    match (view.ndim(), given.len()) {
        (0 | 1, 1) => Ok(vec![given[0]; count]),
        (1, length) if length == count => Ok(given),
        _ => {
            let problem = format!("give one number, or one for each of the {count} members");
            Err(Problem::contradiction(name, format!("shape {:?}", view.shape()), problem))
        }
    }
}

/// The argument that a problem's place in the frame was given by; none where it has the same name.
fn as_argument(path: &str, held: impl Fn(usize) -> String) -> Option<String> {
    let (list, rest) = path.split_once('[')?;
    let (i, field) = rest.split_once(']')?;
    match (list, field) {
        ("members", ".area") => Some(format!("area_mm2[{i}]")),
        ("members", ".second_moment") => Some(format!("second_moment_mm4[{i}]")),
        ("members", ".modulus") => Some(format!("modulus_mpa[{i}]")),
        ("nodes", _) => Some(format!("nodes_mm[{i}]{field}")),
        ("supports", _) => Some(held(i.parse().ok()?)),
        _ => None,
    }
}

#[pymethods]
impl Frame {
    #[new]
    #[pyo3(signature = (
        nodes_mm, members, *, area_mm2, second_moment_mm4, modulus_mpa, pinned = Several(Vec::new()),
        fixed = Several(Vec::new()), sprung_n_mm_rad = BTreeMap::new()
    ))]
    #[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
    fn new(
        nodes_mm: FloatsIn<'_>,
        members: Several<(Whole<u32>, Whole<u32>)>,
        area_mm2: FloatsIn<'_>,
        second_moment_mm4: FloatsIn<'_>,
        modulus_mpa: FloatsIn<'_>,
        pinned: Several<Whole<u32>>,
        fixed: Several<Whole<u32>>,
        sprung_n_mm_rad: BTreeMap<Whole<u32>, Real>,
    ) -> PyResult<Self> {
        let [pinned, fixed] = [pinned, fixed].map(|all| indices(&all));
        let sprung: BTreeMap<usize, f64> = sprung_n_mm_rad.into_iter().map(|(node, k)| (node.index(), k.0)).collect();
        let places = nodes_mm.view();
        if places.ndim() != 2 || places.shape()[1] != 2 {
            let problem = "give one row of two numbers, x and y, for each node";
            return Err(Problem::contradiction("nodes_mm", format!("shape {:?}", places.shape()), problem).into());
        }
        let nodes = places.outer_iter().map(|row| [row[0], row[1]]).collect();
        let count = members.0.len();
        let area = each("area_mm2", &area_mm2, count)?;
        let second = each("second_moment_mm4", &second_moment_mm4, count)?;
        let modulus = each("modulus_mpa", &modulus_mpa, count)?;
        let sizes = area.into_iter().zip(second).zip(modulus);
        let own = members.0.into_iter().zip(sizes).map(|((from, to), ((area, second), modulus))| Member {
            from: from.index(),
            to: to.index(),
            area_mm2: area,
            second_moment_mm4: second,
            modulus_mpa: modulus,
        });
        let supports = pinned.iter().map(|&node| Support::pinned(node));
        let supports = supports.chain(fixed.iter().map(|&node| Support::fixed(node)));
        let supports = supports.chain(sprung.iter().map(|(&node, &k)| Support::sprung(node, k)));
        let held = |i: usize| match i.checked_sub(pinned.len()) {
            None => format!("pinned[{i}]"),
            Some(i) if i < fixed.len() => format!("fixed[{i}]"),
            Some(_) => "sprung_n_mm_rad".to_owned(),
        };
        let core = core::Frame::new(nodes, own.collect(), supports.collect()).map_err(|problems| {
            let named = problems.into_iter().map(|problem| match as_argument(problem.path(), held) {
                Some(path) => problem.with_path(path),
                None => problem,
            });
            Arguments::default().refused(named.collect())
        })?;
        Ok(Self { core, pinned, fixed, sprung })
    }

    /// Directions in which its nodes can move.
    #[getter]
    fn freedoms(&self) -> usize {
        self.core.freedoms()
    }

    /// Solves for one load case.
    ///
    /// Args:
    ///     loads: The loads, all acting together.
    ///     second_order: Let the members' axial forces bend them further (P-delta).
    ///
    /// Returns:
    ///     Displacements, reactions and forces.
    ///
    /// Raises:
    ///     InputError: A load that cannot be; a frame that can move without bending, or that buckles under the load.
    #[pyo3(signature = (loads, *, second_order = false))]
    fn solve(&self, py: Python<'_>, loads: Several<PyRef<'_, FrameLoad>>, second_order: bool) -> PyResult<FrameResult> {
        let loads: Vec<Load> = loads.0.iter().map(|load| load.0).collect();
        let frame = &self.core;
        let solved = away(py, || if second_order { frame.second_order(&loads) } else { frame.solve(&loads) })?;
        let core = solved.map_err(|problems| {
            // A load's places along its member are its start and end here.
            let named = problems.into_iter().map(|problem| {
                let path = problem.path().replace(".from", ".start").replace(".to", ".end");
                problem.with_path(path)
            });
            Arguments::default().refused(named.collect())
        })?;
        let supports = self.pinned.iter().chain(&self.fixed).chain(self.sprung.keys()).copied().collect();
        Ok(FrameResult { frame: self.clone(), loads, second_order, supports, core })
    }

    fn __repr__(&self) -> String {
        let (nodes, members) = (self.core.nodes_mm().len(), self.core.members().len());
        format!("<Frame of {nodes} nodes, {members} members, {} freedoms>", self.freedoms())
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let members = own.core.members();
        let column = |value: fn(&Member) -> f64| Some(members.iter().map(value).collect::<Vec<f64>>());
        let nodes: Vec<Vec<f64>> = own.core.nodes_mm().iter().map(|node| node.to_vec()).collect();
        let kwargs = given!(
            py,
            "nodes_mm" = Some(nodes),
            "members" = Some(members.iter().map(|m| (m.from, m.to)).collect::<Vec<_>>()),
            "area_mm2" = column(|m| m.area_mm2),
            "second_moment_mm4" = column(|m| m.second_moment_mm4),
            "modulus_mpa" = column(|m| m.modulus_mpa),
            "pinned" = Some(own.pinned.clone()),
            "fixed" = Some(own.fixed.clone()),
            "sprung_n_mm_rad" = Some(own.sprung.clone()),
        );
        rebuilt(py, slf.get_type().as_any(), kwargs)
    }
}

/// The answer to one load case of a frame; `Frame.solve` makes it. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct FrameResult {
    frame: Frame,
    loads: Vec<Load>,
    second_order: bool,
    supports: Vec<usize>,
    core: core::Solved,
}

#[pymethods]
impl FrameResult {
    /// How each node moves: x_mm, y_mm, turn_rad.
    #[getter]
    fn nodes(&self) -> Columns {
        Columns::of(self.core.displacements.iter())
            .number("x_mm", |d| d[0])
            .number("y_mm", |d| d[1])
            .number("turn_rad", |d| d[2])
            .done()
    }

    /// What the ground exerts on each held node: node, x_n, y_n, moment_n_mm.
    #[getter]
    fn reactions(&self) -> Columns {
        Columns::of(self.supports.iter().zip(&self.core.reactions))
            .count("node", |(node, _)| **node)
            .number("x_n", |(_, r)| r[0])
            .number("y_n", |(_, r)| r[1])
            .number("moment_n_mm", |(_, r)| r[2])
            .done()
    }

    /// Each member's axial force at its start, moments at both ends, and its largest moment with its place.
    #[getter]
    fn members(&self) -> Columns {
        Columns::of(self.core.members.iter())
            .number("length_mm", |m| m.length_mm())
            .number("axial_n", |m| m.at(0.0).axial_n)
            .number("start_moment_n_mm", |m| m.at(0.0).moment_n_mm)
            .number("end_moment_n_mm", |m| m.at(1.0).moment_n_mm)
            .number("largest_moment_n_mm", |m| m.largest_moment().1.moment_n_mm)
            .number("largest_at_ratio", |m| m.largest_moment().0)
            .done()
    }

    /// Forces in a member at a place.
    ///
    /// Args:
    ///     member: Which, from 0.
    ///     part: Where, in parts of its length from the start.
    ///
    /// Returns:
    ///     axial_n (tension above nought), shear_n and moment_n_mm (above nought where the right-hand side of the member's
    ///     run is stretched).
    ///
    /// Raises:
    ///     InputError: No such member, or a place that is not on it.
    fn at<'py>(&self, py: Python<'py>, member: Whole<u32>, part: Real) -> PyResult<Dict<'py>> {
        let (member, part) = (member.index(), part.0);
        let count = self.core.members.len();
        let Some(actions) = self.core.members.get(member) else {
            return Err(Problem::out_of_range("member", member, format!("0 to {}", count - 1)).into());
        };
        if !(0.0..=1.0).contains(&part) {
            return Err(Problem::out_of_range("part", part, "0 to 1 of the length").into());
        }
        let here = actions.at(part);
        let dict = PyDict::new(py);
        dict.set_item("axial_n", here.axial_n)?;
        dict.set_item("shear_n", here.shear_n)?;
        dict.set_item("moment_n_mm", here.moment_n_mm)?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let most = self.core.displacements.iter().map(|d| d[0].hypot(d[1])).fold(0.0, f64::max);
        format!("<FrameResult of {} nodes: moves {most:.3} mm at most>", self.core.displacements.len())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let loads: Vec<FrameLoad> = self.loads.iter().copied().map(FrameLoad).collect();
        let kwargs = given!(py, "loads" = Some(loads), "second_order" = Some(self.second_order));
        Recipe::of_method(&Bound::new(py, self.frame.clone())?, "solve", &kwargs)
    }
}
