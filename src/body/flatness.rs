//! How a panel of skin lies between its posts when it is warmer or colder than they are: in tension, flat, or in a bulge that
//! snaps through (it oil-cans); and what would keep it flat.
//!
//! What counts is skin less frame now, less the same on the day of hanging. Every answer is a range: edges free to turn to
//! clamped, the frame holding the least to the most of what the sheet would grow.

use crate::error::Problem;
use crate::mechanics::panel::{
    Bowing, EXPANSION_PER_K, Edges, Heated, LONGEST, Panel, RADIUS_MM, Restraint, SIDE_MM, TEST_SHARE, THIN_SHELL,
    flat_line_force_n_mm, mismatch_strain, shell_stress_mpa, skin_over_frame_k,
};

/// Greatest bow over the shorter side that is told: beyond it the slopes are no longer moderate.
const STEEPEST: f64 = 0.1;

/// The metal of a skin.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Metal {
    /// Without its coating, mm.
    pub thickness_mm: f64,
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Thermal expansion, 1/K.
    pub expansion_per_k: f64,
}

impl Metal {
    fn panel(&self, [a_mm, b_mm]: [f64; 2], edges: Edges) -> Panel {
        let Self { thickness_mm, modulus_mpa, poisson, .. } = *self;
        Panel { a_mm, b_mm, thickness_mm, modulus_mpa, poisson, edges, radius_mm: None }
    }

    /// Pull (below nought) or push across a line of a sheet that is held both ways and stays flat, N/mm.
    pub fn flat_force_n_mm(&self, rise_k: f64) -> f64 {
        let square = self.panel([SIDE_MM.1, SIDE_MM.1], Edges::Simple);
        flat_line_force_n_mm(&square, Restraint::BothWays, self.expansion_per_k, rise_k)
    }
}

/// How warm skin and frame are at one time, °C.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Warmth {
    /// The skin.
    pub skin_deg_c: f64,
    /// The frame behind it.
    pub frame_deg_c: f64,
}

/// Skin over frame since the day of hanging, K: what works on the sheet where its frame holds it wholly.
pub fn rise_k(metal: &Metal, frame_expansion_per_k: f64, now: Warmth, hung: Warmth) -> f64 {
    let skin = (metal.expansion_per_k, now.skin_deg_c - hung.skin_deg_c);
    let frame = (frame_expansion_per_k, now.frame_deg_c - hung.frame_deg_c);
    skin_over_frame_k(mismatch_strain(skin, frame), 0.0, metal.expansion_per_k)
}

/// How much warmer than its frame a sheet is hung so that later it is no more than `allowed_k` over it, K; below nought it may
/// hang that much colder.
pub fn hang_over_frame_k(
    metal: &Metal,
    frame_expansion_per_k: f64,
    now: Warmth,
    frame_hung_deg_c: f64,
    allowed_k: f64,
) -> f64 {
    let grown_k = frame_expansion_per_k / metal.expansion_per_k * (now.frame_deg_c - frame_hung_deg_c);
    now.skin_deg_c - allowed_k - grown_k - frame_hung_deg_c
}

/// How much of what a sheet would grow its frame holds: 0 none, 1 all.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Hold {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
}

/// What bounds a panel upright, at its ends; above and below lie rivet lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Bounds {
    /// Posts or rivet lines.
    #[serde(rename = "lines")]
    Lines,
    /// Bends of a cap, or a bend and a seam: a bend holds the flat between not at all and as a clamp does.
    #[serde(rename = "bends")]
    Bends,
}

impl Bounds {
    /// The size as it counts where edges are free to turn: past bends that do not hold, a strip without end. Width, height, mm.
    fn free_mm(self, [width_mm, height_mm]: [f64; 2]) -> [f64; 2] {
        match self {
            Self::Lines => [width_mm, height_mm],
            Self::Bends => [SIDE_MM.1, height_mm],
        }
    }
}

/// How a panel lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum Lies {
    /// Pulled tight, however its edges are held.
    #[serde(rename = "in tension")]
    Tension,
    /// Pressed, but flat even with edges free to turn and a frame that holds it the most.
    #[serde(rename = "flat")]
    Flat,
    /// Flat only where its edges are clamped.
    #[serde(rename = "may oil-can")]
    MayBuckle,
    /// Buckled where its frame holds it the most, even with clamped edges.
    #[serde(rename = "oil-cans where held")]
    Buckles,
}

