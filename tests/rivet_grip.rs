//! Rivet lengths for a stack, drills for a rivet, room for the head.
// A decimal out of a table is compared exactly: nothing is computed on the way.

use std::collections::HashSet;
use std::sync::Arc;

use proptest::prelude::*;
use raisedbody::catalogue::{Catalogue, DrillKind, Grip, Rows};
use raisedbody::check::{Standing, Verdict};
use raisedbody::error::Problem;
use raisedbody::mechanics::joint::grip::{
    DrillChoice, HoleRange, LengthChoice, Obstacle, RangeEnd, Stack, choose_drill, choose_length, diameter_checks,
    head_clearance, hole_checks,
};
use rstest::rstest;

const INCH: f64 = 25.4;
const INCH_RIVET: &str = "inch blind rivet";

fn catalogue() -> Arc<Catalogue> {
    Catalogue::standard().unwrap()
}

fn stack(grip_mm: f64) -> Stack {
    Stack { sheets_mm: vec![grip_mm], ..Stack::default() }
}

fn choose(product: &str, diameter_mm: f64, grip_mm: f64) -> Result<LengthChoice, Vec<Problem>> {
    // Sheets of 10 mm at most, as many as it takes.
    let whole = (grip_mm / 10.0).floor();
    let mut sheets_mm = vec![10.0; whole as usize];
    sheets_mm.push(grip_mm - 10.0 * whole);
    choose_length(&Stack { sheets_mm, ..Stack::default() }, product, diameter_mm, &catalogue(), "rivet")
}

fn range(product: &str, diameter_mm: f64, length_mm: f64) -> (f64, f64) {
    let catalogue = catalogue();
    let rows = catalogue.grips("rivet", product, diameter_mm).unwrap();
    let row = rows.iter().find(|r| r.length.is_some_and(|l| (l.mm() - length_mm).abs() < 1e-6)).unwrap();
    (row.least.mm(), row.most.mm())
}

// Grip ranges of an extract of ISO 15981:2002, mm: a row for each diameter and length.
#[rstest]
#[case(2.4, &[(6.0, 0.5, 3.0), (9.0, 3.0, 6.0), (12.0, 6.0, 9.0)])]
#[case(3.0, &[(5.0, 0.5, 1.5), (6.0, 1.5, 3.5), (8.0, 3.5, 5.0), (10.0, 5.0, 7.0), (12.0, 7.0, 9.0), (16.0, 9.0, 13.0),
    (20.0, 13.0, 17.0), (25.0, 17.0, 22.0)])]
#[case(3.2, &[(5.0, 0.5, 1.5), (6.0, 1.5, 3.5), (8.0, 3.5, 5.0), (10.0, 5.0, 7.0), (12.0, 7.0, 9.0), (16.0, 9.0, 13.0),
    (20.0, 13.0, 17.0), (25.0, 17.0, 22.0)])]
#[case(4.0, &[(6.0, 1.0, 3.0), (8.0, 3.0, 5.0), (10.0, 5.0, 6.5), (12.0, 6.5, 8.5), (16.0, 8.5, 12.5),
    (20.0, 12.5, 16.5), (25.0, 16.5, 21.0)])]
#[case(4.8, &[(6.0, 1.5, 2.5), (8.0, 2.5, 4.0), (10.0, 4.0, 6.0), (12.0, 6.0, 8.0), (16.0, 8.0, 12.0),
    (20.0, 12.0, 15.0), (25.0, 15.0, 20.0), (30.0, 20.0, 25.0)])]
#[case(5.0, &[(6.0, 1.5, 2.5), (8.0, 2.5, 4.0), (10.0, 4.0, 6.0), (12.0, 6.0, 8.0), (16.0, 8.0, 12.0),
    (20.0, 12.0, 15.0), (25.0, 15.0, 20.0), (30.0, 20.0, 25.0)])]
