//! The most that one sheet can yield by guillotine cuts, any number of copies of each piece: the recurrence over plate sizes.
//!
//! Gilmore and Gomory 1965; only sizes that are sums of piece sizes (Herz 1972, Beasley 1985). In a job it overrates, because
//! it may take a piece more often than it is needed; what it says is a proof all the same.

use super::reduced::Size;
use super::tree::Tree;

/// Work for one table above which sizes are taken coarser.
const MOST_WORK: u64 = 6_000_000;
/// Units along a side before anything is counted; longer ones are rounded.
const LONGEST_AXIS: i64 = 100_000;
/// Points of an axis at most before pairs are made.
const MOST_POINTS: usize = 2500;
/// Coarser grids that are tried.
const GRIDS_TRIED: usize = 64;

/// A piece and what it is worth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Valued {
    /// Size along the length of the sheet.
    pub length: i64,
    /// Size along its width.
    pub width: i64,
    /// Worth of one.
    pub value: i64,
    /// It may lie turned by a quarter.
    pub may_turn: bool,
}

/// Two points of an axis, small so that many stay near the processor.
type Pair = (u16, u16);

/// A way a kind may lie, in points of the grid.
#[derive(Debug, Clone, Copy)]
pub(super) struct Way {
    pub(super) kind: usize,
    pub(super) at: [usize; 2],
    pub(super) size: Size,
    pub(super) turned: bool,
}

/// Sizes of plates, and which two make a third.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    /// Sizes are taken in such steps, rounded down.
    pub(super) step: Size,
    pub(super) points: [Vec<i64>; 2],
    pub(super) pairs: [Vec<Vec<Pair>>; 2],
    pub(super) ways: Vec<Way>,
}

/// What cutting costs and what the machine allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Machine {
    pub(super) cut: i64,
    pub(super) longest: i64,
    pub(super) throat: i64,
}

impl Machine {
    pub(super) const FREE: Self = Self { cut: 0, longest: i64::MAX, throat: -1 };
}

/// Tables of one pricing: the last is what a whole sheet may be cut by, each of the others one stage less.
#[derive(Debug, Clone)]
pub(super) struct Tables {
    machine: Machine,
    /// Cost of cutting off a rest.
    rest: i64,
    /// Points of each axis.
    size: [usize; 2],
    counted: Counted,
    levels: Vec<Level>,
}

/// Kinds whose copies are counted in the tables: a state says how many of each may still be cut.
#[derive(Debug, Clone, Default)]
pub(super) struct Counted {
    /// Kind, most copies, and what one copy adds to the number of the state.
    kinds: Vec<(usize, usize, usize)>,
    /// Of each state, the pairs that it can be shared out in.
    splits: Vec<Vec<(usize, usize)>>,
}

impl Counted {
    /// Counts these kinds, each up to so many copies.
    pub(super) fn new(kinds: &[(usize, i64)]) -> Self {
        let mut states = 1;
        let mut all = Vec::new();
        for &(kind, copies) in kinds {
            all.push((kind, copies as usize, states));
            states *= copies as usize + 1;
        }
        let digits = |state: usize| all.iter().map(move |&(_, most, place)| state / place % (most + 1));
        let within = |part: &usize, state: usize| digits(*part).zip(digits(state)).all(|(x, y)| x <= y);
        let of =
            |state: usize| (0..=state).filter(|part| within(part, state)).map(|part| (part, state - part)).collect();
        let splits = (0..states).map(of).collect();
        Self { kinds: all, splits }
    }

    /// How much more work they make.
    pub(super) fn factor(&self) -> u64 {
        self.splits.iter().map(Vec::len).sum::<usize>() as u64
    }

    fn states(&self) -> usize {
        self.splits.len()
    }

    /// A copy of this kind may be cut.
    fn has(&self, state: usize, kind: usize) -> bool {
        let known = self.kinds.iter().find(|k| k.0 == kind);
        known.is_none_or(|&(_, most, place)| !(state / place).is_multiple_of(most + 1))
    }
}

#[derive(Debug, Clone)]
struct Level {
    best: Vec<i64>,
    /// Axes that may be divided; both where the table refers to itself.
    axes: [bool; 2],
    own: bool,
}

