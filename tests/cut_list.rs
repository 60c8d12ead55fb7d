//! Cut lists of plans and of rows by themselves: values by hand, what is refused, what the quote and the hours take from them.

use raisedbody::Error;
use raisedbody::plan::{CutBy, Evaluation, Plan, bar_cuts, sheet_cuts};
use raisedbody::shop::cutting::bar_faults::bar_faults;
use raisedbody::shop::cutting::sheet_faults::sheet_faults;
use raisedbody::shop::cutting::steps::{step_faults, steps};
use rstest::rstest;
use rust_decimal::Decimal;
use toml::Table;

use crate::common::without_cutting;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

fn built(text: &str, changes: &str) -> Evaluation {
    let plan = Plan::from_text(text, ".".as_ref()).unwrap();
    plan.replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap()
}

fn refused<T: std::fmt::Debug>(result: Result<T, Error>) -> Vec<String> {
    let Err(Error::Input(problems)) = result else { panic!("{result:?}") };
    problems.iter().map(|placed| placed.problem.to_string()).collect()
}

fn bars(pieces_mm: &[f64], bar_mm: f64, kerf_mm: f64) -> usize {
    let row = |(i, mm): (usize, &f64)| format!("{{ name = \"piece {i}\", length = \"{mm} mm\" }}");
    let pieces = pieces_mm.iter().enumerate().map(row);
    let text = format!(
        "bars = [{{ length = \"{bar_mm} mm\", price = \"1 USD\" }}]\npieces = [{}]\nsaw = {{ kerf = \"{kerf_mm} mm\" }}",
        pieces.collect::<Vec<_>>().join(", ")
    );
    let cuts = bar_cuts(&text.parse().unwrap(), &|| true).unwrap();
    assert_eq!(bar_faults(&cuts.job, &cuts.plan), Vec::<String>::new());
    assert!(cuts.plan.is_proven());
    cuts.bars() as usize
}

// By hand. Two pieces and the cut between them: 2 × 3000 + 2 > 6000, but 2 × 2999 + 2 fits; the last cut of a bar may
// run off its end. Three pieces of 550 mm and two cuts of 2 mm fill a bar of 1654 mm: nine fill three, a tenth takes one
// more. A piece of a bar's own length takes it whole; 3000 + 2000 + 996 mm and two cuts fill another, 1 mm more does not fit.
// 2400 mm takes two bars of a metre and a rest.
#[rstest]
#[case(&[6000.0], 6000.0, 2.0, 1)]
#[case(&[3000.0, 3000.0], 6000.0, 2.0, 2)]
#[case(&[2999.0, 2999.0], 6000.0, 2.0, 1)]
#[case(&[3000.0, 3000.0], 6000.0, 0.0, 1)]
#[case(&[550.0; 9], 1654.0, 2.0, 3)]
#[case(&[550.0; 10], 1654.0, 2.0, 4)]
#[case(&[6000.0, 3000.0, 2000.0, 996.0], 6000.0, 2.0, 2)]
#[case(&[6000.0, 3000.0, 2000.0, 997.0], 6000.0, 2.0, 3)]
#[case(&[2400.0], 1000.0, 2.0, 3)]
fn bars_by_hand(#[case] pieces: &[f64], #[case] bar: f64, #[case] kerf: f64, #[case] count: usize) {
    assert_eq!(bars(pieces, bar, kerf), count);
}

/// Two pieces of a metre with mitres of 60 degrees: their kerfs of 2 mm are 4 mm along the bar, and 2004 mm hold both.
#[rstest]
#[case("2004 mm", 1)]
#[case("2003.9 mm", 2)]
fn a_mitre_takes_more_of_the_bar(#[case] bar: &str, #[case] count: u32) {
    let text = format!(
        "bars = [{{ length = \"{bar}\", price = \"1 USD\" }}]\nsaw = {{ kerf = \"2 mm\" }}\n\
         pieces = [{{ name = \"brace\", length = \"1 m\", count = 2, mitre = \"60 deg\" }}]"
    );
    assert_eq!(bar_cuts(&text.parse().unwrap(), &|| true).unwrap().bars(), count);
}

