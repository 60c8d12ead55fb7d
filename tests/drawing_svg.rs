//! Side views read back as XML: to scale, every sheet named, every hole drawn, left and right mirrored, nothing of a
//! plan's own text taken for markup. Checked against the evaluation that is drawn; well-formed by XML 1.0.

use raisedbody::body::survey::Side;
use raisedbody::drawing::{html, side_view};
use raisedbody::plan::{Plan, compare};
use roxmltree::{Document, Node};
use rstest::rstest;

use crate::common::evaluated;

/// Drawn to a tenth of a millimetre.
const DRAWN_MM: f64 = 0.05 + 1e-9;

fn number(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).unwrap_or_else(|| panic!("no {name} on {node:?}")).parse().unwrap()
}

/// Elements of a tag and class.
fn drawn<'a>(page: &'a Document<'a>, tag: &'a str, class: &'a str) -> impl Iterator<Item = Node<'a, 'a>> {
    page.descendants().filter(move |n| {
        n.has_tag_name((SVG, tag)) && n.attribute("class").is_some_and(|c| c.split(' ').any(|c| c == class))
    })
}

const SVG: &str = "http://www.w3.org/2000/svg";

/// What is written; white space around a text is not shown.
fn texts(page: &Document<'_>) -> Vec<String> {
    let all = page.descendants().filter(|n| n.has_tag_name((SVG, "text")));
    all.filter_map(|n| n.text().map(|t| t.trim().to_owned())).collect()
}

/// Places, sorted, of what is drawn.
fn sorted(mut places: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    places.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    places
}

#[rstest]
fn every_sheet_of_the_side_is_drawn_to_scale_and_named(
    #[values("mobile_library", "workshop_bus")] name: &str,
    #[values(Side::Left, Side::Right)] side: Side,
) {
    let build = evaluated(name);
    let svg = side_view(&build, side);
    let page = Document::parse(&svg).unwrap();
    let sheets: Vec<_> = build.skins.sheets.iter().filter(|s| s.side == side).collect();
    let panels: Vec<_> = build.skins.ends.iter().filter(|p| p.side == Some(side) && p.taper_mm.is_none()).collect();
    let labels = texts(&page);
    for sheet in &sheets {
        assert_eq!(labels.iter().filter(|l| **l == sheet.id).count(), 1, "{}", sheet.id);
    }
    for other in build.skins.sheets.iter().filter(|s| s.side != side) {
        assert!(!labels.contains(&other.id), "{} is on the other side", other.id);
    }
    // One millimetre of the bus is one unit of the drawing.
    let sizes = drawn(&page, "rect", "sheet").map(|r| [number(r, "height"), number(r, "width")]).collect();
    let expected = sheets.iter().map(|s| [s.height_mm(), s.length_mm()]);
    let expected = expected.chain(panels.iter().map(|p| [p.height_mm, p.length_mm]));
    // Of a cap the leg that lies on the side, from the end face on.
    let wraps = build
        .skins
        .ends
        .iter()
        .filter_map(|p| p.wrap.as_ref())
        .filter_map(|w| Some([w.upright_mm, w.wing(side)?.end_mm]));
    let expected = expected.chain(wraps).collect();
    let (sizes, expected) = (sorted(sizes), sorted(expected));
    assert_eq!(sizes.len(), expected.len());
    for (size, sheet) in sizes.iter().zip(&expected) {
        assert!(size.iter().zip(sheet).all(|(a, b)| (a - b).abs() <= DRAWN_MM), "{size:?} for {sheet:?}");
    }
    // Triangles beside slopes: three corners and back to the first.
    let cheeks: Vec<_> = drawn(&page, "polyline", "sheet").collect();
    assert_eq!(cheeks.len(), build.skins.ends.iter().filter(|p| p.side == Some(side) && p.taper_mm.is_some()).count());
    for cheek in cheeks {
        let corners: Vec<&str> = cheek.attribute("points").unwrap().split(' ').collect();
        assert_eq!((corners.len(), corners[0]), (4, corners[3]));
    }
}

