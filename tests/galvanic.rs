//! Metals in contact: index and limits after MIL-STD-1250A, potentials by several series, areas, and the pairs of a plan.

use std::sync::Arc;

use proptest::prelude::*;
use raisedbody::catalogue::{Catalogue, Exposure, Rows};
use raisedbody::check::{Check, Standing, Verdict};
use raisedbody::mechanics::galvanic::{Eaten, Metal, Pair, THUMB_RATIO, Wetted, area_ratio};
use raisedbody::plan::{ContactPair, Evaluation, Plan};
use rstest::rstest;

fn catalogue() -> Arc<Catalogue> {
    Catalogue::standard().unwrap()
}

fn metal(name: &str) -> Metal {
    Metal::named(&catalogue(), "first", name).unwrap()
}

fn pair(first: &str, second: &str, exposure: Exposure, wetted: Wetted) -> Pair {
    Pair::of(&catalogue(), (metal(first), metal(second)), exposure, wetted).unwrap()
}

fn harsh(first: &str, second: &str) -> Pair {
    pair(first, second, Exposure::Harsh, Wetted::NotKnown)
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

// Anodic index against gold (vk6ysf.com/galvanic_table.htm); steel, aluminium, cadmium, zinc and magnesium from memory.
#[rstest]
#[case("gold", 0.00, Standing::Read)]
#[case("silver", 0.15, Standing::Read)]
#[case("nickel-copper alloy", 0.15, Standing::Read)]
#[case("nickel", 0.30, Standing::Read)]
#[case("titanium", 0.30, Standing::Read)]
#[case("copper", 0.35, Standing::Read)]
#[case("low brass", 0.35, Standing::Read)]
#[case("silver solder", 0.35, Standing::Read)]
#[case("brass", 0.40, Standing::Read)]
#[case("bronze", 0.40, Standing::Read)]
#[case("high brass", 0.45, Standing::Read)]
#[case("stainless steel 304", 0.50, Standing::Read)]
#[case("12 % chromium stainless steel", 0.60, Standing::Read)]
#[case("chromium plating", 0.60, Standing::Read)]
#[case("tin plating", 0.60, Standing::Read)]
#[case("tin-plate", 0.65, Standing::Read)]
#[case("tin-lead solder", 0.65, Standing::Read)]
#[case("lead", 0.70, Standing::Read)]
#[case("aluminium 2000 series", 0.75, Standing::Read)]
#[case("carbon steel", 0.85, Standing::Memory)]
#[case("aluminium 3003", 0.90, Standing::Memory)]
#[case("aluminium 5052", 0.90, Standing::Memory)]
#[case("aluminium 6061", 0.90, Standing::Memory)]
#[case("cast aluminium", 0.95, Standing::Memory)]
#[case("cadmium", 0.95, Standing::Memory)]
#[case("hot-dip zinc", 1.20, Standing::Memory)]
#[case("zinc plating", 1.25, Standing::Memory)]
#[case("magnesium", 1.75, Standing::Memory)]
fn anodic_index(#[case] name: &str, #[case] index_v: f64, #[case] standing: Standing) {
    let metal = metal(name);
    assert_eq!((metal.index_v, metal.standing), (Some((index_v, index_v)), standing));
}

// vk6ysf.com/galvanic_table.htm and eicac.co.uk/anodic-index: 0.15 V harsh, 0.25 V normal, 0.50 V controlled.
#[rstest]
#[case(Exposure::Harsh, 0.15)]
#[case(Exposure::Normal, 0.25)]
#[case(Exposure::Controlled, 0.50)]
fn limits(#[case] exposure: Exposure, #[case] limit_v: f64) {
    assert_eq!(pair("copper", "brass", exposure, Wetted::NotKnown).limit_v, limit_v);
}

// Couples that matter, worked by arithmetic from the index, against the harsh limit of 0.15 V.
#[rstest]
#[case("steel", "carbon steel", 0.00, Verdict::Passes, "neither")]
#[case("zinc plating", "hot-dip zinc", 0.05, Verdict::Passes, "may be either")]
#[case("aluminium", "hot-dip zinc", 0.30, Verdict::Fails, "may be either")]
#[case("aluminium", "carbon steel", 0.05, Verdict::Passes, "aluminium")]
#[case("stainless steel 304", "hot-dip zinc", 0.70, Verdict::Fails, "hot-dip zinc")]
#[case("stainless steel 304", "aluminium", 0.40, Verdict::Fails, "aluminium")]
#[case("copper", "hot-dip zinc", 0.85, Verdict::Fails, "hot-dip zinc")]
fn couples(
    #[case] first: &str,
    #[case] second: &str,
    #[case] apart_v: f64,
    #[case] verdict: Verdict,
    #[case] eaten: &str,
) {
    let pair = harsh(first, second);
    let (least, most) = pair.index_difference_v.unwrap();
    assert!(close(least, apart_v) && close(most, apart_v), "{least} {most}");
    let check = pair.check();
    assert_eq!((check.verdict, check.demand, check.capacity), (verdict, Some(most), Some(0.15)));
    assert_eq!(pair.eaten_name(), eaten);
}

// A couple at the very limit passes: 0.15 V of silver and nickel is 0.15 V although binary has it 0.15000000000000002.
#[test]
fn at_the_limit_it_passes() {
    assert_eq!(harsh("silver", "nickel").check().verdict, Verdict::Passes);
    assert_eq!(harsh("silver", "copper").check().verdict, Verdict::Fails);
}

// Steel and aluminium: NRL -0.61 and -0.76 to -0.79, a marine series -0.79 and -0.82, a third -0.60 to -0.71 and -0.76 to
// -1.00: the gap goes from 0.03 to 0.40 V by source.
#[test]
fn the_gap_between_steel_and_aluminium_varies_tenfold() {
    let pair = harsh("aluminium", "carbon steel");
    let (least, most) = pair.gap_v.unwrap();
    assert!(close(least, 0.03) && close(most, 0.40), "{least} to {most}");
    assert_eq!((pair.gap_sources, pair.eaten), (3, Eaten::First));
    assert!(pair.views.iter().all(|view| view.eaten == Some(Eaten::First)), "{:?}", pair.views);
}

// NRL data file, V against SCE: two single values of one series.
#[rstest]
#[case("magnesium", "gold", -1.64, 0.14)]
#[case("cadmium", "lead", -0.69, -0.22)]
#[case("copper", "nickel-copper alloy", -0.36, -0.08)]
#[case("titanium", "stainless steel 316, passive", -0.10, -0.05)]
#[case("graphite", "stainless steel 304, passive", 0.25, -0.08)]
fn nrl_differences(#[case] first: &str, #[case] second: &str, #[case] first_v: f64, #[case] second_v: f64) {
    let pair = harsh(first, second);
    let (least, most) = pair.gap_v.unwrap();
    assert_eq!(pair.gap_sources, 1);
    assert!(close(least, (second_v - first_v).abs()) && close(most, least), "{least} {most}");
}

// NRL: zinc -1.03, carbon steel -0.61, HSLA -0.60, 304 active -0.53 and passive -0.08, tin -0.325; a marine series: hot-dip
// zinc -1.14, active stainless -0.55, mild steel -0.79; a third: zinc -0.98 to -1.03, 304 active -0.46 to -0.58.
#[test]
fn a_stainless_steel_is_active_or_passive_and_both_are_kept() {
    let both = harsh("stainless steel 304", "hot-dip zinc").gap_v.unwrap();
    let active = harsh("stainless steel 304, active", "hot-dip zinc").gap_v.unwrap();
    let passive = harsh("stainless steel 304, passive", "hot-dip zinc");
    assert!(close(both.0, 0.40) && close(both.1, 0.95), "{both:?}");
    assert!(close(active.0, 0.40) && close(active.1, 0.59), "{active:?}");
    assert_eq!(
        (passive.gap_v.map(|g| (close(g.0, 0.95), close(g.1, 0.95))), passive.gap_sources),
        (Some((true, true)), 1)
    );
    // The index has one value for both.
    assert_eq!(passive.first.index_v, Some((0.50, 0.50)));
}

// Where sources disagree: index 0.95 and 0.90 make cadmium the anode, potentials and MIL-STD-889 aluminium; tin is anodic to
// steel by MIL-STD-889 (27, 30) and cathodic by index and potentials; the third series overlaps for zinc and aluminium.
#[rstest]
#[case("cadmium", "aluminium 6061")]
#[case("tin plating", "carbon steel")]
#[case("hot-dip zinc", "aluminium")]
fn disagreeing_sources_leave_the_anode_open(#[case] first: &str, #[case] second: &str) {
    let pair = pair(first, second, Exposure::Harsh, Wetted::Areas(1e-4, 1.0));
    assert_eq!((pair.eaten, pair.area_ratio), (Eaten::Either, None));
    assert!(pair.warning().unwrap().contains("not certain"));
}

// MIL-STD-889, anodic to cathodic: 4 zinc, 10 cadmium, 13-16 5052, 18 3003, 19 6061-T6, 27 tin, 30 steel 1010, 33 copper,
// 34 nickel plate, 40 304 active, 53 316L active (wovenwire.com). Five groups (ae.msstate.edu/vlsm).
#[rstest]
#[case("zinc", "cadmium", "MIL-STD-889 order", Some(Eaten::First))]
#[case("cadmium", "aluminium 5052", "MIL-STD-889 order", Some(Eaten::First))]
#[case("aluminium 3003", "aluminium 5052", "MIL-STD-889 order", Some(Eaten::Second))]
#[case("aluminium 6061", "aluminium 3003", "MIL-STD-889 order", Some(Eaten::Second))]
#[case("aluminium 6061", "tin", "MIL-STD-889 order", Some(Eaten::First))]
#[case("carbon steel", "copper", "MIL-STD-889 order", Some(Eaten::First))]
#[case("nickel", "copper", "MIL-STD-889 order", Some(Eaten::Second))]
#[case("stainless steel 304", "stainless steel 316", "MIL-STD-889 order", Some(Eaten::First))]
#[case("magnesium", "zinc", "five groups", Some(Eaten::First))]
#[case("cadmium", "aluminium", "five groups", None)]
#[case("lead", "tin", "five groups", None)]
#[case("copper", "carbon steel", "five groups", Some(Eaten::Second))]
#[case("gold", "titanium", "five groups", Some(Eaten::Second))]
fn orders(#[case] first: &str, #[case] second: &str, #[case] series: &str, #[case] eaten: Option<Eaten>) {
    let pair = harsh(first, second);
    let view = pair.views.iter().find(|view| view.series == series).unwrap();
    assert_eq!((view.eaten, view.second_over_first_v), (eaten, None));
}

// The trap: the index says nothing of the area. A small aluminium rivet in a large bare steel sheet passes it (0.05 V).
#[test]
fn a_small_anode_passes_the_index_and_is_warned_of() {
    let check = |wetted| pair("aluminium", "carbon steel", Exposure::Harsh, wetted);
    for wetted in [Wetted::Fastener, Wetted::Areas(0.04, 10.0)] {
        let pair = check(wetted);
        assert_eq!(pair.check().verdict, Verdict::Passes);
        assert!(pair.check().reason.unwrap().contains("small anode in a large cathode, bad"));
        assert!(pair.remedies()[0].text.contains("carbon steel or a more noble"), "{:?}", pair.remedies());
    }
    assert_eq!(check(Wetted::Areas(0.04, 10.0)).area_ratio, Some(250.0));
    // The other way round it is mild: stainless rivet, aluminium sheet.
    let mild = pair("stainless steel 304", "aluminium", Exposure::Harsh, Wetted::Fastener);
    assert!(mild.area_words().contains("mild") && mild.warning().is_none());
    assert!(mild.remedies()[0].text.starts_with("isolate"));
}

// Rule of thumb: an anode of at least 100 times the cathode.
#[rstest]
#[case(1.0, 100.0, "within the rule of thumb")]
#[case(1.0, 99.0, "short of 100 times")]
#[case(1.0, 1.0, "short of 100 times")]
#[case(2.0, 1.0, "bad")]
fn areas_in_words(#[case] cathode_m2: f64, #[case] anode_m2: f64, #[case] words: &str) {
    let pair = pair("copper", "hot-dip zinc", Exposure::Harsh, Wetted::Areas(cathode_m2, anode_m2));
    assert_eq!(pair.area_ratio, Some(area_ratio(cathode_m2, anode_m2)));
    assert!(pair.area_words().contains(words), "{}", pair.area_words());
    assert_eq!(area_ratio(1.0, 100.0), THUMB_RATIO);
}

/// Whoever reads what areas do reads where it is from, and that the proportion is somebody's memory.
#[test]
fn what_areas_do_says_where_it_is_from() {
    let build = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
    for page in [raisedbody::drawing::text::evaluation(&build), raisedbody::drawing::html::evaluation(&build)] {
        assert!(Pair::area_sources().iter().all(|source| page.contains(source)));
    }
    assert!(Pair::area_sources().concat().contains("from memory"));
}

// A coating without an index of its own lies between its parts: what is certain either way is told, the rest is not.
#[rstest]
#[case("zinc-iron coating", "carbon steel", Exposure::Harsh, Verdict::NotAssessed)]
#[case("zinc-iron coating", "copper", Exposure::Harsh, Verdict::Fails)]
#[case("zinc-iron coating", "carbon steel", Exposure::Controlled, Verdict::Passes)]
#[case("stainless steel 316", "carbon steel", Exposure::Harsh, Verdict::NotAssessed)]
fn what_is_not_known_is_not_assessed(
    #[case] first: &str,
    #[case] second: &str,
    #[case] exposure: Exposure,
    #[case] verdict: Verdict,
) {
    let check = pair(first, second, exposure, Wetted::NotKnown).check();
    assert_eq!((check.verdict, check.standing), (verdict, Standing::Assumed));
}

#[test]
fn the_check_stands_on_its_weakest_row() {
    assert_eq!(harsh("copper", "brass").check().standing, Standing::Read);
    assert_eq!(harsh("copper", "carbon steel").check().standing, Standing::Memory);
    // All that is told of a pair, the orders of other sources too, stands no better than the check's own rows.
    assert_eq!(harsh("copper", "carbon steel").standing(), Standing::Memory);
    let all = harsh("copper", "brass");
    let weakest = all.views.iter().fold(Standing::Read, |standing, view| standing.with(view.standing));
    assert_eq!(all.standing(), weakest);
    let check = harsh("copper", "hot-dip zinc").check();
    assert!(
        check.clause.contains("MIL-STD-889") && check.explain().contains("utilisation 5.667"),
        "{}",
        check.explain()
    );
}

#[rstest]
#[case("galvanised steel", "did you mean \"galvanized steel\"")]
#[case("aluminum", "did you mean \"aluminium\"")]
#[case("copper, active", "no series tells copper active from copper")]
#[case("stainless steel 316, pasive", "did you mean \"stainless steel 316\"")]
fn unknown_metals(#[case] name: &str, #[case] words: &str) {
    let problem = Metal::named(&catalogue(), "contact[0].a", name).unwrap_err();
    assert_eq!((problem.path(), problem.value()), ("contact[0].a", Some(name)));
    assert!(problem.to_string().contains(words), "{problem}");
}

#[rstest]
#[case(0.0)]
#[case(-1.0)]
#[case(f64::NAN)]
#[case(f64::INFINITY)]
fn impossible_areas(#[case] area_m2: f64) {
    let metals = || (metal("copper"), metal("zinc"));
    let problems = Pair::of(&catalogue(), metals(), Exposure::Harsh, Wetted::Areas(area_m2, area_m2)).unwrap_err();
    let paths: Vec<&str> = problems.iter().map(raisedbody::error::Problem::path).collect();
    assert_eq!(paths, ["area_first", "area_second"]);
}

#[test]
fn a_row_of_ones_own_that_is_no_index_is_refused() {
    let own =
        r#"galvanic_metal = [ { name = "mystery", index_v = 50.0, source = "own", standing = "given by the user" } ]"#;
    let catalogue = catalogue().extended(&Rows::parse(own).unwrap());
    assert!(Metal::named(&catalogue, "a", "mystery").is_err());
    assert!(catalogue.overrides()[0].contains("galvanic metal mystery"));
}

fn any_metal() -> impl Strategy<Value = String> {
    let names: Vec<String> = catalogue().rows().galvanic_metal.iter().map(|row| row.name.clone()).collect();
    prop::sample::select(names)
}

fn any_exposure() -> impl Strategy<Value = Exposure> {
    prop::sample::select(Exposure::ALL.to_vec())
}

proptest! {
    /// Which metal is named first does not matter.
    #[test]
    fn changed_over_it_is_the_same(
        a in any_metal(), b in any_metal(), exposure in any_exposure(), own in 1e-6..10.0_f64, other in 1e-6..10.0_f64
    ) {
        let one = pair(&a, &b, exposure, Wetted::Areas(own, other));
        let two = pair(&b, &a, exposure, Wetted::Areas(other, own));
        prop_assert_eq!(one.index_difference_v, two.index_difference_v);
        prop_assert_eq!((one.gap_v, one.gap_sources), (two.gap_v, two.gap_sources));
        prop_assert_eq!(one.eaten, two.eaten.swapped());
        prop_assert_eq!(one.area_ratio, two.area_ratio);
        prop_assert_eq!(one.area_words(), two.area_words());
        prop_assert_eq!(one.remedies(), two.remedies());
        let (one, two) = (one.check(), two.check());
        prop_assert_eq!((one.verdict, one.demand, one.standing), (two.verdict, two.demand, two.standing));
    }

    /// A milder exposure never makes it worse, and the greater the cathode the greater the ratio.
    #[test]
    fn milder_is_no_worse(a in any_metal(), b in any_metal(), anode in 1e-3..1.0_f64, cathode in 1e-3..1.0_f64) {
        let verdicts: Vec<Verdict> =
            Exposure::ALL.iter().map(|exposure| pair(&a, &b, *exposure, Wetted::NotKnown).check().verdict).collect();
        prop_assert!(verdicts.windows(2).all(|two| two[1] <= two[0]), "{:?}", verdicts);
        prop_assert!(area_ratio(cathode * 1.5, anode) > area_ratio(cathode, anode));
        prop_assert!(area_ratio(cathode, anode * 1.5) < area_ratio(cathode, anode));
    }

    /// One metal alone is no pair.
    #[test]
    fn a_metal_does_not_eat_itself(a in any_metal(), exposure in any_exposure()) {
        let same = pair(&a, &a, exposure, Wetted::Fastener);
        prop_assert_eq!((same.eaten, same.index_difference_v, same.warning()), (Eaten::Neither, Some((0.0, 0.0)), None));
        prop_assert_eq!(same.check().verdict, Verdict::Passes);
    }
}

// ---- in a plan

fn build(changes: &str) -> Evaluation {
    let plan = Plan::read("examples/workshop_bus.toml").unwrap();
    plan.replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap()
}

fn refused(changes: &str) -> Vec<String> {
    let plan = Plan::read("examples/workshop_bus.toml").unwrap();
    match plan.replace(&changes.parse().unwrap()) {
        Err(raisedbody::Error::Input(problems)) => problems.iter().map(|p| p.problem.path().to_owned()).collect(),
        other => panic!("not refused: {other:?}"),
    }
}

fn named<'a>(build: &'a Evaluation, name: &str) -> &'a ContactPair {
    build.pairs.iter().find(|own| own.name == name).unwrap()
}

