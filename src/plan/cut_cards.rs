//! Each sheet and bar of a cut list with the names of its pieces: what lies where, the cuts in order, the rests that are kept.

use serde::Serialize;

use crate::quantity::ShopUnits;
use crate::shop::cutting::bar_faults::remnant_tenths;
use crate::shop::cutting::sheets::{Line, is_kept};
use crate::shop::cutting::steps::{Off, Step, steps};
use crate::shop::cutting::{Rect, placed};

use super::cut_list::{BarCuts, SheetCuts};

/// A piece or a rest on a sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CutPlace {
    /// Names of the piece, one for each sheet that is cut so; empty for a rest.
    pub names: Vec<String>,
    /// It lies turned by a quarter.
    pub turned: bool,
    /// Where, from the corner inside the trimmed edges.
    pub rect: Rect,
    /// A rest that is large enough to keep.
    pub kept: bool,
}

/// One cut with its words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CutStep {
    /// The cut.
    pub step: Step,
    /// What comes off, and what is left where the cut is the last of its part.
    pub words: String,
}

/// Sheets that are cut alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SheetCard {
    /// Number of the first of them, counted from 1.
    pub first: u32,
    /// How many.
    pub times: u32,
    /// Which source, by index.
    pub source: usize,
    /// Length and width of the whole sheet, mm.
    pub size_mm: (f64, f64),
    /// The corner inside the trimmed edges, mm from the start and the lower edge.
    pub corner_mm: (f64, f64),
    /// Pieces and rests.
    pub places: Vec<CutPlace>,
    /// The cuts.
    pub steps: Vec<CutStep>,
    /// Share of the sheet that becomes pieces.
    pub used_share: f64,
}

impl SheetCard {
    /// `sheet 3`, or `sheets 3 to 5`.
    pub fn title(&self) -> String {
        numbered("sheet", self.first, self.times)
    }
}

/// Bars that are cut alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BarCard {
    /// Number of the first of them, counted from 1.
    pub first: u32,
    /// How many.
    pub times: u32,
    /// Which source, by index.
    pub source: usize,
    /// Length of the bar, mm.
    pub length_mm: f64,
    /// The pieces in the order of cutting: length, mm, and names, one for each bar that is cut so.
    pub pieces: Vec<(f64, Vec<String>)>,
    /// What is left of it, mm.
    pub rest_mm: f64,
}

impl BarCard {
    /// `bar 3`, or `bars 3 to 5`.
    pub fn title(&self) -> String {
        numbered("bar", self.first, self.times)
    }
}

fn numbered(what: &str, first: u32, times: u32) -> String {
    if times == 1 { format!("{what} {first}") } else { format!("{what}s {first} to {}", first + times - 1) }
}

/// Names handed out one after another, those of each kind in their order.
struct Names<'a>(Vec<std::slice::Iter<'a, String>>);

impl<'a> Names<'a> {
    fn new(names: &'a [Vec<String>]) -> Self {
        Self(names.iter().map(|own| own.iter()).collect())
    }

    fn next(&mut self, piece: usize, times: u32) -> Vec<String> {
        self.0.get_mut(piece).map_or_else(Vec::new, |own| own.take(times as usize).cloned().collect())
    }
}

