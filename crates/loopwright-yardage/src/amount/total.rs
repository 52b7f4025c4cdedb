use crate::grid::{self, outwards};
use crate::loops::length_times;
use crate::{Error, Mass, MassUnit, Spread};
use core::fmt;
use loopwright_gauge::{Exact, Length, Precision, Round, Unit};

/// An amount of yarn, as a length and as a mass, each with its spread.
///
/// # Examples
/// ```
/// use loopwright_gauge::Spread;
/// use loopwright_yardage::{Amount, LinearDensity};
/// let yarn: LinearDensity = "400 m/100 g".parse()?;
/// let length = Spread::new("90 m".parse()?, "100 m".parse()?, "120 m".parse()?)?;
/// let amount = Amount::new(length, yarn.masses_of(length)?);
/// let twice = amount.checked_add(&amount)?;
/// assert_eq!(twice.to_string(), "200 m (180 m to 240 m), 50 g (45 g to 60 g)");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Amount {
    /// How long it is.
    pub length: Spread<Length>,
    /// How much it weighs.
    pub mass: Spread<Mass>,
}

impl Amount {
    /// No yarn.
    pub const ZERO: Self =
        Self { length: Spread::exactly(Length::ZERO), mass: Spread::exactly(Mass::ZERO) };

    /// An amount from its two spreads.
    #[must_use]
    pub const fn new(length: Spread<Length>, mass: Spread<Mass>) -> Self {
        Self { length, mass }
    }

    /// The sum, the spreads end to end: the pieces share one gauge and one yarn, so
    /// their errors do not cancel. To the nanometre and nanogram, outwards, where a sum
    /// cannot be held exactly.
    ///
    /// # Errors
    /// When a sum is out of bounds.
    pub fn checked_add(&self, rhs: &Self) -> Result<Self, Error> {
        let [low, likely, high] = [Round::Floor, Round::HalfUp, Round::Ceil];
        let mm = |a: Length, b: Length, round| -> Result<_, Error> {
            let sum = grid::LENGTH.sum(a.millimetres(), b.millimetres(), round)?;
            Ok(Length::from_millimetres(sum)?)
        };
        let (a, b) = (&self.length, &rhs.length);
        let length = grid::between(
            mm(a.low(), b.low(), low)?,
            mm(a.likely(), b.likely(), likely)?,
            mm(a.high(), b.high(), high)?,
        )?;
        let g = |a: Mass, b: Mass, round| {
            Mass::from_grams(grid::MASS.sum(a.grams(), b.grams(), round)?)
        };
        let (a, b) = (&self.mass, &rhs.mass);
        let mass = grid::between(
            g(a.low(), b.low(), low)?,
            g(a.likely(), b.likely(), likely)?,
            g(a.high(), b.high(), high)?,
        )?;
        Ok(Self { length, mass })
    }

    /// This amount, `factor` times; to the nanometre and picogram, outwards, where it cannot
    /// be held exactly.
    ///
    /// # Errors
    /// When `factor` is below zero, or the amount is out of bounds.
    pub fn scaled(&self, factor: Exact) -> Result<Self, Error> {
        if factor < Exact::ZERO {
            return Err(Error::range("the factor of an amount", factor, "zero or more"));
        }
        Ok(Self {
            length: outwards(self.length, |length, round| length_times(length, factor, round))?,
            mass: outwards(self.mass, |mass, round| mass.times(factor, round))?,
        })
    }
}

impl fmt::Display for Amount {
    /// `920 m (850 m to 990 m), 66 g (61 g to 71 g)`, to the whole metre and gram.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let metres = |length: Length| length.display(Unit::Metre, Precision::Decimals(0));
        let grams = |mass: Mass| mass.display(MassUnit::Gram, 0);
        let (length, mass) = (&self.length, &self.mass);
        write!(f, "{} ", metres(length.likely()))?;
        write!(f, "({} to {}), ", metres(length.low()), metres(length.high()))?;
        write!(f, "{} ({} to {})", grams(mass.likely()), grams(mass.low()), grams(mass.high()))
    }
}
