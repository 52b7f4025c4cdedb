use crate::error::Kind;
use crate::{Error, Length};
use alloc::format;
use core::fmt;

/// The lengths from a low to a high, both included.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, LengthRange};
/// let chest = LengthRange::new(Length::cm(98)?, Length::cm(102)?)?;
/// assert!(chest.contains(Length::cm(100)?));
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Ends", into = "Ends"))]
pub struct LengthRange {
    low: Length,
    high: Length,
}

impl LengthRange {
    /// From `low` to `high`.
    ///
    /// # Errors
    /// When `high` is below `low`.
    pub fn new(low: Length, high: Length) -> Result<Self, Error> {
        if low <= high {
            return Ok(Self { low, high });
        }
        let (what, given) = ("the high end of the range", format!("{high}"));
        Err(Kind::Range { what, given, allowed: format!("the low end, {low}, or more") }.into())
    }

    /// Both ends at `length`.
    #[must_use]
    pub const fn exactly(length: Length) -> Self {
        Self { low: length, high: length }
    }

    /// The low end.
    #[must_use]
    pub const fn low(self) -> Length {
        self.low
    }

    /// The high end.
    #[must_use]
    pub const fn high(self) -> Length {
        self.high
    }

    /// Whether `length` lies in the range.
    #[must_use]
    pub fn contains(self, length: Length) -> bool {
        self.low <= length && length <= self.high
    }
}

impl fmt::Display for LengthRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} to {}", self.low, self.high)
    }
}

/// The two ends as they are written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Ends {
    low: Length,
    high: Length,
}

#[cfg(feature = "serde")]
impl TryFrom<Ends> for LengthRange {
    type Error = Error;

    fn try_from(ends: Ends) -> Result<Self, Error> {
        Self::new(ends.low, ends.high)
    }
}

#[cfg(feature = "serde")]
impl From<LengthRange> for Ends {
    fn from(range: LengthRange) -> Self {
        Self { low: range.low, high: range.high }
    }
}
