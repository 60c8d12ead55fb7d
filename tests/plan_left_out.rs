//! What a plan leaves out and nothing may stand in for: its check is not assessed, says why, and does not pass.

use raisedbody::check::Verdict;
use raisedbody::plan::Plan;
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

// Never made up: without them the check that needs them is not assessed, and the plan does not pass.
#[rstest]
#[case(LIBRARY, "axle_weights = { front = \"2950 kg\", rear = \"4450 kg\" }\n", &["axle load", "tyre load", "gross mass", "tilt angle"])]
#[case(LIBRARY, "wheelbase = \"5.28 m\"\n", &["axle load", "gross mass"])]
#[case(LIBRARY, "rear_overhang = \"2.45 m\"\n", &["axle load"])]
#[case(LIBRARY, "axle_ratings = { front = \"5400 kg\", rear = \"9500 kg\" }\n", &["axle load"])]
#[case(LIBRARY, "tyre_ratings = { front = \"5600 kg\", rear = \"10000 kg\" }\n", &["tyre load"])]
#[case(LIBRARY, "gross_rating = \"13600 kg\"\n", &["gross mass"])]
#[case(LIBRARY, "track = \"1.95 m\"\n", &["tilt angle"])]
#[case(LIBRARY, "places = [\"US-CO\", \"US-UT\", \"US-KS\"]\n", &["overall height"])]
#[case(WORKSHOP, "post = { section = \"40x40x2 tube\" }\n", &["joint"])]
#[case(WORKSHOP, "exits = [ { name = \"rear door\", kept = true }, { name = \"side window 3, right\", kept = true } ]\n", &["emergency exits"])]
fn left_out_is_not_assessed(#[case] base: &str, #[case] entry: &str, #[case] names: &[&str]) {
    let whole = Plan::from_text(base, ".".as_ref()).unwrap().evaluate().unwrap();
    assert!(base.contains(entry), "the example no longer has: {entry}");
    let build = Plan::from_text(&base.replacen(entry, "", 1), ".".as_ref()).unwrap().evaluate().unwrap();
    for name in names {
        let without: Vec<_> = build.checks.iter().filter(|c| c.name == *name).collect();
        assert!(!without.is_empty(), "{name} must still show");
        for check in without {
            assert_eq!((check.verdict, check.utilisation()), (Verdict::NotAssessed, None), "{name}");
            assert!(check.reason.is_some(), "{name} says what is missing");
        }
        assert!(*name == "joint" || whole.checks.iter().any(|c| c.name == *name && c.verdict != Verdict::NotAssessed));
    }
    assert_ne!(build.verdict(), Verdict::Passes);
}
