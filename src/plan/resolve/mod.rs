//! Turns the plan as written into numbers: units gone, defaults filled in and listed, contradictions found.

mod crew;
mod cut_day;
mod end_caps;
mod flatness;
mod handling;
mod hole_line;
mod lift;
mod measure_up;
mod paint;
mod reader;
mod shape;
mod skin;
mod skin_loads;
mod splice;

use crate::body::features::{cut_problems, feature_problems};
use crate::body::measures::raised_length_mm;
use crate::body::raise::{Ends, Raise};
use crate::body::skins::{SheetRules, Skins, lay_out};
use crate::body::stability::RollSprings;
use crate::body::survey::{Heights, Survey, post_stations};
use crate::body::takeoff::Allowances;
use crate::catalogue::{Catalogue, Limit, SectionShape};
use crate::check::Standing;
use crate::error::Problem;
use crate::form::Document;
use crate::mechanics::joint::{BlindRivet, RivetOrder};
use crate::mechanics::paint::Bead;
use crate::mechanics::section::{Profile, Properties};
use crate::mechanics::sheet::Sheet;
use crate::quantity::{Duration, Kind, Length, Pressure, Ratio};
use crate::shop::hours::{Time, Times};
use crate::shop::quote::{CoatPrice, PriceBook};

use super::file::{self, File};

pub(super) use crew::CrewPlan;
use cut_day::{CutDay, cut_day};
pub(super) use end_caps::{EndCapPlan, PiecePlan};
pub(super) use flatness::FlatnessPlan;
pub(super) use handling::{Air, CgHeight};
use handling::{Weighed, air, cg_height, springs};
use hole_line::Drilled;
pub(super) use lift::LiftPlan;
pub(super) use measure_up::MeasureUpNumbers;
use measure_up::measure_up;
pub(super) use paint::{CoatPlan, PaintPlan};
use reader::Reader;
pub(super) use skin::{Trim, Walls};
use skin::{faces, factory_seams, sheet_rules, skin_sheet, trim, walls};
pub(super) use skin_loads::{EdgeSuction, Loads, Racking};
pub(super) use splice::{Joint, Splice};

/// A value that stands in for one the plan does not give.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Assumption {
    /// The entry that would replace it, or the default of the catalogue.
    pub field: String,
    /// The value, with its unit.
    pub value: String,
    /// What it is and where it comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// A framing section with its numbers.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Section {
    pub label: String,
    pub wall_mm: f64,
    pub profile: Profile,
    /// Shape with depth, width and flange, mm.
    pub sizes: (SectionShape, [f64; 3]),
    pub properties: Properties,
    pub standing: Standing,
}

impl Section {
    /// Surface of a metre that can be painted, m2/m: a tube's outside, both faces of an open section.
    fn bare_m2_m(&self) -> f64 {
        let developed_mm = self.properties.area_mm2 / self.wall_mm;
        let faces = if self.sizes.0 == SectionShape::RectangularTube { 1.0 } else { 2.0 };
        faces * developed_mm / 1000.0
    }
}

/// A mass given on both axles, kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct PerAxle {
    pub front_kg: f64,
    pub rear_kg: f64,
}

