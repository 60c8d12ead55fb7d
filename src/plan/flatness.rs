//! How flat a plan's skins lie: every panel between posts in sun and cold, and what would keep it flat.

use serde::Serialize;

use crate::body::flatness::{
    Hold, Lies, Lying, Metal, Warmth, crown_radius_mm, crown_rise_mm, drumming_hz, flat_side_mm, hang_over_frame_k,
    lying, rise_k,
};
use crate::body::skin_loads::{AirCase, Zone};
use crate::body::skins::{Run, Skins};
use crate::body::survey::{Side, Survey};
use crate::check::{Check, Level, Standing, Verdict, governing, significant, term};
use crate::error::Problem;
use crate::mechanics::panel::{Edges, load_ratio, skin_over_frame_k, stiffness_ratio};
use crate::shared::Shared;

use super::resolve::{FlatnessPlan, Resolved};
use super::results::Span;
use super::skin_loads::LoadCase;

/// A panel of skin between two posts and two rivet lines.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FlatPanel {
    /// Name: side, course from the top, posts: `L-A P3-P4`.
    pub id: String,
    /// Its side.
    pub side: Side,
    /// Course, 0 the top one.
    pub course: usize,
    /// Its size, by index among the sizes.
    pub size: usize,
    /// Part of the side that it lies in.
    pub zone: Zone,
    /// Greatest suction on it, Pa.
    pub suction_pa: f64,
    /// When that is.
    pub air_case: AirCase,
}

/// Panels of one size: how they lie, how they drum, what would keep them flat.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PanelSize {
    /// Between posts, mm.
    pub width_mm: f64,
    /// Between rivet lines, mm.
    pub height_mm: f64,
    /// How many there are.
    pub count: usize,
    /// Why nothing is said of this size; none where it is inside the rules.
    pub outside: Option<String>,
    /// In the hottest sun.
    pub sun: Option<Lying>,
    /// In the deepest cold.
    pub cold: Option<Lying>,
    /// First natural frequency, Hz.
    pub drumming_hz: Option<Span>,
    /// What would keep it flat.
    pub advice: Vec<Advice>,
}

/// One way to keep panels of a size flat.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Advice {
    /// What is done.
    pub remedy: String,
    /// Skin over frame at which the panel then buckles, K.
    pub critical_k: Option<Span>,
    /// How far it then bows in the hottest sun, mm.
    pub bow_mm: Option<Span>,
    /// The number that goes with it: a temperature difference, a spacing, a radius.
    pub value: Option<Span>,
    /// Its unit; empty where there is none.
    pub unit: &'static str,
    /// What to know.
    pub note: String,
}

/// How flat the skins lie.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FlatnessSummary {
    /// On the day of hanging.
    pub hung: Warmth,
    /// That day is in the plan.
    pub hung_given: bool,
    /// In the hottest sun.
    pub hot: Warmth,
    /// In the deepest cold.
    pub cold: Warmth,
    /// Skin over frame since hanging, in the sun, K.
    pub sun_k: f64,
    /// In the cold.
    pub cold_k: f64,
    /// How much of it the frame holds.
    pub hold: Hold,
    /// Panels by size.
    pub sizes: Vec<PanelSize>,
    /// Every panel.
    pub panels: Vec<FlatPanel>,
    /// What to know.
    pub notes: Vec<String>,
    /// The weakest standing of what went in.
    pub standing: Standing,
}

const BOTH: [Edges; 2] = [Edges::Simple, Edges::Clamped];

fn span((least, most): (f64, f64)) -> Option<Span> {
    Span::of([Some(least), Some(most)])
}

/// What the sizes of panels come from: what lies, where posts and rivet lines are, and the mass of a square metre, kg.
pub(super) type OfSizes = (Shared<FlatnessPlan>, Shared<Survey>, Shared<Skins>, f64);

pub(super) fn of_sizes(r: &Resolved) -> OfSizes {
    let mass_kg_m2 = r.sheet.areal_mass_kg_m2 + r.masses.coat_kg_m2;
    (r.flatness.clone(), r.survey.clone(), r.skins.clone(), mass_kg_m2)
}

