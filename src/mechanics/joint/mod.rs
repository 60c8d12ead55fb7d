//! A riveted lap of two or three sheets: what each rivet carries by each rule set, and why.

#![allow(clippy::inline_always, reason = "over arrays each rule set is one loop; a call in it would halve its speed")]

pub mod aisi_s100;
pub mod bulk;
pub mod by_test;
pub mod efficiency;
pub mod en_1993_1_3;
pub mod en_1999_1_4;
pub mod grip;
pub mod group;
pub mod handbook;
pub mod inter_rivet;
pub mod spacing;
pub mod turned;
pub mod weld;

use std::fmt;
use std::str::FromStr;

use crate::calculation::{Form, write_all};
use crate::catalogue::Catalogue;
use crate::check::{Check, FULL, Level, Standing, Term, Verdict, governing, significant, term, worst};
use crate::error::{Problem, by_name};

use super::sheet::{Sheet, in_range};
use spacing::Side;

/// A rule set for joints. Its level says which loads its strengths are compared with: [`Method::level`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Method {
    /// EN 1993-1-3:2006, 8.3 and Table 8.1: blind rivets in steel sheet. Demands are design values (factored loads).
    En1993_1_3,
    /// EN 1999-1-4:2007, 8.2: blind rivets in aluminium sheet. Demands are design values (factored loads).
    En1999_1_4,
    /// AISI S100-16, J4 and J6: screws, used for rivets by analogy.
    AisiS100(Format),
    /// AISI S100-16, J3.3 and J6: bolts in bearing, used for rivets by analogy; the rest as for screws.
    AisiS100Bolts(Format),
    /// Bearing strengths as aircraft handbooks tabulate them, at edge distances of 1.5 and 2.0 diameters. Demands are
    /// ultimate loads.
    Handbook,
}

/// How AISI S100 sets a nominal strength against loads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Format {
    /// Allowable strength (ASD): divided by Ω. Demands are service loads.
    #[default]
    Allowable,
    /// Load and resistance factors (LRFD): times φ. Demands are factored loads.
    Factored,
}

impl Format {
    /// Both formats.
    pub const ALL: [Self; 2] = [Self::Allowable, Self::Factored];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Allowable => "allowable",
            Self::Factored => "factored",
        }
    }
}

impl FromStr for Format {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("format", "format", text, &Self::ALL, Self::name)
    }
}

impl Method {
    /// Every rule set.
    pub const ALL: [Self; 7] = [
        Self::En1993_1_3,
        Self::En1999_1_4,
        Self::AisiS100(Format::Allowable),
        Self::AisiS100(Format::Factored),
        Self::AisiS100Bolts(Format::Allowable),
        Self::AisiS100Bolts(Format::Factored),
        Self::Handbook,
    ];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::En1993_1_3 => "EN 1993-1-3",
            Self::En1999_1_4 => "EN 1999-1-4",
            Self::AisiS100(Format::Allowable) => "AISI S100",
            Self::AisiS100(Format::Factored) => "AISI S100 LRFD",
            Self::AisiS100Bolts(Format::Allowable) => "AISI S100 J3",
            Self::AisiS100Bolts(Format::Factored) => "AISI S100 J3 LRFD",
            Self::Handbook => "handbook bearing",
        }
    }

    /// The level its strengths are at.
    pub fn level(self) -> Level {
        match self {
            Self::En1993_1_3 | Self::En1999_1_4 => Level::Design,
            Self::AisiS100(format) | Self::AisiS100Bolts(format) => match format {
                Format::Allowable => Level::Allowable,
                Format::Factored => Level::Factored,
            },
            Self::Handbook => Level::Minimum,
        }
    }

    /// What became of one lap's numbers: verdict, utilisation, governing check.
    fn outcome(self, n: &Numbers) -> Outcome {
        match self {
            Self::En1993_1_3 => en_1993_1_3::compare(n).outcome(n),
            Self::En1999_1_4 => en_1999_1_4::compare(n).outcome(n),
            Self::AisiS100(format) => aisi_s100::compare(n, format).outcome(n),
            Self::AisiS100Bolts(format) => aisi_s100::bolts::compare(n, format).outcome(n),
            Self::Handbook => handbook::compare(n).outcome(n),
        }
    }

    /// Names of its checks, in the order in which they are made; the last, `"input"`, stands for what no lap can be.
    fn names(self) -> &'static [&'static str] {
        match self {
            Self::En1993_1_3 => &en_1993_1_3::NAMES,
            Self::En1999_1_4 => &en_1999_1_4::NAMES,
            Self::AisiS100(_) => &aisi_s100::NAMES,
            Self::AisiS100Bolts(_) => &aisi_s100::bolts::NAMES,
            Self::Handbook => &handbook::NAMES,
        }
    }

    /// Whether its rules are written for these metals, head side first; from memory.
    fn covers(self, outer: &str, inner: &str) -> bool {
        let (steel, aluminium) = (|metal: &str| metal == "carbon steel", |metal: &str| metal.starts_with("aluminium"));
        match self {
            Self::En1993_1_3 | Self::AisiS100(_) | Self::AisiS100Bolts(_) => steel(outer) && steel(inner),
            Self::En1999_1_4 => aluminium(outer) && (aluminium(inner) || steel(inner)),
            Self::Handbook => true,
        }
    }

    /// The metals that [`covers`](Self::covers) accepts.
    fn metals(self) -> &'static str {
        match self {
            Self::En1993_1_3 | Self::AisiS100(_) | Self::AisiS100Bolts(_) => "sheets of carbon steel",
            Self::En1999_1_4 => "an aluminium sheet on aluminium or carbon steel",
            Self::Handbook => "any metal whose bearing strengths are given",
        }
    }
}

