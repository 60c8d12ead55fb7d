//! The measure-up as a form to print and fill in, and what came of it, as text and as HTML.

use std::fmt::Write as _;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::body::squareness::{CornerMove, Decision, Estimate, Measured, Parameter, Reading, ReadingKind, Squareness};
use crate::check::{Check, Verdict};
use crate::plan::{MEASURE_UP_NOTES, MeasureUp};
use crate::quantity::ShopUnits;

use super::html::table as html_table;
use super::overview::{ASSUMED_HEADINGS, assumed_rows};
use super::text::table;

/// What is left to do at the top of a sheet of paper.
pub(super) const BLANKS: [&str; 4] = ["date and time", "measured by", "tape and plumb bob", "air, degC, wind"];

fn title(m: &MeasureUp) -> String {
    let invented = if m.invented { " (figures invented for an example)" } else { "" };
    format!("{}{invented}: measure-up {}", m.name, m.stage.name())
}

pub(super) fn sides(m: &MeasureUp) -> String {
    let [left, right] = m.side_names;
    format!("L is the {left}, R the {right}; posts count from the rear")
}

fn expected(units: ShopUnits, reading: &Reading) -> String {
    // Nought has no sign.
    let told = |mm: f64| units.length(if mm.abs() < 0.05 { 0.0 } else { mm });
    reading.expected_mm.map_or_else(|| "as punched".to_owned(), told)
}

pub(super) const READING_HEADINGS: [&str; 4] = ["reading", "from", "to", "expected"];

/// Readings of one kind.
pub(super) struct Group {
    pub name: &'static str,
    /// How they are taken.
    pub how: String,
    /// A row a reading.
    pub rows: Vec<[String; 4]>,
}

/// The readings of the form by kind.
pub(super) fn groups(m: &MeasureUp) -> Vec<Group> {
    let row = |r: &Reading| [r.name.clone(), r.from.clone(), r.to.clone(), expected(m.units, r)];
    let of = |kind: ReadingKind| Group {
        name: kind.name(),
        how: format!("{} (standard error {} mm)", kind.how(), m.layout.errors().of(kind)),
        rows: m.readings.iter().filter(|r| r.kind == kind).map(row).collect(),
    };
    ReadingKind::ALL.map(of).into_iter().filter(|group| !group.rows.is_empty()).collect()
}

/// Where a tolerance is written, and what it is.
pub(super) fn tolerances(m: &MeasureUp) -> [(&'static str, String); 3] {
    let words = |mm: Option<f64>| {
        mm.map_or_else(|| "not in the plan (measure_up.tolerance)".to_owned(), |mm| m.units.length(mm))
    };
    [
        ("height", words(m.tolerances.height_mm)),
        ("plumb", words(m.tolerances.plumb_mm)),
        ("diagonals in plan", words(m.tolerances.diagonal_mm)),
    ]
}

/// The form as text.
pub fn form_text(m: &MeasureUp) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = writeln!(out, "{}\n{}\n{}\n", title(m), m.stage.purpose(), sides(m));
    for blank in BLANKS {
        let _ = writeln!(out, "{blank}: ____________________");
    }
    let [reading, from, to, expected] = READING_HEADINGS;
    for group in groups(m) {
        let mut lines = table(&[reading, from, to, expected, "read"]);
        lines.add_rows(group.rows.iter().map(|[a, b, c, d]| [a, b, c, d, "____________"]));
        let _ = writeln!(out, "\n{}: {}\n{lines}", group.name, group.how);
    }
    let _ = writeln!(out, "\ntolerances:");
    for (name, words) in tolerances(m) {
        let _ = writeln!(out, "  {name}: {words}");
    }
    for a in &m.assumed {
        let _ = writeln!(out, "  {} = {} [{}] {}", a.field, a.value, a.standing.words(), a.source);
    }
    let _ = writeln!(out);
    for note in MEASURE_UP_NOTES {
        let _ = writeln!(out, "! {note}");
    }
    out
}