/// Skin over frame since hanging in the sun and in the cold, K.
fn rises_k(plan: &FlatnessPlan) -> (f64, f64) {
    let rise = |now: Warmth| rise_k(&plan.metal, plan.frame_expansion_per_k, now, plan.hung);
    (rise(plan.hot), rise(plan.cold))
}

/// A panel between two posts and two rivet lines.
struct Bay<'a> {
    run: &'a Run,
    /// Which one of its run.
    number: usize,
    course: usize,
    front_mm: f64,
    /// Width and height, mm.
    size_mm: [f64; 2],
}

/// Every panel, run by run.
fn bays<'a>(survey: &'a Survey, skins: &'a Skins) -> impl Iterator<Item = Bay<'a>> {
    skins.runs.iter().flat_map(move |run| {
        let posts = survey.posts_mm.get(run.first_post..=run.last_post).unwrap_or_default();
        posts.windows(2).enumerate().flat_map(move |(number, pair)| {
            let (rear_mm, front_mm) = (pair[0], pair[1]);
            run.lines_mm.windows(2).enumerate().map(move |(course, level)| {
                let size_mm = [front_mm - rear_mm, level[0] - level[1]];
                Bay { run, number, course, front_mm, size_mm }
            })
        })
    })
}

/// Which of the sizes a panel has.
fn size_at(sizes: &[PanelSize], [width_mm, height_mm]: [f64; 2]) -> Option<usize> {
    let alike = |s: &PanelSize| (s.width_mm - width_mm).abs() < 0.05 && (s.height_mm - height_mm).abs() < 0.05;
    sizes.iter().position(alike)
}

/// Every size of panel and how it lies, nothing advised yet.
pub(super) fn sizes((plan, survey, skins, mass_kg_m2): &OfSizes) -> Shared<Vec<PanelSize>> {
    let rises_k = rises_k(plan);
    let mut sizes: Vec<PanelSize> = Vec::new();
    for bay in bays(survey, skins) {
        let size = size_at(&sizes, bay.size_mm).unwrap_or_else(|| {
            sizes.push(of_size(plan, bay.size_mm, *mass_kg_m2, rises_k));
            sizes.len() - 1
        });
        if let Some(own) = sizes.get_mut(size) {
            own.count += 1;
        }
    }
    sizes.into()
}

/// Works every panel out, with what would keep those of each size flat.
pub(super) fn flatness(r: &Resolved, loads: &LoadCase, sizes: &[PanelSize]) -> FlatnessSummary {
    let plan = &r.flatness;
    let (sun_k, cold_k) = rises_k(plan);
    let panel = |bay: Bay<'_>| {
        let zone = loads.zones.on_side(bay.front_mm);
        let (suction_pa, air_case) = loads.air.suction(zone);
        let (id, size) = (panel_name(bay.run, bay.number, bay.course), size_at(sizes, bay.size_mm)?);
        Some(FlatPanel { id, side: bay.run.side, course: bay.course, size, zone, suction_pa, air_case })
    };
    let panels = bays(&r.survey, &r.skins).filter_map(panel).collect();
    let advised = |size: &PanelSize| {
        let advice = size.sun.as_ref().map_or_else(Vec::new, |sun| advice(r, [size.width_mm, size.height_mm], sun));
        PanelSize { advice, ..size.clone() }
    };
    FlatnessSummary {
        hung: plan.hung,
        hung_given: plan.hung_given,
        hot: plan.hot,
        cold: plan.cold,
        sun_k,
        cold_k,
        hold: plan.hold,
        sizes: sizes.iter().map(advised).collect(),
        panels,
        notes: notes(plan),
        standing: plan.standing,
    }
}

fn panel_name(run: &Run, bay: usize, course: usize) -> String {
    let side = if run.side == Side::Left { 'L' } else { 'R' };
    let letter = u32::try_from(course).ok().and_then(|i| char::from_u32(u32::from('A') + i)).unwrap_or('?');
    let post = run.first_post + bay + 1;
    format!("{side}-{letter} P{post}-P{}", post + 1)
}