#[case(6.0, &[(12.0, 3.0, 6.0), (16.0, 6.0, 10.0), (20.0, 10.0, 14.0), (25.0, 14.0, 18.0), (30.0, 18.0, 23.0)])]
#[case(6.4, &[(12.0, 3.0, 6.0), (16.0, 6.0, 10.0), (20.0, 10.0, 14.0), (25.0, 14.0, 18.0), (30.0, 18.0, 23.0)])]
fn iso_15981(#[case] diameter_mm: f64, #[case] rows: &[(f64, f64, f64)]) {
    let catalogue = catalogue();
    let found = catalogue.grips("rivet", "ISO 15981", diameter_mm).unwrap();
    let found: Vec<_> = found.iter().map(|r| (r.length.unwrap().mm(), r.least.mm(), r.most.mm())).collect();
    assert_eq!(found, rows);
}

// US Army TM 10-5410-221-14, table 4-3 (tentsshelters.tpub.com), in; length less greatest grip is .152 in throughout for
// the 3/16 in rivet and .197 in for the 1/4 in rivet, close to 0.8 d.
#[rstest]
#[case(3.0 / 16.0, 0.277, 0.020, 0.125, 0.152)]
#[case(3.0 / 16.0, 0.402, 0.126, 0.250, 0.152)]
#[case(3.0 / 16.0, 0.527, 0.251, 0.375, 0.152)]
#[case(3.0 / 16.0, 0.652, 0.376, 0.500, 0.152)]
#[case(1.0 / 4.0, 0.447, 0.125, 0.250, 0.197)]
#[case(1.0 / 4.0, 0.572, 0.251, 0.375, 0.197)]
#[case(1.0 / 4.0, 0.697, 0.376, 0.500, 0.197)]
#[case(1.0 / 4.0, 0.947, 0.626, 0.750, 0.197)]
fn inch_lengths(
    #[case] diameter_in: f64,
    #[case] length_in: f64,
    #[case] least_in: f64,
    #[case] most_in: f64,
    #[case] tail_in: f64,
) {
    let (least_mm, most_mm) = range(INCH_RIVET, diameter_in * INCH, length_in * INCH);
    assert!((least_mm / INCH - least_in).abs() < 1e-9 && (most_mm / INCH - most_in).abs() < 1e-9);
    assert!((length_in - most_mm / INCH - tail_in).abs() < 1e-9);
    assert!((tail_in / diameter_in - 0.8).abs() < 0.02);
}

// Grip codes of a US Army TM, in. The first digit is the diameter in thirty-seconds of an inch.
#[rstest]
#[case("41", 0.020, 0.062)]
#[case("42", 0.063, 0.125)]
#[case("43", 0.126, 0.187)]
#[case("44", 0.188, 0.250)]
#[case("45", 0.251, 0.312)]
#[case("46", 0.313, 0.375)]
#[case("48", 0.376, 0.500)]
#[case("52", 0.020, 0.125)]
#[case("54", 0.188, 0.250)]
#[case("56", 0.251, 0.375)]
#[case("84", 0.125, 0.250)]
#[case("86", 0.251, 0.375)]
#[case("88", 0.376, 0.500)]
fn grip_codes(#[case] code: &str, #[case] least_in: f64, #[case] most_in: f64) {
    let catalogue = catalogue();
    let row = catalogue.rows().grip.iter().find(|r| r.code.as_deref() == Some(code)).unwrap();
    let digit: f64 = code[..1].parse().unwrap();
    assert!((row.diameter.mm() / INCH * 32.0 - digit).abs() < 1e-9);
    assert!((row.least.mm() / INCH - least_in).abs() < 1e-9 && (row.most.mm() / INCH - most_in).abs() < 1e-9);
    assert!(row.source.contains("US Army TM"));
}

#[test]
fn one_printed_row_has_no_code() {
    let catalogue = catalogue();
    let rows = catalogue.grips("rivet", INCH_RIVET, 5.0 / 32.0 * INCH).unwrap();
    let bare: Vec<&&Grip> = rows.iter().filter(|r| r.code.is_none()).collect();
    assert_eq!(bare.len(), 1);
    assert_eq!(bare[0].name(), "3.2004 to 4.7498 mm");
    assert!(bare[0].source.contains("without its code"));
}

