//! The day of the cut: the ledger of what the cut goes through, emergency exits, the gate. No published source: geometry, and
//! the calendar (Gregorian, ISO 8601).

use proptest::prelude::*;
use raisedbody::Error;
use raisedbody::body::ledger::{Action, Item, ItemKind, Relation, Wish};
use raisedbody::check::{Check, Verdict};
use raisedbody::plan::{Evaluation, GateState, Plan};
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

fn changed(base: &str, changes: &str) -> Result<Plan, Error> {
    Plan::from_text(base, ".".as_ref()).unwrap().replace(&changes.parse().unwrap())
}

fn build(base: &str, changes: &str) -> Evaluation {
    changed(base, changes).unwrap().evaluate().unwrap()
}

fn problems(base: &str, changes: &str) -> Vec<(String, String)> {
    let Error::Input(found) = changed(base, changes).unwrap_err() else { panic!("no input error") };
    found.iter().map(|at| (at.problem.path().to_owned(), at.to_string())).collect()
}

fn item(kind: ItemKind, bottom_mm: f64, top_mm: f64) -> Item {
    Item { name: "thing".to_owned(), kind, bottom_mm, top_mm, in_raised_part: true, slack_mm: 0.0, wish: None }
}

const CUT: f64 = 2000.0;
const RISE: f64 = 400.0;

// Where a thing lies decides, and the planner's wish where it can.
#[rstest]
#[case(item(ItemKind::Wires, 1100.0, 2700.0), Relation::Crosses, Action::Lengthen { by_mm: 400.0 })]
#[case(Item { slack_mm: 60.0, ..item(ItemKind::Hose, 1100.0, 2700.0) }, Relation::Crosses, Action::Lengthen { by_mm: 340.0 })]
#[case(Item { slack_mm: 400.0, ..item(ItemKind::Duct, 1100.0, 2700.0) }, Relation::Crosses, Action::Keep)]
#[case(Item { wish: Some(Wish::Lengthen), slack_mm: 500.0, ..item(ItemKind::Duct, 0.0, 2700.0) }, Relation::Crosses, Action::Keep)]
#[case(Item { wish: Some(Wish::Keep), slack_mm: 500.0, ..item(ItemKind::Duct, 0.0, 2700.0) }, Relation::Crosses, Action::Keep)]
#[case(Item { wish: Some(Wish::Relocate), ..item(ItemKind::Fitting, 1900.0, 2100.0) }, Relation::Crosses, Action::Relocate)]
#[case(Item { wish: Some(Wish::Close), ..item(ItemKind::Hatch, 2500.0, 2900.0) }, Relation::Deleted, Action::Close)]
#[case(item(ItemKind::Lamp, 2700.0, 2700.0), Relation::Moves, Action::Keep)]
#[case(item(ItemKind::Lamp, 2000.0, 2000.0), Relation::Stays, Action::Keep)]
#[case(item(ItemKind::Wires, 900.0, 2000.0), Relation::Stays, Action::Keep)]
#[case(Item { in_raised_part: false, ..item(ItemKind::Wires, 900.0, 2800.0) }, Relation::Stays, Action::Keep)]
fn one_action_each(#[case] item: Item, #[case] relation: Relation, #[case] action: Action) {
    let entry = item.entry(CUT, RISE, "ledger[0]").unwrap();
    assert_eq!((entry.relation, entry.action), (Some(relation), Some(action)));
}

#[rstest]
#[case::torn(Item { wish: Some(Wish::Keep), slack_mm: 60.0, ..item(ItemKind::Wires, 0.0, 2700.0) }, "340 mm lack")]
#[case::cut_in_two(Item { wish: Some(Wish::Keep), ..item(ItemKind::Fitting, 1900.0, 2100.0) }, "relocate it or close it")]
#[case::not_said(item(ItemKind::Fitting, 1900.0, 2100.0), "write action")]
#[case::stiff(Item { wish: Some(Wish::Lengthen), ..item(ItemKind::Fitting, 1900.0, 2100.0) }, "cannot be made longer")]
#[case::stays(Item { wish: Some(Wish::Lengthen), ..item(ItemKind::Wires, 900.0, 1900.0) }, "stays")]
fn what_cannot_be_is_refused(#[case] item: Item, #[case] words: &str) {
    let problem = item.entry(CUT, RISE, "ledger[0]").unwrap_err();
    assert_eq!(problem.path(), "ledger[0].action");
    assert!(problem.to_string().contains(words), "{problem}");
}

