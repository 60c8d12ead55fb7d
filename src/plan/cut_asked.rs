//! What is asked of the search for a cut list: stock, blanks and pieces as whole numbers of tenths and coins.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use iso_currency::Currency;
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive as _;

use crate::body::takeoff::{Blanks, Grain};
use crate::money::{Money, Per, Price};
use crate::quantity::ShopUnits;
use crate::shop::cutting::bars::{BarJob, BarPiece, BarStock};
use crate::shop::cutting::sheets::{SheetJob, SheetPiece, SheetStock, Trim};

use super::cut_list::{CutBy, Source};
use super::resolve::{CuttingPlan, Resolved, ShearPlan, StockBarPlan};

/// What is asked of a solver, and what its indices stand for.
pub(super) struct Asked<Job, Currency> {
    pub job: Job,
    pub sources: Vec<Source>,
    pub names: Vec<Vec<String>>,
    pub notes: Vec<String>,
    /// The currency in whose coins the job is.
    pub currency: Currency,
    pub units: ShopUnits,
}

/// Tenths of a millimetre, of a piece or a kerf: up to the next whole one, a millionth of a millimetre aside.
pub(super) fn up_tenths(mm: f64) -> i64 {
    (mm * 10.0 - 1e-5).ceil() as i64
}

/// Tenths of a millimetre, of stock: down to the last whole one.
fn down_tenths(mm: f64) -> i64 {
    (mm * 10.0 + 1e-5).floor() as i64
}

/// The price of one as it is paid: in whole coins.
fn rounded(amount: Decimal, currency: Currency) -> Decimal {
    Money { amount, currency }.rounded().amount
}

/// An amount in the smallest coin; bounds of prices are checked where they are read.
fn coins(amount: Decimal, currency: Currency) -> i64 {
    Money { amount, currency }.coins().unwrap_or(i64::MAX / 1_000_000)
}

/// What cuts, and what the cuts cost.
pub(super) struct ShopOf<'a> {
    pub cutting: &'a CuttingPlan,
    /// What an hour at the shear and at the saw costs.
    pub rates: [Option<Price>; 2],
    /// What the crew lifts; none where nobody asks.
    pub lifts_kg: Option<f64>,
    /// Mass of the sheet, kg/m2, where that is known.
    pub areal_kg_m2: Option<f64>,
    pub units: ShopUnits,
}

/// The price of one thing of this area, m2, and mass, kg.
fn price_of(price: Price, m2: f64, kg: Option<f64>, m: f64) -> Decimal {
    let units = match price.per {
        Per::Kilogram => kg.unwrap_or(0.0),
        Per::SquareMetre => m2,
        Per::Metre => m,
        _ => return price.money.amount,
    };
    Decimal::from_f64(units).unwrap_or_default().round_dp(9).saturating_mul(price.money.amount)
}

/// What cuts.
#[derive(Clone, Copy)]
enum Machine {
    Shear,
    Saw,
}

impl<'a> ShopOf<'a> {
    /// A shop without a crew that lifts, and sheets whose mass nobody tells.
    pub(super) fn alone(cutting: &'a CuttingPlan, labour: Option<Price>, units: ShopUnits) -> Self {
        Self { cutting, rates: [labour; 2], lifts_kg: None, areal_kg_m2: None, units }
    }

    /// Time of one person at the rate of the shear or of the saw; nothing where that has no price.
    fn own_cut(&self, at: Machine, hours: f64) -> Decimal {
        self.rates[at as usize].map_or(Decimal::ZERO, |price| {
            Decimal::from_f64(hours).unwrap_or_default().round_dp(9).saturating_mul(price.money.amount)
        })
    }
}

/// Names of pieces that are alike, the first few of many; no two kinds are called the same.
fn told(kind: usize, names: &[String]) -> String {
    let first = names.iter().take(4).map(String::as_str).collect::<Vec<_>>().join(", ");
    let more = if names.len() > 4 { format!(" and {} more", names.len() - 4) } else { String::new() };
    format!("kind {}: {first}{more}", kind + 1)
}

/// Blanks that are cut alike.
pub(super) struct Kind {
    pub names: Vec<String>,
    /// Along the stock sheet and across it, tenths of a millimetre.
    pub size: (i64, i64),
    pub may_turn: bool,
    /// What one costs cut to size by a supplier.
    pub bought: Option<Decimal>,
}

/// The blanks of a takeoff: largest first.
pub(super) fn blanks(r: &Resolved, blanks: &[Blanks]) -> Vec<Kind> {
    let mut kinds: BTreeMap<(Reverse<i64>, Reverse<i64>, bool), Vec<String>> = BTreeMap::new();
    for own in blanks {
        // The grain runs along the stock sheet.
        let (length_mm, width_mm) =
            if own.grain == Grain::Upright { (own.height_mm, own.length_mm) } else { (own.length_mm, own.height_mm) };
        let key = (Reverse(up_tenths(length_mm)), Reverse(up_tenths(width_mm)), own.grain == Grain::Either);
        kinds.entry(key).or_default().extend(own.ids.iter().cloned());
    }
    let kind = |((Reverse(length), Reverse(width), may_turn), names)| {
        let size = (length, width);
        Kind { names, size, may_turn, bought: bought(r, size) }
    };
    kinds.into_iter().map(kind).collect()
}

