//! Rivet groups against textbook cases and statics, and the laws that hold for every group.

use std::f64::consts::{PI, TAU};

use proptest::collection::vec;
use proptest::prelude::*;
use raisedbody::mechanics::joint::group::{
    InPlaneLoad, RivetForce, RivetGroup, SuctionLine, continuity_factor, pried_tension_n, prying_ratio,
    suction_per_rivet_n,
};
use rstest::rstest;

fn close(value: f64, expected: f64, relative: f64) -> bool {
    (value - expected).abs() <= relative * expected.abs()
}

fn ring(n: u32, radius_mm: f64) -> Vec<[f64; 2]> {
    (0..n)
        .map(|i| {
            let angle = TAU * f64::from(i) / f64::from(n);
            [radius_mm * angle.cos(), radius_mm * angle.sin()]
        })
        .collect()
}

fn couple(n_mm: f64) -> InPlaneLoad {
    InPlaneLoad { couple_n_mm: n_mm, ..InPlaneLoad::default() }
}

fn worst_n(places: &[[f64; 2]], load: InPlaneLoad) -> f64 {
    RivetGroup::equal(places).unwrap().elastic(load).unwrap().worst().1
}

/// Diameter for a shear stress of 60 MPa in one plane.
fn diameter_mm(shear_n: f64) -> f64 {
    (4.0 * shear_n / (PI * 60.0)).sqrt()
}

// Bhandari, Design of Machine Elements, example 8.24: data, method and printed diameter in the public worked solutions
// FOSSEE/Scilab-TBC-Uploads, 764/CH8; the forces by arithmetic from its data.
#[test]
fn four_rivets_in_one_line() {
    let group = RivetGroup::equal(&[[0.0, 0.0], [0.0, 100.0], [0.0, 200.0], [0.0, 300.0]]).unwrap();
    let load = InPlaneLoad { y_n: 25_000.0, at_mm: [100.0, 0.0], ..InPlaneLoad::default() };
    let shared = group.elastic(load).unwrap();
    let outer = shared.forces[0];
    assert!(close(shared.moment_n_mm, 2.5e6, 1e-12));
    assert!(close(outer.primary_n[1], 6250.0, 1e-12) && outer.primary_n[0].abs() < 1e-9);
    assert!(close(outer.secondary_n[0].abs(), 7500.0, 1e-12) && outer.secondary_n[1].abs() < 1e-9);
    let (which, worst) = shared.worst();
    assert!(which == 0 || which == 3);
    assert!((worst - 9762.8).abs() < 0.05);
    assert!((diameter_mm(worst) - 14.39).abs() < 0.005);
}

// The same, example 8.26: four rivets on a circle, the load beside it.
#[test]
fn four_rivets_on_a_circle() {
    let group = RivetGroup::equal(&ring(4, 100.0)).unwrap();
    let load = InPlaneLoad { y_n: 5000.0, at_mm: [200.0, 0.0], ..InPlaneLoad::default() };
    let shared = group.elastic(load).unwrap();
    // On the load's side both shares point the same way.
    assert_eq!(shared.worst().0, 0);
    assert!(close(shared.forces[0].primary_n[1], 1250.0, 1e-9));
    assert!(close(shared.forces[0].secondary_n[1], 2500.0, 1e-9));
    assert!((shared.worst().1 - 3750.0).abs() < 1e-6);
    assert!((diameter_mm(shared.worst().1) - 8.92).abs() < 0.005);
}

// Statics: 6 mm beside 3 mm has four times the area, so the centroid lies at a fifth of the distance from it.
#[test]
fn larger_rivets_take_more() {
    let group = RivetGroup::by_area(&[([0.0, 0.0], 6.0), ([100.0, 0.0], 3.0)]).unwrap();
    let load = InPlaneLoad { y_n: 1000.0, at_mm: [20.0, 0.0], ..InPlaneLoad::default() };
    let shared = group.elastic(load).unwrap();
    assert!(close(shared.centroid_mm[0], 20.0, 1e-12));
    assert!(close(shared.forces[0].y_n(), 800.0, 1e-12));
    assert!(close(shared.forces[1].y_n(), 200.0, 1e-12));
}

