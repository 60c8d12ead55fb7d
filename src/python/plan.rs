//! The class `Plan`.

use std::hash::{Hash, Hasher};
use std::path::PathBuf;

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::drawing::html;
use crate::plan as core;

use super::batch;
use super::cuts::{Cut, Cuts};
use super::evaluation::Evaluation;
use super::input::{Entries, ValuesByPath, keywords, named};
use super::interrupts::away;
use super::measure_up::MeasureUp;
use super::output::{Columns, Dict, Recipe, dictionary, quoted};
use super::sweep::{Axes, Progress, Sweep};

/// A build plan that was read and found whole: every entry readable, nothing contradictory. Cannot be changed.
///
/// Make one with `Plan.read` or `Plan.from_text`, and variants of it with `replace`. Lengths, masses and loads in a plan
/// are text with their unit: ``"4 1/4 in"``, ``"108 mm"``. Plans are equal where their entries are.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> plan = rb.Plan.read("examples/workshop_bus.toml")
///     >>> plan
///     Plan(name='Workshop bus')
///     >>> plan.evaluate().verdict
///     "outside the rule's range"
#[pyclass(frozen, eq, hash, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Plan(pub core::Plan);

impl Hash for Plan {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.0.file().name.hash(state);
    }
}

#[pymethods]
impl Plan {
    /// Reads a plan file; catalogue files and a price book that it names are read too and become part of the plan.
    ///
    /// Args:
    ///     path: The file.
    ///
    /// Returns:
    ///     The plan.
    ///
    /// Raises:
    ///     PlanFileNotFoundError: There is no such file (also a `FileNotFoundError`).
    ///     PlanFileError: The file cannot be read (also an `OSError`).
    ///     PlanSyntaxError: The text is not TOML; with line and column.
    ///     InputError: Something in the plan cannot be used; `problems` lists all of it, with line and column.
    #[staticmethod]
    fn read(py: Python<'_>, path: PathBuf) -> PyResult<Self> {
        Ok(Self(away(py, || core::Plan::read(path))??))
    }

    /// Reads a plan from its TOML text.
    ///
    /// Args:
    ///     text: The plan.
    ///     folder: Where catalogue files and a price book that the plan names are looked for.
    ///
    /// Returns:
    ///     The plan.
    ///
    /// Raises:
    ///     PlanFileError: A catalogue file cannot be read.
    ///     PlanSyntaxError: The text is not TOML; with line and column.
    ///     InputError: Something in the plan cannot be used; `problems` lists all of it, with line and column.
    #[staticmethod]
    #[pyo3(signature = (text, folder = PathBuf::from(".")))]
    fn from_text(py: Python<'_>, text: &str, folder: PathBuf) -> PyResult<Self> {
        Ok(Self(away(py, || core::Plan::from_text(text, &folder))??))
    }

