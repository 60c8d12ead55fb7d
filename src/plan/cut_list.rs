//! The cut list of a plan: what is cut from which sheet and bar, by whom, and what is bought for it.

use std::collections::{BTreeMap, BTreeSet};

use iso_currency::Currency;
use rust_decimal::Decimal;
use serde::{Serialize, Serializer};

use crate::body::raise::RaisedBody;
use crate::body::splices::inserts;
use crate::body::takeoff::{Blanks, Takeoff};
use crate::error::Problem;
use crate::quantity::ShopUnits;
use crate::shared::{Recent, Shared};
use crate::shop::cutting::bars::{BarEffort, BarJob, BarPlan, cut_bars};
use crate::shop::cutting::sheets::{SheetEffort, SheetJob, SheetPlan, cut_sheets};
use crate::shop::cutting::{bar_cut_count, sheet_cut_count};
use crate::shop::hours::ShopCuts;
use crate::shop::quote::{FromStock, StockLine};
use crate::stop::look;

use super::cut_asked::{Asked, ShopOf, bars_asked, blanks, sheets_asked, square};
use super::cut_cards::BarCard;
use super::resolve::Resolved;

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

impl Source {
    /// It is paid for; an offcut of the shop's own is not.
    fn is_bought(&self) -> bool {
        self.price.is_some_and(|price| !price.is_zero())
    }
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

/// An evaluation has no best list so far: it is stopped as a whole or not at all.
fn on() -> bool {
    look();
    true
}

/// Steps of an evaluation's search, for sheets and for bars: a fraction of a second each.
const STEPS: (u64, u64) = (12_000_000, 60_000_000);

fn solved_sheets(job: &SheetJob) -> Result<Shared<SheetPlan>, Vec<Problem>> {
    static LAST: Recent<SheetJob, Result<Shared<SheetPlan>, Vec<Problem>>> = Recent::new();
    let solve = |job: &SheetJob| cut_sheets(job, SheetEffort { steps: STEPS.0 }, &on).map(Shared::from);
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
        rates: ["cut sheets to size", "cut bars to length"]
            .map(|task| r.prices.as_ref().and_then(|prices| prices.rate(task))),
        lifts_kg: Some(r.rules.lifting.heaviest_kg()),
        areal_kg_m2: Some(r.sheet.areal_mass_kg_m2),
        units,
    };
    let asked = bars_asked(&shop, &cutting.insert_bars, &square(of_inserts));
    let inserts = bars(asked, "insert_bars");
    let asked = bars_asked(&shop, &cutting.tube_bars, &square(of_backing));
    let backing = bars(asked, "tube_bars");
    let sheets = sheets_asked(&shop, blanks(r, &takeoff.blanks)).and_then(|asked| {
        let plan = solved_sheets(&asked.job);
        let plan = keep(&mut problems, plan, ("cutting.sheets", "cutting.sheets", false), &asked)?;
        let mut cuts = SheetCuts::of(asked, plan, cutting.cut_to_size_by.clone());
        cuts.notes.extend(factory_edges(&takeoff.blanks));
        Some(cuts)
    });
    if problems.is_empty() { Ok(CutList { sheets, inserts, backing }) } else { Err(problems) }
}

