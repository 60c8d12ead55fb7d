//! The classes `Seam`, `SeamEfficiency` and `SeamBenchmark`.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::error::Problem;
use crate::mechanics::joint::efficiency as core;
use crate::quantity::Kind;

use super::by_test::TestResult;
use super::input::{Arguments, Quantity, Whole, whole};
use super::joint::{BlindRivet, Sheet, call_with, given, rebuilt};
use super::output::{Columns, Dict, Many, Recipe};
use super::report::check_columns;

/// What makes the thing again: a method of the seam without arguments.
fn called_again<'py>(py: Python<'py>, seam: &Seam, method: &str) -> PyResult<Recipe<'py>> {
    let call = Bound::new(py, seam.clone())?.getattr(method)?;
    Ok(Recipe { call, with: PyTuple::empty(py) })
}

/// A share of the whole as a percentage, for people.
fn percent(share: Option<f64>) -> String {
    share.map_or_else(|| "None".to_owned(), |share| format!("{:.0} %", 100.0 * share))
}

/// A seam of two sheets pulled square to its line, to be set against the sheets themselves. Cannot be changed.
///
/// All strengths are un-factored: least or characteristic values. A sheet counts with its least thickness, coating
/// included: as measured, or the least that the ordered gauge's tolerance permits.
///
/// Args:
///     outer: The sheet under the rivets' heads.
///     inner: The other sheet.
///     rivet: The rivet.
///     pitch: From rivet to rivet along the line, such as ``"50 mm"``.
///     edge: The line to the sheet's edge.
///     rows: Lines of rivets side by side, each at the same pitch.
///     bearing: The rule for the sheet's bearing round a rivet: ``"EN 1993-1-3"``, which stands where this is left out,
///         or ``"AISI S100"`` (screw rules, by analogy).
///     tested: Characteristic resistance of one rivet in like laps pulled to failure (`Coupons.characteristic`); in place of the
///         rule.
///
/// Raises:
///     InputError: A sheet without tensile strength or published tolerance; a rivet without shear load; an unknown rule;
///         rule and test together; sizes that no seam has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> sheet = rb.Sheet(thickness="1.1 mm", fu="310 MPa")
///     >>> rivet = rb.BlindRivet("6.4 mm", shear="3600 N", hole="6.5 mm")
///     >>> seam = rb.Seam(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm")
///     >>> seam.benchmark()
///     <SeamBenchmark: not assessed, reaches 36 %>
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Seam {
    outer: Sheet,
    inner: Sheet,
    rivet: BlindRivet,
    tested: Option<TestResult>,
    core: core::Seam,
}

impl Seam {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        Ok(given!(
            py,
            "outer" = Some(self.outer.clone()),
            "inner" = Some(self.inner.clone()),
            "rivet" = Some(self.rivet.clone()),
            "pitch" = Some(Kind::Length.print(self.core.pitch_mm)),
            "edge" = Some(Kind::Length.print(self.core.edge_mm)),
            "rows" = Some(self.core.rows).filter(|&rows| rows != 1),
            "bearing" = self.bearing().filter(|_| self.core.bearing != core::Bearing::default()),
            "tested" = self.tested.clone(),
        ))
    }
}

