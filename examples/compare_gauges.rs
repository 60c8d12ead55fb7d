//! Compares the travelling library's skin in 18 and in 16 gauge and prints both side by side.
//!
//! `cargo run --example compare_gauges`

use raisedbody::plan::{Plan, compare};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let plan = Plan::read("examples/mobile_library.toml")?;
    let heavier = plan.replace(&"skin.gauge = 16".parse()?)?;
    let table = compare(&[("18 ga", &plan), ("16 ga", &heavier)])?;
    println!("{}", raisedbody::drawing::text::comparison(&table));

    let build = plan.evaluate()?;
    for joint in &build.joints {
        for report in &joint.reports {
            println!("{:<12} {:<28} {}", report.method, report.verdict().words(), joint.subject(build.units));
        }
    }
    Ok(())
}
