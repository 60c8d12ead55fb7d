//! The classes `MeasureUp` and `Squareness`.

use std::path::{Path, PathBuf};

use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyMapping, PyString, PyTuple};
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier as name, type_hint_subscript as subscript, type_hint_union};

use crate::body::squareness::{self as core, CornerMove, Measured, Readings, Stage};
use crate::check::{Check, worst};
use crate::drawing::measure_up as view;
use crate::error::{Error, Problem};
use crate::plan::{self, WrittenReading, write_whole};
use crate::quantity::Kind;

use super::input::{Arguments, Quantity, named, shown};
use super::interrupts::away;
use super::output::{Columns, Dict, Many, Recipe, quoted};
use super::plan::Plan;
use super::report::check_columns;

/// Readings as a user has them: by name, as the columns of a table, or in a file.
pub(super) struct ReadingsIn<'py>(Bound<'py, PyAny>);

impl<'py> FromPyObject<'_, 'py> for ReadingsIn<'py> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(
        name!("builtins", "str"),
        subscript!(name!("os", "PathLike"), name!("builtins", "str")),
        subscript!(name!("collections.abc", "Mapping"), name!("builtins", "str"), name!("typing", "Any")),
        name!("raisedbody.quantity", "DataFrame")
    );

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        Ok(Self(obj.to_owned()))
    }
}

/// One value of a column.
fn cell<'py>(column: Option<&[Bound<'py, PyAny>]>, i: usize) -> Option<Bound<'py, PyAny>> {
    column.and_then(|values| values.get(i)).cloned()
}

/// Nothing was read: None, not a number, or an empty text.
fn blank(value: &Bound<'_, PyAny>) -> PyResult<bool> {
    if let Ok(text) = value.cast::<PyString>() {
        return Ok(text.to_cow()?.trim().is_empty());
    }
    Ok(value.is_none() || value.extract::<f64>().is_ok_and(f64::is_nan))
}

impl<'py> ReadingsIn<'py> {
    /// The readings in mm; a problem's field is `argument.name`.
    fn read(&self, argument: &str, form: &plan::MeasureUp) -> PyResult<Readings> {
        let of_argument = |error: Error| match error {
            Error::Input(mut problems) => {
                for placed in &mut problems {
                    if let Some(rest) = placed.problem.path().strip_prefix("readings") {
                        let own = format!("{argument}{rest}");
                        placed.problem = placed.problem.clone().with_path(own);
                    }
                }
                Error::Input(problems)
            }
            other => other,
        };
        if self.0.is_instance_of::<PyString>() || self.0.hasattr("__fspath__")? {
            let py = self.0.py();
            let path: PathBuf = self.0.extract().map_err(|error| named(py, error, argument))?;
            return Ok(away(py, || form.read_csv(path))?.map_err(of_argument)?);
        }
        let mapping = self.0.cast::<PyMapping>();
        let columns = match &mapping {
            Ok(mapping) => mapping.contains("name")?,
            Err(_) => self.0.hasattr("columns")?,
        };
        let rows = match mapping {
            _ if columns => self.rows(argument)?,
            Ok(mapping) => Self::named(argument, mapping)?,
            Err(_) => {
                return Err(PyTypeError::new_err(format!(
                    "{argument}: readings are a mapping of names to lengths, a table with the columns name and reading, or \
                     the path of a file; not {}",
                    self.0.get_type().name()?
                )));
            }
        };
        Ok(form.readings_of(&rows).map_err(of_argument)?)
    }

