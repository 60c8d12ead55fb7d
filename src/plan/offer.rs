//! What goes to the customer with the price: stages, what is not in it, until when it holds, what to watch out for.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::check::Verdict;
use crate::money::Money;
use crate::shop::quote::{EXCLUDED, Quote, StagePrice};

use super::cut_list::CutList;
use super::file::File;
use super::resolve::Resolved;

/// A way to come by the skin's sheets.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetWay {
    /// What is done.
    pub name: String,
    /// Sheets, sellers' cuts and the shop's own time at the shear, before overhead and margin.
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

pub(super) fn offer(file: &File, r: &Resolved, quote: &Quote, cut_list: &CutList, verdict: Verdict) -> Offer {
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
    let named = |word: &str| quote.lines.iter().any(|line| line.name.to_lowercase().contains(word));
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
        sheet_ways: sheet_ways(cut_list),
        excluded: excluded.chain(own.excluded.iter().cloned()).collect(),
        terms: own.terms.clone(),
        cautions,
    }
}

/// The planned way beside every blank bought cut to size.
fn sheet_ways(cut_list: &CutList) -> Vec<SheetWay> {
    let Some(own) = &cut_list.sheets else { return Vec::new() };
    let money = |coins: i64| Money::from_coins(coins, own.currency).amount;
    let (bought, _) = own.bought();
    let all: u32 = own.job.pieces.iter().map(|piece| piece.count).sum();
    let of_size: Option<i64> =
        own.job.pieces.iter().map(|piece| Some(piece.bought_coins? * i64::from(piece.count))).sum();
    let planned = format!("{} blanks cut from stock, {bought} bought cut to size", all - bought);
    let planned = SheetWay { name: planned, amount: money(own.plan.price_coins), planned: true };
    let of_size = of_size.map(|coins| SheetWay {
        name: format!("all {all} blanks bought cut to size"),
        amount: money(coins),
        planned: false,
    });
    std::iter::once(planned).chain(of_size).collect()
}
