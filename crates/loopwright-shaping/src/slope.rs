//! Stepped slopes: shoulders and hems, by bind-off or by short rows.

use crate::bounds::{COUNT, range};
use crate::error::{Error, Remedy};
use crate::split::{Mix, Split};
use crate::words::stitches as stitch_noun;
use alloc::format;
use core::fmt;
use loopwright_gauge::english::{self, agreeing};
use loopwright_gauge::{Rows, Side, Stitches, choices};

choices! {
    /// Which steps of a slope are one stitch larger, where the division leaves a rest.
    ///
    /// Print does not agree on this, so it is always an argument.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::Larger;
    /// assert_eq!("first".parse::<Larger>()?, Larger::First);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum Larger: "which groups are larger" {
        /// The steps knitted first: at a shoulder, those nearest the armhole.
        First = "first",
        /// The steps knitted last: at a shoulder, those nearest the neck.
        Last = "last",
        /// Mixed as evenly as can be.
        Spread = "spread",
    }
}

choices! {
    /// How a step of a slope is made.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::SlopeMethod;
    /// assert_eq!("short rows".parse::<SlopeMethod>()?, SlopeMethod::ShortRows);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum SlopeMethod: "the way of a slope" {
        /// Stitches bound off at the carriage side, at the beginning of a row.
        BindOff = "bind off",
        /// Short rows: stitches held, or left unworked, and knitted over at the end.
        ShortRows = "short rows",
    }
}

choices! {
    /// What the last step of a slope costs.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::LastStep;
    /// assert_eq!("free".parse::<LastStep>()?, LastStep::Free);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub enum LastStep: "the last step" {
        /// Two rows, like the others.
        CostsRows = "costs rows",
        /// No rows: its stitches are simply bound off, or knitted over.
        Free = "free",
    }
}

/// What a [`Slope`] is asked to be.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[must_use]
pub struct SlopeBuilder {
    stitches: Stitches,
    turns: u32,
    larger: Larger,
    #[cfg_attr(feature = "serde", serde(default = "bind_off"))]
    method: SlopeMethod,
    #[cfg_attr(feature = "serde", serde(default = "costs_rows"))]
    last_step: LastStep,
}

#[cfg(feature = "serde")]
const fn costs_rows() -> LastStep {
    LastStep::CostsRows
}

#[cfg(feature = "serde")]
const fn bind_off() -> SlopeMethod {
    SlopeMethod::BindOff
}

/// One step of a slope.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SlopeStep {
    /// The row of the slope the step is worked on, the first row being 1.
    pub row: Rows,
    /// Stitches bound off, or newly left unworked.
    pub stitches: Stitches,
    /// Stitches bound off or left unworked so far, this step included.
    pub done: Stitches,
}

/// A slope of so many stitches in so many steps, two rows to a step.
///
/// Steps differ by at most one stitch, which is as near to a straight slope as
/// whole steps come.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_shaping::{Larger, Slope};
/// let shoulder = Slope::builder(Stitches::new(16)?, 3, Larger::Last).build()?;
/// assert_eq!(shoulder.steps().map(|step| step.stitches.get()).collect::<Vec<_>>(), [5, 5, 6]);
/// assert_eq!(shoulder.rows().get(), 6);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "SlopeBuilder", into = "SlopeBuilder"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Slope {
    asked: SlopeBuilder,
    split: Split,
}

impl LastStep {
    /// Steps that cost nothing.
    const fn free(self) -> u32 {
        match self {
            Self::CostsRows => 0,
            Self::Free => 1,
        }
    }
}

impl SlopeBuilder {
    /// How the steps are made; by bind-off, if nothing is said.
    pub const fn method(self, method: SlopeMethod) -> Self {
        Self { method, ..self }
    }

