//! The half cross-section as a chain of straight lines and circular arcs, from its lowest point up the side to the crown.
//!
//! A point is so far from the centre line and so high above the ground. Going up the chain the body lies on the left, so
//! that a turn to the left bulges out. Areas are exact: by Green's theorem the area between chain and centre line is the
//! integral of the half width over the height, a trapezoid under each chord and a circular segment over it.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use crate::error::Problem;

use super::survey::{Heights, Side};

/// An arc that rises less than this over its chord counts as straight, mm: no tape tells them apart.
const FLAT_MM: f64 = 0.1;

/// Two places closer than this are one, mm.
const SAME_MM: f64 = 1e-6;

/// Near a joint two pieces always meet: a crossing must lie farther from it than this, mm.
const JOINT_MM: f64 = 0.1;

/// A joint turns by more than this to be listed as a kink, degrees.
const KINK_DEG: f64 = 1.0;

/// A place on the cross-section.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct At {
    /// Distance from the centre line, mm.
    pub half_mm: f64,
    /// Height above the ground, mm.
    pub z_mm: f64,
}

impl At {
    /// A place this far from the centre line and this high, mm.
    pub fn new(half_mm: f64, z_mm: f64) -> Self {
        Self { half_mm, z_mm }
    }

    /// Distance to another place, mm.
    pub fn to_mm(self, other: Self) -> f64 {
        (self.half_mm - other.half_mm).hypot(self.z_mm - other.z_mm)
    }

    fn moved(self, length_mm: f64, angle_rad: f64) -> Self {
        Self::new(self.half_mm + length_mm * angle_rad.cos(), self.z_mm + length_mm * angle_rad.sin())
    }

    fn towards(self, other: Self, share: f64) -> Self {
        Self::new(self.half_mm + (other.half_mm - self.half_mm) * share, self.z_mm + (other.z_mm - self.z_mm) * share)
    }

    /// Direction to another place, anticlockwise from outward, rad.
    fn angle_rad(self, other: Self) -> f64 {
        (other.z_mm - self.z_mm).atan2(other.half_mm - self.half_mm)
    }
}

/// Which way an arc bulges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Bulge {
    /// Out of the body; the centre lies inside.
    Out,
    /// Into the body; the centre lies outside.
    In,
}

/// Centre, radius and angles of an arc.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Bend {
    /// Centre.
    pub centre: At,
    /// Radius, mm.
    pub radius_mm: f64,
    /// Angle of its first point about the centre, rad, anticlockwise from outward.
    pub start_rad: f64,
    /// Angle from the first to the last point, rad; positive where it bulges out.
    pub sweep_rad: f64,
}

/// A straight line or an arc.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Piece {
    /// Lower end, nearer the start of the chain.
    pub from: At,
    /// Upper end.
    pub to: At,
    /// The arc; none for a straight line.
    pub bend: Option<Bend>,
}

/// The area between an arc and its chord, mm2.
///
/// # Example
/// ```
/// use raisedbody::body::outline::segment_area_mm2;
/// // A half circle of radius 2 mm.
/// assert!((segment_area_mm2(2.0, std::f64::consts::PI) - 2.0 * std::f64::consts::PI).abs() < 1e-12);
/// ```
pub fn segment_area_mm2(radius_mm: f64, angle_rad: f64) -> f64 {
    // For a small angle the difference of the two has no digits left: its series.
    let difference = if angle_rad.abs() < 1e-2 {
        angle_rad.powi(3) / 6.0 * (1.0 - angle_rad.powi(2) / 20.0)
    } else {
        angle_rad - angle_rad.sin()
    };
    radius_mm.powi(2) / 2.0 * difference
}

impl Piece {
    /// A straight line.
    pub fn line(from: At, to: At) -> Self {
        Self { from, to, bend: None }
    }

    /// An arc of at most half a circle; none where the radius is too small to reach from end to end.
    pub fn arc(from: At, to: At, radius_mm: f64, bulge: Bulge) -> Option<Self> {
        let chord_mm = from.to_mm(to);
        // A half circle whose radius was rounded still is one.
        if !(radius_mm > 0.0 && chord_mm <= 2.0 * radius_mm * (1.0 + 1e-12)) {
            return None;
        }
        let half_rad = (chord_mm / 2.0 / radius_mm).min(1.0).asin();
        if radius_mm * (1.0 - half_rad.cos()) < FLAT_MM {
            return Some(Self::line(from, to));
        }
        let turn = if bulge == Bulge::Out { 1.0 } else { -1.0 };
        // From the middle of the chord to the centre: to the left for an arc that bulges out.
        let to_centre_mm = radius_mm * half_rad.cos();
        let centre = from.towards(to, 0.5).moved(to_centre_mm, from.angle_rad(to) + turn * FRAC_PI_2);
        let bend = Bend { centre, radius_mm, start_rad: centre.angle_rad(from), sweep_rad: turn * 2.0 * half_rad };
        Some(Self { from, to, bend: Some(bend) })
    }