impl FromStr for Method {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("method", "method", text, &Self::ALL, Self::name)
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
    /// Metal of the body, where it is known.
    pub body: Option<String>,
    /// Countersunk head; else protruding.
    pub countersunk: bool,
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
    /// Metal of the body: `"steel"`, `"aluminium alloy"`.
    pub body: Option<String>,
    /// Countersunk head.
    pub countersunk: Option<bool>,
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
            body: order.body.clone().or_else(|| row.map(|r| r.body.clone())),
            countersunk: order.countersunk.or_else(|| row.map(|r| r.countersunk)).unwrap_or(false),
            standing,
        })
    }
}

/// Where a rule leaves a choice, or asks once for what a lap's sizes do not say.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Choices {
    /// The line runs along a panel's edge, so that suction pulls on one side of the head only.
    pub panel_edge: bool,
    /// The load away from the sheets stays on, instead of coming and going as wind does: EN 1993-1-3 doubles the
    /// pull-through resistance.
    pub steady_tension: bool,
    /// Which reading of AISI S100 J4.3.1 between equal parts and a thick far part.
    pub lower_anchor: aisi_s100::LowerAnchor,
    /// Holes may stretch: AISI S100 J3.3.2, bearing with hole deformation considered, is left out.
    pub holes_may_stretch: bool,
    /// Bearing strengths of the weaker sheet from a handbook, MPa, at edge distances of 1.5 and of 2.0 diameters.
    pub handbook_bearing_mpa: Option<[f64; 2]>,
}

impl Choices {
    fn problems(&self) -> Vec<Problem> {
        let Some([near, far]) = self.handbook_bearing_mpa else { return Vec::new() };
        let possible = |mpa: f64| in_range("handbook_bearing", Some(mpa), HANDBOOK_MPA, "MPa").err();
        let mut problems: Vec<Problem> = [near, far].into_iter().filter_map(possible).collect();
        if near > far {
            let problem = format!("at 1.5 diameters cannot exceed the {far} MPa at 2.0; check which is which");
            problems.push(Problem::contradiction("handbook_bearing", format!("{near} MPa"), problem));
        }
        problems
    }
}

/// Two sheets joined by a line of rivets, or by several lines side by side; a third may lie between them.
#[derive(Debug, Clone, PartialEq)]
pub struct Lap {
    /// The sheet under the rivet's head.
    pub outer: Sheet,
    /// A sheet between the two.
    pub middle: Option<Sheet>,
    /// The sheet or post wall away from the head.
    pub inner: Sheet,
    /// The rivet.
    pub rivet: BlindRivet,
    /// Spacing along the line, mm.
    pub pitch_mm: f64,
    /// Distance from the line to the sheet's edge, mm.
    pub edge_mm: f64,
    /// Lines side by side, each at the same pitch.
    pub rows: u32,
    /// From line to line, mm; needed where there are several.
    pub row_spacing_mm: Option<f64>,
    /// Where a rule leaves a choice.
    pub choices: Choices,
}

