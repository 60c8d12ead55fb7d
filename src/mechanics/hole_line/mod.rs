//! A line of old rivet holes as measured: the true line through them, which of them to use again, which to plug, where
//! new ones go, and the jigs that set those out.
//!
//! Places are told along the line and off it, from any straight datum beside it: a string, a chalk line, a long rule.

mod choice;
mod fit;
mod jig;
mod search;

use crate::error::{Problem, by_name};

use super::sheet::in_range;

pub use choice::{Cost, Fate, LinePlan, PlannedHole, Trade};
pub use fit::{Departure, EdgeLeft, LineFit};
pub use jig::{
    DrilledHole, Gap, GapServed, Jig, JigPlace, MOST_TOLERANCE_MM, SetOut, bits, drilling_table, even_gap,
    gaps_between, jig_name, jigs,
};

use std::str::FromStr;

/// Places along a line, mm.
pub const ALONG_MM: (f64, f64) = (-50_000.0, 50_000.0);
/// Distances off the datum and to an edge, mm.
pub const OFF_MM: f64 = 300.0;
/// Diameters of holes, mm.
pub const HOLE_MM: (f64, f64) = (1.5, 20.0);
/// Spacings, mm.
pub const PITCH_MM: (f64, f64) = (5.0, 1000.0);
/// Standard errors of a tape, mm.
pub const ERROR_MM: (f64, f64) = (0.01, 25.0);
/// Holes in a line: below are too few for a line, above is no line of rivets.
pub const HOLES: (usize, usize) = (2, 5000);
/// Ninety-five parts of a hundred of a normal distribution lie below so many standard errors above the mean.
pub const ONE_SIDED_95: f64 = 1.644_853_626_951_472_7;

/// An old hole as measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OldHole {
    /// Along the line, mm.
    pub along_mm: f64,
    /// Off the datum, mm; above nought towards the edge.
    pub off_mm: f64,
    /// Torn, worn oval or too large: it takes no rivet and says nothing of the line.
    pub spoilt: bool,
    /// Standard error of this hole's off-line distance, mm, where it was measured otherwise than the rest.
    pub off_error_mm: Option<f64>,
}

/// What becomes of the metal with the old holes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum OldMetal {
    /// It stays in sight: each old hole is used again or plugged.
    Stays,
    /// It goes under new sheet: an old hole guides the drill from inside, or is left as it is.
    Covered,
}

impl OldMetal {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Stays, Self::Covered];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Stays => "stays",
            Self::Covered => "covered",
        }
    }
}

impl FromStr for OldMetal {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("old_metal", "word for the metal with the old holes", text, &Self::ALL, Self::name)
    }
}

/// The straight edge beside a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Off the datum, mm, on the side above nought.
    pub off_mm: f64,
    /// Its standard error, mm.
    pub error_mm: f64,
    /// Least distance from a hole's middle, mm.
    pub least_mm: f64,
}

/// A line of old holes and what a new line over them has to keep.
#[derive(Debug, Clone, PartialEq)]
pub struct HoleLine {
    /// The old holes, each farther along than the one before.
    pub holes: Vec<OldHole>,
    /// Standard error of a place along the line, mm.
    pub along_error_mm: f64,
    /// Standard error of an off-line distance, mm.
    pub off_error_mm: f64,
    /// What becomes of the metal with the old holes.
    pub old_metal: OldMetal,
    /// The edge, where there is one.
    pub edge: Option<Edge>,
    /// Where the new line starts and ends, mm along; both have a hole.
    pub stretch_mm: (f64, f64),
    /// How far from an end of the stretch an old hole may be and still be the end's hole, mm.
    pub end_play_mm: f64,
    /// Spacing that an even line has, mm.
    pub pitch_mm: f64,
    /// Smallest and largest spacing, mm.
    pub pitches_mm: (f64, f64),
    /// Metal left between a new hole and an old one that is not used, mm.
    pub clearance_mm: f64,
    /// Diameter of new and old holes, mm.
    pub hole_mm: f64,
}

impl HoleLine {
    /// Standard error of a hole's off-line distance, mm.
    pub fn off_error_mm(&self, hole: &OldHole) -> f64 {
        hole.off_error_mm.unwrap_or(self.off_error_mm)
    }

    /// Middle to middle, how far a new hole stays from an old one that is not used, mm: a hole's diameter, the clearance,
    /// and what the old hole's place may be off with 95 %.
    pub fn keep_off_mm(&self, hole: &OldHole) -> f64 {
        self.hole_mm + self.clearance_mm + ONE_SIDED_95 * self.along_error_mm.max(self.off_error_mm(hole))
    }

