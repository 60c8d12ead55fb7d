//! What each rivet goes through: how many new sheets, and what of the body behind them.

use super::raise::Raise;
use super::rivet_lines::{LineKind, RivetLine};
use super::skins::{EndPanel, Skins, structure_mm};
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
    /// The drip rail, and the rail of the roof.
    #[serde(rename = "drip rail and roof rail")]
    DripRail,
    /// The old side, and the sill or rail behind it.
    #[serde(rename = "old side and rail")]
    OldSide,
    /// A rail of the body.
    #[serde(rename = "rail")]
    Rail,
    /// Tube that was framed in anew.
    #[serde(rename = "backing tube")]
    Backing,
}

impl Behind {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Post => "post",
            Self::DripRailAndPost => "drip rail and post",
            Self::OldSideAndPost => "old side and post",
            Self::DripRail => "drip rail and roof rail",
            Self::OldSide => "old side and rail",
            Self::Rail => "rail",
            Self::Backing => "backing tube",
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
    let mut all: Vec<Stacked> = Vec::new();
    for line in lines {
        let panel = skins.ends.iter().find(|panel| line.kind == LineKind::End && line.id.starts_with(&panel.id));
        for (x_mm, z_mm) in line.hole_places_mm() {
            let behind = match line.kind {
                LineKind::Post | LineKind::Seam => on_post(skins, line.side, x_mm, z_mm, survey),
                LineKind::Top => Behind::DripRail,
                LineKind::Bottom => on_lower_edge(skins, line.side, x_mm, survey),
                LineKind::Course if framed(z_mm) => Behind::Rail,
                LineKind::Course | LineKind::End => Behind::Backing,
            };
            let sheets = match panel {
                Some(own) => panels_at(skins, own, x_mm, z_mm),
                None => line.side.map_or(0, |side| sheets_at(skins, side, x_mm, z_mm)),
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

/// Sheets, and panels on the side, around a place of a side.
fn sheets_at(skins: &Skins, side: Side, x_mm: f64, z_mm: f64) -> usize {
    let sheets = skins.sheets.iter().filter(|s| s.side == side);
    let over = sheets.filter(|s| within(x_mm, (s.x0_mm, s.x1_mm)) && within(z_mm, (s.z0_mm, s.z1_mm))).count();
    let panels = skins.ends.iter().filter(|p| p.side == Some(side));
    let around = |p: &&EndPanel| match p.taper_mm {
        None => around(p, p.x_mm, x_mm, z_mm),
        // A triangle laps on the post at its upright edge, a third of the taper behind its middle.
        Some(taper_mm) => {
            let (upright_mm, low_mm) = (p.x_mm - taper_mm / 3.0, p.z_mm - p.height_mm / 3.0);
            (x_mm - upright_mm).abs() < 1.0 && within(z_mm, (low_mm, low_mm + p.height_mm))
        }
    };
    over + panels.filter(around).count()
}

/// Panels beside each other, and sheets, around a place of a panel; across the bus `at_mm` is left of the middle.
fn panels_at(skins: &Skins, own: &EndPanel, at_mm: f64, z_mm: f64) -> usize {
    match own.side {
        Some(side) => sheets_at(skins, side, at_mm, z_mm),
        None => {
            let across = skins.ends.iter().filter(|p| p.side.is_none() && p.front == own.front);
            across.filter(|p| around(p, p.y_mm, at_mm, z_mm)).count()
        }
    }
}

fn around(panel: &EndPanel, middle_mm: f64, at_mm: f64, z_mm: f64) -> bool {
    let (half_length, half_height) = (0.5 * panel.length_mm, 0.5 * panel.height_mm);
    within(at_mm, (middle_mm - half_length, middle_mm + half_length))
        && within(z_mm, (panel.z_mm - half_height, panel.z_mm + half_height))
}

/// A rivet on a post: at its upper end it goes through the drip rail too, at its lower one through the old side.
fn on_post(skins: &Skins, side: Option<Side>, x_mm: f64, z_mm: f64, survey: &Survey) -> Behind {
    let beside = skins.runs.iter().filter(|run| {
        let posts_mm = (survey.posts_mm[run.first_post], survey.posts_mm[run.last_post]);
        Some(run.side) == side && within(x_mm, posts_mm)
    });
    let mut behind = Behind::Post;
    for run in beside {
        if run.lines_mm.first().is_some_and(|top| (top - z_mm).abs() < 1.0) {
            return Behind::DripRailAndPost;
        }
        if run.above.is_none() && (run.bottom_mm() - z_mm).abs() < 1.0 {
            behind = Behind::OldSideAndPost;
        }
    }
    behind
}

/// A rivet of a lower edge: through the old side, or straight into the frame of what stays.
fn on_lower_edge(skins: &Skins, side: Option<Side>, x_mm: f64, survey: &Survey) -> Behind {
    let own = skins.runs.iter().find(|run| {
        let posts_mm = (survey.posts_mm[run.first_post], survey.posts_mm[run.last_post]);
        Some(run.side) == side && within(x_mm, posts_mm)
    });
    if own.is_some_and(|run| run.above.is_some()) { Behind::Rail } else { Behind::OldSide }
}
