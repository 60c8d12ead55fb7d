//! Sheets, panels and jigs laid flat as they are cut: outline, holes and bend lines, seen from outside.

use crate::body::skins::{EndPanel, Sheet, Wrap};
use crate::body::survey::Side;
use crate::mechanics::forming::{FlatPattern, ScribeLine};
use crate::mechanics::hole_line::{Jig, jig_name};

use super::drilling::PILOT_MM;
use super::end_caps::CapPiece;
use super::results::Evaluation;

/// Width of a drilling jig, mm (common practice, no source): wide enough to clamp.
pub const JIG_WIDTH_MM: f64 = 40.0;
/// What a jig goes on beyond its first and last hole, mm (common practice, no source).
pub const JIG_END_MM: f64 = 20.0;

/// What a flat is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FlatKind {
    /// A sheet of the sides.
    Sheet,
    /// A panel that closes an end.
    Panel,
    /// A sheet that wraps corners of an end.
    Cap,
    /// A drilling jig.
    Jig,
}

/// A round hole.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatHole {
    /// Its middle, mm.
    pub at_mm: [f64; 2],
    /// Its diameter, mm.
    pub diameter_mm: f64,
    /// The rivet line that it is on; the hole's number of a jig.
    pub of: String,
}

/// A line across that is marked, not cut.
#[derive(Debug, Clone, PartialEq)]
pub struct BendLine {
    /// Its lower end, mm.
    pub from_mm: [f64; 2],
    /// Its upper end, mm.
    pub to_mm: [f64; 2],
    /// What is there: `bend starts, left`.
    pub what: String,
}

/// A part as it is cut, in mm from its lower left corner, seen from outside as it hangs: x to the right, y up.
#[derive(Debug, Clone, PartialEq)]
pub struct Flat {
    /// The name of the sheet, panel or jig.
    pub id: String,
    /// What it is.
    pub kind: FlatKind,
    /// Its edge, corner by corner against the clock; the last one meets the first.
    pub outline_mm: Vec<[f64; 2]>,
    /// Its holes.
    pub holes: Vec<FlatHole>,
    /// Starts and ends of bends.
    pub bends: Vec<BendLine>,
    /// The front of the bus lies to the right of it, or to the left; none across the bus and for jigs.
    pub front_to_right: Option<bool>,
    /// Distances along it are told from its right edge: the good edge of a cap, the upright edge of a triangle.
    pub from_right: bool,
    /// What to know.
    pub notes: Vec<String>,
}

impl Flat {
    /// Along and up, mm.
    pub fn size_mm(&self) -> [f64; 2] {
        let most = |i: usize| self.outline_mm.iter().map(|p| p[i]).fold(f64::NEG_INFINITY, f64::max);
        let least = |i: usize| self.outline_mm.iter().map(|p| p[i]).fold(f64::INFINITY, f64::min);
        [most(0) - least(0), most(1) - least(1)]
    }
}

fn rectangle(length_mm: f64, height_mm: f64) -> Vec<[f64; 2]> {
    vec![[0.0, 0.0], [length_mm, 0.0], [length_mm, height_mm], [0.0, height_mm]]
}

/// Where a corner is shared with a neighbour whose edge is not laid out on this part.
const BY_NEIGHBOUR: &str =
    "holes along the edge that meets the end panel are drilled through that panel when both hang";

impl Evaluation {
    /// Every sheet and panel of the skin laid flat, and every jig.
    ///
    /// # Example
    /// ```
    /// use raisedbody::plan::Plan;
    /// let build = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
    /// let sheet = &build.skins.sheets[0];
    /// let flat = build.flats().into_iter().find(|flat| flat.id == sheet.id).unwrap();
    /// assert!((flat.size_mm()[0] - sheet.length_mm()).abs() < 1e-9);
    /// assert_eq!(flat.holes.len(), build.holes_in(sheet));
    /// ```
    pub fn flats(&self) -> Vec<Flat> {
        let panels = self.skins.ends.iter().map(|panel| match &panel.wrap {
            Some(wrap) => self.cap_flat(panel, wrap),
            None => Some(self.panel_flat(panel)),
        });
        let sheets = self.skins.sheets.iter().map(|sheet| self.sheet_flat(sheet));
        let jigs = self.drilling.jigs.iter().enumerate().map(|(i, jig)| jig_flat(i, jig));
        sheets.chain(panels.flatten()).chain(jigs).collect()
    }

