//! Hanging order and schedule of a plan: which sheet hangs when, and who does what on which day.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::body::rivet_lines::{LineKind, RivetLine};
use crate::body::skins::{EndPanel, Sheet, Skins};
use crate::body::survey::Side;
use crate::error::Problem;
use crate::shop::hours::{Time, Times};
use crate::shop::order::{Hung, LapGraph, LapLoop, Over};
use crate::shop::schedule::{Job, Length, Opening, Schedule, Task, TaskKind};

use super::cut_list::{CutBy, CutList};
use super::resolve::{CrewPlan, Resolved};

/// One sheet or end panel in the order in which all are hung.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HangingRow {
    /// Its name.
    pub sheet: String,
    /// Its side; none where it lies across the bus.
    pub side: Option<Side>,
    /// Its row, 0 the top one; none for an end panel.
    pub course: Option<usize>,
    /// What must hang before it because of a lap.
    pub after: Vec<String>,
    /// Why it hangs here.
    pub reason: String,
}

/// Which of the new sheets and panels laps over which.
fn laps(skins: &Skins) -> Vec<Over> {
    let own = skins.laps.iter().filter(|lap| skins.is_new(&lap.over) && skins.is_new(&lap.under));
    own.map(|lap| Over { over: lap.over.clone(), under: lap.under.clone() }).collect()
}

/// The row of a sheet.
fn course(skins: &Skins, id: &str) -> Option<usize> {
    skins.sheets.iter().find(|sheet| sheet.id == id).map(|sheet| sheet.course)
}

/// A lap whose over-sheet is in a row above: its lower edge can stay loose until the under-sheet is slid behind it.
fn between_rows(skins: &Skins, lap: &Over) -> bool {
    course(skins, &lap.over).zip(course(skins, &lap.under)).is_some_and(|(over, under)| over < under)
}

/// The order by laps, or the loop; with the top row first, a sheet that is slid behind a loose edge hangs after the one that
/// laps over it.
fn in_order(
    skins: &Skins,
    things: &[String],
    laps: &[Over],
    top_row_first: bool,
) -> Result<Result<Vec<Hung>, LapLoop>, Problem> {
    // What hangs first is "under" here.
    let first = |lap: &Over| if top_row_first && between_rows(skins, lap) { turned(lap) } else { lap.clone() };
    let graph = LapGraph::new(things, &laps.iter().map(first).collect::<Vec<_>>());
    Ok(graph.map_err(|mut problems| problems.swap_remove(0))?.order())
}

fn turned(lap: &Over) -> Over {
    Over { over: lap.under.clone(), under: lap.over.clone() }
}

/// A loop that only the planner's choice of the top row first makes, and what undoes it.
fn by_choice(skins: &Skins, things: &[String], laps: &[Over], found: &LapLoop) -> Problem {
    let next = found.0.iter().cycle().skip(1);
    let own = |(after, before): (&String, &String)| {
        let over = |lap: &&Over| lap.over == *after && lap.under == *before;
        laps.iter().find(over).filter(|lap| !between_rows(skins, lap))
    };
    let (mut words, mut cures) = (Vec::new(), Vec::new());
    for pair in found.0.iter().zip(next) {
        let Some(lap) = own(pair) else {
            words.push(format!("{} is slid behind {}", pair.0, pair.1));
            continue;
        };
        words.push(format!("{} laps over {}", lap.over, lap.under));
        let other_way: Vec<Over> = laps.iter().map(|l| if l == lap { turned(l) } else { l.clone() }).collect();
        if matches!(in_order(skins, things, &other_way, true), Ok(Ok(_))) {
            let exception = skins.laps.iter().any(|l| l.turned && l.over == lap.over && l.under == lap.under);
            cures.push(if exception {
                format!("leave the exception {} over {} out", lap.over, lap.under)
            } else {
                format!("make an exception of {} over {}", lap.under, lap.over)
            });
        }
    }
    let others = if cures.is_empty() { String::new() } else { format!(", or in skin.laps {}", cures.join(", or ")) };
    let problem = format!(
        "each would have to hang after the next, and only the choice of the top row first makes it so; leave \
         crew.top_row_first out, for with the lower sheets first all can be hung{others}"
    );
    Problem::contradiction("crew.top_row_first", words.join(", "), problem)
}

