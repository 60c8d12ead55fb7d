//! Lines of old holes: read, fitted, and the best new line found, so that a gap which no pitch serves is told with its place
//! in the file.

use crate::body::raise::Raise;
use crate::body::rivet_lines::set_out;
use crate::body::skins::{SheetRules, Skins};
use crate::body::survey::{Side, Survey};
use crate::body::takeoff::OldHoles;
use crate::check::Standing;
use crate::error::Problem;
use crate::mechanics::hole_line::{Edge, HoleLine, MOST_TOLERANCE_MM, OldHole, OldMetal, Trade};
use crate::plan::drilling::OldLine;
use crate::plan::file;
use crate::plan::relaid::{LiesOn, relay};
use crate::quantity::{Kind, Length};

use super::Assumption;
use super::memory::OfOldHoles;
use super::reader::Reader;

/// Entries of the plan that the fit and the choice call by other names.
const NAMES: [(&str, &str); 3] = [("edge", "edge.off"), ("edge_error", "edge.error"), ("least_edge", "edge.least")];

/// What is said of drilling.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct Drilled {
    /// How far a hole may be from its jig's, mm.
    pub jig_tolerance_mm: f64,
    pub old_lines: Vec<OldLine>,
}

impl Drilled {
    /// Work on lines over old holes that no rivet line has.
    pub fn own_holes(&self) -> OldHoles {
        self.old_lines.iter().map(OldLine::own_holes).sum()
    }
}

pub(super) fn drilled(
    r: &mut Reader<'_>,
    file: &OfOldHoles,
    jig_tolerance: Option<Length>,
    rivet_hole_mm: Option<f64>,
) -> Drilled {
    let (given, field) = (jig_tolerance.map(Length::mm), "fastening.jig_tolerance");
    let (jig_tolerance_mm, _) = r.or_fallback(given, field, "jig_tolerance", (0.0, MOST_TOLERANCE_MM), Kind::Length);
    Drilled { jig_tolerance_mm, old_lines: hole_lines(r, file, rivet_hole_mm) }
}

fn hole_lines(r: &mut Reader<'_>, file: &OfOldHoles, rivet_hole_mm: Option<f64>) -> Vec<OldLine> {
    let mut lines: Vec<OldLine> = Vec::new();
    for (i, given) in file.hole_line.iter().enumerate() {
        let path = format!("hole_line[{i}]");
        let name = given.name.trim();
        if name.is_empty() {
            let fix = "drilling tables are told by name: write what to call it";
            r.problems.push(Problem::missing(format!("{path}.name"), fix));
        } else if file.hole_line.iter().take(i).any(|other| other.name.trim() == name) {
            let problem = "this name is given twice; drilling tables are told by name";
            r.problems.push(Problem::contradiction(format!("{path}.name"), &given.name, problem));
        }
        // What is wrong with the rivet is told there.
        let Some(hole_mm) = given.hole.map(Length::mm).or(rivet_hole_mm) else { continue };
        let line = line(given, hole_mm);
        let trade = Trade {
            spacing_worth_mm: given.spacing_worth.mm(),
            jump_worth_mm: given.jump_worth.mm(),
            plug_worth: given.plug_worth.value(),
        };
        let worked = line.fit().and_then(|fit| {
            let plan = line.plan_on(&fit, trade)?;
            Ok((fit, plan))
        });
        match worked {
            Ok((fit, plan)) => {
                let side = given.side.map(|side| match side {
                    file::Side::Left => Side::Left,
                    file::Side::Right => Side::Right,
                });
                let lies_on = given.lies_on.as_ref().map(|on| lies_on(r, on, &path));
                lines.push(OldLine { name: name.to_owned(), side, line, fit, trade, plan, lies_on });
            }
            Err(problems) => {
                for problem in problems {
                    let own = NAMES.iter().find(|(core, _)| *core == problem.path()).map(|(_, own)| *own);
                    let full = format!("{path}.{}", own.unwrap_or(problem.path()));
                    let problem = match r.document.written(&full) {
                        Some(written) => problem.with_value(written),
                        None => problem,
                    };
                    r.problems.push(problem.with_path(full));
                }
            }
        }
    }
    lines
}

fn lies_on(r: &mut Reader<'_>, on: &file::LiesOn, path: &str) -> LiesOn {
    let field = format!("{path}.lies_on.from");
    let from_mm = r.optional_length(&field, on.from, 0.0, 50_000.0).unwrap_or_else(|| {
        let (value, source) = (Kind::Length.print(0.0), "both lines start together".to_owned());
        r.assumed.push(Assumption { field, value, source, standing: Standing::Assumed });
        0.0
    });
    LiesOn { line: on.line.clone(), from_mm }
}

/// Looks whether each line of old holes lies on the rivet line that it names.
pub(super) fn lies_where_it_says(
    r: &mut Reader<'_>,
    drilled: &Drilled,
    (body, skins): (Option<(&Survey, &Raise)>, Option<&Skins>),
    (rules, pitch_mm): (Option<&SheetRules>, f64),
) {
    let Some((((survey, raise), skins), rules)) = body.zip(skins).zip(rules) else { return };
    if drilled.old_lines.iter().any(|old| old.lies_on.is_some()) {
        let problems = relay(&drilled.old_lines, &mut set_out(survey, raise, skins, rules.edge_mm, pitch_mm)).err();
        for problem in problems.unwrap_or_default() {
            let written = r.document.written(problem.path());
            r.problems.push(match written {
                Some(written) => problem.with_value(written),
                None => problem,
            });
        }
    }
}

fn line(given: &file::HoleLine, hole_mm: f64) -> HoleLine {
    let hole = |h: &file::OldHole| OldHole {
        along_mm: h.along.mm(),
        off_mm: h.off.mm(),
        spoilt: h.spoilt,
        off_error_mm: h.off_error.map(Length::mm),
    };
    HoleLine {
        holes: given.holes.iter().map(hole).collect(),
        along_error_mm: given.along_error.mm(),
        off_error_mm: given.off_error.mm(),
        old_metal: match given.old_metal {
            file::OldMetal::Stays => OldMetal::Stays,
            file::OldMetal::Covered => OldMetal::Covered,
        },
        edge: given.edge.map(|edge| Edge {
            off_mm: edge.off.mm(),
            error_mm: edge.error.unwrap_or(given.off_error).mm(),
            least_mm: edge.least.mm(),
        }),
        stretch_mm: (given.from.mm(), given.to.mm()),
        end_play_mm: given.end_play.mm(),
        pitch_mm: given.pitch.mm(),
        pitches_mm: (given.least_pitch.mm(), given.most_pitch.mm()),
        clearance_mm: given.clearance.mm(),
        hole_mm,
    }
}
