//! From a job to its plan: a first plan, a bound, a search under the price of the best, and tidying at that price.

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

use crate::error::Problem;

use super::bound::Bounder;
use super::dive::Dive;
use super::plan::{self, Rank};
use super::reduced::Reduced;
use super::search::{Goal, Search, State};
use super::{Ended, SheetJob, SheetPlan, input};

/// How much work is allowed, in counted steps: the same plan on any machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SheetEffort {
    /// Steps of the search and of the bound.
    pub steps: u64,
}

impl Default for SheetEffort {
    /// About one second on one core.
    fn default() -> Self {
        Self { steps: 48_000_000 }
    }
}

/// Plans from nothing before any is improved.
const BUILDS: usize = 20;
/// Steps of tidying, at most, and their share of all.
const TIDYING: (u64, u64) = (1_500_000, 10);
/// Share of the steps that are taken before the patterns of the bound are laid, and for laying them.
const FIRST: u64 = 12;
const DIVING: u64 = 4;
/// Steps that one round is counted as besides what it looks at.
const ROUND: u64 = 100;

/// The cheapest plan that is found within the effort, and a proven bound on every plan; `go_on` is asked now and then, and where
/// it says no the best plan so far is returned.
///
/// Where the first cut may run either way, it may differ from sheet to sheet. A fixed first cut is meant strictly: no sheet is
/// first cut the other way. Under a shear's limits each rest stays in one piece: it is not peeled off in strips that fit the
/// throat, though the bound allows for that. Nor is a block with a rest beside it cut out for several pieces only to save cuts.
///
/// # Errors
/// Everything that is wrong with the job; or what is left over where the stock does not suffice.
///
/// # Example
/// ```
/// use raisedbody::shop::cutting::Ended;
/// use raisedbody::shop::cutting::sheets::{SheetEffort, SheetJob, SheetPiece, SheetStock, Trim, cut_sheets};
/// let sheet = SheetStock {
///     name: "4 x 8 ft".to_owned(),
///     length_tenths: 24_384,
///     width_tenths: 12_192,
///     price_coins: 9_600,
///     count: None,
///     trim: Trim::default(),
///     cut_coins: 0,
///     longest_cut_tenths: None,
///     throat_tenths: 0,
/// };
/// let skirt = SheetPiece {
///     name: "skirt".to_owned(),
///     length_tenths: 12_000,
///     width_tenths: 6_000,
///     count: 5,
///     may_turn: false,
///     bought_coins: None,
/// };
/// let job = SheetJob {
///     stock: vec![sheet],
///     pieces: vec![skirt],
///     kerf_tenths: 0,
///     stages: None,
///     first_cut: None,
///     keep_tenths: (3_000, 3_000),
/// };
/// let plan = cut_sheets(&job, SheetEffort::default(), &|| true).unwrap();
/// assert_eq!((plan.price_coins, plan.bound_coins, plan.ended), (19_200, 19_200, Ended::Proven));
/// ```
pub fn cut_sheets(job: &SheetJob, effort: SheetEffort, go_on: &dyn Fn() -> bool) -> Result<SheetPlan, Vec<Problem>> {
    let problems = input::problems(job);
    if !problems.is_empty() {
        return Err(problems);
    }
    let reduced = Reduced::new(job);
    let mut search = Search { job: &reduced, rng: ChaCha8Rng::seed_from_u64(1), steps: 0 };
    let mut best = build(&mut search, go_on);
    // Nothing may cost more than to buy every piece.
    if let Some(bought) = State::all_bought(&reduced).filter(|all| !best.left.is_empty() || all.price < best.price) {
        best = bought;
    }
    if !best.left.is_empty() {
        improve(&mut search, &mut best, i64::MAX / 4, effort.steps / 2, go_on);
    }
    if !best.left.is_empty() {
        return Err(vec![plan::short(job, &reduced, &best)]);
    }
    let bound = prove(&mut search, &mut best, effort, go_on);
    let tidying = TIDYING.0.min(effort.steps / TIDYING.1);
    let ended = improve(&mut search, &mut best, bound, effort.steps - tidying, go_on);
    let ended = tidy(&mut search, &mut best, tidying, go_on).unwrap_or(ended);
    Ok(plan::plan(&reduced, &best, bound, ended, search.steps))
}

