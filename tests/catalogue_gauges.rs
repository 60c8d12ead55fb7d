//! Gauge tables against the rules they are made by, and the metals that use them.
// A decimal out of a table is compared exactly: nothing is computed on the way.

use std::sync::Arc;

use proptest::prelude::*;
use raisedbody::catalogue::{Catalogue, Gauge, GaugeSystem};
use raisedbody::check::Standing;
use raisedbody::error::Problem;
use raisedbody::quantity::Kind;
use rstest::rstest;

/// Ordering density of the manufacturers' tables: 41.82 lb/ft2 for an inch of thickness.
const ORDERING_LB_FT2_IN: f64 = 41.82;

fn catalogue() -> Arc<Catalogue> {
    Catalogue::standard().unwrap()
}

fn gauge(system: GaugeSystem, number: u32) -> Gauge {
    catalogue().gauge("gauge", system, number).unwrap().clone()
}

fn inches(mm: f64) -> f64 {
    mm / 25.4
}

fn pounds_ft2(kg_m2: f64) -> f64 {
    kg_m2 / Kind::ArealMass.parse("1 lb/ft2").unwrap()
}

// Statutory ounces per square foot: 15 U.S.C. 206. Millimetre columns: the printed tables of each series
// (steelmarketupdate.com, eicac.co.uk), kept here as a check on the inch columns that the catalogue stores.
#[rstest]
//     gauge oz/ft2  stainless uncoated zinc-coated aluminium, mm
#[case(10, 90.0, 3.572, 3.416, 3.510, 2.588)]
#[case(11, 80.0, 3.175, 3.038, 3.132, 2.304)]
#[case(12, 70.0, 2.778, 2.657, 2.753, 2.052)]
#[case(13, 60.0, 2.381, 2.278, 2.372, 1.829)]
#[case(14, 50.0, 1.984, 1.897, 1.994, 1.628)]
#[case(15, 45.0, 1.786, 1.709, 1.803, 1.450)]
#[case(16, 40.0, 1.588, 1.519, 1.613, 1.290)]
#[case(17, 36.0, 1.429, 1.367, 1.461, 1.151)]
#[case(18, 32.0, 1.270, 1.214, 1.311, 1.024)]
#[case(19, 28.0, 1.111, 1.062, 1.158, 0.912)]
#[case(20, 24.0, 0.953, 0.912, 1.006, 0.813)]
#[case(21, 22.0, 0.873, 0.836, 0.930, 0.724)]
#[case(22, 20.0, 0.794, 0.759, 0.853, 0.643)]
#[case(23, 18.0, 0.714, 0.683, 0.777, 0.574)]
#[case(24, 16.0, 0.635, 0.607, 0.701, 0.511)]
fn each_series_follows_its_rule(
    #[case] number: u32,
    #[case] oz_ft2: f64,
    #[case] stainless_mm: f64,
    #[case] uncoated_mm: f64,
    #[case] zinc_coated_mm: f64,
    #[case] aluminium_mm: f64,
) {
    let stainless = gauge(GaugeSystem::StainlessSteel, number);
    let uncoated = gauge(GaugeSystem::UncoatedSteel, number);
    let zinc_coated = gauge(GaugeSystem::ZincCoatedSteel, number);
    let aluminium = gauge(GaugeSystem::Aluminium, number);

    // The statute: ounces per square foot over 640, exact, since an inch of its iron weighs 40 lb/ft2.
    assert!((inches(stainless.thickness.mm()) - oz_ft2 / 640.0).abs() < 1e-12);

    // Manufacturers' standard gauge: the same ounces at 41.82 lb/ft2 an inch, printed to 0.0001 in.
    let rule_in = oz_ft2 / (16.0 * ORDERING_LB_FT2_IN);
    assert!((inches(uncoated.thickness.mm()) - rule_in).abs() < 0.000_051, "{rule_in}");
    assert!((pounds_ft2(uncoated.trade_mass.unwrap().kg_m2()) - oz_ft2 / 16.0).abs() < 0.000_51);

    // Galvanized sheet gauge: 2.5 oz/ft2 more, and the thickness includes the zinc.
    let rule_in = (oz_ft2 + 2.5) / (16.0 * ORDERING_LB_FT2_IN);
    assert!((inches(zinc_coated.thickness.mm()) - rule_in).abs() < 0.000_051, "{rule_in}");
    assert!((pounds_ft2(zinc_coated.trade_mass.unwrap().kg_m2()) - (oz_ft2 + 2.5) / 16.0).abs() < 0.000_51);

    // Brown and Sharpe: 0.005 in for number 36, 0.46 in for 0000, 39 equal ratios between; table agrees to 0.0001 in.
    let rule_in = 0.005 * 92_f64.powf((36.0 - f64::from(number)) / 39.0);
    assert!((inches(aluminium.thickness.mm()) - rule_in).abs() < 0.000_1, "{rule_in}");

    for (row, printed_mm) in
        [(stainless, stainless_mm), (uncoated, uncoated_mm), (zinc_coated, zinc_coated_mm), (aluminium, aluminium_mm)]
    {
        assert!((row.thickness.mm() - printed_mm).abs() < 0.000_6, "{row:?}: the printed table has {printed_mm} mm");
    }
}

