//! Small functions: the catalogue's tables, reading a quantity, printing inches.

use pyo3::prelude::*;

use crate::catalogue::{Catalogue, Rows, SectionShape, SurfaceState};
use crate::error::{Problem, nearest};
use crate::quantity::{Kind, Length, inches_64};

use super::input::{Arguments, Quantity, Real};
use super::output::Columns;

fn unknown(path: &str, what: &str, value: &str, known: &[&str]) -> PyErr {
    let hint = nearest(value, known.iter().copied()).map_or_else(|| known.join("\" or \""), str::to_owned);
    Problem::UnknownName { path: path.to_owned(), value: value.to_owned(), what: what.to_owned(), nearest: Some(hint) }
        .into()
}

const TABLES: [&str; 26] = [
    "gauge",
    "material",
    "grade",
    "coating",
    "rivet",
    "drill",
    "bit_life",
    "section",
    "limit",
    "corrosivity",
    "k_factor",
    "k_rule",
    "bend_limit",
    "surface",
    "galvanic_metal",
    "galvanic_limit",
    "sea_potential",
    "galvanic_order",
    "family_property",
    "coated_range",
    "durability",
    "paint_system",
    "paint_coat",
    "application_loss",
    "duplex_factor",
    "default",
];

/// A table of the catalogue that ships with this package; every row says its source and how far to trust it.
///
/// Args:
///     name: ``"gauge"``, ``"material"``, ``"grade"``, ``"coating"``, ``"rivet"``, ``"drill"``, ``"bit_life"``, ``"section"``,
///         ``"limit"``, ``"corrosivity"``, ``"k_factor"``, ``"k_rule"``, ``"bend_limit"``, ``"surface"``,
///         ``"galvanic_metal"``, ``"galvanic_limit"``, ``"sea_potential"``, ``"galvanic_order"``, ``"family_property"``,
///         ``"coated_range"``, ``"durability"``, ``"paint_system"``, ``"paint_coat"``, ``"application_loss"``, ``"duplex_factor"`` or ``"default"``.
///
/// Returns:
///     The rows; a column of quantities ends in its unit.
///
/// Raises:
///     InputError: There is no such table.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> drills = rb.catalogue_table("drill")
///     >>> round(float(drills["diameter_mm"][drills["name"] == "F"][0]), 3)
///     6.528
#[pyfunction]
#[pyo3(signature = (name, /))]
#[allow(clippy::too_many_lines, reason = "one arm a table, each a plain list of its columns")]
pub(super) fn catalogue_table(name: &str) -> PyResult<Columns> {
    let catalogue = Catalogue::standard()?;
    let rows = catalogue.rows();
    let text = |note: &Option<String>| note.clone().unwrap_or_default();
    let um = |film: Length| 1000.0 * film.mm();
    Ok(match name {
        "gauge" => Columns::of(&rows.gauge)
            .text("system", |r| r.system.words())
            .number("gauge", |r| f64::from(r.gauge))
            .number("thickness_mm", |r| r.thickness.mm())
            .number("least_mm", |r| r.least.map(|v| v.mm()))
            .number("most_mm", |r| r.most.map(|v| v.mm()))
            .number("trade_mass_kg_m2", |r| r.trade_mass.map(|v| v.kg_m2()))
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "material" => Columns::of(&rows.material)
            .text("name", |r| &r.name)
            .number("density_kg_m3", |r| r.density.kg_m3())
            .number("modulus_mpa", |r| r.modulus.mpa())
            .number("poisson", |r| r.poisson)
            .number("expansion_um_m_k", |r| r.expansion_um_m_k)
            .text("gauge_system", |r| r.gauge_system.words())
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "grade" => Columns::of(&rows.grade)
            .text("name", |r| &r.name)
            .text("material", |r| &r.material)
            .text("standard", |r| &r.standard)
            .number("fy_mpa", |r| r.fy.map(|v| v.mpa()))
            .number("fu_mpa", |r| r.fu.map(|v| v.mpa()))
            .text("note", |r| text(&r.note))
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "coating" => Columns::of(&rows.coating)
            .text("designation", |r| &r.designation)
            .text("family", |r| r.family.words())
            .text("standard", |r| &r.standard)
            .number("both_sides_kg_m2", |r| r.both_sides.map(|v| v.kg_m2()))
            .number("one_side_kg_m2", |r| r.one_side.map(|v| v.kg_m2()))
            .number("single_spot_kg_m2", |r| r.single_spot.map(|v| v.kg_m2()))
            .number("density_kg_m3", |r| r.density.kg_m3())
            .flag("electrolytic", |r| r.electrolytic)
            .text("note", |r| text(&r.note))
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "rivet" => Columns::of(&rows.rivet)
            .text("product", |r| &r.product)
            .number("diameter_mm", |r| r.diameter.mm())
            .number("shear_n", |r| r.shear.map(|v| v.n()))
            .number("tension_n", |r| r.tension.map(|v| v.n()))
            .number("head_mm", |r| r.head.map(|v| v.mm()))
            .number("hole_least_mm", |r| r.hole_least.map(|v| v.mm()))
            .number("hole_most_mm", |r| r.hole_most.map(|v| v.mm()))
            .number("mass_kg", |r| r.mass.map(|v| v.kg()))
            .flag("sealed", |r| r.sealed)
            .flag("structural", |r| r.structural)
            .text("body", |r| &r.body)
            .text("mandrel", |r| &r.mandrel)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "drill" => Columns::of(&rows.drill)
            .text("name", |r| &r.name)
            .text("kind", |r| r.kind.name())
            .number("diameter_mm", |r| r.diameter.mm())
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "bit_life" => Columns::of(&rows.bit_life)
            .text("part", |r| r.part.name())
            .text("bit", |r| &r.bit)
            .number("diameter_mm", |r| r.diameter.mm())
            .number("thickest_mm", |r| r.thickest.mm())
            .number("holes_least", |r| f64::from(r.holes_least))
            .number("holes_most", |r| f64::from(r.holes_most))
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "section" => Columns::of(&rows.section)
            .text("name", |r| &r.name)
            .text("shape", |r| match r.shape {
                SectionShape::RectangularTube => "rectangular tube",
                SectionShape::Hat => "hat",
            })
            .number("depth_mm", |r| r.depth.mm())
            .number("width_mm", |r| r.width.mm())
            .number("flange_mm", |r| r.flange.map(|v| v.mm()))
            .number("wall_mm", |r| r.wall.mm())
            .number("mass_kg_m", |r| r.mass.map(|v| v.kg_m()))
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "limit" => Columns::of(&rows.limit)
            .text("place", |r| &r.place)
            .text("name", |r| &r.name)
            .number("height_mm", |r| r.height.mm())
            .number("width_mm", |r| r.width.map(|v| v.mm()))
            .text("note", |r| text(&r.note))
            .text("date_seen", |r| &r.date_seen)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "corrosivity" => Columns::of(&rows.corrosivity)
            .text("category", |r| &r.category)
            .text("metal", |r| r.metal.words())
            .number("low_um_a", |r| r.low.um_a())
            .number("high_um_a", |r| r.high.um_a())
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "k_factor" => Columns::of(&rows.k_factor)
            .text("material", |r| &r.material)
            .number("thickness_mm", |r| r.thickness.mm())
            .number("radius_mm", |r| r.radius.mm())
            .number("k", |r| r.k)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "k_rule" => Columns::of(&rows.k_rule)
            .text("metal", |r| &r.metal)
            .number("from_ratio", |r| r.from_ratio)
            .number("to_ratio", |r| r.to_ratio)
            .number("low", |r| r.low)
            .number("high", |r| r.high)
            .flag("stands_in", |r| r.stands_in)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "bend_limit" => Columns::of(&rows.bend_limit)
            .text("of", |r| &r.of)
            .number("up_to_mm", |r| r.up_to.map(|v| v.mm()))
            .number("low_ratio", |r| r.low_ratio)
            .number("high_ratio", |r| r.high_ratio)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "surface" => Columns::of(&rows.surface)
            .text("name", |r| &r.name)
            .number("absorptance", |r| r.absorptance)
            .number("emittance", |r| r.emittance)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "galvanic_metal" | "galvanic_limit" | "sea_potential" | "galvanic_order" => contact_table(name, rows),
        "family_property" => Columns::of(&rows.family_property)
            .text("family", |r| r.family.name())
            .text("sacrificial_edge", |r| r.sacrificial_edge.name())
            .text("scratch", |r| &r.scratch)
            .text("bending", |r| &r.bending)
            .text("bend_limit", |r| text(&r.bend_limit))
            .text("welding", |r| &r.welding)
            .text("paint_preparation", |r| r.paint_preparation.name())
            .number("paint_extra_min_m2", |r| r.paint_extra_min_m2)
            .flag("unpainted_outdoors", |r| r.unpainted_outdoors)
            .text("note", |r| &r.note)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "coated_range" => Columns::of(&rows.coated_range)
            .text("standard", |r| &r.standard)
            .number("from_mm", |r| r.from.mm())
            .number("below_mm", |r| r.below.mm())
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "durability" => Columns::of(&rows.durability)
            .number("edition", |r| f64::from(r.edition))
            .text("band", |r| r.band.words())
            .number("from_years", |r| r.from_years)
            .number("to_years", |r| r.to_years)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "paint_system" => Columns::of(&rows.paint_system)
            .text("category", |r| &r.category)
            .number("low_um", |r| r.low.map(um))
            .number("medium_um", |r| r.medium.map(um))
            .number("high_um", |r| r.high.map(um))
            .number("very_high_um", |r| r.very_high.map(um))
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "paint_coat" => Columns::of(&rows.paint_coat)
            .text("name", |r| &r.name)
            .number("least_um", |r| um(r.least))
            .number("most_um", |r| um(r.most))
            .number("solids_ratio", |r| r.solids.map(|v| v.value()))
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "application_loss" => Columns::of(&rows.application_loss)
            .text("of", |r| r.of.name())
            .text("by", |r| &r.by)
            .number("least_ratio", |r| r.least.value())
            .number("most_ratio", |r| r.most.value())
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "duplex_factor" => Columns::of(&rows.duplex_factor)
            .text("name", |r| &r.name)
            .text("categories", |r| r.categories.join(", "))
            .number("low", |r| r.low)
            .number("high", |r| r.high)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "default" => Columns::of(&rows.default)
            .text("key", |r| &r.key)
            .text("value", |r| &r.value)
            .text("meaning", |r| &r.meaning)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        other => return Err(unknown("name", "table", other, &TABLES)),
    })
}

