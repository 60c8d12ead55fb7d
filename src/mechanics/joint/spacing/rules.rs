//! The rules on spacing, a row each.

use crate::check::Standing;

use super::super::inter_rivet::{aisi_stress_spacing_mm, aisi_strip_spacing_mm};
use super::Distance::{Edge, End, Pitch, Rows};
use super::{Book, Distance, Family, Pull, Rule, Seam, Side};

const fn book(family: Family, clause: &'static str, source: &'static str, standing: Standing) -> Book {
    Book { family, clause, source, standing, diameters_mm: None }
}

/// A book whose rules hold for rivets of these sizes, mm.
const fn sized(book: Book, least_mm: f64, most_mm: f64) -> Book {
    Book { diameters_mm: Some((least_mm, most_mm)), ..book }
}

static EN_SHEET: Book = sized(
    book(
        Family::En1993_1_3,
        "EN 1993-1-3:2006 Table 8.1",
        "EN 1993-1-3:2006, table for blind rivets, from memory",
        Standing::Memory,
    ),
    2.6,
    6.4,
);
// 0.08 to 0.25 in, in the same source.
static AISI: Book = sized(
    book(
        Family::AisiS100,
        "AISI S100-16 J4, by analogy",
        "AISI S100-16 J4, screws: www.civilengineeringhandbook.tk/structural-engineering/900.html",
        Standing::Read,
    ),
    2.03,
    6.35,
);
static AISI_STRICT: Book = sized(
    book(
        Family::AisiS100,
        "AISI screw rule, stricter extract, by analogy",
        "AISI screw rule of 3 d to edges in general: civilengineeringx.com, screw connections",
        Standing::Read,
    ),
    2.03,
    6.35,
);
static AISI_SHEET: Book = book(
    Family::AisiS100,
    "AISI S100-16 I1.3",
    "AISI S100-16 I1.3, spacing of connectors in a compression sheet, from memory",
    Standing::Memory,
);
static EN_PLATE: Book = book(
    Family::En1993_1_8,
    "EN 1993-1-8:2005 Table 3.3",
    "EN 1993-1-8:2005, table 3.3, from memory; that its greatest distances are for compressed or exposed members: \
     www.eurocode.us/design-of-joints",
    Standing::Memory,
);
static TM: Book =
    book(Family::Aircraft, "US Army TM 10-5410-229-13&P", "US Army TM 10-5410-229-13&P, rivet spacing", Standing::Read);
static AC: Book = book(
    Family::Aircraft,
    "FAA AC 43.13-1B, single row",
    "FAA AC 43.13-1B, restated by a secondary text: murrayjohnson.com",
    Standing::Read,
);
static NAVY: Book = book(
    Family::Aircraft,
    "US Navy training manual, usual pitch",
    "US Navy aviation training manual: navyaviation.tpub.com/14018, page 547",
    Standing::Read,
);
static TRADE: Book = book(
    Family::Aircraft,
    "aircraft practice, rows",
    "aircraft maintenance article, a secondary text: aviationpros.com 10389028",
    Standing::Read,
);
static COUNTERSUNK: Book = book(
    Family::Aircraft,
    "aircraft practice, countersunk heads",
    "edge distance of countersunk rivets, restated by a secondary text: an aircraft study guide",
    Standing::Read,
);
static FIELD: Book = book(
    Family::Aircraft,
    "US Army TM 1-1520-240-BD, emergency repair",
    "US Army TM 1-1520-240-BD: 1.5 D in an emergency, 2 D preferred",
    Standing::Read,
);
static AISC: Book = book(Family::Sealing, "AISC 360 J3.5", "AISC 360, J3.5, from memory", Standing::Memory);
static AASHTO: Book = book(
    Family::Sealing,
    "AASHTO LRFD, sealing",
    "AASHTO LRFD bridge rules, sealing against moisture, from memory",
    Standing::Memory,
);
static WATER: Book = book(
    Family::Sealing,
    "suggested for a watertight lap",
    "judgement: sealant in the lap, closed-end rivets or sealed mandrels; not published",
    Standing::Assumed,
);