/// The sheets of the list that can be used, and the blanks; none where no sheets are listed, or there are no blanks.
pub(super) fn sheets_asked(shop: &ShopOf<'_>, kinds: Vec<Kind>) -> Option<Asked<SheetJob, Currency>> {
    let cutting = shop.cutting;
    let currency = cutting.currency?;
    if cutting.sheets.is_empty() || kinds.is_empty() {
        return None;
    }
    let (mut stock, mut sources, mut notes) = (Vec::new(), Vec::new(), Vec::new());
    for (i, row) in cutting.sheets.iter().enumerate() {
        let size = format!("{} x {}", shop.units.length(row.length_mm), shop.units.length(row.width_mm));
        // Who cuts a sheet in the shop carries it whole; of one that its seller cuts the shop gets the pieces.
        let m2 = row.length_mm * row.width_mm / 1e6;
        let mass_kg = shop.areal_kg_m2.map(|kg_m2| m2 * kg_m2);
        let price = rounded(price_of(row.price, m2, mass_kg, 0.0), currency);
        let heavy = mass_kg.zip(shop.lifts_kg).filter(|(mass, lifts)| mass > lifts);
        if let Some((mass_kg, lifts_kg)) = heavy {
            let instead = if row.cut.is_some() { "; its seller may cut it" } else { "" };
            notes.push(format!("{size}: {mass_kg:.1} kg, more than the {lifts_kg:.1} kg that the crew lifts: not cut in the shop{instead}"));
        }
        let trimmed = |shear: &ShearPlan| {
            let reached = |run_mm: f64, trim_mm: f64| {
                up_tenths(trim_mm) <= down_tenths(shear.throat_mm)
                    || down_tenths(run_mm) <= down_tenths(shear.longest_mm)
            };
            reached(row.length_mm, row.mill_edge_mm) && reached(row.width_mm, row.end_trim_mm)
        };
        let shear = cutting.shear.as_ref().filter(|_| heavy.is_none());
        if shear.is_some_and(|shear| !trimmed(shear)) {
            notes.push(format!("{size}: the shear does not reach its bad edges: not cut in the shop"));
        }
        let shear = shear.filter(|shear| trimmed(shear));
        let own = shear.map(|shear| (CutBy::Shop, shop.own_cut(Machine::Shear, shear.hours), Some(shear)));
        let seller = row.cut.map(|charge| (CutBy::Seller, charge, None));
        // What is limited stands once in the job: it cannot be counted over two of its stocks.
        let ways = own.into_iter().chain(seller).take(if row.count.is_some() { 1 } else { 2 });
        for (cut_by, charge, shear) in ways {
            stock.push(SheetStock {
                name: format!("row {}, {}", i + 1, cut_by.words()),
                length_tenths: down_tenths(row.length_mm),
                width_tenths: down_tenths(row.width_mm),
                price_coins: coins(price, currency),
                count: row.count,
                trim: Trim {
                    start_tenths: up_tenths(row.end_trim_mm),
                    end_tenths: up_tenths(row.end_trim_mm),
                    lower_tenths: up_tenths(row.mill_edge_mm),
                    upper_tenths: up_tenths(row.mill_edge_mm),
                },
                cut_coins: coins(charge, currency),
                longest_cut_tenths: shear.map(|shear| down_tenths(shear.longest_mm)),
                throat_tenths: shear.map_or(0, |shear| down_tenths(shear.throat_mm)),
            });
            sources.push(Source {
                row: i,
                size: size.clone(),
                supplier: row.supplier.clone(),
                cut_by,
                price: Some(price),
                charge: (cut_by == CutBy::Seller).then_some(charge),
            });
        }
    }
    let pieces = kinds.iter().enumerate().map(|(i, kind)| SheetPiece {
        name: told(i, &kind.names),
        length_tenths: kind.size.0,
        width_tenths: kind.size.1,
        count: kind.names.len() as u32,
        may_turn: kind.may_turn,
        bought_coins: kind.bought.map(|amount| coins(amount, currency)),
    });
    let shear = cutting.shear.as_ref();
    let job = SheetJob {
        pieces: pieces.collect(),
        stock,
        kerf_tenths: shear.map_or(0, |shear| up_tenths(shear.kerf_mm)),
        stages: shear.and_then(|shear| shear.stages),
        first_cut: shear.and_then(|shear| shear.first_cut),
        keep_tenths: (up_tenths(cutting.keep_mm.0), up_tenths(cutting.keep_mm.1)),
    };
    Some(Asked {
        job,
        sources,
        names: kinds.into_iter().map(|kind| kind.names).collect(),
        notes,
        currency,
        units: shop.units,
    })
}

