//! What Python hands over: quantities as text or as objects with a unit, and plan entries.

use pyo3::exceptions::{PyException, PyIndexError, PyOverflowError, PyTypeError, PyValueError};
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyDict, PyFloat, PyInt, PyMapping, PySequence, PyString};
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier as name, type_hint_subscript as subscript, type_hint_union};
use toml::{Table, Value};

use crate::error::{Error, Placed, Problem, short};
use crate::form::{MOST_ITEMS, too_many};
use crate::quantity::Kind;

use super::errors::{of_argument, quantity_error};

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

/// Two quantities that belong together, such as the place of a rivet.
pub(super) struct Pair<'py>(Bound<'py, PyAny>);

impl<'py> FromPyObject<'_, 'py> for Pair<'py> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = subscript!(name!("builtins", "tuple"), Quantity::INPUT_TYPE, Quantity::INPUT_TYPE);

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        Ok(Self(obj.to_owned()))
    }
}

/// A whole number type that arguments are taken as.
pub(super) trait WholeType {
    /// What fits it.
    const ALLOWED: &'static str;
}

impl WholeType for i64 {
    const ALLOWED: &'static str = "a whole number from -9223372036854775808 to 9223372036854775807";
}

impl WholeType for u32 {
    const ALLOWED: &'static str = "a whole number from 0 to 4294967295";
}

impl WholeType for u64 {
    const ALLOWED: &'static str = "a whole number from 0 to 18446744073709551615";
}

/// A whole number: what does not fit is refused by the argument's name, where pyo3 would raise an `OverflowError`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Whole<T>(pub T);

impl<'py, T: WholeType + FromPyObjectOwned<'py, Error = PyErr>> FromPyObject<'_, 'py> for Whole<T> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = T::INPUT_TYPE;

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        obj.extract().map(Self).map_err(|error| unfit(&obj, error, T::ALLOWED))
    }
}

impl Whole<u32> {
    /// The place in a list that it is.
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// A place in a list as Python counts it, from the end where it is below nought.
pub(super) struct Nth {
    /// None where it is farther than any list is long.
    nth: Option<isize>,
    shown: String,
}

impl FromPyObject<'_, '_> for Nth {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = isize::INPUT_TYPE;

    fn extract(obj: Borrowed<'_, '_, PyAny>) -> PyResult<Self> {
        let nth = match obj.extract() {
            Err(error) if PyErr::is_instance_of::<PyOverflowError>(&error, obj.py()) => None,
            read => Some(read?),
        };
        Ok(Self { nth, shown: shown(&obj) })
    }
}

impl Nth {
    /// The place from the start, where a list of this length has it; `of` tells the list: "a report of 3 checks".
    pub fn within(&self, length: usize, of: &str) -> PyResult<usize> {
        let from_start = |nth: isize| if nth < 0 { nth.checked_add_unsigned(length) } else { Some(nth) };
        let found = self.nth.and_then(from_start).and_then(|i| usize::try_from(i).ok()).filter(|&i| i < length);
        found.ok_or_else(|| PyIndexError::new_err(format!("{of} has none at {}", self.shown)))
    }
}

/// A number without a unit, never infinite and never NaN: those are refused by the argument's name.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Real(pub f64);

impl FromPyObject<'_, '_> for Real {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = f64::INPUT_TYPE;

    fn extract(obj: Borrowed<'_, '_, PyAny>) -> PyResult<Self> {
        const ALLOWED: &str = "a finite number";
        let number: f64 = obj.extract().map_err(|error| unfit(&obj, error, ALLOWED))?;
        if number.is_finite() { Ok(Self(number)) } else { Err(of_argument(Problem::out_of_range("", number, ALLOWED))) }
    }
}

/// A [`Real`] of a parameter whose default is to be read in its signature, which a type of its own would hide.
pub(super) fn real(obj: &Bound<'_, PyAny>) -> PyResult<f64> {
    obj.extract::<Real>().map(|own| own.0)
}

/// As [`real`]; None where it is None.
pub(super) fn optional_real(obj: &Bound<'_, PyAny>) -> PyResult<Option<f64>> {
    if obj.is_none() { Ok(None) } else { real(obj).map(Some) }
}

/// A [`Whole`] of a parameter whose default is to be read in its signature.
pub(super) fn whole<'py, T: WholeType + FromPyObjectOwned<'py, Error = PyErr>>(obj: &Bound<'py, PyAny>) -> PyResult<T> {
    obj.extract::<Whole<T>>().map(|own| own.0)
}

/// A tuple: one of another length is of the wrong kind, where pyo3 would raise a `ValueError` of no field.
pub(super) struct Tuple<T>(pub T);

impl<'py, T: FromPyObjectOwned<'py, Error = PyErr>> FromPyObject<'_, 'py> for Tuple<T> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = T::INPUT_TYPE;

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        obj.extract().map(Self).map_err(|error| of_kind(obj.py(), error))
    }
}

/// A plain `ValueError` as the `TypeError` that it is: a tuple of the wrong length.
fn of_kind(py: Python<'_>, error: PyErr) -> PyErr {
    if error.get_type(py).is(py.get_type::<PyValueError>()) {
        PyTypeError::new_err(error.value(py).to_string())
    } else {
        error
    }
}

