//! Sweeps and choices against whole evaluations, brute force and what they must refuse.

use proptest::prelude::*;
use raisedbody::error::Error;
use raisedbody::plan::{Aim, Axis, HardLimit, Objective, Plan, Sweep, compare, not_beaten};
use rstest::rstest;

use crate::common::without_cutting;
use toml::Value;

/// A sweep leaves the cut list out: the plan is one without stock.
fn plan(name: &str) -> Plan {
    let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
    Plan::from_text(&without_cutting(&text), ".".as_ref()).unwrap()
}

#[test]
fn a_sweep_is_that_of_the_plan_without_its_stock() {
    let with = Plan::read("examples/mobile_library.toml").unwrap();
    assert!(with.table().contains_key("cutting") && !plan("mobile_library").table().contains_key("cutting"));
    let axes = || vec![axis("skin.gauge", &["16", "18"]), axis("prices.sheet", &["2 USD/kg", "3 USD/kg"])];
    let (one, other) = (sweep(&with, axes()), sweep(&plan("mobile_library"), axes()));
    for row in 0..one.len() {
        assert_eq!(one.row(row), other.row(row));
    }
}

fn axis(path: &str, values: &[&str]) -> Axis {
    Axis::new(path, values.iter().map(|v| v.parse::<i64>().map_or_else(|_| Value::from(*v), Value::from)).collect())
        .unwrap()
}

/// One value that changes gauge and coating together.
fn bundle(gauge: i64, coating: &str) -> Axis {
    let entries = [("gauge".to_owned(), gauge.into()), ("coating".to_owned(), coating.into())];
    Axis::new("skin", vec![Value::Table(toml::Table::from_iter(entries))]).unwrap()
}

fn sweep(plan: &Plan, axes: Vec<Axis>) -> Sweep {
    plan.sweep(axes, |_, _| Ok::<_, Error>(())).unwrap()
}

/// Axes in several parts of the plan, with values that some combinations cannot have.
fn grid() -> Vec<Axis> {
    vec![
        axis("raise.height", &["10 in", "12 in", "2 in"]),
        axis("skin.gauge", &["16", "18"]),
        axis("skin.coating", &["A40", "G90"]),
        axis("service.corrosivity.upper", &["C3", "C5"]),
        axis("fastening.pitch", &["3 in", "4 1/4 in", "1 mm"]),
    ]
}

/// Each row has the very numbers of the whole evaluation of its plan, or the words of the plan's own error.
#[rstest]
fn rows_are_those_of_whole_evaluations(#[values("mobile_library", "workshop_bus")] name: &str) {
    let swept = sweep(&plan(name), grid());
    assert_eq!(swept.len(), 72);
    let mut good = 0;
    // Every fifth, so that each value of each axis comes with several of the others.
    for row in (0..swept.len()).step_by(5) {
        match (swept.row(row).unwrap(), swept.plan(row)) {
            (Ok(values), Ok(own)) => {
                let whole = compare(&[("own", &own)]).unwrap();
                for (name, value) in swept.names().iter().zip(values) {
                    let expected = whole.metrics[0].iter().find(|m| m.name == *name).unwrap().value;
                    assert_eq!(*value, expected, "{name} in row {row}");
                }
                good += 1;
            }
            (Err(words), Err(error)) => assert_eq!(*words, error.to_string()),
            (values, plan) => panic!("row {row}: {values:?} beside {:?}", plan.map(|p| p.file().name.clone())),
        }
    }
    // A spacing of 1 mm is out of range.
    assert!(good >= 8 && swept.impossible() >= 24);
    let bad = swept.row(2).unwrap().as_ref().unwrap_err();
    assert!(bad.contains("fastening.pitch: 1 mm is out of range"), "{bad}");
}

