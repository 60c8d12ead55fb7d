//! Metals in contact and the details that decide: headings and rows for text and HTML.

use std::fmt::Write as _;

use crate::check::significant;
use crate::mechanics::galvanic::Pair;
use crate::plan::{ContactPair, Evaluation};

use super::text::table;

pub(super) const PAIR_HEADINGS: [&str; 9] =
    ["contact", "first", "second", "index apart, V", "limit, V", "potentials apart, V", "eaten", "areas", "what to do"];
pub(super) const DETAIL_HEADINGS: [&str; 6] = ["detail", "zone", "category", "how much", "what to do", "source"];

fn range((least, most): (f64, f64)) -> String {
    if least < most { format!("{} to {}", significant(least), significant(most)) } else { significant(most) }
}

/// The gap between potentials with the number of series behind it.
fn gap(pair: &Pair) -> String {
    pair.gap_v.map_or_else(|| "–".to_owned(), |gap| format!("{} ({} series)", range(gap), pair.gap_sources))
}

/// What to do about a pair, or what to write.
fn to_do(own: &ContactPair) -> String {
    let Some(pair) = &own.pair else { return format!("not assessed: {}", own.missing) };
    pair.remedies().into_iter().map(|remedy| remedy.text).collect::<Vec<_>>().join("; ")
}

/// Every pair.
pub(super) fn pair_rows(e: &Evaluation) -> Vec<[String; 9]> {
    let row = |own: &ContactPair| {
        let of = |value: &dyn Fn(&Pair) -> String| own.pair.as_ref().map_or_else(|| "–".to_owned(), value);
        [
            own.name.clone(),
            own.first.clone(),
            own.second.clone(),
            of(&|p| p.index_difference_v.map_or_else(|| "–".to_owned(), range)),
            of(&|p| format!("{} ({})", significant(p.limit_v), p.exposure.name())),
            of(&gap),
            of(&|p| p.eaten_name().to_owned()),
            of(&Pair::area_words),
            to_do(own),
        ]
    };
    e.pairs.iter().map(row).collect()
}

/// Where what the areas do is from; empty where there is no pair.
pub(super) fn area_note(e: &Evaluation) -> String {
    if e.pairs.is_empty() { String::new() } else { format!("areas: {}", Pair::area_sources().join("; ")) }
}

/// Every detail.
pub(super) fn detail_rows(e: &Evaluation) -> Vec<[String; 6]> {
    let row = |d: &crate::plan::Detail| {
        [
            d.detail.to_owned(),
            d.zone.to_owned(),
            d.category.clone(),
            d.quantity.map_or_else(|| "–".to_owned(), |q| format!("{:.0} {}", q, d.unit)),
            d.advice.clone(),
            format!("{} [{}]", d.source, d.standing.words()),
        ]
    };
    e.details.iter().map(row).collect()
}

/// Both as plain text.
pub(super) fn contacts(e: &Evaluation) -> String {
    let mut pairs = table(&PAIR_HEADINGS);
    pairs.add_rows(pair_rows(e));
    let [detail, zone, category, how_much, to_do, _] = DETAIL_HEADINGS;
    let mut details = table(&[detail, zone, category, how_much, to_do]);
    details.add_rows(detail_rows(e).into_iter().map(|[a, b, c, d, advice, _]| [a, b, c, d, advice]));
    let mut out = format!("{pairs}\n{}\n\n{details}\n\n", area_note(e));
    let mut told: Vec<&str> = Vec::new();
    for detail in &e.details {
        if !told.contains(&detail.detail) {
            told.push(detail.detail);
            // Writing to a string cannot fail.
            let _ = writeln!(out, "  {}: {} [{}]", detail.detail, detail.source, detail.standing.words());
        }
    }
    out.push('\n');
    out
}
