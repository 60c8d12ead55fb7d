//! A sheet as a tree of cuts: every cut has as many parts as wanted and runs the other way than the one above it. Only the
//! pieces are kept; a part is as small as its pieces allow, and what is over is one rest at the end of each cut.

use super::reduced::{Reduced, Size, Stock, line};
use super::{Content, Part};

/// A part and its least size.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Tree {
    Piece { size: Size, kind: usize, turned: bool },
    Cut { size: Size, axis: usize, parts: Vec<Tree> },
}

/// Where a piece can be put.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Spot {
    /// Number of the node in the order of visiting.
    pub(super) node: usize,
    /// Axis along which it is put beside what is there.
    pub(super) axis: usize,
    pub(super) size: Size,
    pub(super) turned: bool,
}

/// How a sheet is cut in the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Layout {
    pub(super) cuts: i64,
    /// The rest beside all is cut off first.
    pub(super) rest_first: bool,
}

/// What is seen of a node on the way down.
#[derive(Debug, Clone, Copy)]
struct View {
    /// Size as it is cut now.
    now: Size,
    /// Size to which it can grow.
    room: Size,
    /// The axis that the cut above divides.
    above: usize,
    /// What lies beside it in the cut above.
    beside: i64,
    level: usize,
}

impl Tree {
    /// A sheet with one piece.
    pub(super) fn first(axis: usize, size: Size, kind: usize, turned: bool) -> Self {
        Self::Cut { size, axis, parts: vec![Self::Piece { size, kind, turned }] }
    }

    /// Two side by side; either may be missing.
    pub(super) fn join(axis: usize, one: Option<Self>, two: Option<Self>) -> Option<Self> {
        let Some(mut one) = one else { return two };
        if let Some(two) = two {
            one.beside(axis, two);
        }
        Some(one)
    }

    /// The tree of a whole sheet: a cut, also where there is but one piece.
    pub(super) fn rooted(self, first: Option<usize>) -> Self {
        match (&self, first) {
            (Self::Cut { .. }, None) => self,
            (Self::Cut { axis, .. }, Some(first)) if *axis == first => self,
            (_, first) => Self::Cut { size: self.size(), axis: first.unwrap_or(0), parts: vec![self] },
        }
    }

    pub(super) fn size(&self) -> Size {
        match self {
            Self::Piece { size, .. } | Self::Cut { size, .. } => *size,
        }
    }

    /// Levels of cuts.
    pub(super) fn levels(&self) -> usize {
        match self {
            Self::Piece { .. } => 0,
            Self::Cut { parts, .. } => 1 + parts.iter().map(Self::levels).max().unwrap_or(0),
        }
    }

    /// Pieces of each kind, added up.
    pub(super) fn count(&self, counts: &mut [i64]) {
        match self {
            Self::Piece { kind, .. } => counts[*kind] += 1,
            Self::Cut { parts, .. } => parts.iter().for_each(|part| part.count(counts)),
        }
    }

    /// Kinds of the pieces in order.
    pub(super) fn pieces(&self, out: &mut Vec<usize>) {
        match self {
            Self::Piece { kind, .. } => out.push(*kind),
            Self::Cut { parts, .. } => parts.iter().for_each(|part| part.pieces(out)),
        }
    }

    fn measure(&mut self) {
        if let Self::Cut { size, axis, parts } = self {
            size[*axis] = parts.iter().map(|p| p.size()[*axis]).sum();
            size[1 - *axis] = parts.iter().map(|p| p.size()[1 - *axis]).max().unwrap_or(0);
        }
    }

    /// Calls `see` with every spot where one of these sizes can be put, and how much is wasted beside it; returns the number
    /// of nodes seen.
    pub(super) fn spots(
        &self,
        room: Size,
        job: &Reduced,
        ways: &[(bool, Size)],
        see: &mut impl FnMut(Spot, i64),
    ) -> usize {
        let Self::Cut { size, axis, .. } = self else { return 0 };
        let view = View { now: room, room, above: 1 - axis, beside: 0, level: 0 };
        if job.first.is_none() && (job.stages > 1_000 || self.levels() < job.stages) {
            offer(*size, View { above: *axis, ..view }, usize::MAX, ways, see);
        }
        let mut node = 0;
        self.look(view, job.stages, ways, &mut node, see);
        node
    }

    fn look(
        &self,
        view: View,
        stages: usize,
        ways: &[(bool, Size)],
        node: &mut usize,
        see: &mut impl FnMut(Spot, i64),
    ) {
        if view.level < stages {
            offer(self.size(), view, *node, ways, see);
        }
        *node += 1;
        let Self::Cut { size, axis, parts } = self else { return };
        let a = *axis;
        let slack = view.room[a] - size[a];
        for part in parts {
            let own = part.size()[a];
            let mut below =
                View { above: a, beside: size[a] - own, level: view.level + 1, now: view.now, room: view.room };
            below.now[a] = own;
            below.room[a] = own + slack;
            part.look(below, stages, ways, node, see);
        }
    }

