//! Space frames and trusses by the direct stiffness method: straight beams joined stiffly, and bars pinned at both ends.
//!
//! Small deflections and elastic members. A beam has twelve freedoms: stretching, bending about both its axes by Euler and
//! Bernoulli (no shear deformation), twisting by St Venant (no warping). A bar only stretches. Loads act on nodes.
//! [`SpaceFrame::factor`] assembles and factors the stiffness once; any number of load cases follow.
//! [`SpaceFrame::critical_load_factor`] says how many times a load buckles the frame (linearised, by geometric stiffness).
//!
//! Axes: x, y and z right-handed, z up where the default of a beam's own axes is to mean what it says; moments and
//! rotations by the right-hand rule, in the order x, y, z. The linear algebra is `nalgebra`'s.

mod element;

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

use crate::error::Problem;
use crate::mechanics::nodes;
use crate::mechanics::sheet::in_range;
use crate::stop::look;

pub use crate::mechanics::frame::Hold;
use element::{Matrix, Run, Vector};

/// A held node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Support {
    /// Which node.
    pub node: usize,
    /// Along x, y and z; springs in N/mm.
    pub moves: [Hold; 3],
    /// Against turning about x, y and z; springs in N·mm/rad.
    pub turns: [Hold; 3],
}

impl Support {
    /// Free in all directions, to be held in some of them.
    pub fn free(node: usize) -> Self {
        Self { node, moves: [Hold::Free; 3], turns: [Hold::Free; 3] }
    }

    /// Held in place, free to turn.
    pub fn pinned(node: usize) -> Self {
        Self { moves: [Hold::Held; 3], ..Self::free(node) }
    }

    /// Held in place and against turning.
    pub fn fixed(node: usize) -> Self {
        Self { turns: [Hold::Held; 3], ..Self::pinned(node) }
    }

    fn holds(&self) -> [Hold; FREEDOMS] {
        let ([x, y, z], [rx, ry, rz]) = (self.moves, self.turns);
        [x, y, z, rx, ry, rz]
    }
}

/// What makes a member a beam rather than a bar.
///
/// Its own axes: x runs from its start to its end; y lies in the plane of its run and of `up`, to the side of `up`; z makes
/// them right-handed. Without `up` that is the frame's z, so that y points upwards and z lies level; for a member within
/// one part in a thousand of upright it is the frame's x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bending {
    /// Second moment of the section about the member's own y, mm4: bending in its x-z plane, sideways.
    pub second_moment_y_mm4: f64,
    /// Second moment of the section about the member's own z, mm4: bending in its x-y plane, up and down.
    pub second_moment_z_mm4: f64,
    /// Torsion constant of St Venant, mm4.
    pub torsion_mm4: f64,
    /// Shear modulus, MPa.
    pub shear_modulus_mpa: f64,
    /// Where the member's own y points to, where the default does not hold.
    pub up: Option<[f64; 3]>,
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
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
    /// How it bends and twists; none for a bar pinned at both ends.
    pub bending: Option<Bending>,
}

/// A load on a node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NodeLoad {
    /// Which node.
    pub node: usize,
    /// Along x, y and z, N.
    pub force_n: [f64; 3],
    /// About x, y and z, N·mm.
    pub moment_n_mm: [f64; 3],
}

impl NodeLoad {
    /// A force alone, N.
    pub fn force(node: usize, force_n: [f64; 3]) -> Self {
        Self { node, force_n, moment_n_mm: [0.0; 3] }
    }

    fn values(&self) -> [f64; FREEDOMS] {
        let ([x, y, z], [mx, my, mz]) = (self.force_n, self.moment_n_mm);
        [x, y, z, mx, my, mz]
    }
}

/// A space frame whose sizes are found possible.
#[derive(Debug, Clone, PartialEq)]
pub struct SpaceFrame {
    nodes_mm: Vec<[f64; 3]>,
    members: Vec<Member>,
    supports: Vec<Support>,
    /// Length and own axes of each member.
    runs: Vec<Run>,
    /// Row of each freedom in the equations, six to a node; none where it is held, or where only bars meet and nothing can
    /// turn.
    rows: Vec<Option<usize>>,
}

/// The matrices are dense.
const MOST_NODES: usize = 200;