fn notes(plan: &FlatnessPlan) -> Vec<String> {
    let Warmth { skin_deg_c, frame_deg_c } = plan.hung;
    let mut notes = vec![
        format!(
            "what counts is skin less frame, now less on the day of hanging (skin {skin_deg_c:.0} °C, frame {frame_deg_c:.0} \
             °C): equally warm gains nothing"
        ),
        format!(
            "ranges: edges free to turn to clamped, the frame holding {} to {} of what the sheet would grow; bows are those of \
             a long strip, an upper figure; forces on rivets are upper figures where rivets or frame give way",
            significant(plan.hold.least),
            significant(plan.hold.most)
        ),
        "panels of the sides only: caps, bands, strips, slopes, cheeks and patches have no row here".to_owned(),
        "flat sheet without dents; deep after buckling it may fall into several bulges, which are shallower".to_owned(),
    ];
    if !plan.hung_given {
        notes.push(
            "the day of hanging is not in the plan: skin and frame are taken as warm as each other; measure both and write \
             flatness.hang"
                .to_owned(),
        );
    }
    notes
}

fn words(problems: &[Problem]) -> String {
    problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}

fn of_size(plan: &FlatnessPlan, size_mm: [f64; 2], mass_kg_m2: f64, (sun_k, cold_k): (f64, f64)) -> PanelSize {
    let at = |rise_k: f64| lying(size_mm, &plan.metal, plan.hold, rise_k, &BOTH);
    let (sun, cold) = (at(sun_k), at(cold_k));
    let drumming = drumming_hz(size_mm, &plan.metal, mass_kg_m2);
    let outside: Vec<String> =
        [sun.as_ref().err(), cold.as_ref().err()].into_iter().flatten().map(|p| words(p)).collect();
    let [width_mm, height_mm] = size_mm;
    PanelSize {
        width_mm,
        height_mm,
        count: 0,
        outside: outside.first().cloned(),
        advice: Vec::new(),
        sun: sun.ok(),
        cold: cold.ok(),
        drumming_hz: drumming.ok().and_then(span),
    }
}

/// What would keep a panel flat, each by the same functions.
fn advice(r: &Resolved, [width_mm, height_mm]: [f64; 2], sun: &Lying) -> Vec<Advice> {
    let plan = &r.flatness;
    let short_mm = width_mm.min(height_mm);
    let changed = |remedy: String, size_mm: [f64; 2], metal: &Metal, edges: &[Edges], note: String| {
        let lies = lying(size_mm, metal, plan.hold, sun.rise_k, edges);
        let note = match &lies {
            Ok(lies) if note.is_empty() => lies.lies.words().to_owned(),
            Ok(lies) => format!("{}; {note}", lies.lies.words()),
            Err(problems) => format!("outside the rule's range: {}", words(problems)),
        };
        let lies = lies.ok();
        Advice {
            remedy,
            critical_k: lies.and_then(|l| span(l.critical_k)),
            bow_mm: lies.and_then(|l| span(l.bow_mm)),
            value: None,
            unit: "",
            note,
        }
    };
    let mut all = vec![hang_warm(r, sun)];
    let mut post = changed(
        "a post or stiffener in the middle of the bay".to_owned(),
        [width_mm / 2.0, height_mm],
        &plan.metal,
        &BOTH,
        String::new(),
    );
    if let Some(sides) = flat_side_mm(short_mm, sun) {
        (post.value, post.unit) = (span(sides), "mm");
        post.note.push_str("; a panel of this shape is flat up to the shorter side given");
    }
    all.push(post);
    all.push(crown(plan, short_mm, sun));
    // Tape or adhesive holds the sheet up to its edge; without its width the middle of the post counts.
    let bond_mm = r.trim.bond_mm.map_or(0.0, |(_, width_mm)| width_mm);
    all.push(changed(
        "bonded to the posts".to_owned(),
        [width_mm - bond_mm, height_mm],
        &plan.metal,
        &[Edges::Clamped],
        "at best: edges clamped all round".to_owned(),
    ));
    if let Some((gauge, sheet)) = &plan.heavier {
        let metal = Metal { thickness_mm: sheet.base_mm, ..plan.metal };
        // Where either strength is not known, the thickness alone is compared.
        let (heavier_mpa, own_mpa) = sheet.fy_mpa.zip(r.sheet.fy_mpa).unwrap_or((1.0, 1.0));
        let (own, other) = ((sheet.base_mm, heavier_mpa), (plan.metal.thickness_mm, own_mpa));
        let note = format!(
            "{:.1} times the load for a dent, {:.1} times the stiffness against a hand, {:.0} % more mass",
            load_ratio(own, other),
            stiffness_ratio(own.0, other.0),
            (sheet.areal_mass_kg_m2 / r.sheet.areal_mass_kg_m2 - 1.0) * 100.0
        );
        all.push(changed(format!("gauge {gauge}"), [width_mm, height_mm], &metal, &BOTH, note));
    }
    all
}

