//! A pair of posts with its roof bow: against the portal's closed forms where the roof is straight (Kleinlogel, from memory),
//! 49 CFR 571.220's load (read), and laws.

use std::path::Path;

use proptest::prelude::*;
use raisedbody::body::bows::{Bow, BowSection, BowSections, Feet, Part, PartStress, plate_width_mm, roof_yardstick_n};
use raisedbody::body::outline::{CrossSection, Outline};
use raisedbody::body::raise::{Ends, Raise};
use raisedbody::body::survey::{Heights, Survey};
use raisedbody::check::{Check, Verdict};
use raisedbody::mechanics::frame::Load;
use raisedbody::mechanics::section::{RectangularTube, Rule};
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

fn survey(crown_mm: f64, lean: f64) -> Survey {
    let heights = Heights {
        floor_mm: 900.0,
        rub_rail_mm: None,
        window_bottom_mm: 1600.0,
        window_top_mm: 2200.0,
        drip_rail_mm: 2700.0,
        crown_mm: 2700.0 + crown_mm,
        overall_mm: 2710.0 + crown_mm,
    };
    let side = Outline::from_heights(1100.0, &heights, lean);
    Survey {
        factory_seams: None,
        length_mm: 9000.0,
        width_mm: 2200.0,
        posts_mm: (0..10).map(|i| 400.0 + 710.0 * f64::from(i)).collect(),
        heights,
        inside_height_mm: 1700.0,
        leans: Some([lean; 2]),
        section: CrossSection { left: side.clone(), right: side },
        features: Vec::new(),
    }
}

fn raise(height_mm: f64) -> Raise {
    Raise {
        height_mm,
        cut_mm: 1900.0,
        first_post: 0,
        last_post: 9,
        ends: Ends::WholeRoof,
        overlap_mm: 75.0,
        floor_build_up_mm: 0.0,
        ceiling_build_up_mm: 0.0,
        window_kept: vec![false; 9],
    }
}

fn sections() -> BowSections {
    let tube = |depth_mm, width_mm, wall_mm| {
        let profile = RectangularTube { depth_mm, width_mm, wall_mm, outer_radius_mm: 0.0 }.profile("tube").unwrap();
        BowSection { gross: profile.properties(), works: profile.working(235.0, Rule::En1993_1_5, "").ok() }
    };
    BowSections {
        post: tube(50.0, 40.0, 1.5),
        insert: tube(46.0, 36.0, 1.5),
        roof: tube(40.0, 40.0, 1.5),
        modulus_mpa: 205_000.0,
    }
}

fn bow(survey: &Survey, raise: Option<&Raise>, feet: Feet) -> Bow {
    Bow::new(survey, raise, sections(), feet).unwrap()
}

/// Push at the drip rails for each mm of sway, N/mm.
fn sway_stiffness(bow: &Bow) -> f64 {
    bow.sway_stiffness_n_mm(&bow.frame().factor().unwrap()).unwrap()
}

// A straight roof makes a portal of span 2200 and height 1800: P h³/(12 E I_c) (2k + 1)/k pinned, (3k + 2)/(6k + 1) fixed.
// Stretching, which the closed forms leave out, is worth a few parts in ten thousand.
#[rstest]
#[case(Feet::Pinned, |k: f64| (2.0 * k + 1.0) / k)]
#[case(Feet::Fixed, |k: f64| (3.0 * k + 2.0) / (6.0 * k + 1.0))]
fn a_straight_roof_is_a_portal(#[case] feet: Feet, #[case] part: fn(f64) -> f64) {
    let s = sections();
    let post_mm4 = s.post.gross.ix_mm4;
    let k = s.roof.gross.ix_mm4 / post_mm4 * 1800.0 / 2200.0;
    let expected = 12.0 * 205_000.0 * post_mm4 / f64::powi(1800.0, 3) / part(k);
    let stiffness = sway_stiffness(&bow(&survey(0.0, 0.0), None, feet));
    assert!((stiffness / expected - 1.0).abs() < 2e-3, "{stiffness} {expected}");
}

