//! Prices, bounds and times on a set of jobs: known instances, the classes I to X with five sheet sizes, and a shop-like set.
//! `bench write DIR` writes the jobs as JSON instead; `bench WORD` runs those whose name has the word.

use std::time::Instant;

use raisedbody::shop::cutting::Ended;
use raisedbody::shop::cutting::sheets::{Line, SheetEffort, SheetJob, SheetPiece, SheetStock, Trim, cut_sheets};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

fn stock(name: &str, l: i64, w: i64, price: i64) -> SheetStock {
    SheetStock {
        name: name.to_owned(),
        length_tenths: l,
        width_tenths: w,
        price_coins: price,
        count: None,
        trim: Trim::default(),
        cut_coins: 0,
        longest_cut_tenths: None,
        throat_tenths: 0,
    }
}

fn job(stock: Vec<SheetStock>, sizes: &[(i64, i64, u32)], may_turn: bool) -> SheetJob {
    let piece = |(i, &(l, w, count)): (usize, &(i64, i64, u32))| SheetPiece {
        name: format!("p{i}"),
        length_tenths: l,
        width_tenths: w,
        count,
        may_turn,
        bought_coins: None,
    };
    let pieces = sizes.iter().enumerate().map(piece).collect();
    SheetJob { stock, pieces, kerf_tenths: 0, stages: None, first_cut: None, keep_tenths: (0, 0) }
}

fn known(out: &mut Vec<(String, SheetJob)>) {
    for (name, text) in [
        ("macedo_A7", include_str!("../tests/cutting_data/macedo_A7.json")),
        ("cl_01_020_01", include_str!("../tests/cutting_data/cl_01_020_01.json")),
        ("MB_Class_1_1", include_str!("../tests/cutting_data/MB_Class_1_1.json")),
    ] {
        let Ok(data) = serde_json::from_str::<serde_json::Value>(text) else { continue };
        let int = |v: &serde_json::Value| v.as_i64().unwrap_or(0);
        let all = |key: &str| data[key].as_array().cloned().unwrap_or_default();
        let stocks = all("stock")
            .iter()
            .enumerate()
            .map(|(i, s)| stock(&format!("s{i}"), int(&s["l"]), int(&s["w"]), int(&s["cost"])))
            .collect::<Vec<_>>();
        let sizes: Vec<_> =
            all("items").iter().map(|p| (int(&p["l"]), int(&p["w"]), int(&p["demand"]) as u32)).collect();
        for turn in [false, true] {
            let one = job(stocks.clone(), &sizes, turn);
            let way = if turn { "turned" } else { "fixed" };
            if name == "macedo_A7" {
                out.push((format!("{name} {way} 2 stages"), SheetJob { stages: Some(2), ..one.clone() }));
            }
            out.push((format!("{name} {way}"), one));
        }
    }
}

/// Classes I to X of Berkey and Wang and of Martello and Vigo, own seeds; the five sheets are 10, 9, 7, 5 x 7 and 5 tenths of
/// the class's sheet at 100, 77, 38, 22 and 10 coins, as in `MB_Class_1_1`: invented for the other classes.
fn classes(out: &mut Vec<(String, SheetJob)>) {
    let sheets = [10, 30, 40, 100, 100, 300, 100, 100, 100, 100];
    let ranges = [10, 10, 35, 35, 100, 100];
    for class in 1..=10_usize {
        for n in [20, 40, 60, 80, 100] {
            let seed = class as u64 * 1_000 + n;
            let mut rng = ChaCha8Rng::seed_from_u64(seed);
            let side: i64 = sheets[class - 1];
            let mut sizes: Vec<(i64, i64, u32)> = Vec::new();
            for _ in 0..n {
                let (l, w) = if class <= 6 {
                    (rng.random_range(1..=ranges[class - 1]), rng.random_range(1..=ranges[class - 1]))
                } else {
                    let mut kind = class - 6;
                    let draw = rng.random_range(0..10_usize);
                    if draw >= 7 {
                        kind = (1..=4).filter(|k| *k != class - 6).nth(draw - 7).unwrap_or(kind);
                    }
                    let mut range = |a: i64, b: i64| rng.random_range(a.max(1)..=b);
                    match kind {
                        1 => (range((2 * side + 2) / 3, side), range(1, side / 2)),
                        2 => (range(1, side / 2), range((2 * side + 2) / 3, side)),
                        3 => (range(side / 2, side), range(side / 2, side)),
                        _ => (range(1, side / 2), range(1, side / 2)),
                    }
                };
                match sizes.iter_mut().find(|s| (s.0, s.1) == (l, w)) {
                    Some(same) => same.2 += 1,
                    None => sizes.push((l, w, 1)),
                }
            }
            let parts = [(10, 10, 100), (9, 9, 77), (7, 7, 38), (5, 7, 22), (5, 5, 10)];
            let stocks =
                parts.iter().map(|&(l, w, c)| stock(&format!("{l}x{w}"), side * l / 10, side * w / 10, c)).collect();
            out.push((format!("class {class:02} n {n}"), job(stocks, &sizes, class % 2 == 0)));
        }
    }
}

