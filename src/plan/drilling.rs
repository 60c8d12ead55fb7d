//! What is drilled: jigs for like gaps, a table for every line, drill and bits, and lines over old holes.

use serde::Serialize;

use crate::body::rivet_lines::{LineKind, RivetLine};
use crate::body::survey::Side;
use crate::catalogue::{Catalogue, DrillKind, DrilledPart};
use crate::check::{Check, Level, Standing, term};
use crate::error::Problem;
use crate::mechanics::hole_line::{
    DrilledHole, Gap, HoleLine, Jig, LineFit, LinePlan, Trade, bits, drilling_table, gaps_between, jigs,
};
use crate::mechanics::joint::grip::{DrillChoice, HoleRange, choose_drill};
use crate::quantity::ShopUnits;

use super::resolve::Resolved;
use super::rivet_lots::RivetLot;

/// A line of old holes, its fit, and the new line over it.
#[derive(Debug, Clone, PartialEq)]
pub struct OldLine {
    /// Its name.
    pub name: String,
    /// The side it is on, where the plan says it.
    pub side: Option<Side>,
    /// The old holes and what a new line keeps.
    pub line: HoleLine,
    /// The true line through them.
    pub fit: LineFit,
    /// What the planner trades.
    pub trade: Trade,
    /// The new line.
    pub plan: LinePlan,
}

/// Holes through one part, and how many of them a pilot bit makes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BitUse {
    /// The part.
    pub part: &'static str,
    /// Holes through it: two for a hole through two sheets.
    pub holes: usize,
    /// Holes that one bit makes at least and at most; none where no row of the catalogue speaks of this part.
    pub bit_holes: Option<(u32, u32)>,
    /// Where that comes from, or why it is not known.
    pub note: String,
    /// How it is known.
    pub standing: Standing,
}

/// All that is drilled.
#[derive(Debug, Clone, PartialEq)]
pub struct Drilling {
    /// How far a hole may be from its jig's, mm.
    pub tolerance_mm: f64,
    /// The drill of the rivets' holes; none where no drill is that large.
    pub drill: Option<DrillChoice>,
    /// Gaps with holes between those that a jig is indexed on.
    pub gaps: Vec<Gap>,
    /// The jigs.
    pub jigs: Vec<Jig>,
    /// Every hole of every line.
    pub holes: Vec<DrilledHole>,
    /// The pilot bit's holes by part.
    pub bit_uses: Vec<BitUse>,
    /// Pilot bits, at least and at most; none where a part's are not known.
    pub bits: Option<(u64, u64)>,
}

/// Holes are first drilled through with a bit of this size, then opened up, mm.
pub const PILOT_MM: f64 = 3.175;
/// Two lines that cross within this distance share a hole, mm.
const SHARED_MM: f64 = 1.0;

/// Works the drilling out.
pub(super) fn drilling(
    r: &Resolved,
    (lines, lots): (&[RivetLine], &[RivetLot]),
    catalogue: &Catalogue,
    units: ShopUnits,
) -> Result<Drilling, Vec<Problem>> {
    let mut gaps: Vec<Gap> =
        lines.iter().flat_map(|line| gaps_between(&line.id, &indexed_mm(line, lines), &line.holes_mm)).collect();
    gaps.extend(r.drilled.old_lines.iter().flat_map(|old| old.plan.gaps(&old.name)));
    for (i, old) in r.drilled.old_lines.iter().enumerate() {
        if lines.iter().any(|line| line.id == old.name) {
            let problem = "a line that is set out anew has this name; give the line of old holes another";
            return Err(vec![Problem::contradiction(format!("hole_line[{i}].name"), &old.name, problem)]);
        }
    }
    let jigs = jigs(&gaps, r.drilled.jig_tolerance_mm)?;
    let mut holes = Vec::new();
    for line in lines {
        holes.extend(drilling_table(&line.id, line.holes_mm.iter().map(|mm| (*mm, None)), &gaps, &jigs));
    }
    for old in &r.drilled.old_lines {
        holes.extend(drilling_table(&old.name, old.plan.places(), &gaps, &jigs));
    }
    let inch = [DrillKind::Fraction, DrillKind::Number, DrillKind::Letter];
    let series: &[DrillKind] = if units == ShopUnits::Inches { &inch } else { &[DrillKind::Metric] };
    let hole = HoleRange {
        diameter_mm: r.rivet.diameter_mm,
        least_mm: r.rivet.hole_mm,
        most_mm: None,
        standing: r.rivet.standing,
    };
    let drill = choose_drill(&hole, series, catalogue).ok();
    let (bit_uses, bits) = bit_uses(r, lots, catalogue);
    Ok(Drilling { tolerance_mm: r.drilled.jig_tolerance_mm, drill, gaps, jigs, holes, bit_uses, bits })
}

