//! Loads on the skins: published figures, laws, limits, and what of them each rivet line carries.

use proptest::prelude::*;
use raisedbody::body::panels::Part;
use raisedbody::body::rivet_lines::LineKind;
use raisedbody::body::skin_loads::{
    Air, AirCase, InPlane, Zone, Zones, attached, is_upright, one_wheel_torque_n_m, racked_flow_n_mm, shear_flow_n_mm,
};
use raisedbody::body::stability::stagnation_pressure_pa;
use raisedbody::body::survey::Side;
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

const MPH_M_S: f64 = 0.447_04;

fn close(a: f64, b: f64, share: f64) -> bool {
    (a - b).abs() <= share * b.abs().max(1e-12)
}

fn plan() -> Plan {
    Plan::read("examples/mobile_library.toml").unwrap()
}

fn build(changes: &str) -> Evaluation {
    plan().replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap()
}

/// Only the coefficients of the road.
fn road(speed_m_s: f64, edge: f64, side: f64) -> Air {
    let road_pa = stagnation_pressure_pa(1.225, speed_m_s);
    Air {
        road_pa,
        crosswind_pa: 0.0,
        edge,
        side,
        rear: 0.0,
        front: 0.0,
        lee: 0.0,
        strip: 0.0,
        passing: 0.0,
        inside: 0.0,
    }
}

// q = ½ ρ v², 1.225 kg/m3: 517 Pa at 65 mph, 473 Pa at 100 km/h, 689 Pa at 75 mph; with Cp -1.5 1.03 kPa and -0.5 0.34 kPa.
#[rstest]
#[case(65.0 * MPH_M_S, 1.0, 517.0)]
#[case(100.0 / 3.6, 1.0, 473.0)]
#[case(75.0 * MPH_M_S, 1.0, 689.0)]
#[case(75.0 * MPH_M_S, 1.5, 1030.0)]
#[case(75.0 * MPH_M_S, 0.5, 344.0)]
fn suction_on_the_road(#[case] speed_m_s: f64, #[case] coefficient: f64, #[case] pa: f64) {
    let air = road(speed_m_s, coefficient, coefficient / 3.0);
    assert!(close(air.suction(Zone::FrontEdge).0, pa, 5e-3));
    assert!(close(air.suction(Zone::Side).0, pa / 3.0, 5e-3));
}

#[test]
fn nothing_pulls_where_the_air_presses() {
    let pressed = Air { front: 0.8, ..road(30.0, 1.5, 0.5) };
    assert!(pressed.net_pa(Zone::Front, AirCase::Road) < 0.0);
    assert_eq!(pressed.suction(Zone::Front).0, 0.0);
    // No air, no load.
    assert_eq!(road(0.0, 1.5, 0.5).suction(Zone::FrontEdge).0, 0.0);
}

// Bredt: a tube of 5 m2 twisted by 28 kNm flows 2.8 N/mm; one wheel of a 2950 kg axle off the ground, track 1.95 m: 28.2 kNm.
#[test]
fn racking() {
    assert!(close(shear_flow_n_mm(28_000.0, 5.0), 2.8, 1e-12));
    assert!(close(one_wheel_torque_n_m(2950.0, 1950.0), 2950.0 * 9.80665 * 0.975, 1e-12));
    // G t of 0.912 mm steel is 71.9 N/mm of flow for each millimetre of sway per metre of height.
    assert!(close(racked_flow_n_mm(205_000.0, 0.3, 0.912, 1e-3), 71.9, 1e-3));
}

// Rounded from 0.045 √A on (Cooper, from memory): 119 mm on 7 m2.
#[rstest]
#[case(110.0, false)]
#[case(120.0, true)]
fn a_rounded_front_keeps_the_flow(#[case] radius_mm: f64, #[case] stays: bool) {
    assert_eq!(attached(radius_mm, 7.0), stays);
    let (sharp, rounded) = (build("loads.front_radius = \"20 mm\""), build("loads.front_radius = \"200 mm\""));
    assert_eq!((sharp.loads.air.edge, rounded.loads.air.edge), (1.5, 0.5));
}

