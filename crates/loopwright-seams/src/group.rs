use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

/// A stretch of picking up: one stitch in each of `pick` places, then `miss` places
/// missed or `extra` stitches more in the last, and all of that `times` over.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct Group {
    /// Places picked up, one stitch in each.
    pub pick: u32,
    /// Places missed after them.
    pub miss: u32,
    /// Stitches more, picked up beside the last of those places.
    pub extra: u32,
    /// How often in a row.
    pub times: u32,
}

impl Group {
    fn is_like(self, other: Self) -> bool {
        Self { times: other.times, ..self } == other
    }

    /// How many stitches the group picks up in all.
    #[must_use]
    pub const fn stitches(self) -> u64 {
        (self.pick as u64 + self.extra as u64) * self.times as u64
    }

    /// How many places the group uses in all.
    #[must_use]
    pub const fn places(self) -> u64 {
        (self.pick as u64 + self.miss as u64) * self.times as u64
    }
}

impl fmt::Display for Group {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut parts: Vec<String> = Vec::new();
        if self.pick > 0 {
            parts.push(format!("pick up {}", self.pick));
        }
        if self.extra > 0 {
            parts.push(format!("{} more beside the last", self.extra));
        }
        if self.miss > 0 {
            parts.push(format!("miss {}", self.miss));
        }
        let once = parts.join(", ");
        match self.times {
            1 => f.write_str(&once),
            times => write!(f, "({once}) {times} times"),
        }
    }
}

/// Groups in words: "(pick up 4, miss 1) 17 times, then pick up 3".
///
/// A sequence of groups that comes again at once is told as often as it comes, in
/// square brackets.
#[must_use]
pub fn say(groups: &[Group]) -> String {
    let mut said: Vec<String> = Vec::new();
    let mut rest = groups;
    while !rest.is_empty() {
        let (length, times) = repetition(rest);
        let (sequence, _) = rest.split_at(length);
        let once: Vec<String> = sequence.iter().map(|group| format!("{group}")).collect();
        let once = once.join(", ");
        said.push(if times > 1 { format!("[{once}] {times} times") } else { once });
        rest = rest.get(length * times..).unwrap_or_default();
    }
    said.join(", then ")
}

/// The most groups told as one sequence.
const LONGEST: usize = 8;

/// The sequence at the start that, told as often as it comes, covers the most groups;
/// the shortest of equals. One group alone when nothing comes again.
fn repetition(groups: &[Group]) -> (usize, usize) {
    let mut best = (1, 1);
    for length in 2..=LONGEST.min(groups.len() / 2) {
        let mut chunks = groups.chunks(length);
        let first = chunks.next();
        let times = 1 + chunks.take_while(|&chunk| Some(chunk) == first).count();
        if times > 1 && length * times > best.0 * best.1 {
            best = (length, times);
        }
    }
    best
}

/// Tells places together as they come: a group is the picks before a miss or before a
/// place with more than one stitch.
#[derive(Debug, Default)]
pub(crate) struct Grouping {
    groups: Vec<Group>,
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
        let group = Group { pick: self.pick, miss: self.miss, extra, times: 1 };
        (self.pick, self.miss) = (0, 0);
        push(&mut self.groups, group);
    }

    pub(crate) fn finish(mut self) -> Vec<Group> {
        if self.pick + self.miss > 0 {
            self.close(0);
        }
        self.groups
    }
}

/// Adds a group, told together with the last when it is like it.
pub(crate) fn push(groups: &mut Vec<Group>, group: Group) {
    match groups.last_mut() {
        Some(last) if last.is_like(group) => last.times += 1,
        _ => groups.push(group),
    }
}
