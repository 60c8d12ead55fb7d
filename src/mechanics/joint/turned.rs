//! The checks turned round: the largest pitch, the smallest edge distance, the thinnest sheet and the fewest lines that
//! still pass, and the check that stops each.

use std::str::FromStr;

use crate::error::{Problem, by_name};

use super::super::sheet::{Sheet, in_range};
use super::{Demand, EDGE_MM, LOAD_N, Lap, MOST_ROWS, Method, PITCH_MM, Report, bears_load};

/// A load per length of the line, at the level of the method it is checked by.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LineLoad {
    /// In the plane of the sheets, across the line, N/mm.
    pub shear_n_mm: f64,
    /// Away from the sheets, N/mm.
    pub tension_n_mm: f64,
}

/// Which sheets are made thinner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Sheets {
    /// The one under the head.
    Outer,
    /// The one away from the head.
    Inner,
    /// Both, alike.
    #[default]
    Both,
}

impl Sheets {
    /// Every choice.
    pub const ALL: [Self; 3] = [Self::Outer, Self::Inner, Self::Both];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Outer => "outer",
            Self::Inner => "inner",
            Self::Both => "both",
        }
    }
}

impl FromStr for Sheets {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("sheets", "choice", text, &Self::ALL, Self::name)
    }
}

/// How far a lap can go.
#[derive(Debug, Clone, PartialEq)]
pub struct Turned {
    /// The last value that passes; none where no value does.
    pub value: Option<f64>,
    /// Unit of the value: `"mm"`, or empty for a count.
    pub unit: &'static str,
    /// Worked out by inverting the rule, or counted; else bracketed to the last digits of a number.
    pub exact: bool,
    /// The check that the next value does not pass; where no value passes, the one that stops the value most in the
    /// lap's favour. None where nothing but the range of the search ends it.
    pub stopped_by: Option<String>,
    /// All checks at the value; where there is none, at the value most in the lap's favour.
    pub report: Report,
}

/// Thicknesses that are tried, mm: what sheet is.
const SHEET_MM: (f64, f64) = (0.15, 6.0);

/// Values tried between the ends of a range before the first that passes is bracketed: a window of passing values
/// narrower than a four-thousandth of the range can be missed, which errs on the safe side.
const STEPS: u32 = 4000;

impl LineLoad {
    fn validate(self) -> Result<(), Vec<Problem>> {
        let loads = [("shear", self.shear_n_mm), ("tension", self.tension_n_mm)];
        let problem = |(name, n_mm)| in_range(name, Some(n_mm), (0.0, LOAD_N.1 / PITCH_MM.1), "N/mm").err();
        let problems: Vec<Problem> = loads.into_iter().filter_map(problem).collect();
        if problems.is_empty() { loaded(self.shear_n_mm, self.tension_n_mm) } else { Err(problems) }
    }

    /// Of one rivet: each line takes an equal share of the shear; any one of them may be pulled by all of the tension.
    fn of_one_rivet(self, lap: &Lap) -> Demand {
        Demand { shear_n: lap.of_one_rivet_n(self.shear_n_mm), tension_n: self.tension_n_mm * lap.pitch_mm }
    }
}

/// Without a load anything passes, and the end of the search would look like an answer.
fn loaded(shear: f64, tension: f64) -> Result<(), Vec<Problem>> {
    if shear > 0.0 || tension > 0.0 {
        return Ok(());
    }
    Err(vec![Problem::missing("shear", "write the load that the lap has to carry")])
}

