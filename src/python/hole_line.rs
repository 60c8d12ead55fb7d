//! The classes `HoleLine`, `HoleLineFit`, `HoleLinePlan`, `Jigs` and `Drilling`, and the function `jigs`.

use pyo3::PyClass;
use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::check::significant;
use crate::error::Problem;
use crate::mechanics::hole_line::{
    self as core, DrilledHole, Edge, Fate, Gap, Jig, ONE_SIDED_95, OldHole, Trade, drilling_table, even_gap, jig_name,
};
use crate::mechanics::sheet::in_range;
use crate::plan;
use crate::quantity::{Kind, inches_64};

use super::evaluation::part_of;
use super::input::{Arguments, OneOrEach, Quantity, Real, Several, Whole};
use super::interrupts::away;
use super::joint::{given, rebuilt};
use super::output::{Columns, Dict, Many, Recipe};
use super::plan::Plan;

/// Fields of the core under the names that they have here.
const NAMES: [(&str, &str); 2] = [("from", "start"), ("to", "end")];

/// A line of old rivet holes as measured, and what a new line over them has to keep. Cannot be changed.
///
/// Places are told along the line from any mark, and off a string, chalk line or long rule set beside it.
///
/// Args:
///     holes: Each old hole in order, as a pair: along the line, and off the string, above nought towards the edge.
///     spoilt: Holes that are torn, worn oval or too large, by index: they take no rivet and say nothing of the line.
///     along_error: Standard error of a place along the line.
///     off_error: Standard error of a distance off the string; one for all, or one for each hole.
///     old_metal: ``"stays"`` where the old holes stay in sight, so that each is used again or plugged; ``"covered"`` where
///         they vanish under new sheet and guide the drill from inside.
///     edge: The sheet's edge off the string, where there is one.
///     edge_error: Standard error of that; that of the holes, the largest, where left out.
///     least_edge: Least distance from a hole's middle to the edge.
///     start: Where the new line starts; a hole stands there.
///     end: Where it ends; a hole stands there.
///     end_play: How far from an end an old hole may be and still be the end's hole.
///     pitch: Spacing that an even line has.
///     least_pitch: Smallest spacing.
///     most_pitch: Largest spacing.
///     clearance: Metal left between a new hole and an old one that is not used.
///     hole: Diameter of the holes, old and new.
///
/// Raises:
///     InputError: Fewer than two sound holes; holes out of order; an edge without its least distance; lengths that no line
///         has, or that exclude each other.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> line = rb.HoleLine(
///     ...     [("0 mm", "0.2 mm"), ("98 mm", "-1.1 mm"), ("171 mm", "0.9 mm"), ("301 mm", "-0.3 mm"), ("400 mm", "0.4 mm")],
///     ...     along_error="0.5 mm", off_error="0.3 mm", old_metal="stays", start="0 mm", end="400 mm", end_play="3 mm",
///     ...     pitch="100 mm", least_pitch="40 mm", most_pitch="130 mm", clearance="6 mm", hole="6.5 mm",
///     ... )
///     >>> line.plan(spacing_worth="40 mm", jump_worth="3 mm", plug_worth=1)
///     <HoleLinePlan: 5 holes, 0 new, 0 to plug>
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct HoleLine {
    core: core::HoleLine,
}

impl HoleLine {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let (line, length) = (&self.core, |mm: f64| Kind::Length.print(mm));
        let holes: Vec<(String, String)> = line.holes.iter().map(|h| (length(h.along_mm), length(h.off_mm))).collect();
        let spoilt: Vec<usize> = line.holes.iter().enumerate().filter(|(_, h)| h.spoilt).map(|(i, _)| i).collect();
        let dict = given!(
            py,
            "holes" = Some(holes),
            "spoilt" = Some(spoilt),
            "along_error" = Some(length(line.along_error_mm)),
            "old_metal" = Some(line.old_metal.name()),
            "edge" = line.edge.map(|edge| length(edge.off_mm)),
            "edge_error" = line.edge.map(|edge| length(edge.error_mm)),
            "least_edge" = line.edge.map(|edge| length(edge.least_mm)),
            "start" = Some(length(line.stretch_mm.0)),
            "end" = Some(length(line.stretch_mm.1)),
            "end_play" = Some(length(line.end_play_mm)),
            "pitch" = Some(length(line.pitch_mm)),
            "least_pitch" = Some(length(line.pitches_mm.0)),
            "most_pitch" = Some(length(line.pitches_mm.1)),
            "clearance" = Some(length(line.clearance_mm)),
            "hole" = Some(length(line.hole_mm)),
        );
        if line.holes.iter().any(|h| h.off_error_mm.is_some()) {
            let each: Vec<String> = line.holes.iter().map(|h| length(line.off_error_mm(h))).collect();
            dict.set_item("off_error", each)?;
        } else {
            dict.set_item("off_error", length(line.off_error_mm))?;
        }
        Ok(dict)
    }
}

