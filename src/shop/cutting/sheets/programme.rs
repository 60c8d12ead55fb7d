//! The linear programme over patterns: the least price at which sheets cut so cover what is needed. It stays solved while
//! patterns come in and while what is needed shrinks.
//!
//! Revised simplex with the whole inverse of the basis (Dantzig 1963); dual simplex where the need has changed (Lemke 1954). In
//! floating point: whatever follows from it is checked in whole numbers by its callers.

use super::reduced::Reduced;

/// Less than this is nought.
const NOUGHT: f64 = 1e-9;
/// Needs differ by so much at most from whole numbers: without that, many steps of the simplex would lead nowhere.
const NUDGE: f64 = 1e-6;
/// Steps of the simplex before the inverse is made anew, besides one for each row.
const FRESH: usize = 100;
/// Entries that are gone through in one counted step.
const ENTRIES: usize = 40;

/// The programme and its solution.
#[derive(Debug, Clone)]
pub(super) struct Programme {
    kinds: usize,
    /// What is needed of each kind; then how many there are of each stock that is limited.
    need: Vec<f64>,
    /// Of each stock, its row.
    stock: Vec<Option<usize>>,
    /// Entries of all columns one after another, and where each begins. First come the programme's own: a kind bought or missing,
    /// a kind too often, a stock that is not used up.
    entries: Vec<(usize, f64)>,
    begins: Vec<usize>,
    cost: Vec<f64>,
    own: usize,
    /// Of each row, the column that is in the basis for it, and how much of it is taken.
    basis: Vec<usize>,
    amounts: Vec<f64>,
    is_basic: Vec<bool>,
    inverse: Vec<f64>,
    /// Coins in one unit of cost.
    coins: f64,
    /// Cost of a kind that is missing.
    missing: f64,
    /// Since the inverse was made anew.
    turns: usize,
    pub(super) steps: u64,
}

impl Programme {
    /// Without patterns: everything is missing, each at the price `missing`.
    pub(super) fn new(job: &Reduced, missing: i64) -> Self {
        let coins = job.stocks.iter().map(|s| s.price as f64).fold(1.0, f64::max);
        let missing = missing as f64 / coins;
        let kinds = job.kinds.len();
        let mut need: Vec<f64> = job.kinds.iter().enumerate().map(|(i, k)| k.count as f64 + nudge(i)).collect();
        let mut row = |s: &super::reduced::Stock| {
            s.limited.then(|| {
                need.push(s.count as f64 + nudge(need.len()));
                need.len() - 1
            })
        };
        let stock = job.stocks.iter().map(&mut row).collect();
        let rows = need.len();
        let mut this = Self {
            kinds,
            stock,
            entries: Vec::new(),
            begins: vec![0],
            cost: Vec::new(),
            own: 0,
            basis: Vec::new(),
            amounts: need.clone(),
            is_basic: Vec::new(),
            inverse: vec![0.0; rows * rows],
            need,
            coins,
            missing,
            turns: 0,
            steps: 0,
        };
        for (i, kind) in job.kinds.iter().enumerate() {
            let price = kind.bought.map_or(missing, |bought| missing.min(bought as f64 / coins));
            this.column([(i, 1.0)], price);
        }
        (0..kinds).for_each(|i| this.column([(i, -1.0)], 0.0));
        (kinds..rows).for_each(|i| this.column([(i, 1.0)], 0.0));
        this.own = this.cost.len();
        this.start();
        this
    }

    /// Everything is missing again.
    fn start(&mut self) {
        let rows = self.need.len();
        self.basis = (0..rows).map(|i| if i < self.kinds { i } else { i + self.kinds }).collect();
        self.is_basic.iter_mut().for_each(|basic| *basic = false);
        self.basis.iter().for_each(|&column| self.is_basic[column] = true);
        self.inverse.iter_mut().for_each(|x| *x = 0.0);
        (0..rows).for_each(|i| self.inverse[i * rows + i] = 1.0);
        self.turns = 0;
        self.measure();
    }

    fn column(&mut self, entries: impl IntoIterator<Item = (usize, f64)>, cost: f64) {
        self.entries.extend(entries);
        self.begins.push(self.entries.len());
        self.cost.push(cost);
        self.is_basic.push(false);
    }

