//! What is wrong with a job of sheets, before anything is searched.

use std::collections::BTreeMap;

use crate::error::Problem;

use crate::shop::cutting::mm;

use super::reduced::{Reduced, inside};
use super::search::Sheet;
use super::tree::Tree;
use super::{SheetJob, SheetPiece, SheetStock};

/// Pieces in one job: a bus has some hundreds; beyond this one round of the search takes too long.
pub const MOST_PIECES: u32 = 5_000;
/// Kinds of pieces in one job: the bound is a linear programme with one variable each.
pub const MOST_KINDS: usize = 300;
/// Stocks in one job.
const MOST_STOCKS: usize = 100;
/// No length is more, tenths of a millimetre: a kilometre; areas and their sums stay far within 64 bits.
const LONGEST_TENTHS: i64 = 10_000_000;
/// No price is more, in coins; sums over all pieces stay far within 64 bits.
const MOST_COINS: i64 = 1_000_000_000_000;

/// Everything that is wrong.
pub(super) fn problems(job: &SheetJob) -> Vec<Problem> {
    let mut out = Vec::new();
    range(&mut out, "kerf_tenths".into(), job.kerf_tenths, 0, LONGEST_TENTHS);
    range(&mut out, "keep_tenths.0".into(), job.keep_tenths.0, 0, LONGEST_TENTHS);
    range(&mut out, "keep_tenths.1".into(), job.keep_tenths.1, 0, LONGEST_TENTHS);
    if let Some(stages) = job.stages.filter(|s| !matches!(s, 2 | 3)) {
        out.push(Problem::out_of_range("stages", stages, "2 or 3; leave it out for any number"));
    }
    names(&mut out, "stock", job.stock.iter().map(|s| s.name.as_str()));
    names(&mut out, "pieces", job.pieces.iter().map(|p| p.name.as_str()));
    job.stock.iter().enumerate().for_each(|(i, s)| stock(&mut out, i, s, job.kerf_tenths));
    job.pieces.iter().enumerate().for_each(|(i, p)| piece(&mut out, i, p));
    amounts(&mut out, job);
    if out.is_empty() { too_large(job) } else { out }
}

fn amounts(out: &mut Vec<Problem>, job: &SheetJob) {
    if job.pieces.is_empty() {
        out.push(Problem::missing("pieces", "name at least one piece to cut"));
    }
    if job.stock.is_empty() && job.pieces.iter().any(|p| p.bought_coins.is_none()) {
        out.push(Problem::missing(
            "stock",
            "name at least one sheet to cut from, or what each piece costs cut to size",
        ));
    }
    if job.pieces.len() > MOST_KINDS {
        let allowed = format!("at most {MOST_KINDS} kinds; put equal sizes together, or cut the job in two");
        out.push(Problem::out_of_range("pieces", job.pieces.len(), allowed));
    }
    if job.stock.len() > MOST_STOCKS {
        let allowed = format!("at most {MOST_STOCKS} stocks; leave out the smallest offcuts");
        out.push(Problem::out_of_range("stock", job.stock.len(), allowed));
    }
    let total: u64 = job.pieces.iter().map(|p| u64::from(p.count)).sum();
    if total > u64::from(MOST_PIECES) {
        let allowed = format!("at most {MOST_PIECES} pieces in all; cut the job in two");
        out.push(Problem::out_of_range("pieces.count", total, allowed));
    }
}

fn range(out: &mut Vec<Problem>, path: String, value: i64, least: i64, most: i64) {
    if !(least..=most).contains(&value) {
        out.push(Problem::out_of_range(path, value, format!("{least} to {most}")));
    }
}

fn names<'a>(out: &mut Vec<Problem>, path: &str, all: impl Iterator<Item = &'a str>) {
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for (i, name) in all.enumerate() {
        if name.trim().is_empty() {
            out.push(Problem::missing(format!("{path}[{i}].name"), "give it a name"));
        } else if let Some(first) = seen.get(name) {
            let words = format!("{path}[{first}] has the same name; give each its own");
            out.push(Problem::contradiction(format!("{path}[{i}].name"), name, words));
        } else {
            seen.insert(name, i);
        }
    }
}

