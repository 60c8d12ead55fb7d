//! Sections by the line method against exact formulas, and the laws that hold for every size.
// Where equality is asked, the two must be the same number, not close ones.

use std::f64::consts::PI;

use proptest::prelude::*;
use raisedbody::error::Problem;
use raisedbody::mechanics::section::{Hat, Properties, RectangularTube};
use rstest::rstest;

fn tube(depth_mm: f64, width_mm: f64, wall_mm: f64, outer_radius_mm: f64) -> RectangularTube {
    RectangularTube { depth_mm, width_mm, wall_mm, outer_radius_mm }
}

fn of(tube: RectangularTube) -> Properties {
    tube.properties("post").unwrap()
}

fn close(value: f64, expected: f64, relative: f64) -> bool {
    (value - expected).abs() <= relative * expected.abs()
}

/// Area and second moment of a solid rectangle with rounded corners about the axis through its middle, by Simpson's rule
/// over its strips: shares no formula with the code under test.
fn solid(depth_mm: f64, width_mm: f64, radius_mm: f64) -> (f64, f64) {
    let strip = |y: f64| {
        let into_corner = (y - (0.5 * depth_mm - radius_mm)).max(0.0);
        width_mm - 2.0 * (radius_mm - (radius_mm * radius_mm - into_corner * into_corner).max(0.0).sqrt())
    };
    // The straight part and the corner part apart, so that Simpson's rule meets no kink; half the depth is doubled.
    let simpson = |from: f64, to: f64, f: &dyn Fn(f64) -> f64| {
        let (steps, mut sum) = (20_000_u32, 0.0);
        let h = (to - from) / f64::from(steps);
        for i in 0..=steps {
            let weight = if i == 0 || i == steps {
                1.0
            } else if i % 2 == 1 {
                4.0
            } else {
                2.0
            };
            sum += weight * f(from + f64::from(i) * h);
        }
        sum * h / 3.0
    };
    let corner = 0.5 * depth_mm - radius_mm;
    let whole = |f: &dyn Fn(f64) -> f64| 2.0 * (simpson(0.0, corner, f) + simpson(corner, 0.5 * depth_mm, f));
    (whole(&strip), whole(&|y| y * y * strip(y)))
}

// 1 x 2 in tube, wall 0.0598 in, sharp corners. Exact values by outer rectangle less inner (arithmetic): Ix 74 446,
// Iy 24 863, Sx 2931, Sy 1958. The area and Bredt's J are the same by either method; Ix by the line method is 74 346.
#[test]
fn one_by_two_inch_tube() {
    let section = of(tube(50.8, 25.4, 0.0598 * 25.4, 0.0));
    assert!((section.area_mm2 - 222.25).abs() < 0.005);
    assert!((section.ix_mm4 - 74_346.0).abs() < 0.5);
    assert!((section.torsion_mm4 - 57_510.0).abs() < 0.5);
    assert!((section.mass_kg_m(7850.0) - 1.745).abs() < 0.0005);
    assert_eq!(section.centroid_mm, 25.4);
    for (line, exact) in
        [(section.ix_mm4, 74_446.0), (section.iy_mm4, 24_863.0), (section.sx_mm3, 2931.0), (section.sy_mm3, 1958.0)]
    {
        assert!(line < exact && close(line, exact, 0.003), "{line} against {exact}");
    }
}

