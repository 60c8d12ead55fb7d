//! The crew in numbers: people, tools, hours of the day in seconds since midnight.

use crate::error::Problem;
use crate::quantity::{Duration, Kind};
use crate::shop::schedule::{Crew, clock_s};

use super::memory::OfWork;
use super::paint::PaintPlan;
use super::reader::Reader;

/// What a schedule is made with.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct CrewPlan {
    pub crew: Crew,
    pub hang_people: u32,
    pub rivet_people: u32,
    /// Times of day between which a sheet may be hung, s.
    pub hang_window_s: Option<(u64, u64)>,
    pub primer_cure_h: Option<f64>,
    pub top_row_first: bool,
    pub hang_all_first: bool,
    pub weathertight: bool,
}

pub(super) fn crew(r: &mut Reader<'_>, file: &OfWork, paint: &PaintPlan) -> Option<CrewPlan> {
    let c = file.crew.as_ref()?;
    let before = r.problems.len();
    let mut count = |given: Option<u32>, name: &str| {
        let (field, least_most) = (format!("crew.{name}"), (1.0, 100.0));
        r.or_fallback(given.map(f64::from), &field, name, least_most, Kind::Ratio).0 as u32
    };
    let hang_people = count(c.hang_people, "hang_people");
    let rivet_people = count(c.rivet_people, "rivet_people");
    let tools = count(c.rivet_tools, "rivet_tools");
    for (name, needed) in [("hang_people", hang_people), ("rivet_people", rivet_people)] {
        if needed > c.people {
            let problem =
                format!("{needed} are needed together (crew.{name}); take more people, or plan with fewer there");
            r.problems.push(Problem::contradiction("crew.people", c.people, problem));
        }
    }
    let day_hours = r.bound("crew.hours", c.hours.hours(), 1.0, 24.0, Kind::Duration);
    let start_s = time_of_day(r, "crew.start", &c.start);
    let end_s = start_s.map(|start_s| start_s + (day_hours * 3600.0) as u64);
    if end_s.is_some_and(|end_s| end_s > 24 * 3600) {
        let problem = format!("{} from then on end after midnight; start earlier", Kind::Duration.print(day_hours));
        r.problems.push(Problem::contradiction("crew.start", &c.start, problem));
    }
    let hang_window_s = c.hang_window.as_ref().and_then(|window| {
        let from = time_of_day(r, "crew.hang_window.from", &window.from);
        let until = time_of_day(r, "crew.hang_window.until", &window.until);
        let (from_s, until_s) = from.zip(until)?;
        let (start_s, end_s) = start_s.zip(end_s)?;
        if from_s >= until_s || until_s <= start_s || from_s >= end_s {
            let value = format!("{} to {}", window.from, window.until);
            let problem = "no hour of work lies between; write two times of the working day, the earlier first";
            r.problems.push(Problem::contradiction("crew.hang_window", value, problem));
        }
        Some((from_s, until_s))
    });
    let cure = c.primer_cure.map(Duration::hours);
    let primer_cure_h = cure.map(|h| r.bound("crew.primer_cure", h, 0.0, 1000.0, Kind::Duration));
    let timed = file.shop.prime_time.is_some() || !paint.inside() || paint.times()[1].is_some();
    if primer_cure_h.is_some() && !timed {
        let fix = "primer that cures is put on first: write shop.prime_time = \"3 min\" for a square metre";
        r.problems.push(Problem::missing("shop.prime_time", fix));
    }
    let crew = Crew { people: c.people, tools, day_hours, start_s: start_s? };
    (r.problems.len() == before).then_some(CrewPlan {
        crew,
        hang_people,
        rivet_people,
        hang_window_s,
        primer_cure_h,
        top_row_first: c.top_row_first,
        hang_all_first: c.hang_all_first,
        weathertight: c.weathertight,
    })
}

fn time_of_day(r: &mut Reader<'_>, path: &str, text: &str) -> Option<u64> {
    let unreadable = |problem| Problem::Unreadable { path: path.to_owned(), value: text.to_owned(), problem };
    r.keep(clock_s(text).map_err(unreadable))
}
