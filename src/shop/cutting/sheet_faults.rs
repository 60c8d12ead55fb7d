//! Checks a plan of sheets against its job by its own geometry: it knows nothing of how the plan was found.

use super::cut_count::sheet_cut_count;
use super::geometry::{Placed, Rect, is_guillotine, placed};
use super::sheets::{Content, Line, Part, SheetJob, SheetPattern, SheetPlan, SheetStock};

/// What is wrong with a plan; nothing where every sheet can be cut so, no piece is missing or left over, and the price is right.
pub fn sheet_faults(job: &SheetJob, plan: &SheetPlan) -> Vec<String> {
    let mut faults = Vec::new();
    let mut made = vec![0_i64; job.pieces.len()];
    let mut used = vec![0_i64; job.stock.len()];
    let mut price: i128 = 0;
    for (i, pattern) in plan.patterns.iter().enumerate() {
        let of = format!("pattern {}", i + 1);
        let Some(stock) = job.stock.get(pattern.stock) else {
            faults.push(format!("{of}: there is no stock {}", pattern.stock));
            continue;
        };
        let times = i64::from(pattern.times);
        if let Some(own) = used.get_mut(pattern.stock) {
            *own += times;
        }
        faults.extend(pattern_faults(job, stock, pattern).into_iter().map(|fault| format!("{of}: {fault}")));
        for own in placed(&pattern.inside, job.kerf_tenths, (0, 0)) {
            if let Some(made) = own.piece.and_then(|(piece, _)| made.get_mut(piece)) {
                *made += times;
            }
        }
        price += i128::from(times) * i128::from(stock.price_coins + sheet_cut_count(stock, pattern) * stock.cut_coins);
    }
    for &(piece, count) in &plan.bought {
        match (job.pieces.get(piece), made.get_mut(piece)) {
            (Some(own), Some(made)) => {
                *made += i64::from(count);
                match own.bought_coins {
                    Some(coins) => price += i128::from(count) * i128::from(coins),
                    None => faults.push(format!("{} cannot be bought cut to size", own.name)),
                }
            }
            _ => faults.push(format!("there is no piece {piece} to buy")),
        }
    }
    for (piece, made) in job.pieces.iter().zip(made) {
        if made != i64::from(piece.count) {
            faults.push(format!("{}: {} are needed, {made} are made", piece.name, piece.count));
        }
    }
    for (stock, used) in job.stock.iter().zip(used) {
        if let Some(count) = stock.count.filter(|count| used > i64::from(*count)) {
            faults.push(format!("{}: {used} are cut, there are {count}", stock.name));
        }
    }
    if price != i128::from(plan.price_coins) {
        faults.push(format!("the price is {price}, not {}", plan.price_coins));
    }
    if plan.bound_coins > plan.price_coins {
        faults.push(format!("the bound of {} lies above the price of {}", plan.bound_coins, plan.price_coins));
    }
    faults
}

fn trims(stock: &SheetStock) -> [i64; 4] {
    let trim = stock.trim;
    [trim.start_tenths, trim.end_tenths, trim.lower_tenths, trim.upper_tenths]
}

/// Length and width inside the trimmed edges, tenths of a millimetre.
pub fn inside_tenths(stock: &SheetStock, kerf_tenths: i64) -> (i64, i64) {
    let off = |trim: i64| if trim > 0 { trim + kerf_tenths } else { 0 };
    let [start, end, lower, upper] = trims(stock).map(off);
    (stock.length_tenths - start - end, stock.width_tenths - lower - upper)
}

fn pattern_faults(job: &SheetJob, stock: &SheetStock, pattern: &SheetPattern) -> Vec<String> {
    let mut faults = Vec::new();
    let (length, width) = inside_tenths(stock, job.kerf_tenths);
    let part = &pattern.inside;
    if (part.length_tenths, part.width_tenths) != (length, width) {
        faults.push(format!(
            "{} by {} is not the {length} by {width} that {} leaves inside its trimmed edges",
            part.length_tenths, part.width_tenths, stock.name
        ));
    }
    if pattern.times == 0 {
        faults.push("it is cut no times".to_owned());
    }
    part_faults(job, stock, part, &mut faults);
    faults.extend(trim_faults(stock));
    if let Some(stages) = job.stages
        && stages_of(part, job.first_cut) > usize::from(stages)
    {
        faults.push(format!("it takes more than {stages} stages"));
    }
    // Once more, by the places alone.
    let all = placed(part, job.kerf_tenths, (0, 0));
    for own in &all {
        let Rect { along_tenths, up_tenths, length_tenths, width_tenths } = own.rect;
        let out = along_tenths < 0 || up_tenths < 0;
        if out || along_tenths + length_tenths > length || up_tenths + width_tenths > width {
            faults.push(format!("{} lies outside the sheet", name(job, own)));
        }
    }
    for (i, one) in all.iter().enumerate() {
        for other in all.iter().skip(i + 1).filter(|other| overlap(&one.rect, &other.rect)) {
            faults.push(format!("{} and {} overlap", name(job, one), name(job, other)));
        }
    }
    let pieces: Vec<Rect> = all.iter().filter(|own| own.piece.is_some()).map(|own| own.rect).collect();
    if !is_guillotine(&pieces, job.kerf_tenths) {
        faults.push("no cuts from edge to edge part its pieces".to_owned());
    }
    faults
}

