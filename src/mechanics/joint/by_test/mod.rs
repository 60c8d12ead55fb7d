//! Resistance from a shop's own coupons: the failure loads of like laps turned into a number that can be checked with.
//!
//! For what the tables leave "by test" (a rivet's shear, tension, pull-through) and for whole laps that lie outside
//! them. Three rule sets, each with its own kind of result, carried by [`TestResult::level`]:
//!
//! | rule | from | gives |
//! |---|---|---|
//! | EN 1990:2002, Annex D, D7.2 | [`TestSeries::characteristic`] | characteristic, then [`TestResult::design`] |
//! | EN 1990:2002, Annex D, D7.3 | [`TestSeries::design`] | design, no partial factor on top |
//! | EN 1993-1-3:2006, A.6 | [`TestSeries::characteristic_en_1993_1_3`] | characteristic |
//! | AISI S100-16, K2.1 | [`TestSeries::nominal_aisi_s100`] | nominal with its φ and Ω |
//!
//! A series is of *like* coupons: same sheets, rivet, hole, edge distance and one and the same way of failing; loads of
//! coupons that failed in different ways do not belong in one series. All clauses are cited from memory unless said.

mod aisi_s100;
mod en;
mod tested;

pub use aisi_s100::*;
pub use en::*;
pub use tested::Tested;

use crate::calculation::{Calculation, Form};
use crate::check::{Standing, Term, significant, term};
use crate::error::Problem;
use crate::mechanics::sheet::in_range;

/// One coupon pulled to failure.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Coupon {
    /// Failure load, N: per rivet or per lap, the same in the whole series.
    pub load_n: f64,
    /// Measured thickness, without coating, of the sheet that failed (the thinner one where neither did), mm.
    pub thickness_mm: Option<f64>,
    /// Measured strength of the same sheet, MPa: tensile strength for bearing, tear-out and net section.
    pub strength_mpa: Option<f64>,
    /// What the formula under test gives for this coupon's own measured sheet, hole and edge, N: pools families of
    /// unlike coupons. In place of thickness and strength, which are in it.
    pub predicted_n: Option<f64>,
}

/// What was ordered, and will be built with: the values the results are brought back to.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ordered {
    /// Nominal thickness without coating, mm.
    pub thickness_mm: Option<f64>,
    /// Guaranteed strength of the same kind as measured on the coupons, MPa.
    pub strength_mpa: Option<f64>,
    /// What the formula under test gives for the joint that will be built, N.
    pub predicted_n: Option<f64>,
}

/// Like coupons, their loads and sheets found possible.
#[derive(Debug, Clone, PartialEq)]
pub struct TestSeries {
    coupons: Vec<Coupon>,
    ordered: Ordered,
}

