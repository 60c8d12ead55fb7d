//! The drawings of an evaluation by name.

use crate::body::survey::Side;
use crate::error::Problem;
use crate::plan::{Evaluation, Flat, FlatKind};

use super::body_view::{end_view, section_view};
use super::flat_view::flat_view;
use super::lap_map::lap_map;
use super::line_view::{line_view, old_line_view};
use super::load_views::{frame_view, lift_view};
use super::shop_views::{bar_view, schedule_view};
use super::{cut_sheet, side_view};

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
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Its name, by which it is asked for: `left`, `blank L-A1`.
    pub name: String,
    /// What it shows.
    pub subject: Subject,
    /// What it shows, in words.
    pub title: String,
    /// The SVG document.
    pub svg: String,
    /// What is cut by it, where it is a blank or a jig.
    pub flat: Option<Flat>,
}

/// A drawing that is made when it is asked for.
struct Entry<'a> {
    name: String,
    subject: Subject,
    title: String,
    draw: Box<dyn Fn() -> String + 'a>,
    flat: Option<Flat>,
}

impl<'a> Entry<'a> {
    fn new(
        name: impl Into<String>,
        subject: Subject,
        title: impl Into<String>,
        draw: impl Fn() -> String + 'a,
    ) -> Self {
        Self { name: name.into(), subject, title: title.into(), draw: Box::new(draw), flat: None }
    }

    fn done(self) -> Drawing {
        let svg = (self.draw)();
        Drawing { name: self.name, subject: self.subject, title: self.title, svg, flat: self.flat }
    }
}

/// Every drawing that an evaluation has.
pub fn drawings(e: &Evaluation) -> Vec<Drawing> {
    entries(e).into_iter().map(Entry::done).collect()
}

/// Their names.
pub fn drawing_names(e: &Evaluation) -> Vec<String> {
    entries(e).into_iter().map(|entry| entry.name).collect()
}

const ALLOWED: &str =
    "a name of the list of drawings: left, right, rear, front, cross-section, laps left, blank L-A1, …";

/// The drawing of this name.
///
/// # Errors
/// There is none.
///
/// # Example
/// ```
/// use raisedbody::{drawing::drawing, plan::Plan};
/// let build = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
/// assert!(drawing(&build, "cross-section").unwrap().svg.starts_with("<svg"));
/// ```
pub fn drawing(e: &Evaluation, name: &str) -> Result<Drawing, Problem> {
    let mut all = entries(e);
    match all.iter().position(|entry| entry.name == name) {
        Some(i) => Ok(all.swap_remove(i).done()),
        None => {
            Err(match Problem::unknown_name("name", "drawing", name, all.iter().map(|entry| entry.name.as_str())) {
                Problem::UnknownName { nearest: None, .. } => Problem::out_of_range("name", name, ALLOWED),
                near => near,
            })
        }
    }
}

fn entries(e: &Evaluation) -> Vec<Entry<'_>> {
    let side_name = |side: Side| e.side_names[usize::from(side == Side::Right)];
    let mut all: Vec<Entry<'_>> = Vec::new();
    for side in Side::BOTH {
        let title = format!("{}, seen from outside", side_name(side));
        all.push(Entry::new(side.name(), Subject::Body, title, move || side_view(e, side)));
    }
    for (name, front) in [("rear", false), ("front", true)] {
        all.push(Entry::new(name, Subject::Body, format!("{name}, seen from outside"), move || end_view(e, front)));
    }
    all.push(Entry::new("cross-section", Subject::Body, "cross-section before and after", move || section_view(e)));
    if let Some(lift) = &e.lift {
        all.push(Entry::new("supports", Subject::CutDay, "supports and braces", move || lift_view(e, lift)));
    }
    if let Some(bows) = &e.bows {
        all.push(Entry::new("frame", Subject::Frame, "a pair of posts under load", move || frame_view(e, bows)));
    }
    for side in Side::BOTH {
        let (name, title) = (format!("laps {}", side.name()), format!("lap map, {}", side_name(side)));
        all.push(Entry::new(name, Subject::Laps, title, move || lap_map(e, side)));
    }
    for flat in e.flats() {
        let (word, subject) =
            if flat.kind == FlatKind::Jig { ("jig", Subject::Jig) } else { ("blank", Subject::Blank) };
        let name = format!("{word} {}", flat.id);
        let own = flat.clone();
        let mut entry = Entry::new(name.clone(), subject, name, move || flat_view(e, &own));
        entry.flat = Some(flat);
        all.push(entry);
    }
    for line in &e.lines {
        let name = format!("line {}", line.id);
        all.push(Entry::new(name.clone(), Subject::Line, name, move || line_view(e, line)));
    }
    for old in e.old_lines.iter().filter(|old| old.lies_on.is_none()) {
        let name = format!("line {}", old.name);
        all.push(Entry::new(name.clone(), Subject::Line, name, move || old_line_view(e, old)));
    }
    if let Some(cuts) = &e.cut_list.sheets {
        for card in cuts.cards() {
            let name = format!("cut {}", card.title());
            all.push(Entry::new(name.clone(), Subject::CutPlan, name, move || cut_sheet(cuts, &card)));
        }
    }
    for (own, what) in [(&e.cut_list.inserts, "inserts"), (&e.cut_list.backing, "backing tube")] {
        if let Some(own) = own {
            let name = format!("bars {what}");
            all.push(Entry::new(name.clone(), Subject::CutPlan, name, move || bar_view(e, own, what)));
        }
    }
    if let Some(schedule) = &e.schedule {
        all.push(Entry::new("schedule", Subject::Schedule, "schedule by kind of work", move || {
            schedule_view(e, schedule)
        }));
    }
    all
}
