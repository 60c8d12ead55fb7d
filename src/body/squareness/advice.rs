//! What to do about a roof that is not square: which corner goes which way, in what order, and go or no-go.

use nalgebra::Vector3;

use crate::body::survey::Side;
use crate::check::{Check, Level, Standing, Verdict, term, worst};
use crate::error::Problem;

use super::fit::Fit;
use super::motion::Body;
use super::{Estimate, Layout, Measured, Parameter, Readings, Residual, Stage, Unused, on};

/// How far the roof may be off where it should be, mm; none where the planner has not said.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize)]
pub struct Tolerances {
    /// Of the height of the drip rail at a post, up or down.
    pub height_mm: Option<f64>,
    /// Of the place of the drip rail over the floor, across and along.
    pub plumb_mm: Option<f64>,
    /// Of the difference between both diagonals in plan.
    pub diagonal_mm: Option<f64>,
}

/// A place where the roof is moved: a corner, or a support.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Corner {
    /// What to call it.
    pub name: String,
    /// Forward of the rear face of the body, mm.
    pub x_mm: f64,
    /// Left of the middle, mm.
    pub y_mm: f64,
    /// Above the ground before the raise, mm.
    pub z_mm: f64,
}

/// The four corners of a layout, at the drip rail.
pub fn corners(layout: &Layout) -> Vec<Corner> {
    let ends = [("rear", layout.stations().first()), ("front", layout.stations().last())];
    let each = ends.into_iter().filter_map(|(end, station)| station.map(|s| (end, s)));
    each.flat_map(|(end, station)| {
        Side::BOTH.map(|side| Corner {
            name: format!("{end} {}", side.name()),
            x_mm: station.x_mm,
            y_mm: side.sign() * on(side, station.drip_half_mm),
            z_mm: layout.drip_rail_mm,
        })
    })
    .collect()
}

/// Ways to move, each none where the readings do not tell it.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Move {
    /// Forward; back is below nought.
    pub forward: Option<Measured>,
    /// Left; right is below nought.
    pub left: Option<Measured>,
    /// Up; down is below nought.
    pub up: Option<Measured>,
}

/// How one corner goes.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct CornerMove {
    /// Which.
    pub corner: Corner,
    /// How.
    pub by: Move,
}

/// A step of the work; later ones would be spoilt by earlier ones done after them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum Step {
    /// Height, pitch and roll out.
    Level,
    /// Twist out.
    Twist,
    /// Yaw and racking out.
    Square,
    /// Spread out.
    Width,
    /// Sideways and fore-and-aft.
    Shift,
}

impl Step {
    /// In the order of the work.
    pub const ALL: [Self; 5] = [Self::Level, Self::Twist, Self::Square, Self::Width, Self::Shift];

    /// What is done.
    pub fn words(self) -> &'static str {
        match self {
            Self::Level => "level",
            Self::Twist => "take the twist out",
            Self::Square => "turn and rack it square",
            Self::Width => "draw the width in or push it out",
            Self::Shift => "shift it sideways and along",
        }
    }

    fn parameters(self) -> &'static [Parameter] {
        match self {
            Self::Level => &[Parameter::Up, Parameter::Pitch, Parameter::Roll],
            Self::Twist => &[Parameter::Twist],
            Self::Square => &[Parameter::Yaw, Parameter::Racking],
            Self::Width => &[Parameter::Spread],
            Self::Shift => &[Parameter::Left, Parameter::Forward],
        }
    }
}

/// A step at every corner.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct StepMoves {
    /// Which.
    pub step: Step,
    /// How each corner goes in it.
    pub moves: Vec<CornerMove>,
}

/// What follows from the checks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum Decision {
    /// Within every tolerance, measuring error included. Says nothing of supports, braces or strength.
    Go,
    /// A tolerance is exceeded beyond the measuring error.
    NoGo,
    /// Neither can be said.
    MeasureAgain,
}

impl Decision {
    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Go => "go",
            Self::NoGo => "no-go",
            Self::MeasureAgain => "measure again",
        }
    }
}

