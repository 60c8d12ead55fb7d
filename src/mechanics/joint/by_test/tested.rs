//! A lap checked by the load that like coupons failed at: what lies outside the tables becomes an answer.

use super::{TestLevel, TestResult};
use crate::check::{Check, Level, Standing, term};
use crate::error::Problem;
use crate::mechanics::joint::{BlindRivet, Demand, Format, Lap, ROUNDING, Report, bounded};
use crate::mechanics::sheet::Sheet;

/// A tested resistance, ready to be compared with loads, and the lap that it was tested on.
#[derive(Debug, Clone, PartialEq)]
pub struct Tested {
    coupon: Lap,
    result: TestResult,
    resistance_n: f64,
    level: Level,
}

/// A hole this much wider than the tested one is still the same drill, mm (judgement).
const SAME_DRILL_MM: f64 = 0.05;

/// What repeated wind leaves of a pull-through strength that was tested once: half, as in EN 1993-1-3:2006, Table 8.2 (read,
/// for screws), by analogy.
const REPEATED: f64 = 0.5;

impl Tested {
    /// The resistance of one rivet in a lap as ordered for the coupons: its pitch is the coupon's width for each rivet.
    ///
    /// A nominal value (AISI S100) is set against loads of `format`; a design value (EN 1990) against design loads.
    ///
    /// # Errors
    /// A characteristic value, which takes its partial factor first ([`TestResult::design`]); a format that is not that of
    /// the value.
    pub fn new(coupon: Lap, result: TestResult, format: Format) -> Result<Self, Vec<Problem>> {
        if (format, result.level) == (Format::Factored, TestLevel::Design) {
            let problem = "a design value has its factor in it already; leave the format out";
            return Err(vec![Problem::contradiction("format", format.name(), problem)]);
        }
        let (resistance_n, level) = match (result.level, format) {
            (TestLevel::Nominal { .. }, Format::Allowable) => (result.allowable_n(), Level::Allowable),
            (TestLevel::Nominal { .. }, Format::Factored) => (result.factored_n(), Level::Factored),
            (TestLevel::Characteristic | TestLevel::Design, _) => (result.design_n(), Level::Design),
        };
        let resistance_n = resistance_n.map_err(|p| vec![p])?;
        coupon.validate()?;
        Ok(Self { coupon, result, resistance_n, level })
    }

    /// What one rivet of the lap carries, N, at [`level`](Self::level).
    pub fn resistance_n(&self) -> f64 {
        self.resistance_n
    }

    /// Which loads the resistance is compared with.
    pub fn level(&self) -> Level {
        self.level
    }

    /// The tests behind it.
    pub fn result(&self) -> &TestResult {
        &self.result
    }

    fn check(&self, name: &'static str, (asked_n, has_n): (f64, f64), standing: Standing) -> Check {
        let terms = [
            term("n", self.result.n as f64, ""),
            term("R", self.result.value_n, "N"),
            term("share", has_n / self.resistance_n, ""),
        ];
        let formula = match self.level {
            Level::Allowable => "share · R_n / Ω of like coupons",
            Level::Factored => "share · φ R_n of like coupons",
            _ => "share · R_d of like coupons",
        };
        let sides = (Some(asked_n), Some(has_n), "N");
        let check = Check::compare(name, self.result.method, sides, self.level, standing).by(formula, terms);
        // What a reviewer of the tests was told holds for what is made of them.
        check.because(self.result.notes.join("; "))
    }

    /// The resistance to a pull on the lap, N: under repeated wind half of what a pull once showed.
    fn pulled_n(&self, lap: &Lap) -> f64 {
        self.resistance_n * if lap.choices.steady_tension { 1.0 } else { REPEATED }
    }

