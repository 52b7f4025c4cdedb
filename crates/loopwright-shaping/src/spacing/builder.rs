use super::avoid::{Allowed, moved};
use super::place::{Line, Places, Rule};
use super::{Convention, Spacing, Surplus, Technique};
use crate::Larger;
use crate::bounds::range;
use crate::error::{Error, Remedy};
use crate::split::{Mix, Split};
use crate::words::{are, stitches};
use alloc::format;
use alloc::vec::Vec;
use loopwright_gauge::{Round, Stitches};

/// What a [`Spacing`] is asked to be.
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[must_use]
pub struct SpacingBuilder {
    pub(super) stitches: Stitches,
    pub(super) technique: Technique,
    pub(super) events: u32,
    pub(super) convention: Convention,
    #[cfg_attr(feature = "serde", serde(default = "ceil"))]
    round: Round,
    #[cfg_attr(feature = "serde", serde(default = "last"))]
    larger: Larger,
    #[cfg_attr(feature = "serde", serde(default))]
    surplus: Surplus,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(super) borders: (Stitches, Stitches),
    #[cfg_attr(feature = "serde", serde(default))]
    mirrored: bool,
    #[cfg_attr(feature = "serde", serde(default))]
    reversed: bool,
    #[cfg_attr(feature = "serde", serde(default))]
    avoid: Vec<(Stitches, Stitches)>,
    #[cfg_attr(feature = "serde", serde(default, rename = "between_repeats"))]
    grid: Option<(Stitches, Stitches)>,
}

#[cfg(feature = "serde")]
const fn ceil() -> Round {
    Round::Ceil
}

#[cfg(feature = "serde")]
const fn last() -> Larger {
    Larger::Last
}

impl SpacingBuilder {
    pub(super) const fn new(
        stitches: Stitches,
        technique: Technique,
        events: u32,
        convention: Convention,
    ) -> Self {
        Self {
            stitches,
            technique,
            events,
            convention,
            round: Round::Ceil,
            larger: Larger::Last,
            surplus: Surplus::End,
            borders: (Stitches::ZERO, Stitches::ZERO),
            mirrored: false,
            reversed: false,
            avoid: Vec::new(),
            grid: None,
        }
    }

    /// How a place between two stitches becomes whole; [`Round::Ceil`], if nothing is
    /// said: an event happens at the first stitch where its line has been reached.
    pub const fn round(mut self, round: Round) -> Self {
        self.round = round;
        self
    }

    /// Which groups of [`Convention::Blocks`] come first; the smaller, if nothing is
    /// said.
    pub const fn larger(mut self, larger: Larger) -> Self {
        self.larger = larger;
        self
    }

    /// Where the stitches left over by [`Convention::Leftover`] go.
    pub const fn surplus(mut self, surplus: Surplus) -> Self {
        self.surplus = surplus;
        self
    }

    /// Keeps so many stitches at each end plain.
    pub const fn border(self, stitches: Stitches) -> Self {
        self.borders(stitches, stitches)
    }

    /// Keeps so many stitches at the beginning and so many at the end plain.
    pub const fn borders(mut self, start: Stitches, end: Stitches) -> Self {
        self.borders = (start, end);
        self
    }

    /// Demands a row that reads the same from both ends, the borders left out.
    ///
    /// With gaps at both ends, or events on both ends, the middle of every event is
    /// put on its line and half stitches are rounded away from the middle of the row;
    /// with the other conventions the row is only checked.
    pub const fn mirrored(mut self) -> Self {
        self.mirrored = true;
        self
    }

    /// Turns the row round: what was at the end is at the beginning.
    pub const fn reversed(mut self) -> Self {
        self.reversed = !self.reversed;
        self
    }

    /// Keeps every event off the stitches `from` to `to`, counted from 1 over the whole
    /// row: a cable, a marked stitch.
    ///
    /// Events that would fall there are moved: the largest move is the smallest there
    /// is, then the sum of moves, then events lie earlier, from the last one back.
    pub fn avoid(mut self, from: Stitches, to: Stitches) -> Self {
        self.avoid.push((from, to));
        self
    }

    /// Lets events happen only after `offset`, `offset + multiple`, ... stitches of the
    /// whole row, where pattern repeats meet; moves are as for [`avoid`](Self::avoid).
    ///
    /// An increase between two stitches then breaks no repeat. An event that uses
    /// stitches uses the last ones of a repeat, which is so many stitches shorter.
    pub const fn between_repeats(mut self, multiple: Stitches, offset: Stitches) -> Self {
        self.grid = Some((multiple, offset));
        self
    }

