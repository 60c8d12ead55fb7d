//! The cut list as rows, words and plain text: what to buy, how each sheet and bar is cut, what is kept.

use crate::money::Money;
use crate::plan::{BarCard, BarCuts, CutList, CutPlace, SheetCuts};

use super::text::table;

pub(super) const SHEET_CUT_HEADINGS: [&str; 5] = ["cut list", "from", "cut", "pieces", "used"];
pub(super) const STEP_HEADINGS: [&str; 3] = ["sheet", "cut", "what to do"];
pub(super) const BAR_CUT_HEADINGS: [&str; 4] = ["bars", "from", "pieces in the order of cutting", "left"];
pub(super) const REMNANT_HEADINGS: [&str; 3] = ["kept of", "size", "row for the next plan's cutting.sheets"];

/// Sheets that are cut alike, a row each; then blanks bought cut to size.
pub(super) fn sheet_cut_rows(cuts: &SheetCuts) -> Vec<[String; 5]> {
    let mut rows: Vec<[String; 5]> = Vec::new();
    for card in cuts.cards() {
        let Some(source) = cuts.sources.get(card.source) else { continue };
        let named = |own: &CutPlace| {
            let turned = if own.turned { ", turned" } else { "" };
            format!("{}{turned}", own.names.join(" / "))
        };
        let pieces: Vec<String> = card.places.iter().filter(|own| !own.names.is_empty()).map(named).collect();
        let from = source.supplier.as_ref().map_or_else(|| "the shop".to_owned(), Clone::clone);
        rows.push([
            card.title(),
            format!("{}, {from}", source.size),
            source.cut_by.words().to_owned(),
            pieces.join("; "),
            format!("{:.0} %", 100.0 * card.used_share),
        ]);
    }
    let bought = cuts.bought_names();
    if !bought.is_empty() {
        let names: Vec<&str> = bought.into_iter().collect();
        let by = cuts.cut_to_size_by.clone().unwrap_or_else(|| "a supplier".to_owned());
        rows.push(["cut to size".to_owned(), by, "bought so".to_owned(), names.join(", "), "–".to_owned()]);
    }
    rows
}

/// Every cut of every sheet, in order.
pub(super) fn step_rows(cuts: &SheetCuts) -> Vec<[String; 3]> {
    let cards = cuts.cards();
    let of = cards.iter().flat_map(|card| {
        card.steps.iter().enumerate().map(|(i, step)| [card.title(), (i + 1).to_string(), step.words.clone()])
    });
    of.collect()
}

/// Bars that are cut alike, a row each.
pub(super) fn bar_cut_rows(cuts: &BarCuts) -> Vec<[String; 4]> {
    let row = |card: BarCard| {
        let source = cuts.sources.get(card.source)?;
        let alike = |own: &[(f64, Vec<String>)]| {
            let length = own.first().map_or_else(String::new, |(length_mm, _)| cuts.units.length(*length_mm));
            let names: Vec<String> = own.iter().map(|(_, names)| names.join(" / ")).collect();
            format!("{} of {length}: {}", own.len(), names.join(", "))
        };
        let from = source.supplier.as_ref().map_or_else(String::new, |name| format!(", {name}"));
        Some([
            card.title(),
            format!("{}{from}", source.size),
            card.pieces.chunk_by(|a, b| (a.0 - b.0).abs() < 0.05).map(alike).collect::<Vec<_>>().join("; "),
            cuts.units.length(card.rest_mm),
        ])
    };
    cuts.cards().into_iter().filter_map(row).collect()
}

/// Rests to keep, each as a row of stock for the next job.
pub(super) fn remnant_rows(cuts: &SheetCuts) -> Vec<[String; 3]> {
    let code = cuts.currency.code();
    let row = |(sheet, length_mm, width_mm): (u32, f64, f64)| {
        [
            format!("sheet {sheet}"),
            format!("{} x {}", cuts.units.length(length_mm), cuts.units.length(width_mm)),
            format!(
                "{{ length = \"{length_mm:.1} mm\", width = \"{width_mm:.1} mm\", price = \"0 {code}\", count = 1 }}"
            ),
        ]
    };
    cuts.remnants().into_iter().map(row).collect()
}

