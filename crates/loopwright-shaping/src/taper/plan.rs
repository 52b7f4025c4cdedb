//! Where the shapings of a taper fall, as closed forms.

use super::Event;
use crate::split::Split;

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
}

impl Plan {
    pub(super) const fn len(self) -> u32 {
        match self.shape {
            Shape::Straight => 0,
            Shape::Sparse { events, .. } => events,
            Shape::Dense { .. } => self.slots.count,
        }
    }

    /// Event `k`, counted from 0, `k < len()`.
    pub(super) fn event(self, k: u32) -> Event {
        let k = u64::from(k);
        let (slot, units) = match self.shape {
            Shape::Straight => (0, 0),
            Shape::Sparse { split, lead, base, shift, .. } => {
                (split.at(k + lead) + base - shift, 1)
            }
            Shape::Dense { split } => (k + 1, split.at(k + 1) - split.at(k)),
        };
        Event { row: self.slots.row(slot), stitches: self.stitches(units) }
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
