//! How far a given number of stitches of yarn carries a piece.

use crate::error::Kind;
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
            return Err(Error::range("the rows of the edging", rows, allowed));
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
            return Err(Error::range("the fixed stitches", stitches, format!("in 0..={most}")));
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

    /// The stitches of yarn that all pieces take at `rows` rows each, edgings included.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn cost(&self, rows: u32) -> Result<Exact, Error> {
        let overflow = || Error::overflow("the work");
        let whole = |n: u128| {
            let n = u64::try_from(n).ok().and_then(|n| Exact::try_from(n).ok());
            n.ok_or_else(overflow)
        };
        let edge = whole(self.growth.row(rows).into())?.checked_mul(self.edging)?;
        let one = whole(self.growth.total(rows))?.checked_add(edge)?.checked_add(self.fixed)?;
        Ok(one.checked_mul(self.copies.into())?)
    }

    /// The most rows that each piece can have from yarn for `stitches` stitches.
    ///
    /// The greatest R with cost(R) at most `stitches`. As no row is shorter than the one
    /// before, the cost never falls with R, and halving the range finds it in 20 steps.
    ///
    /// # Errors
    /// When the yarn does not cover even the edging without a row, or a figure cannot be
    /// held exactly.
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
            let (have, need) = (stitches.to_string(), least.to_string());
            return Err(Kind::Short { what: "the edging alone", have, need }.into());
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

    fn stop(&self, rows: u32, stitches: Exact) -> Result<Stop, Error> {
        let used = self.cost(rows)?;
        let last_row = self.growth.row(rows);
        let edge = Exact::try_from(last_row)?;
        let edgings = edge.checked_mul(self.edging)?.checked_mul(self.copies.into())?;
        let spare = stitches.checked_sub(used)?;
        Ok(Stop { rows, last_row, used, spare, keep: edgings.checked_add(spare)? })
    }

    /// The most rows from a spread of stitches: the low is what can be relied on.
    ///
    /// # Errors
    /// As [`Plan::rows_from`], for the low.
    pub fn rows_from_spread(&self, stitches: &Spread<Exact>) -> Result<Spread<u32>, Error> {
        stitches.map(|stitches| Ok(self.rows_from(stitches)?.rows))
    }
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
/// When not even the smallest count of `repeat` fits, there is nothing to knit, or a
/// figure cannot be held exactly.
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
    let each = Exact::from(rows).checked_add(edge_rows)?;
    if !each.is_positive() {
        return Err(Error::range("the rows of the piece", each, "above zero"));
    }
    let most = stitches.checked_div(each)?.to_whole(Round::Floor)?;
    let most = u32::try_from(most.max(0)).map_err(|_| Error::overflow("the width"))?;
    if most < repeat.smallest() {
        let need = Exact::from(repeat.smallest()).checked_mul(each)?.to_string();
        let have = stitches.to_string();
        return Err(Kind::Short { what: "the narrowest piece", have, need }.into());
    }
    Ok(most - (most - repeat.offset()) % repeat.multiple())
}
