//! Space frames against closed forms of beams, shafts, columns and trusses (elementary mechanics; Euler's column from memory),
//! the plane frame solver of this library, and laws: balance, reciprocity, turning the whole frame.

use std::f64::consts::PI;

use proptest::prelude::*;
use raisedbody::error::Problem;
use raisedbody::mechanics::frame;
use raisedbody::mechanics::space_frame::{Bending, Hold, Member, NodeLoad, SpaceFrame, Support};
use rstest::rstest;

const E: f64 = 205_000.0;
const G: f64 = E / 2.6;

fn beam(from: usize, to: usize, (iy, iz, j): (f64, f64, f64)) -> Member {
    let bending =
        Bending { second_moment_y_mm4: iy, second_moment_z_mm4: iz, torsion_mm4: j, shear_modulus_mpa: G, up: None };
    Member { from, to, area_mm2: 400.0, modulus_mpa: E, bending: Some(bending) }
}

fn bar(from: usize, to: usize) -> Member {
    Member { from, to, area_mm2: 100.0, modulus_mpa: E, bending: None }
}

fn cantilever(direction: [f64; 3]) -> (SpaceFrame, f64) {
    let length = direction.iter().map(|d| d * d).sum::<f64>().sqrt();
    let member = beam(0, 1, (2e4, 9e4, 5e4));
    (SpaceFrame::new(vec![[0.0; 3], direction], vec![member], vec![Support::fixed(0)]).unwrap(), length)
}

// P L³/(3 E I), T L/(G J), P L/(E A): level along x, y, aslant, and upright (own y along the frame's x).
#[rstest]
#[case([2000.0, 0.0, 0.0], [0.0, 0.0, 1.0], 9e4)]
#[case([2000.0, 0.0, 0.0], [0.0, 1.0, 0.0], 2e4)]
#[case([0.0, 1500.0, 0.0], [0.0, 0.0, 1.0], 9e4)]
#[case([0.0, 1500.0, 0.0], [1.0, 0.0, 0.0], 2e4)]
#[case([0.0, 0.0, 1500.0], [1.0, 0.0, 0.0], 9e4)]
#[case([0.0, 0.0, 1500.0], [0.0, 1.0, 0.0], 2e4)]
#[case([1200.0, 0.0, 1600.0], [-0.8, 0.0, 0.6], 9e4)]
#[case([1200.0, 0.0, 1600.0], [0.0, 1.0, 0.0], 2e4)]
fn cantilevers(#[case] direction: [f64; 3], #[case] push: [f64; 3], #[case] second: f64) {
    let (frame, l) = cantilever(direction);
    assert_eq!(frame.members(), [beam(0, 1, (2e4, 9e4, 5e4))]);
    let moved = frame.solve(&[NodeLoad::force(1, push.map(|p| 1000.0 * p))]).unwrap().displacements[1];
    let along: f64 = (0..3).map(|i| moved[i] * push[i]).sum();
    let expected = 1000.0 * l.powi(3) / (3.0 * E * second);
    assert!((along / expected - 1.0).abs() < 1e-9, "{along} {expected}");
    let unit = direction.map(|d| d / l);
    let twist = NodeLoad { node: 1, force_n: unit.map(|u| 500.0 * u), moment_n_mm: unit.map(|u| 1e5 * u) };
    let solved = frame.solve(&[twist]).unwrap();
    let d = solved.displacements[1];
    let turned: f64 = (0..3).map(|i| d[3 + i] * unit[i]).sum();
    let stretched: f64 = (0..3).map(|i| d[i] * unit[i]).sum();
    assert!((turned / (1e5 * l / (G * 5e4)) - 1.0).abs() < 1e-9);
    assert!((stretched / (500.0 * l / (E * 400.0)) - 1.0).abs() < 1e-9);
    let forces = solved.members[0];
    assert!((forces.axial_n - 500.0).abs() < 1e-6 && (forces.end_moment_n_mm[0] - 1e5).abs() < 1e-3);
}