#[test]
fn grip_rows_are_whole() {
    let catalogue = catalogue();
    let rows = &catalogue.rows().grip;
    assert_eq!(rows.len(), 71);
    let mut keys = HashSet::new();
    for row in rows {
        assert!(row.least < row.most, "{} {}", row.product, row.name());
        assert!(keys.insert(format!("{} {} {}", row.product, row.diameter, row.name())));
        assert!(row.length.is_none_or(|l| l > row.most), "{}", row.name());
        assert!(row.source.contains(' '), "{}", row.source);
        assert_eq!(row.standing, Standing::Read);
    }
    let groups: HashSet<(&str, String)> =
        rows.iter().map(|r| (r.product.as_str(), r.diameter.mm().to_string())).collect();
    assert_eq!(groups.len(), 12);
    for (product, diameter) in groups {
        // A longer rivet holds a thicker stack, and nothing is doubled.
        for pair in catalogue.grips("rivet", product, diameter.parse().unwrap()).unwrap().windows(2) {
            assert!(pair[1].least >= pair[0].most && pair[1].most > pair[0].most, "{product} {diameter}");
        }
    }
}

#[test]
fn coating_and_sealant_count() {
    let bare = Stack { sheets_mm: vec![1.2, 1.5], ..Stack::default() };
    assert!((bare.grip_mm() - 2.7).abs() < 1e-12);
    let sealed = Stack { coating_mm: 0.24, sealant_mm: 0.3, ..bare.clone() };
    assert!((sealed.grip_mm() - 3.24).abs() < 1e-12);
    let catalogue = catalogue();
    // The paint and the bead take a 6.4 mm rivet of 12 mm from out of range into it.
    let problems = choose_length(&bare, "ISO 15981", 6.4, &catalogue, "rivet").unwrap_err();
    assert_eq!(problems[0].path(), "grip");
    let choice = choose_length(&sealed, "ISO 15981", 6.4, &catalogue, "rivet").unwrap();
    assert_eq!(choice.row.length.unwrap().mm(), 12.0);
    assert_eq!(choice.near, Some(RangeEnd::Least));
}

#[test]
fn a_stack_on_a_shared_end_takes_the_shorter_rivet() {
    let choice = choose("ISO 15981", 4.8, 4.0).unwrap();
    assert_eq!(choice.row.length.unwrap().mm(), 8.0);
    assert_eq!(choice.near, Some(RangeEnd::Most));
    let warning = choice.warning().unwrap();
    assert!(warning.starts_with("a grip of 4 mm is within 10 % of the thick end of 2.5 to 4 mm"), "{warning}");
}

// 12 mm long, 4.8 mm rivet: 6 to 8 mm, so the ends are 0.2 mm wide.
#[rstest]
#[case(6.19, Some(RangeEnd::Least))]
#[case(6.21, None)]
#[case(7.0, None)]
#[case(7.79, None)]
#[case(7.81, Some(RangeEnd::Most))]
fn near_an_end(#[case] grip_mm: f64, #[case] near: Option<RangeEnd>) {
    let choice = choose("ISO 15981", 4.8, grip_mm).unwrap();
    assert_eq!((choice.row.length.unwrap().mm(), choice.near), (12.0, near));
    assert_eq!(choice.warning().is_some(), near.is_some());
}

/// 3.2 mm is 0.12598 in: between the printed .125 and .126. One of the two holds it, near its end.
#[test]
fn the_gap_of_a_thousandth_is_none() {
    let choice = choose(INCH_RIVET, 3.0 / 16.0 * INCH, 3.2).unwrap();
    assert!((choice.row.length.unwrap().mm() / INCH - 0.402).abs() < 1e-9);
    assert_eq!(choice.near, Some(RangeEnd::Least));
}