/// The order in which sheets and end panels hang: what lies beneath first, then rear panels, side by side the top row from the
/// rear on, front panels.
///
/// # Errors
/// The shortest loop of laps.
pub(super) fn hanging_order(skins: &Skins, crew: Option<&CrewPlan>) -> Result<Vec<HangingRow>, Problem> {
    let top_row_first = crew.is_some_and(|crew| crew.top_row_first);
    let mut sheets: Vec<&Sheet> = skins.sheets.iter().collect();
    sheets.sort_by(|a, b| (a.side, a.course).cmp(&(b.side, b.course)).then(a.x0_mm.total_cmp(&b.x0_mm)));
    let (front, rear): (Vec<&EndPanel>, Vec<&EndPanel>) = skins.ends.iter().partition(|end| end.front);
    let panels = |ends: Vec<&EndPanel>| ends.into_iter().map(|end| end.id.clone()).collect::<Vec<_>>();
    let sides = sheets.iter().map(|sheet| sheet.id.clone());
    let things: Vec<String> = panels(rear).into_iter().chain(sides).chain(panels(front)).collect();
    let laps = laps(skins);
    let order = in_order(skins, &things, &laps, top_row_first)?.map_err(|found| {
        match in_order(skins, &things, &laps, false) {
            Ok(Ok(_)) => by_choice(skins, &things, &laps, &found),
            // These laps tie themselves up, whichever row hangs first.
            Ok(Err(found)) => found.problem("skin.laps"),
            Err(problem) => problem,
        }
    })?;
    let row = |hung: Hung| {
        let sheet = skins.sheets.iter().find(|sheet| sheet.id == hung.name);
        let panel = skins.ends.iter().find(|end| end.id == hung.name);
        let lapped: BTreeSet<&str> =
            laps.iter().filter(|lap| lap.over == hung.name).map(|lap| lap.under.as_str()).collect();
        let (over, behind): (Vec<&str>, Vec<&str>) =
            hung.after.iter().map(String::as_str).partition(|name| lapped.contains(name));
        let parts = [("laps over", over), ("is slid behind", behind)];
        let parts = parts.into_iter().filter(|(_, names)| !names.is_empty());
        let told: Vec<String> = parts.map(|(verb, names)| format!("{verb} {}", names.join(" and "))).collect();
        HangingRow {
            side: sheet.map(|sheet| sheet.side).or(panel.and_then(|panel| panel.side)),
            course: sheet.map(|sheet| sheet.course),
            reason: if told.is_empty() { "nothing beneath it".to_owned() } else { told.join("; ") },
            sheet: hung.name,
            after: hung.after,
        }
    };
    Ok(order.into_iter().map(row).collect())
}

/// What a sheet or end panel takes; what it shares with others is counted with the one that hangs last.
#[derive(Debug, Clone, Default)]
struct Piece {
    name: String,
    side: Option<Side>,
    /// Row, 0 the top one; none for an end panel.
    course: Option<usize>,
    area_m2: f64,
    /// People to lift it.
    people: u32,
    holes: usize,
    sealed_m: f64,
    /// Pieces that share holes with it and hang before it.
    with: BTreeSet<usize>,
}