fn checked<'a>(build: &'a Evaluation, name: &str) -> &'a Check {
    build.checks.iter().find(|c| c.name == "galvanic pair" && c.subject.starts_with(name)).unwrap()
}

#[test]
fn pairs_are_found_by_themselves() {
    let build = build("fastening.plating = \"zinc plating\"");
    let names: Vec<&str> = build.pairs.iter().map(|own| own.name.as_str()).collect();
    assert_eq!(names, ["rivet body, skin", "mandrel, rivet body", "skin, posts", "skin, tube behind edges"]);
    assert_eq!(named(&build, "rivet body, skin").second, "hot-dip zinc");
    assert_eq!(checked(&build, "rivet body, skin").verdict, Verdict::Passes);
    // Galvanized skin on bare posts: 0.35 V. What is only assumed fails nothing.
    let posts = checked(&build, "skin, posts");
    assert_eq!(named(&build, "skin, posts").standing(), Standing::Assumed);
    let told = self::build("survey.post_surface = \"carbon steel\"");
    let told = named(&told, "skin, posts");
    assert_eq!((told.assumed, told.standing()), (None, told.pair.as_ref().unwrap().standing()));
    assert_eq!((posts.verdict, posts.demand.map(|d| close(d, 0.35))), (Verdict::NotAssessed, Some(true)));
    assert!(posts.reason.as_ref().unwrap().contains("write survey.post_surface"), "{posts:?}");
    assert_eq!(checked(&self::build("survey.post_surface = \"carbon steel\""), "skin, posts").verdict, Verdict::Fails);
    assert_eq!(checked(&self::build("survey.post_surface = \"zinc plating\""), "skin, posts").verdict, Verdict::Passes);
    for field in ["service.exposure", "survey.post_surface", "skin.backing_surface"] {
        let assumed = build.assumed.iter().find(|a| a.field == field).unwrap();
        assert_eq!(assumed.standing, Standing::Assumed);
    }
}

