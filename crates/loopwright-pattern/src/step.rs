use crate::{Fabric, Side, Sides};
use loopwright_gauge::{Rows, Stitches};
use loopwright_seams::PickUpGroup;

/// One thing the knitter does.
///
/// Sides and counts are those of the stitches being worked; the replay finds the
/// needles.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub enum Step {
    /// Put stitches on empty needles, about the centre of the bed.
    CastOn {
        /// How many.
        stitches: Stitches,
        /// In which way.
        how: CastOn,
        /// The fabric that follows.
        fabric: Fabric,
        /// Where the yarn and the carriage are before the first row.
        carriage: Side,
        /// What the edge is called.
        edge: String,
    },
    /// Knit so many rows over all working stitches.
    Knit(Rows),
    /// Set the needles for another fabric; no row is knitted.
    ChangeFabric(Fabric),
    /// Set the row counter to zero.
    ResetCounter,
    /// Increase or decrease at the edge. By hand it happens in the row just knitted; on
    /// the machine after it. Either way the new count holds from that row on.
    Shape(Shape),
    /// Bind off at the carriage side.
    BindOff {
        /// How many.
        stitches: Stitches,
        /// The edge they belong to; without one they are part of the edge being knitted.
        edge: Option<String>,
    },
    /// Cast on at the carriage side.
    Extend(Stitches),
    /// Keep stitches on their needles without knitting them, outermost first.
    Hold {
        /// At which side.
        side: Side,
        /// How many more.
        stitches: Stitches,
    },
    /// Knit all held stitches again.
    Return,
    /// Call the edge at these sides by another name from here on, and mark the place.
    NameEdge {
        /// At which side.
        side: Side,
        /// The new name.
        edge: String,
    },
    /// Leave the outermost stitches waiting as a part of their own.
    SetAside {
        /// At which side.
        side: Side,
        /// How many.
        stitches: Stitches,
        /// What the part is called.
        part: String,
        /// What the new edge of the part is called.
        its_edge: String,
        /// What the new edge of the rest is called.
        edge: String,
    },
    /// Go on with a part set aside, at the row where it was left.
    Resume {
        /// Which part.
        part: String,
        /// Where the yarn is joined.
        carriage: Side,
    },
    /// Take the outermost stitches off on waste yarn, or onto a holder, still live.
    TakeOff {
        /// From which side.
        side: Side,
        /// How many.
        stitches: Stitches,
        /// What the live edge is called.
        edge: String,
    },
    /// Bind off every stitch being worked.
    BindOffAll {
        /// What the edge is called.
        edge: String,
    },
}

impl Step {
    /// A cast-on by the knitter's usual closed edge, called "cast-on edge".
    #[must_use]
    pub fn cast_on(stitches: Stitches, fabric: Fabric, carriage: Side) -> Self {
        Self::CastOn {
            stitches,
            how: CastOn::Closed,
            fabric,
            carriage,
            edge: "cast-on edge".into(),
        }
    }

    /// A bind-off of all stitches; the edge is called `edge`.
    #[must_use]
    pub fn bind_off_all(edge: &str) -> Self {
        Self::BindOffAll { edge: edge.into() }
    }
}

/// How stitches come onto empty needles.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub enum CastOn {
    /// A closed, finished edge.
    Closed,
    /// Waste yarn first, so that the edge stays live.
    WasteYarn,
    /// Picked up along edges of finished pieces, in order; each is named
    /// `piece: edge`.
    PickedUp {
        /// Where the stitches come from, in order along the needles from left to right.
        from: Vec<PickUp>,
    },
}

/// Stitches picked up along one edge.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct PickUp {
    /// The piece the edge belongs to.
    pub piece: String,
    /// The edge's name.
    pub edge: String,
    /// How many stitches are picked up along it.
    pub stitches: u32,
    /// In which of its places, row ends and bound-off stitches, in the order they were
    /// knitted; empty where every stitch of the edge is picked up once.
    pub groups: Vec<PickUpGroup>,
}

/// Whether an edge moves out or in.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case")
)]
pub enum Change {
    /// More stitches.
    Increase,
    /// Fewer stitches.
    Decrease,
}

/// An increase or decrease at one edge or both.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Shape {
    /// Out or in.
    pub change: Change,
    /// Where.
    pub sides: Sides,
    /// How many stitches at each of the sides.
    pub stitches: u32,
    /// How many edge stitches are moved as they are, so that the edge stays neat.
    pub inset: u32,
}
