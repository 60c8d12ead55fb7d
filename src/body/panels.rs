//! Panels of the skin between what holds them: posts, rivet lines, and the bends of end caps.

use super::flatness::Bounds;
use super::raise::{Ends, Raise};
use super::skin_loads::{Zone, Zones};
use super::skins::{EndPanel, Run, STRIP_MM, Sheet, Skins, Wrap, letter};
use super::survey::{Side, Survey};

/// Which part of the skin a panel belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum Part {
    /// A course of a side.
    #[serde(rename = "side")]
    Side,
    /// What fills the rest of a bay beside a door or a window.
    #[serde(rename = "patch")]
    Patch,
    /// What closes an end of the raised part.
    #[serde(rename = "end")]
    End,
}

impl Part {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Side => "side",
            Self::Patch => "patch",
            Self::End => "end",
        }
    }
}

/// Where a panel is.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Place<'a> {
    Bay { run: &'a Run, bay: usize, course: usize },
    Patch(&'a Sheet),
    End { panel: &'a EndPanel, word: &'static str },
}

/// What holds a panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// Its edges, all of which are known.
    By(Bounds),
    /// An edge is not known, or no rule is: what is missing.
    Unknown(&'static str),
}

/// A panel between what holds it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SkinPanel<'a> {
    place: Place<'a>,
    /// Width and height between what holds it, mm; of a triangle those of the rectangle around it, of a bend along the sheet.
    pub size_mm: [f64; 2],
    /// What holds it.
    pub held: Held,
    /// It does not stand upright.
    pub slopes: bool,
    /// Its side; none across an end.
    pub side: Option<Side>,
    /// Its foremost station on a side, mm; none where the air is that of an end.
    foremost_mm: Option<f64>,
}

const TRIANGLE: &str = "a triangle: the rules know rectangles only";
const BENT: &str = "bent round the corner: heat and suction are worked out for flat panels only";
const BESIDE_BEND: &str = "held by a bend along one of its longer edges: how far a bend holds is not known, and there it decides; \
    a post or a line of rivets at the bend would tell";

impl SkinPanel<'_> {
    /// Name: `L-A P3-P4` (side, course from the top, posts), `L-patch 1`, `rear cap, face`.
    pub fn name(&self) -> String {
        match self.place {
            Place::Bay { run, bay, course } => {
                let course = u32::try_from(course).ok().and_then(|i| char::from_u32(u32::from('A') + i)).unwrap_or('?');
                let post = run.first_post + bay + 1;
                format!("{}-{course} P{post}-P{}", letter(run.side), post + 1)
            }
            Place::Patch(sheet) => sheet.id.clone(),
            Place::End { panel, word: "" } => panel.id.clone(),
            Place::End { panel, word } => {
                let side = self.side.map_or_else(String::new, |side| format!(", {}", side.name()));
                format!("{}, {word}{side}", panel.id)
            }
        }
    }

    /// Which part of the skin it belongs to.
    pub fn part(&self) -> Part {
        match self.place {
            Place::Bay { .. } => Part::Side,
            Place::Patch(_) => Part::Patch,
            Place::End { .. } => Part::End,
        }
    }

    /// Course, 0 the top one; none for patches and ends.
    pub fn course(&self) -> Option<usize> {
        match self.place {
            Place::Bay { course, .. } => Some(course),
            _ => None,
        }
    }

    /// The zones of air that it may lie in, as for its rivet lines.
    pub fn zones(&self, zones: &Zones) -> Vec<Zone> {
        match (self.foremost_mm, self.place) {
            (None, Place::End { panel, .. }) => Zones::of_end(panel.front, self.slopes || panel.wrap.is_some()),
            (foremost_mm, _) => vec![zones.on_side(foremost_mm.unwrap_or(f64::INFINITY))],
        }
    }
}

