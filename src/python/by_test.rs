//! Resistance by test: `Coupons`, `TestResult` and `Tested`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::calculation::Form;
use crate::error::Problem;
use crate::mechanics::joint::Format;
use crate::mechanics::joint::by_test::{self as core, ConnectionKind, Distribution, Scatter, TestLevel};
use crate::quantity::Kind;

use super::input::{Arguments, Quantity, Real, Several, real};
use super::joint::{call_with, given, rebuilt};
use super::lap::Lap;
use super::output::{Dict, Many, Recipe};

/// Like coupons pulled to failure: same sheets, rivet, hole, edge distance, and one and the same way of failing. Cannot be
/// changed.
///
/// Args:
///     loads: Failure load of each, for one rivet, such as ``["3620 N", "3780 N"]``.
///     thicknesses: Measured thickness without coating of the sheet that failed, of every coupon or of none.
///     strengths: Measured tensile strength of the same sheet, of every coupon or of none.
///     predicted: What the formula under test gives for each coupon's own measured sizes: pools families of unlike
///         coupons (EN 1993-1-3 A.6.3.2), in place of thicknesses and strengths.
///     ordered_thickness: Nominal thickness without coating that will be built with; needed with `thicknesses`.
///     ordered_strength: Guaranteed tensile strength that will be built with; needed with `strengths`.
///     ordered_predicted: What the formula gives for the joint that will be built; needed with `predicted`.
///
/// Raises:
///     InputError: No load; lists of different lengths; a value out of range or without its ordered one.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> coupons = rb.Coupons(["3620 N", "3780 N", "3550 N", "3910 N", "3690 N"])  # invented loads
///     >>> design = coupons.characteristic("log-normal").design(gamma_m=1.25)
///     >>> round(design.value_n, 1), design.level
///     (2351.1, 'design')
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Coupons(core::TestSeries);

impl Coupons {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let each = |kind: Kind, value: fn(&core::Coupon) -> Option<f64>| -> Option<Vec<String>> {
            self.0.coupons().iter().map(|coupon| value(coupon).map(|v| kind.print(v))).collect()
        };
        let o = self.0.ordered();
        Ok(given!(
            py,
            "loads" = each(Kind::Force, |c| Some(c.load_n)),
            "thicknesses" = each(Kind::Length, |c| c.thickness_mm),
            "strengths" = each(Kind::Pressure, |c| c.strength_mpa),
            "predicted" = each(Kind::Force, |c| c.predicted_n),
            "ordered_thickness" = o.thickness_mm.map(|v| Kind::Length.print(v)),
            "ordered_strength" = o.strength_mpa.map(|v| Kind::Pressure.print(v)),
            "ordered_predicted" = o.predicted_n.map(|v| Kind::Force.print(v)),
        ))
    }

    /// The answer to what is asked.
    fn result(&self, asked: Asked) -> PyResult<TestResult> {
        let result = match asked {
            Asked::Characteristic(law, scatter) => self.0.characteristic(law, known(scatter)),
            Asked::Design(law, scatter, eta_d) => self.0.design(law, known(scatter), eta_d),
            Asked::CharacteristicEn1993(eta_k) => self.0.characteristic_en_1993_1_3(eta_k),
            Asked::NominalAisi(kind) => self.0.nominal_aisi_s100(kind),
        };
        let core = result.map_err(|problems| Arguments::default().refused(renamed(problems)))?;
        Ok(TestResult { coupons: self.clone(), asked, divided: None, core })
    }
}