/// The pieces in the order of hanging, with the holes and the sealed length of each.
fn pieces(skins: &Skins, lines: &[RivetLine], order: &[HangingRow]) -> Vec<Piece> {
    let sheet = |name: &str| skins.sheets.iter().find(|sheet| sheet.id == name);
    let panel = |name: &str| skins.ends.iter().find(|end| end.id == name);
    let piece = |row: &HangingRow| Piece {
        name: row.sheet.clone(),
        side: row.side,
        course: row.course,
        area_m2: sheet(&row.sheet).map_or_else(|| panel(&row.sheet).map_or(0.0, EndPanel::area_m2), Sheet::area_m2),
        people: sheet(&row.sheet)
            .map(|sheet| sheet.people)
            .or(panel(&row.sheet).map(|panel| panel.people))
            .map_or(1, |people| people as u32),
        ..Piece::default()
    };
    let mut pieces: Vec<Piece> = order.iter().map(piece).collect();
    let on_side: Vec<(usize, &Sheet)> =
        order.iter().enumerate().filter_map(|(i, row)| Some((i, sheet(&row.sheet)?))).collect();
    // How far a point lies outside a sheet, mm.
    let outside = |sheet: &Sheet, (x, z): (f64, f64)| {
        (sheet.x0_mm - x).max(x - sheet.x1_mm).max(0.0) + (sheet.z0_mm - z).max(z - sheet.z1_mm).max(0.0)
    };
    for line in lines {
        let own = line.of_panel.and_then(|(i, _)| skins.ends.get(i));
        let own = own.and_then(|end| order.iter().position(|row| row.sheet == end.id));
        let middle = (f64::midpoint(line.from_mm.0, line.to_mm.0), f64::midpoint(line.from_mm.1, line.to_mm.1));
        let mut owners: Vec<usize> = Vec::new();
        let mut places: Vec<(f64, f64)> = line.hole_places_mm().collect();
        let holes = places.len();
        if places.is_empty() {
            places.push(middle);
        }
        for place in places {
            let near = || on_side.iter().filter(|(_, sheet)| Some(sheet.side) == line.side);
            let least = near().map(|(_, sheet)| outside(sheet, place)).fold(f64::INFINITY, f64::min);
            let of: BTreeSet<usize> = match own.filter(|_| line.kind == LineKind::End) {
                Some(own) => [own].into(),
                // A hole on a sheet's very edge is its hole, rounding aside.
                None => near().filter(|(_, s)| outside(s, place) <= least + 0.5).map(|(i, _)| *i).collect(),
            };
            let Some(&last) = of.last() else { continue };
            owners.push(last);
            if let Some(piece) = pieces.get_mut(last) {
                piece.with.extend(of.into_iter().filter(|&i| i != last));
            }
        }
        let share_m = if line.kind == LineKind::Post { 0.0 } else { line.length_mm() / 1000.0 / owners.len() as f64 };
        for owner in owners {
            if let Some(piece) = pieces.get_mut(owner) {
                piece.holes += usize::from(holes > 0);
                piece.sealed_m += share_m;
            }
        }
    }
    // Where a panel of an end laps, the rivets of both wait until both hang.
    for lap in laps(skins).iter().filter(|lap| panel(&lap.over).or(panel(&lap.under)).is_some()) {
        let at = |name: &str| order.iter().position(|row| row.sheet == name);
        let (Some(over), Some(under)) = (at(&lap.over), at(&lap.under)) else { continue };
        for (one, other) in [(over, under), (under, over)] {
            if let Some(piece) = pieces.get_mut(one) {
                piece.with.insert(other);
            }
        }
    }
    pieces
}

/// A part of a side that is stripped and made ready together: the length of a sheet of the top row.
#[derive(Debug, Clone)]
struct Stretch {
    name: String,
    side: Side,
    posts: (usize, usize),
    /// Windows taken out.
    windows: usize,
    /// Posts lengthened, each counted once.
    lengthened: usize,
}

fn stretches(r: &Resolved) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = Vec::new();
    for sheet in r.skins.sheets.iter().filter(|sheet| sheet.course == 0) {
        let (first, last) = (sheet.first_post, sheet.last_post);
        let counted = stretches.iter().any(|other| other.side == sheet.side && other.posts.1 == first);
        let windows = (first..last).filter(|&window| r.raise.window_kept.get(window) != Some(&true)).count();
        stretches.push(Stretch {
            name: format!("{}, posts {} to {}", sheet.side.name(), first + 1, last + 1),
            side: sheet.side,
            posts: (first, last),
            windows,
            lengthened: last + usize::from(!counted) - first,
        });
    }
    stretches
}