    /// The place at a share of the piece, 0 its first end and 1 its last.
    pub fn at(&self, share: f64) -> At {
        match self.bend {
            _ if share <= 0.0 => self.from,
            _ if share >= 1.0 => self.to,
            None => self.from.towards(self.to, share),
            Some(bend) => bend.centre.moved(bend.radius_mm, bend.start_rad + bend.sweep_rad * share),
        }
    }

    /// Its length, mm.
    pub fn length_mm(&self) -> f64 {
        self.bend.map_or_else(|| self.from.to_mm(self.to), |bend| bend.radius_mm * bend.sweep_rad.abs())
    }

    /// The integral of the half width over the height, mm2.
    fn area_mm2(&self) -> f64 {
        let chord = f64::midpoint(self.from.half_mm, self.to.half_mm) * (self.to.z_mm - self.from.z_mm);
        chord + self.bend.map_or(0.0, |bend| segment_area_mm2(bend.radius_mm, bend.sweep_rad))
    }

    /// The part between two shares.
    fn part(&self, first: f64, last: f64) -> Self {
        let bend = self.bend.map(|bend| Bend {
            start_rad: bend.start_rad + bend.sweep_rad * first,
            sweep_rad: bend.sweep_rad * (last - first),
            ..bend
        });
        Self { from: self.at(first), to: self.at(last), bend }
    }

    fn lifted(&self, up_mm: f64) -> Self {
        let up = |at: At| At::new(at.half_mm, at.z_mm + up_mm);
        let bend = self.bend.map(|bend| Bend { centre: up(bend.centre), ..bend });
        Self { from: up(self.from), to: up(self.to), bend }
    }

    /// The share at which an angle about the centre lies on the arc.
    fn share_of_angle(bend: Bend, angle_rad: f64) -> Option<f64> {
        let along = ((angle_rad - bend.start_rad) * bend.sweep_rad.signum()).rem_euclid(TAU);
        // Just short of the first end comes out as almost a full turn.
        let along = if TAU - along < 1e-9 { 0.0 } else { along };
        let share = along / bend.sweep_rad.abs();
        (share <= 1.0 + 1e-9).then_some(share.min(1.0))
    }

    /// Shares at which the piece is this high; a level line has none.
    fn shares_at_height(&self, z_mm: f64) -> Vec<f64> {
        match self.bend {
            None => share_between(self.from.z_mm, self.to.z_mm, z_mm),
            Some(bend) => {
                let sine = (z_mm - bend.centre.z_mm) / bend.radius_mm;
                let Some(angle) = within_one(sine).map(f64::asin) else { return Vec::new() };
                [angle, PI - angle].into_iter().filter_map(|angle| Self::share_of_angle(bend, angle)).collect()
            }
        }
    }

    /// Shares at which the piece is this far from the centre line; an upright line has none.
    fn shares_at_half_width(&self, half_mm: f64) -> Vec<f64> {
        match self.bend {
            None => share_between(self.from.half_mm, self.to.half_mm, half_mm),
            Some(bend) => {
                let cosine = (half_mm - bend.centre.half_mm) / bend.radius_mm;
                let Some(angle) = within_one(cosine).map(f64::acos) else { return Vec::new() };
                [angle, -angle].into_iter().filter_map(|angle| Self::share_of_angle(bend, angle)).collect()
            }
        }
    }

    /// The ends, and where an arc is level or upright.
    fn extremes(&self) -> impl Iterator<Item = At> {
        let turning = self.bend.into_iter().flat_map(|bend| {
            [0.0, FRAC_PI_2, PI, -FRAC_PI_2].into_iter().filter_map(move |angle| Self::share_of_angle(bend, angle))
        });
        let piece = *self;
        [0.0, 1.0].into_iter().chain(turning).map(move |share| piece.at(share))
    }

