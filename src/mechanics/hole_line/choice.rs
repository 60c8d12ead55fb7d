//! What a new line over old holes may cost, and the line that costs least: which old holes it uses, which are plugged, where
//! new ones go.

use crate::error::Problem;

use super::HoleLine;
use super::fit::{EdgeLeft, LineFit};
use super::search::Search;

/// How the planner trades fewer new holes and plugs against an even line.
///
/// Each weight says what is as bad as one more new hole. Cost, in new holes: new holes + `plug_worth` x plugs + the sum over
/// all spaces of ((spacing − pitch) / `spacing_worth`)² + (jump / `jump_worth`)², where a jump is the change of the distance
/// off the line from hole to hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trade {
    /// One space so much off the pitch is as bad as one more new hole, mm.
    pub spacing_worth_mm: f64,
    /// One jump so high is as bad as one more new hole, mm.
    pub jump_worth_mm: f64,
    /// One plug is as bad as so many new holes; without effect where the old holes vanish under new sheet.
    pub plug_worth: f64,
}

impl Trade {
    /// Refuses weights that decide nothing.
    ///
    /// # Errors
    /// A spacing or jump worth under 0.01 mm or over 1000 mm; a plug worth less than nought or more than 100 holes.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let spacing = super::in_range("spacing_worth", Some(self.spacing_worth_mm), (0.01, 1000.0), "mm");
        let jump = super::in_range("jump_worth", Some(self.jump_worth_mm), (0.01, 1000.0), "mm");
        let plug = super::in_range("plug_worth", Some(self.plug_worth), (0.0, 100.0), "");
        let problems: Vec<Problem> = [spacing, jump, plug].into_iter().filter_map(Result::err).collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// What unevenness costs, in new holes: sums of squares of spacing less pitch and of jumps, mm².
    pub(super) fn uneven(&self, pitch_mm2: f64, jumps_mm2: f64) -> f64 {
        pitch_mm2 / (self.spacing_worth_mm * self.spacing_worth_mm)
            + jumps_mm2 / (self.jump_worth_mm * self.jump_worth_mm)
    }
}

/// What becomes of an old hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Fate {
    /// It takes a rivet again.
    Used,
    /// It is plugged.
    Plugged,
    /// It is left, and new sheet covers it.
    Covered,
    /// It lies beyond the stretch.
    Beyond,
}

impl Fate {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Used => "use again",
            Self::Plugged => "plug",
            Self::Covered => "leave, covered",
            Self::Beyond => "beyond the stretch",
        }
    }
}

/// A hole of the new line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlannedHole {
    /// Along the line, mm.
    pub along_mm: f64,
    /// Off the datum, mm.
    pub off_mm: f64,
    /// Off the fitted line, mm; nought for a new hole.
    pub off_line_mm: f64,
    /// The old hole that it is, by index; none for a new one.
    pub old: Option<usize>,
    /// From the hole before, mm along; none for the first.
    pub pitch_mm: Option<f64>,
    /// What it leaves to the edge, where there is one.
    pub edge: Option<EdgeLeft>,
}

/// What a line costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cost {
    /// New holes.
    pub new_holes: usize,
    /// Old holes to plug.
    pub plugs: usize,
    /// Sum of the squares of spacing less pitch, mm².
    pub pitch_mm2: f64,
    /// Sum of the squares of the jumps off the line, mm².
    pub jumps_mm2: f64,
    /// All together, in new holes.
    pub total: f64,
}

/// The best line by its [`Trade`].
#[derive(Debug, Clone, PartialEq)]
pub struct LinePlan {
    /// Every hole, in order.
    pub holes: Vec<PlannedHole>,
    /// What becomes of each old hole.
    pub fates: Vec<Fate>,
    /// What it costs.
    pub cost: Cost,
}

impl LinePlan {
    /// Spaces between holes, mm.
    pub fn spaces_mm(&self) -> impl Iterator<Item = f64> {
        self.holes.iter().filter_map(|h| h.pitch_mm)
    }

    /// Smallest and largest spacing, mm.
    pub fn pitch_range_mm(&self) -> (f64, f64) {
        self.spaces_mm().fold((f64::INFINITY, 0.0), |(least, most), mm| (least.min(mm), most.max(mm)))
    }

    /// Root of the mean square of spacing less pitch, mm.
    pub fn pitch_rms_mm(&self) -> f64 {
        (self.cost.pitch_mm2 / self.spaces_mm().count().max(1) as f64).sqrt()
    }

    /// Root of the mean square of the jumps from hole to hole off the line, mm.
    pub fn jump_rms_mm(&self) -> f64 {
        (self.cost.jumps_mm2 / self.spaces_mm().count().max(1) as f64).sqrt()
    }

    /// Jumps from hole to hole, off the line, mm.
    pub fn jumps_mm(&self) -> impl Iterator<Item = f64> {
        self.holes.windows(2).map(|pair| match pair {
            [one, next] => (next.off_line_mm - one.off_line_mm).abs(),
            _ => 0.0,
        })
    }

    /// The hole that leaves least to the edge with 95 %, by index, where there is an edge.
    pub fn nearest_edge(&self) -> Option<(usize, EdgeLeft)> {
        let edges = self.holes.iter().enumerate().filter_map(|(i, h)| Some((i, h.edge?)));
        edges.min_by(|a, b| a.1.least_mm().total_cmp(&b.1.least_mm()))
    }
}

impl HoleLine {
    /// The best line: exactly the least cost of all lines whose spaces lie within the smallest and largest pitch, whose
    /// holes keep the edge distance with 95 %, whose new holes keep off old ones that are not used, and which have a hole
    /// at both ends of the stretch.
    ///
    /// # Errors
    /// As of [`HoleLine::fit`] and [`Trade::validate`]; an end that can have no hole; a gap that no pitch can serve: which,
    /// and by how much.
    pub fn plan(&self, trade: Trade) -> Result<LinePlan, Vec<Problem>> {
        let fit = self.fit()?;
        self.plan_on(&fit, trade)
    }

    /// As [`HoleLine::plan`], on a fit that is at hand.
    ///
    /// # Errors
    /// As of [`HoleLine::plan`].
    pub fn plan_on(&self, fit: &LineFit, trade: Trade) -> Result<LinePlan, Vec<Problem>> {
        trade.validate()?;
        Search::new(self, fit, trade).best()
    }
}
