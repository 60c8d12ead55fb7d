//! The tables of an evaluation.

use crate::body::bows::PartStress;
use crate::body::features::Feature;
use crate::body::ledger::{Action, Entry, Relation};
use crate::body::outline::CrossSection;
use crate::body::survey::Side;
use crate::mechanics::galvanic::Pair;
use crate::plan::{ContactPair, Evaluation, OldLine};

use super::output::Columns;

pub(super) fn masses(e: &Evaluation) -> Columns {
    Columns::of(&e.items)
        .text("name", |i| &i.name)
        .text("group", |i| i.group.words())
        .text("change", |i| i.change.words())
        .number("mass_kg", |i| i.mass_kg)
        .number("x_mm", |i| i.x_mm)
        .number("y_mm", |i| i.y_mm)
        .number("z_mm", |i| i.z_mm)
        .number("rise_mm", |i| i.change.rise_mm())
        .text("standing", |i| i.standing.words())
        .done()
}

pub(super) fn effects(e: &Evaluation) -> Columns {
    Columns::of(&e.effects)
        .text("name", |row| row.name)
        .text("unit", |row| row.unit)
        .number("before_low", |row| row.before.map(|s| s.least))
        .number("before_high", |row| row.before.map(|s| s.most))
        .number("after_low", |row| row.after.map(|s| s.least))
        .number("after_high", |row| row.after.map(|s| s.most))
        .number("change_low", |row| row.change.map(|s| s.least))
        .number("change_high", |row| row.change.map(|s| s.most))
        .text("standing", |row| row.standing.words())
        .text("note", |row| &row.note)
        .done()
}

pub(super) fn reminders(e: &Evaluation) -> Columns {
    Columns::of(&e.reminders)
        .text("about", |r| r.about)
        .text("text", |r| r.text)
        .text("standing", |r| r.standing.words())
        .text("source", |r| r.source)
        .done()
}

/// A row for each thing that the cut goes through, moves or passes by.
pub(super) fn ledger(e: &Evaluation) -> Columns {
    let by = |line: &&Entry| match line.action {
        Some(Action::Lengthen { by_mm }) => Some(by_mm),
        _ => None,
    };
    Columns::of(&e.ledger)
        .text("name", |l| &l.name)
        .text("kind", |l| l.kind.words())
        .text("relation", |l| l.relation.map_or("not known", Relation::words))
        .text("action", |l| l.action.map_or("not known", Action::words))
        .number("lengthen_mm", by)
        .text("note", |l| &l.note)
        .done()
}

pub(super) fn exits(e: &Evaluation) -> Columns {
    Columns::of(&e.exits)
        .text("place", |row| row.place)
        .number("before", |row| row.before as f64)
        .number("after", |row| row.after as f64)
        .done()
}

pub(super) fn gate(e: &Evaluation) -> Columns {
    Columns::of(&e.gate.rows)
        .text("entry", |row| row.key.entry())
        .text("question", |row| row.key.words())
        .text("state", |row| row.state.words())
        .text("settled", |row| row.settled.clone().unwrap_or_default())
        .text("valid_until", |row| row.valid_until.clone().unwrap_or_default())
        .text("note", |row| &row.note)
        .done()
}

pub(super) fn hanging_order(e: &Evaluation) -> Columns {
    Columns::of(e.hanging_order.iter().enumerate())
        .count("place", |(i, _)| i + 1)
        .text("sheet", |(_, h)| &h.sheet)
        .text("side", |(_, h)| h.side.map_or("", |side| side.name()))
        .number("course", |(_, h)| h.course.map(|course| course as f64 + 1.0))
        .text("after", |(_, h)| h.after.join("; "))
        .text("reason", |(_, h)| &h.reason)
        .done()
}

pub(super) fn order(e: &Evaluation) -> Columns {
    Columns::of(&e.order)
        .text("item", |l| &l.item)
        .text("supplier", |l| l.supplier.clone().unwrap_or_default())
        .number("quantity", |l| l.quantity)
        .text("unit", |l| l.unit)
        .text("note", |l| &l.note)
        .done()
}