/// The plan in numbers.
#[derive(Debug, Clone)]
pub(super) struct Resolved {
    pub survey: Survey,
    pub raise: Raise,
    pub rules: SheetRules,
    pub walls: Walls,
    pub trim: Trim,
    pub skins: Skins,
    pub sheet: Sheet,
    pub rivet: BlindRivet,
    pub pitch_mm: f64,
    pub drilled: Drilled,
    pub post_wall: Option<Sheet>,
    pub post: Option<Section>,
    /// The roof bow, where it is not like the posts.
    pub bow: Option<Section>,
    pub frames: Frames,
    pub insert: Section,
    /// How inserts are joined to the posts, where the plan says it.
    pub splice: Option<Splice>,
    pub backing: Section,
    pub axle_weights: Option<PerAxle>,
    pub axle_ratings: Option<PerAxle>,
    pub tyre_ratings: Option<PerAxle>,
    pub gross_rating_kg: Option<f64>,
    pub wheelbase_mm: Option<f64>,
    pub rear_axle_mm: Option<f64>,
    pub track_mm: Option<f64>,
    pub cg: CgHeight,
    pub springs: Option<RollSprings>,
    pub air: Air,
    pub aisle_mm: f64,
    pub measure_up: MeasureUpNumbers,
    pub roof_mass_kg: f64,
    pub roof_standing: Standing,
    pub places: Vec<Limit>,
    pub loads: Loads,
    /// Temperatures of skin and frame.
    pub flatness: FlatnessPlan,
    pub lift: Option<LiftPlan>,
    /// Sheets round the corners, where the plan says what they are.
    pub end_caps: Option<EndCapPlan>,
    pub zones: [(&'static str, String); 3],
    pub paint: PaintPlan,
    pub allowances: Allowances,
    pub masses: UnitMasses,
    pub times: Times,
    pub crew: Option<CrewPlan>,
    pub prices: Option<PriceBook>,
    pub cut_day: CutDay,
    pub assumed: Vec<Assumption>,
}

/// What the frames across the bus are loaded with and made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Frames {
    /// Wind across the bus, m/s.
    pub wind_m_s: f64,
    /// Pressure on the windward and suction on the lee side together, in parts of the stagnation pressure.
    pub pressure: f64,
    /// Sideways pull of the roof's mass, in parts of its weight.
    pub sideways_g: f64,
    pub modulus_mpa: f64,
    /// Yield strength of the posts, where known.
    pub post_fy_mpa: Option<f64>,
    /// Of the pieces that lengthen them.
    pub insert_fy_mpa: Option<f64>,
    /// Of the roof bows.
    pub bow_fy_mpa: Option<f64>,
    pub standing: Standing,
}

/// Masses per unit that the plan has no entry for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct UnitMasses {
    pub window_kg_m2: f64,
    pub old_skin_kg_m2: f64,
    pub coat_kg_m2: f64,
    pub rivet_kg: f64,
    pub sealant_kg_l: f64,
    pub steel_kg_m3: f64,
}

/// Reads numbers out of the plan. What takes long is taken over from a plan that is known where it comes from the same numbers,
/// and then what is assumed is not listed.
///
/// # Errors
/// Every independent problem.
pub(super) fn resolve(
    file: &File,
    document: &Document,
    catalogue: &Catalogue,
    known: Option<&Resolved>,
) -> Result<Resolved, Vec<Problem>> {
    let mut r = Reader { document, catalogue, known, problems: Vec::new(), assumed: Vec::new() };
    let survey = survey(&mut r, file);
    let raise = raise(&mut r, file);
    let sheet = skin_sheet(&mut r, file);
    let (rivet, drilled) = fastening(&mut r, file);
    let pitch_mm = r.length("fastening.pitch", file.fastening.pitch, 5.0, 400.0);
    let (walls, trim) = (walls(&mut r, file), trim(&mut r, file));
    let rules = sheet_rules(&mut r, file, survey.as_ref(), sheet.as_ref());
    let post = file.survey.post.as_ref().and_then(|p| r.section("survey.post", p, true));
    let post_wall = post_wall(&mut r, file, post.as_ref());
    let bow = bow_section(&mut r, file, post.is_some());
    let frames = frames(&mut r, file);
    let insert = match &file.raise.insert {
        Some(choice) => r.section("raise.insert", choice, true),
        None => r.default_section("raise.insert"),
    };
    let splice = splice::splice(&mut r, file, (post.as_ref(), insert.as_ref()));
    let backing = r.default_section("default section");
    let v = &file.vehicle;
    let axle_weights = r.per_axle("vehicle.axle_weights", v.axle_weights);
    let axle_ratings = r.per_axle("vehicle.axle_ratings", v.axle_ratings);
    let tyre_ratings = r.per_axle("vehicle.tyre_ratings", v.tyre_ratings);
    let gross_rating_kg = v.gross_rating.map(|m| r.bound("vehicle.gross_rating", m.kg(), 1000.0, 60_000.0, Kind::Mass));
    let wheelbase_mm = r.optional_length("vehicle.wheelbase", v.wheelbase, 1500.0, 12_000.0);
    let rear_axle_mm = r.optional_length("vehicle.rear_overhang", v.rear_overhang, 0.0, 8000.0);
    let track_mm = r.optional_length("vehicle.track", v.track, 1000.0, 2700.0);
    axle_problems(&mut r, file, wheelbase_mm, rear_axle_mm, track_mm);
    let weighed = Weighed { axle_weights, wheelbase_mm, track_mm };
    let cg = cg_height(&mut r, file, &weighed);
    let springs = springs(&mut r, file, &weighed, &cg);
    let (air, aisle_mm) = (air(&mut r, file, survey.as_ref()), aisle(&mut r, file));
    let measure_up = measure_up(&mut r, file, raise.as_ref());
    let body = survey.as_ref().zip(raise.as_ref());
    let roof = body.map(|(s, d)| roof_mass(&mut r, file, s, d));
    let places = places(&mut r, file);
    let loads = skin_loads::loads(&mut r, file, frames.wind_m_s);
    let flatness = flatness::flatness(&mut r, file, sheet.as_ref());
    let lift = body.zip(roof).and_then(|(b, roof)| lift::lift(&mut r, file, b, roof, loads.air_density_kg_m3));
    let zones = zones(&mut r, file);
    let (paint, allowances) = allowances(&mut r, file, sheet.as_ref(), (insert.as_ref(), backing.as_ref()));
    let (times, crew) = (times(&mut r, file, &paint), crew::crew(&mut r, file, &paint));
    let (masses, prices) = (unit_masses(&mut r, &paint), price_book(&mut r, file, &paint));
    let cut_day = cut_day(&mut r, file, body);
    items(&mut r, file);

    let (skins, end_caps) = skins(&mut r, file, body, (rules.as_ref(), sheet.as_ref()));
    hole_line::lies_where_it_says(&mut r, &drilled, (body, skins.as_ref()), (rules.as_ref(), pitch_mm));
    if let (Some(survey), Some(raise), Some(rules), Some(skins), Some(sheet), Some(rivet)) =
        (survey, raise, rules, skins, sheet, rivet)
        && let (Some(insert), Some(backing), Some((roof_mass_kg, roof_standing)), Some(flatness), true) =
            (insert, backing, roof, flatness, r.problems.is_empty())
    {
        return Ok(Resolved {
            survey,
            raise,
            rules,
            walls,
            trim,
            skins,
            sheet,
            rivet,
            pitch_mm,
            drilled,
            post_wall,
            post,
            bow,
            frames,
            insert,
            splice,
            backing,
            axle_weights,
            axle_ratings,
            tyre_ratings,
            gross_rating_kg,
            wheelbase_mm,
            rear_axle_mm,
            track_mm,
            cg,
            springs,
            air,
            aisle_mm,
            measure_up,
            roof_mass_kg,
            roof_standing,
            places,
            loads,
            flatness,
            lift,
            end_caps,
            zones,
            paint,
            allowances,
            masses,
            times,
            crew,
            prices,
            cut_day,
            assumed: r.assumed,
        });
    }
    Err(r.problems)
}

