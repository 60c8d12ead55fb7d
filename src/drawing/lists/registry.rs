//! Every list: its name, what it holds, where its rows come from.

use rust_decimal::prelude::ToPrimitive;

use crate::plan::{CutList, Evaluation, SheetCuts};
use crate::shop::schedule::Schedule;

use super::super::contacts::{DETAIL_HEADINGS, PAIR_HEADINGS, detail_rows, pair_rows};
use super::super::cut_day::{
    EXIT_HEADINGS, GATE_HEADINGS, LEAN_HEADINGS, LEDGER_HEADINGS, LIFT_BRACES, LIFT_STEPS, LIFT_SUPPORTS,
    SPLICE_HEADINGS, exit_rows, gate_rows, lean_rows, ledger_rows, lift_braces, lift_steps, lift_supports, splice_rows,
};
use super::super::cut_list::{
    BAR_CUT_HEADINGS, REMNANT_HEADINGS, SHEET_CUT_HEADINGS, STEP_HEADINGS, bar_cut_rows, remnant_rows, sheet_cut_rows,
    step_rows,
};
use super::super::drilling::{
    HoleTable, JIG_HEADINGS, OLD_LINE_HEADINGS, jig_rows, jig_tables, line_tables, old_line_rows,
};
use super::super::end_caps::{
    CAP_CORNERS, CAP_MARKS, CAP_ORDINATES, CAP_PIECES, cap_corners, cap_marks, cap_ordinates, cap_pieces,
};
use super::super::flatness::{
    ADVICE_HEADINGS, JOINT_HEADINGS, LOAD_HEADINGS, SIZE_HEADINGS, SUCTION_HEADINGS, advice_rows, joint_rows,
    load_rows, size_rows, suction_rows,
};
use super::super::lasting::{LIFE_HEADINGS, THINNED_HEADINGS, life_rows, thinned_rows};
use super::super::overview::{
    ASSUMED_HEADINGS, BOW_HEADINGS, CHECK_HEADINGS, EFFECT_HEADINGS, FIGURE_HEADINGS, INSERT_HEADINGS, MASS_HEADINGS,
    ORDER_HEADINGS, REMINDER_HEADINGS, TASK_HEADINGS, assumed_rows, bow_rows, check_rows, checks_worst_first,
    effect_rows, figure_rows, insert_rows, mass_rows, order_rows, reminder_rows, task_rows,
};
use super::super::paint::{COAT_HEADINGS, DURABILITY_HEADINGS, coat_rows, durability_rows};
use super::super::quote::{LINE_HEADINGS as QUOTE_HEADINGS, STAGE_HEADINGS, line_rows as quote_rows, stage_rows};
use super::super::schedule::{
    EVENING_HEADINGS, HANGING_HEADINGS, SCHEDULE_HEADINGS, evening_rows, hanging_rows, schedule_rows,
};
use super::super::skins::{
    BACKER_HEADINGS, BLANK_HEADINGS, LAP_HEADINGS, LINE_HEADINGS, LOT_HEADINGS, POLICY_HEADINGS, SHEET_HEADINGS,
    backer_rows, blank_rows, lap_rows, line_rows, lot_rows, policy_rows, sheet_rows,
};
use super::super::text::body_rows;

/// A list before an evaluation fills it.
pub(super) struct Kind {
    pub name: &'static str,
    pub title: &'static str,
    pub empty: &'static str,
    pub content: fn(&Evaluation) -> Content,
}

