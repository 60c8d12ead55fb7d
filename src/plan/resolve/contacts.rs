//! Metals in contact: names looked up, defaults filled in.

use crate::catalogue::Exposure;
use crate::error::{Problem, by_name};
use crate::mechanics::galvanic::Metal;
use crate::quantity::Kind;

use super::memory::OfContacts;
use super::reader::Reader;

/// What lies on what.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct ContactPlan {
    pub exposure: Exposure,
    pub post_surface: String,
    pub backing_surface: String,
    /// Posts and tube: whether the plan tells the surface, or a default stands in.
    pub surfaces_given: [bool; 2],
    /// Metal of the mandrel, by plan or product.
    pub mandrel: Option<String>,
    /// Plating of the rivet's body as the plan has it.
    pub plating: Option<String>,
    pub further: Vec<FurtherContact>,
}

/// A contact of the plan's own.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct FurtherContact {
    pub name: String,
    pub a: String,
    /// The new skin where none is named.
    pub b: Option<String>,
    /// Of the first and the other, m2.
    pub areas_m2: Option<(f64, f64)>,
    pub exposure: Exposure,
}

const AREA_M2: (f64, f64) = (1e-7, 1000.0);

pub(super) fn contacts(r: &mut Reader<'_>, file: &OfContacts) -> ContactPlan {
    let exposure = file.service.exposure.or_else(|| {
        r.note("service.exposure", "exposure");
        let word = r.keep(r.catalogue.fallback("exposure"))?.value.clone();
        r.keep(by_name("default exposure", "exposure", &word, &Exposure::ALL, Exposure::name))
    });
    let post_surface = surface(r, file.survey.post_surface.as_deref(), "survey.post_surface", "post_surface");
    let backing_surface = surface(r, file.skin.backing_surface.as_deref(), "skin.backing_surface", "backing_surface");
    let f = &file.fastening;
    for (path, name) in
        [("fastening.body", &f.body), ("fastening.plating", &f.plating), ("fastening.mandrel", &f.mandrel)]
    {
        if let Some(name) = name.as_deref().filter(|name| path != "fastening.plating" || *name != "none") {
            metal(r, path, name);
        }
    }
    let product = f.product.as_deref().and_then(|p| r.catalogue.rivet("", p, f.diameter.mm()).ok());
    // Without an exposure there is a problem.
    let exposure = exposure.unwrap_or(Exposure::Harsh);
    let mut further = Vec::new();
    for (i, own) in file.contact.iter().enumerate() {
        let field = |name: &str| format!("contact[{i}].{name}");
        metal(r, &field("a"), &own.a);
        if let Some(b) = &own.b {
            metal(r, &field("b"), b);
        }
        let (least, most) = AREA_M2;
        let area_a = own.area_a.map(|a| r.bound(&field("area_a"), a.m2(), least, most, Kind::Area));
        let area_b = own.area_b.map(|b| r.bound(&field("area_b"), b.m2(), least, most, Kind::Area));
        if area_a.is_some() != area_b.is_some() {
            let (there, missing) = if area_a.is_some() { ("area_a", "area_b") } else { ("area_b", "area_a") };
            let fix = format!("{there} is given: only the ratio of both counts; give both or neither");
            r.problems.push(Problem::missing(field(missing), fix));
        }
        further.push(FurtherContact {
            name: own.name.clone(),
            a: own.a.clone(),
            b: own.b.clone(),
            areas_m2: area_a.zip(area_b),
            exposure: own.exposure.unwrap_or(exposure),
        });
    }
    ContactPlan {
        exposure,
        post_surface,
        backing_surface,
        surfaces_given: [file.survey.post_surface.is_some(), file.skin.backing_surface.is_some()],
        mandrel: f.mandrel.clone().or_else(|| product.map(|row| row.mandrel.clone())),
        plating: f.plating.clone(),
        further,
    }
}

/// A metal that the plan names.
fn metal(r: &mut Reader<'_>, path: &str, name: &str) {
    r.keep(Metal::named(r.catalogue, path, name));
}

fn surface(r: &mut Reader<'_>, given: Option<&str>, field: &str, key: &str) -> String {
    if let Some(name) = given {
        metal(r, field, name);
        return name.to_owned();
    }
    r.note(field, key);
    let name = r.keep(r.catalogue.fallback(key)).map_or_else(String::new, |row| row.value.clone());
    metal(r, &format!("default {key}"), &name);
    name
}