    /// Holes of the lines of a side: mm forward of the rear face, mm above the ground, line.
    fn holes_on(&self, side: Side) -> impl Iterator<Item = ((f64, f64), &str)> {
        let own = self.lines.iter().filter(move |line| line.side == Some(side));
        own.flat_map(|line| line.hole_places_mm().map(|at| (at, line.id.as_str())))
    }

    /// Holes of the lines across an end: mm left of the middle, mm above the ground, line.
    fn holes_across(&self, front: bool) -> impl Iterator<Item = ((f64, f64), &str)> {
        let at_end = move |panel: usize| self.skins.ends.get(panel).is_some_and(|panel| panel.front == front);
        let own = self.lines.iter().filter(|line| line.side.is_none());
        let own = own.filter(move |line| line.of_panel.is_some_and(|(panel, _)| at_end(panel)));
        own.flat_map(|line| line.hole_places_mm().map(|at| (at, line.id.as_str())))
    }

    fn hole(&self, at_mm: [f64; 2], line: &str) -> FlatHole {
        FlatHole { at_mm, diameter_mm: self.drilling.hole_mm, of: line.to_owned() }
    }

    fn sheet_flat(&self, sheet: &Sheet) -> Flat {
        // Seen from outside, the front of the left side is at the left.
        let right = sheet.side == Side::Right;
        let x = |station: f64| if right { station - sheet.x0_mm } else { sheet.x1_mm - station };
        let inside =
            |(x, z): (f64, f64)| (sheet.x0_mm..=sheet.x1_mm).contains(&x) && (sheet.z0_mm..=sheet.z1_mm).contains(&z);
        let holes = self.holes_on(sheet.side).filter(|(at, _)| inside(*at));
        Flat {
            id: sheet.id.clone(),
            kind: FlatKind::Sheet,
            outline_mm: rectangle(sheet.length_mm(), sheet.height_mm()),
            holes: holes.map(|((at, z), line)| self.hole([x(at), z - sheet.z0_mm], line)).collect(),
            bends: Vec::new(),
            front_to_right: Some(right),
            from_right: false,
            notes: Vec::new(),
        }
    }

    /// A flat panel: across an end, on a side beside it, or the triangle beside a slope.
    fn panel_flat(&self, panel: &EndPanel) -> Flat {
        let (low, high) = panel.edges_mm();
        let mut flat = Flat {
            id: panel.id.clone(),
            kind: FlatKind::Panel,
            outline_mm: rectangle(panel.length_mm, panel.height_mm),
            holes: Vec::new(),
            bends: Vec::new(),
            front_to_right: panel.side.map(|side| side == Side::Right),
            from_right: false,
            notes: Vec::new(),
        };
        let Some(side) = panel.side else {
            // Seen from behind, the left side is at the left; seen from the front, at the right.
            let sign = if panel.front { 1.0 } else { -1.0 };
            let x = |y: f64| sign * (y - panel.y_mm) + 0.5 * panel.length_mm;
            let inside = |(y, z): (f64, f64)| (0.0..=panel.length_mm).contains(&x(y)) && (low..=high).contains(&z);
            let holes = self.holes_across(panel.front).filter(|(at, _)| inside(*at));
            flat.holes = holes.map(|((y, z), line)| self.hole([x(y), z - low], line)).collect();
            return flat;
        };
        flat.notes.push(BY_NEIGHBOUR.to_owned());
        let rear = panel.on_side_mm(side, &self.survey).map_or(0.0, |(rear, _)| rear);
        let ahead = panel.taper_mm.map(|taper| taper > 0.0);
        let edge = panel.triangle().map_or(0.0, |own| own.edge_mm);
        let right = side == Side::Right;
        let x = |station: f64| if right { station - rear } else { rear + panel.length_mm - station };
        if let Some(ahead) = ahead {
            let upright = if ahead == right { 0.0 } else { panel.length_mm };
            flat.from_right = ahead != right;
            flat.outline_mm = vec![[0.0, 0.0], [panel.length_mm, 0.0], [upright, panel.height_mm]];
        }
        let inside = |[x, z]: [f64; 2]| {
            let within = (0.0..=panel.length_mm).contains(&x) && (0.0..=panel.height_mm).contains(&z);
            let from_upright = if ahead == Some(right) { x } else { panel.length_mm - x };
            // Nearer to the slope than an edge distance a hole is the neighbour's.
            let (length, height) = (panel.length_mm, panel.height_mm);
            let from_slope = (1.0 - from_upright / length - z / height) * length * height / length.hypot(height);
            within && (ahead.is_none() || from_slope >= edge - 1e-6)
        };
        let places = self.holes_on(side).map(|((at, z), line)| ([x(at), z - low], line));
        flat.holes = places.filter(|(at, _)| inside(*at)).map(|(at, line)| self.hole(at, line)).collect();
        flat
    }