#[test]
fn one_rivet_carries_a_centred_load_only() {
    let one = RivetGroup::equal(&[[30.1, 70.2]]).unwrap();
    let centred = InPlaneLoad { x_n: 900.0, at_mm: [10.0, 70.2], ..InPlaneLoad::default() };
    assert!(close(one.elastic(centred).unwrap().worst().1, 900.0, 1e-12));
    assert!(close(one.plastic(centred, &[1800.0]).unwrap().factor, 2.0, 1e-12));
    let beside = InPlaneLoad { at_mm: [10.0, 71.2], ..centred };
    assert_eq!(one.elastic(beside).unwrap_err()[0].path(), "load");
    assert_eq!(one.elastic(couple(1.0)).unwrap_err()[0].path(), "load");
}

#[rstest]
#[case(vec![], "rivets")]
#[case(vec![[0.0, f64::NAN]], "rivets[0].y")]
#[case(vec![[f64::INFINITY, 0.0]], "rivets[0].x")]
#[case(vec![[0.0, 0.0], [50.0, 0.0], [0.05, 0.0]], "rivets[2]")]
fn impossible_groups(#[case] places: Vec<[f64; 2]>, #[case] path: &str) {
    let problems = RivetGroup::equal(&places).unwrap_err();
    assert_eq!(problems.iter().map(|p| p.path()).collect::<Vec<_>>(), [path]);
}

#[test]
fn impossible_loads_caps_and_diameters() {
    let group = RivetGroup::equal(&ring(3, 50.0)).unwrap();
    let bad = InPlaneLoad { x_n: f64::NAN, ..InPlaneLoad::default() };
    assert_eq!(group.elastic(bad).unwrap_err()[0].path(), "load.x");
    let pull = InPlaneLoad { x_n: 1.0, ..InPlaneLoad::default() };
    assert_eq!(group.plastic(pull, &[1000.0; 2]).unwrap_err()[0].path(), "caps");
    assert_eq!(group.plastic(pull, &[1000.0, -1.0, 1000.0]).unwrap_err()[0].path(), "caps[1]");
    assert_eq!(group.plastic(InPlaneLoad::default(), &[1000.0; 3]).unwrap_err()[0].path(), "load");
    assert_eq!(RivetGroup::by_area(&[([0.0, 0.0], 0.0)]).unwrap_err()[0].path(), "rivets[0].diameter");
    assert_eq!(RivetGroup::equal(&ring(1001, 1e4)).unwrap_err()[0].path(), "rivets");
    // Nothing to carry is no error for the elastic method.
    assert!(group.elastic(InPlaneLoad::default()).unwrap().worst().1.abs() < f64::EPSILON);
}

// Closed forms: under a pure couple about the centre of a group that is its own mirror image through it, the collapse
// couple is the cap times the sum of radii; under a force through the centroid it is n caps.
#[rstest]
#[case::ring(ring(7, 40.0), couple(1e5), 7.0 * 40.0 * 1500.0 / 1e5)]
#[case::line_of_four(vec![[-75.0, 0.0], [-25.0, 0.0], [25.0, 0.0], [75.0, 0.0]], couple(1e5), 200.0 * 1500.0 / 1e5)]
#[case::with_a_middle(vec![[-50.0, 0.0], [0.0, 0.0], [50.0, 0.0]], couple(1e5), 100.0 * 1500.0 / 1e5)]
#[case::pure_shear(
    vec![[0.0, 0.0], [30.0, 0.0], [60.0, 45.0]],
    InPlaneLoad { x_n: 600.0, y_n: -800.0, at_mm: [30.0, 15.0], couple_n_mm: 0.0 },
    3.0 * 1500.0 / 1000.0
)]
fn plastic_closed_forms(#[case] places: Vec<[f64; 2]>, #[case] load: InPlaneLoad, #[case] factor: f64) {
    let group = RivetGroup::equal(&places).unwrap();
    let bounds = group.plastic(load, &vec![1500.0; places.len()]).unwrap();
    assert!(close(bounds.factor, factor, 2e-6), "{} {factor}", bounds.factor);
    assert!(close(bounds.factor_at_most, factor, 2e-6), "{} {factor}", bounds.factor_at_most);
}

