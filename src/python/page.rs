//! The class `Page`.

use std::path::PathBuf;

use pyo3::prelude::*;
use pyo3::types::PyTuple;

use crate::error::Problem;
use crate::plan::write_whole;

use super::interrupts::away;
use super::output::{Recipe, quoted};

/// A page of HTML that stands alone, to be looked at in any browser and printed: no script, nothing from outside.
/// `Evaluation.packet` makes one. Cannot be changed.
///
/// In a notebook it shows itself.
///
/// Args:
///     name: What it is.
///     html: The page, whole.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> page = rb.Plan.read("examples/workshop_bus.toml").evaluate().packet()
///     >>> page.name
///     'Workshop bus, job packet'
///     >>> "Hanging order" in page.html
///     True
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Page {
    name: String,
    html: String,
}

impl Page {
    pub fn of(name: String, html: String) -> Self {
        Self { name, html }
    }
}

#[pymethods]
impl Page {
    #[new]
    #[pyo3(signature = (name, html))]
    fn new(name: String, html: String) -> Self {
        Self::of(name, html)
    }

    /// What it is.
    #[getter]
    fn name(&self) -> &str {
        &self.name
    }

    /// The page as HTML.
    #[getter]
    fn html(&self) -> &str {
        &self.html
    }

    /// Writes the page to a file, whole or not at all.
    ///
    /// Args:
    ///     path: The file, which ends in ``.html``.
    ///     overwrite: Whether a file of that name is replaced.
    ///
    /// Raises:
    ///     InputError: Another ending.
    ///     PlanFileExistsError: The file is there and `overwrite` is false (also a `FileExistsError`).
    ///     PlanFileError: The file cannot be written (also an `OSError`).
    #[pyo3(signature = (path, overwrite = false))]
    fn write(&self, py: Python<'_>, path: PathBuf, overwrite: bool) -> PyResult<()> {
        let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
        if ending != "html" {
            return Err(Problem::contradiction("path", path.display(), "a page is HTML: give it .html").into());
        }
        Ok(away(py, || write_whole(&path, self.html.as_bytes(), overwrite))??)
    }

    fn __str__(&self) -> &str {
        &self.html
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        Ok(format!("<Page {}: {} kB>", quoted(py, &self.name)?, self.html.len().div_ceil(1000)))
    }

    fn _repr_html_(&self) -> String {
        crate::drawing::html::framed(&self.name, &self.html)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        let this = slf.get();
        let with = PyTuple::new(slf.py(), [&this.name, &this.html])?;
        Ok(Recipe { call: slf.get_type().into_any(), with })
    }
}
