//! Effective widths of flat walls that buckle before they yield, and the section that is left in bending.
//!
//! All rules here are from memory. They take steel: EN 1993-1-5 has its modulus (210 000 MPa) in the 28.4, AISI S100
//! takes 203 000 MPa (29 500 ksi). Only local buckling is covered: not the buckling of edge stiffeners (lips), not
//! lateral-torsional buckling, shear, shear lag or the crushing of webs. No partial or safety factor is in any number.

use std::f64::consts::PI;
use std::fmt;
use std::str::FromStr;

use super::line::{Flat, Hold, Piece, Point, Profile, Summed, Wall, along, distance, summed};
use super::{Inputs, Properties, STRENGTH_MPA};
use crate::check::Standing;
use crate::error::{Problem, by_name};

/// Greatest width over thickness of a wall held along both edges, in both rules.
pub(super) const MOST_INTERNAL: f64 = 500.0;

/// Whose effective widths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Rule {
    /// EN 1993-1-5:2006, 4.4, Tables 4.1 and 4.2.
    #[default]
    En1993_1_5,
    /// AISI S100-16, Appendix 1 (formerly B2 and B3): Winter's formula.
    AisiS100,
}

impl Rule {
    /// Both.
    pub const ALL: [Self; 2] = [Self::En1993_1_5, Self::AisiS100];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::En1993_1_5 => "EN 1993-1-5",
            Self::AisiS100 => "AISI S100",
        }
    }

    /// The clause of its widths.
    pub fn clause(self, edge: Edge) -> &'static str {
        match (self, edge) {
            (Self::En1993_1_5, Edge::Internal) => "EN 1993-1-5:2006 4.4 and Table 4.1",
            (Self::En1993_1_5, _) => "EN 1993-1-5:2006 4.4 and Table 4.2",
            (Self::AisiS100, Edge::Internal) => "AISI S100-16 Appendix 1, 1.1",
            (Self::AisiS100, _) => "AISI S100-16 Appendix 1, 1.2",
        }
    }

    /// How it is known.
    pub fn standing(self) -> Standing {
        Standing::Memory
    }

    /// The other one.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::En1993_1_5 => Self::AisiS100,
            Self::AisiS100 => Self::En1993_1_5,
        }
    }

    /// The greatest width over thickness and where that is written.
    fn limit(self, edge: Edge, is_web: bool) -> (f64, &'static str) {
        match (self, edge) {
            (Self::En1993_1_5, Edge::Internal) => (MOST_INTERNAL, "EN 1993-1-3 Table 5.1, from memory"),
            (Self::En1993_1_5, _) => (50.0, "EN 1993-1-3 Table 5.1, from memory"),
            (Self::AisiS100, Edge::Internal) if is_web => (200.0, "AISI S100-16 B4.1, from memory"),
            (Self::AisiS100, Edge::Internal) => (MOST_INTERNAL, "AISI S100-16 B4.1, from memory"),
            (Self::AisiS100, _) => (60.0, "AISI S100-16 B4.1, from memory"),
        }
    }
}

impl fmt::Display for Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for Rule {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("method", "method", text, &Self::ALL, Self::name)
    }
}

/// How a flat wall is held along its edges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edge {
    /// Along both.
    Internal,
    /// Along one; the greater compression is at the free edge.
    OutstandTip,
    /// Along one; the greater compression is at the held edge.
    OutstandRoot,
}

impl Edge {
    /// Every one.
    pub const ALL: [Self; 3] = [Self::Internal, Self::OutstandTip, Self::OutstandRoot];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Internal => "internal",
            Self::OutstandTip => "outstand, tip",
            Self::OutstandRoot => "outstand, root",
        }
    }
}

impl FromStr for Edge {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("edge", "edge", text, &Self::ALL, Self::name)
    }
}

/// Below this ratio of stresses the tables end. The wall is then nearly all in tension; the values at the end of the table
/// are kept, which is on the safe side as k goes on rising.
const LEAST_PSI: f64 = -3.0;

/// Buckling factor k of a wall held along both edges, EN 1993-1-5 Table 4.1; `psi` is the stress at the less compressed
/// edge over that at the other, 1 to −3.
pub fn en_internal_k(psi: f64) -> f64 {
    let psi = psi.clamp(LEAST_PSI, 1.0);
    if psi >= 0.0 {
        8.2 / (1.05 + psi)
    } else if psi >= -1.0 {
        7.81 - 6.29 * psi + 9.78 * psi * psi
    } else {
        5.98 * (1.0 - psi).powi(2)
    }
}

