//! How good a plan is: its price beside its bound, and why the search ended.

use serde::Serialize;

use super::bars::BarPlan;
use super::sheets::SheetPlan;

/// Why the search ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Ended {
    /// No plan can cost less.
    Proven,
    /// The effort that was allowed is spent.
    Effort,
    /// The caller said stop.
    Stopped,
}

/// How far a price lies above its bound, in parts of the bound; none where the bound is nought and the price is not.
fn gap(price_coins: i64, bound_coins: i64) -> Option<f64> {
    match (price_coins - bound_coins, bound_coins) {
        (0, _) => Some(0.0),
        (_, 0) => None,
        (more, bound) => Some(more as f64 / bound as f64),
    }
}

impl BarPlan {
    /// No plan can cost less.
    pub fn is_proven(&self) -> bool {
        self.ended == Ended::Proven
    }

    /// How far the price lies above the bound, in parts of the bound; none where the bound is nought and the price is not.
    pub fn gap_ratio(&self) -> Option<f64> {
        gap(self.price_coins, self.bound_coins)
    }
}

impl SheetPlan {
    /// No plan can cost less.
    pub fn is_proven(&self) -> bool {
        self.ended == Ended::Proven
    }

    /// How far the price lies above the bound, in parts of the bound; none where the bound is nought and the price is not.
    pub fn gap_ratio(&self) -> Option<f64> {
        gap(self.price_coins, self.bound_coins)
    }
}
