//! How long the skin's coating and steel last, zone by zone, against the years that are wanted.

use crate::catalogue::{Catalogue, CoatingFamily, MetalLost};
use crate::check::{Check, Level, Standing, Verdict};
use crate::error::Error;
use crate::mechanics::corrosion::{Layer, Rates, life_range, perforation_range};

use super::file::File;
use super::resolve::Resolved;
use super::results::ZoneOutlook;

pub(super) fn outlook(r: &Resolved, catalogue: &Catalogue) -> Result<Vec<ZoneOutlook>, Error> {
    let mut zones = Vec::new();
    for (zone, category) in r.zones.iter() {
        let rates = |metal| catalogue.corrosivity("service.corrosivity", category, metal).map(Rates::from);
        let zinc_bearing =
            r.sheet.coating.as_ref().filter(|c| matches!(c.family, CoatingFamily::Zinc | CoatingFamily::ZincIron));
        let coating_years = match zinc_bearing {
            Some(c) if c.even_um > 0.0 => {
                let layer = Layer { nominal_um: c.even_um, least_um: c.least_um };
                Some(life_range(layer, rates(MetalLost::Zinc)?, MetalLost::Zinc)?)
            }
            _ => None,
        };
        let steel = r.sheet.material == "carbon steel";
        let perforation_years = if steel {
            let layer = Layer::of_sheet_mm(r.sheet.base_mm, r.sheet.least_base_mm);
            Some(perforation_range(layer, rates(MetalLost::Steel)?)?)
        } else {
            None
        };
        let note = match r.sheet.coating.as_ref().map(|c| c.family) {
            None if steel => "bare steel: the paint is all there is",
            None => "no tabulated loss for this metal; it may pit in laps",
            Some(CoatingFamily::Zinc) => "loss of zinc by ISO 9223 and 9224; prime cut edges and holes",
            Some(CoatingFamily::ZincIron) => {
                "counted as zinc; not meant to stay unpainted; prime every cut edge and hole"
            }
            Some(_) => "no tabulated loss for this coating; prime every cut edge and hole",
        };
        zones.push(ZoneOutlook {
            zone,
            category: category.clone(),
            coating_years,
            perforation_years,
            note: note.to_owned(),
        });
    }
    Ok(zones)
}

/// The life wanted against the estimate's range: passes below it, fails above it, and within it is not known.
pub(super) fn life_checks(file: &File, outlook: &[ZoneOutlook]) -> Vec<Check> {
    let Some(years) = file.service.years.map(f64::from) else { return Vec::new() };
    outlook
        .iter()
        .map(|zone| {
            let shortest = zone.coating_years.map(|l| l.shortest_years);
            let within = zone.coating_years.is_some_and(|l| l.longest_years.is_none_or(|longest| years <= longest));
            let check = Check::compare(
                "coating life",
                "ISO 9223:2012 and ISO 9224:2012",
                (Some(years), shortest, "years"),
                Level::Stated,
                Standing::Assumed,
            )
            .at(format!("{}, {}", zone.zone, zone.category));
            let range = zone.coating_years.map(|l| l.to_string()).unwrap_or_default();
            match check.verdict {
                Verdict::Fails if within => check.demoted(
                    Verdict::NotAssessed,
                    format!("the estimate without paint is {range}: it may or may not last"),
                ),
                Verdict::NotAssessed => check.because("the loss of this metal or coating is not tabulated"),
                _ => check.because(format!("the estimate without paint is {range}")),
            }
        })
        .collect()
}
