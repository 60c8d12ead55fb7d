//! The ledger of what the cut goes through, as written in a plan.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::quantity::Length;

/// A wire, hose, duct, hatch, alarm, lamp or fitting, where it is before the raise, and what is to become of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LedgerItem {
    /// What it is.
    #[schemars(example = "marker lamp wires, rear left post")]
    pub name: String,
    /// Of which kind.
    pub kind: LedgerKind,
    /// Lowest place where it is fixed, above the ground.
    pub bottom: Length,
    /// Highest place where it is fixed; the lowest where left out.
    #[serde(default)]
    pub top: Option<Length>,
    /// Rear face of the body to it; where only part of the roof is raised this says whether it is in that part.
    #[serde(default)]
    pub x: Option<Length>,
    /// Loose length that it has to give.
    #[serde(default)]
    pub slack: Option<Length>,
    /// What is done with it; where left out it follows from where it lies.
    #[serde(default)]
    pub action: Option<LedgerAction>,
}

/// Kind of a ledger item.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LedgerKind {
    /// Wires of any voltage.
    Wires,
    /// A hose or pipe.
    Hose,
    /// A duct for air.
    Duct,
    /// A hatch or vent in the roof.
    Hatch,
    /// An alarm, its switch or its sounder.
    Alarm,
    /// A lamp or reflector.
    Lamp,
    /// Anything else that is fixed to the body.
    Fitting,
}

/// What is done with a ledger item.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LedgerAction {
    /// Made longer by the raise less its slack.
    Lengthen,
    /// Taken off and fixed elsewhere.
    Relocate,
    /// Left as it is.
    Keep,
    /// Taken out and its opening closed.
    Close,
}

/// Where an emergency exit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum ExitPlace {
    /// Left side, facing forward.
    Left,
    /// Right side.
    Right,
    /// In the roof.
    Roof,
    /// In the rear end.
    Rear,
    /// In the front end.
    Front,
}

impl ExitPlace {
    /// Every one.
    pub const ALL: [Self; 5] = [Self::Left, Self::Right, Self::Roof, Self::Rear, Self::Front];

    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Roof => "roof",
            Self::Rear => "rear",
            Self::Front => "front",
        }
    }
}
