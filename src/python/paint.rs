//! Spreading rates, films, sealant, durability of paint, zinc and paint together; the paint of a plan as tables.

use pyo3::prelude::*;
use rust_decimal::prelude::ToPrimitive;

use crate::catalogue::{Catalogue, LossOf};
use crate::error::{Error, Problem};
use crate::mechanics::paint as core;
use crate::mechanics::paint::{Bead, Coat, EDITION, FilmDurability};
use crate::plan::Evaluation;
use crate::quantity::{Kind, ft2_gal};

use super::input::{Arguments, Quantity, Real, Tuple};
use super::output::Columns;

/// The problems of several arguments that a function has none or too many of.
fn refused(problems: Vec<Problem>) -> PyErr {
    Error::Input(problems.into_iter().map(Into::into).collect()).into()
}

/// A coat by its film, solids and what is lost of it.
fn coat(
    film: &Quantity<'_>,
    solids: &Quantity<'_>,
    loss: Option<&Quantity<'_>>,
    transfer_efficiency: Option<&Quantity<'_>>,
    method: Option<&str>,
) -> PyResult<Coat> {
    let mut given = Arguments::default();
    let film_um = 1000.0 * given.quantity("film", Kind::Length, film)?;
    let solids = given.quantity("solids", Kind::Ratio, solids)?;
    let lost = given.optional("loss", Kind::Ratio, loss)?;
    let efficiency = given.optional("transfer_efficiency", Kind::Ratio, transfer_efficiency)?;
    given.readable()?;
    let ways = usize::from(lost.is_some()) + usize::from(efficiency.is_some()) + usize::from(method.is_some());
    if ways > 1 {
        let problem = "what is lost is told in one way: by loss, by transfer_efficiency or by method";
        return Err(refused(vec![Problem::contradiction("loss", "given twice", problem)]));
    }
    let loss = match method {
        Some(by) => Catalogue::standard()?.application_loss("method", LossOf::Paint, by)?.most.value(),
        None => lost.or(efficiency.map(|share| 1.0 - share)).unwrap_or(0.0),
    };
    let coat = Coat { film_um, solids, loss };
    let as_given = |problem: Problem| match efficiency {
        Some(share) if problem.path() == "loss" => {
            Problem::out_of_range("transfer_efficiency", format!("{} %", 100.0 * share), "5 to 100 %")
        }
        _ => problem,
    };
    coat.validate().map_err(|problems| given.refused(problems.into_iter().map(as_given).collect()))?;
    Ok(coat)
}

/// Area that a litre of paint covers, m2: 1000 · solids / film\[µm\] · (1 - loss).
///
/// Without a loss it is the theoretical rate of data sheets. The loss may be given itself, as the share that stays on the
/// sheet (transfer efficiency), or as the way of applying it, whose greatest loss in the catalogue is taken.
///
/// Args:
///     film: Dry film, such as ``"60 um"`` or ``"2 mil"``.
///     solids: Solids by volume, such as ``"45 %"``.
///     loss: Paint that does not stay on the sheet, such as ``"30 %"``.
///     transfer_efficiency: Paint that stays on it.
///     method: ``"conventional spray"``, ``"airless spray"``, ``"brush"`` or ``"roller"``.
///
/// Returns:
///     The rate, m2/L.
///
/// Raises:
///     InputError: A film, solids or loss that no coat has; an unknown method; a loss told in two ways.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.spreading_rate_m2_l("60 um", "45 %")
///     7.5
#[pyfunction]
#[pyo3(signature = (film, solids, *, loss = None, transfer_efficiency = None, method = None))]
pub(super) fn spreading_rate_m2_l(
    film: Quantity<'_>,
    solids: Quantity<'_>,
    loss: Option<Quantity<'_>>,
    transfer_efficiency: Option<Quantity<'_>>,
    method: Option<&str>,
) -> PyResult<f64> {
    Ok(coat(&film, &solids, loss.as_ref(), transfer_efficiency.as_ref(), method)?.practical_m2_l())
}

