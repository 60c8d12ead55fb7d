//! Lower bounds of the price, proved in whole numbers.

use super::model::{Limit, Model, State, UNLIMITED, gcd};

/// Worths of the kinds over a common denominator, such that no filling of a bar is worth more than the bar's price and rent.
#[derive(Debug, Clone)]
pub(super) struct Worths {
    pub kinds: Vec<i64>,
    /// What a bar of limited number is worth above its price; nought for the others.
    pub rents: Vec<i64>,
    /// What one bar is worth for the least, and costs for the most, of each limit.
    pub tolls: Vec<(i64, i64)>,
    pub denominator: i64,
}

/// The denominator of worths: large, yet such that no sum of worths overflows, not even of as many pieces as a bar holds at most,
/// each worth what stands in for a missing filling.
pub(super) fn denominator(model: &Model) -> i64 {
    let dearest = i128::from(model.dearest()) + 1;
    let most = (1_i128 << 60) / (i128::from(MAKESHIFT) * dearest * i128::from(most_pieces(model)));
    i64::try_from(most.min((1 << 46) / dearest)).unwrap_or(1).max(1)
}

/// The greatest worth of a piece.
pub(super) fn most_worth(model: &Model) -> i64 {
    (1_i64 << 60) / most_pieces(model)
}

/// Pieces that a bar holds at most.
fn most_pieces(model: &Model) -> i64 {
    let longest = model.bars.iter().map(|bar| bar.capacity).max().unwrap_or(0);
    let shortest = model.lengths.iter().copied().min().unwrap_or(1).max(1);
    (longest / shortest).max(1) + 1
}

/// What stands in for a missing filling costs so many times the dearest bar.
pub(super) const MAKESHIFT: i64 = 1000;

impl Worths {
    /// Worths made to hold for every bar: all are scaled down where a bar without limit could be filled for more than its
    /// price (Farley 1990), and bars of limited number get a rent (the dual of their count).
    ///
    /// `most` is what no filling of the bar is worth more than.
    pub fn holding(model: &Model, state: &State, kinds: Vec<i64>, tolls: Vec<(i64, i64)>, most: &[i64]) -> Self {
        let mut worths = Self { kinds, rents: vec![0; most.len()], tolls, denominator: denominator(model) };
        // What a bar is worth in all: its filling, and what the limits give or take.
        let in_all = |worths: &Self, bar: usize| i128::from(most[bar]) + worths.toll(bar, &state.limits);
        let mut scale = (1_i128, 1_i128);
        for (b, (bar, &left)) in model.bars.iter().zip(&state.left).enumerate() {
            let price = i128::from(bar.price) * i128::from(worths.denominator);
            let most = in_all(&worths, b);
            if left == UNLIMITED && most > price && price * scale.1 < scale.0 * most {
                scale = (price, most);
            }
        }
        let scaled = |v: i64| i64::try_from(i128::from(v) * scale.0 / scale.1).unwrap_or(0);
        for (b, (bar, &left)) in model.bars.iter().zip(&state.left).enumerate() {
            if left != UNLIMITED {
                let price = i128::from(bar.price) * i128::from(worths.denominator);
                let most = in_all(&worths, b);
                let rent = most * scale.0 / scale.1 + 1 + state.limits.len() as i128 - price;
                worths.rents[b] = i64::try_from(rent).unwrap_or(i64::MAX).max(0);
            }
        }
        worths.kinds.iter_mut().for_each(|v| *v = scaled(*v));
        for (least, most) in &mut worths.tolls {
            // What is given is rounded down, what is taken up: a bar is never worth more by rounding.
            (*least, *most) = (scaled(*least), if *most == 0 { 0 } else { scaled(*most) + 1 });
        }
        worths
    }

    /// What the limits give for a bar, less what they take.
    fn toll(&self, bar: usize, limits: &[Limit]) -> i128 {
        let own = self.tolls.iter().zip(limits).filter(|(_, l)| l.has(bar));
        own.map(|((least, most), _)| i128::from(*least) - i128::from(*most)).sum()
    }

    /// What a bar costs, less what the limits give for it, times the denominator.
    pub fn cost(&self, price: i64, bar: usize, limits: &[Limit]) -> i128 {
        i128::from(price) * i128::from(self.denominator) - self.toll(bar, limits)
    }

    /// The bound for what is still to be cut, times the denominator (weak duality).
    pub fn bound(&self, state: &State) -> i128 {
        let worth: i128 = self.kinds.iter().zip(&state.demand).map(|(&w, &d)| i128::from(w) * i128::from(d)).sum();
        let rent = |(&rent, &left): (&i64, &i64)| if rent == 0 { 0 } else { i128::from(rent) * i128::from(left) };
        let toll = |((least, most), limit): (&(i64, i64), &Limit)| {
            let taken = if *most == 0 { 0 } else { i128::from(*most) * i128::from(limit.most) };
            i128::from(*least) * i128::from(limit.least) - taken
        };
        let tolls: i128 = self.tolls.iter().zip(&state.limits).map(toll).sum();
        worth + tolls - self.rents.iter().zip(&state.left).map(rent).sum::<i128>()
    }

    /// The bound in whole coins.
    pub fn coins(&self, state: &State) -> i64 {
        let denominator = i128::from(self.denominator);
        let up = -(-self.bound(state)).div_euclid(denominator);
        i64::try_from(up).unwrap_or(0).max(0)
    }
}

/// Sums of prices that can be reached at all.
#[derive(Debug)]
pub(super) struct Sums {
    step: i64,
    /// Whether so many steps can be reached.
    reached: Vec<bool>,
}

/// Steps of the longest table.
const LONGEST: i64 = 1_000_000;

impl Sums {
    pub fn new(model: &Model, up_to: i64) -> Self {
        let step = model.bars.iter().fold(0, |a, b| gcd(a, b.price)).max(1);
        let mut reached = Vec::new();
        if up_to / step <= LONGEST {
            reached = vec![false; usize::try_from(up_to / step).unwrap_or(0) + 1];
            reached[0] = true;
            for bar in model.bars.iter().filter(|b| b.price > 0) {
                let add = usize::try_from(bar.price / step).unwrap_or(usize::MAX);
                for i in add..reached.len() {
                    reached[i] |= reached[i - add];
                }
            }
        }
        Self { step, reached }
    }

    /// The least sum from here on.
    pub fn at_least(&self, coins: i64) -> i64 {
        if coins > i64::MAX - self.step {
            return i64::MAX;
        }
        let from = (coins + self.step - 1).div_euclid(self.step).max(0);
        let at = usize::try_from(from).unwrap_or(usize::MAX);
        let further = self.reached.get(at..).and_then(|r| r.iter().position(|&yes| yes)).unwrap_or(0);
        (from + i64::try_from(further).unwrap_or(0)) * self.step
    }

    /// The greatest sum below.
    pub fn below(&self, coins: i64) -> i64 {
        let from = (coins - 1).div_euclid(self.step);
        if from < 0 {
            return -1;
        }
        let at = usize::try_from(from).unwrap_or(usize::MAX);
        let back = self.reached.get(..=at).and_then(|r| r.iter().rposition(|&yes| yes));
        back.map_or(from, |i| i64::try_from(i).unwrap_or(0)) * self.step
    }
}
