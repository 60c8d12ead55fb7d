//! A plan's lift: the roof off its posts, what its supports and braces carry at each step, and the wind at which work stops.

use rayon::prelude::*;
use serde::Serialize;

use crate::body::lift::{
    Brace, Extremes, Stage, StopWind, Support, drop_load_n, even_loads_n, greatest_loads_n, heights_mm,
    lagging_loads_n, tipping_margin_mm,
};
use crate::check::{Check, Level, Standing, Term, Verdict, governing, significant, term};
use crate::error::Problem;

use super::resolve::{LiftPlan, Resolved};

/// What is not in any of these numbers; told with the stop-work wind whatever it is.
const LEFT_OUT: &str = "a planning figure, no clearance; it holds only with every brace hung: while one is let go to be hung \
                        anew at the next step less wind is held, or none; with one crib low another may come free before that wind, so shim after every step; left out: gusts between two looks at the gauge, \
                        pretension of straps, which presses the cribs and pulls each strap besides, a body that is not blocked \
                        off its springs and tyres, the body's own strength where braces and cribs bear, fittings, the ground \
                        under the cribs, people and tools on the roof, the jacking itself";

/// One support in still air.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SupportLoads {
    /// Its name.
    pub name: String,
    /// Forward of the rear face, mm.
    pub x_mm: f64,
    /// To the left of the middle, mm.
    pub y_mm: f64,
    /// Load where all are equally stiff and level, N; nought where it lifts off.
    pub even_n: f64,
    /// Greatest load that it can get however the others lag, N.
    pub greatest_n: f64,
    /// Greatest load when any one support lags by the plan's amount, N; none where lag or stiffness is not in the plan.
    pub lag_n: Option<f64>,
    /// The support that lags when it gets that.
    pub lagging: Option<String>,
    /// Load when its greatest load drops onto it through the plan's gap, N; none where gap or stiffness is not in the plan.
    pub drop_n: Option<f64>,
    /// What its maker rates it for, N.
    pub capacity_n: Option<f64>,
}

/// The lift with the roof at one height.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LiftStep {
    /// How far the roof is up, mm.
    pub rise_mm: f64,
    /// The largest wind at which everything holds with the planner's factor; none where a rating is not known.
    pub stop: Option<StopWind>,
    /// How many times the roof's weight leans it over.
    pub leaning_factor: Option<f64>,
    /// Loads at the wind that forces are told for; none where nothing holds the roof in it.
    pub extremes: Option<Extremes>,
    /// The support with the greatest load in that wind, and the load, N.
    pub greatest_support: Option<(String, f64)>,
    /// The brace with the greatest force in that wind, and the force, N.
    pub greatest_brace: Option<(String, f64)>,
}

/// A brace with the roof at one height.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BraceAtStep {
    /// How far the roof is up, mm.
    pub rise_mm: f64,
    /// Its name.
    pub name: String,
    /// From point to point, mm: it is hung anew at each step.
    pub length_mm: f64,
    /// Over the level, degrees.
    pub angle_deg: f64,
    /// Greatest pull, the planner's factor in it, N.
    pub tension_n: Option<f64>,
    /// Greatest press, the planner's factor in it, N.
    pub compression_n: Option<f64>,
    /// What it may be pulled with, N.
    pub tension_capacity_n: Option<f64>,
    /// What it may be pressed with, N.
    pub compression_capacity_n: Option<f64>,
}

