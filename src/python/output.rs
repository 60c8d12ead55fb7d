//! What Python gets back: tables, dictionaries, tuples and texts.

use std::convert::Infallible;

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyList, PyString, PyTuple};
use pyo3::{IntoPyObjectExt, PyClass};
#[cfg(feature = "stubs")]
use pyo3::{
    inspect::{PyStaticConstant, PyStaticExpr},
    type_hint_identifier as name, type_hint_subscript as subscript,
};
use toml::{Table, Value};

/// The values of one column.
enum Column {
    Numbers(Vec<Option<f64>>),
    Texts(Vec<String>),
    Flags(Vec<bool>),
}

/// A table as columns; it reaches Python as a `raisedbody.Table`.
#[derive(Default)]
pub(super) struct Columns {
    columns: Vec<(String, Column)>,
}

/// Rows that become columns, one after another.
pub(super) struct Rows<T> {
    rows: Vec<T>,
    columns: Columns,
}

impl Columns {
    /// Starts a table with these rows.
    pub fn of<T>(rows: impl IntoIterator<Item = T>) -> Rows<T> {
        Rows { rows: rows.into_iter().collect(), columns: Self::default() }
    }

    /// Each row as a dictionary of plain values; `None` for what is not known.
    pub fn rows<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        let height = self.columns.first().map_or(0, |(_, column)| match column {
            Column::Numbers(values) => values.len(),
            Column::Texts(values) => values.len(),
            Column::Flags(values) => values.len(),
        });
        let rows = PyList::empty(py);
        for i in 0..height {
            let row = PyDict::new(py);
            for (name, column) in &self.columns {
                match column {
                    Column::Numbers(values) => row.set_item(name, values.get(i))?,
                    Column::Texts(values) => row.set_item(name, values.get(i))?,
                    Column::Flags(values) => row.set_item(name, values.get(i))?,
                }
            }
            rows.append(row)?;
        }
        Ok(rows)
    }
}

impl<T> Rows<T> {
    /// Adds a column of text.
    pub fn text<S: Into<String>>(mut self, name: impl Into<String>, value: impl Fn(&T) -> S) -> Self {
        let values = self.rows.iter().map(|row| value(row).into()).collect();
        self.columns.columns.push((name.into(), Column::Texts(values)));
        self
    }

    /// Adds a column of numbers; what is not known becomes NaN.
    pub fn number<N: Into<Option<f64>>>(mut self, name: impl Into<String>, value: impl Fn(&T) -> N) -> Self {
        let values = self.rows.iter().map(|row| value(row).into()).collect();
        self.columns.columns.push((name.into(), Column::Numbers(values)));
        self
    }

    /// Adds a column of counts.
    pub fn count(self, name: impl Into<String>, value: impl Fn(&T) -> usize) -> Self {
        self.number(name, |row| value(row) as f64)
    }

    /// Adds a column of true and false.
    pub fn flag(mut self, name: impl Into<String>, value: impl Fn(&T) -> bool) -> Self {
        let values = self.rows.iter().map(value).collect();
        self.columns.columns.push((name.into(), Column::Flags(values)));
        self
    }

    /// The table.
    pub fn done(self) -> Columns {
        self.columns
    }
}

impl<'py> IntoPyObject<'py> for Columns {
    type Target = PyAny;
    type Output = Bound<'py, PyAny>;
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr = name!("raisedbody.table", "Table");

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        let array = py.import("numpy")?.getattr("array")?;
        let columns = PyDict::new(py);
        for (name, column) in self.columns {
            let (values, kind) = match column {
                Column::Numbers(values) => {
                    let known: Vec<f64> = values.into_iter().map(|value| value.unwrap_or(f64::NAN)).collect();
                    (known.into_bound_py_any(py)?, "float64")
                }
                Column::Texts(values) => (values.into_bound_py_any(py)?, "str"),
                Column::Flags(values) => (values.into_bound_py_any(py)?, "bool"),
            };
            columns.set_item(name, array.call1((values, kind))?)?;
        }
        py.import("raisedbody.table")?.getattr("Table")?.call1((columns,))
    }
}

/// A dictionary whose keys are text.
pub(super) struct Dict<'py>(pub Bound<'py, PyDict>);

