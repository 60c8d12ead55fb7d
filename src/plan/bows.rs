//! A plan's bows: the frame of one pair of posts before and after the raise, its loads, what they do, and the checks on it.

use serde::Serialize;

use crate::body::bows::{
    Bow, BowSection, BowSections, Feet, Part, PartStress, ROOF_TRAVEL_MM, plate_width_mm, roof_yardstick_n,
};
use crate::body::splices::SpliceActions;
use crate::body::stability::{GRAVITY_M_S2, stagnation_pressure_pa};
use crate::check::{Check, Level, Standing, Verdict, significant, term};
use crate::error::Problem;
use crate::mechanics::frame::{Factored, Load, Solved};
use crate::mechanics::section::{Rule, Working};

use super::resolve::{Resolved, Section};

/// One pair of posts with its roof bow, with its feet held in one way.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BowAnswer {
    /// How the feet are held.
    pub feet: Feet,
    /// Push at the drip rails for each mm of sway, before the raise, N/mm.
    pub sway_stiffness_before_n_mm: f64,
    /// The same after.
    pub sway_stiffness_after_n_mm: f64,
    /// Sway under the side load after the raise, mm, the weight of the roof included (second order); none where the bow
    /// buckles under it.
    pub sway_mm: Option<f64>,
    /// That sway over the one without the weight: the P-delta factor.
    pub p_delta_ratio: Option<f64>,
    /// Largest stresses under the side load with the roof's weight (second order), before the raise; empty where the bow
    /// buckles under it.
    pub side_before: Vec<PartStress>,
    /// The same after.
    pub side_after: Vec<PartStress>,
    /// The same after, every load times the load factor.
    pub side_design: Vec<PartStress>,
    /// Moment, shear and axial force in a post at the cut under the side load, every load times the load factor, each the
    /// largest by itself; none where the bow buckles under it.
    pub splice_design: Option<SpliceActions>,
    /// Largest stresses under the roof load of the school-bus rule, after; none where the mass is not known.
    pub roof_after: Vec<PartStress>,
    /// How far the crown goes down under it, mm.
    pub crown_down_mm: Option<f64>,
    /// Where its nodes are and where they go.
    pub shape: BowShape,
}

/// A bow's nodes from the left foot over the roof to the right foot, after the raise, unloaded and loaded.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BowShape {
    /// To the right of the middle and above the ground, mm.
    pub nodes_mm: Vec<[f64; 2]>,
    /// How far each goes to the right and up under the side load with the roof's weight (second order), mm; empty where the bow
    /// buckles under it.
    pub side_mm: Vec<[f64; 2]>,
    /// How far each goes under the roof load of the school-bus rule, mm; empty where the mass is not known.
    pub roof_mm: Vec<[f64; 2]>,
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
    /// Weight of the roof on one bow, N.
    pub roof_weight_n: f64,
    /// Roof load of the school-bus rule on one bow, N; none where the mass is not known.
    pub roof_load_n: Option<f64>,
    /// Width of the plate that it comes through, mm.
    pub plate_mm: f64,
    /// With pinned, sprung and fixed feet.
    pub answers: Vec<BowAnswer>,
}

/// A part's section, its yield strength if known, and the entry that tells it.
fn part_of(r: &Resolved, part: Part) -> (Option<&Section>, Option<f64>, &'static str) {
    let f = &r.frames;
    match part {
        Part::Post => (r.post.as_deref(), f.post_fy_mpa, "survey.post_fy"),
        Part::Insert => (Some(&r.insert), f.insert_fy_mpa, "raise.insert_fy"),
        Part::Roof => (r.bow.as_deref().or(r.post.as_deref()), f.bow_fy_mpa, "survey.bow_fy"),
    }
}

/// What of a section works; none where the yield strength is not known.
///
/// # Errors
/// Walls that the rule of effective widths does not cover, in words.
fn working(section: &Section, fy_mpa: Option<f64>) -> Result<Option<Working>, String> {
    let works = fy_mpa.map(|fy| section.profile.working(fy, Rule::En1993_1_5, ""));
    works.transpose().map_err(|problems| problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))
}

