use super::SpacedGroup;
use super::place::{Line, Places};
use crate::even::EvenWalk;
use core::iter::{FusedIterator, Peekable};
use loopwright_gauge::Stitches;

/// Where events fall, in order; see [`Spacing::positions`](super::Spacing::positions).
#[derive(Clone, Debug)]
pub struct Positions<'a> {
    places: &'a Places,
    border: u32,
    /// The next event and the one after the last, counted from 1.
    front: u32,
    back: u32,
    walk: Option<EvenWalk<u64>>,
}

fn walk(line: Line, k: u32) -> Option<EvenWalk<u64>> {
    let start = u64::try_from(line.a * i64::from(k) + line.c).ok()?;
    EvenWalk::new(start, line.a.try_into().ok()?, line.d.try_into().ok()?)
}

impl<'a> Positions<'a> {
    pub(super) fn new(places: &'a Places, border: u32) -> Self {
        let walk = places.walk().and_then(|line| walk(line, 1));
        Self { places, border, front: 1, back: places.events + 1, walk }
    }
}

impl Iterator for Positions<'_> {
    type Item = Stitches;

    fn next(&mut self) -> Option<Stitches> {
        if self.front >= self.back {
            return None;
        }
        let k = self.front;
        self.front += 1;
        let walked = self.walk.as_mut().and_then(Iterator::next);
        let place = match walked {
            Some(place) => self.places.keep(k, u32::try_from(place).unwrap_or(u32::MAX)),
            None => self.places.at(k),
        };
        Some(Stitches::clamped(self.border + place))
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        let left = self.back.saturating_sub(self.front) as usize;
        (left, Some(left))
    }
}

impl DoubleEndedIterator for Positions<'_> {
    fn next_back(&mut self) -> Option<Stitches> {
        if self.front >= self.back {
            return None;
        }
        self.back -= 1;
        Some(Stitches::clamped(self.border + self.places.at(self.back)))
    }
}

impl ExactSizeIterator for Positions<'_> {}
impl FusedIterator for Positions<'_> {}

/// Runs of groups, in order; see [`Spacing::groups`](super::Spacing::groups).
#[derive(Clone, Debug)]
pub struct SpacedGroups<'a> {
    positions: Peekable<Positions<'a>>,
    last: u32,
}

impl<'a> SpacedGroups<'a> {
    pub(super) fn new(positions: Positions<'a>, border: u32) -> Self {
        Self { positions: positions.peekable(), last: border }
    }
}

impl Iterator for SpacedGroups<'_> {
    type Item = SpacedGroup;

    fn next(&mut self) -> Option<SpacedGroup> {
        let size = self.positions.peek()?.get() - self.last;
        let mut group = SpacedGroup { size: Stitches::clamped(size), times: 0 };
        while self.positions.peek().is_some_and(|place| place.get() - self.last == size) {
            self.positions.next();
            self.last += size;
            group.times += 1;
        }
        Some(group)
    }
}

impl FusedIterator for SpacedGroups<'_> {}
