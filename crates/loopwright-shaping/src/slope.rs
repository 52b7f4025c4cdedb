//! Stepped slopes: shoulders and hems, by bind-off or by short rows.

use crate::Side;
use crate::bounds::{COUNT, range};
use crate::error::{Error, Remedy};
use crate::split::{Mix, Split};
use crate::words::{self, stitches as stitch_noun};
use alloc::format;
use core::fmt;
use loopwright_gauge::{Rows, Stitches};

/// Which steps of a slope are one stitch larger, where the division leaves a rest.
///
/// Print does not agree on this, so it is always an argument.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Larger {
    /// The steps knitted first: at a shoulder, those nearest the armhole.
    First,
    /// The steps knitted last: at a shoulder, those nearest the neck.
    Last,
    /// Mixed as evenly as can be.
    Spread,
}

/// How a step of a slope is made.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Method {
    /// Stitches bound off at the carriage side, at the beginning of a row.
    BindOff,
    /// Short rows: stitches held, or left unworked, and knitted over at the end.
    ShortRows,
}

/// What a [`Slope`] is asked to be.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[must_use]
pub struct SlopeBuilder {
    stitches: Stitches,
    turns: u32,
    larger: Larger,
    method: Method,
    last_costs_rows: bool,
}

/// One step of a slope.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Step {
    /// The row of the slope the step is worked on, the first row being 1.
    pub row: u32,
    /// Stitches bound off, or newly left unworked.
    pub stitches: u32,
    /// Stitches bound off or left unworked so far, this step included.
    pub done: u32,
}

/// A slope of so many stitches in so many steps, two rows to a step.
///
/// Step sizes differ by at most one stitch, which is as near to a straight slope as
/// whole steps come.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_shaping::{Larger, Slope};
/// let shoulder = Slope::builder(Stitches::new(16)?, 3, Larger::Last).build()?;
/// assert_eq!(shoulder.steps().map(|step| step.stitches).collect::<Vec<_>>(), [5, 5, 6]);
/// assert_eq!(shoulder.rows().get(), 6);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "SlopeBuilder", into = "SlopeBuilder"))]
pub struct Slope {
    asked: SlopeBuilder,
    split: Split,
}

impl SlopeBuilder {
    /// How the steps are made; by bind-off, if nothing is said.
    pub const fn method(self, method: Method) -> Self {
        Self { method, ..self }
    }

    /// Whether the last step costs two rows like the others (it does, if nothing is
    /// said), or none, because its stitches are simply bound off or knitted over.
    pub const fn last_costs_rows(self, yes: bool) -> Self {
        Self { last_costs_rows: yes, ..self }
    }

    /// Plans the slope.
    ///
    /// # Errors
    /// When there are no stitches, no steps, more steps than stitches, or more than
    /// half of [`COUNT`]: two rows to a step.
    pub fn build(self) -> Result<Slope, Error> {
        let stitches = range::count("the stitches of the slope", self.stitches.get(), 1)?;
        let turns = range::within("the number of steps of the slope", self.turns, 1, COUNT / 2)?;
        if turns > stitches {
            let remedy = Remedy::NONE;
            let (st, most) = (stitch_noun(stitches), step_noun(stitches));
            let why =
                format!("a slope of {stitches} {st} has at most {stitches} {most}, not {turns}");
            return Err(Error::impossible(why, remedy));
        }
        let (total, parts) = (stitches.into(), turns.into());
        let mix = match self.larger {
            Larger::First => Mix::LargeFirst,
            Larger::Last => Mix::SmallFirst,
            Larger::Spread => Mix::Line { phase: parts },
        };
        Ok(Slope { asked: self, split: Split { total, parts, mix } })
    }
}

impl Slope {
    /// Starts a slope of `stitches` in `turns` steps.
    pub const fn builder(stitches: Stitches, turns: u32, larger: Larger) -> SlopeBuilder {
        SlopeBuilder { stitches, turns, larger, method: Method::BindOff, last_costs_rows: true }
    }

