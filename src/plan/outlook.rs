//! How long the skin's coating and steel last, zone by zone, against the years that are wanted; what a year of it costs.

use rust_decimal::prelude::ToPrimitive as _;

use crate::catalogue::{Catalogue, CoatingFamily, MetalLost};
use crate::check::{Check, Level, Standing, Verdict};
use crate::error::{Error, Problem};
use crate::mechanics::corrosion::{Layer, LifeRange, Years, life_range, perforation_range};
use crate::mechanics::paint::duplex_life_by;
use crate::shop::life_cost::{Spending, YearlyCost, cost_per_year};
use crate::shop::quote::Quote;

use super::file::{File, LifeEnd};
use super::paint;
use super::resolve::{Resolved, Zone};
use super::results::{LifeCost, ZoneOutlook};

pub(super) fn outlook(r: &Resolved, catalogue: &Catalogue) -> Result<Vec<ZoneOutlook>, Error> {
    let open = [true, true, false];
    // Paint outside does not reach into laps.
    r.lasting.zones.iter().zip(open).map(|(zone, open)| of_zone(r, catalogue, zone, open)).collect()
}

/// The zinc and the paint outside together; none where no film is tabulated. The film's class is one on zinc already, so that
/// at the shortest both only add up; at the longest the factor for a vehicle counts.
fn painted(r: &Resolved, catalogue: &Catalogue, category: &str, zinc: Option<Years>) -> Result<Option<Years>, Error> {
    let Some(zinc) = zinc else { return Ok(None) };
    let all = |problems: Vec<Problem>| Error::Input(problems.into_iter().map(Into::into).collect());
    let Some(paint) = paint::film_years(r, catalogue, category).map_err(all)? else { return Ok(None) };
    let pair = |years: Years| (years.shortest_years, years.longest_years);
    let both = duplex_life_by(catalogue, pair(zinc), pair(paint), category)?.vehicle;
    let shortest_years = zinc.shortest_years + paint.shortest_years;
    Ok(Some(Years { shortest_years, longest_years: both.longest_years }))
}

fn of_zone(r: &Resolved, catalogue: &Catalogue, zone: &Zone, open: bool) -> Result<ZoneOutlook, Error> {
    let coating = r.sheet.coating.as_ref();
    let zinc = coating.filter(|c| matches!(c.family, CoatingFamily::Zinc | CoatingFamily::ZincIron));
    let lasts = |nominal_um: f64, least_um: f64| -> Result<Option<LifeRange>, Error> {
        if nominal_um > 0.0 {
            Ok(Some(life_range(Layer { nominal_um, least_um }, zone.zinc, MetalLost::Zinc)?))
        } else {
            Ok(None)
        }
    };
    let (mut coating_years, mut average, mut thin_side) = (None, None, None);
    if let Some(c) = zinc {
        coating_years = lasts(c.even_um, c.least_um)?;
        average = lasts(c.even_um, c.even_um)?;
        thin_side = lasts(c.least_um, c.least_um)?;
    }
    let steel = r.sheet.material == "carbon steel";
    let perforation_years = if steel {
        let layer = Layer::of_sheet_mm(r.sheet.base_mm, r.sheet.least_base_mm);
        Some(perforation_range(layer, zone.steel)?)
    } else {
        None
    };
    let bare_years = match (coating, coating_years) {
        (None, _) if steel => Some(Years { shortest_years: 0.0, longest_years: Some(0.0) }),
        (_, own) => own.map(|own| own.years()),
    };
    let note = match coating.map(|c| c.family) {
        None if steel => "bare steel: the paint is all there is",
        None => "no tabulated loss for this metal; it may pit in laps",
        Some(CoatingFamily::Zinc) if zinc.is_some_and(|c| c.even_um == 0.0) => {
            "no least mass of zinc, so no life to reckon; prime cut edges and holes"
        }
        Some(CoatingFamily::Zinc) => "loss of zinc by ISO 9223 and 9224; prime cut edges and holes",
        Some(CoatingFamily::ZincIron) => "counted as zinc; not meant to stay unpainted; prime every cut edge and hole",
        Some(_) => "no tabulated loss for this coating; prime every cut edge and hole",
    };
    let zinc_years = coating_years.filter(|_| open).map(|own| own.years());
    let painted_years = painted(r, catalogue, &zone.category, zinc_years)?;
    let mut standing = zone.standing.with(coating.map_or(Standing::Given, |c| c.standing));
    // That zinc-iron goes as zinc does, and the factor of paint on a vehicle, are judgement.
    if painted_years.is_some() || coating.is_some_and(|c| c.family == CoatingFamily::ZincIron) {
        standing = standing.with(Standing::Assumed);
    }
    Ok(ZoneOutlook {
        zone: zone.words,
        category: zone.category.clone(),
        because: zone.because.clone(),
        zinc: zone.zinc,
        steel: zone.steel,
        coating_years,
        coating_average_years: average,
        coating_thin_side_years: thin_side,
        perforation_years,
        bare_years,
        painted_years,
        eaten_through_years: bare_years.zip(perforation_years).map(|(bare, steel)| bare.then(steel.years())),
        standing,
        note: note.to_owned(),
    })
}

