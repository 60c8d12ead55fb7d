//! The job in whole seconds, and the search: several lists of priorities, each improved forwards and backwards.

use std::collections::BTreeSet;

use petgraph::algo::tarjan_scc;
use petgraph::graph::DiGraph;

use crate::error::Problem;
use crate::shop::order::in_order;

use super::calendar::{Calendar, hours, seconds};
use super::serial::{Busy, Hands, Slot};
use super::{Job, Opening};

/// A task in seconds.
#[derive(Debug, Clone)]
pub(super) struct Own {
    pub length_s: u64,
    pub hands: Hands,
    pub after: Vec<usize>,
    /// Seconds of the working day in which it may start.
    pub window: (u64, u64),
    /// Not cut by night.
    pub whole: bool,
}

/// Tasks that are placed together: one, or all those between opening the body and closing it again on the same day.
#[derive(Debug, Clone)]
pub(super) struct Unit {
    /// In an order in which each comes after those it waits for.
    pub tasks: Vec<usize>,
    /// What they open and must close on that day.
    pub openings: Vec<Opening>,
    /// Number of units it waits for, and those that wait for it.
    pub waits: usize,
    pub then: Vec<usize>,
}

/// What a search goes by.
#[derive(Debug, Clone)]
pub(super) struct Plan {
    pub own: Vec<Own>,
    pub hands: Hands,
    pub calendar: Calendar,
    pub units: Vec<Unit>,
    /// Each after those it waits for.
    order: Vec<usize>,
    /// Seconds from the start of each task to the end of the longest chain behind it.
    tails: Vec<u64>,
}

/// Clock seconds that no schedule can end before.
#[derive(Debug, Clone, Copy)]
pub(super) struct LeastEnd {
    /// Of the longest chain.
    pub path: u64,
    /// Of all work shared out among the people.
    pub people: u64,
    /// Of all work shared out among the rivet tools.
    pub tools: u64,
}

impl LeastEnd {
    pub fn most(self) -> u64 {
        self.path.max(self.people).max(self.tools)
    }
}

/// Samples of priorities beside the plain rules: so many together with their tasks, that a large job takes no longer than a
/// small one, but within these numbers.
const SAMPLED_TASKS: usize = 600;
const SAMPLES: (usize, usize) = (2, 32);
/// Tasks of which every order is tried.
const FEW: usize = 6;
/// Most passes forwards and backwards from one list.
const PASSES: usize = 12;

impl Plan {
    /// A job whose single numbers are in order.
    ///
    /// # Errors
    /// Tasks that wait for each other; an opening that no day closes.
    pub fn new(job: &Job) -> Result<Self, Vec<Problem>> {
        let calendar = Calendar { start_s: job.crew.start_s, day_s: seconds(job.crew.day_hours) };
        let hands = Hands { people: job.crew.people, tools: job.crew.tools };
        let own: Vec<Own> = job
            .tasks
            .iter()
            .map(|task| {
                let work = |clock_s: u64| clock_s.saturating_sub(calendar.start_s).min(calendar.day_s);
                Own {
                    length_s: seconds(task.elapsed_h()),
                    hands: Hands { people: task.people, tools: task.tools },
                    after: task.after.clone(),
                    window: task.starts_within_s.map_or((0, calendar.day_s), |(from, until)| (work(from), work(until))),
                    whole: task.whole,
                }
            })
            .collect();
        let pairs: Vec<(usize, usize)> = pairs(&own);
        let order = in_order(own.len(), &pairs, |i| i).map_err(|tied| {
            let name = |i: &usize| job.tasks.get(*i).map_or("", |task| task.name.as_str());
            let next = tied.iter().cycle().skip(1);
            let words: Vec<String> =
                tied.iter().zip(next).map(|(first, then)| format!("{} before {}", name(first), name(then))).collect();
            let path = format!("tasks[{}].after", tied.first().copied().unwrap_or(0));
            let problem = "none of them can be the first; take one of these out";
            vec![Problem::contradiction(path, words.join(", "), problem)]
        })?;
        let mut tails = vec![0; own.len()];
        for &task in order.iter().rev() {
            tails[task] += own[task].length_s;
            for &before in &own[task].after {
                tails[before] = tails[task].max(tails[before]);
            }
        }
        let mut plan = Self { own, hands, calendar, units: Vec::new(), order, tails };
        plan.units = plan.units(if job.close_same_day { &job.openings } else { &[] });
        plan.try_units(job).map_or(Ok(plan), |problem| Err(vec![problem]))
    }

