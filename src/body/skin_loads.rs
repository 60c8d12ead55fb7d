//! What loads the skin: air on the road and across it, a vehicle that passes, pressure inside, shocks, a sheet at another
//! temperature than its frame, racking; and from these what a rivet line carries.

use super::rivet_lines::{LineKind, PanelEdge, RivetLine};
use super::stability::GRAVITY_M_S2;

/// A part of the skin by how the air meets it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub enum Zone {
    /// A side just behind the front edge.
    #[serde(rename = "behind the front edge")]
    FrontEdge,
    /// The rest of a side.
    #[serde(rename = "side")]
    Side,
    /// A face that looks forward.
    #[serde(rename = "front face")]
    Front,
    /// A face that looks back.
    #[serde(rename = "rear face")]
    Rear,
}

impl Zone {
    /// Every one.
    pub const ALL: [Self; 4] = [Self::FrontEdge, Self::Side, Self::Front, Self::Rear];

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::FrontEdge => "behind the front edge",
            Self::Side => "side",
            Self::Front => "front face",
            Self::Rear => "rear face",
        }
    }
}

/// When the air pulls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum AirCase {
    /// At the fastest road speed.
    #[serde(rename = "on the road")]
    Road,
    /// The same with another vehicle passing.
    #[serde(rename = "another vehicle passing")]
    Passing,
    /// At rest in a wind square to the side.
    #[serde(rename = "crosswind at rest")]
    Crosswind,
}

impl AirCase {
    /// Every one.
    pub const ALL: [Self; 3] = [Self::Road, Self::Passing, Self::Crosswind];

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Road => "on the road",
            Self::Passing => "another vehicle passing",
            Self::Crosswind => "crosswind at rest",
        }
    }
}

/// Two stagnation pressures, and the coefficients of suction (outward above nought) in parts of them.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Air {
    /// At the fastest road speed, Pa.
    pub road_pa: f64,
    /// In the crosswind, Pa.
    pub crosswind_pa: f64,
    /// On a side just behind the front edge, on the road.
    pub edge: f64,
    /// On the rest of a side, on the road.
    pub side: f64,
    /// On a face that looks back, on the road.
    pub rear: f64,
    /// Least pressure on a face that looks forward, on the road: it presses inward.
    pub front: f64,
    /// On the lee side, in the crosswind.
    pub lee: f64,
    /// On front and rear face near their windward edge, in the crosswind.
    pub strip: f64,
    /// What a vehicle that passes adds on a side, in parts of the road's stagnation pressure.
    pub passing: f64,
    /// Pressure inside over the still air outside, in parts of the same stagnation pressure.
    pub inside: f64,
}

impl Air {
    /// Net pressure outward, Pa; below nought the air presses the skin against its frame.
    ///
    /// `q (C_p,inside + suction)`; at rest beside the road the crosswind blows alone: a wind askew of a bus that drives is left
    /// out.
    pub fn net_pa(&self, zone: Zone, case: AirCase) -> f64 {
        let on_road = match zone {
            Zone::FrontEdge => self.edge,
            Zone::Side => self.side,
            Zone::Front => -self.front,
            Zone::Rear => self.rear,
        };
        let on_a_side = matches!(zone, Zone::FrontEdge | Zone::Side);
        match case {
            AirCase::Road => self.road_pa * (self.inside + on_road),
            // What passes runs along the sides; the faces do not meet its suction.
            AirCase::Passing => self.road_pa * (self.inside + on_road + if on_a_side { self.passing } else { 0.0 }),
            AirCase::Crosswind => self.crosswind_pa * (self.inside + if on_a_side { self.lee } else { self.strip }),
        }
    }

    /// The greatest net suction on a zone, Pa, nought at least, and when it pulls; the first of equals.
    pub fn suction(&self, zone: Zone) -> (f64, AirCase) {
        let all = AirCase::ALL.map(|case| (self.net_pa(zone, case).max(0.0), case));
        all.into_iter().reduce(|best, next| if next.0 > best.0 { next } else { best }).unwrap_or((0.0, AirCase::Road))
    }
}

/// Where the zones lie: the raised part's foremost station, how far the front edge's zone reaches back from it, mm.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Zones {
    /// Station of the front edge, mm forward of the rear face.
    pub front_mm: f64,
    /// Reach of the zone behind it, mm.
    pub reach_mm: f64,
}

impl Zones {
    /// The zone of a part of a side that reaches forward to this station; one that lies in two counts in the worse.
    pub fn on_side(&self, foremost_mm: f64) -> Zone {
        if foremost_mm > self.front_mm - self.reach_mm { Zone::FrontEdge } else { Zone::Side }
    }

    /// The zones that a rivet line may lie in: of an upright one by the foremost skin that it holds. A line of a panel across an
    /// end that goes round the corners, or slopes, may have the suction of the side too.
    pub fn of_line(&self, line: &RivetLine, (front_end, bends_or_slopes): (bool, bool)) -> Vec<Zone> {
        let reach_mm = if is_upright(line) { line.tributary_mm } else { 0.0 };
        match line.side {
            Some(_) => vec![self.on_side(line.from_mm.0.max(line.to_mm.0) + reach_mm)],
            None => Self::of_end(front_end, bends_or_slopes),
        }
    }