/// Buckling factor k of an outstand whose free edge is compressed most, EN 1993-1-5 Table 4.2 and AISI S100; `psi` 1 to −3.
pub fn outstand_tip_k(psi: f64) -> f64 {
    let psi = psi.clamp(LEAST_PSI, 1.0);
    0.57 - 0.21 * psi + 0.07 * psi * psi
}

/// Buckling factor k of an outstand whose held edge is compressed most, EN 1993-1-5 Table 4.2 and AISI S100; `psi` 1 to −1,
/// and that at −1 below.
pub fn outstand_root_k(psi: f64) -> f64 {
    let psi = psi.clamp(-1.0, 1.0);
    if psi >= 0.0 { 0.578 / (psi + 0.34) } else { 1.7 - 5.0 * psi + 17.1 * psi * psi }
}

/// Buckling factor k of a wall held along both edges, AISI S100-16 Appendix 1, 1.1.2.
pub fn us_internal_k(psi: f64) -> f64 {
    let psi = psi.clamp(LEAST_PSI, 1.0);
    4.0 + 2.0 * (1.0 - psi).powi(3) + 2.0 * (1.0 - psi)
}

/// Reduction factor of a wall held along both edges, EN 1993-1-5 (4.2).
pub fn en_internal_rho(lambda: f64, psi: f64) -> f64 {
    let psi = psi.clamp(LEAST_PSI, 1.0);
    if lambda <= 0.5 + (0.085 - 0.055 * psi).sqrt() {
        1.0
    } else {
        ((lambda - 0.055 * (3.0 + psi)) / (lambda * lambda)).min(1.0)
    }
}

/// Reduction factor of an outstand, EN 1993-1-5 (4.3).
pub fn en_outstand_rho(lambda: f64) -> f64 {
    if lambda <= 0.748 { 1.0 } else { ((lambda - 0.188) / (lambda * lambda)).min(1.0) }
}

/// Winter's reduction factor, AISI S100-16 Appendix 1: of walls held along one edge as along both.
pub fn winter_rho(lambda: f64) -> f64 {
    if lambda <= 0.673 { 1.0 } else { ((1.0 - 0.22 / lambda) / lambda).min(1.0) }
}

/// What a rule says of one flat wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateWidth {
    /// Whose rule.
    pub rule: Rule,
    /// How the wall is held.
    pub edge: Edge,
    /// Buckling factor.
    pub k: f64,
    /// Slenderness at this stress: the root of stress over elastic buckling stress.
    pub lambda: f64,
    /// The part that works: of the compressed width by EN 1993-1-5, of the whole width by AISI S100.
    pub rho: f64,
}

/// The effective width of a flat wall, by either rule. `stress_mpa` is the greatest compression on it, at an edge; `psi` the
/// stress at the other edge over it.
///
/// For EN 1993-1-5 lambda = (b / t) / (28.4 epsilon sqrt(k)) with epsilon = sqrt(235 / stress): the reduced slenderness of
/// 4.4(4) with the stress in place of the yield strength. AISI S100: the root of stress over
/// elastic buckling stress.
pub fn plate_width(rule: Rule, edge: Edge, width_mm: f64, thickness_mm: f64, stress_mpa: f64, psi: f64) -> PlateWidth {
    let k = match (rule, edge) {
        (Rule::En1993_1_5, Edge::Internal) => en_internal_k(psi),
        (Rule::AisiS100, Edge::Internal) => us_internal_k(psi),
        (_, Edge::OutstandTip) => outstand_tip_k(psi),
        (_, Edge::OutstandRoot) => outstand_root_k(psi),
    };
    let slender = width_mm / thickness_mm;
    let (lambda, rho);
    match rule {
        Rule::En1993_1_5 => {
            lambda = slender / 28.4 * (stress_mpa / 235.0 / k).sqrt();
            rho = if edge == Edge::Internal { en_internal_rho(lambda, psi) } else { en_outstand_rho(lambda) };
        }
        Rule::AisiS100 => {
            let critical_mpa = k * PI * PI * US_MODULUS_MPA / (12.0 * (1.0 - 0.3 * 0.3)) / slender.powi(2);
            lambda = (stress_mpa / critical_mpa).sqrt();
            rho = winter_rho(lambda);
        }
    }
    PlateWidth { rule, edge, k, lambda, rho }
}

