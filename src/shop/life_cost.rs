//! What a thing costs a year if it is renewed each time its life ends.

use crate::error::Problem;

/// More renewals than anyone plans for: a life that short is no life.
const MOST_RENEWALS: f64 = 10_000.0;

/// Spending over the years that something is kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spending {
    /// Paid at the start.
    pub first: f64,
    /// Paid each time that a life ends, in today's money.
    pub renewal: f64,
    /// Years that it is kept.
    pub horizon_years: f64,
    /// Interest a year by which later spending weighs less, 0 for none.
    pub discount: f64,
}

/// What it costs a year, and how often it is renewed.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct YearlyCost {
    /// The even yearly sum that is worth as much as all spending, in the spending's currency.
    pub per_year: f64,
    /// Renewals within the years.
    pub renewals: u32,
}

/// The equivalent annual cost of putting something on now and renewing it each time its life ends within the horizon.
///
/// Engineering economics: present worth `P = C + R Σ (1 + i)^(-k L)` over the renewals `k L < H`, spread evenly by the capital
/// recovery factor `i (1 + i)^H / ((1 + i)^H - 1)` (A/P; without interest `1 / H`). What is left of the last life at the end
/// is worth nothing here. A life of `None` outlasts the horizon.
///
/// # Errors
/// A sum below nought, a horizon or a life that is not above nought, interest below nought or above 1, more than ten thousand
/// renewals.
///
/// # Example
/// ```
/// use raisedbody::shop::life_cost::{Spending, cost_per_year};
/// // A/P at 8 % over 10 years is 0.1490.
/// let once = Spending { first: 1000.0, renewal: 1000.0, horizon_years: 10.0, discount: 0.08 };
/// let cost = cost_per_year(once, None).unwrap();
/// assert!((cost.per_year - 149.03).abs() < 0.01);
/// assert_eq!(cost_per_year(once, Some(4.0)).unwrap().renewals, 2);
/// ```
pub fn cost_per_year(spending: Spending, life_years: Option<f64>) -> Result<YearlyCost, Problem> {
    let Spending { first, renewal, horizon_years, discount } = spending;
    let not_negative = |name: &str, value: f64| {
        if value.is_finite() && value >= 0.0 { Ok(()) } else { Err(Problem::out_of_range(name, value, "0 and above")) }
    };
    not_negative("first", first)?;
    not_negative("renewal", renewal)?;
    if !(horizon_years.is_finite() && horizon_years > 0.0) {
        return Err(Problem::out_of_range("horizon_years", format!("{horizon_years} years"), "above 0 years"));
    }
    if !(0.0..=1.0).contains(&discount) {
        return Err(Problem::out_of_range("discount", discount, "0 to 1 (100 %)"));
    }
    let (mut present, mut renewals) = (first, 0_u32);
    if let Some(life) = life_years {
        if !(life > 0.0 && horizon_years / life <= MOST_RENEWALS) {
            let allowed = format!("above 0 years, at most {MOST_RENEWALS} renewals");
            return Err(Problem::out_of_range("life_years", format!("{life} years"), allowed));
        }
        while f64::from(renewals + 1) * life < horizon_years {
            renewals += 1;
            present += renewal * (1.0 + discount).powf(-f64::from(renewals) * life);
        }
    }
    let recovery =
        if discount > 0.0 { discount / (1.0 - (1.0 + discount).powf(-horizon_years)) } else { 1.0 / horizon_years };
    Ok(YearlyCost { per_year: present * recovery, renewals })
}
