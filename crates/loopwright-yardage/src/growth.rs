use crate::{Error, bounds, grid};
use alloc::format;
use alloc::vec::Vec;
use loopwright_gauge::{Exact, Gauge, Round, Rows, Stitches};

/// How many stitches each row of a piece has, never fewer than the row before.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Growth(Shape);

#[derive(Clone, Debug, Eq, PartialEq)]
enum Shape {
    Even { first: u32, add: u32, every: u32 },
    Sections(Vec<Section>),
}

/// Rows that all have the same count of stitches.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[expect(clippy::exhaustive_structs, reason = "a count of rows of a count of stitches")]
pub struct Section {
    /// Stitches in each row.
    pub stitches: u32,
    /// How many rows.
    pub rows: u32,
}

impl Growth {
    /// Every row the same: a scarf, a straight sleeve.
    ///
    /// # Errors
    /// When `stitches` is zero or above [`bounds::STITCHES`].
    pub fn straight(stitches: u32) -> Result<Self, Error> {
        Self::even(stitches, 0, 1)
    }

    /// `first` stitches at the start, and `add` more after each `every` rows: a
    /// triangle from its point, a circle from its centre.
    ///
    /// # Errors
    /// When `first` or `every` is zero, or a number is above [`bounds::STITCHES`].
    pub fn even(first: u32, add: u32, every: u32) -> Result<Self, Error> {
        let check = |what, n: u32, least: u32| {
            if n >= least && u64::from(n) <= bounds::STITCHES {
                return Ok(());
            }
            Err(Error::range(what, n, format!("in {least}..={}", bounds::STITCHES)))
        };
        check("the count of stitches in the first row", first, 1)?;
        check("the count of stitches added", add, 0)?;
        check("the count of rows between increases", every, 1)?;
        Ok(Self(Shape::Even { first, add, every }))
    }

    /// Sections of even rows one after the other, and then no more rows: a circle whose
    /// stitches double when its radius has.
    ///
    /// # Errors
    /// When there is no section, one has fewer stitches than the one before, or there
    /// are more than [`bounds::ROWS`] rows.
    pub fn sections(sections: &[Section]) -> Result<Self, Error> {
        let (mut rows, mut before) = (0_u64, 1_u32);
        for section in sections {
            if section.stitches < before || u64::from(section.stitches) > bounds::STITCHES {
                let allowed = format!("in {before}..={}", bounds::STITCHES);
                return Err(Error::range(
                    "the count of stitches in a section",
                    section.stitches,
                    allowed,
                ));
            }
            before = section.stitches;
            rows += u64::from(section.rows);
        }
        if rows == 0 || rows > bounds::ROWS.into() {
            let allowed = format!("in 1..={}", bounds::ROWS);
            return Err(Error::range("the count of rows in all sections", rows, allowed));
        }
        Ok(Self(Shape::Sections(sections.to_vec())))
    }

    /// The most rows there can be: those of the sections, or [`bounds::ROWS`].
    #[must_use]
    pub fn most_rows(&self) -> u32 {
        match &self.0 {
            Shape::Even { .. } => bounds::ROWS,
            Shape::Sections(sections) => sections.iter().map(|section| section.rows).sum(),
        }
    }

    /// The stitches of row `row`, the first being row 1; row 0 is the edge it starts
    /// from and has as many as row 1.
    #[must_use]
    pub fn row(&self, row: u32) -> u64 {
        let before = row.saturating_sub(1);
        match &self.0 {
            &Shape::Even { first, add, every } => {
                u64::from(first) + u64::from(add) * u64::from(before / every)
            }
            Shape::Sections(sections) => {
                let mut done = 0;
                for section in sections.iter().filter(|section| section.rows > 0) {
                    done += section.rows;
                    if before < done {
                        return section.stitches.into();
                    }
                }
                sections.last().map_or(0, |section| section.stitches.into())
            }
        }
    }

    /// The stitches of the first `rows` rows together.
    ///
    /// # Examples
    /// Eight stitches a round, eight more every other round: 576 after 16 rounds.
    /// ```
    /// use loopwright_yardage::Growth;
    /// assert_eq!(Growth::even(8, 8, 2)?.total(16), 576);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    #[must_use]
    pub fn total(&self, rows: u32) -> u128 {
        match &self.0 {
            &Shape::Even { first, add, every } => {
                // Whole groups of `every` rows have 0, 1, 2 … additions, the rest have
                // as many as there are groups. Below 2^24 × 2^20 × 2^20.
                let (groups, rest) = (u128::from(rows / every), u128::from(rows % every));
                let pairs = groups * groups.saturating_sub(1) / 2;
                u128::from(first) * u128::from(rows)
                    + u128::from(add) * (u128::from(every) * pairs + rest * groups)
            }
            Shape::Sections(sections) => {
                let (mut left, mut total) = (rows, 0);
                for section in sections {
                    let taken = left.min(section.rows);
                    left -= taken;
                    total += u128::from(section.stitches) * u128::from(taken);
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
    /// use loopwright_gauge::Exact;
    /// use loopwright_yardage::Growth;
    /// assert_eq!(Growth::even(8, 8, 2)?.share_done(8, 16)?, Exact::new(160, 576)?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn share_done(&self, done: u32, of: u32) -> Result<Exact, Error> {
        self.part_done(1, done, of)
    }

    /// As [`Growth::share_done`], in per cent.
    ///
    /// # Errors
    /// As [`Growth::share_done`].
    pub fn percent_done(&self, done: u32, of: u32) -> Result<Exact, Error> {
        self.part_done(100, done, of)
    }

    fn part_done(&self, times: u128, done: u32, of: u32) -> Result<Exact, Error> {
        if of == 0 || of > self.most_rows() {
            let allowed = format!("in 1..={}", self.most_rows());
            return Err(Error::range("the count of rows of the piece", of, allowed));
        }
        if done > of {
            return Err(Error::range("the count of rows knitted", done, format!("in 0..={of}")));
        }
        // At most 10^7 · 10^6 + 10^7 · 10^12 stitches: below 2^67.
        let narrow = |n: u128| i128::try_from(n).map_err(|_| Error::overflow("the work"));
        let (done, of) = (narrow(times * self.total(done))?, narrow(self.total(of))?);
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
