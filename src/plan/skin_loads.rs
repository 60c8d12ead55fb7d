//! A plan's loads on its skins: suction by zone, what works in the plane, and what each rivet line carries of them.

use serde::Serialize;

use crate::body::measures::BodyMeasures;
use crate::body::raise::Ends;
use crate::body::rivet_lines::{LineKind, RivetLine};
use crate::body::skin_loads::{
    Air, AirCase, InPlane, LineLoad, Zone, Zones, attached, is_upright, one_wheel_torque_n_m, racked_flow_n_mm,
    shear_flow_n_mm,
};
use crate::body::stability::stagnation_pressure_pa;
use crate::check::{Standing, significant};

use super::flatness;
use super::resolve::{EdgeSuction, Racking, Resolved};

/// What the roads, the wind and the sun do to the skin.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LoadCase {
    /// Fastest road speed, m/s.
    pub speed_m_s: f64,
    /// Stagnation pressure at that speed, Pa.
    pub stagnation_pa: f64,
    /// Gust across the bus, m/s.
    pub crosswind_m_s: f64,
    /// Suction and pressure.
    pub air: Air,
    /// Where the zones of a side lie.
    pub zones: Zones,
    /// What works in the plane of the skin.
    pub in_plane: InPlane,
    /// Where the racking comes from.
    pub racking_case: String,
    /// When the force from temperature is greatest.
    pub temperature_case: &'static str,
    /// Partial factor from service to design loads.
    pub load_factor: f64,
    /// The weakest standing of what went in.
    pub standing: Standing,
}

/// A row of the loads on the skin.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SkinLoad {
    /// What loads it.
    pub load: String,
    /// Where.
    pub place: &'static str,
    /// When.
    pub case: String,
    /// How much.
    pub value: f64,
    /// Its unit.
    pub unit: &'static str,
}

impl LoadCase {
    /// Greatest suction anywhere on the skin, Pa.
    pub fn suction_pa(&self) -> f64 {
        Zone::ALL.into_iter().map(|zone| self.air.suction(zone).0).fold(0.0, f64::max)
    }

    /// Of the zones that something may lie in the one of the greatest suction, the first of equals; and that suction, Pa.
    pub(super) fn worst(&self, zones: &[Zone]) -> (Zone, (f64, AirCase)) {
        let all = zones.iter().map(|zone| (*zone, self.air.suction(*zone)));
        all.reduce(|worst, next| if next.1.0 > worst.1.0 { next } else { worst })
            .unwrap_or((Zone::FrontEdge, self.air.suction(Zone::FrontEdge)))
    }

    /// Every load, a row each.
    pub fn rows(&self) -> Vec<SkinLoad> {
        let net = |zone: Zone, case: AirCase| SkinLoad {
            load: "net pressure outward".to_owned(),
            place: zone.words(),
            case: case.words().to_owned(),
            value: self.air.net_pa(zone, case),
            unit: "Pa",
        };
        let row =
            |load: &str, place, case: String, value, unit| SkinLoad { load: load.to_owned(), place, case, value, unit };
        let p = &self.in_plane;
        let held = self.temperature_case.to_owned();
        let mut rows: Vec<SkinLoad> =
            Zone::ALL.into_iter().flat_map(|zone| AirCase::ALL.map(|case| net(zone, case))).collect();
        rows.push(row("racking, along the line", "every line", self.racking_case.clone(), p.racking_n_mm, "N/mm"));
        rows.push(row("temperature, across the line", "lines where a sheet ends", held, p.temperature_n_mm, "N/mm"));
        rows.push(row("weight in a jolt", "every line", "on the road".to_owned(), 1.0 + p.shock, "g"));
        rows
    }
}