// A steel body is plated as a rule and only the plating counts; without body and plating there is nothing to go by.
#[test]
fn an_unknown_rivet_is_not_assessed_and_told_what_to_write() {
    let plain = build("");
    let check = checked(&plain, "rivet body, skin");
    assert_eq!(check.verdict, Verdict::NotAssessed);
    assert!(check.reason.as_ref().unwrap().contains("fastening.plating"), "{check:?}");
    let bare = build("fastening.plating = \"none\"");
    assert!(close(checked(&bare, "rivet body, skin").demand.unwrap(), 0.35));
    let library = Plan::read("examples/mobile_library.toml").unwrap().evaluate().unwrap();
    assert!(checked(&library, "rivet body, skin").reason.as_ref().unwrap().contains("fastening.body"));
}

// Heads of 13.4 mm against the skin that shows: rivets × π/4 × 0.0134² m2.
#[test]
fn rivet_heads_stand_against_the_skin() {
    let build = build("fastening.body = \"aluminium alloy\"\nskin.coating = \"none\"");
    let pair = named(&build, "rivet body, skin").pair.as_ref().unwrap();
    let heads_m2 = build.takeoff.rivets as f64 * std::f64::consts::FRAC_PI_4 * 0.0134_f64.powi(2);
    let expected = (build.takeoff.topcoat_area_m2 - heads_m2) / heads_m2;
    assert!((pair.area_ratio.unwrap() / expected - 1.0).abs() < 1e-9, "{:?}", pair.area_ratio);
    let check = checked(&build, "rivet body, skin");
    assert_eq!(check.verdict, Verdict::Passes);
    assert!(check.reason.as_ref().unwrap().contains("bad"), "{check:?}");
}

