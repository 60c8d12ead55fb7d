//! The class `GalvanicPair` and the function `unpainted_allowed`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::catalogue::{Catalogue, Exposure, SkinFamily};
use crate::error::Problem;
use crate::mechanics::galvanic::{self as core, Metal, Wetted};
use crate::quantity::Kind;

use super::input::{Arguments, Quantity};
use super::joint::{call_with, given, rebuilt};
use super::output::{Columns, Dict, Recipe};
use super::report::check_columns;

/// Two metals in contact: whether the anodic index permits it, which is eaten, what the areas do. Cannot be changed.
///
/// Surfaces count: the plating, not the metal under it. Sources differ, so that potentials are ranges over the series, each
/// compared within itself; where sources disagree on which metal is eaten, it may be either.
///
/// Args:
///     first: A metal or plating of the table ``"galvanic_metal"``, such as ``"zinc plating"``; after a stainless steel
///         ``", active"`` or ``", passive"`` where its state is certain.
///     second: The other.
///     exposure: ``"harsh"`` (outdoors, damp, salt), ``"normal"`` or ``"controlled"``.
///     area_first: Surface of the first that gets wet, such as ``"126 mm2"``; goes with `area_second`.
///     area_second: Surface of the second that gets wet.
///     fastener: The first is a fastener, small beside the second, where the areas are not known.
///
/// Raises:
///     InputError: An unknown metal (the nearest is named) or exposure; areas that no contact has, or only one of them.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> pair = rb.GalvanicPair("aluminium", "carbon steel", fastener=True)
///     >>> pair.eaten, pair.verdict, pair.gap_v
///     ('aluminium', 'passes', (0.03, 0.4))
///     >>> pair.warning
///     'the index says nothing of areas: small anode in a large cathode, bad: the fastener is eaten'
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct GalvanicPair {
    names: [String; 2],
    core: core::Pair,
}

impl GalvanicPair {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let [first, second] = &self.names;
        let area = |pick: fn((f64, f64)) -> f64| match self.core.wetted {
            Wetted::Areas(a, b) => Some(Kind::Area.print(pick((a, b)))),
            _ => None,
        };
        Ok(given!(
            py,
            "first" = Some(first.as_str()),
            "second" = Some(second.as_str()),
            "exposure" = Some(self.exposure()),
            "area_first" = area(|areas| areas.0),
            "area_second" = area(|areas| areas.1),
            "fastener" = Some(self.core.wetted == Wetted::Fastener),
        ))
    }
}

#[pymethods]
impl GalvanicPair {
    #[new]
    #[pyo3(signature = (first, second, *, exposure = "harsh", area_first = None, area_second = None, fastener = false))]
    fn new(
        first: String,
        second: String,
        exposure: &str,
        area_first: Option<Quantity<'_>>,
        area_second: Option<Quantity<'_>>,
        fastener: bool,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let areas = (
            given.optional("area_first", Kind::Area, area_first.as_ref())?,
            given.optional("area_second", Kind::Area, area_second.as_ref())?,
        );
        given.readable()?;
        let catalogue = Catalogue::standard()?;
        let mut problems = Vec::new();
        let exposure = exposure.parse::<Exposure>().map_err(|p| problems.push(p)).unwrap_or(Exposure::Harsh);
        let mut metal = |path, name: &str| Metal::named(&catalogue, path, name).map_err(|p| problems.push(p)).ok();
        let (one, other) = (metal("first", &first), metal("second", &second));
        let wetted = match areas {
            (Some(a), Some(b)) => Wetted::Areas(a, b),
            (None, None) if fastener => Wetted::Fastener,
            (None, None) => Wetted::NotKnown,
            (Some(_), None) => {
                problems.push(Problem::missing("area_second", "area_first is given: only the ratio counts"));
                Wetted::NotKnown
            }
            (None, Some(_)) => {
                problems.push(Problem::missing("area_first", "area_second is given: only the ratio counts"));
                Wetted::NotKnown
            }
        };
        match (one, other) {
            (Some(one), Some(other)) if problems.is_empty() => {
                let core = core::Pair::of(&catalogue, (one, other), exposure, wetted).map_err(|p| given.refused(p))?;
                Ok(Self { names: [first, second], core })
            }
            _ => Err(given.refused(problems)),
        }
    }

    /// The first surface, by its name in the catalogue.
    #[getter]
    fn first(&self) -> &str {
        &self.core.first.name
    }

    /// The second.
    #[getter]
    fn second(&self) -> &str {
        &self.core.second.name
    }

