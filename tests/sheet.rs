//! One sheet: thickness under the coating, mass and strength, worked by hand from ASTM A653/A653M-15 and the galvanized
//! sheet gauge (source and standing of each row in the catalogue); and what is refused.

use proptest::prelude::*;
use raisedbody::catalogue::{Catalogue, Rows};
use raisedbody::check::{Standing, Verdict};
use raisedbody::error::Problem;
use raisedbody::mechanics::joint::{BlindRivet, Demand, Format, Lap, Method, RivetOrder};
use raisedbody::mechanics::sheet::{Sheet, SheetOrder, areal_mass_kg_m2, design_thickness_mm};
use rstest::rstest;

fn order(gauge: u32, coating: &str, grade: &str) -> SheetOrder {
    let named = |name: &str| (!name.is_empty()).then(|| name.to_owned());
    SheetOrder { gauge: Some(gauge), coating: named(coating), grade: named(grade), ..SheetOrder::default() }
}

fn sheet(order: &SheetOrder) -> Result<Sheet, Vec<Problem>> {
    Sheet::new(order, &Catalogue::standard().unwrap(), "skin")
}

// 18 gauge galvanized: 0.0516 in = 1.31064 mm with its coating. G90: 0.90 oz/ft2 = 274.64 g/m2 on both sides, at
// 7.14 g/m2 to the micrometre 19.23 um a side. Base 1.31064 - 2 × 0.01923 = 1.2722 mm; mass 1.2722 mm × 7850 kg/m3 +
// 0.2746 kg/m2 = 10.261 kg/m2.
#[test]
fn g90_18_gauge_by_hand() {
    let sheet = sheet(&order(18, "G90", "SS33")).unwrap();
    assert!((sheet.thickness_mm - 1.310_64).abs() < 1e-9);
    assert!((sheet.coating.as_ref().unwrap().even_um - 19.23).abs() < 0.005);
    assert!((sheet.base_mm - 1.2722).abs() < 5e-5);
    assert!((sheet.areal_mass_kg_m2 - 10.261).abs() < 5e-4);
    // ASTM A653 grade SS33: 230 and 310 MPa (from memory).
    assert_eq!((sheet.fy_mpa, sheet.fu_mpa), (Some(230.0), Some(310.0)));
    assert_eq!(sheet.label, "18 ga G90 SS33");
    assert_eq!(sheet.standing, Standing::Memory);
    // The thinner side may have 0.32 oz/ft2 (97.65 g/m2): 13.68 um.
    assert!((sheet.coating.unwrap().least_um - 13.68).abs() < 0.005);
}

// EN 1993-1-3:2006 3.2.4(3) and AISI S100-16 B7.1 (from memory): up to 5 % under the nominal is covered, beyond that
// the least thickness over 0.95 counts. 18 gauge G90: (0.0466 in - coating) / 0.95 = 1.14518/0.95 = 1.2054 mm.
#[rstest]
#[case(1.0, 0.96, 1.0)]
#[case(1.0, 0.95, 1.0)]
#[case(1.0, 0.90, 0.947_37)]
fn design_thickness(#[case] base_mm: f64, #[case] least_mm: f64, #[case] design_mm: f64) {
    assert!((design_thickness_mm(base_mm, least_mm) - design_mm).abs() < 5e-6);
}

#[test]
fn strength_is_worked_with_the_design_thickness() {
    let bought = sheet(&order(18, "G90", "SS33")).unwrap();
    assert!((bought.design_mm - 1.2054).abs() < 5e-5);
    // A measured thickness needs no allowance for tolerance.
    let measured =
        sheet(&SheetOrder { gauge: None, thickness_mm: Some(1.310_64), ..order(18, "G90", "SS33") }).unwrap();
    assert!((measured.design_mm - measured.base_mm).abs() < 1e-12 && (measured.base_mm - bought.base_mm).abs() < 1e-12);
}

