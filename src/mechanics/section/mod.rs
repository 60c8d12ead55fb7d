//! Thin-walled sections by the line method: the wall is taken as its mid-line with the thickness along it.
//!
//! `A = sum l t`; `I = sum t (l dy^2 / 12 + l (y_m - y_c)^2)`, `dy` the rise of a wall; closed `J = 4 A_m^2 / sum (l / t)`
//! (Bredt), open `J = sum l t^3 / 3`. What the method leaves out, each wall's stiffness about its own mid-line, is
//! positive: second moments come out a little low, on the safe side. For sharp square tubes: 0.1 % where the wall is
//! a thirtieth of the side, 0.5 % at a fifteenth, 2 % at an eighth.
//!
//! Axes: `x` runs along the skin, `y` square to it and away from it, both through the centroid. A post that bends out of
//! the plane of the skin bends about `x`. In [`Properties`] all walls count in full; [`Profile::effective`] takes away what
//! buckles before it yields.

mod effective;
mod line;
mod shapes;
mod skin;

pub use effective::{
    Bending, Edge, Effective, Face, PlateWidth, Rule, WallWidth, Working, en_internal_k, en_internal_rho,
    en_outstand_rho, outstand_root_k, outstand_tip_k, plate_width, us_internal_k, winter_rho,
};
pub use line::{Node, Profile, Wall};
pub use shapes::{Channel, Hat, RectangularTube, Zee};
pub use skin::{SkinStrip, skin_strips, von_karman_width_mm};

use crate::error::Problem;

/// Section properties about the centroid's axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Properties {
    /// Area of metal, mm2.
    pub area_mm2: f64,
    /// Length of the mid-line of all walls, mm; of one bent strip its width.
    pub developed_mm: f64,
    /// Height of the centroid above the outer face on the skin's side, mm.
    pub centroid_mm: f64,
    /// Distance of the centroid from the leftmost edge, along the skin, mm.
    pub centroid_x_mm: f64,
    /// Depth over the outer faces, square to the skin, mm.
    pub depth_mm: f64,
    /// Width over the outermost edges, along the skin, mm.
    pub width_mm: f64,
    /// Second moment about the axis along the skin, mm4.
    pub ix_mm4: f64,
    /// Second moment about the axis square to the skin, mm4.
    pub iy_mm4: f64,
    /// Product of the second moments, the integral of x y, mm4; nought where one of the axes is one of symmetry.
    pub ixy_mm4: f64,
    /// The greater principal second moment, mm4.
    pub i_major_mm4: f64,
    /// The smaller principal second moment, mm4.
    pub i_minor_mm4: f64,
    /// The principal axis of `i_major_mm4`, counter-clockwise from x, degrees; nought where all axes are alike.
    pub major_axis_deg: f64,
    /// Elastic modulus to `ix_mm4`, at the outer face farther from the centroid, mm3.
    pub sx_mm3: f64,
    /// Elastic modulus to `ix_mm4` at the face on the skin's side, mm3.
    pub sx_skin_mm3: f64,
    /// Elastic modulus to `ix_mm4` at the face away from the skin, mm3.
    pub sx_away_mm3: f64,
    /// Elastic modulus to `iy_mm4`, at the outermost edge, mm3.
    pub sy_mm3: f64,
    /// Torsion constant, mm4.
    pub torsion_mm4: f64,
    /// Area that the mid-line of a closed section encloses, mm2; nought for an open one.
    pub enclosed_mm2: f64,
}

impl Properties {
    /// Mass per length, kg/m.
    pub fn mass_kg_m(&self, density_kg_m3: f64) -> f64 {
        self.area_mm2 * 1e-6 * density_kg_m3
    }
}

/// Sizes that a framing section has; outside them the input is a slip or a wrong unit.
const SIDE_MM: (f64, f64) = (1.0, 1000.0);
const WALL_MM: (f64, f64) = (0.1, 50.0);
const STRENGTH_MPA: (f64, f64) = (20.0, 2000.0);

/// Collects what is wrong with a section's sizes.
struct Inputs<'a> {
    path: &'a str,
    problems: Vec<Problem>,
}

impl<'a> Inputs<'a> {
    fn new(path: &'a str) -> Self {
        Self { path, problems: Vec::new() }
    }

    fn field(&self, name: &str) -> String {
        if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) }
    }

    fn within(&mut self, name: &str, value: f64, (least, most): (f64, f64), unit: &str) {
        if !(value >= least && value <= most) {
            let allowed = format!("{least} to {most} {unit}");
            self.problems.push(Problem::out_of_range(self.field(name), format!("{value} {unit}"), allowed.trim_end()));
        }
    }

    fn contradiction(&mut self, name: &str, value: impl std::fmt::Display, problem: impl Into<String>) {
        self.problems.push(Problem::contradiction(self.field(name), value, problem));
    }

    /// The wall must leave a hollow: less than half of the smaller outside measure. Asked only of sizes that are right
    /// one by one.
    fn hollow(&mut self, wall_mm: f64, smaller_mm: f64, of_what: &str) {
        if self.problems.is_empty() && 2.0 * wall_mm >= smaller_mm {
            let problem = format!(
                "leaves no hollow: the smaller {of_what} is only {smaller_mm} mm; check wall and outside sizes"
            );
            self.contradiction("wall", format!("{wall_mm} mm"), problem);
        }
    }

    fn finish(&mut self) -> Result<(), Vec<Problem>> {
        let problems = std::mem::take(&mut self.problems);
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}
