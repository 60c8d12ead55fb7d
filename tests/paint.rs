//! Paint and sealant: published spreading rates and volumes, durability by both editions of ISO 12944, zinc and paint
//! together, and the laws that hold for all inputs.

use proptest::prelude::*;
use raisedbody::catalogue::{Catalogue, Durability, LossOf, Rows};
use raisedbody::check::Standing;
use raisedbody::error::Problem;
use raisedbody::mechanics::paint::{
    Bead, CATEGORIES, Coat, EDITION, FilmDurability, cartridges, duplex_life, duplex_life_by, film_durability,
    spreading_rate_m2_l,
};
use raisedbody::quantity::{Kind, ft2_gal};
use rstest::rstest;

use Durability::{High, Low, Medium, VeryHigh};

const MIL_UM: f64 = 25.4;

fn paths(problems: &[Problem]) -> Vec<&str> {
    problems.iter().map(Problem::path).collect()
}

// ft2/gal = 1604 VS / DFT[mil] and m2/L = 1000 VS / DFT[um] = 10 VS% / DFT: scribd.com/document/343849341.
#[test]
fn both_forms_of_the_theoretical_rate() {
    // 231 in3 a gallon, 144 in2 a square foot, 0.001 in a mil.
    let exact = 231.0 / 144.0 / 0.001;
    let all = ft2_gal(spreading_rate_m2_l(1.0, MIL_UM, 0.0));
    assert!((all - exact).abs() < 1e-9 && (all - 1604.17).abs() < 0.005, "{all}");
    assert_eq!(spreading_rate_m2_l(0.45, 60.0, 0.0), 10.0 * 45.0 / 60.0);
}

// 42 % solids at 1.6 mil cover 421 ft2/gal, restated by a secondary text.
#[test]
fn a_published_rate_in_feet_and_gallons() {
    let rate = ft2_gal(spreading_rate_m2_l(0.42, 1.6 * MIL_UM, 0.0));
    assert_eq!(rate.round(), 421.0, "{rate}");
}

// 100 ft2/gal in theory and 30 % lost leave 70: corrosionpedia.com/definition/2294; the same as a transfer efficiency of
// 70 %: paintcenter.org/rj/oct03e.cfm.
#[test]
fn a_published_loss() {
    let coat = Coat { film_um: 1000.0 / Kind::SpreadingRate.parse("100 ft2/gal").unwrap(), solids: 1.0, loss: 0.3 };
    assert!((ft2_gal(coat.theoretical_m2_l()) - 100.0).abs() < 1e-9);
    assert!((ft2_gal(coat.practical_m2_l()) - 70.0).abs() < 1e-9);
}

// Wet film = DFT / VS; by hand 60 um at 45 % go on at 133 um.
#[test]
fn wet_film_by_hand() {
    let coat = Coat { film_um: 60.0, solids: 0.45, loss: 0.3 };
    assert!((coat.wet_film_um() - 133.333_333).abs() < 1e-6);
    assert!((coat.litres(5.25) - 1.0).abs() < 1e-12);
}

// A lap film of 25 mm by 0.5 mm takes 12.5 mL a metre; rectangle w d, fillet a²/2, round π d²/4.
#[rstest]
#[case(Bead::Rectangle { width_mm: 25.0, depth_mm: 0.5 }, 12.5)]
#[case(Bead::Fillet { leg_mm: 6.0 }, 18.0)]
#[case(Bead::Round { diameter_mm: 6.0 }, 28.274_333_882)]
fn a_metre_of_sealant(#[case] bead: Bead, #[case] ml: f64) {
    assert!((1000.0 * bead.litres(1.0, 0.0) - ml).abs() < 1e-9);
    assert!((1000.0 * bead.litres(2.0, 0.12) - 2.24 * ml).abs() < 1e-9);
}

// 10.1 fl oz are 18.2 to 18.3 in3 (midwestsealantsupply.com/23823/24023.html), 310 mL 18.9 in3 (calcexp.com sealant page).
#[rstest]
#[case("10.1 fl oz", 18.2, 18.3)]
#[case("310 mL", 18.85, 18.95)]
fn contents_of_cartridges(#[case] content: &str, #[case] least_in3: f64, #[case] most_in3: f64) {
    let in3 = Kind::Volume.parse(content).unwrap() * 1e6 / (25.4 * 25.4 * 25.4);
    assert!((least_in3..=most_in3).contains(&in3), "{in3}");
}

#[rstest]
#[case(0.0, 0)]
#[case(1e-9, 0)]
#[case(0.001, 1)]
#[case(0.31, 1)]
#[case(0.3101, 2)]
#[case(3.1, 10)]
fn cartridges_are_whole(#[case] sealant_l: f64, #[case] count: u32) {
    assert_eq!(cartridges(sealant_l, 0.310).unwrap(), count);
}

