//! Rivets by what they go through: grip, length where the catalogue knows it, number with spares.

use serde::Serialize;

use crate::body::rivet_lines::RivetLine;
use crate::body::stacks::{Behind, Stacked, stacks};
use crate::catalogue::Catalogue;
use crate::check::Standing;
use crate::mechanics::joint::grip::{Stack, choose_length};

use super::resolve::Resolved;

/// Rivets that go through the same.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RivetLot {
    /// What they go through.
    pub stacked: Stacked,
    /// Thickness that they hold together, mm; none where a wall is not known.
    pub grip_mm: Option<f64>,
    /// Length or code to order; none where the catalogue has no grips of this rivet.
    pub length: Option<String>,
    /// What to mind.
    pub note: String,
    /// How the thicknesses are known.
    pub standing: Standing,
}

/// All rivets by what they go through.
pub(super) fn rivet_lots(
    r: &Resolved,
    product: Option<&str>,
    lines: &[RivetLine],
    catalogue: &Catalogue,
) -> Vec<RivetLot> {
    stacks(&r.survey, &r.raise, &r.skins, lines)
        .into_iter()
        .map(|stacked| lot(r, product, stacked, catalogue))
        .collect()
}

/// Holes for each length of rivet that is ordered.
pub(super) fn by_length(lots: &[RivetLot]) -> Vec<(Option<&str>, Vec<&RivetLot>)> {
    let mut lengths: Vec<(Option<&str>, Vec<&RivetLot>)> = Vec::new();
    for lot in lots {
        match lengths.iter_mut().find(|(length, _)| *length == lot.length.as_deref()) {
            Some((_, own)) => own.push(lot),
            None => lengths.push((lot.length.as_deref(), vec![lot])),
        }
    }
    lengths
}

fn lot(r: &Resolved, product: Option<&str>, stacked: Stacked, catalogue: &Catalogue) -> RivetLot {
    let (walls, post_mm) = (&r.walls, r.post.as_ref().map(|post| post.wall_mm));
    let (rail_mm, old_mm) = (walls.rail_mm, walls.old_side_mm);
    let behind_mm = match stacked.behind {
        Behind::Post => post_mm.map(|post| vec![post]),
        Behind::DripRailAndPost => post_mm.map(|post| vec![rail_mm, post]),
        Behind::OldSideAndPost => post_mm.map(|post| vec![old_mm, post]),
        Behind::RubRailAndPost => post_mm.map(|post| vec![rail_mm, post]),
        Behind::DripRail | Behind::RubRail => Some(vec![rail_mm, rail_mm]),
        Behind::OldSide => Some(vec![old_mm, rail_mm]),
        Behind::Rail => Some(vec![rail_mm]),
        Behind::Backing => Some(vec![r.backing.wall_mm]),
        Behind::OldSheetAndBacking => Some(vec![old_mm, r.backing.wall_mm]),
    };
    let post = stacked.behind.has_post();
    let bond_mm = r.trim.bond_mm.filter(|_| post).map_or(0.0, |(thickness_mm, _)| thickness_mm);
    let Some(behind_mm) = behind_mm else {
        let note = "the posts' wall is not in the plan (survey.post)".to_owned();
        return RivetLot { stacked, grip_mm: None, length: None, note, standing: walls.standing };
    };
    let sheets = std::iter::repeat_n(r.sheet.thickness_mm, stacked.sheets);
    let faces = stacked.sheets + behind_mm.len() - 1;
    let stack = Stack {
        sheets_mm: sheets.chain(behind_mm).collect(),
        coating_mm: bond_mm,
        sealant_mm: walls.sealant_mm * faces as f64,
    };
    let grip_mm = Some(stack.grip_mm());
    let known = product.filter(|name| catalogue.grips("fastening.product", name, r.rivet.diameter_mm).is_ok());
    let (length, note) = match known {
        None => (None, "no grip ranges of this rivet in the catalogue: choose the length by its data sheet".to_owned()),
        Some(name) => match choose_length(&stack, name, r.rivet.diameter_mm, catalogue, "fastening.product") {
            Ok(choice) => (Some(choice.row.name()), choice.warning().unwrap_or_default()),
            Err(problems) => (None, problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")),
        },
    };
    RivetLot { stacked, grip_mm, length, note, standing: walls.standing.with(r.sheet.standing) }
}
