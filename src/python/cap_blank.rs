//! The classes `Corner` and `CapBlank`, and the tables of a flat pattern.

use pyo3::prelude::*;
use pyo3::types::PyDict;
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier as name, type_hint_union};

use crate::catalogue::Catalogue;
use crate::check::{Standing, significant};
use crate::error::Problem;
use crate::mechanics::forming as core;
use crate::quantity::{Kind, inches_64};

use super::input::{Arguments, Quantity, Real, Several};
use super::joint::{call_with, given, rebuilt};
use super::output::{Columns, Dict, Many, Recipe};

/// A corner that a sheet is wrapped round. Cannot be changed.
///
/// Args:
///     radius: Inside radius, which is that of the frame: at the lower edge where `top_radius` is given too.
///     angle: How far it turns in plan: ``"90 deg"`` for a square corner.
///     top_radius: Inside radius at the upper edge, where it differs.
///
/// Raises:
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.Corner("6 in", "90 deg", top_radius="6 1/8 in").top_radius_mm
///     155.575
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Corner {
    radius_mm: f64,
    angle_deg: f64,
    top_radius_mm: Option<f64>,
}

impl Corner {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        Ok(given!(
            py,
            "radius" = Some(Kind::Length.print(self.radius_mm)),
            "angle" = Some(Kind::Angle.print(self.angle_deg)),
            "top_radius" = self.top_radius_mm.map(|mm| Kind::Length.print(mm)),
        ))
    }
}

#[pymethods]
impl Corner {
    #[new]
    #[pyo3(signature = (radius, angle, *, top_radius = None))]
    fn new(radius: Quantity<'_>, angle: Quantity<'_>, top_radius: Option<Quantity<'_>>) -> PyResult<Self> {
        let mut given = Arguments::default();
        let corner = Self {
            radius_mm: given.quantity("radius", Kind::Length, &radius)?,
            angle_deg: given.quantity("angle", Kind::Angle, &angle)?,
            top_radius_mm: given.optional("top_radius", Kind::Length, top_radius.as_ref())?,
        };
        given.readable()?;
        Ok(corner)
    }

    /// Inside radius at the lower edge, mm.
    #[getter]
    fn radius_mm(&self) -> f64 {
        self.radius_mm
    }

    /// How far it turns, degrees.
    #[getter]
    fn angle_deg(&self) -> f64 {
        self.angle_deg
    }

    /// Inside radius at the upper edge, mm.
    #[getter]
    fn top_radius_mm(&self) -> f64 {
        self.top_radius_mm.unwrap_or(self.radius_mm)
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Corner")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// A straight run by its length, or a corner.
pub(super) enum Piece<'py> {
    Straight(Quantity<'py>),
    Corner(Corner),
}

impl<'py> FromPyObject<'_, 'py> for Piece<'py> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_union!(Quantity::INPUT_TYPE, name!("raisedbody._core", "Corner"));

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        match obj.cast::<Corner>() {
            Ok(corner) => Ok(Self::Corner(corner.get().clone())),
            Err(_) => Ok(Self::Straight(obj.extract()?)),
        }
    }
}

/// Where bends start and end.
pub(super) fn mark_columns<'a, T>(
    rows: impl IntoIterator<Item = (T, &'a core::Mark)>,
    of: impl Fn(&T) -> String,
) -> Columns {
    Columns::of(rows)
        .text("piece", |(piece, _)| of(piece))
        .count("corner", |(_, m)| m.corner)
        .text("place", |(_, m)| if m.start { "start" } else { "end" })
        .number("bottom_mm", |(_, m)| m.at_mm[0])
        .number("top_mm", |(_, m)| m.at_mm[1])
        .text("bottom_inches", |(_, m)| inches_64(m.at_mm[0]))
        .text("top_inches", |(_, m)| inches_64(m.at_mm[1]))
        .number("bottom_error_mm", |(_, m)| m.error_mm[0])
        .number("top_error_mm", |(_, m)| m.error_mm[1])
        .number("chained_error_mm", |(_, m)| m.chained_error_mm)
        .done()
}

