//! The most valuable filling of a bar, in whole numbers.

use super::effort::Meter;

/// What may be taken.
#[derive(Debug, Clone, Copy)]
pub(super) struct Item {
    pub kind: usize,
    pub length: i64,
    pub value: i64,
    pub copies: i64,
}

/// A filling found, and what no filling exceeds.
#[derive(Debug, Clone, Default)]
pub(super) struct Best {
    pub value: i64,
    pub bound: i64,
    pub takes: Vec<(usize, i64)>,
}

/// Cells of a table that is always quicker than a search.
const SMALL_TABLE: u64 = 200_000;
/// Cells of the largest table.
const LARGEST_TABLE: u64 = 20_000_000;
/// Branches of a search before the table is tried instead.
const BRANCHES: u32 = 20_000;

/// The best filling of each capacity: by one table where it is small (bounded knapsack with copies split into powers of two,
/// Martello & Toth 1990), else by depth-first search over kinds by value for length (Gilmore & Gomory 1963).
pub(super) fn best_fillings(items: &[Item], capacities: &[i64], meter: &mut Meter<'_>) -> Vec<Best> {
    let most = capacities.iter().copied().max().unwrap_or(0).max(0);
    let items: Vec<Item> =
        items.iter().copied().filter(|i| i.value > 0 && i.copies > 0 && i.length > 0 && i.length <= most).collect();
    let parts = split(&items, most);
    let cells = parts.len() as u64 * (most.unsigned_abs() + 1);
    if cells <= SMALL_TABLE {
        return by_table(&items, &parts, capacities, meter);
    }
    let mut sorted = items.clone();
    sorted.sort_by(|a, b| {
        let (left, right) = (i128::from(a.value) * i128::from(b.length), i128::from(b.value) * i128::from(a.length));
        right.cmp(&left).then(b.length.cmp(&a.length))
    });
    let mut found: Vec<Best> = Vec::with_capacity(capacities.len());
    for &capacity in capacities {
        let mut search = Search { items: &sorted, now: Vec::new(), best: Best::default(), branches: 0 };
        search.deeper(0, capacity, 0);
        meter.spend(u64::from(search.branches) * 8);
        if search.branches >= BRANCHES && cells <= LARGEST_TABLE && meter.goes_on() {
            return by_table(&items, &parts, capacities, meter);
        }
        let open = sorted.first().map_or(0, |i| part_of(capacity, i));
        let mut best = search.best;
        best.bound = if search.branches >= BRANCHES { open.max(best.value) } else { best.value };
        best.takes.sort_unstable();
        found.push(best);
    }
    found
}

/// Value of a capacity filled with one item as if it could be cut at will.
fn part_of(capacity: i64, item: &Item) -> i64 {
    let value = i128::from(capacity.max(0)) * i128::from(item.value) / i128::from(item.length);
    i64::try_from(value).unwrap_or(i64::MAX)
}

/// Item and copies in a lump: 1, 2, 4, ... and the rest, so that any number up to all is a sum of lumps.
fn split(items: &[Item], most: i64) -> Vec<(usize, i64)> {
    let mut parts = Vec::new();
    for (i, item) in items.iter().enumerate() {
        let mut rest = item.copies.min(most / item.length);
        let mut lump = 1;
        while rest > 0 {
            parts.push((i, lump.min(rest)));
            rest -= lump.min(rest);
            lump *= 2;
        }
    }
    parts
}

fn by_table(items: &[Item], parts: &[(usize, i64)], capacities: &[i64], meter: &mut Meter<'_>) -> Vec<Best> {
    let most = capacities.iter().copied().max().unwrap_or(0).max(0);
    let width = usize::try_from(most).unwrap_or(0) + 1;
    meter.spend(parts.len() as u64 * width as u64);
    let mut before = vec![0_i64; width];
    let mut now = vec![0_i64; width];
    let mut taken = vec![false; width * parts.len()];
    for (&(item, copies), taken) in parts.iter().zip(taken.chunks_exact_mut(width)) {
        let length = usize::try_from(items[item].length * copies).unwrap_or(width).min(width);
        let value = items[item].value * copies;
        now[..length].copy_from_slice(&before[..length]);
        let long = now[length..].iter_mut().zip(&mut taken[length..]).zip(before[length..].iter().zip(&before));
        for ((now, taken), (&without, &with)) in long {
            let with = with + value;
            *taken = with > without;
            *now = if *taken { with } else { without };
        }
        std::mem::swap(&mut before, &mut now);
    }
    let read = |capacity: i64| {
        let Ok(mut at) = usize::try_from(capacity) else { return Best::default() };
        let value = before[at];
        let mut counts = vec![0; items.len()];
        for (p, &(item, copies)) in parts.iter().enumerate().rev() {
            if taken[p * width + at] {
                counts[item] += copies;
                at -= usize::try_from(items[item].length * copies).unwrap_or(at);
            }
        }
        let mut takes: Vec<(usize, i64)> =
            items.iter().zip(counts).filter(|(_, n)| *n > 0).map(|(i, n)| (i.kind, n)).collect();
        takes.sort_unstable();
        Best { value, bound: value, takes }
    };
    capacities.iter().map(|&c| read(c)).collect()
}

/// Depth-first search, the most of the best first.
struct Search<'a> {
    items: &'a [Item],
    now: Vec<(usize, i64)>,
    best: Best,
    branches: u32,
}

impl Search<'_> {
    fn deeper(&mut self, at: usize, room: i64, value: i64) {
        if value > self.best.value {
            self.best = Best { value, bound: 0, takes: self.now.clone() };
        }
        let Some(item) = self.items.get(at) else { return };
        let next = self.items.get(at + 1);
        let mut copies = item.copies.min(room / item.length);
        loop {
            self.branches += 1;
            if self.branches >= BRANCHES {
                return;
            }
            let (rest, sum) = (room - copies * item.length, value + copies * item.value);
            // Fewer of the better item leave room for the worse only: once the bound fails, it fails for all that follow.
            if sum + next.map_or(0, |n| part_of(rest, n)) <= self.best.value {
                return;
            }
            if copies > 0 {
                self.now.push((item.kind, copies));
            }
            self.deeper(at + 1, rest, sum);
            if copies == 0 {
                return;
            }
            self.now.pop();
            copies -= 1;
        }
    }
}