// Example 8.24 again, at collapse. By symmetry the centre of rotation lies on the line through the centroid square to
// the rivets, `c` beyond it from the load: the least of `cap sum(hypot(c, y)) / (P (e + c))` over `c`, found here by
// search.
#[test]
fn plastic_four_rivets_in_one_line() {
    let places = [[0.0, -150.0], [0.0, -50.0], [0.0, 50.0], [0.0, 150.0]];
    let load = InPlaneLoad { y_n: 25_000.0, at_mm: [100.0, 0.0], ..InPlaneLoad::default() };
    let group = RivetGroup::equal(&places).unwrap();
    let cap_n = 10_000.0;
    let allows = |c: f64| {
        let give: f64 = places.iter().map(|p| cap_n * p[1].hypot(c)).sum();
        give / (25_000.0 * (100.0 + c))
    };
    let exact = (0..1_000_000).map(|i| allows(1e-3 * f64::from(i))).fold(f64::INFINITY, f64::min);
    let bounds = group.plastic(load, &[cap_n; 4]).unwrap();
    assert!(close(bounds.factor, exact, 2e-6) && close(bounds.factor_at_most, exact, 2e-6), "{bounds:?} {exact}");
    let elastic = cap_n / group.elastic(load).unwrap().worst().1;
    let pure_shear = 4.0 * cap_n / 25_000.0;
    assert!(elastic < bounds.factor && bounds.factor < pure_shear, "{elastic} {} {pure_shear}", bounds.factor);
}

// Two rivets and a load on their line one spacing beyond them: statics alone gives 2 F and -F, so elastic and plastic
// agree. At collapse the pair turns about the less loaded rivet, which then slips not at all.
#[test]
fn determinate_pair_gains_nothing() {
    let group = RivetGroup::equal(&[[0.0, 0.0], [100.0, 0.0]]).unwrap();
    let load = InPlaneLoad { y_n: 500.0, at_mm: [200.0, 0.0], ..InPlaneLoad::default() };
    let shared = group.elastic(load).unwrap();
    assert!(close(shared.forces[1].y_n(), 1000.0, 1e-12) && close(shared.forces[0].y_n(), -500.0, 1e-12));
    assert!(close(group.plastic(load, &[1500.0; 2]).unwrap().factor, 1.5, 2e-6));
}

// Limits found while thinking the laws through: a rivet added anywhere, even symmetrically, can raise the worst force.
#[test]
fn a_far_pair_can_raise_the_worst_force() {
    // 12 on a ring, then a pair at the radius where r / (J + 2 r^2) is largest, sqrt(J / 2): 1/12 becomes 0.1021.
    let mut places = ring(12, 10.0);
    let before = worst_n(&places, couple(1000.0));
    places.extend([[0.0, 24.5], [0.0, -24.5]]);
    assert!(close(before, 1000.0 / 120.0, 1e-9));
    assert!(worst_n(&places, couple(1000.0)) > 1.2 * before);
}

#[rstest]
#[case(0.0, 10.0)]
#[case(10.0, 0.0)]
#[case(-12.0, 12.0)]
#[case(12.0, f64::NAN)]
fn impossible_prying(#[case] to_web: f64, #[case] to_edge: f64) {
    assert_eq!(prying_ratio(to_web, to_edge).unwrap_err().len(), 1);
}

// Rigid bound: Q/T = b'/a', a' at most 1.25 b' (from memory); the numbers by arithmetic.
#[rstest]
#[case(15.0, 10.0, 1.5)]
#[case(15.0, 18.75, 0.8)]
#[case(15.0, 60.0, 0.8)]
fn prying(#[case] to_web: f64, #[case] to_edge: f64, #[case] ratio: f64) {
    let found = prying_ratio(to_web, to_edge).unwrap();
    assert!(close(found, ratio, 1e-12));
    assert!(close(pried_tension_n(200.0, found), 200.0 * (1.0 + ratio), 1e-12));
}

