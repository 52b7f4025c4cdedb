//! Edges that are hung on needles, or picked up along.

use crate::Name;
use alloc::vec::Vec;
use loopwright_gauge::{Side, Stitches, choices};
use loopwright_seams::PickUpGroup;

choices! {
    /// Which way an edge is gone along, as its stitches lie from left to right on the needles.
    pub enum Along: "the way along an edge" {
        /// As it was knitted: a side from below, stitches from left to right.
        Forward = "forward",
        /// Against that.
        Backward = "backward",
    }
}

#[expect(clippy::derivable_impls, reason = "the macro takes no attributes of variants")]
impl Default for Along {
    fn default() -> Self {
        Self::Forward
    }
}

/// A point of an edge that a stretch is measured from.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case")
)]
pub enum About {
    /// Where the edge begins, as it was knitted.
    Start,
    /// Where it ends.
    End,
    /// Its middle; of an odd number of places the middle place lies after it.
    Middle,
    /// A marker in it.
    Marker(Name),
}

/// A stretch of an edge, in its places: row ends and stitches.
///
/// # Examples
/// ```
/// use loopwright_pattern::{About, Stretch};
/// // The 30 places below the middle of a side and the 30 above it.
/// let armhole = Stretch { about: About::Middle, before: 30, after: 30 };
/// assert_eq!(armhole.before + armhole.after, 60);
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
pub struct Stretch {
    /// Where it is measured from.
    pub about: About,
    /// Places before that point, as the edge was knitted.
    pub before: u32,
    /// Places after it.
    pub after: u32,
}

/// Stitches picked up along one edge, or live stitches of it taken up.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_pattern::PickUp;
/// let neck = PickUp::one_for_one("back", "neck stitches", Stitches::new(32)?);
/// assert!(neck.groups.is_empty() && neck.stretch.is_none());
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
pub struct PickUp {
    /// The piece the edge belongs to; the piece being knitted for an edge of its own.
    pub piece: Name,
    /// The edge's name.
    pub edge: Name,
    /// How many stitches are picked up along it.
    pub stitches: Stitches,
    /// In which of its places, in the order they were knitted; empty where every place is
    /// picked up once.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Vec::is_empty"))]
    pub groups: Vec<PickUpGroup>,
    /// Which way it is gone along.
    #[cfg_attr(feature = "serde", serde(default))]
    pub along: Along,
    /// Which stretch of it; all of it without one.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub stretch: Option<Stretch>,
}

impl PickUp {
    /// The same, gone along from the other end.
    #[must_use]
    pub(crate) fn turned(&self) -> Self {
        let along = match self.along {
            Along::Forward => Along::Backward,
            Along::Backward => Along::Forward,
        };
        Self { along, ..self.clone() }
    }

    /// Every place of an edge, one for one.
    #[must_use]
    pub fn one_for_one(piece: impl Into<Name>, edge: impl Into<Name>, stitches: Stitches) -> Self {
        let (piece, edge, groups) = (piece.into(), edge.into(), Vec::new());
        Self { piece, edge, stitches, groups, along: Along::Forward, stretch: None }
    }
}

/// Edges hung on needles while a piece is being knitted.
///
/// On the machine they are hung wherever they are wanted. By hand stitches beside the
/// others are picked up and knitted with the working yarn, so they lie at its side.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_pattern::{CAST_ON_EDGE, Hang, PickUp, Side};
/// // A folded hem: the cast-on edge is hung back on the 40 needles that knit.
/// let edge = PickUp::one_for_one("bag", CAST_ON_EDGE, Stitches::new(40)?);
/// let hem = Hang { from: vec![edge], side: Side::Left, overlap: Stitches::new(40)? };
/// assert_eq!(hem.overlap.get(), 40);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
pub struct Hang {
    /// Where the stitches come from, in order along the needles from left to right.
    pub from: Vec<PickUp>,
    /// At which side of the stitches being worked they are hung.
    pub side: Side,
    /// How many of them go on top of the outermost stitches there; the others on empty
    /// needles beside them.
    pub overlap: Stitches,
}
