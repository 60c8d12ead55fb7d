//! A joint against the sheet it joins: its efficiency, and how it stands to the joint rule for school buses.
//!
//! 49 CFR 571.221 asks that a body panel joint of a school bus hold 60 % of the tensile strength of the weakest panel it
//! joins. A converted bus is no longer sold as a school bus, so here the rule is a **benchmark, not a duty**: what it
//! would ask stands beside what the joint gives and what the factory's seam gave, and an unmet benchmark is never a
//! failure. All strengths are un-factored: least or characteristic values, no safety factor. Nor is one said to be
//! reached where the bearing rule does not cover the seam ([`Seam::beyond`]); a tested lap does ([`Bearing::Tested`]).

use std::str::FromStr;

use crate::calculation::{Form, write_all};
use crate::check::{Check, Level, Standing, Verdict, term, worst};
use crate::error::{Problem, by_name};

use super::super::sheet::{Sheet, in_range};
use super::aisi_s100::{LowerAnchor, tilting_and_bearing_n};
use super::en_1993_1_3::{GAMMA_M2, alpha, bearing_n};
use super::{
    Choices, DIAMETER_MM, EDGE_MM, Format, HOLE, MOST_ROWS, Method, Numbers, PITCH_MM, RIVET_LOAD_N, ROUNDING, Rules,
    STRENGTH_MPA, WALL_MM, aisi_s100, en_1993_1_3,
};

/// Length of the segment that is tested, mm: 8 in, rounded in the regulation. 49 CFR 571.221, S6.1.
pub const SEGMENT_MM: f64 = 203.0;

/// Share of the panel's strength that its joint has to hold. 49 CFR 571.221, S5.1.
pub const SHARE: f64 = 0.6;

/// A panel at the least thickness of its gauge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Panel {
    /// Least thickness that the material's standard allows for the ordered gauge, mm.
    pub least_mm: f64,
    /// The same without its coating, mm: what holds a rivet.
    pub metal_mm: f64,
    /// Tensile strength, MPa: the standard's minimum, else from a coupon.
    pub fu_mpa: f64,
    /// Carbon steel, coated or not: the only metal that the bearing rules cover.
    pub carbon_steel: bool,
    /// How these are known.
    pub standing: Standing,
}

impl Panel {
    /// A panel of a sheet: the thickness as measured, or the least of the ordered gauge, coating included either way.
    ///
    /// # Errors
    /// A gauge without a published tolerance; no tensile strength, guaranteed or given.
    pub fn of(sheet: &Sheet, path: &str) -> Result<Self, Vec<Problem>> {
        match (sheet.least_mm, sheet.fu_mpa) {
            (Some(least_mm), Some(fu_mpa)) => Ok(Self {
                least_mm,
                metal_mm: sheet.least_base_mm,
                fu_mpa,
                carbon_steel: sheet.material == "carbon steel",
                standing: sheet.standing.with(Standing::Given),
            }),
            (least_mm, fu_mpa) => {
                let thickness = "no tolerance is published for this gauge; give the measured thickness in its place";
                let fu = "the grade guarantees no tensile strength; give fu from a certificate or coupon";
                let known = [("thickness", least_mm, thickness), ("fu", fu_mpa, fu)];
                let missing = known.into_iter().filter(|(_, value, _)| value.is_none());
                Err(missing.map(|(name, _, fix)| Problem::missing(format!("{path}.{name}"), fix)).collect())
            }
        }
    }

    /// Strength per width, N/mm.
    fn line_n_mm(&self) -> f64 {
        self.fu_mpa * self.least_mm
    }
}

/// By which rule the sheet's bearing round one rivet is worked out; un-factored.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Bearing {
    /// EN 1993-1-3:2006, table 8.1, characteristic.
    #[default]
    En1993_1_3,
    /// AISI S100-16, J4.3.1, nominal, by analogy; the lower anchor is that for equal parts.
    AisiS100,
    /// Characteristic load of one rivet in a like lap pulled to failure, N, say from
    /// [`characteristic_n`](super::by_test::TestResult::characteristic_n).
    Tested(f64),
}

impl Bearing {
    /// The name of the rule set; none for a tested lap.
    pub fn name(self) -> Option<&'static str> {
        match self {
            Self::En1993_1_3 => Some(Method::En1993_1_3.name()),
            Self::AisiS100 => Some(Method::AisiS100(Format::Allowable).name()),
            Self::Tested(_) => None,
        }
    }
}

