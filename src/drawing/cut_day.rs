//! The day of the cut as rows, words and plain text: ledger, exits, gate, cuts to choose from, splices, the roof off its posts.

use std::fmt::Write as _;

use crate::body::cuts::Cut;
use crate::body::ledger::{Action, Entry, Relation};
use crate::body::raise::Ends;
use crate::body::splices::LeanedSide;
use crate::check::significant;
use crate::plan::{BraceAtStep, Cuts, Evaluation, GateRow, LiftStep, RANKED_BY, SpliceSummary, SupportLoads};
use crate::quantity::ShopUnits;

use super::text::{number, table};

/// The ledger of the cut, the exits by place, and the gate before the first cut.
pub(super) fn cut_day(e: &Evaluation) -> String {
    let (mut ledger, mut exits, mut gate) = (table(&LEDGER_HEADINGS), table(&EXIT_HEADINGS), table(&GATE_HEADINGS));
    ledger.add_rows(ledger_rows(e));
    exits.add_rows(exit_rows(e));
    gate.add_rows(gate_rows(e));
    let exits = if e.exits.is_empty() { String::new() } else { format!("{exits}\n\n") };
    format!("\n{ledger}\n\n{exits}{gate}\n\n{}\n", e.gate.words())
}

pub(super) const LEDGER_HEADINGS: [&str; 5] = ["what the cut goes through", "kind", "it", "action", "note"];
pub(super) const EXIT_HEADINGS: [&str; 3] = ["emergency exits", "before", "after"];
pub(super) const GATE_HEADINGS: [&str; 5] = ["before the first cut", "question", "state", "settled", "note"];

/// The ledger of the cut: name, kind, relation, action, note.
pub(super) fn ledger_rows(e: &Evaluation) -> Vec<[String; 5]> {
    let row = |line: &Entry| {
        let action = match line.action {
            Some(Action::Lengthen { by_mm }) => format!("lengthen by {}", e.units.length(by_mm)),
            Some(action) => action.words().to_owned(),
            None => "not known".to_owned(),
        };
        let relation = line.relation.map_or("not known", Relation::words).to_owned();
        [line.name.clone(), line.kind.words().to_owned(), relation, action, line.note.clone()]
    };
    e.ledger.iter().map(row).collect()
}

/// Emergency exits by place.
pub(super) fn exit_rows(e: &Evaluation) -> Vec<[String; 3]> {
    e.exits.iter().map(|row| [row.place.to_owned(), row.before.to_string(), row.after.to_string()]).collect()
}

/// The questions before the first cut.
pub(super) fn gate_rows(e: &Evaluation) -> Vec<[String; 5]> {
    let row = |row: &GateRow| {
        let settled = row.settled.as_deref().unwrap_or_default();
        [row.key.entry(), row.key.words(), row.state.words(), settled, &row.note].map(str::to_owned)
    };
    e.gate.rows.iter().map(row).collect()
}

/// The splices: how inserts nest, the list they are cut from, what leaning sides ask, what to know.
pub fn splices(s: &SpliceSummary, units: ShopUnits) -> String {
    let mut out = String::new();
    let mut list = table(&SPLICE_HEADINGS);
    for row in splice_rows(s, units) {
        list.add_row(row);
    }
    // Writing to a string cannot fail.
    let _ = writeln!(out, "{list}\n");
    let mut leans = table(&LEAN_HEADINGS);
    for row in lean_rows(s, units) {
        leans.add_row(row);
    }
    let _ = writeln!(out, "{leans}\n");
    for line in splice_words(s) {
        let _ = writeln!(out, "  {line}");
    }
    out
}

pub(super) const SPLICE_HEADINGS: [&str; 8] = [
    "inserts",
    "pieces",
    "length",
    "bends, lower and upper",
    "play beside, each face",
    "play in depth",
    "step to the post's face",
    "shim on what stands back",
];

