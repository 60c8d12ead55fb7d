//! What is printed as text and as HTML says the same, whatever the plan is called, and its rows are those of what it tells.

use raisedbody::body::squareness::{Readings, Squareness, Stage};
use raisedbody::check::Verdict;
use raisedbody::drawing::{cut_day, cut_list, html, measure_up, quote, sweep, text};
use raisedbody::error::Error;
use raisedbody::mechanics::joint::{Demand, Method, Report};
use raisedbody::plan::{Aim, Axis, HardLimit, MeasureUp, Objective, Plan, compare};
use raisedbody::shop::odds::odds;
use roxmltree::{Document, Node};
use rstest::rstest;

use crate::common;

/// A name that would break a page that takes it as it is.
const HOSTILE: &str = "</td> & <b>\"bus\"";

/// An example under that name.
fn plan(example: &str) -> Plan {
    let changes = toml::Table::from_iter([("name".to_owned(), HOSTILE.into())]);
    Plan::read(format!("examples/{example}.toml")).unwrap().replace(&changes).unwrap()
}

/// Without spaces and full stops: columns of text are padded, paragraphs of HTML are sentences.
fn squashed(text: &str) -> String {
    text.split_whitespace().map(|word| word.trim_end_matches('.')).collect()
}

/// The cells, items and paragraphs of a fragment of HTML, each as one text.
fn parts(html: &str) -> Vec<String> {
    let page = format!("<div>{html}</div>");
    let page = Document::parse(&page).unwrap_or_else(|error| panic!("{error}: {html}"));
    let told = |node: &Node<'_, '_>| {
        ["th", "td", "li", "p", "b", "summary", "div", "small"].iter().any(|tag| node.has_tag_name(*tag))
    };
    let leaf = |node: &Node<'_, '_>| told(node) && !node.descendants().skip(1).any(|inner| told(&inner));
    let words = |node: Node<'_, '_>| {
        squashed(&node.descendants().filter(Node::is_text).filter_map(|n| n.text()).collect::<String>())
    };
    page.descendants().filter(leaf).map(words).filter(|own| !own.is_empty()).collect()
}

/// Nothing stands in the HTML that does not stand in the text; `but` is what a page adds.
fn same(text: &str, html: &str, but: &[&str]) {
    let (text, but) = (squashed(text), but.iter().map(|own| squashed(own)).collect::<Vec<_>>());
    let parts = parts(html);
    assert!(parts.len() > 4, "{html}");
    for part in parts {
        assert!(text.contains(&part) || but.contains(&part), "{part} is not in {text}");
    }
}

/// Rows of a table, without its headings.
fn rows(html: &str) -> usize {
    html.matches("<tr><td").count()
}

fn measured() -> (MeasureUp, Squareness) {
    let [before, after] = [Stage::BeforeCut, Stage::AfterLift].map(|stage| plan("mobile_library").measure_up(stage));
    let (before, after) = (before.unwrap(), after.unwrap());
    // As planned, but the whole roof is 9 mm up.
    let expected = |form: &MeasureUp| -> Readings {
        form.readings.iter().filter_map(|own| Some((own.name.clone(), own.expected_mm?))).collect()
    };
    let mut lifted = expected(&after);
    lifted.iter_mut().filter(|(name, _)| name.starts_with("height")).for_each(|(_, mm)| *mm += 9.0);
    let fit = after.fit(&lifted, &expected(&before)).unwrap();
    (after, fit)
}

#[test]
fn a_form_to_fill_in() {
    let (form, _) = measured();
    let (text, fragment) = (measure_up::form_text(&form), measure_up::form_html(&form));
    // Beside its heading the text need not say again what it is that each has.
    let assumed = format!("{} measuring errors assumed:", form.assumed.len());
    let headings = ["entry or default", "value", "standing", "source"];
    same(&text, &fragment.replace("tolerance, ", ""), &[&[assumed.as_str()], &headings[..]].concat());
    assert!(text.contains(HOSTILE));
    // A line and a row for each reading.
    for own in &form.readings {
        assert!(text.contains(&own.name) && fragment.contains(&own.name), "{}", own.name);
    }
    assert_eq!(rows(&fragment), form.readings.len() + form.assumed.len());
    // The page is the fragment with a head.
    let page = measure_up::form_page(&form);
    assert!(page.starts_with("<!DOCTYPE html>") && page.contains(&fragment));
    assert_eq!(page.matches("<title>").count(), 1);
}

#[test]
fn the_same_form_at_another_stage() {
    let (after, _) = measured();
    let before = after.at(Stage::BeforeCut);
    assert_eq!(before, plan("mobile_library").measure_up(Stage::BeforeCut).unwrap());
    assert_ne!(before.readings, after.readings);
    assert_eq!(before.at(Stage::AfterLift), after);
}

