//! The search for the least price: quick plans, the relaxation, dives through it, and a tree that leaves nothing out.

use super::bound::Sums;
use super::effort::Meter;
use super::greedy::{Fill, greedy};
use super::master::{Column, Master, Pool, Relaxed};
use super::model::{Filling, Fillings, Model, State, UNLIMITED, gathered};

/// A dive rounds all that is used at least so often, of one bar, along with what is used most.
const NEARLY_WHOLE: f64 = 0.8;
/// Fillings that a dive may pass over.
const DIVES: usize = 3;

/// The search and the best so far.
pub(super) struct Search<'a> {
    pub model: &'a Model,
    pub pool: Pool,
    pub meter: Meter<'a>,
    pub best: Option<Fillings>,
    pub bound: i64,
    sums: Sums,
    /// What is left of the demand where the bars ran out, and how long that is: the least of all tries.
    pub short: Option<Vec<i64>>,
}

/// What the relaxation of a state tells.
pub(super) enum Node {
    Solved(Relaxed),
    /// No plan better than the best can follow.
    Beaten,
    /// The work ended before anything was proved.
    Unknown,
}

impl<'a> Search<'a> {
    pub fn new(model: &'a Model, meter: Meter<'a>) -> Self {
        let sums = Sums::new(model, 0);
        Self { model, pool: Pool::default(), meter, best: None, bound: 0, sums, short: None }
    }

    /// All methods in turn, until the price is proved or the work allowed is spent.
    pub fn run(&mut self, root: &State) {
        self.quick(root, Fill::Longest);
        let all_bars = || self.model.bars.iter().zip(&root.left).map(|(b, &n)| b.price.saturating_mul(n.min(1 << 20)));
        let most = self.price().unwrap_or_else(|| all_bars().fold(0, i64::saturating_add));
        self.sums = Sums::new(self.model, most);
        let enough = self.price().unwrap_or(i64::MAX);
        let relaxed = Master::new(self.model, root, &mut self.pool).solve(&mut self.pool, enough, &mut self.meter);
        if let Some(worths) = &relaxed.worths {
            self.raise(worths.coins(root));
        }
        if self.ended() {
            return;
        }
        self.quick(root, Fill::Fullest);
        for passed_over in 0..DIVES {
            if !self.ended() {
                self.dive(&mut root.clone(), &mut Vec::new(), passed_over);
            }
        }
        if !self.ended() {
            super::counts::by_counts(self, root);
        }
        if let (false, Some(worths)) = (self.ended(), &relaxed.worths) {
            super::tree::Tree::new(self).run(root, worths);
        }
    }

    pub fn price(&self) -> Option<i64> {
        self.best.as_ref().map(|b| self.model.price(b))
    }

    /// The least price from here on that bars can add up to.
    pub fn at_least(&self, coins: i64) -> i64 {
        self.sums.at_least(coins)
    }

    pub fn raise(&mut self, coins: i64) {
        self.bound = self.bound.max(self.sums.at_least(coins));
    }

    pub fn proven(&self) -> bool {
        self.price().is_some_and(|p| p <= self.bound)
    }

    pub fn ended(&self) -> bool {
        self.proven() || !self.meter.goes_on()
    }

    /// The most that a better plan costs.
    pub fn target(&self) -> i64 {
        self.price().map_or(i64::MAX >> 8, |p| self.sums.below(p))
    }

    /// Keeps a plan if it is better than the best.
    pub fn offer(&mut self, plan: &[(Filling, i64)]) {
        let plan = gathered(plan);
        if self.best.as_ref().is_none_or(|b| self.model.score(&plan) < self.model.score(b)) {
            self.best = Some(plan);
        }
    }