    /// Tasks one by one, but those between an opening and its closing together, and what lies between such tasks with them.
    fn units(&self, openings: &[Opening]) -> Vec<Unit> {
        let mut graph = DiGraph::<(), ()>::new();
        let nodes: Vec<_> = self.own.iter().map(|_| graph.add_node(())).collect();
        graph.extend_with_edges(pairs(&self.own).into_iter().map(|(first, then)| (nodes[first], nodes[then])));
        for opening in openings {
            // In a ring they are one: what lies on a way from one to another is drawn in.
            let ring: Vec<usize> = opening.opened_by.iter().chain(&opening.closed_by).copied().collect();
            let next = ring.iter().cycle().skip(1);
            graph.extend_with_edges(ring.iter().zip(next).map(|(&first, &then)| (nodes[first], nodes[then])));
        }
        let mut unit_of = vec![0; self.own.len()];
        let mut units: Vec<Unit> = Vec::new();
        for part in tarjan_scc(&graph) {
            let together: BTreeSet<usize> = part.into_iter().map(|node| node.index()).collect();
            for &task in &together {
                unit_of[task] = units.len();
            }
            let tasks = self.order.iter().copied().filter(|task| together.contains(task)).collect();
            let within = |opening: &&Opening| opening.opened_by.iter().any(|task| together.contains(task));
            let openings = openings.iter().filter(within).cloned().collect();
            units.push(Unit { tasks, openings, waits: 0, then: Vec::new() });
        }
        let between: BTreeSet<(usize, usize)> =
            pairs(&self.own).into_iter().map(|(first, then)| (unit_of[first], unit_of[then])).collect();
        for (first, then) in between.into_iter().filter(|(first, then)| first != then) {
            units[first].then.push(then);
            units[then].waits += 1;
        }
        units
    }

    /// Finds for the tasks of each opening an order that closes it on an empty day.
    fn try_units(&mut self, job: &Job) -> Option<Problem> {
        let mut left_open = Vec::new();
        for i in 0..self.units.len() {
            if self.units[i].openings.is_empty() {
                continue;
            }
            let mut best: Option<Vec<&Opening>> = None;
            for by_tail in [true, false] {
                let tasks =
                    self.ordered(&self.units[i].tasks, |task| if by_tail { u64::MAX - self.tails[task] } else { 0 });
                let mut slots = vec![Slot::default(); self.own.len()];
                let mut busy = Busy::new();
                for &task in &tasks {
                    slots[task] = self.place(&mut busy, &slots, task, 0);
                }
                self.units[i].tasks = tasks;
                let openings = &job.openings;
                let own = |opening: &&Opening| self.units[i].openings.contains(opening);
                let open: Vec<&Opening> =
                    openings.iter().filter(own).filter(|o| !self.closed_the_same_day(o, &slots)).collect();
                let done = open.is_empty();
                best = Some(open);
                if done {
                    break;
                }
            }
            let open = best.unwrap_or_default();
            if !open.is_empty() {
                let tasks = &self.units[i].tasks;
                let person_h: f64 = tasks.iter().map(|&task| job.tasks[task].person_hours()).sum();
                let names: Vec<&str> = open.iter().map(|opening| opening.name.as_str()).collect();
                let they = if names.len() == 1 { "is" } else { "are" };
                left_open.push(format!(
                    "{} {they} not closed on the day of opening: {} tasks of {person_h:.1} person-hours lie between",
                    names.join("; "),
                    tasks.len(),
                ));
            }
        }
        if left_open.is_empty() {
            return None;
        }
        // One rule is broken, however many places break it.
        let problem = format!(
            "{}; a day of this crew has {:.1} person-hours; open less at a time, take more people, or cover it at night and \
             leave this rule out",
            left_open.join("; "),
            hours(self.calendar.day_s) * f64::from(self.hands.people),
        );
        Some(Problem::contradiction("close_same_day", true, problem))
    }

    /// These tasks, each after those it waits for; the least key first where several could be next.
    fn ordered<K: Ord>(&self, tasks: &[usize], key: impl Fn(usize) -> K) -> Vec<usize> {
        let place = |task: usize| tasks.iter().position(|&other| other == task);
        let waits = |(i, &task): (usize, &usize)| {
            self.own[task].after.iter().filter_map(|&before| Some((place(before)?, i))).collect::<Vec<_>>()
        };
        let pairs: Vec<(usize, usize)> = tasks.iter().enumerate().flat_map(waits).collect();
        let order = in_order(tasks.len(), &pairs, |i| key(tasks[i])).unwrap_or_default();
        order.into_iter().map(|i| tasks[i]).collect()
    }

    /// Each task as early as can be with all hands free.
    fn earliest(&self) -> Vec<Slot> {
        let mut slots = vec![Slot::default(); self.own.len()];
        for &task in &self.order {
            slots[task] = self.place(&mut Busy::new(), &slots, task, 0);
        }
        slots
    }

