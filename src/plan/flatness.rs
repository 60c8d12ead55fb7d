//! How flat a plan's skins lie: every panel between posts in sun and cold, and what would keep it flat.

use std::sync::OnceLock;

use rayon::prelude::*;
use serde::Serialize;

use crate::body::flatness::{
    Bounds, Hold, Lies, Lying, Metal, SuctionBows, Warmth, crown_radius_mm, crown_rise_mm, drumming_hz, flat_side_mm,
    hang_over_frame_k, lying_within, rise_k,
};
use crate::body::panels::{Held, Part, SkinPanel, panels};
use crate::body::raise::Raise;
use crate::body::skin_loads::{AirCase, Zone};
use crate::body::skins::Skins;
use crate::body::survey::{Side, Survey};
use crate::check::{Check, Level, Standing, Verdict, governing, significant, term};
use crate::error::Problem;
use crate::mechanics::panel::{Edges, load_ratio, skin_over_frame_k, stiffness_ratio};
use crate::shared::Shared;

use super::resolve::{FlatnessPlan, Resolved};
use super::results::Span;
use super::skin_loads::LoadCase;

/// A panel of skin between what holds it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FlatPanel {
    /// Name: side, course from the top, posts: `L-A P3-P4`; of a patch or at an end that of its sheet.
    pub id: String,
    /// Part of the skin.
    pub part: Part,
    /// Its side; none across an end.
    pub side: Option<Side>,
    /// Course, 0 the top one; none for patches and ends.
    pub course: Option<usize>,
    /// Between posts or upright rivet lines, mm.
    pub width_mm: f64,
    /// Between rivet lines, mm.
    pub height_mm: f64,
    /// Its size, by index among the sizes; none where it is not assessed.
    pub size: Option<usize>,
    /// What is missing to assess it; empty where nothing is.
    pub missing: &'static str,
    /// How the air meets it.
    pub zone: Zone,
    /// Greatest suction on it, Pa.
    pub suction_pa: f64,
    /// When that is.
    pub air_case: AirCase,
}

/// How far a panel bows under its greatest suction, skin neither warmer nor colder over its frame than it was hung.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SuctionBow {
    /// Edges clamped, the frame holding the most, mm; none outside the rules.
    pub least_mm: Option<f64>,
    /// Edges free to turn, the frame holding the least, mm; none outside the rules.
    pub most_mm: Option<f64>,
    /// Why one of them is not told.
    pub outside: Option<String>,
}

/// Panels of one size: how they lie, how they drum, what would keep them flat.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PanelSize {
    /// Between posts or upright rivet lines, of a cap's face between its bends, mm.
    pub width_mm: f64,
    /// Between rivet lines, mm.
    pub height_mm: f64,
    /// What bounds it upright.
    pub bounds: Bounds,
    /// It does not stand upright: how warm the sun makes it is not known.
    pub slopes: bool,
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

impl PanelSize {
    /// How it lies in the sun, in words.
    pub fn sun_words(&self) -> &'static str {
        if self.slopes { "not assessed" } else { words_of(self.sun) }
    }

    /// How it lies in the cold, in words.
    pub fn cold_words(&self) -> &'static str {
        words_of(self.cold)
    }
}

fn words_of(lying: Option<Lying>) -> &'static str {
    lying.map_or("outside the rule's range", |l| l.lies.words())
}

/// A panel with all that is told of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanelRow<'a> {
    /// The panel.
    pub panel: &'a FlatPanel,
    /// Panels of its size; none where it is not assessed.
    pub size: Option<&'a PanelSize>,
    /// How far it bows under its greatest suction; none where it is not assessed.
    pub suction_bow: Option<&'a SuctionBow>,
}

