//! What the shop does with the takeoff: hours and price; what hangs before what, and who does it when.

pub mod cutting;
pub mod hours;
pub mod life_cost;
pub mod odds;
pub mod order;
pub mod price_book;
pub mod quote;
pub mod schedule;
pub mod tariff;