impl FromStr for Bearing {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("bearing", "rule", text, &[Self::En1993_1_3, Self::AisiS100], |rule| rule.name().unwrap_or_default())
    }
}

/// A seam of two panels pulled square to its line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seam {
    /// The panel under the heads, and the one away from them.
    pub panels: [Panel; 2],
    /// Rivet, mm.
    pub diameter_mm: f64,
    /// Hole, mm.
    pub hole_mm: f64,
    /// Least shear load of one rivet, N.
    pub shear_n: f64,
    /// From rivet to rivet along the line, mm.
    pub pitch_mm: f64,
    /// From the line to the edge, mm.
    pub edge_mm: f64,
    /// Lines of rivets side by side, each at the same pitch.
    pub rows: u32,
    /// Bearing by which rule.
    pub bearing: Bearing,
    /// How the rivet's numbers are known.
    pub standing: Standing,
}

/// What limits one rivet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limits {
    /// The rivet shears.
    RivetShear,
    /// The sheet gives way round the rivet.
    Bearing,
    /// What failed in the tested lap.
    TestedLap,
}

impl Limits {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::RivetShear => "rivet shear",
            Self::Bearing => "bearing",
            Self::TestedLap => "tested lap",
        }
    }
}

/// A joint's strength in parts of the sheet's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Efficiency {
    /// Against the whole sheet.
    pub gross: f64,
    /// Against the sheet less its holes.
    pub net: f64,
    /// The pitch at which rivets and net sheet are equally strong, mm: no pitch gives a higher gross efficiency.
    pub balanced_mm: f64,
}

/// The seam beside the school-bus rule, on one segment of 203 mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Benchmark {
    /// Rivets that every segment has, in each line: the least number a randomly placed one can have.
    pub rivets_per_row: u32,
    /// What the rule would ask, holes subtracted, N.
    pub demand_n: f64,
    /// What it would ask without subtracting them, N.
    pub gross_demand_n: f64,
    /// One rivet, N.
    pub per_rivet_n: f64,
    /// What limits it.
    pub limits: Limits,
    /// The bearing rule's limits that the seam breaks: where there are any, the rivets' numbers are extrapolated, and no
    /// check counts them.
    pub beyond: Vec<&'static str>,
    /// All rivets of the segment, N.
    pub rivets_n: f64,
    /// The weaker panel along one line of holes, N.
    pub net_section_n: f64,
    /// Largest pitch that reaches the benchmark with these lines, mm; none where not even the least pitch of 3 d does.
    pub pitch_needed_mm: Option<f64>,
    /// Lines that reach it at this pitch; none where more than 10 would be needed or a segment may hold no rivet at all.
    pub rows_needed: Option<u32>,
    /// The comparisons: joint strength with and without the holes subtracted, net section, unattached segment.
    pub checks: Vec<Check>,
}

impl Benchmark {
    /// What the joint holds on the segment, N; none beyond the bearing rule's limits.
    pub fn capacity_n(&self) -> Option<f64> {
        self.beyond.is_empty().then(|| self.rivets_n.min(self.net_section_n))
    }

    /// How much of the benchmark the joint reaches, holes subtracted: 1 is all of it; none beyond the bearing rule's limits.
    pub fn reached(&self) -> Option<f64> {
        self.capacity_n().map(|has_n| has_n / self.demand_n)
    }

    /// This joint's strength in parts of another's, say the factory seam's; none where either is not known, or the other
    /// may hold nothing at all.
    pub fn against(&self, factory: &Self) -> Option<f64> {
        let other_n = factory.capacity_n().filter(|&other_n| other_n > 0.0)?;
        self.capacity_n().map(|own_n| own_n / other_n)
    }

    /// The worst verdict among the checks; an unmet benchmark is not assessed, never failed.
    pub fn verdict(&self) -> Verdict {
        worst(&self.checks)
    }

    /// Every check as a hand calculation.
    pub fn explain_as(&self, form: Form) -> String {
        write_all(self.checks.iter().map(Check::calculation), form)
    }
}