/// The end caps, and all sheets laid out where nothing speaks against the raise.
fn skins(
    r: &mut Reader<'_>,
    file: &File,
    body: Option<(&Survey, &Raise)>,
    (rules, sheet): (Option<&SheetRules>, Option<&Sheet>),
) -> (Option<Skins>, Option<EndCapPlan>) {
    let Some((survey, raise)) = body else { return (None, None) };
    let contradicted = raise.problems(survey);
    // Posts that are not there have no place.
    let caps = if contradicted.is_empty() { end_caps::end_caps(r, file, body, (rules, sheet)) } else { None };
    r.problems.extend(contradicted);
    r.problems.extend(cut_problems(&survey.features, survey, raise));
    let Some(rules) = rules.filter(|_| r.problems.is_empty()) else { return (None, caps) };
    let sheets = caps.as_ref().map(EndCapPlan::sheets).unwrap_or_default();
    (r.keep(lay_out(survey, raise, rules, &sheets)), caps)
}

fn survey(r: &mut Reader<'_>, file: &File) -> Option<Survey> {
    let (v, s) = (&file.vehicle, &file.survey);
    let before = r.problems.len();
    let length_mm = r.length("vehicle.body_length", v.body_length, 2000.0, 20_000.0);
    let width_mm = r.length("vehicle.body_width", v.body_width, 1500.0, 3200.0);
    let overall_mm = r.length("vehicle.overall_height", v.overall_height, 1500.0, 5000.0);
    let spacing_mm = r.length("survey.post_spacing", s.post_spacing, 200.0, 2500.0);
    let first_mm = r.length("survey.first_post", s.first_post, 0.0, 5000.0);
    let mut exceptions = Vec::new();
    for (i, e) in s.exceptions.iter().enumerate() {
        exceptions.push((e.window, r.length(&format!("survey.exceptions[{i}].spacing"), e.spacing, 200.0, 2500.0)));
    }
    let to_front_mm = r.optional_length("survey.last_post_to_front", s.last_post_to_front, 0.0, 8000.0);
    let tape_mm = shape::tape_mm(r, file);
    let closing = to_front_mm.map(|to_front_mm| (to_front_mm, tape_mm));
    let mut height = |name: &str, value: Length| r.length(&format!("survey.{name}"), value, 100.0, 5000.0);
    let floor_mm = height("floor", s.floor);
    let rub_rail_mm = s.rub_rail.map(|z| height("rub_rail", z));
    let window_bottom_mm = height("window_bottom", s.window_bottom);
    let window_top_mm = height("window_top", s.window_top);
    let drip_rail_mm = height("drip_rail", s.drip_rail);
    let crown = s.crown.map(|z| height("crown", z));
    // A chain ends at the crown.
    let chain_end = s.outline.as_ref().and_then(|outline| outline.pieces.last()).map(|piece| piece.to.height.mm());
    let crown_mm = crown.or(chain_end).unwrap_or_else(|| {
        r.assumed.push(Assumption {
            field: "survey.crown".to_owned(),
            value: Kind::Length.print(overall_mm),
            source: "roof at the overall height: no fittings above it".to_owned(),
            standing: Standing::Assumed,
        });
        overall_mm
    });
    let inside_height_mm = r.length("survey.inside_height", s.inside_height, 1000.0, 3500.0);
    let leans = shape::leans(r, file);
    let posts = post_stations(length_mm, first_mm, s.windows, spacing_mm, &exceptions, closing);
    let readable = r.problems.len() == before;
    let posts_mm = if readable { r.keep_all(posts) } else { None };
    let (chain, features) = (shape::chain(r, file), shape::features(r, file, length_mm));
    let factory_seams = factory_seams(r, file);
    if !readable {
        return None;
    }
    let heights =
        Heights { floor_mm, rub_rail_mm, window_bottom_mm, window_top_mm, drip_rail_mm, crown_mm, overall_mm };
    let out_of_order = heights.problems(inside_height_mm);
    if !out_of_order.is_empty() {
        r.problems.extend(out_of_order);
        return None;
    }
    let section = shape::section(r, file, (&leans, chain.as_ref()), width_mm, &heights, tape_mm);
    let posts_mm = posts_mm?;
    shape::side_problems(r, file, length_mm, &posts_mm, &heights, tape_mm);
    let ((leans, section), features) = section.zip(features)?;
    let survey =
        Survey { length_mm, width_mm, posts_mm, factory_seams, heights, inside_height_mm, leans, section, features };
    // The rub rails of single sides come after those listed and were looked at with their side.
    let listed = survey.features.get(..s.features.len()).unwrap_or_default();
    r.problems.extend(feature_problems(listed, &survey, tape_mm));
    if r.problems.len() == before { Some(survey) } else { None }
}

