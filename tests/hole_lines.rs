//! Old holes: the fit against published and hand values, the choice against every line there is, the jigs by their laws.

use proptest::prelude::*;
use raisedbody::catalogue::{Catalogue, DrilledPart};
use raisedbody::error::Problem;
use raisedbody::mechanics::hole_line::{
    Edge, Fate, Gap, HoleLine, ONE_SIDED_95, OldHole, OldMetal, Trade, bits, even_gap, gaps_between, jigs,
};
use rstest::rstest;

fn hole(along_mm: f64, off_mm: f64) -> OldHole {
    OldHole { along_mm, off_mm, spoilt: false, off_error_mm: None }
}

fn line(holes: Vec<OldHole>, to_mm: f64) -> HoleLine {
    HoleLine {
        holes,
        along_error_mm: 0.5,
        off_error_mm: 0.3,
        old_metal: OldMetal::Stays,
        edge: None,
        stretch_mm: (0.0, to_mm),
        end_play_mm: 5.0,
        pitch_mm: 100.0,
        pitches_mm: (40.0, 130.0),
        clearance_mm: 6.0,
        hole_mm: 6.5,
    }
}

const EVEN: Trade = trade(5.0, 1.0);

const fn trade(worth_mm: f64, plug_worth: f64) -> Trade {
    Trade { spacing_worth_mm: worth_mm, jump_worth_mm: worth_mm, plug_worth }
}

// Elementary least squares, worked by hand: mean x 1000, mean y 0.18, Sxy = 200, Sxx = 2.5e6.
#[test]
fn five_holes_by_hand() {
    let places = [(0.0, 0.2), (500.0, -0.1), (1000.0, 0.4), (1500.0, 0.1), (2000.0, 0.3)];
    let fit = line(places.map(|(x, y)| hole(x, y)).to_vec(), 2000.0).fit().unwrap();
    assert!((fit.slope - 8.0e-5).abs() < 1e-15);
    assert!((fit.at_mm(0.0) - 0.100).abs() < 1e-12);
    assert!((fit.peak_mm - 0.24).abs() < 1e-12);
    assert_eq!((fit.worst, fit.freedoms), (1, 3));
    // Sum of squares 0.132: 0.1² + 0.24² + 0.22² + 0.12² + 0.04².
    assert!((fit.rms_mm - (0.132_f64 / 5.0).sqrt()).abs() < 1e-12);
    // u = 0.3 throughout: u / √5 at the middle, u / √Sxx of the slope.
    assert!((fit.offset_error_mm - 0.3 / 5.0_f64.sqrt()).abs() < 1e-7);
    assert!((fit.slope_error - 0.3 / 2.5e6_f64.sqrt()).abs() < 1e-9);
    // Place at nought and slope vary together: u² / 5 + 1000² u² / Sxx, -1000 u² / Sxx, u² / Sxx.
    let by_hand = [0.018 + 0.036, -3.6e-5, 3.6e-8];
    for (own, by_hand) in fit.covariance_at_zero().into_iter().zip(by_hand) {
        assert!((own / by_hand - 1.0).abs() < 1e-5, "{own} {by_hand}");
    }
    // All of it within the tape's error: nothing says that these holes wander.
    assert_eq!(fit.wander_mm, Some(0.0));
    assert!(fit.departures.iter().all(|d| !d.stray));
}

// Arithmetic: usable length 2438.4 − 2 × 12.7 = 2413.0 mm; 2413 / 31.75 = 76 spaces, 77 holes.
#[test]
fn a_sheet_of_eight_feet() {
    let ends = vec![hole(0.0, 0.0), hole(2413.0, 0.0)];
    let sheet = HoleLine { pitch_mm: 31.75, pitches_mm: (25.4, 31.75), ..line(ends, 2413.0) };
    let plan = sheet.plan(EVEN).unwrap();
    assert_eq!((plan.holes.len(), plan.cost.new_holes), (77, 75));
    assert!(plan.spaces_mm().all(|mm| (mm - 31.75).abs() < 1e-9));
}

