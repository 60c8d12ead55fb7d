//! A year in several surroundings.

use crate::error::Problem;

use super::Rates;

/// A share of the year and the loss that a whole year there would do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stay {
    /// Share of the year, above 0, up to 1.
    pub share: f64,
    /// Loss of a whole first year there.
    pub rates: Rates,
}

/// The first year's loss where the year is spent in several surroundings: each counts by its share of the time.
///
/// Judgement: losses add by time. What was wet in one place goes on rusting in the next, and salt that is not washed off is
/// carried along, so a short stay in salt can count for more than its share.
///
/// # Errors
/// No stay, a share that is not above 0 up to 1, shares that do not make up the year.
///
/// # Example
/// ```
/// use raisedbody::mechanics::corrosion::{Rates, Stay, mixed};
/// let salted = Stay { share: 0.25, rates: Rates { low_um_a: Some(2.1), high_um_a: 4.2 } };
/// let dry = Stay { share: 0.75, rates: Rates { low_um_a: Some(0.1), high_um_a: 0.7 } };
/// let zinc = mixed(&[salted, dry]).unwrap();
/// assert!((zinc.high_um_a - 1.575).abs() < 1e-12);
/// ```
pub fn mixed(stays: &[Stay]) -> Result<Rates, Problem> {
    if stays.is_empty() {
        return Err(Problem::missing("stays", "give at least one surrounding and its share of the year"));
    }
    for stay in stays {
        if !(stay.share > 0.0 && stay.share <= 1.0) {
            return Err(Problem::out_of_range("share", stay.share, "above 0, up to 1 (100 %)"));
        }
    }
    let year: f64 = stays.iter().map(|stay| stay.share).sum();
    if (year - 1.0).abs() > 1e-6 {
        let problem = "the shares of the year must make up 1 (100 %)";
        return Err(Problem::contradiction("share", format!("{year} together"), problem));
    }
    let sum = |rate: &dyn Fn(Rates) -> f64| stays.iter().map(|stay| stay.share * rate(stay.rates)).sum::<f64>();
    let open = stays.iter().any(|stay| stay.rates.low_um_a.is_none());
    let low_um_a = if open { None } else { Some(sum(&|rates| rates.low_um_a.unwrap_or_default())) };
    Ok(Rates { low_um_a, high_um_a: sum(&|rates| rates.high_um_a) })
}
