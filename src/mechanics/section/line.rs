//! The general section: mid-line points, walls between them, bends at them; open, closed, or closed with outstands.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI, TAU};

use super::skin::Skin;
use super::{Inputs, Properties, WALL_MM};
use crate::error::Problem;

/// A point of the mid-line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Node {
    /// Along the skin, mm.
    pub x_mm: f64,
    /// Square to the skin and away from it, mm.
    pub y_mm: f64,
    /// Radius of the mid-line's bend at this corner, mm; nought for a sharp one. The point is where the straight walls
    /// would meet.
    pub radius_mm: f64,
}

/// A flat wall between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// Index of the node it starts at.
    pub from: usize,
    /// Index of the node it ends at.
    pub to: usize,
    /// Thickness, mm.
    pub thickness_mm: f64,
}

/// A thin-walled section in one piece, open or with one cell.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    nodes: Vec<Node>,
    walls: Vec<Wall>,
    pub(super) flats: Vec<Flat>,
    pub(super) bends: Vec<Bend>,
    /// Area in the cell and the integral of ds / t around it; none in an open section.
    pub(super) cell: Option<(f64, f64)>,
    pub(super) skin: Option<Skin>,
}

/// The straight part of a wall.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Flat {
    pub wall: usize,
    pub from: Point,
    pub to: Point,
    pub thickness_mm: f64,
    pub in_cell: bool,
    pub ends: [End; 2],
}

/// What one end of a wall is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct End {
    pub hold: Hold,
    /// Every wall that it is held by has a free edge.
    pub by_outstands: bool,
    /// From the end of the straight part to the middle of the bend, measured along the wall, mm.
    pub beyond_mm: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Hold {
    Free,
    /// By a wall that stands off at 45 to 135 degrees.
    Held,
    /// By walls that hardly turn away, or fold back.
    Doubtful,
}

/// A bend as an arc of the mid-line, counter-clockwise.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bend {
    pub centre: Point,
    pub radius_mm: f64,
    pub start: f64,
    pub sweep: f64,
    pub thickness_mm: f64,
    pub node: usize,
    in_cell: bool,
}

pub(super) type Point = [f64; 2];

/// Integrals over a line: its length, its first and second moments.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Moments {
    length: f64,
    x: f64,
    y: f64,
    xx: f64,
    yy: f64,
    xy: f64,
}

/// A part of the mid-line with its thickness.
#[derive(Debug, Clone, Copy)]
pub(super) enum Piece {
    Straight(Point, Point, f64),
    Arc { centre: Point, radius_mm: f64, start: f64, sweep: f64, thickness_mm: f64 },
}

impl Piece {
    fn thickness_mm(&self) -> f64 {
        match *self {
            Self::Straight(_, _, t) | Self::Arc { thickness_mm: t, .. } => t,
        }
    }

    pub(super) fn length_mm(&self) -> f64 {
        match *self {
            Self::Straight(from, to, _) => distance(from, to),
            Self::Arc { radius_mm, sweep, .. } => radius_mm * sweep,
        }
    }

    /// About axes through `about`.
    fn moments(&self, about: Point) -> Moments {
        match *self {
            Self::Straight(from, to, _) => {
                let length = distance(from, to);
                let [x, y] = [0.5 * (from[0] + to[0]) - about[0], 0.5 * (from[1] + to[1]) - about[1]];
                let [dx, dy] = less(to, from);
                Moments {
                    length,
                    x: length * x,
                    y: length * y,
                    xx: length * (dx * dx / 12.0 + x * x),
                    yy: length * (dy * dy / 12.0 + y * y),
                    xy: length * (dx * dy / 12.0 + x * y),
                }
            }
            // Integrals of (c + r cos a) r da and the like from `start` over `sweep`.
            Self::Arc { centre, radius_mm: r, start, sweep, .. } => {
                let [x, y] = less(centre, about);
                let end = start + sweep;
                let cos = end.sin() - start.sin();
                let sin = start.cos() - end.cos();
                let doubled = 0.25 * ((2.0 * end).sin() - (2.0 * start).sin());
                let (cos_cos, sin_sin) = (0.5 * sweep + doubled, 0.5 * sweep - doubled);
                let sin_cos = 0.5 * (end.sin().powi(2) - start.sin().powi(2));
                Moments {
                    length: r * sweep,
                    x: r * (x * sweep + r * cos),
                    y: r * (y * sweep + r * sin),
                    xx: r * (x * x * sweep + 2.0 * x * r * cos + r * r * cos_cos),
                    yy: r * (y * y * sweep + 2.0 * y * r * sin + r * r * sin_sin),
                    xy: r * (x * y * sweep + r * (x * sin + y * cos) + r * r * sin_cos),
                }
            }
        }
    }
}

