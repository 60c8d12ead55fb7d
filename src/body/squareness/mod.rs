//! Whether the roof went up square: what is measured before the cut, after the lift and after tacking, and the motion of
//! the roof fitted to it.
//!
//! Measured are heights, plumb lines, strings, gaps and diagonals at the posts of both sides, all against marks on the body
//! below the cut, which must not move on its springs meanwhile. The roof moves as a rigid body and changes its shape in the
//! four ways that a roof without posts can: it twists, racks, spreads and sags ([`Parameter`]). The fit is weighted least
//! squares; the measuring errors are carried through it. Readings that contradict each other beyond their errors are
//! refused.

mod advice;
mod fit;
mod motion;

use std::collections::BTreeMap;

use crate::error::{Problem, by_name};

use super::survey::Side;

pub use advice::{Corner, CornerMove, Decision, Move, Squareness, Step, StepMoves, Tolerances, corners};
pub use fit::{Estimate, Measured, Residual, Unused};
pub use motion::{PARAMETERS, Parameter};

/// When the measure-up is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Stage {
    /// Before the first post is cut: what the later readings are compared with.
    BeforeCut,
    /// The roof up on its supports, nothing welded.
    AfterLift,
    /// Inserts tacked, supports still in.
    AfterTacking,
}

impl Stage {
    /// In the order of the work.
    pub const ALL: [Self; 3] = [Self::BeforeCut, Self::AfterLift, Self::AfterTacking];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::BeforeCut => "before cut",
            Self::AfterLift => "after lift",
            Self::AfterTacking => "after tacking",
        }
    }

    /// Whether the roof is up.
    pub fn lifted(self) -> bool {
        self != Self::BeforeCut
    }

    /// What the measure-up decides, and before what it is done.
    pub fn purpose(self) -> &'static str {
        match self {
            Self::BeforeCut => {
                "before the first post is cut, with braces and supports set: the readings that all later ones are \
                 compared with"
            }
            Self::AfterLift => "with the roof up and held, before anything is welded and before any support comes out",
            Self::AfterTacking => {
                "with the inserts tacked, before the welds are finished and before any support comes out"
            }
        }
    }
}

impl std::str::FromStr for Stage {
    type Err = Problem;

    fn from_str(name: &str) -> Result<Self, Problem> {
        by_name("stage", "stage", name, &Self::ALL, Self::name)
    }
}

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
pub enum ReadingKind {
    /// Height of the drip rail at a post.
    Height,
    /// Plumb bob from the drip rail, across the bus.
    PlumbAcross,
    /// Plumb bob from the drip rail, along the bus.
    PlumbAlong,
    /// String along a side.
    String,
    /// Gap at the cut, between punch marks.
    Gap,
    /// Diagonal in plan, from drip rail to drip rail.
    Diagonal,
    /// Width at a bow, from drip rail to drip rail.
    Width,
    /// Diagonal across the bus at a bow, from drip rail to floor.
    Cross,
}

impl ReadingKind {
    /// In the order of the form.
    pub const ALL: [Self; 8] = [
        Self::Height,
        Self::PlumbAcross,
        Self::PlumbAlong,
        Self::String,
        Self::Gap,
        Self::Diagonal,
        Self::Width,
        Self::Cross,
    ];

    /// Its name: the first words of a reading's own name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Height => "height",
            Self::PlumbAcross => "plumb across",
            Self::PlumbAlong => "plumb along",
            Self::String => "string",
            Self::Gap => "gap",
            Self::Diagonal => "diagonal",
            Self::Width => "width",
            Self::Cross => "cross",
        }
    }

    /// How it is measured, with its sign.
    pub fn how(self) -> &'static str {
        match self {
            Self::Height => "upright, from the floor mark to the lower edge of the drip rail",
            Self::PlumbAcross => {
                "bob hung from the drip rail, tip against the floor mark: outward +, inward −, as seen from inside the bus"
            }
            Self::PlumbAlong => "bob hung from the drip rail, tip against the floor mark: forward +, back −",
            Self::String => {
                "string along the side, level with the drip rail, set 150 mm (5-29/32 in) outward of plumb with the floor \
                 marks at both end posts: from the string in to the drip rail"
            }
            Self::Gap => "along the post, between the punch marks above and below the cut line",
            Self::Diagonal => "in plan, from drip rail to drip rail, tape pulled straight",
            Self::Width => "across the bus, from drip rail to drip rail",
            Self::Cross => "across the bus at a bow, from the drip rail down to the floor mark of the other side",
        }
    }
}