/// 29 500 ksi.
const US_MODULUS_MPA: f64 = 203_000.0;

impl PlateWidth {
    /// Checks a plate's numbers before they are put to [`plate_width`].
    ///
    /// # Errors
    /// A width, thickness, stress or ratio that no wall has, or that is outside every rule.
    pub fn validate(width_mm: f64, thickness_mm: f64, stress_mpa: f64, psi: f64) -> Result<(), Vec<Problem>> {
        let mut inputs = Inputs::new("");
        inputs.within("width", width_mm, (0.1, 2000.0), "mm");
        inputs.within("thickness", thickness_mm, super::WALL_MM, "mm");
        inputs.within("stress", stress_mpa, (0.0, STRENGTH_MPA.1), "MPa");
        inputs.within("psi", psi, (LEAST_PSI, 1.0), "");
        inputs.finish()
    }

    /// Whether the wall is within what the rule covers, and where that is written.
    ///
    /// # Errors
    /// Width over thickness beyond the rule's.
    pub fn in_range(&self, width_mm: f64, thickness_mm: f64, psi: f64, path: &str) -> Result<(), Problem> {
        let (most, written) = self.rule.limit(self.edge, psi < 0.0);
        let slender = width_mm / thickness_mm;
        if slender <= most * (1.0 + 1e-9) {
            return Ok(());
        }
        let allowed = format!("at most {most} times the thickness ({written})");
        Err(Problem::out_of_range(path, format!("b / t = {slender:.1}"), allowed))
    }
}

/// A side of the section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Face {
    /// Away from the skin.
    #[default]
    Away,
    /// The skin's side.
    Skin,
}

impl Face {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Away, Self::Skin];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Away => "away",
            Self::Skin => "skin",
        }
    }
}

impl FromStr for Face {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("compressed", "face", text, &Self::ALL, Self::name)
    }
}

/// A moment about x, by the stress it makes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bending {
    /// Greatest compressive stress, at the mid-line of the wall farthest out on the compressed side, MPa.
    pub stress_mpa: f64,
    /// Yield strength, MPa; the stress cannot be higher.
    pub fy_mpa: f64,
    /// Which side the moment compresses.
    pub compressed: Face,
    /// Whose effective widths.
    pub rule: Rule,
}

/// One compressed wall of an effective section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallWidth {
    /// Index of the wall.
    pub wall: usize,
    /// Width that the rule counts: EN to the middle of the bends, AISI the flat part, mm.
    pub width_mm: f64,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Greatest compression on it, MPa.
    pub stress_mpa: f64,
    /// Stress at the other edge over that.
    pub psi: f64,
    /// By the rule that was asked for.
    pub plate: PlateWidth,
    /// The same wall under the same stresses by the other rule.
    pub beside: PlateWidth,
    /// Width that is left out, mm.
    pub removed_mm: f64,
}

/// What is left of a section in bending about x.
#[derive(Debug, Clone, PartialEq)]
pub struct Effective {
    /// Area, mm2.
    pub area_mm2: f64,
    /// Height of the neutral axis above the outer face on the skin's side, mm.
    pub centroid_mm: f64,
    /// How far the neutral axis moved away from the compressed side, mm.
    pub shift_mm: f64,
    /// Second moment about x, mm4.
    pub ix_mm4: f64,
    /// Elastic modulus at the compressed face, mm3.
    pub sx_compressed_mm3: f64,
    /// Elastic modulus at the face in tension, mm3.
    pub sx_tension_mm3: f64,
    /// Every wall with compression on it.
    pub walls: Vec<WallWidth>,
    /// The section before anything is left out.
    pub gross: Properties,
}

impl Effective {
    /// The smaller of both moduli, mm3.
    pub fn sx_mm3(&self) -> f64 {
        self.sx_compressed_mm3.min(self.sx_tension_mm3)
    }

    /// The walls that do not work in full.
    pub fn reduced(&self) -> impl Iterator<Item = &WallWidth> {
        self.walls.iter().filter(|wall| wall.removed_mm > 0.0)
    }
}