/// A pattern read back from the tables.
#[derive(Debug, Clone, Default)]
pub(super) struct Yield {
    pub(super) tree: Option<Tree>,
    pub(super) cuts: i64,
}

/// One kind as the grid needs it.
#[derive(Debug, Clone)]
pub(super) struct Shape {
    pub(super) ways: Vec<(bool, Size)>,
    /// Copies at most; fewer copies make fewer sizes.
    pub(super) copies: i64,
}

impl Grid {
    /// Every size of plate within `most` that is a sum of sizes, coarser where there are too many.
    pub(super) fn new(shapes: &[Shape], most: Size) -> Self {
        let mut step = most.map(|most| most / LONGEST_AXIS + 1);
        let points = |step: Size| [0, 1].map(|a: usize| sums(shapes, most[a] / step[a], a, step[a]));
        let coarser = |step: &mut Size, points: &[Vec<i64>; 2]| {
            let a = usize::from(points[1].len() > points[0].len());
            step[a] = (most[a] / 600).max(step[a] + step[a] / 3 + 1);
        };
        let mut own = points(step);
        // Pairs go by the square of the points: none are made where there are too many.
        while own.iter().any(|axis| axis.len() > MOST_POINTS) {
            coarser(&mut step, &own);
            own = points(step);
        }
        let mut grid = Self::of(shapes, own, step);
        for _ in 0..GRIDS_TRIED {
            if grid.work() <= MOST_WORK {
                break;
            }
            coarser(&mut step, &grid.points);
            grid = Self::of(shapes, points(step), step);
        }
        grid
    }

    /// Rounding left no side of it: sums of such a kind are not in the grid.
    pub(super) fn loses(&self, ways: &[(bool, Size)]) -> bool {
        ways.iter().any(|(_, size)| size[0] < self.step[0] || size[1] < self.step[1])
    }

    fn of(shapes: &[Shape], points: [Vec<i64>; 2], step: Size) -> Self {
        let pairs = [0, 1].map(|a: usize| pairs(&points[a]));
        let index = |a: usize, size: Size| points[a].binary_search(&(size[a] / step[a])).ok();
        let mut ways = Vec::new();
        for (kind, shape) in shapes.iter().enumerate() {
            for &(turned, size) in &shape.ways {
                if let (Some(x), Some(y)) = (index(0, size), index(1, size)) {
                    ways.push(Way { kind, at: [x, y], size, turned });
                }
            }
        }
        Self { step, points, pairs, ways }
    }

    /// Sizes of plates.
    pub(super) fn plates(&self) -> u64 {
        (self.points[0].len() * self.points[1].len()) as u64
    }

    pub(super) fn work(&self) -> u64 {
        let count = |a: usize| self.pairs[a].iter().map(Vec::len).sum::<usize>() as u64;
        count(0) * self.points[1].len() as u64 + count(1) * self.points[0].len() as u64
    }

    /// Sizes are exact: none was rounded.
    pub(super) fn exact(&self) -> bool {
        self.step == [1, 1]
    }

    /// Work of the tables for sheets up to this size.
    pub(super) fn steps(&self, stages: usize, first: Option<usize>, most: Size) -> u64 {
        let tables = if stages > 3 { 1 } else { stages as u64 * if first.is_some() { 1 } else { 2 } };
        let n = [0, 1].map(|a| self.at(a, most[a]) + 1);
        let count = |a: usize| self.pairs[a].iter().take(n[a]).map(Vec::len).sum::<usize>() as u64;
        (count(0) * n[1] as u64 + count(1) * n[0] as u64) * tables
    }

    pub(super) fn at(&self, axis: usize, size: i64) -> usize {
        self.points[axis].partition_point(|p| *p <= size / self.step[axis]).saturating_sub(1)
    }

    /// The recurrence for these worths; `stages` more than 3 is any number, then `first` does not matter.
    pub(super) fn solve(&self, values: &[i64], machine: Machine, stages: usize, first: usize) -> Tables {
        self.solve_counted(values, machine, stages, first, [i64::MAX; 2], Counted::new(&[]))
    }

