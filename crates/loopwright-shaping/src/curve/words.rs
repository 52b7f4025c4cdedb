use super::Curve;
use crate::phrase::{Phrase, shortest};
use crate::{Direction, Interval};
use alloc::vec::Vec;
use core::fmt;

/// A curve as a structured phrase; `to_string` makes English words of it.
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct CurveWords {
    /// Narrower or wider.
    pub direction: Direction,
    /// Stitches at once before the first row.
    pub opening: u32,
    /// The steps, told the shortest way.
    pub phrase: Vec<Phrase<Interval>>,
    /// Straight rows after the last step.
    pub plain_after: u32,
    /// Stitches at once after the last row.
    pub closing: u32,
}

impl Curve {
    /// This curve as a structured phrase, knitted narrower or wider.
    #[must_use]
    pub fn words(&self, direction: Direction) -> CurveWords {
        let mut last = 0;
        let intervals: Vec<Interval> = self
            .events
            .iter()
            .map(|event| {
                let every = event.row - last;
                last = event.row;
                Interval { every, stitches: event.stitches }
            })
            .collect();
        CurveWords {
            direction,
            opening: self.opening,
            phrase: shortest(&intervals),
            plain_after: self.plain_after().get(),
            closing: self.closing,
        }
    }
}

impl fmt::Display for CurveWords {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (at_once, single) = match self.direction {
            Direction::Narrower => ("bind off", "decrease"),
            Direction::Wider => ("cast on", "increase"),
        };
        let mut parts = 0;
        let mut joint = |f: &mut fmt::Formatter<'_>| {
            parts += 1;
            if parts > 1 { f.write_str(", then ") } else { Ok(()) }
        };
        if self.opening > 0 {
            joint(f)?;
            write!(f, "{at_once} {}", self.opening)?;
        }
        for phrase in &self.phrase {
            joint(f)?;
            write_phrase(f, phrase, at_once, single)?;
        }
        if self.plain_after > 0 {
            joint(f)?;
            let noun = if self.plain_after == 1 { "row" } else { "rows" };
            write!(f, "work {} {noun} plain", self.plain_after)?;
        }
        if self.closing > 0 {
            joint(f)?;
            write!(f, "{at_once} {}", self.closing)?;
        }
        Ok(())
    }
}

fn write_phrase(
    f: &mut fmt::Formatter<'_>,
    phrase: &Phrase<Interval>,
    at_once: &str,
    single: &str,
) -> fmt::Result {
    match phrase {
        Phrase::Item { item, times } => {
            let verb = if item.stitches > 1 { at_once } else { single };
            write!(f, "{verb} {} ", item.stitches)?;
            crate::words::every(f, item.every)?;
            crate::words::times(f, *times)
        }
        Phrase::Repeat { body, times } => {
            f.write_str("(")?;
            for (i, phrase) in body.iter().enumerate() {
                if i > 0 {
                    f.write_str(", ")?;
                }
                write_phrase(f, phrase, at_once, single)?;
            }
            f.write_str(")")?;
            crate::words::times(f, *times)
        }
    }
}