/// What of a section works up to its yield strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Working {
    /// Area when it is pressed evenly, mm2.
    pub area_mm2: f64,
    /// How far the centroid of that area lies from that of the whole section, mm: an axial force bends the section by as
    /// much.
    pub shift_mm: f64,
    /// Elastic modulus about x, the least of both faces with either of them compressed, mm3.
    pub sx_mm3: f64,
}

impl Working {
    /// Stress of an axial force, N, with a moment about x, N·mm: `|N| / A + (|M| + |N| e_N) / S`, MPa.
    ///
    /// EN 1993-1-3:2006 6.1.8 and 6.1.9 with both terms over the yield strength; tension counts like compression, which is
    /// on the safe side.
    pub fn stress_mpa(&self, axial_n: f64, moment_n_mm: f64) -> f64 {
        let axial_n = axial_n.abs();
        axial_n / self.area_mm2 + (moment_n_mm.abs() + axial_n * self.shift_mm) / self.sx_mm3
    }
}

impl Profile {
    /// What is left of the section when a moment about x compresses one side to a stress.
    ///
    /// The section keeps its plane about x (the skin holds it sideways), so stress goes with the distance from the neutral
    /// axis. Each compressed flat wall loses the part that its rule takes for its own stresses; the neutral axis moves
    /// away from it until it is the centroid of what is left (found to a billionth of the depth). Bends count in full, and so
    /// does a strip of skin, whose width is an effective one. Widths: EN 1993-1-3 5.1 from the middles of the bends,
    /// AISI S100 the flat parts; sharp corners from mid-line to mid-line.
    ///
    /// # Errors
    /// A stress above the yield strength; walls wider than the rule covers, bends larger than it covers; a
    /// wall held by less than a 45 degree corner or only by its own lip; a strip with nothing to hold it.
    pub fn effective(&self, bending: &Bending, path: &str) -> Result<Effective, Vec<Problem>> {
        let mut inputs = Inputs::new(path);
        inputs.within("fy", bending.fy_mpa, STRENGTH_MPA, "MPa");
        inputs.within("stress", bending.stress_mpa, (0.1, STRENGTH_MPA.1), "MPa");
        if inputs.problems.is_empty() && bending.stress_mpa > bending.fy_mpa {
            let problem = format!("above the yield strength of {} MPa, up to which the rule goes", bending.fy_mpa);
            inputs.contradiction("stress", format!("{} MPa", bending.stress_mpa), problem);
        }
        inputs.finish()?;

        let gross = summed(&self.pieces());
        let away = if bending.compressed == Face::Away { 1.0 } else { -1.0 };
        // Heights are measured towards the compressed side.
        let ends = || self.pieces_ends().map(|[_, y]| away * y);
        let (outermost, innermost) = (ends().fold(f64::NEG_INFINITY, f64::max), ends().fold(f64::INFINITY, f64::min));
        let start = away * gross.centroid[1];
        if outermost - start < 1e-9 * (outermost - innermost).max(1.0) {
            let problem = "no wall stands off the neutral axis; a flat strip has no depth to bend";
            inputs.contradiction("stress", format!("{} MPa", bending.stress_mpa), problem);
            inputs.finish()?;
        }
        let state = |axis: f64| State { bending, away, outermost, axis: Some(axis) };
        let left = |axis: f64| summed(&self.left(&state(axis)).0);
        // What is left out is always on the compressed side, so the neutral axis moves away from there, but not out of the
        // section.
        let (mut low, mut high) = (innermost, start);
        for _ in 0..80 {
            let middle = 0.5 * (low + high);
            if away * left(middle).centroid[1] > middle { low = middle } else { high = middle }
        }
        let unmoved = away * left(start).centroid[1] >= start - 1e-12 * (outermost - innermost);
        let axis = if unmoved { start } else { high };
        let (pieces, walls) = self.left(&state(axis));
        self.check_range(&mut inputs, &state(axis), &walls);
        inputs.finish()?;

        let Summed { area, centroid, ix, .. } = summed(&pieces);
        let (top, bottom) = (self.reach_mm([0.0, 1.0]), -self.reach_mm([0.0, -1.0]));
        let (above, below) = (ix / (top - centroid[1]), ix / (centroid[1] - bottom));
        let (sx_compressed_mm3, sx_tension_mm3) = if away > 0.0 { (above, below) } else { (below, above) };
        Ok(Effective {
            area_mm2: area,
            centroid_mm: centroid[1] - bottom,
            shift_mm: (start - away * centroid[1]).max(0.0),
            ix_mm4: ix,
            sx_compressed_mm3,
            sx_tension_mm3,
            walls,
            gross: self.properties(),
        })
    }

