use crate::error::Kind;
use crate::{Error, Exact, Round, Unit, bounds, number};
use alloc::format;
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

    /// Millimetres within bounds, for the tables of this crate.
    pub(crate) const fn literal(mm: Exact) -> Self {
        Self(mm)
    }

    /// `amount` of `unit`.
    ///
    /// # Errors
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero.
    pub fn new(amount: Exact, unit: Unit) -> Result<Self, Error> {
        let in_millimetres = Exact::new(unit.micrometres(), 1_000)?;
        amount
            .checked_mul(in_millimetres)
            .map_err(|_| Error::overflow(WHAT))
            .and_then(Self::from_millimetres)
    }

    /// An exact number of millimetres.
    ///
    /// # Errors
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero.
    pub fn from_millimetres(mm: Exact) -> Result<Self, Error> {
        if mm.abs() <= Exact::whole(bounds::LENGTH_MM) {
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
        Self::from_millimetres(Exact::whole(n))
    }

    /// A whole number of centimetres.
    ///
    /// # Errors
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero.
    pub fn cm(n: i64) -> Result<Self, Error> {
        Self::new(Exact::whole(n), Unit::Centimetre)
    }

    /// A whole number of inches.
    ///
    /// # Errors
    /// When the length is beyond [`bounds::LENGTH_MM`] either side of zero.
    pub fn inches(n: i64) -> Result<Self, Error> {
        Self::new(Exact::whole(n), Unit::Inch)
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
        self.0.checked_div(Exact::new(unit.micrometres(), 1_000)?)
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

    /// This length as text in `unit`, rounded half up only for showing.
    #[must_use]
    pub const fn display(self, unit: Unit, precision: Precision) -> LengthDisplay {
        LengthDisplay { length: self, unit, precision }
    }
}

/// How finely a length is printed.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Precision {
    /// At most this many decimal places (up to 9); closing zeros are left off.
    Decimals(u8),
    /// The nearest fraction with this denominator, reduced: `20 1/2`.
    Fraction(u8),
}

/// A length with the unit and precision to print it in; see [`Length::display`].
#[derive(Clone, Copy, Debug)]
pub struct LengthDisplay {
    length: Length,
    unit: Unit,
    precision: Precision,
}

impl fmt::Display for LengthDisplay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let amount = self.length.in_unit(self.unit).map_err(|_| fmt::Error)?;
        match self.precision {
            Precision::Decimals(places) => write_decimal(f, amount, places)?,
            Precision::Fraction(denom) => write_fraction(f, amount, denom)?,
        }
        write!(f, " {}", self.unit)
    }
}

/// `amount` times `scale`, rounded half up, as sign and digits.
fn scaled(amount: Exact, scale: i64) -> Result<(&'static str, u64), fmt::Error> {
    let whole = amount
        .checked_mul(Exact::whole(scale))
        .and_then(|scaled| scaled.to_whole(Round::HalfUp))
        .map_err(|_| fmt::Error)?;
    Ok((if whole < 0 { "-" } else { "" }, whole.unsigned_abs()))
}

fn write_decimal(f: &mut fmt::Formatter<'_>, amount: Exact, places: u8) -> fmt::Result {
    let places = places.min(9);
    let scale = 10_u64.pow(places.into());
    let (sign, digits) = scaled(amount, i64::try_from(scale).map_err(|_| fmt::Error)?)?;
    write!(f, "{sign}{}", digits / scale)?;
    let (mut rest, mut width) = (digits % scale, usize::from(places));
    while rest != 0 && rest % 10 == 0 {
        (rest, width) = (rest / 10, width - 1);
    }
    if rest == 0 { Ok(()) } else { write!(f, ".{rest:0width$}") }
}

fn write_fraction(f: &mut fmt::Formatter<'_>, amount: Exact, denom: u8) -> fmt::Result {
    let denom = i64::from(denom.max(1));
    let (sign, parts) = scaled(amount, denom)?;
    let parts = i64::try_from(parts).map_err(|_| fmt::Error)?;
    let (whole, rest) = (parts / denom, Exact::new(parts % denom, denom).map_err(|_| fmt::Error)?);
    match (whole, rest.is_zero()) {
        (_, true) => write!(f, "{sign}{whole}"),
        (0, false) => write!(f, "{sign}{rest}"),
        (_, false) => write!(f, "{sign}{whole} {rest}"),
    }
}

impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.0)
    }
}

impl FromStr for Length {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let refuse = |why| Error::parse(WHAT, text, why);
        let (amount, rest) = number::leading(text).map_err(|_| refuse(FORMS))?;
        let (symbol, more) = split_symbol(rest);
        let unit = Unit::from_symbol(symbol).ok_or_else(|| refuse(FORMS))?;
        let length = Self::new(amount, unit)?;
        if more.is_empty() {
            return Ok(length);
        }
        if unit != Unit::Foot {
            return Err(refuse("only feet may be followed by another length, in inches"));
        }
        let (inches, rest) = number::leading(more.trim_start()).map_err(|_| refuse(FORMS))?;
        let in_range = (Exact::ZERO..Exact::whole(12)).contains(&inches);
        match (Unit::from_symbol(rest.trim_start()), in_range) {
            (Some(Unit::Inch), true) => add_inches(length, inches),
            (Some(Unit::Inch), false) => {
                Err(refuse("the inches after the feet must be at least 0 and below 12"))
            }
            _ => Err(refuse("only feet may be followed by another length, in inches")),
        }
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