impl Lap {
    /// The largest pitch at which the lap carries a line load, mm.
    ///
    /// Strengths of one rivet do not depend on the pitch, so the load per rivet may grow until the first is used in full:
    /// exact. Only where the net section decides are pitches tried, from that one down. Strength alone is asked: water and
    /// buckling between rivets set greatest spacings of their own ([`spacing`](super::spacing)).
    ///
    /// # Errors
    /// As [`check`](Self::check).
    ///
    /// # Example
    /// ```
    /// use raisedbody::catalogue::Catalogue;
    /// use raisedbody::mechanics::joint::turned::LineLoad;
    /// use raisedbody::mechanics::joint::{BlindRivet, Lap, Method, RivetOrder};
    /// use raisedbody::mechanics::sheet::{Sheet, SheetOrder};
    /// # fn main() -> Result<(), Vec<raisedbody::error::Problem>> {
    /// let catalogue = Catalogue::standard().map_err(|_| Vec::new())?;
    /// let order = SheetOrder { thickness_mm: Some(0.9), fu_mpa: Some(360.0), ..SheetOrder::default() };
    /// let sheet = Sheet::new(&order, &catalogue, "")?;
    /// let order = RivetOrder { diameter_mm: 4.8, product: Some("ISO 16585".to_owned()), ..RivetOrder::default() };
    /// let lap = Lap::new(sheet.clone(), sheet, BlindRivet::new(&order, &catalogue, "")?, 50.0, 12.0)?;
    /// // Bearing: 1939.5 N a rivet (EN 1993-1-3 Table 8.1), so 20 N/mm allows 96.97 mm.
    /// let largest = lap.largest_pitch(LineLoad { shear_n_mm: 20.0, tension_n_mm: 0.0 }, Method::En1993_1_3)?;
    /// assert!(largest.exact && (largest.value.unwrap_or_default() - 96.97).abs() < 0.005);
    /// # Ok(())
    /// # }
    /// ```
    pub fn largest_pitch(&self, load: LineLoad, method: Method) -> Result<Turned, Vec<Problem>> {
        self.validate()?;
        load.validate()?;
        let at = |pitch_mm: f64| {
            let lap = Self { pitch_mm, ..self.clone() };
            let demand = load.of_one_rivet(&lap);
            (lap, demand)
        };
        let least_mm = (3.0 * self.rivet.diameter_mm).max(PITCH_MM.0);
        let used_in_full_mm = used_in_full_mm(at, least_mm, method)?;
        let largest_mm = used_in_full_mm.min(PITCH_MM.1);
        let found = search(largest_mm, PITCH_MM.0.min(largest_mm), &at, method);
        // Where the largest passes, what is a millionth beyond it stops it, unless the range of pitches does.
        let exact = found.is_some_and(|f| f.beyond.is_none()) && used_in_full_mm < PITCH_MM.1;
        let beyond = exact.then_some(largest_mm * (1.0 + 1e-6));
        let found = found.map(|f| Found { beyond: f.beyond.or(beyond), ..f });
        turned(found, least_mm, "mm", exact, &at, method)
    }

    /// The smallest edge distance at which the lap carries the load of one rivet, mm; bracketed.
    ///
    /// # Errors
    /// As [`check`](Self::check).
    pub fn smallest_edge(&self, demand: Demand, method: Method) -> Result<Turned, Vec<Problem>> {
        self.validate()?;
        demand.validate()?;
        loaded(demand.shear_n, demand.tension_n)?;
        let at = |edge_mm: f64| (Self { edge_mm, ..self.clone() }, demand);
        turned(search(EDGE_MM.0, EDGE_MM.1, &at, method), EDGE_MM.1, "mm", false, &at, method)
    }

    /// The thinnest sheet with which the lap carries the load of one rivet, mm of metal to count on; bracketed.
    ///
    /// # Errors
    /// As [`check`](Self::check).
    pub fn thinnest_sheet(&self, demand: Demand, sheets: Sheets, method: Method) -> Result<Turned, Vec<Problem>> {
        self.validate()?;
        demand.validate()?;
        loaded(demand.shear_n, demand.tension_n)?;
        let of = |sheet: &Sheet, mm: f64| Sheet { design_mm: mm, ..sheet.clone() };
        let at = |mm: f64| {
            let mut lap = self.clone();
            if sheets != Sheets::Inner {
                lap.outer = of(&self.outer, mm);
            }
            if sheets != Sheets::Outer {
                lap.inner = of(&self.inner, mm);
            }
            (lap, demand)
        };
        turned(search(SHEET_MM.0, SHEET_MM.1, &at, method), SHEET_MM.1, "mm", false, &at, method)
    }