/// Tasks as they are listed one by one.
struct List<'a> {
    tasks: Vec<Task>,
    crew: &'a CrewPlan,
}

impl List<'_> {
    /// Adds a task; none where nothing takes time, so that what follows waits for what came before.
    fn add(&mut self, kind: TaskKind, (what, on): (&str, &str), person_hours: f64, after: &[usize]) -> Option<usize> {
        if person_hours <= 0.0 {
            return None;
        }
        let people = match kind {
            TaskKind::Hang => self.crew.hang_people,
            TaskKind::Rivet => self.crew.rivet_people,
            TaskKind::Lift => self.crew.crew.people,
            kind => kind.customary_people(),
        };
        // A sheet is up from the clamps on.
        let hangs = matches!(kind, TaskKind::Clamp | TaskKind::Hang);
        self.tasks.push(Task {
            on: on.to_owned(),
            people,
            after: after.to_vec(),
            starts_within_s: self.crew.hang_window_s.filter(|_| hangs),
            // A sheet half hung is no place to stop.
            whole: hangs,
            ..Task::new(format!("{what} {on}").trim_end(), kind, Length::PersonHours(person_hours))
        });
        Some(self.tasks.len() - 1)
    }
}

/// Tasks that come before the first sheet.
struct Ground {
    /// Windows out, by stretch.
    strips: Vec<Option<usize>>,
    lift: Option<usize>,
    /// What ends with the roof up, and with the posts of each stretch ready.
    lifted: Vec<usize>,
    ready: Vec<Vec<usize>>,
}

fn hours(count: usize, hours: f64) -> f64 {
    count as f64 * hours
}

/// Windows out, the roof up, posts lengthened, scraped and straightened.
fn ground((times, saw_cuts): (&Times, i64), stretches: &[Stretch], list: &mut List<'_>) -> Ground {
    let mut strip = |s: &Stretch| {
        let person_hours = hours(s.windows, times.window.hours);
        list.add(TaskKind::Strip, ("take out windows,", &s.name), person_hours, &[])
    };
    let strips: Vec<Option<usize>> = stretches.iter().map(&mut strip).collect();
    let all_stripped: Vec<usize> = strips.iter().copied().flatten().collect();
    let lift = list.add(TaskKind::Lift, ("lift the roof and make it safe", ""), times.lift.hours, &all_stripped);
    let lifted = lift.map_or(all_stripped, |lift| vec![lift]);
    let sawing = times.saw_cut.map_or(0.0, |time| saw_cuts as f64 * time.hours);
    let sawn = list.add(TaskKind::Cut, ("cut bars to length", ""), sawing, &[]);
    let mut ready: Vec<Vec<usize>> = Vec::new();
    for s in stretches {
        let mut last: Vec<usize> = lifted.iter().copied().chain(sawn).collect();
        let steps = [
            (TaskKind::Lengthen, "lengthen posts,", Some(times.post)),
            (TaskKind::Scrape, "scrape posts,", times.scrape),
            (TaskKind::Straighten, "straighten posts,", times.straighten),
        ];
        for (kind, words, time) in steps {
            let person_hours = time.map_or(0.0, |time| hours(s.lengthened, time.hours));
            if let Some(task) = list.add(kind, (words, &s.name), person_hours, &last) {
                last = vec![task];
            }
        }
        ready.push(last);
    }
    Ground { strips, lift, lifted, ready }
}

