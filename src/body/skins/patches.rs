//! Patches that fill the rest of a bay beside a door or the driver's window.

use crate::body::features::{Feature, FeatureKind};
use crate::body::raise::Raise;
use crate::body::survey::{Side, Survey};

use super::{Run, Sheet, SheetRules, letter};

/// What a patch stands beside.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Patch {
    /// Name of what stays.
    pub beside: String,
    /// What stays lies ahead of the patch, not behind it.
    pub ahead: bool,
    /// Its upright rivet line beside what stays, mm forward of the rear face.
    pub line_mm: f64,
    /// Its lower and its upper rivet line, mm above the ground.
    pub lines_mm: (f64, f64),
}

/// Part of a bay beside what stays that takes no patch.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Unpatched {
    /// Name of what stays.
    pub beside: String,
    /// Side.
    pub side: Side,
    /// From there, mm forward of the rear face.
    pub from_mm: f64,
    /// To there, mm.
    pub to_mm: f64,
    /// Why, and what to do.
    pub reason: String,
}

/// Doors, and windows of another height such as the driver's, that stand in this bay above the skin's lower edge.
pub(super) fn in_the_way<'a>(
    survey: &'a Survey,
    rules: &'a SheetRules,
    side: Side,
    window: usize,
) -> impl Iterator<Item = &'a Feature> {
    let h = &survey.heights;
    let (rear_mm, front_mm) = (survey.posts_mm[window], survey.posts_mm[window + 1]);
    survey.features.iter().filter(move |f| {
        f.is_on(side)
            && match f.kind {
                FeatureKind::Door => true,
                FeatureKind::Window => {
                    (f.top_mm - h.window_top_mm).abs() > 1.0 || (f.bottom_mm - h.window_bottom_mm).abs() > 1.0
                }
                _ => false,
            }
            && f.rear_mm < front_mm - 1.0
            && f.front_mm > rear_mm + 1.0
            && f.top_mm > rules.lower_edge_mm
    })
}

/// A patch for each part of a bay that is left open beside what stays by more than an edge distance: from the skin's lower edge
/// up to the sheet above, from the post to the frame of what stays. What takes none is told.
pub(super) fn patches(
    survey: &Survey,
    raise: &Raise,
    rules: &SheetRules,
    runs: &[Run],
) -> (Vec<Sheet>, Vec<Unpatched>) {
    let (mut sheets, mut unpatched): (Vec<Sheet>, Vec<Unpatched>) = (Vec::new(), Vec::new());
    let bays = runs.iter().flat_map(|run| (run.first_post..run.last_post).map(move |window| (run, window)));
    for (run, window) in bays {
        let here: Vec<&Feature> = in_the_way(survey, rules, run.side, window).collect();
        let Some(stays) = here.iter().find(|f| run.above.as_ref() == Some(&f.name)) else { continue };
        let open =
            [(survey.posts_mm[window], stays.rear_mm, true), (stays.front_mm, survey.posts_mm[window + 1], false)];
        for (from_mm, to_mm, ahead) in open.into_iter().filter(|(from, to, _)| to - from > rules.edge_mm) {
            let own: Vec<&Sheet> = sheets.iter().filter(|sheet| sheet.side == run.side).collect();
            let lines_mm = (rules.lower_edge_mm, run.bottom_mm());
            let patch = Patch {
                beside: stays.name.clone(),
                ahead,
                line_mm: if ahead { to_mm - rules.edge_mm } else { from_mm + rules.edge_mm },
                lines_mm,
            };
            let mut sheet = Sheet {
                id: format!("{}-patch {}", letter(run.side), own.len() + 1),
                side: run.side,
                course: run.courses(),
                first_post: window,
                last_post: window + 1,
                // Flush with the frame of what stays, and past the post as any sheet.
                x0_mm: if ahead { from_mm - rules.edge_mm } else { from_mm },
                x1_mm: if ahead { to_mm } else { to_mm + rules.edge_mm },
                z0_mm: lines_mm.0 - rules.edge_mm,
                z1_mm: lines_mm.1 + rules.edge_mm,
                patch: Some(patch),
                mass_kg: 0.0,
                people: 0,
            };
            sheet.mass_kg = sheet.area_m2() * rules.areal_mass_kg_m2;
            sheet.people = rules.lifting.people_for(sheet.mass_kg);
            let kept = raise.window_kept.get(window) == Some(&true);
            let second = here.iter().find(|f| f.name != stays.name && f.rear_mm < to_mm && f.front_mm > from_mm);
            match why_not(rules, &sheet, (from_mm, to_mm), kept, second.map(|f| f.name.as_str())) {
                None => sheets.push(sheet),
                Some(reason) => {
                    unpatched.push(Unpatched { beside: stays.name.clone(), side: run.side, from_mm, to_mm, reason });
                }
            }
        }
    }
    (sheets, unpatched)
}

fn why_not(
    rules: &SheetRules,
    sheet: &Sheet,
    (from_mm, to_mm): (f64, f64),
    kept: bool,
    second: Option<&str>,
) -> Option<String> {
    let (open_mm, edge_mm) = (to_mm - from_mm, rules.edge_mm);
    let up_mm = sheet.height_mm() - 2.0 * edge_mm;
    if kept {
        return Some(
            "its bay keeps a window too, so that what fills the rest is not known: take the window off \
             raise.windows_kept, or measure what stays again"
                .to_owned(),
        );
    }
    if let Some(name) = second {
        return Some(format!(
            "{name} stands there too: frame between both, and cut what lies over the lower one by hand"
        ));
    }
    // A row of rivets on the post and one beside the frame, an edge distance apart at least.
    if open_mm < 2.0 * edge_mm {
        return Some(format!(
            "narrower than two edge distances of {edge_mm:.1} mm, it takes no row of rivets of its own: cover it with trim, or \
             bring the frame to the post"
        ));
    }
    if up_mm < 2.0 * edge_mm {
        return Some(format!(
            "lower than two edge distances of {edge_mm:.1} mm, it takes no row of rivets of its own: cover it with trim, or \
             choose another skin.lower_edge"
        ));
    }
    if sheet.height_mm() > rules.tallest_mm {
        return Some(format!(
            "a patch needs {:.0} mm up the side, more than skin.largest_sheet.height: buy taller sheet",
            sheet.height_mm()
        ));
    }
    (sheet.people > rules.lifting.people)
        .then(|| format!("a patch weighs {:.0} kg, more than skin.people may lift: bring more people", sheet.mass_kg))
}
