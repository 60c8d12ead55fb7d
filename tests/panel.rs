//! Panels against published rows, worked examples and the laws of plates.

use std::f64::consts::PI;

use proptest::prelude::*;
use raisedbody::catalogue::Catalogue;
use raisedbody::check::Standing;
use raisedbody::mechanics::panel::{
    Attitude, Bowing, Edges, Flange, FlatWeb, Panel, Restraint, SolAir, Uprights, biaxial, compression,
    diagonal_tension_factor, effective_upright_area_mm2, effective_upright_length_mm, flange_rivets_n_mm,
    flat_stress_mpa, mismatch_strain, redshaw_mpa, shear, shell_stress_mpa, simple_shear_coefficient,
    skin_over_frame_k, sol_air_deg_c, strip_bow_mm, timoshenko_mpa, upright_peak_ratio, upright_rivets_n_mm,
    web_buckling_stress_mpa, web_peak_ratio,
};
use rstest::rstest;

/// Steel of the worked examples.
const E_MPA: f64 = 205_000.0;
const ALPHA_PER_K: f64 = 12e-6;

fn near(value: f64, wanted: f64, share: f64) {
    assert!((value - wanted).abs() <= share * wanted.abs(), "{value} is not {wanted} to {share}");
}

fn panel(a_mm: f64, b_mm: f64, thickness_mm: f64, edges: Edges) -> Panel {
    Panel { a_mm, b_mm, thickness_mm, modulus_mpa: E_MPA, poisson: 0.3, edges, radius_mm: None }
}

// Roark, 7th edition, Table 15.2: K' = 0.822 k. All edges simple; rows printed to three figures.
#[rstest]
#[case(0.2, 22.2)]
#[case(0.4, 6.92)]
#[case(0.6, 4.23)]
#[case(0.8, 3.45)]
#[case(1.0, 3.29)]
#[case(1.4, 3.68)]
#[case(2.0, 3.29)]
#[case(3.0, 3.29)]
fn compression_of_simple_edges_as_roark_prints_it(#[case] aspect: f64, #[case] printed: f64) {
    near(0.822 * compression(Edges::Simple, aspect).unwrap().k, printed, 0.003);
}

// The same table: sides clamped, 6.32 square and 5.73 long; one side free, 1.18, 0.574, 0.416.
#[rstest]
#[case(Edges::SidesClamped, 1.0, 6.32)]
#[case(Edges::SidesClamped, 50.0, 5.73)]
#[case(Edges::SideFree, 1.0, 1.18)]
#[case(Edges::SideFree, 2.0, 0.574)]
#[case(Edges::SideFree, 5.0, 0.416)]
fn other_holds_as_roark_prints_them(#[case] edges: Edges, #[case] aspect: f64, #[case] printed: f64) {
    let coefficient = compression(edges, aspect).unwrap();
    near(0.822 * coefficient.k, printed, 0.001);
    assert_eq!(coefficient.standing, Standing::Read);
}

// Accepted values (from memory; a converged Ritz series gives them too). Roark's 7.7, 6.7, 6.4 over 0.822 disagree.
#[rstest]
#[case(1.0, 10.07)]
#[case(2.0, 7.87)]
#[case(3.0, 7.36)]
#[case(100.0, 6.97)]
fn compression_of_clamped_edges(#[case] aspect: f64, #[case] k: f64) {
    near(compression(Edges::Clamped, aspect).unwrap().k, k, 0.001);
}

// Levy's coefficients of the clamped plate (1942), from memory, at shapes between those rows.
#[rstest]
#[case(0.75, 11.69)]
#[case(1.25, 9.25)]
#[case(1.5, 8.33)]
#[case(1.75, 8.11)]
#[case(2.5, 7.57)]
fn compression_of_clamped_edges_between_rows(#[case] aspect: f64, #[case] k: f64) {
    near(compression(Edges::Clamped, aspect).unwrap().k, k, 0.005);
}

#[rstest]
#[case(Edges::Simple, 0.19)]
#[case(Edges::Clamped, 0.49)]
#[case(Edges::SidesClamped, 0.3)]
#[case(Edges::SideFree, 0.9)]
#[case(Edges::SideFree, 5.1)]
fn a_shape_outside_the_rows_is_refused(#[case] edges: Edges, #[case] aspect: f64) {
    let problem = compression(edges, aspect).unwrap_err();
    assert_eq!((problem.path(), problem.value()), ("a", Some(format!("a/b = {aspect}").as_str())));
}

// Timoshenko and Gere 9.7 (restated by a secondary text). A worked example: 0.912 x 711.2 x 600 mm steel, k 8.187, 3.50 MPa
// simple, 5.55 clamped. Another, of an open library's tests: h 1000, a 600 gives 18.83 simple on 1000, t 12 gives 515.27 MPa
// with 190 000 MPa for π² E/(12 (1 - ν²)); on the shorter side 18.83 x 0.36.
#[test]
fn buckling_in_shear() {
    let simple = panel(711.2, 600.0, 0.912, Edges::Simple).shear().unwrap();
    near(simple.0.k, 8.187, 1e-4);
    near(simple.1, 3.50, 0.002);
    near(panel(711.2, 600.0, 0.912, Edges::Clamped).shear().unwrap().1, 5.55, 0.002);
    let k = shear(Edges::Simple, 1000.0 / 600.0).unwrap().k;
    near(k / 0.36, 18.83, 5e-4);
    near(k * 190_000.0 * (12.0_f64 / 600.0).powi(2), 515.27, 1e-3);
}

