//! The joints again, with the sheet that rust leaves: how long their strength holds.

use crate::body::rivet_lines::LineKind;
use crate::catalogue::MetalLost;
use crate::check::{Check, Level, Standing, Verdict};
use crate::error::Error;
use crate::mechanics::corrosion::{Layer, Years, life_range, loss_range};

use super::file::File;
use super::joints::used_when_thinned;
use super::resolve::Resolved;
use super::results::{JointCase, ThinnedJoint, ZoneOutlook};

/// Halvings in the search for the thinnest sheet: to a third of a micrometre in a sheet of 1.3 mm.
const HALVINGS: usize = 12;

/// Thinnest sheet that is looked at, mm.
const THINNEST_MM: f64 = 0.15;

/// Lower edges lap over what is beneath and hold water; lines at the drip rail and at the ends lie in the lower zone, for the rear
/// face is one of them; the others are out in the open like the sides.
fn zone(kind: LineKind) -> usize {
    match kind {
        LineKind::Bottom => 2,
        LineKind::Top | LineKind::End => 1,
        LineKind::Post | LineKind::Seam | LineKind::Course | LineKind::Opening => 0,
    }
}

/// Of each joint and rule set how far the sheet may thin, and when.
pub(super) fn thinned(
    r: &Resolved,
    file: &File,
    joints: &[JointCase],
    outlook: &[ZoneOutlook],
) -> Result<Vec<ThinnedJoint>, Error> {
    let mut rows = Vec::new();
    for joint in joints {
        let Some(zone) = outlook.get(zone(joint.kind)) else { continue };
        for (place, report) in joint.reports.iter().enumerate() {
            rows.push(row(r, file, joint, (place, report.method, report.utilisation()), zone)?);
        }
    }
    Ok(rows)
}

fn row(
    r: &Resolved,
    file: &File,
    joint: &JointCase,
    (place, method, now): (usize, &'static str, Option<f64>),
    zone: &ZoneOutlook,
) -> Result<ThinnedJoint, Error> {
    let wanted_years = file.service.years.map(f64::from);
    let after = |lost_mm: f64| -> Result<Option<f64>, Error> {
        Ok(used_when_thinned(r, joint, lost_mm)?.get(place).copied().flatten())
    };
    let mut own = ThinnedJoint {
        subject: joint.subject(file.units),
        kind: joint.kind,
        lines: joint.lines.clone(),
        zone: zone.zone,
        method,
        utilisation_now: now,
        thinnest_mm: None,
        loss_um: None,
        years: None,
        wanted_years,
        utilisation_then_least: None,
        utilisation_then_most: None,
        standing: zone.standing,
        note: String::new(),
    };
    let Some(now) = now else {
        "the joint is not assessed as it is".clone_into(&mut own.note);
        return Ok(own);
    };
    let Some(bare) = zone.bare_years.filter(|_| zone.perforation_years.is_some()) else {
        "no loss is tabulated for this metal or coating".clone_into(&mut own.note);
        return Ok(own);
    };
    // Strength is what is left of it: the same load uses more of it.
    let allowed = now / (1.0 - r.lasting.strength_loss);
    let most_mm = r.sheet.design_mm - THINNEST_MM;
    let holds = |lost_mm: f64| -> Result<bool, Error> { Ok(after(lost_mm)?.is_some_and(|used| used <= allowed)) };
    let (mut kept_mm, mut lost_mm) = (0.0, most_mm);
    if holds(most_mm)? {
        kept_mm = most_mm;
    } else {
        for _ in 0..HALVINGS {
            let middle_mm = f64::midpoint(kept_mm, lost_mm);
            if holds(middle_mm)? { kept_mm = middle_mm } else { lost_mm = middle_mm }
        }
        if after(lost_mm)?.is_none() {
            "thinner than this the sheet is outside the rule's range".clone_into(&mut own.note);
        }
    }
    let loss_um = 1000.0 * kept_mm;
    own.loss_um = Some(loss_um);
    own.thinnest_mm = Some(r.sheet.design_mm - kept_mm);
    let eaten = life_range(Layer { nominal_um: loss_um, least_um: loss_um }, zone.steel, MetalLost::Steel)?;
    own.years = Some(bare.then(eaten.years()));
    if let Some(wanted) = wanted_years {
        let (most_um, least_um) = lost_by(zone, bare, wanted)?;
        own.utilisation_then_most = after(most_um / 1000.0)?;
        own.utilisation_then_least = after(least_um / 1000.0)?;
    }
    Ok(own)
}

/// The most and the least steel gone after some years, µm.
fn lost_by(zone: &ZoneOutlook, bare: Years, wanted_years: f64) -> Result<(f64, f64), Error> {
    let rusting = |since: f64| wanted_years - since;
    let most_um = match rusting(bare.shortest_years) {
        left if left > 0.0 => loss_range(zone.steel, left, MetalLost::Steel)?.most_um,
        _ => 0.0,
    };
    let least_um = match bare.longest_years.map(rusting) {
        Some(left) if left > 0.0 => loss_range(zone.steel, left, MetalLost::Steel)?.least_um,
        _ => 0.0,
    };
    Ok((most_um, least_um))
}

/// The joint that is worst off after the years wanted, in each zone: passes at the worst, fails at the best, and else is not
/// known.
pub(super) fn thinned_checks(rows: &[ThinnedJoint]) -> Vec<Check> {
    let mut zones: Vec<&str> = rows.iter().map(|row| row.zone).collect();
    zones.dedup();
    zones.sort_unstable();
    zones.dedup();
    zones.into_iter().filter_map(|zone| thinned_check(rows, zone)).collect()
}

fn thinned_check(rows: &[ThinnedJoint], zone: &str) -> Option<Check> {
    let own = || rows.iter().filter(|row| row.zone == zone && row.wanted_years.is_some());
    // One that does not hold even at the best; else a joint without a number is worse than any number.
    let most = |row: &ThinnedJoint| row.utilisation_then_most.unwrap_or(f64::INFINITY);
    let least = |row: &&ThinnedJoint| row.utilisation_then_least.unwrap_or_default();
    let lost = own().filter(|row| least(row) > 1.0).max_by(|a, b| least(a).total_cmp(&least(b)));
    let worst = lost.or_else(|| own().max_by(|a, b| most(a).total_cmp(&most(b))))?;
    let years = worst.wanted_years?;
    let used = if lost.is_some() { worst.utilisation_then_least } else { worst.utilisation_then_most };
    let check = Check::compare(
        "joint, thinned by rust",
        "ISO 9223:2012 and ISO 9224:2012, and the joint's own rule",
        (used, Some(1.0), "of its strength"),
        Level::Stated,
        worst.standing.with(Standing::Assumed),
    )
    .at(format!("{}, {zone}", worst.subject));
    let when = worst.years.map_or_else(String::new, |when| format!("; it has lost its share of strength after {when}"));
    Some(match (check.verdict, worst.utilisation_then_least) {
        (Verdict::Fails, Some(least)) if least <= 1.0 => check.demoted(
            Verdict::NotAssessed,
            format!("after {years} years without paint it may or may not hold: {least:.2} of its strength is used at best{when}"),
        ),
        (Verdict::NotAssessed, _) => {
            let why = if worst.note.is_empty() {
                format!("after {years} years the sheet may be thinner than the rule covers{when}")
            } else {
                worst.note.clone()
            };
            check.because(why)
        }
        _ => {
            let loss = if lost.is_some() { "even at the least loss" } else { "at the greatest loss" };
            check.because(format!("after {years} years without paint, {loss}{when}"))
        }
    })
}