/// Works the bows out; none where the posts' section is not in the plan.
pub(super) fn bows(r: &Resolved, mass_after_kg: Option<f64>) -> Result<Option<BowSummary>, Vec<Problem>> {
    let of = |part: Part| {
        let (section, fy_mpa, _) = part_of(r, part);
        let section = section?;
        // Where the rule does not cover the walls the check says so; the stress shown is then that of all of them.
        Some(BowSection { gross: section.properties, works: working(section, fy_mpa).ok().flatten() })
    };
    let (Some(post), Some(insert), Some(roof)) = (of(Part::Post), of(Part::Insert), of(Part::Roof)) else {
        return Ok(None);
    };
    let sections = BowSections { post, insert, roof, modulus_mpa: r.frames.modulus_mpa };
    let (survey, raise) = (&r.survey, &r.raise);
    let bows = raise.last_post - raise.first_post + 1;
    let posts = &survey.posts_mm;
    // The widest pair of bays beside any one post; beyond the row of posts the end walls stand at the body's faces.
    let before = |i: usize| i.checked_sub(1).map_or(0.0, |i| posts[i]);
    let behind = |i: usize| posts.get(i + 1).copied().unwrap_or(survey.length_mm);
    let spacing_mm = (raise.first_post..=raise.last_post).map(|i| 0.5 * (behind(i) - before(i))).fold(0.0, f64::max);
    let wind_pa = r.frames.pressure * stagnation_pressure_pa(r.loads.air_density_kg_m3, r.frames.wind_m_s);
    let roof_weight_n = r.roof_mass_kg * GRAVITY_M_S2 / bows as f64;
    let width_mm = 2.0 * survey.half_width_mm(survey.heights.drip_rail_mm);
    let summary = BowSummary {
        bows,
        spacing_mm,
        wind_m_s: r.frames.wind_m_s,
        wind_n_mm: wind_pa * 1e-6 * spacing_mm,
        roof_pull_n: r.frames.sideways_g * roof_weight_n,
        roof_weight_n,
        roof_load_n: mass_after_kg.map(|kg| roof_yardstick_n(kg) / bows as f64),
        plate_mm: plate_width_mm(r.gross_rating_kg, width_mm),
        answers: Vec::new(),
    };
    // Half-way in stiffness between a pin and a clamp, about: a spring like the post itself.
    let top_mm = survey.heights.drip_rail_mm - survey.heights.floor_mm;
    let spring = 3.0 * sections.modulus_mpa * post.gross.ix_mm4 / top_mm;
    let answers = [Feet::Pinned, Feet::Sprung(spring), Feet::Fixed].into_iter().map(|feet| {
        let pair = (Bow::new(survey, None, sections, feet)?, Bow::new(survey, Some(raise), sections, feet)?);
        answer(&summary, feet, pair, (width_mm, r.loads.load_factor))
    });
    let answers = answers.collect::<Result<_, _>>()?;
    Ok(Some(BowSummary { answers, ..summary }))
}

/// Loads on a bow from the side, with the roof's weight, all times a factor.
fn side_loads(bow: &Bow, s: &BowSummary, width_mm: f64, factor: f64) -> Vec<Load> {
    let side = bow.side_load(factor * s.wind_n_mm, factor * s.roof_pull_n);
    side.into_iter().chain(bow.roof_load(factor * s.roof_weight_n, width_mm)).collect()
}

fn answer(
    s: &BowSummary,
    feet: Feet,
    (before, after): (Bow, Bow),
    (width_mm, load_factor): (f64, f64),
) -> Result<BowAnswer, Vec<Problem>> {
    let (stiff_before, stiff_after) = (before.frame().factor()?, after.frame().factor()?);
    // These loads may make a bow buckle, which is an answer; whatever else is wrong stopped at the lines above.
    let loaded = |bow: &Bow, stiff: &Factored<'_>, factor: f64| -> Option<Solved> {
        stiff.second_order(&side_loads(bow, s, width_mm, factor)).ok()
    };
    let stresses = |bow: &Bow, solved: &Option<Solved>| solved.as_ref().map(|v| bow.stresses(v)).unwrap_or_default();
    // The weight alone sways a symmetric bow nowhere.
    let alone_mm = after.sway_mm(&stiff_after.solve(&after.side_load(s.wind_n_mm, s.roof_pull_n))?);
    let service = loaded(&after, &stiff_after, 1.0);
    let design = loaded(&after, &stiff_after, load_factor);
    let sway_mm = service.as_ref().map(|solved| after.sway_mm(solved));
    let pressed = s.roof_load_n.map(|n| stiff_after.solve(&after.roof_load(n, s.plate_mm))).transpose()?;
    Ok(BowAnswer {
        feet,
        sway_stiffness_before_n_mm: before.sway_stiffness_n_mm(&stiff_before)?,
        sway_stiffness_after_n_mm: after.sway_stiffness_n_mm(&stiff_after)?,
        sway_mm,
        p_delta_ratio: sway_mm.map(|mm| if alone_mm.abs() > 0.0 { mm / alone_mm } else { 1.0 }),
        side_before: stresses(&before, &loaded(&before, &stiff_before, 1.0)),
        side_after: stresses(&after, &service),
        side_design: stresses(&after, &design),
        splice_design: design.as_ref().and_then(|solved| after.splice_actions(solved)),
        crown_down_mm: pressed.as_ref().map(|solved| after.crown_down_mm(solved)),
        roof_after: stresses(&after, &pressed),
        shape: BowShape {
            nodes_mm: after.frame().nodes_mm().to_vec(),
            side_mm: moves(service.as_ref()),
            roof_mm: moves(pressed.as_ref()),
        },
    })
}

