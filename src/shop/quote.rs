//! The quote: lines from takeoff, cut list and hours, each traceable to its quantity; a missing price is an open item.

use std::borrow::Cow;

use iso_currency::Currency;
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

use crate::body::takeoff::{Bars, Takeoff};
use crate::error::Problem;
use crate::money::{Money, Per, Price};
use crate::quantity::Ratio;
use crate::shared::Shared;

use super::hours::{Task, stage_of};
use super::price_book::{PriceBook, Stage, price_problems};
use super::tariff::{Charge, Tariff};

/// A price book with the paints that have prices of their own.
#[derive(Debug, Clone, PartialEq)]
pub struct Prices {
    /// The one currency of all prices.
    pub currency: Currency,
    /// The price book.
    pub book: Shared<Option<PriceBook>>,
    /// Paint, coat by coat, per litre.
    pub coats: Vec<CoatPrice>,
    /// What the new skin is pretreated with, per square metre of one face.
    pub pretreatment: Option<CoatPrice>,
}

/// Price of a coat.
#[derive(Debug, Clone, PartialEq)]
pub struct CoatPrice {
    /// The entry of the plan.
    pub path: String,
    /// What the coat is.
    pub name: String,
    /// Its price, where it has one of its own.
    pub price: Option<Price>,
}

/// A coat that the price of primer stands for.
pub fn is_primer(name: &str) -> bool {
    name.to_lowercase().split(|c: char| !c.is_alphanumeric()).any(|word| word == "primer")
}

/// What a line is paid for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Basis {
    /// Sheet, bars, rivets, paint.
    Materials,
    /// Hours.
    Labour,
    /// Deliveries.
    Freight,
    /// What the price book lists besides.
    Extra,
    /// A share of the lines above: overhead, margin, tax.
    Share,
}

impl Basis {
    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Materials => "materials",
            Self::Labour => "labour",
            Self::Freight => "freight",
            Self::Extra => "extra",
            Self::Share => "share",
        }
    }
}

/// One line of the quote.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Line {
    /// What is paid for.
    pub name: String,
    /// What kind of thing that is.
    pub basis: Basis,
    /// The entry of the price book, or the trade, that it is priced by.
    pub priced_by: String,
    /// The stage that it belongs to.
    pub stage: Stage,
    /// Quantity as priced.
    pub quantity: Decimal,
    /// Its unit; empty for pieces.
    pub unit: &'static str,
    /// Price of one unit, unrounded.
    pub unit_price: Decimal,
    /// Quantity times price, rounded to the smallest coin, or the least charge.
    pub amount: Decimal,
    /// Where the quantity comes from.
    pub from: String,
    /// A break or a least charge that decided.
    pub note: String,
}

/// A quote in one currency.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Quote {
    /// ISO 4217 code.
    pub currency: &'static str,
    /// The lines.
    pub lines: Vec<Line>,
    /// What has no price yet; the total lacks it.
    pub open_items: Vec<String>,
    /// Hours of tasks that have no rate, and so no line.
    pub open_hours: Decimal,
    /// Sum of the lines, tax included.
    pub total: Decimal,
}

/// What the customer pays for a stage, overhead and margin within.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct StagePrice {
    /// The stage.
    pub stage: Stage,
    /// Its lines before overhead and margin.
    pub cost: Decimal,
    /// Its share of everything but tax, to the smallest coin; all stages sum to it.
    pub price: Decimal,
}

/// What is not in a quote, each with the word by which a line of the quote says that it is; common practice, no source.
pub const EXCLUDED: [(&str, &str); 4] = [
    ("engineer", "a licensed engineer's review, inspection, title and registration"),
    ("fit-out", "fit-out, windows, doors, wiring and what hangs on them"),
    ("hire", "hire of cribs, jacks, braces and lifting gear"),
    ("repair", "repair of what is found under the old skin: rust, split posts, old wiring"),
];

impl Quote {
    /// The total with its currency, and whether something has no price yet.
    pub fn total_text(&self) -> String {
        let open = if self.open_items.is_empty() { "" } else { " + open items" };
        format!("{} {}{open}", self.total, self.currency)
    }

    /// The tax that is in the total.
    pub fn tax(&self) -> Decimal {
        self.lines.iter().filter(|line| line.basis == Basis::Share && line.name == "tax").map(|line| line.amount).sum()
    }

