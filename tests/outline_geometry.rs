//! Lengths, areas and headroom of cross-sections against closed forms, and laws they keep. (No published source: plane
//! geometry.)

use std::f64::consts::{FRAC_PI_2, PI};

use proptest::prelude::*;
use raisedbody::body::outline::{At, Bulge, CrossSection, Frame, Outline, Piece, Taped, segment_area_mm2};
use raisedbody::body::survey::{Heights, Side};
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");
const ALL: (f64, f64) = (f64::NEG_INFINITY, f64::INFINITY);

fn heights(floor_mm: f64, window_bottom_mm: f64, drip_rail_mm: f64, crown_mm: f64) -> Heights {
    Heights {
        floor_mm,
        rub_rail_mm: None,
        window_bottom_mm,
        window_top_mm: f64::midpoint(window_bottom_mm, drip_rail_mm),
        drip_rail_mm,
        crown_mm,
        overall_mm: crown_mm,
    }
}

#[track_caller]
fn close(a: f64, b: f64) {
    assert!((a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1.0), "{a} {b}");
}

/// Area of the polygon that a fine polyline and the centre line enclose.
fn shoelace_mm2(outline: &Outline) -> f64 {
    let points = outline.points(1e-3);
    let chords = points.windows(2).map(|p| f64::midpoint(p[0].half_mm, p[1].half_mm) * (p[1].z_mm - p[0].z_mm));
    chords.sum()
}

#[test]
fn a_rectangle_and_a_circular_segment() {
    let outline = Outline::from_heights(1200.0, &heights(900.0, 1600.0, 2450.0, 2860.0), 0.0);
    let (a, h) = (1200.0_f64, 410.0_f64);
    let r = (a * a + h * h) / (2.0 * h);
    let segment = r * r * ((r - h) / r).acos() - (r - h) * (2.0 * r * h - h * h).sqrt();
    close(outline.area_mm2(ALL.0, ALL.1), 1200.0 * 1550.0 + segment / 2.0);
    close(outline.area_mm2(2450.0, ALL.1), segment / 2.0);
    close(outline.length_mm(2450.0, ALL.1), r * (a / r).asin());
    close(outline.length_mm(900.0, 2450.0), 1550.0);
    close(outline.height_mm(0.0).unwrap(), 2860.0);
    close(outline.height_mm(600.0).unwrap(), 2860.0 - r + (r * r - 360_000.0_f64).sqrt());
    assert_eq!(outline.height_mm(1201.0), None);
    assert!(outline.half_width_mm(2860.1) == 0.0 && outline.half_width_mm(100.0) == 1200.0);
    // The roof meets the side at an angle; the crown is level.
    let kinks = outline.kinks();
    assert_eq!(kinks.len(), 1);
    close(kinks[0].turn_deg, 90.0 - (a / r).asin().to_degrees());
}

#[test]
fn a_leaning_side_is_a_trapezoid() {
    let lean = 38.1 / 812.8;
    let outline = Outline::from_heights(1220.0, &heights(910.0, 1680.0, 2500.0, 2900.0), lean);
    let top = 1220.0 - lean * 820.0;
    close(outline.half_width_mm(2500.0), top);
    close(outline.area_mm2(910.0, 2500.0), 1220.0 * 770.0 + f64::midpoint(1220.0, top) * 820.0);
    close(outline.length_mm(1680.0, 2500.0), 820.0 * lean.hypot(1.0));
    close(outline.kinks()[0].turn_deg, lean.atan().to_degrees());
}

#[test]
fn a_roof_as_high_as_half_its_width_is_a_half_circle() {
    let outline = Outline::from_heights(1000.0, &heights(500.0, 1000.0, 2000.0, 3000.0), 0.0);
    close(outline.area_mm2(2000.0, ALL.1), PI * 1e6 / 4.0);
    close(outline.length_mm(2000.0, ALL.1), 1000.0 * FRAC_PI_2);
    assert!(outline.kinks().is_empty(), "tangent all the way");
    // Higher still: upright, then a quarter of a circle.
    let higher = Outline::from_heights(1000.0, &heights(500.0, 1000.0, 2000.0, 3250.0), 0.0);
    close(higher.area_mm2(2000.0, ALL.1), PI * 1e6 / 4.0 + 250.0 * 1000.0);
    close(higher.length_mm(2000.0, ALL.1), 1000.0 * FRAC_PI_2 + 250.0);
}