/// Freedoms of a node.
const FREEDOMS: usize = 6;

/// Directions in words, in the order of the freedoms.
const DIRECTIONS: [&str; FREEDOMS] = ["along x", "along y", "along z", "about x", "about y", "about z"];

impl SpaceFrame {
    /// A frame, once its nodes, members and supports are found possible.
    ///
    /// # Errors
    /// No member; a node that is not a number; a member between nodes that are not there or lie within 0.01 mm; a section
    /// or modulus out of range; `up` along the member; a support of no node, twice of one, or with a spring that is none.
    pub fn new(nodes_mm: Vec<[f64; 3]>, members: Vec<Member>, supports: Vec<Support>) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        if let Some(problem) = nodes::count_problem(nodes_mm.len(), MOST_NODES) {
            return Err(vec![problem]);
        }
        for (i, node) in nodes_mm.iter().enumerate() {
            for (axis, value) in ["x", "y", "z"].into_iter().zip(node) {
                problems.extend(in_range(&format!("nodes[{i}].{axis}"), Some(*value), (-1e6, 1e6), "mm").err());
            }
        }
        if members.is_empty() {
            problems.push(nodes::no_members());
        }
        let mut runs = Vec::with_capacity(members.len());
        let mut turns = vec![false; nodes_mm.len()];
        for (i, member) in members.iter().enumerate() {
            problems.extend(section_problems(i, member));
            let ends = (member.from, member.to);
            let (Some(from), Some(to)) = (nodes_mm.get(member.from), nodes_mm.get(member.to)) else {
                problems.push(nodes::no_node(i, ends, nodes_mm.len()));
                continue;
            };
            if Vector::from(*to).metric_distance(&Vector::from(*from)) < nodes::ONE_PLACE_MM {
                problems.push(nodes::no_length(i, ends));
                continue;
            }
            let up = member.bending.and_then(|b| b.up);
            match Run::new(*from, *to, up) {
                Some(run) => runs.push(run),
                // Not a number was reported with its node.
                None if up.is_some() => {
                    let problem = "points along the member, or nowhere; choose a direction across it";
                    let written = format!("{:?}", up.unwrap_or_default());
                    problems.push(Problem::contradiction(format!("members[{i}].up"), written, problem));
                }
                None => {}
            }
            if member.bending.is_some() {
                (turns[member.from], turns[member.to]) = (true, true);
            }
        }
        let mut rows: Vec<Option<usize>> = turns
            .iter()
            .flat_map(|&turns| std::array::from_fn::<_, FREEDOMS, _>(|j| (j < 3 || turns).then_some(0)))
            .collect();
        let (sound, unsound) = nodes::held_once(supports.iter().map(|support| support.node), nodes_mm.len());
        problems.extend(unsound);
        for ((i, support), _) in supports.iter().enumerate().zip(sound).filter(|(_, sound)| *sound) {
            for (j, hold) in support.holds().into_iter().enumerate() {
                if let Hold::Spring(stiffness) = hold {
                    let (unit, name) = if j < 3 { ("N/mm", "moves") } else { ("N·mm/rad", "turns") };
                    let path = format!("supports[{i}].{name}[{}]", j % 3);
                    problems.extend(in_range(&path, Some(stiffness), (0.0, 1e18), unit).err());
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
    pub fn nodes_mm(&self) -> &[[f64; 3]] {
        &self.nodes_mm
    }

    /// Its members.
    pub fn members(&self) -> &[Member] {
        &self.members
    }

    /// Its supports.
    pub fn supports(&self) -> &[Support] {
        &self.supports
    }

    /// Directions in which its nodes can move.
    pub fn freedoms(&self) -> usize {
        self.rows.iter().flatten().count()
    }

    /// Rows of a member's twelve freedoms.
    fn rows_of(&self, member: &Member) -> [Option<usize>; 12] {
        std::array::from_fn(|j| {
            let node = if j < FREEDOMS { member.from } else { member.to };
            self.rows[FREEDOMS * node + j % FREEDOMS]
        })
    }

    /// Adds up one matrix of each member over the free directions.
    fn assembled(&self, of: impl Fn(usize, &Member, &Run) -> Matrix) -> DMatrix<f64> {
        let count = self.freedoms();
        let mut all = DMatrix::zeros(count, count);
        for (i, (member, run)) in self.members.iter().zip(&self.runs).enumerate() {
            let own = of(i, member, run);
            let rows = self.rows_of(member);
            for (r, row) in rows.iter().enumerate() {
                let Some(row) = row else { continue };
                for (c, column) in rows.iter().enumerate() {
                    if let Some(column) = column {
                        all[(*row, *column)] += own[(r, c)];
                    }
                }
            }
        }
        all
    }

    fn stiffness(&self) -> DMatrix<f64> {
        let mut all = self.assembled(|_, member, run| run.stiffness(member));
        for support in &self.supports {
            for (j, hold) in support.holds().into_iter().enumerate() {
                if let (Hold::Spring(stiffness), Some(row)) = (hold, self.rows[FREEDOMS * support.node + j]) {
                    all[(row, row)] += stiffness;
                }
            }
        }
        all
    }

    /// Assembles the stiffness and factors it, for any number of load cases.
    ///
    /// # Errors
    /// A frame that can move without straining: told with the node and the direction that runs away.
    pub fn factor(&self) -> Result<Factored<'_>, Vec<Problem>> {
        let stiffness = self.stiffness();
        // To be set side by side, stiffnesses against turning are taken at the frame's size.
        let size = nodes::size_mm(&self.nodes_mm);
        let free = self.rows.iter().enumerate().filter(|(_, row)| row.is_some());
        let freedoms: Vec<usize> = free.map(|(i, _)| i).collect();
        let scales: Vec<f64> = freedoms.iter().map(|i| if i % FREEDOMS < 3 { 1.0 } else { size }).collect();
        let scaled =
            DMatrix::from_fn(freedoms.len(), freedoms.len(), |r, c| stiffness[(r, c)] / (scales[r] * scales[c]));
        let largest = scaled.diagonal().iter().copied().fold(0.0, f64::max);
        // A mechanism leaves a pivot of nought or, by rounding, one next to nothing beside the largest stiffness.
        if let Some(cholesky) = Cholesky::new(stiffness) {
            let pivots = cholesky.l_dirty().diagonal();
            if pivots.iter().zip(&scales).all(|(pivot, scale)| (pivot / scale).powi(2) > 1e-13 * largest) {
                return Ok(Factored { frame: self, cholesky });
            }
        }
        let runs_away = softest_motion(&scaled, largest).and_then(|motion| {
            let most = motion.iter().enumerate().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs())).map(|(row, _)| row);
            most.and_then(|row| freedoms.get(row).copied())
        });
        let what = runs_away.map_or_else(
            || "the frame can move".to_owned(),
            |i| format!("node {} can move {}", i / FREEDOMS, DIRECTIONS[i % FREEDOMS]),
        );
        let problem = format!(
            "{what} without straining any member: a mechanism; hold it, brace it, or leave out a node without members"
        );
        Err(vec![Problem::contradiction("supports", format!("{} held nodes", self.supports.len()), problem)])
    }