// A side load on the straight-roofed bow bends the pinned corner by P h / 2: pushes of 500 N at each drip rail.
#[test]
fn a_push_bends_the_corners() {
    let bow = bow(&survey(0.0, 0.0), None, Feet::Pinned);
    let solved = bow.frame().solve(&bow.side_load(0.0, 1000.0)).unwrap();
    let post = bow.stresses(&solved).into_iter().find(|s| s.part == Part::Post).unwrap();
    assert!((post.moment_n_mm / 900_000.0 - 1.0).abs() < 1e-3, "{post:?}");
    assert!(bow.splice_actions(&solved).is_none());
}

// 49 CFR 571.220 S4: 1.5 × 8000 kg × 9.8 m/s² = 117 600 N; plate 914 mm over 4536 kg.
#[test]
fn the_roof_yardstick() {
    assert!((roof_yardstick_n(8000.0) - 117_600.0).abs() < 1e-9);
    assert!((plate_width_mm(Some(8000.0), 2000.0) - 914.0).abs() < 1e-9);
    assert!((plate_width_mm(Some(4536.0), 2000.0) - 2127.0).abs() < 1e-9);
    // The narrower patch is the harder one.
    assert!((plate_width_mm(None, 2000.0) - 914.0).abs() < 1e-9);
}

