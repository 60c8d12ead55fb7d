//! Evaluates a plan: its essentials, then all that follows from them, and every check.

use crate::body::limits::{place_checks, rating_check};
use crate::body::masses::MassItem;
use crate::body::measures::BodyMeasures;
use crate::body::raise::{Raise, RaisedBody};
use crate::body::skins::{Sheet, Skins, Unpatched};
use crate::body::survey::{Side, Survey};
use crate::catalogue::Catalogue;
use crate::check::{Check, Level, Standing, Verdict, worst};
use crate::error::{Error, Problem};

use super::Plan;
use super::bows;
use super::details;
use super::drilling;
use super::effects::{effects, reminders, yardstick_checks};
use super::end_caps;
use super::essentials::{Essentials, Worked};
use super::exits;
use super::file::File;
use super::flatness;
use super::gate::{gate, gate_check};
use super::joints::{explain, joint_checks};
use super::lift;
use super::metrics::{Metric, metrics};
use super::offer::offer;
use super::order::order;
use super::outlook::life_checks;
use super::paint;
use super::pairs;
use super::resolve::{Assumption, Resolved};
use super::results::{Evaluation, MassSummary};
use super::schedule;
use super::splices;
use super::thinned::{thinned, thinned_checks};

pub(super) fn evaluate(plan: &Plan) -> Result<Evaluation, Error> {
    let (file, r) = (plan.file(), plan.resolved.as_ref());
    let mut e = Essentials::of(file, r, plan.catalogue(), (&mut Worked::default(), true))?;
    explain(r, &mut e.joints)?;
    let flatness = flatness::flatness(r, &e.loads, &e.panel_sizes.sizes);
    let items = e.items.list();
    let mut metrics = metrics(r, &e);
    let all = |problems: Vec<Problem>| Error::Input(problems.into_iter().map(Into::into).collect());
    let drilling =
        drilling::drilling(r, (&e.lines, &e.relaid, &e.rivet_lots), plan.catalogue(), file.units).map_err(all)?;
    let bows = bows::bows(r, e.mass.after.map(|(low, _)| low.mass_kg)).map_err(all)?;
    let sway = bows.as_ref().and_then(|bows| bows.answers.first()).map(|answer| answer.sway_stiffness_after_n_mm);
    metrics.push(Metric { name: "sway_stiffness_after_n_mm", value: sway });
    let splices =
        splices::splices(r, &e.raised, (bows.as_ref(), e.cut_list.inserts.as_ref()), plan.catalogue()).map_err(all)?;
    let mut checks = checks_of_the_body(file, r, &e, &items);
    checks.extend(bows::checks(r, bows.as_ref()));
    checks.extend(splices::checks(r, &splices));
    let lift = lift::lift(r);
    checks.extend(lift::checks(r, lift.as_ref()));
    let end_caps = end_caps::end_caps(r, plan.catalogue());
    checks.extend(end_caps::checks(r, file, end_caps.as_ref(), plan.catalogue()));
    checks.extend(joint_checks(&e.joints, file).into_iter().chain(flatness::checks(r, &e.loads, &flatness)));
    checks.extend(drilling::checks(&r.drilled.old_lines, &e.relaid, file.units));
    checks.extend(life_checks(file, &e.outlook));
    let thinned = thinned(r, file, &e.joints, &e.outlook)?;
    checks.extend(thinned_checks(&thinned));
    let pairs = pairs::pairs(r, &e.takeoff, plan.catalogue()).map_err(all)?;
    checks.extend(pairs::checks(&pairs));
    checks.extend(paint::check(r, plan.catalogue())?);
    let details = details::details(r, &e.takeoff, &e.lines, plan.catalogue()).map_err(|problem| all(vec![problem]))?;
    let gate = gate(&r.cut_day.gate, &checks);
    checks.push(gate_check(&gate));
    let verdict = worst(&checks);
    let offer = e.quote.as_ref().map(|quote| offer((file, r), quote, (&e.takeoff, &e.cut_list), verdict));
    let paint = paint::paint(r, &e.takeoff, plan.catalogue()).map_err(all)?;
    let hanging = schedule::hanging_order(&r.skins, r.crew.as_deref()).map_err(|problem| all(vec![problem]))?;
    let schedule = schedule::schedule(r, (&e.lines, e.takeoff.topcoat_area_m2), &e.cut_list, &hanging).map_err(all)?;
    Ok(Evaluation {
        name: file.name.clone(),
        invented: file.invented,
        units: file.units,
        side_names: side_names(file),
        sheet: r.sheet.label.clone(),
        sheet_thickness_mm: r.sheet.thickness_mm,
        sheet_areal_mass_kg_m2: r.sheet.areal_mass_kg_m2,
        rivet: r.rivet.label.clone(),
        order: order(r, (&e.takeoff, &e.cut_list), (&e.rivet_lots, drilling.bits), file),
        rivet_lots: e.rivet_lots,
        axles_mm: r.rear_axle_mm.zip(r.wheelbase_mm).map(|(rear, base)| (rear, rear + base)),
        survey: Survey::clone(&r.survey),
        raise: Raise::clone(&r.raise),
        effects: effects(r, &e.raised, &e.body, &items, &e.mass),
        body: BodyMeasures::clone(&e.body),
        skins: Skins::clone(&r.skins),
        seam_policy: r.rules.policy,
        lines: e.lines.to_vec(),
        drilling,
        old_lines: r.drilled.old_lines.clone(),
        pairs,
        details,
        takeoff: e.takeoff,
        cut_list: e.cut_list,
        loads: e.loads,
        flatness,
        reminders: reminders(r, &e.raised),
        raised: RaisedBody::clone(&e.raised),
        items,
        mass: e.mass,
        bows,
        ledger: r.cut_day.ledger.clone(),
        exits: exits::count(file),
        gate,
        splices,
        lift,
        end_caps,
        joints: e.joints,
        checks,
        metrics,
        outlook: e.outlook,
        thinned,
        life_cost: e.life_cost,
        paint,
        tasks: e.tasks,
        hanging_order: hanging,
        schedule,
        quote: e.quote,
        offer,
        causes: r.odds.clone(),
        assumed: assumed(r),
        overrides: plan.catalogue().overrides().to_vec(),
    })
}

