use core::fmt;
use loopwright_gauge::{Length, Rows, Stitches};

/// What an edge is made of.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum EdgeKind {
    /// Stitches of a closed cast-on.
    CastOn,
    /// Open stitches: on needles, on waste yarn, or of an open cast-on.
    Live,
    /// Stitches bound off.
    BoundOff,
    /// Row ends of a straight side.
    Selvedge,
    /// A slanted or curved side: a staircase of rows and stitches.
    Stepped,
    /// Edges of several kinds joined into one line.
    Mixed,
}

impl EdgeKind {
    /// Whether the edge is counted in stitches only.
    #[must_use]
    pub const fn is_stitches(self) -> bool {
        matches!(self, Self::CastOn | Self::Live | Self::BoundOff)
    }

    /// Whether the edge has row ends.
    #[must_use]
    pub const fn has_rows(self) -> bool {
        matches!(self, Self::Selvedge | Self::Stepped | Self::Mixed)
    }
}

impl fmt::Display for EdgeKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::CastOn => "a cast-on edge",
            Self::Live => "live stitches",
            Self::BoundOff => "a bound-off edge",
            Self::Selvedge => "a selvedge",
            Self::Stepped => "a slanted or curved edge",
            Self::Mixed => "an edge of several kinds",
        })
    }
}

/// One step of a staircase: up `rows`, then `stitches` across.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct EdgeStep {
    /// Rows knitted; none when stitches are bound off at once.
    pub rows: Rows,
    /// Stitches gained or lost at the end of those rows.
    pub stitches: Stitches,
}

/// A corner of an outline, measured from any fixed point of the piece.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct OutlinePoint {
    /// How far along the rows.
    pub across: Length,
    /// How far along the wales.
    pub up: Length,
}
