//! Buttonholes along a band.

use crate::{Error, bounds};
use alloc::format;
use alloc::vec::Vec;

/// Which gaps are equal: two published conventions.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Gaps {
    /// Margins of these sizes before the first hole and after the last, and equal gaps
    /// between the holes: one gap fewer than holes (knittingrobin.blogspot.com, 2012).
    Margins {
        /// Stitches before the first hole.
        first: u32,
        /// Stitches after the last hole.
        last: u32,
    },
    /// The ends are gaps like the others: one gap more than holes
    /// (forum.knittinghelp.com/t/159723).
    Equal,
}

/// Where stitches that do not divide go.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Leftover {
    /// Into gaps one larger, spread evenly among the others.
    Spread,
    /// Into gaps one larger, from the start of the band.
    First,
    /// Into the two ends, the odd one at the start.
    Ends,
}

/// Buttonholes on a band of so many stitches (or rows, where the band is knitted
/// lengthwise).
///
/// Buttons are small parts: for a child under three use none, or fastenings that
/// cannot come off, and check what your local rules say.
///
/// # Examples
/// ```
/// use loopwright_seams::{Buttonholes, Gaps, Leftover};
/// let gaps = Gaps::Margins { first: 3, last: 3 };
/// let holes = Buttonholes::new(100, 7, 4)?.place(gaps, Leftover::Spread)?;
/// assert_eq!(holes.gaps(), [3, 11, 11, 11, 11, 11, 11, 3]);
/// assert_eq!(holes.starts().collect::<Vec<_>>(), [4, 19, 34, 49, 64, 79, 94]);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub struct Buttonholes {
    total: u32,
    holes: u32,
    width: u32,
}

/// Where the holes of a band are.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Holes {
    gaps: Vec<u32>,
    width: u32,
}

impl Buttonholes {
    /// `holes` of `width` stitches each on a band of `total`; a width of zero is a
    /// hole between stitches.
    ///
    /// # Errors
    /// When there are no holes, or the holes alone are wider than the band.
    pub fn new(total: u32, holes: u32, width: u32) -> Result<Self, Error> {
        if !(1..=bounds::PLACES).contains(&total) {
            let allowed = format!("in 1..={}", bounds::PLACES);
            return Err(Error::range("the count of stitches of the band", total, allowed));
        }
        if !(1..=total).contains(&holes) {
            return Err(Error::range("the count of buttonholes", holes, format!("in 1..={total}")));
        }
        if u64::from(holes) * u64::from(width) > u64::from(total) {
            let allowed = format!("at most {}, for {holes} in {total}", total / holes);
            return Err(Error::range("the width of a buttonhole", width, allowed));
        }
        Ok(Self { total, holes, width })
    }

    /// Where the holes are.
    ///
    /// # Errors
    /// When the margins leave no room, or those of a single hole leave some.
    pub fn place(self, gaps: Gaps, leftover: Leftover) -> Result<Holes, Error> {
        let free = self.total - self.holes * self.width;
        let (first, last, inner) = match gaps {
            Gaps::Margins { first, last } => (first, last, self.holes - 1),
            Gaps::Equal => (0, 0, self.holes + 1),
        };
        let margins = first.saturating_add(last);
        let Some(free) = free.checked_sub(margins) else {
            let allowed = format!("at most {free}, what {} holes leave", self.holes);
            return Err(Error::range("the sum of the margins", margins, allowed));
        };
        if inner == 0 && free > 0 {
            let allowed = format!("{}, all that one buttonhole leaves", margins + free);
            return Err(Error::range("the sum of the margins", margins, allowed));
        }
        let sizes = share(free, inner, leftover);
        let (more_first, more_last) = ends(free, inner, leftover);
        let gaps = match gaps {
            Gaps::Margins { .. } => core::iter::once(first + more_first)
                .chain(sizes)
                .chain([last + more_last])
                .collect(),
            Gaps::Equal => widened(sizes.collect(), more_first, more_last),
        };
        Ok(Holes { gaps, width: self.width })
    }
}

fn share(free: u32, gaps: u32, leftover: Leftover) -> impl Iterator<Item = u32> {
    let (size, rest) = (free / gaps.max(1), free % gaps.max(1));
    let (wide, parts) = (2 * u64::from(rest), 2 * u64::from(gaps.max(1)));
    (0..gaps).map(move |nth| {
        // Rounded to the nearest, halfway down, and told apart by subtraction.
        let before = |nth: u32| (u64::from(nth) * wide + parts / 2 - 1) / parts;
        size + match leftover {
            Leftover::Spread => u32::from(before(nth + 1) > before(nth)),
            Leftover::First => u32::from(nth < rest),
            Leftover::Ends => 0,
        }
    })
}

const fn ends(free: u32, gaps: u32, leftover: Leftover) -> (u32, u32) {
    let rest = if gaps == 0 { 0 } else { free % gaps };
    match leftover {
        Leftover::Ends => (rest.div_ceil(2), rest / 2),
        Leftover::Spread | Leftover::First => (0, 0),
    }
}

fn widened(mut gaps: Vec<u32>, first: u32, last: u32) -> Vec<u32> {
    if let Some(gap) = gaps.first_mut() {
        *gap += first;
    }
    if let Some(gap) = gaps.last_mut() {
        *gap += last;
    }
    gaps
}

impl Holes {
    /// The plain stitches: before the first hole, between the holes, after the last.
    #[must_use]
    pub fn gaps(&self) -> &[u32] {
        &self.gaps
    }

    /// The first stitch of each hole, counted from one.
    pub fn starts(&self) -> impl Iterator<Item = u32> {
        let before = self.gaps.iter().take(self.gaps.len() - 1);
        before.scan(0, |at, gap| {
            let start = *at + gap + 1;
            *at += gap + self.width;
            Some(start)
        })
    }

    /// How many stitches each hole takes.
    #[must_use]
    pub const fn width(&self) -> u32 {
        self.width
    }

    /// Whether the holes fall alike from both ends.
    #[must_use]
    pub fn is_mirrored(&self) -> bool {
        self.gaps.iter().eq(self.gaps.iter().rev())
    }

    /// The same holes counted from the other end: for the other front, whose band is
    /// picked up the other way.
    #[must_use]
    pub fn from_other_end(&self) -> Self {
        Self { gaps: self.gaps.iter().rev().copied().collect(), width: self.width }
    }

    /// The first stitch of a hole of `width` stitches whose middle is at `marker`: a
    /// hole of three starts one stitch before it (knittingmagic.biz, guide 8).
    ///
    /// # Errors
    /// When the hole would start before the first stitch.
    pub fn start_at_marker(marker: u32, width: u32) -> Result<u32, Error> {
        let before = width.saturating_sub(1) / 2;
        marker.checked_sub(before).filter(|&start| start > 0).ok_or_else(|| {
            Error::range("the marked stitch of a buttonhole", marker, format!("above {before}"))
        })
    }
}