// Outer rectangle less inner, exact. The tolerance is the method's own error as the module states it.
#[rstest]
#[case::thirtieth_of_the_side(25.4, 25.4, 25.4 / 30.0, 0.0012)]
#[case::fifteenth_of_the_side(25.4, 25.4, 25.4 / 15.0, 0.0051)]
#[case::eighth_of_the_side(25.4, 25.4, 25.4 / 8.0, 0.0201)]
#[case::square_50(50.0, 50.0, 1.5, 0.001)]
#[case::oblong_80_by_40(80.0, 40.0, 2.0, 0.002)]
fn sharp_tubes_against_two_rectangles(
    #[case] depth_mm: f64,
    #[case] width_mm: f64,
    #[case] wall_mm: f64,
    #[case] error: f64,
) {
    let section = of(tube(depth_mm, width_mm, wall_mm, 0.0));
    let (inner_depth, inner_width) = (depth_mm - 2.0 * wall_mm, width_mm - 2.0 * wall_mm);
    let area = depth_mm * width_mm - inner_depth * inner_width;
    let ix = (width_mm * depth_mm.powi(3) - inner_width * inner_depth.powi(3)) / 12.0;
    let iy = (depth_mm * width_mm.powi(3) - inner_depth * inner_width.powi(3)) / 12.0;
    assert!(close(section.area_mm2, area, 1e-12));
    assert!(section.ix_mm4 < ix && close(section.ix_mm4, ix, error));
    assert!(section.iy_mm4 < iy && close(section.iy_mm4, iy, error));
}

#[rstest]
#[case::two_walls(50.8, 25.4, 1.519, 2.0 * 1.519)]
#[case::large_radius(80.0, 40.0, 2.0, 10.0)]
#[case::flat_oval(60.0, 30.0, 1.2, 15.0)]
fn rounded_tubes_against_two_rounded_solids(
    #[case] depth_mm: f64,
    #[case] width_mm: f64,
    #[case] wall_mm: f64,
    #[case] radius_mm: f64,
) {
    let section = of(tube(depth_mm, width_mm, wall_mm, radius_mm));
    let less = |outer: (f64, f64), inner: (f64, f64)| (outer.0 - inner.0, outer.1 - inner.1);
    let (inner_depth, inner_width) = (depth_mm - 2.0 * wall_mm, width_mm - 2.0 * wall_mm);
    let inner_radius = radius_mm - wall_mm;
    let (area, ix) = less(solid(depth_mm, width_mm, radius_mm), solid(inner_depth, inner_width, inner_radius));
    let (_, iy) = less(solid(width_mm, depth_mm, radius_mm), solid(inner_width, inner_depth, inner_radius));
    assert!(close(section.area_mm2, area, 1e-5), "{} against {area}", section.area_mm2);
    assert!(section.ix_mm4 < ix && close(section.ix_mm4, ix, 0.003), "{} against {ix}", section.ix_mm4);
    assert!(section.iy_mm4 < iy && close(section.iy_mm4, iy, 0.005), "{} against {iy}", section.iy_mm4);
}

// With the radius half of both sides the tube is round: I = pi r^3 t and J = 2 I for a thin ring.
#[test]
fn a_tube_all_corner_is_a_ring() {
    let section = of(tube(40.0, 40.0, 1.0, 20.0));
    let inertia = PI * 19.5_f64.powi(3);
    assert!(close(section.area_mm2, 2.0 * PI * 19.5, 1e-12));
    assert!(close(section.ix_mm4, inertia, 1e-12));
    assert!(close(section.iy_mm4, inertia, 1e-12));
    assert!(close(section.torsion_mm4, 2.0 * inertia, 1e-12));
}

/// A hat built of rectangles that do not overlap, each with its own second moments: area, centroid, Ix, Iy.
fn hat_of_rectangles(hat: Hat) -> (f64, f64, f64, f64) {
    let Hat { depth_mm, crown_mm, flange_mm, wall_mm: t, .. } = hat;
    // (width along x, height along y, middle x, middle y above the flanges' face)
    let web_height = depth_mm - t;
    let web_x = 0.5 * (crown_mm - t);
    let flange_x = 0.5 * (crown_mm + flange_mm);
    let parts = [
        (crown_mm, t, 0.0, depth_mm - 0.5 * t),
        (t, web_height, web_x, 0.5 * web_height),
        (t, web_height, -web_x, 0.5 * web_height),
        (flange_mm, t, flange_x, 0.5 * t),
        (flange_mm, t, -flange_x, 0.5 * t),
    ];
    let area: f64 = parts.iter().map(|(w, h, _, _)| w * h).sum();
    let centroid = parts.iter().map(|(w, h, _, y)| w * h * y).sum::<f64>() / area;
    let ix = parts.iter().map(|(w, h, _, y)| w * h.powi(3) / 12.0 + w * h * (y - centroid).powi(2)).sum();
    let iy = parts.iter().map(|(w, h, x, _)| h * w.powi(3) / 12.0 + w * h * x * x).sum();
    (area, centroid, ix, iy)
}

