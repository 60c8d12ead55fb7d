//! Loads of a stiff roof on its supports and in its braces: hand statics, laws, and the same roof as a space frame.
//! No published source: elementary mechanics, each number worked out beside its test. All roofs are invented.

use proptest::prelude::*;
use raisedbody::body::lift::{
    Brace, Conditions, Lift, Roof, Stage, Stop, Support, WindFace, drop_load_n, even_loads_n, greatest_loads_n,
    heights_mm, lagging_loads_n, missing_bracing, shared_loads_n, tipping_margin_mm,
};
use raisedbody::mechanics::space_frame::{self, Bending, Hold, Member, NodeLoad, SpaceFrame};
use rstest::rstest;

const RECTANGLE: [[f64; 2]; 4] = [[0.0, 800.0], [0.0, -800.0], [4000.0, 800.0], [4000.0, -800.0]];

fn near(values: &[f64], expected: &[f64]) {
    let size = expected.iter().fold(1.0, |most: f64, v| most.max(v.abs()));
    let all = values.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-7 * size);
    assert!(values.len() == expected.len() && all, "{values:?}, not {expected:?}");
}

// Four at the corners, W = 4000 N, centre off by e: W/4 (1 ± e_x/2000 ± e_y/800).
#[rstest]
#[case([2000.0, 0.0], [1000.0, 1000.0, 1000.0, 1000.0])]
#[case([2500.0, 0.0], [750.0, 750.0, 1250.0, 1250.0])]
#[case([2500.0, 200.0], [1000.0, 500.0, 1500.0, 1000.0])]
// The rear right one would carry 1000 (1 − 0.5 − 0.75) < 0: it lifts off, the rest is 3-point statics.
#[case([3000.0, 600.0], [1000.0, 0.0, 2500.0, 500.0])]
// On the line of two: they alone carry.
#[case([2000.0, 799.999_999_9], [2000.0, 0.0, 2000.0, 0.0])]
fn even_loads(#[case] centre: [f64; 2], #[case] expected: [f64; 4]) {
    let loads = even_loads_n(4000.0, centre, &RECTANGLE).unwrap();
    let close = loads.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-3);
    assert!(close, "{loads:?} {expected:?}");
}

// Six in two rows: W/6 + W e (x − x̄)/Σ(x − x̄)², Σ = 4 · 2800² for x = 1200, 4000, 6800 twice.
#[test]
fn six_supports() {
    let places: Vec<[f64; 2]> = [1200.0, 4000.0, 6800.0].into_iter().flat_map(|x| [[x, 850.0], [x, -850.0]]).collect();
    let slope = 4200.0 * 25.0 * 2800.0 / (4.0 * 2800.0 * 2800.0);
    let expected = [700.0 - slope, 700.0 - slope, 700.0, 700.0, 700.0 + slope, 700.0 + slope];
    near(&even_loads_n(4200.0, [4025.0, 0.0], &places).unwrap(), &expected);
    // Pair by pair any triple can be left to carry: the greatest of a rear one is when the front ones opposite it balance it.
    let greatest = greatest_loads_n(4200.0, [4025.0, 0.0], &places).unwrap();
    // Rear left and front right alone would balance 4025 at x only with y = 0: 4200 (6800 − 4025)/5600 at the rear.
    assert!((greatest[0] - 4200.0 * 2775.0 / 5600.0).abs() < 1e-6, "{greatest:?}");
    assert!(greatest.iter().all(|n| *n <= 2100.0 + 1e-6));
}

#[test]
fn a_stiff_roof_rocks_on_two_diagonals() {
    near(&greatest_loads_n(4000.0, [2000.0, 0.0], &RECTANGLE).unwrap(), &[2000.0; 4]);
}

