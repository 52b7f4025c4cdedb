use crate::{Needle, Side};

/// Why a piece cannot be knitted: which piece, step and row, and what stands in the way.
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(#[from] pub(crate) Kind);

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Kind {
    #[error("a needle bed of {given} needles is outside 1..={most}")]
    BedSize { given: u32, most: u32 },
    #[error("a piece needs a name, and this one has none")]
    NoName,
    #[error("{piece}, step {step}, row {row}: {fault}")]
    Refused { piece: String, step: usize, row: u32, fault: Fault },
    #[error(transparent)]
    Gauge(#[from] loopwright_gauge::Error),
}

/// What stands in the way of a step.
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Fault {
    #[error(
        "needles {first} to {last} are wanted, {stitches} stitches, {over} more than the bed of {bed} needles takes there"
    )]
    OffBed { first: Needle, last: Needle, stitches: u64, bed: u32, over: i64 },
    #[error("nothing has been cast on")]
    NothingOn,
    #[error("stitches are on the needles already")]
    AlreadyOn,
    #[error("no stitches are to be worked, and {what} needs some")]
    NoStitches { what: &'static str },
    #[error("{what} of {wanted} stitches is wanted, but only {there} can be used")]
    TooFew { what: &'static str, wanted: u32, there: u32 },
    #[error("{what} of no stitches")]
    Zero { what: &'static str },
    #[error(
        "the carriage is at the {carriage}, so stitches at the {side} cannot be put on hold: the row would start there"
    )]
    HoldAtCarriage { carriage: Side, side: Side },
    #[error("stitches at the {side} are on hold and cannot be {what}")]
    Held { side: Side, what: &'static str },
    #[error("there is no part called {name:?} waiting")]
    NoPart { name: String },
    #[error("{left} stitches are still on the needles")]
    LeftOver { left: usize },
    #[error("the name {name:?} is used for two edges")]
    EdgeName { name: String },
    #[error("{wanted} stitches are cast on, but {picked} are picked up along the edges")]
    PickUp { wanted: u32, picked: u32 },
    #[error("the count of rows is beyond what can be held")]
    TooManyRows,
}

impl Error {
    /// Whether the needle bed is too narrow for the piece.
    #[must_use]
    pub const fn is_off_bed(&self) -> bool {
        matches!(self.0, Kind::Refused { fault: Fault::OffBed { .. }, .. })
    }
}