    /// The ways in which a lap may not fall short of the one that was tested (judgement).
    fn likeness(&self, lap: &Lap, standing: Standing) -> Vec<Check> {
        let (of, made) = (&self.coupon, lap);
        let at_least = |name: &'static str, tested: Option<f64>, has: Option<f64>, unit| {
            let sides = (tested, has.map(|v| v + ROUNDING), unit);
            Check::compare(name, "likeness to the coupons", sides, Level::Stated, standing)
                .as_range()
                .by("no less than on the coupons", [])
        };
        let same = |name: &'static str, alike: bool| {
            let differ = if alike { 0.0 } else { 1.0 };
            let sides = (Some(differ), Some(0.0), "");
            Check::compare(name, "likeness to the coupons", sides, Level::Stated, standing)
                .as_range()
                .by("the same as on the coupons", [])
        };
        let hole = (Some(made.rivet.hole_mm), Some(of.rivet.hole_mm + SAME_DRILL_MM + ROUNDING), "mm");
        let (was, is) = (&of.rivet, &made.rivet);
        // Head and hole are compared by size, and how its numbers are known changes no rivet.
        let alike = BlindRivet { hole_mm: was.hole_mm, head_mm: was.head_mm, standing: was.standing, ..is.clone() };
        let mut checks = vec![
            same("rivet", alike == *was),
            // The coupons hold for an edge only where they were pulled at one.
            same("panel edge", of.choices.panel_edge || !made.choices.panel_edge),
            Check::compare("hole", "likeness to the coupons", hole, Level::Stated, standing)
                .as_range()
                .by("no wider than on the coupons, to 0.05 mm", []),
            at_least("edge distance", Some(of.edge_mm), Some(made.edge_mm), "mm"),
            at_least("pitch", Some(of.pitch_mm), Some(made.pitch_mm), "mm"),
            same("number of sheets", of.middle.is_some() == made.middle.is_some()),
            same("number of lines", of.rows == made.rows),
        ];
        checks.extend(was.head_mm.map(|mm| at_least("head", Some(mm), is.head_mm, "mm")));
        checks.extend(of.row_spacing_mm.map(|mm| at_least("distance of lines", Some(mm), made.row_spacing_mm, "mm")));
        let pairs = [
            (["thickness, outer", "strength, outer", "metal, outer"], Some((&of.outer, &made.outer))),
            (["thickness, middle", "strength, middle", "metal, middle"], of.middle.as_ref().zip(made.middle.as_ref())),
            (["thickness, inner", "strength, inner", "metal, inner"], Some((&of.inner, &made.inner))),
        ];
        for ([thickness, strength, metal], pair) in pairs {
            let Some((of, made)): Option<(&Sheet, &Sheet)> = pair else { continue };
            checks.push(at_least(thickness, Some(of.design_mm), Some(made.design_mm), "mm"));
            checks.push(same(metal, of.material == made.material));
            // Sheet without a guaranteed strength was tested as bought, and is bought again by the same name.
            checks.push(match of.fu_mpa {
                Some(mpa) => at_least(strength, Some(mpa), made.fu_mpa, "MPa"),
                None => same(strength, of.label == made.label),
            });
        }
        checks
    }
}

