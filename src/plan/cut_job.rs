//! Sheets or bars cut by themselves: stock and pieces as rows, without a bus.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use iso_currency::Currency;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::Deserialize;
use serde_json::Value as Json;
use toml::Table;

use crate::error::{Error, Problem};
use crate::form::{Document, schema_of};
use crate::money::{Per, Price};
use crate::quantity::{Angle, Length, ShopUnits};
use crate::shared::Shared;
use crate::shop::cutting::bars::{BarEffort, cut_bars};
use crate::shop::cutting::sheets::{SheetEffort, cut_sheets};

use super::cut_asked::{BarNeed, Kind, ShopOf, bars_asked, sheets_asked, up_tenths};
use super::cut_list::{BarCuts, SheetCuts, keep};
use super::file::{Cutting, RestSize, Saw, Shear, StockBar, StockSheet};
use super::resolve::stock_alone;

/// What is cut from sheets.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SheetForm {
    /// Whole sheets, as in a plan's `cutting.sheets`.
    sheets: Vec<StockSheet>,
    /// What is needed.
    blanks: Vec<Blank>,
    /// What cuts sheets in the shop, as in a plan.
    #[serde(default)]
    shear: Option<Shear>,
    /// Least rest that is kept, as in a plan.
    #[serde(default)]
    keep: Option<RestSize>,
    /// Price of an hour of one person, by which cuts in the shop are reckoned.
    #[serde(default)]
    labour: Option<Price>,
    /// How lengths are printed.
    #[serde(default)]
    units: ShopUnits,
}

/// Blanks of one size.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Blank {
    /// Its name.
    name: String,
    /// Size along the length of the sheet.
    length: Length,
    /// Size across it.
    width: Length,
    /// How many.
    #[serde(default = "one")]
    count: u32,
    /// It may lie turned by a quarter.
    #[serde(default)]
    may_turn: bool,
    /// What one costs cut to size by a supplier, who keeps the waste.
    #[serde(default)]
    price: Option<Price>,
}

/// What is cut from bars.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BarForm {
    /// Bars, as in a plan's `cutting.tube_bars`.
    bars: Vec<StockBar>,
    /// What is needed.
    pieces: Vec<BarRow>,
    /// What cuts bars, as in a plan.
    #[serde(default)]
    saw: Option<Saw>,
    /// Price of an hour of one person, by which cuts in the shop are reckoned.
    #[serde(default)]
    labour: Option<Price>,
    /// How lengths are printed.
    #[serde(default)]
    units: ShopUnits,
}

/// Pieces of one length.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BarRow {
    /// Its name.
    name: String,
    /// Length, by the long points where its ends are mitred.
    length: Length,
    /// How many.
    #[serde(default = "one")]
    count: u32,
    /// The steeper of its two mitres, from a square cut.
    #[serde(default)]
    mitre: Option<Angle>,
}

fn one() -> u32 {
    1
}

