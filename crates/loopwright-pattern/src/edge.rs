use crate::Fabric;

/// What an edge is made of.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
pub enum EdgeKind {
    /// The first loops of a cast-on.
    CastOn,
    /// The side of the rows.
    Selvedge,
    /// Stitches bound off.
    BoundOff,
    /// Loops waiting on waste yarn or a holder.
    Live,
}

/// A stretch of an edge: so many rows along it, then so many stitches across.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Leg {
    /// The fabric of the rows and stitches.
    pub fabric: Fabric,
    /// Rows along the edge; negative when the edge goes down again.
    pub rows: i64,
    /// Stitches across: for a selvedge positive is inwards.
    pub stitches: i64,
}

/// An edge as the replay left it.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct KnittedEdge {
    /// Its name, unique in the piece.
    pub name: String,
    /// What it is made of.
    pub kind: EdgeKind,
    /// Its stretches: of live and cast-on stitches from left to right, of others in the
    /// order they were knitted.
    pub legs: Vec<Leg>,
}

impl KnittedEdge {
    /// Rows along the whole edge.
    #[must_use]
    pub fn rows(&self) -> u64 {
        self.legs.iter().map(|leg| leg.rows.unsigned_abs()).sum()
    }

    /// Stitches across the whole edge.
    #[must_use]
    pub fn stitches(&self) -> u64 {
        self.legs.iter().map(|leg| leg.stitches.unsigned_abs()).sum()
    }

    /// Adds rows to the stretch being knitted.
    pub(crate) fn knit(&mut self, fabric: Fabric, rows: i64) {
        match self.legs.last_mut() {
            Some(leg) if leg.fabric == fabric && leg.stitches == 0 => leg.rows += rows,
            _ => self.legs.push(Leg { fabric, rows, stitches: 0 }),
        }
    }

    /// Moves the edge across, ending the stretch.
    pub(crate) fn step(&mut self, fabric: Fabric, stitches: i64) {
        match self.legs.last_mut() {
            Some(leg) if leg.fabric == fabric && leg.stitches.signum() != -stitches.signum() => {
                leg.stitches += stitches;
            }
            _ => self.legs.push(Leg { fabric, rows: 0, stitches }),
        }
    }
}
