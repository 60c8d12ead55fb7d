//! Hours of work, task by task, from the takeoff.

use crate::body::takeoff::Takeoff;
use crate::check::Standing;

use super::price_book::Stage;

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
    /// One cut of a sheet; none where there is no shear.
    pub shear_cut: Option<Time>,
    /// One cut of a bar; within other work where none.
    pub saw_cut: Option<Time>,
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
    /// Pretreating one square metre of one face of the new skin; not counted where none.
    pub pretreat: Option<Time>,
    /// All coats on one square metre inside; not counted where none.
    pub paint_inside: Option<Time>,
    /// All coats on one square metre outside; not counted where none.
    pub paint_outside: Option<Time>,
    /// Clamping one sheet in place; within hanging where none.
    pub clamp: Option<Time>,
    /// Hanging one sheet.
    pub sheet: Time,
    /// Drilling one hole, and deburring it where that has no time of its own.
    pub hole: Time,
    /// Deburring one hole; within drilling where none.
    pub deburr: Option<Time>,
    /// Setting one rivet.
    pub rivet: Time,
    /// Plugging one old hole; none where there are no lines of old holes.
    pub plug: Option<Time>,
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

/// Cuts made in the shop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ShopCuts {
    /// Of sheets.
    pub sheets: i64,
    /// Of bars.
    pub bars: i64,
}

/// Every task by its name.
pub const TASKS: [&str; 20] = [
    "take out windows",
    "lift the roof and make it safe",
    "lengthen posts",
    "cut sheets to size",
    "cut bars to length",
    "scrape posts",
    "straighten posts",
    "pretreat new skin",
    "prime new skin",
    "paint new skin inside",
    "clamp sheets",
    "hang sheets",
    "clamp and hang sheets",
    "drill holes",
    "drill and deburr holes",
    "deburr holes",
    "plug old holes",
    "set rivets",
    "seal laps and edges",
    "paint new skin outside",
];

/// The stage that a task belongs to.
pub fn stage_of(task: &str) -> Stage {
    match task {
        "take out windows" | "lift the roof and make it safe" => Stage::Lift,
        "lengthen posts" | "cut bars to length" | "scrape posts" | "straighten posts" => Stage::Frame,
        "pretreat new skin" | "prime new skin" | "paint new skin inside" | "paint new skin outside" => Stage::Paint,
        _ => Stage::Skin,
    }
}

/// Hours for each task that there is any of.
pub fn tasks(takeoff: &Takeoff, cuts: ShopCuts, times: &Times) -> Vec<Task> {
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
        maybe("cut sheets to size", cuts.sheets as f64, "cuts", times.shear_cut),
        maybe("cut bars to length", cuts.bars as f64, "cuts", times.saw_cut),
        maybe("scrape posts", posts, "posts", times.scrape),
        maybe("straighten posts", posts, "posts", times.straighten),
        maybe("pretreat new skin", takeoff.pretreated_area_m2, "m2", times.pretreat),
        maybe("prime new skin", takeoff.skin_area_m2, "m2", times.prime),
        maybe("paint new skin inside", takeoff.skin_area_m2, "m2", times.paint_inside),
    ];
    let (sheets, old) = (takeoff.sheets as f64, takeoff.old_holes);
    let holes = (takeoff.rivets + old.drilled) as f64;
    let hang = if times.clamp.is_some() { "hang sheets" } else { "clamp and hang sheets" };
    let drill = if times.deburr.is_some() { "drill holes" } else { "drill and deburr holes" };
    let skin = [
        maybe("clamp sheets", sheets, "sheets", times.clamp),
        Some(task(hang, sheets, "sheets", times.sheet)),
        Some(task(drill, holes, "holes", times.hole)),
        maybe("deburr holes", holes, "holes", times.deburr),
        maybe("plug old holes", old.plugged as f64, "plugs", times.plug),
        Some(task("set rivets", (takeoff.rivets + old.riveted) as f64, "rivets", times.rivet)),
        Some(task("seal laps and edges", takeoff.sealed_length_m, "m", times.seal)),
        maybe("paint new skin outside", takeoff.topcoat_area_m2, "m2", times.paint_outside),
    ];
    all.into_iter().chain(prepare.into_iter().chain(skin).flatten()).filter(|t| t.quantity > 0.0).collect()
}