    /// The zones that a panel across an end may lie in.
    pub fn of_end(front: bool, bends_or_slopes: bool) -> Vec<Zone> {
        match (front, bends_or_slopes) {
            (true, true) => vec![Zone::Front, Zone::FrontEdge],
            (false, true) => vec![Zone::Rear, Zone::Side],
            (true, false) => vec![Zone::Front],
            (false, false) => vec![Zone::Rear],
        }
    }
}

/// What works in the plane of the skin.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct InPlane {
    /// Shear flow along every line from racking, N/mm.
    pub racking_n_mm: f64,
    /// Jolt of the road in parts of the weight, over the weight itself.
    pub shock: f64,
    /// Mass of the skin, kg/m2.
    pub areal_mass_kg_m2: f64,
    /// Across lines at which a sheet ends, from a sheet warmer or colder than its frame, N/mm.
    pub temperature_n_mm: f64,
}

/// What a rivet line carries in the plane of the skin, N per mm of line, taken all at once.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize)]
pub struct LineLoad {
    /// From racking, along the line.
    pub racking_n_mm: f64,
    /// From the skin's own weight in a jolt, downward.
    pub shock_n_mm: f64,
    /// From temperature, across the line.
    pub temperature_n_mm: f64,
    /// All together.
    pub total_n_mm: f64,
}

impl LineLoad {
    /// The greatest part in words.
    pub fn governing(&self) -> &'static str {
        let parts = [
            (self.racking_n_mm, "racking"),
            (self.temperature_n_mm, "skin colder or warmer than its frame"),
            (self.shock_n_mm, "jolt of the road"),
        ];
        parts.into_iter().reduce(|best, next| if next.0 > best.0 { next } else { best }).map_or("", |(_, words)| words)
    }
}

impl InPlane {
    /// What a line carries.
    ///
    /// Racking runs along the line and temperature across it; a jolt pulls downward, so along an upright line and across a
    /// level one: `√((along)² + (across)²)`. Where a sheet runs on over a post its temperature passes on in the sheet.
    ///
    /// `kg/mm2 · mm · m/s2 = N/mm`.
    pub fn on_line(&self, kind: LineKind, upright: bool, tributary_mm: f64) -> LineLoad {
        let shock_n_mm = self.areal_mass_kg_m2 * 1e-6 * tributary_mm * GRAVITY_M_S2 * (1.0 + self.shock);
        let temperature_n_mm = if kind == LineKind::Post { 0.0 } else { self.temperature_n_mm };
        let (along, across) = if upright {
            (self.racking_n_mm + shock_n_mm, temperature_n_mm)
        } else {
            (self.racking_n_mm, shock_n_mm + temperature_n_mm)
        };
        LineLoad { racking_n_mm: self.racking_n_mm, shock_n_mm, temperature_n_mm, total_n_mm: along.hypot(across) }
    }
}

/// Whether a line stands upright.
pub fn is_upright(line: &RivetLine) -> bool {
    match line.of_panel {
        Some((_, edge)) => edge == PanelEdge::Upright,
        None => matches!(line.kind, LineKind::Post | LineKind::Seam),
    }
}

/// Shear flow in a closed tube that is twisted, N/mm: `T / (2 A_m)` (Bredt).
///
/// # Example
/// ```
/// use raisedbody::body::skin_loads::shear_flow_n_mm;
/// assert!((shear_flow_n_mm(28_000.0, 5.0) - 2.8).abs() < 1e-12);
/// ```
pub fn shear_flow_n_mm(torque_n_m: f64, enclosed_m2: f64) -> f64 {
    torque_n_m / (2.0 * enclosed_m2) / 1000.0
}

/// Twist of a body that stands on one front wheel, Nm: half the track times what the front axle carries. Its own frame takes
/// a part that is not known: an upper figure.
pub fn one_wheel_torque_n_m(front_axle_kg: f64, track_mm: f64) -> f64 {
    front_axle_kg * GRAVITY_M_S2 * track_mm / 2000.0
}

/// Shear flow of a sheet that is racked by an angle and does not fold, N/mm: `G t γ`, `G = E/(2 (1 + ν))`.
pub fn racked_flow_n_mm(modulus_mpa: f64, poisson: f64, thickness_mm: f64, angle_rad: f64) -> f64 {
    modulus_mpa / (2.0 * (1.0 + poisson)) * thickness_mm * angle_rad
}

/// A front whose edges are rounded to at least this share of the root of its area keeps the flow attached (from memory:
/// Cooper, SAE 850288).
pub const ROUNDED_SHARE: f64 = 0.045;

/// Whether the flow stays attached round the front edges.
pub fn attached(front_radius_mm: f64, frontal_area_m2: f64) -> bool {
    front_radius_mm / 1000.0 >= ROUNDED_SHARE * frontal_area_m2.sqrt()
}
