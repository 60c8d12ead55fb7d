//! The class `Drawing`.

use std::path::PathBuf;

use pyo3::prelude::*;
use pyo3::types::PyTuple;

use crate::drawing as core;
use crate::error::Problem;
use crate::plan::write_whole;

use super::interrupts::away;
use super::output::{Recipe, quoted};

/// A drawing: `Evaluation.drawing` makes it. It shows itself in a notebook. Cannot be changed.
///
/// Args:
///     name: What it is asked for by.
///     title: What it shows, in words.
///     svg: The SVG document.
///     dxf: The DXF file of what is cut by it, if any.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
///     >>> blank = build.drawing("blank L-A1")
///     >>> blank.title, blank.dxf is not None
///     ('blank L-A1', True)
#[pyclass(frozen, eq, hash, module = "raisedbody", from_py_object)]
#[derive(Clone, PartialEq, Eq, Hash)]
pub(super) struct Drawing {
    name: String,
    title: String,
    svg: String,
    dxf: Option<String>,
}

impl Drawing {
    /// With its DXF file where something is cut by it.
    pub fn of(drawing: core::Drawing) -> Result<Self, Problem> {
        let dxf = drawing.flat.as_ref().map(core::dxf).transpose()?;
        Ok(Self { name: drawing.name, title: drawing.title, svg: drawing.svg, dxf })
    }
}

#[pymethods]
impl Drawing {
    #[new]
    #[pyo3(signature = (name, title, svg, dxf = None))]
    pub fn new(name: String, title: String, svg: String, dxf: Option<String>) -> Self {
        Self { name, title, svg, dxf }
    }

    /// What it is asked for by.
    #[getter]
    fn name(&self) -> &str {
        &self.name
    }

    /// What it shows, in words.
    #[getter]
    fn title(&self) -> &str {
        &self.title
    }

    /// The SVG document.
    #[getter]
    fn svg(&self) -> &str {
        &self.svg
    }

    /// The DXF file of a blank or a jig, in mm, real size: layers OUTLINE and HOLES are cut, BENDS is marked,
    /// TEXT says what it is. None for others.
    #[getter]
    fn dxf(&self) -> Option<&str> {
        self.dxf.as_deref()
    }

    /// Writes the drawing to a file, whole or not at all.
    ///
    /// Args:
    ///     path: The file; its ending says what it becomes: ``.svg``, or ``.dxf`` for blanks and jigs.
    ///     overwrite: Whether a file of that name is replaced.
    ///
    /// Raises:
    ///     InputError: Another ending, or ``.dxf`` for a drawing by which nothing is cut.
    ///     PlanFileExistsError: The file is there and `overwrite` is false (also a `FileExistsError`).
    ///     PlanFileError: The file cannot be written (also an `OSError`).
    #[pyo3(signature = (path, overwrite = false))]
    fn write(&self, py: Python<'_>, path: PathBuf, overwrite: bool) -> PyResult<()> {
        let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
        let text = match (ending.as_str(), &self.dxf) {
            ("svg", _) => &self.svg,
            ("dxf", Some(dxf)) => dxf,
            (_, dxf) => {
                let allowed = if dxf.is_some() { ".svg or .dxf" } else { ".svg; nothing is cut by this drawing" };
                let problem = format!("the ending says what is written: give it {allowed}");
                return Err(Problem::contradiction("path", path.display(), problem).into());
            }
        };
        Ok(away(py, || write_whole(&path, text.as_bytes(), overwrite))??)
    }

    fn _repr_svg_(&self) -> &str {
        &self.svg
    }

    fn __str__(&self) -> &str {
        &self.svg
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        Ok(format!("<Drawing {}>", quoted(py, &self.name)?))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let with = (&own.name, &own.title, &own.svg, &own.dxf).into_pyobject(py)?;
        Ok(Recipe { call: slf.get_type().into_any(), with: with.cast_into::<PyTuple>()? })
    }
}