impl PanelRow<'_> {
    /// What its bows are worth.
    pub fn note(&self) -> String {
        match self.size.map(|size| size.bounds) {
            None => String::new(),
            Some(Bounds::Lines) => NO_SUM.to_owned(),
            Some(Bounds::Bends) => format!("{NO_SUM}; its bends hold its ends from not at all to as a clamp does"),
        }
    }

    /// Why something is not told of it; empty where all is.
    pub fn reason(&self) -> String {
        let slopes = self.size.filter(|s| s.slopes).map(|_| SLOPE);
        let outside = self.size.and_then(|s| s.outside.as_deref());
        let suction = self.suction_bow.and_then(|bow| bow.outside.as_deref());
        let missing = Some(self.panel.missing).filter(|m| !m.is_empty());
        [missing, slopes, outside, suction].into_iter().flatten().collect::<Vec<_>>().join("; ")
    }
}

/// Bows under suction, worked out when they are asked for: their series take longer than the rest of an evaluation.
#[derive(Debug, Clone, Default)]
struct SuctionRows(OnceLock<Vec<Option<SuctionBow>>>);

impl PartialEq for SuctionRows {
    /// They follow from what lies beside them.
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl FlatnessSummary {
    /// Every panel with its size and its bow under suction.
    pub fn rows(&self) -> impl Iterator<Item = PanelRow<'_>> {
        let bows = self.suction_rows.0.get_or_init(|| self.suction_bows());
        self.panels.iter().zip(bows).map(|(panel, bow)| PanelRow {
            panel,
            size: panel.size.and_then(|size| self.sizes.get(size)),
            suction_bow: bow.as_ref(),
        })
    }

    /// Panels of one size and suction bow alike.
    fn suction_bows(&self) -> Vec<Option<SuctionBow>> {
        let series = |s: &PanelSize| SuctionBows::new([s.width_mm, s.height_mm], s.bounds, &self.metal, self.hold);
        let series: Vec<SuctionBows> = self.sizes.par_iter().map(series).collect();
        let mut told: Vec<(usize, f64, SuctionBow)> = Vec::new();
        let mut bow = |panel: &FlatPanel| {
            let (size, pa) = (panel.size?, panel.suction_pa);
            if let Some((.., bow)) = told.iter().find(|(s, q, _)| *s == size && q.to_bits() == pa.to_bits()) {
                return Some(bow.clone());
            }
            let bow = suction_bow(series.get(size)?.at(pa));
            told.push((size, pa, bow.clone()));
            Some(bow)
        };
        self.panels.iter().map(&mut bow).collect()
    }
}

const NO_SUM: &str = "bow by heat and bow under suction are each by itself and do not simply add up: a sheet in tension bows less \
    under suction, one that heat has bowed otherwise than by their sum";
const SLOPE: &str =
    "not assessed in the sun: flatness.sun is the sun on an upright side, and what falls on a slope is not in the plan";

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
    /// The metal of the skin.
    pub metal: Metal,
    #[serde(skip)]
    suction_rows: SuctionRows,
}

const BOTH: [Edges; 2] = [Edges::Simple, Edges::Clamped];

fn span((least, most): (f64, f64)) -> Option<Span> {
    Span::of([Some(least), Some(most)])
}

/// Without the warmth of the day of hanging no bow is told for certain.
const NOT_HUNG: &str =
    "the day of hanging is not in the plan: measure skin and frame by contact thermometer and write flatness.hang";

/// Panels of one size in sun and cold: all that choices turn on.
#[derive(Debug, Clone)]
pub(super) struct LyingSize {
    size_mm: [f64; 2],
    bounds: Bounds,
    count: usize,
    /// None on a slope, where the sun is not known.
    pub(super) sun: Option<Result<Lying, Vec<Problem>>>,
    cold: Result<Lying, Vec<Problem>>,
}

impl LyingSize {
    fn alike(&self, panel: &SkinPanel<'_>, bounds: Bounds) -> bool {
        let near = |(a, b): (f64, f64)| (a - b).abs() < 0.05;
        let sizes = self.size_mm.into_iter().zip(panel.size_mm);
        sizes.into_iter().all(near) && self.bounds == bounds && self.sun.is_none() == panel.slopes
    }
}

