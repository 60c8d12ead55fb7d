//! What an evaluation holds.

use serde::Serialize;

use crate::body::ledger::Entry;
use crate::body::masses::{Balance, MassItem};
use crate::body::measures::BodyMeasures;
use crate::body::raise::{Raise, RaisedBody};
use crate::body::rivet_lines::{LineKind, RivetLine};
use crate::body::skin_loads::{AirCase, LineLoad, Zone};
use crate::body::skins::{SeamPolicy, Sheet, Skins};
use crate::body::survey::Survey;
use crate::body::takeoff::Takeoff;
use crate::check::{Check, Standing, Verdict, significant};
use crate::mechanics::corrosion::{LifeRange, Rates, Years};
use crate::mechanics::joint::Report;
use crate::quantity::ShopUnits;
use crate::shared::Shared;
use crate::shop::hours::Task;
use crate::shop::life_cost::YearlyCost;
use crate::shop::odds::Cause;
use crate::shop::quote::Quote;
use crate::shop::schedule::Schedule;

use super::bows::BowSummary;
use super::cut_list::CutList;
use super::details::Detail;
use super::drilling::{Drilling, OldLine};
use super::end_caps::EndCapSummary;
use super::exits::ExitCount;
use super::flatness::FlatnessSummary;
use super::gate::Gate;
use super::lift::LiftSummary;
use super::metrics::Metric;
use super::offer::Offer;
use super::paint::PaintSummary;
use super::pairs::ContactPair;
use super::resolve::Assumption;
use super::rivet_lots::RivetLot;
use super::schedule::HangingRow;
use super::skin_loads::LoadCase;
use super::splices::SpliceSummary;

/// Shown with every evaluation.
pub const CAUTIONS: [&str; 6] = [
    "A planning aid, not a certification. Structural work on a passenger vehicle is for a licensed engineer and the \
     local authority to accept.",
    "Local rules on height, width, weight and conversion govern; confirm every limit before the first cut.",
    "Never work under a roof that is not held by cribs and braced in both directions.",
    "Fire: old insulation, foam, fuel and wiring burn. Disconnect batteries and electronics before welding.",
    "Welding or grinding zinc makes fume (29 CFR 1910.1000: zinc oxide 5 mg/m3); old paint may hold lead and \
     chromate; test it before grinding.",
    "Wear hearing and eye protection; wipe up drilling swarf the same day, it rusts.",
];

/// A result at the two bounds of the height of the centre of gravity.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct HeightRange {
    /// At the lower bound of the input.
    pub low: f64,
    /// At the upper bound of the input.
    pub high: f64,
}

/// The least and the greatest of a result whose inputs are ranges.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Span {
    /// Least.
    pub least: f64,
    /// Greatest.
    pub most: f64,
}

impl Span {
    /// The span of these values; none where there is no value, or one is not a number.
    pub fn of(values: impl IntoIterator<Item = Option<f64>>) -> Option<Self> {
        values.into_iter().try_fold(None, |span: Option<Self>, value| {
            let value = value.filter(|v| v.is_finite())?;
            let wider = |s: Self| Self { least: s.least.min(value), most: s.most.max(value) };
            Some(Some(span.map_or(Self { least: value, most: value }, wider)))
        })?
    }
}

/// One quantity before and after the raise.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Effect {
    /// What it is.
    pub name: &'static str,
    /// Its unit; empty for a plain ratio.
    pub unit: &'static str,
    /// Before; none where the plan gives too little for it.
    pub before: Option<Span>,
    /// After.
    pub after: Option<Span>,
    /// After less before, each with the same inputs.
    pub change: Option<Span>,
    /// The weakest standing of what went in.
    pub standing: Standing,
    /// What it holds for, or what is missing.
    pub note: String,
}

/// Something that a change of height touches and that no number here settles.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reminder {
    /// What it is about.
    pub about: &'static str,
    /// What to look at.
    pub text: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

/// Rivet lines of one kind, pitch and zone, and their joint by every rule set.
#[derive(Debug, Clone, PartialEq)]
pub struct JointCase {
    /// What these lines join.
    pub kind: LineKind,
    /// Names of the lines.
    pub lines: Vec<String>,
    /// Widest spacing, mm.
    pub pitch_mm: f64,
    /// Widest skin whose suction one of the lines carries, mm.
    pub tributary_mm: f64,
    /// The part of the skin that they lie in.
    pub zone: Zone,
    /// Greatest suction there, Pa.
    pub suction_pa: f64,
    /// When that is.
    pub air_case: AirCase,
    /// What a millimetre of the line carries in the plane of the sheets, the worst of these lines.
    pub line_load: LineLoad,
    /// Service load of one rivet in the plane of the sheets, N.
    pub shear_n: f64,
    /// Service load of one rivet away from the sheets, N.
    pub tension_n: f64,
    /// A report for each rule set; empty where the inner part is not known.
    pub reports: Vec<Report>,
}

