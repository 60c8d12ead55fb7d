//! The end caps of a plan: blanks from its raised band, what is refused, what is not assessed. Plans are invented.

use raisedbody::Error;
use raisedbody::check::{Check, Standing, Verdict};
use raisedbody::drawing::{html, text};
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");
const REAR: &str = "rear = { left = { radius = \"6 in\" }, right = { radius = \"6 in\", top_radius = \"6 1/8 in\" } }";

fn evaluated(text: &str) -> Evaluation {
    Plan::from_text(text, ".".as_ref()).unwrap().evaluate().unwrap()
}

fn changed(old: &str, new: &str) -> String {
    assert!(LIBRARY.contains(old), "the example no longer has: {old}");
    LIBRARY.replace(old, new)
}

fn checks(build: &Evaluation) -> Vec<&Check> {
    build.checks.iter().filter(|c| c.name.starts_with("end cap")).collect()
}

#[test]
fn the_example_has_a_blank_for_each_piece() {
    let build = evaluated(LIBRARY);
    let caps = build.end_caps.as_ref().unwrap();
    let rear: Vec<_> = caps.pieces.iter().filter(|p| p.id.starts_with("rear")).collect();
    // By hand, rear cap in one sheet: both legs 14.5 + 0.625 in and the width, less two square corners that take R + t and give
    // back π/2 (R + t/2) each, R 6 in, t 0.0516 in.
    let (r, t) = (6.0, 0.0516);
    let quarter = std::f64::consts::FRAC_PI_2 * (r + t / 2.0);
    let width = build.skins.ends.iter().find(|e| e.id == "rear band").unwrap().length_mm / 25.4 - 1.25;
    let one = 2.0 * (14.5 + 0.625) + width - 4.0 * (r + t) + 2.0 * quarter;
    assert_eq!(rear.len(), 1);
    let cap = rear[0];
    assert!((cap.flat.length_mm[0] / 25.4 - one).abs() < 1e-3, "{} {one}", cap.flat.length_mm[0] / 25.4);
    // One corner opens by an eighth of an inch: 0.43 of it, by the radii alone.
    assert!((cap.by_radii_mm.abs() - (2.0 - std::f64::consts::FRAC_PI_2) * 3.175).abs() < 1e-2);
    assert_eq!(cap.flat.marks.len(), 4);
    for corner in &cap.corners {
        // Springback opens what is rolled: loaded, the radius is sharper.
        for (radius, (to, setting)) in corner.radius_mm.iter().zip(corner.roll_to_mm.iter().zip(&corner.settings)) {
            assert!(to.unwrap() < *radius && setting.unwrap().travel_mm > 0.0);
        }
    }
    // The front legs reach 54 in: two sheets that lap in the middle, alike as their corners are.
    let front: Vec<_> = caps.pieces.iter().filter(|p| p.id.starts_with("front")).collect();
    assert_eq!(front.len(), 2);
    assert!((front[0].flat.length_mm[0] - front[1].flat.length_mm[0]).abs() < 1e-9);
    let all = checks(&build);
    assert!(all.len() == 5 && all.iter().all(|c| c.verdict == Verdict::Passes), "{all:#?}");
    assert!(all.iter().all(|c| c.standing >= Standing::Memory && !c.explain().contains("safe")));
    assert!(build.assumed.iter().any(|a| a.field == "end_caps"));
    assert!(build.assumed.iter().any(|a| a.field == "end_caps.k" && a.standing == Standing::Memory));
}

#[test]
fn shown_as_text_and_page() {
    let build = evaluated(LIBRARY);
    for page in [text::evaluation(&build), html::evaluation(&build)] {
        assert!(page.contains("rear cap, start") && page.contains("roll to, mm") && page.contains("good edge"));
    }
    let without = evaluated(WORKSHOP);
    assert!(without.end_caps.is_none() && checks(&without).is_empty());
}

#[test]
fn without_radii_nothing_is_assessed() {
    let start = LIBRARY.find("[end_caps]").unwrap();
    let end = LIBRARY.find("[fastening]").unwrap();
    let build = evaluated(&format!("{}{}", &LIBRARY[..start], &LIBRARY[end..]));
    assert!(build.end_caps.is_none());
    let all = checks(&build);
    assert_eq!((all.len(), all[0].verdict), (1, Verdict::NotAssessed));
    assert!(all[0].reason.as_deref().unwrap().contains("[end_caps]"));
}

