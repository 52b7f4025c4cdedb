use crate::error::Kind;
use crate::number::{decimal, divisor, text};
use crate::{Error, Exact, Unit, bounds};
use alloc::format;
use alloc::string::String;
use core::fmt;
use core::str::FromStr;

/// An exact length, held in millimetres.
///
/// It reads `52 cm`, `52,5 cm`, `20 1/2 in`, `20½"`, `5 ft 4 in`, `1.2 m`, `3 yd`,
/// prints itself exactly in millimetres, and prints in any unit and precision
/// through [`Length::display`].
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Precision, Unit};
/// let width: Length = "20 1/2 in".parse()?;
/// assert_eq!(width, "52,07 cm".parse()?);
/// assert_eq!(width.display(Unit::Centimetre, Precision::Decimals(1)).to_string(), "52.1 cm");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub struct Length(Exact);

const WHAT: &str = "the length";
const FORMS: &str =
    "write a number and its unit (mm, cm, m, in, ft, yd), such as 52 cm, 20 1/2 in or 5 ft 4 in";

impl Length {
    /// No length.
    pub const ZERO: Self = Self(Exact::ZERO);
    /// One millimetre.
    pub const MILLIMETRE: Self = Self(Exact::ONE);

    const MOST: Exact = Exact::literal(bounds::LENGTH_MM, 1);

    /// So many millimetres, for tables and constants.
    ///
    /// # Panics
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero. In a `const`
    /// the compiler says so.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Length};
    /// const INCH: Length = Length::literal(Exact::literal(254, 10));
    /// assert_eq!(INCH, Length::inches(1)?);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    #[must_use]
    pub const fn literal(mm: Exact) -> Self {
        let most = bounds::LENGTH_MM as i128 * mm.denom() as i128;
        assert!(mm.numer().abs() as i128 <= most, "a length within bounds");
        Self(mm)
    }

    /// A whole number of millimetres, for tables and constants.
    ///
    /// # Panics
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero. In a `const`
    /// the compiler says so.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Length;
    /// const LONGEST_CORD: Length = Length::literal_mm(75);
    /// assert_eq!(LONGEST_CORD.to_string(), "75 mm");
    /// ```
    #[must_use]
    pub const fn literal_mm(mm: i64) -> Self {
        Self::literal(Exact::literal(mm, 1))
    }

    /// `amount` of `unit`.
    ///
    /// # Errors
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero.
    pub fn new(amount: Exact, unit: Unit) -> Result<Self, Error> {
        amount
            .checked_mul(unit.millimetres())
            .map_err(|_| Error::overflow(WHAT))
            .and_then(Self::from_millimetres)
    }

    /// An exact number of millimetres.
    ///
    /// # Errors
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero.
    pub fn from_millimetres(mm: Exact) -> Result<Self, Error> {
        if mm.abs() <= Self::MOST {
            return Ok(Self(mm));
        }
        let allowed = format!("within {} km either side of zero", bounds::LENGTH_MM / 1_000_000);
        Err(Kind::Range { what: WHAT, given: format!("{mm} mm"), allowed }.into())
    }

    /// A whole number of millimetres.
    ///
    /// # Errors
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero.
    pub fn mm(n: i64) -> Result<Self, Error> {
        Self::from_millimetres(n.try_into()?)
    }

    /// A whole number of centimetres.
    ///
    /// # Errors
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero.
    pub fn cm(n: i64) -> Result<Self, Error> {
        Self::new(n.try_into()?, Unit::Centimetre)
    }

    /// A whole number of inches.
    ///
    /// # Errors
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero.
    pub fn inches(n: i64) -> Result<Self, Error> {
        Self::new(n.try_into()?, Unit::Inch)
    }

    /// The exact number of millimetres.
    #[must_use]
    pub const fn millimetres(self) -> Exact {
        self.0
    }

    /// How many of `unit` this is, exactly.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn in_unit(self, unit: Unit) -> Result<Exact, Error> {
        self.0.checked_div(unit.millimetres())
    }

    /// Whether this is above zero.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.0.is_positive()
    }

    /// The same length on the positive side of zero.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// The same length with the other sign.
    #[must_use]
    pub const fn negated(self) -> Self {
        Self(self.0.negated())
    }

    /// The sum.
    ///
    /// # Errors
    /// When the sum is out of bounds or cannot be held exactly.
    pub fn checked_add(self, rhs: Self) -> Result<Self, Error> {
        self.0.checked_add(rhs.0).and_then(Self::from_millimetres)
    }

    /// The difference.
    ///
    /// # Errors
    /// When the difference is out of bounds or cannot be held exactly.
    pub fn checked_sub(self, rhs: Self) -> Result<Self, Error> {
        self.0.checked_sub(rhs.0).and_then(Self::from_millimetres)
    }

    /// This length, `factor` times.
    ///
    /// # Errors
    /// When the product is out of bounds or cannot be held exactly.
    pub fn scaled(self, factor: Exact) -> Result<Self, Error> {
        self.0.checked_mul(factor).and_then(Self::from_millimetres)
    }

    /// How many times `rhs` goes into this length, exactly.
    ///
    /// # Errors
    /// When `rhs` is zero or the ratio cannot be held exactly.
    pub fn ratio(self, rhs: Self) -> Result<Exact, Error> {
        self.0.checked_div(rhs.0)
    }

    /// This length as text in `unit`, rounded only for showing, halfway away from zero.
    #[must_use]
    pub const fn display(self, unit: Unit, precision: Precision) -> LengthDisplay {
        LengthDisplay { length: self, unit, precision }
    }
}

