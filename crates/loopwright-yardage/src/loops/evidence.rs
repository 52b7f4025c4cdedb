//! Loop length from what was counted and measured.

use crate::Source;
use crate::grid::{self, Grid};
use crate::loops::length_times;
use crate::{Error, LinearDensity, LoopLength, Mass, Spread};
use alloc::format;
use loopwright_gauge::{Exact, Length, Round, Rows, Stitches};

/// Yarn pulled out of counted stitches and measured straight.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Stitches};
/// use loopwright_yardage::{Unravelled, unravelled};
/// let once = Unravelled::new(Stitches::new(20)?, Length::cm(31)?, Length::mm(1)?)?;
/// let again = Unravelled::new(Stitches::new(20)?, Length::cm(32)?, Length::mm(1)?)?;
/// assert_eq!(unravelled(&[once, again])?.length().likely(), "15.75 mm".parse()?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "RawUnravelled", into = "RawUnravelled"))]
pub struct Unravelled {
    stitches: Stitches,
    length: Length,
    read_to: Length,
}

impl Unravelled {
    /// `length` of yarn from `stitches`, the ruler read to the nearest `read_to`.
    ///
    /// # Errors
    /// When `stitches` is zero, `read_to` is below zero, or `length` is not above
    /// half of `read_to`.
    pub fn new(stitches: Stitches, length: Length, read_to: Length) -> Result<Self, Error> {
        if stitches.is_zero() {
            return Err(Error::range("the count of unravelled stitches", stitches, "above zero"));
        }
        if read_to < Length::ZERO {
            return Err(Error::range("the reading of the ruler", read_to, "zero or more"));
        }
        let half = length_times(read_to, Exact::new(1, 2)?, Round::Ceil)?;
        if length <= half {
            let allowed = format!("above half a reading, {half}");
            return Err(Error::range("the unravelled length", length, allowed));
        }
        Ok(Self { stitches, length, read_to })
    }

    /// The yarn in a stitch, `readings` of the ruler more than was read.
    fn per_stitch(&self, readings: Exact, round: Round) -> Result<Exact, Error> {
        let shift = grid::LENGTH.product(self.read_to.millimetres(), readings, round)?;
        let length = grid::LENGTH.sum(self.length.millimetres(), shift, round)?;
        grid::LENGTH.quotient(length, self.stitches.into(), round)
    }
}

/// The closest a loop length is trusted, either side: a working figure, since tension
/// varies over a garment and yarn is never pulled equally straight.
const LEAST_PERCENT: i64 = 2;

/// The three values, widened where they are closer than [`LEAST_PERCENT`] allows.
fn trusted(grid: Grid, [low, likely, high]: [Exact; 3]) -> Result<[Exact; 3], Error> {
    let share = |percent, round| grid.product(likely, Exact::new(100 + percent, 100)?, round);
    let least = share(-LEAST_PERCENT, Round::Floor)?;
    let most = share(LEAST_PERCENT, Round::Ceil)?;
    Ok([low.min(least), likely, high.max(most)])
}

/// The loop length from one or more unravellings of the same fabric.
///
/// Likely is all the yarn over all the stitches; low and high are the least and the
/// most that any one reading allows, and at least 2 % either side of likely (a working
/// figure: no reading speaks for a whole garment more closely). It assumes the yarn was
/// straightened without stretching it.
///
/// # Errors
/// When there is no reading, or the loop is out of bounds.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Stitches};
/// use loopwright_yardage::{Unravelled, unravelled};
/// let reading = Unravelled::new(Stitches::new(20)?, "31 cm".parse()?, Length::mm(1)?)?;
/// let loops = unravelled(&[reading])?;
/// assert_eq!(loops.length().likely(), "15.5 mm".parse()?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn unravelled(readings: &[Unravelled]) -> Result<LoopLength, Error> {
    let half = Exact::new(1, 2)?;
    let (mut stitches, mut total) = (Exact::ZERO, Exact::ZERO);
    let mut ends: Option<(Exact, Exact)> = None;
    for reading in readings {
        stitches = stitches.checked_add(reading.stitches.into())?;
        total = grid::LENGTH.sum(total, reading.length.millimetres(), Round::HalfUp)?;
        let low = reading.per_stitch(half.negated(), Round::Floor)?;
        let high = reading.per_stitch(half, Round::Ceil)?;
        ends = Some(ends.map_or((low, high), |(l, h)| (l.min(low), h.max(high))));
    }
    let (low, high) =
        ends.ok_or_else(|| Error::missing("the unravelled yarn", "at least one reading"))?;
    let likely = grid::LENGTH.quotient(total, stitches, Round::HalfUp)?;
    let [low, likely, high] = trusted(grid::LENGTH, [low, likely, high])?;
    let mm = |mm| Ok::<_, Error>(Length::from_millimetres(mm)?);
    LoopLength::new(Spread::new(mm(low)?, mm(likely)?, mm(high)?)?, None, Source::Unravelled)
}

