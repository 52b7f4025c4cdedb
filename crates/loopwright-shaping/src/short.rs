//! Short rows: wedges, darts, raised necks, turned heels and toes.

use crate::Slope;
use crate::bounds::{SHORT, range};
use crate::error::Error;
use crate::words::{are, stitches as stitch_noun};
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::{Count as _, Round, Rows, Side, Stitches, choices};

choices! {
    /// Whether each short row reaches farther than the one before, or less far.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::WedgeReach;
    /// assert_eq!("growing".parse::<WedgeReach>()?, WedgeReach::Growing);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub enum WedgeReach: "the reach of short rows" {
        /// The shortest row first: needles are brought back into work.
        Growing = "growing",
        /// The longest row first: needles are put into hold.
        Shrinking = "shrinking",
    }
}

/// One row over only some of the stitches.
///
/// Stitches are counted from the left edge: the row is knitted over those after
/// `from` up to `to`.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ShortRow {
    /// The row, the first being 1.
    pub row: Rows,
    /// Stitches to the left of it.
    pub from: Stitches,
    /// Stitches up to its right end.
    pub to: Stitches,
    /// The side the carriage is on when the row is done.
    pub ends: Side,
}

/// A turn before the edge is reached.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Turn {
    /// The row that is turned.
    pub row: Rows,
    /// The side it falls on.
    pub side: Side,
    /// Stitches worked in the row.
    pub worked: Stitches,
    /// Stitches left unworked beyond the turn.
    pub left: Stitches,
    /// Whether a wrap closes the gap: the yarn goes round the first stitch left.
    pub wrap: bool,
}

/// Short rows over `width` stitches, row by row.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Round, Rows, Stitches};
/// use loopwright_shaping::{WedgeReach, ShortRows, Side};
/// let wedge =
///     ShortRows::wedge(Stitches::new(60)?, Rows::new(6)?, Side::Right, WedgeReach::Shrinking)?;
/// let turns: Vec<_> = wedge.turns().map(|turn| (turn.row.get(), turn.side, turn.left.get())).collect();
/// assert_eq!(turns, [(1, Side::Left, 10), (3, Side::Left, 30), (5, Side::Left, 50)]);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "crate::serial::ShortRowsParts"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ShortRows {
    pub(crate) width: u32,
    pub(crate) rows: Vec<ShortRow>,
    pub(crate) wraps: bool,
}

impl ShortRows {
    /// A wedge: `rows` more at the `deep` edge than at the other, over `width`.
    ///
    /// Knitting starts at the deep edge. Rows come in pairs there and back; at every
    /// stitch the rows knitted are within one row of the straight slope, which is the
    /// nearest that pairs of rows can come.
    ///
    /// # Errors
    /// When `rows` is odd, or there are more turns than stitches to turn at.
    pub fn wedge(
        width: Stitches,
        rows: Rows,
        deep: Side,
        reach: WedgeReach,
    ) -> Result<Self, Error> {
        let mut short = Self::empty(width)?;
        short.slope(pairs(rows)?, 1, deep, reach)?;
        Ok(short)
    }

    /// A dart: a wedge put into hold and brought back, `rows` more at the `deep` edge,
    /// nothing at its point, `width` stitches away.
    ///
    /// # Errors
    /// When `rows` is odd, or there are more turns than stitches to turn at.
    pub fn dart(width: Stitches, rows: Rows, deep: Side) -> Result<Self, Error> {
        let mut short = Self::empty(width)?;
        let all = pairs(rows)?;
        short.slope(all - all / 2, 2, deep, WedgeReach::Shrinking)?;
        short.slope(all / 2, 2, deep, WedgeReach::Growing)?;
        Ok(short)
    }