/// The roof off its posts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LiftSummary {
    /// Mass of the roof, kg; none where it is not in the plan.
    pub roof_mass_kg: Option<f64>,
    /// Its weight, N.
    pub weight_n: Option<f64>,
    /// Its centre before the lift, mm: forward of the rear face, left of the middle, above the ground.
    pub centre_mm: [f64; 3],
    /// Way from the centre to the nearest edge of the supports' outline, mm.
    pub tipping_margin_mm: Option<f64>,
    /// Where supports stand.
    pub support_places: Vec<Support>,
    /// Where braces are fixed.
    pub brace_places: Vec<Brace>,
    /// Each support in still air.
    pub supports: Vec<SupportLoads>,
    /// Each step of the lift, from the roof just cut free.
    pub steps: Vec<LiftStep>,
    /// Each brace at each step.
    pub braces: Vec<BraceAtStep>,
    /// The planner's factor on every load.
    pub factor: f64,
    /// Wind at which work stops, the least over the steps, m/s: worked out with the planner's factor.
    pub stop_wind_m_s: Option<f64>,
    /// What gives way first.
    pub stopped_by: Option<String>,
    /// Rise at which it does, mm.
    pub stopped_at_mm: Option<f64>,
    /// The wind at which the planner stops, m/s.
    pub planned_wind_m_s: Option<f64>,
    /// The lower of both, m/s.
    pub governing_wind_m_s: Option<f64>,
    /// The wind that forces are told for, m/s: the planner's, else the one worked out.
    pub forces_wind_m_s: Option<f64>,
    /// What the wind is counted on.
    pub counted: String,
    /// Why there is no number where there is none: refused.
    pub refusals: Vec<String>,
    /// Entries without which something is not assessed.
    pub missing: Vec<String>,
}

/// Works the lift out; none where the plan has none.
pub(super) fn lift(r: &Resolved) -> Option<LiftSummary> {
    let plan = r.lift.as_ref()?;
    let lift = &plan.lift;
    let wind = &lift.wind;
    let mut summary = LiftSummary {
        roof_mass_kg: plan.mass_given.then_some(lift.roof.mass_kg),
        weight_n: plan.mass_given.then(|| lift.roof.weight_n()),
        centre_mm: lift.roof.centre_mm,
        tipping_margin_mm: None,
        support_places: lift.supports.clone(),
        brace_places: lift.braces.clone(),
        supports: Vec::new(),
        steps: Vec::new(),
        braces: Vec::new(),
        factor: lift.conditions.factor,
        stop_wind_m_s: None,
        stopped_by: None,
        stopped_at_mm: None,
        planned_wind_m_s: plan.wind_m_s,
        governing_wind_m_s: plan.wind_m_s,
        forces_wind_m_s: None,
        counted: format!(
            "wind on the roof above the cut: across, its side face of {:.1} m2 as a rectangle; along, both end caps, {:.1} m2, as \
             it blows in under the roof; push {} and uplift {} of the stagnation pressure on {:.1} m2 from below",
            wind.side_m2, wind.ends_m2, wind.push, wind.uplift, wind.plan_m2
        ),
        refusals: Vec::new(),
        missing: missing(plan),
    };
    if plan.mass_given {
        summary.refusals = not_across_the_cut(plan, r.raise.cut_mm);
        summary.refusals.extend(not_at_the_roof(r, plan));
        if let Err(problem) = work_out(plan, r.raise.height_mm, &mut summary) {
            summary.refusals.push(problem.to_string());
        }
    }
    Some(summary)
}

/// Braces that do not tie the roof to the body.
fn not_across_the_cut(plan: &LiftPlan, cut_mm: f64) -> Vec<String> {
    let wrong = |entry: &str, name: &str, z: f64, should: &str| {
        format!(
            "lift.braces, {name}, {entry}.z: {z:.0} mm must lie {should} the cut at {cut_mm:.0} mm: a brace ties the body to the roof"
        )
    };
    let braces = plan.lift.braces.iter().flat_map(|b| {
        let (low, high) = (b.from_mm[2], b.to_mm[2]);
        [
            (low >= cut_mm).then(|| wrong("from", &b.name, low, "below")),
            (high <= cut_mm).then(|| wrong("to", &b.name, high, "above")),
        ]
    });
    braces.flatten().collect()
}

/// How far past the roof's or the body's edge a brace may be fixed, mm: a tab or an eye.
const OVERHANG_MM: f64 = 100.0;

