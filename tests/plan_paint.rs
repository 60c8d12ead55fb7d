//! Paint and sealant of a plan: quantities by hand, prices, hours, mass, durability by zone, and what cannot be.

use raisedbody::body::takeoff::CoatSide;
use raisedbody::catalogue::Durability;
use raisedbody::check::Standing;
use raisedbody::drawing::{html, text};
use raisedbody::error::Error;
use raisedbody::mechanics::paint::FilmDurability;
use raisedbody::plan::{Axis, Evaluation, Plan, compare};
use raisedbody::shop::schedule::TaskKind;
use rstest::rstest;
use toml::Value;

use crate::common::{near, without_cutting, without_paint};

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");

fn plan(text: &str) -> Plan {
    Plan::from_text(text, ".".as_ref()).unwrap()
}

/// The library with this in the place of its paint.
fn painted(paint: &str) -> Evaluation {
    plan(&format!("{}\n[paint]\n{paint}", without_paint(LIBRARY))).evaluate().unwrap()
}

fn refused(paint: &str) -> Vec<String> {
    match Plan::from_text(&format!("{}\n[paint]\n{paint}", without_paint(LIBRARY)), ".".as_ref()) {
        Err(Error::Input(problems)) => problems.iter().map(|p| p.problem.to_string()).collect(),
        other => panic!("not refused: {other:?}"),
    }
}

fn ordered(build: &Evaluation, item: &str) -> Option<(f64, &'static str)> {
    build.order.iter().find(|line| line.item == item).map(|line| (line.quantity, line.unit))
}

fn task_h(build: &Evaluation, name: &str) -> Option<f64> {
    build.tasks.iter().find(|task| task.name == name).map(|task| task.hours)
}

fn assumed(build: &Evaluation, field: &str) -> Option<(String, Standing)> {
    build.assumed.iter().find(|a| a.field == field).map(|a| (a.value.clone(), a.standing))
}

#[test]
fn without_paint_there_is_a_primer_and_a_topcoat_as_ever() {
    let build = plan(&without_paint(LIBRARY)).evaluate().unwrap();
    let t = &build.takeoff;
    let coats: Vec<_> = t.coats.iter().map(|c| (c.name.as_str(), c.side, c.area_m2)).collect();
    let inside = ("primer", CoatSide::Inside, t.skin_area_m2 + t.bare_area_m2);
    assert_eq!(coats, [inside, ("topcoat", CoatSide::Outside, t.topcoat_area_m2)]);
    // 60 µm of 45 % and 50 µm of 50 %, 30 % lost; a lap film of 25 × 0.5 mm and 12 % more.
    assert!(near(t.coats[0].paint_l, t.coats[0].area_m2 / (1000.0 * 0.45 / 60.0 * 0.7), 1e-9));
    assert!(near(t.coats[1].paint_l, t.topcoat_area_m2 / (1000.0 * 0.5 / 50.0 * 0.7), 1e-9));
    assert!(near(t.sealant_l, t.sealed_length_m * 0.0125 * 1.12, 1e-9));
    assert_eq!((t.cartridges, t.pretreated_area_m2), (None, 0.0));
    for key in ["primer_film", "primer_solids", "primer_loss", "topcoat_film", "topcoat_solids", "sealant_waste"] {
        let field = format!("default {key}");
        let listed = build.assumed.iter().filter(|a| a.field == field).count();
        let row = plan(LIBRARY).catalogue().fallback(key).unwrap().standing;
        assert_eq!(
            listed,
            usize::from(row > Standing::Given || key.ends_with("loss") || key.ends_with("waste")),
            "{key}"
        );
    }
    assert_eq!(ordered(&build, "sealant"), Some((t.sealant_l, "L")));
    assert_eq!(ordered(&build, "primer"), Some((t.coats[0].paint_l, "L")));
    // The price of primer is in the plan; that of topcoat is open.
    let quote = build.quote.as_ref().unwrap();
    assert_eq!(quote.open_items, ["topcoat"]);
    assert!(quote.lines.iter().any(|line| line.name == "primer"));
}

