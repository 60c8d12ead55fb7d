//! The body across: both ends as seen from outside, and the cross-section before and after.

use std::f64::consts::FRAC_PI_2;

use crate::body::raise::Ends;
use crate::body::rivet_lines::RivetLine;
use crate::body::skins::Wrap;
use crate::body::survey::{Heights, Side};
use crate::plan::Evaluation;
use crate::quantity::ShopUnits;

use super::canvas::{Canvas, Margins, short};

/// No chord of an outline misses its arc by more, mm.
const MISS_MM: f64 = 1.0;

/// Heights that an end or a section is told by.
fn levels(h: &Heights, units: ShopUnits, cut_mm: Option<f64>) -> Vec<(String, f64)> {
    let mut all = vec![("crown", h.crown_mm), ("drip rail", h.drip_rail_mm), ("window bottom", h.window_bottom_mm)];
    all.push(("floor", h.floor_mm));
    all.extend(h.rub_rail_mm.map(|z| ("rub rail", z)));
    all.extend(cut_mm.map(|z| ("cut", z)));
    all.into_iter().map(|(name, z)| (format!("{name} {}", short(units, z)), z)).collect()
}

/// How high a place of an end panel is seen: a slope, whose middle line the layout stands upright, is seen foreshortened.
fn upright(e: &Evaluation, middle_mm: f64, z_mm: f64) -> f64 {
    match e.raise.ends {
        Ends::Sloped { run_mm } => middle_mm + (z_mm - middle_mm) * e.raise.height_mm / e.raise.height_mm.hypot(run_mm),
        Ends::WholeRoof | Ends::Stepped => z_mm,
    }
}

/// How much nearer to the middle a cap's upper edge stands at each side, mm.
fn narrower(wrap: &Wrap) -> f64 {
    let (left, right) = wrap.round_mm();
    (left - right - wrap.upper_round_mm) / wrap.wings.len().max(1) as f64
}

/// Where a place along a cap's sheet is seen from the end, mm left of the middle: round a bend it goes out of sight.
fn seen_across(wrap: &Wrap, along_mm: f64) -> f64 {
    let (left, right) = wrap.face_mm;
    let turned = |side: Side, past_mm: f64| {
        wrap.wing(side).map_or(past_mm, |wing| wing.bend_mm * (past_mm / wing.arc_mm * FRAC_PI_2).min(FRAC_PI_2).sin())
    };
    if along_mm > left {
        left + turned(Side::Left, along_mm - left)
    } else if along_mm < right {
        right - turned(Side::Right, right - along_mm)
    } else {
        along_mm
    }
}

