//! Rivet lengths, drills and holes: `choose_length`, `choose_drill`, `hole_checks`, `head_clearance`,
//! `rivet_diameter_checks`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::catalogue::{Catalogue, DrillKind};
use crate::check::{Standing, significant};
use crate::error::Problem;
use crate::mechanics::joint::HOLE;
use crate::mechanics::joint::grip::{self as core, HoleRange, Obstacle, Stack};
use crate::mechanics::sheet::in_range;
use crate::quantity::Kind;

use super::input::{Arguments, Quantity, Several};
use super::joint::given;
use super::output::{Columns, Dict, Many, Recipe};
use super::report::check_columns;

/// The rivet length that holds a stack; `choose_length` makes it. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct LengthChoice {
    stack: Stack,
    core: core::LengthChoice,
}

#[pymethods]
impl LengthChoice {
    /// Product, as in the catalogue's table of grips.
    #[getter]
    fn product(&self) -> &str {
        &self.core.row.product
    }

    /// Nominal diameter, mm.
    #[getter]
    fn diameter_mm(&self) -> f64 {
        self.core.row.diameter.mm()
    }

    /// Length of the body under the head, mm; None where not known.
    #[getter]
    fn length_mm(&self) -> Option<f64> {
        self.core.row.length.map(|v| v.mm())
    }

    /// Code that the length is ordered by; None where there is none.
    #[getter]
    fn code(&self) -> Option<&str> {
        self.core.row.code.as_deref()
    }

    /// What to order: the length, else the code, else the range.
    #[getter]
    fn name(&self) -> String {
        self.core.row.name()
    }

    /// Thinnest stack that it holds, mm.
    #[getter]
    fn least_mm(&self) -> f64 {
        self.core.row.least.mm()
    }

    /// Thickest stack that it holds, mm.
    #[getter]
    fn most_mm(&self) -> f64 {
        self.core.row.most.mm()
    }

    /// The stack, mm: sheets, coating and sealant.
    #[getter]
    fn grip_mm(&self) -> f64 {
        self.core.grip_mm
    }

    /// What to mind: the stack is within 10 % of an end of the range. None where it is well inside.
    #[getter]
    fn warning(&self) -> Option<String> {
        self.core.warning()
    }

    /// Where the range comes from.
    #[getter]
    fn source(&self) -> &str {
        &self.core.row.source
    }

    /// How the range is known.
    #[getter]
    fn standing(&self) -> &str {
        self.core.row.standing.words()
    }

    /// The values by name, each ending in its unit; None for what is not known.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("product", self.product())?;
        dict.set_item("diameter_mm", self.diameter_mm())?;
        dict.set_item("length_mm", self.length_mm())?;
        dict.set_item("code", self.code())?;
        dict.set_item("name", self.name())?;
        dict.set_item("least_mm", self.least_mm())?;
        dict.set_item("most_mm", self.most_mm())?;
        dict.set_item("grip_mm", self.grip_mm())?;
        dict.set_item("warning", self.warning())?;
        dict.set_item("source", self.source())?;
        dict.set_item("standing", self.standing())?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let [least, most, grip] = [self.least_mm(), self.most_mm(), self.grip_mm()].map(significant);
        format!("<LengthChoice {}: holds {least} to {most} mm, grip {grip} mm>", self.name())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let length = |mm: f64| Kind::Length.print(mm);
        let sheets: Vec<String> = self.stack.sheets_mm.iter().copied().map(length).collect();
        let kwargs = given!(
            py,
            "sheets" = Some(sheets),
            "product" = Some(self.product()),
            "diameter" = Some(length(self.diameter_mm())),
            "coating" = Some(length(self.stack.coating_mm)),
            "sealant" = Some(length(self.stack.sealant_mm)),
        );
        Recipe::of_call("choose_length", &kwargs)
    }
}

