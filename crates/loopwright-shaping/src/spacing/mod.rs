//! Increases and decreases placed evenly across one row or round.

mod avoid;
mod builder;
mod convention;
mod place;
mod positions;
mod technique;
mod words;

pub use builder::SpacingBuilder;
pub use convention::{Convention, Surplus};
pub use positions::{Positions, SpacedGroups};
pub use technique::Technique;
pub use words::{RowGroup, RowWords};

use crate::error::Error;
use alloc::format;
use core::fmt;
use loopwright_gauge::{Exact, Repeat, Round, Stitches};
use place::Places;

/// A run of groups of the same size.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SpacedGroup {
    /// Stitches of the old row in one group, its event's own included.
    pub size: Stitches,
    /// How many such groups follow one another.
    pub times: u32,
}

/// Events placed evenly across one row or round.
///
/// A position is the number of stitches of the old row worked when the event has
/// happened: an increase between stitches comes after that many, a decrease has just
/// used the last of them.
///
/// With [`Convention::HalfGaps`] and [`Round::Ceil`] the placement is the best there
/// is: at every prefix of the row the count of events is within ½ of the straight
/// line, because it is the line's own value rounded, and where the stitches of an
/// event itself allow no more, as near as they allow.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_shaping::{Convention, Spacing, Technique};
/// let row = Spacing::builder(Stitches::new(80)?, Technique::TwoTogether, 10, Convention::HalfGaps)
///     .mirrored()
///     .build()?;
/// assert_eq!(row.words().to_string(), "k3, k2tog, (k6, k2tog) x 9, k3");
/// assert_eq!(row.result().get(), 70);
/// assert_eq!(row.positions().take(3).map(Stitches::get).collect::<Vec<_>>(), [5, 13, 21]);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "SpacingBuilder", into = "SpacingBuilder"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Spacing {
    asked: SpacingBuilder,
    places: Places,
}

impl Spacing {
    /// Starts a spacing of `events` events over a row of `stitches`.
    pub const fn builder(
        stitches: Stitches,
        technique: Technique,
        events: u32,
        convention: Convention,
    ) -> SpacingBuilder {
        SpacingBuilder::new(stitches, technique, events, convention)
    }

    /// Starts a spacing that takes `stitches` to a count that `repeat` allows: the one
    /// `round` chooses. More are made between stitches, fewer by two together.
    ///
    /// # Errors
    /// When no such count is in range, or [`Round::Exact`] meets a remainder.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Repeat, Round, Stitches};
    /// use loopwright_shaping::{Convention, Spacing};
    /// let cables = Repeat::multiple_of(12)?.plus(2)?;
    /// let row = Spacing::onto(Stitches::new(93)?, cables, Round::Ceil, Convention::HalfGaps)?;
    /// assert_eq!(row.build()?.result().get(), 98);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn onto(
        stitches: Stitches,
        repeat: Repeat,
        round: Round,
        convention: Convention,
    ) -> Result<SpacingBuilder, Error> {
        let over = i64::from(stitches.get()) - i64::from(repeat.offset());
        let repeats = Exact::new(over, repeat.multiple().into())?.to_whole(round)?;
        let wanted = repeats * i64::from(repeat.multiple()) + i64::from(repeat.offset());
        let wanted = wanted.max(repeat.smallest().into());
        let wanted = u32::try_from(wanted)
            .map_err(|_| Error::range("the count wanted", &wanted, format!("a {repeat}")))?;
        Ok(Self::between(stitches, Stitches::new(wanted)?, convention))
    }

    /// Starts a spacing of `from` stitches to `to`: increases between stitches, or two
    /// stitches together.
    pub fn between(from: Stitches, to: Stitches, convention: Convention) -> SpacingBuilder {
        let technique = if to > from { Technique::IncreaseBetween } else { Technique::TwoTogether };
        Self::builder(from, technique, to.get().abs_diff(from.get()), convention)
    }

    /// So many increases between stitches over a flat row, half a gap at both ends.
    ///
    /// # Errors
    /// As for [`SpacingBuilder::build`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// use loopwright_shaping::Spacing;
    /// let row = Spacing::increase(4, Stitches::new(24)?)?;
    /// assert_eq!(row.to_string(), "k3, M1, (k6, M1) x 3, k3");
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn increase(events: u32, over: Stitches) -> Result<Self, Error> {
        Self::builder(over, Technique::IncreaseBetween, events, Convention::HalfGaps).build()
    }

    /// So many decreases of two together over a flat row, half a gap at both ends.
    ///
    /// # Errors
    /// As for [`SpacingBuilder::build`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// use loopwright_shaping::Spacing;
    /// let row = Spacing::decrease(4, Stitches::new(24)?)?;
    /// assert_eq!(row.result(), Stitches::new(20)?);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn decrease(events: u32, over: Stitches) -> Result<Self, Error> {
        Self::builder(over, Technique::TwoTogether, events, Convention::HalfGaps).build()
    }

    /// The stitches of the old row.
    #[must_use]
    pub const fn stitches(&self) -> Stitches {
        self.asked.stitches
    }

    /// How stitches are gained or lost.
    #[must_use]
    pub const fn technique(&self) -> Technique {
        self.asked.technique
    }

    /// The stitches of the new row.
    #[must_use]
    pub fn result(&self) -> Stitches {
        let technique = self.asked.technique;
        let (uses, makes) = (technique.uses().get(), technique.makes().get());
        let events = self.asked.events;
        Stitches::clamped(self.asked.stitches.get() - events * uses + events * makes)
    }

    /// Where the events fall, in order; allocates nothing.
    #[must_use]
    pub fn positions(&self) -> Positions<'_> {
        Positions::new(&self.places, self.asked.borders.0.get())
    }

    /// The groups of the row as runs, an event closing each; allocates nothing.
    ///
    /// Border, [`lead`](Self::lead), groups, [`tail`](Self::tail) and border are the
    /// whole row.
    #[must_use]
    pub fn groups(&self) -> SpacedGroups<'_> {
        SpacedGroups::new(self.positions(), self.asked.borders.0.get() + self.lead().get())
    }

    /// Plain stitches before the first group, after the border: what
    /// [`Convention::Leftover`] puts at the beginning.
    #[must_use]
    pub fn lead(&self) -> Stitches {
        Stitches::clamped(self.asked.lead(self.places.width))
    }

    /// Plain stitches at the beginning and at the end that no event may use.
    #[must_use]
    pub const fn borders(&self) -> (Stitches, Stitches) {
        self.asked.borders
    }

    /// Plain stitches after the last event, before the border.
    #[must_use]
    pub fn tail(&self) -> Stitches {
        let events = self.places.events;
        let last = if events == 0 { 0 } else { self.places.at(events) };
        Stitches::clamped(self.places.width.saturating_sub(last))
    }

    /// Whether the row between the borders reads the same from both ends.
    #[must_use]
    pub fn is_mirrored(&self) -> bool {
        self.places.is_mirrored()
    }

    /// What was asked for, ready to be changed and built again.
    pub fn asked(&self) -> SpacingBuilder {
        self.asked.clone()
    }
}

/// The written row; see [`Spacing::words`].
impl fmt::Display for Spacing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}