    /// Solves for one load case.
    ///
    /// # Errors
    /// As [`factor`](Self::factor) and [`Factored::solve`].
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::space_frame::{Member, NodeLoad, SpaceFrame, Support};
    /// # fn main() -> Result<(), Vec<raisedbody::error::Problem>> {
    /// // Three bars to one point, 2 m up and 1 m out: a push of 3000 N straight down is shared evenly, 3000/3 · √5/2 N each.
    /// let feet = [0.0_f64, 120.0, 240.0].map(|a| [1000.0 * a.to_radians().cos(), 1000.0 * a.to_radians().sin(), 0.0]);
    /// let nodes = [feet.to_vec(), vec![[0.0, 0.0, 2000.0]]].concat();
    /// let bar = |from| Member { from, to: 3, area_mm2: 200.0, modulus_mpa: 205e3, bending: None };
    /// let tripod = SpaceFrame::new(nodes, (0..3).map(bar).collect(), (0..3).map(Support::pinned).collect())?;
    /// let solved = tripod.solve(&[NodeLoad::force(3, [0.0, 0.0, -3000.0])])?;
    /// assert!((solved.members[0].axial_n + 1000.0 * 5.0_f64.sqrt() / 2.0).abs() < 1e-6);
    /// # Ok(())
    /// # }
    /// ```
    pub fn solve(&self, loads: &[NodeLoad]) -> Result<Solved, Vec<Problem>> {
        self.factor()?.solve(loads)
    }