/// Area that a US gallon of paint covers, ft2: 1604 · solids / film\[mil\] · (1 - loss).
///
/// Args:
///     film: Dry film, such as ``"1.6 mil"``.
///     solids: Solids by volume, such as ``"42 %"``.
///     loss: Paint that does not stay on the sheet, such as ``"30 %"``.
///     transfer_efficiency: Paint that stays on it.
///     method: ``"conventional spray"``, ``"airless spray"``, ``"brush"`` or ``"roller"``.
///
/// Returns:
///     The rate, ft2/gal.
///
/// Raises:
///     InputError: A film, solids or loss that no coat has; an unknown method; a loss told in two ways.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> round(rb.spreading_rate_ft2_gal("1.6 mil", "42 %"))
///     421
#[pyfunction]
#[pyo3(signature = (film, solids, *, loss = None, transfer_efficiency = None, method = None))]
pub(super) fn spreading_rate_ft2_gal(
    film: Quantity<'_>,
    solids: Quantity<'_>,
    loss: Option<Quantity<'_>>,
    transfer_efficiency: Option<Quantity<'_>>,
    method: Option<&str>,
) -> PyResult<f64> {
    let coat = coat(&film, &solids, loss.as_ref(), transfer_efficiency.as_ref(), method)?;
    Ok(ft2_gal(coat.practical_m2_l()))
}

/// How thick a coat is put on, µm: dry film over solids.
///
/// Args:
///     film: Dry film, such as ``"60 um"``.
///     solids: Solids by volume, such as ``"45 %"``.
///
/// Returns:
///     The wet film, µm.
///
/// Raises:
///     InputError: A film or solids that no coat has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.wet_film_um("60 um", "50 %")
///     120.0
#[pyfunction]
#[pyo3(signature = (film, solids))]
pub(super) fn wet_film_um(film: Quantity<'_>, solids: Quantity<'_>) -> PyResult<f64> {
    Ok(coat(&film, &solids, None, None, None)?.wet_film_um())
}

/// Sealant for a bead, litres: its cross-section times its length, and what is wasted.
///
/// The bead is a rectangle (`width` and `depth`: w d), a fillet (`leg`: a²/2) or round (`diameter`: π d²/4). Waste is given
/// itself, or by the hand that lays it, whose greatest waste in the catalogue is taken.
///
/// Args:
///     length: How long the bead is.
///     width: Width of a rectangle.
///     depth: Its depth; in a lap the thickness of what is left there.
///     leg: Each leg of a fillet.
///     diameter: Of a round bead.
///     waste: Sealant bought beyond the bead, such as ``"12 %"``.
///     hand: ``"expert"``, ``"average"`` or ``"new"``.
///
/// Returns:
///     The sealant, litres.
///
/// Raises:
///     InputError: Not one whole bead; sizes that no bead has; a waste told in two ways; an unknown hand.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.sealant_volume_l("1 m", width="25 mm", depth="0.5 mm")  # 12.5 mL
///     0.0125
#[pyfunction]
#[pyo3(signature = (length, *, width = None, depth = None, leg = None, diameter = None, waste = None, hand = None))]
pub(super) fn sealant_volume_l(
    length: Quantity<'_>,
    width: Option<Quantity<'_>>,
    depth: Option<Quantity<'_>>,
    leg: Option<Quantity<'_>>,
    diameter: Option<Quantity<'_>>,
    waste: Option<Quantity<'_>>,
    hand: Option<&str>,
) -> PyResult<f64> {
    let mut given = Arguments::default();
    let length_m = given.quantity("length", Kind::Length, &length)? / 1000.0;
    let mut size = |name, own: Option<&Quantity<'_>>| given.optional(name, Kind::Length, own);
    let sizes = (
        size("width", width.as_ref())?,
        size("depth", depth.as_ref())?,
        size("leg", leg.as_ref())?,
        size("diameter", diameter.as_ref())?,
    );
    let wasted = given.optional("waste", Kind::Ratio, waste.as_ref())?;
    given.readable()?;
    let mut problems = Vec::new();
    let bead = match sizes {
        (Some(width_mm), Some(depth_mm), None, None) => Some(Bead::Rectangle { width_mm, depth_mm }),
        (None, None, Some(leg_mm), None) => Some(Bead::Fillet { leg_mm }),
        (None, None, None, Some(diameter_mm)) => Some(Bead::Round { diameter_mm }),
        _ => {
            let fix = "give width and depth of a rectangle, or the leg of a fillet, or the diameter of a round bead";
            problems.push(Problem::missing("bead", fix));
            None
        }
    };
    if !(0.0..=100_000.0).contains(&length_m) {
        problems.push(Problem::out_of_range("length", format!("{length_m} m"), "0 to 100000 m"));
    }
    let waste = match (wasted, hand) {
        (Some(_), Some(hand)) => {
            problems.push(Problem::contradiction("hand", hand, "waste is given; leave one of them out"));
            0.0
        }
        (None, Some(hand)) => match Catalogue::standard()?.application_loss("hand", LossOf::Sealant, hand) {
            Ok(row) => row.most.value(),
            Err(problem) => {
                problems.push(problem);
                0.0
            }
        },
        (wasted, None) => wasted.unwrap_or(0.0),
    };
    if !(0.0..=2.0).contains(&waste) {
        problems.push(Problem::out_of_range("waste", format!("{} %", 100.0 * waste), "0 to 200 %"));
    }
    problems.extend(bead.and_then(|bead| bead.validate().err()).unwrap_or_default());
    match bead.filter(|_| problems.is_empty()) {
        Some(bead) => Ok(bead.litres(length_m, waste)),
        None => Err(given.refused(problems)),
    }
}

