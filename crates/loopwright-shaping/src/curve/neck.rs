use super::{AtOnce, Curve, CurveBuilder};
use crate::error::Error;
use crate::{Bend, Outline};
use loopwright_gauge::{Length, Rows, Stitches};

/// What a [`Neck`] is asked to be.
#[derive(Clone, Copy, Debug)]
#[must_use]
pub struct NeckBuilder<'a> {
    stitches: Stitches,
    side: CurveBuilder<'a>,
    centre: AtOnce,
}

/// A neck: stitches bound off at the centre, then both sides alike along a curve.
///
/// Each side is the nearest staircase as [`Curve`] defines it, in steps of at most
/// three stitches if nothing else is said; the outline's width is half of the neck, so
/// an odd neck has a stitch on its centre line.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Rows, Stitches};
/// use loopwright_shaping::{AtOnce, Bend, Neck, Outline};
/// let round = Outline::quarter_ellipse(Length::cm(9)?, Length::cm(8)?, Bend::Slowing)?;
/// let neck = Neck::builder(&round, Stitches::new(32)?, Rows::new(22)?)
///     .centre(AtOnce::AtLeast(Stitches::new(11)?))
///     .build()?;
/// assert_eq!(neck.centre().get() + 2 * neck.side().stitches().get(), 32);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "crate::serial::NeckParts"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Neck {
    pub(crate) centre: Stitches,
    pub(crate) side: Curve,
}

impl<'a> NeckBuilder<'a> {
    /// Changes the rules of the sides; see [`CurveBuilder`].
    pub fn side(self, change: impl FnOnce(CurveBuilder<'a>) -> CurveBuilder<'a>) -> Self {
        Self { side: change(self.side), ..self }
    }

    /// How many stitches are bound off at the centre, over both halves; as many as
    /// are nearest, if nothing is said.
    pub const fn centre(self, at_once: AtOnce) -> Self {
        Self { centre: at_once, ..self }
    }

    /// Finds the nearest neck.
    ///
    /// # Errors
    /// As for [`CurveBuilder::build`]; and when the centre asked for leaves an odd
    /// number of stitches for the two sides.
    pub fn build(self) -> Result<Neck, Error> {
        let odd = self.stitches.get() % 2;
        let opening = match self.centre {
            AtOnce::Exactly(n) if n.get() % 2 != odd => {
                let allowed = if odd == 1 { "odd, as the neck is" } else { "even, as the neck is" };
                return Err(Error::range("the centre of the neck", &n, allowed));
            }
            AtOnce::Exactly(n) => AtOnce::Exactly(Stitches::new(n.get() / 2)?),
            AtOnce::AtLeast(n) => {
                let half = n.get().saturating_sub(odd).div_ceil(2);
                AtOnce::AtLeast(Stitches::new(half)?)
            }
            AtOnce::Nothing if odd == 0 => AtOnce::Nothing,
            AtOnce::Nothing => AtOnce::Exactly(Stitches::ZERO),
            AtOnce::Nearest => AtOnce::Nearest,
        };
        let mut side = self.side.opening(opening);
        side.half = odd == 1;
        let mut side = side.build()?;
        // The opening is bound off once for both sides, as the centre.
        let centre = Stitches::new(2 * side.opening.get() + odd)?;
        side.stitches = side.stitches.checked_sub(side.opening)?;
        side.opening = Stitches::ZERO;
        Ok(Neck { centre, side })
    }
}

impl Neck {
    /// Starts a neck of `stitches`, `rows` deep, each half along `outline`.
    pub fn builder(outline: &Outline, stitches: Stitches, rows: Rows) -> NeckBuilder<'_> {
        let half = Stitches::clamped(stitches.get() / 2);
        // Steps of three, two and one, as the trade has them.
        let side = Curve::builder(outline, half, rows).most(Stitches::literal(3));
        NeckBuilder { stitches, side, centre: AtOnce::Nearest }
    }

    /// The usual round neck: each half a quarter of an ellipse.
    ///
    /// # Errors
    /// As for [`NeckBuilder::build`].
    pub fn round(stitches: Stitches, rows: Rows) -> Result<Self, Error> {
        let unit = Length::cm(1)?;
        let quarter = Outline::quarter_ellipse(unit, unit, Bend::Slowing)?;
        Self::builder(&quarter, stitches, rows).build()
    }

    /// Stitches bound off at the centre.
    #[must_use]
    pub const fn centre(&self) -> Stitches {
        self.centre
    }

    /// One side after the centre; the other is the same, mirrored.
    #[must_use]
    pub const fn side(&self) -> &Curve {
        &self.side
    }
}