/// Entries in every part of the plan that a number could follow from, with values of which some cannot be.
fn entries() -> Vec<Axis> {
    let list = |path: &str, text: &str| {
        let lists: toml::Table = text.parse().unwrap();
        Axis::new(path, ["one", "other"].map(|name| lists[name].clone()).to_vec()).unwrap()
    };
    let thing = "{ name = \"tank\", mass = \"90 kg\", x = \"2 m\", z = \"1 m\" }";
    vec![
        axis("vehicle.body_width", &["2.44 m", "2.40 m"]),
        axis("vehicle.axle_weights.front", &["2950 kg", "3050 kg"]),
        axis("vehicle.track", &["1.95 m", "2.05 m", "2.5 m"]),
        axis("survey.post.wall", &["0.0598 in", "0.0747 in"]),
        axis("survey.crown", &["2.90 m", "2.93 m", "2.40 m"]),
        axis("survey.drip_rail", &["2.50 m", "2.52 m"]),
        axis("raise.height", &["400 mm", "300 mm", "2 in"]),
        axis("raise.ends", &["whole roof", "stepped"]),
        axis("raise.insert.wall", &["0.0598 in", "0.0747 in"]),
        axis("skin.gauge", &["16", "18"]),
        axis("skin.coating", &["A40", "G90"]),
        axis("skin.seams", &["fewest seams", "equal sheets", "factory seams"]),
        axis("skin.lower_edge", &["window bottom", "rub rail"]),
        axis("end_caps.tape_error", &["1/32 in", "1/16 in"]),
        axis("fastening.pitch", &["3 in", "4 1/4 in", "1 mm"]),
        axis("fastening.diameter", &["1/4 in", "6 mm"]),
        axis("fastening.edge", &["5/8 in", "18 mm"]),
        axis("fastening.mandrel", &["stainless steel 304, passive", "carbon steel"]),
        axis("fastening.body", &["carbon steel", "stainless steel 304"]),
        axis("paint.edge_bead", &["3 mm", "6 mm"]),
        axis("paint.hand", &["expert", "new"]),
        list(
            "paint.inside_coats",
            "one = []\nother = [{ name = \"epoxy primer\", film = \"60 um\", solids = \"52 %\", loss = \"20 %\" }]",
        ),
        list(
            "paint.coats",
            "one = [{ name = \"enamel\", film = \"50 um\", solids = \"48 %\", dry_density = \"1500 kg/m3\" }]\nother = []",
        ),
        axis("life.horizon", &["15", "30"]),
        axis("life.ends", &["eaten through", "coating gone"]),
        axis("service.exposure", &["harsh", "normal"]),
        list(
            "service.surroundings",
            "one = [{ name = \"a\", share = \"100 %\", category = \"C4\" }]\nother = [{ name = \"b\", share = \"90 %\", \
             category = \"C2\" }]",
        ),
        list("contact", "one = []\nother = [{ name = \"lug\", a = \"copper\" }]"),
        axis("flatness.restraint.most", &["0.6", "0.8"]),
        axis("service.corrosivity.upper", &["C3", "C5"]),
        axis("service.speed", &["75 mph", "60 mph"]),
        axis("loads.shock", &["2.0", "3.0"]),
        axis("loads.restraint", &["10 %", "20 %"]),
        axis("flatness.sun", &["800 W/m2", "1000 W/m2"]),
        list("fit_out", &format!("one = []\nother = [{thing}]")),
        list("removed", &format!("one = [{thing}]\nother = []")),
        axis("shop.bar", &["20 ft", "24 ft"]),
        axis("shop.spares", &["5 %", "10 %"]),
        axis("shop.rivet_time", &["1 min", "2 min"]),
        axis("crew.people", &["2", "4"]),
        axis("crew.rivet_tools", &["1", "2"]),
        axis("prices.rivet", &["0.74 USD", "0.90 USD"]),
        axis("prices.labour", &["85 USD/h", "95 USD/h"]),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever entries are varied, in whatever order: each combination has the very numbers of the evaluation of its whole plan,
    /// or the words of that plan's own error, whichever combination was worked out before it.
    #[test]
    fn numbers_are_those_of_whole_plans(
        axes in prop::sample::subsequence(entries(), 2..=4).prop_shuffle(),
        picked in prop::collection::vec(any::<prop::sample::Index>(), 6),
    ) {
        let swept = sweep(&plan("mobile_library"), axes);
        for row in picked.iter().map(|own| own.index(swept.len())) {
            let whole = swept.plan(row).map(|own| compare(&[("own", &own)]).unwrap().metrics.swap_remove(0));
            match (swept.row(row).unwrap(), whole) {
                (Ok(values), Ok(whole)) => {
                    for (name, value) in swept.names().iter().zip(values) {
                        let expected = whole.iter().find(|m| m.name == *name).unwrap().value;
                        prop_assert_eq!(*value, expected, "{} of {:?}", name, swept.choices(row));
                    }
                }
                (Err(words), Err(error)) => prop_assert_eq!(words, &error.to_string()),
                (values, whole) => prop_assert!(false, "{:?}: {values:?} beside {whole:?}", swept.choices(row)),
            }
        }
    }

    /// The order of the entries decides only where a combination is listed.
    #[test]
    fn any_order_of_entries_comes_to_the_same(
        (axes, turned) in prop::sample::subsequence(entries(), 3)
            .prop_flat_map(|axes| (Just(axes.clone()), Just(axes).prop_shuffle())),
    ) {
        let library = plan("mobile_library");
        let (one, other) = (sweep(&library, axes), sweep(&library, turned));
        prop_assert_eq!(one.len(), other.len());
        for row in 0..one.len() {
            let choice = |swept: &Sweep, row: usize, path: &str| {
                let at = swept.axes().iter().position(|axis| axis.path() == path).unwrap();
                swept.label(row, at)
            };
            let same = |there: &usize| {
                one.axes().iter().all(|axis| choice(&one, row, axis.path()) == choice(&other, *there, axis.path()))
            };
            let there = (0..other.len()).find(same).unwrap();
            prop_assert_eq!(one.row(row), other.row(there));
        }
    }
}

#[test]
fn the_last_entry_varies_fastest() {
    let swept = sweep(
        &plan("workshop_bus"),
        vec![axis("skin.gauge", &["16", "18"]), axis("fastening.pitch", &["3 in", "4 in"])],
    );
    let labels: Vec<[String; 2]> = (0..4).map(|row| [swept.label(row, 0), swept.label(row, 1)]).collect();
    assert_eq!(labels, [["16", "3 in"], ["16", "4 in"], ["18", "3 in"], ["18", "4 in"]].map(|r| r.map(str::to_owned)));
    assert_eq!(swept.plan(1).unwrap().table()["fastening"]["pitch"].as_str(), Some("4 in"));
}

/// Many combinations in one part are read as they are needed; the numbers do not depend on that.
#[test]
fn a_bundle_changes_several_entries_at_once() {
    let together =
        Axis::new("skin", [bundle(16, "A40"), bundle(18, "G90")].map(|b| b.values()[0].clone()).to_vec()).unwrap();
    let swept = sweep(&plan("mobile_library"), vec![together]);
    let apart =
        sweep(&plan("mobile_library"), vec![axis("skin.gauge", &["16", "18"]), axis("skin.coating", &["A40", "G90"])]);
    assert_eq!(swept.row(0), apart.row(0));
    assert_eq!(swept.row(1), apart.row(3));
}

#[rstest]
#[case(vec![], "axes: missing")]
#[case(vec![axis("skin.gauge", &["16"]), axis("skin.gauge", &["18"])], "axes: skin.gauge: this changes what skin.gauge changes")]
#[case(vec![bundle(16, "A40"), axis("skin.gauge", &["18"])], "this changes what skin changes")]
#[case(vec![axis("skin.gage", &["16"])], "did you mean \"gauge\"")]
#[case(vec![axis("fastening.pitch", &["a hand"])], "fastening.pitch")]
fn what_cannot_be_swept(#[case] axes: Vec<Axis>, #[case] words: &str) {
    let error = plan("workshop_bus").sweep(axes, |_, _| Ok::<_, Error>(())).unwrap_err().to_string();
    assert!(error.contains(words), "{error}");
}

#[test]
fn more_combinations_than_there_is_room_for() {
    let many = |path: &str| {
        Axis::new(path, (0..3000).map(|i| Value::from(format!("{} mm", 50.0 + f64::from(i) / 100.0))).collect())
    };
    let axes = vec![many("fastening.pitch").unwrap(), many("fastening.edge").unwrap()];
    let error = plan("workshop_bus").sweep(axes, |_, _| Ok::<_, Error>(())).unwrap_err().to_string();
    assert!(error.contains("3000 x 3000") && error.contains("1000000"), "{error}");
}

#[rstest]
#[case("", vec![16.into()], "name an entry by its path")]
#[case("skin..gauge", vec![16.into()], "name an entry by its path")]
#[case("hole_line[0].pitch", vec!["3 in".into()], "of a list give whole lists")]
#[case("catalogue.rows", vec![16.into()], "rows of the catalogue are not varied")]
#[case("skin.gauge", vec![], "give at least one value")]
#[case("skin.gauge", vec![16.into(), 16.into()], "given twice")]
fn an_axis_that_cannot_be(#[case] path: &str, #[case] values: Vec<Value>, #[case] words: &str) {
    let error = Axis::new(path, values).unwrap_err().to_string();
    assert!(error.contains(words), "{error}");
}

/// Whoever is told how far it is can end it, with an error of their own.
#[test]
fn it_can_be_broken_off() {
    #[derive(Debug)]
    enum Ended {
        Enough(usize),
        Other(Error),
    }
    impl From<Error> for Ended {
        fn from(error: Error) -> Self {
            Self::Other(error)
        }
    }
    let pitches: Vec<Value> = (0..1500).map(|i| Value::from(format!("{} mm", 50.0 + f64::from(i) / 20.0))).collect();
    let mut told = Vec::new();
    let ended = plan("workshop_bus").sweep(vec![Axis::new("fastening.pitch", pitches).unwrap()], |done, of| {
        told.push((done, of));
        if done > 0 { Err(Ended::Enough(done)) } else { Ok(()) }
    });
    match ended.unwrap_err() {
        Ended::Enough(done) => {
            // Before the first combination too, as there are many values to read.
            let first = told.iter().take_while(|own| **own == (0, 1500)).count();
            assert!(first >= 1);
            assert_eq!(told[first..], [(done, 1500)]);
        }
        Ended::Other(error) => panic!("{error}"),
    }
}

fn wanted(least: &[&str], most: &[&str]) -> Vec<Objective> {
    let of = |names: &[&str], aim| -> Vec<Objective> {
        names.iter().map(|name| Objective { name: (*name).to_owned(), aim }).collect()
    };
    [of(least, Aim::Least), of(most, Aim::Most)].concat()
}

fn limit(name: &str, least: Option<f64>, most: Option<f64>) -> HardLimit {
    HardLimit { name: name.to_owned(), least, most }
}

/// The choice beside one made by holding every combination against every other.
#[test]
fn the_choice_is_that_of_brute_force() {
    let swept = sweep(&plan("mobile_library"), grid());
    let objectives = wanted(&["skin_mass_kg", "price_total"], &["headroom_mm", "coating_life_shortest_years"]);
    let most = limit("joint_utilisation_aisi_ratio", None, Some(1.0));
    let choice = swept.choose(objectives, vec![most]).unwrap();
    let numbers = |row: usize| -> Option<Vec<f64>> {
        let v = |name| swept.value(row, name);
        (v("joint_utilisation_aisi_ratio")? <= 1.0).then_some(())?;
        Some(vec![v("skin_mass_kg")?, v("price_total")?, -v("headroom_mm")?, -v("coating_life_shortest_years")?])
    };
    let all: Vec<(usize, Vec<f64>)> = (0..swept.len()).filter_map(|row| Some((row, numbers(row)?))).collect();
    let beats = |a: &[f64], b: &[f64]| a.iter().zip(b).all(|(a, b)| a <= b) && a != b;
    let expected: Vec<usize> =
        all.iter().filter(|(_, own)| !all.iter().any(|(_, other)| beats(other, own))).map(|(row, _)| *row).collect();
    let mut rows: Vec<usize> = choice.chosen.iter().map(|own| own.row).collect();
    rows.sort_unstable();
    assert!(rows.len() > 1 && rows.len() < all.len());
    assert_eq!(rows, expected);
    assert_eq!(choice.beaten, all.len() - rows.len());
    assert_eq!(choice.impossible, swept.impossible());
    // What is told of each option holds: who has the number better has it better, and loses in another.
    for own in &choice.chosen {
        for stop in own.stops.iter().filter(|stop| choice.objectives.iter().any(|o| o.name == stop.name)) {
            let Some(other) = stop.row else { continue };
            for told in stop.words.split(" costs ").flat_map(|part| part.split(", ")) {
                let Some((theirs, mine)) = told.split_once(" for ") else { continue };
                assert_ne!(theirs.rsplit(' ').next(), mine.split(' ').next(), "{}", stop.words);
            }
            let (mine, theirs) = (numbers(own.row).unwrap(), numbers(other).unwrap());
            let which = choice.objectives.iter().position(|o| o.name == stop.name).unwrap();
            assert!(theirs[which] < mine[which] && theirs.iter().zip(&mine).any(|(t, m)| t > m), "{}", stop.words);
        }
    }
}

/// A lighter sheet that only the limit keeps out is named with the limit.
#[test]
fn a_limit_that_stands_in_the_way_is_named() {
    let swept = sweep(&plan("workshop_bus"), vec![axis("skin.gauge", &["16", "18", "20"])]);
    let choice =
        swept.choose(wanted(&["skin_mass_kg"], &[]), vec![limit("sheet_thickness_mm", Some(1.2), None)]).unwrap();
    let [own] = &choice.chosen[..] else { panic!("{:?}", choice.chosen) };
    assert_eq!((own.row, &choice.over[..]), (1, &[1][..]));
    assert_eq!((own.stops[0].row, own.stops[1].row), (None, Some(2)));
    let words = &own.stops[1].words;
    assert!(words.starts_with("skin.gauge 20 would beat it, but for sheet_thickness_mm ≥ 1.2"), "{words}");
}

#[rstest]
#[case(wanted(&[], &[]), vec![], "1 to 8 numbers")]
#[case(wanted(&["skin_mas_kg"], &[]), vec![], "did you mean \"skin_mass_kg\"")]
#[case(wanted(&["skin_mass_kg"], &["skin_mass_kg"]), vec![], "named twice")]
#[case(wanted(&["skin_mass_kg"], &[]), vec![limit("skin_mass_kg", None, None)], "give its least or its most")]
#[case(wanted(&["skin_mass_kg"], &[]), vec![limit("skin_mass_kg", Some(2.0), Some(1.0))], "the least is above the most")]
#[case(wanted(&["skin_mass_kg"], &[]), vec![limit("skin_mass_kg", Some(f64::NAN), None)], "finite")]
#[case(wanted(&["skin_mass_kg"], &[]), vec![limit("mass", Some(1.0), None)], "unknown number \"mass\"")]
fn what_cannot_be_chosen(#[case] objectives: Vec<Objective>, #[case] limits: Vec<HardLimit>, #[case] words: &str) {
    let swept = sweep(&plan("workshop_bus"), vec![axis("skin.gauge", &["16", "18"])]);
    let error = swept.choose(objectives, limits).unwrap_err().to_string();
    assert!(error.contains(words), "{error}");
}

/// Where no combination can be, that is what is told.
#[test]
fn none_can_be() {
    let swept = sweep(&plan("workshop_bus"), vec![axis("raise.height", &["3 m", "4 m"])]);
    let choice = swept.choose(wanted(&["skin_mass_kg"], &[]), vec![]).unwrap();
    assert_eq!((choice.chosen.len(), choice.impossible), (0, 2));
}

/// What is not known is no option, and is counted.
#[test]
fn what_is_not_known_is_counted() {
    let swept = sweep(&plan("workshop_bus"), vec![axis("skin.gauge", &["16", "18"])]);
    let unknown = swept.names().iter().find(|name| swept.value(0, name).is_none()).unwrap();
    let choice = swept.choose(wanted(&[unknown], &[]), vec![]).unwrap();
    assert_eq!((choice.chosen.len(), choice.unknown), (0, 2));
    assert!(choice.row(0).unwrap_err().to_string().contains("no combination keeps every limit"));
}

proptest! {
    /// Few different values, so that many rows are equal in some columns or in all.
    #[test]
    fn not_beaten_is_that_of_brute_force(rows in prop::collection::vec(prop::collection::vec(-3_i32..3, 3), 0..40)) {
        let rows: Vec<Vec<f64>> = rows.into_iter().map(|row| row.into_iter().map(f64::from).collect()).collect();
        let beats = |a: &Vec<f64>, b: &Vec<f64>| a.iter().zip(b).all(|(a, b)| a <= b) && a != b;
        let expected: Vec<usize> =
            (0..rows.len()).filter(|i| !rows.iter().any(|other| beats(other, &rows[*i]))).collect();
        prop_assert_eq!(not_beaten(&rows), expected);
    }
}