impl JointCase {
    /// What to call these lines.
    pub fn subject(&self, units: ShopUnits) -> String {
        let lines = match self.lines.as_slice() {
            [one] => one.clone(),
            many => format!("{} lines", many.len()),
        };
        format!("{}, {}, pitch {}, {lines}", self.kind.words(), self.zone.words(), units.length(self.pitch_mm))
    }
}

/// Masses in and out, and the balance they leave.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MassSummary {
    /// All that is added, kg.
    pub added_kg: f64,
    /// All that is removed, kg.
    pub removed_kg: f64,
    /// All that is moved, kg.
    pub moved_kg: f64,
    /// New skin with its coating and paint, kg.
    pub skin_kg: f64,
    /// Fit-out, kg.
    pub fit_out_kg: f64,
    /// Before the raise, centre of gravity at the lower and the upper bound of its height; none without axle weights.
    pub before: Option<(Balance, Balance)>,
    /// After.
    pub after: Option<(Balance, Balance)>,
    /// Front and rear axle load before, kg.
    pub axles_before_kg: Option<(f64, f64)>,
    /// Front and rear axle load after, kg.
    pub axles_after_kg: Option<(f64, f64)>,
    /// Share of the mass on the left wheels after.
    pub left_share_after: Option<f64>,
    /// Static stability factor before, at the two bounds.
    pub stability_before: Option<HeightRange>,
    /// Static stability factor after.
    pub stability_after: Option<HeightRange>,
    /// Rigid tilt angle before, degrees.
    pub tilt_before_deg: Option<HeightRange>,
    /// Rigid tilt angle after, degrees.
    pub tilt_after_deg: Option<HeightRange>,
    /// Lean on the springs before, degrees for a lateral acceleration of 1 g; none where the springs are not known.
    pub roll_rate_before_deg_g: Option<HeightRange>,
    /// Lean on the springs after; none too where they do not hold the vehicle upright.
    pub roll_rate_after_deg_g: Option<HeightRange>,
    /// Rollover threshold on the springs before, g.
    pub threshold_before_g: Option<HeightRange>,
    /// Rollover threshold on the springs after, g.
    pub threshold_after_g: Option<HeightRange>,
}

impl MassSummary {
    /// How many times the fit-out outweighs the new skin; none without a fit-out.
    pub fn fit_out_over_skin(&self) -> Option<f64> {
        (self.fit_out_kg > 0.0 && self.skin_kg > 0.0).then(|| self.fit_out_kg / self.skin_kg)
    }

    /// The same in words.
    pub fn fit_out_words(&self) -> Option<String> {
        let times = self.fit_out_over_skin()?;
        let (fit_out, skin) = (significant(self.fit_out_kg), significant(self.skin_kg));
        let so = if times > 1.0 { ": what goes in, and where, outweighs the choice of gauge" } else { "" };
        Some(format!("fit-out {fit_out} kg, {times:.1} times the new skin's {skin} kg{so}"))
    }
}

/// How long the skin's coating and then its steel last in one zone of the vehicle; without paint but where it says so.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneOutlook {
    /// The zone.
    pub zone: &'static str,
    /// Its corrosivity category: of the greater loss, the worse of both metals'.
    pub category: String,
    /// What that follows from.
    pub because: String,
    /// First year's loss of zinc.
    pub zinc: Rates,
    /// First year's loss of steel.
    pub steel: Rates,
    /// Years until the coating is gone, from the thinner side that is permitted to the average; none for a bare sheet or a
    /// coating whose loss is not tabulated.
    pub coating_years: Option<LifeRange>,
    /// Of a coating that is split evenly on both sides.
    pub coating_average_years: Option<LifeRange>,
    /// Of the thinner side that is permitted.
    pub coating_thin_side_years: Option<LifeRange>,
    /// Years from bare steel until it is eaten through from one side.
    pub perforation_years: Option<LifeRange>,
    /// Years until steel lies bare: nought for a bare sheet.
    pub bare_years: Option<Years>,
    /// Years until zinc and paint together are gone, where the film outside is tabulated for this zone's category.
    pub painted_years: Option<Years>,
    /// Years until the sheet is eaten through, coating and steel one after the other.
    pub eaten_through_years: Option<Years>,
    /// How it is known.
    pub standing: Standing,
    /// What to know.
    pub note: String,
}

