//! The functions `first_year_losses`, `layer_lives`, `losses_over_years` and `yearly_cost`.

use pyo3::prelude::*;

use crate::catalogue::{Catalogue, MetalLost};
use crate::error::{Problem, by_name};
use crate::mechanics::corrosion::{Climate, Layer, Rates, first_year, lives_by_reading, loss_range};
use crate::money::{MoneyError, Per, Price};
use crate::quantity::Kind;
use crate::shop::life_cost::{Spending, cost_per_year};
use crate::stop::look;

use rust_decimal::prelude::ToPrimitive as _;

use super::bulk::FloatsIn;
use super::input::{Arguments, Pair, Quantity, Real};

use super::interrupts::away;
use super::output::Columns;

/// First year's loss of steel, zinc, copper and aluminium in the climate of a place, by ISO 9223.
///
/// The dose-response functions of ISO 9223:2012 for an openly exposed plate; their coefficients are partly and their
/// uncertainty wholly from memory. Yearly means are asked for. Aluminium pits, so that its depth says little.
///
/// Args:
///     temperature: Air, ``"10 degC"``; -17.1 to 28.7 degC.
///     humidity: Relative, ``"75 %"``; 34 to 93 %.
///     so2: Sulphur dioxide that settles, ``"10 mg/m2/d"``; 0.7 to 150.4.
///     chloride: Chloride that settles, ``"3 mg/m2/d"``; 0.4 to 760.5.
///
/// Returns:
///     A row a metal: ``metal``, ``rate_um_a``, the parts of it by sulphur dioxide and chloride ``so2_um_a`` and
///     ``chloride_um_a``, ``alternative_um_a`` by the other form in circulation (zinc's chloride term; the range spans both),
///     the range ``low_um_a`` to ``high_um_a``, ``category`` of the rate (empty where it has none) and
///     ``standing``.
///
/// Raises:
///     InputError: A climate outside the range that the functions were fitted over.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> air = {"temperature": "10 degC", "humidity": "75 %", "so2": "10 mg/m2/d", "chloride": "3 mg/m2/d"}
///     >>> losses = rb.first_year_losses(**air)
///     >>> losses["metal"].tolist()[0], round(losses["rate_um_a"].tolist()[0], 2), losses["category"].tolist()[0]
///     ('steel', 29.84, 'C3')
#[pyfunction]
#[pyo3(signature = (*, temperature, humidity, so2, chloride))]
pub(super) fn first_year_losses(
    temperature: Quantity<'_>,
    humidity: Quantity<'_>,
    so2: Quantity<'_>,
    chloride: Quantity<'_>,
) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let climate = Climate {
        temperature_deg_c: given.quantity("temperature", Kind::Temperature, &temperature)?,
        humidity_percent: 100.0 * given.quantity("humidity", Kind::Ratio, &humidity)?,
        so2_mg_m2_d: given.quantity("so2", Kind::DepositionRate, &so2)?,
        chloride_mg_m2_d: given.quantity("chloride", Kind::DepositionRate, &chloride)?,
    };
    given.readable()?;
    climate.within("").map_err(|problems| given.refused(problems))?;
    let catalogue = Catalogue::standard()?;
    let mut rows = Vec::new();
    for metal in MetalLost::ALL {
        let loss = first_year(climate, metal).map_err(|problems| given.refused(problems))?;
        rows.push((metal, loss, catalogue.category_of(loss.rate_um_a, metal).unwrap_or_default()));
    }
    Ok(Columns::of(rows)
        .text("metal", |(metal, ..)| metal.words())
        .number("rate_um_a", |(_, loss, _)| loss.rate_um_a)
        .number("so2_um_a", |(_, loss, _)| loss.so2_um_a)
        .number("chloride_um_a", |(_, loss, _)| loss.chloride_um_a)
        .number("alternative_um_a", |(_, loss, _)| loss.alternative_um_a)
        .number("low_um_a", |(_, loss, _)| loss.range.low_um_a)
        .number("high_um_a", |(_, loss, _)| loss.range.high_um_a)
        .text("category", |(_, _, category)| *category)
        .text("standing", |(_, loss, _)| loss.standing.words())
        .done())
}

