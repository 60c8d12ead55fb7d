//! Turns the plan as written into numbers: units gone, defaults filled in and listed, contradictions found.

mod contacts;
mod crew;
mod cut_day;
mod cutting;
mod end_caps;
mod flatness;
mod handling;
mod hole_line;
mod life;
mod lift;
mod measure_up;
mod memory;
mod paint;
mod quoting;
mod reader;
mod shape;
mod skin;
mod skin_loads;
mod splice;
mod surroundings;

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
use crate::quantity::{Duration, Kind, Length, Pressure};
use crate::shop::hours::{Time, Times};
use crate::shop::odds;
use crate::shop::price_book::{PriceBook, as_written};
use crate::shop::quote::{CoatPrice, Prices};

use super::file::{self, File};
use crate::shared::Shared;

pub(super) use contacts::ContactPlan;
pub(super) use crew::CrewPlan;
use cut_day::{CutDay, cut_day};
pub(super) use cutting::{CuttingPlan, ShearPlan, StockBarPlan, stock_alone};
pub(super) use end_caps::{EndCapPlan, PiecePlan};
pub(super) use flatness::FlatnessPlan;
pub(super) use handling::{Air, CgHeight};
use handling::{Weighed, air, cg_height, springs};
pub(super) use hole_line::Drilled;
pub(super) use life::Lasting;
use life::lasting;
pub(super) use lift::LiftPlan;
pub(super) use measure_up::MeasureUpNumbers;
use measure_up::measure_up;
pub(super) use memory::Memory;
use memory::{
    Body, OfAir, OfEndCaps, OfFastening, OfFraming, OfItems, OfLiftPlan, OfPrices, OfRaise, OfRoof, OfService,
    OfSheets, OfShop, OfSurvey, OfVehicle, OfWork, Perhaps,
};
pub(super) use paint::{CoatPlan, PaintPlan};
use reader::Reader;
pub(super) use skin::{Trim, Walls};
use skin::{faces, factory_seams, sheet_rules, skin_sheet, trim, walls};
pub(super) use skin_loads::{EdgeSuction, Loads, Racking};
pub(super) use splice::{Joint, Splice};
pub(super) use surroundings::Zone;

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

/// The plan in numbers. What is large is shared with the plans read before and after it.
#[derive(Debug, Clone)]
pub(super) struct Resolved {
    pub survey: Shared<Survey>,
    pub raise: Shared<Raise>,
    pub rules: Shared<SheetRules>,
    pub walls: Walls,
    pub trim: Trim,
    pub skins: Shared<Skins>,
    pub sheet: Shared<Sheet>,
    pub rivet: Shared<BlindRivet>,
    pub pitch_mm: f64,
    pub drilled: Shared<Drilled>,
    pub post_wall: Perhaps<Sheet>,
    pub post: Perhaps<Section>,
    /// The roof bow, where it is not like the posts.
    pub bow: Perhaps<Section>,
    pub frames: Frames,
    pub insert: Shared<Section>,
    /// How inserts are joined to the posts, where the plan says it.
    pub splice: Perhaps<Splice>,
    pub backing: Shared<Section>,
    pub axle_weights: Option<PerAxle>,
    pub axle_ratings: Option<PerAxle>,
    pub tyre_ratings: Option<PerAxle>,
    pub gross_rating_kg: Option<f64>,
    pub wheelbase_mm: Option<f64>,
    pub rear_axle_mm: Option<f64>,
    pub track_mm: Option<f64>,
    pub cg: Shared<CgHeight>,
    pub springs: Option<RollSprings>,
    pub air: Air,
    pub aisle_mm: f64,
    pub measure_up: Shared<MeasureUpNumbers>,
    pub roof_mass_kg: f64,
    pub roof_standing: Standing,
    pub places: Shared<Vec<Limit>>,
    pub loads: Loads,
    /// Temperatures of skin and frame.
    pub flatness: Shared<FlatnessPlan>,
    pub lift: Perhaps<LiftPlan>,
    /// Sheets round the corners, where the plan says what they are.
    pub end_caps: Perhaps<EndCapPlan>,
    /// What eats at the skin, and what its life is reckoned by.
    pub lasting: Shared<Lasting>,
    /// Metals in contact.
    pub contacts: Shared<ContactPlan>,
    pub paint: Shared<PaintPlan>,
    pub allowances: Shared<Allowances>,
    pub cutting: Shared<CuttingPlan>,
    pub masses: UnitMasses,
    pub times: Times,
    pub crew: Perhaps<CrewPlan>,
    pub prices: Perhaps<Prices>,
    /// What may turn out otherwise than the quote says.
    pub odds: Shared<Vec<odds::Cause>>,
    pub cut_day: Shared<CutDay>,
    pub assumed: Vec<Assumption>,
}

