//! What the shop does with the takeoff: hours and price.

pub mod hours;
pub mod quote;