    /// The parts that lie from one height up to below another.
    fn parts_between(&self, low_mm: f64, high_mm: f64) -> Vec<Self> {
        let mut cuts = vec![0.0, 1.0];
        for z_mm in [low_mm, high_mm].into_iter().filter(|z| z.is_finite()) {
            cuts.extend(self.shares_at_height(z_mm));
        }
        cuts.sort_by(f64::total_cmp);
        let parts = cuts.windows(2).filter_map(|pair| match *pair {
            [first, last] if last > first => {
                let middle_mm = self.at(f64::midpoint(first, last)).z_mm;
                (low_mm <= middle_mm && middle_mm < high_mm).then(|| self.part(first, last))
            }
            _ => None,
        });
        parts.collect()
    }

    /// Rises from its first to its last end without a level stretch or a turn downwards.
    fn rises(&self) -> bool {
        let highest_mm = self.extremes().map(|at| at.z_mm).fold(f64::NEG_INFINITY, f64::max);
        let lowest_mm = self.extremes().map(|at| at.z_mm).fold(f64::INFINITY, f64::min);
        self.to.z_mm - self.from.z_mm > SAME_MM
            && highest_mm <= self.to.z_mm + SAME_MM
            && lowest_mm >= self.from.z_mm - SAME_MM
    }

    /// Direction at its first and its last end, rad.
    fn directions_rad(&self) -> (f64, f64) {
        match self.bend {
            None => {
                let along = self.from.angle_rad(self.to);
                (along, along)
            }
            Some(bend) => {
                let first = bend.start_rad + bend.sweep_rad.signum() * FRAC_PI_2;
                (first, first + bend.sweep_rad)
            }
        }
    }

    /// Distance from a place to the nearest place on the piece, mm.
    fn distance_mm(&self, place: At) -> f64 {
        let to_ends = place.to_mm(self.from).min(place.to_mm(self.to));
        match self.bend {
            None => {
                let (dx, dz) = (self.to.half_mm - self.from.half_mm, self.to.z_mm - self.from.z_mm);
                let square = dx * dx + dz * dz;
                if square <= 0.0 {
                    return to_ends;
                }
                let along = ((place.half_mm - self.from.half_mm) * dx + (place.z_mm - self.from.z_mm) * dz) / square;
                place.to_mm(self.from.towards(self.to, along.clamp(0.0, 1.0)))
            }
            Some(bend) => match Self::share_of_angle(bend, bend.centre.angle_rad(place)) {
                Some(_) => (bend.centre.to_mm(place) - bend.radius_mm).abs().min(to_ends),
                None => to_ends,
            },
        }
    }

    /// The same piece moved square to itself into the body, where it still exists.
    fn inside_by(&self, depth_mm: f64) -> Option<Self> {
        match self.bend {
            None => {
                let inward = self.from.angle_rad(self.to) + FRAC_PI_2;
                Some(Self::line(self.from.moved(depth_mm, inward), self.to.moved(depth_mm, inward)))
            }
            Some(bend) => {
                let radius_mm = bend.radius_mm - depth_mm * bend.sweep_rad.signum();
                let bend = Bend { radius_mm, ..bend };
                let on = |angle| bend.centre.moved(radius_mm, angle);
                let (from, to) = (on(bend.start_rad), on(bend.start_rad + bend.sweep_rad));
                (radius_mm > SAME_MM).then_some(Self { from, to, bend: Some(bend) })
            }
        }
    }

    /// Whether two pieces have a place in common, besides the joint they share.
    fn meets(&self, other: &Self, joint: Option<At>) -> bool {
        let on_both = |at: &At| self.distance_mm(*at) < SAME_MM && other.distance_mm(*at) < SAME_MM;
        let apart = |at: &At| joint.is_none_or(|joint| at.to_mm(joint) > JOINT_MM);
        // Pieces that lie on one line or one circle show by their ends.
        let ends = [self.from, self.to, other.from, other.to];
        ends.into_iter().chain(self.crossings_of_carriers(other)).any(|at| apart(&at) && on_both(&at))
    }