/// Inserts that are alike, a row each.
pub(super) fn splice_rows(s: &SpliceSummary, units: ShopUnits) -> Vec<[String; 8]> {
    let mut kinds: Vec<(Vec<&str>, [String; 6])> = Vec::new();
    let mm = |mm: Option<f64>| mm.map_or_else(|| number(None), |mm| format!("{mm:.2} mm"));
    for post in &s.posts {
        let folded = if post.folded == Some(true) { ", sawn and folded" } else { "" };
        let bends = match post.bends_deg {
            [lower, upper] if lower.abs().max(upper.abs()) < 0.05 => "none".to_owned(),
            [lower, upper] => format!("{lower:.1}°, {upper:.1}°{folded}"),
        };
        let n = post.nesting;
        let step = n.map_or_else(
            || number(None),
            |n| match n.step_mm {
                step if step.abs() < 0.005 => "flush".to_owned(),
                step if step > 0.0 => format!("{step:.2} mm back"),
                step => format!("{:.2} mm proud", -step),
            },
        );
        let shim = match (n, post.shim) {
            (_, Some(shim)) => {
                format!("{} ga, {:.2} mm; {:.2} mm remain", shim.gauge, shim.thickness_mm, shim.remains_mm)
            }
            (Some(n), None) if n.step_mm.abs() >= 0.005 => "no gauge so thin".to_owned(),
            _ => number(None),
        };
        let cells = [
            units.length(post.insert.length_mm),
            bends,
            mm(n.map(|n| 0.5 * n.beside.nominal_mm)),
            mm(n.map(|n| n.depth.nominal_mm)),
            step,
            shim,
        ];
        match kinds.iter_mut().find(|(_, known)| *known == cells) {
            Some((ids, _)) => ids.push(&post.insert.id),
            None => kinds.push((vec![&post.insert.id], cells)),
        }
    }
    let row = |(ids, [length, bends, beside, depth, step, shim]): (Vec<&str>, [String; 6])| {
        [run(&ids), ids.len().to_string(), length, bends, beside, depth, step, shim]
    };
    kinds.into_iter().map(row).collect()
}

/// Names one after another: all where they are few, else the first and the last of each side.
fn run(ids: &[&str]) -> String {
    if ids.len() <= 4 {
        return ids.join(", ");
    }
    let ends = |side: char| {
        let own: Vec<&&str> = ids.iter().filter(|id| id.starts_with(side)).collect();
        let numbers: Vec<usize> = own.iter().filter_map(|id| id.get(1..)?.parse().ok()).collect();
        let (first, last) = (numbers.first()?, numbers.last()?);
        let whole = last - first + 1 == own.len();
        Some(if whole {
            format!("{side}{first} to {side}{last}")
        } else {
            own.iter().map(|id| **id).collect::<Vec<_>>().join(", ")
        })
    };
    ['L', 'R'].into_iter().filter_map(ends).collect::<Vec<_>>().join(", ")
}

pub(super) const LEAN_HEADINGS: [&str; 6] = [
    "side",
    "lean below and above the cut",
    "straight up: bends",
    "straight up: play an unbent insert needs",
    "following the lean: post moves in",
    "following the lean: insert",
];

/// Each side's lean, both ways worked out.
pub(super) fn lean_rows(s: &SpliceSummary, units: ShopUnits) -> Vec<[String; 6]> {
    let row = |side: &LeanedSide| {
        [
            side.side.name().to_owned(),
            format!("{:.2}°, {:.2}°", side.below_deg, side.above_deg),
            format!("{:.2}°, {:.2}°", side.kink_lower_deg, side.kink_upper_deg),
            format!("{:.2} mm", side.tilt_mm),
            format!("{:.1} mm", side.inwards_mm),
            units.length(side.following_length_mm),
        ]
    };
    s.leaning.sides.iter().map(row).collect()
}

/// Where the inserts go, what a fastener carries, and what to know.
pub(super) fn splice_words(s: &SpliceSummary) -> Vec<String> {
    let mut lines = vec![format!("{} inserts, {} splices", s.posts.len(), s.count())];
    if let Some(fit) = s.fit {
        lines.push(format!("inserts go {} the posts", fit.words()));
    }
    if let Some(f) = &s.fasteners {
        let p = f.pattern;
        let spacing = p.spacing_mm().map_or_else(String::new, |mm| format!(" {mm:.1} mm apart,"));
        let load = f
            .most_n
            .map_or_else(String::new, |n| format!("; the one that carries most takes {n:.0} N under the design loads"));
        lines.push(format!(
            "{} fasteners in a splice: {} in a line on {} walls beside,{spacing} the first {:.1} mm from the end{load}",
            p.count(),
            p.in_line,
            p.walls,
            p.end_mm
        ));
    }
    lines.extend(s.notes.iter().cloned());
    lines
}

/// How many of the cuts that can be made a view shows.
const BEST_CUTS: usize = 10;

