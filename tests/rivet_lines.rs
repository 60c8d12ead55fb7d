//! Rivet lines and seams: a pitch worked by hand, brute force against the layout, and laws on whole plans.

use proptest::prelude::*;
use raisedbody::body::rivet_lines::{LineKind, RivetLine, spaces};
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

// By hand: a line of 2438.4 mm with 12.7 mm to each end has 2413 mm for 31.75 mm spaces: 76 of them, 77 holes. There the
// number of spaces is rounded; here it is rounded up, so that the widest spacing never exceeds what was asked: the two
// differ where a part of a space is left below one half (the last two rows, 3 by rounding).
#[rstest]
#[case(2438.4 - 2.0 * 12.7, 31.75, 76)]
#[case(711.2, 107.95, 7)]
#[case(711.2, 711.2, 1)]
#[case(100.0, 711.2, 1)]
#[case(900.0, 300.0, 3)]
#[case(901.0, 300.0, 4)]
#[case(1000.0, 300.0, 4)]
fn spaces_on_a_length(#[case] length_mm: f64, #[case] pitch_mm: f64, #[case] count: usize) {
    assert_eq!(spaces(length_mm, pitch_mm), count);
}

proptest! {
    #[test]
    fn the_fewest_spaces_within_the_pitch(length in 1.0..5000.0f64, pitch in 5.0..400.0f64) {
        let n = spaces(length, pitch);
        let leeway = 1.0 + 1e-9;
        prop_assert!(length / n as f64 <= pitch * leeway);
        prop_assert!(n == 1 || length / (n - 1) as f64 > pitch);
    }
}

fn plan(name: &str) -> Plan {
    Plan::read(format!("examples/{name}.toml")).unwrap()
}

fn changed(name: &str, changes: &str) -> Evaluation {
    plan(name).replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap()
}

fn along_a_side(line: &RivetLine) -> bool {
    matches!(line.kind, LineKind::Top | LineKind::Bottom | LineKind::Course)
}

#[rstest]
fn laws_of_whole_plans(
    #[values("mobile_library", "workshop_bus")] name: &str,
    #[values("60 mm", "4 1/4 in", "150 mm")] pitch: &str,
    #[values("1 m", "1219 mm")] height: &str,
    #[values("1 m", "3048 mm")] length: &str,
) {
    let build = changed(
        name,
        &format!(
            "fastening.pitch = \"{}\"\nskin.largest_sheet = {{ length = \"{length}\", height = \"{height}\" }}",
            pitch.replace('"', "\\\"")
        ),
    );
    let limit_mm = raisedbody::quantity::Kind::Length.parse(pitch).unwrap() * (1.0 + 1e-9);
    assert!(!build.lines.is_empty());
    for line in &build.lines {
        assert!(line.pitch_mm <= limit_mm, "{}: {} over {pitch}", line.id, line.pitch_mm);
        assert!(line.holes_mm.is_sorted_by(|a, b| a < b), "{}", line.id);
        assert!(line.holes_mm.iter().all(|s| (-1e-9..=line.length_mm() + 1e-9).contains(s)), "{}", line.id);
        assert_eq!(line.hole_places_mm().count(), line.holes_mm.len());
        match line.kind {
            LineKind::Post | LineKind::Seam => {
                // Both ends are drilled, and no space is wider than told; equal spaces between lines along the side.
                assert!(line.holes_mm[0].abs() < 1e-9, "{}", line.id);
                assert!((line.holes_mm.last().unwrap() - line.length_mm()).abs() < 1e-9, "{}", line.id);
                let widest = line.holes_mm.windows(2).map(|p| p[1] - p[0]).fold(0.0, f64::max);
                assert!((widest - line.pitch_mm).abs() < 1e-9, "{}", line.id);
                equal_between_levels(&build, line);
            }
            _ if along_a_side(line) => equal_between_posts(&build, line),
            _ => {}
        }
    }
    // What is drilled is counted once, bought with spares, and sealed where sheet meets sheet.
    let holes: usize = build.lines.iter().map(|l| l.holes_mm.len()).sum();
    assert_eq!(build.takeoff.rivets, holes);
    // One tenth more, rounded up.
    let exact = (holes * 11).div_ceil(10);
    assert_eq!(build.takeoff.rivets_ordered, exact);
    let metres = |keep: &dyn Fn(&RivetLine) -> bool| {
        build.lines.iter().filter(|l| keep(l)).map(|l| l.length_mm() / 1000.0).sum::<f64>()
    };
    assert!((build.takeoff.line_length_m - metres(&|_| true)).abs() < 1e-9);
    assert!((build.takeoff.sealed_length_m - metres(&|l| l.kind != LineKind::Post)).abs() < 1e-9);
    // Every line is in one joint, and no joint is checked for less than its lines carry.
    for line in &build.lines {
        let joints: Vec<_> = build.joints.iter().filter(|j| j.lines.contains(&line.id)).collect();
        assert_eq!(joints.len(), 1, "{}", line.id);
        assert!(joints[0].tributary_mm >= line.tributary_mm && (joints[0].pitch_mm - line.pitch_mm).abs() < 0.05);
    }
}

