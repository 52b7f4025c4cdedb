use crate::count::Count;
use crate::error::Kind;
use crate::fit::{self, Fitted};
use crate::{Error, Exact, Gauge, Length, LengthRange, PerLength, Repeat, Round, Rows, Stitches};
use alloc::format;

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

    fn fit<C: Count>(
        self,
        asked: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<C>, Error> {
        let fitted = fit::fit::<C>(self.value, asked, repeat, round)?;
        let between = self.length_of(fitted.count.get())?;
        Ok(Fitted { low: between.low(), high: between.high(), ..fitted })
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
        self.stitches.fit(width, repeat, round)
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
        self.rows.fit(height, repeat, round)
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