/// What the core calls a field, and what the caller does.
fn renamed(problems: Vec<Problem>) -> Vec<Problem> {
    let name = |path: &str| {
        let own = [
            (".load", "loads"),
            (".thickness", "thicknesses"),
            (".strength", "strengths"),
            (".predicted", "predicted"),
        ];
        let index = path.strip_prefix("coupons")?;
        own.iter().find_map(|(core, own)| index.strip_suffix(core).map(|index| format!("{own}{index}")))
    };
    let whole = |path: &str| match path {
        "coupons" => Some("loads".to_owned()),
        _ => path.strip_prefix("ordered.").map(|rest| format!("ordered_{rest}")),
    };
    let rename = |problem: Problem| match name(problem.path()).or_else(|| whole(problem.path())) {
        Some(own) => problem.with_path(own),
        None => problem,
    };
    problems.into_iter().map(rename).collect()
}

#[pymethods]
impl Coupons {
    #[new]
    #[pyo3(signature = (
        loads, *, thicknesses = None, strengths = None, predicted = None, ordered_thickness = None,
        ordered_strength = None, ordered_predicted = None
    ))]
    #[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
    fn new(
        loads: Several<Quantity<'_>>,
        thicknesses: Option<Several<Quantity<'_>>>,
        strengths: Option<Several<Quantity<'_>>>,
        predicted: Option<Several<Quantity<'_>>>,
        ordered_thickness: Option<Quantity<'_>>,
        ordered_strength: Option<Quantity<'_>>,
        ordered_predicted: Option<Quantity<'_>>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let count = loads.0.len();
        let mut list = |name: &str, kind: Kind, values: Option<&Several<Quantity<'_>>>| -> PyResult<Vec<Option<f64>>> {
            let Some(Several(values)) = values else { return Ok(vec![None; count]) };
            if values.len() != count {
                let problem = format!("there are {count} loads; give one for each");
                let problem = Problem::contradiction(name, format!("{} values", values.len()), problem);
                return Err(problem.into());
            }
            let one = |(i, value)| given.quantity(&format!("{name}[{i}]"), kind, value).map(Some);
            values.iter().enumerate().map(one).collect()
        };
        let load_n = list("loads", Kind::Force, Some(&loads))?;
        let thickness_mm = list("thicknesses", Kind::Length, thicknesses.as_ref())?;
        let strength_mpa = list("strengths", Kind::Pressure, strengths.as_ref())?;
        let predicted_n = list("predicted", Kind::Force, predicted.as_ref())?;
        let ordered = core::Ordered {
            thickness_mm: given.optional("ordered_thickness", Kind::Length, ordered_thickness.as_ref())?,
            strength_mpa: given.optional("ordered_strength", Kind::Pressure, ordered_strength.as_ref())?,
            predicted_n: given.optional("ordered_predicted", Kind::Force, ordered_predicted.as_ref())?,
        };
        given.readable()?;
        let measured = load_n.into_iter().zip(thickness_mm).zip(strength_mpa).zip(predicted_n);
        let coupons: Vec<core::Coupon> = measured
            .map(|(((load_n, thickness_mm), strength_mpa), predicted_n)| core::Coupon {
                load_n: load_n.unwrap_or(f64::NAN),
                thickness_mm,
                strength_mpa,
                predicted_n,
            })
            .collect();
        let core = core::TestSeries::new(coupons, ordered).map_err(|problems| given.refused(renamed(problems)))?;
        Ok(Self(core))
    }

    /// Characteristic value (5 % fractile), EN 1990:2002 Annex D, D7.2 (table D1 read at second hand, the rest from memory).
    ///
    /// Args:
    ///     distribution: ``"normal"`` or ``"log-normal"``.
    ///     scatter: Coefficient of variation known beforehand, such as 0.08, not below that of the results; left out, that of
    ///         the results, not below 0.10.
    ///
    /// Raises:
    ///     InputError: Fewer than 3 results of unknown scatter; a coupon beyond the limits of the correction; a normal value
    ///         that is not above nought.
    #[pyo3(signature = (distribution = "log-normal", scatter = None))]
    fn characteristic(&self, distribution: &str, scatter: Option<Real>) -> PyResult<TestResult> {
        self.result(Asked::Characteristic(distribution.parse()?, scatter.map(|own| own.0)))
    }

    /// Design value straight from the tests, EN 1990:2002 Annex D, D7.3 (from memory): no partial factor comes on top.
    ///
    /// Args:
    ///     distribution: ``"normal"`` or ``"log-normal"``.
    ///     scatter: Coefficient of variation known beforehand; left out, that of the results, not below 0.10.
    ///     eta_d: Conversion from the test to the structure.
    ///
    /// Raises:
    ///     InputError: Fewer than 4 results of unknown scatter; what `characteristic` raises.
    #[pyo3(signature = (distribution = "log-normal", scatter = None, eta_d: "SupportsFloat | SupportsIndex" = 1.0))]
    fn design(
        &self,
        distribution: &str,
        scatter: Option<Real>,
        #[pyo3(from_py_with = real)] eta_d: f64,
    ) -> PyResult<TestResult> {
        self.result(Asked::Design(distribution.parse()?, scatter.map(|own| own.0), eta_d))
    }

    /// Characteristic value, EN 1993-1-3:2006 A.6.3: mean less k s from 4 results, a reduced mean from fewer.
    ///
    /// Args:
    ///     eta_k: 0.7 to 0.9 by the way of failing, for fewer than 4 results; 0.7 where it is not known.
    ///
    /// Raises:
    ///     InputError: Two or three results more than 10 % from their mean; what `characteristic` raises.
    #[pyo3(signature = (eta_k: "SupportsFloat | SupportsIndex" = 0.7))]
    fn characteristic_en_1993_1_3(&self, #[pyo3(from_py_with = real)] eta_k: f64) -> PyResult<TestResult> {
        self.result(Asked::CharacteristicEn1993(eta_k))
    }

    /// Nominal strength with its factors, AISI S100-16 K2.1 (from memory): the mean of at least 3 tests.
    ///
    /// Args:
    ///     connection: ``"not listed"`` (blind rivets), ``"bolt"``, ``"screw, tilting and bearing"``, ``"screw, other"`` or
    ///         ``"fillet weld"``.
    ///
    /// Raises:
    ///     InputError: Fewer than 3 results, or fewer than 6 where one is more than 15 % from the mean; an unknown connection.
    #[pyo3(signature = (connection = "not listed"))]
    fn nominal_aisi_s100(&self, connection: &str) -> PyResult<TestResult> {
        self.result(Asked::NominalAisi(connection.parse()?))
    }

    fn __len__(&self) -> usize {
        self.0.coupons().len()
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Coupons")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

fn known(scatter: Option<f64>) -> Scatter {
    scatter.map_or(Scatter::Unknown, Scatter::Known)
}

/// What was asked of the coupons.
#[derive(Clone, Copy, PartialEq)]
enum Asked {
    Characteristic(Distribution, Option<f64>),
    Design(Distribution, Option<f64>, f64),
    CharacteristicEn1993(f64),
    NominalAisi(ConnectionKind),
}

/// A resistance from tests; `Coupons` makes it. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct TestResult {
    coupons: Coupons,
    asked: Asked,
    /// Conversion and partial factor that made a design value of a characteristic one.
    divided: Option<(f64, f64)>,
    core: core::TestResult,
}