/// Posts, bows, inserts and tube.
#[derive(Debug, Clone)]
pub(super) struct Framing {
    post: Perhaps<Section>,
    post_wall: Perhaps<Sheet>,
    bow: Perhaps<Section>,
    frames: Frames,
    insert: Perhaps<Section>,
    splice: Perhaps<Splice>,
    backing: Perhaps<Section>,
}

/// The empty vehicle on its wheels.
#[derive(Debug, Clone)]
pub(super) struct OnWheels {
    axle_weights: Option<PerAxle>,
    axle_ratings: Option<PerAxle>,
    tyre_ratings: Option<PerAxle>,
    gross_rating_kg: Option<f64>,
    wheelbase_mm: Option<f64>,
    rear_axle_mm: Option<f64>,
    track_mm: Option<f64>,
    cg: Shared<CgHeight>,
    springs: Option<RollSprings>,
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

/// Reads numbers out of the plan.
///
/// # Errors
/// Every independent problem.
pub(super) fn resolve(file: &File, document: &Document, catalogue: &Catalogue) -> Result<Resolved, Vec<Problem>> {
    read(file, (document, catalogue, true), &mut Memory::default())
}

/// Reads numbers out of one of many plans that have their catalogue in common: what comes from the same as in the last one is
/// taken over. What is assumed is not listed, and problems may quote another plan's words.
///
/// # Errors
/// Some problem.
pub(super) fn resolve_next(
    file: &File,
    document: &Document,
    catalogue: &Catalogue,
    memory: &mut Memory,
) -> Result<Resolved, Vec<Problem>> {
    read(file, (document, catalogue, false), memory)
}

/// What eats at the skin, and what lies on what.
fn wear(r: &mut Reader<'_>, file: &File, m: &mut Memory) -> (Perhaps<Lasting>, Shared<ContactPlan>) {
    let lasting = r.part(&mut m.lasting, file.into(), |r, of| lasting(r, of).map(Shared::from));
    (lasting, r.part(&mut m.contacts, file.into(), |r, of| contacts::contacts(r, of).into()))
}

/// What the shop buys and does, and at which prices.
struct BoughtAndDone {
    paint: Shared<PaintPlan>,
    allowances: Shared<Allowances>,
    cutting: Shared<CuttingPlan>,
    masses: UnitMasses,
    times: Times,
    crew: Perhaps<CrewPlan>,
    prices: Perhaps<Prices>,
    odds: Shared<Vec<odds::Cause>>,
}

fn bought_and_done(
    r: &mut Reader<'_>,
    file: &File,
    m: &mut Memory,
    (sheet, framing): (&Perhaps<Sheet>, &Framing),
) -> BoughtAndDone {
    let paint = r.part(&mut m.paint, (file.into(), sheet.clone()), |r, (of, sheet)| -> Shared<PaintPlan> {
        paint::paint(r, of, sheet.as_deref()).into()
    });
    let of_pieces = (file.into(), paint.clone(), framing.insert.clone(), framing.backing.clone());
    let allowances = r.part(&mut m.allowances, of_pieces, |r, (of, paint, insert, backing)| {
        allowances(r, of, paint, (insert.as_deref(), backing.as_deref())).into()
    });
    let cutting = r.part(&mut m.cutting, (file.into(), paint.clone()), |r, of| cutting::cutting(r, of).into());
    let masses = r.part(&mut m.masses, paint.clone(), |r, paint| unit_masses(r, paint));
    let of_work = (file.into(), paint.clone(), cutting.clone());
    let (times, crew) = r.part(&mut m.work, of_work, |r, (of, paint, cutting)| {
        (times(r, of, (paint, cutting)), crew::crew(r, of, paint).map(Shared::from))
    });
    let prices = r
        .part(&mut m.prices, (file.into(), paint.clone()), |r, (of, paint)| price_book(r, of, paint).map(Shared::from));
    let odds = r.part(&mut m.odds, file.into(), |r, of| quoting::odds(r, of).into());
    BoughtAndDone { paint, allowances, cutting, masses, times, crew, prices, odds }
}

fn read(
    file: &File,
    (document, catalogue, listing): (&Document, &Catalogue, bool),
    m: &mut Memory,
) -> Result<Resolved, Vec<Problem>> {
    let mut r = Reader { document, catalogue, listing, problems: Vec::new(), assumed: Vec::new() };
    let survey = r.part(&mut m.survey, file.into(), |r, of| survey(r, of).map(Shared::from));
    let raise = r.part(&mut m.raise, file.into(), |r, of| raise(r, of).map(Shared::from));
    let sheet = r.part(&mut m.sheet, file.into(), |r, of| skin_sheet(r, of).map(Shared::from));
    let rivet = r.part(&mut m.rivet, file.into(), |r, of| rivet(r, of).map(Shared::from));
    let drilled_for = (file.into(), file.fastening.jig_tolerance, rivet.as_ref().map(|rivet| rivet.hole_mm));
    let drilled =
        r.part(&mut m.drilled, drilled_for, |r, (of, jig, hole)| hole_line::drilled(r, of, *jig, *hole).into());
    let pitch_mm = r.length("fastening.pitch", file.fastening.pitch, 5.0, 400.0);
    let (walls, trim) = r.part(&mut m.shell, file.into(), |r, of| (walls(r, of), trim(r, of)));
    let rules = r.part(&mut m.rules, (file.into(), survey.clone(), sheet.clone()), |r, (of, survey, sheet)| {
        sheet_rules(r, of, survey.as_deref(), sheet.as_deref()).map(Shared::from)
    });
    let framing = r.part(&mut m.framing, file.into(), framing);
    let wheels = r.part(&mut m.wheels, file.into(), on_wheels);
    let (air, aisle_mm) = r.part(&mut m.air, (file.into(), survey.clone()), |r, (of, survey)| {
        (air(r, of, survey.as_deref()), aisle(r, of))
    });
    let measure_up = r.part(&mut m.measure_up, (file.into(), raise.clone()), |r, (of, raise)| {
        measure_up(r, of, raise.as_deref()).into()
    });
    let body = survey.clone().zip(raise.clone());
    let roof = r.part(&mut m.roof, (file.into(), body.clone()), |r, (of, body)| {
        body.as_ref().map(|(survey, raise)| roof_mass(r, of, survey, raise))
    });
    let places = r.part(&mut m.places, file.into(), |r, of| places(r, of).into());
    let loads =
        r.part(&mut m.loads, (file.into(), framing.frames.wind_m_s), |r, (of, wind)| skin_loads::loads(r, of, *wind));
    let flatness = r.part(&mut m.flatness, (file.into(), sheet.clone()), |r, (of, sheet)| {
        flatness::flatness(r, of, sheet.as_deref()).map(Shared::from)
    });
    let of_lift = (file.into(), body.clone(), roof, loads.air_density_kg_m3);
    let lift = r.part(&mut m.lift, of_lift, lift_plan);
    let (lasting, contacts) = wear(&mut r, file, m);
    let bought = bought_and_done(&mut r, file, m, (&sheet, &framing));
    let cut_day =
        r.part(&mut m.cut_day, (file.into(), body.clone()), |r, (of, body)| cut_day(r, of, both(body)).into());
    r.part(&mut m.items, file.into(), |r, of| items(r, of));

    let sheets = (file.into(), body.clone(), rules.clone(), sheet.clone());
    let (skins, end_caps) = r.part(&mut m.skins, sheets, sheets_laid_out);
    hole_line::lies_where_it_says(&mut r, &drilled, (both(&body), skins.as_deref()), (rules.as_deref(), pitch_mm));
    if let (Some(survey), Some(raise), Some(rules), Some(skins), Some(sheet), Some(rivet)) =
        (survey, raise, rules, skins, sheet, rivet)
        && let (Some(insert), Some(backing), Some((roof_mass_kg, roof_standing)), Some(flatness), Some(lasting), true) =
            (framing.insert, framing.backing, roof, flatness, lasting, r.problems.is_empty())
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
            post_wall: framing.post_wall,
            post: framing.post,
            bow: framing.bow,
            frames: framing.frames,
            insert,
            splice: framing.splice,
            backing,
            axle_weights: wheels.axle_weights,
            axle_ratings: wheels.axle_ratings,
            tyre_ratings: wheels.tyre_ratings,
            gross_rating_kg: wheels.gross_rating_kg,
            wheelbase_mm: wheels.wheelbase_mm,
            rear_axle_mm: wheels.rear_axle_mm,
            track_mm: wheels.track_mm,
            cg: wheels.cg,
            springs: wheels.springs,
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
            lasting,
            contacts,
            paint: bought.paint,
            allowances: bought.allowances,
            cutting: bought.cutting,
            masses: bought.masses,
            times: bought.times,
            crew: bought.crew,
            prices: bought.prices,
            odds: bought.odds,
            cut_day,
            assumed: r.assumed,
        });
    }
    Err(r.problems)
}

