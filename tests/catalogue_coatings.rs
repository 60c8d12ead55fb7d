//! Coating masses against the standards' tables and the rules between their columns.
// A decimal out of a table is compared exactly: nothing is computed on the way.

use std::sync::Arc;

use raisedbody::catalogue::{Catalogue, Coating, CoatingFamily, MetalLost};
use raisedbody::check::Standing;
use raisedbody::quantity::ArealMass;
use rstest::rstest;

const A653: &str = "ASTM A653/A653M-15";

fn catalogue() -> Arc<Catalogue> {
    Catalogue::standard().unwrap()
}

fn coating(designation: &str) -> Coating {
    catalogue().coating("coating", designation).unwrap().clone()
}

/// Thickness of the mass on one side, micrometres.
fn thickness_um(mass: ArealMass, coating: &Coating) -> f64 {
    mass.kg_m2() / coating.density.kg_m3() * 1e6
}

// ASTM A653/A653M-15, table 1 (scribd.com/document/701072025): triple-spot both sides, triple-spot one side,
// single-spot both sides.
#[rstest]
#[case("G30", "0.30 oz/ft2", "0.10 oz/ft2", "0.25 oz/ft2")]
#[case("G40", "0.40 oz/ft2", "0.12 oz/ft2", "0.30 oz/ft2")]
#[case("G60", "0.60 oz/ft2", "0.20 oz/ft2", "0.50 oz/ft2")]
#[case("G90", "0.90 oz/ft2", "0.32 oz/ft2", "0.80 oz/ft2")]
#[case("G100", "1.00 oz/ft2", "0.36 oz/ft2", "0.90 oz/ft2")]
#[case("G115", "1.15 oz/ft2", "0.40 oz/ft2", "1.00 oz/ft2")]
#[case("G140", "1.40 oz/ft2", "0.48 oz/ft2", "1.20 oz/ft2")]
#[case("G165", "1.65 oz/ft2", "0.56 oz/ft2", "1.40 oz/ft2")]
#[case("G185", "1.85 oz/ft2", "0.64 oz/ft2", "1.60 oz/ft2")]
#[case("G210", "2.10 oz/ft2", "0.72 oz/ft2", "1.80 oz/ft2")]
#[case("G235", "2.35 oz/ft2", "0.80 oz/ft2", "2.00 oz/ft2")]
#[case("A25", "0.25 oz/ft2", "0.08 oz/ft2", "0.20 oz/ft2")]
#[case("A40", "0.40 oz/ft2", "0.12 oz/ft2", "0.30 oz/ft2")]
#[case("A60", "0.60 oz/ft2", "0.20 oz/ft2", "0.50 oz/ft2")]
#[case("Z90", "90 g/m2", "30 g/m2", "75 g/m2")]
#[case("Z120", "120 g/m2", "36 g/m2", "90 g/m2")]
#[case("Z180", "180 g/m2", "60 g/m2", "150 g/m2")]
#[case("Z275", "275 g/m2", "94 g/m2", "235 g/m2")]
#[case("Z350", "350 g/m2", "120 g/m2", "300 g/m2")]
#[case("Z450", "450 g/m2", "154 g/m2", "385 g/m2")]
#[case("Z600", "600 g/m2", "204 g/m2", "510 g/m2")]
#[case("ZF75", "75 g/m2", "24 g/m2", "60 g/m2")]
#[case("ZF120", "120 g/m2", "36 g/m2", "90 g/m2")]
#[case("ZF180", "180 g/m2", "60 g/m2", "150 g/m2")]
fn a653_table_1(#[case] designation: &str, #[case] both: &str, #[case] one: &str, #[case] single: &str) {
    let row = coating(designation);
    assert_eq!(row.standard, A653);
    assert_eq!(row.both_sides, Some(both.parse().unwrap()));
    assert_eq!(row.one_side, Some(one.parse().unwrap()));
    assert_eq!(row.single_spot, Some(single.parse().unwrap()));
    let iron = designation.starts_with('A') || designation.starts_with("ZF");
    assert_eq!(row.family, if iron { CoatingFamily::ZincIron } else { CoatingFamily::Zinc });
    // The masses of both families were read; the density of the alloy was not.
    assert_eq!(row.standing, if iron { Standing::Memory } else { Standing::Read });
}

/// A653 table 1, note A: the one-side minimum is 40 % of the both-sides single-spot value.
#[test]
fn a653_one_side_is_two_fifths_of_the_single_spot() {
    let catalogue = catalogue();
    let rows: Vec<&Coating> =
        catalogue.rows().coating.iter().filter(|c| c.standard == A653 && c.both_sides.is_some()).collect();
    assert_eq!(rows.len(), 24);
    for row in rows {
        let (one, single) = (row.one_side.unwrap().kg_m2(), row.single_spot.unwrap().kg_m2());
        assert!((one / single - 0.4).abs() < 1e-9, "{}: {one} of {single} kg/m2", row.designation);
    }
}