    /// How they are exposed.
    #[getter]
    fn exposure(&self) -> &'static str {
        self.core.exposure.name()
    }

    /// Difference of anodic indices, least and greatest, V; None where an index is missing.
    #[getter]
    fn index_difference_v(&self) -> Option<(f64, f64)> {
        self.core.index_difference_v
    }

    /// Limit of the exposure, V.
    #[getter]
    fn limit_v(&self) -> f64 {
        self.core.limit_v
    }

    /// Potentials in sea water apart, least and greatest over all series, V; None where no series has both.
    #[getter]
    fn gap_v(&self) -> Option<(f64, f64)> {
        self.core.gap_v
    }

    /// Series behind `gap_v`.
    #[getter]
    fn gap_sources(&self) -> usize {
        self.core.gap_sources
    }

    /// The metal that is eaten, ``"may be either"`` or ``"neither"``.
    #[getter]
    fn eaten(&self) -> &str {
        self.core.eaten_name()
    }

    /// Wetted cathode area over wetted anode area; None where areas or anode are not known.
    #[getter]
    fn area_ratio(&self) -> Option<f64> {
        self.core.area_ratio
    }

    /// What the areas do, in words.
    #[getter]
    fn areas(&self) -> String {
        self.core.area_words()
    }

    /// Where what the areas do is from.
    #[getter]
    fn area_sources(&self) -> (&'static str, &'static str, &'static str) {
        core::Pair::area_sources().into()
    }

    /// What the index does not see; None where there is nothing to be warned of.
    #[getter]
    fn warning(&self) -> Option<String> {
        self.core.warning()
    }

    /// By the index: ``"passes"``, ``"fails"`` or ``"not assessed"``. A pass says nothing of areas.
    #[getter]
    fn verdict(&self) -> &'static str {
        self.core.check().verdict.words()
    }

    /// The weakest standing of all that went in.
    #[getter]
    fn standing(&self) -> &'static str {
        self.core.standing().words()
    }

    /// The index against its limit, with the columns of `Report.table`.
    #[getter]
    fn check(&self) -> Columns {
        check_columns(&[self.core.check()])
    }

    /// What each source says: series, second_over_first_least_v and second_over_first_most_v (NaN for an index or an order), eaten
    /// ("" where it puts them level), source, standing.
    #[getter]
    fn sources(&self) -> Columns {
        let name = |eaten: Option<core::Eaten>| match eaten {
            Some(core::Eaten::First) => self.first(),
            Some(core::Eaten::Second) => self.second(),
            Some(core::Eaten::Either) => "may be either",
            Some(core::Eaten::Neither) | None => "",
        };
        Columns::of(&self.core.views)
            .text("series", |v| &v.series)
            .number("second_over_first_least_v", |v| v.second_over_first_v.map(|d| d.0))
            .number("second_over_first_most_v", |v| v.second_over_first_v.map(|d| d.1))
            .text("eaten", |v| name(v.eaten))
            .text("source", |v| &v.source)
            .text("standing", |v| v.standing.words())
            .done()
    }

    /// What to do, the most urgent first: text, source, standing.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> pair = rb.GalvanicPair("copper", "hot-dip zinc", fastener=True)
    ///     >>> pair.remedies["text"][0].item()
    ///     'isolate: sleeve and washers, or tape between, that neither conduct nor soak up water'
    #[getter]
    fn remedies(&self) -> Columns {
        Columns::of(self.core.remedies())
            .text("text", |r| r.text.clone())
            .text("source", |r| r.source)
            .text("standing", |r| r.standing.words())
            .done()
    }

    /// The comparison with the limit as a hand calculation.
    ///
    /// Args:
    ///     form: ``"text"``, ``"html"`` or ``"latex"``.
    ///
    /// Raises:
    ///     InputError: Another form.
    #[pyo3(signature = (form = "text"))]
    fn explain(&self, form: &str) -> PyResult<String> {
        Ok(self.core.check().calculation().write(form.parse()?))
    }

    /// The values by name, each ending in its unit, and the rows of `sources` and `remedies`; None for what is not known.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("first", self.first())?;
        dict.set_item("second", self.second())?;
        dict.set_item("exposure", self.exposure())?;
        dict.set_item("index_difference_v", self.index_difference_v())?;
        dict.set_item("limit_v", self.limit_v())?;
        dict.set_item("gap_v", self.gap_v())?;
        dict.set_item("gap_sources", self.gap_sources())?;
        dict.set_item("eaten", self.eaten())?;
        dict.set_item("area_ratio", self.area_ratio())?;
        dict.set_item("areas", self.areas())?;
        dict.set_item("area_sources", self.area_sources())?;
        dict.set_item("warning", self.warning())?;
        dict.set_item("verdict", self.verdict())?;
        dict.set_item("standing", self.standing())?;
        dict.set_item("sources", self.sources().rows(py)?)?;
        dict.set_item("remedies", self.remedies().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "GalvanicPair")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// Whether a family of skin may stay without paint outdoors.
///
/// Args:
///     family: A row of the table ``"family_property"``: ``"bare steel"``, ``"zinc"``, ``"electrolytic zinc"``, ``"zinc-iron"``,
///         ``"aluminium-zinc"``, ``"aluminium"`` (aluminized), ``"stainless steel"`` or ``"aluminium sheet"``.
///
/// Raises:
///     InputError: There is no such family.
///
/// Example:
///     >>> from raisedbody import unpainted_allowed
///     >>> unpainted_allowed("zinc-iron")
///     False
#[pyfunction]
#[pyo3(signature = (family, /))]
pub(super) fn unpainted_allowed(family: &str) -> PyResult<bool> {
    Ok(Catalogue::standard()?.unpainted_allowed(family.parse::<SkinFamily>()?)?)
}