// The same library: k 4 with 190 000 (t/b)² at b 1000, t 20: 76.0 MPa, 190 000 being 210 000 MPa rounded.
#[test]
fn buckling_stress() {
    let plate = Panel { modulus_mpa: 210_000.0, ..panel(2000.0, 1000.0, 20.0, Edges::Simple) };
    near(plate.compression().unwrap().1, 4.0 * 190_000.0 * 0.02 * 0.02, 0.002);
}

// Equal compression both ways: clamped 5.31 (Timoshenko 5.30, from memory), 3.92, 3.83, long about 3.8, all by Ritz; simple
// 1 + (b/a)².
#[rstest]
#[case(Edges::Clamped, 1.0, 5.31)]
#[case(Edges::Clamped, 2.0, 3.92)]
#[case(Edges::Clamped, 4.0, 3.83)]
#[case(Edges::Clamped, 20.0, 3.8)]
#[case(Edges::Simple, 1.0, 2.0)]
#[case(Edges::Simple, 2.0, 1.25)]
fn buckling_under_compression_both_ways(#[case] edges: Edges, #[case] aspect: f64, #[case] k: f64) {
    near(biaxial(edges, aspect).unwrap().k, k, 0.012);
}

// An endless clamped strip pressed both ways: K tanh K + S tan S = 0, least 4 (K² + S²)/π².
#[test]
fn the_last_row_both_ways_is_that_of_a_strip() {
    let of = |k: f64| {
        let (mut low, mut high) = (PI / 2.0 + 1e-9, PI);
        for _ in 0..100 {
            let s = f64::midpoint(low, high);
            if k * k.tanh() + s * s.tan() < 0.0 { low = s } else { high = s }
        }
        4.0 * (k * k + low * low) / (PI * PI)
    };
    let least = (1..300).map(|i| of(0.01 * f64::from(i))).fold(f64::INFINITY, f64::min);
    near(biaxial(Edges::Clamped, 1e9).unwrap().k, least, 2e-4);
}

// F1, derived: 20 ga 0.912 mm, b 711.2: 0.495 K held along a long panel; held both ways 0.087 K simple. The clamped 0.347 K of the
// same example is of one cylindrical wave, k 4; the long panel's own k of 3.8 gives 0.330.
#[test]
fn a_held_panel_buckles_within_a_degree() {
    let of = |edges, restraint| panel(20_000.0, 711.2, 0.912, edges).heated(restraint, ALPHA_PER_K, 30.0).unwrap();
    near(of(Edges::Simple, Restraint::Along).critical_rise_k, 0.495, 0.002);
    near(of(Edges::Simple, Restraint::BothWays).critical_rise_k, 0.087, 0.005);
    let clamped = of(Edges::Clamped, Restraint::BothWays);
    near(clamped.critical_rise_k, 0.347 * 3.8 / 4.0, 0.012);
    near(clamped.critical_rise_k * 4.0 / clamped.k, 0.347, 0.001);
}

// Elementary: 40 K held are 98.4 MPa one way and 140.6 both ways.
#[rstest]
#[case(Restraint::Along, 98.4)]
#[case(Restraint::BothWays, 140.6)]
fn force_of_a_held_sheet_that_stays_flat(#[case] restraint: Restraint, #[case] mpa: f64) {
    let sheet = panel(2000.0, 700.0, 0.912, Edges::Simple);
    let heated = sheet.heated(restraint, ALPHA_PER_K, 40.0).unwrap();
    near(heated.flat_force_n_mm / 0.912, mpa, 5e-4);
    // Buckled it keeps the buckling stress.
    assert!(heated.buckled);
    let critical = if restraint == Restraint::Along { sheet.compression() } else { sheet.biaxial() };
    near(heated.line_force_n_mm, critical.unwrap().1 * 0.912, 1e-12);
    // Colder than its frame it pulls, and nothing buckles.
    let cold = sheet.heated(restraint, ALPHA_PER_K, -40.0).unwrap();
    near(cold.line_force_n_mm, -heated.flat_force_n_mm, 1e-12);
    assert!(!cold.buckled);
}

// F1, derived: dT 30 K bows 9.78 mm, 10 K 5.63 mm.
#[rstest]
#[case(30.0, 9.78)]
#[case(10.0, 5.63)]
fn bow_of_a_held_strip(#[case] rise_k: f64, #[case] mm: f64) {
    let strip = panel(7112.0, 711.2, 0.912, Edges::Simple);
    near(strip.heated(Restraint::BothWays, ALPHA_PER_K, rise_k).unwrap().strip_bow_mm.unwrap(), mm, 1e-3);
    // Held one way it has no such bow.
    assert_eq!(strip.heated(Restraint::Along, ALPHA_PER_K, rise_k).unwrap().strip_bow_mm, None);
}

// The series of a strip against the closed form, up to where the series is refused.
#[rstest]
#[case(1.0)]
#[case(5.0)]
fn series_of_a_held_strip(#[case] rise_k: f64) {
    let strip = panel(7112.0, 711.2, 0.912, Edges::Simple);
    let bow = strip.bowing().unwrap().bow(&strip, 0.0, (ALPHA_PER_K, rise_k)).unwrap();
    near(bow.bow_mm, strip_bow_mm((711.2, 0.912), false, 0.3, ALPHA_PER_K * rise_k), 0.001);
    assert!(strip.bowing().unwrap().bow(&strip, 0.0, (ALPHA_PER_K, 30.0)).is_err());
    // Across it a buckled strip keeps its buckling force: π² D/b².
    near(bow.pull_b_n_mm, -PI.powi(2) * strip.stiffness_n_mm() / 711.2_f64.powi(2), 0.01);
}

