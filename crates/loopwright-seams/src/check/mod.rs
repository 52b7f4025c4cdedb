//! The check of one join, and of every join of a garment.

mod garment;
mod verdict;

pub use garment::{Seam, SeamReport, check_all};
pub use verdict::{Compared, SeamSide, Verdict};

use crate::join::Law;
use crate::{Edge, EdgeCount, Error, Join, Mend, Span, Tolerance};
use alloc::format;
use core::cmp::Ordering;
use loopwright_gauge::{Exact, Length, ReadingDirection, Rows, Stitches};
use verdict::within;

/// Checks one join: counts, lengths, their differences, and what would mend it.
///
/// # Errors
/// When the join cannot be made of these edges at all (a graft of bound-off
/// stitches), or a length cannot be held exactly.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Stitches};
/// use loopwright_seams::{Edge, Join, check};
/// let gauge: Gauge = "28 x 40 / 10 cm".parse()?;
/// let front = Edge::live("front shoulder", Stitches::new(44)?, gauge)?;
/// let back = Edge::live("back shoulder", Stitches::new(44)?, gauge)?;
/// assert!(check(Join::Graft, &front, &back, Join::Graft.tolerance())?.matches);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
pub fn check(join: Join, a: &Edge, b: &Edge, tolerance: Tolerance) -> Result<Verdict, Error> {
    Question { join, a, b, tolerance, overlap: Stitches::ZERO }.answer()
}

/// Two edges, how they meet, and how far they may differ.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Question<'a> {
    pub(crate) join: Join,
    pub(crate) a: &'a Edge,
    pub(crate) b: &'a Edge,
    pub(crate) tolerance: Tolerance,
    /// Needles that carry two stitches of the first edge.
    pub(crate) overlap: Stitches,
}

/// How a join stands.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Judged {
    /// Whether the first edge is too short, right or too long for the second.
    pub(crate) stand: Ordering,
    /// How many counts beyond the tolerance, where the join pairs stitches or rows.
    pub(crate) paired: Option<i64>,
    pub(crate) counted: ReadingDirection,
    difference: Exact,
    apart: Span,
    /// A stitch or row of the second edge.
    unit: Length,
}

impl Judged {
    const fn compares(&self) -> Compared {
        if self.paired.is_some() { Compared::Counts } else { Compared::Lengths }
    }

    /// Where a join by length stands once its edges are so much further apart, and the
    /// second so much longer.
    pub(crate) fn stand_after(
        &self,
        question: &Question<'_>,
        apart: Length,
        longer: Option<Length>,
    ) -> Result<Ordering, Error> {
        let now = self.apart.checked_add(Span::exact(apart))?;
        let b = match longer {
            Some(longer) => question.b.length().checked_add(Span::exact(longer))?,
            None => question.b.length(),
        };
        Ok(within(now, question.tolerance.ease().range(b, self.unit)?))
    }
}

impl Question<'_> {
    pub(crate) fn answer(&self) -> Result<Verdict, Error> {
        let judged = self.judge()?;
        let matches = judged.stand == Ordering::Equal;
        let mend = if matches { None } else { Some(Mend::find(*self, &judged)?) };
        Ok(Verdict {
            join: self.join,
            overlap: self.overlap,
            a: SeamSide::of(self.a)?,
            b: SeamSide::of(self.b)?,
            compares: judged.compares(),
            counted: judged.counted,
            difference: judged.difference,
            length_difference: judged.apart,
            matches,
            mend,
        })
    }

    pub(crate) fn judge(&self) -> Result<Judged, Error> {
        let Self { join, a, b, .. } = self;
        join.suits(a, b)?;
        if *join != Join::HangBack && !self.overlap.is_zero() {
            let what = format!("the overlap of {}", join.in_words(Stitches::ZERO));
            return Err(Error::range(what, self.overlap, "0: only a hanging back overlaps"));
        }
        match join.law(a) {
            Law::Stitches => self.paired(a.stitches().into(), b.stitches().into()),
            Law::Rows => self.paired(a.rows().into(), b.rows().into()),
            Law::Length => self.measured(),
        }
    }

    /// A join that pairs stitches with stitches, or rows with rows.
    fn paired(&self, a: EdgeCount, b: EdgeCount) -> Result<Judged, Error> {
        let overlap = i64::from(self.overlap);
        let difference = i64::from(a.get()) - i64::from(b.get()) - overlap;
        let most = i64::from(self.tolerance.most_counts());
        // How far beyond the tolerance, with its sign.
        let excess = difference - difference.clamp(-most, most);
        Ok(Judged {
            stand: excess.cmp(&0),
            paired: Some(excess),
            counted: a.direction(),
            difference: difference.try_into()?,
            apart: self.apart()?,
            unit: Length::ZERO,
        })
    }

    /// A join that compares lengths.
    fn measured(&self) -> Result<Judged, Error> {
        let counted = self.b.unit_counted();
        let (unit, apart) = (self.b.unit()?, self.apart()?);
        let stand = within(apart, self.tolerance.ease().range(self.b.length(), unit)?);
        let difference = apart.middle()?.ratio(unit)?;
        Ok(Judged { stand, paired: None, counted, difference, apart, unit })
    }

    /// The length of `a` less that of `b`, less the overlap at the gauge of `b`.
    fn apart(&self) -> Result<Span, Error> {
        let difference = self.a.length().checked_sub(self.b.length())?;
        match self.b.parts().first() {
            Some(part) if !self.overlap.is_zero() => {
                difference.checked_sub(Span::exact(part.gauge.length_of(self.overlap)?))
            }
            _ => Ok(difference),
        }
    }
}

impl Edge {
    /// What the edge is told in where it is joined by length: rows, where it has any.
    pub(crate) fn unit_counted(&self) -> ReadingDirection {
        if self.rows().is_zero() { ReadingDirection::Stitches } else { ReadingDirection::Rows }
    }

    /// The length of one of them, at the gauge of the first part that has some.
    fn unit(&self) -> Result<Length, Error> {
        let parts = self.parts();
        if let Some(part) = parts.iter().find(|part| part.rows > Rows::ZERO) {
            return Ok(part.gauge.length_of(Rows::ONE)?);
        }
        match parts.first() {
            Some(part) => Ok(part.gauge.length_of(Stitches::ONE)?),
            None => Ok(Length::ZERO), // an edge always has a part
        }
    }
}