/// Four panels of 4 by 2 ft fill a sheet of 8 by 4 ft with three cuts; at 58 USD and three cuts of 3 min at 60 USD/h: 67 USD.
/// Cut to size they cost 16 USD each, 64 USD together; at 17 USD the sheet is cheaper.
#[rstest]
#[case("16 USD", 6400, 4)]
#[case("17 USD", 6700, 0)]
fn cut_here_or_bought_cut_to_size(#[case] price: &str, #[case] coins: i64, #[case] bought: u32) {
    let text = format!(
        "sheets = [{{ length = \"8 ft\", width = \"4 ft\", price = \"58 USD\" }}]\nlabour = \"60 USD/h\"\n\
         shear = {{ longest_cut = \"8 ft\", cut_time = \"3 min\" }}\n\
         blanks = [{{ name = \"panel\", length = \"4 ft\", width = \"2 ft\", count = 4, price = \"{price}\" }}]"
    );
    let cuts = sheet_cuts(&text.parse().unwrap(), &|| true).unwrap();
    assert_eq!((cuts.plan.price_coins, cuts.plan.is_proven(), cuts.bought().0), (coins, true, bought));
    assert_eq!(cuts.bought_names().len(), bought as usize);
}

/// The seller cuts at 2 USD a cut, the shop at 3 USD; a shear of 3 ft reaches across nothing of a sheet 4 ft wide.
#[rstest]
#[case("2 USD", "10 ft", CutBy::Seller, 6400)]
#[case("4 USD", "10 ft", CutBy::Shop, 6700)]
#[case("4 USD", "3 ft", CutBy::Seller, 7000)]
fn whoever_cuts_for_less(#[case] charge: &str, #[case] reach: &str, #[case] by: CutBy, #[case] coins: i64) {
    let text = format!(
        "sheets = [{{ length = \"8 ft\", width = \"4 ft\", price = \"58 USD\", supplier = \"yard\", cut = \"{charge}\" }}]\n\
         labour = \"60 USD/h\"\nshear = {{ longest_cut = \"{reach}\", cut_time = \"3 min\" }}\n\
         blanks = [{{ name = \"panel\", length = \"4 ft\", width = \"2 ft\", count = 4 }}]"
    );
    let cuts = sheet_cuts(&text.parse().unwrap(), &|| true).unwrap();
    assert_eq!((cuts.plan.price_coins, cuts.plan.is_proven()), (coins, true));
    assert_eq!(cuts.sources[cuts.plan.patterns[0].stock].cut_by, by);
}

#[rstest]
#[case("blanks[0].length = \"9 ft\"", "larger than")]
#[case("blanks[0].count = 0", "blanks[0].count")]
#[case("blanks[0].count = 1000001", "at most")]
#[case("shear.kerf = \"-1 mm\"", "shear.kerf")]
#[case("sheets[0].price = \"-1 USD\"", "sheets[0].price")]
#[case("sheets[0].price = \"1 USD/kg\"", "weighs is not known")]
#[case("sheets[0].price = \"1 USD/L\"", "price of one")]
#[case("blanks[0].price = \"1 EUR\"", "USD")]
#[case("sheets[0].lenght = \"8 ft\"", "length")]
#[case("sheets[0].count = 1", "left over")]
#[case("shear.stages = 4", "2 to 3")]
#[case("blanks[0].name = \" \"", "blanks[0].name")]
fn what_cannot_be_is_refused(#[case] change: &str, #[case] words: &str) {
    let text = "sheets = [{ length = \"8 ft\", width = \"4 ft\", price = \"58 USD\" }]\n\
        shear = { longest_cut = \"8 ft\", cut_time = \"3 min\" }\n\
        blanks = [{ name = \"panel\", length = \"4 ft\", width = \"2 ft\", count = 9 }]";
    let mut job: Table = text.parse().unwrap();
    let (path, value) = change.split_once(" = ").unwrap();
    let value: Table = format!("v = {value}").parse().unwrap();
    let (part, name) = path.split_once('.').unwrap();
    let row = match part.strip_suffix("[0]") {
        Some(list) => job[list].as_array_mut().unwrap()[0].as_table_mut().unwrap(),
        None => job[part].as_table_mut().unwrap(),
    };
    row.insert(name.to_owned(), value["v"].clone());
    let problems = refused(sheet_cuts(&job, &|| true));
    assert!(problems.iter().any(|problem| problem.contains(words)), "{problems:?}");
}

