//! Where the rivets go: lines on posts, along edges and along course seams, each at a uniform pitch between posts.

use super::raise::Raise;
use super::skins::{EndPanel, Patch, Run, STRIP_MM, Sheet, Skins, Wing, Wrap, letter};
use super::survey::{Side, Survey};

/// What a line of rivets joins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub enum LineKind {
    /// A sheet to a post.
    Post,
    /// Two sheets over each other on a post.
    Seam,
    /// The upper edge under the drip rail.
    Top,
    /// The lower edge.
    Bottom,
    /// An upper course over a lower one.
    Course,
    /// The edge of a panel at an end of the raised part.
    End,
    /// The edge of a patch beside a door or a window that stays.
    Opening,
}

impl LineKind {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Post => "post",
            Self::Seam => "seam on post",
            Self::Top => "upper edge",
            Self::Bottom => "lower edge",
            Self::Course => "course seam",
            Self::End => "end panel edge",
            Self::Opening => "beside an opening",
        }
    }

    /// The line runs along a panel's edge.
    pub fn panel_edge(self) -> bool {
        matches!(self, Self::Top | Self::Bottom | Self::Course | Self::End | Self::Opening)
    }
}

/// Which edge of an end panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum PanelEdge {
    /// Under what lies above it.
    Upper,
    /// Over what lies below it.
    Lower,
    /// Upright, to its neighbour.
    Upright,
}

/// A line of rivets.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct RivetLine {
    /// Name: `L-P3`, `R-top 1`.
    pub id: String,
    /// Side; none at the ends.
    pub side: Option<Side>,
    /// What it joins.
    pub kind: LineKind,
    /// At the ends: which panel, by index, and which of its edges.
    pub of_panel: Option<(usize, PanelEdge)>,
    /// Start, mm forward of the rear face and mm above the ground; across an end mm left of the middle instead, round the corners
    /// of a cap along its sheet.
    pub from_mm: (f64, f64),
    /// End.
    pub to_mm: (f64, f64),
    /// Widest spacing on the line, mm.
    pub pitch_mm: f64,
    /// Width of skin whose suction one rivet line carries, mm.
    pub tributary_mm: f64,
    /// Holes of this line along it from its start, mm; those shared with a line on a post are listed there only.
    pub holes_mm: Vec<f64>,
}

impl RivetLine {
    /// Length, mm.
    pub fn length_mm(&self) -> f64 {
        (self.to_mm.0 - self.from_mm.0).hypot(self.to_mm.1 - self.from_mm.1)
    }

    /// Position of each hole of this line, mm forward of the rear face and mm above the ground.
    pub fn hole_places_mm(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        let length = self.length_mm();
        let (dx, dz) = (self.to_mm.0 - self.from_mm.0, self.to_mm.1 - self.from_mm.1);
        self.holes_mm.iter().map(move |s| (self.from_mm.0 + dx * s / length, self.from_mm.1 + dz * s / length))
    }
}

/// Number of equal spaces on a length so that none exceeds the pitch.
///
/// # Example
/// ```
/// use raisedbody::body::rivet_lines::spaces;
/// assert_eq!(spaces(711.2, 107.95), 7);
/// assert_eq!(spaces(2413.0, 31.75), 76);
/// ```
pub fn spaces(length_mm: f64, pitch_mm: f64) -> usize {
    // A length that is a whole number of pitches must not gain a space from rounding.
    (length_mm / pitch_mm - 1e-9).ceil().max(1.0) as usize
}