    /// What is left of the section when it is pressed evenly all over to a stress: its area, mm2, and how far its centroid
    /// moves along y, mm. EN 1993-1-5 4.3(3), its `A_eff` and `e_N`. A wall held along one edge only by an outstand counts as
    /// one held along the other edge only.
    ///
    /// # Errors
    /// As [`Profile::effective`].
    pub fn pressed(&self, stress_mpa: f64, rule: Rule, path: &str) -> Result<(f64, f64), Vec<Problem>> {
        let mut inputs = Inputs::new(path);
        inputs.within("stress", stress_mpa, STRENGTH_MPA, "MPa");
        inputs.finish()?;
        let bending = Bending { stress_mpa, fy_mpa: stress_mpa, compressed: Face::Away, rule };
        let state = State { bending: &bending, away: 1.0, outermost: 0.0, axis: None };
        let (pieces, walls) = self.left(&state);
        self.check_range(&mut inputs, &state, &walls);
        inputs.finish()?;
        let left = summed(&pieces);
        Ok((left.area, left.centroid[1] - summed(&self.pieces()).centroid[1]))
    }

    /// What carries a moment about x of either sign and an axial force, each up to the yield strength.
    ///
    /// # Errors
    /// As [`Profile::effective`].
    pub fn working(&self, fy_mpa: f64, rule: Rule, path: &str) -> Result<Working, Vec<Problem>> {
        let (area_mm2, shift_mm) = self.pressed(fy_mpa, rule, path)?;
        let mut sx_mm3 = f64::INFINITY;
        for compressed in Face::ALL {
            let bending = Bending { stress_mpa: fy_mpa, fy_mpa, compressed, rule };
            sx_mm3 = sx_mm3.min(self.effective(&bending, path)?.sx_mm3());
        }
        Ok(Working { area_mm2, shift_mm: shift_mm.abs(), sx_mm3 })
    }

    /// Whether a web is deeper than four times the flange at its compressed edge, or has no flange there: AISI S100-16
    /// Appendix 1, 1.1.2(b).
    fn deep_web(&self, flat: &Flat, state: &State<'_>) -> bool {
        let Some(web) = self.walls().get(flat.wall) else { return true };
        let node = if state.at(flat.from) >= state.at(flat.to) { web.from } else { web.to };
        let beside =
            self.walls().iter().enumerate().filter(|(i, wall)| *i != flat.wall && [wall.from, wall.to].contains(&node));
        let widest = beside.map(|(_, wall)| self.overall_mm(wall)).fold(0.0, f64::max);
        self.overall_mm(web) > 4.0 * widest
    }

    /// Between the nodes of a wall and a thickness more: out to out where both neighbours stand square to it, mm.
    fn overall_mm(&self, wall: &Wall) -> f64 {
        let at = |node: usize| self.nodes().get(node).map_or([0.0, 0.0], |n| [n.x_mm, n.y_mm]);
        distance(at(wall.from), at(wall.to)) + wall.thickness_mm
    }

    /// The ends of all straight parts, and the farthest points of bends.
    fn pieces_ends(&self) -> impl Iterator<Item = Point> {
        let flats = self.flats.iter().flat_map(|f| [f.from, f.to]);
        let bends = self.bends.iter().flat_map(|b| {
            let on = |angle: f64| along(b.centre, [angle.cos(), angle.sin()], b.radius_mm);
            let upright = [0.5 * PI, 1.5 * PI].into_iter();
            let passed = upright.filter(|a| (a - b.start).rem_euclid(2.0 * PI) <= b.sweep).map(on).collect::<Vec<_>>();
            passed.into_iter().chain([on(b.start), on(b.start + b.sweep)])
        });
        flats.chain(bends).chain(self.skin.iter().flat_map(|s| [s.from, s.to]))
    }

    /// The parts that work under these stresses, and what became of the compressed walls.
    fn left(&self, state: &State<'_>) -> (Vec<Piece>, Vec<WallWidth>) {
        let (mut pieces, mut walls) = (Vec::new(), Vec::new());
        for flat in &self.flats {
            match state.compressed(flat, self.deep_web(flat, state)) {
                Some((width, cut)) => {
                    walls.push(width);
                    pieces.extend(flat.without(cut, width.plate.rule));
                }
                None => pieces.push(Piece::Straight(flat.from, flat.to, flat.thickness_mm)),
            }
        }
        pieces.extend(self.whole_pieces());
        (pieces, walls)
    }