    /// Refuses what is no line of holes.
    ///
    /// # Errors
    /// Too few or too many holes, fewer than two of them sound; holes out of order; numbers that are none or that no line
    /// has; limits that exclude each other.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        let mut bounded = |name: &str, mm: f64, bounds: (f64, f64)| {
            problems.extend(in_range(name, Some(mm), bounds, "mm").err());
        };
        for (i, hole) in self.holes.iter().enumerate() {
            bounded(&format!("holes[{i}].along"), hole.along_mm, ALONG_MM);
            bounded(&format!("holes[{i}].off"), hole.off_mm, (-OFF_MM, OFF_MM));
            if let Some(error_mm) = hole.off_error_mm {
                bounded(&format!("holes[{i}].off_error"), error_mm, ERROR_MM);
            }
        }
        bounded("along_error", self.along_error_mm, ERROR_MM);
        bounded("off_error", self.off_error_mm, ERROR_MM);
        if let Some(edge) = self.edge {
            bounded("edge", edge.off_mm, (-OFF_MM, 2.0 * OFF_MM));
            bounded("edge_error", edge.error_mm, ERROR_MM);
            bounded("least_edge", edge.least_mm, (1.0, OFF_MM));
        }
        let ((from_mm, to_mm), (least_mm, most_mm)) = (self.stretch_mm, self.pitches_mm);
        bounded("from", from_mm, ALONG_MM);
        bounded("to", to_mm, ALONG_MM);
        bounded("end_play", self.end_play_mm, (0.0, 500.0));
        bounded("least_pitch", least_mm, PITCH_MM);
        bounded("most_pitch", most_mm, PITCH_MM);
        bounded("pitch", self.pitch_mm, PITCH_MM);
        bounded("clearance", self.clearance_mm, (0.0, 100.0));
        bounded("hole", self.hole_mm, HOLE_MM);
        let sound = self.holes.iter().filter(|h| !h.spoilt).count();
        let fix = if self.holes.len() < HOLES.0 {
            Some("measure at least two holes: their places along the line and off it")
        } else if sound < HOLES.0 {
            Some("fewer than two are sound: a line needs two holes that are not spoilt")
        } else {
            None
        };
        problems.extend(fix.map(|fix| Problem::missing("holes", fix)));
        if self.holes.len() > HOLES.1 {
            let allowed = format!("at most {} in one line", HOLES.1);
            problems.push(Problem::out_of_range("holes", self.holes.len(), allowed));
        }
        // What follows compares numbers that must first be some.
        if !problems.is_empty() {
            return Err(problems);
        }
        for (i, pair) in self.holes.windows(2).enumerate() {
            if let [one, next] = pair
                && next.along_mm <= one.along_mm
            {
                problems.push(Problem::contradiction(
                    format!("holes[{}].along", i + 1),
                    format!("{} mm", next.along_mm),
                    format!("out of order: holes[{i}] is at {} mm; list the holes along the line", one.along_mm),
                ));
            }
        }
        let contradiction =
            |name: &str, mm: f64, problem: String| Problem::contradiction(name, format!("{mm} mm"), problem);
        if most_mm < least_mm {
            let problem = format!("it is under the smallest pitch of {least_mm} mm");
            problems.push(contradiction("most_pitch", most_mm, problem));
        } else if !(least_mm..=most_mm).contains(&self.pitch_mm) {
            let problem = format!("an even line keeps the smallest and largest pitch: {least_mm} to {most_mm} mm");
            problems.push(contradiction("pitch", self.pitch_mm, problem));
        }
        let keep_off_mm = self.holes.iter().map(|h| self.keep_off_mm(h)).fold(self.hole_mm, f64::max);
        if least_mm < keep_off_mm {
            problems.push(contradiction(
                "least_pitch",
                least_mm,
                format!(
                    "new holes stay {keep_off_mm:.2} mm (hole, clearance and measuring error) from old ones; used holes \
                     cannot stand closer than that"
                ),
            ));
        }
        if self.end_play_mm >= least_mm {
            let problem = format!("two holes could stand at one end: less than the smallest pitch of {least_mm} mm");
            problems.push(contradiction("end_play", self.end_play_mm, problem));
        }
        if to_mm - from_mm < least_mm + 2.0 * self.end_play_mm {
            let problem = format!(
                "from {from_mm} mm there must be at least the smallest pitch and the play at both ends: {} mm",
                least_mm + 2.0 * self.end_play_mm
            );
            problems.push(contradiction("to", to_mm, problem));
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}
