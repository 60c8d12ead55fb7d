//! Checks a plan by itself: nothing here comes from the solver.

use super::bars::{BarJob, BarPattern, BarPlan};
use super::{Ended, mm};

/// What is left of the bar behind the last cut and its kerf, tenths of a millimetre; nought where the last piece ends so near the
/// end that the saw runs off. A trim at the end is no part of it.
pub fn remnant_tenths(job: &BarJob, pattern: &BarPattern) -> i64 {
    (between_trims(job, pattern) - laid_out(job, pattern)).max(0)
}

/// All that is wrong with a plan of this job; nothing where it can be cut, meets the demand and costs what it says.
pub fn bar_faults(job: &BarJob, plan: &BarPlan) -> Vec<String> {
    let mut problems = Vec::new();
    let mut used = vec![0_u64; job.stock.len()];
    let mut cut = vec![0_u64; job.pieces.len()];
    let mut price = 0_i128;
    for (at, pattern) in plan.patterns.iter().enumerate() {
        let Some(stock) = job.stock.get(pattern.stock) else {
            problems.push(format!("patterns[{at}]: there is no stock[{}]", pattern.stock));
            continue;
        };
        if let Some(piece) = pattern.pieces.iter().find(|&&p| p >= job.pieces.len()) {
            problems.push(format!("patterns[{at}]: there is no pieces[{piece}]"));
            continue;
        }
        if pattern.times == 0 || pattern.pieces.is_empty() {
            problems.push(format!("patterns[{at}]: nothing is cut"));
        }
        let length = |piece: &usize| job.pieces[*piece].length_tenths;
        if pattern.pieces.windows(2).any(|w| length(&w[0]) < length(&w[1])) {
            problems.push(format!("patterns[{at}]: the longest piece is not first"));
        }
        // Behind the last piece no cut is needed where it ends at the end of the bar.
        let last = pattern.pieces.last().map_or(0, |&p| kerf(job, p));
        let over = laid_out(job, pattern) - last - between_trims(job, pattern);
        if over > 0 {
            problems.push(format!("patterns[{at}]: {} longer than \"{}\" gives", mm(over), stock.name));
        }
        used[pattern.stock] += u64::from(pattern.times);
        price += i128::from(stock.price_coins) * i128::from(pattern.times);
        for &piece in &pattern.pieces {
            cut[piece] += u64::from(pattern.times);
        }
    }
    for (piece, cut) in job.pieces.iter().zip(cut) {
        if cut != u64::from(piece.count) {
            problems.push(format!("\"{}\": {cut} cut, {} needed", piece.name, piece.count));
        }
    }
    for (stock, used) in job.stock.iter().zip(used) {
        if let Some(count) = stock.count.filter(|&c| used > u64::from(c)) {
            problems.push(format!("\"{}\": {used} used, there are {count}", stock.name));
        }
    }
    if price != i128::from(plan.price_coins) {
        problems.push(format!("price: {} is written, the bars cost {price}", plan.price_coins));
    }
    if plan.bound_coins > plan.price_coins {
        problems.push(format!("bound: {} is above the price {}", plan.bound_coins, plan.price_coins));
    }
    if plan.ended == Ended::Proven && plan.bound_coins != plan.price_coins {
        problems.push(format!("ended: proven, yet the bound {} is not the price", plan.bound_coins));
    }
    problems
}

fn kerf(job: &BarJob, piece: usize) -> i64 {
    job.pieces[piece].kerf_tenths.unwrap_or(job.kerf_tenths)
}

/// All pieces of a bar, each with the cut behind it.
fn laid_out(job: &BarJob, pattern: &BarPattern) -> i64 {
    pattern.pieces.iter().map(|&p| job.pieces[p].length_tenths + kerf(job, p)).sum()
}

/// The bar without its trims and the cuts that take them off.
fn between_trims(job: &BarJob, pattern: &BarPattern) -> i64 {
    let bar = &job.stock[pattern.stock];
    let trims = [bar.trim_start_tenths, bar.trim_end_tenths];
    bar.length_tenths - trims.iter().map(|&t| if t == 0 { 0 } else { t + job.kerf_tenths }).sum::<i64>()
}