const STYLE: &str = "table { border-collapse: collapse; margin: 0.4em 0 1em } th, td { border: 1px solid #888; padding: 0.2em \
                     0.5em; text-align: left } .blank { min-width: 9em } @media print { section { break-inside: avoid } }";

/// The form as a fragment of HTML; every text of a plan is escaped.
pub fn form_html(m: &MeasureUp) -> String {
    form(m).into_string()
}

/// The form as a whole page to print.
pub fn form_page(m: &MeasureUp) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head { meta charset="utf-8"; title { (title(m)) } style { (PreEscaped(STYLE)) } }
            body { (form(m)) }
        }
    }
    .into_string()
}

fn form(m: &MeasureUp) -> Markup {
    html! {
        div {
            h3 { (title(m)) }
            p { (m.stage.purpose()) ". " (sides(m)) "." }
            table { @for blank in BLANKS { tr { th { (blank) } td class="blank" style="min-width: 16em" {} } } }
            @for group in groups(m) {
                section {
                    p { b { (group.name) } ": " (group.how) }
                    table {
                        tr { @for heading in READING_HEADINGS { th { (heading) } } th { "read" } }
                        @for row in &group.rows {
                            tr { @for cell in row { td { (cell) } } td class="blank" style="min-width: 9em" {} }
                        }
                    }
                }
            }
            table { @for (name, words) in tolerances(m) { tr { th { "tolerance, " (name) } td { (words) } } } }
            @if !m.assumed.is_empty() {
                p { (m.assumed.len()) " measuring errors assumed:" }
                (html_table(&ASSUMED_HEADINGS, &assumed_rows(&m.assumed)))
            }
            ul { @for note in MEASURE_UP_NOTES { li { (note) } } }
        }
    }
}

/// `+12.1 mm ± 0.9 mm`, or why there is no number.
fn plus_minus(value: Option<Measured>) -> String {
    value.map_or_else(|| "not determined".to_owned(), |v| format!("{:+.1} mm ± {:.1} mm", v.mm, v.within_mm()))
}

/// What these readings say of a parameter, in words.
fn parameter_row(s: &Squareness, e: &Estimate) -> [String; 3] {
    let over = match e.parameter {
        Parameter::Pitch | Parameter::Yaw | Parameter::Sag => format!(" ({:.0} mm)", s.length_mm),
        Parameter::Roll | Parameter::Racking | Parameter::Spread => format!(" ({:.0} mm)", s.width_mm),
        Parameter::Twist => format!(" ({:.0} mm, ends {:.0} mm apart)", s.width_mm, s.length_mm),
        Parameter::Forward | Parameter::Left | Parameter::Up => String::new(),
    };
    [e.parameter.name().to_owned(), plus_minus(e.value), format!("{}{over}", e.parameter.meaning())]
}

/// A way to go: `forward 12.1 mm (31/64 in) ± 0.9 mm`; to be left where it is within its error.
fn way(units: ShopUnits, value: Option<Measured>, [ahead, behind]: [&str; 2]) -> String {
    let Some(v) = value else { return "not determined".to_owned() };
    let word = if v.mm < 0.0 { behind } else { ahead };
    let by = format!("{word} {} ± {:.1} mm", units.length(v.mm.abs()), v.within_mm());
    if v.mm.abs() <= v.within_mm() { format!("leave ({by})") } else { by }
}

fn move_row(units: ShopUnits, m: &CornerMove) -> [String; 4] {
    [
        m.corner.name.clone(),
        way(units, m.by.forward, ["forward", "back"]),
        way(units, m.by.left, ["left", "right"]),
        way(units, m.by.up, ["up", "down"]),
    ]
}

