//! Which sheet lies over which, and where water or wind would be led behind one.
//!
//! Water runs down, so that the upper sheet belongs outside; the wind of driving drives it back, so that the forward sheet
//! does (common practice, no source). What stays of the body counts as a sheet: drip rail, rub rail, old side, old roof.

use crate::body::raise::Ends;
use crate::body::survey::{Side, Survey};
use crate::error::Problem;

use super::{EndPanel, Raise, Run, Sheet, SheetRules};

/// How two sheets meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum LapKind {
    /// Along an upright edge: wind drives water back.
    #[serde(rename = "upright")]
    Upright,
    /// Along a level or sloping edge: water runs down.
    #[serde(rename = "level")]
    Level,
    /// Side by side across the bus: neither matters.
    #[serde(rename = "across")]
    Across,
}

impl LapKind {
    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Upright => "upright",
            Self::Level => "level",
            Self::Across => "across",
        }
    }
}

/// Two sheets over each other, or a sheet and what stays of the body.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Lap {
    /// The one outside.
    pub over: String,
    /// The one beneath.
    pub under: String,
    /// How they meet.
    pub kind: LapKind,
    /// Side; none at the ends.
    pub side: Option<Side>,
    /// Index of the post it stands on; none elsewhere.
    pub post: Option<usize>,
    /// Its length, mm.
    pub length_mm: f64,
    /// The planner turned it round.
    pub turned: bool,
    /// Where water would be led; none where it runs off.
    pub fault: Option<String>,
}

/// A lap that is made the other way round, as the plan has it.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct LapException {
    /// The one outside.
    pub over: String,
    /// The one beneath.
    pub under: String,
}

/// Pairs of sheets that lap on a post: the forward one, then the rearward one, by index.
pub(super) fn on_posts<'a>(sheets: &'a [Sheet], rules: &'a SheetRules) -> impl Iterator<Item = (&'a Sheet, &'a Sheet)> {
    sheets.iter().flat_map(move |forward| {
        sheets
            .iter()
            .filter(move |rearward| rearward.side == forward.side)
            .filter(move |rearward| forward.rear_post().is_some_and(|post| rearward.front_post() == Some(post)))
            .filter(move |rearward| shared_mm(forward, rearward) > 3.0 * rules.edge_mm)
            .map(move |rearward| (forward, rearward))
    })
}

/// Height that two neighbours share, edges included, mm.
pub(super) fn shared_mm(a: &Sheet, b: &Sheet) -> f64 {
    a.z1_mm.min(b.z1_mm) - a.z0_mm.max(b.z0_mm)
}

struct Laps {
    laps: Vec<Lap>,
}

impl Laps {
    fn add(&mut self, (over, under): (&str, &str), kind: LapKind, side: Option<Side>, length_mm: f64) -> &mut Lap {
        self.laps.push(Lap {
            over: over.to_owned(),
            under: under.to_owned(),
            kind,
            side,
            post: None,
            length_mm,
            turned: false,
            fault: None,
        });
        let last = self.laps.len() - 1;
        &mut self.laps[last]
    }
}