#[test]
fn the_example_by_hand() {
    let build = plan(LIBRARY).evaluate().unwrap();
    let t = &build.takeoff;
    // 52 % at 60 µm, of roller 10 % lost inside, of airless spray 20 % outside; 48 % at 50 µm.
    let (inside, outside) = (t.primed_area_m2 / (520.0 / 60.0 * 0.9), t.topcoat_area_m2 / (520.0 / 60.0 * 0.8));
    let topcoat = t.topcoat_area_m2 / (480.0 / 50.0 * 0.8);
    assert!(near(ordered(&build, "epoxy primer").unwrap().0, inside + outside, 1e-9));
    assert!(near(ordered(&build, "topcoat").unwrap().0, topcoat, 1e-9));
    // A lap film of 12.5 mm2 and a fillet of 4 mm, 8 mm2; an average hand wastes 15 % at the most.
    assert!(near(t.sealant_l, t.sealed_length_m * 0.0205 * 1.15, 1e-9));
    assert_eq!(ordered(&build, "sealant"), Some(((t.sealant_l / 0.310).ceil(), "cartridges")));
    // Both faces, laps counted twice.
    assert!(near(t.pretreated_area_m2, 2.0 * t.skin_area_m2, 1e-9));
    assert!(near(task_h(&build, "pretreat new skin").unwrap(), 2.0 * t.skin_area_m2 * 0.05, 1e-9));
    assert!(near(task_h(&build, "paint new skin outside").unwrap(), t.topcoat_area_m2 * 8.0 / 60.0, 1e-9));
    assert_eq!(task_h(&build, "paint new skin inside"), None);
    let quote = build.quote.as_ref().unwrap();
    let line = |name: &str| quote.lines.iter().find(|line| line.name == name).unwrap();
    assert_eq!(line("epoxy primer").unit_price.to_string(), "34");
    assert_eq!(line("topcoat").unit_price.to_string(), "46");
    assert_eq!(line("degrease and phosphate").unit, "m2");
    assert!(quote.open_items.is_empty());
    // The primer inside has the price of the same paint outside.
    assert_eq!(build.paint.coats[0].price, build.paint.coats[1].price);
    assert_eq!(assumed(&build, "paint.coats[0].method").unwrap().1, Standing::Memory);
    // Outside paint goes on when all is sealed.
    let schedule = build.schedule.as_ref().unwrap();
    let tasks = &schedule.job().tasks;
    let seals: Vec<usize> = (0..tasks.len()).filter(|i| tasks[*i].kind == TaskKind::Seal).collect();
    let outside: Vec<_> = tasks.iter().filter(|task| task.name.starts_with("paint outside")).collect();
    assert_eq!(outside.len(), build.hanging_order.len());
    for task in outside {
        assert_eq!(task.kind, TaskKind::Paint);
        assert!(seals.iter().all(|seal| task.after.contains(seal)), "{}", task.name);
    }
}

#[test]
fn what_the_plan_does_not_say_of_a_coat() {
    let coats = "coats = [{ name = \"epoxy primer\", film = \"40 um\" }, { name = \"own primer\", film = \"20 um\", solids = \"30 %\" }]";
    let build = painted(coats);
    let epoxy = &build.paint.coats[1];
    assert_eq!((epoxy.takeoff.coat.solids, epoxy.takeoff.coat.loss), (0.45, 0.30));
    assert_eq!((epoxy.standing, epoxy.note.as_str()), (Standing::Assumed, "usual film 50 to 80 µm, from memory"));
    assert_eq!(assumed(&build, "paint.coats[0].solids").unwrap(), ("0.45".to_owned(), Standing::Assumed));
    assert!(build.assumed.iter().any(|a| a.field == "paint.coats[1].loss"));
    // Both are primers and have the price of primer.
    assert!(build.quote.as_ref().unwrap().open_items.is_empty());
    assert_eq!(build.paint.coats[1].price.unwrap().to_string(), "28 USD/L");
}

#[test]
fn an_unpainted_skin_leaves_bare_steel_to_prime() {
    let build = painted("unpainted = true");
    let t = &build.takeoff;
    let [coat] = &t.coats[..] else { panic!("{:?}", t.coats) };
    assert_eq!((coat.side, coat.area_m2), (CoatSide::Frame, t.bare_area_m2));
    assert_eq!(task_h(&build, "prime new skin"), None);
    assert!(near(build.mass.skin_kg, t.skin_area_m2 * build.sheet_areal_mass_kg_m2, 1e-9));
    assert!(build.paint.outlook.iter().all(|o| o.durability.is_none() && o.note == "no paint outside"));
    assert!(assumed(&build, "default coat_areal_mass").is_none());
    let schedule = build.schedule.as_ref().unwrap();
    assert!((schedule.person_hours() - build.hours()).abs() < 1e-6);
    let none = painted("coats = []\ninside_coats = []");
    assert_eq!((&none.takeoff, none.hours()), (t, build.hours()));
}