    /// The stages that there are lines of, overhead and margin spread over them by cost: what is left over by rounding goes to
    /// the stages whose share was cut most (the largest remainders), so that they sum to the total without tax.
    pub fn by_stage(&self) -> Vec<StagePrice> {
        let cost = |stage: Stage| -> Option<Decimal> {
            let own = || self.lines.iter().filter(move |line| line.stage == stage && line.basis != Basis::Share);
            own().next().map(|_| own().map(|line| line.amount).sum())
        };
        let stages: Vec<(Stage, Decimal)> = Stage::ALL.into_iter().filter_map(|s| Some((s, cost(s)?))).collect();
        let whole: Decimal = stages.iter().map(|(_, cost)| cost).sum();
        let net = self.total - self.tax();
        if whole.is_zero() {
            return stages.into_iter().map(|(stage, cost)| StagePrice { stage, cost, price: cost }).collect();
        }
        let places = Currency::from_code(self.currency).and_then(|own| own.exponent()).map_or(2, u32::from);
        let mut prices: Vec<(StagePrice, Decimal)> = stages
            .into_iter()
            .map(|(stage, cost)| {
                let exact = cost.checked_mul(net).and_then(|all| all.checked_div(whole)).unwrap_or(cost);
                let price = exact.trunc_with_scale(places);
                (StagePrice { stage, cost, price }, exact - price)
            })
            .collect();
        let coin = Decimal::new(1, places);
        let mut short = net - prices.iter().map(|(own, _)| own.price).sum::<Decimal>();
        prices.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.stage.cmp(&b.0.stage)));
        for (own, _) in &mut prices {
            if short < coin {
                break;
            }
            own.price += coin;
            short -= coin;
        }
        let mut prices: Vec<StagePrice> = prices.into_iter().map(|(own, _)| own).collect();
        prices.sort_by_key(|own| own.stage);
        prices
    }
}

impl Prices {
    /// Problems with the prices: negative ones, mixed currencies, a unit that does not fit.
    pub fn problems(&self) -> Vec<Problem> {
        let mut problems = self.book.as_ref().map_or_else(Vec::new, |book| book.problems("prices.", self.currency));
        let coats = self.coats.iter().map(|own| (own, (&[Per::Litre][..], "per L or gal")));
        let pretreatment = self.pretreatment.iter().map(|own| (own, (&[Per::SquareMetre][..], "per m2 or ft2")));
        for (own, paid_by) in coats.chain(pretreatment) {
            if let Some(price) = own.price {
                problems.extend(price_problems(&own.path, price, paid_by, self.currency));
            }
        }
        problems
    }

    /// An entry of the price book.
    pub fn of(&self, entry: impl Fn(&PriceBook) -> Option<&Tariff>) -> Option<&Tariff> {
        Option::as_ref(&self.book).and_then(entry)
    }

    /// The rate of a task.
    pub fn rate(&self, task: &str) -> Option<Price> {
        Option::as_ref(&self.book).and_then(|book| book.rate(task).0)
    }

    /// What all blanks cost bought cut to size, breaks and least charges looked at; none where that has no price.
    pub fn all_cut_to_size(&self, takeoff: &Takeoff, areal_mass_kg_m2: f64) -> Option<Decimal> {
        let (sheet, cutting) = self.of(|book| book.sheet.as_ref()).zip(self.of(|book| book.sheet_cutting.as_ref()))?;
        let by_area = sheet.price.per == Per::SquareMetre;
        let quantity = takeoff.sheet_area_m2 * if by_area { 1.0 } else { areal_mass_kg_m2 };
        let sheets = Decimal::from(takeoff.sheets as u64);
        Some(sheet.charge(decimal(quantity)).amount + cutting.charge(sheets).amount)
    }

    /// The price of a litre of a paint: that of one of its coats, or of primer where it is one.
    pub fn paint(&self, name: &str) -> Option<Tariff> {
        let own = self.coats.iter().filter(|own| own.name == name).find_map(|own| own.price);
        own.map(Tariff::from).or_else(|| self.of(|book| book.primer.as_ref()).filter(|_| is_primer(name)).cloned())
    }
}

/// A quantity as an exact decimal with three places: finer than anything is sold.
pub(crate) fn decimal(quantity: f64) -> Decimal {
    Decimal::from_f64(quantity).unwrap_or_default().round_dp(3)
}

