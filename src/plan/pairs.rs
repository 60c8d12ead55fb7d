//! Metals in contact on the bus: rivets, mandrels, skin, posts, tube and what else the plan names.

use std::f64::consts::FRAC_PI_4;

use crate::body::takeoff::Takeoff;
use crate::catalogue::{Catalogue, Exposure, SkinFamily};
use crate::check::{Check, Level, Standing, Verdict};
use crate::error::Problem;
use crate::mechanics::galvanic::{CLAUSE, Metal, Pair, Wetted};
use crate::mechanics::sheet::Sheet;

use super::resolve::Resolved;

/// Two surfaces in contact.
#[derive(Debug, Clone, PartialEq)]
pub struct ContactPair {
    /// What touches what.
    pub name: String,
    /// The first surface; what is known of it where it is not assessed.
    pub first: String,
    /// The other.
    pub second: String,
    /// How it is exposed.
    pub exposure: Exposure,
    /// The pair worked out; none where a surface is not known.
    pub pair: Option<Pair>,
    /// What to write where it is not assessed; empty otherwise.
    pub missing: String,
    /// The entry whose default stands in for one of the surfaces; none where the plan or a product tells both.
    pub assumed: Option<&'static str>,
}

impl ContactPair {
    /// The weakest standing of all that went in.
    pub fn standing(&self) -> Standing {
        let own = self.pair.as_ref().map_or(Standing::Assumed, Pair::standing);
        if self.assumed.is_some() { own.with(Standing::Assumed) } else { own }
    }

    /// The pair against the limit of its exposure. A surface that is only assumed decides nothing.
    pub fn check(&self) -> Check {
        let subject = format!("{}: {} on {}, {}", self.name, self.first, self.second, self.exposure.name());
        let Some(pair) = &self.pair else {
            let check = Check::compare("galvanic pair", CLAUSE, (None, None, "V"), Level::Stated, Standing::Assumed);
            return check.at(subject).because(self.missing.clone());
        };
        let mut check = pair.check().at(subject);
        let Some(entry) = self.assumed else { return check };
        check.standing = check.standing.with(Standing::Assumed);
        if matches!(check.verdict, Verdict::Fails | Verdict::Passes) {
            let why = check.reason.clone().unwrap_or_else(|| check.verdict.words().to_owned());
            return check.demoted(
                Verdict::NotAssessed,
                format!("{} is assumed: write {entry}; as assumed, {why}", self.second),
            );
        }
        check
    }
}

/// The metal that a sheet shows to what touches it.
pub(super) fn sheet_surface(sheet: &Sheet) -> &str {
    match sheet.family() {
        SkinFamily::Zinc => "hot-dip zinc",
        SkinFamily::ElectrolyticZinc => "zinc plating",
        SkinFamily::ZincIron => "zinc-iron coating",
        SkinFamily::AluminiumZinc => "aluminium-zinc coating",
        SkinFamily::Aluminium => "aluminium coating",
        // The metal itself, under the name of the material table.
        SkinFamily::BareSteel | SkinFamily::StainlessSteel | SkinFamily::AluminiumSheet => &sheet.material,
    }
}

/// The surface of the rivet's body, or what to write.
fn rivet_surface(r: &Resolved) -> Result<&str, (&str, &'static str)> {
    let plating = r.contacts.plating.as_deref();
    if let Some(plating) = plating.filter(|plating| *plating != "none") {
        return Ok(plating);
    }
    match r.rivet.body.as_deref() {
        None => Err(("not known", "name the body's metal (fastening.body), and its plating if it has one")),
        // A steel body is plated as a rule, and only the plating counts.
        Some(body @ ("steel" | "carbon steel")) if plating.is_none() => {
            Err((body, "say how the steel body is plated (fastening.plating = \"zinc plating\" or \"none\")"))
        }
        Some(body) => Ok(body),
    }
}

