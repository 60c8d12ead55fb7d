//! `cargo bench`: one bow of thirty freedoms, assembled, factored and solved.
#![allow(missing_docs)]

use std::f64::consts::PI;

use divan::{Bencher, black_box};
use raisedbody::mechanics::frame::{Frame, Load, Member, Support};

fn main() {
    divan::main();
}

/// Two posts and an arched roof bow: twelve nodes, clamped at the feet.
fn bow() -> Option<Frame> {
    let mut nodes = vec![[0.0, 0.0], [0.0, 1200.0]];
    nodes.extend((1..9).map(|i| {
        let angle = PI * (1.0 - f64::from(i) / 9.0);
        [1150.0 * (1.0 + angle.cos()), 1200.0 + 300.0 * angle.sin()]
    }));
    nodes.extend([[2300.0, 1200.0], [2300.0, 0.0]]);
    let members =
        (0..11).map(|from| Member { from, to: from + 1, area_mm2: 222.0, second_moment_mm4: 74e3, modulus_mpa: 205e3 });
    Frame::new(nodes, members.collect(), vec![Support::fixed(0), Support::fixed(11)]).ok()
}

#[divan::bench]
fn thirty_freedoms(bencher: Bencher<'_, '_>) {
    let Some(frame) = bow() else { return };
    assert_eq!(frame.freedoms(), 30);
    let load = [Load::Node { node: 1, x_n: 1000.0, y_n: 0.0, moment_n_mm: 0.0 }];
    bencher.bench_local(|| black_box(&frame).solve(black_box(&load)).map(|s| s.displacements[1][0]));
}
