//! The least amount of money that can buy enough: sheets come whole.

use super::reduced::Reduced;

/// Amounts that are gone through.
const MOST_AMOUNTS: i64 = 100_000;
/// Limited stock is taken sheet by sheet up to this count; beyond, as if there were no limit.
const MOST_SINGLE: i64 = 40;

/// What can be paid for, and the amounts of money between nothing and the best plan.
#[derive(Debug, Clone)]
pub(super) struct Amounts {
    /// All amounts are multiples of this.
    unit: i64,
    /// In units; none where there are too many.
    top: Option<usize>,
}

impl Amounts {
    pub(super) fn new(job: &Reduced, best: i64) -> Self {
        let bought = job.kinds.iter().filter_map(|k| k.bought);
        let coins = job.stocks.iter().flat_map(|s| [s.price, s.cut_coins]).chain(bought);
        let unit = coins.fold(0, gcd).max(1);
        let top = best / unit;
        Self { unit, top: (0..=MOST_AMOUNTS).contains(&top).then_some(top as usize) }
    }

    /// The next multiple of the unit.
    pub(super) fn up(&self, least: i128) -> i128 {
        let unit = i128::from(self.unit);
        (least + unit - 1).div_euclid(unit) * unit
    }

    /// The least amount that buys `total`, where a sheet of each stock yields at most `worth` beyond its cuts, a cut yields its
    /// own price (`coin` for each coin) and a bought piece `values` of it. A knapsack over whole sheets: what holds for any plan
    /// whatever the prices of the pieces are. None where there are too many amounts.
    pub(super) fn least(&self, job: &Reduced, total: i128, worth: &[i64], values: &[i64], coin: i64) -> Option<i128> {
        let top = self.top?;
        let mut yields = vec![0_i128; top + 1];
        let mut free = 0;
        for (stock, &worth) in job.stocks.iter().zip(worth) {
            let (step, worth) = ((stock.price / self.unit) as usize, i128::from(worth));
            if step == 0 {
                free += worth * i128::from(stock.count);
            } else if stock.limited && stock.count <= MOST_SINGLE {
                for _ in 0..stock.count {
                    for x in (step..=top).rev() {
                        yields[x] = yields[x].max(yields[x - step] + worth);
                    }
                }
            } else {
                many(&mut yields, step, worth);
            }
        }
        let cuts = job.stocks.iter().map(|s| (s.cut_coins, i128::from(s.cut_coins) * i128::from(coin)));
        let bought = job.kinds.iter().zip(values).filter_map(|(k, v)| Some((k.bought?, i128::from(*v))));
        for (price, worth) in cuts.chain(bought) {
            let step = (price / self.unit) as usize;
            if step > 0 {
                many(&mut yields, step, worth);
            } else {
                // A piece that is bought for nothing: all of them are.
                free += worth * i128::from(super::MOST_PIECES);
            }
        }
        let mut most = 0;
        for (x, here) in yields.iter().enumerate() {
            most = most.max(*here);
            if most + free >= total {
                return Some(x as i128 * i128::from(self.unit));
            }
        }
        Some((top as i128 + 1) * i128::from(self.unit))
    }
}

fn many(yields: &mut [i128], step: usize, worth: i128) {
    for x in step..yields.len() {
        yields[x] = yields[x].max(yields[x - step] + worth);
    }
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}