/// Lines across a flat.
pub(super) fn line_columns<'a, T>(
    rows: impl IntoIterator<Item = (T, &'a core::ScribeLine)>,
    of: impl Fn(&T) -> String,
) -> Columns {
    Columns::of(rows)
        .text("piece", |(piece, _)| of(piece))
        .count("run", |(_, l)| l.run)
        .number("bottom_x_mm", |(_, l)| l.bottom_mm[0])
        .number("bottom_y_mm", |(_, l)| l.bottom_mm[1])
        .number("top_x_mm", |(_, l)| l.top_mm[0])
        .number("top_y_mm", |(_, l)| l.top_mm[1])
        .done()
}

/// The blank of a sheet that wraps corners, such as an end cap: its flat, its bend marks, its wedge. Cannot be changed.
///
/// Faces stay where they are and the lower edge is level. A corner whose radius differs at both edges, or that turns to a leaning
/// face, is unrolled as the cone that touches both faces, so that both edges run straight over the faces and bend a little in the
/// corners. Marks are taped from the good edge: the first end.
///
/// Args:
///     runs: Lengths of straight runs along the lower edge and corners in turn, from the good edge on; a straight run first and
///         last, such as ``["8 in", rb.Corner("6 in", "90 deg"), "80 in", rb.Corner("6 in", "90 deg"), "8 in"]``.
///     thickness: The sheet.
///     height: Upright from the lower edge to the upper.
///     tape_error: Greatest error of one tape reading.
///     leans: How far each straight run's face leans out over the height, one for each; upright where left out.
///     k: Your own K for all corners; by table and rule as for `Bend` where left out.
///     material: The metal, a name of the catalogue's material table.
///
/// Raises:
///     InputError: Runs not in turn; sizes that no sheet has; corners that run too steeply or meet; a K that is not known.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> corner = rb.Corner("6 in", "90 deg", top_radius="6 1/8 in")
///     >>> cap = rb.CapBlank(["8 in", corner, "80 in", corner, "8 in"], thickness="1.2 mm", height="16 in", tape_error="1 mm")
///     >>> round(cap.length_mm[0], 1), round(cap.out_of_square_mm / 25.4, 3)
///     (2919.1, 0.107)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct CapBlank {
    pieces: Vec<Result<f64, Corner>>,
    leans_mm: Option<Vec<f64>>,
    k: Option<f64>,
    material: String,
    blank: core::Blank,
    flat: core::FlatPattern,
    standing: Standing,
}

impl CapBlank {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let length = |mm: f64| Kind::Length.print(mm);
        let runs = pyo3::types::PyList::empty(py);
        for piece in &self.pieces {
            match piece {
                Ok(mm) => runs.append(length(*mm))?,
                Err(corner) => runs.append(Bound::new(py, corner.clone())?)?,
            }
        }
        Ok(given!(
            py,
            "runs" = Some(runs),
            "thickness" = Some(length(self.blank.thickness_mm)),
            "height" = Some(length(self.blank.height_mm)),
            "tape_error" = Some(length(self.blank.tape_error_mm)),
            "leans" = self.leans_mm.as_ref().map(|all| all.iter().map(|mm| length(*mm)).collect::<Vec<_>>()),
            "k" = self.k,
            "material" = Some(&self.material),
        ))
    }
}

/// A problem of the core under the name that the argument has here.
fn in_python(problem: Problem) -> Problem {
    let path = problem.path();
    let path = match path.rsplit_once('.') {
        Some((run, "length")) => run.to_owned(),
        Some((run, "bottom_radius")) => format!("{run}.radius"),
        _ => path.to_owned(),
    };
    problem.with_path(path)
}