/// Sum of the loads, N along x and y.
fn sum(loads: &[Load], bow: &Bow) -> (f64, f64) {
    let (nodes, members) = (bow.frame().nodes_mm(), bow.frame().members());
    loads.iter().fold((0.0, 0.0), |(x, y), load| match *load {
        Load::Node { x_n, y_n, .. } | Load::Point { x_n, y_n, .. } => (x + x_n, y + y_n),
        Load::Spread { member, from, to, x_n_mm, y_n_mm } => {
            let (a, b) = (nodes[members[member].from], nodes[members[member].to]);
            let length = (to - from) * (b[0] - a[0]).hypot(b[1] - a[1]);
            (x + x_n_mm * length, y + y_n_mm * length)
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_higher_roof_sways_more(crown in 0.0..500.0f64, lean in 0.0..0.08f64, rise in 100.0..900.0f64, more in 50.0..400.0f64) {
        let survey = survey(crown, lean);
        for feet in [Feet::Pinned, Feet::Sprung(1e7), Feet::Fixed] {
            let stiffness = |rise: f64| sway_stiffness(&bow(&survey, Some(&raise(rise)), feet));
            prop_assert!(stiffness(rise + more) < stiffness(rise));
            prop_assert!(stiffness(rise) < sway_stiffness(&bow(&survey, None, feet)));
        }
    }

    #[test]
    fn firmer_feet_sway_less(crown in 0.0..500.0f64, rise in 100.0..900.0f64, spring in 1e4..1e9f64) {
        let (survey, raise) = (survey(crown, 0.0), raise(rise));
        let stiffness = |feet| sway_stiffness(&bow(&survey, Some(&raise), feet));
        let (pinned, sprung, fixed) = (stiffness(Feet::Pinned), stiffness(Feet::Sprung(spring)), stiffness(Feet::Fixed));
        prop_assert!(pinned <= sprung * (1.0 + 1e-9) && sprung <= fixed * (1.0 + 1e-9));
    }

    // All of the load is on the bow, whatever the patch; the wind on its height, leaning or not.
    #[test]
    fn loads_add_up(crown in 0.0..600.0f64, lean in 0.0..0.08f64, width in 100.0..3000.0f64, rise in 100.0..900.0f64) {
        let (survey, raise) = (survey(crown, lean), raise(rise));
        let bow = bow(&survey, Some(&raise), Feet::Pinned);
        let (x, y) = sum(&bow.roof_load(10_000.0, width), &bow);
        prop_assert!(x.abs() < 1e-9 && (y + 10_000.0).abs() < 1e-6, "{y}");
        let (x, y) = sum(&bow.side_load(0.4, 150.0), &bow);
        prop_assert!(y.abs() < 1e-9 && (x - 0.4 * (1800.0 + rise) - 150.0).abs() < 1e-6, "{x}");
    }

    // A narrower patch bends the crown more; a symmetric load sways nothing.
    #[test]
    fn a_patch_is_worse_than_a_spread(crown in 0.0..400.0f64, width in 200.0..1500.0f64) {
        let survey = survey(crown, 0.0);
        let bow = bow(&survey, Some(&raise(400.0)), Feet::Pinned);
        let down = |width: f64| {
            let solved = bow.frame().solve(&bow.roof_load(10_000.0, width)).unwrap();
            prop_assert!(bow.sway_mm(&solved).abs() < 1e-6);
            Ok(bow.crown_down_mm(&solved))
        };
        prop_assert!(down(width)? > down(width + 400.0)?);
    }
}

// The examples' bows: three ways of holding the feet, softer after the raise, weight adds to the sway, yardsticks never fail.
#[rstest]
fn a_plan_has_its_bows(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = Plan::read(format!("examples/{name}.toml")).unwrap().evaluate().unwrap();
    let bows = build.bows.as_ref().unwrap();
    assert_eq!(bows.answers.len(), 3);
    for answer in &bows.answers {
        assert!(answer.sway_stiffness_after_n_mm < answer.sway_stiffness_before_n_mm);
        let ratio = answer.p_delta_ratio.unwrap();
        assert!(ratio > 1.0 && ratio < 1.5, "{ratio}");
        assert!(answer.splice_design.unwrap().moment_n_mm > 0.0 && answer.crown_down_mm.unwrap() > 0.0);
        // Of second order the stresses grow by more than the load factor.
        let most = |parts: &[PartStress]| parts.iter().map(|p| p.stress_mpa).fold(0.0, f64::max);
        assert!(most(&answer.side_design) > 1.5 * most(&answer.side_after));
    }
    for name in ["bow stress, side load", "bow stress, roof load", "roof travel"] {
        let own: Vec<&Check> = build.checks.iter().filter(|c| c.name == name).collect();
        assert_eq!(own.len(), if name == "roof travel" { 1 } else { 3 }, "{name}");
        assert!(own.iter().all(|c| c.verdict == Verdict::NotAssessed), "{name}: no yield strength in the plan");
    }
}

/// The library's plan with changes.
fn build(changes: &[&str]) -> Evaluation {
    let plan = Plan::read("examples/mobile_library.toml").unwrap();
    plan.replace(&changes.join("\n").parse().unwrap()).unwrap().evaluate().unwrap()
}

/// Its checks of this name by part.
fn checks(changes: &[&str], name: &str) -> Vec<(String, Verdict, String)> {
    let build = build(changes);
    let own = build.checks.iter().filter(|c| c.name == name);
    own.map(|c| (c.subject.clone(), c.verdict, c.reason.clone().unwrap_or_default())).collect()
}

const STRONG: [&str; 2] = ["survey.post_fy = \"550 MPa\"", "raise.insert_fy = \"700 MPa\""];

// Each part is held against its own yield strength; where that is not in the plan the check says which entry lacks. Bows that
// are taken as the posts are of their steel.
#[rstest]
#[case::none(&[], &["survey.post_fy", "raise.insert_fy", "survey.bow_fy"])]
#[case::posts(&STRONG[..1], &["raise.insert_fy"])]
#[case::all(&STRONG, &[])]
#[case::own_bow(
    &[STRONG[0], STRONG[1], "survey.bow = { section = \"1x2 tube 16 ga\" }"], &["survey.bow_fy"]
)]
fn what_the_plan_must_tell(#[case] entries: &[&str], #[case] asked: &[&str]) {
    let own = checks(entries, "bow stress, side load");
    let open: Vec<&str> = own.iter().filter(|c| c.1 == Verdict::NotAssessed).map(|c| c.2.as_str()).collect();
    assert_eq!(open.len(), asked.len(), "{own:?}");
    assert!(open.iter().zip(asked).all(|(why, path)| why.contains(path)), "{open:?}");
    assert!(own.iter().all(|c| matches!(c.1, Verdict::NotAssessed | Verdict::Passes)), "{own:?}");
}

// Too weak however the feet are held: fails; strong enough only where the floor clamps them: open, and it says so.
#[rstest]
#[case::fails("100 MPa", "1500 kg", Verdict::Fails, "")]
#[case::by_the_feet("300 MPa", "400 kg", Verdict::NotAssessed, "with fixed feet")]
#[case::passes("700 MPa", "400 kg", Verdict::Passes, "")]
fn a_weak_part_is_told_by_itself(#[case] fy: &str, #[case] roof: &str, #[case] verdict: Verdict, #[case] why: &str) {
    let (fy, roof) = (format!("raise.insert_fy = \"{fy}\""), format!("survey.roof_mass = \"{roof}\""));
    let own = checks(&[STRONG[0], &fy, &roof], "bow stress, side load");
    let [post, insert, bow] = &own[..] else { panic!("{own:?}") };
    assert!(insert.1 == verdict && insert.2.contains(why) && insert.0.starts_with("insert"), "{own:?}");
    assert!(post.1 != Verdict::Fails && bow.1 != Verdict::Fails, "{own:?}");
}

// Without the posts' section nothing is answered.
#[test]
fn without_the_posts_section() {
    let text = std::fs::read_to_string("examples/mobile_library.toml").unwrap();
    let without: Vec<&str> = text.lines().filter(|line| !line.starts_with("post = ")).collect();
    let build = Plan::from_text(&without.join("\n"), Path::new("examples")).unwrap().evaluate().unwrap();
    let own: Vec<&Check> = build.checks.iter().filter(|c| c.name.starts_with("bow stress")).collect();
    assert!(own.len() == 2 && own.iter().all(|c| c.reason.as_ref().unwrap().contains("survey.post")));
}

// The crown's elastic way is an answer only where every part stays elastic under the same load.
#[test]
fn travel_needs_parts_that_do_not_yield() {
    let travel = |entries: &[&str]| checks(entries, "roof travel").remove(0);
    let unknown = travel(&[]);
    assert!(unknown.1 == Verdict::NotAssessed, "{unknown:?}");
    let roof = |entries: &[&str]| checks(entries, "bow stress, roof load");
    assert!(roof(&STRONG).iter().any(|c| c.1 != Verdict::Passes));
    assert_eq!(travel(&STRONG).1, Verdict::NotAssessed);
}

// Posts of thin tall stuff under a heavy roof buckle: a failing check, and the rest of the evaluation stands.
#[test]
fn a_bow_that_buckles_fails() {
    let slim = |of: &str| {
        format!("{of} = {{ shape = \"rectangular tube\", depth = \"12 mm\", width = \"15 mm\", wall = \"1 mm\" }}")
    };
    let (post, bow) = (slim("survey.post"), slim("survey.bow"));
    let build =
        build(&[&post, &bow, "survey.roof_mass = \"5000 kg\"", STRONG[0], STRONG[1], "survey.bow_fy = \"550 MPa\""]);
    let own: Vec<&Check> = build.checks.iter().filter(|c| c.name == "bow stress, side load").collect();
    assert!(
        own.iter().all(|c| c.verdict == Verdict::Fails && c.reason.as_ref().unwrap().contains("buckles")),
        "{own:?}"
    );
    let pinned = &build.bows.as_ref().unwrap().answers[0];
    assert!(pinned.side_design.is_empty() && pinned.splice_design.is_none());
}
