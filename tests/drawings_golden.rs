//! Drawings beside drawings that were looked at: element by element, places within a fifth of a millimetre, never by bytes.
//!
//! The kept drawings lie in tests/golden/ and open in any browser. `WRITE_GOLDEN=1 cargo test --test suite drawings_golden` writes
//! them anew; look at each before it is committed.

use raisedbody::drawing::drawing;
use roxmltree::{Document, Node};
use rstest::rstest;

use crate::common::evaluated;

/// Places and sizes may differ so much, mm.
const NEAR_MM: f64 = 0.2;

/// What an element is, apart from where.
#[derive(Debug, PartialEq)]
struct Element {
    kind: String,
    numbers: Vec<f64>,
}

fn element(node: Node<'_, '_>) -> Option<Element> {
    let tag = node.tag_name().name();
    let names: &[&str] = match tag {
        "line" => &["x1", "y1", "x2", "y2"],
        "circle" => &["cx", "cy", "r"],
        "rect" => &["x", "y", "width", "height"],
        "text" => &["x", "y", "transform"],
        "polyline" | "polygon" => &["points"],
        _ => return None,
    };
    let text =
        |name: &&str| node.attribute(*name).unwrap_or_default().replace(|c: char| !"0123456789.-e".contains(c), " ");
    let numbers = names.iter().map(text).collect::<Vec<_>>().join(" ");
    let words = if tag == "text" { node.text().unwrap_or_default().trim() } else { "" };
    Some(Element {
        kind: format!("{tag} {} {words}", node.attribute("class").unwrap_or_default()),
        // "rotate" leaves its e behind.
        numbers: numbers.split_whitespace().filter_map(|n| n.parse().ok()).collect(),
    })
}

fn elements(svg: &str) -> Vec<Element> {
    Document::parse(svg).unwrap().descendants().filter_map(element).collect()
}

fn near(a: &Element, b: &Element) -> bool {
    a.kind == b.kind
        && a.numbers.len() == b.numbers.len()
        && a.numbers.iter().zip(&b.numbers).all(|(a, b)| (a - b).abs() <= NEAR_MM)
}

#[rstest]
#[case("mobile_library", "left")]
#[case("mobile_library", "rear")]
#[case("mobile_library", "cross-section")]
#[case("mobile_library", "supports")]
#[case("mobile_library", "frame")]
#[case("mobile_library", "laps right")]
#[case("mobile_library", "blank R-B2")]
#[case("mobile_library", "blank rear cap")]
#[case("mobile_library", "line rub rail, left")]
#[case("mobile_library", "jig J5")]
#[case("mobile_library", "bars inserts")]
#[case("workshop_bus", "right")]
#[case("workshop_bus", "front")]
#[case("workshop_bus", "blank front cheek, left")]
#[case("workshop_bus", "blank rear slope")]
#[case("workshop_bus", "line L-P4")]
fn a_drawing_is_the_one_that_was_looked_at(#[case] example: &str, #[case] name: &str) {
    let svg = drawing(&evaluated(example), name).unwrap().svg;
    let path = format!("tests/golden/{example} {name}.svg");
    if std::env::var_os("WRITE_GOLDEN").is_some() {
        std::fs::write(&path, &svg).unwrap();
    }
    let kept = elements(&std::fs::read_to_string(&path).unwrap());
    let mut drawn = elements(&svg);
    assert!(kept.len() > 15);
    let mut lost = Vec::new();
    for own in &kept {
        match drawn.iter().position(|other| near(own, other)) {
            Some(i) => drop(drawn.swap_remove(i)),
            None => lost.push(own),
        }
    }
    assert!(lost.is_empty() && drawn.is_empty(), "{name}: not drawn any more {lost:#?}, drawn besides {drawn:#?}");
}

// The comparison itself: a part moved by a millimetre or a word changed is found; bytes that mean the same are not.
#[rstest]
#[case(
    r#"<svg><circle class="hole" cx="10" cy="20" r="3"/></svg>"#,
    r#"<svg><circle r="3.0" cy="20.1" cx="10" class="hole"/></svg>"#,
    true
)]
#[case(
    r#"<svg><circle class="hole" cx="10" cy="20" r="3"/></svg>"#,
    r#"<svg><circle class="hole" cx="11" cy="20" r="3"/></svg>"#,
    false
)]
#[case(
    r#"<svg><text class="" x="1" y="2">4 in</text></svg>"#,
    r#"<svg><text class="" x="1" y="2">5 in</text></svg>"#,
    false
)]
fn the_comparison_tells_geometry(#[case] a: &str, #[case] b: &str, #[case] same: bool) {
    let (a, b) = (elements(a), elements(b));
    assert_eq!(a.len(), 1);
    assert_eq!(near(&a[0], &b[0]), same);
}
