//! Details that decide where a skin starts to rust: laps, hems, cut edges, drilled and old holes, burnt zinc at welds.

use serde::Serialize;

use crate::body::rivet_lines::{LineKind, RivetLine};
use crate::body::skins::{EndPanel, Lap, LapKind, Sheet};
use crate::body::takeoff::Takeoff;
use crate::catalogue::{Catalogue, SkinFamily};
use crate::check::Standing;
use crate::error::Problem;

use super::resolve::{Joint, Resolved};

/// One detail in one zone: what to do, and how much of it there is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Detail {
    /// What it is: lap, hem, cut edge, drilled hole, old hole, weld.
    pub detail: &'static str,
    /// Zone of the vehicle that it lies in.
    pub zone: &'static str,
    /// Corrosivity category of that zone.
    pub category: String,
    /// It must be primed, sealed or coated; otherwise it may stay as it is.
    pub treat: bool,
    /// What to do and why.
    pub advice: String,
    /// How much of it the plan has; none where nothing of it is counted.
    pub quantity: Option<f64>,
    /// Unit of the quantity.
    pub unit: &'static str,
    /// Where the advice comes from.
    pub source: String,
    /// How it is known, at the weakest.
    pub standing: Standing,
}

/// Whether a cut edge or the edge of a hole may stay bare.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EdgeAdvice {
    /// It may; otherwise prime it.
    pub may_stay_bare: bool,
    /// Why.
    pub why: String,
}

/// Categories from the mildest.
const CATEGORIES: [&str; 6] = ["C1", "C2", "C3", "C4", "C5", "CX"];
/// Thickest sheet whose edge may stay bare, mm.
const BARE_EDGE_MM: f64 = 1.0;
/// Least zinc on both sides for that, kg/m2: G60, 0.60 oz/ft2.
const BARE_EDGE_KG_M2: f64 = 0.60 * 0.305_151_727;
/// Zinc on a side above which attack in laps was slight, kg/m2.
const LAP_ZINC_KG_M2: f64 = 0.045;
/// Strip beside a weld that has lost its zinc, each side, mm.
pub const BURNT_STRIP_MM: f64 = 10.0;
/// Lower edge of the sides up to here is the lower zone, mm: the lower half metre.
const LOWER_SIDE_MM: f64 = 500.0;

const EDGE_SOURCE: &str = "judgement: a bare edge is acceptable up to C3 in sheet of 1.0 mm or thinner with G60 or more; primed from \
     C4 up, and always with zinc-iron, aluminium-zinc and aluminium coatings; that zinc guards only while it is left beside the \
     edge: scribd.com/document/540294877, scribd.com/document/440766512; edges of 0.5 to 0.7 mm roofing negligible, up to 3.2 mm \
     borderline: scribd.com/document/170183255";
const LAP_SOURCE: &str = "MIL-STD-1250A (faying surfaces continuous and impervious, or sealed; no absorbent packing): emilspec.com \
     MIL-STD-1250 page 28; attack starts in the lap where wax or paint is missing: SAE 912279, abstract; slight above 45 g/m2 a \
     side on Detroit cars after five years: abstract of a steel maker's technical report; that it is assembled wet, judgement";
const HEM_SOURCE: &str = "zinc on both sides with adhesive in the hem all but stops attack: SAE 932367, abstract; doors with zinc on one \
     side were perforated in the hem after 8 to 10 years in the snow belt: SAE 912279, abstract";
const WELD_SOURCE: &str = "judgement: 10 mm each side of a weld in thin sheet count as bare; repair by ASTM A780 with zinc paint as \
     thick as the zinc that is lost, from memory";
const HOLE_SOURCE: &str = "; swarf wiped off the same day, from memory";
const OLD_SOURCE: &str = "judgement: an old hole is a bare edge in a crevice";