/// The width of the aisle, mm.
fn aisle(r: &mut Reader<'_>, file: &File) -> f64 {
    let given = file.survey.aisle.map(Length::mm);
    let aisle_mm = r.or_fallback(given, "survey.aisle", "aisle", (200.0, 2000.0), Kind::Length).0;
    let width_mm = file.vehicle.body_width.mm();
    if given.is_some() && aisle_mm >= width_mm {
        let problem = format!("wider than the body at {width_mm:.0} mm");
        r.problems.push(Problem::contradiction("survey.aisle", format!("{aisle_mm:.0} mm"), problem));
    }
    aisle_mm
}

fn raise(r: &mut Reader<'_>, file: &File) -> Option<Raise> {
    let d = &file.raise;
    let before = r.problems.len();
    let windows = file.survey.windows;
    let height_mm = r.length("raise.height", d.height, 25.0, 1500.0);
    let cut_mm = r.length("raise.cut", d.cut, 100.0, 5000.0);
    let ends = match (d.ends, d.slope_run) {
        (file::Ends::WholeRoof, _) => Ends::WholeRoof,
        (file::Ends::Stepped, _) => Ends::Stepped,
        (file::Ends::Sloped, Some(run)) => Ends::Sloped { run_mm: r.length("raise.slope_run", run, 50.0, 4000.0) },
        (file::Ends::Sloped, None) => {
            r.problems.push(Problem::missing("raise.slope_run", "a sloped end needs its run: write \"3 ft\""));
            Ends::Stepped
        }
    };
    if d.ends != file::Ends::Sloped && d.slope_run.is_some() {
        let written = r.written("raise.slope_run", "");
        r.problems.push(Problem::contradiction(
            "raise.slope_run",
            written,
            "only sloped ends have a run; leave it out",
        ));
    }
    let overlap_mm =
        r.or_fallback(d.overlap.map(Length::mm), "raise.overlap", "overlap", (10.0, 600.0), Kind::Length).0;
    let mut build_up = |given: Option<Length>, field: &str, key: &str| {
        r.or_fallback(given.map(Length::mm), field, key, (0.0, 600.0), Kind::Length).0
    };
    let floor_build_up_mm = build_up(d.floor_build_up, "raise.floor_build_up", "floor_build_up");
    let ceiling_build_up_mm = build_up(d.ceiling_build_up, "raise.ceiling_build_up", "ceiling_build_up");
    let mut window_kept = vec![false; windows as usize];
    for (i, &window) in d.windows_kept.iter().enumerate() {
        let path = format!("raise.windows_kept[{i}]");
        match (window as usize).checked_sub(1).and_then(|w| window_kept.get_mut(w)) {
            None => r.problems.push(Problem::out_of_range(path, window, format!("1 to {windows}, from the rear"))),
            Some(kept) if *kept => r.problems.push(Problem::contradiction(path, window, "this window is named twice")),
            Some(kept) => *kept = true,
        }
    }
    let post = |given: Option<u32>, otherwise: u32| (given.unwrap_or(otherwise) as usize).saturating_sub(1);
    let raise = Raise {
        height_mm,
        cut_mm,
        first_post: post(d.first_post, 1),
        last_post: post(d.last_post, windows + 1),
        ends,
        overlap_mm,
        floor_build_up_mm,
        ceiling_build_up_mm,
        window_kept,
    };
    if r.problems.len() == before { Some(raise) } else { None }
}

