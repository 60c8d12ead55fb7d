//! How close and how far apart rivets may stand, by every rule that has a say, and which rules cannot be kept together.
//!
//! Each rule is a row with its clause, its source and its standing: [`RULES`]. Several of the greatest spacings were
//! made for plate and ask the impossible of sheet: 14 t is 16.8 mm in sheet of 1.2 mm, less than the 3 d = 19.2 mm that
//! a 6.4 mm rivet needs. [`conflicts`] names such pairs; [`checks`] withdraws the rule that cannot be kept.

mod rules;
mod wander;

use std::f64::consts::PI;
use std::fmt;
use std::str::FromStr;

use crate::check::{Check, Level, Standing, Verdict, term};
use crate::error::{Problem, by_name};

use super::super::sheet::in_range;
use super::{DIAMETER_MM, EDGE_MM, HOLE, PITCH_MM, ROUNDING, STRENGTH_MPA, WALL_MM, without_leeway};

pub use rules::RULES;
pub use wander::{MeasuredHole, Wander, wander};

/// A distance of a riveted line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Distance {
    /// From rivet to rivet along the line.
    Pitch,
    /// From line to line.
    Rows,
    /// From the line to the sheet's edge beside it.
    Edge,
    /// From the last rivet to the sheet's end, along the line.
    End,
}

impl Distance {
    /// Every distance.
    pub const ALL: [Self; 4] = [Self::Pitch, Self::Rows, Self::Edge, Self::End];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Pitch => "pitch",
            Self::Rows => "rows",
            Self::Edge => "edge",
            Self::End => "end",
        }
    }
}

impl FromStr for Distance {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("distance", "distance", text, &Self::ALL, Self::name)
    }
}

/// Whether a rule says how small or how large a distance may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// At least.
    Least,
    /// At most.
    Most,
}

impl Side {
    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Least => "least",
            Self::Most => "most",
        }
    }
}

/// Rules that are used together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Family {
    /// EN 1993-1-3: thin sheet.
    En1993_1_3,
    /// AISI S100: thin sheet; screws and compression sheets.
    AisiS100,
    /// EN 1993-1-8: plate.
    En1993_1_8,
    /// Aircraft practice.
    Aircraft,
    /// Spacing that keeps water out of a lap.
    Sealing,
}

impl Family {
    /// Every family.
    pub const ALL: [Self; 5] = [Self::En1993_1_3, Self::AisiS100, Self::En1993_1_8, Self::Aircraft, Self::Sealing];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::En1993_1_3 => "EN 1993-1-3",
            Self::AisiS100 => "AISI S100",
            Self::En1993_1_8 => "EN 1993-1-8",
            Self::Aircraft => "aircraft",
            Self::Sealing => "sealing",
        }
    }
}

impl FromStr for Family {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("families", "family of rules", text, &Self::ALL, Self::name)
    }
}

/// Which way the sheets pull on the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Pull {
    /// Square to the line: a seam pulled open.
    Across,
    /// Along the line: a panel in shear.
    Along,
    /// Both, or not known: the larger distance counts.
    #[default]
    Both,
}

impl Pull {
    /// Every way.
    pub const ALL: [Self; 3] = [Self::Across, Self::Along, Self::Both];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Across => "across",
            Self::Along => "along",
            Self::Both => "both",
        }
    }
}

impl FromStr for Pull {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("pull", "pull", text, &Self::ALL, Self::name)
    }
}

/// A sheet that is pressed along the line, so that it can bulge between rivets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compression {
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
    /// Compressive stress in the sheet under the design load, MPa.
    pub stress_mpa: f64,
    /// Yield strength, MPa.
    pub fy_mpa: f64,
    /// Flat width of the narrowest free strip beside the line, mm.
    pub flat_width_mm: f64,
}

