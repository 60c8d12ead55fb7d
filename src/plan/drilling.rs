//! What is drilled: jigs for like gaps, a table for every line, drill and bits, and lines over old holes.

use serde::Serialize;

use crate::body::rivet_lines::RivetLine;
use crate::body::survey::Side;
use crate::body::takeoff::OldHoles;
use crate::catalogue::{Catalogue, DrillKind, DrilledPart};
use crate::check::{Check, Level, Standing, Verdict, term};
use crate::error::Problem;
use crate::mechanics::hole_line::{
    DrilledHole, Gap, HoleLine, Jig, LineFit, LinePlan, OldMetal, Trade, bits, drilling_table, gaps_between, jigs,
};
use crate::mechanics::joint::grip::{DrillChoice, HoleRange, choose_drill};
use crate::quantity::ShopUnits;

use super::relaid::{LiesOn, Relaid, indexed_mm};
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
    /// The rivet line whose even holes it takes the place of; none where its holes come on top of those set out.
    pub lies_on: Option<LiesOn>,
}

impl OldLine {
    /// Its work that no rivet line has: plugs, and where it lies on none, its holes.
    pub fn own_holes(&self) -> OldHoles {
        let plugged = self.plan.cost.plugs;
        if self.lies_on.is_some() {
            return OldHoles { plugged, ..OldHoles::default() };
        }
        let riveted = self.plan.holes.len();
        // An old hole in metal that stays is there; one under new sheet is drilled through that.
        let drilled = if self.line.old_metal == OldMetal::Stays { self.plan.cost.new_holes } else { riveted };
        OldHoles { drilled, riveted, plugged }
    }
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
    /// Diameter of the rivets' holes, mm.
    pub hole_mm: f64,
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
pub(super) const SHARED_MM: f64 = 1.0;

/// Works the drilling out.
pub(super) fn drilling(
    r: &Resolved,
    (lines, relaid, lots): (&[RivetLine], &[Relaid], &[RivetLot]),
    catalogue: &Catalogue,
    units: ShopUnits,
) -> Result<Drilling, Vec<Problem>> {
    let over_old = |line: &RivetLine| relaid.iter().find(|relaid| relaid.line == line.id);
    let gaps_of = |line: &RivetLine| match over_old(line) {
        Some(relaid) => {
            let places_mm: Vec<f64> = relaid.places.iter().map(|(mm, _)| *mm).collect();
            gaps_between(&line.id, &relaid.index_mm, &places_mm)
        }
        None => gaps_between(&line.id, &indexed_mm(line, lines), &line.holes_mm),
    };
    let on_top = || r.drilled.old_lines.iter().filter(|old| old.lies_on.is_none());
    let mut gaps: Vec<Gap> = lines.iter().flat_map(gaps_of).collect();
    gaps.extend(on_top().flat_map(|old| old.plan.gaps(&old.name)));
    for (i, old) in r.drilled.old_lines.iter().enumerate() {
        if lines.iter().any(|line| line.id == old.name) {
            let problem = "a line that is set out anew has this name; give the line of old holes another";
            return Err(vec![Problem::contradiction(format!("hole_line[{i}].name"), &old.name, problem)]);
        }
    }
    let jigs = jigs(&gaps, r.drilled.jig_tolerance_mm)?;
    let mut holes = Vec::new();
    for line in lines {
        let even = || line.holes_mm.iter().map(|mm| (*mm, None)).collect();
        let places = over_old(line).map_or_else(even, |relaid| relaid.places.clone());
        holes.extend(drilling_table(&line.id, places, &gaps, &jigs));
    }
    for old in on_top() {
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
    let hole_mm = r.rivet.hole_mm;
    Ok(Drilling { tolerance_mm: r.drilled.jig_tolerance_mm, hole_mm, drill, gaps, jigs, holes, bit_uses, bits })
}

/// Holes of the pilot bit through sheets, old ones too, and through the walls of posts, rails and tube.
pub(super) fn bit_uses(r: &Resolved, lots: &[RivetLot], catalogue: &Catalogue) -> (Vec<BitUse>, Option<(u64, u64)>) {
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

/// Of each line over old holes: what its holes leave to the edge at least, and of one that lies on a rivet line its spaces
/// there, with the holes of lines that cross.
pub(super) fn checks(lines: &[OldLine], relaid: &[Relaid], units: ShopUnits) -> Vec<Check> {
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
    let spaces = |old: &OldLine| {
        let relaid = relaid.iter().find(|relaid| old.lies_on.as_ref().is_some_and(|on| on.line == relaid.line))?;
        let ((smallest_mm, largest_mm), (least_mm, most_mm)) = (relaid.spaces_mm, old.line.pitches_mm);
        let sides = [("smallest space", least_mm, smallest_mm), ("largest space", largest_mm, most_mm)];
        Some(sides.map(|(name, demand_mm, capacity_mm)| {
            let sides = (Some(demand_mm), Some(capacity_mm), "mm");
            let check =
                Check::compare(format!("{name}, old hole line"), "geometry", sides, Level::Stated, Standing::Given);
            let check = check.by("holes of lines that cross it counted too", []);
            let check = check.at(format!("{} on {}", old.name, relaid.line));
            match check.verdict {
                Verdict::Fails => check.because(
                    "where another line crosses it has a hole of its own; choose from, to or pitch \
                                                 so that one of the new line's holes falls there",
                ),
                _ => check,
            }
        }))
    };
    lines.iter().filter_map(check).chain(lines.iter().filter_map(spaces).flatten()).collect()
}
