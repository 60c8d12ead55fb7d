//! What the cut goes through: every wire, hose, duct, hatch, lamp, window and exit, whether it crosses the cut, goes up with
//! the roof, comes out or stays, and the one thing that is done with it.

use serde::Serialize;

use crate::error::Problem;

/// What runs between roof and body, or hangs on either.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
pub enum ItemKind {
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
    /// A window.
    Window,
    /// A door.
    Door,
    /// An emergency exit.
    Exit,
    /// Anything else that is fixed to the body.
    Fitting,
}

impl ItemKind {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Wires => "wires",
            Self::Hose => "hose",
            Self::Duct => "duct",
            Self::Hatch => "hatch",
            Self::Alarm => "alarm",
            Self::Lamp => "lamp",
            Self::Window => "window",
            Self::Door => "door",
            Self::Exit => "exit",
            Self::Fitting => "fitting",
        }
    }

    /// It runs from one place to another and can be made longer.
    pub fn runs(self) -> bool {
        matches!(self, Self::Wires | Self::Hose | Self::Duct)
    }
}

/// Where an item stands to the cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
pub enum Relation {
    /// Part of it lies above the cut and part below.
    Crosses,
    /// It goes up with the roof.
    Moves,
    /// It comes out.
    Deleted,
    /// It lies below the cut, or beside what is raised.
    Stays,
}

impl Relation {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Crosses => "crosses the cut",
            Self::Moves => "moves with the roof",
            Self::Deleted => "is deleted",
            Self::Stays => "stays",
        }
    }
}

/// What is done with an item.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Action {
    /// Made longer by so much, mm.
    Lengthen {
        /// Length that is put in.
        by_mm: f64,
    },
    /// Taken off and fixed elsewhere.
    Relocate,
    /// Left as it is.
    Keep,
    /// Taken out and its opening closed.
    Close,
}

impl Action {
    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Lengthen { .. } => "lengthen",
            Self::Relocate => "relocate",
            Self::Keep => "keep",
            Self::Close => "close",
        }
    }
}

/// What the planner wants done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Wish {
    /// Made longer by what the raise asks.
    Lengthen,
    /// Taken off and fixed elsewhere.
    Relocate,
    /// Left as it is.
    Keep,
    /// Taken out and its opening closed.
    Close,
}

/// An item as taped, before the raise.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: ItemKind,
    /// Lowest place where it is fixed, mm above the ground.
    pub bottom_mm: f64,
    /// Highest place where it is fixed, mm.
    pub top_mm: f64,
    /// It lies within the part of the body that is raised.
    pub in_raised_part: bool,
    /// Loose length that it has to give, mm.
    pub slack_mm: f64,
    /// What the planner wants; none leaves it to where the item lies.
    pub wish: Option<Wish>,
}

/// A line of the ledger.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Entry {
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: ItemKind,
    /// Where it stands to the cut; none where its heights are not known.
    pub relation: Option<Relation>,
    /// The one thing that is done with it; none where that hangs on heights that are not known.
    pub action: Option<Action>,
    /// What to mind.
    pub note: String,
}

impl Item {
    /// Where the item stands to a cut at this height.
    pub fn relation(&self, cut_mm: f64) -> Relation {
        if !self.in_raised_part || self.top_mm <= cut_mm {
            Relation::Stays
        } else if self.bottom_mm >= cut_mm {
            Relation::Moves
        } else {
            Relation::Crosses
        }
    }

    /// Its line in the ledger of a raise. An item that runs across the cut is lengthened by the raise less its slack.
    ///
    /// # Errors
    /// A wish that where the item lies contradicts; something stiff that crosses the cut without a wish. `path` names the
    /// item's entry.
    pub fn entry(&self, cut_mm: f64, rise_mm: f64, path: &str) -> Result<Entry, Problem> {
        let refuse = |wish: &str, problem: String| Err(Problem::contradiction(format!("{path}.action"), wish, problem));
        let relation = self.relation(cut_mm);
        let short_mm = (rise_mm - self.slack_mm).max(0.0);
        let longer = if short_mm > 0.0 { Action::Lengthen { by_mm: short_mm } } else { Action::Keep };
        let (relation, action, note) = match (relation, self.wish) {
            (_, Some(Wish::Close)) => (Relation::Deleted, Action::Close, String::new()),
            (_, Some(Wish::Relocate)) => (relation, Action::Relocate, "write where to in the plan's notes".to_owned()),
            (Relation::Crosses, None | Some(Wish::Lengthen)) if self.kind.runs() => {
                let note = match longer {
                    Action::Keep => format!("its slack of {:.0} mm is enough for the raise", self.slack_mm),
                    _ if self.slack_mm > 0.0 => format!("the raise less its slack of {:.0} mm", self.slack_mm),
                    _ => "the raise; no slack is in the plan".to_owned(),
                };
                (relation, longer, note)
            }
            (Relation::Crosses, Some(Wish::Keep)) if self.kind.runs() && short_mm <= 0.0 => {
                (relation, Action::Keep, format!("its slack of {:.0} mm is enough for the raise", self.slack_mm))
            }
            (Relation::Crosses, Some(Wish::Keep)) if self.kind.runs() => {
                let problem = format!(
                    "it crosses the cut and would be torn: {short_mm:.0} mm lack; write action = \"lengthen\", or the slack \
                     that it has"
                );
                return refuse("keep", problem);
            }
            (Relation::Crosses, Some(Wish::Keep)) => {
                let words = self.kind.words();
                return refuse("keep", format!("this {words} crosses the cut; relocate it or close it"));
            }
            (Relation::Crosses, None) => {
                let fix = format!(
                    "this {} lies across the cut at {cut_mm:.0} mm: write action = \"relocate\" or \"close\", or cut elsewhere",
                    self.kind.words()
                );
                return Err(Problem::missing(format!("{path}.action"), fix));
            }
            (_, Some(Wish::Lengthen)) => {
                let words = if self.kind.runs() { relation.words() } else { "cannot be made longer" };
                return refuse(
                    "lengthen",
                    format!("this {} {words}; write \"keep\", \"relocate\" or \"close\"", self.kind.words()),
                );
            }
            (Relation::Moves | Relation::Stays | Relation::Deleted, None | Some(Wish::Keep)) => {
                let note = match (relation, self.kind) {
                    (Relation::Moves, ItemKind::Lamp | ItemKind::Alarm | ItemKind::Hatch) => {
                        "its wires or linkage have a line of their own where they cross the cut"
                    }
                    _ => "",
                };
                (relation, Action::Keep, note.to_owned())
            }
        };
        Ok(Entry { name: self.name.clone(), kind: self.kind, relation: Some(relation), action: Some(action), note })
    }
}