fn rises_k(plan: &FlatnessPlan) -> (f64, f64) {
    let rise = |now: Warmth| rise_k(&plan.metal, plan.frame_expansion_per_k, now, plan.hung);
    (rise(plan.hot), rise(plan.cold))
}

fn all_panels(r: &Resolved) -> Vec<SkinPanel<'_>> {
    panels(&r.survey, &r.raise, &r.skins, r.rules.edge_mm)
}

/// All panels by size, and how many have none because what holds them is not known.
#[derive(Debug)]
pub(super) struct LyingPanels {
    pub(super) sizes: Vec<LyingSize>,
    unknown: usize,
}

impl LyingPanels {
    /// Panels whose bow in the sun is not known: what holds them, or the sun on them, is not, or they are outside the rules.
    pub(super) fn not_assessed(&self) -> usize {
        let known = |size: &&LyingSize| matches!(size.sun, Some(Ok(_)));
        self.unknown + self.sizes.iter().filter(|size| !known(size)).map(|size| size.count).sum::<usize>()
    }
}

/// What the sizes of panels come from: the temperatures, where posts and rivet lines are, and how far these lie from an edge, mm.
pub(super) type OfSizes = (Shared<FlatnessPlan>, Shared<Survey>, Shared<Raise>, Shared<Skins>, f64);

pub(super) fn of_sizes(r: &Resolved) -> OfSizes {
    (r.flatness.clone(), r.survey.clone(), r.raise.clone(), r.skins.clone(), r.rules.edge_mm)
}

/// How the panels of each size lie.
pub(super) fn sizes((plan, survey, raise, skins, edge_mm): &OfSizes) -> Shared<LyingPanels> {
    let (sun_k, cold_k) = rises_k(plan);
    let (mut sizes, mut unknown): (Vec<LyingSize>, usize) = (Vec::new(), 0);
    for panel in panels(survey, raise, skins, *edge_mm) {
        let Held::By(bounds) = panel.held else {
            unknown += 1;
            continue;
        };
        if let Some(own) = sizes.iter_mut().find(|size| size.alike(&panel, bounds)) {
            own.count += 1;
            continue;
        }
        let at = |rise_k: f64| lying_within(panel.size_mm, bounds, &plan.metal, plan.hold, rise_k, &BOTH);
        let sun = (!panel.slopes).then(|| at(sun_k));
        sizes.push(LyingSize { size_mm: panel.size_mm, bounds, count: 1, sun, cold: at(cold_k) });
    }
    LyingPanels { sizes, unknown }.into()
}

/// Works every panel out.
pub(super) fn flatness(r: &Resolved, loads: &LoadCase, lying: &[LyingSize]) -> FlatnessSummary {
    let plan = &r.flatness;
    let (sun_k, cold_k) = rises_k(plan);
    let of_panel = |panel: SkinPanel<'_>| {
        let (zone, (suction_pa, air_case)) = loads.worst(&panel.zones(&loads.zones));
        let (size, missing) = match panel.held {
            Held::By(bounds) => (lying.iter().position(|size| size.alike(&panel, bounds)), ""),
            Held::Unknown(missing) => (None, missing),
        };
        let [width_mm, height_mm] = panel.size_mm;
        FlatPanel {
            id: panel.name(),
            part: panel.part(),
            side: panel.side,
            course: panel.course(),
            width_mm,
            height_mm,
            size,
            missing,
            zone,
            suction_pa,
            air_case,
        }
    };
    let panels: Vec<FlatPanel> = all_panels(r).into_iter().map(of_panel).collect();
    FlatnessSummary {
        hung: plan.hung,
        hung_given: plan.hung_given,
        hot: plan.hot,
        cold: plan.cold,
        sun_k,
        cold_k,
        hold: plan.hold,
        notes: notes(plan, &panels),
        panels,
        sizes: lying.iter().map(|size| of_size(r, size)).collect(),
        standing: plan.standing,
        metal: plan.metal,
        suction_rows: SuctionRows::default(),
    }
}