    /// The same for sheets up to this size, some kinds counted.
    pub(super) fn solve_counted(
        &self,
        values: &[i64],
        machine: Machine,
        stages: usize,
        first: usize,
        most: Size,
        counted: Counted,
    ) -> Tables {
        let rest = if self.exact() { machine.cut } else { 0 };
        let size = [self.at(0, most[0]) + 1, self.at(1, most[1]) + 1];
        let mut tables = Tables { machine, rest, size, counted, levels: Vec::new() };
        if stages > 3 {
            let level = self.level(&tables, values, None, [true, true]);
            tables.levels.push(level);
            return tables;
        }
        let single = self.level(&tables, values, None, [false, false]);
        tables.levels.push(single);
        for stage in (0..stages).rev() {
            let a = (first + stage) % 2;
            let level = self.level(&tables, values, tables.levels.last(), [a == 0, a == 1]);
            tables.levels.push(level);
        }
        tables
    }

    fn level(&self, tables: &Tables, values: &[i64], below: Option<&Level>, axes: [bool; 2]) -> Level {
        let [nx, ny] = tables.size;
        let n = tables.counted.states();
        let mut best = below.map_or_else(|| vec![0; nx * n * ny], |below| below.best.clone());
        if below.is_none() {
            for way in self.ways.iter().filter(|way| way.at[0] < nx && way.at[1] < ny) {
                for state in (0..n).filter(|state| tables.counted.has(*state, way.kind)) {
                    let cell = &mut best[(way.at[0] * n + state) * ny + way.at[1]];
                    *cell = (*cell).max(values[way.kind]);
                }
            }
        }
        let mut highest = vec![0_i64; n * ny];
        for i in 0..nx {
            let (done, row) = best.split_at_mut(i * n * ny);
            let row = &mut row[..n * ny];
            for state in 0..n {
                let high = &mut highest[state * ny..(state + 1) * ny];
                if axes[0] {
                    self.across(tables, below, done, &mut row[state * ny..(state + 1) * ny], i, state);
                }
                self.along(tables, below, row, high, i, state, axes[1]);
            }
        }
        Level { best, axes, own: below.is_none() }
    }

    /// Plates of one length from two shorter ones.
    fn across(&self, t: &Tables, below: Option<&Level>, done: &[i64], row: &mut [i64], i: usize, state: usize) {
        let (ny, n) = (t.size[1], t.counted.states());
        let short = self.short(1, t.machine).min(ny);
        for &(p, q) in &self.pairs[0][i] {
            let (p, q) = (usize::from(p), usize::from(q));
            let until = if self.bites(0, p, t.machine) { ny } else { short };
            for &(x, y) in &t.counted.splits[state] {
                let one = (p * n + x) * ny..(p * n + x) * ny + until;
                let two = (q * n + y) * ny..(q * n + y) * ny + until;
                match below {
                    None => join(row, &done[one], &done[two], t.machine.cut),
                    Some(b) => {
                        join(row, &b.best[one.clone()], &done[two.clone()], t.machine.cut);
                        join(row, &done[one], &b.best[two], t.machine.cut);
                    }
                }
            }
        }
    }

    /// Plates of one length, each width from two less wide ones, or from a smaller plate.
    #[allow(clippy::too_many_arguments)]
    fn along(
        &self,
        t: &Tables,
        below: Option<&Level>,
        row: &mut [i64],
        high: &mut [i64],
        i: usize,
        state: usize,
        divides: bool,
    ) {
        let (ny, n) = (t.size[1], t.counted.states());
        let too_long = i >= self.short(0, t.machine);
        let mut so_far = 0;
        for j in 0..ny {
            let mut cell = row[state * ny + j].max(so_far - t.rest).max(high[j] - t.rest);
            if divides && n == 1 && below.is_none() && !too_long {
                let sum = |&(p, q): &Pair| row[usize::from(p)] + row[usize::from(q)];
                let most = self.pairs[1][j].iter().map(sum).max();
                cell = cell.max(most.map_or(cell, |most| most - t.machine.cut));
            } else if divides {
                for &(p, q) in &self.pairs[1][j] {
                    let (p, q) = (usize::from(p), usize::from(q));
                    if too_long && !self.bites(1, p, t.machine) {
                        continue;
                    }
                    for &(x, y) in &t.counted.splits[state] {
                        let (x, y) = (x * ny, y * ny);
                        let sum = match below {
                            None => row[x + p] + row[y + q],
                            Some(b) => {
                                let base = i * n * ny;
                                (b.best[base + x + p] + row[y + q]).max(row[x + p] + b.best[base + y + q])
                            }
                        };
                        cell = cell.max(sum - t.machine.cut);
                    }
                }
            }
            row[state * ny + j] = cell;
            so_far = so_far.max(cell);
            high[j] = high[j].max(cell);
        }
    }