/// The rear or the front as an SVG document, seen from outside.
pub fn end_view(e: &Evaluation, front: bool) -> String {
    let half = 0.5 * e.survey.width_mm;
    // Seen from behind, the left side is at the left; seen from the front, at the right.
    let x = |y: f64| if front { y } else { -y };
    let floor = e.survey.heights.floor_mm;
    let margins = Margins { left: 48.0, right: 12.0, top: 14.0, bottom: 14.0 };
    let mut canvas = Canvas::new((-half, floor), (half, e.raised.heights.crown_mm), margins);
    let section = |points: Vec<(f64, f64)>| points.into_iter().map(|(y, z)| (x(y), z)).collect::<Vec<_>>();
    canvas.polygon("body", &section(e.raised.section.points_mm(MISS_MM)));
    canvas.polyline("old", &section(e.survey.section.points_mm(MISS_MM)));
    let mut laps = Vec::new();
    let panels = e.skins.ends.iter().filter(|p| p.front == front && p.side.is_none());
    for panel in panels {
        let (low, high) = panel.edges_mm();
        let (low, high) = (upright(e, panel.z_mm, low), upright(e, panel.z_mm, high));
        let (left, right) = match &panel.wrap {
            // Round its corners to the sides of the body; bend marks stand where the flat face ends.
            Some(wrap) => {
                let [left, right] = Side::BOTH.map(|side| {
                    let face = if side == Side::Left { wrap.face_mm.0 } else { wrap.face_mm.1 };
                    wrap.wing(side).map_or(face, |wing| face + side.sign() * wing.bend_mm)
                });
                (left, right)
            }
            None => (panel.y_mm + 0.5 * panel.length_mm, panel.y_mm - 0.5 * panel.length_mm),
        };
        let (narrow, of) = (panel.wrap.as_ref().map_or(0.0, narrower), [left, right].map(f64::signum));
        // Of a half the seam stands upright.
        let top = [left, right].map(|y| if y.abs() < 1.0 { 0.0 } else { narrow });
        let upper = [left - of[0] * top[0], right - of[1] * top[1]];
        canvas.polygon("sheet", &[(x(left), low), (x(right), low), (x(upper[1]), high), (x(upper[0]), high)]);
        for wing in panel.wrap.iter().flat_map(|wrap| &wrap.wings) {
            let face = x(if wing.side == Side::Left { left - wing.bend_mm } else { right + wing.bend_mm });
            canvas.line("bend", (face, low), (face - x(wing.side.sign() * narrow), high));
        }
        let middle = (x(f64::midpoint(left, right)), f64::midpoint(low, high));
        canvas.text("halo", middle, "middle", panel.id.clone());
        laps.extend(e.skins.laps.iter().filter(|lap| lap.side.is_none() && lap.over == panel.id));
    }
    let at_end = |line: &&RivetLine| {
        line.of_panel.is_some_and(|(i, _)| e.skins.ends.get(i).is_some_and(|p| p.front == front && p.side.is_none()))
            && line.side.is_none()
    };
    let radius = canvas.u(0.35).max(0.5 * e.drilling.hole_mm);
    for line in e.lines.iter().filter(at_end) {
        let Some(panel) = line.of_panel.and_then(|(i, _)| e.skins.ends.get(i)) else { continue };
        for (along, z) in line.hole_places_mm() {
            let y = panel.wrap.as_ref().map_or(along, |wrap| {
                let up = (z - panel.edges_mm().0) / panel.upright_mm();
                // The upper line is as long as the upper edge, which is that much nearer to the middle.
                let share = if up > 0.5 { wrap.upper_round_mm / (wrap.round_mm().0 - wrap.round_mm().1) } else { 1.0 };
                let y = seen_across(wrap, along / share);
                y - if y.abs() < 1.0 {
                    0.0
                } else {
                    y.signum() * up * narrower(wrap) * y.abs() / wrap.face_mm.0.abs().max(-wrap.face_mm.1)
                }
            });
            canvas.circle("hole", (x(y), upright(e, panel.z_mm, z)), radius);
        }
    }
    // Where the ends stay low the face keeps its heights, and nothing is cut there.
    let whole = e.raise.ends == Ends::WholeRoof;
    if whole {
        canvas.line("cut", (-half - canvas.u(3.0), e.raise.cut_mm), (half + canvas.u(3.0), e.raise.cut_mm));
        canvas.levels(-half, &mut levels(&e.raised.heights, e.units, Some(e.raise.cut_mm)));
    } else {
        let mut own = levels(&e.survey.heights, e.units, None);
        let raised = [("raised crown", e.raised.heights.crown_mm), ("raised drip rail", e.raised.heights.drip_rail_mm)];
        own.extend(raised.map(|(name, z)| (format!("{name} {}", short(e.units, z)), z)));
        canvas.levels(-half, &mut own);
    }
    canvas.dim_across((-half, half), floor - canvas.u(8.0), short(e.units, e.survey.width_mm));
    canvas.seen_from_outside(None, e.raised.heights.crown_mm);
    for side in Side::BOTH {
        let at = (x(side.sign() * half), floor - canvas.u(3.5));
        canvas.text("small", at, "middle", e.side_names[usize::from(side == Side::Right)]);
    }
    let heights =
        if whole { "heights are those after" } else { "this face stays as it is, the raised part stands behind it" };
    let mut words = vec![format!("dashed: before the raise; {heights}")];
    laps.dedup();
    words.extend(laps.iter().take(6).map(|lap| format!("{} over {}", lap.over, lap.under)));
    canvas.finish(e, if front { "Front, after the raise" } else { "Rear, after the raise" }, &words)
}

