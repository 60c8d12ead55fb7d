//! A plan's end caps: the blank of each piece, its bend marks, the radius to roll to and the rolls' travel, the wedge.

use serde::Serialize;

use crate::body::raise::Ends;
use crate::body::survey::Side;
use crate::catalogue::{Catalogue, CoatingFamily, Material};
use crate::check::{Check, Level, Standing, Verdict, governing, term};
use crate::mechanics::forming::{
    Bend, Blank, Corner, FlatPattern, NeutralAxis, RollSetting, Run, Springback, ThreeRoll, outer_strain,
};

use super::file::File;
use super::resolve::{EndCapPlan, PiecePlan, Resolved};

/// A corner of a cap and how it is rolled.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CapCorner {
    /// Which side of the bus.
    pub side: Side,
    /// Inside radius at the lower edge and the upper, mm.
    pub radius_mm: [f64; 2],
    /// Neutral axis from the inside face, in thicknesses.
    pub k: f64,
    /// Stretch of the outer face, at the sharper edge.
    pub outer_strain: f64,
    /// Inside radius under load to roll to at the lower edge and the upper, mm; none where the yield strength is not known.
    pub roll_to_mm: [Option<f64>; 2],
    /// How to set the rolls for the lower edge and the upper; none without rolls, or where they do not reach it.
    pub settings: [Option<RollSetting>; 2],
}

/// A sheet that wraps one corner or both.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CapPiece {
    /// Name: `rear cap, 1 of 2`.
    pub id: String,
    /// The side of the bus on which its good edge lies; marks are taped from there.
    pub good_edge: Side,
    /// Upright from edge to edge, mm.
    pub height_mm: f64,
    /// Its flat.
    pub flat: FlatPattern,
    /// Its wedge by unequal radii alone, as if every face stood upright, mm; the sides' lean does the rest.
    pub by_radii_mm: f64,
    /// Straight sheet at its good edge and at its far end, the shorter of lower and upper edge, mm.
    pub straight_ends_mm: [f64; 2],
    /// Corners from the good edge on.
    pub corners: Vec<CapCorner>,
}

/// The end caps of a plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct EndCapSummary {
    /// Pieces, rear first.
    pub pieces: Vec<CapPiece>,
    /// What to know.
    pub notes: Vec<String>,
}

/// Works the caps out; none where the plan says nothing of them.
pub(super) fn end_caps(r: &Resolved, catalogue: &Catalogue) -> Option<EndCapSummary> {
    let plan = r.end_caps.as_ref()?;
    let metal = catalogue.material("skin.grade", &r.sheet.material).ok();
    let springback = metal.and_then(|metal| springback(r, metal));
    let pieces: Vec<CapPiece> = plan.pieces.iter().filter_map(|p| piece(r, plan, springback.as_ref(), p)).collect();
    let mut notes = vec![
        "marks are taped from the good edge, never from mark to mark: errors then do not add up".to_owned(),
        "roll a strip of the same coil first: a grade's least yield strength understates springback".to_owned(),
        "every corner turns through 90 degrees in plan: where an end is rounded or its corners are not square, tape the angle \
         and do not bend by these marks"
            .to_owned(),
    ];
    if let Some(rolls) = plan.rolls {
        notes.push(rolls.flats_advice());
    }
    if springback.is_none() {
        notes.push(
            "radius to roll to: not known without a yield strength (skin.fy, from a certificate or coupon)".to_owned(),
        );
    }
    if plan.rolls.is_none() {
        notes.push("travel of the rolls: not known without end_caps.rolls".to_owned());
    }
    if pieces.iter().any(|p| p.by_radii_mm.abs() > 0.5) {
        notes.push(
            "corners of unequal radii end out of square when rolled as cylinders; in the trade an eighth of an inch is usual \
             (common practice, no source)"
                .to_owned(),
        );
    }
    if pieces.iter().any(|p| (p.flat.out_of_square_mm - p.by_radii_mm).abs() > 0.5) {
        notes.push(
            "the sides lean and the end faces stand upright: edges bend in the flat, scribe them through the ordinates"
                .to_owned(),
        );
    }
    Some(EndCapSummary { pieces, notes })
}

