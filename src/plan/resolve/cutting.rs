//! Stock, shear and saw in numbers.

use iso_currency::Currency;
use rust_decimal::Decimal;

use crate::catalogue::Catalogue;
use crate::check::Standing;
use crate::error::Problem;
use crate::form::Document;
use crate::money::{Per, Price};
use crate::plan::file::{self, FirstCut};
use crate::quantity::{Duration, Kind, Length};
use crate::shared::Shared;
use crate::shop::cutting::sheets::Line;
use crate::shop::price_book::PriceBook;

use super::PaintPlan;
use super::memory::OfCutting;
use super::reader::Reader;

/// What is cut, from what, and with what.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct CuttingPlan {
    pub sheets: Vec<StockSheetPlan>,
    /// Blanks can be bought cut to size.
    pub cut_to_size: bool,
    pub cut_to_size_by: Option<String>,
    pub insert_bars: Vec<StockBarPlan>,
    pub tube_bars: Vec<StockBarPlan>,
    /// The bar that stands in where no bars are listed, mm.
    pub bar_mm: f64,
    pub shear: Option<ShearPlan>,
    /// What the saw takes off, mm.
    pub saw_kerf_mm: f64,
    /// Hours of one person for one cut with the saw, where they are not within other work.
    pub saw_hours: Option<f64>,
    /// Least length and width of a rest that is kept, mm.
    pub keep_mm: (f64, f64),
    /// The one currency of all prices; none where nothing has a price.
    pub currency: Option<Currency>,
}

/// Sheets of one size.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct StockSheetPlan {
    pub length_mm: f64,
    pub width_mm: f64,
    /// Of one, of a kilogram or of a square metre.
    pub price: Price,
    pub count: Option<u32>,
    pub supplier: Option<String>,
    /// The seller's charge for a cut.
    pub cut: Option<Decimal>,
    pub mill_edge_mm: f64,
    pub end_trim_mm: f64,
}

/// Bars of one length.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct StockBarPlan {
    pub length_mm: f64,
    /// Of one, or of a metre.
    pub price: Price,
    pub count: Option<u32>,
    pub supplier: Option<String>,
    /// The seller's charge for a cut.
    pub cut: Option<Decimal>,
    pub end_trim_mm: f64,
}

/// What cuts sheets in the shop.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct ShearPlan {
    pub longest_mm: f64,
    pub throat_mm: f64,
    pub kerf_mm: f64,
    /// Hours of one person for one cut.
    pub hours: f64,
    pub stages: Option<u8>,
    pub first_cut: Option<Line>,
}

const OF_SHEET: (&[Per], &str) = (
    &[Per::Each, Per::Kilogram, Per::SquareMetre],
    "this is the price of one, of a kg or of a m2: \"98 USD\", \"1.95 USD/kg\"",
);
const OF_BAR: (&[Per], &str) =
    (&[Per::Each, Per::Metre], "this is the price of one, or of a m or ft: \"31 USD\", \"1.60 USD/ft\"");

/// All prices of a plan's stock in one currency.
struct Purse {
    currency: Option<Currency>,
}

impl Purse {
    /// The price of one cut.
    fn one(&mut self, r: &mut Reader<'_>, path: &str, price: Price) -> Decimal {
        self.price(r, path, price, (&[Per::Each], "this is the price of one cut: \"4 USD\"")).money.amount
    }

    /// A price; a problem where it is below nought, by another unit than these, or in another currency.
    fn price(&mut self, r: &mut Reader<'_>, path: &str, price: Price, (allowed, words): (&[Per], &str)) -> Price {
        if !allowed.contains(&price.per) {
            r.problems.push(Problem::contradiction(path, price, words));
        }
        let amount = price.money.amount;
        if amount < Decimal::ZERO || amount > Decimal::from(1_000_000) {
            r.problems.push(Problem::out_of_range(path, price, "0 to 1000000"));
        }
        let currency = *self.currency.get_or_insert(price.money.currency);
        if currency != price.money.currency {
            let problem = format!("the plan's other prices are in {}; use one currency", currency.code());
            r.problems.push(Problem::contradiction(path, price, problem));
        }
        price
    }
}

