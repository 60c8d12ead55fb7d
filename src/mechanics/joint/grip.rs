//! Which rivet length holds a stack of sheets, which drill makes a rivet's hole, and whether the head finds room.

use crate::catalogue::{Catalogue, Drill, DrillKind, Grip, Rivet};
use crate::check::{Check, Level, Standing, Verdict, significant, term};
use crate::error::Problem;

use super::super::sheet::in_range;
use super::{DIAMETER_MM, EDGE_MM, HEAD, HOLE, ROUNDING, WALL_MM, without_leeway};

/// What a rivet has to hold together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stack {
    /// Each sheet, its metallic coating included, mm.
    pub sheets_mm: Vec<f64>,
    /// Paint and primer between and on the sheets, all layers together, mm.
    pub coating_mm: f64,
    /// Sealant left in the lap once it is pulled together, mm.
    pub sealant_mm: f64,
}

impl Stack {
    /// The grip, mm: sheets, coating and sealant.
    pub fn grip_mm(&self) -> f64 {
        self.sheets_mm.iter().sum::<f64>() + self.coating_mm + self.sealant_mm
    }

    fn problems(&self) -> Vec<Problem> {
        let layer = |name: &str, mm: f64| in_range(name, Some(mm), (0.0, 10.0), "mm");
        let mut results = vec![layer("coating", self.coating_mm), layer("sealant", self.sealant_mm)];
        let sheets = self.sheets_mm.iter().enumerate();
        results.extend(sheets.map(|(i, &t)| in_range(&format!("sheets[{i}]"), Some(t), WALL_MM, "mm")));
        if self.sheets_mm.is_empty() {
            let fix = "give the thickness of each sheet that the rivet goes through";
            results.push(Err(Problem::missing("sheets", fix)));
        }
        results.into_iter().filter_map(Result::err).collect()
    }
}

/// An end of a grip range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RangeEnd {
    /// The thin end: the rivet may set loose.
    Least,
    /// The thick end: the rivet may not form its tail.
    Most,
}

/// The rivet that was chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct LengthChoice {
    /// Its row: length or code, range, source.
    pub row: Grip,
    /// The grip it has to hold, mm.
    pub grip_mm: f64,
    /// The end that the grip is close to, if it is.
    pub near: Option<RangeEnd>,
}

/// How near an end is too near, in parts of the range.
const NEAR_END: f64 = 0.1;

/// Half of the last digit that inch tables print, mm: neighbouring ranges end at .125 in and begin at .126 in, and a
/// stack of 3.2 mm between them is held by one of the two.
const PRINTED_MM: f64 = 0.0005 * 25.4;

impl LengthChoice {
    /// What to mind about the choice, if anything.
    pub fn warning(&self) -> Option<String> {
        let (end, least, most) = (self.near?, self.row.least.mm(), self.row.most.mm());
        let (side, fear) = match end {
            RangeEnd::Least => ("thin", "set a trial rivet and see that it pulls tight"),
            RangeEnd::Most => ("thick", "set a trial rivet and see that its tail forms"),
        };
        Some(format!(
            "a grip of {} mm is within 10 % of the {side} end of {} to {} mm; {fear}",
            significant(self.grip_mm),
            significant(least),
            significant(most)
        ))
    }
}