/// Masses of a roof over its plan area that are believed, kg/m2: about half to three times what roofs of buses have.
const ROOF_KG_M2: (f64, f64) = (8.0, 60.0);

/// Supports, braces and centre that are not where the part of the roof is that goes up; a mass that is not that part's.
fn not_at_the_roof(r: &Resolved, plan: &LiftPlan) -> Vec<String> {
    let ((rear, front), survey, lift) = (r.raise.roof_ends_mm(&r.survey), &r.survey, &plan.lift);
    let (cut, crown) = (r.raise.cut_mm, survey.heights.crown_mm);
    let half = survey.half_width_mm(survey.heights.drip_rail_mm);
    let mut all = Vec::new();
    let mut within = |what: String, entry: &str, mm: f64, (low, high): (f64, f64)| {
        if !(low..=high).contains(&mm) {
            all.push(format!(
                "{what}, {entry}: {mm:.0} mm is not at the roof that goes up, {low:.0} to {high:.0} mm: measure it again"
            ));
        }
    };
    for s in &lift.supports {
        let what = format!("lift.supports, {}", s.name);
        within(what.clone(), "x", s.x_mm, (rear, front));
        within(what.clone(), "y", s.y_mm, (-half, half));
        within(what, "top", s.top_mm, (cut, crown));
    }
    let wide = 0.5 * survey.width_mm + OVERHANG_MM;
    for b in &lift.braces {
        let ([x0, y0, _], [x, y, z]) = (b.from_mm, b.to_mm);
        let what = format!("lift.braces, {}", b.name);
        within(what.clone(), "from.x", x0, (-OVERHANG_MM, survey.length_mm + OVERHANG_MM));
        within(what.clone(), "from.y", y0, (-wide, wide));
        within(what.clone(), "to.x", x, (rear - OVERHANG_MM, front + OVERHANG_MM));
        within(what.clone(), "to.y", y, (-wide, wide));
        within(what, "to.z", z, (f64::NEG_INFINITY, crown + OVERHANG_MM));
    }
    let [x, y, z] = lift.roof.centre_mm;
    within("lift.centre".to_owned(), "x", x, (rear, front));
    within("lift.centre".to_owned(), "y", y, (-half, half));
    within("lift.centre".to_owned(), "z", z, (cut, crown));
    let areal = lift.roof.mass_kg / lift.wind.plan_m2;
    if !(ROOF_KG_M2.0..=ROOF_KG_M2.1).contains(&areal) {
        all.push(format!(
            "survey.roof_mass: {:.0} kg on {:.1} m2 that go up are {areal:.0} kg/m2, and a roof has {} to {}: give the mass of \
             the part that is lifted, with all that stays on it",
            lift.roof.mass_kg, lift.wind.plan_m2, ROOF_KG_M2.0, ROOF_KG_M2.1
        ));
    }
    all
}

/// Entries without which the wind at which work stops is not worked out.
fn missing(plan: &LiftPlan) -> Vec<String> {
    let mut missing = Vec::new();
    if !plan.mass_given {
        missing.push("survey.roof_mass: weigh the roof, or work its mass out; none is assumed here".to_owned());
    }
    if plan.lag_mm.is_none() {
        missing.push("lift.lag: how far one support may stand lower than the others".to_owned());
    }
    if !plan.stiffness_given {
        missing.push("lift.support_stiffness: how hard a support is to press down".to_owned());
    }
    let supports = plan.lift.supports.iter().filter(|s| s.capacity_n.is_none());
    missing.extend(supports.map(|s| format!("lift.supports, {}: capacity", s.name)));
    for (brace, entry) in plan.lift.braces.iter().flat_map(|b| [(b, "tension"), (b, "compression")]) {
        let rating = if entry == "tension" { brace.tension_n } else { brace.compression_n };
        if rating.is_none() {
            missing.push(format!("lift.braces, {}: {entry}", brace.name));
        }
    }
    missing
}