#[test]
fn arcs_both_ways() {
    let (from, to) = (At::new(1200.0, 1000.0), At::new(900.0, 1300.0));
    // A quarter of a circle of 300 mm: centre inside at (900, 1000), or outside at (1200, 1300).
    let out = Piece::arc(from, to, 300.0, Bulge::Out).unwrap();
    let inward = Piece::arc(from, to, 300.0, Bulge::In).unwrap();
    for (piece, centre) in [(out, At::new(900.0, 1000.0)), (inward, At::new(1200.0, 1300.0))] {
        assert!(piece.bend.unwrap().centre.to_mm(centre) < 1e-9);
        close(piece.length_mm(), 300.0 * FRAC_PI_2);
    }
    assert!(Piece::arc(from, to, 212.0, Bulge::Out).is_none(), "half the chord is 212.13 mm");
    assert!(Piece::arc(from, to, f64::NAN, Bulge::Out).is_none());
    assert!(Piece::arc(from, to, 1e9, Bulge::Out).unwrap().bend.is_none(), "flat");
    close(segment_area_mm2(2.0, PI), 2.0 * PI);
    // The series and the closed form agree where they meet.
    close(segment_area_mm2(1.0, 0.01 * (1.0 - 1e-9)) / segment_area_mm2(1.0, 0.01), 1.0 - 3e-9);
}

fn frame() -> Frame {
    Frame { half_width_mm: 1200.0, floor_mm: 900.0, drip_rail_mm: 2400.0, crown_mm: Some(2900.0), tape_mm: 10.0 }
}

fn line(half_mm: f64, z_mm: f64) -> Taped {
    Taped { from: None, to: At::new(half_mm, z_mm), arc: None }
}

fn arc(half_mm: f64, z_mm: f64, radius_mm: f64, bulge: Bulge) -> Taped {
    Taped { arc: Some((radius_mm, bulge)), ..line(half_mm, z_mm) }
}

/// Upright, a corner of 500 mm radius tangent to side and roof, a flat roof; with a hollow skirt below.
fn chain() -> Outline {
    let pieces = [
        arc(1200.0, 800.0, 400.0, Bulge::In),
        line(1200.0, 2400.0),
        arc(700.0, 2900.0, 500.0, Bulge::Out),
        line(0.0, 2900.0),
    ];
    Outline::from_chain(At::new(1100.0, 500.0), &pieces, &frame()).unwrap()
}

#[test]
fn a_chain_by_hand() {
    let outline = chain();
    close(outline.area_mm2(2400.0, ALL.1), 700.0 * 500.0 + PI * 250_000.0 / 4.0);
    close(outline.length_mm(2400.0, ALL.1), 500.0 * FRAC_PI_2 + 700.0);
    close(outline.half_width_mm(2800.0), 700.0 + 300.0);
    // The hollow skirt: a trapezoid without a segment.
    let chord = 100.0_f64.hypot(300.0);
    let segment = segment_area_mm2(400.0, 2.0 * (chord / 800.0).asin());
    close(outline.area_mm2(ALL.0, 800.0), 1150.0 * 300.0 - segment);
    assert!(outline.half_width_mm(650.0) < 1150.0);
    close(
        outline.area_mm2(ALL.0, ALL.1),
        outline.area_mm2(ALL.0, 800.0) + 1200.0 * 1600.0 + outline.area_mm2(2400.0, ALL.1),
    );
    assert!((shoelace_mm2(&outline) - outline.area_mm2(ALL.0, ALL.1)).abs() < 10.0);
    assert_eq!(outline.kinks().len(), 1, "only where the skirt meets the side: {:?}", outline.kinks());
}