    fn named(argument: &str, mapping: &Bound<'py, PyMapping>) -> PyResult<Vec<WrittenReading>> {
        let mut given = Arguments::default();
        let mut rows = Vec::new();
        for item in mapping.items()?.iter() {
            let (key, value): (Bound<'_, PyAny>, Bound<'_, PyAny>) = item.extract()?;
            let Ok(name) = key.extract::<String>() else {
                return Err(PyTypeError::new_err(format!("{argument}: a reading's name is text, not {}", shown(&key))));
            };
            if blank(&value)? {
                continue;
            }
            let mm = given.quantity(&format!("{argument}.{name}"), Kind::Length, &value.extract::<Quantity<'_>>()?)?;
            rows.push(WrittenReading { name, reading: Kind::Length.print(mm), ..WrittenReading::default() });
        }
        given.readable()?;
        Ok(rows)
    }

    /// Rows of a table: `name` with `reading` (a length with its unit, or a number beside a `unit`), or `reading_mm`.
    fn rows(&self, argument: &str) -> PyResult<Vec<WrittenReading>> {
        let column = |name: &str| -> PyResult<Option<Vec<Bound<'py, PyAny>>>> {
            let known: bool = match self.0.cast::<PyMapping>() {
                Ok(mapping) => mapping.contains(name)?,
                Err(_) => self.0.getattr("columns")?.contains(name)?,
            };
            if !known {
                return Ok(None);
            }
            let values = self.0.get_item(name)?;
            Ok(Some(values.try_iter()?.collect::<PyResult<_>>()?))
        };
        let missing = |name: &str| {
            let fix = "a table of readings has the columns name and reading, or name and reading_mm";
            PyErr::from(Problem::missing(format!("{argument}.{name}"), fix))
        };
        let names = column("name")?.ok_or_else(|| missing("name"))?;
        let in_mm = column("reading_mm")?;
        let readings = match (column("reading")?, &in_mm) {
            (Some(readings), _) => readings,
            (None, Some(readings)) => readings.clone(),
            (None, None) => return Err(missing("reading")),
        };
        let millimetres = column("reading")?.is_none();
        let (stages, units) = (column("stage")?, column("unit")?);
        let text = |value: Option<Bound<'py, PyAny>>| -> PyResult<String> {
            match value {
                Some(value) if !blank(&value)? => Ok(value.str()?.to_string().trim().to_owned()),
                _ => Ok(String::new()),
            }
        };
        let mut given = Arguments::default();
        let mut rows = Vec::new();
        for (i, name) in names.iter().enumerate() {
            let Some(value) = readings.get(i) else { break };
            if blank(value)? {
                continue;
            }
            let name = name.str()?.to_string();
            let unit = if millimetres { "mm".to_owned() } else { text(cell(units.as_deref(), i))? };
            let number = value.extract::<f64>().ok().filter(|_| !value.is_instance_of::<PyString>());
            let reading = match number {
                Some(number) if !unit.is_empty() => number.to_string(),
                _ if value.is_instance_of::<PyString>() => value.str()?.to_string().trim().to_owned(),
                _ => {
                    let path = format!("{argument}.{name}");
                    Kind::Length.print(given.quantity(&path, Kind::Length, &value.extract::<Quantity<'_>>()?)?)
                }
            };
            rows.push(WrittenReading { stage: text(cell(stages.as_deref(), i))?, name, reading, unit, line: None });
        }
        given.readable()?;
        Ok(rows)
    }
}

/// Names and readings as a table that `fit` takes again.
fn table(form: &plan::MeasureUp, readings: &Readings) -> Columns {
    let rows = form.readings.iter().filter_map(|r| readings.get(&r.name).map(|mm| (&r.name, *mm)));
    Columns::of(rows).text("name", |(name, _)| *name).number("reading_mm", |(_, mm)| *mm).done()
}

/// The measure-up of a plan at one stage: a form to print and fill in, and the fit of its readings. Cannot be changed.
///
/// `Plan.measure_up` makes it. Printed, it is the form as text; in a notebook it shows the form. Every reading has a name,
/// such as ``"height L3"`` for the height at the left post 3, counted from the rear.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> lifted = rb.Plan.read("examples/mobile_library.toml").measure_up("after lift")
///     >>> lifted
///     <MeasureUp of 'Travelling library' after lift: 111 readings>
///     >>> next(lifted.readings.rows())["name"]
///     'height L1'
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct MeasureUp {
    plan: Plan,
    core: plan::MeasureUp,
}

impl MeasureUp {
    pub fn new(plan: Plan, core: plan::MeasureUp) -> Self {
        Self { plan, core }
    }
}

#[pymethods]
impl MeasureUp {
    /// The plan.
    #[getter]
    fn plan(&self) -> Plan {
        self.plan.clone()
    }

    /// When it is taken: ``"before cut"``, ``"after lift"`` or ``"after tacking"``.
    #[getter]
    fn stage(&self) -> &str {
        self.core.stage.name()
    }

    /// The lines of the form: name, kind, what is measured, from, to, expected_mm by survey and raise (NaN where the shop
    /// chooses the marks), error_mm (one standard deviation).
    #[getter]
    fn readings(&self) -> Columns {
        Columns::of(&self.core.readings)
            .text("name", |r| &r.name)
            .text("kind", |r| r.kind.name())
            .text("what", |r| r.kind.how())
            .text("from", |r| &r.from)
            .text("to", |r| &r.to)
            .number("expected_mm", |r| r.expected_mm)
            .number("error_mm", |r| r.error_mm)
            .done()
    }

