//! The job packet read back as XML: every part is there for both examples, nothing comes from outside, no text of a plan becomes
//! markup, and its tables hold what the evaluation holds.

use std::collections::BTreeSet;

use raisedbody::drawing::{lists, packet};
use raisedbody::plan::{Evaluation, Plan};
use roxmltree::{Document, Node, ParsingOptions};
use rstest::rstest;
use toml::{Table, Value};

fn plan(name: &str) -> Plan {
    Plan::read(format!("examples/{name}.toml")).unwrap()
}

fn page_of(name: &str) -> (Evaluation, String) {
    let plan = plan(name);
    let build = plan.evaluate().unwrap();
    let page = packet(&plan, &build);
    (build, page)
}

fn parsed(page: &str) -> Document<'_> {
    Document::parse_with_options(page, ParsingOptions { allow_dtd: true, ..ParsingOptions::default() }).unwrap()
}

fn text(node: Node<'_, '_>) -> String {
    node.descendants().filter_map(|n| if n.is_text() { n.text() } else { None }).collect()
}

/// The elements under a heading, up to the next heading of its kind.
fn under<'a>(page: &'a Document<'a>, heading: &str) -> Vec<Node<'a, 'a>> {
    let start = page.descendants().find(|n| n.has_tag_name("h3") && text(*n) == heading);
    let start = start.unwrap_or_else(|| panic!("no section {heading}"));
    start.next_siblings().skip(1).take_while(|n| !n.has_tag_name("h3")).filter(Node::is_element).collect()
}

/// The rows of the first table under a heading.
fn rows(page: &Document<'_>, heading: &str) -> Vec<Vec<String>> {
    let own = under(page, heading);
    let body = own.iter().flat_map(Node::descendants).find(|n| n.has_tag_name("tbody"));
    let body = body.unwrap_or_else(|| panic!("no table under {heading}"));
    let cells = |row: Node<'_, '_>| row.children().filter(|n| n.has_tag_name("td")).map(text).collect();
    body.children().filter(|n| n.has_tag_name("tr")).map(cells).collect()
}

const SECTIONS: [&str; 45] = [
    "Verdicts",
    "The main figures",
    "Every check, what fails first",
    "The body before and after",
    "Mass, stability, wind and running cost before and after",
    "What the new height touches",
    "Assumed, common practice or from memory",
    "Questions before the first cut",
    "The wind at which work stops",
    "Supports under the roof",
    "Steps of the lift",
    "Braces of the roof",
    "Keep, lengthen, relocate, close",
    "Emergency exits",
    "Before the first reading",
    "Measure-up before the cut",
    "Measure-up after the lift",
    "Measure-up after tacking",
    "Post inserts by side and post",
    "How the inserts fit",
    "Leaning sides, both ways of raising them",
    "Framed anew behind sheet edges",
    "Posts with their roof bow",
    "Drawings of the body",
    "Order list",
    "What is cut from which sheet",
    "Every cut of the sheets in order",
    "Rests of sheets to keep",
    "Bars for the inserts",
    "Bars behind sheet edges",
    "Sheets and end panels",
    "Laps: which sheet lies over which",
    "Blanks that are cut alike",
    "Rivet lines",
    "Drilling jigs",
    "Drilling tables",
    "Hanging order",
    "Weathertight stop points",
    "Hours by task",
    "Quote by stage",
    "Quote line by line",
    "The body as built",
    "Weighed again",
    "Checks",
    "Joints, by every rule set",
];

#[rstest]
fn every_section_is_there_and_says_something(#[values("mobile_library", "workshop_bus")] name: &str) {
    let (_, page) = page_of(name);
    let page = parsed(&page);
    for section in SECTIONS {
        let own = under(&page, section);
        let said = own.iter().any(|n| !text(*n).trim().is_empty());
        let shown = own.iter().flat_map(Node::descendants).any(|n| n.has_tag_name("img"));
        assert!(said || shown, "nothing under {section}");
    }
}