fn any_item() -> impl Strategy<Value = Item> {
    let kinds = prop_oneof![
        Just(ItemKind::Wires),
        Just(ItemKind::Hose),
        Just(ItemKind::Duct),
        Just(ItemKind::Hatch),
        Just(ItemKind::Alarm),
        Just(ItemKind::Lamp),
        Just(ItemKind::Fitting),
    ];
    let wishes = prop_oneof![
        Just(None),
        Just(Some(Wish::Lengthen)),
        Just(Some(Wish::Relocate)),
        Just(Some(Wish::Keep)),
        Just(Some(Wish::Close)),
    ];
    (kinds, 0.0..4000.0f64, 0.0..3000.0f64, any::<bool>(), 0.0..800.0f64, wishes).prop_map(
        |(kind, bottom_mm, tall_mm, in_raised_part, slack_mm, wish)| Item {
            name: "thing".to_owned(),
            kind,
            bottom_mm,
            top_mm: bottom_mm + tall_mm,
            in_raised_part,
            slack_mm,
            wish,
        },
    )
}

proptest! {
    // Every item has exactly one action or a reason why it has none; nothing that the raise tears stays as it is.
    #[test]
    fn every_item_has_one_action(item in any_item(), cut in 1000.0..3000.0f64, rise in 50.0..1000.0f64) {
        match item.entry(cut, rise, "ledger[0]") {
            Ok(entry) => {
                let (relation, action) = (entry.relation.unwrap(), entry.action.unwrap());
                prop_assert_eq!(relation == Relation::Deleted, action == Action::Close);
                if let Action::Lengthen { by_mm } = action {
                    prop_assert!(relation == Relation::Crosses && item.kind.runs());
                    prop_assert!(by_mm > 0.0 && (by_mm + item.slack_mm - rise).abs() < 1e-9);
                }
                if relation == Relation::Crosses && action == Action::Keep {
                    prop_assert!(item.slack_mm >= rise);
                }
            }
            Err(problem) => prop_assert!(item.wish.is_some() || !item.kind.runs(), "{problem}"),
        }
    }
}

fn named<'a>(build: &'a Evaluation, name: &str) -> Vec<&'a Check> {
    build.checks.iter().filter(|c| c.name == name).collect()
}

// The example's ledger: every line an action, as many windows as the bus has.
#[test]
fn the_examples_ledger() {
    let build = build(LIBRARY, "");
    assert!(build.ledger.iter().all(|line| line.action.is_some()));
    let action = |name: &str| build.ledger.iter().find(|l| l.name.starts_with(name)).unwrap().action.unwrap();
    assert_eq!(action("windows 1 to 9, both sides"), Action::Close);
    assert_eq!(action("marker lamp wires"), Action::Lengthen { by_mm: 340.0 });
    assert_eq!(action("roof heater hose"), Action::Keep);
    // A window exit that the cut goes through is made anew.
    assert_eq!(action("side window 4"), Action::Relocate);
    assert_eq!(named(&build, "ledger of the cut")[0].verdict, Verdict::Passes);
    // Nothing listed, or an exit whose heights are not known: not assessed.
    let none = named(&self::build(LIBRARY, "ledger = []"), "ledger of the cut")[0].clone();
    assert!(none.verdict == Verdict::NotAssessed && none.reason.unwrap().contains("behind the ceiling"));
    let exit = "survey.exits = [{ name = \"side door\", kept = true, place = \"left\" }]";
    let open = named(&self::build(LIBRARY, exit), "ledger of the cut")[0].clone();
    assert!(open.verdict == Verdict::NotAssessed && open.reason.unwrap().contains("side door"));
}