fn name(job: &SheetJob, own: &Placed) -> String {
    own.piece.map_or_else(
        || "a rest".to_owned(),
        |(i, _)| job.pieces.get(i).map_or_else(|| format!("piece {i}"), |piece| piece.name.clone()),
    )
}

fn overlap(a: &Rect, b: &Rect) -> bool {
    a.along_tenths < b.along_tenths + b.length_tenths
        && b.along_tenths < a.along_tenths + a.length_tenths
        && a.up_tenths < b.up_tenths + b.width_tenths
        && b.up_tenths < a.up_tenths + a.width_tenths
}

/// Sizes of pieces, parts that fill their whole, cuts that the machine can make.
fn part_faults(job: &SheetJob, stock: &SheetStock, part: &Part, faults: &mut Vec<String>) {
    let size = (part.length_tenths, part.width_tenths);
    match &part.content {
        Content::Rest => {
            if size.0 < 0 || size.1 < 0 {
                faults.push("a rest is less than nothing".to_owned());
            }
        }
        Content::Piece { piece, turned } => match job.pieces.get(*piece) {
            None => faults.push(format!("there is no piece {piece}")),
            Some(own) => {
                let (length, width) = (own.length_tenths, own.width_tenths);
                if size != if *turned { (width, length) } else { (length, width) } {
                    faults.push(format!("{} is cut {} by {}, not {length} by {width}", own.name, size.0, size.1));
                }
                if *turned && !own.may_turn && length != width {
                    faults.push(format!("{} may not turn", own.name));
                }
            }
        },
        Content::Cut { line, parts } => {
            cut_faults(job, stock, (*line, part), parts, faults);
            for own in parts {
                part_faults(job, stock, own, faults);
            }
        }
    }
}

fn cut_faults(
    job: &SheetJob,
    stock: &SheetStock,
    (line, whole): (Line, &Part),
    parts: &[Part],
    faults: &mut Vec<String>,
) {
    let divided = |part: &Part| if line == Line::Across { part.length_tenths } else { part.width_tenths };
    let other = |part: &Part| if line == Line::Across { part.width_tenths } else { part.length_tenths };
    if parts.len() < 2 {
        faults.push("a division has fewer than two parts".to_owned());
    }
    let mut left = divided(whole);
    for (i, own) in parts.iter().enumerate() {
        if other(own) != other(whole) {
            faults.push(format!("a part is {} wide, its whole {}", other(own), other(whole)));
        }
        if let Content::Cut { line: again, .. } = &own.content
            && *again == line
        {
            faults.push("a part is divided the same way once more".to_owned());
        }
        left -= divided(own);
        let last = i + 1 == parts.len();
        if last {
            // The last cut may run off the edge where less than its kerf is left.
            let runs_off = divided(own) == 0 && own.content == Content::Rest && -job.kerf_tenths < left && left < 0;
            if left != 0 && !runs_off {
                faults.push(format!("parts and kerfs leave {left} over"));
            }
        } else {
            left -= job.kerf_tenths;
            faults.extend(reach_fault(stock, other(whole), divided(own).min(left)));
        }
    }
}

/// A cut of this length beside a part of this width, the narrower of the two it makes.
fn reach_fault(stock: &SheetStock, length: i64, narrower: i64) -> Option<String> {
    let longest = stock.longest_cut_tenths?;
    (length > longest && narrower > stock.throat_tenths).then(|| {
        format!("a cut {length} long is longer than the machine's {longest}, and neither side goes through its throat")
    })
}

/// Edges are trimmed along the length first.
fn trim_faults(stock: &SheetStock) -> Vec<String> {
    let trim = stock.trim;
    let ends = [trim.start_tenths, trim.end_tenths].map(|own| (stock.width_tenths, own));
    let edges = [trim.lower_tenths, trim.upper_tenths].map(|own| (stock.length_tenths, own));
    let all = ends.into_iter().chain(edges).filter(|(_, own)| *own > 0);
    all.filter_map(|(length, own)| reach_fault(stock, length, own)).collect()
}

/// Stages that a part takes: turns of the cuts from one way to the other, a last cut that frees one piece from a rest not
/// counted, and one before them where the first cut has to run the other way and none does.
fn stages_of(part: &Part, first: Option<Line>) -> usize {
    fn depth(part: &Part) -> usize {
        let Content::Cut { parts, .. } = &part.content else { return 0 };
        let trims = parts.len() == 2
            && parts.iter().any(|own| matches!(own.content, Content::Piece { .. }))
            && parts.iter().any(|own| own.content == Content::Rest);
        let below = parts.iter().map(depth).max().unwrap_or(0);
        if trims { below } else { 1 + below }
    }
    let Content::Cut { line, .. } = &part.content else { return 0 };
    // Only a whole division of a sheet counts as its first stage, even one that frees a single piece.
    let turned = usize::from(first.is_some_and(|first| first != *line) && depth(part) > 0);
    depth(part) + turned
}