    /// Puts a piece there.
    pub(super) fn put(&mut self, spot: Spot, kind: usize) {
        let piece = Self::Piece { size: spot.size, kind, turned: spot.turned };
        if spot.node == usize::MAX {
            self.beside(spot.axis, piece);
        } else {
            self.put_at(spot, piece, &mut 0);
        }
    }

    fn put_at(&mut self, spot: Spot, piece: Self, node: &mut usize) -> Option<Self> {
        if *node == spot.node {
            *node += 1;
            self.beside(spot.axis, piece);
            return None;
        }
        *node += 1;
        let mut piece = piece;
        if let Self::Cut { parts, .. } = self {
            for part in parts.iter_mut() {
                match part.put_at(spot, piece, node) {
                    Some(back) => piece = back,
                    None => {
                        self.measure();
                        return None;
                    }
                }
            }
        }
        Some(piece)
    }

    fn beside(&mut self, along: usize, piece: Self) {
        match self {
            Self::Cut { axis, parts, .. } if *axis == along => match piece {
                Self::Cut { axis, parts: inner, .. } if axis == along => parts.extend(inner),
                other => parts.push(other),
            },
            _ => {
                let hole = Self::Cut { size: [0; 2], axis: along, parts: Vec::new() };
                let mut old = std::mem::replace(self, hole);
                if let Self::Cut { parts, .. } = &mut old
                    && parts.len() == 1
                    && let Some(only) = parts.pop()
                {
                    old = only;
                }
                if let Self::Cut { parts, .. } = self {
                    match old {
                        Self::Cut { axis, parts: inner, .. } if axis == along => parts.extend(inner),
                        other => parts.push(other),
                    }
                    match piece {
                        Self::Cut { axis, parts: inner, .. } if axis == along => parts.extend(inner),
                        other => parts.push(other),
                    }
                }
            }
        }
        self.measure();
    }

    /// Takes out every piece for which `take` says so, in order; false where nothing is left.
    pub(super) fn take(&mut self, fixed_first: bool, take: &mut impl FnMut(usize) -> bool) -> bool {
        if !self.thin(take) {
            return false;
        }
        let Self::Cut { parts, .. } = self else { return true };
        if parts.len() == 1
            && !fixed_first
            && matches!(parts.first(), Some(Self::Cut { .. }))
            && let Some(only) = parts.pop()
        {
            *self = only;
        }
        true
    }

    fn thin(&mut self, take: &mut impl FnMut(usize) -> bool) -> bool {
        match self {
            Self::Piece { kind, .. } => !take(*kind),
            Self::Cut { axis, parts, .. } => {
                let old = std::mem::take(parts);
                for mut part in old {
                    if !part.thin(take) {
                        continue;
                    }
                    match part {
                        Self::Cut { parts: mut inner, .. } if inner.len() == 1 => match inner.pop() {
                            Some(Self::Cut { axis: below, parts: lower, .. }) if below == *axis => parts.extend(lower),
                            Some(only) => parts.push(only),
                            None => {}
                        },
                        other => parts.push(other),
                    }
                }
                let left = !parts.is_empty();
                self.measure();
                left
            }
        }
    }

    /// The cheapest way to cut a sheet so; none where the machine, the stages or the first cut forbid it.
    pub(super) fn layout(&self, stock: &Stock, job: &Reduced) -> Option<Layout> {
        let Self::Cut { size, axis, parts } = self else { return None };
        let (a, b) = (*axis, 1 - *axis);
        if size[0] > stock.size[0] || size[1] > stock.size[1] {
            return None;
        }
        let alone = parts.len() == 1 && size[a] == stock.size[a];
        let whole = matches!(parts.first(), Some(Self::Piece { size, .. }) if *size == stock.size);
        let plain_is_first = job.first.is_none() || !alone || whole;
        let plain = if plain_is_first { self.cuts(stock.size, stock) } else { None };
        let plain = plain.map(|cuts| Layout { cuts, rest_first: false });
        let over = stock.size[b] - size[b];
        if over == 0 || job.first.is_some() || self.levels() >= job.stages || alone {
            return plain;
        }
        let mut inner = stock.size;
        inner[b] = size[b];
        let first = allowed(stock, stock.size[a], [size[b], over].into_iter());
        let wrapped = if first { self.cuts(inner, stock) } else { None };
        let wrapped = wrapped.map(|cuts| Layout { cuts: cuts + 1, rest_first: true });
        let larger = over * stock.size[a] >= (stock.size[a] - size[a]) * stock.size[b];
        match (plain, wrapped) {
            (Some(p), Some(w)) => Some(if w.cuts < p.cuts || (w.cuts == p.cuts && larger) { w } else { p }),
            (p, w) => p.or(w),
        }
    }

