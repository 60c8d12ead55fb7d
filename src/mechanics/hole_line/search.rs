//! The search for the cheapest line over old holes.
//!
//! A line is a chain of old holes; between two that follow each other, new ones stand evenly on the fitted line. What one
//! link costs depends on its two ends and its number of spaces alone, so that the best chain is a shortest path, found by
//! dynamic programming.

use crate::error::Problem;

use super::choice::{Cost, Fate, LinePlan, PlannedHole, Trade};
use super::fit::{EdgeLeft, LineFit};
use super::{HoleLine, OldHole, OldMetal};

/// Rounding in sums of lengths, mm.
const ROUNDING_MM: f64 = 1e-9;
/// Gaps, and numbers of spaces of each, that are gone through for the reason why there is no line.
const MOST_TRIED: usize = 200;

/// Pitches from one to another, mm.
type Range = (f64, f64);

/// A place where the chain may have a link's end.
#[derive(Debug, Clone, Copy)]
struct Node {
    along_mm: f64,
    off_line_mm: f64,
    old: Option<usize>,
    /// The old holes from this index on lie at or beyond it.
    first: usize,
    /// The old holes from this index on lie beyond it.
    next: usize,
    starts: bool,
    ends: bool,
}

/// The best way to a node.
#[derive(Debug, Clone, Copy)]
struct Best {
    cost: f64,
    from: Option<(usize, usize)>,
}

/// What keeps two nodes from following each other with so many spaces, and by how much, mm.
#[derive(Debug, Clone, Copy)]
enum Miss {
    TooWide,
    TooNarrow,
    Old(usize),
    Edge,
}

impl Miss {
    fn words(self, by_mm: f64) -> String {
        match self {
            Self::TooWide => format!("{by_mm:.2} mm over"),
            Self::TooNarrow => format!("{by_mm:.2} mm under"),
            Self::Old(i) => format!("a new hole {by_mm:.2} mm too near holes[{i}]"),
            Self::Edge => format!("a new hole {by_mm:.2} mm short of the least edge distance with 95 %"),
        }
    }
}

/// What would have to give, by how much, for a gap to be served with so many spaces; and what besides, where the pitch alone
/// is not all.
#[derive(Debug, Clone, Copy)]
struct NearestMiss {
    miss: Miss,
    spaces: usize,
    by_mm: f64,
    and: Option<(Miss, f64)>,
}

impl NearestMiss {
    fn all_mm(&self) -> f64 {
        self.by_mm + self.and.map_or(0.0, |(_, mm)| mm)
    }
}

/// The cheapest line, step by step.
pub(super) struct Search<'a> {
    line: &'a HoleLine,
    fit: &'a LineFit,
    trade: Trade,
    nodes: Vec<Node>,
    /// Of each old hole: how far along a new hole must stay from it, mm.
    half_mm: Vec<f64>,
    /// Old holes of the stretch: the first and the one after the last.
    within: (usize, usize),
    plug: f64,
}

impl HoleLine {
    fn edge_at(&self, off_mm: f64, error_mm: f64) -> Option<EdgeLeft> {
        self.edge.map(|edge| EdgeLeft { mm: edge.off_mm - off_mm, error_mm: error_mm.hypot(edge.error_mm) })
    }

    /// What an edge distance has beyond the least one, with 95 %, mm.
    fn margin_mm(&self, left: Option<EdgeLeft>) -> f64 {
        self.edge.zip(left).map_or(f64::INFINITY, |(edge, left)| left.least_mm() - edge.least_mm)
    }
}

