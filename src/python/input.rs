//! What Python hands over: quantities as text or as objects with a unit, and plan entries.

use pyo3::exceptions::{PyException, PyTypeError};
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyDict, PyFloat, PyInt, PyMapping, PySequence, PyString};
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier as name, type_hint_subscript as subscript, type_hint_union};
use toml::{Table, Value};

use crate::error::{Error, Placed, Problem};
use crate::quantity::Kind;

use super::errors::quantity_error;

/// A quantity as the caller wrote it: text with its unit, or an object with `to(unit)` and `magnitude`.
pub(super) struct Quantity<'py>(Bound<'py, PyAny>);

impl<'py> FromPyObject<'_, 'py> for Quantity<'py> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr =
        type_hint_union!(name!("builtins", "str"), name!("raisedbody.quantity", "Quantity"));

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        Ok(Self(obj.to_owned()))
    }
}

/// Entries by name.
pub(super) struct Entries<'py>(Bound<'py, PyMapping>);

impl<'py> FromPyObject<'_, 'py> for Entries<'py> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr =
        subscript!(name!("collections.abc", "Mapping"), name!("builtins", "str"), name!("typing", "Any"));

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        Ok(Self(obj.cast::<PyMapping>()?.to_owned()))
    }
}

impl Entries<'_> {
    /// The entries as a table of a plan.
    pub fn table(&self) -> PyResult<Table> {
        table(&self.0, "", 0)
    }
}

/// Entries given as keywords; `raise_` stands for the entry `raise`, which is a word of Python's own.
pub(super) fn keywords(entries: &Bound<'_, PyDict>) -> PyResult<Table> {
    let entries = table(entries.as_mapping(), "", 0)?;
    Ok(entries
        .into_iter()
        .map(|(key, value)| (key.strip_suffix('_').map_or(key.clone(), str::to_owned), value))
        .collect())
}

/// The quantities among a function's arguments: every one that cannot be read is reported, all at once, and what the
/// core refuses is reported as the caller wrote it.
#[derive(Default)]
pub(super) struct Arguments {
    written: Vec<(&'static str, String)>,
    unreadable: Vec<Problem>,
}

impl Arguments {
    /// The quantity in the inside unit of its kind; not a number where it cannot be read, which
    /// [`readable`](Self::readable) then reports.
    pub fn quantity(&mut self, name: &'static str, kind: Kind, given: &Quantity<'_>) -> PyResult<f64> {
        Ok(self.one_of(name, &[kind], given)?.map_or(f64::NAN, |(_, value)| value))
    }

    /// As [`quantity`](Self::quantity), for an argument that may be left out.
    pub fn optional(&mut self, name: &'static str, kind: Kind, given: Option<&Quantity<'_>>) -> PyResult<Option<f64>> {
        given.map(|given| self.quantity(name, kind, given)).transpose()
    }

    /// A quantity of any of these kinds; the first is the one that messages ask for.
    pub fn one_of(
        &mut self,
        name: &'static str,
        kinds: &[Kind],
        given: &Quantity<'_>,
    ) -> PyResult<Option<(Kind, f64)>> {
        let written = given.0.str()?.to_string();
        let read = read(name, kinds, &given.0, &written);
        self.written.push((name, written));
        match read? {
            Ok(found) => Ok(Some(found)),
            Err(problem) => {
                self.unreadable.push(problem);
                Ok(None)
            }
        }
    }

    /// An error that lists every quantity that could not be read, if there is one.
    pub fn readable(&mut self) -> PyResult<()> {
        let problems = std::mem::take(&mut self.unreadable);
        if problems.is_empty() { Ok(()) } else { Err(quantity_error(problems)) }
    }

