use crate::{Error, bounds, grid};
use alloc::format;
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Exact, Round, choices};

choices! {
    /// A unit of mass, met only where masses are read and printed.
    ///
    /// # Examples
    /// ```
    /// use loopwright_yardage::MassUnit;
    /// assert_eq!("ounces".parse(), Ok(MassUnit::Ounce));
    /// assert_eq!(MassUnit::Gram.nanograms(), 1_000_000_000);
    /// ```
    #[non_exhaustive]
    pub enum MassUnit: "the unit of mass" {
        /// Milligram.
        Milligram = "mg",
        /// Grain: 64.79891 mg.
        Grain = "gr" | "grain" | "grains",
        /// Gram.
        Gram = "g" | "gram" | "grams",
        /// Kilogram.
        Kilogram = "kg",
        /// Ounce: a sixteenth of a pound.
        Ounce = "oz" | "ounce" | "ounces",
        /// Pound: 453.59237 g.
        Pound = "lb" | "lbs" | "pound" | "pounds",
    }
}

const _: () = assert!(7_000 * MassUnit::Grain.nanograms() == MassUnit::Pound.nanograms());
const _: () = assert!(16 * MassUnit::Ounce.nanograms() == MassUnit::Pound.nanograms());

impl MassUnit {
    /// One of this unit in nanograms; exact by definition (international yard and
    /// pound agreement, 1959: a pound is 0.45359237 kg and 7,000 grains).
    #[must_use]
    pub const fn nanograms(self) -> i64 {
        match self {
            Self::Milligram => 1_000_000,
            Self::Grain => 64_798_910,
            Self::Gram => 1_000_000_000,
            Self::Kilogram => 1_000_000_000_000,
            Self::Ounce => 28_349_523_125,
            Self::Pound => 453_592_370_000,
        }
    }

    fn grams(self) -> Result<Exact, Error> {
        Ok(Exact::new(self.nanograms(), Self::Gram.nanograms())?)
    }
}

/// An exact mass, held in grams and never below zero.
///
/// It reads `50 g`, `1.5 kg`, `1¾ oz` and `2 lb`, and prints itself exactly in
/// grams.
///
/// # Examples
/// ```
/// use loopwright_yardage::{Mass, MassUnit};
/// let ball: Mass = "50 g".parse()?;
/// assert_eq!(ball.display(MassUnit::Ounce, 2).to_string(), "1.76 oz");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub struct Mass(Exact);

const WHAT: &str = "the mass";
const FORMS: &str = "write a number and its unit (mg, gr, g, kg, oz, lb), such as 50 g or 3 1/2 oz";

impl Mass {
    /// No mass.
    pub const ZERO: Self = Self(Exact::ZERO);

    /// `amount` of `unit`, to the nearest nanogram where it cannot be held exactly.
    ///
    /// # Errors
    /// When the mass is below zero or above [`bounds::MASS_G`].
    pub fn new(amount: Exact, unit: MassUnit) -> Result<Self, Error> {
        Self::from_grams(grid::MASS.product(amount, unit.grams()?, Round::HalfUp)?)
    }

    /// An exact number of grams.
    ///
    /// # Errors
    /// When the mass is below zero or above [`bounds::MASS_G`].
    pub fn from_grams(grams: Exact) -> Result<Self, Error> {
        if grams >= Exact::ZERO && grams <= Exact::literal(bounds::MASS_G, 1) {
            return Ok(Self(grams));
        }
        let allowed = format!("in 0..={} g", bounds::MASS_G);
        Err(Error::range(WHAT, format!("{grams} g"), allowed))
    }

    /// A whole number of grams.
    ///
    /// # Errors
    /// When the mass is below zero or above [`bounds::MASS_G`].
    pub fn g(n: i64) -> Result<Self, Error> {
        Self::from_grams(n.try_into()?)
    }

    /// The exact number of grams.
    #[must_use]
    pub const fn grams(self) -> Exact {
        self.0
    }