    /// What no schedule can end before: the longest chain by the clock with all hands free, and all work shared out evenly.
    pub fn least_end(&self) -> LeastEnd {
        let slots = self.earliest();
        let path = slots.iter().map(|slot| slot.end_s).max().unwrap_or(0);
        let shared = |need: fn(Hands) -> u32| {
            let most = u64::from(need(self.hands));
            let own = || self.own.iter().zip(&slots).filter(|(own, _)| need(own.hands) > 0);
            let first = own().map(|(_, slot)| slot.work.0).min().unwrap_or(0);
            let all: u64 = own().map(|(own, _)| own.length_s * u64::from(need(own.hands))).sum();
            // Of tasks that take more than half of all, no two go on at a time.
            let alone = own().filter(|(own, _)| 2 * u64::from(need(own.hands)) > most);
            let (mut first_alone, mut length) = (u64::MAX, 0);
            for (own, slot) in alone {
                first_alone = first_alone.min(slot.work.0);
                length += own.length_s;
            }
            let end = |work: u64| if work == 0 { 0 } else { self.calendar.ends(work) };
            end(first + all.div_ceil(most.max(1))).max(end(if length == 0 { 0 } else { first_alone + length }))
        };
        LeastEnd { path, people: shared(|hands| hands.people), tools: shared(|hands| hands.tools) }
    }

    /// The best schedule found: of a few tasks the best of all orders. The same on every machine: whole numbers, and a fixed
    /// row of samples.
    pub fn search(&self, least_end_s: u64) -> Vec<Slot> {
        let end = |slots: &[Slot]| slots.iter().map(|slot| slot.end_s).max().unwrap_or(0);
        let rank = |slots: &[Slot]| (end(slots), slots.iter().map(|slot| slot.end_s).sum::<u64>());
        let mut best: Option<Vec<Slot>> = None;
        for priorities in self.lists() {
            if best.as_ref().is_some_and(|best| end(best) <= least_end_s) {
                break;
            }
            let mut now = self.serial(|task| (priorities[task], task));
            for _ in 0..PASSES {
                let later = self.latest(&now);
                let again = self.serial(|task| (later[task], task));
                if rank(&again) >= rank(&now) {
                    break;
                }
                now = again;
            }
            if best.as_ref().is_none_or(|best| rank(&now) < rank(best)) {
                best = Some(now);
            }
        }
        best.unwrap_or_default()
    }

    /// Priorities to try, the least first: the longest chain behind a task, the order as given, the earliest start; then all
    /// orders of a few tasks, or samples around the longest chain, near and far in turn.
    fn lists(&self) -> Vec<Vec<u64>> {
        let count = self.own.len();
        let by_tail = self.tails.iter().map(|tail| u64::MAX - tail).collect();
        let as_given: Vec<u64> = (0..count as u64).collect();
        let by_start = self.earliest().iter().map(|slot| slot.start_s).collect();
        let mut lists = vec![by_tail, as_given.clone(), by_start];
        if count <= FEW {
            orders(&as_given, &mut Vec::new(), &mut lists);
            return lists;
        }
        let mut state = 0x9e37_79b9_7f4a_7c15_u64;
        let mut random = |most: u64| {
            // Xorshift.
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            state % (most + 1)
        };
        for sample in 0..(SAMPLED_TASKS / count.max(1)).clamp(SAMPLES.0, SAMPLES.1) {
            let (least, spread) = if sample % 2 == 0 { (80, 40) } else { (40, 120) };
            lists.push(self.tails.iter().map(|tail| u64::MAX - tail * (least + random(spread))).collect());
        }
        lists
    }

    /// Starts of the tasks, each pushed as late as people allow without a later end: the priorities of the next pass. Nights
    /// and windows do not count here; the pass that follows keeps them.
    fn latest(&self, slots: &[Slot]) -> Vec<u64> {
        let end = slots.iter().map(|slot| slot.work.1).max().unwrap_or(0);
        let mut position = vec![0; slots.len()];
        for (i, &task) in self.order.iter().enumerate() {
            position[task] = i;
        }
        let mut backwards: Vec<usize> = (0..slots.len()).collect();
        backwards.sort_by_key(|&task| std::cmp::Reverse((slots[task].end_s, position[task])));
        // Time runs from the end here.
        let mut busy = Busy::new();
        let mut ready = vec![0; slots.len()];
        let mut starts = vec![0; slots.len()];
        for task in backwards {
            let (own, length) = (&self.own[task], slots[task].work.1 - slots[task].work.0);
            let from = if own.hands.people == 0 {
                ready[task]
            } else {
                let from = busy.first(ready[task], length, own.hands, self.hands, |moment| moment);
                busy.add(from, from + length, own.hands);
                from
            };
            for &before in &own.after {
                ready[before] = ready[before].max(from + length);
            }
            starts[task] = end.saturating_sub(from + length);
        }
        starts
    }
}

fn pairs(own: &[Own]) -> Vec<(usize, usize)> {
    own.iter().enumerate().flat_map(|(task, own)| own.after.iter().map(move |&before| (before, task))).collect()
}

/// Every order of what is left, each as priorities by task.
fn orders(left: &[u64], taken: &mut Vec<u64>, lists: &mut Vec<Vec<u64>>) {
    if left.is_empty() {
        lists.push(taken.clone());
    }
    for (i, &next) in left.iter().enumerate() {
        taken.push(next);
        let others: Vec<u64> = left.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, &other)| other).collect();
        orders(&others, taken, lists);
        taken.pop();
    }
}
