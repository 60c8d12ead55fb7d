//! Plane frames against the closed forms of portal frames (Kleinlogel, Rahmenformeln, from memory; the pinned corner moment
//! under an even load was read in a public frame solver's test), elementary beams, columns and arches, and laws.

use std::f64::consts::PI;

use proptest::prelude::*;
use raisedbody::mechanics::frame::{Frame, Hold, Load, Member, Solved, Support};
use rstest::rstest;

const E: f64 = 210_000.0;

fn member(from: usize, to: usize, second_moment_mm4: f64) -> Member {
    // So stiff against stretching that bending is all there is, as the closed forms have it.
    Member { from, to, area_mm2: 1e6, second_moment_mm4, modulus_mpa: E }
}

#[derive(Debug, Clone, Copy)]
struct Portal {
    span: f64,
    height: f64,
    post: f64,
    beam: f64,
    fixed: bool,
}

impl Portal {
    fn k(self) -> f64 {
        self.beam / self.post * self.height / self.span
    }

    fn frame(self) -> Frame {
        let foot = if self.fixed { Support::fixed } else { Support::pinned };
        Frame::new(
            vec![[0.0, 0.0], [0.0, self.height], [self.span, self.height], [self.span, 0.0]],
            vec![member(0, 1, self.post), member(1, 2, self.beam), member(2, 3, self.post)],
            vec![foot(0), foot(3)],
        )
        .unwrap()
    }

    fn solve(self, load: Load) -> Solved {
        self.frame().solve(&[load]).unwrap()
    }
}

/// Bending moments A (left foot), B, C (corners), D, tension inside above nought.
fn moments(solved: &Solved) -> [f64; 4] {
    let at = |member: usize, part: f64| solved.members[member].at(part).moment_n_mm;
    [at(0, 0.0), at(0, 1.0), at(2, 0.0), at(2, 1.0)]
}

fn near(values: [f64; 4], expected: [f64; 4]) -> bool {
    let size = expected.iter().fold(0.0, |most: f64, v| most.max(v.abs()));
    values.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-4 * size)
}

const PUSH: Load = Load::Node { node: 1, x_n: 1000.0, y_n: 0.0, moment_n_mm: 0.0 };

fn any_portal() -> impl Strategy<Value = Portal> {
    (1000.0..4000.0f64, 800.0..4000.0f64, 2e4..2e6f64, 2e4..2e6f64, any::<bool>())
        .prop_map(|(span, height, post, beam, fixed)| Portal { span, height, post, beam, fixed })
}