#[test]
fn mass_follows_from_films_where_every_density_is_known() {
    let coat = |name: &str, film: u32, density: u32| {
        format!(
            "{{ name = \"{name}\", film = \"{film} um\", solids = \"50 %\", loss = \"20 %\", dry_density = \"{density} kg/m3\" }}"
        )
    };
    let lists = |inside: &str| format!("coats = [{}]\ninside_coats = [{inside}]", coat("topcoat", 50, 1400));
    let build = painted(&lists(&coat("epoxy primer", 80, 1500)));
    let paint_kg_m2 = (50.0 * 1400.0 + 80.0 * 1500.0) * 1e-6;
    let skin_m2 = build.takeoff.skin_area_m2;
    assert!(near(build.mass.skin_kg, skin_m2 * (build.sheet_areal_mass_kg_m2 + paint_kg_m2), 1e-9));
    let other = painted(&lists("{ name = \"epoxy primer\", film = \"80 um\", solids = \"50 %\", loss = \"20 %\" }"));
    assert!(near(other.mass.skin_kg, skin_m2 * (other.sheet_areal_mass_kg_m2 + 0.3), 1e-9));
}

#[test]
fn times_inside_take_the_place_of_priming() {
    let paint = "inside_coats = [{ name = \"epoxy primer\", film = \"60 um\", time = \"5 min\" }]\npretreatment = { name = \"etch\", time = \"2 min\" }";
    let text = format!("{}\n[paint]\n{paint}", without_paint(LIBRARY).replace("prime_time = \"6 min\"\n", ""));
    let build = plan(&text).evaluate().unwrap();
    let skin_m2 = build.takeoff.skin_area_m2;
    assert!(near(task_h(&build, "paint new skin inside").unwrap(), skin_m2 * 5.0 / 60.0, 1e-9));
    let schedule = build.schedule.as_ref().unwrap();
    assert!((schedule.person_hours() - build.hours()).abs() < 1e-6);
    // It still cures before the sheet hangs.
    let tasks = &schedule.job().tasks;
    assert_eq!(tasks.iter().filter(|t| t.kind == TaskKind::Cure).count(), build.hanging_order.len());
    assert_eq!(build.quote.as_ref().unwrap().open_items, ["etch", "topcoat"]);
}

// Films of ISO 12944-5:2018 on hot-dip galvanized steel, from memory; of a total of 130 µm: very high in C2, high in C3, medium
// in C4, low in C5.
#[rstest]
#[case("C1", FilmDurability::NotTabulated, (None, None), (None, None))]
#[case("C2", FilmDurability::Class(Durability::VeryHigh), (Some(25.0), None), (None, None))]
#[case("C3", FilmDurability::Class(Durability::High), (Some(15.0), Some(25.0)), (Some(15.0), None))]
#[case("C4", FilmDurability::Class(Durability::Medium), (Some(7.0), Some(15.0)), (Some(5.0), Some(15.0)))]
#[case("C5", FilmDurability::Class(Durability::Low), (None, Some(7.0)), (Some(2.0), Some(5.0)))]
#[case("CX", FilmDurability::NotTabulated, (None, None), (None, None))]
fn durability_by_zone(
    #[case] category: &str,
    #[case] durability: FilmDurability,
    #[case] years: (Option<f64>, Option<f64>),
    #[case] years_1998: (Option<f64>, Option<f64>),
) {
    let changes = format!(
        "skin.coating = \"G90\"\nservice.corrosivity.lower = \"{category}\"\n\
         paint.coats = [{{ name = \"epoxy primer\", film = \"80 um\" }}, {{ name = \"topcoat\", film = \"50 um\" }}]"
    );
    let build = plan(LIBRARY).replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap();
    let lower = &build.paint.outlook[1];
    assert_eq!((lower.film_um, lower.category.as_str()), (130.0, category));
    assert_eq!((lower.durability, lower.years, lower.years_1998), (Some(durability), years, years_1998));
    assert_eq!(lower.standing, Standing::Memory);
    assert!(build.assumed.iter().any(|a| a.value.starts_with("ISO 12944-5")));
}