// Four springs k, one low by g: the warp g/4 of the plate's four corners: k g/4 less on it and on the one opposite, more on
// the two beside; from k g/4 = W/4 on it lifts off with the one opposite.
#[rstest]
#[case(4.0, [500.0, 1500.0, 1500.0, 500.0])]
#[case(8.0, [0.0, 2000.0, 2000.0, 0.0])]
#[case(80.0, [0.0, 2000.0, 2000.0, 0.0])]
fn one_lags(#[case] lag: f64, #[case] expected: [f64; 4]) {
    near(&lagging_loads_n(4000.0, [2000.0, 0.0], &RECTANGLE, (0, lag), 500.0).unwrap(), &expected);
}

#[test]
fn a_drop() {
    // P (1 + √(1 + 2 · 2500 · 10/2059.4)): 2059.4 · 6.02781.
    assert!((drop_load_n(2059.4, 10.0, 2500.0) - 12_413.7).abs() < 0.1);
    assert!(drop_load_n(0.0, 10.0, 2500.0).abs() < 1e-12);
}

#[test]
fn heights_go_up_in_steps() {
    assert_eq!(heights_mm(400.0, 150.0), [0.0, 150.0, 300.0, 400.0]);
    assert_eq!(heights_mm(300.0, 150.0), [0.0, 150.0, 300.0]);
    assert_eq!(heights_mm(100.0, 500.0), [0.0, 100.0]);
}

#[rstest]
#[case(&RECTANGLE[..2], [0.0, 0.0], "fewer than three")]
#[case(&[[0.0, 0.0], [1000.0, 0.0], [2000.0, 0.0]], [500.0, 0.0], "one line")]
#[case(&RECTANGLE, [4200.0, 0.0], "200 mm outside")]
#[case(&RECTANGLE, [2000.0, 900.0], "100 mm outside")]
fn what_tips_is_refused(#[case] places: &[[f64; 2]], #[case] centre: [f64; 2], #[case] words: &str) {
    let all = [
        tipping_margin_mm(centre, places).unwrap_err(),
        even_loads_n(1.0, centre, places).unwrap_err(),
        greatest_loads_n(1.0, centre, places).unwrap_err(),
        lagging_loads_n(1.0, centre, places, (0, 1.0), 1.0).unwrap_err(),
    ];
    for problem in all {
        assert!(problem.to_string().contains(words), "{problem}");
    }
}

/// Places not all in a line, and a centre among them.
fn any_layout() -> impl Strategy<Value = (Vec<[f64; 2]>, [f64; 2])> {
    prop::collection::vec(((0.0..8000.0f64, -1200.0..1200.0f64), 0.05..1.0f64), 3..9)
        .prop_map(|all| {
            let total: f64 = all.iter().map(|(_, w)| w).sum();
            let middle = |of: &dyn Fn((f64, f64)) -> f64| all.iter().map(|(p, w)| of(*p) * w / total).sum::<f64>();
            let centre = [middle(&|p| p.0), middle(&|p| p.1)];
            (all.iter().map(|((x, y), _)| [*x, *y]).collect::<Vec<_>>(), centre)
        })
        .prop_filter("not next to a line", |(places, centre)| {
            tipping_margin_mm(*centre, places).is_ok_and(|margin| margin > 20.0)
        })
}

fn balanced(loads: &[f64], places: &[[f64; 2]], centre: [f64; 2], weight: f64) -> bool {
    let sum = |of: &dyn Fn(&[f64; 2]) -> f64| loads.iter().zip(places).map(|(n, p)| n * of(p)).sum::<f64>();
    (sum(&|_| 1.0) - weight).abs() < 1e-6 * weight
        && (sum(&|p| p[0] - centre[0])).abs() < 1e-2 * weight
        && (sum(&|p| p[1] - centre[1])).abs() < 1e-2 * weight
}

