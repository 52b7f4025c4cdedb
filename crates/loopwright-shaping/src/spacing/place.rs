//! Where events fall, as closed forms.

use crate::split::Split;
use alloc::vec::Vec;
use loopwright_gauge::Round;

/// `floor((a * k + c) / d)` for event `k = 1, 2, ...`; never below zero there, and
/// below 2^50 before dividing.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub(super) struct Line {
    pub(super) a: i64,
    pub(super) c: i64,
    pub(super) d: i64,
}

impl Line {
    pub(super) fn at(self, k: u32) -> u32 {
        u32::try_from((self.a * i64::from(k) + self.c).div_euclid(self.d)).unwrap_or(0)
    }

    /// The line whose floor is this line's value rounded; `None` when it is not whole
    /// under [`Round::Exact`], or for [`Round::HalfEven`], which no line gives.
    pub(super) fn rounded(self, round: Round) -> Option<Self> {
        let Self { a, c, d } = self;
        match round {
            Round::Floor => Some(self),
            Round::Ceil => Some(Self { a, c: c + d - 1, d }),
            Round::HalfUp => Some(Self { a: 2 * a, c: 2 * c + d, d: 2 * d }),
            Round::HalfDown => Some(Self { a: 2 * a, c: 2 * c + d - 1, d: 2 * d }),
            Round::Exact => (a % d == 0 && c % d == 0).then_some(self),
            Round::HalfEven => None,
        }
    }
}

#[derive(Clone, Debug, Eq, Hash, PartialEq)]
pub(super) enum Rule {
    Line(Line),
    /// A straight line's first half, and its mirror image.
    Mirrored(Line),
    /// Groups by division with remainder, moved back by `shift`.
    Blocks {
        split: Split,
        shift: u64,
    },
    Listed(Vec<u32>),
}

/// The places of `events` events that use `uses` stitches each, on `width` stitches.
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
pub(super) struct Places {
    pub(super) rule: Rule,
    pub(super) events: u32,
    pub(super) uses: u32,
    /// The first and the last place the rule may give an event.
    pub(super) limits: (u32, u32),
    /// The fewest stitches from one place to the next.
    pub(super) room: u32,
    pub(super) width: u32,
    pub(super) reversed: bool,
}

impl Places {
    /// Stitches worked when event `k` has happened, `k` from 1.
    pub(super) fn at(&self, k: u32) -> u32 {
        if self.reversed {
            return self.turned(self.forwards(self.events + 1 - k));
        }
        self.forwards(k)
    }

    /// A place seen from the other end of the row.
    const fn turned(&self, place: u32) -> u32 {
        self.width + self.uses - place
    }

    fn forwards(&self, k: u32) -> u32 {
        match &self.rule {
            Rule::Line(line) => self.keep(k, line.at(k)),
            Rule::Mirrored(line) if 2 * k <= self.events => self.keep(k, line.at(k)),
            Rule::Mirrored(_) if 2 * k == self.events + 1 => u32::midpoint(self.width, self.uses),
            Rule::Mirrored(line) => {
                let other = self.events + 1 - k;
                self.turned(self.keep(other, line.at(other)))
            }
            Rule::Blocks { split, shift } => {
                self.keep(k, u32::try_from(split.at(k.into()) - shift).unwrap_or(0))
            }
            Rule::Listed(places) => places.get(k as usize - 1).copied().unwrap_or(self.width),
        }
    }

    /// No event before the stitches it and those before it need, or after those that
    /// the others still need.
    pub(super) fn keep(&self, k: u32, place: u32) -> u32 {
        let before = self.limits.0 + self.room * (k - 1);
        let after = self.limits.1.saturating_sub(self.room * (self.events - k));
        place.max(before).min(after)
    }

    /// The line, where walking it step by step gives the same places.
    pub(super) fn walk(&self) -> Option<Line> {
        match self.rule {
            Rule::Line(line) if !self.reversed => Some(line),
            _ => None,
        }
    }

    /// Whether the row reads the same from both ends.
    pub(super) fn is_mirrored(&self) -> bool {
        let sum = self.width + self.uses;
        (1..=self.events.div_ceil(2)).all(|k| self.at(k) + self.at(self.events + 1 - k) == sum)
    }
}
