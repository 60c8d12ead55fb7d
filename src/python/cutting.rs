//! The classes `SheetCuts`, `BarCuts` and `CutList`.

use std::time::{Duration, Instant};

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyList};
use rust_decimal::prelude::ToPrimitive as _;
use toml::Table;

use crate::drawing::{cut_list as view, cut_sheet, html};
use crate::error::Problem;
use crate::money::Money;
use crate::plan::{self, BarCard, Purchase, SheetCard};
use crate::quantity::Kind;
use crate::shop::cutting::bar_faults::bar_faults;
use crate::shop::cutting::sheet_faults::sheet_faults;
use crate::shop::cutting::sheets::Line;
use crate::shop::cutting::steps::{step_faults, steps};

use super::drawing::Drawing;
use super::evaluation::part_of;
use super::input::{Arguments, Entries, Quantity, Several, Whole, keywords};
use super::interrupts::away;
use super::joint::{given, rebuilt};
use super::output::{Columns, Dict, Many, Recipe, dictionary};
use super::plan::Plan;

/// What it was made from.
#[derive(Clone, PartialEq)]
enum Origin {
    /// A plan, and the attribute of its evaluation.
    Plan(Box<Plan>, &'static str),
    /// Rows of its own.
    Rows(Table),
}

impl Origin {
    fn recipe<'py>(&self, py: Python<'py>, class: &Bound<'py, PyAny>) -> PyResult<Recipe<'py>> {
        match self {
            Self::Plan(plan, attribute) => part_of(py, plan, attribute),
            Self::Rows(rows) => rebuilt(py, class, dictionary(py, rows)?),
        }
    }
}

/// Goes on until the time is up or the user interrupts: the search then gives the best plan so far.
fn watch(limit: Option<&Quantity<'_>>) -> PyResult<impl Fn() -> bool + Send + Sync + use<>> {
    let mut given = Arguments::default();
    let hours = given.optional("time_limit", Kind::Duration, limit)?;
    given.readable()?;
    if let Some(bad) = hours.filter(|hours| !(0.0..=24.0).contains(hours)) {
        let value = Kind::Duration.print(bad);
        return Err(given.refused(vec![Problem::out_of_range("time_limit", value, "0 s to 24 h")]));
    }
    let until = hours.map(|hours| Instant::now() + Duration::from_secs_f64(hours * 3600.0));
    Ok(move || until.is_none_or(|until| Instant::now() < until) && Python::attach(|py| py.check_signals().is_ok()))
}

fn purchases(all: Vec<Purchase>) -> Columns {
    Columns::of(all)
        .text("item", |own| own.item.clone())
        .text("supplier", |own| own.supplier.clone().unwrap_or_default())
        .number("count", |own| f64::from(own.count))
        .text("unit", |own| own.unit)
        .number("price", |own| own.price.and_then(|price| price.to_f64()))
        .done()
}

/// Pieces cut from whole sheets by cuts from edge to edge, at the least price that is found, with a proven bound below which no
/// plan can lie. Cannot be changed.
///
/// The search takes the same steps on every machine and ends by itself; interrupted, or at its time limit, it gives the best
/// plan so far. Of equal prices it prefers fewer sheets, then fewer ways of cutting, then the largest rest worth keeping; only
/// the price is proved.
///
/// Args:
///     sheets: Whole sheets, each a mapping as in a plan's ``cutting.sheets``: `length` (the way of the grain), `width`,
///         `price`, and where wanted `count`, `supplier`, `cut` (the seller's charge for a cut), `mill_edge`, `end_trim`.
///     blanks: What is needed, each a mapping: `name`, `length` (along the sheet), `width`, and where wanted `count`,
///         `may_turn`, `price` (cut to size by a supplier, who keeps the waste).
///     shear: What cuts in the shop, a mapping as in a plan's ``cutting.shear``: `longest_cut`, `cut_time`, and where wanted
///         `throat`, `kerf`, `stages`, `first_cut`.
///     keep: Least rest worth keeping: `length` and `width`.
///     labour: Price of an hour of one person, by which cuts in the shop are reckoned, such as ``"85 USD/h"``; without it they
///         cost nothing.
///     units: ``"inches"`` or ``"metric"`` (also where left out): how lengths are printed.
///     time_limit: Stops the search, such as ``"10 s"``; what it has found then may differ from one run to the next.
///
/// Raises:
///     InputError: Entries that cannot be used; a blank larger than every sheet; sheets that run out.
///     QuantityError: A time limit without a unit.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> cuts = rb.SheetCuts(
///     ...     sheets=[
///     ...         {"length": "8 ft", "width": "4 ft", "price": "58 USD"},
///     ...         {"length": "10 ft", "width": "4 ft", "price": "71 USD"},
///     ...     ],
///     ...     blanks=[{"name": "panel", "length": "57 in", "width": "15 in", "count": 9}],
///     ...     shear={"longest_cut": "10 ft", "cut_time": "3 min"},
///     ... )
///     >>> cuts.price, cuts.is_proven, cuts.sheets["times"].tolist()
///     ('129.00 USD', True, [1.0, 1.0])
///     >>> cuts.faults()
///     ()
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct SheetCuts {
    origin: Origin,
    core: plan::SheetCuts,
}

#[pymethods]
impl SheetCuts {
    #[new]
    #[pyo3(signature = (*, sheets, blanks, shear = None, keep = None, labour = None, units = None, time_limit = None))]
    #[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
    fn new(
        py: Python<'_>,
        sheets: Several<Entries<'_>>,
        blanks: Several<Entries<'_>>,
        shear: Option<Entries<'_>>,
        keep: Option<Entries<'_>>,
        labour: Option<String>,
        units: Option<String>,
        time_limit: Option<Quantity<'_>>,
    ) -> PyResult<Self> {
        let go_on = watch(time_limit.as_ref())?;
        let rows = given!(
            py,
            "sheets" = Some(sheets.0.into_iter().map(Entries::into_any).collect::<Vec<_>>()),
            "blanks" = Some(blanks.0.into_iter().map(Entries::into_any).collect::<Vec<_>>()),
            "shear" = shear.map(Entries::into_any),
            "keep" = keep.map(Entries::into_any),
            "labour" = labour,
            "units" = units,
        );
        let rows = keywords(&rows)?;
        let core = away(py, || plan::sheet_cuts(&rows, &go_on))??;
        Ok(Self { origin: Origin::Rows(rows), core })
    }

