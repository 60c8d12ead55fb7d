//! Which sheet covers what: courses between window and drip rail, seams on posts, closing panels at the ends, laps.

mod ends;
mod laps;
mod patches;
mod seams;

use crate::error::Problem;

use super::raise::Raise;
use super::survey::{Side, Survey};

use ends::end_panels;
pub use ends::{BandSize, CapSheet, EndPanel, STRIP_MM, Triangle, Wing, Wrap};
pub use laps::{Lap, LapException, LapKind};
use laps::{laps, on_posts, shared_mm};
pub use patches::{Patch, Unpatched};
use patches::{in_the_way, patches};
use seams::course_lines;
pub use seams::seams_on_posts;

/// How seams are chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum SeamPolicy {
    /// As few as the largest sheet allows.
    #[serde(rename = "fewest seams")]
    Fewest,
    /// Sheets as equal as one more than the fewest can make them.
    #[serde(rename = "equal sheets")]
    Equal,
    /// Where the old skin had them.
    #[serde(rename = "factory seams")]
    Factory,
}

impl SeamPolicy {
    /// Every one.
    pub const ALL: [Self; 3] = [Self::Fewest, Self::Equal, Self::Factory];

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Fewest => "fewest seams",
            Self::Equal => "equal sheets",
            Self::Factory => "factory seams",
        }
    }
}

/// Mass that one person may lift where all else is ideal, kg: the load constant of the revised NIOSH lifting equation,
/// which prints 51 lb beside it (from memory).
pub const LIFTING_CONSTANT_KG: f64 = 23.0;

/// What people lift.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Lifting {
    /// What one person may lift, in parts of the [load constant](LIFTING_CONSTANT_KG).
    pub factor: f64,
    /// People at a sheet at most.
    pub people: usize,
}

impl Lifting {
    /// People that a mass needs.
    pub fn people_for(&self, mass_kg: f64) -> usize {
        (mass_kg / (self.factor * LIFTING_CONSTANT_KG) - 1e-9).ceil().max(1.0) as usize
    }

    /// The heaviest sheet that all of them together may lift, kg.
    pub fn heaviest_kg(&self) -> f64 {
        self.people as f64 * self.factor * LIFTING_CONSTANT_KG
    }
}

/// Limits, edges and choices for laying out sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetRules {
    /// Longest sheet, along the bus, mm.
    pub longest_mm: f64,
    /// Tallest sheet, up the side, mm.
    pub tallest_mm: f64,
    /// Rivet line to sheet edge, mm.
    pub edge_mm: f64,
    /// Height at which the skin ends below, at windows that are skinned over, mm.
    pub lower_edge_mm: f64,
    /// How seams are chosen.
    pub policy: SeamPolicy,
    /// Mass of the sheet as it is bought, kg/m2.
    pub areal_mass_kg_m2: f64,
    /// What people lift.
    pub lifting: Lifting,
    /// Laps that are made otherwise than water and wind ask.
    pub exceptions: Vec<LapException>,
}

/// Windows in a row on one side above which the skin begins at one height.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Run {
    /// Its side.
    pub side: Side,
    /// Index of its rearmost post.
    pub first_post: usize,
    /// Index of its foremost post.
    pub last_post: usize,
    /// Rivet lines where courses begin and end, mm above the ground, highest first.
    pub lines_mm: Vec<f64>,
    /// What stays beneath it; none where windows are skinned over.
    pub above: Option<String>,
}

impl Run {
    /// Number of courses.
    pub fn courses(&self) -> usize {
        self.lines_mm.len().saturating_sub(1)
    }

    /// Lowest rivet line, mm above the ground.
    pub fn bottom_mm(&self) -> f64 {
        self.lines_mm.last().copied().unwrap_or_default()
    }