#[test]
fn the_tape_closes_what_it_cannot_tell_apart() {
    // A half circle whose radius was taped 5 mm too small, and a crown 6 mm off the centre line.
    let pieces = [line(1200.0, 2400.0), arc(1000.0, 2700.0, 176.0, Bulge::Out), line(6.0, 2895.0)];
    let wide = Frame { half_width_mm: 1275.0, ..frame() };
    let outline = Outline::from_chain(At::new(1200.0, 900.0), &pieces, &wide).unwrap();
    close(outline.pieces()[1].length_mm(), PI * 200.0_f64.hypot(300.0) / 2.0);
    assert_eq!(outline.crown(), At::new(0.0, 2895.0));
}

#[rstest]
#[case::a_fold_back(&[line(1200.0, 1500.0), line(1200.0, 2400.0), line(1300.0, 2600.0), line(1200.0, 2400.0), line(0.0, 2900.0)])]
#[case::two_arcs(&[line(1200.0, 2400.0), arc(1200.0, 2800.0, 200.0, Bulge::Out), arc(1500.0, 2500.0, 400.0, Bulge::Out), line(0.0, 2900.0)])]
#[case::an_arc_over_a_line(&[line(1200.0, 2400.0), line(900.0, 2800.0), line(900.0, 2600.0), arc(1190.0, 2600.0, 145.0, Bulge::In), line(0.0, 2900.0)])]
#[case::along_one_line(&[line(1200.0, 2400.0), line(1200.0, 2700.0), line(1200.0, 2500.0), line(0.0, 2900.0)])]
fn chains_that_cross_themselves(#[case] pieces: &[Taped]) {
    let wide = Frame { half_width_mm: 1300.0, tape_mm: 250.0, ..frame() };
    let problems = Outline::from_chain(At::new(1200.0, 900.0), pieces, &wide).unwrap_err();
    assert!(problems.iter().any(|p| p.to_string().contains("crosses or touches")), "{problems:#?}");
}

/// Lowest place over the floor from which the outline is no farther than the lining is thick, by small steps.
fn ceiling_by_steps(outline: &Outline, half_mm: f64, floor_mm: f64, lining_mm: f64) -> f64 {
    let mut z_mm = floor_mm;
    while outline.distance_mm(At::new(half_mm, z_mm)) > lining_mm {
        z_mm += 0.05;
    }
    z_mm - floor_mm
}

#[test]
fn headroom_at_the_aisle() {
    let roof = Outline::from_heights(1200.0, &heights(900.0, 1600.0, 2450.0, 2860.0), 0.0);
    let r = (1200.0_f64.powi(2) + 410.0_f64.powi(2)) / 820.0;
    // The ceiling is a circle about the same centre.
    for (half, lining) in [(0.0, 80.0), (300.0, 80.0), (500.0, 120.0)] {
        let ceiling: f64 = 2860.0 - r + ((r - lining).powi(2) - f64::powi(half, 2)).sqrt();
        close(roof.clear_height_mm(half, 900.0, lining).unwrap(), ceiling - 900.0);
    }
    for half in [0.0, 400.0, 700.0, 900.0, 1100.0] {
        let exact = chain().clear_height_mm(half, 900.0, 60.0).unwrap();
        assert!((exact - ceiling_by_steps(&chain(), half, 900.0, 60.0)).abs() < 0.06, "{half}");
    }
    assert_eq!(roof.clear_height_mm(1150.0, 900.0, 80.0), None, "in the side's lining");
    assert_eq!(roof.clear_height_mm(1300.0, 900.0, 0.0), None, "outside");
    close(roof.clear_height_mm(0.0, 900.0, 0.0).unwrap(), 1960.0);
}

fn evaluated(text: &str) -> Evaluation {
    Plan::from_text(text, ".".as_ref()).unwrap().evaluate().unwrap()
}