/// A joint checked again with the sheet that rust leaves, by one rule set, without paint.
#[derive(Debug, Clone, PartialEq)]
pub struct ThinnedJoint {
    /// What to call its lines.
    pub subject: String,
    /// What its lines hold.
    pub kind: LineKind,
    /// Its lines.
    pub lines: Vec<String>,
    /// The zone of the vehicle whose losses count.
    pub zone: &'static str,
    /// The rule set.
    pub method: &'static str,
    /// Share of its strength that is used when new.
    pub utilisation_now: Option<f64>,
    /// Thickness for strength at which the joint has lost the share of its strength that it may lose.
    pub thinnest_mm: Option<f64>,
    /// Steel that may go until then, on one side.
    pub loss_um: Option<f64>,
    /// Years until then, the coating's included.
    pub years: Option<Years>,
    /// Years that the coating should last, where the plan says it.
    pub wanted_years: Option<f64>,
    /// Share of its strength that is used after the years wanted, at the least loss.
    pub utilisation_then_least: Option<f64>,
    /// At the greatest loss.
    pub utilisation_then_most: Option<f64>,
    /// How the losses are known.
    pub standing: Standing,
    /// What to know.
    pub note: String,
}

/// What a year of the skin costs over the years that the vehicle is kept: a range, as its life is one.
#[derive(Debug, Clone, PartialEq)]
pub struct LifeCost {
    /// What ends the skin's life.
    pub ends: &'static str,
    /// Years that the vehicle is kept.
    pub horizon_years: u32,
    /// ISO 4217 code.
    pub currency: &'static str,
    /// What the whole job costs, the skin with it: the quote's total.
    pub first: f64,
    /// What it costs to renew the skin, in today's money; as much as the whole job where the plan does not say.
    pub renewal: f64,
    /// The zone that ends first.
    pub zone: Option<&'static str>,
    /// Its years.
    pub years: Option<Years>,
    /// With the longest life; none where there is no life to reckon with.
    pub least: Option<YearlyCost>,
    /// With the shortest life; none where that is not known.
    pub most: Option<YearlyCost>,
    /// How its lives are known.
    pub standing: Standing,
    /// What to know.
    pub note: String,
}

/// One line of the order list.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OrderLine {
    /// What to order.
    pub item: String,
    /// Who sells it, where the plan says so.
    pub supplier: Option<String>,
    /// How much.
    pub quantity: f64,
    /// Unit of the quantity.
    pub unit: &'static str,
    /// Size or remark.
    pub note: String,
}

