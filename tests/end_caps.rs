//! The end caps of a plan: blanks from its raised band, what is refused, what is not assessed. Plans are invented.

use raisedbody::Error;
use raisedbody::body::rivet_lines::RivetLine;
use raisedbody::body::skins::{EndPanel, Wrap};
use raisedbody::body::survey::Side;
use raisedbody::check::{Check, Standing, Verdict};
use raisedbody::drawing::side_view;
use raisedbody::drawing::{html, text};
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

use crate::common::{without_cutting, without_end_caps};

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
    let bands = evaluated(&without_end_caps(LIBRARY));
    let rail = bands.skins.ends.iter().find(|e| e.id == "rear band").unwrap().length_mm / 25.4 - 1.25;
    // The band has the width at the drip rail; a raise and an edge distance lower, where the cap begins, the body is wider by
    // 1 1/2 in on 32 a side.
    let width = rail + 2.0 * 1.5 / 32.0 * (400.0 / 25.4 + 0.625);
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
    let build = evaluated(&without_end_caps(LIBRARY));
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
#[case("rear = { left", "rear = { reach_left = \"20 in\", left", "end_caps.rear.reach_left")]
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

const EDGE_MM: f64 = 15.875;

fn caps(build: &Evaluation) -> Vec<(&EndPanel, &Wrap)> {
    build.skins.ends.iter().filter_map(|end| Some((end, end.wrap.as_ref()?))).collect()
}

// Blank, mass, laps, rivets, backers and order of each cap, each once: the pieces of an end are those that are developed. Without
// stock, so that each is in the order list under its own name.
#[rstest]
#[case("")]
#[case("reach_left = \"11 in\", ")]
fn each_cap_is_counted_once(#[case] reach: &str) {
    let build = evaluated(&without_cutting(&changed("rear = { left", &format!("rear = {{ {reach}left"))));
    let developed = &build.end_caps.as_ref().unwrap().pieces;
    assert_eq!(caps(&build).len(), developed.len());
    let strips: Vec<_> = build.skins.ends.iter().filter(|end| end.wrap.is_none()).map(|end| end.id.as_str()).collect();
    assert_eq!(strips, if reach.is_empty() { vec![] } else { vec!["rear corner, left"] });
    let of = |l: &RivetLine, id: &str| l.of_panel.is_some_and(|(i, _)| build.skins.ends[i].id == id);
    let own = |id: &str| build.lines.iter().filter(|l| of(l, id)).collect::<Vec<_>>();
    for ((end, wrap), flat) in caps(&build).iter().zip(developed) {
        assert_eq!((&end.id, [end.length_mm, end.height_mm]), (&flat.id, flat.flat.rectangle_mm));
        let blank_m2 = end.length_mm * end.height_mm / 1e6;
        assert!((end.mass_kg - blank_m2 * build.sheet_areal_mass_kg_m2).abs() < 1e-9);
        // The sides lean by 1 1/2 in on 32, so that the flat bends and leaves wedges of its rectangle.
        assert!(end.area_m2() < blank_m2 && end.area_m2() > 0.7 * blank_m2, "{} {blank_m2}", end.area_m2());
        let mean_mm = f64::midpoint(flat.flat.length_mm[0], flat.flat.length_mm[1]);
        assert!((end.area_m2() - mean_mm * wrap.upright_mm / 1e6).abs() < 1e-3 * blank_m2);
        assert!((wrap.along_mm() + 2.0 * EDGE_MM - flat.flat.length_mm[0]).abs() < 1e-6);
        // Above and below it laps all along between its outermost rivets.
        let level = |over: bool| {
            let laps = build.skins.laps.iter().filter(|l| l.kind == raisedbody::body::skins::LapKind::Level);
            laps.filter(|l| if over { l.over == end.id } else { l.under == end.id }).map(|l| l.length_mm).sum::<f64>()
        };
        assert!((level(true) - wrap.along_mm()).abs() < 1e-6 && (level(false) - wrap.along_mm()).abs() < 1e-6);
        // So run its rivets, and what lies behind them.
        for edge in ["upper edge", "lower edge"] {
            let length: f64 = own(&end.id).iter().filter(|l| l.id.contains(edge)).map(|l| l.length_mm()).sum();
            let (left_mm, right_mm) = wrap.round_mm();
            let shorter_mm = if edge == "upper edge" { left_mm - right_mm - wrap.upper_round_mm } else { 0.0 };
            assert!((length - wrap.along_mm() + shorter_mm).abs() < 1e-6, "{edge} {length}");
            // Of the flat's own edge, but for what the legs differ up the cone.
            let own_mm = flat.flat.length_mm[usize::from(edge == "upper edge")];
            assert!((length + 2.0 * EDGE_MM - own_mm).abs() < 6.0, "{edge} {length} {own_mm}");
        }
        let behind = |word: &str| {
            let start = format!("{}, {word}", end.id);
            build.takeoff.backers.iter().filter(|b| b.behind.starts_with(&start)).map(|b| b.length_mm).sum::<f64>()
        };
        assert!((behind("lower edge") - wrap.along_mm()).abs() < 1e-6);
        let in_order: Vec<_> =
            build.order.iter().filter(|l| l.item.starts_with("sheet") && l.note.contains(&end.id)).collect();
        assert_eq!(in_order.len(), 1);
        let masses = build.items.iter().filter(|item| item.name == format!("skin {}", end.id)).count();
        assert_eq!((masses, build.hanging_order.iter().filter(|row| row.sheet == end.id).count()), (1, 1));
    }
    assert!(build.order.iter().all(|l| !l.note.contains("band")));
    let parts: f64 = build.skins.sheets.iter().map(|s| s.area_m2()).sum::<f64>()
        + build.skins.ends.iter().map(EndPanel::area_m2).sum::<f64>();
    assert!((build.takeoff.skin_area_m2 - parts).abs() < 1e-9);
    assert_eq!(build.rivet_lots.iter().map(|l| l.stacked.holes).sum::<usize>(), build.takeoff.rivets);
    assert_eq!(build.takeoff.sheets, build.hanging_order.len());
    let place = |l: &RivetLine, p: (f64, f64)| (l.side, l.side.is_none().then(|| l.id.starts_with("rear")), p);
    let all: Vec<_> = build.lines.iter().flat_map(|l| l.hole_places_mm().map(move |p| place(l, p))).collect();
    for (i, a) in all.iter().enumerate() {
        let twice =
            all[i + 1..].iter().find(|b| a.0 == b.0 && a.1 == b.1 && (a.2.0 - b.2.0).hypot(a.2.1 - b.2.1) < 1.0);
        assert_eq!(twice, None, "{a:?}");
    }
}

