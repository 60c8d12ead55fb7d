//! Which sheet covers what: courses between window and drip rail, seams on posts, closing panels at the ends.

use crate::error::Problem;

use super::raise::{Ends, Raise};
use super::survey::{Side, Survey};

/// Limits and edges for laying out sheets.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct SheetRules {
    /// Longest sheet, along the bus, mm.
    pub longest_mm: f64,
    /// Tallest sheet, up the side, mm.
    pub tallest_mm: f64,
    /// Rivet line to sheet edge, mm.
    pub edge_mm: f64,
    /// Height at which the skin ends below, at windows that are skinned over, mm.
    pub lower_edge_mm: f64,
}

/// Windows of one kind in a row: all kept or all skinned over.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Run {
    /// Index of its rearmost post.
    pub first_post: usize,
    /// Index of its foremost post.
    pub last_post: usize,
    /// Lowest rivet line, mm above the ground.
    pub bottom_mm: f64,
    /// Highest rivet line, mm above the ground.
    pub top_mm: f64,
    /// Number of courses.
    pub courses: usize,
    /// Its windows stay.
    pub kept: bool,
}

impl Run {
    /// Height of the rivet line under course `course` (0 is the top one); `courses` gives the lowest.
    pub fn line_mm(&self, line: usize) -> f64 {
        self.top_mm - (self.top_mm - self.bottom_mm) * line as f64 / self.courses as f64
    }
}

/// One sheet on a side.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Sheet {
    /// Name: side, course from the top, number from the rear: `L-A1`.
    pub id: String,
    /// Side.
    pub side: Side,
    /// Course, 0 the top one.
    pub course: usize,
    /// Index of the post under its rear seam.
    pub first_post: usize,
    /// Index of the post under its front seam.
    pub last_post: usize,
    /// Rear edge, mm forward of the rear face.
    pub x0_mm: f64,
    /// Front edge, mm.
    pub x1_mm: f64,
    /// Lower edge, mm above the ground.
    pub z0_mm: f64,
    /// Upper edge, mm above the ground.
    pub z1_mm: f64,
}

impl Sheet {
    /// Along the bus, mm.
    pub fn length_mm(&self) -> f64 {
        self.x1_mm - self.x0_mm
    }

    /// Up the side, mm.
    pub fn height_mm(&self) -> f64 {
        self.z1_mm - self.z0_mm
    }

    /// Area, m2.
    pub fn area_m2(&self) -> f64 {
        self.length_mm() * self.height_mm() / 1e6
    }
}

/// A lap of two sheets on a post: forward over rearward, so that the wind drives water back over the edge.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Seam {
    /// Side.
    pub side: Side,
    /// Index of the post.
    pub post: usize,
    /// Sheet outside.
    pub over: String,
    /// Sheet beneath.
    pub under: String,
}

/// A panel that closes an end of the raised part.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct EndPanel {
    /// Name: `rear band, 1 of 2`.
    pub id: String,
    /// Blank size across the bus, mm.
    pub length_mm: f64,
    /// Blank size up the panel, mm.
    pub height_mm: f64,
    /// Middle, mm forward of the rear face.
    pub x_mm: f64,
    /// Middle, mm left.
    pub y_mm: f64,
    /// Middle, mm above the ground.
    pub z_mm: f64,
    /// For a triangle, cut from half of the blank: how far its point lies ahead of its upright edge, mm.
    pub taper_mm: Option<f64>,
    /// Which piece from the left, of those side by side; the first is 0.
    pub piece: usize,
    /// The side it lies on; none where it lies across the bus.
    pub side: Option<Side>,
}

impl EndPanel {
    /// Area that stays on the bus, m2.
    pub fn area_m2(&self) -> f64 {
        self.length_mm * self.height_mm / 1e6 * if self.taper_mm.is_some() { 0.5 } else { 1.0 }
    }
}

/// All sheets of the raised part.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Skins {
    /// Rows of windows of one kind, the same on both sides.
    pub runs: Vec<Run>,
    /// Sheets on the sides.
    pub sheets: Vec<Sheet>,
    /// Laps on posts.
    pub seams: Vec<Seam>,
    /// Panels at the ends.
    pub ends: Vec<EndPanel>,
}