// Waste of sealant: expert 0 to 5 %, average 10 to 15 %, new 20 to 25 % (calchub.tech sealant guide); of paint: conventional
// spray about 30 % (safecsgoskins.com paint formula); brush and roller 5 to 10 %, airless 15 to 20 % from memory.
#[rstest]
#[case(LossOf::Sealant, "expert", 0.0, 0.05, Standing::Read)]
#[case(LossOf::Sealant, "average", 0.10, 0.15, Standing::Read)]
#[case(LossOf::Sealant, "new", 0.20, 0.25, Standing::Read)]
#[case(LossOf::Paint, "conventional spray", 0.30, 0.30, Standing::Read)]
#[case(LossOf::Paint, "airless spray", 0.15, 0.20, Standing::Memory)]
#[case(LossOf::Paint, "brush", 0.05, 0.10, Standing::Memory)]
#[case(LossOf::Paint, "roller", 0.05, 0.10, Standing::Memory)]
fn losses(#[case] of: LossOf, #[case] by: &str, #[case] least: f64, #[case] most: f64, #[case] standing: Standing) {
    let catalogue = Catalogue::standard().unwrap();
    let row = catalogue.application_loss("loss", of, by).unwrap();
    assert_eq!((row.least.value(), row.most.value(), row.standing), (least, most, standing));
}

// ISO 12944:1998 L 2 to 5, M 5 to 15, H above 15 a, read; 2017 and 2018 L to 7, M 7 to 15, H 15 to 25, VH above 25 a, from
// memory.
#[rstest]
#[case(1998, Low, Some((Some(2.0), Some(5.0))), Standing::Read)]
#[case(1998, Medium, Some((Some(5.0), Some(15.0))), Standing::Read)]
#[case(1998, High, Some((Some(15.0), None)), Standing::Read)]
#[case(1998, VeryHigh, None, Standing::Read)]
#[case(2018, Low, Some((None, Some(7.0))), Standing::Memory)]
#[case(2018, Medium, Some((Some(7.0), Some(15.0))), Standing::Memory)]
#[case(2018, High, Some((Some(15.0), Some(25.0))), Standing::Memory)]
#[case(2018, VeryHigh, Some((Some(25.0), None)), Standing::Memory)]
fn years_by_edition(
    #[case] edition: u32,
    #[case] band: Durability,
    #[case] years: Option<(Option<f64>, Option<f64>)>,
    #[case] standing: Standing,
) {
    let catalogue = Catalogue::standard().unwrap();
    let row = catalogue.durability(edition, band);
    assert_eq!(row.map(|row| (row.from_years, row.to_years)), years);
    assert!(row.is_none_or(|row| row.standing == standing));
    assert_eq!(EDITION, 2018);
}

// ISO 12944-5:2018 on hot-dip galvanized steel, from memory: C2 -/-/80/120, C3 -/80/120/160, C4 80/120/160/200, C5
// 120/160/200/240 um for L/M/H/VH.
#[rstest]
#[case("C2", [None, None, Some(80.0), Some(120.0)])]
#[case("C3", [None, Some(80.0), Some(120.0), Some(160.0)])]
#[case("C4", [Some(80.0), Some(120.0), Some(160.0), Some(200.0)])]
#[case("C5", [Some(120.0), Some(160.0), Some(200.0), Some(240.0)])]
fn films_by_category(#[case] category: &str, #[case] films_um: [Option<f64>; 4]) {
    let catalogue = Catalogue::standard().unwrap();
    let of = |film_um: f64| film_durability(&catalogue, category, film_um).unwrap();
    let mut below = FilmDurability::BelowLowest;
    assert_eq!(of(0.0), below);
    for (class, film_um) in Durability::ALL.into_iter().zip(films_um) {
        let Some(film_um) = film_um else { continue };
        assert_eq!(of(film_um - 0.1), below);
        below = FilmDurability::Class(class);
        assert_eq!(of(film_um), below);
    }
    assert_eq!(of(5000.0), FilmDurability::Class(VeryHigh));
    assert_eq!(below.class(), Some(VeryHigh));
}

#[test]
fn what_is_not_tabulated_and_what_is_no_category() {
    let catalogue = Catalogue::standard().unwrap();
    for category in ["C1", "CX"] {
        assert_eq!(film_durability(&catalogue, category, 300.0).unwrap(), FilmDurability::NotTabulated);
    }
    let problems = film_durability(&catalogue, "C5-M", f64::NAN).unwrap_err();
    assert_eq!(paths(&problems), ["category", "film"]);
    assert!(problems[0].to_string().contains("did you mean \"C1\" or"), "{}", problems[0]);
}