    /// It ends below at the rub rail, which lies over it as built.
    pub fn at_rub_rail(&self, survey: &Survey) -> bool {
        let rail = survey.heights.rub_rail_mm;
        self.above.is_none() && rail.is_some_and(|z_mm| (z_mm - self.bottom_mm()).abs() < 1.0)
    }

    /// Height of its tallest course between rivet lines, mm.
    pub fn tallest_mm(&self) -> f64 {
        self.lines_mm.windows(2).map(|pair| pair[0] - pair[1]).fold(0.0, f64::max)
    }
}

/// One sheet on a side.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Sheet {
    /// Name: side, course from the top, number from the rear: `L-A1`; a patch is `L-patch 1`.
    pub id: String,
    /// Side.
    pub side: Side,
    /// Course, 0 the top one.
    pub course: usize,
    /// Index of the post under its rear seam.
    pub first_post: usize,
    /// Index of the post under its front seam.
    pub last_post: usize,
    /// Rear edge, mm forward of the rear face.
    pub x0_mm: f64,
    /// Front edge, mm.
    pub x1_mm: f64,
    /// Lower edge, mm above the ground.
    pub z0_mm: f64,
    /// Upper edge, mm above the ground.
    pub z1_mm: f64,
    /// What it is fitted to where it fills the rest of a bay beside a door or the driver's window; none otherwise.
    pub patch: Option<Patch>,
    /// Mass, kg.
    pub mass_kg: f64,
    /// People to lift it.
    pub people: usize,
}

impl Sheet {
    /// Index of the post that its rear edge lies on; none where a patch stands beside what stays there.
    pub fn rear_post(&self) -> Option<usize> {
        self.patch.as_ref().is_none_or(|patch| patch.ahead).then_some(self.first_post)
    }

    /// Index of the post that its front edge lies on; none where a patch stands beside what stays there.
    pub fn front_post(&self) -> Option<usize> {
        self.patch.as_ref().is_none_or(|patch| !patch.ahead).then_some(self.last_post)
    }

    /// Along the bus, mm.
    pub fn length_mm(&self) -> f64 {
        self.x1_mm - self.x0_mm
    }

    /// Up the side, mm.
    pub fn height_mm(&self) -> f64 {
        self.z1_mm - self.z0_mm
    }

    /// Area, m2.
    pub fn area_m2(&self) -> f64 {
        self.length_mm() * self.height_mm() / 1e6
    }
}

/// What a policy costs.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct PolicyCost {
    /// Which.
    pub policy: SeamPolicy,
    /// Sheets on both sides.
    pub sheets: usize,
    /// Upright seams on posts, both sides, course by course.
    pub seams: usize,
    /// Of these, how many stand where the old skin has none; none where its seams are not in the plan.
    pub new_seams: Option<usize>,
    /// Shortest sheet, mm.
    pub shortest_mm: f64,
    /// Longest sheet, mm.
    pub longest_mm: f64,
    /// Heaviest sheet, kg.
    pub heaviest_kg: f64,
    /// People to lift it.
    pub people: usize,
    /// Length of upright laps, m.
    pub seam_length_m: f64,
}

/// All sheets of the raised part.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Skins {
    /// Rows of windows of one kind, left side first.
    pub runs: Vec<Run>,
    /// Sheets on the sides, patches last.
    pub sheets: Vec<Sheet>,
    /// What stays of a bay beside a door or the driver's window and takes no patch.
    pub unpatched: Vec<Unpatched>,
    /// Panels at the ends.
    pub ends: Vec<EndPanel>,
    /// Every lap: which sheet lies over which.
    pub laps: Vec<Lap>,
    /// What each policy costs that the survey allows.
    pub policies: Vec<PolicyCost>,
}

