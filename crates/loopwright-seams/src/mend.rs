use crate::verdict::{Counted, numbered};
use alloc::string::String;
use core::fmt;

/// The smallest change of either edge, alone, that would make a join hold.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Mend {
    /// What to change of the first edge; `None` where no whole count would do.
    pub a: Option<Change>,
    /// What to change of the second edge; `None` where no whole count would do.
    pub b: Option<Change>,
}

/// Another count for one edge.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Change {
    /// The name of the edge.
    pub edge: String,
    /// Whether stitches or rows change; rows are added to or taken from its
    /// straight part.
    pub counted: Counted,
    /// The count it has.
    pub from: u32,
    /// The count it would need.
    pub to: u32,
}

impl fmt::Display for Change {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let to = numbered(self.to.into(), self.counted);
        write!(f, "{to} instead of {} for the {}", self.from, self.edge)
    }
}

impl fmt::Display for Mend {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.a, &self.b) {
            (Some(a), Some(b)) => write!(f, "knit {a}, or {b}"),
            (Some(one), None) | (None, Some(one)) => write!(f, "knit {one}"),
            (None, None) => f.write_str("change both edges: no change of one alone will do"),
        }
    }
}