/// Fewest sheets whose seams stand on posts and none longer than `longest_mm`; among those, the most equal.
///
/// Exact, by shortest path over the posts: the cost of a path is its number of sheets, then the sum of their squared
/// lengths. Returns the indices of the posts that carry seams, both ends included; `Err` is the index of a window too
/// wide for any sheet.
pub fn seams_on_posts(posts_mm: &[f64], edge_mm: f64, longest_mm: f64) -> Result<Vec<usize>, usize> {
    let n = posts_mm.len();
    if n == 0 {
        return Ok(Vec::new());
    }
    let mut best: Vec<Option<(usize, f64, usize)>> = vec![None; n];
    if let Some(first) = best.first_mut() {
        *first = Some((0, 0.0, 0));
    }
    for to in 1..n {
        for from in 0..to {
            let length_mm = posts_mm[to] - posts_mm[from] + 2.0 * edge_mm;
            if length_mm > longest_mm {
                continue;
            }
            if let Some((count, squares, _)) = best[from] {
                let candidate = (count + 1, squares + length_mm * length_mm, from);
                let better = best[to].is_none_or(|b| (candidate.0, candidate.1) < (b.0, b.1));
                if better {
                    best[to] = Some(candidate);
                }
            }
        }
        if best[to].is_none() {
            return Err(to - 1);
        }
    }
    let mut path = vec![n - 1];
    while let Some(&at) = path.last().filter(|&&at| at > 0) {
        path.push(best[at].map_or(0, |b| b.2));
    }
    path.reverse();
    Ok(path)
}

/// Lays out all sheets of the raised part.
///
/// # Errors
/// A window wider, an end panel taller, or an edge larger, than the largest sheet allows.
pub fn lay_out(survey: &Survey, raise: &Raise, rules: &SheetRules) -> Result<Skins, Problem> {
    let reach_mm = rules.tallest_mm - 2.0 * rules.edge_mm;
    if reach_mm <= 0.0 {
        return Err(Problem::out_of_range(
            "skin.largest_sheet.height",
            format!("{:.0} mm", rules.tallest_mm),
            format!("more than twice the edge distance of {:.1} mm", rules.edge_mm),
        ));
    }
    let runs = runs(survey, raise, rules, reach_mm);
    let mut sheets = Vec::new();
    let mut seams = Vec::new();
    for side in Side::BOTH {
        let mut last_of_course: Vec<Option<String>> = Vec::new();
        let mut numbers: Vec<usize> = Vec::new();
        for run in &runs {
            let posts_mm = &survey.posts_mm[run.first_post..=run.last_post];
            let path = seams_on_posts(posts_mm, rules.edge_mm, rules.longest_mm).map_err(|window| {
                let gap_mm = posts_mm[window + 1] - posts_mm[window];
                Problem::contradiction(
                    "skin.largest_sheet.length",
                    format!("{:.0} mm", rules.longest_mm),
                    format!(
                        "window {} spans {gap_mm:.0} mm and needs {:.0} mm with its edges; no seam can stand between \
                         posts, so buy longer sheet",
                        run.first_post + window + 1,
                        gap_mm + 2.0 * rules.edge_mm
                    ),
                )
            })?;
            for course in 0..run.courses {
                if numbers.len() <= course {
                    numbers.resize(course + 1, 0);
                    last_of_course.resize(course + 1, None);
                }
                for pair in path.windows(2) {
                    numbers[course] += 1;
                    let (first, last) = (run.first_post + pair[0], run.first_post + pair[1]);
                    let sheet = Sheet {
                        id: sheet_id(side, course, numbers[course]),
                        side,
                        course,
                        first_post: first,
                        last_post: last,
                        x0_mm: survey.posts_mm[first] - rules.edge_mm,
                        x1_mm: survey.posts_mm[last] + rules.edge_mm,
                        z0_mm: run.line_mm(course + 1) - rules.edge_mm,
                        z1_mm: run.line_mm(course) + rules.edge_mm,
                    };
                    if let Some(under) = last_of_course[course].replace(sheet.id.clone()) {
                        seams.push(Seam { side, post: first, over: sheet.id.clone(), under });
                    }
                    sheets.push(sheet);
                }
            }
            // A course that this run does not have ends here; the next run that has it starts without a lap.
            for last in last_of_course.iter_mut().skip(run.courses) {
                *last = None;
            }
        }
    }
    let ends = end_panels(survey, raise, rules);
    if let Some(panel) = ends.iter().find(|p| p.height_mm > rules.tallest_mm) {
        return Err(Problem::contradiction(
            "skin.largest_sheet.height",
            format!("{:.0} mm", rules.tallest_mm),
            format!("the {} needs {:.0} mm up the panel; buy taller sheet, or raise less", panel.id, panel.height_mm),
        ));
    }
    Ok(Skins { runs, sheets, seams, ends })
}

