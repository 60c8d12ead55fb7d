//! Centre of gravity, springs, wind and drag: what stability and running cost are worked out from.

use crate::body::road_load::Driveline;
use crate::body::stability::{RollSprings, Stance};
use crate::body::survey::Survey;
use crate::body::weighing::{AxleLift, cg_height_from_tilt_mm};
use crate::check::Standing;
use crate::error::Problem;
use crate::plan::file::{self, Axle};
use crate::quantity::{Kind, Length, Ratio, Speed};

use super::memory::{OfAir, OfVehicle};
use super::reader::Reader;
use super::{Assumption, PerAxle};

/// Heights that the centre of gravity of an empty bus can have, mm.
const CG_BOUNDS_MM: (f64, f64) = (300.0, 3000.0);

/// Height of the centre of gravity of the empty vehicle.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct CgHeight {
    /// Least and greatest, mm.
    pub range_mm: (f64, f64),
    pub standing: Standing,
    /// Where it comes from, in words.
    pub origin: String,
}

/// Wind from the side and drag; a pair is the least and the greatest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) struct Air {
    pub side_force: (f64, f64),
    pub gust_overshoot: f64,
    pub skirt_mm: f64,
    pub side_standing: Standing,
    pub cruise_m_s: f64,
    pub drag: (f64, f64),
    pub drag_standing: Standing,
    pub driveline: Driveline,
    pub fuel_standing: Standing,
}

/// What a weighing needs besides its own readings.
pub(super) struct Weighed {
    pub axle_weights: Option<PerAxle>,
    pub wheelbase_mm: Option<f64>,
    pub track_mm: Option<f64>,
}

pub(super) fn cg_height(r: &mut Reader<'_>, file: &OfVehicle, weighed: &Weighed) -> CgHeight {
    let v = &file.vehicle;
    let given = |range_mm, origin: String| CgHeight { range_mm, standing: Standing::Given, origin };
    if let (Some(_), Some(_)) = (v.cg_height, v.weighing) {
        let written = r.written("vehicle.weighing", "a weighing");
        let problem = "vehicle.cg_height is given too; leave one of them out";
        r.problems.push(Problem::contradiction("vehicle.weighing", written, problem));
    }
    if let Some(z) = v.cg_height {
        let z = r.length("vehicle.cg_height", z, CG_BOUNDS_MM.0, CG_BOUNDS_MM.1);
        return given((z, z), "height given by the plan".to_owned());
    }
    if let Some(weighing) = v.weighing {
        let (range_mm, origin) = match (weighing.axle_lift, weighing.tilt_angle) {
            (Some(lift), None) => axle_lift(r, lift, weighed),
            (None, Some(angle)) => tilt(r, angle.deg(), weighed),
            (Some(_), Some(_)) => {
                let written = r.written("vehicle.weighing.tilt_angle", &Kind::Angle.print(0.0));
                let problem = "an axle lift is given too; leave one of them out";
                r.problems.push(Problem::contradiction("vehicle.weighing.tilt_angle", written, problem));
                None
            }
            (None, None) => {
                let fix = "write the readings axle_lift = { … }, or tilt_angle = \"33 deg\"";
                r.problems.push(Problem::missing("vehicle.weighing.axle_lift", fix));
                None
            }
        }
        .unwrap_or((CG_BOUNDS_MM, String::new()));
        return given(range_mm, origin);
    }
    let (low, standing) = r.fallback("vehicle.cg_height", "cg_height_low", CG_BOUNDS_MM, Kind::Length);
    let (high, _) = r.fallback("vehicle.cg_height", "cg_height_high", CG_BOUNDS_MM, Kind::Length);
    let origin = "range assumed: weigh the bus with one axle lifted, or on a tilting platform".to_owned();
    CgHeight { range_mm: (low, high), standing, origin }
}

/// What a weighing gives: the range and its origin; none where something is wrong with it.
type Found = Option<((f64, f64), String)>;

fn needed<T>(r: &mut Reader<'_>, value: Option<T>, path: &str, fix: &str) -> Option<T> {
    if value.is_none() {
        r.problems.push(Problem::missing(path, format!("the weighing needs it: {fix}")));
    }
    value
}

