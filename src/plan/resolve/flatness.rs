//! Temperatures of skin and frame in numbers.

use crate::body::flatness::{Hold, Metal, Warmth};
use crate::check::Standing;
use crate::error::Problem;
use crate::mechanics::panel::{Attitude, OUTSIDE_FILM_W_M2_K, sol_air_deg_c};
use crate::mechanics::sheet::{Sheet, SheetOrder};
use crate::plan::file::{self, Flatness};
use crate::quantity::{Irradiance, Kind, Ratio, Temperature};

use super::Assumption;
use super::memory::OfFlatness;
use super::reader::Reader;

/// What the flatness of the skins is worked out with.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct FlatnessPlan {
    pub metal: Metal,
    pub frame_expansion_per_k: f64,
    pub hot: Warmth,
    pub cold: Warmth,
    pub hung: Warmth,
    /// The day of hanging is in the plan.
    pub hung_given: bool,
    pub hold: Hold,
    /// The next heavier gauge of the same sheet, and its number.
    pub heavier: Option<(u32, Sheet)>,
    /// Greatest bow that the planner accepts, mm.
    pub most_bow_mm: Option<f64>,
    pub standing: Standing,
}

const AIR_DEG_C: (f64, f64) = (-60.0, 60.0);
const METAL_DEG_C: (f64, f64) = (-60.0, 120.0);

pub(super) fn flatness(r: &mut Reader<'_>, file: &OfFlatness, sheet: Option<&Sheet>) -> Option<FlatnessPlan> {
    let own = &file.flatness;
    exclusive(r, own);
    let mut standing = Standing::Memory;
    let (hot, cold) = seasons(r, own, &mut standing);
    let (hung, hung_given) = match &own.hang {
        Some(hang) => (warmth(r, "flatness.hang", *hang), true),
        None => {
            let (even, own) = r.fallback("flatness.hang", "hang_temperature", AIR_DEG_C, Kind::Temperature);
            standing = standing.with(own);
            (Warmth { skin_deg_c: even, frame_deg_c: even }, false)
        }
    };
    let given = own.restraint.unwrap_or_default();
    let mut share = |given: Option<Ratio>, name: &str, bounds: (f64, f64)| {
        let (field, key) = (format!("flatness.restraint.{name}"), format!("restraint_{name}"));
        let (value, own) = r.or_fallback(given.map(Ratio::value), &field, &key, bounds, Kind::Ratio);
        standing = standing.with(own);
        value
    };
    // Nothing held at all has nothing to ask.
    let hold = Hold { least: share(given.least, "least", (0.0, 1.0)), most: share(given.most, "most", (0.05, 1.0)) };
    if hold.least > hold.most {
        let problem = format!("above flatness.restraint.most, {}", hold.most);
        r.problems.push(Problem::contradiction("flatness.restraint.least", hold.least, problem));
    }
    let most_bow_mm = r.optional_length("flatness.most_bow", own.most_bow, 0.1, 1000.0);
    let sheet = sheet?;
    let material = r.catalogue.material("skin.grade", &sheet.material);
    let material = r.keep(material)?;
    let frame = r.catalogue.material("survey.post", "carbon steel");
    let frame = r.keep(frame)?;
    let metal = Metal {
        thickness_mm: sheet.base_mm,
        modulus_mpa: material.modulus.mpa(),
        poisson: material.poisson,
        expansion_per_k: material.expansion_um_m_k * 1e-6,
    };
    let standing = standing.with(material.standing).with(frame.standing).with(sheet.standing);
    let frame_expansion_per_k = frame.expansion_um_m_k * 1e-6;
    let heavier = heavier(r, file);
    Some(FlatnessPlan {
        metal,
        frame_expansion_per_k,
        hot,
        cold,
        hung,
        hung_given,
        hold,
        heavier,
        most_bow_mm,
        standing,
    })
}

/// Measured temperatures, and what they would be worked out from, are not given together.
fn exclusive(r: &mut Reader<'_>, own: &Flatness) {
    let mut either = |(name, given): (&str, bool), instead: &[(&str, bool)]| {
        for (other, _) in instead.iter().filter(|(_, other)| given && *other) {
            let path = format!("flatness.{other}");
            let written = r.written(&path, "given");
            r.problems.push(Problem::contradiction(
                path,
                written,
                format!("flatness.{name} says it too; leave one out"),
            ));
        }
    };
    let from_sun = [
        ("surface", own.surface.is_some()),
        ("absorptance", own.absorptance.is_some()),
        ("sun", own.sun.is_some()),
        ("hot_air", own.hot_air.is_some()),
        ("hot_cabin", own.hot_cabin.is_some()),
    ];
    either(("hot", own.hot.is_some()), &from_sun);
    let from_air = [("cold_air", own.cold_air.is_some()), ("cold_cabin", own.cold_cabin.is_some())];
    either(("cold", own.cold.is_some()), &from_air);
    let both = own.hot.is_some() && own.cold.is_some();
    either(("hot and flatness.cold", both), &[("frame_share", own.frame_share.is_some())]);
    either(("surface", own.surface.is_some()), &[("absorptance", own.absorptance.is_some())]);
}

