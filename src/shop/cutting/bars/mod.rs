//! Lengths to be cut from bars: what is asked for, and a plan of it.

mod bound;
mod counts;
mod effort;
mod greedy;
mod input;
mod knapsack;
mod master;
mod model;
mod search;
mod tree;

use serde::Serialize;

use crate::error::Problem;

pub use effort::BarEffort;
pub use input::{MOST_KINDS, MOST_LENGTH_TENTHS, MOST_PIECES, MOST_PRICE_COINS};

use super::Ended;
use effort::Meter;
use model::Model;
use search::Search;

/// Bars of one length and price; all lengths in tenths of a millimetre, all money in the smallest coin.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BarStock {
    /// Its name.
    pub name: String,
    /// Length as bought, tenths of a millimetre.
    pub length_tenths: i64,
    /// Price of one, in the smallest coin; nought for an offcut.
    pub price_coins: i64,
    /// How many there are; none where as many as wanted can be bought.
    pub count: Option<u32>,
    /// Bad metal cut off at the start, tenths of a millimetre; where it is not nought, its kerf is lost besides.
    pub trim_start_tenths: i64,
    /// The same at the end.
    pub trim_end_tenths: i64,
}

/// Pieces of one length.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BarPiece {
    /// Its name.
    pub name: String,
    /// Length, by the long points where ends are mitred, tenths of a millimetre.
    pub length_tenths: i64,
    /// How many are needed.
    pub count: u32,
    /// What a cut at its ends takes along the bar, where it is more than a square cut's (a mitre's kerf is the saw's over the
    /// cosine of the mitre), tenths of a millimetre.
    pub kerf_tenths: Option<i64>,
}

/// All of one section: what there is, what is needed, and the saw.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BarJob {
    /// Bars that can be had.
    pub stock: Vec<BarStock>,
    /// Pieces that are needed.
    pub pieces: Vec<BarPiece>,
    /// Kerf of a square cut, tenths of a millimetre.
    pub kerf_tenths: i64,
}

/// Bars cut alike.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BarPattern {
    /// Which stock, by index.
    pub stock: usize,
    /// How many bars are cut so.
    pub times: u32,
    /// The pieces by index, in the order of cutting, longest first.
    pub pieces: Vec<usize>,
}

/// A plan and how good it is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BarPlan {
    /// Bars cut alike; dearest stock first, then as the solver says, always in the same order.
    pub patterns: Vec<BarPattern>,
    /// What the bars cost, in the smallest coin.
    pub price_coins: i64,
    /// No plan costs less than this: proved in whole numbers.
    pub bound_coins: i64,
    /// Why the search ended.
    pub ended: Ended,
    /// Steps of the search that were taken.
    pub steps: u64,
}

/// The plan of least price; among plans of that price met on the way, the one of fewest bars, then of fewest patterns, then with
/// the largest remnant. Only the price is proved.
///
/// A piece takes its length and its kerf along the bar; the last cut of a bar filled to its end is not needed. Where pieces have
/// kerfs of their own, only the least of them is left out there, which is on the safe side: price and bound are those of plans cut so,
/// and a piece whose own kerf is wider must be shorter than the bar by the difference.
///
/// `go_on` is asked from time to time; where it says no, the best plan so far is given. The same job with the same effort has
/// the same plan on any machine, unless it is stopped.
///
/// # Errors
/// All that is wrong with the job; or that the bars do not suffice, and whether that is certain.
///
/// # Example
/// ```
/// use raisedbody::shop::cutting::Ended;
/// use raisedbody::shop::cutting::bars::{BarEffort, BarJob, BarPiece, BarStock, cut_bars};
/// let bar = |name: &str, length_tenths, price_coins| BarStock {
///     name: name.to_owned(), length_tenths, price_coins, count: None, trim_start_tenths: 0, trim_end_tenths: 0,
/// };
/// let post = BarPiece { name: "post".to_owned(), length_tenths: 19_950, count: 6, kerf_tenths: None };
/// let job = BarJob { stock: vec![bar("6 m", 60_000, 2400), bar("4 m", 40_000, 1700)], pieces: vec![post], kerf_tenths: 30 };
/// let plan = cut_bars(&job, &BarEffort::default(), &|| true).unwrap();
/// assert_eq!((plan.price_coins, plan.bound_coins, plan.ended), (4800, 4800, Ended::Proven));
/// ```
pub fn cut_bars(job: &BarJob, effort: &BarEffort, go_on: &dyn Fn() -> bool) -> Result<BarPlan, Vec<Problem>> {
    input::check(job)?;
    let (model, root) = Model::new(job);
    let mut search = Search::new(&model, Meter::new(*effort, go_on));
    search.run(&root);
    let Some(fillings) = &search.best else {
        return Err(vec![input::no_plan(job, &model, &search, &root)]);
    };
    let price_coins = model.price(fillings);
    let ended = match (search.proven(), search.meter.stopped) {
        (true, _) => Ended::Proven,
        (false, true) => Ended::Stopped,
        (false, false) => Ended::Effort,
    };
    Ok(BarPlan {
        patterns: model.patterns(job, fillings),
        price_coins,
        bound_coins: search.bound.min(price_coins),
        ended,
        steps: search.meter.taken,
    })
}
