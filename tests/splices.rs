//! Inserts in posts: nesting rows worked by hand, lean by plain trigonometry and by laws, fasteners by equilibrium, plug welds by
//! EN 1993-1-3, 8.5.3 (from memory), and what a plan is told of them.

use proptest::prelude::*;
use raisedbody::body::splices::{Fit, Pattern, Shape, SpliceActions, SplicePart, leaned, nest, shim, tilt_room_mm};
use raisedbody::body::survey::Side;
use raisedbody::check::{Check, Verdict};
use raisedbody::mechanics::joint::weld::PlugWeld;
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");

fn near(value: f64, by_hand: f64) -> bool {
    (value - by_hand).abs() < 0.005
}

fn tube(depth_mm: f64, width_mm: f64, wall_mm: f64, corner_mm: f64) -> SplicePart {
    SplicePart { shape: Shape::Tube, depth_mm, width_mm, flange_mm: 0.0, wall_mm, corner_mm, tolerance_mm: 0.0 }
}

fn hat() -> SplicePart {
    SplicePart { shape: Shape::Hat, flange_mm: 20.0, ..tube(40.0, 50.0, 1.5, 0.0) }
}

// 50 x 40 x 2 tube: hollow 46 x 36. Insert 44 x 35: 2 in depth, 1 along the skin. Tolerances 0.3 and 0.4: 0.7 less.
#[test]
fn a_tube_in_a_tube() {
    let post = SplicePart { tolerance_mm: 0.3, ..tube(50.0, 40.0, 2.0, 0.0) };
    let insert = SplicePart { tolerance_mm: 0.4, ..tube(44.0, 35.0, 1.5, 0.0) };
    let n = nest(&post, &insert, Fit::Inside).unwrap();
    assert!(near(n.depth.nominal_mm, 2.0) && near(n.beside.nominal_mm, 1.0));
    assert!(near(n.depth.least_mm(), 1.3) && near(n.beside.least_mm(), 0.3));
    assert!(n.fits() && n.corner.is_none() && n.closed);
    assert!(near(n.step_mm, 2.0), "pushed against the wall on the skin's side it stands back by it: {}", n.step_mm);
    let tight = nest(&post, &SplicePart { width_mm: 35.4, ..insert }, Fit::Inside).unwrap();
    assert!(!tight.fits() && near(tight.beside.least_mm(), -0.1));
}

// Inside radius 6 − 2 = 4, insert 1: k = 3. A gap of 0.5 on each face: the corner reaches 1 + √2 × 2.5 = 4.536 > 4. A gap of 1:
// 1 + √2 × 2 = 3.828. They touch at a gap of k (1 − 1/√2) = 0.879. Beside 1.0, pushed to a wall: 3 − √(9 − 4) = 0.764 short.
#[rstest]
#[case(45.0, 35.0, 4.536, false)]
#[case(44.0, 34.0, 3.828, true)]
fn corners_meet_before_faces(#[case] depth: f64, #[case] width: f64, #[case] reach: f64, #[case] fits: bool) {
    let n = nest(&tube(50.0, 40.0, 2.0, 6.0), &tube(depth, width, 1.5, 1.0), Fit::Inside).unwrap();
    let corner = n.corner.unwrap();
    assert!(near(corner.reach_mm, reach) && near(corner.radius_mm, 4.0), "{corner:?}");
    assert_eq!(n.fits(), fits);
    if fits {
        assert!(near(n.held_off_mm, 0.764) && near(n.step_mm, 2.764), "{n:?}");
    }
}

// Hat 40 deep, crown 50, wall 1.5: hollow 47 wide, 38.5 deep, open to the skin.
#[test]
fn in_a_hat_the_insert_lies_flush() {
    let n = nest(&hat(), &tube(36.0, 45.0, 1.5, 0.0), Fit::Inside).unwrap();
    assert!(near(n.beside.nominal_mm, 2.0) && near(n.depth.nominal_mm, 2.5) && n.step_mm == 0.0 && n.fits());
    // A smaller hat lies with its flanges between the post's flanges and the skin: proud by its wall.
    let smaller = SplicePart { depth_mm: 38.0, width_mm: 45.0, wall_mm: 1.2, ..hat() };
    let n = nest(&hat(), &smaller, Fit::Inside).unwrap();
    assert!(near(n.step_mm, -1.2) && near(n.depth.nominal_mm, 1.7) && n.fits() && !n.closed);
}