/// Sheets, bars or sellers' cuts of the cut list.
#[derive(Debug, Clone, PartialEq)]
pub struct StockLine {
    /// What, of whom.
    pub name: String,
    /// The entry of the price book that it stands in for: `sheet`, `insert` or `tube`.
    pub entry: &'static str,
    /// How many.
    pub count: u32,
    /// Of what.
    pub unit: &'static str,
    /// The price of one.
    pub price: Decimal,
}

/// What the cut list takes over from the takeoff's own sheet, insert section and tube.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FromStock {
    /// Blanks that are still bought cut to size, and their area, m2; none where the cut list has no sheets: then all are.
    pub cut_to_size: Option<(u32, f64)>,
    /// Area of the whole sheets that are bought, m2.
    pub sheets_m2: f64,
    /// Inserts are cut from bars that have a price: the length of the bars bought, m.
    pub inserts_m: Option<f64>,
    /// So is backing tube.
    pub backing_m: Option<f64>,
    /// Sheets, bars and sellers' cuts.
    pub lines: Vec<StockLine>,
}

/// What is quoted.
#[derive(Debug, Clone)]
pub struct Work<'a> {
    /// The quantities.
    pub takeoff: &'a Takeoff,
    /// What is cut from stock.
    pub stock: &'a FromStock,
    /// Hours by task.
    pub tasks: &'a [Task],
    /// Turns sheet area into mass, kg/m2.
    pub areal_mass_kg_m2: f64,
    /// Mass of a metre of insert and of tube, kg/m.
    pub bar_masses_kg_m: [f64; 2],
    /// Sealant as it is ordered: whole cartridges where it comes in those, litres.
    pub sealant_l: f64,
    /// Pilot bits to have at hand; none where their life is not known.
    pub pilot_bits: Option<u64>,
    /// Tape or adhesive, new drip rail, channel: the metres that are ordered.
    pub trims_m: [f64; 3],
}

/// Something that costs by its quantity.
struct Asked<'a> {
    name: String,
    entry: &'static str,
    stage: Stage,
    quantity: f64,
    tariff: Option<Cow<'a, Tariff>>,
    from: String,
}

/// Makes the quote.
pub fn quote(work: &Work, prices: &Prices) -> Quote {
    let coin = |amount: Decimal| Money { amount, currency: prices.currency }.rounded().amount;
    let mut quote = Quote {
        currency: prices.currency.code(),
        lines: Vec::new(),
        open_items: Vec::new(),
        open_hours: Decimal::ZERO,
        total: Decimal::ZERO,
    };
    for own in &work.stock.lines {
        quote.lines.push(Line {
            name: own.name.clone(),
            basis: Basis::Materials,
            priced_by: own.entry.to_owned(),
            stage: if own.entry == "sheet" { Stage::Skin } else { Stage::Frame },
            quantity: Decimal::from(own.count),
            unit: own.unit,
            unit_price: own.price,
            amount: coin(Decimal::from(own.count).saturating_mul(own.price)),
            from: "cut list".to_owned(),
            note: String::new(),
        });
    }
    for asked in materials(work, prices) {
        if asked.quantity <= 0.0 {
            continue;
        }
        let Some(tariff) = asked.tariff else {
            quote.open_items.push(asked.name);
            continue;
        };
        let (quantity, basis) = (decimal(asked.quantity), Basis::Materials);
        quote.charge(&tariff, quantity, (asked.name, basis, asked.entry.to_owned(), asked.stage, asked.from));
    }
    if work.pilot_bits.is_none() && work.takeoff.rivets > 0 {
        // How many is not known.
        quote.open_items.push("pilot bits".to_owned());
    }
    labour(&mut quote, work, prices);
    if let Some(book) = Option::as_ref(&prices.book) {
        let steel_kg = decimal(ordered_kg(work));
        for own in &book.freight {
            let by_mass = own.price.price.per == Per::Kilogram;
            let quantity = if by_mass { steel_kg } else { Decimal::ONE };
            let from = if by_mass { "sheet and bars that are ordered" } else { "one delivery" };
            let name = format!("freight, {}", own.name);
            quote.charge(&own.price, quantity, (name, Basis::Freight, own.name.clone(), Stage::Job, from.to_owned()));
        }
        for own in &book.extra {
            let quantity = own.quantity.map_or(Decimal::ONE, |own| own.quantity);
            let from = "price book".to_owned();
            quote.charge(&own.price, quantity, (own.name.clone(), Basis::Extra, own.name.clone(), own.stage, from));
        }
        for (name, share) in [("overhead", book.overhead), ("margin", book.margin), ("tax", book.tax)] {
            let share = share.map_or(0.0, Ratio::value);
            if share > 0.0 {
                let base: Decimal = quote.lines.iter().map(|l| l.amount).sum();
                let share = Decimal::from_f64(share).unwrap_or_default().round_dp(6);
                quote.lines.push(Line {
                    name: name.to_owned(),
                    basis: Basis::Share,
                    priced_by: name.to_owned(),
                    stage: Stage::Job,
                    quantity: share,
                    unit: "of the above",
                    unit_price: base,
                    amount: coin(share.saturating_mul(base)),
                    from: "sum of the lines above".to_owned(),
                    note: String::new(),
                });
            }
        }
    }
    quote.total = quote.lines.iter().map(|l| l.amount).sum();
    quote
}

