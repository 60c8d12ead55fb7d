//! What eats at each zone of the vehicle over a year: categories and climates in numbers.

use crate::catalogue::MetalLost;
use crate::check::{Standing, significant};
use crate::error::Problem;
use crate::mechanics::corrosion::{Climate, Rates, Stay, first_year, mixed};
use crate::plan::file;
use crate::quantity::Kind;

use super::memory::OfLasting;
use super::reader::Reader;

/// A zone of the vehicle and its first year's loss.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct Zone {
    pub words: &'static str,
    /// The category that holds the greater loss, the worse of both metals'.
    pub category: String,
    pub zinc: Rates,
    pub steel: Rates,
    /// What it follows from.
    pub because: String,
    pub standing: Standing,
}

/// The entry that the parts of the year stand in.
const PATH: &str = "service.surroundings";

/// Names in the plan and words for people, from the top down.
const ZONES: [(&str, &str); 3] = [
    ("upper", "roof and upper sides"),
    ("lower", "lower sides, rear face, drip rails"),
    ("laps", "low laps and crevices"),
];

/// First year's losses of zinc and steel.
#[derive(Debug, Clone, Copy)]
struct Losses {
    zinc: Rates,
    steel: Rates,
    standing: Standing,
}

/// A part of the year.
struct Place {
    name: String,
    share: f64,
    open: Open,
    own: [Option<String>; 3],
}

/// What a plate in the open meets there.
enum Open {
    Category(String),
    /// By the climate.
    Losses(Losses),
}

/// How much worse off the zones are, at the least and at the most.
struct Steps {
    of: [(u8, u8); 3],
    factor: f64,
}

pub(super) fn zones(r: &mut Reader<'_>, file: &OfLasting) -> Option<[Zone; 3]> {
    let before = r.problems.len();
    let own = categories(&file.service.corrosivity);
    let all_own = own.iter().all(Option::is_some);
    let places = if all_own && file.service.surroundings.is_empty() { Vec::new() } else { places(r, file) };
    let steps = steps(r, file, places.iter().any(|p| matches!(p.open, Open::Losses(_))), all_own);
    if r.problems.len() > before {
        return None;
    }
    let mut zone = |i: usize| {
        let (name, words) = ZONES[i];
        let field = format!("service.corrosivity.{name}");
        match &own[i] {
            Some(category) => {
                let losses = of_category(r, &field, category)?;
                let because = format!("{category}, given for this zone");
                Some(Zone {
                    words,
                    category: category.clone(),
                    zinc: losses.zinc,
                    steel: losses.steel,
                    because,
                    standing: losses.standing,
                })
            }
            None => mixed_zone(r, i, &places, &steps),
        }
    };
    let (upper, lower, laps) = (zone(0), zone(1), zone(2));
    Some([upper?, lower?, laps?])
}

fn categories(zones: &file::Zones) -> [Option<String>; 3] {
    [zones.upper.clone(), zones.lower.clone(), zones.laps.clone()]
}

/// The parts of the year; without any in the plan the whole year on salted or on unsalted roads.
fn places(r: &mut Reader<'_>, file: &OfLasting) -> Vec<Place> {
    let service = &file.service;
    if service.surroundings.is_empty() {
        if service.salted.is_none() {
            r.list("service.salted", "true", "roads salted in winter: the worse case", Standing::Assumed);
        }
        let (key, name) = if service.salted.unwrap_or(true) {
            ("open_air_salted", "salted roads")
        } else {
            ("open_air", "roads without salt")
        };
        r.note("service.surroundings", key);
        let Some(row) = r.keep(r.catalogue.fallback(key)) else { return Vec::new() };
        let open = Open::Category(row.value.clone());
        return vec![Place { name: name.to_owned(), share: 1.0, open, own: [None, None, None] }];
    }
    if let Some(salted) = service.salted {
        let source = "not used: the surroundings say where the year is spent";
        r.list("service.salted", salted.to_string(), source, Standing::Assumed);
    }
    let places: Vec<Place> = service.surroundings.iter().enumerate().filter_map(|(i, one)| place(r, i, one)).collect();
    let year: f64 = service.surroundings.iter().map(|one| one.share.value()).sum();
    if (year - 1.0).abs() > 1e-6 {
        let value = format!("{} % together", significant(100.0 * year));
        let problem = "the shares of the year must make up 100 %";
        r.problems.push(Problem::contradiction("service.surroundings", value, problem));
    }
    places
}