#[pymethods]
impl Seam {
    #[new]
    #[pyo3(signature = (*, outer, inner, rivet, pitch, edge, rows: "SupportsIndex" = 1, bearing = None, tested = None))]
    #[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
    fn new(
        outer: PyRef<'_, Sheet>,
        inner: PyRef<'_, Sheet>,
        rivet: PyRef<'_, BlindRivet>,
        pitch: Quantity<'_>,
        edge: Quantity<'_>,
        #[pyo3(from_py_with = whole)] rows: i64,
        bearing: Option<&str>,
        tested: Option<PyRef<'_, TestResult>>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let pitch_mm = given.quantity("pitch", Kind::Length, &pitch)?;
        let edge_mm = given.quantity("edge", Kind::Length, &edge)?;
        let rows = given.count("rows", Whole(rows));
        given.readable()?;
        // No other level than the characteristic one stands beside un-factored rules.
        let tested_n = tested.as_ref().map(|result| result.core().characteristic_n()).transpose();
        let tested_n = tested_n.map_err(|problem| problem.with_path("tested"))?;
        let bearing = match (bearing, tested_n) {
            (None, None) => Ok(core::Bearing::default()),
            (Some(name), None) => name.parse(),
            (None, Some(n)) => Ok(core::Bearing::Tested(n)),
            (Some(name), Some(_)) => {
                Err(Problem::contradiction("bearing", name, "a tested load is given too; give one of them"))
            }
        };
        let shear_n = rivet.core.shear_n.ok_or_else(|| {
            Problem::missing("rivet.shear", "write the least shear load of one rivet, for example \"3600 N\"")
        });
        let panels = (core::Panel::of(&outer.core, "outer"), core::Panel::of(&inner.core, "inner"));
        let core = match (panels, shear_n, bearing) {
            ((Ok(head), Ok(far)), Ok(shear_n), Ok(bearing)) => core::Seam {
                panels: [head, far],
                diameter_mm: rivet.core.diameter_mm,
                hole_mm: rivet.core.hole_mm,
                shear_n,
                pitch_mm,
                edge_mm,
                rows,
                bearing,
                standing: rivet.core.standing,
            },
            ((head, far), shear_n, bearing) => {
                let mut problems: Vec<Problem> = [head.err(), far.err()].into_iter().flatten().flatten().collect();
                problems.extend(shear_n.err());
                problems.extend(bearing.err());
                return Err(given.refused(problems));
            }
        };
        core.validate().map_err(|problems| given.refused(problems))?;
        let tested = tested.map(|result| result.clone());
        Ok(Self { outer: outer.clone(), inner: inner.clone(), rivet: rivet.clone(), tested, core })
    }

    /// The sheet under the rivets' heads.
    #[getter]
    fn outer(&self) -> Sheet {
        self.outer.clone()
    }

    /// The other sheet.
    #[getter]
    fn inner(&self) -> Sheet {
        self.inner.clone()
    }

    /// The rivet.
    #[getter]
    fn rivet(&self) -> BlindRivet {
        self.rivet.clone()
    }

    /// From rivet to rivet along the line, mm.
    #[getter]
    fn pitch_mm(&self) -> f64 {
        self.core.pitch_mm
    }

    /// The line to the sheet's edge, mm.
    #[getter]
    fn edge_mm(&self) -> f64 {
        self.core.edge_mm
    }

    /// Lines of rivets side by side.
    #[getter]
    fn rows(&self) -> u32 {
        self.core.rows
    }

    /// The rule for bearing; None where a tested load stands in its place.
    #[getter]
    fn bearing(&self) -> Option<&str> {
        self.core.bearing.name()
    }

    /// Characteristic load of one rivet in the tested lap, N; None where a rule stands.
    #[getter]
    fn tested_n(&self) -> Option<f64> {
        match self.core.bearing {
            core::Bearing::Tested(n) => Some(n),
            _ => None,
        }
    }

