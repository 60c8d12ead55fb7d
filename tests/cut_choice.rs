//! Cuts to choose from: against every cut of small bodies tried one by one, against the plan's own evaluation, and reasons.

use std::collections::BTreeSet;

use raisedbody::body::cuts::{Cut, Figures, Place, Reason, candidates, rank};
use raisedbody::body::features::{Feature, FeatureKind, cut_problems};
use raisedbody::body::outline::{CrossSection, Outline};
use raisedbody::body::raise::{Ends, Raise};
use raisedbody::body::survey::{Heights, Survey};
use raisedbody::check::Verdict;
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

const RUN_MM: f64 = 500.0;

fn survey(windows: u32, features: Vec<Feature>) -> Survey {
    let heights = Heights {
        floor_mm: 900.0,
        rub_rail_mm: Some(1400.0),
        window_bottom_mm: 1600.0,
        window_top_mm: 2200.0,
        drip_rail_mm: 2450.0,
        crown_mm: 2800.0,
        overall_mm: 2850.0,
    };
    let side = Outline::from_heights(1200.0, &heights, 0.0);
    Survey {
        factory_seams: None,
        length_mm: 900.0 + 700.0 * f64::from(windows),
        width_mm: 2400.0,
        posts_mm: (0..=windows).map(|i| 450.0 + 700.0 * f64::from(i)).collect(),
        heights,
        inside_height_mm: 1800.0,
        leans: Some([0.0; 2]),
        section: CrossSection { left: side.clone(), right: side },
        features,
    }
}

fn own(windows: usize, kept: &[usize], overlap_mm: f64) -> Raise {
    Raise {
        height_mm: 300.0,
        cut_mm: 1900.0,
        first_post: 0,
        last_post: windows,
        ends: Ends::WholeRoof,
        overlap_mm,
        floor_build_up_mm: 0.0,
        ceiling_build_up_mm: 0.0,
        window_kept: (0..windows).map(|w| kept.contains(&w)).collect(),
    }
}

fn feature(kind: FeatureKind, (bottom_mm, top_mm): (f64, f64), (rear_mm, front_mm): (f64, f64)) -> Feature {
    Feature { name: kind.words().to_owned(), kind, side: None, bottom_mm, top_mm, rear_mm, front_mm }
}

/// Extent of a raise, to compare by.
fn key(raise: &Raise) -> (usize, usize, String) {
    (raise.first_post, raise.last_post, format!("{:?}", raise.ends))
}

/// Everything that stands against one cut, thought out anew without the bands: the library's own refusals, lines that are not to
/// be cut, caps, slopes.
fn possible(survey: &Survey, raise: &Raise) -> bool {
    let h = &survey.heights;
    let on_a_line = [h.window_bottom_mm, h.window_top_mm, h.drip_rail_mm].contains(&raise.cut_mm);
    let refused = !raise.problems(survey).is_empty() || !cut_problems(&survey.features, survey, raise).is_empty();
    if on_a_line || refused {
        return false;
    }
    let run = if let Ends::Sloped { run_mm } = raise.ends { run_mm } else { 0.0 };
    let (rear, front) = (survey.posts_mm[raise.first_post], survey.posts_mm[raise.last_post]);
    let partial = raise.ends != Ends::WholeRoof;
    let (rear, front) = if partial { (rear, front) } else { (0.0, survey.length_mm) };
    let over = |f: &Feature, by: f64| f.rear_mm < front + by && rear - by < f.front_mm;
    let cuts = |f: &Feature| f.bottom_mm < raise.cut_mm && raise.cut_mm < f.top_mm;
    let bad = |f: &Feature| match f.kind {
        FeatureKind::EndCap => partial && over(f, run),
        FeatureKind::DripRail | FeatureKind::RubRail => over(f, 0.0) && cuts(f),
        FeatureKind::Window => [rear, front].iter().any(|x| f.rear_mm < *x && *x < f.front_mm) && cuts(f),
        _ => false,
    };
    let room = !partial || (rear - run >= 0.0 && front + run <= survey.length_mm);
    room && !survey.features.iter().any(bad)
}

fn bodies() -> Vec<(Survey, Raise)> {
    let door = feature(FeatureKind::Door, (600.0, 2050.0), (2300.0, 3000.0));
    let cap = feature(FeatureKind::EndCap, (900.0, 2800.0), (0.0, 400.0));
    let long_cap = feature(FeatureKind::EndCap, (900.0, 2800.0), (0.0, 1200.0));
    let rail = feature(FeatureKind::DripRail, (2300.0, 2460.0), (0.0, 3700.0));
    let window = feature(FeatureKind::Window, (1700.0, 2150.0), (1000.0, 1300.0));
    vec![
        (survey(2, vec![]), own(2, &[], 75.0)),
        (survey(4, vec![]), own(4, &[1], 75.0)),
        (survey(4, vec![]), own(4, &[], 260.0)),
        (survey(4, vec![]), own(4, &[], 430.0)),
        (survey(4, vec![]), own(4, &[0, 3], 300.0)),
        (survey(4, vec![door, cap]), own(4, &[2], 50.0)),
        (survey(4, vec![long_cap, rail]), own(4, &[], 100.0)),
        (survey(4, vec![window]), own(4, &[], 60.0)),
    ]
}

