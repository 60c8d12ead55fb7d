//! A pair of posts with its roof bow as a plane frame across the bus, before and after the raise: sway stiffness, and the
//! moments under a side load and under a load on the roof.
//!
//! The feet stand at the floor. How firmly the floor holds them is not known from a tape, so that every answer is given for
//! pinned feet, for clamped feet and for feet on a spring. Skin, stringers and the end caps, which stiffen the body further,
//! are left out; so are the windows' frames.

use crate::error::Problem;
use crate::mechanics::frame::{Factored, Frame, Load, Member, Solved, Support};
use crate::mechanics::section::{Properties, Working};

use super::raise::Raise;
use super::splices::SpliceActions;
use super::survey::Survey;

/// How the floor holds a post's foot.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub enum Feet {
    /// Free to turn: the softest.
    Pinned,
    /// Turning against a spring, N·mm/rad.
    Sprung(f64),
    /// Held against turning: the stiffest.
    Fixed,
}

impl Feet {
    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Pinned => "pinned",
            Self::Sprung(_) => "sprung",
            Self::Fixed => "fixed",
        }
    }

    fn support(self, node: usize) -> Support {
        match self {
            Self::Pinned => Support::pinned(node),
            Self::Sprung(n_mm_rad) => Support::sprung(node, n_mm_rad),
            Self::Fixed => Support::fixed(node),
        }
    }
}

/// The section of a part of a bow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BowSection {
    /// All its walls: how stiff it is.
    pub gross: Properties,
    /// What of them works up to the yield strength: how strong it is; none where that strength is not known.
    pub works: Option<Working>,
}

/// What a bow is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BowSections {
    /// The posts.
    pub post: BowSection,
    /// The pieces that lengthen them.
    pub insert: BowSection,
    /// The roof bow.
    pub roof: BowSection,
    /// Modulus of elasticity of all of them, MPa.
    pub modulus_mpa: f64,
}

/// One pair of posts with its roof bow.
#[derive(Debug, Clone, PartialEq)]
pub struct Bow {
    frame: Frame,
    parts: Vec<Part>,
    /// Node of the left and the right drip rail.
    corners: [usize; 2],
    sections: BowSections,
}

/// What a member belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum Part {
    /// A post as it was.
    Post,
    /// The piece that lengthens it.
    Insert,
    /// The roof bow.
    Roof,
}

impl Part {
    /// Every one.
    pub const ALL: [Self; 3] = [Self::Post, Self::Insert, Self::Roof];

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Post => "post",
            Self::Insert => "insert",
            Self::Roof => "roof bow",
        }
    }
}

/// Pieces of a curved roof bow: sixteen come within 1 % of the arc.
const ROOF_PIECES: usize = 16;

/// The largest stress in a part of a bow.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct PartStress {
    /// Which part.
    pub part: Part,
    /// Bending moment there, N·mm, without sign.
    pub moment_n_mm: f64,
    /// Axial force there, N, tension above nought.
    pub axial_n: f64,
    /// Stress there, MPa: of the walls that work ([`Working::stress_mpa`]), or `|N| / A + |M| / S` of all of them where
    /// the yield strength is not known.
    pub stress_mpa: f64,
}

