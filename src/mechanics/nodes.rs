//! What nodes of plane and space frames have in common: members between nodes that are there, each node held once, free
//! directions numbered.

use crate::error::Problem;

/// A frame with this many nodes of at most so many.
pub(super) fn count_problem(nodes: usize, most: usize) -> Option<Problem> {
    (nodes > most).then(|| Problem::out_of_range("nodes", format!("{nodes} nodes"), format!("at most {most}")))
}

/// A frame without members.
pub(super) fn no_members() -> Problem {
    Problem::missing("members", "write the two nodes and the section of each member")
}

/// A member between nodes that are not both there.
pub(super) fn no_node(member: usize, (from, to): (usize, usize), nodes: usize) -> Problem {
    let allowed = format!("nodes 0 to {}", nodes.saturating_sub(1));
    Problem::out_of_range(format!("members[{member}]"), format!("{from} to {to}"), allowed)
}

/// Nodes nearer to each other than this lie in one place, mm.
pub(super) const ONE_PLACE_MM: f64 = 0.01;

/// A member between nodes that lie in one place.
pub(super) fn no_length(member: usize, (from, to): (usize, usize)) -> Problem {
    let problem = "its two nodes lie in one place; leave the member out or move a node";
    Problem::contradiction(format!("members[{member}]"), format!("{from} to {to}"), problem)
}

/// Which supports hold nodes that are there and not held already; of the others, why not.
pub(super) fn held_once(held: impl Iterator<Item = usize>, nodes: usize) -> (Vec<bool>, Vec<Problem>) {
    let (mut seen, mut problems) = (vec![false; nodes], Vec::new());
    let sound = held.enumerate().map(|(i, node)| {
        let path = format!("supports[{i}].node");
        match seen.get_mut(node) {
            None => problems.push(Problem::out_of_range(path, node, format!("0 to {}", nodes.saturating_sub(1)))),
            Some(true) => problems.push(Problem::contradiction(path, node, "this node is held already")),
            Some(first) => *first = true,
        }
        node < nodes
    });
    (sound.collect(), problems)
}

/// Numbers the free directions, one after another.
pub(super) fn number(rows: &mut [Option<usize>]) {
    for (count, row) in rows.iter_mut().flatten().enumerate() {
        *row = count;
    }
}

/// The greatest overall measure along any axis, mm.
pub(super) fn size_mm<const AXES: usize>(nodes_mm: &[[f64; AXES]]) -> f64 {
    let extent = |axis: usize| {
        let along = || nodes_mm.iter().filter_map(|node| node.get(axis));
        along().fold(f64::NEG_INFINITY, |a, b| a.max(*b)) - along().fold(f64::INFINITY, |a, b| a.min(*b))
    };
    (0..AXES).map(extent).fold(f64::NEG_INFINITY, f64::max)
}