#[pymethods]
impl HoleLine {
    #[new]
    #[pyo3(signature = (
        holes, *, spoilt = None, along_error, off_error, old_metal, edge = None, edge_error = None, least_edge = None, start,
        end, end_play, pitch, least_pitch, most_pitch, clearance, hole
    ))]
    #[allow(clippy::too_many_arguments, reason = "each is a keyword of its own in Python")]
    fn new(
        holes: Several<(Quantity<'_>, Quantity<'_>)>,
        spoilt: Option<Several<Whole<i64>>>,
        along_error: Quantity<'_>,
        off_error: OneOrEach<'_>,
        old_metal: &str,
        edge: Option<Quantity<'_>>,
        edge_error: Option<Quantity<'_>>,
        least_edge: Option<Quantity<'_>>,
        start: Quantity<'_>,
        end: Quantity<'_>,
        end_play: Quantity<'_>,
        pitch: Quantity<'_>,
        least_pitch: Quantity<'_>,
        most_pitch: Quantity<'_>,
        clearance: Quantity<'_>,
        hole: Quantity<'_>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let mut problems = Vec::new();
        let mut measured = Vec::with_capacity(holes.0.len());
        for (i, (along, off)) in holes.0.iter().enumerate() {
            measured.push(OldHole {
                along_mm: given.quantity(&format!("holes[{i}].along"), Kind::Length, along)?,
                off_mm: given.quantity(&format!("holes[{i}].off"), Kind::Length, off)?,
                spoilt: false,
                off_error_mm: None,
            });
        }
        for (i, index) in spoilt.into_iter().flat_map(|Several(all)| all).map(|own| own.0).enumerate() {
            match usize::try_from(index).ok().and_then(|index| measured.get_mut(index)) {
                Some(hole) => hole.spoilt = true,
                None => {
                    let allowed = format!("an index of holes, 0 to {}", holes.0.len().saturating_sub(1));
                    problems.push(Problem::out_of_range(format!("spoilt[{i}]"), index, allowed));
                }
            }
        }
        let along_error_mm = given.quantity("along_error", Kind::Length, &along_error)?;
        let mut each_error = None;
        let off_error_mm = match &off_error {
            OneOrEach::One(one) => given.quantity("off_error", Kind::Length, one)?,
            OneOrEach::Each(Several(each)) => {
                let errors_mm = given.each("off_error", Kind::Length, each)?;
                if errors_mm.len() != measured.len() {
                    let problem = format!("there are {} holes; give one for each, or one for all", measured.len());
                    let written = format!("{} errors", errors_mm.len());
                    problems.push(Problem::contradiction("off_error", written, problem));
                }
                let largest_mm = errors_mm.iter().copied().fold(f64::NAN, f64::max);
                each_error = Some(errors_mm);
                largest_mm
            }
        };
        for (i, (hole, &mm)) in measured.iter_mut().zip(each_error.iter().flatten()).enumerate() {
            hole.off_error_mm = Some(mm);
            problems.extend(in_range(&format!("off_error[{i}]"), Some(mm), core::ERROR_MM, "mm").err());
        }
        let edge_mm = given.optional("edge", Kind::Length, edge.as_ref())?;
        let edge_error_mm = given.optional("edge_error", Kind::Length, edge_error.as_ref())?;
        let least_edge_mm = given.optional("least_edge", Kind::Length, least_edge.as_ref())?;
        let mut length = |name: &str, value: &Quantity<'_>| given.quantity(name, Kind::Length, value);
        let stretch_mm = (length("start", &start)?, length("end", &end)?);
        let end_play_mm = length("end_play", &end_play)?;
        let pitch_mm = length("pitch", &pitch)?;
        let pitches_mm = (length("least_pitch", &least_pitch)?, length("most_pitch", &most_pitch)?);
        let clearance_mm = length("clearance", &clearance)?;
        let hole_mm = length("hole", &hole)?;
        given.readable()?;
        let old_metal = match old_metal.parse() {
            Ok(word) => word,
            Err(problem) => {
                problems.push(problem);
                core::OldMetal::Stays
            }
        };
        let edge = match (edge_mm, least_edge_mm) {
            (Some(off_mm), Some(least_mm)) => {
                Some(Edge { off_mm, error_mm: edge_error_mm.unwrap_or(off_error_mm), least_mm })
            }
            (None, None) => {
                if let Some(mm) = edge_error_mm {
                    let problem = "there is no edge; give edge and least_edge, or leave it out";
                    problems.push(Problem::contradiction("edge_error", Kind::Length.print(mm), problem));
                }
                None
            }
            (Some(_), None) => {
                problems
                    .push(Problem::missing("least_edge", "write the least distance from a hole's middle to the edge"));
                None
            }
            (None, Some(_)) => {
                problems.push(Problem::missing("edge", "write where the edge is, off the string"));
                None
            }
        };
        let core = core::HoleLine {
            holes: measured,
            along_error_mm,
            off_error_mm,
            old_metal,
            edge,
            stretch_mm,
            end_play_mm,
            pitch_mm,
            pitches_mm,
            clearance_mm,
            hole_mm,
        };
        // Errors hole by hole were looked at under their own names.
        let own = |p: &Problem| !(each_error.is_some() && p.path().ends_with("off_error"));
        problems.extend(core.validate().err().unwrap_or_default().into_iter().filter(own));
        if problems.is_empty() { Ok(Self { core }) } else { Err(given.refused_as(&NAMES, problems)) }
    }

    /// The true line through the sound holes, by least squares weighted with the measuring error.
    ///
    /// Returns:
    ///     The line with its errors, the waviness, and every hole against it.
    ///
    /// Raises:
    ///     InputError: The line leans more than 1 in 10 against its string.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> off = ["0.2 mm", "-0.1 mm", "0.4 mm", "0.1 mm", "0.3 mm"]
    ///     >>> line = rb.HoleLine(
    ///     ...     [(f"{500 * i} mm", off) for i, off in enumerate(off)],
    ///     ...     along_error="0.5 mm", off_error="0.3 mm", old_metal="stays", start="0 mm", end="2 m", end_play="3 mm",
    ///     ...     pitch="100 mm", least_pitch="40 mm", most_pitch="130 mm", clearance="6 mm", hole="6.5 mm",
    ///     ... )
    ///     >>> fit = line.fit()
    ///     >>> round(fit.slope, 7), round(fit.at_mm("0 mm"), 3), round(fit.peak_mm, 2)
    ///     (8e-05, 0.1, 0.24)
    fn fit(&self) -> PyResult<HoleLineFit> {
        let core = self.core.fit().map_err(|problems| Arguments::default().refused_as(&NAMES, problems))?;
        Ok(HoleLineFit { line: self.clone(), core })
    }

    /// The best new line: exactly the one of least cost among all that keep pitches, edge distance and clearance.
    ///
    /// Between old holes that follow each other, new ones stand evenly on the fitted line. Cost, in new holes: new holes +
    /// plug_worth × plugs + the sum over all spaces of ((spacing − pitch) / spacing_worth)² + (jump / jump_worth)², where a jump
    /// is the change of the distance off the line from hole to hole.
    ///
    /// Args:
    ///     spacing_worth: One space so much off the pitch is as bad as one more new hole: small for even spacing, large for few
    ///         new holes and plugs.
    ///     jump_worth: One jump so high is as bad as one more new hole: small for a straight line.
    ///     plug_worth: One plug is as bad as so many new holes; without effect where the old metal is covered.
    ///
    /// Returns:
    ///     Which old holes to use, which to plug, where new ones go.
    ///
    /// Raises:
    ///     InputError: An end that can have no hole; a gap that no pitch can serve: which, and by how much; weights out of
    ///         range.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (*, spacing_worth, jump_worth, plug_worth))]
    fn plan(
        &self,
        py: Python<'_>,
        spacing_worth: Quantity<'_>,
        jump_worth: Quantity<'_>,
        plug_worth: Real,
    ) -> PyResult<HoleLinePlan> {
        let mut given = Arguments::default();
        let spacing_worth_mm = given.quantity("spacing_worth", Kind::Length, &spacing_worth)?;
        let jump_worth_mm = given.quantity("jump_worth", Kind::Length, &jump_worth)?;
        given.readable()?;
        let trade = Trade { spacing_worth_mm, jump_worth_mm, plug_worth: plug_worth.0 };
        let core = away(py, || self.core.plan(trade))?.map_err(|problems| given.refused_as(&NAMES, problems))?;
        Ok(HoleLinePlan { line: self.clone(), trade, core })
    }

    /// The old holes: along_mm, off_mm, off_error_mm (one standard error), spoilt.
    #[getter]
    fn holes(&self) -> Columns {
        Columns::of(&self.core.holes)
            .number("along_mm", |h| h.along_mm)
            .number("off_mm", |h| h.off_mm)
            .number("off_error_mm", |h| self.core.off_error_mm(h))
            .flag("spoilt", |h| h.spoilt)
            .done()
    }

    /// Standard error of a place along the line, mm.
    #[getter]
    fn along_error_mm(&self) -> f64 {
        self.core.along_error_mm
    }

    /// ``"stays"`` or ``"covered"``.
    #[getter]
    fn old_metal(&self) -> &str {
        self.core.old_metal.name()
    }

    /// The edge off the string, mm; None where there is none.
    #[getter]
    fn edge_mm(&self) -> Option<f64> {
        self.core.edge.map(|edge| edge.off_mm)
    }

    /// Standard error of the edge's place, mm; None where there is no edge.
    #[getter]
    fn edge_error_mm(&self) -> Option<f64> {
        self.core.edge.map(|edge| edge.error_mm)
    }

    /// Least distance from a hole's middle to the edge, mm; None where there is no edge.
    #[getter]
    fn least_edge_mm(&self) -> Option<f64> {
        self.core.edge.map(|edge| edge.least_mm)
    }

    /// Where the new line starts, mm along.
    #[getter]
    fn start_mm(&self) -> f64 {
        self.core.stretch_mm.0
    }

    /// Where the new line ends, mm along.
    #[getter]
    fn end_mm(&self) -> f64 {
        self.core.stretch_mm.1
    }

    /// How far from an end an old hole may be and still be the end's hole, mm.
    #[getter]
    fn end_play_mm(&self) -> f64 {
        self.core.end_play_mm
    }

    /// Spacing that an even line has, mm.
    #[getter]
    fn pitch_mm(&self) -> f64 {
        self.core.pitch_mm
    }

    /// Smallest spacing, mm.
    #[getter]
    fn least_pitch_mm(&self) -> f64 {
        self.core.pitches_mm.0
    }

    /// Largest spacing, mm.
    #[getter]
    fn most_pitch_mm(&self) -> f64 {
        self.core.pitches_mm.1
    }

    /// Metal left between a new hole and an old one that is not used, mm.
    #[getter]
    fn clearance_mm(&self) -> f64 {
        self.core.clearance_mm
    }

    /// Diameter of the holes, mm.
    #[getter]
    fn hole_mm(&self) -> f64 {
        self.core.hole_mm
    }

    fn __len__(&self) -> usize {
        self.core.holes.len()
    }

    /// The values and holes by name; None for what is not known.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        const VALUES: [&str; 13] = [
            "along_error_mm",
            "old_metal",
            "edge_mm",
            "edge_error_mm",
            "least_edge_mm",
            "start_mm",
            "end_mm",
            "end_play_mm",
            "pitch_mm",
            "least_pitch_mm",
            "most_pitch_mm",
            "clearance_mm",
            "hole_mm",
        ];
        values(slf, &VALUES, [("holes", slf.get().holes())])
    }

    fn __repr__(&self) -> String {
        let spoilt = self.core.holes.iter().filter(|h| h.spoilt).count();
        format!("<HoleLine of {} holes, {spoilt} spoilt, {}>", self.core.holes.len(), self.old_metal())
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// Attributes by name, then tables.
fn values<'py, T: PyClass>(
    object: &Bound<'py, T>,
    names: &[&str],
    tables: impl IntoIterator<Item = (&'static str, Columns)>,
) -> PyResult<Dict<'py>> {
    let py = object.py();
    let dict = PyDict::new(py);
    for name in names {
        dict.set_item(name, object.as_any().getattr(*name)?)?;
    }
    for (name, columns) in tables {
        dict.set_item(name, columns.rows(py)?)?;
    }
    Ok(Dict(dict))
}