#[test]
fn a_plan_names_further_contacts() {
    let lug = "[[contact]]\nname = \"earth lug\"\na = \"copper\"\narea_a = \"400 mm2\"\narea_b = \"1 m2\"\n";
    let build = build(lug);
    let own = named(&build, "earth lug");
    let pair = own.pair.as_ref().unwrap();
    assert_eq!((own.second.as_str(), pair.eaten), ("hot-dip zinc", Eaten::Second));
    assert!(close(pair.area_ratio.unwrap(), 0.0004));
    assert_eq!(checked(&build, "earth lug").verdict, Verdict::Fails);
    let kept = format!("{lug}exposure = \"controlled\"\nb = \"tin plating\"\n");
    assert_eq!(checked(&self::build(&kept), "earth lug").verdict, Verdict::Passes);
}

#[rstest]
#[case("fastening.body = \"unobtainium\"", "fastening.body")]
#[case("fastening.plating = \"zink\"", "fastening.plating")]
#[case("fastening.mandrel = \"wood\"", "fastening.mandrel")]
#[case("survey.post_surface = \"rust\"", "survey.post_surface")]
#[case("skin.backing_surface = \"primer\"", "skin.backing_surface")]
#[case("service.exposure = \"mild\"", "service.exposure")]
#[case("[[contact]]\nname = \"lug\"\na = \"coper\"", "contact[0].a")]
#[case("[[contact]]\nname = \"lug\"\na = \"copper\"\nb = \"skin\"", "contact[0].b")]
#[case("[[contact]]\nname = \"lug\"\na = \"copper\"\narea_a = \"4 mm2\"", "contact[0].area_b")]
#[case("[[contact]]\nname = \"lug\"\na = \"copper\"\narea_a = \"0 m2\"\narea_b = \"1 m2\"", "contact[0].area_a")]
#[case("[[contact]]\nname = \"lug\"", "contact[0].a")]
fn broken_contacts(#[case] changes: &str, #[case] path: &str) {
    assert_eq!(refused(changes), [path]);
}

#[test]
fn all_at_once() {
    let changes =
        "fastening.body = \"wood\"\nsurvey.post_surface = \"rust\"\n[[contact]]\nname = \"x\"\na = \"y\"\nb = \"z\"";
    assert_eq!(refused(changes), ["survey.post_surface", "fastening.body", "contact[0].a", "contact[0].b"]);
}