proptest! {
    // Even load q on the beam. Pinned: M_B = -q L²/(4 N), N = 2k + 3; fixed: M_A = q L²/(12 N1), M_B = -2 M_A, N1 = k + 2.
    #[test]
    fn even_load_on_the_beam(p in any_portal()) {
        let q = 1.0;
        let (k, l) = (p.k(), p.span);
        let solved = p.solve(Load::whole(1, 0.0, -q));
        let expected = if p.fixed {
            let foot = q * l * l / (12.0 * (k + 2.0));
            [foot, -2.0 * foot, -2.0 * foot, foot]
        } else {
            let corner = -q * l * l / (4.0 * (2.0 * k + 3.0));
            [0.0, corner, corner, 0.0]
        };
        prop_assert!(near(moments(&solved), expected), "{:?} {expected:?}", moments(&solved));
        // Mid-span: q L²/8 above the corners. Thrust: (M_A - M_B)/h.
        let (at, middle) = solved.members[1].largest_moment();
        let crown = q * l * l / 8.0 + expected[1];
        prop_assert!((solved.members[1].at(0.5).moment_n_mm - crown).abs() < 1e-4 * q * l * l / 8.0);
        prop_assert!(middle.moment_n_mm.abs() >= crown.abs() * 0.999 && (0.0..=1.0).contains(&at));
        let thrust = (expected[0] - expected[1]) / p.height;
        prop_assert!((solved.reactions[0][0] - thrust).abs() < 1e-4 * thrust.abs());
        prop_assert!((solved.reactions[0][1] - q * l / 2.0).abs() < 1e-6 * q * l);
    }

    // Side load P at B. Pinned: ±P h/2; fixed: M_A = -(P h/2)(3k + 1)/N2, M_B = (P h/2) 3k/N2, N2 = 6k + 1; antisymmetric.
    // Sway: P h³/(12 E I_c) times (2k + 1)/k or (3k + 2)/(6k + 1).
    #[test]
    fn side_load_at_the_corner(p in any_portal()) {
        let (k, h) = (p.k(), p.height);
        let half = 1000.0 * h / 2.0;
        let solved = p.solve(PUSH);
        let (expected, part) = if p.fixed {
            let (foot, corner) = (-half * (3.0 * k + 1.0) / (6.0 * k + 1.0), half * 3.0 * k / (6.0 * k + 1.0));
            ([foot, corner, -corner, -foot], (3.0 * k + 2.0) / (6.0 * k + 1.0))
        } else {
            ([0.0, half, -half, 0.0], (2.0 * k + 1.0) / k)
        };
        prop_assert!(near(moments(&solved), expected), "{:?} {expected:?}", moments(&solved));
        let sway = 1000.0 * h.powi(3) / (12.0 * E * p.post) * part;
        prop_assert!((solved.displacements[1][0] / sway - 1.0).abs() < 2e-3, "{} {sway}", solved.displacements[1][0]);
        prop_assert!((solved.reactions[1][1] - 2.0 * expected[1] / p.span).abs() < 1e-3 * half / p.span);
    }

    // Even load w on the left post. Pinned: M_B = (w h²/4)(1 - k/(2N)), M_C = -(w h²/4)(1 + k/(2N)); fixed: M_A, M_D =
    // (w h²/4)[-(k + 3)/(6 N1) ∓ (4k + 1)/N2], M_B, M_C = (w h²/4)[-k/(6 N1) ± 2k/N2].
    #[test]
    fn even_load_on_a_post(p in any_portal()) {
        let (k, w) = (p.k(), 1.0);
        let quarter = w * p.height.powi(2) / 4.0;
        let (n, n1, n2) = (2.0 * k + 3.0, k + 2.0, 6.0 * k + 1.0);
        let solved = p.solve(Load::whole(0, w, 0.0));
        let expected = if p.fixed {
            let (same, odd) = (-(k + 3.0) / (6.0 * n1), (4.0 * k + 1.0) / n2);
            let (corner, corner_odd) = (-k / (6.0 * n1), 2.0 * k / n2);
            [quarter * (same - odd), quarter * (corner + corner_odd), quarter * (corner - corner_odd), quarter * (same + odd)]
        } else {
            [0.0, quarter * (1.0 - k / (2.0 * n)), -quarter * (1.0 + k / (2.0 * n)), 0.0]
        };
        prop_assert!(near(moments(&solved), expected), "{:?} {expected:?}", moments(&solved));
    }

    // Equilibrium: reactions and loads balance, in both directions and about any point.
    #[test]
    fn reactions_balance_the_loads(p in any_portal(), x in -500.0..500.0f64, y in -500.0..500.0f64, at in 0.0..1.0f64) {
        let solved = p.solve(Load::Point { member: 1, at, x_n: x, y_n: y });
        let [a, d] = [solved.reactions[0], solved.reactions[1]];
        let place = [p.span * at, p.height];
        let size = 1.0 + x.abs() + y.abs();
        prop_assert!((a[0] + d[0] + x).abs() < 1e-6 * size && (a[1] + d[1] + y).abs() < 1e-6 * size);
        let turning = a[2] + d[2] + d[1] * p.span + place[0] * y - place[1] * x;
        prop_assert!(turning.abs() < 1e-6 * size * (p.span + p.height), "{turning}");
    }

    // Maxwell: what a load here moves there, the same load there moves here.
    #[test]
    fn displacements_are_reciprocal(p in any_portal(), first in 0usize..6, second in 0usize..6) {
        let unit = |i: usize| {
            let force = |j: usize| if i % 3 == j { 1000.0 } else { 0.0 };
            Load::Node { node: 1 + i / 3, x_n: force(0), y_n: force(1), moment_n_mm: force(2) }
        };
        let moved = |load: usize, at: usize| p.solve(unit(load)).displacements[1 + at / 3][at % 3];
        let (one, other) = (moved(first, second), moved(second, first));
        prop_assert!((one - other).abs() <= 1e-6 * (one.abs() + other.abs()) + 1e-12, "{one} {other}");
    }

    // A spring at the feet lies between a pin and a clamp, and tends to both.
    #[test]
    fn sprung_feet_lie_between(p in any_portal(), exponent in 3.0..12.0f64) {
        let sway = |foot: &dyn Fn(usize) -> Support| {
            let frame = p.frame();
            Frame::new(frame.nodes_mm().to_vec(), frame.members().to_vec(), vec![foot(0), foot(3)])
                .unwrap()
                .solve(&[PUSH])
                .unwrap()
                .displacements[1][0]
        };
        let sprung = sway(&|node| Support::sprung(node, 10.0_f64.powf(exponent)));
        let (pinned, fixed) = (sway(&Support::pinned), sway(&Support::fixed));
        prop_assert!(sprung <= pinned * (1.0 + 1e-6) && sprung >= fixed * (1.0 - 1e-6));
        prop_assert!((sway(&|node| Support::sprung(node, 1e15)) / fixed - 1.0).abs() < 1e-3);
        prop_assert!((sway(&|node| Support::sprung(node, 1e-3)) / pinned - 1.0).abs() < 1e-3);
    }
}