#[test]
fn spoilt_holes_do_not_bend_the_line() {
    let straight = |i: usize| hole(100.0 * i as f64, 0.01 * i as f64);
    let sound = line((0..12).map(straight).collect(), 1100.0);
    let mut holes = sound.holes.clone();
    holes[5] = OldHole { off_mm: 9.0, spoilt: true, ..holes[5] };
    let fit = HoleLine { holes: holes.clone(), ..sound.clone() }.fit().unwrap();
    assert!((fit.slope - 1e-4).abs() < 1e-12 && fit.peak_mm < 1e-9);
    assert!((fit.departures[5].off_line_mm - 8.95).abs() < 1e-9 && !fit.departures[5].stray);
    // The same hole not marked is found.
    holes[5].spoilt = false;
    let fit = HoleLine { holes, ..sound }.fit().unwrap();
    let strays: Vec<usize> = fit.departures.iter().enumerate().filter(|(_, d)| d.stray).map(|(i, _)| i).collect();
    assert_eq!((strays, fit.worst), (vec![5], 5));
}

#[test]
fn an_edge_is_kept_with_the_error() {
    let edge = Edge { off_mm: 13.0, error_mm: 0.4, least_mm: 10.0 };
    // 0.3 and 0.4 make 0.5: as measured 10.82 mm, less 1.645 × 0.5 leaves 9.998 mm; a hair further in it holds.
    let holes = |off_mm| vec![hole(0.0, 0.0), hole(100.0, off_mm), hole(200.0, 0.0)];
    let near = HoleLine { edge: Some(edge), pitches_mm: (90.0, 130.0), ..line(holes(2.18), 200.0) };
    let fit = near.fit().unwrap();
    assert_eq!(fit.nearest_edge, Some(1));
    assert!((fit.departures[1].edge.unwrap().least_mm() - (10.82 - ONE_SIDED_95 * 0.5)).abs() < 1e-12);
    let plan = near.plan(EVEN);
    // A new hole beside the old one has no room.
    let problems = plan.unwrap_err();
    assert!(problems[0].to_string().contains("holes[1]"), "{}", problems[0]);
    let plan = HoleLine { holes: holes(2.17), ..near }.plan(EVEN).unwrap();
    assert_eq!(plan.fates, [Fate::Used; 3]);
}

#[test]
fn the_planner_chooses_between_few_holes_and_an_even_line() {
    let off = [0.0, 3.0, -2.0, 4.0, -3.0, 2.0, 0.0];
    let along = [0.0, 115.0, 190.0, 318.0, 395.0, 512.0, 600.0];
    let wandering = line(along.iter().zip(off).map(|(&x, y)| hole(x, y)).collect(), 600.0);
    let thrifty = wandering.plan(trade(100.0, 1.0)).unwrap();
    let fair = wandering.plan(trade(5.0, 0.1)).unwrap();
    assert_eq!((thrifty.cost.new_holes, thrifty.cost.plugs), (0, 0));
    // All old holes: spaces of 115, 75, 128, 77, 117 and 88 mm against 100, by hand; jumps are off the fitted line.
    let rms = |sum: f64| (sum / 6.0).sqrt();
    assert!((thrifty.pitch_rms_mm() - rms(225.0 + 625.0 + 784.0 + 529.0 + 289.0 + 144.0)).abs() < 1e-9);
    assert!((thrifty.jump_rms_mm() - rms(thrifty.jumps_mm().map(|mm| mm * mm).sum())).abs() < 1e-9);
    assert!(fair.cost.new_holes + fair.cost.plugs > 0);
    assert!(fair.cost.pitch_mm2 + fair.cost.jumps_mm2 < thrifty.cost.pitch_mm2 + thrifty.cost.jumps_mm2);
}

#[test]
fn covered_metal_asks_for_no_plugs() {
    let holes = vec![hole(0.0, 0.0), hole(70.0, 1.0), hole(200.0, 0.0)];
    let covered = HoleLine { old_metal: OldMetal::Covered, ..line(holes, 200.0) };
    let plan = covered.plan(trade(5.0, 50.0)).unwrap();
    assert_eq!(plan.fates, [Fate::Used, Fate::Covered, Fate::Used]);
    assert_eq!((plan.cost.new_holes, plan.cost.plugs), (1, 0));
}

