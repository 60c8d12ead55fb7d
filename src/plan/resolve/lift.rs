//! The lift in numbers.

use crate::body::lift::{Brace, Conditions, Lift, MOST_STEPS, Roof, Support, WindFace};
use crate::body::raise::Raise;
use crate::body::survey::Survey;
use crate::check::Standing;
use crate::error::Problem;
use crate::plan::file::{self, LiftBrace, Spot};
use crate::quantity::{Kind, Length, Ratio};

use super::Assumption;
use super::memory::OfLift;
use super::reader::Reader;

/// What holds the roof while it is off, and what the planner decided.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct LiftPlan {
    pub lift: Lift,
    /// The roof's mass is the plan's own.
    pub mass_given: bool,
    pub step_mm: f64,
    pub gap_mm: Option<f64>,
    pub lag_mm: Option<f64>,
    /// The supports' stiffness is the plan's own.
    pub stiffness_given: bool,
    /// The wind at which the planner stops, m/s.
    pub wind_m_s: Option<f64>,
    /// Of the weight and where it acts.
    pub at_rest: Standing,
    /// Of the loads that wind, slope and lean make.
    pub standing: Standing,
}

pub(super) fn lift(
    r: &mut Reader<'_>,
    file: &OfLift,
    (survey, raise): (&Survey, &Raise),
    (roof_mass_kg, roof_standing): (f64, Standing),
    air_density_kg_m3: f64,
) -> Option<LiftPlan> {
    let given = file.lift.as_ref()?;
    let before = r.problems.len();
    let supports = supports(r, given);
    let braces = braces(r, given);
    let centre_mm = match given.centre {
        Some(centre) => spot(r, "lift.centre", centre),
        None => {
            let middle = raise.roof_middle_mm(survey);
            r.assumed.push(Assumption {
                field: "lift.centre".to_owned(),
                value: format!("x {:.0} mm, y {:.0} mm, z {:.0} mm", middle[0], middle[1], middle[2]),
                source: "middle of the roof's plan area, half-way from drip rail to crown: weigh the roof where it is fitted \
                         unevenly"
                    .to_owned(),
                standing: Standing::Assumed,
            });
            middle
        }
    };
    let rise_mm = raise.height_mm;
    let step = given.step.map(Length::mm);
    let least_step_mm = (rise_mm / (MOST_STEPS - 1) as f64).max(5.0);
    let (step_mm, _) = r.or_fallback(step, "lift.step", "lift_step", (least_step_mm, 1500.0), Kind::Length);
    let gap_mm = r.optional_length("lift.gap", given.gap, 0.0, 500.0);
    let lag_mm = r.optional_length("lift.lag", given.lag, 0.0, 500.0);
    let wind_m_s = given.wind.map(|v| r.bound("lift.wind", v.m_s(), 2.0, 40.0, Kind::Speed));
    let mut share = |given: Option<Ratio>, field: &str, key: &str, bounds| {
        r.or_fallback(given.map(Ratio::value), field, key, bounds, Kind::Ratio)
    };
    let (out_of_plumb, a) = share(given.out_of_plumb, "lift.out_of_plumb", "out_of_plumb", (0.0, 0.1));
    let (friction, b) = share(given.friction, "lift.friction", "crib_friction", (0.01, 1.0));
    let (factor, c) = share(given.factor, "lift.factor", "lift_factor", (1.0, 10.0));
    let (push, d) = share(given.wind_push, "lift.wind_push", "side_pressure", (0.5, 3.0));
    let (uplift, e) = share(given.wind_uplift, "lift.wind_uplift", "roof_uplift", (0.5, 3.0));
    let (uplift_off, h_off) = share(None, "lift.wind_uplift", "uplift_off", (0.0, 0.5));
    let (holding_down, i) = share(None, "lift.factor", "holding_down", (0.5, 1.0));
    let along = given.slope.map(|s| s.along);
    let (slope_along, f) = share(along, "lift.slope", "ground_slope", (0.0, 0.1));
    let slope_across = match given.slope {
        Some(slope) => r.bound("lift.slope.across", slope.across.value(), 0.0, 0.1, Kind::Ratio),
        None => slope_along,
    };
    let stiffness = given.support_stiffness.map(|k| k.n_mm());
    let field = "lift.support_stiffness";
    let (support_n_mm, g) = r.or_fallback(stiffness, field, "support_stiffness", (10.0, 1e6), Kind::LineLoad);
    let (rear, front) = raise.roof_ends_mm(survey);
    let (h, cut_mm) = (&survey.heights, raise.cut_mm);
    let wind = WindFace {
        side_m2: (front - rear) * (h.crown_mm - cut_mm) / 1e6,
        ends_m2: 2.0 * survey.section.area_m2(cut_mm),
        plan_m2: (front - rear) * survey.width_mm / 1e6,
        size_mm: [front - rear, survey.width_mm],
        middle_mm: [f64::midpoint(rear, front), 0.0, f64::midpoint(cut_mm, h.crown_mm)],
        push,
        uplift,
        uplift_off,
        air_density_kg_m3,
    };
    let conditions = Conditions {
        slope_along,
        slope_across,
        out_of_plumb,
        friction,
        support_n_mm,
        lag_mm: lag_mm.unwrap_or(0.0),
        holding_down,
        factor,
    };
    let roof = Roof { mass_kg: roof_mass_kg, centre_mm };
    // A centre and a modulus that the plan does not give are assumed.
    let given_or = |all: bool| if all { Standing::Given } else { Standing::Assumed };
    let at_rest = roof_standing.with(given_or(given.centre.is_some())).with(c);
    let moduli = given_or(given.braces.iter().all(|brace| brace.modulus.is_some()));
    let standing = [a, b, d, e, f, g, h_off, i, moduli].into_iter().fold(at_rest, Standing::with);
    (r.problems.len() == before).then_some(LiftPlan {
        lift: Lift { roof, supports, braces, wind, conditions },
        mass_given: file.survey.roof_mass.is_some(),
        step_mm,
        gap_mm,
        lag_mm,
        stiffness_given: stiffness.is_some(),
        wind_m_s,
        at_rest,
        standing,
    })
}

