//! What a choice between sheets, rivets and spacings turns on: lines, quantities, masses, joints, life, hours, price.

use crate::body::masses::{Balance, Change, Group, MassItem};
use crate::body::measures::BodyMeasures;
use crate::body::raise::{Raise, RaisedBody};
use crate::body::rivet_lines::{RivetLine, set_out};
use crate::body::skins::{SheetRules, Skins};
use crate::body::stability::{RollSprings, rigid_tilt_angle_deg, static_stability_factor};
use crate::body::survey::{Side, Survey};
use crate::body::takeoff::{Allowances, Pieces, Takeoff};
use crate::catalogue::Catalogue;
use crate::check::Standing;
use crate::error::{Error, Problem};
use crate::mechanics::sheet::Sheet;
use crate::shared::{Kept, Shared};
use crate::shop::{hours, quote};

use super::cut_list::{CutList, cut_list};
use super::drilling::bit_uses;
use super::effects::on_springs;
use super::file::{File, Item};
use super::flatness::{self, LyingPanels, OfSizes, of_sizes};
use super::joints::{JointUse, joint_cases, joint_use};
use super::outlook::{life_cost, outlook};
use super::relaid::{Relaid, relay};
use super::resolve::{Drilled, Resolved, Section, UnitMasses};
use super::results::{HeightRange, JointCase, LifeCost, MassSummary, ZoneOutlook};
use super::rivet_lots::{RivetLot, by_length, rivet_lots};
use super::skin_loads::{LoadCase, load_case};

/// They are worked out first; everything else of an evaluation follows from more of the plan.
pub(super) struct Essentials {
    pub raised: Shared<RaisedBody>,
    pub body: Shared<BodyMeasures>,
    pub lines: Shared<Vec<RivetLine>>,
    pub relaid: Shared<Vec<Relaid>>,
    pub rivet_lots: Vec<RivetLot>,
    pub takeoff: Takeoff,
    pub cut_list: CutList,
    pub loads: LoadCase,
    /// Panels by size, nothing advised yet.
    pub panel_sizes: Shared<LyingPanels>,
    pub items: Items,
    pub mass: MassSummary,
    /// Not yet checked by any rule set.
    pub joints: Vec<JointCase>,
    pub joint_use: JointUse,
    pub outlook: Vec<ZoneOutlook>,
    pub life_cost: Option<LifeCost>,
    /// What the skin's family asks of paint beyond a clean sheet, on all painted faces, h: minutes of the catalogue.
    pub paint_preparation_h: f64,
    pub tasks: Vec<hours::Task>,
    pub quote: Option<quote::Quote>,
}

type OfRaised = (Shared<Survey>, Shared<Raise>);
/// With the heights of the skirt and the width of the aisle, mm.
type OfBody = (Shared<Survey>, Shared<Raise>, Shared<RaisedBody>, f64, f64);
type OfPieces = (OfRaised, Shared<RaisedBody>, Shared<Skins>, Shared<SheetRules>, Shared<Allowances>);

/// What the rivet lines come from.
#[derive(Debug, Clone, PartialEq)]
struct OfLines {
    of_raised: OfRaised,
    skins: Shared<Skins>,
    edge_mm: f64,
    pitch_mm: f64,
    drilled: Shared<Drilled>,
}

/// Rivet lines, and those of them that lie over old holes.
type Laid = Result<(Shared<Vec<RivetLine>>, Shared<Vec<Relaid>>), Vec<Problem>>;

fn laid(of: &OfLines) -> Laid {
    let (survey, raise) = &of.of_raised;
    let mut lines = set_out(survey, raise, &of.skins, of.edge_mm, of.pitch_mm);
    let relaid = relay(&of.drilled.old_lines, &mut lines)?;
    Ok((lines.into(), relaid.into()))
}

/// What was worked out last for plans of a row, each beside what it came from.
#[derive(Debug, Default)]
pub(super) struct Worked {
    lines: Kept<OfLines, Laid>,
    raised: Kept<OfRaised, Shared<RaisedBody>>,
    body: Kept<OfBody, Shared<BodyMeasures>>,
    pieces: Kept<OfPieces, Shared<Pieces>>,
    panel_sizes: Kept<OfSizes, Shared<LyingPanels>>,
    of_layout: Kept<OfLayout, Shared<Vec<MassItem>>>,
    of_strip: Kept<OfStrip, Shared<Vec<MassItem>>>,
    of_lists: Kept<OfLists, Shared<Vec<MassItem>>>,
}

