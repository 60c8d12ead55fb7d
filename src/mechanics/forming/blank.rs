//! The flat of a sheet wrapped round corners: straight runs and arcs in turn, each corner the same from edge to edge or not.
//!
//! The sheet stands upright, its lower and upper edges level. A corner whose radius differs at both edges, or that turns from
//! an upright face to a leaning one, is a cone with level circular sections that touches both faces; a right cone is the case
//! in which both faces lean as the cone does. It is unrolled exactly: where the tangent plane leans by `w` over the height `h`,
//! the lower edge turns in the flat by `dφ = -w / √(h² + w²) dα`, and the line through the place, a straight line of the cone,
//! reaches `√(h² + w²)` square to that edge and `D·t` along it, `D` the way of the circle's middle from edge to edge.

use crate::error::Problem;
use crate::mechanics::sheet::in_range;
use crate::quantity::nearest_64_mm;

use super::bend::bend_allowance_mm;
use super::{K, THICKNESS_MM};

/// A corner that the sheet is bent round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// Inside radius at the lower edge, mm.
    pub bottom_radius_mm: f64,
    /// Inside radius at the upper edge, mm.
    pub top_radius_mm: f64,
    /// How far it turns in plan, degrees.
    pub angle_deg: f64,
    /// Neutral axis from the inside face, in thicknesses.
    pub k: f64,
}

/// A piece of the wrapped sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Run {
    /// A flat face.
    Straight {
        /// Along the lower edge, between the bends or from a bend to the sheet's end, mm.
        length_mm: f64,
        /// How far the face leans out from the lower edge to the upper, mm; inward is below nought.
        lean_mm: f64,
    },
    /// An arc.
    Corner(Corner),
}

/// A sheet to be wrapped, from its good edge on.
#[derive(Debug, Clone, PartialEq)]
pub struct Blank {
    /// Straight runs and corners in turn; a straight run first and last, of length nought if need be.
    pub runs: Vec<Run>,
    /// Upright from the lower edge to the upper, mm.
    pub height_mm: f64,
    /// Sheet, mm.
    pub thickness_mm: f64,
    /// Greatest error of one tape reading, mm.
    pub tape_error_mm: f64,
}

/// A line across the flat, from its lower edge to its upper; x from the good edge along the base line, which stands square to
/// the good edge at its lower end, y up from the base line.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct ScribeLine {
    /// Index of the run that it lies in or starts.
    pub run: usize,
    /// On the lower edge, mm.
    pub bottom_mm: [f64; 2],
    /// On the upper edge, mm.
    pub top_mm: [f64; 2],
}

/// Where a bend starts or ends.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Mark {
    /// Which corner, from 0.
    pub corner: usize,
    /// The bend starts here; otherwise it ends.
    pub start: bool,
    /// From the good edge on the lower edge and on the upper, mm.
    pub at_mm: [f64; 2],
    /// The same to the nearest 1/64 in, mm.
    pub rounded_mm: [f64; 2],
    /// How far the mark can be off when it is taped from the good edge to that 1/64 in, mm.
    pub error_mm: [f64; 2],
    /// How far it can be off when each mark is taped from the one before, mm.
    pub chained_error_mm: f64,
}

/// A corner in the flat.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct CornerPattern {
    /// Sheet in the bend along the lower edge and the upper, mm.
    pub arc_mm: [f64; 2],
    /// How far both edges turn in the flat, degrees; nought for a plain cylinder.
    pub developed_angle_deg: f64,
    /// Mean radius of both edges in the flat, mm; none where they run straight.
    pub developed_radius_mm: Option<[f64; 2]>,
    /// Chord of both edges in the flat, mm.
    pub chord_mm: [f64; 2],
    /// Length of the straight lines across at the start and the end of the bend, mm.
    pub slant_mm: [f64; 2],
}

