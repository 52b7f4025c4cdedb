//! Where the shapings of a taper fall, as closed forms.

use super::Event;
use crate::even::Carry;
use crate::split::{Mix, Rest, Split};
use loopwright_gauge::{Rows, Stitches};

/// A shaping in plain numbers: a row, or rows on, and stitches.
#[derive(Clone, Copy, Debug, Default, Eq, Hash, PartialEq)]
pub(super) struct Jump {
    pub(super) row: u32,
    pub(super) stitches: u32,
}

impl Jump {
    #[inline]
    pub(super) const fn event(self) -> Event {
        Event { row: Rows::clamped(self.row), stitches: Stitches::clamped(self.stitches) }
    }
}

/// Legal rows as slots 1, 2, ..., `count`: slot `i` is row `origin + every * i`.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub(super) struct Slots {
    /// One period before the first slot's row; below zero when row 1 is legal
    /// and the period is longer.
    pub(super) origin: i64,
    pub(super) every: u32,
    pub(super) count: u32,
}

impl Slots {
    pub(super) fn row(self, slot: u64) -> u32 {
        let row = self.origin + i64::from(self.every) * i64::try_from(slot).unwrap_or(0);
        u32::try_from(row).unwrap_or(0)
    }

    /// How many slots lie on or before `row`.
    fn until(self, row: u32) -> u64 {
        let past = (i64::from(row) - self.origin).max(0) / i64::from(self.every);
        u64::try_from(past).unwrap_or(0).min(self.count.into())
    }
}

#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub(super) enum Shape {
    Straight,
    /// At most one shaping a slot: event `k` is in slot `at(k + lead) + base - shift`.
    Sparse {
        split: Split,
        events: u32,
        lead: u64,
        base: u64,
        shift: u64,
    },
    /// A shaping in every slot: `at(i)` units are done after slot `i`.
    Dense {
        split: Split,
    },
}

/// A taper's shapings; each is `unit` stitches, or a multiple of it.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub(super) struct Plan {
    pub(super) slots: Slots,
    pub(super) shape: Shape,
    pub(super) unit: u32,
    /// The walk from the first shaping on, so that none need be made to iterate.
    pub(super) first: Walk,
}

/// The next shaping, and how the one after it follows: an addition, and another when
/// what was left over reaches a whole.
///
/// Every order is a walk of one rate, or of one and then another: a line and two rates
/// by turns carry something over, blocks do not.
#[derive(Clone, Copy, Debug, Default, Eq, Hash, PartialEq)]
pub(super) struct Walk {
    next: Jump,
    /// Rows to the next shaping, and its stitches.
    step: Jump,
    /// What is added when the remainder reaches the modulus.
    carry: Jump,
    remainder: Carry<u32>,
    /// After so many shapings more the second rate begins.
    pub(super) turn: u32,
    second: Jump,
    second_gain: u32,
}

impl Walk {
    #[inline]
    pub(super) fn advance(&mut self) -> Jump {
        let event = self.next;
        // All of it stays far below 2^32 by the bounds, so nothing is checked in this loop.
        let over = self.remainder.next();
        let (rows, stitches) = if over { (self.carry.row, self.carry.stitches) } else { (0, 0) };
        self.next.row = event.row.wrapping_add(self.step.row).wrapping_add(rows);
        self.next.stitches = self.step.stitches.wrapping_add(stitches);
        event
    }

    /// Goes over to the second rate.
    pub(super) const fn turn(&mut self) {
        (self.step, self.remainder.gain) = (self.second, self.second_gain);
    }
}

impl Plan {
    pub(super) fn new(slots: Slots, shape: Shape, unit: u32) -> Self {
        let mut plan = Self { slots, shape, unit, first: Walk::default() };
        plan.first = plan.walk(0);
        plan
    }

    /// The same shapings from the last row back; `rows` are the first and the last row.
    pub(super) fn mirrored(self, rows: (u32, u32)) -> Self {
        let Slots { origin, every, count } = self.slots;
        let all = i64::from(rows.0) + i64::from(rows.1);
        let origin = all - origin - i64::from(every) * (i64::from(count) + 1);
        let shape = match self.shape {
            Shape::Straight => Shape::Straight,
            Shape::Dense { split } => Shape::Dense { split: split.mirrored() },
            Shape::Sparse { split, events, lead, base, shift } => {
                // Slot `s` is slot `count + 1 - s` from the other end.
                let plus = u64::from(count) + 1 + shift;
                let minus = split.at(split.parts) + base;
                Shape::Sparse {
                    split: split.mirrored(),
                    events,
                    lead: split.parts + 1 - u64::from(events) - lead,
                    base: plus.saturating_sub(minus),
                    shift: minus.saturating_sub(plus),
                }
            }
        };
        Self::new(Slots { origin, every, count }, shape, self.unit)
    }