pub(super) fn lines(e: &Evaluation) -> Columns {
    Columns::of(&e.lines)
        .text("id", |l| &l.id)
        .text("side", |l| l.side.map_or("", |s| s.name()))
        .text("kind", |l| l.kind.words())
        .number("from_x_mm", |l| l.from_mm.0)
        .number("from_z_mm", |l| l.from_mm.1)
        .number("to_x_mm", |l| l.to_mm.0)
        .number("to_z_mm", |l| l.to_mm.1)
        .number("length_mm", |l| l.length_mm())
        .number("pitch_mm", |l| l.pitch_mm)
        .number("tributary_mm", |l| l.tributary_mm)
        .count("holes_count", |l| l.holes_mm.len())
        .text("old_line", |l| {
            let own = |old: &&OldLine| old.lies_on.as_ref().is_some_and(|on| on.line == l.id);
            e.old_lines.iter().find(own).map_or("", |old| old.name.as_str())
        })
        .done()
}

pub(super) fn sheets(e: &Evaluation) -> Columns {
    Columns::of(&e.skins.sheets)
        .text("id", |s| &s.id)
        .text("side", |s| s.side.name())
        .count("course", |s| s.course + 1)
        .count("first_post", |s| s.first_post + 1)
        .count("last_post", |s| s.last_post + 1)
        .number("x0_mm", |s| s.x0_mm)
        .number("x1_mm", |s| s.x1_mm)
        .number("z0_mm", |s| s.z0_mm)
        .number("z1_mm", |s| s.z1_mm)
        .number("length_mm", |s| s.length_mm())
        .number("height_mm", |s| s.height_mm())
        .number("area_m2", |s| s.area_m2())
        .number("mass_kg", |s| s.mass_kg)
        .count("people", |s| s.people)
        .count("holes_count", |s| e.holes_in(s))
        .text("factory_edge", |s| e.skins.showing_edge(s).unwrap_or("any"))
        .text("patch_beside", |s| s.patch.as_ref().map_or("", |patch| &patch.beside))
        .done()
}

pub(super) fn blanks(e: &Evaluation) -> Columns {
    Columns::of(&e.takeoff.blanks)
        .count("count", |b| b.count)
        .number("length_mm", |b| b.length_mm)
        .number("height_mm", |b| b.height_mm)
        .text("grain", |b| b.grain.name())
        .text("finished_face", |b| b.finished_face.name())
        .text("factory_edge", |b| b.factory_edge.unwrap_or("any"))
        .text("sheets", |b| b.ids.join("; "))
        .done()
}

pub(super) fn laps(e: &Evaluation) -> Columns {
    Columns::of(&e.skins.laps)
        .text("over", |l| &l.over)
        .text("under", |l| &l.under)
        .text("kind", |l| l.kind.words())
        .text("side", |l| l.side.map_or("", |s| s.name()))
        .number("post", |l| l.post.map(|post| (post + 1) as f64))
        .number("length_mm", |l| l.length_mm)
        .text("fault", |l| l.fault.as_deref().unwrap_or(""))
        .done()
}

pub(super) fn seam_policies(e: &Evaluation) -> Columns {
    Columns::of(&e.skins.policies)
        .text("policy", |p| p.policy.words())
        .count("sheets_count", |p| p.sheets)
        .count("seams_count", |p| p.seams)
        .number("new_seams_count", |p| p.new_seams.map(|n| n as f64))
        .number("seam_length_m", |p| p.seam_length_m)
        .number("shortest_mm", |p| p.shortest_mm)
        .number("longest_mm", |p| p.longest_mm)
        .number("heaviest_kg", |p| p.heaviest_kg)
        .count("people", |p| p.people)
        .done()
}

pub(super) fn rivet_lots(e: &Evaluation) -> Columns {
    Columns::of(&e.rivet_lots)
        .count("sheets_count", |l| l.stacked.sheets)
        .text("behind", |l| l.stacked.behind.words())
        .count("holes_count", |l| l.stacked.holes)
        .number("grip_mm", |l| l.grip_mm)
        .text("length", |l| l.length.as_deref().unwrap_or(""))
        .text("note", |l| &l.note)
        .text("standing", |l| l.standing.words())
        .done()
}