fn rivet(r: &mut Reader<'_>, file: &File) -> Option<BlindRivet> {
    let f = &file.fastening;
    let order = RivetOrder {
        diameter_mm: f.diameter.mm(),
        product: f.product.clone(),
        shear_n: f.shear.map(|v| v.n()),
        tension_n: f.tension.map(|v| v.n()),
        head_mm: f.head.map(Length::mm),
        hole_mm: f.hole.map(Length::mm),
        sealed: f.sealed,
        structural: f.structural,
        // The plan names a product, or gives loads of its own: then the weaker metal and a protruding head are meant.
        ..RivetOrder::default()
    };
    let rivet = BlindRivet::new(&order, r.catalogue, "fastening");
    let mut rivet = r.keep_all(rivet)?;
    if let Some(row) =
        f.product.as_deref().and_then(|p| r.catalogue.rivet("fastening.product", p, order.diameter_mm).ok())
    {
        r.list("fastening.product", &rivet.label, &row.source, row.standing);
    }
    let own = [order.shear_n.is_some(), order.tension_n.is_some()].contains(&true);
    if own && f.provenance.is_none() {
        rivet.standing = Standing::Assumed;
        r.assumed.push(Assumption {
            field: "fastening.provenance".to_owned(),
            value: rivet.label.clone(),
            source: "rivet loads given without saying where they come from: name the data sheet or test".to_owned(),
            standing: Standing::Assumed,
        });
    }
    Some(rivet)
}

/// The rivet, and what is said of drilling for it.
fn fastening(r: &mut Reader<'_>, file: &File) -> (Option<BlindRivet>, Drilled) {
    let rivet = rivet(r, file);
    let drilled = hole_line::drilled(r, file, rivet.as_ref().map(|rivet| rivet.hole_mm));
    (rivet, drilled)
}

/// The wall of a post as the inner part of a joint.
fn post_wall(r: &mut Reader<'_>, file: &File, post: Option<&Section>) -> Option<Sheet> {
    let post = post?;
    let (fu, standing) = match file.survey.post_fu {
        Some(fu) => (r.bound("survey.post_fu", fu.mpa(), 100.0, 1500.0, Kind::Pressure), Standing::Given),
        None => r.fallback("survey.post_fu", "post_fu", (100.0, 1500.0), Kind::Pressure),
    };
    Some(Sheet {
        label: format!("post, {}", post.label),
        material: "carbon steel".to_owned(),
        thickness_mm: post.wall_mm,
        base_mm: post.wall_mm,
        least_mm: None,
        least_base_mm: post.wall_mm,
        design_mm: post.wall_mm,
        areal_mass_kg_m2: 0.0,
        fy_mpa: None,
        fu_mpa: Some(fu),
        coating: None,
        standing: standing.with(post.standing),
    })
}

