//! Coats and sealant in numbers.

use crate::body::takeoff::{CoatOrder, CoatSide};
use crate::catalogue::{LossOf, SkinFamily};
use crate::check::{Standing, significant};
use crate::error::Problem;
use crate::mechanics::paint::{Bead, Coat};
use crate::mechanics::sheet::Sheet;
use crate::money::Price;
use crate::plan::file;
use crate::quantity::{Duration, Kind, Length, Ratio, Volume};
use crate::shop::hours::Time;
use crate::shop::quote::CoatPrice;

use super::memory::{OfPaint, OfShop};
use super::reader::Reader;

/// A coat in numbers.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct CoatPlan {
    pub order: CoatOrder,
    pub price: CoatPrice,
    /// Of solids and loss.
    pub standing: Standing,
    /// What to know.
    pub note: String,
    hours_m2: Option<f64>,
    dry_kg_m3: Option<f64>,
}

/// What goes on the new skin and into its laps.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct PaintPlan {
    /// Those inside first.
    pub coats: Vec<CoatPlan>,
    pub pretreatment: Option<CoatPrice>,
    /// Hours for a square metre of one face.
    pretreat_hours_m2: Option<f64>,
}

impl PaintPlan {
    /// Nothing is painted.
    pub(super) fn none() -> Self {
        Self { coats: Vec::new(), pretreatment: None, pretreat_hours_m2: None }
    }

    /// Prices of its coats and of what readies the skin for them.
    pub(super) fn prices(&self) -> impl Iterator<Item = Price> {
        self.coats.iter().map(|coat| &coat.price).chain(&self.pretreatment).filter_map(|own| own.price)
    }

    fn on(&self, side: CoatSide) -> impl Iterator<Item = &CoatPlan> {
        self.coats.iter().filter(move |coat| coat.order.side == side)
    }

    /// The new skin is painted inside.
    pub(super) fn inside(&self) -> bool {
        self.on(CoatSide::Inside).next().is_some()
    }

    /// Faces of the new skin that are painted.
    pub fn painted_faces(&self) -> u32 {
        u32::from(self.inside()) + u32::from(self.on(CoatSide::Outside).next().is_some())
    }

    /// Faces of the new skin that are painted and readied for it.
    pub fn pretreated_faces(&self) -> u32 {
        if self.pretreatment.is_some() { self.painted_faces() } else { 0 }
    }

    /// Dry film outside, all coats, µm.
    pub fn outside_um(&self) -> f64 {
        self.on(CoatSide::Outside).map(|coat| coat.order.coat.film_um).sum()
    }

    /// Mass of the paint on the new skin, both faces, kg/m2; none where a coat's density is not known.
    pub(super) fn skin_kg_m2(&self) -> Option<f64> {
        let own = self.coats.iter().filter(|coat| coat.order.side != CoatSide::Frame);
        own.map(|coat| Some(coat.order.coat.film_um * 1e-6 * coat.dry_kg_m3?)).sum()
    }

    /// The work on a square metre of the skin: one face readied, all coats inside, all coats outside.
    pub(super) fn times(&self) -> [Option<Time>; 3] {
        let coats = |side| self.on(side).filter_map(|coat| coat.hours_m2).reduce(|all, own| all + own);
        let all = [self.pretreat_hours_m2, coats(CoatSide::Inside), coats(CoatSide::Outside)];
        all.map(|hours| hours.map(|hours| Time { hours, standing: Standing::Given }))
    }
}

const FILM_MM: (f64, f64) = (0.005, 1.0);
const SOLIDS: (f64, f64) = (0.05, 1.0);
const LOSS: (f64, f64) = (0.0, 0.95);

