//! General sections by the line method: outside values, and the laws that hold for every chain of points.

use std::f64::consts::{FRAC_PI_2, PI};

use proptest::prelude::*;
use raisedbody::error::Problem;
use raisedbody::mechanics::section::{
    Channel, Hat, Node, Profile, Properties, RectangularTube, Wall, Zee, skin_strips, von_karman_width_mm,
};
use rstest::rstest;

fn close(value: f64, expected: f64, relative: f64) -> bool {
    (value - expected).abs() <= relative * expected.abs()
}

fn sharp(x_mm: f64, y_mm: f64) -> Node {
    Node { x_mm, y_mm, radius_mm: 0.0 }
}

fn wall(from: usize, to: usize, thickness_mm: f64) -> Wall {
    Wall { from, to, thickness_mm }
}

// EN 1993-1-3 5.1 (from memory): A = A_sharp (1 - delta), I = I_sharp (1 - 2 delta),
// delta = 0.43 sum(r phi / 90) / sum(b_p), r the inside radius. An approximation for small radii: the tolerances are what
// it is worth there, not an error of the arcs.
#[rstest]
#[case::small(60.0, 40.0, 1.2, 2.4)]
#[case::usual(80.0, 40.0, 1.5, 4.0)]
#[case::larger(80.0, 80.0, 2.0, 6.0)]
fn the_round_corner_reduction_of_en_1993_1_3(
    #[case] depth_mm: f64,
    #[case] width_mm: f64,
    #[case] wall_mm: f64,
    #[case] outer: f64,
) {
    let tube = |outer_radius_mm| RectangularTube { depth_mm, width_mm, wall_mm, outer_radius_mm };
    let (sharp, round) = (tube(0.0).properties("").unwrap(), tube(outer).properties("").unwrap());
    let delta = 0.43 * 4.0 * (outer - wall_mm) / (2.0 * (depth_mm + width_mm - 2.0 * wall_mm));
    assert!(close(round.area_mm2, sharp.area_mm2 * (1.0 - delta), 0.01));
    assert!(close(round.ix_mm4, sharp.ix_mm4 * (1.0 - 2.0 * delta), 0.02));
    assert!(round.ix_mm4 < sharp.ix_mm4);
}

// Equal-legged angle of 30 mm legs and 2 mm, mid-lines: centroid l/4 from either leg; about it each leg
// t l^3 (1/12 + 1/16) and t l^3 / 16: I = 5 t l^3 / 24, product -t l^3 / 8, principal t l^3 / 3 and t l^3 / 12.
#[test]
fn an_angle_by_hand() {
    let (l, t) = (30.0_f64, 2.0);
    let angle = Profile::chain(&[[0.0, l], [0.0, 0.0], [l, 0.0]], t, 0.0, false, "").unwrap().properties();
    let unit = t * l.powi(3);
    assert!(close(angle.ix_mm4, 5.0 / 24.0 * unit, 1e-12));
    assert!(close(angle.iy_mm4, 5.0 / 24.0 * unit, 1e-12));
    assert!(close(angle.ixy_mm4, -unit / 8.0, 1e-12));
    assert!(close(angle.i_major_mm4, unit / 3.0, 1e-12));
    assert!(close(angle.i_minor_mm4, unit / 12.0, 1e-12));
    assert!(close(angle.major_axis_deg, 45.0, 1e-12));
    assert!(close(angle.centroid_mm, 0.25 * l + 1.0, 1e-12));
    assert!(close(angle.torsion_mm4, 2.0 * l * t.powi(3) / 3.0, 1e-12));
}

