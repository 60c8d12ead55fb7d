//! The strip of skin that works with a section riveted to it.

use super::effective::{Edge, MOST_INTERNAL, Rule, plate_width};
use super::line::{Flat, Node, Piece, Point, Profile, Wall, distance};
use super::{Inputs, STRENGTH_MPA, WALL_MM};
use crate::check::Standing;
use crate::error::Problem;

/// The strip as a part of the section.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Skin {
    pub from: Point,
    pub to: Point,
    pub thickness_mm: f64,
    /// Torsion constant of section and strip together, mm4.
    pub torsion_mm4: f64,
}

impl Skin {
    pub fn piece(&self) -> Piece {
        Piece::Straight(self.from, self.to, self.thickness_mm)
    }
}

/// How much skin works with a rib, by one rule; both rules from memory.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SkinStrip {
    /// The rule.
    pub rule: &'static str,
    /// Its formula.
    pub formula: &'static str,
    /// Width of the strip that counts, both sides of the rib together, at most the spacing, mm.
    pub width_mm: f64,
    /// How the rule is known.
    pub standing: Standing,
}

const STRIP_MM: (f64, f64) = (1.0, 2000.0);

/// Width of a buckled sheet that carries the stress of its edge, both sides of a rib together: 1.9 t sqrt(E / sigma) (von
/// Karman, from memory). For sheet on ribs on both sides; not limited to the spacing here.
pub fn von_karman_width_mm(thickness_mm: f64, modulus_mpa: f64, stress_mpa: f64) -> f64 {
    1.9 * thickness_mm * (modulus_mpa / stress_mpa).sqrt()
}

/// The strip of skin that works with a rib between two like it, by both rules: half the effective width of the skin on
/// either side (EN 1993-1-5, 4.4, four edges held, k = 4), and von Karman's. `stress_mpa` is the compression at the skin.
///
/// # Errors
/// A thickness, spacing, stress or modulus that no skin has; a spacing that is beyond 500 thicknesses is covered by neither
/// EN 1993-1-3 Table 5.1 (from memory) nor, then, the first rule, which is left out.
pub fn skin_strips(
    thickness_mm: f64,
    spacing_mm: f64,
    stress_mpa: f64,
    modulus_mpa: f64,
) -> Result<Vec<SkinStrip>, Vec<Problem>> {
    let mut inputs = Inputs::new("");
    inputs.within("thickness", thickness_mm, WALL_MM, "mm");
    inputs.within("spacing", spacing_mm, STRIP_MM, "mm");
    inputs.within("stress", stress_mpa, (0.1, STRENGTH_MPA.1), "MPa");
    inputs.within("modulus", modulus_mpa, (1e4, 1e6), "MPa");
    inputs.finish()?;
    let strip = |rule, formula, width_mm: f64| SkinStrip {
        rule,
        formula,
        width_mm: width_mm.min(spacing_mm),
        standing: Standing::Memory,
    };
    let plate = plate_width(Rule::En1993_1_5, Edge::Internal, spacing_mm, thickness_mm, stress_mpa, 1.0);
    let by_lambda = (spacing_mm <= MOST_INTERNAL * thickness_mm)
        .then(|| strip("EN 1993-1-5:2006 4.4", "2 · 0.5 ρ b", plate.rho * spacing_mm));
    let by_edge_stress =
        strip("von Karman", "1.9 t √(E / σ)", von_karman_width_mm(thickness_mm, modulus_mpa, stress_mpa));
    Ok(by_lambda.into_iter().chain([by_edge_stress]).collect())
}

/// Closer to the outermost face than this, a wall lies on the skin.
const ON_THE_SKIN_MM: f64 = 1e-6;