impl TestResult {
    pub(super) fn core(&self) -> &core::TestResult {
        &self.core
    }

    /// The method of the coupons and its arguments.
    fn asked<'py>(&self, py: Python<'py>) -> PyResult<(&'static str, Bound<'py, PyDict>)> {
        let law = |law: Distribution| Some(law.name());
        Ok(match self.asked {
            Asked::Characteristic(d, scatter) => {
                ("characteristic", given!(py, "distribution" = law(d), "scatter" = scatter))
            }
            Asked::Design(d, scatter, eta_d) => {
                ("design", given!(py, "distribution" = law(d), "scatter" = scatter, "eta_d" = Some(eta_d)))
            }
            Asked::CharacteristicEn1993(eta_k) => ("characteristic_en_1993_1_3", given!(py, "eta_k" = Some(eta_k))),
            Asked::NominalAisi(kind) => ("nominal_aisi_s100", given!(py, "connection" = Some(kind.name()))),
        })
    }
}

#[pymethods]
impl TestResult {
    /// The resistance, N, at `level`.
    #[getter]
    fn value_n(&self) -> f64 {
        self.core.value_n
    }

    /// ``"characteristic"``, ``"design"`` or ``"nominal"``.
    #[getter]
    fn level(&self) -> &str {
        self.core.level.words()
    }

