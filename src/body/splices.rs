//! How an insert is joined to the post above and below the cut: whether it nests, how far its face stands back, what leaning
//! sides do to it, what each of its fasteners carries, and the list it is cut from.
//!
//! Sizes are outside sizes; depth is square to the skin, width along it. An insert inside a post is pushed against the wall on
//! the skin's side; in a hat, which is open there, it lies flush with the flanges.

use crate::error::Problem;
use crate::mechanics::joint::group::{InPlaneLoad, RivetGroup};

use super::raise::{Raise, RaisedBody};
use super::survey::{Side, Survey};

/// Shape of a post or of an insert.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Shape {
    /// Closed rectangle.
    Tube,
    /// Crown away from the skin, two webs, two flanges on the skin; open towards the skin.
    Hat,
    /// Web square to the skin, two flanges turned the same way along it; open to one side.
    Channel,
}

/// A post or an insert, as far as one goes into the other.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct SplicePart {
    /// Shape.
    pub shape: Shape,
    /// Outside depth, mm.
    pub depth_mm: f64,
    /// Outside width of a tube, of a hat's crown, or of a channel's flanges, mm.
    pub width_mm: f64,
    /// Width of each flange of a hat beyond its web, mm.
    pub flange_mm: f64,
    /// Wall, mm.
    pub wall_mm: f64,
    /// Outside radius of the corners, mm.
    pub corner_mm: f64,
    /// How far depth and width may be off, mm.
    pub tolerance_mm: f64,
}

/// Where the insert goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Fit {
    /// Into the post.
    Inside,
    /// Over the post, as a sleeve.
    Over,
}

impl Fit {
    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Inside => "inside",
            Self::Over => "over",
        }
    }
}

/// Room of one part in another in one direction, mm, both faces together.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Room {
    /// Size of the inner part with its tolerance.
    pub needed_mm: f64,
    /// Size of the hollow less its tolerance.
    pub there_mm: f64,
    /// Hollow less inner part, without tolerances.
    pub nominal_mm: f64,
}

impl Room {
    fn new(inner_mm: f64, inner_off_mm: f64, hollow_mm: f64, hollow_off_mm: f64) -> Self {
        let (needed_mm, there_mm) = (inner_mm + inner_off_mm, hollow_mm - hollow_off_mm);
        Self { needed_mm, there_mm, nominal_mm: hollow_mm - inner_mm }
    }

    /// Room with both tolerances against it; below nought the parts interfere by so much.
    pub fn least_mm(&self) -> f64 {
        self.there_mm - self.needed_mm
    }
}

/// The round inside corner of the outer part against the corner of the inner one, which stands in the middle.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Corner {
    /// How far the inner part's corner reaches from the centre of the round, mm, with both tolerances against it.
    pub reach_mm: f64,
    /// Inside radius, mm.
    pub radius_mm: f64,
}

/// One part in another.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Nesting {
    /// Along the skin: on each face beside half of it.
    pub beside: Room,
    /// Square to the skin.
    pub depth: Room,
    /// The corners; none where the faces meet first.
    pub corner: Option<Corner>,
    /// Gap at the wall on the skin's side, mm, where the corners hold the insert off it.
    pub held_off_mm: f64,
    /// How far the insert's outer face stands back from the post's, mm; below nought it stands proud.
    pub step_mm: f64,
    /// Walls beside, square to the skin, that both parts have.
    pub walls_beside: usize,
    /// Water that gets in does not get out by itself.
    pub closed: bool,
}

impl Nesting {
    /// It goes in with every tolerance against it.
    pub fn fits(&self) -> bool {
        let corner = self.corner.is_none_or(|c| c.reach_mm <= c.radius_mm);
        self.beside.least_mm() >= 0.0 && self.depth.least_mm() >= 0.0 && corner
    }
}

/// The hollow of a part.
struct Hollow {
    width_mm: f64,
    depth_mm: f64,
    corner_mm: f64,
    /// Share of the room along and square to the skin that the corner beside it has: half between two walls.
    shares: [f64; 2],
}