/// Whether a bare edge is acceptable: judgement, for sheet of `thickness_mm` with `both_sides_kg_m2` of coating in a corrosivity
/// category. A category of another name counts as the worst.
///
/// # Example
/// ```
/// use raisedbody::catalogue::SkinFamily;
/// use raisedbody::plan::bare_edge;
/// assert!(bare_edge("C3", 0.9, SkinFamily::Zinc, Some(0.275)).may_stay_bare);
/// assert!(!bare_edge("C4", 0.9, SkinFamily::Zinc, Some(0.275)).may_stay_bare);
/// ```
pub fn bare_edge(category: &str, thickness_mm: f64, family: SkinFamily, both_sides_kg_m2: Option<f64>) -> EdgeAdvice {
    let prime = |why: &str| EdgeAdvice { may_stay_bare: false, why: why.to_owned() };
    let bare = |why: &str| EdgeAdvice { may_stay_bare: true, why: why.to_owned() };
    match family {
        SkinFamily::StainlessSteel => return bare("stainless steel is no less guarded at its edge"),
        SkinFamily::AluminiumSheet => return bare("aluminium is no less guarded at its edge"),
        SkinFamily::BareSteel => return prime("bare steel: nothing guards it but paint"),
        SkinFamily::ZincIron => return prime("zinc-iron guards its edge weakly: always primed"),
        SkinFamily::AluminiumZinc => return prime("aluminium-zinc guards its edge little: always primed"),
        SkinFamily::Aluminium => return prime("an aluminium coating guards its edge little: always primed"),
        SkinFamily::Zinc | SkinFamily::ElectrolyticZinc => {}
    }
    let mild = CATEGORIES.iter().position(|c| *c == category).is_some_and(|place| place <= 2);
    if !mild {
        return prime("from C4 up every edge is primed");
    }
    // As much as G60, whichever unit it was written in.
    if both_sides_kg_m2.is_none_or(|mass| mass < BARE_EDGE_KG_M2 * (1.0 - 1e-6)) {
        return prime("less zinc than G60");
    }
    // A sheet that is no number is not thin.
    if thickness_mm.is_nan() || thickness_mm > BARE_EDGE_MM + 1e-9 {
        return prime("sheet above 1.0 mm shows more steel than its zinc is trusted with");
    }
    bare("zinc of G60 or more guards the edge of thin sheet up to C3")
}

/// Upper, lower, laps, as the plan's zones are ordered.
#[derive(Clone, Copy)]
enum Place {
    Upper,
    Lower,
    Laps,
}

impl Place {
    const ALL: [Self; 3] = [Self::Upper, Self::Lower, Self::Laps];
}

/// Quantities by zone.
#[derive(Default)]
struct ByZone([f64; 3]);

impl ByZone {
    fn add(&mut self, place: Place, quantity: f64) {
        let [upper, lower, laps] = &mut self.0;
        *match place {
            Place::Upper => upper,
            Place::Lower => lower,
            Place::Laps => laps,
        } += quantity;
    }

    fn of(&self, place: Place) -> f64 {
        let [upper, lower, laps] = self.0;
        match place {
            Place::Upper => upper,
            Place::Lower => lower,
            Place::Laps => laps,
        }
    }
}

/// A height on a side.
fn on_side(r: &Resolved, z_mm: f64) -> Place {
    if z_mm < r.air.skirt_mm + LOWER_SIDE_MM { Place::Lower } else { Place::Upper }
}

/// A panel of an end: the rear face lies in the lower zone whatever its height.
fn at_end(r: &Resolved, panel: &EndPanel) -> Place {
    if panel.front || panel.side.is_some() { on_side(r, panel.z_mm) } else { Place::Lower }
}

fn cut_edges_m(r: &Resolved) -> ByZone {
    let mut edges = ByZone::default();
    for sheet in &r.skins.sheets {
        let (length_m, height_m) = (sheet.length_mm() / 1000.0, sheet.height_mm() / 1000.0);
        edges.add(on_side(r, sheet.z0_mm), length_m);
        edges.add(upper_edge(r, sheet), length_m);
        edges.add(on_side(r, f64::midpoint(sheet.z0_mm, sheet.z1_mm)), 2.0 * height_m);
    }
    for panel in &r.skins.ends {
        edges.add(at_end(r, panel), 2.0 * (panel.length_mm + panel.height_mm) / 1000.0);
    }
    edges
}

