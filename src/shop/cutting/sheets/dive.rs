//! Plans from the patterns of the linear programme: one after another is laid, and the programme is solved anew for what is left.
//!
//! Diving with limited discrepancies (Harvey and Ginsberg 1995; for patterns Sadykov, Vanderbeck, Pessoa, Tahiri and Uchoa 2019): what
//! the programme takes most is laid, and a dive that does without it waits.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use rand::Rng;

use super::amounts::Amounts;
use super::bound::{Bounder, Column};
use super::programme::Programme;
use super::search::{Goal, Search, Sheet, State};

/// Dives that wait at most, times the square of the rows of the programme.
const WAITING: usize = 4_000_000;
/// Steps that a sheet is counted as where a dive with it is set aside.
const SHEET: u64 = 20;
/// Rounds of new patterns after each one laid.
const ROUNDS: usize = 40;
/// Rounds at prices that are a little off before no more patterns are sought.
const BLURRED: usize = 4;
/// A pattern that is taken less often is not looked at.
const LEAST_WEIGHT: f64 = 1e-3;
/// New patterns are sought where that takes no more than this part of all steps.
const SHARE: u64 = 400;

/// A dive under way.
#[derive(Debug, Clone)]
struct Node {
    lp: Programme,
    state: State,
    need: Vec<i64>,
    /// Patterns that it must not lay.
    barred: Vec<usize>,
    laid: usize,
    /// What the programme says that all costs, laid sheets too.
    least: f64,
}

/// Dives that wait: the one that does without the fewest patterns goes first, then the one that has laid most.
type Waiting = BTreeMap<(usize, Reverse<usize>, usize), Node>;

/// Dives one after another.
pub(super) struct Dive<'a, 'b> {
    bounder: &'b mut Bounder<'a>,
    search: &'b mut Search<'a>,
    amounts: Amounts,
    until: u64,
    /// A plan has to be cheaper than this.
    price: i64,
    found: Option<State>,
    /// New patterns are sought.
    seeks: bool,
    waiting: Waiting,
    most_waiting: usize,
    /// Dives that have waited.
    came: usize,
}

impl Node {
    fn measure(&mut self) {
        self.least = self.state.price as f64 + self.lp.price();
    }

    /// No more of any kind than is needed.
    fn needs(&self, column: &Column) -> bool {
        column.counts.iter().all(|&(kind, n)| n <= self.need[kind])
    }
}

impl<'a, 'b> Dive<'a, 'b> {
    /// From the patterns of a bounder; plans have to be cheaper than `price`, and `steps` more of the search may be taken.
    pub(super) fn new(bounder: &'b mut Bounder<'a>, search: &'b mut Search<'a>, price: i64, steps: u64) -> Self {
        let rows = search.job.kinds.len() + search.job.stocks.len();
        Self {
            amounts: Amounts::new(search.job, price),
            until: search.steps + steps,
            price,
            found: None,
            seeks: bounder.proper_steps() * SHARE <= steps,
            waiting: Waiting::new(),
            most_waiting: WAITING / (rows * rows),
            came: 0,
            bounder,
            search,
        }
    }

    /// The cheapest plan that is found from a solved programme, where there is one below the price.
    pub(super) fn plan(mut self, lp: Programme, bound: i64, go_on: &dyn Fn() -> bool) -> Option<State> {
        let job = self.search.job;
        let need = job.kinds.iter().map(|k| k.count).collect();
        let state = State { left: Vec::new(), ..State::empty(job) };
        let mut next = Some(Node { lp, state, need, barred: Vec::new(), laid: 0, least: 0.0 });
        while let Some(node) = next {
            if self.search.steps >= self.until || self.price <= bound || !go_on() {
                break;
            }
            self.down(node);
            next = self.waiting.pop_first().map(|(_, node)| node);
        }
        self.found
    }

    /// What a plan from here costs at least, as far as the programme knows patterns.
    fn least(&self, node: &Node) -> i128 {
        self.amounts.up((node.least * (1.0 - 1e-6)).ceil() as i128)
    }