/// The true line through old holes; `HoleLine.fit` makes it. Cannot be changed.
///
/// Errors are those of measuring, one standard deviation each: the line through the holes as they truly are lies within
/// them. That the holes wander is told by the waviness.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct HoleLineFit {
    line: HoleLine,
    core: core::LineFit,
}

fn place_mm(place: &Quantity<'_>) -> PyResult<f64> {
    let mut given = Arguments::default();
    let mm = given.quantity("along", Kind::Length, place)?;
    given.readable()?;
    in_range("along", Some(mm), core::ALONG_MM, "mm").map_err(|problem| given.refused(vec![problem]))?;
    Ok(mm)
}

#[pymethods]
impl HoleLineFit {
    /// The line of holes that was fitted.
    #[getter]
    fn line(&self) -> HoleLine {
        self.line.clone()
    }

    /// Off-line distance gained per distance along.
    #[getter]
    fn slope(&self) -> f64 {
        self.core.slope
    }

    /// Standard error of the slope.
    #[getter]
    fn slope_error(&self) -> f64 {
        self.core.slope_error
    }

    /// Place and slope of the line at nought along, as ((mm², mm), (mm, 1)): their covariance.
    #[getter]
    fn covariance(&self) -> ((f64, f64), (f64, f64)) {
        let [place, both, slope] = self.core.covariance_at_zero();
        ((place, both), (both, slope))
    }

