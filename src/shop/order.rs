//! What goes on before what: sheets by their laps, tasks by what they wait for; and the shortest loop where nothing can.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

use petgraph::Direction;
use petgraph::algo::{astar, dijkstra, kosaraju_scc};
use petgraph::graph::{DiGraph, NodeIndex};
use thiserror::Error;

use crate::error::Problem;
use crate::stop::look;

/// An order of `count` things in which both of each pair `(first, then)` keep their order: whenever several could be next, the
/// one with the least key is, then the one with the least index.
///
/// # Errors
/// The shortest loop, as indices: each goes before the next, and the last before the first.
///
/// # Example
/// ```
/// use raisedbody::shop::order::in_order;
/// assert_eq!(in_order(3, &[(2, 0)], |i| i), Ok(vec![1, 2, 0]));
/// assert_eq!(in_order(3, &[(0, 1), (1, 2), (2, 0), (2, 1)], |i| i), Err(vec![1, 2]));
/// ```
pub fn in_order<K: Ord>(
    count: usize,
    pairs: &[(usize, usize)],
    key: impl Fn(usize) -> K,
) -> Result<Vec<usize>, Vec<usize>> {
    let graph = graph(count, pairs);
    let incoming = |node| graph.neighbors_directed(node, Direction::Incoming).count();
    let mut waits_for: Vec<usize> = graph.node_indices().map(incoming).collect();
    let ready = |i: usize| Reverse((key(i), i));
    let free = waits_for.iter().enumerate().filter(|(_, waits)| **waits == 0);
    let mut next: BinaryHeap<_> = free.map(|(i, _)| ready(i)).collect();
    let mut order = Vec::with_capacity(waits_for.len());
    while let Some(Reverse((_, from))) = next.pop() {
        look();
        order.push(from);
        for to in graph.neighbors(NodeIndex::new(from)) {
            if let Some(waits) = waits_for.get_mut(to.index()) {
                *waits -= 1;
                if *waits == 0 {
                    next.push(ready(to.index()));
                }
            }
        }
    }
    if order.len() == waits_for.len() { Ok(order) } else { Err(shortest_loop(&graph)) }
}

type Graph = DiGraph<(), ()>;

/// Each pair once; `count` things, or more where a pair names one.
fn graph(count: usize, pairs: &[(usize, usize)]) -> Graph {
    let named = pairs.iter().map(|&(first, then)| first.max(then) + 1).max().unwrap_or(0);
    let mut graph = Graph::new();
    for _ in 0..count.max(named) {
        graph.add_node(());
    }
    let once: BTreeSet<(usize, usize)> = pairs.iter().copied().collect();
    graph.extend_with_edges(once.into_iter().map(|(first, then)| (first as u32, then as u32)));
    graph
}

/// The shortest loop; of several the one that starts at the least index. Empty where there is none.
fn shortest_loop(graph: &Graph) -> Vec<usize> {
    // Not Tarjan's: petgraph's goes as deep into the stack as the loop is long.
    let mut tied: Vec<NodeIndex> = kosaraju_scc(graph).into_iter().filter(|part| part.len() > 1).flatten().collect();
    tied.extend(graph.node_indices().filter(|&node| graph.contains_edge(node, node)));
    tied.sort_unstable();
    tied.dedup();
    let back = |start: NodeIndex| {
        look();
        let steps = dijkstra(graph, start, None, |_| 1_usize);
        let last = graph.node_indices().filter(|&node| graph.contains_edge(node, start));
        last.filter_map(|node| Some((*steps.get(&node)?, node))).min()
    };
    let shortest = tied.into_iter().filter_map(|start| back(start).map(|(steps, last)| (steps, start, last))).min();
    let Some((_, start, last)) = shortest else { return Vec::new() };
    let path = astar(graph, start, |node| node == last, |_| 1_usize, |_| 0);
    path.map_or_else(Vec::new, |(_, nodes)| nodes.into_iter().map(NodeIndex::index).collect())
}

/// One thing laps over another: a sheet over a sheet, a rail over a sheet.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Over {
    /// The one outside.
    pub over: String,
    /// The one beneath, which hangs first.
    pub under: String,
}

/// Laps that nothing can be hung by: each of these laps over the next, and the last over the first.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{}", self.words())]
pub struct LapLoop(pub Vec<String>);