/// Sets out every line of the raised part.
pub fn set_out(survey: &Survey, raise: &Raise, skins: &Skins, edge_mm: f64, pitch_mm: f64) -> Vec<RivetLine> {
    let mut lines = Vec::new();
    for side in Side::BOTH {
        let letter = letter(side);
        post_lines(survey, skins, (side, letter), (edge_mm, pitch_mm), &mut lines);
        for (number, run) in skins.runs.iter().filter(|run| run.side == side).enumerate() {
            for (level, &z_mm) in run.lines_mm.iter().enumerate() {
                let (kind, word) = match level {
                    0 => (LineKind::Top, "top"),
                    l if l == run.courses() => (LineKind::Bottom, "bottom"),
                    _ => (LineKind::Course, "course"),
                };
                let word = if run.courses() > 2 && kind == LineKind::Course {
                    format!("{word} {level}")
                } else {
                    word.to_owned()
                };
                let mut line = edge_line(survey, (skins, run), level, z_mm, pitch_mm);
                line.id = format!("{letter}-{word} {}", number + 1);
                line.side = Some(side);
                line.kind = kind;
                lines.push(line);
            }
        }
        for (sheet, patch) in skins.patches(side) {
            lines.extend(patch_lines(survey, sheet, patch, pitch_mm));
        }
    }
    for (i, panel) in skins.ends.iter().enumerate() {
        match &panel.wrap {
            Some(wrap) => lines.extend(cap_lines(survey, raise, (i, panel, wrap), edge_mm, pitch_mm)),
            None => lines.extend(end_lines((i, panel), edge_mm, pitch_mm)),
        }
    }
    lines
}

fn post_lines(
    survey: &Survey,
    skins: &Skins,
    (side, letter): (Side, char),
    (edge_mm, pitch_mm): (f64, f64),
    lines: &mut Vec<RivetLine>,
) {
    let runs: Vec<&Run> = skins.runs.iter().filter(|run| run.side == side).collect();
    let (Some(first), Some(last)) = (runs.first(), runs.last()) else { return };
    for post in first.first_post..=last.last_post {
        // Where a kept row meets a skinned one, the post carries the longer line, with a hole at the edges of both.
        let beside = runs.iter().filter(|r| (r.first_post..=r.last_post).contains(&post));
        let mut levels_mm: Vec<f64> = beside.flat_map(|run| run.lines_mm.iter().copied()).collect();
        // A panel of the end that laps here is held at its corners.
        levels_mm.extend(skins.panels_on_post(side, post).map(|panel| panel.lower_line_mm(edge_mm)));
        // So is a patch.
        let patches =
            skins.patches(side).filter(|(sheet, _)| [sheet.rear_post(), sheet.front_post()].contains(&Some(post)));
        levels_mm.extend(patches.flat_map(|(_, patch)| [patch.lines_mm.0, patch.lines_mm.1]));
        levels_mm.sort_by(f64::total_cmp);
        levels_mm.dedup_by(|a, b| (*a - *b).abs() < 1.0);
        let (Some(&bottom_mm), Some(&top_mm)) = (levels_mm.first(), levels_mm.last()) else { continue };
        let x_mm = survey.posts_mm[post];
        let mut holes_mm = vec![0.0];
        let mut widest_mm = 0.0_f64;
        for pair in levels_mm.windows(2) {
            let n = spaces(pair[1] - pair[0], pitch_mm);
            let step_mm = (pair[1] - pair[0]) / n as f64;
            widest_mm = widest_mm.max(step_mm);
            holes_mm.extend((1..=n).map(|i| pair[0] - bottom_mm + i as f64 * step_mm));
        }
        let seam = skins.has_seam(side, post);
        lines.push(RivetLine {
            id: format!("{letter}-P{}", post + 1),
            side: Some(side),
            kind: if seam { LineKind::Seam } else { LineKind::Post },
            of_panel: None,
            from_mm: (x_mm, bottom_mm),
            to_mm: (x_mm, top_mm),
            pitch_mm: widest_mm,
            tributary_mm: post_tributary_mm(&survey.posts_mm, post) + of_ends_mm(skins, side, post),
            holes_mm,
        });
    }
}

/// Half the distance to each neighbouring post, mm.
fn post_tributary_mm(posts_mm: &[f64], post: usize) -> f64 {
    let x = posts_mm[post];
    let before = post.checked_sub(1).map_or(0.0, |p| (x - posts_mm[p]) / 2.0);
    let after = posts_mm.get(post + 1).map_or(0.0, |next| (next - x) / 2.0);
    before + after
}