/// Wide sheet of the plan: plane strain, the metal under the coating.
fn springback(r: &Resolved, metal: &Material) -> Option<Springback> {
    let sheet = Springback {
        thickness_mm: r.sheet.base_mm,
        fy_mpa: r.sheet.fy_mpa?,
        modulus_mpa: metal.modulus.mpa(),
        poisson: Some(metal.poisson),
    };
    // A row of the user's own can hold anything.
    sheet.validate().is_ok().then_some(sheet)
}

fn piece(r: &Resolved, plan: &EndCapPlan, springback: Option<&Springback>, own: &PiecePlan) -> Option<CapPiece> {
    // Found whole when the plan was read.
    let flat = own.blank.develop().ok()?;
    let upright = |run: &Run| match *run {
        Run::Straight { length_mm, .. } => Run::Straight { length_mm, lean_mm: 0.0 },
        corner @ Run::Corner(_) => corner,
    };
    let plumb = Blank { runs: own.blank.runs.iter().map(upright).collect(), ..own.blank.clone() };
    let corners = own.blank.runs.iter().filter_map(|run| match run {
        Run::Corner(c) => Some(*c),
        Run::Straight { .. } => None,
    });
    let corners =
        corners.zip(&own.cap.wrap.wings).map(|(c, wing)| corner(r, plan.rolls, springback, wing.side, &c)).collect();
    // Of the lines across, the second lies at the first bend's start and the last but one at the last bend's end.
    let gap = |a: usize, b: usize| {
        let (a, b) = (flat.lines.get(a), flat.lines.get(b));
        a.zip(b).map_or(0.0, |(a, b)| {
            let apart = |a: [f64; 2], b: [f64; 2]| (a[0] - b[0]).hypot(a[1] - b[1]);
            apart(a.bottom_mm, b.bottom_mm).min(apart(a.top_mm, b.top_mm))
        })
    };
    let count = flat.lines.len();
    let straight_ends_mm = [gap(0, 1), gap(count.saturating_sub(2), count.saturating_sub(1))];
    Some(CapPiece {
        id: own.cap.id.clone(),
        good_edge: own.cap.wrap.wings.first().map_or(Side::Left, |wing| wing.side),
        height_mm: own.blank.height_mm,
        by_radii_mm: plumb.develop().map_or(flat.out_of_square_mm, |plumb| plumb.out_of_square_mm),
        straight_ends_mm,
        corners,
        flat,
    })
}

fn corner(
    r: &Resolved,
    rolls: Option<ThreeRoll>,
    springback: Option<&Springback>,
    side: Side,
    c: &Corner,
) -> CapCorner {
    let radius_mm = [c.bottom_radius_mm, c.top_radius_mm];
    let setting = |mm: f64| rolls?.setting(mm, r.sheet.thickness_mm, springback?).ok();
    CapCorner {
        side,
        radius_mm,
        k: c.k,
        outer_strain: outer_strain(radius_mm[0].min(radius_mm[1]), r.sheet.thickness_mm),
        roll_to_mm: radius_mm.map(|mm| springback?.loaded_mm(mm).ok()),
        settings: radius_mm.map(setting),
    }
}