/// Survey and raise side by side.
fn both(body: &Body) -> Option<(&Survey, &Raise)> {
    body.as_ref().map(|(survey, raise)| (&**survey, &**raise))
}

fn framing(r: &mut Reader<'_>, file: &OfFraming) -> Framing {
    let post = file.survey.post.as_ref().and_then(|p| r.section("survey.post", p, true));
    let post_wall = post_wall(r, file, post.as_ref());
    let bow = bow_section(r, file, post.is_some());
    let frames = frames(r, file);
    let insert = match &file.raise.insert {
        Some(choice) => r.section("raise.insert", choice, true),
        None => r.default_section("raise.insert"),
    };
    let splice = splice::splice(r, file, (post.as_ref(), insert.as_ref()));
    let backing = r.default_section("default section");
    Framing {
        post: post.map(Shared::from),
        post_wall: post_wall.map(Shared::from),
        bow: bow.map(Shared::from),
        frames,
        insert: insert.map(Shared::from),
        splice: splice.map(Shared::from),
        backing: backing.map(Shared::from),
    }
}

fn on_wheels(r: &mut Reader<'_>, file: &OfVehicle) -> OnWheels {
    let v = &file.vehicle;
    let axle_weights = r.per_axle("vehicle.axle_weights", v.axle_weights);
    let axle_ratings = r.per_axle("vehicle.axle_ratings", v.axle_ratings);
    let tyre_ratings = r.per_axle("vehicle.tyre_ratings", v.tyre_ratings);
    let gross_rating_kg = v.gross_rating.map(|m| r.bound("vehicle.gross_rating", m.kg(), 1000.0, 60_000.0, Kind::Mass));
    let wheelbase_mm = r.optional_length("vehicle.wheelbase", v.wheelbase, 1500.0, 12_000.0);
    let rear_axle_mm = r.optional_length("vehicle.rear_overhang", v.rear_overhang, 0.0, 8000.0);
    let track_mm = r.optional_length("vehicle.track", v.track, 1000.0, 2700.0);
    axle_problems(r, file, wheelbase_mm, rear_axle_mm, track_mm);
    let weighed = Weighed { axle_weights, wheelbase_mm, track_mm };
    let cg = cg_height(r, file, &weighed);
    let springs = springs(r, file, &weighed, &cg);
    OnWheels {
        axle_weights,
        axle_ratings,
        tyre_ratings,
        gross_rating_kg,
        wheelbase_mm,
        rear_axle_mm,
        track_mm,
        cg: cg.into(),
        springs,
    }
}

