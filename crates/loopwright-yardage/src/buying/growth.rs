use crate::{Error, bounds, grid};
use alloc::format;
use alloc::vec::Vec;
use loopwright_gauge::{Exact, Gauge, Round, Rows, Stitches};

/// How many stitches each row of a piece has, never fewer than the row before.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_yardage::Growth;
/// // A triangle from three stitches, two more after every other row.
/// let (three, two) = (Stitches::new(3)?, Stitches::new(2)?);
/// let shawl = Growth::even(three, two, Rows::new(2)?)?;
/// assert_eq!(shawl.row(Rows::new(97)?), Stitches::new(99)?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Growth(Shape);

#[derive(Clone, Debug, Eq, PartialEq)]
enum Shape {
    Even { first: Stitches, add: Stitches, every: Rows },
    Sections(Vec<Section>),
}

/// Rows that all have the same count of stitches.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_yardage::{Growth, Section};
/// let section = |stitches, rows| Section {
///     stitches: Stitches::literal(stitches),
///     rows: Rows::literal(rows),
/// };
/// let circle = Growth::sections(&[section(18, 2), section(36, 4)])?;
/// assert_eq!((circle.most_rows(), circle.total(Rows::literal(6))), (Rows::literal(6), 180));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[expect(clippy::exhaustive_structs, reason = "a count of rows of a count of stitches")]
pub struct Section {
    /// Stitches in each row.
    pub stitches: Stitches,
    /// How many rows.
    pub rows: Rows,
}

impl Growth {
    /// Every row the same: a scarf, a straight sleeve.
    ///
    /// # Errors
    /// When `stitches` is zero.
    pub fn straight(stitches: Stitches) -> Result<Self, Error> {
        Self::even(stitches, Stitches::ZERO, Rows::ONE)
    }

    /// `first` stitches at the start, and `add` more after each `every` rows: a
    /// triangle from its point, a circle from its centre.
    ///
    /// # Errors
    /// When `first` or `every` is zero.
    pub fn even(first: Stitches, add: Stitches, every: Rows) -> Result<Self, Error> {
        if first.is_zero() {
            let what = "the count of stitches in the first row";
            return Err(Error::range(what, first, format!("in 1..={}", bounds::STITCHES)));
        }
        if every.is_zero() {
            let what = "the count of rows between increases";
            return Err(Error::range(what, every, format!("in 1..={}", bounds::STITCHES)));
        }
        Ok(Self(Shape::Even { first, add, every }))
    }

    /// Sections of even rows one after the other, and then no more rows: a circle whose
    /// stitches double when its radius has.
    ///
    /// # Errors
    /// When there is no section, one has fewer stitches than the one before, or there
    /// are more than [`bounds::ROWS`] rows.
    pub fn sections(sections: &[Section]) -> Result<Self, Error> {
        let (mut rows, mut before) = (0_u64, Stitches::ONE);
        for section in sections {
            if section.stitches < before {
                let allowed = format!("in {before}..={}", bounds::STITCHES);
                return Err(Error::range(
                    "the count of stitches in a section",
                    section.stitches,
                    allowed,
                ));
            }
            before = section.stitches;
            rows += u64::from(section.rows.get());
        }
        if rows == 0 || rows > bounds::ROWS.into() {
            let allowed = format!("in 1..={}", bounds::ROWS);
            return Err(Error::range("the count of rows in all sections", rows, allowed));
        }
        Ok(Self(Shape::Sections(sections.to_vec())))
    }

    /// The most rows there can be: those of the sections, or as many as stay within
    /// [`bounds::ROWS`] rows and [`bounds::STITCHES`] stitches in a row.
    #[must_use]
    pub fn most_rows(&self) -> Rows {
        let most = match &self.0 {
            &Shape::Even { first, add, every } => {
                let room = Stitches::MAX.get().saturating_sub(first.get());
                let groups = room.checked_div(add.get()).map_or(u64::MAX, |n| u64::from(n) + 1);
                groups.saturating_mul(every.get().into())
            }
            Shape::Sections(sections) => {
                sections.iter().map(|section| u64::from(section.rows.get())).sum()
            }
        };
        Rows::try_from(most.min(bounds::ROWS.into())).unwrap_or(Rows::MAX)
    }

    /// The stitches of row `row`, the first being row 1; row 0 is the edge it starts
    /// from and has as many as row 1, and beyond [`Growth::most_rows`] a row is as wide
    /// as the last there is.
    #[must_use]
    pub fn row(&self, row: Rows) -> Stitches {
        let before = row.min(self.most_rows()).get().saturating_sub(1);
        match &self.0 {
            &Shape::Even { first, add, every } => {
                let groups = u64::from(before.checked_div(every.get()).unwrap_or(0));
                let wide = u64::from(first.get()) + u64::from(add.get()) * groups;
                Stitches::try_from(wide).unwrap_or(Stitches::MAX)
            }
            Shape::Sections(sections) => {
                let mut done = 0;
                for section in sections.iter().filter(|section| !section.rows.is_zero()) {
                    done += section.rows.get();
                    if before < done {
                        return section.stitches;
                    }
                }
                sections.last().map_or(Stitches::ZERO, |section| section.stitches)
            }
        }
    }