    /// Price of sheets, cuts and blanks bought cut to size, exact, with its currency.
    #[getter]
    fn price(&self) -> String {
        Money::from_coins(self.core.plan.price_coins, self.core.currency).to_string()
    }

    /// No plan costs less than this: proved in whole coins.
    #[getter]
    fn lower_bound(&self) -> String {
        Money::from_coins(self.core.plan.bound_coins, self.core.currency).to_string()
    }

    /// How far the price lies above the bound, in parts of the bound; None where the bound is nought and the price is not.
    #[getter]
    fn gap_ratio(&self) -> Option<f64> {
        self.core.plan.gap_ratio()
    }

    /// No plan can cost less.
    #[getter]
    fn is_proven(&self) -> bool {
        self.core.plan.is_proven()
    }

    /// Sheets that are cut alike, a row each: first (number of the first, counted from 1), times, size, supplier, cut_by,
    /// price (of one sheet), pieces, used_ratio (share of the sheet that becomes pieces).
    #[getter]
    fn sheets(&self) -> Columns {
        let source = |card: &SheetCard| self.core.sources.get(card.source);
        let names = |card: &SheetCard| {
            let named = card.places.iter().filter(|own| !own.names.is_empty()).map(|own| own.names.join(" / "));
            named.collect::<Vec<_>>().join("; ")
        };
        Columns::of(self.core.cards())
            .number("first", |card| f64::from(card.first))
            .number("times", |card| f64::from(card.times))
            .text("size", |card| source(card).map_or_else(String::new, |own| own.size.clone()))
            .text("supplier", |card| source(card).and_then(|own| own.supplier.clone()).unwrap_or_default())
            .text("cut_by", |card| source(card).map_or("", |own| own.cut_by.words()))
            .number("price", |card| source(card)?.price?.to_f64())
            .text("pieces", names)
            .number("used_ratio", |card| card.used_share)
            .done()
    }

    /// Where each piece and each rest lies on its sheet, from the start and the lower edge inside trimmed edges: first (its
    /// sheet), name (empty for a rest; one name for each of the sheets cut alike), along_mm, up_mm, length_mm, width_mm, turned,
    /// kept.
    #[getter]
    fn places(&self) -> Columns {
        let cards = self.core.cards();
        let all = cards.iter().flat_map(|card| card.places.iter().map(move |place| (card.first, place)));
        let mm = |tenths: i64| tenths as f64 / 10.0;
        Columns::of(all)
            .number("first", |(first, _)| f64::from(*first))
            .text("name", |(_, own)| own.names.join(" / "))
            .number("along_mm", |(_, own)| mm(own.rect.along_tenths))
            .number("up_mm", |(_, own)| mm(own.rect.up_tenths))
            .number("length_mm", |(_, own)| mm(own.rect.length_tenths))
            .number("width_mm", |(_, own)| mm(own.rect.width_tenths))
            .flag("turned", |(_, own)| own.turned)
            .flag("kept", |(_, own)| own.kept)
            .done()
    }