pub(super) fn backers(e: &Evaluation) -> Columns {
    Columns::of(&e.takeoff.backers)
        .text("behind", |b| &b.behind)
        .text("side", |b| b.side.map_or("", |s| s.name()))
        .number("from_mm", |b| b.from_mm)
        .number("z_mm", |b| b.z_mm)
        .number("length_mm", |b| b.length_mm)
        .done()
}

pub(super) fn ends(e: &Evaluation) -> Columns {
    Columns::of(&e.skins.ends)
        .text("id", |p| &p.id)
        .text("side", |p| p.side.map_or("", |s| s.name()))
        .number("length_mm", |p| p.length_mm)
        .number("height_mm", |p| p.height_mm)
        .number("area_m2", |p| p.area_m2())
        .number("x_mm", |p| p.x_mm)
        .number("y_mm", |p| p.y_mm)
        .number("z_mm", |p| p.z_mm)
        .number("mass_kg", |p| p.mass_kg)
        .count("people", |p| p.people)
        .done()
}

pub(super) fn tasks(e: &Evaluation) -> Columns {
    Columns::of(&e.tasks)
        .text("name", |t| t.name)
        .number("quantity", |t| t.quantity)
        .text("unit", |t| t.unit)
        .number("labour_h", |t| t.hours)
        .text("standing", |t| t.standing.words())
        .done()
}

pub(super) fn assumed(e: &Evaluation) -> Columns {
    Columns::of(&e.assumed)
        .text("field", |a| &a.field)
        .text("value", |a| &a.value)
        .text("standing", |a| a.standing.words())
        .text("source", |a| &a.source)
        .done()
}

pub(super) fn pairs(e: &Evaluation) -> Columns {
    let of = |value: fn(&Pair) -> Option<f64>| move |row: &&ContactPair| row.pair.as_ref().and_then(value);
    let words =
        |value: fn(&Pair) -> String| move |row: &&ContactPair| row.pair.as_ref().map_or_else(String::new, value);
    Columns::of(&e.pairs)
        .text("name", |row| &row.name)
        .text("first", |row| &row.first)
        .text("second", |row| &row.second)
        .text("exposure", |row| row.exposure.name())
        .number("index_least_v", of(|p| p.index_difference_v.map(|d| d.0)))
        .number("index_most_v", of(|p| p.index_difference_v.map(|d| d.1)))
        .number("limit_v", of(|p| Some(p.limit_v)))
        .number("gap_least_v", of(|p| p.gap_v.map(|g| g.0)))
        .number("gap_most_v", of(|p| p.gap_v.map(|g| g.1)))
        .number("gap_sources_count", of(|p| Some(p.gap_sources as f64)))
        .text("eaten", words(|p| p.eaten_name().to_owned()))
        .number("area_ratio", of(|p| p.area_ratio))
        .text("areas", words(Pair::area_words))
        .text("warning", words(|p| p.warning().unwrap_or_default()))
        .text("remedies", words(|p| p.remedies().into_iter().map(|r| r.text).collect::<Vec<_>>().join("; ")))
        .text("verdict", |row| row.check().verdict.words())
        .text("missing", |row| &row.missing)
        .text("assumed", |row| row.assumed.unwrap_or(""))
        .text("standing", |row| row.standing().words())
        .done()
}

pub(super) fn details(e: &Evaluation) -> Columns {
    Columns::of(&e.details)
        .text("detail", |d| d.detail)
        .text("zone", |d| d.zone)
        .text("category", |d| &d.category)
        .flag("treat", |d| d.treat)
        .text("advice", |d| &d.advice)
        .number("quantity", |d| d.quantity)
        .text("unit", |d| d.unit)
        .text("source", |d| &d.source)
        .text("standing", |d| d.standing.words())
        .done()
}