    fn check_range(&self, inputs: &mut Inputs<'_>, state: &State<'_>, walls: &[WallWidth]) {
        let rule = state.bending.rule;
        for flat in &self.flats {
            let name = format!("walls[{}]", flat.wall);
            let width = flat.counted_mm(rule);
            let found = walls.iter().find(|w| w.wall == flat.wall);
            let holds = flat.ends.map(|end| end.hold);
            let shown = format!("{width:.2} mm wide");
            if holds.contains(&Hold::Doubtful) {
                let problem = "it does not meet its neighbour at 45 to 135 degrees, so what holds its edge is not known; \
                               leave out points on flat walls";
                inputs.contradiction(&name, shown, problem);
                continue;
            }
            if holds == [Hold::Free, Hold::Free] {
                inputs.contradiction(&name, shown, "both edges are free; the rules take walls held along one at least");
                continue;
            }
            let internal = !holds.contains(&Hold::Free);
            let on_lips = flat.ends.iter().filter(|end| end.by_outstands).count();
            // One such edge is taken as free where the section is pressed evenly.
            let uncovered = if state.axis.is_none() { on_lips > 1 } else { on_lips > 0 };
            if internal && uncovered && found.is_some_and(|w| w.psi >= 0.0) {
                let problem = "compressed all over and held only by a lip, whose own buckling (EN 1993-1-3 5.5.3) is not \
                               covered here; leave the lip out";
                inputs.contradiction(&name, shown, problem);
                continue;
            }
            let edge = found.map_or(if internal { Edge::Internal } else { Edge::OutstandTip }, |w| w.plate.edge);
            let plate = plate_width(rule, edge, width, flat.thickness_mm, state.bending.stress_mpa, 1.0);
            let is_web = state.at(flat.from) * state.at(flat.to) < 0.0;
            let psi = if is_web { -1.0 } else { 1.0 };
            inputs.problems.extend(plate.in_range(width, flat.thickness_mm, psi, &inputs.field(&name)).err());
        }
        for bend in &self.bends {
            let (inside, t) = (bend.radius_mm - 0.5 * bend.thickness_mm, bend.thickness_mm);
            let (most, written) = match rule {
                Rule::En1993_1_5 => {
                    let most = 0.04 * t * 210_000.0 / state.bending.fy_mpa;
                    (most, format!("0.04 t E / f_y = {most:.2} mm (EN 1993-1-3 5.1(6), from memory)"))
                }
                Rule::AisiS100 => (20.0 * t, format!("20 t = {:.2} mm (AISI S100-16 B4.1, from memory)", 20.0 * t)),
            };
            if inside > most {
                let name = inputs.field(&format!("nodes[{}].radius", bend.node));
                let allowed = format!("an inside radius of at most {written}");
                inputs.problems.push(Problem::out_of_range(name, format!("inside {inside:.2} mm"), allowed));
            }
        }
    }
}

/// Stresses of a moment about a trial neutral axis, or of an even pressure.
struct State<'a> {
    bending: &'a Bending,
    /// +1 where the side away from the skin is compressed, else −1.
    away: f64,
    outermost: f64,
    /// None where the stress is the same all over.
    axis: Option<f64>,
}

/// A part of a wall's counted width, from the end that it starts at, mm.
type Cut = (f64, f64);

