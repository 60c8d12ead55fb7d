//! The cut list of a plan: what is cut from which sheet and bar, by whom, and what is bought for it.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use iso_currency::Currency;
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive as _;
use serde::{Serialize, Serializer};

use crate::body::raise::RaisedBody;
use crate::body::splices::inserts;
use crate::body::takeoff::{Blanks, Grain, Takeoff};
use crate::error::Problem;
use crate::money::{Money, Per, Price};
use crate::quantity::ShopUnits;
use crate::shared::{Recent, Shared};
use crate::shop::cutting::bar_cuts;
use crate::shop::cutting::bars::{BarEffort, BarJob, BarPiece, BarPlan, BarStock, cut_bars};
use crate::shop::cutting::sheet_faults::cuts;
use crate::shop::cutting::sheets::{Effort, SheetJob, SheetPiece, SheetPlan, SheetStock, Trim, cut_sheets};
use crate::shop::hours::ShopCuts;
use crate::shop::quote::FromStock;

use super::cut_cards::BarCard;
use super::resolve::{CuttingPlan, Resolved, ShearPlan, StockBarPlan};

/// Who cuts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum CutBy {
    /// The shop.
    Shop,
    /// Whoever sells it.
    Seller,
}

impl CutBy {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Shop => "cut in the shop",
            Self::Seller => "cut by the seller",
        }
    }
}

/// Where sheets or bars of one size come from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Source {
    /// Its row in the list, counted from nought.
    pub row: usize,
    /// What to call them: `"10 ft x 4 ft"`.
    pub size: String,
    /// Who sells them; none where they lie in the shop.
    pub supplier: Option<String>,
    /// Who cuts them.
    pub cut_by: CutBy,
    /// Price of one; none where the plan lists no bars.
    pub price: Option<Decimal>,
    /// What the seller takes for a cut, where he cuts.
    pub charge: Option<Decimal>,
}

/// How the skin's sheets are cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SheetCuts {
    /// What there is, what is needed, and how it may be cut.
    pub job: SheetJob,
    /// The plan.
    pub plan: Shared<SheetPlan>,
    /// Where each stock of the job comes from.
    pub sources: Vec<Source>,
    /// Names of the blanks that each piece of the job stands for.
    pub names: Vec<Vec<String>>,
    /// Who sells blanks cut to size, where the plan says so.
    pub cut_to_size_by: Option<String>,
    /// Sheets of the list that the shop does not cut, each with why; what the list does not look at.
    pub notes: Vec<String>,
    /// The one currency of all prices.
    #[serde(serialize_with = "code")]
    pub currency: Currency,
    /// How lengths are printed.
    pub units: ShopUnits,
}

/// How bars of one section are cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BarCuts {
    /// What there is, what is needed, and the saw.
    pub job: BarJob,
    /// The plan.
    pub plan: Shared<BarPlan>,
    /// Where each stock of the job comes from.
    pub sources: Vec<Source>,
    /// Names of the pieces that each piece of the job stands for.
    pub names: Vec<Vec<String>>,
    /// The currency of their prices; none where bars have no price, and the plan is the one with the fewest.
    #[serde(serialize_with = "code_of_some")]
    pub currency: Option<Currency>,
    /// How lengths are printed.
    pub units: ShopUnits,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "as serde calls it")]
fn code<S: Serializer>(currency: &Currency, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(currency.code())
}

#[expect(clippy::trivially_copy_pass_by_ref, clippy::ref_option, reason = "as serde calls it")]
fn code_of_some<S: Serializer>(currency: &Option<Currency>, serializer: S) -> Result<S::Ok, S::Error> {
    currency.map(|own| own.code()).serialize(serializer)
}

/// Something to buy, or to take from the shop's own stock, for the cut list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Purchase {
    /// What it is.
    pub item: String,
    /// Who sells it; none where it lies in the shop or the plan does not say.
    pub supplier: Option<String>,
    /// How many.
    pub count: u32,
    /// Of what.
    pub unit: &'static str,
    /// Price of one; none where it has none of its own.
    pub price: Option<Decimal>,
}

/// All that is cut.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct CutList {
    /// The skin's sheets; none where the plan lists none: then a supplier cuts each blank to size.
    pub sheets: Option<SheetCuts>,
    /// Pieces that lengthen the posts; none where there are none.
    pub inserts: Option<BarCuts>,
    /// Tube behind sheet edges; none where there is none.
    pub backing: Option<BarCuts>,
}

