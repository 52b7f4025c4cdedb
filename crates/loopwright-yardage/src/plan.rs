//! How far a given number of stitches of yarn carries a piece.

use crate::error::Kind;
use crate::grid;
use crate::{Error, Growth, Spread, bounds};
use alloc::format;
use alloc::string::ToString;
use loopwright_gauge::{Exact, Repeat, Round};

/// A piece to be knitted from what is left: its rows, the edging along its last row, and
/// how many of it.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Plan {
    growth: Growth,
    edging: Exact,
    fixed: Exact,
    copies: u32,
}

impl Plan {
    /// Pieces of this growth, without an edging, one of them.
    #[must_use]
    pub const fn new(growth: Growth) -> Self {
        Self { growth, edging: Exact::ZERO, fixed: Exact::ZERO, copies: 1 }
    }

    /// The same with an edging that takes as much yarn as `rows` rows at the last row's
    /// width: one for a bind-off, six for a border of five and its bind-off.
    ///
    /// # Errors
    /// When `rows` is below zero or above [`bounds::ROWS`].
    pub fn edging(self, rows: Exact) -> Result<Self, Error> {
        if rows < Exact::ZERO || rows > Exact::from(bounds::ROWS) {
            let allowed = format!("in 0..={}", bounds::ROWS);
            return Err(Error::range("the count of rows of the edging", rows, allowed));
        }
        Ok(Self { edging: rows, ..self })
    }

    /// The same with `stitches` for each piece that do not depend on its rows: a
    /// cast-on, ends.
    ///
    /// # Errors
    /// When `stitches` is below zero or above [`bounds::STITCHES`].
    pub fn fixed(self, stitches: Exact) -> Result<Self, Error> {
        let most = Exact::whole(10_000_000);
        if stitches < Exact::ZERO || stitches > most {
            return Err(Error::range(
                "the count of fixed stitches",
                stitches,
                format!("in 0..={most}"),
            ));
        }
        Ok(Self { fixed: stitches, ..self })
    }

    /// The same, `copies` times out of the one remainder: two sleeves, a stripe in each
    /// of four places.
    ///
    /// # Errors
    /// When `copies` is outside 1..=10000.
    pub fn copies(self, copies: u32) -> Result<Self, Error> {
        if !(1..=10_000).contains(&copies) {
            return Err(Error::range("the count of pieces", copies, "in 1..=10000"));
        }
        Ok(Self { copies, ..self })
    }

    /// The stitches of yarn that all pieces take at `rows` rows each, edgings included;
    /// up to a thousandth where the number cannot be held exactly.
    ///
    /// # Errors
    /// When there are more stitches than can be reckoned.
    pub fn cost(&self, rows: u32) -> Result<Exact, Error> {
        let up = |a, b| grid::STITCHES.sum(a, b, Round::Ceil);
        let one = up(up(self.knitted(rows)?, self.edge(rows)?)?, self.fixed)?;
        self.all(one)
    }

    /// The stitches of all rows up to `rows`, without an edging.
    fn knitted(&self, rows: u32) -> Result<Exact, Error> {
        grid::whole(self.growth.total(rows))
    }

    /// The edging after `rows` rows.
    fn edge(&self, rows: u32) -> Result<Exact, Error> {
        let last = grid::whole(self.growth.row(rows).into())?;
        grid::STITCHES.product(last, self.edging, Round::Ceil)
    }

    fn all(&self, one: Exact) -> Result<Exact, Error> {
        grid::STITCHES.product(one, self.copies.into(), Round::Ceil)
    }

    /// The most rows that each piece can have from yarn for `stitches` stitches.
    ///
    /// The greatest R with cost(R) at most `stitches`. As no row is shorter than the one
    /// before, the cost never falls with R, and halving the range finds it in 20 steps.
    ///
    /// # Errors
    /// When the yarn does not cover even the edging without a row.
    ///
    /// # Examples
    /// A triangle from three stitches, two more every other row, bound off: 5,000
    /// stitches of yarn reach row 97.
    /// ```
    /// use loopwright_gauge::Exact;
    /// use loopwright_yardage::{Growth, Plan};
    /// let shawl = Plan::new(Growth::even(3, 2, 2)?).edging(Exact::ONE)?;
    /// let stop = shawl.rows_from(Exact::whole(5_000))?;
    /// assert_eq!((stop.rows, stop.last_row), (97, 99));
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn rows_from(&self, stitches: Exact) -> Result<Stop, Error> {
        let least = self.cost(0)?;
        if least > stitches {
            return Err(short("the edging alone", stitches, least));
        }
        let (mut sure, mut beyond) = (0, self.growth.most_rows() + 1);
        while beyond - sure > 1 {
            let middle = sure + (beyond - sure) / 2;
            // A cost too great to be held is beyond any yarn.
            if self.cost(middle).is_ok_and(|cost| cost <= stitches) {
                sure = middle;
            } else {
                beyond = middle;
            }
        }
        self.stop(sure, stitches)
    }