    /// Where the whole lines or circles of two pieces cross.
    fn crossings_of_carriers(&self, other: &Self) -> Vec<At> {
        match (self.bend, other.bend) {
            (None, None) => {
                let (a, b) = (self.from.angle_rad(self.to), other.from.angle_rad(other.to));
                let sine = (b - a).sin();
                if sine.abs() < 1e-12 {
                    return Vec::new();
                }
                let between = self.from.angle_rad(other.from);
                vec![self.from.moved(self.from.to_mm(other.from) * (b - between).sin() / sine, a)]
            }
            (None, Some(bend)) => line_through_circle(self, bend),
            (Some(bend), None) => line_through_circle(other, bend),
            (Some(one), Some(two)) => {
                let apart_mm = one.centre.to_mm(two.centre);
                if apart_mm < SAME_MM {
                    return Vec::new();
                }
                let cosine = (apart_mm.powi(2) + one.radius_mm.powi(2) - two.radius_mm.powi(2))
                    / (2.0 * apart_mm * one.radius_mm);
                let Some(angle) = within_one(cosine).map(f64::acos) else { return Vec::new() };
                let towards = one.centre.angle_rad(two.centre);
                vec![one.centre.moved(one.radius_mm, towards + angle), one.centre.moved(one.radius_mm, towards - angle)]
            }
        }
    }
}

fn line_through_circle(line: &Piece, bend: Bend) -> Vec<At> {
    let along = line.from.angle_rad(line.to);
    let to_centre = line.from.angle_rad(bend.centre) - along;
    let reach_mm = line.from.to_mm(bend.centre);
    let (foot_mm, off_mm) = (reach_mm * to_centre.cos(), reach_mm * to_centre.sin());
    let Some(half) = within_one(off_mm / bend.radius_mm).map(|sine| bend.radius_mm * (1.0 - sine * sine).sqrt()) else {
        return Vec::new();
    };
    vec![line.from.moved(foot_mm - half, along), line.from.moved(foot_mm + half, along)]
}

/// A sine or cosine; none where it is beyond one by more than rounding.
fn within_one(value: f64) -> Option<f64> {
    (value.abs() <= 1.0 + 1e-12).then(|| value.clamp(-1.0, 1.0))
}

/// The share at which a straight change from one value to another takes a third.
fn share_between(from: f64, to: f64, value: f64) -> Vec<f64> {
    let share = (value - from) / (to - from);
    if (0.0..=1.0).contains(&share) { vec![share] } else { Vec::new() }
}

/// A piece of the chain as taped: where it ends and how it gets there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taped {
    /// Where it starts, where this was taped too.
    pub from: Option<At>,
    /// Where it ends.
    pub to: At,
    /// Radius, mm, and which way it bulges; none for a straight line.
    pub arc: Option<(f64, Bulge)>,
}

/// What a chain must agree with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Half the outside width of the body, mm.
    pub half_width_mm: f64,
    /// Top of the floor, mm.
    pub floor_mm: f64,
    /// Drip rail, mm.
    pub drip_rail_mm: f64,
    /// Roof at its highest, where taped besides the chain, mm.
    pub crown_mm: Option<f64>,
    /// How closely all this was taped, mm.
    pub tape_mm: f64,
}

/// A place where the direction of the chain changes.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Kink {
    /// Where.
    pub at: At,
    /// By how much, degrees; positive turns inwards, going up.
    pub turn_deg: f64,
}

/// Half of a cross-section, from its lowest point to the crown on the centre line.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Outline {
    pieces: Vec<Piece>,
}

impl Outline {
    /// From heights and insets: upright from the floor to the window bottom, leaning in from there to the drip rail, and a
    /// roof in one arc through drip rail and crown that is level on the centre line.
    ///
    /// A roof higher than half the width at the drip rail stands upright there as far as it is higher, and is a quarter
    /// of a circle above that. `lean` is how far the side leans in per mm of height, which must leave a width at the drip
    /// rail.
    pub fn from_heights(half_width_mm: f64, heights: &Heights, lean: f64) -> Self {
        let top_half_mm = (half_width_mm - lean * (heights.drip_rail_mm - heights.window_bottom_mm)).max(0.0);
        let mut corners = vec![
            At::new(half_width_mm, heights.floor_mm),
            At::new(half_width_mm, heights.window_bottom_mm),
            At::new(top_half_mm, heights.drip_rail_mm),
        ];
        let rise_mm = heights.crown_mm - heights.drip_rail_mm;
        let arc_rise_mm = rise_mm.min(top_half_mm);
        let spring = At::new(top_half_mm, heights.crown_mm - arc_rise_mm);
        if rise_mm > top_half_mm {
            corners.push(spring);
        }
        let mut pieces: Vec<Piece> = corners
            .windows(2)
            .filter_map(|pair| match *pair {
                [from, to] if from.to_mm(to) > 0.0 => Some(Piece::line(from, to)),
                _ => None,
            })
            .collect();
        let crown = At::new(0.0, heights.crown_mm);
        // Through both, level at the crown: a2 + (R − h)2 = R2.
        let radius_mm = (top_half_mm.powi(2) + arc_rise_mm.powi(2)) / (2.0 * arc_rise_mm);
        pieces.push(Piece::arc(spring, crown, radius_mm, Bulge::Out).unwrap_or_else(|| Piece::line(spring, crown)));
        Self { pieces }
    }

