//! The named shapes; each is a [`Profile`] with its sizes checked.

use std::f64::consts::FRAC_PI_2;

use super::line::{Node, Profile};
use super::{Inputs, Properties, SIDE_MM, WALL_MM};
use crate::error::Problem;

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

/// A hat: crown away from the skin, two webs square to it, two flanges turned outward that lie on it.
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
    /// Outside radius of the four bends, mm; nought for sharp ones.
    pub outer_radius_mm: f64,
}

/// A zee: a web square to the skin, one flange on the skin, the other away from it and turned the other way. No lips.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zee {
    /// Outside depth, square to the skin, mm.
    pub depth_mm: f64,
    /// Outside width of each flange, over the web, mm.
    pub flange_mm: f64,
    /// Wall, mm.
    pub wall_mm: f64,
    /// Outside radius of the two bends, mm; nought for sharp ones.
    pub outer_radius_mm: f64,
}

/// A channel: a web square to the skin, one flange on the skin, the other away from it and turned the same way. No lips.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Channel {
    /// Outside depth, square to the skin, mm.
    pub depth_mm: f64,
    /// Outside width of each flange, over the web, mm.
    pub flange_mm: f64,
    /// Wall, mm.
    pub wall_mm: f64,
    /// Outside radius of the two bends, mm; nought for sharp ones.
    pub outer_radius_mm: f64,
}

/// Radius of the mid-line; a bend sharper than half the wall has none.
fn mid_radius(outer_radius_mm: f64, wall_mm: f64) -> f64 {
    (outer_radius_mm - 0.5 * wall_mm).max(0.0)
}

impl<'a> Inputs<'a> {
    fn sizes(path: &'a str, sizes: &[(&str, f64)], wall_mm: f64) -> Self {
        let mut inputs = Self::new(path);
        for &(name, mm) in sizes {
            inputs.within(name, mm, SIDE_MM, "mm");
        }
        inputs.within("wall", wall_mm, WALL_MM, "mm");
        inputs
    }

    /// `most_mm` is what the sides leave room for; against wrong sides a radius cannot be judged that closely.
    fn radius(&mut self, outer_radius_mm: f64, sides_are_right: bool, most_mm: f64) {
        let most_mm = if sides_are_right { most_mm } else { 0.5 * SIDE_MM.1 };
        self.within("outer_radius", outer_radius_mm, (0.0, most_mm), "mm");
    }
}

impl RectangularTube {
    /// Its mid-line, once the sizes are checked; see [`properties`](Self::properties).
    ///
    /// # Errors
    /// As for [`properties`](Self::properties).
    pub fn profile(&self, path: &str) -> Result<Profile, Vec<Problem>> {
        let Self { depth_mm, width_mm, wall_mm: t, outer_radius_mm } = *self;
        let mut inputs = Inputs::sizes(path, &[("depth", depth_mm), ("width", width_mm)], t);
        let smaller_mm = depth_mm.min(width_mm);
        let right = inputs.problems.is_empty();
        inputs.hollow(t, smaller_mm, "side");
        inputs.radius(outer_radius_mm, right, 0.5 * smaller_mm);
        inputs.finish()?;

        let (y, x, radius_mm) = (0.5 * (depth_mm - t), 0.5 * (width_mm - t), mid_radius(outer_radius_mm, t));
        let corners = [[-x, -y], [x, -y], [x, y], [-x, y]];
        Ok(Profile::of_chain(&corners, t, radius_mm, true))
    }

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
        Ok(self.profile(path)?.properties())
    }
}

impl Hat {
    /// Length of the mid-line, mm: the width of the strip.
    pub fn developed_mm(&self) -> f64 {
        let cut_mm = (2.0 - FRAC_PI_2) * mid_radius(self.outer_radius_mm, self.wall_mm);
        self.crown_mm + 2.0 * self.depth_mm + 2.0 * self.flange_mm - 2.0 * self.wall_mm - 4.0 * cut_mm
    }

    /// Its mid-line, once the sizes are checked; see [`properties`](Self::properties).
    ///
    /// # Errors
    /// As for [`properties`](Self::properties).
    pub fn profile(&self, path: &str) -> Result<Profile, Vec<Problem>> {
        let Self { depth_mm, crown_mm, flange_mm, wall_mm: t, outer_radius_mm } = *self;
        let sizes = [("depth", depth_mm), ("crown", crown_mm), ("flange", flange_mm)];
        let mut inputs = Inputs::sizes(path, &sizes, t);
        let right = inputs.problems.is_empty();
        inputs.hollow(t, depth_mm.min(crown_mm), "of depth and crown");
        inputs.radius(outer_radius_mm, right, (0.5 * depth_mm.min(crown_mm)).min(flange_mm + t));
        inputs.finish()?;

        // A flange reaches half a wall beyond its clear width, to the web's mid-line.
        let (web, edge) = (0.5 * (crown_mm - t), 0.5 * crown_mm + flange_mm);
        let (foot, crown) = (0.5 * t, depth_mm - 0.5 * t);
        let chain = [[-edge, foot], [-web, foot], [-web, crown], [web, crown], [web, foot], [edge, foot]];
        Ok(Profile::of_chain(&chain, t, mid_radius(outer_radius_mm, t), false))
    }

