mod change;
mod measured;
mod pool;
mod reading;
mod treatment;

pub use change::DimensionalChange;
pub use measured::SwatchGauge;
pub use reading::{Reading, ReadingDirection};
pub use treatment::Treatment;

use crate::error::Kind;
use crate::{Error, Exact, Length, PerLength, Spread, bounds};
use alloc::format;
use alloc::vec::Vec;

/// A swatch: readings in both directions, how finely they were read, and what the
/// fabric had been through.
///
/// Counts are read to the nearest half stitch and lengths to the nearest
/// millimetre unless [`Swatch::counted_to`] and [`Swatch::measured_to`] say
/// otherwise.
///
/// # How readings become a gauge
///
/// In each direction the value is all the counts over all the lengths, so that a
/// longer reading weighs more. A count is off by at most half its step; a length
/// by half a step at each end, one step in all. The low is the least of the gauge
/// that those errors, all the same way, would give, and of the readings
/// themselves; the high is the greatest.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Swatch, Treatment};
/// let readings = ["40 st = 13.3 cm".parse()?, "60 rows = 15.4 cm".parse()?];
/// let swatch = Swatch::new(readings, Treatment::Washed)?;
/// let gauge = swatch.gauge()?;
/// assert_eq!(gauge.stitches().likely(), "40 / 13.3 cm".parse()?);
/// assert_eq!(gauge.stitches().low(), "39.75 / 13.4 cm".parse()?);
/// assert_eq!(gauge.stitches().high(), "40.25 / 13.2 cm".parse()?);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Swatch {
    readings: Vec<Reading>,
    treatment: Treatment,
    counted_to: Exact,
    measured_to: Length,
}

/// A reading that disagrees with the others of its direction; see
/// [`Swatch::outliers`].
///
/// # Examples
/// ```
/// use loopwright_gauge::{Swatch, Treatment};
/// let readings = ["28 st = 10 cm", "28 st = 10 cm", "32 st = 10 cm"];
/// let swatch = Swatch::new(readings.map(|text| text.parse().unwrap()), Treatment::Washed)?;
/// let odd = swatch.outliers()?[0];
/// assert_eq!((odd.index, odd.others.likely().to_string()), (2, "28 / 10 cm".into()));
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Outlier {
    /// Its place among all the readings of the swatch, from 0.
    pub index: usize,
    /// The reading.
    pub reading: Reading,
    /// What the other readings of its direction say.
    pub others: Spread<PerLength>,
}

impl Swatch {
    const HALF: Exact = Exact::literal(1, 2);

    /// The swatch with these readings, at least one in either direction.
    ///
    /// # Errors
    /// When there is no reading, or there are more than [`bounds::READINGS`].
    pub fn new(
        readings: impl IntoIterator<Item = Reading>,
        treatment: Treatment,
    ) -> Result<Self, Error> {
        let readings: Vec<Reading> = readings.into_iter().take(bounds::READINGS + 1).collect();
        if readings.is_empty() {
            return Err(Kind::Missing { what: "a reading of the swatch", form: EXAMPLE }.into());
        }
        if readings.len() > bounds::READINGS {
            let given = format!("more than {}", bounds::READINGS);
            let allowed = format!("at most {}", bounds::READINGS);
            let what = "the number of readings of the swatch";
            return Err(Kind::Range { what, given, allowed }.into());
        }
        Ok(Self { readings, treatment, counted_to: Self::HALF, measured_to: Length::MILLIMETRE })
    }

    /// The same swatch with counts read to the nearest `step`: 1, 1/2 or 1/4 of a
    /// stitch, or 0 when the stitches were marked and the count is certain.
    ///
    /// # Errors
    /// When `step` is below 0 or above 1.
    pub fn counted_to(self, step: Exact) -> Result<Self, Error> {
        if step >= Exact::ZERO && step <= Exact::ONE {
            return Ok(Self { counted_to: step, ..self });
        }
        let (what, given) = ("the step counts are read to", format!("{step}"));
        Err(Kind::Range { what, given, allowed: "in 0..=1".into() }.into())
    }