/// What one rivet is asked to carry, at the level of the method it is checked by.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Demand {
    /// In the plane of the sheets, across the line, N.
    pub shear_n: f64,
    /// Away from the sheets, N.
    pub tension_n: f64,
}

impl Demand {
    /// The same load times a factor: from service to factored loads.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self { shear_n: self.shear_n * factor, tension_n: self.tension_n * factor }
    }
}

impl Lap {
    /// A lap of two sheets and one line, once its sizes are found possible; set the other fields on it.
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
        let lap = Self {
            outer,
            middle: None,
            inner,
            rivet,
            pitch_mm,
            edge_mm,
            rows: 1,
            row_spacing_mm: None,
            choices: Choices::default(),
        };
        lap.validate()?;
        Ok(lap)
    }

    /// Whether its sizes are ones that a lap can have.
    ///
    /// # Errors
    /// Pitch, edge, rows or their spacing beyond any riveted line; rows without a spacing; handbook strengths that are
    /// none, or the one at 1.5 diameters above the one at 2.0.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let mut results = vec![
            in_range("pitch", Some(self.pitch_mm), PITCH_MM, "mm"),
            in_range("edge", Some(self.edge_mm), EDGE_MM, "mm"),
            in_range("rows", Some(f64::from(self.rows)), (1.0, f64::from(MOST_ROWS)), ""),
            in_range("row_spacing", self.row_spacing_mm, PITCH_MM, "mm"),
        ];
        if self.rows > 1 && self.row_spacing_mm.is_none() {
            results.push(Err(Problem::missing("row_spacing", "write the distance from line to line, 3 d or more")));
        }
        let mut problems: Vec<Problem> = results.into_iter().filter_map(Result::err).collect();
        problems.extend(self.choices.problems());
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// Checks the lap by one rule set.
    ///
    /// With a sheet between the two, each pair of neighbours is checked as a lap of its own for the whole load in the
    /// plane, and the load away from the sheets at the head: no rule speaks of three sheets, and this bounds a load that
    /// passes through from sheet to sheet (judgement). A middle sheet pulled against both others carries the sum; enter
    /// that sum.
    ///
    /// # Errors
    /// A demand that is negative or not a number; sizes that no lap has.
    pub fn check(&self, demand: Demand, method: Method) -> Result<Report, Vec<Problem>> {
        self.validate()?;
        demand.validate()?;
        let mut checks = Vec::new();
        for plane in self.planes(demand) {
            let (mut strengths, mut limits) = match method {
                Method::En1993_1_3 => en_1993_1_3::checks(&plane),
                Method::En1999_1_4 => en_1999_1_4::checks(&plane),
                Method::AisiS100(format) => aisi_s100::checks(&plane, format),
                Method::AisiS100Bolts(format) => aisi_s100::bolts::checks(&plane, format),
                Method::Handbook => handbook::checks(&plane),
            };
            limits.extend(plane.rows_too_close());
            limits.extend(plane.not_covered_metal(method));
            limits.extend(plane.not_covered_head(method));
            if let Some(subject) = plane.subject {
                for check in strengths.iter_mut().chain(&mut limits) {
                    subject.clone_into(&mut check.subject);
                    check.standing = check.standing.with(Standing::Assumed);
                }
            }
            checks.extend(bounded(strengths, limits));
        }
        Ok(Report { method: method.name(), level: method.level(), checks })
    }

    /// Checks the lap by several rule sets, side by side, each against loads of its own level.
    ///
    /// # Errors
    /// As [`check`](Self::check); a rule set whose loads are not given.
    ///
    /// # Example
    /// ```
    /// use raisedbody::catalogue::Catalogue;
    /// use raisedbody::mechanics::joint::{BlindRivet, Demand, Format, Lap, Loads, Method, RivetOrder};
    /// use raisedbody::mechanics::sheet::{Sheet, SheetOrder};
    /// # fn main() -> Result<(), Vec<raisedbody::error::Problem>> {
    /// let catalogue = Catalogue::standard().map_err(|_| Vec::new())?;
    /// let order = SheetOrder { thickness_mm: Some(1.2), fu_mpa: Some(360.0), ..SheetOrder::default() };
    /// let sheet = Sheet::new(&order, &catalogue, "")?;
    /// let order = RivetOrder { diameter_mm: 4.8, product: Some("ISO 16585".to_owned()), ..RivetOrder::default() };
    /// let lap = Lap::new(sheet.clone(), sheet, BlindRivet::new(&order, &catalogue, "")?, 60.0, 12.0)?;
    /// let service = Demand { shear_n: 400.0, tension_n: 0.0 };
    /// let loads = Loads { service: Some(service), design: Some(service.times(1.5)), ..Loads::default() };
    /// let reports = lap.check_by(loads, &[Method::En1993_1_3, Method::AisiS100(Format::Allowable)])?;
    /// assert_eq!(reports.len(), 2);
    /// # Ok(())
    /// # }
    /// ```
    pub fn check_by(&self, loads: Loads, methods: &[Method]) -> Result<Vec<Report>, Vec<Problem>> {
        methods.iter().map(|&method| self.check(loads.at(method.level())?, method)).collect()
    }

    /// The utilisation that [`check`](Self::check) comes to ([`Report::utilisation`]), without its words.
    ///
    /// # Errors
    /// As [`check`](Self::check).
    pub fn utilisation(&self, demand: Demand, method: Method) -> Result<Option<f64>, Vec<Problem>> {
        self.validate()?;
        demand.validate()?;
        let broken = |check: Option<Check>| check.is_some_and(|c| c.verdict == Verdict::OutsideRange);
        let of_plane = |plane: &Plane<'_>| {
            let beyond = broken(plane.rows_too_close())
                || !method.covers(&plane.outer.material, &plane.inner.material)
                || plane.lap.rivet.countersunk;
            let used = method.outcome(&plane.numbers).utilisation;
            (!beyond && !used.is_nan()).then_some(used)
        };
        Ok(self.planes(demand).iter().map(of_plane).try_fold(0.0, |most: f64, own| own.map(|own| most.max(own))))
    }

    /// Whether every check passes: the verdict of [`check`](Self::check) without its words.
    fn passes(&self, demand: Demand, method: Method) -> bool {
        let passes = |check: Option<Check>| check.is_none_or(|c| c.verdict == Verdict::Passes);
        self.planes(demand).iter().all(|plane| {
            method.outcome(&plane.numbers).verdict == 0
                && method.covers(&plane.outer.material, &plane.inner.material)
                && plane.not_covered_head(method).is_none()
                && passes(plane.rows_too_close())
        })
    }

    /// What one rivet carries of a load per length of the line, N.
    pub fn of_one_rivet_n(&self, line_load_n_mm: f64) -> f64 {
        line_load_n_mm * self.pitch_mm / f64::from(self.rows)
    }

    /// The planes in which sheets slide on each other, head side first: one between two sheets, two between three.
    fn planes(&self, demand: Demand) -> Vec<Plane<'_>> {
        let plane = |outer, inner, demand, subject| Plane {
            outer,
            inner,
            lap: self,
            numbers: Numbers::of(self, outer, inner, demand),
            subject,
        };
        match &self.middle {
            None => vec![plane(&self.outer, &self.inner, demand, None)],
            Some(middle) => vec![
                plane(&self.outer, middle, demand, Some("outer on middle")),
                // The load away from the sheets is taken at the head.
                plane(middle, &self.inner, Demand { tension_n: 0.0, ..demand }, Some("middle on inner")),
            ],
        }
    }
}

