//! Bends, springback, rolls, cones and flats against published values and elementary geometry, and the laws that hold for all.

use std::sync::Arc;

use proptest::prelude::*;
use raisedbody::catalogue::Catalogue;
use raisedbody::check::{Standing, Verdict};
use raisedbody::mechanics::forming::{
    Bend, Blank, Corner, FlatPattern, Frustum, Run, Springback, ThreeRoll, bend_allowance_mm, bend_deduction_mm,
    least_radius_by_reduction_mm, neutral_axis, outer_strain, outside_setback_mm,
};
use rstest::rstest;

const INCH: f64 = 25.4;

fn catalogue() -> Arc<Catalogue> {
    Catalogue::standard().unwrap()
}

fn k_of(thickness_in: f64, radius_in: f64) -> f64 {
    neutral_axis(&catalogue(), "carbon steel", (thickness_in * INCH, radius_in * INCH), None).unwrap().k
}

// Worked examples of the source of the table (Machinery's Handbook 26th edition, K restated by vedge.org/kfac.html): 90°,
// R .020, K .33, t .024 in, and R .120, K .463, t .060 in.
#[rstest]
#[case(0.020, 0.024, 0.33, 0.0439)]
#[case(0.120, 0.060, 0.463, 0.2321)]
fn allowances_as_printed(#[case] r: f64, #[case] t: f64, #[case] k: f64, #[case] printed_in: f64) {
    assert!((bend_allowance_mm(90.0, r, t, k) - printed_in).abs() < 5e-5);
}

// The same source, cold-rolled steel; between two radii and two thicknesses by hand.
#[rstest]
#[case(0.048, 0.030, 0.438)]
#[case(0.048, 0.100, 0.433)]
#[case(0.060, 0.030, 0.467)]
#[case(0.060, 0.188, 0.453)]
#[case(0.093, 0.060, 0.457)]
#[case(0.093, 0.188, 0.450)]
#[case(0.054, 0.120, 0.448)]
#[case(0.060, 0.154, 0.458)]
fn k_out_of_the_table(#[case] t: f64, #[case] r: f64, #[case] k: f64) {
    assert!((k_of(t, r) - k).abs() < 1e-9, "{}", k_of(t, r));
}

#[test]
fn k_says_how_it_is_known() {
    let c = catalogue();
    let of = |bend: (f64, f64), k| neutral_axis(&c, "carbon steel", bend, k).unwrap();
    assert_eq!(of((1.524, 3.048), None).standing, Standing::Read);
    let gentle = of((1.2, 150.0), None);
    assert_eq!((gentle.k, gentle.standing), (0.5, Standing::Memory));
    assert_eq!(of((1.2, 150.0), Some(0.44)).standing, Standing::Given);
    // The middle surface is good for gentle bends of any metal.
    assert_eq!(neutral_axis(&c, "aluminium 5052", (1.2, 24.0), None).unwrap().k, 0.5);
}

// Sharper than the table, between table and rule, thicker than the table, a metal without a table.
#[rstest]
#[case("carbon steel", 1.3, 0.5, "0.33 to 0.4")]
#[case("carbon steel", 1.3, 10.0, "0.5")]
#[case("carbon steel", 3.0, 6.0, "0.42 to 0.45")]
#[case("aluminium 5052", 1.3, 3.0, "0.38 to 0.41")]
#[case("stainless steel 304", 1.3, 3.0, "0.44 to 0.48")]
fn outside_the_table_k_is_asked_for(#[case] metal: &str, #[case] t: f64, #[case] r: f64, #[case] told: &str) {
    let problem = neutral_axis(&catalogue(), metal, (t, r), None).unwrap_err();
    assert_eq!(problem.path(), "k");
    assert!(problem.to_string().contains(told), "{problem}");
    assert!(neutral_axis(&catalogue(), metal, (t, r), Some(0.42)).is_ok());
}