/// How much warmer than its frame to hang the sheet, and what its rivets then carry in the cold.
fn hang_warm(r: &Resolved, sun: &Lying) -> Advice {
    let plan = &r.flatness;
    let frame = plan.hung.frame_deg_c;
    let over = |allowed_k| hang_over_frame_k(&plan.metal, plan.frame_expansion_per_k, plan.hot, frame, allowed_k);
    let (flat_k, tight_k) = (over(sun.critical_k.1), over(0.0));
    let hung = Warmth { skin_deg_c: frame + tight_k, frame_deg_c: frame };
    let cold_k = rise_k(&plan.metal, plan.frame_expansion_per_k, plan.cold, hung);
    let pull = |share: f64| plan.metal.flat_force_n_mm(share * cold_k).abs() * r.pitch_mm;
    let note = format!(
        "skin over frame on the day of hanging, frame at {frame:.0} °C: from the first it may lie flat, from the second it is in \
         tension in the hottest sun; in the cold it then pulls with {:.0} to {:.0} N at each rivet of its edges, held from {} to {}; \
         joints are checked with {} of a wholly held sheet's force (loads.restraint)",
        pull(plan.hold.least),
        pull(plan.hold.most),
        significant(plan.hold.least),
        significant(plan.hold.most),
        significant(r.loads.restraint)
    );
    let remedy = "hung warmer than its frame".to_owned();
    Advice { remedy, critical_k: None, bow_mm: None, value: span((flat_k, tight_k)), unit: "K", note }
}

fn crown(plan: &FlatnessPlan, short_mm: f64, sun: &Lying) -> Advice {
    let radius = crown_radius_mm(short_mm, &plan.metal, plan.hold.most * sun.rise_k);
    let note = match radius {
        Some((least, most)) => {
            let rise = |radius_mm| crown_rise_mm(short_mm, radius_mm).map_or(0.0, |mm| mm);
            format!(
                "radius by the lowest and the highest of tests: {:.0} to {:.0} mm of rise over the shorter side",
                rise(least),
                rise(most)
            )
        }
        None if sun.rise_k <= 0.0 => "not needed: in tension".to_owned(),
        None => "no radius inside the rules' range is enough".to_owned(),
    };
    Advice {
        remedy: "a crown".to_owned(),
        critical_k: None,
        bow_mm: None,
        value: radius.and_then(span),
        unit: "mm",
        note,
    }
}