impl Profile {
    /// The section riveted to a strip of skin, centred on the walls that lie on the skin's side.
    ///
    /// Both bend as one, without slip in the rivets. Where an open section has two feet on the skin, as a hat has, each
    /// riveted along its middle, and the strip reaches both lines, it closes to a cell: then the torsion constant is
    /// Bredt's, of the area down to the skin's mid-line; rivets that give way make it less.
    ///
    /// # Errors
    /// A thickness or width that no strip has; a section that already has one, or has no flat wall on the skin's side.
    pub fn with_skin(&self, thickness_mm: f64, width_mm: f64, path: &str) -> Result<Self, Vec<Problem>> {
        let mut inputs = Inputs::new(path);
        inputs.within("thickness", thickness_mm, WALL_MM, "mm");
        inputs.within("width", width_mm, STRIP_MM, "mm");
        let face_mm = -self.reach_mm([0.0, -1.0]);
        let feet: Vec<&Flat> = self.flats.iter().filter(|f| lies_on(f, face_mm)).collect();
        if self.skin.is_some() {
            inputs.contradiction(
                "thickness",
                format!("{thickness_mm} mm"),
                "the section already has its strip of skin",
            );
        } else if feet.is_empty() {
            let problem = "no flat wall of the section lies on the skin's side; turn the section";
            inputs.contradiction("thickness", format!("{thickness_mm} mm"), problem);
        }
        inputs.finish()?;
        let length: f64 = feet.iter().map(|f| distance(f.from, f.to)).sum();
        let middle = feet.iter().map(|f| distance(f.from, f.to) * 0.5 * (f.from[0] + f.to[0])).sum::<f64>() / length;
        let y = face_mm - 0.5 * thickness_mm;
        let (from, to) = ([middle - 0.5 * width_mm, y], [middle + 0.5 * width_mm, y]);
        let torsion_mm4 = match feet.as_slice() {
            [one, other] if !self.is_closed() => self.cell_torsion(one, other, [from, to], thickness_mm),
            _ => None,
        };
        let apart = || self.torsion_mm4() + width_mm * thickness_mm.powi(3) / 3.0;
        let torsion_mm4 = torsion_mm4.unwrap_or_else(apart);
        let mut with = self.clone();
        with.skin = Some(Skin { from, to, thickness_mm, torsion_mm4 });
        Ok(with)
    }

    /// Torsion constant of an open section closed by the skin between the middles of two feet; none where the strip ends
    /// before one of them.
    fn cell_torsion(&self, one: &Flat, other: &Flat, [from, to]: [Point; 2], thickness_mm: f64) -> Option<f64> {
        let y = from[1];
        let (mut nodes, mut walls) = (self.nodes().to_vec(), self.walls().to_vec());
        let mut on_skin = Vec::new();
        for foot in [one, other] {
            let x = 0.5 * (foot.from[0] + foot.to[0]);
            if x < from[0] || x > to[0] {
                return None;
            }
            // The foot ends at its rivets and goes on behind them; the rivets lead to the skin below.
            let (rivets, below) = (nodes.len(), nodes.len() + 1);
            let sharp = |y_mm| Node { x_mm: x, y_mm, radius_mm: 0.0 };
            nodes.extend([sharp(foot.from[1]), sharp(y)]);
            let wall = walls.get_mut(foot.wall)?;
            let behind = Wall { from: rivets, to: wall.to, thickness_mm: wall.thickness_mm };
            wall.to = rivets;
            walls.extend([behind, Wall { from: rivets, to: below, thickness_mm: foot.thickness_mm }]);
            on_skin.push((below, x));
        }
        let &[(first, first_x), (second, second_x)] = on_skin.as_slice() else { return None };
        walls.push(Wall { from: first, to: second, thickness_mm });
        let outside_mm = distance(from, to) - (second_x - first_x).abs();
        Some(Self::assembled(nodes, walls).torsion_mm4() + outside_mm * thickness_mm.powi(3) / 3.0)
    }
}

fn lies_on(flat: &Flat, face_mm: f64) -> bool {
    let off = |y: f64| (y - 0.5 * flat.thickness_mm - face_mm).abs();
    let long = distance(flat.from, flat.to) > ON_THE_SKIN_MM;
    long && [flat.from, flat.to].into_iter().all(|[_, y]| off(y) < ON_THE_SKIN_MM)
}
