//! Build planner for raised bus bodies: a measured bus and a few choices in; a checked, priced, orderable plan out.

#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

pub mod body;
pub mod calculation;
pub mod catalogue;
pub mod check;
pub mod drawing;
pub mod error;
pub mod files;
pub mod form;
pub mod mechanics;
pub mod money;
pub mod plan;
#[cfg(feature = "python")]
mod python;
pub mod quantity;
pub mod shared;
pub mod shop;
pub mod stop;

pub use error::Error;

/// Runs the README's Rust program as written.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