fn sheet_id(side: Side, course: usize, number: usize) -> String {
    let side = match side {
        Side::Left => 'L',
        Side::Right => 'R',
    };
    let course = char::from(b'A' + (course.min(25)) as u8);
    format!("{side}-{course}{number}")
}

fn runs(survey: &Survey, raise: &Raise, rules: &SheetRules, reach_mm: f64) -> Vec<Run> {
    let top_mm = survey.heights.drip_rail_mm + raise.height_mm;
    let mut runs: Vec<Run> = Vec::new();
    for window in raise.raised_windows() {
        let kept = raise.window_kept.get(window) == Some(&true);
        match runs.last_mut() {
            Some(run) if run.kept == kept => run.last_post = window + 1,
            _ => {
                let bottom_mm = if kept { survey.heights.window_top_mm } else { rules.lower_edge_mm };
                let courses = ((top_mm - bottom_mm) / reach_mm - 1e-9).ceil().max(1.0) as usize;
                runs.push(Run { first_post: window, last_post: window + 1, bottom_mm, top_mm, courses, kept });
            }
        }
    }
    runs
}

/// Bands under the end caps with the corners beside them, or panels that close the steps.
fn end_panels(survey: &Survey, raise: &Raise, rules: &SheetRules) -> Vec<EndPanel> {
    let drip_mm = survey.heights.drip_rail_mm;
    let width_mm = 2.0 * survey.half_width_mm(drip_mm);
    let (word, run_mm) = match raise.ends {
        Ends::WholeRoof => ("band", 0.0),
        Ends::Stepped => ("step", 0.0),
        Ends::Sloped { run_mm } => ("slope", run_mm),
    };
    let whole = raise.ends == Ends::WholeRoof;
    let (first_mm, last_mm) = (survey.posts_mm[raise.first_post], survey.posts_mm[raise.last_post]);
    let (rear_mm, front_mm) = if whole { (0.0, survey.length_mm) } else { (first_mm, last_mm) };
    let margin_mm = 2.0 * rules.edge_mm;
    let split = |length_mm: f64| {
        let pieces = (length_mm / (rules.longest_mm - margin_mm).max(1.0) - 1e-9).ceil().max(1.0) as usize;
        (pieces, length_mm / pieces as f64)
    };
    let named = |name: String, i: usize, pieces: usize| {
        if pieces == 1 { name } else { format!("{name}, {} of {pieces}", i + 1) }
    };
    let up_mm = raise.height_mm.hypot(run_mm);
    let mut panels = Vec::new();
    for (end, station_mm, away, post_mm) in [("rear", rear_mm, -1.0, first_mm), ("front", front_mm, 1.0, last_mm)] {
        let (pieces, piece_mm) = split(width_mm);
        for i in 0..pieces {
            panels.push(EndPanel {
                id: named(format!("{end} {word}"), i, pieces),
                length_mm: piece_mm + margin_mm,
                height_mm: up_mm + margin_mm,
                x_mm: station_mm + away * run_mm / 2.0,
                y_mm: width_mm / 2.0 - (i as f64 + 0.5) * piece_mm,
                z_mm: drip_mm + raise.height_mm / 2.0,
                taper_mm: None,
                piece: i,
                side: None,
            });
        }
        // The side between the end face and the next post: a strip where the whole roof rises, a cheek beside a slope.
        let gap_mm = (station_mm - post_mm).abs();
        for side in Side::BOTH {
            let y_mm = side.sign() * width_mm / 2.0;
            if whole && gap_mm > 0.0 {
                let (pieces, piece_mm) = split(gap_mm);
                for i in 0..pieces {
                    panels.push(EndPanel {
                        id: named(format!("{end} corner, {}", side.name()), i, pieces),
                        length_mm: piece_mm + margin_mm,
                        height_mm: raise.height_mm + margin_mm,
                        x_mm: station_mm.min(post_mm) + (i as f64 + 0.5) * piece_mm,
                        y_mm,
                        z_mm: drip_mm + raise.height_mm / 2.0,
                        taper_mm: None,
                        piece: i,
                        side: Some(side),
                    });
                }
            }
            if run_mm > 0.0 {
                panels.push(EndPanel {
                    id: format!("{end} cheek, {}", side.name()),
                    length_mm: run_mm + margin_mm,
                    height_mm: raise.height_mm + margin_mm,
                    x_mm: station_mm + away * run_mm / 3.0,
                    y_mm,
                    z_mm: drip_mm + raise.height_mm / 3.0,
                    taper_mm: Some(away * run_mm),
                    piece: 0,
                    side: Some(side),
                });
            }
        }
    }
    panels
}