/// What a panel of the end that laps on a post brings to its line: half its shorter size, mm.
fn of_ends_mm(skins: &Skins, side: Side, post: usize) -> f64 {
    skins.panels_on_post(side, post).map(|panel| 0.5 * panel.height_mm.min(panel.length_mm)).fold(0.0, f64::max)
}

/// A line along the bus: uniform between neighbouring posts; the holes on posts belong to the posts' lines. Over a patch there is
/// a hole at the patch's corner too.
fn edge_line(survey: &Survey, (skins, run): (&Skins, &Run), level: usize, z_mm: f64, pitch_mm: f64) -> RivetLine {
    let posts = &survey.posts_mm[run.first_post..=run.last_post];
    let (start_mm, end_mm) = (posts[0], posts[posts.len() - 1]);
    let mut stations: Vec<(f64, bool)> = posts.iter().map(|x_mm| (*x_mm, true)).collect();
    let corners = skins.patches(run.side).filter(|_| level == run.courses()).map(|(_, patch)| patch.line_mm);
    stations.extend(corners.filter(|x_mm| start_mm < *x_mm && *x_mm < end_mm).map(|x_mm| (x_mm, false)));
    stations.sort_by(|a, b| a.0.total_cmp(&b.0));
    let above = level.checked_sub(1).map(|i| run.lines_mm[i] - z_mm);
    let below = run.lines_mm.get(level + 1).map(|low| z_mm - low);
    let patches = skins.patches(run.side).filter(|_| level == run.courses());
    let patch_mm =
        patches.map(|(sheet, _)| (sheet.x1_mm - sheet.x0_mm).min(sheet.z1_mm - sheet.z0_mm)).reduce(f64::max);
    let mut holes_mm = Vec::new();
    let mut widest_mm = 0.0_f64;
    for pair in stations.windows(2) {
        let ((from_mm, _), (to_mm, post)) = (pair[0], pair[1]);
        let gap_mm = to_mm - from_mm;
        let n = spaces(gap_mm, pitch_mm);
        let step_mm = gap_mm / n as f64;
        widest_mm = widest_mm.max(step_mm);
        holes_mm.extend((1..n + usize::from(!post)).map(|i| from_mm - start_mm + i as f64 * step_mm));
    }
    let widest_gap_mm = posts.windows(2).map(|pair| pair[1] - pair[0]).fold(0.0, f64::max);
    RivetLine {
        id: String::new(),
        side: None,
        kind: LineKind::Top,
        of_panel: None,
        from_mm: (start_mm, z_mm),
        to_mm: (end_mm, z_mm),
        pitch_mm: widest_mm,
        // A panel longer one way carries to its near edges: of each beside it half the shorter span reaches this line.
        tributary_mm: [above, below, patch_mm].into_iter().flatten().map(|own| widest_gap_mm.min(own) / 2.0).sum(),
        holes_mm,
    }
}

