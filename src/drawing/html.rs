//! Notebook views: a plan, an evaluation, a comparison and reports as HTML fragments; every string from a plan is escaped.

use maud::{Markup, PreEscaped, html};

use crate::body::survey::Side;
use crate::check::{Check, Verdict};
use crate::mechanics::joint::Report;
use crate::plan::{
    BarCuts, CAUTIONS, Comparison, CutList, Cuts, EndCapSummary, Evaluation, Plan, SheetCuts, SpliceSummary,
};
use crate::quantity::ShopUnits;
use crate::shop::schedule::Schedule;

use super::contacts::{DETAIL_HEADINGS, PAIR_HEADINGS, area_note, detail_rows, pair_rows};
use super::cut_day::{
    CUT_HEADINGS, EXIT_HEADINGS, GATE_HEADINGS, LEAN_HEADINGS, LEDGER_HEADINGS, LIFT_BRACES, LIFT_STEPS, LIFT_SUPPORTS,
    SPLICE_HEADINGS, cut_rows, cut_words, exit_rows, gate_rows, lean_rows, ledger_rows, lift_braces, lift_note,
    lift_steps, lift_supports, splice_rows, splice_words, stop_work,
};
use super::cut_list::{
    BAR_CUT_HEADINGS, REMNANT_HEADINGS, SHEET_CUT_HEADINGS, STEP_HEADINGS, bar_cut_rows, bar_words,
    cut_words as cut_list_words, remnant_rows, sheet_cut_rows, sheet_words, step_rows,
};
use super::cut_sheet;
use super::drilling::{
    HoleTable, JIG_HEADINGS, OLD_LINE_HEADINGS, drilling_words, jig_rows, jig_tables, line_tables, old_line_rows,
};
use super::end_caps::{CAP_CORNERS, CAP_MARKS, CAP_PIECES, cap_corners, cap_marks, cap_pieces, cap_words};
use super::flatness::{
    ADVICE_HEADINGS, JOINT_HEADINGS, LOAD_HEADINGS, SIZE_HEADINGS, SUCTION_HEADINGS, advice_rows, flatness_words,
    joint_rows, load_rows, size_rows, suction_rows,
};
use super::lasting::{LIFE_HEADINGS, THINNED_HEADINGS, life_rows, life_words, thinned_rows};
use super::overview::{
    ASSUMED_HEADINGS, EFFECT_HEADINGS, ORDER_HEADINGS, REMINDER_HEADINGS, assumed_rows, effect_rows, figure_rows,
    order_rows, reminder_rows,
};
use super::paint::{COAT_HEADINGS, DURABILITY_HEADINGS, coat_rows, durability_rows};
use super::quote::quote_html;
use super::schedule::{
    EVENING_HEADINGS, HANGING_HEADINGS, SCHEDULE_HEADINGS, evening_rows, hanging_rows, schedule_rows, schedule_words,
};
use super::side_view;
use super::skins::{
    BACKER_HEADINGS, BLANK_HEADINGS, LAP_HEADINGS, LINE_HEADINGS, LOT_HEADINGS, POLICY_HEADINGS, SHEET_HEADINGS,
    backer_rows, blank_rows, lap_rows, line_rows, lot_rows, policy_rows, sheet_rows,
};
use super::text::{body_rows, comparison_rows, number, side_by_side, verdict_line};

/// Hole tables stand side by side; on paper everything is unfolded, and columns give way to the sheet.
const STYLE: &str = ".raisedbody .holes table { display: inline-table; vertical-align: top; margin: 0 1.5em 1em 0 } \
    .raisedbody .holes caption { text-align: left; font-weight: bold; max-width: 20em } \
    .raisedbody .holes td, .raisedbody .holes th { text-align: left; padding-right: 0.8em } \
    @media print { .raisedbody details::details-content { content-visibility: visible; display: block; height: auto } \
    .raisedbody table { max-width: 100%; font-size: 8pt } .raisedbody td, .raisedbody th { overflow-wrap: anywhere } \
    .raisedbody tr, .raisedbody .holes table { break-inside: avoid } .raisedbody summary { break-after: avoid } }";

fn sign(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Passes => "✓",
        Verdict::Fails => "✗",
        Verdict::OutsideRange => "⊘",
        Verdict::NotAssessed => "?",
    }
}

fn check_row(c: &Check) -> Markup {
    html! {
        tr {
            td { (sign(c.verdict)) " " (c.verdict.words()) }
            td { (c.name) }
            td { (c.subject) }
            td { (number(c.demand)) " of " (number(c.capacity)) " " (c.unit) }
            td { (c.reason.as_deref().unwrap_or("")) }
            td { (c.standing.words()) }
        }
    }
}