#[test]
fn a_plan_by_heights() {
    let e = evaluated(LIBRARY);
    let (before, after) = (e.body.before, e.body.after);
    let cut_half = e.survey.section.left.half_width_mm(2000.0);
    close(after.frontal_area_m2 - before.frontal_area_m2, 2.0 * cut_half * 400.0 / 1e6);
    close(after.enclosed_volume_m3 - before.enclosed_volume_m3, 2.0 * cut_half * 400.0 * 8050.0 / 1e9);
    close(after.side_skin_m2 - before.side_skin_m2, 2.0 * 0.4 * 8.05);
    // Down to 300 mm from the floor, as wide as the body.
    close(before.frontal_area_m2, e.survey.section.area_m2(910.0) + 2.44 * 0.56);
    assert!(after.aisle_headroom_mm.unwrap() < e.raised.headroom_mm);
    let at_centre = e.raised.section.clear_height_mm(0.0, 960.0, 160.0 + 100.0).unwrap();
    close(at_centre, e.raised.headroom_mm);
}

#[test]
fn part_of_a_roof_counts_between_its_posts_and_slopes_by_half() {
    let e = evaluated(WORKSHOP);
    let raised_m = 6.0 * 0.711 + 0.35;
    close(e.body.after.enclosed_volume_m3 - e.body.before.enclosed_volume_m3, 2.4 * 0.25 * raised_m);
    close(e.body.after.side_skin_m2 - e.body.before.side_skin_m2, 2.0 * 0.25 * raised_m);
    close(e.body.after.frontal_area_m2 - e.body.before.frontal_area_m2, 0.6);
}

#[test]
fn the_same_outline_as_a_chain_gives_the_same_body() {
    let r = (1200.0_f64.powi(2) + 420.0_f64.powi(2)) / 840.0;
    let chain = format!(
        "[survey.outline]\nstart = {{ half_width = \"1.2 m\", height = \"880 mm\" }}\npieces = [\n\
         {{ to = {{ half_width = \"1.2 m\", height = \"2.44 m\" }} }},\n\
         {{ to = {{ half_width = \"0 mm\", height = \"2.86 m\" }}, radius = \"{r} mm\", bulge = \"out\" }},\n]\n\n[raise]"
    );
    let (short, long) = (evaluated(WORKSHOP), evaluated(&WORKSHOP.replace("[raise]", &chain)));
    for (a, b) in [(short.body.before, long.body.before), (short.body.after, long.body.after)] {
        close(a.frontal_area_m2, b.frontal_area_m2);
        close(a.enclosed_volume_m3, b.enclosed_volume_m3);
        close(a.side_skin_m2, b.side_skin_m2);
        close(a.roof_skin_m2, b.roof_skin_m2);
        close(a.aisle_headroom_mm.unwrap(), b.aisle_headroom_mm.unwrap());
    }
    assert_eq!(short.items.len(), long.items.len());
    for (a, b) in short.items.iter().zip(&long.items) {
        close(a.y_mm, b.y_mm);
    }
    // With the crown left out, the chain's end is the crown and nothing is assumed of it.
    let text = WORKSHOP.replace("[raise]", &chain).replace("crown = \"2.86 m\"\n", "");
    let without = evaluated(&text);
    assert_eq!(without.survey.heights, long.survey.heights);
    assert!(!without.assumed.iter().any(|a| a.field == "survey.crown"));
}

#[test]
fn unlike_leans_shift_what_hangs_on_the_sides() {
    let e = evaluated(&LIBRARY.replace(
        "[raise]",
        "[survey.right]\nlean = { inset = \"76.2 mm\", drop = \"32 in\" }\nrub_rail = \"1.4 m\"\n\n[raise]",
    ));
    let (left, right) = (e.survey.half_width_on_mm(Side::Left, 2500.0), e.survey.half_width_on_mm(Side::Right, 2500.0));
    close(left - right, 820.0 * 38.1 / 812.8);
    close(e.survey.half_width_mm(2500.0), f64::midpoint(left, right));
    let y = |id: &str| e.items.iter().find(|item| item.name == format!("skin {id}")).unwrap().y_mm;
    assert!(y("L-A1") + y("R-A1") > 1.0, "the right sheet hangs nearer to the middle");
    assert_eq!(e.survey.features.len(), 1);
    assert_eq!((e.survey.features[0].side, e.survey.features[0].top_mm), (Some(Side::Right), 1400.0));
}

