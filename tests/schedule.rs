//! The schedule: precedence, people, tools, windows and nights kept; bounds below; brute force on small jobs.

use proptest::prelude::*;
use raisedbody::shop::schedule::{Crew, Job, Length, Opening, Schedule, Task, TaskKind, Wait, clock, clock_s};
use rstest::rstest;

const DAY_S: u64 = 86_400;

/// Every order of `count` things.
pub fn permutations(count: usize, visit: &mut impl FnMut(&[usize])) {
    fn go(order: &mut Vec<usize>, count: usize, visit: &mut impl FnMut(&[usize])) {
        if order.len() == count {
            return visit(order);
        }
        for next in 0..count {
            if !order.contains(&next) {
                order.push(next);
                go(order, count, visit);
                order.pop();
            }
        }
    }
    go(&mut Vec::new(), count, visit);
}

fn crew(people: u32, tools: u32) -> Crew {
    Crew { people, tools, day_hours: 8.0, start_s: 8 * 3600 }
}

fn job(tasks: Vec<Task>, crew: Crew) -> Job {
    Job { tasks, crew, openings: Vec::new(), close_same_day: false }
}

fn task(name: &str, kind: TaskKind, person_hours: f64, after: &[usize]) -> Task {
    Task { after: after.to_vec(), ..Task::new(name, kind, Length::PersonHours(person_hours)) }
}

fn times(schedule: &Schedule) -> Vec<String> {
    let parts = schedule.days();
    let text = |part: &raisedbody::shop::schedule::DayPart| {
        let name = &schedule.job().tasks[part.task].name;
        format!("{} {} {} to {}", part.day, name, clock(part.start_s), clock(part.end_s))
    };
    parts.iter().map(text).collect()
}

#[test]
fn three_hang_two_rivet_and_the_night_lies_between() {
    let tasks = vec![
        task("hang A1", TaskKind::Hang, 9.0, &[]),
        task("rivet A1", TaskKind::Rivet, 8.0, &[0]),
        task("hang A2", TaskKind::Hang, 6.0, &[0]),
        task("rivet A2", TaskKind::Rivet, 2.0, &[2]),
    ];
    let schedule = job(tasks, crew(3, 1)).schedule().unwrap();
    assert_eq!(
        times(&schedule),
        [
            "1 hang A1 08:00 to 11:00",
            "1 rivet A1 11:00 to 15:00",
            "1 hang A2 15:00 to 16:00",
            "2 hang A2 08:00 to 09:00",
            "2 rivet A2 09:00 to 10:00",
        ]
    );
    assert_eq!(schedule.waits(), [Wait::Nothing, Wait::Task(0), Wait::People(1), Wait::Task(2)]);
    assert_eq!(schedule.critical_chain(), [0, 1, 2, 3]);
    // No two of these four go on at a time with three people: the bound is the schedule.
    assert_eq!(schedule.makespan_h(), 26.0);
    assert_eq!(schedule.gap_ratio(), 0.0);
    assert_eq!(schedule.person_hours(), 25.0);
}

#[test]
fn skins_hang_warm_primer_cures_at_night_and_what_is_whole_waits_for_a_morning() {
    let mut hang = task("hang A1", TaskKind::Hang, 3.0, &[1]);
    hang.starts_within_s = Some((clock_s("10:00").unwrap(), clock_s("16:00").unwrap()));
    let mut seal = task("seal A1", TaskKind::Seal, 6.0, &[2]);
    seal.whole = true;
    let tasks = vec![
        task("prime A1", TaskKind::Prime, 2.0, &[]),
        Task { after: vec![0], ..Task::new("cure A1", TaskKind::Cure, Length::ElapsedHours(16.0)) },
        hang,
        seal,
    ];
    let schedule = job(tasks, crew(3, 1)).schedule().unwrap();
    assert_eq!(
        times(&schedule),
        [
            "1 prime A1 08:00 to 10:00",
            "1 cure A1 10:00 to 02:00",
            "2 hang A1 10:00 to 11:00",
            "3 seal A1 08:00 to 14:00",
        ]
    );
    assert_eq!(schedule.waits(), [Wait::Nothing, Wait::Task(0), Wait::Hours(Some(1)), Wait::Hours(Some(2))]);
    assert_eq!(schedule.critical_chain(), [0, 1, 2, 3]);
    assert_eq!(schedule.gap_ratio(), 0.0);
}