/// One load at each level at which it is known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Loads {
    /// As it comes: for [`Level::Allowable`].
    pub service: Option<Demand>,
    /// Factored by EN 1990: for [`Level::Design`].
    pub design: Option<Demand>,
    /// Factored for LRFD: for [`Level::Factored`].
    pub factored: Option<Demand>,
    /// Ultimate: for [`Level::Minimum`].
    pub ultimate: Option<Demand>,
}

impl Loads {
    fn at(&self, level: Level) -> Result<Demand, Vec<Problem>> {
        let (name, load) = match level {
            Level::Allowable => ("service", self.service),
            Level::Design => ("design", self.design),
            Level::Factored => ("factored", self.factored),
            Level::Minimum => ("ultimate", self.ultimate),
            Level::Stated => ("", None),
        };
        load.ok_or_else(|| {
            vec![Problem::missing(name, "give the load at the level of this rule set; levels are never mixed")]
        })
    }
}

impl Demand {
    fn validate(self) -> Result<(), Vec<Problem>> {
        let loads = [("shear", self.shear_n), ("tension", self.tension_n)];
        let problems: Vec<Problem> =
            loads.into_iter().filter_map(|(name, n)| in_range(name, Some(n), LOAD_N, "N").err()).collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}

/// Two neighbouring sheets of a lap, with the numbers that their checks are made of.
struct Plane<'a> {
    outer: &'a Sheet,
    inner: &'a Sheet,
    lap: &'a Lap,
    numbers: Numbers,
    /// Which pair, where there are several.
    subject: Option<&'static str>,
}

