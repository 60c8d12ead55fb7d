//! What is held and what gives way: the roof on its supports and braces, and a pair of posts with its bow under load.

use crate::plan::{BowAnswer, BowSummary, Evaluation, LiftSummary};

use super::canvas::{Canvas, Margins, short};
use super::cut_day::stop_work;

/// Supports and braces in plan, from the side and from behind, as an SVG document.
pub fn lift_view(e: &Evaluation, lift: &LiftSummary) -> String {
    let (length, half) = (e.survey.length_mm, 0.5 * e.survey.width_mm);
    let (floor, crown) = (e.survey.heights.floor_mm, e.survey.heights.crown_mm);
    let gap = 700.0;
    // Plan above, side below it, the view from behind to the right.
    let plan_y = crown + gap + half;
    let across = length + gap + half;
    let margins = Margins { left: 10.0, right: 8.0, top: 8.0, bottom: 12.0 };
    let mut canvas = Canvas::new((0.0, floor - 250.0), (across + half, plan_y + half), margins);
    let (rear, front) = e.raise.roof_ends_mm(&e.survey);
    let cut = e.raise.cut_mm;
    canvas.rectangle("body", (0.0, plan_y - half), (length, plan_y + half));
    canvas.rectangle("edge", (rear, plan_y - half), (front, plan_y + half));
    canvas.text("small", (0.5 * length, plan_y + half + canvas.u(1.5)), "middle", "from above, front at the right");
    canvas.rectangle("body", (0.0, floor), (length, crown));
    canvas.line("cut", (rear, cut), (front, cut));
    canvas.text("small", (0.5 * length, floor - canvas.u(4.0)), "middle", "from the right side, before the lift");
    canvas.rectangle("body", (across - half, floor), (across + half, crown));
    canvas.line("cut", (across - half, cut), (across + half, cut));
    canvas.text("small", (across, floor - canvas.u(4.0)), "middle", "from behind");
    for s in &lift.support_places {
        let (r, w) = (canvas.u(1.6), canvas.u(1.2));
        let y = plan_y + s.y_mm;
        canvas.rectangle("new", (s.x_mm - r, y - r), (s.x_mm + r, y + r));
        canvas.rectangle("new", (s.x_mm - w, s.foot_mm), (s.x_mm + w, s.top_mm));
        canvas.rectangle("new", (across - s.y_mm - w, s.foot_mm), (across - s.y_mm + w, s.top_mm));
        let load = lift.supports.iter().find(|own| own.name == s.name);
        let told = load.map_or_else(String::new, |own| format!(", {:.1} kN at most", own.greatest_n / 1000.0));
        let up = if s.y_mm < 0.0 { canvas.u(2.4) } else { -canvas.u(4.4) };
        canvas.text("small halo", (s.x_mm, y + up), "middle", format!("{}{told}", s.name));
    }
    let mut numbers: Vec<((f64, f64), String)> = Vec::new();
    for (i, b) in lift.brace_places.iter().enumerate() {
        let ([x0, y0, z0], [x1, y1, z1]) = (b.from_mm, b.to_mm);
        let class = if b.compression_n == Some(0.0) { "strap" } else { "bar" };
        let views =
            [((x0, plan_y + y0), (x1, plan_y + y1)), ((x0, z0), (x1, z1)), ((across - y0, z0), (across - y1, z1))];
        for (from, to) in views {
            canvas.line(class, from, to);
        }
        // A third of the way up, in every view; those that are seen in one place share a label.
        for (from, to) in views {
            let at = (from.0 + (to.0 - from.0) / 3.0, from.1 + (to.1 - from.1) / 3.0 + canvas.u(0.8));
            let near = |other: &&mut ((f64, f64), String)| (other.0.0 - at.0).hypot(other.0.1 - at.1) < canvas.u(2.5);
            match numbers.iter_mut().find(near) {
                Some((_, names)) => *names = format!("{names}, {}", i + 1),
                None => numbers.push((at, (i + 1).to_string())),
            }
        }
    }
    for (at, names) in numbers {
        canvas.text("small halo", at, "middle", names);
    }
    let [x, y, _] = lift.centre_mm;
    canvas.circle("again", (x, plan_y + y), canvas.u(0.9));
    canvas.text("small halo", (x + canvas.u(1.6), plan_y + y - canvas.u(0.8)), "start", "centre of the roof");
    canvas.dim_across((0.0, length), floor - canvas.u(9.0), short(e.units, length));
    let mut words: Vec<String> = Vec::new();
    let names: Vec<String> =
        lift.brace_places.iter().enumerate().map(|(i, b)| format!("{} {}", i + 1, b.name)).collect();
    words.extend(names.chunks(3).map(|own| own.join("; ")));
    words.push("thick: bars; dashed: straps and chains, which only pull; shaded: supports".to_owned());
    words.extend(stop_work(e).map(|wind| format!("stop-work wind: {wind}")));
    words.push("Never work under a roof that is not held by cribs and braced in both directions.".to_owned());
    canvas.finish(e, "Supports and braces", &words)
}