fn suction_bow([least, most]: [Result<f64, Vec<Problem>>; 2]) -> SuctionBow {
    let why =
        |which: &str, own: &Result<f64, Vec<Problem>>| own.as_ref().err().map(|p| format!("{which}: {}", words(p)));
    let outside = why("bow under suction, edges clamped, the frame holding the most", &least).or_else(|| {
        why("bow under suction, edges free to turn, the frame holding the least (flatness.restraint)", &most)
    });
    SuctionBow { least_mm: least.ok(), most_mm: most.ok(), outside }
}

fn notes(plan: &FlatnessPlan, panels: &[FlatPanel]) -> Vec<String> {
    let Warmth { skin_deg_c, frame_deg_c } = plan.hung;
    let mut notes = vec![
        format!(
            "what counts is skin less frame, now less on the day of hanging (skin {skin_deg_c:.0} °C, frame {frame_deg_c:.0} \
             °C): equally warm gains nothing"
        ),
        format!(
            "ranges: edges free to turn to clamped, the frame holding {} to {} of what the sheet would grow or draw in; bows by \
             heat are those of a long strip, an upper figure; forces on rivets are upper figures where rivets or frame give way",
            significant(plan.hold.least),
            significant(plan.hold.most)
        ),
        "ends and patches count as warm as the sides; posts of the end walls are not in the plan: between them an end's panel bows \
         less"
            .to_owned(),
        format!("{NO_SUM}; suction as a service load"),
        "flat sheet without dents; deep after buckling it may fall into several bulges, which are shallower".to_owned(),
    ];
    let mut missing: Vec<&str> = panels.iter().map(|panel| panel.missing).filter(|m| !m.is_empty()).collect();
    missing.sort_unstable();
    missing.dedup();
    for missing in missing {
        let own: Vec<&str> = panels.iter().filter(|p| p.missing == missing).map(|p| p.id.as_str()).collect();
        notes.push(format!("not assessed: {}: {missing}", own.join("; ")));
    }
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

fn of_size(r: &Resolved, size: &LyingSize) -> PanelSize {
    let LyingSize { size_mm, bounds, count, sun, cold } = size.clone();
    let mass_kg_m2 = r.sheet.areal_mass_kg_m2 + r.masses.coat_kg_m2;
    let drumming = drumming_hz(size_mm, bounds, &r.flatness.metal, mass_kg_m2);
    let outside: Vec<String> =
        sun.iter().chain([&cold]).filter_map(|own| own.as_ref().err()).map(|p| words(p)).collect();
    let slopes = sun.is_none();
    let sun = sun.and_then(Result::ok);
    let [width_mm, height_mm] = size_mm;
    PanelSize {
        width_mm,
        height_mm,
        bounds,
        slopes,
        count,
        outside: outside.first().cloned(),
        advice: sun.as_ref().map_or_else(Vec::new, |sun| advice(r, (size_mm, bounds), sun)),
        sun,
        cold: cold.ok(),
        drumming_hz: drumming.ok().and_then(span),
    }
}

/// What would keep a panel flat, each by the same functions.
fn advice(r: &Resolved, ([width_mm, height_mm], bounds): ([f64; 2], Bounds), sun: &Lying) -> Vec<Advice> {
    let plan = &r.flatness;
    let short_mm = width_mm.min(height_mm);
    let changed = |remedy: String, size_mm: [f64; 2], metal: &Metal, edges: &[Edges], note: String| {
        let lies = lying_within(size_mm, bounds, metal, plan.hold, sun.rise_k, edges);
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
    // Nothing bonds a bend.
    if bounds == Bounds::Lines {
        all.push(changed(
            "bonded to the posts".to_owned(),
            [width_mm - bond_mm, height_mm],
            &plan.metal,
            &[Edges::Clamped],
            "at best: edges clamped all round".to_owned(),
        ));
    }
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

/// The worst panel in the sun, and in the cold; and the deepest bow where the planner set a limit.
pub(super) fn checks(r: &Resolved, loads: &LoadCase, summary: &FlatnessSummary) -> Vec<Check> {
    let plan = &r.flatness;
    let at = |size: &PanelSize| format!("{} panels, {:.0} x {:.0} mm", size.count, size.width_mm, size.height_mm);
    let clause = "plate buckling by held heat, k of equal compression both ways; edges simple, frame holding the most";
    let sun: Vec<Check> = summary
        .sizes
        .iter()
        .filter(|size| !size.slopes)
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
                let why = format!("{NOT_HUNG}; hung as warm as each other: {}", bows());
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
    let bows = plan.most_bow_mm.map_or_else(Vec::new, |most_mm| bow_checks(plan, loads, summary, most_mm));
    [sun, cold].into_iter().chain(bows).filter_map(|own| governing(&own).cloned()).collect()
}

/// Every panel's bow against the planner's limit, by heat and by suction.
fn bow_checks(plan: &FlatnessPlan, loads: &LoadCase, summary: &FlatnessSummary, most_mm: f64) -> Vec<Vec<Check>> {
    let without = |slopes: bool| {
        let size = |panel: &&FlatPanel| panel.size.and_then(|size| summary.sizes.get(size));
        summary.panels.iter().filter(|panel| size(panel).is_none_or(|size| slopes && size.slopes)).count()
    };
    let unknown_of = [("panel bow in the sun", without(true)), ("panel bow under suction", without(false))];
    let check = |name: &'static str, clause: &'static str, ends: [Option<f64>; 2], outside: Option<&str>, standing| {
        let [least, most] = ends;
        let unknown = unknown_of.iter().find(|(own, _)| *own == name).map_or(0, |(_, unknown)| *unknown);
        // Too far even at its least is too far.
        let demand = most.or(least.filter(|least| *least > most_mm));
        let check = Check::compare(name, clause, (demand, Some(most_mm), "mm"), Level::Stated, standing);
        match (check.verdict, least) {
            (Verdict::NotAssessed, _) => {
                check.demoted(Verdict::OutsideRange, outside.unwrap_or("no figure for it").to_owned())
            }
            (Verdict::Fails, Some(least)) if least <= most_mm => {
                let why =
                    format!("only where its edges are clamped and the frame holds the most: from {least:.1} mm on");
                check.demoted(Verdict::NotAssessed, why)
            }
            (Verdict::Passes, _) if unknown > 0 => check
                .because(format!("of the panels that have a figure; {unknown} have none: see the notes on flatness")),
            _ => check,
        }
    };
    let heat = summary.sizes.iter().filter(|size| !size.slopes).map(|size| {
        let ends = [size.sun.map(|l| l.bow_mm.0), size.sun.map(|l| l.bow_mm.1)];
        let clause = "derived: bow of a held strip after buckling, by itself";
        let at = format!("{} panels, {:.0} x {:.0} mm", size.count, size.width_mm, size.height_mm);
        let formula = "w = (2 b/π) √((1 + ν) α ΔT - π² t²/(12 b²))";
        let check = check("panel bow in the sun", clause, ends, size.outside.as_deref(), plan.standing)
            .at(at)
            .by(formula, terms(plan, size));
        match check.verdict {
            Verdict::Passes | Verdict::Fails if !plan.hung_given => check.demoted(Verdict::NotAssessed, NOT_HUNG),
            _ => check,
        }
    });
    let suction = summary.rows().filter_map(|PanelRow { panel, size, suction_bow }| {
        let (bow, size) = (suction_bow?, size?);
        let clause = "von Kármán's plate by a Ritz series, edges free to turn to clamped, by itself";
        let standing = plan.standing.with(loads.standing).with(Standing::Memory);
        let ends = [bow.least_mm, bow.most_mm];
        let mut terms = terms(plan, size);
        terms.push(term("q", panel.suction_pa * 1e-6, "MPa"));
        let check = check("panel bow under suction", clause, ends, bow.outside.as_deref(), standing);
        Some(check.at(format!("{}, {}", panel.id, panel.air_case.words())).by("w by q b⁴/(E t⁴)", terms))
    });
    vec![heat.collect(), suction.collect()]
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