impl Skins {
    /// Edge of a sheet that shows, where the straight mill edge belongs: the lower one where it lies over what is below, else
    /// the rear one where it lies over the next sheet, else none.
    pub fn showing_edge(&self, sheet: &Sheet) -> Option<&'static str> {
        let over = |kind: LapKind| self.laps.iter().any(|lap| lap.over == sheet.id && lap.kind == kind);
        if over(LapKind::Level) {
            Some("lower")
        } else if over(LapKind::Upright) {
            Some("rear")
        } else {
            None
        }
    }

    /// Panels of the ends that lap on this post of this side.
    pub fn panels_on_post(&self, side: Side, post: usize) -> impl Iterator<Item = &EndPanel> {
        self.ends.iter().filter(move |panel| {
            let here = |lap: &&Lap| lap.post == Some(post) && lap.side == Some(side);
            self.laps.iter().filter(here).any(|lap| lap.over == panel.id || lap.under == panel.id)
        })
    }

    /// Patches on this side.
    pub fn patches(&self, side: Side) -> impl Iterator<Item = (&Sheet, &Patch)> {
        let on_side = self.sheets.iter().filter(move |sheet| sheet.side == side);
        on_side.filter_map(|sheet| Some((sheet, sheet.patch.as_ref()?)))
    }

    /// Two of the new sheets and panels lap on this post.
    pub fn has_seam(&self, side: Side, post: usize) -> bool {
        let here = |lap: &&Lap| lap.post == Some(post) && lap.side == Some(side);
        self.laps.iter().filter(here).any(|lap| self.is_new(&lap.over) && self.is_new(&lap.under))
    }

    /// This is the name of a sheet or panel that is hung, not of what stays.
    pub fn is_new(&self, name: &str) -> bool {
        self.sheets.iter().any(|sheet| sheet.id == name) || self.ends.iter().any(|panel| panel.id == name)
    }
}

/// Lays out all sheets of the raised part; where the whole roof is raised, `caps` take the place of bands and corners.
///
/// # Errors
/// A window wider, an end panel taller, or an edge larger, than the largest sheet allows; a sheet that is heavier than the
/// people at hand may lift; an exception that names no lap.
pub fn lay_out(survey: &Survey, raise: &Raise, rules: &SheetRules, caps: &[CapSheet]) -> Result<Skins, Problem> {
    let reach_mm = rules.tallest_mm - 2.0 * rules.edge_mm;
    if reach_mm <= 0.0 {
        return Err(Problem::out_of_range(
            "skin.largest_sheet.height",
            format!("{:.0} mm", rules.tallest_mm),
            format!("more than twice the edge distance of {:.1} mm", rules.edge_mm),
        ));
    }
    let runs: Vec<Run> = Side::BOTH.into_iter().flat_map(|side| runs(survey, raise, rules, reach_mm, side)).collect();
    let mut sheets = sheets(survey, rules, &runs, rules.policy)?;
    let ends = end_panels(survey, raise, rules, caps);
    if let Some(panel) = ends.iter().find(|p| p.upright_mm() > rules.tallest_mm) {
        return Err(Problem::contradiction(
            "skin.largest_sheet.height",
            format!("{:.0} mm", rules.tallest_mm),
            format!(
                "the {} needs {:.0} mm up the panel; buy taller sheet, or raise less",
                panel.id,
                panel.upright_mm()
            ),
        ));
    }
    if let Some(panel) = ends.iter().find(|p| p.people > rules.lifting.people) {
        return Err(Problem::contradiction(
            "skin.people",
            format!("{} people", rules.lifting.people),
            format!(
                "the {} weighs {:.0} kg, and together they may lift {:.0} kg: bring more people or a hoist, buy shorter or \
                 thinner sheet, or raise skin.lifting_factor where you have reason to",
                panel.id,
                panel.mass_kg,
                rules.lifting.heaviest_kg()
            ),
        ));
    }
    let offered = SeamPolicy::ALL.into_iter().filter(|p| *p != SeamPolicy::Factory || survey.factory_seams.is_some());
    let policies =
        offered.map(|policy| Ok(cost(survey, rules, policy, &sheets_by(survey, rules, &runs, &sheets, policy)?)));
    let policies = policies.collect::<Result<_, Problem>>()?;
    // No policy moves a patch.
    let (own, unpatched) = patches(survey, raise, rules, &runs);
    sheets.extend(own);
    let laps = laps(survey, raise, rules, (&runs, &sheets, &ends))?;
    Ok(Skins { runs, sheets, unpatched, ends, laps, policies })
}

