use super::Curve;
use crate::phrase::{Phrase, shortest};
use crate::{Direction, Interval};
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::english::{every, times};
use loopwright_gauge::{Count as _, Rows, Stitches};

/// A curve as a structured phrase; `to_string` makes English words of it.
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CurveWords {
    /// Whether stitches are lost or gained.
    pub direction: Direction,
    /// Stitches at once before the first row.
    pub opening: Stitches,
    /// The steps, told the shortest way.
    pub phrase: Vec<Phrase<Interval>>,
    /// Straight rows after the last step.
    pub plain_after: Rows,
    /// Stitches at once after the last row.
    pub closing: Stitches,
}

impl Curve {
    /// This curve as a structured phrase, knitted narrower or wider.
    #[must_use]
    pub fn words(&self, direction: Direction) -> CurveWords {
        let mut last = Rows::ZERO;
        let intervals: Vec<Interval> = self
            .events
            .iter()
            .map(|event| {
                let every = event.row.saturating_sub(last);
                last = event.row;
                Interval { every, stitches: event.stitches }
            })
            .collect();
        CurveWords {
            direction,
            opening: self.opening,
            phrase: shortest(&intervals),
            plain_after: self.plain_after(),
            closing: self.closing,
        }
    }
}

impl fmt::Display for CurveWords {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (at_once, single) = match self.direction {
            Direction::Decrease => ("bind off", "decrease"),
            Direction::Increase => ("cast on", "increase"),
        };
        let mut parts = 0;
        let mut joint = |f: &mut fmt::Formatter<'_>| {
            parts += 1;
            if parts > 1 { f.write_str(", then ") } else { Ok(()) }
        };
        if !self.opening.is_zero() {
            joint(f)?;
            write!(f, "{at_once} {}", self.opening)?;
        }
        for phrase in &self.phrase {
            joint(f)?;
            write_phrase(f, phrase, at_once, single)?;
        }
        if !self.plain_after.is_zero() {
            joint(f)?;
            write!(f, "work {} plain", self.plain_after.counted())?;
        }
        if !self.closing.is_zero() {
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
        Phrase::Item { item, times: n } => {
            let verb = if item.stitches > Stitches::ONE { at_once } else { single };
            let (every, times) = (every(item.every.get(), "row"), times(*n));
            write!(f, "{verb} {} {every} {times}", item.stitches)
        }
        Phrase::Repeat { body, times: n } => {
            f.write_str("(")?;
            for (i, phrase) in body.iter().enumerate() {
                if i > 0 {
                    f.write_str(", ")?;
                }
                write_phrase(f, phrase, at_once, single)?;
            }
            write!(f, ") {}", times(*n))
        }
    }
}