    /// Points up to the longest cut.
    fn short(&self, a: usize, machine: Machine) -> usize {
        self.points[a].partition_point(|p| p * self.step[a] <= machine.longest)
    }

    /// A part as wide as this fits the throat.
    pub(super) fn bites(&self, a: usize, i: usize, machine: Machine) -> bool {
        self.points[a][i] * self.step[a] <= machine.throat
    }

    /// The plate that a sheet of this size is best cut down to, what that yields, and the cuts that part the rests from it. A side
    /// that is no sum of sizes has a rest in any case, and one cut takes it off whatever its width: every lesser point is looked at.
    fn cut_down(&self, tables: &Tables, size: Size) -> ([usize; 2], i64, i64) {
        let at = [self.at(0, size[0]), self.at(1, size[1])];
        let over = [0, 1].map(|a: usize| self.points[a][at[a]] * self.step[a] < size[a]);
        let rests = over.iter().filter(|over| **over).count() as i64;
        let (last, state) = (tables.levels.len() - 1, tables.counted.states() - 1);
        let from = [0, 1].map(|a: usize| if over[a] && tables.rest > 0 { 0 } else { at[a] });
        let plates = (from[0]..=at[0]).rev().flat_map(|i| (from[1]..=at[1]).rev().map(move |j| [i, j]));
        let worth = |plate: [usize; 2]| (tables.get(last, plate, state) - rests * tables.rest).max(0);
        let best = plates.map(|plate| (plate, worth(plate))).reduce(|a, b| if b.1 > a.1 { b } else { a });
        let (plate, worth) = best.unwrap_or((at, 0));
        (plate, worth, rests)
    }

    /// The most that a sheet of this size yields, the cuts that part the rests from it taken off.
    pub(super) fn worth(&self, tables: &Tables, size: Size) -> i64 {
        self.cut_down(tables, size).1
    }

    /// A pattern that yields the most.
    pub(super) fn pattern(&self, tables: &Tables, values: &[i64], size: Size) -> Yield {
        let (at, _, rests) = self.cut_down(tables, size);
        let mut found = self.trace(tables, values, tables.levels.len() - 1, at, tables.counted.states() - 1);
        if found.tree.is_some() && tables.rest > 0 {
            found.cuts += rests;
        }
        found
    }

    fn trace(&self, t: &Tables, values: &[i64], level: usize, at: [usize; 2], state: usize) -> Yield {
        let here = &t.levels[level];
        let [i, j] = at;
        let v = t.get(level, at, state);
        if v <= 0 {
            return Yield::default();
        }
        if level > 0 && t.get(level - 1, at, state) == v {
            return self.trace(t, values, level - 1, at, state);
        }
        if level == 0 {
            let is = |w: &&Way| w.at == at && values[w.kind] == v && t.counted.has(state, w.kind);
            if let Some(w) = self.ways.iter().find(is) {
                let tree = Some(Tree::Piece { size: w.size, kind: w.kind, turned: w.turned });
                return Yield { tree, cuts: 0 };
            }
        }
        let shorter = (0..i).rev().map(|k| [k, j]);
        let mut smaller = shorter.chain((0..j).rev().map(|k| [i, k]));
        if let Some(less) = smaller.find(|less| t.get(level, *less, state) - t.rest == v) {
            let found = self.trace(t, values, level, less, state);
            return Yield { cuts: found.cuts + i64::from(t.rest > 0), ..found };
        }
        let below = if here.own { level } else { level - 1 };
        for a in (0..2).filter(|&a| here.axes[a]) {
            for &(p, q) in &self.pairs[a][at[a]] {
                let (p, q) = (usize::from(p), usize::from(q));
                let cross = self.points[1 - a][at[1 - a]] * self.step[1 - a];
                if cross > t.machine.longest && !self.bites(a, p, t.machine) {
                    continue;
                }
                let ways = [(p, q), (q, p)];
                for ((one, two), &(s, r)) in
                    ways.iter().flat_map(|w| t.counted.splits[state].iter().map(move |x| (*w, x)))
                {
                    let (mut x, mut y) = (at, at);
                    (x[a], y[a]) = (one, two);
                    if t.get(below, x, s) + t.get(level, y, r) - t.machine.cut == v {
                        let x = self.trace(t, values, below, x, s);
                        let y = self.trace(t, values, level, y, r);
                        return Yield { cuts: x.cuts + y.cuts + 1, tree: Tree::join(a, x.tree, y.tree) };
                    }
                }
            }
        }
        Yield::default()
    }
}