proptest! {
    // Loads add up to the weight, their moments vanish, none pulls, none is above the greatest that statics allows, and of
    // all sharings the even one has the least sum of squares.
    #[test]
    fn statics((places, centre) in any_layout(), which in 0..3usize, lag in 0.0..50.0f64) {
        let weight = 4000.0;
        let even = even_loads_n(weight, centre, &places).unwrap();
        let lagging = lagging_loads_n(weight, centre, &places, (which, lag), 300.0).unwrap();
        let greatest = greatest_loads_n(weight, centre, &places).unwrap();
        for loads in [&even, &lagging] {
            prop_assert!(balanced(loads, &places, centre, weight), "{loads:?}");
            prop_assert!(loads.iter().zip(&greatest).all(|(n, most)| *n >= 0.0 && *n <= most + 1e-3), "{loads:?} {greatest:?}");
        }
        prop_assert!(greatest.iter().all(|n| *n <= weight * (1.0 + 1e-9)));
        let squares = |loads: &[f64]| loads.iter().map(|n| n * n).sum::<f64>();
        prop_assert!(squares(&even) <= squares(&lagging) * (1.0 + 1e-6));
    }

    // One support more gives a stiff roof more ways to rock: no greatest load falls.
    #[test]
    fn one_more_support_frees_no_other((places, centre) in any_layout(), x in 0.0..8000.0f64, y in -1200.0..1200.0f64) {
        let before = greatest_loads_n(4000.0, centre, &places).unwrap();
        let more = [places, vec![[x, y]]].concat();
        let after = greatest_loads_n(4000.0, centre, &more).unwrap();
        prop_assert!(before.iter().zip(&after).all(|(a, b)| *b >= a - 1e-4), "{before:?} {after:?}");
    }

    // A mirrored layout carries mirrored loads.
    #[test]
    fn mirrored((places, centre) in any_layout()) {
        let mirror = |[x, y]: [f64; 2]| [x, -y];
        let flipped: Vec<_> = places.iter().copied().map(mirror).collect();
        let (a, b) = (
            even_loads_n(4000.0, centre, &places).unwrap(),
            even_loads_n(4000.0, mirror(centre), &flipped).unwrap(),
        );
        prop_assert!(a.iter().zip(&b).all(|(a, b)| (a - b).abs() < 1e-3), "{a:?} {b:?}");
    }
}

#[test]
fn levels_given_one_by_one() {
    // All low alike: nothing changes.
    near(
        &shared_loads_n(4000.0, [2500.0, 0.0], &RECTANGLE, &[7.0; 4], 500.0).unwrap(),
        &[750.0, 750.0, 1250.0, 1250.0],
    );
    assert!(lagging_loads_n(4000.0, [2500.0, 0.0], &RECTANGLE, (9, 1.0), 500.0).is_err());
}

// ---- braced

const WEIGHT_KG: f64 = 400.0;

fn brace(name: &str, from_mm: [f64; 3], to_mm: [f64; 3], compression_n: f64) -> Brace {
    Brace {
        name: name.to_owned(),
        from_mm,
        to_mm,
        area_mm2: 60.0,
        modulus_mpa: 100_000.0,
        tension_n: Some(10_000.0),
        compression_n: Some(compression_n),
    }
}

/// Four cribs 1.5 m high at the corners of 4 m by 1.6 m; centre 2.6 m up, 150 mm over their tops, 2 m forward.
fn lift(braces: Vec<Brace>) -> Lift {
    let support = |(i, [x_mm, y_mm]): (usize, [f64; 2])| Support {
        name: format!("crib {}", i + 1),
        x_mm,
        y_mm,
        foot_mm: 950.0,
        top_mm: 2450.0,
        capacity_n: Some(20_000.0),
    };
    Lift {
        roof: Roof { mass_kg: WEIGHT_KG, centre_mm: [2000.0, 0.0, 2600.0] },
        supports: RECTANGLE.into_iter().enumerate().map(support).collect(),
        braces,
        wind: WindFace {
            side_m2: 4.0,
            ends_m2: 3.0,
            plan_m2: 10.0,
            size_mm: [5000.0, 2000.0],
            uplift_off: 0.0,
            middle_mm: [2000.0, 0.0, 2500.0],
            push: 1.3,
            uplift: 1.3,
            air_density_kg_m3: 1.225,
        },
        conditions: Conditions {
            slope_along: 0.0,
            slope_across: 0.0,
            out_of_plumb: 0.0,
            friction: 0.3,
            support_n_mm: 2000.0,
            lag_mm: 0.0,
            holding_down: 1.0,
            factor: 1.5,
        },
    }
}

