//! Which posts carry seams, and at which heights courses meet: exact choices by shortest path.

use super::SeamPolicy;

/// Best way from the first place to the last: `step` gives the cost of going from one straight to a later one, none where
/// that cannot be. Costs add up entry by entry; the first entry decides, then the second, then the third.
///
/// `Err` is the first place that cannot be reached.
fn best_path(places: usize, step: impl Fn(usize, usize) -> Option<[f64; 3]>) -> Result<Vec<usize>, usize> {
    let mut best: Vec<Option<([f64; 3], usize)>> = vec![None; places];
    if let Some(first) = best.first_mut() {
        *first = Some(([0.0; 3], 0));
    }
    let mut unreached = None;
    for to in 1..places {
        for from in 0..to {
            let (Some((so_far, _)), Some(own)) = (best[from], step(from, to)) else { continue };
            let sum = [so_far[0] + own[0], so_far[1] + own[1], so_far[2] + own[2]];
            if best[to].is_none_or(|(known, _)| sum < known) {
                best[to] = Some((sum, from));
            }
        }
        if best[to].is_none() && unreached.is_none() {
            unreached = Some(to);
        }
    }
    let mut path: Vec<usize> = places.checked_sub(1).into_iter().collect();
    while let Some(&at) = path.last().filter(|&&at| at > 0) {
        // A place that nothing leads to ends the walk back.
        let Some((_, from)) = best[at] else { return Err(unreached.unwrap_or(at)) };
        path.push(from);
    }
    path.reverse();
    Ok(path)
}

/// Seams on posts so that no sheet is longer than `longest_mm`, by the planner's policy.
///
/// Exact, by shortest path over the posts. *Fewest seams*: the fewest sheets, then the most equal (least sum of squared
/// lengths). *Factory seams*: the fewest departures (a factory seam given up, or a seam where there was none), then as
/// before. *Equal sheets*: the least difference between the longest and the shortest sheet that one sheet more than the
/// fewest can buy, then as before.
///
/// `factory` tells for each post whether the old skin has a seam there. Returns the indices of the posts that carry
/// seams, both ends included; `Err` is the index of a window too wide for any sheet.
///
/// # Example
/// ```
/// use raisedbody::body::skins::{SeamPolicy, seams_on_posts};
/// let posts: Vec<f64> = (0..6).map(|i| 700.0 * f64::from(i)).collect();
/// let factory = [true, false, false, true, false, true];
/// assert_eq!(seams_on_posts(&posts, 16.0, 3000.0, SeamPolicy::Fewest, &factory), Ok(vec![0, 2, 5]));
/// assert_eq!(seams_on_posts(&posts, 16.0, 3000.0, SeamPolicy::Factory, &factory), Ok(vec![0, 3, 5]));
/// ```
pub fn seams_on_posts(
    posts_mm: &[f64],
    edge_mm: f64,
    longest_mm: f64,
    policy: SeamPolicy,
    factory: &[bool],
) -> Result<Vec<usize>, usize> {
    let length_mm = |from: usize, to: usize| posts_mm[to] - posts_mm[from] + 2.0 * edge_mm;
    let within = |shortest_mm: f64, longest_mm: f64, departures: &dyn Fn(usize, usize) -> f64| {
        best_path(posts_mm.len(), |from, to| {
            let own_mm = length_mm(from, to);
            (own_mm >= shortest_mm && own_mm <= longest_mm).then(|| [departures(from, to), 1.0, own_mm * own_mm])
        })
        .map_err(|unreached| unreached.saturating_sub(1))
    };
    let none = |_: usize, _: usize| 0.0;
    let fewest = within(0.0, longest_mm, &none)?;
    let last = posts_mm.len().saturating_sub(1);
    let seam = |post: usize| factory.get(post) == Some(&true);
    match policy {
        SeamPolicy::Fewest => Ok(fewest),
        SeamPolicy::Factory => within(0.0, longest_mm, &|from, to| {
            let given_up = (from + 1..to).filter(|post| seam(*post)).count();
            (given_up + usize::from(to < last && !seam(to))) as f64
        }),
        SeamPolicy::Equal => {
            let mut lengths: Vec<f64> = (1..=last)
                .flat_map(|to| (0..to).map(move |from| (from, to)))
                .map(|(from, to)| length_mm(from, to))
                .filter(|mm| *mm <= longest_mm)
                .collect();
            lengths.sort_by(f64::total_cmp);
            lengths.dedup();
            let mut best = fewest.clone();
            let mut least_mm = f64::INFINITY;
            let mut longest = 0;
            // The longer the shortest sheet may be at least, the longer the longest must be: both only ever grow.
            for (i, &shortest_mm) in lengths.iter().enumerate() {
                longest = longest.max(i);
                while let Some(&longest_mm) = lengths.get(longest) {
                    match within(shortest_mm, longest_mm, &none) {
                        Ok(path) if path.len() <= fewest.len() + 1 => {
                            // Rounding in the stations makes no difference.
                            let better = longest_mm - shortest_mm < least_mm - 1e-6
                                || longest_mm - shortest_mm < least_mm + 1e-6 && path.len() < best.len();
                            if better {
                                (best, least_mm) = (path, longest_mm - shortest_mm);
                            }
                            break;
                        }
                        _ => longest += 1,
                    }
                }
            }
            Ok(best)
        }
    }
}

/// Where courses begin and end between two heights, highest first, both included: the fewest courses no taller than
/// `reach_mm`, then the most of their seams on heights that have structure behind them, then the most equal.
///
/// Exact over those heights and the even division.
pub(super) fn course_lines(top_mm: f64, bottom_mm: f64, reach_mm: f64, structure_mm: &[f64]) -> Vec<f64> {
    // A whole number of sheets must not gain a course from rounding.
    let even = ((top_mm - bottom_mm) / reach_mm - 1e-9).ceil().max(1.0) as usize;
    let mut lines: Vec<(f64, bool)> =
        (0..=even).map(|i| (top_mm - (top_mm - bottom_mm) * i as f64 / even as f64, false)).collect();
    let inner = |z: &f64| *z < top_mm - NARROWEST_MM && *z > bottom_mm + NARROWEST_MM;
    lines.extend(structure_mm.iter().copied().filter(inner).map(|z| (z, true)));
    lines.sort_by(|a, b| b.0.total_cmp(&a.0).then(b.1.cmp(&a.1)));
    let last = lines.len() - 1;
    let path = best_path(lines.len(), |from, to| {
        let height_mm = lines[from].0 - lines[to].0;
        let off = f64::from(u8::from(to < last && !lines[to].1));
        (height_mm > 1e-6 && height_mm <= reach_mm * (1.0 + 1e-9)).then_some([1.0, off, height_mm * height_mm])
    });
    // The even division always reaches.
    path.unwrap_or_default().into_iter().map(|i| lines[i].0).collect()
}

/// A course lower than this is no sheet but a strip, mm.
const NARROWEST_MM: f64 = 100.0;