// By hand: 90° is tan 45° = 1, so OSSB = R + t; BD = 2 (R + t) - π/2 (R + K t).
#[test]
fn setback_and_deduction() {
    assert!((outside_setback_mm(90.0, 3.0, 1.0).unwrap() - 4.0).abs() < 1e-12);
    let by_hand = 8.0 - std::f64::consts::FRAC_PI_2 * 3.42;
    assert!((bend_deduction_mm(90.0, 3.0, 1.0, 0.42).unwrap() - by_hand).abs() < 1e-12);
    assert_eq!(outside_setback_mm(180.0, 3.0, 1.0), None);
}

/// A bend is what its formulas give, with the K of its metal: between R and t of the table, 0.458 (as above).
#[test]
fn a_bend_by_hand() {
    let (t, r) = (0.060 * INCH, 0.154 * INCH);
    let bend = Bend::new(&catalogue(), "carbon steel", t, r, 90.0, None).unwrap();
    let allowance = std::f64::consts::FRAC_PI_2 * (r + 0.458 * t);
    assert!((bend.allowance_mm() - allowance).abs() < 1e-9);
    assert!((bend.setback_mm().unwrap() - (r + t)).abs() < 1e-12);
    assert!((bend.deduction_mm().unwrap() - (2.0 * (r + t) - allowance)).abs() < 1e-9);
    // Outer face over middle: t / (2 R + t).
    assert!((bend.strain() - t / (2.0 * r + t)).abs() < 1e-12);
}

// By hand, as in the text the formula is from: R 150, t 0.9: 0.30 %.
#[test]
fn strain_of_the_outer_face() {
    assert!((outer_strain(150.0, 0.9) - 0.0030).abs() < 2e-5);
    assert!((outer_strain(0.0, 1.0) - 1.0).abs() < 1e-12);
}

// t (50/r - 1): 25 % gives one thickness, 50 % and more a bend without radius (from memory).
#[rstest]
#[case(25.0, 2.0)]
#[case(40.0, 0.5)]
#[case(50.0, 0.0)]
#[case(70.0, 0.0)]
fn sharpest_radius_by_reduction(#[case] percent: f64, #[case] mm: f64) {
    assert!((least_radius_by_reduction_mm(2.0, percent).unwrap() - mm).abs() < 1e-12);
}

// Makers' figures from memory: 1.5 t for SS33, half a thickness at most for soft steel up to 1.5 mm.
#[rstest]
#[case("SS33", 1.2, 1.7, Verdict::Fails)]
#[case("SS33", 1.2, 1.8, Verdict::Passes)]
#[case("SS50-1", 1.2, 2.9, Verdict::Fails)]
#[case("CS-B", 1.2, 0.6, Verdict::Passes)]
#[case("CS-B", 2.0, 9.0, Verdict::NotAssessed)]
#[case("S250GD", 1.2, 9.0, Verdict::NotAssessed)]
#[case("zinc coating", 1.2, 2.3, Verdict::Fails)]
fn sharpest_radius_by_grade(#[case] of: &str, #[case] t: f64, #[case] r: f64, #[case] verdict: Verdict) {
    let c = catalogue();
    let check = Bend::new(&c, "carbon steel", t, r, 90.0, Some(0.44)).unwrap().radius_check(&c, of);
    assert_eq!(check.verdict, verdict);
    assert!(verdict == Verdict::NotAssessed || check.standing == Standing::Memory);
}

fn strip(thickness_mm: f64, fy_mpa: f64) -> Springback {
    Springback { thickness_mm, fy_mpa, modulus_mpa: 205e3, poisson: None }
}