/// What the rules need to know of a riveted line.
#[derive(Debug, Clone, PartialEq)]
pub struct Seam {
    /// Rivet, mm.
    pub diameter_mm: f64,
    /// Hole, mm.
    pub hole_mm: f64,
    /// The thinner outside sheet, mm.
    pub thickness_mm: f64,
    /// Which way the sheets pull.
    pub pull: Pull,
    /// Pitch, mm, for rules that set the distance between lines by it.
    pub pitch_mm: Option<f64>,
    /// Countersunk heads.
    pub countersunk: bool,
    /// Open to weather or spray.
    pub exposed: bool,
    /// Weathering steel left bare; otherwise painted or coated.
    pub bare_weathering_steel: bool,
    /// The sheet is pressed along the line.
    pub compression: Option<Compression>,
}

/// Where a family of rules comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Book {
    /// Family.
    pub family: Family,
    /// Rule set and clause.
    pub clause: &'static str,
    /// Where it was seen.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
    /// Smallest and largest rivet that it covers, mm, where it says so.
    pub diameters_mm: Option<(f64, f64)>,
}

/// One rule on one distance.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Where it comes from.
    pub book: &'static Book,
    /// The distance.
    pub distance: Distance,
    /// At least or at most.
    pub side: Side,
    /// In the rule's symbols.
    pub formula: &'static str,
    /// A requirement; else a habit or a suggestion, whose breach is only pointed out.
    pub binding: bool,
    of: fn(&Seam) -> Option<f64>,
}

impl Rule {
    /// The distance that the rule asks for, mm; none where it does not apply to this seam.
    pub fn mm(&self, seam: &Seam) -> Option<f64> {
        (self.of)(seam)
    }
}

/// A rule worked out for one seam.
#[derive(Debug, Clone, Copy)]
pub struct Bound {
    /// The rule.
    pub rule: &'static Rule,
    /// The least or greatest distance, mm.
    pub mm: f64,
    /// The rivet is of a size that the rule covers; else the distance is an extrapolation, and no check passes by it.
    pub covered: bool,
}

/// Every bound on one seam's distances by the families asked for.
///
/// # Errors
/// Sizes or strengths that no seam has.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::spacing::{Family, Seam, bounds, conflicts};
/// let seam = Seam { exposed: true, ..Seam::new(6.4, 6.5, 1.2) };
/// let bounds = bounds(&seam, &[Family::En1993_1_3, Family::En1993_1_8]).unwrap();
/// let conflict = &conflicts(&bounds)[0];
/// assert_eq!(format!("{:.1} {:.1}", conflict.most.mm, conflict.least.mm), "16.8 19.2");
/// ```
pub fn bounds(seam: &Seam, families: &[Family]) -> Result<Vec<Bound>, Vec<Problem>> {
    let mut problems: Vec<Problem> = [
        in_range("diameter", Some(seam.diameter_mm), DIAMETER_MM, "mm"),
        in_range("hole", Some(seam.hole_mm), (HOLE.0 * seam.diameter_mm, HOLE.1 * seam.diameter_mm), "mm"),
        in_range("thickness", Some(seam.thickness_mm), WALL_MM, "mm"),
        in_range("pitch", seam.pitch_mm, PITCH_MM, "mm"),
    ]
    .into_iter()
    .filter_map(Result::err)
    .collect();
    if let Some(c) = seam.compression {
        let given = [
            in_range("compression.modulus", Some(c.modulus_mpa), (1e4, 1e6), "MPa"),
            in_range("compression.stress", Some(c.stress_mpa), (1e-3, STRENGTH_MPA.1), "MPa"),
            in_range("compression.fy", Some(c.fy_mpa), STRENGTH_MPA, "MPa"),
            in_range("compression.flat_width", Some(c.flat_width_mm), PITCH_MM, "mm"),
        ];
        problems.extend(given.into_iter().filter_map(Result::err));
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let rules = RULES.iter().filter(|r| families.contains(&r.book.family));
    let d = seam.diameter_mm;
    let covers = |(least, most): (f64, f64)| d + ROUNDING >= least && d <= most + ROUNDING;
    let bound = |rule: &'static Rule| {
        rule.mm(seam).map(|mm| Bound { rule, mm, covered: rule.book.diameters_mm.is_none_or(covers) })
    };
    Ok(rules.filter_map(bound).collect())
}

