use crate::loops::length_times;
use crate::{Error, LinearDensity, Mass, Spread};
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Exact, Length, Round};

/// Yarn told by its length or by its weight; it reads `120 m` and `63 g`.
///
/// # Examples
/// ```
/// use loopwright_yardage::{Mass, YarnQuantity};
/// assert_eq!("63 g".parse::<YarnQuantity>()?, YarnQuantity::Mass(Mass::g(63)?));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[expect(clippy::exhaustive_enums, reason = "yarn is told by length or by weight")]
pub enum YarnQuantity {
    /// By length.
    Length(Length),
    /// By weight.
    Mass(Mass),
}

impl YarnQuantity {
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

    /// Whether there is any.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        match self {
            Self::Length(length) => length.is_positive(),
            Self::Mass(mass) => mass.is_positive(),
        }
    }

    /// How long this is, outwards to the nanometre where it cannot be held exactly.
    pub(crate) fn lengths(self, yarn: Option<LinearDensity>) -> Result<Spread<Length>, Error> {
        match self {
            Self::Length(length) => Ok(Spread::exactly(length)),
            Self::Mass(mass) => known(yarn)?.lengths_of(Spread::exactly(mass)),
        }
    }

    /// What this weighs, outwards to the picogram where it cannot be held exactly.
    pub(crate) fn masses(self, yarn: Option<LinearDensity>) -> Result<Spread<Mass>, Error> {
        match self {
            Self::Length(length) => known(yarn)?.masses_of(Spread::exactly(length)),
            Self::Mass(mass) => Ok(Spread::exactly(mass)),
        }
    }

    /// This, `factor` times, to the nearest nanometre or picogram.
    pub(crate) fn times(self, factor: Exact) -> Result<Self, Error> {
        Ok(match self {
            Self::Length(length) => Self::Length(length_times(length, factor, Round::HalfUp)?),
            Self::Mass(mass) => Self::Mass(mass.times(factor, Round::HalfUp)?),
        })
    }
}

/// A weight beside a length needs the yarn's number.
fn known(yarn: Option<LinearDensity>) -> Result<LinearDensity, Error> {
    yarn.ok_or_else(|| Error::missing("a weight beside a length of yarn", "the yarn's number"))
}

impl fmt::Display for YarnQuantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(length) => length.fmt(f),
            Self::Mass(mass) => mass.fmt(f),
        }
    }
}

impl FromStr for YarnQuantity {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        const FORMS: &str = "write a weight such as 63 g, or a length such as 120 m";
        let mass = text.parse().map(Self::Mass);
        mass.or_else(|_| text.parse().map(Self::Length))
            .map_err(|_: loopwright_gauge::Error| Error::parse("the amount of yarn", text, FORMS))
    }
}
