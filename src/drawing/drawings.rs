//! The drawings of an evaluation by name.

use crate::body::survey::Side;
use crate::plan::Evaluation;

use super::side_view;

/// What a drawing shows; where it belongs in a job packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Subject {
    /// The body: sides, ends, cross-section.
    Body,
    /// The day of the cut: supports and braces.
    CutDay,
    /// A pair of posts with its roof bow under load.
    Frame,
    /// Which sheet lies over which.
    Laps,
    /// A sheet or panel with its holes and bends.
    Blank,
    /// A rivet line with its holes.
    Line,
    /// A drilling jig.
    Jig,
    /// How sheets and bars are cut.
    CutPlan,
    /// Who does what when.
    Schedule,
}

/// A drawing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawing {
    /// Its name, by which it is asked for: `left`, `blank L-A1`.
    pub name: String,
    /// What it shows.
    pub subject: Subject,
    /// What it shows, in words.
    pub title: String,
    /// The SVG document.
    pub svg: String,
}

/// Every drawing that an evaluation has.
pub fn drawings(e: &Evaluation) -> Vec<Drawing> {
    let side = |side: Side| Drawing {
        name: side.name().to_owned(),
        subject: Subject::Body,
        title: format!("{}, seen from outside", e.side_names[usize::from(side == Side::Right)]),
        svg: side_view(e, side),
    };
    Side::BOTH.map(side).into()
}
