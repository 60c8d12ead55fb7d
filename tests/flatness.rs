//! How flat skins lie: published and worked examples, scaling, limits, and the section of a plan.

use proptest::prelude::*;
use raisedbody::body::flatness::{
    Bounds, Hold, Lies, Metal, SuctionBows, Warmth, crown_radius_mm, crown_rise_mm, drumming_hz, flat_side_mm,
    hang_over_frame_k, lying, lying_within, rise_k,
};
use raisedbody::body::panels::Part;
use raisedbody::body::skin_loads::Zone;
use raisedbody::body::survey::Side;
use raisedbody::check::{Check, Verdict};
use raisedbody::mechanics::panel::{Edges, Panel};
use raisedbody::plan::{Evaluation, FlatPanel, PanelRow, Plan};
use rstest::rstest;

use crate::common::without_end_caps;

const BOTH: [Edges; 2] = [Edges::Simple, Edges::Clamped];
const WHOLLY: Hold = Hold { least: 0.0, most: 1.0 };
/// 20 gauge steel as in the worked examples: E 205 000 MPa, ν 0.3, α 12e-6 /K.
const STEEL: Metal = Metal { thickness_mm: 0.912, modulus_mpa: 205_000.0, poisson: 0.3, expansion_per_k: 12e-6 };
const ALUMINIUM: Metal = Metal { thickness_mm: 1.6, modulus_mpa: 70_000.0, poisson: 0.33, expansion_per_k: 23e-6 };

fn close(a: f64, b: f64, share: f64) -> bool {
    (a - b).abs() <= share * b.abs().max(1e-12)
}

fn build(changes: &str) -> Evaluation {
    let plan = Plan::read("examples/mobile_library.toml").unwrap();
    plan.replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap()
}

fn refused(changes: &str) -> Vec<String> {
    let plan = Plan::read("examples/mobile_library.toml").unwrap();
    match plan.replace(&changes.parse().unwrap()) {
        Err(raisedbody::Error::Input(problems)) => problems.iter().map(|p| p.problem.path().to_owned()).collect(),
        other => panic!("not refused: {other:?}"),
    }
}

fn check<'a>(build: &'a Evaluation, name: &str) -> &'a Check {
    build.checks.iter().find(|c| c.name == name).unwrap()
}

// By hand: k π² (t/b)²/(12 (1 + ν) α), long panel 711.2 mm wide, k 1 simple and 4 clamped (one cylindrical wave; 3.8 with
// the wave of least stress).
#[test]
fn a_held_panel_buckles_within_a_degree() {
    let l = lying([20_000.0, 711.2], &STEEL, WHOLLY, 1.0, &BOTH).unwrap();
    assert!(close(l.critical_k.0, 0.087, 0.01), "{l:?}");
    assert!(close(l.critical_k.1, 0.347 * 3.8 / 4.0, 0.02), "{l:?}");
    assert_eq!(l.lies, Lies::Buckles);
}

// By hand: (2 b/π) √((1 + ν) α ΔT - π² t²/(12 b²)).
#[rstest]
#[case(30.0, 9.78)]
#[case(10.0, 5.63)]
fn it_then_bows(#[case] rise_k: f64, #[case] bow_mm: f64) {
    let l = lying([20_000.0, 711.2], &STEEL, WHOLLY, rise_k, &BOTH).unwrap();
    assert!(close(l.bow_mm.1, bow_mm, 1e-3), "{l:?}");
    assert_eq!(l.bow_mm.0, 0.0, "held by nothing it lies flat");
    // Wholly held it bows at least as far as clamped edges let it.
    let held = lying([20_000.0, 711.2], &STEEL, Hold { least: 1.0, most: 1.0 }, rise_k, &BOTH).unwrap();
    assert!(held.bow_mm.0 > 0.9 * bow_mm && held.bow_mm.0 < held.bow_mm.1);
}

// 40 K held both ways: E α ΔT/(1 - ν) = 140.6 MPa.
#[test]
fn a_colder_skin_pulls() {
    let l = lying([700.0, 600.0], &STEEL, WHOLLY, -40.0, &BOTH).unwrap();
    assert_eq!((l.lies, l.bow_mm), (Lies::Tension, (0.0, 0.0)));
    assert!(close(l.line_n_mm.1 / STEEL.thickness_mm, 140.6, 1e-3));
    assert_eq!(STEEL.flat_force_n_mm(-40.0), -l.line_n_mm.1);
}

