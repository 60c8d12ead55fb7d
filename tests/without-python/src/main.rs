//! Uses raisedbody from another crate, without its Python feature.

use raisedbody::plan::{Plan, compare};

fn main() -> Result<(), raisedbody::Error> {
    let plan = Plan::read(concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/workshop_bus.toml"))?;
    let build = plan.evaluate()?;
    let table = compare(&[("as planned", &plan)])?;
    println!("{}: {}, {} rivets, {} row", build.name, build.verdict().words(), build.takeoff.rivets, table.names.len());
    Ok(())
}