    /// The same swatch with lengths read to the nearest `step` of the ruler.
    ///
    /// # Errors
    /// When `step` is negative or longer than 10 cm.
    pub fn measured_to(self, step: Length) -> Result<Self, Error> {
        if step >= Length::ZERO && step <= Length::cm(10)? {
            return Ok(Self { measured_to: step, ..self });
        }
        let (what, given) = ("the step lengths are read to", format!("{step}"));
        Err(Kind::Range { what, given, allowed: "in 0..=100 mm".into() }.into())
    }

    /// The readings, in the order they were given.
    #[must_use]
    pub fn readings(&self) -> &[Reading] {
        &self.readings
    }

    /// What the swatch had been through.
    #[must_use]
    pub const fn treatment(&self) -> Treatment {
        self.treatment
    }

    /// The step counts were read to.
    #[must_use]
    pub const fn count_step(&self) -> Exact {
        self.counted_to
    }

    /// The step lengths were read to.
    #[must_use]
    pub const fn length_step(&self) -> Length {
        self.measured_to
    }

    /// The pooled gauge: its rows are left out where none were read.
    ///
    /// # Errors
    /// When no stitches were read, or a reading is shorter than its own error.
    pub fn gauge(&self) -> Result<SwatchGauge, Error> {
        let stitches = self.pooled(ReadingDirection::Stitches)?;
        Ok(match self.pool(self.along(ReadingDirection::Rows))? {
            Some(rows) => SwatchGauge::new(stitches, rows),
            None => SwatchGauge::of_stitches(stitches),
        })
    }

    /// The pooled gauge in one direction.
    ///
    /// # Errors
    /// When the direction has no reading, or a reading is shorter than its own error.
    pub fn pooled(&self, direction: ReadingDirection) -> Result<Spread<PerLength>, Error> {
        self.pool(self.along(direction))?.ok_or_else(|| {
            let what = match direction {
                ReadingDirection::Stitches => "a reading of the swatch's stitches",
                ReadingDirection::Rows => "a reading of the swatch's rows",
            };
            Kind::Missing { what, form: EXAMPLE }.into()
        })
    }