#[test]
fn equally_warm_gains_nothing() {
    let [cool, warm] = [5.0, 45.0].map(|t| Warmth { skin_deg_c: t, frame_deg_c: t });
    assert_eq!(rise_k(&STEEL, 12e-6, warm, cool), 0.0);
    // Of another metal it does not hold.
    assert!(close(rise_k(&ALUMINIUM, 12e-6, warm, cool), 40.0 * (23.0 - 12.0) / 23.0, 1e-12));
    let l = lying([700.0, 600.0], &STEEL, WHOLLY, 0.0, &BOTH).unwrap();
    assert_eq!((l.lies, l.bow_mm, l.line_n_mm), (Lies::Tension, (0.0, 0.0), (0.0, 0.0)));
}

#[rstest]
#[case::too_small([15.0, 700.0], 5.0)]
#[case::too_long([25_000.0, 700.0], 5.0)]
#[case::too_hot([700.0, 600.0], 200.0)]
fn outside_the_rules_nothing_is_told(#[case] size_mm: [f64; 2], #[case] rise_k: f64) {
    assert!(lying(size_mm, &STEEL, WHOLLY, rise_k, &BOTH).is_err());
}

proptest! {
    // The critical rise goes with (t/b)² where the shape stays.
    #[test]
    fn critical_rise_scales(a in 200.0..900.0_f64, b in 200.0..900.0_f64, t in 0.6..2.0_f64, times in 1.0..3.0_f64) {
        let of = |size: [f64; 2], t: f64| {
            lying(size, &Metal { thickness_mm: t, ..STEEL }, WHOLLY, 5.0, &BOTH).unwrap().critical_k
        };
        let (base, wider, thicker) = (of([a, b], t), of([a * times, b * times], t), of([a, b], t * times));
        prop_assert!(close(base.0 / wider.0, times * times, 1e-9) && close(thicker.1 / base.1, times * times, 1e-9));
        prop_assert!(base.0 < base.1);
        // The size at which it would just stay flat has the rise as its critical one.
        let l = lying([a, b], &Metal { thickness_mm: t, ..STEEL }, WHOLLY, 5.0, &BOTH).unwrap();
        let (simple, clamped) = flat_side_mm(a.min(b), &l).unwrap();
        let at = |short: f64| of([a, b].map(|side| side * short / a.min(b)), t);
        prop_assume!(simple > 20.0 * t);
        prop_assert!(close(at(simple).0, 5.0, 1e-9) && close(at(clamped).1, 5.0, 1e-9));
    }

    // Hung as told, the sheet is neither pulled nor pressed in the sun; colder, it is pressed.
    #[test]
    fn hung_as_told(skin in 20.0..90.0_f64, frame in 0.0..50.0_f64, hung in -10.0..40.0_f64, allowed in 0.0..5.0_f64) {
        for metal in [STEEL, ALUMINIUM] {
            let hot = Warmth { skin_deg_c: skin, frame_deg_c: frame };
            let over = hang_over_frame_k(&metal, 12e-6, hot, hung, allowed);
            let day = Warmth { skin_deg_c: hung + over, frame_deg_c: hung };
            prop_assert!((rise_k(&metal, 12e-6, hot, day) - allowed).abs() < 1e-9);
            let colder = Warmth { skin_deg_c: hung + over - 1.0, ..day };
            prop_assert!(rise_k(&metal, 12e-6, hot, colder) > allowed);
        }
    }

    // More held, more sun: never a smaller bow, never another order of low and high.
    #[test]
    fn more_is_never_flatter(b in 200.0..900.0_f64, rise in 0.0..60.0_f64, more in 0.0..20.0_f64, least in 0.0..1.0_f64) {
        let at = |rise: f64, hold: Hold| lying([711.0, b], &STEEL, hold, rise, &BOTH).unwrap();
        let (base, hotter) = (at(rise, Hold { least, most: 1.0 }), at(rise + more, Hold { least, most: 1.0 }));
        prop_assert!(base.bow_mm.0 <= base.bow_mm.1 && base.line_n_mm.0 <= base.line_n_mm.1 + 1e-12);
        prop_assert!(hotter.bow_mm.0 >= base.bow_mm.0 && hotter.bow_mm.1 >= base.bow_mm.1);
        let looser = at(rise, Hold { least, most: least.max(0.5) });
        prop_assert!(looser.bow_mm.1 <= base.bow_mm.1 && looser.critical_k.0 >= base.critical_k.0);
    }

    // A crown of the radius told carries the stress of the wholly held heat, by the lowest and the highest of tests.
    #[test]
    fn a_crown_holds(b in 200.0..700.0_f64, rise in 2.0..60.0_f64) {
        if let Some((least, most)) = crown_radius_mm(b, &STEEL, rise) {
            let wanted = STEEL.modulus_mpa * STEEL.expansion_per_k * rise;
            let at = |radius_mm: f64| {
                let Metal { thickness_mm, modulus_mpa, poisson, .. } = STEEL;
                let panel = Panel {
                    a_mm: 2.0 * b, b_mm: b, thickness_mm, modulus_mpa, poisson, edges: Edges::Simple, radius_mm: Some(radius_mm),
                };
                panel.curved().unwrap().expected_mpa
            };
            prop_assert!(least <= most);
            prop_assert!(at(least).0 >= wanted * (1.0 - 1e-9) && at(most).1 >= wanted * (1.0 - 1e-9));
            let rise_mm = crown_rise_mm(b, least).unwrap();
            prop_assert!(close(rise_mm, least - (least * least - b * b / 4.0).sqrt(), 1e-6));
        }
    }
}