impl Bow {
    /// The bow as it stands (`raise` none) or as it will be.
    ///
    /// Outside faces stand for the members' middles. Sides lean as surveyed; the raise goes straight up, so that the insert
    /// stands upright on the post below the cut. The roof is a circular arc through both drip rails and the crown.
    ///
    /// # Errors
    /// A body too narrow, or heights in an order, that leave no frame.
    pub fn new(
        survey: &Survey,
        raise: Option<&Raise>,
        sections: BowSections,
        feet: Feet,
    ) -> Result<Self, Vec<Problem>> {
        let h = &survey.heights;
        let rise = raise.map_or(0.0, |raise| raise.height_mm);
        let mut left = vec![([-survey.half_width_mm(h.floor_mm), h.floor_mm], Part::Post)];
        if let Some(raise) = raise {
            let half = survey.half_width_mm(raise.cut_mm);
            left.push(([-half, raise.cut_mm], Part::Insert));
            left.push(([-half, raise.cut_mm + rise], Part::Post));
        }
        let (half, drip_mm) = (survey.half_width_mm(h.drip_rail_mm), h.drip_rail_mm + rise);
        let corner = left.len();
        let mut nodes: Vec<[f64; 2]> = left.iter().map(|(node, _)| *node).collect();
        // Each left-hand entry names the part that begins at it.
        let mut parts: Vec<Part> = left.iter().map(|(_, part)| *part).collect();
        nodes.extend(roof_arc(half, drip_mm, h.crown_mm - h.drip_rail_mm));
        parts.extend([Part::Roof; ROOF_PIECES]);
        nodes.extend(left.iter().rev().map(|([x, y], _)| [-x, *y]));
        parts.extend(left.iter().rev().map(|(_, part)| *part));
        let last = nodes.len() - 1;
        let members = parts.iter().enumerate().map(|(from, part)| {
            let section = sections.of(*part).gross;
            Member {
                from,
                to: from + 1,
                area_mm2: section.area_mm2,
                second_moment_mm4: section.ix_mm4,
                modulus_mpa: sections.modulus_mpa,
            }
        });
        let frame = Frame::new(nodes, members.collect(), vec![feet.support(0), feet.support(last)])?;
        Ok(Self { frame, parts, corners: [corner, corner + ROOF_PIECES], sections })
    }

    /// The frame: y is the height above the ground, x to the right seen from behind.
    pub fn frame(&self) -> &Frame {
        &self.frame
    }

    /// Push at the drip rail that sways it by 1 mm, N/mm; `factored` is its frame's ([`Frame::factor`]).
    ///
    /// # Errors
    /// As [`Factored::solve`], whose loads are sound here.
    pub fn sway_stiffness_n_mm(&self, factored: &Factored<'_>) -> Result<f64, Vec<Problem>> {
        let push = Load::Node { node: self.corners[0], x_n: 1000.0, y_n: 0.0, moment_n_mm: 0.0 };
        let solved = factored.solve(&[push])?;
        let sway = |corner: usize| solved.displacements[corner][0];
        Ok(1000.0 / f64::midpoint(sway(self.corners[0]), sway(self.corners[1])))
    }

    /// Load spread evenly over the windward post, N/mm of height, and pushes at both drip rails, N.
    pub fn side_load(&self, post_n_mm: f64, at_drip_rails_n: f64) -> Vec<Load> {
        let nodes = self.frame.nodes_mm();
        let mut loads = Vec::new();
        for (member, own) in self.frame.members().iter().enumerate().take(self.corners[0]) {
            let (from, to) = (nodes[own.from], nodes[own.to]);
            // Pressure acts on the height, a load per length on the member.
            let share = (to[1] - from[1]) / (to[0] - from[0]).hypot(to[1] - from[1]);
            loads.push(Load::whole(member, post_n_mm * share, 0.0));
        }
        for node in self.corners {
            loads.push(Load::Node { node, x_n: 0.5 * at_drip_rails_n, y_n: 0.0, moment_n_mm: 0.0 });
        }
        loads
    }

    /// A load on the roof, N, spread evenly over this width in the middle, mm; over all of it where it is wider.
    pub fn roof_load(&self, load_n: f64, width_mm: f64) -> Vec<Load> {
        let nodes = self.frame.nodes_mm();
        let [left, right] = self.corners;
        let half = (0.5 * width_mm).min(nodes[right][0]);
        let per_mm = load_n / (2.0 * half);
        let mut loads = Vec::new();
        for (i, own) in self.frame.members().iter().enumerate().take(right).skip(left) {
            let (from, to) = (nodes[own.from], nodes[own.to]);
            let run = to[0] - from[0];
            let part = |x: f64| ((x - from[0]) / run).clamp(0.0, 1.0);
            let (start, end) = (part(-half), part(half));
            if end > start {
                // So much per mm across the bus is so much less per mm along a sloped piece.
                let y_n_mm = -per_mm * run / run.hypot(to[1] - from[1]);
                loads.push(Load::Spread { member: i, from: start, to: end, x_n_mm: 0.0, y_n_mm });
            }
        }
        loads
    }

    /// Mean sway of the drip rails, mm.
    pub fn sway_mm(&self, solved: &Solved) -> f64 {
        f64::midpoint(solved.displacements[self.corners[0]][0], solved.displacements[self.corners[1]][0])
    }