// The rear cap hangs under the first sheets of both sides, the front one over the last; of two pieces the left lies outside. A
// strip between a cap and its post laps over the cap at the rear, where the wind comes from ahead.
#[test]
fn caps_hang_by_their_laps() {
    let build = evaluated(&changed("rear = { left", "rear = { reach_left = \"11 in\", left"));
    assert!(build.skins.laps.iter().all(|lap| lap.fault.is_none()));
    let at = |name: &str| build.hanging_order.iter().position(|row| row.sheet == name).unwrap();
    let laps = |over: &str, under: &str| build.skins.laps.iter().filter(|l| l.over == over && l.under == under).count();
    let pairs = [
        ("R-A1", "rear cap"),
        ("rear corner, left", "rear cap"),
        ("L-A1", "rear corner, left"),
        ("front cap, 1 of 2", "L-A3"),
        ("front cap, 2 of 2", "R-A3"),
        ("front cap, 1 of 2", "front cap, 2 of 2"),
    ];
    for (over, under) in pairs {
        assert_eq!(laps(over, under), 1, "{over} over {under}");
        assert!(at(under) < at(over), "{over} over {under}");
    }
    assert_eq!(laps("L-A1", "rear cap"), 0);
    let uprights: Vec<_> =
        build.takeoff.backers.iter().filter(|b| b.behind.contains("upright")).map(|b| &b.behind).collect();
    assert_eq!(uprights, ["rear cap, upright at its end", "front cap, 1 of 2, upright at the seam"]);
    // Drawn where it lies on the side: the strip's end 11 in from the rear face.
    assert!(side_view(&build, Side::Left).contains("rear cap") && side_view(&build, Side::Right).contains("front cap"));
}