#[test]
fn no_push_needs_no_crown() {
    assert_eq!(crown_radius_mm(600.0, &STEEL, -5.0), None);
    assert_eq!(crown_rise_mm(600.0, 200.0), None);
    let (simple, clamped) = drumming_hz([700.0, 600.0], Bounds::Lines, &STEEL, 7.2).unwrap();
    assert!(simple > 5.0 && clamped > 1.7 * simple && clamped < 2.0 * simple);
}

// Sol-air, 35 °C, absorptance 0.95, 1000 W/m2: 87.0 °C on a roof, which loses 3.9 K to the sky; a side does not.
#[test]
fn the_sun_on_a_side() {
    let sun = "flatness = { absorptance = \"0.95\", sun = \"1000 W/m2\", hot_air = \"35 degC\", frame_share = \"0\" }";
    let text = include_str!("../examples/mobile_library.toml").replace("surface = \"white paint\"\n", "");
    let plan = Plan::from_text(&text, ".".as_ref()).unwrap().replace(&sun.parse().unwrap()).unwrap();
    let f = plan.evaluate().unwrap().flatness;
    assert!((f.hot.skin_deg_c - 3.9 - 87.0).abs() < 0.05, "{:?}", f.hot);
    // A frame as warm as its skin leaves only what it was hung with.
    assert!((f.sun_k + 8.0).abs() < 1e-9);
}

#[test]
fn hung_warm_the_library_lies_in_tension() {
    let warm = build("");
    assert!(warm.flatness.sun_k < 0.0);
    assert_eq!(check(&warm, "flatness in the sun").verdict, Verdict::Passes);
    assert_eq!(check(&warm, "flatness in the cold, pull").verdict, Verdict::Passes);
    // Hung even and painted black it oil-cans, and the advice says how much warmer to hang it.
    let black = "flatness = { surface = \"black paint\", hang = { skin = \"24 degC\", frame = \"24 degC\" } }";
    let even = build(black);
    let sun = check(&even, "flatness in the sun");
    assert_eq!(sun.verdict, Verdict::Fails, "{sun:?}");
    let told = even.flatness.sizes[0].advice[0].value.unwrap();
    assert!((told.most - even.flatness.sun_k).abs() < 1e-9);
    let skin = format!(
        "flatness = {{ surface = \"black paint\", hang = {{ skin = \"{} degC\", frame = \"24 degC\" }} }}",
        24.1 + told.most
    );
    assert_eq!(check(&build(&skin), "flatness in the sun").verdict, Verdict::Passes);
    // The warmer it hangs, the harder it pulls in the cold.
    let pull = |e: &Evaluation| check(e, "flatness in the cold, pull").demand.unwrap();
    assert!(pull(&build(&skin)) > pull(&even));
}

