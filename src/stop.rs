//! Stopping long work from outside: whoever starts it says by what it is to be stopped, and its long loops look.

use std::any::Any;
use std::cell::RefCell;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::time::{Duration, Instant};

/// The work was stopped before it had a result.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stopped;

/// A look costs as much as reading the clock; asking may have to wait for others.
const BETWEEN_QUESTIONS: Duration = Duration::from_millis(50);

struct Asker {
    go_on: Box<dyn Fn() -> bool>,
    last: Instant,
}

thread_local! {
    static ASKER: RefCell<Option<Asker>> = const { RefCell::new(None) };
}

/// Gives the thread's asker back to the work around, also where this work ends by a panic.
struct Around(Option<Asker>);

impl Drop for Around {
    fn drop(&mut self) {
        let around = self.0.take();
        ASKER.with(|asker| asker.replace(around));
    }
}

/// Does work that ends early where `go_on`, asked a few times a second on this thread, says no. Work inside other such work
/// looks by its own `go_on` alone. It ends by unwinding, so a program built with `panic = "abort"` ends as a whole. Not for a thread
/// of a pool, which may do the work of others while it waits.
///
/// # Errors
/// It was stopped. What it had found is dropped; nothing else has changed.
///
/// # Example
/// ```
/// use raisedbody::stop::{Stopped, look, stoppable};
/// assert_eq!(stoppable(|| true, || 2 + 2), Ok(4));
/// assert_eq!(stoppable(|| false, || loop { look() }), Err::<(), _>(Stopped));
/// ```
pub fn stoppable<T>(go_on: impl Fn() -> bool + 'static, work: impl FnOnce() -> T) -> Result<T, Stopped> {
    let own = Asker { go_on: Box::new(go_on), last: Instant::now() };
    let around = Around(ASKER.with(|asker| asker.replace(Some(own))));
    // Nothing that outlives the work is left half done by it: caches hold whole results (`shared.rs`).
    let done = catch_unwind(AssertUnwindSafe(work));
    drop(around);
    done.or_else(|payload: Box<dyn Any + Send>| {
        payload.downcast::<Stopped>().map_or_else(|other| resume_unwind(other), |stopped| Err(*stopped))
    })
}

/// Ends the work here where it is to be stopped; for loops that may take more than a blink. Without [`stoppable`] around, and on
/// other threads than the one that it was called on, it does nothing: work on several threads comes back to it between batches.
pub fn look() {
    let due = |own: &Asker| own.last.elapsed() >= BETWEEN_QUESTIONS;
    if !ASKER.with(|asker| asker.borrow().as_ref().is_some_and(due)) {
        return;
    }
    // What is asked may itself do work that looks: it finds nobody to ask.
    let Some(mut own) = ASKER.take() else { return };
    let ends = !(own.go_on)();
    own.last = Instant::now();
    ASKER.set(Some(own));
    if ends {
        // An unwinding without a panic: no hook is told, and every loop in between need not know of it.
        resume_unwind(Box::new(Stopped));
    }
}
