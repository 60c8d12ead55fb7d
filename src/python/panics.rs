//! Panics of the core as `raisedbody.exceptions.InternalError`, with the place where the core gave up.
//!
//! pyo3 turns a panic into an exception of one class, whichever function it came from. That class is given
//! `InternalError` as its base when the module is loaded, so that no function can be forgotten.

use std::collections::VecDeque;
use std::panic::{self, PanicHookInfo};
use std::sync::{Mutex, PoisonError};

use pyo3::panic::PanicException;
use pyo3::prelude::*;
use pyo3::types::PyTuple;
use rayon::prelude::*;

use crate::error::short;

use super::interrupts::away;

/// What the last panics said, and where: several threads may give up at once.
static PLACES: Mutex<VecDeque<(String, String)>> = Mutex::new(VecDeque::new());

/// Far more than threads give up before their exceptions are made.
const KEPT_PLACES: usize = 64;

/// What pyo3 says of a panic whose payload is no text.
const NO_TEXT: &str = "panic from Rust code";

fn places() -> std::sync::MutexGuard<'static, VecDeque<(String, String)>> {
    // Pairs are whole: a thread that gave up while it held the lock left nothing half done.
    PLACES.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The file as the project or the library has it, without the folder of the machine that built it.
fn without_folder(file: &str) -> &str {
    file.split_once("registry/src/").and_then(|(_, rest)| rest.split_once('/')).map_or(file, |(_, rest)| rest)
}

fn keep_place(info: &PanicHookInfo<'_>) {
    let Some(place) = info.location() else { return };
    let payload = info.payload();
    let text = payload.downcast_ref::<&str>().copied().or_else(|| payload.downcast_ref::<String>().map(String::as_str));
    let said = short(text.unwrap_or(NO_TEXT)).into_owned();
    let file = place.file().replace('\\', "/");
    let mut kept = places();
    kept.truncate(KEPT_PLACES - 1);
    kept.push_front((said, format!("{}:{}", without_folder(&file), place.line())));
}

/// Makes pyo3's exception for panics an `InternalError`, and keeps the place of each panic from now on.
pub(super) fn install(py: Python<'_>) -> PyResult<()> {
    let base = py.import("raisedbody.exceptions")?.getattr("InternalError")?;
    let class = py.get_type::<PanicException>();
    class.setattr("__bases__", PyTuple::new(py, [&base])?)?;
    for name in ["__module__", "__name__", "__qualname__", "__doc__"] {
        class.setattr(name, base.getattr(name)?)?;
    }
    let before = panic::take_hook();
    panic::set_hook(Box::new(move |info| {
        keep_place(info);
        before(info);
    }));
    Ok(())
}

/// Where the core gave up with these words, the last time that it did; None where it is not known.
#[pyfunction]
#[pyo3(name = "_panic_place", signature = (said, /))]
pub(super) fn panic_place(said: &str) -> Option<String> {
    let said = short(said);
    places().iter().find(|(own, _)| *own == said).map(|(_, place)| place.clone())
}

/// Gives up as the core does by a fault of its own, so that what a user then sees can be tried.
///
/// Args:
///     said: The words that it gives up with.
///     in_worker: Whether in a thread of the pool, instead of the caller's.
///
/// Raises:
///     InternalError: Always.
#[pyfunction]
#[pyo3(name = "_panic", signature = (said, /, *, in_worker = false))]
#[allow(clippy::panic, reason = "what it is for")]
pub(super) fn give_up(py: Python<'_>, said: &str, in_worker: bool) -> PyResult<()> {
    away(py, || {
        if in_worker {
            [said].par_iter().for_each(|said| panic!("{said}"));
        }
        panic!("{said}")
    })
}