/// Headings, rows, and columns of numbers besides.
pub(super) struct Content {
    pub headings: Vec<&'static str>,
    pub rows: Vec<Vec<String>>,
    pub numbers: Vec<(&'static str, Vec<Option<f64>>)>,
}

fn rows<const N: usize>(headings: &[&'static str; N], rows: Vec<[String; N]>) -> Content {
    Content { headings: headings.to_vec(), rows: rows.into_iter().map(Vec::from).collect(), numbers: Vec::new() }
}

impl Content {
    /// With a column of numbers, one for each of these.
    fn number<T>(mut self, heading: &'static str, of: &[T], value: impl Fn(&T) -> Option<f64>) -> Self {
        self.numbers.push((heading, of.iter().map(value).collect()));
        self
    }
}

/// Of a part that a plan may be without: no rows then.
fn part<T, const N: usize>(
    headings: &[&'static str; N],
    part: Option<&T>,
    own: impl Fn(&T) -> Vec<[String; N]>,
) -> Content {
    rows(headings, part.map_or_else(Vec::new, own))
}

fn sheets_cut<const N: usize>(
    headings: &[&'static str; N],
    cut: &CutList,
    own: impl Fn(&SheetCuts) -> Vec<[String; N]>,
) -> Content {
    part(headings, cut.sheets.as_ref(), own)
}

fn scheduled<const N: usize>(
    headings: &[&'static str; N],
    e: &Evaluation,
    own: impl Fn(&Schedule) -> Vec<[String; N]>,
) -> Content {
    part(headings, e.schedule.as_ref(), own)
}

fn holes(first: &'static str, tables: Vec<HoleTable>) -> Content {
    let headings = tables.first().map_or(["hole", "from the start", "set out by"], |table| table.headings);
    let of = |table: HoleTable| {
        let name = table.name;
        table.rows.into_iter().map(move |[hole, place, by]| [name.clone(), hole, place, by])
    };
    rows(&[first, headings[0], headings[1], headings[2]], tables.into_iter().flat_map(of).collect())
}

fn sheets(e: &Evaluation) -> Content {
    let (of_sides, of_ends) = (&e.skins.sheets, &e.skins.ends);
    let sizes: Vec<[f64; 2]> = of_sides
        .iter()
        .map(|sheet| [sheet.length_mm(), sheet.height_mm()])
        .chain(of_ends.iter().map(|panel| [panel.length_mm, panel.height_mm]))
        .collect();
    rows(&SHEET_HEADINGS, sheet_rows(e)).number("length_mm", &sizes, |size| Some(size[0])).number(
        "height_mm",
        &sizes,
        |size| Some(size[1]),
    )
}

fn drilled(e: &Evaluation) -> Content {
    let tables = line_tables(e);
    let along = |table: &HoleTable| {
        let own = e.drilling.holes.iter().filter(|hole| hole.line == table.name);
        own.map(|hole| hole.along_mm).collect::<Vec<_>>()
    };
    let along_mm: Vec<f64> = tables.iter().flat_map(along).collect();
    holes("rivet line", tables).number("along_mm", &along_mm, |mm| Some(*mm))
}

const fn kind(
    name: &'static str,
    title: &'static str,
    empty: &'static str,
    content: fn(&Evaluation) -> Content,
) -> Kind {
    Kind { name, title, empty, content }
}

const NO_LIFT: &str = "The plan has no lift: supports, steps, braces and the stop-work wind are not worked out.";
const NO_CREW: &str = "No schedule: the plan has no crew.";
const NO_PRICES: &str = "No prices in the plan.";
const NO_CAPS: &str = "The plan says nothing of end caps.";
const NO_STOCK: &str = "The plan has no stock of sheets to cut: every blank is bought cut to size.";

/// Every list, in the order of the work.
pub(super) static KINDS: &[Kind] = &[
    kind("figures", "The main figures", "No figures.", |e| rows(&FIGURE_HEADINGS, figure_rows(e))),
    kind("checks", "Every check, what fails first", "No check could be made.", |e| {
        rows(&CHECK_HEADINGS, check_rows(e)).number("utilisation", &checks_worst_first(e), |check| check.utilisation())
    }),
    kind("body", "The body before and after", "No measures.", |e| {
        let own = body_rows(e).into_iter().map(|(name, before, after)| [name, before, after]);
        rows(&["body", "before", "after"], own.collect())
    }),
    kind("effects", "Mass, stability, wind and running cost before and after", "Nothing changes.", |e| {
        rows(&EFFECT_HEADINGS, effect_rows(e))
    }),
    kind("masses", "Every mass that changes", "No mass changes.", |e| rows(&MASS_HEADINGS, mass_rows(e))),
    kind("reminders", "What the new height touches", "Nothing to look at.", |e| {
        rows(&REMINDER_HEADINGS, reminder_rows(e))
    }),
    kind("assumed", "Assumed, common practice or from memory", "Nothing is assumed.", |e| {
        rows(&ASSUMED_HEADINGS, assumed_rows(&e.assumed))
    }),
    kind("gate", "Questions before the first cut", "No questions.", |e| rows(&GATE_HEADINGS, gate_rows(e))),
    kind("supports", "Supports under the roof", NO_LIFT, |e| {
        let supports = e.lift.as_ref().map_or(&[][..], |lift| &lift.supports);
        let along = rows(&LIFT_SUPPORTS, lift_supports(e)).number("x_mm", supports, |own| Some(own.x_mm));
        along.number("y_mm", supports, |own| Some(own.y_mm))
    }),
    kind("lift steps", "Steps of the lift", NO_LIFT, |e| rows(&LIFT_STEPS, lift_steps(e))),
    kind("braces", "Braces of the roof", NO_LIFT, |e| rows(&LIFT_BRACES, lift_braces(e))),
    kind("ledger", "Keep, lengthen, relocate, close", "Nothing crosses the cut or goes up with the roof.", |e| {
        rows(&LEDGER_HEADINGS, ledger_rows(e))
    }),
    kind("exits", "Emergency exits", "The plan names no emergency exits.", |e| rows(&EXIT_HEADINGS, exit_rows(e))),
    kind("inserts", "Post inserts by side and post", "No post is lengthened.", |e| {
        rows(&INSERT_HEADINGS, insert_rows(e)).number("length_mm", &e.splices.posts, |own| Some(own.insert.length_mm))
    }),
    kind("splices", "How the inserts fit", "No post is lengthened.", |e| {
        rows(&SPLICE_HEADINGS, splice_rows(&e.splices, e.units))
    }),
    kind("leaning sides", "Leaning sides, both ways of raising them", "No sides.", |e| {
        rows(&LEAN_HEADINGS, lean_rows(&e.splices, e.units))
    }),
    kind("bows", "Posts with their roof bow", "The posts' section is not in the plan: bows are not worked out.", |e| {
        rows(&BOW_HEADINGS, bow_rows(e))
    }),
    kind("framing", "Framed anew behind sheet edges", "No edge needs framing behind it.", |e| {
        rows(&BACKER_HEADINGS, backer_rows(e)).number("length_mm", &e.takeoff.backers, |own| Some(own.length_mm))
    }),
    kind("order", "Order list", "Nothing to order.", |e| rows(&ORDER_HEADINGS, order_rows(e))),
    kind("sheet cuts", "What is cut from which sheet", NO_STOCK, |e| {
        sheets_cut(&SHEET_CUT_HEADINGS, &e.cut_list, sheet_cut_rows)
    }),
    kind("every cut", "Every cut of the sheets in order", NO_STOCK, |e| {
        sheets_cut(&STEP_HEADINGS, &e.cut_list, step_rows)
    }),
    kind("remnants", "Rests of sheets to keep", "No rest is large enough to keep.", |e| {
        sheets_cut(&REMNANT_HEADINGS, &e.cut_list, remnant_rows)
    }),
    kind("insert bars", "Bars for the inserts", "The plan has no bars for inserts: bought by the metre.", |e| {
        part(&BAR_CUT_HEADINGS, e.cut_list.inserts.as_ref(), bar_cut_rows)
    }),
    kind("tube bars", "Bars behind sheet edges", "The plan has no bars of tube: bought by the metre.", |e| {
        part(&BAR_CUT_HEADINGS, e.cut_list.backing.as_ref(), bar_cut_rows)
    }),
    kind("seams", "What each way of choosing seams costs", "No seams.", |e| rows(&POLICY_HEADINGS, policy_rows(e))),
    kind("sheets", "Sheets and end panels", "No sheets.", sheets),
    kind("blanks", "Blanks that are cut alike", "No blanks.", |e| {
        rows(&BLANK_HEADINGS, blank_rows(e)).number("length_mm", &e.takeoff.blanks, |own| Some(own.length_mm)).number(
            "height_mm",
            &e.takeoff.blanks,
            |own| Some(own.height_mm),
        )
    }),
    kind("laps", "Laps: which sheet lies over which", "No laps.", |e| {
        rows(&LAP_HEADINGS, lap_rows(e)).number("length_mm", &e.skins.laps, |own| Some(own.length_mm))
    }),
    kind("rivets", "Rivets by what they go through", "No rivets.", |e| rows(&LOT_HEADINGS, lot_rows(e))),
    kind("rivet lines", "Rivet lines", "No rivet lines.", |e| {
        rows(&LINE_HEADINGS, line_rows(e)).number("length_mm", &e.lines, |own| Some(own.length_mm())).number(
            "pitch_mm",
            &e.lines,
            |own| Some(own.pitch_mm),
        )
    }),
    kind("end caps", "End caps", NO_CAPS, |e| part(&CAP_PIECES, e.end_caps.as_ref(), |caps| cap_pieces(caps, e.units))),
    kind("bend marks", "Bend marks of the end caps", NO_CAPS, |e| {
        part(&CAP_MARKS, e.end_caps.as_ref(), |caps| cap_marks(caps, e.units))
    }),
    kind("cap ordinates", "Ordinates of the end caps' edges", NO_CAPS, |e| {
        part(&CAP_ORDINATES, e.end_caps.as_ref(), |caps| cap_ordinates(caps, e.units))
    }),
    kind("cap corners", "Corners of the end caps", NO_CAPS, |e| {
        part(&CAP_CORNERS, e.end_caps.as_ref(), |caps| cap_corners(caps, e.units))
    }),
    kind("jigs", "Drilling jigs", "No gap needs a jig.", |e| {
        rows(&JIG_HEADINGS, jig_rows(&e.drilling, e.units))
            .number("length_mm", &e.drilling.jigs, |own| Some(own.length_mm()))
    }),
    kind("jig holes", "Every hole of every jig", "No gap needs a jig.", |e| holes("jig", jig_tables(&e.drilling))),
    kind("drilling", "Every hole of every rivet line", "No holes.", drilled),
    kind("old lines", "Lines over old holes", "The plan has no lines of old holes.", |e| {
        rows(&OLD_LINE_HEADINGS, old_line_rows(&e.old_lines, e.units))
    }),
    kind("hanging order", "Hanging order", "Nothing is hung.", |e| rows(&HANGING_HEADINGS, hanging_rows(e))),
    kind("evenings", "Evenings: what is hung, sealed and open", NO_CREW, |e| {
        scheduled(&EVENING_HEADINGS, e, evening_rows)
    }),
    kind("schedule", "Every task day by day", NO_CREW, |e| scheduled(&SCHEDULE_HEADINGS, e, schedule_rows)),
    kind("hours", "Hours by task", "No work.", |e| rows(&TASK_HEADINGS, task_rows(e))),
    kind("quote", "Quote line by line", NO_PRICES, |e| {
        let lines = e.quote.as_ref().map_or(&[][..], |quote| &quote.lines);
        rows(&QUOTE_HEADINGS, quote_rows(e))
            .number("amount, in the quote's currency", lines, |line| line.amount.to_f64())
    }),
    kind("stages", "Quote by stage", NO_PRICES, |e| rows(&STAGE_HEADINGS, stage_rows(e))),
    kind("coats", "Coats of paint", "No coats.", |e| rows(&COAT_HEADINGS, coat_rows(e))),
    kind("paint outlook", "How long the paint outside lasts", "Not told.", |e| {
        rows(&DURABILITY_HEADINGS, durability_rows(e))
    }),
    kind("outlook", "How long coating and steel last", "Not told.", |e| rows(&LIFE_HEADINGS, life_rows(e))),
    kind("thinned", "Joints with the sheet that rust leaves", "No joints.", |e| {
        rows(&THINNED_HEADINGS, thinned_rows(e))
    }),
    kind("loads", "Loads on the skins", "No loads.", |e| rows(&LOAD_HEADINGS, load_rows(e))),
    kind("joints", "What a rivet carries", "No joints.", |e| rows(&JOINT_HEADINGS, joint_rows(e))),
    kind("flatness", "How flat panels lie", "No panels.", |e| rows(&SIZE_HEADINGS, size_rows(e))),
    kind("suction", "Panels under suction", "No panels.", |e| rows(&SUCTION_HEADINGS, suction_rows(e))),
    kind("flatness advice", "What would keep panels flat", "Nothing is needed.", |e| {
        rows(&ADVICE_HEADINGS, advice_rows(e))
    }),
    kind("contacts", "Metals in contact", "No metals in contact.", |e| rows(&PAIR_HEADINGS, pair_rows(e))),
    kind("details", "Laps, edges, holes and welds against rust", "Nothing to do.", |e| {
        rows(&DETAIL_HEADINGS, detail_rows(e))
    }),
];