// The series of clamped strips: half a wave of 1 - cos.
#[test]
fn bow_of_a_clamped_strip() {
    let strip = panel(7112.0, 711.2, 0.912, Edges::Clamped);
    let bow = strip.bowing().unwrap().bow(&strip, 0.0, (ALPHA_PER_K, 5.0)).unwrap();
    near(bow.bow_mm, strip_bow_mm((711.2, 0.912), true, 0.3, ALPHA_PER_K * 5.0), 0.002);
}

// Only skin over frame counts, since hanging: hung 20 K warmer than its frame and then even, a skin is tight; both hot, nothing.
#[test]
fn skin_over_frame() {
    assert!(mismatch_strain((ALPHA_PER_K, 40.0), (ALPHA_PER_K, 40.0)).abs() < 1e-15);
    let hung_warm = mismatch_strain((ALPHA_PER_K, -20.0), (ALPHA_PER_K, 0.0));
    near(skin_over_frame_k(hung_warm, 0.0, ALPHA_PER_K), -20.0, 1e-12);
    // Rivets that give way by 0.1 mm in a metre take 8.3 K of it.
    near(skin_over_frame_k(hung_warm, 1e-4, ALPHA_PER_K), -20.0 + 1e-4 / ALPHA_PER_K, 1e-12);
    assert_eq!(skin_over_frame_k(hung_warm, 1.0, ALPHA_PER_K).abs(), 0.0);
    // Aluminium on steel, both 30 K warmer.
    near(skin_over_frame_k(mismatch_strain((23.6e-6, 30.0), (ALPHA_PER_K, 30.0)), 0.0, 23.6e-6), 14.75, 0.001);
}

// F2: t 0.9, b 300, R 2000: flat 6.67, cylinder 55.83, Redshaw 59.27, Timoshenko 55.83 MPa (both rules from memory).
#[test]
fn curved_panel() {
    let skin = Panel { radius_mm: Some(2000.0), ..panel(1000.0, 300.0, 0.9, Edges::Simple) };
    let curved = skin.curved().unwrap();
    near(curved.flat_mpa, 6.67, 1e-3);
    near(curved.shell_mpa, 55.83, 1e-3);
    near(curved.redshaw_mpa, 59.27, 1e-3);
    near(curved.timoshenko_mpa, 55.83, 1e-3);
    assert!(curved.knocked_down);
    near(curved.expected_mpa.0, 0.2 * 55.83, 1e-3);
    near(curved.expected_mpa.1, 0.6 * 55.83, 1e-3);
    // A thick shell is not knocked down.
    let stout = Panel { radius_mm: Some(400.0), ..skin };
    assert!(!stout.curved().unwrap().knocked_down);
}

#[test]
fn curved_rules_meet_where_they_should() {
    // Flat: both give the flat stress. At σ_c = 2 σ_f the second rule changes its formula without a step; there Redshaw's is
    // 28 % higher.
    near(redshaw_mpa(5.0, 0.0), 5.0, 1e-12);
    near(timoshenko_mpa(5.0, 0.0), 5.0, 1e-12);
    near(timoshenko_mpa(5.0, 10.0), timoshenko_mpa(5.0, 10.0 + 1e-9), 1e-9);
    near(redshaw_mpa(5.0, 10.0) / timoshenko_mpa(5.0, 10.0), 1.28, 0.002);
    // Farther apart they are at σ_c = √2 σ_f: 2 against 1.5.
    near(redshaw_mpa(5.0, 50.0_f64.sqrt()) / timoshenko_mpa(5.0, 50.0_f64.sqrt()), 4.0 / 3.0, 1e-9);
}

// Small deflection, Timoshenko tables 8 and 35 times 10.92: square simple 0.00406 read, the others from memory. The
// clamped a/b 3 overshoots the strip a little.
#[rstest]
#[case(false, 1.0, 0.0444)]
#[case(false, 1.5, 0.0843)]
#[case(false, 2.0, 0.1106)]
#[case(false, 3.0, 0.1336)]
#[case(false, 100.0, 0.1422)]
#[case(true, 1.0, 0.0138)]
#[case(true, 1.5, 0.0240)]
#[case(true, 2.0, 0.0277)]
#[case(true, 3.0, 0.0286)]
#[case(true, 100.0, 0.0284)]
fn bow_of_small_deflection(#[case] clamped: bool, #[case] aspect: f64, #[case] c: f64) {
    near(Bowing::new(aspect, clamped, 0.3).unwrap().linear_coefficient(), c, 0.004);
}

const LOADS: [f64; 8] = [12.5, 25.0, 50.0, 75.0, 100.0, 150.0, 200.0, 250.0];

