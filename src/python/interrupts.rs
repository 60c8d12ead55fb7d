//! Work of the core, away from Python: other Python threads run meanwhile, ctrl-C ends it, and it also runs in a forked child.

use std::cell::RefCell;
use std::mem;
use std::rc::Rc;
use std::sync::atomic::{AtomicBool, Ordering};

use pyo3::exceptions::PyKeyboardInterrupt;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use rayon::ThreadPoolBuilder;

use crate::stop::{Stopped, stoppable};

/// Whether this process was forked after the module was loaded.
static FORKED: AtomicBool = AtomicBool::new(false);

/// Has Python tell each forked child, where there are forks.
pub(super) fn watch_forks(py: Python<'_>) -> PyResult<()> {
    let os = py.import("os")?;
    if os.hasattr("register_at_fork")? {
        let told = PyDict::new(py);
        told.set_item("after_in_child", wrap_pyfunction!(forked, py)?)?;
        os.call_method("register_at_fork", (), Some(&told))?;
    }
    Ok(())
}

/// A fork takes no thread along but the one that forks: those of the pool are missing, and it would wait for them for ever.
#[pyfunction]
fn forked() {
    FORKED.store(true, Ordering::Relaxed);
    alone();
}

/// Makes this thread a pool of its own, which does all the work of all cores by itself: processes that are forked to share work
/// are as many as there are cores.
fn alone() {
    // Where it is one already, as in the fork of a fork, it stays so.
    if let Ok(pool) = ThreadPoolBuilder::new().num_threads(1).use_current_thread().build() {
        // The thread belongs to it as long as it runs.
        mem::forget(pool);
    }
}

/// Does work of the core while other Python threads run. Where a signal's handler raises, as that of ctrl-C does, the work ends
/// at the core's next look, and what was raised is raised here.
pub(super) fn away<T: Send>(py: Python<'_>, work: impl FnOnce() -> T + Send) -> PyResult<T> {
    if FORKED.load(Ordering::Relaxed) && rayon::current_thread_index().is_none() {
        alone();
    }
    py.detach(|| here(work))
}

fn check_signals() -> PyResult<()> {
    Python::attach(|py| py.check_signals())
}

fn here<T>(work: impl FnOnce() -> T) -> PyResult<T> {
    let raised = Rc::new(RefCell::new(None));
    let own = Rc::clone(&raised);
    let go_on = move || check_signals().map_err(|error| own.replace(Some(error))).is_ok();
    stoppable(go_on, work).map_err(|Stopped| raised.take().unwrap_or_else(|| PyKeyboardInterrupt::new_err(())))
}