#[test]
fn up_turns_the_section() {
    let mut member = beam(0, 1, (2e4, 9e4, 5e4));
    member.bending.as_mut().unwrap().up = Some([0.0, 1.0, 0.0]);
    let frame = SpaceFrame::new(vec![[0.0; 3], [2000.0, 0.0, 0.0]], vec![member], vec![Support::fixed(0)]).unwrap();
    let moved = frame.solve(&[NodeLoad::force(1, [0.0, 0.0, 1000.0])]).unwrap().displacements[1][2];
    assert!((moved / (1000.0 * 2000.0_f64.powi(3) / (3.0 * E * 2e4)) - 1.0).abs() < 1e-9);
}

// Euler: a cantilever column π² E I/(4 L²) about its weak axis, pinned π² E I/L²; split in 8, the cubic shape is near exact.
#[rstest]
#[case(true, 4.0)]
#[case(false, 1.0)]
fn columns_buckle_at_eulers_load(#[case] cantilever: bool, #[case] divisor: f64) {
    let (n, l, weak) = (8, 2000.0, 2e4);
    let nodes = (0..=n).map(|i| [0.0, 0.0, l * f64::from(i) / f64::from(n)]).collect();
    let members = (0..n as usize).map(|i| beam(i, i + 1, (weak, 9e4, 5e4))).collect();
    let supports = if cantilever {
        vec![Support::fixed(0)]
    } else {
        let foot = Support { turns: [Hold::Free, Hold::Free, Hold::Held], ..Support::pinned(0) };
        vec![foot, Support { moves: [Hold::Held, Hold::Held, Hold::Free], ..Support::free(n as usize) }]
    };
    let frame = SpaceFrame::new(nodes, members, supports).unwrap();
    let factor = frame.critical_load_factor(&[NodeLoad::force(n as usize, [0.0, 0.0, -1.0])]).unwrap().unwrap();
    let euler = PI * PI * E * weak / (divisor * l * l);
    assert!((factor / euler - 1.0).abs() < 1e-4, "{factor} {euler}");
    let pulled = frame.critical_load_factor(&[NodeLoad::force(n as usize, [0.0, 0.0, 1.0])]).unwrap();
    assert_eq!(pulled, None);
}

// A strut pinned at both ends, held upright at its top by a spring: it falls over at k h (statics).
#[test]
fn a_propped_strut_falls_over_at_the_spring_times_its_height() {
    let top = Support { moves: [Hold::Spring(3.0), Hold::Spring(8.0), Hold::Free], ..Support::free(1) };
    let frame =
        SpaceFrame::new(vec![[0.0; 3], [0.0, 0.0, 1500.0]], vec![bar(0, 1)], vec![Support::pinned(0), top]).unwrap();
    let factor = frame.critical_load_factor(&[NodeLoad::force(1, [0.0, 0.0, -1.0])]).unwrap().unwrap();
    assert!((factor - 3.0 * 1500.0).abs() < 1e-6, "{factor}");
}

#[test]
fn the_plane_frame_gives_the_same_in_its_plane() {
    let places = [[0.0, 0.0], [0.0, 1800.0], [2200.0, 1800.0], [2200.0, 0.0]];
    let plane = frame::Frame::new(
        places.to_vec(),
        (0..3)
            .map(|i| frame::Member { from: i, to: i + 1, area_mm2: 400.0, second_moment_mm4: 9e4, modulus_mpa: E })
            .collect(),
        vec![frame::Support::fixed(0), frame::Support::pinned(3)],
    )
    .unwrap();
    let push = frame::Load::Node { node: 1, x_n: 1000.0, y_n: -300.0, moment_n_mm: 5e4 };
    let flat = plane.solve(&[push]).unwrap();
    // The plane's y is z here; out of the plane all is held. Anticlockwise about −y.
    let out = |node: usize, moves: Hold, turn: Hold| Support {
        node,
        moves: [moves, Hold::Held, moves],
        turns: [Hold::Held, turn, Hold::Held],
    };
    let space = SpaceFrame::new(
        places.iter().map(|[x, z]| [*x, 0.0, *z]).collect(),
        (0..3).map(|i| beam(i, i + 1, (2e4, 9e4, 5e4))).collect(),
        vec![
            out(0, Hold::Held, Hold::Held),
            out(1, Hold::Free, Hold::Free),
            out(2, Hold::Free, Hold::Free),
            out(3, Hold::Held, Hold::Free),
        ],
    )
    .unwrap();
    let load = NodeLoad { node: 1, force_n: [1000.0, 0.0, -300.0], moment_n_mm: [0.0, -5e4, 0.0] };
    let solved = space.solve(&[load]).unwrap();
    for (a, b) in flat.displacements.iter().zip(&solved.displacements) {
        for (a, b) in [(a[0], b[0]), (a[1], b[2]), (a[2], -b[4])] {
            assert!((a - b).abs() < 1e-9 * 40.0, "{a} {b}");
        }
    }
}