/// An error with the name of an argument or a place in it, told as pyo3 tells the names of arguments.
pub(super) fn named(py: Python<'_>, error: PyErr, name: &str) -> PyErr {
    let note = format!("while processing '{name}'");
    error.value(py).call_method1("add_note", (note,)).map_or_else(|failed| failed, |_| error)
}

/// A value as messages show it: a long one without its middle, and one that cannot be printed by its type.
pub(super) fn shown(value: &Bound<'_, PyAny>) -> String {
    short(&written(value)).into_owned()
}

/// A value as the caller wrote it.
fn written(value: &Bound<'_, PyAny>) -> String {
    // Too many digits, a list in a list without end, a type that fails at it.
    let unprintable =
        |_| value.get_type().name().map_or_else(|_| String::new(), |name| format!("<unprintable {name}>"));
    value.str().map_or_else(unprintable, |text| text.to_string_lossy().into_owned())
}

/// The error of a number that was not taken: one that is too large has a field, a value and what is allowed.
fn unfit(given: &Bound<'_, PyAny>, error: PyErr, allowed: &str) -> PyErr {
    if error.is_instance_of::<PyOverflowError>(given.py()) {
        of_argument(Problem::out_of_range("", shown(given), allowed))
    } else {
        error
    }
}

/// The most values that one list brings: an iterator may have no end, and ten million numbers take a second to read.
const MOST_VALUES: usize = 10_000_000;

/// Several things in a row: a list, a tuple, an array of quantities.
pub(super) struct Several<T>(pub Vec<T>);

impl<'py, T: FromPyObjectOwned<'py>> FromPyObject<'_, 'py> for Several<T> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = subscript!(name!("collections.abc", "Iterable"), T::INPUT_TYPE);

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        // A text would be taken letter by letter.
        if obj.is_instance_of::<PyString>() {
            let quoted = obj.repr()?.to_string_lossy().into_owned();
            let problem = format!("a list is asked for, not one text; write [{}]", short(&quoted));
            return Err(PyTypeError::new_err(problem));
        }
        // The argument's name comes in front of this.
        let at = |i: usize, error: PyErr| named(obj.py(), of_kind(obj.py(), error), &format!("[{i}]"));
        let items = obj.try_iter()?.take(MOST_VALUES + 1).enumerate();
        let items = items.map(|(i, item)| item?.extract::<T>().map_err(|error| at(i, error.into())));
        let items: Vec<T> = items.collect::<PyResult<_>>()?;
        if items.len() > MOST_VALUES {
            let allowed = format!("at most {MOST_VALUES} values at once; hand them over in parts");
            return Err(Problem::out_of_range("values", format!("more than {MOST_VALUES}"), allowed).into());
        }
        Ok(Self(items))
    }
}

/// Values by the path of an entry.
pub(super) struct ValuesByPath<'py>(pub Vec<(String, Vec<Bound<'py, PyAny>>)>);

impl<'py> FromPyObject<'_, 'py> for ValuesByPath<'py> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = subscript!(
        name!("collections.abc", "Mapping"),
        name!("builtins", "str"),
        Several::<Bound<'py, PyAny>>::INPUT_TYPE
    );

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        let mut all = Vec::new();
        for item in obj.cast::<PyMapping>()?.items()?.iter() {
            let (path, values): (String, Several<Bound<'py, PyAny>>) = item.extract()?;
            all.push((path, values.0));
        }
        Ok(Self(all))
    }
}

