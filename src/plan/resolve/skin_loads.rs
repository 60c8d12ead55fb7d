//! Loads on the skin in numbers.

use crate::check::Standing;
use crate::error::Problem;
use crate::plan::file::{Ends, SkinLoads};
use crate::quantity::{Angle, Kind, Length, LineLoad, Ratio};

use super::Assumption;
use super::memory::OfLoads;
use super::reader::Reader;

/// Loads on the skin and the factors on them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) struct Loads {
    pub speed_m_s: f64,
    pub crosswind_m_s: f64,
    pub air_density_kg_m3: f64,
    pub edge: EdgeSuction,
    /// How far the zone behind the front edge reaches back, mm.
    pub edge_zone_mm: f64,
    pub side: f64,
    pub rear: f64,
    pub front: f64,
    pub lee: f64,
    pub strip: f64,
    pub passing: f64,
    pub inside: f64,
    pub shock: f64,
    pub racking: Racking,
    /// Share of a wholly held sheet's force that reaches its rivets.
    pub restraint: f64,
    pub play_mm: f64,
    pub continuity: f64,
    pub load_factor: f64,
    pub standing: Standing,
}

/// Suction behind the front edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) enum EdgeSuction {
    Stated(f64),
    /// Radius of the edges, mm; what pulls behind sharp ones and behind rounded ones.
    Rounded {
        radius_mm: f64,
        sharp: f64,
        rounded: f64,
    },
}

/// Where the shear flow of racking comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) enum Racking {
    /// Given, or the default, N/mm.
    Stated(f64),
    /// Angle of the racked side, rad.
    Angle(f64),
    /// One front wheel off the ground.
    OneWheel,
}

const SUCTION: (f64, f64) = (0.0, 5.0);

pub(super) fn loads(r: &mut Reader<'_>, file: &OfLoads, crosswind_m_s: f64) -> Loads {
    let (own, speed) = (&file.loads, file.service.speed.map(|v| v.m_s()));
    let (speed_m_s, weakest) = r.or_fallback(speed, "service.speed", "speed", (1.0, 60.0), Kind::Speed);
    let mut standing = weakest;
    let mut ratio = |given: Option<Ratio>, name: &str, bounds: (f64, f64)| {
        let (value, known) =
            r.or_fallback(given.map(Ratio::value), &format!("loads.{name}"), name, bounds, Kind::Ratio);
        standing = standing.with(known);
        value
    };
    let side = ratio(own.side_suction, "side_suction", SUCTION);
    let rear = ratio(own.rear_suction, "rear_suction", SUCTION);
    let front = ratio(own.front_pressure, "front_pressure", (-2.0, 1.0));
    let lee = ratio(own.lee_suction, "lee_suction", SUCTION);
    let strip = ratio(own.strip_suction, "strip_suction", SUCTION);
    let passing = ratio(own.passing, "passing", (0.0, 2.0));
    let inside = ratio(own.inside, "inside", (-2.0, 1.0));
    let shock = ratio(own.shock, "shock", (0.0, 10.0));
    let restraint = ratio(own.restraint, "restraint", (0.0, 1.0));
    let edge = match own.front_radius {
        None => EdgeSuction::Stated(ratio(own.edge_suction, "edge_suction", SUCTION)),
        Some(_) => EdgeSuction::Rounded {
            radius_mm: 0.0,
            sharp: ratio(None, "edge_suction", SUCTION),
            rounded: ratio(None, "rounded_edge_suction", SUCTION),
        },
    };
    let edge = rounded(r, own, edge);
    if let (Some(radius), true) = (own.front_radius, file.raise.ends != Ends::WholeRoof) {
        let source = "not used: the step or slope is a front edge of its own, taken as folded sharp (edge_suction)";
        r.list("loads.front_radius", Kind::Length.print(radius.mm()), source, Standing::Assumed);
    }
    let edge_zone_mm = match own.edge_zone {
        Some(reach) => r.length("loads.edge_zone", reach, 0.0, 20_000.0),
        None => {
            let (widths, known) = r.fallback("loads.edge_zone", "edge_zone", (0.0, 10.0), Kind::Ratio);
            standing = standing.with(known);
            widths * file.vehicle.body_width.mm()
        }
    };
    let play_mm = play(r, own.play);
    let (racking, known) = racking(r, file);
    let (air_density_kg_m3, a) = r.fallback("", "air_density", (0.5, 2.0), Kind::Density);
    let (continuity, b) = r.fallback("", "continuity", (1.0, 5.0), Kind::Ratio);
    let (load_factor, c) = r.fallback("", "load_factor", (1.0, 5.0), Kind::Ratio);
    let standing = [known, a, b, c].into_iter().fold(standing, Standing::with);
    Loads {
        speed_m_s,
        crosswind_m_s,
        air_density_kg_m3,
        edge,
        edge_zone_mm,
        side,
        rear,
        front,
        lee,
        strip,
        passing,
        inside,
        shock,
        racking,
        restraint,
        play_mm,
        continuity,
        load_factor,
        standing,
    }
}

/// The radius read, and refused beside a suction.
fn rounded(r: &mut Reader<'_>, own: &SkinLoads, edge: EdgeSuction) -> EdgeSuction {
    let (Some(radius), EdgeSuction::Rounded { sharp, rounded, .. }) = (own.front_radius, edge) else { return edge };
    let radius_mm = r.length("loads.front_radius", radius, 0.0, 2000.0);
    if own.edge_suction.is_some() {
        let written = r.written("loads.front_radius", &Kind::Length.print(radius_mm));
        let problem = "the suction behind that edge is given too (loads.edge_suction); give one of them";
        r.problems.push(Problem::contradiction("loads.front_radius", written, problem));
    }
    EdgeSuction::Rounded { radius_mm, sharp, rounded }
}

/// What the rivets let a sheet move before they hold, mm: as measured, else nothing. The share that reaches the rivets
/// (`restraint`) counts what rivets and holes give once already.
fn play(r: &mut Reader<'_>, given: Option<Length>) -> f64 {
    given.map_or(0.0, |given| r.length("loads.play", given, 0.0, 5.0))
}

fn racking(r: &mut Reader<'_>, file: &OfLoads) -> (Racking, Standing) {
    let own = &file.loads;
    if own.racking.is_some() && own.racking_angle.is_some() {
        let written = r.written("loads.racking_angle", "given");
        let problem = "the flow is given too (loads.racking); give one of them";
        r.problems.push(Problem::contradiction("loads.racking_angle", written, problem));
    }
    if let Some(angle_deg) = own.racking_angle.map(Angle::deg) {
        let angle_deg = r.bound("loads.racking_angle", angle_deg, 0.0, 2.0, Kind::Angle);
        return (Racking::Angle(angle_deg.to_radians()), Standing::Given);
    }
    let known = file.vehicle.axle_weights.is_some() && file.vehicle.track.is_some();
    if own.racking.is_some() || !known {
        let given = own.racking.map(LineLoad::n_mm);
        let (flow, standing) = r.or_fallback(given, "loads.racking", "racking", (0.0, 500.0), Kind::LineLoad);
        return (Racking::Stated(flow), standing);
    }
    r.assumed.push(Assumption {
        field: "loads.racking".to_owned(),
        value: "one front wheel off the ground".to_owned(),
        source: "judgement: the whole twist goes through the body as a closed tube (Bredt), none through its frame"
            .to_owned(),
        standing: Standing::Assumed,
    });
    (Racking::OneWheel, Standing::Assumed)
}
