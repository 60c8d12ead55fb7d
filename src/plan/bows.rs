//! A plan's bows: the frame of one pair of posts before and after the raise, its loads, what they do, and the checks on it.

use serde::Serialize;

use crate::body::bows::{Bow, BowSections, Feet, PartStress, ROOF_TRAVEL_MM, plate_width_mm, roof_yardstick_n};
use crate::body::splices::SpliceActions;
use crate::body::stability::stagnation_pressure_pa;
use crate::check::{Check, Level, Standing, Verdict, term};
use crate::error::Problem;

use super::resolve::Resolved;

/// One pair of posts with its roof bow, with its feet held in one way.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BowAnswer {
    /// How the feet are held.
    pub feet: Feet,
    /// Push at the drip rails for each mm of sway, before the raise, N/mm.
    pub sway_stiffness_before_n_mm: f64,
    /// The same after.
    pub sway_stiffness_after_n_mm: f64,
    /// Sway under the side load after the raise, mm, the weight of the roof included (second order).
    pub sway_mm: f64,
    /// That sway over the one without the weight: the P-delta factor.
    pub p_delta_ratio: f64,
    /// Largest stresses under the side load, before and after, service loads.
    pub side_before: Vec<PartStress>,
    /// After.
    pub side_after: Vec<PartStress>,
    /// Moment that the splices of a post carry under the side load, N·mm.
    pub splice_moment_n_mm: f64,
    /// With it the shear and the axial force there, each the largest by itself.
    pub splice: SpliceActions,
    /// Largest stresses under the roof load of the school-bus rule, after; none where the mass is not known.
    pub roof_after: Vec<PartStress>,
    /// How far the crown goes down under it, mm.
    pub crown_down_mm: Option<f64>,
}

/// The bows of the raised body.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BowSummary {
    /// Pairs of posts that are lengthened, each with its bow.
    pub bows: usize,
    /// Width of skin that one bow holds against the wind, mm.
    pub spacing_mm: f64,
    /// Wind across the bus, m/s.
    pub wind_m_s: f64,
    /// Wind on one bow over its height, N/mm.
    pub wind_n_mm: f64,
    /// Sideways pull of the roof's own mass on one bow, N.
    pub roof_pull_n: f64,
    /// Roof load of the school-bus rule on one bow, N; none where the mass is not known.
    pub roof_load_n: Option<f64>,
    /// With pinned, sprung and fixed feet.
    pub answers: Vec<BowAnswer>,
}

/// Works the bows out; none where the posts' section is not in the plan.
pub(super) fn bows(r: &Resolved, mass_after_kg: Option<f64>) -> Result<Option<BowSummary>, Vec<Problem>> {
    let Some(post) = &r.post else { return Ok(None) };
    let sections = BowSections {
        post: post.properties,
        insert: r.insert.properties,
        roof: r.bow.as_ref().unwrap_or(post).properties,
        modulus_mpa: r.frames.modulus_mpa,
    };
    let (survey, raise) = (&r.survey, &r.raise);
    let bows = raise.last_post - raise.first_post + 1;
    let posts = &survey.posts_mm;
    // The widest pair of bays beside any one post.
    let bay = |i: usize| 0.5 * (posts[(i + 1).min(posts.len() - 1)] - posts[i.saturating_sub(1)]);
    let spacing_mm = (raise.first_post..=raise.last_post).map(bay).fold(0.0, f64::max);
    let wind_pa = r.frames.pressure * stagnation_pressure_pa(r.loads.air_density_kg_m3, r.frames.wind_m_s);
    let wind_n_mm = wind_pa * 1e-6 * spacing_mm;
    let roof_n = r.roof_mass_kg * GRAVITY_M_S2 / bows as f64;
    let roof_pull_n = r.frames.sideways_g * roof_n;
    let gross_kg = r.gross_rating_kg.or(mass_after_kg);
    let roof_load_n = mass_after_kg.map(|kg| roof_yardstick_n(kg) / bows as f64);
    let top_mm = survey.heights.drip_rail_mm - survey.heights.floor_mm;
    // Half-way in stiffness between a pin and a clamp, about: a spring like the post itself.
    let spring = 3.0 * sections.modulus_mpa * sections.post.ix_mm4 / top_mm;
    let answer = |feet: Feet| -> Result<BowAnswer, Vec<Problem>> {
        let before = Bow::new(survey, None, sections, feet)?;
        let after = Bow::new(survey, Some(raise), sections, feet)?;
        let side_before = before.solve(&before.side_load(wind_n_mm, roof_pull_n), false)?;
        let side = after.side_load(wind_n_mm, roof_pull_n);
        let first = after.solve(&side, false)?;
        let width_mm = 2.0 * survey.half_width_mm(survey.heights.drip_rail_mm);
        let weighed: Vec<_> = side.into_iter().chain(after.roof_load(roof_n, width_mm)).collect();
        let second = after.solve(&weighed, true)?;
        // The weight alone sways a symmetric bow nowhere.
        let (sway_mm, alone_mm) = (after.sway_mm(&second), after.sway_mm(&first));
        let pressed = match (roof_load_n, gross_kg) {
            (Some(load_n), Some(gross_kg)) => {
                Some(after.solve(&after.roof_load(load_n, plate_width_mm(gross_kg, width_mm)), false)?)
            }
            _ => None,
        };
        Ok(BowAnswer {
            feet,
            sway_stiffness_before_n_mm: before.sway_stiffness_n_mm()?,
            sway_stiffness_after_n_mm: after.sway_stiffness_n_mm()?,
            sway_mm,
            p_delta_ratio: if alone_mm.abs() > 0.0 { sway_mm / alone_mm } else { 1.0 },
            side_before: before.stresses(&side_before),
            side_after: after.stresses(&second),
            splice_moment_n_mm: after.splice_moment_n_mm(&second).unwrap_or(0.0),
            splice: after.splice_actions(&second).unwrap_or_default(),
            roof_after: pressed.as_ref().map(|solved| after.stresses(solved)).unwrap_or_default(),
            crown_down_mm: pressed.as_ref().map(|solved| after.crown_down_mm(solved)),
        })
    };
    let answers = [Feet::Pinned, Feet::Sprung(spring), Feet::Fixed].into_iter().map(answer);
    Ok(Some(BowSummary {
        bows,
        spacing_mm,
        wind_m_s: r.frames.wind_m_s,
        wind_n_mm,
        roof_pull_n,
        roof_load_n,
        answers: answers.collect::<Result<_, _>>()?,
    }))
}

