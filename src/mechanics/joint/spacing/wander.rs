//! Factory holes that wander off their line: the least edge distance along it, as closely as it was measured.

use crate::check::{Check, Verdict};
use crate::error::Problem;

use super::super::super::sheet::in_range;
use super::super::{EDGE_MM, ROUNDING};
use super::{Bound, Distance, Side, compare};

/// One hole as measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredHole {
    /// Along the line from its start, mm.
    pub along_mm: f64,
    /// Off the line, mm; above nought towards the edge.
    pub off_mm: f64,
}

/// What a measured line of holes leaves to a straight edge beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wander {
    /// Number of the hole nearest the edge, from 0 in the order given.
    pub hole: usize,
    /// Where it is along the line, mm.
    pub along_mm: f64,
    /// Its distance to the edge as measured, mm.
    pub least_mm: f64,
    /// The distance of the hole farthest from the edge, mm.
    pub most_mm: f64,
    /// How wrong a measured distance can be, mm.
    pub error_mm: f64,
}

/// The least edge distance over a measured line whose edge runs `edge_mm` beside the straight line.
///
/// Elementary geometry: edge distance of a hole = distance of the edge − off-line distance of the hole. `error_mm` is the
/// greatest error of that distance, both of the hole and of the edge.
///
/// # Errors
/// No hole; a number that is not one; an edge, a wander or an error that no seam has.
///
/// # Example
/// ```
/// use raisedbody::mechanics::joint::spacing::{MeasuredHole, wander};
/// let holes = [(0.0, 0.2), (100.0, 1.5), (200.0, -0.4)].map(|(along_mm, off_mm)| MeasuredHole { along_mm, off_mm });
/// let line = wander(&holes, 13.0, 0.5).unwrap();
/// assert_eq!((line.hole, line.least_mm, line.certain_mm()), (1, 11.5, 11.0));
/// ```
pub fn wander(holes: &[MeasuredHole], edge_mm: f64, error_mm: f64) -> Result<Wander, Vec<Problem>> {
    let mut problems: Vec<Problem> =
        [in_range("edge", Some(edge_mm), EDGE_MM, "mm"), in_range("error", Some(error_mm), (0.0, 25.0), "mm")]
            .into_iter()
            .filter_map(Result::err)
            .collect();
    for (i, hole) in holes.iter().enumerate() {
        let found = [
            in_range(&format!("holes[{i}].along"), Some(hole.along_mm), (-50_000.0, 50_000.0), "mm"),
            in_range(&format!("holes[{i}].off"), Some(hole.off_mm), (-EDGE_MM.1, EDGE_MM.1), "mm"),
        ];
        problems.extend(found.into_iter().filter_map(Result::err));
    }
    let off = |h: &(usize, &MeasuredHole)| h.1.off_mm;
    let nearest = holes.iter().enumerate().max_by(|a, b| off(a).total_cmp(&off(b)));
    let farthest = holes.iter().map(|h| h.off_mm).min_by(f64::total_cmp);
    let (Some((hole, near)), Some(far_mm)) = (nearest, farthest) else {
        problems.push(Problem::missing("holes", "measure at least one hole: its place along the line and off it"));
        return Err(problems);
    };
    if !problems.is_empty() {
        return Err(problems);
    }
    Ok(Wander { hole, along_mm: near.along_mm, least_mm: edge_mm - near.off_mm, most_mm: edge_mm - far_mm, error_mm })
}

impl Wander {
    /// The least edge distance that is certain, mm: as measured less the measuring error.
    pub fn certain_mm(&self) -> f64 {
        self.least_mm - self.error_mm
    }

    /// How much farther out the edge must run to have `edge_mm` at every hole for certain, mm; nought where it has.
    pub fn shift_mm(&self, edge_mm: f64) -> f64 {
        (edge_mm - self.certain_mm()).max(0.0)
    }

    /// Each rule's least edge distance against the hole nearest the edge.
    ///
    /// Passes where even the worst measuring error leaves enough, fails where even the best does not; between the two the
    /// measurement cannot say. A rule that does not cover rivets of this size says nothing.
    pub fn checks(&self, bounds: &[Bound]) -> Vec<Check> {
        let edges = bounds.iter().filter(|b| b.rule.distance == Distance::Edge && b.rule.side == Side::Least);
        edges
            .map(|bound| {
                let subject = format!("hole {} at {:.0} mm", self.hole + 1, self.along_mm);
                let check = compare(bound, Some(self.certain_mm())).at(subject);
                if !bound.covered || check.verdict == Verdict::Passes {
                    return check;
                }
                let shift = format!("move the edge out by {:.1} mm", self.shift_mm(bound.mm));
                if bound.mm <= self.least_mm + self.error_mm + ROUNDING {
                    let reason =
                        format!("hidden by the measuring error of {} mm: measure closer or {shift}", self.error_mm);
                    return check.demoted(Verdict::NotAssessed, reason);
                }
                let reason = check.reason.clone().map_or_else(|| shift.clone(), |r| format!("{r}; {shift}"));
                check.because(reason)
            })
            .collect()
    }
}