pub(super) fn paint(r: &mut Reader<'_>, file: &OfPaint, sheet: Option<&Sheet>) -> PaintPlan {
    let own = &file.paint;
    if own.unpainted {
        let lists = [("coats", &own.coats), ("inside_coats", &own.inside_coats)];
        for (name, coats) in lists {
            if coats.as_ref().is_some_and(|coats| !coats.is_empty()) {
                let problem = "the new skin is left unpainted; leave the coats or paint.unpainted out";
                r.problems.push(Problem::contradiction(format!("paint.{name}"), "coats", problem));
            }
        }
    }
    // One loss stands for both default coats and is listed once.
    let mut loss = None;
    let mut of = |r: &mut Reader<'_>, side: CoatSide, name: &str, given: Option<&Vec<file::Coat>>| match given {
        _ if own.unpainted => Vec::new(),
        Some(coats) => {
            let one = |(i, coat)| self::coat(r, side, &format!("paint.{name}[{i}]"), (coat, own));
            coats.iter().enumerate().map(one).collect()
        }
        None => vec![usual(r, side, &mut loss)],
    };
    let mut coats = of(r, CoatSide::Inside, "inside_coats", own.inside_coats.as_ref());
    let outside = of(r, CoatSide::Outside, "coats", own.coats.as_ref());
    if coats.is_empty() {
        coats.push(usual(r, CoatSide::Frame, &mut loss));
    }
    coats.extend(outside);
    one_paint(r, &coats);
    let pretreat_hours_m2 = own.pretreatment.as_ref().and_then(|own| work(r, "paint.pretreatment.time", own.time));
    let pretreatment = own.pretreatment.as_ref().map(|own| named(r, "paint.pretreatment", &own.name, own.price));
    let plan = PaintPlan { coats, pretreatment, pretreat_hours_m2 };
    if let Some(own) = &own.pretreatment
        && plan.pretreated_faces() == 0
    {
        let problem = "nothing is painted that it would ready; leave it out, or write paint.coats";
        r.problems.push(Problem::contradiction("paint.pretreatment", &own.name, problem));
    }
    if file.shop.prime_time.is_some()
        && let Some((i, _)) = plan.on(CoatSide::Inside).enumerate().find(|(_, coat)| coat.hours_m2.is_some())
    {
        let (path, problem) =
            (format!("paint.inside_coats[{i}].time"), "shop.prime_time counts this work already; leave one out");
        let written = r.written(&path, "a time");
        r.problems.push(Problem::contradiction(path, written, problem));
    }
    if sheet.is_some_and(|s| s.family() == SkinFamily::Zinc) && plan.outside_um() > 0.0 {
        let source = "cited from memory; confirm against the standard before relying on it";
        r.list("rule set", "ISO 12944-5:2018, paint on hot-dip galvanized steel", source, Standing::Memory);
    }
    plan
}

/// What is put on where the plan says nothing: a coat of primer inside, one of topcoat outside.
fn usual(r: &mut Reader<'_>, side: CoatSide, loss: &mut Option<(f64, Standing)>) -> CoatPlan {
    let name = if side == CoatSide::Outside { "topcoat" } else { "primer" };
    let (film_mm, _) = r.fallback("", &format!("{name}_film"), FILM_MM, Kind::Length);
    let (solids, a) = r.fallback("", &format!("{name}_solids"), SOLIDS, Kind::Ratio);
    let (loss, b) = *loss.get_or_insert_with(|| r.fallback("", "primer_loss", LOSS, Kind::Ratio));
    let coat = Coat { film_um: 1000.0 * film_mm, solids, loss };
    CoatPlan {
        order: CoatOrder { name: name.to_owned(), side, coat },
        price: CoatPrice { path: "paint.coats".to_owned(), name: name.to_owned(), price: None },
        standing: a.with(b),
        note: "not in the plan: usual coat".to_owned(),
        hours_m2: None,
        dry_kg_m3: None,
    }
}

fn coat(r: &mut Reader<'_>, side: CoatSide, path: &str, (own, all): (&file::Coat, &file::Paint)) -> CoatPlan {
    let price = named(r, path, &own.name, own.price);
    let film_mm = r.length(&format!("{path}.film"), own.film, FILM_MM.0, FILM_MM.1);
    let row = r.catalogue.paint_coat(&own.name);
    let usual_um = row.map(|row| [row.least, row.most].map(|film| 1000.0 * film.mm()));
    let note = match usual_um {
        Some([least, most]) if !(least - 1e-9..=most + 1e-9).contains(&(1000.0 * film_mm)) => {
            format!("usual film {} to {} µm, from memory", significant(least), significant(most))
        }
        _ => String::new(),
    };
    let field = format!("{path}.solids");
    // Another coat of the same paint may say it.
    let mut same = all.coats.iter().chain(&all.inside_coats).flatten().filter(|other| other.name == own.name);
    let given = own.solids.or_else(|| same.find_map(|other| other.solids));
    let (solids, a) = match (given, row.and_then(|row| Some((row, row.solids?)))) {
        (Some(given), _) => (r.bound(&field, given.value(), SOLIDS.0, SOLIDS.1, Kind::Ratio), Standing::Given),
        (None, Some((row, solids))) => {
            r.list(&field, Kind::Ratio.print(solids.value()), &row.source, row.standing);
            (r.bound(&field, solids.value(), SOLIDS.0, SOLIDS.1, Kind::Ratio), row.standing)
        }
        (None, None) => {
            let fix = "write the solids by volume of its data sheet: solids = \"45 %\"";
            r.problems.push(Problem::missing(field, fix));
            (1.0, Standing::Assumed)
        }
    };
    let (loss, b) = lost(r, path, own);
    let dry = own.dry_density.map(|d| r.bound(&format!("{path}.dry_density"), d.kg_m3(), 500.0, 6000.0, Kind::Density));
    CoatPlan {
        order: CoatOrder { name: price.name.clone(), side, coat: Coat { film_um: 1000.0 * film_mm, solids, loss } },
        price,
        standing: a.with(b),
        note,
        hours_m2: work(r, &format!("{path}.time"), own.time),
        dry_kg_m3: dry,
    }
}