// By hand: sharp corners, R 5 mm and t 1.31 mm, lose about 2 (R + t) − π/2 (R + 0.48 t) = 3.8 mm each against square ones; bands
// and corners lap with 2 edges at each of four corners, the front cap once at its seam.
#[test]
fn a_sharp_cap_is_band_and_corners() {
    let radii = ["6 in", "6 1/8 in", "8 in"];
    let sharp = radii
        .iter()
        .fold(LIBRARY.to_owned(), |text, r| text.replace(&format!("radius = \"{r}\""), "radius = \"5 mm\""));
    let longer = |text: String| evaluated(&text.replace("length = \"10 ft\"", "length = \"12 ft\""));
    let cap = longer(sharp.replace("tape_error = \"1/32 in\"", "k = \"0.48\""));
    let band = longer(without_end_caps(LIBRARY));
    assert_eq!(caps(&cap).len(), 3);
    let height_mm = caps(&cap)[0].1.upright_mm;
    let ends_mm = |b: &Evaluation| b.skins.ends.iter().map(EndPanel::area_m2).sum::<f64>() * 1e6 / height_mm;
    let less_mm = ends_mm(&band) - ends_mm(&cap);
    // Sides lean in by 1 1/2 in on 32: below the rail, whose width a band has all the way down, a cap is wider.
    let lean_mm = 4.0 * 0.5 * 1.5 / 32.0 * height_mm;
    assert!((less_mm - 3.0 * 2.0 * EDGE_MM - 4.0 * 3.8 + lean_mm).abs() < 6.0, "{less_mm}");
    let sealed = |b: &Evaluation| b.takeoff.sealed_length_m;
    // Upper and lower edges lose 4 × 3.8 mm each, four joints at the corners become one seam.
    let joints_m = 3.0 * (height_mm - 2.0 * EDGE_MM) / 1000.0;
    // Lower edges are longer than a band's by the lean of both sides over the raise.
    let wider_m = 2.0 * 2.0 * 1.5 / 32.0 * 0.4;
    let less_m = sealed(&band) - sealed(&cap);
    assert!((less_m - joints_m - 8.0 * 0.0038 + wider_m).abs() < 0.004, "{less_m}");
    assert!((band.takeoff.drip_rail_m - cap.takeoff.drip_rail_m).abs() < 1e-9);
    let middle = |b: &Evaluation| {
        let area: f64 = b.skins.ends.iter().map(EndPanel::area_m2).sum();
        b.skins.ends.iter().map(|e| e.area_m2() * e.x_mm).sum::<f64>() / area
    };
    assert!((middle(&band) - middle(&cap)).abs() < 60.0, "{} {}", middle(&band), middle(&cap));
    assert!(cap.mass.skin_kg < band.mass.skin_kg && cap.takeoff.rivets < band.takeoff.rivets);
    assert!(cap.quote.as_ref().unwrap().total < band.quote.as_ref().unwrap().total);
}

// Both examples: the workshop bus has slopes, which no cap closes, and the library's own cuts count its caps.
#[test]
fn no_cap_where_the_plan_has_none() {
    assert!(caps(&evaluated(WORKSHOP)).is_empty());
    let stepped = evaluated(&changed("ends = \"whole roof\"", "ends = \"stepped\""));
    assert!(caps(&stepped).is_empty() && stepped.skins.ends.iter().any(|e| e.id == "rear step"));
    let plan = Plan::from_text(LIBRARY, ".".as_ref()).unwrap();
    let cuts = plan.cuts().unwrap();
    let build = evaluated(LIBRARY);
    let own = cuts.all.iter().find(|cut| cut.raise == build.raise);
    assert!(
        own.and_then(|cut| cut.figures.as_ref())
            .is_none_or(|f| (f.skin_area_m2 - build.takeoff.skin_area_m2).abs() < 1e-9)
    );
}

// One lifts 23 × 0.6 = 13.8 kg: the rear cap of 18 kg comes in two.
#[test]
fn what_nobody_lifts_is_halved() {
    let build = evaluated(&changed(
        "lower_edge = \"window bottom\"",
        "lower_edge = \"window bottom\"\npeople = 1\nlifting_factor = \"0.6\"",
    ));
    let ids: Vec<_> = caps(&build).iter().map(|(end, _)| end.id.clone()).collect();
    assert_eq!(ids, ["rear cap, 1 of 2", "rear cap, 2 of 2", "front cap, 1 of 2", "front cap, 2 of 2"]);
}