/// A roof measured up: its motion, what to do about it, and whether it is square enough.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Squareness {
    /// When it was measured.
    pub stage: Stage,
    /// Length that pitch, yaw, twist and sag are told over, mm.
    pub length_mm: f64,
    /// Width that roll, twist, racking and spread are told over, mm.
    pub width_mm: f64,
    /// The motion.
    pub parameters: Vec<Estimate>,
    /// Every reading against the fit.
    pub residuals: Vec<Residual>,
    /// Sum of the squares of residuals over errors.
    pub chi_square: f64,
    /// Readings beyond those that the motion needs.
    pub freedoms: usize,
    /// Chance of so much scatter or more, were the errors as stated; none without readings to spare.
    pub probability: Option<f64>,
    /// Readings that could not be used.
    pub unused: Vec<Unused>,
    /// How each corner goes, all steps together.
    pub moves: Vec<CornerMove>,
    /// The same step by step.
    pub steps: Vec<StepMoves>,
    /// Each post and direction against the planner's tolerance.
    pub checks: Vec<Check>,
}

impl Layout {
    /// Fits the readings of a stage with the roof up against those before the cut.
    ///
    /// `corners` are where the roof is moved: [`corners`], or the supports. `standing` is how the measuring errors and
    /// tolerances are known.
    ///
    /// # Errors
    /// Unknown or impossible readings, and readings that contradict each other beyond their errors.
    pub fn fit(
        &self,
        stage: Stage,
        (after, before): (&Readings, &Readings),
        corners: &[Corner],
        tolerances: &Tolerances,
        standing: Standing,
    ) -> Result<Squareness, Vec<Problem>> {
        let fit = Fit::new(self, stage, after, before)?;
        let steps = Step::ALL.map(|step| StepMoves {
            step,
            moves: corners.iter().map(|corner| moved_back(&fit, corner, Some(step))).collect(),
        });
        Ok(Squareness {
            stage,
            length_mm: self.length_mm(),
            width_mm: self.width_mm(),
            parameters: fit.estimates(),
            moves: corners.iter().map(|corner| moved_back(&fit, corner, None)).collect(),
            steps: steps.into(),
            checks: checks(self, &fit, tolerances, standing),
            residuals: fit.residuals,
            chi_square: fit.chi_square,
            freedoms: fit.freedoms,
            probability: fit.probability,
            unused: fit.unused,
        })
    }
}

impl Squareness {
    /// Go, no-go, or measure again.
    pub fn decision(&self) -> Decision {
        match worst(&self.checks) {
            Verdict::Passes => Decision::Go,
            Verdict::Fails => Decision::NoGo,
            Verdict::NotAssessed | Verdict::OutsideRange => Decision::MeasureAgain,
        }
    }

    /// A parameter; none where the readings do not tell it.
    pub fn value(&self, parameter: Parameter) -> Option<Measured> {
        self.parameters.iter().find(|e| e.parameter == parameter).and_then(|e| e.value)
    }

    /// Parameters that the readings do not tell.
    pub fn undetermined(&self) -> impl Iterator<Item = Parameter> {
        self.parameters.iter().filter(|e| e.value.is_none()).map(|e| e.parameter)
    }

    /// Readings that no other reading checks: a slip of the tape in one of them would go unseen.
    pub fn unchecked(&self) -> impl Iterator<Item = &Residual> {
        self.residuals.iter().filter(|r| r.normalised.is_none())
    }
}

fn along(body: &Body, unknowns: &[f64], point: Vector3<f64>, axis: usize) -> f64 {
    body.motion(unknowns).of_mm(point).get(axis).copied().unwrap_or(0.0)
}

/// How a corner goes back to where it should be: in one step of the work, or in all of them.
fn moved_back(fit: &Fit, corner: &Corner, step: Option<Step>) -> CornerMove {
    let point = Vector3::new(corner.x_mm, corner.y_mm, corner.z_mm);
    let of_step = |unknowns: &[f64]| -> Vec<f64> {
        let Some(step) = step else { return unknowns.to_vec() };
        let in_step = |i: usize| step.parameters().iter().any(|p| p.index() == i);
        unknowns.iter().enumerate().map(|(i, v)| if in_step(i) { *v } else { 0.0 }).collect()
    };
    let back =
        |axis: usize| fit.measured(&|unknowns| along(&fit.body, &of_step(unknowns), point, axis)).map(Measured::turned);
    CornerMove { corner: corner.clone(), by: Move { forward: back(0), left: back(1), up: back(2) } }
}

