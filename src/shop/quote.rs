//! The price: lines from takeoff and hours, each traceable to its quantity; a missing price is an open item.

use iso_currency::Currency;
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

use crate::body::takeoff::{Bars, Takeoff};
use crate::error::Problem;
use crate::money::{Money, Per, Price};

/// Prices and rates; whatever is left out stays open.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceBook {
    /// The one currency of all prices.
    pub currency: Currency,
    /// Sheet, per kilogram or per square metre.
    pub sheet: Option<Price>,
    /// Cutting one sheet to size.
    pub sheet_cutting: Option<Price>,
    /// Insert section, per metre.
    pub insert: Option<Price>,
    /// Backing tube, per metre.
    pub tube: Option<Price>,
    /// One rivet.
    pub rivet: Option<Price>,
    /// One plug of an old hole.
    pub plug: Option<Price>,
    /// Sealant, per litre.
    pub sealant: Option<Price>,
    /// Primer, per litre.
    pub primer: Option<Price>,
    /// Paint, coat by coat, per litre.
    pub coats: Vec<CoatPrice>,
    /// What the new skin is pretreated with, per square metre of one face.
    pub pretreatment: Option<CoatPrice>,
    /// Labour, per hour.
    pub labour: Option<Price>,
    /// Added on materials and labour, as a share.
    pub overhead: f64,
    /// Added on all that, as a share.
    pub margin: f64,
    /// Tax on the whole, as a share.
    pub tax: f64,
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

/// One line of the quote.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Line {
    /// What is paid for.
    pub name: String,
    /// Quantity as priced.
    pub quantity: Decimal,
    /// Its unit; empty for pieces.
    pub unit: &'static str,
    /// Price of one unit, unrounded.
    pub unit_price: Decimal,
    /// Quantity times price, rounded to the smallest coin.
    pub amount: Decimal,
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
    /// Sum of the lines, tax included.
    pub total: Decimal,
}

impl Quote {
    /// The total with its currency; `None` while nothing is priced.
    pub fn total_text(&self) -> String {
        let open = if self.open_items.is_empty() { "" } else { " + open items" };
        format!("{} {}{open}", self.total, self.currency)
    }
}

impl PriceBook {
    /// Problems with the prices: negative ones, mixed currencies, a unit that does not fit.
    pub fn problems(&self) -> Vec<Problem> {
        let kg_or_m2: &[Per] = &[Per::Kilogram, Per::SquareMetre];
        let book: [(&str, Option<Price>, &[Per], &str); 9] = [
            ("sheet", self.sheet, kg_or_m2, "per kg or m2"),
            ("sheet_cutting", self.sheet_cutting, &[Per::Each], "for one sheet"),
            ("insert", self.insert, &[Per::Metre], "per m or ft"),
            ("tube", self.tube, &[Per::Metre], "per m or ft"),
            ("rivet", self.rivet, &[Per::Each], "for one rivet"),
            ("plug", self.plug, &[Per::Each], "for one plug"),
            ("sealant", self.sealant, &[Per::Litre], "per L or gal"),
            ("primer", self.primer, &[Per::Litre], "per L or gal"),
            ("labour", self.labour, &[Per::Hour], "per h"),
        ];
        let book = book.into_iter().map(|(name, price, per, words)| (format!("prices.{name}"), price, per, words));
        let coats = self.coats.iter().map(|own| (own.path.clone(), own.price, &[Per::Litre][..], "per L or gal"));
        let pretreatment = self.pretreatment.iter();
        let pretreatment =
            pretreatment.map(|own| (own.path.clone(), own.price, &[Per::SquareMetre][..], "per m2 or ft2"));
        let mut problems = Vec::new();
        for (path, price, allowed, words) in book.chain(coats).chain(pretreatment) {
            let Some(price) = price else { continue };
            if price.money.amount.is_sign_negative() && !price.money.amount.is_zero() {
                problems.push(Problem::out_of_range(&path, price, "nought or more"));
            }
            // Far above any price, and far below where exact decimals end.
            if price.money.amount > Decimal::from(1_000_000_000) {
                problems.push(Problem::out_of_range(&path, price, "at most 1000000000 for one unit"));
            }
            if !allowed.contains(&price.per) {
                problems.push(Problem::contradiction(&path, price, format!("this price is {words}")));
            }
            if price.money.currency != self.currency {
                problems.push(Problem::contradiction(
                    &path,
                    price,
                    format!("the plan's other prices are in {}; use one currency", self.currency.code()),
                ));
            }
        }
        for (name, share) in [("overhead", self.overhead), ("margin", self.margin), ("tax", self.tax)] {
            if !(0.0..=5.0).contains(&share) {
                problems.push(Problem::out_of_range(format!("prices.{name}"), share, "0 to 500 %"));
            }
        }
        problems
    }