#[test]
fn zones_lie_behind_the_front() {
    let zones = Zones { front_mm: 8000.0, reach_mm: 2400.0 };
    assert_eq!((zones.on_side(5600.0), zones.on_side(5601.0)), (Zone::Side, Zone::FrontEdge));
    let short = build("loads.edge_zone = \"0 mm\"");
    assert!(short.flatness.panels.iter().filter(|p| p.part == Part::Side).all(|p| p.zone == Zone::Side));
    let long = build("loads.edge_zone = \"20 m\"");
    assert!(long.flatness.panels.iter().filter(|p| p.part == Part::Side).all(|p| p.zone == Zone::FrontEdge));
}

// A sheet that runs on over a post leaves no heat there; a seam does. 9.8 kg/m2 over 700 mm at 3 g: 0.202 N/mm.
#[test]
fn in_the_plane() {
    let loads = InPlane { racking_n_mm: 3.0, shock: 2.0, areal_mass_kg_m2: 9.8, temperature_n_mm: 4.0 };
    let post = loads.on_line(LineKind::Post, true, 700.0);
    assert!(close(post.shock_n_mm, 0.2018, 1e-3) && close(post.total_n_mm, 3.2018, 1e-4));
    assert_eq!((post.temperature_n_mm, post.governing()), (0.0, "racking"));
    let seam = loads.on_line(LineKind::Seam, true, 700.0);
    assert!(close(seam.total_n_mm, 3.2018_f64.hypot(4.0), 1e-4));
    let top = loads.on_line(LineKind::Top, false, 0.0);
    assert!(close(top.total_n_mm, 5.0, 1e-12));
    assert_eq!(top.governing(), "skin colder or warmer than its frame");
    let none = InPlane { racking_n_mm: 0.0, shock: 0.0, areal_mass_kg_m2: 0.0, temperature_n_mm: 0.0 };
    assert_eq!(none.on_line(LineKind::Seam, true, 700.0).total_n_mm, 0.0);
}

#[test]
fn every_line_is_checked_for_what_lies_on_it() {
    let build = build("");
    for line in &build.lines {
        let joint = build.joints.iter().find(|j| j.lines.contains(&line.id)).unwrap();
        let (suction_pa, case) = build.loads.air.suction(joint.zone);
        assert_eq!((joint.suction_pa, joint.air_case), (suction_pa, case), "{}", line.id);
        if line.side.is_some() {
            // An upright line holds skin ahead of it.
            let reach_mm = if is_upright(line) { line.tributary_mm } else { 0.0 };
            let foremost_mm = line.from_mm.0.max(line.to_mm.0) + reach_mm;
            assert_eq!(joint.zone, build.loads.zones.on_side(foremost_mm), "{}", line.id);
        } else {
            // Its caps go round the corners, where the air pulls as on the sides.
            let (panel, _) = line.of_panel.unwrap();
            let zone = if build.skins.ends[panel].front { Zone::FrontEdge } else { Zone::Side };
            assert_eq!(joint.zone, zone, "{}", line.id);
        }
        let continuity = if line.kind.panel_edge() { 1.0 } else { 1.25 };
        let least_n = suction_pa * 1e-6 * line.tributary_mm * line.pitch_mm * continuity;
        assert!(joint.tension_n >= least_n * (1.0 - 1e-3), "{}", line.id);
        assert!(joint.shear_n >= build.loads.in_plane.racking_n_mm * line.pitch_mm * (1.0 - 1e-3), "{}", line.id);
    }
    let greatest = build.loads.suction_pa();
    assert!(build.flatness.panels.iter().all(|p| p.suction_pa > 0.0 && p.suction_pa <= greatest));
}

