//! The body as measured: posts along it, heights up it, and the contradictions a survey can hold.

use crate::error::{Problem, by_name};

use super::features::Feature;
use super::outline::CrossSection;

/// A side of the bus as seen facing forward.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// Left, y positive.
    Left,
    /// Right, y negative.
    Right,
}

impl Side {
    /// Both, left first.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    /// +1 to the left, -1 to the right.
    pub fn sign(self) -> f64 {
        match self {
            Self::Left => 1.0,
            Self::Right => -1.0,
        }
    }
}

impl std::str::FromStr for Side {
    type Err = Problem;

    fn from_str(name: &str) -> Result<Self, Problem> {
        by_name("side", "side", name, &Self::BOTH, Self::name)
    }
}

/// Heights above the ground, mm.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Heights {
    /// Top of the floor.
    pub floor_mm: f64,
    /// Rub rail below the windows.
    pub rub_rail_mm: Option<f64>,
    /// Lower edge of the window openings.
    pub window_bottom_mm: f64,
    /// Upper edge of the window openings.
    pub window_top_mm: f64,
    /// Drip rail.
    pub drip_rail_mm: f64,
    /// Roof at its highest, without fittings.
    pub crown_mm: f64,
    /// Highest fixed part.
    pub overall_mm: f64,
}

/// The body as measured.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Survey {
    /// Rear face to front face, mm.
    pub length_mm: f64,
    /// Outside width, mm.
    pub width_mm: f64,
    /// Post stations forward of the rear face, mm, rear to front.
    pub posts_mm: Vec<f64>,
    /// For each post whether the old skin has a seam on it; none where that was not taken down.
    pub factory_seams: Option<Vec<bool>>,
    /// Heights.
    pub heights: Heights,
    /// Floor to ceiling inside, mm.
    pub inside_height_mm: f64,
    /// How far the left and the right side lean in per mm of height above the window bottom; none where the outline is a
    /// chain.
    pub leans: Option<[f64; 2]>,
    /// The cross-section before the raise.
    pub section: CrossSection,
    /// What is fixed to the body or let into it.
    pub features: Vec<Feature>,
}

/// Stations of the posts from the rear face, mm: usual spacing with exceptions by window (counted from 1 at the rear).
///
/// # Errors
/// A window that does not exist or is named twice; a row of posts that runs beyond the body or does not close on it.
pub fn post_stations(
    length_mm: f64,
    first_post_mm: f64,
    windows: u32,
    spacing_mm: f64,
    exceptions: &[(u32, f64)],
    closing: Option<(f64, f64)>,
) -> Result<Vec<f64>, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut gaps = vec![spacing_mm; windows as usize];
    let mut seen = vec![false; windows as usize];
    for (i, &(window, gap)) in exceptions.iter().enumerate() {
        let path = format!("survey.exceptions[{i}].window");
        match (window as usize).checked_sub(1).filter(|w| *w < gaps.len()) {
            None => {
                problems.push(Problem::out_of_range(path, window, format!("1 to {windows}, counted from the rear")));
            }
            Some(w) if seen[w] => problems.push(Problem::contradiction(path, window, "this window is named twice")),
            Some(w) => {
                seen[w] = true;
                gaps[w] = gap;
            }
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut posts = vec![first_post_mm];
    for gap in gaps {
        posts.push(posts[posts.len() - 1] + gap);
    }
    let last_mm = posts[posts.len() - 1];
    if last_mm > length_mm {
        problems.push(Problem::contradiction(
            "survey.post_spacing",
            format!("{windows} windows end at {last_mm:.0} mm"),
            format!("the body is only {length_mm:.0} mm long; check the window count, the spacing and its exceptions"),
        ));
    } else if let Some((to_front_mm, tolerance_mm)) = closing {
        let open_mm = length_mm - last_mm - to_front_mm;
        if open_mm.abs() > tolerance_mm {
            problems.push(Problem::contradiction(
                "survey.last_post_to_front",
                format!("{to_front_mm:.0} mm"),
                format!(
                    "the posts do not close on the body length by {open_mm:+.0} mm, more than the tape's error of \
                     {tolerance_mm:.0} mm; tape the post spacings again"
                ),
            ));
        }
    }
    if problems.is_empty() { Ok(posts) } else { Err(problems) }
}

impl Survey {
    /// Half the body's width at a height, mm, as it stands before the raise: the mean of both sides.
    pub fn half_width_mm(&self, z_mm: f64) -> f64 {
        f64::midpoint(self.half_width_on_mm(Side::Left, z_mm), self.half_width_on_mm(Side::Right, z_mm))
    }

    /// Distance from the centre line to a side at a height, mm, as it stands before the raise. A lean goes on above the
    /// drip rail, where the cross-section has its roof.
    pub fn half_width_on_mm(&self, side: Side, z_mm: f64) -> f64 {
        let Some([left, right]) = self.leans else { return self.section.half(side).half_width_mm(z_mm) };
        let lean = if side == Side::Left { left } else { right };
        let rise = (z_mm - self.heights.window_bottom_mm).max(0.0);
        (self.width_mm / 2.0 - lean * rise).max(0.0)
    }
}

impl Heights {
    /// Problems with the order of heights; empty where they stand in order.
    pub fn problems(&self, inside_height_mm: f64) -> Vec<Problem> {
        let h = self;
        let rub = h.rub_rail_mm.map(|z| ("survey.rub_rail", z));
        let order: Vec<(&str, f64)> = [Some(("survey.floor", h.floor_mm)), None]
            .into_iter()
            .chain([
                Some(("survey.window_bottom", h.window_bottom_mm)),
                Some(("survey.window_top", h.window_top_mm)),
                Some(("survey.drip_rail", h.drip_rail_mm)),
                Some(("survey.crown", h.crown_mm)),
                Some(("vehicle.overall_height", h.overall_mm)),
            ])
            .flatten()
            .collect();
        let mut problems: Vec<Problem> = order
            .windows(2)
            .filter(|pair| pair[1].1 < pair[0].1 || (pair[1].1 <= pair[0].1 && pair[1].0 != "vehicle.overall_height"))
            .map(|pair| {
                Problem::contradiction(
                    pair[1].0,
                    format!("{:.0} mm", pair[1].1),
                    format!("must lie above {} at {:.0} mm; heights are taken from the ground", pair[0].0, pair[0].1),
                )
            })
            .collect();
        if let Some((path, z)) = rub
            && z >= h.window_bottom_mm
        {
            problems.push(Problem::contradiction(
                path,
                format!("{z:.0} mm"),
                format!("must lie below survey.window_bottom at {:.0} mm", h.window_bottom_mm),
            ));
        }
        let inside_top_mm = h.floor_mm + inside_height_mm;
        if inside_top_mm > h.crown_mm {
            problems.push(Problem::contradiction(
                "survey.inside_height",
                format!("{inside_height_mm:.0} mm"),
                format!(
                    "floor and inside height reach {inside_top_mm:.0} mm, above the roof's crown at {:.0} mm",
                    h.crown_mm
                ),
            ));
        }
        problems
    }
}