// Only the raised part is lifted: beside it things stay; what does not say where it is stays open.
#[test]
fn beside_the_raised_part_things_stay() {
    let line = |more: &str| {
        let item = format!("{{ name = \"wires\", kind = \"wires\", bottom = \"1 m\", top = \"2.7 m\"{more} }}");
        let part = "raise = { ends = \"stepped\", first_post = 2, last_post = 6 }";
        let build = build(LIBRARY, &format!("ledger = [{item}]\n{part}"));
        let check = named(&build, "ledger of the cut")[0].verdict;
        (build.ledger.into_iter().find(|l| l.name == "wires").unwrap(), check)
    };
    let (open, check) = line("");
    assert!(open.relation.is_none() && open.action.is_none() && open.note.contains("ledger[0].x"), "{open:?}");
    assert_eq!(check, Verdict::NotAssessed);
    assert_eq!(line(", action = \"relocate\"").0.action, Some(Action::Relocate));
    assert_eq!(line(", x = \"7 m\"").0.relation, Some(Relation::Stays));
    let (inside, check) = line(", x = \"3 m\"");
    assert_eq!((inside.relation, check), (Some(Relation::Crosses), Verdict::Passes));
}

#[rstest]
#[case(
    "ledger = [{ name = \"w\", kind = \"wires\", bottom = \"2.7 m\", top = \"1 m\" }]",
    "ledger[0].top",
    "exchanged"
)]
#[case(
    "ledger = [{ name = \"w\", kind = \"lamp\", bottom = \"1 m\" }, { name = \"w\", kind = \"lamp\", bottom = \"1 m\" }]",
    "ledger[1].name",
    "twice"
)]
#[case(
    "ledger = [{ name = \"d\", kind = \"fitting\", bottom = \"1 m\", top = \"2.5 m\" }]",
    "ledger[0].action",
    "relocate"
)]
#[case("survey.exits = [{ name = \"e\", kept = false, new = true }]", "survey.exits[0].kept", "is kept")]
#[case("survey.exits = [{ name = \"e\", kept = true, bottom = \"1 m\" }]", "survey.exits[0].top", "write both")]
#[case(
    "survey.exits = [{ name = \"e\", kept = true, bottom = \"2 m\", top = \"1 m\" }]",
    "survey.exits[0].top",
    "exchanged"
)]
#[case("gate.cut_day = \"7 December\"", "gate.cut_day", "2026-12-01")]
#[case("gate.cut_day = \"2026-02-30\"", "gate.cut_day", "year-month-day")]
#[case("gate.cut_day = \"2026-12-07T10:00:00\"", "gate.cut_day", "year-month-day")]
#[case("gate.fire = { not_needed = \"no fuel\" }", "gate.fire.not_needed", "always arises")]
#[case("gate.engineer = { not_needed = \"own work\" }", "gate.engineer.not_needed", "always arises")]
#[case("gate.title = { not_needed = \" \" }", "gate.title.not_needed", "why")]
#[case(
    "gate.insurer = { settled = \"2026-11-20\", not_needed = \"own risk\" }",
    "gate.insurer.not_needed",
    "leave one"
)]
#[case(
    "gate.weather = { settled = \"2026-12-05\", valid_until = \"2026-12-04\" }",
    "gate.weather.valid_until",
    "later"
)]
fn contradictions_are_told(#[case] changes: &str, #[case] path: &str, #[case] words: &str) {
    let found = problems(LIBRARY, changes);
    assert!(found.iter().any(|(p, text)| p == path && text.contains(words)), "{found:?}");
}

// By place: a new exit on the right does not stand in for a lost one on the left.
#[test]
fn exits_are_counted_where_they_are() {
    let exits = |first: &str, second: &str| {
        format!(
            "survey.exits = [{{ name = \"a\", kept = false{first} }}, {{ name = \"b\", kept = true, new = true{second} }}, \
             {{ name = \"c\", kept = true, place = \"rear\", bottom = \"1 m\", top = \"1.9 m\" }}]"
        )
    };
    let placed = build(LIBRARY, &exits(", place = \"left\"", ", place = \"right\""));
    let rows: Vec<_> = placed.exits.iter().map(|row| (row.place, row.before, row.after)).collect();
    assert_eq!(rows, [("left", 1, 0), ("right", 0, 1), ("rear", 1, 1)]);
    let verdicts: Vec<_> = named(&placed, "emergency exits").iter().map(|c| (c.subject.clone(), c.verdict)).collect();
    assert_eq!(verdicts[0], ("left".to_owned(), Verdict::Fails));
    assert!(verdicts[1..].iter().all(|(_, verdict)| *verdict == Verdict::Passes));
    let untold = build(LIBRARY, &exits("", ""));
    assert_eq!(named(&untold, "emergency exits")[0].verdict, Verdict::NotAssessed);
}