    /// How many times these loads buckle the frame; none where they press no member.
    ///
    /// Linearised: the axial forces of the first-order answer, grown in proportion, take the stiffness away (geometric
    /// stiffness: `K + λ K_g` is singular). A beam's deflection between its nodes counts by its cubic shape: split a slender
    /// one in two or more. Twisting under thrust is left out.
    ///
    /// # Errors
    /// As [`solve`](Self::solve).
    pub fn critical_load_factor(&self, loads: &[NodeLoad]) -> Result<Option<f64>, Vec<Problem>> {
        let factored = self.factor()?;
        let solved = factored.solve(loads)?;
        let geometric = self.assembled(|i, member, run| run.geometric(member, solved.members[i].axial_n));
        // L⁻¹ K_g L⁻ᵀ has the eigenvalues −1/λ.
        let lower = factored.cholesky.l();
        look();
        let Some(half) = lower.solve_lower_triangular(&geometric) else { return Ok(None) };
        let Some(whole) = lower.solve_lower_triangular(&half.transpose()) else { return Ok(None) };
        look();
        let values = whole.symmetric_eigenvalues();
        let size = values.iter().fold(0.0, |most: f64, v| most.max(v.abs()));
        let softening = -values.iter().copied().fold(0.0, f64::min);
        Ok((softening > 1e-12 * size && softening > 0.0).then(|| 1.0 / softening))
    }
}

/// The motion that strains least, by inverse iteration; each round takes all stiffer motions far down beside it. None where the
/// stiffness is no stiffness.
fn softest_motion(stiffness: &DMatrix<f64>, largest: f64) -> Option<DVector<f64>> {
    const ROUNDS: usize = 50;
    // A little stiffness everywhere, so that it can be factored; it turns no motion. As little as rounding lets through, so that soft
    // motions are told from those that strain nothing.
    let size = if largest > 0.0 { largest } else { 1.0 };
    let factored = [1e-13, 1e-12, 1e-11, 1e-10, 1e-9].into_iter().find_map(|share| {
        look();
        let mut little_more = stiffness.clone();
        (0..stiffness.nrows()).for_each(|i| little_more[(i, i)] += share * size);
        Cholesky::new(little_more)
    })?;
    // Alike in none of its places: a motion that is square to it would be by chance, and comes in by rounding.
    let mut motion = DVector::from_fn(stiffness.nrows(), |i, _| 1.0 + (i as f64).sin() / 2.0);
    for _ in 0..ROUNDS {
        factored.solve_mut(&mut motion);
        motion.normalize_mut();
    }
    Some(motion)
}

fn section_problems(i: usize, member: &Member) -> Vec<Problem> {
    let value = |name: &str, value: f64, bounds: (f64, f64), unit: &str| {
        in_range(&format!("members[{i}].{name}"), Some(value), bounds, unit).err()
    };
    let mut problems: Vec<Problem> =
        [value("area", member.area_mm2, (1e-3, 1e9), "mm2"), value("modulus", member.modulus_mpa, (1.0, 1e6), "MPa")]
            .into_iter()
            .flatten()
            .collect();
    if let Some(b) = &member.bending {
        let own = [
            value("second_moment_y", b.second_moment_y_mm4, (1e-6, 1e15), "mm4"),
            value("second_moment_z", b.second_moment_z_mm4, (1e-6, 1e15), "mm4"),
            value("torsion", b.torsion_mm4, (1e-6, 1e15), "mm4"),
            value("shear_modulus", b.shear_modulus_mpa, (1.0, 1e6), "MPa"),
        ];
        problems.extend(own.into_iter().flatten());
    }
    problems
}

/// A frame whose stiffness is factored.
pub struct Factored<'a> {
    frame: &'a SpaceFrame,
    cholesky: Cholesky<f64, Dyn>,
}