/// By hand: a level line between two courses carries half of each, an upper edge half of one; a post at the end of the side half
/// of the cap beside it too.
#[test]
fn both_sides_of_a_line_count() {
    let build = build("skin.largest_sheet.height = \"700 mm\"");
    let line = |id: &str| build.lines.iter().find(|line| line.id == id).unwrap();
    let run = build.skins.runs.iter().find(|run| run.side == Side::Left).unwrap();
    let gap_mm = build.survey.posts_mm.windows(2).map(|pair| pair[1] - pair[0]).fold(0.0, f64::max);
    let half = |upper: usize| 0.5 * gap_mm.min(run.lines_mm[upper] - run.lines_mm[upper + 1]);
    assert!(close(line("L-top 1").tributary_mm, half(0), 1e-9));
    assert!(close(line("L-course 1").tributary_mm, half(0) + half(1), 1e-9));
    let posts = &build.survey.posts_mm;
    let last = posts.len() - 1;
    let cap = build.skins.ends.iter().find(|panel| panel.front).unwrap();
    let expected_mm = 0.5 * (posts[last] - posts[last - 1]) + 0.5 * cap.height_mm.min(cap.length_mm);
    assert!(close(line(&format!("L-P{}", last + 1)).tributary_mm, expected_mm, 1e-9));
}

/// An edge that lies on the body is held by its rail, an end by the tube behind it: thinner walls, higher use.
#[test]
fn an_edge_is_held_by_what_lies_behind_it() {
    let use_of = |build: &Evaluation, kind: LineKind| {
        let joints = build.joints.iter().filter(|joint| joint.kind == kind).flat_map(|joint| &joint.reports);
        joints.filter_map(|report| report.utilisation()).fold(0.0, f64::max)
    };
    let (thick, thin) = (build("survey.rail_wall = \"1.5 mm\""), build("survey.rail_wall = \"0.9 mm\""));
    assert!(use_of(&thin, LineKind::Bottom) > 1.1 * use_of(&thick, LineKind::Bottom));
    assert!(use_of(&thin, LineKind::Top) > 1.1 * use_of(&thick, LineKind::Top));
    assert_eq!(use_of(&thin, LineKind::Course), use_of(&thick, LineKind::Course));
}

/// The bus's own rounded front does not round the step of a raise that ends behind it.
#[test]
fn a_step_is_sharp() {
    let edge = |changes: &str| {
        let text = include_str!("../examples/workshop_bus.toml");
        let plan = Plan::from_text(text, ".".as_ref()).unwrap().replace(&changes.parse().unwrap()).unwrap();
        plan.evaluate().unwrap().loads.air.edge
    };
    assert_eq!(edge("loads.front_radius = \"150 mm\""), edge("loads.front_radius = \"1 mm\""));
    // And that it is not used is told.
    let text = include_str!("../examples/workshop_bus.toml");
    let plan =
        Plan::from_text(text, ".".as_ref()).unwrap().replace(&"loads.front_radius = \"150 mm\"".parse().unwrap());
    let assumed = plan.unwrap().evaluate().unwrap().assumed;
    let told = assumed.iter().find(|a| a.field == "loads.front_radius").unwrap();
    assert!(told.source.starts_with("not used"), "{}", told.source);
}

#[test]
fn no_load_no_demand() {
    let none = build(
        "loads = { edge_suction = \"0\", side_suction = \"0\", rear_suction = \"0\", front_pressure = \"0\", lee_suction = \"0\", \
         strip_suction = \"0\", passing = \"0\", inside = \"0\", shock = \"0\", racking = \"0 N/mm\", restraint = \"0\" }",
    );
    for joint in &none.joints {
        // Its own weight stays.
        assert_eq!(joint.tension_n, 0.0);
        assert!(joint.shear_n > 0.0 && joint.shear_n < 10.0, "{}", joint.shear_n);
    }
}