/// The edges of an end panel. Holes at corners are counted with the upper and lower edge, and what two pieces side by
/// side share is counted once.
///
/// A triangle has only its lower edge here: the slope beside it and the post behind it have the other holes.
///
/// A panel that lies on a side has its upper and lower edge here, and the lap on the piece behind it: its other upright
/// edges lie on a post's line and on the band across the end, which have those holes. Stations of a line across the bus are mm left of the middle.
fn end_lines((index, panel): (usize, &EndPanel), edge_mm: f64, pitch_mm: f64) -> Vec<RivetLine> {
    let (half_width_mm, half_height_mm) =
        panel.triangle().map_or((panel.length_mm / 2.0 - edge_mm, panel.height_mm / 2.0 - edge_mm), |own| {
            (own.run_mm / 2.0, own.rise_mm / 2.0)
        });
    let middle_mm = match (panel.side, panel.taper_mm) {
        (None, _) => panel.y_mm,
        (Some(_), None) => panel.x_mm,
        // The centre of area lies a third of the taper from the upright edge.
        (Some(_), Some(taper)) => panel.x_mm + taper / 6.0,
    };
    let corner = |sx: f64, sz: f64| (middle_mm + sx * half_width_mm, panel.z_mm + sz * half_height_mm);
    let leftmost = panel.piece == 0;
    let line = |word: &str, from_mm: (f64, f64), to_mm: (f64, f64), first: usize, last_too: bool| {
        let edge = match word {
            "upper" => PanelEdge::Upper,
            "lower" => PanelEdge::Lower,
            _ => PanelEdge::Upright,
        };
        let length_mm = (to_mm.0 - from_mm.0).hypot(to_mm.1 - from_mm.1);
        let n = spaces(length_mm, pitch_mm);
        let step_mm = length_mm / n as f64;
        RivetLine {
            id: format!("{}, {word} edge", panel.id),
            side: panel.side,
            kind: LineKind::End,
            of_panel: Some((index, edge)),
            from_mm,
            to_mm,
            pitch_mm: step_mm,
            // At an upright edge lies a neighbour with as much.
            tributary_mm: half_height_mm.min(half_width_mm) * if edge == PanelEdge::Upright { 2.0 } else { 1.0 },
            holes_mm: (first..n + usize::from(last_too)).map(|i| i as f64 * step_mm).collect(),
        }
    };
    if panel.taper_mm.is_some() {
        let low_mm = panel.z_mm - 2.0 * half_height_mm / 3.0;
        return vec![line("lower", (middle_mm - half_width_mm, low_mm), (middle_mm + half_width_mm, low_mm), 1, false)];
    }
    let (upper, lower) = ((corner(-1.0, 1.0), corner(1.0, 1.0)), (corner(-1.0, -1.0), corner(1.0, -1.0)));
    if panel.side.is_some() {
        let first = usize::from(leftmost);
        let mut lines =
            vec![line("upper", upper.0, upper.1, first, false), line("lower", lower.0, lower.1, first, false)];
        if !leftmost {
            lines.push(line("rear", corner(-1.0, -1.0), corner(-1.0, 1.0), 1, false));
        }
        return lines;
    }
    let mut lines = vec![
        line("upper", upper.0, upper.1, 0, leftmost),
        line("lower", lower.0, lower.1, 0, leftmost),
        line("right", corner(-1.0, -1.0), corner(-1.0, 1.0), 1, false),
    ];
    if leftmost {
        lines.push(line("left", corner(1.0, -1.0), corner(1.0, 1.0), 1, false));
    }
    lines
}

/// The lower edge of a patch and its edge beside what stays: the post beside it and the line above have its other holes.
fn patch_lines(survey: &Survey, sheet: &Sheet, patch: &Patch, pitch_mm: f64) -> [RivetLine; 2] {
    let post_mm = survey.posts_mm[if patch.ahead { sheet.first_post } else { sheet.last_post }];
    let (x_mm, (low_mm, high_mm)) = (patch.line_mm, patch.lines_mm);
    let beside_mm = 0.5 * (x_mm - post_mm).abs().min(high_mm - low_mm);
    let line = |word: &str, kind, (from_mm, to_mm): ((f64, f64), (f64, f64)), ends: (bool, bool)| {
        let length_mm = (to_mm.0 - from_mm.0) + (to_mm.1 - from_mm.1);
        let n = spaces(length_mm, pitch_mm);
        let step_mm = length_mm / n as f64;
        RivetLine {
            id: format!("{}, {word}", sheet.id),
            side: Some(sheet.side),
            kind,
            of_panel: None,
            from_mm,
            to_mm,
            pitch_mm: step_mm,
            tributary_mm: beside_mm,
            holes_mm: (usize::from(!ends.0)..n + usize::from(ends.1)).map(|i| i as f64 * step_mm).collect(),
        }
    };
    let lower = ((post_mm.min(x_mm), low_mm), (post_mm.max(x_mm), low_mm));
    let upright = ((x_mm, low_mm), (x_mm, high_mm));
    // The corner beside what stays counts with the lower edge.
    [
        line("lower edge", LineKind::Bottom, lower, (!patch.ahead, patch.ahead)),
        line("beside the opening", LineKind::Opening, upright, (false, false)),
    ]
}

