//! Space frames: `SpaceFrame`, `SpaceLoad` and `SpaceFrameResult`.

use std::collections::BTreeMap;

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::error::{Problem, by_name};
use crate::mechanics::space_frame::{self as core, Bending, Hold, Member, NodeLoad, Support};

use super::bulk::FloatsIn;
use super::frame::{each, indices};
use super::input::{Arguments, Real, Several, Whole, real};
use super::interrupts::away;
use super::joint::{given, rebuilt};
use super::output::{Columns, Recipe};

/// A load on a node of a space frame. Cannot be changed.
///
/// Args:
///     node: Which, from 0.
///     x_n: Along x, N.
///     y_n: Along y, N.
///     z_n: Along z, N.
///     moment_x_n_mm: About x by the right-hand rule, N mm.
///     moment_y_n_mm: About y, N mm.
///     moment_z_n_mm: About z, N mm.
///
/// Example:
///     >>> from raisedbody import SpaceLoad
///     >>> SpaceLoad(3, z_n=-2000)
///     SpaceLoad(3, x_n=0.0, y_n=0.0, z_n=-2000.0, moment_x_n_mm=0.0, moment_y_n_mm=0.0, moment_z_n_mm=0.0)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct SpaceLoad(NodeLoad);

#[pymethods]
impl SpaceLoad {
    #[new]
    #[pyo3(signature = (
        node, *, x_n: "SupportsFloat | SupportsIndex" = 0.0, y_n: "SupportsFloat | SupportsIndex" = 0.0, z_n: "SupportsFloat | SupportsIndex" = 0.0, moment_x_n_mm: "SupportsFloat | SupportsIndex" = 0.0, moment_y_n_mm: "SupportsFloat | SupportsIndex" = 0.0,
        moment_z_n_mm: "SupportsFloat | SupportsIndex" = 0.0
    ))]
    fn new(
        node: Whole<u32>,
        #[pyo3(from_py_with = real)] x_n: f64,
        #[pyo3(from_py_with = real)] y_n: f64,
        #[pyo3(from_py_with = real)] z_n: f64,
        #[pyo3(from_py_with = real)] moment_x_n_mm: f64,
        #[pyo3(from_py_with = real)] moment_y_n_mm: f64,
        #[pyo3(from_py_with = real)] moment_z_n_mm: f64,
    ) -> Self {
        let moment_n_mm = [moment_x_n_mm, moment_y_n_mm, moment_z_n_mm];
        Self(NodeLoad { node: node.index(), force_n: [x_n, y_n, z_n], moment_n_mm })
    }

    fn __repr__(&self) -> String {
        let NodeLoad { node, force_n: [x, y, z], moment_n_mm: [mx, my, mz] } = self.0;
        format!(
            "SpaceLoad({node}, x_n={x:?}, y_n={y:?}, z_n={z:?}, moment_x_n_mm={mx:?}, moment_y_n_mm={my:?}, \
             moment_z_n_mm={mz:?})"
        )
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        let py = slf.py();
        let NodeLoad { node, force_n: [x, y, z], moment_n_mm: [mx, my, mz] } = slf.get().0;
        let kwargs = given!(
            py,
            "node" = Some(node),
            "x_n" = Some(x),
            "y_n" = Some(y),
            "z_n" = Some(z),
            "moment_x_n_mm" = Some(mx),
            "moment_y_n_mm" = Some(my),
            "moment_z_n_mm" = Some(mz),
        );
        rebuilt(py, slf.get_type().as_any(), kwargs)
    }
}

/// A space frame of straight beams joined stiffly and of bars pinned at both ends, by the direct stiffness method. Cannot be
/// changed.
///
/// Axes are right-handed, z up; moments and rotations by the right-hand rule. Beams stretch, bend about both their axes and
/// twist by elementary theory. A beam's own x runs along it, its y lies in the plane of its run and of ``up`` (z of the frame,
/// or x for an upright beam), its z level.
///
/// Args:
///     nodes_mm: Place of each node, an array of three columns, mm.
///     members: The two nodes of each member, from 0.
///     bars: Members that are bars pinned at both ends, from 0; the others are beams.
///     area_mm2: Area of the members' sections, one for all or one each, mm2.
///     modulus_mpa: Modulus of elasticity, MPa.
///     second_moment_y_mm4: Second moment about a beam's own y, which bends it sideways; needless where all are bars.
///     second_moment_z_mm4: Second moment about a beam's own z, which bends it up and down.
///     torsion_mm4: Torsion constant of St Venant.
///     shear_modulus_mpa: Shear modulus, MPa.
///     up: Where a member's own y points to, by member, as (x, y, z).
///     pinned: Nodes held in place, free to turn.
///     fixed: Nodes held in place and against turning.
///     held: Other nodes and the directions they are held in: ``"x"``, ``"y"``, ``"z"``, ``"about x"``, ``"about y"``,
///         ``"about z"``.
///     springs: Nodes held by springs, by direction: N/mm, or N mm/rad about an axis.
///
/// Raises:
///     InputError: A node, member or support that cannot be (it is named); arrays of another shape.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> tripod = rb.SpaceFrame(
///     ...     [[1000, 0, 0], [-500, 866, 0], [-500, -866, 0], [0, 0, 2000]], [(0, 3), (1, 3), (2, 3)],
///     ...     bars=[0, 1, 2], area_mm2=200, modulus_mpa=205e3, pinned=[0, 1, 2],
///     ... )
///     >>> pressed = tripod.solve([rb.SpaceLoad(3, z_n=-3000)])
///     >>> [round(float(n)) for n in pressed.members["axial_n"]]
///     [-1118, -1118, -1118]
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct SpaceFrame(core::SpaceFrame);