    /// Places the events.
    ///
    /// # Errors
    /// When a number is out of range, the borders leave too little room, the row cannot
    /// be mirrored, or the avoided stitches leave no way.
    pub fn build(self) -> Result<Spacing, Error> {
        range::count("the count of events", self.events, 0)?;
        let width = self.width()?;
        let limits = self.limits(width);
        let mut places = Places {
            rule: Rule::Listed(Vec::new()),
            events: self.events,
            uses: self.technique.uses().get(),
            limits: if self.reversed { self.turned(width, limits) } else { limits },
            room: self.technique.room(),
            width,
            reversed: self.reversed,
        };
        if self.events > 0 {
            self.check_room(width)?;
            if self.is_lopsided(width) {
                return Err(self.cannot_mirror(width));
            }
            places.rule = self.rule(width, places.limits)?;
            if !self.avoid.is_empty() || self.grid.is_some() {
                places = self.move_away(&places)?;
            }
            if self.mirrored && !places.is_mirrored() {
                return Err(self.cannot_mirror(width));
            }
        }
        Ok(Spacing { asked: self, places })
    }

    /// Stitches between the borders.
    fn width(&self) -> Result<u32, Error> {
        let borders = u64::from(self.borders.0.get()) + u64::from(self.borders.1.get());
        let stitches = self.stitches.get();
        u32::try_from(borders).ok().and_then(|borders| stitches.checked_sub(borders)).ok_or_else(
            || {
                let allowed = format!("at most {stitches}, the stitches there are");
                Error::range("the sum of both borders", &borders, allowed)
            },
        )
    }

    /// Whether a mirrored row is asked for that has no middle for its middle event.
    fn is_lopsided(&self, width: u32) -> bool {
        let odd_events = self.events % 2 == 1;
        self.mirrored && odd_events && (width + self.technique.uses().get()) % 2 == 1
    }

    /// The first and the last place an event may have, seen from the border.
    ///
    /// A flat row has nothing beyond its edges, so an increase between two stitches
    /// needs one at either side of it, from the border or from the row.
    fn limits(&self, width: u32) -> (u32, u32) {
        use Convention::{BlocksHalved, BothEnds, FullGaps, HalfGaps};
        let uses = self.technique.uses().get();
        let flat = matches!(self.convention, FullGaps | HalfGaps | BothEnds | BlocksHalved);
        if uses > 0 || !flat {
            return (uses, width);
        }
        let edge = |border: Stitches| u32::from(border.is_zero());
        let (mut start, mut end) = (edge(self.borders.0), edge(self.borders.1));
        if self.mirrored {
            (start, end) = (start.max(end), start.max(end));
        }
        (start, width.saturating_sub(end))
    }

    /// Limits seen from the other end of the row.
    const fn turned(&self, width: u32, limits: (u32, u32)) -> (u32, u32) {
        let sum = width + self.technique.uses().get();
        (sum.saturating_sub(limits.1), sum.saturating_sub(limits.0))
    }

    fn check_room(&self, width: u32) -> Result<(), Error> {
        let (n, room) = (u64::from(self.events), u64::from(self.technique.room()));
        let (least, most) = self.limits(width);
        // Stitches that lie beyond the first and the last event.
        let beyond = u64::from(least) + u64::from(width.saturating_sub(most));
        let needed = match self.convention {
            Convention::FullGaps => room * (n + 1),
            Convention::BothEnds => beyond + room * (n - 1),
            _ => (room * n).max(beyond + room * (n - 1)),
        };
        if needed <= width.into() {
            return Ok(());
        }
        let told = self.technique.told(self.events);
        let (verb, are) = (if n == 1 { "needs" } else { "need" }, are(width));
        let bare = self.borders == (Stitches::ZERO, Stitches::ZERO);
        let between = if bare { "" } else { " between the borders" };
        let st = stitches(u32::try_from(needed).unwrap_or(u32::MAX));
        let why = format!("{told} {verb} {needed} {st}, but there {are} only {width}{between}");
        Err(Error::impossible(why, Remedy::NONE))
    }

    fn rule(&self, width: u32, limits: (u32, u32)) -> Result<Rule, Error> {
        let (s, n) = (i64::from(width), i64::from(self.events));
        let half_down = |line: Line| line.rounded(Round::HalfDown).map(Rule::Mirrored);
        let line = |line: Line| line.rounded(self.round).map(Rule::Line);
        let placed = match self.convention {
            Convention::Leftover => {
                Some(Rule::Line(Line { a: s / n, c: self.left_before(s % n), d: 1 }))
            }
            Convention::HalfNumbers => Some(Rule::Line(Line { a: 2 * s / n, c: 0, d: 2 })),
            Convention::Blocks => Some(Rule::Blocks { split: self.blocks(s, n), shift: 0 }),
            Convention::BlocksHalved => {
                let split = self.blocks(s, n);
                Some(Rule::Blocks { split, shift: Self::halved(split, width, limits)? })
            }
            Convention::Round => line(Line { a: s, c: 0, d: n }),
            _ if self.mirrored => half_down(self.flat(s, n, limits)),
            _ => line(self.flat(s, n, limits)),
        };
        placed.ok_or_else(|| self.cannot_round())
    }

