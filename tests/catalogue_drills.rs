//! Drill sizes, their order, and which drill fits which rivet's hole.
// A decimal out of a table is compared exactly: nothing is computed on the way.

use std::sync::Arc;

use raisedbody::catalogue::{Catalogue, Drill, DrillKind};
use raisedbody::quantity::{Kind, inches_64};
use rstest::rstest;

fn catalogue() -> Arc<Catalogue> {
    Catalogue::standard().unwrap()
}

fn of_kind(kind: DrillKind) -> Vec<Drill> {
    catalogue().rows().drill.iter().filter(|d| d.kind == kind).cloned().collect()
}

fn inches(name: &str) -> f64 {
    catalogue().drill("drill", name).unwrap().diameter.mm() / 25.4
}

// US Army TM 10-5410-221-14, table 4-3 (the first five); ASME B94.11M (the ends of the series and others).
#[rstest]
#[case("#41", 0.0960)]
#[case("#30", 0.1285)]
#[case("#20", 0.1610)]
#[case("#11", 0.1910)]
#[case("F", 0.2570)]
#[case("#1", 0.2280)]
#[case("#10", 0.1935)]
#[case("#21", 0.1590)]
#[case("#40", 0.0980)]
#[case("#60", 0.0400)]
#[case("A", 0.234)]
#[case("E", 0.250)]
#[case("Z", 0.413)]
#[case("17/64 in", 0.265_625)]
#[case("1/16 in", 0.0625)]
#[case("1/2 in", 0.5)]
#[case("6.5 mm", 6.5 / 25.4)]
fn sizes(#[case] name: &str, #[case] size_in: f64) {
    assert!((inches(name) - size_in).abs() < 1e-9, "{}", inches(name));
}

#[rstest]
#[case(DrillKind::Fraction, 29)] // 4/64 to 32/64 in
#[case(DrillKind::Number, 60)] // #1 to #60
#[case(DrillKind::Letter, 26)] // A to Z
#[case(DrillKind::Metric, 56)] // 2.5 to 8.0 mm by 0.1 mm
fn each_series_is_whole_and_strictly_ordered(#[case] kind: DrillKind, #[case] count: usize) {
    let drills = of_kind(kind);
    assert_eq!(drills.len(), count);
    for pair in drills.windows(2) {
        let grows = pair[1].diameter > pair[0].diameter;
        let shrinks = pair[1].diameter < pair[0].diameter;
        // A higher wire number is a thinner drill; the other series are listed upwards.
        assert!(if kind == DrillKind::Number { shrinks } else { grows }, "{} {}", pair[0].name, pair[1].name);
    }
}

#[test]
fn numbers_and_letters_are_named_in_order() {
    let numbers: Vec<String> = of_kind(DrillKind::Number).into_iter().map(|d| d.name).collect();
    assert_eq!(numbers, (1..=60).map(|n| format!("#{n}")).collect::<Vec<_>>());
    let letters: Vec<String> = of_kind(DrillKind::Letter).into_iter().map(|d| d.name).collect();
    assert_eq!(letters, ('A'..='Z').map(String::from).collect::<Vec<_>>());
    // The letters carry on where the numbers end.
    assert!(inches("A") > inches("#1"));
}

#[test]
fn a_fraction_or_metric_drill_is_as_large_as_its_name_says() {
    for drill in of_kind(DrillKind::Fraction) {
        assert_eq!(inches_64(drill.diameter.mm()), drill.name, "lowest terms");
        assert_eq!(Kind::Length.parse(&drill.name).unwrap(), drill.diameter.mm());
    }
    for drill in of_kind(DrillKind::Metric) {
        assert_eq!(Kind::Length.parse(&drill.name).unwrap(), drill.diameter.mm());
        assert_eq!(format!("{:.1} mm", drill.diameter.mm()), drill.name);
    }
}

// Holes for inch rivets, TM 10-5410-221-14, table 4-3: a drill that cuts its own size must stand within.
#[rstest]
#[case("1/8 in", "#30", true)]
#[case("5/32 in", "#20", true)]
#[case("1/4 in", "F", true)]
#[case("1/4 in", "17/64 in", false)]
#[case("1/4 in", "1/4 in", false)]
fn drills_fit_the_inch_chart(#[case] diameter: &str, #[case] drill: &str, #[case] fits: bool) {
    let catalogue = catalogue();
    let diameter_mm = Kind::Length.parse(diameter).unwrap();
    let rivet = catalogue.rivet("rivet", "IFI-114 grade 30", diameter_mm).unwrap();
    let hole = catalogue.drill("drill", drill).unwrap().diameter;
    assert_eq!((rivet.hole_least.unwrap()..=rivet.hole_most.unwrap()).contains(&hole), fits, "{hole}");
}

#[test]
fn seventeen_sixty_fourths_is_over_the_chart_by_an_eighth_of_a_millimetre() {
    let catalogue = catalogue();
    let rivet = catalogue.rivet("rivet", "IFI-114 grade 51", 6.35).unwrap();
    let over_mm = catalogue.drill("drill", "17/64 in").unwrap().diameter.mm() - rivet.hole_most.unwrap().mm();
    assert!((over_mm - 0.12).abs() < 0.005, "{over_mm}");
}

/// The chart pairs the 3/16 in rivet with drill #11, which is 0.001 in under its least hole: a drill cuts a little
/// over its size.
#[test]
fn number_eleven_is_a_thousandth_under_its_hole() {
    let catalogue = catalogue();
    let rivet = catalogue.rivet("rivet", "IFI-114 grade 30", 4.7625).unwrap();
    let under_in = rivet.hole_least.unwrap().mm() / 25.4 - inches("#11");
    assert!((under_in - 0.001).abs() < 1e-9, "{under_in}");
}

#[test]
fn an_unknown_drill_suggests_one() {
    let catalogue = catalogue();
    let text = catalogue.drill("fastening.drill", "17/64").unwrap_err().to_string();
    assert_eq!(text, "fastening.drill: unknown drill \"17/64\"; did you mean \"17/64 in\"?");
}