/// Two stretches of 5 and 6 hours from stripped to sealed.
fn stretches(close_same_day: bool) -> Job {
    let mut tasks = Vec::new();
    for (name, person_hours) in [("left", 5.0), ("right", 6.0)] {
        let first = tasks.len();
        tasks.push(task(&format!("strip {name}"), TaskKind::Strip, 1.0, &[]));
        let mut hang = task(&format!("hang {name}"), TaskKind::Hang, person_hours - 2.0, &[first]);
        hang.people = 1;
        name.clone_into(&mut hang.on);
        tasks.push(hang);
        tasks.push(task(&format!("seal {name}"), TaskKind::Seal, 1.0, &[first + 1]));
    }
    let opening = |name: &str, first: usize| Opening {
        name: name.to_owned(),
        opened_by: vec![first],
        closed_by: vec![first + 2],
    };
    Job { openings: vec![opening("left", 0), opening("right", 3)], close_same_day, ..job(tasks, crew(1, 1)) }
}

#[test]
fn nothing_is_opened_that_cannot_be_closed_by_night() {
    let free = stretches(false).schedule().unwrap();
    assert_eq!(free.makespan_h(), 24.0 + 3.0);
    let evenings = free.evenings();
    assert_eq!(evenings[0].weathertight, Some(false));
    assert_eq!(evenings[1].weathertight, Some(true));
    assert_eq!(evenings[1].sealed_count, 2);

    let held = stretches(true).schedule().unwrap();
    let evenings = held.evenings();
    assert!(evenings.iter().all(|evening| evening.weathertight == Some(true)), "{evenings:?}");
    assert_eq!(evenings.iter().map(|evening| evening.hung.len()).collect::<Vec<_>>(), [1, 1]);
    assert!(held.waits().contains(&Wait::Closing));

    let mut job = stretches(true);
    job.crew.day_hours = 5.5;
    let problems = job.schedule().unwrap_err();
    assert_eq!(problems.len(), 1);
    let told = problems[0].to_string();
    assert!(told.starts_with("close_same_day: true: right is not closed on the day of opening: 3 tasks"), "{told}");
}

#[test]
fn bad_jobs_are_refused_with_all_that_is_wrong() {
    let mut tasks = vec![task("hang A1", TaskKind::Hang, -1.0, &[7]), task("rivet A1", TaskKind::Rivet, 9.0, &[])];
    tasks[1].whole = true;
    tasks[1].people = 1;
    tasks[1].tools = 2;
    let problems = job(tasks, crew(2, 1)).schedule().unwrap_err();
    let paths: Vec<&str> = problems.iter().map(|problem| problem.path()).collect();
    assert_eq!(paths, ["tasks[0].length", "tasks[0].people", "tasks[0].after", "tasks[1].tools", "tasks[1].length"]);
    let tied = vec![task("hang A", TaskKind::Hang, 1.0, &[1]), task("hang B", TaskKind::Hang, 1.0, &[0])];
    let told = job(tied, crew(3, 1)).schedule().unwrap_err()[0].to_string();
    assert!(told.starts_with("tasks[0].after: hang A before hang B, hang B before hang A: none"), "{told}");
    let idle = Crew { people: 0, tools: 0, day_hours: 30.0, start_s: 0 };
    let problems = job(Vec::new(), idle).schedule().unwrap_err();
    assert_eq!(problems.iter().map(|p| p.path()).collect::<Vec<_>>(), ["people", "day", "tasks"]);
    let night = Crew { people: 1, tools: 0, day_hours: 8.0, start_s: 20 * 3600 };
    let told = job(vec![task("strip", TaskKind::Strip, 1.0, &[])], night).schedule().unwrap_err()[0].to_string();
    assert!(told.starts_with("start: 20:00: a day of 8 h would end after midnight"), "{told}");
}

