use super::Group;
use super::place::{Line, Places};
use core::iter::{FusedIterator, Peekable};

/// Where events fall, in order; see [`Spacing::positions`](super::Spacing::positions).
#[derive(Clone, Debug)]
pub struct Positions<'a> {
    places: &'a Places,
    border: u32,
    /// The next event and the one after the last, counted from 1.
    front: u32,
    back: u32,
    walk: Option<Walk>,
}

/// A line walked step by step: what the division left over is carried along.
#[derive(Clone, Copy, Debug)]
struct Walk {
    next: u32,
    step: u32,
    rest: u64,
    gain: u64,
    modulus: u64,
}

impl Walk {
    fn from(line: Line, k: u32) -> Option<Self> {
        let modulus = u64::try_from(line.d).ok()?;
        let a = u64::try_from(line.a).ok()?;
        let at = u64::try_from(line.a * i64::from(k) + line.c).ok()?;
        Some(Self {
            next: u32::try_from(at / modulus).ok()?,
            step: u32::try_from(a / modulus).ok()?,
            rest: at % modulus,
            gain: a % modulus,
            modulus,
        })
    }

    fn advance(&mut self) -> u32 {
        let place = self.next;
        self.rest += self.gain;
        let over = self.rest >= self.modulus;
        self.rest -= if over { self.modulus } else { 0 };
        self.next += self.step + u32::from(over);
        place
    }
}

impl<'a> Positions<'a> {
    pub(super) fn new(places: &'a Places, border: u32) -> Self {
        let walk = places.walk().and_then(|line| Walk::from(line, 1));
        Self { places, border, front: 1, back: places.events + 1, walk }
    }
}

impl Iterator for Positions<'_> {
    type Item = u32;

    fn next(&mut self) -> Option<u32> {
        if self.front >= self.back {
            return None;
        }
        let k = self.front;
        self.front += 1;
        let place = match &mut self.walk {
            Some(walk) => self.places.keep(k, walk.advance()),
            None => self.places.at(k),
        };
        Some(self.border + place)
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        let left = self.back.saturating_sub(self.front) as usize;
        (left, Some(left))
    }
}

impl DoubleEndedIterator for Positions<'_> {
    fn next_back(&mut self) -> Option<u32> {
        if self.front >= self.back {
            return None;
        }
        self.back -= 1;
        Some(self.border + self.places.at(self.back))
    }
}

impl ExactSizeIterator for Positions<'_> {}
impl FusedIterator for Positions<'_> {}

/// Runs of groups, in order; see [`Spacing::groups`](super::Spacing::groups).
#[derive(Clone, Debug)]
pub struct Groups<'a> {
    positions: Peekable<Positions<'a>>,
    last: u32,
}

impl<'a> Groups<'a> {
    pub(super) fn new(positions: Positions<'a>, border: u32) -> Self {
        Self { positions: positions.peekable(), last: border }
    }
}

impl Iterator for Groups<'_> {
    type Item = Group;

    fn next(&mut self) -> Option<Group> {
        let size = self.positions.peek()? - self.last;
        let mut group = Group { size, times: 0 };
        while self.positions.peek().is_some_and(|place| place - self.last == size) {
            self.positions.next();
            self.last += size;
            group.times += 1;
        }
        Some(group)
    }
}

impl FusedIterator for Groups<'_> {}