impl Seam {
    /// Whether a seam can be so.
    ///
    /// # Errors
    /// A size, strength or load that no seam has.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let d = self.diameter_mm;
        let mut results = vec![
            in_range("diameter", Some(d), DIAMETER_MM, "mm"),
            in_range("hole", Some(self.hole_mm), (HOLE.0 * d, HOLE.1 * d), "mm"),
            in_range("shear", Some(self.shear_n), RIVET_LOAD_N, "N"),
            in_range("pitch", Some(self.pitch_mm), PITCH_MM, "mm"),
            in_range("edge", Some(self.edge_mm), EDGE_MM, "mm"),
            in_range("rows", Some(f64::from(self.rows)), (1.0, f64::from(MOST_ROWS)), ""),
        ];
        if let Bearing::Tested(n) = self.bearing {
            results.push(in_range("tested", Some(n), RIVET_LOAD_N, "N"));
        }
        for (i, panel) in self.panels.iter().enumerate() {
            results.push(in_range(&format!("panels[{i}].least"), Some(panel.least_mm), WALL_MM, "mm"));
            results.push(in_range(
                &format!("panels[{i}].metal"),
                Some(panel.metal_mm),
                (WALL_MM.0, panel.least_mm),
                "mm",
            ));
            results.push(in_range(&format!("panels[{i}].fu"), Some(panel.fu_mpa), STRENGTH_MPA, "MPa"));
        }
        // Nought, or a hair more, left between holes would leave nothing to compare with.
        if self.pitch_mm < self.hole_mm + 0.1 {
            results.push(Err(Problem::contradiction(
                "pitch",
                format!("{} mm", self.pitch_mm),
                format!("holes of {} mm run into each other; space them wider", self.hole_mm),
            )));
        }
        let problems: Vec<Problem> = results.into_iter().filter_map(Result::err).collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// Strength per width of the weaker panel, N/mm.
    fn line_n_mm(&self) -> f64 {
        self.panels[0].line_n_mm().min(self.panels[1].line_n_mm())
    }

    /// What one rivet holds, un-factored, N, and what limits it: min(F<sub>v</sub>, F<sub>b</sub>).
    pub fn per_rivet_n(&self) -> (f64, Limits) {
        let [head, far] = self.panels;
        let sheet_n = match self.bearing {
            Bearing::En1993_1_3 => {
                let fu_t = (head.fu_mpa * head.metal_mm).min(far.fu_mpa * far.metal_mm);
                let (t, t1) = (head.metal_mm.min(far.metal_mm), head.metal_mm.max(far.metal_mm));
                // The partial factor comes off again: the characteristic value is wanted.
                GAMMA_M2 * bearing_n(alpha(t, t1, self.diameter_mm), self.diameter_mm, self.edge_mm, fu_t)
            }
            Bearing::AisiS100 => tilting_and_bearing_n(
                head.metal_mm,
                far.metal_mm,
                self.diameter_mm,
                head.fu_mpa,
                far.fu_mpa,
                LowerAnchor::EqualParts,
            ),
            Bearing::Tested(n) => n,
        };
        let sheet = if matches!(self.bearing, Bearing::Tested(_)) { Limits::TestedLap } else { Limits::Bearing };
        if self.shear_n < sheet_n { (self.shear_n, Limits::RivetShear) } else { (sheet_n, sheet) }
    }