impl Plane<'_> {
    /// Weakest standing of the numbers.
    fn standing(&self) -> Standing {
        self.outer.standing.with(self.inner.standing).with(self.lap.rivet.standing)
    }

    /// The limit broken where a sheet is of a metal that the rules are not written for (from memory).
    fn not_covered_metal(&self, method: Method) -> Option<Check> {
        let (outer, inner) = (self.outer.material.as_str(), self.inner.material.as_str());
        if method.covers(outer, inner) {
            return None;
        }
        let standing = self.standing().with(Standing::Memory);
        let check = Check::compare("material", method.name(), (None, None, ""), Level::Stated, standing);
        let reason = format!("{outer} on {inner} is not covered; use a standard for these metals, or test the lap");
        Some(check.by(method.metals(), []).demoted(Verdict::OutsideRange, reason))
    }

    /// The limit broken by a countersunk head: no rule set here is written for one.
    fn not_covered_head(&self, method: Method) -> Option<Check> {
        if !self.lap.rivet.countersunk {
            return None;
        }
        let standing = self.standing().with(Standing::Memory);
        let check = Check::compare("head", method.name(), (None, None, ""), Level::Stated, standing);
        let reason = "a countersunk head is not covered: its sheet is thinned; use a protruding one, or test the lap";
        Some(check.by("protruding heads", []).demoted(Verdict::OutsideRange, reason))
    }

    /// Lines side by side keep the distance that rivets in line do: 3 d by every rule set here.
    fn rows_too_close(&self) -> Option<Check> {
        let spacing_mm = self.lap.row_spacing_mm.filter(|_| self.lap.rows > 1)?;
        let d = self.numbers.diameter_mm;
        let standing = self.standing().with(Standing::Memory);
        let sides = (Some(3.0 * d), Some(spacing_mm + ROUNDING), "mm");
        let check = Check::compare("distance of lines", "as the pitch", sides, Level::Stated, standing);
        let check = check.as_range().by("p1, p2 ≥ 3 d", [term("d", d, "mm")]);
        Some(with_remedy(check, Side::Least))
    }
}

/// The numbers of two sheets and their demand; not a number where one is not known.
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
    rows: f64,
    aluminium_rivet: bool,
    choices: Choices,
}