#[rstest]
#[case("8:00", Some(28_800))]
#[case("00:00", Some(0))]
#[case("24:00", Some(86_400))]
#[case("24:01", None)]
#[case("8", None)]
#[case("8:5", None)]
#[case("8:60", None)]
#[case("-1:00", None)]
#[case("+8:00", None)]
fn times_of_day_are_read(#[case] text: &str, #[case] second: Option<u64>) {
    assert_eq!(clock_s(text).ok(), second);
}

/// Everything a schedule promises.
fn kept(schedule: &Schedule) {
    let job = schedule.job();
    let (start_s, day_s) = (job.crew.start_s, (job.crew.day_hours * 3600.0).round() as u64);
    let span = |task: usize| schedule.span_s(task).map(|(from, to)| (from + start_s, to + start_s)).unwrap();
    for (i, task) in job.tasks.iter().enumerate() {
        let (from, to) = span(i);
        for &before in &task.after {
            assert!(span(before).1 <= from, "{} before {}", job.tasks[before].name, task.name);
        }
        let parts: Vec<_> = schedule.days().into_iter().filter(|part| part.task == i).collect();
        let worked: u64 =
            parts.iter().map(|part| part.end_s + part.end_day * DAY_S - part.start_s - part.day * DAY_S).sum();
        let needed = (task.elapsed_h() * 3600.0).max(1.0);
        assert!((worked as f64 - needed).abs() < 1.0 + 1e-6, "{} works {worked} s of {needed}", task.name);
        if task.people == 0 {
            continue;
        }
        for part in &parts {
            assert!(part.start_s >= start_s && part.end_s <= start_s + day_s && part.day == part.end_day);
        }
        if let Some((first, last)) = task.starts_within_s {
            assert!((first..last).contains(&(from % DAY_S)), "{} starts in its window", task.name);
        }
        if task.whole {
            assert_eq!(parts.len(), 1);
        }
        assert!(to > from);
    }
    // Hands busy at the start of every part.
    let parts = schedule.days();
    for moment in &parts {
        let now = (moment.day, moment.start_s);
        let on = parts.iter().filter(|p| (p.day, p.start_s) <= now && now < (p.end_day, p.end_s));
        let on: Vec<&Task> = on.map(|part| &job.tasks[part.task]).collect();
        assert!(on.iter().map(|task| task.people).sum::<u32>() <= job.crew.people);
        assert!(on.iter().map(|task| task.tools).sum::<u32>() <= job.crew.tools);
    }
    assert!(schedule.lower_bound_h() <= schedule.makespan_h() + 1e-9);
    let bounds = [schedule.path_bound_h(), schedule.people_bound_h(), schedule.tools_bound_h()];
    assert_eq!(bounds.into_iter().fold(0.0, f64::max), schedule.lower_bound_h());
    assert!(schedule.gap_ratio() >= 0.0);
    // The chain leads from the start to the end without a gap that has no reason.
    let chain = schedule.critical_chain();
    let ends: Vec<u64> = chain.iter().map(|&task| schedule.span_s(task).unwrap().1).collect();
    assert_eq!(ends.last().copied(), Some(schedule.makespan_s()));
    for pair in chain.windows(2) {
        assert!(schedule.span_s(pair[0]).unwrap().1 <= schedule.span_s(pair[1]).unwrap().0);
    }
}

