use crate::error::Kind;
use crate::{Error, Round, gcd, number};
use alloc::string::ToString;
use core::cmp::Ordering;
use core::fmt;
use core::str::FromStr;

/// An exact rational number: a numerator over a positive denominator, reduced.
///
/// Arithmetic is checked: a result that does not fit is an error, in release
/// builds too. It parses and prints `7`, `-3/4` and reads decimals and mixed
/// numbers such as `12.5`, `12,5`, `20 1/2` and `20½`.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// let third = Exact::new(2, 6)?;
/// assert_eq!(third.to_string(), "1/3");
/// assert_eq!(third.checked_add("0.5".parse()?)?, Exact::new(5, 6)?);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub struct Exact {
    numer: i64,
    denom: i64, // > 0, no common factor with `numer`
}

const WHAT: &str = "the number";

impl Exact {
    /// Zero.
    pub const ZERO: Self = Self::whole(0);
    /// One.
    pub const ONE: Self = Self::whole(1);

    /// A whole number.
    #[must_use]
    pub const fn whole(n: i64) -> Self {
        Self { numer: n, denom: 1 }
    }

    /// `numer` over `denom`, above zero, for the tables of this crate.
    pub(crate) const fn literal(numer: i64, denom: i64) -> Self {
        let (mut divisor, mut rest) = (denom, numer.abs());
        while rest != 0 {
            (divisor, rest) = (rest, divisor % rest);
        }
        Self { numer: numer / divisor, denom: denom / divisor }
    }

    /// `numer` over `denom`, reduced.
    ///
    /// # Errors
    /// When `denom` is zero, or the reduced fraction does not fit 63 bits.
    pub fn new(numer: i64, denom: i64) -> Result<Self, Error> {
        Self::reduce(numer.into(), denom.into())
    }

    pub(crate) fn reduce(numer: i128, denom: i128) -> Result<Self, Error> {
        if denom == 0 {
            return Err(Kind::DivideByZero { what: WHAT }.into());
        }
        let divisor = gcd::wide(numer.unsigned_abs(), denom.unsigned_abs());
        let divisor = i128::try_from(divisor).map_err(|_| Error::overflow(WHAT))?;
        let sign = denom.signum();
        let narrow = |n: i128| i64::try_from(n).ok().filter(|&n| n != i64::MIN);
        match (narrow(numer / divisor * sign), narrow(denom / divisor * sign)) {
            (Some(numer), Some(denom)) => Ok(Self { numer, denom }),
            _ => Err(Error::overflow(WHAT)),
        }
    }

    /// The numerator; it carries the sign.
    #[must_use]
    pub const fn numer(self) -> i64 {
        self.numer
    }

    /// The denominator, always positive.
    #[must_use]
    pub const fn denom(self) -> i64 {
        self.denom
    }

    /// Whether this is a whole number.
    #[must_use]
    pub const fn is_whole(self) -> bool {
        self.denom == 1
    }