/// The plan's own entries, folded.
pub fn plan(plan: &Plan) -> String {
    let file = plan.file();
    html! {
        div {
            b { "Plan: " (file.name) }
            @if file.invented { " (figures invented for an example)" }
            ul {
                li { "raise " (file.units.length(file.raise.height.mm())) }
                li { (file.survey.windows) " windows a side, " (file.raise.windows_kept.len()) " kept" }
                li { "rivet pitch " (file.units.length(file.fastening.pitch.mm())) }
            }
            details { summary { "as written" } pre { (plan.to_text()) } }
        }
    }
    .into_string()
}

/// Height, mass, bows, rivets, hours, price.
fn figures(e: &Evaluation) -> Markup {
    html! { table { @for [name, value] in figure_rows(e) { tr { th { (name) } td { (value) } } } } }
}

/// The price line by line.
fn price(e: &Evaluation) -> Markup {
    html! { @if e.quote.is_some() { details { summary { "quote" } (PreEscaped(quote_html(e))) } } }
}

/// What to buy, and how it is cut.
fn order_and_cuts(e: &Evaluation) -> Markup {
    html! {
        details {
            summary { "order list and cut list" }
            (table(&ORDER_HEADINGS, &order_rows(e)))
            (PreEscaped(cut_list(&e.cut_list)))
        }
    }
}

/// How each sheet and bar is cut, what that costs, what is kept.
pub fn cut_list(cut: &CutList) -> String {
    html! {
        div {
            ul { @for line in cut_list_words(cut) { li { (line) } } }
            @if let Some(own) = &cut.sheets { (sheets_cut(own)) }
            @for own in cut.inserts.iter().chain(&cut.backing) {
                (table(&BAR_CUT_HEADINGS, &bar_cut_rows(own)))
            }
        }
    }
    .into_string()
}

/// How bars are cut and what that costs.
pub fn bar_cuts(own: &BarCuts) -> String {
    html! { div { (table(&BAR_CUT_HEADINGS, &bar_cut_rows(own))) p { (bar_words(own)) } } }.into_string()
}

/// How sheets are cut and what that costs: the list, a picture of each, the cuts in order, the rests to keep.
pub fn sheet_cuts(cuts: &SheetCuts) -> String {
    html! { div { ul { @for line in sheet_words(cuts) { li { (line) } } } (sheets_cut(cuts)) } }.into_string()
}

fn sheets_cut(cuts: &SheetCuts) -> Markup {
    let kept = remnant_rows(cuts);
    html! {
        div {
            (table(&SHEET_CUT_HEADINGS, &sheet_cut_rows(cuts)))
            @for card in cuts.cards() {
                div style="max-width: 620px; display: inline-block; width: 48%; min-width: 320px" {
                    (PreEscaped(cut_sheet(cuts, &card)))
                }
            }
            details { summary { "every cut" } (table(&STEP_HEADINGS, &step_rows(cuts))) }
            @if !kept.is_empty() { (table(&REMNANT_HEADINGS, &kept)) }
        }
    }
}

/// Coats, and how long the paint outside lasts by its film.
fn coats(e: &Evaluation) -> Markup {
    html! {
        details {
            summary { "paint: " (e.paint.coats.len()) " coats" }
            (table(&COAT_HEADINGS, &coat_rows(e)))
            (table(&DURABILITY_HEADINGS, &durability_rows(e)))
        }
    }
}

/// The roof off its posts: stop-work wind, supports, steps, braces.
fn roof_off(e: &Evaluation) -> Markup {
    html! {
        @if let Some(words) = stop_work(e) {
            details {
                summary { "the roof off its posts: supports, steps, braces" }
                p { "Stop-work wind: " (words) }
                @if let Some(note) = lift_note(e) { p { (note) } }
                @for (header, rows) in [
                    (LIFT_SUPPORTS, lift_supports(e)), (LIFT_STEPS, lift_steps(e)), (LIFT_BRACES, lift_braces(e)),
                ] {
                    @if !rows.is_empty() { (table(&header, &rows)) }
                }
            }
        }
    }
}

/// The questions before the first cut, the ledger of the cut, the exits by place.
fn cut_day(e: &Evaluation) -> Markup {
    html! {
        details {
            summary { "before the first cut: " (e.gate.words()) }
            (table(&GATE_HEADINGS, &gate_rows(e)))
        }
        details {
            summary { "what the cut goes through: " (e.ledger.len()) " lines" }
            (table(&LEDGER_HEADINGS, &ledger_rows(e)))
            (table(&EXIT_HEADINGS, &exit_rows(e)))
        }
    }
}