impl SheetCuts {
    /// Every sheet, those cut alike together.
    pub fn cards(&self) -> Vec<SheetCard> {
        let mut names = Names::new(&self.names);
        let mut first = 1;
        let mut cards = Vec::new();
        for pattern in &self.plan.patterns {
            let Some(stock) = self.job.stock.get(pattern.stock) else { continue };
            let kerf = self.job.kerf_tenths;
            let places: Vec<CutPlace> = placed(&pattern.inside, kerf, (0, 0))
                .into_iter()
                .map(|own| {
                    let size = (own.rect.length_tenths, own.rect.width_tenths);
                    CutPlace {
                        names: own.piece.map_or_else(Vec::new, |(piece, _)| names.next(piece, pattern.times)),
                        turned: own.piece.is_some_and(|(_, turned)| turned),
                        rect: own.rect,
                        kept: own.piece.is_none() && is_kept(self.job.keep_tenths, size),
                    }
                })
                .collect();
            let pieces = places.iter().filter(|own| !own.names.is_empty());
            let used: i64 = pieces.map(|own| own.rect.length_tenths * own.rect.width_tenths).sum();
            let trim = |tenths: i64| if tenths > 0 { (tenths + kerf) as f64 / 10.0 } else { 0.0 };
            let mm = |tenths: i64| tenths as f64 / 10.0;
            let named = |step: Step| {
                let words = step_words(&step, &places, self.units);
                CutStep { step, words }
            };
            cards.push(SheetCard {
                first,
                times: pattern.times,
                source: pattern.stock,
                size_mm: (mm(stock.length_tenths), mm(stock.width_tenths)),
                corner_mm: (trim(stock.trim.start_tenths), trim(stock.trim.lower_tenths)),
                steps: steps(stock, kerf, pattern).into_iter().map(named).collect(),
                used_share: used as f64 / (stock.length_tenths * stock.width_tenths) as f64,
                places,
            });
            first += pattern.times;
        }
        cards
    }

    /// Rests worth keeping: the sheet's number, its length and width in mm; largest first.
    pub fn remnants(&self) -> Vec<(u32, f64, f64)> {
        let mut all = Vec::new();
        for card in self.cards() {
            for own in card.places.iter().filter(|own| own.kept) {
                let (length, width) = (own.rect.length_tenths as f64 / 10.0, own.rect.width_tenths as f64 / 10.0);
                all.extend((0..card.times).map(|i| (card.first + i, length, width)));
            }
        }
        all.sort_by(|a, b| (b.1 * b.2).total_cmp(&(a.1 * a.2)).then(a.0.cmp(&b.0)));
        all
    }
}

/// The cut as a shop reads it.
fn step_words(step: &Step, places: &[CutPlace], units: ShopUnits) -> String {
    let named = |off: &Off| match off {
        Off::Trim => "the bad edge".to_owned(),
        Off::Rest => "the rest".to_owned(),
        Off::Part(label) => format!("part {label}"),
        Off::Piece { place, .. } => {
            let own = places.iter().filter(|own| !own.names.is_empty()).nth(*place);
            own.map_or_else(String::new, |own| own.names.join(" / "))
        }
    };
    let of = if step.part.is_empty() { "the sheet".to_owned() } else { format!("part {}", step.part) };
    let line = if step.line == Line::Along { "along" } else { "across" };
    let stop = units.length(step.stop_tenths as f64 / 10.0);
    let edge = if step.from_start { "" } else { " from the far edge" };
    let left = step.left.as_ref().map_or_else(String::new, |left| format!(", {} is left", named(left)));
    format!("{of}, {line}, stop at {stop}{edge}: {} comes off{left}", named(&step.off))
}

impl BarCuts {
    /// Every bar, those cut alike together.
    pub fn cards(&self) -> Vec<BarCard> {
        let mut names = Names::new(&self.names);
        let mut first = 1;
        let mut cards = Vec::new();
        for pattern in &self.plan.patterns {
            let Some(stock) = self.job.stock.get(pattern.stock) else { continue };
            let piece = |piece: &usize| {
                let length = self.job.pieces.get(*piece).map_or(0, |own| own.length_tenths);
                (length as f64 / 10.0, names.next(*piece, pattern.times))
            };
            cards.push(BarCard {
                first,
                times: pattern.times,
                source: pattern.stock,
                length_mm: stock.length_tenths as f64 / 10.0,
                pieces: pattern.pieces.iter().map(piece).collect(),
                rest_mm: remnant_tenths(&self.job, pattern) as f64 / 10.0,
            });
            first += pattern.times;
        }
        cards
    }
}