/// Area, centroid, and second moments about it: x, y and their product.
#[derive(Debug, Clone, Copy)]
pub(super) struct Summed {
    pub area: f64,
    pub length: f64,
    pub centroid: Point,
    pub ix: f64,
    pub iy: f64,
    pub ixy: f64,
}

pub(super) fn summed(pieces: &[Piece]) -> Summed {
    let total = |about: Point| {
        pieces.iter().fold(Moments::default(), |sum, piece| {
            let (m, t) = (piece.moments(about), piece.thickness_mm());
            Moments {
                length: sum.length + t * m.length,
                x: sum.x + t * m.x,
                y: sum.y + t * m.y,
                xx: sum.xx + t * m.xx,
                yy: sum.yy + t * m.yy,
                xy: sum.xy + t * m.xy,
            }
        })
    };
    let rough = total([0.0, 0.0]);
    let area = rough.length;
    let centroid = [rough.x / area, rough.y / area];
    let about = total(centroid);
    let length = pieces.iter().map(Piece::length_mm).sum();
    Summed { area, length, centroid, ix: about.yy, iy: about.xx, ixy: about.xy }
}

fn less(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1]]
}

fn dot(a: Point, b: Point) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

fn cross(a: Point, b: Point) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

pub(super) fn distance(a: Point, b: Point) -> f64 {
    let d = less(b, a);
    d[0].hypot(d[1])
}

/// Direction from one point to another.
fn direction(from: Point, to: Point) -> Point {
    let (d, length) = (less(to, from), distance(from, to));
    [d[0] / length, d[1] / length]
}

/// The point a distance on from another.
pub(super) fn along(from: Point, direction: Point, mm: f64) -> Point {
    [from[0] + direction[0] * mm, from[1] + direction[1] * mm]
}

/// Angle by which one direction turns to become another, counter-clockwise.
fn turn(from: Point, to: Point) -> f64 {
    cross(from, to).atan2(dot(from, to))
}

const NODES: (usize, usize) = (2, 200);
const PLACE_MM: (f64, f64) = (-1000.0, 1000.0);
const LEAST_WALL_MM: f64 = 0.1;
/// A wall that folds back nearly flat on another is a hem, for which a mid-line without thickness says nothing.
const FOLDED: f64 = 175.0 / 180.0 * PI;
/// Angles and lengths closer than this, relative, are rounding.
const ROUNDING: f64 = 1e-9;

impl Node {
    fn point(&self) -> Point {
        [self.x_mm, self.y_mm]
    }
}

/// Who meets whom.
struct Graph<'a> {
    nodes: &'a [Node],
    walls: &'a [Wall],
}