    /// The short rows of a stepped shoulder: each leaves one more step of `slope`
    /// unworked at the `low` side, and the last row goes over all stitches.
    ///
    /// Knitting starts at the other side.
    ///
    /// # Errors
    /// When there are more than half of [`SHORT`] steps: two rows to each.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// use loopwright_shaping::{Larger, ShortRows, Side, Slope};
    /// let slope = Slope::builder(Stitches::new(15)?, 3, Larger::Last).build()?;
    /// let shoulder = ShortRows::stepped(&slope, Side::Left)?;
    /// let left: Vec<u32> = shoulder.turns().map(|turn| turn.left.get()).collect();
    /// assert_eq!(left, [5, 10]);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn stepped(slope: &Slope, low: Side) -> Result<Self, Error> {
        let mut short = Self::empty(slope.stitches())?;
        range::within("the number of steps of the short rows", slope.turns(), 1, SHORT / 2)?;
        let deep = low.other();
        for step in slope.steps().take_while(|step| step.done < slope.stitches()) {
            let done = step.done.get();
            short.push(deep, 0, short.width - done);
            short.push(low, done, short.width);
        }
        short.push(deep, 0, short.width);
        Ok(short)
    }

    /// A raised middle, such as a back neck: `rows` more over the middle `core`
    /// stitches than at the edges, each turn farther out than the one before.
    ///
    /// Knitting starts at the `start` edge; the last row goes on to the other, so one
    /// row over all stitches is part of it.
    ///
    /// # Errors
    /// When `rows` is odd, `core` is wider than `width` or leaves an odd number, or
    /// there are more turns at a side than stitches to turn at.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Round, Rows, Stitches};
    /// use loopwright_shaping::{ShortRows, Side};
    /// let neck =
    ///     ShortRows::raised(Stitches::new(80)?, Stitches::new(40)?, Rows::new(4)?, Side::Left)?;
    /// assert_eq!(neck.rows_over(Stitches::new(40)?), Rows::new(5)?);
    /// assert_eq!(neck.rows_over(Stitches::ZERO), Rows::ONE);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn raised(width: Stitches, core: Stitches, rows: Rows, start: Side) -> Result<Self, Error> {
        let mut short = Self::empty(width)?;
        let side = short.flank(core)?;
        let turns = pairs(rows)?;
        // The first turns may lie at the middle itself, if there is one.
        let most = if core == Stitches::ZERO { side.saturating_sub(1) } else { side };
        if turns > most {
            let needed = turns + side - most;
            let beside = " at each side of the middle";
            return Err(too_many_turns(turns, needed, side, beside, 2 * most));
        }
        let reach = places(side, turns)?;
        let (mut near, far) = (0, short.width);
        for out in reach {
            let beyond = side - out;
            short.push(start, near, far - beyond);
            short.push(start.other(), beyond, far - beyond);
            near = beyond;
        }
        short.push(start, near, far);
        Ok(short)
    }

    /// A heel or toe turned over `width` stitches: one stitch fewer in every row down
    /// to `core`, then one more in every row back to all of them.
    ///
    /// # Errors
    /// When `core` is zero or wider than `width`, or leaves an odd number; or the rows are
    /// more than [`SHORT`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// use loopwright_shaping::{ShortRows, Side};
    /// let toe = ShortRows::heel(Stitches::new(28)?, Stitches::new(10)?, Side::Right)?;
    /// assert_eq!(toe.rows().len(), 36);
    /// assert_eq!(toe.rows_over(Stitches::new(14)?).get(), 36);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn heel(width: Stitches, core: Stitches, start: Side) -> Result<Self, Error> {
        let mut short = Self::empty(width)?;
        range::within("the stitches a heel is turned down to", core.get(), 1, short.width)?;
        let fewer = 2 * short.flank(core)?;
        range::within("the number of rows of a heel", 2 * fewer, 0, SHORT)?;
        // Left unworked after row i: half of i at each edge, the odd one ahead.
        let back = (0..fewer).rev();
        for (i, left) in (1..=fewer).chain(back).enumerate() {
            let side = if i % 2 == 0 { start } else { start.other() };
            let (ahead, behind) = if i < fewer as usize {
                (left.div_ceil(2), left / 2)
            } else {
                (left / 2, left.div_ceil(2))
            };
            short.push(side, behind, short.width - ahead);
        }
        Ok(short)
    }

    /// Leaves out the wraps, for a fabric where the gaps are wanted or closed otherwise.
    #[must_use]
    pub fn without_wraps(mut self) -> Self {
        self.wraps = false;
        self
    }

    /// Rows as they were written: each begins where the one before ended, and goes back.
    #[cfg(feature = "serde")]
    pub(crate) fn checked(width: Stitches, rows: &[ShortRow], wraps: bool) -> Result<Self, Error> {
        let mut short = Self { wraps, ..Self::empty(width)? };
        let count = u32::try_from(rows.len()).unwrap_or(u32::MAX);
        range::within("the number of short rows", count, 0, SHORT)?;
        for (nth, row) in (1..).zip(rows) {
            let (start, before) = (row.ends.other(), short.rows.last());
            let begins = match start {
                Side::Left => (row.from, before.map_or(Stitches::ZERO, |row| row.from)),
                Side::Right => (row.to, before.map_or(width, |row| row.to)),
            };
            let turned = before.is_none_or(|before| before.ends == start);
            let inside = row.from < row.to && row.to <= width;
            if row.row.get() != nth || begins.0 != begins.1 || !turned || !inside {
                let given = alloc::format!("{} to {} in row {}", row.from, row.to, row.row);
                let allowed = "on from where the row before was turned, within the width";
                return Err(Error::range("a short row", &given, allowed));
            }
            short.rows.push(*row);
        }
        Ok(short)
    }

    fn empty(width: Stitches) -> Result<Self, Error> {
        let width = range::count("the width of the short rows", width.get(), 1)?;
        Ok(Self { width, rows: Vec::new(), wraps: true })
    }

    /// Stitches at each side of the core.
    fn flank(&self, core: Stitches) -> Result<u32, Error> {
        let core = range::within("the stitches in the middle", core.get(), 0, self.width)?;
        if (self.width - core).is_multiple_of(2) {
            return Ok((self.width - core) / 2);
        }
        let allowed = if self.width.is_multiple_of(2) { "even" } else { "odd" };
        Err(Error::range(
            "the stitches in the middle",
            &core,
            alloc::format!("{allowed}, as the width is"),
        ))
    }

    /// Pairs of rows from the deep edge and back.
    fn slope(
        &mut self,
        pairs: u32,
        wedges: u32,
        deep: Side,
        reach: WedgeReach,
    ) -> Result<(), Error> {
        for out in reaches(self.width, pairs, wedges, reach)? {
            self.push(deep, 0, out);
            self.push(deep.other(), self.width - out, self.width);
        }
        Ok(())
    }

    /// A row that starts at `start`, over the stitches `near` to `far` seen from where
    /// the carriage is.
    fn push(&mut self, start: Side, near: u32, far: u32) {
        let (from, to) = match start {
            Side::Left => (near, far),
            Side::Right => (self.width - far, self.width - near),
        };
        let row = u32::try_from(self.rows.len()).unwrap_or(u32::MAX).saturating_add(1);
        let (from, to) = (Stitches::clamped(from), Stitches::clamped(to));
        self.rows.push(ShortRow { row: Rows::clamped(row), from, to, ends: start.other() });
    }

    /// The stitches they are knitted over.
    #[must_use]
    pub fn width(&self) -> Stitches {
        Stitches::clamped(self.width)
    }

    /// The rows, in knitting order.
    #[must_use]
    pub fn rows(&self) -> &[ShortRow] {
        &self.rows
    }

    /// How many rows are knitted over a stitch, counted from 0 at the left edge.
    #[must_use]
    pub fn rows_over(&self, stitch: Stitches) -> Rows {
        let over = self.rows.iter().filter(|row| (row.from..row.to).contains(&stitch)).count();
        Rows::clamped(u32::try_from(over).unwrap_or(u32::MAX))
    }

    /// Every turn before an edge, in knitting order.
    pub fn turns(&self) -> impl Iterator<Item = Turn> + '_ {
        self.rows.iter().filter_map(|row| self.turn(*row))
    }

    fn turn(&self, row: ShortRow) -> Option<Turn> {
        let left = match row.ends {
            Side::Left => row.from,
            Side::Right => self.width().saturating_sub(row.to),
        };
        let worked = row.to.saturating_sub(row.from);
        let turn = Turn { row: row.row, side: row.ends, worked, left, wrap: self.wraps };
        (!left.is_zero()).then_some(turn)
    }
}