    /// Rule set and clause.
    #[getter]
    fn method(&self) -> &str {
        self.core.method
    }

    /// Number of coupons.
    #[getter]
    fn n(&self) -> usize {
        self.core.n
    }

    /// Mean of the loads, brought back to the ordered sheet where it was measured, N.
    #[getter]
    fn mean_n(&self) -> f64 {
        self.core.mean_n
    }

    /// Coefficient of variation put into the formula, a ratio; None where the rule uses none.
    #[getter]
    fn variation(&self) -> Option<f64> {
        self.core.variation
    }

    /// Resistance factor of a nominal value; None for another.
    #[getter]
    fn phi(&self) -> Option<f64> {
        match self.core.level {
            TestLevel::Nominal { phi, .. } => Some(phi),
            _ => None,
        }
    }

    /// Safety factor of a nominal value; None for another.
    #[getter]
    fn omega(&self) -> Option<f64> {
        match self.core.level {
            TestLevel::Nominal { omega, .. } => Some(omega),
            _ => None,
        }
    }

    /// What a reviewer should know besides.
    #[getter]
    fn notes(&self) -> Many<String> {
        Many(self.core.notes.clone())
    }

    /// How its numbers are known, at the weakest.
    #[getter]
    fn standing(&self) -> &str {
        self.core.standing.words()
    }

    /// From characteristic to design, EN 1990:2002 D7.2: eta_d times the value over gamma_m.
    ///
    /// Args:
    ///     eta_d: Conversion from the test to the structure; 1 where the coupon is the joint.
    ///     gamma_m: Partial factor; 1.25 for joints by EN 1993-1-3.
    ///
    /// Raises:
    ///     InputError: A value that is not characteristic; a factor out of range.
    #[pyo3(signature = (eta_d: "SupportsFloat | SupportsIndex" = 1.0, gamma_m: "SupportsFloat | SupportsIndex" = 1.25))]
    fn design(
        &self,
        #[pyo3(from_py_with = real)] eta_d: f64,
        #[pyo3(from_py_with = real)] gamma_m: f64,
    ) -> PyResult<Self> {
        let core = self.core.design(eta_d, gamma_m).map_err(|problems| Arguments::default().refused(problems))?;
        Ok(Self { divided: Some((eta_d, gamma_m)), core, ..self.clone() })
    }

    /// The result as a hand calculation.
    ///
    /// Args:
    ///     form: ``"text"``, ``"html"`` or ``"latex"``.
    ///
    /// Raises:
    ///     InputError: Another form.
    #[pyo3(signature = (form = "text"))]
    fn explain(&self, form: &str) -> PyResult<String> {
        Ok(self.core.calculation().write(form.parse()?))
    }