/// Every lap as water and wind ask, then the planner's exceptions, each with the fault it makes.
///
/// # Errors
/// An exception for two sheets that do not meet.
pub(super) fn laps(
    survey: &Survey,
    raise: &Raise,
    rules: &SheetRules,
    (runs, sheets, ends): (&[Run], &[Sheet], &[EndPanel]),
) -> Result<Vec<Lap>, Problem> {
    let mut all = Laps { laps: Vec::new() };
    for (forward, rearward) in on_posts(sheets, rules) {
        let length_mm = shared_mm(forward, rearward) - 2.0 * rules.edge_mm;
        let names = (forward.id.as_str(), rearward.id.as_str());
        all.add(names, LapKind::Upright, Some(forward.side), length_mm).post = Some(forward.first_post);
    }
    for sheet in sheets {
        let level = |all: &mut Laps, over: &str, under: &str, from_mm: f64, to_mm: f64| {
            // Between rivet lines.
            let length_mm = to_mm - from_mm - 2.0 * rules.edge_mm;
            if length_mm > rules.edge_mm {
                all.add((over, under), LapKind::Level, Some(sheet.side), length_mm);
            }
        };
        for lower in sheets.iter().filter(|lower| lower.side == sheet.side && lower.course == sheet.course + 1) {
            if (sheet.z0_mm + rules.edge_mm - (lower.z1_mm - rules.edge_mm)).abs() < 1.0 {
                let (from_mm, to_mm) = (sheet.x0_mm.max(lower.x0_mm), sheet.x1_mm.min(lower.x1_mm));
                level(&mut all, &sheet.id, &lower.id, from_mm, to_mm);
            }
        }
        if sheet.course == 0 {
            level(&mut all, "drip rail", &sheet.id, sheet.x0_mm, sheet.x1_mm);
        }
        let own = |run: &&Run| {
            run.side == sheet.side && run.first_post <= sheet.first_post && sheet.last_post <= run.last_post
        };
        if sheet.patch.is_some() {
            // It ends below where the skin of the other windows does.
            let rail = survey.heights.rub_rail_mm.is_some_and(|z_mm| (z_mm - rules.lower_edge_mm).abs() < 1.0);
            let names = if rail { ("rub rail", sheet.id.as_str()) } else { (sheet.id.as_str(), "old side") };
            level(&mut all, names.0, names.1, sheet.x0_mm, sheet.x1_mm);
        }
        if let Some(run) = runs.iter().find(own).filter(|run| sheet.course + 1 == run.courses()) {
            match &run.above {
                Some(stays) => {
                    // Where a patch lies beneath, what stays does not.
                    let patches = sheets.iter().filter(|patch| patch.patch.is_some() && patch.side == sheet.side);
                    let beneath = patches.filter(|patch| {
                        patch.course == sheet.course + 1
                            && sheet.x0_mm < patch.x0_mm + 1.0
                            && patch.x1_mm < sheet.x1_mm + 1.0
                    });
                    let patched_mm = beneath.map(|patch| patch.length_mm() - 2.0 * rules.edge_mm).sum::<f64>();
                    level(&mut all, &sheet.id, stays, sheet.x0_mm, sheet.x1_mm - patched_mm);
                }
                None if run.at_rub_rail(survey) => level(&mut all, "rub rail", &sheet.id, sheet.x0_mm, sheet.x1_mm),
                None => level(&mut all, &sheet.id, "old side", sheet.x0_mm, sheet.x1_mm),
            }
        }
    }
    for front in [false, true] {
        let own: Vec<&EndPanel> = ends.iter().filter(|panel| panel.front == front).collect();
        end_laps(&mut all, raise, rules, sheets, &own, front);
    }
    for sheet in sheets {
        edges_beside(&mut all, rules, (runs, sheets, ends), sheet);
    }
    let mut laps = all.laps;
    for (i, exception) in rules.exceptions.iter().enumerate() {
        let both = |lap: &&mut Lap| {
            (lap.over == exception.over && lap.under == exception.under)
                || (lap.over == exception.under && lap.under == exception.over)
        };
        let pair = |other: &LapException| {
            (other.over == exception.over && other.under == exception.under)
                || (other.over == exception.under && other.under == exception.over)
        };
        if let Some(first) = rules.exceptions.iter().take(i).position(pair) {
            let names = format!("{} over {}", exception.over, exception.under);
            let problem = format!("skin.laps[{first}] speaks of the same two; leave one of them out");
            return Err(Problem::contradiction(format!("skin.laps[{i}]"), names, problem));
        }
        let mut found = false;
        for lap in laps.iter_mut().filter(both) {
            found = true;
            if lap.over != exception.over {
                std::mem::swap(&mut lap.over, &mut lap.under);
                lap.turned = true;
                lap.fault = fault(lap);
            }
        }
        if !found {
            let names = format!("{} over {}", exception.over, exception.under);
            let problem = "these two do not lap; the evaluation lists every lap with its two names";
            return Err(Problem::contradiction(format!("skin.laps[{i}]"), names, problem));
        }
    }
    Ok(laps)
}

/// Laps of a sheet's upright edges on what stays of the body, where no new sheet or panel lies beside it: the old side, kept
/// windows, a door; of a patch the frame of what it stands beside. The front edge belongs beneath what stays, the rear one over it.
fn edges_beside(
    all: &mut Laps,
    rules: &SheetRules,
    (runs, sheets, ends): (&[Run], &[Sheet], &[EndPanel]),
    sheet: &Sheet,
) {
    if let Some(patch) = &sheet.patch {
        let stays = patch.beside.as_str();
        let pair = if patch.ahead { (stays, sheet.id.as_str()) } else { (sheet.id.as_str(), stays) };
        all.add(pair, LapKind::Upright, Some(sheet.side), sheet.height_mm() - 2.0 * rules.edge_mm);
    }
    for front in [false, true] {
        let Some(post) = (if front { sheet.front_post() } else { sheet.rear_post() }) else { continue };
        let beside = |other: &&Sheet| {
            other.side == sheet.side && Some(post) == if front { other.rear_post() } else { other.front_post() }
        };
        let mut covered: Vec<(f64, f64)> = sheets.iter().filter(beside).map(|s| (s.z0_mm, s.z1_mm)).collect();
        let here =
            all.laps.iter().filter(|lap| lap.post == Some(post) && (lap.over == sheet.id || lap.under == sheet.id));
        let names: Vec<&String> = here.flat_map(|lap| [&lap.over, &lap.under]).collect();
        covered.extend(ends.iter().filter(|panel| names.contains(&&panel.id)).map(EndPanel::edges_mm));
        covered.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (mut from_mm, to_mm, mut open_mm) = (sheet.z0_mm + rules.edge_mm, sheet.z1_mm - rules.edge_mm, 0.0);
        for (low_mm, high_mm) in covered {
            open_mm += (low_mm.min(to_mm) - from_mm).max(0.0);
            from_mm = from_mm.max(high_mm);
        }
        open_mm += (to_mm - from_mm).max(0.0);
        if open_mm <= rules.edge_mm {
            continue;
        }
        let neighbour = runs
            .iter()
            .find(|run| run.side == sheet.side && post == if front { run.first_post } else { run.last_post });
        let stays = match neighbour.and_then(|run| run.above.as_deref()) {
            Some(stays) => stays,
            None if front => "old side ahead",
            None => "old side behind",
        };
        let pair = if front { (stays, sheet.id.as_str()) } else { (sheet.id.as_str(), stays) };
        all.add(pair, LapKind::Upright, Some(sheet.side), open_mm).post = Some(post);
    }
}