// What a lap can be: looser than any rule, so that a slip of the pen is caught before a rule is asked.
const DIAMETER_MM: (f64, f64) = (1.5, 12.0);
pub(crate) const PITCH_MM: (f64, f64) = (1.0, 1000.0);
pub(crate) const EDGE_MM: (f64, f64) = (1.0, 300.0);
const LOAD_N: (f64, f64) = (0.0, 1e7);
const RIVET_LOAD_N: (f64, f64) = (50.0, 100_000.0);
const WALL_MM: (f64, f64) = (0.05, 12.0);
pub(crate) const STRENGTH_MPA: (f64, f64) = (20.0, 2000.0);
const HANDBOOK_MPA: (f64, f64) = (20.0, 5000.0);
const MOST_ROWS: u32 = 10;
/// Words for bodies that are not of aluminium; one that is not known, or called otherwise, is taken for aluminium, which
/// is weaker.
const OTHER_METALS: [&str; 4] = ["steel", "stainless", "copper", "nickel"];
/// Leeway of a limit on a length, mm: 4.8 + 0.1 falls short of 4.9 in binary and 1.5 x 6.4 goes beyond 9.6. Far below
/// any drill's or rule's accuracy.
const ROUNDING: f64 = 1e-9;
/// Hole and head, in diameters.
pub(crate) const HOLE: (f64, f64) = (1.0, 1.5);
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

    fn of(lap: &Lap, outer: &Sheet, inner: &Sheet, demand: Demand) -> Self {
        let known = |value: Option<f64>| value.unwrap_or(f64::NAN);
        Self {
            outer_mm: outer.design_mm,
            inner_mm: inner.design_mm,
            outer_fu_mpa: known(outer.fu_mpa),
            inner_fu_mpa: known(inner.fu_mpa),
            diameter_mm: lap.rivet.diameter_mm,
            hole_mm: lap.rivet.hole_mm,
            head_mm: known(lap.rivet.head_mm),
            rivet_shear_n: known(lap.rivet.shear_n),
            rivet_tension_n: known(lap.rivet.tension_n),
            pitch_mm: lap.pitch_mm,
            edge_mm: lap.edge_mm,
            shear_n: demand.shear_n,
            tension_n: demand.tension_n,
            rows: f64::from(lap.rows),
            aluminium_rivet: lap
                .rivet
                .body
                .as_deref()
                .is_none_or(|body| !OTHER_METALS.iter().any(|m| body.contains(m))),
            choices: lap.choices,
        }
    }

    /// The smaller product of strength and thickness, N/mm: the sheet that gives way first.
    fn weaker_n_mm(&self) -> f64 {
        smaller(self.outer_fu_mpa * self.outer_mm, self.inner_fu_mpa * self.inner_mm)
    }

    /// Thinner and thicker sheet, mm.
    fn by_thickness_mm(&self) -> (f64, f64) {
        (self.outer_mm.min(self.inner_mm), self.outer_mm.max(self.inner_mm))
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

/// What became of a lap's numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Outcome {
    /// Highest demand over capacity among the strengths; not a number where a limit is broken or a value unknown.
    utilisation: f64,
    /// Index into [`Method::names`] of the check that decides.
    governing: u8,
    /// Index into [`bulk::VERDICTS`].
    verdict: u8,
}

impl<const S: usize, const C: usize, const L: usize> Rules<S, C, L> {
    /// The verdict over all comparisons of a cell, as `Report` gives it for a single lap.
    ///
    /// Sizes and loads that no single lap accepts leave the cell not assessed, by the last name, `"input"`.
    #[inline(always)]
    fn outcome(&self, n: &Numbers) -> Outcome {
        let (mut most, mut used, mut unknown) = (0.0_f64, 0_u8, u8::MAX);
        for (i, &(demand, capacity)) in self.strengths.iter().enumerate() {
            let ratio = demand / capacity;
            // Not a number is neither above nor below.
            used = if ratio > most { i as u8 } else { used };
            most = if ratio > most { ratio } else { most };
            unknown = if ratio.is_nan() { unknown.min(i as u8) } else { unknown };
        }
        let (mut worst, mut unmet) = (FULL, u8::MAX);
        for (i, &(demand, capacity)) in self.conditions.iter().enumerate() {
            let ratio = demand / capacity;
            unmet = if ratio > worst { (S + i) as u8 } else { unmet };
            worst = if ratio > worst { ratio } else { worst };
            unknown = if ratio.is_nan() { unknown.min((S + i) as u8) } else { unknown };
        }
        let (mut beyond, mut passed) = (FULL, u8::MAX);
        for (i, &(demand, capacity)) in self.limits.iter().enumerate() {
            let ratio = demand / capacity;
            passed = if ratio > beyond { (S + C + i) as u8 } else { passed };
            beyond = if ratio > beyond { ratio } else { beyond };
            unknown = if ratio.is_nan() { unknown.min((S + C + i) as u8) } else { unknown };
        }
        let none = u8::MAX;
        let (verdict, governing) = if !n.possible() {
            (1, (S + C + L) as u8)
        } else if passed != none {
            (2, passed)
        } else if most > FULL {
            (3, used)
        } else if unmet != none {
            (1, unmet)
        } else if unknown != none {
            (1, unknown)
        } else {
            (0, used)
        };
        let counts = n.possible() && passed == none && unknown == none;
        Outcome { utilisation: if counts { most } else { f64::NAN }, governing, verdict }
    }
}

