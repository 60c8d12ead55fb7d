//! Plane frames by the direct stiffness method: straight members, stiff against stretching and bending, joined stiffly.
//!
//! Small deflections and elastic members by Euler and Bernoulli (no shear deformation: right for members longer than about
//! ten times their depth). [`Frame::factor`] assembles and factors the stiffness once; any number of load cases follow.
//! Second order, by geometric stiffness, is asked for with [`Frame::second_order`].
//!
//! Axes: x to the right, y up, moments and rotations anticlockwise. Number the nodes along the frame: the factor keeps to
//! the rows' profile.

mod actions;
mod loads;
mod skyline;

use crate::error::Problem;
use crate::mechanics::nodes;
use crate::mechanics::sheet::in_range;

pub use actions::{Actions, EndForces};
pub use loads::Load;
use skyline::Skyline;

/// How a node is held in one direction.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Hold {
    /// Free to move.
    #[default]
    Free,
    /// Held still.
    Held,
    /// Held by a spring: N/mm, or N·mm/rad against turning.
    Spring(f64),
}

/// A held node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Support {
    /// Which node.
    pub node: usize,
    /// Along x.
    pub x: Hold,
    /// Along y.
    pub y: Hold,
    /// Against turning.
    pub turn: Hold,
}

impl Support {
    /// Held in place, free to turn.
    pub fn pinned(node: usize) -> Self {
        Self { node, x: Hold::Held, y: Hold::Held, turn: Hold::Free }
    }

    /// Held in place and against turning.
    pub fn fixed(node: usize) -> Self {
        Self { turn: Hold::Held, ..Self::pinned(node) }
    }

    /// Held in place, turning against a spring, N·mm/rad.
    pub fn sprung(node: usize, n_mm_rad: f64) -> Self {
        Self { turn: Hold::Spring(n_mm_rad), ..Self::pinned(node) }
    }
}

/// A straight member between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Member {
    /// Node at its start.
    pub from: usize,
    /// Node at its end.
    pub to: usize,
    /// Area of its section, mm2.
    pub area_mm2: f64,
    /// Second moment of its section about the axis square to the frame's plane, mm4.
    pub second_moment_mm4: f64,
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
}

/// A plane frame whose sizes are found possible.
#[derive(Debug, Clone, PartialEq)]
pub struct Frame {
    nodes_mm: Vec<[f64; 2]>,
    members: Vec<Member>,
    supports: Vec<Support>,
    /// Length and direction of each member.
    runs: Vec<Run>,
    /// Row of each freedom in the equations, three to a node; none where it is held.
    rows: Vec<Option<usize>>,
}

/// Length and direction of a member.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Run {
    length_mm: f64,
    cos: f64,
    sin: f64,
}

/// More than any bow: the matrix is dense.
const MOST_NODES: usize = 1000;

/// Freedoms of a node.
const FREEDOMS: usize = 3;

impl Frame {
    /// A frame, once its nodes, members and supports are found possible.
    ///
    /// # Errors
    /// No member; a node that is not a number; a member between nodes that are not there or lie within 0.01 mm; a section
    /// or modulus out of range; a support of no node, twice of one, or with a spring that is none.
    pub fn new(nodes_mm: Vec<[f64; 2]>, members: Vec<Member>, supports: Vec<Support>) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        if let Some(problem) = nodes::count_problem(nodes_mm.len(), MOST_NODES) {
            return Err(vec![problem]);
        }
        for (i, [x, y]) in nodes_mm.iter().enumerate() {
            problems.extend(in_range(&format!("nodes[{i}].x"), Some(*x), (-1e6, 1e6), "mm").err());
            problems.extend(in_range(&format!("nodes[{i}].y"), Some(*y), (-1e6, 1e6), "mm").err());
        }
        if members.is_empty() {
            problems.push(nodes::no_members());
        }
        let mut runs = Vec::with_capacity(members.len());
        for (i, member) in members.iter().enumerate() {
            problems.extend(in_range(&format!("members[{i}].area"), Some(member.area_mm2), (1e-3, 1e7), "mm2").err());
            let second =
                in_range(&format!("members[{i}].second_moment"), Some(member.second_moment_mm4), (1e-6, 1e13), "mm4");
            problems.extend(second.err());
            let modulus = in_range(&format!("members[{i}].modulus"), Some(member.modulus_mpa), (1.0, 1e6), "MPa");
            problems.extend(modulus.err());
            match (nodes_mm.get(member.from), nodes_mm.get(member.to)) {
                (Some(from), Some(to)) => {
                    let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
                    let length_mm = dx.hypot(dy);
                    // Not a number was reported with its node.
                    if length_mm < nodes::ONE_PLACE_MM {
                        problems.push(nodes::no_length(i, (member.from, member.to)));
                    }
                    runs.push(Run { length_mm, cos: dx / length_mm, sin: dy / length_mm });
                }
                _ => problems.push(nodes::no_node(i, (member.from, member.to), nodes_mm.len())),
            }
        }
        let mut rows: Vec<Option<usize>> = vec![Some(0); FREEDOMS * nodes_mm.len()];
        let (sound, unsound) = nodes::held_once(supports.iter().map(|support| support.node), nodes_mm.len());
        problems.extend(unsound);
        for ((i, support), _) in supports.iter().enumerate().zip(sound).filter(|(_, sound)| *sound) {
            for (j, (name, hold)) in support.holds().into_iter().enumerate() {
                if let Hold::Spring(stiffness) = hold {
                    let unit = if j == 2 { "N·mm/rad" } else { "N/mm" };
                    problems
                        .extend(in_range(&format!("supports[{i}].{name}"), Some(stiffness), (0.0, 1e18), unit).err());
                } else if hold == Hold::Held {
                    rows[FREEDOMS * support.node + j] = None;
                }
            }
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        nodes::number(&mut rows);
        Ok(Self { nodes_mm, members, supports, runs, rows })
    }

