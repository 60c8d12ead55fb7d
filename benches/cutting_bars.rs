//! Known and generated jobs: price, bound, whether proven, and the time. With a folder as argument, writes the jobs there.
#![allow(clippy::unwrap_used)]

use std::path::Path;
use std::time::Instant;

use raisedbody::shop::cutting::Ended;
use raisedbody::shop::cutting::bar_faults::bar_faults;
use raisedbody::shop::cutting::bars::{BarEffort, BarJob, BarPiece, BarStock, cut_bars};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

fn job(stock: &[(i64, i64)], pieces: impl IntoIterator<Item = (i64, u32)>) -> BarJob {
    let bar = |&(length, price): &(i64, i64)| BarStock {
        name: format!("bar {length} at {price}"),
        length_tenths: length,
        price_coins: price,
        count: None,
        trim_start_tenths: 0,
        trim_end_tenths: 0,
    };
    let piece =
        |(i, (length_tenths, count))| BarPiece { name: format!("p{i}"), length_tenths, count, kerf_tenths: None };
    BarJob {
        stock: stock.iter().map(bar).collect(),
        pieces: pieces.into_iter().enumerate().map(piece).collect(),
        kerf_tenths: 0,
    }
}

fn file(name: &str) -> BarJob {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cutting_data").join(format!("{name}.json"));
    let data: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let read = |list: &str, a: &str, b: &str| -> Vec<(i64, i64)> {
        let rows = data[list].as_array().unwrap().iter();
        rows.map(|r| (r[a].as_i64().unwrap(), r[b].as_i64().unwrap())).collect()
    };
    let pieces = read("items", "length", "demand");
    job(&read("stock", "length", "cost"), pieces.into_iter().map(|(l, d)| (l, u32::try_from(d).unwrap())))
}

/// Lengths of n pieces, each kind once with its count.
fn counted(lengths: &[i64]) -> Vec<(i64, u32)> {
    let mut kinds = std::collections::BTreeMap::new();
    for &length in lengths {
        *kinds.entry(length).or_insert(0) += 1;
    }
    kinds.into_iter().rev().collect()
}

fn uniform(rng: &mut ChaCha8Rng, n: usize, from: i64, to: i64) -> Vec<(i64, u32)> {
    counted(&(0..n).map(|_| rng.random_range(from..=to)).collect::<Vec<_>>())
}

/// Three fill a bar of 1000: the first 380 to 490, the second from 250 to half of the rest.
fn triplets(rng: &mut ChaCha8Rng, bars: usize) -> Vec<(i64, u32)> {
    let mut lengths = Vec::new();
    for _ in 0..bars {
        let first = rng.random_range(380..=490);
        let second = rng.random_range(250..=(1000 - first) / 2);
        lengths.extend([first, second, 1000 - first - second]);
    }
    counted(&lengths)
}

fn family(name: &str, seed: u64) -> BarJob {
    let rng = &mut ChaCha8Rng::seed_from_u64(seed);
    let concave = [(70, 84), (100, 100), (130, 115), (160, 127), (190, 138), (220, 149), (250, 159)];
    let linear = [(60, 600), (100, 1000), (150, 1500)];
    match name {
        "u120" => job(&[(150, 1)], uniform(rng, 120, 20, 100)),
        "t60" => job(&[(1000, 1)], triplets(rng, 20)),
        "t120" => job(&[(1000, 1)], triplets(rng, 40)),
        "scholl_n2c1w1" => job(&[(100, 1)], uniform(rng, 100, 1, 100)),
        "scholl_n2c2w2" => job(&[(120, 1)], uniform(rng, 120, 20, 100)),
        "scholl_n2c3w4" => job(&[(150, 1)], uniform(rng, 120, 30, 100)),
        "concave100" => job(&concave, uniform(rng, 100, 1, 250)),
        "concave120" => job(&concave, uniform(rng, 120, 1, 250)),
        "linear120" => job(&linear, uniform(rng, 120, 1, 150)),
        "wide120" => job(&[(10_000, 1)], uniform(rng, 120, 500, 5000)),
        "real" => {
            let bar = |l: i64, p: i64| (l, p);
            let mut job = job(&[bar(60_000, 4890), bar(64_000, 5190), bar(72_000, 5990)], uniform(rng, 0, 1, 1));
            for i in 0..20 {
                job.pieces.push(BarPiece {
                    name: format!("p{i}"),
                    length_tenths: rng.random_range(200..=3000) * 10,
                    count: rng.random_range(1..=12),
                    kerf_tenths: None,
                });
            }
            job.kerf_tenths = 25;
            job.stock.iter_mut().for_each(|s| (s.trim_start_tenths, s.trim_end_tenths) = (100, 100));
            job
        }
        _ => {
            let mut job = job(&[(6000, 31), (7000, 37)], []);
            for i in 0..12 {
                let length_tenths = rng.random_range(300..=3000);
                job.pieces.push(BarPiece { name: format!("p{i}"), length_tenths, count: 80_000, kerf_tenths: None });
            }
            job
        }
    }
}

fn main() {
    // `cargo bench` itself gives `--bench`.
    let args: Vec<String> = std::env::args().skip(1).filter(|arg| !arg.starts_with("--")).collect();
    let folder = args.first().filter(|a| a.contains('/'));
    let only = args.iter().find(|a| !a.contains('/'));
    let known = ["N1C1W1_A", "Falkenauer_t60_00", "gilmore_gomory_1961"];
    let mut jobs: Vec<(String, BarJob)> = known.iter().map(|n| ((*n).to_owned(), file(n))).collect();
    let families = [
        ("u120", 20),
        ("t60", 20),
        ("t120", 20),
        ("scholl_n2c1w1", 20),
        ("scholl_n2c2w2", 20),
        ("scholl_n2c3w4", 20),
        ("concave100", 20),
        ("concave120", 20),
        ("linear120", 20),
        ("wide120", 10),
        ("real", 20),
        ("million", 3),
    ];
    for (name, count) in families {
        jobs.extend((1..=count).map(|seed| (format!("{name}_{seed}"), family(name, seed))));
    }
    println!("{:<24}{:>10}{:>10}  {:<8}{:>10}{:>14}", "job", "price", "bound", "ended", "ms", "steps");
    for (name, job) in jobs {
        if only.is_some_and(|o| !name.starts_with(o.as_str())) {
            continue;
        }
        if let Some(folder) = folder {
            std::fs::write(Path::new(folder).join(format!("{name}.json")), serde_json::to_string(&job).unwrap())
                .unwrap();
        }
        let start = Instant::now();
        let plan = cut_bars(&job, &BarEffort::default(), &|| true).unwrap();
        let ms = start.elapsed().as_secs_f64() * 1000.0;
        let faults = bar_faults(&job, &plan);
        assert!(faults.is_empty(), "{name}: {faults:?}");
        let ended = if plan.ended == Ended::Proven { "proven" } else { "OPEN" };
        println!("{name:<24}{:>10}{:>10}  {ended:<8}{ms:>10.2}{:>14}", plan.price_coins, plan.bound_coins, plan.steps);
    }
}