// Large deflection, edges held in plane, w/t by q b⁴/(E t⁴): Roark, Table 11.11 (from memory), and a von Kármán Ritz series
// of another hand (derived).
#[rstest]
#[case::roark(false, 1.0, 0.03, [0.430, 0.650, 0.930, 1.13, 1.26, 1.47, 1.63, 1.77])]
#[case::roark(true, 1.0, 0.03, [0.165, 0.32, 0.59, 0.80, 0.95, 1.19, 1.38, 1.54])]
#[case::ritz(false, 1.0, 0.01, [0.436, 0.669, 0.944, 1.125, 1.263, 1.476, 1.641, 1.777])]
#[case::ritz(true, 1.0, 0.01, [0.170, 0.327, 0.585, 0.781, 0.937, 1.179, 1.364, 1.516])]
#[case::ritz(false, 1.5, 0.01, [0.632, 0.888, 1.184, 1.381, 1.533, 1.770, 1.955, 2.110])]
#[case::ritz(true, 1.5, 0.01, [0.287, 0.519, 0.846, 1.070, 1.243, 1.506, 1.707, 1.874])]
fn bow_of_large_deflection(#[case] clamped: bool, #[case] aspect: f64, #[case] share: f64, #[case] rows: [f64; 8]) {
    let plate = panel(700.0 * aspect, 700.0, 1.2, if clamped { Edges::Clamped } else { Edges::Simple });
    let bowing = plate.bowing().unwrap();
    for (load, row) in LOADS.into_iter().zip(rows) {
        let pressure_mpa = load * E_MPA * (1.2_f64 / 700.0).powi(4);
        let bow = bowing.bow(&plate, pressure_mpa, (ALPHA_PER_K, 0.0)).unwrap();
        // Half a unit of the last figure printed.
        assert!((bow.bow_mm / 1.2 - row).abs() <= share * row + 0.0005, "{load}: {} is not {row}", bow.bow_mm / 1.2);
    }
}

// Edges that stay straight and move freely, square, simple, ν² 0.1: Levy, NACA Report 737, w/t by q b⁴/(E t⁴), zero edge
// compression, from memory. His edges slide along themselves too, these draw in evenly.
#[rstest]
#[case(12.1, 0.486)]
#[case(29.4, 0.962)]
#[case(56.9, 1.424)]
#[case(99.4, 1.870)]
#[case(161.0, 2.307)]
#[case(247.0, 2.742)]
#[case(358.0, 3.174)]
#[case(497.0, 3.600)]
fn bow_where_edges_move_freely(#[case] load: f64, #[case] row: f64) {
    let plate = Panel { poisson: 0.1_f64.sqrt(), ..panel(700.0, 700.0, 1.2, Edges::Simple) };
    let pressure_mpa = load * E_MPA * (1.2_f64 / 700.0).powi(4);
    let bow = plate.bowing().unwrap().giving(0.0).unwrap().bow(&plate, pressure_mpa, (ALPHA_PER_K, 0.0)).unwrap();
    near(bow.bow_mm / 1.2, row, 0.02);
    // Nothing holds them.
    assert!(bow.pull_a_n_mm.abs() < 1e-9 && bow.pull_b_n_mm.abs() < 1e-9, "{bow:?}");
}

// A strip, 600 mm, t 1 mm, E 205 000 MPa, ν 0.3. Moving freely it is a beam, 0.1 kPa: 5 q b⁴/(384 D) = 8.990 mm, clamped a
// fifth of it. At 1 kPa one sine by hand: D (π/b)⁴ W + N (π/b)² W = 4 q/π, N = E t/(1 - ν²) · s · π² W²/(4 b²), s = 1 wholly
// held: 1.4110e-5 W + 4.2331e-5 W³ = 1.27324e-3, W = 3.074 mm; half held s = 0.5525: W = 3.737 mm. The sine of a sheet that is
// mostly pulled is 3 % above its parabola.
#[rstest]
#[case::beam(Edges::Simple, 0.0, 1e-4, 8.990, 0.001)]
#[case::clamped_beam(Edges::Clamped, 0.0, 1e-4, 1.798, 0.001)]
#[case::half(Edges::Simple, 0.5, 1e-3, 3.737, 0.032)]
#[case::held(Edges::Simple, 1.0, 1e-3, 3.074, 0.032)]
fn bow_of_a_strip(
    #[case] edges: Edges,
    #[case] hold: f64,
    #[case] pressure_mpa: f64,
    #[case] mm: f64,
    #[case] share: f64,
) {
    let strip = Panel { modulus_mpa: 205_000.0, poisson: 0.3, ..panel(20_000.0, 600.0, 1.0, edges) };
    let bowing = strip.bowing().unwrap().giving(hold).unwrap();
    let bow = bowing.bow(&strip, pressure_mpa, (ALPHA_PER_K, 0.0)).unwrap();
    near(bow.bow_mm, mm, share);
    if edges == Edges::Simple && hold > 0.0 {
        // Pulled by N it bows as Timoshenko and Woinowsky-Krieger, chapter 1, have it (from memory): u² = N b²/(4 D), beam
        // times 24 (1/cosh u - 1 + u²/2)/(5 u⁴).
        let d = strip.stiffness_n_mm();
        let u = (bow.pull_b_n_mm * 600.0_f64.powi(2) / (4.0 * d)).sqrt();
        let beam_mm = 5.0 * pressure_mpa * 600.0_f64.powi(4) / (384.0 * d);
        near(bow.bow_mm, beam_mm * 24.0 * (1.0 / u.cosh() - 1.0 + u * u / 2.0) / (5.0 * u.powi(4)), 0.003);
    }
}

