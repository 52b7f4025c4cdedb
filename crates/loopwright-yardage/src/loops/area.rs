use super::cloth::read_unit;
use crate::grid::{Grid, sqrt};
use crate::{Error, Mass};
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Exact, Length, Round};

/// An exact area, in square millimetres.
///
/// # Examples
/// A body of 28 by 20 in, twice:
/// ```
/// use loopwright_gauge::{Exact, Length};
/// use loopwright_yardage::Area;
/// let body = Area::rectangle(Length::inches(28)?, Length::inches(20)?)?;
/// assert_eq!(body.scaled(Exact::whole(2))?.square_inches()?, Exact::whole(1_120));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub struct Area(Exact);

impl Area {
    /// A rectangle.
    ///
    /// # Errors
    /// When a side is below zero, or the area cannot be held exactly.
    pub fn rectangle(width: Length, height: Length) -> Result<Self, Error> {
        Self::trapezoid(width, width, height)
    }

    /// A trapezoid: half the sum of its two parallel sides times its height.
    ///
    /// # Errors
    /// When a side is below zero, or the area cannot be held exactly.
    pub fn trapezoid(top: Length, bottom: Length, height: Length) -> Result<Self, Error> {
        for side in [top, bottom, height] {
            if side < Length::ZERO {
                return Err(Error::range("the side of an area", side, "zero or more"));
            }
        }
        let middle = top.checked_add(bottom)?.scaled(Exact::new(1, 2)?)?;
        Ok(Self(middle.millimetres().checked_mul(height.millimetres())?))
    }

    /// Square millimetres.
    #[must_use]
    pub const fn square_millimetres(self) -> Exact {
        self.0
    }

    /// Square inches.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn square_inches(self) -> Result<Exact, Error> {
        Ok(self.0.checked_div(Exact::new(64_516, 100)?)?)
    }

    /// The sum.
    ///
    /// # Errors
    /// When the sum cannot be held exactly.
    pub fn checked_add(self, rhs: Self) -> Result<Self, Error> {
        Ok(Self(self.0.checked_add(rhs.0)?))
    }

    /// This area, `factor` times: twice the yarn knits twice the area.
    ///
    /// # Errors
    /// When `factor` is below zero, or the area cannot be held exactly.
    pub fn scaled(self, factor: Exact) -> Result<Self, Error> {
        if factor < Exact::ZERO {
            return Err(Error::range("the factor of an area", factor, "zero or more"));
        }
        Ok(Self(self.0.checked_mul(factor)?))
    }

    /// The side of the square of this area, to a micrometre: also the depth of a triangle
    /// twice as wide as it is deep.
    ///
    /// # Errors
    /// When the root cannot be held, or [`Round::Exact`] meets a remainder.
    pub fn square_side(self, round: Round) -> Result<Length, Error> {
        Ok(Length::from_millimetres(sqrt(self.0, 1_000, round)?)?)
    }

    /// What this area weighs when a swatch of the same fabric of `swatch` area weighs
    /// `mass`.
    ///
    /// # Errors
    /// When the swatch has no area, or the mass cannot be held exactly.
    pub fn mass_from(self, swatch: Self, mass: Mass) -> Result<Mass, Error> {
        if !swatch.0.is_positive() {
            return Err(Error::range("the area of the swatch", swatch, "above zero"));
        }
        mass.scaled(self.0.checked_div(swatch.0)?)
    }
}

/// It reads what it prints, and `1120 in2`, `0.5 m2` or `300 cm2`.
impl FromStr for Area {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        const FORMS: &str = "write such as 300 cm2 or 1120 in2";
        const MM2: Grid = Grid::new("the area", 1_000);
        let units = [
            ("mm²", Exact::ONE),
            ("mm2", Exact::ONE),
            ("cm²", Exact::literal(100, 1)),
            ("cm2", Exact::literal(100, 1)),
            ("in²", Exact::literal(64_516, 100)),
            ("in2", Exact::literal(64_516, 100)),
            ("m²", Exact::literal(1_000_000, 1)),
            ("m2", Exact::literal(1_000_000, 1)),
        ];
        let area = read_unit(text, &units, MM2);
        let area = area.ok_or_else(|| Error::parse("the area", text, FORMS))??;
        if area < Exact::ZERO {
            return Err(Error::range("the area", text, "zero or more"));
        }
        Ok(Self(area))
    }
}

impl fmt::Display for Area {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm²", self.0)
    }
}

/// The size of a similar piece from another amount of yarn: lengths go with the root of
/// the yarn, so two thirds of the depth take four ninths of it.
///
/// To a micrometre, rounded down so that the yarn suffices.
///
/// # Errors
/// When `took` is not above zero, `have` is below it, or the root cannot be held.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Length};
/// use loopwright_yardage::similar;
/// let smaller = similar(Length::cm(90)?, Exact::whole(9), Exact::whole(4))?;
/// assert_eq!(smaller, Length::cm(60)?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn similar(length: Length, took: Exact, have: Exact) -> Result<Length, Error> {
    if !took.is_positive() || have < Exact::ZERO {
        let given = alloc::format!("{have} for {took}");
        return Err(Error::range("the yarn of a similar piece", given, "above zero"));
    }
    let square = length.millimetres().checked_mul(length.millimetres())?;
    let square = square.checked_mul(have.checked_div(took)?)?;
    Ok(Length::from_millimetres(sqrt(square, 1_000, Round::Floor)?)?)
}
