//! Patterns that take no piece more often than it is needed: the recurrence over plate sizes with the pieces of one good pattern
//! kept for each plate.
//!
//! It proves nothing: a plate's best pattern may need two parts that are not the best by themselves. Where two parts together
//! have too many of a kind, those too many are left out.

use super::reduced::Size;
use super::table::{Grid, Machine};
use super::tree::Tree;

/// Sums and entries that are gone through in one counted step.
const ENTRIES: u64 = 20;

/// How a plate is cut.
#[derive(Debug, Clone, Copy)]
enum Way {
    Waste,
    Piece(usize),
    /// As this smaller plate.
    Smaller(usize),
    /// Divided along this axis into these two.
    Two(usize, usize, usize),
}

/// One pattern for each size of plate.
pub(super) struct Proper<'a> {
    grid: &'a Grid,
    kinds: usize,
    width: usize,
    worth: Vec<i64>,
    ways: Vec<Way>,
    counts: Vec<u16>,
    /// Counted steps.
    pub(super) steps: u64,
}

impl<'a> Proper<'a> {
    /// For these worths of the pieces, none taken more often than it is needed.
    pub(super) fn new(grid: &'a Grid, values: &[i64], need: &[i64], machine: Machine) -> Self {
        let [nx, ny] = [0, 1].map(|a: usize| grid.points[a].len());
        let kinds = values.len();
        let need: Vec<u16> = need.iter().map(|&n| n.clamp(0, i64::from(u16::MAX / 2)) as u16).collect();
        let mut this = Self {
            grid,
            kinds,
            width: ny,
            worth: vec![0; nx * ny],
            ways: vec![Way::Waste; nx * ny],
            counts: vec![0; nx * ny * kinds],
            steps: 0,
        };
        for (i, way) in grid.ways.iter().enumerate().filter(|(_, way)| need[way.kind] > 0) {
            let cell = way.at[0] * ny + way.at[1];
            if values[way.kind] > this.worth[cell] {
                this.worth[cell] = values[way.kind];
                this.ways[cell] = Way::Piece(i);
            }
        }
        for (cell, way) in this.ways.iter().enumerate() {
            if let Way::Piece(way) = way {
                this.counts[cell * kinds + grid.ways[*way].kind] = 1;
            }
        }
        let (mut own, mut tries) = (vec![0; kinds], nx * ny);
        for i in 1..nx {
            for j in 1..ny {
                tries += this.plate([i, j], values, &need, machine, &mut own);
            }
        }
        this.steps = (grid.work() + (tries * kinds) as u64) / ENTRIES;
        this
    }

    fn plate(&mut self, at: [usize; 2], values: &[i64], need: &[u16], machine: Machine, own: &mut [u16]) -> usize {
        let mut tries = 0;
        let cell = at[0] * self.width + at[1];
        let rest = if self.grid.exact() { machine.cut } else { 0 };
        for smaller in [cell - self.width, cell - 1] {
            if self.worth[smaller] - rest > self.worth[cell] {
                self.worth[cell] = self.worth[smaller] - rest;
                self.ways[cell] = Way::Smaller(smaller);
                self.counts.copy_within(smaller * self.kinds..(smaller + 1) * self.kinds, cell * self.kinds);
            }
        }
        let grid = self.grid;
        for a in 0..2 {
            let step = if a == 0 { self.width } else { 1 };
            let base = cell - at[a] * step;
            let too_long = grid.points[1 - a][at[1 - a]] * grid.step[1 - a] > machine.longest;
            for &(p, q) in &grid.pairs[a][at[a]] {
                let (p, q) = (usize::from(p), usize::from(q));
                if too_long && !grid.bites(a, p, machine) {
                    continue;
                }
                let (one, two) = (base + p * step, base + q * step);
                let most = self.worth[one] + self.worth[two] - machine.cut;
                if most <= self.worth[cell] || self.worth[one] == 0 || self.worth[two] == 0 {
                    continue;
                }
                tries += 1;
                let of = |cell: usize| &self.counts[cell * self.kinds..(cell + 1) * self.kinds];
                let mut over = 0;
                for (kind, (x, y)) in of(one).iter().zip(of(two)).enumerate() {
                    let n = x + y;
                    let kept = n.min(need[kind]);
                    own[kind] = kept;
                    over += i64::from(n - kept) * values[kind];
                }
                if most - over > self.worth[cell] {
                    self.worth[cell] = most - over;
                    self.ways[cell] = Way::Two(a, one, two);
                    self.counts[cell * self.kinds..(cell + 1) * self.kinds].copy_from_slice(own);
                }
            }
        }
        tries
    }

    /// How a sheet of this size is cut, its pieces as often as they come.
    pub(super) fn pattern(&self, size: Size) -> Option<Tree> {
        let [x, y] = [0, 1].map(|a: usize| self.grid.at(a, size[a]));
        self.tree(x * self.width + y)
    }

    fn tree(&self, cell: usize) -> Option<Tree> {
        match self.ways[cell] {
            Way::Waste => None,
            Way::Piece(way) => {
                let way = &self.grid.ways[way];
                Some(Tree::Piece { size: way.size, kind: way.kind, turned: way.turned })
            }
            Way::Smaller(smaller) => self.tree(smaller),
            Way::Two(axis, one, two) => Tree::join(axis, self.tree(one), self.tree(two)),
        }
    }
}
