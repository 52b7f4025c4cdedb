use crate::{Craft, Fabric, KnittedEdge, Name, Needle, Step};
use alloc::vec::Vec;
use loopwright_gauge::{Rows, Side, Stitches, choices};

/// A piece as the replay knitted it.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::{Craft, Fabric, Piece, Side, Step};
/// let mut piece = Piece::new("swatch", Craft::Hand)?;
/// piece.extend([
///     Step::cast_on(Stitches::new(30)?, Fabric::Plain, Side::Right),
///     Step::Knit(Rows::new(40)?),
///     Step::bind_off_all("top"),
/// ]);
/// let knitted = piece.replay()?;
/// assert_eq!(knitted.stitches_in(Fabric::Plain), 1200);
/// assert_eq!(knitted.ends, 2);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
#[non_exhaustive]
pub struct Knitted {
    /// What the piece is called.
    pub name: Name,
    /// What it was knitted on.
    pub craft: Craft,
    /// One entry for each step, in order.
    pub log: Vec<Entry>,
    /// Every edge, in the order they were begun.
    pub edges: Vec<KnittedEdge>,
    /// Loops knitted, by fabric and yarn, in the order they were met.
    pub loops: Vec<Loops>,
    /// Stitches cast on, at a closed edge or beside others.
    pub cast_on: Stitches,
    /// Stitches begun on waste yarn.
    pub begun_live: Stitches,
    /// Stitches picked up, or taken from another piece.
    pub picked_up: Stitches,
    /// Stitches bound off.
    pub bound_off: Stitches,
    /// Stitches left live at the end, on waste yarn or a holder.
    pub live: Stitches,
    /// Loops knitted in waste yarn.
    pub waste: u64,
    /// Ends of yarn to be darned in.
    pub ends: u32,
    /// The most stitches that were on the needles at once.
    pub widest: Stitches,
    /// Rows the row counter passed, all parts together.
    pub rows: Rows,
}

/// Loops of one fabric in one yarn.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
#[non_exhaustive]
pub struct Loops {
    /// The fabric.
    pub fabric: Fabric,
    /// The yarn.
    pub yarn: Name,
    /// How many loops.
    pub loops: u64,
}

/// Where a yarn's end is.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case")
)]
pub enum Hanging {
    /// Not in the work.
    Cut,
    /// Beside a stitch, at the end of the row it last knitted.
    At {
        /// The needle of that stitch.
        needle: Needle,
        /// The side of it, where the next row begins.
        side: Side,
    },
}

choices! {
    /// Which side of the fabric faces the knitter.
    pub enum Facing: "the side that faces" {
        /// The right side, which is seen when it is worn.
        RightSide = "right side",
        /// The wrong side.
        WrongSide = "wrong side",
    }
}

/// What one step did.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
#[non_exhaustive]
pub struct Entry {
    /// The step.
    pub step: Step,
    /// The fabric being knitted after it.
    pub fabric: Fabric,
    /// The row counter before it.
    pub row_before: Rows,
    /// The row counter after it.
    pub row: Rows,
    /// Where the carriage (by hand: the working yarn) is after it.
    pub carriage: Side,
    /// Where the working yarn is after it.
    pub yarn: Hanging,
    /// Whether the work is round after it.
    pub round: bool,
    /// Stitches of the part being worked after it, held ones included.
    pub stitches: Stitches,
    /// How many of them are on hold at the left.
    pub held_left: Stitches,
    /// How many of them are on hold at the right.
    pub held_right: Stitches,
    /// The first and last needle of the part after it, from left to right.
    pub needles: Option<(Needle, Needle)>,
    /// Where the edges of the part stand in [`Knitted::edges`], left and right.
    pub edges: Option<(usize, usize)>,
}

impl Entry {
    /// How many stitches of the part are on hold.
    #[must_use]
    pub const fn held(&self) -> u32 {
        self.held_left.get() + self.held_right.get()
    }

    /// How many stitches of the part are worked in the next row.
    #[must_use]
    pub const fn working(&self) -> u32 {
        self.stitches.get() - self.held()
    }

    /// Which side faces a knitter by hand in the next row: flat work is turned after
    /// every row, so the right side faces where the yarn is at the right.
    #[must_use]
    pub const fn facing(&self) -> Facing {
        match (self.round, self.carriage) {
            (true, _) | (_, Side::Right) => Facing::RightSide,
            (false, Side::Left) => Facing::WrongSide,
        }
    }
}

impl Knitted {
    /// The edge called `name`.
    #[must_use]
    pub fn edge(&self, name: &str) -> Option<&KnittedEdge> {
        self.edges.iter().find(|edge| edge.name == name)
    }

    /// What the edge at a side of the part is called after the step of `entry`.
    #[must_use]
    pub fn edge_name(&self, entry: &Entry, side: Side) -> &str {
        let at = entry.edges.map(|(left, right)| if side == Side::Left { left } else { right });
        at.and_then(|at| self.edges.get(at)).map_or("edge", |edge| edge.name.as_str())
    }

    /// How many loops of `fabric` were knitted, in all yarns.
    #[must_use]
    pub fn stitches_in(&self, fabric: Fabric) -> u64 {
        let of = self.loops.iter().filter(|loops| loops.fabric == fabric);
        of.map(|loops| loops.loops).fold(0, u64::saturating_add)
    }

    /// How many loops were knitted, in all fabrics and yarns.
    #[must_use]
    pub fn all_loops(&self) -> u64 {
        self.loops.iter().map(|loops| loops.loops).fold(0, u64::saturating_add)
    }
}
