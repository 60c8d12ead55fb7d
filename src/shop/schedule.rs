//! Who does what on which day: tasks, their crew and hours of the day, and a schedule limited by people and rivet tools.
//!
//! The schedule is made task by task (serial generation) from several lists of priorities, the longest chain behind a task
//! first, and improved by passes backwards and forwards. It is good, not proved best: its lower bounds say how far off it may
//! be at most. All in whole seconds, so that every machine gives the same.

mod calendar;
mod plan;
mod serial;

use serde::Serialize;

use crate::error::{Problem, by_name};

use calendar::{Calendar, DAY_S, hours, seconds};
use plan::{LeastEnd, Plan};
use serial::Slot;

pub use calendar::{clock, clock_s};

/// What kind of work a task is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
pub enum TaskKind {
    /// Old skin, windows and trim come off.
    Strip,
    /// Sheets and bars are cut.
    Cut,
    /// The roof goes up.
    Lift,
    /// Posts are lengthened.
    Lengthen,
    /// Old sealant and rust come off.
    Scrape,
    /// Posts and edges are straightened.
    Straighten,
    /// Bare metal is primed.
    Prime,
    /// A sheet is held in place.
    Clamp,
    /// A sheet is hung.
    Hang,
    /// Holes are drilled.
    Drill,
    /// Burrs are taken off.
    Deburr,
    /// Old holes are plugged.
    Plug,
    /// Rivets are set.
    Rivet,
    /// Laps and edges are sealed.
    Seal,
    /// The skin is readied for paint, and painted.
    Paint,
    /// Paint or sealant cures by itself, at night too.
    Cure,
}

impl TaskKind {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 16] = [
        Self::Strip,
        Self::Cut,
        Self::Lift,
        Self::Lengthen,
        Self::Scrape,
        Self::Straighten,
        Self::Prime,
        Self::Clamp,
        Self::Hang,
        Self::Drill,
        Self::Deburr,
        Self::Plug,
        Self::Rivet,
        Self::Seal,
        Self::Paint,
        Self::Cure,
    ];

    /// The word shown to the user.
    pub fn word(self) -> &'static str {
        match self {
            Self::Strip => "strip",
            Self::Cut => "cut",
            Self::Lift => "lift",
            Self::Lengthen => "lengthen",
            Self::Scrape => "scrape",
            Self::Straighten => "straighten",
            Self::Prime => "prime",
            Self::Clamp => "clamp",
            Self::Hang => "hang",
            Self::Drill => "drill",
            Self::Deburr => "deburr",
            Self::Plug => "plug",
            Self::Rivet => "rivet",
            Self::Seal => "seal",
            Self::Paint => "paint",
            Self::Cure => "cure",
        }
    }

    /// People it takes by common practice (no source): three hang, two rivet, nobody cures, one does anything else.
    pub fn customary_people(self) -> u32 {
        match self {
            Self::Hang => 3,
            Self::Rivet => 2,
            Self::Cure => 0,
            _ => 1,
        }
    }

    /// Rivet tools it takes.
    pub fn customary_tools(self) -> u32 {
        u32::from(self == Self::Rivet)
    }
}

impl std::str::FromStr for TaskKind {
    type Err = Problem;

    fn from_str(word: &str) -> Result<Self, Problem> {
        by_name("kind", "kind of task", word, &Self::ALL, Self::word)
    }
}

/// How long a task takes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Length {
    /// Hours of one person, shared out among the people on it.
    PersonHours(f64),
    /// Hours from start to end, however many people are on it.
    ElapsedHours(f64),
}

/// One task.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Task {
    /// What is done: `rivet L-A1`.
    pub name: String,
    /// The kind of work.
    pub kind: TaskKind,
    /// The sheet, stretch or panel it is done on; empty for the whole body.
    pub on: String,
    /// How long it takes.
    pub length: Length,
    /// People on it, all the time; nought where it goes on by itself, at night too.
    pub people: u32,
    /// Rivet tools it needs.
    pub tools: u32,
    /// Tasks that must end before, by index.
    pub after: Vec<usize>,
    /// Times of day, seconds since midnight, between which it may start.
    pub starts_within_s: Option<(u64, u64)>,
    /// It must end on the day on which it starts.
    pub whole: bool,
}

impl Task {
    /// A task with the crew and the tools that its kind takes by common practice, which waits for nothing.
    pub fn new(name: impl Into<String>, kind: TaskKind, length: Length) -> Self {
        Self {
            name: name.into(),
            kind,
            on: String::new(),
            length,
            people: kind.customary_people(),
            tools: kind.customary_tools(),
            after: Vec::new(),
            starts_within_s: None,
            whole: false,
        }
    }