/// The loads; `front_axle_kg` is what the front axle carries after the raise, where known.
pub(super) fn load_case(r: &Resolved, body: &BodyMeasures, front_axle_kg: Option<f64>) -> LoadCase {
    let own = &r.loads;
    let q = |speed_m_s| stagnation_pressure_pa(own.air_density_kg_m3, speed_m_s);
    let edge = match own.edge {
        EdgeSuction::Stated(suction) => suction,
        // A step or slope is an edge of its own, folded sharp.
        EdgeSuction::Rounded { radius_mm, rounded, .. }
            if r.raise.ends == Ends::WholeRoof && attached(radius_mm, body.after.frontal_area_m2) =>
        {
            rounded
        }
        EdgeSuction::Rounded { sharp, .. } => sharp,
    };
    let air = Air {
        road_pa: q(own.speed_m_s),
        crosswind_pa: q(own.crosswind_m_s),
        edge,
        side: own.side,
        rear: own.rear,
        front: own.front,
        lee: own.lee,
        strip: own.strip,
        passing: own.passing,
        inside: own.inside,
    };
    let front_mm = match r.raise.ends {
        Ends::WholeRoof => r.survey.length_mm,
        // The step or slope is a front edge of its own.
        _ => r.survey.posts_mm.get(r.raise.last_post).copied().unwrap_or(r.survey.length_mm),
    };
    let (racking_n_mm, racking_case) = racking(r, body, front_axle_kg);
    let (temperature_n_mm, temperature_case) = flatness::line_force(r);
    let in_plane = InPlane {
        racking_n_mm,
        shock: own.shock,
        areal_mass_kg_m2: r.sheet.areal_mass_kg_m2 + r.masses.coat_kg_m2,
        temperature_n_mm,
    };
    LoadCase {
        speed_m_s: own.speed_m_s,
        stagnation_pa: air.road_pa,
        crosswind_m_s: own.crosswind_m_s,
        air,
        zones: Zones { front_mm, reach_mm: own.edge_zone_mm },
        in_plane,
        racking_case,
        temperature_case,
        load_factor: own.load_factor,
        standing: own.standing.with(r.flatness.standing),
    }
}

fn racking(r: &Resolved, body: &BodyMeasures, front_axle_kg: Option<f64>) -> (f64, String) {
    let metal = &r.flatness.metal;
    match r.loads.racking {
        Racking::Stated(flow) => (flow, "as stated".to_owned()),
        Racking::Angle(angle_rad) => (
            racked_flow_n_mm(metal.modulus_mpa, metal.poisson, metal.thickness_mm, angle_rad),
            format!("racked by {}°, no folds", significant(angle_rad.to_degrees())),
        ),
        Racking::OneWheel => {
            let axle_kg = front_axle_kg.or(r.axle_weights.map(|w| w.front_kg)).unwrap_or(0.0).max(0.0);
            let torque = one_wheel_torque_n_m(axle_kg, r.track_mm.unwrap_or(0.0));
            // The closed tube that the body is, on the mean.
            let enclosed_m2 = body.after.enclosed_volume_m3 / (r.survey.length_mm / 1000.0);
            (shear_flow_n_mm(torque, enclosed_m2), "one front wheel off the ground".to_owned())
        }
    }
}

/// What one rivet line carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct OnLine {
    pub zone: Zone,
    pub suction_pa: f64,
    pub air_case: AirCase,
    pub load: LineLoad,
}

pub(super) fn on_line(r: &Resolved, loads: &LoadCase, line: &RivetLine) -> OnLine {
    let panel = line.of_panel.and_then(|(panel, _)| r.skins.ends.get(panel));
    let slopes = matches!(r.raise.ends, Ends::Sloped { .. });
    let of_panel = panel.map_or((false, false), |panel| (panel.front, slopes || panel.wrap.is_some()));
    let (zone, (suction_pa, air_case)) = loads.worst(&loads.zones.of_line(line, of_panel));
    OnLine { zone, suction_pa, air_case, load: loads.in_plane.on_line(line.kind, is_upright(line), line.tributary_mm) }
}

/// Share of the tributary suction that a line carries.
pub(super) fn continuity(r: &Resolved, kind: LineKind) -> f64 {
    if kind.panel_edge() { 1.0 } else { r.loads.continuity }
}
