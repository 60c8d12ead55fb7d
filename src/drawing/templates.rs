//! Paper templates in full size: jigs and bend marks as strips over several pages, with a length on every page to check.

use std::str::FromStr;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::error::{Problem, by_name};
use crate::plan::{Evaluation, Flat, FlatKind};
use crate::quantity::ShopUnits;

use super::canvas::{marked, printable};

/// Paper to print on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 297 by 210 mm (ISO 216).
    A4,
    /// 11 by 8 1/2 in (ANSI/ASME Y14.1, size A).
    Letter,
}

impl Paper {
    /// Every one.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }
}

impl FromStr for Paper {
    type Err = Problem;

    fn from_str(name: &str) -> Result<Self, Problem> {
        by_name("paper", "paper", name, &Self::ALL, Self::name)
    }
}

/// Longest part of a strip on one page, mm: what both papers hold between their margins, with room for the cut lines' names.
pub const STRIP_MM: f64 = 240.0;
/// The length that every page is checked by, mm.
pub const CHECK_MM: f64 = 200.0;
/// Around a strip, mm.
const ROOM_MM: f64 = 6.0;
/// Height of a strip with its lettering, mm.
const HIGH_MM: f64 = 32.0;
/// Height of the line that is marked, mm from the top.
const LINE_MM: f64 = 17.0;
/// What a strip of bend marks goes on beyond the farthest mark, mm.
const BEYOND_MM: f64 = 20.0;
/// Strips on a page.
const ROWS: usize = 5;

/// A mark on a strip.
struct Mark {
    at_mm: f64,
    /// Diameter of a hole; none for a line across.
    hole_mm: Option<f64>,
    name: String,
}

/// A strip before it is parted into pages.
struct Strip {
    title: String,
    /// Where it begins on the part, mm, and where it ends.
    ends_mm: (f64, f64),
    marks: Vec<Mark>,
}

/// Jigs first, then the lower and the upper edge of every cap.
fn strips(e: &Evaluation) -> Vec<Strip> {
    let flats = e.flats();
    let jigs = flats.iter().filter(|flat| flat.kind == FlatKind::Jig).map(|flat| {
        let from = flat.holes.first().map_or(0.0, |hole| hole.at_mm[0]);
        let mark = |hole: &crate::plan::FlatHole| Mark {
            at_mm: hole.at_mm[0],
            hole_mm: Some(hole.diameter_mm),
            name: format!("{}: {}", hole.of, marked(e.units, hole.at_mm[0] - from)),
        };
        Strip {
            title: format!("jig {}: centre-punch through the crosses; hole 0 is the index hole", flat.id),
            ends_mm: (0.0, flat.size_mm()[0]),
            marks: flat.holes.iter().map(mark).collect(),
        }
    });
    let caps = flats.iter().filter(|flat| flat.kind == FlatKind::Cap).flat_map(|flat| edges(e, flat));
    jigs.chain(caps).collect()
}

