use super::{decimal, divisor, text};
use crate::error::Kind;
use crate::{Error, Round};
use alloc::string::ToString;
use core::cmp::Ordering;
use core::fmt;
use core::hash::{Hash, Hasher};
use core::str::FromStr;
use num_rational::Ratio;

/// An exact rational number: a numerator over a positive denominator, reduced, both of
/// 63 bits.
///
/// Arithmetic is checked: a result that does not fit is an error, in release
/// builds too. It parses and prints `7`, `-3/4` and reads decimals and mixed
/// numbers such as `12.5`, `12,5`, `20 1/2` and `20½`. With a precision it prints as a
/// decimal, halfway away from zero.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// let third = Exact::new(2, 6)?;
/// assert_eq!(third.to_string(), "1/3");
/// assert_eq!(third.checked_add("0.5".parse()?)?, Exact::new(5, 6)?);
/// assert_eq!(format!("{third:.2}"), "0.33");
/// assert_eq!(format!("{:.2}", Exact::new(-25, 200)?), "-0.13");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy)]
pub struct Exact(Ratio<i64>); // reduced, its denominator above zero, neither part i64::MIN

const WHAT: &str = "the number";

impl Exact {
    /// Zero.
    pub const ZERO: Self = Self::whole(0);
    /// One.
    pub const ONE: Self = Self::whole(1);

    /// A whole number. Larger ones go through `TryFrom<i64>` or [`Exact::literal`].
    #[must_use]
    pub const fn whole(n: i32) -> Self {
        Self::raw(n as i64, 1)
    }

    /// `numer` over `denom` in lowest terms, for tables and constants.
    ///
    /// # Panics
    /// When `denom` is not above zero, or the number cannot be held. In a `const` the
    /// compiler says so.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Exact;
    /// const HALF_STITCH: Exact = Exact::literal(1, 2);
    /// assert_eq!(HALF_STITCH.to_string(), "1/2");
    /// ```
    #[must_use]
    pub const fn literal(numer: i64, denom: i64) -> Self {
        assert!(denom > 0, "a denominator above zero");
        assert!(numer != i64::MIN, "a numerator of 63 bits");
        let (mut divisor, mut rest) = (denom, numer.abs());
        while rest != 0 {
            (divisor, rest) = (rest, divisor % rest);
        }
        Self::raw(numer / divisor, denom / divisor)
    }

    /// What is already as it is held.
    const fn raw(numer: i64, denom: i64) -> Self {
        Self(Ratio::new_raw(numer, denom))
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
        let divisor = divisor::wide(numer.unsigned_abs(), denom.unsigned_abs());
        let divisor = i128::try_from(divisor).map_err(|_| Error::overflow(WHAT))?;
        let sign = denom.signum();
        let narrow = |n: i128| i64::try_from(n).ok().filter(|&n| n != i64::MIN);
        match (narrow(numer / divisor * sign), narrow(denom / divisor * sign)) {
            (Some(numer), Some(denom)) => Ok(Self::raw(numer, denom)),
            _ => Err(Error::overflow(WHAT)),
        }
    }

    /// The numerator; it carries the sign.
    #[must_use]
    pub const fn numer(self) -> i64 {
        *self.0.numer()
    }

    /// The denominator, always positive.
    #[must_use]
    pub const fn denom(self) -> i64 {
        *self.0.denom()
    }

    /// Whether this is a whole number.
    #[must_use]
    pub const fn is_whole(self) -> bool {
        self.denom() == 1
    }