// A zee of depth h and flanges b between mid-lines: Ix = t (h^3 / 12 + 2 b h^2 / 4), Iy = 2 t b^3 / 3,
// Ixy = -t b^2 h / 2 (Timoshenko's classic sign for flanges in the second and fourth quadrant).
#[test]
fn a_zee_and_a_channel_by_hand() {
    let zee = Zee { depth_mm: 61.0, flange_mm: 25.5, wall_mm: 1.0, outer_radius_mm: 0.0 }.properties("").unwrap();
    let (h, b) = (60.0_f64, 25.0_f64);
    assert!(close(zee.ix_mm4, h.powi(3) / 12.0 + b * h * h / 2.0, 1e-12));
    assert!(close(zee.iy_mm4, 2.0 * b.powi(3) / 3.0, 1e-12));
    assert!(close(zee.ixy_mm4, -b * b * h / 2.0, 1e-12));
    assert_eq!(zee.centroid_mm, 30.5);
    let channel =
        Channel { depth_mm: 61.0, flange_mm: 25.5, wall_mm: 1.0, outer_radius_mm: 0.0 }.properties("").unwrap();
    assert!(close(channel.ix_mm4, zee.ix_mm4, 1e-12));
    assert!(channel.ixy_mm4.abs() < 1e-9);
    assert!(close(channel.centroid_x_mm, b * b / (h + 2.0 * b) + 0.5, 1e-12));
}

// A cell with outstands: a hat's walls and the skin between its webs as walls between points, all on one line. Bredt by
// hand for the cell 50 x 40, l t^3 / 3 for the outstands.
#[test]
fn a_cell_with_outstands() {
    let nodes = [
        sharp(-45.0, 0.0),
        sharp(-25.0, 0.0),
        sharp(-25.0, 40.0),
        sharp(25.0, 40.0),
        sharp(25.0, 0.0),
        sharp(45.0, 0.0),
    ];
    let walls = [wall(0, 1, 1.5), wall(1, 2, 1.5), wall(2, 3, 1.5), wall(3, 4, 1.5), wall(4, 5, 1.5), wall(1, 4, 0.9)];
    let profile = Profile::new(&nodes, &walls, "rib").unwrap();
    assert!(profile.is_closed());
    let section = profile.properties();
    let around = 130.0 / 1.5 + 50.0 / 0.9;
    assert!(close(section.torsion_mm4, 4.0 * 2000.0_f64.powi(2) / around + 40.0 * 1.5_f64.powi(3) / 3.0, 1e-12));
    assert_eq!(section.enclosed_mm2, 2000.0);
    assert!(close(section.area_mm2, 170.0 * 1.5 + 45.0, 1e-12));
}

// A bend that points into the cell fills a corner: an L-shaped cell with all corners round, by areas of squares and
// quarter circles.
#[test]
fn a_cell_with_a_corner_that_points_inward() {
    let points = [[0.0, 0.0], [60.0, 0.0], [60.0, 30.0], [30.0, 30.0], [30.0, 60.0], [0.0, 60.0]];
    let section = Profile::chain(&points, 1.0, 5.0, true, "").unwrap().properties();
    let corner = 25.0 * (1.0 - PI / 4.0);
    assert!(close(section.enclosed_mm2, 2700.0 - 5.0 * corner + corner, 1e-12));
    assert!(close(section.developed_mm, 240.0 - 6.0 * (10.0 - 5.0 * FRAC_PI_2), 1e-12));
    let mut turned = points;
    turned.reverse();
    let other = Profile::chain(&turned, 1.0, 5.0, true, "").unwrap().properties();
    assert!(close(other.enclosed_mm2, section.enclosed_mm2, 1e-12));
}

// Parallel axes by hand: tube 40 x 40 x 1 on a strip of 100 x 1.
#[test]
fn a_tube_on_its_skin() {
    let tube = RectangularTube { depth_mm: 40.0, width_mm: 40.0, wall_mm: 1.0, outer_radius_mm: 0.0 };
    let profile = tube.profile("").unwrap();
    let (bare, with) = (profile.properties(), profile.with_skin(1.0, 100.0, "").unwrap().properties());
    let (a, s) = (bare.area_mm2, 100.0);
    assert!(close(with.area_mm2, a + s, 1e-12));
    assert!(close(with.ix_mm4, bare.ix_mm4 + a * s / (a + s) * 20.5_f64.powi(2), 1e-12));
    assert!(close(with.iy_mm4, bare.iy_mm4 + 100.0_f64.powi(3) / 12.0, 1e-12));
    assert!(close(with.centroid_mm, (a * 21.0 + s * 0.5) / (a + s), 1e-12));
    assert!(close(with.torsion_mm4, bare.torsion_mm4 + 100.0 / 3.0, 1e-12));
    assert_eq!(with.depth_mm, 41.0);
}

