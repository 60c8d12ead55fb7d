//! Drilling jigs: one for each set of like gaps, its holes to 1/64 in and to 0.1 mm.

use crate::catalogue::BitLife;
use crate::error::Problem;

use super::super::sheet::in_range;
use super::{ALONG_MM, LinePlan};

const SIXTY_FOURTH_MM: f64 = 25.4 / 64.0;
const TENTH_MM: f64 = 0.1;
/// Gaps that differ by more are not alike.
pub const MOST_TOLERANCE_MM: f64 = 10.0;

/// Two holes that a jig is indexed on, and the new ones between them.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Gap {
    /// The line that it is on.
    pub line: String,
    /// Its first hole, mm along the line.
    pub from_mm: f64,
    /// From its first hole to its last, mm.
    pub length_mm: f64,
    /// The holes between, mm from its first hole.
    pub inner_mm: Vec<f64>,
}

/// A gap with evenly spaced holes.
pub fn even_gap(line: String, from_mm: f64, length_mm: f64, spaces: usize) -> Gap {
    let inner_mm = (1..spaces).map(|m| length_mm * m as f64 / spaces as f64).collect();
    Gap { line, from_mm, length_mm, inner_mm }
}

/// The gaps of a line that is indexed on these places: those with a hole between them.
///
/// All in mm along the line, each list in order. Holes at a place that the line is indexed on are no holes between.
pub fn gaps_between(line: &str, index_mm: &[f64], holes_mm: &[f64]) -> Vec<Gap> {
    let gap = |pair: &[f64]| {
        let &[from_mm, to_mm] = pair else { return None };
        let inside = |mm: &&f64| **mm > from_mm + TENTH_MM && **mm < to_mm - TENTH_MM;
        let inner_mm: Vec<f64> = holes_mm.iter().filter(inside).map(|mm| mm - from_mm).collect();
        let gap = Gap { line: line.to_owned(), from_mm, length_mm: to_mm - from_mm, inner_mm };
        (!gap.inner_mm.is_empty()).then_some(gap)
    };
    index_mm.windows(2).filter_map(gap).collect()
}

impl LinePlan {
    /// Each hole's place, mm along, and the old hole that it is.
    pub fn places(&self) -> impl Iterator<Item = (f64, Option<usize>)> {
        self.holes.iter().map(|h| (h.along_mm, h.old))
    }

    /// The gaps with new holes, each indexed on the old holes or ends beside it.
    pub fn gaps(&self, line: &str) -> Vec<Gap> {
        let last = self.holes.len().saturating_sub(1);
        let fixed = self.holes.iter().enumerate().filter(|(i, h)| h.old.is_some() || *i == 0 || *i == last);
        let index_mm: Vec<f64> = fixed.map(|(_, h)| h.along_mm).collect();
        let holes_mm: Vec<f64> = self.holes.iter().map(|h| h.along_mm).collect();
        gaps_between(line, &index_mm, &holes_mm)
    }
}

/// A hole of a jig, from its index hole.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct JigPlace {
    /// Where it should be, mm.
    pub true_mm: f64,
    /// The nearest 1/64 in.
    pub sixty_fourths: i64,
    /// The nearest 0.1 mm.
    pub tenths: i64,
}

impl JigPlace {
    fn at(true_mm: f64) -> Self {
        let sixty_fourths = (true_mm / SIXTY_FOURTH_MM).round() as i64;
        Self { true_mm, sixty_fourths, tenths: (true_mm / TENTH_MM).round() as i64 }
    }

    /// As marked in 1/64 in, mm.
    pub fn inch_mm(&self) -> f64 {
        self.sixty_fourths as f64 * SIXTY_FOURTH_MM
    }

    /// As marked in 0.1 mm, mm.
    pub fn metric_mm(&self) -> f64 {
        self.tenths as f64 / 10.0
    }
}

/// A gap that a jig serves.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct GapServed {
    /// The gap, by index.
    pub gap: usize,
    /// How far one of its holes, or its end, is from the jig's at most, mm.
    pub departure_mm: f64,
}