/// The shortest rivet of a product whose grip range holds a stack of sheets.
///
/// Args:
///     sheets: Thickness of each sheet, its metallic coating included, such as ``["1.2 mm", "1.5 mm"]``.
///     product: Product in the catalogue's table of grips: ``"ISO 15981"`` or ``"inch blind rivet"``.
///     diameter: Nominal diameter of the rivet.
///     coating: Paint and primer between and on the sheets, all layers together; none where left out.
///     sealant: Sealant left in the lap once it is pulled together; none where left out.
///
/// Returns:
///     The rivet, its range, and a warning where the stack is close to an end of it.
///
/// Raises:
///     InputError: A grip that no range holds (the nearest ranges are named); a product or diameter without known grips;
///         a sheet or layer that no stack has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> sheets = ["1.2 mm", "1.2 mm", "1.5 mm"]
///     >>> choice = rb.choose_length(sheets, "inch blind rivet", "1/4 in", coating="0.12 mm", sealant="0.3 mm")
///     >>> choice.code, choice.warning
///     ('84', None)
#[pyfunction]
#[pyo3(signature = (sheets, product, diameter, *, coating = None, sealant = None))]
pub(super) fn choose_length(
    sheets: Several<Quantity<'_>>,
    product: &str,
    diameter: Quantity<'_>,
    coating: Option<Quantity<'_>>,
    sealant: Option<Quantity<'_>>,
) -> PyResult<LengthChoice> {
    let mut given = Arguments::default();
    let stack = Stack {
        sheets_mm: given.each("sheets", Kind::Length, &sheets.0)?,
        coating_mm: given.optional("coating", Kind::Length, coating.as_ref())?.unwrap_or(0.0),
        sealant_mm: given.optional("sealant", Kind::Length, sealant.as_ref())?.unwrap_or(0.0),
    };
    let diameter_mm = given.quantity("diameter", Kind::Length, &diameter)?;
    given.readable()?;
    let catalogue = Catalogue::standard()?;
    let core = core::choose_length(&stack, product, diameter_mm, &catalogue, "product")
        .map_err(|problems| given.refused(problems))?;
    Ok(LengthChoice { stack, core })
}

/// Checks whether a rivet suits its sheets by aircraft practice: not thinner than the thickest, not over three times it.
///
/// A habit of riveters, so that a breach is not failed but pointed out.
///
/// Args:
///     sheets: Thickness of each sheet.
///     diameter: Nominal diameter of the rivet.
///
/// Returns:
///     The checks, with the columns of `Report.table`.
///
/// Raises:
///     InputError: No sheet; a sheet or diameter that no riveted lap has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.rivet_diameter_checks(["1.2 mm", "2.4 mm"], "6.4 mm")["verdict"].tolist()
///     ['passes', 'passes']
#[pyfunction]
#[pyo3(signature = (sheets, diameter))]
pub(super) fn rivet_diameter_checks(sheets: Several<Quantity<'_>>, diameter: Quantity<'_>) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let stack = Stack { sheets_mm: given.each("sheets", Kind::Length, &sheets.0)?, ..Stack::default() };
    let diameter_mm = given.quantity("diameter", Kind::Length, &diameter)?;
    given.readable()?;
    let checks = core::diameter_checks(&stack, diameter_mm).map_err(|problems| given.refused(problems))?;
    Ok(check_columns(&checks))
}

/// The holes a rivet may sit in, by its product or by its own numbers.
fn hole_range(
    given: &mut Arguments,
    diameter: &Quantity<'_>,
    product: Option<&str>,
    hole_least: Option<&Quantity<'_>>,
    hole_most: Option<&Quantity<'_>>,
) -> PyResult<HoleRange> {
    let diameter_mm = given.quantity("diameter", Kind::Length, diameter)?;
    let least_mm = given.optional("hole_least", Kind::Length, hole_least)?;
    let most_mm = given.optional("hole_most", Kind::Length, hole_most)?;
    given.readable()?;
    let rivet = match (product, least_mm) {
        (None, Some(least_mm)) => HoleRange { diameter_mm, least_mm, most_mm, standing: Standing::Given },
        (None, None) => {
            let fix = "name a product, such as \"ISO 15976\", or write the rivet's smallest hole as hole_least";
            return Err(Problem::missing(if most_mm.is_some() { "hole_least" } else { "product" }, fix).into());
        }
        (Some(product), _) if least_mm.is_some() || most_mm.is_some() => {
            let problem = "the product states its holes; give the product, or hole_least and hole_most without it";
            return Err(Problem::contradiction("product", product, problem).into());
        }
        (Some(product), _) => {
            let catalogue = Catalogue::standard()?;
            HoleRange::of(catalogue.rivet("product", product, diameter_mm)?).ok_or_else(|| {
                Problem::missing("hole_least", format!("{product} states no hole; give hole_least without the product"))
            })?
        }
    };
    rivet.validate().map_err(|problems| given.refused(problems))?;
    Ok(rivet)
}