    /// From a chain as taped.
    ///
    /// The chain begins at or below the floor, rises all the way from the floor to the drip rail, is as wide as the body,
    /// and ends on the centre line at the crown, its highest point. A start that was taped besides the end of the piece
    /// before counts as the same point where the tape's error allows. A kink is no fault.
    ///
    /// # Errors
    /// Everything in which the chain contradicts itself or the rest of the survey.
    pub fn from_chain(start: At, taped: &[Taped], frame: &Frame) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut pieces = Vec::new();
        let mut here = start;
        for (i, piece) in taped.iter().enumerate() {
            let path = format!("survey.outline.pieces[{i}]");
            let last = i + 1 == taped.len();
            // The crown is on the centre line by its nature: what the tape says of it is off by the tape's error.
            let to = if last && piece.to.half_mm <= frame.tape_mm { At::new(0.0, piece.to.z_mm) } else { piece.to };
            match joined(&path, here, piece, to, frame.tape_mm) {
                Ok(piece) => pieces.push(piece),
                Err(problem) => problems.push(problem),
            }
            here = to;
        }
        if taped.is_empty() {
            problems.push(Problem::missing("survey.outline.pieces", "write at least one piece that ends at the crown"));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let outline = Self { pieces };
        problems = outline.problems(start, taped, frame);
        if problems.is_empty() { Ok(outline) } else { Err(problems) }
    }

    fn problems(&self, start: At, taped: &[Taped], frame: &Frame) -> Vec<Problem> {
        let mut problems = Vec::new();
        let mut say = |path: String, value: String, problem: String| {
            problems.push(Problem::contradiction(path, value, problem));
        };
        let piece_path = |i: usize| format!("survey.outline.pieces[{i}]");
        let mm = |value: f64| format!("{value:.0} mm");
        if start.z_mm > frame.floor_mm + frame.tape_mm {
            let problem = format!("the chain must begin at or below the floor at {:.0} mm", frame.floor_mm);
            say("survey.outline.start.height".to_owned(), mm(start.z_mm), problem);
        }
        let end = self.crown();
        let last = piece_path(self.pieces.len().saturating_sub(1));
        if end.half_mm > 0.0 {
            let problem =
                "the chain must end on the centre line: tape on to the crown, where the half width is 0 mm".to_owned();
            say(format!("{last}.to.half_width"), mm(end.half_mm), problem);
        }
        if let Some(crown_mm) = frame.crown_mm.filter(|z| (z - end.z_mm).abs() > frame.tape_mm) {
            let problem = format!(
                "the chain ends {:+.0} mm from survey.crown at {crown_mm:.0} mm, more than the tape's error of {:.0} \
                 mm; tape one of them again",
                end.z_mm - crown_mm,
                frame.tape_mm
            );
            say(format!("{last}.to.height"), mm(end.z_mm), problem);
        }
        if end.z_mm <= frame.drip_rail_mm {
            let problem = format!("must lie above survey.drip_rail at {:.0} mm", frame.drip_rail_mm);
            say(format!("{last}.to.height"), mm(end.z_mm), problem);
        }
        for (i, (piece, taped)) in self.pieces.iter().zip(taped).enumerate() {
            let (path, value) = match taped.arc {
                Some((radius_mm, _)) => (format!("{}.radius", piece_path(i)), mm(radius_mm)),
                None => (format!("{}.to.height", piece_path(i)), mm(piece.to.z_mm)),
            };
            let inside = (frame.floor_mm + SAME_MM, frame.drip_rail_mm - SAME_MM);
            if !piece.parts_between(inside.0, inside.1).iter().all(Piece::rises) {
                let problem = format!(
                    "between the floor at {:.0} mm and the drip rail at {:.0} mm the posts stand: every piece must rise \
                     there",
                    frame.floor_mm, frame.drip_rail_mm
                );
                say(path.clone(), value.clone(), problem);
            }
            let nearest_mm = piece.extremes().map(|at| at.half_mm).fold(f64::INFINITY, f64::min);
            if nearest_mm < -SAME_MM {
                let problem = format!(
                    "this piece crosses the centre line by {:.0} mm; the chain is one half of the section",
                    -nearest_mm
                );
                say(path.clone(), value.clone(), problem);
            }
            let highest_mm = piece.extremes().map(|at| at.z_mm).fold(f64::NEG_INFINITY, f64::max);
            if highest_mm > end.z_mm + frame.tape_mm {
                let problem = format!(
                    "this piece rises to {highest_mm:.0} mm, above the end of the chain at {:.0} mm; the crown is the \
                     highest point",
                    end.z_mm
                );
                say(path, value, problem);
            }
        }
        let widest_mm = self.widest_mm();
        if (widest_mm - frame.half_width_mm).abs() > frame.tape_mm {
            let problem = format!(
                "the body is {:.0} mm wide, half of that is {:.0} mm, and the tape's error {:.0} mm; tape the width again",
                2.0 * frame.half_width_mm,
                frame.half_width_mm,
                frame.tape_mm
            );
            say("survey.outline".to_owned(), format!("at its widest {widest_mm:.0} mm from the centre line"), problem);
        }
        if !problems.is_empty() {
            return problems;
        }
        for (j, other) in self.pieces.iter().enumerate() {
            let mut earlier = self.pieces.iter().take(j).enumerate();
            if let Some((i, _)) = earlier.find(|(i, one)| one.meets(other, (i + 1 == j).then_some(one.to))) {
                problems.push(Problem::contradiction(
                    format!("{}.to", piece_path(j)),
                    place(other.to),
                    format!("this piece crosses or touches {}; check both ends of each", piece_path(i)),
                ));
            }
        }
        problems
    }