fn work_out(plan: &LiftPlan, height_mm: f64, summary: &mut LiftSummary) -> Result<(), Problem> {
    let lift = &plan.lift;
    let (weight_n, centre, places) = (lift.roof.weight_n(), lift.centre_mm(), lift.places_mm());
    summary.tipping_margin_mm = Some(tipping_margin_mm(centre, &places)?);
    let even = even_loads_n(weight_n, centre, &places)?;
    let greatest = greatest_loads_n(weight_n, centre, &places)?;
    let k = plan.stiffness_given.then_some(lift.conditions.support_n_mm);
    let mut lagging: Vec<Option<(f64, String)>> = vec![None; places.len()];
    if let (Some(k), Some(lag_mm)) = (k, plan.lag_mm) {
        for (which, low) in lift.supports.iter().enumerate() {
            let loads = lagging_loads_n(weight_n, centre, &places, (which, lag_mm), k)?;
            for (most, load) in lagging.iter_mut().zip(loads) {
                if most.as_ref().is_none_or(|(n, _)| *n < load) {
                    *most = Some((load, low.name.clone()));
                }
            }
        }
    }
    for (((support, even_n), greatest_n), lag) in lift.supports.iter().zip(even).zip(greatest).zip(lagging) {
        let (lag_n, low) = lag.unzip();
        summary.supports.push(SupportLoads {
            name: support.name.clone(),
            x_mm: support.x_mm,
            y_mm: support.y_mm,
            even_n,
            greatest_n,
            lag_n,
            lagging: low,
            drop_n: k.zip(plan.gap_mm).map(|(k, gap_mm)| drop_load_n(greatest_n, gap_mm, k)),
            capacity_n: support.capacity_n,
        });
    }
    // A brace of which it is not known whether it can be pressed may be a bar or a strap.
    if !summary.refusals.is_empty() || lift.braces.iter().any(|b| b.compression_n.is_none()) {
        return Ok(());
    }
    let heights = heights_mm(height_mm, plan.step_mm);
    // Refused at any step is refused: what holds at one height only holds no lift.
    let stages = heights.iter().map(|z| Stage::new(lift, *z)).collect::<Result<Vec<_>, _>>()?;
    let stops: Vec<Option<StopWind>> =
        stages.par_iter().map(|stage| summary.missing.is_empty().then(|| stage.stop_wind())).collect();
    let speed = |stop: &StopWind| stop.wind_m_s.unwrap_or(-1.0);
    let worst = heights.iter().zip(&stops).filter_map(|(z, stop)| Some((*z, stop.as_ref()?)));
    if let Some((rise_mm, stop)) = worst.min_by(|a, b| speed(a.1).total_cmp(&speed(b.1))) {
        summary.stop_wind_m_s = stop.wind_m_s;
        summary.stopped_by = Some(stop.words());
        summary.stopped_at_mm = Some(rise_mm);
        summary.governing_wind_m_s = stop.wind_m_s.map(|v| plan.wind_m_s.map_or(v, |own| own.min(v)));
    }
    // Without either the forces in still air are all that can be told.
    let told_m_s = plan.wind_m_s.or(summary.stop_wind_m_s).unwrap_or(0.0);
    summary.forces_wind_m_s = Some(told_m_s);
    for ((rise_mm, stage), stop) in heights.into_iter().zip(&stages).zip(stops) {
        let extremes = stage.extremes(told_m_s).ok();
        let of = |extremes: &Extremes, i: usize| (extremes.tension_n[i], extremes.compression_n[i]);
        for (i, brace) in lift.braces.iter().enumerate() {
            let forces = extremes.as_ref().map(|e| of(e, i));
            summary.braces.push(BraceAtStep {
                rise_mm,
                name: brace.name.clone(),
                length_mm: brace.length_mm(rise_mm),
                angle_deg: brace.angle_deg(rise_mm),
                tension_n: forces.map(|f| f.0),
                compression_n: forces.map(|f| f.1),
                tension_capacity_n: brace.tension_n,
                compression_capacity_n: brace.compression_n,
            });
        }
        let most = |values: Vec<(String, f64)>| values.into_iter().max_by(|a, b| a.1.total_cmp(&b.1));
        let supports = |e: &Extremes| {
            most(lift.supports.iter().map(|s| s.name.clone()).zip(e.supports_most_n.iter().copied()).collect())
        };
        let braces = |e: &Extremes| {
            let forces = (0..lift.braces.len()).map(|i| of(e, i)).map(|(t, c)| t.max(c));
            most(lift.braces.iter().map(|b| b.name.clone()).zip(forces).collect())
        };
        summary.steps.push(LiftStep {
            rise_mm,
            stop,
            leaning_factor: stage.leaning_factor(),
            greatest_support: extremes.as_ref().and_then(supports),
            greatest_brace: extremes.as_ref().and_then(braces),
            extremes,
        });
    }
    Ok(())
}