#[rstest]
#[case("ISO 15981", 6.4, 2.4, "3 to 6 mm (12 mm long)")]
#[case("ISO 15981", 6.4, 45.0, "18 to 23 mm (30 mm long)")]
#[case(INCH_RIVET, 6.35, 14.0, "9.5504 to 12.7 mm (17.704 mm long) or 15.9 to 19.05 mm (24.054 mm long)")]
fn a_grip_that_none_holds_names_the_nearest(
    #[case] product: &str,
    #[case] diameter_mm: f64,
    #[case] grip_mm: f64,
    #[case] nearest: &str,
) {
    let problems = choose(product, diameter_mm, grip_mm).unwrap_err();
    let expected = Problem::out_of_range("grip", format!("{grip_mm} mm"), nearest);
    assert_eq!(problems, [expected]);
}

#[test]
fn every_problem_of_a_stack_comes_at_once() {
    let bad = Stack { sheets_mm: vec![1.2, f64::NAN, -1.0], coating_mm: -0.1, sealant_mm: f64::INFINITY };
    let problems = choose_length(&bad, "ISO 15967", 4.8, &catalogue(), "rivet").unwrap_err();
    let paths: Vec<&str> = problems.iter().map(Problem::path).collect();
    assert_eq!(paths, ["coating", "sealant", "sheets[1]", "sheets[2]", "rivet"]);
    let none = choose_length(&Stack::default(), "ISO 15981", 4.8, &catalogue(), "rivet").unwrap_err();
    assert_eq!(none[0].path(), "sheets");
    let size = choose_length(&stack(3.0), "ISO 15981", 4.7, &catalogue(), "rivet").unwrap_err();
    assert!(size[0].to_string().contains("\"4.8 mm\" or \"5 mm\""), "{}", size[0]);
}

#[test]
fn a_users_row_takes_part() {
    let own = Rows::parse(
        r#"grip = [ { product = "structural", diameter = "1/4 in", length = "0.6 in", least = "0.08 in", most = "0.35 in", source = "maker's sheet", standing = "given by the user" } ]"#,
    )
    .unwrap();
    let wider = catalogue().extended(&own);
    let choice = choose_length(&stack(4.0), "structural", 6.35, &wider, "rivet").unwrap();
    assert_eq!(choice.row.source, "maker's sheet");
    assert_eq!(wider.overrides(), ["grip structural 6.35 mm 15.24 mm long: your own row"]);
}

#[test]
fn a_users_row_of_one_length_replaces_the_standard_one() {
    let own = Rows::parse(
        r#"grip = [ { product = "inch blind rivet", diameter = "1/4 in", length = "0.447 in", least = "0.1 in", most = "0.24 in", source = "maker's sheet", standing = "given by the user" } ]"#,
    )
    .unwrap();
    let changed = catalogue().extended(&own);
    assert_eq!(changed.rows().grip.len(), 71);
    let choice = choose_length(&stack(2.6), INCH_RIVET, 6.35, &changed, "rivet").unwrap();
    assert_eq!(choice.row.source, "maker's sheet");
    assert_eq!(changed.overrides(), ["grip inch blind rivet 6.35 mm 11.354 mm long: replaced by your own row"]);
}

// D not under the thickest sheet, not over three times it: US Navy aviation training manual, navyaviation.tpub.com/14018.
#[rstest]
#[case(&[1.2, 1.2], 3.6, Verdict::Passes, Verdict::Passes)]
#[case(&[1.2, 1.2], 4.0, Verdict::Passes, Verdict::NotAssessed)]
#[case(&[1.2, 4.8, 1.5], 4.8, Verdict::Passes, Verdict::Passes)]
#[case(&[1.2, 4.8, 1.5], 4.0, Verdict::NotAssessed, Verdict::Passes)]
fn a_rivet_suits_its_sheets(
    #[case] sheets_mm: &[f64],
    #[case] diameter_mm: f64,
    #[case] least: Verdict,
    #[case] most: Verdict,
) {
    let stack = Stack { sheets_mm: sheets_mm.to_vec(), ..Stack::default() };
    let checks = diameter_checks(&stack, diameter_mm).unwrap();
    assert_eq!(checks.iter().map(|c| c.verdict).collect::<Vec<_>>(), [least, most]);
    let problems = diameter_checks(&Stack::default(), f64::NAN).unwrap_err();
    assert_eq!(problems.iter().map(Problem::path).collect::<Vec<_>>(), ["sheets", "diameter"]);
}