/// Blanks as a body shop cuts them, from three sheets; sizes and prices invented.
fn shop(out: &mut Vec<(String, SheetJob)>) {
    for i in 0..16_u64 {
        let mut rng = ChaCha8Rng::seed_from_u64(90_000 + i);
        let kinds = rng.random_range(8..=25);
        let mut stocks = vec![
            stock("4x8", 24384, 12192, 9_600),
            stock("4x10", 30480, 12192, 11_800),
            stock("5x10", 30480, 15240, 15_900),
        ];
        let mut pieces: Vec<(i64, i64, u32)> = Vec::new();
        for _ in 0..kinds {
            let l = rng.random_range(600..=3048_i64) * 10;
            let w = rng.random_range(200..=1219_i64) * 10;
            pieces.push((l.max(w), l.min(w), rng.random_range(1..=5)));
        }
        let turn = i % 2 == 1;
        if i % 4 >= 2 {
            for own in &mut stocks {
                own.cut_coins = 60;
            }
        }
        if i % 8 >= 4 {
            for s in &mut stocks {
                s.longest_cut_tenths = Some(24500);
                s.throat_tenths = 7700;
            }
        }
        if i >= 8 {
            let mut cut_off = stock("offcut", 18000, 9000, 0);
            cut_off.count = Some(1);
            stocks.push(cut_off);
            stocks[0].count = Some(6);
        }
        let mut one = job(stocks, &pieces, turn);
        if i % 3 == 2 {
            one.stages = Some(3);
            one.first_cut = Some(Line::Along);
            one.kerf_tenths = 30;
        }
        for s in &mut one.stock {
            if i % 5 == 4 {
                s.trim = Trim { start_tenths: 20, ..Trim::default() };
            }
        }
        // What is as long as a whole sheet is not cut free where every cut or trim takes from it.
        for p in &mut one.pieces {
            p.length_tenths = p.length_tenths.min(if one.first_cut.is_some() { 30_300 } else { 30_400 });
            if i % 8 >= 4 {
                p.length_tenths = p.length_tenths.min(30_400);
            }
        }
        out.push((format!("shop {i:02}{}", if turn { " turned" } else { "" }), one));
    }
}

fn main() {
    // `cargo bench` itself gives `--bench`.
    let args: Vec<String> = std::env::args().skip(1).filter(|arg| !arg.starts_with("--")).collect();
    let mut all = Vec::new();
    known(&mut all);
    classes(&mut all);
    shop(&mut all);
    if let [word, dir] = &args[..]
        && word == "write"
    {
        for (name, job) in &all {
            let path = format!("{dir}/{}.json", name.replace(' ', "_"));
            if let Ok(text) = serde_json::to_string_pretty(job) {
                println!("{path} {:?}", std::fs::write(&path, text).is_ok());
            }
        }
        return;
    }
    let times: u64 = args.get(1).and_then(|t| t.parse().ok()).unwrap_or(1);
    let effort = SheetEffort { steps: SheetEffort::default().steps * times };
    let word = args.first().cloned().unwrap_or_default();
    let (mut gaps, mut slowest, mut proven) = (Vec::new(), 0, 0);
    println!("{:28} {:>8} {:>8} {:>7} {:>6} {:>6}", "job", "price", "bound", "gap %", "proven", "ms");
    for (name, job) in all.iter().filter(|(name, _)| name.contains(&word)) {
        let start = Instant::now();
        match cut_sheets(job, effort, &|| true) {
            Err(problems) => println!("{name}: {problems:?}"),
            Ok(plan) => {
                let ms = start.elapsed().as_millis();
                let gap = (plan.price_coins - plan.bound_coins) as f64 * 100.0 / plan.bound_coins.max(1) as f64;
                let done = plan.ended == Ended::Proven;
                println!("{name:28} {:8} {:8} {gap:7.2} {done:>6} {ms:6}", plan.price_coins, plan.bound_coins);
                gaps.push(gap);
                slowest = slowest.max(ms);
                proven += usize::from(done);
            }
        }
    }
    let mean = gaps.iter().sum::<f64>() / gaps.len().max(1) as f64;
    println!("{} jobs, mean gap {mean:.3} %, {proven} proven, slowest {slowest} ms", gaps.len());
}