/// Whole cartridges that hold so much sealant.
///
/// Args:
///     sealant: The sealant, waste included, such as ``"2.4 L"``.
///     content: Content of a cartridge: ``"310 mL"``, ``"10.1 fl oz"``.
///
/// Returns:
///     How many to buy.
///
/// Raises:
///     InputError: Sealant below nought; a content outside 10 mL to 20 L.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.cartridges_count("2.4 L", "310 mL")
///     8
#[pyfunction]
#[pyo3(signature = (sealant, content))]
pub(super) fn cartridges_count(sealant: Quantity<'_>, content: Quantity<'_>) -> PyResult<u32> {
    let mut given = Arguments::default();
    let sealant_l = given.quantity("sealant", Kind::Volume, &sealant)?;
    let content_l = given.quantity("content", Kind::Volume, &content)?;
    given.readable()?;
    core::cartridges(sealant_l, content_l).map_err(|problems| given.refused(problems))
}

/// How long a paint system on hot-dip galvanized steel lasts to its first major maintenance, by its total dry film.
///
/// ISO 12944-5 lists films by category and class of durability (from memory). Between two films the lower class holds; a
/// thinner film is "below the lowest" and a category that is not listed, C1 or CX, "not tabulated": no number is worked out.
/// The same word has stood for different years in the editions of ISO 12944-1; the first row is that of 2018, which is used.
/// None is a guarantee time.
///
/// Args:
///     category: Corrosivity category, ``"C1"`` to ``"C5"`` or ``"CX"``.
///     film: Dry film of all coats together, such as ``"120 um"``.
///
/// Returns:
///     A row for each edition: edition, durability, from_years, to_years (NaN where open), source, standing.
///
/// Raises:
///     InputError: An unknown category; a film that no system has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> table = rb.paint_durability("C4", "130 um")
///     >>> [(str(band), float(to)) for band, to in zip(table["durability"], table["to_years"])]
///     [('medium', 15.0), ('medium', 15.0)]
#[pyfunction]
#[pyo3(signature = (category, film))]
pub(super) fn paint_durability(category: &str, film: Quantity<'_>) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let film_um = 1000.0 * given.quantity("film", Kind::Length, &film)?;
    given.readable()?;
    let catalogue = Catalogue::standard()?;
    let found = core::film_durability(&catalogue, category, film_um).map_err(|problems| given.refused(problems))?;
    let rows = [EDITION, 1998].map(|edition| (edition, found.class().and_then(|c| catalogue.durability(edition, c))));
    let system = core::system(&catalogue, category);
    Ok(Columns::of(rows)
        .number("edition", |(edition, _)| f64::from(*edition))
        .text("durability", |(_, row)| match (found, row) {
            (FilmDurability::Class(_), None) => "no such class",
            (found, _) => found.words(),
        })
        .number("from_years", |(_, row)| row.and_then(|row| row.from_years))
        .number("to_years", |(_, row)| row.and_then(|row| row.to_years))
        .text("source", |(_, row)| {
            let film = system.map(|row| row.source.as_str());
            film.into_iter().chain(row.map(|row| row.source.as_str())).collect::<Vec<_>>().join("; ")
        })
        .text("standing", |(_, row)| {
            let known = [system.map(|row| row.standing), row.map(|row| row.standing)];
            known.into_iter().flatten().reduce(crate::check::Standing::with).map_or("", crate::check::Standing::words)
        })
        .done())
}