/// An evaluation is never stopped half-way: the effort bounds it.
fn on() -> bool {
    true
}

/// Steps of an evaluation's search, for sheets and for bars: a fraction of a second each.
const STEPS: (u64, u64) = (12_000_000, 60_000_000);

fn solved_sheets(job: &SheetJob) -> Result<Shared<SheetPlan>, Vec<Problem>> {
    static LAST: Recent<SheetJob, Result<Shared<SheetPlan>, Vec<Problem>>> = Recent::new();
    let solve = |job: &SheetJob| cut_sheets(job, Effort { steps: STEPS.0 }, &on).map(Shared::from);
    LAST.of(job, solve)
}

fn solved_bars(job: &BarJob) -> Result<Shared<BarPlan>, Vec<Problem>> {
    static LAST: Recent<BarJob, Result<Shared<BarPlan>, Vec<Problem>>> = Recent::new();
    let solve = |job: &BarJob| cut_bars(job, &BarEffort { steps: STEPS.1 }, &on).map(Shared::from);
    LAST.of(job, solve)
}

/// Works the cut list out; a job like one of the last few is taken over.
///
/// # Errors
/// A blank larger than every sheet, stock that runs out: problems of the plan's entries.
pub(super) fn cut_list(
    r: &Resolved,
    raised: &RaisedBody,
    takeoff: &Takeoff,
    units: ShopUnits,
) -> Result<CutList, Vec<Problem>> {
    let of_inserts = inserts(&r.raise, raised).into_iter().map(|own| (own.id, own.length_mm));
    let of_backing = takeoff.backers.iter().map(|own| {
        let side = own.side.map_or_else(|| "across".to_owned(), |side| side.name().to_owned());
        (format!("{}, {side}", own.behind), own.length_mm)
    });
    let cutting = &r.cutting;
    let mut problems = Vec::new();
    let mut bars = |asked: Option<Asked<BarJob, Option<Currency>>>, name: &str| {
        let asked = asked?;
        let plan = solved_bars(&asked.job);
        let entry = format!("cutting.{name}");
        let plan = keep(&mut problems, plan, (&entry, &entry, false), &asked)?;
        Some(BarCuts::of(asked, plan))
    };
    let shop = ShopOf {
        cutting,
        labour: r.prices.as_ref().and_then(|book| book.labour),
        lifts_kg: Some(r.rules.lifting.heaviest_kg()),
        areal_kg_m2: Some(r.sheet.areal_mass_kg_m2),
        units,
    };
    let asked = bars_asked(&shop, &cutting.insert_bars, &square(of_inserts));
    let inserts = bars(asked, "insert_bars");
    let asked = bars_asked(&shop, &cutting.tube_bars, &square(of_backing));
    let backing = bars(asked, "tube_bars");
    let sheets = sheets_asked(&shop, blanks(r, &takeoff.blanks)).and_then(|mut asked| {
        let edges =
            takeoff.blanks.iter().filter_map(|own| Some(format!("{}: {}", own.ids.join(", "), own.factory_edge?)));
        let edges: Vec<String> = edges.collect();
        if !edges.is_empty() {
            asked.notes.push(format!(
                "factory edges are not looked at; turn an uncut edge of the sheet to them ({})",
                edges.join("; ")
            ));
        }
        let plan = solved_sheets(&asked.job);
        let plan = keep(&mut problems, plan, ("cutting.sheets", "cutting.sheets", false), &asked)?;
        Some(SheetCuts::of(asked, plan, cutting.cut_to_size_by.clone()))
    });
    if problems.is_empty() { Ok(CutList { sheets, inserts, backing }) } else { Err(problems) }
}

/// The plan, or problems under the entries of stock and pieces; sheets that were left out are told with them.
pub(super) fn keep<T, Job, C>(
    problems: &mut Vec<Problem>,
    plan: Result<T, Vec<Problem>>,
    (stock, pieces, of_piece): (&str, &str, bool),
    asked: &Asked<Job, C>,
) -> Option<T> {
    let under = |problem: Problem| {
        let path = problem.path().to_owned();
        let row = |list: &str| path.strip_prefix(list)?.split_once(']')?.0.parse::<usize>().ok();
        // Pieces are rows only where the caller gave them so; the saw is no row.
        let path = match (row("stock["), row("pieces[")) {
            (Some(i), _) => asked.sources.get(i).map(|source| format!("{stock}[{}]", source.row)),
            (_, Some(i)) if of_piece => Some(format!("{pieces}[{i}]")),
            _ if path.starts_with("pieces") => Some(pieces.to_owned()),
            _ => None,
        };
        problem.with_path(path.unwrap_or_else(|| stock.to_owned()))
    };
    let told = |own: Vec<Problem>| {
        problems.extend(own.into_iter().map(under));
        if !asked.notes.is_empty() {
            problems.push(Problem::contradiction(stock, asked.notes.join("; "), "the shop does not cut these"));
        }
    };
    plan.map_err(told).ok()
}

