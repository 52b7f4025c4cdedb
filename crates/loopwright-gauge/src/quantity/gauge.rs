use super::per_length;
use crate::fit::{self, Fitted};
use crate::number::text;
use crate::{
    Count, CountRange, Error, Exact, Length, PerLength, ReadingDirection, Repeat, Round, Rows,
    Stitches,
};
use alloc::vec::Vec;
use core::fmt;
use core::str::FromStr;

/// How many stitches and rows one fabric has in a length, exactly.
///
/// Two gauges are equal when they say the same, whatever length they were
/// measured over. It reads `28 x 40 / 10 cm`, `28x40/10cm` and `5.5x8/1in`, and
/// prints per 10 cm.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Length};
/// let gauge: Gauge = "28x40/10cm".parse()?;
/// assert_eq!(gauge, "112 x 160 / 40 cm".parse()?);
/// assert_eq!(gauge.stitches_in(Length::cm(50)?)?.to_string(), "140");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub struct Gauge {
    stitches: PerLength,
    rows: PerLength,
}

const FORMS: &str = "write stitches x rows / length, such as 28 x 40 / 10 cm or 5.5x8/1in";

impl Gauge {
    /// `stitches` and `rows` over `span`.
    ///
    /// # Errors
    /// When `span` is not above zero, or either gauge is outside the bounds in
    /// [`bounds`](crate::bounds).
    pub fn new(stitches: Exact, rows: Exact, span: Length) -> Result<Self, Error> {
        Ok(Self {
            stitches: PerLength::named("the stitch gauge", stitches, span)?,
            rows: PerLength::named("the row gauge", rows, span)?,
        })
    }

    /// The gauge with these stitches and these rows.
    #[must_use]
    pub const fn from_parts(stitches: PerLength, rows: PerLength) -> Self {
        Self { stitches, rows }
    }

    /// The stitches' side of the gauge.
    #[must_use]
    pub const fn stitches(self) -> PerLength {
        self.stitches
    }

    /// The rows' side of the gauge.
    #[must_use]
    pub const fn rows(self) -> PerLength {
        self.rows
    }

    /// One side of the gauge, by what is counted.
    ///
    /// # Errors
    /// When that side of the gauge is not known.
    pub fn of<C: Count>(self) -> Result<PerLength, Error> {
        Ok(match C::DIRECTION {
            ReadingDirection::Stitches => self.stitches,
            ReadingDirection::Rows => self.rows,
        })
    }

    /// The exact, unrounded count in `length`.
    ///
    /// # Errors
    /// When that side of the gauge is not known, or the number cannot be held exactly.
    pub fn count_in<C: Count>(self, length: Length) -> Result<Exact, Error> {
        self.of::<C>()?.per(length)
    }

    /// How wide so many stitches, or how tall so many rows, are.
    ///
    /// # Errors
    /// When that side of the gauge is not known, or the length is out of bounds or
    /// cannot be held exactly.
    pub fn length_of<C: Count>(self, count: C) -> Result<Length, Error> {
        self.of::<C>()?.length_of(count.into())
    }

    /// The count that `repeat` allows and `round` chooses for `length`.
    ///
    /// # Errors
    /// When that side of the gauge is not known, `length` is negative, nothing fits, or
    /// [`Round::Exact`] meets a remainder.
    pub fn fit<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<C>, Error> {
        fit::fit(self.of::<C>()?, length, repeat, round)
    }