fn spot(r: &mut Reader<'_>, path: &str, at: Spot) -> [f64; 3] {
    [
        r.length(&format!("{path}.x"), at.x, -3000.0, 25_000.0),
        r.length(&format!("{path}.y"), at.y, -3000.0, 3000.0),
        r.length(&format!("{path}.z"), at.z, 0.0, 6000.0),
    ]
}

/// Reports a name that is empty or was used before.
fn own_name(r: &mut Reader<'_>, path: String, name: &str, earlier: &[&str]) {
    if name.trim().is_empty() {
        r.problems.push(Problem::missing(path, "results are told by name: write what to call it"));
    } else if earlier.contains(&name) {
        r.problems.push(Problem::contradiction(path, name, "this name is given twice; results are told by name"));
    }
}

/// More than any roof stands on.
const MOST_SUPPORTS: usize = 24;

/// More than anyone rigs.
const MOST_BRACES: usize = 60;

fn supports(r: &mut Reader<'_>, given: &file::Lift) -> Vec<Support> {
    let few = |count: usize, most: usize, path: &str| {
        (count > most).then(|| Problem::out_of_range(path, format!("{count} of them"), format!("at most {most}")))
    };
    r.problems.extend(few(given.supports.len(), MOST_SUPPORTS, "lift.supports"));
    r.problems.extend(few(given.braces.len(), MOST_BRACES, "lift.braces"));
    let mut names = Vec::new();
    let mut all: Vec<Support> = Vec::new();
    for (i, s) in given.supports.iter().enumerate() {
        let path = |entry: &str| format!("lift.supports[{i}].{entry}");
        own_name(r, path("name"), &s.name, &names);
        names.push(s.name.as_str());
        let support = Support {
            name: s.name.clone(),
            x_mm: r.length(&path("x"), s.x, -3000.0, 25_000.0),
            y_mm: r.length(&path("y"), s.y, -3000.0, 3000.0),
            foot_mm: r.length(&path("foot"), s.foot, -500.0, 6000.0),
            top_mm: r.length(&path("top"), s.top, 0.0, 6000.0),
            capacity_n: s.capacity.map(|f| r.bound(&path("capacity"), f.n(), 100.0, 1e7, Kind::Force)),
        };
        if support.top_mm - support.foot_mm < 50.0 {
            let written = r.written(&path("top"), &Kind::Length.print(support.top_mm));
            let problem = format!("must lie above its foot at {:.0} mm by 50 mm at least", support.foot_mm);
            r.problems.push(Problem::contradiction(path("top"), written, problem));
        }
        if let Some(other) = all.iter().find(|o| (o.x_mm - support.x_mm).hypot(o.y_mm - support.y_mm) < 10.0) {
            let written = r.written(&path("x"), &Kind::Length.print(support.x_mm));
            let problem = format!("stands where \"{}\" stands; count two in one place as one", other.name);
            r.problems.push(Problem::contradiction(path("x"), written, problem));
        }
        all.push(support);
    }
    all
}