#[rstest]
#[case("labour = \"85 USD\"", "labour: 85 USD: this is the price of an hour")]
#[case("labour = \"-1 USD/h\"", "labour: -1 USD/h is out of range")]
#[case(
    "pieces = [{ name = \"a\", length = \"1 m\", count = 2 }, { name = \"a 1\", length = \"2 m\" }]",
    "pieces[1].name: a 1"
)]
#[case("pieces = [{ name = \"a\", length = \"1 m\", mitre = \"80 deg\" }]", "pieces[0].mitre")]
#[case(
    "bars = [{ length = \"6 m\", price = \"44 USD\", cut = \"1 USD\", supplier = \"yard\" }]",
    "saw.cut_time: missing"
)]
fn bars_that_cannot_be_cut(#[case] change: &str, #[case] words: &str) {
    let text = "bars = [{ length = \"6 m\", price = \"44 USD\" }]\npieces = [{ name = \"a\", length = \"1 m\" }]";
    let mut job: Table = text.parse().unwrap();
    assert!(bar_cuts(&job, &|| true).is_ok());
    job.extend(change.parse::<Table>().unwrap());
    let problems = refused(bar_cuts(&job, &|| true));
    assert!(problems.iter().any(|problem| problem.starts_with(words)), "{problems:?}");
}

#[test]
fn nothing_to_cut_and_nothing_to_cut_it_from() {
    let problems = refused(sheet_cuts(&"sheets = []\nblanks = []".parse().unwrap(), &|| true));
    assert!(problems[0].starts_with("sheets: missing") && problems[1].starts_with("blanks: missing"), "{problems:?}");
    let problems = refused(bar_cuts(&"bars = []\npieces = []".parse().unwrap(), &|| true));
    assert!(problems[0].starts_with("bars: missing") && problems[1].starts_with("pieces: missing"), "{problems:?}");
}

/// Every blank of the library is cut once or bought once, every plan is right by the checkers, and so are the cuts in order.
#[test]
fn the_library_is_cut_as_its_takeoff_says() {
    let e = built(LIBRARY, "");
    let cuts = e.cut_list.sheets.as_ref().unwrap();
    assert_eq!(sheet_faults(&cuts.job, &cuts.plan), Vec::<String>::new());
    for pattern in &cuts.plan.patterns {
        let own = steps(&cuts.job.stock[pattern.stock], cuts.job.kerf_tenths, pattern);
        assert_eq!(step_faults(&cuts.job, pattern, &own), Vec::<String>::new());
    }
    let mut names: Vec<String> = cuts.bought_names().into_iter().map(str::to_owned).collect();
    for card in cuts.cards() {
        names.extend(card.places.iter().flat_map(|place| place.names.clone()));
        assert!(card.steps.iter().all(|step| !step.words.contains(":  comes")), "{:?}", card.steps);
    }
    let mut blanks: Vec<String> = e.takeoff.blanks.iter().flat_map(|b| b.ids.clone()).collect();
    names.sort();
    blanks.sort();
    assert_eq!(names, blanks);
    for own in [&e.cut_list.inserts, &e.cut_list.backing] {
        let own = own.as_ref().unwrap();
        assert_eq!(bar_faults(&own.job, &own.plan), Vec::<String>::new());
        assert!(own.plan.is_proven());
    }
    let bars: Vec<usize> = e.splices.posts.iter().map(|post| post.bar.unwrap()).collect();
    let inserts = e.cut_list.inserts.as_ref().unwrap();
    // Of bars cut alike, a place on the card names its piece on each of them.
    for card in inserts.cards() {
        for (_, names) in &card.pieces {
            for (i, name) in names.iter().enumerate() {
                let post = e.splices.posts.iter().find(|post| post.insert.id == *name).unwrap();
                assert_eq!(post.bar, Some(card.first as usize - 1 + i), "{name}");
            }
        }
    }
    assert!(inserts.cards().iter().any(|card| card.times > 1 && card.pieces.len() > 1));
    assert!(cuts.notes.iter().any(|note| note.contains("factory edges are not looked at")), "{:?}", cuts.notes);
    assert_eq!(bars.iter().max().map(|bar| *bar as u32 + 1), Some(inserts.bars()));
}

