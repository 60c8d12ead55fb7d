//! The form of a catalogue file: sources, a user's own rows, look-up of unknown names, files with mistakes.
// A decimal out of a table is compared exactly: nothing is computed on the way.

use std::collections::HashSet;
use std::hash::Hash;
use std::sync::Arc;

use proptest::prelude::*;
use raisedbody::Error;
use raisedbody::catalogue::{Catalogue, GaugeSystem, MetalLost, Rows};
use raisedbody::check::Standing;
use raisedbody::quantity::Length;
use rstest::rstest;

fn catalogue() -> Arc<Catalogue> {
    Catalogue::standard().unwrap()
}

fn parse(text: &str) -> Rows {
    Rows::parse(text).unwrap()
}

/// Source and standing of every row, with a name to find it by.
fn sources(rows: &Rows) -> Vec<(String, String, Standing)> {
    let mut all = Vec::new();
    let mut add = |name: String, source: &String, standing: Standing| all.push((name, source.clone(), standing));
    rows.gauge.iter().for_each(|r| add(format!("gauge {:?} {}", r.system, r.gauge), &r.source, r.standing));
    rows.material.iter().for_each(|r| add(format!("material {}", r.name), &r.source, r.standing));
    rows.grade.iter().for_each(|r| add(format!("grade {}", r.name), &r.source, r.standing));
    rows.coating.iter().for_each(|r| add(format!("coating {}", r.designation), &r.source, r.standing));
    rows.rivet.iter().for_each(|r| add(format!("rivet {} {}", r.product, r.diameter), &r.source, r.standing));
    rows.grip
        .iter()
        .for_each(|r| add(format!("grip {} {} {}", r.product, r.diameter, r.name()), &r.source, r.standing));
    rows.drill.iter().for_each(|r| add(format!("drill {}", r.name), &r.source, r.standing));
    rows.bit_life.iter().for_each(|r| add(format!("bit life {} {}", r.part.name(), r.bit), &r.source, r.standing));
    rows.section.iter().for_each(|r| add(format!("section {}", r.name), &r.source, r.standing));
    rows.limit.iter().for_each(|r| add(format!("limit {}", r.place), &r.source, r.standing));
    rows.corrosivity
        .iter()
        .for_each(|r| add(format!("corrosivity {} {}", r.category, r.metal.words()), &r.source, r.standing));
    rows.k_factor.iter().for_each(|r| {
        add(format!("K factor {} {} {}", r.material, r.thickness, r.radius), &r.source, r.standing);
    });
    rows.k_rule.iter().for_each(|r| add(format!("range of K {} {}", r.metal, r.from_ratio), &r.source, r.standing));
    rows.bend_limit.iter().for_each(|r| add(format!("sharpest bend {}", r.of), &r.source, r.standing));
    rows.surface.iter().for_each(|r| add(format!("surface {}", r.name), &r.source, r.standing));
    rows.galvanic_metal.iter().for_each(|r| add(format!("metal {}", r.name), &r.source, r.standing));
    rows.galvanic_limit.iter().for_each(|r| add(format!("limit of {}", r.exposure.name()), &r.source, r.standing));
    rows.sea_potential.iter().for_each(|r| add(format!("potential {} {}", r.series, r.entry), &r.source, r.standing));
    rows.galvanic_order.iter().for_each(|r| add(format!("order {} {}", r.series, r.entry), &r.source, r.standing));
    rows.family_property.iter().for_each(|r| add(format!("family {}", r.family.name()), &r.source, r.standing));
    rows.coated_range.iter().for_each(|r| add(format!("range {}", r.standard), &r.source, r.standing));
    rows.durability
        .iter()
        .for_each(|r| add(format!("durability {} {}", r.edition, r.band.words()), &r.source, r.standing));
    rows.paint_system.iter().for_each(|r| add(format!("paint system {}", r.category), &r.source, r.standing));
    rows.paint_coat.iter().for_each(|r| add(format!("coat {}", r.name), &r.source, r.standing));
    rows.application_loss.iter().for_each(|r| add(format!("loss {} {}", r.of.name(), r.by), &r.source, r.standing));
    rows.duplex_factor.iter().for_each(|r| add(format!("duplex {}", r.name), &r.source, r.standing));
    rows.default.iter().for_each(|r| add(format!("default {}", r.key), &r.source, r.standing));
    all
}

