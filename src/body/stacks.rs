//! What each rivet goes through: how many new sheets, and what of the body behind them.

use super::raise::Raise;
use super::rivet_lines::{LineKind, PanelEdge, RivetLine};
use super::skins::{EndPanel, Patch, Run, Sheet, Skins, structure_mm};
use super::survey::{Side, Survey};

/// What lies behind the new sheets at a rivet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub enum Behind {
    /// The wall of a post.
    #[serde(rename = "post")]
    Post,
    /// The drip rail, and the wall of a post.
    #[serde(rename = "drip rail and post")]
    DripRailAndPost,
    /// The old side, and the wall of a post.
    #[serde(rename = "old side and post")]
    OldSideAndPost,
    /// The rub rail, and the wall of a post.
    #[serde(rename = "rub rail and post")]
    RubRailAndPost,
    /// The drip rail, and the rail of the roof.
    #[serde(rename = "drip rail and roof rail")]
    DripRail,
    /// The old side, and the sill or rail behind it.
    #[serde(rename = "old side and rail")]
    OldSide,
    /// The rub rail, and the rail behind it.
    #[serde(rename = "rub rail and rail")]
    RubRail,
    /// A rail of the body.
    #[serde(rename = "rail")]
    Rail,
    /// Tube that was framed in anew.
    #[serde(rename = "backing tube")]
    Backing,
    /// The sheet of the old side, end or roof, and tube that was framed in anew.
    #[serde(rename = "old sheet and backing tube")]
    OldSheetAndBacking,
}

impl Behind {
    /// A post is part of it.
    pub fn has_post(self) -> bool {
        matches!(self, Self::Post | Self::DripRailAndPost | Self::OldSideAndPost | Self::RubRailAndPost)
    }

    /// Thin sheet of the body is part of it.
    pub fn has_old_sheet(self) -> bool {
        matches!(self, Self::OldSideAndPost | Self::OldSide | Self::OldSheetAndBacking)
    }

    /// Walls of posts, rails and tube in it.
    pub fn walls(self) -> usize {
        match self {
            Self::DripRailAndPost | Self::RubRailAndPost | Self::DripRail | Self::RubRail => 2,
            _ => 1,
        }
    }

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Post => "post",
            Self::DripRailAndPost => "drip rail and post",
            Self::OldSideAndPost => "old side and post",
            Self::RubRailAndPost => "rub rail and post",
            Self::DripRail => "drip rail and roof rail",
            Self::OldSide => "old side and rail",
            Self::RubRail => "rub rail and rail",
            Self::Rail => "rail",
            Self::Backing => "backing tube",
            Self::OldSheetAndBacking => "old sheet and backing tube",
        }
    }
}

/// Rivets that go through the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub struct Stacked {
    /// New sheets.
    pub sheets: usize,
    /// What is behind them.
    pub behind: Behind,
    /// Rivets.
    pub holes: usize,
}

/// All rivets by what they go through; every hole once. A sheet counts where its edges enclose the hole.
pub fn stacks(survey: &Survey, raise: &Raise, skins: &Skins, lines: &[RivetLine]) -> Vec<Stacked> {
    let structure_mm = structure_mm(survey, raise);
    let framed = |z_mm: f64| structure_mm.iter().any(|z| (z - z_mm).abs() < 1.0);
    // Which panels of the ends lap on each post of a side is asked at many holes.
    let panels = |side: Side| -> Vec<(f64, Vec<&EndPanel>)> {
        let posts = survey.posts_mm.iter().enumerate();
        posts.map(|(post, x_mm)| (*x_mm, skins.panels_on_post(side, post).collect())).collect()
    };
    let panels = Side::BOTH.map(|side| (side, panels(side)));
    let panels_on = |side: Side| panels.iter().find(|(own, _)| *own == side).map_or(&[][..], |(_, posts)| posts);
    let mut all: Vec<Stacked> = Vec::new();
    for line in lines {
        let near: Vec<&Sheet> = skins.sheets.iter().filter(|sheet| beside(sheet, line)).collect();
        for (x_mm, z_mm) in line.hole_places_mm() {
            let behind = match (line.kind, line.of_panel) {
                (LineKind::Post | LineKind::Seam, _) => on_post(skins, (&near, line.side), (x_mm, z_mm), survey),
                (LineKind::Top, _) => Behind::DripRail,
                (LineKind::Bottom, _) => on_lower_edge(skins, (&near, line.side), (x_mm, z_mm), survey, framed(z_mm)),
                (LineKind::Course, _) if framed(z_mm) => Behind::Rail,
                // A panel on a side goes under the drip rail there, one across the bus under the roof.
                (LineKind::End, Some((_, PanelEdge::Upper))) if line.side.is_some() => Behind::DripRail,
                (LineKind::End, Some((_, PanelEdge::Upper | PanelEdge::Lower))) => Behind::OldSheetAndBacking,
                (LineKind::Course | LineKind::End | LineKind::Opening, _) => Behind::Backing,
            };
            let sheets = match line.of_panel {
                Some((i, edge)) => skins.ends.get(i).map_or(0, |own| panels_at(skins, own, edge, (x_mm, z_mm))),
                None => line.side.map_or(0, |side| sheets_at(&near, panels_on(side), (x_mm, z_mm))),
            };
            // A hole belongs to at least the sheet that its line was set out for.
            let sheets = sheets.max(1);
            match all.iter_mut().find(|s| (s.sheets, s.behind) == (sheets, behind)) {
                Some(known) => known.holes += 1,
                None => all.push(Stacked { sheets, behind, holes: 1 }),
            }
        }
    }
    all.sort_by_key(|s| (s.behind, s.sheets));
    all
}