/// The sheets of a policy: those of the plan's own are there already.
fn sheets_by<'a>(
    survey: &Survey,
    rules: &SheetRules,
    runs: &[Run],
    own: &'a [Sheet],
    policy: SeamPolicy,
) -> Result<std::borrow::Cow<'a, [Sheet]>, Problem> {
    if policy == rules.policy { Ok(own.into()) } else { sheets(survey, rules, runs, policy).map(Into::into) }
}

fn cost(survey: &Survey, rules: &SheetRules, policy: SeamPolicy, sheets: &[Sheet]) -> PolicyCost {
    let lengths = || sheets.iter().map(Sheet::length_mm);
    let heaviest = sheets.iter().max_by(|a, b| a.mass_kg.total_cmp(&b.mass_kg));
    let seams: Vec<(usize, f64)> = on_posts(sheets, rules)
        .map(|(forward, rearward)| (forward.first_post, shared_mm(forward, rearward) - 2.0 * rules.edge_mm))
        .collect();
    let new = |factory: &Vec<bool>| seams.iter().filter(|(post, _)| factory.get(*post) != Some(&true)).count();
    PolicyCost {
        policy,
        sheets: sheets.len(),
        seams: seams.len(),
        new_seams: survey.factory_seams.as_ref().map(new),
        shortest_mm: lengths().fold(f64::INFINITY, f64::min),
        longest_mm: lengths().fold(0.0, f64::max),
        heaviest_kg: heaviest.map_or(0.0, |sheet| sheet.mass_kg),
        people: heaviest.map_or(0, |sheet| sheet.people),
        seam_length_m: seams.iter().map(|(_, mm)| mm / 1000.0).sum(),
    }
}

fn sheets(survey: &Survey, rules: &SheetRules, runs: &[Run], policy: SeamPolicy) -> Result<Vec<Sheet>, Problem> {
    let mut sheets: Vec<Sheet> = Vec::new();
    for run in runs {
        let posts_mm = &survey.posts_mm[run.first_post..=run.last_post];
        let tallest_mm = run.tallest_mm() + 2.0 * rules.edge_mm;
        let liftable_mm = rules.lifting.heaviest_kg() / rules.areal_mass_kg_m2 * 1e6 / tallest_mm;
        let longest_mm = rules.longest_mm.min(liftable_mm);
        let factory = survey.factory_seams.as_ref().map_or(&[][..], |seams| &seams[run.first_post..=run.last_post]);
        let path = seams_on_posts(posts_mm, rules.edge_mm, longest_mm, policy, factory)
            .map_err(|window| too_wide(rules, run, posts_mm, window, (tallest_mm, liftable_mm)))?;
        for course in 0..run.courses() {
            let before = sheets.iter().filter(|sheet| sheet.side == run.side && sheet.course == course).count();
            for (i, pair) in path.windows(2).enumerate() {
                let (first, last) = (run.first_post + pair[0], run.first_post + pair[1]);
                let mut sheet = Sheet {
                    id: sheet_id(run.side, course, before + i + 1),
                    side: run.side,
                    course,
                    first_post: first,
                    last_post: last,
                    x0_mm: survey.posts_mm[first] - rules.edge_mm,
                    x1_mm: survey.posts_mm[last] + rules.edge_mm,
                    z0_mm: run.lines_mm[course + 1] - rules.edge_mm,
                    z1_mm: run.lines_mm[course] + rules.edge_mm,
                    patch: None,
                    mass_kg: 0.0,
                    people: 0,
                };
                sheet.mass_kg = sheet.area_m2() * rules.areal_mass_kg_m2;
                sheet.people = rules.lifting.people_for(sheet.mass_kg);
                sheets.push(sheet);
            }
        }
    }
    Ok(sheets)
}