    /// Its nodes, mm.
    pub fn nodes_mm(&self) -> &[[f64; 2]] {
        &self.nodes_mm
    }

    /// Its members.
    pub fn members(&self) -> &[Member] {
        &self.members
    }

    /// Directions in which its nodes can move.
    pub fn freedoms(&self) -> usize {
        self.rows.iter().flatten().count()
    }

    /// Rows of a member's six freedoms.
    fn rows_of(&self, member: &Member) -> [Option<usize>; 6] {
        let start = |node: usize| FREEDOMS * node;
        let (a, b) = (start(member.from), start(member.to));
        [self.rows[a], self.rows[a + 1], self.rows[a + 2], self.rows[b], self.rows[b + 1], self.rows[b + 2]]
    }

    /// Column at which each row of the stiffness begins: the first free direction that a member ties to it.
    fn first_columns(&self) -> Vec<usize> {
        let mut first: Vec<usize> = (0..self.freedoms()).collect();
        for member in &self.members {
            let rows = self.rows_of(member);
            let Some(least) = rows.iter().flatten().min() else { continue };
            for row in rows.iter().flatten() {
                first[*row] = first[*row].min(*least);
            }
        }
        first
    }

    /// The stiffness of all free directions, each member with its axial force, N, tension above nought.
    fn stiffness(&self, axial_n: Option<&[f64]>) -> Skyline {
        let mut all = Skyline::zeros(self.first_columns());
        for (i, (member, run)) in self.members.iter().zip(&self.runs).enumerate() {
            let own = element(member, run, axial_n.map_or(0.0, |n| n[i]));
            let rows = self.rows_of(member);
            for (r, row) in rows.iter().enumerate() {
                let Some(row) = row else { continue };
                for (c, column) in rows.iter().enumerate() {
                    if let Some(column) = column.filter(|column| column <= row) {
                        all.add(*row, column, own[r][c]);
                    }
                }
            }
        }
        for support in &self.supports {
            for (j, (_, hold)) in support.holds().into_iter().enumerate() {
                if let (Hold::Spring(stiffness), Some(row)) = (hold, self.rows[FREEDOMS * support.node + j]) {
                    all.add(row, row, stiffness);
                }
            }
        }
        all
    }