impl Graph<'_> {
    fn point(&self, node: usize) -> Point {
        self.nodes.get(node).map_or([f64::NAN; 2], Node::point)
    }

    /// The walls at a node, each with the node at its other end.
    fn at(&self, node: usize) -> impl Iterator<Item = (usize, usize, &Wall)> {
        self.walls.iter().enumerate().filter_map(move |(i, wall)| match node {
            n if n == wall.from => Some((i, wall.to, wall)),
            n if n == wall.to => Some((i, wall.from, wall)),
            _ => None,
        })
    }

    fn is_outstand(&self, wall: &Wall) -> bool {
        [wall.from, wall.to].iter().any(|&node| self.at(node).count() == 1)
    }

    /// The two walls of a corner as (wall, direction towards the corner), (wall, direction away from it), and how far it
    /// turns; none where one wall ends or more than two meet.
    fn corner(&self, node: usize) -> Option<(usize, Point, usize, Point, f64)> {
        let at: Vec<_> = self.at(node).collect();
        let [(first, before, _), (second, after, _)] = *at.as_slice() else { return None };
        let (into, out) =
            (direction(self.point(before), self.point(node)), direction(self.point(node), self.point(after)));
        Some((first, into, second, out, turn(into, out)))
    }

    /// What the bend at a node takes from either wall, mm.
    fn taken_mm(&self, node: usize) -> f64 {
        let radius_mm = self.nodes.get(node).map_or(0.0, |n| n.radius_mm);
        self.corner(node).map_or(0.0, |(.., angle)| radius_mm * (0.5 * angle).tan().abs())
    }

    /// Which walls are left when free ends are taken away one after another: those of the cell.
    fn ring(&self) -> Vec<bool> {
        let mut left = vec![true; self.walls.len()];
        let is_left = |left: &[bool], i: usize| left.get(i).copied().unwrap_or_default();
        loop {
            let free = |node: usize| self.at(node).filter(|(i, ..)| is_left(&left, *i)).count() == 1;
            let next: Vec<bool> = self
                .walls
                .iter()
                .enumerate()
                .map(|(i, wall)| is_left(&left, i) && !free(wall.from) && !free(wall.to))
                .collect();
            if next == left {
                return left;
            }
            left = next;
        }
    }

    /// The nodes of the cell in order.
    fn cycle(&self, ring: &[bool]) -> Vec<usize> {
        let is_in = |i: usize| ring.get(i).copied().unwrap_or_default();
        let Some((first, start)) = self.walls.iter().enumerate().find(|(i, _)| is_in(*i)) else { return Vec::new() };
        let (mut nodes, mut wall, mut node) = (vec![start.from], first, start.to);
        while node != start.from && nodes.len() <= self.nodes.len() {
            nodes.push(node);
            match self.at(node).find(|(i, ..)| is_in(*i) && *i != wall) {
                Some((next, other, _)) => (wall, node) = (next, other),
                None => break,
            }
        }
        nodes
    }

    /// Number of nodes that can be reached from the first.
    fn reached(&self) -> usize {
        let mut seen = vec![0];
        let mut next = 0;
        while let Some(&node) = seen.get(next) {
            for (_, other, _) in self.at(node) {
                if !seen.contains(&other) {
                    seen.push(other);
                }
            }
            next += 1;
        }
        seen.len()
    }

    fn end(&self, wall: usize, node: usize, far: usize) -> End {
        let inward = direction(self.point(far), self.point(node));
        let others: Vec<(usize, &Wall)> =
            self.at(node).filter(|(i, ..)| *i != wall).map(|(_, other, wall)| (other, wall)).collect();
        let square = |other: usize| {
            let angle = turn(inward, direction(self.point(node), self.point(other))).abs();
            (angle - FRAC_PI_2).abs() <= FRAC_PI_4 + ROUNDING
        };
        let hold = match others.as_slice() {
            [] => Hold::Free,
            some if some.iter().any(|(other, _)| square(*other)) => Hold::Held,
            _ => Hold::Doubtful,
        };
        let radius_mm = self.nodes.get(node).map_or(0.0, |n| n.radius_mm);
        End {
            hold,
            by_outstands: others.iter().all(|(_, wall)| self.is_outstand(wall)),
            beyond_mm: self.corner(node).map_or(0.0, |(.., angle)| radius_mm * (0.5 * angle).sin().abs()),
        }
    }
}

/// Whether two walls that share no node touch.
fn touch([a, b]: [Point; 2], [c, d]: [Point; 2]) -> bool {
    let side = |p: Point, q: Point, r: Point| cross(less(q, p), less(r, p));
    let on = |p: Point, q: Point, r: Point| {
        let inside = |i: usize| p[i].min(q[i]) <= r[i] && r[i] <= p[i].max(q[i]);
        inside(0) && inside(1)
    };
    let (s1, s2, s3, s4) = (side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b));
    (s1 * s2 < 0.0 && s3 * s4 < 0.0)
        || (s1 == 0.0 && on(a, b, c))
        || (s2 == 0.0 && on(a, b, d))
        || (s3 == 0.0 && on(c, d, a))
        || (s4 == 0.0 && on(c, d, b))
}