/// How long zinc and the paint on it last together, years: k times the sum of both.
///
/// What decides for a vehicle is a judgement: k 1.5 in C5 and CX, 1.5 to 2.0 in the milder categories. The ranges that sources
/// give differ and stand beside it. A layer that may be gone at once keeps nothing from the other.
///
/// Args:
///     zinc_years: Shortest and longest life of the zinc alone; None for a longest without bound.
///     paint_years: The same of the paint alone.
///     category: Corrosivity category, ``"C1"`` to ``"C5"`` or ``"CX"``.
///
/// Returns:
///     A row for each range of k, the one that decides first: name, decides, k_low, k_high, shortest_years, longest_years
///     (NaN without bound), source, standing.
///
/// Raises:
///     InputError: An unknown category; years below nought; a longest life below the shortest.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> life = rb.duplex_life((40, 40), (10, 10), "C5")
///     >>> float(life["shortest_years"][0]), float(life["longest_years"][0])
///     (75.0, 75.0)
#[pyfunction]
#[pyo3(signature = (zinc_years, paint_years, category))]
pub(super) fn duplex_life(
    zinc_years: Tuple<(Real, Option<Real>)>,
    paint_years: Tuple<(Real, Option<Real>)>,
    category: &str,
) -> PyResult<Columns> {
    let plain = |Tuple((shortest, longest)): Tuple<(Real, Option<Real>)>| (shortest.0, longest.map(|own| own.0));
    let own = |problem: Problem| match problem.path() {
        "zinc" => problem.with_path("zinc_years"),
        "paint" => problem.with_path("paint_years"),
        _ => problem,
    };
    let life = core::duplex_life(plain(zinc_years), plain(paint_years), category).map_err(own)?;
    let rows = std::iter::once(&life.vehicle).chain(&life.sources).enumerate();
    Ok(Columns::of(rows)
        .text("name", |(_, row)| &row.name)
        .flag("decides", |(i, _)| *i == 0)
        .number("k_low", |(_, row)| row.k.0)
        .number("k_high", |(_, row)| row.k.1)
        .number("shortest_years", |(_, row)| row.shortest_years)
        .number("longest_years", |(_, row)| row.longest_years)
        .text("source", |(_, row)| &row.source)
        .text("standing", |(_, row)| row.standing.words())
        .done())
}

/// A row for each coat.
pub(super) fn coats(e: &Evaluation) -> Columns {
    Columns::of(&e.paint.coats)
        .text("coat", |c| &c.takeoff.name)
        .text("side", |c| c.takeoff.side.words())
        .number("area_m2", |c| c.takeoff.area_m2)
        .number("film_um", |c| c.takeoff.coat.film_um)
        .number("wet_film_um", |c| c.takeoff.coat.wet_film_um())
        .number("solids_ratio", |c| c.takeoff.coat.solids)
        .number("loss_ratio", |c| c.takeoff.coat.loss)
        .number("theoretical_m2_l", |c| c.takeoff.coat.theoretical_m2_l())
        .number("practical_m2_l", |c| c.takeoff.coat.practical_m2_l())
        .number("paint_l", |c| c.takeoff.paint_l)
        .number("unit_price", |c| c.price.and_then(|price| price.money.amount.to_f64()))
        .number("amount", |c| c.amount.and_then(|amount| amount.amount.to_f64()))
        .text("currency", |c| c.amount.map_or("", |amount| amount.currency.code()))
        .text("standing", |c| c.standing.words())
        .text("note", |c| &c.note)
        .done()
}

/// A row for each zone.
pub(super) fn outlook(e: &Evaluation) -> Columns {
    Columns::of(&e.paint.outlook)
        .text("zone", |o| o.zone)
        .text("category", |o| &o.category)
        .number("film_um", |o| o.film_um)
        .text("durability", |o| o.durability.map_or("not assessed", FilmDurability::words))
        .number("from_years", |o| o.years.0)
        .number("to_years", |o| o.years.1)
        .number("from_years_1998", |o| o.years_1998.0)
        .number("to_years_1998", |o| o.years_1998.1)
        .text("standing", |o| o.standing.words())
        .text("note", |o| &o.note)
        .done()
}