/// The upper edge of a top course lies under the drip rail.
fn upper_edge(r: &Resolved, sheet: &Sheet) -> Place {
    if sheet.course == 0 && sheet.patch.is_none() { Place::Lower } else { on_side(r, sheet.z1_mm) }
}

fn holes(r: &Resolved, lines: &[RivetLine]) -> ByZone {
    let mut holes = ByZone::default();
    for line in lines {
        let of_end = line.of_panel.and_then(|(panel, _)| r.skins.ends.get(panel)).map(|panel| at_end(r, panel));
        for (_, z_mm) in line.hole_places_mm() {
            let place = match line.kind {
                // The lap over what is beneath holds water.
                LineKind::Bottom => Place::Laps,
                LineKind::Top => of_end.unwrap_or(Place::Lower),
                _ => of_end.unwrap_or_else(|| on_side(r, z_mm)),
            };
            holes.add(place, 1.0);
        }
    }
    holes
}

fn laps_m(r: &Resolved) -> ByZone {
    let mut laps = ByZone::default();
    for lap in &r.skins.laps {
        laps.add(place_of_lap(r, lap), lap.length_mm / 1000.0);
    }
    laps
}

fn place_of_lap(r: &Resolved, lap: &Lap) -> Place {
    let sheet = |id: &str| r.skins.sheets.iter().find(|sheet| sheet.id == id);
    let panel = |id: &str| r.skins.ends.iter().find(|panel| panel.id == id);
    let middle_mm = |sheet: &Sheet| f64::midpoint(sheet.z0_mm, sheet.z1_mm);
    let place = match (sheet(&lap.over), sheet(&lap.under), lap.kind) {
        (Some(over), _, LapKind::Level) => on_side(r, over.z0_mm),
        (Some(over), _, _) => on_side(r, middle_mm(over)),
        // What stays of the body lies over it: the drip rail, as a rule.
        (None, Some(under), LapKind::Level) => upper_edge(r, under),
        (None, Some(under), _) => on_side(r, middle_mm(under)),
        (None, None, _) => {
            panel(&lap.over).or_else(|| panel(&lap.under)).map_or(Place::Lower, |panel| at_end(r, panel))
        }
    };
    let low = sheet(&lap.over).is_some_and(|over| over.z0_mm < r.air.skirt_mm + LOWER_SIDE_MM);
    if low { Place::Laps } else { place }
}

fn zone(r: &Resolved, place: Place) -> (&'static str, String) {
    let [upper, lower, laps] = &r.lasting.zones;
    let zone = match place {
        Place::Upper => upper,
        Place::Lower => lower,
        Place::Laps => laps,
    };
    (zone.words, zone.category.clone())
}