/// This piece is fixed to posts of this stretch.
fn over(r: &Resolved, piece: &Piece, stretch: &Stretch, stretches: &[Stretch]) -> bool {
    let sheet = r.skins.sheets.iter().find(|sheet| sheet.id == piece.name);
    match sheet.map(|sheet| (sheet.first_post, sheet.last_post)) {
        Some((first, last)) => {
            piece.side == Some(stretch.side) && first.max(stretch.posts.0) < last.min(stretch.posts.1)
        }
        // An end panel stands on the posts nearest to it.
        None => piece.side.is_none_or(|side| side == stretch.side) && beside(r, &piece.name, stretch, stretches),
    }
}

/// A piece readied, primed and painted inside on the ground, once it is cut; what ends with that.
fn coat_inside(r: &Resolved, piece: &Piece, cut: Option<usize>, list: &mut List<'_>) -> Vec<usize> {
    let work = |time: Option<Time>| time.map_or(0.0, |time| piece.area_m2 * time.hours);
    let pretreat = f64::from(r.allowances.pretreated_faces) * work(r.times.pretreat);
    let after = |last: Option<usize>| last.into_iter().collect::<Vec<_>>();
    let mut last = list.add(TaskKind::Paint, ("pretreat", &piece.name), pretreat, &after(cut)).or(cut);
    let prime = list.add(TaskKind::Prime, ("prime", &piece.name), work(r.times.prime), &after(last));
    last = prime.or(last);
    let coats = work(r.times.paint_inside);
    let paint = list.add(TaskKind::Paint, ("paint inside", &piece.name), coats, &after(last));
    last = paint.or(last);
    if let Some((wet, hours)) = paint.or(prime).zip(list.crew.primer_cure_h) {
        let cure = Task::new(format!("primer cures on {}", piece.name), TaskKind::Cure, Length::ElapsedHours(hours));
        list.tasks.push(Task { on: piece.name.clone(), after: vec![wet], ..cure });
        return vec![wet, list.tasks.len() - 1];
    }
    after(last)
}

/// Sheets cut in the shop; what each piece on them waits for.
fn cut_sheets(r: &Resolved, cut: &CutList, list: &mut List<'_>) -> BTreeMap<String, usize> {
    let mut tasks = BTreeMap::new();
    let Some((own, time)) = cut.sheets.as_ref().zip(r.times.shear_cut) else { return tasks };
    for card in own.cards() {
        if own.sources.get(card.source).is_none_or(|source| source.cut_by != CutBy::Shop) {
            continue;
        }
        let person_hours = hours(card.steps.len() * card.times as usize, time.hours);
        let Some(task) = list.add(TaskKind::Cut, ("cut", &card.title()), person_hours, &[]) else { continue };
        tasks.extend(card.places.into_iter().flat_map(|place| place.names).map(|name| (name, task)));
    }
    tasks
}