#[rstest]
fn the_table_of_contents_leads_to_every_heading(#[values("mobile_library", "workshop_bus")] name: &str) {
    let (_, page) = page_of(name);
    let page = parsed(&page);
    let ids: Vec<&str> = page.descendants().filter_map(|n| n.attribute("id")).collect();
    let links: Vec<&str> = page.descendants().filter_map(|n| n.attribute("href")).collect();
    let wanted: Vec<String> = ids.iter().map(|id| format!("#{id}")).collect();
    assert_eq!(links, wanted, "each heading once, in order");
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
    assert!(page.descendants().filter(|n| n.has_tag_name("h3")).all(|n| n.has_attribute("id")));
}

/// Elements and attributes of a page that runs nothing and asks for nothing.
const ELEMENTS: &str = "html head meta title style body h1 h2 h3 h4 p b i sub sup small div span section nav ol ul li a table thead tbody \
                        tr th td figure img";
const ATTRIBUTES: &str = "lang charset http-equiv content name id class href alt src";

fn harmless(page: &Document<'_>) {
    let elements: BTreeSet<&str> = ELEMENTS.split_whitespace().collect();
    let attributes: BTreeSet<&str> = ATTRIBUTES.split_whitespace().collect();
    for node in page.descendants().filter(Node::is_element) {
        assert!(elements.contains(node.tag_name().name()), "{node:?}");
        for attribute in node.attributes() {
            assert!(attributes.contains(attribute.name()), "{attribute:?} on {node:?}");
        }
        if let Some(href) = node.attribute("href") {
            assert!(href.starts_with("#s"), "{href}");
        }
        if let Some(src) = node.attribute("src") {
            let svg = percent_decoded(src.strip_prefix("data:image/svg+xml;charset=utf-8,").unwrap());
            let picture = Document::parse(&svg).unwrap();
            assert!(picture.root_element().has_tag_name(("http://www.w3.org/2000/svg", "svg")));
            assert!(
                picture
                    .descendants()
                    .all(|n| !matches!(n.tag_name().name(), "script" | "image" | "foreignObject" | "a"))
            );
        }
    }
    let policy = page.descendants().find(|n| n.attribute("http-equiv") == Some("Content-Security-Policy")).unwrap();
    assert!(policy.attribute("content").unwrap().starts_with("default-src 'none'"));
    let style = page.descendants().find(|n| n.has_tag_name("style")).map(text).unwrap();
    assert!(!style.contains("url(") && !style.contains("@import"));
}

/// As a browser reads it (WHATWG URL, percent-decode).
fn percent_decoded(text: &str) -> String {
    let mut bytes = Vec::new();
    let mut rest = text.as_bytes();
    while let [first, tail @ ..] = rest {
        rest = tail;
        match (first, tail) {
            (b'%', [a, b, tail @ ..]) => {
                bytes.push(u8::from_str_radix(std::str::from_utf8(&[*a, *b]).unwrap(), 16).unwrap());
                rest = tail;
            }
            (b'#', _) => panic!("an address ends at a hash"),
            _ => bytes.push(*first),
        }
    }
    String::from_utf8(bytes).unwrap()
}

#[rstest]
fn nothing_runs_and_nothing_comes_from_outside(#[values("mobile_library", "workshop_bus")] name: &str) {
    let (_, page) = page_of(name);
    harmless(&parsed(&page));
    assert!(!page.contains("NaN") && !page.contains("inf "));
}

/// Text that breaks a page that takes it as it is, a control character and a mark of direction with it.
const HOSTILE: &str =
    "\"'><script>alert(1)</script><img src=x onerror=alert(1)></td></table>&#60;b&#62; ]]> <!-- <?x \u{1} \u{202E}";
/// What is left of it: a page has no place for control characters.
const SHOWN: &str =
    "\"'><script>alert(1)</script><img src=x onerror=alert(1)></td></table>&#60;b&#62; ]]> <!-- <?x  \u{202E}";

