//! A found plan in the words of the answer, and how good it is beyond its price.

use std::cmp::Reverse;

use crate::check::significant;
use crate::error::Problem;

use super::reduced::Reduced;
use super::search::{Sheet, State};
use super::{Content, Ended, Part, SheetJob, SheetPattern, SheetPlan, is_kept};

/// What makes one plan better than another, the price first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Rank {
    pub(super) price: i64,
    pub(super) sheets: usize,
    patterns: usize,
    remnant: Reverse<i64>,
}

impl Rank {
    pub(super) fn of(job: &Reduced, state: &State) -> Self {
        let patterns = patterns(job, state);
        let remnant = patterns.iter().map(|p| largest(&p.inside, job.keep)).max().unwrap_or(0);
        Self { price: state.price, sheets: state.sheets.len(), patterns: patterns.len(), remnant: Reverse(remnant) }
    }

    /// Nothing is left to tidy: there is no sheet.
    pub(super) fn least(&self) -> bool {
        self.sheets == 0
    }
}

/// Area of the largest rest worth keeping.
fn largest(part: &Part, keep: (i64, i64)) -> i64 {
    match &part.content {
        Content::Piece { .. } => 0,
        Content::Rest => {
            let size = (part.length_tenths, part.width_tenths);
            if is_kept(keep, size) { size.0 * size.1 } else { 0 }
        }
        Content::Cut { parts, .. } => parts.iter().map(|p| largest(p, keep)).max().unwrap_or(0),
    }
}

/// Equal sheets together, in one order.
fn patterns(job: &Reduced, state: &State) -> Vec<SheetPattern> {
    let mut sheets = state.sheets.clone();
    for sheet in &mut sheets {
        sheet.root.sort();
    }
    sheets.sort_by(|x, y| (x.stock, &x.root).cmp(&(y.stock, &y.root)));
    let mut patterns: Vec<SheetPattern> = Vec::new();
    let mut last: Option<&Sheet> = None;
    for sheet in &sheets {
        if last == Some(sheet) {
            patterns.iter_mut().next_back().into_iter().for_each(|pattern| pattern.times += 1);
            continue;
        }
        last = Some(sheet);
        let stock = &job.stocks[sheet.stock];
        if let Some(layout) = sheet.root.layout(stock, job) {
            let inside = sheet.root.part(stock, layout, job.kerf);
            patterns.push(SheetPattern { stock: sheet.stock, times: 1, inside });
        }
    }
    patterns
}

/// The plan in its own words.
pub(super) fn plan(job: &Reduced, best: &State, bound: i64, ended: Ended, steps: u64) -> SheetPlan {
    let of = |kind: usize| best.bought.iter().filter(|b| **b == kind).count() as u32;
    let bought = (0..job.kinds.len()).map(|kind| (kind, of(kind))).filter(|(_, n)| *n > 0).collect();
    let ended = if best.price <= bound { Ended::Proven } else { ended };
    SheetPlan {
        patterns: patterns(job, best),
        bought,
        price_coins: best.price,
        bound_coins: bound.min(best.price),
        ended,
        steps,
    }
}

/// What is left over where the stock does not suffice.
pub(super) fn short(job: &SheetJob, reduced: &Reduced, best: &State) -> Problem {
    let of = |kind: usize| best.left.iter().filter(|b| **b == kind).count();
    let named = job.pieces.iter().enumerate().map(|(kind, piece)| (of(kind), &piece.name)).filter(|(n, _)| *n > 0);
    let left: Vec<String> = named.map(|(n, name)| format!("{n} of {name}")).collect();
    let kept = reduced.kinds.iter().filter(|k| k.bought.is_none());
    let need: i128 = kept.map(|k| i128::from(k.area()) * i128::from(k.count)).sum();
    let have: i128 = reduced.stocks.iter().map(|s| i128::from(s.area()) * i128::from(s.count)).sum();
    let waiting = i128::from(best.waiting(reduced));
    // An area in square tenths of a millimetre.
    let m2 = |area: i128| significant(area as f64 / 1e8);
    let missing = if need > have {
        format!("proved by area, kerfs counted in: {} m2 are missing", m2(need - have))
    } else {
        format!("not proved: the area would suffice, but no plan was found; {} m2 are in no sheet", m2(waiting))
    };
    let words = format!("the stock is exhausted, {missing}; add stock or have pieces cut to size");
    Problem::contradiction("stock.count", format!("left over: {}", left.join(", ")), words)
}