/// A wrapped sheet laid flat.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct FlatPattern {
    /// Developed length of the lower edge and of the upper, mm.
    pub length_mm: [f64; 2],
    /// Smallest rectangle with one side on the good edge, mm: along and up.
    pub rectangle_mm: [f64; 2],
    /// Starts and ends of bends.
    pub marks: Vec<Mark>,
    /// Corners in order.
    pub corners: Vec<CornerPattern>,
    /// Lines across: both ends, the ends of every run, and between them in every arc.
    pub lines: Vec<ScribeLine>,
    /// How far both edges turn over the whole flat, degrees.
    pub developed_angle_deg: f64,
    /// The wedge, mm: how far the far end would be out of square if the sheet were cut as a rectangle and rolled to cylinders,
    /// the upper edge beyond the lower; below nought where the lower reaches farther.
    pub out_of_square_mm: f64,
    /// What a square cut at the farther of both ends leaves to trim at the lower edge and at the upper, mm.
    pub trim_mm: [f64; 2],
    /// How far a rectangle's lower and upper edge come to hang above the level line at the far end, mm; below nought beneath it.
    pub climb_mm: [f64; 2],
    /// If every corner were rolled to the radius of the first at its lower edge, with the faces where they are: how far a sheet
    /// cut for that reaches past the end of the lower edge and of the upper, mm; below nought where it is short.
    pub one_radius_past_mm: [f64; 2],
}

/// Parts that a corner is unrolled in: the error of the fourth-order rule is far below a micrometre for any body.
const PARTS: usize = 96;
/// Lines scribed in each corner.
const SCRIBED: usize = 6;
/// More corners than one sheet wraps.
const MOST_RUNS: usize = 41;
/// Steepest lean of a face, and steepest change of a radius, over the height.
const STEEPEST: f64 = 0.5;

/// The straight line of a cone through a place on the lower edge, laid flat: along that edge and square to it.
fn across(height_mm: f64, [a, b]: [f64; 2], radius_change: f64, angle: f64) -> [f64; 2] {
    let (sin, cos) = angle.sin_cos();
    let lean = a * cos + b * sin + radius_change;
    [b * cos - a * sin, height_mm.hypot(lean)]
}

struct Pen {
    at_mm: [f64; 2],
    heading: f64,
}

impl Pen {
    fn go(&mut self, length_mm: f64) {
        let (sin, cos) = self.heading.sin_cos();
        self.at_mm = [self.at_mm[0] + length_mm * cos, self.at_mm[1] + length_mm * sin];
    }

    fn line(&self, run: usize, [along, square]: [f64; 2]) -> ScribeLine {
        let (sin, cos) = self.heading.sin_cos();
        let [x, y] = self.at_mm;
        let top_mm = [x + along * cos - square * sin, y + along * sin + square * cos];
        ScribeLine { run, bottom_mm: self.at_mm, top_mm }
    }
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

impl FlatPattern {
    /// Distance of each line across from the good edge, along the lower edge and along the upper, mm.
    pub fn along_mm(&self) -> Vec<[f64; 2]> {
        let mut so_far = [0.0, 0.0];
        let mut all: Vec<[f64; 2]> = self.lines.first().map(|_| so_far).into_iter().collect();
        for pair in self.lines.windows(2) {
            let &[a, b] = pair else { continue };
            so_far = [so_far[0] + distance(a.bottom_mm, b.bottom_mm), so_far[1] + distance(a.top_mm, b.top_mm)];
            all.push(so_far);
        }
        all
    }

    /// Upper edge from where the first bend starts to where the last one ends, or to the far end, mm.
    pub fn upper_round_mm(&self, to_the_end: bool) -> f64 {
        let along = self.along_mm();
        let last = along.len().saturating_sub(if to_the_end { 1 } else { 2 });
        let at = |i: usize| along.get(i).map_or(0.0, |[_, upper]| *upper);
        at(last) - at(1)
    }