/// Whether a rivet suits its sheets by aircraft practice: not thinner than the thickest sheet, not over three times it.
///
/// US Navy aviation training manual, navyaviation.tpub.com/14018. A habit of riveters, so a breach is pointed out, not
/// failed.
///
/// # Errors
/// No sheet; a sheet or diameter out of range.
///
/// # Example
/// ```
/// use raisedbody::check::Verdict;
/// use raisedbody::mechanics::joint::grip::{Stack, diameter_checks};
/// let stack = Stack { sheets_mm: vec![1.2, 2.4], ..Stack::default() };
/// assert!(diameter_checks(&stack, 6.4).unwrap().iter().all(|c| c.verdict == Verdict::Passes));
/// ```
pub fn diameter_checks(stack: &Stack, diameter_mm: f64) -> Result<Vec<Check>, Vec<Problem>> {
    let mut problems = stack.problems();
    problems.extend(in_range("diameter", Some(diameter_mm), DIAMETER_MM, "mm").err());
    if !problems.is_empty() {
        return Err(problems);
    }
    let thickest_mm = stack.sheets_mm.iter().copied().fold(0.0, f64::max);
    let check = |name: &'static str, formula: &'static str, (asked_mm, has_mm): (f64, f64)| {
        let sides = (Some(asked_mm), Some(has_mm + ROUNDING), "mm");
        let clause = "US Navy training manual, rivet diameter";
        let check = without_leeway(Check::compare(name, clause, sides, Level::Stated, Standing::Given))
            .by(formula, [term("D", diameter_mm, "mm"), term("t_max", thickest_mm, "mm")]);
        if check.verdict == Verdict::Fails {
            return check.demoted(Verdict::NotAssessed, "usual, not required");
        }
        check
    };
    Ok(vec![
        check("diameter, least", "D ≥ t_max", (thickest_mm, diameter_mm)),
        check("diameter, most", "D ≤ 3 t_max", (diameter_mm, 3.0 * thickest_mm)),
    ])
}

/// The shortest rivet of a product whose range holds the stack.
///
/// Ranges are closed and widened by half the last digit that inch tables print (0.0005 in). A grip within 10 % of the
/// range of either end is marked.
///
/// # Errors
/// A sheet or layer out of range; a product or diameter without grips in the catalogue; a grip that no range holds: the
/// nearest ranges are named.
///
/// # Example
/// ```
/// use raisedbody::catalogue::Catalogue;
/// use raisedbody::mechanics::joint::grip::{Stack, choose_length};
/// let catalogue = Catalogue::standard().unwrap();
/// let stack = Stack { sheets_mm: vec![1.2, 1.2, 1.5], coating_mm: 0.12, sealant_mm: 0.3 };
/// let choice = choose_length(&stack, "inch blind rivet", 6.35, &catalogue, "rivet").unwrap();
/// assert_eq!(choice.row.code.as_deref(), Some("84"));
/// ```
pub fn choose_length(
    stack: &Stack,
    product: &str,
    diameter_mm: f64,
    catalogue: &Catalogue,
    path: &str,
) -> Result<LengthChoice, Vec<Problem>> {
    let mut problems = stack.problems();
    let rows = catalogue.grips(path, product, diameter_mm).map_err(|p| problems.push(p)).unwrap_or_default();
    if !problems.is_empty() {
        return Err(problems);
    }
    let grip_mm = stack.grip_mm();
    let leeway = PRINTED_MM + ROUNDING;
    let holds = |r: &&&Grip| grip_mm >= r.least.mm() - leeway && grip_mm <= r.most.mm() + leeway;
    let Some(&row) = rows.iter().find(holds) else {
        return Err(vec![none_holds(&rows, grip_mm)]);
    };
    let width_mm = row.most.mm() - row.least.mm();
    let near = if row.most.mm() - grip_mm < NEAR_END * width_mm {
        Some(RangeEnd::Most)
    } else if grip_mm - row.least.mm() < NEAR_END * width_mm {
        Some(RangeEnd::Least)
    } else {
        None
    };
    Ok(LengthChoice { row: row.clone(), grip_mm, near })
}

/// The ranges next below and next above a grip that none holds.
fn none_holds(rows: &[&Grip], grip_mm: f64) -> Problem {
    let below = rows.iter().filter(|r| r.most.mm() < grip_mm).max_by(|a, b| a.most.mm().total_cmp(&b.most.mm()));
    let above = rows.iter().filter(|r| r.least.mm() > grip_mm).min_by(|a, b| a.least.mm().total_cmp(&b.least.mm()));
    let words = |r: &&Grip| format!("{} to {} mm ({})", significant(r.least.mm()), significant(r.most.mm()), r.name());
    let nearest: Vec<String> = below.into_iter().chain(above).map(words).collect();
    Problem::out_of_range("grip", format!("{} mm", significant(grip_mm)), nearest.join(" or "))
}

/// A rivet and the holes it may sit in.
#[derive(Debug, Clone, PartialEq)]
pub struct HoleRange {
    /// Rivet, mm.
    pub diameter_mm: f64,
    /// Smallest hole, mm.
    pub least_mm: f64,
    /// Largest hole, mm, where the product states one.
    pub most_mm: Option<f64>,
    /// How these are known.
    pub standing: Standing,
}