fn hollow(part: &SplicePart) -> Hollow {
    let t = part.wall_mm;
    let (walls, shares) = match part.shape {
        Shape::Tube => ([2.0, 2.0], [0.5, 0.5]),
        Shape::Hat => ([2.0, 1.0], [0.5, 1.0]),
        Shape::Channel => ([1.0, 2.0], [1.0, 0.5]),
    };
    Hollow {
        width_mm: part.width_mm - walls[0] * t,
        depth_mm: part.depth_mm - walls[1] * t,
        corner_mm: (part.corner_mm - t).max(0.0),
        shares,
    }
}

/// How the insert nests in or over the post.
///
/// The corners touch first where the hollow's inside radius `r_i` is larger than the inner part's outside radius `r_o`. With
/// `k = r_i − r_o` and a gap `c` at each of the two faces, both below `k`, the corner reaches `r_o + √((k − c_x)² + (k − c_y)²)`
/// from the centre of the round, and has `r_i`. Pushed towards one wall it stops `k − √(k² − (k − c_x)²)` short of it.
///
/// # Errors
/// A sleeve over, or of, anything but a closed tube.
pub fn nest(post: &SplicePart, insert: &SplicePart, fit: Fit) -> Result<Nesting, Problem> {
    let (outer, inner) = match fit {
        Fit::Inside => (post, insert),
        Fit::Over => (insert, post),
    };
    if fit == Fit::Over && (post.shape, insert.shape) != (Shape::Tube, Shape::Tube) {
        let problem = "only a tube goes over a tube: a hat or a channel is open, or its flanges are in the way; write \
                       fit = \"inside\"";
        return Err(Problem::contradiction("raise.splice.fit", fit.words(), problem));
    }
    let hollow = hollow(outer);
    // A hat in a hat: its flanges lie between the post's flanges and the skin.
    let stacked = (outer.shape, inner.shape) == (Shape::Hat, Shape::Hat);
    let (inner_width_mm, inner_depth_mm) = match inner.shape {
        _ if stacked => (inner.width_mm, inner.depth_mm - inner.wall_mm),
        Shape::Hat => (inner.width_mm + 2.0 * inner.flange_mm, inner.depth_mm),
        Shape::Tube | Shape::Channel => (inner.width_mm, inner.depth_mm),
    };
    let (inner_off, outer_off) = (inner.tolerance_mm, outer.tolerance_mm);
    let beside = Room::new(inner_width_mm, inner_off, hollow.width_mm, outer_off);
    let depth = Room::new(inner_depth_mm, inner_off, hollow.depth_mm, outer_off);
    let k = hollow.corner_mm - inner.corner_mm;
    let [x, y] =
        [(beside, hollow.shares[0]), (depth, hollow.shares[1])].map(|(room, share)| k - share * room.least_mm());
    let corner = (x > 0.0 && y > 0.0 && k > 0.0)
        .then(|| Corner { reach_mm: inner.corner_mm + x.hypot(y), radius_mm: hollow.corner_mm });
    let short = (k - hollow.shares[0] * beside.nominal_mm).clamp(0.0, k.max(0.0));
    let held_off_mm = if outer.shape == Shape::Hat {
        0.0
    } else {
        (k - (k * k - short * short).sqrt()).clamp(0.0, (0.5 * depth.nominal_mm).max(0.0))
    };
    let step_mm = match (outer.shape, fit) {
        (Shape::Hat, _) => {
            if stacked {
                -inner.wall_mm
            } else {
                0.0
            }
        }
        (_, Fit::Inside) => outer.wall_mm + held_off_mm,
        (_, Fit::Over) => -(outer.wall_mm + held_off_mm),
    };
    let one_web = [outer.shape, inner.shape].contains(&Shape::Channel);
    Ok(Nesting {
        beside,
        depth,
        corner,
        held_off_mm,
        step_mm,
        walls_beside: if one_web { 1 } else { 2 },
        closed: [outer.shape, inner.shape].contains(&Shape::Tube),
    })
}

/// Sheet laid on the part that stands back.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Shim {
    /// Gauge number.
    pub gauge: u32,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Step that remains, mm.
    pub remains_mm: f64,
}