/// The one name of a check that stands for the whole lift.
const WHOLE: &str = "roof off its posts";

/// Supports in still air, in the wind, braces, leaning, sliding and the stop-work wind: of each the worst over the steps.
pub(super) fn checks(r: &Resolved, summary: Option<&LiftSummary>) -> Vec<Check> {
    let whole = |verdict: Verdict, reason: String| {
        let check = Check::compare(WHOLE, "", (None, None, "N"), Level::Stated, Standing::Given);
        vec![check.demoted(verdict, reason)]
    };
    let (Some(summary), Some(plan)) = (summary, &r.lift) else {
        let reason = "what holds the roof while it is off is not in the plan: write [lift] with supports (place, foot, top, \
                      capacity) and braces (from, to, area or section, tension, compression)";
        return whole(Verdict::NotAssessed, reason.to_owned());
    };
    if !plan.mass_given {
        return whole(Verdict::NotAssessed, summary.missing.join("; "));
    }
    let mut checks = Vec::new();
    if !summary.supports.is_empty() {
        checks.extend(still_air(plan, summary));
    }
    if !summary.refusals.is_empty() {
        checks.extend(whole(Verdict::OutsideRange, format!("refused: {}", summary.refusals.join("; "))));
    } else if summary.steps.is_empty() {
        checks.extend(whole(Verdict::NotAssessed, format!("not in the plan: {}", summary.missing.join("; "))));
    } else {
        checks.extend(in_wind(plan, summary));
    }
    checks
}

fn worst(checks: &[Check]) -> Option<Check> {
    governing(checks).cloned()
}

fn not_rated(check: Check, entry: &str) -> Check {
    if check.capacity.is_some() { check } else { check.because(format!("its rating is not in the plan ({entry})")) }
}