/// The drill for a rivet's hole; `choose_drill` makes it. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct DrillChoice {
    rivet: HoleRange,
    product: Option<String>,
    series: Vec<DrillKind>,
    core: core::DrillChoice,
}

#[pymethods]
impl DrillChoice {
    /// Name of the drill: ``"17/64 in"``, ``"#30"``, ``"F"``, ``"6.5 mm"``.
    #[getter]
    fn drill(&self) -> &str {
        &self.core.drill.name
    }

    /// Series of the drill: ``"fraction"``, ``"number"``, ``"letter"`` or ``"metric"``.
    #[getter]
    fn series(&self) -> &str {
        self.core.drill.kind.name()
    }

    /// The hole, as large as the drill, mm; every real drill cuts a little over its size.
    #[getter]
    fn hole_mm(&self) -> f64 {
        self.core.drill.diameter.mm()
    }

    /// The hole is this much wider than the rivet, mm.
    #[getter]
    fn over_rivet_mm(&self) -> f64 {
        self.core.over_rivet_mm
    }

    /// The hole is this much wider than the rivet's smallest hole, mm.
    #[getter]
    fn over_least_mm(&self) -> f64 {
        self.core.over_least_mm
    }

    /// Every rule on the hole, with the columns of `Report.table`.
    #[getter]
    fn table(&self) -> Columns {
        check_columns(&self.core.checks)
    }

    /// Names of the checks that the hole fails, or that it puts outside their range.
    #[getter]
    fn broken(&self) -> Many<String> {
        Many(self.core.broken().map(|c| c.name.to_string()).collect())
    }

    /// The values by name, each ending in its unit.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("drill", self.drill())?;
        dict.set_item("series", self.series())?;
        dict.set_item("hole_mm", self.hole_mm())?;
        dict.set_item("over_rivet_mm", self.over_rivet_mm())?;
        dict.set_item("over_least_mm", self.over_least_mm())?;
        dict.set_item("broken", self.broken())?;
        dict.set_item("checks", self.table().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let broken = self.broken().0;
        let rules = if broken.is_empty() { "no rule".to_owned() } else { broken.join("; ") };
        format!("<DrillChoice {}: hole {} mm, breaks {rules}>", self.drill(), significant(self.hole_mm()))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let length = |mm: f64| Kind::Length.print(mm);
        let own = self.product.is_none();
        let series: Vec<&str> = self.series.iter().map(|kind| kind.name()).collect();
        let kwargs = given!(
            py,
            "diameter" = Some(length(self.rivet.diameter_mm)),
            "product" = self.product.as_deref(),
            "hole_least" = Some(length(self.rivet.least_mm)).filter(|_| own),
            "hole_most" = self.rivet.most_mm.map(length).filter(|_| own),
            "series" = Some(series),
        );
        Recipe::of_call("choose_drill", &kwargs)
    }
}

