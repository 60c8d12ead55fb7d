//! What can be wrong with a job of bars, and bars that do not suffice.

use std::collections::BTreeMap;

use crate::shop::cutting::mm;

use super::model::{Model, State, UNLIMITED, least_kerf_tenths};
use super::search::Search;
use super::{BarJob, BarStock};
use crate::error::Problem;

/// Pieces of one job.
pub const MOST_PIECES: u64 = 1_000_000;
/// Kinds of pieces, and kinds of stock, of one job.
pub const MOST_KINDS: usize = 500;
/// The longest bar: ten kilometres.
pub const MOST_LENGTH_TENTHS: i64 = 100_000_000;
/// The dearest bar.
pub const MOST_PRICE_COINS: i64 = 1_000_000_000;

/// All that is wrong with the job.
pub(super) fn check(job: &BarJob) -> Result<(), Vec<Problem>> {
    let mut problems = Vec::new();
    within(&mut problems, "kerf", job.kerf_tenths, 0);
    stock(job, &mut problems);
    pieces(job, &mut problems);
    names("stock", job.stock.iter().map(|s| s.name.as_str()), &mut problems);
    names("pieces", job.pieces.iter().map(|p| p.name.as_str()), &mut problems);
    if problems.is_empty() {
        too_long(job, &mut problems);
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

fn within(problems: &mut Vec<Problem>, path: &str, value: i64, least: i64) {
    if !(least..=MOST_LENGTH_TENTHS).contains(&value) {
        let allowed = format!("{} to {}", mm(least), mm(MOST_LENGTH_TENTHS));
        problems.push(Problem::out_of_range(path, mm(value), allowed));
    }
}

fn stock(job: &BarJob, problems: &mut Vec<Problem>) {
    if job.stock.is_empty() {
        problems.push(Problem::missing("stock", "name at least one bar with its length and price"));
    }
    if job.stock.len() > MOST_KINDS {
        problems.push(Problem::out_of_range("stock", job.stock.len(), format!("at most {MOST_KINDS} kinds of bars")));
    }
    for (i, bar) in job.stock.iter().enumerate() {
        within(problems, &format!("stock[{i}].length"), bar.length_tenths, 1);
        within(problems, &format!("stock[{i}].trim_start"), bar.trim_start_tenths, 0);
        within(problems, &format!("stock[{i}].trim_end"), bar.trim_end_tenths, 0);
        if !(0..=MOST_PRICE_COINS).contains(&bar.price_coins) {
            let allowed = format!("0 to {MOST_PRICE_COINS} of the smallest coin");
            problems.push(Problem::out_of_range(format!("stock[{i}].price"), bar.price_coins, allowed));
        }
        if bar.count == Some(0) {
            let allowed =
                "1 or more; leave the count out where as many as wanted can be bought, else leave the bar out";
            problems.push(Problem::out_of_range(format!("stock[{i}].count"), 0, allowed));
        }
    }
}

fn pieces(job: &BarJob, problems: &mut Vec<Problem>) {
    if job.pieces.is_empty() {
        problems.push(Problem::missing("pieces", "name at least one piece with its length and count"));
    }
    if job.pieces.len() > MOST_KINDS {
        let allowed = format!("at most {MOST_KINDS} kinds of pieces; split the job");
        problems.push(Problem::out_of_range("pieces", job.pieces.len(), allowed));
    }
    let all: u64 = job.pieces.iter().map(|p| u64::from(p.count)).sum();
    if all > MOST_PIECES {
        problems.push(Problem::out_of_range(
            "pieces",
            all,
            format!("at most {MOST_PIECES} pieces in all; split the job"),
        ));
    }
    for (i, piece) in job.pieces.iter().enumerate() {
        within(problems, &format!("pieces[{i}].length"), piece.length_tenths, 1);
        if piece.count == 0 {
            problems.push(Problem::out_of_range(
                format!("pieces[{i}].count"),
                0,
                "1 or more; else leave the piece out",
            ));
        }
        if let Some(kerf) = piece.kerf_tenths {
            let least = job.kerf_tenths.clamp(0, MOST_LENGTH_TENTHS);
            within(problems, &format!("pieces[{i}].kerf"), kerf, least);
        }
    }
}

fn names<'a>(list: &str, names: impl Iterator<Item = &'a str>, problems: &mut Vec<Problem>) {
    let mut first: BTreeMap<&str, usize> = BTreeMap::new();
    for (i, name) in names.enumerate() {
        let path = format!("{list}[{i}].name");
        if name.trim().is_empty() {
            problems.push(Problem::missing(path, "give it a name, to tell it from the others"));
        } else if let Some(before) = first.get(name) {
            problems.push(Problem::contradiction(
                path,
                name,
                format!("{list}[{before}] has this name; give it another"),
            ));
        } else {
            first.insert(name, i);
        }
    }
}

/// Pieces that no bar can hold.
fn too_long(job: &BarJob, problems: &mut Vec<Problem>) {
    let room = |s: &BarStock| s.usable_tenths(job.kerf_tenths) + least_kerf_tenths(job);
    let Some((at, nearest)) = job.stock.iter().enumerate().max_by_key(|(i, s)| (room(s), usize::MAX - i)) else {
        return;
    };
    for (i, piece) in job.pieces.iter().enumerate() {
        let extra = piece.taken_tenths(job.kerf_tenths) - piece.length_tenths - least_kerf_tenths(job);
        let most = room(nearest) - least_kerf_tenths(job) - extra;
        if piece.length_tenths > most {
            let allowed = format!(
                "at most {}, what \"{}\" (stock[{at}]) gives, the longest within its trims; \"{}\" needs a longer bar or a joint",
                mm(most),
                nearest.name,
                piece.name
            );
            problems.push(Problem::out_of_range(format!("pieces[{i}].length"), mm(piece.length_tenths), allowed));
        }
    }
}

/// Why there is no plan: proved by length, proved by going through all, or merely none found.
pub(super) fn no_plan(job: &BarJob, model: &Model, search: &Search<'_>, root: &State) -> Problem {
    let short = search.short.as_ref().unwrap_or(&root.demand);
    let over: Vec<String> = left_over(job, model, short);
    let pieces: i64 = short.iter().sum();
    let written = format!("{pieces} pieces left over ({})", over.join(", "));
    let whole = |units: i64| mm(units * model.unit_tenths);
    let words = if let Some((units, what)) = missing(model, root) {
        format!("cannot be cut from these bars: {} are missing for {what}; raise a count or add a bar", whole(units))
    } else if search.bound == i64::MAX || certain(model, search, root) {
        "cannot be cut from these bars, though their length would do: every way was excluded; raise a count or add a bar".to_owned()
    } else {
        let units: i64 = short.iter().zip(&model.lengths).map(|(d, l)| d * l).sum();
        format!(
            "no plan was found within the effort, which does not prove that there is none; the best try leaves {} \
             uncut; raise a count, add a bar or allow more effort",
            whole(units)
        )
    };
    Problem::contradiction("stock", written, words)
}

/// The pieces left over by name, with how many.
fn left_over(job: &BarJob, model: &Model, short: &[i64]) -> Vec<String> {
    let mut words = Vec::new();
    for (kind, &count) in short.iter().enumerate() {
        let mut count = count;
        for &i in model.members(kind) {
            let own = count.min(i64::from(job.pieces[i].count));
            if own > 0 {
                words.push(format!("{own} x \"{}\"", job.pieces[i].name));
            }
            count -= own;
        }
    }
    words
}

/// By how much the bars are too short in all for the pieces from some length on.
fn missing(model: &Model, root: &State) -> Option<(i64, String)> {
    let mut need = 0_i64;
    let mut worst: Option<(i64, String)> = None;
    for (kind, &length) in model.lengths.iter().enumerate() {
        need = need.saturating_add(length.saturating_mul(root.demand[kind]));
        let holds = model.bars.iter().zip(&root.left).filter(|(b, _)| b.capacity >= length);
        let given = holds.map(|(b, &n)| if n == UNLIMITED { i64::MAX } else { b.capacity.saturating_mul(n) });
        let short = need.saturating_sub(given.fold(0, i64::saturating_add));
        if short > 0 && worst.as_ref().is_none_or(|w| short > w.0) {
            let which = if kind + 1 == model.lengths.len() { "all pieces" } else { "the longer pieces" };
            worst = Some((short, which.to_owned()));
        }
    }
    worst
}

/// The proved bound is above the price of all bars there are.
fn certain(model: &Model, search: &Search<'_>, root: &State) -> bool {
    let all = model.bars.iter().zip(&root.left).map(|(b, &n)| b.price.saturating_mul(n)).fold(0, i64::saturating_add);
    !root.left.contains(&UNLIMITED) && search.bound > all
}