#[test]
fn silent_is_not_assessed() {
    let build = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
    let sun = check(&build, "flatness in the sun");
    assert_eq!(sun.verdict, Verdict::NotAssessed);
    assert!(sun.reason.as_ref().unwrap().contains("contact thermometer"));
    assert!(build.assumed.iter().any(|a| a.field == "flatness.hang"));
    // Nothing under the name: everything assumed, and listed.
    let text = include_str!("../examples/workshop_bus.toml");
    let (before, after) = text.split_once("[flatness]").unwrap();
    let bare = format!("{before}{}", &after[after.find("[[fit_out]]").unwrap()..]);
    let build = Plan::from_text(&bare, ".".as_ref()).unwrap().evaluate().unwrap();
    for field in ["hang", "surface", "sun", "hot_air", "hot_cabin", "cold_air", "cold_cabin", "frame_share", "hot"] {
        assert!(build.assumed.iter().any(|a| a.field == format!("flatness.{field}")), "{field}");
    }
}

#[test]
fn beyond_the_rules_a_panel_says_so() {
    let extreme = "flatness = { hang = { skin = \"-60 degC\", frame = \"120 degC\" } }";
    let build = build(extreme);
    assert!(build.flatness.sizes.iter().all(|s| s.sun.is_none() && s.outside.is_some()));
    assert_eq!(check(&build, "flatness in the sun").verdict, Verdict::OutsideRange);
}

#[test]
fn every_panel_has_its_row() {
    let build = build("");
    let expected: usize = build.skins.runs.iter().map(|r| r.courses() * (r.last_post - r.first_post)).sum();
    assert_eq!(build.flatness.panels.iter().filter(|p| p.part == Part::Side).count(), expected);
    let assessed = build.flatness.panels.iter().filter(|p| p.size.is_some()).count();
    assert_eq!(build.flatness.sizes.iter().map(|s| s.count).sum::<usize>(), assessed);
    // The remedies, each with what it does; a thicker sheet buckles later.
    for size in build.flatness.sizes.iter().filter(|size| size.bounds == Bounds::Lines) {
        assert_eq!(size.advice.len(), 5, "{:?}", size.advice);
        let thicker = size.advice.last().unwrap();
        assert!(thicker.remedy == "gauge 16" && thicker.critical_k.unwrap().least > size.sun.unwrap().critical_k.0);
        let bonded = &size.advice[3];
        assert!(close(bonded.critical_k.unwrap().least, size.sun.unwrap().critical_k.1, 1e-9));
    }
}

#[rstest]
#[case("flatness.sun = \"2000 W/m2\"", "flatness.sun")]
#[case("flatness.hot_air = \"90 degC\"", "flatness.hot_air")]
#[case("flatness.absorptance = \"0.5\"", "flatness.absorptance")]
#[case("flatness.surface = \"velvet\"", "flatness.surface")]
#[case("flatness.hang = { skin = \"200 degC\", frame = \"20 degC\" }", "flatness.hang.skin")]
#[case("flatness.hot = { skin = \"60 degC\", frame = \"40 degC\" }", "flatness.surface")]
#[case("flatness.restraint = { least = \"0.9\", most = \"0.5\" }", "flatness.restraint.least")]
#[case("flatness.restraint.most = \"0\"", "flatness.restraint.most")]
#[case("flatness.frame_share = \"1.5\"", "flatness.frame_share")]
#[case("flatness.most_bow = \"0 mm\"", "flatness.most_bow")]
#[case("flatness.most_bow = \"3 kg\"", "flatness.most_bow")]
fn nonsense_is_refused(#[case] changes: &str, #[case] path: &str) {
    let paths = refused(changes);
    assert!(paths.iter().any(|p| p == path), "{paths:?}");
}

fn library(changes: &str) -> Evaluation {
    let text = without_end_caps(include_str!("../examples/mobile_library.toml"));
    Plan::from_text(&text, ".".as_ref()).unwrap().replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap()
}

fn panel<'a>(build: &'a Evaluation, id: &str) -> &'a FlatPanel {
    build.flatness.panels.iter().find(|p| p.id == id).unwrap_or_else(|| panic!("{id} is no panel"))
}