/// How many times a frame's movement is drawn: the largest round number with which it stays within a tenth of its height.
fn times(movement_mm: f64, height_mm: f64) -> f64 {
    let most = 0.1 * height_mm / movement_mm.max(1e-9);
    [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0].into_iter().rev().find(|n| *n <= most).unwrap_or(1.0)
}

/// A pair of posts with its bow under the side load and under the roof load, feet pinned and fixed, as an SVG document.
pub fn frame_view(e: &Evaluation, bows: &BowSummary) -> String {
    let (half, floor) = (0.5 * e.survey.width_mm, e.survey.heights.floor_mm);
    let apart = 2.0 * half + 900.0;
    let crown = e.raised.heights.crown_mm;
    let margins = Margins { left: 8.0, right: 8.0, top: 8.0, bottom: 16.0 };
    let ends: Vec<&BowAnswer> = bows.answers.first().into_iter().chain(bows.answers.last()).collect();
    let cases = ends.len() as f64;
    let mut canvas = Canvas::new((-half, floor), (half + apart * (cases - 1.0), crown), margins);
    let mut words = vec![format!(
        "across the bus, wind {:.0} m/s and the roof's own pull from the left; one bow of {}",
        bows.wind_m_s, bows.bows
    )];
    for (i, answer) in ends.iter().enumerate() {
        let by = apart * i as f64;
        let shape = &answer.shape;
        let still: Vec<(f64, f64)> = shape.nodes_mm.iter().map(|[x, y]| (by + x, *y)).collect();
        canvas.polyline("edge", &still);
        for foot in [still.first(), still.last()].into_iter().flatten() {
            canvas.line("ground", (foot.0 - canvas.u(4.0), foot.1), (foot.0 + canvas.u(4.0), foot.1));
        }
        let mut told = vec![format!("feet {}", answer.feet.words())];
        for (class, moves, name) in [("moved", &shape.side_mm, "side load"), ("pressed", &shape.roof_mm, "roof load")] {
            if moves.is_empty() {
                continue;
            }
            let most = moves.iter().map(|[x, y]| x.hypot(*y)).fold(0.0, f64::max);
            let n = times(most, crown - floor);
            let moved: Vec<(f64, f64)> =
                shape.nodes_mm.iter().zip(moves).map(|([x, y], [dx, dy])| (by + x + n * dx, y + n * dy)).collect();
            canvas.polyline(class, &moved);
            told.push(if n > 1.0 { format!("{name}: moves drawn {n:.0} times") } else { format!("{name}: to scale") });
        }
        for (k, line) in told.iter().enumerate() {
            let at = (by, floor - canvas.u(4.0 + 3.2 * k as f64));
            canvas.text("small", at, "middle", line.clone());
        }
        let sway = answer
            .sway_mm
            .map_or_else(|| "buckles under the side load".to_owned(), |mm| format!("sways {}", e.units.length(mm)));
        let crown = answer.crown_down_mm.map_or_else(
            || "roof load not known without axle weights".to_owned(),
            |mm| format!("crown goes down {} under the roof load of 49 CFR 571.220, a yardstick", e.units.length(mm)),
        );
        words.push(format!("feet {}: {sway}; {crown}", answer.feet.words()));
    }
    words.push("full: side load with the roof's weight; dashed: roof load; black: unloaded".to_owned());
    canvas.finish(e, "A pair of posts with its bow under load", &words)
}
