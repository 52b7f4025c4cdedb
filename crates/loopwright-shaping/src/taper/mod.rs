//! An edge that moves evenly from one width to another over rows.

mod builder;
mod events;
mod plan;
mod words;

pub use builder::TaperBuilder;
pub use events::{Events, Segments};
pub use words::{Interval, TaperWords};

use crate::Error;
use core::fmt;
use loopwright_gauge::{Exact, Round, Rows, Stitches, choices};
use plan::Plan;

/// One shaping: so many stitches at each shaped edge, on this row.
///
/// The cast-on is no row; the first row knitted is row 1.
#[derive(Clone, Copy, Debug, Default, Eq, Hash, Ord, PartialEq, PartialOrd)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Event {
    /// The row the shaping is worked on.
    pub row: Rows,
    /// Stitches gained or lost at each shaped edge.
    pub stitches: Stitches,
}

choices! {
    /// Which edges are shaped.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::Edges;
    /// assert_eq!("both".parse::<Edges>()?, Edges::Both);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub enum Edges: "the shaped edges" {
        /// One edge; the other is straight.
        One = "one" | "1",
        /// Both edges alike, on the same rows.
        Both = "both" | "2",
    }
}

#[expect(clippy::derivable_impls, reason = "a choice's variants are declared by name")]
impl Default for Edges {
    fn default() -> Self {
        Self::One
    }
}

impl Edges {
    /// How many edges that is.
    #[must_use]
    pub const fn count(self) -> u32 {
        match self {
            Self::One => 1,
            Self::Both => 2,
        }
    }
}

choices! {
    /// Whether a piece becomes narrower or wider.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::Direction;
    /// assert_eq!("increase".parse::<Direction>()?, Direction::Increase);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub enum Direction: "the direction of shaping" {
        /// Stitches are lost.
        Decrease = "decrease" | "narrower",
        /// Stitches are gained.
        Increase = "increase" | "wider",
    }
}

choices! {
    /// Where the first and the last shaping of a taper fall.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::Ends;
    /// assert_eq!("closing".parse::<Ends>()?, Ends::Closing);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum Ends: "the ends of a taper" {
        /// About half a gap before the first and after the last.
        Half = "half",
        /// A full gap before the first, the last on the last legal row: "divide by N".
        Closing = "closing",
        /// The first on the first legal row, a full gap after the last.
        Opening = "opening",
        /// A full gap before the first and after the last: "divide by N + 1".
        Full = "full",
        /// The first on the first legal row and the last on the last.
        Both = "both",
    }
}

/// A run of shapings the same distance apart, as it is written in patterns.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Segment {
    /// Rows from one shaping to the next: 4 is "every 4th row".
    pub every: Rows,
    /// How many shapings.
    pub times: u32,
    /// Stitches gained or lost at each shaped edge.
    pub stitches: Stitches,
}

/// An edge that moves evenly from one width to another over rows.
///
/// With [`Order::Spread`](crate::Order::Spread) and [`Ends::Half`] the staircase is
/// the best there is: after every legal row the stitches gained or lost are within
/// half a shaping of the straight line, and no placement comes nearer on any row,
/// because each count is the straight line's own value rounded.
///
/// Iterating allocates nothing, and the count at any row is a closed form.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_shaping::{Edges, Order, Taper};
///
/// let sleeve = Taper::builder(Stitches::new(72)?, Stitches::new(156)?, Rows::new(196)?)
///     .edges(Edges::Both)
///     .plain_after(Rows::new(20)?)
///     .order(Order::QuickFirst)
///     .build()?;
/// assert_eq!(
///     sleeve.words().to_string(),
///     "increase 1 stitch at each edge every 4th row 34 times, then every 5th row 8 times, \
///      then work 20 rows plain",
/// );
/// assert_eq!(sleeve.count_at(Rows::new(8)?), Stitches::new(76)?);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "TaperBuilder", into = "TaperBuilder"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Taper {
    asked: TaperBuilder,
    plan: Plan,
}

impl Taper {
    /// Starts a taper of `from` to `to` stitches over `rows` rows.
    pub const fn builder(from: Stitches, to: Stitches, rows: Rows) -> TaperBuilder {
        TaperBuilder::new(from, to, rows)
    }

