//! A riveted lap of two sheets: what each rivet carries by each rule set, and why.

pub mod aisi_s100;
pub mod bulk;
pub mod by_test;
pub mod efficiency;
pub mod en_1993_1_3;
pub mod grip;
pub mod group;
pub mod inter_rivet;
pub mod spacing;

use std::fmt;
use std::str::FromStr;

use crate::catalogue::Catalogue;
use crate::check::{Check, Level, Standing, Verdict, governing, worst};
use crate::error::Problem;

use super::sheet::{Sheet, in_range};

/// A rule set for joints.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Method {
    /// EN 1993-1-3:2006, 8.3 and Table 8.1: blind rivets. Demands are design values (factored loads).
    En1993_1_3,
    /// AISI S100-16, J4 and J6: screws, used for rivets by analogy. Demands are service loads (allowable strength).
    AisiS100,
}

impl Method {
    /// Every rule set.
    pub const ALL: [Self; 2] = [Self::En1993_1_3, Self::AisiS100];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::En1993_1_3 => "EN 1993-1-3",
            Self::AisiS100 => "AISI S100",
        }
    }

    /// The level its strengths are at.
    pub fn level(self) -> Level {
        match self {
            Self::En1993_1_3 => Level::Design,
            Self::AisiS100 => Level::Allowable,
        }
    }
}

impl FromStr for Method {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        Self::ALL.into_iter().find(|m| m.name() == text).ok_or_else(|| {
            let names = Self::ALL.map(Self::name);
            Problem::UnknownName {
                path: "method".to_owned(),
                value: text.to_owned(),
                what: "method".to_owned(),
                nearest: Some(crate::error::nearest(text, names).map_or_else(|| names.join("\" or \""), str::to_owned)),
            }
        })
    }
}

impl fmt::Display for Method {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A blind rivet in its hole.
#[derive(Debug, Clone, PartialEq)]
pub struct BlindRivet {
    /// What to call it: `"ISO 15976 6.4 mm"`.
    pub label: String,
    /// Nominal diameter, mm.
    pub diameter_mm: f64,
    /// Hole, mm.
    pub hole_mm: f64,
    /// Least shear load of the rivet itself, N: a product minimum or a characteristic test value.
    pub shear_n: Option<f64>,
    /// Least tension load of the rivet itself, N.
    pub tension_n: Option<f64>,
    /// Head diameter, mm.
    pub head_mm: Option<f64>,
    /// Closed end.
    pub sealed: bool,
    /// Locked mandrel.
    pub structural: bool,
    /// Weakest standing of these values.
    pub standing: Standing,
}

/// What a user says of a rivet: a product of the catalogue, or values of his own with their provenance.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct RivetOrder {
    /// Nominal diameter, mm.
    pub diameter_mm: f64,
    /// Catalogue product.
    pub product: Option<String>,
    /// Least shear load, N.
    pub shear_n: Option<f64>,
    /// Least tension load, N.
    pub tension_n: Option<f64>,
    /// Head diameter, mm.
    pub head_mm: Option<f64>,
    /// Hole, mm.
    pub hole_mm: Option<f64>,
    /// Closed end.
    pub sealed: Option<bool>,
    /// Locked mandrel.
    pub structural: Option<bool>,
}

