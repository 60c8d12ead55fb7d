//! A sheet as it is cut: pieces by name, rests, trimmed edges, the way of the grain.

use svg::node::element::Group;

use crate::plan::{CutPlace, SheetCard, SheetCuts};
use crate::quantity::ShopUnits;

use super::canvas::{line, marked, page, rectangle, round, scale_bar, text};

const MARGIN: f64 = 120.0;
const TOP: f64 = 260.0;
const BELOW: f64 = 230.0;
/// Height of the lettering, mm of the sheet.
const TEXT: f64 = 62.0;

/// Sheets that are cut alike, as an SVG document: the length lies level, the lower edge below.
pub fn cut_sheet(cuts: &SheetCuts, card: &SheetCard) -> String {
    let units = cuts.units;
    let (length, width) = card.size_mm;
    let size = (MARGIN * 2.0 + length, TOP + width + BELOW);
    let bottom = TOP + width;
    let source = cuts.sources.get(card.source);
    let of = source.map_or_else(String::new, |own| {
        let by = own.supplier.as_ref().map_or_else(|| "from the shop".to_owned(), Clone::clone);
        format!("{}, {by}, {}", own.size, own.cut_by.words())
    });
    let mut sheet = Group::new().add(rectangle("whole", (MARGIN, TOP), (length, width)));
    for own in &card.places {
        sheet = place(sheet, own, (MARGIN + card.corner_mm.0, bottom - card.corner_mm.1), units);
    }
    let at = bottom + 90.0;
    let (bar, words) = scale_bar(units, 620.0);
    let (head, tip) = (MARGIN + 700.0, MARGIN + 640.0);
    page(size, TEXT, &format!("{}: {of}", card.title()))
        .add(text(card.title(), "title", (MARGIN, 110.0), "start"))
        .add(text(format!("{of}; {:.0} % used", 100.0 * card.used_share), "small", (MARGIN, 190.0), "start"))
        .add(sheet)
        .add(line("arrow", (MARGIN, at), (head, at)))
        .add(line("arrow", (tip, at - 25.0), (head, at)))
        .add(line("arrow", (tip, at + 25.0), (head, at)))
        .add(text("grain, length of the sheet", "small", (head + 40.0, at + 16.0), "start"))
        .add(rectangle("scale", (MARGIN + length - bar, at - 8.0), (bar, 16.0)))
        .add(text(format!("{words}, to scale"), "small", (MARGIN + length - bar - 40.0, at + 16.0), "end"))
        .add(text(
            "white: pieces; dashed: rests; dashed and crossed: rests to keep; grey: trimmed edges",
            "small",
            (MARGIN, at + 90.0),
            "start",
        ))
        .to_string()
}

fn place(group: Group, own: &CutPlace, corner: (f64, f64), units: ShopUnits) -> Group {
    let mm = |tenths: i64| tenths as f64 / 10.0;
    let (length, width) = (mm(own.rect.length_tenths), mm(own.rect.width_tenths));
    let x = corner.0 + mm(own.rect.along_tenths);
    let y = corner.1 - mm(own.rect.up_tenths) - width;
    let class = match (own.names.is_empty(), own.kept) {
        (false, _) => "piece",
        (true, true) => "kept",
        (true, false) => "rest",
    };
    let mut group = group.add(rectangle(class, (x, y), (length, width)));
    if own.kept {
        group = group.add(line("cross", (x, y), (x + length, y + width))).add(line(
            "cross",
            (x, y + width),
            (x + length, y),
        ));
    }
    let turned = if own.turned { ", turned" } else { "" };
    let name = match (own.names.is_empty(), own.kept) {
        (false, _) => format!("{}{turned}", own.names.join(" / ")),
        (true, true) => "keep".to_owned(),
        (true, false) => return group,
    };
    let size = format!("{} x {}", marked(units, length), marked(units, width));
    let middle = (x + length / 2.0, y + width / 2.0);
    // Upright where the part is narrow; nothing where not even a name would fit.
    let upright = width > length;
    let (run, rise) = if upright { (width, length) } else { (length, width) };
    if rise < 60.0 || run < 200.0 {
        return group;
    }
    let mut words = Group::new();
    let fits = |letters: usize, each: f64| letters as f64 * each < run;
    let class = if fits(name.chars().count(), 36.0) { "" } else { "small" };
    if rise >= 150.0 && fits(size.chars().count(), 27.0) {
        words = words.add(text(name.clone(), class, (middle.0, middle.1 - 10.0), "middle")).add(text(
            size,
            "small",
            (middle.0, middle.1 + 55.0),
            "middle",
        ));
    } else {
        words = words.add(text(name.clone(), "small", (middle.0, middle.1 + 16.0), "middle"));
    }
    if upright {
        words = words.set("transform", format!("rotate(-90 {} {})", round(middle.0), round(middle.1)));
    }
    group.add(words)
}