    /// Area within both edges and both ends, mm2; the edges run straight between the lines across.
    pub fn area_mm2(&self) -> f64 {
        let strip = |pair: &[ScribeLine]| {
            let &[a, b] = pair else { return 0.0 };
            let ([ax, ay], [bx, by]) = (diagonal(a.bottom_mm, b.top_mm), diagonal(b.bottom_mm, a.top_mm));
            0.5 * (ax * by - ay * bx)
        };
        self.lines.windows(2).map(strip).sum()
    }
}

fn diagonal(from: [f64; 2], to: [f64; 2]) -> [f64; 2] {
    [to[0] - from[0], to[1] - from[1]]
}

impl Corner {
    /// Way of the circle's middle from the lower edge to the upper, mm: outward from the face before it, and along that face.
    /// Both faces touch: `D·n₁ + ΔR = w₁`, `D·n₂ + ΔR = w₂`.
    fn middle_mm(&self, before_mm: f64, after_mm: f64) -> [f64; 2] {
        let change = self.top_radius_mm - self.bottom_radius_mm;
        let (sin, cos) = self.angle_deg.to_radians().sin_cos();
        let a = before_mm - change;
        [a, (after_mm - change - a * cos) / sin]
    }
}

impl Blank {
    /// Refuses what cannot be wrapped.
    ///
    /// # Errors
    /// Every size that no sheet has; runs not in turn; faces or radii that run too steeply; corners that meet at the upper edge.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let mut problems: Vec<Problem> = [
            in_range("height", Some(self.height_mm), (10.0, 5000.0), "mm"),
            in_range("thickness", Some(self.thickness_mm), THICKNESS_MM, "mm"),
            in_range("tape_error", Some(self.tape_error_mm), (0.0, 20.0), "mm"),
        ]
        .into_iter()
        .filter_map(Result::err)
        .collect();
        let steepest = STEEPEST * self.height_mm;
        if self.runs.len() > MOST_RUNS {
            let value = format!("{} runs", self.runs.len());
            return Err(vec![Problem::out_of_range("runs", value, format!("at most {MOST_RUNS}"))]);
        }
        let turns = |i: usize| matches!(self.runs.get(i), Some(Run::Corner(_)));
        if self.runs.len().is_multiple_of(2) || (0..self.runs.len()).any(|i| turns(i) != (i % 2 == 1)) {
            let fix = "write straight runs and corners in turn, a straight run first and last: \"0 mm\" where an arc reaches the end";
            problems.push(Problem::missing("runs", fix));
            return Err(problems);
        }
        for (i, run) in self.runs.iter().enumerate() {
            let path = |entry: &str| format!("runs[{i}].{entry}");
            let tests = match run {
                Run::Straight { length_mm, lean_mm } => vec![
                    in_range(&path("length"), Some(*length_mm), (0.0, 20_000.0), "mm"),
                    in_range(&path("lean"), Some(*lean_mm), (-steepest, steepest), "mm"),
                ],
                Run::Corner(c) => {
                    // One radius, wrong once.
                    let top = Some(c.top_radius_mm).filter(|mm| mm.to_bits() != c.bottom_radius_mm.to_bits());
                    vec![
                        in_range(&path("bottom_radius"), Some(c.bottom_radius_mm), (0.5, 5000.0), "mm"),
                        in_range(&path("top_radius"), top, (0.5, 5000.0), "mm"),
                        in_range(&path("angle"), Some(c.angle_deg), (1.0, 175.0), "deg"),
                        in_range(&path("k"), Some(c.k), K, ""),
                    ]
                }
            };
            problems.extend(tests.into_iter().filter_map(Result::err));
        }
        if problems.is_empty() {
            problems.extend(self.corners().filter_map(|(i, corner, middle)| {
                let change = corner.top_radius_mm - corner.bottom_radius_mm;
                (change.abs() > steepest || middle[0].hypot(middle[1]) > 2.0 * steepest).then(|| {
                    let value = format!("{} mm", corner.top_radius_mm);
                    let problem = format!(
                        "over {:.0} mm of height the corner runs too steeply from the lower edge to the upper, or the faces beside \
                         it lean too differently for its turn; measure radii and leans again",
                        self.height_mm
                    );
                    Problem::contradiction(format!("runs[{i}].top_radius"), value, problem)
                })
            }));
        }
        if problems.is_empty() {
            for (i, length_mm) in self.top_straights_mm() {
                if length_mm < 0.0 {
                    let problem = format!("at the upper edge the bends beside it overlap by {:.1} mm", -length_mm);
                    problems.push(Problem::contradiction(format!("runs[{i}].length"), "too short", problem));
                }
            }
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn lean_mm(&self, run: usize) -> f64 {
        match self.runs.get(run) {
            Some(Run::Straight { lean_mm, .. }) => *lean_mm,
            _ => 0.0,
        }
    }

    /// Corners with their index among the runs and the way of their middles.
    fn corners(&self) -> impl Iterator<Item = (usize, Corner, [f64; 2])> + '_ {
        self.runs.iter().enumerate().filter_map(|(i, run)| match run {
            Run::Corner(c) => Some((i, *c, c.middle_mm(self.lean_mm(i.saturating_sub(1)), self.lean_mm(i + 1)))),
            Run::Straight { .. } => None,
        })
    }