#[test]
fn only_hot_dip_zinc_is_assessed() {
    for (coating, assessed) in [("G90", true), ("A40", false), ("AZ55", false)] {
        let changes = format!("skin.coating = \"{coating}\"");
        let build = plan(LIBRARY).replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap();
        assert!(build.paint.outlook.iter().all(|o| o.durability.is_some() == assessed), "{coating}");
        assert!(assessed || build.paint.outlook.iter().all(|o| o.note.contains("hot-dip zinc")));
        assert_eq!(build.assumed.iter().any(|a| a.value.starts_with("ISO 12944-5")), assessed);
    }
}

#[test]
fn one_coat_too_thick_for_one_coat_is_told() {
    let changes = "skin.coating = \"G90\"\npaint.coats = [{ name = \"topcoat\", film = \"160 um\" }]";
    let build = plan(LIBRARY).replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap();
    assert!(build.paint.outlook[0].note.starts_with("more than about 120 µm is listed in two coats"));
    assert_eq!(build.paint.coats[1].note, "usual film 40 to 60 µm, from memory");
}

#[test]
fn it_is_shown() {
    let build = plan(LIBRARY).evaluate().unwrap();
    let told = text::evaluation(&build);
    for words in ["wet film, µm", "not assessed", "epoxy primer", "durability, ISO 12944:2018", "cartridges"] {
        assert!(told.contains(words), "{words} in\n{told}");
    }
    assert!(html::evaluation(&build).contains("paint: 3 coats"));
    let changes = "skin.coating = \"G90\"\nservice.corrosivity.laps = \"C5\"".parse().unwrap();
    let zinc = text::evaluation(&plan(LIBRARY).replace(&changes).unwrap().evaluate().unwrap());
    assert!(zinc.contains("medium: 7 to 15 years") && zinc.contains("below the lowest"), "{zinc}");
}

// Numbers of a sweep are those of a whole evaluation.
#[test]
fn a_sweep_over_paint() {
    let base = plan(&without_cutting(LIBRARY));
    let films = Axis::new("paint.edge_bead", vec![Value::from("4 mm"), Value::from("8 mm")]).unwrap();
    let bare = |text: &str| Value::Table(text.parse().unwrap());
    let skins = vec![
        bare("coats = []"),
        bare("inside_coats = []\nhand = \"new\""),
        bare("coats = [{ name = \"topcoat\", film = \"90 um\" }]"),
    ];
    let swept = base
        .sweep(vec![films, Axis::new("paint.inside_coats", vec![Value::Array(Vec::new())]).unwrap()], |_, _| {
            Ok::<_, Error>(())
        });
    let swept = swept.unwrap();
    for row in 0..swept.len() {
        let whole = compare(&[("own", &swept.plan(row).unwrap())]).unwrap();
        for name in swept.names() {
            let value = whole.metrics[0].iter().find(|m| m.name == *name).unwrap().value;
            assert_eq!(swept.value(row, name), value, "{name} in row {row}");
        }
    }
    assert!(swept.value(1, "price_total") > swept.value(0, "price_total"));
    let swept = base.sweep(vec![Axis::new("paint", skins).unwrap()], |_, _| Ok::<_, Error>(())).unwrap();
    for row in 0..swept.len() {
        let whole = compare(&[("own", &swept.plan(row).unwrap())]).unwrap();
        let value = |name: &str| whole.metrics[0].iter().find(|m| m.name == name).unwrap().value;
        assert_eq!(swept.value(row, "price_total"), value("price_total"));
        assert_eq!(swept.value(row, "labour_h"), value("labour_h"));
    }
}

#[test]
fn a_new_entry_takes_the_place_of_what_it_excludes() {
    let changed = |text: &str| plan(LIBRARY).replace(&text.parse().unwrap()).unwrap();
    let bare = changed("paint.pretreatment = { name = \"x\" }\npaint.sealant_waste = \"3 %\"");
    assert!(bare.file().paint.hand.is_none());
    let mut table: toml::Table = LIBRARY.parse().unwrap();
    table["paint"].as_table_mut().unwrap().remove("pretreatment");
    let plan = Plan::from_text(&table.to_string(), ".".as_ref()).unwrap();
    let bare = plan.replace(&"paint.unpainted = true".parse().unwrap()).unwrap();
    assert!(bare.file().paint.coats.is_none() && bare.file().paint.inside_coats.is_none());
}