/// What a lap that was turned round does with water.
fn fault(lap: &Lap) -> Option<String> {
    let (over, under) = (&lap.over, &lap.under);
    match lap.kind {
        LapKind::Upright => {
            Some(format!("wind drives water back behind {over}: its front edge lies open over {under}"))
        }
        LapKind::Level => Some(format!("water that runs down {under} is led behind {over}: its upper edge lies open")),
        LapKind::Across => None,
    }
}

/// Laps of the panels that close one end.
fn end_laps(all: &mut Laps, raise: &Raise, rules: &SheetRules, sheets: &[Sheet], panels: &[&EndPanel], front: bool) {
    let end = if front { "front" } else { "rear" };
    let margin_mm = 2.0 * rules.edge_mm;
    let across: Vec<&&EndPanel> = panels.iter().filter(|panel| panel.side.is_none()).collect();
    let (roof, below) = match raise.ends {
        Ends::WholeRoof => (format!("end cap, {end}"), "old end"),
        Ends::Stepped | Ends::Sloped { .. } => ("raised roof".to_owned(), "old roof"),
    };
    for panel in panels {
        if let Some(wrap) = &panel.wrap {
            let (left_mm, right_mm) = wrap.round_mm();
            all.add((&roof, &panel.id), LapKind::Level, None, left_mm - right_mm);
            all.add((&panel.id, below), LapKind::Level, None, left_mm - right_mm);
            for wing in &wrap.wings {
                all.add(("drip rail", &panel.id), LapKind::Level, Some(wing.side), wing.leg_mm());
                all.add((&panel.id, "old side"), LapKind::Level, Some(wing.side), wing.leg_mm());
            }
            continue;
        }
        let (top, bottom) = match (panel.side, panel.taper_mm) {
            (None, _) => (roof.as_str(), below),
            (Some(_), None) => ("drip rail", "old side"),
            // The slope closes a cheek above.
            (Some(_), Some(_)) => ("", "old roof"),
        };
        let length_mm = panel.length_mm - margin_mm;
        if !top.is_empty() {
            all.add((top, &panel.id), LapKind::Level, panel.side, length_mm);
        }
        all.add((&panel.id, bottom), LapKind::Level, panel.side, length_mm);
    }
    for pair in across.windows(2) {
        all.add((&pair[0].id, &pair[1].id), LapKind::Across, None, pair[0].upright_mm() - margin_mm);
    }
    for side in Side::BOTH {
        // Pieces on this side from the rear, then the piece across that they meet.
        let mut row: Vec<&&EndPanel> = panels.iter().filter(|panel| panel.side == Some(side)).collect();
        row.sort_by(|a, b| a.x_mm.total_cmp(&b.x_mm));
        for pair in row.windows(2) {
            all.add((&pair[1].id, &pair[0].id), LapKind::Upright, Some(side), pair[1].height_mm - margin_mm);
        }
        let neighbour = if side == Side::Left { across.first() } else { across.last() };
        let outermost = if front { row.last() } else { row.first() };
        let innermost = if front { row.first() } else { row.last() };
        if let (Some(band), Some(own)) = (neighbour, outermost) {
            let height_mm = own.height_mm - margin_mm;
            match own.taper_mm {
                Some(run_mm) => {
                    all.add((&band.id, &own.id), LapKind::Level, Some(side), run_mm.hypot(height_mm));
                }
                None if front => {
                    all.add((&band.id, &own.id), LapKind::Upright, Some(side), height_mm);
                }
                None => {
                    all.add((&own.id, &band.id), LapKind::Upright, Some(side), height_mm);
                }
            }
        }
        // Without pieces on the side the panel across turns onto the post itself.
        let Some(meets) = innermost.or(neighbour) else { continue };
        let (low_mm, high_mm) = meets.edges_mm();
        let post = if front { raise.last_post } else { raise.first_post };
        let beside = sheets
            .iter()
            .filter(|sheet| sheet.side == side && post == if front { sheet.last_post } else { sheet.first_post });
        for sheet in beside {
            let length_mm = sheet.z1_mm.min(high_mm) - sheet.z0_mm.max(low_mm) - margin_mm;
            if length_mm > rules.edge_mm {
                let names = if front { (&meets.id, &sheet.id) } else { (&sheet.id, &meets.id) };
                all.add((names.0, names.1), LapKind::Upright, Some(side), length_mm).post = Some(post);
            }
        }
    }
}
