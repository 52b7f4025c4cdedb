//! Where along an edge a wanted count of stitches is picked up.

use crate::pickup::group::push;
use crate::{Error, PickUpGroup, bounds};
use alloc::format;
use alloc::vec::Vec;
use loopwright_gauge::{Exact, Stitches};

/// What happens at the ends of an edge, and how uneven groups are ordered.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum PickUpSpacing {
    /// The nearest to the straight line after every place, so that both ends get half
    /// a group.
    Half,
    /// Whole groups at both ends, groups of two sizes spread among each other.
    Full,
    /// Whole groups at both ends, all the larger groups first; or all groups alike, each
    /// closed by its miss, where the numbers divide. The shortest to say.
    Blocks,
    /// Every group closed by its miss, for an edge that runs round and meets itself.
    Round,
}

/// Stitches picked up along an edge, and in which of its places: rows of a selvedge,
/// or stitches of a bound-off edge.
///
/// All spacings keep groups as equal as they can be: sizes differ by at most one
/// (but for the half groups at the ends of [`PickUpSpacing::Half`]). In [`PickUpSpacing::Half`]
/// the stitches picked up after each place are within ½ of the straight line, and in
/// [`PickUpSpacing::Full`] and [`PickUpSpacing::Round`] so are the groups' ends; no placement can
/// do better at any place, because each is rounded by itself. Halves go down.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::{Placement, PickUpSpacing, say};
/// let band = Placement::new(88, Stitches::new(71)?, PickUpSpacing::Blocks)?;
/// assert_eq!(say(&band.groups()), "(pick up 4, miss 1) 17 times, then pick up 3");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub struct Placement {
    places: u32,
    stitches: u32,
    spacing: PickUpSpacing,
}

/// The rarer thing, which separates runs of the commoner.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
enum Rare {
    /// Most places are picked up: misses separate runs of picks.
    Miss,
    /// Most places are missed: picks separate runs of misses.
    Pick,
    /// More stitches than places: stitches between places separate runs of picks.
    Extra,
}

impl Placement {
    /// `stitches` picked up out of `places`.
    ///
    /// # Errors
    /// When `places` is not in `1..=bounds::PLACES`, or the stitches are none or more
    /// than twice the places.
    pub fn new(places: u32, stitches: Stitches, spacing: PickUpSpacing) -> Result<Self, Error> {
        if !(1..=bounds::PLACES).contains(&places) {
            let allowed = format!("in 1..={}", bounds::PLACES);
            return Err(Error::range("the count of rows to pick up along", places, allowed));
        }
        let stitches = stitches.get();
        if stitches == 0 || stitches > 2 * places {
            let allowed = format!("in 1..={}, at most two for each of {places}", 2 * places);
            return Err(Error::range("the count of stitches to pick up", stitches, allowed));
        }
        Ok(Self { places, stitches, spacing })
    }

    /// How many places the edge has.
    #[must_use]
    pub const fn places(self) -> u32 {
        self.places
    }

    /// How many stitches are picked up.
    #[must_use]
    pub const fn stitches(self) -> u32 {
        self.stitches
    }

    /// How the ends are treated.
    #[must_use]
    pub const fn spacing(self) -> PickUpSpacing {
        self.spacing
    }

    const fn rare(self) -> Rare {
        if self.stitches > self.places {
            Rare::Extra
        } else if self.places - self.stitches < self.stitches {
            Rare::Miss
        } else {
            Rare::Pick
        }
    }

    /// How many of the rare things there are, and how many of the common.
    const fn rare_and_common(self) -> (u32, u32) {
        let (places, stitches) = (self.places, self.stitches);
        match self.rare() {
            Rare::Miss => (places - stitches, stitches),
            Rare::Pick => (stitches, places - stitches),
            Rare::Extra => (stitches - places, places),
        }
    }

    /// How many of the common things come before each of the rare ones.
    fn pace(self) -> Pace {
        let (rare, common) = self.rare_and_common();
        // A picked-up edge that starts with a miss would start with a hole.
        let picks_first = self.rare() == Rare::Pick;
        match self.spacing {
            PickUpSpacing::Half => self.pace_half(rare),
            // Twice as many stitches as places leave no whole group at the end.
            PickUpSpacing::Full if rare == common && !picks_first => {
                Pace::even(common, rare, false)
            }
            PickUpSpacing::Full => Pace::even(common, rare + 1, false),
            PickUpSpacing::Round => Pace::even(common, rare, picks_first),
            PickUpSpacing::Blocks if picks_first => Pace::blocks(common, rare, true),
            PickUpSpacing::Blocks if common % rare.max(1) == 0 => Pace::even(common, rare, false),
            PickUpSpacing::Blocks => Pace::blocks(common, rare + 1, false),
        }
    }

    /// The rare thing falls where its rounded straight line steps up: at place
    /// `(nth - 1/2) * places / rare`, made whole so that halves go down.
    fn pace_half(self, rare: u32) -> Pace {
        let (places, over) = (i64::from(self.places), 2 * i64::from(rare.max(1)));
        match self.rare() {
            Rare::Miss => Pace::line(2 * places - over, over - 1 - places, over),
            Rare::Pick => Pace::line(2 * places - over, over - places, over),
            Rare::Extra => Pace::line(2 * places, over - places, over),
        }
    }