const CLAUSE: &str = "the planner's tolerance";
const FORMULA: &str = "|d| + 1.96 u ≤ t";

fn check(
    (name, subject): (&'static str, String),
    found: Option<Measured>,
    (tolerance_mm, entry): (Option<f64>, &str),
    standing: Standing,
) -> Check {
    let upper_mm = found.map(|d| d.mm.abs() + d.within_mm());
    let check = Check::compare(name, CLAUSE, (upper_mm, tolerance_mm, "mm"), Level::Stated, standing).at(subject);
    let Some(d) = found else {
        return check.because("the readings do not tell it: fill in more of the form, at both ends and on both sides");
    };
    let mut terms = vec![term("d", d.mm, "mm"), term("u", d.standard_mm, "mm")];
    let Some(tolerance_mm) = tolerance_mm else {
        return check
            .by(FORMULA, terms)
            .because(format!("the plan names no tolerance: write measure_up.tolerance or measure_up.{entry}"));
    };
    terms.push(term("t", tolerance_mm, "mm"));
    let found_mm = format!("{:+.1} mm ± {:.1} mm", d.mm, d.within_mm());
    let check = check.by(FORMULA, terms);
    if d.mm.abs() - d.within_mm() > tolerance_mm {
        return check.because(format!("{found_mm}, out of tolerance beyond the measuring error"));
    }
    if check.verdict == Verdict::Fails {
        let why = format!("{found_mm} lies about the tolerance of {tolerance_mm} mm: measure again, or more closely");
        return check.demoted(Verdict::NotAssessed, why);
    }
    if !d.checked {
        let why =
            format!("{found_mm}, but it rests on a reading that no other checks: a slip would go unseen; take more");
        return check.demoted(Verdict::NotAssessed, why);
    }
    check.because(found_mm)
}

fn checks(layout: &Layout, fit: &Fit, tolerances: &Tolerances, standing: Standing) -> Vec<Check> {
    let height = (tolerances.height_mm, "height_tolerance");
    let plumb = (tolerances.plumb_mm, "plumb_tolerance");
    let kinds = [("height", 2, height), ("plumb across", 1, plumb), ("plumb along", 0, plumb)];
    let drip = |station: &super::Station, side: Side| {
        Vector3::new(station.x_mm, side.sign() * on(side, station.drip_half_mm), layout.drip_rail_mm)
    };
    let mut checks = Vec::new();
    for (name, axis, tolerance) in kinds {
        for side in Side::BOTH {
            for station in layout.stations() {
                let point = drip(station, side);
                let found = fit.measured(&|unknowns| along(&fit.body, unknowns, point, axis));
                let subject = format!("post {}, {}", station.post, side.name());
                checks.push(check((name, subject), found, tolerance, standing));
            }
        }
    }
    if let (Some(rear), Some(front)) = (layout.stations().first(), layout.stations().last()) {
        let longer = |unknowns: &[f64]| {
            let motion = fit.body.motion(unknowns);
            let at = |station, side| {
                let point = drip(station, side);
                (point, point + motion.of_mm(point))
            };
            let grown = |a: (Vector3<f64>, Vector3<f64>), b: (Vector3<f64>, Vector3<f64>)| {
                (a.1 - b.1).norm() - (a.0 - b.0).norm()
            };
            grown(at(rear, Side::Right), at(front, Side::Left)) - grown(at(rear, Side::Left), at(front, Side::Right))
        };
        let tolerance = (tolerances.diagonal_mm, "diagonal_tolerance");
        let subject = format!("posts {} and {}", rear.post, front.post);
        checks.push(check(("diagonals in plan", subject), fit.measured(&longer), tolerance, standing));
    }
    checks
}