    /// The taper of `from` to `to` stitches over `rows` rows nearest to a straight line:
    /// one edge, a shaping in any row.
    ///
    /// # Errors
    /// As for [`TaperBuilder::build`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_shaping::Taper;
    /// let side = Taper::between(Stitches::new(24)?, Stitches::new(20)?, Rows::new(20)?)?;
    /// assert_eq!(side.events().map(|event| event.row.get()).collect::<Vec<_>>(), [3, 8, 13, 18]);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn between(from: Stitches, to: Stitches, rows: Rows) -> Result<Self, Error> {
        Self::builder(from, to, rows).build()
    }

    /// The stitches before the first row.
    #[must_use]
    pub const fn from(&self) -> Stitches {
        self.asked.from
    }

    /// The stitches after the last row.
    #[must_use]
    pub const fn to(&self) -> Stitches {
        self.asked.to
    }

    /// All the rows, plain ones included.
    #[must_use]
    pub const fn rows(&self) -> Rows {
        self.asked.rows
    }

    /// Which edges are shaped.
    #[must_use]
    pub const fn edges(&self) -> Edges {
        self.asked.edges
    }

    /// The number of the row before the first: 0, unless the taper was planned
    /// [`after`](TaperBuilder::after) a row.
    #[must_use]
    pub const fn start(&self) -> Rows {
        self.asked.after
    }

    /// Whether the piece becomes narrower or wider; `None` when it stays straight.
    #[must_use]
    pub fn direction(&self) -> Option<Direction> {
        use core::cmp::Ordering::{Equal, Greater, Less};
        match self.asked.to.cmp(&self.asked.from) {
            Less => Some(Direction::Decrease),
            Equal => None,
            Greater => Some(Direction::Increase),
        }
    }

    /// The shapings, in the order they are knitted; allocates nothing.
    #[must_use]
    pub fn events(&self) -> Events<'_> {
        Events::new(&self.plan)
    }

    /// The whole width after `row` is worked, in constant time.
    ///
    /// Rows before the first and after the last give the first and last width.
    #[must_use]
    pub fn count_at(&self, row: Rows) -> Stitches {
        let change = self.plan.stitches_after(row.get()) * self.asked.edges.count();
        let count = match self.direction() {
            Some(Direction::Increase) => self.asked.from.get() + change,
            _ => self.asked.from.get().saturating_sub(change),
        };
        Stitches::clamped(count)
    }

    /// Plain rows before gaps are counted: "then every 4th row" starts after them.
    #[must_use]
    pub const fn plain_before(&self) -> Rows {
        self.asked.plain_before
    }

    /// Plain rows after the last shaping: all of them, where there is no shaping.
    #[must_use]
    pub fn plain_after(&self) -> Rows {
        let from = self.asked.after.get() + self.asked.plain_before.get();
        let last = self.events().next_back().map_or(from, |event| event.row.get());
        let end = self.asked.after.get() + self.asked.rows.get();
        Rows::clamped(end.saturating_sub(last))
    }

    /// The shapings as runs of equal gaps, in order; allocates nothing.
    ///
    /// The gap of the first is counted from the end of
    /// [`plain_before`](Self::plain_before); plain rows before, every segment's rows
    /// and [`plain_after`](Self::plain_after) add up to [`rows`](Self::rows).
    #[must_use]
    pub fn segments(&self) -> Segments<'_> {
        Segments::new(self.events(), self.asked.after.get() + self.asked.plain_before.get())
    }

    /// This taper knitted from its other end: the same widths, the last row first.
    ///
    /// # Errors
    /// Never for a taper that was built; it is planned again.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_shaping::Taper;
    /// let up = Taper::between(Stitches::new(20)?, Stitches::new(24)?, Rows::new(20)?)?;
    /// let down = up.mirrored()?;
    /// assert_eq!((down.from(), down.to()), (up.to(), up.from()));
    /// for row in 0..=20 {
    ///     let (row, back) = (Rows::new(row)?, Rows::new(20 - row)?);
    ///     assert_eq!(down.count_at(row), up.count_at(back));
    /// }
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn mirrored(&self) -> Result<Self, Error> {
        let mut turned = self.asked.mirrored();
        (turned.from, turned.to) = (turned.to, turned.from);
        (turned.plain_before, turned.plain_after) = (turned.plain_after, turned.plain_before);
        turned.build()
    }

    /// What was asked for, ready to be changed and built again.
    pub const fn asked(&self) -> TaperBuilder {
        self.asked
    }

    /// The rest of this taper planned anew: `row` is worked, `count` stitches are
    /// there, and `rows_left` rows remain.
    ///
    /// Legal rows, order, ends and plain rows after stay as they were; row numbers
    /// go on from `row`. Plain rows before that are not yet worked stay wanted.
    ///
    /// # Errors
    /// As for [`TaperBuilder::build`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_shaping::Taper;
    /// let side = Taper::builder(Stitches::new(24)?, Stitches::new(20)?, Rows::new(20)?).build()?;
    /// // Row 10 is worked and nothing was decreased; 14 rows are left, not 10.
    /// let rest = side.replan(Rows::new(10)?, Stitches::new(24)?, Rows::new(14)?)?;
    /// let rows: Vec<u32> = rest.events().map(|event| event.row.get()).collect();
    /// assert_eq!(rows, [12, 16, 19, 23]);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn replan(&self, row: Rows, count: Stitches, rows_left: Rows) -> Result<Self, Error> {
        let plain_until = self.asked.after.checked_add(self.asked.plain_before)?;
        let plain_before = plain_until.saturating_sub(row);
        let mut rest = self.asked;
        (rest.from, rest.rows, rest.plain_before) = (count, rows_left, plain_before);
        if rest.mirrored {
            rest.first = self.first_from_the_end(row, rows_left);
        }
        rest.after(row).build()
    }

    /// The first legal row from the end of what is left after `row`, so that the rows
    /// that were legal still are.
    fn first_from_the_end(&self, row: Rows, rows_left: Rows) -> Rows {
        let sum = |after: Rows, rows: Rows| 2 * i64::from(after) + i64::from(rows);
        let moved = sum(row, rows_left) - sum(self.asked.after, self.asked.rows);
        let (first, every) = (i64::from(self.asked.first), i64::from(self.asked.every));
        let moved = first + moved;
        let first = if moved < 1 { moved.rem_euclid(every) + every } else { moved };
        Rows::try_from(first).unwrap_or(self.asked.first)
    }

    /// The rest of this taper planned anew for the row gauge really reached: the taper
    /// keeps its length, so the rows left change.
    ///
    /// `planned` and `reached` are rows over the same length, such as rows per 10 cm.
    ///
    /// # Errors
    /// When the piece is already longer than planned, the rows left are not whole under
    /// [`Round::Exact`], or as for [`TaperBuilder::build`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Round, Rows, Stitches};
    /// use loopwright_shaping::{Edges, Taper};
    /// let sleeve = Taper::builder(Stitches::new(60)?, Stitches::new(100)?, Rows::new(160)?)
    ///     .edges(Edges::Both)
    ///     .build()?;
    /// // 40 rows to 10 cm were planned, 44 are knitted: 176 rows make the length.
    /// let worked = Rows::new(80)?;
    /// let count = sleeve.count_at(worked);
    /// let rest = sleeve.replan_at_gauge(worked, count, 40.into(), 44.into(), Round::HalfUp)?;
    /// assert_eq!(rest.rows().get(), 176 - 80);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn replan_at_gauge(
        &self,
        row: Rows,
        count: Stitches,
        planned: Exact,
        reached: Exact,
        round: Round,
    ) -> Result<Self, Error> {
        let all = Exact::from(self.asked.rows.get()).checked_mul(reached)?.checked_div(planned)?;
        let worked = row.saturating_sub(self.asked.after);
        let left = all.checked_sub(worked.into())?.to_whole(round)?;
        let refuse = || {
            let allowed = alloc::format!("at most {all}, the rows of the whole taper now");
            Error::range("the number of rows worked", &worked, allowed)
        };
        if left < 0 {
            return Err(refuse());
        }
        self.replan(row, count, left.try_into()?)
    }

    /// What is left of this taper after `row`, planned again over the same rows.
    ///
    /// # Errors
    /// When `row` is outside the taper, or the rest cannot be done: a taper that
    /// leaves its shaping late may have too few legal rows.
    pub fn rest_after(&self, row: Rows) -> Result<Self, Error> {
        let end = self.asked.after.checked_add(self.asked.rows)?;
        let least = self.asked.after.get();
        crate::bounds::range::within("the row worked", row.get(), least, end.get())?;
        self.replan(row, self.count_at(row), end.checked_sub(row)?)
    }
}

/// The words of the taper; see [`Taper::words`].
impl fmt::Display for Taper {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}