fn build(search: &mut Search, go_on: &dyn Fn() -> bool) -> State {
    let mut best = search.build(Goal::NONE);
    for _ in 1..BUILDS {
        if !go_on() {
            break;
        }
        let next = search.build(Goal::NONE);
        let key = |state: &State| (state.waiting(search.job), state.price, state.sheets.len());
        if key(&next) < key(&best) {
            best = next;
        }
    }
    best
}

/// The bound; and a cheaper plan where the patterns of its programme, and those of a plan somewhat improved, make one.
fn prove(search: &mut Search, best: &mut State, effort: SheetEffort, go_on: &dyn Fn() -> bool) -> i64 {
    if search.job.stocks.is_empty() {
        return best.price;
    }
    let mut bounder = Bounder::new(search.job);
    bounder.learn(best);
    let (proved, lp) = bounder.bound(best.price, effort.steps / 2, go_on);
    search.steps += std::mem::take(&mut bounder.steps);
    let bound = i64::try_from(proved).unwrap_or(best.price).min(best.price);
    let state = search.build_from(&bounder.columns, &lp.weights());
    if state.left.is_empty() && (state.price, state.sheets.len()) < (best.price, best.sheets.len()) {
        *best = state;
    }
    let steps = search.steps + effort.steps / FIRST;
    improve(search, best, bound, steps, go_on);
    bounder.learn(best);
    if let Some(state) = Dive::new(&mut bounder, search, best.price, effort.steps / DIVING).plan(lp, bound, go_on) {
        *best = state;
    }
    bound
}

/// Looks for cheaper plans until none can be, or the steps are spent.
fn improve(search: &mut Search, best: &mut State, bound: i64, steps: u64, go_on: &dyn Fn() -> bool) -> Ended {
    let job = search.job;
    let goal_of = |best: &State| {
        if best.left.is_empty() { Goal { price: best.price - 1, sheets: usize::MAX } } else { Goal::NONE }
    };
    let mut goal = goal_of(best);
    let mut now = best.clone();
    let mut waits = now.waiting(job);
    let mut fresh = true;
    let pieces: i64 = job.kinds.iter().map(|k| k.count).sum();
    let mean = job.kinds.iter().map(|k| k.area() * k.count).sum::<i64>() / pieces.max(1);
    for round in 1_u64.. {
        if best.left.is_empty() && best.price <= bound {
            return Ended::Proven;
        }
        if search.steps >= steps {
            break;
        }
        if round % 16 == 0 && !go_on() {
            return Ended::Stopped;
        }
        search.steps += ROUND;
        let mut next = now.clone();
        search.round(&mut next, goal);
        let next_waits = next.waiting(job);
        let slack = search.rng.random_range(0..=mean / 2);
        if fresh || next_waits <= waits + slack {
            (now, waits, fresh) = (next, next_waits, false);
        }
        if now.left.is_empty() {
            *best = now.clone();
            if goal == Goal::NONE {
                return Ended::Effort;
            }
            goal = goal_of(best);
            fresh = true;
        }
    }
    Ended::Effort
}

/// Looks for plans at the same price with fewer sheets, then fewer patterns, then a larger remnant.
fn tidy(search: &mut Search, best: &mut State, steps: u64, go_on: &dyn Fn() -> bool) -> Option<Ended> {
    let job = search.job;
    let until = search.steps + steps;
    let mut rank = Rank::of(job, best);
    let mut now = best.clone();
    let mut waits = 0;
    for round in 1_u64.. {
        if search.steps >= until || rank.least() {
            return None;
        }
        if round % 16 == 0 && !go_on() {
            return Some(Ended::Stopped);
        }
        search.steps += ROUND;
        let mut next = now.clone();
        search.round(&mut next, Goal { price: rank.price, sheets: rank.sheets });
        let next_waits = next.waiting(job);
        if next_waits <= waits || round % 8 == 0 {
            (now, waits) = (next, next_waits);
        }
        if now.left.is_empty() {
            let here = Rank::of(job, &now);
            if here < rank {
                rank = here;
                *best = now.clone();
            }
        }
        if round % 64 == 0 {
            now = best.clone();
            waits = 0;
        }
    }
    None
}