/// Forces at the two ends of a member, in its own axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MemberForces {
    /// Its length, mm.
    pub length_mm: f64,
    /// Along it, N; tension above nought.
    pub axial_n: f64,
    /// Of the node on the start of the member, along its own y and z, N.
    pub shear_n: [f64; 2],
    /// Of the node on the start, about its own x, y and z, N·mm.
    pub start_moment_n_mm: [f64; 3],
    /// Of the node on the end.
    pub end_moment_n_mm: [f64; 3],
}

/// The answer to one load case.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// Of each node: along x, y and z, mm, and turning about them, rad. A node at which only bars meet does not turn.
    pub displacements: Vec<[f64; 6]>,
    /// Of each support, in the frame's order: force along x, y and z, N, and moment about them, N·mm, that the ground
    /// exerts on the frame.
    pub reactions: Vec<[f64; 6]>,
    /// Forces of each member.
    pub members: Vec<MemberForces>,
}

impl Factored<'_> {
    /// Solves for one load case.
    ///
    /// # Errors
    /// A load on a node that is not there, or not a number; a moment on a node at which only bars meet.
    pub fn solve(&self, loads: &[NodeLoad]) -> Result<Solved, Vec<Problem>> {
        let frame = self.frame;
        let mut problems = Vec::new();
        let mut at_nodes = vec![[0.0; FREEDOMS]; frame.nodes_mm.len()];
        for (i, load) in loads.iter().enumerate() {
            let Some(sum) = at_nodes.get_mut(load.node) else {
                let allowed = format!("0 to {}", frame.nodes_mm.len().saturating_sub(1));
                problems.push(Problem::out_of_range(format!("loads[{i}].node"), load.node, allowed));
                continue;
            };
            for (j, value) in load.values().into_iter().enumerate() {
                let (name, unit, most) = if j < 3 { ("force", "N", 1e9) } else { ("moment", "N·mm", 1e12) };
                let path = format!("loads[{i}].{name}[{}]", j % 3);
                problems.extend(in_range(&path, Some(value), (-most, most), unit).err());
                let row = FREEDOMS * load.node + j;
                let held = frame.supports.iter().any(|s| s.node == load.node && s.holds()[j] == Hold::Held);
                if value.abs() > 0.0 && frame.rows[row].is_none() && !held {
                    let problem = "only bars meet at this node, and they turn freely: it takes no moment";
                    problems.push(Problem::contradiction(path, format!("{value} N·mm"), problem));
                }
                sum[j] += value;
            }
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let mut forces = DVector::zeros(frame.freedoms());
        for (row, value) in frame.rows.iter().zip(at_nodes.iter().flatten()) {
            if let Some(row) = row {
                forces[*row] = *value;
            }
        }
        self.cholesky.solve_mut(&mut forces);
        let moved = |node: usize, j: usize| frame.rows[FREEDOMS * node + j].map_or(0.0, |row| forces[row]);
        let displacements: Vec<[f64; FREEDOMS]> =
            (0..frame.nodes_mm.len()).map(|node| std::array::from_fn(|j| moved(node, j))).collect();
        let mut pulls = vec![[0.0; FREEDOMS]; frame.nodes_mm.len()];
        let mut members = Vec::with_capacity(frame.members.len());
        for (member, run) in frame.members.iter().zip(&frame.runs) {
            let (own, global) = run.end_forces(member, &displacements[member.from], &displacements[member.to]);
            for j in 0..FREEDOMS {
                pulls[member.from][j] += global[j];
                pulls[member.to][j] += global[FREEDOMS + j];
            }
            members.push(MemberForces {
                length_mm: run.length_mm,
                axial_n: own[6],
                shear_n: [own[1], own[2]],
                start_moment_n_mm: [own[3], own[4], own[5]],
                end_moment_n_mm: [own[9], own[10], own[11]],
            });
        }
        let reaction = |support: &Support| {
            // What the members pull with on the node, less what the loads at it take.
            let (pull, load, holds) = (pulls[support.node], at_nodes[support.node], support.holds());
            std::array::from_fn(|j| if holds[j] == Hold::Free { 0.0 } else { pull[j] - load[j] })
        };
        let reactions = frame.supports.iter().map(reaction).collect();
        Ok(Solved { displacements, reactions, members })
    }
}
