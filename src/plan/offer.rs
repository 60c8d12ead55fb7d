//! What goes to the customer with the price: stages, what is not in it, until when it holds, what to watch out for.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::body::takeoff::Takeoff;
use crate::check::Verdict;
use crate::shop::price_book::PriceBook;
use crate::shop::quote::{Basis, EXCLUDED, Line, Quote, StagePrice};
use crate::shop::tariff::Tariff;

use super::cut_list::CutList;
use super::file::File;
use super::resolve::Resolved;

/// A way to come by the skin's sheets.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetWay {
    /// What is done.
    pub name: String,
    /// Sheets, sellers' cuts and the shop's own time at the shear as quoted, before overhead and margin.
    pub amount: Decimal,
    /// The plan does it so.
    pub planned: bool,
}

/// The offer around a quote.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Offer {
    /// To whom.
    pub to: Option<String>,
    /// From whom.
    pub from: Option<String>,
    /// Its number.
    pub number: Option<String>,
    /// Its day, year-month-day.
    pub date: Option<String>,
    /// Last day on which the prices hold.
    pub valid_until: Option<String>,
    /// That day is before the day of the offer.
    pub expired: bool,
    /// What each stage costs, overhead and margin within.
    pub stages: Vec<StagePrice>,
    /// Tax in the total.
    pub tax: Decimal,
    /// Sheets cut by the shop or bought cut to size; empty where there is no choice.
    pub sheet_ways: Vec<SheetWay>,
    /// What the price does not cover.
    pub excluded: Vec<String>,
    /// Terms.
    pub terms: Vec<String>,
    /// What whoever signs it should know first.
    pub cautions: Vec<String>,
}

pub(super) fn offer(
    (file, r): (&File, &Resolved),
    quote: &Quote,
    counted: (&Takeoff, &CutList),
    verdict: Verdict,
) -> Offer {
    let own = &file.quote;
    let book = r.prices.as_ref().and_then(|prices| Option::as_ref(&prices.book));
    let valid_until = book.and_then(|book| book.valid_until.clone());
    let expired = own.date.as_ref().zip(valid_until.as_ref()).is_some_and(|(date, until)| date > until);
    let mut cautions = Vec::new();
    match (&own.date, &valid_until) {
        (Some(date), Some(until)) if expired => {
            cautions.push(format!(
                "prices out of date: they held until {until}, and this is dated {date}; ask for new ones"
            ));
        }
        (None, Some(until)) => {
            cautions.push(format!("prices hold until {until}, and no day is given to compare (quote.date)"));
        }
        (_, None) => {
            cautions.push("until when the prices hold is not given (prices.valid_until)".to_owned());
        }
        _ => {}
    }
    if book.is_some_and(|book| book.invented) || file.invented {
        cautions.push("prices or sizes are invented for an example: no offer".to_owned());
    }
    if !quote.open_items.is_empty() {
        cautions.push(format!("not priced yet, and not in the total: {}", quote.open_items.join(", ")));
    }
    if verdict != Verdict::Passes {
        cautions.push(format!("the plan's checks are not all passed: {}", verdict.words()));
    }
    let extras: Vec<String> =
        quote.lines.iter().filter(|line| line.basis == Basis::Extra).map(|line| line.name.to_lowercase()).collect();
    let said =
        |name: &String, word: &str| name.split(|c: char| !(c.is_alphanumeric() || c == '-')).any(|own| own == word);
    let named = |word: &str| extras.iter().any(|name| said(name, word));
    let excluded = EXCLUDED.iter().filter(|(word, _)| !named(word)).map(|(_, words)| (*words).to_owned());
    Offer {
        to: own.to.clone(),
        from: own.from.clone(),
        number: own.number.clone(),
        date: own.date.clone(),
        valid_until,
        expired,
        stages: quote.by_stage(),
        tax: quote.tax(),
        sheet_ways: sheet_ways(r, quote, counted),
        excluded: excluded.chain(own.excluded.iter().cloned()).collect(),
        terms: own.terms.clone(),
        cautions,
    }
}

/// The planned way beside every blank bought cut to size, both as the quote prices them.
fn sheet_ways(r: &Resolved, quote: &Quote, (takeoff, cut_list): (&Takeoff, &CutList)) -> Vec<SheetWay> {
    let Some(own) = &cut_list.sheets else { return Vec::new() };
    let (bought, _) = own.bought();
    let all: u32 = own.job.pieces.iter().map(|piece| piece.count).sum();
    let of_sheets = |line: &&Line| {
        let task = line.basis == Basis::Labour && line.name == "cut sheets to size";
        task || line.basis == Basis::Materials && ["sheet", "sheet_cutting"].contains(&line.priced_by.as_str())
    };
    let prices = r.prices.as_ref();
    let stepped = |own: Option<&Tariff>| own.is_some_and(|own| own.minimum.is_some() || !own.breaks.is_empty());
    let of = |entry: fn(&PriceBook) -> Option<&Tariff>| stepped(prices.and_then(|prices| prices.of(entry)));
    let by_first = if of(|book| book.sheet.as_ref()) || of(|book| book.sheet_cutting.as_ref()) {
        ", chosen by the first price of sheet without its breaks and least charges"
    } else {
        ""
    };
    let planned = SheetWay {
        name: format!("{} blanks cut from stock, {bought} bought cut to size{by_first}", all - bought),
        amount: quote.lines.iter().filter(of_sheets).map(|line| line.amount).sum(),
        planned: true,
    };
    let amount = prices.and_then(|prices| prices.all_cut_to_size(takeoff, r.sheet.areal_mass_kg_m2));
    let to_size =
        amount.map(|amount| SheetWay { name: format!("all {all} blanks bought cut to size"), amount, planned: false });
    std::iter::once(planned).chain(to_size).collect()
}