/// Every metal that a potential or a place in an order is for has a row of its own.
#[test]
fn potentials_and_places_are_of_known_metals() {
    let catalogue = catalogue();
    let rows = catalogue.rows();
    let potentials = rows.sea_potential.iter().flat_map(|r| &r.metals);
    for metal in potentials.chain(rows.galvanic_order.iter().flat_map(|r| &r.metals)) {
        assert!(rows.galvanic_metal.iter().any(|r| r.name == *metal), "{metal}");
    }
    assert!(rows.sea_potential.iter().all(|r| r.least_v <= r.most_v));
    assert!(rows.galvanic_order.iter().all(|r| r.first <= r.last));
}

fn are_distinct<T: Eq + Hash>(keys: impl IntoIterator<Item = T>) -> bool {
    let mut seen = HashSet::new();
    keys.into_iter().all(|key| seen.insert(key))
}

#[test]
fn every_table_is_filled_and_every_row_has_a_source_in_words() {
    let catalogue = catalogue();
    let rows = catalogue.rows();
    assert_eq!(rows.gauge.len(), 60);
    assert_eq!(rows.material.len(), 5);
    assert_eq!(rows.grade.len(), 29);
    assert_eq!(rows.coating.len(), 56);
    assert_eq!(rows.rivet.len(), 108);
    assert_eq!(rows.grip.len(), 71);
    assert_eq!(rows.drill.len(), 171);
    assert_eq!(rows.section.len(), 8);
    assert_eq!(rows.limit.len(), 22);
    assert_eq!(rows.corrosivity.len(), 18);
    assert_eq!(rows.k_factor.len(), 12);
    assert_eq!(rows.k_rule.len(), 6);
    assert_eq!(rows.bend_limit.len(), 15);
    assert_eq!(rows.surface.len(), 18);
    assert_eq!(rows.galvanic_metal.len(), 32);
    assert_eq!(rows.galvanic_limit.len(), 3);
    assert_eq!(rows.sea_potential.len(), 32);
    assert_eq!(rows.galvanic_order.len(), 21);
    assert_eq!(rows.family_property.len(), 8);
    assert_eq!(rows.coated_range.len(), 1);
    assert_eq!(rows.durability.len(), 7);
    assert_eq!(rows.paint_system.len(), 4);
    assert_eq!(rows.paint_coat.len(), 4);
    assert_eq!(rows.application_loss.len(), 7);
    assert_eq!(rows.duplex_factor.len(), 5);
    for (name, source, _) in sources(rows) {
        // A short name that is defined nowhere would be left standing as a single word.
        assert!(source.contains(' ') || source == "judgement", "{name}: source \"{source}\"");
    }
}

/// The standing must not be firmer than the words of the source.
#[test]
fn a_source_from_memory_is_not_called_read() {
    for (name, source, standing) in sources(catalogue().rows()) {
        let doubtful = source.contains("from memory") || source.contains("low confidence");
        assert!(!doubtful || standing >= Standing::Memory, "{name}: {} but \"{source}\"", standing.words());
    }
}

#[test]
fn no_two_rows_share_a_key() {
    let catalogue = catalogue();
    let names = sources(catalogue.rows()).into_iter().map(|(name, ..)| name);
    assert!(are_distinct(names));
}

#[test]
fn the_standard_rows_are_no_overrides() {
    assert!(catalogue().overrides().is_empty());
}

#[test]
fn rows_written_out_read_back_the_same() {
    let catalogue = catalogue();
    let text = toml::to_string(catalogue.rows()).unwrap();
    assert_eq!(&parse(&text), catalogue.rows());
}

const OWN: &str = r#"
sources.mill = "mill certificate 4711 of the coil"
sources.test = "six laps pulled in our own shop"