impl TestSeries {
    /// A series, once its numbers are found possible.
    ///
    /// A thickness or strength is measured on every coupon or on none; where it is measured, the ordered value is
    /// needed to bring the results back to it. The joint's prediction lies within those of the coupons.
    ///
    /// # Errors
    /// No coupon; a load, thickness or strength that is not a number or out of range; values measured on some coupons
    /// only, or without their ordered value; a joint predicted beyond the coupons.
    pub fn new(coupons: Vec<Coupon>, ordered: Ordered) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        if coupons.is_empty() {
            problems.push(Problem::missing("coupons", "write the failure load of each coupon"));
        }
        for (i, coupon) in coupons.iter().enumerate() {
            let load = in_range(&format!("coupons[{i}].load"), Some(coupon.load_n), (1.0, 1e7), "N");
            problems.extend(load.err());
        }
        let thickness = Measured { name: "thickness", unit: "mm", least: 0.1, most: 25.0 };
        let strength = Measured { name: "strength", unit: "MPa", least: 20.0, most: 2000.0 };
        problems.extend(thickness.problems(&coupons, |c| c.thickness_mm, ordered.thickness_mm));
        problems.extend(strength.problems(&coupons, |c| c.strength_mpa, ordered.strength_mpa));
        let predicted = Measured { name: "predicted", unit: "N", least: 1.0, most: 1e7 };
        problems.extend(predicted.problems(&coupons, |c| c.predicted_n, ordered.predicted_n));
        if coupons.iter().any(|c| c.predicted_n.is_some() && (c.thickness_mm.is_some() || c.strength_mpa.is_some())) {
            let problem = "the prediction holds the coupon's thickness and strength already; leave those out";
            problems.push(Problem::contradiction("coupons", "predicted loads beside measured sheets", problem));
        }
        if let (Some(joint_n), true) = (ordered.predicted_n, problems.is_empty()) {
            let of = || coupons.iter().filter_map(|c| c.predicted_n);
            let (least, most) = (of().fold(f64::INFINITY, f64::min), of().fold(0.0, f64::max));
            // Families prove the formula between them, not beyond.
            problems.extend(in_range("ordered.predicted", Some(joint_n), (least, most), "N").err());
        }
        if problems.is_empty() { Ok(Self { coupons, ordered }) } else { Err(problems) }
    }

    /// A series of loads in N, on coupons whose sheet was not measured.
    ///
    /// # Errors
    /// No load; a load that is not a number or not above nought.
    pub fn of_loads(loads_n: &[f64]) -> Result<Self, Vec<Problem>> {
        let coupons = loads_n.iter().map(|&load_n| Coupon { load_n, ..Coupon::default() }).collect();
        Self::new(coupons, Ordered::default())
    }

    /// The coupons.
    pub fn coupons(&self) -> &[Coupon] {
        &self.coupons
    }

    /// What will be built with.
    pub fn ordered(&self) -> &Ordered {
        &self.ordered
    }

    /// Each load divided by its own prediction and times that of the joint, N; none where nothing was predicted.
    ///
    /// EN 1993-1-3:2006, A.6.3.2: families of different sizes are pooled by their predictions (read in the source).
    fn pooled(&self) -> Option<Vec<f64>> {
        let joint_n = self.ordered.predicted_n?;
        self.coupons.iter().map(|c| c.predicted_n.map(|own_n| c.load_n / own_n * joint_n)).collect()
    }

    /// Measured over ordered, thickness and strength, of each coupon; none where it was not measured.
    fn ratios(&self) -> impl Iterator<Item = (&Coupon, Option<f64>, Option<f64>)> {
        let over = |measured: Option<f64>, ordered: Option<f64>| measured.zip(ordered).map(|(m, o)| m / o);
        self.coupons.iter().map(move |c| {
            (c, over(c.thickness_mm, self.ordered.thickness_mm), over(c.strength_mpa, self.ordered.strength_mpa))
        })
    }

    /// What to tell the reader of the correction to the ordered sheet.
    fn correction_note(&self, clause: &str, corrected_mean_n: f64) -> String {
        let measured = |name, is: bool| is.then_some(name);
        let first = self.coupons.first();
        let of: Vec<&str> = [
            measured("thickness", first.is_some_and(|c| c.thickness_mm.is_some())),
            measured("strength", first.is_some_and(|c| c.strength_mpa.is_some())),
        ]
        .into_iter()
        .flatten()
        .collect();
        if let Some(joint_n) = self.ordered.predicted_n {
            let factor = corrected_mean_n / joint_n;
            return format!("pooled by predictions (EN 1993-1-3 A.6.3.2): tests are {factor:.4} of them on average");
        }
        if of.is_empty() {
            return "not brought back to the ordered sheet: the coupons' thickness and strength were not measured"
                .to_owned();
        }
        let raw: f64 = self.coupons.iter().map(|c| c.load_n).sum::<f64>() / self.coupons.len() as f64;
        let factor = corrected_mean_n / raw;
        format!("brought back to the ordered {} by {clause}: mean load times {factor:.4}", of.join(" and "))
    }
}

/// A value measured on the coupons, and its bounds.
struct Measured {
    name: &'static str,
    unit: &'static str,
    least: f64,
    most: f64,
}

