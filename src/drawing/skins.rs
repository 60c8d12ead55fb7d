//! Sheets, laps, rivets and framing as rows and plain text: what each way of choosing seams costs, which sheet lies over
//! which, what each rivet goes through, what is framed anew.

use std::fmt::Write as _;

use crate::body::backers::Backer;
use crate::body::rivet_lines::RivetLine;
use crate::body::skins::{EndPanel, Lap, PolicyCost, Sheet};
use crate::body::takeoff::{Blanks, PANEL_EDGE};
use crate::plan::{Evaluation, RivetLot};

use super::text::{number, table};

pub(super) const POLICY_HEADINGS: [&str; 8] = [
    "seams chosen by",
    "sheets",
    "seams on posts",
    "of these new",
    "metres of seam",
    "sheets from and to",
    "heaviest, kg",
    "people",
];

/// What each way of choosing seams costs, the plan's own marked.
pub(super) fn policy_rows(e: &Evaluation) -> Vec<[String; 8]> {
    let row = |cost: &PolicyCost| {
        let own = if cost.policy == e.seam_policy { ", the plan's own" } else { "" };
        [
            format!("{}{own}", cost.policy.words()),
            cost.sheets.to_string(),
            cost.seams.to_string(),
            cost.new_seams.map_or_else(|| "–".to_owned(), |n| n.to_string()),
            format!("{:.1}", cost.seam_length_m),
            format!("{} to {}", e.units.length(cost.shortest_mm), e.units.length(cost.longest_mm)),
            format!("{:.1}", cost.heaviest_kg),
            cost.people.to_string(),
        ]
    };
    e.skins.policies.iter().map(row).collect()
}

pub(super) const SHEET_HEADINGS: [&str; 7] =
    ["sheet", "posts", "length by height", "mass, kg", "people", "holes", "factory edge"];

/// Every sheet of the sides, and every panel of the ends.
pub(super) fn sheet_rows(e: &Evaluation) -> Vec<[String; 7]> {
    let size =
        |length_mm: f64, height_mm: f64| format!("{} x {}", e.units.length(length_mm), e.units.length(height_mm));
    let sheet = |sheet: &Sheet| {
        [
            sheet.id.clone(),
            match &sheet.patch {
                None => format!("{} to {}", sheet.first_post + 1, sheet.last_post + 1),
                Some(p) if p.ahead => format!("{} to {}", sheet.first_post + 1, p.beside),
                Some(p) => format!("{} to {}", p.beside, sheet.last_post + 1),
            },
            size(sheet.length_mm(), sheet.height_mm()),
            format!("{:.1}", sheet.mass_kg),
            sheet.people.to_string(),
            e.holes_in(sheet).to_string(),
            e.skins.showing_edge(sheet).unwrap_or("any").to_owned(),
        ]
    };
    let panel = |panel: &EndPanel| {
        [
            panel.id.clone(),
            number(None),
            size(panel.length_mm, panel.height_mm),
            format!("{:.1}", panel.mass_kg),
            panel.people.to_string(),
            number(None),
            PANEL_EDGE.to_owned(),
        ]
    };
    e.skins.sheets.iter().map(sheet).chain(e.skins.ends.iter().map(panel)).collect()
}

pub(super) const BLANK_HEADINGS: [&str; 6] =
    ["blanks", "length along by height", "grain (length of stock sheet)", "faces", "factory edge", "sheets"];

/// Blanks as they are cut.
pub(super) fn blank_rows(e: &Evaluation) -> Vec<[String; 6]> {
    let row = |b: &Blanks| {
        [
            b.count.to_string(),
            format!("{} x {}", e.units.length(b.length_mm), e.units.length(b.height_mm)),
            b.grain.words().to_owned(),
            b.finished_face.words().to_owned(),
            b.factory_edge.unwrap_or("any").to_owned(),
            b.ids.join(", "),
        ]
    };
    e.takeoff.blanks.iter().map(row).collect()
}

pub(super) const LINE_HEADINGS: [&str; 5] = ["rivet line", "joins", "length", "holes", "widest space"];

/// Every line of rivets.
pub(super) fn line_rows(e: &Evaluation) -> Vec<[String; 5]> {
    let row = |line: &RivetLine| {
        [
            line.id.clone(),
            line.kind.words().to_owned(),
            e.units.length(line.length_mm()),
            line.holes_mm.len().to_string(),
            e.units.length(line.pitch_mm),
        ]
    };
    e.lines.iter().map(row).collect()
}

pub(super) const LAP_HEADINGS: [&str; 5] = ["outside", "beneath", "edge", "length", "water"];

/// Every lap.
pub(super) fn lap_rows(e: &Evaluation) -> Vec<[String; 5]> {
    let row = |lap: &Lap| {
        let post = lap.post.map_or_else(String::new, |post| format!(", post {}", post + 1));
        [
            lap.over.clone(),
            lap.under.clone(),
            format!("{}{post}", lap.kind.words()),
            e.units.length(lap.length_mm),
            lap.fault.clone().unwrap_or_else(|| "runs off".to_owned()),
        ]
    };
    e.skins.laps.iter().map(row).collect()
}

pub(super) const BACKER_HEADINGS: [&str; 4] = ["framed anew behind", "side", "height", "length"];

/// Every piece of framing behind a sheet edge that has no structure behind it.
pub(super) fn backer_rows(e: &Evaluation) -> Vec<[String; 4]> {
    let row = |backer: &Backer| {
        [
            backer.behind.clone(),
            backer.side.map_or("across", |side| side.name()).to_owned(),
            e.units.length(backer.z_mm),
            e.units.length(backer.length_mm),
        ]
    };
    e.takeoff.backers.iter().map(row).collect()
}

pub(super) const LOT_HEADINGS: [&str; 6] = ["rivets through", "behind", "rivets", "grip, mm", "length", "note"];

/// Rivets by what they go through.
pub(super) fn lot_rows(e: &Evaluation) -> Vec<[String; 6]> {
    let row = |lot: &RivetLot| {
        [
            format!("{} {}", lot.stacked.sheets, if lot.stacked.sheets == 1 { "sheet" } else { "sheets" }),
            lot.stacked.behind.words().to_owned(),
            lot.stacked.holes.to_string(),
            lot.grip_mm.map_or_else(|| number(None), |mm| format!("{mm:.1}")),
            lot.length.clone().unwrap_or_else(|| number(None)),
            lot.note.clone(),
        ]
    };
    e.rivet_lots.iter().map(row).collect()
}

/// All of them as text.
pub(super) fn skins(e: &Evaluation) -> String {
    let mut policies = table(&POLICY_HEADINGS);
    policies.add_rows(policy_rows(e));
    let mut sheets = table(&SHEET_HEADINGS);
    sheets.add_rows(sheet_rows(e));
    let mut laps = table(&LAP_HEADINGS);
    laps.add_rows(lap_rows(e));
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = writeln!(out, "{policies}\n\n{sheets}\n\n{laps}\n");
    let mut blanks = table(&BLANK_HEADINGS);
    blanks.add_rows(blank_rows(e));
    let _ = writeln!(out, "{blanks}\n");
    let mut lots = table(&LOT_HEADINGS);
    lots.add_rows(lot_rows(e));
    let mut lines = table(&LINE_HEADINGS);
    lines.add_rows(line_rows(e));
    let _ = writeln!(out, "{lots}\n\n{lines}\n");
    let backers = backer_rows(e);
    if !backers.is_empty() {
        let mut own = table(&BACKER_HEADINGS);
        own.add_rows(backers);
        let _ = writeln!(out, "{own}\n");
    }
    out
}