// A strip that ends before the rivets of the feet closes no cell.
#[test]
fn a_narrow_strip_leaves_a_hat_open() {
    let hat = Hat { depth_mm: 40.0, crown_mm: 50.0, flange_mm: 20.0, wall_mm: 1.0, outer_radius_mm: 3.0 };
    let profile = hat.profile("").unwrap();
    let open = profile.with_skin(1.0, 60.0, "").unwrap().properties().torsion_mm4;
    assert!(close(open, profile.properties().torsion_mm4 + 20.0, 1e-12));
    assert!(profile.with_skin(1.0, 90.0, "").unwrap().properties().torsion_mm4 > 100.0 * open);
}

// von Karman, from memory: 1.9 t sqrt(E / sigma), by hand 1.9 x 0.9 x sqrt(2050).
#[test]
fn strips_of_skin() {
    assert!(close(von_karman_width_mm(0.9, 205_000.0, 100.0), 77.423, 1e-5));
    let strips = skin_strips(0.9, 300.0, 100.0, 205_000.0).unwrap();
    assert_eq!(strips.len(), 2);
    assert!(strips.iter().all(|s| s.width_mm < 300.0 && s.standing.words() == "from memory"));
    assert_eq!(skin_strips(0.0, 300.0, -1.0, 205_000.0).unwrap_err().len(), 2);
}

#[rstest]
#[case::two_cells(
    &[sharp(0.0, 0.0), sharp(40.0, 0.0), sharp(40.0, 40.0), sharp(0.0, 40.0)],
    &[wall(0, 1, 1.0), wall(1, 2, 1.0), wall(2, 3, 1.0), wall(3, 0, 1.0), wall(0, 2, 1.0)],
    "rib.walls"
)]
#[case::in_pieces(
    &[sharp(0.0, 0.0), sharp(40.0, 0.0), sharp(40.0, 40.0), sharp(0.0, 40.0)],
    &[wall(0, 1, 1.0), wall(2, 3, 1.0)],
    "rib.walls"
)]
#[case::no_such_point(&[sharp(0.0, 0.0), sharp(40.0, 0.0)], &[wall(0, 2, 1.0)], "rib.walls[0]")]
#[case::no_walls(&[sharp(0.0, 0.0), sharp(40.0, 0.0)], &[], "rib.walls")]
#[case::twice(&[sharp(0.0, 0.0), sharp(40.0, 0.0)], &[wall(0, 1, 1.0), wall(1, 0, 1.0)], "rib.walls[1]")]
#[case::no_number(&[sharp(0.0, f64::NAN), sharp(40.0, 0.0)], &[wall(0, 1, 1.0)], "rib.nodes[0].y")]
#[case::no_length(&[sharp(0.0, 0.0), sharp(0.0, 0.0)], &[wall(0, 1, 1.0)], "rib.nodes[1]")]
#[case::folded_back(
    &[sharp(0.0, 0.0), sharp(40.0, 0.0), sharp(10.0, 1.0)], &[wall(0, 1, 1.0), wall(1, 2, 1.0)], "rib.nodes[1]"
)]
#[case::radius_at_a_free_end(
    &[Node { x_mm: 0.0, y_mm: 0.0, radius_mm: 2.0 }, sharp(40.0, 0.0)], &[wall(0, 1, 1.0)], "rib.nodes[0].radius"
)]
#[case::bend_of_two_thicknesses(
    &[sharp(0.0, 40.0), Node { x_mm: 0.0, y_mm: 0.0, radius_mm: 2.0 }, sharp(40.0, 0.0)],
    &[wall(0, 1, 1.0), wall(1, 2, 2.0)],
    "rib.nodes[1].radius"
)]
#[case::no_room_for_the_bend(
    &[sharp(0.0, 40.0), Node { x_mm: 0.0, y_mm: 0.0, radius_mm: 12.0 }, sharp(10.0, 0.0)],
    &[wall(0, 1, 1.0), wall(1, 2, 1.0)],
    "rib.nodes[1].radius"
)]
fn a_profile_refuses(#[case] nodes: &[Node], #[case] walls: &[Wall], #[case] name: &str) {
    let problems = Profile::new(nodes, walls, "rib").unwrap_err();
    assert_eq!(problems.iter().map(Problem::path).collect::<Vec<_>>(), [name], "{problems:?}");
}