impl BlindRivet {
    /// Works a rivet out of what the user says; his own values replace the catalogue's.
    ///
    /// The hole is the catalogue's smallest unless given; without either it is not known and an error.
    ///
    /// # Errors
    /// Unknown product or diameter; a hole smaller than the rivet; sizes or loads out of range.
    pub fn new(order: &RivetOrder, catalogue: &Catalogue, path: &str) -> Result<Self, Vec<Problem>> {
        let field = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
        let mut problems = Vec::new();
        let d = order.diameter_mm;
        let row = order
            .product
            .as_deref()
            .and_then(|product| catalogue.rivet(&field("product"), product, d).map_err(|p| problems.push(p)).ok());
        let shear_n = order.shear_n.or_else(|| row.and_then(|r| r.shear).map(|v| v.n()));
        let tension_n = order.tension_n.or_else(|| row.and_then(|r| r.tension).map(|v| v.n()));
        let head_mm = order.head_mm.or_else(|| row.and_then(|r| r.head).map(|v| v.mm()));
        let hole_mm = order.hole_mm.or_else(|| row.and_then(|r| r.hole_least).map(|h| h.mm()));
        // A row of the user's own can hold anything, so that its values are asked as his direct ones are.
        for check in [
            in_range(&field("diameter"), Some(d), DIAMETER_MM, "mm"),
            in_range(&field("shear"), shear_n, RIVET_LOAD_N, "N"),
            in_range(&field("tension"), tension_n, RIVET_LOAD_N, "N"),
            in_range(&field("head"), head_mm, (HEAD.0 * d, HEAD.1 * d), "mm"),
            in_range(&field("hole"), hole_mm, (HOLE.0 * d, HOLE.1 * d), "mm"),
        ] {
            problems.extend(check.err());
        }
        if hole_mm.is_none() && problems.is_empty() {
            problems.push(Problem::missing(field("hole"), "write the drilled hole, for example \"17/64 in\""));
        }
        let (Some(hole_mm), true) = (hole_mm, problems.is_empty()) else {
            return Err(problems);
        };
        // The catalogue's standing counts as soon as one of its loads or sizes is used.
        let all_given = [order.shear_n, order.tension_n, order.head_mm, order.hole_mm].iter().all(Option::is_some);
        let standing = match row {
            Some(row) if !all_given => row.standing.with(Standing::Given),
            _ => Standing::Given,
        };
        let name = order.product.as_deref().unwrap_or("blind rivet");
        Ok(Self {
            label: format!("{name} {d} mm"),
            diameter_mm: d,
            hole_mm,
            shear_n,
            tension_n,
            head_mm,
            sealed: order.sealed.or_else(|| row.map(|r| r.sealed)).unwrap_or(false),
            structural: order.structural.or_else(|| row.map(|r| r.structural)).unwrap_or(false),
            standing,
        })
    }
}

/// Two sheets joined by one line of rivets.
#[derive(Debug, Clone, PartialEq)]
pub struct Lap {
    /// The sheet under the rivet's head.
    pub outer: Sheet,
    /// The sheet or post wall away from the head.
    pub inner: Sheet,
    /// The rivet.
    pub rivet: BlindRivet,
    /// Spacing along the line, mm.
    pub pitch_mm: f64,
    /// Distance from the line to the sheet's edge, mm.
    pub edge_mm: f64,
    /// The line runs along a panel's edge, so that suction pulls on one side of the head only.
    pub panel_edge: bool,
}

/// What one rivet is asked to carry, at the level of the method it is checked by.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Demand {
    /// In the plane of the sheets, across the line, N.
    pub shear_n: f64,
    /// Away from the sheets, N.
    pub tension_n: f64,
}

impl Lap {
    /// A lap, once its sizes are found possible.
    ///
    /// # Errors
    /// Pitch or edge not above nought or beyond any riveted line.
    pub fn new(
        outer: Sheet,
        inner: Sheet,
        rivet: BlindRivet,
        pitch_mm: f64,
        edge_mm: f64,
    ) -> Result<Self, Vec<Problem>> {
        let problems: Vec<Problem> =
            [in_range("pitch", Some(pitch_mm), PITCH_MM, "mm"), in_range("edge", Some(edge_mm), EDGE_MM, "mm")]
                .into_iter()
                .filter_map(Result::err)
                .collect();
        if problems.is_empty() {
            Ok(Self { outer, inner, rivet, pitch_mm, edge_mm, panel_edge: false })
        } else {
            Err(problems)
        }
    }

