//! The numbers that decide between plans: one list for comparisons, sweeps and choices.

use rust_decimal::prelude::ToPrimitive as _;

use crate::body::flatness::Lying;
use crate::money::Per;
use crate::shop::life_cost::YearlyCost;

use super::essentials::Essentials;
use super::flatness::LyingSize;
use super::outlook::first_to_end;
use super::resolve::Resolved;
use super::results::LifeCost;

/// One number of a comparison; its name ends in its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Metric {
    /// Name with unit.
    pub name: &'static str,
    /// The number; none where it is not known.
    pub value: Option<f64>,
}

/// Names of the numbers, in an order that does not change.
pub(super) const METRICS: [&str; 33] = [
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
    "panels_not_assessed_count",
    "coating_life_shortest_years",
    "coating_life_longest_years",
    "eaten_through_shortest_years",
    "eaten_through_longest_years",
    "sheets_count",
    "rivets_count",
    "labour_h",
    "paint_preparation_h",
    "sheet_price_per_m2",
    "price_total",
    "cost_per_year_least",
    "cost_per_year_most",
];

/// The worst of the panels in the sun that can be told; none where a panel's size is outside the rules, or there is no panel. How
/// many cannot be told is a number of its own.
fn in_the_sun(sizes: &[LyingSize], value: impl Fn(&Lying) -> f64) -> Option<f64> {
    let values = sizes.iter().filter_map(|size| size.sun.as_ref()).map(|sun| sun.as_ref().ok().map(&value));
    values.reduce(|most, own| Some(most?.max(own?))).flatten()
}

/// Price of a square metre of sheet, in the plan's currency; none where sheet has no price.
fn sheet_price_per_m2(r: &Resolved) -> Option<f64> {
    let price = r.prices.as_ref()?.of(|book| book.sheet.as_ref())?.price;
    let amount = price.money.amount.to_f64()?;
    Some(if price.per == Per::SquareMetre { amount } else { amount * r.sheet.areal_mass_kg_m2 })
}

/// The numbers in the order of their names.
pub(super) fn metrics(r: &Resolved, e: &Essentials) -> Vec<Metric> {
    let coating = first_to_end(&e.outlook, |zone| zone.coating_years.map(|life| life.years()));
    let through = first_to_end(&e.outlook, |zone| zone.eaten_through_years);
    let a_year =
        |cost: &dyn Fn(&LifeCost) -> Option<YearlyCost>| e.life_cost.as_ref().and_then(cost).map(|cost| cost.per_year);
    let after = e.mass.after;
    let (front, rear) = (e.mass.axles_after_kg.map(|a| a.0), e.mass.axles_after_kg.map(|a| a.1));
    let gross = after.map(|b| b.0.mass_kg);
    let margin = |rating: Option<f64>, load: Option<f64>| rating.zip(load).map(|(rating, load)| rating - load);
    let values = [
        Some(r.sheet.thickness_mm),
        Some(e.mass.skin_kg),
        Some(e.mass.added_kg),
        Some(e.mass.removed_kg),
        gross,
        margin(r.gross_rating_kg, gross),
        after.map(|b| b.0.z_mm),
        after.map(|b| b.1.z_mm),
        front,
        rear,
        margin(r.axle_ratings.map(|a| a.front_kg), front),
        margin(r.axle_ratings.map(|a| a.rear_kg), rear),
        e.mass.tilt_after_deg.map(|t| t.low.min(t.high)),
        Some(e.raised.heights.overall_mm),
        Some(e.raised.headroom_mm),
        e.joint_use.en,
        e.joint_use.aisi,
        in_the_sun(&e.panel_sizes.sizes, |own| own.rise_k / own.critical_k.0),
        in_the_sun(&e.panel_sizes.sizes, |own| own.bow_mm.0),
        in_the_sun(&e.panel_sizes.sizes, |own| own.bow_mm.1),
        Some(e.panel_sizes.not_assessed() as f64),
        coating.map(|life| life.shortest_years),
        coating.and_then(|life| life.longest_years),
        through.map(|life| life.shortest_years),
        through.and_then(|life| life.longest_years),
        Some(e.takeoff.sheets as f64),
        Some(e.takeoff.rivets as f64),
        Some(e.tasks.iter().map(|task| task.hours).sum()),
        Some(e.paint_preparation_h),
        sheet_price_per_m2(r),
        e.quote.as_ref().and_then(|quote| quote.total.to_f64()),
        a_year(&|cost| cost.least),
        a_year(&|cost| cost.most),
    ];
    METRICS.into_iter().zip(values).map(|(name, value)| Metric { name, value }).collect()
}