impl Seam {
    /// A line of protruding heads in painted sheet under cover, pulled both ways, not in compression.
    pub fn new(diameter_mm: f64, hole_mm: f64, thickness_mm: f64) -> Self {
        Self {
            diameter_mm,
            hole_mm,
            thickness_mm,
            pull: Pull::Both,
            pitch_mm: None,
            countersunk: false,
            exposed: false,
            bare_weathering_steel: false,
            compression: None,
        }
    }
}

/// The bound that decides: the largest of the least, the smallest of the greatest distances.
pub fn strictest(bounds: &[Bound], distance: Distance, side: Side) -> Option<&Bound> {
    let of = bounds.iter().filter(|b| b.rule.distance == distance && b.rule.side == side);
    match side {
        Side::Least => of.max_by(|a, b| a.mm.total_cmp(&b.mm)),
        Side::Most => of.min_by(|a, b| a.mm.total_cmp(&b.mm)),
    }
}

/// Two rules that no distance can keep together.
#[derive(Debug, Clone, Copy)]
pub struct Conflict {
    /// The rule that wants the rivets far.
    pub least: Bound,
    /// The rule that wants them near.
    pub most: Bound,
}

impl fmt::Display for Conflict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (low, high) = (self.least, self.most);
        write!(
            f,
            "{} cannot keep both {} = {:.1} mm ({}) and {} = {:.1} mm ({})",
            name_of(low.rule.distance, None),
            low.rule.formula,
            low.mm,
            low.rule.book.clause,
            high.rule.formula,
            high.mm,
            high.rule.book.clause,
        )
    }
}

/// Every pair of bounds that excludes the other.
pub fn conflicts(bounds: &[Bound]) -> Vec<Conflict> {
    let side = |side: Side| bounds.iter().filter(move |b| b.rule.side == side);
    side(Side::Most)
        .flat_map(|most| side(Side::Least).map(move |least| Conflict { least: *least, most: *most }))
        .filter(|c| c.least.rule.distance == c.most.rule.distance && c.least.mm > c.most.mm + ROUNDING)
        .collect()
}

/// The distances of a seam as planned; those not known stay unchecked.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Layout {
    /// From rivet to rivet, mm.
    pub pitch_mm: Option<f64>,
    /// From line to line, mm.
    pub rows_mm: Option<f64>,
    /// From the line to the edge, mm.
    pub edge_mm: Option<f64>,
    /// From the last rivet to the end, mm.
    pub end_mm: Option<f64>,
}

impl Layout {
    /// Refuses distances that no seam has; [`checks`] takes them as they are.
    ///
    /// # Errors
    /// Pitch or distance of lines beyond 1 to 1000 mm, edge or end distance beyond 1 to 300 mm.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let problems: Vec<Problem> = [
            in_range("pitch", self.pitch_mm, PITCH_MM, "mm"),
            in_range("rows", self.rows_mm, PITCH_MM, "mm"),
            in_range("edge", self.edge_mm, EDGE_MM, "mm"),
            in_range("end", self.end_mm, EDGE_MM, "mm"),
        ]
        .into_iter()
        .filter_map(Result::err)
        .collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn of(&self, distance: Distance) -> Option<f64> {
        match distance {
            Distance::Pitch => self.pitch_mm,
            Distance::Rows => self.rows_mm,
            Distance::Edge => self.edge_mm,
            Distance::End => self.end_mm,
        }
    }
}

/// Each bound against the layout.
///
/// A greatest distance that lies under a required least one is not failed but put outside its range, with both named. A
/// habit or suggestion is never failed either. A rule that does not cover rivets of this size neither passes nor fails.
pub fn checks(bounds: &[Bound], layout: &Layout) -> Vec<Check> {
    let required = |c: &Conflict| c.least.rule.binding && c.least.covered;
    let conflicts: Vec<Conflict> = conflicts(bounds).into_iter().filter(required).collect();
    bounds
        .iter()
        .map(|bound| {
            let check = compare(bound, layout.of(bound.rule.distance));
            let excluded = conflicts.iter().find(|c| std::ptr::eq(c.most.rule, bound.rule));
            match excluded {
                Some(conflict) if check.verdict != Verdict::Passes => {
                    check.demoted(Verdict::OutsideRange, format!("{conflict}; keep the least distance"))
                }
                _ => check,
            }
        })
        .collect()
}