    /// Place of the fitted line off the string, mm.
    ///
    /// Args:
    ///     along: Where along the line.
    ///
    /// Raises:
    ///     InputError: A place that no line has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (along))]
    fn at_mm(&self, along: Quantity<'_>) -> PyResult<f64> {
        Ok(self.core.at_mm(place_mm(&along)?))
    }

    /// Standard error of the fitted line's place, mm.
    ///
    /// Args:
    ///     along: Where along the line.
    ///
    /// Raises:
    ///     InputError: A place that no line has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (along))]
    fn error_at_mm(&self, along: Quantity<'_>) -> PyResult<f64> {
        Ok(self.core.error_at_mm(place_mm(&along)?))
    }

    /// Waviness: root of the mean square of the sound holes' distances off the line, mm.
    #[getter]
    fn rms_mm(&self) -> f64 {
        self.core.rms_mm
    }

    /// The largest distance of a sound hole off the line, mm.
    #[getter]
    fn peak_mm(&self) -> f64 {
        self.core.peak_mm
    }

    /// Waviness that the measuring error does not explain, mm; None with two sound holes.
    #[getter]
    fn wander_mm(&self) -> Option<f64> {
        self.core.wander_mm
    }

    /// Index of the sound hole farthest off the line.
    #[getter]
    fn worst(&self) -> usize {
        self.core.worst
    }