/// A least distance.
const fn least(book: &'static Book, distance: Distance, formula: &'static str, of: fn(&Seam) -> Option<f64>) -> Rule {
    Rule { book, distance, side: Side::Least, formula, binding: true, of }
}

/// A greatest distance.
const fn most(book: &'static Book, distance: Distance, formula: &'static str, of: fn(&Seam) -> Option<f64>) -> Rule {
    Rule { book, distance, side: Side::Most, formula, binding: true, of }
}

/// A habit or a suggestion.
const fn usual(rule: Rule) -> Rule {
    Rule { binding: false, ..rule }
}

/// Plates pressed or open to weather are what the greatest distances of EN 1993-1-8 are for.
fn exposed_or_pressed(s: &Seam, mm: f64) -> Option<f64> {
    (s.exposed || s.compression.is_some()).then_some(mm)
}

fn en_plate_pitch(s: &Seam) -> f64 {
    // p1 runs along the pull, p2 across it.
    s.hole_mm * if s.pull == Pull::Along { 2.2 } else { 2.4 }
}

fn en_plate_rows(s: &Seam) -> f64 {
    s.hole_mm * if s.pull == Pull::Across { 2.2 } else { 2.4 }
}

/// Every rule on spacing known here.
pub static RULES: &[Rule] = &[
    least(&EN_SHEET, Pitch, "p1, p2 ≥ 3 d", |s| Some(3.0 * s.diameter_mm)),
    least(&EN_SHEET, Rows, "p1, p2 ≥ 3 d", |s| Some(3.0 * s.diameter_mm)),
    least(&EN_SHEET, Edge, "e1, e2 ≥ 1.5 d", |s| Some(1.5 * s.diameter_mm)),
    least(&EN_SHEET, End, "e1, e2 ≥ 1.5 d", |s| Some(1.5 * s.diameter_mm)),
    least(&AISI, Pitch, "spacing ≥ 3 d", |s| Some(3.0 * s.diameter_mm)),
    least(&AISI, Rows, "spacing ≥ 3 d", |s| Some(3.0 * s.diameter_mm)),
    least(&AISI, Edge, "edge ≥ 1.5 d", |s| Some(1.5 * s.diameter_mm)),
    least(&AISI, End, "edge ≥ 1.5 d", |s| Some(1.5 * s.diameter_mm)),
    // Two extracts of one rule disagree; the sheet rule's own number binds, the stricter one is pointed out.
    usual(least(&AISI_STRICT, Edge, "edge ≥ 3 d", |s| Some(3.0 * s.diameter_mm))),
    usual(least(&AISI_STRICT, End, "edge ≥ 3 d", |s| Some(3.0 * s.diameter_mm))),
    most(&AISI_SHEET, Pitch, "s ≤ 1.16 t √(E / f_c)", |s| {
        s.compression.map(|c| aisi_stress_spacing_mm(c.modulus_mpa, c.stress_mpa, s.thickness_mm))
    }),
    most(&AISI_SHEET, Pitch, "s ≤ max(3 w, 1.11 t √(E / F_y))", |s| {
        s.compression.map(|c| aisi_strip_spacing_mm(c.modulus_mpa, c.fy_mpa, s.thickness_mm, c.flat_width_mm))
    }),
    least(&EN_PLATE, Pitch, "p1 ≥ 2.2 d0, p2 ≥ 2.4 d0", |s| Some(en_plate_pitch(s))),
    least(&EN_PLATE, Rows, "p1 ≥ 2.2 d0, p2 ≥ 2.4 d0", |s| Some(en_plate_rows(s))),
    least(&EN_PLATE, Edge, "e1, e2 ≥ 1.2 d0", |s| Some(1.2 * s.hole_mm)),
    least(&EN_PLATE, End, "e1, e2 ≥ 1.2 d0", |s| Some(1.2 * s.hole_mm)),
    most(&EN_PLATE, Pitch, "p ≤ min(14 t, 200 mm)", |s| exposed_or_pressed(s, (14.0 * s.thickness_mm).min(200.0))),
    most(&EN_PLATE, Rows, "p ≤ min(14 t, 200 mm)", |s| exposed_or_pressed(s, (14.0 * s.thickness_mm).min(200.0))),
    most(&EN_PLATE, Edge, "e ≤ 4 t + 40 mm", |s| exposed_or_pressed(s, 4.0 * s.thickness_mm + 40.0)),
    most(&EN_PLATE, End, "e ≤ 4 t + 40 mm", |s| exposed_or_pressed(s, 4.0 * s.thickness_mm + 40.0)),
    least(&TM, Pitch, "pitch ≥ 3 D", |s| Some(3.0 * s.diameter_mm)),
    least(&TM, Rows, "between rows ≥ 2.5 D", |s| Some(2.5 * s.diameter_mm)),
    least(&TM, Edge, "edge ≥ 2 D", |s| Some(2.0 * s.diameter_mm)),
    least(&TM, End, "edge ≥ 2 D", |s| Some(2.0 * s.diameter_mm)),
    least(&AC, Pitch, "pitch ≥ 3 D", |s| Some(3.0 * s.diameter_mm)),
    least(&AC, Edge, "edge ≥ 2 D", |s| Some(2.0 * s.diameter_mm)),
    least(&COUNTERSUNK, Edge, "edge ≥ 2.5 D", |s| s.countersunk.then_some(2.5 * s.diameter_mm)),
    usual(least(&FIELD, Edge, "edge ≥ 1.5 D", |s| Some(1.5 * s.diameter_mm))),
    usual(least(&NAVY, Pitch, "pitch seldom < 4 D", |s| Some(4.0 * s.diameter_mm))),
    usual(most(&NAVY, Pitch, "pitch seldom > 8 D", |s| Some(8.0 * s.diameter_mm))),
    usual(most(&TRADE, Pitch, "pitch ≤ 10 D", |s| Some(10.0 * s.diameter_mm))),
    usual(most(&TRADE, Edge, "edge ≤ 4 D", |s| Some(4.0 * s.diameter_mm))),
    usual(least(&TRADE, Rows, "between rows ≥ max(0.75 pitch, 2.5 D)", |s| {
        s.pitch_mm.map(|p| (0.75 * p).max(2.5 * s.diameter_mm))
    })),
    most(&AISC, Pitch, "s ≤ min(24 t, 12 in), painted", |s| {
        (s.exposed && !s.bare_weathering_steel).then_some((24.0 * s.thickness_mm).min(12.0 * 25.4))
    }),
    most(&AISC, Pitch, "s ≤ min(14 t, 7 in), bare weathering steel", |s| {
        (s.exposed && s.bare_weathering_steel).then_some((14.0 * s.thickness_mm).min(7.0 * 25.4))
    }),
    most(&AISC, Edge, "edge ≤ min(12 t, 6 in)", |s| s.exposed.then_some((12.0 * s.thickness_mm).min(6.0 * 25.4))),
    // Written in inches: s = 4.0 + 4.0 t.
    most(&AASHTO, Pitch, "s ≤ min(4 in + 4 t, 7 in)", |s| {
        s.exposed.then_some((4.0 * 25.4 + 4.0 * s.thickness_mm).min(7.0 * 25.4))
    }),
    usual(most(&WATER, Pitch, "pitch ≤ min(8 d, 100 mm)", |s| s.exposed.then_some((8.0 * s.diameter_mm).min(100.0)))),
    usual(least(&WATER, Edge, "edge ≥ 2 d", |s| s.exposed.then_some(2.0 * s.diameter_mm))),
    usual(most(&WATER, Edge, "edge ≤ 3 d", |s| s.exposed.then_some(3.0 * s.diameter_mm))),
];