#[test]
fn what_a_frame_can_hold() {
    let plate = panel(700.0, 600.0, 1.2, Edges::Simple);
    let bowing = || plate.bowing().unwrap();
    for share in [-0.1, 1.1, f64::NAN] {
        assert_eq!(bowing().giving(share).unwrap_err()[0].path(), "hold");
    }
    assert_eq!(bowing().giving(0.5).unwrap().giving(0.5).unwrap_err()[0].path(), "hold");
    // Held wholly it is the same series; moving freely a load ends it sooner.
    let at = |load: f64, hold: f64| {
        let pressure_mpa = load * E_MPA * (1.2_f64 / 600.0).powi(4);
        bowing().giving(hold).unwrap().bow(&plate, pressure_mpa, (ALPHA_PER_K, 0.0))
    };
    let held = bowing().bow(&plate, 100.0 * E_MPA * (1.2_f64 / 600.0).powi(4), (ALPHA_PER_K, 0.0)).unwrap();
    assert_eq!(at(100.0, 1.0).unwrap(), held);
    assert!(at(1001.0, 1.0).is_ok() && at(1001.0, 0.2).is_ok());
    assert_eq!(at(1001.0, 0.1).unwrap_err()[0].path(), "pressure");
    // Of held heat a frame holds its share.
    let hot = |hold: f64, rise_k: f64| bowing().giving(hold).unwrap().bow(&plate, 1e-4, (ALPHA_PER_K, rise_k)).unwrap();
    near(hot(0.5, -8.0).pull_a_n_mm / hot(1.0, -4.0).pull_a_n_mm, 1.0, 0.01);
}

#[test]
fn no_load_no_bow() {
    let plate = panel(1500.0, 700.0, 1.2, Edges::Clamped);
    let bow = plate.bowing().unwrap().bow(&plate, 0.0, (ALPHA_PER_K, 0.0)).unwrap();
    assert_eq!((bow.bow_mm, bow.linear_mm, bow.pull_a_n_mm, bow.pull_b_n_mm), (0.0, 0.0, 0.0, 0.0));
    // Pulled tight it does not bow either, and bows less under pressure.
    let tight = plate.bowing().unwrap().bow(&plate, 1e-3, (ALPHA_PER_K, -20.0)).unwrap();
    let slack = plate.bowing().unwrap().bow(&plate, 1e-3, (ALPHA_PER_K, 0.0)).unwrap();
    assert!(tight.bow_mm < 0.7 * slack.bow_mm);
    near(
        plate.bowing().unwrap().bow(&plate, 0.0, (ALPHA_PER_K, -20.0)).unwrap().pull_a_n_mm,
        140.57 / 2.0 * 1.2,
        0.001,
    );
}

// First natural frequency: λ 35.99 square and clamped, 27.0 at 1.5, 24.58 at 2, 23.64 at 2.5 (Leissa's tables, from
// memory); simple square 19.74.
#[rstest]
#[case(Edges::Clamped, 1.0, 35.99)]
#[case(Edges::Clamped, 1.5, 27.01)]
#[case(Edges::Clamped, 2.0, 24.58)]
#[case(Edges::Clamped, 2.5, 23.64)]
#[case(Edges::Simple, 1.0, 19.74)]
#[case(Edges::Simple, 2.0, 12.337)]
fn first_natural_frequency(#[case] edges: Edges, #[case] aspect: f64, #[case] lambda: f64) {
    let plate = panel(700.0 * aspect, 700.0, 1.2, edges);
    let drum = plate.drumming(9.42).unwrap();
    near(drum.lambda, lambda, 0.002);
    // In SI: f = λ/(2π b²) √(D/(ρ t)).
    let stiffness = 205e9 * 0.0012_f64.powi(3) / (12.0 * 0.91);
    near(drum.frequency_hz, drum.lambda / (2.0 * PI * 0.49) * (stiffness / 9.42).sqrt(), 1e-12);
}

// F3: 35 °C, black .95, 1000 W/m2, roof: 87.0 °C; white .20: 42.9 °C (film and sky from memory).
#[rstest]
#[case(0.95, 87.0)]
#[case(0.20, 42.9)]
fn sheet_in_the_sun(#[case] absorptance: f64, #[case] deg_c: f64) {
    let catalogue = Catalogue::standard().unwrap();
    let of = |own, lies| SolAir::new(&catalogue, 35.0, (None, own), 1000.0, lies, None).unwrap();
    near(of(Some(absorptance), Attitude::Horizontal).temperature_deg_c, deg_c, 1e-3);
    near(of(Some(absorptance), Attitude::Vertical).temperature_deg_c, deg_c + 3.9, 1e-3);
    assert_eq!(of(Some(absorptance), Attitude::Vertical).standing, Standing::Memory);
    assert_eq!(sol_air_deg_c(20.0, absorptance, 0.0, 17.0, 0.0), 20.0);
}

#[rstest]
#[case("white titanium dioxide coating", 0.19, Standing::Read)]
#[case("white epoxy", 0.248, Standing::Read)]
#[case("black paint", 0.975, Standing::Read)]
#[case("galvanized, new", 0.64, Standing::Read)]
#[case("galvanized, polished", 0.34, Standing::Read)]
#[case("black oil paint on galvanized, about", 0.9, Standing::Memory)]
#[case("black oil paint on galvanized", 0.92, Standing::Read)]
#[case("brown oil paint on galvanized", 0.881, Standing::Read)]
#[case("red oil paint on galvanized", 0.852, Standing::Read)]
#[case("green oil paint on galvanized", 0.824, Standing::Read)]
#[case("blue oil paint on galvanized", 0.823, Standing::Read)]
#[case("galvanized, bare", 0.794, Standing::Read)]
#[case("yellow oil paint on galvanized", 0.777, Standing::Read)]
#[case("silver oil paint on galvanized", 0.716, Standing::Read)]
#[case("white oil paint on galvanized", 0.661, Standing::Read)]
#[case("black car", 0.95, Standing::Read)]
#[case("silver car", 0.43, Standing::Read)]
#[case("white paint", 0.3, Standing::Assumed)]
fn surfaces_in_the_catalogue(#[case] name: &str, #[case] absorptance: f64, #[case] standing: Standing) {
    let catalogue = Catalogue::standard().unwrap();
    let row = catalogue.surface("surface", name).unwrap();
    assert_eq!((row.absorptance, row.standing), (absorptance, standing));
    let hot = SolAir::new(&catalogue, 30.0, (Some(name), None), 800.0, Attitude::Vertical, None).unwrap();
    assert_eq!(hot.standing, standing.with(Standing::Memory));
}