    /// Measuring errors that stand in for those the plan does not give: field, value, standing, source.
    #[getter]
    fn assumed(&self) -> Columns {
        Columns::of(&self.core.assumed)
            .text("field", |a| &a.field)
            .text("value", |a| &a.value)
            .text("standing", |a| a.standing.words())
            .text("source", |a| &a.source)
            .done()
    }

    /// Tolerance of a height, mm; None where the plan has none.
    #[getter]
    fn height_tolerance_mm(&self) -> Option<f64> {
        self.core.tolerances.height_mm
    }

    /// Tolerance across and along, mm; None where the plan has none.
    #[getter]
    fn plumb_tolerance_mm(&self) -> Option<f64> {
        self.core.tolerances.plumb_mm
    }

    /// Tolerance of the difference between both diagonals in plan, mm; None where the plan has none.
    #[getter]
    fn diagonal_tolerance_mm(&self) -> Option<f64> {
        self.core.tolerances.diagonal_mm
    }

    /// What to know before the first reading is taken.
    #[getter]
    fn notes(&self) -> Many<&'static str> {
        Many(plan::MEASURE_UP_NOTES.to_vec())
    }

    /// The form with blanks as plain text.
    fn form(&self) -> String {
        view::form_text(&self.core)
    }

    /// The form as comma-separated values, with a column ``reading`` to fill in: a length with its unit, or a number in the
    /// unit of the column beside it.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> form = rb.Plan.read("examples/mobile_library.toml").measure_up("before cut").to_csv()
    ///     >>> form.splitlines()[0]
    ///     'stage,name,what,from,to,expected,unit,reading'
    fn to_csv(&self) -> PyResult<String> {
        Ok(self.core.to_csv()?)
    }

    /// Writes the form to a file, whole or not at all.
    ///
    /// Args:
    ///     path: The file; its ending says what it becomes: ``.csv`` to fill in, ``.html`` or ``.txt`` to print.
    ///     overwrite: Whether a file of that name is replaced.
    ///
    /// Raises:
    ///     InputError: Another ending.
    ///     PlanFileExistsError: The file is there and `overwrite` is false (also a `FileExistsError`).
    ///     PlanFileError: The file cannot be written (also an `OSError`).
    #[pyo3(signature = (path, overwrite = false))]
    fn write(&self, py: Python<'_>, path: PathBuf, overwrite: bool) -> PyResult<()> {
        let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
        let text = match ending.as_str() {
            "csv" => self.core.to_csv()?,
            "html" => view::form_page(&self.core),
            "txt" => view::form_text(&self.core),
            _ => {
                let problem = "the ending says what is written: give it .csv, .html or .txt";
                return Err(Problem::contradiction("path", path.display(), problem).into());
            }
        };
        Ok(away(py, || write_whole(&path, text.as_bytes(), overwrite))??)
    }

    /// Reads a filled-in file; blanks are left out.
    ///
    /// Args:
    ///     path: The file, as `write` made it. Commas, semicolons or tabs part its columns.
    ///
    /// Returns:
    ///     A table of name and reading_mm, which `fit` takes.
    ///
    /// Raises:
    ///     PlanFileNotFoundError: There is no such file (also a `FileNotFoundError`).
    ///     InputError: Columns that are missing, readings of another stage, unknown names, names twice, what is no length;
    ///         all of it with its line.
    fn read(&self, py: Python<'_>, path: PathBuf) -> PyResult<Columns> {
        let readings = away(py, || self.core.read_csv(Path::new(&path)))??;
        Ok(table(&self.core, &readings))
    }