    /// Starts a slope over `rows`: half as many steps, and one more when the last
    /// step costs no rows.
    ///
    /// # Errors
    /// When `rows` is odd: every step takes two.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_shaping::{Larger, Slope};
    /// let slope = Slope::over(Stitches::new(12)?, Rows::new(8)?, Larger::First, true)?.build()?;
    /// assert_eq!(slope.turns(), 4);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn over(
        stitches: Stitches,
        rows: Rows,
        larger: Larger,
        last_costs_rows: bool,
    ) -> Result<SlopeBuilder, Error> {
        if !rows.get().is_multiple_of(2) {
            return Err(Error::range("the rows of the slope", &rows, "an even number"));
        }
        let turns = rows.get() / 2 + u32::from(!last_costs_rows);
        Ok(Self::builder(stitches, turns, larger).last_costs_rows(last_costs_rows))
    }

    /// How many steps there are.
    #[must_use]
    pub const fn turns(&self) -> u32 {
        self.asked.turns
    }

    /// All stitches of the slope.
    #[must_use]
    pub const fn stitches(&self) -> Stitches {
        self.asked.stitches
    }

    /// How the steps are made.
    #[must_use]
    pub const fn method(&self) -> Method {
        self.asked.method
    }

    /// The rows the slope takes: two a step, with or without the last one's.
    #[must_use]
    pub fn rows(&self) -> Rows {
        let costing = self.asked.turns - u32::from(!self.asked.last_costs_rows);
        Rows::new(2 * costing).unwrap_or(Rows::ZERO)
    }

    /// The steps in knitting order, on rows 1, 3, 5, ...; allocates nothing.
    #[must_use]
    pub fn steps(&self) -> impl DoubleEndedIterator<Item = Step> + ExactSizeIterator + use<> {
        let split = self.split;
        (0..self.asked.turns).map(move |i| {
            let at = |j: u32| u32::try_from(split.at(j.into())).unwrap_or(u32::MAX);
            Step { row: 2 * i + 1, stitches: at(i + 1) - at(i), done: at(i + 1) }
        })
    }

    /// Both shoulders of a piece: the same steps at either side, each on the rows
    /// where the carriage is at its side, so that they lie one row apart.
    ///
    /// `first` is where the carriage is before row 1; steps come in knitting order.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// use loopwright_shaping::{Larger, Side, Slope};
    /// let shoulder = Slope::builder(Stitches::new(11)?, 3, Larger::First).build()?;
    /// let steps: Vec<_> =
    ///     shoulder.paired(Side::Right).map(|(side, step)| (step.row, side, step.stitches)).collect();
    /// assert_eq!(steps[..3], [(1, Side::Right, 4), (2, Side::Left, 4), (3, Side::Right, 4)]);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn paired(&self, first: Side) -> impl Iterator<Item = (Side, Step)> + use<> {
        self.steps().flat_map(move |step| {
            let late = Step { row: step.row + 1, ..step };
            [(first, step), (first.other(), late)]
        })
    }
}

impl fmt::Display for Slope {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.asked.method {
            Method::BindOff => self.write_bind_off(f),
            Method::ShortRows => self.write_short_rows(f),
        }
    }
}

impl Slope {
    fn write_bind_off(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("bind off ")?;
        let mut steps = self.steps().map(|step| step.stitches).peekable();
        while let Some(size) = steps.next() {
            let mut times = 1;
            while steps.next_if_eq(&size).is_some() {
                times += 1;
            }
            write!(f, "{size} {}", stitch_noun(size))?;
            if self.turns() > 1 {
                words::times(f, times)?;
            }
            if steps.peek().is_some() {
                f.write_str(", then ")?;
            }
        }
        if self.turns() > 1 { f.write_str(", on every 2nd row") } else { Ok(()) }
    }

    fn write_short_rows(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // The last step leaves nothing to be worked: it is the row over all stitches.
        let mut left = 0;
        for step in self.steps().take_while(|step| step.done < self.stitches().get()) {
            f.write_str(if left == 0 { "leave " } else { ", then " })?;
            left = step.done;
            write!(f, "{left}")?;
        }
        if left > 0 {
            write!(f, " {} unworked", stitch_noun(left))?;
        }
        match self.turns() {
            1 => {}
            2 => f.write_str(", then ")?,
            _ => f.write_str(", on every 2nd row, then ")?,
        }
        f.write_str("knit one row over all stitches")
    }
}

const fn step_noun(n: u32) -> &'static str {
    if n == 1 { "step" } else { "steps" }
}

impl TryFrom<SlopeBuilder> for Slope {
    type Error = Error;

    fn try_from(asked: SlopeBuilder) -> Result<Self, Error> {
        asked.build()
    }
}

impl From<Slope> for SlopeBuilder {
    fn from(slope: Slope) -> Self {
        slope.asked
    }
}