// Tolerance either way in thousandths of an inch, single column without width (restating ASTM A568 and A924):
// steelmarketupdate.com.
#[rstest]
#[case(GaugeSystem::UncoatedSteel, 10..=12, 6.0)]
#[case(GaugeSystem::UncoatedSteel, 13..=16, 5.0)]
#[case(GaugeSystem::UncoatedSteel, 17..=19, 4.0)]
#[case(GaugeSystem::UncoatedSteel, 20..=24, 3.0)]
#[case(GaugeSystem::ZincCoatedSteel, 10..=12, 9.0)]
#[case(GaugeSystem::ZincCoatedSteel, 13..=14, 8.0)]
#[case(GaugeSystem::ZincCoatedSteel, 15..=16, 6.0)]
#[case(GaugeSystem::ZincCoatedSteel, 17..=19, 5.0)]
#[case(GaugeSystem::ZincCoatedSteel, 20..=24, 4.0)]
fn steel_ranges_are_the_tolerance_either_way(
    #[case] system: GaugeSystem,
    #[case] numbers: std::ops::RangeInclusive<u32>,
    #[case] tolerance_mil: f64,
) {
    for number in numbers {
        let row = gauge(system, number);
        let below_in = inches(row.thickness.mm() - row.least.unwrap().mm());
        let above_in = inches(row.most.unwrap().mm() - row.thickness.mm());
        assert!((below_in - tolerance_mil / 1000.0).abs() < 1e-9, "{number}: {below_in}");
        assert!((above_in - tolerance_mil / 1000.0).abs() < 1e-9, "{number}: {above_in}");
    }
}

#[test]
fn a_higher_number_is_thinner_in_every_series() {
    for system in
        [GaugeSystem::UncoatedSteel, GaugeSystem::ZincCoatedSteel, GaugeSystem::StainlessSteel, GaugeSystem::Aluminium]
    {
        for number in 10..24 {
            assert!(gauge(system, number).thickness > gauge(system, number + 1).thickness, "{system:?} {number}");
        }
    }
}

#[test]
fn the_same_number_is_four_thicknesses() {
    // 16 gauge, printed tables: 0.0598, 0.0635, 0.0625, 0.0508 in.
    assert!((gauge(GaugeSystem::UncoatedSteel, 16).thickness.mm() - 0.0598 * 25.4).abs() < 1e-12);
    assert!((gauge(GaugeSystem::ZincCoatedSteel, 16).thickness.mm() - 0.0635 * 25.4).abs() < 1e-12);
    assert!((gauge(GaugeSystem::StainlessSteel, 16).thickness.mm() - 0.0625 * 25.4).abs() < 1e-12);
    assert!((gauge(GaugeSystem::Aluminium, 16).thickness.mm() - 0.0508 * 25.4).abs() < 1e-12);
}

#[test]
fn invoice_mass_is_heavier_than_the_metal() {
    // 41.82 lb/ft2 an inch is 8038.7 kg/m3: 2.4 % above the physical density of steel.
    let steel = catalogue().material("material", "carbon steel").unwrap().clone();
    let ordering_kg_m3 = Kind::ArealMass.parse("41.82 lb/ft2").unwrap() / 0.0254;
    assert!((ordering_kg_m3 - 8038.7).abs() < 0.1);
    assert!((ordering_kg_m3 / steel.density.kg_m3() - 1.024).abs() < 0.000_1);
    for number in 10..=24 {
        let row = gauge(GaugeSystem::UncoatedSteel, number);
        let invoiced_kg_m3 = row.trade_mass.unwrap().kg_m2() / (row.thickness.mm() / 1000.0);
        // Both columns are rounded: half of 0.0001 in on 0.0239 in is 0.2 %.
        assert!((invoiced_kg_m3 / ordering_kg_m3 - 1.0).abs() < 0.002_5, "{number}: {invoiced_kg_m3}");
    }
}

#[test]
fn only_the_unread_number_is_marked_from_memory() {
    let catalogue = catalogue();
    let weak: Vec<(GaugeSystem, u32)> =
        catalogue.rows().gauge.iter().filter(|g| g.standing != Standing::Read).map(|g| (g.system, g.gauge)).collect();
    assert_eq!(weak, [(GaugeSystem::Aluminium, 24)]);
}