impl HoleRange {
    /// Of a catalogue rivet; none where the row states no hole.
    pub fn of(row: &Rivet) -> Option<Self> {
        row.hole_least.map(|least| Self {
            diameter_mm: row.diameter.mm(),
            least_mm: least.mm(),
            most_mm: row.hole_most.map(|most| most.mm()),
            standing: row.standing,
        })
    }
}

/// The drill that was chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct DrillChoice {
    /// Its row.
    pub drill: Drill,
    /// The hole is this much wider than the rivet, mm.
    pub over_rivet_mm: f64,
    /// The hole is this much wider than the rivet's smallest hole, mm.
    pub over_least_mm: f64,
    /// Every rule on the hole: the product's and those of [`hole_checks`].
    pub checks: Vec<Check>,
}

impl DrillChoice {
    /// The rules that this hole breaks.
    pub fn broken(&self) -> impl Iterator<Item = &Check> {
        self.checks.iter().filter(|c| matches!(c.verdict, Verdict::Fails | Verdict::OutsideRange))
    }
}

/// The smallest drill of the given series that is no smaller than the rivet's smallest hole.
///
/// The hole is taken as large as the drill. Every real drill cuts a little over its size.
///
/// # Errors
/// Sizes out of range; no drill of these series that large.
///
/// # Example
/// ```
/// use raisedbody::catalogue::{Catalogue, DrillKind};
/// use raisedbody::mechanics::joint::grip::{HoleRange, choose_drill};
/// let catalogue = Catalogue::standard().unwrap();
/// let rivet = HoleRange::of(catalogue.rivet("rivet", "IFI-114 grade 30", 6.35).unwrap()).unwrap();
/// let choice = choose_drill(&rivet, &[DrillKind::Letter, DrillKind::Number], &catalogue).unwrap();
/// assert_eq!(choice.drill.name, "F");
/// ```
pub fn choose_drill(
    rivet: &HoleRange,
    series: &[DrillKind],
    catalogue: &Catalogue,
) -> Result<DrillChoice, Vec<Problem>> {
    rivet.validate()?;
    let drills = || catalogue.rows().drill.iter().filter(|d| series.contains(&d.kind));
    let fits = drills().filter(|d| d.diameter.mm() >= rivet.least_mm - ROUNDING);
    let Some(drill) = fits.min_by(|a, b| a.diameter.mm().total_cmp(&b.diameter.mm())) else {
        let largest = drills().max_by(|a, b| a.diameter.mm().total_cmp(&b.diameter.mm()));
        let allowed = largest.map_or_else(|| "no drill: name a series".to_owned(), |d| format!("at most {}", d.name));
        return Err(vec![Problem::out_of_range("hole", format!("{} mm", rivet.least_mm), allowed)]);
    };
    let hole_mm = drill.diameter.mm();
    Ok(DrillChoice {
        drill: drill.clone(),
        over_rivet_mm: hole_mm - rivet.diameter_mm,
        over_least_mm: hole_mm - rivet.least_mm,
        checks: hole_checks(rivet, hole_mm),
    })
}

impl HoleRange {
    /// Refuses sizes that no rivet has; [`hole_checks`] takes them as they are.
    ///
    /// # Errors
    /// Rivet or holes out of range; a largest hole under the smallest.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let holes = (HOLE.0 * self.diameter_mm, HOLE.1 * self.diameter_mm);
        let problems: Vec<Problem> = [
            in_range("diameter", Some(self.diameter_mm), DIAMETER_MM, "mm"),
            in_range("hole_least", Some(self.least_mm), holes, "mm"),
            in_range("hole_most", self.most_mm, (self.least_mm, holes.1), "mm"),
        ]
        .into_iter()
        .filter_map(Result::err)
        .collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}

/// Hole of an inch rivet, in: rivet, least, most. US Army TM 10-5410-221-14, table 4-3, tentsshelters.tpub.com.
const INCH_CHART: [(f64, f64, f64); 5] = [
    (3.0 / 32.0, 0.096, 0.100),
    (1.0 / 8.0, 0.128, 0.132),
    (5.0 / 32.0, 0.160, 0.164),
    (3.0 / 16.0, 0.192, 0.196),
    (1.0 / 4.0, 0.257, 0.261),
];