/// A swatch that was counted and weighed.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_yardage::{Mass, Weighed};
/// let (stitches, rows) = (Stitches::new(20)?, Rows::new(20)?);
/// let swatch = Weighed::rectangle(stitches, rows, Mass::g(2)?, Mass::ZERO)?;
/// assert_eq!(swatch.stitches(), Stitches::new(460)?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Weighed {
    stitches: Stitches,
    mass: Mass,
    read_to: Mass,
}

impl Weighed {
    /// `mass` in `stitches`, the balance read to the nearest `read_to`.
    ///
    /// # Errors
    /// When `stitches` is zero, or `mass` is not above half of `read_to`.
    pub fn new(stitches: Stitches, mass: Mass, read_to: Mass) -> Result<Self, Error> {
        if stitches.is_zero() {
            return Err(Error::range("the count of weighed stitches", stitches, "above zero"));
        }
        let half = read_to.times(Exact::new(1, 2)?, Round::Ceil)?;
        if mass <= half {
            let allowed = format!("above half a reading, {half}");
            return Err(Error::range("the weight of the swatch", mass, allowed));
        }
        Ok(Self { stitches, mass, read_to })
    }

    /// A rectangle of `stitches` by `rows`, cast on and bound off: the cast-on
    /// counts as two rows and the bind-off as one.
    ///
    /// So a swatch of 20 by 20 is 460 stitches (tossingthestash.blogspot.com).
    ///
    /// # Errors
    /// As [`Weighed::new`], or when the whole is more than
    /// [`bounds::STITCHES`](crate::bounds::STITCHES).
    pub fn rectangle(
        stitches: Stitches,
        rows: Rows,
        mass: Mass,
        read_to: Mass,
    ) -> Result<Self, Error> {
        // At most 10^7 times 10^7 and 3: below 2^47.
        let all = u64::from(stitches.get()) * (u64::from(rows.get()) + 3);
        Self::new(Stitches::try_from(all)?, mass, read_to)
    }

    /// How many stitches were weighed.
    #[must_use]
    pub const fn stitches(&self) -> Stitches {
        self.stitches
    }
}

/// The loop length and the mass of a stitch from a weighed swatch.
///
/// Low and high are what the balance allows, and at least 2 % either side of likely.
///
/// # Errors
/// When the loop is out of bounds.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Stitches};
/// use loopwright_yardage::{Mass, Weighed, weighed};
/// let swatch = Weighed::new(Stitches::new(400)?, Mass::g(2)?, Mass::ZERO)?;
/// let loops = weighed(&swatch, "500 tex".parse()?)?;
/// assert_eq!(loops.length().likely(), Length::mm(10)?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn weighed(swatch: &Weighed, yarn: LinearDensity) -> Result<LoopLength, Error> {
    let stitches = Exact::from(swatch.stitches);
    let read = swatch.mass.grams();
    let half = grid::MASS.product(swatch.read_to.grams(), Exact::new(1, 2)?, Round::Ceil)?;
    let low = grid::MASS.difference(read, half, Round::Floor)?;
    let high = grid::MASS.sum(read, half, Round::Ceil)?;
    let [low, likely, high] = trusted(grid::MASS, [low, read, high])?;
    let each = |grams: Exact, round| {
        let fine = grid::STITCH_MASS.quotient(grams, stitches, round);
        Mass::from_grams(fine.or_else(|_| grid::MASS.quotient(grams, stitches, round))?)
    };
    let mass = grid::between(
        each(low, Round::Floor)?,
        each(likely, Round::HalfUp)?,
        each(high, Round::Ceil)?,
    )?;
    LoopLength::new(yarn.lengths_of(mass)?, Some(mass), Source::Weighed)
}

/// A value as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct RawUnravelled {
    stitches: Stitches,
    length: Length,
    #[serde(default)]
    read_to: Length,
}

#[cfg(feature = "serde")]
impl TryFrom<RawUnravelled> for Unravelled {
    type Error = Error;

    fn try_from(raw: RawUnravelled) -> Result<Self, Error> {
        Self::new(raw.stitches, raw.length, raw.read_to)
    }
}

#[cfg(feature = "serde")]
impl From<Unravelled> for RawUnravelled {
    fn from(value: Unravelled) -> Self {
        Self { stitches: value.stitches, length: value.length, read_to: value.read_to }
    }
}

/// A value as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    stitches: Stitches,
    mass: Mass,
    #[serde(default)]
    read_to: Mass,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Weighed {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.stitches, raw.mass, raw.read_to)
    }
}

#[cfg(feature = "serde")]
impl From<Weighed> for Raw {
    fn from(value: Weighed) -> Self {
        Self { stitches: value.stitches, mass: value.mass, read_to: value.read_to }
    }
}
