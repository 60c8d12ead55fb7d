//! The new skin in numbers: sheet, layout rules, what lies behind it, trim.

use crate::body::skins::{LapException, Lifting, SeamPolicy, SheetRules};
use crate::body::survey::Survey;
use crate::body::takeoff::{FinishedFace, Grain};
use crate::check::{Standing, significant};
use crate::error::{Problem, by_name};
use crate::mechanics::sheet::{Sheet, SheetOrder};
use crate::quantity::{Kind, Length, Ratio};

use crate::plan::file;

use super::memory::{OfRules, OfShell, OfShop, OfSkin, OfSurvey};
use super::reader::Reader;

/// Thickness of what lies behind the new skin, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) struct Walls {
    /// Drip rail, roof rail, sill and header.
    pub rail_mm: f64,
    /// Old side sheet.
    pub old_side_mm: f64,
    /// Sealant left in a lap once it is pulled together.
    pub sealant_mm: f64,
    /// How they are known.
    pub standing: Standing,
}

/// What is hung with the sheets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) struct Trim {
    /// Tape or adhesive between posts and skin: thickness and width, mm.
    pub bond_mm: Option<(f64, f64)>,
    /// A new drip rail along both sides.
    pub drip_rail: bool,
    /// Channel over the upper edge of windows and doors that stay.
    pub channel: bool,
}

pub(super) fn walls(r: &mut Reader<'_>, file: &OfShell) -> Walls {
    let s = &file.survey;
    let mut wall = |given: Option<Length>, field: &str, key: &str| {
        r.or_fallback(given.map(Length::mm), field, key, (0.3, 10.0), Kind::Length)
    };
    let (rail_mm, rail) = wall(s.rail_wall, "survey.rail_wall", "rail_wall");
    let (old_side_mm, side) = wall(s.old_skin, "survey.old_skin", "old_skin");
    let (sealant_mm, left) = r.fallback("", "lap_sealant", (0.0, 2.0), Kind::Length);
    Walls { rail_mm, old_side_mm, sealant_mm, standing: rail.with(side).with(left) }
}

pub(super) fn trim(r: &mut Reader<'_>, file: &OfShell) -> Trim {
    let k = &file.skin;
    let bond_mm = k.bond.map(|bond| {
        (
            r.length("skin.bond.thickness", bond.thickness, 0.05, 6.0),
            r.length("skin.bond.width", bond.width, 3.0, 150.0),
        )
    });
    Trim { bond_mm, drip_rail: k.drip_rail == file::DripRail::New, channel: k.channel }
}

/// Which way the grain lies, and where the finished face goes.
pub(super) fn faces(r: &mut Reader<'_>, file: &OfShop) -> (Grain, FinishedFace) {
    let grain = file.skin.grain.map(|grain| match grain {
        file::Grain::Level => Grain::Level,
        file::Grain::Upright => Grain::Upright,
        file::Grain::Either => Grain::Either,
    });
    let face = file.skin.finished_face.map(|face| match face {
        file::FinishedFace::Outside => FinishedFace::Outside,
        file::FinishedFace::Inside => FinishedFace::Inside,
        file::FinishedFace::Alike => FinishedFace::Alike,
    });
    let grain = grain.or_else(|| {
        let word = default_word(r, "skin.grain", "grain")?;
        r.keep(by_name("default grain", "way of the grain", &word, &Grain::ALL, Grain::name))
    });
    let face = face.or_else(|| {
        let word = default_word(r, "skin.finished_face", "finished_face")?;
        let all = &FinishedFace::ALL;
        r.keep(by_name("default finished_face", "place of the finished face", &word, all, FinishedFace::name))
    });
    // Without them there is a problem.
    (grain.unwrap_or(Grain::Level), face.unwrap_or(FinishedFace::Alike))
}

fn default_word(r: &mut Reader<'_>, field: &str, key: &str) -> Option<String> {
    r.note(field, key);
    Some(r.keep(r.catalogue.fallback(key))?.value.clone())
}