#[test]
fn a_channel_has_one_wall_beside_and_a_sleeve_stands_proud() {
    let channel = SplicePart { shape: Shape::Channel, ..tube(50.0, 40.0, 2.0, 0.0) };
    let n = nest(&channel, &tube(45.0, 37.0, 1.5, 0.0), Fit::Inside).unwrap();
    assert!(n.walls_beside == 1 && near(n.beside.nominal_mm, 1.0) && near(n.step_mm, 2.0));
    let sleeve = nest(&tube(44.0, 35.0, 1.5, 0.0), &tube(50.0, 40.0, 2.0, 0.0), Fit::Over).unwrap();
    assert!(near(sleeve.step_mm, -2.0) && near(sleeve.depth.nominal_mm, 2.0));
    assert!(nest(&hat(), &tube(60.0, 60.0, 1.5, 0.0), Fit::Over).unwrap_err().to_string().contains("only a tube"));
}

#[rstest]
#[case(1.52, Some((17, 1.46, 0.06)))]
#[case(-1.61, Some((16, 1.61, 0.0)))]
#[case(0.3, None)]
fn the_shim_is_the_thickest_gauge_that_is_thin_enough(#[case] step: f64, #[case] by_hand: Option<(u32, f64, f64)>) {
    let found = shim(step, &[(18, 1.31), (16, 1.61), (17, 1.46)]);
    match by_hand {
        Some((gauge, mm, rest)) => {
            let found = found.unwrap();
            assert!(found.gauge == gauge && near(found.thickness_mm, mm) && near(found.remains_mm, rest));
        }
        None => assert!(found.is_none()),
    }
}

// 1.5 in over 32 in: atan 0.046875 = 2.6837°. Raised 400: 18.75 in, √(400² + 18.75²) = 400.439. Overlap 100, depth 35: an unbent
// insert needs 100 sin + 35 (cos − 1) = 4.6823 − 0.0384 = 4.644.
#[test]
fn a_lean_by_hand() {
    let side = leaned(Side::Left, [0.046_875, 0.046_875], 400.0, 100.0, 35.0);
    assert!(near(side.kink_lower_deg, 2.6837) && near(side.kink_upper_deg, 2.6837));
    assert!(near(side.inwards_mm, 18.75) && near(side.following_length_mm, 600.439) && side.following_kink_deg == 0.0);
    assert!(near(side.tilt_mm, 4.644), "{}", side.tilt_mm);
}

#[test]
fn no_lean_asks_nothing() {
    let side = leaned(Side::Right, [0.0, 0.0], 400.0, 100.0, 35.0);
    for value in [side.kink_lower_deg, side.kink_upper_deg, side.tilt_mm, side.inwards_mm, side.following_kink_deg] {
        assert_eq!(value, 0.0);
    }
    assert_eq!(side.following_length_mm, 600.0);
}

proptest! {
    // The two ways are legs and hypotenuse of one triangle, and a turn by the bends brings the insert back to the lean.
    #[test]
    fn trigonometry(below in 0.0..0.4, above in 0.0..0.4, raise in 25.0..1500.0, overlap in 10.0..600.0) {
        let side = leaned(Side::Left, [below, above], raise, overlap, 40.0);
        let along = side.following_length_mm - 2.0 * overlap;
        prop_assert!((along.powi(2) - raise.powi(2) - side.inwards_mm.powi(2)).abs() < 1e-6 * along.powi(2));
        prop_assert!((along * side.below_deg.to_radians().cos() - raise).abs() < 1e-9 * raise);
        prop_assert!((side.following_kink_deg - (side.kink_upper_deg - side.kink_lower_deg)).abs() < 1e-12);
    }

    // Tolerances only take room away, and a smaller insert always fits where a larger one does.
    #[test]
    fn less_is_easier(d in 30.0..48.0, w in 30.0..40.0, r in 0.0..5.0, tol in 0.0..1.0, less in 0.0..5.0) {
        let post = tube(50.0, 40.0, 1.5, 4.0);
        let insert = SplicePart { tolerance_mm: tol, ..tube(d, w, 1.5, r) };
        let exact = nest(&post, &SplicePart { tolerance_mm: 0.0, ..insert }, Fit::Inside).unwrap();
        let rough = nest(&post, &insert, Fit::Inside).unwrap();
        let small = SplicePart { depth_mm: d - less, width_mm: w - less, ..insert };
        prop_assert!(exact.fits() || !rough.fits());
        prop_assert!(nest(&post, &small, Fit::Inside).unwrap().fits() || !rough.fits());
        prop_assert!(exact.step_mm >= 1.5);
    }

    // A tilted rectangle's depth, by its corners.
    #[test]
    fn tilted_depth(o in 10.0..600.0, d in 10.0..80.0, deg in 0.0..20.0) {
        let (sin, cos) = f64::to_radians(deg).sin_cos();
        let across = [[0.0, 0.0], [o, 0.0], [o, d], [0.0, d]].map(|[x, y]: [f64; 2]| x * sin + y * cos);
        let deep = across.iter().copied().fold(f64::MIN, f64::max) - across.iter().copied().fold(f64::MAX, f64::min);
        prop_assert!((tilt_room_mm(o, d, deg) - (deep - d).max(0.0)).abs() < 1e-9);
    }
}