/// Bend marks of a cap along both edges, as seen from outside; distances are told from the good edge.
fn edges(e: &Evaluation, flat: &Flat) -> Vec<Strip> {
    let piece = e.end_caps.as_ref().and_then(|caps| caps.pieces.iter().find(|piece| piece.id == flat.id));
    let Some(piece) = piece else { return Vec::new() };
    ["lower", "upper"]
        .into_iter()
        .enumerate()
        .map(|(i, edge)| {
            let line = |mark: &crate::mechanics::forming::Mark| {
                let own = |l: &&crate::mechanics::forming::ScribeLine| {
                    l.bottom_mm[0].to_bits() == mark.at_mm[0].to_bits() && l.top_mm[0].to_bits() == mark.at_mm[1].to_bits()
                };
                let [low, high] = piece.flat.lines.iter().find(own).map_or([0.0; 2], |l| [l.bottom_mm[1], l.top_mm[1]]);
                if i == 0 { low } else { high }
            };
            let at = |bend: &crate::plan::BendLine| if i == 0 { bend.from_mm[0] } else { bend.to_mm[0] };
            let mark = |(bend, mark): (&crate::plan::BendLine, &crate::mechanics::forming::Mark)| Mark {
                at_mm: at(bend),
                hole_mm: None,
                name: format!(
                    "{}, {} from the good edge; carry it square to the {edge} edge, {} above the base line",
                    bend.what,
                    marked(e.units, mark.at_mm[i]),
                    marked(e.units, line(mark))
                ),
            };
            let marks: Vec<Mark> = flat.bends.iter().zip(&piece.flat.marks).map(mark).collect();
            // From the good edge to the farthest mark; nothing is marked beyond.
            let least = marks.iter().map(|mark| mark.at_mm).fold(f64::INFINITY, f64::min);
            let most = marks.iter().map(|mark| mark.at_mm).fold(f64::NEG_INFINITY, f64::max);
            let at_left = marks.first().is_some_and(|first| first.at_mm <= least);
            let length = flat.size_mm()[0];
            let ends_mm =
                if at_left { (0.0, (most + BEYOND_MM).min(length)) } else { ((least - BEYOND_MM).max(0.0), length) };
            Strip {
                title: format!(
                    "{}, {edge} edge, laid on the outside along the base line, which stands square to the good edge at its lower end; that is the {} end of the strip",
                    flat.id,
                    if at_left { "left" } else { "right" }
                ),
                ends_mm,
                marks,
            }
        })
        .collect()
}

/// One page's part of a strip.
struct Part<'a> {
    strip: &'a Strip,
    number: usize,
    of: usize,
}

impl Part<'_> {
    /// All parts of a strip are as long as each other.
    fn length_mm(&self) -> f64 {
        (self.strip.ends_mm.1 - self.strip.ends_mm.0) / self.of as f64
    }
}

fn parts(strips: &[Strip]) -> Vec<Part<'_>> {
    strips
        .iter()
        .flat_map(|strip| {
            let of = (((strip.ends_mm.1 - strip.ends_mm.0) / STRIP_MM - 1e-9).ceil().max(1.0)) as usize;
            (0..of).map(move |number| Part { strip, number, of })
        })
        .collect()
}

/// A hundredth of a millimetre is far finer than any printer.
fn fine(mm: f64) -> String {
    format!("{mm:.2}")
}

fn svg_line(class: &str, (x0, y0): (f64, f64), (x1, y1): (f64, f64)) -> Markup {
    html! { line class=(class) x1=(fine(x0)) y1=(fine(y0)) x2=(fine(x1)) y2=(fine(y1)) {} }
}

fn part_svg(part: &Part<'_>) -> Markup {
    let length = part.length_mm();
    let start = part.strip.ends_mm.0 + length * part.number as f64;
    let width = STRIP_MM + 2.0 * ROOM_MM;
    // A mark that the cut goes through is on both pages.
    let own = part.strip.marks.iter().filter(|mark| (start - 3.0..=start + length + 3.0).contains(&mark.at_mm));
    let cross = 4.0;
    html! {
        svg width=(format!("{width}mm")) height=(format!("{HIGH_MM}mm"))
            viewBox=(format!("{} 0 {width} {HIGH_MM}", -ROOM_MM)) role="img"
            aria-label=(printable(&format!("{}, part {}", part.strip.title, part.number + 1)))
        {
            rect class="strip" x="0" y="6" width=(fine(length)) height=(fine(HIGH_MM - 8.0)) {}
            (svg_line("middle", (0.0, LINE_MM), (length, LINE_MM)))
            text x="1" y="4.5" { (printable(&part.strip.title)) ", part " (part.number + 1) " of " (part.of) }
            @if part.number > 0 {
                (svg_line("cut", (0.0, 6.0), (0.0, HIGH_MM)))
                text class="join" x="1" y=(fine(HIGH_MM - 3.2)) { "meets part " (part.number) }
            }
            @if part.number + 1 < part.of {
                (svg_line("cut", (length, 6.0), (length, HIGH_MM)))
                text class="join" x=(fine(length - 1.0)) y=(fine(HIGH_MM - 3.2)) text-anchor="end" {
                    "meets part " (part.number + 2)
                }
            }
            @for (i, mark) in own.enumerate() {
                @let x = mark.at_mm - start;
                @match mark.hole_mm {
                    Some(diameter) => {
                        circle class="hole" cx=(fine(x)) cy=(fine(LINE_MM)) r=(fine(0.5 * diameter)) {}
                        (svg_line("mark", (x, LINE_MM - cross), (x, LINE_MM + cross)))
                    }
                    None => { (svg_line("mark", (x, 6.0), (x, HIGH_MM - 2.0))) }
                }
                // Names of neighbours stand on two lines.
                @let (anchor, beside) = if x > 0.5 * STRIP_MM { ("end", x - 0.8) } else { ("start", x + 0.8) };
                text text-anchor=(anchor) x=(fine(beside)) y=(fine(if i % 2 == 0 { 9.5 } else { 25.0 })) { (printable(&mark.name)) }
            }
        }
    }
}

