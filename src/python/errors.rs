//! Core errors as the Python exceptions of `raisedbody.exceptions`.

use pyo3::PyErr;

use crate::error::{Error, Placed, Problem, short};

mod exceptions {
    pyo3::import_exception!(raisedbody.exceptions, InputError);
    pyo3::import_exception!(raisedbody.exceptions, LapLoopError);
    pyo3::import_exception!(raisedbody.exceptions, PlanFileError);
    pyo3::import_exception!(raisedbody.exceptions, PlanSyntaxError);
    pyo3::import_exception!(raisedbody.exceptions, QuantityError);
}

/// Field, value, message, line, column: the arguments of Python's `Problem`.
type Row = (Option<String>, Option<String>, String, Option<usize>, Option<usize>);

fn row(placed: &Placed) -> Row {
    let path = placed.problem.path();
    let text = placed.problem.to_string();
    let message = text.strip_prefix(&*short(path)).and_then(|rest| rest.strip_prefix(": ")).unwrap_or(&text);
    let field = Some(path).filter(|path| !path.is_empty());
    (
        field.map(str::to_owned),
        placed.problem.value().map(str::to_owned),
        message.to_owned(),
        placed.place.map(|(line, _)| line),
        placed.place.map(|(_, column)| column),
    )
}

impl From<Error> for PyErr {
    fn from(error: Error) -> Self {
        let message = error.to_string();
        match error {
            Error::File { path, source, .. } => {
                exceptions::PlanFileError::new_err((message, source.raw_os_error(), path))
            }
            Error::Syntax { line, column, .. } => exceptions::PlanSyntaxError::new_err((message, line, column)),
            Error::NewerSchema { found, .. } => {
                let what = message.strip_prefix("schema: ").unwrap_or(&message).to_owned();
                let row: Row = (Some("schema".to_owned()), Some(found.to_string()), what, None, None);
                exceptions::InputError::new_err((message, vec![row]))
            }
            Error::Input(problems) => {
                exceptions::InputError::new_err((message, problems.iter().map(row).collect::<Vec<_>>()))
            }
        }
    }
}

impl From<Problem> for PyErr {
    fn from(problem: Problem) -> Self {
        Error::from(problem).into()
    }
}

/// A problem of an argument whose name pyo3 knows and adds to the error (`InputError.add_note` takes it as the field).
pub(super) fn of_argument(problem: Problem) -> PyErr {
    let (_, value, message, line, column) = row(&Placed::from(problem));
    let unnamed: Row = (None, value, message.clone(), line, column);
    exceptions::InputError::new_err((message, vec![unnamed]))
}

/// Laps in a loop, by name: each laps over the next, and the last over the first.
pub(super) fn lap_loop_error(problem: Problem, names: Vec<String>) -> PyErr {
    let placed = Placed::from(problem);
    exceptions::LapLoopError::new_err((placed.to_string(), names, vec![row(&placed)]))
}

/// Quantities that cannot be read.
pub(super) fn quantity_error(problems: Vec<Problem>) -> PyErr {
    let problems: Vec<Placed> = problems.into_iter().map(Placed::from).collect();
    let rows: Vec<Row> = problems.iter().map(row).collect();
    exceptions::QuantityError::new_err((Error::Input(problems).to_string(), rows))
}