/// Directions by name, in the order of the freedoms.
const DIRECTIONS: [(&str, usize); 6] = [("x", 0), ("y", 1), ("z", 2), ("about x", 3), ("about y", 4), ("about z", 5)];

fn hold(support: &mut Support, path: &str, direction: &str, hold: Hold) -> Result<(), Problem> {
    let (_, i) = by_name(path, "direction", direction, &DIRECTIONS, |d| d.0)?;
    let side = if i < 3 { &mut support.moves } else { &mut support.turns };
    side[i % 3] = hold;
    Ok(())
}

type Held = BTreeMap<usize, Vec<String>>;
type Springs = BTreeMap<usize, BTreeMap<String, f64>>;
type Up = BTreeMap<usize, (f64, f64, f64)>;

/// What was given by node or member.
fn by_index<T, U>(given: BTreeMap<Whole<u32>, T>, plain: impl Fn(T) -> U) -> BTreeMap<usize, U> {
    given.into_iter().map(|(index, own)| (index.index(), plain(own))).collect()
}

fn supports(pinned: &[usize], fixed: &[usize], held: &Held, springs: &Springs) -> Result<Vec<Support>, Problem> {
    let mut others: BTreeMap<usize, Support> = BTreeMap::new();
    for (&node, directions) in held {
        let own = others.entry(node).or_insert_with(|| Support::free(node));
        for direction in directions {
            hold(own, &format!("held[{node}]"), direction, Hold::Held)?;
        }
    }
    for (&node, stiffnesses) in springs {
        let own = others.entry(node).or_insert_with(|| Support::free(node));
        for (direction, &stiffness) in stiffnesses {
            hold(own, &format!("springs[{node}]"), direction, Hold::Spring(stiffness))?;
        }
    }
    let firm = pinned.iter().map(|&node| Support::pinned(node)).chain(fixed.iter().map(|&node| Support::fixed(node)));
    let mut all: Vec<Support> = firm.chain(others.into_values()).collect();
    all.sort_by_key(|support| support.node);
    Ok(all)
}

