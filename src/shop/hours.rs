//! Hours of work, task by task, from the takeoff.

use crate::body::takeoff::Takeoff;
use crate::check::Standing;

/// A time for one unit of work, hours of one person, and how it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Time {
    /// Hours of one person.
    pub hours: f64,
    /// How it is known.
    pub standing: Standing,
}

/// Times for one unit of each task.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Times {
    /// Taking out one window.
    pub window: Time,
    /// Lifting the roof and making it safe, once.
    pub lift: Time,
    /// Lengthening one post.
    pub post: Time,
    /// Scraping and cleaning one post; not counted where none.
    pub scrape: Option<Time>,
    /// Straightening one post; not counted where none.
    pub straighten: Option<Time>,
    /// Priming one square metre; not counted where none.
    pub prime: Option<Time>,
    /// Hanging one sheet.
    pub sheet: Time,
    /// Drilling and deburring one hole.
    pub hole: Time,
    /// Setting one rivet.
    pub rivet: Time,
    /// Sealing one metre.
    pub seal: Time,
}

/// One task.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Task {
    /// What is done.
    pub name: &'static str,
    /// How many units.
    pub quantity: f64,
    /// Unit of the quantity.
    pub unit: &'static str,
    /// Hours of one person for all of it.
    pub hours: f64,
    /// How the time for one unit is known.
    pub standing: Standing,
}

/// Hours for each task that there is any of.
pub fn tasks(takeoff: &Takeoff, times: &Times) -> Vec<Task> {
    let task = |name, quantity: f64, unit, time: Time| Task {
        name,
        quantity,
        unit,
        hours: quantity * time.hours,
        standing: time.standing,
    };
    let maybe = |name, quantity, unit, time: Option<Time>| time.map(|time| task(name, quantity, unit, time));
    let posts = takeoff.posts_lengthened as f64;
    let all = [
        task("take out windows", takeoff.windows_removed as f64, "windows", times.window),
        task("lift the roof and make it safe", 1.0, "lift", times.lift),
        task("lengthen posts", posts, "posts", times.post),
    ];
    let prepare = [
        maybe("scrape posts", posts, "posts", times.scrape),
        maybe("straighten posts", posts, "posts", times.straighten),
        maybe("prime new skin", takeoff.skin_area_m2, "m2", times.prime),
    ];
    let skin = [
        task("hang sheets", takeoff.sheets as f64, "sheets", times.sheet),
        task("drill and deburr", takeoff.rivets as f64, "holes", times.hole),
        task("set rivets", takeoff.rivets as f64, "rivets", times.rivet),
        task("seal laps and edges", takeoff.sealed_length_m, "m", times.seal),
    ];
    all.into_iter().chain(prepare.into_iter().flatten()).chain(skin).filter(|t| t.quantity > 0.0).collect()
}
