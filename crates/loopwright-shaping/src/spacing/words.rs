use super::{Spacing, Technique};
use crate::Error;
use crate::phrase::{Phrase, runs, shortest_of_runs};
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::Stitches;

/// One group of a written row: plain stitches, then an event.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct RowGroup {
    /// Plain stitches before the event.
    pub plain: Stitches,
}

/// A row as a structured phrase; `to_string` writes it in the trade's notation, such
/// as `k3, k2tog, (k6, k2tog) x 9, k3`.
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct RowWords {
    /// The event that closes every group.
    pub technique: Technique,
    /// Plain stitches at the beginning that belong to no group.
    pub start: Stitches,
    /// The groups, told the shortest way.
    pub phrase: Vec<Phrase<RowGroup>>,
    /// Plain stitches at the end.
    pub end: Stitches,
}

impl Spacing {
    /// This row as a structured phrase; `to_string` writes it out.
    #[must_use]
    pub fn words(&self) -> RowWords {
        let uses = self.technique().uses();
        let groups = runs(self.groups().map(|group| {
            let plain = RowGroup { plain: group.size.saturating_sub(uses) };
            (plain, group.times)
        }));
        let (start, end) = self.borders();
        let sum = |a: Stitches, b: Stitches| Stitches::clamped(a.get() + b.get());
        let (start, end) = (sum(start, self.lead()), sum(end, self.tail()));
        RowWords { technique: self.technique(), start, phrase: shortest_of_runs(&groups), end }
    }
}

impl RowWords {
    /// The groups these words stand for, one by one.
    ///
    /// # Errors
    /// When they are more than [`COUNT`](crate::bounds::COUNT).
    pub fn expand(&self) -> Result<Vec<RowGroup>, Error> {
        Phrase::expand(&self.phrase)
    }
}

impl fmt::Display for RowWords {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let event = self.technique.abbreviation();
        let mut phrases = self.phrase.as_slice();
        let mut row = Row { f, empty: true };
        // Border and first group are told together, unless the group is repeated.
        match phrases {
            [Phrase::Item { item, times: 1 }, rest @ ..] => {
                row.knit(Stitches::clamped(self.start.get() + item.plain.get()))?;
                row.part(event)?;
                phrases = rest;
            }
            _ => row.knit(self.start)?,
        }
        row.phrases(phrases, event)?;
        row.knit(self.end)
    }
}

struct Row<'a, 'b> {
    f: &'a mut fmt::Formatter<'b>,
    empty: bool,
}

impl Row<'_, '_> {
    fn part(&mut self, text: &str) -> fmt::Result {
        self.joint()?;
        self.f.write_str(text)
    }

    fn joint(&mut self) -> fmt::Result {
        let first = core::mem::replace(&mut self.empty, false);
        if first { Ok(()) } else { self.f.write_str(", ") }
    }

    fn knit(&mut self, stitches: Stitches) -> fmt::Result {
        if stitches.is_zero() {
            return Ok(());
        }
        self.joint()?;
        write!(self.f, "k{stitches}")
    }

    fn phrases(&mut self, phrases: &[Phrase<RowGroup>], event: &str) -> fmt::Result {
        for phrase in phrases {
            match phrase {
                Phrase::Item { item, times: 1 } => {
                    self.knit(item.plain)?;
                    self.part(event)?;
                }
                Phrase::Item { item, times } => {
                    self.open()?;
                    self.knit(item.plain)?;
                    self.part(event)?;
                    self.close(*times)?;
                }
                Phrase::Repeat { body, times } => {
                    self.open()?;
                    self.phrases(body, event)?;
                    self.close(*times)?;
                }
            }
        }
        Ok(())
    }

    fn open(&mut self) -> fmt::Result {
        self.part("(")?;
        self.empty = true;
        Ok(())
    }

    fn close(&mut self, times: u32) -> fmt::Result {
        self.empty = false;
        write!(self.f, ") x {times}")
    }
}