/// A table: four legs and a ring of beams, one bar across a side.
fn table(legs_fixed: bool) -> SpaceFrame {
    let corners = [[0.0, 0.0], [3000.0, 0.0], [3000.0, 2000.0], [0.0, 2000.0]];
    let mut nodes: Vec<[f64; 3]> = corners.iter().map(|[x, y]| [*x, *y, 0.0]).collect();
    nodes.extend(corners.iter().map(|[x, y]| [*x, *y, 1500.0]));
    let section = (3e5, 6e5, 4e5);
    let mut members: Vec<Member> = (0..4).map(|i| beam(i, i + 4, section)).collect();
    members.extend((0..4).map(|i| beam(4 + i, 4 + (i + 1) % 4, section)));
    members.push(bar(0, 5));
    let foot = if legs_fixed { Support::fixed } else { Support::pinned };
    SpaceFrame::new(nodes, members, (0..4).map(foot).collect()).unwrap()
}

fn any_load() -> impl Strategy<Value = NodeLoad> {
    (4..8usize, prop::array::uniform3(-1e4..1e4f64), prop::array::uniform3(-1e6..1e6f64))
        .prop_map(|(node, force_n, moment_n_mm)| NodeLoad { node, force_n, moment_n_mm })
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

proptest! {
    // Reactions balance the loads in force and moment.
    #[test]
    fn balance(loads in prop::collection::vec(any_load(), 1..4), fixed in any::<bool>()) {
        let frame = table(fixed);
        let solved = frame.solve(&loads).unwrap();
        let mut sum = [0.0; 6];
        let mut add = |node: usize, force: [f64; 3], moment: [f64; 3]| {
            let arm = cross(frame.nodes_mm()[node], force);
            for i in 0..3 {
                sum[i] += force[i];
                sum[3 + i] += moment[i] + arm[i];
            }
        };
        for load in &loads {
            add(load.node, load.force_n, load.moment_n_mm);
        }
        for (support, r) in frame.supports().iter().zip(&solved.reactions) {
            add(support.node, [r[0], r[1], r[2]], [r[3], r[4], r[5]]);
        }
        prop_assert!(sum[..3].iter().all(|s| s.abs() < 1e-5), "{sum:?}");
        prop_assert!(sum[3..].iter().all(|s| s.abs() < 1e-2), "{sum:?}");
    }

    // Betti: the work of one load on the way of another is that of the other on the way of the one.
    #[test]
    fn reciprocity(one in any_load(), other in any_load()) {
        let frame = table(false);
        let factored = frame.factor().unwrap();
        let (a, b) = (factored.solve(&[one]).unwrap(), factored.solve(&[other]).unwrap());
        let work = |load: &NodeLoad, way: &[[f64; 6]]| -> f64 {
            (0..3).map(|i| load.force_n[i] * way[load.node][i] + load.moment_n_mm[i] * way[load.node][3 + i]).sum()
        };
        let (ab, ba) = (work(&one, &b.displacements), work(&other, &a.displacements));
        prop_assert!((ab - ba).abs() < 1e-7 * (work(&one, &a.displacements) + work(&other, &b.displacements)));
    }

    // Stiffer or firmer held, a load does less work.
    #[test]
    fn firmer_feet_move_less(load in any_load()) {
        let work = |fixed: bool| {
            let way = table(fixed).solve(&[load]).unwrap().displacements[load.node];
            (0..3).map(|i| load.force_n[i] * way[i] + load.moment_n_mm[i] * way[3 + i]).sum::<f64>()
        };
        prop_assert!(work(true) <= work(false) * (1.0 + 1e-9));
    }
}

// A mechanism is told with the node and the direction that runs away.
#[rstest]
// Three bars to a point in one plane: it can leave the plane.
#[case(vec![bar(0, 3), bar(1, 3), bar(2, 3)], vec![[0.0, 0.0, 0.0], [1000.0, 0.0, 0.0], [2000.0, 0.0, 0.0], [1000.0, 0.0, 900.0]], vec![Support::pinned(0), Support::pinned(1), Support::pinned(2)], "node 3 can move along y")]
// A beam that spins about itself.
#[case(vec![beam(0, 1, (1e4, 1e4, 1e4))], vec![[0.0, 0.0, 0.0], [1000.0, 0.0, 0.0]], vec![Support::pinned(0), Support::pinned(1)], "about x")]
// A node that nothing holds.
#[case(vec![bar(0, 1)], vec![[0.0, 0.0, 0.0], [1000.0, 0.0, 0.0], [0.0, 5.0, 0.0]], vec![Support::pinned(0), Support::pinned(1)], "node 2 can move")]
fn mechanisms(
    #[case] members: Vec<Member>,
    #[case] nodes: Vec<[f64; 3]>,
    #[case] supports: Vec<Support>,
    #[case] words: &str,
) {
    let frame = SpaceFrame::new(nodes, members, supports).unwrap();
    let problems = frame.solve(&[]).unwrap_err();
    assert!(
        problems[0].to_string().contains(words) && problems[0].to_string().contains("a mechanism"),
        "{}",
        problems[0]
    );
    assert!(frame.critical_load_factor(&[]).is_err());
}

fn refused(nodes: Vec<[f64; 3]>, members: Vec<Member>, supports: Vec<Support>) -> Vec<Problem> {
    SpaceFrame::new(nodes, members, supports).unwrap_err()
}

#[test]
fn what_cannot_be_is_refused() {
    let nodes = || vec![[0.0; 3], [1000.0, 0.0, 0.0]];
    let path = |problems: Vec<Problem>| problems[0].path().to_owned();
    assert_eq!(path(refused(nodes(), vec![], vec![])), "members");
    assert_eq!(path(refused(vec![[f64::NAN, 0.0, 0.0], [1.0; 3]], vec![bar(0, 1)], vec![])), "nodes[0].x");
    assert_eq!(path(refused(nodes(), vec![bar(0, 2)], vec![])), "members[0]");
    assert_eq!(path(refused(vec![[1.0; 3]; 2], vec![bar(0, 1)], vec![])), "members[0]");
    assert_eq!(path(refused(nodes(), vec![beam(0, 1, (0.0, 1e4, 1e4))], vec![])), "members[0].second_moment_y");
    assert_eq!(
        path(refused(nodes(), vec![bar(0, 1)], vec![Support::pinned(0), Support::fixed(0)])),
        "supports[1].node"
    );
    assert_eq!(path(refused(nodes(), vec![bar(0, 1)], vec![Support::pinned(7)])), "supports[0].node");
    let spring = Support { moves: [Hold::Spring(-1.0); 3], ..Support::free(0) };
    assert_eq!(path(refused(nodes(), vec![bar(0, 1)], vec![spring])), "supports[0].moves[0]");
    let mut along = beam(0, 1, (1e4, 1e4, 1e4));
    along.bending.as_mut().unwrap().up = Some([5.0, 0.0, 0.0]);
    assert_eq!(path(refused(nodes(), vec![along], vec![])), "members[0].up");
    assert_eq!(path(refused(vec![[0.0; 3]; 201], vec![bar(0, 1)], vec![])), "nodes");
    let tripod = table(true);
    assert_eq!(path(tripod.solve(&[NodeLoad::force(99, [0.0; 3])]).unwrap_err()), "loads[0].node");
    assert_eq!(path(tripod.solve(&[NodeLoad::force(4, [f64::NAN; 3])]).unwrap_err()), "loads[0].force[0]");
    let strut = SpaceFrame::new(
        vec![[0.0; 3], [0.0, 0.0, 1000.0]],
        vec![bar(0, 1)],
        vec![Support::pinned(0), Support { moves: [Hold::Held, Hold::Held, Hold::Free], ..Support::free(1) }],
    )
    .unwrap();
    let moment = NodeLoad { node: 1, force_n: [0.0; 3], moment_n_mm: [1.0, 0.0, 0.0] };
    assert_eq!(path(strut.solve(&[moment]).unwrap_err()), "loads[0].moment[0]");
}