    /// Checks the lap by one rule set.
    ///
    /// # Errors
    /// A demand that is negative or not a number.
    pub fn check(&self, demand: Demand, method: Method) -> Result<Report, Vec<Problem>> {
        let problems: Vec<Problem> = [("shear", demand.shear_n), ("tension", demand.tension_n)]
            .into_iter()
            .filter_map(|(name, n)| in_range(name, Some(n), LOAD_N, "N").err())
            .collect();
        if !problems.is_empty() {
            return Err(problems);
        }
        let (strengths, mut limits) = match method {
            Method::En1993_1_3 => en_1993_1_3::checks(self, demand),
            Method::AisiS100 => aisi_s100::checks(self, demand),
        };
        limits.extend(self.not_covered_metal(method));
        Ok(Report { method, checks: bounded(strengths, limits) })
    }

    /// The limit broken where a sheet is not carbon steel: both rule sets leave aluminium and stainless steel to
    /// standards of their own (from memory).
    fn not_covered_metal(&self, method: Method) -> Option<Check> {
        let other = [&self.outer, &self.inner].into_iter().find(|sheet| sheet.material != "carbon steel")?;
        let standing = self.standing().with(Standing::Memory);
        let check = Check::compare("material", method.name(), (None, None, ""), Level::Stated, standing);
        let reason = format!("{} is not covered; use a standard for that metal, or test the lap", other.material);
        Some(check.by("sheets of carbon steel", []).demoted(Verdict::OutsideRange, reason))
    }

    /// What one rivet carries of a load per length of the line, N.
    pub fn of_one_rivet_n(&self, line_load_n_mm: f64) -> f64 {
        line_load_n_mm * self.pitch_mm
    }

    /// Weakest standing of the lap's own numbers.
    pub(crate) fn standing(&self) -> Standing {
        self.outer.standing.with(self.inner.standing).with(self.rivet.standing)
    }
}

/// The numbers of one lap and its demand; not a number where one is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Numbers {
    outer_mm: f64,
    inner_mm: f64,
    outer_fu_mpa: f64,
    inner_fu_mpa: f64,
    diameter_mm: f64,
    hole_mm: f64,
    head_mm: f64,
    rivet_shear_n: f64,
    rivet_tension_n: f64,
    pitch_mm: f64,
    edge_mm: f64,
    shear_n: f64,
    tension_n: f64,
    panel_edge: bool,
}

// What a lap can be: looser than any rule, so that a slip of the pen is caught before a rule is asked.
const DIAMETER_MM: (f64, f64) = (1.5, 12.0);
const PITCH_MM: (f64, f64) = (1.0, 1000.0);
const EDGE_MM: (f64, f64) = (1.0, 300.0);
const LOAD_N: (f64, f64) = (0.0, 1e7);
const RIVET_LOAD_N: (f64, f64) = (50.0, 100_000.0);
const WALL_MM: (f64, f64) = (0.05, 12.0);
const STRENGTH_MPA: (f64, f64) = (20.0, 2000.0);
/// Leeway of a limit on a length, mm: 4.8 + 0.1 falls short of 4.9 in binary and 1.5 x 6.4 goes beyond 9.6. Far below
/// any drill's or rule's accuracy.
const ROUNDING: f64 = 1e-9;
/// Hole and head, in diameters.
const HOLE: (f64, f64) = (1.0, 1.5);
const HEAD: (f64, f64) = (1.2, 6.0);

impl Numbers {
    /// Whether every number that is known is one that a lap can have.
    fn possible(&self) -> bool {
        // Not a number stands for "not known".
        let within = |value: f64, (least, most): (f64, f64)| value.is_nan() || (value >= least && value <= most);
        let d = self.diameter_mm;
        within(d, DIAMETER_MM)
            // As for a single lap: a quotient would round the other way at the very bounds.
            && (d.is_nan() || within(self.hole_mm, (HOLE.0 * d, HOLE.1 * d)))
            && (d.is_nan() || within(self.head_mm, (HEAD.0 * d, HEAD.1 * d)))
            && within(self.pitch_mm, PITCH_MM)
            && within(self.edge_mm, EDGE_MM)
            && within(self.outer_mm, WALL_MM)
            && within(self.inner_mm, WALL_MM)
            && within(self.outer_fu_mpa, STRENGTH_MPA)
            && within(self.inner_fu_mpa, STRENGTH_MPA)
            && within(self.rivet_shear_n, RIVET_LOAD_N)
            && within(self.rivet_tension_n, RIVET_LOAD_N)
            && within(self.shear_n, LOAD_N)
            && within(self.tension_n, LOAD_N)
    }