/// Where a rule set has nothing on a rivet's own shear and tension together.
const OWN: &str = "judgement: the plain sum";

/// The words of a rivet's own shear and tension together.
fn own_combination(check: Check) -> Check {
    let standing = check.standing.with(Standing::Assumed);
    Check { standing, ..check }.by("V / F_v + T / F_t ≤ 1, the rivet's own strengths above", [])
}

/// A rivet's own shear strength against 1.2 times the sheet's where several lines share the load: only rivets stronger than
/// their sheets let the lines even out. EN 1993-1-3:2006, table 8.1, asks it of every line (from memory); the other rule
/// sets say nothing of it, so there it is a judgement.
fn lines_share(n: &Numbers, sheet_n: f64, rivet_n: f64) -> (f64, f64) {
    (if n.rows > 1.0 { 1.2 * sheet_n } else { 0.0 }, rivet_n)
}

/// The check of [`lines_share`]; none for a single line.
fn lines_share_check(n: &Numbers, sides: (f64, f64), level: Level, standing: Standing) -> Option<Check> {
    let sides = (Some(sides.0), Some(sides.1), "N");
    let check = Check::compare("ductility in shear", "judgement", sides, level, standing.with(Standing::Assumed))
        .by("1.2 × sheet ≤ rivet shear, where several lines share the load", []);
    let reason = "the rivet would shear before the sheet yields round its hole: lines do not share equally; take one \
                  line, a stronger rivet, or test the lap";
    (n.rows > 1.0)
        .then(|| if check.verdict == Verdict::Fails { check.demoted(Verdict::NotAssessed, reason) } else { check })
}

/// The limits of a rule set as checks: name, clause, formula, unit, and whether the bound is a least or a greatest value.
fn limit_checks<const L: usize>(
    words: [(&'static str, &'static str, &'static str, &'static str, Side); L],
    limits: [(f64, f64); L],
    terms: &[Term],
    standing: Standing,
) -> Vec<Check> {
    let both = words.into_iter().zip(limits);
    both.map(|((name, clause, formula, unit, side), (asked, has))| {
        let sides = (Some(asked), Some(has), unit);
        let check = Check::compare(name, clause, sides, Level::Stated, standing).as_range().by(formula, terms);
        with_remedy(check, side)
    })
    .collect()
}

/// A limit without the leeway for rounding that it was compared with.
fn without_leeway(mut check: Check) -> Check {
    let rounded = |value: f64| (value * 1e6).round() / 1e6;
    check.demand = check.demand.map(rounded);
    check.capacity = check.capacity.map(rounded);
    check
}

/// A broken limit says what would keep it.
fn with_remedy(check: Check, side: Side) -> Check {
    let check = without_leeway(check);
    let (word, bound) = match side {
        Side::Least => ("least", check.demand),
        Side::Most => ("most", check.capacity),
    };
    match bound.filter(|_| check.verdict == Verdict::OutsideRange) {
        Some(bound) => {
            let unit = check.unit;
            let bound = significant(bound);
            let drill = if check.name == "hole" { "a drill of " } else { "" };
            let reason = format!("needs {drill}at {word} {bound} {unit}, or a test of the lap").replace(" ,", ",");
            check.because(reason)
        }
        None => check,
    }
}

/// The smaller of two, or not a number where either is unknown: [`f64::min`] would pass over it.
fn smaller(a: f64, b: f64) -> f64 {
    if a <= b { a } else { b + a * 0.0 }
}

/// The larger of two, neither unknown alone.
fn larger(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
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
    pub method: &'static str,
    /// The level of its strengths, and so of the loads they are compared with.
    pub level: Level,
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

    /// Every check as a hand calculation, in plain text.
    pub fn explain(&self) -> String {
        self.explain_as(Form::Text)
    }

    /// Every check as a hand calculation: formula in the rule's symbols, numbers with units, result, clause, standing.
    pub fn explain_as(&self, form: Form) -> String {
        write_all(self.checks.iter().map(Check::calculation), form)
    }
}
