//! What a choice between sheets, rivets and spacings turns on: lines, quantities, masses, joints, life, hours, price.

use crate::body::masses::{Balance, Change, Group, MassItem};
use crate::body::measures::BodyMeasures;
use crate::body::raise::RaisedBody;
use crate::body::rivet_lines::{RivetLine, set_out};
use crate::body::stability::{RollSprings, rigid_tilt_angle_deg, static_stability_factor};
use crate::body::survey::Side;
use crate::body::takeoff::Takeoff;
use crate::catalogue::Catalogue;
use crate::check::Standing;
use crate::error::{Error, Problem};
use crate::shop::{hours, quote};

use super::effects::on_springs;
use super::file::File;
use super::flatness::{self, LyingSize};
use super::joints::joint_cases;
use super::outlook::outlook;
use super::relaid::{Relaid, relay};
use super::resolve::Resolved;
use super::results::{HeightRange, JointCase, MassSummary, ZoneOutlook};
use super::rivet_lots::{RivetLot, by_length, rivet_lots};
use super::skin_loads::{LoadCase, load_case};

/// They are worked out first; everything else of an evaluation follows from more of the plan.
pub(super) struct Essentials {
    pub raised: RaisedBody,
    pub body: BodyMeasures,
    pub lines: Vec<RivetLine>,
    pub relaid: Vec<Relaid>,
    pub rivet_lots: Vec<RivetLot>,
    pub takeoff: Takeoff,
    pub loads: LoadCase,
    pub flatness: Vec<LyingSize>,
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
        let flatness = flatness::sizes(r);
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