    /// Whether this is above zero.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.numer() > 0
    }

    /// Whether this is zero.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.numer() == 0
    }

    /// The distance from zero.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self::raw(self.numer().abs(), self.denom())
    }

    /// The same number with the other sign.
    #[must_use]
    pub const fn negated(self) -> Self {
        Self::raw(-self.numer(), self.denom())
    }

    /// The sum.
    ///
    /// # Errors
    /// When the result does not fit 63 bits over 63 bits.
    #[inline]
    pub fn checked_add(self, rhs: Self) -> Result<Self, Error> {
        if let Some(sum) = self.add_narrow(rhs) {
            return Ok(sum);
        }
        let (a, b) = (i128::from(self.numer()), i128::from(self.denom()));
        let (c, d) = (i128::from(rhs.numer()), i128::from(rhs.denom()));
        Self::reduce(a * d + c * b, b * d)
    }

    /// The sum when no intermediate outgrows 64 bits, which is the common case.
    fn add_narrow(self, rhs: Self) -> Option<Self> {
        if self.denom() == 1 && rhs.denom() == 1 {
            return Self::reduced(self.numer().checked_add(rhs.numer())?, 1);
        }
        // Over the least common denominator only its shared part can cancel.
        let shared = divisor::narrow(self.denom(), rhs.denom());
        let (left, right) = (self.denom() / shared, rhs.denom() / shared);
        let numer = self.numer().checked_mul(right)?.checked_add(rhs.numer().checked_mul(left)?)?;
        let divisor = divisor::narrow(numer, shared);
        Self::reduced(numer / divisor, left.checked_mul(rhs.denom() / divisor)?)
    }

    /// A fraction already in lowest terms, unless its numerator is out of bounds.
    fn reduced(numer: i64, denom: i64) -> Option<Self> {
        (numer != i64::MIN).then_some(Self::raw(numer, denom))
    }

    /// The difference.
    ///
    /// # Errors
    /// When the result does not fit 63 bits over 63 bits.
    #[inline]
    pub fn checked_sub(self, rhs: Self) -> Result<Self, Error> {
        self.checked_add(rhs.negated())
    }

    /// The product.
    ///
    /// # Errors
    /// When the result does not fit 63 bits over 63 bits.
    #[inline]
    pub fn checked_mul(self, rhs: Self) -> Result<Self, Error> {
        // What can cancel cancels crosswise first, so that a product too large here
        // is too large in lowest terms.
        let left = divisor::narrow(self.numer(), rhs.denom());
        let right = divisor::narrow(rhs.numer(), self.denom());
        let numer = (self.numer() / left).checked_mul(rhs.numer() / right);
        let denom = (self.denom() / right).checked_mul(rhs.denom() / left);
        numer
            .zip(denom)
            .and_then(|(numer, denom)| Self::reduced(numer, denom))
            .ok_or_else(|| Error::overflow(WHAT))
    }

    /// The quotient.
    ///
    /// # Errors
    /// When `rhs` is zero, or the result does not fit 63 bits over 63 bits.
    #[inline]
    pub fn checked_div(self, rhs: Self) -> Result<Self, Error> {
        if rhs.is_zero() {
            return Err(Kind::DivideByZero { what: WHAT }.into());
        }
        let sign = rhs.numer().signum();
        self.checked_mul(Self::raw(rhs.denom() * sign, rhs.numer() * sign))
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
        round.divide(self.numer(), self.denom()).ok_or_else(|| self.not_whole())
    }

    #[cold]
    fn not_whole(self) -> Error {
        Kind::NotWhole { what: WHAT, given: self.to_string() }.into()
    }

    /// The multiple of `step` that `round` chooses: for sums whose fractions would grow
    /// until they cannot be held. Rounding down and up encloses the number.
    ///
    /// # Errors
    /// When `step` is not above zero, the multiple cannot be held, or [`Round::Exact`]
    /// meets a number that is no multiple.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Round};
    /// let third = Exact::new(1, 3)?;
    /// let hundredth = Exact::new(1, 100)?;
    /// assert_eq!(third.snapped(hundredth, Round::Floor)?, Exact::new(33, 100)?);
    /// assert_eq!(third.snapped(hundredth, Round::Ceil)?, Exact::new(34, 100)?);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn snapped(self, step: Self, round: Round) -> Result<Self, Error> {
        if !step.is_positive() {
            let (what, given) = ("the step to snap to", step.to_string());
            return Err(Kind::Range { what, given, allowed: "above zero".into() }.into());
        }
        let numer = i128::from(self.numer()) * i128::from(step.denom());
        let denom = i128::from(self.denom()) * i128::from(step.numer());
        let steps = round.divide(numer, denom).ok_or_else(|| self.not_whole())?;
        let numer = steps.checked_mul(step.numer().into());
        Self::reduce(numer.ok_or_else(|| Error::overflow(WHAT))?, step.denom().into())
    }

    /// As a decimal with at most so many places, for showing: rounded halfway away from
    /// zero, closing zeros left off.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Exact;
    /// let told = ["28", "28.5", "28.175", "-1/3"].map(|n| n.parse::<Exact>().unwrap());
    /// let told = told.map(|n| n.decimal(2).to_string());
    /// assert_eq!(told, ["28", "28.5", "28.18", "-0.33"]);
    /// ```
    #[must_use]
    pub fn decimal(self, places: usize) -> impl fmt::Display {
        let text = decimal::trimmed(alloc::format!("{self:.places$}"));
        fmt::from_fn(move |f| f.pad(&text))
    }

    /// As it is written by hand: a decimal of up to six places where one is exact, and
    /// else the fraction.
    pub(crate) fn plain(self) -> impl fmt::Display {
        const PLACES: usize = 6;
        fmt::from_fn(move |f| match 1_000_000 % self.denom() {
            0 => write!(f, "{}", self.decimal(PLACES)),
            _ => write!(f, "{self}"),
        })
    }

    /// The nearest `f64`, for showing only: never compute a count from it.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        clippy::float_arithmetic,
        reason = "an output for display, documented as lossy"
    )]
    pub fn to_f64_lossy(self) -> f64 {
        self.numer() as f64 / self.denom() as f64
    }
}