#[pymethods]
impl SpaceFrame {
    #[new]
    #[pyo3(signature = (
        nodes_mm, members, *, bars = Several(Vec::new()), area_mm2, modulus_mpa, second_moment_y_mm4 = None,
        second_moment_z_mm4 = None, torsion_mm4 = None, shear_modulus_mpa = None, up = BTreeMap::new(),
        pinned = Several(Vec::new()), fixed = Several(Vec::new()), held = BTreeMap::new(), springs = BTreeMap::new()
    ))]
    #[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
    fn new(
        nodes_mm: FloatsIn<'_>,
        members: Several<(Whole<u32>, Whole<u32>)>,
        bars: Several<Whole<u32>>,
        area_mm2: FloatsIn<'_>,
        modulus_mpa: FloatsIn<'_>,
        second_moment_y_mm4: Option<FloatsIn<'_>>,
        second_moment_z_mm4: Option<FloatsIn<'_>>,
        torsion_mm4: Option<FloatsIn<'_>>,
        shear_modulus_mpa: Option<FloatsIn<'_>>,
        up: BTreeMap<Whole<u32>, (Real, Real, Real)>,
        pinned: Several<Whole<u32>>,
        fixed: Several<Whole<u32>>,
        held: BTreeMap<Whole<u32>, Vec<String>>,
        springs: BTreeMap<Whole<u32>, BTreeMap<String, Real>>,
    ) -> PyResult<Self> {
        let up: Up = by_index(up, |(x, y, z)| (x.0, y.0, z.0));
        let held: Held = by_index(held, |own| own);
        let springs: Springs = by_index(springs, |own| own.into_iter().map(|(way, k)| (way, k.0)).collect());
        let [bars, pinned, fixed] = [bars, pinned, fixed].map(|all| indices(&all));
        let places = nodes_mm.view();
        if places.ndim() != 2 || places.shape()[1] != 3 {
            let problem = "give one row of three numbers, x, y and z, for each node";
            return Err(Problem::contradiction("nodes_mm", format!("shape {:?}", places.shape()), problem).into());
        }
        let nodes = places.outer_iter().map(|row| [row[0], row[1], row[2]]).collect();
        let count = members.0.len();
        for (name, given) in [("bars", &bars), ("up", &up.keys().copied().collect())] {
            if let Some(wrong) = given.iter().find(|i| **i >= count) {
                let allowed = format!("members 0 to {}", count.saturating_sub(1));
                return Err(Problem::out_of_range(name, wrong, allowed).into());
            }
        }
        let area = each("area_mm2", &area_mm2, count)?;
        let modulus = each("modulus_mpa", &modulus_mpa, count)?;
        let beams = (0..count).any(|i| !bars.contains(&i));
        let needed = |name: &str, values: &Option<FloatsIn<'_>>| match values {
            Some(values) => each(name, values, count),
            None if beams => Err(Problem::missing(name, "beams need it; name the members that are bars in bars")),
            None => Ok(vec![f64::NAN; count]),
        };
        let second_y = needed("second_moment_y_mm4", &second_moment_y_mm4)?;
        let second_z = needed("second_moment_z_mm4", &second_moment_z_mm4)?;
        let torsion = needed("torsion_mm4", &torsion_mm4)?;
        let shear = needed("shear_modulus_mpa", &shear_modulus_mpa)?;
        let own = members.0.into_iter().enumerate().map(|(i, (from, to))| Member {
            from: from.index(),
            to: to.index(),
            area_mm2: area[i],
            modulus_mpa: modulus[i],
            bending: (!bars.contains(&i)).then(|| Bending {
                second_moment_y_mm4: second_y[i],
                second_moment_z_mm4: second_z[i],
                torsion_mm4: torsion[i],
                shear_modulus_mpa: shear[i],
                up: up.get(&i).map(|&(x, y, z)| [x, y, z]),
            }),
        });
        let supports = supports(&pinned, &fixed, &held, &springs)?;
        let core = core::SpaceFrame::new(nodes, own.collect(), supports)
            .map_err(|problems| Arguments::default().refused(problems))?;
        Ok(Self(core))
    }

    /// Directions in which its nodes can move.
    #[getter]
    fn freedoms(&self) -> usize {
        self.0.freedoms()
    }

    /// Solves for one load case.
    ///
    /// Args:
    ///     loads: The loads, all acting together.
    ///
    /// Returns:
    ///     Displacements, reactions and forces.
    ///
    /// Raises:
    ///     InputError: A load that cannot be; a mechanism, told with the node and the direction that runs away.
    fn solve(&self, py: Python<'_>, loads: Several<PyRef<'_, SpaceLoad>>) -> PyResult<SpaceFrameResult> {
        let loads: Vec<NodeLoad> = loads.0.iter().map(|load| load.0).collect();
        let core = away(py, || self.0.solve(&loads))?.map_err(|problems| Arguments::default().refused(problems))?;
        Ok(SpaceFrameResult { frame: self.clone(), loads, core })
    }

    /// How many times these loads buckle the frame (linearised, by geometric stiffness).
    ///
    /// Args:
    ///     loads: The loads, all acting together.
    ///
    /// Returns:
    ///     The factor; None where the loads press no member.
    ///
    /// Raises:
    ///     InputError: As solve.
    fn critical_load_factor(&self, py: Python<'_>, loads: Several<PyRef<'_, SpaceLoad>>) -> PyResult<Option<f64>> {
        let loads: Vec<NodeLoad> = loads.0.iter().map(|load| load.0).collect();
        away(py, || self.0.critical_load_factor(&loads))?.map_err(|problems| Arguments::default().refused(problems))
    }

    fn __repr__(&self) -> String {
        let (nodes, members) = (self.0.nodes_mm().len(), self.0.members().len());
        format!("<SpaceFrame of {nodes} nodes, {members} members, {} freedoms>", self.freedoms())
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        let (py, core) = (slf.py(), &slf.get().0);
        let members = core.members();
        let column = |value: &dyn Fn(&Member) -> f64| members.iter().map(value).collect::<Vec<f64>>();
        // Bars need none: any number in bounds stands for it.
        let bending = |value: fn(&Bending) -> f64| column(&|m| m.bending.as_ref().map_or(1.0, value));
        let which = |keep: &dyn Fn(&Member) -> bool| -> Vec<usize> {
            members.iter().enumerate().filter(|(_, m)| keep(m)).map(|(i, _)| i).collect()
        };
        let up: Up = members.iter().enumerate().filter_map(|(i, m)| Some((i, m.bending?.up?.into()))).collect();
        let (mut held, mut springs) = (Held::new(), Springs::new());
        for support in core.supports() {
            for (holds, shift) in [(support.moves, 0), (support.turns, 3)] {
                for (i, hold) in holds.into_iter().enumerate() {
                    let name = DIRECTIONS[i + shift].0.to_owned();
                    match hold {
                        Hold::Held => held.entry(support.node).or_default().push(name),
                        Hold::Spring(k) => drop(springs.entry(support.node).or_default().insert(name, k)),
                        Hold::Free => drop(held.entry(support.node).or_default()),
                    }
                }
            }
        }
        let kwargs = given!(
            py,
            "nodes_mm" = Some(core.nodes_mm().iter().map(|node| node.to_vec()).collect::<Vec<_>>()),
            "members" = Some(members.iter().map(|m| (m.from, m.to)).collect::<Vec<_>>()),
            "bars" = Some(which(&|m| m.bending.is_none())),
            "area_mm2" = Some(column(&|m| m.area_mm2)),
            "modulus_mpa" = Some(column(&|m| m.modulus_mpa)),
            "second_moment_y_mm4" = Some(bending(|b| b.second_moment_y_mm4)),
            "second_moment_z_mm4" = Some(bending(|b| b.second_moment_z_mm4)),
            "torsion_mm4" = Some(bending(|b| b.torsion_mm4)),
            "shear_modulus_mpa" = Some(bending(|b| b.shear_modulus_mpa)),
            "up" = Some(up),
            "held" = Some(held),
            "springs" = Some(springs),
        );
        rebuilt(py, slf.get_type().as_any(), kwargs)
    }
}