fn lift_plan(r: &mut Reader<'_>, (of, body, roof, air_density_kg_m3): &OfLiftPlan) -> Perhaps<LiftPlan> {
    lift::lift(r, of, both(body)?, (*roof)?, *air_density_kg_m3).map(Shared::from)
}

fn sheets_laid_out(r: &mut Reader<'_>, (of, body, rules, sheet): &OfSheets) -> (Perhaps<Skins>, Perhaps<EndCapPlan>) {
    let (skins, end_caps) = skins(r, of, both(body), (rules.as_deref(), sheet.as_deref()));
    (skins.map(Shared::from), end_caps.map(Shared::from))
}

/// The end caps, and all sheets laid out where nothing speaks against the raise.
fn skins(
    r: &mut Reader<'_>,
    file: &OfEndCaps,
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

fn survey(r: &mut Reader<'_>, file: &OfSurvey) -> Option<Survey> {
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
fn aisle(r: &mut Reader<'_>, file: &OfAir) -> f64 {
    let given = file.survey.aisle.map(Length::mm);
    let aisle_mm = r.or_fallback(given, "survey.aisle", "aisle", (200.0, 2000.0), Kind::Length).0;
    let width_mm = file.vehicle.body_width.mm();
    if given.is_some() && aisle_mm >= width_mm {
        let problem = format!("wider than the body at {width_mm:.0} mm");
        r.problems.push(Problem::contradiction("survey.aisle", format!("{aisle_mm:.0} mm"), problem));
    }
    aisle_mm
}

fn raise(r: &mut Reader<'_>, file: &OfRaise) -> Option<Raise> {
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

fn rivet(r: &mut Reader<'_>, file: &OfFastening) -> Option<BlindRivet> {
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
        body: f.body.clone(),
        // Without product and body the weaker metal is meant; a protruding head where no product says otherwise.
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

/// The wall of a post as the inner part of a joint.
fn post_wall(r: &mut Reader<'_>, file: &OfFraming, post: Option<&Section>) -> Option<Sheet> {
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
fn bow_section(r: &mut Reader<'_>, file: &OfFraming, posts_known: bool) -> Option<Section> {
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

fn frames(r: &mut Reader<'_>, file: &OfFraming) -> Frames {
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
    file: &OfVehicle,
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

fn roof_mass(r: &mut Reader<'_>, file: &OfRoof, survey: &Survey, raise: &Raise) -> (f64, Standing) {
    if let Some(mass) = file.survey.roof_mass {
        return (r.bound("survey.roof_mass", mass.kg(), 20.0, 5000.0, Kind::Mass), Standing::Given);
    }
    let (areal, standing) = r.fallback("survey.roof_mass", "roof_areal_mass", (0.0, 200.0), Kind::ArealMass);
    (areal * raised_length_mm(survey, raise) * survey.width_mm / 1e6, standing)
}

fn places(r: &mut Reader<'_>, file: &OfService) -> Vec<Limit> {
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

fn allowances(
    r: &mut Reader<'_>,
    file: &OfShop,
    paint: &PaintPlan,
    (insert, backing): (Option<&Section>, Option<&Section>),
) -> Allowances {
    let (grain, finished_face) = faces(r, file);
    let spares = r.ratio(file.shop.spares, "shop.spares", "spares", 2.0);
    let mut default = |key: &str, most: f64| r.fallback("", key, (0.0, most), Kind::Length).0;
    let lap_bead =
        Bead::Rectangle { width_mm: default("bead_width", 200.0), depth_mm: default("bead_thickness", 20.0) };
    let (edge_bead, sealant_waste, cartridge_l) = paint::sealant(r, file);
    Allowances {
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
    }
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

fn times(r: &mut Reader<'_>, file: &OfWork, (paint, cutting): (&PaintPlan, &CuttingPlan)) -> Times {
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
    let given = |hours| Time { hours, standing: Standing::Given };
    Times {
        shear_cut: cutting.shear.as_ref().map(|shear| given(shear.hours)),
        saw_cut: cutting.saw_hours.map(given),
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

fn price_book(r: &mut Reader<'_>, file: &OfPrices, paint: &PaintPlan) -> Option<Prices> {
    let book = Option::as_ref(&file.prices);
    let first = book.and_then(PriceBook::currency);
    let currency = first.or_else(|| paint.prices().next().map(|price| price.money.currency))?;
    let coats: Vec<CoatPrice> = paint.coats.iter().map(|coat| coat.price.clone()).collect();
    let prices = Prices { currency, book: file.prices.clone(), coats, pretreatment: paint.pretreatment.clone() };
    r.problems.extend(as_written(prices.problems(), r.document));
    Some(prices)
}

/// Bounds of fit-out and removed items; no more can be taken out than stands on the axles.
fn items(r: &mut Reader<'_>, file: &OfItems) {
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