    /// Hours from its start to its end, nights not counted.
    pub fn elapsed_h(&self) -> f64 {
        match self.length {
            Length::PersonHours(h) => h / f64::from(self.people.max(1)),
            Length::ElapsedHours(h) => h,
        }
    }

    /// Hours of one person; nought where nobody is on it.
    pub fn person_hours(&self) -> f64 {
        match self.length {
            _ if self.people == 0 => 0.0,
            Length::PersonHours(h) => h,
            Length::ElapsedHours(h) => h * f64::from(self.people),
        }
    }
}

/// People, tools and their day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Crew {
    /// People at work every day.
    pub people: u32,
    /// Rivet tools.
    pub tools: u32,
    /// Hours of work in a day, in one piece.
    pub day_hours: f64,
    /// Start of work, seconds since midnight.
    pub start_s: u64,
}

/// A place where rain gets in from the first task that opens it until the last that closes it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Opening {
    /// Its name: `left, posts 1 to 4`.
    pub name: String,
    /// Tasks that open it, by index: it is open once one of them has started.
    pub opened_by: Vec<usize>,
    /// Tasks that close it, by index: it is closed once all of them have ended.
    pub closed_by: Vec<usize>,
}

/// All that a schedule is made from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Job {
    /// The tasks.
    pub tasks: Vec<Task>,
    /// Who does them.
    pub crew: Crew,
    /// Where the body is open meanwhile.
    pub openings: Vec<Opening>,
    /// Nothing is opened that cannot be closed on the same day.
    pub close_same_day: bool,
}

/// Most tasks of a job.
const MOST_TASKS: usize = 2000;
/// Longest task, h.
const MOST_HOURS: f64 = 10_000.0;
/// All tasks together, h: decades.
const MOST_HOURS_IN_ALL: f64 = 100_000.0;

impl Job {
    /// Problems with single numbers, all of them.
    fn problems(&self) -> Vec<Problem> {
        let mut problems = self.crew.problems();
        if self.tasks.is_empty() {
            problems.push(Problem::missing("tasks", "a schedule needs one task at least"));
        }
        if self.tasks.len() > MOST_TASKS {
            let allowed = format!("at most {MOST_TASKS} tasks");
            problems.push(Problem::out_of_range("tasks", self.tasks.len(), allowed));
        }
        let hours: f64 = self.tasks.iter().map(Task::elapsed_h).sum();
        if hours > MOST_HOURS_IN_ALL {
            let allowed = format!("at most {MOST_HOURS_IN_ALL} h one after another");
            problems.push(Problem::out_of_range("tasks", format!("{hours:.0} h"), allowed));
        }
        for (i, task) in self.tasks.iter().enumerate() {
            self.task_problems(task, &format!("tasks[{i}]"), &mut problems);
        }
        for (i, opening) in self.openings.iter().enumerate() {
            for (part, tasks) in [("opened_by", &opening.opened_by), ("closed_by", &opening.closed_by)] {
                let path = format!("openings[{i}].{part}");
                if tasks.is_empty() {
                    let fix = format!("name the tasks of \"{}\", one at least", opening.name);
                    problems.push(Problem::missing(&path, fix));
                }
                self.unknown(tasks, &path, &mut problems);
            }
        }
        problems
    }

    fn unknown(&self, tasks: &[usize], path: &str, problems: &mut Vec<Problem>) {
        for task in tasks.iter().filter(|task| **task >= self.tasks.len()) {
            let allowed = format!("tasks 0 to {}", self.tasks.len().saturating_sub(1));
            problems.push(Problem::out_of_range(path, task, allowed));
        }
    }