#[pymethods]
impl CapBlank {
    #[new]
    #[pyo3(signature = (runs, *, thickness, height, tape_error, leans = None, k = None, material = "carbon steel"))]
    fn new(
        runs: Several<Piece<'_>>,
        thickness: Quantity<'_>,
        height: Quantity<'_>,
        tape_error: Quantity<'_>,
        leans: Option<Several<Quantity<'_>>>,
        k: Option<Real>,
        material: &str,
    ) -> PyResult<Self> {
        let k = k.map(|own| own.0);
        let mut given = Arguments::default();
        let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
        let height_mm = given.quantity("height", Kind::Length, &height)?;
        let tape_error_mm = given.quantity("tape_error", Kind::Length, &tape_error)?;
        let leans_mm = leans.map(|all| given.each("leans", Kind::Length, &all.0)).transpose()?;
        let mut pieces = Vec::with_capacity(runs.0.len());
        for (i, piece) in runs.0.iter().enumerate() {
            pieces.push(match piece {
                Piece::Straight(length) => Ok(given.quantity(&format!("runs[{i}]"), Kind::Length, length)?),
                Piece::Corner(corner) => Err(corner.clone()),
            });
        }
        given.readable()?;
        let straight = pieces.iter().filter(|piece| piece.is_ok()).count();
        if let Some(all) = leans_mm.as_ref().filter(|all| all.len() != straight) {
            let fix = format!("give one for each of {straight} straight runs");
            return Err(Problem::contradiction("leans", format!("{} leans", all.len()), fix).into());
        }
        let catalogue = Catalogue::standard()?;
        catalogue.material("material", material)?;
        let (mut leans, mut standing) = (leans_mm.iter().flatten(), Standing::Read);
        let mut problems = Vec::new();
        let mut run = |(i, piece): (usize, &Result<f64, Corner>)| match piece {
            Ok(length_mm) => {
                core::Run::Straight { length_mm: *length_mm, lean_mm: leans.next().copied().unwrap_or(0.0) }
            }
            Err(c) => {
                let (bottom_radius_mm, top_radius_mm) = (c.radius_mm, c.top_radius_mm());
                let bend = (thickness_mm, bottom_radius_mm.min(top_radius_mm));
                let axis = core::neutral_axis(&catalogue, material, bend, k);
                standing = axis.as_ref().map_or(standing, |axis| standing.with(axis.standing));
                let k = axis.map_or_else(
                    |problem| {
                        let path = if k.is_some() { "k".to_owned() } else { format!("runs[{i}].k") };
                        problems.push(problem.with_path(path));
                        0.5
                    },
                    |axis| axis.k,
                );
                core::Run::Corner(core::Corner { bottom_radius_mm, top_radius_mm, angle_deg: c.angle_deg, k })
            }
        };
        let runs = pieces.iter().enumerate().map(&mut run).collect();
        let blank = core::Blank { runs, height_mm, thickness_mm, tape_error_mm };
        let flat = match blank.develop() {
            Ok(flat) if problems.is_empty() => flat,
            Ok(_) => return Err(given.refused(problems)),
            // What no size can be explains a K that is not found.
            Err(more) => return Err(given.refused(more.into_iter().map(in_python).collect())),
        };
        Ok(Self { pieces, leans_mm, k, material: material.to_owned(), blank, flat, standing })
    }

    /// Developed length of the lower edge and of the upper edge, mm.
    #[getter]
    fn length_mm(&self) -> (f64, f64) {
        self.flat.length_mm.into()
    }

    /// Smallest rectangle with one side on the good edge, mm: along and up.
    #[getter]
    fn rectangle_mm(&self) -> (f64, f64) {
        self.flat.rectangle_mm.into()
    }

    /// How far both edges turn over the whole flat, degrees.
    #[getter]
    fn developed_angle_deg(&self) -> f64 {
        self.flat.developed_angle_deg
    }

    /// The wedge, mm: how far the far end would be out of square if the sheet were cut as a rectangle and rolled to cylinders, the
    /// upper edge beyond the lower; below nought where the lower reaches farther.
    #[getter]
    fn out_of_square_mm(&self) -> f64 {
        self.flat.out_of_square_mm
    }