pub(super) fn skin_sheet(r: &mut Reader<'_>, file: &OfSkin) -> Option<Sheet> {
    let k = &file.skin;
    let order = SheetOrder {
        gauge: k.gauge,
        thickness_mm: k.thickness.map(Length::mm),
        coating: k.coating.clone(),
        grade: k.grade.clone(),
        fy_mpa: k.fy.map(|f| f.mpa()),
        fu_mpa: k.fu.map(|f| f.mpa()),
    };
    let sheet = Sheet::new(&order, r.catalogue, "skin");
    let sheet = r.keep_all(sheet)?;
    if let Some(row) = k.grade.as_deref().and_then(|g| r.catalogue.grade("skin.grade", g).ok()) {
        r.list("skin.grade", &row.name, &row.source, row.standing);
    }
    if let Some(row) = k.coating.as_deref().and_then(|c| r.catalogue.coating("skin.coating", c).ok()) {
        r.list("skin.coating", &row.designation, &row.source, row.standing);
        if r.catalogue.coated_range(&row.standard).is_none() {
            let value = format!("{} at {} mm", row.designation, significant(sheet.thickness_mm));
            let source =
                format!("whether {} covers this thickness was not checked: no range of it is known", row.standard);
            r.list("skin.coating", value, &source, Standing::Assumed);
        }
    }
    Some(sheet)
}

pub(super) fn sheet_rules(
    r: &mut Reader<'_>,
    file: &OfRules,
    survey: Option<&Survey>,
    sheet: Option<&Sheet>,
) -> Option<SheetRules> {
    let (k, d) = (&file.skin, file.fastening.diameter.mm());
    let longest_mm = r.length("skin.largest_sheet.length", k.largest_sheet.length, 300.0, 12_000.0);
    let tallest_mm = r.length("skin.largest_sheet.height", k.largest_sheet.height, 100.0, 4000.0);
    let edge_mm = match file.fastening.edge {
        Some(edge) => r.length("fastening.edge", edge, 3.0, 150.0),
        None => d * r.fallback("fastening.edge", "edge_diameters", (1.0, 20.0), Kind::Ratio).0,
    };
    let h = survey?.heights;
    let lower_edge_mm = match (k.lower_edge, h.rub_rail_mm) {
        (file::LowerEdge::WindowBottom, _) => h.window_bottom_mm,
        (file::LowerEdge::RubRail, Some(z)) => z,
        (file::LowerEdge::RubRail, None) => {
            r.problems.push(Problem::missing("survey.rub_rail", "the skin ends at the rub rail: write its height"));
            return None;
        }
    };
    // Whoever is there can lift; a crew in the plan says how many.
    let people = k.people.or(file.crew.as_ref().map(|crew| crew.people.min(12))).map(f64::from);
    let (people, _) = r.or_fallback(people, "skin.people", "people", (1.0, 12.0), Kind::Ratio);
    let factor = k.lifting_factor.map(Ratio::value);
    let (factor, _) = r.or_fallback(factor, "skin.lifting_factor", "lifting_factor", (0.05, 1.0), Kind::Ratio);
    let policy = match k.seams {
        file::SeamPolicy::Fewest => SeamPolicy::Fewest,
        file::SeamPolicy::Equal => SeamPolicy::Equal,
        file::SeamPolicy::Factory => SeamPolicy::Factory,
    };
    if policy == SeamPolicy::Factory && file.survey.seams.is_none() {
        let fix = "seams are to follow the old ones: list the posts that carry them, such as [1, 4, 7, 10]";
        r.problems.push(Problem::missing("survey.seams", fix));
    }
    let exceptions = k.laps.iter().map(|lap| LapException { over: lap.over.clone(), under: lap.under.clone() });
    Some(SheetRules {
        longest_mm,
        tallest_mm,
        edge_mm,
        lower_edge_mm,
        policy,
        areal_mass_kg_m2: sheet?.areal_mass_kg_m2,
        lifting: Lifting { factor, people: people as usize },
        exceptions: exceptions.collect(),
    })
}

/// For each post whether the old skin has a seam on it.
pub(super) fn factory_seams(r: &mut Reader<'_>, file: &OfSurvey) -> Option<Vec<bool>> {
    let posts = file.survey.windows + 1;
    let mut seams = vec![false; posts as usize];
    for (i, &post) in file.survey.seams.as_ref()?.iter().enumerate() {
        let path = format!("survey.seams[{i}]");
        match (post as usize).checked_sub(1).and_then(|p| seams.get_mut(p)) {
            None => r.problems.push(Problem::out_of_range(path, post, format!("1 to {posts}, from the rear"))),
            Some(true) => r.problems.push(Problem::contradiction(path, post, "this post is named twice")),
            Some(seam) => *seam = true,
        }
    }
    Some(seams)
}
