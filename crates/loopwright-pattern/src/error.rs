use crate::{Name, Needle, Side};
use alloc::string::String;
use loopwright_gauge::{Rows, Stitches};

/// Why a piece cannot be knitted: which piece, step and row, and what stands in the way.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::{Craft, Fabric, Piece, Side, Step};
/// let mut piece = Piece::new("swatch", Craft::Hand)?;
/// piece.push(Step::cast_on(Stitches::new(30)?, Fabric::Plain, Side::Right));
/// piece.push(Step::Cut);
/// piece.push(Step::Knit(Rows::new(2)?));
/// let error = piece.replay().unwrap_err();
/// assert_eq!((error.piece(), error.step()), (Some("swatch"), Some(3)));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(#[from] pub(crate) Kind);

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Kind {
    #[error("a needle bed of {given} needles is outside 1..={most}")]
    BedSize { given: u32, most: u32 },
    #[error("a needle is called {given:?}, but must be L or R and a number from 1, such as L40")]
    NeedleName { given: String },
    #[error(
        "a piece is called {given:?}; a name has letters or digits, at most {} bytes, and no control characters",
        Name::MOST
    )]
    PieceName { given: String },
    #[error("{piece}, step {step}, row {row}: {fault}")]
    Refused { piece: Name, step: usize, row: Rows, fault: Fault },
    #[error("the taper and the sides it is knitted at do not agree: both edges need both sides")]
    TaperEdges,
    #[error(
        "several stitches are to be shaped at once at the {side}, but the yarn is at the other side; knit one row more before, or one fewer"
    )]
    CarriageAway { side: Side },
    #[cfg(feature = "serde")]
    #[error("version {given} of a file of steps is not known; this is version {known}")]
    FileVersion { given: u32, known: u32 },
    #[error(transparent)]
    PickUp(#[from] crate::pick_up::Fault),
    #[error(transparent)]
    Gauge(#[from] loopwright_gauge::Error),
    #[error(transparent)]
    Shaping(#[from] loopwright_shaping::Error),
    #[error(transparent)]
    Seams(#[from] loopwright_seams::Error),
}

/// What stands in the way of a step.
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Fault {
    #[error(
        "needles {first} to {last} are wanted, {stitches} stitches, {over} more than the bed of {bed} needles takes there"
    )]
    OffBed { first: Needle, last: Needle, stitches: u64, bed: u32, over: u64 },
    #[error("{stitches} stitches at once are more than the {most} that can be held")]
    TooWide { stitches: u64, most: u32 },
    #[error("nothing has been cast on")]
    NothingOn,
    #[error("stitches are on the needles already")]
    AlreadyOn,
    #[error("no stitches are to be worked, and {what} needs some")]
    NoStitches { what: &'static str },
    #[error("{what} of {wanted} stitches is wanted, but only {there} can be used")]
    TooFew { what: &'static str, wanted: u64, there: u32 },
    #[error("{what} of no stitches")]
    Zero { what: &'static str },
    #[error("no rows are to be knitted; leave the step out")]
    NoRows,
    #[error(
        "the carriage is at the {carriage}, so stitches at the {side} cannot be put on hold: the row would start there"
    )]
    HoldAtCarriage { carriage: Side, side: Side },
    #[error("stitches at the {side} are on hold and cannot be {what}")]
    Held { side: Side, what: &'static str },
    #[error("{wanted} stitches at the {side} are to return, but {held} are on hold there")]
    NotHeld { side: Side, wanted: Stitches, held: u32 },
    #[error(
        "the yarn hangs at {from}, but {what} would begin at {to}, a float over {float} needles; {remedy}"
    )]
    Float { from: Needle, to: Needle, float: u64, what: &'static str, remedy: &'static str },
    #[error("the yarn {yarn:?} is cut, and {what} needs it; join it at a side first")]
    NoYarn { yarn: Name, what: &'static str },
    #[error("the yarn {yarn:?} still hangs at {at}; cut it before it is joined elsewhere")]
    NotCut { yarn: Name, at: Needle },
    #[error("the yarn {yarn:?} is cut already")]
    CutAlready { yarn: Name },
    #[error("the yarn {yarn:?} still hangs at {at} when the piece is finished; cut it with a tail")]
    YarnLeft { yarn: Name, at: Needle },
    #[error("the yarn {yarn:?} is being knitted already")]
    SameYarn { yarn: Name },
    #[error(
        "stitches picked up by hand with the right side facing end at the left: the yarn is there, and the wrong side faces next"
    )]
    PickedUpAtRight,
    #[error(
        "by hand stitches are picked up where the yarn hangs, at the {yarn}, not at the {side}"
    )]
    PickedUpAway { yarn: Side, side: Side },
    #[error("there is no part called {name:?} waiting{others}")]
    NoPart { name: Name, others: String },
    #[error("the part {name:?} is waiting already; parts need names of their own")]
    PartName { name: Name },
    #[error(
        "the part {name:?} lies on needles {first} to {last} and is not next to the stitches at the {side}"
    )]
    NotBeside { name: Name, first: Needle, last: Needle, side: Side },
    #[error("{left} stitches are still on the needles")]
    LeftOver { left: u64 },
    #[error("the name {name:?} is used for two edges")]
    EdgeName { name: Name },
    #[error("the name {name:?} is used for two markers of the {edge}")]
    MarkerName { name: Name, edge: Name },
    #[error(
        "{name:?} is no name; it needs letters or digits, at most {} bytes, and no control characters",
        Name::MOST
    )]
    NoName { name: String },
    #[error("{wanted} stitches are cast on, but {picked} are picked up along the edges")]
    PickUp { wanted: Stitches, picked: u64 },
    #[error("{overlap} stitches are to be hung on top of others, but only {hung} are hung")]
    Overlap { overlap: u32, hung: u64 },
    #[error("stitches are picked up along the edge {edge:?}, but this piece has only {there}")]
    NoEdge { edge: Name, there: String },
    #[error("the count of rows of a piece is more than the {most} that can be held")]
    TooManyRows { most: u32 },
    #[error("{count} stitches are counted in one piece, more than the {most} that can be held")]
    TooManyStitches { count: u64, most: u32 },
    #[error("the shaping is planned for {planned} stitches, but {there} are being worked")]
    OtherWidth { planned: Stitches, there: u32 },
    #[error(
        "the shaping after stitch {at} has no room: the next may come after stitch {least} at the earliest and {most} at the latest"
    )]
    NoRoom { at: Stitches, least: u64, most: u64 },
    #[error("the work is round and has no sides; {what} needs rows, so divide it first")]
    Round { what: &'static str },
    #[error("the work goes back and forth already")]
    NotRound,
    #[error("the method {method} is for the other kind of shaping")]
    Method { method: &'static str },
    #[error("the remark is empty, or holds control characters")]
    Remark,
}

impl Error {
    /// Whether the needle bed is too narrow for the piece.
    #[must_use]
    pub const fn is_off_bed(&self) -> bool {
        matches!(self.fault(), Some(Fault::OffBed { .. }))
    }

    /// Whether the yarn does not hang where a row, a bind-off or a cast-on would begin.
    #[must_use]
    pub const fn is_float(&self) -> bool {
        matches!(self.fault(), Some(Fault::Float { .. }))
    }

    /// Whether a count is beyond what can be held.
    #[must_use]
    pub const fn is_too_large(&self) -> bool {
        matches!(
            self.fault(),
            Some(Fault::TooWide { .. } | Fault::TooManyRows { .. } | Fault::TooManyStitches { .. })
        )
    }

    /// Whether a pick-up does not fit the edge it names.
    #[must_use]
    pub const fn is_pick_up(&self) -> bool {
        matches!(self.0, Kind::PickUp(_))
    }

    /// The piece the fault is in.
    #[must_use]
    pub fn piece(&self) -> Option<&str> {
        match &self.0 {
            Kind::Refused { piece, .. } => Some(piece.as_str()),
            Kind::PickUp(fault) => Some(fault.piece()),
            _ => None,
        }
    }

    /// The step the fault is in, the first being 1; the last one where the piece as a
    /// whole is at fault.
    #[must_use]
    pub const fn step(&self) -> Option<usize> {
        match &self.0 {
            Kind::Refused { step, .. } => Some(*step),
            _ => None,
        }
    }

    /// What the row counter shows there.
    #[must_use]
    pub const fn row(&self) -> Option<Rows> {
        match &self.0 {
            Kind::Refused { row, .. } => Some(*row),
            _ => None,
        }
    }

    /// The two needles a float or a bed too narrow is about.
    #[must_use]
    pub const fn needles(&self) -> Option<(Needle, Needle)> {
        match self.fault() {
            Some(Fault::Float { from, to, .. }) => Some((*from, *to)),
            Some(Fault::OffBed { first, last, .. }) => Some((*first, *last)),
            _ => None,
        }
    }

    const fn fault(&self) -> Option<&Fault> {
        match &self.0 {
            Kind::Refused { fault, .. } => Some(fault),
            _ => None,
        }
    }
}

macro_rules! from_rooms {
    ($($error:ty),*) => {$(
        impl From<$error> for Error {
            fn from(error: $error) -> Self {
                Self(error.into())
            }
        }
    )*};
}

from_rooms!(
    crate::pick_up::Fault,
    loopwright_gauge::Error,
    loopwright_shaping::Error,
    loopwright_seams::Error
);