/// The thickest of these gauges, by number and thickness in mm, that is no thicker than the step, which may go either way.
pub fn shim(step_mm: f64, gauges_mm: &[(u32, f64)]) -> Option<Shim> {
    let step_mm = step_mm.abs();
    // A gauge as thick as the wall it makes up for differs from it by rounding.
    let thin_enough = gauges_mm.iter().filter(|(_, mm)| *mm <= step_mm + 1e-9);
    let (gauge, thickness_mm) = *thin_enough.max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(Shim { gauge, thickness_mm, remains_mm: (step_mm - thickness_mm).max(0.0) })
}

/// What leaning sides do to the inserts of one side.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct LeanedSide {
    /// Side.
    pub side: Side,
    /// Lean of the post below the cut, degrees from upright, inwards above nought.
    pub below_deg: f64,
    /// Lean of the post above the cut.
    pub above_deg: f64,
    /// Raised straight up: bend of the insert at its lower end, degrees.
    pub kink_lower_deg: f64,
    /// Raised straight up: bend at its upper end, back the other way.
    pub kink_upper_deg: f64,
    /// Raised straight up: room in depth that an unbent insert would need to tilt in its post, mm.
    pub tilt_mm: f64,
    /// Following the lean: how far the post above the cut moves inwards, mm.
    pub inwards_mm: f64,
    /// Following the lean: length of the insert, mm.
    pub following_length_mm: f64,
    /// Following the lean: bend left at the upper end, degrees; nought where the side is straight.
    pub following_kink_deg: f64,
}

/// Leaning sides and the roof's width against them.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Leaning {
    /// Left and right side.
    pub sides: [LeanedSide; 2],
    /// Width over the drip rails, which the roof keeps, mm.
    pub roof_width_mm: f64,
}

impl Leaning {
    /// Following the lean: how much wider the roof is than the posts it is to stand on, mm.
    pub fn roof_too_wide_mm(&self) -> f64 {
        self.sides.iter().map(|side| side.inwards_mm).sum()
    }

    /// Following the lean: how far the middle between the posts moves to the left, mm.
    pub fn middle_to_left_mm(&self) -> f64 {
        let [left, right] = self.sides;
        0.5 * (right.inwards_mm - left.inwards_mm)
    }
}

/// Room in depth that a straight piece needs beyond its own depth to lie at an angle in a straight hollow, mm.
///
/// A rectangle of length `o` and depth `d`, turned by `a`, is `o sin a + d cos a` deep.
pub fn tilt_room_mm(overlap_mm: f64, depth_mm: f64, angle_deg: f64) -> f64 {
    let (sin, cos) = angle_deg.abs().to_radians().sin_cos();
    (overlap_mm * sin - depth_mm * (1.0 - cos)).max(0.0)
}

/// A lean by its inset over the drop below and above the cut.
///
/// Raised by `h` straight up, the insert stands upright: it bends by the lean below at its lower end and by the lean above at
/// its upper end. Following the lean below, it is `h / cos a` long between the cuts, and the post above moves `h tan a` inwards.
pub fn leaned(
    side: Side,
    [below, above]: [f64; 2],
    raise_mm: f64,
    overlap_mm: f64,
    insert_depth_mm: f64,
) -> LeanedSide {
    let [below_deg, above_deg] = [below, above].map(|tangent| tangent.atan().to_degrees());
    LeanedSide {
        side,
        below_deg,
        above_deg,
        kink_lower_deg: below_deg,
        kink_upper_deg: above_deg,
        tilt_mm: [below_deg, above_deg]
            .map(|deg| tilt_room_mm(overlap_mm, insert_depth_mm, deg))
            .into_iter()
            .fold(0.0, f64::max),
        inwards_mm: raise_mm * below,
        following_length_mm: raise_mm * below.hypot(1.0) + 2.0 * overlap_mm,
        following_kink_deg: above_deg - below_deg,
    }
}