// Worked example of galvanizers, restated by a secondary text: zinc 40 a and paint 10 a with k 1.5 last 75 a.
#[test]
fn a_published_duplex() {
    for category in ["C5", "CX"] {
        let life = duplex_life((40.0, Some(40.0)), (10.0, Some(10.0)), category).unwrap();
        assert_eq!((life.vehicle.shortest_years, life.vehicle.longest_years), (75.0, Some(75.0)));
        assert_eq!(life.vehicle.standing, Standing::Assumed);
    }
    let milder = duplex_life((40.0, Some(40.0)), (10.0, Some(10.0)), "C3").unwrap();
    assert_eq!((milder.vehicle.shortest_years, milder.vehicle.longest_years), (75.0, Some(100.0)));
    assert_eq!(milder.to_string(), "75 to 100 years");
}

// k 1.5 to 2.3 (galvanizeit.org, duplex systems), 1.5 to 2.5 (its page on life), 1.4 in extreme to 2.7 in mild atmospheres
// (tr.scribd.com/document/376161579).
#[test]
fn ranges_of_the_factor_by_source_are_all_kept() {
    let life = duplex_life((10.0, Some(20.0)), (5.0, None), "C4").unwrap();
    let ranges: Vec<(f64, f64)> = life.sources.iter().map(|own| own.k).collect();
    assert_eq!(ranges, [(1.5, 2.3), (1.5, 2.5), (1.4, 2.7)]);
    assert!(life.sources.iter().all(|own| own.standing == Standing::Read && own.longest_years.is_none()));
    assert_eq!(life.vehicle.k, (1.5, 2.0));
    assert_eq!(life.to_string(), "at least 22 years, no upper bound");
}

#[test]
fn a_layer_that_may_be_gone_at_once_adds_no_factor() {
    let life = duplex_life((3.0, Some(8.0)), (0.0, Some(7.0)), "C4").unwrap();
    assert_eq!((life.vehicle.shortest_years, life.vehicle.longest_years), (3.0, Some(30.0)));
    let bare = duplex_life((0.0, Some(0.0)), (4.0, Some(5.0)), "C4").unwrap();
    assert_eq!((bare.vehicle.shortest_years, bare.vehicle.longest_years), (4.0, Some(5.0)));
    assert_eq!(bare.to_string(), "4 to 5 years");
}

#[rstest]
#[case((-1.0, None), (5.0, None), "C3", "zinc: -1 years is out of range; allowed: 0 to 1000000 years")]
#[case((f64::NAN, None), (5.0, None), "C3", "zinc: NaN years is out of range; allowed: 0 to 1000000 years")]
#[case((1.0, None), (5.0, Some(4.0)), "C3", "paint: 4 years: its longest life is below its shortest of 5 years")]
#[case((1.0, Some(f64::INFINITY)), (5.0, None), "C3", "zinc: inf years is out of range; allowed: 0 to 1000000 years")]
#[case((1.0, None), (5.0, None), "c3", "category: unknown corrosivity category \"c3\"; did you mean \"C1\" or \"C2\"")]
fn lives_that_cannot_be(
    #[case] zinc: (f64, Option<f64>),
    #[case] paint: (f64, Option<f64>),
    #[case] category: &str,
    #[case] message: &str,
) {
    let problem = duplex_life(zinc, paint, category).unwrap_err().to_string();
    assert!(problem.starts_with(message), "{problem}");
}

#[test]
fn factors_of_ones_own() {
    let row = |low: f64, high: f64| {
        let text = format!(
            "duplex_factor = [{{ name = \"vehicle, C1 to C4\", categories = [\"C3\"], low = {low:?}, high = {high:?}, \
             source = \"panels under our own trucks\", standing = \"given by the user\" }}]"
        );
        Catalogue::standard().unwrap().extended(&Rows::parse(&text).unwrap())
    };
    let life = duplex_life_by(&row(1.2, 1.3), (10.0, Some(10.0)), (10.0, Some(10.0)), "C3").unwrap();
    assert_eq!((life.vehicle.shortest_years, life.vehicle.longest_years), (24.0, Some(26.0)));
    assert_eq!(life.vehicle.standing, Standing::Given);
    for (low, high) in [(0.5, 1.0), (1.5, 1.2), (1.5, 11.0)] {
        let problem = duplex_life_by(&row(low, high), (1.0, None), (1.0, None), "C3").unwrap_err();
        assert!(problem.path().starts_with("duplex_factor vehicle"), "{problem}");
    }
    let missing = duplex_life_by(&row(1.2, 1.3), (1.0, None), (1.0, None), "C2").unwrap_err();
    assert_eq!(missing.path(), "duplex_factor");
}

