//! Lines over old holes in a plan: on top of what is set out, or in place of a rivet line's even holes. Plans are invented.

use raisedbody::body::takeoff::OldHoles;
use raisedbody::drawing::{html, text};
use raisedbody::mechanics::hole_line::SetOut;
use raisedbody::plan::{Evaluation, Plan};
use raisedbody::{Error, error::Placed};
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");

fn lying_on(entry: &str) -> String {
    let old = "side = \"left\"\nholes = [";
    assert!(LIBRARY.contains(old));
    LIBRARY.replace(old, &format!("side = \"left\"\nlies_on = {entry}\nholes = ["))
}

fn evaluated(text: &str) -> Evaluation {
    Plan::from_text(text, ".".as_ref()).unwrap().evaluate().unwrap()
}

fn without() -> Evaluation {
    let from = LIBRARY.find("[[hole_line]]").unwrap();
    let to = LIBRARY.find("[service]").unwrap();
    evaluated(&format!("{}{}", &LIBRARY[..from], &LIBRARY[to..]))
}

fn hours(build: &Evaluation, name: &str) -> (f64, f64) {
    build.tasks.iter().filter(|task| task.name == name).fold((0.0, 0.0), |(n, h), t| (n + t.quantity, h + t.hours))
}

fn ordered(build: &Evaluation, item: &str) -> f64 {
    build.order.iter().filter(|line| line.item.starts_with(item)).map(|line| line.quantity).sum()
}

#[test]
fn a_line_of_its_own_comes_on_top() {
    let (build, plain) = (evaluated(LIBRARY), without());
    let plan = &build.old_lines[0].plan;
    let (all, new, plugs) = (plan.holes.len(), plan.cost.new_holes, plan.cost.plugs);
    assert!(plugs > 0 && new > 0, "the example has both");
    assert_eq!(build.takeoff.old_holes, OldHoles { drilled: new, riveted: all, plugged: plugs });
    assert_eq!(plain.takeoff.old_holes, OldHoles::default());
    assert_eq!(build.takeoff.rivets, plain.takeoff.rivets);
    // An old hole in metal that stays is there: it is not drilled, but riveted.
    for (name, more) in [("drill and deburr holes", new), ("set rivets", all), ("plug old holes", plugs)] {
        assert_eq!(hours(&build, name).0 - hours(&plain, name).0, more as f64, "{name}");
    }
    // By hand: 25 s a hole, 30 s a rivet, 2 min a plug.
    let by_hand = (new * 25 + all * 30 + plugs * 120) as f64 / 3600.0;
    assert!((build.hours() - plain.hours() - by_hand).abs() < 1e-9);
    assert!(build.assumed.iter().any(|a| a.field == "shop.plug_time" && a.value == "2 min"));
    assert!(!plain.assumed.iter().any(|a| a.field == "shop.plug_time"));
    assert_eq!(ordered(&build, "plugs"), plugs as f64);
    assert!(!build.checks.iter().any(|check| check.name.contains("space, old hole line")));
    let schedule = build.schedule.as_ref().unwrap();
    assert!(schedule.job().tasks.iter().any(|task| task.name == "plug old holes, rub rail, left"));
}

// Prices invented: a rivet of 1 USD, a plug of 3 USD.
#[test]
fn it_has_its_price() {
    let from = LIBRARY.find("[prices]").unwrap();
    let priced = |plug: &str| evaluated(&format!("{}[prices]\nrivet = \"1 USD\"\n{plug}", &LIBRARY[..from]));
    let build = priced("plug = \"3 USD\"\n");
    let quote = build.quote.as_ref().unwrap();
    let line = |name: &str| quote.lines.iter().find(|line| line.name == name).unwrap().amount.to_string();
    assert_eq!(line("plugs"), format!("{}.00", 3 * build.takeoff.old_holes.plugged));
    let rivets = build.takeoff.rivets_ordered + build.takeoff.old_line_rivets_ordered;
    assert_eq!((line("rivets, spares included"), ordered(&build, "rivets")), (format!("{rivets}.00"), rivets as f64));
    let open = priced("").quote.unwrap().open_items;
    assert!(open.contains(&"plugs".to_owned()), "{open:?}");
}

