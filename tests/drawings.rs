//! Every drawing read back as XML: on its page, named, to scale; blanks beside the layout they are cut for.

use std::collections::BTreeSet;

use proptest::prelude::*;
use raisedbody::body::survey::Side;
use raisedbody::drawing::{Paper, Subject, drawing, drawing_names, drawings, dxf, templates};
use raisedbody::plan::{Evaluation, Flat, FlatKind, Plan};
use roxmltree::{Document, Node};
use rstest::rstest;

use crate::common::evaluated;

/// Drawn to a tenth of a millimetre.
const DRAWN_MM: f64 = 0.05 + 1e-9;

fn number(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).unwrap_or_else(|| panic!("no {name} on {node:?}")).parse().unwrap()
}

fn numbers(text: &str) -> Vec<f64> {
    text.split([' ', ',']).filter(|n| !n.is_empty()).map(|n| n.parse().unwrap()).collect()
}

/// Drawn places of an element, page coordinates.
fn places(node: Node<'_, '_>) -> Vec<(f64, f64)> {
    match node.tag_name().name() {
        "line" => vec![(number(node, "x1"), number(node, "y1")), (number(node, "x2"), number(node, "y2"))],
        "circle" => vec![(number(node, "cx"), number(node, "cy"))],
        "polyline" | "polygon" => {
            numbers(node.attribute("points").unwrap()).chunks(2).map(|pair| (pair[0], pair[1])).collect()
        }
        "text" => vec![(number(node, "x"), number(node, "y"))],
        // Where it lies is its group's affair.
        _ if node.ancestors().any(|a| a.has_attribute("transform")) => Vec::new(),
        "rect" if node.has_attribute("x") => {
            let (x, y) = (number(node, "x"), number(node, "y"));
            vec![(x, y), (x + number(node, "width"), y + number(node, "height"))]
        }
        _ => Vec::new(),
    }
}

#[rstest]
#[case("mobile_library", &[Subject::Body, Subject::CutDay, Subject::Frame, Subject::Laps, Subject::Blank, Subject::Line,
    Subject::Jig, Subject::CutPlan, Subject::Schedule])]
#[case("workshop_bus", &[Subject::Body, Subject::Frame, Subject::Laps, Subject::Blank, Subject::Line, Subject::Jig,
    Subject::CutPlan])]
fn every_drawing_lies_on_its_page_and_is_told_apart(#[case] name: &str, #[case] subjects: &[Subject]) {
    let build = evaluated(name);
    let all = drawings(&build);
    let names: Vec<String> = all.iter().map(|d| d.name.clone()).collect();
    assert_eq!(names, drawing_names(&build));
    assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len());
    for subject in subjects {
        assert!(all.iter().any(|d| d.subject == *subject), "{subject:?}");
    }
    for d in &all {
        assert!(subjects.contains(&d.subject), "{}", d.name);
        assert_eq!(drawing(&build, &d.name).unwrap(), *d);
        assert!(!d.svg.contains("NaN") && !d.svg.contains("inf\""), "{}", d.name);
        let page = Document::parse(&d.svg).unwrap();
        let bounds = numbers(page.root_element().attribute("viewBox").unwrap());
        let mut drawn = 0;
        for node in page.descendants().filter(Node::is_element) {
            for (x, y) in places(node) {
                let room = 1.0;
                assert!(
                    (-room..=bounds[2] + room).contains(&x) && (-room..=bounds[3] + room).contains(&y),
                    "{}: {node:?} at {x}, {y} of {bounds:?}",
                    d.name
                );
                drawn += 1;
            }
        }
        assert!(drawn > 10, "{}", d.name);
    }
}

// A scale bar is as long as it says, of every drawing that has one.
#[rstest]
fn scale_bars_are_to_scale(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = evaluated(name);
    let mut found = 0;
    for d in drawings(&build) {
        let page = Document::parse(&d.svg).unwrap();
        let bar = page.descendants().find(|n| n.attribute("class") == Some("scale"));
        let words = page.descendants().filter_map(|n| n.text()).find_map(|t| t.trim().strip_suffix(", to scale"));
        let (Some(bar), Some(words)) = (bar, words) else {
            assert!(words.is_none(), "{}", d.name);
            continue;
        };
        found += 1;
        let (value, unit) = words.split_once(' ').unwrap();
        let mm = value.parse::<f64>().unwrap()
            * match unit {
                "in" => 25.4,
                "ft" => 304.8,
                "mm" => 1.0,
                "m" => 1000.0,
                other => panic!("{other}"),
            };
        assert!((number(bar, "width") - mm).abs() <= DRAWN_MM, "{}: {words}", d.name);
        // The bar's millimetre is that of the part: a blank is drawn as long as it is.
        if let Some(flat) = &d.flat {
            let part = page.descendants().find(|n| n.attribute("class") == Some("part")).unwrap();
            let corners = places(part);
            let wide = corners.iter().map(|p| p.0).fold(f64::NEG_INFINITY, f64::max)
                - corners.iter().map(|p| p.0).fold(f64::INFINITY, f64::min);
            assert!((wide - flat.size_mm()[0]).abs() <= 2.0 * DRAWN_MM, "{}", d.name);
        }
    }
    assert!(found > 40);
}