/// The tables on metals in contact.
fn contact_table(name: &str, rows: &Rows) -> Columns {
    let state = |state: Option<SurfaceState>| state.map_or("", SurfaceState::name);
    match name {
        "galvanic_limit" => Columns::of(&rows.galvanic_limit)
            .text("exposure", |r| r.exposure.name())
            .number("limit_v", |r| r.limit_v)
            .text("means", |r| &r.means)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "sea_potential" => Columns::of(&rows.sea_potential)
            .text("series", |r| &r.series)
            .text("entry", |r| &r.entry)
            .text("metals", |r| r.metals.join("; "))
            .text("state", |r| state(r.state))
            .number("least_v", |r| r.least_v)
            .number("most_v", |r| r.most_v)
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        "galvanic_order" => Columns::of(&rows.galvanic_order)
            .text("series", |r| &r.series)
            .text("entry", |r| &r.entry)
            .text("metals", |r| r.metals.join("; "))
            .text("state", |r| state(r.state))
            .number("first", |r| f64::from(r.first))
            .number("last", |r| f64::from(r.last))
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
        _ => Columns::of(&rows.galvanic_metal)
            .text("name", |r| &r.name)
            .text("also", |r| r.also.join("; "))
            .number("index_v", |r| r.index_v)
            .number("index_most_v", |r| r.index_most_v.or(r.index_v))
            .text("source", |r| &r.source)
            .text("standing", |r| r.standing.words())
            .done(),
    }
}

