//! The job reduced to whole numbers without kerf or trim, and plans of it.

use std::collections::BTreeMap;

use super::{BarJob, BarPattern, BarPiece, BarStock};

/// As many as wanted.
pub(super) const UNLIMITED: i64 = i64::MAX;

/// One kind of bar, reduced.
#[derive(Debug, Clone)]
pub(super) struct Bar {
    /// What a filling may take.
    pub capacity: i64,
    pub price: i64,
    /// Its index in the job.
    pub index: usize,
}

/// The job reduced: kinds longest first, bars longest first.
#[derive(Debug, Clone)]
pub(super) struct Model {
    pub lengths: Vec<i64>,
    pub bars: Vec<Bar>,
    /// Pieces of the job by kind.
    members: Vec<Vec<usize>>,
    /// Tenths of a millimetre in one unit.
    pub unit_tenths: i64,
}

/// What is still to be cut, and from what.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct State {
    pub demand: Vec<i64>,
    pub left: Vec<i64>,
    /// What a branch of the search asks for besides.
    pub limits: Vec<Limit>,
}

/// How many bars of the kinds from one to another a branch is to have.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Limit {
    pub from: usize,
    pub to: usize,
    pub least: i64,
    pub most: i64,
}

impl Limit {
    pub fn has(&self, bar: usize) -> bool {
        (self.from..=self.to).contains(&bar)
    }
}

/// One filling of one bar: kinds and how many of each, by rising kind.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Filling {
    pub bar: usize,
    pub takes: Vec<(usize, i64)>,
}

/// Fillings and how many times each.
pub(super) type Fillings = Vec<(Filling, i64)>;

impl BarStock {
    /// Length between the trims, each with the kerf of the cut that takes it off, tenths of a millimetre.
    pub fn usable_tenths(&self, kerf_tenths: i64) -> i64 {
        let lost = |trim: i64| if trim > 0 { trim + kerf_tenths } else { 0 };
        self.length_tenths - lost(self.trim_start_tenths) - lost(self.trim_end_tenths)
    }
}

impl BarPiece {
    /// Length with the cut that parts it from the next.
    pub(super) fn taken_tenths(&self, kerf_tenths: i64) -> i64 {
        self.length_tenths + self.kerf_tenths.unwrap_or(kerf_tenths)
    }
}

/// The least kerf of any piece: the last piece of a bar that is filled to its end needs no cut behind it.
pub(super) fn least_kerf_tenths(job: &BarJob) -> i64 {
    let kerfs = job.pieces.iter().map(|p| p.kerf_tenths.unwrap_or(job.kerf_tenths));
    kerfs.min().unwrap_or(job.kerf_tenths)
}

impl Model {
    /// A piece takes its length and its kerf; a bar gives its usable length and the least kerf. With unequal kerfs this is on
    /// the safe side. All is divided by the greatest common divisor of what pieces take.
    pub fn new(job: &BarJob) -> (Self, State) {
        let mut kinds: BTreeMap<i64, Vec<usize>> = BTreeMap::new();
        for (i, piece) in job.pieces.iter().enumerate() {
            kinds.entry(piece.taken_tenths(job.kerf_tenths)).or_default().push(i);
        }
        let unit = kinds.keys().fold(0, |a, &b| gcd(a, b)).max(1);
        let (lengths, members): (Vec<i64>, Vec<Vec<usize>>) =
            kinds.into_iter().rev().map(|(l, m)| (l / unit, m)).unzip();
        let demand = members.iter().map(|m| m.iter().map(|&i| i64::from(job.pieces[i].count)).sum()).collect();
        let kerf = least_kerf_tenths(job);
        let count = |i: usize| job.stock[i].count.map_or(UNLIMITED, i64::from);
        let mut bars: Vec<Bar> = (job.stock.iter().enumerate())
            .map(|(i, s)| Bar {
                capacity: (s.usable_tenths(job.kerf_tenths) + kerf).div_euclid(unit),
                price: s.price_coins,
                index: i,
            })
            .collect();
        bars.retain(|b| lengths.last().is_some_and(|&least| b.capacity >= least));
        bars.sort_by_key(|b| (-b.capacity, b.price, -count(b.index), b.index));
        // A bar that another, no dearer, never used up and no shorter, can stand for is not needed.
        let kept = |(i, b): &(usize, &Bar)| {
            let stands_in = |o: &Bar| o.capacity >= b.capacity && o.price <= b.price && count(o.index) == UNLIMITED;
            !bars[..*i].iter().any(stands_in)
        };
        let bars: Vec<Bar> = bars.iter().enumerate().filter(kept).map(|(_, b)| b.clone()).collect();
        let left = bars.iter().map(|b| count(b.index)).collect();
        (Self { lengths, bars, members, unit_tenths: unit }, State { demand, left, limits: Vec::new() })
    }

    /// The pieces of the job that are of this kind.
    pub fn members(&self, kind: usize) -> &[usize] {
        &self.members[kind]
    }

    /// The length of these, units.
    pub fn used(&self, takes: &[(usize, i64)]) -> i64 {
        takes.iter().map(|&(kind, times)| self.lengths[kind] * times).sum()
    }

    pub fn price(&self, fillings: &[(Filling, i64)]) -> i64 {
        fillings.iter().map(|(f, times)| self.bars[f.bar].price * times).sum()
    }