#[rstest]
fn a_blank_has_the_size_and_the_holes_of_its_sheet(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = evaluated(name);
    let flats = build.flats();
    let blank = |id: &str| flats.iter().find(|flat| flat.id == id).unwrap();
    for sheet in &build.skins.sheets {
        let flat = blank(&sheet.id);
        assert_eq!(flat.size_mm(), [sheet.length_mm(), sheet.height_mm()]);
        assert_eq!(flat.holes.len(), build.holes_in(sheet));
    }
    for panel in &build.skins.ends {
        let size = blank(&panel.id).size_mm();
        // The rectangle that is bought: a cap's good edge stands square on it, so that no blank is larger.
        assert!((size[0] - panel.length_mm).abs() < 1e-6 && (size[1] - panel.height_mm).abs() < 1e-6, "{}", panel.id);
    }
    let jigs = flats.iter().filter(|flat| flat.kind == FlatKind::Jig);
    for (flat, jig) in jigs.zip(&build.drilling.jigs) {
        let first = flat.holes[0].at_mm[0];
        for (hole, place) in flat.holes.iter().zip(&jig.places) {
            assert!((hole.at_mm[0] - first - place.true_mm).abs() < 1e-9);
        }
    }
}

/// From a place to the nearest edge of an outline, mm.
fn to_edge(flat: &Flat, at: [f64; 2]) -> f64 {
    let n = flat.outline_mm.len();
    let away = |i: usize| {
        let ([x0, y0], [x1, y1]) = (flat.outline_mm[i], flat.outline_mm[(i + 1) % n]);
        let (dx, dy) = (x1 - x0, y1 - y0);
        let t = (((at[0] - x0) * dx + (at[1] - y0) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        (x0 + t * dx - at[0]).hypot(y0 + t * dy - at[1])
    };
    (0..n).map(away).fold(f64::INFINITY, f64::min)
}

// Geometry: outlines run against the clock; no hole is nearer to an edge than the plan's edge distance.
#[rstest]
#[case("mobile_library", 15.875)]
#[case("workshop_bus", 16.0)]
fn no_hole_is_nearer_to_an_edge_than_the_plan_says(#[case] name: &str, #[case] edge_mm: f64) {
    let build = evaluated(name);
    for flat in build.flats().iter().filter(|flat| flat.kind != FlatKind::Jig) {
        assert!(!flat.holes.is_empty(), "{}", flat.id);
        for hole in &flat.holes {
            let left = to_edge(flat, hole.at_mm);
            // A cap's edge leans by a degree or two against the lines across it.
            let lean_mm = if flat.kind == FlatKind::Cap { 0.2 } else { 1e-6 };
            assert!(left >= edge_mm - lean_mm, "{}: {left} at {:?}", flat.id, hole.at_mm);
        }
        let area: f64 = (0..flat.outline_mm.len())
            .map(|i| {
                let ([x0, y0], [x1, y1]) = (flat.outline_mm[i], flat.outline_mm[(i + 1) % flat.outline_mm.len()]);
                0.5 * (x0 * y1 - x1 * y0)
            })
            .sum();
        let bought = flat.size_mm()[0] * flat.size_mm()[1];
        assert!(area > 0.3 * bought && area <= bought * (1.0 + 1e-9), "{}", flat.id);
    }
}

// Conservation: every hole that is set out lies on a blank; those on laps on two.
#[rstest]
fn every_hole_of_the_layout_is_on_a_blank(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = evaluated(name);
    let flats = build.flats();
    for line in &build.lines {
        // Along the slope beside a triangle, and on the rear face's own edges, holes are the panel's alone.
        let most = flats.iter().map(|f| f.holes.iter().filter(|h| h.of == line.id).count()).max().unwrap();
        let all: usize = flats.iter().map(|f| f.holes.iter().filter(|h| h.of == line.id).count()).sum();
        assert!(all >= line.holes_mm.len(), "{}: {all} of {}", line.id, line.holes_mm.len());
        assert!(most <= line.holes_mm.len());
    }
}

// The caps' holes are as far apart along the flat as along the sheet: round a bend the neutral axis is what is developed.
#[rstest]
fn holes_along_a_cap_keep_their_pitch() {
    let build = evaluated("mobile_library");
    let flats = build.flats();
    for panel in &build.skins.ends {
        let flat = flats.iter().find(|flat| flat.id == panel.id).unwrap();
        let round = |id: &str| id.ends_with("lower edge") || id.ends_with("upper edge");
        for line in build.lines.iter().filter(|line| line.id.starts_with(&panel.id) && round(&line.id)) {
            let own: Vec<[f64; 2]> = flat.holes.iter().filter(|h| h.of == line.id).map(|h| h.at_mm).collect();
            assert_eq!(own.len(), line.holes_mm.len());
            let mut apart: Vec<f64> = own.windows(2).map(|p| (p[0][0] - p[1][0]).hypot(p[0][1] - p[1][1])).collect();
            apart.sort_by(f64::total_cmp);
            // The lower edge's length is what the pitch divides; a little up the cone it may be longer or shorter.
            assert!(
                (apart[0] - line.pitch_mm).abs() < 0.6 && (apart[apart.len() - 1] - line.pitch_mm).abs() < 0.6,
                "{apart:?}"
            );
        }
    }
}

#[rstest]
fn left_blanks_mirror_right_ones(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = evaluated(name);
    let flats = build.flats();
    let mut pairs = 0;
    for left in flats.iter().filter(|flat| flat.id.starts_with("L-")) {
        let right = flats.iter().find(|flat| flat.id == left.id.replacen('L', "R", 1)).unwrap();
        let length = left.size_mm()[0];
        assert_eq!(left.holes.len(), right.holes.len());
        for hole in &left.holes {
            let there = |other: &&raisedbody::plan::FlatHole| {
                (length - hole.at_mm[0] - other.at_mm[0]).hypot(hole.at_mm[1] - other.at_mm[1]) < 1e-6
            };
            assert_eq!(right.holes.iter().filter(there).count(), 1, "{}: {:?}", left.id, hole.at_mm);
        }
        assert_eq!((left.front_to_right, right.front_to_right), (Some(false), Some(true)));
        pairs += 1;
    }
    assert_eq!(pairs, build.skins.sheets.iter().filter(|s| s.side == Side::Left).count());
}

#[test]
fn an_unknown_drawing_is_refused_with_the_nearest_name() {
    let build = evaluated("workshop_bus");
    let problem = drawing(&build, "blank L-A7").unwrap_err().to_string();
    assert!(problem.contains("blank L-A1") || problem.contains("blank L-A2"), "{problem}");
}

#[rstest]
fn full_size_pages_hold_every_mark(
    #[values("mobile_library", "workshop_bus")] name: &str,
    #[values("A4", "Letter")] paper: Paper,
) {
    let build = evaluated(name);
    let page = templates(&build, paper);
    let holes: usize = build.drilling.jigs.iter().map(|jig| jig.places.len()).sum();
    let circles = page.matches("<circle").count();
    // A hole on a cut line is on both parts.
    assert!(circles >= holes && circles <= holes + build.drilling.jigs.len() * 12, "{circles} for {holes}");
    assert!(page.contains(&format!("size: {} landscape", paper.name())));
    assert_eq!(page.matches("class=\"check\"").count(), page.matches("class=\"page\"").count());
}

#[test]
fn the_same_part_is_the_same_file() {
    let flat = evaluated("workshop_bus").flats().remove(0);
    assert_eq!(dxf(&flat).unwrap(), dxf(&flat).unwrap());
}

/// Text that breaks a page or a file that takes it as it is.
const HOSTILE: &str = "</svg><script>alert(1)</script>\n  0\r\nEOF\"'&";

#[test]
fn a_hostile_name_stays_text() {
    let plan = Plan::read("examples/mobile_library.toml").unwrap();
    let text = toml::Value::from(HOSTILE).to_string();
    let changes = format!("name = {text}\nfastening.provenance = {text}");
    let build: Evaluation = plan.replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap();
    for d in drawings(&build) {
        let page = Document::parse(&d.svg).unwrap();
        assert!(page.descendants().all(|n| n.tag_name().name() != "script"), "{}", d.name);
    }
    assert!(!templates(&build, Paper::A4).contains("<script"));
}

proptest! {
    // A sheet of any size is told and drawn in its own size: the canvas never scales one way only.
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn a_raise_of_any_height_is_drawn(height_mm in 60.0..520.0_f64) {
        let plan = Plan::read("examples/workshop_bus.toml").unwrap();
        let changes = format!("raise.height = \"{height_mm:.1} mm\"");
        let Ok(plan) = plan.replace(&changes.parse().unwrap()) else { return Ok(()) };
        let build = plan.evaluate().unwrap();
        for d in drawings(&build) {
            prop_assert!(!d.svg.contains("NaN"), "{}", d.name);
            prop_assert!(Document::parse(&d.svg).is_ok(), "{}", d.name);
        }
    }
}