/// Bars along both sides and across both ends, aslant.
fn bars() -> Vec<Brace> {
    vec![
        brace("along left", [500.0, 800.0, 1500.0], [1700.0, 800.0, 2450.0], 8000.0),
        brace("along right", [2500.0, -800.0, 1500.0], [1300.0, -800.0, 2450.0], 8000.0),
        brace("across rear", [0.0, -800.0, 1500.0], [0.0, 700.0, 2450.0], 8000.0),
        brace("across front", [4000.0, 800.0, 1500.0], [4000.0, -700.0, 2450.0], 8000.0),
    ]
}

/// Straps both ways in place of each bar.
fn straps() -> Vec<Brace> {
    let mirrored = |b: &Brace, along: bool| {
        let turn = |[x, y, z]: [f64; 3]| if along { [4000.0 - x, y, z] } else { [x, -y, z] };
        Brace { name: format!("{}, other", b.name), from_mm: turn(b.from_mm), to_mm: turn(b.to_mm), ..b.clone() }
    };
    let both = bars().into_iter().flat_map(|b| {
        let other = mirrored(&b, b.name.starts_with("along"));
        [b, other]
    });
    both.map(|b| Brace { compression_n: Some(0.0), ..b }).collect()
}

/// The same as a space frame: stiff arms level from the centre, stiff posts down and up from them, bars for braces, and
/// struts for supports where asked, else springs.
fn as_space_frame(
    lift: &Lift,
    rise_mm: f64,
    keep: &dyn Fn(usize) -> bool,
    (second, loose, struts): (f64, [f64; 2], bool),
) -> (SpaceFrame, Vec<usize>) {
    let stiff = |from, to| Member {
        from,
        to,
        area_mm2: 1e6,
        modulus_mpa: 205_000.0,
        bending: Some(Bending {
            second_moment_y_mm4: second,
            second_moment_z_mm4: second,
            torsion_mm4: second,
            shear_modulus_mpa: 80_000.0,
            up: None,
        }),
    };
    let up = |[x, y, z]: [f64; 3]| [x, y, z + rise_mm];
    let centre = up(lift.roof.centre_mm);
    let (mut nodes, mut members, mut supports) = (vec![centre], vec![], vec![]);
    let reach = |to: [f64; 3], nodes: &mut Vec<[f64; 3]>, members: &mut Vec<Member>| {
        nodes.push([to[0], to[1], centre[2]]);
        members.push(stiff(0, nodes.len() - 1));
        nodes.push(to);
        members.push(stiff(nodes.len() - 2, nodes.len() - 1));
        nodes.len() - 1
    };
    for s in &lift.supports {
        let top = reach(up([s.x_mm, s.y_mm, s.top_mm]), &mut nodes, &mut members);
        let k = lift.conditions.support_n_mm;
        if struts {
            let length = s.top_mm + rise_mm - s.foot_mm;
            nodes.push([s.x_mm, s.y_mm, s.foot_mm]);
            supports.push(space_frame::Support::pinned(nodes.len() - 1));
            let strut = Member {
                from: nodes.len() - 1,
                to: top,
                area_mm2: 1000.0,
                modulus_mpa: k * length / 1000.0,
                bending: None,
            };
            members.push(strut);
        } else {
            let spring = [Hold::Free, Hold::Free, Hold::Spring(k)];
            supports.push(space_frame::Support { moves: spring, ..space_frame::Support::free(top) });
        }
    }
    // Straps that are slack both ways leave a way open that nothing pushes: a spring places the roof there.
    let [x, y] = loose.map(|d| if d == 0.0 { Hold::Free } else { Hold::Spring(1000.0) });
    supports.push(space_frame::Support { moves: [x, y, Hold::Free], ..space_frame::Support::free(0) });
    let mut which = vec![];
    for (_, b) in lift.braces.iter().enumerate().filter(|(i, _)| keep(*i)) {
        let end = reach(up(b.to_mm), &mut nodes, &mut members);
        nodes.push(b.from_mm);
        supports.push(space_frame::Support::pinned(nodes.len() - 1));
        which.push(members.len());
        let (from, area_mm2, modulus_mpa) = (nodes.len() - 1, b.area_mm2, b.modulus_mpa);
        members.push(Member { from, to: end, area_mm2, modulus_mpa, bending: None });
    }
    (SpaceFrame::new(nodes, members, supports).unwrap(), which)
}