#[rstest]
#[case("coats = [{ name = \"epoxy primer\" }]", "paint.coats[0].film: missing")]
#[case("coats = [{ name = \"epoxy primer\", film = \"60\" }]", "paint.coats[0].film: cannot read \"60\"")]
#[case(
    "coats = [{ name = \"epoxy primer\", film = \"60 mm\" }]",
    "paint.coats[0].film: 60 mm is out of range; allowed: 0.005 mm to 1 mm"
)]
#[case("coats = [{ name = \"\", film = \"60 um\", solids = \"40 %\" }]", "paint.coats[0].name: missing")]
#[case("coats = [{ name = \"own\", film = \"60 um\" }]", "paint.coats[0].solids: missing; write the solids by volume")]
#[case(
    "coats = [{ name = \"own\", film = \"60 um\", solids = \"140 %\" }]",
    "paint.coats[0].solids: 140 % is out of range"
)]
#[case(
    "coats = [{ name = \"topcoat\", film = \"60 um\", loss = \"99 %\" }]",
    "paint.coats[0].loss: 99 % is out of range"
)]
#[case(
    "coats = [{ name = \"topcoat\", film = \"60 um\", method = \"spray\" }]",
    "paint.coats[0].method: unknown way of painting \"spray\""
)]
#[case(
    "coats = [{ name = \"topcoat\", film = \"60 um\", method = \"brush\", loss = \"5 %\" }]",
    "paint.coats[0].method: brush: the loss is given"
)]
#[case(
    "coats = [{ name = \"topcoat\", film = \"60 um\", dry_density = \"1 kg/m3\" }]",
    "paint.coats[0].dry_density: 1 kg/m3 is out of range"
)]
#[case(
    "coats = [{ name = \"topcoat\", film = \"60 um\", price = \"9 EUR/L\" }]",
    "paint.coats[0].price: 9 EUR/L: the plan's other prices are in USD"
)]
#[case(
    "coats = [{ name = \"topcoat\", film = \"60 um\", price = \"9 USD/kg\" }]",
    "paint.coats[0].price: 9 USD/kg: this price is per L or gal"
)]
#[case(
    "coats = [{ name = \"topcoat\", film = \"60 um\", price = \"-9 USD/L\" }]",
    "paint.coats[0].price: -9 USD/L is out of range"
)]
#[case(
    "inside_coats = [{ name = \"epoxy primer\", film = \"60 um\", time = \"5 min\" }]",
    "paint.inside_coats[0].time: 5 min: shop.prime_time counts this work"
)]
#[case(
    "unpainted = true\ncoats = [{ name = \"topcoat\", film = \"60 um\" }]",
    "paint.coats: coats: the new skin is left unpainted"
)]
#[case("unpainted = true\npretreatment = { name = \"etch\" }", "paint.pretreatment: etch: nothing is painted")]
#[case(
    "pretreatment = { name = \"etch\", price = \"2 USD/L\" }",
    "paint.pretreatment.price: 2 USD/L: this price is per m2 or ft2"
)]
#[case("pretreatment = { name = \" \" }", "paint.pretreatment.name: missing")]
#[case("edge_bead = \"0 mm\"", "paint.edge_bead: 0 mm is out of range")]
#[case("cartridge = \"310 L\"", "paint.cartridge: 310 L is out of range")]
#[case("hand = \"clumsy\"", "paint.hand: unknown hand \"clumsy\"")]
#[case("hand = \"new\"\nsealant_waste = \"5 %\"", "paint.hand: new: paint.sealant_waste is given")]
#[case("sealant_waste = \"300 %\"", "paint.sealant_waste: 300 % is out of range")]
#[case(
    "coats = [{ name = \"topcoat\", film = \"60 um\", price = \"9 USD/L\" }, { name = \"topcoat\", film = \"60 um\", price = \"8 USD/L\" }]",
    "paint.coats[1].price: 8 USD/L: another coat of topcoat costs 9 USD/L"
)]
#[case(
    "coats = [{ name = \"topcoat\", film = \"60 um\", solids = \"50 %\" }, { name = \"topcoat\", film = \"60 um\", solids = \"40 %\" }]",
    "paint.coats[1].solids: 40 %: another coat of topcoat has 0.5"
)]
#[case("colour = \"red\"", "paint.colour: no such entry")]
fn paint_that_cannot_be(#[case] paint: &str, #[case] told: &str) {
    let found = refused(paint);
    assert!(found.iter().any(|problem| problem.starts_with(told)), "{told} in {found:#?}");
}

#[test]
fn all_that_is_wrong_is_told_at_once() {
    let paint = "coats = [{ name = \"x\", film = \"60 mm\", loss = \"-1 %\" }]\ncartridge = \"1 mL\"\nhand = \"old\"";
    assert_eq!(refused(paint).len(), 5, "{:#?}", refused(paint));
}