    /// The limits of the bearing rule that the seam breaks; none for a tested lap. Where there are any, what is made of
    /// the rivets' strength is withdrawn.
    #[getter]
    fn beyond(&self) -> Many<&'static str> {
        Many(self.core.beyond())
    }

    /// The seam's strength in parts of the weaker sheet's, on the width of one pitch.
    ///
    /// Returns:
    ///     The efficiencies.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> sheet = rb.Sheet(thickness="1.2 mm", fu="360 MPa")
    ///     >>> rivet = rb.BlindRivet("6.4 mm", shear="3600 N", hole="6.5 mm")
    ///     >>> rb.Seam(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm").efficiency()
    ///     <SeamEfficiency: gross 17 %, net 19 %>
    fn efficiency(&self) -> PyResult<SeamEfficiency> {
        let core = self.core.efficiency().map_err(|problems| Arguments::default().refused(problems))?;
        Ok(SeamEfficiency { seam: self.clone(), core })
    }

    /// Sets the seam beside 49 CFR 571.221, the joint rule for school buses.
    ///
    /// The rule is used as a benchmark, not as a duty: a converted bus is no longer sold as a school bus.
    ///
    /// Returns:
    ///     What the rule would ask and what the seam holds.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> sheet = rb.Sheet(thickness="1.1 mm", fu="310 MPa")
    ///     >>> rivet = rb.BlindRivet("6.4 mm", shear="3600 N", hole="6.5 mm")
    ///     >>> seam = rb.Seam(outer=sheet, inner=sheet, rivet=rivet, pitch="50 mm", edge="16 mm")
    ///     >>> benchmark = seam.benchmark()
    ///     >>> round(benchmark.demand_n), round(benchmark.rivets_n)
    ///     (36214, 13029)
    fn benchmark(&self) -> PyResult<SeamBenchmark> {
        let core = self.core.benchmark().map_err(|problems| Arguments::default().refused(problems))?;
        Ok(SeamBenchmark { seam: self.clone(), core })
    }

    /// Parts and sizes by name.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("outer", self.outer.to_dict(py)?)?;
        dict.set_item("inner", self.inner.to_dict(py)?)?;
        dict.set_item("rivet", self.rivet.to_dict(py)?)?;
        dict.set_item("pitch_mm", self.pitch_mm())?;
        dict.set_item("edge_mm", self.edge_mm())?;
        dict.set_item("rows", self.rows())?;
        dict.set_item("bearing", self.bearing())?;
        dict.set_item("tested_n", self.tested_n())?;
        dict.set_item("beyond", self.beyond())?;
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Seam")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// A seam's strength in parts of the weaker sheet's; `Seam.efficiency` makes it. Cannot be changed.
///
/// Elementary mechanics on un-factored strengths; rows share the load equally. Every number is None where the seam breaks
/// a limit of its bearing rule, which `Seam.beyond` names.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct SeamEfficiency {
    seam: Seam,
    core: core::Efficiency,
}

impl SeamEfficiency {
    fn covered(&self, value: f64) -> Option<f64> {
        self.seam.core.beyond().is_empty().then_some(value)
    }
}

#[pymethods]
impl SeamEfficiency {
    /// The seam.
    #[getter]
    fn seam(&self) -> Seam {
        self.seam.clone()
    }

    /// Against the whole sheet: 1 is all of it.
    #[getter]
    fn gross(&self) -> Option<f64> {
        self.covered(self.core.gross)
    }

    /// Against the sheet less its holes.
    #[getter]
    fn net(&self) -> Option<f64> {
        self.covered(self.core.net)
    }

    /// The pitch at which rivets and net sheet are equally strong, mm: no pitch gives a higher gross efficiency. The
    /// bearing rule may ask for a wider one.
    #[getter]
    fn balanced_pitch_mm(&self) -> Option<f64> {
        self.covered(self.core.balanced_mm)
    }

    /// The values by name.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("gross", self.gross())?;
        dict.set_item("net", self.net())?;
        dict.set_item("balanced_pitch_mm", self.balanced_pitch_mm())?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        format!("<SeamEfficiency: gross {}, net {}>", percent(self.gross()), percent(self.net()))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        called_again(py, &self.seam, "efficiency")
    }
}

/// A seam beside 49 CFR 571.221 on one segment of 203 mm; `Seam.benchmark` makes it. Cannot be changed.
///
/// The joint rule for school buses (S5.1: 60 % of the weakest panel's strength) is used as a benchmark, not as a duty
/// after conversion: what it would ask stands beside what the seam holds and what the factory's held, and an unmet
/// benchmark is never a failure. That the holes are subtracted (S6.2) is from memory, as every check's standing says.
///
/// What is made of the rivets' strength is None where the seam breaks a limit of its bearing rule, which `beyond` names.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct SeamBenchmark {
    seam: Seam,
    core: core::Benchmark,
}

impl SeamBenchmark {
    fn covered<T>(&self, value: T) -> Option<T> {
        self.core.beyond.is_empty().then_some(value)
    }
}

#[pymethods]
impl SeamBenchmark {
    /// The seam.
    #[getter]
    fn seam(&self) -> Seam {
        self.seam.clone()
    }

    /// ``"passes"`` where all of the benchmark is reached, else ``"not assessed"`` or ``"outside the rule's range"``;
    /// never ``"fails"``.
    #[getter]
    fn verdict(&self) -> &str {
        self.core.verdict().words()
    }

    /// What the rule would ask, holes subtracted, N.
    #[getter]
    fn demand_n(&self) -> f64 {
        self.core.demand_n
    }