/// How far every node goes, mm.
fn moves(solved: Option<&Solved>) -> Vec<[f64; 2]> {
    solved.map_or_else(Vec::new, |solved| solved.displacements.iter().map(|[x, y, _]| [*x, *y]).collect())
}

const SIDE: &str = "bow stress, side load";
const ROOF: &str = "bow stress, roof load";
const TRAVEL: &str = "roof travel";
const SIDE_CLAUSE: &str = "EN 1993-1-3:2006 6.1.8 and 6.1.9, effective widths by EN 1993-1-5 4.4";
const ROOF_CLAUSE: &str = "49 CFR 571.220, as a yardstick; no duty after conversion";
const NO_MASS: &str = "the mass of the bus is not in the plan (vehicle.axle_weights)";

/// The worst of the three ways in which the feet may be held, for each part and load case.
pub(super) fn checks(r: &Resolved, summary: Option<&BowSummary>) -> Vec<Check> {
    let Some(s) = summary else {
        let reason = "the posts' section is not in the plan: measure a post and its wall (survey.post)";
        let checks = [(SIDE, Level::Design), (ROOF, Level::Stated)];
        let empty = |(name, level)| Check::compare(name, "", (None, None, "MPa"), level, Standing::Given);
        return checks.map(|check| empty(check).because(reason)).into();
    };
    let mut checks: Vec<Check> = Part::ALL.into_iter().map(|part| side_check(r, s, part)).collect();
    let roof: Vec<Check> = Part::ALL.into_iter().map(|part| roof_check(r, s, part)).collect();
    let travel = travel_check(r, s, &roof);
    checks.extend(roof);
    checks.push(travel);
    checks
}

fn standing(r: &Resolved) -> Standing {
    let sections = [r.post.as_ref().map(|p| p.standing), Some(r.insert.standing), r.bow.as_ref().map(|b| b.standing)];
    // Effective widths are from memory.
    sections.into_iter().flatten().fold(r.frames.standing.with(Standing::Memory), Standing::with)
}

/// The largest stress of a part, however the feet are held.
fn worst(s: &BowSummary, part: Part, of: impl Fn(&BowAnswer) -> &Vec<PartStress>) -> Option<(Feet, PartStress)> {
    let all = s.answers.iter().flat_map(|a| of(a).iter().filter(|p| p.part == part).map(|p| (a.feet, *p)));
    all.max_by(|a, b| a.1.stress_mpa.total_cmp(&b.1.stress_mpa))
}

