//! How two edges meet, how far they may differ, and how they are sewn.

mod pairing;
mod passes;
mod tolerance;

pub use pairing::Pairing;
pub use passes::{PassRun, Passes};
pub use tolerance::{SeamEase, Tolerance};

use crate::error::Kind;
use crate::{Counted, Edge, Error, words};
use alloc::string::ToString;
use core::fmt;
use loopwright_gauge::Stitches;

/// How two edges meet, and with that the law they must keep.
///
/// | join | first edge | second edge | law |
/// |---|---|---|---|
/// | graft | live | live | stitches equal |
/// | bind off together | live | live | stitches equal |
/// | stitch seam | stitches | stitches | stitches equal |
/// | row seam | row ends | row ends | rows equal |
/// | stitch-to-row seam | stitches | row ends | lengths equal |
/// | pick-up | any | stitches picked up | lengths equal |
/// | hang back | stitches | live | stitches less the overlap equal |
/// | hang back | row ends | live | length less the overlap equal |
/// | eased seam | any | any | the first longer by the ease |
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Join {
    /// Live stitches sewn to live stitches with a row of yarn.
    Graft,
    /// Live stitches of both edges bound off as one.
    BindOffTogether,
    /// Cast-on or bound-off edges sewn stitch to stitch.
    StitchSeam,
    /// Row ends sewn to row ends, one or two bars at a time.
    RowSeam,
    /// Stitches sewn to row ends by the ratio of their gauges.
    StitchToRowSeam,
    /// New stitches knitted out of an edge: the first edge is picked up along, the
    /// second is what was picked up.
    PickUp,
    /// The first edge hung back on the needles that hold, or will hold, the second.
    HangBack {
        /// Needles that carry two stitches of the first edge: where front and back
        /// overlap at a shoulder.
        overlap: Stitches,
    },
    /// A longer edge sewn into a shorter one by length: a sleeve cap into its
    /// armhole, a gathered edge into a band. The first edge is the eased one.
    Eased,
}

/// What a join compares.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum Law {
    Stitches { overlap: Stitches },
    Rows,
    Length { overlap: Stitches },
}

impl Join {
    /// What is usual for this join when nothing else is asked for.
    ///
    /// | join | tolerance | from |
    /// |---|---|---|
    /// | graft, bind off together, hang back of stitches | none | a graft needs equal counts (L. A. Bestor, *Cast On, Bind Off*) |
    /// | stitch seam | 1 stitch | common practice, no source |
    /// | row seam | 1 row | bind-offs begun on opposite sides differ by a row, eased near the top (knittingrobin.blogspot.com, 2013) |
    /// | stitch-to-row seam, pick-up, hang back of rows | 1 stitch or 2 % of the length, whichever is more | common practice, no source |
    /// | eased seam | the first edge longer by 0 to 1 in | bygumbygolly.blogspot.com, 2011; disputed, see [`Tolerance::plain`] |
    #[must_use]
    pub const fn tolerance(self) -> Tolerance {
        Tolerance::usual(self)
    }

    /// How many stitches, in halves, the seam takes from the width of each piece:
    /// row ends are sewn one whole stitch in from the edge, so add two stitches to a
    /// piece with a seam at both sides (studioknits.com).
    #[must_use]
    pub const fn half_stitches_hidden(self) -> u32 {
        match self {
            Self::RowSeam => 2,
            _ => 0,
        }
    }

    pub(crate) fn law(self, a: &Edge) -> Law {
        let none = Stitches::ZERO;
        match self {
            Self::Graft | Self::BindOffTogether | Self::StitchSeam => {
                Law::Stitches { overlap: none }
            }
            Self::RowSeam => Law::Rows,
            Self::HangBack { overlap } if a.is_stitches() => Law::Stitches { overlap },
            Self::HangBack { overlap } => Law::Length { overlap },
            Self::StitchToRowSeam | Self::PickUp | Self::Eased => Law::Length { overlap: none },
        }
    }

    /// Refuses edges that this join cannot be made of.
    pub(crate) fn suits(self, a: &Edge, b: &Edge) -> Result<(), Error> {
        const LIVE: &str = "live stitches";
        const STITCHES: &str = "stitches";
        const ROWS: &str = "row ends";
        let need = |ok: bool, needs, edge: &Edge| {
            if ok { Ok(()) } else { Err(self.wrong(needs, edge)) }
        };
        let has_rows = |edge: &Edge| edge.rows().get() > 0;
        match self {
            Self::Graft | Self::BindOffTogether => {
                need(a.is_live(), LIVE, a)?;
                need(b.is_live(), LIVE, b)
            }
            Self::StitchSeam => {
                need(a.is_stitches(), STITCHES, a)?;
                need(b.is_stitches(), STITCHES, b)
            }
            Self::RowSeam => {
                need(has_rows(a), ROWS, a)?;
                need(has_rows(b), ROWS, b)
            }
            Self::StitchToRowSeam => {
                need(a.is_stitches(), STITCHES, a)?;
                need(has_rows(b), ROWS, b)
            }
            Self::PickUp => need(b.is_stitches(), STITCHES, b),
            Self::HangBack { .. } => need(b.is_live(), LIVE, b),
            Self::Eased => Ok(()),
        }
    }

    fn wrong(self, needs: &'static str, edge: &Edge) -> Error {
        Kind::WrongEdge {
            join: self.to_string(),
            needs,
            edge: edge.name().into(),
            kind: edge.kind().to_string(),
        }
        .into()
    }
}

impl fmt::Display for Join {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Graft => f.write_str("a graft"),
            Self::BindOffTogether => f.write_str("a bind-off together"),
            Self::StitchSeam => f.write_str("a stitch-to-stitch seam"),
            Self::RowSeam => f.write_str("a row-to-row seam"),
            Self::StitchToRowSeam => f.write_str("a stitch-to-row seam"),
            Self::PickUp => f.write_str("a pick-up"),
            Self::HangBack { overlap } if overlap.get() > 0 => {
                let overlap = words::numbered(overlap.get(), Counted::Stitches);
                write!(f, "a hanging back with {overlap} overlapped")
            }
            Self::HangBack { .. } => f.write_str("a hanging back"),
            Self::Eased => f.write_str("an eased seam"),
        }
    }
}