    fn of(lap: &Lap, demand: Demand) -> Self {
        let known = |value: Option<f64>| value.unwrap_or(f64::NAN);
        Self {
            outer_mm: lap.outer.design_mm,
            inner_mm: lap.inner.design_mm,
            outer_fu_mpa: known(lap.outer.fu_mpa),
            inner_fu_mpa: known(lap.inner.fu_mpa),
            diameter_mm: lap.rivet.diameter_mm,
            hole_mm: lap.rivet.hole_mm,
            head_mm: known(lap.rivet.head_mm),
            rivet_shear_n: known(lap.rivet.shear_n),
            rivet_tension_n: known(lap.rivet.tension_n),
            pitch_mm: lap.pitch_mm,
            edge_mm: lap.edge_mm,
            shear_n: demand.shear_n,
            tension_n: demand.tension_n,
            panel_edge: lap.panel_edge,
        }
    }
}

/// The comparisons of a rule set, each a demand and a capacity.
///
/// An unmet strength fails; an unmet condition leaves the lap not assessed; an unmet limit puts it outside the range.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Rules<const S: usize, const C: usize, const L: usize> {
    strengths: [(f64, f64); S],
    conditions: [(f64, f64); C],
    limits: [(f64, f64); L],
}

/// The smaller of two, or not a number where either is unknown: [`f64::min`] would pass over it.
fn smaller(a: f64, b: f64) -> f64 {
    if a <= b { a } else { b + a * 0.0 }
}

/// Nought for what is below it, or not a number where it is unknown: [`f64::max`] would pass over it.
fn not_below_nought(value: f64) -> f64 {
    if value < 0.0 { 0.0 } else { value }
}

/// Strengths count only inside their rule's limits: outside, the number is withdrawn and the limit named.
fn bounded(mut strengths: Vec<Check>, limits: Vec<Check>) -> Vec<Check> {
    let broken: Vec<&str> =
        limits.iter().filter(|c| c.verdict == Verdict::OutsideRange).map(|c| c.name.as_ref()).collect();
    if !broken.is_empty() {
        let reason = format!("beyond the rule's limits: {}", broken.join(", "));
        for check in &mut strengths {
            check.verdict = Verdict::OutsideRange;
            check.reason = Some(reason.clone());
            check.capacity = None;
        }
    }
    strengths.extend(limits);
    strengths
}

/// Whether a load stands against a strength. A limit of the rule has no load in it; a condition for ductility compares
/// one strength with another.
fn bears_load(check: &Check) -> bool {
    check.level != Level::Stated && !check.name.starts_with("ductility")
}

/// All checks of one lap by one rule set: strengths first, then the rule's own limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// The rule set.
    pub method: Method,
    /// The checks.
    pub checks: Vec<Check>,
}

impl Report {
    /// The worst verdict among the checks.
    pub fn verdict(&self) -> Verdict {
        worst(&self.checks)
    }

    /// The check that decides the verdict: of a lap that passes the strength used most.
    pub fn governing(&self) -> Option<&Check> {
        let passes = self.verdict() == Verdict::Passes;
        governing(self.checks.iter().filter(|c| !passes || bears_load(c)))
    }

    /// The highest demand over capacity among the strengths; none where a strength is out of range or unknown.
    pub fn utilisation(&self) -> Option<f64> {
        let strengths = self.checks.iter().filter(|c| bears_load(c));
        strengths.map(Check::utilisation).try_fold(0.0, |most: f64, u| u.map(|u| most.max(u)))
    }

    /// Every check as a hand calculation.
    pub fn explain(&self) -> String {
        let parts: Vec<String> = self.checks.iter().map(Check::explain).collect();
        parts.join("\n")
    }
}