    /// How far the crown goes down, mm.
    pub fn crown_down_mm(&self, solved: &Solved) -> f64 {
        -solved.displacements[self.corners[0] + ROOF_PIECES / 2][1]
    }

    /// The largest stress of each part that the bow has, where the moment is largest in a member.
    pub fn stresses(&self, solved: &Solved) -> Vec<PartStress> {
        let mut found: Vec<PartStress> = Vec::new();
        for (part, actions) in self.parts.iter().zip(&solved.members) {
            let section = self.sections.of(*part);
            let here = actions.largest_moment().1;
            let (axial_n, moment_n_mm) = (here.axial_n, here.moment_n_mm.abs());
            let stress_mpa = match section.works {
                Some(works) => works.stress_mpa(axial_n, moment_n_mm),
                None => axial_n.abs() / section.gross.area_mm2 + moment_n_mm / section.gross.sx_mm3,
            };
            let own = PartStress { part: *part, moment_n_mm, axial_n, stress_mpa };
            match found.iter_mut().find(|f| f.part == *part) {
                Some(most) if most.stress_mpa < stress_mpa => *most = own,
                Some(_) => {}
                None => found.push(own),
            }
        }
        found
    }

    /// The largest moment, shear and axial force at the insert's two ends, each by itself; none without an insert.
    pub fn splice_actions(&self, solved: &Solved) -> Option<SpliceActions> {
        let inserts = self.parts.iter().zip(&solved.members).filter(|(part, _)| **part == Part::Insert);
        let ends = inserts.flat_map(|(_, actions)| [actions.at(0.0), actions.at(1.0)]).map(|end| SpliceActions {
            moment_n_mm: end.moment_n_mm.abs(),
            shear_n: end.shear_n.abs(),
            axial_n: end.axial_n.abs(),
        });
        ends.reduce(|a, b| SpliceActions {
            moment_n_mm: a.moment_n_mm.max(b.moment_n_mm),
            shear_n: a.shear_n.max(b.shear_n),
            axial_n: a.axial_n.max(b.axial_n),
        })
    }
}

impl BowSections {
    fn of(&self, part: Part) -> &BowSection {
        match part {
            Part::Post => &self.post,
            Part::Insert => &self.insert,
            Part::Roof => &self.roof,
        }
    }
}

/// Points of the roof bow from the left drip rail to the right: a circular arc of this rise, straight where it has none.
fn roof_arc(half_mm: f64, drip_mm: f64, rise_mm: f64) -> Vec<[f64; 2]> {
    let part = |i: usize| 2.0 * i as f64 / ROOF_PIECES as f64 - 1.0;
    (0..=ROOF_PIECES)
        .map(|i| {
            if rise_mm < 1.0 {
                return [half_mm * part(i), drip_mm];
            }
            // Chord 2 w, rise s: half the opening angle is 2 atan(s / w), the radius (w² + s²) / (2 s).
            let radius = (half_mm * half_mm + rise_mm * rise_mm) / (2.0 * rise_mm);
            let angle = 2.0 * (rise_mm / half_mm).atan() * part(i);
            [radius * angle.sin(), drip_mm + rise_mm - radius * (1.0 - angle.cos())]
        })
        .collect()
}

/// Load that the school-bus roof rule would put on a bus of this unloaded mass, N: 1.5 times its weight, at 9.8 m/s².
///
/// 49 CFR 571.220, S4 (read). A yardstick: no duty after conversion.
pub fn roof_yardstick_n(unloaded_kg: f64) -> f64 {
    1.5 * unloaded_kg * 9.8
}

/// How far a point of the rule's plate may go down, mm. 49 CFR 571.220, S4(a) (read).
pub const ROOF_TRAVEL_MM: f64 = 130.0;

/// Width of the rule's plate, mm: 914 over 4536 kg gross (from memory), else 127 wider than the roof. 49 CFR 571.220, S5.2.
/// Without a gross rating the narrower one, which is the harder on a bow.
pub fn plate_width_mm(gross_kg: Option<f64>, roof_mm: f64) -> f64 {
    match gross_kg {
        Some(kg) if kg <= 4536.0 => roof_mm + 127.0,
        _ => 914.0,
    }
}