    /// Its lines and arcs, from the lowest point to the crown.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Where it begins.
    pub fn start(&self) -> At {
        self.pieces.first().map_or(At::new(0.0, 0.0), |piece| piece.from)
    }

    /// Where it ends, on the centre line.
    pub fn crown(&self) -> At {
        self.pieces.last().map_or(At::new(0.0, 0.0), |piece| piece.to)
    }

    /// Its greatest distance from the centre line, mm.
    pub fn widest_mm(&self) -> f64 {
        self.pieces.iter().flat_map(Piece::extremes).map(|at| at.half_mm).fold(0.0, f64::max)
    }

    /// Half the width at a height, mm: the outermost point there; below the chain that of its start, above it 0.
    pub fn half_width_mm(&self, z_mm: f64) -> f64 {
        let here =
            self.pieces.iter().flat_map(|p| p.shares_at_height(z_mm).into_iter().map(|share| p.at(share).half_mm));
        match here.reduce(f64::max) {
            Some(half_mm) => half_mm.max(0.0),
            None if z_mm < self.crown().z_mm => self.start().half_mm,
            None => 0.0,
        }
    }

    /// Height of the outside at a distance from the centre line, mm: the highest point there; none beyond the side.
    pub fn height_mm(&self, half_mm: f64) -> Option<f64> {
        let here =
            self.pieces.iter().flat_map(|p| p.shares_at_half_width(half_mm).into_iter().map(|share| p.at(share).z_mm));
        let ends = self.pieces.iter().flat_map(|p| [p.from, p.to]).filter(|at| (at.half_mm - half_mm).abs() < SAME_MM);
        here.chain(ends.map(|at| at.z_mm)).reduce(f64::max)
    }

    fn between(&self, low_mm: f64, high_mm: f64) -> impl Iterator<Item = Piece> {
        self.pieces.iter().flat_map(move |piece| piece.parts_between(low_mm, high_mm))
    }

    /// Length of the chain from one height up to below another, mm: the developed width of a skin there.
    pub fn length_mm(&self, low_mm: f64, high_mm: f64) -> f64 {
        self.between(low_mm, high_mm).map(|piece| piece.length_mm()).sum()
    }

    /// Area between chain and centre line from one height to another, mm2; nothing is added below its start.
    pub fn area_mm2(&self, low_mm: f64, high_mm: f64) -> f64 {
        self.between(low_mm, high_mm).map(|piece| piece.area_mm2()).sum()
    }

    /// Cut in two where it first passes a height going up.
    pub fn split(&self, z_mm: f64) -> (Self, Self) {
        let (mut lower, mut upper) = (Vec::new(), Vec::new());
        for piece in &self.pieces {
            let share = piece.shares_at_height(z_mm).into_iter().find(|_| piece.from.z_mm < z_mm);
            match share.filter(|_| upper.is_empty()) {
                Some(share) if share < 1.0 => {
                    lower.push(piece.part(0.0, share));
                    upper.push(piece.part(share, 1.0));
                }
                _ if upper.is_empty() && piece.from.z_mm < z_mm => lower.push(*piece),
                _ => upper.push(*piece),
            }
        }
        (Self { pieces: lower }, Self { pieces: upper })
    }

