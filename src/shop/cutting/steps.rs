//! The cuts of a sheet one after another, each with its stop, and a machine on paper that makes them and measures what falls.

use std::collections::BTreeMap;

use serde::Serialize;

use super::sheet_faults::inside_tenths;
use super::sheets::{Content, Line, Part, SheetJob, SheetPattern, SheetStock};

/// What a cut takes off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Off {
    /// A bad edge.
    Trim,
    /// A piece.
    Piece {
        /// Which, by index.
        piece: usize,
        /// How many pieces of the sheet come before it where they are listed by place.
        place: usize,
    },
    /// A part that is cut further, by its label.
    Part(String),
    /// A rest.
    Rest,
}

/// One cut from edge to edge.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Step {
    /// The part that is cut: nothing for the sheet, then `a`, `b` for its parts, `a.b` for a part of a part.
    pub part: String,
    /// How the cut runs.
    pub line: Line,
    /// What the stop is set to: the size of what comes off, tenths of a millimetre.
    pub stop_tenths: i64,
    /// The edge that lies at the stop: true for the start or the lower edge, false for the end or the upper edge.
    pub from_start: bool,
    /// Length of the cut, tenths of a millimetre.
    pub length_tenths: i64,
    /// What comes off.
    pub off: Off,
    /// What the last cut of a part leaves on the table; none while more of the part is to be cut.
    pub left: Option<Off>,
}

/// The cuts of a sheet in order: bad edges, then all cuts of a part before those of its parts.
pub fn steps(stock: &SheetStock, kerf_tenths: i64, pattern: &SheetPattern) -> Vec<Step> {
    let mut all = trimming(stock, kerf_tenths);
    divide(&pattern.inside, ("", 0), &mut all);
    all
}

fn trimming(stock: &SheetStock, kerf_tenths: i64) -> Vec<Step> {
    let trim = stock.trim;
    let (mut length, mut width) = (stock.length_tenths, stock.width_tenths);
    let mut all = Vec::new();
    for (line, stop_tenths, from_start) in [
        (Line::Across, trim.start_tenths, true),
        (Line::Across, trim.end_tenths, false),
        (Line::Along, trim.lower_tenths, true),
        (Line::Along, trim.upper_tenths, false),
    ] {
        if stop_tenths <= 0 {
            continue;
        }
        let (divided, length_tenths) = match line {
            Line::Across => (&mut length, width),
            Line::Along => (&mut width, length),
        };
        *divided -= stop_tenths + kerf_tenths;
        all.push(Step {
            part: String::new(),
            line,
            stop_tenths,
            from_start,
            length_tenths,
            off: Off::Trim,
            left: None,
        });
    }
    all
}

/// Pieces of a part.
fn pieces(part: &Part) -> usize {
    match &part.content {
        Content::Piece { .. } => 1,
        Content::Rest => 0,
        Content::Cut { parts, .. } => parts.iter().map(pieces).sum(),
    }
}

/// The cuts of a part; its label, and how many pieces come before its own.
fn divide(part: &Part, (label, before): (&str, usize), all: &mut Vec<Step>) {
    let Content::Cut { line, parts } = &part.content else { return };
    let (line, mut letters, mut place) = (*line, 0_u32, before);
    let labelled: Vec<(Off, &Part, usize)> = parts
        .iter()
        .map(|own| {
            let first = place;
            place += pieces(own);
            let off = match &own.content {
                Content::Piece { piece, .. } => Off::Piece { piece: *piece, place: first },
                Content::Rest => Off::Rest,
                Content::Cut { .. } => {
                    letters += 1;
                    let dot = if label.is_empty() { "" } else { "." };
                    Off::Part(format!("{label}{dot}{}", letter(letters)))
                }
            };
            (off, own, first)
        })
        .collect();
    let length_tenths = if line == Line::Across { part.width_tenths } else { part.length_tenths };
    for (i, (off, own, _)) in labelled.iter().enumerate().take(labelled.len().saturating_sub(1)) {
        let stop_tenths = if line == Line::Across { own.length_tenths } else { own.width_tenths };
        let left = if i + 2 == labelled.len() { labelled.last().map(|(off, ..)| off.clone()) } else { None };
        let (part, off) = (label.to_owned(), off.clone());
        all.push(Step { part, line, stop_tenths, from_start: true, length_tenths, off, left });
    }
    for (off, own, first) in labelled {
        if let Off::Part(name) = off {
            divide(own, (&name, first), all);
        }
    }
}

/// a, b, … z, aa, ab, …
fn letter(mut number: u32) -> String {
    let mut word = String::new();
    while number > 0 {
        number -= 1;
        word.insert(0, char::from(b'a' + (number % 26) as u8));
        number /= 26;
    }
    word
}

