//! How much work is allowed, counted in steps.

/// How much work is allowed: the same on any machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BarEffort {
    /// Steps, each about one cell of a table; some hundred million pass in a second.
    pub steps: u64,
}

impl Default for BarEffort {
    fn default() -> Self {
        Self { steps: 400_000_000 }
    }
}

/// Steps between two looks whether to go on.
const BETWEEN_LOOKS: u64 = 500_000;

/// What is left of the work allowed.
pub(super) struct Meter<'a> {
    pub taken: u64,
    allowed: u64,
    next_look: u64,
    pub stopped: bool,
    go_on: &'a dyn Fn() -> bool,
}

impl<'a> Meter<'a> {
    pub fn new(effort: BarEffort, go_on: &'a dyn Fn() -> bool) -> Self {
        Self { taken: 0, allowed: effort.steps, next_look: 0, stopped: false, go_on }
    }

    /// Counts steps; false where the work is to end.
    pub fn spend(&mut self, steps: u64) -> bool {
        self.taken = self.taken.saturating_add(steps);
        if self.taken >= self.next_look && !self.stopped {
            self.next_look = self.taken + BETWEEN_LOOKS;
            self.stopped = !(self.go_on)();
        }
        self.goes_on()
    }

    pub fn goes_on(&self) -> bool {
        !self.stopped && self.taken < self.allowed
    }
}