/// What is asked of a solver, and what its indices stand for.
pub(super) struct Asked<Job, Currency> {
    pub job: Job,
    pub sources: Vec<Source>,
    pub names: Vec<Vec<String>>,
    pub notes: Vec<String>,
    /// The currency in whose coins the job is.
    currency: Currency,
    units: ShopUnits,
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
    pub labour: Option<Price>,
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

impl<'a> ShopOf<'a> {
    /// A shop without a crew that lifts, and sheets whose mass nobody tells.
    pub(super) fn alone(cutting: &'a CuttingPlan, labour: Option<Price>, units: ShopUnits) -> Self {
        Self { cutting, labour, lifts_kg: None, areal_kg_m2: None, units }
    }

    /// Time of one person at the price of labour; nothing where labour has no price.
    fn own_cut(&self, hours: f64) -> Decimal {
        self.labour.map_or(Decimal::ZERO, |price| {
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
fn blanks(r: &Resolved, blanks: &[Blanks]) -> Vec<Kind> {
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
        let own = shear.map(|shear| (CutBy::Shop, shop.own_cut(shear.hours), Some(shear)));
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
    let book = r.prices.as_ref().filter(|_| r.cutting.cut_to_size)?;
    let (sheet, cutting) = book.sheet.zip(book.sheet_cutting)?;
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
fn square(pieces: impl Iterator<Item = (String, f64)>) -> Vec<BarNeed> {
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
    let own_cut = cutting.saw_hours.map(|hours| shop.own_cut(hours));
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
    let usable = |own: &BarStock| {
        let trim = |tenths: i64| if tenths > 0 { tenths + kerf_tenths } else { 0 };
        own.length_tenths - trim(own.trim_start_tenths) - trim(own.trim_end_tenths)
    };
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

impl SheetCuts {
    pub(super) fn of(
        asked: Asked<SheetJob, Currency>,
        plan: Shared<SheetPlan>,
        cut_to_size_by: Option<String>,
    ) -> Self {
        let Asked { job, sources, names, notes, currency, units } = asked;
        Self { job, plan, sources, names, cut_to_size_by, notes, currency, units }
    }

    /// Sheets of each source, and the cuts they take.
    fn used(&self) -> impl Iterator<Item = (&Source, u32, i64)> {
        self.sources.iter().enumerate().filter_map(|(i, source)| {
            let own = self.plan.patterns.iter().filter(|pattern| pattern.stock == i);
            let stock = self.job.stock.get(i)?;
            let (count, cuts) = own.fold((0, 0), |(count, all), pattern| {
                (count + pattern.times, all + i64::from(pattern.times) * cuts(stock, pattern))
            });
            (count > 0).then_some((source, count, cuts))
        })
    }

    /// Cuts made in the shop.
    pub fn shop_cuts(&self) -> i64 {
        self.used().filter(|(source, ..)| source.cut_by == CutBy::Shop).map(|(_, _, cuts)| cuts).sum()
    }

    /// Blanks bought cut to size, and their area, m2.
    pub fn bought(&self) -> (u32, f64) {
        let each = self.plan.bought.iter().filter_map(|(piece, count)| {
            let own = self.job.pieces.get(*piece)?;
            Some((*count, f64::from(*count) * own.length_tenths as f64 * own.width_tenths as f64 / 1e8))
        });
        each.fold((0, 0.0), |(count, m2), own| (count + own.0, m2 + own.1))
    }

    /// Sheets to buy or take, and the sellers' cuts.
    pub fn purchases(&self) -> Vec<Purchase> {
        self.used()
            .flat_map(|(source, count, cuts)| {
                let sheets = bought_of(source, "sheet", count, "sheets");
                std::iter::once(sheets).chain(charged(source, cuts))
            })
            .collect()
    }

    /// Names of the blanks that are bought cut to size: the last of each kind.
    pub fn bought_names(&self) -> BTreeSet<&str> {
        let of = |(piece, count): &(usize, u32)| {
            let names = self.names.get(*piece).map_or(&[][..], Vec::as_slice);
            names.iter().rev().take(*count as usize).map(String::as_str)
        };
        self.plan.bought.iter().flat_map(of).collect()
    }
}

fn bought_of(source: &Source, what: &str, count: u32, unit: &'static str) -> Purchase {
    let (item, supplier) = (format!("{what} {}", source.size), source.supplier.clone());
    Purchase { item, supplier, count, unit, price: source.price }
}

/// Sellers' cuts of one size.
fn charged(source: &Source, cuts: i64) -> Option<Purchase> {
    let price = source.charge.filter(|_| cuts > 0)?;
    let (item, supplier) = (format!("cuts of {}", source.size), source.supplier.clone());
    let count = u32::try_from(cuts).unwrap_or(u32::MAX);
    Some(Purchase { item, supplier, count, unit: "cuts", price: Some(price) })
}

impl CutList {
    /// Cuts made in the shop.
    pub(super) fn shop_cuts(&self) -> ShopCuts {
        let bars = self.inserts.iter().chain(&self.backing);
        ShopCuts {
            sheets: self.sheets.as_ref().map_or(0, SheetCuts::shop_cuts),
            bars: bars.flat_map(BarCuts::used).filter(|(own, ..)| own.cut_by == CutBy::Shop).map(|used| used.2).sum(),
        }
    }

    /// What the quote takes from it.
    pub(super) fn for_quote(&self) -> FromStock {
        let priced = |own: &Option<BarCuts>| own.as_ref().is_some_and(|own| own.currency.is_some());
        let sheets = self.sheets.iter().flat_map(SheetCuts::purchases);
        let bars =
            |own: &Option<BarCuts>, what: &str| own.iter().flat_map(|own| own.purchases(what)).collect::<Vec<_>>();
        let all =
            sheets.chain(bars(&self.inserts, "insert section, bar")).chain(bars(&self.backing, "backing tube, bar"));
        let line = |own: Purchase| {
            let of = own.supplier.map_or_else(String::new, |name| format!(", {name}"));
            Some((format!("{}{of}", own.item), own.count, own.unit, own.price?))
        };
        FromStock {
            cut_to_size: self.sheets.as_ref().map(SheetCuts::bought),
            inserts: priced(&self.inserts),
            backing: priced(&self.backing),
            lines: all.filter_map(line).collect(),
        }
    }
}

impl BarCuts {
    pub(super) fn of(asked: Asked<BarJob, Option<Currency>>, plan: Shared<BarPlan>) -> Self {
        let Asked { job, sources, names, currency, units, .. } = asked;
        Self { job, plan, sources, names, currency, units }
    }

    /// Bars of each source, and the cuts they take.
    fn used(&self) -> impl Iterator<Item = (&Source, u32, i64)> {
        self.sources.iter().enumerate().filter_map(|(i, source)| {
            let own = self.plan.patterns.iter().filter(|pattern| pattern.stock == i);
            let (count, cuts) = own.fold((0, 0), |(count, all), pattern| {
                (count + pattern.times, all + i64::from(pattern.times) * bar_cuts(&self.job, pattern))
            });
            (count > 0).then_some((source, count, cuts))
        })
    }

    /// Bars to buy or take, and the sellers' cuts.
    pub fn purchases(&self, what: &str) -> Vec<Purchase> {
        let of = |(source, count, cuts)| {
            std::iter::once(bought_of(source, what, count, "bars")).chain(charged(source, cuts))
        };
        self.used().flat_map(of).collect()
    }

    /// The bar that each named piece is cut from, counted from nought, as the cards say.
    pub fn bar_of(&self) -> BTreeMap<String, usize> {
        let on = |card: BarCard| {
            let first = card.first as usize - 1;
            let each = card.pieces.into_iter().flat_map(|(_, names)| names.into_iter().enumerate());
            each.map(move |(i, name)| (name, first + i)).collect::<Vec<_>>()
        };
        self.cards().into_iter().flat_map(on).collect()
    }

    /// Bars in all.
    pub fn bars(&self) -> u32 {
        self.plan.patterns.iter().map(|own| own.times).sum()
    }
}