#[rstest]
#[case::wide(60.0, (50.0, 55.0), "most_pitch", "1 space of 60.0 mm: 5.00 mm over")]
#[case::narrow(60.0, (65.0, 70.0), "to", "smallest pitch")]
#[case::between(100.0, (52.0, 95.0), "least_pitch", "2 spaces of 50.0 mm: 2.00 mm under")]
fn a_gap_that_no_pitch_serves(
    #[case] to_mm: f64,
    #[case] pitches_mm: (f64, f64),
    #[case] field: &str,
    #[case] words: &str,
) {
    let pitch_mm = pitches_mm.0;
    let ends =
        HoleLine { pitch_mm, pitches_mm, end_play_mm: 0.0, ..line(vec![hole(0.0, 0.0), hole(to_mm, 0.0)], to_mm) };
    let problems = ends.plan(EVEN).unwrap_err();
    assert_eq!(problems[0].path(), field, "{}", problems[0]);
    assert!(problems[0].to_string().contains(words), "{}", problems[0]);
}

#[test]
fn broken_lines_are_refused_field_by_field() {
    let good = line(vec![hole(0.0, 0.0), hole(100.0, 0.0), hole(200.0, 0.0)], 200.0);
    let paths = |line: &HoleLine| -> Vec<String> {
        line.fit().unwrap_err().iter().map(Problem::path).map(str::to_owned).collect()
    };
    let with = |change: &dyn Fn(&mut HoleLine)| {
        let mut line = good.clone();
        change(&mut line);
        paths(&line)
    };
    assert_eq!(with(&|l| l.holes.truncate(1)), ["holes"]);
    assert_eq!(with(&|l| l.holes.iter_mut().for_each(|h| h.spoilt = true)), ["holes"]);
    assert_eq!(with(&|l| l.holes.swap(0, 1)), ["holes[1].along"]);
    assert_eq!(with(&|l| l.holes[1].along_mm = 0.0), ["holes[1].along"]);
    assert_eq!(
        with(&|l| {
            l.holes[1].off_mm = f64::NAN;
            l.off_error_mm = 0.0;
            l.stretch_mm.1 = f64::INFINITY;
        }),
        ["holes[1].off", "off_error", "to"]
    );
    assert_eq!(with(&|l| l.pitches_mm = (100.0, 50.0)), ["most_pitch"]);
    assert_eq!(with(&|l| l.pitch_mm = 200.0), ["pitch"]);
    assert_eq!(with(&|l| l.clearance_mm = 40.0), ["least_pitch"]);
    assert_eq!(with(&|l| l.end_play_mm = 45.0), ["end_play"]);
    assert_eq!(with(&|l| l.stretch_mm = (190.0, 200.0)), ["to"]);
    assert_eq!(with(&|l| l.holes[2].off_mm = 60.0), ["holes"]);
    let trade = Trade { jump_worth_mm: 2e3, ..trade(0.0, -1.0) };
    let problems = good.plan(trade).unwrap_err();
    assert_eq!(problems.iter().map(Problem::path).collect::<Vec<_>>(), ["spacing_worth", "jump_worth", "plug_worth"]);
}

