//! Emergency exits before and after the raise, by where they are, and whether a hatch in the roof is still within reach.

use serde::Serialize;

use crate::body::raise::RaisedBody;
use crate::check::{Check, Level, Standing, Verdict, term};

use super::file::{Exit, ExitPlace, File};
use super::resolve::Resolved;

/// How many exits there are in one place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ExitCount {
    /// Left, right, roof, rear, front, or not told.
    pub place: &'static str,
    /// Before the raise.
    pub before: usize,
    /// After.
    pub after: usize,
}

const CLAUSE: &str = "judgement: none is lost by the raise";

/// Counts the exits of each place that has any; those whose place is not in the plan come last.
pub(super) fn count(file: &File) -> Vec<ExitCount> {
    let exits = file.survey.exits.as_deref().unwrap_or_default();
    let places = ExitPlace::ALL.into_iter().map(Some).chain([None]);
    let rows = places.map(|place| {
        let here = || exits.iter().filter(move |exit| exit.place == place);
        ExitCount {
            place: place.map_or("place not told", ExitPlace::words),
            before: here().filter(|exit| !exit.new).count(),
            after: here().filter(|exit| exit.kept).count(),
        }
    });
    rows.filter(|row| row.before + row.after > 0).collect()
}

/// None is lost, in no place; a hatch in the roof stays within reach.
pub(super) fn checks(file: &File, r: &Resolved, raised: &RaisedBody) -> Vec<Check> {
    let exits = file.survey.exits.as_deref().unwrap_or_default();
    let compare = |(before, after): (usize, usize)| {
        let sides = (Some(before as f64), Some(after as f64), "exits");
        Check::compare("emergency exits", CLAUSE, sides, Level::Stated, Standing::Given)
    };
    if exits.is_empty() {
        let none = Check::compare("emergency exits", CLAUSE, (None, None, "exits"), Level::Stated, Standing::Given);
        let why = "the exits are not in the plan; list each one and whether it is kept (survey.exits)";
        return vec![none.because(why)];
    }
    let rows = count(file);
    let all = (rows.iter().map(|row| row.before).sum(), rows.iter().map(|row| row.after).sum());
    let mut checks = Vec::new();
    if exits.iter().any(|exit| exit.place.is_none()) {
        let check = compare(all).at("all together");
        // A new exit elsewhere may stand in for a lost one only where both places are told.
        let swapped = exits.iter().any(|exit| exit.new || !exit.kept);
        let why = "as many as before, but not known to be on the same sides: write each exit's place";
        checks.push(if check.verdict == Verdict::Passes && swapped {
            check.demoted(Verdict::NotAssessed, why)
        } else {
            check
        });
    } else {
        checks.extend(rows.iter().map(|row| compare((row.before, row.after)).at(row.place)));
    }
    let hatches = exits.iter().filter(|exit| exit.place == Some(ExitPlace::Roof) && exit.kept);
    checks.extend(hatches.filter_map(|exit| reach(exit, r, raised)));
    checks
}

/// Whether a small adult on the new floor reaches a hatch in the roof.
fn reach(exit: &Exit, r: &Resolved, raised: &RaisedBody) -> Option<Check> {
    let (reach_mm, standing) = r.cut_day.reach?;
    let step_mm = exit.step.map_or(0.0, |step| step.mm());
    // The hatch is in the roof's own skin, above any new ceiling.
    let hatch_mm = raised.headroom_mm + r.raise.ceiling_build_up_mm;
    let sides = (Some(hatch_mm), Some(reach_mm + step_mm), "mm");
    let check =
        Check::compare("roof exit within reach", "judgement: a small adult reaches it", sides, Level::Stated, standing)
            .at(&exit.name)
            .by(
                "inside height + raise − floor build-up ≤ reach + step",
                [
                    term("inside height", r.survey.inside_height_mm, "mm"),
                    term("raise", r.raise.height_mm, "mm"),
                    term("floor build-up", r.raise.floor_build_up_mm, "mm"),
                    term("reach", reach_mm, "mm"),
                    term("step", step_mm, "mm"),
                ],
            );
    let out = check.verdict == Verdict::Fails;
    Some(if out {
        check.because("it rises out of reach: fix a step or ladder under it (step), or make another exit")
    } else {
        check
    })
}
