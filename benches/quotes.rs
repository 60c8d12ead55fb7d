//! Many quotes at once on one core and on all, beside a loop over whole evaluations; a million draws of one quote.

use std::time::{Duration, Instant};

use raisedbody::error::Error;
use raisedbody::plan::{Depth, JobColumn, Plan};
use raisedbody::shop::odds::odds;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use toml::Value;

const JOBS: usize = 10_000;

/// Jobs of which hardly two are alike; own seed.
fn jobs(count: usize) -> Vec<JobColumn> {
    let mut rng = ChaCha8Rng::seed_from_u64(10);
    let mut column = |path: &str, value: &mut dyn FnMut(&mut ChaCha8Rng) -> Value| JobColumn {
        path: path.to_owned(),
        values: (0..count).map(|_| Some(value(&mut rng))).collect(),
    };
    vec![
        column("raise.height", &mut |rng| format!("{} mm", rng.random_range(320..=420)).into()),
        column("skin.gauge", &mut |rng| [16, 18, 20][rng.random_range(0..3)].into()),
        column("skin.coating", &mut |rng| ["A40", "G90", "G60"][rng.random_range(0..3)].into()),
        column("fastening.pitch", &mut |rng| format!("{} mm", rng.random_range(76..=120)).into()),
        column("prices.sheet", &mut |rng| format!("{} USD/kg", f64::from(rng.random_range(180..=320)) / 100.0).into()),
        column("prices.labour", &mut |rng| format!("{} USD/h", rng.random_range(60..=120)).into()),
    ]
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, Duration) {
    let start = Instant::now();
    let result = work();
    (result, start.elapsed())
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let plan = Plan::read("examples/mobile_library.toml")?;
    let columns = jobs(JOBS);
    let all = || plan.quote_jobs(&columns, JOBS, Depth::Quote, |_, _| Ok::<_, Error>(()));
    let mut one_core = None;
    for threads in [1, 2] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build()?;
        let (quoted, time) = timed(|| pool.install(all));
        let bad = quoted?.iter().filter(|job| job.is_err()).count();
        let times = *one_core.get_or_insert(time.as_secs_f64()) / time.as_secs_f64();
        println!(
            "{JOBS} quotes on {threads} threads: {:.0} a second, {times:.2} times one; {bad} cannot be",
            JOBS as f64 / time.as_secs_f64()
        );
    }
    let few = jobs(40);
    let (whole, time) = timed(|| plan.quote_jobs(&few, 40, Depth::Whole, |_, _| Ok::<_, Error>(())));
    println!("whole evaluations, cut list and lift included: {:.1} a second", whole?.len() as f64 / time.as_secs_f64());
    let quote = plan.evaluate()?.quote.ok_or("no prices")?;
    for threads in [1, 2] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build()?;
        let draw = || odds(&quote, plan.causes(), (1_000_000, 1), |_, _| Ok::<_, Error>(()));
        let (drawn, time) = timed(|| pool.install(draw));
        println!("a million draws, {} causes, {threads} threads: {:.2} s", drawn?.drivers.len(), time.as_secs_f64());
    }
    Ok(())
}