impl Tables {
    fn get(&self, level: usize, at: [usize; 2], state: usize) -> i64 {
        self.levels[level].best[(at[0] * self.counted.states() + state) * self.size[1] + at[1]]
    }
}

fn join(row: &mut [i64], one: &[i64], two: &[i64], cut: i64) {
    for ((cell, x), y) in row.iter_mut().zip(one).zip(two) {
        *cell = (*cell).max(x + y - cut);
    }
}

/// Sums of at most so many copies, nought first.
fn sums(shapes: &[Shape], most: i64, axis: usize, step: i64) -> Vec<i64> {
    let most = most.max(0) as usize;
    let mut is_sum = vec![false; most + 1];
    is_sum[0] = true;
    for shape in shapes {
        let sizes: Vec<usize> = shape.ways.iter().map(|(_, size)| (size[axis] / step) as usize).collect();
        let least = sizes.iter().copied().min().unwrap_or(0);
        if least == 0 {
            continue;
        }
        if shape.copies >= (most / least) as i64 {
            for size in &sizes {
                for x in *size..=most {
                    is_sum[x] = is_sum[x] || is_sum[x - size];
                }
            }
            continue;
        }
        for _ in 0..shape.copies {
            for x in (least..=most).rev() {
                is_sum[x] = is_sum[x] || sizes.iter().any(|size| *size <= x && is_sum[x - size]);
            }
        }
    }
    (0..=most).filter(|x| is_sum[*x]).map(|x| x as i64).collect()
}

/// Of each point the pairs of points that make it, the smaller first.
fn pairs(points: &[i64]) -> Vec<Vec<Pair>> {
    let of = |x: &i64| {
        let low = points.iter().enumerate().skip(1).take_while(|(_, p)| **p * 2 <= *x);
        low.filter_map(|(i, p)| points.binary_search(&(x - p)).ok().map(|j| (i as u16, j as u16))).collect()
    };
    points.iter().map(of).collect()
}

/// The most that guillotine cuts, any number of stages, get out of one sheet, each piece as often as wanted; and how often each
/// piece is cut.
///
/// Gilmore and Gomory 1965, Beasley 1985. None where the sizes are finer than the tables can tell apart: some hundred different
/// sums along each side are exact. Sizes that are not above nought yield nothing.
///
/// # Example
/// ```
/// use raisedbody::shop::cutting::sheets::{Valued, best_pattern};
/// let piece = Valued { length: 3, width: 2, value: 6, may_turn: true };
/// assert_eq!(best_pattern((5, 5), &[piece]), Some((18, vec![3])));
/// ```
pub fn best_pattern(sheet: (i64, i64), pieces: &[Valued]) -> Option<(i64, Vec<u32>)> {
    let sizes = |p: &Valued| {
        let plain = (false, [p.length, p.width]);
        let ways = if p.may_turn { vec![plain, (true, [p.width, p.length])] } else { vec![plain] };
        Shape { ways: if p.length > 0 && p.width > 0 { ways } else { Vec::new() }, copies: i64::MAX }
    };
    let shapes: Vec<Shape> = pieces.iter().map(sizes).collect();
    let size = [sheet.0.max(0), sheet.1.max(0)];
    if size.iter().any(|side| *side >= LONGEST_AXIS) {
        return None;
    }
    let grid = Grid::new(&shapes, size);
    if !grid.exact() {
        return None;
    }
    let values: Vec<i64> = pieces.iter().map(|p| p.value).collect();
    let tables = grid.solve(&values, Machine::FREE, super::reduced::ANY_STAGES, 0);
    let mut counts = vec![0; pieces.len()];
    if let Some(tree) = grid.pattern(&tables, &values, size).tree {
        tree.count(&mut counts);
    }
    Some((grid.worth(&tables, size), counts.into_iter().map(|n| n as u32).collect()))
}
