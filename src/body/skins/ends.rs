//! Panels that close the ends of the raised part: bands and corners, steps, slopes and cheeks.

use crate::body::raise::{Ends, Raise};
use crate::body::survey::{Side, Survey};

use super::SheetRules;

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
    /// Mass of its blank, kg.
    pub mass_kg: f64,
    /// People to lift it.
    pub people: usize,
}

impl EndPanel {
    /// Heights of its lower and its upper sheet edge, mm above the ground; of a slope those of its middle line, which stands
    /// upright here.
    pub fn edges_mm(&self) -> (f64, f64) {
        // The centre of area of a triangle lies a third of its height up.
        let below = if self.taper_mm.is_some() { 1.0 / 3.0 } else { 0.5 };
        (self.z_mm - below * self.height_mm, self.z_mm + (1.0 - below) * self.height_mm)
    }

    /// Height of its lower rivet line, mm.
    pub fn lower_line_mm(&self, edge_mm: f64) -> f64 {
        let below = if self.taper_mm.is_some() { 2.0 / 3.0 } else { 1.0 };
        self.edges_mm().0 + below * edge_mm
    }

    /// Area that stays on the bus, m2.
    pub fn area_m2(&self) -> f64 {
        self.length_mm * self.height_mm / 1e6 * if self.taper_mm.is_some() { 0.5 } else { 1.0 }
    }
}

/// Bands under the end caps with the corners beside them, or panels that close the steps.
pub(super) fn end_panels(survey: &Survey, raise: &Raise, rules: &SheetRules) -> Vec<EndPanel> {
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
                front: away > 0.0,
                mass_kg: 0.0,
                people: 0,
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
                        front: away > 0.0,
                        mass_kg: 0.0,
                        people: 0,
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
                    front: away > 0.0,
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