/// Rates given as a pair, or those of a category.
fn rates(given: &mut Arguments, category: Option<&str>, rate: Option<&Pair<'_>>, metal: MetalLost) -> PyResult<Rates> {
    match (category, rate) {
        (Some(category), None) => {
            let catalogue = Catalogue::standard()?;
            let row = catalogue.corrosivity("category", category, metal)?;
            Ok(Rates::from(row))
        }
        (None, Some(rate)) => {
            let [low_um_a, high_um_a] =
                given.pair("rate", [("low", Kind::LossRate), ("high", Kind::LossRate)], rate)?;
            Ok(Rates { low_um_a: Some(low_um_a), high_um_a })
        }
        (Some(category), Some(_)) => {
            let problem = "a rate is given too; give one of them";
            Err(Problem::contradiction("category", category, problem).into())
        }
        (None, None) => {
            let fix = "give category=\"C4\", or rate=(\"2.1 um/a\", \"4.2 um/a\")";
            Err(Problem::missing("category", fix).into())
        }
    }
}

/// Years until a layer of metal on one side is used up, by every reading of the standards.
///
/// ISO 9224:2012 with its mean exponent B1 and its cautious one B2, each along the tangent beyond 20 years (its text) and by
/// the power law throughout (its table); and thickness over rate, as ISO 14713-1 tabulates (from memory).
///
/// Args:
///     thickness: Of the layer as ordered, on one side: ``"19.2 um"``.
///     least: The thinner side that is still permitted; as ordered where left out.
///     category: Corrosivity category of ISO 9223, for its bounds.
///     rate: First year's loss, least and most, instead: ``("2.1 um/a", "4.2 um/a")``.
///     metal: ``"zinc"``, ``"steel"``, ``"copper"`` or ``"aluminium"``.
///
/// Returns:
///     A row a reading: ``reading``, ``shortest_years`` (least thickness at the greater rate) and ``longest_years``
///     (thickness as ordered at the lesser rate; not a number where nothing bounds it).
///
/// Raises:
///     InputError: An unknown metal or category, neither or both of category and rate, a thickness or rate that none has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> lives = rb.layer_lives(thickness="19.2 um", least="13.7 um", category="C3")
///     >>> lives["reading"].tolist()[0], round(lives["shortest_years"].tolist()[0], 1)
///     ('thickness over first-year rate', 6.5)
#[pyfunction]
#[pyo3(signature = (*, thickness, least = None, category = None, rate = None, metal = "zinc"))]
pub(super) fn layer_lives(
    thickness: Quantity<'_>,
    least: Option<Quantity<'_>>,
    category: Option<&str>,
    rate: Option<Pair<'_>>,
    metal: &str,
) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let nominal_um = 1000.0 * given.quantity("thickness", Kind::Length, &thickness)?;
    let least_um = given.optional("least", Kind::Length, least.as_ref())?.map_or(nominal_um, |mm| 1000.0 * mm);
    let metal = by_name("metal", "metal", metal, &MetalLost::ALL, MetalLost::words)?;
    let rates = rates(&mut given, category, rate.as_ref(), metal)?;
    given.readable()?;
    let lives = lives_by_reading(Layer { nominal_um, least_um }, rates, metal)
        .map_err(|problem| given.refused(vec![problem]))?;
    Ok(Columns::of(lives)
        .text("reading", |(reading, _)| reading.words())
        .number("shortest_years", |(_, years)| years.shortest_years)
        .number("longest_years", |(_, years)| years.longest_years)
        .done())
}