/// The wind as a force at the centre with the moment of its arm.
fn wind_at_centre(lift: &Lift, to: [f64; 2], m_s: f64) -> NodeLoad {
    let q = 0.5 * lift.wind.air_density_kg_m3 * m_s * m_s * lift.wind.push;
    let [fx, fy] = [q * lift.wind.ends_m2 * to[0], q * lift.wind.side_m2 * to[1]];
    let a: [f64; 3] = std::array::from_fn(|i| lift.wind.middle_mm[i] - lift.roof.centre_mm[i]);
    NodeLoad { node: 0, force_n: [fx, fy, 0.0], moment_n_mm: [-a[2] * fy, a[2] * fx, a[0] * fy - a[1] * fx] }
}

#[rstest]
fn the_space_frame_gives_the_same_forces(
    #[values(true, false)] two_way: bool,
    #[values(0.0, 250.0)] rise: f64,
    #[values([1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0])] to: [f64; 2],
) {
    let lift = lift(if two_way { bars() } else { straps() });
    let stage = Stage::new(&lift, rise).unwrap();
    let forces = stage.wind_alone(to, 12.0).unwrap();
    // What went slack here is left out there, and would indeed be pressed.
    let taut = |i: usize| two_way || forces.braces_n[i] > 0.0;
    let loose = if two_way { [0.0; 2] } else { [to[1], to[0]] };
    let (frame, which) = as_space_frame(&lift, rise, &taut, (1e11, loose, false));
    let solved = frame.solve(&[wind_at_centre(&lift, to, 12.0)]).unwrap();
    let size = forces.braces_n.iter().fold(0.0, |most: f64, n| most.max(n.abs()));
    assert!(size > 50.0);
    for (member, i) in which.into_iter().zip((0..lift.braces.len()).filter(|i| taut(*i))) {
        let (a, b) = (solved.members[member].axial_n, forces.braces_n[i]);
        assert!((a - b).abs() < 1e-4 * size, "{a} {b}");
    }
    for (i, (n, dead)) in forces.supports_n.iter().zip(stage.dead_n()).enumerate() {
        assert!((solved.reactions[i][2] - (n - dead)).abs() < 1e-4 * size, "{i}");
    }
    for (sway, moved) in forces.sway_mm.iter().zip(solved.displacements[0]) {
        assert!((sway - moved).abs() < 1e-4 * 10.0);
    }
    // Straps that went slack are shorter than they hung: no tension is left out.
    if !two_way {
        assert!((0..lift.braces.len()).any(|i| !taut(i)));
    }
}

/// Level bars, which take no share of the weight, as soft as they come.
fn soft_bars() -> Lift {
    let level =
        |b: Brace| Brace { from_mm: [b.from_mm[0], b.from_mm[1], b.to_mm[2]], area_mm2: 0.2, modulus_mpa: 1000.0, ..b };
    lift(bars().into_iter().map(level).collect())
}

