//! Pieces written down as JSON, for other programs to write and have proved.

use crate::{Error, Knitted, Piece, check_pick_ups};
use alloc::vec::Vec;

/// A piece, and how often it is made.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
pub struct Copies {
    /// The piece.
    pub piece: Piece,
    /// How many of it are made; one where nothing is said.
    #[cfg_attr(feature = "serde", serde(default = "once"))]
    pub copies: u32,
}

#[cfg(feature = "serde")]
const fn once() -> u32 {
    1
}

/// Pieces in the order they are knitted, as they are written to a file.
///
/// The JSON has a `version`, which is 1, and `pieces`; each has a `piece` (`name`, `craft`
/// and `steps`) and its `copies`. A craft is `"hand"` or `{"machine": 200}` with the
/// needles of the bed; a step is its name in snake case with what it needs, such as
/// `{"knit": 60}` or `"cut"`; needles are `"L40"`.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::{Copies, Craft, Fabric, Piece, PieceFile, Side, Step};
/// let mut piece = Piece::new("swatch", Craft::Hand)?;
/// piece.push(Step::cast_on(Stitches::new(30)?, Fabric::Plain, Side::Right));
/// piece.push(Step::Knit(Rows::new(40)?));
/// piece.push(Step::bind_off_all("top"));
/// let file = PieceFile::new([Copies { piece, copies: 2 }]);
/// assert_eq!(file.replay()?[0].all_loops(), 1200);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields, try_from = "Written")
)]
#[non_exhaustive]
pub struct PieceFile {
    /// The version of the form.
    pub version: u32,
    /// The pieces.
    pub pieces: Vec<Copies>,
}

#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    version: u32,
    pieces: Vec<Copies>,
}

#[cfg(feature = "serde")]
impl TryFrom<Written> for PieceFile {
    type Error = Error;

    fn try_from(written: Written) -> Result<Self, Error> {
        match written.version {
            Self::VERSION => Ok(Self { version: Self::VERSION, pieces: written.pieces }),
            given => Err(crate::error::Kind::FileVersion { given, known: Self::VERSION }.into()),
        }
    }
}

impl PieceFile {
    /// The version that is read and written.
    pub const VERSION: u32 = 1;

    /// Pieces in the order they are knitted.
    #[must_use]
    pub fn new(pieces: impl IntoIterator<Item = Copies>) -> Self {
        Self { version: Self::VERSION, pieces: pieces.into_iter().collect() }
    }

    /// Knits every piece and checks what is picked up from one for another.
    ///
    /// # Errors
    /// As for [`Piece::replay`] and [`check_pick_ups`].
    pub fn replay(&self) -> Result<Vec<Knitted>, Error> {
        let knitted: Vec<Knitted> =
            self.pieces.iter().map(|made| made.piece.replay()).collect::<Result<_, _>>()?;
        let made: Vec<(&Knitted, u32)> =
            knitted.iter().zip(self.pieces.iter().map(|made| made.copies)).collect();
        check_pick_ups(&made)?;
        Ok(knitted)
    }
}
