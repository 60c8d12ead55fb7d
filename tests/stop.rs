//! Long work stops where it looks, and nowhere else.

use std::cell::Cell;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::rc::Rc;
use std::time::{Duration, Instant};

use raisedbody::plan::Plan;
use raisedbody::shop::order::{LapGraph, Over};
use raisedbody::stop::{Stopped, look, stoppable};

/// Looks for so long, and tells how often it got through.
fn looks(time: Duration) -> usize {
    let (start, mut count) = (Instant::now(), 0);
    while start.elapsed() < time {
        look();
        count += 1;
    }
    count
}

#[test]
fn work_without_anyone_to_ask_goes_on() {
    assert!(looks(Duration::from_millis(120)) > 0);
}

#[test]
fn work_goes_on_while_it_may_and_is_asked_a_few_times_a_second() {
    let asked = Rc::new(Cell::new(0_u128));
    let own = Rc::clone(&asked);
    let go_on = move || {
        own.set(own.get() + 1);
        true
    };
    let (before, seen) = (Instant::now(), Rc::clone(&asked));
    // A busy machine may let this thread wait for longer than the time between two questions.
    let work = || {
        let mut looked = 0;
        while seen.get() < 3 {
            looked += looks(Duration::from_millis(100));
        }
        looked
    };
    assert!(stoppable(go_on, work).unwrap() > 0);
    // A look asks no more than every 50 ms.
    let most = before.elapsed().as_millis() / 50;
    assert!((3..=most).contains(&asked.get()), "{} in {most}", asked.get());
}

#[test]
fn stopped_work_has_no_result_and_leaves_the_thread_as_it_was() {
    assert_eq!(stoppable(|| false, || looks(Duration::from_secs(60))), Err(Stopped));
    // Nobody is asked any more.
    assert!(looks(Duration::from_millis(120)) > 0);
}

#[test]
fn inner_work_is_asked_about_alone() {
    let outer = stoppable(
        || true,
        || {
            let inner = stoppable(|| false, || looks(Duration::from_secs(60)));
            assert_eq!(inner, Err(Stopped));
            looks(Duration::from_millis(120))
        },
    );
    assert!(outer.unwrap() > 0);
}

#[test]
fn a_question_may_look_itself() {
    let go_on = || {
        looks(Duration::from_millis(60));
        stoppable(|| true, || looks(Duration::from_millis(60))).is_err()
    };
    assert_eq!(stoppable(go_on, || looks(Duration::from_secs(60))), Err(Stopped));
}

#[test]
fn a_panic_stays_a_panic() {
    let work = || -> usize { panic!("a fault") };
    let caught = catch_unwind(AssertUnwindSafe(|| stoppable(|| true, work))).unwrap_err();
    assert_eq!(caught.downcast_ref::<&str>(), Some(&"a fault"));
    assert!(looks(Duration::from_millis(120)) > 0);
}

#[test]
fn a_stopped_evaluation_leaves_nothing_behind() {
    let plan = Plan::read("examples/mobile_library.toml").unwrap();
    // A price that no other test has, so that its cut list is in no cache.
    let plan = plan.replace(&"cutting.shear.cut_time = \"3.217 min\"".parse().unwrap()).unwrap();
    let since = Instant::now();
    // Fast machines may be done before the first question.
    let stopped = stoppable(move || since.elapsed() < Duration::from_millis(100), || plan.evaluate().map(|e| e.name));
    assert!(matches!(stopped, Err(Stopped) | Ok(Ok(_))));
    let whole = plan.evaluate().unwrap();
    assert!(plan.evaluate().unwrap() == whole);
}

#[test]
fn a_loop_of_many_laps_is_stopped() {
    // The shortest loop is sought from every thing in it.
    let lap = |i: usize| Over { over: format!("{i}"), under: format!("{}", (i + 1) % 20_000) };
    let graph = LapGraph::new(&[], &(0..20_000).map(lap).collect::<Vec<_>>()).unwrap();
    assert_eq!(stoppable(|| false, || graph.order()), Err(Stopped));
}

#[test]
fn laps_without_a_loop_are_ordered_at_once() {
    let lap = |i: usize| Over { over: format!("{i}"), under: format!("{}", i + 1) };
    let graph = LapGraph::new(&[], &(0..100_000).map(lap).collect::<Vec<_>>()).unwrap();
    let start = Instant::now();
    let order = graph.order().unwrap();
    assert!(start.elapsed() < Duration::from_secs(60));
    assert_eq!((order[0].name.as_str(), order[0].after.len()), ("100000", 0));
    assert_eq!(order.last().map(|hung| hung.after.clone()), Some(vec!["1".to_owned()]));
}
