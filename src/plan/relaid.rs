//! Rivet lines that lie on lines of old holes: the plan over the old holes takes the place of the even ones, so that each hole
//! is counted once.

use crate::body::rivet_lines::{LineKind, RivetLine};
use crate::error::Problem;

use super::drilling::{OldLine, SHARED_MM};

/// Where on a rivet line a line of old holes lies.
#[derive(Debug, Clone, PartialEq)]
pub struct LiesOn {
    /// The rivet line.
    pub line: String,
    /// Its stretch begins so far from the start of the rivet line, mm.
    pub from_mm: f64,
}

/// A rivet line over old holes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Relaid {
    /// The rivet line.
    pub line: String,
    /// Its holes, mm from its start, each with the old hole that it is.
    pub places: Vec<(f64, Option<usize>)>,
    /// Where jigs are indexed on it: other lines, old holes, both ends of the stretch.
    pub index_mm: Vec<f64>,
    /// Smallest and largest space over the old holes, holes of lines that cross included, mm.
    pub spaces_mm: (f64, f64),
}

/// A hole of a line: where another line crosses it has the crossing's place, and that of the old hole besides.
#[derive(Clone, Copy)]
struct Laid {
    nominal_mm: f64,
    place_mm: f64,
    old: Option<usize>,
    planned: bool,
}

/// Lays each line of old holes onto the rivet line that it names.
///
/// A hole of the new line within half its smallest pitch of a crossing is the crossing's hole, listed with whichever line has
/// that; an even hole beyond the stretch stays, unless it is nearer than the smallest pitch.
///
/// # Errors
/// A rivet line that is none, lies on the other side, is too short, or is named twice.
pub(super) fn relay(old_lines: &[OldLine], lines: &mut [RivetLine]) -> Result<Vec<Relaid>, Vec<Problem>> {
    let (mut relaid, mut problems): (Vec<Relaid>, Vec<Problem>) = (Vec::new(), Vec::new());
    for (i, old) in old_lines.iter().enumerate() {
        let Some(on) = &old.lies_on else { continue };
        let path = format!("hole_line[{i}].lies_on");
        let Some(at) = lines.iter().position(|line| line.id == on.line) else {
            let ids = lines.iter().map(|line| line.id.as_str());
            problems.push(Problem::unknown_name(format!("{path}.line"), "rivet line", &on.line, ids));
            continue;
        };
        let wrong = wrong(old, on, &lines[at], (&path, &relaid));
        if wrong.is_empty() {
            let crossings_mm = indexed_mm(&lines[at], lines);
            let (one, holes) = laid(old, on, &lines[at], &crossings_mm);
            let line = &mut lines[at];
            line.holes_mm = holes.iter().map(|hole| hole.nominal_mm).collect();
            line.pitch_mm = spaces_mm(&[line.holes_mm.as_slice(), &crossings_mm].concat()).1;
            relaid.push(one);
        }
        problems.extend(wrong);
    }
    if problems.is_empty() { Ok(relaid) } else { Err(problems) }
}

/// What speaks against it.
fn wrong(old: &OldLine, on: &LiesOn, line: &RivetLine, (path, before): (&str, &[Relaid])) -> Vec<Problem> {
    let mut problems = Vec::new();
    let named = format!("{path}.line");
    if let (Some(own), Some(its)) = (old.side, line.side)
        && own != its
    {
        let problem = format!("this line is on the {} side, the old holes are on the {}", its.name(), own.name());
        problems.push(Problem::contradiction(&named, &on.line, problem));
    }
    if before.iter().any(|other| other.line == on.line) {
        let problem = "another line of old holes lies on it too; measure them as one";
        problems.push(Problem::contradiction(&named, &on.line, problem));
    }
    let (from_mm, to_mm) = old.line.stretch_mm;
    let end_mm = on.from_mm + to_mm - from_mm;
    if end_mm > line.length_mm() + SHARED_MM {
        let problem = format!(
            "the line over the old holes would end {end_mm:.0} mm along {}, which is {:.0} mm long; it begins nearer to the \
             start, or is shorter (from, to)",
            on.line,
            line.length_mm()
        );
        problems.push(Problem::contradiction(format!("{path}.from"), format!("{:.0} mm", on.from_mm), problem));
    }
    problems
}