/// Every text that a planner is free in, with the hostile text after it, and how many there are.
fn spoilt(value: &mut Value, path: &str, count: &mut usize) {
    let key = path.rsplit('.').next().unwrap_or_default();
    let free = ["name", "note", "notes", "supplier", "cut_to_size_by", "provenance"].contains(&key)
        || ["quote.to", "quote.from", "quote.number", "quote.excluded", "quote.terms"].contains(&path);
    match value {
        Value::String(text) if free => {
            text.push_str(HOSTILE);
            *count += 1;
        }
        Value::Array(items) => items.iter_mut().for_each(|item| spoilt(item, path, count)),
        Value::Table(table) => {
            for (key, value) in table.iter_mut() {
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                // Lines of a quote are named again where their odds are told.
                if path != "odds" && path != "prices.trades" {
                    spoilt(value, &path, count);
                }
            }
        }
        _ => {}
    }
}

#[test]
fn hostile_text_in_every_free_field_stays_text() {
    let mut table: Value = plan("mobile_library").table().clone().into();
    let mut count = 0;
    spoilt(&mut table, "", &mut count);
    assert!(count > 50, "{count}");
    let Value::Table(table) = table else { panic!("a plan is a table") };
    let hostile = Plan::from_text(&table.to_string(), ".".as_ref()).unwrap();
    let build = hostile.evaluate().unwrap();
    let page = packet(&hostile, &build);
    let page = parsed(&page);
    harmless(&page);
    // Each of them is shown as it was written.
    let told = text(page.root_element());
    for name in [
        "Travelling library",
        "A rural cooperative turns a retired 9-window bus into a mobile library. All figures are invented.",
        "marker lamp wires, rear left post",
        "crib rear left",
        "bar left",
        "sheet yard",
        "rub rail, left",
        "epoxy primer",
        "letter with the plan attached",
        "shelves, counter and battery bank: the cooperative fits them",
        "blades, discs, rags",
    ] {
        assert!(told.contains(&format!("{name}{SHOWN}")), "{name}");
    }
    let whole = parsed_text(&build, "mobile_library");
    assert_eq!(page.descendants().filter(|n| n.has_tag_name("table")).count(), whole, "no table was closed or opened");
}

/// How many tables the same plan has without the hostile text.
fn parsed_text(hostile: &Evaluation, name: &str) -> usize {
    let (build, page) = page_of(name);
    assert_eq!(hostile.checks.len(), build.checks.len());
    let page = parsed(&page);
    page.descendants().filter(|n| n.has_tag_name("table")).count()
}

#[rstest]
#[case("Supports under the roof", "The plan has no lift")]
#[case("The wind at which work stops", "no stop-work wind")]
#[case("Every cut of the sheets in order", "no stock of sheets")]
#[case("Rests of sheets to keep", "No rest")]
#[case("End caps", "says nothing of end caps")]
#[case("Lines over old holes", "no lines of old holes")]
#[case("Weathertight stop points", "The plan has no crew")]
#[case("Every task day by day", "no crew")]
#[case("Quote line by line", "No prices in the plan.")]
fn what_a_plan_is_without_is_said(#[case] section: &str, #[case] words: &str) {
    let (_, page) = page_of("workshop_bus");
    let page = parsed(&page);
    let told: String = under(&page, section).into_iter().map(text).collect();
    assert!(told.contains(words), "{told}");
}

