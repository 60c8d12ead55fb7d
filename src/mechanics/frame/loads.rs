//! Loads on a frame, and what a loaded member passes on to its nodes.

use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::{Frame, Run};

/// A load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// On a node.
    Node {
        /// Which.
        node: usize,
        /// Along x, N.
        x_n: f64,
        /// Along y, N.
        y_n: f64,
        /// Anticlockwise, N·mm.
        moment_n_mm: f64,
    },
    /// Spread evenly over part of a member, in the frame's directions, per length of the member.
    Spread {
        /// Which member.
        member: usize,
        /// Where it begins, in parts of the member's length from its start.
        from: f64,
        /// Where it ends.
        to: f64,
        /// Along x, N/mm.
        x_n_mm: f64,
        /// Along y, N/mm.
        y_n_mm: f64,
    },
    /// At a point of a member.
    Point {
        /// Which member.
        member: usize,
        /// Where, in parts of the member's length from its start.
        at: f64,
        /// Along x, N.
        x_n: f64,
        /// Along y, N.
        y_n: f64,
    },
}

impl Load {
    /// Spread over the whole of a member.
    pub fn whole(member: usize, x_n_mm: f64, y_n_mm: f64) -> Self {
        Self::Spread { member, from: 0.0, to: 1.0, x_n_mm, y_n_mm }
    }
}

/// A load on a member in its own directions: along it and across it (to the left of its run).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Own {
    /// From `a` to `b`, mm from the start: N/mm.
    Spread { a: f64, b: f64, along: f64, across: f64 },
    /// At `x`, mm from the start: N.
    Point { x: f64, along: f64, across: f64 },
}

/// The loads of each member in its own directions.
pub(super) fn by_member(frame: &Frame, loads: &[Load]) -> Result<Vec<Vec<Own>>, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut own: Vec<Vec<Own>> = vec![Vec::new(); frame.members.len()];
    for (i, load) in loads.iter().enumerate() {
        let path = |name: &str| format!("loads[{i}].{name}");
        let number = |name: &str, value: f64, unit: &str| in_range(&path(name), Some(value), (-1e9, 1e9), unit).err();
        let place = |name: &str, value: f64| in_range(&path(name), Some(value), (0.0, 1.0), "of the length").err();
        let none = |what: &str, index: usize, count: usize| {
            let allowed = format!("0 to {}", count.saturating_sub(1));
            (index >= count).then(|| Problem::out_of_range(path(what), index, allowed))
        };
        let before = problems.len();
        match *load {
            Load::Node { node, x_n, y_n, moment_n_mm } => {
                problems.extend(none("node", node, frame.nodes_mm.len()));
                problems.extend(number("x", x_n, "N"));
                problems.extend(number("y", y_n, "N"));
                problems.extend(in_range(&path("moment"), Some(moment_n_mm), (-1e12, 1e12), "N·mm").err());
            }
            Load::Spread { member, from, to, x_n_mm, y_n_mm } => {
                problems.extend(none("member", member, frame.members.len()));
                problems.extend(number("x", x_n_mm, "N/mm"));
                problems.extend(number("y", y_n_mm, "N/mm"));
                problems.extend(place("from", from));
                problems.extend(place("to", to));
                if from > to {
                    let problem = format!("ends at {to}, before it begins; exchange the two");
                    problems.push(Problem::contradiction(path("from"), from, problem));
                }
                if problems.len() == before {
                    let run = &frame.runs[member];
                    let (along, across) = turned(run, x_n_mm, y_n_mm);
                    let (a, b) = (from * run.length_mm, to * run.length_mm);
                    own[member].push(Own::Spread { a, b, along, across });
                }
            }
            Load::Point { member, at, x_n, y_n } => {
                problems.extend(none("member", member, frame.members.len()));
                problems.extend(number("x", x_n, "N"));
                problems.extend(number("y", y_n, "N"));
                problems.extend(place("at", at));
                if problems.len() == before {
                    let run = &frame.runs[member];
                    let (along, across) = turned(run, x_n, y_n);
                    own[member].push(Own::Point { x: at * run.length_mm, along, across });
                }
            }
        }
    }
    if problems.is_empty() { Ok(own) } else { Err(problems) }
}

/// From the frame's directions to the member's.
fn turned(run: &Run, x: f64, y: f64) -> (f64, f64) {
    (x * run.cos + y * run.sin, y * run.cos - x * run.sin)
}

/// Forces on the two nodes that do the same work as the loads on the member, in the frame's directions.
///
/// With the shape functions of a beam: 1 − 3ξ² + 2ξ³, ξ(1 − ξ)²L and their mirror images, ξ = x/L; 1 − ξ and ξ along it.
/// They are cubic, so that two Gauss points make the integral over a spread load exact.
pub(super) fn equivalent(own: &[Own], run: &Run) -> ([f64; 3], [f64; 3]) {
    let l = run.length_mm;
    // Along, across and moment at both ends.
    let mut ends = [0.0; 6];
    let mut point = |x: f64, along: f64, across: f64| {
        let u = x / l;
        let v = 1.0 - u;
        ends[0] += along * v;
        ends[3] += along * u;
        ends[1] += across * v * v * (1.0 + 2.0 * u);
        ends[4] += across * u * u * (1.0 + 2.0 * v);
        ends[2] += across * u * v * v * l;
        ends[5] -= across * u * u * v * l;
    };
    for load in own {
        match *load {
            Own::Point { x, along, across } => point(x, along, across),
            Own::Spread { a, b, along, across } => {
                let (middle, half) = (f64::midpoint(a, b), 0.5 * (b - a));
                for side in [-1.0, 1.0] {
                    point(middle + side * half / 3.0_f64.sqrt(), along * half, across * half);
                }
            }
        }
    }
    let back = |along: f64, across: f64| (along * run.cos - across * run.sin, along * run.sin + across * run.cos);
    let ((x1, y1), (x2, y2)) = (back(ends[0], ends[1]), back(ends[3], ends[4]));
    ([x1, y1, ends[2]], [x2, y2, ends[5]])
}