/// The smallest drill that is no smaller than a rivet's smallest hole, and every rule that its hole keeps or breaks.
///
/// Args:
///     diameter: Nominal diameter of the rivet.
///     product: Product standard in the catalogue, such as ``"ISO 15976"``; it states the rivet's holes.
///     hole_least: The rivet's smallest hole, in place of `product`.
///     hole_most: The rivet's largest hole, in place of `product`, where its maker states one.
///     series: The drills at hand: ``"fraction"``, ``"number"``, ``"letter"``, ``"metric"``; all where left out.
///
/// Returns:
///     The drill.
///
/// Raises:
///     InputError: An unknown product, size or series; no drill of these series that large; both a product and a hole, or
///         neither; holes that no rivet has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> choice = rb.choose_drill("1/4 in", product="IFI-114 grade 30", series=["letter", "number"])
///     >>> choice.drill, round(choice.hole_mm, 3)
///     ('F', 6.528)
#[pyfunction]
#[pyo3(signature = (diameter, *, product = None, hole_least = None, hole_most = None, series = None))]
pub(super) fn choose_drill(
    diameter: Quantity<'_>,
    product: Option<String>,
    hole_least: Option<Quantity<'_>>,
    hole_most: Option<Quantity<'_>>,
    series: Option<Several<String>>,
) -> PyResult<DrillChoice> {
    let mut given = Arguments::default();
    let rivet = hole_range(&mut given, &diameter, product.as_deref(), hole_least.as_ref(), hole_most.as_ref())?;
    let named = series.as_ref().map(|names| names.0.join(", "));
    let series = match series {
        Some(Several(names)) if names.is_empty() => {
            let known = DrillKind::ALL.map(DrillKind::name).join("\", \"");
            let fix = format!("name one or more of \"{known}\", or leave it out for all");
            return Err(Problem::missing("series", fix).into());
        }
        Some(Several(names)) => names.iter().map(|name| name.parse()).collect::<Result<Vec<DrillKind>, Problem>>()?,
        None => DrillKind::ALL.to_vec(),
    };
    let catalogue = Catalogue::standard()?;
    let core = core::choose_drill(&rivet, &series, &catalogue).map_err(|problems| match named {
        // Another series may have it.
        Some(named) => {
            let hole = significant(rivet.least_mm);
            let problem = format!("no drill of these makes a hole of {hole} mm; name another series, or leave it out");
            Problem::contradiction("series", named, problem).into()
        }
        None => given.refused_as(&[("hole", "hole_least")], problems),
    })?;
    Ok(DrillChoice { rivet, product, series, core })
}

/// Checks a hole as drilled by every rule: the product's own range, the joint rule's, and for inch rivets the hole charts.
///
/// A hole outside the product's range fails; a hole beyond another rule is outside that rule's range.
///
/// Args:
///     hole: The hole.
///     diameter: Nominal diameter of the rivet.
///     product: Product standard in the catalogue, such as ``"ISO 15976"``; it states the rivet's holes.
///     hole_least: The rivet's smallest hole, in place of `product`.
///     hole_most: The rivet's largest hole, in place of `product`, where its maker states one.
///
/// Returns:
///     The checks, with the columns of `Report.table`.
///
/// Raises:
///     InputError: An unknown product or size; both a product and a hole range, or neither; holes that no rivet has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> checks = rb.hole_checks("17/64 in", diameter="6.4 mm", product="ISO 15976")
///     >>> next(row["verdict"] for row in checks.rows() if row["name"] == "hole, most")
///     'fails'
#[pyfunction]
#[pyo3(signature = (hole, *, diameter, product = None, hole_least = None, hole_most = None))]
pub(super) fn hole_checks(
    hole: Quantity<'_>,
    diameter: Quantity<'_>,
    product: Option<&str>,
    hole_least: Option<Quantity<'_>>,
    hole_most: Option<Quantity<'_>>,
) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let hole_mm = given.quantity("hole", Kind::Length, &hole)?;
    let rivet = hole_range(&mut given, &diameter, product, hole_least.as_ref(), hole_most.as_ref())?;
    let holes_mm = (HOLE.0 * rivet.diameter_mm, HOLE.1 * rivet.diameter_mm);
    in_range("hole", Some(hole_mm), holes_mm, "mm").map_err(|problem| given.refused(vec![problem]))?;
    Ok(check_columns(&core::hole_checks(&rivet, hole_mm)))
}

