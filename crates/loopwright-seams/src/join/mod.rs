//! How two edges meet, how far they may differ, and how they are sewn.

mod pairing;
mod passes;
mod tolerance;

pub use pairing::Pairing;
pub use passes::{PassRun, Passes};
pub use tolerance::{SeamEase, Tolerance};

use crate::error::Kind;
use crate::{Edge, Error};
use alloc::format;
use alloc::string::String;
use loopwright_gauge::{Count as _, Stitches, choices};

choices! {
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
    ///
    /// Of an edge hung back, some needles may carry two stitches: see
    /// [`Seam::overlap`](crate::Seam::overlap).
    ///
    /// # Examples
    /// ```
    /// use loopwright_seams::Join;
    /// let join: Join = "row-seam".parse()?;
    /// assert_eq!(join, Join::RowSeam);
    /// assert_eq!(join.tolerance().most_counts(), 1);
    /// // The seam takes a whole stitch from the width of each piece.
    /// assert_eq!(join.hidden().get(), 1);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum Join: "the join" {
        /// Live stitches sewn to live stitches with a row of yarn.
        Graft = "graft",
        /// Live stitches of both edges bound off as one.
        BindOffTogether = "bind off together" | "three needle bind off" | "cast off together",
        /// Cast-on or bound-off edges sewn stitch to stitch.
        StitchSeam = "stitch seam",
        /// Row ends sewn to row ends, one or two bars at a time.
        RowSeam = "row seam" | "mattress",
        /// Stitches sewn to row ends by the ratio of their gauges.
        StitchToRowSeam = "stitch to row" | "stitch to row seam",
        /// New stitches knitted out of an edge: the first edge is picked up along, the
        /// second is what was picked up.
        PickUp = "pick up",
        /// The first edge hung back on the needles that hold, or will hold, the second.
        HangBack = "hang back" | "rehang",
        /// A longer edge sewn into a shorter one by length: a sleeve cap into its
        /// armhole, a gathered edge into a band. The first edge is the eased one.
        Eased = "eased",
    }
}

/// What a join compares.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum Law {
    Stitches,
    Rows,
    Length,
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

    /// How many stitches the seam takes from the width of each piece: row ends are sewn
    /// one whole stitch in from the edge, so add two stitches to a piece with a seam at
    /// both sides (studioknits.com).
    #[must_use]
    pub const fn hidden(self) -> Stitches {
        match self {
            Self::RowSeam => Stitches::ONE,
            _ => Stitches::ZERO,
        }
    }

    pub(crate) fn law(self, a: &Edge) -> Law {
        match self {
            Self::Graft | Self::BindOffTogether | Self::StitchSeam => Law::Stitches,
            Self::RowSeam => Law::Rows,
            Self::HangBack if a.is_stitches() => Law::Stitches,
            Self::HangBack | Self::StitchToRowSeam | Self::PickUp | Self::Eased => Law::Length,
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
            Self::HangBack => need(b.is_live(), LIVE, b),
            Self::Eased => Ok(()),
        }
    }

    fn wrong(self, needs: &'static str, edge: &Edge) -> Error {
        let (join, kind) = (self.in_words(Stitches::ZERO), edge.kind().in_words());
        Kind::WrongEdge { join, needs, edge: edge.name().into(), kind }.into()
    }

    /// As a sentence names it.
    pub(crate) fn in_words(self, overlap: Stitches) -> String {
        let name = match self {
            Self::Graft => "a graft",
            Self::BindOffTogether => "a bind-off together",
            Self::StitchSeam => "a stitch-to-stitch seam",
            Self::RowSeam => "a row-to-row seam",
            Self::StitchToRowSeam => "a stitch-to-row seam",
            Self::PickUp => "a pick-up",
            Self::HangBack => "a hanging back",
            Self::Eased => "an eased seam",
        };
        if overlap.is_zero() {
            return name.into();
        }
        format!("{name} with {} overlapped", overlap.counted())
    }
}