pub(super) fn cutting(r: &mut Reader<'_>, (file, paint): &(OfCutting, Shared<PaintPlan>)) -> CuttingPlan {
    let bar = file.shop.bar.map(Length::mm);
    let own = Option::as_ref(&file.cutting);
    let listed = own.is_some_and(|own| !own.insert_bars.is_empty() && !own.tube_bars.is_empty());
    // The usual bar stands in only where some bars are not listed.
    let bar_mm = match bar {
        None if listed => 0.0,
        bar => r.or_fallback(bar, "shop.bar", "bar", (1000.0, 20_000.0), Kind::Length).0,
    };
    let saw = own.and_then(|own| own.saw.as_ref());
    let kerf = saw.and_then(|saw| saw.kerf).map(Length::mm);
    let saw_kerf_mm = r.or_fallback(kerf, "cutting.saw.kerf", "kerf", (0.0, 20.0), Kind::Length).0;
    let saw_hours = saw.and_then(|saw| saw.cut_time).map(|time| {
        if file.shop.post_time.is_none() {
            // The default holds the cut; with it the work would be counted twice.
            let fix = "cutting.saw.cut_time is given: write what is left of post_time without it";
            r.problems.push(Problem::missing("shop.post_time", fix));
        }
        r.bound("cutting.saw.cut_time", time.hours(), 0.0, 10.0, Kind::Duration)
    });
    let prices = Option::as_ref(&file.prices);
    let first = prices.and_then(PriceBook::currency);
    let mut purse = Purse { currency: first.or_else(|| paint.prices().next().map(|price| price.money.currency)) };
    let shear = own.and_then(|own| own.shear.as_ref()).map(|own| shear(r, own));
    let sheets = own.map_or(&[][..], |own| &own.sheets).iter().enumerate();
    let sheets: Vec<StockSheetPlan> = sheets.map(|(i, own)| sheet(r, &mut purse, i, own, shear.is_some())).collect();
    let mut bars = |name: &str, own: &[file::StockBar]| -> Vec<StockBarPlan> {
        own.iter()
            .enumerate()
            .map(|(i, own)| bar_of(r, &mut purse, (&format!("cutting.{name}[{i}]"), own), saw_hours.is_some()))
            .collect()
    };
    let insert_bars = own.map_or_else(Vec::new, |own| bars("insert_bars", &own.insert_bars));
    let tube_bars = own.map_or_else(Vec::new, |own| bars("tube_bars", &own.tube_bars));
    let cut_to_size = prices.is_some_and(|p| p.sheet.is_some() && p.sheet_cutting.is_some());
    if !sheets.is_empty() && shear.is_some() && prices.is_none_or(|p| p.rate("cut sheets to size").0.is_none()) {
        let source = "no prices.labour: a cut in the shop costs nothing beside a supplier's";
        r.list("cutting.shear", "own time not priced", source, Standing::Assumed);
    }
    let keep_mm = match own.and_then(|own| own.keep) {
        Some(keep) => (
            r.length("cutting.keep.length", keep.length, 1.0, 20_000.0),
            r.length("cutting.keep.width", keep.width, 1.0, 5000.0),
        ),
        // Where no sheets are listed nobody asks.
        None if sheets.is_empty() => (0.0, 0.0),
        None => (
            r.fallback("cutting.keep.length", "keep_length", (1.0, 20_000.0), Kind::Length).0,
            r.fallback("cutting.keep.width", "keep_width", (1.0, 5000.0), Kind::Length).0,
        ),
    };
    CuttingPlan {
        sheets,
        cut_to_size,
        cut_to_size_by: own.and_then(|own| own.cut_to_size_by.clone()),
        insert_bars,
        tube_bars,
        bar_mm,
        shear,
        saw_kerf_mm,
        saw_hours,
        keep_mm,
        currency: purse.currency,
    }
}

/// Stock by itself, without a plan; problems under paths that start at the stock's own entries.
pub(in crate::plan) fn stock_alone(
    cutting: file::Cutting,
    labour: Option<Price>,
    document: &Document,
) -> Result<CuttingPlan, Vec<Problem>> {
    let catalogue = Catalogue::standard().map_err(|e| vec![Problem::missing("catalogue", e.to_string())])?;
    let mut r = Reader { document, catalogue: &catalogue, listing: false, problems: Vec::new(), assumed: Vec::new() };
    // Nobody lengthens posts here, and bars are listed.
    let shop = file::Shop { post_time: Some(Duration::default()), ..file::Shop::default() };
    let prices = PriceBook { labour, ..PriceBook::default() };
    let of = OfCutting { shop: shop.into(), cutting: Some(cutting).into(), prices: Some(prices).into() };
    let plan = self::cutting(&mut r, &(of, PaintPlan::none().into()));
    if r.problems.is_empty() {
        return Ok(plan);
    }
    let own = |problem: Problem| {
        let path = problem.path().replacen("cutting.", "", 1).replacen("prices.", "", 1);
        problem.with_path(path)
    };
    Err(r.problems.into_iter().map(own).collect())
}