    /// Every cut in order: first (its sheet), cut (counted from 1), part (empty for the sheet), line (``"along"`` or
    /// ``"across"``), stop_mm (size of what comes off), length_mm (of the cut), words (with the stop as the shop reads it).
    #[getter]
    fn cuts(&self) -> Columns {
        let cards = self.core.cards();
        let all = cards.iter().flat_map(|card| card.steps.iter().enumerate().map(move |(i, own)| (card.first, i, own)));
        Columns::of(all)
            .number("first", |(first, ..)| f64::from(*first))
            .count("cut", |(_, i, _)| i + 1)
            .text("part", |(.., own)| &own.step.part)
            .text("line", |(.., own)| if own.step.line == Line::Along { "along" } else { "across" })
            .number("stop_mm", |(.., own)| own.step.stop_tenths as f64 / 10.0)
            .number("length_mm", |(.., own)| own.step.length_tenths as f64 / 10.0)
            .text("words", |(.., own)| &own.words)
            .done()
    }

    /// What to buy, or to take from the shop: item, supplier (empty for the shop), count, unit, price (of one).
    #[getter]
    fn purchases(&self) -> Columns {
        purchases(self.core.purchases())
    }

    /// Blanks that are bought cut to size.
    #[getter]
    fn bought(&self) -> Many<String> {
        Many(self.core.bought_names().into_iter().map(str::to_owned).collect())
    }

    /// Rests worth keeping, as rows of stock for the next job's `sheets`, largest first.
    #[getter]
    fn remnants<'py>(&self, py: Python<'py>) -> PyResult<Many<Dict<'py>>> {
        let row = |(_, length_mm, width_mm): (u32, f64, f64)| {
            let dict = PyDict::new(py);
            dict.set_item("length", format!("{length_mm:.1} mm"))?;
            dict.set_item("width", format!("{width_mm:.1} mm"))?;
            dict.set_item("price", format!("0 {}", self.core.currency.code()))?;
            dict.set_item("count", 1)?;
            Ok(Dict(dict))
        };
        Ok(Many(self.core.remnants().into_iter().map(row).collect::<PyResult<_>>()?))
    }

    /// Sheets of the list that the shop does not cut, each with why; what the list does not look at.
    #[getter]
    fn notes(&self) -> Many<String> {
        Many(self.core.notes.clone())
    }

    /// What a checker finds that knows nothing of the search: sizes, places, overlaps, cuts from edge to edge and their order,
    /// machine, stages, demand, stock, price. Nothing where all is right.
    fn faults(&self) -> Many<String> {
        let mut all = sheet_faults(&self.core.job, &self.core.plan);
        for pattern in &self.core.plan.patterns {
            let Some(stock) = self.core.job.stock.get(pattern.stock) else { continue };
            let cuts = steps(stock, self.core.job.kerf_tenths, pattern);
            all.extend(step_faults(&self.core.job, pattern, &cuts));
        }
        Many(all)
    }

    /// A row of `sheets` as SVG.
    ///
    /// Args:
    ///     row: Its place in `sheets`, counted from 0.
    ///
    /// Returns:
    ///     The drawing; it shows itself in a notebook.
    ///
    /// Raises:
    ///     InputError: There is no such row.
    #[pyo3(signature = (row, /))]
    fn drawing(&self, row: Whole<i64>) -> PyResult<Drawing> {
        let row = row.0;
        let cards = self.core.cards();
        let card = usize::try_from(row).ok().and_then(|row| cards.get(row));
        let card = card.ok_or_else(|| {
            let allowed = format!("0 to {}", cards.len().saturating_sub(1));
            Arguments::default().refused(vec![Problem::out_of_range("row", row, allowed)])
        })?;
        Ok(Drawing::new(card.title(), card.title(), cut_sheet(&self.core, card), None))
    }

    /// Numbers and tables as plain values; None for what is not known.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in ["price", "lower_bound", "gap_ratio", "is_proven", "bought", "notes"] {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        dict.set_item("remnants", PyList::new(py, own.remnants(py)?.0)?)?;
        for (name, columns) in
            [("sheets", own.sheets()), ("places", own.places()), ("cuts", own.cuts()), ("purchases", own.purchases())]
        {
            dict.set_item(name, columns.rows(py)?)?;
        }
        Ok(Dict(dict))
    }

    fn __str__(&self) -> String {
        view::sheets_text(&self.core)
    }

    fn __repr__(&self) -> String {
        let sheets: u32 = self.core.plan.patterns.iter().map(|own| own.times).sum();
        let proven = if self.is_proven() { ", proven best" } else { "" };
        format!("<SheetCuts of {sheets} sheets: {}{proven}>", self.price())
    }

    fn _repr_html_(&self) -> String {
        html::sheet_cuts(&self.core)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        slf.get().origin.recipe(slf.py(), slf.get_type().as_any())
    }
}