pub(super) fn outlook(e: &Evaluation) -> Columns {
    Columns::of(&e.outlook)
        .text("zone", |z| z.zone)
        .text("category", |z| &z.category)
        .text("because", |z| &z.because)
        .number("zinc_low_um_a", |z| z.zinc.low_um_a)
        .number("zinc_high_um_a", |z| z.zinc.high_um_a)
        .number("steel_low_um_a", |z| z.steel.low_um_a)
        .number("steel_high_um_a", |z| z.steel.high_um_a)
        .number("coating_shortest_years", |z| z.coating_years.map(|l| l.shortest_years))
        .number("coating_longest_years", |z| z.coating_years.and_then(|l| l.longest_years))
        .number("thin_side_shortest_years", |z| z.coating_thin_side_years.map(|l| l.shortest_years))
        .number("thin_side_longest_years", |z| z.coating_thin_side_years.and_then(|l| l.longest_years))
        .number("average_side_shortest_years", |z| z.coating_average_years.map(|l| l.shortest_years))
        .number("average_side_longest_years", |z| z.coating_average_years.and_then(|l| l.longest_years))
        .number("perforation_shortest_years", |z| z.perforation_years.map(|l| l.shortest_years))
        .number("perforation_longest_years", |z| z.perforation_years.and_then(|l| l.longest_years))
        .number("eaten_through_shortest_years", |z| z.eaten_through_years.map(|l| l.shortest_years))
        .number("eaten_through_longest_years", |z| z.eaten_through_years.and_then(|l| l.longest_years))
        .number("painted_shortest_years", |z| z.painted_years.map(|l| l.shortest_years))
        .number("painted_longest_years", |z| z.painted_years.and_then(|l| l.longest_years))
        .text("standing", |z| z.standing.words())
        .text("note", |z| &z.note)
        .done()
}

/// A row for each joint and rule set, with the sheet that rust leaves.
pub(super) fn thinned(e: &Evaluation) -> Columns {
    Columns::of(&e.thinned)
        .text("kind", |t| t.kind.words())
        .text("lines", |t| t.lines.join(", "))
        .text("zone", |t| t.zone)
        .text("method", |t| t.method)
        .number("utilisation_now", |t| t.utilisation_now)
        .number("thinnest_mm", |t| t.thinnest_mm)
        .number("loss_um", |t| t.loss_um)
        .number("shortest_years", |t| t.years.map(|years| years.shortest_years))
        .number("longest_years", |t| t.years.and_then(|years| years.longest_years))
        .number("wanted_years", |t| t.wanted_years)
        .number("utilisation_then_least", |t| t.utilisation_then_least)
        .number("utilisation_then_most", |t| t.utilisation_then_most)
        .text("standing", |t| t.standing.words())
        .text("note", |t| &t.note)
        .done()
}

/// One row, or none.
pub(super) fn life_cost(e: &Evaluation) -> Columns {
    Columns::of(&e.life_cost)
        .text("ends", |c| c.ends)
        .number("horizon_years", |c| f64::from(c.horizon_years))
        .text("currency", |c| c.currency)
        .number("first", |c| c.first)
        .number("renewal", |c| c.renewal)
        .text("zone", |c| c.zone.unwrap_or_default())
        .number("shortest_years", |c| c.years.map(|years| years.shortest_years))
        .number("longest_years", |c| c.years.and_then(|years| years.longest_years))
        .number("per_year_least", |c| c.least.map(|cost| cost.per_year))
        .number("per_year_most", |c| c.most.map(|cost| cost.per_year))
        .number("renewals_least", |c| c.least.map(|cost| f64::from(cost.renewals)))
        .number("renewals_most", |c| c.most.map(|cost| f64::from(cost.renewals)))
        .text("standing", |c| c.standing.words())
        .text("note", |c| &c.note)
        .done()
}