#[test]
fn a_line_on_a_rivet_line_takes_its_place() {
    let (build, plain) = (evaluated(&lying_on("{ line = \"L-bottom 1\", from = \"100 mm\" }")), without());
    let line = |e: &Evaluation| e.lines.iter().find(|line| line.id == "L-bottom 1").unwrap().clone();
    let (relaid, even) = (line(&build), line(&plain));
    let old = &build.old_lines[0];
    let plugged = old.plan.cost.plugs;
    assert_eq!(build.takeoff.old_holes, OldHoles { plugged, ..OldHoles::default() });
    assert_eq!(ordered(&build, "plugs"), plugged as f64);
    // Every hole of the new line is there, or is that of a post within half the smallest pitch of 2 in.
    let posts: Vec<f64> = build.survey.posts_mm.iter().map(|x| x - relaid.from_mm.0).collect();
    for hole in &old.plan.holes {
        let mm = hole.along_mm - 10.0 + 100.0;
        let at_post = posts.iter().any(|post| (post - mm).abs() < 25.4);
        let there = relaid.holes_mm.iter().filter(|own| (**own - mm).abs() < 1e-6).count();
        assert_eq!(there, usize::from(!at_post), "{mm}");
    }
    // Beyond the stretch the even holes stay; within there is none.
    let (from_mm, to_mm) = (100.0 - 25.4, 100.0 + 2301.0 + 25.4);
    let beyond = |holes: &[f64]| holes.iter().filter(|mm| **mm < from_mm || **mm > to_mm).count();
    assert_eq!(beyond(&relaid.holes_mm), even.holes_mm.iter().filter(|mm| **mm > to_mm + 25.4).count());
    let at_post = |mm: f64| posts.iter().any(|post| (post - mm).abs() < 25.4);
    let kept = old.plan.holes.iter().filter(|hole| !at_post(hole.along_mm + 90.0)).count();
    assert_eq!(relaid.holes_mm.len() - beyond(&relaid.holes_mm), kept);
    assert!(relaid.holes_mm.windows(2).all(|pair| pair[0] < pair[1]));
    // All else is as without it: counted once in rivets, hours, stacks and the drilling table.
    let more = relaid.holes_mm.len() as f64 - even.holes_mm.len() as f64;
    assert_eq!(build.takeoff.rivets as f64 - plain.takeoff.rivets as f64, more);
    assert_eq!(hours(&build, "set rivets").0, build.takeoff.rivets as f64);
    let stacked: usize = build.rivet_lots.iter().map(|lot| lot.stacked.holes).sum();
    assert_eq!(stacked, build.takeoff.rivets);
    let table: Vec<_> = build.drilling.holes.iter().filter(|hole| hole.line == "L-bottom 1").collect();
    assert_eq!(table.len(), relaid.holes_mm.len());
    let used = old.plan.holes.iter().filter(|hole| hole.old.is_some()).count();
    let told = table.iter().filter(|hole| matches!(hole.by, SetOut::Old(_))).count();
    assert!(told > 0 && told <= used, "{told} of {used}");
    assert!(!build.drilling.holes.iter().any(|hole| hole.line == old.name));
    assert_eq!(build.drilling.holes.len(), build.takeoff.rivets);
    // The spacing that the joint is checked for is that of the new holes too.
    assert!(relaid.pitch_mm <= 5.0 * 25.4 + 25.4 && relaid.pitch_mm > 0.0);
    // Smallest and largest space, posts' holes counted in, against 2 and 5 in.
    let mut all: Vec<f64> = relaid.holes_mm.iter().chain(&posts).copied().collect();
    all.retain(|mm| (from_mm..=to_mm).contains(mm));
    all.sort_by(f64::total_cmp);
    let spaces: Vec<f64> = all.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let check = |name: &str| build.checks.iter().find(|check| check.name == name).unwrap();
    let (small, large) = (check("smallest space, old hole line"), check("largest space, old hole line"));
    assert!((small.capacity.unwrap() - spaces.iter().copied().fold(f64::INFINITY, f64::min)).abs() < 1e-6);
    assert!((large.demand.unwrap() - spaces.iter().copied().fold(0.0, f64::max)).abs() < 1e-6);
    assert!((small.demand.unwrap() - 50.8).abs() < 1e-9 && (large.capacity.unwrap() - 127.0).abs() < 1e-9);
    assert!((build.schedule.as_ref().unwrap().person_hours() - build.hours()).abs() < 1e-6);
}

// On a post the holes at both ends are the post's own: the old ones there stand in for them.
#[test]
fn on_a_post_its_ends_stay() {
    let on_post = |id: &str| {
        let post = without().lines.into_iter().find(|line| line.id == id).unwrap();
        let text = lying_on(&format!("{{ line = \"{id}\", from = \"0 mm\" }}"));
        let text = text.replace("to = \"2311 mm\"", &format!("to = \"{} mm\"", post.length_mm() + 10.0));
        (evaluated(&text), post)
    };
    let (build, even) = on_post("L-P3");
    let post = build.lines.iter().find(|line| line.id == "L-P3").unwrap();
    assert_eq!((post.holes_mm.first(), post.holes_mm.last()), (even.holes_mm.first(), even.holes_mm.last()));
    assert!(build.assumed.iter().all(|a| a.field != "hole_line[0].lies_on.from"));
    // The drill goes where the old hole is.
    let first = build.drilling.holes.iter().find(|hole| hole.line == "L-P3").unwrap();
    assert_eq!((first.by, first.along_mm), (SetOut::Old(0), 2.0));
}

