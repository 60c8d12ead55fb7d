//! A side of the raised bus as seen from outside: sheets, seams, rivets, old and new outline, heights.

use svg::node::element::{Circle, Element, Group, Line, Polyline, Rectangle};

use crate::body::raise::Ends;
use crate::body::skins::{EndPanel, Sheet};
use crate::body::survey::Side;
use crate::plan::Evaluation;
use crate::quantity::ShopUnits;

use super::canvas::{corners, line, page, rectangle, round, short, text};

// Margins and sizes on the sheet, in mm of the bus: the drawing is to scale and printed smaller as a whole.
const MARGIN_LEFT: f64 = 1560.0;
const MARGIN_RIGHT: f64 = 350.0;
const MARGIN_TOP: f64 = 640.0;
const BELOW_GROUND: f64 = 1130.0;
const TEXT: f64 = 130.0;
const ROOF_ROUNDING: f64 = 260.0;
const WHEEL_RADIUS: f64 = 480.0;

/// Places of the drawing: from the bus's millimetres to the sheet's.
struct Frame {
    side: Side,
    length: f64,
    top: f64,
}

impl Frame {
    /// Seen from outside, the front of the left side is at the left and that of the right side at the right.
    fn x(&self, station: f64) -> f64 {
        MARGIN_LEFT + if self.side == Side::Left { self.length - station } else { station }
    }

    fn y(&self, height: f64) -> f64 {
        self.top - height
    }

    fn line(&self, class: &str, from: (f64, f64), to: (f64, f64)) -> Line {
        line(class, (self.x(from.0), self.y(from.1)), (self.x(to.0), self.y(to.1)))
    }

    fn rectangle(&self, class: &str, x: (f64, f64), z: (f64, f64)) -> Rectangle {
        let (a, b) = (self.x(x.0), self.x(x.1));
        rectangle(class, (a.min(b), self.y(z.1)), ((a - b).abs(), z.1 - z.0))
    }

    fn outline(&self, class: &str, points: &[(f64, f64)]) -> Polyline {
        let points = corners(points.iter().map(|&(x, z)| (self.x(x), self.y(z))));
        Polyline::new().set("class", class).set("points", points)
    }
}

/// Draws a side as seen from outside, as an SVG document.
///
/// # Example
/// ```
/// use raisedbody::{body::survey::Side, drawing::side_view, plan::Plan};
/// let build = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
/// assert!(side_view(&build, Side::Left).contains("OUTSIDE"));
/// ```
pub fn side_view(e: &Evaluation, side: Side) -> String {
    let frame = Frame { side, length: e.survey.length_mm, top: MARGIN_TOP + e.raised.heights.overall_mm };
    let (width, height) = (MARGIN_LEFT + e.survey.length_mm + MARGIN_RIGHT, frame.top + BELOW_GROUND);
    let name = e.side_names[usize::from(side == Side::Right)];
    page((width, height), TEXT, &format!("{}: {name} after the raise, seen from outside", e.name))
        .add(ground_and_wheels(e, &frame))
        .add(body(e, &frame))
        .add(windows(e, &frame, true))
        .add(sheets(e, &frame))
        .add(windows(e, &frame, false))
        .add(roof_before(e, &frame))
        .add(holes(e, &frame))
        .add(cut(e, &frame))
        .add(labels(e, &frame))
        .add(levels(e, &frame))
        .add(heading(e, &frame, name))
        .add(foot(e, &frame, width))
        .to_string()
}

fn ground_and_wheels(e: &Evaluation, frame: &Frame) -> Group {
    let stations = e.axles_mm.map_or_else(Vec::new, |(rear, front)| vec![rear, front]);
    let wheels = stations.into_iter().fold(Group::new(), |group, station| {
        group.add(
            Circle::new()
                .set("class", "wheel")
                .set("cx", round(frame.x(station)))
                .set("cy", round(frame.y(WHEEL_RADIUS)))
                .set("r", WHEEL_RADIUS),
        )
    });
    wheels.add(frame.line("ground", (-200.0, 0.0), (e.survey.length_mm + 200.0, 0.0)))
}

