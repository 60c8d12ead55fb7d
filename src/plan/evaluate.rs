//! Evaluates a plan: layout, takeoff, masses, joints, limits, outlook, order, hours, price.

use crate::body::limits::{place_checks, rating_check};
use crate::body::masses::{Balance, Change, Group, MassItem};
use crate::body::measures::BodyMeasures;
use crate::body::raise::RaisedBody;
use crate::body::rivet_lines::{LineKind, RivetLine, set_out};
use crate::body::skins::{Sheet, Unpatched};
use crate::body::stability::{RollSprings, rigid_tilt_angle_deg, static_stability_factor};
use crate::body::survey::Side;
use crate::body::takeoff::{Takeoff, with_spares};
use crate::catalogue::{Catalogue, CoatingFamily, MetalLost};
use crate::check::{Check, Level, Standing, Verdict};
use crate::error::{Error, Problem};
use crate::mechanics::corrosion::{Layer, Rates, life_range, perforation_range};
use crate::mechanics::joint::{Demand, Format, Lap, Method, Report};
use crate::mechanics::sheet::Sheet as Mechanical;
use crate::shop::{hours, quote};

use super::Plan;
use super::bows;
use super::drilling;
use super::effects::{effects, on_springs, reminders, yardstick_checks};
use super::end_caps;
use super::exits;
use super::file::File;
use super::flatness::{self, FlatnessSummary};
use super::gate::{gate, gate_check};
use super::lift;
use super::metrics::Ratings;
use super::relaid::{Relaid, relay};
use super::resolve::{Assumption, Resolved};
use super::results::{Evaluation, HeightRange, JointCase, MassSummary, OrderLine, ZoneOutlook};
use super::rivet_lots::{RivetLot, by_length, rivet_lots};
use super::schedule;
use super::skin_loads::{LoadCase, continuity, load_case, on_line};
use super::splices;

/// What a choice between sheets, rivets and spacings turns on; everything else of an evaluation follows from more of the plan.
pub(super) struct Essentials {
    pub raised: RaisedBody,
    pub body: BodyMeasures,
    pub lines: Vec<RivetLine>,
    pub relaid: Vec<Relaid>,
    pub rivet_lots: Vec<RivetLot>,
    pub takeoff: Takeoff,
    pub loads: LoadCase,
    pub flatness: FlatnessSummary,
    pub items: Vec<MassItem>,
    pub mass: MassSummary,
    pub joints: Vec<JointCase>,
    pub outlook: Vec<ZoneOutlook>,
    pub tasks: Vec<hours::Task>,
    pub quote: Option<quote::Quote>,
}

impl Essentials {
    /// Works them out.
    ///
    /// # Errors
    /// A joint that cannot be, or a catalogue whose own rows are unusable.
    pub(super) fn of(file: &File, r: &Resolved, catalogue: &Catalogue) -> Result<Self, Error> {
        let raised = r.raise.apply(&r.survey);
        let all = |problems: Vec<Problem>| Error::Input(problems.into_iter().map(Into::into).collect());
        let mut lines = set_out(&r.survey, &r.raise, &r.skins, r.rules.edge_mm, r.pitch_mm);
        let relaid = relay(&r.drilled.old_lines, &mut lines).map_err(all)?;
        let rivet_lots = rivet_lots(r, file.fastening.product.as_deref(), &lines, catalogue);
        let lots: Vec<usize> =
            by_length(&rivet_lots).iter().map(|(_, own)| own.iter().map(|lot| lot.stacked.holes).sum()).collect();
        let counted = (lines.as_slice(), lots.as_slice(), r.drilled.own_holes());
        let takeoff = Takeoff::count(&r.survey, &r.raise, &raised, &r.skins, &r.rules, counted, &r.allowances);
        let body = BodyMeasures::of(&r.survey, &r.raise, &raised, r.air.skirt_mm, r.aisle_mm);
        let items = mass_items(file, r, &raised, &takeoff, &lines);
        let mass = mass_summary(r, &items);
        let loads = load_case(r, &body, mass.axles_after_kg.map(|(front, _)| front));
        let flatness = flatness::flatness(r, &loads);
        let joints = joint_cases(r, &loads, &lines)?;
        let outlook = outlook(r, catalogue)?;
        let tasks = hours::tasks(&takeoff, &r.times);
        let person_hours = tasks.iter().map(|t| t.hours).sum();
        let quote = r.prices.as_ref().map(|book| quote::quote(&takeoff, r.sheet.areal_mass_kg_m2, person_hours, book));
        Ok(Self {
            raised,
            body,
            lines,
            relaid,
            rivet_lots,
            takeoff,
            loads,
            flatness,
            items,
            mass,
            joints,
            outlook,
            tasks,
            quote,
        })
    }
}