fn row<'a>(build: &'a Evaluation, id: &str) -> PanelRow<'a> {
    build.flatness.rows().find(|row| row.panel.id == id).unwrap_or_else(|| panic!("{id} is no panel"))
}

fn size_mm(panel: &FlatPanel) -> [f64; 2] {
    [panel.width_mm, panel.height_mm].map(|mm| (mm * 100.0).round() / 100.0)
}

/// What a panel's bows are worth is told with them; where bends hold its ends, how little is known of that too.
#[rstest]
#[case("workshop_bus", Bounds::Lines)]
#[case("mobile_library", Bounds::Bends)]
fn bows_say_what_they_are_worth(#[case] example: &str, #[case] held: Bounds) {
    let build = Plan::read(format!("examples/{example}.toml")).unwrap().evaluate().unwrap();
    assert!(build.flatness.rows().any(|row| row.size.is_some_and(|size| size.bounds == held)));
    for row in build.flatness.rows() {
        let bounds = row.size.map(|size| size.bounds);
        assert_eq!(row.note().contains("do not simply add up"), bounds.is_some(), "{}", row.panel.id);
        assert_eq!(row.note().contains("its bends hold its ends"), bounds == Some(Bounds::Bends), "{}", row.panel.id);
    }
}

// By hand: 400 mm of raise between the rivet lines under the drip rail and over it; the band as wide as the body there, 2.44 m,
// of its half width 1220 mm; the corners from the end face to the next post.
#[test]
fn bands_and_corners_lie_between_rivet_lines() {
    let build = library("");
    let band = panel(&build, "rear band");
    let width_mm = 2.0 * build.survey.half_width_mm(build.survey.heights.drip_rail_mm);
    assert_eq!(size_mm(band), [(width_mm * 100.0).round() / 100.0, 400.0]);
    assert_eq!((band.part, band.side, band.course, band.zone), (Part::End, None, None, Zone::Rear));
    assert_eq!(panel(&build, "front band").zone, Zone::Front);
    let gap_mm = build.survey.posts_mm[0];
    for side in ["left", "right"] {
        let rear = panel(&build, &format!("rear corner, {side}"));
        assert_eq!(size_mm(rear), [gap_mm, 400.0]);
        assert_eq!((rear.zone, rear.missing), (Zone::Side, ""));
        assert_eq!(
            panel(&build, &format!("front corner, {side}, 1 of 1").replace(", 1 of 1", "")).zone,
            Zone::FrontEdge
        );
    }
    // Its edges are known, so it is assessed; and the numbers that decide know it too.
    assert!(build.flatness.panels.iter().all(|p| p.size.is_some()));
    let worst = |build: &Evaluation| build.metrics.iter().find(|m| m.name == "panel_bow_sun_most_mm").unwrap().value;
    let black = "flatness = { surface = \"black paint\", hang = { skin = \"24 degC\", frame = \"24 degC\" } }";
    let bows = library(black).flatness.sizes.iter().map(|s| s.sun.unwrap().bow_mm.1).fold(0.0, f64::max);
    assert_eq!(worst(&library(black)), Some(bows));
}

