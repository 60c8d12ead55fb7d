//! Uses the library from a program without Python.

use raisedbody::quantity::{Kind, QuantityError};

fn main() -> Result<(), QuantityError> {
    let pitch_mm = Kind::Length.parse("4 1/4 in")?;
    println!("{}", Kind::Length.print(pitch_mm));
    Ok(())
}