/// The roof bow's own section; without one it is taken to be like the posts.
fn bow_section(r: &mut Reader<'_>, file: &File, posts_known: bool) -> Option<Section> {
    if let Some(choice) = &file.survey.bow {
        return r.section("survey.bow", choice, true);
    }
    if posts_known {
        r.assumed.push(Assumption {
            field: "survey.bow".to_owned(),
            value: "as the posts".to_owned(),
            source: "roof bows of the posts' section and steel".to_owned(),
            standing: Standing::Assumed,
        });
    }
    None
}

fn frames(r: &mut Reader<'_>, file: &File) -> Frames {
    let wind = file.loads.crosswind.map(|v| v.m_s());
    let (wind_m_s, a) = r.or_fallback(wind, "loads.crosswind", "crosswind", (1.0, 60.0), Kind::Speed);
    let (pressure, b) = r.fallback("", "side_pressure", (0.0, 3.0), Kind::Ratio);
    let (sideways_g, c) = r.fallback("", "sideways", (0.0, 1.0), Kind::Ratio);
    let steel = r.keep(r.catalogue.material("survey.post", "carbon steel")).map(|m| m.modulus.mpa());
    let mut fy = |path, given: Option<Pressure>| given.map(|fy| r.bound(path, fy.mpa(), 100.0, 1200.0, Kind::Pressure));
    let post_fy_mpa = fy("survey.post_fy", file.survey.post_fy);
    let insert_fy_mpa = fy("raise.insert_fy", file.raise.insert_fy);
    // Bows taken as the posts are taken as of their steel too.
    let like_posts = post_fy_mpa.filter(|_| file.survey.bow.is_none());
    let bow_fy_mpa = fy("survey.bow_fy", file.survey.bow_fy).or(like_posts);
    let standing = [a, b, c].into_iter().fold(Standing::Assumed, Standing::with);
    let modulus_mpa = steel.unwrap_or(205_000.0);
    Frames { wind_m_s, pressure, sideways_g, modulus_mpa, post_fy_mpa, insert_fy_mpa, bow_fy_mpa, standing }
}

fn axle_problems(
    r: &mut Reader<'_>,
    file: &File,
    wheelbase_mm: Option<f64>,
    rear_axle_mm: Option<f64>,
    track_mm: Option<f64>,
) {
    let v = &file.vehicle;
    let (length_mm, width_mm) = (v.body_length.mm(), v.body_width.mm());
    if let (Some(wheelbase), Some(rear)) = (wheelbase_mm, rear_axle_mm)
        && wheelbase + rear > length_mm + 1500.0
    {
        let written = r.written("vehicle.wheelbase", &Kind::Length.print(wheelbase));
        r.problems.push(Problem::contradiction(
            "vehicle.wheelbase",
            written,
            format!(
                "with the rear overhang of {rear:.0} mm the front axle stands {:.0} mm ahead of the body's front; \
                 the overhang is measured from the body's rear face to the rear axle",
                wheelbase + rear - length_mm
            ),
        ));
    }
    if let Some(track) = track_mm
        && track > width_mm
    {
        let written = r.written("vehicle.track", &Kind::Length.print(track));
        r.problems.push(Problem::contradiction(
            "vehicle.track",
            written,
            format!("wider than the body at {width_mm:.0} mm; measure between the wheels' mid-lines"),
        ));
    }
}

fn roof_mass(r: &mut Reader<'_>, file: &File, survey: &Survey, raise: &Raise) -> (f64, Standing) {
    if let Some(mass) = file.survey.roof_mass {
        return (r.bound("survey.roof_mass", mass.kg(), 20.0, 5000.0, Kind::Mass), Standing::Given);
    }
    let (areal, standing) = r.fallback("survey.roof_mass", "roof_areal_mass", (0.0, 200.0), Kind::ArealMass);
    (areal * raised_length_mm(survey, raise) * survey.width_mm / 1e6, standing)
}

fn places(r: &mut Reader<'_>, file: &File) -> Vec<Limit> {
    let mut places = Vec::new();
    for (i, place) in file.service.places.iter().enumerate() {
        let field = format!("service.places[{i}]");
        if let Some(row) = r.keep(r.catalogue.limit(&field, place)) {
            r.list(&field, &row.place, &row.source, row.standing);
            places.push(row.clone());
        }
    }
    places
}