/// Measuring errors, one standard deviation each, mm: two readings of the same thing differ by less than 2.8 of it nineteen
/// times of twenty.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Errors {
    /// Of a height.
    pub height_mm: f64,
    /// Of a plumb line, across or along.
    pub plumb_mm: f64,
    /// Of a distance from the string.
    pub string_mm: f64,
    /// Of each end of the string against the floor marks, each time it is set.
    pub string_setting_mm: f64,
    /// Of a gap between punch marks.
    pub gap_mm: f64,
    /// Of a diagonal or a width.
    pub diagonal_mm: f64,
}

impl Errors {
    /// The same error of every kind.
    pub fn all(mm: f64) -> Self {
        Self { height_mm: mm, plumb_mm: mm, string_mm: mm, string_setting_mm: mm, gap_mm: mm, diagonal_mm: mm }
    }

    /// Of this kind of reading, mm.
    pub fn of(&self, kind: ReadingKind) -> f64 {
        match kind {
            ReadingKind::Height => self.height_mm,
            ReadingKind::PlumbAcross | ReadingKind::PlumbAlong => self.plumb_mm,
            ReadingKind::String => self.string_mm,
            ReadingKind::Gap => self.gap_mm,
            ReadingKind::Diagonal | ReadingKind::Width | ReadingKind::Cross => self.diagonal_mm,
        }
    }
}

/// A pair of posts that is measured.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Station {
    /// Number of the post, from the rear.
    pub post: usize,
    /// Forward of the rear face of the body, mm.
    pub x_mm: f64,
    /// Centre line to the floor mark, left and right, mm.
    pub floor_half_mm: [f64; 2],
    /// Centre line to the drip rail, left and right, mm.
    pub drip_half_mm: [f64; 2],
}

/// What is measured where: needs no plan.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Layout {
    stations: Vec<Station>,
    floor_mm: f64,
    drip_rail_mm: f64,
    raise_mm: f64,
    errors: Errors,
}

/// A string stands off this far, mm.
const STAND_OFF_MM: f64 = 150.0;

/// Readings by name, mm.
pub type Readings = BTreeMap<String, f64>;

/// One line of the form.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Reading {
    /// What it is called: `height L3` is the height at the left post 3.
    pub name: String,
    /// What is measured.
    pub kind: ReadingKind,
    /// From where.
    pub from: String,
    /// To where.
    pub to: String,
    /// What it should be by survey and raise, mm; none where the shop chooses the marks.
    pub expected_mm: Option<f64>,
    /// Standard deviation, mm.
    pub error_mm: f64,
    pub(in crate::body::squareness) target: Target,
}

/// Where a reading is taken; numbers are places in [`Layout`]'s row of stations.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub(in crate::body::squareness) enum Target {
    Post(usize, Side),
    /// From the drip rail of one to that of the other.
    Between((usize, Side), (usize, Side)),
    /// From the drip rail of this side to the other side's floor mark.
    Down(usize, Side),
}

fn letter(side: Side) -> char {
    match side {
        Side::Left => 'L',
        Side::Right => 'R',
    }
}

pub(in crate::body::squareness) fn other(side: Side) -> Side {
    match side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    }
}

/// Of a pair of values the one of this side.
pub(in crate::body::squareness) fn on(side: Side, [left, right]: [f64; 2]) -> f64 {
    match side {
        Side::Left => left,
        Side::Right => right,
    }
}

