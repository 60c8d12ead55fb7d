//! The numbers that decide between plans: one list for comparisons, sweeps and choices.

use rust_decimal::prelude::ToPrimitive as _;

use crate::body::flatness::Lying;
use crate::body::raise::RaisedBody;
use crate::body::takeoff::Takeoff;
use crate::mechanics::joint::Report;
use crate::shop::hours::Task;
use crate::shop::quote::Quote;

use super::Evaluation;
use super::evaluate::Essentials;
use super::flatness::FlatnessSummary;
use super::resolve::Resolved;
use super::results::{JointCase, MassSummary, ZoneOutlook};

/// One number of a comparison; its name ends in its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Metric {
    /// Name with unit.
    pub name: &'static str,
    /// The number; none where it is not known.
    pub value: Option<f64>,
}

/// Names of the numbers, in an order that does not change.
pub(super) const METRICS: [&str; 25] = [
    "sheet_thickness_mm",
    "skin_mass_kg",
    "added_mass_kg",
    "removed_mass_kg",
    "mass_after_kg",
    "gross_margin_kg",
    "cg_height_after_low_mm",
    "cg_height_after_high_mm",
    "front_axle_after_kg",
    "rear_axle_after_kg",
    "front_axle_margin_kg",
    "rear_axle_margin_kg",
    "tilt_angle_after_deg",
    "overall_height_mm",
    "headroom_mm",
    "joint_utilisation_en_ratio",
    "joint_utilisation_aisi_ratio",
    "panel_buckling_sun_ratio",
    "panel_bow_sun_least_mm",
    "panel_bow_sun_most_mm",
    "coating_life_shortest_years",
    "sheets_count",
    "rivets_count",
    "labour_h",
    "price_total",
];

/// What the numbers are taken from.
pub(super) struct Figures<'a> {
    pub sheet_thickness_mm: f64,
    pub ratings: Ratings,
    pub raised: &'a RaisedBody,
    pub mass: &'a MassSummary,
    pub joints: &'a [JointCase],
    pub flatness: &'a FlatnessSummary,
    pub outlook: &'a [ZoneOutlook],
    pub takeoff: &'a Takeoff,
    pub tasks: &'a [Task],
    pub quote: Option<&'a Quote>,
}

/// What the vehicle may weigh, kg; none where the plan does not say.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Ratings {
    /// The front axle.
    pub front_kg: Option<f64>,
    /// The rear axle.
    pub rear_kg: Option<f64>,
    /// The whole vehicle.
    pub gross_kg: Option<f64>,
}

impl Ratings {
    pub(super) fn of(r: &Resolved) -> Self {
        let axles = r.axle_ratings;
        Self { front_kg: axles.map(|a| a.front_kg), rear_kg: axles.map(|a| a.rear_kg), gross_kg: r.gross_rating_kg }
    }
}

impl<'a> Figures<'a> {
    pub(super) fn of(r: &Resolved, e: &'a Essentials) -> Self {
        Self {
            sheet_thickness_mm: r.sheet.thickness_mm,
            ratings: Ratings::of(r),
            raised: &e.raised,
            mass: &e.mass,
            joints: &e.joints,
            flatness: &e.flatness,
            outlook: &e.outlook,
            takeoff: &e.takeoff,
            tasks: &e.tasks,
            quote: e.quote.as_ref(),
        }
    }

    fn of_evaluation(e: &'a Evaluation) -> Self {
        Self {
            sheet_thickness_mm: e.sheet_thickness_mm,
            ratings: e.ratings,
            raised: &e.raised,
            mass: &e.mass,
            joints: &e.joints,
            flatness: &e.flatness,
            outlook: &e.outlook,
            takeoff: &e.takeoff,
            tasks: &e.tasks,
            quote: e.quote.as_ref(),
        }
    }
}

/// The worst use of any joint by the rule sets of one family; none where one of them is not known.
fn utilisation(joints: &[JointCase], family: &str) -> Option<f64> {
    joints
        .iter()
        .flat_map(|joint| &joint.reports)
        .filter(|report| report.method.starts_with(family))
        .map(Report::utilisation)
        .try_fold(0.0, |most: f64, own| own.map(|own| most.max(own)))
        .filter(|most| *most > 0.0)
}

/// The worst of the panels in the sun; none where a panel's size is outside the rules, or there is no panel.
fn in_the_sun(flatness: &FlatnessSummary, value: impl Fn(&Lying) -> f64) -> Option<f64> {
    let values = flatness.sizes.iter().map(|size| size.sun.as_ref().map(&value));
    values.reduce(|most, own| Some(most?.max(own?))).flatten()
}

/// The numbers in the order of their names.
pub(super) fn metrics(f: &Figures<'_>) -> Vec<Metric> {
    let shortest = f.outlook.iter().filter_map(|z| z.coating_years.map(|l| l.shortest_years)).reduce(f64::min);
    let after = f.mass.after;
    let (front, rear) = (f.mass.axles_after_kg.map(|a| a.0), f.mass.axles_after_kg.map(|a| a.1));
    let gross = after.map(|b| b.0.mass_kg);
    let margin = |rating: Option<f64>, load: Option<f64>| rating.zip(load).map(|(rating, load)| rating - load);
    let values = [
        Some(f.sheet_thickness_mm),
        Some(f.mass.skin_kg),
        Some(f.mass.added_kg),
        Some(f.mass.removed_kg),
        gross,
        margin(f.ratings.gross_kg, gross),
        after.map(|b| b.0.z_mm),
        after.map(|b| b.1.z_mm),
        front,
        rear,
        margin(f.ratings.front_kg, front),
        margin(f.ratings.rear_kg, rear),
        f.mass.tilt_after_deg.map(|t| t.low.min(t.high)),
        Some(f.raised.heights.overall_mm),
        Some(f.raised.headroom_mm),
        utilisation(f.joints, "EN 199"),
        utilisation(f.joints, "AISI"),
        in_the_sun(f.flatness, |own| own.rise_k / own.critical_k.0),
        in_the_sun(f.flatness, |own| own.bow_mm.0),
        in_the_sun(f.flatness, |own| own.bow_mm.1),
        shortest,
        Some(f.takeoff.sheets as f64),
        Some(f.takeoff.rivets as f64),
        Some(f.tasks.iter().map(|task| task.hours).sum()),
        f.quote.and_then(|quote| quote.total.to_f64()),
    ];
    METRICS.into_iter().zip(values).map(|(name, value)| Metric { name, value }).collect()
}

/// The numbers of an evaluation, with those that only a whole one has.
pub(super) fn of_evaluation(e: &Evaluation) -> Vec<Metric> {
    let sway = e.bows.as_ref().and_then(|bows| bows.answers.first()).map(|answer| answer.sway_stiffness_after_n_mm);
    let mut all = metrics(&Figures::of_evaluation(e));
    all.push(Metric { name: "sway_stiffness_after_n_mm", value: sway });
    all
}