#[rstest]
#[case("G01")]
#[case("A01")]
#[case("Z001")]
#[case("ZF001")]
fn designations_without_a_minimum_have_no_mass(#[case] designation: &str) {
    let row = coating(designation);
    assert_eq!((row.both_sides, row.one_side, row.single_spot), (None, None, None));
    assert!(row.note.unwrap().contains("no minimum mass"));
}

#[test]
fn masses_fall_from_triple_spot_to_single_spot_to_one_side() {
    let catalogue = catalogue();
    for row in &catalogue.rows().coating {
        if let (Some(both), Some(single)) = (row.both_sides, row.single_spot) {
            assert!(both > single, "{}", row.designation);
        }
        if let (Some(both), Some(one)) = (row.both_sides, row.one_side) {
            assert!(one.kg_m2() <= both.kg_m2() / 2.0, "{}: a side holds at most half", row.designation);
        }
    }
}

// Micrometres a side at an even split, by 7.14 g/m2 to the micrometre (A653 8.1.3).
#[rstest]
#[case("G30", 6.4)]
#[case("G60", 12.8)]
#[case("G90", 19.2)]
#[case("G115", 24.6)]
#[case("G140", 29.9)]
#[case("G185", 39.5)]
#[case("G235", 50.2)]
#[case("Z100", 7.0)]
#[case("Z140", 9.8)]
#[case("Z275", 19.3)]
#[case("Z350", 24.5)]
fn mass_gives_thickness_a_side(#[case] designation: &str, #[case] side_um: f64) {
    let row = coating(designation);
    let even_um = thickness_um(row.both_sides.unwrap(), &row) / 2.0;
    assert!((even_um - side_um).abs() < 0.051, "{even_um}");
}

// The thinner side that A653 still allows: the one-side minimum over 7.14 g/m2 a micrometre.
#[rstest]
#[case("G90", 13.7)]
#[case("G60", 8.5)]
#[case("A60", 8.5)]
fn the_thinner_side_may_be_much_thinner(#[case] designation: &str, #[case] least_um: f64) {
    let row = coating(designation);
    let side_um = thickness_um(row.one_side.unwrap(), &row);
    assert!((side_um - least_um).abs() < 0.051, "{side_um}");
    assert!(side_um < 0.8 * thickness_um(row.both_sides.unwrap(), &row) / 2.0);
}

/// A653 8.1.3: 1.00 oz/ft2 is 1.68 mil of coating.
#[test]
fn an_ounce_is_one_and_two_thirds_mils() {
    let mils = thickness_um("1.00 oz/ft2".parse().unwrap(), &coating("G90")) / 25.4;
    assert!((mils - 1.68).abs() < 0.005, "{mils}");
}

// The number of a per-side designation is the mass of each side (GalvInfoNote 1.1, table 3).
#[rstest]
#[case("40G40G", "40 g/m2")]
#[case("13Z13Z", "0.13 oz/ft2")]
#[case("60G60G", "60 g/m2")]
#[case("45A45A", "45 g/m2")]
fn per_side_designations_sum_to_both(#[case] designation: &str, #[case] each: &str) {
    let row = coating(designation);
    let each: ArealMass = each.parse().unwrap();
    assert_eq!(row.one_side, Some(each));
    assert!((row.both_sides.unwrap().kg_m2() - 2.0 * each.kg_m2()).abs() < 1e-12);
}

#[test]
fn g60_is_not_60g60g() {
    // 0.60 oz/ft2 on both sides together is 183 g/m2; 60 g/m2 on each is 120 g/m2.
    let ratio = coating("G60").both_sides.unwrap().kg_m2() / coating("60G60G").both_sides.unwrap().kg_m2();
    assert!((ratio - 183.1 / 120.0).abs() < 0.001, "{ratio}");
}

#[rstest]
#[case("Z275", "EN Z275", 0.0)]
#[case("Z350", "EN Z350", 0.0)]
#[case("ZF120", "EN ZF120", 10.0)]
fn one_designation_of_two_standards_is_two_rows(
    #[case] astm: &str,
    #[case] european: &str,
    #[case] single_spot_difference_g_m2: f64,
) {
    let (astm, european) = (coating(astm), coating(european));
    assert_eq!(astm.both_sides, european.both_sides);
    let difference = (european.single_spot.unwrap().kg_m2() - astm.single_spot.unwrap().kg_m2()) * 1000.0;
    assert!((difference - single_spot_difference_g_m2).abs() < 1e-9, "{difference}");
}

