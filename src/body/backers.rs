//! Tube that is framed in behind the edges of new sheet.

use super::raise::{Ends, Raise};
use super::skins::{EndPanel, Patch, STRIP_MM, Sheet, SheetRules, Skins, Wrap, structure_mm};
use super::survey::{Side, Survey};

/// A piece of framing behind a sheet edge that has no structure behind it.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Backer {
    /// What it backs.
    pub behind: String,
    /// Side; none across the bus.
    pub side: Option<Side>,
    /// Its rear end, or its left one across the bus, mm forward of the rear face or left of the middle; round the corners of a cap
    /// along the sheet.
    pub from_mm: f64,
    /// Its height above the ground, mm; of a sloping or an upright one the middle.
    pub z_mm: f64,
    /// Length, mm.
    pub length_mm: f64,
}

/// Framing wherever a sheet edge has no structure behind it: from post to post behind a course seam or a lower edge at
/// another height than a rail's, across the body behind both edges of each end panel, along slopes, and upright beside an opening
/// that a patch stands at and behind a cap's seam.
pub(super) fn backers(survey: &Survey, raise: &Raise, skins: &Skins, rules: &SheetRules) -> Vec<Backer> {
    let mut pieces = Vec::new();
    let structure_mm = structure_mm(survey, raise);
    for run in &skins.runs {
        let last = run.courses();
        for (level, &z_mm) in run.lines_mm.iter().enumerate() {
            // What stays below has a frame of its own.
            let framed = level == last && run.above.is_some();
            if framed || structure_mm.iter().any(|z| (z - z_mm).abs() < 1.0) {
                continue;
            }
            let what = if level == last { "lower edge" } else { "course seam" };
            for post in run.first_post..run.last_post {
                let (from_mm, to_mm) = (survey.posts_mm[post], survey.posts_mm[post + 1]);
                pieces.push(Backer {
                    behind: format!("{what}, window {}", post + 1),
                    side: Some(run.side),
                    from_mm,
                    z_mm,
                    length_mm: to_mm - from_mm,
                });
            }
        }
    }
    for side in Side::BOTH {
        for (sheet, patch) in skins.patches(side) {
            pieces.extend(patch_backers(&structure_mm, rules, sheet, patch));
        }
    }
    for end in &skins.ends {
        if let Some(wrap) = &end.wrap {
            pieces.extend(cap_backers(survey, raise, rules, (end, wrap), &structure_mm));
        }
    }
    for end in skins.ends.iter().filter(|e| e.taper_mm.is_none() && e.wrap.is_none()) {
        let length_mm = end.length_mm - 2.0 * rules.edge_mm;
        let middle_mm = if end.side.is_some() { end.x_mm } else { end.y_mm };
        for (word, up) in [("upper", 0.5), ("lower", -0.5)] {
            let z_mm = end.z_mm + up * raise.height_mm;
            // On a side the roof's rail runs on behind it.
            if end.side.is_some() && structure_mm.iter().any(|z| (z - z_mm).abs() < 1.0) {
                continue;
            }
            pieces.push(Backer {
                behind: format!("{}, {word} edge", end.id),
                side: end.side,
                from_mm: middle_mm - 0.5 * length_mm,
                z_mm,
                length_mm,
            });
        }
    }
    if let Ends::Sloped { run_mm } = raise.ends {
        for cheek in skins.ends.iter().filter(|e| e.taper_mm.is_some()) {
            pieces.push(Backer {
                behind: format!("{}, along the slope", cheek.id),
                side: cheek.side,
                from_mm: cheek.x_mm,
                z_mm: cheek.z_mm,
                length_mm: raise.height_mm.hypot(run_mm),
            });
        }
    }
    pieces
}

/// An upright beside the opening, and what lies level behind a patch's edges where no rail does.
fn patch_backers(structure_mm: &[f64], rules: &SheetRules, sheet: &Sheet, patch: &Patch) -> Vec<Backer> {
    let (low_mm, high_mm) = patch.lines_mm;
    let piece = |what: &str, from_mm: f64, z_mm: f64, length_mm: f64| Backer {
        behind: format!("{}, {what}", sheet.id),
        side: Some(sheet.side),
        from_mm,
        z_mm,
        length_mm,
    };
    let upright = format!("upright beside {}", patch.beside);
    let mut pieces = vec![piece(&upright, patch.line_mm, f64::midpoint(low_mm, high_mm), high_mm - low_mm)];
    // From the post to the frame of what stays.
    let (from_mm, length_mm) = (sheet.x0_mm, sheet.length_mm() - rules.edge_mm);
    let from_mm = from_mm + if patch.ahead { rules.edge_mm } else { 0.0 };
    for (what, z_mm) in [("upper edge", high_mm), ("lower edge", low_mm)] {
        if !structure_mm.iter().any(|z| (z - z_mm).abs() < 1.0) {
            pieces.push(piece(what, from_mm, z_mm, length_mm));
        }
    }
    pieces
}

/// What lies behind a cap: tube bent round its corners and straight along its sides, upright behind a seam or where it ends short
/// of the post.
fn cap_backers(
    survey: &Survey,
    raise: &Raise,
    rules: &SheetRules,
    (end, wrap): (&EndPanel, &Wrap),
    structure_mm: &[f64],
) -> Vec<Backer> {
    let (low_mm, high_mm) = (end.edges_mm().0 + rules.edge_mm, end.edges_mm().1 - rules.edge_mm);
    let piece = |what: String, side, from_mm: f64, z_mm: f64, length_mm: f64| Backer {
        behind: format!("{}, {what}", end.id),
        side,
        from_mm,
        z_mm,
        length_mm,
    };
    let (left_mm, right_mm) = wrap.round_mm();
    let mut pieces = Vec::new();
    for (word, z_mm) in [("upper", high_mm), ("lower", low_mm)] {
        let what = format!("{word} edge, bent round the corner");
        pieces.push(piece(what, None, left_mm, z_mm, left_mm - right_mm));
        // On a side the roof's rail runs on behind it.
        if structure_mm.iter().any(|z| (z - z_mm).abs() < 1.0) {
            continue;
        }
        for wing in wrap.wings.iter().filter(|wing| wing.leg_mm() > STRIP_MM) {
            let from_mm = if end.front { survey.length_mm - wing.reach_mm } else { wing.bend_mm };
            pieces.push(piece(format!("{word} edge, on the side"), Some(wing.side), from_mm, z_mm, wing.leg_mm()));
        }
    }
    let (middle_mm, upright_mm) = (f64::midpoint(low_mm, high_mm), high_mm - low_mm);
    let post_mm = survey.posts_mm[if end.front { raise.last_post } else { raise.first_post }];
    for wing in &wrap.wings {
        let x_mm = if end.front { survey.length_mm - wing.reach_mm } else { wing.reach_mm };
        if (x_mm - post_mm).abs() > STRIP_MM {
            pieces.push(piece("upright at its end".to_owned(), Some(wing.side), x_mm, middle_mm, upright_mm));
        }
    }
    if wrap.wing(Side::Right).is_none() {
        pieces.push(piece("upright at the seam".to_owned(), None, wrap.face_mm.1, middle_mm, upright_mm));
    }
    pieces
}
