//! How long a plan takes to read and to evaluate, beside a plain parse of the same text.

#![allow(clippy::unwrap_used)]

use raisedbody::body::skins::{SeamPolicy, seams_on_posts};
use raisedbody::plan::Plan;

const TEXT: &str = include_str!("../examples/mobile_library.toml");

fn main() {
    divan::main();
}

#[divan::bench]
fn evaluate(bencher: divan::Bencher<'_, '_>) {
    let plan = Plan::from_text(TEXT, ".".as_ref()).unwrap();
    bencher.bench_local(|| divan::black_box(&plan).evaluate().unwrap());
}

#[divan::bench]
fn read_and_validate() -> Plan {
    Plan::from_text(divan::black_box(TEXT), ".".as_ref()).unwrap()
}

#[divan::bench]
fn plain_parse_of_the_text() -> toml::Table {
    divan::black_box(TEXT).parse().unwrap()
}

/// Twenty posts at uneven spacing, a factory seam on every fourth.
#[divan::bench(args = ["fewest seams", "equal sheets", "factory seams"])]
fn seams_of_twenty_posts(bencher: divan::Bencher<'_, '_>, policy: &str) {
    let policy = SeamPolicy::ALL.into_iter().find(|p| p.words() == policy).unwrap();
    let posts_mm: Vec<f64> = (0..20).map(|i| 711.2 * f64::from(i) + f64::from(i * i % 7)).collect();
    let factory: Vec<bool> = (0..20).map(|i| i % 4 == 0).collect();
    bencher.bench_local(|| seams_on_posts(divan::black_box(&posts_mm), 16.0, 3048.0, policy, &factory).unwrap());
}
