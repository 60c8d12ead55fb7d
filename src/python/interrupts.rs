//! Work of the core, away from Python: other Python threads run meanwhile, ctrl-C ends it, and it also runs in a forked child.

use std::cell::RefCell;
use std::mem;
use std::process;
use std::rc::Rc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use std::time::Duration;

use pyo3::exceptions::{PyKeyboardInterrupt, PyRuntimeError};
use pyo3::prelude::*;
use rayon::{ThreadPool, ThreadPoolBuilder};

use crate::stop::{Stopped, stoppable};

/// The process that loaded the module: the threads of rayon's own pool, if there are any, are there.
static LOADED_IN: OnceLock<u32> = OnceLock::new();

/// The pool of a forked child, beside the process that it belongs to: a fork takes no thread along but the one that forks.
static OF_CHILD: Mutex<Option<(u32, Arc<ThreadPool>)>> = Mutex::new(None);

/// How often a thread that waits for others looks whether Python wants to stop.
const BETWEEN_LOOKS: Duration = Duration::from_millis(50);

/// Remembers the process that loads the module.
pub(super) fn loaded() {
    LOADED_IN.get_or_init(process::id);
}

/// Does work of the core while other Python threads run. Where a signal's handler raises, as that of ctrl-C does, the work ends
/// at the core's next look, and what was raised is raised here.
pub(super) fn away<T: Send>(py: Python<'_>, work: impl FnOnce() -> T + Send) -> PyResult<T> {
    match pool_of_child()? {
        None => py.detach(|| here(work)),
        Some(pool) => py.detach(|| there(&pool, work)),
    }
}

/// The pool of this process where it is a forked child.
fn pool_of_child() -> PyResult<Option<Arc<ThreadPool>>> {
    let own = process::id();
    if LOADED_IN.get().is_none_or(|loaded| *loaded == own) {
        return Ok(None);
    }
    let mut kept = OF_CHILD.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((of, pool)) = &*kept
        && *of == own
    {
        return Ok(Some(Arc::clone(pool)));
    }
    // The pool of the process that forked this one has no threads here: to end it would be to wait for them.
    mem::forget(kept.take());
    let pool = ThreadPoolBuilder::new().build();
    let pool = pool.map_err(|error| PyRuntimeError::new_err(format!("no threads for this forked process: {error}")))?;
    let pool = Arc::new(pool);
    *kept = Some((own, Arc::clone(&pool)));
    Ok(Some(pool))
}

fn check_signals() -> PyResult<()> {
    Python::attach(|py| py.check_signals())
}

/// Work on this thread, which looks itself.
fn here<T>(work: impl FnOnce() -> T) -> PyResult<T> {
    let raised = Rc::new(RefCell::new(None));
    let own = Rc::clone(&raised);
    let go_on = move || check_signals().map_err(|error| own.replace(Some(error))).is_ok();
    stoppable(go_on, work).map_err(|Stopped| raised.take().unwrap_or_else(|| PyKeyboardInterrupt::new_err(())))
}

/// Work in a pool. Python tells only its main thread of signals, so this thread looks for it.
fn there<T: Send>(pool: &ThreadPool, work: impl FnOnce() -> T + Send) -> PyResult<T> {
    let stop = Arc::new(AtomicBool::new(false));
    let (mut done, mut raised) = (None, None);
    pool.in_place_scope(|scope| {
        let (tell, ended) = channel::<()>();
        let (own, done) = (Arc::clone(&stop), &mut done);
        scope.spawn(move |_| {
            // Dropped at the end of the work, also where that is a panic.
            let _tell = tell;
            *done = Some(stoppable(move || !own.load(Ordering::Relaxed), work));
        });
        while ended.recv_timeout(BETWEEN_LOOKS) == Err(RecvTimeoutError::Timeout) {
            if raised.is_none()
                && let Err(error) = check_signals()
            {
                raised = Some(error);
                stop.store(true, Ordering::Relaxed);
            }
        }
    });
    match (done, raised) {
        (Some(Ok(done)), None) => Ok(done),
        (_, raised) => Err(raised.unwrap_or_else(|| PyKeyboardInterrupt::new_err(()))),
    }
}