/// An outline that a survey may hold: by heights, or a chain with a skirt, a leaning side and a roof in two arcs.
fn outlines() -> impl Strategy<Value = Outline> {
    let by_heights = (800.0..1300.0, 700.0..1000.0, 600.0..800.0, 500.0..900.0, 20.0..1500.0, 0.0..0.2).prop_map(
        |(half, floor, sill, side, roof, lean): (f64, f64, f64, f64, f64, f64)| {
            let window_bottom = floor + sill;
            let drip = window_bottom + side;
            Outline::from_heights(half, &heights(floor, window_bottom, drip, drip + roof), lean)
        },
    );
    let chains = (0.0..80.0, 0.0..60.0, 200.0..400.0, 200.0..300.0, 1.0..4.0, prop::bool::ANY).prop_map(
        |(tuck, inset, corner, rise, slack, out): (f64, f64, f64, f64, f64, bool)| {
            let bulge = if out { Bulge::Out } else { Bulge::In };
            let top = 1200.0 - inset;
            let roof = 400.0 - rise;
            let r = ((top - corner).powi(2) + roof.powi(2)) / (2.0 * roof);
            let pieces = [
                arc(1200.0, 850.0, 2000.0, bulge),
                line(1200.0, 1600.0),
                line(top, 2400.0),
                arc(top - corner, 2400.0 + rise, corner.hypot(rise) * (0.5 + slack), Bulge::Out),
                arc(0.0, 2800.0, r, Bulge::Out),
            ];
            let frame = Frame { crown_mm: Some(2800.0), ..frame() };
            Outline::from_chain(At::new(1200.0 - tuck, 500.0), &pieces, &frame)
        },
    );
    prop_oneof![by_heights, chains.prop_filter_map("contradicts itself", Result::ok)]
}