fn braces(r: &mut Reader<'_>, given: &file::Lift) -> Vec<Brace> {
    let steel_mpa = r.keep(r.catalogue.material("lift.braces", "carbon steel")).map(|m| m.modulus.mpa());
    if given.braces.iter().any(|b| b.modulus.is_none())
        && let Some(mpa) = steel_mpa
    {
        let source = "modulus of steel, where a brace gives none: webbing and rope stretch far more, give theirs";
        r.list("lift.braces.modulus", Kind::Pressure.print(mpa), source, Standing::Assumed);
    }
    let mut names = Vec::new();
    let mut all = Vec::new();
    for (i, b) in given.braces.iter().enumerate() {
        let path = |entry: &str| format!("lift.braces[{i}].{entry}");
        own_name(r, path("name"), &b.name, &names);
        names.push(b.name.as_str());
        let (from_mm, to_mm) = (spot(r, &path("from"), b.from), spot(r, &path("to"), b.to));
        let area_mm2 = area_mm2(r, i, b);
        let modulus = b.modulus.map(|m| r.bound(&path("modulus"), m.mpa(), 10.0, 1e6, Kind::Pressure));
        let mut rating = |entry: &str, given: Option<crate::quantity::Force>, least_n: f64| {
            given.map(|f| r.bound(&path(entry), f.n(), least_n, 1e7, Kind::Force))
        };
        let (tension_n, compression_n) =
            (rating("tension", b.tension, 100.0), rating("compression", b.compression, 0.0));
        if let (Some(area_mm2), Some(modulus_mpa)) = (area_mm2, modulus.or(steel_mpa)) {
            let name = b.name.clone();
            all.push(Brace { name, from_mm, to_mm, area_mm2, modulus_mpa, tension_n, compression_n });
        }
    }
    all
}

/// Area of a brace, from its section or as given.
fn area_mm2(r: &mut Reader<'_>, i: usize, b: &LiftBrace) -> Option<f64> {
    let path = |entry: &str| format!("lift.braces[{i}].{entry}");
    match (&b.section, b.area) {
        (Some(choice), None) => r.section(&path("section"), choice, true).map(|s| s.properties.area_mm2),
        (None, Some(area)) => Some(1e6 * r.bound(&path("area"), area.m2(), 1e-6, 0.1, Kind::Area)),
        (None, None) => {
            r.problems.push(Problem::missing(path("area"), "write area = \"60 mm2\", or name its section"));
            None
        }
        (Some(_), Some(area)) => {
            let written = r.written(&path("area"), &Kind::Area.print(area.m2()));
            r.problems.push(Problem::contradiction(
                path("area"),
                written,
                "a section is given too; leave one of them out",
            ));
            None
        }
    }
}