/// A build plan worked out: the answer to "may I cut?" in numbers, and what to order and charge.
#[derive(Debug, Clone, PartialEq)]
pub struct Evaluation {
    /// The plan's name.
    pub name: String,
    /// The plan's figures are invented.
    pub invented: bool,
    /// How lengths are printed.
    pub units: ShopUnits,
    /// Names of the left and the right side.
    pub side_names: [&'static str; 2],
    /// Rear and front axle, mm forward of the rear face of the body, where given.
    pub axles_mm: Option<(f64, f64)>,
    /// The body as measured.
    pub survey: Survey,
    /// The raise as decided.
    pub raise: Raise,
    /// The body after the raise.
    pub raised: RaisedBody,
    /// Areas, volume and headroom at the aisle, before and after.
    pub body: BodyMeasures,
    /// The sheets.
    pub skins: Skins,
    /// Rivets by what they go through.
    pub rivet_lots: Vec<RivetLot>,
    /// How its seams were chosen.
    pub seam_policy: SeamPolicy,
    /// The rivet lines.
    pub lines: Vec<RivetLine>,
    /// Jigs, drilling tables, drill and bits.
    pub drilling: Drilling,
    /// Lines of old holes and the new lines over them.
    pub old_lines: Vec<OldLine>,
    /// Every quantity, counted once.
    pub takeoff: Takeoff,
    /// What is cut from which sheet and bar, and how good that is.
    pub cut_list: CutList,
    /// The sheet the skin is made of: `"18 ga A40 SS33"`.
    pub sheet: String,
    /// Its thickness, coating included, mm.
    pub sheet_thickness_mm: f64,
    /// Its mass, kg/m2.
    pub sheet_areal_mass_kg_m2: f64,
    /// The rivet.
    pub rivet: String,
    /// Loads on the skin.
    pub loads: LoadCase,
    /// How flat the skins lie in sun and cold.
    pub flatness: FlatnessSummary,
    /// Every mass that changes.
    pub items: Vec<MassItem>,
    /// Their sums and what they do.
    pub mass: MassSummary,
    /// The frames across the bus; none where the posts' section is not in the plan.
    pub bows: Option<BowSummary>,
    /// Every insert with its nesting, bends and bar, and what its fasteners carry.
    pub splices: SpliceSummary,
    /// The roof off its posts; none where the plan has no lift.
    pub lift: Option<LiftSummary>,
    /// The sheets round the corners; none where the plan says nothing of them.
    pub end_caps: Option<EndCapSummary>,
    /// Mass, stability, crosswind and running cost before and after.
    pub effects: Vec<Effect>,
    /// What the new height touches besides.
    pub reminders: Vec<Reminder>,
    /// What the cut goes through, a line for each thing with the one action it gets.
    pub ledger: Vec<Entry>,
    /// Emergency exits by place, before and after.
    pub exits: Vec<ExitCount>,
    /// The questions before the first cut.
    pub gate: Gate,
    /// Joints of alike lines.
    pub joints: Vec<JointCase>,
    /// All checks: limits, ratings, stability, and of each joint the check that governs it by each rule set.
    pub checks: Vec<Check>,
    /// The numbers that decide between plans, in an order that does not change.
    pub metrics: Vec<Metric>,
    /// How long the skin lasts.
    pub outlook: Vec<ZoneOutlook>,
    /// How long the joints keep their strength as the sheet rusts.
    pub thinned: Vec<ThinnedJoint>,
    /// What a year of the skin costs; none where the plan does not ask or nothing is priced.
    pub life_cost: Option<LifeCost>,
    /// Metals in contact.
    pub pairs: Vec<ContactPair>,
    /// What to do at laps, edges, holes and welds.
    pub details: Vec<Detail>,
    /// What each coat takes, and how long the paint outside lasts by its film.
    pub paint: PaintSummary,
    /// What to order.
    pub order: Vec<OrderLine>,
    /// What is done, and for how long.
    pub tasks: Vec<Task>,
    /// In which order sheets and panels are hung, and why.
    pub hanging_order: Vec<HangingRow>,
    /// Who does what on which day; none where the plan has no crew.
    pub schedule: Option<Schedule>,
    /// The price; none where the plan has no prices.
    pub quote: Option<Quote>,
    /// What goes to the customer with it.
    pub offer: Option<Offer>,
    /// What may turn out otherwise than quoted.
    pub causes: Shared<Vec<Cause>>,
    /// Everything that is assumed, common practice or from memory.
    pub assumed: Vec<Assumption>,
    /// Catalogue rows of the plan's own.
    pub overrides: Vec<String>,
}

impl Evaluation {
    /// Holes drilled through a sheet, those shared with a neighbour counted in both.
    pub fn holes_in(&self, sheet: &Sheet) -> usize {
        let own = self.lines.iter().filter(|line| line.side == Some(sheet.side));
        own.flat_map(RivetLine::hole_places_mm)
            .filter(|(x, z)| (sheet.x0_mm..=sheet.x1_mm).contains(x) && (sheet.z0_mm..=sheet.z1_mm).contains(z))
            .count()
    }

    /// The worst verdict among the checks.
    pub fn verdict(&self) -> Verdict {
        crate::check::worst(&self.checks)
    }

    /// How many checks have each verdict: passes, not assessed, outside the rule's range, fails.
    pub fn verdict_counts(&self) -> [(Verdict, usize); 4] {
        [Verdict::Passes, Verdict::NotAssessed, Verdict::OutsideRange, Verdict::Fails]
            .map(|v| (v, self.checks.iter().filter(|c| c.verdict == v).count()))
    }

    /// Hours of one person, all tasks.
    pub fn hours(&self) -> f64 {
        self.tasks.iter().map(|t| t.hours).sum()
    }

    /// Every check as a hand calculation; of each joint all its checks.
    pub fn explain(&self) -> String {
        let of_joints = self.joints.iter().flat_map(|joint| {
            joint.reports.iter().map(|report| {
                let title = format!("— {} — {}", joint.subject(self.units), report.method);
                format!("{title}\n\n{}", report.explain())
            })
        });
        let others = self.checks.iter().filter(|c| !c.name.starts_with("joint")).map(Check::explain);
        others.chain(of_joints).collect::<Vec<_>>().join("\n")
    }
}