    /// Fits readings with the roof up against those before the cut, by weighted least squares.
    ///
    /// Args:
    ///     readings: Readings of this stage: lengths by name (``{"height L1": "1990 mm"}``), a table with the columns name
    ///         and reading (or reading_mm), or the path of a filled-in file. Blanks are left out.
    ///     before: The same readings before the cut.
    ///
    /// Returns:
    ///     The motion of the roof, what to do about it, and go or no-go.
    ///
    /// Raises:
    ///     InputError: Unknown or impossible readings; readings that contradict each other beyond their errors: the one to
    ///         take again is named.
    ///     QuantityError: A reading without a unit, or with one of another kind.
    ///     PlanFileError: A file cannot be read.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> plan = rb.Plan.read("examples/mobile_library.toml")
    ///     >>> def unmoved(form):
    ///     ...     known = [row for row in form.readings.rows() if row["kind"] != "gap"]
    ///     ...     return {row["name"]: f"{row['expected_mm']} mm" for row in known}
    ///     >>> before, lifted = unmoved(plan.measure_up("before cut")), plan.measure_up("after lift")
    ///     >>> after = unmoved(lifted)
    ///     >>> lifted.fit(after, before=before)
    ///     <Squareness after lift: go>
    ///     >>> forward = {name: "12 mm" for name in after if name.startswith("plumb along")}
    ///     >>> walked = lifted.fit(after | forward, before=before)
    ///     >>> walked.decision, round(float(walked.parameters["value_mm"][0]), 3)
    ///     ('no-go', 12.0)
    #[pyo3(signature = (readings, *, before))]
    fn fit(&self, py: Python<'_>, readings: ReadingsIn<'_>, before: ReadingsIn<'_>) -> PyResult<Squareness> {
        let after = readings.read("readings", &self.core)?;
        let before = before.read("before", &self.core.at(Stage::BeforeCut))?;
        let fitted = away(py, || self.core.fit(&after, &before))??;
        Ok(Squareness { measure_up: self.clone(), after, before, core: fitted })
    }

    /// Stage, tolerances and lines of the form as plain values; None for what is not known.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in ["stage", "height_tolerance_mm", "plumb_tolerance_mm", "diagonal_tolerance_mm"] {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        dict.set_item("readings", own.readings().rows(py)?)?;
        dict.set_item("assumed", own.assumed().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __str__(&self) -> String {
        self.form()
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let name = quoted(py, &self.core.name)?;
        Ok(format!("<MeasureUp of {name} {}: {} readings>", self.stage(), self.core.readings.len()))
    }

    fn _repr_html_(&self) -> String {
        view::form_html(&self.core)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let call = py.import("operator")?.getattr("methodcaller")?.call1(("measure_up", self.stage()))?;
        Ok(Recipe { call, with: PyTuple::new(py, [Bound::new(py, self.plan.clone())?])? })
    }
}

/// A roof measured up: its motion, which corner goes which way, and go or no-go; `MeasureUp.fit` makes it. Cannot be
/// changed.
///
/// "go" says that the roof is square within the planner's tolerance as measured; it says nothing of supports, braces or
/// strength. Lengths after a plus-minus sign are half of the interval that holds the true value with 95 %.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Squareness {
    measure_up: MeasureUp,
    after: Readings,
    before: Readings,
    core: core::Squareness,
}

fn mm(value: Option<Measured>) -> Option<f64> {
    value.map(|v| v.mm)
}

fn within(value: Option<Measured>) -> Option<f64> {
    value.map(|v| v.within_mm())
}

/// Columns of moves, a row a corner, each with its step.
fn moves<'a>(rows: impl Iterator<Item = (&'a str, &'a CornerMove)>) -> Columns {
    Columns::of(rows)
        .text("step", |(step, _)| *step)
        .text("corner", |(_, m)| &m.corner.name)
        .number("x_mm", |(_, m)| m.corner.x_mm)
        .number("y_mm", |(_, m)| m.corner.y_mm)
        .number("forward_mm", |(_, m)| mm(m.by.forward))
        .number("forward_within_mm", |(_, m)| within(m.by.forward))
        .number("left_mm", |(_, m)| mm(m.by.left))
        .number("left_within_mm", |(_, m)| within(m.by.left))
        .number("up_mm", |(_, m)| mm(m.by.up))
        .number("up_within_mm", |(_, m)| within(m.by.up))
        .done()
}

#[pymethods]
impl Squareness {
    /// The measure-up that was fitted.
    #[getter]
    fn measure_up(&self) -> MeasureUp {
        self.measure_up.clone()
    }

    /// When it was measured.
    #[getter]
    fn stage(&self) -> &str {
        self.core.stage.name()
    }

    /// ``"go"``, ``"no-go"`` or ``"measure again"``.
    #[getter]
    fn decision(&self) -> &str {
        self.core.decision().words()
    }

    /// The worst verdict among the checks: ``"passes"``, ``"not assessed"`` or ``"fails"``.
    #[getter]
    fn verdict(&self) -> &str {
        worst(&self.core.checks).words()
    }

    /// Length that pitch, yaw, twist and sag are told over, mm.
    #[getter]
    fn length_mm(&self) -> f64 {
        self.core.length_mm
    }

    /// Width that roll, twist, racking and spread are told over, mm.
    #[getter]
    fn width_mm(&self) -> f64 {
        self.core.width_mm
    }