impl Profile {
    /// A section of walls between any nodes; `path` names it in errors (`"rib"` gives `"rib.nodes[2].radius"`).
    ///
    /// # Errors
    /// Less than 2 or more than 200 nodes; a wall between nodes that are not there, without length or thickness, or given
    /// twice; walls that do not hang together, cross, fold back on each other or enclose more than one cell; a radius
    /// where not just two walls of one thickness meet, or that they have no room for.
    pub fn new(nodes: &[Node], walls: &[Wall], path: &str) -> Result<Self, Vec<Problem>> {
        let mut inputs = Inputs::new(path);
        let count = nodes.len();
        if count < NODES.0 || count > NODES.1 {
            inputs.contradiction("nodes", count, format!("a section has {} to {} points", NODES.0, NODES.1));
        }
        for (i, node) in nodes.iter().enumerate() {
            inputs.within(&format!("nodes[{i}].x"), node.x_mm, PLACE_MM, "mm");
            inputs.within(&format!("nodes[{i}].y"), node.y_mm, PLACE_MM, "mm");
            inputs.within(&format!("nodes[{i}].radius"), node.radius_mm, (0.0, PLACE_MM.1), "mm");
        }
        for (i, wall) in walls.iter().enumerate() {
            inputs.within(&format!("walls[{i}].thickness"), wall.thickness_mm, WALL_MM, "mm");
            let pair = format!("{} to {}", wall.from, wall.to);
            let same = |w: &Wall| (w.from, w.to) == (wall.from, wall.to) || (w.to, w.from) == (wall.from, wall.to);
            if wall.from >= count || wall.to >= count {
                inputs.contradiction(&format!("walls[{i}]"), pair, format!("there are only {count} points, from 0 on"));
            } else if wall.from == wall.to {
                inputs.contradiction(&format!("walls[{i}]"), pair, "a wall joins two different points");
            } else if walls.iter().take(i).any(same) {
                inputs.contradiction(&format!("walls[{i}]"), pair, "this wall is there already; make it thicker");
            }
        }
        if walls.is_empty() {
            inputs.problems.push(Problem::missing(inputs.field("walls"), "name the pairs of points that walls join"));
        }
        if inputs.problems.is_empty() {
            check_layout(&mut inputs, &Graph { nodes, walls });
        }
        inputs.finish()?;
        Ok(Self::assembled(nodes.to_vec(), walls.to_vec()))
    }

    /// A section of one strip bent at points: mid-line points in order, one wall, one radius of the mid-line at every
    /// corner; `closed` joins the last point to the first.
    ///
    /// # Errors
    /// As for [`new`](Self::new); what is wrong with a point is named `points[i]`, and wall and radius by these names.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::section::Profile;
    /// let angle = Profile::chain(&[[0.0, 30.0], [0.0, 0.0], [20.0, 0.0]], 1.5, 3.0, false, "").unwrap();
    /// let section = angle.properties();
    /// // Two tangents of 3 mm give way to a quarter circle.
    /// assert!((section.developed_mm - (50.0 - 6.0 + 1.5 * std::f64::consts::PI)).abs() < 1e-9);
    /// ```
    pub fn chain(
        points: &[Point],
        wall_mm: f64,
        radius_mm: f64,
        closed: bool,
        path: &str,
    ) -> Result<Self, Vec<Problem>> {
        let mut inputs = Inputs::new(path);
        inputs.within("wall", wall_mm, WALL_MM, "mm");
        inputs.within("radius", radius_mm, (0.0, PLACE_MM.1), "mm");
        let least = if closed { 3 } else { NODES.0 };
        if points.len() < least {
            inputs.contradiction("points", points.len(), format!("a section has {least} points at least"));
        }
        inputs.finish()?;
        let (nodes, walls) = Self::chained(points, wall_mm, radius_mm, closed);
        let renamed = |problem: Problem| {
            let name = problem.path().replacen("nodes", "points", 1);
            problem.with_path(name)
        };
        Self::new(&nodes, &walls, path).map_err(|problems| problems.into_iter().map(renamed).collect())
    }

