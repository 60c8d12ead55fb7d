//! Clock and working time in whole seconds: every machine counts them alike.

/// A day, s.
pub(super) const DAY_S: u64 = 86_400;
/// An hour, s.
const HOUR_S: f64 = 3600.0;

/// Hours as whole seconds, rounded up, and at least one.
pub(super) fn seconds(hours: f64) -> u64 {
    // A length that is a whole number of seconds must not gain one from rounding.
    (hours * HOUR_S - 1e-6).ceil().max(1.0) as u64
}

/// Seconds as hours.
pub(super) fn hours(seconds: u64) -> f64 {
    seconds as f64 / HOUR_S
}

/// Seconds since midnight of a time of day such as `"8:00"` or `"16:30"`; `"24:00"` is the end of the day.
///
/// # Errors
/// What to write instead.
///
/// # Example
/// ```
/// use raisedbody::shop::schedule::{clock, clock_s};
/// assert_eq!(clock_s("16:30"), Ok(59_400));
/// assert_eq!(clock(59_400), "16:30");
/// assert!(clock_s("4 pm").is_err());
/// ```
pub fn clock_s(text: &str) -> Result<u64, String> {
    let number =
        |text: &str| (text.len() <= 2 && text.bytes().all(|b| b.is_ascii_digit())).then(|| text.parse().ok())?;
    let read = text.trim().split_once(':').and_then(|(hour, minute)| {
        let (hour, minute): (u64, u64) = (number(hour)?, number(minute).filter(|_| minute.len() == 2)?);
        Some(hour * 3600 + minute * 60).filter(|s| minute < 60 && *s <= DAY_S)
    });
    read.ok_or_else(|| format!("{text} is no time of day; write for instance \"8:00\" or \"16:30\""))
}

/// A time of day as text, to the nearest minute.
pub fn clock(second: u64) -> String {
    let minutes = second.saturating_add(30) / 60;
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

/// The hours of a day in which people work. Two counts of time: by the clock since midnight before day 1, and working time,
/// which stands still at night.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Calendar {
    /// Start of work, seconds since midnight.
    pub start_s: u64,
    /// Work in a day, s.
    pub day_s: u64,
}

impl Calendar {
    /// The clock when work that starts at this working time starts.
    pub fn starts(self, work_s: u64) -> u64 {
        work_s / self.day_s * DAY_S + self.start_s + work_s % self.day_s
    }

    /// The clock when work that ends at this working time ends: the evening, where the next morning is as good.
    pub fn ends(self, work_s: u64) -> u64 {
        match work_s {
            0 => self.start_s,
            _ => self.starts(work_s - 1) + 1,
        }
    }

    /// The clock when work ends on a day, the first being day 0.
    pub fn evening(self, day: u64) -> u64 {
        day * DAY_S + self.start_s + self.day_s
    }

    /// The first working time not before this clock.
    pub fn work(self, clock_s: u64) -> u64 {
        let (day, second) = (clock_s / DAY_S, clock_s % DAY_S);
        day * self.day_s + second.saturating_sub(self.start_s).min(self.day_s)
    }
}
