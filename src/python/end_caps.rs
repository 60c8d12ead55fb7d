//! The class `EndCaps`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::drawing::{end_caps, html};
use crate::plan::EndCapSummary;
use crate::quantity::ShopUnits;

use super::cap_blank::{line_columns, mark_columns};
use super::evaluation::part_of;
use super::output::{Columns, Dict, Many, Recipe};
use super::plan::Plan;

/// The sheets that wrap the corners of the raised band; `Evaluation.end_caps` holds them. Cannot be changed.
///
/// Each cap is one sheet, or two that lap in the middle of the end face where one would be longer than can be bought. Marks are
/// taped from the good edge. Springback is that of wide sheet with the plan's yield strength.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> caps = rb.Plan.read("examples/mobile_library.toml").evaluate().end_caps
///     >>> [str(piece) for piece in caps.pieces["piece"]]
///     ['rear cap', 'front cap, 1 of 2', 'front cap, 2 of 2']
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct EndCaps {
    plan: Plan,
    core: EndCapSummary,
    units: ShopUnits,
}

impl EndCaps {
    pub fn new(plan: Plan, core: EndCapSummary, units: ShopUnits) -> Self {
        Self { plan, core, units }
    }
}

#[pymethods]
impl EndCaps {
    /// Each sheet: piece, good_edge (the side of the bus), height_mm, along_mm and up_mm (rectangle to buy), bottom_length_mm and
    /// top_length_mm (developed edges), out_of_square_mm (the wedge if cut as a rectangle and rolled to cylinders, upper edge beyond
    /// lower), by_radii_mm (the part of it that unequal radii make), bottom_trim_mm and top_trim_mm (left over by a square cut),
    /// bottom_climb_mm and top_climb_mm (how far a rectangle's edges hang high at the far end), bottom_one_radius_mm and
    /// top_one_radius_mm (how far it reaches past each end with every corner rolled to the first one's radius),
    /// developed_angle_deg, start_straight_mm and end_straight_mm.
    #[getter]
    fn pieces(&self) -> Columns {
        Columns::of(&self.core.pieces)
            .text("piece", |p| &p.id)
            .text("good_edge", |p| p.good_edge.name())
            .number("height_mm", |p| p.height_mm)
            .number("along_mm", |p| p.flat.rectangle_mm[0])
            .number("up_mm", |p| p.flat.rectangle_mm[1])
            .number("bottom_length_mm", |p| p.flat.length_mm[0])
            .number("top_length_mm", |p| p.flat.length_mm[1])
            .number("out_of_square_mm", |p| p.flat.out_of_square_mm)
            .number("by_radii_mm", |p| p.by_radii_mm)
            .number("bottom_trim_mm", |p| p.flat.trim_mm[0])
            .number("top_trim_mm", |p| p.flat.trim_mm[1])
            .number("bottom_climb_mm", |p| p.flat.climb_mm[0])
            .number("top_climb_mm", |p| p.flat.climb_mm[1])
            .number("bottom_one_radius_mm", |p| p.flat.one_radius_past_mm[0])
            .number("top_one_radius_mm", |p| p.flat.one_radius_past_mm[1])
            .number("developed_angle_deg", |p| p.flat.developed_angle_deg)
            .number("start_straight_mm", |p| p.straight_ends_mm[0])
            .number("end_straight_mm", |p| p.straight_ends_mm[1])
            .done()
    }

    /// Each corner of each sheet: piece, side, at (lower or upper edge), radius_mm (inside), k, outer_strain (at the sharper edge),
    /// roll_to_mm (inside radius under load), travel_mm (of the top roll after touching), radius_per_tenth_mm (final radius lost for
    /// each 0.1 mm more of travel), travel_per_mm, radius_per_mpa_mm (opened for each MPa more of yield strength). NaN where the
    /// yield strength or the rolls are not in the plan, or do not reach the radius.
    #[getter]
    fn corners(&self) -> Columns {
        let edges = [(0, "lower edge"), (1, "upper edge")];
        let rows = self.core.pieces.iter().flat_map(|p| p.corners.iter().map(move |c| (p, c)));
        let rows = rows.flat_map(|(p, c)| {
            edges
                .into_iter()
                .zip(c.radius_mm)
                .zip(c.roll_to_mm)
                .zip(c.settings)
                .map(move |(((edge, radius), to), set)| (p, c, edge.1, radius, to, set))
        });
        Columns::of(rows)
            .text("piece", |row| &row.0.id)
            .text("side", |row| row.1.side.name())
            .text("at", |row| row.2)
            .number("radius_mm", |row| row.3)
            .number("k", |row| row.1.k)
            .number("outer_strain", |row| row.1.outer_strain)
            .number("roll_to_mm", |row| row.4)
            .number("travel_mm", |row| row.5.map(|s| s.travel_mm))
            .number("radius_per_tenth_mm", |row| row.5.map(|s| s.radius_per_tenth_mm))
            .number("travel_per_mm", |row| row.5.map(|s| s.travel_per_mm))
            .number("radius_per_mpa_mm", |row| row.5.map(|s| s.radius_per_mpa_mm))
            .done()
    }

    /// Where each bend starts and ends, with the columns of `CapBlank.marks`.
    #[getter]
    fn marks(&self) -> Columns {
        mark_columns(self.core.pieces.iter().flat_map(|p| p.flat.marks.iter().map(move |m| (p, m))), |p| p.id.clone())
    }

    /// Ordinates to scribe both edges through, with the columns of `CapBlank.lines`.
    #[getter]
    fn lines(&self) -> Columns {
        line_columns(self.core.pieces.iter().flat_map(|p| p.flat.lines.iter().map(move |l| (p, l))), |p| p.id.clone())
    }

    /// What to know.
    #[getter]
    fn notes(&self) -> Many<String> {
        Many(self.core.notes.clone())
    }

    /// The tables and notes by name; None for what is not known.
    pub fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, this) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        let all =
            [("pieces", this.pieces()), ("corners", this.corners()), ("marks", this.marks()), ("lines", this.lines())];
        for (name, columns) in all {
            dict.set_item(name, columns.rows(py)?)?;
        }
        dict.set_item("notes", slf.getattr("notes")?)?;
        Ok(Dict(dict))
    }

    fn __str__(&self) -> String {
        end_caps::end_caps(&self.core, self.units)
    }

    fn __repr__(&self) -> String {
        format!("<EndCaps of {} sheets>", self.core.pieces.len())
    }

    fn _repr_html_(&self) -> String {
        html::end_caps(&self.core, self.units)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        part_of(py, &self.plan, "end_caps")
    }
}