    /// The nodes.
    pub fn nodes(&self) -> &[Node] {
        &self.nodes
    }

    /// The walls.
    pub fn walls(&self) -> &[Wall] {
        &self.walls
    }

    /// Whether it has a cell.
    pub fn is_closed(&self) -> bool {
        self.cell.is_some()
    }

    /// The section of walls that are known to be right.
    pub(super) fn assembled(nodes: Vec<Node>, walls: Vec<Wall>) -> Self {
        let graph = Graph { nodes: &nodes, walls: &walls };
        let ring = graph.ring();
        let in_cell = |i: usize| ring.get(i).copied().unwrap_or_default();
        let flats: Vec<Flat> = walls
            .iter()
            .enumerate()
            .map(|(i, wall)| {
                let (from, to) = (graph.point(wall.from), graph.point(wall.to));
                let (length, direction) = (distance(from, to), direction(from, to));
                let (start, end) = (graph.taken_mm(wall.from), graph.taken_mm(wall.to));
                // Where bends meet, rounding must not turn the wall round.
                let straight = (length - start - end).max(0.0);
                let from_straight = along(from, direction, start);
                let to_straight = if end == 0.0 { to } else { along(from_straight, direction, straight) };
                Flat {
                    wall: i,
                    from: from_straight,
                    to: to_straight,
                    thickness_mm: wall.thickness_mm,
                    in_cell: in_cell(i),
                    ends: [graph.end(i, wall.from, wall.to), graph.end(i, wall.to, wall.from)],
                }
            })
            .collect();
        let bend = |(node, n): (usize, &Node)| {
            let (wall, into, _, _, angle) = graph.corner(node).filter(|_| n.radius_mm > 0.0)?;
            let side = angle.signum();
            let start = along(n.point(), into, -graph.taken_mm(node));
            let centre = along(start, [-into[1] * side, into[0] * side], n.radius_mm);
            let out = less(start, centre);
            let begin = out[1].atan2(out[0]);
            (angle.abs() > ROUNDING).then(|| Bend {
                centre,
                radius_mm: n.radius_mm,
                start: begin.min(begin + angle),
                sweep: angle.abs(),
                thickness_mm: walls.get(wall).map_or(0.0, |w| w.thickness_mm),
                node,
                in_cell: in_cell(wall),
            })
        };
        let bends: Vec<Bend> = nodes.iter().enumerate().filter_map(bend).collect();
        let cell = ring.contains(&true).then(|| {
            let cycle: Vec<Point> = graph.cycle(&ring).into_iter().map(|node| graph.point(node)).collect();
            let next = cycle.iter().skip(1).chain(cycle.first());
            let twice: f64 = cycle.iter().zip(next).map(|(&a, &b)| cross(a, b)).sum();
            // A bend cuts a corner that points outward and fills one that points inward.
            let cut: f64 = bends
                .iter()
                .filter(|bend| bend.in_cell)
                .map(|bend| {
                    let corner = bend.radius_mm.powi(2) * ((0.5 * bend.sweep).tan() - 0.5 * bend.sweep);
                    let centre_is_inside = inside(&cycle, bend.centre_near_its_corner(graph.point(bend.node)));
                    if centre_is_inside { -corner } else { corner }
                })
                .sum();
            let around: f64 = flats.iter().filter(|f| f.in_cell).map(|f| distance(f.from, f.to) / f.thickness_mm).sum();
            let bent: f64 = bends.iter().filter(|b| b.in_cell).map(|b| b.radius_mm * b.sweep / b.thickness_mm).sum();
            (0.5 * twice.abs() + cut, around + bent)
        });
        Self { nodes, walls, flats, bends, cell, skin: None }
    }

    /// Every part of its mid-line, the strip of skin too.
    pub(super) fn pieces(&self) -> Vec<Piece> {
        let flats = self.flats.iter().map(|f| Piece::Straight(f.from, f.to, f.thickness_mm));
        flats.chain(self.whole_pieces()).collect()
    }

    /// The parts that never buckle: bends and the strip of skin.
    pub(super) fn whole_pieces(&self) -> impl Iterator<Item = Piece> {
        self.bends.iter().map(Bend::piece).chain(self.skin.as_ref().map(Skin::piece))
    }