#[test]
fn the_space_frame_leans_over_at_the_same_weight() {
    let lift = soft_bars();
    let ours = Stage::new(&lift, 0.0).unwrap().leaning_factor().unwrap();
    let (frame, _) = as_space_frame(&lift, 0.0, &|_| true, (1e10, [0.0; 2], true));
    let weight = NodeLoad::force(0, [0.0, 0.0, -lift.roof.weight_n()]);
    let theirs = frame.critical_load_factor(&[weight]).unwrap().unwrap();
    assert!((ours / theirs - 1.0).abs() < 3e-3, "{ours} {theirs}");
    // Near the plain sum: braces' stiffness along it (1200 mm long) times the struts' height over the weight, less what the
    // roof's pitch on its springs takes.
    let k = 2.0 * 0.2 * 1000.0 / 1200.0;
    let plain = k * 1500.0 / lift.roof.weight_n();
    assert!(ours < plain && ours > 0.5 * plain, "{ours} {plain}");
}

#[test]
fn what_leans_over_stops_work() {
    let lift = soft_bars();
    let stop = Stage::new(&lift, 0.0).unwrap().stop_wind();
    assert_eq!((stop.wind_m_s, stop.by), (None, Stop::LeansOver));
}

// Straight up: γ q c A = W at v = √(2 W/(γ ρ c A)), however the straps could hold it down.
#[test]
fn uplift_stops_work() {
    let mut lift = lift(straps());
    lift.wind.push = 0.0;
    let v = (2.0 * lift.roof.weight_n() / (1.5 * 1.225 * 1.3 * 10.0)).sqrt();
    let stop = Stage::new(&lift, 100.0).unwrap().stop_wind();
    let found = stop.wind_m_s.unwrap_or_else(|| panic!("{stop:?}"));
    assert!(found <= v + 1e-9 && found > v - 0.15, "{found} {v}");
    assert_eq!(stop.by, Stop::Uplift);
}

// Two level bars across, symmetric: each takes half the push, γ ½ ρ v² c A/2.
#[test]
fn a_weak_brace_stops_work() {
    let level = |b: Brace| Brace { from_mm: [b.from_mm[0], b.from_mm[1], b.to_mm[2]], tension_n: Some(400.0), ..b };
    let mut lift = lift(bars().into_iter().map(level).collect());
    lift.wind.uplift = 0.0;
    lift.wind.middle_mm[2] = 2450.0;
    let v = (2.0_f64 * 2.0 * 400.0 / (1.5 * 1.225 * 1.3 * 4.0)).sqrt();
    let stop = Stage::new(&lift, 0.0).unwrap().stop_wind();
    // Leaning supports push a little too.
    let found = stop.wind_m_s.unwrap();
    assert!(found <= v && found > v - 0.4, "{found} {v}");
    assert!(matches!(&stop.by, Stop::Tension(name) if name.starts_with("across")), "{stop:?}");
    lift.braces.iter_mut().for_each(|b| (b.tension_n, b.compression_n) = (Some(1e5), Some(400.0)));
    assert!(matches!(Stage::new(&lift, 0.0).unwrap().stop_wind().by, Stop::Compression(_)));
}

// By hand: lift L = γ q c A on a roof of 5 m by 2 m whose middle is its centre, four cribs 1.6 m apart across, nothing else
// pushing. Off its middle by a quarter of 2 m a wind across lifts the windward pair by L/4 (1 + 2 · 500/1600) each, so that
// W/4 = L/4 · 1.625 and v = √(2 W/(γ ρ c A 1.625)); with 0.9 of the weight √0.9 of that. Along it, 1250 of 4000 mm.
#[rstest]
#[case(0.25, 1.0)]
#[case(0.25, 0.9)]
fn the_lift_acts_towards_the_wind(#[case] off: f64, #[case] holding: f64) {
    // Level braces take no share upwards.
    let level = |b: Brace| Brace { from_mm: [b.from_mm[0], b.from_mm[1], b.to_mm[2]], ..b };
    let mut lift = lift(bars().into_iter().map(level).collect());
    (lift.wind.push, lift.wind.uplift_off, lift.conditions.holding_down) = (0.0, off, holding);
    lift.wind.middle_mm = lift.roof.centre_mm;
    let most = 1.0 + 2.0 * (off * 5000.0) / 4000.0_f64;
    let across = 1.0 + 2.0 * (off * 2000.0) / 1600.0;
    let v = (2.0 * holding * lift.roof.weight_n() / (1.5 * 1.225 * 1.3 * 10.0 * most.max(across))).sqrt();
    let stop = Stage::new(&lift, 0.0).unwrap().stop_wind();
    let found = stop.wind_m_s.unwrap();
    assert!(found <= v + 1e-9 && found > v - 0.15, "{found} {v} {stop:?}");
    assert_ne!(stop.by, Stop::Nothing);
}