impl Lies {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Tension => "in tension",
            Self::Flat => "flat",
            Self::MayBuckle => "may oil-can",
            Self::Buckles => "oil-cans where held",
        }
    }
}

/// A panel at one time: each pair is the least and the most.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Lying {
    /// Skin over frame since hanging, K.
    pub rise_k: f64,
    /// How it lies.
    pub lies: Lies,
    /// Skin over frame at which it buckles where the frame holds it the most, K: edges simple, clamped.
    pub critical_k: (f64, f64),
    /// How far it bows, mm, as a long strip of its shorter side does: a squarer panel bows up to a tenth less.
    pub bow_mm: (f64, f64),
    /// What crosses a rivet line, N per mm of it: pull in tension, push otherwise. After buckling the true one lies between.
    pub line_n_mm: (f64, f64),
}

/// How a panel of this size lies at a rise; `edges` are those between which its own are.
///
/// # Errors
/// A size, sheet or rise outside the rules; a bow too steep for them.
pub fn lying(
    size_mm: [f64; 2],
    metal: &Metal,
    hold: Hold,
    rise_k: f64,
    edges: &[Edges],
) -> Result<Lying, Vec<Problem>> {
    lying_within(size_mm, Bounds::Lines, metal, hold, rise_k, edges)
}

/// The same of a panel that bends may bound; its height is then no more than its width.
///
/// # Errors
/// As [`lying`].
pub fn lying_within(
    size_mm: [f64; 2],
    bounds: Bounds,
    metal: &Metal,
    hold: Hold,
    rise_k: f64,
    edges: &[Edges],
) -> Result<Lying, Vec<Problem>> {
    let mut all: Vec<(Heated, f64)> = Vec::with_capacity(4);
    for &own in edges {
        let panel = metal.panel(if own == Edges::Simple { bounds.free_mm(size_mm) } else { size_mm }, own);
        panel.validate()?;
        for share in [hold.least, hold.most] {
            let heated = panel.heated(Restraint::BothWays, metal.expansion_per_k, share * rise_k)?;
            all.push((heated, share));
        }
    }
    let span = |values: &dyn Fn(&(Heated, f64)) -> f64| {
        all.iter().map(values).fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| (a.min(v), b.max(v)))
    };
    let critical = span(&|(heated, _)| heated.critical_rise_k);
    let bow_mm = span(&|(heated, _)| heated.strip_bow_mm.unwrap_or(0.0));
    let (least, most) = (span(&|(h, _)| h.line_force_n_mm.abs()).0, span(&|(h, _)| h.flat_force_n_mm.abs()).1);
    let short_mm = size_mm[0].min(size_mm[1]);
    if bow_mm.1 > STEEPEST * short_mm {
        let allowed = format!("up to {:.1} mm, a tenth of the shorter side", STEEPEST * short_mm);
        return Err(vec![Problem::out_of_range("bow", format!("{:.1} mm", bow_mm.1), allowed)]);
    }
    let critical_k = (critical.0 / hold.most, critical.1 / hold.most);
    let lies = match rise_k {
        rise if rise <= 0.0 => Lies::Tension,
        rise if rise <= critical_k.0 => Lies::Flat,
        rise if rise <= critical_k.1 => Lies::MayBuckle,
        _ => Lies::Buckles,
    };
    Ok(Lying { rise_k, lies, critical_k, bow_mm, line_n_mm: (least, most) })
}

/// Shorter side at which a panel of the same shape stays flat at a rise, mm: edges simple, clamped. The critical rise goes
/// with `(t/b)²`.
pub fn flat_side_mm(short_mm: f64, lying: &Lying) -> Option<(f64, f64)> {
    let side = |critical_k: f64| short_mm * (critical_k / lying.rise_k).sqrt();
    (lying.rise_k > 0.0).then(|| (side(lying.critical_k.0), side(lying.critical_k.1)))
}

