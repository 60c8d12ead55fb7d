//! How long a plan takes to read and to evaluate, beside a plain parse of the same text.

#![allow(clippy::unwrap_used)]

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
