use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::{Stitches, english};
use loopwright_shaping::{Phrase, shortest_of_runs};

/// A stretch of picking up: one stitch in each of `pick` places, then `extra` stitches
/// more in the last of them or `miss` places missed, and all of that `times` over.
///
/// Places are row ends, or stitches of a bound-off edge.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::PickUpGroup;
/// let group = PickUpGroup::pick(Stitches::literal(3)).miss(1).times(28);
/// assert_eq!(group.to_string(), "(pick up 3, miss 1) 28 times");
/// assert_eq!((group.stitches(), group.places()), (84, 112));
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct PickUpGroup {
    /// Places picked up, one stitch in each.
    pub pick: Stitches,
    /// Places missed after them.
    #[cfg_attr(feature = "serde", serde(default))]
    pub miss: u32,
    /// Stitches more, picked up in the last of those places.
    #[cfg_attr(feature = "serde", serde(default))]
    pub extra: Stitches,
    /// How often in a row.
    #[cfg_attr(feature = "serde", serde(default = "once"))]
    pub times: u32,
}

#[cfg(feature = "serde")]
const fn once() -> u32 {
    1
}

impl PickUpGroup {
    /// One stitch in each of so many places, once.
    #[must_use]
    pub const fn pick(pick: Stitches) -> Self {
        Self { pick, miss: 0, extra: Stitches::ZERO, times: 1 }
    }

    /// With so many places missed after them.
    #[must_use]
    pub const fn miss(self, miss: u32) -> Self {
        Self { miss, ..self }
    }

    /// With so many stitches more in the last place.
    #[must_use]
    pub const fn extra(self, extra: Stitches) -> Self {
        Self { extra, ..self }
    }

    /// All of it so many times.
    #[must_use]
    pub const fn times(self, times: u32) -> Self {
        Self { times, ..self }
    }

    /// From plain numbers, each within the bounds of a count.
    pub(crate) fn of(pick: u32, miss: u32, extra: u32) -> Self {
        let count = |n| Stitches::new(n).unwrap_or(Stitches::MAX);
        Self { pick: count(pick), miss, extra: count(extra), times: 1 }
    }

    fn is_like(self, other: Self) -> bool {
        Self { times: other.times, ..self } == other
    }

    /// How many stitches the group picks up in all; `u64::MAX`, if they are more.
    #[must_use]
    pub const fn stitches(self) -> u64 {
        (self.pick.get() as u64 + self.extra.get() as u64).saturating_mul(self.times as u64)
    }

    /// How many places the group uses in all; `u64::MAX`, if they are more.
    #[must_use]
    pub const fn places(self) -> u64 {
        (self.pick.get() as u64 + self.miss as u64).saturating_mul(self.times as u64)
    }
}

/// "pick up 4, miss 1"; where a place gets more than one stitch, "pick up 3, 1 more
/// in the same place".
impl fmt::Display for PickUpGroup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut parts: Vec<String> = Vec::new();
        match (self.pick.get(), self.extra.get()) {
            (0, 0) => {}
            (pick, 0) => parts.push(format!("pick up {pick}")),
            (0 | 1, extra) => {
                let all = self.pick.get() + extra;
                parts.push(format!("pick up {all} in the same place"));
            }
            (pick, extra) => {
                parts.push(format!("pick up {pick}, {extra} more in the same place"));
            }
        }
        if self.miss > 0 {
            parts.push(format!("miss {}", self.miss));
        }
        let once = parts.join(", ");
        match self.times {
            1 => f.write_str(&once),
            times => write!(f, "({once}) {}", english::times(times)),
        }
    }
}

/// Groups in words, the shortest way there is: "(pick up 4, miss 1) 17 times, then pick up
/// 3". A sequence of groups that comes again is told once, in square brackets.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::{PickUpGroup, say};
/// let [two, three] = [2, 3].map(|n| PickUpGroup::pick(Stitches::literal(n)).miss(1));
/// assert_eq!(say(&[two, three, two, three]), "[pick up 2, miss 1, pick up 3, miss 1] twice");
/// ```
#[must_use]
pub fn say(groups: &[PickUpGroup]) -> String {
    let mut runs: Vec<(PickUpGroup, u32)> = Vec::with_capacity(groups.len());
    for group in groups {
        let one = group.times(1);
        match runs.last_mut() {
            Some((last, times)) if *last == one => *times = times.saturating_add(group.times),
            _ => runs.push((one, group.times)),
        }
    }
    let told = |group: &PickUpGroup, times| group.times(times).to_string();
    tell(&shortest_of_runs(&runs), &told, ", then ")
}

/// A phrase in words: its items as `one` tells them, with `between` between them.
pub(crate) fn tell<T>(
    phrases: &[Phrase<T>],
    one: &dyn Fn(&T, u32) -> String,
    between: &str,
) -> String {
    let said = phrases.iter().map(|phrase| match phrase {
        Phrase::Item { item, times } => one(item, *times),
        Phrase::Repeat { body, times } => {
            format!("[{}] {}", tell(body, one, ", "), english::times(*times))
        }
    });
    said.collect::<Vec<_>>().join(between)
}

/// Tells places together as they come: a group is the picks before a miss or before a
/// place with more than one stitch.
#[derive(Debug, Default)]
pub(crate) struct Grouping {
    groups: Vec<PickUpGroup>,
    pick: u32,
    miss: u32,
}

impl Grouping {
    /// The next place, with so many stitches picked up in it.
    pub(crate) fn place(&mut self, stitches: u32) {
        if stitches == 0 {
            self.miss += 1;
            return;
        }
        if self.miss > 0 {
            self.close(0);
        }
        self.pick += 1;
        if stitches > 1 {
            self.close(stitches - 1);
        }
    }

    fn close(&mut self, extra: u32) {
        let group = PickUpGroup::of(self.pick, self.miss, extra);
        (self.pick, self.miss) = (0, 0);
        push(&mut self.groups, group);
    }

    pub(crate) fn finish(mut self) -> Vec<PickUpGroup> {
        if self.pick + self.miss > 0 {
            self.close(0);
        }
        self.groups
    }
}

/// Adds a group, told together with the last when it is like it.
pub(crate) fn push(groups: &mut Vec<PickUpGroup>, group: PickUpGroup) {
    match groups.last_mut() {
        Some(last) if last.is_like(group) => last.times = last.times.saturating_add(group.times),
        _ => groups.push(group),
    }
}