/// Reaction of the first inner support over w L, by the three-moment equations of equal spans: with moments in w L^2,
/// `M[i-1] + 4 M[i] + M[i+1] = -1/2`, solved by elimination.
fn first_inner_reaction(spans: usize) -> f64 {
    let inner = spans - 1;
    let (mut pivot, mut right) = (vec![4.0; inner], vec![-0.5; inner]);
    for i in 1..inner {
        let ratio = 1.0 / pivot[i - 1];
        pivot[i] -= ratio;
        right[i] -= ratio * right[i - 1];
    }
    let mut moments = vec![0.0; spans + 1];
    for i in (0..inner).rev() {
        moments[i + 1] = (right[i] - moments[i + 2]) / pivot[i];
    }
    1.0 + moments[0] - 2.0 * moments[1] + moments[2]
}

#[test]
fn continuity_by_three_moments() {
    for (spans, factor) in [(2, 1.25), (3, 1.10), (4, 8.0 / 7.0)] {
        assert!(close(first_inner_reaction(spans), factor, 1e-12));
        assert!(close(continuity_factor(u32::try_from(spans).unwrap()).unwrap(), factor, 1e-12));
    }
    for spans in 5..40 {
        let exact = first_inner_reaction(spans);
        let stands = continuity_factor(u32::try_from(spans).unwrap()).unwrap();
        assert!(exact <= stands && stands < 1.011 * exact, "{spans} spans: {exact}");
        assert!((1.13..1.14).contains(&exact));
    }
    assert_eq!((continuity_factor(0), continuity_factor(1)), (None, None));
}

#[test]
fn suction() {
    let t = |line| suction_per_rivet_n(0.0012, 600.0, 150.0, line).unwrap();
    assert!(close(t(SuctionLine::End), 0.0012 * 300.0 * 150.0, 1e-12));
    assert!(close(t(SuctionLine::FirstInner { spans: 3 }), 0.0012 * 600.0 * 150.0 * 1.1, 1e-12));
    let refused = |q, b, p, line| suction_per_rivet_n(q, b, p, line).unwrap_err()[0].path().to_owned();
    assert_eq!(refused(-0.001, 600.0, 150.0, SuctionLine::End), "suction");
    assert_eq!(refused(0.001, f64::NAN, 150.0, SuctionLine::End), "rib_spacing");
    assert_eq!(refused(0.001, 600.0, 0.0, SuctionLine::End), "pitch");
    assert_eq!(refused(0.001, 600.0, 150.0, SuctionLine::FirstInner { spans: 1 }), "spans");
}

/// Places on a grid of 20 mm, jittered by less than half of it, so that no two coincide; with diameters.
fn rivets() -> impl Strategy<Value = Vec<([f64; 2], f64)>> {
    let cell = (0..36_i32, -8.0..8.0, -8.0..8.0, 3.0..8.0);
    vec(cell, 2..15).prop_map(|mut cells: Vec<(i32, f64, f64, f64)>| {
        cells.sort_by_key(|c| c.0);
        cells.dedup_by_key(|c| c.0);
        if cells.len() == 1 {
            let (at, x, y, d) = cells[0];
            cells.push((at + 1, x, y, d));
        }
        cells
            .into_iter()
            .map(|(at, x, y, d)| ([20.0 * f64::from(at % 6) + x, 20.0 * f64::from(at / 6) + y], d))
            .collect()
    })
}

fn loads() -> impl Strategy<Value = InPlaneLoad> {
    let force = -5e3..5e3;
    (force.clone(), force, -300.0..300.0, -300.0..300.0, -1e6..1e6)
        .prop_map(|(x_n, y_n, x, y, couple_n_mm)| InPlaneLoad { x_n, y_n, at_mm: [x, y], couple_n_mm })
}