/// Pieces cut from bars at the least price that is found, with a proven bound below which no plan can lie. Cannot be changed.
///
/// A piece longer than every bar is joined from whole bars and a rest. The search takes the same steps on every machine and
/// ends by itself; interrupted, or at its time limit, it gives the best plan so far.
///
/// Args:
///     bars: Bars, each a mapping as in a plan's ``cutting.tube_bars``: `length`, `price`, and where wanted `count`, `supplier`,
///         `cut` (the seller's charge for a cut), `end_trim`.
///     pieces: What is needed, each a mapping: `name`, `length` (by the long points where ends are mitred), and where wanted
///         `count` and `mitre` (the steeper of both, from a square cut).
///     saw: A mapping as in a plan's ``cutting.saw``: `kerf`, `cut_time`.
///     labour: Price of an hour of one person: the seller cuts where his charge is below the shop's own time.
///     units: ``"inches"`` or ``"metric"`` (also where left out): how lengths are printed.
///     time_limit: Stops the search, such as ``"10 s"``; what it has found then may differ from one run to the next.
///
/// Raises:
///     InputError: Entries that cannot be used; bars that run out.
///     QuantityError: A time limit without a unit.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> cuts = rb.BarCuts(
///     ...     bars=[{"length": "20 ft", "price": "44 USD"}, {"length": "24 ft", "price": "52 USD"}],
///     ...     pieces=[{"name": "post", "length": "7 ft 10 in", "count": 6}],
///     ...     saw={"kerf": "2 mm"},
///     ... )
///     >>> cuts.price, cuts.bars["size"].tolist(), cuts.bars["times"].tolist()
///     ('104.00 USD', ['7315.2 mm (288 in)'], [2.0])
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct BarCuts {
    origin: Origin,
    core: plan::BarCuts,
}

#[pymethods]
impl BarCuts {
    #[new]
    #[pyo3(signature = (*, bars, pieces, saw = None, labour = None, units = None, time_limit = None))]
    fn new(
        py: Python<'_>,
        bars: Several<Entries<'_>>,
        pieces: Several<Entries<'_>>,
        saw: Option<Entries<'_>>,
        labour: Option<String>,
        units: Option<String>,
        time_limit: Option<Quantity<'_>>,
    ) -> PyResult<Self> {
        let go_on = watch(time_limit.as_ref())?;
        let rows = given!(
            py,
            "bars" = Some(bars.0.into_iter().map(Entries::into_any).collect::<Vec<_>>()),
            "pieces" = Some(pieces.0.into_iter().map(Entries::into_any).collect::<Vec<_>>()),
            "saw" = saw.map(Entries::into_any),
            "labour" = labour,
            "units" = units,
        );
        let rows = keywords(&rows)?;
        let core = away(py, || plan::bar_cuts(&rows, &go_on))??;
        Ok(Self { origin: Origin::Rows(rows), core })
    }

    /// Price of the bars, exact, with its currency; a number of bars where they have no prices.
    #[getter]
    fn price(&self) -> String {
        view::bar_worth(&self.core, self.core.plan.price_coins)
    }

    /// No plan costs less than this: proved in whole coins.
    #[getter]
    fn lower_bound(&self) -> String {
        view::bar_worth(&self.core, self.core.plan.bound_coins)
    }

    /// How far the price lies above the bound, in parts of the bound; None where the bound is nought and the price is not.
    #[getter]
    fn gap_ratio(&self) -> Option<f64> {
        self.core.plan.gap_ratio()
    }

    /// No plan can cost less.
    #[getter]
    fn is_proven(&self) -> bool {
        self.core.plan.is_proven()
    }

