//! Panels that close the ends of the raised part: bands and corners or caps that wrap them, steps, slopes and cheeks.

use crate::body::raise::{Ends, Raise};
use crate::body::survey::{Side, Survey};

use super::SheetRules;

/// One side of a cap: from its end on the side round the corner.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Wing {
    /// Which side.
    pub side: Side,
    /// End face to the rivet line at which the cap ends on the side, mm.
    pub reach_mm: f64,
    /// End face to the sheet's end there, mm.
    pub end_mm: f64,
    /// End face to where the bend starts on the side, and side to where it ends on the face, mm.
    pub bend_mm: f64,
    /// Sheet in the bend, mm.
    pub arc_mm: f64,
}

impl Wing {
    /// Straight sheet on the side from the rivet line at the cap's end to the bend, mm.
    pub fn leg_mm(&self) -> f64 {
        self.reach_mm - self.bend_mm
    }
}

/// How a cap lies on the body.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Wrap {
    /// Upright from the lower sheet edge to the upper, mm; its blank may be taller.
    pub upright_mm: f64,
    /// Area of its flat, m2.
    pub area_m2: f64,
    /// Its corners: the left one first.
    pub wings: Vec<Wing>,
    /// Flat sheet on the end face, from the bend or the seam on its left to that on its right, mm left of the middle.
    pub face_mm: (f64, f64),
    /// Round the corners from bend to bend, or to the seam, along the upper edge, mm: where the sides lean it is shorter than along
    /// the lower one, by which all else is told.
    pub upper_round_mm: f64,
}

impl Wrap {
    /// The corner on this side.
    pub fn wing(&self, side: Side) -> Option<&Wing> {
        self.wings.iter().find(|wing| wing.side == side)
    }

    fn arc_mm(&self, side: Side) -> f64 {
        self.wing(side).map_or(0.0, |wing| wing.arc_mm)
    }

    /// From where one bend starts, or from the seam, round to the other, along the sheet, mm left of the middle.
    pub fn round_mm(&self) -> (f64, f64) {
        (self.face_mm.0 + self.arc_mm(Side::Left), self.face_mm.1 - self.arc_mm(Side::Right))
    }

    /// The same along the upper edge.
    pub fn upper_round_ends_mm(&self) -> (f64, f64) {
        let (left_mm, right_mm) = self.round_mm();
        let share = self.upper_round_mm / (left_mm - right_mm);
        (left_mm * share, right_mm * share)
    }

    /// Along the sheet between the rivet lines at its ends, mm.
    pub fn along_mm(&self) -> f64 {
        let (left_mm, right_mm) = self.round_mm();
        left_mm - right_mm + self.wings.iter().map(Wing::leg_mm).sum::<f64>()
    }

    /// Middle of the sheet: mm in from the end face, and mm left.
    fn middle_mm(&self) -> (f64, f64) {
        let (left_mm, right_mm) = self.face_mm;
        let face_mm = left_mm - right_mm;
        let mut sum = (face_mm, 0.0, face_mm * f64::midpoint(left_mm, right_mm));
        for wing in &self.wings {
            let sign = wing.side.sign();
            let bend_y_mm = if wing.side == Side::Left { left_mm } else { right_mm };
            let side_y_mm = bend_y_mm + sign * wing.bend_mm;
            // The middle of a quarter of a circle lies 1 - 2/π of its radius in from both its tangents.
            let in_mm = (1.0 - std::f64::consts::FRAC_2_PI) * wing.bend_mm;
            let parts = [
                (wing.leg_mm(), f64::midpoint(wing.bend_mm, wing.reach_mm), side_y_mm),
                (wing.arc_mm, in_mm, side_y_mm - sign * in_mm),
            ];
            for (length_mm, x_mm, y_mm) in parts {
                sum = (sum.0 + length_mm, sum.1 + length_mm * x_mm, sum.2 + length_mm * y_mm);
            }
        }
        (sum.1 / sum.0, sum.2 / sum.0)
    }
}