/// What the solver calls the price is what the quote and the hours pay for it, cent by cent but for the rounding of each line.
#[test]
fn the_quote_pays_what_the_cut_list_costs() {
    let e = built(LIBRARY, "");
    let cuts = e.cut_list.sheets.as_ref().unwrap();
    let quote = e.quote.as_ref().unwrap();
    let of = |start: &str| -> Decimal {
        quote.lines.iter().filter(|line| line.name.starts_with(start)).map(|line| line.amount).sum()
    };
    let own = e.tasks.iter().find(|task| task.name == "cut sheets to size");
    let own_hours = own.map_or(0.0, |task| task.hours);
    assert_eq!(own.map_or(0, |task| task.quantity as i64), cuts.shop_cuts());
    let labour = Decimal::try_from(own_hours * 85.0).unwrap();
    let paid = of("sheet") + of("cuts of") + labour;
    let told = Decimal::new(cuts.plan.price_coins, 2);
    // Half a cent for each blank, cut and line.
    assert!((paid - told).abs() < Decimal::new(30, 2), "{paid} for {told}");
    assert!(of("insert section, bar") > Decimal::ZERO && !quote.lines.iter().any(|l| l.name == "insert section"));
}

/// Without stock in the plan each blank is bought cut to size, and bars are as few as can be: 400 + 2 × 203.2 mm from 20 ft,
/// seven to a bar with six kerfs of 2 mm; twenty posts take three.
#[test]
fn without_stock_all_is_bought_to_size() {
    let e = built(&without_cutting(LIBRARY), "");
    assert!(e.cut_list.sheets.is_none());
    let inserts = e.cut_list.inserts.as_ref().unwrap();
    assert_eq!((inserts.bars(), inserts.currency), (3, None));
    let order = |item: &str| e.order.iter().filter(|line| line.item.contains(item)).map(|l| l.quantity).sum::<f64>();
    assert_eq!(order("cut to size") as usize, e.takeoff.sheets);
    assert_eq!(order("for inserts"), 3.0);
    assert!(e.quote.unwrap().lines.iter().any(|line| line.name == "insert section"));
}

/// A crew of one lifts 23 kg at best: whole sheets are cut by their seller, or not used.
#[test]
fn a_sheet_that_no_crew_lifts_is_left_out() {
    let e = built(
        WORKSHOP,
        "cutting.sheets = [{ length = \"10 ft\", width = \"5 ft\", price = \"90 USD\" }]\n\
        cutting.shear = { longest_cut = \"10 ft\", cut_time = \"3 min\" }\nprices.sheet = \"2 USD/kg\"\n\
        prices.sheet_cutting = \"5 USD\"\ncrew = { people = 1, hours = \"8 h\", start = \"8:00\", hang_people = 1, rivet_people = 1 }\n\
        skin.largest_sheet = { length = \"4 ft\", height = \"4 ft\" }",
    );
    let cuts = e.cut_list.sheets.as_ref().unwrap();
    assert!(cuts.notes.iter().any(|own| own.contains("the crew lifts")), "{:?}", cuts.notes);
    assert!(cuts.plan.patterns.is_empty() && cuts.bought().0 as usize == e.takeoff.sheets);
}