    /// Straight runs along the upper edge, mm.
    fn top_straights_mm(&self) -> Vec<(usize, f64)> {
        let along = |i: usize, end: bool| {
            let own = self.corners().find(|(at, ..)| *at == i);
            own.map_or(0.0, |(_, c, middle)| {
                let change = c.top_radius_mm - c.bottom_radius_mm;
                across(self.height_mm, middle, change, if end { c.angle_deg.to_radians() } else { 0.0 })[0]
            })
        };
        let each = self.runs.iter().enumerate().filter_map(|(i, run)| match run {
            Run::Straight { length_mm, .. } => {
                let before = i.checked_sub(1).map_or(0.0, |before| along(before, true));
                Some((i, length_mm - before + along(i + 1, false)))
            }
            Run::Corner(_) => None,
        });
        each.collect()
    }

    /// Lays the sheet flat.
    ///
    /// # Errors
    /// As [`validate`](Self::validate).
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::forming::{Blank, Corner, Run};
    /// let flat = |length_mm: f64| Run::Straight { length_mm, lean_mm: 0.0 };
    /// let corner = Run::Corner(Corner { bottom_radius_mm: 150.0, top_radius_mm: 150.0, angle_deg: 90.0, k: 0.5 });
    /// let cap = Blank {
    ///     runs: vec![flat(200.0), corner, flat(2000.0), corner, flat(200.0)],
    ///     height_mm: 400.0,
    ///     thickness_mm: 1.2,
    ///     tape_error_mm: 1.0,
    /// };
    /// // Two quarter circles about an axis 0.6 mm inside the sheet.
    /// let flat = cap.develop().unwrap();
    /// assert!((flat.length_mm[0] - (2400.0 + std::f64::consts::PI * 150.6)).abs() < 1e-9);
    /// ```
    pub fn develop(&self) -> Result<FlatPattern, Vec<Problem>> {
        self.validate()?;
        let h = self.height_mm;
        let mut pen = Pen { at_mm: [0.0, 0.0], heading: 0.0 };
        let mut lines = vec![pen.line(0, [0.0, h.hypot(self.lean_mm(0))])];
        let (mut marks, mut corners) = (Vec::new(), Vec::new());
        let mut bottom_mm = 0.0;
        for (i, run) in self.runs.iter().enumerate() {
            match run {
                Run::Straight { length_mm, .. } => {
                    pen.go(*length_mm);
                    bottom_mm += length_mm;
                }
                Run::Corner(c) => {
                    let middle = c.middle_mm(self.lean_mm(i - 1), self.lean_mm(i + 1));
                    let (pattern, own) = unroll(c, middle, h, self.thickness_mm, &mut pen, i);
                    bottom_mm += pattern.arc_mm[0];
                    for (start, line) in [(true, own.first()), (false, own.last())] {
                        marks.extend(line.map(|line| self.mark(corners.len(), start, marks.len(), line)));
                    }
                    corners.push(pattern);
                    lines.extend(own);
                }
            }
        }
        let last = self.runs.len() - 1;
        let end = pen.line(last, [0.0, h.hypot(self.lean_mm(last))]);
        lines.push(end);
        let top_mm = self.top_straights_mm().iter().map(|(_, mm)| mm).sum::<f64>()
            + corners.iter().map(|c| c.arc_mm[1]).sum::<f64>();
        let (x, rise) = ([end.bottom_mm[0], end.top_mm[0]], h.hypot(self.lean_mm(0)));
        let farther = x[0].max(x[1]);
        let most = |of: &dyn Fn(&ScribeLine) -> f64| lines.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        let up = most(&|l| l.bottom_mm[1].max(l.top_mm[1])) + most(&|l| -l.bottom_mm[1].min(l.top_mm[1]));
        let along = most(&|l| l.bottom_mm[0].max(l.top_mm[0]));
        Ok(FlatPattern {
            length_mm: [bottom_mm, top_mm],
            rectangle_mm: [along, up],
            marks,
            corners,
            lines,
            developed_angle_deg: pen.heading.to_degrees(),
            out_of_square_mm: x[0] - x[1],
            trim_mm: x.map(|x| farther - x),
            climb_mm: [-end.bottom_mm[1], rise - end.top_mm[1]],
            one_radius_past_mm: self.one_radius_past_mm(),
        })
    }

