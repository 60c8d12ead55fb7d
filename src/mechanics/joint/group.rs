//! Groups of rivets: eccentric loads in the plane of the sheets, prying and suction out of it.
//!
//! In-plane loads are shared by the elastic vector method ([`RivetGroup::elastic`]): rigid sheets, every rivet a
//! spring, the group turning about its centroid. How far the group is from collapse if the rivets give way without
//! breaking is bracketed by [`RivetGroup::plastic`]. Both hold for small slip and for rivets whose holes are filled:
//! clearance lets a single rivet carry first. The instantaneous-centre curves of steel bolts are not used; they were
//! fitted to other fasteners.

use std::f64::consts::FRAC_PI_4;

use crate::error::Problem;
use crate::mechanics::sheet::in_range;

/// A load in the plane of the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct InPlaneLoad {
    /// Along x, N.
    pub x_n: f64,
    /// Along y, N.
    pub y_n: f64,
    /// Point its line passes through, mm.
    pub at_mm: [f64; 2],
    /// Couple besides, anticlockwise, N·mm.
    pub couple_n_mm: f64,
}

impl InPlaneLoad {
    /// Moment about a point, anticlockwise, N·mm.
    pub fn moment_n_mm(&self, about_mm: [f64; 2]) -> f64 {
        let arm = [self.at_mm[0] - about_mm[0], self.at_mm[1] - about_mm[1]];
        self.couple_n_mm + arm[0] * self.y_n - arm[1] * self.x_n
    }
}

/// What one rivet takes of the load, N along x and y. The sheet presses on the rivet with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RivetForce {
    /// Share of the force.
    pub primary_n: [f64; 2],
    /// Share of the moment, square to the line from the centroid.
    pub secondary_n: [f64; 2],
}

impl RivetForce {
    /// Along x, N.
    pub fn x_n(&self) -> f64 {
        self.primary_n[0] + self.secondary_n[0]
    }

    /// Along y, N.
    pub fn y_n(&self) -> f64 {
        self.primary_n[1] + self.secondary_n[1]
    }

    /// Resultant, N.
    pub fn resultant_n(&self) -> f64 {
        self.x_n().hypot(self.y_n())
    }
}

/// How a load is shared out.
#[derive(Debug, Clone, PartialEq)]
pub struct GroupForces {
    /// Centroid of the stiffnesses, mm.
    pub centroid_mm: [f64; 2],
    /// Moment about the centroid, anticlockwise, N·mm.
    pub moment_n_mm: f64,
    /// Force on each rivet, in the group's order.
    pub forces: Vec<RivetForce>,
}

impl GroupForces {
    /// Which rivet is loaded most, from 0, and its resultant, N; the first where several are equal.
    pub fn worst(&self) -> (usize, f64) {
        let mut worst = (0, 0.0);
        for (i, force) in self.forces.iter().enumerate() {
            if force.resultant_n() > worst.1 {
                worst = (i, force.resultant_n());
            }
        }
        worst
    }
}

/// Bounds on how many times the load a ductile group can carry, and the forces that prove the lower one.
#[derive(Debug, Clone, PartialEq)]
pub struct PlasticBounds {
    /// This many times the load is carried by [`forces`](Self::forces): use this one.
    pub factor: f64,
    /// No distribution of forces carries more than this many times the load: shows how close `factor` is.
    pub factor_at_most: f64,
    /// In equilibrium with `factor` times the load, none above its cap.
    pub forces: Vec<RivetForce>,
}

/// Rivets that share an in-plane load.
#[derive(Debug, Clone, PartialEq)]
pub struct RivetGroup {
    places_mm: Vec<[f64; 2]>,
    stiffness: Vec<f64>,
}

/// More rivets than any one group of a hand calculation; a longer line is checked per pitch.
const MOST_RIVETS: usize = 1000;

impl RivetGroup {
    /// Rivets of one kind: equal stiffness.
    ///
    /// # Errors
    /// No rivet, or more than 1000; a place that is not a number or beyond 100 m; two rivets within 0.1 mm.
    pub fn equal(places_mm: &[[f64; 2]]) -> Result<Self, Vec<Problem>> {
        Self::new(places_mm.to_vec(), vec![1.0; places_mm.len()], Vec::new())
    }

    /// Rivets of several diameters, each as stiff as its area: `[x, y]` and diameter, mm.
    ///
    /// # Errors
    /// As [`equal`](Self::equal); a diameter outside 1.5 to 30 mm.
    pub fn by_area(rivets_mm: &[([f64; 2], f64)]) -> Result<Self, Vec<Problem>> {
        let problems = rivets_mm
            .iter()
            .enumerate()
            .filter_map(|(i, (_, d))| in_range(&format!("rivets[{i}].diameter"), Some(*d), (1.5, 30.0), "mm").err())
            .collect();
        let stiffness = rivets_mm.iter().map(|(_, d)| FRAC_PI_4 * d * d).collect();
        Self::new(rivets_mm.iter().map(|(place, _)| *place).collect(), stiffness, problems)
    }