fn warmth(r: &mut Reader<'_>, path: &str, given: file::Warmth) -> Warmth {
    let (least, most) = METAL_DEG_C;
    let mut part =
        |name: &str, t: Temperature| r.bound(&format!("{path}.{name}"), t.deg_c(), least, most, Kind::Temperature);
    Warmth { skin_deg_c: part("skin", given.skin), frame_deg_c: part("frame", given.frame) }
}

/// Skin and frame in the sun and in the cold: measured, or the skin by sol-air and the frame between it and the cabin.
fn seasons(r: &mut Reader<'_>, own: &Flatness, standing: &mut Standing) -> (Warmth, Warmth) {
    let mut air = |r: &mut Reader<'_>, given: Option<Temperature>, name: &str| {
        let given = given.map(Temperature::deg_c);
        let (value, known) = r.or_fallback(given, &format!("flatness.{name}"), name, AIR_DEG_C, Kind::Temperature);
        *standing = standing.with(known);
        value
    };
    let hot = match own.hot {
        Some(hot) => Ok(warmth(r, "flatness.hot", hot)),
        None => Err((air(r, own.hot_air, "hot_air"), air(r, own.hot_cabin, "hot_cabin"))),
    };
    let cold = match own.cold {
        Some(cold) => Ok(warmth(r, "flatness.cold", cold)),
        None => Err((air(r, own.cold_air, "cold_air"), air(r, own.cold_cabin, "cold_cabin"))),
    };
    let skin_hot = hot.as_ref().err().map(|&(air_deg_c, _)| {
        let given = own.sun.map(Irradiance::w_m2);
        let (sun, a) = r.or_fallback(given, "flatness.sun", "sun", (0.0, 1400.0), Kind::Irradiance);
        let (absorptance, b) = absorptance(r, own);
        *standing = standing.with(a).with(b);
        r.assumed.push(Assumption {
            field: "flatness.hot".to_owned(),
            value: "skin by sol-air".to_owned(),
            source: "film of 17 W/m2K outside, ASHRAE; an upper figure, for a sheet loses heat inwards too".to_owned(),
            standing: Standing::Memory,
        });
        // The sides stand upright.
        sol_air_deg_c(air_deg_c, absorptance, sun, OUTSIDE_FILM_W_M2_K, Attitude::Vertical.radiation_k())
    });
    let share = if hot.is_ok() && cold.is_ok() {
        0.0
    } else {
        let given = own.frame_share.map(Ratio::value);
        let (share, known) = r.or_fallback(given, "flatness.frame_share", "frame_share", (0.0, 1.0), Kind::Ratio);
        *standing = standing.with(known);
        share
    };
    let between = |skin_deg_c: f64, cabin_deg_c: f64| Warmth {
        skin_deg_c,
        frame_deg_c: skin_deg_c + share * (cabin_deg_c - skin_deg_c),
    };
    let hot = hot.unwrap_or_else(|(air_deg_c, cabin_deg_c)| between(skin_hot.unwrap_or(air_deg_c), cabin_deg_c));
    let cold = cold.unwrap_or_else(|(air_deg_c, cabin_deg_c)| between(air_deg_c, cabin_deg_c));
    (hot, cold)
}

fn absorptance(r: &mut Reader<'_>, own: &Flatness) -> (f64, Standing) {
    if let Some(share) = own.absorptance {
        return (r.bound("flatness.absorptance", share.value(), 0.02, 1.0, Kind::Ratio), Standing::Given);
    }
    let name = match &own.surface {
        Some(name) => name.clone(),
        None => {
            r.note("flatness.surface", "surface");
            r.keep(r.catalogue.fallback("surface")).map_or_else(String::new, |row| row.value.clone())
        }
    };
    let row = r.catalogue.surface("flatness.surface", &name);
    let Some(row) = r.keep(row) else { return (0.0, Standing::Assumed) };
    if own.surface.is_some() {
        r.list("flatness.surface", &row.name, &row.source, row.standing);
    }
    (r.bound("flatness.surface", row.absorptance, 0.02, 1.0, Kind::Ratio), row.standing)
}

/// The same sheet one gauge heavier; none for a sheet by its thickness, or where the series ends.
fn heavier(r: &Reader<'_>, file: &OfFlatness) -> Option<(u32, Sheet)> {
    let k = &file.skin;
    let order = SheetOrder {
        gauge: k.gauge,
        thickness_mm: None,
        coating: k.coating.clone(),
        grade: k.grade.clone(),
        fy_mpa: k.fy.map(|f| f.mpa()),
        fu_mpa: k.fu.map(|f| f.mpa()),
    };
    let own = k.gauge?;
    // The trade's gauges go by twos; some series have the odd ones too, which few shops stock.
    [2, 1, 3].into_iter().filter_map(|less| own.checked_sub(less)).find_map(|gauge| {
        let order = SheetOrder { gauge: Some(gauge), ..order.clone() };
        Sheet::new(&order, r.catalogue, "skin").ok().map(|sheet| (gauge, sheet))
    })
}