fn axle_lift(r: &mut Reader<'_>, lift: file::AxleLift, weighed: &Weighed) -> Found {
    let path = |name: &str| format!("vehicle.weighing.axle_lift.{name}");
    let before = r.problems.len();
    let lift_mm = r.length(&path("lift"), lift.lift, 50.0, 3000.0);
    let lifted_low_kg = r.bound(&path("low_axle_load"), lift.low_axle_load.kg(), 100.0, 60_000.0, Kind::Mass);
    let low_radius_mm = r.length(&path("wheel_radius"), lift.wheel_radius, 200.0, 800.0);
    let raised_radius_mm = r
        .optional_length(&path("raised_wheel_radius"), lift.raised_wheel_radius, 200.0, 800.0)
        .unwrap_or(low_radius_mm);
    let scale_error_kg = lift.scale_error.map(|e| r.bound(&path("scale_error"), e.kg(), 0.0, 500.0, Kind::Mass));
    let weights = needed(
        r,
        weighed.axle_weights,
        "vehicle.axle_weights",
        "write axle_weights = { front = \"2950 kg\", rear = \"4450 kg\" }",
    );
    let wheelbase_mm = needed(r, weighed.wheelbase_mm, "vehicle.wheelbase", "write wheelbase = \"5.28 m\"");
    let (weights, wheelbase_mm) = (weights?, wheelbase_mm?);
    let (level_low_kg, level_raised_kg) = match lift.raised {
        Axle::Front => (weights.rear_kg, weights.front_kg),
        Axle::Rear => (weights.front_kg, weights.rear_kg),
    };
    if r.problems.len() > before {
        return None;
    }
    let weighing = AxleLift {
        level_low_kg,
        level_raised_kg,
        lifted_low_kg,
        wheelbase_mm,
        lift_mm,
        low_radius_mm,
        raised_radius_mm,
    };
    let problems = weighing.problems();
    if !problems.is_empty() {
        r.problems.extend(problems);
        return None;
    }
    let height_mm = r.keep(weighing.cg_height_mm())?;
    let error_mm_kg = r.keep(weighing.height_error_mm_per_kg())?;
    plausible(r, height_mm, &path("low_axle_load"), &Kind::Mass.print(lifted_low_kg))?;
    let origin = format!("axle-lift weighing; 1 kg on the lifted reading moves it {error_mm_kg:.1} mm");
    let Some(error_kg) = scale_error_kg else {
        r.assumed.push(Assumption {
            field: path("scale_error"),
            value: Kind::Mass.print(0.0),
            source: format!("scale taken as exact; each kilogram moves the centre of gravity by {error_mm_kg:.1} mm"),
            standing: Standing::Assumed,
        });
        return Some(((height_mm, height_mm), origin));
    };
    let wide = |low: f64, high: f64| !(low >= CG_BOUNDS_MM.0 && high <= CG_BOUNDS_MM.1);
    match weighing.cg_range_mm(error_kg) {
        Ok((low, high)) if !wide(low, high) => {
            Some(((low, high), format!("{origin}; every reading within {error_kg} kg")))
        }
        _ => {
            let written = r.written(&path("scale_error"), &Kind::Mass.print(error_kg));
            let problem = "so coarse a scale leaves the height open; lift the axle higher or use a finer scale";
            r.problems.push(Problem::contradiction(path("scale_error"), written, problem));
            None
        }
    }
}

fn tilt(r: &mut Reader<'_>, angle_deg: f64, weighed: &Weighed) -> Found {
    const PATH: &str = "vehicle.weighing.tilt_angle";
    let before = r.problems.len();
    r.bound(PATH, angle_deg, 10.0, 70.0, Kind::Angle);
    let track_mm = needed(r, weighed.track_mm, "vehicle.track", "write track = \"1.95 m\"")?;
    if r.problems.len() > before {
        return None;
    }
    let height_mm = r.keep(cg_height_from_tilt_mm(track_mm, angle_deg))?;
    plausible(r, height_mm, PATH, &Kind::Angle.print(angle_deg))?;
    Some(((height_mm, height_mm), "tilt weighing, rigid: the lean on the springs makes it read too high".to_owned()))
}

/// Refuses readings that put the centre of gravity where no bus has it.
fn plausible(r: &mut Reader<'_>, height_mm: f64, path: &str, understood: &str) -> Option<()> {
    let (least, most) = CG_BOUNDS_MM;
    if (least..=most).contains(&height_mm) {
        return Some(());
    }
    let written = r.written(path, understood);
    r.problems.push(Problem::contradiction(
        path,
        written,
        format!(
            "this puts the centre of gravity {height_mm:.0} mm above the ground, where {least:.0} to {most:.0} mm can \
             be; weigh again, and look whether the axles are not exchanged"
        ),
    ));
    None
}