#[test]
fn where_it_starts_is_listed() {
    let build = evaluated(&lying_on("{ line = \"L-bottom 1\" }"));
    let a = build.assumed.iter().find(|a| a.field == "hole_line[0].lies_on.from").unwrap();
    assert_eq!((a.value.as_str(), a.source.as_str()), ("0 mm", "both lines start together"));
}

#[test]
fn cuts_are_counted_alike() {
    for text in [LIBRARY.to_owned(), lying_on("{ line = \"L-bottom 1\" }")] {
        let plan = Plan::from_text(&text, ".".as_ref()).unwrap();
        let own = plan.cuts().unwrap().own().unwrap().figures.unwrap();
        let build = plan.evaluate().unwrap();
        let tasks = build.tasks.iter().filter(|task| !task.name.starts_with("cut "));
        assert!((own.labour_h - tasks.map(|task| task.hours).sum::<f64>()).abs() < 1e-9);
    }
}

#[rstest]
#[case(
    "{ line = \"L-botom 1\" }",
    "hole_line[0].lies_on.line",
    "unknown rivet line \"L-botom 1\"; did you mean \"L-bottom 1\"?"
)]
#[case(
    "{ line = \"R-bottom 1\" }",
    "hole_line[0].lies_on.line",
    "this line is on the right side, the old holes are on the left"
)]
#[case("{ line = \"L-P3\" }", "hole_line[0].lies_on.from", "would end 2301 mm along L-P3, which is")]
#[case("{ line = \"L-bottom 1\", from = \"-1 mm\" }", "hole_line[0].lies_on.from", "out of range")]
fn what_lies_nowhere_is_refused(#[case] entry: &str, #[case] path: &str, #[case] told: &str) {
    let Err(Error::Input(problems)) = Plan::from_text(&lying_on(entry), ".".as_ref()) else { panic!("{entry}") };
    let words: Vec<String> = problems.iter().map(Placed::to_string).collect();
    assert!(problems.iter().any(|p| p.problem.path() == path && p.to_string().contains(told)), "{words:#?}");
}

#[test]
fn one_rivet_line_takes_one_line_of_old_holes() {
    let text = lying_on("{ line = \"L-bottom 1\" }");
    let (from, to) = (text.find("[[hole_line]]").unwrap(), text.find("[service]").unwrap());
    let again = text[from..to].replace("name = \"rub rail, left\"", "name = \"the same again\"");
    let text = format!("{}{again}{}", &text[..to], &text[to..]);
    let Err(error) = Plan::from_text(&text, ".".as_ref()) else { panic!("twice") };
    assert!(error.to_string().contains("hole_line[1].lies_on.line: L-bottom 1: another line of old holes"), "{error}");
}

// Every line with holes, every jig and the bits are on paper.
#[rstest]
#[case(evaluated(LIBRARY))]
#[case(evaluated(&lying_on("{ line = \"L-bottom 1\" }")))]
fn every_hole_is_printed(#[case] build: Evaluation) {
    let (page, told) = (html::evaluation(&build), text::evaluation(&build));
    for shown in [&page, &told] {
        for line in build.lines.iter().filter(|line| !line.holes_mm.is_empty()) {
            assert!(shown.contains(&format!("{}: {}, starts", line.id, line.kind.words())), "{}", line.id);
        }
        for jig in 1..=build.drilling.jigs.len() {
            assert!(shown.contains(&format!("jig J{jig}: ")), "J{jig}");
            assert!(shown.contains(&format!("; J{jig} indexed at")), "J{jig}");
        }
        assert!(shown.contains("pilot bits of 1/8 in") && shown.contains("old hole 1"));
    }
    let holes = build.drilling.holes.len() + build.drilling.jigs.iter().map(|jig| jig.places.len()).sum::<usize>();
    let section = &page[page.find("class=\"holes\"").unwrap()..page.find("hanging order and schedule").unwrap()];
    let heads = section.matches("<thead>").count();
    assert_eq!(section.matches("<tr>").count(), holes + heads);
    assert!(page.contains("@media print"));
}