/// Paint that does not stay on the sheet.
fn lost(r: &mut Reader<'_>, path: &str, own: &file::Coat) -> (f64, Standing) {
    let (loss, method) = (format!("{path}.loss"), format!("{path}.method"));
    match (own.loss, &own.method) {
        (Some(_), Some(given)) => {
            r.problems.push(Problem::contradiction(method, given, "the loss is given; leave one of them out"));
            (0.0, Standing::Given)
        }
        (None, Some(given)) => by_row(r, &method, LossOf::Paint, given, LOSS),
        (given, None) => r.or_fallback(given.map(Ratio::value), &loss, "primer_loss", LOSS, Kind::Ratio),
    }
}

/// A loss of the catalogue: the greater end of its range, so that enough is bought.
fn by_row(r: &mut Reader<'_>, path: &str, of: LossOf, by: &str, (least, most): (f64, f64)) -> (f64, Standing) {
    let row = r.catalogue.application_loss(path, of, by);
    let Some(row) = r.keep(row) else { return (0.0, Standing::Assumed) };
    let value = r.bound(path, row.most.value(), least, most, Kind::Ratio);
    let percent = |share: Ratio| significant(100.0 * share.value());
    let told = format!("{by}: {} %, the most of {} to {} %", percent(row.most), percent(row.least), percent(row.most));
    r.list(path, told, &row.source, row.standing);
    (value, row.standing)
}

fn named(r: &mut Reader<'_>, path: &str, name: &str, price: Option<Price>) -> CoatPrice {
    let name = name.trim();
    if name.is_empty() {
        r.problems.push(Problem::missing(format!("{path}.name"), "say what it is: write name = \"epoxy primer\""));
    }
    CoatPrice { path: format!("{path}.price"), name: name.to_owned(), price }
}

fn work(r: &mut Reader<'_>, path: &str, given: Option<Duration>) -> Option<f64> {
    given.map(|time| r.bound(path, time.hours(), 0.0, 100.0, Kind::Duration))
}

/// One paint has one price and one share of solids, whatever it goes on.
fn one_paint(r: &mut Reader<'_>, coats: &[CoatPlan]) {
    for (i, coat) in coats.iter().enumerate() {
        let (name, solids) = (&coat.price.name, coat.order.coat.solids);
        let before = || coats.iter().take(i).filter(|other| other.price.name == *name);
        let prices = || before().filter_map(|other| other.price.price);
        if let Some(price) = coat.price.price
            && let Some(other) = prices().find(|other| *other != price)
        {
            let problem = format!("another coat of {name} costs {other}; one paint has one price");
            r.problems.push(Problem::contradiction(&coat.price.path, price, problem));
        }
        if let Some(other) = before().map(|other| other.order.coat.solids).find(|other| (other - solids).abs() > 1e-9) {
            let path = coat.price.path.replace(".price", ".solids");
            let other = Kind::Ratio.print(other);
            let problem = format!("another coat of {name} has {other}; one paint has one share of solids");
            let written = r.written(&path, &Kind::Ratio.print(solids));
            r.problems.push(Problem::contradiction(path, written, problem));
        }
    }
}

/// Sealant: what lies along the edges, its waste, and the content of a cartridge in litres.
pub(super) fn sealant(r: &mut Reader<'_>, file: &OfShop) -> (Option<Bead>, f64, Option<f64>) {
    let own = &file.paint;
    let edge = own.edge_bead.map(Length::mm).map(|mm| r.bound("paint.edge_bead", mm, 0.5, 50.0, Kind::Length));
    let waste = match (own.sealant_waste, &own.hand) {
        (Some(_), Some(hand)) => {
            let problem = "paint.sealant_waste is given; leave one of them out";
            r.problems.push(Problem::contradiction("paint.hand", hand, problem));
            0.0
        }
        (None, Some(hand)) => by_row(r, "paint.hand", LossOf::Sealant, hand, (0.0, 2.0)).0,
        // Without an entry the default goes by its own name, as other defaults of the takeoff do.
        (None, None) => r.fallback("", "sealant_waste", (0.0, 2.0), Kind::Ratio).0,
        (Some(waste), None) => r.bound("paint.sealant_waste", waste.value(), 0.0, 2.0, Kind::Ratio),
    };
    let content = own.cartridge.map(Volume::litres);
    let content = content.map(|litres| r.bound("paint.cartridge", litres, 0.01, 20.0, Kind::Volume));
    (edge.map(|leg_mm| Bead::Fillet { leg_mm }), waste, content)
}
