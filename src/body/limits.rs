//! The raised body against ratings, places and the space wanted inside.

use crate::catalogue::Limit;
use crate::check::{Check, Level, Standing, Verdict};

/// Overall height and width against what a place allows.
///
/// The height is rounded up to the next millimetre before it is compared; a millionth over is rounding, not height.
pub fn place_checks(limit: &Limit, overall_mm: f64, width_mm: f64, standing: Standing) -> Vec<Check> {
    let source = format!("{} (seen {})", limit.source, limit.date_seen);
    let standing = standing.with(limit.standing);
    let check = |name: &'static str, has: f64, allowed: f64| {
        let margin = match allowed - has {
            short if short < 0.0 => format!("{:.0} mm too much", -short),
            left => format!("margin {left:.0} mm"),
        };
        let note = limit.note.as_ref().map_or_else(String::new, |note| format!("; {note}"));
        Check::compare(name, source.clone(), (Some(has), Some(allowed), "mm"), Level::Stated, standing)
            .at(limit.name.clone())
            .because(format!("{margin}{note}"))
    };
    let mut checks = vec![check("overall height", (overall_mm - 1e-6).ceil(), limit.height.mm())];
    if let Some(width) = limit.width {
        checks.push(check("overall width", width_mm, width.mm()));
    }
    checks
}

/// A load against a rating; either may be unknown. A load of nought or less fails: nothing stands on such an axle.
pub fn rating_check(
    name: &'static str,
    at: &str,
    load_kg: Option<f64>,
    rating_kg: Option<f64>,
    standing: Standing,
) -> Check {
    let mut check = Check::compare(
        name,
        "49 CFR 571.3: the rating on the vehicle's plate",
        (load_kg, rating_kg, "kg"),
        Level::Stated,
        standing,
    )
    .at(at);
    if load_kg.is_some_and(|kg| kg <= 0.0) {
        check =
            check.demoted(Verdict::Fails, "nothing stands on it: it lifts, or the masses and places cannot be right");
    } else if rating_kg.is_none() {
        check = check.because("the rating is not in the plan; read it off the plate");
    } else if load_kg.is_none() {
        check = check.because("axle weights, wheelbase or rear overhang are not in the plan");
    }
    check
}