    /// The greatest price of one bar.
    pub fn dearest(&self) -> i64 {
        self.bars.iter().map(|b| b.price).max().unwrap_or(0)
    }

    /// What plans are compared by: price, bars, distinct fillings, and the largest remnant.
    pub fn score(&self, fillings: &[(Filling, i64)]) -> (i64, i64, usize, i64) {
        let bars = fillings.iter().map(|(_, times)| times).sum();
        let rest = |f: &Filling| self.bars[f.bar].capacity - self.used(&f.takes);
        let largest = fillings.iter().map(|(f, _)| rest(f)).max().unwrap_or(0);
        (self.price(fillings), bars, fillings.len(), -largest)
    }

    /// The fillings as the job's own pieces.
    pub fn patterns(&self, job: &BarJob, fillings: &[(Filling, i64)]) -> Vec<BarPattern> {
        // What is still wanted of each piece of a kind, the first in the job first.
        let mut queues: Vec<Vec<(usize, i64)>> = self
            .members
            .iter()
            .map(|m| m.iter().rev().map(|&i| (i, i64::from(job.pieces[i].count))).collect())
            .collect();
        let mut counted: BTreeMap<(usize, Vec<usize>), i64> = BTreeMap::new();
        let mut order: Vec<&(Filling, i64)> = fillings.iter().collect();
        order.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
        for (filling, times) in order {
            let mut rest = *times;
            while rest > 0 {
                let (pieces, alike) = next_alike(&mut queues, &filling.takes, rest);
                *counted.entry((self.bars[filling.bar].index, pieces)).or_insert(0) += alike;
                rest -= alike;
            }
        }
        let mut patterns: Vec<BarPattern> = counted
            .into_iter()
            .map(|((stock, mut pieces), times)| {
                pieces.sort_by_key(|&i| (-job.pieces[i].length_tenths, i));
                BarPattern { stock, times: u32::try_from(times).unwrap_or(u32::MAX), pieces }
            })
            .collect();
        patterns.sort_by(|a, b| {
            let price = |p: &BarPattern| job.stock[p.stock].price_coins;
            (price(b), a.stock, &a.pieces).cmp(&(price(a), b.stock, &b.pieces))
        });
        patterns
    }
}

/// The pieces that fill the next bars, and how many of at most `most` bars take just these.
fn next_alike(queues: &mut [Vec<(usize, i64)>], takes: &[(usize, i64)], most: i64) -> (Vec<usize>, i64) {
    let mut alike = most;
    let mut wanted: Vec<(usize, usize, i64)> = Vec::new();
    for &(kind, times) in takes {
        let mut need = times;
        for &(piece, count) in queues[kind].iter().rev() {
            let take = need.min(count);
            if take > 0 {
                wanted.push((kind, piece, take));
                alike = alike.min(count / take);
                need -= take;
            }
        }
    }
    let mut pieces = Vec::new();
    for (kind, piece, take) in wanted {
        pieces.extend(std::iter::repeat_n(piece, usize::try_from(take).unwrap_or(0)));
        if let Some(entry) = queues[kind].iter_mut().find(|e| e.0 == piece) {
            entry.1 -= take * alike;
        }
        queues[kind].retain(|e| e.1 > 0);
    }
    (pieces, alike)
}

impl State {
    pub fn pieces(&self) -> i64 {
        self.demand.iter().sum()
    }

    /// The longest kind that is still wanted.
    pub fn longest(&self) -> Option<usize> {
        self.demand.iter().position(|&d| d > 0)
    }

    /// How often a filling can be cut without a piece too many.
    pub fn most_times(&self, filling: &Filling) -> i64 {
        let by_demand = filling.takes.iter().map(|&(kind, times)| self.demand[kind] / times).min().unwrap_or(0);
        by_demand.min(self.available(filling.bar))
    }

    pub fn cut(&mut self, filling: &Filling, times: i64) {
        for &(kind, each) in &filling.takes {
            self.demand[kind] -= each * times;
        }
        self.take_bars(filling.bar, times);
    }

    pub fn uncut(&mut self, filling: &Filling, times: i64) {
        for &(kind, each) in &filling.takes {
            self.demand[kind] += each * times;
        }
        self.take_bars(filling.bar, -times);
    }

    /// How many bars of a kind may still be used.
    pub fn available(&self, bar: usize) -> i64 {
        let limits = self.limits.iter().filter(|l| l.has(bar)).map(|l| l.most);
        limits.fold(self.left[bar], i64::min).max(0)
    }

    fn take_bars(&mut self, bar: usize, times: i64) {
        if self.left[bar] != UNLIMITED {
            self.left[bar] -= times;
        }
        for limit in self.limits.iter_mut().filter(|l| l.has(bar)) {
            limit.least -= times;
            if limit.most != UNLIMITED {
                limit.most -= times;
            }
        }
    }
}

/// Each filling once, in their own order, with all its times.
pub(super) fn gathered(fillings: &[(Filling, i64)]) -> Fillings {
    let mut sum: BTreeMap<&Filling, i64> = BTreeMap::new();
    for (filling, times) in fillings {
        *sum.entry(filling).or_insert(0) += times;
    }
    sum.into_iter().map(|(f, t)| (f.clone(), t)).collect()
}

pub(super) fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a.abs() } else { gcd(b, a % b) }
}
