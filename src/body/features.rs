//! What is fixed to the body or let into it, and where it cannot be.

use crate::error::Problem;

use super::raise::{Ends, Raise};
use super::survey::{Side, Survey};

/// What a feature is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum FeatureKind {
    /// A rail below the windows.
    RubRail,
    /// The drip rail.
    DripRail,
    /// A window.
    Window,
    /// A door.
    Door,
    /// The cap that closes an end.
    EndCap,
    /// Anything else.
    Fitting,
}

impl FeatureKind {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::RubRail => "rub rail",
            Self::DripRail => "drip rail",
            Self::Window => "window",
            Self::Door => "door",
            Self::EndCap => "end cap",
            Self::Fitting => "fitting",
        }
    }

    /// It may be taped at one height, rather than from a lower to an upper edge.
    pub fn has_one_height(self) -> bool {
        matches!(self, Self::RubRail | Self::DripRail | Self::Fitting)
    }

    /// It may run along the whole body.
    pub fn runs_along(self) -> bool {
        matches!(self, Self::RubRail | Self::DripRail)
    }
}

/// Something on the body.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Feature {
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: FeatureKind,
    /// Its side; none where it is on both.
    pub side: Option<Side>,
    /// Lower edge, mm above the ground.
    pub bottom_mm: f64,
    /// Upper edge, mm; the same where it was taped at one height.
    pub top_mm: f64,
    /// Rear end, mm forward of the rear face.
    pub rear_mm: f64,
    /// Front end, mm.
    pub front_mm: f64,
}

impl Feature {
    /// It is on this side.
    pub fn is_on(&self, side: Side) -> bool {
        self.side.is_none_or(|own| own == side)
    }

    fn on_one_side_with(&self, other: &Self) -> bool {
        Side::BOTH.into_iter().any(|side| self.is_on(side) && other.is_on(side))
    }

    /// The entry that gives its upper or its lower edge.
    fn edge(&self, edge: &'static str) -> &'static str {
        if self.bottom_mm < self.top_mm { edge } else { "height" }
    }
}

/// Everything in which the features as listed contradict the survey; `tape_mm` is how closely they were taped.
pub fn feature_problems(features: &[Feature], survey: &Survey, tape_mm: f64) -> Vec<Problem> {
    let mut problems = Vec::new();
    let h = &survey.heights;
    for (i, feature) in features.iter().enumerate() {
        let mut say = |entry: &str, value_mm: f64, problem: String| {
            let path = format!("survey.features[{i}].{entry}");
            problems.push(Problem::contradiction(path, format!("{value_mm:.0} mm"), problem));
        };
        let (bottom_mm, top_mm) = (feature.bottom_mm, feature.top_mm);
        if feature.rear_mm < -tape_mm {
            say("rear", feature.rear_mm, "behind the rear face of the body; stations count forward from it".to_owned());
        }
        if feature.front_mm > survey.length_mm + tape_mm {
            let problem = format!("ahead of the front face of the body at {:.0} mm", survey.length_mm);
            say("front", feature.front_mm, problem);
        }
        if top_mm > h.overall_mm + tape_mm {
            let problem = format!(
                "above vehicle.overall_height at {:.0} mm, which is to the highest fixed part; measure one of them again",
                h.overall_mm
            );
            say(feature.edge("top"), top_mm, problem);
        }
        let start_mm = survey.section.left.start().z_mm.min(survey.section.right.start().z_mm);
        if survey.leans.is_none() && bottom_mm < start_mm - tape_mm {
            let problem = format!("below the body, whose outline begins at {start_mm:.0} mm");
            say(feature.edge("bottom"), bottom_mm, problem);
        }
        match feature.kind {
            FeatureKind::RubRail if top_mm >= h.window_bottom_mm => {
                let problem = format!("a rub rail lies below survey.window_bottom at {:.0} mm", h.window_bottom_mm);
                say(feature.edge("top"), top_mm, problem);
            }
            FeatureKind::DripRail if bottom_mm > h.drip_rail_mm + tape_mm || top_mm < h.drip_rail_mm - tape_mm => {
                let problem = format!(
                    "survey.drip_rail is at {:.0} mm, more than the tape's error of {tape_mm:.0} mm away; measure one of \
                     them again",
                    h.drip_rail_mm
                );
                say(feature.edge("bottom"), bottom_mm, problem);
            }
            FeatureKind::Window if top_mm > h.drip_rail_mm + tape_mm => {
                let problem = format!("a window ends below survey.drip_rail at {:.0} mm", h.drip_rail_mm);
                say("top", top_mm, problem);
            }
            FeatureKind::EndCap if feature.rear_mm > tape_mm && feature.front_mm < survey.length_mm - tape_mm => {
                let problem = format!(
                    "an end cap reaches the rear face at 0 mm or the front face at {:.0} mm; this one reaches neither",
                    survey.length_mm
                );
                say("rear", feature.rear_mm, problem);
            }
            _ => {}
        }
        let earlier = features.iter().take(i);
        if earlier.into_iter().any(|other| other.name == feature.name && other.on_one_side_with(feature)) {
            problems.push(Problem::contradiction(
                format!("survey.features[{i}].name"),
                &feature.name,
                "this name is used twice on one side; number them",
            ));
        }
    }
    problems
}

/// Doors that the cut would pass through.
pub fn cut_problems(features: &[Feature], survey: &Survey, raise: &Raise) -> Vec<Problem> {
    let post = |i: usize| survey.posts_mm.get(i).copied().unwrap_or(0.0);
    let (rear_mm, front_mm) = match raise.ends {
        Ends::WholeRoof => (0.0, survey.length_mm),
        _ => (post(raise.first_post), post(raise.last_post)),
    };
    let doors = features.iter().enumerate().filter(|(_, feature)| feature.kind == FeatureKind::Door);
    let through = doors.filter(|(_, door)| {
        door.bottom_mm < raise.cut_mm
            && raise.cut_mm < door.top_mm
            && door.rear_mm < front_mm
            && rear_mm < door.front_mm
    });
    through
        .map(|(i, door)| {
            Problem::contradiction(
                format!("survey.features[{i}].top"),
                format!("{:.0} mm", door.top_mm),
                format!(
                    "the cut at {:.0} mm passes through this door, between {rear_mm:.0} and {front_mm:.0} mm from the rear; \
                     cut above it or raise only posts beside it",
                    raise.cut_mm
                ),
            )
        })
        .collect()
}
