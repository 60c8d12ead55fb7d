//! Quick plans: bar after bar, the longest piece first.

use super::effort::Meter;
use super::knapsack::{Item, best_fillings};
use super::model::{Filling, Fillings, Model, State, UNLIMITED};

/// How a bar is filled up behind its longest piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fill {
    /// The next longest piece that fits, again and again: first-fit decreasing, bar by bar.
    Longest,
    /// With the least left over (minimum bin slack; Gupta & Ho 1999), by a subset-sum table.
    Fullest,
}

/// A plan of what is still to be cut, bar after bar; where the bars run out, what is left over stays in the state.
///
/// The bar is the one whose price for the length used is least, or only `bar` where it can hold the longest piece.
pub(super) fn greedy(
    model: &Model,
    state: &mut State,
    fill: Fill,
    bar: Option<usize>,
    meter: &mut Meter<'_>,
) -> Fillings {
    let mut plan = Fillings::new();
    // Pieces that no bar is left for.
    let mut left_over = vec![0; state.demand.len()];
    while let Some(kind) = state.longest() {
        let holds = |b: &usize| state.available(*b) > 0 && model.bars[*b].capacity >= model.lengths[kind];
        let all: Vec<usize> = (0..model.bars.len()).filter(holds).collect();
        let only = bar.filter(|b| all.contains(b));
        let bars = only.map_or(all, |b| vec![b]);
        let fillings = filled(model, state, kind, &bars, fill, meter);
        let key = |f: &Filling| (i128::from(model.bars[f.bar].price), i128::from(model.used(&f.takes)));
        let best = fillings.into_iter().min_by(|a, b| {
            let ((price_a, used_a), (price_b, used_b)) = (key(a), key(b));
            (price_a * used_b).cmp(&(price_b * used_a)).then(used_b.cmp(&used_a)).then(b.bar.cmp(&a.bar))
        });
        let Some(best) = best else {
            left_over[kind] = state.demand[kind];
            state.demand[kind] = 0;
            continue;
        };
        let times = state.most_times(&best).max(1);
        state.cut(&best, times);
        plan.push((best, times));
    }
    state.demand = left_over;
    shrink(model, state, &mut plan);
    plan
}

/// A filling of each of these bars that starts with the longest piece.
fn filled(
    model: &Model,
    state: &State,
    kind: usize,
    bars: &[usize],
    fill: Fill,
    meter: &mut Meter<'_>,
) -> Vec<Filling> {
    let copies = |k: usize| state.demand[k] - i64::from(k == kind);
    meter.spend((bars.len() * model.lengths.len()) as u64);
    // Once the work allowed is spent, the quick way ends it.
    if fill == Fill::Longest || !meter.goes_on() {
        let longest = |&bar: &usize| {
            let mut room = model.bars[bar].capacity - model.lengths[kind];
            let mut takes = vec![(kind, 1)];
            for (k, &length) in model.lengths.iter().enumerate().skip(kind) {
                let times = copies(k).min(room / length);
                if times > 0 {
                    room -= times * length;
                    if k == kind { takes[0].1 += times } else { takes.push((k, times)) }
                }
            }
            Filling { bar, takes }
        };
        return bars.iter().map(longest).collect();
    }
    let item = |(k, &length): (usize, &i64)| Item { kind: k, length, value: length, copies: copies(k) };
    let items: Vec<Item> = model.lengths.iter().enumerate().map(item).collect();
    let rooms: Vec<i64> = bars.iter().map(|&b| model.bars[b].capacity - model.lengths[kind]).collect();
    let best = best_fillings(&items, &rooms, meter);
    let whole = |(&bar, mut best): (&usize, super::knapsack::Best)| {
        match best.takes.iter_mut().find(|t| t.0 == kind) {
            Some(own) => own.1 += 1,
            None => best.takes.push((kind, 1)),
        }
        best.takes.sort_unstable();
        Filling { bar, takes: best.takes }
    };
    bars.iter().zip(best).map(whole).collect()
}

/// Puts each filling on the cheapest bar that holds it; of the same price the longest, for one large remnant.
pub(super) fn shrink(model: &Model, state: &mut State, plan: &mut Fillings) {
    let mut put: Fillings = Vec::with_capacity(plan.len());
    for (mut filling, mut times) in plan.drain(..) {
        let used = model.used(&filling.takes);
        let mut cheaper: Vec<usize> = (0..model.bars.len())
            .filter(|&b| model.bars[b].capacity >= used && model.bars[b].price < model.bars[filling.bar].price)
            .collect();
        cheaper.sort_by_key(|&b| (model.bars[b].price, b));
        for bar in cheaper {
            let moved = times.min(state.left[bar]);
            if moved > 0 {
                give(&mut state.left[bar], -moved);
                give(&mut state.left[filling.bar], moved);
                put.push((Filling { bar, takes: filling.takes.clone() }, moved));
                times -= moved;
            }
        }
        if times > 0 {
            filling.takes.sort_unstable();
            put.push((filling, times));
        }
    }
    *plan = put;
}

fn give(left: &mut i64, bars: i64) {
    if *left != UNLIMITED {
        *left += bars;
    }
}