impl Layout {
    /// Stations from the rear to the front, heights of floor and drip rail before the raise, how far the roof goes up.
    ///
    /// # Errors
    /// Fewer than two stations, stations out of order, sizes or errors that cannot be.
    pub fn new(
        stations: Vec<Station>,
        (floor_mm, drip_rail_mm): (f64, f64),
        raise_mm: f64,
        errors: Errors,
    ) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        if stations.len() < 2 {
            let fix =
                "a roof's attitude shows at two pairs of posts at least: the rearmost and the foremost raised ones";
            problems.push(Problem::missing("stations", fix));
        }
        for (i, pair) in stations.windows(2).enumerate() {
            if let [rear, front] = pair
                && (front.x_mm - rear.x_mm < 10.0 || front.post <= rear.post)
            {
                let problem =
                    format!("must stand ahead of the one before, at {:.0} mm; list them from the rear", rear.x_mm);
                let path = format!("stations[{}]", i + 1);
                problems.push(Problem::contradiction(
                    path,
                    format!("post {}, {:.0} mm", front.post, front.x_mm),
                    problem,
                ));
            }
        }
        let mut range = |path: String, value: f64, least: f64, most: f64| {
            if !(least..=most).contains(&value) {
                problems.push(Problem::out_of_range(path, format!("{value} mm"), format!("{least} mm to {most} mm")));
            }
        };
        for (i, station) in stations.iter().enumerate() {
            range(format!("stations[{i}].x_mm"), station.x_mm, -1000.0, 25_000.0);
            for half_mm in station.floor_half_mm.into_iter().chain(station.drip_half_mm) {
                range(format!("stations[{i}].half_mm"), half_mm, 100.0, 2000.0);
            }
        }
        range("floor_mm".to_owned(), floor_mm, -1000.0, 3000.0);
        range("drip_rail_mm".to_owned(), drip_rail_mm, floor_mm + 100.0, 5000.0);
        range("raise_mm".to_owned(), raise_mm, 0.0, 2000.0);
        let named = [
            ("height", errors.height_mm),
            ("plumb", errors.plumb_mm),
            ("string", errors.string_mm),
            ("string_setting", errors.string_setting_mm),
            ("gap", errors.gap_mm),
            ("diagonal", errors.diagonal_mm),
        ];
        for (name, mm) in named {
            range(format!("errors.{name}"), mm, LEAST_ERROR_MM, MOST_ERROR_MM);
        }
        if problems.is_empty() {
            Ok(Self { stations, floor_mm, drip_rail_mm, raise_mm, errors })
        } else {
            Err(problems)
        }
    }

    /// The pairs of posts, from the rear.
    pub fn stations(&self) -> &[Station] {
        &self.stations
    }

    /// The measuring errors.
    pub fn errors(&self) -> &Errors {
        &self.errors
    }

    /// From the rearmost to the foremost station, mm: the length that pitch, yaw, twist and sag are told over.
    pub fn length_mm(&self) -> f64 {
        match (self.stations.first(), self.stations.last()) {
            (Some(rear), Some(front)) => front.x_mm - rear.x_mm,
            _ => 0.0,
        }
    }

    /// From drip rail to drip rail, the mean of the stations, mm: the width that roll, twist, racking and spread are told
    /// over.
    pub fn width_mm(&self) -> f64 {
        let sum: f64 = self.stations.iter().map(|s| s.drip_half_mm[0] + s.drip_half_mm[1]).sum();
        sum / self.stations.len().max(1) as f64
    }

    /// Every reading of a stage, in the order of the form.
    pub fn readings(&self, stage: Stage) -> Vec<Reading> {
        let rise_mm = if stage.lifted() { self.raise_mm } else { 0.0 };
        let mut all = Vec::new();
        for kind in ReadingKind::ALL {
            match kind {
                ReadingKind::Diagonal => all.extend(self.diagonals(kind)),
                ReadingKind::Width => all.extend(self.bows().map(|i| self.width(kind, i))),
                ReadingKind::Cross => {
                    let each = self.bows().flat_map(|i| Side::BOTH.map(|side| (i, side)));
                    all.extend(each.map(|(i, side)| self.cross(kind, i, side, rise_mm)));
                }
                _ => {
                    for side in Side::BOTH {
                        let posts = 0..self.stations.len();
                        all.extend(posts.filter_map(|i| self.at_post(kind, i, side, rise_mm)));
                    }
                }
            }
        }
        all
    }

    fn reading(&self, kind: ReadingKind, of: &str, (from, to): (String, String), target: Target) -> Reading {
        let name = format!("{} {of}", kind.name());
        Reading { name, kind, from, to, expected_mm: None, error_mm: self.errors.of(kind), target }
    }

    fn at_post(&self, kind: ReadingKind, i: usize, side: Side, rise_mm: f64) -> Option<Reading> {
        let station = self.stations.get(i)?;
        let post = format!("{}{}", letter(side), station.post);
        let lean_in_mm = on(side, station.floor_half_mm) - on(side, station.drip_half_mm);
        let (floor, drip) = (format!("floor mark {post}"), format!("drip rail {post}"));
        let (ends, expected_mm) = match kind {
            ReadingKind::Height => ((floor, drip), Some(self.drip_rail_mm - self.floor_mm + rise_mm)),
            ReadingKind::PlumbAcross => ((floor, format!("bob from {drip}")), Some(-lean_in_mm)),
            ReadingKind::PlumbAlong => ((floor, format!("bob from {drip}")), Some(0.0)),
            ReadingKind::String => ((format!("string, {}", side.name()), drip), Some(STAND_OFF_MM + lean_in_mm)),
            _ => ((format!("punch mark below the cut, {post}"), format!("punch mark above, {post}")), None),
        };
        let reading = self.reading(kind, &post, ends, Target::Post(i, side));
        Some(Reading { expected_mm, ..reading })
    }

    /// Places of the stations where the bow is measured across: rearmost, middle, foremost.
    fn bows(&self) -> impl Iterator<Item = usize> {
        let last = self.stations.len().saturating_sub(1);
        [Some(0), Some(last / 2).filter(|&m| m > 0), Some(last).filter(|&l| l > 0)].into_iter().flatten()
    }

    fn width(&self, kind: ReadingKind, i: usize) -> Reading {
        let (of, width_mm) = self.stations.get(i).map_or((0, 0.0), |s| (s.post, s.drip_half_mm[0] + s.drip_half_mm[1]));
        let ends = (format!("drip rail L{of}"), format!("drip rail R{of}"));
        let target = Target::Between((i, Side::Left), (i, Side::Right));
        let reading = self.reading(kind, &of.to_string(), ends, target);
        Reading { expected_mm: Some(width_mm), ..reading }
    }

    fn diagonals(&self, kind: ReadingKind) -> Vec<Reading> {
        let last = self.stations.len().saturating_sub(1);
        let (Some(rear), Some(front)) = (self.stations.first(), self.stations.get(last)) else { return Vec::new() };
        let one = |side: Side| {
            let far = other(side);
            let names = (format!("{}{}", letter(side), rear.post), format!("{}{}", letter(far), front.post));
            let across_mm = on(side, rear.drip_half_mm) + on(far, front.drip_half_mm);
            let ends = (format!("drip rail {}", names.0), format!("drip rail {}", names.1));
            let target = Target::Between((0, side), (last, far));
            let reading = self.reading(kind, &format!("{}-{}", names.0, names.1), ends, target);
            Reading { expected_mm: Some(self.length_mm().hypot(across_mm)), ..reading }
        };
        Side::BOTH.map(one).into()
    }

    fn cross(&self, kind: ReadingKind, i: usize, side: Side, rise_mm: f64) -> Reading {
        let far = other(side);
        let station = self.stations.get(i);
        let of = station.map_or(0, |s| s.post);
        let across_mm = station.map_or(0.0, |s| on(side, s.drip_half_mm) + on(far, s.floor_half_mm));
        let up_mm = self.drip_rail_mm - self.floor_mm + rise_mm;
        let ends = (format!("drip rail {}{of}", letter(side)), format!("floor mark {}{of}", letter(far)));
        let reading = self.reading(kind, &format!("{}{of}", letter(side)), ends, Target::Down(i, side));
        Reading { expected_mm: Some(across_mm.hypot(up_mm)), ..reading }
    }

    /// What is wrong with readings of a stage: names that are not on the form, numbers that are none.
    ///
    /// `argument` is what the readings are called: a problem's field is `argument.name`.
    pub fn reading_problems(&self, argument: &str, stage: Stage, readings: &Readings) -> Vec<Problem> {
        let form = self.readings(stage);
        let names = || form.iter().map(|reading| reading.name.as_str());
        let mut problems = Vec::new();
        for (name, mm) in readings {
            let path = format!("{argument}.{name}");
            if !names().any(|known| known == name) {
                problems.push(Problem::unknown_name(path, "reading", name, names()));
            } else if !(-MOST_READING_MM..=MOST_READING_MM).contains(mm) {
                let allowed = format!("-{MOST_READING_MM} mm to {MOST_READING_MM} mm");
                problems.push(Problem::out_of_range(path, format!("{mm} mm"), allowed));
            }
        }
        problems
    }
}

/// Errors that a reading can have, mm.
pub const LEAST_ERROR_MM: f64 = 0.05;
/// The most.
pub const MOST_ERROR_MM: f64 = 50.0;
/// Longest that is measured, mm.
const MOST_READING_MM: f64 = 30_000.0;