    /// What the rule would ask without subtracting the holes, N.
    #[getter]
    fn gross_demand_n(&self) -> f64 {
        self.core.gross_demand_n
    }

    /// Rivets that every segment has, in each row: the least number a randomly placed one can have.
    #[getter]
    fn rivets_per_row(&self) -> u32 {
        self.core.rivets_per_row
    }

    /// What one rivet holds, un-factored, N.
    #[getter]
    fn per_rivet_n(&self) -> Option<f64> {
        self.covered(self.core.per_rivet_n)
    }

    /// What limits one rivet: ``"rivet shear"``, ``"bearing"`` or ``"tested lap"``.
    #[getter]
    fn limits(&self) -> Option<&str> {
        self.covered(self.core.limits.words())
    }

    /// The limits of the bearing rule that the seam breaks.
    #[getter]
    fn beyond(&self) -> Many<&'static str> {
        Many(self.core.beyond.clone())
    }

    /// What all rivets of the segment hold, N.
    #[getter]
    fn rivets_n(&self) -> Option<f64> {
        self.covered(self.core.rivets_n)
    }

    /// What the weaker sheet holds along one line of holes, N.
    #[getter]
    fn net_section_n(&self) -> f64 {
        self.core.net_section_n
    }

    /// What the seam holds on the segment, N.
    #[getter]
    fn capacity_n(&self) -> Option<f64> {
        self.core.capacity_n()
    }

    /// How much of the benchmark the seam reaches, holes subtracted: 1 is all of it.
    #[getter]
    fn reached(&self) -> Option<f64> {
        self.core.reached()
    }

    /// Largest pitch that reaches the benchmark with these rows, mm; None too where not even one of 3 d does.
    #[getter]
    fn pitch_needed_mm(&self) -> Option<f64> {
        self.covered(self.core.pitch_needed_mm).flatten()
    }

    /// Rows that reach the benchmark at this pitch; None too where a segment may hold no rivet at all.
    #[getter]
    fn rows_needed(&self) -> Option<u32> {
        self.covered(self.core.rows_needed).flatten()
    }

    /// The checks as a table, as that of a `Report`: strength with and without the holes subtracted, net section,
    /// unattached segment.
    #[getter]
    fn table(&self) -> Columns {
        check_columns(&self.core.checks)
    }

    /// Every check as a hand calculation: formula, numbers with units, result, clause, standing.
    ///
    /// Args:
    ///     form: ``"text"``, ``"html"`` or ``"latex"``.
    ///
    /// Raises:
    ///     InputError: Another form.
    #[pyo3(signature = (form = "text"))]
    fn explain(&self, form: &str) -> PyResult<String> {
        Ok(self.core.explain_as(form.parse()?))
    }

    /// This seam's strength in parts of another's.
    ///
    /// Args:
    ///     factory: The benchmark of the other seam, say the factory's.
    ///
    /// Returns:
    ///     The ratio; None where either seam breaks a limit of its bearing rule, or the other may hold nothing at all.
    fn against(&self, factory: PyRef<'_, Self>) -> Option<f64> {
        self.covered(factory.covered(self.core.against(&factory.core))).flatten().flatten()
    }

    /// The values by name and the checks, as plain values.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("verdict", self.verdict())?;
        dict.set_item("demand_n", self.demand_n())?;
        dict.set_item("gross_demand_n", self.gross_demand_n())?;
        dict.set_item("rivets_per_row", self.rivets_per_row())?;
        dict.set_item("per_rivet_n", self.per_rivet_n())?;
        dict.set_item("limits", self.limits())?;
        dict.set_item("beyond", self.beyond())?;
        dict.set_item("rivets_n", self.rivets_n())?;
        dict.set_item("net_section_n", self.net_section_n())?;
        dict.set_item("capacity_n", self.capacity_n())?;
        dict.set_item("reached", self.reached())?;
        dict.set_item("pitch_needed_mm", self.pitch_needed_mm())?;
        dict.set_item("rows_needed", self.rows_needed())?;
        dict.set_item("checks", self.table().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        format!("<SeamBenchmark: {}, reaches {}>", self.verdict(), percent(self.reached()))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        called_again(py, &self.seam, "benchmark")
    }
}