/// Sheets to be cut, as in a plan's `[cutting]`, and blanks; with the plan of least price.
///
/// The tables of `sheets`, `shear` and `keep` are those of a plan; a row of `blanks` has `name`, `length`, `width`, and may have
/// `count`, `may_turn` and `price` (cut to size). `go_on` is asked now and then; where it says no, the best plan so far is given.
///
/// # Errors
/// Every entry that does not fit; a blank larger than every sheet; stock that runs out.
///
/// # Example
/// ```
/// use raisedbody::plan::sheet_cuts;
/// let job = toml::toml! {
///     sheets = [{ length = "8 ft", width = "4 ft", price = "58 USD" }]
///     blanks = [{ name = "panel", length = "3 ft", width = "2 ft", count = 5 }]
///     shear = { longest_cut = "10 ft", cut_time = "3 min" }
/// };
/// let cuts = sheet_cuts(&job, &|| true).unwrap();
/// assert_eq!((cuts.plan.price_coins, cuts.currency.code(), cuts.plan.is_proven()), (11_600, "USD", true));
/// ```
pub fn sheet_cuts(job: &Table, go_on: &dyn Fn() -> bool) -> Result<SheetCuts, Error> {
    static SCHEMA: OnceLock<Json> = OnceLock::new();
    let document = Document::from(job.clone());
    let form: SheetForm = document.read(SCHEMA.get_or_init(schema_of::<SheetForm>))?;
    let refused = |problems: Vec<Problem>| Error::Input(document.placed(problems));
    let mut problems = too_many(form.blanks.iter().map(|own| own.count), "blanks");
    let list = |path: &str, row: &str| Problem::missing(path, format!("list what there is: {{ {row} }}"));
    if form.sheets.is_empty() {
        problems.push(list("sheets", "length = \"8 ft\", width = \"4 ft\", price = \"58 USD\""));
    }
    if form.blanks.is_empty() {
        problems.push(list("blanks", "name = \"panel\", length = \"3 ft\", width = \"2 ft\""));
    }
    problems.extend(twice(form.blanks.iter().map(|own| (own.name.as_str(), own.count)), "blanks"));
    problems.extend(bad_labour(form.labour));
    let cutting = Cutting { sheets: form.sheets, shear: form.shear, keep: form.keep, ..Cutting::default() };
    let cutting = stock_alone(cutting, form.labour, &document).map_err(|own| problems.extend(own)).ok();
    let currency = cutting.as_ref().and_then(|own| own.currency);
    for (i, own) in form.blanks.iter().enumerate() {
        problems.extend(own.price.and_then(|price| bad_price(&format!("blanks[{i}].price"), price, currency)));
    }
    let by_weight = cutting.iter().flat_map(|own| &own.sheets).enumerate();
    problems.extend(by_weight.filter(|(_, own)| own.price.per == Per::Kilogram).map(|(i, own)| {
        let problem = "what a square metre weighs is not known here; write the price of one, or of a m2";
        Problem::contradiction(format!("sheets[{i}].price"), own.price, problem)
    }));
    let (Some(cutting), true) = (cutting, problems.is_empty()) else { return Err(refused(problems)) };
    let kinds = form.blanks.iter().map(|own| Kind {
        names: names(&own.name, own.count),
        size: (up_tenths(own.length.mm()), up_tenths(own.width.mm())),
        may_turn: own.may_turn,
        bought: own.price.map(|price| price.money.amount),
    });
    let shop = ShopOf::alone(&cutting, form.labour, form.units);
    let Some(asked) = sheets_asked(&shop, kinds.collect()) else {
        return Err(refused(vec![list("sheets", "length = \"8 ft\", width = \"4 ft\", price = \"58 USD\"")]));
    };
    let plan = cut_sheets(&asked.job, SheetEffort::default(), go_on).map(Shared::from);
    match keep(&mut problems, plan, ("sheets", "blanks", true), &asked) {
        Some(plan) => Ok(SheetCuts::of(asked, plan, None)),
        None => Err(refused(problems)),
    }
}

/// Bars to be cut, as in a plan's `[cutting]`, and pieces; with the plan of least price.
///
/// The tables of `bars` and `saw` are those of a plan; a row of `pieces` has `name`, `length`, and may have `count` and `mitre`.
/// A piece longer than every bar is joined from whole bars and a rest. `go_on` is asked now and then; where it says no, the
/// best plan so far is given.
///
/// # Errors
/// Every entry that does not fit; bars that run out.
///
/// # Example
/// ```
/// use raisedbody::plan::bar_cuts;
/// let job = toml::toml! {
///     bars = [{ length = "20 ft", price = "44 USD" }, { length = "24 ft", price = "52 USD" }]
///     pieces = [{ name = "post", length = "7 ft 10 in", count = 5 }]
///     saw = { kerf = "2 mm" }
/// };
/// let cuts = bar_cuts(&job, &|| true).unwrap();
/// assert_eq!((cuts.plan.price_coins, cuts.bars()), (9600, 2));
/// ```
pub fn bar_cuts(job: &Table, go_on: &dyn Fn() -> bool) -> Result<BarCuts, Error> {
    static SCHEMA: OnceLock<Json> = OnceLock::new();
    let document = Document::from(job.clone());
    let form: BarForm = document.read(SCHEMA.get_or_init(schema_of::<BarForm>))?;
    let refused = |problems: Vec<Problem>| Error::Input(document.placed(problems));
    let mut problems = too_many(form.pieces.iter().map(|own| own.count), "pieces");
    let list = |path: &str, row: &str| Problem::missing(path, format!("list what there is: {{ {row} }}"));
    if form.bars.is_empty() {
        problems.push(list("bars", "length = \"20 ft\", price = \"44 USD\""));
    }
    if form.pieces.is_empty() {
        problems.push(list("pieces", "name = \"post\", length = \"3 ft\""));
    }
    problems.extend(twice(form.pieces.iter().map(|own| (own.name.as_str(), own.count)), "pieces"));
    problems.extend(bad_labour(form.labour));
    for (i, own) in form.pieces.iter().enumerate() {
        let deg = own.mitre.map_or(0.0, Angle::deg);
        if !(0.0..=75.0).contains(&deg) {
            problems.push(Problem::out_of_range(format!("pieces[{i}].mitre"), format!("{deg} deg"), "0 to 75 deg"));
        }
    }
    // The rows are those of a plan's tube.
    let cutting = Cutting { tube_bars: form.bars, saw: form.saw, ..Cutting::default() };
    let named = |problem: Problem| {
        let path = problem.path().replacen("tube_bars", "bars", 1);
        problem.with_path(path)
    };
    let cutting = stock_alone(cutting, form.labour, &document);
    let cutting = cutting.map_err(|own| problems.extend(own.into_iter().map(named))).ok();
    let (Some(cutting), true) = (cutting, problems.is_empty()) else { return Err(refused(problems)) };
    let needs = form.pieces.iter().flat_map(|own| {
        let (length_mm, mitre_deg) = (own.length.mm(), own.mitre.map_or(0.0, Angle::deg));
        names(&own.name, own.count).into_iter().map(move |name| BarNeed { name, length_mm, mitre_deg })
    });
    let needs: Vec<BarNeed> = needs.collect();
    let shop = ShopOf::alone(&cutting, form.labour, form.units);
    let Some(asked) = bars_asked(&shop, &cutting.tube_bars, &needs) else {
        return Err(refused(vec![list("pieces", "name = \"post\", length = \"3 ft\"")]));
    };
    let plan = cut_bars(&asked.job, &BarEffort::default(), go_on).map(Shared::from);
    match keep(&mut problems, plan, ("bars", "pieces", false), &asked) {
        Some(plan) => Ok(BarCuts::of(asked, plan)),
        None => Err(refused(problems)),
    }
}