proptest! {
    #[test]
    fn areas_and_lengths_are_additive(outline in outlines(), share in 0.0..1.0) {
        let (foot, crown) = (outline.start().z_mm, outline.crown().z_mm);
        let z = foot + (crown - foot) * share;
        let (lower, upper) = outline.split(z);
        let both = |f: &dyn Fn(&Outline) -> f64| f(&lower) + f(&upper);
        let area = |o: &Outline| o.area_mm2(ALL.0, ALL.1);
        let length = |o: &Outline| o.length_mm(ALL.0, ALL.1);
        prop_assert!((both(&area) - area(&outline)).abs() < 1e-3);
        prop_assert!((both(&length) - length(&outline)).abs() < 1e-6);
        prop_assert!((outline.area_mm2(ALL.0, z) + outline.area_mm2(z, ALL.1) - area(&outline)).abs() < 1e-3);
        prop_assert!((outline.length_mm(ALL.0, z) + outline.length_mm(z, ALL.1) - length(&outline)).abs() < 1e-6);
        // Chords of at most 0.001 mm miss.
        prop_assert!((shoelace_mm2(&outline) - area(&outline)).abs() < length(&outline) * 1e-3);
    }

    #[test]
    fn a_raise_adds_the_width_at_the_cut_times_the_rise(outline in outlines(), share in 0.0..1.0, rise in 25.0..1500.0) {
        let foot = outline.start().z_mm;
        let cut = foot + 350.0 + (outline.crown().z_mm - foot - 350.0) * share * 0.6;
        let raised = outline.raised(cut, rise);
        let half = outline.half_width_mm(cut);
        let added = raised.area_mm2(ALL.0, ALL.1) - outline.area_mm2(ALL.0, ALL.1);
        prop_assert!((added - half * rise).abs() < 1e-3, "{added} {}", half * rise);
        let longer = raised.length_mm(ALL.0, ALL.1) - outline.length_mm(ALL.0, ALL.1);
        prop_assert!((longer - rise).abs() < 1e-6);
        prop_assert!((raised.crown().z_mm - outline.crown().z_mm - rise).abs() < 1e-9);
        prop_assert!((raised.half_width_mm(cut + rise / 2.0) - half).abs() < 1e-6, "straight up in between");
        prop_assert!((raised.half_width_mm(cut - 1.0) - outline.half_width_mm(cut - 1.0)).abs() < 1e-6);
        prop_assert!((raised.half_width_mm(cut + rise + 1.0) - outline.half_width_mm(cut + 1.0)).abs() < 1e-4);
        // Two raises at one cut are one.
        let twice = outline.raised(cut, rise / 2.0).raised(cut, rise / 2.0);
        prop_assert!((twice.area_mm2(ALL.0, ALL.1) - raised.area_mm2(ALL.0, ALL.1)).abs() < 1e-3);
    }

    #[test]
    fn an_arc_is_as_long_as_its_angle(radius in 10.0..5000.0, share in 0.1..1.0, turn in 0.0..6.0, out in prop::bool::ANY) {
        let chord = 2.0 * radius * share;
        let from = At::new(1000.0, 1000.0);
        let to = At::new(1000.0 + chord * f64::cos(turn), 1000.0 + chord * f64::sin(turn));
        let bulge = if out { Bulge::Out } else { Bulge::In };
        let piece = Piece::arc(from, to, radius, bulge).unwrap();
        prop_assume!(piece.bend.is_some());
        let angle = 2.0 * f64::asin(share);
        prop_assert!((piece.length_mm() - radius * angle).abs() < 1e-5);
        prop_assert!((piece.bend.unwrap().centre.to_mm(from) - radius).abs() < 1e-6);
        prop_assert!((piece.bend.unwrap().centre.to_mm(to) - radius).abs() < 1e-6);
        let middle = piece.at(0.5);
        prop_assert!((middle.to_mm(from) - middle.to_mm(to)).abs() < 1e-6);
    }

    #[test]
    fn mirrored_sides_change_nothing(one in outlines(), other in outlines(), clearance in 0.0..1000.0) {
        let section = CrossSection { left: one.clone(), right: other.clone() };
        let mirrored = CrossSection { left: other, right: one };
        prop_assert!((section.frontal_area_m2(clearance) - mirrored.frontal_area_m2(clearance)).abs() < 1e-12);
        prop_assert!((section.length_mm(ALL.0, ALL.1) - mirrored.length_mm(ALL.0, ALL.1)).abs() < 1e-9);
        prop_assert_eq!(section.clear_height_mm(300.0, 1000.0, 50.0), mirrored.clear_height_mm(300.0, 1000.0, 50.0));
        let flipped: Vec<(f64, f64)> = mirrored.left.points(1.0).iter().map(|at| (-at.half_mm, at.z_mm)).collect();
        let points = section.points_mm(1.0);
        prop_assert_eq!(flipped[0], points[points.len() - 1]);
    }

    #[test]
    fn the_width_at_a_height_is_on_the_outline(outline in outlines(), share in 0.01..0.99) {
        let (foot, crown) = (outline.start().z_mm, outline.crown().z_mm);
        let z = foot + (crown - foot) * share;
        let half = outline.half_width_mm(z);
        prop_assert!(outline.distance_mm(At::new(half, z)) < 1e-6);
        prop_assert!(half <= outline.widest_mm() + 1e-9);
    }

    #[test]
    fn headroom_falls_outwards_and_with_the_lining(outline in outlines(), half in 0.0..300.0, lining in 0.0..150.0) {
        let floor = 1000.0;
        if let Some(clear) = outline.clear_height_mm(half, floor, lining) {
            let thicker = outline.clear_height_mm(half, floor, lining + 10.0).unwrap_or(0.0);
            prop_assert!(thicker < clear + 1e-6);
            let outer = outline.clear_height_mm(half + 50.0, floor, lining).unwrap_or(0.0);
            prop_assert!(outer <= clear + 1e-6);
        }
    }
}