    /// Index of the sound hole that leaves least to the edge with 95 %; None where there is no edge.
    #[getter]
    fn nearest_edge(&self) -> Option<usize> {
        self.core.nearest_edge
    }

    /// Indices of holes too far off to belong to the others: measured wrong, or to be marked as spoilt. Chance alone names
    /// one in 5 of 100 lines.
    #[getter]
    fn strays(&self) -> Many<usize> {
        Many(self.core.departures.iter().enumerate().filter(|(_, d)| d.stray).map(|(i, _)| i).collect())
    }

    /// Sum of the squares of departures over measuring errors.
    #[getter]
    fn chi_square(&self) -> f64 {
        self.core.chi_square
    }

    /// Sound holes beyond the two that a line needs.
    #[getter]
    fn freedoms(&self) -> usize {
        self.core.freedoms
    }

    /// Every hole against the line: along_mm, off_mm, off_line_mm (above nought towards the edge), error_mm (of that, from
    /// measuring), edge_mm (left to the edge, as measured), edge_error_mm, edge_least_mm (with 95 %), edge_error_allowed_mm
    /// (the largest error that still keeps the least edge distance with 95 %; below nought none does), spoilt, stray. NaN
    /// where there is no edge.
    #[getter]
    fn table(&self) -> Columns {
        let line = &self.line.core;
        Columns::of(line.holes.iter().zip(&self.core.departures))
            .number("along_mm", |(h, _)| h.along_mm)
            .number("off_mm", |(h, _)| h.off_mm)
            .number("off_line_mm", |(_, d)| d.off_line_mm)
            .number("error_mm", |(_, d)| d.error_mm)
            .number("edge_mm", |(_, d)| d.edge.map(|e| e.mm))
            .number("edge_error_mm", |(_, d)| d.edge.map(|e| e.error_mm))
            .number("edge_least_mm", |(_, d)| d.edge.map(|e| e.least_mm()))
            .number("edge_error_allowed_mm", |(_, d)| {
                line.edge.zip(d.edge).map(|(edge, left)| (left.mm - edge.least_mm) / ONE_SIDED_95)
            })
            .flag("spoilt", |(h, _)| h.spoilt)
            .flag("stray", |(_, d)| d.stray)
            .done()
    }

    /// The values and the table by name; None for what is not known.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        const VALUES: [&str; 10] = [
            "slope",
            "slope_error",
            "rms_mm",
            "peak_mm",
            "wander_mm",
            "worst",
            "nearest_edge",
            "strays",
            "chi_square",
            "freedoms",
        ];
        values(slf, &VALUES, [("table", slf.get().table())])
    }

    fn __repr__(&self) -> String {
        let (rms, peak) = (significant(self.core.rms_mm), significant(self.core.peak_mm));
        format!("<HoleLineFit: waviness {rms} mm, {peak} mm at most, holes[{}]>", self.core.worst)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        Recipe::of_method(&Bound::new(py, self.line.clone())?, "fit", &PyDict::new(py))
    }
}

/// The best new line over old holes; `HoleLine.plan` makes it. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct HoleLinePlan {
    line: HoleLine,
    trade: Trade,
    core: core::LinePlan,
}

impl HoleLinePlan {
    pub fn new(old: &plan::OldLine) -> Self {
        Self { line: HoleLine { core: old.line.clone() }, trade: old.trade, core: old.plan.clone() }
    }
}

#[pymethods]
impl HoleLinePlan {
    /// The line of old holes.
    #[getter]
    fn line(&self) -> HoleLine {
        self.line.clone()
    }

    /// One space so much off the pitch is as bad as one more new hole, mm.
    #[getter]
    fn spacing_worth_mm(&self) -> f64 {
        self.trade.spacing_worth_mm
    }

    /// One jump so high is as bad as one more new hole, mm.
    #[getter]
    fn jump_worth_mm(&self) -> f64 {
        self.trade.jump_worth_mm
    }

    /// One plug is as bad as so many new holes.
    #[getter]
    fn plug_worth(&self) -> f64 {
        self.trade.plug_worth
    }

    /// Every hole of the new line: along_mm, along (to 1/64 in), off_mm, off_line_mm, old (index of the old hole; NaN for a
    /// new one), new, pitch_mm (from the hole before), edge_mm and edge_least_mm (with 95 %; NaN where there is no edge).
    #[getter]
    fn holes(&self) -> Columns {
        Columns::of(&self.core.holes)
            .number("along_mm", |h| h.along_mm)
            .text("along", |h| inches_64(h.along_mm))
            .number("off_mm", |h| h.off_mm)
            .number("off_line_mm", |h| h.off_line_mm)
            .number("old", |h| h.old.map(|i| i as f64))
            .flag("new", |h| h.old.is_none())
            .number("pitch_mm", |h| h.pitch_mm)
            .number("edge_mm", |h| h.edge.map(|e| e.mm))
            .number("edge_least_mm", |h| h.edge.map(|e| e.least_mm()))
            .done()
    }