    fn cap_flat(&self, panel: &EndPanel, wrap: &Wrap) -> Option<Flat> {
        let piece = self.end_caps.as_ref()?.pieces.iter().find(|piece| piece.id == panel.id)?;
        let good = wrap.wing(piece.good_edge)?;
        // Seen from outside, the left of the bus is at the left of its rear and at the right of its front.
        let mirrored = panel.front != (piece.good_edge == Side::Right);
        let (low, high) = panel.edges_mm();
        let in_mm = |x: f64| if panel.front { self.survey.length_mm - x } else { x };
        let along = piece.flat.along_mm();
        let (start, far) = (along.get(1).copied().unwrap_or_default(), along.last().copied().unwrap_or_default());
        let edge = good.end_mm - good.reach_mm;
        // Both edges, each by its own length: its bend's start, the places of its bends' ends or seam, its length round.
        let ends = [wrap.round_mm(), wrap.upper_round_ends_mm()];
        let mut holes = Vec::new();
        let mut add = |i: usize, at: f64, z: f64, line: &str| {
            let place = on_flat(&piece.flat, &along, i, at, (z - low) / (high - low));
            holes.extend(place.map(|place| self.hole(place, line)));
        };
        let upper = |z: f64| usize::from(z > f64::midpoint(low, high));
        for wing in &wrap.wings {
            for ((x, z), line) in self.holes_on(wing.side) {
                if (wing.bend_mm..=wing.end_mm).contains(&in_mm(x)) && (low..=high).contains(&z) {
                    // From the sheet's own end on each side: there it lies on its post.
                    let (i, from_end) = (upper(z), wing.end_mm - in_mm(x));
                    add(i, if wing.side == piece.good_edge { from_end } else { far[i] - from_end }, z, line);
                }
            }
        }
        for ((y, z), line) in self.holes_across(panel.front) {
            let i = upper(z);
            let (left, right) = ends[i];
            if (right - edge..=left + edge).contains(&y) && (low..=high).contains(&z) {
                add(i, start[i] + if piece.good_edge == Side::Left { left - y } else { y - right }, z, line);
            }
        }
        let mut flat = Flat {
            id: panel.id.clone(),
            kind: FlatKind::Cap,
            outline_mm: edge_of(&piece.flat.lines),
            holes,
            bends: bends(piece),
            front_to_right: None,
            from_right: mirrored,
            notes: vec![
                "distances are told from the good edge; bend lines are marked, never scribed through the coating"
                    .to_owned(),
                "both edges curve: scribe them through the ordinates of the list \"cap ordinates\"".to_owned(),
            ],
        };
        flat.settle(mirrored);
        Some(flat)
    }
}