/// Most pieces of a job: each has a name of its own.
const MOST: u64 = 1_000_000;

/// Counts of nought, and more pieces than can be named.
fn too_many(counts: impl Iterator<Item = u32>, rows: &str) -> Vec<Problem> {
    let mut problems = Vec::new();
    let mut all = 0;
    for (i, count) in counts.enumerate() {
        all += u64::from(count);
        if count == 0 {
            problems.push(Problem::out_of_range(
                format!("{rows}[{i}].count"),
                0,
                "1 and more; leave out what is not needed",
            ));
        }
    }
    if all > MOST {
        problems.push(Problem::out_of_range(rows, format!("{all} in all"), format!("at most {MOST} in all")));
    }
    problems
}

/// Names that are empty, or there twice: as written, or once those of several are counted.
fn twice<'a>(rows: impl Iterator<Item = (&'a str, u32)>, list: &str) -> Vec<Problem> {
    let mut seen = BTreeSet::new();
    let of = |(i, (name, count)): (usize, (&'a str, u32))| {
        let path = format!("{list}[{i}].name");
        if name.trim().is_empty() {
            return Some(Problem::missing(path, "give it a name, to tell it from the others"));
        }
        let known = !names(name, count.min(MOST as u32)).into_iter().all(|own| seen.insert(own));
        known.then(|| {
            Problem::contradiction(path, name, "two pieces have this name once they are counted; give each its own")
        })
    };
    rows.enumerate().filter_map(of).collect()
}

fn bad_labour(labour: Option<Price>) -> Option<Problem> {
    let price = labour?;
    if price.per != Per::Hour {
        return Some(Problem::contradiction("labour", price, "this is the price of an hour: \"85 USD/h\""));
    }
    let within = (Decimal::ZERO..=Decimal::from(10_000)).contains(&price.money.amount);
    (!within).then(|| Problem::out_of_range("labour", price, "0 to 10000 an hour"))
}

fn bad_price(path: &str, price: Price, currency: Option<Currency>) -> Option<Problem> {
    if price.per != Per::Each {
        return Some(Problem::contradiction(path, price, "this is the price of one: \"12 USD\""));
    }
    if !(Decimal::ZERO..=Decimal::from(1_000_000)).contains(&price.money.amount) {
        return Some(Problem::out_of_range(path, price, "0 to 1000000"));
    }
    let other = currency.filter(|own| *own != price.money.currency)?;
    Some(Problem::contradiction(path, price, format!("the other prices are in {}; use one currency", other.code())))
}

/// `panel` where there is one, `panel 1`, `panel 2` where there are more.
fn names(name: &str, count: u32) -> Vec<String> {
    if count == 1 { vec![name.to_owned()] } else { (1..=count).map(|i| format!("{name} {i}")).collect() }
}