fn rounded_hat(depth_mm: f64, crown_mm: f64, flange_mm: f64, wall_mm: f64, outer_radius_mm: f64) -> Hat {
    Hat { depth_mm, crown_mm, flange_mm, wall_mm, outer_radius_mm }
}

/// An open chain that goes up step by step, so that it cannot cross itself.
fn steps() -> impl Strategy<Value = Vec<[f64; 2]>> {
    prop::collection::vec((-40.0..40.0_f64, 12.0..30.0_f64), 2..6).prop_map(|steps| {
        let mut height = 0.0;
        steps
            .into_iter()
            .map(|(x, up)| {
                height += up;
                [x, height]
            })
            .collect()
    })
}

fn of(points: &[[f64; 2]], wall_mm: f64, radius_mm: f64) -> Properties {
    Profile::chain(points, wall_mm, radius_mm, false, "").unwrap().properties()
}

proptest! {
    #[test]
    fn properties_scale(points in steps(), wall in 0.5..3.0, radius in 0.0..0.8, k in 0.3..3.0_f64) {
        let large: Vec<_> = points.iter().map(|[x, y]| [k * x, k * y]).collect();
        let (small, large) = (of(&points, wall, radius), of(&large, k * wall, k * radius));
        let same = |a: f64, b: f64, power: i32, size: f64| (b - a * k.powi(power)).abs() <= 1e-9 * size * k.powi(power);
        let inertia = small.ix_mm4 + small.iy_mm4;
        prop_assert!(same(small.area_mm2, large.area_mm2, 2, small.area_mm2));
        prop_assert!(same(small.ix_mm4, large.ix_mm4, 4, inertia));
        prop_assert!(same(small.iy_mm4, large.iy_mm4, 4, inertia));
        prop_assert!(same(small.ixy_mm4, large.ixy_mm4, 4, inertia));
        prop_assert!(same(small.torsion_mm4, large.torsion_mm4, 4, small.torsion_mm4));
        prop_assert!(same(small.sx_mm3, large.sx_mm3, 3, small.sx_mm3));
        prop_assert!(same(small.centroid_mm, large.centroid_mm, 1, small.depth_mm));
    }

    #[test]
    fn a_right_angle_swaps_the_axes(points in steps(), wall in 0.5..3.0, radius in 0.0..0.8) {
        let turned: Vec<_> = points.iter().map(|[x, y]| [-y, *x]).collect();
        let (upright, lying) = (of(&points, wall, radius), of(&turned, wall, radius));
        let inertia = upright.ix_mm4 + upright.iy_mm4;
        prop_assert!((upright.ix_mm4 - lying.iy_mm4).abs() <= 1e-9 * inertia);
        prop_assert!((upright.iy_mm4 - lying.ix_mm4).abs() <= 1e-9 * inertia);
        prop_assert!((upright.ixy_mm4 + lying.ixy_mm4).abs() <= 1e-9 * inertia);
        prop_assert!(close(lying.width_mm, upright.depth_mm, 1e-9) && close(lying.depth_mm, upright.width_mm, 1e-9));
        prop_assert!(close(lying.i_major_mm4, upright.i_major_mm4, 1e-9));
        prop_assert!((lying.i_minor_mm4 - upright.i_minor_mm4).abs() <= 1e-9 * inertia);
    }

    #[test]
    fn no_place_and_no_angle_changes_the_principal_moments(points in steps(), dx in -50.0..50.0, angle in 0.0..6.3_f64) {
        let moved: Vec<_> = points
            .iter()
            .map(|[x, y]| [x * angle.cos() - y * angle.sin() + dx, x * angle.sin() + y * angle.cos() - dx])
            .collect();
        let (here, there) = (of(&points, 1.0, 0.5), of(&moved, 1.0, 0.5));
        let inertia = here.ix_mm4 + here.iy_mm4;
        prop_assert!(close(there.area_mm2, here.area_mm2, 1e-9));
        prop_assert!((there.i_major_mm4 - here.i_major_mm4).abs() <= 1e-8 * inertia);
        prop_assert!((there.i_minor_mm4 - here.i_minor_mm4).abs() <= 1e-8 * inertia);
        prop_assert!(here.i_major_mm4 >= here.ix_mm4.max(here.iy_mm4) * (1.0 - 1e-12));
    }

    // Parallel axes: the moments of a chain cut in two, each half about the common centroid, are those of the whole.
    #[test]
    fn parallel_axes(points in steps().prop_filter("two walls", |p| p.len() > 2), wall in 0.5..3.0) {
        let whole = of(&points, wall, 0.0);
        let halves = [&points[..2], &points[1..]].map(|part| {
            let p = of(part, wall, 0.0);
            let graph = part.windows(2).map(|w| {
                let l = (w[1][0] - w[0][0]).hypot(w[1][1] - w[0][1]);
                (l, l * 0.5 * (w[0][1] + w[1][1]))
            });
            let (l, moment) = graph.fold((0.0, 0.0), |(l, m), (dl, dm)| (l + dl, m + dm));
            (p, moment / l)
        });
        let middle = halves.iter().map(|(p, y)| p.area_mm2 * y).sum::<f64>() / whole.area_mm2;
        let ix: f64 = halves.iter().map(|(p, y)| p.ix_mm4 + p.area_mm2 * (y - middle).powi(2)).sum();
        prop_assert!((ix - whole.ix_mm4).abs() <= 1e-9 * whole.ix_mm4);
    }

    #[test]
    fn a_rounded_hats_area_is_its_strip(
        depth in 20.0..100.0, crown in 20.0..120.0, flange in 10.0..40.0, wall in 0.7..3.0, share in 0.0..=1.0_f64,
    ) {
        let most = f64::min(0.5 * f64::min(depth, crown), flange + wall);
        let hat = rounded_hat(depth, crown, flange, wall, share * most);
        let section = hat.properties("").unwrap();
        prop_assert!(close(section.area_mm2, hat.developed_mm() * wall, 1e-12));
        prop_assert!(close(section.depth_mm, depth, 1e-12) && close(section.width_mm, crown + 2.0 * flange, 1e-12));
        // Small bends are worth little: the section goes over into the sharp one.
        let nearly = rounded_hat(depth, crown, flange, wall, 0.5 * wall + 1e-7).properties("").unwrap();
        prop_assert!(close(nearly.ix_mm4, rounded_hat(depth, crown, flange, wall, 0.0).properties("").unwrap().ix_mm4, 1e-6));
    }

    #[test]
    fn nothing_panics(
        points in prop::collection::vec(prop::array::uniform2(prop_oneof![-50.0..50.0_f64, Just(0.0), Just(f64::NAN)]), 0..7),
        wall in prop_oneof![0.1..5.0_f64, Just(f64::INFINITY)], radius in -1.0..20.0_f64, closed: bool,
    ) {
        if let Ok(profile) = Profile::chain(&points, wall, radius, closed, "") {
            let p = profile.properties();
            prop_assert!(p.area_mm2 > 0.0 && p.ix_mm4 >= 0.0 && p.torsion_mm4 > 0.0 && p.major_axis_deg.is_finite());
            let _ = profile.with_skin(1.0, 100.0, "");
        }
    }
}