pub(super) const CUT_HEADINGS: [&str; 10] = [
    "rank",
    "cut at",
    "where",
    "anywhere between",
    "posts and ends",
    "splices",
    "new skin, m2",
    "headroom gained over",
    "person-hours",
    "hours for a metre",
];

/// The best cuts, and the plan's own.
pub(super) fn cut_rows(c: &Cuts) -> Vec<[String; 10]> {
    let length = |mm| c.units.length(mm);
    let row = |cut: &Cut| {
        let raise = &cut.raise;
        let ends = match raise.ends {
            Ends::WholeRoof => "whole roof".to_owned(),
            Ends::Stepped => "stepped".to_owned(),
            Ends::Sloped { run_mm } => format!("sloped over {}", length(run_mm)),
        };
        let rank = cut.rank.map_or_else(|| number(None), |rank| rank.to_string());
        let f = cut.figures;
        [
            if cut.own { format!("{rank}, the plan's own") } else { rank },
            length(raise.cut_mm),
            cut.place.words().to_owned(),
            cut.allowed_mm.map_or_else(|| number(None), |(low, high)| format!("{} and {}", length(low), length(high))),
            format!("{} to {}, {ends}", raise.first_post + 1, raise.last_post + 1),
            number(f.map(|f| f.splices as f64)),
            f.map_or_else(|| number(None), |f| format!("{:.2}", f.skin_area_m2)),
            f.map_or_else(
                || number(None),
                |f| format!("{:.0} mm over {:.2} m", f.headroom_gained_mm, f.raised_length_mm / 1000.0),
            ),
            f.map_or_else(|| number(None), |f| format!("{:.1}", f.labour_h)),
            f.map_or_else(|| number(None), |f| format!("{:.2}", f.labour_h_per_m())),
        ]
    };
    c.ranked().filter(|cut| cut.own || cut.rank.is_some_and(|rank| rank <= BEST_CUTS)).map(row).collect()
}

/// How many cuts there are, how they are ranked, what turned the others down, and what speaks against the plan's own.
pub(super) fn cut_words(c: &Cuts) -> Vec<String> {
    let possible = c.ranked().count();
    let best = c.ranked().filter(|cut| cut.undominated).count();
    let mut lines = vec![
        format!(
            "{possible} of {} cuts can be made, and {best} of these are such that no other is better in something and worse in \
             nothing",
            c.all.len()
        ),
        format!("ranked by {RANKED_BY}"),
    ];
    if !c.own_slope {
        lines.push(format!(
            "sloped ends run over {}, an assumption (default slope_run)",
            c.units.length(c.slope_run_mm)
        ));
    }
    lines.push(format!(
        "no cut goes through a header of {} above the windows, an assumption (default header_depth)",
        c.units.length(c.header_mm)
    ));
    if let Some(own) = c.own().filter(|own| own.rank.is_none()) {
        let why: Vec<String> = own.reasons.iter().map(ToString::to_string).collect();
        lines.push(format!("the plan's own cut is turned down: {}", why.join("; ")));
    }
    lines.extend(c.turned_down().into_iter().map(|(kind, n)| format!("turned down, {kind}: {n}")));
    lines
}

/// Cuts to choose from, as text.
pub fn cuts(c: &Cuts) -> String {
    let mut best = table(&CUT_HEADINGS);
    for row in cut_rows(c) {
        best.add_row(row);
    }
    format!("{best}\n\n{}", cut_words(c).join("\n"))
}

/// Wind at which work stops, in words; none where the plan has no lift.
pub(super) fn stop_work(e: &Evaluation) -> Option<String> {
    let lift = e.lift.as_ref()?;
    if !lift.refusals.is_empty() {
        return Some(format!("refused: {}", lift.refusals.join("; ")));
    }
    if !lift.missing.is_empty() {
        return Some(format!("not assessed, not in the plan: {}", lift.missing.join("; ")));
    }
    let (by, up) = (lift.stopped_by.as_deref().unwrap_or("–"), number(lift.stopped_at_mm));
    let own =
        lift.planned_wind_m_s.map_or_else(String::new, |v| format!("; the planner stops at {} m/s", significant(v)));
    Some(match lift.stop_wind_m_s {
        Some(v) => format!("{} m/s, then with the roof up {up} mm {by}{own}; no clearance", significant(v)),
        None => format!("does not hold in still air: with the roof up {up} mm {by}"),
    })
}