/// Radius of a crown that keeps a panel from buckling along the axis of its curve, mm: by the lowest and the highest of tests.
///
/// The wanted stress is `E α ΔT` along the axis; the shell buckles at `E t/(R √(3 (1 - ν²)))`, of which tests leave 0.2 to 0.6
/// where `R/t` is above 500. The arc itself is taken to give way across. None without a push, or beyond the rules' radii.
pub fn crown_radius_mm(short_mm: f64, metal: &Metal, rise_k: f64) -> Option<(f64, f64)> {
    let stress_mpa = metal.modulus_mpa * metal.expansion_per_k * rise_k;
    if stress_mpa <= 0.0 {
        return None;
    }
    let whole_mm = shell_stress_mpa(&metal.panel([SIDE_MM.1, short_mm], Edges::Simple), 1.0) / stress_mpa;
    let thin_mm = THIN_SHELL * metal.thickness_mm;
    let radius_mm = |share: f64| if share * whole_mm > thin_mm { share * whole_mm } else { whole_mm.min(thin_mm) };
    let (least, most) = (radius_mm(TEST_SHARE.0), radius_mm(TEST_SHARE.1));
    // An arc over its chord is no more than a half circle.
    let told = least >= RADIUS_MM.0.max(short_mm / 2.0) && most <= RADIUS_MM.1;
    told.then_some((least, most))
}

/// Height of an arc over its chord, mm: `c²/(8 R)` for a flat arc, exact `R - √(R² - c²/4)`; none where the chord is wider.
pub fn crown_rise_mm(chord_mm: f64, radius_mm: f64) -> Option<f64> {
    let half = chord_mm / 2.0;
    (half <= radius_mm).then(|| half * half / (radius_mm + (radius_mm * radius_mm - half * half).sqrt()))
}

/// First natural frequency with simple and with clamped edges, Hz.
///
/// # Errors
/// A size, sheet or mass outside the rules.
pub fn drumming_hz(
    size_mm: [f64; 2],
    bounds: Bounds,
    metal: &Metal,
    areal_mass_kg_m2: f64,
) -> Result<(f64, f64), Vec<Problem>> {
    let tone = |size_mm, edges| {
        let panel = metal.panel(size_mm, edges);
        panel.validate()?;
        Ok::<f64, Vec<Problem>>(panel.drumming(areal_mass_kg_m2)?.frequency_hz)
    };
    Ok((tone(bounds.free_mm(size_mm), Edges::Simple)?, tone(size_mm, Edges::Clamped)?))
}

/// How far panels of one size bow under suction: least with clamped edges and the frame holding the most of what the sheet would
/// draw in, most with edges free to turn and the frame holding the least.
#[derive(Debug, Clone, PartialEq)]
pub struct SuctionBows {
    least: Result<(Panel, Bowing), Vec<Problem>>,
    most: Result<(Panel, Bowing), Vec<Problem>>,
}

impl SuctionBows {
    /// The series of a size; costly to make, quick to ask.
    pub fn new(size_mm: [f64; 2], bounds: Bounds, metal: &Metal, hold: Hold) -> Self {
        let series = |panel: Panel, share: f64| {
            panel.validate()?;
            let bowing = panel.bowing()?;
            Ok((panel, if share < 1.0 { bowing.giving(share)? } else { bowing }))
        };
        let short_mm = size_mm[0].min(size_mm[1]);
        // A panel too long for the series bows no less than a shorter one; as a strip, no more.
        let shorter_mm =
            if hold.most < 1.0 { size_mm.map(|mm| mm.min(LONGEST * short_mm * (1.0 - 1e-12))) } else { size_mm };
        Self {
            least: series(metal.panel(shorter_mm, Edges::Clamped), hold.most),
            most: series(metal.panel(bounds.free_mm(size_mm), Edges::Simple), hold.least),
        }
    }

    /// The least and the most under a suction, mm, skin neither warmer nor colder than it was hung; each by itself may be outside
    /// the rules.
    pub fn at(&self, suction_pa: f64) -> [Result<f64, Vec<Problem>>; 2] {
        [&self.least, &self.most].map(|own| {
            let (panel, bowing) = own.as_ref().map_err(Clone::clone)?;
            // 1 Pa = 1e-6 MPa; no warmth, so that its expansion does not count.
            let warmth = (f64::midpoint(EXPANSION_PER_K.0, EXPANSION_PER_K.1), 0.0);
            Ok(bowing.bow(panel, suction_pa * 1e-6, warmth)?.bow_mm)
        })
    }
}