fn laid(old: &OldLine, on: &LiesOn, line: &RivetLine, crossings_mm: &[f64]) -> (Relaid, Vec<Laid>) {
    let least_mm = old.line.pitches_mm.0;
    let near = |a: f64, b: f64| (a - b).abs() < 0.5 * least_mm;
    let (from_mm, to_mm) = (on.from_mm, on.from_mm + old.line.stretch_mm.1 - old.line.stretch_mm.0);
    let mut holes: Vec<Laid> = Vec::new();
    for hole in &old.plan.holes {
        let place_mm = hole.along_mm - old.line.stretch_mm.0 + from_mm;
        let crossing = crossings_mm.iter().copied().find(|&mm| near(mm, place_mm));
        let has = |mm: f64| line.holes_mm.iter().any(|own| (own - mm).abs() < SHARED_MM);
        // The line that crosses there has this hole.
        if crossing.is_some_and(|mm| !has(mm)) {
            continue;
        }
        holes.push(Laid { nominal_mm: crossing.unwrap_or(place_mm), place_mm, old: hole.old, planned: true });
    }
    for &mm in &line.holes_mm {
        let crossing = crossings_mm.iter().any(|other| (other - mm).abs() < SHARED_MM);
        let taken = holes.iter().any(|hole| hole.planned && (hole.nominal_mm - mm).abs() < SHARED_MM);
        let beyond = mm < from_mm - 0.5 * least_mm || mm > to_mm + 0.5 * least_mm;
        let clear = holes.iter().all(|hole| !hole.planned || (hole.nominal_mm - mm).abs() >= least_mm);
        if (crossing && !taken) || (!crossing && beyond && clear) {
            holes.push(Laid { nominal_mm: mm, place_mm: mm, old: None, planned: false });
        }
    }
    holes.sort_by(|a, b| a.nominal_mm.total_cmp(&b.nominal_mm));
    let planned = || holes.iter().filter(|hole| hole.planned);
    let ends = planned().next().into_iter().chain(planned().next_back());
    let fixed = planned().filter(|hole| hole.old.is_some()).chain(ends).map(|hole| hole.place_mm);
    let free = crossings_mm.iter().copied().filter(|&mm| !planned().any(|hole| near(hole.nominal_mm, mm)));
    let mut index_mm: Vec<f64> = fixed.chain(free).collect();
    index_mm.sort_by(f64::total_cmp);
    index_mm.dedup_by(|a, b| (*a - *b).abs() < SHARED_MM);
    let places = holes.iter().map(|hole| (hole.place_mm, hole.old)).collect();
    let stretch = (from_mm - 0.5 * least_mm)..=(to_mm + 0.5 * least_mm);
    let crossed = crossings_mm.iter().copied().filter(|mm| stretch.contains(mm));
    let over_old: Vec<f64> = planned().map(|hole| hole.nominal_mm).chain(crossed).collect();
    let spaces_mm = spaces_mm(&over_old);
    (Relaid { line: line.id.clone(), places, index_mm, spaces_mm }, holes)
}

/// Smallest and largest space between places of holes, mm.
fn spaces_mm(holes_mm: &[f64]) -> (f64, f64) {
    let mut all = holes_mm.to_vec();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < SHARED_MM);
    let spaces = || all.windows(2).map(|pair| pair[1] - pair[0]);
    (spaces().fold(f64::INFINITY, f64::min), spaces().fold(0.0, f64::max))
}

/// Where other lines cross this one, and its ends, mm from its start: there a jig is indexed.
pub(super) fn indexed_mm(line: &RivetLine, lines: &[RivetLine]) -> Vec<f64> {
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
