//! Rows left, from what the rows so far took.

use crate::grid::{self, between};
use crate::{Error, Growth, LinearDensity, Mass, Remainder, Spread, YarnQuantity, bounds};
use alloc::format;
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Count as _, Exact, Length, Round, Rows};

/// So many rows took so much yarn: it reads `120 rows = 35 g`.
///
/// No gauge and no yarn number are needed: what the rows so far took says what a stitch
/// takes, cast-on and all.
///
/// # Examples
/// A triangle from three stitches, two more every other row: its first 60 rows, 1,920
/// stitches, took 24 g, an eightieth of a gram each; 10 g are left.
/// ```
/// use loopwright_gauge::{Exact, Rows, Stitches};
/// use loopwright_yardage::{Remainder, Growth, Worked};
/// let shawl = Growth::even(Stitches::new(3)?, Stitches::new(2)?, Rows::new(2)?)?;
/// let so_far: Worked = "60 rows = 24 g".parse()?;
/// let left = Remainder::new("10 g".parse()?);
/// assert_eq!(so_far.stitches(&shawl, &left, None)?.likely(), Exact::whole(800));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Worked {
    rows: Rows,
    took: YarnQuantity,
    read_to: Mass,
}

impl Worked {
    /// `rows` rows that took `took`.
    ///
    /// # Errors
    /// When `rows` is outside 1..=[`bounds::ROWS`], or `took` is not above zero.
    pub fn new(rows: Rows, took: YarnQuantity) -> Result<Self, Error> {
        if rows.is_zero() || rows.get() > bounds::ROWS {
            let allowed = format!("in 1..={}", bounds::ROWS);
            return Err(Error::range("the count of rows knitted", rows, allowed));
        }
        if !took.is_positive() {
            return Err(Error::range("the yarn that the rows took", took, "above zero"));
        }
        Ok(Self { rows, took, read_to: Mass::ZERO })
    }

    /// The same, weighed on a balance that reads to `step`.
    ///
    /// # Errors
    /// When what the rows took is not above half of it.
    pub fn read_to(self, step: Mass) -> Result<Self, Error> {
        let half = step.times(Exact::new(1, 2)?, Round::Ceil)?;
        match self.took {
            YarnQuantity::Mass(mass) if mass <= half => {
                let allowed = format!("above half a reading, {half}");
                Err(Error::range("the yarn that the rows took", mass, allowed))
            }
            _ => Ok(Self { read_to: step, ..self }),
        }
    }

    /// How many rows are knitted.
    #[must_use]
    pub const fn rows(&self) -> Rows {
        self.rows
    }

    /// What they took.
    #[must_use]
    pub const fn took(&self) -> YarnQuantity {
        self.took
    }

    /// How many stitches what is left knits, at the yarn that each stitch of these rows
    /// took; outwards to a thousandth where it cannot be held exactly.
    ///
    /// # Errors
    /// When the remainder does not cover its reserve, or one amount is a weight and another
    /// a length and no yarn is given.
    pub fn stitches(
        &self,
        growth: &Growth,
        left: &Remainder,
        yarn: Option<LinearDensity>,
    ) -> Result<Spread<Exact>, Error> {
        let (left, took) = match self.took {
            YarnQuantity::Mass(mass) => {
                let left = left.masses(yarn)?.parts().map(Mass::grams);
                let half =
                    grid::MASS.product(self.read_to.grams(), Exact::new(1, 2)?, Round::Ceil)?;
                let low = grid::MASS.difference(mass.grams(), half, Round::Floor)?;
                let high = grid::MASS.sum(mass.grams(), half, Round::Ceil)?;
                (left, [low, mass.grams(), high])
            }
            YarnQuantity::Length(length) => {
                let left = left.lengths(yarn)?.parts().map(Length::millimetres);
                (left, [length.millimetres(); 3])
            }
        };
        let ([low, likely, high], [least, took, most]) = (left, took);
        let done = Exact::try_from(growth.total(self.rows))?;
        let times = |left, took, round| {
            let share = SHARES.quotient(left, took, round)?;
            grid::STITCHES.product(share, done, round)
        };
        between(
            times(low, most, Round::Floor)?,
            times(likely, took, Round::HalfUp)?,
            times(high, least, Round::Ceil)?,
        )
    }

    /// The yarn that the rest of a piece of `of` rows takes, at what a stitch took so far.
    ///
    /// # Errors
    /// When `of` is below the rows knitted or above [`Growth::most_rows`].
    ///
    /// # Examples
    /// Half the rows of a triangle are a quarter of it (cromulentknitter.blogspot.com, 2006):
    /// the rest takes three times as much.
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_yardage::{Growth, Worked};
    /// let so_far: Worked = "50 rows = 20 g".parse()?;
    /// let triangle = Growth::even(Stitches::ONE, Stitches::new(2)?, Rows::ONE)?;
    /// let rest = so_far.rest(&triangle, Rows::new(100)?)?;
    /// assert_eq!(rest.to_string(), "60 g");
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn rest(&self, growth: &Growth, of: Rows) -> Result<YarnQuantity, Error> {
        let done = growth.share_done(self.rows, of)?;
        let rest = SHARES.quotient(Exact::ONE, done, Round::HalfUp)?;
        let rest = SHARES.difference(rest, Exact::ONE, Round::HalfUp)?;
        self.took.times(rest)
    }
}

/// Shares of what was knitted, to a billionth.
const SHARES: grid::Grid = grid::Grid::new("the share", 1_000_000_000);

impl fmt::Display for Worked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} = {}", self.rows.counted(), self.took)
    }
}

impl FromStr for Worked {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        const FORMS: &str = "write rows and the yarn they took, such as 120 rows = 35 g";
        let refuse = || Error::parse("the work so far", text, FORMS);
        let (rows, took) = text.split_once('=').ok_or_else(refuse)?;
        let rows = rows.trim();
        if !rows.contains("row") {
            return Err(refuse());
        }
        Self::new(rows.parse().map_err(|_| refuse())?, took.trim().parse().map_err(|_| refuse())?)
    }
}

/// A value as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    rows: Rows,
    took: YarnQuantity,
    #[serde(default)]
    read_to: Mass,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Worked {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.rows, raw.took)?.read_to(raw.read_to)
    }
}

#[cfg(feature = "serde")]
impl From<Worked> for Raw {
    fn from(value: Worked) -> Self {
        let Worked { rows, took, read_to } = value;
        Self { rows, took, read_to }
    }
}