impl<'py> IntoPyObject<'py> for Dict<'py> {
    type Target = PyDict;
    type Output = Bound<'py, PyDict>;
    type Error = Infallible;

    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr =
        subscript!(name!("builtins", "dict"), name!("builtins", "str"), name!("typing", "Any"));

    fn into_pyobject(self, _: Python<'py>) -> Result<Self::Output, Infallible> {
        Ok(self.0)
    }
}

/// A tuple of things of one type.
pub(super) struct Many<T>(pub Vec<T>);

impl<'py, T: IntoPyObject<'py>> IntoPyObject<'py> for Many<T> {
    type Target = PyTuple;
    type Output = Bound<'py, PyTuple>;
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr = subscript!(
        name!("builtins", "tuple"),
        T::OUTPUT_TYPE,
        PyStaticExpr::Constant { value: PyStaticConstant::Ellipsis }
    );

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        PyTuple::new(py, self.0)
    }
}

/// What `__reduce__` returns: a callable and its arguments.
pub(super) struct Recipe<'py> {
    pub call: Bound<'py, PyAny>,
    pub with: Bound<'py, PyTuple>,
}

impl<'py> Recipe<'py> {
    /// What a method of an object returned for these keyword arguments.
    pub fn of_method<T: PyClass>(object: &Bound<'py, T>, name: &str, kwargs: &Bound<'py, PyDict>) -> PyResult<Self> {
        let py = kwargs.py();
        let method = object.as_any().getattr(name)?;
        let call = py.import("functools")?.getattr("partial")?.call((method,), Some(kwargs))?;
        Ok(Self { call, with: PyTuple::empty(py) })
    }

    /// What a static method of a class returned for these keyword arguments.
    pub fn of_maker(class: &Bound<'py, PyAny>, name: &str, kwargs: &Bound<'py, PyDict>) -> PyResult<Self> {
        let py = kwargs.py();
        let call = py.import("functools")?.getattr("partial")?.call((class.getattr(name)?,), Some(kwargs))?;
        Ok(Self { call, with: PyTuple::empty(py) })
    }

    /// What a function of the package returned for these keyword arguments.
    pub fn of_call(function: &str, kwargs: &Bound<'py, PyDict>) -> PyResult<Self> {
        let py = kwargs.py();
        let function = py.import("raisedbody")?.getattr(function)?;
        let call = py.import("functools")?.getattr("partial")?.call((function,), Some(kwargs))?;
        Ok(Self { call, with: PyTuple::empty(py) })
    }
}

impl<'py> IntoPyObject<'py> for Recipe<'py> {
    type Target = PyTuple;
    type Output = Bound<'py, PyTuple>;
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr = subscript!(
        name!("builtins", "tuple"),
        name!("typing", "Any"),
        PyStaticExpr::Constant { value: PyStaticConstant::Ellipsis }
    );

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        PyTuple::new(py, [self.call, self.with.into_any()])
    }
}

/// Text as Python writes it, in quotes.
pub(super) fn quoted(py: Python<'_>, text: &str) -> PyResult<String> {
    Ok(PyString::new(py, text).repr()?.to_string())
}

/// The entries of a plan as a dictionary.
pub(super) fn dictionary<'py>(py: Python<'py>, table: &Table) -> PyResult<Bound<'py, PyDict>> {
    let dict = PyDict::new(py);
    for (key, value) in table {
        dict.set_item(key, plain(py, value)?)?;
    }
    Ok(dict)
}

/// A value of a plan as Python has it.
pub(super) fn plain<'py>(py: Python<'py>, value: &Value) -> PyResult<Bound<'py, PyAny>> {
    match value {
        Value::String(text) => text.into_bound_py_any(py),
        Value::Integer(number) => number.into_bound_py_any(py),
        Value::Float(number) => number.into_bound_py_any(py),
        Value::Boolean(flag) => flag.into_bound_py_any(py),
        Value::Datetime(time) => time.to_string().into_bound_py_any(py),
        Value::Array(items) => {
            let list = PyList::empty(py);
            for item in items {
                list.append(plain(py, item)?)?;
            }
            list.into_bound_py_any(py)
        }
        Value::Table(table) => dictionary(py, table)?.into_bound_py_any(py),
    }
}