/// The life wanted against the estimate's range: passes below it, fails above it, and within it is not known.
pub(super) fn life_checks(file: &File, outlook: &[ZoneOutlook]) -> Vec<Check> {
    let Some(years) = file.service.years.map(f64::from) else { return Vec::new() };
    outlook
        .iter()
        .map(|zone| {
            let shortest = zone.bare_years.map(|l| l.shortest_years);
            let within = zone.bare_years.is_some_and(|l| l.longest_years.is_none_or(|longest| years <= longest));
            let check = Check::compare(
                "coating life",
                "ISO 9223:2012 and ISO 9224:2012",
                (Some(years), shortest, "years"),
                Level::Stated,
                zone.standing.with(Standing::Assumed),
            )
            .at(format!("{}, {}", zone.zone, zone.category));
            let range = zone.bare_years.map(|l| l.to_string()).unwrap_or_default();
            match check.verdict {
                Verdict::Fails if within => check.demoted(
                    Verdict::NotAssessed,
                    format!("the estimate without paint is {range}: it may or may not last"),
                ),
                Verdict::NotAssessed => check.because(zone.note.clone()),
                _ => check.because(format!("the estimate without paint is {range}")),
            }
        })
        .collect()
}

/// The years of the zone that ends first; none where one is not known.
pub(super) fn first_to_end(outlook: &[ZoneOutlook], ends: impl Fn(&ZoneOutlook) -> Option<Years>) -> Option<Years> {
    outlook.iter().map(ends).reduce(|own, next| Some(own?.or_sooner(next?))).flatten()
}

/// What a year of the skin costs, where the plan asks for it and something is priced.
pub(super) fn life_cost(
    r: &Resolved,
    outlook: &[ZoneOutlook],
    quote: Option<&Quote>,
) -> Result<Option<LifeCost>, Error> {
    let Some((life, quote)) = r.lasting.life.zip(quote) else { return Ok(None) };
    let first = quote.total.to_f64().unwrap_or_default();
    let spending = Spending {
        first,
        renewal: life.renewal.unwrap_or(first),
        horizon_years: f64::from(life.horizon_years),
        discount: life.discount,
    };
    // The zone that ends first ends the skin.
    let guarded = |zone: &ZoneOutlook| zone.painted_years.filter(|_| life.with_paint).or(zone.bare_years);
    let ends = |zone: &ZoneOutlook| match life.ends {
        LifeEnd::CoatingGone => guarded(zone),
        LifeEnd::EatenThrough => Some(guarded(zone)?.then(zone.perforation_years?.years())),
    };
    let years = first_to_end(outlook, ends);
    let zone = years.and_then(|years| {
        outlook.iter().find(|zone| ends(zone).is_some_and(|own| own.shortest_years <= years.shortest_years))
    });
    let counted = if life.with_paint {
        "with the paint outside only in zones where its film is tabulated, laps left out"
    } else {
        "without paint"
    };
    let (least, most, note): (Option<YearlyCost>, Option<YearlyCost>, &str) = match years {
        None => {
            (Some(cost_per_year(spending, None)?), None, "no loss is tabulated: at least this, if nothing is renewed")
        }
        Some(years) if years.shortest_years <= 0.0 => {
            (None, None, "a bare sheet has no coating to lose: look at when it is eaten through")
        }
        Some(years) => {
            let longest = cost_per_year(spending, years.longest_years)?;
            // A life far too short to renew has no cost to tell.
            (Some(longest), cost_per_year(spending, Some(years.shortest_years)).ok(), counted)
        }
    };
    let open =
        if quote.open_items.is_empty() { String::new() } else { format!("; without {}", quote.open_items.join(", ")) };
    Ok(Some(LifeCost {
        ends: life.ends.words(),
        horizon_years: life.horizon_years,
        currency: quote.currency,
        first: spending.first,
        renewal: spending.renewal,
        zone: zone.map(|zone| zone.zone),
        years,
        least,
        most,
        standing: outlook
            .iter()
            .fold(if life.with_paint { Standing::Assumed } else { Standing::Given }, |all, zone| {
                all.with(zone.standing)
            }),
        note: format!("{note}{open}"),
    }))
}