// Worked example (arithmetic from the closed forms): L 2200, h 1800, I_c 60 000, I_b 40 000, pinned.
#[test]
fn a_worked_portal() {
    let portal = Portal { span: 2200.0, height: 1800.0, post: 60e3, beam: 40e3, fixed: false };
    assert!((portal.k() - 0.54545).abs() < 5e-6);
    let even = portal.solve(Load::whole(1, 0.0, -1.0));
    assert!((moments(&even)[1] + 295_778.0).abs() < 5.0);
    assert!((even.reactions[0][0] - 164.32).abs() < 0.01);
    let pushed = portal.solve(PUSH);
    assert!((moments(&pushed)[1] - 900_000.0).abs() < 5.0);
    assert!((pushed.displacements[1][0] - 147.857).abs() < 0.01);
}

// Sway stiffness of the same portal by height, N/mm, pinned and fixed.
#[rstest]
#[case(1500.0, 10.667, 49.643)]
#[case(1800.0, 6.763, 30.463)]
#[case(2100.0, 4.571, 20.123)]
fn sway_stiffness_falls_with_height(#[case] height: f64, #[case] pinned: f64, #[case] fixed: f64) {
    for (feet, expected) in [(false, pinned), (true, fixed)] {
        let portal = Portal { span: 2200.0, height, post: 60e3, beam: 40e3, fixed: feet };
        let stiffness = 1000.0 / portal.solve(PUSH).displacements[1][0];
        assert!((stiffness / expected - 1.0).abs() < 1e-3, "{stiffness}");
    }
}

/// A straight beam along x from its left end, in so many pieces.
fn beam(length: f64, pieces: usize, second_moment: f64, supports: Vec<Support>) -> Frame {
    let nodes = (0..=pieces).map(|i| [length * i as f64 / pieces as f64, 0.0]).collect();
    Frame::new(nodes, (0..pieces).map(|i| member(i, i + 1, second_moment)).collect(), supports).unwrap()
}

fn on_rollers(left: usize, right: usize) -> Vec<Support> {
    vec![Support::pinned(left), Support { node: right, x: Hold::Free, y: Hold::Held, turn: Hold::Free }]
}