/// NACA TN 2661, section 7, example 2, beam V-12-10S (read through a secondary text).
const INCH: f64 = 25.4;
const KSI: f64 = 6.894_757_293;

fn v_12_10s() -> FlatWeb {
    FlatWeb {
        depth_mm: 11.58 * INCH,
        clear_depth_mm: 9.875 * INCH,
        thickness_mm: 0.1043 * INCH,
        modulus_mpa: 10_600.0 * KSI,
        poisson: 0.32,
        fy_mpa: 350.0,
        fu_mpa: 450.0,
        restraint: 0.93,
        uprights: Uprights {
            spacing_mm: 7.0 * INCH,
            clear_spacing_mm: 7.0 * INCH,
            length_mm: 9.875 * INCH,
            area_mm2: 0.1443 * INCH * INCH,
            eccentric: Some((0.251 * INCH, 0.182 * INCH)),
            restraint: 1.62,
        },
        flange: Flange::Stiff,
    }
}

#[test]
fn diagonal_tension_as_printed() {
    let web = v_12_10s();
    let area = effective_upright_area_mm2(web.uprights.area_mm2, web.uprights.eccentric) / (INCH * INCH);
    near(area, 0.0497, 0.002);
    near(area / (7.0 * 0.1043), 0.0681, 0.002);
    near(simple_shear_coefficient(7.0 / 9.875), 6.70, 0.006);
    let at = web.at(34.5e3 * 4.448_221_615).unwrap();
    near(at.shear_mpa / KSI, 28.56, 0.001);
    // Printed 16.55; recomputed with d_c 7.0, k_ss 6.70 and d_c/h_c 0.667 to 0.709 it is 16.28 to 16.60.
    let of = |ratio| web_buckling_stress_mpa((6.70, 10_600.0, 0.1043), (7.0, 7.0 / ratio), (0.93, 1.62));
    near(of(0.667), 16.28, 0.002);
    near(of(0.709), 16.60, 0.002);
    near(at.critical_mpa / KSI, 16.55, 0.01);
    // Printed k 0.123 is of τ/τ_cr 1.77; 28.56/16.55 is 1.73, k 0.118. The two are not to be chained.
    near(diagonal_tension_factor(1.77, 1.0), 0.123, 0.004);
    near(diagonal_tension_factor(28.56, 16.55), 0.118, 0.004);
    let (upright, flange, angle) = web.folds(0.123);
    // Printed 0.227 from a chart, 0.2253 exactly.
    near(-upright, 0.2253, 0.003);
    assert_eq!(flange, 0.0);
    assert!((40.0..45.0).contains(&angle.to_degrees()));
    // Printed 1.30 from figure 15; the fit gives 1.28.
    near(upright_peak_ratio(0.123, 7.0 / 9.875), 1.30, 0.02);
    assert_eq!(at.standing, Standing::Memory);
}

#[test]
fn diagonal_tension_by_hand() {
    // (35): at k 1 and d = h_U, h_U/√2; from d 1.5 h_U on the whole length, without a step.
    near(effective_upright_length_mm(1.0, 100.0, 100.0), 100.0 / 2.0_f64.sqrt(), 1e-12);
    near(effective_upright_length_mm(1.0, 100.0, 149.999), effective_upright_length_mm(1.0, 100.0, 150.0), 1e-4);
    // (33a): folds at 45° add nothing but the flanges' bending.
    near(web_peak_ratio(1.0, PI / 4.0, 0.3), 1.3, 1e-12);
    near(flange_rivets_n_mm(1000.0, 100.0, 1.0), 14.14, 1e-12);
    near(upright_rivets_n_mm(false, 300.0, 1.0), 45.0, 1e-12);
    near(upright_rivets_n_mm(true, 300.0, 1.0), 66.0, 1e-12);
    // Full diagonal tension, stiff frame of infinite uprights: tan²α is 1 as nothing shortens.
    let mut web = v_12_10s();
    web.uprights.area_mm2 = 1e5;
    web.uprights.eccentric = None;
    near(web.folds(1.0).2, PI / 4.0, 0.002);
}

#[rstest]
#[case("depth", |w: &mut FlatWeb| w.thickness_mm = 4.0)]
#[case("depth", |w: &mut FlatWeb| w.thickness_mm = 0.2 - 0.01)]
#[case("spacing", |w: &mut FlatWeb| w.uprights.spacing_mm = 400.0)]
#[case("clear_spacing", |w: &mut FlatWeb| w.clear_depth_mm = 150.0)]
#[case("shear", |w: &mut FlatWeb| w.fy_mpa = 250.0)]
fn webs_outside_the_tests_are_refused(#[case] field: &str, #[case] change: fn(&mut FlatWeb)) {
    let mut web = v_12_10s();
    change(&mut web);
    let problems = web.at(153.5e3).unwrap_err();
    assert!(problems.iter().any(|p| p.path() == field || p.path() == "thickness"), "{problems:?}");
}

#[test]
fn steel_says_that_the_tests_were_of_aluminium() {
    let web = FlatWeb { modulus_mpa: E_MPA, poisson: 0.3, ..v_12_10s() };
    let at = web.at(153.5e3).unwrap();
    assert_eq!(at.standing, Standing::Assumed);
    assert!(at.source.contains("aluminium"));
    // Unbuckled there are no folds.
    assert_eq!((at.k, at.upright_mpa.abs(), at.upright_rivets_n_mm), (0.0, 0.0, 0.0));
    near(at.web_mpa, at.shear_mpa, 1e-12);
}