impl Measured {
    fn problems(
        &self,
        coupons: &[Coupon],
        value: impl Fn(&Coupon) -> Option<f64>,
        ordered: Option<f64>,
    ) -> Vec<Problem> {
        let name = self.name;
        let ordered_path = format!("ordered.{name}");
        let bounds = |path: &str, v| in_range(path, v, (self.least, self.most), self.unit).err();
        let mut problems: Vec<Problem> = bounds(&ordered_path, ordered).into_iter().collect();
        let measured = coupons.iter().filter(|c| value(c).is_some()).count();
        for (i, coupon) in coupons.iter().enumerate() {
            let path = format!("coupons[{i}].{name}");
            problems.extend(bounds(&path, value(coupon)));
            if measured > 0 && value(coupon).is_none() {
                problems.push(Problem::missing(path, format!("measure the {name} of every coupon, or give none")));
            }
        }
        if measured > 0 && ordered.is_none() {
            problems.push(Problem::missing(ordered_path, format!("write the {name} of the joint as it will be built")));
        }
        problems
    }
}

/// What kind of number a tested resistance is; the levels are not compared with each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TestLevel {
    /// The 5 % fractile: takes a partial factor before it is compared with factored loads.
    Characteristic,
    /// Ready for comparison with factored loads of EN 1990.
    Design,
    /// Mean of the tests: takes φ against factored loads, or Ω against service loads, of AISI S100.
    Nominal {
        /// Resistance factor.
        phi: f64,
        /// Safety factor.
        omega: f64,
    },
}

impl TestLevel {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Characteristic => "characteristic",
            Self::Design => "design",
            Self::Nominal { .. } => "nominal",
        }
    }
}

/// A resistance from tests, with all that went into it.
#[derive(Debug, Clone, PartialEq)]
pub struct TestResult {
    /// The resistance, N, at [`level`](Self::level).
    pub value_n: f64,
    /// What kind of number it is.
    pub level: TestLevel,
    /// Rule set and clause.
    pub method: &'static str,
    /// Number of coupons.
    pub n: usize,
    /// Mean of the loads, brought back to the ordered sheet where it was measured, N.
    pub mean_n: f64,
    /// Coefficient of variation put into the formula; none where the rule uses none.
    pub variation: Option<f64>,
    /// The formula, in the rule's symbols.
    pub formula: &'static str,
    /// The numbers put into it.
    pub terms: Vec<Term>,
    /// What a reviewer should know besides.
    pub notes: Vec<String>,
    /// How the weakest part of it is known.
    pub standing: Standing,
}

impl TestResult {
    /// From characteristic to design: `Rd = etad Rk / gM`, EN 1990:2002, D7.2.
    ///
    /// `eta_d` converts from the test to the structure (duration, moisture, size): 1.0 where the coupon is the joint.
    ///
    /// # Errors
    /// A result that is not characteristic; `eta_d` outside 0.1 to 1, `gamma_m` outside 1 to 3.
    pub fn design(&self, eta_d: f64, gamma_m: f64) -> Result<Self, Vec<Problem>> {
        let mut problems: Vec<Problem> = in_range("gamma_m", Some(gamma_m), (1.0, 3.0), "").err().into_iter().collect();
        problems.extend(conversion(eta_d).err());
        if self.level != TestLevel::Characteristic {
            problems.push(self.wrong_level("only a characteristic value takes a partial factor"));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let mut terms = vec![term("η_d", eta_d, ""), term("γ_M", gamma_m, ""), term("R_k", self.value_n, "N")];
        // The numbers behind Rk stay in the hand calculation.
        terms.extend(self.terms.iter().copied());
        let mut notes = vec![format!("{} by {}", self.formula, self.method)];
        notes.extend(self.notes.iter().cloned());
        Ok(Self {
            value_n: eta_d * self.value_n / gamma_m,
            level: TestLevel::Design,
            method: "EN 1990:2002 D7.2",
            formula: "R_d = η_d R_k / γ_M",
            terms,
            notes,
            ..self.clone()
        })
    }

    /// The characteristic value, N, where a rule divides it by its own partial factor.
    ///
    /// # Errors
    /// A result that is not at characteristic level.
    pub fn characteristic_n(&self) -> Result<f64, Problem> {
        match self.level {
            TestLevel::Characteristic => Ok(self.value_n),
            _ => Err(self.wrong_level("not a characteristic value; work it out by EN 1990 D7.2 or EN 1993-1-3 A.6")),
        }
    }

    /// The value, N, to compare with loads factored by EN 1990.
    ///
    /// # Errors
    /// A result that is not at design level.
    pub fn design_n(&self) -> Result<f64, Problem> {
        match self.level {
            TestLevel::Design => Ok(self.value_n),
            _ => {
                Err(self.wrong_level("not a design value; a characteristic one is divided by its partial factor first"))
            }
        }
    }

    /// `Rn / Omega`, N, to compare with service loads, AISI S100-16, K2.1.
    ///
    /// # Errors
    /// A result that is not nominal.
    pub fn allowable_n(&self) -> Result<f64, Problem> {
        match self.level {
            TestLevel::Nominal { omega, .. } => Ok(self.value_n / omega),
            _ => Err(self.wrong_level("only a nominal value has a safety factor; work it out by AISI S100")),
        }
    }

    /// `phi Rn`, N, to compare with loads factored for AISI S100 (LRFD), K2.1.
    ///
    /// # Errors
    /// A result that is not nominal.
    pub fn factored_n(&self) -> Result<f64, Problem> {
        match self.level {
            TestLevel::Nominal { phi, .. } => Ok(phi * self.value_n),
            _ => Err(self.wrong_level("only a nominal value has a resistance factor; work it out by AISI S100")),
        }
    }

    /// The result as a hand calculation: formula, numbers, value and level, notes, standing.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::joint::by_test::TestSeries;
    /// # fn main() -> Result<(), Vec<raisedbody::error::Problem>> {
    /// let text = TestSeries::of_loads(&[4000.0])?.characteristic_en_1993_1_3(0.7)?.explain();
    /// assert!(text.contains("R_k = 0.9 η_k R_adj") && text.contains("2520 N, characteristic"));
    /// # Ok(())
    /// # }
    /// ```
    pub fn explain(&self) -> String {
        self.calculation().write(Form::Text)
    }

    /// The result as a hand calculation, to be written as text, HTML or LaTeX.
    pub fn calculation(&self) -> Calculation<'_> {
        let mut results = vec![format!("{} N, {}", significant(self.value_n), self.level.words())];
        results.extend(self.notes.iter().cloned());
        Calculation {
            title: "resistance by test".to_owned(),
            clause: self.method,
            formula: self.formula,
            terms: &self.terms,
            results,
            standing: self.standing,
        }
    }