fn place(r: &mut Reader<'_>, i: usize, one: &file::Surrounding) -> Option<Place> {
    let path = format!("service.surroundings[{i}]");
    let share = r.bound(&format!("{path}.share"), one.share.value(), 0.001, 1.0, Kind::Ratio);
    let open = match (&one.category, one.climate) {
        (Some(category), None) => {
            r.keep(r.catalogue.corrosivity(&format!("{path}.category"), category, MetalLost::Zinc))?;
            Open::Category(category.clone())
        }
        (None, Some(climate)) => Open::Losses(of_climate(r, &format!("{path}.climate"), climate)?),
        (Some(category), Some(_)) => {
            let problem = "a climate is given too; give one of them";
            r.problems.push(Problem::contradiction(format!("{path}.category"), category, problem));
            return None;
        }
        (None, None) => {
            let fix = "name the category of a plate in the open there, or give the climate: write category = \"C3\"";
            r.problems.push(Problem::missing(format!("{path}.category"), fix));
            return None;
        }
    };
    let own = categories(&one.zones);
    for (category, (name, _)) in own.iter().zip(ZONES) {
        if let Some(category) = category {
            r.keep(r.catalogue.corrosivity(&format!("{path}.zones.{name}"), category, MetalLost::Zinc));
        }
    }
    Some(Place { name: one.name.clone(), share, open, own })
}

fn of_category(r: &mut Reader<'_>, path: &str, category: &str) -> Option<Losses> {
    let mut standing = Standing::Given;
    let mut of = |metal| {
        let row = r.keep(r.catalogue.corrosivity(path, category, metal))?;
        standing = standing.with(row.standing);
        if row.standing >= Standing::Memory {
            let (low, high) = (row.low.um_a(), row.high.um_a());
            let value = format!("{category}: {} in the first year, {low} to {high} um/a", metal.words());
            r.list(path, value, &row.source, row.standing);
        }
        Some(Rates::from(row))
    };
    let (zinc, steel) = (of(MetalLost::Zinc)?, of(MetalLost::Steel)?);
    Some(Losses { zinc, steel, standing })
}

fn of_climate(r: &mut Reader<'_>, path: &str, climate: file::Climate) -> Option<Losses> {
    let climate = Climate {
        temperature_deg_c: climate.temperature.deg_c(),
        humidity_percent: 100.0 * climate.humidity.value(),
        so2_mg_m2_d: climate.so2.mg_m2_d(),
        chloride_mg_m2_d: climate.chloride.mg_m2_d(),
    };
    r.keep_all(climate.within(path))?;
    let source = "coefficients restated by secondary texts or from memory, table A.1 (-33 to +50 %) from memory; confirm \
                  against the standard before relying on it";
    r.list("rule set", "ISO 9223:2012, dose-response functions", source, Standing::Memory);
    let mut of = |metal| r.keep_all(first_year(climate, metal));
    let (zinc, steel) = (of(MetalLost::Zinc)?, of(MetalLost::Steel)?);
    Some(Losses { zinc: zinc.range, steel: steel.range, standing: zinc.standing.with(steel.standing) })
}

fn steps(r: &mut Reader<'_>, file: &OfLasting, by_climate: bool, unused: bool) -> Steps {
    let given = file.service.zone_steps;
    let mut of = [(0_u8, 0_u8); 3];
    if !unused {
        for (step, ((name, _), given)) in
            of.iter_mut().zip(ZONES.into_iter().zip([given.upper, given.lower, given.laps]))
        {
            let field = format!("service.zone_steps.{name}");
            let (value, _) =
                r.or_fallback(given.map(f64::from), &field, &format!("zone_steps_{name}"), (0.0, 5.0), Kind::Ratio);
            *step = (value as u8, value as u8);
            // What holds water, salt and mud may be worse still.
            if name == "laps" && given.is_none() {
                let (most, _) = r.fallback(&field, "zone_steps_laps_most", (value, 5.0), Kind::Ratio);
                step.1 = most as u8;
            }
        }
    }
    let factor = if by_climate { r.fallback("", "zone_step_factor", (1.0, 5.0), Kind::Ratio).0 } else { 1.0 };
    Steps { of, factor }
}