#[test]
fn dents_by_proportion() {
    let sheet = panel(1000.0, 700.0, 1.2, Edges::Simple);
    let same = sheet.dent(230.0, (1.2, 230.0)).unwrap();
    assert_eq!((same.load_ratio, same.stiffness_ratio), (1.0, 1.0));
    let thinner = sheet.dent(230.0, (0.9, 230.0)).unwrap();
    near(thinner.load_ratio, 16.0 / 9.0, 1e-12);
    near(thinner.stiffness_ratio, 64.0 / 27.0, 1e-12);
    assert_eq!(thinner.standing, Standing::Memory);
}

#[test]
fn all_that_is_wrong_is_told_at_once() {
    let odd = Panel { a_mm: -1.0, modulus_mpa: f64::NAN, poisson: 0.6, ..panel(1.0, 700.0, 9.0, Edges::Simple) };
    let problems = odd.validate().unwrap_err();
    let fields: Vec<&str> = problems.iter().map(|p| p.path()).collect();
    assert_eq!(fields, ["a", "thickness", "modulus", "poisson"]);
    // Thick for its size; more than half a circle.
    assert_eq!(panel(50.0, 50.0, 3.0, Edges::Simple).validate().unwrap_err()[0].path(), "thickness");
    let tube = Panel { radius_mm: Some(100.0), ..panel(500.0, 500.0, 1.0, Edges::Simple) };
    assert_eq!(tube.validate().unwrap_err()[0].path(), "b");
}

#[test]
fn answers_that_a_panel_does_not_have_are_refused() {
    let arched = Panel { radius_mm: Some(2000.0), ..panel(1000.0, 700.0, 1.2, Edges::Simple) };
    for problems in [
        arched.compression().unwrap_err(),
        arched.shear().unwrap_err(),
        arched.bowing().unwrap_err(),
        arched.drumming(9.4).unwrap_err(),
        arched.heated(Restraint::BothWays, ALPHA_PER_K, 5.0).unwrap_err(),
    ] {
        assert_eq!(problems[0].path(), "radius");
    }
    let free = panel(1000.0, 700.0, 1.2, Edges::SideFree);
    assert_eq!(free.shear().unwrap_err()[0].path(), "edges");
    assert_eq!(free.bowing().unwrap_err()[0].path(), "edges");
    assert_eq!(free.drumming(9.4).unwrap_err()[0].path(), "edges");
    let flat = panel(1000.0, 700.0, 1.2, Edges::Simple);
    assert_eq!(flat.curved().unwrap_err()[0].path(), "radius");
    assert_eq!(Panel { edges: Edges::Clamped, a_mm: 600.0, ..arched }.curved().unwrap_err().len(), 2);
    // A load far beyond, and a bow too steep for the theory.
    let bowing = flat.bowing().unwrap();
    assert!(bowing.bow(&flat, 0.09, (ALPHA_PER_K, 0.0)).unwrap_err()[0].to_string().contains("series ends"));
    assert!(bowing.bow(&flat, f64::NAN, (ALPHA_PER_K, 0.0)).is_err());
    assert_eq!(bowing.bow(&Panel { a_mm: 900.0, ..flat }, 1e-3, (ALPHA_PER_K, 0.0)).unwrap_err()[0].path(), "a");
}

fn flat_panel() -> impl Strategy<Value = Panel> {
    (200.0..1000.0_f64, 1.0..3.0_f64, 0.5..2.0_f64, any::<bool>()).prop_map(|(b, aspect, t, clamped)| {
        panel(b * aspect, b, t, if clamped { Edges::Clamped } else { Edges::Simple })
    })
}

/// Slender enough that the greatest load tried stays below the greatest pressure a bow is given for.
fn slender_panel() -> impl Strategy<Value = Panel> {
    flat_panel().prop_filter("slender", |p| p.b_mm > 200.0 * p.thickness_mm)
}