// Simply supported beam (any handbook): mid-point load P L³/(48 E I), P L/4; even load 5 q L⁴/(384 E I), q L²/8; load over
// the middle third, moment (q L/6)(L/2) - (q L/6)(L/12) = 5 q L²/72.
#[test]
fn simple_beams() {
    let (l, i) = (2000.0, 1e5);
    let one = beam(l, 1, i, on_rollers(0, 1));
    let middle = one.solve(&[Load::Point { member: 0, at: 0.5, x_n: 0.0, y_n: -100.0 }]).unwrap();
    let (at, most) = middle.members[0].largest_moment();
    assert!((at - 0.5).abs() < 1e-12 && (most.moment_n_mm - 100.0 * l / 4.0).abs() < 1e-6);
    assert_eq!(middle.members[0].length_mm(), l);
    let third =
        one.solve(&[Load::Spread { member: 0, from: 1.0 / 3.0, to: 2.0 / 3.0, x_n_mm: 0.0, y_n_mm: -1.0 }]).unwrap();
    let (at, most) = third.members[0].largest_moment();
    assert!((at - 0.5).abs() < 1e-9 && (most.moment_n_mm - 5.0 * l * l / 72.0).abs() < 1e-3, "{most:?}");
    let two = beam(l, 2, i, on_rollers(0, 2));
    let even = two.solve(&[Load::whole(0, 0.0, -1.0), Load::whole(1, 0.0, -1.0)]).unwrap();
    assert!((even.displacements[1][1] / (-5.0 * l.powi(4) / (384.0 * E * i)) - 1.0).abs() < 1e-9);
    assert!((even.members[0].at(1.0).moment_n_mm - l * l / 8.0).abs() < 1e-3);
    let point = two.solve(&[Load::Node { node: 1, x_n: 0.0, y_n: -100.0, moment_n_mm: 0.0 }]).unwrap();
    assert!((point.displacements[1][1] / (-100.0 * l.powi(3) / (48.0 * E * i)) - 1.0).abs() < 1e-9);
}

// A half circle on pins under a load P at its crown, bending alone: thrust P/π (Timoshenko, Strength of Materials; from
// memory). The chain of straight pieces tends to it.
#[test]
fn a_curved_bow_in_straight_pieces() {
    let thrust = |pieces: usize| {
        let r = 1000.0;
        let nodes = (0..=pieces).map(|i| {
            let angle = PI * (1.0 - i as f64 / pieces as f64);
            [r * angle.cos(), r * angle.sin()]
        });
        let members = (0..pieces).map(|i| member(i, i + 1, 5e4)).collect();
        let frame = Frame::new(nodes.collect(), members, vec![Support::pinned(0), Support::pinned(pieces)]).unwrap();
        let load = Load::Node { node: pieces / 2, x_n: 0.0, y_n: -1000.0, moment_n_mm: 0.0 };
        frame.solve(&[load]).unwrap().reactions[0][0]
    };
    let exact = 1000.0 / PI;
    let (coarse, fine) = (thrust(12), thrust(96));
    assert!((fine / exact - 1.0).abs() < 2e-3, "{fine}");
    assert!((coarse / exact - 1.0).abs() < 2e-2 && (coarse - exact).abs() > (fine - exact).abs());
}

// A pinned column of two pieces and more buckles at π² E I / L²; below it, a side load's deflection grows by about
// 1/(1 - P/P_cr) (elementary; the factor is within 1 % for a mid-point load).
#[test]
fn axial_force_bends_further() {
    let (l, i) = (2000.0, 1e4);
    let critical = PI.powi(2) * E * i / (l * l);
    let column = beam(l, 8, i, on_rollers(0, 8));
    let with = |share: f64| {
        let push = Load::Node { node: 8, x_n: -share * critical, y_n: 0.0, moment_n_mm: 0.0 };
        [push, Load::Node { node: 4, x_n: 0.0, y_n: -10.0, moment_n_mm: 0.0 }]
    };
    let straight = column.solve(&with(0.5)).unwrap().displacements[4][1];
    let bent = column.second_order(&with(0.5)).unwrap().displacements[4][1];
    assert!((bent / straight * 0.5 - 1.0).abs() < 0.02, "{}", bent / straight);
    assert!(column.second_order(&with(0.995)).is_ok());
    let problems = column.second_order(&with(1.005)).unwrap_err();
    assert!(problems[0].to_string().contains("buckles"));
    // Tension straightens.
    assert!(column.second_order(&with(-0.5)).unwrap().displacements[4][1].abs() < straight.abs());
}