// Formula of forming handbooks, R_i/R_f = 4x³ - 3x + 1; numbers by hand: R_i 38, Y 250, t 0.9: x .05149, R_f 44.91; its inverse
// R_f 150, Y 230, t 0.9: R_i 96.77.
#[test]
fn springback_by_hand() {
    let a = strip(0.9, 250.0);
    assert!((a.x(38.0) - 0.05149).abs() < 5e-6);
    assert!((a.final_mm(38.0).unwrap() - 44.91).abs() < 5e-3);
    assert!((strip(0.9, 230.0).loaded_mm(150.0).unwrap() - 96.77).abs() < 5e-3);
    // Plane strain: 1.15 Y and E / (1 - 0.3²) make x 1.15 · 0.91 times as large.
    let wide = Springback { poisson: Some(0.3), ..a };
    assert!((wide.x(38.0) / a.x(38.0) - 1.15 * 0.91).abs() < 1e-12);
}

#[test]
fn an_elastic_bend_is_refused() {
    // x = 0.5 at R = 0.5 E t / Y = 369 mm.
    let a = strip(0.9, 250.0);
    assert!(a.final_mm(368.9).unwrap() > 1e5);
    for radius in [369.0, 5000.0] {
        let problem = a.final_mm(radius).unwrap_err();
        assert!(problem.path() == "radius" && problem.to_string().contains("springs back flat"), "{problem}");
    }
    for bad in [f64::NAN, -1.0, 0.0, f64::INFINITY] {
        assert!(a.final_mm(bad).is_err() && a.loaded_mm(bad).is_err());
    }
    let broken = Springback { thickness_mm: 0.0, fy_mpa: f64::NAN, modulus_mpa: 1.0, poisson: Some(0.7) };
    assert_eq!(broken.validate().unwrap_err().len(), 4);
}

const ROLLS: ThreeRoll = ThreeRoll { lower_radius_mm: 25.0, spacing_mm: 70.0, top_radius_mm: 30.0 };

// Geometry by hand: R_o 150.9, r_L 25, a 70: U = 175.9 - √(175.9² - 35²) = 3.517 mm, near a²/8S = 3.482.
#[test]
fn travel_by_hand() {
    assert!((ROLLS.travel_mm(150.0, 0.9).unwrap() - 3.517).abs() < 5e-4);
    assert!((ROLLS.radius_mm(3.517, 0.9).unwrap() - 150.0).abs() < 0.02);
    // dR/dU by the difference of two near travels.
    let slope = (ROLLS.radius_mm(3.516, 0.9).unwrap() - ROLLS.radius_mm(3.518, 0.9).unwrap()) / 0.002;
    assert!((ROLLS.radius_lost_per_mm(150.0, 0.9).unwrap() / slope - 1.0).abs() < 1e-3);
    assert!((ROLLS.flat_mm() - 35.0).abs() < 1e-12 && ROLLS.flats_advice().contains("35 mm"));
}

#[test]
fn what_the_rolls_do_not_reach_is_refused() {
    let first = |r: Result<f64, Vec<raisedbody::error::Problem>>| r.unwrap_err().remove(0).to_string();
    assert!(first(ROLLS.travel_mm(30.0, 0.9)).contains("radius of the top roll"));
    assert!(first(ROLLS.radius_mm(20.0, 0.9)).contains("top roll"));
    let far = ThreeRoll { spacing_mm: 300.0, ..ROLLS };
    assert!(first(far.travel_mm(60.0, 0.9)).contains("falls between the lower rolls"));
    assert!(ThreeRoll { spacing_mm: 50.0, ..ROLLS }.validate().unwrap_err()[0].to_string().contains("would touch"));
    assert_eq!(
        ThreeRoll { lower_radius_mm: 0.0, spacing_mm: f64::NAN, top_radius_mm: -1.0 }.validate().unwrap_err().len(),
        3
    );
}