/// The answer to one load case of a space frame; `SpaceFrame.solve` makes it. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct SpaceFrameResult {
    frame: SpaceFrame,
    loads: Vec<NodeLoad>,
    core: core::Solved,
}

#[pymethods]
impl SpaceFrameResult {
    /// How each node moves: x_mm, y_mm, z_mm, turn_x_rad, turn_y_rad, turn_z_rad.
    #[getter]
    fn nodes(&self) -> Columns {
        Columns::of(self.core.displacements.iter())
            .number("x_mm", |d| d[0])
            .number("y_mm", |d| d[1])
            .number("z_mm", |d| d[2])
            .number("turn_x_rad", |d| d[3])
            .number("turn_y_rad", |d| d[4])
            .number("turn_z_rad", |d| d[5])
            .done()
    }

    /// What the ground exerts on each held node: node, x_n, y_n, z_n, moment_x_n_mm, moment_y_n_mm, moment_z_n_mm.
    #[getter]
    fn reactions(&self) -> Columns {
        Columns::of(self.frame.0.supports().iter().zip(&self.core.reactions))
            .count("node", |(support, _)| support.node)
            .number("x_n", |(_, r)| r[0])
            .number("y_n", |(_, r)| r[1])
            .number("z_n", |(_, r)| r[2])
            .number("moment_x_n_mm", |(_, r)| r[3])
            .number("moment_y_n_mm", |(_, r)| r[4])
            .number("moment_z_n_mm", |(_, r)| r[5])
            .done()
    }

    /// Each member's length, axial force (tension above nought) and, in its own axes, the moments that the nodes exert on
    /// both its ends: torsion_n_mm, start_moment_y_n_mm, start_moment_z_n_mm, end_moment_y_n_mm, end_moment_z_n_mm.
    #[getter]
    fn members(&self) -> Columns {
        Columns::of(self.core.members.iter())
            .number("length_mm", |m| m.length_mm)
            .number("axial_n", |m| m.axial_n)
            .number("torsion_n_mm", |m| m.end_moment_n_mm[0])
            .number("start_moment_y_n_mm", |m| m.start_moment_n_mm[1])
            .number("start_moment_z_n_mm", |m| m.start_moment_n_mm[2])
            .number("end_moment_y_n_mm", |m| m.end_moment_n_mm[1])
            .number("end_moment_z_n_mm", |m| m.end_moment_n_mm[2])
            .done()
    }

    fn __repr__(&self) -> String {
        let most = self.core.displacements.iter().map(|d| d[0].hypot(d[1]).hypot(d[2])).fold(0.0, f64::max);
        format!("<SpaceFrameResult of {} nodes: moves {most:.3} mm at most>", self.core.displacements.len())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let loads: Vec<SpaceLoad> = self.loads.iter().copied().map(SpaceLoad).collect();
        Recipe::of_method(&Bound::new(py, self.frame.clone())?, "solve", &given!(py, "loads" = Some(loads)))
    }
}