    /// The readings that disagree with the others of their direction.
    ///
    /// A reading does when it lies further from what the others say, once how
    /// finely both were read is allowed for, than the others lie from each other.
    /// It takes at least three readings in a direction to tell.
    ///
    /// # Errors
    /// When a reading is shorter than its own error.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Swatch, Treatment};
    /// let readings = ["28 st = 10 cm", "28.5 st = 10 cm", "28 st = 10 cm", "32 st = 10 cm"];
    /// let readings = readings.map(|text| text.parse().unwrap());
    /// let odd = Swatch::new(readings, Treatment::Washed)?.outliers()?;
    /// assert_eq!(odd.len(), 1);
    /// assert_eq!(odd[0].index, 3);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn outliers(&self) -> Result<Vec<Outlier>, Error> {
        let mut found = Vec::new();
        for (index, &reading) in self.readings.iter().enumerate() {
            if let Some(others) = self.disagrees(index, reading)? {
                found.push(Outlier { index, reading, others });
            }
        }
        Ok(found)
    }

    fn disagrees(
        &self,
        index: usize,
        reading: Reading,
    ) -> Result<Option<Spread<PerLength>>, Error> {
        let others = || self.along(reading.direction()).filter(move |&(at, _)| at != index);
        if others().count() < 2 {
            return Ok(None);
        }
        let (Some(own), Some(pooled)) =
            (self.pool([(index, reading)].into_iter())?, self.pool(others())?)
        else {
            return Ok(None);
        };
        let per_mm = |(_, other): (usize, Reading)| other.gauge().per_mm();
        let (least, most) = (others().map(per_mm).min(), others().map(per_mm).max());
        let spread = most.unwrap_or(Exact::ZERO).checked_sub(least.unwrap_or(Exact::ZERO))?;
        let below = pooled.low().per_mm().checked_sub(own.high().per_mm())?;
        let above = own.low().per_mm().checked_sub(pooled.high().per_mm())?;
        Ok((below.max(above) > spread).then_some(pooled))
    }

    /// How long a reading must be for a piece of `size` to be known within `within`,
    /// as far as reading goes: how even the fabric is comes on top.
    ///
    /// With a step `r` of the ruler and half a step of counting that is `h` long in
    /// the fabric, a piece `w` comes out at most `w (r + h) / (n - h)` too long when
    /// it was read over `n`, so `n = h + w (r + h) / within`.
    ///
    /// # Errors
    /// When `size` or `within` is not above zero, the direction has no reading, or a
    /// length is out of bounds.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{ReadingDirection, Length, Swatch, Treatment};
    /// let swatch = Swatch::new(["25 st = 10 cm".parse()?], Treatment::Washed)?;
    /// let chest = Length::cm(100)?;
    /// let span = swatch.span_needed(ReadingDirection::Stitches, chest, Length::cm(1)?)?;
    /// assert_eq!(span, "20.1 cm".parse()?);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn span_needed(
        &self,
        direction: ReadingDirection,
        size: Length,
        within: Length,
    ) -> Result<Length, Error> {
        positive("the size to be known", size)?;
        positive("the precision wanted", within)?;
        let half_step = self.pooled(direction)?.likely().length_of(self.half_count_step()?)?;
        let error = self.measured_to.checked_add(half_step)?;
        error.scaled(size.ratio(within)?)?.checked_add(half_step)
    }

    /// How much the fabric changed from this swatch to `after`.
    ///
    /// # Errors
    /// When either swatch lacks a direction, or a percentage cannot be held exactly.
    pub fn change_to(&self, after: &Self) -> Result<DimensionalChange, Error> {
        DimensionalChange::between(self.gauge()?.gauge(), after.gauge()?.gauge())
    }

    fn along(&self, direction: ReadingDirection) -> impl Iterator<Item = (usize, Reading)> {
        let readings = self.readings.iter().copied().enumerate();
        readings.filter(move |(_, reading)| reading.direction() == direction)
    }

    fn half_count_step(&self) -> Result<Exact, Error> {
        self.counted_to.checked_div(Exact::whole(2))
    }

    /// The one method of pooling; `None` when there is nothing to pool.
    fn pool(
        &self,
        readings: impl Iterator<Item = (usize, Reading)>,
    ) -> Result<Option<Spread<PerLength>>, Error> {
        let mut sum = pool::Sum::default();
        for (_, reading) in readings {
            sum.add(reading, self.half_count_step()?, self.measured_to)?;
        }
        sum.measured()
    }
}

const EXAMPLE: &str = "give one such as 40 st = 13.3 cm or 60 rows = 15.4 cm";

fn positive(what: &'static str, length: Length) -> Result<(), Error> {
    if length.is_positive() {
        return Ok(());
    }
    Err(Kind::Range { what, given: format!("{length}"), allowed: "above zero".into() }.into())
}

/// A swatch as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    readings: Vec<Reading>,
    treatment: Treatment,
    #[serde(default = "half")]
    counted_to: Exact,
    #[serde(default = "millimetre")]
    measured_to: Length,
}

#[cfg(feature = "serde")]
const fn half() -> Exact {
    Swatch::HALF
}

#[cfg(feature = "serde")]
const fn millimetre() -> Length {
    Length::MILLIMETRE
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Swatch {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.readings, raw.treatment)?
            .counted_to(raw.counted_to)?
            .measured_to(raw.measured_to)
    }
}

#[cfg(feature = "serde")]
impl From<Swatch> for Raw {
    fn from(swatch: Swatch) -> Self {
        let Swatch { readings, treatment, counted_to, measured_to } = swatch;
        Self { readings, treatment, counted_to, measured_to }
    }
}