    /// After a raise: split at the cut, what is above it lifted as one body, and straight up in between.
    #[must_use]
    pub fn raised(&self, cut_mm: f64, rise_mm: f64) -> Self {
        let (lower, upper) = self.split(cut_mm);
        let foot = upper.pieces.first().map_or_else(|| self.crown(), |piece| piece.from);
        let insert = Piece::line(foot, At::new(foot.half_mm, foot.z_mm + rise_mm));
        let lifted = upper.pieces.iter().map(|piece| piece.lifted(rise_mm));
        Self { pieces: lower.pieces.into_iter().chain([insert]).chain(lifted).collect() }
    }

    /// Distance from a place to the outline, mm.
    pub fn distance_mm(&self, place: At) -> f64 {
        self.pieces.iter().map(|piece| piece.distance_mm(place)).fold(f64::INFINITY, f64::min)
    }

    /// Clear height over a floor at a distance from the centre line, mm, under a lining of even thickness inside the
    /// whole outline; none where the lining or the side stands in the way.
    pub fn clear_height_mm(&self, half_mm: f64, floor_mm: f64, lining_mm: f64) -> Option<f64> {
        let foot = At::new(half_mm, floor_mm);
        // A body symmetrical about the centre line has the same outline on the other side, farther away.
        let inside = half_mm < self.half_width_mm(floor_mm) && floor_mm < self.height_mm(half_mm)?;
        if !inside || self.distance_mm(foot) < lining_mm {
            return None;
        }
        let ceiling = self.pieces.iter().flat_map(|piece| {
            let round = |centre: At| {
                let off_mm = half_mm - centre.half_mm;
                let half_chord = within_one(off_mm / lining_mm).map(|sine| lining_mm * (1.0 - sine * sine).sqrt());
                half_chord.into_iter().flat_map(move |h| [centre.z_mm - h, centre.z_mm + h])
            };
            let faces = [lining_mm, -lining_mm].into_iter().filter_map(|depth| piece.inside_by(depth));
            let on_faces = faces.flat_map(|face| {
                face.shares_at_half_width(half_mm).into_iter().map(move |share| face.at(share).z_mm).collect::<Vec<_>>()
            });
            round(piece.from).chain(round(piece.to)).chain(on_faces).collect::<Vec<_>>()
        });
        let bare = self.height_mm(half_mm).filter(|_| lining_mm <= 0.0);
        ceiling.chain(bare).filter(|z| *z >= floor_mm).reduce(f64::min).map(|z| z - floor_mm)
    }

    /// Joints at which the direction changes by more than 1 degree; at the crown, against the other half.
    pub fn kinks(&self) -> Vec<Kink> {
        let turn = |from: f64, to: f64| ((to - from + PI).rem_euclid(TAU) - PI).to_degrees();
        let joints = self.pieces.windows(2).filter_map(|pair| match pair {
            [one, other] => Some(Kink { at: one.to, turn_deg: turn(one.directions_rad().1, other.directions_rad().0) }),
            _ => None,
        });
        let crown = self.pieces.last().map(|piece| {
            let direction = piece.directions_rad().1;
            // The other half goes down as this one goes up.
            Kink { at: piece.to, turn_deg: 2.0 * turn(direction, PI) }
        });
        joints.chain(crown).filter(|kink| kink.turn_deg.abs() > KINK_DEG).collect()
    }

    /// Places along the chain, close enough that no chord misses its arc by more than this, mm.
    pub fn points(&self, miss_mm: f64) -> Vec<At> {
        let mut points: Vec<At> = self.pieces.first().map(|piece| piece.from).into_iter().collect();
        for piece in &self.pieces {
            let steps = piece.bend.map_or(1, |bend| {
                let step_rad = 2.0 * (1.0 - miss_mm.max(1e-3) / bend.radius_mm).clamp(0.0, 1.0).acos();
                ((bend.sweep_rad.abs() / step_rad).ceil() as usize).clamp(1, 1000)
            });
            points.extend((1..=steps).map(|step| piece.at(step as f64 / steps as f64)));
        }
        points
    }
}

/// A place in words.
fn place(at: At) -> String {
    format!("{:.0} mm from the centre line at {:.0} mm", at.half_mm, at.z_mm)
}