impl Essentials {
    /// Works them out; what comes from the same as the last time is taken over. Without a cut list, which takes far longer than all
    /// else, every blank is bought cut to size and bars by the metre.
    ///
    /// # Errors
    /// A joint that cannot be, or a catalogue whose own rows are unusable.
    pub(super) fn of(
        file: &File,
        r: &Resolved,
        catalogue: &Catalogue,
        (w, with_cut_list): (&mut Worked, bool),
    ) -> Result<Self, Error> {
        let (survey, raise) = (|| r.survey.clone(), || r.raise.clone());
        let raised = w.raised.of((survey(), raise()), |(survey, raise)| raise.apply(survey).into());
        let all = |problems: Vec<Problem>| Error::Input(problems.into_iter().map(Into::into).collect());
        let of_lines = OfLines {
            of_raised: (survey(), raise()),
            skins: r.skins.clone(),
            edge_mm: r.rules.edge_mm,
            pitch_mm: r.pitch_mm,
            drilled: r.drilled.clone(),
        };
        let (lines, relaid) = w.lines.of(of_lines, laid).map_err(all)?;
        let rivet_lots = rivet_lots(r, file.fastening.product.as_deref(), &lines, catalogue);
        let lots: Vec<usize> =
            by_length(&rivet_lots).iter().map(|(_, own)| own.iter().map(|lot| lot.stacked.holes).sum()).collect();
        let counted = (lines.as_slice(), lots.as_slice(), r.drilled.own_holes());
        let of_pieces = ((survey(), raise()), raised.clone(), r.skins.clone(), r.rules.clone(), r.allowances.clone());
        let pieces = w.pieces.of(of_pieces, |((survey, raise), raised, skins, rules, allow)| {
            Pieces::count(survey, raise, raised, (skins, rules), allow).into()
        });
        let takeoff = Takeoff::with_rivets(&pieces, counted, &r.allowances);
        let of_body = (survey(), raise(), raised.clone(), r.air.skirt_mm, r.aisle_mm);
        let body = w.body.of(of_body, |(survey, raise, raised, skirt_mm, aisle_mm)| {
            BodyMeasures::of(survey, raise, raised, *skirt_mm, *aisle_mm).into()
        });
        let items = mass_items(file, r, (&raised, w), &takeoff, &lines);
        let mass = mass_summary(r, &items);
        let loads = load_case(r, &body, mass.axles_after_kg.map(|(front, _)| front));
        let panel_sizes = w.panel_sizes.of(of_sizes(r), flatness::sizes);
        let joints = joint_cases(r, &loads, &lines);
        let joint_use = joint_use(r, &joints)?;
        let outlook = outlook(r, catalogue)?;
        let cut_list =
            if with_cut_list { cut_list(r, &raised, &takeoff, file.units).map_err(all)? } else { CutList::default() };
        let tasks = hours::tasks(&takeoff, cut_list.shop_cuts(), &r.times);
        let quote =
            r.prices.as_ref().map(|prices| quoted(r, (&takeoff, &cut_list), &tasks, (&rivet_lots, catalogue), prices));
        let family = catalogue.family_property("skin.coating", r.sheet.family())?;
        let painted_m2 = f64::from(r.paint.painted_faces()) * takeoff.skin_area_m2;
        let paint_preparation_h = painted_m2 * family.paint_extra_min_m2 / 60.0;
        let life_cost = life_cost(r, &outlook, quote.as_ref())?;
        Ok(Self {
            raised,
            body,
            lines,
            relaid,
            rivet_lots,
            takeoff,
            cut_list,
            loads,
            panel_sizes,
            items,
            mass,
            joints,
            joint_use,
            outlook,
            life_cost,
            paint_preparation_h,
            tasks,
            quote,
        })
    }
}