    /// How far its metal reaches in a direction, from the origin.
    pub(super) fn reach_mm(&self, towards: Point) -> f64 {
        let square = [-towards[1], towards[0]];
        let straight = |from: Point, to: Point, t: f64| {
            let tilt = dot(direction(from, to), square).abs();
            // A wall that bends have used up has no direction; its ends lie on the bends.
            dot(from, towards).max(dot(to, towards)) + if tilt.is_nan() { 0.0 } else { 0.5 * t * tilt }
        };
        let flats = self.flats.iter().map(|f| straight(f.from, f.to, f.thickness_mm));
        let skin = self.skin.as_ref().map(|s| straight(s.from, s.to, s.thickness_mm));
        let bends = self.bends.iter().map(|bend| {
            let angle = towards[1].atan2(towards[0]);
            let past = (angle - bend.start).rem_euclid(TAU);
            if past <= bend.sweep {
                dot(bend.centre, towards) + bend.radius_mm + 0.5 * bend.thickness_mm
            } else {
                f64::NEG_INFINITY
            }
        });
        // A sharp corner is bent round its inside edge, so that half the wall stands round the point.
        let graph = Graph { nodes: &self.nodes, walls: &self.walls };
        let corners = self.nodes.iter().enumerate().filter(|(_, n)| n.radius_mm == 0.0).filter_map(|(i, node)| {
            let thickest = graph.at(i).map(|(_, _, wall)| wall.thickness_mm).fold(0.0, f64::max);
            (graph.at(i).count() > 1).then(|| dot(node.point(), towards) + 0.5 * thickest)
        });
        flats.chain(skin).chain(bends).chain(corners).fold(f64::NEG_INFINITY, f64::max)
    }

    /// The torsion constant of its walls alone, mm4: Bredt's of the cell, and l t³ / 3 of every wall outside it.
    pub(super) fn torsion_mm4(&self) -> f64 {
        let cell = self.cell.map_or(0.0, |(enclosed, around)| 4.0 * enclosed * enclosed / around);
        let open = |length: f64, t: f64| length * t.powi(3) / 3.0;
        let flats = self.flats.iter().filter(|f| !f.in_cell).map(|f| open(distance(f.from, f.to), f.thickness_mm));
        let bends = self.bends.iter().filter(|b| !b.in_cell).map(|b| open(b.radius_mm * b.sweep, b.thickness_mm));
        cell + flats.chain(bends).sum::<f64>()
    }

    /// Its properties, with its strip of skin where it has one.
    pub fn properties(&self) -> Properties {
        let Summed { area, length, centroid, ix, iy, ixy } = summed(&self.pieces());
        let (top, bottom) = (self.reach_mm([0.0, 1.0]), -self.reach_mm([0.0, -1.0]));
        let (right, left) = (self.reach_mm([1.0, 0.0]), -self.reach_mm([-1.0, 0.0]));
        let (mean, half) = (0.5 * (ix + iy), (0.5 * (ix - iy)).hypot(ixy));
        let axis = if half > ROUNDING * mean { 0.5 * (-2.0 * ixy).atan2(ix - iy) } else { 0.0 };
        let (above, below) = (top - centroid[1], centroid[1] - bottom);
        Properties {
            area_mm2: area,
            developed_mm: length,
            centroid_mm: below,
            centroid_x_mm: centroid[0] - left,
            depth_mm: top - bottom,
            width_mm: right - left,
            ix_mm4: ix,
            iy_mm4: iy,
            ixy_mm4: ixy,
            i_major_mm4: mean + half,
            i_minor_mm4: mean - half,
            major_axis_deg: axis.to_degrees(),
            sx_mm3: ix / above.max(below),
            sx_skin_mm3: ix / below,
            sx_away_mm3: ix / above,
            sy_mm3: iy / (right - centroid[0]).max(centroid[0] - left),
            torsion_mm4: self.skin.as_ref().map_or_else(|| self.torsion_mm4(), |skin| skin.torsion_mm4),
            enclosed_mm2: self.cell.map_or(0.0, |(enclosed, _)| enclosed),
        }
    }
}