    /// The places of a flat row as a line, not yet rounded; when the row is to be
    /// mirrored, the middle of every event is on its place, not its end.
    fn flat(&self, s: i64, n: i64, limits: (u32, u32)) -> Line {
        let uses = i64::from(self.technique.uses().get());
        let middle = if self.mirrored { uses } else { 0 };
        match self.convention {
            Convention::BothEnds => {
                let (first, last) = (i64::from(limits.0), i64::from(limits.1));
                let (a, d) = (last - first, (n - 1).max(1));
                Line { a, c: first * d - a, d }
            }
            Convention::FullGaps => Line { a: 2 * s, c: middle * (n + 1), d: 2 * (n + 1) },
            _ => Line { a: 2 * s, c: middle * n - s, d: 2 * n },
        }
    }

    /// Half of the first group, which goes to the other end: less, where the stitches
    /// of its event leave less to take.
    fn halved(split: Split, width: u32, limits: (u32, u32)) -> Result<u64, Error> {
        let first = split.at(1);
        let shift = (first / 2).min(first.saturating_sub(limits.0.into()));
        if shift >= u64::from(width - limits.1) {
            return Ok(shift);
        }
        let why = "a first group of 1 stitch cannot be halved: choose half gaps, or two blocks";
        Err(Error::impossible(why, Remedy::NONE))
    }

    fn blocks(&self, s: i64, n: i64) -> Split {
        let (total, parts) = (s.unsigned_abs(), n.unsigned_abs());
        let mix = match self.larger {
            Larger::First => Mix::LargeFirst,
            Larger::Last => Mix::SmallFirst,
            Larger::Spread => Mix::Line { phase: parts },
        };
        Split { total, parts, mix }
    }

    /// Plain stitches before the first group, where they belong to none.
    pub(super) fn lead(&self, width: u32) -> u32 {
        let moved = self.reversed || !self.avoid.is_empty() || self.grid.is_some();
        if self.convention != Convention::Leftover || moved || self.events == 0 {
            return 0;
        }
        u32::try_from(self.left_before(i64::from(width % self.events))).unwrap_or(0)
    }

    fn left_before(&self, left: i64) -> i64 {
        match self.surplus {
            Surplus::Start => left,
            Surplus::End => 0,
            Surplus::Split => left / 2,
        }
    }

    fn move_away(&self, places: &Places) -> Result<Places, Error> {
        let allowed = Allowed::new(
            &self.avoid,
            self.grid,
            self.borders.0,
            self.limits(places.width),
            self.technique.uses().get(),
        )?;
        let wanted: Vec<u32> = (1..=places.events).map(|k| places.at(k)).collect();
        let found = moved(&wanted, &allowed, self.technique.room())?.ok_or_else(|| {
            let what = match self.avoid.as_slice() {
                [] => "the repeats to keep whole",
                _ => "the stitches to avoid",
            };
            let why = format!("{what} leave no room for {}", self.technique.told(self.events));
            Error::impossible(why, Remedy::NONE)
        })?;
        Ok(Places { rule: Rule::Listed(found), reversed: false, ..*places })
    }

    fn cannot_mirror(&self, width: u32) -> Error {
        let why = format!(
            "{} on {width} {} cannot be mirrored: {}",
            self.technique.told(self.events),
            stitches(width),
            match self.convention {
                Convention::FullGaps | Convention::HalfGaps | Convention::BothEnds =>
                    "the middle event cannot lie in the middle of the row",
                _ => "this convention does not treat both ends alike here",
            }
        );
        Error::impossible(why, Remedy::NONE)
    }

    fn cannot_round(&self) -> Error {
        match self.round {
            Round::Exact => Error::impossible(
                "the events do not all fall between two stitches, and exact rounding was asked for",
                Remedy::NONE,
            ),
            _ => Error::range(
                "the rounding of a spacing",
                &self.round,
                "down, up, nearest, half down or exact",
            ),
        }
    }
}

impl TryFrom<SpacingBuilder> for Spacing {
    type Error = Error;

    fn try_from(asked: SpacingBuilder) -> Result<Self, Error> {
        asked.build()
    }
}

impl From<Spacing> for SpacingBuilder {
    fn from(spacing: Spacing) -> Self {
        spacing.asked
    }
}
