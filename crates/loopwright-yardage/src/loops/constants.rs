//! Courses per length are kc/l, wales per length kw/l and loops per area ks/l²,
//! where l is the loop length. Every row was fitted to machine-knitted fabric of a
//! few tens of tex, at tightness factors of about 1.2 to 1.6 √tex/mm. For the
//! hundreds of tex of a thick hand-knit they are an extrapolation.

use crate::{Error, Spread};
use alloc::format;
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Exact, choices};

choices! {
    /// How the loops of a fabric are arranged.
    ///
    /// # Examples
    /// ```
    /// use loopwright_yardage::Structure;
    /// assert_eq!("1x1 rib".parse(), Ok(Structure::Rib1x1));
    /// ```
    #[non_exhaustive]
    pub enum Structure: "the structure of the fabric" {
        /// Plain knitting: stocking stitch.
        Plain = "plain" | "stocking stitch",
        /// One by one rib, every loop of both faces counted.
        Rib1x1 = "1x1 rib" | "rib 1x1",
        /// Two by one rib, every loop of both faces counted.
        Rib2x1 = "2x1 rib" | "rib 2x1",
        /// Interlock, every loop of both faces counted.
        Interlock = "interlock",
    }
}

choices! {
    /// How far the strain of knitting has left the fabric.
    ///
    /// # Examples
    /// ```
    /// use loopwright_yardage::RelaxationState;
    /// assert_eq!("Wet".parse(), Ok(RelaxationState::Wet));
    /// ```
    #[non_exhaustive]
    pub enum RelaxationState: "the relaxation" {
        /// Rested dry, off the needles.
        Dry = "dry",
        /// Wetted and dried flat.
        Wet = "wet",
        /// Washed and tumbled until it moves no more.
        Full = "full",
        /// Mill-finished.
        Finished = "finished",
        /// Not known: the spread runs from dry to full.
        Unknown = "unknown",
    }
}

/// A kind of fabric, as far as the loop model tells them apart.
///
/// It reads and prints `1x1 rib, wet`; a structure alone is of unknown relaxation.
///
/// # Examples
/// ```
/// use loopwright_yardage::{RelaxationState, RelaxedFabric, Structure};
/// let fabric: RelaxedFabric = "1x1 rib, wet".parse()?;
/// assert_eq!(fabric, RelaxedFabric::new(Structure::Rib1x1, RelaxationState::Wet));
/// assert_eq!("plain".parse::<RelaxedFabric>()?.to_string(), "plain, unknown");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[non_exhaustive]
pub struct RelaxedFabric {
    /// How its loops are arranged.
    pub structure: Structure,
    /// How far it has relaxed.
    pub relaxation: RelaxationState,
}

impl RelaxedFabric {
    /// A fabric of this structure in this state.
    #[must_use]
    pub const fn new(structure: Structure, relaxation: RelaxationState) -> Self {
        Self { structure, relaxation }
    }
}

impl fmt::Display for RelaxedFabric {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {}", self.structure, self.relaxation)
    }
}

impl FromStr for RelaxedFabric {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let (structure, relaxation) = match text.split_once(',') {
            Some((structure, relaxation)) => (structure, relaxation.trim().parse()?),
            None => (text, RelaxationState::Unknown),
        };
        Ok(Self { structure: structure.trim().parse()?, relaxation })
    }
}

choices! {
    /// How a figure in a table is known.
    ///
    /// # Examples
    /// ```
    /// use loopwright_yardage::constants::{Status, TABLE};
    /// assert!(TABLE.iter().any(|row| row.status == Status::Read));
    /// ```
    #[non_exhaustive]
    pub enum Status: "how a figure is known" {
        /// Read in the source.
        Read = "read",
        /// From memory of the source, and near a figure that was read.
        FromMemory = "from memory",
        /// Worked out from figures in the source.
        Worked = "worked out",
        /// A working figure of this crate, without a source.
        WorkingFigure = "working figure",
    }
}

/// One row of the table: low, likely and high of each constant, in thousandths. It
/// reads and prints the fabric it belongs to.
///
/// # Examples
/// ```
/// use loopwright_yardage::{LoopConstants, RelaxationState, Structure};
/// let jersey = LoopConstants::find(Structure::Plain, RelaxationState::Full).expect("a row");
/// assert_eq!(jersey.ks().expect("an area constant").likely().to_string(), "231/10");
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct LoopConstants {
    /// The structure it was measured on.
    pub structure: Structure,
    /// The state it was measured in.
    pub relaxation: RelaxationState,
    kc: Option<[i64; 3]>,
    kw: Option<[i64; 3]>,
    ks: [i64; 3],
    /// Where it comes from.
    pub source: &'static str,
    /// How it is known.
    pub status: Status,
}