/// Every panel of the raised part: sides, then patches, then ends. `edge_mm` lies between a sheet's edge and its rivet line.
pub fn panels<'a>(survey: &Survey, raise: &Raise, skins: &'a Skins, edge_mm: f64) -> Vec<SkinPanel<'a>> {
    let mut all = Vec::new();
    for run in &skins.runs {
        let posts = survey.posts_mm.get(run.first_post..=run.last_post).unwrap_or_default();
        for (bay, pair) in posts.windows(2).enumerate() {
            let &[rear_mm, front_mm] = pair else { continue };
            for (course, level) in run.lines_mm.windows(2).enumerate() {
                let &[top_mm, bottom_mm] = level else { continue };
                all.push(SkinPanel {
                    place: Place::Bay { run, bay, course },
                    size_mm: [front_mm - rear_mm, top_mm - bottom_mm],
                    held: Held::By(Bounds::Lines),
                    slopes: false,
                    side: Some(run.side),
                    foremost_mm: Some(front_mm),
                });
            }
        }
    }
    for (sheet, patch) in Side::BOTH.into_iter().flat_map(|side| skins.patches(side)) {
        let post = sheet.rear_post().or(sheet.front_post()).and_then(|post| survey.posts_mm.get(post));
        let Some(&post_mm) = post else { continue };
        all.push(SkinPanel {
            place: Place::Patch(sheet),
            size_mm: [(patch.line_mm - post_mm).abs(), patch.lines_mm.1 - patch.lines_mm.0],
            held: Held::By(Bounds::Lines),
            slopes: false,
            side: Some(sheet.side),
            foremost_mm: Some(post_mm.max(patch.line_mm)),
        });
    }
    let sloped = matches!(raise.ends, Ends::Sloped { .. });
    for panel in &skins.ends {
        match &panel.wrap {
            Some(wrap) => all.extend(of_cap(survey, panel, wrap, edge_mm)),
            None => all.push(SkinPanel {
                place: Place::End { panel, word: "" },
                size_mm: [panel.length_mm - 2.0 * edge_mm, panel.height_mm - 2.0 * edge_mm],
                held: panel.taper_mm.map_or(Held::By(Bounds::Lines), |_| Held::Unknown(TRIANGLE)),
                slopes: sloped && panel.side.is_none(),
                side: panel.side,
                foremost_mm: panel.side.map(|_| panel.x_mm + panel.length_mm / 2.0 - edge_mm),
            }),
        }
    }
    all
}

/// The flat on the end face, the bends, and the flats beyond them on the sides.
fn of_cap<'a>(survey: &Survey, panel: &'a EndPanel, wrap: &Wrap, edge_mm: f64) -> Vec<SkinPanel<'a>> {
    let height_mm = wrap.upright_mm - 2.0 * edge_mm;
    let part = |word, width_mm: f64, held, side, foremost_mm| SkinPanel {
        place: Place::End { panel, word },
        size_mm: [width_mm, height_mm],
        held,
        slopes: false,
        side,
        foremost_mm,
    };
    let face_mm = wrap.face_mm.0 - wrap.face_mm.1;
    // Where a bend is one of the longer edges it decides.
    let by_bends =
        |width_mm: f64| if width_mm >= height_mm { Held::By(Bounds::Bends) } else { Held::Unknown(BESIDE_BEND) };
    let face = if wrap.wings.is_empty() { Held::By(Bounds::Lines) } else { by_bends(face_mm) };
    let mut all = vec![part("face", face_mm, face, None, None)];
    for wing in &wrap.wings {
        let side = Some(wing.side);
        all.push(part("bend", wing.arc_mm, Held::Unknown(BENT), side, None));
        if wing.leg_mm() > STRIP_MM {
            let foremost_mm = if panel.front { survey.length_mm - wing.bend_mm } else { wing.reach_mm };
            all.push(part("leg", wing.leg_mm(), by_bends(wing.leg_mm()), side, Some(foremost_mm)));
        }
    }
    all
}