/// What a corner has to do in a step; none where it is to be left as it is.
fn step_words(units: ShopUnits, m: &CornerMove) -> Option<String> {
    let ways = [(m.by.forward, ["forward", "back"]), (m.by.left, ["left", "right"]), (m.by.up, ["up", "down"])];
    // Turning a roof moves its corners a hair in the other directions too.
    let to_do = |v: Option<Measured>| v.is_none_or(|v| v.mm.abs() >= 0.05 && v.mm.abs() > v.within_mm());
    let words: Vec<String> =
        ways.into_iter().filter(|(v, _)| to_do(*v)).map(|(v, words)| way(units, v, words)).collect();
    (!words.is_empty()).then(|| format!("{}: {}", m.corner.name, words.join(", ")))
}

/// The steps in order, each with what is to do in it.
fn steps(units: ShopUnits, s: &Squareness) -> Vec<(String, Vec<String>)> {
    let of_corners = s.steps.iter().map(|step| {
        let moves = step.moves.iter().filter_map(|m| step_words(units, m)).collect();
        (step.step.words().to_owned(), moves)
    });
    let sag = s.value(Parameter::Sag).filter(|sag| sag.mm.abs() > sag.within_mm());
    let middle = sag.map(|sag| format!("middle of the length, both sides: {}", way(units, Some(sag), ["up", "down"])));
    let of_middle = ("take the sag out".to_owned(), middle.into_iter().collect());
    of_corners
        .chain([of_middle])
        .map(|(step, mut moves): (String, Vec<String>)| {
            if moves.is_empty() {
                moves.push("nothing beyond the measuring error".to_owned());
            }
            (step, moves)
        })
        .collect()
}

fn decision_words(s: &Squareness) -> String {
    let count = |v: Verdict| s.checks.iter().filter(|c| c.verdict == v).count();
    let (go, no, open) = (count(Verdict::Passes), count(Verdict::Fails), count(Verdict::NotAssessed));
    let why = match s.decision() {
        Decision::Go => {
            "square within the planner's tolerance, measuring error included; says nothing of supports, braces \
                         or strength"
        }
        Decision::NoGo => {
            "out of the planner's tolerance beyond the measuring error: weld nothing, take no support out"
        }
        Decision::MeasureAgain => "weld nothing, take no support out until it is told",
    };
    format!("{}: {why} ({go} within, {no} out, {open} not assessed)", s.decision().words())
}

/// How far the readings agree with each other.
fn agreement(s: &Squareness) -> String {
    let unchecked = s.unchecked().count();
    match s.probability {
        Some(p) => format!(
            "readings scatter {:.2} of their stated errors, {} to spare; chance of so much or more {:.0} %; {unchecked} not \
             checked by any other",
            (s.chi_square / s.freedoms as f64).sqrt(),
            s.freedoms,
            100.0 * p
        ),
        None => "no readings to spare: none checks another".to_owned(),
    }
}

/// Checks that do not pass, alike ones together, told by the one that is off most.
fn open_checks(s: &Squareness) -> Vec<String> {
    let mut groups: Vec<Vec<&Check>> = Vec::new();
    for check in s.checks.iter().filter(|c| c.verdict != Verdict::Passes) {
        let alike = |group: &&mut Vec<&Check>| {
            group.first().is_some_and(|first| first.name == check.name && first.verdict == check.verdict)
        };
        match groups.iter_mut().find(alike) {
            Some(group) => group.push(check),
            None => groups.push(vec![check]),
        }
    }
    let told = |group: &Vec<&Check>| {
        let off = |c: &Check| c.demand.unwrap_or(0.0);
        let most = group.iter().copied().max_by(|a, b| off(a).total_cmp(&off(b)))?;
        let places = if group.len() == 1 { String::new() } else { format!("{} places, most at ", group.len()) };
        let why = most.reason.as_deref().unwrap_or("");
        Some(format!("{}: {}: {places}{}: {why}", most.name, most.verdict.words(), most.subject))
    };
    groups.iter().filter_map(told).collect()
}