    /// Assembles the stiffness and factors it, for any number of load cases.
    ///
    /// # Errors
    /// A frame that can move without bending: too few supports, or a node that no member holds.
    pub fn factor(&self) -> Result<Factored<'_>, Vec<Problem>> {
        self.factor_with(None).ok_or_else(|| {
            let problem =
                "the frame can move without bending; hold it in enough places, and leave out nodes without members";
            vec![Problem::contradiction("supports", format!("{} held nodes", self.supports.len()), problem)]
        })
    }

    fn factor_with(&self, axial_n: Option<&[f64]>) -> Option<Factored<'_>> {
        let stiffness = self.stiffness(axial_n);
        // A mechanism leaves a pivot of nought or, by rounding, one next to nothing beside the largest stiffness. To be
        // set side by side, stiffnesses against turning are taken at the frame's size.
        let turning = nodes::size_mm(&self.nodes_mm).powi(2);
        let row_scales = self.rows.iter().enumerate().filter(|(_, row)| row.is_some());
        let scales: Vec<f64> = row_scales.map(|(i, _)| if i % FREEDOMS == 2 { turning } else { 1.0 }).collect();
        let largest = stiffness.diagonal().zip(&scales).fold(0.0, |most: f64, (k, scale)| most.max(k / scale));
        let cholesky = stiffness.cholesky()?;
        let sound = cholesky.diagonal().zip(&scales).all(|(pivot, scale)| pivot * pivot / scale > 1e-13 * largest);
        sound.then_some(Factored { frame: self, cholesky, axial_n: axial_n.map(<[f64]>::to_vec) })
    }

    /// Solves for one load case: displacements, reactions, forces in every member.
    ///
    /// # Errors
    /// As [`factor`](Self::factor) and [`Factored::solve`].
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::frame::{Frame, Load, Member, Support};
    /// # fn main() -> Result<(), Vec<raisedbody::error::Problem>> {
    /// // A pinned portal 2200 mm wide and 1800 mm high, pushed at its corner with 1000 N: 147.86 mm of sway.
    /// let member = |from, to, second_moment_mm4| Member { from, to, area_mm2: 1e6, second_moment_mm4, modulus_mpa: 210e3 };
    /// let frame = Frame::new(
    ///     vec![[0.0, 0.0], [0.0, 1800.0], [2200.0, 1800.0], [2200.0, 0.0]],
    ///     vec![member(0, 1, 60e3), member(1, 2, 40e3), member(2, 3, 60e3)],
    ///     vec![Support::pinned(0), Support::pinned(3)],
    /// )?;
    /// let solved = frame.solve(&[Load::Node { node: 1, x_n: 1000.0, y_n: 0.0, moment_n_mm: 0.0 }])?;
    /// assert!((solved.displacements[1][0] - 147.857).abs() < 0.01);
    /// # Ok(())
    /// # }
    /// ```
    pub fn solve(&self, loads: &[Load]) -> Result<Solved, Vec<Problem>> {
        self.factor()?.solve(loads)
    }

    /// Solves with the members' axial forces bending them further: [`Factored::second_order`].
    ///
    /// # Errors
    /// As there and as [`factor`](Self::factor).
    pub fn second_order(&self, loads: &[Load]) -> Result<Solved, Vec<Problem>> {
        self.factor()?.second_order(loads)
    }
}

fn buckled() -> Vec<Problem> {
    let problem = "the frame buckles under this load before it bends in balance; lighten it or stiffen the frame";
    vec![Problem::contradiction("loads", "second order", problem)]
}

impl Support {
    fn holds(&self) -> [(&'static str, Hold); FREEDOMS] {
        [("x", self.x), ("y", self.y), ("turn", self.turn)]
    }
}

/// Stiffness of a member in the frame's axes; `axial_n` bends it further (above nought: tension, which straightens).
///
/// Elementary beam theory (Euler and Bernoulli) and the consistent geometric stiffness of a cubic deflection, as textbooks
/// of the finite element method give both (Przemieniecki, Theory of Matrix Structural Analysis, from memory).
fn element(member: &Member, run: &Run, axial_n: f64) -> [[f64; 6]; 6] {
    let Run { length_mm: l, cos: c, sin: s } = *run;
    let (ea, ei) = (member.area_mm2 * member.modulus_mpa, member.second_moment_mm4 * member.modulus_mpa);
    let stretch = ea / l;
    let across = 12.0 * ei / l.powi(3) + 1.2 * axial_n / l;
    let mixed = 6.0 * ei / (l * l) + 0.1 * axial_n;
    let (near, far) = (4.0 * ei / l + 2.0 * axial_n * l / 15.0, 2.0 * ei / l - axial_n * l / 30.0);
    let (xx, yy, xy) = (stretch * c * c + across * s * s, stretch * s * s + across * c * c, (stretch - across) * c * s);
    let (xt, yt) = (-mixed * s, mixed * c);
    [
        [xx, xy, xt, -xx, -xy, xt],
        [xy, yy, yt, -xy, -yy, yt],
        [xt, yt, near, -xt, -yt, far],
        [-xx, -xy, -xt, xx, xy, -xt],
        [-xy, -yy, -yt, xy, yy, -yt],
        [xt, yt, far, -xt, -yt, near],
    ]
}

/// A frame whose stiffness is factored.
pub struct Factored<'a> {
    frame: &'a Frame,
    cholesky: Skyline,
    axial_n: Option<Vec<f64>>,
}

/// The answer to one load case.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// Of each node: along x and y, mm, and turning, rad.
    pub displacements: Vec<[f64; 3]>,
    /// Of each support, in the frame's order: along x and y, N, and moment, N·mm, that the ground exerts on the frame.
    pub reactions: Vec<[f64; 3]>,
    /// Forces along each member.
    pub members: Vec<Actions>,
}

