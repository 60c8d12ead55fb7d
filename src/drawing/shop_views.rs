//! How bars are cut, and who does what when, as pictures.

use crate::plan::{BarCuts, Evaluation};
use crate::shop::schedule::{Schedule, clock};

use super::canvas::{Canvas, Margins, marked};

/// Bars as they are cut, as an SVG document.
pub fn bar_view(e: &Evaluation, own: &BarCuts, what: &str) -> String {
    let cards = own.cards();
    let longest = cards.iter().map(|card| card.length_mm).fold(1.0, f64::max);
    let row = 0.055 * longest;
    let high = row * cards.len() as f64;
    let margins = Margins { left: 26.0, right: 6.0, top: 6.0, bottom: 6.0 };
    let mut canvas = Canvas::new((0.0, 0.0), (longest, high.max(1.0)), margins);
    for (i, card) in cards.iter().enumerate() {
        let (low, top) = (high - row * (i as f64 + 0.85), high - row * (i as f64 + 0.15));
        canvas.rectangle("rest", (0.0, low), (card.length_mm, top));
        let times = if card.times > 1 { format!("{} bars", card.times) } else { "1 bar".to_owned() };
        canvas.text("small", (-canvas.u(2.0), f64::midpoint(low, top) + canvas.u(0.4)), "end", card.title());
        canvas.text("small", (-canvas.u(2.0), f64::midpoint(low, top) - canvas.u(2.4)), "end", times);
        let (mut x, kerf) = (0.0, own.job.kerf_tenths as f64 / 10.0);
        for (length, names) in &card.pieces {
            canvas.rectangle("piece", (x, low), (x + length, top));
            let middle = x + 0.5 * length;
            let letter = canvas.u(1.25);
            let fits = |text: &str| letter * (text.chars().count() as f64) < *length;
            // Of bars cut alike each has its own piece here.
            let name = names.join(" / ");
            let size = marked(e.units, *length);
            let (upper, lower) = (f64::midpoint(low, top) + canvas.u(0.5), f64::midpoint(low, top) - canvas.u(2.3));
            if fits(&name) {
                canvas.text("small", (middle, upper), "middle", name);
            }
            if fits(&size) {
                canvas.text("small", (middle, lower), "middle", size);
            }
            x += length + kerf;
        }
    }
    let words = ["white: pieces, bar after bar by their names, saw cuts between them; dashed: what is left".to_owned()];
    canvas.finish(e, &format!("Bars, {what}"), &words)
}

/// The schedule as bars of tasks over the working hours of each day, as an SVG document.
pub fn schedule_view(e: &Evaluation, schedule: &Schedule) -> String {
    let job = schedule.job();
    let day_h = job.crew.day_hours;
    let parts = schedule.days();
    let days = parts.iter().map(|part| part.end_day).max().unwrap_or(1) as f64;
    // Of every kind of task a band; its tasks lie over each other where they go on together.
    let kinds: Vec<_> = crate::shop::schedule::TaskKind::ALL
        .into_iter()
        .filter(|kind| job.tasks.iter().any(|task| task.kind == *kind))
        .collect();
    // Hours along, a row of a kind as high as a fortieth of all hours.
    let all_h = days * day_h;
    let row = all_h / 40.0;
    let high = row * kinds.len() as f64;
    let margins = Margins { left: 26.0, right: 6.0, top: 10.0, bottom: 6.0 };
    let mut canvas = Canvas::new((0.0, 0.0), (all_h, high), margins).without_scale();
    let start_s = job.crew.start_s as f64;
    let hour = |day: u64, s: u64| {
        let h = ((s as f64 - start_s) / 3600.0).clamp(0.0, day_h);
        (day as f64 - 1.0) * day_h + h
    };
    for (i, kind) in kinds.iter().enumerate() {
        let (low, top) = (high - row * (i as f64 + 0.9), high - row * (i as f64 + 0.1));
        canvas.line("dim", (0.0, low - 0.1 * row), (all_h, low - 0.1 * row));
        canvas.text("small", (-canvas.u(2.0), f64::midpoint(low, top) - canvas.u(0.7)), "end", kind.word());
        for part in parts.iter().filter(|part| job.tasks.get(part.task).is_some_and(|task| task.kind == *kind)) {
            let people = job.tasks.get(part.task).map_or(0, |task| task.people);
            let class = if people > 0 { "people" } else { "alone" };
            canvas.rectangle(class, (hour(part.day, part.start_s), low), (hour(part.end_day, part.end_s), top));
        }
    }
    let every = (days / 30.0).ceil().max(1.0) as u64;
    for day in 0..=(days as u64) {
        let x = day as f64 * day_h;
        canvas.line("level", (x, 0.0), (x, high));
        if day < days as u64 && day % every == 0 {
            canvas.text("small", (x + 0.5 * day_h, high + canvas.u(1.5)), "middle", (day + 1).to_string());
        }
    }
    canvas.text("small", (-canvas.u(2.0), high + canvas.u(1.5)), "end", "working day");
    let words = [
        format!(
            "people: {}, rivet tools: {}, {} to {}",
            job.crew.people,
            job.crew.tools,
            clock(job.crew.start_s),
            clock(job.crew.start_s + (day_h * 3600.0) as u64)
        ),
        "shaded: people at it; dashed: it cures by itself, nights between days too".to_owned(),
    ];
    canvas.finish(e, "Schedule by kind of work", &words)
}