#[test]
fn how_square_it_is() {
    let (form, fit) = measured();
    let (text, html) = (measure_up::squareness_text(&form, &fit), measure_up::squareness_html(&form, &fit));
    let readings = format!("{} readings against the fit", fit.residuals.len());
    same(
        &text,
        &html,
        &[&readings, "To move, all together:", "In this order, a little at a time, measuring again after each:"],
    );
    assert!(text.contains(fit.decision().words()) && text.contains(HOSTILE));
    assert_eq!(rows(&html), fit.parameters.len() + fit.moves.len() + fit.residuals.len());
}

fn library_sweep() -> raisedbody::plan::Sweep {
    let axis = |path: &str, values: Vec<toml::Value>| Axis::new(path, values).unwrap();
    // No bus is raised by 4 m.
    let axes = vec![
        axis("skin.gauge", vec![16.into(), 18.into(), 20.into()]),
        axis("raise.height", vec!["300 mm".into(), "400 mm".into(), "4 m".into()]),
    ];
    plan("mobile_library").sweep(axes, |_, _| Ok::<_, Error>(())).unwrap()
}

#[test]
fn a_sweep_and_a_choice() {
    let swept = library_sweep();
    assert!(!swept.is_empty());
    // What changed nothing is the plan itself.
    assert_eq!(swept.base().to_text(), plan("mobile_library").to_text());
    let (span, unknown) = swept.span("skin_mass_kg");
    let masses: Vec<f64> = (0..swept.len()).filter_map(|row| swept.value(row, "skin_mass_kg")).collect();
    let least = masses.iter().copied().fold(f64::INFINITY, f64::min);
    let most = masses.iter().copied().fold(0.0, f64::max);
    assert_eq!(span.map(|own| (own.least, own.most)), Some((least, most)));
    assert_eq!((masses.len(), unknown), (6, 0));
    assert!(least < most);
    // Nothing is known of what is no number of a plan.
    assert_eq!(swept.span("no such number"), (None, 6));
    let text = sweep::sweep(&swept);
    assert!(text.starts_with("9 combinations of skin.gauge (3) x raise.height (3); 3 cannot be\n"), "{text}");
    assert_eq!(text.lines().filter(|line| line.contains('│') && line.contains("skin mass")).count(), 1, "{text}");

    let wanted = |name: &str, aim| Objective { name: name.to_owned(), aim };
    let objectives = vec![wanted("skin_mass_kg", Aim::Least), wanted("headroom_mm", Aim::Most)];
    let thick = HardLimit { name: "sheet_thickness_mm".to_owned(), least: Some(1.0), most: None };
    let choice = swept.choose(objectives, vec![thick]).unwrap();
    let left: usize = choice.left_out().iter().map(|(_, count)| count).sum();
    // None breaks two limits here: each is an option or out for one reason.
    assert_eq!(choice.chosen.len() + left, swept.len());
    let reasons: Vec<String> = choice.left_out().into_iter().map(|(why, _)| why).collect();
    assert_eq!(reasons[..3], ["beaten", "not known", "cannot be"]);
    assert_eq!(reasons[3], "not sheet_thickness_mm ≥ 1");
    let (text, html) = (sweep::choice(&swept, &choice), sweep::choice_html(&swept, &choice));
    same(&text, &html, &["what keeps it from being better"]);
    assert_eq!(rows(&html), choice.chosen.len());
}

// Done, about to begin, a quarter done: three times as long is left.
#[rstest]
#[case(8, 8, 12.4, "8 quotes in 12 s")]
#[case(0, 8, 0.0, "8 quotes")]
#[case(2, 8, 5.0, "2 of 8 quotes, about 15 s left")]
fn how_far_it_is(#[case] done: usize, #[case] of: usize, #[case] seconds: f64, #[case] told: &str) {
    let line = sweep::progress("quotes", done, of, seconds);
    assert_eq!(line.trim(), told);
    // The next line is written over this one, and the last one stays.
    assert!(line.starts_with('\r'));
    assert_eq!(line.ends_with('\n'), done == of);
}

#[test]
fn plans_side_by_side() {
    let library = plan("mobile_library");
    let thick = library.replace(&toml::toml! { [skin] gauge = 16 }).unwrap();
    let both = compare(&[("18", &library), ("16 & more", &thick)]).unwrap();
    same(&text::comparison(&both), &html::comparison(&both), &[]);
    // Every line of either quote once, with what each pays; an order that nobody has a price for is no line.
    let lines = both.lines();
    let totals: Vec<_> = both.quotes.iter().map(|own| own.as_ref().unwrap()).collect();
    assert!(lines.iter().all(|(_, paid)| paid.len() == 2));
    for (i, own) in totals.iter().enumerate() {
        let paid: rust_decimal::Decimal = lines.iter().filter_map(|(_, paid)| paid[i]).sum();
        assert_eq!(paid, own.lines.iter().map(|line| line.amount).sum());
    }
    assert!(lines.iter().any(|(_, paid)| paid[0] != paid[1]));
}