/// A row for each way of holding the feet.
pub(super) fn bows(e: &Evaluation) -> Columns {
    let answers = e.bows.as_ref().map_or(&[][..], |bows| &bows.answers);
    let most = |parts: &[PartStress]| parts.iter().map(|s| s.stress_mpa).reduce(f64::max);
    Columns::of(answers)
        .text("feet", |a| a.feet.words())
        .number("sway_stiffness_before_n_mm", |a| a.sway_stiffness_before_n_mm)
        .number("sway_stiffness_after_n_mm", |a| a.sway_stiffness_after_n_mm)
        .number("sway_mm", |a| a.sway_mm)
        .number("p_delta_ratio", |a| a.p_delta_ratio)
        .number("side_stress_before_mpa", |a| most(&a.side_before))
        .number("side_stress_after_mpa", |a| most(&a.side_after))
        .number("side_stress_design_mpa", |a| most(&a.side_design))
        .number("splice_design_moment_n_mm", |a| a.splice_design.map(|s| s.moment_n_mm))
        .number("roof_stress_mpa", |a| most(&a.roof_after))
        .number("crown_down_mm", |a| a.crown_down_mm)
        .done()
}

/// A row for each joint and rule set.
pub(super) fn joints(e: &Evaluation) -> Columns {
    let rows = e.joints.iter().flat_map(|joint| joint.reports.iter().map(move |report| (joint, report)));
    Columns::of(rows)
        .text("kind", |(j, _)| j.kind.words())
        .text("zone", |(j, _)| j.zone.words())
        .text("lines", |(j, _)| j.lines.join(", "))
        .number("pitch_mm", |(j, _)| j.pitch_mm)
        .number("racking_n_mm", |(j, _)| j.line_load.racking_n_mm)
        .number("shock_n_mm", |(j, _)| j.line_load.shock_n_mm)
        .number("temperature_n_mm", |(j, _)| j.line_load.temperature_n_mm)
        .number("line_n_mm", |(j, _)| j.line_load.total_n_mm)
        .number("suction_pa", |(j, _)| j.suction_pa)
        .number("shear_n", |(j, _)| j.shear_n)
        .text("shear_case", |(j, _)| j.line_load.governing())
        .number("tension_n", |(j, _)| j.tension_n)
        .text("tension_case", |(j, _)| j.air_case.words())
        .text("method", |(_, r)| r.method)
        .text("level", |(_, r)| r.level.words())
        .text("verdict", |(_, r)| r.verdict().words())
        .text("governing", |(_, r)| r.governing().map_or("", |c| c.name.as_ref()))
        .number("utilisation", |(_, r)| r.utilisation())
        .done()
}

/// Lines and arcs of both halves, from the foot up; y is positive to the left.
pub(super) fn pieces(section: &CrossSection) -> Columns {
    let rows = Side::BOTH.into_iter().flat_map(|side| section.half(side).pieces().iter().map(move |p| (side, p)));
    Columns::of(rows)
        .text("side", |(s, _)| s.name())
        .text("kind", |(_, p)| if p.bend.is_some() { "arc" } else { "line" })
        .number("from_y_mm", |(s, p)| s.sign() * p.from.half_mm)
        .number("from_z_mm", |(_, p)| p.from.z_mm)
        .number("to_y_mm", |(s, p)| s.sign() * p.to.half_mm)
        .number("to_z_mm", |(_, p)| p.to.z_mm)
        .number("radius_mm", |(_, p)| p.bend.map(|b| b.radius_mm))
        .number("length_mm", |(_, p)| p.length_mm())
        .done()
}

pub(super) fn kinks(section: &CrossSection) -> Columns {
    let rows = Side::BOTH.into_iter().flat_map(|side| section.half(side).kinks().into_iter().map(move |k| (side, k)));
    Columns::of(rows)
        .text("side", |(s, _)| s.name())
        .number("y_mm", |(s, k)| s.sign() * k.at.half_mm)
        .number("z_mm", |(_, k)| k.at.z_mm)
        .number("turn_deg", |(_, k)| k.turn_deg)
        .done()
}

pub(super) fn features(features: &[Feature]) -> Columns {
    Columns::of(features)
        .text("name", |f| &f.name)
        .text("kind", |f| f.kind.words())
        .text("side", |f| f.side.map_or("both", |s| s.name()))
        .number("bottom_mm", |f| f.bottom_mm)
        .number("top_mm", |f| f.top_mm)
        .number("rear_mm", |f| f.rear_mm)
        .number("front_mm", |f| f.front_mm)
        .done()
}