    /// Cuts to take this out of a rectangle; none where the machine cannot.
    fn cuts(&self, now: Size, stock: &Stock) -> Option<i64> {
        match self {
            Self::Piece { size, .. } => {
                let mut cuts = 0;
                for a in 0..2 {
                    let over = now[a] - size[a];
                    if over > 0 {
                        if !allowed(stock, now[1 - a], [size[a], over].into_iter()) {
                            return None;
                        }
                        cuts += 1;
                    }
                }
                Some(cuts)
            }
            Self::Cut { size, axis, parts } => {
                let a = *axis;
                let over = now[a] - size[a];
                let sizes = parts.iter().map(|p| p.size()[a]).chain((over > 0).then_some(over));
                if !allowed(stock, now[1 - a], sizes) {
                    return None;
                }
                let mut cuts = parts.len() as i64 - 1 + i64::from(over > 0);
                for part in parts {
                    let mut inner = now;
                    inner[a] = part.size()[a];
                    cuts += part.cuts(inner, stock)?;
                }
                Some(cuts)
            }
        }
    }

    /// Parts in one order for equal patterns: the largest first, where the machine lets it.
    pub(super) fn sort(&mut self) {
        if let Self::Cut { parts, axis, .. } = self {
            let a = *axis;
            parts.iter_mut().for_each(Self::sort);
            parts.sort_by(|x, y| (y.size()[a], y).cmp(&(x.size()[a], x)));
        }
    }

    /// The sheet inside its trimmed edges, kerfs told apart.
    pub(super) fn part(&self, stock: &Stock, layout: Layout, kerf: i64) -> Part {
        let Self::Cut { size, axis, .. } = self else { return self.part_of(stock.size, stock, kerf) };
        let b = 1 - *axis;
        if !layout.rest_first {
            return self.part_of(stock.size, stock, kerf);
        }
        let mut inner = stock.size;
        inner[b] = size[b];
        let mut parts = vec![self.part_of(inner, stock, kerf)];
        parts.extend(rest(stock.size, b, stock.size[b] - size[b], kerf));
        cut(stock.size, b, parts, kerf)
    }

    fn part_of(&self, now: Size, stock: &Stock, kerf: i64) -> Part {
        match self {
            Self::Piece { size, kind, turned } => {
                let whole = Part {
                    length_tenths: size[0] - kerf,
                    width_tenths: size[1] - kerf,
                    content: Content::Piece { piece: *kind, turned: *turned },
                };
                let a = usize::from(now[0] == size[0]);
                let over = now[a] - size[a];
                if over == 0 {
                    return whole;
                }
                let mut parts = vec![whole];
                parts.extend(rest(now, a, over, kerf));
                cut(now, a, parts, kerf)
            }
            Self::Cut { size, axis, parts } => {
                let a = *axis;
                let mut order: Vec<&Self> = parts.iter().collect();
                if now[1 - a] > stock.longest {
                    order.reverse();
                }
                let inner = |part: &&Self| {
                    let mut inner = now;
                    inner[a] = part.size()[a];
                    part.part_of(inner, stock, kerf)
                };
                let mut cut_off: Vec<Part> = order.iter().map(inner).collect();
                cut_off.extend(rest(now, a, now[a] - size[a], kerf));
                cut(now, a, cut_off, kerf)
            }
        }
    }
}

fn rest(now: Size, axis: usize, over: i64, kerf: i64) -> Option<Part> {
    let mut size = [now[0] - kerf, now[1] - kerf];
    size[axis] = (over - kerf).max(0);
    (over > 0).then_some(Part { length_tenths: size[0], width_tenths: size[1], content: Content::Rest })
}

fn cut(now: Size, axis: usize, mut parts: Vec<Part>, kerf: i64) -> Part {
    if parts.len() == 1
        && let Some(only) = parts.pop()
    {
        return only;
    }
    Part {
        length_tenths: now[0] - kerf,
        width_tenths: now[1] - kerf,
        content: Content::Cut { line: line(axis), parts },
    }
}

/// The machine can part a rectangle so, all parts that fit the throat first, rests last: of parts too wide for the throat
/// there may be one where the cut is too long.
fn allowed(stock: &Stock, long: i64, parts: impl Iterator<Item = i64>) -> bool {
    long <= stock.longest || parts.filter(|part| *part > stock.throat).count() <= 1
}

fn offer(size: Size, view: View, node: usize, ways: &[(bool, Size)], see: &mut impl FnMut(Spot, i64)) {
    let a = 1 - view.above;
    let b = view.above;
    for &(turned, new) in ways {
        if size[a] + new[a] > view.room[a] || new[b] > view.room[b] {
            continue;
        }
        let longer = (size[a] + new[a] - view.now[a]).max(0);
        let wider = (new[b] - view.now[b]).max(0);
        let free = (view.now[a] + longer - size[a]) * (view.now[b] + wider);
        let waste = free - new[0] * new[1] + wider * size[a] + longer * view.beside;
        see(Spot { node, axis: a, size: new, turned }, waste);
    }
}