#[test]
fn without_rolls_or_yield_strength_no_setting() {
    let build = evaluated(&changed("rolls = {", "# rolls = {"));
    let caps = build.end_caps.as_ref().unwrap();
    assert!(caps.pieces[0].corners[0].roll_to_mm[0].is_some() && caps.pieces[0].corners[0].settings[0].is_none());
    assert!(caps.notes.iter().any(|n| n.contains("end_caps.rolls")));
    let soft = evaluated(&changed("grade = \"SS33\"", "grade = \"CS-B\""));
    assert_eq!(soft.end_caps.as_ref().unwrap().pieces[0].corners[0].roll_to_mm, [None, None]);
    let all = checks(&soft);
    let roll = all.iter().find(|c| c.name == "end cap, radius under load").unwrap();
    assert_eq!(roll.verdict, Verdict::NotAssessed);
    assert!(roll.reason.as_deref().unwrap().contains("skin.fy"));
}

#[test]
fn rolls_that_do_not_reach_fail() {
    let thick = evaluated(&changed("top_radius = \"1 1/2 in\" }\ntape", "top_radius = \"5 in\" }\ntape"));
    let all = checks(&thick);
    let roll = all.iter().find(|c| c.name == "end cap, radius under load").unwrap();
    assert_eq!(roll.verdict, Verdict::Fails);
    let wide = evaluated(&changed("spacing = \"5 in\"", "spacing = \"20 in\""));
    let all = checks(&wide);
    let flats = all.iter().find(|c| c.name == "end cap, flats at the ends").unwrap();
    assert_eq!(flats.verdict, Verdict::Fails);
    assert!(flats.reason.as_deref().unwrap().contains("bend that end first"));
}

#[rstest]
#[case("left = { radius = \"6 in\" }", "left = { radius = \"20 in\" }", "end_caps.rear.left.radius")]
#[case("left = { radius = \"6 in\" }", "left = { radius = \"1 mm\" }", "end_caps.rear.left.radius")]
#[case("top_radius = \"6 1/8 in\"", "top_radius = \"50 in\"", "end_caps.rear")]
#[case("spacing = \"5 in\"", "spacing = \"3 in\"", "end_caps.rolls.spacing")]
#[case("tape_error = \"1/32 in\"", "tape_error = \"2 in\"", "end_caps.tape_error")]
#[case("tape_error = \"1/32 in\"", "k = \"0.9\"", "end_caps.k")]
fn broken_entries(#[case] old: &str, #[case] new: &str, #[case] path: &str) {
    let Err(Error::Input(problems)) = Plan::from_text(&changed(old, new), ".".as_ref()) else {
        panic!("must be refused")
    };
    assert!(problems.iter().any(|p| p.problem.path() == path), "{problems:#?}");
}

#[test]
fn a_sharp_corner_asks_for_k() {
    // 10 mm in 1.31 mm sheet: gentler than the table, sharper than the rule.
    let text = changed("left = { radius = \"6 in\" }", "left = { radius = \"10 mm\" }");
    let Err(Error::Input(problems)) = Plan::from_text(&text, ".".as_ref()) else { panic!("must be refused") };
    assert_eq!(problems[0].problem.path(), "end_caps.k");
    let given = text.replace("tape_error = \"1/32 in\"", "k = \"0.48\"");
    assert!(evaluated(&given).end_caps.is_some());
}

#[test]
fn all_at_once_and_only_for_a_whole_roof() {
    let text = changed("spacing = \"5 in\"", "spacing = \"3 in\"").replace("radius = \"8 in\"", "radius = \"1 mm\"");
    let Err(Error::Input(problems)) = Plan::from_text(&text, ".".as_ref()) else { panic!("must be refused") };
    assert_eq!(problems.len(), 3, "{problems:#?}");
    let stepped = evaluated(&changed("ends = \"whole roof\"", "ends = \"stepped\""));
    assert!(stepped.end_caps.is_none());
    let all = checks(&stepped);
    assert_eq!((all.len(), all[0].verdict), (1, Verdict::NotAssessed));
    assert!(all[0].reason.as_deref().unwrap().contains("not used here"));
    let neither =
        changed(REAR, "").replace("front = { left = { radius = \"8 in\" }, right = { radius = \"8 in\" } }", "");
    let Err(Error::Input(problems)) = Plan::from_text(&neither, ".".as_ref()) else { panic!("must be refused") };
    assert_eq!(problems[0].problem.path(), "end_caps.rear");
}
