//! A plan swept over a hundred thousand combinations and a choice among them, beside as many whole evaluations.

#![allow(clippy::unwrap_used)]

use raisedbody::error::Error;
use raisedbody::plan::{Aim, Axis, HardLimit, Objective, Plan, Sweep};
use toml::Value;

const TEXT: &str = include_str!("../examples/mobile_library.toml");

fn main() {
    divan::main();
}

fn lengths(count: i32, text: impl Fn(f64) -> String) -> Vec<Value> {
    (0..count).map(|i| Value::from(text(f64::from(i)))).collect()
}

/// Five gauges, four coatings, two seam policies, fifty spacings, fifty heights of the raise.
fn axes() -> Vec<Axis> {
    let texts = |values: &[&str]| values.iter().map(|v| Value::from(*v)).collect();
    vec![
        Axis::new("raise.height", lengths(50, |i| format!("{} mm", 254.0 + 2.0 * i))).unwrap(),
        Axis::new("skin.gauge", [14, 16, 18, 20, 22].map(Value::from).to_vec()).unwrap(),
        Axis::new("skin.coating", texts(&["A40", "A60", "G60", "G90"])).unwrap(),
        Axis::new("skin.seams", texts(&["fewest seams", "equal sheets"])).unwrap(),
        Axis::new("fastening.pitch", lengths(50, |i| format!("{} mm", 60.0 + 2.0 * i))).unwrap(),
    ]
}

fn sweep(plan: &Plan) -> Sweep {
    plan.sweep(axes(), |_, _| Ok::<_, Error>(())).unwrap()
}

#[divan::bench(sample_count = 3, sample_size = 1)]
fn sweep_of_100_000(bencher: divan::Bencher<'_, '_>) {
    let plan = Plan::from_text(TEXT, ".".as_ref()).unwrap();
    bencher.bench_local(|| sweep(&plan));
}

#[divan::bench(sample_count = 3, sample_size = 1)]
fn choice_of_100_000(bencher: divan::Bencher<'_, '_>) {
    let swept = sweep(&Plan::from_text(TEXT, ".".as_ref()).unwrap());
    let objective = |name: &str, aim| Objective { name: name.to_owned(), aim };
    let limit = HardLimit { name: "joint_utilisation_aisi_ratio".to_owned(), least: None, most: Some(1.0) };
    bencher.bench_local(|| {
        let objectives = vec![
            objective("skin_mass_kg", Aim::Least),
            objective("price_total", Aim::Least),
            objective("coating_life_shortest_years", Aim::Most),
            objective("headroom_mm", Aim::Most),
        ];
        swept.choose(objectives, vec![limit.clone()]).unwrap()
    });
}

/// The peer: a thousandth of them, one by one on one core.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn whole_evaluations_of_100(bencher: divan::Bencher<'_, '_>) {
    let swept = sweep_of(100);
    bencher.bench_local(|| {
        (0..swept.len()).filter_map(|row| swept.plan(row).ok()?.evaluate().ok()).map(|e| e.hours()).sum::<f64>()
    });
}

fn sweep_of(count: i32) -> Sweep {
    let plan = Plan::from_text(TEXT, ".".as_ref()).unwrap();
    let pitches = Axis::new("fastening.pitch", lengths(count, |i| format!("{} mm", 60.0 + i))).unwrap();
    plan.sweep(vec![pitches], |_, _| Ok::<_, Error>(())).unwrap()
}
