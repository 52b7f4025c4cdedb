use crate::quantity::gauge::no_rows;
use crate::{
    Count, CountRange, Error, Fitted, Gauge, Length, PerLength, ReadingDirection, Repeat, Round,
    Spread,
};
use alloc::vec::Vec;

/// A gauge with its error: stitches, and rows where they are known.
///
/// A [`Gauge`] turns into one whose low and high are its value.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Repeat, Round, Stitches, Swatch, Treatment};
/// let readings = ["40 st = 13.3 cm".parse()?, "60 rows = 15.4 cm".parse()?];
/// let swatch = Swatch::new(readings, Treatment::Washed)?;
/// let gauge = swatch.gauge()?;
/// let back = gauge.fit::<Stitches>("52 cm".parse()?, Repeat::any(), Round::HalfUp)?;
/// assert_eq!(back.count.get(), 156);
/// assert!(back.length.low() < back.length.likely());
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct SwatchGauge {
    stitches: Spread<PerLength>,
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    rows: Option<Spread<PerLength>>,
}

impl SwatchGauge {
    /// The gauge with these stitches and these rows.
    #[must_use]
    pub const fn new(stitches: Spread<PerLength>, rows: Spread<PerLength>) -> Self {
        Self { stitches, rows: Some(rows) }
    }

    /// The gauge with these stitches, its rows not known.
    #[must_use]
    pub const fn of_stitches(stitches: Spread<PerLength>) -> Self {
        Self { stitches, rows: None }
    }

    /// The best values, without their error.
    #[must_use]
    pub const fn gauge(self) -> Gauge {
        match self.rows {
            Some(rows) => Gauge::from_parts(self.stitches.likely(), rows.likely()),
            None => Gauge::of_stitches(self.stitches.likely()),
        }
    }

    /// Stitches in a length.
    #[must_use]
    pub const fn stitches(self) -> Spread<PerLength> {
        self.stitches
    }

    /// Rows in a length.
    ///
    /// # Errors
    /// When the row gauge is not known.
    pub fn rows(self) -> Result<Spread<PerLength>, Error> {
        self.rows.ok_or_else(no_rows)
    }

    /// One side of the gauge, by what is counted.
    ///
    /// # Errors
    /// When that side of the gauge is not known.
    pub fn of<C: Count>(self) -> Result<Spread<PerLength>, Error> {
        match C::DIRECTION {
            ReadingDirection::Stitches => Ok(self.stitches),
            ReadingDirection::Rows => self.rows(),
        }
    }

    /// The widths that so many stitches, or the heights that so many rows, may come out at.
    ///
    /// # Errors
    /// When that side of the gauge is not known, or a length is out of bounds or cannot
    /// be held exactly.
    pub fn length_of<C: Count>(self, count: C) -> Result<Spread<Length>, Error> {
        self.of::<C>()?.length_of(count.into())
    }

    /// As [`Gauge::fit`], with the lengths it may come out at.
    ///
    /// # Errors
    /// As there.
    pub fn fit<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<C>, Error> {
        self.of::<C>()?.fit(length, repeat, round)
    }

    /// As [`Gauge::fit_within`], with the lengths it may come out at.
    ///
    /// # Errors
    /// As there.
    pub fn fit_within<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        range: CountRange<C>,
        round: Round,
    ) -> Result<Fitted<C>, Error> {
        self.of::<C>()?.fit_within(length, repeat, range, round)
    }

    /// As [`Gauge::nearest`], with the lengths they may come out at.
    ///
    /// # Errors
    /// As there.
    pub fn nearest<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        each: u32,
    ) -> Result<Vec<Fitted<C>>, Error> {
        self.of::<C>()?.nearest(length, repeat, each)
    }
}

impl Spread<PerLength> {
    /// The lengths that `count` stitches or rows may come out at: the tightest gauge is
    /// the shortest.
    ///
    /// # Errors
    /// When a length is out of bounds or cannot be held exactly, or `count` is below zero.
    pub fn length_of(self, count: crate::Exact) -> Result<Spread<Length>, Error> {
        self.map_falling(|gauge: PerLength| gauge.length_of(count))
    }

    /// As [`PerLength::fit`], with the lengths it may come out at.
    ///
    /// # Errors
    /// As there.
    pub fn fit<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<C>, Error> {
        self.likely().fit(length, repeat, round)?.between(self)
    }

    /// As [`PerLength::fit_within`], with the lengths it may come out at.
    ///
    /// # Errors
    /// As there.
    pub fn fit_within<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        range: CountRange<C>,
        round: Round,
    ) -> Result<Fitted<C>, Error> {
        self.likely().fit_within(length, repeat, range, round)?.between(self)
    }

    /// As [`PerLength::nearest`], with the lengths they may come out at.
    ///
    /// # Errors
    /// As there.
    pub fn nearest<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        each: u32,
    ) -> Result<Vec<Fitted<C>>, Error> {
        self.all(self.likely().nearest(length, repeat, each)?)
    }

    /// As [`PerLength::nearest_within`], with the lengths they may come out at.
    ///
    /// # Errors
    /// As there.
    pub fn nearest_within<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        range: CountRange<C>,
        each: u32,
    ) -> Result<Vec<Fitted<C>>, Error> {
        self.all(self.likely().nearest_within(length, repeat, range, each)?)
    }

    fn all<C: Count>(self, found: Vec<Fitted<C>>) -> Result<Vec<Fitted<C>>, Error> {
        found.into_iter().map(|fitted| fitted.between(self)).collect()
    }
}

impl From<Gauge> for SwatchGauge {
    fn from(gauge: Gauge) -> Self {
        let rows = gauge.rows().ok().map(Spread::exactly);
        Self { stitches: Spread::exactly(gauge.stitches()), rows }
    }
}