/// The cross-section before and after beside each other as an SVG document, seen from behind.
pub fn section_view(e: &Evaluation) -> String {
    let half = 0.5 * e.survey.width_mm;
    let apart = 2.0 * half + 1500.0;
    let floor = e.survey.heights.floor_mm;
    let margins = Margins { left: 34.0, right: 10.0, top: 12.0, bottom: 14.0 };
    let mut canvas = Canvas::new((-half, floor), (apart + half, e.raised.heights.crown_mm), margins);
    let build_up = (e.raise.floor_build_up_mm, e.raise.ceiling_build_up_mm);
    // Seen from behind, the left side is at the left.
    let placed = |points: Vec<(f64, f64)>, by: f64| points.into_iter().map(|(y, z)| (by - y, z)).collect::<Vec<_>>();
    for (by, section, name) in [(0.0, &e.survey.section, "before"), (apart, &e.raised.section, "after")] {
        canvas.polygon("body", &placed(section.points_mm(MISS_MM), by));
        canvas.text("", (by, floor - canvas.u(4.0)), "middle", name);
    }
    canvas.polyline("old", &placed(e.survey.section.points_mm(MISS_MM), apart));
    let (cut, rise) = (e.raise.cut_mm, e.raise.height_mm);
    canvas.line("cut", (-half - canvas.u(2.0), cut), (half + canvas.u(2.0), cut));
    for side in Side::BOTH {
        let edge = |z: f64| apart - side.sign() * e.raised.half_width_on_mm(&e.survey, side, z);
        let inward = side.sign() * canvas.u(2.0);
        let (low, high) = (cut - e.raise.overlap_mm, cut + rise + e.raise.overlap_mm);
        canvas.polygon(
            "new",
            &[(edge(low), low), (edge(high), high), (edge(high) + inward, high), (edge(low) + inward, low)],
        );
    }
    let inside = e.survey.inside_height_mm;
    canvas.dim_up((floor, floor + inside), 0.0, format!("inside {}", short(e.units, inside)));
    let (low, high) = (floor + build_up.0, floor + inside + rise - build_up.1);
    canvas.dim_up((low, high), apart, format!("clear {}", short(e.units, e.raised.headroom_mm)));
    for (z, thick) in [(floor, build_up.0), (high, build_up.1)].into_iter().filter(|(_, thick)| *thick > 0.0) {
        // As wide as the body is at its upper side, less a hand.
        let wide = |side: Side| (e.raised.section.half(side).half_width_mm(z + thick) - 100.0).max(100.0);
        canvas.rectangle("window", (apart - wide(Side::Left), z), (apart + wide(Side::Right), z + thick));
    }
    canvas.dim_up((cut, cut + rise), apart + half + canvas.u(6.0), format!("raise {}", short(e.units, rise)));
    canvas.levels(-half, &mut levels(&e.survey.heights, e.units, Some(cut)));
    canvas.levels(apart - half, &mut levels(&e.raised.heights, e.units, None));
    canvas.dim_across((-half, half), floor - canvas.u(9.0), short(e.units, e.survey.width_mm));
    let words = [
        "seen from behind; dashed: the outline before the raise".to_owned(),
        "shaded: the pieces that lengthen the posts, with what they reach into them; white: floor and ceiling built up"
            .to_owned(),
    ];
    canvas.finish(e, "Cross-section before and after", &words)
}