/// The leaning sides of a body where it is cut; the lean is that over the length of the overlap.
pub fn leaning(survey: &Survey, raise: &Raise, insert_depth_mm: f64) -> Leaning {
    let (cut, reach) = (raise.cut_mm, raise.overlap_mm);
    let sides = Side::BOTH.map(|side| {
        let inset = |low: f64, high: f64| {
            (survey.half_width_on_mm(side, low) - survey.half_width_on_mm(side, high)) / (high - low)
        };
        let leans = [inset(cut - reach, cut), inset(cut, cut + reach)];
        leaned(side, leans, raise.height_mm, reach, insert_depth_mm)
    });
    Leaning { sides, roof_width_mm: 2.0 * survey.half_width_mm(survey.heights.drip_rail_mm) }
}

/// A piece that lengthens a post.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Insert {
    /// Name: side and post: `L3`.
    pub id: String,
    /// Side.
    pub side: Side,
    /// Index of the post.
    pub post: usize,
    /// Length, mm.
    pub length_mm: f64,
}

/// All inserts, raised straight up: left side first, rear to front.
pub fn inserts(raise: &Raise, raised: &RaisedBody) -> Vec<Insert> {
    let of = |side: Side| {
        let letter = match side {
            Side::Left => 'L',
            Side::Right => 'R',
        };
        (raise.first_post..=raise.last_post).map(move |post| Insert {
            id: format!("{letter}{}", post + 1),
            side,
            post,
            length_mm: raised.insert_length_mm,
        })
    };
    Side::BOTH.into_iter().flat_map(of).collect()
}

/// Fasteners of one splice: a line up the middle of each wall beside.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Pattern {
    /// Fasteners in each line.
    pub in_line: usize,
    /// Walls with a line each.
    pub walls: usize,
    /// Reach of the insert into the post, mm.
    pub overlap_mm: f64,
    /// From the post's cut edge, and from the insert's end, to the nearest fastener, mm.
    pub end_mm: f64,
}

impl Pattern {
    /// From one fastener to the next, mm; none for a single one.
    pub fn spacing_mm(&self) -> Option<f64> {
        let spaces = self.in_line.checked_sub(1).filter(|n| *n > 0)?;
        Some((self.overlap_mm - 2.0 * self.end_mm) / spaces as f64)
    }

    /// Overlap that so many fasteners need, so far apart at least, mm.
    pub fn needed_mm(&self, least_spacing_mm: f64) -> f64 {
        2.0 * self.end_mm + self.in_line.saturating_sub(1) as f64 * least_spacing_mm
    }

    /// Fasteners of one splice.
    pub fn count(&self) -> usize {
        self.walls * self.in_line
    }

    /// Force on the fastener that carries most, N: moment and shear at the cut and the axial force along the post, shared by
    /// the lines and, in each, by the elastic vector method. The shear acts half an overlap from the middle of the line.
    ///
    /// # Errors
    /// A single fastener, about which the post would turn; fasteners that stand on one another.
    pub fn most_n(&self, actions: SpliceActions) -> Result<f64, Vec<Problem>> {
        let spacing_mm = self.spacing_mm().unwrap_or(0.0);
        let places: Vec<[f64; 2]> = (0..self.in_line).map(|i| [0.0, i as f64 * spacing_mm]).collect();
        let group = RivetGroup::equal(&places)?;
        let walls = self.walls as f64;
        let load = InPlaneLoad {
            x_n: actions.shear_n.abs() / walls,
            y_n: actions.axial_n.abs() / walls,
            at_mm: [0.0, 0.5 * spacing_mm * self.in_line.saturating_sub(1) as f64],
            couple_n_mm: (actions.moment_n_mm.abs() + 0.5 * self.overlap_mm * actions.shear_n.abs()) / walls,
        };
        Ok(group.elastic(load)?.worst().1)
    }
}

/// Forces in a post at the cut; signs do not count.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize)]
pub struct SpliceActions {
    /// Bending moment across the bus, N·mm.
    pub moment_n_mm: f64,
    /// Shear across the bus, N.
    pub shear_n: f64,
    /// Along the post, N.
    pub axial_n: f64,
}