    /// As [`Gauge::fit`], but the count must lie in `range`: one that would fall
    /// outside is brought to the nearest allowed count inside.
    ///
    /// # Errors
    /// As there, and when the repeat has no count in `range`.
    pub fn fit_within<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        range: CountRange<C>,
        round: Round,
    ) -> Result<Fitted<C>, Error> {
        fit::fit_within(self.of::<C>()?, length, repeat, range, round)
    }

    /// The counts nearest to `length` that `repeat` allows: `each` at or below the
    /// ideal and `each` above it, fewer where there are no more, in rising order.
    ///
    /// # Errors
    /// When that side of the gauge is not known, `length` is negative, or `each` is
    /// outside 1..=[`bounds::CANDIDATES`](crate::bounds::CANDIDATES).
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Gauge, Repeat, Stitches};
    /// let gauge: Gauge = "28x40/10cm".parse()?;
    /// let six_plus_two = Repeat::multiple_of(6)?.plus(2)?;
    /// let near = gauge.nearest::<Stitches>("52 cm".parse()?, six_plus_two, 2)?;
    /// let counts: Vec<u32> = near.iter().map(|fitted| fitted.count.get()).collect();
    /// assert_eq!(counts, [134, 140, 146, 152]);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn nearest<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        each: u32,
    ) -> Result<Vec<Fitted<C>>, Error> {
        fit::nearest(self.of::<C>()?, length, repeat, each)
    }

    /// Stitches in one millimetre.
    #[must_use]
    pub const fn stitches_per_mm(self) -> Exact {
        self.stitches.per_mm()
    }

    /// Rows in one millimetre.
    #[must_use]
    pub const fn rows_per_mm(self) -> Exact {
        self.rows.per_mm()
    }

    /// The exact, unrounded number of stitches in `length`.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn stitches_in(self, length: Length) -> Result<Exact, Error> {
        self.stitches.per(length)
    }

    /// The exact, unrounded number of rows in `length`.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn rows_in(self, length: Length) -> Result<Exact, Error> {
        self.rows.per(length)
    }

    /// How wide `stitches` are.
    ///
    /// # Errors
    /// When the width is out of bounds or cannot be held exactly.
    pub fn width_of(self, stitches: Stitches) -> Result<Length, Error> {
        self.stitches.length_of(stitches.get().into())
    }

    /// How tall `rows` are.
    ///
    /// # Errors
    /// When the height is out of bounds or cannot be held exactly.
    pub fn height_of(self, rows: Rows) -> Result<Length, Error> {
        self.rows.length_of(rows.get().into())
    }

    /// The count of stitches that `repeat` allows and `round` chooses for `width`.
    ///
    /// # Errors
    /// When `width` is negative, nothing fits, or [`Round::Exact`] meets a remainder.
    pub fn fit_stitches(
        self,
        width: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<Stitches>, Error> {
        fit::fit(self.stitches, width, repeat, round)
    }

    /// The count of rows that `repeat` allows and `round` chooses for `height`.
    ///
    /// # Errors
    /// When `height` is negative, nothing fits, or [`Round::Exact`] meets a remainder.
    pub fn fit_rows(
        self,
        height: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<Rows>, Error> {
        fit::fit(self.rows, height, repeat, round)
    }

    /// As [`Gauge::fit_stitches`], but the count must lie in `range`: one that would fall
    /// outside is brought to the nearest allowed count inside.
    ///
    /// # Errors
    /// As there, and when the repeat has no count in `range`.
    pub fn fit_stitches_within(
        self,
        width: Length,
        repeat: Repeat,
        range: CountRange<Stitches>,
        round: Round,
    ) -> Result<Fitted<Stitches>, Error> {
        fit::fit_within(self.stitches, width, repeat, range, round)
    }

    /// As [`Gauge::fit_rows`], but the count must lie in `range`: one that would fall
    /// outside is brought to the nearest allowed count inside.
    ///
    /// # Errors
    /// As there, and when the repeat has no count in `range`.
    pub fn fit_rows_within(
        self,
        height: Length,
        repeat: Repeat,
        range: CountRange<Rows>,
        round: Round,
    ) -> Result<Fitted<Rows>, Error> {
        fit::fit_within(self.rows, height, repeat, range, round)
    }

    /// The counts nearest to `width` that `repeat` allows: `each` at or below the
    /// ideal and `each` above it, fewer where there are no more, in rising order.
    ///
    /// # Errors
    /// When `width` is negative or `each` is outside 1..=[`bounds::CANDIDATES`](crate::bounds::CANDIDATES).
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Gauge, Repeat};
    /// let gauge: Gauge = "28x40/10cm".parse()?;
    /// let near = gauge.nearest_stitches("52 cm".parse()?, Repeat::multiple_of(6)?.plus(2)?, 2)?;
    /// let counts: Vec<u32> = near.iter().map(|fitted| fitted.count.get()).collect();
    /// assert_eq!(counts, [134, 140, 146, 152]);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn nearest_stitches(
        self,
        width: Length,
        repeat: Repeat,
        each: u32,
    ) -> Result<Vec<Fitted<Stitches>>, Error> {
        fit::nearest(self.stitches, width, repeat, each)
    }

    /// The counts nearest to `height` that `repeat` allows: `each` at or below the
    /// ideal and `each` above it, fewer where there are no more, in rising order.
    ///
    /// # Errors
    /// When `height` is negative or `each` is outside 1..=[`bounds::CANDIDATES`](crate::bounds::CANDIDATES).
    pub fn nearest_rows(
        self,
        height: Length,
        repeat: Repeat,
        each: u32,
    ) -> Result<Vec<Fitted<Rows>>, Error> {
        fit::nearest(self.rows, height, repeat, each)
    }
}

impl fmt::Display for Gauge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let per_10cm =
            |side: PerLength| side.per_mm().checked_mul(Exact::whole(100)).map_err(|_| fmt::Error);
        write!(f, "{} x {} / 10 cm", per_10cm(self.stitches)?, per_10cm(self.rows)?)
    }
}

impl FromStr for Gauge {
    type Err = Error;

    fn from_str(given: &str) -> Result<Self, Error> {
        let refuse = |why| Error::parse("the gauge", given, why);
        let (stitches, rest) = text::leading(given).map_err(|fault| refuse(fault.or(FORMS)))?;
        let rest = rest.trim_start().strip_prefix(['x', 'X', '×']).ok_or_else(|| refuse(FORMS))?;
        let (rows, span) =
            per_length::count_and_span(rest.trim_start()).ok_or_else(|| refuse(FORMS))?;
        Self::new(stitches, rows, per_length::span_of_one(span.trim())?)
    }
}