// By hand: 1.5 W = 5884 N on four cribs, 1471 N each; one low by more than 1471 · 4/2000 = 2.94 mm leaves 2942 N on each of the
// two beside it. Cribs for 2900 N hold the level roof and not that; cribs for 3200 N hold both, and less wind with one low.
#[test]
fn a_low_crib_loads_its_neighbours() {
    let stop = |capacity_n: f64, lag_mm: f64| {
        let mut lift = lift(bars());
        lift.supports.iter_mut().for_each(|s| s.capacity_n = Some(capacity_n));
        lift.conditions.lag_mm = lag_mm;
        Stage::new(&lift, 0.0).unwrap().stop_wind()
    };
    let level = stop(2900.0, 0.0);
    assert!(level.wind_m_s.is_some() && level.low.is_none(), "{level:?}");
    let low = stop(2900.0, 3.5);
    assert!(low.wind_m_s.is_none() && matches!(&low.by, Stop::Support(_)) && low.words().ends_with(" low"), "{low:?}");
    let (level, low, lower) = (stop(3200.0, 0.0), stop(3200.0, 3.5), stop(3200.0, 7.0));
    assert!(low.wind_m_s < level.wind_m_s && lower.wind_m_s <= low.wind_m_s, "{level:?} {low:?} {lower:?}");
}

#[rstest]
#[case(|l: &mut Lift| l.conditions.friction = 0.01, |by: &Stop| matches!(by, Stop::Slides(_)))]
#[case(|l: &mut Lift| l.supports[0].capacity_n = Some(1400.0), |by: &Stop| *by == Stop::Support("crib 1".to_owned()))]
fn still_air_can_stop_work(#[case] change: fn(&mut Lift), #[case] stops: fn(&Stop) -> bool) {
    let mut lift = lift(bars());
    (lift.conditions.slope_along, lift.conditions.out_of_plumb) = (0.01, 0.01);
    assert!(Stage::new(&lift, 0.0).unwrap().stop_wind().wind_m_s.is_some());
    change(&mut lift);
    let stop = Stage::new(&lift, 0.0).unwrap().stop_wind();
    assert!(stop.wind_m_s.is_none() && stops(&stop.by), "{stop:?}");
}

#[test]
fn no_wind_beyond_the_strongest_is_worked_out() {
    let mut lift = lift(bars());
    (lift.wind.push, lift.wind.uplift) = (0.001, 0.001);
    let stop = Stage::new(&lift, 0.0).unwrap().stop_wind();
    assert_eq!((stop.wind_m_s, stop.by), (Some(40.0), Stop::Nothing));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    // At the stop-work wind nothing lifts off, slides or is beyond its rating.
    #[test]
    fn the_stop_work_wind_is_kept(factor in 1.0..3.0f64, side in 2.0..8.0f64, rise in 0.0..500.0f64, two_way in any::<bool>()) {
        let mut lift = lift(if two_way { bars() } else { straps() });
        (lift.conditions.factor, lift.wind.side_m2) = (factor, side);
        (lift.conditions.slope_along, lift.conditions.slope_across, lift.conditions.out_of_plumb) = (0.01, 0.02, 0.01);
        let most = Stage::new(&lift, rise).unwrap().stop_wind().wind_m_s.unwrap();
        let e = Stage::new(&lift, rise).unwrap().extremes(most).unwrap();
        prop_assert!(e.supports_least_n.iter().all(|n| *n > 0.0) && e.supports_most_n.iter().all(|n| *n <= 20_000.0));
        prop_assert!(e.tension_n.iter().all(|n| *n <= 10_000.0) && e.foot_slopes.iter().all(|s| *s <= 0.3));
    }

    // Supports and braces balance weight and wind upwards and sideways; first order, the wind alone.
    #[test]
    fn forces_balance(m_s in 1.0..14.0f64, rise in 0.0..500.0f64, which in 0..4usize, two_way in any::<bool>()) {
        let lift = lift(if two_way { bars() } else { straps() });
        let to = [[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]][which];
        let forces = Stage::new(&lift, rise).unwrap().wind_alone(to, m_s).unwrap();
        let push = wind_at_centre(&lift, to, m_s);
        let mut sum = [push.force_n[0], push.force_n[1], -lift.roof.weight_n()];
        sum[2] += forces.supports_n.iter().sum::<f64>();
        for (b, n) in lift.braces.iter().zip(&forces.braces_n) {
            let (run, length) = (b.run_mm(rise), b.length_mm(rise));
            prop_assert!(two_way || *n >= 0.0);
            for i in 0..3 {
                sum[i] -= n * run[i] / length;
            }
        }
        prop_assert!(sum.iter().all(|s| s.abs() < 1e-2), "{sum:?}");
    }
}