/// Pieces by index and what becomes of the rest, with their sizes along the sheet and across it, tenths of a millimetre.
type Fallen = Vec<(Option<usize>, (i64, i64))>;

/// Makes the cuts on paper, one after another, on a sheet of this stock.
///
/// # Errors
/// The cut that cannot be made, and why: a part that is not there, a stop beyond it, a cut that does not run from edge to edge,
/// or one that the machine does not reach.
pub fn make(stock: &SheetStock, kerf_tenths: i64, steps: &[Step]) -> Result<Fallen, String> {
    let mut parts: BTreeMap<&str, (i64, i64)> = BTreeMap::new();
    parts.insert("", (stock.length_tenths, stock.width_tenths));
    let mut fallen = Vec::new();
    for (i, step) in steps.iter().enumerate() {
        let fail = |why: String| format!("cut {}: {why}", i + 1);
        let label = step.part.as_str();
        let (length, width) = parts.remove(label).ok_or_else(|| fail(format!("there is no part \"{label}\" left")))?;
        let (divided, run) = if step.line == Line::Across { (length, width) } else { (width, length) };
        if step.length_tenths != run {
            return Err(fail(format!("it is {} long, the part {run}", step.length_tenths)));
        }
        if step.stop_tenths <= 0 || step.stop_tenths > divided {
            return Err(fail(format!("the stop stands at {}, the part is {divided}", step.stop_tenths)));
        }
        let rest = (divided - step.stop_tenths - kerf_tenths).max(0);
        let reached = stock.longest_cut_tenths.is_none_or(|longest| run <= longest);
        if !reached && step.stop_tenths.min(rest) > stock.throat_tenths {
            return Err(fail(format!("the machine does not reach {run}")));
        }
        let sized = |own: i64| if step.line == Line::Across { (own, width) } else { (length, own) };
        let mut lay = |off: &'_ Off, size: (i64, i64)| match off {
            Off::Piece { piece, .. } => fallen.push((Some(*piece), size)),
            Off::Rest | Off::Trim => fallen.push((None, size)),
            Off::Part(_) => {}
        };
        lay(&step.off, sized(step.stop_tenths));
        if let Off::Part(name) = &step.off {
            parts.insert(name, sized(step.stop_tenths));
        }
        match &step.left {
            None => {
                parts.insert(label, sized(rest));
            }
            Some(Off::Part(name)) => {
                parts.insert(name, sized(rest));
            }
            Some(off) => lay(off, sized(rest)),
        }
    }
    // What was never cut is a piece, or a rest, by itself.
    fallen.extend(parts.into_values().map(|size| (None, size)));
    Ok(fallen)
}

/// What is wrong with the cuts of a pattern: one that cannot be made, or pieces that fall with another size or number than the
/// pattern shows.
pub fn step_faults(job: &SheetJob, pattern: &SheetPattern, steps: &[Step]) -> Vec<String> {
    let Some(stock) = job.stock.get(pattern.stock) else { return vec![format!("there is no stock {}", pattern.stock)] };
    let fallen = match make(stock, job.kerf_tenths, steps) {
        Ok(fallen) => fallen,
        Err(fault) => return vec![fault],
    };
    let mut wanted: BTreeMap<usize, i64> = BTreeMap::new();
    count(&pattern.inside, &mut wanted);
    if let (Content::Piece { piece, .. }, false) = (&pattern.inside.content, steps.iter().any(|s| s.off != Off::Trim)) {
        // A sheet that is one piece once its edges are trimmed.
        let _ = wanted.remove(piece);
        let size = inside_tenths(stock, job.kerf_tenths);
        if fallen.last().is_none_or(|(_, own)| *own != size) {
            return vec!["what is left of the sheet is not the piece".to_owned()];
        }
    }
    let mut faults = Vec::new();
    for (piece, size) in fallen.iter().filter_map(|(piece, size)| Some(((*piece)?, *size))) {
        *wanted.entry(piece).or_insert(0) -= 1;
        let fits = job.pieces.get(piece).is_some_and(|own| {
            let own_size = (own.length_tenths, own.width_tenths);
            size == own_size || (own.may_turn && size == (own_size.1, own_size.0))
        });
        if !fits {
            faults.push(format!("a piece {piece} falls {} by {}", size.0, size.1));
        }
    }
    faults
        .extend(wanted.iter().filter(|(_, n)| **n != 0).map(|(piece, n)| format!("{n} of piece {piece} do not fall")));
    faults
}

fn count(part: &Part, wanted: &mut BTreeMap<usize, i64>) {
    match &part.content {
        Content::Piece { piece, .. } => *wanted.entry(*piece).or_insert(0) += 1,
        Content::Rest => {}
        Content::Cut { parts, .. } => parts.iter().for_each(|own| count(own, wanted)),
    }
}