fn quoted(
    r: &Resolved,
    (takeoff, cut_list): (&Takeoff, &CutList),
    tasks: &[hours::Task],
    (lots, catalogue): (&[RivetLot], &Catalogue),
    prices: &quote::Prices,
) -> quote::Quote {
    let kg_m = |own: &Section| own.properties.mass_kg_m(r.masses.steel_kg_m3);
    let trim = |ordered: bool, metres: f64| if ordered { metres } else { 0.0 };
    let work = quote::Work {
        takeoff,
        stock: &cut_list.for_quote(),
        tasks,
        areal_mass_kg_m2: r.sheet.areal_mass_kg_m2,
        bar_masses_kg_m: [kg_m(&r.insert), kg_m(&r.backing)],
        sealant_l: match (takeoff.cartridges, r.allowances.cartridge_l) {
            (Some(count), Some(content_l)) => f64::from(count) * content_l,
            _ => takeoff.sealant_l,
        },
        pilot_bits: bit_uses(r, lots, catalogue).1.map(|(_, most)| most),
        trims_m: [
            trim(r.trim.bond_mm.is_some(), takeoff.on_posts_m),
            trim(r.trim.drip_rail, takeoff.drip_rail_m),
            trim(r.trim.channel, takeoff.channel_m),
        ],
    };
    quote::quote(&work, prices)
}

/// Every mass that comes, goes or moves: skins and inserts, then what fills and fastens them, then what is taken out and the roof,
/// then the plan's own lists.
pub(super) struct Items([Shared<Vec<MassItem>>; 4]);

impl Items {
    fn iter(&self) -> impl Iterator<Item = &MassItem> {
        self.0.iter().flatten()
    }

    /// All of them in one list.
    pub(super) fn list(&self) -> Vec<MassItem> {
        self.iter().cloned().collect()
    }
}

/// A mass that is none is left out.
fn item(
    name: String,
    (group, change): (Group, Change),
    mass_kg: f64,
    (x_mm, y_mm, z_mm): (f64, f64, f64),
    standing: Standing,
) -> Option<MassItem> {
    (mass_kg > 0.0).then_some(MassItem { name, group, change, mass_kg, x_mm, y_mm, z_mm, standing })
}

fn mass_items(
    file: &File,
    r: &Resolved,
    (raised, w): (&Shared<RaisedBody>, &mut Worked),
    takeoff: &Takeoff,
    lines: &[RivetLine],
) -> Items {
    let of_raised = || (r.survey.clone(), r.raise.clone());
    let of_layout = OfLayout {
        of_raised: of_raised(),
        raised: raised.clone(),
        skins: r.skins.clone(),
        sheet: r.sheet.clone(),
        insert: r.insert.clone(),
        unit: r.masses,
    };
    let of_strip = (of_raised(), r.masses, (r.roof_mass_kg, r.roof_standing));
    Items([
        w.of_layout.of(of_layout, |of| of_the_layout(of).into()),
        Shared::from(of_the_fastening(r, takeoff, lines)),
        w.of_strip.of(of_strip, |of| of_the_strip(of).into()),
        w.of_lists.of((file.removed.clone(), file.fit_out.clone()), |of| of_the_lists(of).into()),
    ])
}

/// What the masses of skins and inserts come from.
#[derive(Debug, Clone, PartialEq)]
struct OfLayout {
    of_raised: OfRaised,
    raised: Shared<RaisedBody>,
    skins: Shared<Skins>,
    sheet: Shared<Sheet>,
    insert: Shared<Section>,
    unit: UnitMasses,
}

fn of_the_layout(of: &OfLayout) -> Vec<MassItem> {
    let OfLayout { of_raised: (survey, raise), raised, skins, sheet: metal, insert, unit } = of;
    let mut items = Vec::new();
    let skin_kg_m2 = metal.areal_mass_kg_m2 + unit.coat_kg_m2;
    let (of_skin, of_frame) = ((Group::Skin, Change::Added), (Group::Frame, Change::Added));
    for sheet in &skins.sheets {
        let (x, z) = (f64::midpoint(sheet.x0_mm, sheet.x1_mm), f64::midpoint(sheet.z0_mm, sheet.z1_mm));
        let y = sheet.side.sign() * raised.half_width_on_mm(survey, sheet.side, z);
        let kg = sheet.area_m2() * skin_kg_m2;
        items.extend(item(format!("skin {}", sheet.id), of_skin, kg, (x, y, z), metal.standing));
    }
    for end in &skins.ends {
        let at = (end.x_mm, end.y_mm, end.z_mm);
        items.extend(item(format!("skin {}", end.id), of_skin, end.area_m2() * skin_kg_m2, at, metal.standing));
    }
    let insert_kg = insert.properties.mass_kg_m(unit.steel_kg_m3) * raised.insert_length_mm / 1000.0;
    let insert_z = raise.cut_mm + raise.height_mm / 2.0;
    for (i, &x) in raised.lengthened_posts_mm.iter().enumerate() {
        for side in Side::BOTH {
            let y = side.sign() * raised.half_width_on_mm(survey, side, insert_z);
            let name = format!("insert, post {}, {}", raise.first_post + i + 1, side.name());
            items.extend(item(name, of_frame, insert_kg, (x, y, insert_z), insert.standing));
        }
    }
    items
}

