//! How long the best line over 500 old holes takes, beside a plain shortest path: every link listed, then Dijkstra's search of
//! a general graph library.

#![allow(clippy::unwrap_used)]

use petgraph::algo::dijkstra;
use petgraph::graph::{DiGraph, NodeIndex};
use raisedbody::mechanics::hole_line::{HoleLine, LineFit, OldHole, OldMetal, Trade};

fn main() {
    let (line, trade) = (holes(500), TRADE);
    let own = line.plan(trade).unwrap().cost.total;
    let peer = plain(&line, trade);
    assert!((own - peer).abs() < 1e-6 * peer, "both find the same least cost: {own} and {peer}");
    divan::main();
}

const TRADE: Trade = Trade { spacing_worth_mm: 10.0, jump_worth_mm: 1.5, plug_worth: 0.5 };
/// Evenness at any price: nearly every old hole is passed over where the clearance allows it.
const EVEN: Trade = Trade { spacing_worth_mm: 1.0, jump_worth_mm: 0.1, plug_worth: 0.0 };

/// Invented: holes some 100 mm apart that wander by a millimetre or two; each thirteenth is spoilt.
fn holes(count: usize) -> HoleLine {
    let mut seed = 7_u64;
    let mut random = || {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 11) as f64 / (1_u64 << 53) as f64 - 0.5
    };
    let mut along_mm = -100.0;
    let hole = |i: usize| {
        along_mm += 100.0 + 20.0 * random();
        OldHole { along_mm, off_mm: 4.0 * random(), spoilt: i % 13 == 6, off_error_mm: None }
    };
    let holes: Vec<OldHole> = (0..count).map(hole).collect();
    HoleLine {
        along_error_mm: 0.5,
        off_error_mm: 0.3,
        old_metal: OldMetal::Stays,
        edge: None,
        stretch_mm: (holes[0].along_mm, holes[count - 1].along_mm),
        end_play_mm: 5.0,
        pitch_mm: 100.0,
        pitches_mm: (60.0, 130.0),
        clearance_mm: 6.0,
        hole_mm: 6.5,
        holes,
    }
}

/// The least cost by listing every link between usable holes, for as long as its cheapest spacing stands clear; both ends of
/// this line are sound holes.
fn plain(line: &HoleLine, trade: Trade) -> f64 {
    let fit = line.fit().unwrap();
    let usable: Vec<usize> = (0..line.holes.len()).filter(|&i| !line.holes[i].spoilt).collect();
    let mut graph = DiGraph::<(), f64>::new();
    let nodes: Vec<NodeIndex> = usable.iter().map(|_| graph.add_node(())).collect();
    for (a, &i) in usable.iter().enumerate() {
        for (b, &j) in usable.iter().enumerate().skip(a + 1) {
            if let Some(cost) = cheapest(line, &fit, trade, i, j) {
                graph.add_edge(nodes[a], nodes[b], cost);
            }
        }
    }
    let last = nodes[nodes.len() - 1];
    dijkstra(&graph, nodes[0], Some(last), |edge| *edge.weight())[&last]
}

fn cheapest(line: &HoleLine, fit: &LineFit, trade: Trade, i: usize, j: usize) -> Option<f64> {
    let off = |k: usize| fit.departures[k].off_line_mm;
    let gap = line.holes[j].along_mm - line.holes[i].along_mm;
    let (few, many) = ((gap / line.pitches_mm.1).ceil() as usize, (gap / line.pitches_mm.0).floor() as usize);
    let costs = (few..=many).filter_map(|n| {
        let pitch = gap / n as f64;
        let clear = |k: usize| {
            let at = ((line.holes[k].along_mm - line.holes[i].along_mm) / pitch).round().clamp(1.0, (n - 1) as f64);
            let along = line.holes[i].along_mm + at * pitch - line.holes[k].along_mm;
            along.hypot(off(k)) >= line.keep_off_mm(&line.holes[k])
        };
        let stands = n == 1 || (i + 1..j).all(clear);
        let jumps = if n == 1 { (off(j) - off(i)).powi(2) } else { off(i).powi(2) + off(j).powi(2) };
        let uneven =
            n as f64 * ((pitch - line.pitch_mm) / trade.spacing_worth_mm).powi(2) + jumps / trade.jump_worth_mm.powi(2);
        stands.then_some((n - 1) as f64 + trade.plug_worth * (j - i - 1) as f64 + uneven)
    });
    costs.min_by(f64::total_cmp)
}

#[divan::bench]
fn fit_500_holes(bencher: divan::Bencher<'_, '_>) {
    let line = holes(500);
    bencher.bench_local(|| divan::black_box(&line).fit().unwrap());
}

#[divan::bench]
fn plan_500_holes(bencher: divan::Bencher<'_, '_>) {
    let line = holes(500);
    bencher.bench_local(|| divan::black_box(&line).plan(TRADE).unwrap());
}

#[divan::bench]
fn plan_500_holes_evenly(bencher: divan::Bencher<'_, '_>) {
    let line = holes(500);
    bencher.bench_local(|| divan::black_box(&line).plan(EVEN).unwrap());
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn every_link_then_dijkstra(bencher: divan::Bencher<'_, '_>) {
    let line = holes(500);
    bencher.bench_local(|| plain(divan::black_box(&line), TRADE));
}