/// The way of holding the feet that stresses a part least, and that stress, MPa.
fn least(s: &BowSummary, part: Part, of: impl Fn(&BowAnswer) -> &Vec<PartStress>) -> Option<(Feet, f64)> {
    let all = s.answers.iter().flat_map(|a| of(a).iter().filter(|p| p.part == part).map(|p| (a.feet, p.stress_mpa)));
    all.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// A part's stress against its yield strength; withdrawn where that or what works of the walls is not known.
fn stress_check(
    r: &Resolved,
    (name, clause, level): (&'static str, &'static str, Level),
    part: Part,
    worst: (Feet, PartStress),
) -> Check {
    let (section, fy, path) = part_of(r, part);
    let check = Check::compare(name, clause, (Some(worst.1.stress_mpa), fy, "MPa"), level, standing(r)).at(format!(
        "{}, feet {}",
        part.words(),
        worst.0.words()
    ));
    match section.map(|section| working(section, fy)) {
        Some(Err(why)) => {
            check.demoted(Verdict::OutsideRange, format!("the walls lie beyond the rule of effective widths: {why}"))
        }
        _ if fy.is_none() => {
            let words = part.words();
            check.because(format!(
                "the yield strength of the {words} is not in the plan ({path}): take it from a certificate or a coupon; the \
                 stress shown counts all walls in full"
            ))
        }
        _ => check,
    }
}

fn side_check(r: &Resolved, s: &BowSummary, part: Part) -> Check {
    let buckles: Vec<&str> = s.answers.iter().filter(|a| a.side_design.is_empty()).map(|a| a.feet.words()).collect();
    let Some(most) = worst(s, part, |a| &a.side_design) else {
        let empty = Check::compare(SIDE, SIDE_CLAUSE, (None, None, "MPa"), Level::Design, standing(r));
        let why = "the bow buckles sideways under the wind and the roof's weight times the load factor, however its feet are \
                   held: stiffen the posts or raise less";
        return empty.at(part.words()).demoted(Verdict::Fails, why);
    };
    let check = stress_check(r, (SIDE, SIDE_CLAUSE, Level::Design), part, most).by(
        "|N| / A_eff + (|M| + |N| e_N) / W_eff ≤ f_y / γ_M0, γ_M0 = 1, N and M of second order under γ_F times the loads",
        [
            term("γ_F", r.loads.load_factor, ""),
            term("M", most.1.moment_n_mm, "N·mm"),
            term("N", most.1.axial_n, "N"),
            term("wind", s.wind_n_mm, "N/mm"),
            term("roof pull", s.roof_pull_n, "N"),
            term("roof weight", s.roof_weight_n, "N"),
        ],
    );
    let decides =
        "how firmly the floor holds the feet decides, which is for an engineer to judge, or the posts to be stiffer";
    if !buckles.is_empty() && matches!(check.verdict, Verdict::Passes | Verdict::Fails) {
        let feet = buckles.join(" or ");
        return check.demoted(Verdict::NotAssessed, format!("with {feet} feet the bow buckles sideways; {decides}"));
    }
    // One way of holding the feet that is strong enough, and one that is not, leave it open.
    match least(s, part, |a| &a.side_design).zip(check.capacity) {
        Some(((feet, stress_mpa), fy_mpa)) if check.verdict == Verdict::Fails && stress_mpa <= fy_mpa => {
            let other = format!("with {} feet {} MPa; {decides}", feet.words(), significant(stress_mpa));
            check.demoted(Verdict::NotAssessed, other)
        }
        _ => check,
    }
}

fn roof_check(r: &Resolved, s: &BowSummary, part: Part) -> Check {
    let (Some(most), Some(load_n)) = (worst(s, part, |a| &a.roof_after), s.roof_load_n) else {
        let (_, fy, _) = part_of(r, part);
        let check = Check::compare(ROOF, ROOF_CLAUSE, (None, fy, "MPa"), Level::Stated, standing(r));
        return check.at(part.words()).because(NO_MASS);
    };
    let check = stress_check(r, (ROOF, ROOF_CLAUSE, Level::Stated), part, most).by(
        "|N| / A_eff + (|M| + |N| e_N) / W_eff ≤ f_y under 1.5 × unloaded mass × 9.8 m/s² shared over the raised bows",
        [term("F", load_n, "N"), term("plate", s.plate_mm, "mm"), term("M", most.1.moment_n_mm, "N·mm")],
    );
    yardstick(check, "the bows alone yield under it; skin and stringers are left out")
}

fn travel_check(r: &Resolved, s: &BowSummary, stresses: &[Check]) -> Check {
    let down_mm = s.answers.iter().filter_map(|a| a.crown_down_mm).reduce(f64::max);
    let check = Check::compare(TRAVEL, ROOF_CLAUSE, (down_mm, Some(ROOF_TRAVEL_MM), "mm"), Level::Stated, standing(r))
        .at("crown, elastic, feet as soft as they can be")
        .by("crown's way down ≤ 130 mm", []);
    if down_mm.is_none() {
        return check.because(NO_MASS);
    }
    if check.verdict == Verdict::Passes && stresses.iter().any(|stress| stress.verdict != Verdict::Passes) {
        let why = "elastic: it holds only where no part yields, and not every part is known not to";
        return check.demoted(Verdict::NotAssessed, why);
    }
    yardstick(check, "the bows alone go down further; skin and stringers are left out")
}

/// What the bows alone do not meet is not yet failed: skin, stringers and end walls help, by how much is not worked out here.
fn yardstick(check: Check, because: &str) -> Check {
    if check.verdict == Verdict::Fails { check.demoted(Verdict::NotAssessed, because) } else { check }
}
