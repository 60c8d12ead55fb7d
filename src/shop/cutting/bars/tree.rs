//! The tree that leaves nothing out: the bar of the longest piece left is filled in every way that can lead to a better plan.

use std::collections::BTreeMap;

use super::bound::Worths;
use super::greedy::Fill;
use super::model::{Filling, Fillings, State, UNLIMITED};
use super::search::{Node, Search};

/// More pieces than these are not searched through: each bar is one level deep.
const MOST_PIECES: i64 = 500;
/// With fewer pieces left the worths of the level above serve.
const FEW_PIECES: i64 = 9;
/// Fillings of one bar that are gone through.
const MOST_FILLINGS: usize = 3000;
/// States that are remembered.
const MOST_SEEN: usize = 200_000;

/// Bin completion (Martello & Toth 1990, Korf 2002) under the bound of the relaxation.
pub(super) struct Tree<'s, 'a> {
    search: &'s mut Search<'a>,
    /// States gone through: what had been spent, and how many better fillings could be passed over.
    seen: BTreeMap<State, (i64, usize)>,
    /// Nothing has been left out.
    whole: bool,
}

impl<'s, 'a> Tree<'s, 'a> {
    pub fn new(search: &'s mut Search<'a>) -> Self {
        Self { search, seen: BTreeMap::new(), whole: true }
    }

    /// Passes over more and more fillings that look better (limited discrepancy, Harvey & Ginsberg 1995), at last over any.
    pub fn run(&mut self, root: &State, worths: &Worths) {
        if root.pieces() > MOST_PIECES {
            return;
        }
        let mut passed_over = 1;
        while !self.search.ended() {
            self.whole = true;
            self.seen.clear();
            self.node(&mut root.clone(), &mut Vec::new(), 0, worths, passed_over);
            if self.whole && self.search.meter.goes_on() {
                self.search.bound = self.search.price().unwrap_or(i64::MAX);
                return;
            }
            passed_over = if passed_over > 64 { usize::MAX } else { passed_over * 2 };
        }
    }

    fn node(&mut self, state: &mut State, chosen: &mut Fillings, spent: i64, worths: &Worths, passed_over: usize) {
        if self.search.ended() {
            self.whole = false;
            return;
        }
        let Some(longest) = state.longest() else {
            self.search.offer(chosen);
            return;
        };
        if self.budget(state, spent, worths) < 0 || self.was_seen(state, spent, passed_over) {
            return;
        }
        let mut own = None;
        let mut uses = Vec::new();
        if state.pieces() >= FEW_PIECES {
            self.search.complete(state, chosen, Fill::Longest, None);
            let relaxed = match self.search.relax(state, spent, None) {
                Node::Solved(relaxed) => relaxed,
                Node::Beaten => return,
                Node::Unknown => {
                    self.whole = false;
                    return;
                }
            };
            (own, uses) = (relaxed.worths, relaxed.uses);
        }
        let worths = own.as_ref().unwrap_or(worths);
        let budget = self.budget(state, spent, worths);
        let mut ways = Ways { tree: self, state, worths, budget, longest, takes: Vec::new(), found: Vec::new() };
        ways.all();
        let mut found = ways.found;
        self.whole &= found.len() < MOST_FILLINGS;
        let used = |f: &Filling| uses.iter().find(|(u, _)| u == f).map_or(0.0, |(_, x)| *x);
        found.sort_by_cached_key(|(loss, f)| ((used(f) * -1e6) as i64, *loss, f.clone()));
        for (better, (_, filling)) in found.into_iter().enumerate() {
            if better > passed_over {
                self.whole = false;
                break;
            }
            let price = spent + self.search.model.bars[filling.bar].price;
            state.cut(&filling, 1);
            chosen.push((filling, 1));
            self.node(state, chosen, price, worths, passed_over - better);
            if let Some((filling, _)) = chosen.pop() {
                state.uncut(&filling, 1);
            }
        }
    }

    /// What may still be lost, against the bound, on the way to a better plan.
    fn budget(&self, state: &State, spent: i64, worths: &Worths) -> i128 {
        (i128::from(self.search.target()) - i128::from(spent)) * i128::from(worths.denominator) - worths.bound(state)
    }

