//! The outline a curve is meant to follow, in lengths.

use crate::error::Error;
use alloc::format;
use alloc::vec::Vec;
use loopwright_gauge::{Length, choices};

choices! {
    /// Which way a quarter of an ellipse bends.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::Bend;
    /// assert_eq!("slowing".parse::<Bend>()?, Bend::Slowing);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub enum Bend: "the bend" {
        /// Across first, then up: a neck from its centre, an armhole from its underarm.
        Slowing = "slowing",
        /// Up first, then across: the top of a sleeve cap, the lower corner of a hem.
        Quickening = "quickening",
    }
}

/// A part of an outline: so far across and so far up.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) enum Piece {
    Line { across: Length, up: Length },
    Quarter { across: Length, up: Length, bend: Bend },
}

impl Piece {
    pub(crate) const fn size(self) -> (Length, Length) {
        match self {
            Self::Line { across, up } | Self::Quarter { across, up, .. } => (across, up),
        }
    }
}

/// An outline that only ever goes on across and up: straight lines and quarters of
/// ellipses, one after another.
///
/// Across is measured in the direction of the shaping, up in the direction of
/// knitting. An outline is a shape: a curve stretches it to the stitches and rows it
/// is given.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_shaping::{Bend, Outline};
/// let cap = Outline::start()
///     .line(Length::cm(2)?, Length::ZERO)?
///     .quarter(Length::cm(5)?, Length::cm(6)?, Bend::Slowing)?
///     .quarter(Length::cm(5)?, Length::cm(6)?, Bend::Quickening)?;
/// assert_eq!(cap.width()?, Length::cm(12)?);
/// assert_eq!(cap.height()?, Length::cm(12)?);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Vec<Piece>", into = "Vec<Piece>"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Outline {
    pieces: Vec<Piece>,
}

impl Outline {
    /// An outline that has not gone anywhere yet.
    #[must_use]
    pub const fn start() -> Self {
        Self { pieces: Vec::new() }
    }

    /// A quarter of an ellipse: the usual neck and armhole.
    ///
    /// # Errors
    /// When either length is not above zero.
    pub fn quarter_ellipse(across: Length, up: Length, bend: Bend) -> Result<Self, Error> {
        Self::start().quarter(across, up, bend)
    }

    /// Straight lines through `points`, each (across, up) from the beginning of the
    /// outline, which is the first point.
    ///
    /// # Errors
    /// When a point does not lie beyond the one before it, across or up.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Length;
    /// use loopwright_shaping::Outline;
    /// let points = [(Length::ZERO, Length::ZERO), (Length::cm(4)?, Length::cm(2)?)];
    /// assert_eq!(Outline::polyline(&points)?.height()?, Length::cm(2)?);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn polyline(points: &[(Length, Length)]) -> Result<Self, Error> {
        points.windows(2).try_fold(Self::start(), |outline, pair| match pair {
            [a, b] => outline.line(b.0.checked_sub(a.0)?, b.1.checked_sub(a.1)?),
            _ => Ok(outline),
        })
    }

    /// Goes on in a straight line. A line that goes nowhere adds nothing.
    ///
    /// # Errors
    /// When either length is below zero.
    pub fn line(self, across: Length, up: Length) -> Result<Self, Error> {
        for (what, length) in
            [("the way across of an outline", across), ("the way up of an outline", up)]
        {
            if length < Length::ZERO {
                return Err(Error::range(
                    what,
                    &length,
                    "zero or more: an outline never turns back",
                ));
            }
        }
        if across == Length::ZERO && up == Length::ZERO {
            return Ok(self);
        }
        Ok(self.with(Piece::Line { across, up }))
    }

    /// Goes on in a quarter of an ellipse.
    ///
    /// # Errors
    /// When either length is not above zero.
    pub fn quarter(self, across: Length, up: Length, bend: Bend) -> Result<Self, Error> {
        for (what, length) in
            [("the width of a quarter ellipse", across), ("the height of a quarter ellipse", up)]
        {
            if !length.is_positive() {
                return Err(Error::range(what, &length, "above zero"));
            }
        }
        Ok(self.with(Piece::Quarter { across, up, bend }))
    }

    fn with(mut self, piece: Piece) -> Self {
        self.pieces.push(piece);
        self
    }

    /// How far the outline goes across.
    ///
    /// # Errors
    /// When the length is out of bounds or cannot be held exactly.
    pub fn width(&self) -> Result<Length, Error> {
        self.sum(|piece| piece.size().0)
    }

    /// How far the outline goes up.
    ///
    /// # Errors
    /// When the length is out of bounds or cannot be held exactly.
    pub fn height(&self) -> Result<Length, Error> {
        self.sum(|piece| piece.size().1)
    }

    fn sum(&self, side: fn(&Piece) -> Length) -> Result<Length, Error> {
        let add = |sum: Length, piece| sum.checked_add(side(piece));
        Ok(self.pieces.iter().try_fold(Length::ZERO, add)?)
    }

    pub(crate) fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Both sides of the box around the outline, neither of them zero.
    pub(crate) fn frame(&self) -> Result<(Length, Length), Error> {
        let (width, height) = (self.width()?, self.height()?);
        if width.is_positive() && height.is_positive() {
            return Ok((width, height));
        }
        let given = format!("{width} across and {height} up");
        Err(Error::range("the outline", &given, "above zero both across and up"))
    }
}

impl TryFrom<Vec<Piece>> for Outline {
    type Error = Error;

    fn try_from(pieces: Vec<Piece>) -> Result<Self, Error> {
        pieces.into_iter().try_fold(Self::start(), |outline, piece| match piece {
            Piece::Line { across, up } => outline.line(across, up),
            Piece::Quarter { across, up, bend } => outline.quarter(across, up, bend),
        })
    }
}

impl From<Outline> for Vec<Piece> {
    fn from(outline: Outline) -> Self {
        outline.pieces
    }
}