/// Checks of heights, weights, exits, laps and patches.
fn checks_of_the_body(file: &File, r: &Resolved, e: &Essentials, items: &[MassItem]) -> Vec<Check> {
    let mut checks = checks_of_places(r, e.raised.heights.overall_mm);
    checks.extend(headroom_check(file, &e.raised));
    checks.extend(weight_checks(r, &e.mass));
    checks.extend(yardstick_checks(r, items, &e.mass));
    checks.extend(exits::checks(file, r, &e.raised));
    checks.push(ledger_check(r));
    checks.push(water_check(r));
    checks.extend(patch_checks(r));
    checks
}

/// Those of an evaluation's checks that follow from the essentials: without lift, bows, splices, end caps, flatness, rusted joints,
/// pairs of metals and the gate.
pub(super) fn checks_of_essentials(
    (file, r): (&File, &Resolved),
    catalogue: &Catalogue,
    e: &mut Essentials,
) -> Result<Vec<Check>, Error> {
    explain(r, &mut e.joints)?;
    let mut checks = checks_of_the_body(file, r, e, &e.items.list());
    checks.extend(joint_checks(&e.joints, file));
    checks.extend(drilling::checks(&r.drilled.old_lines, &e.relaid, file.units));
    checks.extend(life_checks(file, &e.outlook));
    checks.extend(paint::check(r, catalogue)?);
    Ok(checks)
}

pub(super) fn side_names(file: &File) -> [&'static str; 2] {
    match file.driver_side {
        None => ["left side", "right side"],
        Some(super::file::Side::Left) => ["driver's side (left)", "door side (right)"],
        Some(super::file::Side::Right) => ["door side (left)", "driver's side (right)"],
    }
}

/// Defaults and rows that are not read in their source, then the rule sets that are cited from memory.
fn assumed(r: &Resolved) -> Vec<Assumption> {
    let rule = |value: &str| Assumption {
        field: "rule set".to_owned(),
        value: value.to_owned(),
        source: "cited from memory; confirm against the standard before relying on it".to_owned(),
        standing: Standing::Memory,
    };
    let rules = [
        "EN 1993-1-3:2006 8.3, Tables 8.1 and 8.2",
        "AISI S100-16 J4 and J6, screws, by analogy",
        "UN R107 Annex 3, 28 degrees on a tilting platform",
        "49 CFR 571.220 S5.2, width of the roof plate",
        "UN R111, 23 degrees on a tilting platform or 4 m/s2 calculated, tank vehicles",
    ];
    r.assumed.iter().cloned().chain(rules.map(rule)).collect()
}

/// The new height and the width against the limits of each place.
fn checks_of_places(r: &Resolved, overall_mm: f64) -> Vec<Check> {
    let mut checks = Vec::new();
    if r.places.is_empty() {
        let none = Check::compare("overall height", "", (Some(overall_mm), None, "mm"), Level::Stated, Standing::Given);
        checks.push(none.because("no place is named: list where the vehicle is to go (service.places)"));
    }
    for place in &r.places {
        checks.extend(place_checks(place, overall_mm, r.survey.width_mm, Standing::Given));
    }
    checks
}

fn headroom_check(file: &File, raised: &RaisedBody) -> Option<Check> {
    let wanted = file.raise.headroom?;
    Some(
        Check::compare(
            "headroom",
            "wanted by the plan",
            (Some(wanted.mm()), Some(raised.headroom_mm), "mm"),
            Level::Stated,
            Standing::Given,
        )
        .by("inside height + raise − floor build-up − ceiling build-up", []),
    )
}