/// Blanks that want a factory edge are named: which edge of a sheet a piece gets is not looked at.
fn factory_edges(blanks: &[Blanks]) -> Option<String> {
    let edges = blanks.iter().filter_map(|own| Some(format!("{}: {}", own.ids.join(", "), own.factory_edge?)));
    let edges: Vec<String> = edges.collect();
    let words =
        || format!("factory edges are not looked at; turn an uncut edge of the sheet to them ({})", edges.join("; "));
    (!edges.is_empty()).then(words)
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
    fn used(&self) -> Vec<(&Source, u32, i64)> {
        let each = self.plan.patterns.iter().filter_map(|own| {
            let stock = self.job.stock.get(own.stock)?;
            Some((own.stock, own.times, sheet_cut_count(stock, own)))
        });
        used(&self.sources, &each.collect::<Vec<_>>())
    }

    /// Area of the whole sheets that are bought, m2.
    fn bought_m2(&self) -> f64 {
        let m2 = |i: usize| {
            self.job.stock.get(i).map_or(0.0, |own| own.length_tenths as f64 * own.width_tenths as f64 / 1e8)
        };
        let bought = self.plan.patterns.iter().filter(|own| self.sources.get(own.stock).is_some_and(Source::is_bought));
        bought.map(|own| f64::from(own.times) * m2(own.stock)).sum()
    }

    /// Cuts made in the shop.
    pub fn shop_cuts(&self) -> i64 {
        self.used().into_iter().filter(|(source, ..)| source.cut_by == CutBy::Shop).map(|(.., cuts)| cuts).sum()
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
        purchases(self.used(), "sheet", "sheets")
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

/// How much of each source is used, and the cuts it takes in all; `each` says source, times and cuts of one.
fn used<'a>(sources: &'a [Source], each: &[(usize, u32, i64)]) -> Vec<(&'a Source, u32, i64)> {
    let of = |(i, source): (usize, &'a Source)| {
        let own = each.iter().filter(|(stock, ..)| *stock == i);
        let (count, cuts) =
            own.fold((0, 0), |(count, all), (_, times, cuts)| (count + times, all + i64::from(*times) * cuts));
        (count > 0).then_some((source, count, cuts))
    };
    sources.iter().enumerate().filter_map(of).collect()
}

/// What is bought or taken of each source, and its seller's cuts.
fn purchases(used: Vec<(&Source, u32, i64)>, what: &str, unit: &'static str) -> Vec<Purchase> {
    let of = |(source, count, cuts): (&Source, u32, i64)| {
        let purchase =
            |item, count, unit, price| Purchase { item, supplier: source.supplier.clone(), count, unit, price };
        let own = purchase(format!("{what} {}", source.size), count, unit, source.price);
        let cuts = u32::try_from(cuts).unwrap_or(u32::MAX);
        let charge = source.charge.filter(|_| cuts > 0);
        let charged = charge.map(|charge| purchase(format!("cuts of {}", source.size), cuts, "cuts", Some(charge)));
        std::iter::once(own).chain(charged)
    };
    used.into_iter().flat_map(of).collect()
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
        let priced = |own: &Option<BarCuts>| own.as_ref().filter(|own| own.currency.is_some()).map(BarCuts::bought_m);
        let lines = |entry: &'static str, all: Vec<Purchase>| {
            all.into_iter().filter_map(move |own| {
                let of = own.supplier.map_or_else(String::new, |name| format!(", {name}"));
                let name = format!("{}{of}", own.item);
                Some(StockLine { name, entry, count: own.count, unit: own.unit, price: own.price? })
            })
        };
        let bars = |own: &Option<BarCuts>, what| own.as_ref().map_or_else(Vec::new, |own| own.purchases(what));
        let sheets = self.sheets.as_ref().map_or_else(Vec::new, SheetCuts::purchases);
        let inserts = bars(&self.inserts, "insert section, bar");
        let tube = bars(&self.backing, "backing tube, bar");
        FromStock {
            cut_to_size: self.sheets.as_ref().map(SheetCuts::bought),
            sheets_m2: self.sheets.as_ref().map_or(0.0, SheetCuts::bought_m2),
            inserts_m: priced(&self.inserts),
            backing_m: priced(&self.backing),
            lines: lines("sheet", sheets).chain(lines("insert", inserts)).chain(lines("tube", tube)).collect(),
        }
    }
}

impl BarCuts {
    pub(super) fn of(asked: Asked<BarJob, Option<Currency>>, plan: Shared<BarPlan>) -> Self {
        let Asked { job, sources, names, currency, units, .. } = asked;
        Self { job, plan, sources, names, currency, units }
    }

    /// Bars of each source, and the cuts they take.
    fn used(&self) -> Vec<(&Source, u32, i64)> {
        let each = self.plan.patterns.iter().map(|own| (own.stock, own.times, bar_cut_count(&self.job, own)));
        used(&self.sources, &each.collect::<Vec<_>>())
    }

    /// Length of the bars that are bought, m.
    fn bought_m(&self) -> f64 {
        let stock_m = |i: usize| self.job.stock.get(i).map_or(0.0, |own| own.length_tenths as f64 / 10_000.0);
        let bought = self.plan.patterns.iter().filter(|own| self.sources.get(own.stock).is_some_and(Source::is_bought));
        bought.map(|own| f64::from(own.times) * stock_m(own.stock)).sum()
    }

    /// Bars to buy or take, and the sellers' cuts.
    pub fn purchases(&self, what: &str) -> Vec<Purchase> {
        purchases(self.used(), what, "bars")
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