    /// The motion: name, value_mm, standard_mm (one standard deviation), low_mm and high_mm (95 %), meaning of a value above
    /// nought. NaN where the readings do not tell it.
    #[getter]
    fn parameters(&self) -> Columns {
        Columns::of(&self.core.parameters)
            .text("name", |e| e.parameter.name())
            .number("value_mm", |e| mm(e.value))
            .number("standard_mm", |e| e.value.map(|v| v.standard_mm))
            .number("low_mm", |e| e.value.map(|v| v.mm - v.within_mm()))
            .number("high_mm", |e| e.value.map(|v| v.mm + v.within_mm()))
            .text("meaning", |e| e.parameter.meaning())
            .done()
    }

    /// Names of the parameters that the readings do not tell.
    #[getter]
    fn undetermined(&self) -> Many<&'static str> {
        Many(self.core.undetermined().map(|parameter| parameter.name()).collect())
    }

    /// How each corner goes, all steps together: step (``"all"``), corner, x_mm, y_mm, forward_mm, left_mm, up_mm, each with
    /// its within_mm (95 %). Back, right and down are below nought.
    #[getter]
    fn moves(&self) -> Columns {
        moves(self.core.moves.iter().map(|m| ("all", m)))
    }

    /// The same step by step, in the order of the work: level, twist, square, width, shift. Columns as of `moves`.
    #[getter]
    fn steps(&self) -> Columns {
        moves(self.core.steps.iter().flat_map(|step| step.moves.iter().map(|m| (step.step.words(), m))))
    }

    /// Every reading against the fit: name, departure_mm from the reading before the cut and the planned raise, fitted_mm,
    /// residual_mm, error_mm (one standard deviation, both readings counted), normalised (NaN where no other reading checks
    /// it).
    #[getter]
    fn residuals(&self) -> Columns {
        Columns::of(&self.core.residuals)
            .text("name", |r| &r.name)
            .number("departure_mm", |r| r.departure_mm)
            .number("fitted_mm", |r| r.fitted_mm)
            .number("residual_mm", |r| r.residual_mm())
            .number("error_mm", |r| r.error_mm)
            .number("normalised", |r| r.normalised)
            .done()
    }

    /// Readings that could not be used: name, reason.
    #[getter]
    fn unused(&self) -> Columns {
        Columns::of(&self.core.unused).text("name", |u| &u.name).text("reason", |u| &u.reason).done()
    }

    /// Each post and direction against the planner's tolerance; columns as of `Evaluation.checks`. A demand is the deviation
    /// with its measuring error on top.
    #[getter]
    fn checks(&self) -> Columns {
        check_columns(&self.core.checks)
    }

    /// Sum of the squares of residuals over errors.
    #[getter]
    fn chi_square(&self) -> f64 {
        self.core.chi_square
    }

    /// Readings beyond those that the motion needs.
    #[getter]
    fn freedoms(&self) -> usize {
        self.core.freedoms
    }

    /// Chance of so much scatter or more, were the errors as stated; None without readings to spare.
    #[getter]
    fn probability(&self) -> Option<f64> {
        self.core.probability
    }

    /// Every check as a hand calculation.
    fn explain(&self) -> String {
        self.core.checks.iter().map(Check::explain).collect::<Vec<_>>().join("\n")
    }

    /// Numbers and tables as plain values; None for what is not known.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in ["stage", "decision", "verdict", "length_mm", "width_mm", "chi_square", "freedoms", "probability"] {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        let all = [
            ("parameters", own.parameters()),
            ("moves", own.moves()),
            ("steps", own.steps()),
            ("checks", own.checks()),
            ("residuals", own.residuals()),
            ("unused", own.unused()),
        ];
        for (name, columns) in all {
            dict.set_item(name, columns.rows(py)?)?;
        }
        Ok(Dict(dict))
    }

    fn __str__(&self) -> String {
        view::squareness_text(&self.measure_up.core, &self.core)
    }

    fn __repr__(&self) -> String {
        format!("<Squareness {}: {}>", self.stage(), self.decision())
    }

    fn _repr_html_(&self) -> String {
        view::squareness_html(&self.measure_up.core, &self.core)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let written = |readings: &Readings| {
            let dict = PyDict::new(py);
            readings.iter().try_for_each(|(name, mm)| dict.set_item(name, Kind::Length.print(*mm)))?;
            PyResult::Ok(dict)
        };
        let kwargs = PyDict::new(py);
        kwargs.set_item("readings", written(&self.after)?)?;
        kwargs.set_item("before", written(&self.before)?)?;
        Recipe::of_method(&Bound::new(py, self.measure_up.clone())?, "fit", &kwargs)
    }
}