fn shear(r: &mut Reader<'_>, own: &file::Shear) -> ShearPlan {
    if let Some(stages) = own.stages.filter(|stages| !(2..=3).contains(stages)) {
        r.problems.push(Problem::out_of_range("cutting.shear.stages", stages, "2 or 3; leave it out for any number"));
    }
    let mut length = |name: &str, given: Option<Length>, most| {
        r.optional_length(&format!("cutting.shear.{name}"), given, 0.0, most).unwrap_or(0.0)
    };
    let (throat_mm, kerf_mm) = (length("throat", own.throat, 5000.0), length("kerf", own.kerf, 20.0));
    ShearPlan {
        longest_mm: r.length("cutting.shear.longest_cut", own.longest_cut, 100.0, 20_000.0),
        throat_mm,
        kerf_mm,
        hours: r.bound("cutting.shear.cut_time", own.cut_time.hours(), 0.0, 10.0, Kind::Duration),
        stages: own.stages,
        first_cut: own.first_cut.map(|first| match first {
            FirstCut::Along => Line::Along,
            FirstCut::Across => Line::Across,
        }),
    }
}

/// A limited number is whole, and not nought.
fn count(r: &mut Reader<'_>, path: &str, given: Option<u32>) -> Option<u32> {
    if let Some(count) = given.filter(|count| !(1..=10_000).contains(count)) {
        r.problems.push(Problem::out_of_range(
            format!("{path}.count"),
            count,
            "1 to 10000; leave out what there is none of",
        ));
    }
    given
}

fn sheet(r: &mut Reader<'_>, purse: &mut Purse, i: usize, own: &file::StockSheet, shear: bool) -> StockSheetPlan {
    let path = format!("cutting.sheets[{i}]");
    if !shear && own.cut.is_none() {
        let fix = "nobody cuts it: say what the shop's shear does, or what its seller takes for a cut: cut = \"4 USD\"";
        r.problems.push(Problem::missing(format!("{path}.cut"), fix));
    }
    if own.cut.is_some() && own.supplier.is_none() {
        r.problems.push(Problem::missing(format!("{path}.supplier"), "cut is a seller's charge: name the seller"));
    }
    let mut trim = |name: &str, given: Option<Length>| {
        r.optional_length(&format!("{path}.{name}"), given, 0.0, 500.0).unwrap_or(0.0)
    };
    let (mill_edge_mm, end_trim_mm) = (trim("mill_edge", own.mill_edge), trim("end_trim", own.end_trim));
    StockSheetPlan {
        length_mm: r.length(&format!("{path}.length"), own.length, 100.0, 20_000.0),
        width_mm: r.length(&format!("{path}.width"), own.width, 50.0, 5000.0),
        price: purse.price(r, &format!("{path}.price"), own.price, OF_SHEET),
        count: count(r, &path, own.count),
        supplier: own.supplier.clone(),
        cut: own.cut.map(|cut| purse.one(r, &format!("{path}.cut"), cut)),
        mill_edge_mm,
        end_trim_mm,
    }
}

fn bar_of(r: &mut Reader<'_>, purse: &mut Purse, (path, own): (&str, &file::StockBar), timed: bool) -> StockBarPlan {
    if own.cut.is_some() && own.supplier.is_none() {
        r.problems.push(Problem::missing(format!("{path}.supplier"), "cut is a seller's charge: name the seller"));
    }
    if own.cut.is_some() && !timed {
        let fix = format!("{path}.cut is weighed against the shop's own time for a cut: write cut_time = \"2 min\"");
        r.problems.push(Problem::missing("cutting.saw.cut_time", fix));
    }
    StockBarPlan {
        length_mm: r.length(&format!("{path}.length"), own.length, 100.0, 20_000.0),
        price: purse.price(r, &format!("{path}.price"), own.price, OF_BAR),
        count: count(r, path, own.count),
        supplier: own.supplier.clone(),
        cut: own.cut.map(|cut| purse.one(r, &format!("{path}.cut"), cut)),
        end_trim_mm: r.optional_length(&format!("{path}.end_trim"), own.end_trim, 0.0, 500.0).unwrap_or(0.0),
    }
}