#[test]
fn rule_sets_side_by_side() {
    let lap = common::lap(common::sheet(1.2, 360.0), common::sheet(1.2, 360.0), 4.8, 50.0, 12.0);
    let by = |method: Method| lap.check(Demand { shear_n: 900.0, tension_n: 20.0 }, method).unwrap();
    let reports: Vec<Report> = [Method::En1993_1_3, Method::Handbook].map(by).into();
    let (text, html) = (text::reports(reports.iter()), html::reports(reports.iter()));
    for own in &reports {
        assert!(text.contains(own.method) && html.contains(own.method));
        assert!(text.contains(own.verdict().words()) && html.contains(own.verdict().words()));
    }
    let without_marks = ["✓ ", "✗ ", "⊘ ", "? "].iter().fold(html, |html, mark| html.replace(mark, ""));
    same(&text, &without_marks, &[]);
    assert!(reports.iter().flat_map(|own| &own.checks).all(|check| text.contains(&*check.name)));
}

#[test]
fn cuts_to_choose_from() {
    let cuts = plan("mobile_library").cuts().unwrap();
    let (text, html) = (cut_day::cuts(&cuts), html::cuts(&cuts));
    same(&text, &html, &[]);
    // The best of them, and the plan's own.
    let (possible, shown) = (cuts.ranked().count(), rows(&html));
    assert!((2..=possible).contains(&shown), "{shown} of {possible}");
    assert!(text.contains(&format!("{possible} of {} cuts can be made", cuts.all.len())));
    let own = cuts.own().unwrap().rank.unwrap();
    assert_eq!(html.matches(&format!("<td>{own}, the plan's own</td>")).count(), 1);
    assert_eq!(html.matches("<td>1</td>").count() + usize::from(own == 1), 1);
}

#[test]
fn odds_of_the_price() {
    let build = plan("mobile_library").evaluate().unwrap();
    let (quoted, causes) = (build.quote.as_ref().unwrap(), &build.causes);
    let odds = odds(quoted, causes, (500, 7), |_, _| Ok::<_, Error>(())).unwrap();
    let (text, html) = (quote::odds(&odds), quote::odds_html(&odds));
    same(&text, &html, &[]);
    assert!(text.contains("500 cases") && text.contains("seed 7"));
}

#[test]
fn how_stock_is_cut() {
    let build = plan("mobile_library").evaluate().unwrap();
    let list = &build.cut_list;
    let sheets = list.sheets.as_ref().unwrap();
    let (text, html) = (cut_list::sheets_text(sheets), html::sheet_cuts(sheets));
    // A picture a card; without them the page says what the text does.
    assert_eq!(html.matches("<svg").count(), sheets.cards().len());
    let bare = html.split("<svg").map(|part| part.rsplit("</svg>").next().unwrap()).collect::<String>();
    same(&text, &bare, &["every cut"]);
    let bars = list.inserts.as_ref().unwrap();
    same(&cut_list::bars_text(bars), &html::bar_cuts(bars), &[]);
    assert_eq!(rows(&html::bar_cuts(bars)), bars.cards().len());
}

/// A page within another: what is in it is text to the page around it, and nothing in it runs.
#[test]
fn a_page_in_a_frame() {
    let page = "<p title='a'>5 < 6 & \"more\"</p><script>alert(1)</script>";
    let frame = html::framed("form & <plan>", page);
    let document = Document::parse(&frame).unwrap();
    let root = document.root_element();
    assert_eq!(root.attribute("srcdoc"), Some(page));
    assert_eq!((root.attribute("title"), root.attribute("sandbox")), (Some("form & <plan>"), Some("")));
    assert_eq!(root.descendants().count(), 1);
}

/// Every check that is not one of a joint's has its hand calculation, and so has every report of every joint.
#[test]
fn all_checks_by_hand() {
    let build = plan("workshop_bus").evaluate().unwrap();
    let text = build.explain();
    for own in build.checks.iter().filter(|check| !check.name.starts_with("joint")) {
        assert!(text.contains(&own.explain()), "{}", own.name);
    }
    for joint in &build.joints {
        assert!(joint.reports.iter().all(|own| text.contains(&own.explain())));
    }
    assert!(build.checks.iter().any(|own| own.verdict == Verdict::NotAssessed));
}