    /// The values by name.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("value_n", self.value_n())?;
        dict.set_item("level", self.level())?;
        dict.set_item("method", self.method())?;
        dict.set_item("n", self.n())?;
        dict.set_item("mean_n", self.mean_n())?;
        dict.set_item("variation", self.variation())?;
        dict.set_item("phi", self.phi())?;
        dict.set_item("omega", self.omega())?;
        dict.set_item("notes", self.core.notes.clone())?;
        dict.set_item("standing", self.standing())?;
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let (name, kwargs) = self.asked(py)?;
        let asked = format!("{}.{}", call_with(&self.coupons.kwargs(py)?, "Coupons")?, call_with(&kwargs, name)?);
        Ok(match self.divided {
            Some((eta_d, gamma_m)) => format!("{asked}.design(eta_d={eta_d:?}, gamma_m={gamma_m:?})"),
            None => asked,
        })
    }

    fn _repr_html_(&self) -> String {
        self.core.calculation().write(Form::Html)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        if let Some((eta_d, gamma_m)) = self.divided {
            let undivided = self.coupons.result(self.asked)?;
            let kwargs = given!(py, "eta_d" = Some(eta_d), "gamma_m" = Some(gamma_m));
            return Recipe::of_method(&Bound::new(py, undivided)?, "design", &kwargs);
        }
        let (name, kwargs) = self.asked(py)?;
        Recipe::of_method(&Bound::new(py, self.coupons.clone())?, name, &kwargs)
    }
}

/// A tested resistance of one rivet and the lap that it was tested on, for `Lap.check_by_test`. Cannot be changed.
///
/// Args:
///     coupon: The lap as ordered for the coupons; its pitch is the coupon's width for each rivet.
///     result: A design value (EN 1990, EN 1993-1-3 over its partial factor) or a nominal one (AISI S100).
///     format: For a nominal value ``"allowable"`` (over omega, against service loads) or ``"factored"`` (times phi).
///
/// Raises:
///     InputError: A characteristic value, which takes its partial factor first; a format for a value that has none.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> sheet = rb.Sheet(thickness="1.2 mm", fy="250 MPa", fu="360 MPa")
///     >>> rivet = rb.BlindRivet("1/4 in", shear="6 kN", tension="5 kN", head="1/2 in", hole="17/64 in")
///     >>> lap = rb.Lap(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="13 mm")
///     >>> lap.check(shear="900 N").verdict
///     "outside the rule's range"
///     >>> coupons = rb.Coupons(["3620 N", "3780 N", "3550 N", "3910 N", "3690 N"])  # invented loads
///     >>> tested = rb.Tested(lap, coupons.characteristic().design())
///     >>> report = lap.check_by_test(tested, shear="900 N")
///     >>> report.verdict, round(report.utilisation, 3)
///     ('passes', 0.383)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Tested {
    coupon: Lap,
    result: TestResult,
    format: Format,
    core: core::Tested,
}

impl Tested {
    pub(super) fn core(&self) -> &core::Tested {
        &self.core
    }
}

#[pymethods]
impl Tested {
    #[new]
    #[pyo3(signature = (coupon, result, format = "allowable"))]
    fn new(coupon: PyRef<'_, Lap>, result: PyRef<'_, TestResult>, format: &str) -> PyResult<Self> {
        let format: Format = format.parse()?;
        let core = core::Tested::new(coupon.core().clone(), result.core.clone(), format)
            .map_err(|problems| Arguments::default().refused_as(&[("level", "result")], problems))?;
        Ok(Self { coupon: coupon.clone(), result: result.clone(), format, core })
    }

    /// The lap that was tested.
    #[getter]
    fn coupon(&self) -> Lap {
        self.coupon.clone()
    }

    /// The tests behind it.
    #[getter]
    fn result(&self) -> TestResult {
        self.result.clone()
    }

    /// What one rivet carries, N, at `level`.
    #[getter]
    fn resistance_n(&self) -> f64 {
        self.core.resistance_n()
    }

    /// ``"design"``, ``"allowable"`` or ``"factored"``.
    #[getter]
    fn level(&self) -> &str {
        self.core.level().words()
    }

    fn __repr__(&self) -> String {
        format!("<Tested: {:.1} N, {}, by {}>", self.resistance_n(), self.level(), self.result.method())
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let kwargs = given!(
            py,
            "coupon" = Some(own.coupon.clone()),
            "result" = Some(own.result.clone()),
            "format" = Some(own.format.name()),
        );
        rebuilt(py, slf.get_type().as_any(), kwargs)
    }
}
