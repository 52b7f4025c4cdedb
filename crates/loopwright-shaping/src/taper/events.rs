use super::plan::{Plan, Shape};
use super::{Event, Segment};
use crate::split::Mix;
use core::iter::FusedIterator;

/// The shapings of a taper in knitting order; see [`Taper::events`](super::Taper::events).
///
/// Walking a straight line forwards costs an addition and a comparison a shaping:
/// what the division left over is carried along, so no row without a shaping is
/// ever visited. Walking backwards and skipping use the closed form.
#[derive(Clone, Debug)]
pub struct Events {
    plan: Plan,
    front: u32,
    back: u32,
    walk: Option<Walk>,
}

/// The next shaping of a straight line, and how the one after it follows from it.
#[derive(Clone, Copy, Debug)]
struct Walk {
    next: Event,
    step: u32,
    stitches: u32,
    /// What is added when the remainder overflows.
    carry: Event,
    rest: u32,
    gain: u32,
    modulus: u32,
}

impl Walk {
    /// The walk from event `k`; only straight lines have one.
    fn from(plan: Plan, k: u32) -> Option<Self> {
        let (split, lead) = match plan.shape {
            Shape::Sparse { split, lead, .. } => (split, lead),
            Shape::Dense { split } => (split, 1),
            Shape::Straight => return None,
        };
        let Mix::Line { phase } = split.mix else { return None };
        let narrow = |n: u64| u32::try_from(n).ok();
        let modulus = 2 * split.parts;
        let (quotient, gain) = (split.total / split.parts, 2 * split.total % modulus);
        let rest = (2 * split.total * (u64::from(k) + lead) + phase) % modulus;
        let (quotient, every, unit) = (narrow(quotient)?, plan.slots.every, plan.unit);
        let (step, stitches, carry) = match plan.shape {
            Shape::Dense { .. } => {
                (every, quotient.checked_mul(unit)?, Event { row: 0, stitches: unit })
            }
            _ => (quotient.checked_mul(every)?, unit, Event { row: every, stitches: 0 }),
        };
        let next = plan.event(k);
        let (rest, gain, modulus) = (narrow(rest)?, narrow(gain)?, narrow(modulus)?);
        Some(Self { next, step, stitches, carry, rest, gain, modulus })
    }

    fn advance(&mut self) -> Event {
        let event = self.next;
        self.rest += self.gain;
        let over = self.rest >= self.modulus;
        let carried = u32::from(over);
        self.rest -= if over { self.modulus } else { 0 };
        self.next.row += self.step + carried * self.carry.row;
        self.next.stitches = self.stitches + carried * self.carry.stitches;
        event
    }
}

impl Events {
    pub(super) fn new(plan: Plan) -> Self {
        Self::between(plan, 0, plan.len())
    }

    fn between(plan: Plan, front: u32, back: u32) -> Self {
        let walk = if front < back { Walk::from(plan, front) } else { None };
        Self { plan, front, back, walk }
    }
}

impl Iterator for Events {
    type Item = Event;

    fn next(&mut self) -> Option<Event> {
        if self.front == self.back {
            return None;
        }
        let k = self.front;
        self.front += 1;
        Some(match &mut self.walk {
            Some(walk) => walk.advance(),
            None => self.plan.event(k),
        })
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        let left = (self.back - self.front) as usize;
        (left, Some(left))
    }

    fn nth(&mut self, n: usize) -> Option<Event> {
        let left = self.back - self.front;
        let skipped = u32::try_from(n).unwrap_or(u32::MAX).min(left);
        *self = Self::between(self.plan, self.front + skipped, self.back);
        self.next()
    }

    /// Runs the whole walk in one loop, without asking each time which kind it is.
    fn fold<B, F: FnMut(B, Event) -> B>(self, start: B, mut add: F) -> B {
        let mut sum = start;
        match self.walk {
            Some(mut walk) => {
                for _ in self.front..self.back {
                    sum = add(sum, walk.advance());
                }
            }
            None => {
                for k in self.front..self.back {
                    sum = add(sum, self.plan.event(k));
                }
            }
        }
        sum
    }
}

impl DoubleEndedIterator for Events {
    fn next_back(&mut self) -> Option<Event> {
        if self.front == self.back {
            return None;
        }
        self.back -= 1;
        Some(self.plan.event(self.back))
    }
}

impl ExactSizeIterator for Events {}
impl FusedIterator for Events {}

/// The shapings of a taper as runs of equal gaps; see
/// [`Taper::segments`](super::Taper::segments).
#[derive(Clone, Debug)]
pub struct Segments {
    events: core::iter::Peekable<Events>,
    last_row: u32,
}

impl Segments {
    pub(super) fn new(events: Events, from: u32) -> Self {
        Self { events: events.peekable(), last_row: from }
    }

    /// The gap and the stitches of the next shaping.
    fn ahead(&mut self) -> Option<(u32, u32)> {
        let last_row = self.last_row;
        self.events.peek().map(|event| (event.row - last_row, event.stitches))
    }
}

impl Iterator for Segments {
    type Item = Segment;

    fn next(&mut self) -> Option<Segment> {
        let (every, stitches) = self.ahead()?;
        let mut segment = Segment { every, times: 0, stitches };
        while self.ahead() == Some((every, stitches)) {
            self.events.next();
            self.last_row += every;
            segment.times += 1;
        }
        Some(segment)
    }
}

impl FusedIterator for Segments {}