    fn new(places_mm: Vec<[f64; 2]>, stiffness: Vec<f64>, mut problems: Vec<Problem>) -> Result<Self, Vec<Problem>> {
        if places_mm.is_empty() {
            problems.push(Problem::missing("rivets", "write the place of each rivet"));
        }
        if places_mm.len() > MOST_RIVETS {
            problems.push(Problem::out_of_range(
                "rivets",
                format!("{} rivets", places_mm.len()),
                format!("at most {MOST_RIVETS}; check a long line per pitch"),
            ));
            return Err(problems);
        }
        for (i, [x, y]) in places_mm.iter().enumerate() {
            problems.extend(in_range(&format!("rivets[{i}].x"), Some(*x), (-1e5, 1e5), "mm").err());
            problems.extend(in_range(&format!("rivets[{i}].y"), Some(*y), (-1e5, 1e5), "mm").err());
            // Holes cannot overlap: the same place twice is one rivet entered twice.
            let same = |other: &[f64; 2]| (other[0] - x).hypot(other[1] - y) < 0.1;
            if let Some(twin) = places_mm[..i].iter().position(same) {
                problems.push(Problem::contradiction(
                    format!("rivets[{i}]"),
                    format!("({x}, {y}) mm"),
                    format!("rivets[{twin}] is there already; leave one of them out"),
                ));
            }
        }
        if problems.is_empty() { Ok(Self { places_mm, stiffness }) } else { Err(problems) }
    }

    /// Shares the load out by the elastic vector method.
    ///
    /// With stiffnesses `w` and places `x, y` from their centroid: `J = sum w (x^2 + y^2)`,
    /// `Rx = w (Px / sum w - M y / J)`, `Ry = w (Py / sum w + M x / J)`. Elementary mechanics, as textbooks of machine
    /// elements give it for equal rivets.
    ///
    /// # Errors
    /// A load that is not a number; a single rivet loaded off its centre, about which the sheet would turn.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::joint::group::{InPlaneLoad, RivetGroup};
    /// # fn main() -> Result<(), Vec<raisedbody::error::Problem>> {
    /// // Four rivets in line, 100 mm apart; 25 kN along the line, 100 mm beside it.
    /// let group = RivetGroup::equal(&[[0.0, 0.0], [0.0, 100.0], [0.0, 200.0], [0.0, 300.0]])?;
    /// let load = InPlaneLoad { y_n: 25_000.0, at_mm: [100.0, 0.0], ..InPlaneLoad::default() };
    /// let (_, worst_n) = group.elastic(load)?.worst();
    /// assert!((worst_n - 9762.8).abs() < 0.05);
    /// # Ok(())
    /// # }
    /// ```
    pub fn elastic(&self, load: InPlaneLoad) -> Result<GroupForces, Vec<Problem>> {
        self.loadable(load)?;
        Ok(vector_method(&self.places_mm, &self.stiffness, load))
    }