/// A sheet that wraps one corner of the raised band, or both, in the numbers of its flat.
#[derive(Debug, Clone, PartialEq)]
pub struct CapSheet {
    /// Name: `rear cap, 1 of 2`.
    pub id: String,
    /// It closes the front end, not the rear.
    pub front: bool,
    /// Rectangle to buy, mm: along and up.
    pub blank_mm: [f64; 2],
    /// How it lies.
    pub wrap: Wrap,
}

/// Plan of the raised band at its ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BandSize {
    /// Up a panel, edges included, mm.
    pub height_mm: f64,
    /// Rear face to the rearmost lengthened post, and front face to the foremost one, mm.
    pub gap_mm: [f64; 2],
}

impl BandSize {
    /// Of a raise of the whole roof.
    pub fn of(survey: &Survey, raise: &Raise, rules: &SheetRules) -> Self {
        let (first_mm, last_mm) = (survey.posts_mm[raise.first_post], survey.posts_mm[raise.last_post]);
        Self { height_mm: raise.height_mm + 2.0 * rules.edge_mm, gap_mm: [first_mm, survey.length_mm - last_mm] }
    }
}

/// A panel beside a slope, between its rivet lines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Triangle {
    /// Along the bus, mm.
    pub run_mm: f64,
    /// Up, mm.
    pub rise_mm: f64,
    /// Rivet line to sheet edge on all three sides, mm.
    pub edge_mm: f64,
}

/// Radius of the circle within a right triangle, mm: half of what its legs are longer than its third side.
fn inscribed_mm(run_mm: f64, rise_mm: f64) -> f64 {
    0.5 * (run_mm + rise_mm - run_mm.hypot(rise_mm))
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
    /// It closes the front end, not the rear.
    pub front: bool,
    /// Round which corners it is bent; none for a flat panel.
    pub wrap: Option<Wrap>,
    /// Mass of its blank, kg.
    pub mass_kg: f64,
    /// People to lift it.
    pub people: usize,
}

impl EndPanel {
    /// Upright from its lower to its upper sheet edge, mm; of a slope along it.
    pub fn upright_mm(&self) -> f64 {
        self.wrap.as_ref().map_or(self.height_mm, |wrap| wrap.upright_mm)
    }

    /// Where it lies on a side, edges included: mm forward of the rear face, from the rear on; none where it does not.
    pub fn on_side_mm(&self, side: Side, survey: &Survey) -> Option<(f64, f64)> {
        if let Some((triangle, taper)) = self.triangle().zip(self.taper_mm) {
            let upright_mm = self.x_mm - taper / 3.0 - taper.signum() * triangle.edge_mm;
            let point_mm = upright_mm + taper.signum() * self.length_mm;
            return (self.side == Some(side)).then_some((upright_mm.min(point_mm), upright_mm.max(point_mm)));
        }
        if let Some(wing) = self.wrap.as_ref().and_then(|wrap| wrap.wing(side)) {
            let length_mm = survey.length_mm;
            return Some(if self.front { (length_mm - wing.end_mm, length_mm) } else { (0.0, wing.end_mm) });
        }
        let half_mm = 0.5 * self.length_mm;
        (self.side == Some(side)).then_some((self.x_mm - half_mm, self.x_mm + half_mm))
    }

    /// Heights of its lower and its upper sheet edge, mm above the ground; of a slope those of its middle line, which stands
    /// upright here.
    pub fn edges_mm(&self) -> (f64, f64) {
        // The centre of area of a triangle lies a third of its height up.
        let below = self.triangle().map_or(0.5 * self.upright_mm(), |own| own.rise_mm / 3.0 + own.edge_mm);
        (self.z_mm - below, self.z_mm - below + self.upright_mm())
    }

    /// Height of its lower rivet line, mm.
    pub fn lower_line_mm(&self, edge_mm: f64) -> f64 {
        self.edges_mm().0 + edge_mm
    }

    /// The triangle between its rivet lines, and its edge distance; none for other panels.
    pub fn triangle(&self) -> Option<Triangle> {
        let run_mm = self.taper_mm?.abs();
        let rise_mm = run_mm * self.height_mm / self.length_mm;
        let edge_mm = inscribed_mm(run_mm, rise_mm) * (self.length_mm / run_mm - 1.0);
        Some(Triangle { run_mm, rise_mm, edge_mm })
    }