fn within(at: f64, (low, high): (f64, f64)) -> bool {
    low - 1e-6 <= at && at <= high + 1e-6
}

/// A sheet that some hole of the line may go through.
fn beside(sheet: &Sheet, line: &RivetLine) -> bool {
    let meets = |(low, high): (f64, f64), a: f64, b: f64| low - 1e-6 <= a.max(b) && a.min(b) <= high + 1e-6;
    Some(sheet.side) == line.side
        && meets((sheet.x0_mm, sheet.x1_mm), line.from_mm.0, line.to_mm.0)
        && meets((sheet.z0_mm, sheet.z1_mm), line.from_mm.1, line.to_mm.1)
}

/// Sheets around a place of a side, among those near its line, and on a post the panels of the ends that lap there.
fn sheets_at(near: &[&Sheet], posts: &[(f64, Vec<&EndPanel>)], (x_mm, z_mm): (f64, f64)) -> usize {
    let over = near.iter().filter(|s| within(x_mm, (s.x0_mm, s.x1_mm)) && within(z_mm, (s.z0_mm, s.z1_mm))).count();
    let post = posts.iter().find(|(post_mm, _)| (post_mm - x_mm).abs() < 1.0);
    over + post.map_or(0, |(_, panels)| panels.iter().filter(|panel| within(z_mm, panel.edges_mm())).count())
}

/// Panels around a place of one of them; at an upright edge its neighbour is one of them.
fn panels_at(skins: &Skins, own: &EndPanel, edge: PanelEdge, (at_mm, z_mm): (f64, f64)) -> usize {
    if let Some(wrap) = &own.wrap {
        // At an upright edge lies the other piece or a strip; so at the ends of such an edge.
        let (left_mm, right_mm) = wrap.face_mm;
        let halves = wrap.wings.len() == 1;
        let at_seam = halves && (at_mm - if own.piece == 0 { right_mm } else { left_mm }).abs() < 1e-6;
        return 1 + usize::from(edge == PanelEdge::Upright || at_seam);
    }
    let middle_mm = |panel: &EndPanel| if panel.side.is_some() { panel.x_mm } else { panel.y_mm };
    let row = skins.ends.iter().filter(|p| p.side == own.side && p.front == own.front && p.taper_mm == own.taper_mm);
    let here = row.filter(|p| within(z_mm, p.edges_mm()) && (at_mm - middle_mm(p)).abs() <= 0.5 * p.length_mm + 1e-6);
    here.count().max(if edge == PanelEdge::Upright { 2 } else { 1 })
}

/// The runs beside a place along a side.
fn runs_at<'a>(skins: &'a Skins, survey: &'a Survey, side: Option<Side>, x_mm: f64) -> impl Iterator<Item = &'a Run> {
    skins.runs.iter().filter(move |run| {
        Some(run.side) == side && within(x_mm, (survey.posts_mm[run.first_post], survey.posts_mm[run.last_post]))
    })
}

/// A rivet on a post: at its upper end it goes through the drip rail too, at its lower one through the old side or the rub
/// rail.
fn on_post(
    skins: &Skins,
    (near, side): (&[&Sheet], Option<Side>),
    (x_mm, z_mm): (f64, f64),
    survey: &Survey,
) -> Behind {
    let mut behind = Behind::Post;
    for run in runs_at(skins, survey, side, x_mm) {
        if run.lines_mm.first().is_some_and(|top| (top - z_mm).abs() < 1.0) {
            return Behind::DripRailAndPost;
        }
        if run.above.is_none() && (run.bottom_mm() - z_mm).abs() < 1.0 {
            behind = if run.at_rub_rail(survey) { Behind::RubRailAndPost } else { Behind::OldSideAndPost };
        }
    }
    if patch_at(near, (x_mm, z_mm), |patch| patch.lines_mm.0) {
        behind = if at_rub_rail(survey, z_mm) { Behind::RubRailAndPost } else { Behind::OldSideAndPost };
    }
    behind
}

/// A line of a patch lies here.
fn patch_at(near: &[&Sheet], (x_mm, z_mm): (f64, f64), line_mm: impl Fn(&Patch) -> f64) -> bool {
    let mut patches = near.iter().filter_map(|sheet| Some((sheet, sheet.patch.as_ref()?)));
    patches.any(|(sheet, patch)| within(x_mm, (sheet.x0_mm, sheet.x1_mm)) && (z_mm - line_mm(patch)).abs() < 1.0)
}

fn at_rub_rail(survey: &Survey, z_mm: f64) -> bool {
    survey.heights.rub_rail_mm.is_some_and(|rail_mm| (rail_mm - z_mm).abs() < 1.0)
}

/// A rivet of a lower edge: through the rub rail or the old side, or straight into the frame of what stays; over a patch into what
/// frames its upper edge.
fn on_lower_edge(
    skins: &Skins,
    (near, side): (&[&Sheet], Option<Side>),
    (x_mm, z_mm): (f64, f64),
    survey: &Survey,
    framed: bool,
) -> Behind {
    if patch_at(near, (x_mm, z_mm), |patch| patch.lines_mm.0) {
        return if at_rub_rail(survey, z_mm) { Behind::RubRail } else { Behind::OldSide };
    }
    let on_patch = patch_at(near, (x_mm, z_mm), |patch| patch.lines_mm.1);
    match runs_at(skins, survey, side, x_mm).next() {
        Some(_) if on_patch && !framed => Behind::Backing,
        Some(run) if run.above.is_some() => Behind::Rail,
        Some(run) if run.at_rub_rail(survey) => Behind::RubRail,
        _ => Behind::OldSide,
    }
}