#[rstest]
fn tables_hold_what_the_evaluation_holds(#[values("mobile_library", "workshop_bus")] name: &str) {
    let (build, page) = page_of(name);
    let page = parsed(&page);
    let checks = rows(&page, "Every check, what fails first");
    assert_eq!(checks.len(), build.checks.len());
    let worst = ["fails", "outside the rule's range", "not assessed", "passes"];
    let ranks: Vec<usize> = checks.iter().map(|row| worst.iter().position(|w| *w == row[0]).unwrap()).collect();
    assert!(ranks.is_sorted(), "what fails first");
    assert_eq!(rows(&page, "Keep, lengthen, relocate, close").len(), build.ledger.len());
    // Nothing is ticked or filled in beforehand.
    let inserts = rows(&page, "Post inserts by side and post");
    assert_eq!(inserts.len(), build.splices.posts.len());
    for (row, post) in inserts.iter().zip(&build.splices.posts) {
        assert_eq!([&row[0], &row[1], &row[7]], ["", &post.insert.id, ""]);
    }
    let hung: Vec<String> = rows(&page, "Hanging order").into_iter().map(|row| row[2].clone()).collect();
    assert_eq!(hung, build.hanging_order.iter().map(|own| own.sheet.clone()).collect::<Vec<_>>());
    let reads = under(&page, "Measure-up after the lift");
    let reads = reads.iter().flat_map(Node::descendants).filter(|n| n.attribute("class") == Some("fill wide")).count();
    let form = plan(name).measure_up("after lift".parse().unwrap()).unwrap();
    assert_eq!(
        reads,
        form.readings.len() + 4,
        "a blank for each reading, and for when, who, with what, and the weather"
    );
    let ordered: usize = under(&page, "Order list")
        .iter()
        .filter(|n| n.has_tag_name("table"))
        .map(|n| n.descendants().filter(|n| n.has_tag_name("tr")).count() - 1)
        .sum();
    assert_eq!(ordered, build.order.len());
    let joints = build.joints.iter().flat_map(|joint| &joint.reports).map(|report| report.checks.len()).sum::<usize>();
    let others = build.checks.iter().filter(|check| !check.name.starts_with("joint")).count();
    let calculations = page.descendants().filter(|n| n.has_tag_name("section") && !n.has_attribute("class")).count();
    assert_eq!(calculations, joints + others, "a hand calculation for each check");
}

#[rstest]
fn lists_hold_the_quantities_of_takeoff_order_and_quote(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = plan(name).evaluate().unwrap();
    let list = |name: &str| lists::list(&build, name).unwrap();
    let counted = |name: &str, column: usize| -> usize {
        list(name).rows.iter().map(|row| row[column].parse::<usize>().unwrap()).sum()
    };
    assert_eq!(counted("blanks", 0), build.takeoff.sheets);
    assert_eq!(list("sheets").rows.len(), build.takeoff.sheets);
    assert_eq!(list("hanging order").rows.len(), build.takeoff.sheets);
    assert_eq!(counted("rivet lines", 3), build.lines.iter().map(|line| line.holes_mm.len()).sum::<usize>());
    assert_eq!(counted("rivets", 2), build.takeoff.rivets);
    assert_eq!(list("drilling").rows.len(), build.drilling.holes.len());
    let hours: f64 = list("hours").rows.iter().map(|row| row[3].parse::<f64>().unwrap()).sum();
    assert!((hours - build.hours()).abs() <= 0.05 * build.tasks.len() as f64 + 1e-9, "to a tenth of an hour each");
    let order = list("order");
    for (row, line) in order.rows.iter().zip(&build.order) {
        let quantity: f64 = row[2].parse().unwrap();
        assert!((quantity - line.quantity).abs() <= 5e-5 * line.quantity, "five digits: {row:?}");
    }
    let quote = list("quote");
    let total: f64 = quote.numbers.iter().flat_map(|(_, values)| values).map(|value| value.unwrap()).sum();
    let wanted = build.quote.as_ref().map_or(0.0, |quote| quote.total.to_string().parse().unwrap());
    assert!((total - wanted).abs() < 0.005, "{total} and {wanted}");
}

#[test]
fn notes_without_a_table_are_no_list() {
    let build = plan("workshop_bus").evaluate().unwrap();
    let problem = lists::list(&build, "blank").unwrap_err().to_string();
    assert_eq!(problem, "list: unknown list \"blank\"; did you mean \"blanks\"?");
    let empty: Table = lists::lists(&build)
        .into_iter()
        .filter(|list| list.rows.is_empty())
        .map(|list| (list.name.to_owned(), list.empty.into()))
        .collect();
    assert!(empty.contains_key("quote") && empty.contains_key("braces") && !empty.contains_key("order"));
}
