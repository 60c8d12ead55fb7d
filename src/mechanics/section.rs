//! Thin-walled sections by the line method: the wall is taken as its mid-line with the thickness along it.
//!
//! `A = sum l t`; `I = sum t (l dy^2 / 12 + l (y_m - y_c)^2)`, `dy` the rise of a wall; closed `J = 4 A_m^2 / sum (l / t)`
//! (Bredt), open `J = sum l t^3 / 3`. What the method leaves out, each wall's stiffness about its own mid-line, is
//! positive: second moments come out a little low, on the safe side. For sharp square tubes: 0.1 % where the wall is
//! a thirtieth of the side, 0.5 % at a fifteenth, 2 % at an eighth.
//!
//! Axes: `x` runs along the skin, `y` square to it, both through the centroid. A post that bends out of the plane of the
//! skin bends about `x`. All walls count in full: that no wall buckles before it yields is not said here.

use std::f64::consts::PI;

use crate::error::Problem;

/// Section properties about the centroid's axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Properties {
    /// Area of metal, mm2.
    pub area_mm2: f64,
    /// Height of the centroid above the outer face on the skin's side, mm.
    pub centroid_mm: f64,
    /// Second moment about the axis along the skin, mm4.
    pub ix_mm4: f64,
    /// Second moment about the axis square to the skin, mm4.
    pub iy_mm4: f64,
    /// Elastic modulus to `ix_mm4`, at the outer face farther from the centroid, mm3.
    pub sx_mm3: f64,
    /// Elastic modulus to `iy_mm4`, at the outermost edge, mm3.
    pub sy_mm3: f64,
    /// Torsion constant, mm4.
    pub torsion_mm4: f64,
}

impl Properties {
    /// Mass per length, kg/m.
    pub fn mass_kg_m(&self, density_kg_m3: f64) -> f64 {
        self.area_mm2 * 1e-6 * density_kg_m3
    }
}

/// A rectangular tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RectangularTube {
    /// Outside depth, square to the skin, mm.
    pub depth_mm: f64,
    /// Outside width, along the skin, mm.
    pub width_mm: f64,
    /// Wall, mm.
    pub wall_mm: f64,
    /// Outside radius of the corners, mm; nought for sharp ones.
    pub outer_radius_mm: f64,
}

/// A hat: crown away from the skin, two webs square to it, two flanges turned outward that lie on it. Sharp corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hat {
    /// Outside depth from the flanges' face on the skin to the crown's outer face, mm.
    pub depth_mm: f64,
    /// Outside width of the crown, over both webs, mm.
    pub crown_mm: f64,
    /// Width of each flange as a tape finds it: from the web's outside face to the free edge, mm.
    pub flange_mm: f64,
    /// Wall, mm.
    pub wall_mm: f64,
}

/// Sizes that a framing section has; outside them the input is a slip or a wrong unit.
const SIDE_MM: (f64, f64) = (1.0, 1000.0);
const WALL_MM: (f64, f64) = (0.1, 50.0);

impl RectangularTube {
    /// Its properties; `path` names the section in errors (`"post"` gives `"post.wall"`).
    ///
    /// Line method, see the module's page, with quarter circles at the corners taken exactly along the mid-line (radius
    /// `r - t/2`, nought where that is negative). The round-corner reduction of EN 1993-1-3, 5.1 (from memory)
    /// approximates the same for small radii; the arcs need no limit: with `r` half of both sides this is a round tube. The
    /// torsion constant is Bredt's for a closed tube; a slot or an unwelded seam makes it an open section.
    ///
    /// # Errors
    /// A size that no section has, a wall that leaves no hollow, a radius above half the smaller side.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::section::RectangularTube;
    /// let post = RectangularTube { depth_mm: 50.8, width_mm: 25.4, wall_mm: 1.519, outer_radius_mm: 0.0 };
    /// let section = post.properties("post").unwrap();
    /// assert!((section.area_mm2 - 222.25).abs() < 0.05);
    /// assert!((section.mass_kg_m(7850.0) - 1.745).abs() < 0.0005);
    /// ```
    pub fn properties(&self, path: &str) -> Result<Properties, Vec<Problem>> {
        let Self { depth_mm, width_mm, wall_mm: t, outer_radius_mm } = *self;
        let mut inputs = Inputs::new(path);
        inputs.within("depth", depth_mm, SIDE_MM);
        inputs.within("width", width_mm, SIDE_MM);
        inputs.within("wall", t, WALL_MM);
        let smaller_mm = depth_mm.min(width_mm);
        // Against wrong sides a radius cannot be judged any closer.
        let most_mm = if inputs.problems.is_empty() { 0.5 * smaller_mm } else { 0.5 * SIDE_MM.1 };
        inputs.hollow(t, smaller_mm, "side");
        inputs.within("outer_radius", outer_radius_mm, (0.0, most_mm));
        inputs.finish()?;

        let r = (outer_radius_mm - 0.5 * t).max(0.0);
        let (h, b) = (depth_mm - t, width_mm - t);
        let (web, flange) = (h - 2.0 * r, b - 2.0 * r);
        let perimeter_mm = 2.0 * (web + flange) + 2.0 * PI * r;
        let enclosed_mm2 = h * b - (4.0 - PI) * r * r;
        let ix_mm4 = t * box_second_moment(web, flange, r);
        let iy_mm4 = t * box_second_moment(flange, web, r);
        Ok(Properties {
            area_mm2: perimeter_mm * t,
            centroid_mm: 0.5 * depth_mm,
            ix_mm4,
            iy_mm4,
            sx_mm3: ix_mm4 / (0.5 * depth_mm),
            sy_mm3: iy_mm4 / (0.5 * width_mm),
            torsion_mm4: 4.0 * enclosed_mm2 * enclosed_mm2 * t / perimeter_mm,
        })
    }
}