/// Any small job; tasks wait only for those before them.
fn jobs(most: usize) -> impl Strategy<Value = Job> {
    let one = (1_u32..40, 0_u32..4, any::<bool>(), 0_u8..4, any::<u64>());
    (prop::collection::vec(one, 1..=most), 1_u32..5, 1_u32..3).prop_map(|(rows, people, tools)| {
        let tasks = rows.into_iter().enumerate().map(|(i, (quarters, crew, whole, kind, waits))| {
            let mut task = Task::new(format!("{i}"), TaskKind::Hang, Length::ElapsedHours(f64::from(quarters) / 4.0));
            task.people = crew.min(people);
            task.tools = u32::from(kind == 1 && task.people > 0);
            task.after = (0..i).filter(|before| (waits >> (2 * before)).trailing_zeros() >= 2).collect();
            if task.people > 0 {
                task.whole = whole && quarters <= 20;
                task.starts_within_s = (kind == 2 && quarters <= 20).then_some((10 * 3600, 15 * 3600));
            }
            task
        });
        job(tasks.collect(), crew(people, tools))
    })
}

/// The end of the job when tasks are placed in this order, each at the first quarter of an hour at which nothing is broken.
fn by_hand(job: &Job, order: &[usize]) -> Option<u64> {
    const STEP_S: u64 = 900;
    let (start_s, steps) = (job.crew.start_s, (job.crew.day_hours * 4.0) as u64);
    let clock_of = |quarter: u64| quarter / steps * DAY_S + start_s + quarter % steps * STEP_S;
    let mut ends: Vec<Option<u64>> = vec![None; job.tasks.len()];
    let mut busy: Vec<(u32, u32)> = vec![(0, 0); 4000];
    for &i in order {
        let task = &job.tasks[i];
        let before: Option<Vec<u64>> = task.after.iter().map(|&before| ends[before]).collect();
        let ready = before?.into_iter().max().unwrap_or(start_s);
        let length = (task.elapsed_h() * 4.0).round() as u64;
        if task.people == 0 {
            ends[i] = Some(ready + length * STEP_S);
            continue;
        }
        let fits = |from: u64| {
            let second = clock_of(from) % DAY_S;
            clock_of(from) >= ready
                && task.starts_within_s.is_none_or(|(first, last)| (first..last).contains(&second))
                && (!task.whole || from % steps + length <= steps)
                && (from..from + length).all(|q| {
                    let (people, tools) = busy[q as usize];
                    people + task.people <= job.crew.people && tools + task.tools <= job.crew.tools
                })
        };
        let from = (0..3000).find(|&from| fits(from)).unwrap();
        for quarter in from..from + length {
            busy[quarter as usize].0 += task.people;
            busy[quarter as usize].1 += task.tools;
        }
        ends[i] = Some(clock_of(from + length - 1) + STEP_S);
    }
    ends.into_iter().flatten().max().map(|end| end - start_s)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn whatever_the_job_its_schedule_breaks_nothing(job in jobs(24)) {
        let schedule = job.clone().schedule().unwrap();
        kept(&schedule);
        let again = job.schedule().unwrap();
        let spans = |s: &Schedule| (0..s.job().tasks.len()).map(|task| s.span_s(task)).collect::<Vec<_>>();
        prop_assert_eq!(spans(&schedule), spans(&again));
    }

    #[test]
    fn small_jobs_end_as_soon_as_the_best_of_all_orders(job in jobs(6)) {
        let count = job.tasks.len();
        let mut best = u64::MAX;
        permutations(count, &mut |order| best = best.min(by_hand(&job, order).unwrap_or(u64::MAX)));
        let schedule = job.schedule().unwrap();
        let bound = schedule.lower_bound_h() * 3600.0;
        prop_assert!(bound <= best as f64 + 1e-6, "bound {bound} above the best {best}");
        prop_assert!(schedule.makespan_s() >= best);
        prop_assert!(schedule.makespan_s() as f64 <= best as f64 * (1.0 + schedule.gap_ratio()) + 1e-6);
        // Of six tasks every order is tried.
        prop_assert_eq!(schedule.makespan_s(), best);
    }
}