impl Factored<'_> {
    /// Solves with the members' axial forces bending them further (P-delta), by geometric stiffness, to 1 in 10⁹.
    ///
    /// A member's deflection between its nodes counts by its cubic shape only: split a slender member in two or more. The
    /// moments between nodes leave that deflection out.
    ///
    /// # Errors
    /// As [`solve`](Self::solve); a load at or beyond the one that buckles the frame.
    pub fn second_order(&self, loads: &[Load]) -> Result<Solved, Vec<Problem>> {
        let frame = self.frame;
        let mut solved = self.solve(loads)?;
        for _ in 0..50 {
            let axial_n: Vec<f64> = solved.members.iter().map(Actions::mean_axial_n).collect();
            let next = frame.factor_with(Some(&axial_n)).ok_or_else(buckled)?.solve(loads)?;
            let moved = |a: &Solved, b: &Solved| {
                let pairs = a.displacements.iter().flatten().zip(b.displacements.iter().flatten());
                pairs.fold(0.0, |most: f64, (a, b)| most.max((a - b).abs()))
            };
            let size = next.displacements.iter().flatten().fold(0.0, |most: f64, d| most.max(d.abs()));
            if moved(&solved, &next) <= 1e-9 * size {
                return Ok(next);
            }
            solved = next;
        }
        Err(buckled())
    }

    /// Solves for one load case.
    ///
    /// # Errors
    /// A load on a node or member that is not there, at a place that is not on the member, or not a number.
    pub fn solve(&self, loads: &[Load]) -> Result<Solved, Vec<Problem>> {
        let frame = self.frame;
        let on_members = loads::by_member(frame, loads)?;
        let mut forces = vec![0.0; frame.freedoms()];
        let mut add = |node: usize, force: [f64; FREEDOMS]| {
            for (j, value) in force.into_iter().enumerate() {
                if let Some(row) = frame.rows[FREEDOMS * node + j] {
                    forces[row] += value;
                }
            }
        };
        for load in loads {
            if let Load::Node { node, x_n, y_n, moment_n_mm } = *load {
                add(node, [x_n, y_n, moment_n_mm]);
            }
        }
        for ((member, run), own) in frame.members.iter().zip(&frame.runs).zip(&on_members) {
            let (start, end) = loads::equivalent(own, run);
            add(member.from, start);
            add(member.to, end);
        }
        self.cholesky.solve(&mut forces);
        let moved = |node: usize, j: usize| frame.rows[FREEDOMS * node + j].map_or(0.0, |row| forces[row]);
        let displacements: Vec<[f64; 3]> =
            (0..frame.nodes_mm.len()).map(|node| [moved(node, 0), moved(node, 1), moved(node, 2)]).collect();
        let mut pulls = vec![[0.0; FREEDOMS]; frame.nodes_mm.len()];
        let mut members = Vec::with_capacity(frame.members.len());
        for (i, ((member, run), own)) in frame.members.iter().zip(&frame.runs).zip(on_members).enumerate() {
            let stiffness = element(member, run, self.axial_n.as_ref().map_or(0.0, |n| n[i]));
            let (a, b) = (displacements[member.from], displacements[member.to]);
            let d = [a[0], a[1], a[2], b[0], b[1], b[2]];
            let (start, end) = loads::equivalent(&own, run);
            let fixed = [start[0], start[1], start[2], end[0], end[1], end[2]];
            let ends: [f64; 6] =
                std::array::from_fn(|r| stiffness[r].iter().zip(d).map(|(k, d)| k * d).sum::<f64>() - fixed[r]);
            for j in 0..FREEDOMS {
                pulls[member.from][j] += ends[j];
                pulls[member.to][j] += ends[FREEDOMS + j];
            }
            members.push(Actions::new(run, ends, own));
        }
        let reaction = |support: &Support| {
            // What the members pull with on the node, less what the loads at it take.
            let mut at_node = [0.0; FREEDOMS];
            for load in loads {
                if let Load::Node { node, x_n, y_n, moment_n_mm } = *load
                    && node == support.node
                {
                    at_node[0] += x_n;
                    at_node[1] += y_n;
                    at_node[2] += moment_n_mm;
                }
            }
            let pull = pulls[support.node];
            let held = support.holds();
            std::array::from_fn(|j| if held[j].1 == Hold::Free { 0.0 } else { pull[j] - at_node[j] })
        };
        let reactions = frame.supports.iter().map(reaction).collect();
        Ok(Solved { displacements, reactions, members })
    }
}