/// Sheet sizes, sharpest bend, what the rolls reach: of each the worst.
pub(super) fn checks(r: &Resolved, file: &File, summary: Option<&EndCapSummary>, catalogue: &Catalogue) -> Vec<Check> {
    let (Some(summary), Some(plan)) = (summary, &r.end_caps) else {
        let reason = match (r.raise.ends, file.end_caps.as_ref()) {
            (Ends::WholeRoof, _) => {
                "the corners that the caps wrap are not in the plan: take their radii by template and write [end_caps]"
            }
            (_, Some(_)) => {
                "only where the whole roof is raised does a cap wrap the corners: [end_caps] is not used here"
            }
            (_, None) => return Vec::new(),
        };
        let check = Check::compare("end cap corners", "", (None, None, "mm"), Level::Stated, Standing::Given);
        return vec![check.demoted(Verdict::NotAssessed, reason)];
    };
    let mut rows: [Vec<Check>; 5] = std::array::from_fn(|_| Vec::new());
    let [along, up, bends, rolled, flats] = &mut rows;
    for piece in &summary.pieces {
        let size = |name: &'static str, i: usize, most_mm: f64| {
            let sides = (piece.flat.rectangle_mm.get(i).copied(), Some(most_mm), "mm");
            let check = Check::compare(name, "geometry of the flat", sides, Level::Stated, plan.standing);
            let check = check.at(piece.id.clone()).by("rectangle around the flat ≤ largest sheet", []);
            if check.verdict == Verdict::Fails {
                check.because("buy a larger sheet (skin.largest_sheet), or end the cap nearer to the corner (reach)")
            } else {
                check
            }
        };
        along.push(size("end cap, sheet along", 0, r.rules.longest_mm));
        up.push(size("end cap, sheet up", 1, r.rules.tallest_mm));
        for corner in &piece.corners {
            let at = format!("{}, {}", piece.id, corner.side.name());
            bends.extend(bend_checks(r, file, corner, catalogue, &at));
            rolled.push(roll_check(r, plan, corner, &at));
        }
        if let Some(rolls) = plan.rolls {
            let straight = piece.straight_ends_mm[0].min(piece.straight_ends_mm[1]);
            let sides = (Some(rolls.flat_mm()), Some(straight), "mm");
            let check = Check::compare(
                "end cap, flats at the ends",
                "geometry of the rolls",
                sides,
                Level::Stated,
                plan.standing,
            )
            .at(piece.id.clone())
            .by("a/2 ≤ straight sheet beyond the bend", [term("a", rolls.spacing_mm, "mm")]);
            flats.push(if check.verdict == Verdict::Fails { check.because(rolls.flats_advice()) } else { check });
        }
    }
    rows.iter().filter_map(|own| governing(own).cloned()).collect()
}

fn bend_checks(r: &Resolved, file: &File, corner: &CapCorner, catalogue: &Catalogue, at: &str) -> Vec<Check> {
    let bend = Bend {
        thickness_mm: r.sheet.thickness_mm,
        radius_mm: corner.radius_mm[0].min(corner.radius_mm[1]),
        angle_deg: 90.0,
        axis: NeutralAxis { k: corner.k, source: String::new(), standing: Standing::Given },
    };
    let coating = r.sheet.coating.as_ref().map(|c| c.family);
    let zinc = coating.filter(|f| matches!(f, CoatingFamily::Zinc | CoatingFamily::ZincIron));
    let of = [file.skin.grade.clone(), zinc.map(|family| format!("{} coating", family.words()))];
    let named = of.into_iter().flatten().map(|of| {
        let mut check = bend.radius_check(catalogue, &of);
        check.name = "end cap, bend radius".into();
        check.standing = check.standing.with(r.sheet.standing);
        check.at(format!("{at}, {of}"))
    });
    // Gentler than any grade is bent to: a grade of which nothing is known is no open question here.
    named.filter(|check| check.capacity.is_some() && check.demand.is_some()).collect()
}

fn roll_check(r: &Resolved, plan: &EndCapPlan, corner: &CapCorner, at: &str) -> Check {
    let sharpest = corner.roll_to_mm.iter().flatten().copied().reduce(f64::min);
    let sides = (plan.rolls.map(|rolls| rolls.top_radius_mm), sharpest, "mm");
    let clause =
        "springback, R_i / R_f = 4 x³ - 3 x + 1, plane strain; a bend under load is no sharper than the top roll";
    let standing = plan.standing.with(r.sheet.standing).with(Standing::Memory);
    let check = Check::compare("end cap, radius under load", clause, sides, Level::Stated, standing)
        .at(at)
        .by("r_T ≤ R_i", [term("R_f", corner.radius_mm[0].min(corner.radius_mm[1]), "mm")]);
    if sharpest.is_none() {
        return check.because("the sheet's yield strength is not in the plan: take it from a certificate (skin.fy)");
    }
    match (plan.rolls, corner.settings.iter().all(Option::is_some)) {
        (None, _) => check.because("the bender is not in the plan (end_caps.rolls)"),
        (Some(_), true) => check,
        (Some(_), false) => check.demoted(Verdict::Fails, "the rolls do not reach this radius: other rolls, or a form"),
    }
}
