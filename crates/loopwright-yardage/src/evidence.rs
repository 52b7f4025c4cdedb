//! Loop length from what was counted and measured.

use crate::loops::Source;
use crate::{Error, LinearDensity, LoopLength, Mass, Spread, bounds};
use alloc::format;
use loopwright_gauge::{Exact, Length};

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
        let half = read_to.scaled(Exact::new(1, 2)?)?;
        if length <= half {
            let allowed = format!("above half a reading, {half}");
            return Err(Error::range("the unravelled length", length, allowed));
        }
        Ok(Self { stitches, length, read_to })
    }

    fn per_stitch(&self, readings: Exact) -> Result<Length, Error> {
        let shift = self.read_to.scaled(readings)?;
        let stitch = Exact::from(self.stitches);
        Ok(self.length.checked_add(shift)?.scaled(Exact::ONE.checked_div(stitch)?)?)
    }
}

/// The closest a loop length is trusted, either side: a working figure, since tension
/// varies over a garment and yarn is never pulled equally straight.
const LEAST_PERCENT: i64 = 2;

/// The three values, widened where they are closer than [`LEAST_PERCENT`] allows.
fn trusted(low: Exact, likely: Exact, high: Exact) -> Result<[Exact; 3], Error> {
    let share = |percent| likely.checked_mul(Exact::new(100 + percent, 100)?);
    Ok([low.min(share(-LEAST_PERCENT)?), likely, high.max(share(LEAST_PERCENT)?)])
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
    let (mut stitches, mut total) = (Exact::ZERO, Length::ZERO);
    let mut ends: Option<(Length, Length)> = None;
    for reading in readings {
        stitches = stitches.checked_add(reading.stitches.into())?;
        total = total.checked_add(reading.length)?;
        let (low, high) = (reading.per_stitch(half.negated())?, reading.per_stitch(half)?);
        ends = Some(ends.map_or((low, high), |(l, h)| (l.min(low), h.max(high))));
    }
    let (low, high) =
        ends.ok_or_else(|| Error::missing("the unravelled yarn", "at least one reading"))?;
    let likely = total.scaled(Exact::ONE.checked_div(stitches)?)?;
    let [low, likely, high] = trusted(low.millimetres(), likely.millimetres(), high.millimetres())?;
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
        let half = read_to.scaled(Exact::new(1, 2)?)?;
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
        Self::new(u64::from(stitches) * (u64::from(rows) + 3), mass, read_to)
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
/// When the loop is out of bounds or cannot be held exactly.
pub fn weighed(swatch: &Weighed, yarn: LinearDensity) -> Result<LoopLength, Error> {
    let stitches = check_stitches("the count of weighed stitches", swatch.stitches)?;
    let half = swatch.read_to.scaled(Exact::new(1, 2)?)?;
    let (low, high) = (swatch.mass.checked_sub(half)?, swatch.mass.checked_add(half)?);
    let [low, likely, high] = trusted(low.grams(), swatch.mass.grams(), high.grams())?;
    let each = |grams: Exact| Mass::from_grams(grams.checked_div(stitches)?);
    let mass = Spread::new(each(low)?, each(likely)?, each(high)?)?;
    let length = mass.map(|mass| yarn.length_of(mass))?;
    LoopLength::new(length, Some(mass), Source::Weighed)
}