impl Flat {
    /// Turns a flat over where it is told from inside, and moves its lower left corner to the origin.
    fn settle(&mut self, mirrored: bool) {
        let least = |i: usize, flip: bool| {
            let all = self.outline_mm.iter().map(|p| if flip { -p[i] } else { p[i] });
            all.fold(f64::INFINITY, f64::min)
        };
        let (x0, y0) = (least(0, mirrored), least(1, false));
        let place = |p: &mut [f64; 2]| *p = [if mirrored { -p[0] } else { p[0] } - x0, p[1] - y0];
        self.outline_mm.iter_mut().for_each(place);
        self.holes.iter_mut().for_each(|hole| place(&mut hole.at_mm));
        for bend in &mut self.bends {
            place(&mut bend.from_mm);
            place(&mut bend.to_mm);
        }
        if mirrored {
            self.outline_mm.reverse();
        }
    }
}

/// Both edges of an unrolled sheet, against the clock.
fn edge_of(lines: &[ScribeLine]) -> Vec<[f64; 2]> {
    let mut ring: Vec<[f64; 2]> = lines.iter().map(|line| line.bottom_mm).collect();
    ring.extend(lines.iter().rev().map(|line| line.top_mm));
    // A run of no length has its line twice.
    ring.dedup_by(|a, b| (a[0] - b[0]).hypot(a[1] - b[1]) < 1e-6);
    ring
}

fn bends(piece: &CapPiece) -> Vec<BendLine> {
    let side = |corner: usize| piece.corners.get(corner).map_or("", |c| c.side.name());
    let lines = &piece.flat.lines;
    let same = |a: f64, b: f64| a.to_bits() == b.to_bits();
    let at = |x: [f64; 2]| lines.iter().find(|line| same(line.bottom_mm[0], x[0]) && same(line.top_mm[0], x[1]));
    let marks = piece.flat.marks.iter().filter_map(|mark| Some((mark, at(mark.at_mm)?)));
    marks
        .map(|(mark, line)| BendLine {
            from_mm: line.bottom_mm,
            to_mm: line.top_mm,
            what: format!("bend {}, {}", if mark.start { "starts" } else { "ends" }, side(mark.corner)),
        })
        .collect()
}

/// The place so far along the lower (0) or the upper edge (1), mm, at a share of the way from the lower edge to the upper; `along`
/// has both edges' distances of the lines across.
fn on_flat(flat: &FlatPattern, along: &[[f64; 2]], edge: usize, at_mm: f64, up: f64) -> Option<[f64; 2]> {
    let between = |a: [f64; 2], b: [f64; 2], t: f64| [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    flat.lines.windows(2).zip(along.windows(2)).find_map(|(lines, along)| {
        let (&[a, b], &[from, to]) = (lines, along) else { return None };
        let (from, to) = (from[edge], to[edge]);
        let t = (at_mm - from) / (to - from);
        (to > from && at_mm <= to + 1e-6)
            .then(|| between(between(a.bottom_mm, b.bottom_mm, t), between(a.top_mm, b.top_mm, t), up))
    })
}

fn jig_flat(i: usize, jig: &Jig) -> Flat {
    let middle = 0.5 * JIG_WIDTH_MM;
    let hole = |(number, place): (usize, &crate::mechanics::hole_line::JigPlace)| FlatHole {
        at_mm: [JIG_END_MM + place.true_mm, middle],
        diameter_mm: PILOT_MM,
        of: number.to_string(),
    };
    Flat {
        id: jig_name(i),
        kind: FlatKind::Jig,
        outline_mm: rectangle(jig.length_mm() + 2.0 * JIG_END_MM, JIG_WIDTH_MM),
        holes: jig.places.iter().enumerate().map(hole).collect(),
        bends: Vec::new(),
        front_to_right: None,
        from_right: false,
        notes: vec![
            "hole 0 is the index hole; width and ends as you have the bar (common practice, no source)".to_owned(),
        ],
    }
}