    /// What a square cut at the farther of both ends leaves to trim at the lower edge and at the upper edge, mm.
    #[getter]
    fn trim_mm(&self) -> (f64, f64) {
        self.flat.trim_mm.into()
    }

    /// How far a rectangle's lower and upper edge come to hang above the level line at the far end, mm; below nought beneath it.
    #[getter]
    fn climb_mm(&self) -> (f64, f64) {
        self.flat.climb_mm.into()
    }

    /// If every corner is rolled to the radius of the first at its lower edge: how far a sheet cut to that length reaches past the
    /// end of the lower edge and of the upper edge, mm; below nought where it is short. (R - R₀)(2 tan(θ/2) - θ) a corner.
    #[getter]
    fn one_radius_past_mm(&self) -> (f64, f64) {
        self.flat.one_radius_past_mm.into()
    }

    /// K of each corner.
    #[getter]
    fn k(&self) -> Many<f64> {
        let of = |run: &core::Run| match run {
            core::Run::Corner(c) => Some(c.k),
            core::Run::Straight { .. } => None,
        };
        Many(self.blank.runs.iter().filter_map(of).collect())
    }

    /// How firmly the K of the corners is known, at the weakest.
    #[getter]
    fn standing(&self) -> &str {
        self.standing.words()
    }

    /// Where each bend starts and ends, taped from the good edge: piece, corner (from 0), place, bottom_mm, top_mm, the same to
    /// 1/64 in as text, bottom_error_mm and top_error_mm (tape and rounding), chained_error_mm (if each mark were taped from the
    /// one before).
    #[getter]
    fn marks(&self) -> Columns {
        mark_columns(self.flat.marks.iter().map(|m| ((), m)), |()| String::new())
    }

    /// Each corner in the flat: bottom_arc_mm and top_arc_mm (sheet in the bend), developed_angle_deg, bottom_radius_mm and
    /// top_radius_mm (mean radii of the edges in the flat; NaN where they run straight), bottom_chord_mm, top_chord_mm,
    /// start_slant_mm and end_slant_mm (lines across).
    #[getter]
    fn corners(&self) -> Columns {
        Columns::of(&self.flat.corners)
            .number("bottom_arc_mm", |c| c.arc_mm[0])
            .number("top_arc_mm", |c| c.arc_mm[1])
            .number("developed_angle_deg", |c| c.developed_angle_deg)
            .number("bottom_radius_mm", |c| c.developed_radius_mm.map(|r| r[0]))
            .number("top_radius_mm", |c| c.developed_radius_mm.map(|r| r[1]))
            .number("bottom_chord_mm", |c| c.chord_mm[0])
            .number("top_chord_mm", |c| c.chord_mm[1])
            .number("start_slant_mm", |c| c.slant_mm[0])
            .number("end_slant_mm", |c| c.slant_mm[1])
            .done()
    }

    /// Ordinates to scribe both edges through, a row for each line across: piece, run (from 0), bottom_x_mm, bottom_y_mm, top_x_mm,
    /// top_y_mm; x from the good edge along the base line, y up from it.
    #[getter]
    fn lines(&self) -> Columns {
        line_columns(self.flat.lines.iter().map(|l| ((), l)), |()| String::new())
    }

    /// The values and tables by name; None for what is not known.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, this) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in [
            "length_mm",
            "rectangle_mm",
            "developed_angle_deg",
            "out_of_square_mm",
            "trim_mm",
            "climb_mm",
            "one_radius_past_mm",
            "k",
            "standing",
        ] {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        for (name, columns) in [("marks", this.marks()), ("corners", this.corners()), ("lines", this.lines())] {
            dict.set_item(name, columns.rows(py)?)?;
        }
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "CapBlank")
    }

    fn __str__(&self) -> String {
        let [bottom, top] = self.flat.length_mm.map(significant);
        format!(
            "flat of {} corners: {bottom} mm along the lower edge, {top} mm along the upper",
            self.flat.corners.len()
        )
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}