impl<'a> Search<'a> {
    pub(super) fn new(line: &'a HoleLine, fit: &'a LineFit, trade: Trade) -> Self {
        let off_line = |i: usize| fit.departures.get(i).map_or(0.0, |d| d.off_line_mm);
        let ((from_mm, to_mm), play_mm) = (line.stretch_mm, line.end_play_mm + ROUNDING_MM);
        let half = |(i, h): (usize, &OldHole)| {
            let (keep_mm, off_mm) = (line.keep_off_mm(h), off_line(i));
            (keep_mm * keep_mm - off_mm * off_mm).max(0.0).sqrt()
        };
        let half_mm: Vec<f64> = line.holes.iter().enumerate().map(half).collect();
        let index = |mm: f64| line.holes.partition_point(|h| h.along_mm < mm);
        let within = (index(from_mm - play_mm), line.holes.partition_point(|h| h.along_mm <= to_mm + play_mm));
        let usable = |i: usize, h: &OldHole| {
            !h.spoilt && line.margin_mm(fit.departures.get(i).and_then(|d| d.edge)) >= -ROUNDING_MM
        };
        let mut nodes: Vec<Node> = line
            .holes
            .iter()
            .enumerate()
            .filter(|(i, h)| (within.0..within.1).contains(i) && usable(*i, h))
            .map(|(i, h)| Node {
                along_mm: h.along_mm,
                off_line_mm: off_line(i),
                old: Some(i),
                first: i,
                next: i + 1,
                starts: (h.along_mm - from_mm).abs() <= play_mm,
                ends: (h.along_mm - to_mm).abs() <= play_mm,
            })
            .collect();
        let mut search = Self { line, fit, trade, nodes: Vec::new(), half_mm, within, plug: 0.0 };
        if line.old_metal == OldMetal::Stays {
            search.plug = trade.plug_worth;
        }
        for (mm, starts) in [(from_mm, true), (to_mm, false)] {
            if search.new_end_miss(mm, starts).is_none() {
                let first = index(mm);
                nodes.push(Node {
                    along_mm: mm,
                    off_line_mm: 0.0,
                    old: None,
                    first,
                    next: first,
                    starts,
                    ends: !starts,
                });
            }
        }
        nodes.sort_by(|a, b| a.along_mm.total_cmp(&b.along_mm));
        search.nodes = nodes;
        search
    }

    fn margin_at_mm(&self, along_mm: f64) -> f64 {
        self.line.margin_mm(self.line.edge_at(self.fit.at_mm(along_mm), self.fit.error_at_mm(along_mm)))
    }