    /// The price of a litre of a paint: that of one of its coats, or of primer where it is one.
    pub fn paint(&self, name: &str) -> Option<Price> {
        let own = self.coats.iter().filter(|own| own.name == name).find_map(|own| own.price);
        own.or(self.primer.filter(|_| is_primer(name)))
    }
}

/// A quantity as an exact decimal with three places: finer than anything is sold.
pub(crate) fn decimal(quantity: f64) -> Decimal {
    Decimal::from_f64(quantity).unwrap_or_default().round_dp(3)
}

/// What the cut list takes over from the takeoff's own sheet, insert section and tube.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FromStock {
    /// Blanks that are still bought cut to size, and their area, m2; none where the cut list has no sheets: then all are.
    pub cut_to_size: Option<(u32, f64)>,
    /// Inserts are cut from bars that have a price.
    pub inserts: bool,
    /// So is backing tube.
    pub backing: bool,
    /// Sheets, bars and sellers' cuts: what, how many, of what, and the price of one.
    pub lines: Vec<(String, u32, &'static str, Decimal)>,
}

/// Makes the quote. `areal_mass_kg_m2` turns sheet area into mass where sheet is priced by mass.
pub fn quote(takeoff: &Takeoff, stock: &FromStock, areal_mass_kg_m2: f64, hours: f64, book: &PriceBook) -> Quote {
    let (sheets, sheet_area_m2) = match stock.cut_to_size {
        Some((count, area_m2)) => (f64::from(count), area_m2),
        None => (takeoff.sheets as f64, takeoff.sheet_area_m2),
    };
    let sheet_quantity = match book.sheet.map(|p| p.per) {
        Some(Per::SquareMetre) => sheet_area_m2,
        _ => sheet_area_m2 * areal_mass_kg_m2,
    };
    let by_the_metre = |own: &Bars, from_stock: bool| if from_stock { 0.0 } else { own.total_m };
    let materials = [
        ("sheet", sheet_quantity, book.sheet),
        ("sheet cut to size by the supplier", sheets, book.sheet_cutting),
        ("insert section", by_the_metre(&takeoff.inserts, stock.inserts), book.insert),
        ("backing tube", by_the_metre(&takeoff.backing, stock.backing), book.tube),
        ("rivets, spares included", (takeoff.rivets_ordered + takeoff.old_line_rivets_ordered) as f64, book.rivet),
        ("plugs", takeoff.old_holes.plugged as f64, book.plug),
        ("sealant", takeoff.sealant_l, book.sealant),
    ];
    let pretreatment = book.pretreatment.iter().map(|own| (own.name.as_str(), takeoff.pretreated_area_m2, own.price));
    let paints = takeoff.paints_l().into_iter().map(|(name, litres)| (name, litres, book.paint(name)));
    let asked = materials.into_iter().chain(pretreatment).chain(paints).chain([("labour", hours, book.labour)]);
    let coin = |amount: Decimal| Money { amount, currency: book.currency }.rounded().amount;
    let of_stock = |(name, count, unit, price): &(String, u32, &'static str, Decimal)| Line {
        name: name.clone(),
        quantity: Decimal::from(*count),
        unit,
        unit_price: *price,
        amount: coin(Decimal::from(*count).saturating_mul(*price)),
    };
    let mut lines: Vec<Line> = stock.lines.iter().map(of_stock).collect();
    let mut open_items = Vec::new();
    for (name, quantity, price) in asked {
        if quantity <= 0.0 {
            continue;
        }
        let Some(price) = price else {
            open_items.push(name.to_owned());
            continue;
        };
        let quantity = decimal(quantity);
        lines.push(Line {
            name: name.to_owned(),
            quantity,
            unit: price.per.unit(),
            unit_price: price.money.amount,
            amount: coin(quantity.saturating_mul(price.money.amount)),
        });
    }
    for (name, share) in [("overhead", book.overhead), ("margin", book.margin), ("tax", book.tax)] {
        if share > 0.0 {
            let base: Decimal = lines.iter().map(|l| l.amount).sum();
            let share = Decimal::from_f64(share).unwrap_or_default().round_dp(6);
            lines.push(Line {
                name: name.to_owned(),
                quantity: share,
                unit: "of the above",
                unit_price: base,
                amount: coin(share.saturating_mul(base)),
            });
        }
    }
    let total = lines.iter().map(|l| l.amount).sum();
    Quote { currency: book.currency.code(), lines, open_items, total }
}