/// Springs in roll; both entries or neither.
pub(super) fn springs(r: &mut Reader<'_>, file: &OfVehicle, weighed: &Weighed, cg: &CgHeight) -> Option<RollSprings> {
    let v = &file.vehicle;
    let before = r.problems.len();
    let stiffness =
        v.roll_stiffness.map(|k| r.bound("vehicle.roll_stiffness", k.n_m_rad(), 20e3, 10e6, Kind::RollStiffness));
    let axis = r.optional_length("vehicle.roll_axis_height", v.roll_axis_height, 0.0, 2000.0);
    match (stiffness, axis) {
        (Some(stiffness_n_m_rad), Some(axis_height_mm)) => {
            let springs = RollSprings { stiffness_n_m_rad, axis_height_mm };
            if let Some(weights) = weighed.axle_weights.filter(|_| r.problems.len() == before) {
                // The bus stands: where even its lowest centre of gravity is too high, an entry is wrong.
                let mass_kg = weights.front_kg + weights.rear_kg;
                let stance = Stance { track_mm: 0.0, mass_kg, cg_height_mm: cg.range_mm.0, cg_offset_mm: 0.0 };
                r.keep(springs.roll_rate_rad_g(stance))?;
            }
            Some(springs)
        }
        (Some(_), None) => {
            let fix = "the roll stiffness goes with it: write roll_axis_height = \"650 mm\"";
            r.problems.push(Problem::missing("vehicle.roll_axis_height", fix));
            None
        }
        (None, Some(_)) => {
            let fix = "the roll axis goes with it: write roll_stiffness = \"600 kNm/rad\"";
            r.problems.push(Problem::missing("vehicle.roll_stiffness", fix));
            None
        }
        (None, None) => None,
    }
}

/// The plan's one value, or the two ends of the catalogue's range.
fn ratio_range(
    r: &mut Reader<'_>,
    given: Option<Ratio>,
    field: &str,
    (low, high): (&str, &str),
    bounds: (f64, f64),
) -> ((f64, f64), Standing) {
    if let Some(value) = given {
        let value = r.bound(field, value.value(), bounds.0, bounds.1, Kind::Ratio);
        return ((value, value), Standing::Given);
    }
    let (least, a) = r.fallback(field, low, bounds, Kind::Ratio);
    let (most, b) = r.fallback(field, high, bounds, Kind::Ratio);
    ((least, most), a.with(b))
}

pub(super) fn air(r: &mut Reader<'_>, file: &OfAir, survey: Option<&Survey>) -> Air {
    let s = &file.service;
    let given = file.vehicle.skirt_height.map(Length::mm);
    let before = r.problems.len();
    let (skirt_mm, a) = r.or_fallback(given, "vehicle.skirt_height", "skirt_height", (50.0, 1500.0), Kind::Length);
    let bottom = survey.map(|survey| survey.heights.window_bottom_mm);
    if let Some(bottom_mm) = bottom.filter(|z| *z <= skirt_mm && r.problems.len() == before) {
        let written = r.written("vehicle.skirt_height", &Kind::Length.print(skirt_mm));
        let problem = format!("must lie below survey.window_bottom at {bottom_mm:.0} mm");
        r.problems.push(Problem::contradiction("vehicle.skirt_height", written, problem));
    }
    let (side_force, b) =
        ratio_range(r, s.side_force, "service.side_force", ("side_force_low", "side_force_high"), (0.1, 3.0));
    let (gust_overshoot, c) = r.fallback("", "gust_overshoot", (1.0, 2.0), Kind::Ratio);
    let (drag, d) = ratio_range(r, s.drag, "service.drag", ("drag_low", "drag_high"), (0.1, 2.0));
    let cruise = s.cruise_speed.map(Speed::m_s);
    let (cruise_m_s, e) = r.or_fallback(cruise, "service.cruise_speed", "cruise", (1.0, 60.0), Kind::Speed);
    let fuel = s.fuel_use.map(|f| f.g_kwh());
    let (fuel_use_g_kwh, f) = r.or_fallback(fuel, "service.fuel_use", "fuel_use", (50.0, 1000.0), Kind::FuelUse);
    let driveline = s.driveline.map(Ratio::value);
    let (efficiency, g) = r.or_fallback(driveline, "service.driveline", "driveline", (0.3, 1.0), Kind::Ratio);
    let density = s.fuel_density.map(|d| d.kg_m3());
    let (fuel_density_kg_m3, h) =
        r.or_fallback(density, "service.fuel_density", "fuel_density", (300.0, 1200.0), Kind::Density);
    let drag_standing = d.with(e);
    Air {
        side_force,
        gust_overshoot,
        skirt_mm,
        side_standing: a.with(b).with(c),
        cruise_m_s,
        drag,
        drag_standing,
        driveline: Driveline { fuel_use_g_kwh, efficiency, fuel_density_kg_m3 },
        fuel_standing: [f, g, h].into_iter().fold(drag_standing, Standing::with),
    }
}