    fn was_seen(&mut self, state: &State, spent: i64, passed_over: usize) -> bool {
        self.search.meter.spend(50);
        if let Some(before) = self.seen.get_mut(state) {
            if before.0 <= spent && before.1 >= passed_over {
                return true;
            }
            *before = (spent, passed_over);
        } else if self.seen.len() < MOST_SEEN {
            self.seen.insert(state.clone(), (spent, passed_over));
        }
        false
    }
}

/// The ways to fill the bar of the longest piece.
struct Ways<'t, 's, 'a> {
    tree: &'t mut Tree<'s, 'a>,
    state: &'t State,
    worths: &'t Worths,
    budget: i128,
    longest: usize,
    takes: Vec<(usize, i64)>,
    found: Vec<(i128, Filling)>,
}

impl Ways<'_, '_, '_> {
    fn all(&mut self) {
        let model = self.tree.search.model;
        // The best worth for length of each kind and those shorter.
        let mut rates = vec![(0_i64, 1_i64); model.lengths.len() + 1];
        for kind in (self.longest..model.lengths.len()).rev() {
            let (value, length) = rates[kind + 1];
            let own = if self.state.demand[kind] > 0 { self.worths.kinds[kind] } else { 0 };
            let better = i128::from(own) * i128::from(length) > i128::from(value) * i128::from(model.lengths[kind]);
            rates[kind] = if better { (own, model.lengths[kind]) } else { (value, length) };
        }
        for (bar, b) in model.bars.iter().enumerate() {
            if self.state.available(bar) > 0 && b.capacity >= model.lengths[self.longest] {
                let loss = self.worths.cost(b.price, bar, &self.state.limits) + i128::from(self.worths.rents[bar]);
                self.fill(bar, self.longest, b.capacity, loss, &rates);
            }
        }
    }

    /// Takes kind after kind; `loss` is what the bar costs above what is taken so far.
    fn fill(&mut self, bar: usize, kind: usize, room: i64, loss: i128, rates: &[(i64, i64)]) {
        if self.found.len() >= MOST_FILLINGS || !self.tree.search.meter.spend(2) {
            self.tree.whole = false;
            return;
        }
        let (value, length) = rates[kind];
        if loss - i128::from(room) * i128::from(value) / i128::from(length) > self.budget {
            return;
        }
        let model = self.tree.search.model;
        let Some(next) = (kind..model.lengths.len()).find(|&k| self.state.demand[k] > 0 && model.lengths[k] <= room)
        else {
            if loss <= self.budget && !self.dominated(bar, room) {
                self.found.push((loss, Filling { bar, takes: self.takes.clone() }));
            }
            return;
        };
        let most = self.state.demand[next].min(room / model.lengths[next]);
        let least = i64::from(next == self.longest && kind == self.longest);
        for times in (least..=most).rev() {
            if times > 0 {
                self.takes.push((next, times));
            }
            let worth = i128::from(self.worths.kinds[next]) * i128::from(times);
            self.fill(bar, next + 1, room - times * model.lengths[next], loss - worth, rates);
            if times > 0 {
                self.takes.pop();
            }
        }
    }

    /// Another filling does as well: a piece more fits, or a longer one in place of one taken, or a cheaper bar holds it.
    fn dominated(&self, bar: usize, room: i64) -> bool {
        let model = self.tree.search.model;
        let taken = |kind: usize| self.takes.iter().find(|t| t.0 == kind).map_or(0, |t| t.1);
        let spare = |kind: usize| self.state.demand[kind] > taken(kind);
        let kinds = self.longest..model.lengths.len();
        if kinds.clone().any(|k| spare(k) && model.lengths[k] <= room) {
            return true;
        }
        let replaced = |&(kind, times): &(usize, i64)| {
            // The first of the longest kind stays: this is its bar.
            let free = times - i64::from(kind == self.longest);
            let longer = (self.longest..kind).rev();
            free > 0 && longer.take_while(|&k| model.lengths[k] - model.lengths[kind] <= room).any(spare)
        };
        if self.takes.iter().any(replaced) {
            return true;
        }
        if !self.state.limits.is_empty() {
            return false;
        }
        let (used, price) = (model.bars[bar].capacity - room, model.bars[bar].price);
        model.bars.iter().enumerate().any(|(o, b)| {
            let cheaper = b.price < price || (b.price == price && o < bar);
            self.state.left[o] == UNLIMITED && cheaper && b.capacity >= used
        })
    }
}