    fn task_problems(&self, task: &Task, path: &str, problems: &mut Vec<Problem>) {
        let crew = &self.crew;
        let (Length::PersonHours(h) | Length::ElapsedHours(h)) = task.length;
        if !(0.0..=MOST_HOURS).contains(&h) {
            problems.push(Problem::out_of_range(
                format!("{path}.length"),
                format!("{h} h"),
                format!("0 h to {MOST_HOURS} h"),
            ));
        }
        if task.people > crew.people {
            let allowed = format!("at most {}, the people there are; \"{}\" is never done", crew.people, task.name);
            problems.push(Problem::out_of_range(format!("{path}.people"), task.people, allowed));
        }
        if task.tools > crew.tools || (task.tools > 0 && task.people == 0) {
            let allowed = format!("at most {}, the rivet tools there are, and people to hold them", crew.tools);
            problems.push(Problem::out_of_range(format!("{path}.tools"), task.tools, allowed));
        }
        if task.people == 0 && (task.whole || task.starts_within_s.is_some()) {
            let problem = "what nobody is on goes on day and night: leave whole and its hours of the day out";
            problems.push(Problem::contradiction(path, &task.name, problem));
        }
        self.unknown(&task.after, &format!("{path}.after"), problems);
        if !crew.problems().is_empty() {
            return;
        }
        let evening_s = crew.start_s + seconds(crew.day_hours);
        let mut first_s = crew.start_s;
        if let Some((from_s, until_s)) = task.starts_within_s {
            if from_s >= until_s || until_s <= crew.start_s || from_s >= evening_s {
                let allowed = format!("two times, the first before the second, within {}", crew.words());
                let value = format!("{} to {}", clock(from_s), clock(until_s));
                problems.push(Problem::out_of_range(format!("{path}.starts_within"), value, allowed));
                return;
            }
            first_s = from_s.max(first_s);
        }
        if task.whole && task.people > 0 && first_s.saturating_add(seconds(task.elapsed_h())) > evening_s {
            let problem = format!(
                "\"{}\" must not be cut by night, but from {} to {} it cannot end; split it, or take more people",
                task.name,
                clock(first_s),
                clock(evening_s),
            );
            let value = format!("{:.2} h", task.elapsed_h());
            problems.push(Problem::contradiction(format!("{path}.length"), value, problem));
        }
    }

    /// Makes the schedule.
    ///
    /// # Errors
    /// Every number out of range; tasks that wait for each other; an opening that no day closes.
    ///
    /// # Example
    /// ```
    /// use raisedbody::shop::schedule::{Crew, Job, Length, Task, TaskKind};
    /// let mut rivet = Task::new("rivet A1", TaskKind::Rivet, Length::PersonHours(3.0));
    /// rivet.after = vec![0];
    /// let hang = Task::new("hang A1", TaskKind::Hang, Length::PersonHours(2.0));
    /// let crew = Crew { people: 3, tools: 1, day_hours: 8.0, start_s: 8 * 3600 };
    /// let job = Job { tasks: vec![hang, rivet], crew, openings: Vec::new(), close_same_day: false };
    /// let schedule = job.schedule().unwrap();
    /// // 40 minutes with three, then 90 with two.
    /// assert_eq!(schedule.makespan_s(), 130 * 60);
    /// ```
    pub fn schedule(self) -> Result<Schedule, Vec<Problem>> {
        let problems = self.problems();
        if !problems.is_empty() {
            return Err(problems);
        }
        let plan = Plan::new(&self)?;
        let least = plan.least_end();
        let slots = plan.search(least.most());
        let waits = (0..slots.len()).map(|task| plan.why(&slots, task)).collect();
        Ok(Schedule { job: self, calendar: plan.calendar, slots, waits, least })
    }
}

impl Crew {
    fn problems(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        if !(1..=1000).contains(&self.people) {
            problems.push(Problem::out_of_range("people", self.people, "1 to 1000"));
        }
        if self.tools > 1000 {
            problems.push(Problem::out_of_range("tools", self.tools, "0 to 1000"));
        }
        if !(1.0..=24.0).contains(&self.day_hours) {
            problems.push(Problem::out_of_range("day", format!("{} h", self.day_hours), "1 h to 24 h"));
        } else if self.start_s.saturating_add(seconds(self.day_hours)) > DAY_S {
            let problem = format!("a day of {} h would end after midnight; start earlier", self.day_hours);
            problems.push(Problem::contradiction("start", clock(self.start_s), problem));
        }
        problems
    }

    /// `08:00 to 16:00`.
    pub fn words(&self) -> String {
        format!("{} to {}", clock(self.start_s), clock(self.start_s + seconds(self.day_hours)))
    }
}

/// Why a task does not start earlier.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Wait {
    /// It starts with the job.
    Nothing,
    /// For this task to end.
    Task(usize),
    /// For the people who are on this task.
    People(usize),
    /// For the rivet tools of this task.
    Tools(usize),
    /// For its hours of the day, or for a morning with room for it; the task it waited for before that, if any.
    Hours(Option<usize>),
    /// For a day on which what it opens can be closed.
    Closing,
}

impl Wait {
    /// The task whose end it waits for.
    pub fn task(self) -> Option<usize> {
        match self {
            Self::Task(task) | Self::People(task) | Self::Tools(task) => Some(task),
            Self::Hours(task) => task,
            Self::Nothing | Self::Closing => None,
        }
    }
}

