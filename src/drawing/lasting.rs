//! How long the skin lasts: headings and rows for text and HTML.

use std::fmt::Display;

use crate::plan::Evaluation;

use super::text::{number, table};

pub(super) const LIFE_HEADINGS: [&str; 9] = [
    "zone",
    "category",
    "which follows from",
    "coating gone after",
    "on its thinner side",
    "then eaten through after",
    "from new",
    "zinc and paint together",
    "note",
];
pub(super) const THINNED_HEADINGS: [&str; 7] =
    ["rivet lines", "by", "used now", "steel that may go, µm", "after", "used after the years wanted", "note"];

fn years(years: Option<impl Display>) -> String {
    years.map_or_else(|| "–".to_owned(), |years| years.to_string())
}

/// Each zone: coating, then steel.
pub(super) fn life_rows(e: &Evaluation) -> Vec<[String; 9]> {
    let row = |z: &crate::plan::ZoneOutlook| {
        [
            z.zone.to_owned(),
            z.category.clone(),
            z.because.clone(),
            years(z.coating_years),
            years(z.coating_thin_side_years),
            years(z.perforation_years),
            years(z.eaten_through_years),
            years(z.painted_years),
            z.note.clone(),
        ]
    };
    e.outlook.iter().map(row).collect()
}

/// Each joint with the sheet that rust leaves.
pub(super) fn thinned_rows(e: &Evaluation) -> Vec<[String; 7]> {
    let two = |value: Option<f64>| number(value.map(|v| (v * 100.0).round() / 100.0));
    let row = |t: &crate::plan::ThinnedJoint| {
        let then = match t.wanted_years {
            Some(_) => format!("{} to {}", two(t.utilisation_then_least), two(t.utilisation_then_most)),
            None => "–".to_owned(),
        };
        let loss = number(t.loss_um.map(f64::round));
        [t.subject.clone(), t.method.to_owned(), two(t.utilisation_now), loss, years(t.years), then, t.note.clone()]
    };
    e.thinned.iter().map(row).collect()
}

/// What to know, and what a year costs.
pub(super) fn life_words(e: &Evaluation) -> Vec<String> {
    let mut words = vec![
        "without paint but in the column that names it, for plates in the open; a range, not a scatter: its middle is not the likeliest. Laps, mud and wet \
         crevices lose metal faster, and steel pits, so the first pinhole comes sooner than it is eaten through"
            .to_owned(),
    ];
    if let Some(c) = &e.life_cost {
        let at = |cost: Option<crate::shop::life_cost::YearlyCost>| match cost {
            Some(cost) => format!("{:.0} {} a year ({} renewals)", cost.per_year, c.currency, cost.renewals),
            None => "not known".to_owned(),
        };
        let zone = c.zone.map_or_else(String::new, |zone| format!(", first in: {zone}"));
        words.push(format!(
            "kept for {} years, its life ending when {}{zone}: at least {}, at most {}; {}",
            c.horizon_years,
            if c.ends == "coating gone" { "the coating is gone" } else { "it is eaten through" },
            at(c.least),
            at(c.most),
            c.note
        ));
    }
    words
}

/// The whole as plain text.
pub(super) fn lasting(e: &Evaluation) -> String {
    let mut life = table(&LIFE_HEADINGS);
    life.add_rows(life_rows(e));
    let mut thinned = table(&THINNED_HEADINGS);
    thinned.add_rows(thinned_rows(e));
    let words = life_words(e).join("\n");
    format!("{life}\n\n{thinned}\n\n{words}\n\n")
}