// Coating or metal decides the gauge series (values of the catalogue's gauge tables).
#[rstest]
#[case("", "SS33", 0.0478)]
#[case("none", "SS33", 0.0478)]
#[case("A40", "SS33", 0.0516)]
#[case("", "304", 0.05)]
#[case("", "5052-H32", 0.0403)]
fn gauge_18_of_each_series(#[case] coating: &str, #[case] grade: &str, #[case] inches: f64) {
    assert!((sheet(&order(18, coating, grade)).unwrap().thickness_mm - inches * 25.4).abs() < 1e-9);
}

// ASTM A653 sets no least strength for commercial steel: what is not guaranteed is not used.
#[rstest]
#[case("CS-B")]
#[case("DX51D")]
#[case("")]
fn without_a_guarantee_the_joint_is_not_assessed(#[case] grade: &str) {
    let soft = sheet(&order(18, "G90", grade)).unwrap();
    assert_eq!((soft.fy_mpa, soft.fu_mpa), (None, None));
    let rivet = RivetOrder { diameter_mm: 4.8, product: Some("ISO 15976".to_owned()), ..RivetOrder::default() };
    let rivet = BlindRivet::new(&rivet, &Catalogue::standard().unwrap(), "").unwrap();
    let lap = Lap::new(soft.clone(), soft, rivet, 60.0, 12.0).unwrap();
    for method in [Method::En1993_1_3, Method::AisiS100(Format::Allowable), Method::AisiS100Bolts(Format::Allowable)] {
        let report = lap.check(Demand { shear_n: 1.0, tension_n: 1.0 }, method).unwrap();
        assert_eq!((report.verdict(), report.utilisation()), (Verdict::NotAssessed, None), "{method}");
    }
}

#[test]
fn a_certificate_stands_in_for_the_grade_and_is_given_by_the_user() {
    let certified = SheetOrder { fy_mpa: Some(210.0), fu_mpa: Some(330.0), ..order(18, "", "CS-B") };
    let certified = sheet(&certified).unwrap();
    assert_eq!((certified.fy_mpa, certified.fu_mpa), (Some(210.0), Some(330.0)));
    let own = SheetOrder { thickness_mm: Some(1.2), fu_mpa: Some(330.0), ..SheetOrder::default() };
    assert_eq!(sheet(&own).unwrap().standing, Standing::Given);
    // A coating row from memory thins the base metal: the sheet is worth no more than that row.
    assert_eq!(sheet(&SheetOrder { coating: Some("A40".to_owned()), ..own }).unwrap().standing, Standing::Memory);
}

// What is refused names the field, the value, and what would be right.
#[rstest]
#[case(order(9, "", "SS33"), "skin.gauge", "unknown gauge of uncoated steel \"9\"; did you mean \"10\"")]
#[case(order(26, "G90", ""), "skin.gauge", "did you mean \"24\"")]
#[case(order(18, "G9O", ""), "skin.coating", "unknown coating \"G9O\"; did you mean \"G90\"")]
#[case(order(18, "", "SS-33"), "skin.grade", "did you mean \"SS33\"")]
#[case(order(18, "G90", "304"), "skin.coating", "goes on carbon steel, not on stainless steel 304")]
#[case(order(18, "AZ150", "5052-H32"), "skin.coating", "goes on carbon steel")]
#[case(SheetOrder { thickness_mm: Some(1.2), ..order(18, "", "") }, "skin.thickness", "give one of them")]
#[case(SheetOrder::default(), "skin.gauge", "missing; write gauge = 18 or thickness")]
#[case(SheetOrder { thickness_mm: Some(-1.2), ..SheetOrder::default() }, "skin.thickness", "-1.2 mm is out of range")]
#[case(SheetOrder { thickness_mm: Some(12.0), ..SheetOrder::default() }, "skin.thickness", "0.2 to 6 mm")]
#[case(SheetOrder { thickness_mm: Some(f64::NAN), ..SheetOrder::default() }, "skin.thickness", "out of range")]
#[case(SheetOrder { fu_mpa: Some(5000.0), ..order(18, "", "") }, "skin.fu", "20 to 2000 MPa")]
#[case(SheetOrder { fy_mpa: Some(0.0), ..order(18, "", "") }, "skin.fy", "20 to 2000 MPa")]
#[case(SheetOrder { fy_mpa: Some(400.0), fu_mpa: Some(300.0), ..order(18, "", "") }, "skin.fy", "cannot exceed")]
#[case(SheetOrder { fy_mpa: Some(400.0), ..order(18, "", "SS33") }, "skin.fy", "exceeds the tensile 310 MPa")]
#[case(SheetOrder { fu_mpa: Some(200.0), ..order(18, "", "SS33") }, "skin.fu", "the yield of 230 MPa exceeds")]
fn refused(#[case] order: SheetOrder, #[case] path: &str, #[case] words: &str) {
    let problems = sheet(&order).unwrap_err();
    assert_eq!(problems.iter().map(Problem::path).collect::<Vec<_>>(), [path], "{problems:?}");
    assert!(problems[0].to_string().contains(words), "{}", problems[0]);
}