/// A roof over the whole length, from drip rail to crown and back.
fn whole_roof(length: f64, drip_rail: f64, crown: f64) -> [(f64, f64); 4] {
    [(0.0, drip_rail), (ROOF_ROUNDING, crown), (length - ROOF_ROUNDING, crown), (length, drip_rail)]
}

/// The outline after the raise.
fn body(e: &Evaluation, frame: &Frame) -> Group {
    let (length, before, after) = (e.survey.length_mm, &e.survey.heights, &e.raised.heights);
    let post = |i: usize| e.survey.posts_mm.get(i).copied().unwrap_or(0.0);
    let (rear, front) = (post(e.raise.first_post), post(e.raise.last_post));
    let part = |run: f64| {
        let (low, high) = (before.crown_mm, after.crown_mm);
        let [start, rising, falling, end] = whole_roof(length, before.drip_rail_mm, low);
        let step = [(rear - run, low), (rear, high), (front, high), (front + run, low)];
        [vec![start, rising], step.to_vec(), vec![falling, end]].concat()
    };
    let roof = match e.raise.ends {
        Ends::WholeRoof => whole_roof(length, after.drip_rail_mm, after.crown_mm).to_vec(),
        Ends::Stepped => part(0.0),
        Ends::Sloped { run_mm } => part(run_mm),
    };
    let mut outline = vec![(0.0, before.floor_mm)];
    outline.extend(roof);
    outline.extend([(length, before.floor_mm), (0.0, before.floor_mm)]);
    Group::new().add(frame.outline("body", &outline))
}

fn roof_before(e: &Evaluation, frame: &Frame) -> Polyline {
    let before = &e.survey.heights;
    frame.outline("old", &whole_roof(e.survey.length_mm, before.drip_rail_mm, before.crown_mm))
}

/// Windows that stay, or those that are skinned over.
fn windows(e: &Evaluation, frame: &Frame, staying: bool) -> Group {
    let h = &e.survey.heights;
    let mut group = Group::new();
    for (window, pair) in e.survey.posts_mm.windows(2).enumerate() {
        let raised = e.raise.raised_windows().contains(&window);
        let stays = !raised || e.raise.window_kept.get(window) == Some(&true);
        if stays == staying {
            let inset = (pair[1] - pair[0]) * 0.05;
            let x = (pair[0] + inset, pair[1] - inset);
            let class = if stays { "window" } else { "gone" };
            group = group.add(frame.rectangle(class, x, (h.window_bottom_mm, h.window_top_mm)));
        }
    }
    group
}

/// The sheets of this side in hanging order: lower courses first, then rear to front, each over the one before.
fn sheets_in_order<'a>(e: &'a Evaluation, frame: &Frame) -> Vec<&'a Sheet> {
    let mut sheets: Vec<&Sheet> = e.skins.sheets.iter().filter(|s| s.side == frame.side).collect();
    sheets.sort_by(|a, b| b.course.cmp(&a.course).then(a.x0_mm.total_cmp(&b.x0_mm)));
    sheets
}

/// Panels at the ends that lie on this side, with their rear and front edge there.
fn end_panels<'a>(e: &'a Evaluation, frame: &Frame) -> impl Iterator<Item = (&'a EndPanel, (f64, f64))> {
    let side = frame.side;
    e.skins.ends.iter().filter_map(move |p| Some((p, p.on_side_mm(side, &e.survey)?)))
}

/// Sheets and panels of the side as they lie over each other: the front end's panels outermost.
fn sheets(e: &Evaluation, frame: &Frame) -> Group {
    let panels = |front: bool, group: Group| {
        let own = end_panels(e, frame).filter(|(p, _)| p.front == front);
        own.fold(group, |group, (p, x)| add_panel(e, frame, (p, x), group))
    };
    let group = sheets_in_order(e, frame).into_iter().fold(panels(false, Group::new()), |group, s| {
        group.add(frame.rectangle("sheet", (s.x0_mm, s.x1_mm), (s.z0_mm, s.z1_mm)))
    });
    panels(true, group)
}