fn stock(out: &mut Vec<Problem>, i: usize, s: &SheetStock, kerf: i64) {
    let path = |field: &str| format!("stock[{i}].{field}");
    range(out, path("length_tenths"), s.length_tenths, 1, LONGEST_TENTHS);
    range(out, path("width_tenths"), s.width_tenths, 1, LONGEST_TENTHS);
    range(out, path("price_coins"), s.price_coins, 0, MOST_COINS);
    range(out, path("cut_coins"), s.cut_coins, 0, MOST_COINS / 1_000);
    range(out, path("throat_tenths"), s.throat_tenths, 0, LONGEST_TENTHS);
    let t = s.trim;
    let edges = [
        ("trim.start_tenths", t.start_tenths),
        ("trim.end_tenths", t.end_tenths),
        ("trim.lower_tenths", t.lower_tenths),
        ("trim.upper_tenths", t.upper_tenths),
    ];
    let before = out.len();
    // A trim at an end runs across the sheet, one at an edge along it.
    for (i, (field, value)) in edges.iter().enumerate() {
        let run = if i < 2 { s.width_tenths } else { s.length_tenths };
        if *value > s.throat_tenths && s.longest_cut_tenths.is_some_and(|longest| run > longest) {
            let words = format!("the machine does not trim an edge {} long; have it cut by another", mm(run));
            out.push(Problem::contradiction(path(field), mm(*value), words));
        }
    }
    for (field, value) in edges {
        range(out, path(field), value, 0, LONGEST_TENTHS);
    }
    if let Some(longest) = s.longest_cut_tenths {
        range(out, path("longest_cut_tenths"), longest, 1, LONGEST_TENTHS);
    }
    if s.count == Some(0) {
        out.push(Problem::out_of_range(path("count"), 0, "1 or more; leave the stock out where there is none"));
    }
    let ([l, w], _) = inside(s, kerf);
    if out.len() == before && s.length_tenths > 0 && s.width_tenths > 0 && (l <= 0 || w <= 0) {
        let words = "nothing is left inside the trimmed edges; trim less or leave the stock out";
        out.push(Problem::contradiction(
            path("trim"),
            format!("{} by {}", mm(s.length_tenths), mm(s.width_tenths)),
            words,
        ));
    }
}

fn piece(out: &mut Vec<Problem>, i: usize, p: &SheetPiece) {
    let path = |field: &str| format!("pieces[{i}].{field}");
    range(out, path("length_tenths"), p.length_tenths, 1, LONGEST_TENTHS);
    range(out, path("width_tenths"), p.width_tenths, 1, LONGEST_TENTHS);
    if let Some(coins) = p.bought_coins {
        range(out, path("bought_coins"), coins, 0, MOST_COINS);
    }
    if p.count == 0 {
        out.push(Problem::out_of_range(path("count"), 0, "1 or more; leave the piece out where none is needed"));
    }
}

/// Pieces that no stock holds, or that no machine cuts free.
fn too_large(job: &SheetJob) -> Vec<Problem> {
    let reduced = Reduced::new(job);
    let mut out = Vec::new();
    for (i, p) in job.pieces.iter().enumerate() {
        let kind = &reduced.kinds[i];
        if p.bought_coins.is_some() {
            continue;
        }
        let holds: Vec<usize> = (0..job.stock.len()).filter(|&s| kind.fits(reduced.stocks[s].size)).collect();
        let size = format!("{} ({} by {})", p.name, mm(p.length_tenths), mm(p.width_tenths));
        if holds.is_empty() {
            out.push(Problem::contradiction(format!("pieces[{i}]"), size, nearest(job, p)));
        } else if !holds.iter().any(|&s| alone(&reduced, s, i)) {
            let names: Vec<&str> = holds.iter().map(|&s| job.stock[s].name.as_str()).collect();
            let words = format!(
                "it fits {} but the longest cut, the throat or the first cut forbids to cut it free with the rest in one piece; have it cut to size \
                 or use another machine",
                names.join(", ")
            );
            out.push(Problem::contradiction(format!("pieces[{i}]"), size, words));
        }
    }
    out
}

/// It can be cut from such a sheet when nothing else is.
fn alone(job: &Reduced, stock: usize, kind: usize) -> bool {
    let axes = job.first.map_or(0..2, |first| first..first + 1);
    axes.into_iter().any(|axis| {
        let ways = job.kinds[kind].ways();
        ways.into_iter().any(|(turned, size)| Sheet::new(job, stock, Tree::first(axis, size, kind, turned)).is_some())
    })
}

fn nearest(job: &SheetJob, p: &SheetPiece) -> String {
    let miss = |s: &SheetStock| {
        let ([l, w], _) = inside(s, job.kerf_tenths);
        let over = |a: i64, b: i64| (a - l).max(0) + (b - w).max(0);
        let plain = over(p.length_tenths, p.width_tenths);
        let turned = over(p.width_tenths, p.length_tenths);
        (if p.may_turn { plain.min(turned) } else { plain }, l, w)
    };
    let near = job.stock.iter().map(|s| (miss(s), s)).min_by_key(|((by, ..), _)| *by);
    let fix = "make it of two, let it turn, have it cut to size, or add a larger stock";
    near.map_or_else(
        || format!("there is no stock; {fix}"),
        |((by, l, w), s)| {
            format!(
                "larger than any stock; nearest is {}: {} by {} inside its edges, {} too small; {fix}",
                s.name,
                mm(l),
                mm(w),
                mm(by)
            )
        },
    )
}