/// Every pair, in the order in which they are met from outside.
///
/// # Errors
/// Areas that no contact has, from catalogue rows of the plan's own.
pub(super) fn pairs(r: &Resolved, takeoff: &Takeoff, catalogue: &Catalogue) -> Result<Vec<ContactPair>, Vec<Problem>> {
    let skin = sheet_surface(&r.sheet);
    let exposure = r.contacts.exposure;
    let known = |first, second, name: &str, exposure, wetted| pair(catalogue, (first, second), name, exposure, wetted);
    let open = |name: &str, first: &str, second: &str, missing: &str| ContactPair {
        name: name.to_owned(),
        first: first.to_owned(),
        second: second.to_owned(),
        exposure,
        pair: None,
        missing: missing.to_owned(),
        assumed: None,
    };
    let rivet = rivet_surface(r);
    let mut all = Vec::new();
    all.push(match rivet {
        Ok(surface) => known(surface, skin, "rivet body, skin", exposure, rivet_areas(r, takeoff))?,
        Err((told, fix)) => open("rivet body, skin", told, skin, fix),
    });
    all.push(match (&r.contacts.mandrel, rivet) {
        (Some(mandrel), Ok(surface)) => known(mandrel, surface, "mandrel, rivet body", exposure, Wetted::NotKnown)?,
        (mandrel, rivet) => {
            let (mandrel, body) = (mandrel.as_deref().unwrap_or("not known"), rivet.unwrap_or_else(|(told, _)| told));
            let fix = "name the metal of body and mandrel (fastening.body, fastening.plating, fastening.mandrel)";
            open("mandrel, rivet body", mandrel, body, fix)
        }
    });
    let [posts_given, tube_given] = r.contacts.surfaces_given;
    let posts = known(skin, &r.contacts.post_surface, "skin, posts", exposure, Wetted::Faces)?;
    all.push(ContactPair { assumed: (!posts_given).then_some("survey.post_surface"), ..posts });
    if takeoff.backing.total_m > 0.0 {
        let tube = known(skin, &r.contacts.backing_surface, "skin, tube behind edges", exposure, Wetted::Faces)?;
        all.push(ContactPair { assumed: (!tube_given).then_some("skin.backing_surface"), ..tube });
    }
    for own in &r.contacts.further {
        let wetted = own.areas_m2.map_or(Wetted::NotKnown, |(a, b)| Wetted::Areas(a, b));
        all.push(known(&own.a, own.b.as_deref().unwrap_or(skin), &own.name, own.exposure, wetted)?);
    }
    Ok(all)
}

/// A pair by the names of its surfaces; one that the catalogue does not know is not assessed.
fn pair(
    catalogue: &Catalogue,
    (first, second): (&str, &str),
    name: &str,
    exposure: Exposure,
    wetted: Wetted,
) -> Result<ContactPair, Vec<Problem>> {
    let mut own = ContactPair {
        name: name.to_owned(),
        first: first.to_owned(),
        second: second.to_owned(),
        exposure,
        pair: None,
        missing: String::new(),
        assumed: None,
    };
    match (Metal::named(catalogue, name, first), Metal::named(catalogue, name, second)) {
        (Ok(a), Ok(b)) => own.pair = Some(Pair::of(catalogue, (a, b), exposure, wetted)?),
        (Err(problem), _) | (_, Err(problem)) => {
            own.missing = format!("{problem}; name it otherwise, or add a galvanic_metal to the catalogue");
        }
    }
    Ok(own)
}

/// Heads against the skin that shows, where the head's size is known.
fn rivet_areas(r: &Resolved, takeoff: &Takeoff) -> Wetted {
    let heads_m2 = r.rivet.head_mm.map(|mm| takeoff.rivets as f64 * FRAC_PI_4 * (mm / 1000.0).powi(2));
    match heads_m2 {
        Some(heads) if heads > 0.0 && takeoff.topcoat_area_m2 > heads => {
            Wetted::Areas(heads, takeoff.topcoat_area_m2 - heads)
        }
        _ => Wetted::Fastener,
    }
}

/// Each pair against the limit of its exposure.
pub(super) fn checks(pairs: &[ContactPair]) -> impl Iterator<Item = Check> + '_ {
    pairs.iter().map(ContactPair::check)
}