    /// What the last step costs; two rows like the others, if nothing is said.
    pub const fn last_step(self, last_step: LastStep) -> Self {
        Self { last_step, ..self }
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
        let (method, last_step) = (SlopeMethod::BindOff, LastStep::CostsRows);
        SlopeBuilder { stitches, turns, larger, method, last_step }
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
    /// use loopwright_shaping::{Larger, LastStep, Slope};
    /// let slope =
    ///     Slope::over(Stitches::new(12)?, Rows::new(8)?, Larger::First, LastStep::CostsRows)?;
    /// let slope = slope.build()?;
    /// assert_eq!(slope.turns(), 4);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn over(
        stitches: Stitches,
        rows: Rows,
        larger: Larger,
        last_step: LastStep,
    ) -> Result<SlopeBuilder, Error> {
        if !rows.get().is_multiple_of(2) {
            return Err(Error::range("the rows of the slope", &rows, "an even number"));
        }
        let turns = rows.get() / 2 + last_step.free();
        Ok(Self::builder(stitches, turns, larger).last_step(last_step))
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
    pub const fn method(&self) -> SlopeMethod {
        self.asked.method
    }

    /// Which steps are one stitch larger.
    #[must_use]
    pub const fn larger(&self) -> Larger {
        self.asked.larger
    }

    /// What the last step costs.
    #[must_use]
    pub const fn last_step(&self) -> LastStep {
        self.asked.last_step
    }

    /// What was asked for, ready to be changed and built again.
    pub const fn asked(&self) -> SlopeBuilder {
        self.asked
    }

    /// The rows the slope takes: two a step, with or without the last one's.
    #[must_use]
    pub fn rows(&self) -> Rows {
        let costing = self.asked.turns - self.asked.last_step.free();
        Rows::clamped(2 * costing)
    }

    /// The steps in knitting order, on rows 1, 3, 5, ...; allocates nothing.
    #[must_use]
    pub fn steps(&self) -> impl DoubleEndedIterator<Item = SlopeStep> + ExactSizeIterator + use<> {
        let split = self.split;
        (0..self.asked.turns).map(move |i| {
            let at = |j: u32| u32::try_from(split.at(j.into())).unwrap_or(u32::MAX);
            SlopeStep {
                row: Rows::clamped(2 * i + 1),
                stitches: Stitches::clamped(at(i + 1) - at(i)),
                done: Stitches::clamped(at(i + 1)),
            }
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
    ///     shoulder.paired(Side::Right).map(|(side, step)| (step.row.get(), side, step.stitches.get())).collect();
    /// assert_eq!(steps[..3], [(1, Side::Right, 4), (2, Side::Left, 4), (3, Side::Right, 4)]);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn paired(&self, first: Side) -> impl Iterator<Item = (Side, SlopeStep)> + use<> {
        self.steps().flat_map(move |step| {
            let late = SlopeStep { row: Rows::clamped(step.row.get() + 1), ..step };
            [(first, step), (first.other(), late)]
        })
    }
}

impl fmt::Display for Slope {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.asked.method {
            SlopeMethod::BindOff => self.write_bind_off(f),
            SlopeMethod::ShortRows => self.write_short_rows(f),
        }
    }
}

impl Slope {
    fn write_bind_off(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("bind off ")?;
        let mut steps = self.steps().map(|step| step.stitches.get()).peekable();
        while let Some(size) = steps.next() {
            let mut times = 1;
            while steps.next_if_eq(&size).is_some() {
                times += 1;
            }
            write!(f, "{size} {}", stitch_noun(size))?;
            if self.turns() > 1 {
                write!(f, " {}", english::times(times))?;
            }
            if steps.peek().is_some() {
                f.write_str(", then ")?;
            }
        }
        if self.turns() > 1 { f.write_str(", on every other row") } else { Ok(()) }
    }

    fn write_short_rows(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // The last step leaves nothing to be worked: it is the row over all stitches.
        let mut left = 0;
        for step in self.steps().take_while(|step| step.done < self.stitches()) {
            f.write_str(if left == 0 { "leave " } else { ", then " })?;
            left = step.done.get();
            write!(f, "{left}")?;
        }
        if left > 0 {
            write!(f, " {} unworked", stitch_noun(left))?;
        }
        match self.turns() {
            1 => {}
            2 => f.write_str(", then ")?,
            _ => f.write_str(", on every other row, then ")?,
        }
        f.write_str("knit one row over all stitches")
    }
}

fn step_noun(n: u32) -> &'static str {
    agreeing(n, "step", "steps")
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