/// Nominal hole that the shear strength of a blind rivet is worked from, in: rivet, hole. MIL-HDBK-5 chapter 8, from
/// memory; that the strength is not to be taken above the listed hole was read in an extract (documents.pub).
const HANDBOOK_HOLES: [(f64, f64); 4] =
    [(1.0 / 8.0, 0.130), (5.0 / 32.0, 0.162), (3.0 / 16.0, 0.194), (1.0 / 4.0, 0.258)];

/// Every rule on a drilled hole: the product's own range, EN 1993-1-3 8.3(11), and for inch rivets the hole chart of US
/// Army TM 10-5410-221-14 and the handbook hole of MIL-HDBK-5.
///
/// A hole outside the product's range fails; a hole beyond another rule puts the joint outside that rule.
pub fn hole_checks(rivet: &HoleRange, hole_mm: f64) -> Vec<Check> {
    let d = rivet.diameter_mm;
    let terms = || [term("d0", hole_mm, "mm"), term("d", d, "mm")];
    let check = |name: &'static str, clause: &'static str, (least, has): (Option<f64>, Option<f64>), standing| {
        let sides = (least, has.map(|h| h + ROUNDING), "mm");
        without_leeway(Check::compare(name, clause, sides, Level::Stated, standing))
    };
    let mut checks = vec![
        check("hole, least", "product", (Some(rivet.least_mm), Some(hole_mm)), rivet.standing)
            .by("d0 ≥ smallest hole: a tight hole keeps the stem from pulling in", terms()),
        check("hole, most", "product", (Some(hole_mm), rivet.most_mm), rivet.standing)
            .by("d0 ≤ largest hole: a wide hole does not hold the stem", terms()),
        check("hole", "EN 1993-1-3:2006 8.3(11)", (Some(hole_mm), Some(d + 0.1)), Standing::Memory)
            .by("d0 ≤ d + 0.1 mm", terms())
            .as_range(),
    ];
    let is = |inch: f64| (inch * 25.4 - d).abs() < 0.005;
    if let Some((_, least, most)) = INCH_CHART.into_iter().find(|row| is(row.0)) {
        let chart = "US Army TM 10-5410-221-14 table 4-3";
        checks.push(
            check("hole chart, least", chart, (Some(least * 25.4), Some(hole_mm)), Standing::Read)
                .by("d0 ≥ the chart's hole for this inch rivet", terms())
                .as_range(),
        );
        checks.push(
            check("hole chart, most", chart, (Some(hole_mm), Some(most * 25.4)), Standing::Read)
                .by("d0 ≤ the chart's hole for this inch rivet", terms())
                .as_range(),
        );
    }
    if let Some((_, most)) = HANDBOOK_HOLES.into_iter().find(|row| is(row.0)) {
        checks.push(
            check("handbook hole", "MIL-HDBK-5 chapter 8", (Some(hole_mm), Some(most * 25.4)), Standing::Memory)
                .by("d0 ≤ listed hole: shear strength not above that of the listed hole", terms())
                .as_range(),
        );
    }
    checks
}

/// What a rivet's head may run into.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Obstacle {
    /// The sheet's edge, at this distance from the rivet's centre, mm.
    Edge {
        /// From the rivet's centre, mm.
        distance_mm: f64,
    },
    /// A square bend whose standing leg is on the head's side.
    InsideBend {
        /// From the rivet's centre to the leg's near face, mm.
        to_leg_mm: f64,
        /// Inside radius, mm.
        radius_mm: f64,
    },
    /// A square bend whose leg goes away from the head.
    OutsideBend {
        /// From the rivet's centre to the leg's far face, the outside of the bend, mm.
        to_leg_mm: f64,
        /// Inside radius, mm.
        radius_mm: f64,
        /// Sheet, mm.
        thickness_mm: f64,
    },
}