    /// What keeps an end from having a new hole, and by how much. Old holes beyond it are never used with it.
    fn new_end_miss(&self, mm: f64, starts: bool) -> Option<(Miss, f64)> {
        let margin_mm = self.margin_at_mm(mm);
        if margin_mm < -ROUNDING_MM {
            return Some((Miss::Edge, -margin_mm));
        }
        let beyond = |h: &OldHole| if starts { h.along_mm <= mm } else { h.along_mm >= mm };
        let short = |(i, half_mm): (usize, &f64)| {
            let hole = self.line.holes.get(i).filter(|h| beyond(h))?;
            Some((Miss::Old(i), half_mm - (hole.along_mm - mm).abs())).filter(|(_, short_mm)| *short_mm > ROUNDING_MM)
        };
        self.half_mm.iter().enumerate().filter_map(short).max_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// The line of least cost.
    ///
    /// # Errors
    /// An end that can have no hole; a gap that no pitch can serve.
    pub(super) fn best(&self) -> Result<LinePlan, Vec<Problem>> {
        self.end_problems()?;
        let best = self.run();
        let last = best.iter().zip(&self.nodes).enumerate().filter(|(_, (b, n))| n.ends && b.cost.is_finite());
        let total = |i: usize, b: &Best| b.cost + self.after(i);
        match last.min_by(|(i, (a, _)), (k, (b, _))| total(*i, a).total_cmp(&total(*k, b))) {
            Some((last, _)) => Ok(self.walk(&best, last)),
            None => Err(vec![self.unserved(&best)]),
        }
    }

    /// Refuses a line one of whose ends can have no hole.
    fn end_problems(&self) -> Result<(), Vec<Problem>> {
        let ((from_mm, to_mm), play_mm) = (self.line.stretch_mm, self.line.end_play_mm);
        let problem = |name: &str, mm: f64, starts: bool| {
            if self.nodes.iter().any(|n| if starts { n.starts } else { n.ends }) {
                return None;
            }
            let (miss, short_mm) = self.new_end_miss(mm, starts)?;
            let problem = format!(
                "this end can have no hole: {}, and no old one within {play_mm} mm of it can be used; move the end, or allow \
                 more play",
                miss.words(short_mm)
            );
            Some(Problem::contradiction(name, format!("{mm} mm"), problem))
        };
        let problems: Vec<Problem> =
            [problem("from", from_mm, true), problem("to", to_mm, false)].into_iter().flatten().collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// Numbers of spaces that the pitches allow in a gap.
    fn counts(&self, gap_mm: f64) -> (usize, usize) {
        let (least_mm, most_mm) = self.line.pitches_mm;
        let few = ((gap_mm - ROUNDING_MM) / most_mm).ceil().max(1.0);
        (few as usize, ((gap_mm + ROUNDING_MM) / least_mm).floor() as usize)
    }

    /// Cost of a link besides its plugs: new holes within it, and unevenness.
    fn link_cost(&self, one: &Node, next: &Node, spaces: usize) -> f64 {
        let n = spaces as f64;
        let off_mm = (next.along_mm - one.along_mm) / n - self.line.pitch_mm;
        (n - 1.0) + self.trade.uneven(n * off_mm * off_mm, jumps_mm2(one, next, spaces))
    }

    /// What keeps a link's new holes from standing, the worst of it; the pitch is not looked at.
    fn blocked(&self, one: &Node, next: &Node, spaces: usize) -> Option<(Miss, f64)> {
        self.blocked_by(one, next, spaces, one.next, false)
    }

    /// The same by the edge and old holes from this one on; the first reason found, or the worst.
    fn blocked_by(
        &self,
        one: &Node,
        next: &Node,
        spaces: usize,
        first_hole: usize,
        first_only: bool,
    ) -> Option<(Miss, f64)> {
        let step_mm = (next.along_mm - one.along_mm) / spaces as f64;
        let (low, high) = (usize::from(one.old.is_some()), spaces - usize::from(next.old.is_some()));
        if low > high {
            return None;
        }
        let mut worst: Option<(Miss, f64)> = None;
        let mut add = |miss: Miss, short_mm: f64| {
            if short_mm > ROUNDING_MM && worst.is_none_or(|(_, mm)| short_mm > mm) {
                worst = Some((miss, short_mm));
            }
            first_only && worst.is_some()
        };
        // What is left to the edge falls off to both sides of its best place, so that the outermost holes decide.
        if self.line.edge.is_some() {
            for m in [low, high] {
                if add(Miss::Edge, -self.margin_at_mm(one.along_mm + m as f64 * step_mm)) {
                    return worst;
                }
            }
        }
        let range = first_hole..next.first.max(first_hole);
        let between =
            self.line.holes.get(range.clone()).into_iter().flatten().zip(self.half_mm.get(range).into_iter().flatten());
        for (i, (hole, half_mm)) in between.enumerate() {
            let at = ((hole.along_mm - one.along_mm) / step_mm).round().clamp(low as f64, high as f64);
            let short_mm = half_mm - (one.along_mm + at * step_mm - hole.along_mm).abs();
            if add(Miss::Old(first_hole + i), short_mm) {
                return worst;
            }
        }
        worst
    }

    /// Takes the pitches out at which a new hole after this node would stand too near an old one; none are left where the
    /// node itself does.
    fn keep_off(&self, one: &Node, hole: usize, free: &mut Vec<Range>, spare: &mut Vec<Range>) {
        let (Some(old), Some(half_mm)) = (self.line.holes.get(hole), self.half_mm.get(hole)) else { return };
        let (away_mm, half_mm) = (old.along_mm - one.along_mm, half_mm - ROUNDING_MM);
        if half_mm <= 0.0 {
            return;
        }
        if one.old.is_none() && away_mm < half_mm {
            free.clear();
        }
        spare.clear();
        for &(low, high) in free.iter() {
            let mut from = low;
            // The m-th new hole stands at m pitches: those next to the old hole, from the widest pitch down.
            let most = ((away_mm + half_mm) / low).floor() as usize;
            let least = ((away_mm - half_mm) / high).ceil().max(1.0) as usize;
            for m in (least..=most).rev() {
                let (near, far) = ((away_mm - half_mm) / m as f64, (away_mm + half_mm) / m as f64);
                if near >= from {
                    spare.push((from, near.min(high)));
                }
                from = from.max(far);
            }
            if from <= high {
                spare.push((from, high));
            }
        }
        std::mem::swap(free, spare);
    }

    /// Every node that can follow one, with the cheapest way there below a bound that the caller knows: cost without plugs,
    /// and spaces.
    ///
    /// Old holes that are passed over leave ever fewer pitches at which new ones keep off them; when none is left, nothing
    /// farther on can follow.
    fn follow(&self, i: usize, mut visit: impl FnMut(usize, &Node, &dyn Fn(f64) -> Option<(f64, usize)>)) {
        let Some(one) = self.nodes.get(i) else { return };
        let widest_mm = self.half_mm.iter().copied().fold(0.0, f64::max);
        let (mut free, mut spare) = (vec![self.line.pitches_mm], Vec::new());
        let mut hole = one.next;
        for (j, next) in self.nodes.iter().enumerate().skip(i + 1) {
            // Nearer to the next node than this an old hole may be beside that node alone: it is looked at each time.
            while hole < next.first
                && self.line.holes.get(hole).is_some_and(|old| old.along_mm + widest_mm <= next.along_mm)
            {
                self.keep_off(one, hole, &mut free, &mut spare);
                hole += 1;
            }
            if free.is_empty() && next.along_mm - one.along_mm > self.line.pitches_mm.1 + ROUNDING_MM {
                return;
            }
            visit(j, next, &|bound| self.link(one, next, (&free, hole), bound));
        }
    }

    /// The cheapest way to link two nodes below a bound, at pitches that are free of all old holes before the given one.
    fn link(&self, one: &Node, next: &Node, (free, first_hole): (&[Range], usize), bound: f64) -> Option<(f64, usize)> {
        let gap_mm = next.along_mm - one.along_mm;
        let mut best: Option<(f64, usize)> = None;
        if self.counts(gap_mm).0 == 1 && gap_mm >= self.line.pitches_mm.0 - ROUNDING_MM {
            let cost = self.link_cost(one, next, 1);
            if cost < bound && self.blocked_by(one, next, 1, one.next, true).is_none() {
                best = Some((cost, 1));
            }
        }
        // From two spaces on the cost is convex in their number.
        let lowest = gap_mm / self.line.pitch_mm.hypot(self.trade.spacing_worth_mm);
        for &(low, high) in free {
            let few = ((gap_mm - ROUNDING_MM) / high).ceil().max(2.0) as usize;
            let many = ((gap_mm + ROUNDING_MM) / low).floor() as usize;
            if few > many {
                continue;
            }
            // Outwards from the lowest point, cheapest first.
            let cost = |n: usize| {
                if (few..=many).contains(&n) { self.link_cost(one, next, n) } else { f64::INFINITY }
            };
            let mut up = (lowest.ceil() as usize).clamp(few, many);
            let mut down = up - 1;
            let (mut above, mut below) = (cost(up), cost(down));
            loop {
                let (n, least) = if above <= below { (up, above) } else { (down, below) };
                if least >= best.map_or(bound, |(cost, _)| cost.min(bound)) || !least.is_finite() {
                    break;
                }
                if self.blocked_by(one, next, n, first_hole, true).is_none() {
                    best = Some((least, n));
                    break;
                }
                if n == up {
                    up += 1;
                    above = cost(up);
                } else {
                    down -= 1;
                    below = cost(down);
                }
            }
        }
        best
    }

    /// Cost of starting at a node: its plugs before, and itself where it is new.
    fn before(&self, node: &Node) -> f64 {
        self.plug * node.first.saturating_sub(self.within.0) as f64 + f64::from(node.old.is_none())
    }

    /// Cost of ending at a node: the plugs after.
    fn after(&self, node: usize) -> f64 {
        let next = self.nodes.get(node).map_or(0, |n| n.next);
        self.plug * self.within.1.saturating_sub(next) as f64
    }

    fn run(&self) -> Vec<Best> {
        let start = |node: &Node| if node.starts { self.before(node) } else { f64::INFINITY };
        let mut best: Vec<Best> = self.nodes.iter().map(|n| Best { cost: start(n), from: None }).collect();
        for (i, from) in self.nodes.iter().enumerate() {
            let Some(cost_here) = best.get(i).map(|b| b.cost).filter(|cost| cost.is_finite()) else { continue };
            self.follow(i, |j, node, link| {
                let Some(known) = best.get_mut(j) else { return };
                let passed = self.plug * node.first.saturating_sub(from.next) as f64;
                let base = cost_here + f64::from(node.old.is_none()) + passed;
                if let Some((cost, spaces)) = link(known.cost - base) {
                    *known = Best { cost: base + cost, from: Some((i, spaces)) };
                }
            });
        }
        best
    }

    fn walk(&self, best: &[Best], last: usize) -> LinePlan {
        let mut chain = Vec::new();
        let mut at = last;
        while let Some((node, way)) = self.nodes.get(at).zip(best.get(at)) {
            chain.push((*node, way.from.map(|(_, spaces)| spaces)));
            let Some((from, _)) = way.from else { break };
            at = from;
        }
        chain.reverse();
        let mut holes: Vec<PlannedHole> = Vec::new();
        let (mut pitch_mm2, mut jumps2) = (0.0, 0.0);
        let mut before: Option<Node> = None;
        for (node, spaces) in chain {
            let mut step = None;
            if let (Some(one), Some(spaces)) = (before, spaces) {
                let step_mm = (node.along_mm - one.along_mm) / spaces as f64;
                pitch_mm2 += spaces as f64 * (step_mm - self.line.pitch_mm).powi(2);
                jumps2 += jumps_mm2(&one, &node, spaces);
                holes.extend((1..spaces).map(|m| self.new_hole(one.along_mm + m as f64 * step_mm, Some(step_mm))));
                step = Some(step_mm);
            }
            holes.push(match node.old.and_then(|i| Some((i, self.line.holes.get(i)?))) {
                Some((i, hole)) => PlannedHole {
                    along_mm: node.along_mm,
                    off_mm: hole.off_mm,
                    off_line_mm: node.off_line_mm,
                    old: Some(i),
                    pitch_mm: step,
                    edge: self.fit.departures.get(i).and_then(|d| d.edge),
                },
                None => self.new_hole(node.along_mm, step),
            });
            before = Some(node);
        }
        let used: Vec<usize> = holes.iter().filter_map(|h| h.old).collect();
        let fate = |i: usize| {
            if used.binary_search(&i).is_ok() {
                Fate::Used
            } else if !(self.within.0..self.within.1).contains(&i) {
                Fate::Beyond
            } else if self.line.old_metal == OldMetal::Stays {
                Fate::Plugged
            } else {
                Fate::Covered
            }
        };
        let fates: Vec<Fate> = (0..self.line.holes.len()).map(fate).collect();
        let plugs = fates.iter().filter(|f| **f == Fate::Plugged).count();
        let new_holes = holes.len() - used.len();
        let total = new_holes as f64 + self.plug * plugs as f64 + self.trade.uneven(pitch_mm2, jumps2);
        LinePlan { holes, fates, cost: Cost { new_holes, plugs, pitch_mm2, jumps_mm2: jumps2, total } }
    }

    fn new_hole(&self, along_mm: f64, pitch_mm: Option<f64>) -> PlannedHole {
        let off_mm = self.fit.at_mm(along_mm);
        let edge = self.line.edge_at(off_mm, self.fit.error_at_mm(along_mm));
        PlannedHole { along_mm, off_mm, off_line_mm: 0.0, old: None, pitch_mm, edge }
    }

    /// The least that would have to give for two nodes to follow each other.
    fn nearest_miss(&self, one: &Node, next: &Node) -> Option<NearestMiss> {
        let gap_mm = next.along_mm - one.along_mm;
        if gap_mm <= ROUNDING_MM {
            return None;
        }
        let (least_mm, most_mm) = self.line.pitches_mm;
        let (few, many) = self.counts(gap_mm);
        let blocked = |spaces: usize| self.blocked(one, next, spaces);
        let mut misses: Vec<NearestMiss> = (few..=many.min(few + MOST_TRIED))
            .filter_map(|spaces| blocked(spaces).map(|(miss, by_mm)| NearestMiss { miss, spaces, by_mm, and: None }))
            .collect();
        let mut pitch = |miss: Miss, spaces: usize, by_mm: f64| {
            misses.push(NearestMiss { miss, spaces, by_mm, and: blocked(spaces) });
        };
        if few > 1 {
            pitch(Miss::TooWide, few - 1, gap_mm / (few - 1) as f64 - most_mm);
        }
        let more = many.max(few - 1) + 1;
        pitch(Miss::TooNarrow, more, least_mm - gap_mm / more as f64);
        misses.into_iter().min_by(|a, b| a.all_mm().total_cmp(&b.all_mm()))
    }

    /// Which gap keeps the line from being whole, and by how much: of the shortest that would make it whole, the nearest
    /// miss.
    fn unserved(&self, best: &[Best]) -> Problem {
        let mut onward: Vec<bool> = self.nodes.iter().map(|node| node.ends).collect();
        for i in (0..self.nodes.len()).rev() {
            let mut goes = onward.get(i) == Some(&true);
            self.follow(i, |j, _, link| {
                goes = goes || onward.get(j) == Some(&true) && link(f64::INFINITY).is_some();
            });
            if let Some(place) = onward.get_mut(i) {
                *place = goes;
            }
        }
        let reached = self.nodes.iter().zip(best).filter(|(_, b)| b.cost.is_finite()).map(|(n, _)| n);
        let pairs = reached.flat_map(|one| {
            let ends = self.nodes.iter().zip(&onward).filter(|(next, goes)| **goes && next.along_mm > one.along_mm);
            ends.map(move |(next, _)| (one, next))
        });
        let mut pairs: Vec<(&Node, &Node)> = pairs.collect();
        pairs.sort_by(|(a, b), (c, d)| (b.along_mm - a.along_mm).total_cmp(&(d.along_mm - c.along_mm)));
        let misses = pairs
            .into_iter()
            .take(MOST_TRIED)
            .filter_map(|(one, next)| Some((one, next, self.nearest_miss(one, next)?)));
        let nearest = misses.min_by(|a, b| a.2.all_mm().total_cmp(&b.2.all_mm()));
        let Some((one, next, NearestMiss { miss, spaces, by_mm, and })) = nearest else {
            return Problem::missing("holes", "no two places of this line can follow each other; allow other pitches");
        };
        let name = |node: &Node| {
            node.old.map_or_else(|| format!("a new hole at {:.1} mm", node.along_mm), |i| format!("holes[{i}]"))
        };
        let (least_mm, most_mm) = self.line.pitches_mm;
        let gap_mm = next.along_mm - one.along_mm;
        let pitch_mm = gap_mm / spaces as f64;
        let gap = format!("the gap of {gap_mm:.1} mm from {} to {}", name(one), name(next));
        let holds = if spaces == 1 { "1 space".to_owned() } else { format!("{spaces} spaces") };
        let (field, value) = match miss {
            Miss::TooWide => ("most_pitch", most_mm),
            Miss::TooNarrow => ("least_pitch", least_mm),
            Miss::Old(_) => ("clearance", self.line.clearance_mm),
            Miss::Edge => ("least_edge", self.line.edge.map_or(0.0, |edge| edge.least_mm)),
        };
        let and = and.map_or_else(String::new, |(miss, mm)| format!(", and {}", miss.words(mm)));
        let why = format!("{holds} of {pitch_mm:.1} mm: {}{and}", miss.words(by_mm));
        let problem = format!("no pitch from {least_mm} to {most_mm} mm serves {gap}; nearest is {why}");
        Problem::contradiction(field, format!("{value} mm"), problem)
    }
}

/// Squares of the jumps off the line within a link: new holes stand on it.
fn jumps_mm2(one: &Node, next: &Node, spaces: usize) -> f64 {
    if spaces == 1 {
        (next.off_line_mm - one.off_line_mm).powi(2)
    } else {
        one.off_line_mm.powi(2) + next.off_line_mm.powi(2)
    }
}