/// Where other lines cross this one, and its ends, mm from its start: there a jig is indexed.
fn indexed_mm(line: &RivetLine, lines: &[RivetLine]) -> Vec<f64> {
    let length_mm = line.length_mm();
    let mut index_mm = vec![0.0, length_mm];
    let upright = |l: &RivetLine| matches!(l.kind, LineKind::Post | LineKind::Seam | LineKind::Opening);
    let crosses = |other: &&RivetLine| {
        other.side == line.side
            && other.side.is_some()
            && other.kind != LineKind::End
            && upright(other) != upright(line)
    };
    if line.kind != LineKind::End {
        for other in lines.iter().filter(crosses) {
            let (post, edge) = if upright(line) { (line, other) } else { (other, line) };
            let (x_mm, z_mm) = (post.from_mm.0, edge.from_mm.1);
            let within = |mm: f64, (low, high): (f64, f64)| mm >= low - SHARED_MM && mm <= high + SHARED_MM;
            if within(x_mm, (edge.from_mm.0, edge.to_mm.0)) && within(z_mm, (post.from_mm.1, post.to_mm.1)) {
                index_mm.push(if upright(line) { z_mm - line.from_mm.1 } else { x_mm - line.from_mm.0 });
            }
        }
    }
    index_mm.sort_by(f64::total_cmp);
    index_mm.dedup_by(|a, b| (*a - *b).abs() < SHARED_MM);
    index_mm
}

/// Holes of the pilot bit through sheets, old ones too, and through the walls of posts, rails and tube.
fn bit_uses(r: &Resolved, lots: &[RivetLot], catalogue: &Catalogue) -> (Vec<BitUse>, Option<(u64, u64)>) {
    let each = lots.iter().map(|lot| lot.stacked);
    let sheets: usize = each.clone().map(|s| s.holes * (s.sheets + usize::from(s.behind.has_old_sheet()))).sum();
    let posts: usize = each.map(|s| s.holes * s.behind.walls()).sum();
    let wall_mm = r.post.as_ref().map(|post| post.wall_mm);
    let parts = [(DrilledPart::Sheet, sheets, Some(r.sheet.thickness_mm)), (DrilledPart::Rib, posts, wall_mm)];
    let rows = parts.map(|(part, holes, mm)| (part, holes, mm.and_then(|mm| catalogue.bit_life(part, PILOT_MM, mm))));
    let uses = rows.map(|(part, holes, row)| BitUse {
        part: part.name(),
        holes,
        bit_holes: row.map(|row| (row.holes_least, row.holes_most)),
        note: row.map_or_else(
            || "no row of the catalogue speaks of an 1/8 in bit in this part's thickness".to_owned(),
            |row| format!("{}: {}", row.bit, row.source),
        ),
        standing: row.map_or(Standing::Assumed, |row| row.standing),
    });
    let known: Option<Vec<_>> = rows.into_iter().map(|(_, holes, row)| Some((holes, row?))).collect();
    (uses.into(), known.map(|known| bits(&known)))
}

/// Of each line over old holes: what its holes leave to the edge at least.
pub(super) fn checks(lines: &[OldLine], units: ShopUnits) -> Vec<Check> {
    let check = |old: &OldLine| {
        let (edge, (i, left)) = old.line.edge.zip(old.plan.nearest_edge())?;
        let sides = (Some(edge.least_mm), Some(left.least_mm()), "mm");
        let hole = old.plan.holes.get(i).map(|h| units.length(h.along_mm)).unwrap_or_default();
        Some(
            Check::compare("edge distance, old hole line", "geometry", sides, Level::Stated, Standing::Given)
                .by("e_min ≤ e − 1.645 u", [term("e", left.mm, "mm"), term("u", left.error_mm, "mm")])
                .at(format!("{}, hole {} at {hole}", old.name, i + 1)),
        )
    };
    lines.iter().filter_map(check).collect()
}