impl LoopConstants {
    /// The course constant, where one was found.
    #[must_use]
    pub fn kc(&self) -> Option<Spread<Exact>> {
        self.kc.and_then(thousandths)
    }

    /// The wale constant, where one was found.
    #[must_use]
    pub fn kw(&self) -> Option<Spread<Exact>> {
        self.kw.and_then(thousandths)
    }

    /// The area constant.
    #[must_use]
    pub fn ks(&self) -> Option<Spread<Exact>> {
        thousandths(self.ks)
    }

    /// The row for a structure and a state, if one was found.
    #[must_use]
    pub fn find(structure: Structure, relaxation: RelaxationState) -> Option<&'static Self> {
        TABLE.iter().find(|row| row.structure == structure && row.relaxation == relaxation)
    }
}

impl fmt::Display for LoopConstants {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        RelaxedFabric::new(self.structure, self.relaxation).fmt(f)
    }
}

impl FromStr for LoopConstants {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let fabric: RelaxedFabric = text.parse()?;
        let row = Self::find(fabric.structure, fabric.relaxation);
        row.copied()
            .ok_or_else(|| Error::missing("the loop model", format!("constants for {fabric}")))
    }
}

fn thousandths([low, likely, high]: [i64; 3]) -> Option<Spread<Exact>> {
    let part = |n| Exact::new(n, 1_000).ok();
    Spread::new(part(low)?, part(likely)?, part(high)?).ok()
}

/// Every row there is.
///
/// Knapton's spread (kc 0.2 in 5.5, kw 0.1 in 4.2, ks 1.0 in 23.1) is carried over to
/// the rows printed without one. The ribs' ks were inferred from a trade formula of
/// mass per area; their spread is the ±14 % by which mill rows scatter about it.
pub const TABLE: [LoopConstants; 7] = [
    LoopConstants {
        structure: Structure::Plain,
        relaxation: RelaxationState::Dry,
        kc: Some([4_800, 5_000, 5_200]),
        kw: Some([3_700, 3_800, 3_900]),
        ks: [18_200, 19_000, 19_800],
        source: "Munden 1959, wool",
        status: Status::FromMemory,
    },
    LoopConstants {
        structure: Structure::Plain,
        relaxation: RelaxationState::Wet,
        kc: Some([5_100, 5_300, 5_500]),
        kw: Some([4_000, 4_100, 4_200]),
        ks: [20_700, 21_600, 22_500],
        source: "Munden 1959, wool",
        status: Status::FromMemory,
    },
    LoopConstants {
        structure: Structure::Plain,
        relaxation: RelaxationState::Full,
        kc: Some([5_300, 5_500, 5_700]),
        kw: Some([4_100, 4_200, 4_300]),
        ks: [22_100, 23_100, 24_100],
        source: "GATE 2015 question 54 (kc, kw); spread from Knapton et al. 1968, wool",
        status: Status::Read,
    },
    LoopConstants {
        structure: Structure::Plain,
        relaxation: RelaxationState::Finished,
        kc: None,
        kw: None,
        ks: [19_600, 20_440, 21_330],
        source: "textilecalculations.com, stitch lengths: g/m² = 12068.59/(Ne·l), cotton",
        status: Status::Worked,
    },
    LoopConstants {
        structure: Structure::Rib1x1,
        relaxation: RelaxationState::Finished,
        kc: None,
        kw: None,
        ks: [23_930, 27_820, 31_720],
        source: "textilecalculations.com, stitch lengths: g/m² = 16431.497/(Ne·l), cotton",
        status: Status::Worked,
    },
    LoopConstants {
        structure: Structure::Rib2x1,
        relaxation: RelaxationState::Finished,
        kc: None,
        kw: None,
        ks: [27_680, 32_180, 36_690],
        source: "textilecalculations.com, stitch lengths: g/m² = 19005.333/(Ne·l), cotton",
        status: Status::Worked,
    },
    LoopConstants {
        structure: Structure::Interlock,
        relaxation: RelaxationState::Full,
        kc: Some([5_430, 5_640, 5_850]),
        kw: Some([3_900, 4_000, 4_100]),
        ks: [21_580, 22_560, 23_540],
        source: "Roy, Varshney & Kothari, IJFTR (abstract), bleached cotton",
        status: Status::Read,
    },
];