    /// The walk from event `k` on.
    pub(super) fn walk(self, k: u32) -> Walk {
        let (split, lead) = match self.shape {
            Shape::Sparse { split, lead, .. } => (split, lead),
            Shape::Dense { split } => (split, 1),
            Shape::Straight => return Walk::default(),
        };
        if k >= self.len() {
            return Walk::default();
        }
        // Parts of the split that lie before the next shaping.
        let j = u64::from(k) + lead;
        let (small, larger) = (split.total / split.parts, split.total % split.parts);
        let narrow = |n: u64| u32::try_from(n).unwrap_or(u32::MAX);
        let step = |size: u64| self.step(narrow(size));
        let mut walk = Walk {
            next: self.event(k),
            step: step(small),
            carry: self.carry(),
            remainder: Carry { rest: 0, gain: 0, modulus: 1 },
            turn: u32::MAX,
            second: step(small),
            second_gain: 0,
        };
        let turn_after = |parts: u64| narrow(parts.saturating_sub(j));
        match split.mix {
            Mix::Line { phase } => {
                walk.remainder.modulus = narrow(2 * split.parts);
                walk.remainder.gain = narrow(2 * larger);
                walk.remainder.rest = narrow((2 * split.total * j + phase) % (2 * split.parts));
            }
            Mix::LargeFirst => (walk.step, walk.turn) = (step(small + 1), turn_after(larger)),
            Mix::SmallFirst => {
                (walk.second, walk.turn) = (step(small + 1), turn_after(split.parts - larger));
            }
            Mix::Alternate { rest, large_first } => {
                let (turns, others, size) = split.turns();
                let by_turns = |before: u64| narrow((before + u64::from(large_first)) % 2);
                walk.remainder.modulus = 2;
                match rest {
                    Rest::Last => {
                        (walk.remainder.gain, walk.remainder.rest) = (1, by_turns(j));
                        (walk.second, walk.turn) = (step(size), turn_after(turns));
                    }
                    Rest::First => {
                        (walk.step, walk.turn) = (step(size), turn_after(others));
                        (walk.second, walk.second_gain) = (step(small), 1);
                        walk.remainder.rest = by_turns(j.saturating_sub(others));
                    }
                }
            }
        }
        walk
    }

    /// From one shaping to the next, when a part of the split is `size`.
    fn step(self, size: u32) -> Jump {
        match self.shape {
            Shape::Dense { .. } => {
                Jump { row: self.slots.every, stitches: size.saturating_mul(self.unit) }
            }
            _ => Jump { row: size.saturating_mul(self.slots.every), stitches: self.unit },
        }
    }

    /// What a part that is one larger adds.
    fn carry(self) -> Jump {
        match self.shape {
            Shape::Dense { .. } => Jump { row: 0, stitches: self.unit },
            _ => Jump { row: self.slots.every, stitches: 0 },
        }
    }

    pub(super) const fn len(self) -> u32 {
        match self.shape {
            Shape::Straight => 0,
            Shape::Sparse { events, .. } => events,
            Shape::Dense { .. } => self.slots.count,
        }
    }

    /// Jump `k`, counted from 0, `k < len()`.
    pub(super) fn event(self, k: u32) -> Jump {
        let k = u64::from(k);
        let (slot, units) = match self.shape {
            Shape::Straight => (0, 0),
            Shape::Sparse { split, lead, base, shift, .. } => {
                (split.at(k + lead) + base - shift, 1)
            }
            Shape::Dense { split } => (k + 1, split.at(k + 1) - split.at(k)),
        };
        Jump { row: self.slots.row(slot), stitches: self.stitches(units) }
    }

    /// Stitches shaped at one edge once `row` is worked.
    pub(super) fn stitches_after(self, row: u32) -> u32 {
        let slot = self.slots.until(row);
        let units = match self.shape {
            Shape::Straight => 0,
            Shape::Dense { split } => split.at(slot),
            Shape::Sparse { split, events, lead, base, shift } => (slot + shift)
                .checked_sub(base)
                .and_then(|sum| split.find(sum))
                .map_or(0, |found| (found + 1 - lead).min(events.into())),
        };
        self.stitches(units)
    }

    fn stitches(self, units: u64) -> u32 {
        u32::try_from(units).unwrap_or(u32::MAX).saturating_mul(self.unit)
    }
}