#[test]
fn caps_are_told_as_far_as_their_edges_are_known() {
    let build = build("");
    let face = panel(&build, "rear cap, face");
    // By hand: the width less twice radius and sheet, 6 in and 0.0516 in (metal and coating), the right corner the mean of 6 and
    // 6 1/8 in.
    // Its lower edge lies a raise and an edge distance below the rail: the sides lean by 1 1/2 in on 32.
    let rail_mm = 2.0 * build.survey.half_width_mm(build.survey.heights.drip_rail_mm);
    let width_mm = rail_mm + 2.0 * 1.5 / 32.0 * (400.0 + 15.875);
    let corners_mm = (6.0 + 6.0625 + 2.0 * 0.0516) * 25.4;
    assert!((face.width_mm - (width_mm - corners_mm)).abs() < 2.0, "{} {}", face.width_mm, width_mm - corners_mm);
    assert!((face.height_mm - 400.0).abs() < 0.01);
    // Round the corners the air pulls as on the side.
    assert_eq!(face.zone, Zone::Side);
    let size = &build.flatness.sizes[face.size.unwrap()];
    assert_eq!(size.bounds, Bounds::Bends);
    let bend = panel(&build, "rear cap, bend, left");
    assert!(
        bend.size.is_none() && row(&build, &bend.id).suction_bow.is_none() && bend.missing.contains("flat panels only")
    );
    let leg = panel(&build, "rear cap, leg, right");
    assert!(leg.size.is_none() && leg.missing.contains("line of rivets at the bend"));
    // Of a leg longer than it is high the bend is a shorter edge: it cannot decide.
    assert!(panel(&build, "front cap, 1 of 2, leg, left").size.is_some());
    assert!(build.flatness.notes.iter().any(|n| n.contains("not assessed: ") && n.contains("rear cap, bend, left")));
    // Held by its bends from not at all to wholly: never narrower than between lines.
    let f = &build.flatness;
    for rise_k in [-5.0, 0.4, 10.0] {
        let at = |bounds| lying_within([face.width_mm, face.height_mm], bounds, &STEEL, f.hold, rise_k, &BOTH).unwrap();
        let (bends, lines) = (at(Bounds::Bends), at(Bounds::Lines));
        assert!(bends.critical_k.0 < lines.critical_k.0 && bends.critical_k.1 == lines.critical_k.1);
        assert!(bends.bow_mm.1 >= lines.bow_mm.1 && bends.bow_mm.0 <= lines.bow_mm.0);
    }
}

#[test]
fn slopes_and_cheeks() {
    let build = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
    let slope = panel(&build, "front slope");
    // By hand: 250 mm up over a run of 350 mm.
    assert!((slope.height_mm - 250.0_f64.hypot(350.0)).abs() < 1e-9);
    assert_eq!(slope.zone, Zone::FrontEdge);
    let size = &build.flatness.sizes[slope.size.unwrap()];
    assert!(size.slopes && size.sun.is_none() && size.cold.is_some() && size.drumming_hz.is_some());
    assert!(row(&build, &slope.id).reason().contains("not assessed in the sun"));
    let cheek = panel(&build, "rear cheek, left");
    assert!(cheek.missing.contains("triangle") && cheek.size.is_none());
    // A slope leaves the numbers of the upright panels known.
    assert!(build.metrics.iter().find(|m| m.name == "panel_bow_sun_most_mm").unwrap().value.is_some());
}

#[test]
fn left_and_right_ends_are_alike() {
    for build in [library(""), build(""), library("raise = { ends = \"stepped\", first_post = 2, last_post = 6 }")] {
        for panel in build.flatness.panels.iter().filter(|p| p.part == Part::End && p.side == Some(Side::Left)) {
            let id = panel.id.replace("left", "right").replace("1 of 2", "2 of 2");
            let Some(other) = build.flatness.panels.iter().find(|p| p.id == id) else { continue };
            assert_eq!((other.side, other.zone, other.size), (Some(Side::Right), panel.zone, panel.size), "{id}");
            assert_eq!(row(&build, &id).suction_bow, row(&build, &panel.id).suction_bow);
        }
    }
}

// A strip of 600 mm, 0.912 mm thick, 50 Pa, by hand: free to turn and to draw in, 5 q b⁴/(384 D) with D = 14 240 N mm: 5.925 mm;
// clamped and free to draw in a fifth of it.
#[test]
fn a_strip_under_suction() {
    let free = Hold { least: 0.0, most: 0.0 };
    let bows = SuctionBows::new([2400.0, 600.0], Bounds::Bends, &STEEL, free);
    let [least, most] = bows.at(50.0).map(Result::unwrap);
    assert!(close(most, 5.925, 1e-3), "{most}");
    assert!(least < 1.185, "ends that hold stiffen it: {least}");
    // Wholly held and square: Roark, Table 11.11, q b⁴/(E t⁴) = 100 (from memory): 0.95 clamped, 1.26 simple, in parts of t.
    let held = SuctionBows::new([600.0; 2], Bounds::Lines, &STEEL, Hold { least: 1.0, most: 1.0 });
    let suction_pa = 100.0 * STEEL.modulus_mpa * (STEEL.thickness_mm / 600.0).powi(4) * 1e6;
    let [least, most] = held.at(suction_pa).map(Result::unwrap);
    assert!(close(least / STEEL.thickness_mm, 0.95, 0.03) && close(most / STEEL.thickness_mm, 1.26, 0.03));
    assert_eq!(held.at(0.0).map(Result::unwrap), [0.0, 0.0]);
}