    /// The runs one by one, not yet told together.
    fn runs(self) -> Runs {
        let (rare, common) = self.rare_and_common();
        Runs { pace: self.pace(), kind: self.rare(), rare, common, nth: 0, from: 0 }
    }

    /// The groups in knitting order, equal neighbours told together.
    #[must_use]
    pub fn groups(self) -> Vec<PickUpGroup> {
        let (rare, _) = self.rare_and_common();
        let mut groups = Vec::with_capacity(rare.min(MOST_AT_ONCE) as usize + 1);
        for run in self.runs() {
            push(&mut groups, run);
        }
        groups
    }

    /// How many stitches are picked up in each place, in order: 0, 1 or 2.
    pub fn each(self) -> impl Iterator<Item = u8> {
        self.runs().flat_map(|run| {
            let last = if run.extra > 0 { 2 } else { 1 };
            let plain = run.pick.saturating_sub(1) as usize;
            core::iter::repeat_n(1, plain)
                .chain((run.pick > 0).then_some(last))
                .chain(core::iter::repeat_n(0, run.miss as usize))
        })
    }

    /// The furthest that the stitches picked up ever are from the straight line, in
    /// stitches: what the spacing costs.
    ///
    /// # Errors
    /// When the distance cannot be held exactly.
    pub fn drift(self) -> Result<Exact, Error> {
        let slope = Exact::new(self.stitches.into(), self.places.into())?;
        let (mut place, mut picked, mut most) = (0_u32, 0_u32, Exact::ZERO);
        let mut look = |place: u32, picked: u32| -> Result<(), Error> {
            let line = slope.checked_mul(place.into())?;
            most = most.max(line.checked_sub(picked.into())?.abs());
            Ok(())
        };
        for run in self.runs() {
            // Within a run the distance grows one way, so its corners are enough.
            let before_extra = run.pick.saturating_sub(run.extra);
            look(place + before_extra, picked + before_extra)?;
            (place, picked) = (place + run.pick, picked + run.pick + run.extra);
            look(place, picked)?;
            place += run.miss;
            look(place, picked)?;
        }
        Ok(most)
    }
}

/// Groups that are given room before they are known to be needed: most edges have fewer.
const MOST_AT_ONCE: u32 = 63;

/// The stretches between the rare things, one by one.
#[derive(Clone, Debug)]
struct Runs {
    pace: Pace,
    kind: Rare,
    rare: u32,
    common: u32,
    nth: u32,
    from: u32,
}

impl Iterator for Runs {
    type Item = PickUpGroup;

    fn next(&mut self) -> Option<PickUpGroup> {
        while self.nth <= self.rare {
            let (first, last) = (self.nth == 0, self.nth == self.rare);
            let to = if last { self.common } else { self.pace.next() };
            let run = to - self.from;
            (self.from, self.nth) = (to, self.nth + 1);
            let (pick, miss, extra) = match self.kind {
                Rare::Miss => (run, u32::from(!last), 0),
                Rare::Extra => (run, 0, u32::from(!last)),
                // A pick owns the misses that follow it.
                Rare::Pick => (u32::from(!first), run, 0),
            };
            if pick + miss > 0 {
                return Some(PickUpGroup { pick, miss, extra, times: 1 });
            }
        }
        None
    }
}

/// Whole numbers that keep step with a line, told one after another without dividing.
#[derive(Clone, Copy, Debug)]
enum Pace {
    /// `(nth * step + start) / over`, rounded down, for `nth` from one.
    Line { whole: i64, rest: i64, over: i64, at: i64, left: i64 },
    /// Equal steps, the first `larger` of them larger by one.
    Blocks { size: u32, larger: u32, at: u32, late: bool },
}

impl Pace {
    fn line(step: i64, start: i64, over: i64) -> Self {
        Self::Line {
            whole: step.div_euclid(over),
            rest: step.rem_euclid(over),
            over,
            at: start.div_euclid(over),
            left: start.rem_euclid(over),
        }
    }

    /// `nth * total / parts` to the nearest, halfway down; from nothing when `late`.
    fn even(total: u32, parts: u32, late: bool) -> Self {
        let (total, parts) = (2 * i64::from(total), i64::from(parts.max(1)));
        Self::line(total, parts - 1 - if late { total } else { 0 }, 2 * parts)
    }

    /// What the first parts of `total` come to, the larger first; from nothing when
    /// `late`.
    fn blocks(total: u32, parts: u32, late: bool) -> Self {
        let parts = parts.max(1);
        Self::Blocks { size: total / parts, larger: total % parts, at: 0, late }
    }

    fn next(&mut self) -> u32 {
        match self {
            Self::Line { whole, rest, over, at, left } => {
                (*at, *left) = (*at + *whole, *left + *rest);
                if left >= over {
                    (*at, *left) = (*at + 1, *left - *over);
                }
                // Between zero and the count of places.
                u32::try_from(*at).unwrap_or(0)
            }
            Self::Blocks { late, .. } if *late => {
                *late = false;
                0
            }
            Self::Blocks { size, larger, at, .. } => {
                *at += *size + u32::from(*larger > 0);
                *larger = larger.saturating_sub(1);
                *at
            }
        }
    }
}