    /// Its properties; `path` names the section in errors (`"bow"` gives `"bow.flange"`).
    ///
    /// Line method, see the module's page. The torsion constant is that of the hat alone, open; riveted to a skin it
    /// closes to a cell and is far stiffer: [`Profile::with_skin`].
    ///
    /// # Errors
    /// A size that no section has, a wall that leaves no hollow under the crown, a radius that crown, webs or flanges have
    /// no room for.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::section::Hat;
    /// let bow = Hat { depth_mm: 40.0, crown_mm: 50.0, flange_mm: 20.0, wall_mm: 1.5, outer_radius_mm: 0.0 };
    /// let section = bow.properties("bow").unwrap();
    /// assert_eq!(section.area_mm2, 167.0 * 1.5);
    /// ```
    pub fn properties(&self, path: &str) -> Result<Properties, Vec<Problem>> {
        Ok(self.profile(path)?.properties())
    }
}

/// The mid-line of a zee or a channel: `away` is +1 where the flange away from the skin turns the way of the other, −1
/// where it turns the other way.
fn two_flanges(
    path: &str,
    [depth_mm, flange_mm, t, outer_radius_mm]: [f64; 4],
    away: f64,
) -> Result<Profile, Vec<Problem>> {
    let mut inputs = Inputs::sizes(path, &[("depth", depth_mm), ("flange", flange_mm)], t);
    let right = inputs.problems.is_empty();
    inputs.hollow(t, depth_mm.min(flange_mm), "of depth and flange");
    inputs.radius(outer_radius_mm, right, (0.5 * depth_mm).min(flange_mm));
    inputs.finish()?;
    let (flange, y) = (flange_mm - 0.5 * t, 0.5 * (depth_mm - t));
    let chain = [[flange, -y], [0.0, -y], [0.0, y], [away * flange, y]];
    Ok(Profile::of_chain(&chain, t, mid_radius(outer_radius_mm, t), false))
}

impl Zee {
    /// Its mid-line, once the sizes are checked.
    ///
    /// # Errors
    /// A size that no section has, a wall as thick as half the depth or flange, a radius that web or flanges have no room
    /// for.
    pub fn profile(&self, path: &str) -> Result<Profile, Vec<Problem>> {
        two_flanges(path, [self.depth_mm, self.flange_mm, self.wall_mm, self.outer_radius_mm], -1.0)
    }

    /// Its properties; `path` names the section in errors. The principal axes are not x and y: unless the skin keeps it
    /// from it, a zee bends sideways too.
    ///
    /// # Errors
    /// As for [`profile`](Self::profile).
    pub fn properties(&self, path: &str) -> Result<Properties, Vec<Problem>> {
        Ok(self.profile(path)?.properties())
    }
}

impl Channel {
    /// Its mid-line, once the sizes are checked.
    ///
    /// # Errors
    /// A size that no section has, a wall as thick as half the depth or flange, a radius that web or flanges have no room
    /// for.
    pub fn profile(&self, path: &str) -> Result<Profile, Vec<Problem>> {
        two_flanges(path, [self.depth_mm, self.flange_mm, self.wall_mm, self.outer_radius_mm], 1.0)
    }

    /// Its properties; `path` names the section in errors. Loads through its centroid twist it: the shear centre lies
    /// behind the web.
    ///
    /// # Errors
    /// As for [`profile`](Self::profile).
    pub fn properties(&self, path: &str) -> Result<Properties, Vec<Problem>> {
        Ok(self.profile(path)?.properties())
    }
}

impl Profile {
    /// Mid-line points one after another, with one wall and one radius; the sizes are right.
    fn of_chain(points: &[[f64; 2]], wall_mm: f64, radius_mm: f64, closed: bool) -> Self {
        let (nodes, walls) = Self::chained(points, wall_mm, radius_mm, closed);
        Self::assembled(nodes, walls)
    }

    /// The nodes and walls of a chain; free ends have no radius.
    pub(super) fn chained(
        points: &[[f64; 2]],
        wall_mm: f64,
        radius_mm: f64,
        closed: bool,
    ) -> (Vec<Node>, Vec<super::Wall>) {
        let last = points.len().saturating_sub(1);
        let node = |(i, &[x_mm, y_mm]): (usize, &[f64; 2])| {
            let free = !closed && (i == 0 || i == last);
            Node { x_mm, y_mm, radius_mm: if free { 0.0 } else { radius_mm } }
        };
        let wall = |from, to| super::Wall { from, to, thickness_mm: wall_mm };
        let nodes = points.iter().enumerate().map(node).collect();
        let mut walls: Vec<super::Wall> = (0..last).map(|i| wall(i, i + 1)).collect();
        if closed {
            walls.push(wall(last, 0));
        }
        (nodes, walls)
    }
}
