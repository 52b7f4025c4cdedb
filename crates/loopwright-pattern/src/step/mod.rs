//! What a knitter does, one thing at a time.

mod hang;
mod shape;

pub use hang::{About, Along, Hang, PickUp, Stretch};
pub use shape::{Shape, ShapeMethod, ShapeRow};

use crate::{Fabric, Name, Needle};
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Rows, Side, Stitches, choices};

/// One thing the knitter does.
///
/// Sides and counts are those of the stitches being worked; the replay finds the
/// needles, and where the yarn is.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::{Fabric, Side, Step};
/// let begin = Step::cast_on(Stitches::new(40)?, Fabric::Plain, Side::Right);
/// assert!(matches!(begin, Step::CastOn { needle: None, .. }));
/// assert_ne!(begin, Step::Knit(Rows::new(40)?));
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum Step {
    /// Put stitches on empty needles and join the yarn.
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
        edge: Name,
        /// The leftmost needle; without one the stitches lie about the centre of the bed,
        /// the odd one out at its left.
        #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
        needle: Option<Needle>,
    },
    /// Knit so many rows over all working stitches, from where the yarn hangs.
    Knit(Rows),
    /// Set the needles for another fabric; no row is knitted.
    ChangeFabric(Fabric),
    /// Set the row counter to zero.
    ResetCounter,
    /// Increase or decrease at the edge. By hand it happens in the row just knitted; on
    /// the machine after it. Either way the new count holds from that row on.
    Shape(Shape),
    /// Increase or decrease at places along the row, with the same meaning.
    ShapeRow(ShapeRow),
    /// Bind off where the yarn hangs.
    BindOff {
        /// How many.
        stitches: Stitches,
        /// In which way.
        #[cfg_attr(feature = "serde", serde(default))]
        how: BindOff,
        /// The edge they belong to; without one they are part of the edge being knitted.
        #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
        edge: Option<Name>,
    },
    /// Cast on where the yarn hangs.
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
    /// Knit some held stitches again, those next to the working ones first.
    ReturnSome {
        /// At which side.
        side: Side,
        /// How many.
        stitches: Stitches,
    },
    /// Call the edge at this side by another name from here on, and mark the place.
    NameEdge {
        /// At which side.
        side: Side,
        /// The new name.
        edge: Name,
    },
    /// Mark a place along the edge that is being made at a side.
    Mark {
        /// At which side.
        side: Side,
        /// What the marker is called.
        marker: Name,
    },
    /// Leave the outermost stitches waiting as a part of their own.
    SetAside {
        /// At which side.
        side: Side,
        /// How many.
        stitches: Stitches,
        /// What the part is called.
        part: Name,
        /// What the new edge of the part is called.
        its_edge: Name,
        /// What the new edge of the rest is called.
        edge: Name,
    },
    /// Go on with a part set aside, at the row where it was left; the needles are empty.
    /// The yarn stays where it hangs.
    Resume {
        /// Which part.
        part: Name,
    },
    /// Put a waiting part back beside the stitches that are being worked.
    Rejoin {
        /// Which part.
        part: Name,
        /// At which side of the stitches being worked.
        side: Side,
    },
    /// Take the outermost stitches off on waste yarn, or onto a holder, still live.
    TakeOff {
        /// From which side.
        side: Side,
        /// How many.
        stitches: Stitches,
        /// What the live edge is called.
        edge: Name,
    },
    /// Bind off every stitch being worked, and draw the yarn through the last.
    BindOffAll {
        /// In which way.
        #[cfg_attr(feature = "serde", serde(default))]
        how: BindOff,
        /// What the edge is called.
        edge: Name,
    },
    /// Hang edges that are finished, or live, on needles.
    Hang(Hang),
    /// Cut the yarn, with a tail.
    Cut,
    /// Join the yarn that was cut, at a side of the working stitches.
    Join {
        /// At which side.
        side: Side,
    },
    /// Go on with another yarn. One that has been used before hangs where it was left;
    /// a new one has to be joined.
    ChangeYarn(Name),
    /// From here on work in rounds.
    JoinRound,
    /// Work in rows again; both new edges get a name.
    Divide {
        /// What the left edge is called.
        left: Name,
        /// What the right edge is called.
        right: Name,
    },
    /// Words for the knitter; nothing is knitted.
    Remark(String),
}

/// The name of the edge that [`Step::cast_on`] makes.
pub const CAST_ON_EDGE: Name = Name::fixed("cast-on edge");

/// The name of a piece's left side until it gets another.
pub const LEFT_EDGE: Name = Name::fixed("left edge");

/// The name of a piece's right side until it gets another.
pub const RIGHT_EDGE: Name = Name::fixed("right edge");

/// The yarn a piece is begun with.
pub const MAIN_YARN: Name = Name::fixed("main");

impl Step {
    /// A cast-on about the centre by the knitter's usual closed edge, called
    /// [`CAST_ON_EDGE`].
    #[must_use]
    pub const fn cast_on(stitches: Stitches, fabric: Fabric, carriage: Side) -> Self {
        Self::CastOn {
            stitches,
            how: CastOn::Closed,
            fabric,
            carriage,
            edge: CAST_ON_EDGE,
            needle: None,
        }
    }

    /// A plain bind-off of all stitches; the edge is called `edge`.
    #[must_use]
    pub fn bind_off_all(edge: impl Into<Name>) -> Self {
        Self::BindOffAll { how: BindOff::Plain, edge: edge.into() }
    }

    /// A plain bind-off where the yarn hangs, part of the edge being knitted.
    #[must_use]
    pub const fn bind_off(stitches: Stitches) -> Self {
        Self::BindOff { stitches, how: BindOff::Plain, edge: None }
    }
}

/// How stitches come onto empty needles.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum CastOn {
    /// A closed, finished edge.
    Closed,
    /// Waste yarn first, so that the edge stays live and is joined later.
    WasteYarn,
    /// Picked up along edges of finished pieces.
    PickedUp {
        /// Where the stitches come from, in order along the needles from left to right.
        from: Vec<PickUp>,
    },
}

choices! {
    /// How stitches are bound off.
    ///
    /// # Examples
    /// ```
    /// use loopwright_pattern::BindOff;
    /// assert_eq!("in-rib".parse(), Ok(BindOff::InRib));
    /// ```
    pub enum BindOff: "the bind-off" {
        /// One over the other.
        Plain = "plain",
        /// One over the other, with longer loops.
        Loosely = "loosely",
        /// One over the other, knit and purl as the rib has them, loosely.
        InRib = "in rib",
        /// One over the other with the stitches of another piece, two by two.
        Together = "together",
        /// Sewn with the yarn's tail.
        Sewn = "sewn",
        /// Over a length of waste yarn laid along the needles, so that the edge stays wide.
        OverWaste = "over waste",
    }
}

#[expect(clippy::derivable_impls, reason = "the macro takes no attributes of variants")]
impl Default for BindOff {
    fn default() -> Self {
        Self::Plain
    }
}