/// Cost of one chain: every old hole that is in it, how many spaces follow each, all by the definitions; none where it
/// breaks a rule. Nothing of the library's choice is used but the fitted line.
fn cost_of(line: &HoleLine, chain: &[(f64, Option<usize>)], trade: Trade) -> Option<f64> {
    let fit = line.fit().unwrap();
    let off_line =
        |at: (f64, Option<usize>)| at.1.map_or(0.0, |i| line.holes[i].off_mm - fit.at_mm(line.holes[i].along_mm));
    let (low, high) = line.pitches_mm;
    let mut cost = 0.0;
    for pair in chain.windows(2) {
        let pitch = pair[1].0 - pair[0].0;
        if pitch < low - 1e-7 || pitch > high + 1e-7 {
            return None;
        }
        let jump = off_line(pair[1]) - off_line(pair[0]);
        cost += ((pitch - line.pitch_mm) / trade.spacing_worth_mm).powi(2) + (jump / trade.jump_worth_mm).powi(2);
    }
    let used = |i: usize| chain.iter().any(|(_, old)| *old == Some(i));
    for &(x, old) in chain {
        let (off, error) = match old {
            Some(i) => (line.holes[i].off_mm, line.off_error_mm(&line.holes[i])),
            None => (fit.at_mm(x), fit.error_at_mm(x)),
        };
        if let Some(edge) = line.edge
            && edge.off_mm - off - ONE_SIDED_95 * error.hypot(edge.error_mm) < edge.least_mm - 1e-7
        {
            return None;
        }
        if old.is_none() {
            cost += 1.0;
            for (i, h) in line.holes.iter().enumerate() {
                let apart = (x - h.along_mm).hypot(h.off_mm - fit.at_mm(h.along_mm));
                let needs =
                    line.hole_mm + line.clearance_mm + ONE_SIDED_95 * line.along_error_mm.max(line.off_error_mm(h));
                if !used(i) && apart < needs - 1e-7 {
                    return None;
                }
            }
        }
    }
    let (from, to) = (line.stretch_mm.0 - line.end_play_mm, line.stretch_mm.1 + line.end_play_mm);
    if line.old_metal == OldMetal::Stays {
        let inside = |h: &OldHole| h.along_mm >= from - 1e-9 && h.along_mm <= to + 1e-9;
        let plugs = line.holes.iter().enumerate().filter(|(i, h)| inside(h) && !used(*i)).count();
        cost += plugs as f64 * trade.plug_worth;
    }
    Some(cost)
}

/// The cheapest of every chain there is: every set of old holes, every number of spaces in every gap.
fn cheapest(line: &HoleLine, trade: Trade) -> Option<f64> {
    let (from, to) = line.stretch_mm;
    let play = line.end_play_mm + 1e-9;
    let n = line.holes.len();
    let mut least: Option<f64> = None;
    for set in 0..1_u32 << n {
        let chosen: Vec<(f64, Option<usize>)> =
            (0..n).filter(|i| set & (1 << i) != 0).map(|i| (line.holes[i].along_mm, Some(i))).collect();
        if chosen.iter().any(|&(x, i)| line.holes[i.unwrap()].spoilt || x < from - play || x > to + play) {
            continue;
        }
        for (new_from, new_to) in [(false, false), (true, false), (false, true), (true, true)] {
            let mut fixed = chosen.clone();
            if new_from {
                fixed.insert(0, (from, None));
            }
            if new_to {
                fixed.push((to, None));
            }
            let (Some(first), Some(last)) = (fixed.first(), fixed.last()) else { continue };
            if fixed.len() < 2 || (first.0 - from).abs() > play || (last.0 - to).abs() > play {
                continue;
            }
            let counts = |pair: &[(f64, Option<usize>)]| {
                let gap = pair[1].0 - pair[0].0;
                (1..=40_usize).filter(move |k| {
                    let pitch = gap / *k as f64;
                    pitch >= line.pitches_mm.0 - 1e-7 && pitch <= line.pitches_mm.1 + 1e-7
                })
            };
            let mut chains: Vec<Vec<(f64, Option<usize>)>> = vec![vec![fixed[0]]];
            for pair in fixed.windows(2) {
                let grown = chains.iter().flat_map(|chain| {
                    counts(pair).map(move |k| {
                        let step = (pair[1].0 - pair[0].0) / k as f64;
                        let mut chain = chain.clone();
                        chain.extend((1..k).map(|m| (pair[0].0 + m as f64 * step, None)));
                        chain.push(pair[1]);
                        chain
                    })
                });
                chains = grown.collect();
            }
            for chain in chains {
                if let Some(cost) = cost_of(line, &chain, trade) {
                    least = Some(least.map_or(cost, |known: f64| known.min(cost)));
                }
            }
        }
    }
    least
}

