use crate::error::Kind;
use crate::{
    Count, CountRange, Error, Exact, Fitted, Gauge, Length, LengthRange, PerLength, Repeat, Round,
    Rows, Stitches,
};
use alloc::format;
use alloc::vec::Vec;

/// A gauge in one direction as it was measured: a value between a low and a high.
///
/// # Examples
/// ```
/// use loopwright_gauge::Measured;
/// let gauge = Measured::new("28/10cm".parse()?, "27.5/10cm".parse()?, "28.5/10cm".parse()?)?;
/// let width = gauge.length_of(140)?;
/// assert!(width.contains("50 cm".parse()?) && width.contains("49.2 cm".parse()?));
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Measured {
    value: PerLength,
    low: PerLength,
    high: PerLength,
}

impl Measured {
    /// `value`, which may be as low as `low` or as high as `high`.
    ///
    /// # Errors
    /// Unless `low <= value <= high`.
    pub fn new(value: PerLength, low: PerLength, high: PerLength) -> Result<Self, Error> {
        if low <= value && value <= high {
            return Ok(Self { value, low, high });
        }
        let allowed = format!("between its low, {low}, and its high, {high}");
        let (what, given) = ("the value of the gauge", format!("{value}"));
        Err(Kind::Range { what, given, allowed }.into())
    }

    /// A gauge taken as it stands, with no error.
    #[must_use]
    pub const fn exactly(value: PerLength) -> Self {
        Self { value, low: value, high: value }
    }

    /// The best value.
    #[must_use]
    pub const fn value(self) -> PerLength {
        self.value
    }

    /// The fewest per length: the loosest the fabric may be.
    #[must_use]
    pub const fn low(self) -> PerLength {
        self.low
    }

    /// The most per length: the tightest the fabric may be.
    #[must_use]
    pub const fn high(self) -> PerLength {
        self.high
    }

    /// The lengths that `count` stitches or rows may come out at.
    ///
    /// # Errors
    /// When a length is out of bounds or cannot be held exactly.
    pub fn length_of(self, count: u32) -> Result<LengthRange, Error> {
        let count = Exact::from(count);
        LengthRange::new(self.high.length_of(count)?, self.low.length_of(count)?)
    }

    fn all<C: Count>(self, found: Vec<Fitted<C>>) -> Result<Vec<Fitted<C>>, Error> {
        found.into_iter().map(|fitted| fitted.between(self)).collect()
    }
}

/// A gauge with its error, in both directions.
///
/// A [`Gauge`] turns into one whose low and high are its value.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Repeat, Round, Swatch, Treatment};
/// let readings = ["40 st = 13.3 cm".parse()?, "60 rows = 15.4 cm".parse()?];
/// let swatch = Swatch::new(readings, Treatment::Washed)?;
/// let back = swatch.gauge()?.fit_stitches("52 cm".parse()?, Repeat::any(), Round::HalfUp)?;
/// assert_eq!(back.count.get(), 156);
/// assert!(back.low < back.length && back.length < back.high);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct SwatchGauge {
    /// Stitches in a length.
    pub stitches: Measured,
    /// Rows in a length.
    pub rows: Measured,
}

impl SwatchGauge {
    /// The gauge with these stitches and these rows.
    #[must_use]
    pub const fn new(stitches: Measured, rows: Measured) -> Self {
        Self { stitches, rows }
    }

    /// The best values, without their error.
    #[must_use]
    pub const fn gauge(self) -> Gauge {
        Gauge::from_parts(self.stitches.value, self.rows.value)
    }

    /// The widths that `stitches` may come out at.
    ///
    /// # Errors
    /// When a width is out of bounds or cannot be held exactly.
    pub fn width_of(self, stitches: Stitches) -> Result<LengthRange, Error> {
        self.stitches.length_of(stitches.get())
    }

    /// The heights that `rows` may come out at.
    ///
    /// # Errors
    /// When a height is out of bounds or cannot be held exactly.
    pub fn height_of(self, rows: Rows) -> Result<LengthRange, Error> {
        self.rows.length_of(rows.get())
    }

    /// As [`Gauge::fit_stitches`], with the widths it may come out at.
    ///
    /// # Errors
    /// When `width` is negative, nothing fits, or [`Round::Exact`] meets a remainder.
    pub fn fit_stitches(
        self,
        width: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<Stitches>, Error> {
        self.gauge().fit_stitches(width, repeat, round)?.between(self.stitches)
    }

    /// As [`Gauge::fit_rows`], with the heights it may come out at.
    ///
    /// # Errors
    /// When `height` is negative, nothing fits, or [`Round::Exact`] meets a remainder.
    pub fn fit_rows(
        self,
        height: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<Rows>, Error> {
        self.gauge().fit_rows(height, repeat, round)?.between(self.rows)
    }

    /// As [`SwatchGauge::fit_stitches`], but the count must lie in `range`: one that would fall
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
        self.gauge().fit_stitches_within(width, repeat, range, round)?.between(self.stitches)
    }

    /// As [`SwatchGauge::fit_rows`], but the count must lie in `range`: one that would fall
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
        self.gauge().fit_rows_within(height, repeat, range, round)?.between(self.rows)
    }

    /// The counts nearest to `width` that `repeat` allows: `each` at or below the
    /// ideal and `each` above it, fewer where there are no more, in rising order.
    ///
    /// # Errors
    /// When `width` is negative or `each` is outside 1..=[`bounds::CANDIDATES`](crate::bounds::CANDIDATES).
    pub fn nearest_stitches(
        self,
        width: Length,
        repeat: Repeat,
        each: u32,
    ) -> Result<Vec<Fitted<Stitches>>, Error> {
        self.stitches.all(self.gauge().nearest_stitches(width, repeat, each)?)
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
        self.rows.all(self.gauge().nearest_rows(height, repeat, each)?)
    }
}

impl From<Gauge> for SwatchGauge {
    fn from(gauge: Gauge) -> Self {
        Self::new(Measured::exactly(gauge.stitches()), Measured::exactly(gauge.rows()))
    }
}

/// A measured gauge as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    value: PerLength,
    low: PerLength,
    high: PerLength,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Measured {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.value, raw.low, raw.high)
    }
}

#[cfg(feature = "serde")]
impl From<Measured> for Raw {
    fn from(measured: Measured) -> Self {
        Self { value: measured.value, low: measured.low, high: measured.high }
    }
}
