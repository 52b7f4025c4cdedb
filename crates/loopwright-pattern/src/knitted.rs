use crate::{Craft, Fabric, KnittedEdge, Needle, Side, Step};

/// A piece as the replay knitted it.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Knitted {
    /// What the piece is called.
    pub name: String,
    /// What it was knitted on.
    pub craft: Craft,
    /// One entry for each step, in order.
    pub log: Vec<Entry>,
    /// Every edge, in the order they were begun.
    pub edges: Vec<KnittedEdge>,
    /// Loops knitted, by fabric, in the order the fabrics were met.
    pub loops: Vec<(Fabric, u64)>,
    /// Stitches cast on.
    pub cast_on: u64,
    /// Stitches bound off.
    pub bound_off: u64,
    /// Stitches left live on waste yarn or a holder.
    pub live: u64,
    /// The most stitches that were on the needles at once.
    pub widest: u64,
    /// Rows the row counter passed, all parts together.
    pub rows: u64,
}

/// What one step did.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Entry {
    /// The step.
    pub step: Step,
    /// The fabric being knitted after it.
    pub fabric: Fabric,
    /// The row counter before it.
    pub row_before: u32,
    /// The row counter after it.
    pub row: u32,
    /// Where the carriage (by hand: the working yarn) is after it.
    pub carriage: Side,
    /// Stitches of the part being worked after it, held ones included.
    pub stitches: u32,
    /// How many of them are on hold.
    pub held: u32,
    /// The first and last needle of the part after it, from left to right.
    pub needles: Option<(Needle, Needle)>,
    /// Where the edges of the part stand in [`Knitted::edges`], left and right.
    pub edges: Option<(usize, usize)>,
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

    /// How many loops of `fabric` were knitted.
    #[must_use]
    pub fn stitches_in(&self, fabric: Fabric) -> u64 {
        self.loops.iter().filter(|(of, _)| *of == fabric).map(|(_, loops)| loops).sum()
    }
}
