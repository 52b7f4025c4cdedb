//! Lengths that may be irrational, enclosed between two exact ones.
//!
//! The length of a slant is a square root. It is kept as an interval whose ends
//! are exact, found with whole-number square roots on a grid of nanometres, so no
//! floating point is needed and equal inputs always give equal intervals.

use crate::Error;
use loopwright_gauge::{Exact, Length};

/// Nanometres in a millimetre.
const GRID: i128 = 1_000_000;

/// A length that lies between two exact lengths, which are the same when it is
/// known exactly.
///
/// Straight edges are exact; a slanted step is known to 4 nm, and each sum with one
/// widens the span by at most 2 nm.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_seams::Span;
/// let slant = Span::hypotenuse(Length::mm(1)?, Length::mm(1)?)?;
/// assert!(slant.low().millimetres() >= "1.414213".parse()?);
/// assert!(slant.high().millimetres() <= "1.414215".parse()?);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Span {
    low: Length,
    high: Length,
}

impl Span {
    /// No length.
    pub const ZERO: Self = Self::exact(Length::ZERO);

    /// A length known exactly.
    #[must_use]
    pub const fn exact(length: Length) -> Self {
        Self { low: length, high: length }
    }

    /// The longest side of a right-angled triangle with these two others.
    ///
    /// # Errors
    /// When the length is out of bounds.
    pub fn hypotenuse(across: Length, up: Length) -> Result<Self, Error> {
        let (across, up) = (across.abs(), up.abs());
        if across == Length::ZERO {
            return Ok(Self::exact(up));
        }
        if up == Length::ZERO {
            return Ok(Self::exact(across));
        }
        let (low, high) = ends(across, up);
        Self::on_grid(low.into(), high.into())
    }

    /// Whole nanometres either side.
    fn on_grid(low: i128, high: i128) -> Result<Self, Error> {
        Ok(Self { low: from_nanometres(low)?, high: from_nanometres(high)? })
    }

    /// The shortest it can be.
    #[must_use]
    pub const fn low(self) -> Length {
        self.low
    }

    /// The longest it can be.
    #[must_use]
    pub const fn high(self) -> Length {
        self.high
    }

    /// Whether the length is known exactly.
    #[must_use]
    pub fn is_exact(self) -> bool {
        self.low == self.high
    }

    /// The length halfway between the shortest and the longest.
    ///
    /// # Errors
    /// When it cannot be held exactly.
    pub fn middle(self) -> Result<Length, Error> {
        if self.is_exact() {
            return Ok(self.low);
        }
        Ok(self.low.checked_add(self.high)?.scaled(Exact::new(1, 2)?)?)
    }

    /// The sum: exact where both are and it can be held, and otherwise out to whole
    /// nanometres.
    ///
    /// # Errors
    /// When the sum is out of bounds.
    pub fn checked_add(self, rhs: Self) -> Result<Self, Error> {
        match self.low.checked_add(rhs.low) {
            Ok(sum) if self.is_exact() && rhs.is_exact() => Ok(Self::exact(sum)),
            _ => Self::on_grid(floor(self.low) + floor(rhs.low), ceil(self.high) + ceil(rhs.high)),
        }
    }

    /// The difference, which lies between the least and the most it can be.
    ///
    /// # Errors
    /// When the difference is out of bounds.
    pub fn checked_sub(self, rhs: Self) -> Result<Self, Error> {
        self.checked_add(Self { low: rhs.high.negated(), high: rhs.low.negated() })
    }

    /// This length, `times` times.
    ///
    /// # Errors
    /// When the product is out of bounds.
    pub fn times(self, times: u32) -> Result<Self, Error> {
        match self.low.scaled(times.into()) {
            Ok(product) if self.is_exact() => Ok(Self::exact(product)),
            _ => {
                let times = i128::from(times);
                Self::on_grid(floor(self.low) * times, ceil(self.high) * times)
            }
        }
    }
}

/// The longest side of a triangle in whole nanometres, below and above.
fn ends(across: Length, up: Length) -> (i64, i64) {
    let low = square(floor(across)) + square(floor(up));
    let high = square(ceil(across)) + square(ceil(up));
    (root(low, false), root(high, true))
}

/// The longest side of a triangle to the nanometre, for sharing out along it.
pub(crate) fn nanometres(across: Length, up: Length) -> u64 {
    let (low, high) = ends(across, up);
    low.midpoint(high).unsigned_abs()
}

fn floor(length: Length) -> i128 {
    let mm = length.millimetres();
    (i128::from(mm.numer()) * GRID).div_euclid(mm.denom().into())
}

fn ceil(length: Length) -> i128 {
    -floor(length.negated())
}

/// Lengths are at most 10^15 nm: see [`crate::bounds`].
const fn square(nanometres: i128) -> u128 {
    nanometres.unsigned_abs() * nanometres.unsigned_abs()
}

/// The square root, rounded down or up; below 2^51.
fn root(square: u128, up: bool) -> i64 {
    let floor = square.isqrt();
    let root = if up && floor * floor != square { floor + 1 } else { floor };
    i64::try_from(root).unwrap_or(i64::MAX)
}

fn from_nanometres(nanometres: i128) -> Result<Length, Error> {
    let numer = i64::try_from(nanometres)
        .map_err(|_| Error::range("the length of a slant", nanometres, "below 2^63 nm"))?;
    Ok(Length::from_millimetres(Exact::new(numer, 1_000_000)?)?)
}

/// A span as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    low: Length,
    high: Length,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Span {
    type Error = Error;

    fn try_from(Raw { low, high }: Raw) -> Result<Self, Error> {
        if low <= high {
            return Ok(Self { low, high });
        }
        Err(Error::range("the low end of a span", low, alloc::format!("at most {high}")))
    }
}

#[cfg(feature = "serde")]
impl From<Span> for Raw {
    fn from(Span { low, high }: Span) -> Self {
        Self { low, high }
    }
}
