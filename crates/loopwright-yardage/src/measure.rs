use crate::{Error, LinearDensity, Mass};
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::Length;

/// Yarn told by its length or by its weight; it reads `120 m` and `63 g`.
///
/// # Examples
/// ```
/// use loopwright_yardage::{Mass, Measure};
/// assert_eq!("63 g".parse::<Measure>()?, Measure::Mass(Mass::g(63)?));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[expect(clippy::exhaustive_enums, reason = "yarn is told by length or by weight")]
pub enum Measure {
    /// By length.
    Length(Length),
    /// By weight.
    Mass(Mass),
}

impl Measure {
    /// How long this is, in a yarn of this density.
    ///
    /// # Errors
    /// When the length is out of bounds or cannot be held exactly.
    pub fn length(self, yarn: LinearDensity) -> Result<Length, Error> {
        match self {
            Self::Length(length) => Ok(length),
            Self::Mass(mass) => yarn.length_of(mass),
        }
    }

    /// What this weighs, in a yarn of this density.
    ///
    /// # Errors
    /// When the length is below zero, or the mass cannot be held exactly.
    pub fn mass(self, yarn: LinearDensity) -> Result<Mass, Error> {
        match self {
            Self::Length(length) => yarn.mass_of(length),
            Self::Mass(mass) => Ok(mass),
        }
    }
}

impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(length) => length.fmt(f),
            Self::Mass(mass) => mass.fmt(f),
        }
    }
}

impl FromStr for Measure {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        const FORMS: &str = "write a weight such as 63 g, or a length such as 120 m";
        let mass = text.parse().map(Self::Mass);
        mass.or_else(|_| text.parse().map(Self::Length))
            .map_err(|_: loopwright_gauge::Error| Error::parse("the amount of yarn", text, FORMS))
    }
}
