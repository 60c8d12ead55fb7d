//! What must hold for any input, target by target, and how inputs are made.
#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::missing_panics_doc)]

#[path = "../../tests/common/anything.rs"]
pub mod anything;
pub mod mutate;
pub mod pool;
pub mod targets;
