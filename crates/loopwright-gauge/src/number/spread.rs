use crate::Error;
use crate::error::Kind;
use alloc::format;
use alloc::string::ToString as _;
use core::fmt;

/// A value that is not known exactly: the lowest, the likeliest and the highest it may
/// be, never out of that order.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Length, PerLength, Spread};
/// let chest = Spread::new(Length::cm(98)?, Length::cm(100)?, Length::cm(102)?)?;
/// assert!(chest.holds(Length::cm(99)?));
/// // A gauge with its error gives a width with its error: the tightest is the narrowest.
/// let gauge: Spread<PerLength> =
///     Spread::new("27.5/10cm".parse()?, "28/10cm".parse()?, "28.5/10cm".parse()?)?;
/// let width = gauge.length_of(Exact::whole(140))?;
/// assert_eq!(width.likely(), Length::cm(50)?);
/// assert!(width.low() < Length::cm(50)? && width.holds("50.9 cm".parse()?));
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw<T>", into = "Raw<T>"))]
#[cfg_attr(
    feature = "serde",
    serde(bound(
        serialize = "T: Copy + serde::Serialize",
        deserialize = "T: Copy + Ord + fmt::Display + serde::Deserialize<'de>"
    ))
)]
pub struct Spread<T> {
    low: T,
    likely: T,
    high: T,
}

impl<T: Copy + Ord + fmt::Display> Spread<T> {
    /// From `low` through `likely` to `high`.
    ///
    /// # Errors
    /// When the three are not in that order.
    pub fn new(low: T, likely: T, high: T) -> Result<Self, Error> {
        if low <= likely && likely <= high {
            return Ok(Self { low, likely, high });
        }
        let (what, given) = ("the likely value", likely.to_string());
        let allowed = format!("between its low, {low}, and its high, {high}");
        Err(Kind::Range { what, given, allowed }.into())
    }

    /// Whether `value` lies in the spread, its ends included.
    #[must_use]
    pub fn holds(&self, value: T) -> bool {
        self.low <= value && value <= self.high
    }

    /// Whether the two spreads have a value in common.
    #[must_use]
    pub fn overlaps(&self, other: &Self) -> bool {
        self.low <= other.high && other.low <= self.high
    }

    /// The three values each through `change`, in order again.
    ///
    /// # Errors
    /// What `change` refuses, or when it does not keep the order.
    pub fn map<U: Copy + Ord + fmt::Display, E: From<Error>>(
        self,
        mut change: impl FnMut(T) -> Result<U, E>,
    ) -> Result<Spread<U>, E> {
        Ok(Spread::new(change(self.low)?, change(self.likely)?, change(self.high)?)?)
    }

    /// The three values each through a falling `change`: what was high gives the low, as
    /// when a gauge becomes a width.
    ///
    /// # Errors
    /// What `change` refuses, or when it does not turn the order round.
    pub fn map_falling<U: Copy + Ord + fmt::Display, E: From<Error>>(
        self,
        mut change: impl FnMut(T) -> Result<U, E>,
    ) -> Result<Spread<U>, E> {
        Ok(Spread::new(change(self.high)?, change(self.likely)?, change(self.low)?)?)
    }

    /// Whether there is no doubt about the value.
    #[must_use]
    pub fn is_exact(&self) -> bool {
        self.low == self.high
    }
}

impl<T: Copy> Spread<T> {
    /// A value without any doubt.
    #[must_use]
    pub const fn exactly(value: T) -> Self {
        Self { low: value, likely: value, high: value }
    }

    /// The lowest it may be.
    #[must_use]
    pub const fn low(&self) -> T {
        self.low
    }

    /// The likeliest.
    #[must_use]
    pub const fn likely(&self) -> T {
        self.likely
    }

    /// The highest it may be.
    #[must_use]
    pub const fn high(&self) -> T {
        self.high
    }

    /// Low, likely and high, in that order.
    #[must_use]
    pub const fn parts(&self) -> [T; 3] {
        [self.low, self.likely, self.high]
    }
}

impl<T: Copy> From<T> for Spread<T> {
    fn from(value: T) -> Self {
        Self::exactly(value)
    }
}

impl<T: Copy + Ord + fmt::Display> fmt::Display for Spread<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { low, likely, high } = self;
        if low == high { write!(f, "{likely}") } else { write!(f, "{likely} ({low} to {high})") }
    }
}

/// A spread as it is written.
#[cfg(feature = "serde")]
#[derive(Clone, serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw<T> {
    low: T,
    likely: T,
    high: T,
}

#[cfg(feature = "serde")]
impl<T: Copy + Ord + fmt::Display> TryFrom<Raw<T>> for Spread<T> {
    type Error = Error;

    fn try_from(raw: Raw<T>) -> Result<Self, Error> {
        Self::new(raw.low, raw.likely, raw.high)
    }
}

#[cfg(feature = "serde")]
impl<T> From<Spread<T>> for Raw<T> {
    fn from(spread: Spread<T>) -> Self {
        let Spread { low, likely, high } = spread;
        Self { low, likely, high }
    }
}