impl Bend {
    pub(super) fn piece(&self) -> Piece {
        Piece::Arc {
            centre: self.centre,
            radius_mm: self.radius_mm,
            start: self.start,
            sweep: self.sweep,
            thickness_mm: self.thickness_mm,
        }
    }

    /// A point hardly off the corner towards the centre of its bend: whether the bend lies inside or outside the cell.
    fn centre_near_its_corner(&self, corner: Point) -> Point {
        along(corner, less(self.centre, corner), 1e-6)
    }
}

/// Whether a point lies inside a polygon: a ray from it crosses the outline an odd number of times.
fn inside(polygon: &[Point], [x, y]: Point) -> bool {
    let next = polygon.iter().skip(1).chain(polygon.first());
    let crossed = polygon
        .iter()
        .zip(next)
        .filter(|&(a, b)| (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]));
    crossed.count() % 2 == 1
}

/// What the places of nodes and walls, each right by itself, have against each other.
fn check_layout(inputs: &mut Inputs<'_>, graph: &Graph<'_>) {
    let Graph { nodes, walls } = *graph;
    let ends = |wall: &Wall| [graph.point(wall.from), graph.point(wall.to)];
    for wall in walls {
        let [from, to] = ends(wall);
        let length = distance(from, to);
        if length < LEAST_WALL_MM {
            let problem = format!("only {length} mm from nodes[{}]; leave one of the two out", wall.from);
            inputs.contradiction(&format!("nodes[{}]", wall.to), format!("({}, {}) mm", to[0], to[1]), problem);
        }
    }
    if graph.reached() < nodes.len() {
        inputs.contradiction("walls", walls.len(), "the walls do not hang together, or a point has none");
    } else if walls.len() > nodes.len() {
        inputs.contradiction("walls", walls.len(), "the walls enclose more than one cell; only one can be worked out");
    }
    if !inputs.problems.is_empty() {
        return;
    }
    for (i, node) in nodes.iter().enumerate() {
        let at: Vec<Point> = graph.at(i).map(|(_, other, _)| direction(node.point(), graph.point(other))).collect();
        let folded = |k: usize, a: &Point| at.iter().skip(k + 1).any(|b| turn(*a, *b).abs() < PI - FOLDED);
        if at.iter().enumerate().any(|(k, a)| folded(k, a)) {
            let place = format!("({}, {}) mm", node.x_mm, node.y_mm);
            inputs.contradiction(&format!("nodes[{i}]"), place, "two walls lie on each other here; make one thicker");
        }
        if node.radius_mm > 0.0 {
            let thickness: Vec<f64> = graph.at(i).map(|(_, _, wall)| wall.thickness_mm).collect();
            if !matches!(thickness.as_slice(), [one, other] if (one - other).abs() < ROUNDING) {
                let problem = "a bend joins two walls of one thickness; write 0 mm here";
                inputs.contradiction(&format!("nodes[{i}].radius"), format!("{} mm", node.radius_mm), problem);
            }
        }
    }
    for wall in walls {
        let [from, to] = ends(wall);
        let (length, taken) = (distance(from, to), graph.taken_mm(wall.from) + graph.taken_mm(wall.to));
        if taken > length * (1.0 + ROUNDING) {
            let larger = if graph.taken_mm(wall.from) > graph.taken_mm(wall.to) { wall.from } else { wall.to };
            let radius_mm = nodes.get(larger).map_or(0.0, |n| n.radius_mm);
            let problem = format!(
                "the bends take {taken:.3} mm of the {length:.3} mm between nodes {} and {}; take a smaller radius",
                wall.from, wall.to
            );
            inputs.contradiction(&format!("nodes[{larger}].radius"), format!("{radius_mm} mm"), problem);
        }
    }
    for (i, wall) in walls.iter().enumerate() {
        let apart = |other: &&Wall| ![other.from, other.to].iter().any(|n| [wall.from, wall.to].contains(n));
        if walls.iter().skip(i + 1).filter(apart).any(|other| touch(ends(wall), ends(other))) {
            let pair = format!("{} to {}", wall.from, wall.to);
            inputs.contradiction(&format!("walls[{i}]"), pair, "it crosses another wall; give walls in order");
        }
    }
}