fn places(rivets: &[([f64; 2], f64)]) -> Vec<[f64; 2]> {
    rivets.iter().map(|r| r.0).collect()
}

/// Sum of forces along x and y, and of their moments about a point.
fn sums(places: &[[f64; 2]], forces: &[RivetForce], about: [f64; 2]) -> [f64; 3] {
    places.iter().zip(forces).fold([0.0; 3], |[x, y, m], (p, f)| {
        [x + f.x_n(), y + f.y_n(), m + (p[0] - about[0]) * f.y_n() - (p[1] - about[1]) * f.x_n()]
    })
}

fn balances(places: &[[f64; 2]], forces: &[RivetForce], load: InPlaneLoad, times: f64, about: [f64; 2]) -> bool {
    let [x, y, m] = sums(places, forces, about);
    let size: f64 = forces.iter().map(RivetForce::resultant_n).sum();
    (x - times * load.x_n).abs() <= 1e-9 * size
        && (y - times * load.y_n).abs() <= 1e-9 * size
        && (m - times * load.moment_n_mm(about)).abs() <= 1e-9 * size * 1000.0
}

fn turned([x, y]: [f64; 2], angle: f64) -> [f64; 2] {
    let (sin, cos) = angle.sin_cos();
    [x * cos - y * sin, x * sin + y * cos]
}