// Geometry by hand: diameters 600 and 400, height 500: s 509.90, arcs 1529.71 and 1019.80, angle 70.60°.
#[test]
fn a_cone_by_hand() {
    let cone = Frustum { bottom_radius_mm: 300.0, top_radius_mm: 200.0, height_mm: 500.0, angle_deg: 360.0 };
    let close = |a: f64, b: f64| assert!((a - b).abs() < 6e-3, "{a} {b}");
    close(cone.slant_mm(), 509.90);
    close(cone.bottom_arc_mm(), 1529.71);
    close(cone.top_arc_mm(), 1019.80);
    close(cone.developed_angle_deg(), 70.60);
    let equal = Frustum { top_radius_mm: 300.0, ..cone };
    assert!(equal.validate().unwrap_err()[0].to_string().contains("a cylinder"));
    // First and last point lie on the chord, half of it from the middle.
    let points = cone.points(10);
    close(points[0].bottom_mm[0], -cone.bottom_chord_mm() / 2.0);
    close(points[10].bottom_mm[1], 0.0);
    close(points[10].top_mm[0], cone.top_chord_mm() / 2.0);
}

fn flat(length_mm: f64, lean_mm: f64) -> Run {
    Run::Straight { length_mm, lean_mm }
}

fn turn(bottom_radius_mm: f64, top_radius_mm: f64, angle_deg: f64) -> Run {
    Run::Corner(Corner { bottom_radius_mm, top_radius_mm, angle_deg, k: 0.5 })
}

fn blank(runs: Vec<Run>) -> Blank {
    Blank { runs, height_mm: 400.0, thickness_mm: 1.2, tape_error_mm: 1.0 }
}

fn length(line: [[f64; 2]; 2]) -> f64 {
    let [a, b] = line;
    (a[0] - b[0]).hypot(a[1] - b[1])
}

// The trade's wedge, by hand: faces stay, so that an eighth of an inch more radius above shortens the upper edge of each square
// corner by (2 tan 45° - π/2)/8 = 0.0537 in; two of them come to 0.107 in, nearly an eighth.
#[test]
fn the_wedge_of_unequal_radii() {
    let eighth = INCH / 8.0;
    let corner = turn(150.0, 150.0 + eighth, 90.0);
    let cap = blank(vec![flat(200.0, 0.0), corner, flat(2000.0, 0.0), corner, flat(200.0, 0.0)]);
    let flat = cap.develop().unwrap();
    let wedge = 2.0 * (2.0 - std::f64::consts::FRAC_PI_2) * eighth;
    assert!((flat.length_mm[0] - flat.length_mm[1] - wedge).abs() < 1e-9);
    assert!((flat.out_of_square_mm.abs() - wedge).abs() < 1e-3, "{}", flat.out_of_square_mm);
    assert!((flat.one_radius_past_mm[1] - wedge).abs() < 1e-9 && flat.one_radius_past_mm[0].abs() < 1e-9);
    assert!((flat.trim_mm[0] - flat.trim_mm[1] + flat.out_of_square_mm).abs() < 1e-12);
}

// A fold about a leaning edge, by hand: a plumb face and a face that leans in 1 in 20 meet in an edge that leans so in the plumb
// face; level edges on both meet in the flat at atan(1/20).
#[test]
fn a_sharp_corner_to_a_leaning_face() {
    let cap = blank(vec![flat(300.0, 0.0), turn(0.5, 0.5, 90.0), flat(300.0, -20.0)]);
    let flat = cap.develop().unwrap();
    assert!((flat.developed_angle_deg - 0.05_f64.atan().to_degrees()).abs() < 2e-3, "{}", flat.developed_angle_deg);
}

// Both faces lean as the cone: a right cone, whose flat is that of the frustum.
#[test]
fn a_right_cone_is_a_frustum() {
    let (r, change) = (200.0, 60.0);
    let cap = blank(vec![flat(0.0, change), turn(r, r + change, 120.0), flat(0.0, change)]);
    let flat = cap.develop().unwrap();
    let mean = |mm: f64| mm + 0.6;
    let cone =
        Frustum { bottom_radius_mm: mean(r), top_radius_mm: mean(r + change), height_mm: 400.0, angle_deg: 120.0 };
    let corner = flat.corners[0];
    assert!((corner.developed_angle_deg.abs() - cone.developed_angle_deg()).abs() < 1e-9);
    assert!((corner.chord_mm[0] - cone.bottom_chord_mm()).abs() < 1e-6);
    assert!((corner.chord_mm[1] - cone.top_chord_mm()).abs() < 1e-6);
    let [bottom, top] = corner.developed_radius_mm.unwrap();
    assert!((bottom - cone.bottom_arc_mm()).abs() < 1e-6 && (top - cone.top_arc_mm()).abs() < 1e-6);
}