/// A quantity that holds for all, or one for each.
pub(super) enum OneOrEach<'py> {
    One(Quantity<'py>),
    Each(Several<Quantity<'py>>),
}

impl<'py> FromPyObject<'_, 'py> for OneOrEach<'py> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(Quantity::INPUT_TYPE, Several::<Quantity<'py>>::INPUT_TYPE);

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        if obj.is_instance_of::<PyString>() || is_quantity(&obj)? || obj.try_iter().is_err() {
            Ok(Self::One(obj.extract()?))
        } else {
            Ok(Self::Each(obj.extract()?))
        }
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

impl<'py> Entries<'py> {
    /// What was given.
    pub fn into_any(self) -> Bound<'py, PyAny> {
        self.0.into_any()
    }

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
    written: Vec<(String, String)>,
    unreadable: Vec<Problem>,
}

impl Arguments {
    /// The quantity in the inside unit of its kind; not a number where it cannot be read, which
    /// [`readable`](Self::readable) then reports.
    pub fn quantity(&mut self, name: &str, kind: Kind, given: &Quantity<'_>) -> PyResult<f64> {
        Ok(self.one_of(name, &[kind], given)?.map_or(f64::NAN, |(_, value)| value))
    }

    /// As [`quantity`](Self::quantity), for an argument that may be left out.
    pub fn optional(&mut self, name: &str, kind: Kind, given: Option<&Quantity<'_>>) -> PyResult<Option<f64>> {
        given.map(|given| self.quantity(name, kind, given)).transpose()
    }

    /// The quantities of a pair, `name.part` each.
    pub fn pair(&mut self, name: &str, parts: [(&str, Kind); 2], given: &Pair<'_>) -> PyResult<[f64; 2]> {
        let items: Vec<Bound<'_, PyAny>> = match given.0.try_iter() {
            // A third is enough to see that it is no pair.
            Ok(items) if !given.0.is_instance_of::<PyString>() => items.take(3).collect::<PyResult<_>>()?,
            _ => Vec::new(),
        };
        let [(first, first_kind), (second, second_kind)] = parts;
        let Ok([one, other]) = <[_; 2]>::try_from(items) else {
            return Err(PyTypeError::new_err(format!(
                "{name}: a pair of {} and {} is asked for, for example (\"{}\", \"{}\"); not {}",
                first_kind.name(),
                second_kind.name(),
                first_kind.examples()[0],
                second_kind.examples()[0],
                shown(&given.0)
            )));
        };
        Ok([
            self.quantity(&format!("{name}.{first}"), first_kind, &Quantity(one))?,
            self.quantity(&format!("{name}.{second}"), second_kind, &Quantity(other))?,
        ])
    }

    /// One quantity after another, `name[i]` each.
    pub fn each(&mut self, name: &str, kind: Kind, given: &[Quantity<'_>]) -> PyResult<Vec<f64>> {
        given.iter().enumerate().map(|(i, quantity)| self.quantity(&format!("{name}[{i}]"), kind, quantity)).collect()
    }

    /// A number of things. What no count can be comes to its nearest bound, for the core to refuse.
    pub fn count(&mut self, name: &str, Whole(given): Whole<i64>) -> u32 {
        self.written.push((name.to_owned(), given.to_string()));
        u32::try_from(given.max(0)).unwrap_or(u32::MAX)
    }

    /// A quantity of any of these kinds; the first is the one that messages ask for.
    pub fn one_of(&mut self, name: &str, kinds: &[Kind], given: &Quantity<'_>) -> PyResult<Option<(Kind, f64)>> {
        let written = written(&given.0);
        let read = read(name, kinds, &given.0, &written);
        self.written.push((name.to_owned(), written));
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

    /// As [`refused`](Self::refused), where the core calls some fields by other names: pairs of its name and the caller's.
    pub fn refused_as(&self, names: &[(&str, &str)], problems: Vec<Problem>) -> PyErr {
        let renamed = |problem: Problem| match names.iter().find(|(core, _)| *core == problem.path()) {
            Some((_, own)) => problem.with_path(*own),
            None => problem,
        };
        self.refused(problems.into_iter().map(renamed).collect())
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

/// The unit as quantity objects read it: `m**2` where people write `m2`.
fn in_powers(unit: &str) -> String {
    let mut text = String::new();
    for sign in unit.chars() {
        if sign.is_ascii_digit() && text.ends_with(char::is_alphabetic) {
            text.push_str("**");
        }
        text.push(sign);
    }
    text
}

fn number_in(value: &Bound<'_, PyAny>, unit: &str) -> PyResult<f64> {
    value.call_method1("to", (in_powers(unit),))?.getattr("magnitude")?.extract()
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
                    problem = problem.or(Some(shown(error.value(value.py()))));
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
        "{}: a {words} is text with its unit, for example \"{example}\", or a quantity object; not {kind_of_value}",
        short(name)
    )))
}

/// Deeper than any plan; what goes on is a list or mapping that holds itself.
const DEEPEST: usize = 32;

fn table(entries: &Bound<'_, PyMapping>, path: &str, depth: usize) -> PyResult<Table> {
    let mut table = Table::new();
    for item in entries.items()?.iter() {
        let (key, value): (Bound<'_, PyAny>, Bound<'_, PyAny>) = item.extract()?;
        let Ok(key) = key.extract::<String>() else {
            let place = if path.is_empty() { String::new() } else { format!("{path}: ") };
            return Err(PyTypeError::new_err(format!("{place}an entry's name is text, not {}", shown(&key))));
        };
        let inner = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
        table.insert(key, entry(&value, &inner, depth + 1)?);
    }
    Ok(table)
}

/// A Python value as an entry of a plan.
pub(super) fn entry(value: &Bound<'_, PyAny>, path: &str, depth: usize) -> PyResult<Value> {
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
        return Err(Problem::out_of_range(path, shown(value), <i64 as WholeType>::ALLOWED).into());
    }
    if value.is_instance_of::<PyFloat>() {
        return Ok(Value::Float(value.extract()?));
    }
    if let Ok(items) = value.cast::<PySequence>() {
        let count = items.len()?;
        if count > MOST_ITEMS {
            // Before anything is made of them: a range takes no memory, its numbers do.
            return Err(too_many(path, count, "items").into());
        }
        let mut list = Vec::with_capacity(count);
        for (i, item) in items.try_iter()?.take(count).enumerate() {
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
    let written = shown(value);
    let problem = format!("{written} is no quantity that a plan holds");
    Err(quantity_error(vec![Problem::Unreadable { path: path.to_owned(), value: written, problem }]))
}