    /// The limits of the bearing rule that this seam breaks; none for a tested lap, which is its own rule.
    ///
    /// Those of [`Lap::check`](super::Lap::check): hole, diameter, end distance, pitch, thickness, strength, metal.
    pub fn beyond(&self) -> Vec<&'static str> {
        let [head, far] = self.panels;
        let numbers = Numbers {
            outer_mm: head.metal_mm,
            inner_mm: far.metal_mm,
            outer_fu_mpa: head.fu_mpa,
            inner_fu_mpa: far.fu_mpa,
            diameter_mm: self.diameter_mm,
            hole_mm: self.hole_mm,
            // No limit asks for the head or for a load.
            head_mm: f64::NAN,
            rivet_shear_n: self.shear_n,
            rivet_tension_n: f64::NAN,
            pitch_mm: self.pitch_mm,
            edge_mm: self.edge_mm,
            shear_n: 0.0,
            tension_n: 0.0,
            rows: f64::from(self.rows),
            aluminium_rivet: false,
            choices: Choices::default(),
        };
        let mut beyond = match self.bearing {
            Bearing::En1993_1_3 => broken(&en_1993_1_3::compare(&numbers), &en_1993_1_3::NAMES),
            Bearing::AisiS100 => broken(&aisi_s100::compare(&numbers, Format::Allowable), &aisi_s100::NAMES),
            Bearing::Tested(_) => return Vec::new(),
        };
        if !(head.carbon_steel && far.carbon_steel) {
            beyond.push("material");
        }
        beyond
    }

    /// The joint's strength in parts of the weaker panel's.
    ///
    /// Elementary mechanics, on the width of one pitch p with r rows: min(r P, f<sub>u</sub> t (p − d<sub>0</sub>)) over
    /// f<sub>u</sub> t p and over f<sub>u</sub> t (p − d<sub>0</sub>); balanced pitch d<sub>0</sub> + r P /
    /// (f<sub>u</sub> t). Rows share the load equally. Beyond the bearing rule's limits ([`beyond`](Self::beyond)) it is
    /// an extrapolation.
    ///
    /// # Errors
    /// A size, strength or load that no seam has.
    pub fn efficiency(&self) -> Result<Efficiency, Vec<Problem>> {
        self.validate()?;
        let line_n_mm = self.line_n_mm();
        let rivets_n = f64::from(self.rows) * self.per_rivet_n().0;
        let net_n = line_n_mm * (self.pitch_mm - self.hole_mm);
        let joint_n = rivets_n.min(net_n);
        Ok(Efficiency {
            gross: joint_n / (line_n_mm * self.pitch_mm),
            net: joint_n / net_n,
            balanced_mm: self.hole_mm + rivets_n / line_n_mm,
        })
    }

    /// The seam beside the joint rule for school buses.
    ///
    /// 49 CFR 571.221, S5.1 and S6: F<sub>req</sub> = 0.6 F<sub>u</sub> t<sub>min</sub> (203 − n d<sub>0</sub>), against
    /// n r min(F<sub>v</sub>, F<sub>b</sub>) and the net section F<sub>u</sub> t<sub>min</sub> (203 − n d<sub>0</sub>),
    /// n the least number of rivets that a segment of 203 mm has in one row, r the rows. Subtracting the holes (S6.2) is
    /// from memory, the least thickness from a letter of the agency (1976). In more than one row the bearing of inner
    /// rows keeps the edge distance of the outer one.
    ///
    /// # Errors
    /// A size, strength or load that no seam has.
    ///
    /// # Example
    /// ```
    /// use raisedbody::check::Standing;
    /// use raisedbody::mechanics::joint::efficiency::{Bearing, Panel, Seam};
    /// let panel = Panel { least_mm: 1.1, metal_mm: 1.1, fu_mpa: 310.0, carbon_steel: true, standing: Standing::Given };
    /// let seam = Seam {
    ///     panels: [panel, panel],
    ///     diameter_mm: 6.4,
    ///     hole_mm: 6.5,
    ///     shear_n: 3600.0,
    ///     pitch_mm: 50.0,
    ///     edge_mm: 16.0,
    ///     rows: 1,
    ///     bearing: Bearing::En1993_1_3,
    ///     standing: Standing::Memory,
    /// };
    /// let benchmark = seam.benchmark().unwrap();
    /// // 0.6 x 310 x 1.1 x (203 - 4 x 6.5) asked, four rivets limited by bearing at 3257 N given.
    /// assert_eq!(format!("{:.0} {:.0}", benchmark.demand_n, benchmark.rivets_n), "36214 13029");
    /// ```
    pub fn benchmark(&self) -> Result<Benchmark, Vec<Problem>> {
        self.validate()?;
        let (line_n_mm, d0, rows) = (self.line_n_mm(), self.hole_mm, f64::from(self.rows));
        let (per_rivet_n, limits) = self.per_rivet_n();
        let n = (SEGMENT_MM / self.pitch_mm + ROUNDING).floor();
        let net_section_n = line_n_mm * (SEGMENT_MM - n * d0);
        // The same order of factors, so that without holes the two are the same number.
        let (demand_n, gross_demand_n) = (SHARE * net_section_n, SHARE * (line_n_mm * SEGMENT_MM));
        let rivets_n = n * rows * per_rivet_n;

        // n rows P ≥ 0.6 Fu t (203 − n d0), solved for n; and for the rows at the n there is.
        let enough = (gross_demand_n / (rows * per_rivet_n + SHARE * line_n_mm * d0) - ROUNDING).ceil();
        let pitch_mm = SEGMENT_MM / enough;
        let rows_needed = (n > 0.0).then(|| (demand_n / (n * per_rivet_n) - ROUNDING).ceil().max(1.0) as u32);
        let rows_needed = rows_needed.filter(|&rows| rows <= MOST_ROWS);
        let mut benchmark = Benchmark {
            rivets_per_row: n as u32,
            demand_n,
            gross_demand_n,
            per_rivet_n,
            limits,
            beyond: self.beyond(),
            rivets_n,
            net_section_n,
            pitch_needed_mm: (pitch_mm + ROUNDING >= 3.0 * self.diameter_mm).then_some(pitch_mm),
            rows_needed,
            checks: Vec::new(),
        };
        benchmark.checks = self.checks(&benchmark);
        Ok(benchmark)
    }

    fn checks(&self, b: &Benchmark) -> Vec<Check> {
        let [head, far] = self.panels;
        let standing = head.standing.with(far.standing).with(self.standing).with(Standing::Memory);
        let terms = || {
            vec![
                term("F_u t_min", self.line_n_mm(), "N/mm"),
                term("n", f64::from(b.rivets_per_row), ""),
                term("rows", f64::from(self.rows), ""),
                term("d0", self.hole_mm, "mm"),
                term("min(F_v, F_b)", b.per_rivet_n, "N"),
            ]
        };
        let check = |name: &'static str, asked_n: f64, has_n: f64| {
            let sides = (Some(asked_n), Some(has_n), "N");
            Check::compare(name, "49 CFR 571.221 S5.1, benchmark", sides, Level::Stated, standing)
        };
        let net_formula = "0.6 F_u t_min (203 mm − n d0) ≤ n rows min(F_v, F_b), un-factored";
        let gross_formula = "0.6 F_u t_min · 203 mm ≤ n rows min(F_v, F_b), un-factored";
        let section_formula = "0.6 F_u t_min · 203 mm ≤ F_u t_min (203 mm − n d0)";
        let attached = Check::compare(
            "unattached segment",
            "49 CFR 571.221 S5.1.1, unsettled",
            (Some(self.pitch_mm), Some(SEGMENT_MM + ROUNDING), "mm"),
            Level::Stated,
            standing,
        )
        .by("pitch ≤ 203 mm", []);
        let strength = |name, asked_n, formula| {
            let check = check(name, asked_n, b.rivets_n).by(formula, terms());
            if b.beyond.is_empty() { self.beside(check, b) } else { withdrawn(check, &b.beyond) }
        };
        vec![
            strength("joint strength", b.demand_n, net_formula),
            strength("joint strength, holes kept", b.gross_demand_n, gross_formula),
            // Nothing of the bearing rule is in it.
            warned(
                check("joint net section", b.gross_demand_n, b.net_section_n).by(section_formula, terms()),
                "a benchmark for school buses, not a duty after conversion: too much metal is drilled away",
            ),
            warned(attached, "a limit on the unattached segment may have been withdrawn: a warning, not a failure"),
        ]
    }

    /// A benchmark that is not reached: how far the joint is and what it would take.
    fn beside(&self, check: Check, b: &Benchmark) -> Check {
        let reached = check.utilisation().map_or_else(
            || "no segment is sure to hold a rivet".to_owned(),
            |used| format!("the joint reaches {:.0} % of it", 100.0 / used),
        );
        let pitch = b.pitch_needed_mm.map_or_else(
            || format!("no pitch of 3 d = {:.1} mm or more reaches it", 3.0 * self.diameter_mm),
            |mm| format!("a pitch of {mm:.1} mm reaches it"),
        );
        let rows = b.rows_needed.map_or_else(String::new, |rows| format!(", or {rows} rows at this pitch"));
        warned(
            check,
            &format!(
                "a benchmark for school buses, not a duty after conversion: {reached}; holes subtracted, {pitch}{rows}"
            ),
        )
    }
}

/// The limits that are broken, by the names of a rule set's comparisons in their order.
fn broken<const S: usize, const C: usize, const L: usize>(
    rules: &Rules<S, C, L>,
    names: &[&'static str],
) -> Vec<&'static str> {
    let limits = names.iter().skip(S + C).zip(rules.limits);
    limits.filter(|(_, (asked, has))| asked > has).map(|(name, _)| *name).collect()
}

/// A strength that the bearing rule does not cover: its number is taken back and the limits named.
fn withdrawn(mut check: Check, beyond: &[&str]) -> Check {
    check.capacity = None;
    let reason = format!("beyond the bearing rule's limits: {}; keep them, or test the lap", beyond.join(", "));
    check.demoted(Verdict::OutsideRange, reason)
}

/// A benchmark is never failed.
fn warned(check: Check, reason: &str) -> Check {
    if check.verdict == Verdict::Fails { check.demoted(Verdict::NotAssessed, reason) } else { check }
}