#[rstest]
#[case(
    "cutting.sheets = [{ length = \"8 ft\", width = \"4 ft\", price = \"58 EUR\", supplier = \"a\", cut = \"1 EUR\" }]",
    "cutting.sheets[0].price"
)]
#[case(
    "cutting.sheets = [{ length = \"8 ft\", width = \"4 ft\", price = \"58 USD\", cut = \"1 USD\" }]",
    "cutting.sheets[0].supplier"
)]
#[case("cutting.saw = { cut_time = \"2 min\" }", "shop.post_time")]
#[case("cutting.tube_bars = [{ length = \"2 ft\", price = \"0 USD\", count = 1 }]", "cutting.tube_bars")]
fn entries_that_contradict_are_refused(#[case] change: &str, #[case] path: &str) {
    let plan = Plan::from_text(LIBRARY, ".".as_ref()).unwrap().replace(&change.parse().unwrap());
    let problems = refused(plan.and_then(|plan| plan.evaluate()));
    assert!(problems.iter().any(|problem| problem.starts_with(path)), "{problems:?}");
}

/// Two pieces of 40 ft are joined from bars that can be had, though one offcut is longer: four of 20 ft.
#[test]
fn an_offcut_does_not_set_how_long_pieces_are_joined() {
    let text = "bars = [{ length = \"20 ft\", price = \"44 USD\" }, { length = \"24 ft\", price = \"0 USD\", count = 1 }]\n\
        saw = { kerf = \"0 mm\" }\npieces = [{ name = \"rail\", length = \"40 ft\", count = 2 }]";
    let cuts = bar_cuts(&text.parse().unwrap(), &|| true).unwrap();
    assert_eq!((cuts.plan.price_coins, cuts.plan.is_proven()), (13_200, true));
}

/// A shear of 5 ft trims no edge of 8 ft, and there is no throat.
#[test]
fn what_the_shop_does_not_cut_is_told_with_the_refusal() {
    let text = "sheets = [{ length = \"8 ft\", width = \"4 ft\", price = \"58 USD\", mill_edge = \"1 in\" }]\n\
        shear = { longest_cut = \"5 ft\", cut_time = \"3 min\" }\n\
        blanks = [{ name = \"panel\", length = \"3 ft\", width = \"2 ft\" }]";
    let problems = refused(sheet_cuts(&text.parse().unwrap(), &|| true));
    assert!(problems.iter().any(|problem| problem.contains("does not reach its bad edges")), "{problems:?}");
}

/// The rests to keep, as rows of the next plan's stock, are stock that the next plan reads.
#[test]
fn remnants_are_the_stock_of_the_next_job() {
    let text = "sheets = [{ length = \"8 ft\", width = \"4 ft\", price = \"58 USD\" }]\nkeep = { length = \"1 ft\", width = \"1 ft\" }\n\
        shear = { longest_cut = \"8 ft\", cut_time = \"3 min\" }\n\
        blanks = [{ name = \"panel\", length = \"5 ft\", width = \"4 ft\" }]";
    let cuts = sheet_cuts(&text.parse().unwrap(), &|| true).unwrap();
    let kept = cuts.remnants();
    assert_eq!(kept, [(1, 914.4, 1219.2)]);
    let next = format!(
        "sheets = [{{ length = \"{} mm\", width = \"{} mm\", price = \"0 USD\", count = 1 }}, {{ length = \"8 ft\", width = \"4 ft\", price = \"58 USD\" }}]\n\
         shear = {{ longest_cut = \"8 ft\", cut_time = \"3 min\" }}\n\
         blanks = [{{ name = \"panel\", length = \"3 ft\", width = \"2 ft\", count = 2 }}]",
        kept[0].1, kept[0].2
    );
    let cuts = sheet_cuts(&next.parse().unwrap(), &|| true).unwrap();
    assert_eq!((cuts.plan.price_coins, cuts.plan.is_proven()), (0, true));
}