#[test]
fn independent_problems_come_together() {
    let order = SheetOrder { fu_mpa: Some(5000.0), ..order(99, "G9O", "SS-33") };
    let problems = sheet(&order).unwrap_err();
    let paths: Vec<&str> = problems.iter().map(Problem::path).collect();
    assert!(["skin.coating", "skin.grade", "skin.fu"].iter().all(|p| paths.contains(p)), "{paths:?}");
}

// A user's own row can hold anything: what leaves no metal is refused, not reckoned with.
#[rstest]
#[case(
    "gauge = [ { system = \"uncoated steel\", gauge = 18, thickness = \"-1.2 mm\", source = \"x\", standing = \"assumed\" } ]"
)]
#[case(
    "coating = [ { designation = \"thick\", family = \"zinc\", standard = \"x\", both_sides = \"20 kg/m2\", density = \"7140 kg/m3\", source = \"x\", standing = \"assumed\" } ]"
)]
fn own_rows_that_leave_no_metal_are_refused(#[case] rows: &str) {
    let catalogue = Catalogue::standard().unwrap().extended(&Rows::parse(rows).unwrap());
    let coating = if rows.starts_with("coating") { "thick" } else { "" };
    let problems = Sheet::new(&order(18, coating, "SS33"), &catalogue, "skin").unwrap_err();
    assert_eq!(problems[0].path(), "skin.gauge");
}

proptest! {
    #[test]
    fn a_coating_lies_within_the_thickness(mm in 0.5..6.0f64, coating in prop::sample::select(vec!["G30", "G90", "A40", "Z275", "AZM150"])) {
        let bare = SheetOrder { thickness_mm: Some(mm), ..SheetOrder::default() };
        let coated = sheet(&SheetOrder { coating: Some(coating.to_owned()), ..bare.clone() }).unwrap();
        let bare = sheet(&bare).unwrap();
        prop_assert!((bare.base_mm - mm).abs() < 1e-12 && coated.base_mm < mm);
        let on_sheet = coated.coating.unwrap();
        prop_assert!((coated.base_mm + 2.0 * on_sheet.even_um / 1000.0 - mm).abs() < 1e-9);
        prop_assert!(on_sheet.least_um <= on_sheet.even_um);
        // Zinc and its kin are lighter than steel for the same thickness.
        prop_assert!(coated.areal_mass_kg_m2 < bare.areal_mass_kg_m2);
        prop_assert!((bare.areal_mass_kg_m2 - areal_mass_kg_m2(mm, 7850.0, 0.0)).abs() < 1e-9);
    }

    #[test]
    fn more_gauge_is_less_sheet(gauge in 10u32..24, coating in prop::sample::select(vec!["", "G90"])) {
        let [thick, thin] = [gauge, gauge + 1].map(|g| sheet(&order(g, coating, "SS33")).unwrap());
        prop_assert!(thick.design_mm > thin.design_mm && thick.areal_mass_kg_m2 > thin.areal_mass_kg_m2);
    }
}