    /// Bounds the plastic load factor: every rivet linear up to its cap, N, and then giving way at that force.
    ///
    /// The lower bound theorem of limit analysis: forces in equilibrium with a load, none above its cap, prove that a
    /// ductile group carries that load. Such forces are the vector method's for *any* stiffnesses. The search starts
    /// from the group's own, so the factor is never below the elastic one, and softens the rivets that slip most:
    /// again and again `w = cap / slip`, with slips below 1 in 10⁴ of the largest raised to that. The best factor
    /// met, `min(cap / R)`, is kept. What the search tends to is the law itself: a rivet that slips less than that
    /// share is still on its straight line, the others are at their caps. Each step's rigid motion also gives an
    /// upper bound, `sum(cap slip) / (work of the load)`; the search ends when the two meet to 1 in 10⁶, or after
    /// 2000 steps. The factor is thus safe however far the search got.
    ///
    /// It presumes that no rivet breaks and no sheet tears before the last ones reach their caps. Unless tests show it,
    /// use the elastic method.
    ///
    /// # Errors
    /// As [`elastic`](Self::elastic); caps that are not one per rivet or outside 1 N to 10 MN; no load at all.
    pub fn plastic(&self, load: InPlaneLoad, caps_n: &[f64]) -> Result<PlasticBounds, Vec<Problem>> {
        self.loadable(load)?;
        let mut problems: Vec<Problem> = caps_n
            .iter()
            .enumerate()
            .filter_map(|(i, cap)| in_range(&format!("caps[{i}]"), Some(*cap), (1.0, 1e7), "N").err())
            .collect();
        if caps_n.len() != self.places_mm.len() {
            let (caps, rivets) = (caps_n.len(), self.places_mm.len());
            problems.push(Problem::contradiction(
                "caps",
                format!("{caps} caps"),
                format!("give one for each of {rivets} rivets"),
            ));
        }
        let mut weights = self.stiffness.clone();
        let mut shared = vector_method(&self.places_mm, &weights, load);
        // A millionth of a newton is no load, and a factor on it no number.
        if shared.worst().1 < 1e-6 {
            problems.push(Problem::missing("load", "write the force the group carries"));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let mut best = PlasticBounds { factor: 0.0, factor_at_most: f64::INFINITY, forces: Vec::new() };
        for _ in 0..2000 {
            let forces: Vec<f64> = shared.forces.iter().map(RivetForce::resultant_n).collect();
            let slips: Vec<f64> = forces.iter().zip(&weights).map(|(r, w)| r / w).collect();
            let factor = caps_n.iter().zip(&forces).map(|(cap, r)| cap / r).fold(f64::INFINITY, f64::min);
            let give: f64 = caps_n.iter().zip(&slips).map(|(cap, slip)| cap * slip).sum();
            // The work of the load on this motion equals that of the rivet forces in equilibrium with it.
            let work: f64 = forces.iter().zip(&slips).map(|(r, slip)| r * slip).sum();
            best.factor_at_most = best.factor_at_most.min(give / work);
            if factor > best.factor {
                best.factor = factor;
                best.forces = shared.forces.iter().map(|force| scaled(force, factor)).collect();
            }
            if best.factor_at_most - best.factor <= 1e-6 * best.factor {
                break;
            }
            let most = slips.iter().copied().fold(0.0, f64::max);
            // Only the ratios of the slips count: taken absolutely they would grow or shrink without end.
            weights = caps_n.iter().zip(&slips).map(|(cap, slip)| cap / (slip / most).max(1e-4)).collect();
            shared = vector_method(&self.places_mm, &weights, load);
        }
        Ok(best)
    }

    fn loadable(&self, load: InPlaneLoad) -> Result<(), Vec<Problem>> {
        let mut problems: Vec<Problem> = [
            in_range("load.x", Some(load.x_n), (-1e8, 1e8), "N"),
            in_range("load.y", Some(load.y_n), (-1e8, 1e8), "N"),
            in_range("load.at", Some(load.at_mm[0]), (-1e6, 1e6), "mm"),
            in_range("load.at", Some(load.at_mm[1]), (-1e6, 1e6), "mm"),
            in_range("load.couple", Some(load.couple_n_mm), (-1e12, 1e12), "N·mm"),
        ]
        .into_iter()
        .filter_map(Result::err)
        .collect();
        if let ([only], true) = (self.places_mm.as_slice(), problems.is_empty()) {
            let moment = load.moment_n_mm(*only);
            // A micrometre off centre is the rounding of coordinates, not a lever.
            if moment.abs() > 1e-3 * load.x_n.hypot(load.y_n) {
                let problem = "one rivet cannot hold a sheet from turning; load it through its centre or add a second";
                problems.push(Problem::contradiction("load", format!("moment of {moment:.0} N·mm"), problem));
            }
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}

fn scaled(force: &RivetForce, factor: f64) -> RivetForce {
    RivetForce { primary_n: force.primary_n.map(|n| n * factor), secondary_n: force.secondary_n.map(|n| n * factor) }
}

/// The elastic vector method: see [`RivetGroup::elastic`].
fn vector_method(places_mm: &[[f64; 2]], stiffness: &[f64], load: InPlaneLoad) -> GroupForces {
    let total: f64 = stiffness.iter().sum();
    let centre = |axis: usize| places_mm.iter().zip(stiffness).map(|(p, w)| w * p[axis]).sum::<f64>() / total;
    let centroid_mm = [centre(0), centre(1)];
    let arms: Vec<[f64; 2]> = places_mm.iter().map(|p| [p[0] - centroid_mm[0], p[1] - centroid_mm[1]]).collect();
    let polar: f64 = arms.iter().zip(stiffness).map(|(r, w)| w * (r[0] * r[0] + r[1] * r[1])).sum();
    let moment_n_mm = load.moment_n_mm(centroid_mm);
    // A single rivet has no arm and, being loaded through its centre, no moment to share.
    let turn = if polar > 0.0 { moment_n_mm / polar } else { 0.0 };
    let forces = arms
        .iter()
        .zip(stiffness)
        .map(|(r, w)| RivetForce {
            primary_n: [w * load.x_n / total, w * load.y_n / total],
            secondary_n: [-w * turn * r[1], w * turn * r[0]],
        })
        .collect();
    GroupForces { centroid_mm, moment_n_mm, forces }
}

/// Prying force over applied tension at a flange, rigid bound: `Q/T = b'/a'` with `a' <= 1.25 b'` (from memory).
///
/// `to_web_mm` is b', rivet to the face of the web or bend; `to_edge_mm` is a', rivet to the free edge, of which no
/// more than 1.25 b' counts: the ratio is never below 0.8. For a flange no thinner than the sheet on it and without a
/// T-stub analysis; under a thinner sheet the prying moves into the sheet and the pull-over is eccentric instead.
///
/// # Errors
/// A distance outside 0.5 to 500 mm.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::group::prying_ratio;
/// assert!((prying_ratio(12.0, 12.0).unwrap_or_default() - 1.0).abs() < 1e-12);
/// assert!((prying_ratio(12.0, 40.0).unwrap_or_default() - 0.8).abs() < 1e-12);
/// ```
pub fn prying_ratio(to_web_mm: f64, to_edge_mm: f64) -> Result<f64, Vec<Problem>> {
    let problems: Vec<Problem> = [("to_web", to_web_mm), ("to_edge", to_edge_mm)]
        .into_iter()
        .filter_map(|(name, mm)| in_range(name, Some(mm), (0.5, 500.0), "mm").err())
        .collect();
    if problems.is_empty() { Ok(to_web_mm / to_edge_mm.min(1.25 * to_web_mm)) } else { Err(problems) }
}

/// Tension in a pried rivet, N: `T (1 + Q/T)`.
pub fn pried_tension_n(tension_n: f64, prying_ratio: f64) -> f64 {
    tension_n * (1.0 + prying_ratio)
}

/// Where a line of rivets holds a sheet that lies over equally spaced ribs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SuctionLine {
    /// Along the sheet's end: half a rib spacing pulls on it.
    End,
    /// The first line inside a sheet that runs over this many spans: a whole rib spacing, and more by continuity.
    FirstInner {
        /// Spans between ribs, two or more.
        spans: u32,
    },
}

/// Reaction of the first inner support over its tributary load, sheet continuous over equal spans under even suction.
///
/// Statics of continuous beams: 1.25 over two spans, 1.10 over three, 8/7 over four. Over more it lies between 1.13 and
/// 1.14, for which 8/7 stands. Ribs are taken as rigid, the sheet as bending only. None for fewer than two spans.
pub const fn continuity_factor(spans: u32) -> Option<f64> {
    match spans {
        0 | 1 => None,
        2 => Some(1.25),
        3 => Some(1.10),
        _ => Some(8.0 / 7.0),
    }
}

/// Suction on one rivet, N: `T = q cp b p` times the continuity factor, `b` the half or whole rib spacing.
///
/// `suction_mpa` is the net pressure outward, wind and inside pressure together (1 MPa = 1 N/mm2; 1 kPa = 0.001 MPa),
/// factored or not as the level of the check asks. At an end the whole half spacing is taken, though continuity
/// relieves it. The sheet between rivets along a rib is taken to share evenly.
///
/// # Errors
/// A suction outside 0 to 0.1 MPa; spacing or pitch outside 1 to 5000 mm; fewer than two spans at an inner line.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::group::{SuctionLine, suction_per_rivet_n};
/// // 0.8 kPa on ribs 700 mm apart, rivets every 100 mm, sheet over two ribs' spacing.
/// let t = suction_per_rivet_n(0.0008, 700.0, 100.0, SuctionLine::FirstInner { spans: 2 }).unwrap_or_default();
/// assert!((t - 70.0).abs() < 1e-9);
/// ```
pub fn suction_per_rivet_n(
    suction_mpa: f64,
    rib_spacing_mm: f64,
    pitch_mm: f64,
    line: SuctionLine,
) -> Result<f64, Vec<Problem>> {
    let mut problems: Vec<Problem> = [
        in_range("suction", Some(suction_mpa), (0.0, 0.1), "MPa"),
        in_range("rib_spacing", Some(rib_spacing_mm), (1.0, 5000.0), "mm"),
        in_range("pitch", Some(pitch_mm), (1.0, 5000.0), "mm"),
    ]
    .into_iter()
    .filter_map(Result::err)
    .collect();
    let share = match line {
        SuctionLine::End => Some(0.5),
        SuctionLine::FirstInner { spans } => continuity_factor(spans),
    };
    match share {
        Some(share) if problems.is_empty() => Ok(suction_mpa * share * rib_spacing_mm * pitch_mm),
        Some(_) => Err(problems),
        None => {
            problems.push(Problem::out_of_range(
                "spans",
                "fewer than 2",
                "2 or more; a single span has end lines only",
            ));
            Err(problems)
        }
    }
}