#[rstest]
#[case(Coat { film_um: 0.0, solids: 0.0, loss: 1.0 }, &["film", "solids", "loss"])]
#[case(Coat { film_um: f64::NAN, solids: 1.5, loss: -0.1 }, &["film", "solids", "loss"])]
#[case(Coat { film_um: 60.0, solids: 0.45, loss: f64::INFINITY }, &["loss"])]
fn coats_that_cannot_be(#[case] coat: Coat, #[case] wrong: &[&str]) {
    assert_eq!(paths(&coat.validate().unwrap_err()), wrong);
}

#[test]
fn beads_and_cartridges_that_cannot_be() {
    let bead = Bead::Rectangle { width_mm: -1.0, depth_mm: f64::NAN };
    assert_eq!(paths(&bead.validate().unwrap_err()), ["width", "depth"]);
    assert_eq!(paths(&Bead::Fillet { leg_mm: 201.0 }.validate().unwrap_err()), ["leg"]);
    assert_eq!(paths(&Bead::Round { diameter_mm: -0.1 }.validate().unwrap_err()), ["diameter"]);
    assert_eq!(paths(&cartridges(-1.0, 0.0).unwrap_err()), ["sealant", "content"]);
}

fn coats() -> impl Strategy<Value = Coat> {
    (1.0..1000.0f64, 0.01..1.0f64, 0.0..0.95f64).prop_map(|(film_um, solids, loss)| Coat { film_um, solids, loss })
}

proptest! {
    // The trap of a misprinted formula: more solids must give more area.
    #[test]
    fn more_solids_cover_more(coat in coats(), more in 1.001..2.0f64) {
        let richer = Coat { solids: coat.solids * more, ..coat };
        prop_assert!(richer.practical_m2_l() > coat.practical_m2_l());
        prop_assert!(richer.wet_film_um() < coat.wet_film_um());
        let thicker = Coat { film_um: coat.film_um * more, ..coat };
        prop_assert!(thicker.practical_m2_l() < coat.practical_m2_l());
        prop_assert!(coat.practical_m2_l() <= coat.theoretical_m2_l());
    }

    // What stays on the sheet dries to the film: litres · (1 - loss) · solids = area · film.
    #[test]
    fn volume_is_kept(coat in coats(), area_m2 in 0.01..500.0f64) {
        let dry_l = coat.litres(area_m2) * (1.0 - coat.loss) * coat.solids;
        prop_assert!((dry_l / (area_m2 * coat.film_um / 1000.0) - 1.0).abs() < 1e-12);
        // A litre that all stays, spread as thick as it goes on wet.
        prop_assert!((coat.theoretical_m2_l() * coat.wet_film_um() / 1000.0 - 1.0).abs() < 1e-12);
    }

    #[test]
    fn cartridges_hold_what_is_needed(sealant_l in 0.0..100.0f64, content_l in 0.01..20.0f64) {
        let count = f64::from(cartridges(sealant_l, content_l).unwrap());
        prop_assert!(count * content_l >= sealant_l - 2e-6 * content_l);
        prop_assert!((count - 1.0) * content_l < sealant_l);
    }

    #[test]
    fn a_thicker_film_is_of_no_lower_class(category in prop::sample::select(CATEGORIES.to_vec()), a in 0.0..400.0f64, b in 0.0..400.0f64) {
        let catalogue = Catalogue::standard().unwrap();
        let class = |um: f64| film_durability(&catalogue, category, um).unwrap().class();
        prop_assert!(class(a.max(b)) >= class(a.min(b)));
    }

    // Never shorter than both layers one after the other, never more than twice as long; not shorter with more of either.
    #[test]
    fn duplex_lies_between_the_sum_and_twice_the_sum(
        category in prop::sample::select(CATEGORIES.to_vec()),
        zinc in 0.0..100.0f64,
        paint in 0.0..50.0f64,
        more in 0.0..50.0f64,
    ) {
        let of = |zinc: f64, paint: f64| duplex_life((zinc, Some(zinc + more)), (paint, Some(paint + more)), category).unwrap();
        let life = of(zinc, paint);
        let longest = life.vehicle.longest_years.unwrap();
        prop_assert!(life.vehicle.shortest_years >= zinc + paint && longest <= 2.0 * (zinc + paint + 2.0 * more) + 1e-9);
        prop_assert!(life.vehicle.shortest_years <= longest);
        prop_assert!(of(zinc + more, paint).vehicle.shortest_years >= life.vehicle.shortest_years);
        prop_assert!(of(zinc, paint + more).vehicle.shortest_years >= life.vehicle.shortest_years);
    }
}
