//! The job in reduced sizes: trims off, and the kerf added to every piece and to the inside of every sheet, so that parts of a
//! cut add up without kerfs between them.

use super::{Line, SheetJob, SheetPiece, SheetStock};

/// Length and width.
pub(super) type Size = [i64; 2];

/// Stages where their number is free.
pub(super) const ANY_STAGES: usize = 1_000_000;

/// A stock in reduced sizes.
#[derive(Debug, Clone)]
pub(super) struct Stock {
    pub(super) size: Size,
    /// Of one, its trimming cuts included.
    pub(super) price: i64,
    /// How many can be used at most.
    pub(super) count: i64,
    /// There is a limit that may bind.
    pub(super) limited: bool,
    pub(super) cut_coins: i64,
    /// Longest cut, reduced.
    pub(super) longest: i64,
    /// Widest part in the throat, reduced; less than nought where there is no throat.
    pub(super) throat: i64,
}

impl Stock {
    pub(super) fn area(&self) -> i64 {
        self.size[0] * self.size[1]
    }

    /// The machine can be at its limit on a sheet of this size.
    pub(super) fn has_limits(&self) -> bool {
        self.longest < self.size[0].max(self.size[1])
    }
}

/// A kind of piece in reduced sizes.
#[derive(Debug, Clone)]
pub(super) struct Kind {
    pub(super) size: Size,
    pub(super) count: i64,
    pub(super) may_turn: bool,
    pub(super) bought: Option<i64>,
}

impl Kind {
    pub(super) fn area(&self) -> i64 {
        self.size[0] * self.size[1]
    }

    /// Its sizes as it may lie: turned or not.
    pub(super) fn ways(&self) -> impl Iterator<Item = (bool, Size)> + use<> {
        let [l, w] = self.size;
        let turned = (self.may_turn && l != w).then_some((true, [w, l]));
        std::iter::once((false, [l, w])).chain(turned)
    }

    pub(super) fn fits(&self, room: Size) -> bool {
        self.ways().any(|(_, size)| size[0] <= room[0] && size[1] <= room[1])
    }
}

/// The whole job.
#[derive(Debug, Clone)]
pub(super) struct Reduced {
    pub(super) stocks: Vec<Stock>,
    pub(super) kinds: Vec<Kind>,
    pub(super) kerf: i64,
    pub(super) stages: usize,
    /// Axis that the first cut divides.
    pub(super) first: Option<usize>,
    /// Least rest worth keeping.
    pub(super) keep: (i64, i64),
}

/// Axis that such a cut divides: nought for the length.
pub(super) fn axis(line: Line) -> usize {
    match line {
        Line::Across => 0,
        Line::Along => 1,
    }
}

/// The cut that divides this axis.
pub(super) fn line(axis: usize) -> Line {
    if axis == 0 { Line::Across } else { Line::Along }
}

/// Length and width inside the trimmed edges, and the number of trimmed edges.
pub(super) fn inside(stock: &SheetStock, kerf: i64) -> (Size, i64) {
    let t = stock.trim;
    let off = |edge: i64| if edge == 0 { 0 } else { edge + kerf };
    let l = stock.length_tenths - off(t.start_tenths) - off(t.end_tenths);
    let w = stock.width_tenths - off(t.lower_tenths) - off(t.upper_tenths);
    let edges = [t.start_tenths, t.end_tenths, t.lower_tenths, t.upper_tenths];
    ([l, w], edges.iter().filter(|edge| **edge != 0).count() as i64)
}

impl Reduced {
    /// The reduced job; the input must have been checked.
    pub(super) fn new(job: &SheetJob) -> Self {
        let kerf = job.kerf_tenths;
        let total: i64 = job.pieces.iter().map(|p| i64::from(p.count)).sum();
        let stock = |s: &SheetStock| {
            let ([l, w], trims) = inside(s, kerf);
            let count = s.count.map_or(total, |n| i64::from(n).min(total));
            Stock {
                size: [l + kerf, w + kerf],
                price: s.price_coins + s.cut_coins * trims,
                count,
                limited: count < total,
                cut_coins: s.cut_coins,
                longest: s.longest_cut_tenths.map_or(i64::MAX, |longest| longest + kerf),
                throat: if s.throat_tenths > 0 { s.throat_tenths + kerf } else { -1 },
            }
        };
        let kind = |p: &SheetPiece| Kind {
            size: [p.length_tenths + kerf, p.width_tenths + kerf],
            count: i64::from(p.count),
            may_turn: p.may_turn,
            bought: p.bought_coins,
        };
        Self {
            stocks: job.stock.iter().map(stock).collect(),
            kinds: job.pieces.iter().map(kind).collect(),
            kerf,
            stages: job.stages.map_or(ANY_STAGES, usize::from),
            first: job.first_cut.map(axis),
            keep: job.keep_tenths,
        }
    }
}