fn add_panel(e: &Evaluation, frame: &Frame, (p, x): (&EndPanel, (f64, f64)), group: Group) -> Group {
    let (low, high) = (e.survey.heights.drip_rail_mm, e.raised.heights.drip_rail_mm);
    if let Some(taper) = p.taper_mm {
        // The centre of area lies a third of the taper from the upright edge.
        let upright = p.x_mm - taper / 3.0;
        group.add(frame.outline("sheet", &[(upright, low), (upright, high), (upright + taper, low), (upright, low)]))
    } else {
        group.add(frame.rectangle("sheet", x, p.edges_mm()))
    }
}

fn holes(e: &Evaluation, frame: &Frame) -> Group {
    let lines = e.lines.iter().filter(|l| l.side == Some(frame.side));
    lines.flat_map(|l| l.hole_places_mm()).fold(Group::new(), |group, (x, z)| {
        group.add(
            Circle::new().set("class", "hole").set("cx", round(frame.x(x))).set("cy", round(frame.y(z))).set("r", 9),
        )
    })
}

fn cut(e: &Evaluation, frame: &Frame) -> Group {
    let cut = e.raise.cut_mm;
    let (rear, front) = e.raise.roof_ends_mm(&e.survey);
    Group::new().add(frame.line("cut", (rear - 60.0, cut), (front + 60.0, cut)))
}

/// Name and size on each sheet, number on each post.
fn labels(e: &Evaluation, frame: &Frame) -> Group {
    let mut group = Group::new();
    for s in sheets_in_order(e, frame) {
        let (x, z) = (f64::midpoint(s.x0_mm, s.x1_mm), f64::midpoint(s.z0_mm, s.z1_mm));
        if s.patch.is_some() {
            // Too narrow for its size, which the sheet list tells.
            group = group.add(text(s.id.clone(), "tiny halo", (frame.x(x), frame.y(z)), "middle"));
            continue;
        }
        let size = format!("{} × {}", short(e.units, s.length_mm()), short(e.units, s.height_mm()));
        group = group.add(text(s.id.clone(), "halo", (frame.x(x), frame.y(z) - 15.0), "middle")).add(text(
            size,
            "small halo",
            (frame.x(x), frame.y(z) + 0.9 * TEXT),
            "middle",
        ));
    }
    for (p, (from, to)) in end_panels(e, frame).filter(|(p, _)| p.taper_mm.is_none()) {
        let size = format!("{} × {}", short(e.units, p.length_mm), short(e.units, p.height_mm));
        let end = p.id.split(',').next().unwrap_or_default().to_owned();
        let x = f64::midpoint(from, to);
        group = group.add(text(end, "small halo", (frame.x(x), frame.y(p.z_mm) - 20.0), "middle"));
        // Its size where there is room; the sheet list has it anyway.
        if to - from > 0.35 * TEXT * size.chars().count() as f64 {
            group = group.add(text(size, "tiny halo", (frame.x(x), frame.y(p.z_mm) + 80.0), "middle"));
        }
    }
    let below = e.survey.heights.floor_mm + 150.0;
    for (i, &x) in e.survey.posts_mm.iter().enumerate() {
        group = group.add(text(format!("{}", i + 1), "small", (frame.x(x), frame.y(below)), "middle")).add(text(
            short(e.units, x),
            "small",
            (frame.x(x), frame.y(below) + 0.9 * TEXT),
            "middle",
        ));
    }
    group.add(text(
        "posts and how far each is from the rear face",
        "small",
        (frame.x(e.survey.length_mm / 2.0), frame.y(below) - TEXT),
        "middle",
    ))
}

