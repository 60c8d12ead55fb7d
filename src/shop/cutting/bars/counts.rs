//! Branching on how many bars of which kinds are used: what tells plans with several bar lengths and prices apart.

use std::collections::BTreeMap;

use super::master::Column;
use super::model::{Filling, Limit, State, UNLIMITED};
use super::search::{Node, Search};

/// Nearer than this to a whole number is whole.
const WHOLE: f64 = 1e-4;

/// A node: what it asks for, and the basis above it.
type Open = (State, Option<Vec<Column>>);

/// Nodes to one dive.
const BETWEEN_DIVES: usize = 8;

/// Best bound first: each node solves the relaxation with its limits, dives for a plan, and splits where the number of bars of
/// one kind, or of the kinds from the longest down to one, is broken (branching on columns' sums leaves the knapsack as it is;
/// Vanderbeck 2000).
pub(super) fn by_counts(search: &mut Search<'_>, root: &State) {
    let mut open: BTreeMap<(i64, usize), Open> = BTreeMap::new();
    open.insert((search.bound, 0), (root.clone(), None));
    let mut made = 1;
    // The least bound of nodes that cannot be split any further.
    let mut stuck = i64::MAX;
    while let Some(((bound, number), (state, basis))) = open.pop_first() {
        if search.ended() {
            return;
        }
        search.raise(bound.min(stuck));
        if search.ended() {
            return;
        }
        if bound > search.target() {
            continue;
        }
        let relaxed = match search.relax(&state, 0, basis) {
            Node::Solved(relaxed) => relaxed,
            Node::Beaten => continue,
            Node::Unknown => {
                // Its plans are looked at no further: nothing above its bound is proved any more.
                stuck = stuck.min(bound);
                continue;
            }
        };
        let Some(worths) = &relaxed.worths else { continue };
        let own = bound.max(search.at_least(worths.coins(&state)));
        if number % BETWEEN_DIVES == 1 {
            search.dive(&mut state.clone(), &mut Vec::new(), 0);
        }
        if !search.meter.goes_on() {
            return;
        }
        let Some((from, to, count)) = broken(&relaxed.uses, root.left.len()) else {
            for passed_over in 0..3 {
                search.dive(&mut state.clone(), &mut Vec::new(), passed_over);
            }
            stuck = stuck.min(own);
            continue;
        };
        for (least, most) in [(0, count), (count + 1, UNLIMITED)] {
            let mut branch = state.clone();
            branch.limits.push(Limit { from, to, least, most });
            open.insert((own, made), (branch, Some(relaxed.basis.clone())));
            made += 1;
        }
    }
    if let Some(price) = search.price() {
        search.raise(stuck.min(price));
    } else if stuck < i64::MAX {
        search.raise(stuck);
    }
}

/// The kinds whose number of bars is farthest from whole, and that number rounded down.
fn broken(uses: &[(Filling, f64)], bars: usize) -> Option<(usize, usize, i64)> {
    let ranges = (0..bars).map(|to| (0, to)).chain((1..bars).map(|b| (b, b)));
    let mut worst: Option<(f64, usize, usize, i64)> = None;
    for (from, to) in ranges {
        let count: f64 = uses.iter().filter(|(f, _)| (from..=to).contains(&f.bar)).map(|u| u.1).sum();
        let off = (count - count.round()).abs();
        if off > WHOLE && worst.is_none_or(|w| off > w.0 + WHOLE) {
            worst = Some((off, from, to, count.floor() as i64));
        }
    }
    worst.map(|(_, from, to, count)| (from, to, count))
}