// Three in a line of 100 with 20 at the ends: 30 apart. M 240 000 on two walls: 120 000 = F × 60. A shear of 600 adds a moment of
// 600 × 50 / 2 = 15 000 (250 N) and 100 N each; 1200 N along: 200 N each. √((2000 + 250 + 100)² + 200²) = 2358.5.
#[test]
fn the_worst_fastener_by_hand() {
    let pattern = Pattern { in_line: 3, walls: 2, overlap_mm: 100.0, end_mm: 20.0 };
    assert_eq!((pattern.spacing_mm(), pattern.count(), pattern.needed_mm(24.0)), (Some(30.0), 6, 88.0));
    let moment = SpliceActions { moment_n_mm: 240_000.0, ..SpliceActions::default() };
    assert!(near(pattern.most_n(moment).unwrap(), 2000.0));
    let all = SpliceActions { moment_n_mm: -240_000.0, shear_n: 600.0, axial_n: -1200.0 };
    assert!((pattern.most_n(all).unwrap() - 2358.5).abs() < 0.05);
    let single = Pattern { in_line: 1, ..pattern };
    assert!(single.most_n(moment).is_err());
}

// Hole 10, t 1.5, fu 360, filler 480, edge 20. Weld π/4 × 100 × 300 / 1.25 = 18 850; sheet dp 8.5, dp/t 5.7 < 19.4: 1.5 × 8.5 ×
// 1.5 × 360 / 1.25 = 5508; edge 20 × 1.5 × 360 / 2.625 = 4114.3.
#[test]
fn a_plug_weld_by_hand() {
    let weld = PlugWeld { hole_mm: 10.0, thickness_mm: 1.5, fu_mpa: 360.0, weld_fu_mpa: 480.0, edge_mm: 20.0 };
    assert!((weld.weld_n() - 18_849.6).abs() < 0.05 && (weld.sheet_n() - 5508.0).abs() < 0.05);
    assert!((weld.edge_n() - 4114.3).abs() < 0.05 && weld.shear_n() == weld.edge_n());
    assert!(weld.validate().is_ok());
    let problems = PlugWeld { hole_mm: 8.0, ..weld }.validate().unwrap_err();
    assert_eq!(problems[0].path(), "hole");
}

// The three branches of the sheet's strength meet: t 0.5, fu 420: dp = 9 at 18 t, 15 at 30 t.
#[rstest]
#[case(9.5)]
#[case(15.5)]
fn the_branches_of_a_plug_meet(#[case] hole_mm: f64) {
    let of =
        |hole_mm| PlugWeld { hole_mm, thickness_mm: 0.5, fu_mpa: 420.0, weld_fu_mpa: 480.0, edge_mm: 30.0 }.sheet_n();
    assert!((of(hole_mm - 1e-7) - of(hole_mm + 1e-7)).abs() < 1e-2);
}

fn changed(changes: &str) -> Result<Plan, raisedbody::Error> {
    Plan::from_text(LIBRARY, ".".as_ref()).unwrap().replace(&changes.parse().unwrap())
}

fn built(changes: &str) -> Evaluation {
    changed(changes).unwrap().evaluate().unwrap()
}

fn splice_checks(e: &Evaluation) -> Vec<&Check> {
    e.checks.iter().filter(|c| c.name.starts_with("splice")).collect()
}

#[test]
fn the_cut_list_is_what_is_ordered() {
    for changes in ["", "shop.bar = \"3 m\"", "raise.ends = \"stepped\"\nraise.first_post = 3\nraise.last_post = 8"] {
        let e = built(changes);
        let listed: Vec<f64> = e.splices.posts.iter().map(|p| p.insert.length_mm).collect();
        assert_eq!(listed, e.takeoff.inserts.pieces_mm);
        let bars = e.splices.posts.iter().map(|p| p.bar.unwrap() as u32 + 1).max().unwrap();
        assert_eq!(bars, e.cut_list.inserts.as_ref().unwrap().bars());
        assert_eq!(e.splices.count(), 2 * e.takeoff.posts_lengthened);
        let mut ids: Vec<&str> = e.splices.posts.iter().map(|p| p.insert.id.as_str()).collect();
        ids.dedup();
        assert_eq!(ids.len(), listed.len());
    }
}

#[test]
fn the_demo_nests_and_holds() {
    let e = built("");
    let checks = splice_checks(&e);
    assert!(checks.len() >= 4 && checks.iter().all(|c| c.verdict == Verdict::Passes), "{checks:?}");
    assert!(checks.iter().all(|c| !c.name.contains("strength") || c.reason.is_some()), "a pass says what is left out");
}

