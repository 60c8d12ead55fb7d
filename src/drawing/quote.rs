//! Quotes and their odds as text and HTML.

use std::fmt::Write as _;

use maud::html;

use crate::check::significant;
use crate::plan::Evaluation;
use crate::shop::odds::Odds;

use super::html::table as html_table;
use super::text::table;

pub(super) const LINE_HEADINGS: [&str; 7] = ["stage", "price", "quantity", "unit", "unit price", "amount", "from"];
pub(super) const STAGE_HEADINGS: [&str; 3] = ["stage", "cost", "with overhead and margin"];
const ODDS_HEADINGS: [&str; 3] = ["holds in", "price", "hours"];
const DRIVER_HEADINGS: [&str; 3] = ["what drives it", "of the variance", "by itself"];

pub(super) fn line_rows(e: &Evaluation) -> Vec<[String; 7]> {
    let Some(quote) = &e.quote else { return Vec::new() };
    let row = |line: &crate::shop::quote::Line| {
        let note = if line.note.is_empty() { String::new() } else { format!("; {}", line.note) };
        [
            line.stage.words().to_owned(),
            line.name.clone(),
            line.quantity.to_string(),
            line.unit.to_owned(),
            line.unit_price.round_dp(4).normalize().to_string(),
            format!("{} {}", line.amount, quote.currency),
            format!("{}{note}", line.from),
        ]
    };
    quote.lines.iter().map(row).collect()
}

pub(super) fn stage_rows(e: &Evaluation) -> Vec<[String; 3]> {
    let stages = e.offer.as_ref().map_or(&[][..], |offer| &offer.stages);
    stages.iter().map(|own| [own.stage.words().to_owned(), own.cost.to_string(), own.price.to_string()]).collect()
}

/// What is said besides the lines: total, tax, open items, ways to the sheets, exclusions, cautions.
pub(super) fn quote_words(e: &Evaluation) -> Vec<String> {
    let Some((quote, offer)) = e.quote.as_ref().zip(e.offer.as_ref()) else { return Vec::new() };
    let mut all = vec![format!("total {}", quote.total_text())];
    all.extend(quote.open_items.iter().map(|open| format!("open item, no price given: {open}")));
    if let Some(cheapest) = offer.sheet_ways.iter().map(|way| way.amount).min() {
        all.extend(offer.sheet_ways.iter().map(|way| {
            let planned = if way.planned { ", as planned" } else { "" };
            let cheaper = if offer.sheet_ways.len() > 1 && way.amount == cheapest { ", the cheaper" } else { "" };
            format!("sheets: {} {} for {}{planned}{cheaper}", way.amount, quote.currency, way.name)
        }));
    }
    all.extend(offer.excluded.iter().map(|line| format!("not in the price: {line}")));
    all.extend(offer.cautions.iter().map(|line| format!("caution: {line}")));
    all
}

/// The quote of an evaluation; a sentence in its place where there is none.
pub fn quote(e: &Evaluation) -> String {
    if e.quote.is_none() {
        return "no prices in the plan\n".to_owned();
    }
    let mut lines = table(&LINE_HEADINGS);
    lines.add_rows(line_rows(e));
    let mut stages = table(&STAGE_HEADINGS);
    stages.add_rows(stage_rows(e));
    let mut out = format!("{lines}\n\n{stages}\n\n");
    for line in quote_words(e) {
        let _ = writeln!(out, "{line}");
    }
    out
}

/// The same for a notebook.
pub fn quote_html(e: &Evaluation) -> String {
    html! {
        div class="raisedbody" {
            @if e.quote.is_none() { "no prices in the plan" } @else {
                (html_table(&STAGE_HEADINGS, &stage_rows(e)))
                ul { @for line in quote_words(e) { li { (line) } } }
                details { summary { "every line" } (html_table(&LINE_HEADINGS, &line_rows(e))) }
            }
        }
    }
    .into_string()
}

fn odds_rows(odds: &Odds) -> Vec<[String; 3]> {
    let row = |share: f64| {
        let price = odds.price(share).map_or_else(|_| String::new(), |price| format!("{price} {}", odds.currency));
        let hours = odds.hours_at(share).map_or_else(|_| String::new(), |hours| format!("{hours:.0}"));
        [format!("{:.0} % of cases", 100.0 * share), price, hours]
    };
    [0.1, 0.5, 0.8, 0.9, 0.95].map(row).to_vec()
}

/// Causes that are shown; the rest move little.
const SHOWN: usize = 8;

fn driver_rows(odds: &Odds) -> Vec<[String; 3]> {
    let row = |own: &crate::shop::odds::Driver| {
        let swing = format!("{} {}", significant(own.swing.round()), odds.currency);
        [own.name.clone(), format!("{:.0} %", 100.0 * own.of_variance), swing]
    };
    odds.drivers.iter().take(SHOWN).map(row).collect()
}

fn odds_words(odds: &Odds) -> Vec<String> {
    let mut all = vec![
        format!(
            "as quoted, {} {}: suffices in {:.0} % of {} cases",
            odds.quoted,
            odds.currency,
            100.0 * odds.holds(),
            odds.totals.len()
        ),
        format!("mean {:.0}, standard deviation {:.0} {}; seed {}", odds.mean, odds.sd, odds.currency, odds.seed),
    ];
    if !odds.open_items.is_empty() {
        all.push(format!("without a price, in no case: {}", odds.open_items.join(", ")));
    }
    all
}

/// The price that holds in most cases, and what drives the spread.
pub fn odds(odds: &Odds) -> String {
    let mut prices = table(&ODDS_HEADINGS);
    prices.add_rows(odds_rows(odds));
    let mut drivers = table(&DRIVER_HEADINGS);
    drivers.add_rows(driver_rows(odds));
    format!("{}\n{prices}\n\n{drivers}\n", odds_words(odds).join("\n"))
}

/// The same for a notebook.
pub fn odds_html(odds: &Odds) -> String {
    html! {
        div class="raisedbody" {
            ul { @for line in odds_words(odds) { li { (line) } } }
            (html_table(&ODDS_HEADINGS, &odds_rows(odds)))
            (html_table(&DRIVER_HEADINGS, &driver_rows(odds)))
        }
    }
    .into_string()
}
