//! The end caps in numbers: a blank for each piece, from the size of the raised band; before sheets are laid out.

use crate::body::raise::{Ends, Raise};
use crate::body::skins::{BandSize, CapSheet, STRIP_MM, SheetRules, Wing, Wrap};
use crate::body::survey::{Side, Survey};
use crate::check::Standing;
use crate::error::Problem;
use crate::mechanics::forming::{Blank, Corner, Run, ThreeRoll, bend_allowance_mm, neutral_axis};
use crate::mechanics::sheet::Sheet;
use crate::plan::file::{CapCorners, CornerRadii};
use crate::quantity::{Kind, Length, Ratio};

use super::Assumption;
use super::memory::OfEndCaps;
use super::reader::Reader;

/// The end caps and the bender.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct EndCapPlan {
    pub pieces: Vec<PiecePlan>,
    pub rolls: Option<ThreeRoll>,
    /// Of K and of the tape error.
    pub standing: Standing,
}

impl EndCapPlan {
    /// The sheets as they are laid out.
    pub fn sheets(&self) -> Vec<CapSheet> {
        self.pieces.iter().map(|piece| piece.cap.clone()).collect()
    }
}

/// A sheet that wraps one corner or both; its good edge is the end of its first corner's side.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct PiecePlan {
    pub cap: CapSheet,
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
struct CapSide {
    wing: Wing,
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
    file: &OfEndCaps,
    body: Option<(&Survey, &Raise)>,
    (rules, sheet): (Option<&SheetRules>, Option<&Sheet>),
) -> Option<EndCapPlan> {
    let given = file.end_caps.as_ref()?;
    let ((survey, raise), rules, sheet) = (body?, rules?, sheet?);
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
            pieces.extend(cap(r, &common, end, &corners, &mut standing));
        }
    }
    (r.problems.len() == before).then_some(EndCapPlan { pieces, rolls, standing })
}

fn cap(
    r: &mut Reader<'_>,
    common: &Common<'_>,
    end: &'static str,
    corners: &CapCorners,
    standing: &mut Standing,
) -> Vec<PiecePlan> {
    let front = end == "front";
    let rules = common.rules;
    let size = BandSize::of(common.survey, common.raise, rules);
    let height_mm = size.height_mm;
    let gap_mm = size.gap_mm[usize::from(front)];
    let own = [(Side::Left, corners.left, corners.reach_left), (Side::Right, corners.right, corners.reach_right)];
    let mut halves = Vec::new();
    for (side, radii, reach) in own {
        let path = format!("end_caps.{end}.{}", side.name());
        let reach_path = format!("end_caps.{end}.reach_{}", side.name());
        let reach_mm = r.optional_length(&reach_path, reach, 20.0, 6000.0).unwrap_or(gap_mm);
        if reach_mm > gap_mm + STRIP_MM {
            let written = r.written(&reach_path, &Kind::Length.print(reach_mm));
            let problem = format!(
                "the sheets of the side begin at the post {gap_mm:.0} mm from the end face: let the cap end there, or short of it"
            );
            r.problems.push(Problem::contradiction(reach_path, written, problem));
            continue;
        }
        halves.extend(half(r, common, &path, (side, radii, reach_mm), &size, standing));
    }
    let [left, right] = halves.as_slice() else { return Vec::new() };
    let piece = |r: &mut Reader<'_>, id: String, own: &[&CapSide], runs: Vec<Run>, face_mm: (f64, f64)| {
        let blank =
            Blank { runs, height_mm, thickness_mm: common.sheet.thickness_mm, tape_error_mm: common.tape_error_mm };
        let told = |p: Problem| Problem::contradiction(format!("end_caps.{end}"), &id, p.to_string());
        let flat = r.keep_all(blank.develop().map_err(|problems| problems.into_iter().map(told).collect()))?;
        let (blank_mm, area_m2) = (flat.rectangle_mm, flat.area_mm2() / 1e6);
        let wings: Vec<Wing> = own.iter().map(|half| half.wing).collect();
        // Beyond the seam of a half lies an edge distance more.
        let beyond_mm = if wings.len() == 1 { rules.edge_mm } else { 0.0 };
        let upper_round_mm = flat.upper_round_mm(wings.len() == 1) - beyond_mm;
        let wrap = Wrap { upright_mm: height_mm, area_m2, wings, face_mm, upper_round_mm };
        Some(PiecePlan { cap: CapSheet { id, front, blank_mm, wrap }, blank })
    };
    let face = |length_mm: f64| Run::Straight { length_mm, lean_mm: 0.0 };
    let runs = vec![
        left.leg,
        Run::Corner(left.corner),
        face(left.half_face_mm + right.half_face_mm),
        Run::Corner(right.corner),
        right.leg,
    ];
    let face_mm = (left.half_face_mm, -right.half_face_mm);
    let Some(whole) = piece(r, format!("{end} cap"), &[left, right], runs, face_mm) else { return Vec::new() };
    let [along_mm, up_mm] = whole.cap.blank_mm;
    let mass_kg = along_mm * up_mm / 1e6 * rules.areal_mass_kg_m2;
    if along_mm <= rules.longest_mm && mass_kg <= rules.lifting.heaviest_kg() {
        return vec![whole];
    }
    // Both halves lap in the middle of the end face, each an edge distance beyond the seam's rivets.
    let faces = [(left.half_face_mm, 0.0), (0.0, -right.half_face_mm)];
    let mut pieces = Vec::new();
    for (i, (half, face_mm)) in halves.iter().zip(faces).enumerate() {
        let runs = vec![half.leg, Run::Corner(half.corner), face(half.half_face_mm + rules.edge_mm)];
        pieces.extend(piece(r, format!("{end} cap, {} of 2", i + 1), &[half], runs, face_mm));
    }
    if pieces.len() == 2 { pieces } else { Vec::new() }
}

fn half(
    r: &mut Reader<'_>,
    common: &Common<'_>,
    path: &str,
    (side, given, reach_mm): (Side, CornerRadii, f64),
    size: &BandSize,
    standing: &mut Standing,
) -> Option<CapSide> {
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
    let (survey, raise) = (common.survey, common.raise);
    let raised = raise.apply(survey);
    let half_mm = |z_mm: f64| raised.section.half(side).half_width_mm(z_mm);
    // What is at the drip rail before the raise is the lower edge of the cap after it, where the body is wider than at its rail.
    let drip_mm = survey.heights.drip_rail_mm;
    let lean = (half_mm(drip_mm + raise.height_mm) - half_mm(drip_mm)) / raise.height_mm;
    let half_face_mm = half_mm(drip_mm) - lean * common.rules.edge_mm - taken_mm;
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
    let lean_mm = lean * size.height_mm;
    let corner = Corner { bottom_radius_mm, top_radius_mm, angle_deg: 90.0, k: axis.k };
    let leg = Run::Straight { length_mm: leg_mm, lean_mm };
    let arc_mm = bend_allowance_mm(corner.angle_deg, bottom_radius_mm, sheet.thickness_mm, axis.k);
    let wing = Wing { side, reach_mm, end_mm: reach_mm + common.rules.edge_mm, bend_mm: taken_mm, arc_mm };
    (r.problems.len() == before).then_some(CapSide { wing, leg, corner, half_face_mm })
}