#[rstest]
#[case::roof_bow(40.0, 50.0, 20.0, 1.5)]
#[case::shallow(20.0, 60.0, 25.0, 0.912)]
#[case::deep(75.0, 40.0, 15.0, 1.9)]
fn hats_against_rectangles(#[case] depth_mm: f64, #[case] crown_mm: f64, #[case] flange_mm: f64, #[case] wall_mm: f64) {
    let hat = Hat { depth_mm, crown_mm, flange_mm, wall_mm, outer_radius_mm: 0.0 };
    let section = hat.properties("bow").unwrap();
    let (area, centroid, ix, iy) = hat_of_rectangles(hat);
    assert!(close(section.area_mm2, area, 1e-12));
    assert!((section.centroid_mm - centroid).abs() < 0.05 * wall_mm);
    assert!(close(section.ix_mm4, ix, 0.005), "{} against {ix}", section.ix_mm4);
    assert!(close(section.iy_mm4, iy, 0.005), "{} against {iy}", section.iy_mm4);
    // The modulus belongs to the face farther from the centroid, the smaller of the two.
    let far = section.centroid_mm.max(depth_mm - section.centroid_mm);
    assert!(close(section.sx_mm3 * far, section.ix_mm4, 1e-12));
    assert!(close(section.sy_mm3 * (0.5 * crown_mm + flange_mm), section.iy_mm4, 1e-12));
    assert!(close(section.torsion_mm4, hat.developed_mm() * wall_mm.powi(3) / 3.0, 1e-12));
}

#[rstest]
#[case::no_depth(tube(0.0, 25.0, 1.5, 0.0), &["post.depth"])]
#[case::no_number(tube(f64::NAN, 25.0, 1.5, 0.0), &["post.depth"])]
#[case::metres_for_millimetres(tube(50.0, 25_000.0, 1.5, 0.0), &["post.width"])]
#[case::wall_too_thick(tube(50.0, 25.0, 12.5, 0.0), &["post.wall"])]
#[case::negative_wall(tube(50.0, 25.0, -1.5, 0.0), &["post.wall"])]
#[case::endless_wall(tube(50.0, 25.0, f64::INFINITY, 0.0), &["post.wall"])]
#[case::radius_too_large(tube(50.0, 25.0, 1.5, 12.6), &["post.outer_radius"])]
#[case::several(tube(-50.0, 25.0, 1.5, f64::NAN), &["post.depth", "post.outer_radius"])]
fn tube_refuses(#[case] tube: RectangularTube, #[case] names: &[&str]) {
    let problems = tube.properties("post").unwrap_err();
    assert_eq!(problems.iter().map(Problem::path).collect::<Vec<_>>(), names);
}

#[rstest]
#[case::no_flange(Hat { depth_mm: 40.0, crown_mm: 50.0, flange_mm: 0.0, wall_mm: 1.5, outer_radius_mm: 0.0 }, "flange")]
#[case::no_number(Hat { depth_mm: 40.0, crown_mm: f64::NAN, flange_mm: 20.0, wall_mm: 1.5, outer_radius_mm: 0.0 }, "crown")]
#[case::wall_too_thick(Hat { depth_mm: 6.0, crown_mm: 50.0, flange_mm: 20.0, wall_mm: 3.0, outer_radius_mm: 0.0 }, "wall")]
fn hat_refuses(#[case] hat: Hat, #[case] name: &str) {
    let problems = hat.properties("").unwrap_err();
    assert_eq!(problems.iter().map(Problem::path).collect::<Vec<_>>(), [name]);
}