    /// What becomes of each old hole: along_mm, off_mm, spoilt, fate (``"use again"``, ``"plug"``, ``"leave, covered"`` or
    /// ``"beyond the stretch"``).
    #[getter]
    fn old_holes(&self) -> Columns {
        Columns::of(self.line.core.holes.iter().zip(&self.core.fates))
            .number("along_mm", |(h, _)| h.along_mm)
            .number("off_mm", |(h, _)| h.off_mm)
            .flag("spoilt", |(h, _)| h.spoilt)
            .text("fate", |(_, fate)| fate.words())
            .done()
    }

    /// New holes.
    #[getter]
    fn new_count(&self) -> usize {
        self.core.cost.new_holes
    }

    /// Old holes that are used again.
    #[getter]
    fn used_count(&self) -> usize {
        self.core.fates.iter().filter(|fate| **fate == Fate::Used).count()
    }

    /// Old holes to plug.
    #[getter]
    fn plug_count(&self) -> usize {
        self.core.cost.plugs
    }

    /// The least cost, in new holes.
    #[getter]
    fn cost(&self) -> f64 {
        self.core.cost.total
    }

    /// Root of the mean square of spacing less pitch, mm.
    #[getter]
    fn pitch_rms_mm(&self) -> f64 {
        self.core.pitch_rms_mm()
    }

    /// Root of the mean square of the jumps off the line from hole to hole, mm.
    #[getter]
    fn jump_rms_mm(&self) -> f64 {
        self.core.jump_rms_mm()
    }

    /// The largest jump off the line from hole to hole, mm.
    #[getter]
    fn jump_most_mm(&self) -> f64 {
        self.core.jumps_mm().fold(0.0, f64::max)
    }

    /// Smallest spacing of the new line, mm.
    #[getter]
    fn pitch_least_mm(&self) -> f64 {
        self.core.pitch_range_mm().0
    }

    /// Largest spacing of the new line, mm.
    #[getter]
    fn pitch_most_mm(&self) -> f64 {
        self.core.pitch_range_mm().1
    }

    /// What its holes leave to the edge at least with 95 %, mm; None where there is no edge.
    #[getter]
    fn edge_least_mm(&self) -> Option<f64> {
        self.core.nearest_edge().map(|(_, left)| left.least_mm())
    }

    /// Drilling jigs for the gaps with new holes, each indexed on the old holes or ends beside it.
    ///
    /// Args:
    ///     tolerance: How far a hole may be from its jig's in any gap that the jig serves.
    ///
    /// Returns:
    ///     The jigs, and the drilling table of this line.
    ///
    /// Raises:
    ///     InputError: A tolerance out of range.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (*, tolerance))]
    fn jigs(&self, tolerance: Quantity<'_>) -> PyResult<Jigs> {
        let mut given = Arguments::default();
        let tolerance_mm = given.quantity("tolerance", Kind::Length, &tolerance)?;
        given.readable()?;
        let gaps = self.core.gaps("line");
        let jigs = core::jigs(&gaps, tolerance_mm).map_err(|problems| given.refused(problems))?;
        let holes = drilling_table("line", self.core.places(), &gaps, &jigs);
        Ok(Jigs { of: Origin::Line(Box::new(self.clone())), tolerance_mm, gaps, made: jigs, holes })
    }

    /// The values and tables by name; None for what is not known.
    pub fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        const VALUES: [&str; 13] = [
            "spacing_worth_mm",
            "jump_worth_mm",
            "plug_worth",
            "new_count",
            "used_count",
            "plug_count",
            "cost",
            "pitch_rms_mm",
            "jump_rms_mm",
            "jump_most_mm",
            "pitch_least_mm",
            "pitch_most_mm",
            "edge_least_mm",
        ];
        values(slf, &VALUES, [("holes", slf.get().holes()), ("old_holes", slf.get().old_holes())])
    }

    fn __repr__(&self) -> String {
        let (holes, cost) = (self.core.holes.len(), self.core.cost);
        format!("<HoleLinePlan: {holes} holes, {} new, {} to plug>", cost.new_holes, cost.plugs)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let kwargs = PyDict::new(py);
        kwargs.set_item("spacing_worth", Kind::Length.print(self.trade.spacing_worth_mm))?;
        kwargs.set_item("jump_worth", Kind::Length.print(self.trade.jump_worth_mm))?;
        kwargs.set_item("plug_worth", self.trade.plug_worth)?;
        Recipe::of_method(&Bound::new(py, self.line.clone())?, "plan", &kwargs)
    }
}

/// What jigs were made from.
#[derive(Clone, PartialEq)]
enum Origin {
    Gaps,
    Line(Box<HoleLinePlan>),
    Build(Box<Plan>),
}

