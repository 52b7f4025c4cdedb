use super::{Direction, Edges, Segment, Taper};
use crate::Error;
use crate::phrase::{Phrase, runs, shortest_of_runs};
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::english::{counted, every, times};
use loopwright_gauge::{Count as _, Rows, Stitches};

/// One shaping as it is told: so many rows after the one before, so many stitches.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Interval {
    /// Rows since the shaping before, or since the start: 4 is "every 4th row".
    pub every: Rows,
    /// Stitches gained or lost at each shaped edge.
    pub stitches: Stitches,
}

/// A taper as a structured phrase, from which words of any language can be made;
/// `to_string` makes English ones.
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct TaperWords {
    /// Increase, decrease, or `None` for straight.
    pub direction: Option<Direction>,
    /// Which edges are shaped.
    pub edges: Edges,
    /// Plain rows before gaps are counted.
    pub plain_before: Rows,
    /// A first shaping that keeps no rhythm is told by its row number.
    pub first_row: Option<(Rows, Interval)>,
    /// The shapings after that, told the shortest way.
    pub phrase: Vec<Phrase<Interval>>,
    /// Plain rows after the last shaping.
    pub plain_after: Rows,
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
    ///     .legal_rows(Rows::new(2)?, Rows::new(2)?)
    ///     .order(Order::Alternating)
    ///     .build()?;
    /// assert_eq!(
    ///     raglan.words().to_string(),
    ///     "decrease 1 stitch at each edge (every other row once, every 4th row once) 10 times, \
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
                let row = self.start().get() + self.plain_before().get() + first.every.get();
                told(Rows::clamped(row), first, &runs)
            }
            None => (None, Vec::new()),
        };
        TaperWords {
            direction: self.direction(),
            edges: self.edges(),
            plain_before: self.plain_before(),
            first_row,
            phrase,
            plain_after: self.plain_after(),
        }
    }
}

/// A first shaping told by its row, and the rhythm of the others; or the rhythm of
/// all, where that is no longer.
fn told(
    row: Rows,
    first: Interval,
    runs: &[(Interval, u32)],
) -> (Option<(Rows, Interval)>, Vec<Phrase<Interval>>) {
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
    fn common_stitches(&self) -> Option<Stitches> {
        let mut sizes = Vec::new();
        sizes.extend(self.first_row.iter().map(|(_, interval)| interval.stitches));
        gather(&self.phrase, &mut sizes);
        let first = *sizes.first()?;
        sizes.iter().all(|size| *size == first).then_some(first)
    }
}

/// The stitches of every run.
fn gather(phrases: &[Phrase<Interval>], sizes: &mut Vec<Stitches>) {
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
            Some(Direction::Decrease) => "decrease",
            Some(Direction::Increase) => "increase",
            None => {
                let all = self.plain_before.get().saturating_add(self.plain_after.get());
                return write!(f, "work {} plain", counted(all, "row"));
            }
        };
        if !self.plain_before.is_zero() {
            write!(f, "work {} plain, then ", self.plain_before.counted())?;
        }
        let edge = match self.edges {
            Edges::One => "",
            Edges::Both => " at each edge",
        };
        let common = self.common_stitches();
        match common {
            Some(n) => write!(f, "{verb} {}{edge} ", n.counted())?,
            None => write!(f, "{verb}{edge} ")?,
        }
        let mut said = false;
        if let Some((row, interval)) = self.first_row {
            write_stitches(f, interval, common)?;
            write!(f, "on row {row}")?;
            said = true;
        }
        write_list(f, &self.phrase, common, said, ", then ")?;
        if !self.plain_after.is_zero() {
            write!(f, ", then work {} plain", self.plain_after.counted())?;
        }
        Ok(())
    }
}

/// The stitches of one shaping, where they are not the same in all.
fn write_stitches(
    f: &mut fmt::Formatter<'_>,
    interval: Interval,
    common: Option<Stitches>,
) -> fmt::Result {
    match common {
        Some(_) => Ok(()),
        None => write!(f, "{} ", interval.stitches.counted()),
    }
}

fn write_list(
    f: &mut fmt::Formatter<'_>,
    phrases: &[Phrase<Interval>],
    common: Option<Stitches>,
    mut said: bool,
    joint: &str,
) -> fmt::Result {
    for phrase in phrases {
        if said {
            f.write_str(joint)?;
        }
        said = true;
        match phrase {
            Phrase::Item { item, times: n } => {
                write_stitches(f, *item, common)?;
                write!(f, "{} ", every(item.every.get(), "row"))?;
                write!(f, "{}", times(*n))?;
            }
            Phrase::Repeat { body, times: n } => {
                f.write_str("(")?;
                write_list(f, body, common, false, ", ")?;
                write!(f, ") {}", times(*n))?;
            }
        }
    }
    Ok(())
}