#[test]
fn a_refusal_says_what_to_mend() {
    let problems = tube(50.0, 25.0, 13.0, 0.0).properties("post").unwrap_err();
    assert_eq!(
        problems[0].to_string(),
        "post.wall: 13 mm: leaves no hollow: the smaller side is only 25 mm; check wall and outside sizes"
    );
}

prop_compose! {
    fn tubes()(depth in 20.0..120.0, width in 20.0..120.0, wall in 0.7..4.0, share in 0.0..=1.0) -> RectangularTube {
        tube(depth, width, wall, share * 0.5 * f64::min(depth, width))
    }
}

prop_compose! {
    fn hats()(depth_mm in 15.0..100.0, crown_mm in 15.0..120.0, flange_mm in 5.0..40.0, wall_mm in 0.7..4.0) -> Hat {
        Hat { depth_mm, crown_mm, flange_mm, wall_mm, outer_radius_mm: 0.0 }
    }
}

/// Whether `large` is `small` with every length multiplied by `k`.
fn scaled(small: Properties, large: Properties, k: f64) -> bool {
    [
        (small.area_mm2, large.area_mm2, 2),
        (small.centroid_mm, large.centroid_mm, 1),
        (small.ix_mm4, large.ix_mm4, 4),
        (small.iy_mm4, large.iy_mm4, 4),
        (small.sx_mm3, large.sx_mm3, 3),
        (small.sy_mm3, large.sy_mm3, 3),
        (small.torsion_mm4, large.torsion_mm4, 4),
    ]
    .into_iter()
    .all(|(small, large, power)| close(large, small * k.powi(power), 1e-10))
}

proptest! {
    #[test]
    fn a_tubes_properties_scale(t in tubes(), k in 0.5..4.0) {
        let large = tube(k * t.depth_mm, k * t.width_mm, k * t.wall_mm, k * t.outer_radius_mm);
        prop_assert!(scaled(of(t), of(large), k));
    }

    #[test]
    fn a_hats_properties_scale(hat in hats(), k in 0.5..4.0) {
        let Hat { depth_mm, crown_mm, flange_mm, wall_mm, outer_radius_mm: _ } = hat;
        let large =
            Hat { depth_mm: k * depth_mm, crown_mm: k * crown_mm, flange_mm: k * flange_mm, wall_mm: k * wall_mm, outer_radius_mm: 0.0 };
        prop_assert!(scaled(hat.properties("").unwrap(), large.properties("").unwrap(), k));
    }

    #[test]
    fn a_tube_turned_by_a_right_angle_swaps_its_axes(t in tubes()) {
        let (upright, lying) = (of(t), of(tube(t.width_mm, t.depth_mm, t.wall_mm, t.outer_radius_mm)));
        prop_assert!(close(lying.ix_mm4, upright.iy_mm4, 1e-12));
        prop_assert!(close(lying.iy_mm4, upright.ix_mm4, 1e-12));
        prop_assert!(close(lying.sx_mm3, upright.sy_mm3, 1e-12));
        prop_assert!(close(lying.area_mm2, upright.area_mm2, 1e-12));
        prop_assert!(close(lying.torsion_mm4, upright.torsion_mm4, 1e-12));
    }

    #[test]
    fn rounder_corners_never_add_metal_or_stiffness(t in tubes(), share in 0.0..=1.0) {
        let sharper = of(tube(t.depth_mm, t.width_mm, t.wall_mm, share * t.outer_radius_mm));
        let rounder = of(t);
        // Not so for torsion: Bredt's constant may rise, as a rounder cell encloses more for its length of wall.
        let slack = 1.0 + 1e-12;
        prop_assert!(rounder.area_mm2 <= sharper.area_mm2 * slack);
        prop_assert!(rounder.ix_mm4 <= sharper.ix_mm4 * slack);
    }

    #[test]
    fn a_hats_area_is_its_strip(hat in hats()) {
        let section = hat.properties("").unwrap();
        prop_assert!(close(section.area_mm2, hat.developed_mm() * hat.wall_mm, 1e-12));
        prop_assert!(section.centroid_mm > 0.0 && section.centroid_mm < hat.depth_mm);
    }
}
