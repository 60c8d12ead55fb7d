//! Laps to a hanging order: laws by proptest, the shortest loop against brute force.

use std::collections::BTreeSet;

use proptest::prelude::*;
use raisedbody::shop::order::{LapGraph, Over, in_order};
use rstest::rstest;

fn lap(over: &str, under: &str) -> Over {
    Over { over: over.to_owned(), under: under.to_owned() }
}

fn names(things: &[&str]) -> Vec<String> {
    things.iter().map(|&name| name.to_owned()).collect()
}

#[test]
fn the_under_sheet_hangs_first_and_rows_run_forward() {
    // Two rows of three from the rear: forward over rearward, the upper row over the lower.
    let laps = [
        lap("A2", "A1"),
        lap("A3", "A2"),
        lap("B2", "B1"),
        lap("B3", "B2"),
        lap("A1", "B1"),
        lap("A2", "B2"),
        lap("A3", "B3"),
    ];
    let graph = LapGraph::new(&names(&["A1", "A2", "A3", "B1", "B2", "B3"]), &laps).unwrap();
    let order = graph.order().unwrap();
    let told: Vec<&str> = order.iter().map(|hung| hung.name.as_str()).collect();
    assert_eq!(told, ["B1", "A1", "B2", "A2", "B3", "A3"]);
    assert_eq!(order[3].after, ["A1", "B2"]);
    assert!(order[0].after.is_empty());
}

#[rstest]
#[case(&[("A", "B"), ("B", "C"), ("C", "A")], "A laps over B, B over C, C over A")]
// A longer way round is not told where a shorter one is there.
#[case(&[("A", "B"), ("B", "C"), ("C", "D"), ("D", "A"), ("C", "B")], "B laps over C, C over B")]
#[case(&[("A", "A"), ("A", "B"), ("B", "A")], "A laps over itself")]
fn a_loop_is_told_in_words(#[case] laps: &[(&str, &str)], #[case] words: &str) {
    let laps: Vec<Over> = laps.iter().map(|(over, under)| lap(over, under)).collect();
    let found = LapGraph::new(&[], &laps).unwrap().order().unwrap_err();
    assert_eq!(found.words(), words);
    assert!(found.problem("laps").to_string().starts_with(&format!("laps: {words}: ")));
}

#[test]
fn names_are_there_and_only_once() {
    let problems = LapGraph::new(&names(&["A", " ", "A"]), &[lap("", "A")]).unwrap_err();
    let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert_eq!(told.len(), 3, "{told:?}");
    assert!(told[0].starts_with("things[1]: missing"));
    assert_eq!(told[1], "things[2]: A: this is named twice");
    assert!(told[2].starts_with("laps[0].over: missing"));
}

/// Length of the shortest loop, found by walking every path.
fn shortest(count: usize, pairs: &[(usize, usize)]) -> Option<usize> {
    fn walk(path: &mut Vec<usize>, pairs: &[(usize, usize)], best: &mut Option<usize>) {
        let (first, last) = (path[0], *path.last().unwrap());
        for &(from, to) in pairs {
            if from != last {
                continue;
            }
            if to == first {
                *best = Some(best.map_or(path.len(), |b| b.min(path.len())));
            } else if !path.contains(&to) {
                path.push(to);
                walk(path, pairs, best);
                path.pop();
            }
        }
    }
    let mut best = None;
    for start in 0..count {
        walk(&mut vec![start], pairs, &mut best);
    }
    best
}

proptest! {
    #[test]
    fn an_order_keeps_every_pair_and_a_loop_is_a_shortest_one(
        (count, pairs) in (1_usize..7).prop_flat_map(|n| (Just(n), prop::collection::vec((0..n, 0..n), 0..12)))
    ) {
        let found = in_order(count, &pairs, |i| i);
        let best = shortest(count, &pairs);
        match found {
            Ok(order) => {
                prop_assert_eq!(best, None);
                prop_assert_eq!(order.iter().collect::<BTreeSet<_>>().len(), count);
                let at = |thing| order.iter().position(|&o| o == thing).unwrap();
                for (first, then) in pairs {
                    prop_assert!(at(first) < at(then));
                }
            }
            Err(tied) => {
                prop_assert_eq!(Some(tied.len()), best);
                for (i, &first) in tied.iter().enumerate() {
                    prop_assert!(pairs.contains(&(first, tied[(i + 1) % tied.len()])));
                }
            }
        }
    }

    #[test]
    fn of_all_orders_it_is_the_first_by_key(
        pairs in prop::collection::vec((0_usize..5, 0_usize..5), 0..6),
        keys in prop::collection::vec(0_u8..4, 5),
    ) {
        // Of all orders that keep the pairs, the one whose keys come first when read from the left.
        if let Ok(order) = in_order(5, &pairs, |i| keys[i]) {
            let read = |order: &[usize]| order.iter().map(|&i| (keys[i], i)).collect::<Vec<_>>();
            let mut best: Option<Vec<(u8, usize)>> = None;
            crate::schedule::permutations(5, &mut |other| {
                let at = |thing| other.iter().position(|&o| o == thing).unwrap();
                if pairs.iter().all(|&(first, then)| at(first) < at(then)) {
                    let own = read(other);
                    best = Some(best.take().map_or(own.clone(), |b| b.min(own)));
                }
            });
            prop_assert_eq!(Some(read(&order)), best);
        }
    }
}