fn zones(r: &mut Reader<'_>, file: &File) -> [(&'static str, String); 3] {
    let own = &file.service.corrosivity;
    let salted = file.service.salted.unwrap_or_else(|| {
        if [&own.upper, &own.lower, &own.laps].iter().any(|z| z.is_none()) {
            r.assumed.push(Assumption {
                field: "service.salted".to_owned(),
                value: "true".to_owned(),
                source: "roads salted in winter: the worse case".to_owned(),
                standing: Standing::Assumed,
            });
        }
        true
    });
    let mut zone = |name: &'static str, words: &'static str, given: &Option<String>| {
        let field = format!("service.corrosivity.{name}");
        let category = match given {
            Some(category) => category.clone(),
            None => {
                let key = if salted { format!("zone_{name}_salted") } else { format!("zone_{name}") };
                r.note(&field, &key);
                r.keep(r.catalogue.fallback(&key)).map_or_else(String::new, |row| row.value.clone())
            }
        };
        r.keep(r.catalogue.corrosivity(&field, &category, crate::catalogue::MetalLost::Zinc));
        (words, category)
    };
    [
        zone("upper", "roof and upper sides", &own.upper),
        zone("lower", "lower sides, rear face, drip rails", &own.lower),
        zone("laps", "low laps and crevices", &own.laps),
    ]
}

/// Coats and sealant, and what a takeoff needs to know with them.
fn allowances(
    r: &mut Reader<'_>,
    file: &File,
    sheet: Option<&Sheet>,
    (insert, backing): (Option<&Section>, Option<&Section>),
) -> (PaintPlan, Allowances) {
    let paint = paint::paint(r, file, sheet);
    let (grain, finished_face) = faces(r, file);
    let spares = r.ratio(file.shop.spares, "shop.spares", "spares", 2.0);
    let bar_mm = r.or_fallback(file.shop.bar.map(Length::mm), "shop.bar", "bar", (1000.0, 20_000.0), Kind::Length).0;
    let mut default = |key: &str, most: f64| r.fallback("", key, (0.0, most), Kind::Length).0;
    let lap_bead =
        Bead::Rectangle { width_mm: default("bead_width", 200.0), depth_mm: default("bead_thickness", 20.0) };
    let kerf_mm = default("kerf", 20.0);
    let (edge_bead, sealant_waste, cartridge_l) = paint::sealant(r, file);
    let allowances = Allowances {
        grain,
        finished_face,
        spares,
        lap_bead,
        edge_bead,
        sealant_waste,
        cartridge_l,
        coats: paint.coats.iter().map(|coat| coat.order.clone()).collect(),
        pretreated_faces: paint.pretreated_faces(),
        bare_m2_m: (insert.map_or(0.0, Section::bare_m2_m), backing.map_or(0.0, Section::bare_m2_m)),
        bar_mm,
        kerf_mm,
    };
    (paint, allowances)
}

fn unit_masses(r: &mut Reader<'_>, paint: &PaintPlan) -> UnitMasses {
    let steel_kg_m3 = r.keep(r.catalogue.material("raise.insert", "carbon steel")).map_or(0.0, |m| m.density.kg_m3());
    let mut default = |key: &str, least: f64, most: f64, kind: Kind| r.fallback("", key, (least, most), kind).0;
    UnitMasses {
        window_kg_m2: default("window_areal_mass", 0.0, 200.0, Kind::ArealMass),
        old_skin_kg_m2: default("old_skin_areal_mass", 0.0, 200.0, Kind::ArealMass),
        coat_kg_m2: paint.skin_kg_m2().unwrap_or_else(|| default("coat_areal_mass", 0.0, 20.0, Kind::ArealMass)),
        rivet_kg: default("rivet_mass", 0.0, 0.2, Kind::Mass),
        sealant_kg_l: default("sealant_density", 0.0, 5000.0, Kind::Density) / 1000.0,
        steel_kg_m3,
    }
}

