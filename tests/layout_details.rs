//! Details of layout, counts and comparisons on the example plans. (No published source: arithmetic by hand.)

use raisedbody::Error;
use raisedbody::body::rivet_lines::LineKind;
use raisedbody::body::skins::{SeamPolicy, seams_on_posts};
use raisedbody::body::survey::Side;
use raisedbody::plan::{Evaluation, Plan, compare};

use crate::common::without_end_caps;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

fn read(text: &str) -> Plan {
    Plan::from_text(text, ".".as_ref()).unwrap()
}

fn changed(base: &str, changes: &str) -> Evaluation {
    read(base).replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap()
}

#[test]
fn a_blank_is_never_smaller_than_its_sheet() {
    let e = read(LIBRARY).evaluate().unwrap();
    for b in &e.takeoff.blanks {
        for s in e.skins.sheets.iter().filter(|s| b.ids.contains(&s.id)) {
            assert!(b.length_mm >= s.length_mm() - 1e-5, "{} {}", b.length_mm, s.length_mm());
            assert!(b.height_mm >= s.height_mm() - 1e-5, "{} {}", b.height_mm, s.height_mm());
        }
    }
}

#[test]
fn rounding_adds_no_millimetre_to_the_height() {
    let text = LIBRARY
        .replace("\"3.02 m\"", &format!("\"{} in\"", 3020.0 / 25.4))
        .replace("height = \"400 mm\"", &format!("height = \"{} in\"", 400.0 / 25.4));
    let e = read(&text).evaluate().unwrap();
    assert_eq!(e.checks.iter().find(|c| c.name == "overall height").unwrap().demand, Some(3420.0));
}

#[test]
fn rounding_adds_no_rivet_to_the_order() {
    // A tenth more than 1380 is 1518.
    let e =
        changed(LIBRARY, "fastening.pitch = \"60 mm\"\nskin.largest_sheet = { length = \"1 m\", height = \"1 m\" }");
    assert_eq!(e.takeoff.rivets_ordered, (e.takeoff.rivets * 11).div_ceil(10));
}

#[test]
fn no_posts_have_no_seams() {
    for policy in SeamPolicy::ALL {
        assert_eq!(seams_on_posts(&[], 1.0, 1.0, policy, &[]), Ok(Vec::new()));
    }
}

#[test]
fn end_panels_keep_to_the_tallest_sheet() {
    let result = read(LIBRARY).replace(&"raise.height = \"1.2 m\"".parse().unwrap());
    let Err(Error::Input(problems)) = result else { panic!("1232 mm from a sheet of 1219 mm") };
    assert_eq!(problems[0].problem.path(), "skin.largest_sheet.height");
}

#[test]
fn pieces_of_a_corner_are_joined() {
    // Front corner from 6667.5 to 8050 mm in two pieces.
    let e = changed(&without_end_caps(LIBRARY), "skin.largest_sheet.length = \"1 m\"");
    let middle = f64::midpoint(6667.5, 8050.0);
    let upright = e
        .lines
        .iter()
        .any(|l| l.side == Some(Side::Left) && (l.from_mm.0 - middle).abs() < 1.0 && (l.to_mm.0 - middle).abs() < 1.0);
    assert!(upright);
}

#[test]
fn every_corner_of_an_edge_has_a_hole() {
    let e = changed(WORKSHOP, "raise.windows_kept = [3, 4]");
    let left = || e.lines.iter().filter(|l| l.side == Some(Side::Left));
    let holes: Vec<_> = left().flat_map(|l| l.hole_places_mm()).collect();
    for l in left().filter(|l| matches!(l.kind, LineKind::Top | LineKind::Bottom | LineKind::Course)) {
        for end in [l.from_mm, l.to_mm] {
            assert!(holes.iter().any(|p| (p.0 - end.0).hypot(p.1 - end.1) < 1e-6), "{} at {end:?}", l.id);
        }
    }
}

#[test]
fn tilt_counts_what_stands_to_one_side() {
    let e = read(LIBRARY).evaluate().unwrap();
    let (_, high) = e.mass.after.unwrap();
    assert!(high.y_mm.abs() > 20.0);
    let angle = ((1950.0 / 2.0 - high.y_mm.abs()) / high.z_mm).atan().to_degrees();
    assert!((e.mass.tilt_after_deg.unwrap().high - angle).abs() < 1e-9, "{angle}");
}

#[test]
fn a_change_far_inside_a_list_is_a_difference() {
    let (a, b) = (read(LIBRARY), read(&LIBRARY.replace("mass = \"210 kg\"", "mass = \"510 kg\"")));
    let table = compare(&[("a", &a), ("b", &b)]).unwrap();
    assert_eq!(table.differences, [("fit_out[2].mass".to_owned(), vec!["210 kg".to_owned(), "510 kg".to_owned()])]);
}

#[test]
fn replacing_a_post_by_name_drops_its_old_sizes() {
    let by_name = changed(LIBRARY, "survey.post.section = \"40x40x2 tube\"");
    let start = LIBRARY.find("post = {").unwrap();
    let end = start + LIBRARY[start..].find('\n').unwrap();
    let own = LIBRARY.replace(&LIBRARY[start..end], "post = { section = \"40x40x2 tube\" }");
    assert_eq!(by_name.joints, read(&own).evaluate().unwrap().joints);
}

#[test]
fn control_characters_leave_a_readable_picture() {
    let svg = raisedbody::drawing::side_view(&changed(LIBRARY, "name = \"a\\u0001b\""), Side::Left);
    assert!(!svg.contains('\u{1}') && svg.contains("ab"));
}

#[cfg(unix)]
#[test]
fn a_written_plan_has_the_permissions_of_any_new_file() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let (ours, plain) = (folder.path().join("plan.toml"), folder.path().join("plain"));
    read(LIBRARY).write(&ours, false).unwrap();
    std::fs::write(&plain, "").unwrap();
    let mode = |path| std::fs::metadata(path).unwrap().permissions().mode();
    assert_eq!(mode(&ours), mode(&plain));
}