/// What a held sheet puts across the lines at which it ends, N/mm, and when: the rivets' play over the longest sheet taken
/// off, of the rest the share that reaches them.
pub(super) fn line_force(r: &Resolved) -> (f64, &'static str) {
    let plan = &r.flatness;
    let ends = r.skins.ends.iter().map(|p| p.wrap.as_ref().map_or(p.length_mm, |wrap| wrap.along_mm()));
    let longest_mm = r.skins.sheets.iter().map(|s| s.length_mm()).chain(ends).fold(1.0, f64::max);
    let felt = |now: Warmth| {
        let strain = plan.metal.expansion_per_k * rise_k(&plan.metal, plan.frame_expansion_per_k, now, plan.hung);
        skin_over_frame_k(strain, r.loads.play_mm / longest_mm, plan.metal.expansion_per_k)
    };
    let force = |now: Warmth| r.loads.restraint * plan.metal.flat_force_n_mm(felt(now)).abs();
    let (sun, cold) = (force(plan.hot), force(plan.cold));
    if sun > cold { (sun, "in the sun") } else { (cold, "in the cold") }
}

/// The worst panel in the sun, and in the cold.
pub(super) fn checks(r: &Resolved, summary: &FlatnessSummary) -> Vec<Check> {
    let plan = &r.flatness;
    let at = |size: &PanelSize| format!("{} panels, {:.0} x {:.0} mm", size.count, size.width_mm, size.height_mm);
    let clause = "plate buckling by held heat, k of equal compression both ways; edges simple, frame holding the most";
    let sun: Vec<Check> = summary
        .sizes
        .iter()
        .map(|size| {
            let sides = (size.sun.map(|l| l.rise_k), size.sun.map(|l| l.critical_k.0), "K skin over frame");
            let check = Check::compare("flatness in the sun", clause, sides, Level::Stated, plan.standing)
                .at(at(size))
                .by("ΔT ≤ k π² (t/b)² / (12 (1 + ν) α)", terms(plan, size));
            let Some(lying) = size.sun else {
                let why = size.outside.clone().unwrap_or_default();
                return check.demoted(Verdict::OutsideRange, why);
            };
            let bows = || {
                let (least, most) = lying.bow_mm;
                format!("{}: {least:.1} to {most:.1} mm of bow", lying.lies.words())
            };
            if !plan.hung_given {
                let why = format!(
                    "the day of hanging is not in the plan: measure skin and frame by contact thermometer and write \
                     flatness.hang; hung as warm as each other: {}",
                    bows()
                );
                return check.demoted(Verdict::NotAssessed, why);
            }
            match lying.lies {
                Lies::Tension | Lies::Flat => check.because(lying.lies.words()),
                Lies::MayBuckle => {
                    check.demoted(Verdict::NotAssessed, format!("flat only if its edges are clamped: {}", bows()))
                }
                Lies::Buckles => check.because(format!("{}: see the advice (hang warmer, posts, crown)", bows())),
            }
        })
        .collect();
    let cold: Vec<Check> = summary
        .sizes
        .iter()
        .map(|size| {
            let thickness_mm = plan.metal.thickness_mm;
            let pull = size.cold.map(|l| if l.rise_k < 0.0 { l.line_n_mm.1 / thickness_mm } else { 0.0 });
            let clause = "derived: held both ways, the frame holding the most";
            let sides = (pull, r.sheet.fy_mpa, "MPa");
            let check = Check::compare("flatness in the cold, pull", clause, sides, Level::Stated, plan.standing)
                .at(at(size))
                .by("E α ΔT / (1 - ν) ≤ f_y", terms(plan, size));
            match (&size.cold, &size.outside) {
                (None, Some(why)) => check.demoted(Verdict::OutsideRange, why.clone()),
                _ if r.sheet.fy_mpa.is_none() => check.because("the sheet's yield strength is not known (skin.fy)"),
                _ => check,
            }
        })
        .collect();
    [sun, cold].iter().filter_map(|own| governing(own).cloned()).collect()
}

fn terms(plan: &FlatnessPlan, size: &PanelSize) -> Vec<crate::check::Term> {
    vec![
        term("t", plan.metal.thickness_mm, "mm"),
        term("b", size.width_mm.min(size.height_mm), "mm"),
        term("α", plan.metal.expansion_per_k, "1/K"),
        term("E", plan.metal.modulus_mpa, "MPa"),
        term("ν", plan.metal.poisson, ""),
    ]
}