impl Obstacle {
    /// Radius of the flat that the head finds about the rivet's centre, mm; below nought where the centre is in the bend.
    ///
    /// Elementary geometry of a square bend: the flat ends one inside radius before the inside face of the leg, and one
    /// outside radius (inside radius + thickness) before its outside face.
    pub fn flat_mm(&self) -> f64 {
        match *self {
            Self::Edge { distance_mm } => distance_mm,
            Self::InsideBend { to_leg_mm, radius_mm } => to_leg_mm - radius_mm,
            Self::OutsideBend { to_leg_mm, radius_mm, thickness_mm } => to_leg_mm - radius_mm - thickness_mm,
        }
    }
}

/// Whether the head lies flat, and whether the setting tool reaches the rivet beside a standing leg.
///
/// `nose_mm` is the diameter of the tool's nose, checked at an inside bend where it is known.
///
/// # Errors
/// Sizes that no rivet, bend or tool has.
///
/// # Example
/// ```
/// use raisedbody::check::Verdict;
/// use raisedbody::mechanics::joint::grip::{Obstacle, head_clearance};
/// // A 13.4 mm head 9 mm from the inside of a leg with a 2 mm radius: the head lies on flat metal.
/// let checks = head_clearance(13.4, 6.4, Obstacle::InsideBend { to_leg_mm: 9.0, radius_mm: 2.0 }, None).unwrap();
/// assert_eq!(checks[0].verdict, Verdict::Passes);
/// ```
pub fn head_clearance(
    head_mm: f64,
    diameter_mm: f64,
    obstacle: Obstacle,
    nose_mm: Option<f64>,
) -> Result<Vec<Check>, Vec<Problem>> {
    let distance = |name: &str, mm: f64| in_range(name, Some(mm), EDGE_MM, "mm");
    let radius = |mm: f64| in_range("radius", Some(mm), (0.0, EDGE_MM.1), "mm");
    let mut results = vec![
        in_range("diameter", Some(diameter_mm), DIAMETER_MM, "mm"),
        in_range("head", Some(head_mm), (HEAD.0 * diameter_mm, HEAD.1 * diameter_mm), "mm"),
        in_range("nose", nose_mm, (1.0, 100.0), "mm"),
    ];
    match obstacle {
        Obstacle::Edge { distance_mm } => results.push(distance("distance", distance_mm)),
        Obstacle::InsideBend { to_leg_mm, radius_mm } => {
            results.extend([distance("to_leg", to_leg_mm), radius(radius_mm)]);
        }
        Obstacle::OutsideBend { to_leg_mm, radius_mm, thickness_mm } => {
            let thickness = in_range("thickness", Some(thickness_mm), WALL_MM, "mm");
            results.extend([distance("to_leg", to_leg_mm), radius(radius_mm), thickness]);
        }
    }
    let problems: Vec<Problem> = results.into_iter().filter_map(Result::err).collect();
    if !problems.is_empty() {
        return Err(problems);
    }
    let check = |name: &'static str, needs_mm: f64, has_mm: f64| {
        let sides = (Some(needs_mm), Some(has_mm + ROUNDING), "mm");
        without_leeway(Check::compare(name, "geometry", sides, Level::Stated, Standing::Given))
    };
    let (formula, terms) = match obstacle {
        Obstacle::Edge { distance_mm } => ("d_w / 2 ≤ a", vec![term("a", distance_mm, "mm")]),
        Obstacle::InsideBend { to_leg_mm, radius_mm } => {
            ("d_w / 2 ≤ a − r", vec![term("a", to_leg_mm, "mm"), term("r", radius_mm, "mm")])
        }
        Obstacle::OutsideBend { to_leg_mm, radius_mm, thickness_mm } => (
            "d_w / 2 ≤ a − r − t",
            vec![term("a", to_leg_mm, "mm"), term("r", radius_mm, "mm"), term("t", thickness_mm, "mm")],
        ),
    };
    let mut checks = vec![check("head clearance", head_mm / 2.0, obstacle.flat_mm()).by(formula, terms)];
    if let (Obstacle::InsideBend { to_leg_mm, .. }, Some(nose)) = (obstacle, nose_mm) {
        checks.push(
            check("tool clearance", nose / 2.0, to_leg_mm)
                .by("nose / 2 ≤ a", [term("nose", nose, "mm"), term("a", to_leg_mm, "mm")]),
        );
    }
    Ok(checks)
}