proptest! {
    /// Twice as thick takes four times the rise; twice as wide a fourth.
    #[test]
    fn critical_rise_goes_with_the_square_of_slenderness(p in flat_panel(), by in 0.5..1.5_f64, both in any::<bool>()) {
        let restraint = if both { Restraint::BothWays } else { Restraint::Along };
        let of = |p: &Panel| p.heated(restraint, ALPHA_PER_K, 10.0).unwrap().critical_rise_k;
        let thicker = Panel { thickness_mm: p.thickness_mm * by, ..p };
        prop_assert!((of(&thicker) / of(&p) / by.powi(2) - 1.0).abs() < 1e-9);
        let wider = Panel { a_mm: p.a_mm * by, b_mm: p.b_mm * by, ..p };
        prop_assert!((of(&wider) / of(&p) * by.powi(2) - 1.0).abs() < 1e-6);
    }

    /// What buckles the sheet is the stress that the held heat makes.
    #[test]
    fn at_the_critical_rise_the_flat_force_is_the_buckling_force(p in flat_panel()) {
        let rise = p.heated(Restraint::BothWays, ALPHA_PER_K, 1.0).unwrap().critical_rise_k;
        let at = p.heated(Restraint::BothWays, ALPHA_PER_K, rise).unwrap();
        prop_assert!((at.flat_force_n_mm - p.biaxial().unwrap().1 * p.thickness_mm).abs() < 1e-9 * at.flat_force_n_mm);
        prop_assert!((at.line_force_n_mm - at.flat_force_n_mm).abs() < 1e-9 * at.flat_force_n_mm);
    }

    /// Clamped edges are never the weaker hold.
    #[test]
    fn clamped_is_above_simple(aspect in 1.0..4.0_f64) {
        let (c, s) = (Edges::Clamped, Edges::Simple);
        prop_assert!(compression(c, aspect).unwrap().k > compression(Edges::SidesClamped, aspect).unwrap().k - 0.01);
        prop_assert!(compression(Edges::SidesClamped, aspect).unwrap().k > compression(s, aspect).unwrap().k);
        prop_assert!(shear(c, aspect).unwrap().k > shear(s, aspect).unwrap().k);
        prop_assert!(biaxial(c, aspect).unwrap().k > biaxial(s, aspect).unwrap().k);
    }

    /// Curvature never weakens, and the rules are in order.
    #[test]
    fn curved_is_above_flat(radius in 300.0..20_000.0_f64, b in 100.0..800.0_f64, t in 0.5..2.0_f64) {
        let p = Panel { radius_mm: Some(radius), ..panel(1000.0, b, t, Edges::Simple) };
        let (flat, shell) = (flat_stress_mpa(&p), shell_stress_mpa(&p, radius));
        let (redshaw, timoshenko) = (redshaw_mpa(flat, shell), timoshenko_mpa(flat, shell));
        prop_assert!(redshaw >= timoshenko * (1.0 - 1e-12) && redshaw <= 1.3334 * timoshenko && timoshenko >= flat);
        prop_assert!(p.curved().unwrap().expected_mpa.0 >= flat * (1.0 - 1e-12));
    }

    /// More shear than buckles folds the web the more, up to whole diagonal tension.
    #[test]
    fn diagonal_tension_grows(ratio in 0.1..1000.0_f64, more in 1.0..2.0_f64) {
        let k = diagonal_tension_factor(ratio, 1.0);
        prop_assert!((0.0..1.0).contains(&k) && diagonal_tension_factor(ratio * more, 1.0) >= k);
        let (upright, _, angle) = v_12_10s().folds(k);
        prop_assert!(upright <= 0.0 && angle <= PI / 4.0 + 1e-9 && angle > 0.3);
    }
}

proptest! {
    // Each case makes a series.
    #![proptest_config(ProptestConfig::with_cases(6))]

    /// A small pressure bows as the linear law has it, a great one less; and bow is a matter of Q alone.
    #[test]
    fn bow_tends_to_the_linear_law(p in slender_panel(), thicker in 0.7..1.4_f64) {
        let bowing = p.bowing().unwrap();
        let at = |p: &Panel, load: f64| {
            let pressure = load * p.modulus_mpa * (p.thickness_mm / p.b_mm).powi(4);
            bowing.bow(p, pressure, (ALPHA_PER_K, 0.0)).unwrap()
        };
        let small = at(&p, 0.05);
        prop_assert!((small.bow_mm / small.linear_mm - 1.0).abs() < 1e-3);
        let mut share = 1.0;
        for load in [1.0, 10.0, 50.0, 200.0] {
            let bow = at(&p, load);
            prop_assert!(bow.bow_mm / bow.linear_mm < share);
            share = bow.bow_mm / bow.linear_mm;
        }
        let other = Panel { thickness_mm: p.thickness_mm * thicker, ..p };
        let (one, two) = (at(&p, 50.0).bow_mm / p.thickness_mm, at(&other, 50.0).bow_mm / other.thickness_mm);
        prop_assert!((one / two - 1.0).abs() < 1e-6);
    }

    /// The less the frame holds, the more a panel bows and the less its edges are pulled; never more than the linear law.
    #[test]
    fn less_held_bows_more(p in slender_panel(), load in 1.0..900.0_f64, hold in 0.0..1.0_f64, more in 0.0..1.0_f64) {
        let pressure = load * p.modulus_mpa * (p.thickness_mm / p.short_mm()).powi(4);
        let at = |hold: f64| p.bowing().unwrap().giving(hold).unwrap().bow(&p, pressure, (ALPHA_PER_K, 0.0)).unwrap();
        let (one, two) = (at(hold), at(hold + more * (1.0 - hold)));
        prop_assert!(one.bow_mm >= two.bow_mm * (1.0 - 1e-6) && one.bow_mm <= one.linear_mm * (1.0 + 1e-6));
        let pull = |bow: &raisedbody::mechanics::panel::Bow| bow.pull_a_n_mm + bow.pull_b_n_mm;
        prop_assert!(pull(&one) <= pull(&two) * (1.0 + 1e-6) + 1e-9 && pull(&one) >= -1e-9);
    }

    /// The series buckles by heat where the rows say.
    #[test]
    fn heat_bows_from_the_critical_rise_on(b in 200.0..900.0_f64, aspect in 1.0..1.5_f64, clamped in any::<bool>()) {
        let p = panel(b * aspect, b, 1.0, if clamped { Edges::Clamped } else { Edges::Simple });
        let critical = p.heated(Restraint::BothWays, ALPHA_PER_K, 1.0).unwrap().critical_rise_k;
        let bowing = p.bowing().unwrap();
        let of = |share: f64| bowing.bow(&p, 0.0, (ALPHA_PER_K, share * critical)).unwrap().bow_mm;
        prop_assert!(of(0.98) < 1e-3 && of(1.02) > 0.05);
        prop_assert!(of(2.0) < of(4.0) && of(4.0) < of(11.0));
    }
}
