//! Where along an edge a wanted count of stitches is picked up.

use crate::pickup::group::push;
#[cfg(feature = "serde")]
use crate::pickup::serial::RawPlacement;
use crate::{EdgeCount, Error, PickUpGroup, bounds, say};
use alloc::format;
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::{Exact, Stitches, choices};
use loopwright_shaping::even::EvenWalk;

choices! {
    /// What happens at the ends of an edge, and how uneven groups are ordered.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_seams::{PickUpSpacing, Placement};
    /// let words = |spacing| -> Result<String, loopwright_seams::Error> {
    ///     Ok(Placement::new(Rows::new(12)?, Stitches::new(9)?, spacing)?.to_string())
    /// };
    /// assert_eq!(words(PickUpSpacing::Round)?, "(pick up 3, miss 1) 3 times");
    /// assert_eq!(
    ///     words("half".parse()?)?,
    ///     "pick up 1, miss 1, then (pick up 3, miss 1) twice, then pick up 2",
    /// );
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum PickUpSpacing: "the spacing of a pick-up" {
        /// The nearest to the straight line after every place, so that both ends get half
        /// a group.
        Half = "half",
        /// Whole groups at both ends, groups of two sizes spread among each other.
        Full = "full",
        /// Whole groups at both ends, all the larger groups first; or all groups alike,
        /// each closed by its miss, where the numbers divide. The shortest to say.
        Blocks = "blocks",
        /// Every group closed by its miss, for an edge that runs round and meets itself.
        Round = "round",
    }
}

/// Stitches picked up along an edge, and in which of its places: rows of a selvedge,
/// or stitches of a bound-off edge.
///
/// All spacings keep groups as equal as they can be: sizes differ by at most one (but for
/// the half groups at the ends of [`PickUpSpacing::Half`]). In [`PickUpSpacing::Half`] the
/// stitches picked up after each place are within ½ of the straight line, and no placement
/// is nearer at any place, because each is rounded by itself; [`drift`](Self::drift) says
/// what the others cost. In [`PickUpSpacing::Full`] and [`PickUpSpacing::Round`] each group
/// ends at the place nearest to its share. Halves go down.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_seams::{PickUpSpacing, Placement};
/// let band = Placement::new(Rows::new(88)?, Stitches::new(71)?, PickUpSpacing::Blocks)?;
/// assert_eq!(band.to_string(), "(pick up 4, miss 1) 17 times, then pick up 3");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "RawPlacement", into = "RawPlacement"))]
pub struct Placement {
    places: EdgeCount,
    stitches: Stitches,
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
    /// `stitches` picked up out of `places`: so many rows of a side, or stitches of a
    /// bound-off edge.
    ///
    /// # Errors
    /// When `places` is not in `1..=bounds::PLACES`, or the stitches are none or more
    /// than twice the places.
    pub fn new(
        places: impl Into<EdgeCount>,
        stitches: Stitches,
        spacing: PickUpSpacing,
    ) -> Result<Self, Error> {
        let places = places.into();
        let count = places.get();
        if !(1..=bounds::PLACES).contains(&count) {
            let what = format!("the count of {} to pick up along", places.direction());
            return Err(Error::range(what, count, format!("in 1..={}", bounds::PLACES)));
        }
        if stitches.is_zero() || stitches.get() > 2 * count {
            let allowed = format!("in 1..={}, at most two for each of {count}", 2 * count);
            return Err(Error::range("the count of stitches to pick up", stitches, allowed));
        }
        Ok(Self { places, stitches, spacing })
    }

    /// The rows or stitches that the edge has.
    #[must_use]
    pub const fn places(self) -> EdgeCount {
        self.places
    }

    /// How many stitches are picked up.
    #[must_use]
    pub const fn stitches(self) -> Stitches {
        self.stitches
    }

    /// Places and stitches as plain numbers.
    const fn numbers(self) -> (u32, u32) {
        (self.places.get(), self.stitches.get())
    }

    /// How the ends are treated.
    #[must_use]
    pub const fn spacing(self) -> PickUpSpacing {
        self.spacing
    }

    const fn rare(self) -> Rare {
        let (places, stitches) = self.numbers();
        if stitches > places {
            Rare::Extra
        } else if places - stitches < stitches {
            Rare::Miss
        } else {
            Rare::Pick
        }
    }

    /// How many of the rare things there are, and how many of the common.
    const fn rare_and_common(self) -> (u32, u32) {
        let (places, stitches) = self.numbers();
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
        let (places, over) = (u64::from(self.places.get()), 2 * u64::from(rare.max(1)));
        let step = 2 * places;
        match self.rare() {
            Rare::Miss => Pace::line(places - 1, step.saturating_sub(over), over),
            Rare::Pick => Pace::line(places, step.saturating_sub(over), over),
            Rare::Extra => Pace::line(places + over, step, over),
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
        for Run { pick, miss, extra } in self.runs() {
            push(&mut groups, PickUpGroup::of(pick, miss, extra));
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
        let slope = Exact::new(self.stitches.into(), self.places.get().into())?;
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

impl fmt::Display for Placement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&say(&self.groups()))
    }
}

/// Groups that are given room before they are known to be needed: most edges have fewer.
const MOST_AT_ONCE: u32 = 63;

/// What is done between two of the rare things, and at the second.
#[derive(Clone, Copy, Debug)]
struct Run {
    pick: u32,
    miss: u32,
    extra: u32,
}

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
    type Item = Run;

    fn next(&mut self) -> Option<Run> {
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
                return Some(Run { pick, miss, extra });
            }
        }
        None
    }
}

/// Whole numbers that keep step with a line, told one after another without dividing.
#[derive(Clone, Debug)]
enum Pace {
    /// Each rounded from its own place on the line.
    Line(EvenWalk<u64>),
    /// Equal steps, the first `larger` of them larger by one.
    Blocks { size: u32, larger: u32, at: u32, late: bool },
}

impl Pace {
    /// `(start + nth * step) / over`, rounded down, from the zeroth on.
    fn line(start: u64, step: u64, over: u64) -> Self {
        let nowhere = Self::Blocks { size: 0, larger: 0, at: 0, late: false };
        EvenWalk::new(start, step, over).map_or(nowhere, Self::Line)
    }

    /// `nth * total / parts` to the nearest, halfway down; from nothing when `late`.
    fn even(total: u32, parts: u32, late: bool) -> Self {
        let (twice, parts) = (2 * u64::from(total), u64::from(parts.max(1)));
        Self::line(parts - 1 + if late { 0 } else { twice }, twice, 2 * parts)
    }

    /// What the first parts of `total` come to, the larger first; from nothing when
    /// `late`.
    fn blocks(total: u32, parts: u32, late: bool) -> Self {
        let parts = parts.max(1);
        Self::Blocks { size: total / parts, larger: total % parts, at: 0, late }
    }

    fn next(&mut self) -> u32 {
        match self {
            // Between zero and the count of places.
            Self::Line(walk) => walk.next().and_then(|at| u32::try_from(at).ok()).unwrap_or(0),
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
