//! Paint of a plan: what each coat takes and costs, and what ISO 12944 says of the system outside in each zone.

use crate::body::takeoff::{CoatSide, CoatTakeoff, Takeoff};
use crate::catalogue::{Catalogue, SkinFamily};
use crate::check::{Check, Level, Standing};
use crate::error::Problem;
use crate::mechanics::corrosion::Years;
use crate::mechanics::paint::{EDITION, FilmDurability, ONE_COAT_UM, film_durability, system};
use crate::money::{Money, Price};
use crate::shop::quote::decimal;

use super::resolve::{CoatPlan, Resolved};

/// A coat with its quantity and price.
#[derive(Debug, Clone, PartialEq)]
pub struct CoatRow {
    /// What it takes.
    pub takeoff: CoatTakeoff,
    /// Price of a litre; none where it is not known.
    pub price: Option<Price>,
    /// What its paint costs; none where the price is not known.
    pub amount: Option<Money>,
    /// How solids and loss are known.
    pub standing: Standing,
    /// What to know.
    pub note: String,
}

/// What ISO 12944 says of the paint outside in one zone of the vehicle.
#[derive(Debug, Clone, PartialEq)]
pub struct PaintOutlook {
    /// The zone.
    pub zone: &'static str,
    /// Its corrosivity category.
    pub category: String,
    /// Dry film outside, all coats, µm.
    pub film_um: f64,
    /// What the table says; none where it does not speak of this sheet.
    pub durability: Option<FilmDurability>,
    /// Years from and to, by the edition that is used; either end may be open.
    pub years: (Option<f64>, Option<f64>),
    /// What the same word stood for in 1998; both open where it did not exist.
    pub years_1998: (Option<f64>, Option<f64>),
    /// The weakest standing of film and years.
    pub standing: Standing,
    /// What to know.
    pub note: String,
}

/// Paint of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct PaintSummary {
    /// Coats in the order in which they go on.
    pub coats: Vec<CoatRow>,
    /// The system outside, zone by zone.
    pub outlook: Vec<PaintOutlook>,
}

pub(super) fn paint(r: &Resolved, takeoff: &Takeoff, catalogue: &Catalogue) -> Result<PaintSummary, Vec<Problem>> {
    let litres = takeoff.paints_l();
    let row = |(takeoff, plan): (&CoatTakeoff, &CoatPlan)| {
        // A break is reached by all coats of a paint together.
        let all_l = litres.iter().find(|(name, _)| *name == takeoff.name).map_or(0.0, |(_, all_l)| *all_l);
        let price = r.prices.as_ref().and_then(|prices| prices.paint(&takeoff.name)).map(|tariff| {
            let amount = tariff.charge(decimal(all_l)).unit_price;
            Price { money: Money { amount, ..tariff.price.money }, ..tariff.price }
        });
        let cost = |price: Price| {
            let amount = decimal(takeoff.paint_l).saturating_mul(price.money.amount);
            Money { amount, ..price.money }.rounded()
        };
        CoatRow {
            takeoff: takeoff.clone(),
            price,
            amount: price.map(cost),
            standing: plan.standing,
            note: plan.note.clone(),
        }
    };
    let coats = takeoff.coats.iter().zip(&r.paint.coats).map(row).collect();
    let outlook = r.lasting.zones.iter().map(|zone| outlook(r, catalogue, (zone.words, &zone.category)));
    Ok(PaintSummary { coats, outlook: outlook.collect::<Result<_, _>>()? })
}

/// A skin that gets no paint outside must be one that may stay so.
pub(super) fn check(r: &Resolved, catalogue: &Catalogue) -> Result<Option<Check>, Problem> {
    if r.paint.outside_um() > 0.0 {
        return Ok(None);
    }
    let family = catalogue.family_property("skin.coating", r.sheet.family())?;
    let not_allowed = if family.unpainted_outdoors { 0.0 } else { 1.0 };
    let sides = (Some(not_allowed), Some(0.0), "faces outdoors that may not stay without paint");
    let check = Check::compare("skin without paint", "", sides, Level::Stated, family.standing)
        .at(r.sheet.label.clone())
        .by("coating family by the catalogue's family_property", []);
    let why =
        if family.unpainted_outdoors { family.note.clone() } else { format!("{}: paint it outside", family.note) };
    Ok(Some(check.because(why)))
}

/// Years that the film outside is listed for in a category, on hot-dip zinc; none where it is not.
pub(super) fn film_years(r: &Resolved, catalogue: &Catalogue, category: &str) -> Result<Option<Years>, Vec<Problem>> {
    let film_um = r.paint.outside_um();
    if r.sheet.family() != SkinFamily::Zinc || film_um <= 0.0 {
        return Ok(None);
    }
    let class = film_durability(catalogue, category, film_um)?.class();
    let row = class.and_then(|class| catalogue.durability(EDITION, class));
    Ok(row.map(|row| Years { shortest_years: row.from_years.unwrap_or(0.0), longest_years: row.to_years }))
}

fn outlook(
    r: &Resolved,
    catalogue: &Catalogue,
    (zone, category): (&'static str, &str),
) -> Result<PaintOutlook, Vec<Problem>> {
    let film_um = r.paint.outside_um();
    let not_assessed = match r.sheet.family() {
        _ if film_um <= 0.0 => Some("no paint outside"),
        SkinFamily::Zinc => None,
        SkinFamily::ElectrolyticZinc => {
            Some("the table is of paint on hot-dip zinc, not on the thin zinc of an electrolyte")
        }
        SkinFamily::ZincIron => Some(
            "the table is of paint on hot-dip zinc; paint keys to zinc-iron without an etch, but no film is tabulated",
        ),
        SkinFamily::AluminiumZinc | SkinFamily::Aluminium => {
            Some("the table is of paint on hot-dip zinc, not on this coating")
        }
        SkinFamily::BareSteel | SkinFamily::StainlessSteel | SkinFamily::AluminiumSheet => {
            Some("the table is of paint on hot-dip zinc, not on this metal")
        }
    };
    let durability = match not_assessed {
        Some(_) => None,
        None => Some(film_durability(catalogue, category, film_um)?),
    };
    let class = durability.and_then(FilmDurability::class);
    let row = |edition: u32| class.and_then(|class| catalogue.durability(edition, class));
    let years = |edition: u32| row(edition).map_or((None, None), |row| (row.from_years, row.to_years));
    let of_film = durability.and_then(|_| system(catalogue, category)).map_or(Standing::Memory, |row| row.standing);
    let coats = r.paint.coats.iter().filter(|coat| coat.order.side == CoatSide::Outside).count();
    let note = match (not_assessed, durability) {
        (Some(why), _) => why.to_owned(),
        (_, Some(FilmDurability::NotTabulated)) => format!("no system on zinc is listed for {category}"),
        (_, Some(FilmDurability::BelowLowest)) => format!("thinner than any system on zinc listed for {category}"),
        _ if film_um > ONE_COAT_UM && coats < 2 => {
            format!(
                "more than about {ONE_COAT_UM} µm is listed in two coats; to the first major maintenance, no guarantee"
            )
        }
        _ => "to the first major maintenance, no guarantee; laps, stone chips and a body that flexes shorten it"
            .to_owned(),
    };
    Ok(PaintOutlook {
        zone,
        category: category.to_owned(),
        film_um,
        durability,
        years: years(EDITION),
        years_1998: years(1998),
        standing: row(EDITION).map_or(of_film, |row| of_film.with(row.standing)),
        note,
    })
}