/// The holes of a line on a post stand at equal spaces between the lines that cross it.
fn equal_between_levels(build: &Evaluation, line: &RivetLine) {
    let runs = build.skins.runs.iter().filter(|run| Some(run.side) == line.side);
    let beside = runs.filter(|run| {
        let posts = &build.survey.posts_mm[run.first_post..=run.last_post];
        posts.iter().any(|x| (x - line.from_mm.0).abs() < 1e-9)
    });
    let mut levels: Vec<f64> = beside.flat_map(|run| run.lines_mm.iter().map(|z| z - line.from_mm.1)).collect();
    let edge_mm = build.skins.sheets[0].z1_mm - build.skins.runs[0].lines_mm[0];
    let post = build.survey.posts_mm.iter().position(|x| (x - line.from_mm.0).abs() < 1e-9).unwrap();
    let panels = build.skins.panels_on_post(line.side.unwrap(), post);
    levels.extend(panels.map(|panel| panel.lower_line_mm(edge_mm) - line.from_mm.1));
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|a, b| (*a - *b).abs() < 1.0);
    for pair in levels.windows(2) {
        let inner: Vec<f64> =
            line.holes_mm.iter().copied().filter(|s| *s > pair[0] - 1e-6 && *s < pair[1] + 1e-6).collect();
        let step = (pair[1] - pair[0]) / (inner.len() - 1) as f64;
        assert!(inner.windows(2).all(|p| (p[1] - p[0] - step).abs() < 1e-6), "{}", line.id);
    }
}

/// The holes of a line along a side, with the posts' own holes between them, stand at equal spaces between posts.
fn equal_between_posts(build: &Evaluation, line: &RivetLine) {
    let posts: Vec<f64> = build.survey.posts_mm.iter().map(|x| x - line.from_mm.0).collect();
    for pair in posts.windows(2).filter(|p| p[0] > -1e-9 && p[1] < line.length_mm() + 1e-9) {
        let inner: Vec<f64> = line.holes_mm.iter().copied().filter(|s| *s > pair[0] && *s < pair[1]).collect();
        let all: Vec<f64> = std::iter::once(pair[0]).chain(inner).chain([pair[1]]).collect();
        let step = (pair[1] - pair[0]) / (all.len() - 1) as f64;
        assert!(step <= line.pitch_mm + 1e-9, "{}", line.id);
        assert!(all.windows(2).all(|p| (p[1] - p[0] - step).abs() < 1e-9), "{}", line.id);
    }
}

// No place is drilled twice, on a side or across an end: holes on posts belong to the posts' lines alone, those at the
// corners of panels to one of the edges. Closer than a millimetre is the same place.
#[rstest]
fn no_place_is_drilled_twice(
    #[values("mobile_library", "workshop_bus")] name: &str,
    #[values("60 mm", "4 1/4 in")] pitch: &str,
    #[values("1 m", "3048 mm")] length: &str,
) {
    let pitch_mm = raisedbody::quantity::Kind::Length.parse(pitch).unwrap();
    let build = changed(
        name,
        &format!(
            "fastening.pitch = \"{pitch_mm} mm\"\nskin.largest_sheet = {{ length = \"{length}\", height = \"1 m\" }}"
        ),
    );
    let face = |l: &RivetLine| match l.side {
        Some(side) => side.name().to_owned(),
        None => l.id.split(' ').next().unwrap().to_owned(),
    };
    for here in ["left", "right", "rear", "front"] {
        let lines = build.lines.iter().filter(|l| face(l) == here);
        let mut places: Vec<(f64, f64)> = lines.flat_map(RivetLine::hole_places_mm).collect();
        assert!(!places.is_empty(), "{here}");
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (i, a) in places.iter().enumerate() {
            let near = places[i + 1..].iter().take_while(|b| b.0 - a.0 < 1.0);
            assert_eq!(near.copied().find(|b| (a.0 - b.0).hypot(a.1 - b.1) < 1.0), None, "{a:?} on the {here}");
        }
    }
}

// Every upright lap of two sheets stands on a post where they really meet, the forward one over the rearward one.
#[rstest]
fn seams_stand_on_posts(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = changed(name, "skin.largest_sheet = { length = \"2 m\", height = \"1219 mm\" }");
    let sheet = |id: &str| build.skins.sheets.iter().find(|s| s.id == id);
    let mut seams = 0;
    for lap in &build.skins.laps {
        let (Some(over), Some(under), Some(post)) = (sheet(&lap.over), sheet(&lap.under), lap.post) else { continue };
        seams += 1;
        assert_eq!((over.first_post, under.last_post), (post, post));
        let x_mm = build.survey.posts_mm[post];
        assert!(over.x0_mm < x_mm && x_mm < under.x1_mm, "the sheets lap on post {post}");
        let line = build.lines.iter().find(|l| {
            l.side == lap.side && (l.from_mm.0 - x_mm).abs() < 1e-9 && matches!(l.kind, LineKind::Post | LineKind::Seam)
        });
        assert_eq!(line.unwrap().kind, LineKind::Seam);
    }
    assert!(seams > 0);
}