#[test]
fn marks_and_their_errors() {
    let cap = blank(vec![flat(200.0, 0.0), turn(150.0, 150.0, 90.0), flat(500.0, 0.0)]);
    let flat = cap.develop().unwrap();
    let arc = std::f64::consts::FRAC_PI_2 * 150.6;
    for (mark, at) in flat.marks.iter().zip([200.0, 200.0 + arc]) {
        assert!((mark.at_mm[0] - at).abs() < 1e-9 && (mark.at_mm[1] - at).abs() < 1e-9);
        assert!((mark.rounded_mm[0] - at).abs() <= INCH / 128.0);
        assert!(mark.error_mm[0] >= 1.0 && mark.error_mm[0] <= 1.0 + INCH / 128.0);
    }
    assert_eq!(flat.marks.iter().map(|m| m.chained_error_mm).collect::<Vec<_>>(), [1.0, 2.0]);
    assert!((flat.rectangle_mm[0] - (700.0 + arc)).abs() < 1e-9 && (flat.rectangle_mm[1] - 400.0).abs() < 1e-9);
    assert!(flat.developed_angle_deg.abs() < 1e-12 && flat.corners[0].developed_radius_mm.is_none());
}

#[rstest]
#[case(vec![], "runs")]
#[case(vec![turn(150.0, 150.0, 90.0)], "runs")]
#[case(vec![flat(1.0, 0.0), flat(1.0, 0.0), flat(1.0, 0.0)], "runs")]
#[case(vec![flat(1.0, 0.0), turn(150.0, 150.0, 90.0)], "runs")]
#[case(vec![flat(f64::NAN, 0.0)], "runs[0].length")]
#[case(vec![flat(1.0, 300.0)], "runs[0].lean")]
#[case(vec![flat(9.0, 0.0), turn(0.0, 150.0, 90.0), flat(9.0, 0.0)], "runs[1].bottom_radius")]
#[case(vec![flat(9.0, 0.0), turn(150.0, 150.0, 180.0), flat(9.0, 0.0)], "runs[1].angle")]
#[case(vec![flat(900.0, 0.0), turn(100.0, 900.0, 90.0), flat(900.0, 0.0)], "runs[1].top_radius")]
#[case(vec![flat(10.0, 0.0), turn(100.0, 120.0, 90.0), flat(90.0, 0.0)], "runs[0].length")]
fn no_such_sheet(#[case] runs: Vec<Run>, #[case] path: &str) {
    let problems = blank(runs).develop().unwrap_err();
    assert_eq!(problems.iter().map(|p| p.path()).collect::<Vec<_>>(), [path]);
}

fn cap() -> impl Strategy<Value = Blank> {
    let lean = || -40.0..40.0;
    let corner = || (60.0..400.0, -30.0..30.0, 45.0..120.0);
    ((lean(), lean(), lean()), (corner(), corner()), 300.0..900.0).prop_map(|((a, b, c), (one, two), height_mm)| {
        let of = |(r, change, angle): (f64, f64, f64)| turn(r, r + change, angle);
        let runs = vec![flat(400.0, a), of(one), flat(900.0, b), of(two), flat(400.0, c)];
        Blank { runs, height_mm, ..blank(Vec::new()) }
    })
}

fn edges(flat: &FlatPattern) -> [f64; 2] {
    let pairs = flat.lines.windows(2);
    pairs.fold([0.0; 2], |sum, w| {
        [sum[0] + length([w[0].bottom_mm, w[1].bottom_mm]), sum[1] + length([w[0].top_mm, w[1].top_mm])]
    })
}