/// One bound against one distance, mm.
fn compare(bound: &Bound, has_mm: Option<f64>) -> Check {
    let rule = bound.rule;
    let sides = match rule.side {
        Side::Least => (Some(bound.mm), has_mm.map(|h| h + ROUNDING), "mm"),
        Side::Most => (has_mm, Some(bound.mm + ROUNDING), "mm"),
    };
    let standing = rule.book.standing.with(Standing::Given);
    let name = name_of(rule.distance, Some(rule.side));
    let check = without_leeway(Check::compare(name, rule.book.clause, sides, Level::Stated, standing))
        .by(rule.formula, [term("bound", bound.mm, "mm")]);
    if let (false, Some((least, most))) = (bound.covered, rule.book.diameters_mm) {
        return check.demoted(Verdict::OutsideRange, format!("the rule is for rivets of {least} to {most} mm"));
    }
    if check.verdict == Verdict::Fails && !rule.binding {
        return check.demoted(Verdict::NotAssessed, "usual or suggested, not required");
    }
    check
}

fn name_of(distance: Distance, side: Option<Side>) -> &'static str {
    match (distance, side) {
        (Distance::Pitch, None) => "pitch",
        (Distance::Pitch, Some(Side::Least)) => "pitch, least",
        (Distance::Pitch, Some(Side::Most)) => "pitch, most",
        (Distance::Rows, None) => "distance of lines",
        (Distance::Rows, Some(Side::Least)) => "distance of lines, least",
        (Distance::Rows, Some(Side::Most)) => "distance of lines, most",
        (Distance::Edge, None) => "edge distance",
        (Distance::Edge, Some(Side::Least)) => "edge distance, least",
        (Distance::Edge, Some(Side::Most)) => "edge distance, most",
        (Distance::End, None) => "end distance",
        (Distance::End, Some(Side::Least)) => "end distance, least",
        (Distance::End, Some(Side::Most)) => "end distance, most",
    }
}

/// Strengths that a splice table is worked out from, in parts of the sheet's tensile strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpliceTable {
    /// Shear strength of the rivet.
    pub shear: f64,
    /// Bearing strength of the sheet.
    pub bearing: f64,
}

/// FAA AC 43.13-1B, table 4-9, as `globalmicroturbine.com` gives it.
pub const TABLE_4_9: SpliceTable = SpliceTable { shear: 0.40, bearing: 1.60 };

/// What part of a full splice's rivets a joint needs, FAA AC 43.13-1B, pages 4-37 to 4-39.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Splice {
    /// The whole count.
    Full,
    /// A single-lap joint of sheets: 75 %.
    SingleLap,
    /// An intermediate frame: 60 %.
    IntermediateFrame,
    /// A stringer: 80 %.
    Stringer,
}

impl Splice {
    fn share(self) -> f64 {
        match self {
            Self::Full => 1.0,
            Self::SingleLap => 0.75,
            Self::IntermediateFrame => 0.60,
            Self::Stringer => 0.80,
        }
    }
}

/// Rivets per millimetre of splice that carry what the sheet carries, by the logic of FAA AC 43.13-1B, tables 4-9 to
/// 4-11: the larger of 1 / (k<sub>b</sub> D) and t / (k<sub>s</sub> π D² / 4), D the hole.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::spacing::{Splice, TABLE_4_9, splice_rivets_per_mm};
/// // 0.032 in sheet, 1/8 in rivet in its 0.1285 in hole: 6.2 rivets to the inch.
/// let per_mm = splice_rivets_per_mm(0.032 * 25.4, 0.1285 * 25.4, TABLE_4_9, Splice::Full);
/// assert!((per_mm * 25.4 - 6.2).abs() < 0.05);
/// ```
pub fn splice_rivets_per_mm(thickness_mm: f64, hole_mm: f64, table: SpliceTable, splice: Splice) -> f64 {
    let bearing = 1.0 / (table.bearing * hole_mm);
    let shear = thickness_mm / (table.shear * PI * hole_mm.powi(2) / 4.0);
    bearing.max(shear) * splice.share()
}