/// What a blank costs cut to size, the waste the supplier's; none where that has no price.
fn bought(r: &Resolved, (length, width): (i64, i64)) -> Option<Decimal> {
    let prices = r.prices.as_ref().filter(|_| r.cutting.cut_to_size)?;
    let (sheet, cutting) = prices.of(|book| book.sheet.as_ref()).zip(prices.of(|book| book.sheet_cutting.as_ref()))?;
    let (sheet, cutting) = (sheet.price, cutting.price);
    let m2 = (length * width) as f64 / 1e8;
    Some(price_of(sheet, m2, Some(m2 * r.sheet.areal_mass_kg_m2), 0.0).saturating_add(cutting.money.amount))
}

/// A piece of bar.
pub(super) struct BarNeed {
    pub name: String,
    pub length_mm: f64,
    /// The steeper of its two mitres, degrees from a square cut.
    pub mitre_deg: f64,
}

/// Pieces with square ends.
pub(super) fn square(pieces: impl Iterator<Item = (String, f64)>) -> Vec<BarNeed> {
    pieces.map(|(name, length_mm)| BarNeed { name, length_mm, mitre_deg: 0.0 }).collect()
}

/// The bars of the list, or the usual one, and the pieces; a piece longer than every bar is joined from whole bars and a rest.
/// None where there are no pieces.
pub(super) fn bars_asked(
    shop: &ShopOf<'_>,
    rows: &[StockBarPlan],
    needs: &[BarNeed],
) -> Option<Asked<BarJob, Option<Currency>>> {
    if needs.is_empty() {
        return None;
    }
    let (cutting, units) = (shop.cutting, shop.units);
    let kerf_tenths = up_tenths(cutting.saw_kerf_mm);
    let own_cut = cutting.saw_hours.map(|hours| shop.own_cut(Machine::Saw, hours));
    let (mut stock, mut sources) = (Vec::new(), Vec::new());
    let usual = StockBarPlan {
        length_mm: cutting.bar_mm,
        price: Price { money: Money { amount: Decimal::ONE, currency: Currency::XXX }, per: Per::Each },
        count: None,
        supplier: None,
        cut: None,
        end_trim_mm: 0.0,
    };
    let listed = cutting.currency.filter(|_| !rows.is_empty());
    for (i, row) in if listed.is_some() { rows } else { std::slice::from_ref(&usual) }.iter().enumerate() {
        let trim_tenths = up_tenths(row.end_trim_mm);
        let price = |currency| rounded(price_of(row.price, 0.0, None, row.length_mm / 1000.0), currency);
        // The seller cuts where that is cheaper than the shop's own time for a cut.
        let charge = row.cut.filter(|charge| own_cut.is_some_and(|own| *charge < own));
        stock.push(BarStock {
            name: format!("row {}", i + 1),
            length_tenths: down_tenths(row.length_mm),
            // Where bars have no price each counts as one: the fewest are the best.
            price_coins: listed.map_or(1, |currency| coins(price(currency), currency)),
            count: row.count,
            trim_start_tenths: trim_tenths,
            trim_end_tenths: trim_tenths,
        });
        sources.push(Source {
            row: i,
            size: units.length(row.length_mm),
            supplier: row.supplier.clone(),
            cut_by: if charge.is_some() { CutBy::Seller } else { CutBy::Shop },
            price: listed.map(price),
            charge,
        });
    }
    let usable = |own: &BarStock| own.usable_tenths(kerf_tenths);
    // Of bars that run out, none may be there for the next piece.
    let unlimited = stock.iter().filter(|own| own.count.is_none()).map(usable).max();
    let longest = unlimited.or(stock.iter().map(usable).max()).unwrap_or(0).max(1);
    let mut kinds: BTreeMap<(Reverse<i64>, i64), Vec<String>> = BTreeMap::new();
    for need in needs {
        let length = up_tenths(need.length_mm);
        // A mitred cut runs over the bar slantwise: its kerf along the bar is the saw's over the cosine.
        let kerf = up_tenths(cutting.saw_kerf_mm / need.mitre_deg.to_radians().cos());
        let whole = stock.iter().any(|own| usable(own) >= length);
        let parts = if whole { 1 } else { ((length + longest - 1) / longest).max(1) };
        for part in 1..=parts {
            let own = if part < parts { longest } else { length - (parts - 1) * longest };
            let name = if parts > 1 { format!("{}, part {part} of {parts}", need.name) } else { need.name.clone() };
            kinds.entry((Reverse(own), kerf)).or_default().push(name);
        }
    }
    let pieces = kinds.iter().enumerate().map(|(i, ((Reverse(length_tenths), kerf), names))| BarPiece {
        name: told(i, names),
        length_tenths: *length_tenths,
        count: names.len() as u32,
        kerf_tenths: (*kerf != kerf_tenths).then_some(*kerf),
    });
    let job = BarJob { pieces: pieces.collect(), stock, kerf_tenths };
    Some(Asked { job, sources, names: kinds.into_values().collect(), notes: Vec::new(), currency: listed, units })
}