impl Lap {
    /// Checks the lap by tests of like laps: in shear, and in tension where it is pulled.
    ///
    /// Both together by the linear form of EN 1993-1-3:2006, 8.3(8) (from memory). A lap that falls short of the coupons
    /// in any size, or that is of other parts, is outside the tests' range. Heads are taken to be pulled once in a test:
    /// unless the lap's tension is steady, half of that counts (EN 1993-1-3:2006, Table 8.2, by analogy).
    ///
    /// # Errors
    /// As [`check`](Self::check); tests at different levels.
    ///
    /// # Example
    /// ```
    /// use raisedbody::catalogue::Catalogue;
    /// use raisedbody::check::Verdict;
    /// use raisedbody::mechanics::joint::by_test::{Distribution, Scatter, TestSeries, Tested};
    /// use raisedbody::mechanics::joint::{BlindRivet, Demand, Format, Lap, Method, RivetOrder};
    /// use raisedbody::mechanics::sheet::{Sheet, SheetOrder};
    /// # fn main() -> Result<(), Vec<raisedbody::error::Problem>> {
    /// let catalogue = Catalogue::standard().map_err(|_| Vec::new())?;
    /// let order = SheetOrder { thickness_mm: Some(1.2), fu_mpa: Some(360.0), ..SheetOrder::default() };
    /// let sheet = Sheet::new(&order, &catalogue, "")?;
    /// // A 1/4 in rivet in a 17/64 in hole: outside the tables, so five coupons were pulled (loads invented).
    /// let order = RivetOrder { diameter_mm: 6.35, hole_mm: Some(6.75), ..RivetOrder::default() };
    /// let lap = Lap::new(sheet.clone(), sheet, BlindRivet::new(&order, &catalogue, "")?, 50.0, 13.0)?;
    /// let demand = Demand { shear_n: 900.0, tension_n: 0.0 };
    /// assert_eq!(lap.check(demand, Method::En1993_1_3)?.verdict(), Verdict::OutsideRange);
    /// let series = TestSeries::of_loads(&[3620.0, 3780.0, 3550.0, 3910.0, 3690.0])?;
    /// let design = series.characteristic(Distribution::LogNormal, Scatter::Unknown)?.design(1.0, 1.25)?;
    /// let tested = Tested::new(lap.clone(), design, Format::Allowable)?;
    /// assert_eq!(lap.check_by_test(demand, &tested, None)?.verdict(), Verdict::Passes);
    /// # Ok(())
    /// # }
    /// ```
    pub fn check_by_test(
        &self,
        demand: Demand,
        shear: &Tested,
        tension: Option<&Tested>,
    ) -> Result<Report, Vec<Problem>> {
        self.validate()?;
        demand.validate()?;
        if let Some(other) = tension.filter(|t| t.level != shear.level) {
            let problem =
                format!("the tests in shear are at the {} level; levels are never mixed", shear.level.words());
            return Err(vec![Problem::contradiction("tested_in_tension", other.level.words(), problem)]);
        }
        let standing = self.parts_standing().with(shear.result.standing);
        let sides = (demand.shear_n, shear.resistance_n);
        let mut strengths = vec![shear.check("tested lap, shear", sides, standing)];
        let mut limits = shear.likeness(self, standing);
        match tension {
            Some(tension) => {
                let standing = standing.with(tension.result.standing).with(Standing::Memory);
                let pulled_n = tension.pulled_n(self);
                strengths.push(tension.check("tested lap, tension", (demand.tension_n, pulled_n), standing));
                let both = demand.shear_n / shear.resistance_n + demand.tension_n / pulled_n;
                let clause = "after EN 1993-1-3:2006 8.3(8)";
                strengths.push(
                    Check::compare("shear and tension", clause, (Some(both), Some(1.0), ""), shear.level, standing)
                        .by("V / R_v + T / R_t ≤ 1", []),
                );
                if tension.coupon != shear.coupon {
                    limits.extend(tension.likeness(self, standing).into_iter().map(|c| c.at("tests in tension")));
                }
            }
            None if demand.tension_n > 0.0 => {
                let sides = (Some(demand.tension_n), None, "N");
                let check = Check::compare("tested lap, tension", "by test", sides, shear.level, standing);
                strengths.push(check.because("pull heads through like coupons as well, and give those tests"));
            }
            None => {}
        }
        Ok(Report { method: "tested lap", level: shear.level, checks: bounded(strengths, limits) })
    }

    /// Weakest standing of the lap's own numbers.
    fn parts_standing(&self) -> Standing {
        let sheets = [Some(&self.outer), self.middle.as_ref(), Some(&self.inner)];
        sheets.into_iter().flatten().fold(self.rivet.standing, |standing, sheet| standing.with(sheet.standing))
    }
}
