//! Buttonholes along a band.

#[cfg(feature = "serde")]
use crate::pickup::serial::{RawBand, RawHoles};
use crate::{Error, bounds};
use alloc::format;
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::english::list;
use loopwright_gauge::{Count, Stitches, choices};
use loopwright_shaping::even::EvenWalk;

/// Which gaps are equal: two published conventions.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::{Buttonholes, Gaps, Leftover};
/// let band = Buttonholes::new(Stitches::literal(86), 5, Stitches::ZERO)?;
/// let alike = band.place(Gaps::Equal, Leftover::Spread)?;
/// assert_eq!(alike.gaps().iter().map(|gap| gap.get()).collect::<Vec<_>>(), [14, 15, 14, 14, 15, 14]);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum Gaps<C = Stitches> {
    /// Margins of these sizes before the first hole and after the last, and equal gaps
    /// between the holes: one gap fewer than holes (knittingrobin.blogspot.com, 2012).
    Margins {
        /// Stitches before the first hole.
        first: C,
        /// Stitches after the last hole.
        last: C,
    },
    /// The ends are gaps like the others: one gap more than holes
    /// (forum.knittinghelp.com/t/159723).
    Equal,
}

choices! {
    /// Where stitches that do not divide go.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// use loopwright_seams::{Buttonholes, Gaps, Leftover};
    /// let margins = Gaps::Margins { first: Stitches::literal(3), last: Stitches::literal(3) };
    /// let band = Buttonholes::new(Stitches::literal(42), 4, Stitches::ONE)?;
    /// let gaps = |leftover| -> Result<Vec<u32>, loopwright_seams::Error> {
    ///     Ok(band.place(margins, leftover)?.gaps().iter().map(|gap| gap.get()).collect())
    /// };
    /// assert_eq!(gaps(Leftover::First)?, [3, 11, 11, 10, 3]);
    /// assert_eq!(gaps(Leftover::Ends)?, [4, 10, 10, 10, 4]);
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum Leftover: "the place of what is left over" {
        /// Into gaps one larger, spread evenly among the others.
        Spread = "spread",
        /// Into gaps one larger, from the start of the band.
        First = "first",
        /// Into the two ends, the odd one at the start.
        Ends = "ends",
    }
}

/// Buttonholes on a band of so many stitches, or of rows where the band is knitted
/// lengthwise.
///
/// Buttons are small parts: for a child under three use none, or fastenings that
/// cannot come off, and check what your local rules say.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::{Buttonholes, Gaps, Leftover};
/// let three = Stitches::literal(3);
/// let band = Buttonholes::new(Stitches::literal(100), 7, Stitches::literal(4))?;
/// let holes = band.place(Gaps::Margins { first: three, last: three }, Leftover::Spread)?;
/// let starts: Vec<u32> = holes.starts().map(|start| start.get()).collect();
/// assert_eq!(starts, [4, 19, 34, 49, 64, 79, 94]);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "RawBand<C>", into = "RawBand<C>"))]
#[cfg_attr(
    feature = "serde",
    serde(bound(
        serialize = "C: Count + serde::Serialize",
        deserialize = "C: Count + serde::Deserialize<'de>"
    ))
)]
pub struct Buttonholes<C = Stitches> {
    total: C,
    holes: u32,
    width: C,
}

/// Where the holes of a band are. It prints as a sentence.
///
/// # Examples
/// ```
/// use loopwright_gauge::Rows;
/// use loopwright_seams::{Buttonholes, Gaps, Leftover};
/// let rows = Rows::literal;
/// let band = Buttonholes::new(rows(60), 3, rows(2))?; // knitted lengthwise
/// let holes = band.place(Gaps::Margins { first: rows(4), last: rows(6) }, Leftover::Spread)?;
/// assert_eq!(holes.to_string(), "buttonholes of 2 rows, starting at rows 5, 29 and 53");
/// // The other front is knitted from its other end.
/// assert_eq!(holes.from_other_end().starts().next(), Some(rows(7)));
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "RawHoles<C>", into = "RawHoles<C>"))]
#[cfg_attr(
    feature = "serde",
    serde(bound(
        serialize = "C: Count + serde::Serialize",
        deserialize = "C: Count + serde::Deserialize<'de>"
    ))
)]
pub struct Holes<C = Stitches> {
    gaps: Vec<C>,
    width: C,
}

impl<C: Count> Buttonholes<C> {
    /// `holes` of `width` each on a band of `total`; a width of none is a hole between
    /// stitches.
    ///
    /// # Errors
    /// When there are no holes or too many, or the holes alone are wider than the band.
    pub fn new(total: C, holes: u32, width: C) -> Result<Self, Error> {
        let all = total.get();
        if !(1..=bounds::PLACES).contains(&all) {
            let what = format!("the count of {} of the band", C::NAME);
            return Err(Error::range(what, all, format!("in 1..={}", bounds::PLACES)));
        }
        let most = all.min(bounds::HOLES);
        if !(1..=most).contains(&holes) {
            return Err(Error::range("the count of buttonholes", holes, format!("in 1..={most}")));
        }
        if u64::from(holes) * u64::from(width.get()) > u64::from(all) {
            let allowed = format!("at most {}, for {holes} in {all}", all / holes);
            return Err(Error::range("the width of a buttonhole", width, allowed));
        }
        Ok(Self { total, holes, width })
    }

    /// All of the band.
    #[must_use]
    pub const fn total(self) -> C {
        self.total
    }

    /// How many holes.
    #[must_use]
    pub const fn holes(self) -> u32 {
        self.holes
    }

    /// How wide each hole is.
    #[must_use]
    pub const fn width(self) -> C {
        self.width
    }

