//! Coats and how long paint lasts: headings and rows for text and HTML.

use crate::check::significant;
use crate::plan::Evaluation;

use super::text::{number, table};

pub(super) const COAT_HEADINGS: [&str; 9] =
    ["coat", "where", "area, m2", "dry film, µm", "wet film, µm", "m2/L", "paint, L", "price", "note"];
pub(super) const DURABILITY_HEADINGS: [&str; 6] =
    ["paint outside", "category", "dry film, µm", "durability, ISO 12944:2018", "in 1998", "note"];

/// What each coat takes.
pub(super) fn coat_rows(e: &Evaluation) -> Vec<[String; 9]> {
    let row = |row: &crate::plan::CoatRow| {
        let (own, coat) = (&row.takeoff, &row.takeoff.coat);
        [
            own.name.clone(),
            own.side.words().to_owned(),
            format!("{:.1}", own.area_m2),
            significant(coat.film_um),
            format!("{:.0}", coat.wet_film_um()),
            format!("{:.2}", coat.practical_m2_l()),
            format!("{:.2}", own.paint_l),
            row.amount.map_or_else(|| "–".to_owned(), |amount| amount.to_string()),
            [row.note.clone(), row.standing.words().to_owned()]
                .into_iter()
                .filter(|s| !s.is_empty())
                .collect::<Vec<_>>()
                .join("; "),
        ]
    };
    e.paint.coats.iter().map(row).collect()
}

/// From and to in years, either of them open.
fn years((from, to): (Option<f64>, Option<f64>)) -> String {
    match (from, to) {
        (None, None) => "–".to_owned(),
        (None, to) => format!("up to {} years", number(to)),
        (from, None) => format!("more than {} years", number(from)),
        (from, to) => format!("{} to {} years", number(from), number(to)),
    }
}

/// How long the paint outside lasts in each zone.
pub(super) fn durability_rows(e: &Evaluation) -> Vec<[String; 6]> {
    let row = |o: &crate::plan::PaintOutlook| {
        let class = match o.durability {
            Some(own) if own.class().is_some() => format!("{}: {}", own.words(), years(o.years)),
            Some(own) => own.words().to_owned(),
            None => "not assessed".to_owned(),
        };
        [o.zone.to_owned(), o.category.clone(), significant(o.film_um), class, years(o.years_1998), o.note.clone()]
    };
    e.paint.outlook.iter().map(row).collect()
}

/// Both as plain text.
pub(super) fn paint(e: &Evaluation) -> String {
    let mut coats = table(&COAT_HEADINGS);
    coats.add_rows(coat_rows(e));
    let mut outlook = table(&DURABILITY_HEADINGS);
    outlook.add_rows(durability_rows(e));
    format!("{coats}\n\n{outlook}\n\n")
}
