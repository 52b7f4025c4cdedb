use super::plan::{Plan, Walk};
use super::{Event, Segment};
use core::iter::FusedIterator;
use loopwright_gauge::{Rows, Stitches};

/// The shapings of a taper in knitting order; see [`Taper::events`](super::Taper::events).
///
/// Walking forwards costs an addition and a comparison a shaping: what the division
/// left over is carried along, so no row without a shaping is ever visited. Walking
/// backwards and skipping use the closed form.
#[derive(Clone, Debug)]
pub struct Events<'a> {
    walk: Walk,
    /// Events still to come at the rate of `walk`.
    now: u32,
    /// Events still to come after those.
    later: u32,
    /// The number of the event after the last still to come.
    back: u32,
    plan: &'a Plan,
}

impl<'a> Events<'a> {
    pub(super) fn new(plan: &'a Plan) -> Self {
        let all = plan.len();
        let walk = plan.first;
        let now = walk.turn.min(all);
        Self { walk, now, later: all - now, back: all, plan }
    }

    const fn left(&self) -> u32 {
        self.now + self.later
    }

    /// Goes over to the second rate; false when nothing is left.
    #[cold]
    fn turn(&mut self) -> bool {
        (self.now, self.later) = (self.later, 0);
        self.walk.turn();
        self.now > 0
    }
}

impl Iterator for Events<'_> {
    type Item = Event;

    #[inline]
    fn next(&mut self) -> Option<Event> {
        if self.now == 0 && !self.turn() {
            return None;
        }
        self.now -= 1;
        Some(self.walk.advance().event())
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        let left = self.left() as usize;
        (left, Some(left))
    }

    fn nth(&mut self, n: usize) -> Option<Event> {
        let skipped = u32::try_from(n).unwrap_or(u32::MAX).min(self.left());
        let k = self.back - self.left() + skipped;
        self.walk = self.plan.walk(k);
        let left = self.back - k;
        self.now = self.walk.turn.min(left);
        self.later = left - self.now;
        self.next()
    }

    /// Runs each rate in a loop of its own.
    #[inline]
    fn fold<B, F: FnMut(B, Event) -> B>(mut self, start: B, mut add: F) -> B {
        let mut sum = start;
        for _ in 0..self.now {
            sum = add(sum, self.walk.advance().event());
        }
        self.walk.turn();
        for _ in 0..self.later {
            sum = add(sum, self.walk.advance().event());
        }
        sum
    }
}

impl DoubleEndedIterator for Events<'_> {
    fn next_back(&mut self) -> Option<Event> {
        if self.later > 0 {
            self.later -= 1;
        } else if self.now > 0 {
            self.now -= 1;
        } else {
            return None;
        }
        self.back -= 1;
        Some(self.plan.event(self.back).event())
    }
}

impl ExactSizeIterator for Events<'_> {}
impl FusedIterator for Events<'_> {}

/// The shapings of a taper as runs of equal gaps; see
/// [`Taper::segments`](super::Taper::segments).
#[derive(Clone, Debug)]
pub struct Segments<'a> {
    events: core::iter::Peekable<Events<'a>>,
    last_row: u32,
}

impl<'a> Segments<'a> {
    pub(super) fn new(events: Events<'a>, from: u32) -> Self {
        Self { events: events.peekable(), last_row: from }
    }

    /// The gap and the stitches of the next shaping.
    fn ahead(&mut self) -> Option<(u32, Stitches)> {
        let last_row = self.last_row;
        self.events.peek().map(|event| (event.row.get() - last_row, event.stitches))
    }
}

impl Iterator for Segments<'_> {
    type Item = Segment;

    fn next(&mut self) -> Option<Segment> {
        let (every, stitches) = self.ahead()?;
        let mut segment = Segment { every: Rows::clamped(every), times: 0, stitches };
        while self.ahead() == Some((every, stitches)) {
            self.events.next();
            self.last_row += every;
            segment.times += 1;
        }
        Some(segment)
    }
}

impl FusedIterator for Segments<'_> {}