#[test]
fn beyond_the_law_a_bow_is_refused() {
    let thin = Metal { thickness_mm: 0.5, ..STEEL };
    let bows = SuctionBows::new([711.0, 900.0], Bounds::Lines, &thin, WHOLLY);
    let [least, most] = bows.at(1200.0);
    assert!(least.is_err() && most.is_err());
    let [least, most] = SuctionBows::new([711.0, 900.0], Bounds::Lines, &STEEL, WHOLLY).at(1200.0);
    assert!(least.is_ok());
    assert!(most.unwrap_err()[0].to_string().contains("edges that hardly hold"));
    let small = SuctionBows::new([5.0, 900.0], Bounds::Lines, &STEEL, WHOLLY).at(100.0);
    assert!(small.iter().all(Result::is_err));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    // More suction, a thinner sheet, a looser frame: more bow; least is never above most, a bend holds no more than a line.
    #[test]
    fn suction_bows_as_it_must(
        a in 250.0..800.0_f64, b in 250.0..800.0_f64, t in 0.9..1.6_f64, pa in 20.0..300.0_f64, least in 0.0..1.0_f64,
    ) {
        let hold = Hold { least, most: 1.0 };
        let size = [a.max(b), a.min(b)];
        let at = |bounds, thickness_mm: f64, pa: f64, hold: Hold| {
            SuctionBows::new(size, bounds, &Metal { thickness_mm, ..STEEL }, hold).at(pa).map(Result::ok)
        };
        let lines = Bounds::Lines;
        let base = at(lines, t, pa, hold);
        let (more, thicker) = (at(lines, t, 1.2 * pa, hold), at(lines, 1.2 * t, pa, hold));
        let tighter = at(lines, t, pa, Hold { least: f64::midpoint(least, 1.0), most: 1.0 });
        let bends = at(Bounds::Bends, t, pa, hold);
        prop_assert!(base[0].is_some());
        for i in 0..2 {
            let below = |a: Option<f64>, b: Option<f64>| a.zip(b).is_none_or(|(a, b)| a <= b * (1.0 + 1e-6));
            prop_assert!(below(base[i], more[i]) && below(thicker[i], base[i]) && below(tighter[i], base[i]));
        }
        if let [Some(low), Some(high)] = base {
            prop_assert!(low <= high);
            if let Some(bends) = bends[1] {
                // The strip is of another series than the plate.
                prop_assert!(bends >= high * 0.97, "{bends} {high}");
            }
        }
    }
}

#[test]
fn the_planners_limit_decides() {
    let silent = build("");
    assert!(!silent.checks.iter().any(|c| c.name.starts_with("panel bow")), "no limit, no check");
    assert!(row(&silent, "L-B P1-P2").suction_bow.unwrap().least_mm.unwrap() > 0.5);
    let firm = |most: &str| {
        let text = format!("flatness = {{ restraint = {{ least = \"60 %\" }}, most_bow = \"{most}\" }}");
        let build = build(&text);
        (check(&build, "panel bow under suction").clone(), check(&build, "panel bow in the sun").clone())
    };
    let (suction, sun) = firm("60 mm");
    assert_eq!((suction.verdict, sun.verdict), (Verdict::Passes, Verdict::Passes), "{suction:?}");
    assert!(suction.reason.as_ref().unwrap().contains("have none"), "bends and legs have no figure");
    let between = suction.demand.unwrap() - 0.05;
    let (suction, _) = firm(&format!("{between} mm"));
    assert_eq!(suction.verdict, Verdict::NotAssessed, "{suction:?}");
    assert_eq!(firm("0.1 mm").0.verdict, Verdict::Fails);
    // Where the law ends at the loose end of the range nothing passes.
    let loose = build("flatness = { restraint = { least = \"0\" }, most_bow = \"60 mm\" }");
    let outside = loose.flatness.rows().any(|row| row.suction_bow.is_some_and(|bow| bow.most_mm.is_none()));
    assert_eq!(check(&loose, "panel bow under suction").verdict == Verdict::OutsideRange, outside);
}