/// Supports of the lift: name, even load, greatest, when one lags, rating.
pub(super) fn lift_supports(e: &Evaluation) -> Vec<[String; 5]> {
    let supports = e.lift.as_ref().map_or(&[][..], |lift| &lift.supports);
    let row = |s: &SupportLoads| {
        [s.name.clone(), significant(s.even_n), significant(s.greatest_n), number(s.lag_n), number(s.capacity_n)]
    };
    supports.iter().map(row).collect()
}

/// Steps of the lift: rise, stop-work wind, what gives way, greatest support load, greatest brace force.
pub(super) fn lift_steps(e: &Evaluation) -> Vec<[String; 5]> {
    let steps = e.lift.as_ref().map_or(&[][..], |lift| &lift.steps);
    let force = |most: &Option<(String, f64)>| {
        most.as_ref().map_or_else(|| number(None), |(name, n)| format!("{} in {name}", significant(*n)))
    };
    let row = |s: &LiftStep| {
        [
            format!("{:.0}", s.rise_mm),
            number(s.stop.as_ref().and_then(|stop| stop.wind_m_s)),
            s.stop.as_ref().map_or_else(|| number(None), |stop| stop.words()),
            force(&s.greatest_support),
            force(&s.greatest_brace),
        ]
    };
    steps.iter().map(row).collect()
}

/// Braces of the lift: name, length and angle at the first and the last step, greatest pull and press over the steps.
pub(super) fn lift_braces(e: &Evaluation) -> Vec<[String; 5]> {
    let Some(lift) = &e.lift else { return Vec::new() };
    let first = lift.steps.first().map_or(0.0, |step| step.rise_mm);
    let at_first = lift.braces.iter().filter(|b| b.rise_mm <= first);
    let row = |start: &BraceAtStep| {
        let own: Vec<&BraceAtStep> = lift.braces.iter().filter(|b| b.name == start.name).collect();
        let end = own.last().map_or(start, |end| *end);
        let most = |of: &dyn Fn(&BraceAtStep) -> Option<f64>| {
            own.iter().map(|b| of(b)).collect::<Option<Vec<_>>>().and_then(|all| all.into_iter().reduce(f64::max))
        };
        let of = |force: Option<f64>, rating: Option<f64>| format!("{} of {}", number(force), number(rating));
        [
            start.name.clone(),
            format!("{} to {}", e.units.length(start.length_mm), e.units.length(end.length_mm)),
            format!("{:.0} to {:.0}", start.angle_deg, end.angle_deg),
            of(most(&|b| b.tension_n), start.tension_capacity_n),
            of(most(&|b| b.compression_n), start.compression_capacity_n),
        ]
    };
    at_first.map(row).collect()
}

/// Headings of the three tables of the lift.
pub(super) const LIFT_SUPPORTS: [&str; 5] =
    ["roof off: support", "even load, N", "greatest in any sharing, N", "when one lags, N", "rating, N"];
/// Of the steps.
pub(super) const LIFT_STEPS: [&str; 5] =
    ["roof off: up, mm", "stop-work wind, m/s", "then", "greatest support load, N", "greatest brace force, N"];
/// Of the braces.
pub(super) const LIFT_BRACES: [&str; 5] =
    ["roof off: brace, hung anew at each step", "length", "degrees", "pull, N", "press, N"];

/// What the loads in the two tables hold for.
pub(super) fn lift_note(e: &Evaluation) -> Option<String> {
    let lift = e.lift.as_ref().filter(|lift| !lift.steps.is_empty())?;
    let wind = number(lift.forces_wind_m_s);
    Some(format!("forces at {wind} m/s with a factor of {} in them; {}", significant(lift.factor), lift.counted))
}

/// The roof off its posts; empty where the plan has no lift.
pub(super) fn lift(e: &Evaluation) -> String {
    let Some(words) = stop_work(e) else { return String::new() };
    let mut out = String::new();
    for (header, rows) in
        [(LIFT_SUPPORTS, lift_supports(e)), (LIFT_STEPS, lift_steps(e)), (LIFT_BRACES, lift_braces(e))]
    {
        let mut own = table(&header);
        let any = !rows.is_empty();
        own.add_rows(rows);
        if any {
            // Writing to a string cannot fail.
            let _ = writeln!(out, "{own}");
        }
    }
    let note = lift_note(e).map_or_else(String::new, |note| format!("{note}\n"));
    format!("{out}{note}stop-work wind: {words}\n\n")
}