/// A drilling jig.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Jig {
    /// From the index hole, which is the first, to the hole at the other end.
    pub places: Vec<JigPlace>,
    /// The gaps that it serves.
    pub gaps: Vec<GapServed>,
}

impl Jig {
    /// From the index hole to the last, mm.
    pub fn length_mm(&self) -> f64 {
        self.places.last().map_or(0.0, |place| place.true_mm)
    }

    /// Spaces.
    pub fn spaces(&self) -> usize {
        self.places.len().saturating_sub(1)
    }

    fn greatest(&self, marked: impl Fn(&JigPlace) -> f64) -> f64 {
        self.places.iter().map(|p| (marked(p) - p.true_mm).abs()).fold(0.0, f64::max)
    }

    /// Greatest rounding error of a place marked in 1/64 in, mm: never over half of it, 0.2 mm.
    pub fn inch_error_mm(&self) -> f64 {
        self.greatest(JigPlace::inch_mm)
    }

    /// Greatest rounding error of a place marked in 0.1 mm, mm: never over 0.05 mm.
    pub fn metric_error_mm(&self) -> f64 {
        self.greatest(JigPlace::metric_mm)
    }

    /// What the error in 1/64 in would be, were the first space rounded and stepped off, mm.
    pub fn stepped_error_mm(&self) -> f64 {
        let step_mm = self.places.get(1).map_or(0.0, JigPlace::inch_mm);
        let stepped = self.places.iter().enumerate().map(|(m, p)| (m as f64 * step_mm - p.true_mm).abs());
        stepped.fold(0.0, f64::max)
    }
}

/// Like gaps: the least and greatest of each place, mm, and which they are.
struct Set {
    ranges: Vec<(f64, f64)>,
    members: Vec<usize>,
}

/// One jig for each set of like gaps: as many holes, none of them farther from the jig's than the tolerance.
///
/// Gaps are taken by number of holes, then by length. With even spacing, gaps are alike where their lengths differ by no
/// more than twice the tolerance, and there are no fewer jigs that serve all.
///
/// # Errors
/// A tolerance or a gap out of range; a gap without a hole between.
pub fn jigs(gaps: &[Gap], tolerance_mm: f64) -> Result<Vec<Jig>, Vec<Problem>> {
    let mut problems: Vec<Problem> =
        in_range("tolerance", Some(tolerance_mm), (0.0, MOST_TOLERANCE_MM), "mm").err().into_iter().collect();
    for (i, gap) in gaps.iter().enumerate() {
        problems.extend(in_range(&format!("gaps[{i}].from"), Some(gap.from_mm), ALONG_MM, "mm").err());
        problems.extend(in_range(&format!("gaps[{i}].length"), Some(gap.length_mm), (5.0, 10_000.0), "mm").err());
        let (count, mut before) = (gap.inner_mm.len(), 0.0);
        if !(1..=1000).contains(&count) {
            problems.push(Problem::out_of_range(format!("gaps[{i}].spaces"), count + 1, "2 to 1001"));
        }
        for &mm in &gap.inner_mm {
            if !(mm > before && mm < gap.length_mm) {
                let problem = "holes of a gap lie in order between its ends";
                problems.push(Problem::contradiction(format!("gaps[{i}].inner"), format!("{mm} mm"), problem));
                break;
            }
            before = mm;
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut order: Vec<(usize, &Gap)> = gaps.iter().enumerate().collect();
    order.sort_by(|(_, a), (_, b)| a.inner_mm.len().cmp(&b.inner_mm.len()).then(a.length_mm.total_cmp(&b.length_mm)));
    let mut sets: Vec<Set> = Vec::new();
    for (i, gap) in order {
        let places = || gap.inner_mm.iter().copied().chain([gap.length_mm]);
        // Twice the tolerance between the outermost leaves each within it of the middle.
        let fits = |ranges: &[(f64, f64)]| {
            ranges.len() == gap.inner_mm.len() + 1
                && ranges
                    .iter()
                    .zip(places())
                    .all(|(&(low, high), mm)| high.max(mm) - low.min(mm) <= 2.0 * tolerance_mm + 1e-9)
        };
        // Sets of shorter gaps come first: only the last can still take a longer one where all are even.
        match sets.iter_mut().rev().find(|set| fits(&set.ranges)) {
            Some(set) => {
                for (range, mm) in set.ranges.iter_mut().zip(places()) {
                    *range = (range.0.min(mm), range.1.max(mm));
                }
                set.members.push(i);
            }
            None => sets.push(Set { ranges: places().map(|mm| (mm, mm)).collect(), members: vec![i] }),
        }
    }
    Ok(sets
        .into_iter()
        .map(|Set { ranges, mut members }| {
            members.sort_unstable();
            let middles: Vec<f64> = ranges.iter().map(|(low, high)| f64::midpoint(*low, *high)).collect();
            let served = |i: usize| {
                let gap = gaps.get(i)?;
                let places = gap.inner_mm.iter().copied().chain([gap.length_mm]);
                let departure_mm = places.zip(&middles).map(|(mm, jig)| (mm - jig).abs()).fold(0.0, f64::max);
                Some(GapServed { gap: i, departure_mm })
            };
            let places = std::iter::once(0.0).chain(middles.iter().copied()).map(JigPlace::at).collect();
            Jig { places, gaps: members.into_iter().filter_map(served).collect() }
        })
        .collect())
}

/// How a hole is set out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum SetOut {
    /// Through a jig: which, and which of its holes from the index hole (0).
    Jig(usize, usize),
    /// An old hole, by index.
    Old(usize),
    /// Measured: it is what a jig is indexed on, or has no jig.
    Measured,
}

impl SetOut {
    /// The words shown to the user.
    pub fn words(self) -> String {
        match self {
            Self::Jig(jig, hole) => format!("{}, hole {hole}", jig_name(jig)),
            Self::Old(i) => format!("old hole {}", i + 1),
            Self::Measured => "measured".to_owned(),
        }
    }
}

/// What to call a jig, by its index: `J1`.
pub fn jig_name(jig: usize) -> String {
    format!("J{}", jig + 1)
}

/// A hole of a line.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct DrilledHole {
    /// The line.
    pub line: String,
    /// Its number on the line, from 1.
    pub number: usize,
    /// From the start of the line, mm.
    pub along_mm: f64,
    /// How it is set out.
    pub by: SetOut,
}