fn still_air(plan: &LiftPlan, summary: &LiftSummary) -> Vec<Check> {
    let factor = summary.factor;
    let mut checks = Vec::new();
    let idle: Vec<&str> = summary.supports.iter().filter(|s| s.even_n <= 0.0).map(|s| s.name.as_str()).collect();
    let asked = (Some(idle.len() as f64), Some(0.0), "supports");
    let check = Check::compare(
        "roof off: support lifts off at rest",
        "statics, equally stiff supports",
        asked,
        Level::Stated,
        plan.at_rest,
    )
    .at(idle.join(", "))
    .by("supports that would have to pull = 0", []);
    let reason = "it would have to pull: it carries nothing and can fall; move it, or take it out";
    checks.push(if idle.is_empty() { check } else { check.because(reason) });
    let load = |name: &'static str,
                clause: &'static str,
                formula: &'static str,
                of: &dyn Fn(&SupportLoads) -> Option<f64>,
                words: &dyn Fn(&SupportLoads) -> String| {
        let all = summary.supports.iter().map(|s| {
            let terms: Vec<Term> = of(s).map(|n| vec![term("γ", factor, ""), term("P", n, "N")]).unwrap_or_default();
            let asked = (of(s).map(|n| factor * n), s.capacity_n, "N");
            let check =
                Check::compare(name, clause, asked, Level::Allowable, plan.at_rest).at(words(s)).by(formula, terms);
            not_rated(check, "lift.supports, capacity")
        });
        worst(&all.collect::<Vec<_>>())
    };
    checks.extend(load(
        "roof off: support load",
        "statics: the greatest load in any sharing that balances the weight, however supports lag",
        "γ P ≤ rated load",
        &|s| Some(s.greatest_n),
        &|s| s.name.clone(),
    ));
    let unknown = |name: &'static str, entry: &str| {
        let check = Check::compare(name, "", (None, None, "N"), Level::Allowable, Standing::Given);
        check.because(format!("not in the plan: {entry}"))
    };
    if plan.lag_mm.is_some() && plan.stiffness_given {
        checks.extend(load(
            "roof off: support load, one lags",
            "statics of a rigid roof on equal springs that let go",
            "γ P ≤ rated load",
            &|s| s.lag_n,
            &|s| format!("{}, {} lags", s.name, s.lagging.as_deref().unwrap_or("none")),
        ));
    } else {
        checks.push(unknown("roof off: support load, one lags", "lift.lag and lift.support_stiffness"));
    }
    if plan.gap_mm.is_some() && plan.stiffness_given {
        let drop = summary.supports.iter().map(|s| {
            let asked = (s.drop_n.map(|n| factor * n), s.capacity_n, "N");
            let clause = "energy of the fall into an elastic support, no damping";
            let check = Check::compare("roof off: drop onto a crib", clause, asked, Level::Allowable, plan.at_rest)
                .at(s.name.clone())
                .by(
                    "γ P (1 + √(1 + 2 k h / P)) ≤ rated load",
                    [
                        term("γ", factor, ""),
                        term("P", s.greatest_n, "N"),
                        term("k", plan.lift.conditions.support_n_mm, "N/mm"),
                        term("h", plan.gap_mm.unwrap_or(0.0), "mm"),
                    ],
                );
            not_rated(check, "lift.supports, capacity")
        });
        checks.extend(worst(&drop.collect::<Vec<_>>()));
    } else {
        checks.push(unknown("roof off: drop onto a crib", "lift.gap and lift.support_stiffness"));
    }
    checks
}

