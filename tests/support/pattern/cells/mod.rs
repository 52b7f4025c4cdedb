//! A second knitter, who keeps every stitch as a cell on its needle and the yarn as a path
//! through cells, and knits one stitch at a time. It shares nothing with the replay but
//! the steps it is given.

mod knit;
mod random;
mod shape;
mod strip;

pub use random::{Dice, piece};
pub use strip::{Cell, Strip};

use loopwright::pattern::{Craft, Name, Piece, Side, Step};
use std::collections::BTreeMap;

/// What stands in the way, by its kind; [`Stop::words`] says what each is.
#[expect(missing_docs, reason = "their words are beside them")]
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub enum Stop {
    NothingOn,
    AlreadyOn,
    NoStitches,
    TooFew,
    Zero,
    NoRows,
    OffBed,
    HoldAtCarriage,
    Held,
    NotHeld,
    Float,
    NoYarn,
    NotCut,
    CutAlready,
    YarnLeft,
    SameYarn,
    NoPart,
    PartName,
    NotBeside,
    LeftOver,
    EdgeName,
    OtherWidth,
    NoRoom,
    Round,
    NotRound,
    PickedUpAtRight,
    PickedUpAway,
    Overlap,
}

impl Stop {
    /// Words that only the text of this fault has.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::NothingOn => "nothing has been cast on",
            Self::AlreadyOn => "on the needles already",
            Self::NoStitches => "no stitches are to be worked",
            Self::TooFew => "can be used",
            Self::Zero => "of no stitches",
            Self::NoRows => "no rows are to be knitted",
            Self::OffBed => "more than the bed of",
            Self::HoldAtCarriage => "the row would start there",
            Self::Held => "are on hold and cannot be",
            Self::NotHeld => "are to return, but",
            Self::Float => "a float over",
            Self::NoYarn => "is cut, and",
            Self::NotCut => "before it is joined elsewhere",
            Self::CutAlready => "is cut already",
            Self::YarnLeft => "when the piece is finished",
            Self::SameYarn => "is being knitted already",
            Self::NoPart => "there is no part called",
            Self::PartName => "is waiting already",
            Self::NotBeside => "is not next to the stitches",
            Self::LeftOver => "are still on the needles",
            Self::EdgeName => "is used for two edges",
            Self::OtherWidth => "the shaping is planned for",
            Self::NoRoom => "has no room",
            Self::Round => "the work is round and has no sides",
            Self::NotRound => "the work goes back and forth already",
            Self::PickedUpAtRight => "picked up by hand with the right side facing end at the left",
            Self::PickedUpAway => "by hand stitches are picked up where the yarn hangs",
            Self::Overlap => "to be hung on top of others",
        }
    }
}

/// Where a yarn is, and the way it has come: the needle of every loop, in order.
#[derive(Clone, Debug, Default)]
pub struct Yarn {
    /// The needle it hangs at and the side of it.
    pub at: Option<(i64, Side)>,
    /// Every loop it made.
    pub path: Vec<i64>,
}

/// What an edge came to.
#[derive(Clone, Debug, Default, Eq, PartialEq)]
pub struct Border {
    /// Rows along it.
    pub rows: u64,
    /// Stitches across it.
    pub stitches: u64,
    /// Whether stitches were bound off onto it by its name.
    pub bound: bool,
}

/// The work so far.
#[derive(Clone, Debug)]
pub struct Bench {
    pub(super) craft: Craft,
    pub(super) strip: Option<Strip>,
    pub(super) aside: Vec<Strip>,
    pub(super) begun: bool,
    pub(super) yarns: BTreeMap<String, Yarn>,
    pub(super) yarn: String,
    /// Where the carriage is.
    pub carriage: Side,
    /// Every edge by its name.
    pub borders: BTreeMap<String, Border>,
    /// Stitches cast on, picked up, begun on waste yarn.
    pub on: u64,
    /// Stitches bound off.
    pub off: u64,
    /// Stitches left live.
    pub live: u64,
    /// Rows of the counter.
    pub rows: u64,
    /// Ends of yarn.
    pub ends: u64,
    /// The most stitches at once.
    pub widest: usize,
}

