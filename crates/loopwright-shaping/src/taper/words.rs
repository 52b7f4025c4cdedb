use super::{Direction, Edges, Segment, Taper};
use crate::Error;
use crate::phrase::{Phrase, runs, shortest_of_runs};
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
        let interval = |run: Segment| Interval { every: run.every, stitches: run.stitches };
        let runs = runs(self.segments().map(|run| (interval(run), run.times)));
        let (first_row, phrase) = match runs.first() {
            Some(&(first, _)) => {
                let row = self.start() + self.plain_before().get() + first.every;
                told(row, first, &runs)
            }
            None => (None, Vec::new()),
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

/// A first shaping told by its row, and the rhythm of the others; or the rhythm of
/// all, where that is no longer.
fn told(
    row: u32,
    first: Interval,
    runs: &[(Interval, u32)],
) -> (Option<(u32, Interval)>, Vec<Phrase<Interval>>) {
    let mut rest = runs.to_vec();
    match rest.first_mut() {
        Some((_, times)) if *times > 1 => *times -= 1,
        _ => drop(rest.remove(0)),
    }
    let (whole, rest) = (shortest_of_runs(runs), shortest_of_runs(&rest));
    if rest.is_empty() || Phrase::length(&rest) < Phrase::length(&whole) {
        return (Some((row, first)), rest);
    }
    (None, whole)
}

impl TaperWords {
    /// The shapings these words stand for, one by one.
    ///
    /// # Errors
    /// When they are more than [`COUNT`](crate::bounds::COUNT).
    pub fn expand(&self) -> Result<Vec<Interval>, Error> {
        let mut list: Vec<Interval> =
            self.first_row.iter().map(|(_, interval)| *interval).collect();
        list.extend(Phrase::expand(&self.phrase)?);
        Ok(list)
    }

    /// The one number of stitches all shapings take, if it is one.
    fn common_stitches(&self) -> Option<u32> {
        let mut sizes = Vec::new();
        sizes.extend(self.first_row.iter().map(|(_, interval)| interval.stitches));
        gather(&self.phrase, &mut sizes);
        let first = *sizes.first()?;
        sizes.iter().all(|size| *size == first).then_some(first)
    }
}

/// The stitches of every run.
fn gather(phrases: &[Phrase<Interval>], sizes: &mut Vec<u32>) {
    for phrase in phrases {
        match phrase {
            Phrase::Item { item, .. } => sizes.push(item.stitches),
            Phrase::Repeat { body, .. } => gather(body, sizes),
        }
    }
}

impl fmt::Display for TaperWords {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let verb = match self.direction {
            Some(Direction::Narrower) => "decrease",
            Some(Direction::Wider) => "increase",
            None => {
                let all = self.plain_before.saturating_add(self.plain_after);
                return write!(f, "work {all} {} plain", rows(all));
            }
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
            write_stitches(f, interval, common)?;
            write!(f, "on row {row}")?;
            said = true;
        }
        write_list(f, &self.phrase, common, said, ", then ")?;
        if self.plain_after > 0 {
            write!(f, ", then work {} {} plain", self.plain_after, rows(self.plain_after))?;
        }
        Ok(())
    }
}

/// The stitches of one shaping, where they are not the same in all.
fn write_stitches(
    f: &mut fmt::Formatter<'_>,
    interval: Interval,
    common: Option<u32>,
) -> fmt::Result {
    match common {
        Some(_) => Ok(()),
        None => write!(f, "{} {} ", interval.stitches, stitches(interval.stitches)),
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
                write_stitches(f, *item, common)?;
                words::every(f, item.every)?;
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
