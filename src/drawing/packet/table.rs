//! What every part of a packet is made of: a table, a picture.

use maud::{Markup, PreEscaped, html};

use crate::drawing::lists::is_number;
use crate::drawing::{Drawing, Subject};

/// A word of so many letters is broken where the column is narrow; shorter ones hold the column open.
const LONG_WORD: usize = 24;

/// A cell of so many letters that starts with a digit is not broken.
const SHORT_CELL: usize = 14;

/// A cell of more letters than this holds its column open, beside one with far more.
const SENTENCE: usize = 40;

/// What a table has besides its rows: a box to tick before each, columns to fill in after them.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Extra<'a> {
    pub tick: bool,
    pub fill: &'a [&'a str],
}

/// The one table of the packet: its head is repeated on every page, no row is cut in two.
pub(super) fn table<H: AsRef<str>, R: AsRef<[String]>>(headings: &[H], rows: &[R], extra: Extra<'_>) -> Markup {
    let numbers: Vec<bool> = (0..headings.len()).map(|column| of_numbers(rows, column)).collect();
    html! {
        table {
            thead {
                tr {
                    @if extra.tick { th { "done" } }
                    @for heading in headings { th { (heading.as_ref()) } }
                    @for heading in extra.fill { th { (heading) } }
                }
            }
            tbody {
                @for row in rows {
                    tr {
                        @if extra.tick { td { span class="box" {} } }
                        @for (cell, number) in row.as_ref().iter().zip(&numbers) { (data(cell, *number)) }
                        @for _ in extra.fill { td class=(if extra.fill.len() > 1 { "fill" } else { "fill wide" }) {} }
                    }
                }
            }
        }
    }
}

fn data(cell: &str, number: bool) -> Markup {
    let long = || cell.split_whitespace().any(|word| word.chars().count() > LONG_WORD);
    // A size or an amount stays in one line.
    let short = || cell.starts_with(|c: char| c.is_ascii_digit()) && cell.chars().count() <= SHORT_CELL;
    html! {
        @if number {
            td class="n" { (cell) }
        } @else if short() {
            td class="short" { (cell) }
        } @else if long() {
            td class="long" { (cell) }
        } @else if cell.chars().count() > SENTENCE {
            td class="text" { (cell) }
        } @else {
            td { (cell) }
        }
    }
}

/// A column of plain numbers, and dashes where one is not known.
fn of_numbers<R: AsRef<[String]>>(rows: &[R], column: usize) -> bool {
    let mut cells =
        rows.iter().filter_map(|row| row.as_ref().get(column)).filter(|cell| !matches!(cell.as_str(), "–" | ""));
    let mut any = false;
    cells.all(|cell| {
        any = true;
        is_number(cell)
    }) && any
}

/// What there is to know, a line each.
pub(super) fn lines(words: &[String]) -> Markup {
    html! { @if !words.is_empty() { ul { @for line in words { li { (line) } } } } }
}

/// A drawing as a picture of its own, as wide as the page: nothing in it can run. It has its title within.
fn picture(title: &str, svg: &str) -> Markup {
    html! {
        figure { (PreEscaped("<img alt=\"")) (title) (PreEscaped("\" src=\"")) (data_uri(svg)) (PreEscaped("\"/>")) }
    }
}

/// All drawings of a subject.
pub(super) fn pictures(drawings: &[Drawing], subject: Subject) -> Markup {
    html! { @for own in drawings.iter().filter(|own| own.subject == subject) { (picture(&own.title, &own.svg)) } }
}

/// The SVG document as an address (RFC 2397), its own signs escaped; what is not ASCII the browser escapes itself.
fn data_uri(svg: &str) -> String {
    let mut uri = String::with_capacity(svg.len() + svg.len() / 4);
    uri.push_str("data:image/svg+xml;charset=utf-8,");
    for c in svg.chars() {
        match c {
            '%' => uri.push_str("%25"),
            '#' => uri.push_str("%23"),
            '"' => uri.push_str("%22"),
            '<' => uri.push_str("%3C"),
            '>' => uri.push_str("%3E"),
            '&' => uri.push_str("%26"),
            c if c.is_whitespace() || c.is_control() => uri.push_str("%20"),
            c => uri.push(c),
        }
    }
    uri
}