    /// Bars that are cut alike, a row each: first (number of the first, counted from 1), times, size, supplier, cut_by, price
    /// (of one), pieces (in the order of cutting), rest_mm (left over behind the last cut).
    #[getter]
    fn bars(&self) -> Columns {
        let source = |card: &BarCard| self.core.sources.get(card.source);
        let names = |card: &BarCard| card.pieces.iter().map(|own| own.1.join(" / ")).collect::<Vec<_>>().join("; ");
        Columns::of(self.core.cards())
            .number("first", |card| f64::from(card.first))
            .number("times", |card| f64::from(card.times))
            .text("size", |card| source(card).map_or_else(String::new, |own| own.size.clone()))
            .text("supplier", |card| source(card).and_then(|own| own.supplier.clone()).unwrap_or_default())
            .text("cut_by", |card| source(card).map_or("", |own| own.cut_by.words()))
            .number("price", |card| source(card)?.price?.to_f64())
            .text("pieces", names)
            .number("rest_mm", |card| card.rest_mm)
            .done()
    }

    /// What to buy, or to take from the shop: item, supplier (empty for the shop), count, unit, price (of one).
    #[getter]
    fn purchases(&self) -> Columns {
        purchases(self.core.purchases("bar"))
    }

    /// What a checker finds that knows nothing of the search: lengths, kerfs, demand, stock, price. Nothing where all is right.
    fn faults(&self) -> Many<String> {
        Many(bar_faults(&self.core.job, &self.core.plan))
    }

    /// Numbers and tables as plain values; None for what is not known.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in ["price", "lower_bound", "gap_ratio", "is_proven"] {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        for (name, columns) in [("bars", own.bars()), ("purchases", own.purchases())] {
            dict.set_item(name, columns.rows(py)?)?;
        }
        Ok(Dict(dict))
    }

    fn __str__(&self) -> String {
        view::bars_text(&self.core)
    }

    fn __repr__(&self) -> String {
        let proven = if self.is_proven() { ", proven best" } else { "" };
        format!("<BarCuts of {} bars: {}{proven}>", self.core.bars(), self.price())
    }

    fn _repr_html_(&self) -> String {
        html::bar_cuts(&self.core)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        slf.get().origin.recipe(slf.py(), slf.get_type().as_any())
    }
}

/// What is cut from which sheet and bar; `Evaluation.cut_list` holds it. Cannot be changed.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> cut = rb.Plan.read("examples/mobile_library.toml").evaluate().cut_list
///     >>> cut.inserts.is_proven, cut.sheets.faults()
///     (True, ())
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct CutList {
    plan: Plan,
    core: plan::CutList,
}

impl CutList {
    pub fn new(plan: Plan, core: plan::CutList) -> Self {
        Self { plan, core }
    }

    fn bars_of(&self, own: Option<&plan::BarCuts>, attribute: &'static str) -> Option<BarCuts> {
        let origin = Origin::Plan(self.plan.clone().into(), attribute);
        own.map(|core| BarCuts { origin, core: core.clone() })
    }
}

#[pymethods]
impl CutList {
    /// The skin's sheets; None where the plan lists no sheets: then a supplier cuts each blank to size.
    #[getter]
    fn sheets(&self) -> Option<SheetCuts> {
        let origin = Origin::Plan(self.plan.clone().into(), "cut_list.sheets");
        self.core.sheets.clone().map(|core| SheetCuts { origin, core })
    }

    /// Bars for the pieces that lengthen the posts; None where there are none.
    #[getter]
    fn inserts(&self) -> Option<BarCuts> {
        self.bars_of(self.core.inserts.as_ref(), "cut_list.inserts")
    }

    /// Bars of tube behind sheet edges; None where there are none.
    #[getter]
    fn backing(&self) -> Option<BarCuts> {
        self.bars_of(self.core.backing.as_ref(), "cut_list.backing")
    }

    /// Its parts as plain values; None for what there is not.
    pub fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        let sheets = own.sheets().map(|own| SheetCuts::to_dict(&Bound::new(py, own)?)).transpose()?;
        dict.set_item("sheets", sheets)?;
        for (name, bars) in [("inserts", own.inserts()), ("backing", own.backing())] {
            let bars = bars.map(|own| BarCuts::to_dict(&Bound::new(py, own)?)).transpose()?;
            dict.set_item(name, bars)?;
        }
        Ok(Dict(dict))
    }

    fn __str__(&self) -> String {
        view::cut_list(&self.core)
    }

    fn __repr__(&self) -> String {
        format!("<CutList: {}>", view::cut_prices(&self.core).join("; "))
    }

    fn _repr_html_(&self) -> String {
        html::cut_list(&self.core)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        part_of(py, &self.plan, "cut_list")
    }
}