    /// Adds a pattern; the programme is solved anew by `cheapen`.
    pub(super) fn add(&mut self, stock: usize, counts: &[(usize, i64)], price: i64) {
        let row = self.stock[stock].map(|row| (row, 1.0));
        let counts = counts.iter().map(|&(kind, n)| (kind, n as f64));
        self.column(counts.chain(row), price as f64 / self.coins);
    }

    /// Patterns that it has.
    pub(super) fn patterns(&self) -> usize {
        self.cost.len() - self.own
    }

    /// Makes a pattern so dear that it is taken no more; the programme is solved anew by `cheapen`.
    pub(super) fn bar(&mut self, pattern: usize) {
        self.cost[self.own + pattern] = 4.0 * self.missing;
    }

    /// Such a sheet is cut: so much less is needed. Where the needs are changed, `cover` solves the programme anew.
    pub(super) fn cut(&mut self, stock: usize, counts: &[(usize, i64)]) {
        for &(kind, n) in counts {
            let left = self.need[kind] - n as f64;
            self.need[kind] = if left < 0.5 { 0.0 } else { left };
        }
        if let Some(row) = self.stock[stock] {
            self.need[row] -= 1.0;
        }
    }

    /// What one of each kind is worth, in coins.
    pub(super) fn prices(&self) -> Vec<f64> {
        let duals = self.duals();
        duals.iter().take(self.kinds).map(|y| y.max(0.0) * self.coins).collect()
    }

    /// What a sheet of this stock costs beyond its price because there are no more of it, in coins.
    pub(super) fn scarce(&self) -> Vec<f64> {
        let duals = self.duals();
        self.stock.iter().map(|row| row.map_or(0.0, |row| (-duals[row]).max(0.0) * self.coins)).collect()
    }

    /// How often each pattern is taken.
    pub(super) fn weights(&self) -> Vec<f64> {
        let mut all = vec![0.0; self.patterns()];
        let taken = self.basis.iter().zip(&self.amounts).filter(|(column, _)| **column >= self.own);
        taken.for_each(|(column, amount)| all[column - self.own] = amount.max(0.0));
        all
    }

    /// The price of it all, in coins.
    pub(super) fn price(&self) -> f64 {
        self.basis.iter().zip(&self.amounts).map(|(&column, amount)| self.cost[column] * amount).sum::<f64>()
            * self.coins
    }

    fn entries(&self, column: usize) -> &[(usize, f64)] {
        &self.entries[self.begins[column]..self.begins[column + 1]]
    }

    fn times(&self, column: usize, by: &[f64]) -> f64 {
        self.entries(column).iter().map(|&(row, x)| x * by[row]).sum()
    }

    fn duals(&self) -> Vec<f64> {
        let rows = self.need.len();
        let mut y = vec![0.0; rows];
        for (i, &column) in self.basis.iter().enumerate().filter(|(_, column)| self.cost[**column] != 0.0) {
            add(&mut y, self.cost[column], &self.inverse[i * rows..(i + 1) * rows]);
        }
        y
    }

    fn most_turns(&self) -> usize {
        20 * self.need.len() + 200
    }

    /// Takes patterns in as long as that makes it cheaper.
    pub(super) fn cheapen(&mut self) {
        for _ in 0..self.most_turns() {
            let y = self.duals();
            let mut comes: Option<(f64, usize)> = None;
            for column in (0..self.cost.len()).filter(|column| !self.is_basic[*column]) {
                let dear = self.cost[column] - self.times(column, &y);
                if dear < comes.map_or(-NOUGHT, |c| c.0) {
                    comes = Some((dear, column));
                }
            }
            let Some((_, column)) = comes else { return };
            let way = self.way(column);
            let mut goes: Option<(f64, usize)> = None;
            for (row, &u) in way.iter().enumerate().filter(|(_, u)| **u > NOUGHT) {
                let far = self.amounts[row].max(0.0) / u;
                let nearer = goes.is_none_or(|(least, known)| far < least || (far <= least && u > way[known]));
                if nearer {
                    goes = Some((far, row));
                }
            }
            let Some((_, row)) = goes else { return };
            self.turn(row, column, &way);
        }
    }