/// Checks whether a rivet's head lies flat, and whether the setting tool reaches the rivet beside a standing leg.
///
/// One of `edge`, `inside_bend` and `outside_bend` says what the head may run into, and how far from the rivet's centre.
///
/// Args:
///     head: Head diameter.
///     diameter: Nominal diameter of the rivet.
///     edge: To the sheet's edge.
///     inside_bend: To the near face of a leg that stands on the head's side.
///     outside_bend: To the far face of a leg that goes away from the head: the outside of the bend.
///     radius: Inside radius of the bend.
///     thickness: Thickness of the sheet, for an outside bend.
///     nose: Diameter of the tool's nose, for an inside bend.
///
/// Returns:
///     The checks, with the columns of `Report.table`.
///
/// Raises:
///     InputError: None or more than one thing to run into; a size that it needs and does not have, or has no use for;
///         sizes that no rivet, bend or tool has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.head_clearance("13.4 mm", "6.4 mm", inside_bend="9 mm", radius="2 mm")["verdict"].tolist()
///     ['passes']
#[pyfunction]
#[pyo3(signature = (
    head, diameter, *, edge = None, inside_bend = None, outside_bend = None, radius = None, thickness = None, nose = None
))]
#[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
pub(super) fn head_clearance(
    head: Quantity<'_>,
    diameter: Quantity<'_>,
    edge: Option<Quantity<'_>>,
    inside_bend: Option<Quantity<'_>>,
    outside_bend: Option<Quantity<'_>>,
    radius: Option<Quantity<'_>>,
    thickness: Option<Quantity<'_>>,
    nose: Option<Quantity<'_>>,
) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let head_mm = given.quantity("head", Kind::Length, &head)?;
    let diameter_mm = given.quantity("diameter", Kind::Length, &diameter)?;
    let mut optional = |name, length: Option<Quantity<'_>>| given.optional(name, Kind::Length, length.as_ref());
    let edge_mm = optional("edge", edge)?;
    let inside_mm = optional("inside_bend", inside_bend)?;
    let outside_mm = optional("outside_bend", outside_bend)?;
    let radius_mm = optional("radius", radius)?;
    let thickness_mm = optional("thickness", thickness)?;
    let nose_mm = optional("nose", nose)?;
    given.readable()?;

    let mut problems = Vec::new();
    let mut needed = |name: &str, value: Option<f64>| {
        value.unwrap_or_else(|| {
            problems.push(Problem::missing(name, "a head beside this bend needs it"));
            f64::NAN
        })
    };
    let (obstacle, names, useless) = match (edge_mm, inside_mm, outside_mm) {
        (Some(distance_mm), None, None) => {
            let useless = vec![("radius", radius_mm), ("thickness", thickness_mm), ("nose", nose_mm)];
            (Obstacle::Edge { distance_mm }, [("distance", "edge")], useless)
        }
        (None, Some(to_leg_mm), None) => {
            let radius_mm = needed("radius", radius_mm);
            let useless = vec![("thickness", thickness_mm)];
            (Obstacle::InsideBend { to_leg_mm, radius_mm }, [("to_leg", "inside_bend")], useless)
        }
        (None, None, Some(to_leg_mm)) => {
            let (radius_mm, thickness_mm) = (needed("radius", radius_mm), needed("thickness", thickness_mm));
            let useless = vec![("nose", nose_mm)];
            (Obstacle::OutsideBend { to_leg_mm, radius_mm, thickness_mm }, [("to_leg", "outside_bend")], useless)
        }
        (None, None, None) => {
            let fix = "write edge, inside_bend or outside_bend: how far it is from the rivet's centre";
            return Err(Problem::missing("edge", fix).into());
        }
        (Some(mm), ..) | (None, Some(mm), Some(_)) => {
            let name = if edge_mm.is_some() { "edge" } else { "inside_bend" };
            let problem = "check one of edge, inside_bend and outside_bend at a time";
            return Err(given.refused(vec![Problem::contradiction(name, Kind::Length.print(mm), problem)]));
        }
    };
    let place = names[0].1;
    problems.extend(useless.into_iter().filter_map(|(name, value)| {
        let problem = format!("it has no say beside {place}; leave it out");
        value.map(|mm| Problem::contradiction(name, Kind::Length.print(mm), problem))
    }));
    if !problems.is_empty() {
        return Err(given.refused(problems));
    }
    let checks = core::head_clearance(head_mm, diameter_mm, obstacle, nose_mm)
        .map_err(|problems| given.refused_as(&names, problems))?;
    Ok(check_columns(&checks))
}
