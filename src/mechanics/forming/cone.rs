//! The flat of a right cone frustum, or of a part of one.

use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::bend::all;

/// A right cone frustum by its mean radii; the axis is upright.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frustum {
    /// Mean radius below, mm.
    pub bottom_radius_mm: f64,
    /// Mean radius above, mm.
    pub top_radius_mm: f64,
    /// Upright height, mm.
    pub height_mm: f64,
    /// How far it goes round, degrees.
    pub angle_deg: f64,
}

/// A place on both edges of a flat, mm: x from the middle, y from the chord of the lower edge towards the upper edge.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct ScribePoint {
    /// On the lower edge.
    pub bottom_mm: [f64; 2],
    /// On the upper edge.
    pub top_mm: [f64; 2],
}

impl Frustum {
    /// Refuses what is no frustum.
    ///
    /// # Errors
    /// Radii outside 1 mm to 10 m or equal, a height outside 1 mm to 10 m, a part outside 0.1 to 360 degrees.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        all([
            in_range("bottom_radius", Some(self.bottom_radius_mm), (1.0, 10_000.0), "mm"),
            in_range("top_radius", Some(self.top_radius_mm), (1.0, 10_000.0), "mm"),
            in_range("height", Some(self.height_mm), (1.0, 10_000.0), "mm"),
            in_range("angle", Some(self.angle_deg), (0.1, 360.0), "deg"),
        ])?;
        if (self.bottom_radius_mm - self.top_radius_mm).abs() < 0.01 {
            let (value, problem) =
                (format!("{} mm", self.top_radius_mm), "as the radius below: a cylinder, whose flat is a rectangle");
            return Err(vec![Problem::contradiction("top_radius", value, problem)]);
        }
        Ok(())
    }

    /// Along the cone, mm: `s = √(h² + (R - r)²)`.
    pub fn slant_mm(&self) -> f64 {
        self.height_mm.hypot(self.bottom_radius_mm - self.top_radius_mm)
    }

    /// Radius of an edge in the flat, mm: `s R / |R - r|`.
    fn developed(&self, radius_mm: f64) -> f64 {
        self.slant_mm() * radius_mm / (self.bottom_radius_mm - self.top_radius_mm).abs()
    }

    /// Radius of the lower edge in the flat, mm.
    pub fn bottom_arc_mm(&self) -> f64 {
        self.developed(self.bottom_radius_mm)
    }

    /// Radius of the upper edge in the flat, mm.
    pub fn top_arc_mm(&self) -> f64 {
        self.developed(self.top_radius_mm)
    }

    /// Angle of the flat, degrees: `A |R - r| / s`, 360 (R - r)/s for the whole.
    pub fn developed_angle_deg(&self) -> f64 {
        self.angle_deg * (self.bottom_radius_mm - self.top_radius_mm).abs() / self.slant_mm()
    }

    /// Chord of the lower edge, mm: `2 ρ sin(φ/2)`.
    pub fn bottom_chord_mm(&self) -> f64 {
        2.0 * self.bottom_arc_mm() * (self.developed_angle_deg().to_radians() / 2.0).sin()
    }

    /// Chord of the upper edge, mm.
    pub fn top_chord_mm(&self) -> f64 {
        2.0 * self.top_arc_mm() * (self.developed_angle_deg().to_radians() / 2.0).sin()
    }

    /// Places on both edges to scribe them through, `parts` equal parts of the angle.
    pub fn points(&self, parts: usize) -> Vec<ScribePoint> {
        let half = self.developed_angle_deg().to_radians() / 2.0;
        // The wider edge is the outer one; the flat's centre lies beyond the narrower.
        let up = if self.bottom_radius_mm > self.top_radius_mm { -1.0 } else { 1.0 };
        let (bottom, top) = (self.bottom_arc_mm(), self.top_arc_mm());
        let at = |i: usize| {
            let angle = half * (2.0 * i as f64 / parts.max(1) as f64 - 1.0);
            // ρ cos(angle) - ρ cos(half), without the difference of two large numbers.
            let over_chord = 2.0 * bottom * f64::midpoint(half, angle).sin() * ((half - angle) / 2.0).sin();
            ScribePoint {
                bottom_mm: [bottom * angle.sin(), up * over_chord],
                top_mm: [top * angle.sin(), up * (over_chord + (top - bottom) * angle.cos())],
            }
        };
        (0..=parts.max(1)).map(at).collect()
    }
}