// Least strengths. A653M as the metric standard rounds them; EN 10346; Aluminum Design Manual table 3.3-1M (5052);
// ASTM A240 (304).
#[rstest]
#[case("SS33", 230.0, 310.0, Standing::Memory)]
#[case("SS37", 255.0, 360.0, Standing::Memory)]
#[case("SS40", 275.0, 380.0, Standing::Memory)]
#[case("SS50-1", 340.0, 450.0, Standing::Memory)]
#[case("SS50-3", 340.0, 480.0, Standing::Memory)]
#[case("SS50-4", 340.0, 410.0, Standing::Memory)]
#[case("SS80-1", 550.0, 570.0, Standing::Read)]
#[case("S220GD", 220.0, 300.0, Standing::Memory)]
#[case("S250GD", 250.0, 330.0, Standing::Memory)]
#[case("S280GD", 280.0, 360.0, Standing::Memory)]
#[case("S320GD", 320.0, 390.0, Standing::Memory)]
#[case("S350GD", 350.0, 420.0, Standing::Memory)]
#[case("3003-H14", 115.0, 140.0, Standing::Memory)]
#[case("5052-O", 65.0, 170.0, Standing::Read)]
#[case("5052-H32", 160.0, 215.0, Standing::Read)]
#[case("5052-H34", 180.0, 235.0, Standing::Read)]
#[case("6061-T6", 240.0, 290.0, Standing::Memory)]
#[case("304", 205.0, 515.0, Standing::Memory)]
fn grades_guarantee_what_their_standard_does(
    #[case] name: &str,
    #[case] fy_mpa: f64,
    #[case] fu_mpa: f64,
    #[case] standing: Standing,
) {
    let catalogue = catalogue();
    let grade = catalogue.grade("grade", name).unwrap();
    assert_eq!(grade.fy.unwrap().mpa(), fy_mpa);
    assert_eq!(grade.fu.unwrap().mpa(), fu_mpa);
    assert_eq!(grade.standing, standing);
}

#[rstest]
#[case("CS-A")]
#[case("CS-B")]
#[case("CS-C")]
#[case("FS")]
#[case("DDS")]
#[case("EDDS")]
#[case("CS")]
#[case("DS")]
#[case("DX51D")]
#[case("DX52D")]
#[case("DX53D")]
fn forming_grades_guarantee_no_strength_and_say_so(#[case] name: &str) {
    let catalogue = catalogue();
    let grade = catalogue.grade("grade", name).unwrap();
    assert_eq!((grade.fy, grade.fu), (None, None));
    let note = grade.note.as_deref().unwrap();
    assert!(note.contains("no guarantee") && note.contains("certificate"), "{note}");
}

#[test]
fn every_grade_has_a_known_metal_and_yields_before_it_breaks() {
    let catalogue = catalogue();
    for grade in &catalogue.rows().grade {
        catalogue.material("grade.material", &grade.material).unwrap();
        if let (Some(fy), Some(fu)) = (grade.fy, grade.fu) {
            assert!(fy < fu, "{}", grade.name);
        }
    }
}

// Density (handbook tables), E, expansion: AISI S100 29 500 ksi = 203 GPa for steel, Aluminum Design Manual
// 70 300 MPa for 5052.
#[rstest]
#[case("carbon steel", 7850.0, 203_395.0, 11.7, GaugeSystem::UncoatedSteel)]
#[case("stainless steel 304", 8000.0, 193_000.0, 17.2, GaugeSystem::StainlessSteel)]
#[case("aluminium 3003", 2730.0, 69_000.0, 23.2, GaugeSystem::Aluminium)]
#[case("aluminium 5052", 2680.0, 70_300.0, 23.8, GaugeSystem::Aluminium)]
#[case("aluminium 6061", 2700.0, 69_000.0, 23.6, GaugeSystem::Aluminium)]
fn metals_have_their_constants(
    #[case] name: &str,
    #[case] density_kg_m3: f64,
    #[case] modulus_mpa: f64,
    #[case] expansion_um_m_k: f64,
    #[case] system: GaugeSystem,
) {
    let catalogue = catalogue();
    let metal = catalogue.material("material", name).unwrap();
    assert_eq!(metal.density.kg_m3(), density_kg_m3);
    assert!((metal.modulus.mpa() - modulus_mpa).abs() < 1.0, "{}", metal.modulus);
    assert_eq!(metal.expansion_um_m_k, expansion_um_m_k);
    assert!((0.29..0.34).contains(&metal.poisson));
    assert_eq!(metal.gauge_system, system);
}

proptest! {
    /// A number outside the table is refused and the nearest one is named; it is never guessed.
    #[test]
    fn numbers_outside_the_table_name_the_nearest(number in prop_oneof![0_u32..10, 25_u32..5000]) {
        let catalogue = catalogue();
        let problem = catalogue.gauge("skin.gauge", GaugeSystem::ZincCoatedSteel, number).unwrap_err();
        let expected = if number < 10 { "10" } else { "24" };
        let Problem::UnknownName { path, value, nearest, .. } = problem else { panic!("{problem:?}") };
        prop_assert_eq!(path, "skin.gauge");
        prop_assert_eq!(value, number.to_string());
        prop_assert_eq!(nearest.as_deref(), Some(expected));
    }
}