const SERIES: [DrillKind; 4] = [DrillKind::Fraction, DrillKind::Number, DrillKind::Letter, DrillKind::Metric];

fn drill_for(product: &str, diameter_mm: f64, series: &[DrillKind]) -> DrillChoice {
    let catalogue = catalogue();
    let rivet = HoleRange::of(catalogue.rivet("rivet", product, diameter_mm).unwrap()).unwrap();
    choose_drill(&rivet, series, &catalogue).unwrap()
}

// Holes of US Army TM 10-5410-221-14, table 4-3, with the drill it pairs them with. For 3/16 in the table pairs #11, which
// is .001 in under the hole it gives: the smallest drill that is not under it is #10.
#[rstest]
#[case(1.0 / 8.0, "#30")]
#[case(5.0 / 32.0, "#20")]
#[case(3.0 / 16.0, "#10")]
#[case(1.0 / 4.0, "F")]
fn number_and_letter_drills(#[case] diameter_in: f64, #[case] drill: &str) {
    let choice = drill_for("IFI-114 grade 30", diameter_in * INCH, &[DrillKind::Number, DrillKind::Letter]);
    assert_eq!(choice.drill.name, drill);
    assert!(choice.broken().all(|c| !c.clause.starts_with("US Army") && c.clause != "product"));
}

#[rstest]
#[case(&SERIES, "6.5 mm", 0.1)]
#[case(&[DrillKind::Letter], "F", 0.1278)]
#[case(&[DrillKind::Fraction], "17/64 in", 0.346_875)]
fn drills_for_a_rivet_of_6_4(#[case] series: &[DrillKind], #[case] drill: &str, #[case] over_mm: f64) {
    let choice = drill_for("ISO 15976", 6.4, series);
    assert_eq!(choice.drill.name, drill);
    assert!((choice.over_rivet_mm - over_mm).abs() < 1e-9);
    assert!((choice.over_least_mm - (over_mm - 0.1)).abs() < 1e-9);
}

// EN 1993-1-3 8.3(11), hole at most d + 0.1 mm (from memory); ISO holes d + 0.1 to d + 0.2 mm (from memory).
#[rstest]
#[case(&[DrillKind::Metric], &[])]
#[case(&[DrillKind::Letter], &["EN 1993-1-3:2006 8.3(11)"])]
#[case(&[DrillKind::Fraction], &["product", "EN 1993-1-3:2006 8.3(11)"])]
fn the_rules_that_a_hole_breaks(#[case] series: &[DrillKind], #[case] broken: &[&str]) {
    let choice = drill_for("ISO 15976", 6.4, series);
    let clauses: Vec<&str> = choice.broken().map(|c| c.clause.as_ref()).collect();
    assert_eq!(clauses, broken);
}

/// A 17/64 in hole for a 1/4 in rivet that asks for it: fine by its product, beyond every general rule.
#[test]
fn a_wide_tolerance_rivet_brings_its_own_hole() {
    let hole_mm = 17.0 / 64.0 * INCH;
    let rivet = HoleRange { diameter_mm: 6.35, least_mm: 6.6, most_mm: Some(6.9), standing: Standing::Given };
    let checks = hole_checks(&rivet, hole_mm);
    let outside: Vec<&str> =
        checks.iter().filter(|c| c.verdict == Verdict::OutsideRange).map(|c| c.clause.as_ref()).collect();
    assert_eq!(outside, ["EN 1993-1-3:2006 8.3(11)", "US Army TM 10-5410-221-14 table 4-3", "MIL-HDBK-5 chapter 8"]);
    assert!(checks.iter().all(|c| c.verdict != Verdict::Fails));
    // Over the chart by 0.12 mm.
    assert!((hole_mm - 0.261 * INCH - 0.12).abs() < 0.005);
    // Without a stated largest hole nobody knows.
    let silent = hole_checks(&HoleRange { most_mm: None, ..rivet.clone() }, hole_mm);
    assert_eq!(silent[1].verdict, Verdict::NotAssessed);
    // A hole that is too tight fails by the product.
    assert_eq!(hole_checks(&rivet, 6.5)[0].verdict, Verdict::Fails);
}