    /// What the core found wrong, with each value as the caller wrote it.
    pub fn refused(&self, problems: Vec<Problem>) -> PyErr {
        let as_written = |mut problem: Problem| {
            let written = self.written.iter().find(|(name, _)| *name == problem.path()).map(|(_, text)| text.clone());
            if let (Some(text), Problem::OutOfRange { value, .. } | Problem::Contradiction { value, .. }) =
                (written, &mut problem)
            {
                *value = text;
            }
            Placed::from(problem)
        };
        Error::Input(problems.into_iter().map(as_written).collect()).into()
    }
}

fn is_quantity(value: &Bound<'_, PyAny>) -> PyResult<bool> {
    Ok(value.hasattr("to")? && value.hasattr("magnitude")?)
}

fn number_in(value: &Bound<'_, PyAny>, unit: &str) -> PyResult<f64> {
    value.call_method1("to", (unit,))?.getattr("magnitude")?.extract()
}

/// Reads a quantity as the first of `kinds` that it is.
fn read(name: &str, kinds: &[Kind], value: &Bound<'_, PyAny>, written: &str) -> PyResult<Result<(Kind, f64), Problem>> {
    let unreadable =
        |problem: String| Ok(Err(Problem::Unreadable { path: name.to_owned(), value: written.to_owned(), problem }));
    let words = kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" or ");
    let unit = kinds.first().map_or("", |kind| kind.unit());
    if value.is_instance_of::<PyString>() {
        let mut problem = None;
        for &kind in kinds {
            match kind.parse(written) {
                Ok(number) => return Ok(Ok((kind, number))),
                Err(error) => problem = problem.or(Some(error.to_string())),
            }
        }
        return unreadable(problem.unwrap_or_default());
    }
    if is_quantity(value)? {
        let mut problem = None;
        for &kind in kinds {
            match number_in(value, kind.unit()) {
                Ok(number) => return Ok(Ok((kind, number))),
                Err(error) if error.is_instance_of::<PyException>(value.py()) => {
                    problem = problem.or(Some(error.value(value.py()).str()?.to_string()));
                }
                Err(error) => return Err(error),
            }
        }
        return unreadable(format!("{written} is no {words}: {}", problem.unwrap_or_default()));
    }
    if !value.is_instance_of::<PyBool>() && value.extract::<f64>().is_ok() {
        return unreadable(format!("{written} has no unit; write \"{written} {unit}\""));
    }
    let example = kinds.first().map_or("", |kind| kind.examples()[0]);
    let kind_of_value = value.get_type().name()?;
    Err(PyTypeError::new_err(format!(
        "{name}: a {words} is text with its unit, for example \"{example}\", or a quantity object; not {kind_of_value}"
    )))
}

/// Deeper than any plan; what goes on is a list or mapping that holds itself.
const DEEPEST: usize = 32;

fn table(entries: &Bound<'_, PyMapping>, path: &str, depth: usize) -> PyResult<Table> {
    let mut table = Table::new();
    for item in entries.items()?.iter() {
        let (key, value): (Bound<'_, PyAny>, Bound<'_, PyAny>) = item.extract()?;
        let Ok(key) = key.extract::<String>() else {
            return Err(PyTypeError::new_err(format!("an entry's name is text, not {}", key.repr()?)));
        };
        let inner = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
        table.insert(key, entry(&value, &inner, depth + 1)?);
    }
    Ok(table)
}

/// A Python value as an entry of a plan.
fn entry(value: &Bound<'_, PyAny>, path: &str, depth: usize) -> PyResult<Value> {
    let unusable = |problem: &str| {
        PyErr::from(Problem::Unreadable { path: path.to_owned(), value: String::new(), problem: problem.to_owned() })
    };
    if depth > DEEPEST {
        return Err(unusable("nested too deeply; does it hold itself?"));
    }
    if let Ok(text) = value.extract::<String>() {
        return Ok(Value::String(text));
    }
    if let Ok(mapping) = value.cast::<PyMapping>() {
        return table(mapping, path, depth).map(Value::Table);
    }
    if is_quantity(value)? {
        return quantity_text(value, path).map(Value::String);
    }
    if let Ok(flag) = value.extract::<bool>() {
        return Ok(Value::Boolean(flag));
    }
    if let Ok(number) = value.extract::<i64>() {
        return Ok(Value::Integer(number));
    }
    if value.is_instance_of::<PyInt>() {
        return Err(Problem::out_of_range(path, value, "a whole number of at most 18 digits").into());
    }
    if value.is_instance_of::<PyFloat>() {
        return Ok(Value::Float(value.extract()?));
    }
    if let Ok(items) = value.cast::<PySequence>() {
        let mut list = Vec::new();
        for (i, item) in items.try_iter()?.enumerate() {
            list.push(entry(&item?, &format!("{path}[{i}]"), depth + 1)?);
        }
        return Ok(Value::Array(list));
    }
    Err(PyTypeError::new_err(format!(
        "{path}: an entry of a plan is text, a number, true or false, a list or a mapping; not {}",
        value.get_type().name()?
    )))
}

/// A quantity object as the text that a plan holds.
fn quantity_text(value: &Bound<'_, PyAny>, path: &str) -> PyResult<String> {
    for kind in Kind::ALL {
        match number_in(value, kind.unit()) {
            Ok(number) => return Ok(kind.print(number)),
            Err(error) if error.is_instance_of::<PyException>(value.py()) => {}
            Err(error) => return Err(error),
        }
    }
    let written = value.str()?.to_string();
    let problem = format!("{written} is no quantity that a plan holds");
    Err(quantity_error(vec![Problem::Unreadable { path: path.to_owned(), value: written, problem }]))
}