/// Drilling jigs, one for each set of like gaps; `jigs`, `HoleLinePlan.jigs` and `Drilling.jigs` make them. Cannot be
/// changed.
///
/// Each hole is rounded from its true place, so that rounding never comes to more than 1/128 in or 0.05 mm.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Jigs {
    of: Origin,
    tolerance_mm: f64,
    gaps: Vec<Gap>,
    made: Vec<Jig>,
    holes: Vec<DrilledHole>,
}

#[pymethods]
impl Jigs {
    /// How far a hole may be from its jig's in any gap that the jig serves, mm.
    #[getter]
    fn tolerance_mm(&self) -> f64 {
        self.tolerance_mm
    }

    /// The jigs: jig (``"J1"``), spaces, length_mm (index hole to last), length (to 1/64 in), gaps_count, inch_error_mm
    /// (greatest rounding error of a place in 1/64 in), metric_error_mm (in 0.1 mm), stepped_error_mm (what the first would
    /// be, were one rounded space stepped off).
    #[getter]
    fn table(&self) -> Columns {
        Columns::of(self.made.iter().enumerate())
            .text("jig", |(i, _)| jig_name(*i))
            .count("spaces", |(_, j)| j.spaces())
            .number("length_mm", |(_, j)| j.length_mm())
            .text("length", |(_, j)| inches_64(j.length_mm()))
            .count("gaps_count", |(_, j)| j.gaps.len())
            .number("inch_error_mm", |(_, j)| j.inch_error_mm())
            .number("metric_error_mm", |(_, j)| j.metric_error_mm())
            .number("stepped_error_mm", |(_, j)| j.stepped_error_mm())
            .done()
    }

    /// The holes of each jig: jig, hole (0 is the index hole), true_mm, inches (to 1/64 in), inch_mm (that in mm), metric_mm
    /// (to 0.1 mm).
    #[getter]
    fn places(&self) -> Columns {
        let all = self.made.iter().enumerate();
        Columns::of(all.flat_map(|(i, jig)| jig.places.iter().enumerate().map(move |(hole, place)| (i, hole, place))))
            .text("jig", |(i, _, _)| jig_name(*i))
            .count("hole", |(_, hole, _)| *hole)
            .number("true_mm", |(_, _, p)| p.true_mm)
            .text("inches", |(_, _, p)| inches_64(p.inch_mm()))
            .number("inch_mm", |(_, _, p)| p.inch_mm())
            .number("metric_mm", |(_, _, p)| p.metric_mm())
            .done()
    }

    /// The gaps that each jig serves: jig, line, from_mm, length_mm, spaces, departure_mm (how far one of its holes or its end
    /// is from the jig's at most).
    #[getter]
    fn gaps(&self) -> Columns {
        let served = self.made.iter().enumerate().flat_map(|(i, jig)| {
            jig.gaps.iter().filter_map(move |served| Some((i, self.gaps.get(served.gap)?, served.departure_mm)))
        });
        Columns::of(served)
            .text("jig", |(i, _, _)| jig_name(*i))
            .text("line", |(_, gap, _)| &gap.line)
            .number("from_mm", |(_, gap, _)| gap.from_mm)
            .number("length_mm", |(_, gap, _)| gap.length_mm)
            .count("spaces", |(_, gap, _)| gap.inner_mm.len() + 1)
            .number("departure_mm", |(_, _, mm)| *mm)
            .done()
    }

    /// The drilling table of every line: line, number (from 1), along_mm, along (to 1/64 in), by (the jig and its hole, an old
    /// hole, or measured). Empty where only gaps were given.
    #[getter]
    fn holes(&self) -> Columns {
        Columns::of(&self.holes)
            .text("line", |h| &h.line)
            .count("number", |h| h.number)
            .number("along_mm", |h| h.along_mm)
            .text("along", |h| inches_64(h.along_mm))
            .text("by", |h| h.by.words())
            .done()
    }

    fn __len__(&self) -> usize {
        self.made.len()
    }

    /// The tolerance and the tables by name.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let own = slf.get();
        let tables = [("table", own.table()), ("places", own.places()), ("gaps", own.gaps()), ("holes", own.holes())];
        values(slf, &["tolerance_mm"], tables)
    }

    fn __repr__(&self) -> String {
        format!("<Jigs: {} for {} gaps>", self.made.len(), self.gaps.len())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let kwargs = PyDict::new(py);
        let drilling = match &self.of {
            Origin::Build(plan) => {
                return part_of(py, plan, "drilling.jigs");
            }
            Origin::Line(line) => Some(line),
            Origin::Gaps => None,
        };
        kwargs.set_item("tolerance", Kind::Length.print(self.tolerance_mm))?;
        if let Some(line) = drilling {
            return Recipe::of_method(&Bound::new(py, (**line).clone())?, "jigs", &kwargs);
        }
        let gap = |gap: &Gap| (gap.line.clone(), Kind::Length.print(gap.length_mm), gap.inner_mm.len() + 1);
        kwargs.set_item("gaps", self.gaps.iter().map(gap).collect::<Vec<_>>())?;
        Recipe::of_call("jigs", &kwargs)
    }
}

