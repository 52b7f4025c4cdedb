//! What the fabric allows from one step to the next.

use super::sample::Trend;
use crate::bounds::SUBSTITCH;

/// Rows `first`, `first + every`, `first + 2 * every`, ...
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub(super) struct Legal {
    pub(super) first: u32,
    pub(super) every: u32,
}

impl Legal {
    pub(super) const fn allows(self, row: u32) -> bool {
        row >= self.first && (row - self.first).is_multiple_of(self.every)
    }
}

#[derive(Clone, Copy, Debug)]
pub(super) struct Rules {
    /// The most stitches in one step.
    pub(super) most: u32,
    /// Rows on which one stitch may be shaped.
    pub(super) single: Legal,
    /// Rows on which several stitches may be shaped at once.
    pub(super) several: Legal,
}

/// How quick a step is: several stitches are quicker than one, more are quicker than
/// fewer, and one stitch is quicker the fewer rows lie before it.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub(super) struct Pace(i32);

impl Pace {
    /// Of the start, before any step.
    pub(super) const NONE: Self = Self(i32::MIN);

    /// Of a step of `stitches` that comes `gap` rows after the one before; both are
    /// at most [`CURVE`](crate::bounds::CURVE).
    pub(super) fn of(stitches: u32, gap: u32) -> Self {
        let signed = |n: u32| i32::try_from(n).unwrap_or(i32::MAX - 1);
        Self(if stitches > 1 { signed(stitches) } else { -signed(gap) })
    }

    /// Whether whatever may follow `other` in a stretch may follow this step too.
    pub(super) const fn leaves_open(self, trend: Trend, other: Self) -> bool {
        let (single, other_single) = (self.gap() > 0, other.gap() > 0);
        match trend {
            // After a two every gap may come; after a single none that is shorter.
            Trend::Slowing => {
                other_single && (self.0 == 2 || (single && self.gap() <= other.gap()))
            }
            Trend::Quickening => single && other_single && self.gap() >= other.gap(),
            Trend::Straight { .. } => false,
        }
    }

    /// The stitches of a step.
    const fn stitches(self) -> u32 {
        if self.0 > 0 { self.0.unsigned_abs() } else { 1 }
    }

    /// The gap before a step of one stitch; 0 for one of several.
    const fn gap(self) -> u32 {
        if self.0 < 0 && self.0 > i32::MIN { self.0.unsigned_abs() } else { 0 }
    }
}

impl Rules {
    /// Whether `row` may take a step of `stitches`.
    pub(super) const fn legal(self, row: u32, stitches: u32) -> bool {
        if stitches > 1 { self.several.allows(row) } else { self.single.allows(row) }
    }

    /// Whether a step may follow another in the same stretch: never against the
    /// trend of the outline.
    ///
    /// Several stitches at a time come on every legal row, without a break: slower
    /// than that is told in single stitches. And sizes never halve or double more
    /// than once from one step to the next, so a two lies between three and one.
    pub(super) fn follows(self, trend: Trend, before: Pace, stitches: u32, gap: u32) -> bool {
        let pace = Pace::of(stitches, gap);
        let close = stitches == 1 || gap <= self.several.every.max(before.gap());
        match trend {
            Trend::Slowing => close && pace <= before && 2 * stitches >= before.stitches(),
            Trend::Quickening => close && pace >= before && stitches <= 2 * before.stitches(),
            Trend::Straight { .. } => close && self.near(trend, stitches, gap),
        }
    }

    /// The fewest and the most stitches of a step that [`follows`](Self::follows) could
    /// allow, so that no others need be tried.
    pub(super) fn sizes(self, trend: Trend, before: Pace, gap: u32) -> (u32, u32) {
        if gap > self.several.every.max(before.gap()) {
            return (1, 1);
        }
        match trend {
            Trend::Slowing if before.gap() > 0 => (1, 1),
            Trend::Slowing => (before.stitches().div_ceil(2), before.stitches()),
            Trend::Quickening => (1, before.stitches().saturating_mul(2)),
            Trend::Straight { .. } => (1, u32::MAX),
        }
    }

    /// Whether the first step of a stretch may be of `stitches` on `row`; `start` when
    /// no step comes before it but the opening.
    pub(super) fn opens(self, trend: Trend, start: bool, row: u32, stitches: u32) -> bool {
        match trend {
            Trend::Straight { across, up } => stitches <= self.most_along(across, up).max(1),
            // What slows down from the start begins at once, unless it begins slowly.
            Trend::Slowing if start => stitches == 1 || row == self.several.first,
            _ => true,
        }
    }

    /// Whether a step has one of the two rates around a straight line.
    fn near(self, trend: Trend, stitches: u32, gap: u32) -> bool {
        let Trend::Straight { across, up } = trend else { return true };
        let (single, several) = (i64::from(self.single.every), i64::from(self.several.every));
        if across * single <= up {
            // Rows to a stitch, down and up to whole legal gaps.
            let gaps = up / (across.max(1) * single);
            let low = gaps * single;
            let high = if up == low * across { low } else { low + single };
            return stitches == 1 && (low..=high).contains(&gap.into());
        }
        let low = across * several / up;
        let whole = across * several == low * up;
        let high = if whole { low } else { low + 1 };
        (low..=high).contains(&stitches.into()) || (low <= 1 && stitches == 1)
    }

    /// The larger of the two step sizes around a straight line.
    fn most_along(self, across: i64, up: i64) -> u32 {
        if across * i64::from(self.single.every) <= up {
            return 1;
        }
        let most = (across * i64::from(self.several.every) + up - 1) / up.max(1);
        u32::try_from(most).unwrap_or(u32::MAX)
    }
}

const _: () = assert!(SUBSTITCH as i64 * 5_000 * 5_000 < i64::MAX, "products of a slope fit");