// ASTM A463 (restated by a secondary text), ASTM A792 and EN 10346 (from memory): triple spot and single spot.
#[rstest]
#[case("T1-25", "0.25 oz/ft2", "0.20 oz/ft2", CoatingFamily::Aluminium)]
#[case("T1-40", "0.40 oz/ft2", "0.30 oz/ft2", CoatingFamily::Aluminium)]
#[case("T2-75", "0.75 oz/ft2", "0.65 oz/ft2", CoatingFamily::Aluminium)]
#[case("AZ50", "0.50 oz/ft2", "0.43 oz/ft2", CoatingFamily::AluminiumZinc)]
#[case("AZ55", "0.55 oz/ft2", "0.50 oz/ft2", CoatingFamily::AluminiumZinc)]
#[case("AZ60", "0.60 oz/ft2", "0.52 oz/ft2", CoatingFamily::AluminiumZinc)]
#[case("AZM150", "150 g/m2", "130 g/m2", CoatingFamily::AluminiumZinc)]
#[case("AZM165", "165 g/m2", "150 g/m2", CoatingFamily::AluminiumZinc)]
#[case("AZM180", "180 g/m2", "155 g/m2", CoatingFamily::AluminiumZinc)]
#[case("Z200", "200 g/m2", "170 g/m2", CoatingFamily::Zinc)]
#[case("Z225", "225 g/m2", "195 g/m2", CoatingFamily::Zinc)]
#[case("ZF100", "100 g/m2", "85 g/m2", CoatingFamily::ZincIron)]
#[case("AZ100", "100 g/m2", "85 g/m2", CoatingFamily::AluminiumZinc)]
#[case("AZ150", "150 g/m2", "130 g/m2", CoatingFamily::AluminiumZinc)]
#[case("AZ185", "185 g/m2", "160 g/m2", CoatingFamily::AluminiumZinc)]
#[case("AS080", "80 g/m2", "60 g/m2", CoatingFamily::Aluminium)]
#[case("AS100", "100 g/m2", "75 g/m2", CoatingFamily::Aluminium)]
#[case("AS120", "120 g/m2", "90 g/m2", CoatingFamily::Aluminium)]
#[case("AS150", "150 g/m2", "115 g/m2", CoatingFamily::Aluminium)]
fn other_standards(#[case] designation: &str, #[case] both: &str, #[case] single: &str, #[case] family: CoatingFamily) {
    let row = coating(designation);
    assert_eq!(row.both_sides, Some(both.parse().unwrap()));
    assert_eq!(row.single_spot, Some(single.parse().unwrap()));
    assert_eq!(row.family, family);
    assert_eq!(row.standing, Standing::Memory);
}

// Density by family, kg/m3: zinc 7140 (A653 8.1.3), zinc-iron as zinc, aluminium-zinc 3750 (3.75 g/m2 a micrometre).
#[test]
fn density_is_that_of_the_family() {
    let catalogue = catalogue();
    for row in &catalogue.rows().coating {
        let expected_kg_m3 = match row.family {
            CoatingFamily::Zinc | CoatingFamily::ZincIron => 7140.0,
            CoatingFamily::AluminiumZinc => 3750.0,
            CoatingFamily::Aluminium => 3000.0,
        };
        assert_eq!(row.density.kg_m3(), expected_kg_m3, "{}", row.designation);
    }
}

// ISO 9223:2012, table 2, upper bound of each category in micrometres a year; CX of zinc from memory.
#[rstest]
#[case(MetalLost::Steel, [1.3, 25.0, 50.0, 80.0, 200.0, 700.0])]
#[case(MetalLost::Zinc, [0.1, 0.7, 2.1, 4.2, 8.4, 25.0])]
fn corrosivity_categories_follow_each_other(#[case] metal: MetalLost, #[case] upper_um_a: [f64; 6]) {
    let catalogue = catalogue();
    let mut low_um_a = 0.0;
    for (category, high_um_a) in ["C1", "C2", "C3", "C4", "C5", "CX"].into_iter().zip(upper_um_a) {
        let row = catalogue.corrosivity("service.corrosivity", category, metal).unwrap();
        assert_eq!(row.low.um_a(), low_um_a, "{category}");
        assert_eq!(row.high.um_a(), high_um_a, "{category}");
        let unread = category == "CX" && metal == MetalLost::Zinc;
        assert_eq!(row.standing, if unread { Standing::Memory } else { Standing::Read });
        low_um_a = high_um_a;
    }
}