/// Drilling jigs for gaps that are evenly spaced: one for each set of like gaps.
///
/// Args:
///     gaps: Each gap: its name, its length from hole to hole, and into how many spaces it is divided.
///     tolerance: How far a hole may be from its jig's in any gap that the jig serves.
///
/// Returns:
///     The jigs, the fewest that serve all gaps.
///
/// Raises:
///     InputError: A gap of one space, a length or a tolerance out of range.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> jigs = rb.jigs([("posts 1 to 2", "28 in", 6), ("posts 2 to 3", "28 1/16 in", 6)], tolerance="1/32 in")
///     >>> jigs, jigs.places["inches"][1:4].tolist()
///     (<Jigs: 1 for 2 gaps>, ['4-43/64 in', '9-11/32 in', '14-1/64 in'])
#[pyfunction]
#[pyo3(signature = (gaps, *, tolerance))]
pub(super) fn jigs(gaps: Several<(String, Quantity<'_>, Whole<i64>)>, tolerance: Quantity<'_>) -> PyResult<Jigs> {
    let mut given = Arguments::default();
    let mut all = Vec::with_capacity(gaps.0.len());
    for (i, (line, length, spaces)) in gaps.0.iter().enumerate() {
        let length_mm = given.quantity(&format!("gaps[{i}].length"), Kind::Length, length)?;
        let spaces = given.count(&format!("gaps[{i}].spaces"), *spaces).min(MOST_SPACES);
        all.push(even_gap(line.clone(), 0.0, length_mm, spaces as usize));
    }
    let tolerance_mm = given.quantity("tolerance", Kind::Length, &tolerance)?;
    given.readable()?;
    let jigs = core::jigs(&all, tolerance_mm).map_err(|problems| given.refused(problems))?;
    Ok(Jigs { of: Origin::Gaps, tolerance_mm, gaps: all, made: jigs, holes: Vec::new() })
}

/// More spaces than any gap may have; they are refused, not laid out.
const MOST_SPACES: u32 = 2000;

/// What a plan drills: jigs, drilling tables, drill and bits; `Evaluation.drilling` holds it. Cannot be changed.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> drilling = rb.Plan.read("examples/mobile_library.toml").evaluate().drilling
///     >>> drilling.drill, len(drilling.jigs) > 1
///     ('17/64 in', True)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Drilling {
    plan: Plan,
    core: plan::Drilling,
}

impl Drilling {
    pub fn new(plan: Plan, core: plan::Drilling) -> Self {
        Self { plan, core }
    }
}

#[pymethods]
impl Drilling {
    /// The jigs of all lines, and the drilling table of every line.
    #[getter]
    fn jigs(&self) -> Jigs {
        let core = &self.core;
        Jigs {
            of: Origin::Build(Box::new(self.plan.clone())),
            tolerance_mm: core.tolerance_mm,
            gaps: core.gaps.clone(),
            made: core.jigs.clone(),
            holes: core.holes.clone(),
        }
    }

    /// The drill of the rivets' holes; None where none of the catalogue is that large.
    #[getter]
    fn drill(&self) -> Option<&str> {
        self.core.drill.as_ref().map(|choice| choice.drill.name.as_str())
    }

    /// Its diameter, mm.
    #[getter]
    fn drill_mm(&self) -> Option<f64> {
        self.core.drill.as_ref().map(|choice| choice.drill.diameter.mm())
    }

    /// Pilot bits of 1/8 in, at least and at most; None where a part's thickness is not one that the catalogue speaks of.
    #[getter]
    fn bits(&self) -> Option<(u64, u64)> {
        self.core.bits
    }

    /// Pilot holes by part: part (``"sheet"`` or ``"rib"``), holes, bit_holes_least and bit_holes_most (that one bit makes;
    /// NaN where not known), standing, note.
    #[getter]
    fn bit_uses(&self) -> Columns {
        Columns::of(&self.core.bit_uses)
            .text("part", |u| u.part)
            .count("holes", |u| u.holes)
            .number("bit_holes_least", |u| u.bit_holes.map(|(least, _)| f64::from(least)))
            .number("bit_holes_most", |u| u.bit_holes.map(|(_, most)| f64::from(most)))
            .text("standing", |u| u.standing.words())
            .text("note", |u| &u.note)
            .done()
    }

    /// The values and tables by name; None for what is not known.
    pub fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let py = slf.py();
        let dict = values(slf, &["drill", "drill_mm", "bits"], [("bit_uses", slf.get().bit_uses())])?;
        dict.0.set_item("jigs", Jigs::to_dict(&Bound::new(py, slf.get().jigs())?)?)?;
        Ok(dict)
    }

    fn __repr__(&self) -> String {
        format!("<Drilling of {} holes with {} jigs>", self.core.holes.len(), self.core.jigs.len())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        part_of(py, &self.plan, "drilling")
    }
}