// 1830 mm inside, 400 mm raise, 50 mm of floor: 2180 mm, beyond the reach of 1790 mm (Pheasant, from memory) without a step.
#[rstest]
#[case("", Verdict::Fails)]
#[case(", step = \"380 mm\"", Verdict::Fails)]
#[case(", step = \"390 mm\"", Verdict::Passes)]
fn a_hatch_out_of_reach_is_said(#[case] step: &str, #[case] verdict: Verdict) {
    let build =
        build(LIBRARY, &format!("survey.exits = [{{ name = \"hatch\", kept = true, place = \"roof\"{step} }}]"));
    let reach = named(&build, "roof exit within reach")[0];
    assert_eq!((reach.verdict, reach.demand), (verdict, Some(2180.0)));
    assert!(build.assumed.iter().any(|a| a.source.contains("Pheasant")), "the reach is from memory, and must say so");
}

/// Everything settled, and nothing else of the plan changed.
fn settled(more: &str) -> String {
    let keys = ["insurer", "title", "ratings", "engineer", "supports", "fire", "battery", "lead", "weather"];
    let answers: Vec<String> = keys.iter().map(|key| format!("gate.{key}.settled = \"2026-12-01\"")).collect();
    format!("{}\n{more}", answers.join("\n"))
}

// Any open question, a failing check, or no day keeps the plan from saying that it is ready.
#[rstest]
#[case::a_day_too_late("gate.cut_day = \"2026-11-30\"", "open questions: insurer")]
#[case::runs_out("gate.weather.valid_until = \"2026-12-03\"", "open questions: weather")]
#[case::a_forecast_without_an_end("", "open questions: weather")]
#[case::an_empty_ledger("ledger = []", "ledger of the cut (not assessed)")]
#[case::a_weld_beyond_its_rule("raise.splice.hole = \"3 mm\"", "splice strength")]
#[case::a_failing_check("raise.headroom = \"2.5 m\"", "headroom (fails)")]
fn not_ready(#[case] more: &str, #[case] words: &str) {
    let build = build(LIBRARY, &settled(more));
    assert!(!build.gate.ready_to_cut());
    assert!(
        build.gate.words().starts_with("not ready to cut") && build.gate.words().contains(words),
        "{}",
        build.gate.words()
    );
    assert_eq!(named(&build, "ready to cut")[0].verdict, Verdict::NotAssessed);
}

// With a forecast that holds, the example is ready: what holds the roof, the splices and the ledger are known to pass.
#[test]
fn the_example_can_be_ready() {
    let ready = build(LIBRARY, &settled("gate.weather.valid_until = \"2026-12-09\""));
    assert!(ready.gate.ready_to_cut(), "{}", ready.gate.words());
    // Without the splices in the plan nobody knows whether they hold.
    let start = LIBRARY.find("[raise.splice]").unwrap();
    let end = start + LIBRARY[start..].find("[measure_up]").unwrap();
    let without = format!("{}{}", &LIBRARY[..start], &LIBRARY[end..]);
    let words = build(&without, &settled("gate.weather.valid_until = \"2026-12-09\"")).gate.words();
    assert!(words.contains("splice"), "{words}");
}

// A plan without a gate has every question open.
#[test]
fn a_plan_without_a_gate_is_not_ready() {
    let build = build(WORKSHOP, "");
    assert_eq!(build.gate.open().count(), 9);
    assert!(build.gate.words().contains("no day of the cut"));
    assert!(build.gate.rows.iter().all(|row| row.state == GateState::Open));
}
