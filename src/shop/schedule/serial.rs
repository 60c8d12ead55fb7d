//! One schedule from one list of priorities: each task in turn at the first moment at which people and tools are free.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::Opening;
use super::calendar::DAY_S;
use super::plan::{Plan, Unit};

/// People and tools.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Hands {
    pub people: u32,
    pub tools: u32,
}

impl Hands {
    fn with(self, other: Self) -> Self {
        Self { people: self.people + other.people, tools: self.tools + other.tools }
    }

    pub fn within(self, most: Self) -> bool {
        self.people <= most.people && self.tools <= most.tools
    }
}

/// How many hands are busy, from each moment on until the next.
#[derive(Debug, Clone)]
pub(super) struct Busy {
    steps: Vec<(u64, Hands)>,
}

impl Busy {
    pub fn new() -> Self {
        Self { steps: vec![(0, Hands::default())] }
    }

    /// The step that holds this moment.
    fn at(&self, moment: u64) -> usize {
        self.steps.partition_point(|(from, _)| *from <= moment).saturating_sub(1)
    }

    /// The moment after which nobody is busy.
    pub fn end(&self) -> u64 {
        self.steps.last().map_or(0, |(from, _)| *from)
    }

    /// Makes hands busy from one moment to another.
    pub fn add(&mut self, from: u64, to: u64, hands: Hands) {
        for moment in [from, to] {
            let i = self.at(moment);
            if let Some(&(_, busy)) = self.steps.get(i).filter(|(start, _)| *start != moment) {
                self.steps.insert(i + 1, (moment, busy));
            }
        }
        let (first, last) = (self.at(from), self.at(to));
        for (_, busy) in self.steps.get_mut(first..last).unwrap_or_default() {
            *busy = busy.with(hands);
        }
    }

    /// The first moment not before `ready` at which so many are free for so long; `allowed` moves a moment on to the next at
    /// which the task may start.
    pub fn first(&self, ready: u64, length: u64, need: Hands, most: Hands, allowed: impl Fn(u64) -> u64) -> u64 {
        let mut start = allowed(ready);
        let mut i = self.at(start);
        while let Some((_, busy)) = self.steps.get(i).filter(|(from, _)| *from < start + length) {
            let until = self.steps.get(i + 1).map_or(u64::MAX, |(next, _)| *next);
            if need.with(*busy).within(most) || until == u64::MAX {
                i += 1;
            } else {
                start = allowed(until);
                i = self.at(start);
            }
        }
        start
    }
}

/// When a task is done: clock, and working time where people do it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Slot {
    pub start_s: u64,
    pub end_s: u64,
    /// Start and end in working time; of what people do not do, the working times not before.
    pub work: (u64, u64),
}

impl Plan {
    /// Places one task not before a working time and not before what it waits for.
    pub(super) fn place(&self, busy: &mut Busy, slots: &[Slot], task: usize, not_before: u64) -> Slot {
        let own = &self.own[task];
        let ends = own.after.iter().map(|&before| slots[before].end_s);
        let ready_s = ends.max().unwrap_or(0).max(self.calendar.starts(not_before));
        if own.hands.people == 0 {
            let start_s = ready_s.max(self.calendar.start_s);
            let end_s = start_s + own.length_s;
            return Slot { start_s, end_s, work: (self.calendar.work(start_s), self.calendar.work(end_s)) };
        }
        let ready = self.calendar.work(ready_s);
        let start = busy.first(ready, own.length_s, own.hands, self.hands, |moment| self.allowed(task, moment));
        busy.add(start, start + own.length_s, own.hands);
        let work = (start, start + own.length_s);
        Slot { start_s: self.calendar.starts(start), end_s: self.calendar.ends(work.1), work }
    }

    /// The first working time not before this one at which the task may start: in its window, and ended by night where it must
    /// not be cut.
    pub(super) fn allowed(&self, task: usize, mut moment: u64) -> u64 {
        let (own, day) = (&self.own[task], self.calendar.day_s);
        // Each turn moves to the start of a window; a task that fits in no day was refused.
        for _ in 0..3 {
            let (morning, second) = (moment / day * day, moment % day);
            if second < own.window.0 {
                moment = morning + own.window.0;
            } else if second >= own.window.1 || (own.whole && second + own.length_s > day) {
                moment = morning + day + own.window.0;
            } else {
                break;
            }
        }
        moment
    }

    /// The schedule that these priorities give, the least first.
    pub(super) fn serial<K: Ord>(&self, priority: impl Fn(usize) -> K) -> Vec<Slot> {
        let mut slots = vec![Slot::default(); self.own.len()];
        let mut busy = Busy::new();
        let mut waits: Vec<usize> = self.units.iter().map(|unit| unit.waits).collect();
        let ready = |i: usize| Reverse((self.units[i].tasks.iter().map(|&task| priority(task)).min(), i));
        let free = waits.iter().enumerate().filter(|(_, waits)| **waits == 0);
        let mut next: BinaryHeap<_> = free.map(|(i, _)| ready(i)).collect();
        while let Some(Reverse((_, i))) = next.pop() {
            let unit = &self.units[i];
            match unit.tasks.as_slice() {
                [one] if unit.openings.is_empty() => slots[*one] = self.place(&mut busy, &slots, *one, 0),
                _ => self.place_on_one_day(&mut busy, &mut slots, unit),
            }
            for &then in &unit.then {
                waits[then] -= 1;
                if waits[then] == 0 {
                    next.push(ready(then));
                }
            }
        }
        slots
    }

    /// Places tasks on the first day on which they close all that they open.
    fn place_on_one_day(&self, busy: &mut Busy, slots: &mut [Slot], unit: &Unit) {
        let day_s = self.calendar.day_s;
        let mut not_before = 0;
        loop {
            let mut trial = busy.clone();
            for &task in &unit.tasks {
                slots[task] = self.place(&mut trial, slots, task, not_before);
            }
            let late = unit.openings.iter().filter(|opening| !self.closed_the_same_day(opening, slots));
            let Some(day) = late.map(|opening| opened_on(opening, slots)).min() else {
                *busy = trial;
                return;
            };
            // Past all other work a day is as good as the empty one on which these tasks were tried.
            let all_free = not_before > busy.end() && not_before > 0 && slots_before(self, slots, unit) < not_before;
            if all_free {
                *busy = trial;
                return;
            }
            not_before = (day + 1) * day_s;
        }
    }

    /// What this opens is closed by the evening of the same day.
    pub(super) fn closed_the_same_day(&self, opening: &Opening, slots: &[Slot]) -> bool {
        let evening = self.calendar.evening(opened_on(opening, slots));
        opening.closed_by.iter().all(|&task| slots[task].end_s <= evening)
    }
}

/// The day on which it is opened, the first being day 0.
fn opened_on(opening: &Opening, slots: &[Slot]) -> u64 {
    opening.opened_by.iter().map(|&task| slots[task].start_s / DAY_S).min().unwrap_or(0)
}

/// The working time at which all is done that these tasks wait for.
fn slots_before(plan: &Plan, slots: &[Slot], unit: &Unit) -> u64 {
    let before =
        unit.tasks.iter().flat_map(|&task| &plan.own[task].after).filter(|before| !unit.tasks.contains(before));
    before.map(|&before| slots[before].work.1).max().unwrap_or(0)
}