impl State<'_> {
    /// Compression, MPa.
    fn at(&self, point: Point) -> f64 {
        let share = self.axis.map_or(1.0, |axis| (self.away * point[1] - axis) / (self.outermost - axis));
        self.bending.stress_mpa * share
    }

    /// What a compressed wall loses; none where it is all in tension.
    fn compressed(&self, flat: &Flat, deep_web: bool) -> Option<(WallWidth, Cut)> {
        let rule = self.bending.rule;
        let width = flat.counted_mm(rule);
        let [from, to] = flat.counted_ends(rule).map(|point| self.at(point));
        let most = from.max(to);
        if most <= 0.0 || width <= 0.0 {
            return None;
        }
        let psi = from.min(to) / most;
        let compressed = if psi < 0.0 { width / (1.0 - psi) } else { width };
        // Pressed evenly, what only a lip holds is taken as free: the lip's own buckling is not worked out.
        let pressed = self.axis.is_none();
        let free = flat.ends.iter().position(|end| end.hold == Hold::Free || (pressed && end.by_outstands));
        let edge = match free {
            None => Edge::Internal,
            // Equal stresses count as greatest at the tip, for which k is smaller.
            Some(0) if from >= to => Edge::OutstandTip,
            Some(1) if to >= from => Edge::OutstandTip,
            Some(_) => Edge::OutstandRoot,
        };
        let by = |rule: Rule| plate_width(rule, edge, flat.counted_mm(rule), flat.thickness_mm, most, psi);
        let plate = by(rule);
        // From the edge with the greatest compression.
        let (start, end) = match (rule, edge) {
            (_, Edge::OutstandTip) => (0.0, self.lost(plate, compressed, width)),
            (_, Edge::OutstandRoot) => (compressed - self.lost(plate, compressed, width), compressed),
            (Rule::En1993_1_5, Edge::Internal) => {
                let works = plate.rho * compressed;
                let near = if psi >= 0.0 { 2.0 / (5.0 - psi) } else { 0.4 };
                (near * works, compressed - (1.0 - near) * works)
            }
            (Rule::AisiS100, Edge::Internal) => {
                // AISI S100-16 Appendix 1, 1.1.2, its psi the ratio of magnitudes.
                let works = plate.rho * width;
                let near = works / (3.0 - psi);
                let far = if deep_web && psi < 0.0 {
                    (works / (1.0 - psi) - near).max(0.0)
                } else if psi < -0.236 {
                    0.5 * works
                } else {
                    works - near
                };
                if plate.rho >= 1.0 { (compressed, compressed) } else { (near, compressed - far) }
            }
        };
        let cut = if end > start { (start, end) } else { (start, start) };
        let wall = WallWidth {
            wall: flat.wall,
            width_mm: width,
            thickness_mm: flat.thickness_mm,
            stress_mpa: most,
            psi,
            plate,
            beside: by(rule.other()),
            removed_mm: cut.1 - cut.0,
        };
        Some((wall, if from >= to { cut } else { (width - cut.1, width - cut.0) }))
    }

    /// Width that an outstand loses of its compressed part.
    fn lost(&self, plate: PlateWidth, compressed_mm: f64, width_mm: f64) -> f64 {
        match self.bending.rule {
            Rule::En1993_1_5 => (1.0 - plate.rho) * compressed_mm,
            // Its factor is for the whole width.
            Rule::AisiS100 => ((1.0 - plate.rho) * width_mm).min(compressed_mm),
        }
    }
}

impl Flat {
    /// How far the counted width goes on beyond the straight part at each end.
    fn beyond_mm(&self, rule: Rule) -> [f64; 2] {
        match rule {
            Rule::En1993_1_5 => self.ends.map(|end| end.beyond_mm),
            Rule::AisiS100 => [0.0, 0.0],
        }
    }

    fn counted_mm(&self, rule: Rule) -> f64 {
        distance(self.from, self.to) + self.beyond_mm(rule).iter().sum::<f64>()
    }

    fn counted_ends(&self, rule: Rule) -> [Point; 2] {
        let length = distance(self.from, self.to);
        if length <= 0.0 {
            return [self.from, self.to];
        }
        let towards = [(self.to[0] - self.from[0]) / length, (self.to[1] - self.from[1]) / length];
        let [before, behind] = self.beyond_mm(rule);
        [along(self.from, towards, -before), along(self.to, towards, behind)]
    }

    /// The straight part without a cut; a cut that reaches into a bend takes the same width beside it.
    fn without(&self, (start, end): Cut, rule: Rule) -> Vec<Piece> {
        let length = distance(self.from, self.to);
        let [before, _] = self.beyond_mm(rule);
        let lost = (end - start).min(length);
        let begin = (start - before).clamp(0.0, length - lost);
        let part = |a: f64, b: f64| {
            let on = |s: f64| [0, 1].map(|i: usize| self.from[i] + (self.to[i] - self.from[i]) * (s / length));
            (b > a).then(|| Piece::Straight(on(a), on(b), self.thickness_mm))
        };
        if lost <= 0.0 {
            return vec![Piece::Straight(self.from, self.to, self.thickness_mm)];
        }
        [part(0.0, begin), part(begin + lost, length)].into_iter().flatten().collect()
    }
}