/// Reads a quantity.
///
/// Args:
///     text: The quantity with its unit, such as ``"4 1/4 in"``, ``"6 ft 3 1/2 in"``, ``"1.9 N/mm"``.
///     kind: What it measures: ``"length"``, ``"area"``, ``"volume"``, ``"mass"``, ``"linear mass"``,
///         ``"areal mass"``, ``"density"``, ``"force"``, ``"line load"``, ``"pressure"``, ``"speed"``,
///         ``"temperature"``, ``"temperature difference"``, ``"irradiance"``, ``"film coefficient"``,
///         ``"duration"``, ``"loss rate"``, ``"angle"``, ``"roll stiffness"``, ``"fuel use"``,
///         ``"spreading rate"`` or ``"ratio"``.
///
/// Returns:
///     The number in mm, m2, L, kg, kg/m, kg/m2, kg/m3, N, N/mm, MPa, m/s, degC, h, um/a, deg, Nm/rad, g/kWh,
///     m2/L or as a plain ratio.
///
/// Raises:
///     QuantityError: The text is no such quantity; the message shows the place and a correct example.
///     InputError: There is no such kind.
///
/// Example:
///     >>> from raisedbody import parse
///     >>> parse("4 1/4 in", "length")
///     107.95
#[pyfunction]
#[pyo3(signature = (text, kind, /))]
pub(super) fn parse(text: Quantity<'_>, kind: &str) -> PyResult<f64> {
    let kind = Kind::from_name(kind).ok_or_else(|| unknown("kind", "kind", kind, &Kind::ALL.map(Kind::name)))?;
    let mut given = Arguments::default();
    let value = given.quantity("text", kind, &text)?;
    given.readable()?;
    Ok(value)
}

/// A length as the shop reads it: in inches to the nearest 1/64, in lowest terms.
///
/// Args:
///     length_mm: The length, mm.
///
/// Returns:
///     The text.
///
/// Raises:
///     InputError: The length is no finite number.
///
/// Example:
///     >>> from raisedbody import inches
///     >>> inches(107.95)
///     '4-1/4 in'
#[pyfunction]
#[pyo3(signature = (length_mm, /))]
pub(super) fn inches(length_mm: Real) -> String {
    inches_64(length_mm.0)
}