/// How finely a length is printed.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Precision, Unit};
/// let width = Length::cm(51)?;
/// assert_eq!(width.display(Unit::Inch, Precision::Fraction(8)).to_string(), "20 1/8 in");
/// assert_eq!(width.display(Unit::Inch, Precision::Decimals(1)).to_string(), "20.1 in");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Precision {
    /// At most this many decimal places (up to 9); closing zeros are left off.
    Decimals(u8),
    /// The nearest fraction with this denominator, reduced: `20 1/2`.
    Fraction(u8),
}

/// A length with the unit and precision to print it in; see [`Length::display`].
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Precision, Unit};
/// let shown = Length::mm(25)?.display(Unit::Centimetre, Precision::Decimals(1));
/// assert_eq!(format!("{shown:>8}"), "  2.5 cm");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct LengthDisplay {
    length: Length,
    unit: Unit,
    precision: Precision,
}

impl LengthDisplay {
    /// The size in the unit, as a fraction that need not be in lowest terms.
    ///
    /// Printing must not fail, so this does not pass through [`Exact`]: a numerator and
    /// a denominator of 63 bits, times at most a million micrometres, are below 2^83.
    fn in_unit(self) -> (u128, u128) {
        let mm = self.length.0;
        let numer = u128::from(mm.numer().unsigned_abs()) * 1_000;
        let denom = u128::from(mm.denom().unsigned_abs());
        (numer, denom * u128::from(self.unit.micrometres().unsigned_abs()))
    }

    fn decimals(self, places: u8) -> String {
        let (numer, denom) = self.in_unit();
        decimal::trimmed(decimal::digits(numer, denom, places.into()))
    }

    fn fraction(self, denom: u8) -> String {
        let (numer, of) = self.in_unit();
        let parts = decimal::parts(numer, of, denom.into());
        let (whole, rest) = (parts / u128::from(denom), parts % u128::from(denom));
        let divisor = divisor::wide(rest, denom.into());
        let (rest, denom) = (rest / divisor, u128::from(denom) / divisor);
        match (whole, rest) {
            (whole, 0) => format!("{whole}"),
            (0, rest) => format!("{rest}/{denom}"),
            (whole, rest) => format!("{whole} {rest}/{denom}"),
        }
    }
}

impl fmt::Display for LengthDisplay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let size = match self.precision {
            Precision::Decimals(places) => self.decimals(places.min(9)),
            Precision::Fraction(denom) => self.fraction(denom.max(1)),
        };
        let sign = if self.length < Length::ZERO && size != "0" { "-" } else { "" };
        f.pad(&format!("{sign}{size} {}", self.unit))
    }
}

impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.0)
    }
}

impl FromStr for Length {
    type Err = Error;

    fn from_str(given: &str) -> Result<Self, Error> {
        let refuse = |why| Error::parse(WHAT, given, why);
        let (amount, rest) = text::leading(given).map_err(|fault| refuse(fault.or(FORMS)))?;
        let (symbol, more) = split_symbol(rest);
        let unit = Unit::from_symbol(symbol).ok_or_else(|| refuse(FORMS))?;
        let length = Self::new(amount, unit)?;
        if more.is_empty() {
            return Ok(length);
        }
        let (inches, rest) =
            text::leading(more.trim_start()).map_err(|fault| refuse(fault.or(FORMS)))?;
        if unit != Unit::Foot || Unit::from_symbol(rest.trim_start()) != Some(Unit::Inch) {
            return Err(refuse("only feet may be followed by another length, in inches"));
        }
        if !(Exact::ZERO..Exact::whole(12)).contains(&inches) {
            return Err(refuse("the inches after the feet must be at least 0 and below 12"));
        }
        add_inches(length, inches)
    }
}

/// Inches lengthen away from zero: `-5 ft 4 in` is 64 in below zero.
fn add_inches(feet: Length, inches: Exact) -> Result<Length, Error> {
    let inches = Length::new(inches, Unit::Inch)?;
    if feet < Length::ZERO { feet.checked_sub(inches) } else { feet.checked_add(inches) }
}

/// The unit's symbol, past at most one space, and what follows it.
fn split_symbol(text: &str) -> (&str, &str) {
    let text = text.strip_prefix(' ').unwrap_or(text);
    let end =
        text.char_indices().find(|&(_, c)| !c.is_alphabetic()).map_or(text.len(), |(at, _)| at);
    let end = match text.chars().next() {
        Some(mark) if "\"'″′".contains(mark) => mark.len_utf8(),
        _ => end,
    };
    text.split_at(end)
}

impl From<Length> for Exact {
    fn from(length: Length) -> Self {
        length.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn marks_are_symbols() {
        assert_eq!(split_symbol("\""), ("\"", ""));
        assert_eq!(split_symbol("' 4\""), ("'", " 4\""));
        assert_eq!(split_symbol(" ft 4 in"), ("ft", " 4 in"));
        assert_eq!(Length::ZERO.0.to_string(), "0");
    }
}