/// Each band's verdict against every height in it, 5 mm apart: possible where any height is, and each height within the stretch
/// that is named.
#[test]
fn every_height_and_extent_tried_one_by_one() {
    for (body, (survey, own)) in bodies().into_iter().enumerate() {
        let cuts = candidates(&survey, &own, RUN_MM, 0.0);
        let mut tried = 0;
        for cut in &cuts {
            let h = &survey.heights;
            let (low, high) = match cut.place {
                Place::Windows => (h.window_bottom_mm, h.window_top_mm),
                Place::AboveWindows => (h.window_top_mm, h.drip_rail_mm),
                _ => {
                    assert!(!cut.reasons.is_empty(), "{cut:?}");
                    continue;
                }
            };
            let at = |z: f64| possible(&survey, &Raise { cut_mm: z, ..cut.raise.clone() });
            let steps = ((high - low) / 5.0) as usize;
            let any = (1..steps).any(|i| at(low + 5.0 * i as f64));
            assert_eq!(any, cut.reasons.is_empty(), "body {body}: {cut:?}");
            assert_eq!(cut.allowed_mm.is_some(), cut.reasons.is_empty());
            if let Some((from, to)) = cut.allowed_mm {
                assert!(at(cut.raise.cut_mm), "body {body}: {cut:?}");
                for i in 1..40 {
                    assert!(at(from + (to - from) * f64::from(i) / 40.0), "body {body}: {cut:?}");
                }
            }
            tried += 1;
        }
        let posts = survey.posts_mm.len();
        assert_eq!(tried, 2 * (1 + posts * (posts - 1)));
        assert_eq!(cuts.iter().filter(|cut| cut.own).count(), 1, "body {body}");
    }
}

#[test]
fn all_reasons_are_told() {
    let (survey, own) =
        (survey(4, vec![feature(FeatureKind::EndCap, (900.0, 2800.0), (0.0, 1200.0))]), own(4, &[0], 260.0));
    let cuts = candidates(&survey, &own, RUN_MM, 0.0);
    let find = |first: usize, place: Place| {
        let sloped = Ends::Sloped { run_mm: RUN_MM };
        cuts.iter()
            .find(|c| c.raise.ends == sloped && (c.raise.first_post, c.raise.last_post, c.place) == (first, 4, place))
            .unwrap()
    };
    let kinds = |cut: &Cut| cut.reasons.iter().map(Reason::kind).collect::<Vec<_>>();
    let through = find(0, Place::Windows);
    let all = kinds(through);
    for kind in ["end cap in the way", "slope beyond the body", "kept window in the way", "stub below too short"] {
        assert!(all.contains(&kind), "{all:?}");
    }
    assert!(kinds(find(0, Place::AboveWindows)).contains(&"stub above too short"));
    assert!(kinds(find(2, Place::Header)).contains(&"header cut"));
    assert!(kinds(find(2, Place::DripRail)).contains(&"rail cut"));
    let words: Vec<String> = through.reasons.iter().map(ToString::to_string).collect();
    assert!(words.iter().any(|w| w.contains("window 1, which is kept")), "{words:?}");
    assert!(words.iter().any(|w| w.contains("50 mm beyond")), "{words:?}");
}

// By hand: a header 40 mm deep leaves only cuts that pass 40 mm above the window tops, or none.
#[test]
fn a_header_is_kept_clear() {
    let (survey, own) = (survey(4, vec![]), own(4, &[], 50.0));
    let low = |header_mm: f64| {
        let cuts = candidates(&survey, &own, RUN_MM, header_mm);
        let above = cuts.iter().filter(|c| c.place == Place::AboveWindows).filter_map(|c| c.allowed_mm);
        above.map(|(low, _)| low - survey.heights.window_top_mm).reduce(f64::min)
    };
    assert_eq!((low(0.0), low(40.0), low(500.0)), (Some(0.0), Some(40.0), None));
}