/// Between which losses on one side a metal may lie after some years, by all readings of ISO 9224 and thickness over rate.
///
/// Args:
///     years: Times in years.
///     category: Corrosivity category of ISO 9223, for its bounds.
///     rate: First year's loss, least and most, instead: ``("2.1 um/a", "4.2 um/a")``.
///     metal: ``"zinc"``, ``"steel"``, ``"copper"`` or ``"aluminium"``.
///
/// Returns:
///     A row a time: ``years``, ``least_um`` and ``most_um``.
///
/// Raises:
///     InputError: An unknown metal or category, neither or both of category and rate, a negative time.
///     QuantityError: A rate without a unit.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.losses_over_years([1, 10], category="C4", metal="steel")["most_um"].tolist()
///     [80.0, 800.0]
#[pyfunction]
#[pyo3(signature = (years, *, category = None, rate = None, metal = "zinc"))]
pub(super) fn losses_over_years(
    py: Python<'_>,
    years: FloatsIn<'_>,
    category: Option<&str>,
    rate: Option<Pair<'_>>,
    metal: &str,
) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let metal = by_name("metal", "metal", metal, &MetalLost::ALL, MetalLost::words)?;
    let rates = rates(&mut given, category, rate.as_ref(), metal)?;
    given.readable()?;
    let years = years.view();
    let loss = |&at: &f64| {
        look();
        loss_range(rates, at, metal).map(|loss| (at, loss))
    };
    let rows = away(py, || years.iter().map(loss).collect::<Result<Vec<_>, _>>())?;
    let rows = rows.map_err(|problem| given.refused(vec![problem]))?;
    Ok(Columns::of(rows)
        .number("years", |(at, _)| *at)
        .number("least_um", |(_, loss)| loss.least_um)
        .number("most_um", |(_, loss)| loss.most_um)
        .done())
}

/// The equivalent annual cost of putting something on now and renewing it each time its life ends.
///
/// Present worth of all spending, spread evenly by the capital recovery factor (A/P of engineering economics). What is left of
/// the last life at the end of the horizon is worth nothing here.
///
/// Args:
///     first: Paid at the start: ``"4200 USD"``.
///     renewal: Paid each time that a life ends, in today's money; as at the start where left out.
///     life_years: Life, years; None for one that outlasts the horizon.
///     horizon_years: Years that it is kept.
///     discount: Interest a year: ``"4 %"``; none where left out.
///
/// Returns:
///     One row: ``per_year`` in the currency of ``first``, ``currency``, ``renewals_count``.
///
/// Raises:
///     InputError: A price that cannot be read or is not a whole sum, two currencies, a life or horizon that is not above 0.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> cost = rb.yearly_cost(first="1000 USD", horizon_years=10, discount="8 %")
///     >>> round(cost["per_year"].tolist()[0], 2)
///     149.03
#[pyfunction]
#[pyo3(signature = (*, first, renewal = None, life_years = None, horizon_years, discount = None))]
pub(super) fn yearly_cost(
    first: &str,
    renewal: Option<&str>,
    life_years: Option<Real>,
    horizon_years: Real,
    discount: Option<Quantity<'_>>,
) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let discount = given.optional("discount", Kind::Ratio, discount.as_ref())?.unwrap_or(0.0);
    given.readable()?;
    let start = sum("first", first)?;
    let again = renewal.map_or(Ok(start), |renewal| sum("renewal", renewal))?;
    if again.money.currency != start.money.currency {
        let problem = format!("the first sum is in {}; use one currency", start.money.currency.code());
        return Err(Problem::contradiction("renewal", again, problem).into());
    }
    let amount = |price: Price| price.money.amount.to_f64().unwrap_or(f64::NAN);
    let spending = Spending { first: amount(start), renewal: amount(again), horizon_years: horizon_years.0, discount };
    let cost = cost_per_year(spending, life_years.map(|own| own.0)).map_err(|problem| given.refused(vec![problem]))?;
    Ok(Columns::of([cost])
        .number("per_year", |cost| cost.per_year)
        .text("currency", |_| start.money.currency.code())
        .number("renewals_count", |cost| f64::from(cost.renewals))
        .done())
}

/// A whole sum of money.
fn sum(field: &str, text: &str) -> PyResult<Price> {
    let unreadable = |problem: String| Problem::Unreadable { path: field.to_owned(), value: text.to_owned(), problem };
    let price: Price = text.parse().map_err(|error: MoneyError| unreadable(error.to_string()))?;
    if price.per != Per::Each {
        return Err(unreadable("a whole sum is asked for: \"4200 USD\"".to_owned()).into());
    }
    Ok(price)
}
