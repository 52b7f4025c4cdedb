//! How far a given number of stitches of yarn carries a piece.

use crate::error::Kind;
use crate::grid;
use crate::{Error, Growth, Spread, bounds};
use alloc::format;
use alloc::string::ToString;
use loopwright_gauge::{Exact, Repeat, Round, Rows, Stitches};

/// A piece to be knitted from what is left: its rows, the edging along its last row, and
/// how many of it.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Rows, Stitches};
/// use loopwright_yardage::{Plan, Growth};
/// let scarf = Growth::straight(Stitches::new(40)?)?;
/// let two = Plan::new(scarf).edging(Exact::ONE)?.copies(2)?;
/// assert_eq!(two.cost(Rows::new(99)?)?, Exact::whole(2 * 40 * 100));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
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
    pub fn cost(&self, rows: Rows) -> Result<Exact, Error> {
        let up = |a, b| grid::STITCHES.sum(a, b, Round::Ceil);
        let one = up(up(self.knitted(rows)?, self.edge(rows)?)?, self.fixed)?;
        self.all(one)
    }

    /// The stitches of all rows up to `rows`, without an edging.
    fn knitted(&self, rows: Rows) -> Result<Exact, Error> {
        Ok(Exact::try_from(self.growth.total(rows))?)
    }

    /// The edging after `rows` rows.
    fn edge(&self, rows: Rows) -> Result<Exact, Error> {
        grid::STITCHES.product(self.growth.row(rows).into(), self.edging, Round::Ceil)
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
    /// use loopwright_gauge::{Exact, Rows, Stitches};
    /// use loopwright_yardage::{Plan, Growth};
    /// let (three, two) = (Stitches::new(3)?, Stitches::new(2)?);
    /// let shawl = Plan::new(Growth::even(three, two, Rows::new(2)?)?).edging(Exact::ONE)?;
    /// let stop = shawl.rows_from(Exact::whole(5_000))?;
    /// assert_eq!((stop.rows, stop.last_row), (Rows::new(97)?, Stitches::new(99)?));
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn rows_from(&self, stitches: Exact) -> Result<Stop, Error> {
        let least = self.cost(Rows::ZERO)?;
        if least > stitches {
            return Err(short("the edging alone", stitches, least));
        }
        let (mut sure, mut beyond) = (Rows::ZERO, self.growth.most_rows().get() + 1);
        while beyond - sure.get() > 1 {
            let middle = Rows::new(sure.get() + (beyond - sure.get()) / 2)?;
            // A cost too great to be held is beyond any yarn.
            if self.cost(middle).is_ok_and(|cost| cost <= stitches) {
                sure = middle;
            } else {
                beyond = middle.get();
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
    /// use loopwright_gauge::{Exact, Rows, Stitches};
    /// use loopwright_yardage::{Plan, Growth};
    /// let (three, two) = (Stitches::new(3)?, Stitches::new(2)?);
    /// let shawl = Plan::new(Growth::even(three, two, Rows::new(2)?)?).edging(Exact::ONE)?;
    /// let stop = shawl.rows_after(Rows::new(60)?, Exact::whole(2_000))?;
    /// assert_eq!(stop.rows, Rows::new(25)?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn rows_after(&self, done: Rows, stitches: Exact) -> Result<Stop, Error> {
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
        Ok(Stop { rows: stop.rows.checked_sub(done)?, used, ..stop })
    }

    fn stop(&self, rows: Rows, stitches: Exact) -> Result<Stop, Error> {
        let used = self.cost(rows)?;
        let edgings = self.all(self.edge(rows)?)?;
        let spare = grid::STITCHES.difference(stitches, used, Round::Floor)?;
        let keep = grid::STITCHES.sum(edgings, spare, Round::Ceil)?;
        Ok(Stop { rows, last_row: self.growth.row(rows), used, spare, keep })
    }

    /// The most rows from a spread of stitches: the low is what to count on.
    ///
    /// # Errors
    /// As [`Plan::rows_from`], for the low.
    pub fn rows_from_spread(&self, stitches: &Spread<Exact>) -> Result<Spread<Rows>, Error> {
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

/// Where to stop: what [`Plan::rows_from`] answers.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Rows, Stitches};
/// use loopwright_yardage::{Plan, Growth};
/// let scarf = Plan::new(Growth::straight(Stitches::new(40)?)?).edging(Exact::ONE)?;
/// let stop = scarf.rows_from(Exact::whole(4_010))?;
/// assert_eq!((stop.rows, stop.spare), (Rows::new(99)?, Exact::whole(10)));
/// assert_eq!(stop.keep, Exact::whole(50)); // the bind-off and the spare
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Stop {
    /// The last row before the edging.
    pub rows: Rows,
    /// Its stitches.
    pub last_row: Stitches,
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
/// use loopwright_gauge::{Exact, Repeat, Rows, Stitches};
/// use loopwright_yardage::widest;
/// let (yarn, rows, sixes) = (Exact::whole(20_000), Rows::new(397)?, Repeat::multiple_of(6)?);
/// let scarf = widest(yarn, rows, Exact::whole(3), sixes)?;
/// assert_eq!(scarf, Stitches::new(48)?); // 20,000 over 400 is 50
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn widest(
    stitches: Exact,
    rows: Rows,
    edge_rows: Exact,
    repeat: Repeat,
) -> Result<Stitches, Error> {
    let each = grid::STITCHES.sum(rows.into(), edge_rows, Round::Ceil)?;
    if !each.is_positive() {
        return Err(Error::range("the count of rows", each, "above zero"));
    }
    let most = grid::STITCHES.quotient(stitches, each, Round::Floor)?.to_whole(Round::Floor)?;
    if most < repeat.smallest().into() {
        let need = grid::STITCHES.product(repeat.smallest().into(), each, Round::Ceil)?;
        return Err(short("the narrowest piece", stitches, need));
    }
    let most = Stitches::try_from(most)?.get();
    Ok(Stitches::new(most - (most - repeat.offset()) % repeat.multiple())?)
}

/// A value as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    growth: Growth,
    #[serde(default)]
    edging: Exact,
    #[serde(default)]
    fixed: Exact,
    #[serde(default = "one")]
    copies: u32,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Plan {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.growth).edging(raw.edging)?.fixed(raw.fixed)?.copies(raw.copies)
    }
}

#[cfg(feature = "serde")]
impl From<Plan> for Raw {
    fn from(value: Plan) -> Self {
        let Plan { growth, edging, fixed, copies } = value;
        Self { growth, edging, fixed, copies }
    }
}

#[cfg(feature = "serde")]
const fn one() -> u32 {
    1
}