/// Every piece primed and hung; what ends with each hanging.
fn hang(
    r: &Resolved,
    (pieces, order): (&[Piece], &[HangingRow]),
    (stretches, ground): (&[Stretch], &Ground),
    (cut, list): (&BTreeMap<String, usize>, &mut List<'_>),
) -> Vec<Vec<usize>> {
    let mut hung: Vec<Vec<usize>> = Vec::new();
    for piece in pieces {
        let own = stretches.iter().zip(&ground.ready).filter(|(s, _)| over(r, piece, s, stretches));
        let mut after: Vec<usize> = own.flat_map(|(_, ready)| ready.clone()).collect();
        if after.is_empty() {
            after.clone_from(&ground.lifted);
        }
        let before = order.iter().find(|row| row.sheet == piece.name).map_or(&[][..], |row| &row.after);
        let row_above = |other: &Piece| {
            let above = other.course.zip(piece.course).is_some_and(|(other, own)| other < own);
            list.crew.top_row_first && other.side == piece.side && above
        };
        let first = pieces.iter().zip(&hung).filter(|(other, _)| before.contains(&other.name) || row_above(other));
        after.extend(first.flat_map(|(_, hung)| hung.clone()));
        after.extend(coat_inside(r, piece, cut.get(&piece.name).copied(), list));
        after.sort_unstable();
        after.dedup();
        let clamping = r.times.clamp.map_or(0.0, |time| time.hours);
        let steps = [(TaskKind::Clamp, "clamp", clamping), (TaskKind::Hang, "hang", r.times.sheet.hours)];
        for (kind, words, person_hours) in steps {
            let Some(own) = list.add(kind, (words, &piece.name), person_hours, &after) else { continue };
            if let Some(task) = list.tasks.get_mut(own) {
                task.people = task.people.max(piece.people);
            }
            after = vec![own];
        }
        hung.push(after);
    }
    hung
}

/// Drilling and deburring so many holes: together, or each by its own time.
fn drilling(times: &Times, holes: usize) -> [(TaskKind, &'static str, f64); 2] {
    let words = if times.deburr.is_some() { "drill" } else { "drill and deburr" };
    let deburring = times.deburr.map_or(0.0, |time| hours(holes, time.hours));
    [(TaskKind::Drill, words, hours(holes, times.hole.hours)), (TaskKind::Deburr, "deburr", deburring)]
}

/// Every piece drilled, riveted and sealed; what ends with each sealing.
fn close(times: &Times, pieces: &[Piece], hung: &[Vec<usize>], list: &mut List<'_>) -> Vec<Vec<usize>> {
    let mut closed: Vec<Vec<usize>> = Vec::new();
    for (i, piece) in pieces.iter().enumerate() {
        let shared = hung.iter().enumerate().filter(|(j, _)| *j == i || piece.with.contains(j));
        let mut last: Vec<usize> = shared.flat_map(|(_, hung)| hung.clone()).collect();
        for (kind, words, person_hours) in drilling(times, piece.holes) {
            if let Some(task) = list.add(kind, (words, &piece.name), person_hours, &last) {
                last = vec![task];
            }
        }
        if list.crew.hang_all_first && piece.course.is_some_and(|course| course > 0) {
            let others =
                pieces.iter().zip(hung).filter(|(other, _)| other.side == piece.side && other.course.is_some());
            last.extend(others.flat_map(|(_, hung)| hung.clone()));
        }
        last.sort_unstable();
        last.dedup();
        let steps = [
            (TaskKind::Rivet, "rivet", hours(piece.holes, times.rivet.hours)),
            (TaskKind::Seal, "seal", piece.sealed_m * times.seal.hours),
        ];
        for (kind, words, person_hours) in steps {
            if let Some(task) = list.add(kind, (words, &piece.name), person_hours, &last) {
                last = vec![task];
            }
        }
        closed.push(last);
    }
    closed
}

/// Lines over old holes: what no piece has, once the roof is up.
fn over_old_holes(r: &Resolved, ground: &Ground, list: &mut List<'_>) {
    for old in &r.drilled.old_lines {
        let (own, mut last) = (old.own_holes(), ground.lifted.clone());
        let plugging = r.times.plug.map_or(0.0, |time| hours(own.plugged, time.hours));
        let [drill, deburr] = drilling(&r.times, own.drilled);
        let rivet = (TaskKind::Rivet, "rivet", hours(own.riveted, r.times.rivet.hours));
        for (kind, words, person_hours) in [drill, deburr, (TaskKind::Plug, "plug old holes,", plugging), rivet] {
            if let Some(task) = list.add(kind, (words, &old.name), person_hours, &last) {
                last = vec![task];
            }
        }
    }
}

/// Every piece painted outside once all is sealed and the dust of drilling is gone; what laps hide is shared out by area.
fn paint_outside(r: &Resolved, pieces: &[Piece], painted_m2: f64, closed: &[usize], list: &mut List<'_>) {
    let skin_m2: f64 = pieces.iter().map(|piece| piece.area_m2).sum();
    let hours_m2 = r.times.paint_outside.map_or(0.0, |time| time.hours) * painted_m2 / skin_m2;
    for piece in pieces {
        list.add(TaskKind::Paint, ("paint outside", &piece.name), piece.area_m2 * hours_m2, closed);
    }
}

/// Where rain gets in meanwhile: each stretch, and the ends.
fn openings(
    r: &Resolved,
    (stretches, ground): (&[Stretch], &Ground),
    pieces: &[Piece],
    closed: &[Vec<usize>],
) -> Vec<Opening> {
    let closed_by = |own: &dyn Fn(&Piece) -> bool| {
        pieces.iter().zip(closed).filter(|(piece, _)| own(piece)).flat_map(|(_, closed)| closed.clone()).collect()
    };
    let stretch = |(s, strip): (&Stretch, &Option<usize>)| Opening {
        name: s.name.clone(),
        opened_by: strip.iter().copied().chain(ground.lift).collect(),
        closed_by: closed_by(&|piece| piece.course.is_some() && over(r, piece, s, stretches)),
    };
    let ends = Opening {
        name: "ends of the raised part".to_owned(),
        opened_by: ground.lift.into_iter().collect(),
        closed_by: closed_by(&|piece| piece.course.is_none()),
    };
    let all = stretches.iter().zip(&ground.strips).map(stretch).chain([ends]);
    all.filter(|opening| !opening.opened_by.is_empty() && !opening.closed_by.is_empty()).collect()
}

/// Who does what on which day; none where the plan has no crew.
///
/// # Errors
/// A sheet that no day holds; what cannot be closed on the day it is opened, where the plan asks for that.
pub(super) fn schedule(
    r: &Resolved,
    (lines, painted_m2): (&[RivetLine], f64),
    cut: &CutList,
    order: &[HangingRow],
) -> Result<Option<Schedule>, Vec<Problem>> {
    let Some(crew) = &r.crew else { return Ok(None) };
    let (pieces, stretches) = (pieces(&r.skins, lines, order), stretches(r));
    let mut list = List { tasks: Vec::new(), crew };
    let ground = ground((&r.times, cut.shop_cuts().bars), &stretches, &mut list);
    let sheets_cut = cut_sheets(r, cut, &mut list);
    let hung = hang(r, (&pieces, order), (&stretches, &ground), (&sheets_cut, &mut list));
    let closed = close(&r.times, &pieces, &hung, &mut list);
    over_old_holes(r, &ground, &mut list);
    paint_outside(r, &pieces, painted_m2, &closed.concat(), &mut list);
    let openings = openings(r, (&stretches, &ground), &pieces, &closed);
    let clamping = |(i, task): (usize, &Task)| (task.kind == TaskKind::Clamp).then(|| format!("tasks[{i}].length"));
    let clamping: Vec<String> = list.tasks.iter().enumerate().filter_map(clamping).collect();
    let clamps = |path: &str| clamping.iter().any(|own| own == path);
    let job = Job { tasks: list.tasks, crew: crew.crew, openings, close_same_day: crew.weathertight };
    let as_entry = |problem: Problem| {
        let path =
            match problem.path() {
                "close_same_day" => "crew.weathertight",
                // Only clamping and hanging must not be cut by night.
                path if path.ends_with(".length") && matches!(problem, Problem::Contradiction { .. }) => {
                    if clamps(path) { "shop.clamp_time" } else { "shop.sheet_time" }
                }
                _ => "crew",
            };
        problem.with_path(path)
    };
    job.schedule().map(Some).map_err(|problems| problems.into_iter().map(as_entry).collect())
}

/// Of the stretches of its side this is the one nearest to an end panel.
fn beside(r: &Resolved, panel: &str, stretch: &Stretch, stretches: &[Stretch]) -> bool {
    let Some(end) = r.skins.ends.iter().find(|end| end.id == panel) else { return false };
    let post_mm = |post: usize| r.survey.posts_mm.get(post).copied().unwrap_or(0.0);
    let away = |s: &Stretch| (end.x_mm - f64::midpoint(post_mm(s.posts.0), post_mm(s.posts.1))).abs();
    stretches.iter().filter(|other| other.side == stretch.side).all(|other| away(stretch) <= away(other))
}
