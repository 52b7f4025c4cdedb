//! Increases and decreases.

use crate::Sides;
use alloc::vec::Vec;
use loopwright_gauge::{Side, Stitches, choices};
use loopwright_shaping::{Direction, Spacing, Technique};

choices! {
    /// By what means an edge is shaped; the knitter's usual one where nothing is said.
    ///
    /// # Examples
    /// ```
    /// use loopwright_pattern::{Direction, ShapeMethod};
    /// assert_eq!(ShapeMethod::Eyelet.change(), Some(Direction::Increase));
    /// ```
    pub enum ShapeMethod: "the method of shaping" {
        /// As the knitter likes.
        Usual = "usual",
        /// An increase that leaves its needle empty: an eyelet.
        Eyelet = "eyelet",
        /// An increase filled with the loop below its neighbour.
        Filled = "filled",
        /// A loop wound on, at the edge.
        Wound = "wound",
        /// A decrease that leans towards the middle of the piece.
        Inward = "inward",
        /// A decrease that leans towards the edge.
        Outward = "outward",
    }
}

#[expect(clippy::derivable_impls, reason = "the macro takes no attributes of variants")]
impl Default for ShapeMethod {
    fn default() -> Self {
        Self::Usual
    }
}

impl ShapeMethod {
    /// What it does, where it does only one of the two.
    #[must_use]
    pub const fn change(self) -> Option<Direction> {
        match self {
            Self::Usual => None,
            Self::Eyelet | Self::Filled | Self::Wound => Some(Direction::Increase),
            Self::Inward | Self::Outward => Some(Direction::Decrease),
        }
    }
}

/// An increase or decrease at one edge or both.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_pattern::{Direction, Shape, Sides};
/// let narrower = Shape::new(Direction::Decrease, Sides::Both, Stitches::new(1)?);
/// assert_eq!(narrower.inset, Stitches::ZERO);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
pub struct Shape {
    /// Out or in.
    pub change: Direction,
    /// Where.
    pub sides: Sides,
    /// How many stitches at each of the sides.
    pub stitches: Stitches,
    /// How many edge stitches are moved as they are, so that the edge stays neat.
    #[cfg_attr(feature = "serde", serde(default))]
    pub inset: Stitches,
    /// By what means.
    #[cfg_attr(feature = "serde", serde(default))]
    pub method: ShapeMethod,
}

impl Shape {
    /// A shaping at the very edge, by the knitter's usual means.
    #[must_use]
    pub const fn new(change: Direction, sides: Sides, stitches: Stitches) -> Self {
        Self { change, sides, stitches, inset: Stitches::ZERO, method: ShapeMethod::Usual }
    }

    /// The same so many stitches in from the edge.
    #[must_use]
    pub const fn inset(self, inset: Stitches) -> Self {
        Self { inset, ..self }
    }
}

/// Increases or decreases at places along one row.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_pattern::{ShapeRow, Side};
/// use loopwright_shaping::{Convention, Spacing};
/// let spacing =
///     Spacing::between(Stitches::new(80)?, Stitches::new(70)?, Convention::HalfGaps).build()?;
/// let row = ShapeRow::spaced(&spacing, Side::Right);
/// assert_eq!((row.stitches.get(), row.positions.len()), (80, 10));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
pub struct ShapeRow {
    /// What is done at each place.
    pub technique: Technique,
    /// The working stitches it is planned for.
    pub stitches: Stitches,
    /// Stitches of the old row worked, from `from` on, when each is done.
    pub positions: Vec<Stitches>,
    /// The side the positions are counted from.
    pub from: Side,
}

impl ShapeRow {
    /// The events of a spacing, counted from a side.
    #[must_use]
    pub fn spaced(spacing: &Spacing, from: Side) -> Self {
        let positions = spacing.positions().collect();
        let (technique, stitches) = (spacing.technique(), spacing.stitches());
        Self { technique, stitches, positions, from }
    }

    /// Whether stitches are gained or lost.
    #[must_use]
    pub const fn change(&self) -> Direction {
        if self.technique.makes().get() > self.technique.uses().get() {
            Direction::Increase
        } else {
            Direction::Decrease
        }
    }

    /// Stitches gained or lost at each place.
    #[must_use]
    pub const fn each(&self) -> u32 {
        self.technique.makes().get().abs_diff(self.technique.uses().get())
    }
}