fn residual_row(r: &crate::body::squareness::Residual) -> [String; 6] {
    [
        r.name.clone(),
        format!("{:+.1}", r.departure_mm),
        format!("{:+.1}", r.fitted_mm),
        format!("{:+.1}", r.residual_mm()),
        format!("{:.1}", r.error_mm),
        r.normalised.map_or_else(|| "not checked".to_owned(), |w| format!("{w:+.1}")),
    ]
}

const RESIDUALS: [&str; 6] =
    ["reading", "departs, mm", "fitted, mm", "left over, mm", "error, mm", "in its deviations"];
const PARAMETER_COLUMNS: [&str; 3] = ["motion", "found, with 95 %", "what it is"];
const MOVE_COLUMNS: [&str; 4] = ["corner", "along", "across", "up and down"];

/// What came of a measure-up, as text.
pub fn squareness_text(m: &MeasureUp, s: &Squareness) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = writeln!(out, "{}\n{}\n", title(m), decision_words(s));
    let mut motion = table(&PARAMETER_COLUMNS);
    for e in &s.parameters {
        motion.add_row(parameter_row(s, e));
    }
    let _ = writeln!(out, "{motion}\n{}\n", agreement(s));
    let mut moves = table(&MOVE_COLUMNS);
    for corner in &s.moves {
        moves.add_row(move_row(m.units, corner));
    }
    let _ = writeln!(
        out,
        "to move, all together:\n{moves}\n\nin this order, a little at a time, measuring again after each:"
    );
    for (i, (step, corners)) in steps(m.units, s).iter().enumerate() {
        let _ = writeln!(out, "{}. {step}", i + 1);
        for corner in corners {
            let _ = writeln!(out, "   {corner}");
        }
    }
    let open = open_checks(s);
    if !open.is_empty() {
        let _ = writeln!(out, "\nagainst the planner's tolerance:");
        for line in open {
            let _ = writeln!(out, "  {line}");
        }
    }
    let mut residuals = table(&RESIDUALS);
    for r in &s.residuals {
        residuals.add_row(residual_row(r));
    }
    let _ = writeln!(out, "\n{residuals}");
    for u in &s.unused {
        let _ = writeln!(out, "not used: {}: {}", u.name, u.reason);
    }
    let _ = writeln!(out);
    for note in MEASURE_UP_NOTES {
        let _ = writeln!(out, "! {note}");
    }
    out
}

fn rows<const N: usize>(head: [&str; N], body: impl Iterator<Item = [String; N]>) -> Markup {
    html! {
        table {
            tr { @for name in head { th style="text-align: left" { (name) } } }
            @for row in body { tr { @for cell in row { td style="text-align: left" { (cell) } } } }
        }
    }
}

/// What came of a measure-up, as a fragment of HTML.
pub fn squareness_html(m: &MeasureUp, s: &Squareness) -> String {
    let open = open_checks(s);
    html! {
        div {
            b { (title(m)) }
            p { (decision_words(s)) }
            (rows(PARAMETER_COLUMNS, s.parameters.iter().map(|e| parameter_row(s, e))))
            p { (agreement(s)) }
            p { "To move, all together:" }
            (rows(MOVE_COLUMNS, s.moves.iter().map(|c| move_row(m.units, c))))
            p { "In this order, a little at a time, measuring again after each:" }
            ol {
                @for (step, corners) in steps(m.units, s) {
                    li { (step) ul { @for corner in corners { li { (corner) } } } }
                }
            }
            @if !open.is_empty() {
                details {
                    summary { "against the planner's tolerance" }
                    ul { @for line in &open { li { (line) } } }
                }
            }
            details {
                summary { (s.residuals.len()) " readings against the fit" }
                (rows(RESIDUALS, s.residuals.iter().map(residual_row)))
                @if !s.unused.is_empty() {
                    ul { @for u in &s.unused { li { "not used: " (u.name) ": " (u.reason) } } }
                }
            }
            ul { @for note in MEASURE_UP_NOTES { li { (note) } } }
        }
    }
    .into_string()
}