/// Tube, rivets and sealant are spread along the rivet lines: one middle for all of them.
fn of_the_fastening(r: &Resolved, takeoff: &Takeoff, lines: &[RivetLine]) -> Vec<MassItem> {
    let (unit, middle) = (&r.masses, skin_middle(r));
    let (of_frame, of_fastening) = ((Group::Frame, Change::Added), (Group::Fastening, Change::Added));
    let backing_kg = r.backing.properties.mass_kg_m(unit.steel_kg_m3) * takeoff.backing.total_m;
    let holes: usize = lines.iter().map(|l| l.holes_mm.len()).sum();
    let sealant_l = takeoff.sealant_l / (1.0 + r.allowances.sealant_waste);
    let all = [
        item("backing tube".to_owned(), of_frame, backing_kg, middle, r.backing.standing),
        item("rivets".to_owned(), of_fastening, holes as f64 * unit.rivet_kg, middle, Standing::Assumed),
        item("sealant".to_owned(), of_fastening, sealant_l * unit.sealant_kg_l, middle, Standing::Assumed),
    ];
    all.into_iter().flatten().collect()
}

/// With mass and standing of the roof.
type OfStrip = (OfRaised, UnitMasses, (f64, Standing));

/// Windows and old skin that are taken out, and the roof that rises.
fn of_the_strip(((survey, raise), unit, (roof_kg, roof_standing)): &OfStrip) -> Vec<MassItem> {
    let mut items = Vec::new();
    let out = (Group::Strip, Change::Removed);
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
                items.extend(item(name, out, kg, at(z), Standing::Assumed));
            }
            let band_kg = gap_mm * (old_top - h.window_top_mm) / 1e6 * unit.old_skin_kg_m2;
            let z = f64::midpoint(old_top, h.window_top_mm);
            let name = format!("old skin above window {}, {}", window + 1, side.name());
            items.extend(item(name, out, band_kg, at(z), Standing::Assumed));
        }
    }
    let [roof_x, roof_y, roof_z] = raise.roof_middle_mm(survey);
    let rise = (Group::Roof, Change::Moved { rise_mm: raise.height_mm });
    items.extend(item("roof".to_owned(), rise, *roof_kg, (roof_x, roof_y, roof_z), *roof_standing));
    items
}

/// What the plan takes out, and what it puts in.
type OfLists = (Shared<Vec<Item>>, Shared<Vec<Item>>);

fn of_the_lists((removed, fit_out): &OfLists) -> Vec<MassItem> {
    let mut items = Vec::new();
    for (list, kind) in [(removed, (Group::Strip, Change::Removed)), (fit_out, (Group::FitOut, Change::Added))] {
        for own in list {
            let at = (own.x.mm(), own.y.map_or(0.0, |y| y.mm()), own.z.mm());
            items.extend(item(own.name.clone(), kind, own.mass.kg(), at, Standing::Given));
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

fn mass_summary(r: &Resolved, items: &Items) -> MassSummary {
    let sum = |keep: &dyn Fn(&MassItem) -> bool| items.iter().filter(|i| keep(i)).map(|i| i.mass_kg).sum::<f64>();
    let axles = r.axle_weights.zip(r.rear_axle_mm).zip(r.wheelbase_mm);
    let balance = |z: f64| axles.map(|((w, rear), base)| Balance::from_axles(w.front_kg, w.rear_kg, rear, base, z));
    let before = balance(r.cg.range_mm.0).zip(balance(r.cg.range_mm.1));
    let after = before.map(|(low, high)| (low.after(items.iter()), high.after(items.iter())));
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