    /// Completes a plan quickly and keeps it if it is better.
    pub fn complete(&mut self, state: &State, chosen: &[(Filling, i64)], fill: Fill, bar: Option<usize>) {
        let mut rest = state.clone();
        let mut plan = greedy(self.model, &mut rest, fill, bar, &mut self.meter);
        if rest.pieces() == 0 {
            plan.extend_from_slice(chosen);
            self.offer(&plan);
        } else {
            let length = |demand: &[i64]| demand.iter().zip(&self.model.lengths).map(|(d, l)| d * l).sum::<i64>();
            if self.short.as_ref().is_none_or(|s| length(&rest.demand) < length(s)) {
                self.short = Some(rest.demand);
            }
        }
    }

    fn quick(&mut self, root: &State, fill: Fill) {
        self.complete(root, &[], fill, None);
        for bar in 0..self.model.bars.len() {
            if root.left[bar] == UNLIMITED && !self.ended() {
                self.complete(root, &[], fill, Some(bar));
            }
        }
    }

    /// The relaxation of what is still to be cut, unless no plan better than the best can follow, or nothing is known.
    ///
    /// It is started from the basis of a state with one limit less, where there is one.
    pub fn relax(&mut self, state: &State, spent: i64, basis: Option<Vec<Column>>) -> Node {
        let enough = self.target().saturating_sub(spent).saturating_add(1);
        let mut master = Master::new(self.model, state, &mut self.pool);
        if let Some(basis) = basis {
            master = master.started_from(basis, &self.pool);
        }
        let relaxed = master.solve(&mut self.pool, enough, &mut self.meter);
        match &relaxed.worths {
            None => Node::Unknown,
            Some(worths) if worths.coins(state).saturating_add(spent) > self.target() => Node::Beaten,
            Some(_) => Node::Solved(relaxed),
        }
    }

    /// Rounds the relaxation, filling after filling, each time solved anew for what is left (residual diving with limited
    /// discrepancy; Sadykov et al. 2019): the fillings used most, or after passing over at most `passed_over` of them.
    pub fn dive(&mut self, state: &mut State, chosen: &mut Fillings, passed_over: usize) {
        if self.ended() {
            return;
        }
        if state.pieces() == 0 {
            self.offer(chosen);
            return;
        }
        self.complete(state, chosen, Fill::Longest, None);
        let spent = self.model.price(chosen);
        let Node::Solved(relaxed) = self.relax(state, spent, None) else { return };
        if !relaxed.covered {
            return;
        }
        let whole = whole_part(state, &relaxed.uses);
        if !whole.is_empty() {
            self.deeper(state, chosen, &whole, passed_over);
            return;
        }
        let mut uses = relaxed.uses;
        uses.retain(|(f, _)| state.most_times(f) > 0);
        uses.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
        for (first, (filling, _)) in uses.iter().enumerate().take(passed_over + 1) {
            let mut rounded = vec![(filling.clone(), 1)];
            if first == 0 {
                let mut rest = state.clone();
                rest.cut(filling, 1);
                for (more, x) in uses.iter().skip(1).take_while(|u| u.1 > NEARLY_WHOLE) {
                    debug_assert!(*x <= 1.0 + NEARLY_WHOLE);
                    if rest.most_times(more) > 0 {
                        rest.cut(more, 1);
                        rounded.push((more.clone(), 1));
                    }
                }
            }
            self.deeper(state, chosen, &rounded, passed_over - first);
        }
    }

    fn deeper(&mut self, state: &mut State, chosen: &mut Fillings, more: &[(Filling, i64)], passed_over: usize) {
        for (filling, times) in more {
            state.cut(filling, *times);
        }
        chosen.extend_from_slice(more);
        self.dive(state, chosen, passed_over);
        chosen.truncate(chosen.len() - more.len());
        for (filling, times) in more {
            state.uncut(filling, *times);
        }
    }
}

/// The whole parts of the uses, none beyond the demand.
fn whole_part(state: &State, uses: &[(Filling, f64)]) -> Fillings {
    let mut rest = state.clone();
    let mut whole = Fillings::new();
    for (filling, x) in uses {
        let times = ((x + 1e-4).floor() as i64).min(rest.most_times(filling));
        if times > 0 {
            rest.cut(filling, times);
            whole.push((filling.clone(), times));
        }
    }
    whole
}