    fn wrong_level(&self, problem: &str) -> Problem {
        Problem::contradiction("level", format!("{} value by {}", self.level.words(), self.method), problem)
    }
}

/// Mean and deviation of the loads and of their logarithms; deviations divide by `n - 1` and need two results.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Statistics {
    /// Number of results.
    pub n: usize,
    /// Mean, N.
    pub mean_n: f64,
    /// Standard deviation, N.
    pub deviation_n: Option<f64>,
    /// Mean of the natural logarithms of the loads in N.
    pub log_mean: f64,
    /// Standard deviation of these logarithms.
    pub log_deviation: Option<f64>,
}

impl Statistics {
    /// Of loads above nought, N.
    pub fn of(loads_n: &[f64]) -> Self {
        let logs: Vec<f64> = loads_n.iter().map(|load| load.ln()).collect();
        let (mean_n, deviation_n) = mean_and_deviation(loads_n);
        let (log_mean, log_deviation) = mean_and_deviation(&logs);
        Self { n: loads_n.len(), mean_n, deviation_n, log_mean, log_deviation }
    }

    /// Coefficient of variation: deviation over mean.
    pub fn variation(&self) -> Option<f64> {
        self.deviation_n.map(|s| s / self.mean_n)
    }
}

fn mean_and_deviation(values: &[f64]) -> (f64, Option<f64>) {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
    (mean, (values.len() > 1).then(|| (squares / (n - 1.0)).sqrt()))
}

/// Whether a load lies farther from the mean than this share of it; a load right at the limit does not, rounding aside.
fn strays(load_n: f64, mean_n: f64, share: f64) -> bool {
    (load_n - mean_n).abs() > (share + 1e-9) * mean_n
}

fn conversion(eta_d: f64) -> Result<(), Problem> {
    in_range("eta_d", Some(eta_d), (0.1, 1.0), "")
}

fn too_few(n: usize, needed: &str) -> Vec<Problem> {
    let results = if n == 1 { "1 result".to_owned() } else { format!("{n} results") };
    vec![Problem::out_of_range("coupons", results, format!("{needed}; pull more coupons"))]
}