    /// Where the holes are.
    ///
    /// # Errors
    /// When the margins leave no room, or those of a single hole leave some.
    pub fn place(self, gaps: Gaps<C>, leftover: Leftover) -> Result<Holes<C>, Error> {
        let free = self.total.get() - self.holes * self.width.get();
        let (first, last, inner) = match gaps {
            Gaps::Margins { first, last } => (first.get(), last.get(), self.holes - 1),
            Gaps::Equal => (0, 0, self.holes + 1),
        };
        let margins = first.saturating_add(last);
        let Some(left) = free.checked_sub(margins) else {
            let allowed = format!("at most {free}, what {} leave", counted_holes(self.holes));
            return Err(Error::range("the sum of the margins", margins, allowed));
        };
        if inner == 0 && left > 0 {
            let allowed = format!("{free}, all that one buttonhole leaves");
            return Err(Error::range("the sum of the margins", margins, allowed));
        }
        let sizes = sizes(left, inner, leftover);
        let (more_first, more_last) = ends(left, inner, leftover);
        let sizes: Vec<u32> = match gaps {
            Gaps::Margins { .. } => core::iter::once(first + more_first)
                .chain(sizes)
                .chain([last + more_last])
                .collect(),
            Gaps::Equal => widened(sizes.collect(), more_first, more_last),
        };
        let gaps = sizes.into_iter().map(C::new).collect::<Result<_, _>>()?;
        Ok(Holes { gaps, width: self.width })
    }
}

fn counted_holes(holes: u32) -> impl fmt::Display {
    loopwright_gauge::english::counted(holes, "hole")
}

/// The gaps, those one larger spread evenly: rounded to the nearest, halfway down, and told
/// apart by subtraction.
fn sizes(free: u32, gaps: u32, leftover: Leftover) -> impl Iterator<Item = u32> {
    let all = u64::from(gaps.max(1));
    let (size, rest) = (free / gaps.max(1), free % gaps.max(1));
    let mut until = EvenWalk::new(all - 1, 2 * u64::from(rest), 2 * all).into_iter().flatten();
    let mut before = until.next().unwrap_or(0);
    (0..gaps).map(move |nth| {
        let now = until.next().unwrap_or(before);
        let spread = now > core::mem::replace(&mut before, now);
        size + match leftover {
            Leftover::Spread => u32::from(spread),
            Leftover::First => u32::from(nth < rest),
            Leftover::Ends => 0,
        }
    })
}

const fn ends(free: u32, gaps: u32, leftover: Leftover) -> (u32, u32) {
    match leftover {
        Leftover::Ends if gaps > 0 => {
            let rest = free % gaps;
            (rest.div_ceil(2), rest / 2)
        }
        _ => (0, 0),
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

impl<C: Count> Holes<C> {
    /// Holes of `width` between these gaps: what is plain before the first hole, between
    /// the holes, and after the last.
    ///
    /// # Errors
    /// When there are fewer than two gaps, or more holes or places than
    /// [`bounds`] allows.
    pub fn between(gaps: Vec<C>, width: C) -> Result<Self, Error> {
        let holes = u32::try_from(gaps.len()).unwrap_or(u32::MAX).saturating_sub(1);
        if !(1..=bounds::HOLES).contains(&holes) {
            let what = "the count of gaps between buttonholes";
            let allowed = format!("in 2..={}", bounds::HOLES + 1);
            return Err(Error::range(what, gaps.len(), allowed));
        }
        let plain: u64 = gaps.iter().map(|gap| u64::from(gap.get())).sum();
        let all = plain + u64::from(holes) * u64::from(width.get());
        if all > bounds::PLACES.into() {
            let what = format!("the count of {} of the band", C::NAME);
            return Err(Error::range(what, all, format!("at most {}", bounds::PLACES)));
        }
        Ok(Self { gaps, width })
    }

    /// The plain stitches: before the first hole, between the holes, after the last.
    #[must_use]
    pub fn gaps(&self) -> &[C] {
        &self.gaps
    }

    /// The first stitch of each hole, counted from one.
    pub fn starts(&self) -> impl Iterator<Item = C> {
        let before = self.gaps.iter().take(self.gaps.len().saturating_sub(1));
        before.scan(0_u32, |at, gap| {
            let start = *at + gap.get() + 1;
            *at += gap.get() + self.width.get();
            C::new(start).ok()
        })
    }

    /// How many stitches each hole takes.
    #[must_use]
    pub const fn width(&self) -> C {
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
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// use loopwright_seams::Holes;
    /// let start = Holes::start_at_marker(Stitches::literal(10), Stitches::literal(3))?;
    /// assert_eq!(start, Stitches::literal(9));
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    pub fn start_at_marker(marker: C, width: C) -> Result<C, Error> {
        let before = width.get().saturating_sub(1) / 2;
        match marker.get().checked_sub(before) {
            Some(start @ 1..) => Ok(C::new(start)?),
            _ => Err(Error::range(
                "the marked stitch of a buttonhole",
                marker,
                format!("above {before}"),
            )),
        }
    }
}

impl<C: Count> fmt::Display for Holes<C> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (one, starts) = (self.gaps.len() == 2, list(self.starts(), "and"));
        let holes = if one { "a buttonhole" } else { "buttonholes" };
        let at = if one { C::ONE } else { C::NAME };
        match self.width.get() {
            0 => write!(f, "{holes} between {}, before {at} {starts}", C::NAME),
            1 => write!(f, "{holes} of 1 {}, at {at} {starts}", C::ONE),
            _ => write!(f, "{holes} of {}, starting at {at} {starts}", self.width.counted()),
        }
    }
}
