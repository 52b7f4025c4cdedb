//! Loop length from what was counted and measured.

use crate::grid::{self, Grid};
use crate::loops::{Source, length_times};
use crate::{Error, LinearDensity, LoopLength, Mass, Spread, bounds};
use alloc::format;
use loopwright_gauge::{Exact, Length, Round};

/// Yarn pulled out of counted stitches and measured straight.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Unravelled {
    stitches: u32,
    length: Length,
    read_to: Length,
}

impl Unravelled {
    /// `length` of yarn from `stitches`, the ruler read to the nearest `read_to`.
    ///
    /// # Errors
    /// When `stitches` is zero, `read_to` is below zero, or `length` is not above
    /// half of `read_to`.
    pub fn new(stitches: u32, length: Length, read_to: Length) -> Result<Self, Error> {
        if stitches == 0 {
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
/// use loopwright_gauge::Length;
/// use loopwright_yardage::{Unravelled, unravelled};
/// let reading = Unravelled::new(20, "31 cm".parse()?, Length::mm(1)?)?;
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
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Weighed {
    stitches: u64,
    mass: Mass,
    read_to: Mass,
}

impl Weighed {
    /// `mass` in `stitches`, the balance read to the nearest `read_to`.
    ///
    /// # Errors
    /// When `stitches` is zero or above [`bounds::STITCHES`], or `mass` is not above
    /// half of `read_to`.
    pub fn new(stitches: u64, mass: Mass, read_to: Mass) -> Result<Self, Error> {
        check_stitches("the count of weighed stitches", stitches)?;
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
    /// As [`Weighed::new`].
    pub fn rectangle(stitches: u32, rows: u32, mass: Mass, read_to: Mass) -> Result<Self, Error> {
        let rows = u64::from(rows) + 3;
        Self::new(u64::from(stitches).saturating_mul(rows), mass, read_to)
    }

    /// How many stitches were weighed.
    #[must_use]
    pub const fn stitches(&self) -> u64 {
        self.stitches
    }
}

pub(crate) fn check_stitches(what: &'static str, n: u64) -> Result<Exact, Error> {
    match Exact::try_from(n) {
        Ok(whole) if n > 0 && n <= bounds::STITCHES => Ok(whole),
        _ => Err(Error::range(what, n, format!("in 1..={}", bounds::STITCHES))),
    }
}

/// The loop length and the mass of a stitch from a weighed swatch.
///
/// Low and high are what the balance allows, and at least 2 % either side of likely.
///
/// # Errors
/// When the loop is out of bounds.
pub fn weighed(swatch: &Weighed, yarn: LinearDensity) -> Result<LoopLength, Error> {
    let stitches = check_stitches("the count of weighed stitches", swatch.stitches)?;
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