/// Heights above the ground, spread so that no two labels touch.
fn levels(e: &Evaluation, frame: &Frame) -> Group {
    let (before, after) = (&e.survey.heights, &e.raised.heights);
    let mut levels = vec![
        ("overall", after.overall_mm),
        ("drip rail", after.drip_rail_mm),
        ("drip rail before", before.drip_rail_mm),
        ("window bottom", before.window_bottom_mm),
        ("floor", before.floor_mm),
        ("cut", e.raise.cut_mm),
    ];
    if let Some(z) = before.rub_rail_mm {
        levels.push(("rub rail", z));
    }
    levels.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut group = Group::new();
    let mut last = f64::NEG_INFINITY;
    for (name, z) in levels {
        let label = z.max(last + TEXT * 1.25);
        last = label;
        let (edge, x) = (MARGIN_LEFT - 40.0, MARGIN_LEFT - 160.0);
        group = group
            .add(Polyline::new().set("class", "level").set("fill", "none").set(
                "points",
                format!(
                    "{x},{} {},{} {edge},{}",
                    round(frame.y(label)),
                    x + 40.0,
                    round(frame.y(label)),
                    round(frame.y(z))
                ),
            ))
            .add(text(format!("{name} {}", short(e.units, z)), "small", (x - 20.0, frame.y(label) + 36.0), "end"));
    }
    group
}

fn heading(e: &Evaluation, frame: &Frame, name: &str) -> Group {
    let middle = frame.x(e.survey.length_mm / 2.0);
    let front = frame.x(e.survey.length_mm);
    let anchor = if frame.side == Side::Left { "start" } else { "end" };
    let arrow = if frame.side == Side::Left { "◀ FRONT" } else { "FRONT ▶" };
    Group::new()
        .add(text(format!("OUTSIDE, {name}"), "title", (middle, 240.0), "middle"))
        .add(text(arrow, "", (front, 240.0), anchor))
        .add(text(format!("roof up by {}", e.units.length(e.raise.height_mm)), "small", (middle, 400.0), "middle"))
}

/// Scale bar, legend and title block.
fn foot(e: &Evaluation, frame: &Frame, width: f64) -> Group {
    let y = frame.y(0.0) + 180.0;
    let (bar, words) = match e.units {
        ShopUnits::Inches => (3.0 * 304.8, "3 ft"),
        ShopUnits::Metric => (1000.0, "1 m"),
    };
    let x = MARGIN_LEFT;
    let mut group = Group::new()
        .add(Rectangle::new().set("class", "scale").set("x", x).set("y", y).set("width", round(bar)).set("height", 36))
        .add(text(format!("{words}, to scale"), "small", (x, y + 170.0), "start"));
    let legend: [(&str, Element); 3] = [
        ("cut", stroke("cut").into()),
        ("roof before", stroke("old").into()),
        ("window skinned over", stroke("gone").into()),
    ];
    for (i, (word, line)) in legend.into_iter().enumerate() {
        let (lx, ly) = (x, y + 350.0 + i as f64 * 160.0);
        group = group.add(Group::new().set("transform", format!("translate({lx} {ly})")).add(line)).add(text(
            word,
            "small",
            (lx + 420.0, ly + 36.0),
            "start",
        ));
    }
    let (bx, bw) = (MARGIN_LEFT + 2300.0, (width - MARGIN_LEFT - 2300.0 - MARGIN_RIGHT).max(3200.0));
    let invented = if e.invented { " · figures invented for an example" } else { "" };
    let lines = [
        format!("{}{invented}", e.name),
        format!("skin {} · {}", e.sheet, e.rivet),
        format!("{} rivets in all · pitch between posts equal", e.takeoff.rivets),
        "Planning aid, not a certification; a licensed engineer and local rules decide.".to_owned(),
    ];
    group = group
        .add(Rectangle::new().set("class", "box").set("x", bx).set("y", y).set("width", round(bw)).set("height", 690));
    for (i, line) in lines.into_iter().enumerate() {
        group = group.add(text(line, "small", (bx + 60.0, y + 150.0 + i as f64 * 155.0), "start"));
    }
    group
}

fn stroke(class: &str) -> Line {
    Line::new().set("class", class).set("x1", 0).set("y1", 0).set("x2", 360).set("y2", 0)
}