/// Hole tables side by side.
fn hole_tables(tables: &[HoleTable]) -> Markup {
    html! {
        div class="holes" {
            @for holes in tables {
                table {
                    caption { (holes.title) }
                    thead { tr { @for heading in holes.headings { th { (heading) } } } }
                    @for row in &holes.rows { tr { @for cell in row { td { (cell) } } } }
                }
            }
        }
    }
}

/// The new skin: sheets and laps, end caps, drilling, the order of hanging.
fn new_skin(e: &Evaluation) -> Markup {
    html! {
        details {
            summary { "sheets and laps: " (e.skins.sheets.len()) " sheets, " (e.skins.laps.len()) " laps" }
            (table(&POLICY_HEADINGS, &policy_rows(e)))
            (table(&SHEET_HEADINGS, &sheet_rows(e)))
            (table(&BLANK_HEADINGS, &blank_rows(e)))
            (table(&LAP_HEADINGS, &lap_rows(e)))
            (table(&LOT_HEADINGS, &lot_rows(e)))
            (table(&LINE_HEADINGS, &line_rows(e)))
            (table(&BACKER_HEADINGS, &backer_rows(e)))
        }
        @if let Some(caps) = &e.end_caps {
            details {
                summary { "end caps: " (caps.pieces.len()) " sheets round the corners" }
                (PreEscaped(end_caps(caps, e.units)))
            }
        }
        details {
            summary { "loads on the skins and how flat they lie" }
            (table(&LOAD_HEADINGS, &load_rows(e)))
            (table(&JOINT_HEADINGS, &joint_rows(e)))
            (table(&SIZE_HEADINGS, &size_rows(e)))
            (table(&SUCTION_HEADINGS, &suction_rows(e)))
            (table(&ADVICE_HEADINGS, &advice_rows(e)))
            ul { @for line in flatness_words(e) { li { (line) } } }
        }
        details {
            summary { "how long the skin lasts" }
            (table(&LIFE_HEADINGS, &life_rows(e)))
            (table(&THINNED_HEADINGS, &thinned_rows(e)))
            ul { @for line in life_words(e) { li { (line) } } }
        }
        details {
            summary { "metals in contact: " (e.pairs.len()) " pairs; laps, edges, holes, welds" }
            (table(&PAIR_HEADINGS, &pair_rows(e)))
            p { small { (area_note(e)) } }
            (table(&DETAIL_HEADINGS, &detail_rows(e)))
        }
        details {
            summary { "drilling: " (e.drilling.jigs.len()) " jigs, " (e.old_lines.len()) " lines over old holes" }
            (table(&JIG_HEADINGS, &jig_rows(&e.drilling, e.units)))
            ul { @for line in drilling_words(&e.drilling) { li { (line) } } }
            @if !e.old_lines.is_empty() { (table(&OLD_LINE_HEADINGS, &old_line_rows(&e.old_lines, e.units))) }
            (hole_tables(&jig_tables(&e.drilling)))
            (hole_tables(&line_tables(e)))
        }
        details {
            summary { "hanging order and schedule" }
            (table(&HANGING_HEADINGS, &hanging_rows(e)))
            @match &e.schedule {
                Some(s) => { (PreEscaped(schedule(s))) }
                None => { p { "no schedule: the plan has no crew" } }
            }
        }
    }
}

/// Verdicts, side view, mass, price; what does not pass; what is assumed; cautions.
pub fn evaluation(e: &Evaluation) -> String {
    let open: Vec<&Check> = e.checks.iter().filter(|c| c.verdict != Verdict::Passes).collect();
    html! {
        div class="raisedbody" {
            style { (PreEscaped(STYLE)) }
            b { (e.name) }
            @if e.invented { " (figures invented for an example)" }
            p { "Checks: " (verdict_line(e)) }
            div style="max-width: 1000px" { (PreEscaped(side_view(e, Side::Right))) }
            (figures(e))
            table {
                tr { th { "body" } th { "before" } th { "after" } }
                @for (name, before, after) in body_rows(e) {
                    tr { th style="text-align: left" { (name) } td { (before) } td { (after) } }
                }
            }
            @if !open.is_empty() {
                table {
                    tr { th { "verdict" } th { "check" } th { "where" } th { "demand" } th { "why" } th { "numbers" } }
                    @for c in &open { (check_row(c)) }
                }
            }
            details {
                summary { "all " (e.checks.len()) " checks" }
                table { @for c in &e.checks { (check_row(c)) } }
            }
            (new_skin(e))
            (order_and_cuts(e))
            (price(e))
            (coats(e))
            details {
                summary { "splices: " (e.splices.posts.len()) " inserts" }
                (PreEscaped(splices(&e.splices, e.units)))
            }
            details {
                summary { "before and after: mass, stability, crosswind, running cost" }
                (table(&EFFECT_HEADINGS, &effect_rows(e)))
            }
            (roof_off(e))
            (cut_day(e))
            @if !e.reminders.is_empty() {
                details {
                    summary { "what the new height touches" }
                    (table(&REMINDER_HEADINGS, &reminder_rows(e)))
                }
            }
            details {
                summary { (e.assumed.len()) " values assumed, common practice or from memory" }
                (table(&ASSUMED_HEADINGS, &assumed_rows(&e.assumed)))
                ul { @for line in &e.overrides { li { (line) } } }
            }
            ul { @for caution in CAUTIONS { li { (caution) } } }
        }
    }
    .into_string()
}