// Trigonometry: 1200 mm along and 950 up, then 1200 mm up.
#[test]
fn braces_grow_and_steepen() {
    let b = &bars()[0];
    assert!((b.length_mm(0.0) - 1200.0_f64.hypot(950.0)).abs() < 1e-9);
    assert!((b.length_mm(250.0) - 1200.0 * 2.0_f64.sqrt()).abs() < 1e-9 && (b.angle_deg(250.0) - 45.0).abs() < 1e-9);
}

#[rstest]
#[case(&["along left", "along right"], &["fore and aft"], "fore and aft")]
#[case(&["across rear", "across front"], &["across"], "across")]
#[case(&["along left", "along right", "across rear", "across front"], &["fore and aft", "across"], "fore and aft and across")]
fn a_direction_without_diagonals_is_refused(#[case] without: &[&str], #[case] lacks: &[&str], #[case] words: &str) {
    for all in [bars(), straps()] {
        let lift = lift(all.into_iter().filter(|b| !without.iter().any(|w| b.name.starts_with(w))).collect());
        assert_eq!(missing_bracing(&lift, 0.0), lacks);
        let problem = Stage::new(&lift, 0.0).unwrap_err().to_string();
        assert!(problem.contains(&format!("no diagonal holds the roof {words} when")), "{problem}");
    }
}

#[test]
fn straps_one_way_are_refused() {
    let one_way = lift(bars().into_iter().map(|b| Brace { compression_n: Some(0.0), ..b }).collect());
    // The two along run against each other, as do the two across: each way has one, but one alone turns the roof.
    assert!(missing_bracing(&one_way, 0.0).is_empty());
    assert!(Stage::new(&one_way, 0.0).unwrap_err().to_string().contains("can still move"));
    let mut one = bars();
    one[0].compression_n = Some(0.0);
    one.remove(1);
    let one = lift(one);
    // It runs from the body forwards to the roof: it holds the roof from going on forwards, and not from going back.
    assert_eq!(missing_bracing(&one, 0.0), ["backwards"]);
}

#[test]
fn braces_that_let_the_roof_turn_are_refused() {
    let through_the_centre = vec![
        brace("along", [500.0, 0.0, 1500.0], [1700.0, 0.0, 2450.0], 8000.0),
        brace("across", [2000.0, -800.0, 1500.0], [2000.0, 700.0, 2450.0], 8000.0),
    ];
    let problem = Stage::new(&lift(through_the_centre), 0.0).unwrap_err().to_string();
    assert!(problem.contains("can still move by turning on the spot"), "{problem}");
}

#[test]
fn a_support_without_height_is_refused() {
    let mut lift = lift(bars());
    lift.supports[2].foot_mm = 2450.0;
    assert!(Stage::new(&lift, 0.0).unwrap_err().to_string().contains("crib 3"));
}
