//! The classes `Quote` and `Odds`.

use numpy::{IntoPyArray, PyArray1};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};
use rust_decimal::prelude::ToPrimitive;

use crate::drawing::{letter, quote as drawn};
use crate::plan::Evaluation as Build;
use crate::shop::odds::{self as core, Cause, Shape};
use crate::shop::quote as priced;

use super::evaluation::Evaluation;
use super::input::{Real, whole};
use super::interrupts::away;
use super::output::{Columns, Dict, Many, Recipe};
use super::sweep::Progress;

/// A price for the job of a plan: lines, each traceable to its quantity; `Evaluation.quote` makes it. Cannot be changed.
///
/// Sums are exact decimals and come as text; tables give money as the nearest binary number.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> quote = rb.Plan.read("examples/mobile_library.toml").evaluate().quote
///     >>> quote.currency, quote.open_items
///     ('USD', ())
#[pyclass(frozen, module = "raisedbody")]
pub(super) struct Quote {
    build: Py<Evaluation>,
}

impl Quote {
    pub fn new(build: Py<Evaluation>) -> Self {
        Self { build }
    }

    fn core(&self) -> &Build {
        self.build.get().core()
    }

    fn quote(&self) -> Option<&priced::Quote> {
        self.core().quote.as_ref()
    }
}

#[pymethods]
impl Quote {
    /// A row for each line: name, stage, basis ("materials", "labour", "freight", "extra", "share"), priced_by (the entry of the
    /// price book, or the trade), quantity, unit, unit_price, amount, currency, from (where the quantity comes from), note (a
    /// break or a least charge that decided).
    #[getter]
    fn lines(&self) -> Columns {
        let lines = self.quote().map_or(&[][..], |q| &q.lines);
        Columns::of(lines)
            .text("name", |l| &l.name)
            .text("stage", |l| l.stage.words())
            .text("basis", |l| l.basis.words())
            .text("priced_by", |l| &l.priced_by)
            .number("quantity", |l| l.quantity.to_f64())
            .text("unit", |l| l.unit)
            .number("unit_price", |l| l.unit_price.to_f64())
            .number("amount", |l| l.amount.to_f64())
            .text("currency", |_| self.currency())
            .text("from", |l| &l.from)
            .text("note", |l| &l.note)
            .done()
    }

    /// A row for each stage: stage, cost (its lines before overhead and margin), price (with its share of them; all sum to the
    /// total without tax), currency.
    #[getter]
    fn stages(&self) -> Columns {
        let stages = self.core().offer.as_ref().map_or(&[][..], |offer| &offer.stages);
        Columns::of(stages)
            .text("stage", |s| s.stage.words())
            .number("cost", |s| s.cost.to_f64())
            .number("price", |s| s.price.to_f64())
            .text("currency", |_| self.currency())
            .done()
    }

    /// Sheets cut by the shop beside every blank bought cut to size: way, amount (sheets, sellers' cuts and own time at the
    /// shear, before overhead and margin), planned, currency; empty where there is no stock to cut from.
    #[getter]
    fn sheet_ways(&self) -> Columns {
        let ways = self.core().offer.as_ref().map_or(&[][..], |offer| &offer.sheet_ways);
        Columns::of(ways)
            .text("way", |w| &w.name)
            .number("amount", |w| w.amount.to_f64())
            .flag("planned", |w| w.planned)
            .text("currency", |_| self.currency())
            .done()
    }

    /// The sum of the lines, tax included, exact: ``"18250.40"``. Open items are not in it.
    #[getter]
    fn total(&self) -> String {
        self.quote().map_or_else(String::new, |q| q.total.to_string())
    }

    /// The tax in the total, exact.
    #[getter]
    fn tax(&self) -> String {
        self.quote().map_or_else(String::new, |q| q.tax().to_string())
    }