const STYLE: &str = "body { margin: 0; font: 9pt sans-serif; color: #000 } h1 { font-size: 12pt; margin: 0 0 1mm } \
    .page { break-after: page } .page:last-child { break-after: auto } svg { display: block; overflow: visible } \
    svg text { font: 2.6px sans-serif } .head { display: flex; justify-content: space-between } p { margin: 0 0 1mm } \
    .strip { fill: none; stroke: #777; stroke-width: .2 } .middle { stroke: #777; stroke-width: .15 } \
    .cut { stroke: #000; stroke-width: .25; stroke-dasharray: 3 1.5 } .mark { stroke: #000; stroke-width: .2 } \
    .hole { fill: none; stroke: #000; stroke-width: .2 } .check { fill: #000 }";

fn check(units: ShopUnits) -> Markup {
    html! {
        svg width=(format!("{}mm", CHECK_MM + 2.0 * ROOM_MM)) height="8mm" viewBox=(format!("{} 0 {} 8", -ROOM_MM, CHECK_MM + 2.0 * ROOM_MM)) {
            rect class="check" x="0" y="0" width=(fine(CHECK_MM)) height="1.5" {}
            text x="0" y="5" { "this bar measures " (units.length(CHECK_MM)) " by a steel rule, or the page was not printed at 100 %: throw it away" }
        }
    }
}

/// Paper templates of every jig and of the bend marks of every cap, in full size, as one page of HTML that stands alone; print at
/// 100 %. A sentence in their place where there are none.
pub fn templates(e: &Evaluation, paper: Paper) -> String {
    let strips = strips(e);
    let parts = parts(&strips);
    let pages: Vec<&[Part<'_>]> = parts.chunks(ROWS).collect();
    let size = format!("@page {{ size: {} landscape; margin: 10mm }} ", paper.name());
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'";
                title { "Templates in full size: " (e.name) }
                style { (PreEscaped(size)) (PreEscaped(STYLE)) }
            }
            body {
                @if pages.is_empty() { p { "This plan has neither jigs nor end caps: there is nothing to print in full size." } }
                @for (i, page) in pages.iter().enumerate() {
                    div class="page" {
                        h1 { (e.name) ", templates in full size, " (paper.name()) ", page " (i + 1) " of " (pages.len()) }
                        (check(e.units))
                        @if i == 0 {
                            p {
                                "Print at 100 %, not to fit. Cut at the dashed lines and butt part to part. Paper grows with damp: check the "
                                "whole length by tape before a bar is drilled. "
                                @if e.invented { "Figures invented for an example." }
                            }
                        }
                        @for part in *page { (part_svg(part)) }
                    }
                }
            }
        }
    }
    .into_string()
}