/// One piece from where the chain has come to.
fn joined(path: &str, here: At, taped: &Taped, to: At, tape_mm: f64) -> Result<Piece, Problem> {
    if let Some(from) = taped.from.filter(|from| from.to_mm(here) > tape_mm) {
        return Err(Problem::contradiction(
            format!("{path}.from"),
            place(from),
            format!(
                "the piece before ends {}, {:.0} mm away, more than the tape's error of {tape_mm:.0} mm: the pieces do not \
                 meet; tape that point again",
                place(here),
                from.to_mm(here)
            ),
        ));
    }
    let chord_mm = here.to_mm(to);
    if chord_mm <= JOINT_MM {
        return Err(Problem::contradiction(
            format!("{path}.to"),
            place(to),
            "the piece ends where it starts; leave it out",
        ));
    }
    let Some((radius_mm, bulge)) = taped.arc else { return Ok(Piece::line(here, to)) };
    // A half circle taped a little too small is still a half circle.
    let reached_mm = if radius_mm + tape_mm >= chord_mm / 2.0 { radius_mm.max(chord_mm / 2.0) } else { radius_mm };
    Piece::arc(here, to, reached_mm, bulge).ok_or_else(|| {
        Problem::contradiction(
            format!("{path}.radius"),
            format!("{radius_mm:.0} mm"),
            format!(
                "the arc cannot reach: its ends are {chord_mm:.0} mm apart, so that the radius is at least {:.0} mm",
                (chord_mm / 2.0).ceil()
            ),
        )
    })
}

/// A whole cross-section: its left and its right half, which end at one crown.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct CrossSection {
    /// Left half.
    pub left: Outline,
    /// Right half.
    pub right: Outline,
}

impl CrossSection {
    /// One of the halves.
    pub fn half(&self, side: Side) -> &Outline {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }

    fn sum(&self, of: impl Fn(&Outline) -> f64) -> f64 {
        of(&self.left) + of(&self.right)
    }

    /// Area above a height, m2, as far down as the outline goes.
    pub fn area_m2(&self, above_mm: f64) -> f64 {
        self.sum(|half| half.area_mm2(above_mm, f64::INFINITY)) / 1e6
    }

    /// Frontal area above a clearance over the ground, m2. Where the outline ends higher than that, its lowest width goes
    /// on straight down; wheels and axles below the clearance are not in it.
    pub fn frontal_area_m2(&self, clearance_mm: f64) -> f64 {
        let below = |half: &Outline| half.start().half_mm * (half.start().z_mm - clearance_mm).max(0.0);
        self.sum(|half| half.area_mm2(clearance_mm, f64::INFINITY) + below(half)) / 1e6
    }

    /// Developed width of both sides together from one height up to below another, mm.
    pub fn length_mm(&self, low_mm: f64, high_mm: f64) -> f64 {
        self.sum(|half| half.length_mm(low_mm, high_mm))
    }

    /// After a raise.
    #[must_use]
    pub fn raised(&self, cut_mm: f64, rise_mm: f64) -> Self {
        Self { left: self.left.raised(cut_mm, rise_mm), right: self.right.raised(cut_mm, rise_mm) }
    }

    /// Clear height at a distance to either side of the centre line, mm: the lower of the two.
    pub fn clear_height_mm(&self, half_mm: f64, floor_mm: f64, lining_mm: f64) -> Option<f64> {
        let of = |half: &Outline| half.clear_height_mm(half_mm, floor_mm, lining_mm);
        Some(of(&self.left)?.min(of(&self.right)?))
    }

    /// Thickness of the roof from a ceiling on the centre line to the nearest outside, mm.
    pub fn roof_thickness_mm(&self, ceiling_mm: f64) -> f64 {
        let ceiling = At::new(0.0, ceiling_mm);
        self.left.distance_mm(ceiling).min(self.right.distance_mm(ceiling))
    }

    /// Places around the section for drawing, mm left of the middle (right is negative) and mm above the ground: from the
    /// foot of the left side over the crown to the foot of the right one.
    pub fn points_mm(&self, miss_mm: f64) -> Vec<(f64, f64)> {
        let left = self.left.points(miss_mm).into_iter().map(|at| (at.half_mm, at.z_mm));
        // The crown is there once.
        let right = self.right.points(miss_mm).into_iter().rev().skip(1).map(|at| (-at.half_mm, at.z_mm));
        left.chain(right).collect()
    }
}