const GRAVITY_M_S2: f64 = 9.81;

/// The worst of the three ways in which the feet may be held, by part and load case.
pub(super) fn checks(r: &Resolved, summary: Option<&BowSummary>) -> Vec<Check> {
    let Some(summary) = summary else {
        let check = Check::compare("bow stress", "", (None, None, "MPa"), Level::Design, Standing::Given);
        let reason = "the posts' section is not in the plan: measure a post and its wall (survey.post)";
        return vec![check.because(reason)];
    };
    let sections = [Some(r.insert.standing), r.post.as_ref().map(|p| p.standing), r.bow.as_ref().map(|b| b.standing)];
    let standing = sections.into_iter().flatten().fold(r.frames.standing, Standing::with);
    let worst = |of: &dyn Fn(&BowAnswer) -> &Vec<PartStress>| {
        let all = summary.answers.iter().flat_map(|a| of(a).iter().map(move |s| (a.feet, *s)));
        all.max_by(|a, b| a.1.stress_mpa.total_cmp(&b.1.stress_mpa))
    };
    let fy = r.frames.fy_mpa;
    let mut checks = Vec::new();
    if let Some((feet, most)) = worst(&|a| &a.side_after) {
        let factor = r.loads.load_factor;
        let asked = (Some(factor * most.stress_mpa), fy, "MPa");
        let clause = "EN 1993-1-3:2006 6.1, elastic, all walls counted in full";
        let check = Check::compare("bow stress, side load", clause, asked, Level::Design, standing)
            .at(format!("{}, feet {}", most.part.words(), feet.words()))
            .by(
                "γ_F (|N|/A + |M|/S) ≤ f_y / γ_M0, γ_M0 = 1",
                [
                    term("γ_F", factor, ""),
                    term("M", most.moment_n_mm, "N·mm"),
                    term("N", most.axial_n, "N"),
                    term("wind", summary.wind_n_mm, "N/mm"),
                    term("roof pull", summary.roof_pull_n, "N"),
                ],
            );
        checks.push(unknown_yield(check, fy));
    }
    let clause = "49 CFR 571.220, as a yardstick; no duty after conversion";
    match worst(&|a| &a.roof_after) {
        Some((feet, most)) => {
            let check = Check::compare(
                "bow stress, roof load",
                clause,
                (Some(most.stress_mpa), fy, "MPa"),
                Level::Stated,
                standing.with(Standing::Memory),
            )
            .at(format!("{}, feet {}", most.part.words(), feet.words()))
            .by(
                "|N|/A + |M|/S ≤ f_y under 1.5 × unloaded mass × 9.8 m/s² shared over the raised bows",
                [term("F", summary.roof_load_n.unwrap_or(f64::NAN), "N"), term("M", most.moment_n_mm, "N·mm")],
            );
            checks.push(yardstick(
                unknown_yield(check, fy),
                "the bows alone yield under it; skin and stringers are left out",
            ));
            let down = summary.answers.iter().filter_map(|a| a.crown_down_mm).fold(0.0, f64::max);
            let sides = (Some(down), Some(ROOF_TRAVEL_MM), "mm");
            let check = Check::compare("roof travel", clause, sides, Level::Stated, standing.with(Standing::Memory))
                .at("crown, elastic, feet as soft as they can be")
                .by("crown's way down ≤ 130 mm", []);
            checks.push(yardstick(check, "the bows alone go down further; skin and stringers are left out"));
        }
        None => {
            let check = Check::compare("bow stress, roof load", clause, (None, fy, "MPa"), Level::Stated, standing);
            checks.push(check.because("the mass of the bus is not in the plan (vehicle.axle_weights)"));
        }
    }
    checks
}

fn unknown_yield(check: Check, fy: Option<f64>) -> Check {
    if fy.is_some() {
        return check;
    }
    check.because("the posts' yield strength is not in the plan: cut a coupon, or find a certificate (survey.post_fy)")
}

/// A yardstick that is not met binds nobody: it is said, not failed.
fn yardstick(check: Check, because: &str) -> Check {
    if check.verdict == Verdict::Fails { check.demoted(Verdict::NotAssessed, because) } else { check }
}