    /// The fewest lines of rivets that carry a line load, 10 at most; counted.
    ///
    /// Lines share the shear equally, which rivets must be ductile for; the tension is not shared, for the line next to
    /// the pull takes most of it (judgement). Where the lap states no distance of lines, 3 d is taken.
    ///
    /// # Errors
    /// As [`check`](Self::check).
    pub fn fewest_rows(&self, load: LineLoad, method: Method) -> Result<Turned, Vec<Problem>> {
        self.validate()?;
        load.validate()?;
        let apart_mm = self.row_spacing_mm.unwrap_or(3.0 * self.rivet.diameter_mm);
        let at = |rows: f64| {
            let lap = Self { rows: rows as u32, row_spacing_mm: Some(apart_mm), ..self.clone() };
            let demand = load.of_one_rivet(&lap);
            (lap, demand)
        };
        let fewest = (1..=MOST_ROWS).map(f64::from).find(|&rows| passes(&at(rows), method));
        let found = fewest.map(|value| Found { value, beyond: (value > 1.0).then_some(value - 1.0) });
        turned(found, f64::from(MOST_ROWS), "", true, &at, method)
    }
}

/// The pitch at which the first of the strengths that do not depend on the pitch is used in full, mm; without end
/// where there is no load on them.
fn used_in_full_mm(at: impl Fn(f64) -> (Lap, Demand), least_mm: f64, method: Method) -> Result<f64, Vec<Problem>> {
    // Two pitches that the rule set covers: what doubles between them grows with the load alone.
    let pitches_mm = [1.01 * least_mm, 2.02 * least_mm];
    let [near, far] = pitches_mm.map(|mm| {
        let (lap, demand) = at(mm);
        lap.check(demand, method)
    });
    let (near, far) = (near?, far?);
    let both = near.checks.iter().zip(&far.checks).filter(|(check, _)| bears_load(check));
    let in_full = both.filter_map(|(near, far)| {
        let (near, far) = (near.utilisation()?, far.utilisation()?);
        (near > 0.0 && (far / near - 2.0).abs() < 1e-9).then(|| pitches_mm[0] / near)
    });
    Ok(in_full.fold(f64::INFINITY, f64::min))
}

/// A value that passes and, where the search met one, the nearest that does not.
#[derive(Debug, Clone, Copy)]
struct Found {
    value: f64,
    beyond: Option<f64>,
}

fn passes((lap, demand): &(Lap, Demand), method: Method) -> bool {
    lap.passes(*demand, method)
}

/// The first value on the way that passes, and how close before it one does not.
fn search(from: f64, to: f64, at: &impl Fn(f64) -> (Lap, Demand), method: Method) -> Option<Found> {
    let mut before = None;
    for step in 0..=STEPS {
        let value = from + (to - from) * f64::from(step) / f64::from(STEPS);
        if !passes(&at(value), method) {
            before = Some(value);
            continue;
        }
        let Some(mut beyond) = before else { return Some(Found { value, beyond: None }) };
        let mut inside = value;
        // Halving ends where no number lies between, after at most about fifty steps.
        for _ in 0..100 {
            let middle = f64::midpoint(inside, beyond);
            if middle <= inside.min(beyond) || middle >= inside.max(beyond) {
                break;
            }
            if passes(&at(middle), method) { inside = middle } else { beyond = middle }
        }
        // Limits have a leeway for rounding, which is not to show: 1.5 d is 7.2 mm, not 7.199999999 mm.
        let whole = (inside * 1e6).round() / 1e6;
        let value = if passes(&at(whole), method) { whole } else { inside };
        return Some(Found { value, beyond: Some(beyond) });
    }
    None
}

fn turned(
    found: Option<Found>,
    best: f64,
    unit: &'static str,
    exact: bool,
    at: &impl Fn(f64) -> (Lap, Demand),
    method: Method,
) -> Result<Turned, Vec<Problem>> {
    let report = |value: f64| {
        let (lap, demand) = at(value);
        lap.check(demand, method)
    };
    let name = |report: &Report| report.governing().map(|check| check.name.clone().into_owned());
    let Some(Found { value, beyond }) = found else {
        let report = report(best)?;
        return Ok(Turned { value: None, unit, exact: false, stopped_by: name(&report), report });
    };
    let stopped_by = beyond.map(report).transpose()?.as_ref().and_then(name);
    Ok(Turned { value: Some(value), unit, exact, stopped_by, report: report(value)? })
}
