//! The end caps in numbers: a blank for each piece, from the panels of the raised band.

use crate::body::raise::{Ends, Raise};
use crate::body::skins::{EndPanel, SheetRules, Skins};
use crate::body::survey::{Side, Survey};
use crate::check::Standing;
use crate::error::Problem;
use crate::mechanics::forming::{Blank, Corner, Run, ThreeRoll, neutral_axis};
use crate::mechanics::sheet::Sheet;
use crate::plan::file::{CapCorners, CornerRadii, File};
use crate::quantity::{Kind, Length, Ratio};

use super::Assumption;
use super::reader::Reader;

/// The end caps and the bender.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct EndCapPlan {
    pub pieces: Vec<PiecePlan>,
    pub rolls: Option<ThreeRoll>,
    /// Of K and of the tape error.
    pub standing: Standing,
}

/// A sheet that wraps one corner or both.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct PiecePlan {
    pub id: String,
    /// The side whose end is the good edge.
    pub good_edge: Side,
    /// The sides of its corners, from the good edge on.
    pub sides: Vec<Side>,
    pub blank: Blank,
}

/// What does not depend on the corner.
struct Common<'a> {
    survey: &'a Survey,
    raise: &'a Raise,
    rules: &'a SheetRules,
    sheet: &'a Sheet,
    own_k: Option<f64>,
    tape_error_mm: f64,
}

/// One side of a cap, from the sheet's end on the side to the corner.
#[derive(Debug, Clone, Copy)]
struct Wing {
    side: Side,
    leg: Run,
    corner: Corner,
    /// Of the end face, from the middle of the bus to where the bend starts, mm.
    half_face_mm: f64,
}

/// Frame radii of a corner at the lower edge and the upper, mm.
fn radii_mm(r: &mut Reader<'_>, path: &str, given: CornerRadii) -> [f64; 2] {
    let bottom = r.length(&format!("{path}.radius"), given.radius, 5.0, 1500.0);
    let top = r.optional_length(&format!("{path}.top_radius"), given.top_radius, 5.0, 1500.0);
    [bottom, top.unwrap_or(bottom)]
}

/// Reads what the plan says of end caps; none where it says nothing.
pub(super) fn end_caps(
    r: &mut Reader<'_>,
    file: &File,
    body: Option<(&Survey, &Raise)>,
    (rules, sheet): (Option<&SheetRules>, Option<&Sheet>),
    skins: Option<&Skins>,
) -> Option<EndCapPlan> {
    let given = file.end_caps.as_ref()?;
    let ((survey, raise), rules, sheet, skins) = (body?, rules?, sheet?, skins?);
    let before = r.problems.len();
    if given.rear.is_none() && given.front.is_none() {
        let fix = "write the corner radii: rear = { left = { radius = \"6 in\" }, right = { radius = \"6 in\" } }";
        r.problems.push(Problem::missing("end_caps.rear", fix));
    }
    let rolls = given.rolls.map(|rolls| ThreeRoll {
        lower_radius_mm: rolls.lower_radius.mm(),
        spacing_mm: rolls.spacing.mm(),
        top_radius_mm: rolls.top_radius.mm(),
    });
    if let Some(problems) = rolls.and_then(|rolls| rolls.validate().err()) {
        r.problems.extend(problems.into_iter().map(|p| {
            let path = format!("end_caps.rolls.{}", p.path());
            p.with_path(path)
        }));
    }
    let own_k = given.k.map(Ratio::value).map(|k| r.bound("end_caps.k", k, 0.2, 0.5, Kind::Ratio));
    // A plan that tries stepped or sloped ends keeps its corners for later; a check says that they are not used.
    if raise.ends != Ends::WholeRoof {
        return None;
    }
    let tape = given.tape_error.map(Length::mm);
    let (tape_error_mm, mut standing) =
        r.or_fallback(tape, "end_caps.tape_error", "cap_tape_error", (0.0, 20.0), Kind::Length);
    r.assumed.push(Assumption {
        field: "end_caps".to_owned(),
        value: "end faces upright and flat, corners square in plan".to_owned(),
        source: "not in the survey: a bowed or leaning end face needs a blank of its own".to_owned(),
        standing: Standing::Assumed,
    });
    let common = Common { survey, raise, rules, sheet, own_k, tape_error_mm };
    let mut pieces = Vec::new();
    for (end, corners) in [("rear", given.rear), ("front", given.front)] {
        if let Some(corners) = corners {
            pieces.extend(cap(r, &common, skins, end, &corners, &mut standing));
        }
    }
    (r.problems.len() == before).then_some(EndCapPlan { pieces, rolls, standing })
}

