//! How long a job packet takes to write, beside the hand calculations alone and the evaluation that it shows.

#![allow(clippy::unwrap_used)]

use raisedbody::drawing::{drawings, lists, packet};
use raisedbody::plan::{Evaluation, Plan};

const TEXT: &str = include_str!("../examples/mobile_library.toml");

fn main() {
    divan::main();
}

fn plan() -> Plan {
    Plan::from_text(TEXT, ".".as_ref()).unwrap()
}

fn build() -> Evaluation {
    plan().evaluate().unwrap()
}

#[divan::bench]
fn packet_of_the_library(bencher: divan::Bencher<'_, '_>) {
    let (plan, build) = (plan(), build());
    bencher.bench_local(|| packet(divan::black_box(&plan), divan::black_box(&build)));
}

#[divan::bench]
fn its_drawings(bencher: divan::Bencher<'_, '_>) {
    let build = build();
    bencher.bench_local(|| drawings(divan::black_box(&build)));
}

#[divan::bench]
fn its_lists(bencher: divan::Bencher<'_, '_>) {
    let build = build();
    bencher.bench_local(|| lists::lists(divan::black_box(&build)));
}

#[divan::bench]
fn its_hand_calculations(bencher: divan::Bencher<'_, '_>) {
    let build = build();
    bencher.bench_local(|| divan::black_box(&build).explain());
}

#[divan::bench]
fn the_evaluation(bencher: divan::Bencher<'_, '_>) {
    let plan = plan();
    bencher.bench_local(|| divan::black_box(&plan).evaluate().unwrap());
}