    fn down(&mut self, mut node: Node) {
        while self.search.steps < self.until {
            self.settle(&mut node);
            if self.least(&node) >= i128::from(self.price) {
                return;
            }
            let Some((pattern, weight, sheet)) = self.choice(&node) else { break };
            self.search.steps += SHEET * node.state.sheets.len() as u64;
            let mut other = node.clone();
            other.barred.push(pattern);
            self.waiting.insert((other.barred.len(), Reverse(node.laid), self.came), other);
            self.came += 1;
            if self.waiting.len() > self.most_waiting {
                self.waiting.pop_last();
            }
            let column = &self.bounder.columns[pattern];
            for _ in 0..(weight + LEAST_WEIGHT).floor().max(1.0) as usize {
                if node.needs(column) && node.state.has(self.search.job, column.stock) {
                    column.counts.iter().for_each(|&(kind, n)| node.need[kind] -= n);
                    node.lp.cut(column.stock, &column.counts);
                    node.state.lay(sheet.clone());
                }
            }
            node.laid += 1;
            node.lp.cover();
        }
        let mut state = node.state;
        state.left = node.need.iter().enumerate().flat_map(|(kind, &n)| (0..n).map(move |_| kind)).collect();
        self.search.fill(&mut state, Goal::NONE);
        if state.left.is_empty() && state.price < self.price {
            self.price = state.price;
            self.found = Some(state);
        }
    }

    /// The programme of what is left, solved: patterns that have too much are barred, and new ones sought.
    fn settle(&mut self, node: &mut Node) {
        for column in &self.bounder.columns[node.lp.patterns()..] {
            node.lp.add(column.stock, &column.counts, column.price);
        }
        for (i, column) in self.bounder.columns.iter().enumerate() {
            if node.barred.contains(&i) || !node.needs(column) {
                node.lp.bar(i);
            }
        }
        node.lp.cheapen();
        let before = node.least * (1.0 + 1e-9);
        node.measure();
        let mut blurred = 0;
        for _ in 0..ROUNDS {
            let spent = self.search.steps + self.bounder.steps + node.lp.steps >= self.until;
            if spent || !self.seeks || node.least <= before || blurred > BLURRED {
                break;
            }
            if self.seek(node, blurred > 0) {
                node.lp.cheapen();
                node.measure();
                blurred = 0;
            } else {
                blurred += 1;
            }
        }
        self.search.steps += std::mem::take(&mut node.lp.steps) + std::mem::take(&mut self.bounder.steps);
    }

    /// Adds new patterns that pay at the prices of the programme; `blurred` looks for them at prices that are a little off. False
    /// where there are none.
    fn seek(&mut self, node: &mut Node, blurred: bool) -> bool {
        let prices = node.lp.prices();
        let mut off = prices.clone();
        for (price, _) in off.iter_mut().zip(&node.need).filter(|(_, n)| **n == 0) {
            *price = 0.0;
        }
        if blurred {
            for price in &mut off {
                *price *= f64::from(self.search.rng.random_range(80..121_u32)) / 100.0;
            }
        }
        let Some((values, unit)) = self.bounder.whole(&off) else { return false };
        let scarce = node.lp.scarce();
        let mut some = false;
        for column in self.bounder.proper(&values, unit, &node.need) {
            let Some(column) = self.trimmed(column, &node.need) else { continue };
            let known = |own: &Column| own.stock == column.stock && own.counts == column.counts;
            if column.pays(&prices, &scarce) && !self.bounder.columns.iter().any(known) {
                node.lp.add(column.stock, &column.counts, column.price);
                self.bounder.columns.push(column);
                some = true;
            }
        }
        some
    }

    /// A pattern without the pieces that are not needed.
    fn trimmed(&self, column: Column, need: &[i64]) -> Option<Column> {
        let mut tree = column.tree?;
        let mut left = need.to_vec();
        let some = tree.take(self.search.job.first.is_some(), &mut |kind| {
            left[kind] -= 1;
            left[kind] < 0
        });
        let sheet = if some { Sheet::new(self.search.job, column.stock, tree) } else { None };
        Some(Column::of(self.search.job, &sheet?))
    }

    /// The pattern that is taken most of those that can be laid, how often, and the sheet.
    fn choice(&self, node: &Node) -> Option<(usize, f64, Sheet)> {
        let weights = node.lp.weights();
        let mut all: Vec<(usize, f64)> = weights.into_iter().enumerate().filter(|(_, w)| *w > LEAST_WEIGHT).collect();
        all.sort_by(|x, y| y.1.total_cmp(&x.1).then(x.0.cmp(&y.0)));
        all.into_iter().find_map(|(i, weight)| {
            let column = &self.bounder.columns[i];
            if !node.needs(column) || node.barred.contains(&i) || !node.state.has(self.search.job, column.stock) {
                return None;
            }
            let sheet = Sheet::new(self.search.job, column.stock, column.tree.clone()?)?;
            Some((i, weight, sheet))
        })
    }
}
