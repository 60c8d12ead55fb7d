//! No plan costs less than this: the linear programme over all patterns, its prices proved in whole numbers.
//!
//! Column generation after Gilmore and Gomory 1961 and 1965. Every set of piece
//! prices gives a proof, not only the best (Farley 1990): what no sheet can yield more of than it costs, the pieces together
//! cost at least.

use super::amounts::Amounts;
use super::programme::Programme;
use super::proper::Proper;
use super::reduced::{ANY_STAGES, Reduced};
use super::search::{Sheet, State};
use super::table::{Counted, Grid, Machine, Shape, Tables};
use super::tree::Tree;

/// Bits that a price in whole numbers may have; products of two, times the number of pieces, stay within 127.
const BITS: u32 = 48;
/// How far prices are drawn towards those that proved most.
const DRAWN: f64 = 0.7;
const LEAST_DRAWN: f64 = 0.2;
/// Kinds of one stock that are counted anew at a time.
const KINDS_AT_ONCE: usize = 2;
/// More work by counting, at most, for one stock.
const MOST_FACTOR: u64 = 800;
/// Work of one stock's tables at most where kinds are counted.
const MOST_COUNTED_WORK: u64 = 20_000_000;

/// A pattern: a row of the dual programme.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Column {
    pub(super) stock: usize,
    /// How many of which kind.
    pub(super) counts: Vec<(usize, i64)>,
    /// Sheet and cuts.
    pub(super) price: i64,
    pub(super) tree: Option<Tree>,
}

/// The bound and the patterns that it is made of.
pub(super) struct Bounder<'a> {
    job: &'a Reduced,
    grid: Grid,
    machines: Vec<Machine>,
    /// Of each stock, its machine.
    machine: Vec<usize>,
    /// Of each stock, the kinds whose copies are counted.
    counted: Vec<Vec<usize>>,
    pub(super) columns: Vec<Column>,
    pub(super) steps: u64,
}

impl Column {
    pub(super) fn of(job: &Reduced, sheet: &Sheet) -> Self {
        let counts = counts(job, &sheet.root);
        Self { stock: sheet.stock, counts, price: sheet.price, tree: Some(sheet.root.clone()) }
    }

    /// Its pieces are worth more than it costs.
    pub(super) fn pays(&self, prices: &[f64], scarce: &[f64]) -> bool {
        let worth: f64 = self.counts.iter().map(|&(kind, n)| n as f64 * prices[kind]).sum();
        let cost = self.price as f64 + scarce[self.stock];
        worth > cost + 1e-7 * (1.0 + cost)
    }
}

pub(super) fn counts(job: &Reduced, tree: &Tree) -> Vec<(usize, i64)> {
    let mut all = vec![0; job.kinds.len()];
    tree.count(&mut all);
    all.into_iter().enumerate().filter(|(_, n)| *n > 0).collect()
}

impl<'a> Bounder<'a> {
    pub(super) fn new(job: &'a Reduced) -> Self {
        let most = [0, 1].map(|a: usize| job.stocks.iter().map(|s| s.size[a]).max().unwrap_or(0));
        let shapes: Vec<Shape> =
            job.kinds.iter().map(|k| Shape { ways: k.ways().collect(), copies: k.count }).collect();
        let mut machines: Vec<Machine> = Vec::new();
        let mut machine = Vec::new();
        for s in &job.stocks {
            let longest = if s.has_limits() { s.longest } else { i64::MAX };
            let one = Machine { cut: s.cut_coins, longest, throat: s.throat };
            let known = machines.iter().position(|m| *m == one);
            machine.push(known.unwrap_or_else(|| {
                machines.push(one);
                machines.len() - 1
            }));
        }
        let grid = Grid::new(&shapes, most);
        let counted = vec![Vec::new(); job.stocks.len()];
        let mut this = Self { job, grid, machines, machine, counted, columns: Vec::new(), steps: 0 };
        this.start();
        this
    }

    /// Sheets full of one kind.
    fn start(&mut self) {
        for (s, stock) in self.job.stocks.iter().enumerate() {
            for (i, kind) in self.job.kinds.iter().enumerate() {
                for (_, size) in kind.ways() {
                    let n = (stock.size[0] / size[0]) * (stock.size[1] / size[1]);
                    let machine = &self.machines[self.machine[s]];
                    if n > 0 && machine.cut == 0 {
                        self.columns.push(Column { stock: s, counts: vec![(i, n)], price: stock.price, tree: None });
                    }
                }
            }
        }
    }

    /// Adds the sheets of a plan.
    pub(super) fn learn(&mut self, state: &State) {
        for sheet in &state.sheets {
            let column = Column::of(self.job, sheet);
            if !self.columns.contains(&column) {
                self.columns.push(column);
            }
        }
    }

    /// The programme over all patterns that are known, solved.
    fn programme(&self, best: i64) -> Programme {
        let mut lp = Programme::new(self.job, best);
        self.columns.iter().for_each(|column| lp.add(column.stock, &column.counts, column.price));
        lp.cheapen();
        lp
    }