#[test]
fn temperature_reaches_the_rivets_by_play_and_restraint() {
    let force = |changes: &str| build(changes).loads.in_plane.temperature_n_mm;
    let base = force("");
    assert!(base > 0.0);
    assert_eq!(force("loads.restraint = \"0\""), 0.0);
    assert!(close(force("loads.restraint = \"0.4\""), 4.0 * base, 1e-9));
    // What rivets and holes give is in the restraint: a wider hole alone takes nothing off.
    assert_eq!(force("fastening.hole = \"6.5 mm\""), base);
    assert_eq!(force("loads.play = \"0 mm\""), base);
    assert!(force("loads.play = \"0.1 mm\"") < base && force("loads.play = \"3 mm\"") == 0.0);
    // Hung as warm as its frame it pulls less in the cold.
    assert!(force("flatness.hang = { skin = \"24 degC\", frame = \"24 degC\" }") < base);
}

proptest! {
    #[test]
    fn suction_goes_with_the_square_of_speed(speed in 5.0..40.0_f64, edge in 0.1..2.0_f64, times in 1.0..2.0_f64) {
        let (slow, fast) = (road(speed, edge, 0.3), road(speed * times, edge, 0.3));
        for zone in Zone::ALL {
            prop_assert!(close(fast.suction(zone).0, times * times * slow.suction(zone).0, 1e-9));
        }
    }

    #[test]
    fn more_never_pulls_less(more in 0.0..1.0_f64, inside in -0.5..0.5_f64, wind in 0.0..900.0_f64) {
        let base = Air { inside, crosswind_pa: wind, lee: 0.5, strip: 1.2, rear: 0.2, front: 0.7, ..road(30.0, 1.5, 0.5) };
        let raised = [
            Air { passing: more, ..base },
            Air { inside: inside + more, ..base },
            Air { edge: base.edge + more, side: base.side + more, rear: base.rear + more, ..base },
            Air { lee: base.lee + more, strip: base.strip + more, ..base },
        ];
        for zone in Zone::ALL {
            prop_assert!(raised.iter().all(|air| air.suction(zone).0 >= base.suction(zone).0 - 1e-9));
        }
    }
}

#[rstest]
#[case("loads.side_suction = \"9\"", "loads.side_suction")]
#[case("loads.passing = \"-1\"", "loads.passing")]
#[case("loads.inside = \"3\"", "loads.inside")]
#[case("loads.shock = \"50\"", "loads.shock")]
#[case("loads.racking = \"900 N/mm\"", "loads.racking")]
#[case("loads.restraint = \"2\"", "loads.restraint")]
#[case("loads.play = \"20 mm\"", "loads.play")]
#[case("loads.crosswind = \"200 m/s\"", "loads.crosswind")]
#[case("loads = { edge_suction = \"1\", front_radius = \"100 mm\" }", "loads.front_radius")]
#[case("loads = { racking = \"2 N/mm\", racking_angle = \"0.1 deg\" }", "loads.racking_angle")]
fn nonsense_is_refused(#[case] changes: &str, #[case] path: &str) {
    match plan().replace(&changes.parse().unwrap()) {
        Err(raisedbody::Error::Input(problems)) => {
            let paths: Vec<&str> = problems.iter().map(|p| p.problem.path()).collect();
            assert!(paths.contains(&path), "{paths:?}");
        }
        other => panic!("not refused: {other:?}"),
    }
}

#[test]
fn racking_by_angle_or_flow() {
    let angle = build("loads.racking_angle = \"0.05 deg\"");
    // Steel of the sheet's thickness, its coating a few hundredths of it; the modulus within 3 %.
    let flow_n_mm = 79_000.0 * angle.sheet_thickness_mm * 0.05_f64.to_radians();
    assert!(close(angle.loads.in_plane.racking_n_mm, flow_n_mm, 0.06), "{}", angle.loads.in_plane.racking_n_mm);
    assert_eq!(build("loads.racking = \"7 N/mm\"").loads.in_plane.racking_n_mm, 7.0);
    // Without axle weights the default stands in, and is listed.
    let text = include_str!("../examples/mobile_library.toml").replace("track = \"1.95 m\"\n", "");
    let build = Plan::from_text(&text, ".".as_ref()).unwrap().evaluate().unwrap();
    assert_eq!(build.loads.in_plane.racking_n_mm, 2.0);
    assert!(build.assumed.iter().any(|a| a.field == "loads.racking" && a.value == "2 N/mm"));
}
