//! The search for a plan under a price: sheets are partly emptied and filled again by best fit, and whatever does not go in
//! waits; a plan with nothing waiting sets the next, lower price.

use rand::Rng;
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::bound::Column;
use super::reduced::Reduced;
use super::tree::{Spot, Tree};

/// One chance in so many that a spot is not looked at.
const BLINK: u32 = 60;
/// Spots that are tried where a spot can turn out to be forbidden.
const SPOTS_TRIED: usize = 4;

/// A sheet that is cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Sheet {
    pub(super) stock: usize,
    pub(super) root: Tree,
    /// With its cuts.
    pub(super) price: i64,
}

/// A plan, or part of one.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct State {
    pub(super) sheets: Vec<Sheet>,
    /// Sheets of each stock.
    pub(super) used: Vec<i64>,
    pub(super) bought: Vec<usize>,
    /// Pieces in no sheet.
    pub(super) left: Vec<usize>,
    pub(super) price: i64,
}

/// What a plan may cost and how many sheets it may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Goal {
    pub(super) price: i64,
    pub(super) sheets: usize,
}

impl Goal {
    pub(super) const NONE: Self = Self { price: i64::MAX / 4, sheets: usize::MAX };
}

/// The search, with what it has spent.
pub(super) struct Search<'a> {
    pub(super) job: &'a Reduced,
    pub(super) rng: ChaCha8Rng,
    pub(super) steps: u64,
}

impl State {
    pub(super) fn empty(job: &Reduced) -> Self {
        let left = (0..job.kinds.len()).flat_map(|i| (0..job.kinds[i].count).map(move |_| i)).collect();
        Self { left, used: vec![0; job.stocks.len()], ..Self::default() }
    }

    /// Every piece bought cut to size; none where one cannot be.
    pub(super) fn all_bought(job: &Reduced) -> Option<Self> {
        let prices: Option<Vec<i64>> = job.kinds.iter().map(|kind| kind.bought?.checked_mul(kind.count)).collect();
        let price = prices?.into_iter().try_fold(0_i64, i64::checked_add)?;
        let all = Self::empty(job);
        Some(Self { sheets: Vec::new(), used: all.used, bought: all.left, left: Vec::new(), price })
    }

    /// What is waiting, by area.
    pub(super) fn waiting(&self, job: &Reduced) -> i64 {
        self.left.iter().map(|&kind| job.kinds[kind].area()).sum()
    }

    /// One more sheet of this stock may be used.
    pub(super) fn has(&self, job: &Reduced, stock: usize) -> bool {
        self.used[stock] < job.stocks[stock].count
    }

    /// Takes a sheet out with its price.
    fn lift(&mut self, at: usize) -> Sheet {
        let sheet = self.sheets.swap_remove(at);
        self.used[sheet.stock] -= 1;
        self.price -= sheet.price;
        sheet
    }

    pub(super) fn lay(&mut self, sheet: Sheet) {
        self.used[sheet.stock] += 1;
        self.price += sheet.price;
        self.sheets.push(sheet);
    }
}

impl Sheet {
    /// A sheet cut so; none where it cannot be.
    pub(super) fn new(job: &Reduced, stock: usize, root: Tree) -> Option<Self> {
        let s = &job.stocks[stock];
        let layout = root.layout(s, job)?;
        Some(Self { stock, root, price: s.price + s.cut_coins * layout.cuts })
    }

    fn filled(&self, job: &Reduced) -> i64 {
        let mut kinds = Vec::new();
        self.root.pieces(&mut kinds);
        kinds.iter().map(|&kind| job.kinds[kind].area()).sum()
    }
}