impl LapLoop {
    /// `A laps over B, B over C, C over A`.
    pub fn words(&self) -> String {
        let next = self.0.iter().cycle().skip(1);
        let laps = self.0.iter().zip(next).enumerate().map(|(i, (over, under))| {
            let verb = if i == 0 { "laps over" } else { "over" };
            let under = if over == under { "itself" } else { under };
            format!("{over} {verb} {under}")
        });
        laps.collect::<Vec<_>>().join(", ")
    }

    /// The same as a problem of the entry at this path.
    pub fn problem(&self, path: &str) -> Problem {
        let problem = "each would have to hang after the next; turn one of these laps over, or put a patch between";
        Problem::contradiction(path, self.words(), problem)
    }
}

/// One thing in the order in which all are hung.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Hung {
    /// Its name.
    pub name: String,
    /// What hangs before it because of a lap, in the order of hanging.
    pub after: Vec<String>,
}

/// Which thing laps over which.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LapGraph {
    names: Vec<String>,
    /// The first of each pair hangs before the second.
    pairs: Vec<(usize, usize)>,
}

impl LapGraph {
    /// Things by name, in the order that decides wherever laps do not, and their laps; what only a lap names comes last.
    ///
    /// # Errors
    /// A thing named twice, or without a name.
    pub fn new(things: &[String], laps: &[Over]) -> Result<Self, Vec<Problem>> {
        let mut graph = Self::default();
        let mut known: BTreeMap<String, usize> = BTreeMap::new();
        let mut problems = Vec::new();
        let nameless = |path: String| Problem::missing(path, "everything has a name, such as \"L-A1\"");
        for (i, name) in things.iter().enumerate() {
            if name.trim().is_empty() {
                problems.push(nameless(format!("things[{i}]")));
            } else if known.insert(name.clone(), i).is_some() {
                problems.push(Problem::contradiction(format!("things[{i}]"), name, "this is named twice"));
            }
            graph.names.push(name.clone());
        }
        for (i, lap) in laps.iter().enumerate() {
            let [over, under] = [("over", &lap.over), ("under", &lap.under)].map(|(part, name)| {
                if name.trim().is_empty() {
                    problems.push(nameless(format!("laps[{i}].{part}")));
                }
                *known.entry(name.clone()).or_insert_with(|| {
                    graph.names.push(name.clone());
                    graph.names.len() - 1
                })
            });
            graph.pairs.push((under, over));
        }
        if problems.is_empty() { Ok(graph) } else { Err(problems) }
    }

    /// The order of hanging: what lies beneath hangs before what laps over it.
    ///
    /// # Errors
    /// The shortest loop of laps.
    ///
    /// # Example
    /// ```
    /// use raisedbody::shop::order::{LapGraph, Over};
    /// let lap = |over: &str, under: &str| Over { over: over.to_owned(), under: under.to_owned() };
    /// let laps = LapGraph::new(&[], &[lap("A", "B"), lap("B", "C"), lap("C", "A")]).unwrap();
    /// assert_eq!(laps.order().unwrap_err().words(), "A laps over B, B over C, C over A");
    /// ```
    pub fn order(&self) -> Result<Vec<Hung>, LapLoop> {
        let name = |i: &usize| self.names.get(*i).cloned().unwrap_or_default();
        let order = in_order(self.names.len(), &self.pairs, |i| i).map_err(|loop_| {
            // Told from the outside in: the last of the loop laps over the one before it.
            let mut names: Vec<String> = loop_.iter().map(name).collect();
            names.get_mut(1..).unwrap_or_default().reverse();
            LapLoop(names)
        })?;
        let mut turns = vec![0; order.len()];
        for (turn, own) in order.iter().enumerate() {
            turns[*own] = turn;
        }
        // Of each thing, by its turn, the turns of what hangs before it.
        let mut before = vec![BTreeSet::new(); order.len()];
        for &(under, over) in &self.pairs {
            before[turns[over]].insert(turns[under]);
        }
        let hung = |(own, before): (&usize, BTreeSet<usize>)| Hung {
            name: name(own),
            after: before.iter().map(|turn| name(&order[*turn])).collect(),
        };
        Ok(order.iter().zip(before).map(hung).collect())
    }
}