pub(super) fn table<const N: usize>(headings: &[&str; N], rows: &[[String; N]]) -> Markup {
    html! {
        table {
            tr { @for heading in headings { th { (heading) } } }
            @for row in rows { tr { @for cell in row { td { (cell) } } } }
        }
    }
}

/// The end caps of a plan: sheets, bend marks, corners, what to know.
pub fn end_caps(caps: &EndCapSummary, units: ShopUnits) -> String {
    html! {
        div {
            (table(&CAP_PIECES, &cap_pieces(caps, units)))
            (table(&CAP_MARKS, &cap_marks(caps, units)))
            (table(&CAP_CORNERS, &cap_corners(caps, units)))
            ul { @for line in cap_words(caps, units) { li { (line) } } }
        }
    }
    .into_string()
}

/// The splices of a plan: inserts that are alike, leaning sides, what to know.
pub fn splices(s: &SpliceSummary, units: ShopUnits) -> String {
    html! {
        div {
            (table(&SPLICE_HEADINGS, &splice_rows(s, units)))
            (table(&LEAN_HEADINGS, &lean_rows(s, units)))
            ul { @for line in splice_words(s) { li { (line) } } }
        }
    }
    .into_string()
}

/// A schedule: every evening, what decides the end, every task.
pub fn schedule(s: &Schedule) -> String {
    html! {
        div {
            (table(&EVENING_HEADINGS, &evening_rows(s)))
            ul { @for line in schedule_words(s) { li { (line) } } }
            details { summary { "every task" } (table(&SCHEDULE_HEADINGS, &schedule_rows(s))) }
        }
    }
    .into_string()
}

/// Cuts to choose from: the best, and why the others are turned down.
pub fn cuts(c: &Cuts) -> String {
    html! {
        div {
            (table(&CUT_HEADINGS, &cut_rows(c)))
            ul { @for line in cut_words(c) { li { (line) } } }
        }
    }
    .into_string()
}

/// All checks of one lap by one rule set.
pub fn report(report: &Report) -> String {
    html! {
        div {
            b { "Lap by " (report.method) ": " (sign(report.verdict())) " " (report.verdict().words()) }
            table {
                tr { th { "verdict" } th { "check" } th { "where" } th { "demand" } th { "why" } th { "numbers" } }
                @for c in &report.checks { (check_row(c)) }
            }
        }
    }
    .into_string()
}

/// Reports side by side, a column a rule set.
pub fn reports<'a>(reports: impl Iterator<Item = &'a Report>) -> String {
    let reports: Vec<&Report> = reports.collect();
    html! {
        table {
            tr { th {} @for r in &reports { th { div { (r.method) } small { (r.level.words()) } } } }
            tr { th { "verdict" } @for r in &reports { td { (sign(r.verdict())) " " (r.verdict().words()) } } }
            @for (name, cells) in side_by_side(&reports) {
                tr { th style="text-align: left" { (name) } @for cell in cells { td { (cell) } } }
            }
        }
    }
    .into_string()
}

/// A whole page within a notebook's: in a frame of its own, so that neither's styles reach the other, and nothing in it runs.
pub fn framed(title: &str, page: &str) -> String {
    html! { iframe title=(title) srcdoc=(page) sandbox="" style="width: 100%; height: 40em; border: 1px solid #888" {} }
        .into_string()
}

/// Plans side by side, a column each, what differs first.
pub fn comparison(c: &Comparison) -> String {
    html! {
        table {
            tr { th {} @for name in &c.names { th { (name) } } }
            @for (name, values) in comparison_rows(c) {
                tr { th style="text-align: left" { (name) } @for value in values { td { (value) } } }
            }
        }
    }
    .into_string()
}