/// A zone over the whole year.
fn mixed_zone(r: &mut Reader<'_>, i: usize, places: &[Place], steps: &Steps) -> Option<Zone> {
    let (_, words) = ZONES[i];
    let (up, up_most) = steps.of[i];
    let mut parts: Vec<(f64, Losses)> = Vec::new();
    let mut told: Vec<String> = Vec::new();
    for place in places {
        let (losses, by) = match (&place.own[i], &place.open) {
            (Some(category), _) => (of_category(r, PATH, category)?, category.clone()),
            (None, Open::Category(open)) => {
                let (low, high) = (worse(r, open, up)?, worse(r, open, up_most)?);
                let by = if low == high { low.clone() } else { format!("{low} to {high}") };
                (between(of_category(r, PATH, &low)?, of_category(r, PATH, &high)?), by)
            }
            (None, Open::Losses(open)) => {
                let mut of = |rates: Rates, metal| raised(r, words, rates, metal, (up, up_most), steps.factor);
                let (zinc, steel) = (of(open.zinc, MetalLost::Zinc)?, of(open.steel, MetalLost::Steel)?);
                (Losses { zinc, steel, ..*open }, "by climate".to_owned())
            }
        };
        parts.push((place.share, losses));
        let share = significant(100.0 * place.share);
        told.push(if places.len() == 1 {
            format!("{}, {by}", place.name)
        } else {
            format!("{share} % {}, {by}", place.name)
        });
    }
    let mut mix = |rates: &dyn Fn(&Losses) -> Rates| {
        let stays: Vec<Stay> = parts.iter().map(|(share, l)| Stay { share: *share, rates: rates(l) }).collect();
        r.keep(mixed(&stays))
    };
    let (zinc, steel) = (mix(&|l| l.zinc)?, mix(&|l| l.steel)?);
    let because = told.join("; ");
    let category = [(zinc, MetalLost::Zinc), (steel, MetalLost::Steel)]
        .into_iter()
        .map(|(rates, metal)| category_of(r, words, rates, metal))
        .collect::<Option<Vec<String>>>()?
        .into_iter()
        .max()?;
    Some(Zone { words, category, zinc, steel, because, standing: Standing::Assumed })
}

/// The category so many steps worse, at most the worst.
fn worse(r: &mut Reader<'_>, open: &str, up: u8) -> Option<String> {
    r.keep(r.catalogue.worse_category(PATH, open, usize::from(up)).map(str::to_owned))
}

/// From the lower rates of the one to the upper rates of the other.
fn between(low: Losses, high: Losses) -> Losses {
    let rates = |low: Rates, high: Rates| Rates { low_um_a: low.low_um_a, high_um_a: high.high_um_a };
    let (zinc, steel) = (rates(low.zinc, high.zinc), rates(low.steel, high.steel));
    Losses { zinc, steel, standing: low.standing.with(high.standing) }
}

/// A loss by climate so many steps worse: by the factor, and at the most not below what the category so many steps worse may
/// come to.
fn raised(
    r: &mut Reader<'_>,
    words: &str,
    open: Rates,
    metal: MetalLost,
    (up, up_most): (u8, u8),
    factor: f64,
) -> Option<Rates> {
    let times = |up: u8| factor.powi(i32::from(up));
    let mut high_um_a = times(up_most) * open.high_um_a;
    if up_most > 0 {
        let category = category_of(r, words, open, metal)?;
        let worse = worse(r, &category, up_most)?;
        let bound = r.keep(r.catalogue.corrosivity(PATH, &worse, metal))?.high.um_a();
        // What comes to more than the last category is refused with the zone.
        high_um_a = high_um_a.max(bound);
    }
    Some(Rates { low_um_a: open.low_um_a.map(|low| times(up) * low), high_um_a })
}

/// The category of the greatest loss; beyond the last there is none.
fn category_of(r: &mut Reader<'_>, zone: &str, rates: Rates, metal: MetalLost) -> Option<String> {
    let found = r.catalogue.category_of(rates.high_um_a, metal).map(str::to_owned);
    if found.is_none() {
        let last = r.catalogue.corrosivity("", "CX", metal).map_or(0.0, |row| row.high.um_a());
        let value = format!("{:.1} um/a of {} in {zone}", rates.high_um_a, metal.words());
        let allowed = format!(
            "up to {last} um/a, the end of ISO 9223's last category; look at the climate, or name the zone's category \
             (service.surroundings[].zones)"
        );
        r.problems.push(Problem::out_of_range("service.surroundings", value, allowed));
    }
    found
}