fn pairs(rows: Rows) -> Result<u32, Error> {
    let what = "the number of short rows";
    if !rows.get().is_multiple_of(2) {
        return Err(Error::range(what, &rows, "even: every turn goes there and back"));
    }
    Ok(range::within(what, rows.get(), 0, SHORT)? / 2)
}

/// How far each of `turns` rows reaches into `width`: the straight slope's own values,
/// half a step from both ends, and never an edge, where no row would be turned.
///
/// `wedges` of the same turns share the rows.
fn reaches(width: u32, turns: u32, wedges: u32, reach: WedgeReach) -> Result<Vec<u32>, Error> {
    if turns >= width {
        return Err(too_many_turns(turns, turns + 1, width, "", 2 * wedges * (width - 1)));
    }
    let mut places = places(width, turns)?;
    if reach == WedgeReach::Shrinking {
        places.reverse();
    }
    Ok(places)
}

/// `needed` stitches where there are only `width`; `rows` is the most that would do.
fn too_many_turns(turns: u32, needed: u32, width: u32, beside: &str, rows: u32) -> Error {
    let (verb, there) = (if turns == 1 { "turn needs" } else { "turns need" }, are(width));
    let st = stitch_noun(needed);
    let why = alloc::format!(
        "{turns} {verb} {needed} {st}{beside}, since each leaves one more, but there {there} {width}"
    );
    let mend = match rows {
        0 => String::new(),
        rows => alloc::format!(": at most {rows} rows would do"),
    };
    Error::impossible(why + &mend, crate::Remedy::NONE)
}

/// `floor(width * (k - 1/2) / turns + 1/2)`, rounded half up; halves are rounded down
/// where there are as many turns as stitches, so that none is at the far edge.
fn places(width: u32, turns: u32) -> Result<Vec<u32>, Error> {
    use crate::{Convention, Spacing, Technique};
    if turns == 0 {
        return Ok(Vec::new());
    }
    if turns == width {
        return Ok((0..turns).collect());
    }
    let spaced = Spacing::builder(
        Stitches::new(width)?,
        Technique::IncreaseBetween,
        turns,
        Convention::HalfGaps,
    );
    Ok(spaced.round(Round::HalfUp).build()?.positions().map(Stitches::get).collect())
}

impl fmt::Display for ShortRows {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, row) in self.rows.iter().enumerate() {
            if i > 0 {
                f.write_str("\n")?;
            }
            let (worked, side) = (row.to.saturating_sub(row.from), row.ends);
            write!(f, "row {}: knit {} towards the {side}", row.row, worked.counted())?;
            match self.turn(*row) {
                Some(turn) if turn.wrap => write!(f, ", leave {}, wrap and turn", turn.left)?,
                Some(turn) => write!(f, ", leave {}, turn", turn.left)?,
                None => f.write_str(" to the edge")?,
            }
        }
        Ok(())
    }
}