/// In lowest terms equal numbers have equal parts, so these need no arithmetic.
impl PartialEq for Exact {
    fn eq(&self, other: &Self) -> bool {
        self.numer() == other.numer() && self.denom() == other.denom()
    }
}

impl Eq for Exact {}

impl Hash for Exact {
    fn hash<H: Hasher>(&self, state: &mut H) {
        (self.numer(), self.denom()).hash(state);
    }
}

impl Ord for Exact {
    #[inline]
    fn cmp(&self, other: &Self) -> Ordering {
        let left = i128::from(self.numer()) * i128::from(other.denom());
        let right = i128::from(other.numer()) * i128::from(self.denom());
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

impl From<i32> for Exact {
    fn from(n: i32) -> Self {
        Self::whole(n)
    }
}

impl From<u32> for Exact {
    fn from(n: u32) -> Self {
        Self::raw(n.into(), 1)
    }
}

impl From<u8> for Exact {
    fn from(n: u8) -> Self {
        Self::raw(n.into(), 1)
    }
}

impl TryFrom<i64> for Exact {
    type Error = Error;

    fn try_from(n: i64) -> Result<Self, Error> {
        Self::reduced(n, 1).ok_or_else(|| Error::overflow(WHAT))
    }
}

impl TryFrom<u64> for Exact {
    type Error = Error;

    fn try_from(n: u64) -> Result<Self, Error> {
        Self::reduce(n.into(), 1)
    }
}

impl From<Exact> for Ratio<i64> {
    fn from(exact: Exact) -> Self {
        exact.0
    }
}

impl TryFrom<Ratio<i64>> for Exact {
    type Error = Error;

    /// Reduced, whatever it holds.
    fn try_from(ratio: Ratio<i64>) -> Result<Self, Error> {
        Self::new(*ratio.numer(), *ratio.denom())
    }
}

impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Exact({}/{})", self.numer(), self.denom())
    }
}

impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (size, denom) = (self.numer().unsigned_abs(), self.denom().unsigned_abs());
        let text = match (f.precision(), denom) {
            (Some(places), denom) => decimal::digits(size.into(), denom.into(), places),
            (None, 1) => return fmt::Display::fmt(&self.numer(), f),
            (None, denom) => alloc::format!("{size}/{denom}"),
        };
        let zero = text.bytes().all(|byte| byte == b'0' || byte == b'.');
        f.pad_integral(zero || self.numer() >= 0, "", &text)
    }
}

impl FromStr for Exact {
    type Err = Error;

    fn from_str(given: &str) -> Result<Self, Error> {
        match text::leading(given) {
            Ok((number, "")) => Ok(number),
            Ok(_) => Err(Error::parse(WHAT, given, text::FORMS)),
            Err(fault) => Err(Error::parse(WHAT, given, fault.or(text::FORMS))),
        }
    }
}