#[rstest]
fn every_hole_of_the_side_is_drawn_where_it_is(
    #[values("mobile_library", "workshop_bus")] name: &str,
    #[values(Side::Left, Side::Right)] side: Side,
) {
    let build = evaluated(name);
    let svg = side_view(&build, side);
    let page = Document::parse(&svg).unwrap();
    let lines = || build.lines.iter().filter(|l| l.side == Some(side));
    let circles = sorted(drawn(&page, "circle", "hole").map(|c| [number(c, "cx"), number(c, "cy")]).collect());
    assert_eq!(circles.len(), lines().map(|l| l.holes_mm.len()).sum::<usize>());
    assert!(!circles.is_empty());
    // The ground line gives the height of nought, the rear face the station of nought.
    let ground = number(drawn(&page, "line", "ground").next().unwrap(), "y1");
    let cut = drawn(&page, "line", "cut").find(|l| (number(*l, "y1") - ground).abs() > 1.0).unwrap();
    assert!((ground - number(cut, "y1") - build.raise.cut_mm).abs() <= 2.0 * DRAWN_MM);
    // The ground reaches 200 mm beyond the body: from x1 at the rear to x2 at the front.
    let level = drawn(&page, "line", "ground").next().unwrap();
    let (rear, front) = (number(level, "x1"), number(level, "x2"));
    let forward = (front - rear).signum();
    assert!(if side == Side::Left { forward < 0.0 } else { forward > 0.0 }, "the front is left on the left side only");
    assert!(((front - rear).abs() - 400.0 - build.survey.length_mm).abs() <= 2.0 * DRAWN_MM);
    // The cut reaches 60 mm beyond the roof that goes up.
    let (low, high) = build.raise.roof_ends_mm(&build.survey);
    for (at, x) in [("x1", low - 60.0), ("x2", high + 60.0)] {
        assert!((number(cut, at) - (rear + forward * (200.0 + x))).abs() <= 3.0 * DRAWN_MM);
    }
    let expected = lines().flat_map(|l| l.hole_places_mm());
    let expected = expected.map(|(x, z)| [rear + forward * (200.0 + x), ground - z]).collect();
    for (circle, hole) in circles.iter().zip(&pair_up(&circles, expected)) {
        assert!(circle.iter().zip(hole).all(|(a, b)| (a - b).abs() <= 3.0 * DRAWN_MM), "{circle:?} for {hole:?}");
    }
}

/// The holes in the order of the circles nearest to them: rounding may turn the order of two in one column.
fn pair_up(circles: &[[f64; 2]], mut holes: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    let away = |a: &[f64; 2], b: &[f64; 2]| (a[0] - b[0]).hypot(a[1] - b[1]);
    circles
        .iter()
        .map(|circle| {
            let near = (0..holes.len()).min_by(|a, b| away(circle, &holes[*a]).total_cmp(&away(circle, &holes[*b])));
            holes.swap_remove(near.unwrap())
        })
        .collect()
}

#[rstest]
fn the_left_view_mirrors_the_right(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = evaluated(name);
    let [left, right] = Side::BOTH.map(|side| side_view(&build, side));
    let (left, right) = (Document::parse(&left).unwrap(), Document::parse(&right).unwrap());
    assert_eq!(left.root_element().attribute("viewBox"), right.root_element().attribute("viewBox"));
    // Mirrored about the middle of the ground line.
    let ground = drawn(&right, "line", "ground").next().unwrap();
    let twice_middle = number(ground, "x1") + number(ground, "x2");
    let circles = |page: &Document<'_>, class: &str, mirror: bool| {
        let x = |n| if mirror { twice_middle - number(n, "cx") } else { number(n, "cx") };
        drawn(page, "circle", class).map(|n| [x(n), number(n, "cy")]).collect::<Vec<_>>()
    };
    let rectangles = |page: &Document<'_>, class: &str, mirror: bool| {
        let (x, width) = (|n| number(n, "x"), |n| number(n, "width"));
        let start = |n| if mirror { twice_middle - x(n) - width(n) } else { x(n) };
        drawn(page, "rect", class).map(|n| [start(n), number(n, "y")]).collect::<Vec<_>>()
    };
    let pairs = [
        (circles(&left, "hole", true), circles(&right, "hole", false)),
        (circles(&left, "wheel", true), circles(&right, "wheel", false)),
        (rectangles(&left, "sheet", true), rectangles(&right, "sheet", false)),
        (rectangles(&left, "window", true), rectangles(&right, "window", false)),
        (rectangles(&left, "gone", true), rectangles(&right, "gone", false)),
    ];
    for (mirrored, there) in pairs {
        assert_eq!(mirrored.len(), there.len());
        for (a, b) in there.iter().zip(pair_up(&there, mirrored)) {
            assert!(a.iter().zip(&b).all(|(a, b)| (a - b).abs() <= 4.0 * DRAWN_MM), "{a:?} and {b:?}");
        }
    }
}