pub(super) fn evaluate(plan: &Plan) -> Result<Evaluation, Error> {
    let (file, r) = (plan.file(), plan.resolved.as_ref());
    let Essentials {
        raised,
        body,
        lines,
        relaid,
        rivet_lots,
        takeoff,
        loads,
        flatness,
        items,
        mass,
        joints,
        outlook,
        tasks,
        quote,
    } = Essentials::of(file, r, plan.catalogue())?;
    let all = |problems: Vec<Problem>| Error::Input(problems.into_iter().map(Into::into).collect());
    let drilling = drilling::drilling(r, (&lines, &relaid, &rivet_lots), plan.catalogue(), file.units).map_err(all)?;
    let bows = bows::bows(r, mass.after.map(|(low, _)| low.mass_kg)).map_err(all)?;
    let splices = splices::splices(r, &raised, bows.as_ref(), plan.catalogue()).map_err(all)?;
    let mut checks = checks_of_places(r, raised.heights.overall_mm);
    checks.extend(headroom_check(file, &raised));
    checks.extend(weight_checks(r, &mass));
    checks.extend(yardstick_checks(r, &items, &mass));
    checks.extend(exits::checks(file, r, &raised));
    checks.push(ledger_check(r));
    checks.push(water_check(r));
    checks.extend(patch_checks(r));
    checks.extend(bows::checks(r, bows.as_ref()));
    checks.extend(splices::checks(r, &splices));
    let lift = lift::lift(r);
    checks.extend(lift::checks(r, lift.as_ref()));
    let end_caps = end_caps::end_caps(r, plan.catalogue());
    checks.extend(end_caps::checks(r, file, end_caps.as_ref(), plan.catalogue()));
    checks.extend(joint_checks(&joints, file).into_iter().chain(flatness::checks(r, &flatness)));
    checks.extend(drilling::checks(&r.drilled.old_lines, &relaid, file.units));
    checks.extend(life_checks(file, &outlook));
    let gate = gate(&r.cut_day.gate, &checks);
    checks.push(gate_check(&gate));
    let hanging = schedule::hanging_order(&r.skins, r.crew.as_ref()).map_err(|problem| all(vec![problem]))?;
    let schedule = schedule::schedule(r, &lines, &hanging).map_err(all)?;
    Ok(Evaluation {
        name: file.name.clone(),
        invented: file.invented,
        units: file.units,
        side_names: side_names(file),
        sheet: r.sheet.label.clone(),
        sheet_thickness_mm: r.sheet.thickness_mm,
        sheet_areal_mass_kg_m2: r.sheet.areal_mass_kg_m2,
        ratings: Ratings::of(r),
        rivet: r.rivet.label.clone(),
        order: order(r, &takeoff, (&rivet_lots, drilling.bits), file),
        rivet_lots,
        axles_mm: r.rear_axle_mm.zip(r.wheelbase_mm).map(|(rear, base)| (rear, rear + base)),
        survey: r.survey.clone(),
        raise: r.raise.clone(),
        effects: effects(r, &raised, &body, &items, &mass),
        body,
        skins: r.skins.clone(),
        seam_policy: r.rules.policy,
        lines,
        drilling,
        old_lines: r.drilled.old_lines.clone(),
        takeoff,
        loads,
        flatness,
        reminders: reminders(r, &raised),
        raised,
        items,
        mass,
        bows,
        ledger: r.cut_day.ledger.clone(),
        exits: exits::count(file),
        gate,
        splices,
        lift,
        end_caps,
        joints,
        checks,
        outlook,
        tasks,
        hanging_order: hanging,
        schedule,
        quote,
        assumed: assumed(r),
        overrides: plan.catalogue().overrides().to_vec(),
    })
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

fn mass_items(file: &File, r: &Resolved, raised: &RaisedBody, takeoff: &Takeoff, lines: &[RivetLine]) -> Vec<MassItem> {
    let (survey, raise, unit) = (&r.survey, &r.raise, &r.masses);
    let mut items = Vec::new();
    let mut item = |name: String, group, change, mass_kg: f64, (x, y, z): (f64, f64, f64), standing| {
        if mass_kg > 0.0 {
            items.push(MassItem { name, group, change, mass_kg, x_mm: x, y_mm: y, z_mm: z, standing });
        }
    };
    let (added, removed) = (Change::Added, Change::Removed);
    let skin_kg_m2 = r.sheet.areal_mass_kg_m2 + unit.coat_kg_m2;
    for sheet in &r.skins.sheets {
        let (x, z) = (f64::midpoint(sheet.x0_mm, sheet.x1_mm), f64::midpoint(sheet.z0_mm, sheet.z1_mm));
        let y = sheet.side.sign() * raised.half_width_on_mm(survey, sheet.side, z);
        let kg = sheet.area_m2() * skin_kg_m2;
        item(format!("skin {}", sheet.id), Group::Skin, added, kg, (x, y, z), r.sheet.standing);
    }
    for end in &r.skins.ends {
        let at = (end.x_mm, end.y_mm, end.z_mm);
        item(format!("skin {}", end.id), Group::Skin, added, end.area_m2() * skin_kg_m2, at, r.sheet.standing);
    }
    let insert_kg = r.insert.properties.mass_kg_m(unit.steel_kg_m3) * raised.insert_length_mm / 1000.0;
    let insert_z = raise.cut_mm + raise.height_mm / 2.0;
    for (i, &x) in raised.lengthened_posts_mm.iter().enumerate() {
        for side in Side::BOTH {
            let y = side.sign() * raised.half_width_on_mm(survey, side, insert_z);
            let name = format!("insert, post {}, {}", raise.first_post + i + 1, side.name());
            item(name, Group::Frame, added, insert_kg, (x, y, insert_z), r.insert.standing);
        }
    }
    // Tube, rivets and sealant are spread along the rivet lines: one middle for all of them.
    let middle = skin_middle(r);
    let backing_kg = r.backing.properties.mass_kg_m(unit.steel_kg_m3) * takeoff.backing.total_m;
    item("backing tube".to_owned(), Group::Frame, added, backing_kg, middle, r.backing.standing);
    let holes: usize = lines.iter().map(|l| l.holes_mm.len()).sum();
    let rivets_kg = holes as f64 * unit.rivet_kg;
    item("rivets".to_owned(), Group::Fastening, added, rivets_kg, middle, Standing::Assumed);
    let sealant_l = takeoff.sealant_l / (1.0 + r.allowances.sealant_waste);
    let sealant_kg = sealant_l * unit.sealant_kg_l;
    item("sealant".to_owned(), Group::Fastening, added, sealant_kg, middle, Standing::Assumed);
    let h = &survey.heights;
    for window in raise.raised_windows() {
        let gap_mm = survey.posts_mm[window + 1] - survey.posts_mm[window];
        let x = survey.posts_mm[window] + gap_mm / 2.0;
        let kept = raise.window_kept.get(window) == Some(&true);
        let (old_top, opening_mm) = (h.drip_rail_mm, h.window_top_mm - h.window_bottom_mm);
        for side in Side::BOTH {
            let at = |z: f64| (x, side.sign() * survey.half_width_on_mm(side, z), z);
            if !kept {
                let z = f64::midpoint(h.window_top_mm, h.window_bottom_mm);
                let kg = gap_mm * opening_mm / 1e6 * unit.window_kg_m2;
                let name = format!("window {}, {}", window + 1, side.name());
                item(name, Group::Strip, removed, kg, at(z), Standing::Assumed);
            }
            let band_kg = gap_mm * (old_top - h.window_top_mm) / 1e6 * unit.old_skin_kg_m2;
            let z = f64::midpoint(old_top, h.window_top_mm);
            let name = format!("old skin above window {}, {}", window + 1, side.name());
            item(name, Group::Strip, removed, band_kg, at(z), Standing::Assumed);
        }
    }
    let [roof_x, roof_y, roof_z] = raise.roof_middle_mm(survey);
    let rise = Change::Moved { rise_mm: raise.height_mm };
    item("roof".to_owned(), Group::Roof, rise, r.roof_mass_kg, (roof_x, roof_y, roof_z), r.roof_standing);
    for (list, group, change) in [(&file.removed, Group::Strip, removed), (&file.fit_out, Group::FitOut, added)] {
        for own in list {
            let at = (own.x.mm(), own.y.map_or(0.0, |y| y.mm()), own.z.mm());
            item(own.name.clone(), group, change, own.mass.kg(), at, Standing::Given);
        }
    }
    items
}

/// Middle of the new skins, weighted by area.
fn skin_middle(r: &Resolved) -> (f64, f64, f64) {
    let sides =
        r.skins.sheets.iter().map(|s| (s.area_m2(), f64::midpoint(s.x0_mm, s.x1_mm), f64::midpoint(s.z0_mm, s.z1_mm)));
    let ends = r.skins.ends.iter().map(|e| (e.area_m2(), e.x_mm, e.z_mm));
    let (area, x, z) =
        sides.chain(ends).fold((0.0, 0.0, 0.0), |(a, x, z), (da, dx, dz)| (a + da, x + da * dx, z + da * dz));
    (x / area, 0.0, z / area)
}

fn mass_summary(r: &Resolved, items: &[MassItem]) -> MassSummary {
    let sum = |keep: &dyn Fn(&MassItem) -> bool| items.iter().filter(|i| keep(i)).map(|i| i.mass_kg).sum::<f64>();
    let axles = r.axle_weights.zip(r.rear_axle_mm).zip(r.wheelbase_mm);
    let balance = |z: f64| axles.map(|((w, rear), base)| Balance::from_axles(w.front_kg, w.rear_kg, rear, base, z));
    let before = balance(r.cg.range_mm.0).zip(balance(r.cg.range_mm.1));
    let after = before.map(|(low, high)| (low.after(items), high.after(items)));
    let loads =
        |b: Option<(Balance, Balance)>| b.zip(axles).map(|((low, _), ((_, rear), base))| low.axle_loads_kg(rear, base));
    let range = |b: Option<(Balance, Balance)>, f: &dyn Fn(f64, Balance) -> f64| {
        b.zip(r.track_mm).map(|((low, high), track)| HeightRange { low: f(track, low), high: f(track, high) })
    };
    let factor = |track: f64, b: Balance| static_stability_factor(track, b.z_mm);
    let tilt = |track: f64, b: Balance| rigid_tilt_angle_deg(track, b.z_mm, b.y_mm);
    let rate = |b| on_springs(r, b, |springs, at| springs.roll_rate_rad_g(at).map(f64::to_degrees));
    let threshold = |b| on_springs(r, b, RollSprings::rollover_threshold_g);
    MassSummary {
        added_kg: sum(&|i| i.change == Change::Added),
        removed_kg: sum(&|i| i.change == Change::Removed),
        moved_kg: sum(&|i| matches!(i.change, Change::Moved { .. })),
        skin_kg: sum(&|i| i.group == Group::Skin),
        fit_out_kg: sum(&|i| i.group == Group::FitOut),
        axles_before_kg: loads(before),
        axles_after_kg: loads(after),
        left_share_after: after.zip(r.track_mm).map(|((low, _), track)| low.left_share(track)),
        stability_before: range(before, &factor),
        stability_after: range(after, &factor),
        tilt_before_deg: range(before, &tilt),
        tilt_after_deg: range(after, &tilt),
        roll_rate_before_deg_g: before.and_then(rate),
        roll_rate_after_deg_g: after.and_then(rate),
        threshold_before_g: before.and_then(threshold),
        threshold_after_g: after.and_then(threshold),
        before,
        after,
    }
}

/// Lines of the same kind, pitch and zone share one joint, checked for the widest skin and the worst load of any of them.
fn joint_cases(r: &Resolved, loads: &LoadCase, lines: &[RivetLine]) -> Result<Vec<JointCase>, Error> {
    let mut cases: Vec<JointCase> = Vec::new();
    for line in lines {
        let own = on_line(r, loads, line);
        let alike =
            |c: &&mut JointCase| c.kind == line.kind && c.zone == own.zone && (c.pitch_mm - line.pitch_mm).abs() < 0.05;
        match cases.iter_mut().find(alike) {
            Some(case) => {
                case.lines.push(line.id.clone());
                case.tributary_mm = case.tributary_mm.max(line.tributary_mm);
                if own.load.total_n_mm > case.line_load.total_n_mm {
                    case.line_load = own.load;
                }
            }
            None => cases.push(JointCase {
                kind: line.kind,
                lines: vec![line.id.clone()],
                pitch_mm: line.pitch_mm,
                tributary_mm: line.tributary_mm,
                zone: own.zone,
                suction_pa: own.suction_pa,
                air_case: own.air_case,
                line_load: own.load,
                shear_n: 0.0,
                tension_n: 0.0,
                reports: Vec::new(),
            }),
        }
    }
    for case in &mut cases {
        case.shear_n = case.line_load.total_n_mm * case.pitch_mm;
        case.tension_n = case.suction_pa * 1e-6 * case.tributary_mm * case.pitch_mm * continuity(r, case.kind);
        case.reports = reports(r, case)?;
    }
    Ok(cases)
}

/// What a line's rivets hold the sheet to: another sheet, a post, a rail of the body, or tube framed in anew. Old sheet between
/// them is not counted on, nor is a wall taken to be stronger than the posts' steel.
fn behind(r: &Resolved, kind: LineKind) -> Option<Mechanical> {
    let wall = |label: &str, wall_mm: f64, standing: Standing| {
        let post = r.post_wall.clone()?;
        let standing = post.standing.with(standing);
        let label = label.to_owned();
        Some(Mechanical {
            label,
            thickness_mm: wall_mm,
            base_mm: wall_mm,
            least_base_mm: wall_mm,
            design_mm: wall_mm,
            standing,
            ..post
        })
    };
    match kind {
        LineKind::Post => r.post_wall.clone(),
        LineKind::Seam | LineKind::Course => Some(r.sheet.clone()),
        LineKind::Top | LineKind::Bottom => wall("rail of the body", r.walls.rail_mm, r.walls.standing),
        LineKind::End | LineKind::Opening => wall("tube behind the edge", r.backing.wall_mm, r.backing.standing),
    }
}

fn reports(r: &Resolved, case: &JointCase) -> Result<Vec<Report>, Error> {
    let Some(inner) = behind(r, case.kind) else { return Ok(Vec::new()) };
    let all = |problems: Vec<Problem>| Error::Input(problems.into_iter().map(Into::into).collect());
    let mut lap = Lap::new(r.sheet.clone(), inner, r.rivet.clone(), case.pitch_mm, r.rules.edge_mm).map_err(all)?;
    lap.choices.panel_edge = case.kind.panel_edge();
    // Aluminium has a rule set of its own; any other metal is told what the steel rules say of it.
    let methods: &[Method] = if r.sheet.material.starts_with("aluminium") {
        &[Method::En1999_1_4]
    } else {
        &[Method::En1993_1_3, Method::AisiS100(Format::Allowable)]
    };
    let standing = r.loads.standing.with(r.flatness.standing);
    let service = Demand { shear_n: case.shear_n, tension_n: case.tension_n };
    methods
        .iter()
        .map(|&method| {
            let factor = if method.level() == Level::Design { r.loads.load_factor } else { 1.0 };
            let demand = service.times(factor);
            let mut report = lap.check(demand, method).map_err(all)?;
            for check in &mut report.checks {
                check.standing = check.standing.with(standing);
            }
            Ok(report)
        })
        .collect()
}

/// Of each joint the check that governs it, by each rule set.
fn joint_checks(joints: &[JointCase], file: &File) -> Vec<Check> {
    let mut checks = Vec::new();
    for joint in joints {
        let subject = joint.subject(file.units);
        for report in &joint.reports {
            if let Some(check) = report.governing() {
                let mut check = check.clone().at(subject.clone());
                check.name = format!("joint by {}, {}", report.method, check.name).into();
                checks.push(check);
            }
        }
        if joint.reports.is_empty() {
            checks.push(
                Check::compare("joint", "", (None, None, "N"), Level::Design, Standing::Given)
                    .at(subject)
                    .because("the posts' section is not in the plan: measure a post and its wall (survey.post)"),
            );
        }
    }
    checks
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

fn outlook(r: &Resolved, catalogue: &Catalogue) -> Result<Vec<ZoneOutlook>, Error> {
    let mut zones = Vec::new();
    for (zone, category) in &r.zones {
        let rates = |metal| catalogue.corrosivity("service.corrosivity", category, metal).map(Rates::from);
        let zinc_bearing =
            r.sheet.coating.as_ref().filter(|c| matches!(c.family, CoatingFamily::Zinc | CoatingFamily::ZincIron));
        let coating_years = match zinc_bearing {
            Some(c) if c.even_um > 0.0 => {
                let layer = Layer { nominal_um: c.even_um, least_um: c.least_um };
                Some(life_range(layer, rates(MetalLost::Zinc)?, MetalLost::Zinc)?)
            }
            _ => None,
        };
        let steel = r.sheet.material == "carbon steel";
        let perforation_years = if steel {
            let layer = Layer::of_sheet_mm(r.sheet.base_mm, r.sheet.least_base_mm);
            Some(perforation_range(layer, rates(MetalLost::Steel)?)?)
        } else {
            None
        };
        let note = match r.sheet.coating.as_ref().map(|c| c.family) {
            None if steel => "bare steel: the paint is all there is",
            None => "no tabulated loss for this metal; it may pit in laps",
            Some(CoatingFamily::Zinc) => "loss of zinc by ISO 9223 and 9224; prime cut edges and holes",
            Some(CoatingFamily::ZincIron) => {
                "counted as zinc; not meant to stay unpainted; prime every cut edge and hole"
            }
            Some(_) => "no tabulated loss for this coating; prime every cut edge and hole",
        };
        zones.push(ZoneOutlook {
            zone,
            category: category.clone(),
            coating_years,
            perforation_years,
            note: note.to_owned(),
        });
    }
    Ok(zones)
}

/// The life wanted against the estimate's range: passes below it, fails above it, and within it is not known.
fn life_checks(file: &File, outlook: &[ZoneOutlook]) -> Vec<Check> {
    let Some(years) = file.service.years.map(f64::from) else { return Vec::new() };
    outlook
        .iter()
        .map(|zone| {
            let shortest = zone.coating_years.map(|l| l.shortest_years);
            let within = zone.coating_years.is_some_and(|l| l.longest_years.is_none_or(|longest| years <= longest));
            let check = Check::compare(
                "coating life",
                "ISO 9223:2012 and ISO 9224:2012",
                (Some(years), shortest, "years"),
                Level::Stated,
                Standing::Assumed,
            )
            .at(format!("{}, {}", zone.zone, zone.category));
            let range = zone.coating_years.map(|l| l.to_string()).unwrap_or_default();
            match check.verdict {
                Verdict::Fails if within => check.demoted(
                    Verdict::NotAssessed,
                    format!("the estimate without paint is {range}: it may or may not last"),
                ),
                Verdict::NotAssessed => check.because("the loss of this metal or coating is not tabulated"),
                _ => check.because(format!("the estimate without paint is {range}")),
            }
        })
        .collect()
}

fn order(
    r: &Resolved,
    takeoff: &Takeoff,
    (lots, bits): (&[RivetLot], Option<(u64, u64)>),
    file: &File,
) -> Vec<OrderLine> {
    let units = file.units;
    let mut lines: Vec<OrderLine> = takeoff
        .blanks
        .iter()
        .map(|b| OrderLine {
            item: format!("sheet {}, cut to size", r.sheet.label),
            quantity: b.count as f64,
            unit: "pieces",
            note: format!(
                "{} along, {} up: {}; {}",
                units.length(b.length_mm),
                units.length(b.height_mm),
                b.ids.join(", "),
                b.words()
            ),
        })
        .collect();
    let bar = units.length(r.allowances.bar_mm);
    let mut line = |item: String, quantity: f64, unit, note: String| {
        if quantity > 0.0 {
            lines.push(OrderLine { item, quantity, unit, note });
        }
    };
    let insert = takeoff.inserts.pieces_mm.first().map_or_else(String::new, |&mm| units.length(mm));
    line(
        format!("{} for inserts", r.insert.label),
        takeoff.inserts.bars as f64,
        "bars",
        format!("bars of {bar}; {} pieces of {insert}", takeoff.inserts.pieces_mm.len()),
    );
    line(
        format!("{} behind sheet edges", r.backing.label),
        takeoff.backing.bars as f64,
        "bars",
        format!("bars of {bar}; {:.1} m in {} pieces", takeoff.backing.total_m, takeoff.backing.pieces_mm.len()),
    );
    let hole = units.length(r.rivet.hole_mm);
    for (length, own) in by_length(lots) {
        let holes = own.iter().map(|lot| lot.stacked.holes).sum();
        let grips = || own.iter().filter_map(|lot| lot.grip_mm);
        let (low, high) = (grips().fold(f64::INFINITY, f64::min), grips().fold(0.0, f64::max));
        let grip = if low <= high { format!("grip {low:.1} to {high:.1} mm, ") } else { String::new() };
        line(
            format!("rivets, {}{}", r.rivet.label, length.map_or_else(String::new, |length| format!(", {length}"))),
            with_spares(holes, r.allowances.spares) as f64,
            "pieces",
            format!("{grip}{holes} holes of {hole}, spares included"),
        );
    }
    let old = takeoff.old_holes;
    let note = format!("{} holes besides, spares included; their length by what lies there", old.riveted);
    let spare = takeoff.old_line_rivets_ordered as f64;
    line(format!("rivets, {}, for lines over old holes", r.rivet.label), spare, "pieces", note);
    line("plugs".to_owned(), old.plugged as f64, "pieces", "old holes in sheet that stays (hole_line)".to_owned());
    if let Some((least, most)) = bits {
        let size = units.length(drilling::PILOT_MM);
        let note = format!("{size}; {least} where all goes well; common practice, no source");
        line("pilot bits".to_owned(), most as f64, "pieces", note);
    }
    line("sealant".to_owned(), takeoff.sealant_l, "L", format!("{:.1} m of lap and edge", takeoff.sealed_length_m));
    line(
        "primer".to_owned(),
        takeoff.primer_l,
        "L",
        format!(
            "{:.1} m2: inside of the new skin, {:.1} m2 of it bare steel of inserts and tube; touch up {:.0} m of cut edge and \
             {} holes",
            takeoff.primed_area_m2,
            takeoff.bare_area_m2,
            takeoff.cut_edges_m,
            takeoff.rivets + old.drilled
        ),
    );
    line("topcoat".to_owned(), takeoff.topcoat_l, "L", format!("{:.1} m2, outside", takeoff.topcoat_area_m2));
    if let Some((thickness_mm, width_mm)) = r.trim.bond_mm {
        let size = format!("{} wide, {} thick", units.length(width_mm), units.length(thickness_mm));
        line("tape or adhesive on posts".to_owned(), takeoff.on_posts_m, "m", size);
    }
    if r.trim.drip_rail {
        line("drip rail".to_owned(), takeoff.drip_rail_m, "m", "along both sides, over the upper edge".to_owned());
    }
    if r.trim.channel {
        line("channel".to_owned(), takeoff.channel_m, "m", "over windows and doors that stay".to_owned());
    }
    lines
}