impl Plan {
    /// Why a task of a schedule does not start earlier.
    fn why(&self, slots: &[Slot], task: usize) -> Wait {
        let (own, slot) = (&self.own[task], slots[task]);
        let last = own.after.iter().copied().max_by_key(|&before| (slots[before].end_s, std::cmp::Reverse(before)));
        let behind = || last.map_or(Wait::Nothing, Wait::Task);
        if own.hands.people == 0 {
            return behind();
        }
        let ready = last.map_or(0, |before| self.calendar.work(slots[before].end_s));
        let allowed = self.allowed(task, ready);
        if slot.work.0 == ready {
            return behind();
        }
        if slot.work.0 == allowed {
            return Wait::Hours(last);
        }
        // Whoever got free last before it starts.
        let shares = |other: usize| {
            let hands = self.own[other].hands;
            other != task && (hands.people > 0 || (own.hands.tools > 0 && hands.tools > 0))
        };
        let before = |other: &usize| slots[*other].work.1 <= slot.work.0 && slots[*other].work.1 > allowed;
        let all = (0..slots.len()).filter(|&other| shares(other)).filter(before);
        let Some(freed) = all.max_by_key(|&other| (slots[other].work.1, std::cmp::Reverse(other))) else {
            return if self.in_a_day(task) { Wait::Closing } else { Wait::Hours(last) };
        };
        if self.in_a_day(task) && self.allowed(task, slots[freed].work.1) < slot.work.0 {
            return Wait::Closing;
        }
        let moment = slots[freed].work.1 - 1;
        let on = |other: &usize| slots[*other].work.0 <= moment && moment < slots[*other].work.1;
        let people: u32 = (0..slots.len()).filter(on).map(|other| self.own[other].hands.people).sum();
        if people + own.hands.people > self.hands.people { Wait::People(freed) } else { Wait::Tools(freed) }
    }

    fn in_a_day(&self, task: usize) -> bool {
        self.units.iter().any(|unit| !unit.openings.is_empty() && unit.tasks.contains(&task))
    }
}

/// Part of a task that falls on one day; what nobody is on is one part, on the day on which it starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct DayPart {
    /// The day, from 1.
    pub day: u64,
    /// Start, seconds since midnight of that day.
    pub start_s: u64,
    /// Day of the end, from 1.
    pub end_day: u64,
    /// End, seconds since midnight of that day.
    pub end_s: u64,
    /// The task, by index.
    pub task: usize,
}

/// The body at the end of a day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Evening {
    /// The day, from 1.
    pub day: u64,
    /// What was hung on this day.
    pub hung: Vec<String>,
    /// How many hang by now.
    pub hung_count: usize,
    /// How many are sealed by now.
    pub sealed_count: usize,
    /// Where rain gets in.
    pub open: Vec<String>,
    /// Nothing is open; none where the job names no openings.
    pub weathertight: Option<bool>,
}

/// When each task is done.
#[derive(Debug, Clone)]
pub struct Schedule {
    job: Job,
    calendar: Calendar,
    slots: Vec<Slot>,
    waits: Vec<Wait>,
    least: LeastEnd,
}

impl PartialEq for Schedule {
    fn eq(&self, other: &Self) -> bool {
        self.job == other.job
    }
}

impl Schedule {
    /// What it was made from.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// Start and end of a task by the clock, seconds since the start of work on day 1.
    pub fn span_s(&self, task: usize) -> Option<(u64, u64)> {
        let slot = self.slots.get(task)?;
        Some((slot.start_s - self.calendar.start_s, slot.end_s - self.calendar.start_s))
    }

    /// Why each task does not start earlier.
    pub fn waits(&self) -> &[Wait] {
        &self.waits
    }

    /// The same in words.
    pub fn wait_words(&self, wait: Wait) -> String {
        let name = |task: usize| self.job.tasks.get(task).map_or("", |task| task.name.as_str());
        match wait {
            Wait::Nothing => "nothing".to_owned(),
            Wait::Task(task) => name(task).to_owned(),
            Wait::People(task) => format!("people on {}", name(task)),
            Wait::Tools(task) => format!("rivet tools of {}", name(task)),
            Wait::Hours(None) => "its hours of the day".to_owned(),
            Wait::Hours(Some(task)) => format!("its hours of the day, after {}", name(task)),
            Wait::Closing => "a day on which it can be closed again".to_owned(),
        }
    }

    fn since_start_s(&self, clock_s: u64) -> u64 {
        clock_s.saturating_sub(self.calendar.start_s)
    }