prop_compose! {
    fn small_line()(
        steps in prop::collection::vec((18.0..110.0_f64, -2.5..2.5_f64, prop::bool::weighted(0.15)), 2..7),
        start in -8.0..8.0_f64,
        (low, room, share) in (22.0..60.0_f64, 1.0..60.0_f64, 0.0..1.0_f64),
        (clearance, play, over) in (0.0..10.0_f64, 0.0..12.0_f64, -12.0..60.0_f64),
        edge in prop::option::of(8.0..14.0_f64),
        (spacing_worth_mm, jump_worth_mm, plug_worth) in (0.3..60.0_f64, 0.1..20.0_f64, 0.0..3.0_f64),
        covered in any::<bool>(),
    ) -> (HoleLine, Trade) {
        let mut along_mm = start - steps[0].0;
        let mut holes: Vec<OldHole> = Vec::new();
        for &(step, off_mm, spoilt) in &steps {
            along_mm += step;
            holes.push(OldHole { spoilt, ..hole(along_mm, off_mm) });
        }
        // Two holes are always sound.
        let last = holes.len() - 1;
        (holes[0].spoilt, holes[last].spoilt) = (false, false);
        let line = HoleLine {
            holes,
            along_error_mm: 0.3,
            off_error_mm: 0.2,
            old_metal: if covered { OldMetal::Covered } else { OldMetal::Stays },
            edge: edge.map(|off_mm| Edge { off_mm, error_mm: 0.2, least_mm: 8.0 }),
            stretch_mm: (0.0, along_mm + over),
            end_play_mm: play,
            pitch_mm: low + share * room,
            pitches_mm: (low, low + room),
            clearance_mm: clearance,
            hole_mm: 5.0,
        };
        (line, Trade { spacing_worth_mm, jump_worth_mm, plug_worth })
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn no_line_is_cheaper_than_the_plan((line, trade) in small_line()) {
        prop_assume!(line.fit().is_ok());
        match (line.plan(trade), cheapest(&line, trade)) {
            (Ok(plan), Some(least)) => {
                prop_assert!((plan.cost.total - least).abs() <= 1e-6 * least.max(1.0), "{} {least}", plan.cost.total);
                // The plan is the line that it says it is.
                let chain: Vec<(f64, Option<usize>)> = plan.holes.iter().map(|h| (h.along_mm, h.old)).collect();
                let cost = cost_of(&line, &chain, trade).unwrap();
                prop_assert!((plan.cost.total - cost).abs() <= 1e-6 * cost.max(1.0));
            }
            (Err(problems), None) => prop_assert!(problems.iter().all(|p| p.value().is_some())),
            (plan, least) => prop_assert!(false, "{:?} {least:?}", plan.map(|p| p.cost)),
        }
    }

    #[test]
    fn a_dearer_hole_never_makes_more_of_them((line, trade) in small_line()) {
        prop_assume!(line.fit().is_ok());
        let dearer = Trade {
            spacing_worth_mm: 3.0 * trade.spacing_worth_mm,
            jump_worth_mm: 3.0 * trade.jump_worth_mm,
            ..trade
        };
        if let (Ok(cheap), Ok(dear)) = (line.plan(trade), line.plan(dearer)) {
            let patches = |c: &raisedbody::mechanics::hole_line::Cost| {
                c.new_holes as f64 + if line.old_metal == OldMetal::Stays { trade.plug_worth } else { 0.0 } * c.plugs as f64
            };
            prop_assert!(patches(&dear.cost) <= patches(&cheap.cost) + 1e-9);
            let uneven = |c: &raisedbody::mechanics::hole_line::Cost| {
                c.pitch_mm2 / trade.spacing_worth_mm.powi(2) + c.jumps_mm2 / trade.jump_worth_mm.powi(2)
            };
            prop_assert!(uneven(&dear.cost) >= uneven(&cheap.cost) - 1e-9);
        }
    }

    #[test]
    fn a_jig_never_rounds_by_more_than_half(
        gaps in prop::collection::vec((100.0..900.0_f64, 2..12_usize), 1..12),
        tolerance_mm in 0.0..5.0_f64,
    ) {
        let gaps: Vec<Gap> = gaps.iter().map(|&(mm, n)| even_gap("line".to_owned(), 0.0, mm, n)).collect();
        let jigs = jigs(&gaps, tolerance_mm).unwrap();
        let mut served: Vec<usize> = jigs.iter().flat_map(|j| j.gaps.iter().map(|g| g.gap)).collect();
        served.sort_unstable();
        prop_assert_eq!(served, (0..gaps.len()).collect::<Vec<_>>());
        for jig in &jigs {
            prop_assert!(jig.inch_error_mm() <= 25.4 / 128.0 + 1e-9 && jig.metric_error_mm() <= 0.05 + 1e-9);
            prop_assert!(jig.gaps.iter().all(|g| g.departure_mm <= tolerance_mm + 1e-6));
            prop_assert!(jig.gaps.iter().all(|g| gaps[g.gap].inner_mm.len() + 1 == jig.spaces()));
        }
        // No fewer would do: within one number of spaces, lengths spread over more than two tolerances need another.
        for n in 2..12 {
            let mut lengths: Vec<f64> =
                gaps.iter().filter(|g| g.inner_mm.len() + 1 == n).map(|g| g.length_mm).collect();
            lengths.sort_by(f64::total_cmp);
            let mut needed = 0;
            let mut reach = f64::NEG_INFINITY;
            for mm in lengths {
                if mm > reach {
                    needed += 1;
                    reach = mm + 2.0 * tolerance_mm + 1e-9;
                }
            }
            prop_assert_eq!(jigs.iter().filter(|j| j.spaces() == n).count(), needed);
        }
    }
}

// Arithmetic: 28 in in 7 spaces is 4 in each; in 6 it is 4 2/3 in, nearest 4-43/64, which stepped off is 6/192 in over.
#[test]
fn places_are_rounded_each_from_the_true_one() {
    let gap = |spaces| even_gap("top".to_owned(), 0.0, 711.2, spaces);
    let jigs = jigs(&[gap(7), gap(6)], 0.5).unwrap();
    assert_eq!(jigs.iter().map(|j| j.spaces()).collect::<Vec<_>>(), [6, 7]);
    let sixty_fourths: Vec<i64> = jigs[0].places.iter().map(|p| p.sixty_fourths).collect();
    assert_eq!(sixty_fourths, [0, 299, 597, 896, 1195, 1493, 1792]);
    // 298 2/3 sixty-fourths round by a third of one.
    assert!((jigs[0].inch_error_mm() - 25.4 / 192.0).abs() < 1e-9);
    assert!((jigs[0].stepped_error_mm() - 6.0 * 25.4 / 192.0).abs() < 1e-9);
    assert!(jigs[1].inch_error_mm() < 1e-9);
    let tenths: Vec<i64> = jigs[0].places.iter().map(|p| p.tenths).collect();
    assert_eq!(tenths, [0, 1185, 2371, 3556, 4741, 5927, 7112]);
}

#[test]
fn jigs_refuse_what_is_no_gap() {
    let gap = |length_mm, spaces| even_gap("top".to_owned(), 0.0, length_mm, spaces);
    let mut crossed = gap(300.0, 3);
    crossed.inner_mm.reverse();
    let problems = jigs(&[gap(f64::NAN, 3), gap(300.0, 1), crossed], -1.0).unwrap_err();
    let paths: Vec<&str> = problems.iter().map(Problem::path).collect();
    assert_eq!(paths, ["tolerance", "gaps[0].length", "gaps[0].inner", "gaps[1].spaces", "gaps[2].inner"]);
    assert_eq!(jigs(&[], 1.0).unwrap(), []);
    assert_eq!(gaps_between("top", &[0.0, 100.0, 200.0], &[0.0, 50.0, 100.0, 200.0]).len(), 1);
}

// Common practice, no source: an 1/8 in cobalt bit makes 150 to 400 holes in 18 ga and 50 to 150 in hardened ribs.
#[test]
fn bits_by_the_habit_of_the_trade() {
    let catalogue = Catalogue::standard().unwrap();
    let sheet = catalogue.bit_life(DrilledPart::Sheet, 3.175, 1.31).unwrap();
    let rib = catalogue.bit_life(DrilledPart::Rib, 3.175, 1.5).unwrap();
    assert_eq!((sheet.holes_least, sheet.holes_most, rib.holes_least, rib.holes_most), (150, 400, 50, 150));
    assert_eq!(bits(&[(600, sheet)]), (2, 4));
    // 300 holes through both: 300/400 + 300/150 = 2.75, 300/150 + 300/50 = 8.
    assert_eq!(bits(&[(300, sheet), (300, rib)]), (3, 8));
    assert_eq!(bits(&[]), (0, 0));
    // Of thicker sheet and other bits nothing is known.
    assert!(catalogue.bit_life(DrilledPart::Sheet, 3.175, 1.6).is_none());
    assert!(catalogue.bit_life(DrilledPart::Rib, 6.35, 1.5).is_none());
}
