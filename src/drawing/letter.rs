//! The letter to the customer: one page with the price by stage, what is not in it, terms and cautions; stands alone and prints.

use maud::{DOCTYPE, html};

use crate::plan::{CAUTIONS, Evaluation};
use crate::shop::price_book::Stage;

const STYLE: &str = "@page { margin: 16mm } body { font: 10.5pt/1.35 serif; max-width: 175mm; margin: 8mm auto; color: #000 } \
    h1 { font-size: 15pt; margin: 0 0 3mm } h2 { font-size: 11pt; margin: 4mm 0 1mm } \
    table { border-collapse: collapse; width: 100% } td, th { padding: 0.8mm 2mm; text-align: left; vertical-align: top } \
    td.money, th.money { text-align: right; white-space: nowrap } tr.sum td { border-top: 0.4mm solid #000; font-weight: bold } \
    ul { margin: 1mm 0 1mm 5mm; padding: 0 } p { margin: 1.5mm 0 } .warn { border: 0.4mm solid #000; padding: 1.5mm 2.5mm } \
    .small { font-size: 8.5pt } .sign { margin-top: 9mm; display: flex; gap: 12mm } .sign div { border-top: 0.3mm solid #000; flex: 1 } \
    @media print { body { margin: 0 } }";

/// What is done in a stage, from the quantities of the plan.
fn done(e: &Evaluation, stage: Stage) -> String {
    let t = &e.takeoff;
    match stage {
        Stage::Lift => format!(
            "{} windows out, the roof raised by {} and made safe",
            t.windows_removed,
            e.units.length(e.raise.height_mm)
        ),
        Stage::Frame => format!("{} posts lengthened, tube framed in behind sheet edges", t.posts_lengthened),
        Stage::Skin => {
            format!(
                "{} sheets of {}, {} rivets ({}), {:.0} m of laps and edges sealed",
                t.sheets, e.sheet, t.rivets, e.rivet, t.sealed_length_m
            )
        }
        Stage::Paint => {
            let names: Vec<String> = t.paints_l().into_iter().map(|(name, _)| name.to_owned()).collect();
            if names.is_empty() { "preparation".to_owned() } else { names.join(", ") }
        }
        Stage::Job => "deliveries and what belongs to no stage".to_owned(),
    }
}

/// The letter as a page of HTML; a sentence in its place where the plan has no prices.
pub fn letter(e: &Evaluation) -> String {
    let Some((quote, offer)) = e.quote.as_ref().zip(e.offer.as_ref()) else {
        return html! { (DOCTYPE) html lang="en" { head { meta charset="utf-8"; title { (e.name) } } body { p { "This plan has no prices." } } } }
            .into_string();
    };
    let money = |amount: &dyn std::fmt::Display| format!("{amount} {}", quote.currency);
    html! {
        (DOCTYPE)
        html lang="en" {
            head { meta charset="utf-8"; title { "Quote: " (e.name) } style { (STYLE) } }
            body {
                h1 { "Quote" @if let Some(number) = &offer.number { " " (number) } ": " (e.name) }
                table {
                    @if let Some(from) = &offer.from { tr { th { "From" } td { (from) } } }
                    @if let Some(to) = &offer.to { tr { th { "To" } td { (to) } } }
                    @if let Some(date) = &offer.date { tr { th { "Date" } td { (date) } } }
                    @if let Some(until) = &offer.valid_until { tr { th { "Prices hold until" } td { (until) } } }
                }
                @if !offer.cautions.is_empty() {
                    div class="warn" { b { "Before this is signed:" } ul { @for line in &offer.cautions { li { (line) } } } }
                }
                h2 { "Price" }
                table {
                    tr { th { "Stage" } th { "What is done" } th class="money" { "Price" } }
                    @for own in &offer.stages {
                        tr { td { (own.stage.words()) } td { (done(e, own.stage)) } td class="money" { (money(&own.price)) } }
                    }
                    @if !offer.tax.is_zero() {
                        tr { td { "tax" } td {} td class="money" { (money(&offer.tax)) } }
                    }
                    tr class="sum" {
                        td { @if quote.open_items.is_empty() { "Total" } @else { "Total so far" } } td {}
                        td class="money" { (money(&quote.total)) }
                    }
                }
                p {
                    "Overall height afterwards " (e.units.length(e.raised.heights.overall_mm)) ", headroom "
                    (e.units.length(e.raised.headroom_mm)) ", about " (format!("{:.0}", e.hours())) " hours of work."
                }
                h2 { "Not in the price" }
                ul { @for line in &offer.excluded { li { (line) } } }
                @if !offer.terms.is_empty() { h2 { "Terms" } ul { @for line in &offer.terms { li { (line) } } } }
                p class="small" { (CAUTIONS[0]) " " (CAUTIONS[1]) }
                div class="sign" { div { "for the shop, day" } div { "for the customer, day" } }
            }
        }
    }
    .into_string()
}