/// Second moment of a rounded box's mid-line about its middle axis, per mm of wall: `upright` and `level` are the
/// straight lengths square to the axis and along it, `r` the corners' radius.
///
/// A quarter circle centred at `c` from the axis: the integral of `(c + r sin a)^2 r da` over a right angle is
/// `r (c^2 pi/2 + 2 c r + r^2 pi/4)`.
fn box_second_moment(upright: f64, level: f64, r: f64) -> f64 {
    let c = 0.5 * upright;
    let corner = r * (0.5 * PI * c * c + 2.0 * c * r + 0.25 * PI * r * r);
    2.0 * upright.powi(3) / 12.0 + 2.0 * level * (c + r).powi(2) + 4.0 * corner
}

impl Hat {
    /// Length of the mid-line, mm: the width of the strip, corners taken as sharp.
    pub fn developed_mm(&self) -> f64 {
        self.crown_mm + 2.0 * self.depth_mm + 2.0 * self.flange_mm - 2.0 * self.wall_mm
    }

    /// Its properties; `path` names the section in errors (`"bow"` gives `"bow.flange"`).
    ///
    /// Line method, see the module's page. The corners are sharp: bends of inside radius up to about twice the wall
    /// take a few per cent off area and second moments. The torsion constant is that of the hat alone, open; riveted
    /// to a skin it closes to a cell and is far stiffer.
    ///
    /// # Errors
    /// A size that no section has, a wall that leaves no hollow under the crown.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::section::Hat;
    /// let bow = Hat { depth_mm: 40.0, crown_mm: 50.0, flange_mm: 20.0, wall_mm: 1.5 };
    /// let section = bow.properties("bow").unwrap();
    /// assert_eq!(section.area_mm2, 167.0 * 1.5);
    /// ```
    pub fn properties(&self, path: &str) -> Result<Properties, Vec<Problem>> {
        let Self { depth_mm, crown_mm, flange_mm, wall_mm: t } = *self;
        let mut inputs = Inputs::new(path);
        inputs.within("depth", depth_mm, SIDE_MM);
        inputs.within("crown", crown_mm, SIDE_MM);
        inputs.within("flange", flange_mm, SIDE_MM);
        inputs.within("wall", t, WALL_MM);
        inputs.hollow(t, depth_mm.min(crown_mm), "of depth and crown");
        inputs.finish()?;

        // Mid-line lengths; a flange reaches half a wall beyond its clear width, to the web's mid-line.
        let (crown, web, flange) = (crown_mm - t, depth_mm - t, flange_mm + 0.5 * t);
        let length_mm = self.developed_mm();
        // Heights above the flanges' mid-line.
        let centroid = (2.0 * web * 0.5 * web + crown * web) / length_mm;
        let ix_mm4 = t
            * (2.0 * flange * centroid.powi(2)
                + 2.0 * (web.powi(3) / 12.0 + web * (0.5 * web - centroid).powi(2))
                + crown * (web - centroid).powi(2));
        let flange_middle = 0.5 * (crown + flange);
        let iy_mm4 = t
            * (crown.powi(3) / 12.0
                + 2.0 * web * (0.5 * crown).powi(2)
                + 2.0 * (flange.powi(3) / 12.0 + flange * flange_middle.powi(2)));
        let centroid_mm = centroid + 0.5 * t;
        Ok(Properties {
            area_mm2: length_mm * t,
            centroid_mm,
            ix_mm4,
            iy_mm4,
            sx_mm3: ix_mm4 / centroid_mm.max(depth_mm - centroid_mm),
            sy_mm3: iy_mm4 / (0.5 * crown_mm + flange_mm),
            torsion_mm4: length_mm * t.powi(3) / 3.0,
        })
    }
}

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

    fn within(&mut self, name: &str, mm: f64, (least, most): (f64, f64)) {
        if !(mm >= least && mm <= most) {
            let allowed = format!("{least} to {most} mm");
            self.problems.push(Problem::out_of_range(self.field(name), format!("{mm} mm"), allowed));
        }
    }

    /// The wall must leave a hollow: less than half of the smaller outside measure. Asked only of sizes that are right
    /// one by one.
    fn hollow(&mut self, wall_mm: f64, smaller_mm: f64, of_what: &str) {
        if self.problems.is_empty() && 2.0 * wall_mm >= smaller_mm {
            self.problems.push(Problem::contradiction(
                self.field("wall"),
                format!("{wall_mm} mm"),
                format!(
                    "leaves no hollow: the smaller {of_what} is only {smaller_mm} mm; check wall and outside sizes"
                ),
            ));
        }
    }

    fn finish(self) -> Result<(), Vec<Problem>> {
        if self.problems.is_empty() { Ok(()) } else { Err(self.problems) }
    }
}