    /// Whether this is above zero.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.numer > 0
    }

    /// Whether this is zero.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.numer == 0
    }

    /// The distance from zero.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self { numer: self.numer.abs(), denom: self.denom }
    }

    /// The same number with the other sign.
    #[must_use]
    pub const fn negated(self) -> Self {
        Self { numer: -self.numer, denom: self.denom }
    }

    /// The sum.
    ///
    /// # Errors
    /// When the result does not fit 63 bits over 63 bits.
    pub fn checked_add(self, rhs: Self) -> Result<Self, Error> {
        if let Some(sum) = self.add_narrow(rhs) {
            return Ok(sum);
        }
        let (a, b) = (i128::from(self.numer), i128::from(self.denom));
        let (c, d) = (i128::from(rhs.numer), i128::from(rhs.denom));
        Self::reduce(a * d + c * b, b * d)
    }

    /// The sum when no intermediate outgrows 64 bits, which is the common case.
    fn add_narrow(self, rhs: Self) -> Option<Self> {
        if self.denom == 1 && rhs.denom == 1 {
            return Self::reduced(self.numer.checked_add(rhs.numer)?, 1);
        }
        // Over the least common denominator only its shared part can cancel.
        let shared = gcd::narrow(self.denom, rhs.denom);
        let (left, right) = (self.denom / shared, rhs.denom / shared);
        let numer = self.numer.checked_mul(right)?.checked_add(rhs.numer.checked_mul(left)?)?;
        let divisor = gcd::narrow(numer, shared);
        Self::reduced(numer / divisor, left.checked_mul(rhs.denom / divisor)?)
    }

    /// A fraction already in lowest terms, unless its numerator is out of bounds.
    fn reduced(numer: i64, denom: i64) -> Option<Self> {
        (numer != i64::MIN).then_some(Self { numer, denom })
    }

    /// The difference.
    ///
    /// # Errors
    /// When the result does not fit 63 bits over 63 bits.
    pub fn checked_sub(self, rhs: Self) -> Result<Self, Error> {
        self.checked_add(rhs.negated())
    }

    /// The product.
    ///
    /// # Errors
    /// When the result does not fit 63 bits over 63 bits.
    pub fn checked_mul(self, rhs: Self) -> Result<Self, Error> {
        // What can cancel cancels crosswise first, so that a product too large here
        // is too large in lowest terms.
        let (left, right) =
            (gcd::narrow(self.numer, rhs.denom), gcd::narrow(rhs.numer, self.denom));
        let numer = (self.numer / left).checked_mul(rhs.numer / right);
        let denom = (self.denom / right).checked_mul(rhs.denom / left);
        numer
            .zip(denom)
            .and_then(|(numer, denom)| Self::reduced(numer, denom))
            .ok_or_else(|| Error::overflow(WHAT))
    }

    /// The quotient.
    ///
    /// # Errors
    /// When `rhs` is zero, or the result does not fit 63 bits over 63 bits.
    pub fn checked_div(self, rhs: Self) -> Result<Self, Error> {
        if rhs.numer == 0 {
            return Err(Kind::DivideByZero { what: WHAT }.into());
        }
        let sign = rhs.numer.signum();
        self.checked_mul(Self { numer: rhs.denom * sign, denom: rhs.numer * sign })
    }

    /// The whole number that `round` chooses.
    ///
    /// # Errors
    /// [`Round::Exact`] fails unless the number is whole.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Round};
    /// assert_eq!(Exact::new(5, 2)?.to_whole(Round::Ceil)?, 3);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn to_whole(self, round: Round) -> Result<i64, Error> {
        round
            .divide(self.numer, self.denom)
            .ok_or_else(|| Kind::NotWhole { what: WHAT, given: self.to_string() }.into())
    }

    /// The nearest `f64`, for showing only: never compute a count from it.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        clippy::float_arithmetic,
        reason = "an output for display, documented as lossy"
    )]
    pub fn to_f64_lossy(self) -> f64 {
        self.numer as f64 / self.denom as f64
    }
}

impl Ord for Exact {
    fn cmp(&self, other: &Self) -> Ordering {
        let left = i128::from(self.numer) * i128::from(other.denom);
        let right = i128::from(other.numer) * i128::from(self.denom);
        left.cmp(&right)
    }
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Default for Exact {
    fn default() -> Self {
        Self::ZERO
    }
}

impl From<u32> for Exact {
    fn from(n: u32) -> Self {
        Self::whole(n.into())
    }
}

impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.denom {
            1 => write!(f, "{}", self.numer),
            denom => write!(f, "{}/{denom}", self.numer),
        }
    }
}

impl FromStr for Exact {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        match number::leading(text) {
            Ok((number, "")) => Ok(number),
            Ok(_) => Err(Error::parse(WHAT, text, number::FORMS)),
            Err(fault) => Err(Error::parse(WHAT, text, fault.or(number::FORMS))),
        }
    }
}