    /// The code of ISO 4217.
    #[getter]
    fn currency(&self) -> &'static str {
        self.quote().map_or("", |q| q.currency)
    }

    /// What has no price yet.
    #[getter]
    fn open_items(&self) -> Many<String> {
        Many(self.quote().map_or_else(Vec::new, |q| q.open_items.clone()))
    }

    /// What the price does not cover.
    #[getter]
    fn excluded(&self) -> Many<String> {
        Many(self.core().offer.as_ref().map_or_else(Vec::new, |offer| offer.excluded.clone()))
    }

    /// What whoever signs it should know first.
    #[getter]
    fn cautions(&self) -> Many<String> {
        Many(self.core().offer.as_ref().map_or_else(Vec::new, |offer| offer.cautions.clone()))
    }

    /// The last day on which the prices hold, year-month-day; None where it is not given.
    #[getter]
    fn valid_until(&self) -> Option<String> {
        self.core().offer.as_ref().and_then(|offer| offer.valid_until.clone())
    }

    /// That day is before the day of the quote.
    #[getter]
    fn expired(&self) -> bool {
        self.core().offer.as_ref().is_some_and(|offer| offer.expired)
    }

    /// The letter to the customer: a page of HTML that stands alone and prints on one sheet.
    fn letter(&self) -> String {
        letter::letter(self.core())
    }

    /// Draws the quote over and over, by what the plan's ``odds`` say may turn out otherwise. Other threads run meanwhile, and it can
    /// be interrupted.
    ///
    /// Every draw is the same for the same seed, however many cores work.
    ///
    /// Args:
    ///     draws: How many, 100 to 20 million.
    ///     seed: Where the random numbers start.
    ///     progress: Whether a long run shows on standard error how far it is; or a callable that is told how many are done and of
    ///         how many.
    ///
    /// Returns:
    ///     The odds.
    ///
    /// Raises:
    ///     InputError: The plan has no ``odds``, one names no line of the quote, or too few or too many draws.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> odds = rb.Plan.read("examples/mobile_library.toml").evaluate().quote.odds(draws=10_000)
    ///     >>> odds.price(0.5) < odds.price(0.9)
    ///     True
    #[pyo3(signature = (*, draws: "SupportsIndex" = 100_000, seed: "SupportsIndex" = 1, progress = None))]
    fn odds(
        slf: Py<Self>,
        py: Python<'_>,
        #[pyo3(from_py_with = whole)] draws: u32,
        #[pyo3(from_py_with = whole)] seed: u64,
        progress: Option<Progress>,
    ) -> PyResult<Odds> {
        let this = slf.get();
        let Some(quote) = this.quote() else {
            return Err(
                crate::error::Error::from(crate::error::Problem::missing("prices", "this plan has no prices")).into()
            );
        };
        let causes = &this.core().causes;
        let mut progress = progress.unwrap_or_default();
        let core = away(py, || {
            core::odds(quote, causes, (draws as usize, seed), |done, of| progress.tell("draws", done, of))
        })??;
        Ok(Odds { quote: slf, core })
    }

    /// The sums and all tables as plain values; None for what is not known.
    pub fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("total", self.total())?;
        dict.set_item("tax", self.tax())?;
        dict.set_item("currency", self.currency())?;
        dict.set_item("valid_until", self.valid_until())?;
        dict.set_item("expired", self.expired())?;
        dict.set_item("lines", self.lines().rows(py)?)?;
        dict.set_item("stages", self.stages().rows(py)?)?;
        dict.set_item("sheet_ways", self.sheet_ways().rows(py)?)?;
        dict.set_item("open_items", self.open_items())?;
        dict.set_item("excluded", self.excluded())?;
        dict.set_item("cautions", self.cautions())?;
        Ok(Dict(dict))
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| other.get().core() == self.core())
    }

    fn __repr__(&self) -> String {
        let total = self.quote().map_or_else(String::new, priced::Quote::total_text);
        format!("<Quote: {total}>")
    }

    fn __str__(&self) -> String {
        drawn::quote(self.core())
    }

    fn _repr_html_(&self) -> String {
        drawn::quote_html(self.core())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let call = py.import("operator")?.getattr("attrgetter")?.call1(("quote",))?;
        Ok(Recipe { call, with: PyTuple::new(py, [self.build.clone_ref(py)])? })
    }
}

/// A quote drawn many times over; `Quote.odds` makes it. Cannot be changed.
#[pyclass(frozen, module = "raisedbody")]
pub(super) struct Odds {
    quote: Py<Quote>,
    core: core::Odds,
}

/// Parameters of a shape, as they are written.
fn shape_words(shape: Shape) -> String {
    match shape {
        Shape::Triangular { least, likely, most } | Shape::Pert { least, likely, most } => {
            format!("{}: {least} to {most}, likeliest {likely}", shape.words())
        }
        Shape::Lognormal { low, high } => format!("{}: one in ten below {low}, one in ten above {high}", shape.words()),
    }
}

/// A row for each cause of a plan.
pub(super) fn causes(causes: &[Cause]) -> Columns {
    Columns::of(causes)
        .text("cause", |c| &c.name)
        .text("of", |c| c.of.join(", "))
        .flag("each", |c| c.each)
        .text("shape", |c| shape_words(c.shape))
        .number("mean", |c| c.shape.mean())
        .number("sd", |c| c.shape.sd())
        .number("p10", |c| c.shape.quantile(0.1))
        .number("p50", |c| c.shape.quantile(0.5))
        .number("p90", |c| c.shape.quantile(0.9))
        .done()
}