/// How good a plan is: its price, the bound that no plan lies below, the gap; `told` says an amount.
fn worth((price, bound, gap, proven): (i64, i64, Option<f64>, bool), told: impl Fn(i64) -> String) -> String {
    if proven {
        return format!("{}, proven best", told(price));
    }
    let gap = gap.map_or_else(String::new, |gap| format!(", a gap of {:.1} %", 100.0 * gap));
    format!("{}; no plan costs less than {}{gap}", told(price), told(bound))
}

/// What sheets cost and how good that is.
fn sheet_price(own: &SheetCuts) -> String {
    let plan = &own.plan;
    let money = |coins: i64| Money::from_coins(coins, own.currency).to_string();
    let all = worth((plan.price_coins, plan.bound_coins, plan.gap_ratio(), plan.is_proven()), money);
    format!("sheets, their cuts and blanks bought cut to size: {all}")
}

/// The same, and what to know besides.
pub(super) fn sheet_words(own: &SheetCuts) -> Vec<String> {
    std::iter::once(sheet_price(own)).chain(own.notes.iter().cloned()).collect()
}

/// What bars cost and how good that is.
pub(super) fn bar_words(own: &BarCuts) -> String {
    let plan = &own.plan;
    let told = |amount| bar_worth(own, amount);
    worth((plan.price_coins, plan.bound_coins, plan.gap_ratio(), plan.is_proven()), told)
}

/// What each part of the list costs and how good that is.
pub fn cut_prices(cut: &CutList) -> Vec<String> {
    let bars = [("bars for inserts", &cut.inserts), ("bars behind sheet edges", &cut.backing)];
    let bars = bars.into_iter().filter_map(|(name, own)| Some(format!("{name}: {}", bar_words(own.as_ref()?))));
    cut.sheets.iter().map(sheet_price).chain(bars).collect()
}

/// The same, and what to know besides.
pub(super) fn cut_words(cut: &CutList) -> Vec<String> {
    cut_prices(cut).into_iter().chain(cut.sheets.iter().flat_map(|own| own.notes.clone())).collect()
}

/// An amount of money, or of bars where they have no prices.
pub fn bar_worth(own: &BarCuts, amount: i64) -> String {
    match own.currency {
        Some(currency) => Money::from_coins(amount, currency).to_string(),
        None if amount == 1 => "1 bar".to_owned(),
        None => format!("{amount} bars"),
    }
}

fn shown<const N: usize>(headings: &[&str; N], rows: Vec<[String; N]>) -> String {
    if rows.is_empty() {
        return String::new();
    }
    let mut own = table(headings);
    own.add_rows(rows);
    format!("{own}\n\n")
}

/// Sheets as text: what is cut from each, every cut, the rests to keep, the price.
pub fn sheets_text(own: &SheetCuts) -> String {
    let mut out = shown(&SHEET_CUT_HEADINGS, sheet_cut_rows(own));
    out += &shown(&STEP_HEADINGS, step_rows(own));
    out += &shown(&REMNANT_HEADINGS, remnant_rows(own));
    out + &sheet_words(own).join("\n") + "\n"
}

/// Bars as text: what is cut from each, the price.
pub fn bars_text(own: &BarCuts) -> String {
    format!("{}{}\n", shown(&BAR_CUT_HEADINGS, bar_cut_rows(own)), bar_words(own))
}

/// All of it as text.
pub fn cut_list(cut: &CutList) -> String {
    let sheets = cut.sheets.iter().map(sheets_text);
    let named = [("bars for inserts", &cut.inserts), ("bars behind sheet edges", &cut.backing)];
    let bars = named.into_iter().filter_map(|(name, own)| Some(format!("{name}:\n{}", bars_text(own.as_ref()?))));
    sheets.chain(bars).collect::<Vec<_>>().join("\n") + "\n"
}