/// The edges of a cap: on each side from its end to where the bend starts, and from bend to bend round the corners, with a hole at
/// each bend mark. The hole at an end on a post is the post's, one at a seam that of the piece on the left.
fn cap_lines(
    survey: &Survey,
    raise: &Raise,
    (index, panel, wrap): (usize, &EndPanel, &Wrap),
    edge_mm: f64,
    pitch_mm: f64,
) -> Vec<RivetLine> {
    let (low_mm, high_mm) = (panel.edges_mm().0 + edge_mm, panel.edges_mm().1 - edge_mm);
    let post_mm = survey.posts_mm[if panel.front { raise.last_post } else { raise.first_post }];
    // Along the bus as far from the end face as this.
    let along_mm = |in_mm: f64| if panel.front { survey.length_mm - in_mm } else { in_mm };
    let on_post = |wing: &Wing| (along_mm(wing.reach_mm) - post_mm).abs() <= STRIP_MM;
    let tributary_mm = 0.5 * (high_mm - low_mm).min(wrap.along_mm());
    let line = |word: String, (edge, side), (from_mm, to_mm): ((f64, f64), (f64, f64)), ends: (bool, bool)| {
        let length_mm = (to_mm.0 - from_mm.0).hypot(to_mm.1 - from_mm.1);
        let n = spaces(length_mm, pitch_mm);
        let step_mm = length_mm / n as f64;
        RivetLine {
            id: format!("{}, {word}", panel.id),
            side,
            kind: LineKind::End,
            of_panel: Some((index, edge)),
            from_mm,
            to_mm,
            pitch_mm: step_mm,
            // At an upright edge lies a neighbour with as much.
            tributary_mm: tributary_mm * if edge == PanelEdge::Upright { 2.0 } else { 1.0 },
            holes_mm: (usize::from(!ends.0)..n + usize::from(ends.1)).map(|i| i as f64 * step_mm).collect(),
        }
    };
    // Where there is no straight sheet on the side, the bend ends on the post.
    let leg = |wing: &&Wing| wing.leg_mm() > STRIP_MM;
    let owned = |side| wrap.wing(side).is_some_and(|wing| leg(&wing) || !on_post(wing));
    // The seam's hole is that of the piece on its left.
    let ends = (owned(Side::Left), owned(Side::Right) || wrap.wing(Side::Right).is_none());
    let mut lines = Vec::new();
    for (word, edge, z_mm, (left_mm, right_mm)) in [
        ("upper edge", PanelEdge::Upper, high_mm, wrap.upper_round_ends_mm()),
        ("lower edge", PanelEdge::Lower, low_mm, wrap.round_mm()),
    ] {
        lines.push(line(word.to_owned(), (edge, None), ((left_mm, z_mm), (right_mm, z_mm)), ends));
        for wing in wrap.wings.iter().filter(leg) {
            let places = ((along_mm(wing.reach_mm), z_mm), (along_mm(wing.bend_mm), z_mm));
            let word = format!("{word}, {}", wing.side.name());
            lines.push(line(word, (edge, Some(wing.side)), places, (!on_post(wing), false)));
        }
    }
    let mut upright = |word: String, side, at_mm: f64| {
        lines.push(line(word, (PanelEdge::Upright, side), ((at_mm, low_mm), (at_mm, high_mm)), (false, false)));
    };
    for wing in wrap.wings.iter().filter(|wing| !on_post(wing)) {
        upright(format!("{} edge", wing.side.name()), Some(wing.side), along_mm(wing.reach_mm));
    }
    if wrap.wing(Side::Right).is_none() {
        upright("seam".to_owned(), None, wrap.face_mm.1);
    }
    lines
}