proptest! {
    /// What is rolled to the radius found springs back to the radius wanted.
    #[test]
    fn springback_there_and_back(radius in 1.0..3000.0, t in 0.4..3.0, fy in 100.0..600.0, wide: bool) {
        let sheet = Springback { poisson: wide.then_some(0.3), ..strip(t, fy) };
        let loaded = sheet.loaded_mm(radius).unwrap();
        prop_assert!(loaded < radius && sheet.x(loaded) < 0.5);
        let left = sheet.final_mm(loaded).unwrap();
        // Near the elastic limit the formula itself is ill-conditioned in the loaded radius.
        prop_assert!((left / radius - 1.0).abs() < 1e-9 / (0.5 - sheet.x(loaded)), "{left} {radius}");
    }

    /// Stronger or thinner sheet springs back more; a gentler bend is left gentler.
    #[test]
    fn springback_is_monotone(radius in 20.0..80.0, t in 0.8..3.0, fy in 100.0..250.0) {
        let at = |t: f64, fy: f64, r: f64| strip(t, fy).final_mm(r).unwrap();
        let here = at(t, fy, radius);
        prop_assert!(at(t, fy * 1.05, radius) > here && at(t * 1.05, fy, radius) < here && at(t, fy, radius * 1.05) > here);
        let sheet = strip(t, fy);
        let slope = (at(t, fy + 0.01, radius) - at(t, fy - 0.01, radius)) / 0.02;
        prop_assert!((sheet.final_mm_per_mpa(radius).unwrap() / slope - 1.0).abs() < 1e-4);
        let slope = (at(t, fy, radius + 1e-3) - at(t, fy, radius - 1e-3)) / 2e-3;
        prop_assert!((sheet.final_per_loaded(radius).unwrap() / slope - 1.0).abs() < 1e-4);
    }

    /// Travel and radius are each other's inverse; more travel, smaller radius.
    #[test]
    fn rolls_there_and_back(radius in 40.0..2000.0, t in 0.4..3.0) {
        let travel = ROLLS.travel_mm(radius, t).unwrap();
        prop_assert!((ROLLS.radius_mm(travel, t).unwrap() / radius - 1.0).abs() < 1e-9);
        prop_assert!(ROLLS.travel_mm(radius * 1.01, t).unwrap() < travel);
    }

    /// Lengths of edges and of lines across are those of the wrapped sheet.
    #[test]
    fn unrolling_keeps_lengths(cap in cap()) {
        let flat = cap.develop().unwrap();
        // A chord of a sixth of a corner is shorter than its arc by a few hundredths of a millimetre, as the edge is nearly straight.
        for (edge, length) in edges(&flat).into_iter().zip(flat.length_mm) {
            prop_assert!(edge <= length + 1e-6 && edge > length - 0.5, "{edge} {length}");
        }
        for line in &flat.lines {
            let across = length([line.bottom_mm, line.top_mm]);
            prop_assert!(across >= cap.height_mm - 1e-9);
        }
    }

    /// A larger radius takes less sheet where the faces stay: monotone, and linear for a square corner.
    #[test]
    fn a_larger_radius_takes_less(r in 50.0_f64..300.0, more in 1.0_f64..100.0) {
        let of = |r: f64| {
            let legs = 500.0 - r;
            blank(vec![flat(legs, 0.0), turn(r, r, 90.0), flat(legs, 0.0)]).develop().unwrap().length_mm[0]
        };
        let saved: f64 = of(r) - of(r + more);
        prop_assert!((saved - (2.0 - std::f64::consts::FRAC_PI_2) * more).abs() < 1e-9);
    }

    /// K in the table is never outside the values around it, nor above the middle.
    #[test]
    fn k_is_bounded(t in 0.048_f64..0.093, r in 0.030_f64..0.188) {
        prop_assert!((0.420..=0.467).contains(&k_of(t, r)));
    }
}