fn weight_checks(r: &Resolved, mass: &MassSummary) -> Vec<Check> {
    let standing = Standing::Assumed;
    let axles = mass.axles_after_kg;
    let (front, rear) = (axles.map(|a| a.0), axles.map(|a| a.1));
    let gross = rating_check("gross mass", "vehicle", mass.after.map(|b| b.0.mass_kg), r.gross_rating_kg, standing);
    let on_top = "what the plan lists, empty of people, water, fuel that was not weighed, and cargo: they come on top";
    vec![
        rating_check("axle load", "front axle", front, r.axle_ratings.map(|a| a.front_kg), standing),
        rating_check("axle load", "rear axle", rear, r.axle_ratings.map(|a| a.rear_kg), standing),
        rating_check("tyre load", "front axle", front, r.tyre_ratings.map(|a| a.front_kg), standing),
        rating_check("tyre load", "rear axle", rear, r.tyre_ratings.map(|a| a.rear_kg), standing),
        if gross.verdict == Verdict::Passes { gross.because(on_top) } else { gross },
    ]
}

/// Every line of the ledger has its one action.
fn ledger_check(r: &Resolved) -> Check {
    let open: Vec<&str> = r.cut_day.ledger.iter().filter(|e| e.action.is_none()).map(|e| e.name.as_str()).collect();
    let listed = r.cut_day.ledger.iter().filter(|e| e.kind.runs()).count();
    let sides = (Some(open.len() as f64), Some(0.0), "lines without an action");
    let check =
        Check::compare("ledger of the cut", "each thing gets one action", sides, Level::Stated, Standing::Given);
    if !open.is_empty() {
        let why = format!("not known what becomes of {}: see their notes", open.join(", "));
        return check.demoted(Verdict::NotAssessed, why);
    }
    if listed == 0 {
        let why =
            "no wires, hoses or ducts are listed, and every bus has some in its roof: look behind the ceiling (ledger)";
        return check.demoted(Verdict::NotAssessed, why);
    }
    check.because("of what the plan lists; look behind ceiling and panels for what it does not")
}

/// What stays among the posts fills its bay, or patches do.
fn patch_checks(r: &Resolved) -> impl Iterator<Item = Check> {
    let patches = || Side::BOTH.into_iter().flat_map(|side| r.skins.patches(side));
    let all = patches().map(|(sheet, patch)| (sheet.side, patch.beside.as_str()));
    let mut subjects: Vec<(Side, &str)> =
        all.chain(r.skins.unpatched.iter().map(|open| (open.side, open.beside.as_str()))).collect();
    subjects.sort_unstable();
    subjects.dedup();
    subjects.into_iter().map(move |(side, name)| {
        let own: Vec<&Sheet> =
            patches().filter(|(sheet, p)| sheet.side == side && p.beside == name).map(|(sheet, _)| sheet).collect();
        let open: Vec<&Unpatched> = r.skins.unpatched.iter().filter(|o| o.side == side && o.beside == name).collect();
        let left_mm = open.iter().map(|o| o.to_mm - o.from_mm).sum::<f64>();
        let sides = (Some(left_mm), Some(0.0), "mm beside it left open");
        let check = Check::compare("patch panels", "", sides, Level::Stated, Standing::CommonPractice)
            .at(format!("{name}, {}", side.name()))
            .by("width of the bay beside it − patches, beneath the sheet above, common practice", []);
        if open.is_empty() {
            let names: Vec<&str> = own.iter().map(|sheet| sheet.id.as_str()).collect();
            let feature = r.survey.features.iter().find(|f| f.name == name && f.is_on(side));
            let below = feature.filter(|f| f.bottom_mm > r.rules.lower_edge_mm + r.rules.edge_mm);
            let beneath = below.map_or_else(String::new, |f| {
                let (low_mm, high_mm) = (r.rules.lower_edge_mm, f.bottom_mm);
                format!("; beneath it, from {low_mm:.0} mm up to {high_mm:.0} mm, the old side stays as it is")
            });
            return check.because(format!("{} fill the bay beside {name}{beneath}", names.join(" and ")));
        }
        let told = open.iter().map(|o| {
            format!(
                "{:.0} mm beside {name}, from {:.0} mm to {:.0} mm: {}",
                o.to_mm - o.from_mm,
                o.from_mm,
                o.to_mm,
                o.reason
            )
        });
        check.demoted(Verdict::NotAssessed, told.collect::<Vec<_>>().join("; "))
    })
}

/// No lap leads water behind a sheet.
fn water_check(r: &Resolved) -> Check {
    let faults: Vec<&str> = r.skins.laps.iter().filter_map(|lap| lap.fault.as_deref()).collect();
    let sides = (Some(faults.len() as f64), Some(0.0), "laps that lead water behind a sheet");
    let check =
        Check::compare("laps and water", "common practice, no source", sides, Level::Stated, Standing::CommonPractice)
            .at(format!("{} laps", r.skins.laps.len()))
            .by("forward over rearward, upper over lower, under the drip rail", []);
    if faults.is_empty() { check } else { check.because(faults.join("; ")) }
}