fn portal_parts() -> (Vec<[f64; 2]>, Vec<Member>, Vec<Support>) {
    let frame = Portal { span: 2200.0, height: 1800.0, post: 60e3, beam: 40e3, fixed: false }.frame();
    (frame.nodes_mm().to_vec(), frame.members().to_vec(), vec![Support::pinned(0), Support::pinned(3)])
}

type Parts = (Vec<[f64; 2]>, Vec<Member>, Vec<Support>);

#[rstest]
#[case(|p: &mut Parts| p.0[1][0] = f64::NAN, "nodes[1].x")]
#[case(|p: &mut Parts| p.1.clear(), "members")]
#[case(|p: &mut Parts| p.1[0].to = 9, "members[0]")]
#[case(|p: &mut Parts| p.1[0].to = 0, "members[0]")]
#[case(|p: &mut Parts| p.1[2].area_mm2 = 0.0, "members[2].area")]
#[case(|p: &mut Parts| p.1[2].second_moment_mm4 = -1.0, "members[2].second_moment")]
#[case(|p: &mut Parts| p.1[2].modulus_mpa = f64::INFINITY, "members[2].modulus")]
#[case(|p: &mut Parts| p.2[1].node = 7, "supports[1].node")]
#[case(|p: &mut Parts| p.2[1].node = 0, "supports[1].node")]
#[case(|p: &mut Parts| p.2[1].turn = Hold::Spring(-1.0), "supports[1].turn")]
fn frames_that_cannot_be(#[case] change: fn(&mut Parts), #[case] path: &str) {
    let mut parts = portal_parts();
    change(&mut parts);
    let problems = Frame::new(parts.0, parts.1, parts.2).unwrap_err();
    assert!(problems.iter().any(|p| p.path() == path), "{problems:?}");
}

#[rstest]
#[case(Load::Node { node: 4, x_n: 0.0, y_n: 0.0, moment_n_mm: 0.0 }, "loads[0].node")]
#[case(Load::Node { node: 1, x_n: f64::NAN, y_n: 0.0, moment_n_mm: 0.0 }, "loads[0].x")]
#[case(Load::whole(3, 0.0, 1.0), "loads[0].member")]
#[case(Load::Spread { member: 0, from: 0.8, to: 0.2, x_n_mm: 0.0, y_n_mm: 1.0 }, "loads[0].from")]
#[case(Load::Point { member: 0, at: 1.2, x_n: 0.0, y_n: 1.0 }, "loads[0].at")]
fn loads_that_cannot_be(#[case] load: Load, #[case] path: &str) {
    let (nodes, members, supports) = portal_parts();
    let problems = Frame::new(nodes, members, supports).unwrap().solve(&[load]).unwrap_err();
    assert_eq!(problems[0].path(), path);
}

// A frame that can move without bending is told so: no support, one pin, rollers only, a node that hangs in the air.
#[rstest]
#[case(vec![])]
#[case(vec![Support::pinned(0)])]
#[case(vec![
    Support { node: 0, x: Hold::Free, y: Hold::Held, turn: Hold::Free },
    Support { node: 3, x: Hold::Free, y: Hold::Held, turn: Hold::Free },
])]
fn mechanisms_are_refused(#[case] supports: Vec<Support>) {
    let (nodes, members, _) = portal_parts();
    let problems = Frame::new(nodes, members, supports).unwrap().solve(&[PUSH]).unwrap_err();
    assert!(problems[0].to_string().contains("without bending"), "{}", problems[0]);
}

#[test]
fn a_node_without_members_is_refused() {
    let (mut nodes, members, supports) = portal_parts();
    nodes.push([500.0, 500.0]);
    assert!(Frame::new(nodes, members, supports).unwrap().factor().is_err());
}