impl Quote {
    fn charge(
        &mut self,
        tariff: &Tariff,
        quantity: Decimal,
        (name, basis, priced_by, stage, from): (String, Basis, String, Stage, String),
    ) {
        let unit = tariff.price.per.unit();
        let Charge { unit_price, amount, note } = tariff.charge(quantity);
        self.lines.push(Line { name, basis, priced_by, stage, quantity, unit, unit_price, amount, from, note });
    }
}

/// Sheet and bars that are delivered, kg.
fn ordered_kg(work: &Work) -> f64 {
    let (takeoff, stock) = (work.takeoff, work.stock);
    let to_size_m2 = stock.cut_to_size.map_or(takeoff.sheet_area_m2, |(_, area_m2)| area_m2);
    let [insert_kg_m, tube_kg_m] = work.bar_masses_kg_m;
    (to_size_m2 + stock.sheets_m2) * work.areal_mass_kg_m2
        + stock.inserts_m.unwrap_or(takeoff.inserts.total_m) * insert_kg_m
        + stock.backing_m.unwrap_or(takeoff.backing.total_m) * tube_kg_m
}

fn materials<'a>(work: &Work<'a>, prices: &'a Prices) -> impl Iterator<Item = Asked<'a>> {
    let metal = metal(work, prices).into_iter();
    metal.chain(fastening(work, prices)).chain(trims(work, prices)).chain(coatings(work, prices))
}

impl<'a> Asked<'a> {
    fn new(
        (name, entry, stage): (&str, &'static str, Stage),
        quantity: f64,
        tariff: Option<&'a Tariff>,
        from: impl Into<String>,
    ) -> Self {
        Self { name: name.to_owned(), entry, stage, quantity, tariff: tariff.map(Cow::Borrowed), from: from.into() }
    }
}

/// Sheet and bars that are not in the cut list.
fn metal<'a>(work: &Work<'a>, prices: &'a Prices) -> [Asked<'a>; 4] {
    let (takeoff, stock) = (work.takeoff, work.stock);
    let (sheets, sheets_m2) = match stock.cut_to_size {
        Some((count, area_m2)) => (f64::from(count), area_m2),
        None => (takeoff.sheets as f64, takeoff.sheet_area_m2),
    };
    let sheet = prices.of(|book| book.sheet.as_ref());
    let by_area = sheet.is_some_and(|own| own.price.per == Per::SquareMetre);
    let sheet_quantity = if by_area { sheets_m2 } else { sheets_m2 * work.areal_mass_kg_m2 };
    let sheet_from = format!("{sheets} blanks, {sheets_m2:.2} m2, {:.3} kg/m2", work.areal_mass_kg_m2);
    let by_the_metre = |own: &Bars, bars: Option<f64>| if bars.is_some() { 0.0 } else { own.total_m };
    let pieces = |own: &Bars| format!("{} pieces", own.pieces_mm.len());
    let cutting = prices.of(|book| book.sheet_cutting.as_ref());
    let (insert, tube) = (prices.of(|book| book.insert.as_ref()), prices.of(|book| book.tube.as_ref()));
    let (insert_m, tube_m) =
        (by_the_metre(&takeoff.inserts, stock.inserts_m), by_the_metre(&takeoff.backing, stock.backing_m));
    [
        Asked::new(("sheet", "sheet", Stage::Skin), sheet_quantity, sheet, sheet_from),
        Asked::new(
            ("sheet cut to size by the supplier", "sheet_cutting", Stage::Skin),
            sheets,
            cutting,
            "blanks that are bought cut to size",
        ),
        Asked::new(("insert section", "insert", Stage::Frame), insert_m, insert, pieces(&takeoff.inserts)),
        Asked::new(("backing tube", "tube", Stage::Frame), tube_m, tube, pieces(&takeoff.backing)),
    ]
}