/// Every detail, in each zone where there is any of it.
///
/// # Errors
/// A catalogue without a row for the skin's family.
pub(super) fn details(
    r: &Resolved,
    takeoff: &Takeoff,
    lines: &[RivetLine],
    catalogue: &Catalogue,
) -> Result<Vec<Detail>, Problem> {
    let family = r.sheet.family();
    let standing = catalogue.family_property("skin.coating", family)?.standing.with(Standing::Assumed);
    let mass = r.sheet.coating.as_ref().and_then(|c| c.both_sides_kg_m2);
    let thickness_mm = r.sheet.thickness_mm;
    let mut all = Vec::new();
    let mut add = |name, place, (treat, advice): (bool, String), (quantity, unit), source: String| {
        let (zone, category) = zone(r, place);
        all.push(Detail { detail: name, zone, category, treat, advice, quantity, unit, source, standing });
    };
    let edge = |place: Place| bare_edge(&zone(r, place).1, thickness_mm, family, mass);
    let laps = laps_m(r);
    for place in Place::ALL.into_iter().filter(|place| laps.of(*place) > 0.0) {
        add("lap", place, (true, lap_words(family, mass)), (Some(laps.of(place)), "m"), LAP_SOURCE.to_owned());
    }
    let hem =
        "no hem is counted; where an edge is hemmed, zinc on both sides and adhesive that fills the hem".to_owned();
    add("hem", Place::Laps, (true, hem), (None, "m"), HEM_SOURCE.to_owned());
    let edges = cut_edges_m(r);
    for place in Place::ALL.into_iter().filter(|place| edges.of(*place) > 0.0) {
        let own = edge(place);
        let advice = if own.may_stay_bare {
            format!("may stay bare: {}; break the edge all the same", own.why)
        } else {
            format!("break the edge to 0.5 mm, prime it, stripe-coat it: {}", own.why)
        };
        add("cut edge", place, (!own.may_stay_bare, advice), (Some(edges.of(place)), "m"), EDGE_SOURCE.to_owned());
    }
    let drilled = holes(r, lines);
    for place in Place::ALL.into_iter().filter(|place| drilled.of(*place) > 0.0) {
        let own = edge(place);
        let what =
            if own.may_stay_bare { "deburr, wipe up the swarf" } else { "deburr, wipe up the swarf, prime the edge" };
        let advice = format!("{what}: {}", own.why);
        let source = format!("{EDGE_SOURCE}{HOLE_SOURCE}");
        add("drilled hole", place, (!own.may_stay_bare, advice), (Some(drilled.of(place)), "holes"), source);
    }
    let old = takeoff.old_holes.plugged + takeoff.old_holes.riveted;
    if old > 0 {
        let advice = "scrape to sound metal, prime the edge, plug or rivet wet, seal over: what the old sheet is coated with is not \
             in the plan, so its edge counts as bare, and the worse of the zones it may lie in counts";
        add("old hole", Place::Laps, (true, advice.to_owned()), (Some(old as f64), "holes"), OLD_SOURCE.to_owned());
    }
    let (advice, count) = weld_words(r, family);
    add("weld", Place::Upper, (true, advice), (count, "posts"), WELD_SOURCE.to_owned());
    Ok(all)
}

fn lap_words(family: SkinFamily, both_sides_kg_m2: Option<f64>) -> String {
    let wet = "prime both faces and assemble wet with sealant; no felt or other packing that soaks up water";
    let zinc = match family {
        SkinFamily::Zinc | SkinFamily::ElectrolyticZinc | SkinFamily::ZincIron => both_sides_kg_m2,
        _ => None,
    };
    match (family, zinc) {
        (SkinFamily::BareSteel, _) => format!("{wet}: there is no zinc to help"),
        (SkinFamily::StainlessSteel | SkinFamily::AluminiumSheet, _) => {
            format!("{wet}: the metal may pit in a wet crevice")
        }
        (_, Some(mass)) if mass / 2.0 >= LAP_ZINC_KG_M2 => {
            format!(
                "{wet}: its zinc is above the 45 g/m2 a side at which attack in laps was slight, on the mean of both sides"
            )
        }
        (_, Some(_)) => format!("{wet}: its zinc is below the 45 g/m2 a side at which attack in laps was slight"),
        _ => format!("{wet}: how such a coating does in laps was not found"),
    }
}

/// What welds ask, and at how many posts the plan welds.
fn weld_words(r: &Resolved, family: SkinFamily) -> (String, Option<f64>) {
    let welded = r.splice.as_ref().is_some_and(|s| matches!(s.joint, Some(Joint::PlugWelds { .. })));
    let posts = welded.then(|| 2.0 * (r.raise.last_post - r.raise.first_post + 1) as f64);
    let skin = match family {
        SkinFamily::StainlessSteel => "heat tint comes off after a weld in the skin",
        SkinFamily::AluminiumSheet => "hard sheet goes soft beside a weld: rivet the skin",
        SkinFamily::BareSteel => "primer burns off beside a weld: clean and prime again",
        _ => "the coating burns off beside a weld",
    };
    let advice = format!(
        "{skin}; a strip of {BURNT_STRIP_MM:.0} mm each side counts as bare: grind, then zinc-rich paint as thick as what was lost; posts \
         and inserts with zinc on them alike"
    );
    (advice, posts)
}