fn in_wind(plan: &LiftPlan, summary: &LiftSummary) -> Vec<Check> {
    let (lift, factor) = (&plan.lift, summary.factor);
    let wind = summary.forces_wind_m_s.unwrap_or(0.0);
    let clause = "rigid roof on springs that let go, second order; wind, slope and lean with the planner's factor";
    let at = |name: &str, step: &LiftStep| format!("{name}, up {:.0} mm, {wind} m/s", step.rise_mm);
    let check = |name: &'static str, asked, level| Check::compare(name, clause, asked, level, plan.standing);
    let mut rows: [Vec<Check>; 6] = std::array::from_fn(|_| Vec::new());
    let [leans, lifts, loads, pulls, presses, slides] = &mut rows;
    for step in &summary.steps {
        let asked = (Some(factor), step.leaning_factor, "");
        let own = check("roof off: leaning over", asked, Level::Stated)
            .at(format!("up {:.0} mm", step.rise_mm))
            .by("planner's factor ≤ weight that leans the roof over, over its weight", []);
        leans.push(if step.leaning_factor.is_some() {
            own
        } else {
            own.demoted(Verdict::Fails, "nothing holds it upright in still air")
        });
        let Some(e) = &step.extremes else {
            let own = check("roof off: support load in the wind", (None, None, "N"), Level::Allowable);
            loads.push(own.at(at("all", step)).demoted(Verdict::Fails, "nothing holds the roof in this wind"));
            continue;
        };
        for (i, (support, still)) in lift.supports.iter().zip(&summary.supports).enumerate() {
            let name = &support.name;
            if still.even_n > 0.0 {
                let asked = (Some(still.even_n - e.supports_least_n[i]), Some(still.even_n), "N");
                let own = check("roof off: overturning, a support lifts off", asked, Level::Stated)
                    .at(at(name, step))
                    .by("load that wind, slope and lean take away ≤ load in still air", [term("γ", factor, "")]);
                // What lifts off has no load left; the whole of it gone is too much.
                lifts.push(if e.supports_least_n[i] <= 0.0 {
                    own.demoted(Verdict::Fails, "it lifts off")
                } else {
                    own
                });
            }
            let asked = (Some(e.supports_most_n[i]), support.capacity_n, "N");
            let own = check("roof off: support load in the wind", asked, Level::Allowable)
                .at(at(name, step))
                .by("P ≤ rated load, γ in P", [term("γ", factor, "")]);
            loads.push(not_rated(own, "lift.supports, capacity"));
            let asked = (Some(e.foot_slopes[i]), Some(lift.conditions.friction), "");
            slides.push(
                check("roof off: a foot slides", asked, Level::Stated)
                    .at(at(name, step))
                    .by("slope + out of plumb + sway / height ≤ friction, γ on the left", [term("γ", factor, "")]),
            );
        }
        for (i, brace) in lift.braces.iter().enumerate() {
            let asked = (Some(e.tension_n[i]), brace.tension_n, "N");
            let own = check("roof off: brace pulled", asked, Level::Allowable).at(at(&brace.name, step));
            pulls.push(not_rated(own.by("N ≤ rated pull, γ in N", [term("γ", factor, "")]), "lift.braces, tension"));
            if brace.takes_compression() {
                let asked = (Some(e.compression_n[i]), brace.compression_n, "N");
                let own = check("roof off: brace pressed", asked, Level::Allowable).at(at(&brace.name, step));
                let own = own.by("N ≤ rated press, γ in N", [term("γ", factor, "")]);
                presses.push(not_rated(own, "lift.braces, compression"));
            }
        }
    }
    let lifted = Some(factor * lift.wind.uplift_n(wind));
    let held = summary.weight_n.map(|n| lift.conditions.holding_down * n);
    let uplift = check("roof off: uplift", (lifted, held, "N"), Level::Stated).at(format!("{wind} m/s")).by(
        "γ q c A ≤ γ_inf weight of the roof; braces are not counted on to hold it down",
        [
            term("γ", factor, ""),
            term("γ_inf", lift.conditions.holding_down, ""),
            term("c", lift.wind.uplift, ""),
            term("A", lift.wind.plan_m2, "m2"),
        ],
    );
    let mut checks: Vec<Check> = rows.iter().filter_map(|own| worst(own)).collect();
    checks.extend([uplift, stop_work(plan, summary)]);
    checks
}

fn stop_work(plan: &LiftPlan, summary: &LiftSummary) -> Check {
    let asked = (plan.wind_m_s, summary.stop_wind_m_s, "m/s");
    let check = Check::compare(
        "roof off: stop-work wind",
        "all of the above at every step",
        asked,
        Level::Stated,
        plan.standing,
    )
    .by("planned stop-work wind ≤ largest wind at which everything holds", [term("γ", summary.factor, "")]);
    let first = summary.stopped_by.as_deref().unwrap_or_default();
    let at = summary.stopped_at_mm.map_or_else(String::new, |z| format!("up {z:.0} mm: {first}"));
    let check = check.at(at);
    if !summary.missing.is_empty() {
        return check.because(format!("not in the plan: {}", summary.missing.join("; ")));
    }
    match (summary.stop_wind_m_s, plan.wind_m_s) {
        (None, _) => check.demoted(Verdict::Fails, format!("it does not hold in still air: {first}")),
        (Some(most), None) => check.because(format!(
            "write lift.wind, the wind at which you stop: by this estimate no more than {} m/s; {LEFT_OUT}",
            significant(most)
        )),
        (Some(_), Some(_)) => check.because(LEFT_OUT),
    }
}