/// Every hole of a line, given by its place, mm along, and the old hole that it is; each with the jig that sets it out.
pub fn drilling_table(
    line: &str,
    holes: impl IntoIterator<Item = (f64, Option<usize>)>,
    gaps: &[Gap],
    jigs: &[Jig],
) -> Vec<DrilledHole> {
    let own: Vec<(usize, &Gap)> = gaps.iter().enumerate().filter(|(_, gap)| gap.line == line).collect();
    let jig_of = |g: usize| jigs.iter().position(|jig| jig.gaps.iter().any(|served| served.gap == g));
    let through = |along_mm: f64| {
        own.iter().find_map(|(g, gap)| {
            let place = gap.inner_mm.iter().position(|mm| (gap.from_mm + mm - along_mm).abs() < 1e-6)?;
            Some(SetOut::Jig(jig_of(*g)?, place + 1))
        })
    };
    let drilled = |(i, (along_mm, old)): (usize, (f64, Option<usize>))| DrilledHole {
        line: line.to_owned(),
        number: i + 1,
        along_mm,
        by: old.map(SetOut::Old).or_else(|| through(along_mm)).unwrap_or(SetOut::Measured),
    };
    holes.into_iter().enumerate().map(drilled).collect()
}

/// Bits that holes wear out: at least, where each lasts as long as the row says at most, and at most.
///
/// Each part that a hole goes through wears the bit by its own share.
pub fn bits(holes: &[(usize, &BitLife)]) -> (u64, u64) {
    let worn = |life: fn(&BitLife) -> u32| {
        let share: f64 = holes.iter().map(|(holes, row)| *holes as f64 / f64::from(life(row).max(1))).sum();
        // 300 holes of 1/150 wear out 2 bits, not 2.0000000000000004.
        (share - 1e-9).ceil().max(0.0) as u64
    };
    (worn(|row| row.holes_most.max(row.holes_least)), worn(|row| row.holes_least.min(row.holes_most)))
}