#[test]
fn unlike_leans_move_the_middle() {
    let e = built(
        "survey.left.lean = { inset = \"20 mm\", drop = \"1 m\" }\nsurvey.right.lean = { inset = \"40 mm\", drop = \"1 m\" }",
    );
    let leaning = e.splices.leaning;
    // 400 mm up: 8 and 16 mm in.
    assert!(near(leaning.sides[0].inwards_mm, 8.0) && near(leaning.sides[1].inwards_mm, 16.0));
    assert!(near(leaning.roof_too_wide_mm(), 24.0) && near(leaning.middle_to_left_mm(), 4.0));
    assert!(e.splices.posts.iter().all(|p| (p.bends_deg[0] > 1.5) == (p.insert.side == Side::Right)));
}

#[test]
fn one_post_measured_otherwise_is_named() {
    let other = "raise.splice.other_posts = [{ post = 4, side = \"left\", measured = { shape = \"hat\", depth = \"1 1/2 in\", \
                 width = \"1 3/4 in\", flange = \"3/4 in\", wall = \"0.0598 in\" } }]";
    let e = built(other);
    let failed: Vec<&Check> = splice_checks(&e).into_iter().filter(|c| c.verdict == Verdict::Fails).collect();
    assert_eq!(failed.len(), 1);
    assert_eq!((failed[0].name.as_ref(), failed[0].subject.as_str()), ("splice nesting, beside", "post 4, left"));
    // Insert 44.45 + 0.3; crown 44.45 − 2 × 1.519 − 0.4 = 41.012.
    assert!(failed[0].reason.as_ref().unwrap().contains("3.74 mm too large"), "{:?}", failed[0].reason);
}

#[test]
fn what_is_not_known_is_not_assessed() {
    let bare = LIBRARY.replace("insert_fu = \"310 MPa\"\n", "");
    let e = Plan::from_text(&bare, ".".as_ref()).unwrap().evaluate().unwrap();
    let strength = splice_checks(&e).into_iter().find(|c| c.name == "splice strength").unwrap();
    assert_eq!(strength.verdict, Verdict::NotAssessed);
    assert!(strength.reason.as_ref().unwrap().contains("raise.splice.insert_fu"));
    let text = LIBRARY.replace("post = { shape", "# post = { shape");
    let e = Plan::from_text(&text, ".".as_ref()).unwrap().evaluate().unwrap();
    let checks = splice_checks(&e);
    assert!(checks.iter().all(|c| c.verdict == Verdict::NotAssessed));
    assert!(checks.iter().any(|c| c.reason.as_ref().unwrap().contains("survey.post")));
    let workshop = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
    assert!(splice_checks(&workshop)[0].reason.as_ref().unwrap().contains("raise.splice"));
}

#[test]
fn rivets_are_checked_by_their_rule() {
    let text = LIBRARY.replace("joint = \"plug welds\"", "joint = \"rivets\"").replace("hole = \"10 mm\"\n", "");
    let text = text.replace("weld_fu = \"480 MPa\"\n", "");
    let e = Plan::from_text(&text, ".".as_ref()).unwrap().evaluate().unwrap();
    let strength = splice_checks(&e).into_iter().find(|c| c.name.starts_with("splice strength")).unwrap();
    assert!(strength.clause.contains("1993-1-3"), "{strength:?}");
    assert!(near(strength.demand.unwrap(), 1.5 * e.splices.fasteners.unwrap().most_n.unwrap()) || strength.unit != "N");
}

#[rstest]
#[case("raise.overlap = \"22 in\"", "raise.overlap")]
#[case("raise.splice.in_line = 1", "raise.splice.in_line")]
#[case("raise.splice.fit = \"over\"", "raise.splice.fit")]
#[case("raise.splice.joint = \"rivets\"", "raise.splice.hole")]
#[case("raise.splice.weld_fu = \"20 MPa\"", "raise.splice.weld_fu")]
#[case("raise.splice.post_tolerance = \"9 mm\"", "raise.splice.post_tolerance")]
#[case(
    "raise.splice.other_posts = [{ post = 14, measured = { section = \"hat 1.5x2 16 ga\" } }]",
    "raise.splice.other_posts[0].post"
)]
fn refusals_name_their_entry(#[case] changes: &str, #[case] path: &str) {
    let problem = match changed(changes) {
        Ok(plan) => plan.evaluate().unwrap_err(),
        Err(problem) => problem,
    };
    assert!(problem.to_string().contains(path), "{problem}");
}

#[test]
fn a_small_plug_is_outside_the_rule() {
    let e = built("raise.splice.hole = \"8 mm\"");
    let strength = splice_checks(&e).into_iter().find(|c| c.name.starts_with("splice strength")).unwrap();
    assert_eq!((strength.verdict, strength.capacity), (Verdict::OutsideRange, None));
}