    /// Prices pieces until no pattern is worth more than it costs, then counts more kinds and goes on; returns the best bound
    /// that was proved, and the last programme. Stops early where the bound reaches `best`, or the steps are spent.
    pub(super) fn bound(&mut self, best: i64, steps: u64, go_on: &dyn Fn() -> bool) -> (i128, Programme) {
        let amounts = Amounts::new(self.job, best);
        let need: Vec<i64> = self.job.kinds.iter().map(|k| k.count).collect();
        let mut lp = self.programme(best);
        let mut proved = 0;
        // The prices that proved most by themselves; others are drawn towards them, less where that finds nothing.
        let (mut centre, mut most) = (lp.prices(), 0);
        let mut share = DRAWN;
        loop {
            let own = lp.prices();
            let prices: Vec<f64> = own.iter().zip(&centre).map(|(x, y)| x + share * (y - x)).collect();
            let Some((values, unit)) = self.whole(&prices) else { return (proved, lp) };
            let (worth, mut new) = self.price(&values, unit, &need);
            let here = self.proof(&values, &worth, unit);
            if here > most {
                (centre, most) = (prices, here);
            }
            let whole = amounts.least(self.job, self.total(&values), &worth, &values, unit);
            proved = proved.max(amounts.up(here)).max(whole.unwrap_or(0));
            self.steps += std::mem::take(&mut lp.steps);
            if proved >= i128::from(best) || self.steps >= steps || !go_on() {
                return (proved, lp);
            }
            let scarce = lp.scarce();
            new.retain(|column| column.pays(&own, &scarce) && !self.columns.contains(column));
            if !new.is_empty() {
                for column in &new {
                    lp.add(column.stock, &column.counts, column.price);
                }
                self.columns.append(&mut new);
                lp.cheapen();
            } else if share > 0.0 {
                share = if share < LEAST_DRAWN { 0.0 } else { share / 2.0 };
            } else if self.count_more(&lp) {
                lp = self.programme(best);
                most = 0;
            } else {
                return (proved, lp);
            }
        }
    }

    /// What one such pricing takes.
    pub(super) fn proper_steps(&self) -> u64 {
        (self.grid.work() + self.grid.plates() * self.job.kinds.len() as u64 / 4) / 16 + 100
    }

    /// What a sheet of each stock yields at most at these prices, and the patterns that do.
    fn price(&mut self, values: &[i64], unit: i64, need: &[i64]) -> (Vec<i64>, Vec<Column>) {
        let job = self.job;
        let mut worth = vec![0_i64; job.stocks.len()];
        let mut new: Vec<Column> = Vec::new();
        let firsts = match (job.stages == ANY_STAGES, job.first) {
            (true, _) => 0..1,
            (_, Some(first)) => first..first + 1,
            _ => 0..2,
        };
        let alike = |s: usize| (self.machine[s], self.counted[s].clone());
        let mut groups: Vec<Vec<usize>> = Vec::new();
        for s in 0..job.stocks.len() {
            match groups.iter_mut().find(|g| alike(g[0]) == alike(s)) {
                Some(group) => group.push(s),
                None => groups.push(vec![s]),
            }
        }
        for group in &groups {
            let machine = &self.machines[self.machine[group[0]]];
            let scaled = Machine { cut: machine.cut.saturating_mul(unit), ..*machine };
            let most = [0, 1].map(|a: usize| group.iter().map(|&s| job.stocks[s].size[a]).max().unwrap_or(0));
            let kinds: Vec<_> = self.counted[group[0]].iter().map(|&kind| (kind, need[kind])).collect();
            let counted = Counted::new(&kinds);
            self.steps += self.grid.steps(job.stages, job.first, most) * counted.factor() / 32 + 300;
            for first in firsts.clone() {
                let tables = self.grid.solve_counted(values, scaled, job.stages, first, most, counted.clone());
                for &s in group {
                    let yields = self.grid.worth(&tables, job.stocks[s].size);
                    worth[s] = worth[s].max(yields);
                    new.extend(self.read(s, &tables, values));
                }
            }
        }
        (worth, new)
    }

    /// Good patterns at these prices that take no kind more often than it is needed.
    pub(super) fn proper(&mut self, values: &[i64], unit: i64, need: &[i64]) -> Vec<Column> {
        let job = self.job;
        let mut new = Vec::new();
        for (m, machine) in self.machines.iter().enumerate() {
            let scaled = Machine { cut: machine.cut.saturating_mul(unit), ..*machine };
            let proper = Proper::new(&self.grid, values, need, scaled);
            self.steps += proper.steps;
            for s in (0..job.stocks.len()).filter(|s| self.machine[*s] == m) {
                let tree = proper.pattern(job.stocks[s].size).map(|tree| tree.rooted(job.first));
                let column =
                    tree.map(|tree| Column { stock: s, counts: counts(job, &tree), price: 0, tree: Some(tree) });
                new.extend(column);
            }
        }
        new
    }

