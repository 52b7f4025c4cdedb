use crate::Error;
use crate::error::Kind;
use alloc::string::ToString;
use core::fmt;

/// A value that is not known exactly: the lowest, the likeliest and the highest
/// it may be.
///
/// Low is never above likely and likely never above high.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_yardage::Spread;
/// let loop_mm = Spread::new(Length::mm(14)?, Length::mm(15)?, Length::mm(17)?)?;
/// assert!(loop_mm.holds(Length::mm(16)?));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(
    feature = "serde",
    serde(
        try_from = "Parts<T>",
        into = "Parts<T>",
        bound(
            serialize = "T: Copy + serde::Serialize",
            deserialize = "T: Copy + Ord + fmt::Display + serde::Deserialize<'de>"
        )
    )
)]
pub struct Spread<T> {
    low: T,
    likely: T,
    high: T,
}

impl<T: Copy + Ord + fmt::Display> Spread<T> {
    /// A spread from `low` through `likely` to `high`.
    ///
    /// # Errors
    /// When the three are not in that order.
    pub fn new(low: T, likely: T, high: T) -> Result<Self, Error> {
        if low <= likely && likely <= high {
            return Ok(Self { low, likely, high });
        }
        Err(Kind::Disorder {
            what: "the spread",
            low: low.to_string(),
            likely: likely.to_string(),
            high: high.to_string(),
        }
        .into())
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
    pub fn map<U: Copy + Ord + fmt::Display>(
        self,
        mut change: impl FnMut(T) -> Result<U, Error>,
    ) -> Result<Spread<U>, Error> {
        Spread::new(change(self.low)?, change(self.likely)?, change(self.high)?)
    }

    /// The three values each through a falling `change`: what was high gives the
    /// low, as when a length becomes a number of rows.
    ///
    /// # Errors
    /// What `change` refuses, or when it does not turn the order round.
    pub fn map_falling<U: Copy + Ord + fmt::Display>(
        self,
        mut change: impl FnMut(T) -> Result<U, Error>,
    ) -> Result<Spread<U>, Error> {
        Spread::new(change(self.high)?, change(self.likely)?, change(self.low)?)
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

#[cfg(feature = "serde")]
#[derive(Clone, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Parts<T> {
    low: T,
    likely: T,
    high: T,
}

#[cfg(feature = "serde")]
impl<T: Copy + Ord + fmt::Display> TryFrom<Parts<T>> for Spread<T> {
    type Error = Error;
    fn try_from(parts: Parts<T>) -> Result<Self, Error> {
        Self::new(parts.low, parts.likely, parts.high)
    }
}

#[cfg(feature = "serde")]
impl<T> From<Spread<T>> for Parts<T> {
    fn from(spread: Spread<T>) -> Self {
        Self { low: spread.low, likely: spread.likely, high: spread.high }
    }
}