gauge = [
  { system = "zinc-coated steel", gauge = 18, thickness = "1.29 mm", source = "mill", standing = "given by the user" },
  { system = "zinc-coated steel", gauge = 26, thickness = "0.0217 in", source = "mill", standing = "given by the user" },
]
rivet = [
  { product = "shop structural", diameter = "6.4 mm", shear = "9.1 kN", tension = "6.2 kN", hole_least = "17/64 in", sealed = true, structural = true, body = "steel", mandrel = "steel", source = "test", standing = "given by the user" },
]
"#;

#[test]
fn own_rows_add_and_replace_and_say_so() {
    let standard = catalogue();
    let own = standard.extended(&parse(OWN));

    let replaced = own.gauge("skin.gauge", GaugeSystem::ZincCoatedSteel, 18).unwrap();
    assert_eq!(replaced.thickness.mm(), 1.29);
    assert_eq!(replaced.source, "mill certificate 4711 of the coil");
    assert_eq!(replaced.standing, Standing::Given);
    // The whole row is replaced: the old range does not linger beside the new thickness.
    assert_eq!((replaced.least, replaced.most), (None, None));

    assert_eq!(own.gauge("skin.gauge", GaugeSystem::ZincCoatedSteel, 26).unwrap().thickness.mm(), 0.0217 * 25.4);
    assert_eq!(own.rivet("rivet", "shop structural", 6.4).unwrap().source, "six laps pulled in our own shop");
    assert_eq!(
        own.overrides(),
        [
            "gauge zinc-coated steel 18: replaced by your own row",
            "gauge zinc-coated steel 26: your own row",
            "rivet shop structural 6.4 mm: your own row",
        ]
    );

    // The standard catalogue is unchanged, and so is every row that was not named.
    assert_eq!(standard.gauge("g", GaugeSystem::ZincCoatedSteel, 18).unwrap().thickness.mm(), 0.0516 * 25.4);
    assert_eq!(own.rows().gauge.len(), standard.rows().gauge.len() + 1);
    assert_eq!(own.rows().coating, standard.rows().coating);
}

#[test]
fn a_rivet_written_in_inches_replaces_the_same_rivet_in_millimetres() {
    let text = r#"
rivet = [
  { product = "IFI-114 grade 30", diameter = "6.35 mm", shear = "4.6 kN", sealed = false, structural = false, body = "steel", mandrel = "steel", source = "own test", standing = "given by the user" },
]
"#;
    let standard = catalogue();
    let own = standard.extended(&parse(text));
    assert_eq!(own.rows().rivet.len(), standard.rows().rivet.len());
    assert_eq!(own.rivet("rivet", "IFI-114 grade 30", 6.35).unwrap().shear.unwrap().n(), 4600.0);
}

#[test]
fn later_files_win_over_earlier_ones() {
    let place = |height: &str| {
        parse(&format!(
            r#"limit = [{{ place = "US-CO", name = "Colorado", height = "{height}", date_seen = "2027-01", source = "state code", standing = "given by the user" }}]"#
        ))
    };
    let own = catalogue().extended(&place("14 ft 3 in")).extended(&place("14 ft"));
    assert_eq!(own.limit("place", "US-CO").unwrap().height.mm(), 14.0 * 304.8);
    assert_eq!(own.overrides().len(), 2);
}

#[rstest]
#[case("grade", "SS 33", "SS33")]
#[case("grade", "S25OGD", "S250GD")]
#[case("material", "aluminum 5052", "aluminium 5052")]
#[case("coating", "G9O", "G90")]
#[case("coating", "Z 275", "Z275")]
#[case("section", "1x2 tube 16ga", "1x2 tube 16 ga")]
#[case("place", "us-co", "US-CO")]
fn an_unknown_name_suggests_the_nearest(#[case] what: &str, #[case] written: &str, #[case] meant: &str) {
    let catalogue = catalogue();
    let problem = match what {
        "grade" => catalogue.grade("field", written).unwrap_err(),
        "material" => catalogue.material("field", written).unwrap_err(),
        "coating" => catalogue.coating("field", written).unwrap_err(),
        "section" => catalogue.section("field", written).unwrap_err(),
        _ => catalogue.limit("field", written).unwrap_err(),
    };
    assert_eq!(problem.to_string(), format!("field: unknown {what} \"{written}\"; did you mean \"{meant}\"?"));
    assert_eq!((problem.path(), problem.value()), ("field", Some(written)));
}

