//! The README's plan reads as written and evaluates. (Its Rust program runs as a doctest, its Python cells in
//! tests/python.)

use raisedbody::check::Verdict;
use raisedbody::plan::Plan;

#[test]
fn the_plan_of_the_readme_evaluates() {
    let readme = std::fs::read_to_string("README.md").unwrap();
    let block = readme.split("```toml\n").nth(1).and_then(|rest| rest.split("```").next()).unwrap();
    let build = Plan::from_text(block, ".".as_ref()).unwrap().evaluate().unwrap();
    let verdict = |name: &str| build.checks.iter().find(|c| c.name == name).unwrap().verdict;
    assert_eq!(verdict("overall height"), Verdict::Passes);
    assert_eq!(verdict("emergency exits"), Verdict::Fails, "its window exit is lost, and that must show");
    assert!(build.takeoff.rivets > 400);
}