impl Bench {
    /// An empty bench.
    #[must_use]
    pub fn new(craft: Craft) -> Self {
        Self {
            craft,
            strip: None,
            aside: Vec::new(),
            begun: false,
            yarns: BTreeMap::new(),
            yarn: "main".into(),
            carriage: Side::Right,
            borders: BTreeMap::new(),
            on: 0,
            off: 0,
            live: 0,
            rows: 0,
            ends: 0,
            widest: 0,
        }
    }

    /// The strip being worked.
    #[must_use]
    pub const fn strip(&self) -> Option<&Strip> {
        self.strip.as_ref()
    }

    /// The needle the working yarn hangs at and its side.
    #[must_use]
    pub fn hangs(&self) -> Option<(i64, Side)> {
        self.yarns.get(&self.yarn).and_then(|yarn| yarn.at)
    }

    /// Every loop of every yarn.
    #[must_use]
    pub fn loops(&self) -> u64 {
        self.yarns.values().map(|yarn| yarn.path.len() as u64).sum()
    }

    /// Does one step.
    ///
    /// # Errors
    /// What stands in its way.
    pub fn step(&mut self, step: &Step) -> Result<(), Stop> {
        self.act(step)?;
        let strips = || self.aside.iter().chain(&self.strip);
        self.widest = self.widest.max(strips().map(|strip| strip.cells.len()).sum());
        let Craft::Machine(bed) = self.craft else { return Ok(()) };
        let (left, right) = (i64::from(bed.left()), i64::from(bed.right()));
        let outside = |&place: &i64| place < -left || place >= right;
        if strips().any(|strip| strip.cells.keys().any(outside)) {
            return Err(Stop::OffBed);
        }
        Ok(())
    }

    /// Whether the work is done.
    ///
    /// # Errors
    /// What is left over.
    pub fn finish(&self) -> Result<(), Stop> {
        if !self.begun {
            return Err(Stop::NothingOn);
        }
        if self.aside.iter().chain(&self.strip).any(|strip| !strip.cells.is_empty()) {
            return Err(Stop::LeftOver);
        }
        if self.yarns.values().any(|yarn| yarn.at.is_some()) {
            return Err(Stop::YarnLeft);
        }
        Ok(())
    }

    pub(super) fn border(&mut self, name: &Name) -> Result<(), Stop> {
        if self.borders.contains_key(name.as_str()) {
            return Err(Stop::EdgeName);
        }
        self.borders.insert(name.to_string(), Border::default());
        Ok(())
    }

    pub(super) fn stitches(&mut self) -> Result<&mut Strip, Stop> {
        self.strip.as_mut().filter(|strip| !strip.cells.is_empty()).ok_or(Stop::NoStitches)
    }

    pub(super) fn flat(&mut self) -> Result<&mut Strip, Stop> {
        let strip = self.stitches()?;
        if strip.round { Err(Stop::Round) } else { Ok(strip) }
    }

    pub(super) fn hang(&mut self, place: i64, side: Side) {
        self.yarns.entry(self.yarn.clone()).or_default().at = Some((place, side));
    }

    pub(super) fn cut(&mut self) {
        self.ends += 1;
        self.yarns.entry(self.yarn.clone()).or_default().at = None;
    }

    /// The first cell that would be worked, where the yarn can reach it.
    pub(super) fn reach(&self) -> Result<(i64, Side), Stop> {
        let (at, side) = self.hangs().ok_or(Stop::NoYarn)?;
        let strip = self.strip.as_ref().ok_or(Stop::NoStitches)?;
        let first = strip.first_in_work(side).ok_or(Stop::NoStitches)?;
        if (first - at).abs() > 1 { Err(Stop::Float) } else { Ok((first, side)) }
    }
}

/// Knits a piece.
///
/// # Errors
/// The step, counted from 1, and what stands in its way.
pub fn knit(piece: &Piece) -> Result<Bench, (usize, Stop)> {
    let mut bench = Bench::new(piece.craft());
    for (index, step) in piece.steps().iter().enumerate() {
        bench.step(step).map_err(|stop| (index + 1, stop))?;
    }
    bench.finish().map_err(|stop| (piece.steps().len(), stop))?;
    Ok(bench)
}