    /// Area that stays on the bus, m2.
    pub fn area_m2(&self) -> f64 {
        if let Some(wrap) = &self.wrap {
            return wrap.area_m2;
        }
        self.length_mm * self.height_mm / 1e6 * if self.taper_mm.is_some() { 0.5 } else { 1.0 }
    }
}

fn cap_panel(cap: &CapSheet, piece: usize, (x_mm, y_mm, z_mm): (f64, f64, f64)) -> EndPanel {
    EndPanel {
        id: cap.id.clone(),
        length_mm: cap.blank_mm[0],
        height_mm: cap.blank_mm[1],
        x_mm,
        y_mm,
        z_mm,
        taper_mm: None,
        piece,
        side: None,
        front: cap.front,
        wrap: Some(cap.wrap.clone()),
        mass_kg: 0.0,
        people: 0,
    }
}

/// Caps, or bands under the end caps with the corners beside them, or panels that close the steps.
pub(super) fn end_panels(survey: &Survey, raise: &Raise, rules: &SheetRules, caps: &[CapSheet]) -> Vec<EndPanel> {
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
    let mut panels: Vec<EndPanel> = Vec::new();
    for (end, station_mm, away, post_mm) in [("rear", rear_mm, -1.0, first_mm), ("front", front_mm, 1.0, last_mm)] {
        let front = away > 0.0;
        // A cap takes the place of band and corners.
        let own: Vec<&CapSheet> = caps.iter().filter(|cap| whole && cap.front == front).collect();
        panels.extend(own.iter().enumerate().map(|(i, cap)| {
            let (in_mm, y_mm) = cap.wrap.middle_mm();
            let middle_mm = (station_mm - away * in_mm, y_mm, drip_mm + raise.height_mm / 2.0);
            cap_panel(cap, i, middle_mm)
        }));
        let (pieces, piece_mm) = split(width_mm);
        for i in (0..pieces).filter(|_| own.is_empty()) {
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
                front,
                wrap: None,
                mass_kg: 0.0,
                people: 0,
            });
        }
        // The side between the end face and the next post: a strip where the whole roof rises, a cheek beside a slope.
        for side in Side::BOTH {
            let y_mm = side.sign() * width_mm / 2.0;
            // A cap that ends short of the post leaves a strip, as if the end face stood where it ends.
            let reach_mm = own.iter().find_map(|cap| cap.wrap.wing(side)).map_or(0.0, |wing| wing.reach_mm);
            let station_mm = station_mm - away * reach_mm;
            let gap_mm = away * (station_mm - post_mm);
            if whole && gap_mm > if own.is_empty() { 0.0 } else { STRIP_MM } {
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
                        front,
                        wrap: None,
                        mass_kg: 0.0,
                        people: 0,
                    });
                }
            }
            if run_mm > 0.0 {
                // An edge distance past all three sides a triangle is one of the same shape, larger by as much as its circle.
                let larger = 1.0 + rules.edge_mm / inscribed_mm(run_mm, raise.height_mm);
                panels.push(EndPanel {
                    id: format!("{end} cheek, {}", side.name()),
                    length_mm: run_mm * larger,
                    height_mm: raise.height_mm * larger,
                    x_mm: station_mm + away * run_mm / 3.0,
                    y_mm,
                    z_mm: drip_mm + raise.height_mm / 3.0,
                    taper_mm: Some(away * run_mm),
                    piece: 0,
                    side: Some(side),
                    front,
                    wrap: None,
                    mass_kg: 0.0,
                    people: 0,
                });
            }
        }
    }
    for panel in &mut panels {
        panel.mass_kg = panel.length_mm * panel.height_mm / 1e6 * rules.areal_mass_kg_m2;
        panel.people = rules.lifting.people_for(panel.mass_kg);
    }
    panels
}

/// What is left between a cap's end and the post is no strip but the tape's rounding, mm.
pub const STRIP_MM: f64 = 1.0;