fn cap(
    r: &mut Reader<'_>,
    common: &Common<'_>,
    skins: &Skins,
    end: &'static str,
    corners: &CapCorners,
    standing: &mut Standing,
) -> Vec<PiecePlan> {
    let rear = end == "rear";
    let margin_mm = 2.0 * common.rules.edge_mm;
    let here = |p: &&EndPanel| (p.x_mm < common.survey.length_mm / 2.0) == rear && p.taper_mm.is_none();
    let across = |side: Option<Side>| {
        let own = skins.ends.iter().filter(here).filter(|p| p.side == side);
        own.map(|p| p.length_mm - margin_mm).sum::<f64>()
    };
    let Some(band) = skins.ends.iter().filter(here).find(|p| p.side.is_none()) else { return Vec::new() };
    let (width_mm, height_mm) = (across(None), band.height_mm);
    let own = [(Side::Left, corners.left, corners.reach_left), (Side::Right, corners.right, corners.reach_right)];
    let mut wings = Vec::new();
    for (side, radii, reach) in own {
        let path = format!("end_caps.{end}.{}", side.name());
        let reach_path = format!("end_caps.{end}.reach_{}", side.name());
        let reach_mm = r.optional_length(&reach_path, reach, 20.0, 6000.0).unwrap_or_else(|| across(Some(side)));
        wings.extend(wing(r, common, &path, (side, radii, reach_mm), (width_mm, height_mm), standing));
    }
    let [left, right] = wings.as_slice() else { return Vec::new() };
    let piece = |id: String, wings: &[&Wing], runs: Vec<Run>| PiecePlan {
        id,
        good_edge: wings.first().map_or(Side::Left, |w| w.side),
        sides: wings.iter().map(|w| w.side).collect(),
        blank: Blank { runs, height_mm, thickness_mm: common.sheet.thickness_mm, tape_error_mm: common.tape_error_mm },
    };
    let face = |length_mm: f64| Run::Straight { length_mm, lean_mm: 0.0 };
    let whole = vec![
        left.leg,
        Run::Corner(left.corner),
        face(left.half_face_mm + right.half_face_mm),
        Run::Corner(right.corner),
        right.leg,
    ];
    let whole = piece(format!("{end} cap"), &[left, right], whole);
    let mut developed = |piece: &PiecePlan| {
        let flat = piece.blank.develop();
        r.keep_all(flat.map_err(|problems| {
            let told = |p: Problem| Problem::contradiction(format!("end_caps.{end}"), &piece.id, p.to_string());
            problems.into_iter().map(told).collect()
        }))
    };
    let Some(flat) = developed(&whole) else { return Vec::new() };
    if flat.rectangle_mm[0] <= common.rules.longest_mm {
        return vec![whole];
    }
    // Both halves lap in the middle of the end face, each an edge distance beyond the seam's rivets.
    let half = |(i, wing): (usize, &Wing)| {
        let runs = vec![wing.leg, Run::Corner(wing.corner), face(wing.half_face_mm + common.rules.edge_mm)];
        piece(format!("{end} cap, {} of 2", i + 1), &[wing], runs)
    };
    let halves: Vec<PiecePlan> = wings.iter().enumerate().map(half).collect();
    if halves.iter().all(|half| developed(half).is_some()) { halves } else { Vec::new() }
}

fn wing(
    r: &mut Reader<'_>,
    common: &Common<'_>,
    path: &str,
    (side, given, reach_mm): (Side, CornerRadii, f64),
    (width_mm, height_mm): (f64, f64),
    standing: &mut Standing,
) -> Option<Wing> {
    let before = r.problems.len();
    let [bottom_radius_mm, top_radius_mm] = radii_mm(r, path, given);
    if r.problems.len() > before {
        return None;
    }
    let sheet = common.sheet;
    let bend = (sheet.thickness_mm, bottom_radius_mm.min(top_radius_mm));
    let axis = neutral_axis(r.catalogue, &sheet.material, bend, common.own_k);
    let axis = r.keep(axis.map_err(|p| p.with_path("end_caps.k")))?;
    if !r.assumed.iter().any(|a| a.field == "end_caps.k") {
        r.list("end_caps.k", axis.k.to_string(), &axis.source, axis.standing);
    }
    *standing = standing.with(axis.standing);
    // Inside faces of the sheet lie on the frame; the survey's width and stations are those outside.
    let taken_mm = bottom_radius_mm + sheet.thickness_mm;
    let leg_mm = reach_mm + common.rules.edge_mm - taken_mm;
    let half_face_mm = width_mm / 2.0 - taken_mm;
    for (there_mm, what) in [(leg_mm, "the cap ends on the side"), (half_face_mm, "the middle of the end face is")] {
        if there_mm < 0.0 {
            let written = r.written(&format!("{path}.radius"), &Kind::Length.print(bottom_radius_mm));
            let problem = format!(
                "the bend is not done where {what}: {:.0} mm short; reach farther, or measure again",
                -there_mm
            );
            r.problems.push(Problem::contradiction(format!("{path}.radius"), written, problem));
        }
    }
    let (survey, raise) = (common.survey, common.raise);
    let raised = raise.apply(survey);
    let half_mm = |z_mm: f64| raised.section.half(side).half_width_mm(z_mm);
    let drip_mm = survey.heights.drip_rail_mm;
    let lean_mm = (half_mm(drip_mm + raise.height_mm) - half_mm(drip_mm)) / raise.height_mm * height_mm;
    let corner = Corner { bottom_radius_mm, top_radius_mm, angle_deg: 90.0, k: axis.k };
    let leg = Run::Straight { length_mm: leg_mm, lean_mm };
    (r.problems.len() == before).then_some(Wing { side, leg, corner, half_face_mm })
}