    /// After the needs have changed: takes what costs least to make every amount fit again.
    pub(super) fn cover(&mut self) {
        self.measure();
        let rows = self.need.len();
        for _ in 0..self.most_turns() {
            let least = self.amounts.iter().enumerate().min_by(|x, y| x.1.total_cmp(y.1).then(x.0.cmp(&y.0)));
            let Some((row, _)) = least.filter(|(_, amount)| **amount < -NOUGHT) else { return };
            let y = self.duals();
            let of = &self.inverse[row * rows..(row + 1) * rows];
            let mut comes: Option<(f64, f64, usize)> = None;
            for column in (0..self.cost.len()).filter(|column| !self.is_basic[*column]) {
                let by = -self.times(column, of);
                if by <= NOUGHT {
                    continue;
                }
                let dear = (self.cost[column] - self.times(column, &y)).max(0.0) / by;
                if comes.is_none_or(|(least, most, _)| dear < least || (dear <= least && by > most)) {
                    comes = Some((dear, by, column));
                }
            }
            let Some((.., column)) = comes else { return };
            let way = self.way(column);
            self.turn(row, column, &way);
        }
    }

    /// How the amounts change where one of this column is taken.
    fn way(&self, column: usize) -> Vec<f64> {
        let rows = self.need.len();
        let of = |i: usize| self.times(column, &self.inverse[i * rows..(i + 1) * rows]);
        (0..rows).map(of).collect()
    }

    fn turn(&mut self, row: usize, column: usize, way: &[f64]) {
        let rows = self.need.len();
        self.steps += ((rows * rows * 3 + self.entries.len()) / ENTRIES) as u64;
        self.is_basic[self.basis[row]] = false;
        self.is_basic[column] = true;
        self.basis[row] = column;
        self.turns += 1;
        if self.turns > FRESH + rows {
            self.invert();
            return;
        }
        let by = 1.0 / way[row];
        let amount = self.amounts[row] * by;
        self.inverse[row * rows..(row + 1) * rows].iter_mut().for_each(|x| *x *= by);
        let own = self.inverse[row * rows..(row + 1) * rows].to_vec();
        for (i, &u) in way.iter().enumerate().filter(|(i, u)| *i != row && **u != 0.0) {
            self.amounts[i] -= u * amount;
            add(&mut self.inverse[i * rows..(i + 1) * rows], -u, &own);
        }
        self.amounts[row] = amount;
    }

    /// The inverse anew by Gauss and Jordan's elimination; where rounding left none, everything is missing again.
    fn invert(&mut self) {
        let rows = self.need.len();
        let wide = 2 * rows;
        let mut all = vec![0.0; rows * wide];
        for (i, &column) in self.basis.iter().enumerate() {
            self.entries(column).iter().for_each(|&(row, x)| all[row * wide + i] += x);
            all[i * wide + rows + i] = 1.0;
        }
        self.steps += (rows * rows * rows / ENTRIES) as u64;
        for i in 0..rows {
            let largest = (i..rows).max_by(|x, y| all[x * wide + i].abs().total_cmp(&all[y * wide + i].abs()));
            let Some(largest) = largest.filter(|row| all[row * wide + i].abs() > NOUGHT) else { return self.start() };
            (0..wide).for_each(|k| all.swap(i * wide + k, largest * wide + k));
            let by = 1.0 / all[i * wide + i];
            all[i * wide..(i + 1) * wide].iter_mut().for_each(|x| *x *= by);
            let own = all[i * wide..(i + 1) * wide].to_vec();
            for row in (0..rows).filter(|row| *row != i) {
                let u = all[row * wide + i];
                if u != 0.0 {
                    add(&mut all[row * wide..(row + 1) * wide], -u, &own);
                }
            }
        }
        for i in 0..rows {
            self.inverse[i * rows..(i + 1) * rows].copy_from_slice(&all[i * wide + rows..(i + 1) * wide]);
        }
        self.turns = 0;
        self.measure();
    }

    fn measure(&mut self) {
        let rows = self.need.len();
        self.steps += ((rows * rows * 4 + self.entries.len()) / ENTRIES) as u64;
        let of =
            |i: usize| self.inverse[i * rows..(i + 1) * rows].iter().zip(&self.need).map(|(x, need)| x * need).sum();
        self.amounts = (0..rows).map(of).collect();
    }
}

/// Different for each row, the same on any machine.
fn nudge(row: usize) -> f64 {
    NUDGE * ((row * 7919 + 1) % 1009) as f64 / 1009.0
}

fn add(to: &mut [f64], by: f64, of: &[f64]) {
    to.iter_mut().zip(of).for_each(|(x, y)| *x += by * y);
}