#[pymethods]
impl Odds {
    /// The total that holds in this share of all cases, exact: the least one that so many draws do not exceed, up to the smallest
    /// coin.
    ///
    /// Args:
    ///     share: More than 0 and less than 1: 0.8 for four cases in five.
    ///
    /// Returns:
    ///     The amount as text, without its currency.
    ///
    /// Raises:
    ///     InputError: The share is not between 0 and 1.
    #[pyo3(signature = (share, /))]
    fn price(&self, share: Real) -> PyResult<String> {
        Ok(self.core.price(share.0).map_err(crate::error::Error::from)?.to_string())
    }

    /// Hours of one person, all tasks, that suffice in this share of all cases.
    ///
    /// Args:
    ///     share: More than 0 and less than 1.
    ///
    /// Returns:
    ///     The hours.
    ///
    /// Raises:
    ///     InputError: The share is not between 0 and 1.
    #[pyo3(signature = (share, /))]
    fn hours_h(&self, share: Real) -> PyResult<f64> {
        Ok(self.core.hours_at(share.0).map_err(crate::error::Error::from)?)
    }

    /// A row for 10, 50, 80, 90 and 95 cases in a hundred: share, price, currency, hours_h.
    #[getter]
    fn quantiles(&self) -> Columns {
        Columns::of([0.1, 0.5, 0.8, 0.9, 0.95])
            .number("share", |&share| share)
            .number("price", |&share| self.core.price(share).ok().and_then(|price| price.to_f64()))
            .text("currency", |_| self.core.currency)
            .number("hours_h", |&share| self.core.hours_at(share).ok())
            .done()
    }

    /// What drives the spread, the most first: cause, lines_count, of_variance (the share of the price's variance that goes with it),
    /// swing (how much it moves the price from the case that one in ten is below to the one that one in ten is above, the others at
    /// their means), currency.
    #[getter]
    fn drivers(&self) -> Columns {
        Columns::of(&self.core.drivers)
            .text("cause", |d| &d.name)
            .count("lines_count", |d| d.lines)
            .number("of_variance", |d| d.of_variance)
            .number("swing", |d| d.swing)
            .text("currency", |_| self.core.currency)
            .done()
    }

    /// Every draw's total, from the least to the greatest, in `currency`.
    #[getter]
    fn totals<'py>(&self, py: Python<'py>) -> Bound<'py, PyArray1<f64>> {
        self.core.totals.clone().into_pyarray(py)
    }

    /// The share of all cases in which the quoted total suffices.
    #[getter]
    fn holds(&self) -> f64 {
        self.core.holds()
    }

    /// Mean of the totals, in `currency`.
    #[getter]
    fn mean(&self) -> f64 {
        self.core.mean
    }

    /// Standard deviation of the totals, in `currency`.
    #[getter]
    fn sd(&self) -> f64 {
        self.core.sd
    }

    /// The code of ISO 4217.
    #[getter]
    fn currency(&self) -> &'static str {
        self.core.currency
    }

    /// How many draws.
    #[getter]
    fn draws(&self) -> usize {
        self.core.totals.len()
    }

    /// Where the random numbers start.
    #[getter]
    fn seed(&self) -> u64 {
        self.core.seed
    }

    /// What has no price and is in no draw.
    #[getter]
    fn open_items(&self) -> Many<String> {
        Many(self.core.open_items.clone())
    }

    /// The sums and tables as plain values.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("draws", self.draws())?;
        dict.set_item("seed", self.seed())?;
        dict.set_item("currency", self.currency())?;
        dict.set_item("mean", self.mean())?;
        dict.set_item("sd", self.sd())?;
        dict.set_item("holds", self.holds())?;
        dict.set_item("quantiles", self.quantiles().rows(py)?)?;
        dict.set_item("drivers", self.drivers().rows(py)?)?;
        dict.set_item("open_items", self.open_items())?;
        Ok(Dict(dict))
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| other.get().core == self.core)
    }

    fn __repr__(&self) -> String {
        drawn::odds(&self.core)
    }

    fn _repr_html_(&self) -> String {
        drawn::odds_html(&self.core)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let kwargs = PyDict::new(py);
        kwargs.set_item("draws", self.draws())?;
        kwargs.set_item("seed", self.seed())?;
        Recipe::of_method(self.quote.bind(py), "odds", &kwargs)
    }
}
