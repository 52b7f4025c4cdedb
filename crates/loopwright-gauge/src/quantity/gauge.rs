use super::per_length::{self, span_text};
use crate::error::Kind;
use crate::fit::Fitted;
use crate::number::text;
use crate::{
    Count, CountRange, Error, Exact, Length, PerLength, ReadingDirection, Repeat, Round, Unit,
};
use alloc::vec::Vec;
use core::fmt;
use core::hash::{Hash, Hasher};
use core::str::FromStr;

/// How many stitches and rows one fabric has in a length, exactly. The rows may be left
/// out where only stitches are asked for.
///
/// Two gauges are equal when they say the same, whatever length they were measured over.
/// It reads `28 x 40 / 10 cm`, `28x40/10cm`, `5.5x8/1in` and `28/10cm`, and prints over
/// the length it was given over.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Length, Rows, Stitches};
/// let gauge: Gauge = "28x40/10cm".parse()?;
/// assert_eq!(gauge, "112 x 160 / 40 cm".parse()?);
/// assert_eq!(gauge.count_in::<Stitches>(Length::cm(50)?)?.to_string(), "140");
/// assert_eq!(gauge.length_of(Rows::new(60)?)?, Length::cm(15)?);
/// // As it was written, and without rows:
/// let stitches: Gauge = "5.5/1in".parse()?;
/// assert_eq!(stitches.to_string(), "5.5 / 1 in");
/// assert!(stitches.length_of(Rows::new(60)?).unwrap_err().is_missing());
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Gauge {
    stitches: PerLength,
    rows: Option<PerLength>,
    /// The length it is printed over, in the unit it is printed in.
    span: (Length, Unit),
}

const WHAT: &str = "the gauge";
const FORMS: &str = "write stitches x rows / length, such as 28 x 40 / 10 cm or 5.5x8/1in";

impl Gauge {
    const TEN_CM: (Length, Unit) = (Length::literal_mm(100), Unit::Centimetre);

    /// `stitches` and `rows` over `span`.
    ///
    /// # Errors
    /// When `span` is not above zero, or either gauge is outside the bounds in
    /// [`bounds`](crate::bounds).
    pub fn new(stitches: Exact, rows: Exact, span: Length) -> Result<Self, Error> {
        Self::over(stitches, Some(rows), span, Unit::Centimetre)
    }

    fn over(stitches: Exact, rows: Option<Exact>, span: Length, unit: Unit) -> Result<Self, Error> {
        let stitches = PerLength::named("the stitch gauge", stitches, span)?;
        let rows = rows.map(|rows| PerLength::named("the row gauge", rows, span)).transpose()?;
        let written = span_text(span, unit).is_some();
        Ok(Self { stitches, rows, span: if written { (span, unit) } else { Self::TEN_CM } })
    }

    /// The gauge with these stitches and these rows.
    #[must_use]
    pub const fn from_parts(stitches: PerLength, rows: PerLength) -> Self {
        Self { stitches, rows: Some(rows), span: Self::TEN_CM }
    }

    /// The gauge with these stitches, its rows not known.
    #[must_use]
    pub const fn of_stitches(stitches: PerLength) -> Self {
        Self { stitches, rows: None, span: Self::TEN_CM }
    }

    /// The stitches' side of the gauge.
    #[must_use]
    pub const fn stitches(self) -> PerLength {
        self.stitches
    }

    /// The rows' side of the gauge.
    ///
    /// # Errors
    /// When the row gauge is not known.
    pub fn rows(self) -> Result<PerLength, Error> {
        self.rows.ok_or_else(no_rows)
    }

    /// Whether the row gauge is known too.
    #[must_use]
    pub const fn has_rows(self) -> bool {
        self.rows.is_some()
    }

    /// One side of the gauge, by what is counted.
    ///
    /// # Errors
    /// When that side of the gauge is not known.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Gauge, Rows};
    /// let gauge: Gauge = "28x40/10cm".parse()?;
    /// assert_eq!(gauge.of::<Rows>()?, "40/10cm".parse()?);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    #[inline]
    pub fn of<C: Count>(self) -> Result<PerLength, Error> {
        match C::DIRECTION {
            ReadingDirection::Stitches => Ok(self.stitches),
            ReadingDirection::Rows => self.rows(),
        }
    }

    /// Stitches, or rows, in one millimetre.
    ///
    /// # Errors
    /// When that side of the gauge is not known.
    pub fn per_mm<C: Count>(self) -> Result<Exact, Error> {
        self.of::<C>().map(PerLength::per_mm)
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
        self.of::<C>()?.fit(length, repeat, round)
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
        self.of::<C>()?.fit_within(length, repeat, range, round)
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
        self.of::<C>()?.nearest(length, repeat, each)
    }
}

#[cold]
pub(crate) fn no_rows() -> Error {
    let form = "give stitches x rows / length, such as 28 x 40 / 10 cm";
    Kind::Missing { what: "the row gauge", form }.into()
}

/// What it says, not how it was written.
impl PartialEq for Gauge {
    fn eq(&self, other: &Self) -> bool {
        self.stitches == other.stitches && self.rows == other.rows
    }
}

impl Eq for Gauge {}

impl Hash for Gauge {
    fn hash<H: Hasher>(&self, state: &mut H) {
        (self.stitches, self.rows).hash(state);
    }
}

impl fmt::Display for Gauge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (mut span, unit) = self.span;
        // What was written fits; what was put together from parts is printed per 10 cm.
        let mut counts = (self.stitches.per(span), self.rows.map(|rows| rows.per(span)));
        if counts.0.is_err() || matches!(counts.1, Some(Err(_))) {
            (span, _) = Self::TEN_CM;
            counts = (self.stitches.per(span), self.rows.map(|rows| rows.per(span)));
        }
        write!(f, "{}", counts.0.map_err(|_| fmt::Error)?.plain())?;
        if let Some(rows) = counts.1 {
            write!(f, " x {}", rows.map_err(|_| fmt::Error)?.plain())?;
        }
        let unit =
            if span == Self::TEN_CM.0 && span != self.span.0 { Unit::Centimetre } else { unit };
        write!(f, " / {}", span_text(span, unit).ok_or(fmt::Error)?)
    }
}

impl FromStr for Gauge {
    type Err = Error;

    fn from_str(given: &str) -> Result<Self, Error> {
        let refuse = |why| Error::parse(WHAT, given, why);
        let (stitches, rows) = match given.split_once(['x', 'X', '×']) {
            Some((stitches, rows)) => (Some(stitches.trim_end()), rows.trim_start()),
            None => (None, given),
        };
        let stitches = match stitches.map(text::leading) {
            Some(Ok((stitches, ""))) => Some(stitches),
            Some(Ok(_)) => return Err(refuse(FORMS)),
            Some(Err(fault)) => return Err(refuse(fault.or(FORMS))),
            None => None,
        };
        let (count, span) = per_length::count_and_span(rows).ok_or_else(|| refuse(FORMS))?;
        let (stitches, rows) = stitches.map_or((count, None), |stitches| (stitches, Some(count)));
        let (span, unit) = per_length::span_of_one(span.trim())?;
        Self::over(stitches, rows, span, unit)
    }
}