proptest! {
    #[test]
    fn elastic_forces_balance_the_load(rivets in rivets(), load in loads(), x in -500.0..500.0, y in -500.0..500.0) {
        for group in [RivetGroup::equal(&places(&rivets)).unwrap(), RivetGroup::by_area(&rivets).unwrap()] {
            let shared = group.elastic(load).unwrap();
            prop_assert!(balances(&places(&rivets), &shared.forces, load, 1.0, [x, y]));
        }
    }

    #[test]
    fn turning_and_moving_the_picture_turns_the_answer(
        rivets in rivets(), load in loads(), angle in 0.0..TAU, shift in -400.0..400.0
    ) {
        let moved = |p: [f64; 2]| { let q = turned(p, angle); [q[0] + shift, q[1] - 2.0 * shift] };
        let there: Vec<_> = rivets.iter().map(|(p, d)| (moved(*p), *d)).collect();
        let [x_n, y_n] = turned([load.x_n, load.y_n], angle);
        let load_there = InPlaneLoad { x_n, y_n, at_mm: moved(load.at_mm), ..load };
        let here = RivetGroup::by_area(&rivets).unwrap().elastic(load).unwrap();
        let there = RivetGroup::by_area(&there).unwrap().elastic(load_there).unwrap();
        for (a, b) in here.forces.iter().zip(&there.forces) {
            let [x, y] = turned([a.x_n(), a.y_n()], angle);
            prop_assert!((x - b.x_n()).hypot(y - b.y_n()) <= 1e-9 * here.worst().1);
        }
    }

    // The load's point may slide along its line.
    #[test]
    fn only_the_line_of_the_load_counts(rivets in rivets(), load in loads(), along in -1.0..1.0) {
        let [x, y] = load.at_mm;
        let slid = InPlaneLoad { at_mm: [x + along * load.x_n / 10.0, y + along * load.y_n / 10.0], ..load };
        let group = RivetGroup::equal(&places(&rivets)).unwrap();
        let (a, b) = (group.elastic(load).unwrap(), group.elastic(slid).unwrap());
        for (a, b) in a.forces.iter().zip(&b.forces) {
            prop_assert!((a.x_n() - b.x_n()).hypot(a.y_n() - b.y_n()) <= 1e-9 * (1.0 + a.resultant_n()));
        }
    }

    // Added at the centroid, a rivet takes of the force and leaves the turning as it was. In a group that is its own
    // image through the centroid every secondary force comes with its opposite, so less primary force is less worst.
    #[test]
    fn a_rivet_in_the_middle_eases_a_symmetric_group(half in rivets(), load in loads()) {
        // Moved clear of the origin, so that no image falls on an original and the middle is free.
        let mut group: Vec<[f64; 2]> = places(&half).iter().map(|[x, y]| [x + 20.0, y + 20.0]).collect();
        group.extend(group.clone().iter().map(|[x, y]| [-x, -y]));
        let before = worst_n(&group, load);
        group.push([0.0, 0.0]);
        prop_assert!(worst_n(&group, load) <= before * (1.0 + 1e-12));
    }

    // A pair added symmetrically never loads the rivets that were there more than before: force and turning both fall.
    #[test]
    fn a_symmetric_pair_eases_the_others(half in rivets(), load in loads(), r in 1.0..500.0_f64) {
        let mut group: Vec<[f64; 2]> = places(&half).iter().map(|[x, y]| [x + 20.0, y + 20.0]).collect();
        group.extend(group.clone().iter().map(|[x, y]| [-x, -y]));
        let (before, were) = (worst_n(&group, load), group.len());
        group.extend([[r, -r], [-r, r]]);
        let after = RivetGroup::equal(&group).unwrap().elastic(load).unwrap();
        let others = after.forces[..were].iter().map(RivetForce::resultant_n).fold(0.0, f64::max);
        prop_assert!(others <= before * (1.0 + 1e-12));
    }

    // The factor is proved by its own forces: they balance the load and none is above its cap. It is no less than the
    // elastic factor and no more than what any motion allows, of which sliding along the load is one.
    #[test]
    fn plastic_factor_is_a_lower_bound(rivets in rivets(), load in loads(), x in -200.0..200.0, y in -200.0..200.0) {
        let group = RivetGroup::by_area(&rivets).unwrap();
        let caps: Vec<f64> = rivets.iter().map(|(_, d)| 100.0 * d * d).collect();
        let bounds = group.plastic(load, &caps).unwrap();
        prop_assert!(balances(&places(&rivets), &bounds.forces, load, bounds.factor, [x, y]));
        for (force, cap) in bounds.forces.iter().zip(&caps) {
            prop_assert!(force.resultant_n() <= cap * (1.0 + 1e-12));
        }
        let shared = group.elastic(load).unwrap();
        let elastic = caps.iter().zip(&shared.forces).map(|(c, f)| c / f.resultant_n()).fold(f64::INFINITY, f64::min);
        prop_assert!(bounds.factor >= elastic * (1.0 - 1e-12));
        // Lower and upper bound are in order as exactly as the forces balance.
        let (lower, upper) = (bounds.factor, bounds.factor_at_most);
        prop_assert!(lower <= upper * (1.0 + 1e-9), "{lower} {upper}");
        let sliding = caps.iter().sum::<f64>() / load.x_n.hypot(load.y_n);
        prop_assert!(bounds.factor <= sliding * (1.0 + 1e-12));
        // How near the search comes.
        prop_assert!(upper <= lower * 1.001, "{lower} {upper}");
    }

    // One rivet more never lowers the true collapse load: it may carry nothing. Stated in the bounds, so that it holds
    // however far the search got.
    #[test]
    fn one_more_rivet_never_lowers_collapse(rivets in rivets(), load in loads()) {
        let all = places(&rivets);
        prop_assume!(all.len() > 2);
        let bounds = |p: &[[f64; 2]]| RivetGroup::equal(p).unwrap().plastic(load, &vec![1000.0; p.len()]).unwrap();
        let (a, b) = (bounds(&all).factor_at_most, bounds(&all[1..]).factor);
        prop_assert!(a >= b * (1.0 - 1e-9), "{a} {b}");
    }

    #[test]
    fn factors_scale_with_caps(rivets in rivets(), load in loads(), times in 0.1..10.0) {
        let group = RivetGroup::equal(&places(&rivets)).unwrap();
        let factor = |cap: f64| group.plastic(load, &vec![cap; rivets.len()]).unwrap().factor;
        let (a, b) = (factor(1000.0 * times), times * factor(1000.0));
        prop_assert!(close(a, b, 1e-9), "{a} {b}");
    }
}