    /// The stitches of the first `rows` rows together, those beyond
    /// [`Growth::most_rows`] not among them: at most 10^13.
    ///
    /// # Examples
    /// Eight stitches a round, eight more every other round: 576 after 16 rounds.
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_yardage::Growth;
    /// let eight = Stitches::new(8)?;
    /// let rounds = Growth::even(eight, eight, Rows::new(2)?)?;
    /// assert_eq!(rounds.total(Rows::new(16)?), 576);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    #[must_use]
    pub fn total(&self, rows: Rows) -> u64 {
        let rows = rows.min(self.most_rows()).get();
        match &self.0 {
            &Shape::Even { first, add, every } => {
                // Whole groups of `every` rows have 0, 1, 2 … additions, the rest have
                // as many as there are groups.
                let every = every.get().max(1);
                let (groups, rest) = (u64::from(rows / every), u64::from(rows % every));
                let pairs = groups * groups.saturating_sub(1) / 2;
                u64::from(first.get()) * u64::from(rows)
                    + u64::from(add.get()) * (u64::from(every) * pairs + rest * groups)
            }
            Shape::Sections(sections) => {
                let (mut left, mut total) = (rows, 0);
                for section in sections {
                    let taken = left.min(section.rows.get());
                    left -= taken;
                    total += u64::from(section.stitches.get()) * u64::from(taken);
                }
                total
            }
        }
    }

    /// How much of the first `of` rows is done after `done` of them: stitches over stitches.
    ///
    /// A triangle from its point is a quarter done at half its rows
    /// (cromulentknitter.blogspot.com, 2006).
    ///
    /// # Errors
    /// When `done` is above `of`, or `of` is zero or above [`Growth::most_rows`].
    ///
    /// # Examples
    /// Eight stitches a round, eight more every other round: after 8 of 16 rounds 160 of 576
    /// stitches are knitted.
    /// ```
    /// use loopwright_gauge::{Exact, Rows, Stitches};
    /// use loopwright_yardage::Growth;
    /// let eight = Stitches::new(8)?;
    /// let rounds = Growth::even(eight, eight, Rows::new(2)?)?;
    /// assert_eq!(rounds.share_done(Rows::new(8)?, Rows::new(16)?)?, Exact::new(160, 576)?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn share_done(&self, done: Rows, of: Rows) -> Result<Exact, Error> {
        self.part_done(1, done, of)
    }

    /// As [`Growth::share_done`], in per cent.
    ///
    /// # Errors
    /// As [`Growth::share_done`].
    pub fn percent_done(&self, done: Rows, of: Rows) -> Result<Exact, Error> {
        self.part_done(100, done, of)
    }

    fn part_done(&self, times: i128, done: Rows, of: Rows) -> Result<Exact, Error> {
        if of.is_zero() || of > self.most_rows() {
            let allowed = format!("in 1..={}", self.most_rows());
            return Err(Error::range("the count of rows of the piece", of, allowed));
        }
        if done > of {
            return Err(Error::range("the count of rows knitted", done, format!("in 0..={of}")));
        }
        let (done, of) = (times * i128::from(self.total(done)), i128::from(self.total(of)));
        grid::SHARE.ratio(done, of, Round::HalfUp)
    }
}

/// How many stitches each round of a flat circle adds, on average: 2π times the stitch
/// gauge over the row gauge, whatever the radius (catchloops.com, 2012).
///
/// π is taken as 355/113, right to seven figures; to a millionth of a stitch where the
/// fraction grows too long.
///
/// # Errors
/// When the number is out of bounds.
///
/// # Examples
/// ```
/// use loopwright_gauge::Round;
/// use loopwright_yardage::circle_increase;
/// let increase = circle_increase("8x10/1in".parse()?)?;
/// assert_eq!(increase.to_whole(Round::HalfUp)?, 5);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn circle_increase(gauge: Gauge) -> Result<Exact, Error> {
    let (wales, courses) = (gauge.per_mm::<Stitches>()?, gauge.per_mm::<Rows>()?);
    let ratio = grid::SHARE.quotient(wales, courses, Round::HalfUp)?;
    grid::SHARE.product(Exact::new(710, 113)?, ratio, Round::HalfUp)
}

/// A growth as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Raw {
    Even {
        first: Stitches,
        #[serde(default)]
        add: Stitches,
        every: Rows,
    },
    Sections(Vec<Section>),
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Growth {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        match raw {
            Raw::Even { first, add, every } => Self::even(first, add, every),
            Raw::Sections(sections) => Self::sections(&sections),
        }
    }
}

#[cfg(feature = "serde")]
impl From<Growth> for Raw {
    fn from(value: Growth) -> Self {
        match value.0 {
            Shape::Even { first, add, every } => Self::Even { first, add, every },
            Shape::Sections(sections) => Self::Sections(sections),
        }
    }
}