    /// How much more both edges take with every corner rolled to the radius of the first: `(R - R₀)(2 tan(θ/2) - θ)` for each,
    /// as the faces stay where they are.
    fn one_radius_past_mm(&self) -> [f64; 2] {
        let corners = || self.corners().map(|(_, c, _)| c);
        let Some(first) = corners().next().map(|c| c.bottom_radius_mm) else { return [0.0; 2] };
        let longer = |radius_mm: f64, c: Corner| {
            let angle = c.angle_deg.to_radians();
            (radius_mm - first) * (2.0 * (angle / 2.0).tan() - angle)
        };
        let edge = |radius: fn(Corner) -> f64| corners().map(|c| longer(radius(c), c)).sum();
        [edge(|c| c.bottom_radius_mm), edge(|c| c.top_radius_mm)]
    }

    fn mark(&self, corner: usize, start: bool, earlier: usize, line: &ScribeLine) -> Mark {
        let at_mm = [line.bottom_mm[0], line.top_mm[0]];
        let rounded_mm = at_mm.map(nearest_64_mm);
        let off = |i: usize| (at_mm[i] - rounded_mm[i]).abs() + self.tape_error_mm;
        let chained_error_mm = (earlier + 1) as f64 * self.tape_error_mm;
        Mark { corner, start, at_mm, rounded_mm, error_mm: [off(0), off(1)], chained_error_mm }
    }
}

/// Unrolls a corner from where the pen stands: the lines across, the first and the last at the ends of the bend.
fn unroll(
    c: &Corner,
    middle: [f64; 2],
    height_mm: f64,
    thickness_mm: f64,
    pen: &mut Pen,
    run: usize,
) -> (CornerPattern, Vec<ScribeLine>) {
    let change = c.top_radius_mm - c.bottom_radius_mm;
    let arc = |radius_mm: f64| bend_allowance_mm(c.angle_deg, radius_mm, thickness_mm, c.k);
    let arc_mm = [arc(c.bottom_radius_mm), arc(c.top_radius_mm)];
    let (angle, heading) = (c.angle_deg.to_radians(), pen.heading);
    let step = angle / PARTS as f64;
    let turn = |at: f64| {
        let (sin, cos) = at.sin_cos();
        let lean = middle[0] * cos + middle[1] * sin + change;
        -lean / height_mm.hypot(lean)
    };
    let mut lines = vec![pen.line(run, across(height_mm, middle, change, 0.0))];
    for part in 0..PARTS {
        let at = part as f64 * step;
        let (a, b, c) = (turn(at), turn(at + step / 2.0), turn(at + step));
        let start = pen.heading;
        // Simpson's rule for the heading, half-way by the parabola through the same three, and again for the place.
        let half_way = start + step * (5.0 * a + 8.0 * b - c) / 24.0;
        let end = start + step * (a + 4.0 * b + c) / 6.0;
        let way = arc_mm[0] / PARTS as f64 / 6.0;
        for (weight, heading) in [(1.0, start), (4.0, half_way), (1.0, end)] {
            pen.heading = heading;
            pen.go(weight * way);
        }
        pen.heading = end;
        if (part + 1) % (PARTS / SCRIBED) == 0 {
            lines.push(pen.line(run, across(height_mm, middle, change, at + step)));
        }
    }
    let turned = pen.heading - heading;
    let chord = |of: &dyn Fn(&ScribeLine) -> [f64; 2]| match (lines.first(), lines.last()) {
        (Some(first), Some(last)) => distance(of(first), of(last)),
        _ => 0.0,
    };
    let slant = |line: Option<&ScribeLine>| line.map_or(0.0, |l| distance(l.bottom_mm, l.top_mm));
    let pattern = CornerPattern {
        arc_mm,
        developed_angle_deg: turned.to_degrees(),
        // A millionth of a radian over a corner is the rounding of a cylinder.
        developed_radius_mm: (turned.abs() > 1e-6).then(|| arc_mm.map(|arc| arc / turned.abs())),
        chord_mm: [chord(&|l| l.bottom_mm), chord(&|l| l.top_mm)],
        slant_mm: [slant(lines.first()), slant(lines.last())],
    };
    (pattern, lines)
}