/// Ranks by the stated order, worked out by counting for each cut how many come before it.
#[test]
fn ranks_and_dominance_by_counting() {
    let (survey, own) = (survey(4, vec![]), own(4, &[], 75.0));
    let mut cuts = candidates(&survey, &own, RUN_MM, 0.0);
    for (i, cut) in cuts.iter_mut().filter(|cut| cut.reasons.is_empty()).enumerate() {
        let posts = cut.raise.last_post - cut.raise.first_post + 1;
        let whole = cut.raise.ends == Ends::WholeRoof;
        cut.figures = Some(Figures {
            splices: 4 * posts,
            skin_area_m2: (i * 7 % 5) as f64,
            transitions: if whole { 0 } else { 2 },
            raised_length_mm: 700.0 * posts as f64,
            headroom_gained_mm: 300.0,
            labour_h: 40.0 + (posts * (i % 3)) as f64,
        });
    }
    rank(&mut cuts);
    let ranked: Vec<&Cut> = cuts.iter().filter(|cut| cut.rank.is_some()).collect();
    let order = |cut: &Cut| {
        let f = cut.figures.unwrap();
        let shorter = cut.stub_below_mm.min(cut.stub_above_mm);
        [f.labour_h_per_m(), f.splices as f64, f.skin_area_m2, f.transitions as f64, -shorter]
    };
    for (place, cut) in ranked.iter().enumerate() {
        assert_eq!(cut.rank, Some(place + 1));
        let before = ranked.iter().filter(|other| order(other) < order(cut)).count();
        let alike = ranked.iter().filter(|other| order(other) == order(cut)).count();
        assert!((before..before + alike).contains(&place), "{cut:?}");
        let f = cut.figures.unwrap();
        let dominators: Vec<&&Cut> = ranked.iter().filter(|other| other.figures.unwrap().dominates(&f)).collect();
        assert_eq!(cut.undominated, dominators.is_empty());
        assert!(dominators.iter().all(|other| other.rank < cut.rank), "a cut that is dominated comes later");
    }
    assert!(ranked[0].undominated);
}

fn plan(name: &str) -> Plan {
    Plan::read(format!("examples/{name}.toml")).unwrap()
}

fn figures_of(e: &Evaluation) -> (usize, f64, f64, f64) {
    // What the cuts of sheets and bars take hangs on what can be bought.
    let hours = e.tasks.iter().filter(|task| !task.name.starts_with("cut ")).map(|task| task.hours).sum();
    (e.splices.count(), e.takeoff.skin_area_m2, hours, e.raised.headroom_mm - e.survey.inside_height_mm)
}

#[rstest]
fn the_plans_own_cut_counts_as_its_evaluation(#[values("mobile_library", "workshop_bus")] name: &str) {
    let (plan, cuts) = (plan(name), plan(name).cuts().unwrap());
    let evaluation = plan.evaluate().unwrap();
    let own = cuts.own().unwrap();
    assert_eq!(own.raise, evaluation.raise);
    let f = own.figures.unwrap();
    assert_eq!((f.splices, f.skin_area_m2, f.labour_h, f.headroom_gained_mm), figures_of(&evaluation));
    assert!(own.rank.is_some());
}

#[rstest]
fn each_cut_taken_over_counts_as_it_said(#[values("mobile_library", "workshop_bus")] name: &str) {
    let (plan, cuts) = (plan(name), plan(name).cuts().unwrap());
    for cut in cuts.ranked().step_by(7) {
        let other = plan.with_cut(cut).unwrap();
        let evaluation = other.evaluate().unwrap();
        assert_eq!(key(&evaluation.raise), key(&cut.raise));
        let f = cut.figures.unwrap();
        assert_eq!((f.splices, f.skin_area_m2, f.labour_h, f.headroom_gained_mm), figures_of(&evaluation));
        assert!((evaluation.raise.cut_mm - cut.raise.cut_mm).abs() < 1e-9);
        // Whichever is its own, the same cuts are there to choose from.
        let again = other.cuts().unwrap();
        assert!(again.own().is_some_and(|own| own.rank.is_some()), "{cut:?}");
    }
}

#[test]
fn a_cut_turned_down_is_not_taken_over() {
    let plan = plan("mobile_library");
    let cuts = plan.cuts().unwrap();
    let header = cuts.all.iter().find(|cut| cut.place == Place::Header).unwrap();
    let error = plan.with_cut(header).unwrap_err().to_string();
    assert!(error.contains("raise.cut") && error.contains("header"), "{error}");
}

#[test]
fn kinds_of_reasons_are_counted_once_a_cut() {
    let cuts = plan("workshop_bus").cuts().unwrap();
    let turned_down = cuts.all.iter().filter(|cut| cut.rank.is_none()).count();
    let counts = cuts.turned_down();
    assert!(counts.values().all(|n| *n <= turned_down && *n > 0));
    let kinds: BTreeSet<&str> = cuts.all.iter().flat_map(|c| c.reasons.iter().map(Reason::kind)).collect();
    assert_eq!(counts.keys().copied().collect::<BTreeSet<_>>(), kinds);
    assert!(cuts.all.iter().all(|cut| cut.rank.is_some() == cut.reasons.is_empty()));
}

#[test]
fn the_best_cut_is_a_plan_without_a_failing_splice() {
    let plan = plan("mobile_library");
    let cuts = plan.cuts().unwrap();
    let best = plan.with_cut(cuts.ranked().next().unwrap()).unwrap().evaluate().unwrap();
    assert!(best.checks.iter().filter(|c| c.name.starts_with("splice")).all(|c| c.verdict == Verdict::Passes));
}