fn times(r: &mut Reader<'_>, file: &File, paint: &PaintPlan) -> Times {
    let s = &file.shop;
    let mut optional = |given: Option<Duration>, name: &str| {
        let bound = |d: Duration| r.bound(&format!("shop.{name}"), d.hours(), 0.0, 1000.0, Kind::Duration);
        given.map(bound).map(|hours| Time { hours, standing: Standing::Given })
    };
    let scrape = optional(s.scrape_time, "scrape_time");
    let straighten = optional(s.straighten_time, "straighten_time");
    let prime = optional(s.prime_time, "prime_time").filter(|_| paint.inside());
    let clamp = optional(s.clamp_time, "clamp_time");
    let deburr = optional(s.deburr_time, "deburr_time");
    for (own, name, rest, within) in
        [(clamp, "clamp_time", s.sheet_time, "sheet_time"), (deburr, "deburr_time", s.hole_time, "hole_time")]
    {
        if own.is_none() {
            let (value, source) = (format!("within shop.{within}"), "no task of its own".to_owned());
            r.assumed.push(Assumption { field: format!("shop.{name}"), value, source, standing: Standing::Assumed });
        } else if rest.is_none() {
            // The default holds both; with it the work would be counted twice.
            let fix = format!("shop.{name} is given: write what is left of {within} without it");
            r.problems.push(Problem::missing(format!("shop.{within}"), fix));
        }
    }
    let plugs = s.plug_time.is_some() || !file.hole_line.is_empty();
    let plug = plugs.then(|| r.time(s.plug_time, "shop.plug_time", "plug_time"));
    let [pretreat, paint_inside, paint_outside] = paint.times();
    Times {
        scrape,
        straighten,
        pretreat,
        prime,
        paint_inside,
        paint_outside,
        clamp,
        deburr,
        plug,
        window: r.time(s.window_time, "shop.window_time", "window_time"),
        lift: r.time(s.lift_time, "shop.lift_time", "lift_time"),
        post: r.time(s.post_time, "shop.post_time", "post_time"),
        sheet: r.time(s.sheet_time, "shop.sheet_time", "sheet_time"),
        hole: r.time(s.hole_time, "shop.hole_time", "hole_time"),
        rivet: r.time(s.rivet_time, "shop.rivet_time", "rivet_time"),
        seal: r.time(s.seal_time, "shop.seal_time", "seal_time"),
    }
}

fn price_book(r: &mut Reader<'_>, file: &File, paint: &PaintPlan) -> Option<PriceBook> {
    let p = file.prices.clone().unwrap_or_default();
    let coats: Vec<CoatPrice> = paint.coats.iter().map(|coat| coat.price.clone()).collect();
    let all = [p.sheet, p.sheet_cutting, p.insert, p.tube, p.rivet, p.plug, p.sealant, p.primer, p.labour];
    let of_paint = coats.iter().chain(&paint.pretreatment).map(|own| own.price);
    let currency = all.into_iter().chain(of_paint).flatten().next()?.money.currency;
    let share = |given: Option<Ratio>| given.map_or(0.0, Ratio::value);
    let book = PriceBook {
        currency,
        sheet: p.sheet,
        sheet_cutting: p.sheet_cutting,
        insert: p.insert,
        tube: p.tube,
        rivet: p.rivet,
        plug: p.plug,
        sealant: p.sealant,
        primer: p.primer,
        coats,
        pretreatment: paint.pretreatment.clone(),
        labour: p.labour,
        overhead: share(p.overhead),
        margin: share(p.margin),
        tax: share(p.tax),
    };
    r.problems.extend(book.problems());
    Some(book)
}

/// Bounds of fit-out and removed items; no more can be taken out than stands on the axles.
fn items(r: &mut Reader<'_>, file: &File) {
    let removed_kg: f64 = file.removed.iter().map(|item| item.mass.kg()).sum();
    if let Some(weights) = file.vehicle.axle_weights
        && removed_kg >= weights.front.kg() + weights.rear.kg()
    {
        let problem = format!("the axles carry only {:.0} kg", weights.front.kg() + weights.rear.kg());
        r.problems.push(Problem::contradiction("removed", format!("{removed_kg:.0} kg in all"), problem));
    }
    for (list, items) in [("fit_out", &file.fit_out), ("removed", &file.removed)] {
        for (i, item) in items.iter().enumerate() {
            r.bound(&format!("{list}[{i}].mass"), item.mass.kg(), 0.0, 20_000.0, Kind::Mass);
            r.length(&format!("{list}[{i}].x"), item.x, -3000.0, 25_000.0);
            r.length(&format!("{list}[{i}].z"), item.z, 0.0, 6000.0);
            if let Some(y) = item.y {
                r.length(&format!("{list}[{i}].y"), y, -1700.0, 1700.0);
            }
        }
    }
}