/// Why no sheet spans a window: too long to buy, or too heavy to lift.
fn too_wide(
    rules: &SheetRules,
    run: &Run,
    posts_mm: &[f64],
    window: usize,
    (tallest_mm, liftable_mm): (f64, f64),
) -> Problem {
    let gap_mm = posts_mm[window + 1] - posts_mm[window];
    let (number, needed_mm) = (run.first_post + window + 1, gap_mm + 2.0 * rules.edge_mm);
    if needed_mm > rules.longest_mm {
        return Problem::contradiction(
            "skin.largest_sheet.length",
            format!("{:.0} mm", rules.longest_mm),
            format!(
                "window {number} spans {gap_mm:.0} mm and needs {needed_mm:.0} mm with its edges; no seam can stand between \
                 posts, so buy longer sheet"
            ),
        );
    }
    let mass_kg = needed_mm * tallest_mm / 1e6 * rules.areal_mass_kg_m2;
    Problem::contradiction(
        "skin.people",
        format!("{} people", rules.lifting.people),
        format!(
            "the sheet over window {number} weighs {mass_kg:.0} kg, and together they may lift {:.0} kg, a sheet of \
             {liftable_mm:.0} mm: bring more people or a hoist, buy lower or thinner sheet, or raise skin.lifting_factor \
             where you have reason to",
            rules.lifting.heaviest_kg()
        ),
    )
}

/// The letter that names of sheets and lines of a side begin with.
pub(super) fn letter(side: Side) -> char {
    match side {
        Side::Left => 'L',
        Side::Right => 'R',
    }
}

fn sheet_id(side: Side, course: usize, number: usize) -> String {
    let course = char::from(b'A' + (course.min(25)) as u8);
    format!("{}-{course}{number}", letter(side))
}

/// Heights at which framing lies behind a skin once the roof is up, mm above the ground: what is above the cut went up
/// with it.
pub(super) fn structure_mm(survey: &Survey, raise: &Raise) -> Vec<f64> {
    let h = &survey.heights;
    let framed = [h.rub_rail_mm, Some(h.window_bottom_mm), Some(h.window_top_mm), Some(h.drip_rail_mm)];
    framed.into_iter().flatten().map(|z| if z < raise.cut_mm { z } else { z + raise.height_mm }).collect()
}

/// Where the skin begins at each window of a side: the windows' lower edge, or above what stays.
fn runs(survey: &Survey, raise: &Raise, rules: &SheetRules, reach_mm: f64, side: Side) -> Vec<Run> {
    let h = &survey.heights;
    let top_mm = h.drip_rail_mm + raise.height_mm;
    let structure_mm = structure_mm(survey, raise);
    let mut runs: Vec<Run> = Vec::new();
    for window in raise.raised_windows() {
        let kept = raise.window_kept.get(window) == Some(&true);
        let stays = in_the_way(survey, rules, side, window).max_by(|a, b| a.top_mm.total_cmp(&b.top_mm));
        let (bottom_mm, above) = match stays {
            Some(feature) if !kept || feature.top_mm > h.window_top_mm => (feature.top_mm, Some(feature.name.clone())),
            _ if kept => (h.window_top_mm, Some("kept windows".to_owned())),
            _ => (rules.lower_edge_mm, None),
        };
        match runs.last_mut() {
            Some(run) if run.above == above && (run.bottom_mm() - bottom_mm).abs() < 1e-9 => {
                run.last_post = window + 1;
            }
            _ => runs.push(Run {
                side,
                first_post: window,
                last_post: window + 1,
                lines_mm: course_lines(top_mm, bottom_mm, reach_mm, &structure_mm),
                above,
            }),
        }
    }
    runs
}