impl Search<'_> {
    /// A plan from nothing, piece by piece; what can go nowhere waits.
    pub(super) fn build(&mut self, goal: Goal) -> State {
        let mut state = State::empty(self.job);
        self.fill(&mut state, goal);
        state
    }

    /// A plan from patterns that the linear programme takes, as often as they go into what is needed, and the rest piece by
    /// piece.
    pub(super) fn build_from(&mut self, columns: &[Column], weights: &[f64]) -> State {
        let job = self.job;
        let mut state = State { left: Vec::new(), ..State::empty(job) };
        let mut need: Vec<i64> = job.kinds.iter().map(|k| k.count).collect();
        let mut order: Vec<(f64, &Column)> = weights.iter().copied().zip(columns).filter(|(w, _)| *w > 1e-6).collect();
        order.sort_by(|x, y| y.0.total_cmp(&x.0).then_with(|| x.1.cmp(y.1)));
        for whole in [true, false] {
            for (weight, column) in &order {
                let times = if whole { weight.floor() as i64 } else { i64::from(weight.fract() > 0.4) };
                let Some(sheet) = column.tree.clone().and_then(|tree| Sheet::new(job, column.stock, tree)) else {
                    continue;
                };
                for _ in 0..times {
                    let enough = column.counts.iter().all(|&(kind, n)| n <= need[kind]);
                    if enough && state.used[column.stock] < job.stocks[column.stock].count {
                        column.counts.iter().for_each(|&(kind, n)| need[kind] -= n);
                        state.lay(sheet.clone());
                    }
                }
            }
        }
        state.left = need.iter().enumerate().flat_map(|(kind, &n)| (0..n).map(move |_| kind)).collect();
        self.fill(&mut state, Goal::NONE);
        state
    }

    /// One round: takes some out and puts all that waits in again.
    pub(super) fn round(&mut self, state: &mut State, goal: Goal) {
        self.empty_some(state, goal);
        self.fill(state, goal);
    }

    fn empty_some(&mut self, state: &mut State, goal: Goal) {
        self.take_back_bought(state);
        let whole = self.rng.random_range(0..3_usize);
        for _ in 0..whole {
            if !state.sheets.is_empty() {
                let at = self.worse_sheet(state);
                let sheet = state.lift(at);
                sheet.root.pieces(&mut state.left);
            }
        }
        let partly = self.rng.random_range(usize::from(whole == 0)..4_usize);
        for _ in 0..partly {
            if state.sheets.is_empty() {
                break;
            }
            let at = self.rng.random_range(0..state.sheets.len());
            self.thin_out(state, at);
        }
        while state.price > goal.price || state.sheets.len() > goal.sheets {
            if state.sheets.is_empty() {
                break;
            }
            let at = self.worse_sheet(state);
            let sheet = state.lift(at);
            sheet.root.pieces(&mut state.left);
        }
    }

    /// Bought pieces wait again; they are bought anew where that pays.
    fn take_back_bought(&mut self, state: &mut State) {
        let bought = std::mem::take(&mut state.bought);
        let price = |kind: usize| self.job.kinds[kind].bought.unwrap_or(0);
        state.price -= bought.iter().map(|&kind| price(kind)).sum::<i64>();
        state.left.extend(bought);
    }

    /// Of two sheets the one that costs more for what it holds.
    fn worse_sheet(&mut self, state: &State) -> usize {
        let a = self.rng.random_range(0..state.sheets.len());
        let b = self.rng.random_range(0..state.sheets.len());
        let (x, y) = (&state.sheets[a], &state.sheets[b]);
        let dear = |one: &Sheet, other: &Sheet| i128::from(one.price) * i128::from(other.filled(self.job));
        if dear(x, y) >= dear(y, x) { a } else { b }
    }

    fn thin_out(&mut self, state: &mut State, at: usize) {
        let mut sheet = state.lift(at);
        let share = self.rng.random_range(2..8_u32);
        let rng = &mut self.rng;
        let mut out = Vec::new();
        let some = sheet.root.take(self.job.first.is_some(), &mut |kind| {
            let goes = rng.random_ratio(share, 10);
            if goes {
                out.push(kind);
            }
            goes
        });
        if some {
            if let Some(thinner) = Sheet::new(self.job, sheet.stock, sheet.root.clone()) {
                sheet = thinner;
                if self.rng.random_ratio(1, 3) {
                    self.cheaper(state, &mut sheet);
                }
                state.lay(sheet);
            } else {
                sheet.root.pieces(&mut state.left);
            }
        }
        state.left.append(&mut out);
    }

    /// The cheapest stock that the same cuts can be made in.
    fn cheaper(&self, state: &State, sheet: &mut Sheet) {
        for (i, stock) in self.job.stocks.iter().enumerate() {
            let size = sheet.root.size();
            if stock.price >= sheet.price
                || state.used[i] >= stock.count
                || size[0] > stock.size[0]
                || size[1] > stock.size[1]
            {
                continue;
            }
            if let Some(other) = Sheet::new(self.job, i, sheet.root.clone())
                && other.price < sheet.price
            {
                *sheet = other;
            }
        }
    }

    pub(super) fn fill(&mut self, state: &mut State, goal: Goal) {
        self.put_all(state, goal);
        let mut changed = false;
        for at in 0..state.sheets.len() {
            let mut sheet = state.sheets[at].clone();
            self.cheaper(state, &mut sheet);
            if sheet.stock != state.sheets[at].stock {
                let old = std::mem::replace(&mut state.sheets[at], sheet);
                state.used[old.stock] -= 1;
                state.used[state.sheets[at].stock] += 1;
                state.price += state.sheets[at].price - old.price;
                changed = true;
            }
        }
        if changed && !state.left.is_empty() {
            self.put_all(state, goal);
        }
        self.buy_rest(state, goal);
    }

    fn put_all(&mut self, state: &mut State, goal: Goal) {
        let mut waiting = std::mem::take(&mut state.left);
        self.order(&mut waiting);
        for kind in waiting {
            if !(self.put_in(state, kind, goal) || self.buy(state, kind, goal) || self.open(state, kind, goal)) {
                state.left.push(kind);
            }
        }
    }

    fn order(&mut self, kinds: &mut [usize]) {
        kinds.shuffle(&mut self.rng);
        let all = &self.job.kinds;
        let way = self.rng.random_range(0..8_u32);
        let noisy = self.rng.random_ratio(1, 2);
        let mut key = |kind: usize| {
            let [l, w] = all[kind].size;
            let base = match way {
                0..=3 => l * w,
                4 | 5 => l.max(w),
                6 => l,
                _ => w,
            };
            if noisy { base * self.rng.random_range(70..131_i64) } else { base * 100 }
        };
        let mut keyed: Vec<(i64, usize)> = kinds.iter().map(|&kind| (key(kind), kind)).collect();
        keyed.sort_by_key(|(key, kind)| (-key, *kind));
        for (slot, (_, kind)) in kinds.iter_mut().zip(keyed) {
            *slot = kind;
        }
    }

    /// Puts a piece where the least is wasted.
    fn put_in(&mut self, state: &mut State, kind: usize, goal: Goal) -> bool {
        let job = self.job;
        let ways: Vec<_> = job.kinds[kind].ways().collect();
        let mut best: Vec<(i64, usize, Spot)> = Vec::new();
        for (i, sheet) in state.sheets.iter().enumerate() {
            let stock = &job.stocks[sheet.stock];
            let keep = if stock.has_limits() || job.first.is_some() || stock.cut_coins > 0 { SPOTS_TRIED } else { 1 };
            let rng = &mut self.rng;
            let nodes = sheet.root.spots(stock.size, job, &ways, &mut |spot, waste| {
                let worst = if best.len() < keep { i64::MAX } else { best.last().map_or(i64::MAX, |b| b.0) };
                if waste < worst && !rng.random_ratio(1, BLINK) {
                    let at = best.partition_point(|b| b.0 <= waste);
                    best.insert(at, (waste, i, spot));
                    best.truncate(SPOTS_TRIED.max(keep));
                }
            });
            self.steps += nodes as u64;
        }
        for (_, i, spot) in best {
            let stock = &job.stocks[state.sheets[i].stock];
            if !stock.has_limits() && job.first.is_none() && stock.cut_coins == 0 {
                state.sheets[i].root.put(spot, kind);
                return true;
            }
            let mut root = state.sheets[i].root.clone();
            root.put(spot, kind);
            if let Some(new) = Sheet::new(job, state.sheets[i].stock, root) {
                let price = state.price - state.sheets[i].price + new.price;
                if price <= goal.price {
                    state.price = price;
                    state.sheets[i] = new;
                    return true;
                }
            }
        }
        false
    }

    /// Buys a piece cut to size, at times, where that is cheaper than its share of the cheapest sheet.
    fn buy(&mut self, state: &mut State, kind: usize, goal: Goal) -> bool {
        let Some(price) = self.job.kinds[kind].bought else { return false };
        let area = i128::from(self.job.kinds[kind].area());
        let fits = self.job.stocks.iter().filter(|s| self.job.kinds[kind].fits(s.size));
        let mut dearer = fits.map(|s| i128::from(s.price) * area >= i128::from(price) * i128::from(s.area()));
        let pays = dearer.all(|one| one);
        let chance = if pays { 9 } else { 2 };
        if state.price + price > goal.price || !self.rng.random_ratio(chance, 10) {
            return false;
        }
        state.price += price;
        state.bought.push(kind);
        true
    }

    /// Buys whatever waits and can be bought.
    fn buy_rest(&self, state: &mut State, goal: Goal) {
        let left = std::mem::take(&mut state.left);
        for kind in left {
            match self.job.kinds[kind].bought {
                Some(price) if state.price + price <= goal.price => {
                    state.price += price;
                    state.bought.push(kind);
                }
                _ => state.left.push(kind),
            }
        }
    }

    /// Begins a sheet with a piece.
    fn open(&mut self, state: &mut State, kind: usize, goal: Goal) -> bool {
        if state.sheets.len() >= goal.sheets {
            return false;
        }
        let job = self.job;
        let piece = &job.kinds[kind];
        let mut best: Option<(i128, Sheet)> = None;
        let by_price = self.rng.random_ratio(1, 2);
        for (i, stock) in job.stocks.iter().enumerate() {
            if state.used[i] >= stock.count || state.price + stock.price > goal.price || !piece.fits(stock.size) {
                continue;
            }
            let noise = i128::from(self.rng.random_range(80..121_i64));
            let key = if by_price {
                i128::from(stock.price) * noise * 1_000_000_000 / i128::from(stock.area())
            } else {
                noise
            };
            if best.as_ref().is_some_and(|b| b.0 <= key) {
                continue;
            }
            let mut ways: Vec<_> =
                piece.ways().filter(|(_, s)| s[0] <= stock.size[0] && s[1] <= stock.size[1]).collect();
            ways.shuffle(&mut self.rng);
            for (turned, size) in ways {
                let root = Tree::first(job.first.unwrap_or(0), size, kind, turned);
                if let Some(sheet) = Sheet::new(job, i, root)
                    && state.price + sheet.price <= goal.price
                {
                    best = Some((key, sheet));
                    break;
                }
            }
        }
        self.steps += job.stocks.len() as u64;
        match best {
            Some((_, sheet)) => {
                state.lay(sheet);
                true
            }
            None => false,
        }
    }
}