    /// How many of `unit` this is, exactly.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn in_unit(self, unit: MassUnit) -> Result<Exact, Error> {
        Ok(self.0.checked_div(unit.grams()?)?)
    }

    /// Whether this is above zero.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.0.is_positive()
    }

    /// The sum.
    ///
    /// # Errors
    /// When the sum is out of bounds or cannot be held exactly.
    pub fn checked_add(self, rhs: Self) -> Result<Self, Error> {
        Self::from_grams(self.0.checked_add(rhs.0)?)
    }

    /// The difference.
    ///
    /// # Errors
    /// When `rhs` is the larger, or the difference cannot be held exactly.
    pub fn checked_sub(self, rhs: Self) -> Result<Self, Error> {
        Self::from_grams(self.0.checked_sub(rhs.0)?)
    }

    /// This mass, `factor` times.
    ///
    /// # Errors
    /// When the product is out of bounds or cannot be held exactly.
    pub fn scaled(self, factor: Exact) -> Result<Self, Error> {
        Self::from_grams(self.0.checked_mul(factor)?)
    }

    /// This mass, `factor` times, to the picogram (beyond a tonne the nanogram) where it
    /// cannot be held exactly.
    pub(crate) fn times(self, factor: Exact, round: Round) -> Result<Self, Error> {
        let fine = grid::STITCH_MASS.product(self.0, factor, round);
        Self::from_grams(fine.or_else(|_| grid::MASS.product(self.0, factor, round))?)
    }

    /// How many times `rhs` goes into this mass, exactly.
    ///
    /// # Errors
    /// When `rhs` is zero or the ratio cannot be held exactly.
    pub fn ratio(self, rhs: Self) -> Result<Exact, Error> {
        Ok(self.0.checked_div(rhs.0)?)
    }

    /// The same yarn's mass at another moisture regain: the dry substance stays,
    /// the water changes.
    ///
    /// Both regains are fractions of the dry mass, 1/5 for 20 %. To the nearest nanogram
    /// where the mass cannot be held exactly.
    ///
    /// # Errors
    /// When a regain is outside 0..=1, or the mass is out of bounds.
    ///
    /// # Examples
    /// A ball of 50 g at 18.25 % regain weighs 48.20 g at 14 %:
    /// ```
    /// use loopwright_yardage::{Mass, MassUnit};
    /// let dried = Mass::g(50)?.at_regain("0.1825".parse()?, "0.14".parse()?)?;
    /// assert_eq!(dried.display(MassUnit::Gram, 2).to_string(), "48.2 g");
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn at_regain(self, from: Exact, to: Exact) -> Result<Self, Error> {
        for regain in [from, to] {
            if regain < Exact::ZERO || regain > Exact::ONE {
                return Err(Error::range("the moisture regain", regain, "in 0..=1"));
            }
        }
        let wet = |regain| grid::SHARE.sum(Exact::ONE, regain, Round::HalfUp);
        let dry = grid::MASS.quotient(self.0, wet(from)?, Round::HalfUp)?;
        Self::from_grams(grid::MASS.product(dry, wet(to)?, Round::HalfUp)?)
    }

    /// This mass as text in `unit`, with at most `places` decimals (up to 9),
    /// rounded to the nearest only for showing.
    #[must_use]
    pub const fn display(self, unit: MassUnit, places: u8) -> MassDisplay {
        MassDisplay { mass: self, unit, places }
    }
}

/// A mass with the unit and precision to print it in; see [`Mass::display`].
///
/// # Examples
/// ```
/// use loopwright_yardage::{Mass, MassUnit};
/// let told = Mass::g(50)?.display(MassUnit::Ounce, 1);
/// assert_eq!(told.to_string(), "1.8 oz");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct MassDisplay {
    mass: Mass,
    unit: MassUnit,
    places: u8,
}

impl fmt::Display for MassDisplay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = self.unit.grams().map_err(|_| fmt::Error)?;
        let amount = grid::MASS
            .quotient(self.mass.0, unit, Round::HalfUp)
            .or_else(|_| grid::SHARE.quotient(self.mass.0, unit, Round::HalfUp))
            .map_err(|_| fmt::Error)?;
        write!(f, "{}", amount.decimal(self.places.min(9).into()))?;
        write!(f, " {}", self.unit)
    }
}

impl fmt::Display for Mass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} g", self.0)
    }
}

/// The number and the symbol after it, past at most one space.
pub(crate) fn split_unit(text: &str) -> (&str, &str) {
    let at = text.find(char::is_alphabetic).unwrap_or(text.len());
    let (number, unit) = text.split_at(at);
    (number.strip_suffix(' ').unwrap_or(number), unit)
}

impl FromStr for Mass {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let refuse = || Error::parse(WHAT, text, FORMS);
        let (number, unit) = split_unit(text);
        let unit: MassUnit = unit.parse().map_err(|_| refuse())?;
        Self::new(number.parse().map_err(|_| refuse())?, unit)
    }
}