    /// The JSON Schema (draft 2020-12) of the plan file, for editors and other programs.
    ///
    /// Example:
    ///     >>> from raisedbody import Plan
    ///     >>> "survey" in Plan.json_schema()["required"]
    ///     True
    #[staticmethod]
    fn json_schema(py: Python<'_>) -> PyResult<Dict<'_>> {
        let text = core::plan_schema().to_string();
        let schema = py.import("json")?.call_method1("loads", (text,))?;
        Ok(Dict(schema.cast_into::<PyDict>()?))
    }

    /// The plan as TOML text that reads back as an equal plan.
    ///
    /// A plan that was read, and those made from it, keep the planner's comments, order, blank lines and spelling of values
    /// wherever nothing was changed. A comment goes with the entry that it stands above or beside. Rows of catalogue files and
    /// prices of a book are part of the plan and stand in its text.
    ///
    /// Example:
    ///     >>> from raisedbody import Plan
    ///     >>> plan = Plan.read("examples/mobile_library.toml")
    ///     >>> plan.replace(vehicle={"track": "1.96 m"}).to_text().splitlines()[0]
    ///     '# A travelling library, invented for this example: every figure below is made up.'
    fn to_text(&self) -> String {
        self.0.to_text()
    }

    /// Writes the plan to a file, whole or not at all, as `to_text` has it.
    ///
    /// A process that is killed meanwhile leaves the file as it was, and may leave one beside it that begins with ``.raisedbody-``
    /// and ends in ``.part``: nothing reads it, and it can be deleted.
    ///
    /// Args:
    ///     path: The file.
    ///     overwrite: Whether a file of that name is replaced.
    ///
    /// Raises:
    ///     PlanFileExistsError: The file is there and `overwrite` is false (also a `FileExistsError`).
    ///     PlanFileError: The file cannot be written (also an `OSError`).
    #[pyo3(signature = (path, overwrite = false))]
    fn write(&self, py: Python<'_>, path: PathBuf, overwrite: bool) -> PyResult<()> {
        Ok(away(py, || self.0.write(path, overwrite))??)
    }

    /// A plan with some entries changed: mappings are merged entry by entry, everything else is replaced.
    ///
    /// A new gauge takes out an old thickness, a new weighing an old height of the centre of gravity, and the other way
    /// round. The whole plan is validated again. A price book (``prices={"book": "prices.toml"}``) is looked for in the current folder
    /// and gives its prices wherever the plan has none; those of a book that was read before count as the plan's own: take ``prices`` out
    /// first (`without`) to have another book's.
    ///
    /// Args:
    ///     changes: New entries as a mapping, nested as in the file.
    ///     **entries: New entries by name; ``raise_`` stands for ``raise``. They are applied after `changes`.
    ///
    /// Returns:
    ///     The new plan; this one stays as it is.
    ///
    /// Raises:
    ///     InputError: The plan with the new entries cannot be used; `problems` lists everything that is wrong.
    ///     TypeError: A value of a type that no plan holds.
    ///
    /// Example:
    ///     >>> from raisedbody import Plan
    ///     >>> plan = Plan.read("examples/workshop_bus.toml")
    ///     >>> plan.replace(skin={"gauge": 16}, raise_={"height": "10 in"}).to_dict()["raise"]["height"]
    ///     '10 in'
    #[pyo3(signature = (changes = None, /, **entries: "object"))]
    fn replace(
        &self,
        py: Python<'_>,
        changes: Option<Entries<'_>>,
        entries: Option<&Bound<'_, PyDict>>,
    ) -> PyResult<Self> {
        let mut plan = self.clone();
        let changes =
            changes.map(|changes| changes.table()).transpose().map_err(|error| named(py, error, "changes"))?;
        let entries = entries.map(keywords).transpose()?;
        for table in changes.into_iter().chain(entries) {
            plan = Self(away(py, || plan.0.replace(&table))??);
        }
        Ok(plan)
    }

    /// This plan with an entry, or a whole part, taken out.
    ///
    /// Args:
    ///     path: The entry, such as ``"end_caps"`` or ``"shop.prime_time"``.
    ///
    /// Returns:
    ///     The new plan; this one stays as it is.
    ///
    /// Raises:
    ///     InputError: The plan has no such entry, or cannot be without it.
    ///
    /// Example:
    ///     >>> from raisedbody import Plan
    ///     >>> plan = Plan.read("examples/mobile_library.toml")
    ///     >>> "end_caps" in plan.without("end_caps").to_dict()
    ///     False
    #[pyo3(signature = (path, /))]
    fn without(&self, py: Python<'_>, path: &str) -> PyResult<Self> {
        Ok(Self(away(py, || self.0.without(path))??))
    }

    /// Works the plan out: layout, masses, checks, order, hours, price. Other threads run meanwhile.
    ///
    /// Returns:
    ///     The evaluation.
    ///
    /// Raises:
    ///     InputError: A catalogue row of the plan's own cannot be used.
    fn evaluate(&self, py: Python<'_>) -> PyResult<Evaluation> {
        let evaluation = away(py, || self.0.evaluate())??;
        Ok(Evaluation::new(self.clone(), evaluation))
    }

    /// Every height and extent at which this bus could be cut for the plan's raise.
    ///
    /// Heights are the bands between floor, rub rail, windows and drip rail, and the lines between them; extents are the whole
    /// roof, and every pair of posts with stepped and with sloped ends. Each has the reasons against it, or its splices, new
    /// skin, transitions, headroom and hours, counted as `evaluate` counts, and its rank.
    ///
    /// Returns:
    ///     The cuts, best first.
    ///
    /// Raises:
    ///     InputError: A catalogue row of the plan's own cannot be used.
    ///
    /// Example:
    ///     >>> from raisedbody import Plan
    ///     >>> plan = Plan.read("examples/mobile_library.toml")
    ///     >>> plan.cuts().own.rank
    ///     1
    fn cuts(&self, py: Python<'_>) -> PyResult<Cuts> {
        let cuts = away(py, || self.0.cuts())??;
        Ok(Cuts::new(self.clone(), cuts))
    }

    /// This plan with another cut: its height, its posts and its ends.
    ///
    /// Args:
    ///     cut: One of `cuts` that can be made.
    ///
    /// Returns:
    ///     The new plan; this one stays as it is.
    ///
    /// Raises:
    ///     InputError: The cut is turned down, or is of another plan and does not fit this one.
    ///
    /// Example:
    ///     >>> from raisedbody import Plan
    ///     >>> plan = Plan.read("examples/mobile_library.toml")
    ///     >>> shorter = next(cut for cut in plan.cuts() if cut.ends == "stepped" and cut.rank)
    ///     >>> plan.with_cut(shorter).to_dict()["raise"]["last_post"]
    ///     9
    #[pyo3(signature = (cut, /))]
    fn with_cut(&self, cut: &Bound<'_, Cut>) -> PyResult<Self> {
        Ok(Self(self.0.with_cut(cut.get().core())?))
    }

    /// Works out every combination of the values of some entries, on all cores. Other threads run meanwhile, and it can be
    /// interrupted.
    ///
    /// Of each combination it gives the numbers of `compare` but for the sway stiffness, or why it cannot be. The lift, the bows, the schedule and
    /// most checks are left out: evaluate what you choose (`Sweep.plan`). So is the cut list: hours and price are those of the
    /// plan without its ``cutting``, every blank bought cut to size and bars by the metre.
    ///
    /// Args:
    ///     axes: The values that each entry takes, by the entry's path: ``{"skin.gauge": [16, 18]}``. A value that is a mapping
    ///         changes the entries in it. The last entry varies fastest.
    ///     progress: Whether a long sweep shows on standard error how far it is; or a callable that is told now and then how
    ///         many combinations are done and of how many.
    ///
    /// Returns:
    ///     The sweep.
    ///
    /// Raises:
    ///     InputError: No entry, no value, a value given twice, an entry that is changed twice, values that no plan can hold,
    ///         or more combinations than there is room for.
    ///     TypeError: A value of a type that no plan holds.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> plan = rb.Plan.read("examples/workshop_bus.toml")
    ///     >>> sweep = plan.sweep({"skin.gauge": [16, 18], "fastening.pitch": ["3 in", "4 in"]})
    ///     >>> sweep.table["skin.gauge"].tolist()
    ///     ['16', '16', '18', '18']
    #[pyo3(signature = (axes, /, *, progress = None))]
    fn sweep(&self, py: Python<'_>, axes: Axes, progress: Option<Progress>) -> PyResult<Sweep> {
        let mut progress = progress.unwrap_or_default();
        let core = away(py, || self.0.sweep(axes.0, |done, of| progress.tell("combinations", done, of)))??;
        Ok(Sweep::new(core))
    }

    /// Quotes many jobs, on all cores: each row is this plan with some entries changed. `quote_batch` does the same for
    /// dataframes, and streams of them. Other threads run meanwhile, and it can be interrupted.
    ///
    /// Args:
    ///     jobs: A value for each row, by the entry's path: ``{"skin.gauge": [16, 18, None]}``. None, and NaN, leave the entry
    ///         as it is.
    ///     whole: Whether each row is evaluated whole. Else the cut list is left out, hours and price are those of the plan without
    ///         its ``cutting``, and so are the lift, the bows, the splices, the end caps, the flatness and their checks, rusted joints,
    ///         metals in contact and the gate.
    ///     progress: Whether a long run shows on standard error how far it is; or a callable that is told now and then how many
    ///         are done and of how many.
    ///
    /// Returns:
    ///     A row for each job: price (exact, as text), currency, open_items, verdict (the worst of the checks that were made),
    ///     checks_count, failing, the numbers of `compare` but for the sway stiffness (NaN where not known), and error: why the
    ///     job cannot be, empty where it can.
    ///
    /// Raises:
    ///     InputError: An entry that no plan has, one that is changed twice, or columns of unlike length.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> plan = rb.Plan.read("examples/workshop_bus.toml")
    ///     >>> quotes = plan.quote_jobs({"skin.gauge": [16, 99]})
    ///     >>> quotes["error"][0], "skin.gauge" in quotes["error"][1]
    ///     (np.str_(''), True)
    #[pyo3(signature = (jobs, /, *, whole = false, progress = None))]
    fn quote_jobs(
        &self,
        py: Python<'_>,
        jobs: ValuesByPath<'_>,
        whole: bool,
        progress: Option<Progress>,
    ) -> PyResult<Columns> {
        batch::quote_jobs(py, &self.0, jobs, whole, progress.unwrap_or_default())
    }

    /// The measure-up at a stage: a form to fill in, and the fit of its readings.
    ///
    /// Args:
    ///     stage: ``"before cut"``, ``"after lift"`` or ``"after tacking"``.
    ///
    /// Returns:
    ///     The measure-up.
    ///
    /// Raises:
    ///     InputError: There is no such stage.
    #[pyo3(signature = (stage, /))]
    fn measure_up(&self, stage: &str) -> PyResult<MeasureUp> {
        Ok(MeasureUp::new(self.clone(), self.0.measure_up(stage.parse()?)?))
    }

    /// What this job is called.
    #[getter]
    fn name(&self) -> &str {
        &self.0.file().name
    }

    /// The entries as written, nested as in the file.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        dictionary(py, self.0.table()).map(Dict)
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        Ok(format!("Plan(name={})", quoted(py, self.name())?))
    }

    fn _repr_html_(&self) -> String {
        html::plan(&self.0)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let call = py.get_type::<Self>().getattr("from_text")?;
        Ok(Recipe { call, with: PyTuple::new(py, [self.to_text()])? })
    }
}
