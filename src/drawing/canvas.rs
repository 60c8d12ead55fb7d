//! What all drawings share: one set of line styles, a canvas in the part's own millimetres, dimensions, arrows, the foot with
//! scale bar and title block.

use svg::Document;
use svg::node::element::{Circle, Group, Line, Polygon, Polyline, Rectangle, Style, Text};
use svg::node::{Node, Value};

use crate::plan::Evaluation;
use crate::quantity::{ShopUnits, inches_64};

/// Line styles that stay apart in black and white; colour only helps. All sizes are told in heights of the drawing's own
/// lettering, so that drawings of any scale share these rules on one page.
const STYLE: &str = "
.drawing text { font-family: sans-serif; fill: #111; stroke: none; }
.drawing .small { font-size: .8em; }
.drawing .tiny { font-size: .6em; }
.drawing .title { font-size: 1.58em; font-weight: bold; }
.drawing .halo { paint-order: stroke; stroke: #fff; stroke-width: .27em; stroke-linejoin: round; }
.drawing .body { fill: #f4f4f2; stroke: #222; stroke-width: .15em; stroke-linejoin: round; }
.drawing .edge { fill: none; stroke: #111; stroke-width: .15em; stroke-linejoin: round; }
.drawing .part { fill: #fff; stroke: #111; stroke-width: .12em; stroke-linejoin: round; }
.drawing .old { fill: none; stroke: #555; stroke-width: .085em; stroke-dasharray: .53em .36em; }
.drawing .sheet { fill: #e3edf6; stroke: #1b4f8f; stroke-width: .095em; }
.drawing .window { fill: #fff; stroke: #222; stroke-width: .085em; }
.drawing .gone { fill: none; stroke: #777; stroke-width: .053em; stroke-dasharray: .21em .23em; }
.drawing .cut { fill: none; stroke: #b03a00; stroke-width: .095em; stroke-dasharray: .95em .27em .17em .27em; }
.drawing .bend { fill: none; stroke: #b03a00; stroke-width: .06em; stroke-dasharray: .7em .2em .12em .2em; }
.drawing .new { fill: #fbe3d2; stroke: #b03a00; stroke-width: .1em; }
.drawing .level, .drawing .dim { fill: none; stroke: #444; stroke-width: .037em; }
.drawing .thin { fill: none; stroke: #222; stroke-width: .05em; }
.drawing .ground { stroke: #222; stroke-width: .13em; }
.drawing .wheel { fill: #fff; stroke: #222; stroke-width: .15em; }
.drawing .hole, .drawing .scale, .drawing .head { fill: #111; stroke: none; }
.drawing .drill { fill: #fff; stroke: #111; stroke-width: .05em; }
.drawing .again { fill: #111; stroke: #111; stroke-width: .05em; }
.drawing .covered { fill: #bbb; stroke: #555; stroke-width: .05em; }
.drawing .box { fill: none; stroke: #222; stroke-width: .063em; }
.drawing .water { fill: none; stroke: #0b5fa5; stroke-width: .16em; }
.drawing .waterhead { fill: #0b5fa5; stroke: none; }
.drawing .fault { fill: none; stroke: #b00020; stroke-width: .2em; }
.drawing .strap { fill: none; stroke: #6b3fa0; stroke-width: .1em; stroke-dasharray: .5em .25em; }
.drawing .bar { fill: none; stroke: #6b3fa0; stroke-width: .22em; }
.drawing .moved { fill: none; stroke: #b03a00; stroke-width: .14em; }
.drawing .pressed { fill: none; stroke: #1b4f8f; stroke-width: .14em; stroke-dasharray: .5em .25em; }
.drawing .whole { fill: #d8d8d8; stroke: #222; stroke-width: .1em; }
.drawing .piece { fill: #fff; stroke: #1b4f8f; stroke-width: .13em; }
.drawing .rest { fill: #eee; stroke: #777; stroke-width: .065em; stroke-dasharray: .39em .26em; }
.drawing .kept { fill: #f6ecd2; stroke: #8a5a00; stroke-width: .13em; stroke-dasharray: .77em .29em; }
.drawing .cross { stroke: #8a5a00; stroke-width: .048em; }
.drawing .arrow { fill: none; stroke: #111; stroke-width: .097em; }
.drawing .people { fill: #e3edf6; stroke: #1b4f8f; stroke-width: .05em; }
.drawing .alone { fill: #fff; stroke: #555; stroke-width: .05em; stroke-dasharray: .2em .15em; }
";

/// Width of a drawing as it is printed, mm: text is that of a printed page whatever the scale.
const PRINTED_MM: f64 = 180.0;
/// Its greatest height above the foot, mm.
const PRINTED_HEIGHT_MM: f64 = 190.0;
/// Room for the heading, mm as printed.
const HEADING_MM: f64 = 11.0;
/// Letters in a line of the title block.
const LETTERS: usize = 92;
/// Lettering as printed, mm.
const LETTERING_MM: f64 = 2.7;

/// To a tenth of a millimetre, so that files stay small.
pub(super) fn round(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

/// Without control characters: XML has no place for them.
pub(super) fn printable(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).collect()
}

/// A text at a place of the page.
pub(super) fn text(content: impl Into<String>, class: &str, (x, y): (f64, f64), anchor: &str) -> Text {
    Text::new(printable(&content.into()))
        .set("class", class)
        .set("x", round(x))
        .set("y", round(y))
        .set("text-anchor", anchor)
}

/// A line on the page.
pub(super) fn line(class: &str, from: (f64, f64), to: (f64, f64)) -> Line {
    Line::new()
        .set("class", class)
        .set("x1", round(from.0))
        .set("y1", round(from.1))
        .set("x2", round(to.0))
        .set("y2", round(to.1))
}

/// A rectangle on the page: its upper left corner and its size.
pub(super) fn rectangle(class: &str, (x, y): (f64, f64), (width, height): (f64, f64)) -> Rectangle {
    Rectangle::new()
        .set("class", class)
        .set("x", round(x))
        .set("y", round(y))
        .set("width", round(width))
        .set("height", round(height))
}

/// Corners as SVG writes them.
pub(super) fn corners(points: impl IntoIterator<Item = (f64, f64)>) -> String {
    points.into_iter().map(|(x, y)| format!("{},{}", round(x), round(y))).collect::<Vec<_>>().join(" ")
}

/// A white page of this size, its lettering this high.
pub(super) fn page((width, height): (f64, f64), lettering: f64, label: &str) -> Document {
    Document::new()
        .set("viewBox", (0, 0, round(width), round(height)))
        .set("width", "100%")
        .set("role", "img")
        .set("class", "drawing")
        .set("font-size", round(lettering))
        .set("aria-label", printable(label))
        .add(Style::new(STYLE))
        .add(Rectangle::new().set("width", round(width)).set("height", round(height)).set("fill", "#fff"))
}

/// A length in the planner's first unit alone.
pub(super) fn short(units: ShopUnits, mm: f64) -> String {
    match units {
        ShopUnits::Inches => inches_64(mm),
        ShopUnits::Metric => format!("{mm:.0} mm"),
    }
}

/// The same as it is marked out: to 1/64 in, or to a tenth of a millimetre.
pub(super) fn marked(units: ShopUnits, mm: f64) -> String {
    match units {
        ShopUnits::Inches => inches_64(mm),
        ShopUnits::Metric => format!("{mm:.1} mm"),
    }
}

/// Places with where their labels go: in order, none nearer to the next than this, the row as long as what it labels where that
/// is possible; every second or third alone where they are too many.
pub(super) fn spread(mut places: Vec<f64>, least: f64, end: f64) -> Vec<(f64, f64)> {
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    let room = ((end / least) as usize + 3).max(2);
    let every = places.len().div_ceil(room);
    let mut all: Vec<(f64, f64)> = places.into_iter().step_by(every.max(1)).map(|x| (x, x)).collect();
    for i in 1..all.len() {
        all[i].1 = all[i].1.max(all[i - 1].1 + least);
    }
    // What was pushed past the end goes back, and pushes those before it.
    let mut most = end + least;
    for own in all.iter_mut().rev() {
        own.1 = own.1.min(most);
        most = own.1 - least;
    }
    all
}

/// Room around what is drawn, mm as printed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Margins {
    pub left: f64,
    pub right: f64,
    pub top: f64,
    pub bottom: f64,
}

/// A drawing in the part's own millimetres: x to the right, y up.
pub(super) struct Canvas {
    group: Group,
    /// Millimetres of the part in one as printed.
    unit: f64,
    to_scale: bool,
    left: f64,
    top: f64,
    width: f64,
    bottom: f64,
    right: f64,
}

impl Canvas {
    /// Of what lies between these places, with room around it.
    pub fn new(low: (f64, f64), high: (f64, f64), margins: Margins) -> Self {
        let (length, height) = ((high.0 - low.0).max(1.0), (high.1 - low.1).max(1.0));
        let across = length / (PRINTED_MM - margins.left - margins.right);
        let upright = height / (PRINTED_HEIGHT_MM - margins.top - margins.bottom);
        let unit = across.max(upright);
        let width = unit * PRINTED_MM;
        // What is scaled by its height stands in the middle.
        let spare = 0.5 * (width - length - unit * (margins.left + margins.right));
        Self {
            group: Group::new(),
            unit,
            to_scale: true,
            left: low.0 - unit * margins.left - spare,
            top: high.1 + unit * (margins.top + HEADING_MM),
            width,
            bottom: low.1 - unit * margins.bottom,
            right: high.0,
        }
    }

    /// What is drawn has no size of its own.
    pub fn without_scale(mut self) -> Self {
        self.to_scale = false;
        self
    }

    /// Millimetres of the part in so many as printed.
    pub fn u(&self, printed_mm: f64) -> f64 {
        self.unit * printed_mm
    }

    fn at(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (x - self.left, self.top - y)
    }

    pub fn add(&mut self, node: impl Into<Box<dyn Node>>) {
        self.group.append(node.into());
    }

    pub fn line(&mut self, class: &str, from: (f64, f64), to: (f64, f64)) {
        self.add(line(class, self.at(from), self.at(to)));
    }

    /// A row of straight lines.
    pub fn polyline(&mut self, class: &str, points: &[(f64, f64)]) {
        let points = corners(points.iter().map(|p| self.at(*p)));
        self.add(Polyline::new().set("class", class).set("points", points));
    }

    /// A closed outline.
    pub fn polygon(&mut self, class: &str, points: &[(f64, f64)]) {
        let points = corners(points.iter().map(|p| self.at(*p)));
        self.add(Polygon::new().set("class", class).set("points", points));
    }

    /// A rectangle between two opposite corners.
    pub fn rectangle(&mut self, class: &str, a: (f64, f64), b: (f64, f64)) {
        let ((ax, ay), (bx, by)) = (self.at(a), self.at(b));
        self.add(rectangle(class, (ax.min(bx), ay.min(by)), ((ax - bx).abs(), (ay - by).abs())));
    }

    pub fn circle(&mut self, class: &str, middle: (f64, f64), radius: f64) {
        let (x, y) = self.at(middle);
        let circle = Circle::new().set("class", class).set("cx", round(x)).set("cy", round(y));
        // A hundredth: small holes are drawn at their size.
        self.add(circle.set("r", (radius * 100.0).round() / 100.0));
    }

    pub fn text(&mut self, class: &str, at: (f64, f64), anchor: &str, content: impl Into<String>) {
        self.add(text(content, class, self.at(at), anchor));
    }

    /// A text that reads from below.
    pub fn upright_text(&mut self, class: &str, at: (f64, f64), anchor: &str, content: impl Into<String>) {
        let (x, y) = self.at(at);
        let turned = Value::from(format!("rotate(-90 {} {})", round(x), round(y)));
        self.add(text(content, class, (x, y), anchor).set("transform", turned));
    }

    /// A line with a head at its end.
    pub fn arrow(&mut self, (class, head): (&str, &str), from: (f64, f64), to: (f64, f64)) {
        let length = (to.0 - from.0).hypot(to.1 - from.1);
        if length <= 0.0 {
            return;
        }
        let (dx, dy) = ((to.0 - from.0) / length, (to.1 - from.1) / length);
        let (long, wide) = (self.u(2.4).min(0.6 * length), self.u(0.8));
        let foot = (to.0 - long * dx, to.1 - long * dy);
        self.line(class, from, foot);
        self.polygon(head, &[to, (foot.0 - wide * dy, foot.1 + wide * dx), (foot.0 + wide * dy, foot.1 - wide * dx)]);
    }

    /// A dimension between two stations, drawn at this height.
    pub fn dim_across(&mut self, (from, to): (f64, f64), y: f64, label: impl Into<String>) {
        let tick = self.u(1.0);
        self.line("dim", (from, y), (to, y));
        for x in [from, to] {
            self.line("dim", (x, y - tick), (x, y + tick));
            self.line("thin", (x - 0.5 * tick, y - 0.5 * tick), (x + 0.5 * tick, y + 0.5 * tick));
        }
        self.text("small halo", (f64::midpoint(from, to), y + self.u(0.7)), "middle", label);
    }

    /// A dimension between two heights, drawn at this station.
    pub fn dim_up(&mut self, (from, to): (f64, f64), x: f64, label: impl Into<String>) {
        let tick = self.u(1.0);
        self.line("dim", (x, from), (x, to));
        for y in [from, to] {
            self.line("dim", (x - tick, y), (x + tick, y));
            self.line("thin", (x - 0.5 * tick, y - 0.5 * tick), (x + 0.5 * tick, y + 0.5 * tick));
        }
        self.upright_text("small halo", (x - self.u(0.7), f64::midpoint(from, to)), "middle", label);
    }

    /// Heights with their names, spread so that no two labels touch; lines lead to where they are.
    pub fn levels(&mut self, edge: f64, levels: &mut [(String, f64)]) {
        levels.sort_by(|a, b| a.1.total_cmp(&b.1));
        let mut last = f64::NEG_INFINITY;
        for (name, z) in levels.iter() {
            let label = z.max(last + self.u(3.0));
            last = label;
            let knee = edge - self.u(4.0);
            self.polyline("level", &[(knee - self.u(1.5), label), (knee, label), (edge, *z)]);
            self.text("small", (knee - self.u(2.0), label - self.u(0.8)), "end", name.clone());
        }
    }

    /// The drawing with its heading and its foot: scale bar, title block, lines of words.
    pub fn finish(mut self, e: &Evaluation, title: &str, words: &[String]) -> String {
        let (left, up) = (self.left + self.u(4.0), self.top);
        self.text("title", (left, up - self.u(7.0)), "start", title);
        self.line("thin", (left, up - self.u(9.0)), (left + self.u(172.0), up - self.u(9.0)));
        let foot = self.bottom - self.u(6.0);
        if self.to_scale {
            let (length, label) = scale_bar(e.units, self.u(45.0));
            self.rectangle("scale", (left, foot), (left + length, foot - self.u(1.0)));
            self.text("small", (left, foot - self.u(4.2)), "start", format!("{label}, to scale"));
        }
        let invented = if e.invented { " · figures invented for an example" } else { "" };
        let mut lines = vec![format!("{}{invented}", e.name)];
        lines.extend(words.iter().flat_map(|line| wrapped(line)));
        lines.push("Planning aid, not a certification; a licensed engineer and local rules decide.".to_owned());
        let (x, step) = (left + self.u(62.0), self.u(3.4));
        let deep = self.u(1.6) + step * lines.len() as f64;
        self.rectangle("box", (x, foot + self.u(1.0)), (left + self.u(172.0), foot + self.u(1.0) - deep));
        for (i, line) in lines.iter().enumerate() {
            let y = foot + self.u(1.0) - step * (i as f64 + 0.85);
            self.text("small", (x + self.u(2.0), y), "start", line.clone());
        }
        let height = self.top - foot + deep.max(self.u(6.0)) + self.u(2.0);
        let label = format!("{}: {title}", e.name);
        page((self.width, height), self.u(LETTERING_MM), &label).add(self.group).to_string()
    }

    /// Writes where outside and front are over what is drawn.
    pub fn seen_from_outside(&mut self, front_to_right: Option<bool>, high: f64) {
        let y = high + self.u(6.0);
        let middle = self.left + 0.5 * self.width;
        self.text("", (middle, y), "middle", "OUTSIDE");
        match front_to_right {
            Some(true) => self.text("", (self.right, y), "end", "FRONT ▶"),
            Some(false) => self.text("", (self.left + self.u(10.0), y), "start", "◀ FRONT"),
            None => {}
        }
    }
}

/// A text in lines that fit the title block.
fn wrapped(text: &str) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let last = lines.len() - 1;
        let there = lines[last].chars().count();
        if there > 0 && there + 1 + word.chars().count() > LETTERS {
            lines.push(format!("  {word}"));
        } else {
            let space = if there > 0 { " " } else { "" };
            lines[last].push_str(space);
            lines[last].push_str(word);
        }
    }
    lines
}

/// The longest round length that is not longer than this, with its words.
pub(super) fn scale_bar(units: ShopUnits, most_mm: f64) -> (f64, String) {
    let inches = [0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 36.0, 72.0, 120.0];
    let metric = [10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0];
    match units {
        ShopUnits::Inches => {
            let inch = inches.into_iter().rev().find(|inch| inch * 25.4 <= most_mm).unwrap_or(inches[0]);
            let feet = inch >= 12.0;
            (inch * 25.4, if feet { format!("{} ft", inch / 12.0) } else { format!("{inch} in") })
        }
        ShopUnits::Metric => {
            let mm = metric.into_iter().rev().find(|mm| *mm <= most_mm).unwrap_or(metric[0]);
            (mm, if mm >= 1000.0 { format!("{} m", mm / 1000.0) } else { format!("{mm} mm") })
        }
    }
}