    /// From the start of work on day 1 to the end of the last task by the clock, nights counted, s.
    pub fn makespan_s(&self) -> u64 {
        self.since_start_s(self.slots.iter().map(|slot| slot.end_s).max().unwrap_or(0))
    }

    /// The same, h.
    pub fn makespan_h(&self) -> f64 {
        hours(self.makespan_s())
    }

    /// The longest chain of tasks with all people free, h: no schedule is shorter.
    pub fn path_bound_h(&self) -> f64 {
        hours(self.since_start_s(self.least.path))
    }

    /// All work shared out among the people without a gap, h: no schedule is shorter.
    pub fn people_bound_h(&self) -> f64 {
        hours(self.since_start_s(self.least.people))
    }

    /// The same for the rivet tools, h.
    pub fn tools_bound_h(&self) -> f64 {
        hours(self.since_start_s(self.least.tools))
    }

    /// The greatest of the three, h.
    pub fn lower_bound_h(&self) -> f64 {
        hours(self.since_start_s(self.least.most()))
    }

    /// How much longer than the lower bound the schedule is, as a share: nought is proved best.
    pub fn gap_ratio(&self) -> f64 {
        let bound_h = self.lower_bound_h();
        if bound_h > 0.0 { self.makespan_h() / bound_h - 1.0 } else { 0.0 }
    }

    /// Hours of one person, all tasks.
    pub fn person_hours(&self) -> f64 {
        self.job.tasks.iter().map(Task::person_hours).sum()
    }

    /// The tasks that decide the end, in order of time: each waits for the one before.
    pub fn critical_chain(&self) -> Vec<usize> {
        let last = (0..self.slots.len()).max_by_key(|&task| (self.slots[task].end_s, std::cmp::Reverse(task)));
        let mut chain: Vec<usize> =
            std::iter::successors(last, |&task| self.waits.get(task).and_then(|wait| wait.task())).collect();
        chain.reverse();
        chain
    }

    /// The tasks day by day, by their start.
    pub fn days(&self) -> Vec<DayPart> {
        let mut parts = Vec::new();
        for (task, (slot, own)) in self.slots.iter().zip(&self.job.tasks).enumerate() {
            let mut part = |start_s: u64, end_s: u64| {
                // Midnight belongs to the day before.
                let last_s = end_s.max(1) - 1;
                parts.push(DayPart {
                    day: start_s / DAY_S + 1,
                    start_s: start_s % DAY_S,
                    end_day: last_s / DAY_S + 1,
                    end_s: last_s % DAY_S + 1,
                    task,
                });
            };
            if own.people == 0 {
                part(slot.start_s, slot.end_s);
                continue;
            }
            for day in slot.start_s / DAY_S..=(slot.end_s - 1) / DAY_S {
                let morning_s = day * DAY_S + self.calendar.start_s;
                part(slot.start_s.max(morning_s), slot.end_s.min(self.calendar.evening(day)));
            }
        }
        parts.sort_by_key(|part| (part.day, part.start_s, part.task));
        parts
    }

    /// The body at the end of each day.
    pub fn evenings(&self) -> Vec<Evening> {
        let last = self.slots.iter().map(|slot| (slot.end_s - 1) / DAY_S).max().unwrap_or(0);
        let evening = |day: u64| {
            let (before_s, now_s) = (self.calendar.evening(day).saturating_sub(DAY_S), self.calendar.evening(day));
            let done = |kind: TaskKind| {
                let own = self.job.tasks.iter().zip(&self.slots);
                own.filter(move |(task, slot)| task.kind == kind && slot.end_s <= now_s)
            };
            let called = |task: &Task| if task.on.is_empty() { task.name.clone() } else { task.on.clone() };
            let today = done(TaskKind::Hang).filter(|(_, slot)| day == 0 || slot.end_s > before_s);
            let ended = |task: &usize| self.slots.get(*task).is_some_and(|slot| slot.end_s <= now_s);
            let started = |task: &usize| self.slots.get(*task).is_some_and(|slot| slot.start_s < now_s);
            let openings = &self.job.openings;
            let open = openings.iter().filter(|o| o.opened_by.iter().any(started) && !o.closed_by.iter().all(ended));
            let open: Vec<String> = open.map(|opening| opening.name.clone()).collect();
            Evening {
                day: day + 1,
                hung: today.map(|(task, _)| called(task)).collect(),
                hung_count: done(TaskKind::Hang).count(),
                sealed_count: done(TaskKind::Seal).count(),
                weathertight: (!openings.is_empty()).then_some(open.is_empty()),
                open,
            }
        };
        (0..=last).map(evening).collect()
    }
}