    /// Counts the kinds that the programme takes more copies of than there are, as far as that is cheap, and forgets the
    /// patterns that do; false where there is none.
    fn count_more(&mut self, lp: &Programme) -> bool {
        let job = self.job;
        let prices = lp.prices();
        let mut over = vec![vec![0.0_f64; job.kinds.len()]; job.stocks.len()];
        for (column, weight) in self.columns.iter().zip(lp.weights()).filter(|(_, w)| *w > 1e-6) {
            for &(kind, n) in &column.counts {
                let copies = (n - job.kinds[kind].count).max(0) as f64;
                over[column.stock][kind] += copies * weight * prices[kind];
            }
        }
        let mut more = false;
        for (s, over) in over.iter().enumerate() {
            let mut kinds: Vec<usize> = (0..job.kinds.len()).filter(|&k| over[k] > 1e-9).collect();
            kinds.sort_by(|&x, &y| over[y].total_cmp(&over[x]).then(x.cmp(&y)));
            let work = self.grid.steps(job.stages, job.first, job.stocks[s].size);
            for kind in kinds.into_iter().take(KINDS_AT_ONCE) {
                let mut all = self.counted[s].clone();
                all.push(kind);
                let factor: u64 =
                    all.iter().map(|&k| job.kinds[k].count as u64).map(|d| (d + 1) * (d + 2) / 2).product();
                if !self.counted[s].contains(&kind) && factor <= MOST_FACTOR && work * factor <= MOST_COUNTED_WORK {
                    all.sort_unstable();
                    self.counted[s] = all;
                    more = true;
                }
            }
        }
        let counted = &self.counted;
        let proper = |c: &Column| {
            !c.counts.iter().any(|&(kind, n)| n > job.kinds[kind].count && counted[c.stock].contains(&kind))
        };
        self.columns.retain(proper);
        more
    }

    fn read(&self, stock: usize, tables: &Tables, values: &[i64]) -> Option<Column> {
        let s = &self.job.stocks[stock];
        let found = self.grid.pattern(tables, values, s.size);
        let tree = found.tree?;
        let counts = counts(self.job, &tree);
        Some(Column {
            stock,
            counts,
            price: s.price + s.cut_coins * found.cuts,
            tree: Some(tree.rooted(self.job.first)),
        })
    }

    /// Prices in whole numbers, rounded down, and how many of them make a coin.
    pub(super) fn whole(&self, prices: &[f64]) -> Option<(Vec<i64>, i64)> {
        let area = self.job.stocks.iter().map(|s| s.area() as f64).fold(1.0, f64::max);
        let dense = |(p, k): (&f64, &super::reduced::Kind)| p * (area / k.area() as f64).max(1.0);
        let top = prices.iter().zip(&self.job.kinds).map(dense).fold(1.0, f64::max);
        let top = self.job.stocks.iter().map(|s| s.price as f64).fold(top, f64::max);
        let mut unit = 1_i64;
        while top * (unit as f64) * 2.0 < (1_i64 << BITS) as f64 && unit < 1 << 40 {
            unit *= 2;
        }
        let fits = top * unit as f64 <= (1_i64 << BITS) as f64;
        // A kind that the grid loses is worth nothing in the proof, and none is worth more than it costs to buy.
        let value = |(price, kind): (&f64, &super::reduced::Kind)| {
            let ways: Vec<_> = kind.ways().collect();
            let most = kind.bought.map_or(i64::MAX, |coins| coins.saturating_mul(unit));
            if self.grid.loses(&ways) { 0 } else { ((price * unit as f64).floor().max(0.0) as i64).min(most) }
        };
        fits.then(|| (prices.iter().zip(&self.job.kinds).map(value).collect(), unit))
    }

    fn total(&self, values: &[i64]) -> i128 {
        values.iter().zip(&self.job.kinds).map(|(v, k)| i128::from(*v) * i128::from(k.count)).sum()
    }

    /// The bound that these prices prove, scaled by whatever proves most.
    fn proof(&self, values: &[i64], worth: &[i64], unit: i64) -> i128 {
        let total = self.total(values);
        let cost = |s: usize| i128::from(self.job.stocks[s].price) * i128::from(unit);
        let of = |by: i128, over: i128| {
            let mut sum = total * by;
            for (s, own) in worth.iter().enumerate() {
                let short = i128::from(*own) * by - cost(s) * over;
                sum -= short.max(0) * i128::from(self.job.stocks[s].count);
            }
            let whole = over * i128::from(unit);
            sum.div_euclid(whole) + i128::from(sum.rem_euclid(whole) > 0)
        };
        let ratios = (0..worth.len()).map(|s| (cost(s), i128::from(worth[s])));
        let all = ratios.filter(|(by, over)| by < over).map(|(by, over)| of(by, over));
        all.fold(of(1, 1), i128::max).max(0)
    }
}
