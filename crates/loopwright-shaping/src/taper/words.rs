use super::{Direction, Edges, Taper};
use crate::phrase::{Phrase, shortest};
use crate::words::{self, rows, stitches};
use alloc::vec::Vec;
use core::fmt;

/// One shaping as it is told: so many rows after the one before, so many stitches.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Interval {
    /// Rows since the shaping before, or since the start: 4 is "every 4th row".
    pub every: u32,
    /// Stitches gained or lost at each shaped edge.
    pub stitches: u32,
}

/// A taper as a structured phrase, from which words of any language can be made;
/// `to_string` makes English ones.
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct TaperWords {
    /// Wider, narrower, or `None` for straight.
    pub direction: Option<Direction>,
    /// Which edges are shaped.
    pub edges: Edges,
    /// Plain rows before gaps are counted.
    pub plain_before: u32,
    /// A first shaping that keeps no rhythm is told by its row number.
    pub first_row: Option<(u32, Interval)>,
    /// The shapings after that, told the shortest way.
    pub phrase: Vec<Phrase<Interval>>,
    /// Plain rows after the last shaping.
    pub plain_after: u32,
}

impl Taper {
    /// This taper as a structured phrase; `to_string` makes English words of it.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_shaping::{Edges, Order, Taper};
    /// let raglan = Taper::builder(Stitches::new(90)?, Stitches::new(30)?, Rows::new(100)?)
    ///     .edges(Edges::Both)
    ///     .legal_rows(2, 2)
    ///     .order(Order::Alternating)
    ///     .build()?;
    /// assert_eq!(
    ///     raglan.words().to_string(),
    ///     "decrease 1 stitch at each edge (every 2nd row once, every 4th row once) 10 times, \
    ///      then every 4th row 10 times",
    /// );
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    #[must_use]
    pub fn words(&self) -> TaperWords {
        let intervals: Vec<Interval> = self
            .segments()
            .flat_map(|run| {
                let interval = Interval { every: run.every, stitches: run.stitches };
                (0..run.times).map(move |_| interval)
            })
            .collect();
        let whole = shortest(&intervals);
        let (first_row, phrase) = match intervals.split_first() {
            Some((first, rest)) if !rest.is_empty() => {
                let told = shortest(rest);
                // Row number and rhythm, where that is no longer than rhythm alone.
                if Phrase::length(&told) < Phrase::length(&whole) {
                    let row = self.start() + self.plain_before().get() + first.every;
                    (Some((row, *first)), told)
                } else {
                    (None, whole)
                }
            }
            Some((first, _)) => {
                let row = self.start() + self.plain_before().get() + first.every;
                (Some((row, *first)), Vec::new())
            }
            None => (None, whole),
        };
        TaperWords {
            direction: self.direction(),
            edges: self.edges(),
            plain_before: self.plain_before().get(),
            first_row,
            phrase,
            plain_after: self.plain_after().get(),
        }
    }
}

impl TaperWords {
    /// The shapings these words stand for, one by one.
    #[must_use]
    pub fn expand(&self) -> Vec<Interval> {
        let mut list: Vec<Interval> =
            self.first_row.iter().map(|(_, interval)| *interval).collect();
        list.extend(Phrase::expand(&self.phrase));
        list
    }

    /// The one number of stitches all shapings take, if it is one.
    fn common_stitches(&self) -> Option<u32> {
        let mut all = self.expand().into_iter().map(|interval| interval.stitches);
        let first = all.next()?;
        all.all(|stitches| stitches == first).then_some(first)
    }
}

impl fmt::Display for TaperWords {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let verb = match self.direction {
            Some(Direction::Narrower) => "decrease",
            Some(Direction::Wider) => "increase",
            None => return write!(f, "work {} {} plain", self.plain_after, rows(self.plain_after)),
        };
        if self.plain_before > 0 {
            write!(f, "work {} {} plain, then ", self.plain_before, rows(self.plain_before))?;
        }
        let edge = match self.edges {
            Edges::One => "",
            Edges::Both => " at each edge",
        };
        let common = self.common_stitches();
        match common {
            Some(n) => write!(f, "{verb} {n} {}{edge} ", stitches(n))?,
            None => write!(f, "{verb}{edge} ")?,
        }
        let mut said = false;
        if let Some((row, interval)) = self.first_row {
            write!(f, "on row {row}")?;
            write_stitches(f, interval, common)?;
            said = true;
        }
        write_list(f, &self.phrase, common, said, ", then ")?;
        if self.plain_after > 0 {
            write!(f, ", then work {} {} plain", self.plain_after, rows(self.plain_after))?;
        }
        Ok(())
    }
}

fn write_stitches(
    f: &mut fmt::Formatter<'_>,
    interval: Interval,
    common: Option<u32>,
) -> fmt::Result {
    match common {
        Some(_) => Ok(()),
        None => write!(f, " {} {}", interval.stitches, stitches(interval.stitches)),
    }
}

fn write_list(
    f: &mut fmt::Formatter<'_>,
    phrases: &[Phrase<Interval>],
    common: Option<u32>,
    mut said: bool,
    joint: &str,
) -> fmt::Result {
    for phrase in phrases {
        if said {
            f.write_str(joint)?;
        }
        said = true;
        match phrase {
            Phrase::Item { item, times } => {
                words::every(f, item.every)?;
                write_stitches(f, *item, common)?;
                words::times(f, *times)?;
            }
            Phrase::Repeat { body, times } => {
                f.write_str("(")?;
                write_list(f, body, common, false, ", ")?;
                f.write_str(")")?;
                words::times(f, *times)?;
            }
        }
    }
    Ok(())
}