// Holes of MIL-HDBK-5 for blind rivets, from memory.
#[rstest]
#[case(1.0 / 8.0, 0.130)]
#[case(5.0 / 32.0, 0.162)]
#[case(3.0 / 16.0, 0.194)]
#[case(1.0 / 4.0, 0.258)]
fn handbook_holes(#[case] diameter_in: f64, #[case] hole_in: f64) {
    let d = diameter_in * INCH;
    let rivet = HoleRange { diameter_mm: d, least_mm: d, most_mm: None, standing: Standing::Given };
    let verdict = |hole_in: f64| {
        let checks = hole_checks(&rivet, hole_in * INCH);
        checks.iter().find(|c| c.name == "handbook hole").unwrap().verdict
    };
    assert_eq!((verdict(hole_in), verdict(hole_in + 0.0005)), (Verdict::Passes, Verdict::OutsideRange));
}

#[test]
fn a_hole_beyond_the_drills_is_refused() {
    let catalogue = catalogue();
    let rivet = HoleRange { diameter_mm: 8.0, least_mm: 8.1, most_mm: None, standing: Standing::Given };
    let problems = choose_drill(&rivet, &[DrillKind::Metric], &catalogue).unwrap_err();
    assert_eq!(problems, [Problem::out_of_range("hole", "8.1 mm", "at most 8.0 mm")]);
    assert_eq!(choose_drill(&rivet, &[], &catalogue).unwrap_err()[0].path(), "hole");
    let upside_down = HoleRange { least_mm: 8.2, most_mm: Some(8.1), ..rivet };
    assert_eq!(choose_drill(&upside_down, &SERIES, &catalogue).unwrap_err()[0].path(), "hole_most");
}

// Head 13.4 mm: half is 6.7 mm. Elementary geometry of a square bend.
#[rstest]
#[case(Obstacle::Edge { distance_mm: 6.7 }, Verdict::Passes)]
#[case(Obstacle::Edge { distance_mm: 6.6 }, Verdict::Fails)]
#[case(Obstacle::InsideBend { to_leg_mm: 8.7, radius_mm: 2.0 }, Verdict::Passes)]
#[case(Obstacle::InsideBend { to_leg_mm: 8.6, radius_mm: 2.0 }, Verdict::Fails)]
#[case(Obstacle::OutsideBend { to_leg_mm: 9.9, radius_mm: 2.0, thickness_mm: 1.2 }, Verdict::Passes)]
#[case(Obstacle::OutsideBend { to_leg_mm: 9.8, radius_mm: 2.0, thickness_mm: 1.2 }, Verdict::Fails)]
fn room_for_the_head(#[case] obstacle: Obstacle, #[case] verdict: Verdict) {
    let checks = head_clearance(13.4, 6.4, obstacle, None).unwrap();
    assert_eq!((checks.len(), checks[0].verdict), (1, verdict));
}

#[test]
fn the_tool_needs_room_beside_a_standing_leg() {
    let leg = Obstacle::InsideBend { to_leg_mm: 9.0, radius_mm: 1.0 };
    let verdict = |nose_mm| head_clearance(13.4, 6.4, leg, Some(nose_mm)).unwrap()[1].verdict;
    assert_eq!((verdict(18.0), verdict(18.5)), (Verdict::Passes, Verdict::Fails));
    let edge = head_clearance(13.4, 6.4, Obstacle::Edge { distance_mm: 10.0 }, Some(40.0)).unwrap();
    assert_eq!(edge.len(), 1);
    let bad = Obstacle::OutsideBend { to_leg_mm: 9.0, radius_mm: -1.0, thickness_mm: f64::NAN };
    let problems = head_clearance(5.0, 6.4, bad, Some(0.0)).unwrap_err();
    let paths: Vec<&str> = problems.iter().map(Problem::path).collect();
    assert_eq!(paths, ["head", "nose", "radius", "thickness"]);
}