    /// The most rows more that each piece can have from yarn for `stitches` stitches, when
    /// `done` rows of it are knitted already.
    ///
    /// # Errors
    /// When the yarn does not cover even the edging after no row more, or there are more
    /// stitches than can be reckoned.
    ///
    /// # Examples
    /// A triangle from three stitches, two more every other row, is at row 60: yarn for
    /// 2,000 stitches carries it to row 85 and its bind-off.
    /// ```
    /// use loopwright_gauge::Exact;
    /// use loopwright_yardage::{Growth, Plan};
    /// let shawl = Plan::new(Growth::even(3, 2, 2)?).edging(Exact::ONE)?;
    /// assert_eq!(shawl.rows_after(60, Exact::whole(2_000))?.rows, 25);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn rows_after(&self, done: u32, stitches: Exact) -> Result<Stop, Error> {
        if done > self.growth.most_rows() {
            let allowed = format!("in 0..={}", self.growth.most_rows());
            return Err(Error::range("the count of rows knitted", done, allowed));
        }
        let behind = self.all(self.knitted(done)?)?;
        let fixed = self.all(self.fixed)?;
        let both = grid::STITCHES.sum(behind, fixed, Round::Ceil)?;
        let all = grid::STITCHES.sum(both, stitches, Round::Floor)?;
        let least = self.cost(done)?;
        if least > all {
            let need = grid::STITCHES.difference(least, both, Round::Ceil)?;
            return Err(short("the edging alone", stitches, need));
        }
        let stop = self.rows_from(all)?;
        let used = grid::STITCHES.difference(stop.used, both, Round::Ceil)?;
        Ok(Stop { rows: stop.rows - done, used, ..stop })
    }

    fn stop(&self, rows: u32, stitches: Exact) -> Result<Stop, Error> {
        let used = self.cost(rows)?;
        let edgings = self.all(self.edge(rows)?)?;
        let spare = grid::STITCHES.difference(stitches, used, Round::Floor)?;
        let keep = grid::STITCHES.sum(edgings, spare, Round::Ceil)?;
        Ok(Stop { rows, last_row: self.growth.row(rows), used, spare, keep })
    }

    /// The most rows from a spread of stitches: the low is what can be relied on.
    ///
    /// # Errors
    /// As [`Plan::rows_from`], for the low.
    pub fn rows_from_spread(&self, stitches: &Spread<Exact>) -> Result<Spread<u32>, Error> {
        stitches.map(|stitches| Ok(self.rows_from(stitches)?.rows))
    }
}

fn short(what: &'static str, have: Exact, need: Exact) -> Error {
    let whole = |stitches: Exact, round| match stitches.to_whole(round) {
        Ok(whole) => whole.to_string(),
        Err(_) => stitches.to_string(),
    };
    let (have, need) = (whole(have, Round::Floor), whole(need, Round::Ceil));
    Kind::Short { what, have, need }.into()
}

/// Where to stop.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Stop {
    /// The last row before the edging.
    pub rows: u32,
    /// Its stitches.
    pub last_row: u64,
    /// Stitches of yarn used by all pieces, edgings included.
    pub used: Exact,
    /// Stitches of yarn left at the very end.
    pub spare: Exact,
    /// Stitches of yarn that must be left when the edgings begin, the spare among them.
    pub keep: Exact,
}

/// The widest straight piece that yarn for `stitches` stitches knits in `rows` rows.
///
/// The greatest count that `repeat` allows whose rows, with `edge_rows` more for cast-on
/// and bind-off, take no more than the yarn.
///
/// # Errors
/// When not even the smallest count of `repeat` fits, there is nothing to knit, or the
/// piece would be wider than [`bounds::STITCHES`].
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Repeat};
/// use loopwright_yardage::widest;
/// let scarf = widest(Exact::whole(20_000), 397, Exact::whole(3), Repeat::multiple_of(6)?)?;
/// assert_eq!(scarf, 48); // 20,000 over 400 is 50
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn widest(stitches: Exact, rows: u32, edge_rows: Exact, repeat: Repeat) -> Result<u32, Error> {
    let each = grid::STITCHES.sum(rows.into(), edge_rows, Round::Ceil)?;
    if !each.is_positive() {
        return Err(Error::range("the count of rows", each, "above zero"));
    }
    let most = grid::STITCHES.quotient(stitches, each, Round::Floor)?.to_whole(Round::Floor)?;
    if most < repeat.smallest().into() {
        let need = grid::STITCHES.product(repeat.smallest().into(), each, Round::Ceil)?;
        return Err(short("the narrowest piece", stitches, need));
    }
    let fits = u32::try_from(most).ok().filter(|&n| u64::from(n) <= bounds::STITCHES);
    let most = fits.ok_or_else(|| {
        Error::range("the count of stitches", most, format!("in 1..={}", bounds::STITCHES))
    })?;
    Ok(most - (most - repeat.offset()) % repeat.multiple())
}