#[test]
fn an_unknown_corrosivity_category_is_refused() {
    let problem = catalogue().corrosivity("service.corrosivity", "C6", MetalLost::Zinc).unwrap_err();
    assert_eq!((problem.path(), problem.value()), ("service.corrosivity", Some("C6")));
}

#[test]
fn a_broken_file_lists_every_problem_with_its_line() {
    let text = r#"gauge = [
  { system = "galvanised", gauge = 18, thickness = "0.0516 in", source = "a", standing = "read in the source" },
  { system = "aluminium", gauge = 18, thickness = 0.0403, source = "a", standing = "read in the source" },
  { system = "aluminium", gauge = 99, thickness = "0.0403", source = "a", standing = "sure" },
]
grade = [
  { name = "X", material = "carbon steel", standard = "own", fy = "300 mm", source = "a", standing = "assumed" },
  { name = "Y", material = "carbon steel", standard = "own", yeild = "300 MPa", standing = "assumed" },
]
rivets = []
"#;
    let Err(Error::Input(problems)) = Rows::parse(text) else { panic!("the file must be refused") };
    let found: Vec<(usize, &str)> = problems.iter().map(|p| (p.place.expect("a place").0, p.problem.path())).collect();
    let expected = [
        (2, "gauge[0].system"),
        (3, "gauge[1].thickness"),
        (4, "gauge[2].gauge"),
        (4, "gauge[2].thickness"),
        (4, "gauge[2].standing"),
        (7, "grade[0].fy"),
        (8, "grade[1].source"),
        (8, "grade[1].yeild"),
        (10, "rivets"),
    ];
    assert_eq!(HashSet::from(expected), found.iter().copied().collect());
    assert_eq!(found.len(), expected.len());

    let message = Error::Input(problems).to_string();
    assert!(message.starts_with("9 problems\n"), "{message}");
    assert!(message.contains("rivets: no such entry; did you mean \"rivet\"?"), "{message}");
    assert!(message.contains("0.0403 has no unit"), "{message}");
}

#[rstest]
#[case("sources.a = \"one\"\nsources.b = \"two\n", 2)]
#[case("\n\ngauge = ]\n", 3)]
fn text_that_is_no_toml_names_the_line(#[case] text: &str, #[case] at: usize) {
    let Err(Error::Syntax { line, .. }) = Rows::parse(text) else { panic!("the text must be refused") };
    assert_eq!(line, at);
}

#[test]
fn a_missing_file_is_named() {
    let error = Rows::read(std::path::Path::new("no/such/rows.toml")).unwrap_err();
    assert!(error.to_string().starts_with("cannot read no/such/rows.toml"), "{error}");
}

proptest! {
    /// What a user writes is what the catalogue gives back, for any thickness and number.
    #[test]
    fn an_own_gauge_row_comes_back_as_written(number in 0_u32..=40, thickness_mm in 0.1_f64..10.0) {
        let thickness = Length::new(thickness_mm);
        let text = format!(
            r#"gauge = [{{ system = "aluminium", gauge = {number}, thickness = "{thickness}", source = "own sheet", standing = "given by the user" }}]"#
        );
        let own = catalogue().extended(&parse(&text));
        prop_assert_eq!(own.gauge("g", GaugeSystem::Aluminium, number).unwrap().thickness, thickness);
        let says = if (10..=24).contains(&number) { "replaced by your own row" } else { "your own row" };
        prop_assert_eq!(own.overrides(), [format!("gauge aluminium {number}: {says}")]);
    }
}