proptest! {
    /// The chosen range holds the stack to half a thousandth of an inch, and no shorter rivet's does.
    #[test]
    fn the_choice_is_the_shortest_that_holds(
        (product, diameter_mm) in prop::sample::select(vec![
            ("ISO 15981", 2.4), ("ISO 15981", 3.2), ("ISO 15981", 4.0), ("ISO 15981", 4.8), ("ISO 15981", 6.4),
            (INCH_RIVET, 3.175), (INCH_RIVET, 3.968_75), (INCH_RIVET, 4.7625), (INCH_RIVET, 6.35),
        ]),
        grip_mm in 0.1_f64..30.0,
    ) {
        prop_assume!(grip_mm % 10.0 > 0.06);
        let catalogue = catalogue();
        let rows = catalogue.grips("rivet", product, diameter_mm).unwrap();
        let holds = |r: &Grip| grip_mm > r.least.mm() - 0.0128 && grip_mm < r.most.mm() + 0.0128;
        match choose(product, diameter_mm, grip_mm) {
            Ok(choice) => {
                prop_assert!(holds(&choice.row));
                let place = rows.iter().position(|r| **r == choice.row).unwrap();
                let strictly = |r: &Grip| grip_mm > r.least.mm() && grip_mm < r.most.mm();
                prop_assert!(!rows[..place].iter().any(|r| strictly(r)));
                let inner_mm = 0.1 * (choice.row.most.mm() - choice.row.least.mm()) + 1e-9;
                let well_in = grip_mm > choice.row.least.mm() + inner_mm && grip_mm < choice.row.most.mm() - inner_mm;
                prop_assert!(!(well_in && choice.near.is_some()));
            }
            Err(problems) => {
                prop_assert_eq!(problems[0].path(), "grip");
                prop_assert!(!rows.iter().any(|r| grip_mm > r.least.mm() && grip_mm < r.most.mm()));
            }
        }
    }

    /// No drill of the series lies between the smallest hole and the chosen drill; more series never make it larger.
    #[test]
    fn the_drill_is_the_smallest_that_fits(diameter_mm in 2.4_f64..7.0, over_mm in 0.0_f64..0.8) {
        let catalogue = catalogue();
        let least_mm = diameter_mm + over_mm;
        let rivet = HoleRange { diameter_mm, least_mm, most_mm: None, standing: Standing::Given };
        let all = choose_drill(&rivet, &SERIES, &catalogue).unwrap();
        for kind in SERIES {
            if let Ok(one) = choose_drill(&rivet, &[kind], &catalogue) {
                let hole_mm = one.drill.diameter.mm();
                prop_assert!(hole_mm >= least_mm - 1e-9);
                prop_assert!(all.drill.diameter.mm() <= hole_mm);
                prop_assert!((one.over_rivet_mm - (hole_mm - diameter_mm)).abs() < 1e-12);
                let drills = catalogue.rows().drill.iter().filter(|d| d.kind == kind);
                prop_assert_eq!(drills.filter(|d| d.diameter.mm() > least_mm && d.diameter.mm() < hole_mm).count(), 0);
            }
        }
    }

    /// A wider hole never mends a rule on the widest hole.
    #[test]
    fn widening_never_mends(hole_mm in 6.4_f64..7.5, more_mm in 0.0_f64..1.0) {
        let rivet = HoleRange { diameter_mm: 6.35, least_mm: 6.4, most_mm: Some(6.7), standing: Standing::Given };
        let wide = hole_checks(&rivet, hole_mm + more_mm);
        for (narrow, wide) in hole_checks(&rivet, hole_mm).iter().zip(&wide) {
            let at_most = !narrow.name.ends_with("least");
            prop_assert!(!at_most || narrow.verdict == Verdict::Passes || wide.verdict != Verdict::Passes);
        }
    }
}