/// Rivets, plugs, sealant and bits.
fn fastening<'a>(work: &Work<'a>, prices: &'a Prices) -> [Asked<'a>; 4] {
    let takeoff = work.takeoff;
    let of = |entry: fn(&PriceBook) -> Option<&Tariff>| prices.of(entry);
    let rivets = (takeoff.rivets_ordered + takeoff.old_line_rivets_ordered) as f64;
    let holes = format!("{} holes of the rivet lines, {} of old lines", takeoff.rivets, takeoff.old_holes.riveted);
    let seams = format!("{:.1} m of laps and edges", takeoff.sealed_length_m);
    let bits = work.pilot_bits.unwrap_or(0) as f64;
    [
        Asked::new(("rivets, spares included", "rivet", Stage::Skin), rivets, of(|b| b.rivet.as_ref()), holes),
        Asked::new(
            ("plugs", "plug", Stage::Skin),
            takeoff.old_holes.plugged as f64,
            of(|b| b.plug.as_ref()),
            "old holes in sheet that stays",
        ),
        Asked::new(("sealant", "sealant", Stage::Skin), work.sealant_l, of(|b| b.sealant.as_ref()), seams),
        Asked::new(
            ("pilot bits", "pilot_bit", Stage::Skin),
            bits,
            of(|b| b.pilot_bit.as_ref()),
            "holes, by what a bit makes at the least",
        ),
    ]
}

/// Tape, drip rail and channel.
fn trims<'a>(work: &Work<'a>, prices: &'a Prices) -> [Asked<'a>; 3] {
    let [tape_m, drip_rail_m, channel_m] = work.trims_m;
    let of = |entry: fn(&PriceBook) -> Option<&Tariff>| prices.of(entry);
    [
        Asked::new(
            ("tape or adhesive on posts", "tape", Stage::Skin),
            tape_m,
            of(|b| b.tape.as_ref()),
            "lines on posts",
        ),
        Asked::new(("drip rail", "drip_rail", Stage::Skin), drip_rail_m, of(|b| b.drip_rail.as_ref()), "upper edges"),
        Asked::new(
            ("channel", "channel", Stage::Skin),
            channel_m,
            of(|b| b.channel.as_ref()),
            "over windows and doors that stay",
        ),
    ]
}

/// Pretreatment and paints.
fn coatings<'a>(work: &Work<'a>, prices: &'a Prices) -> impl Iterator<Item = Asked<'a>> {
    let takeoff = work.takeoff;
    let asked = |name: &str, entry, quantity, tariff: Option<Tariff>, from: &str| Asked {
        name: name.to_owned(),
        entry,
        stage: Stage::Paint,
        quantity,
        tariff: tariff.map(Cow::Owned),
        from: from.to_owned(),
    };
    let pretreatment = prices.pretreatment.iter().map(move |own| {
        let price = own.price.map(Tariff::from);
        asked(&own.name, "pretreatment", takeoff.pretreated_area_m2, price, "faces of the new skin")
    });
    let paints = takeoff.paints_l().into_iter();
    let paints = paints.map(move |(name, litres)| {
        asked(name, "paint", litres, prices.paint(name), "areas, films, solids and losses of its coats")
    });
    pretreatment.chain(paints)
}

/// A line for each task at its trade's rate; one open item for all that have none.
fn labour(quote: &mut Quote, work: &Work, prices: &Prices) {
    let book = PriceBook::default();
    let book = Option::as_ref(&prices.book).unwrap_or(&book);
    for task in work.tasks.iter().filter(|task| task.hours > 0.0) {
        let (rate, whose) = book.rate(task.name);
        let Some(rate) = rate else {
            quote.open_hours += decimal(task.hours);
            continue;
        };
        let each = 60.0 * task.hours / task.quantity;
        let from = format!("{:.1} {}, {each:.1} min each", task.quantity, task.unit);
        let what = (task.name.to_owned(), Basis::Labour, whose.to_owned(), stage_of(task.name), from);
        quote.charge(&rate.into(), decimal(task.hours), what);
    }
    if !quote.open_hours.is_zero() {
        quote.open_items.push("labour".to_owned());
    }
}