#[rstest]
#[case("mobile_library", 3.0 * 304.8, "3 ft, to scale")]
#[case("workshop_bus", 1000.0, "1 m, to scale")]
fn the_scale_bar_is_as_long_as_it_says(#[case] name: &str, #[case] length_mm: f64, #[case] words: &str) {
    let svg = side_view(&evaluated(name), Side::Right);
    let page = Document::parse(&svg).unwrap();
    assert!((number(drawn(&page, "rect", "scale").next().unwrap(), "width") - length_mm).abs() <= DRAWN_MM);
    assert!(texts(&page).iter().any(|t| t == words), "{:?}", texts(&page));
}

// All that is drawn and written lies on the page; no two heights are written over each other.
#[rstest]
fn nothing_runs_off_the_page(
    #[values("mobile_library", "workshop_bus")] name: &str,
    #[values(Side::Left, Side::Right)] side: Side,
) {
    let svg = side_view(&evaluated(name), side);
    let page = Document::parse(&svg).unwrap();
    let bounds: Vec<f64> =
        page.root_element().attribute("viewBox").unwrap().split([' ', ',']).map(|n| n.parse().unwrap()).collect();
    let inside = |x: f64, y: f64| (0.0..=bounds[2]).contains(&x) && (0.0..=bounds[3]).contains(&y);
    for node in page.descendants().filter(Node::is_element) {
        for (x, y) in [("x", "y"), ("cx", "cy"), ("x1", "y1"), ("x2", "y2")] {
            if node.has_attribute(x) {
                assert!(inside(number(node, x), number(node, y)), "{node:?}");
            }
        }
    }
    let mut levels: Vec<f64> = drawn(&page, "text", "small")
        .filter(|t| t.attribute("text-anchor") == Some("end"))
        .map(|t| number(t, "y"))
        .collect();
    levels.sort_by(f64::total_cmp);
    assert!(levels.len() >= 6);
    assert!(levels.windows(2).all(|p| p[1] - p[0] >= 76.0), "letters of 76 mm overlap: {levels:?}");
}

/// Text that breaks a page that takes it as it is.
const HOSTILE: &str = r#"<script>alert("x")</script> & ]]> ' <!-- <?x"#;

#[test]
fn a_hostile_name_stays_text() {
    let plan = Plan::read("examples/mobile_library.toml").unwrap();
    let text = toml::Value::from(HOSTILE).to_string();
    let changes = format!(
        "name = {text}\nnotes = {text}\nremoved = [{{ name = {text}, mass = \"1 kg\", x = \"1 m\", z = \"1 m\" }}]\n\
         service.places = [{text}]\nsurvey.exits = [{{ name = {text}, kept = true }}]\n\
         fastening.provenance = {text}\n[catalogue.rows]\nlimit = [{{ place = {text}, name = {text}, height = \"4 m\", \
         date_seen = {text}, source = {text}, standing = \"given by the user\" }}]"
    );
    let hostile = plan.replace(&changes.parse().unwrap()).unwrap();
    let build = hostile.evaluate().unwrap();
    for side in Side::BOTH {
        let svg = side_view(&build, side);
        let page = Document::parse(&svg).unwrap();
        assert!(page.descendants().all(|n| n.tag_name().name() != "script"));
        assert!(page.root_element().attribute("aria-label").unwrap().contains(HOSTILE));
        assert!(texts(&page).iter().any(|t| t.contains(HOSTILE)));
    }
    let comparison = compare(&[(HOSTILE, &hostile), ("plain", &plan)]).unwrap();
    for page in [html::plan(&hostile), html::evaluation(&build), html::comparison(&comparison)] {
        assert!(!page.contains("<script") && !page.contains("<!--") && !page.contains("<?"), "{page}");
        assert!(page.contains("&lt;script&gt;"));
    }
}

#[test]
fn html_is_well_formed() {
    let build = evaluated("workshop_bus");
    for page in [html::evaluation(&build), html::report(&build.joints[0].reports[0])] {
        let read = Document::parse(&page).unwrap();
        assert!(read.root_element().descendants().any(|n| n.has_tag_name("table")));
    }
}
