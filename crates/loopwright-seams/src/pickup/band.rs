//! Bands knitted to length, and front bands on two sides that must agree.

use crate::{Edge, Error, PickUpLine, Span};
use loopwright_gauge::{Exact, Fitted, Gauge, Length, Repeat, Round, Rows, Stitches};

/// The most a band may be shorter than its edge, in thousandths of the edge.
const SHORTER: u32 = 500;

/// The rows of a band knitted lengthwise and sewn to `edge`, shorter than the edge by
/// `shorter` thousandths so that it lies flat when stretched a little.
///
/// # Errors
/// When `shorter` is above 500, or no count of rows can be held.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Length, Repeat, Round, Rows};
/// use loopwright_seams::{Edge, knitted_band};
/// let plain: Gauge = "20 x 28 / 10 cm".parse()?;
/// let rib: Gauge = "24 x 30 / 10 cm".parse()?;
/// let front = Edge::selvedge("right front", Rows::new(140)?, plain)?; // 50 cm
/// let band = knitted_band(&front, rib, 50, Repeat::even(), Round::HalfUp)?;
/// assert_eq!(band.count.get(), 142); // 47.5 cm are 142.5 rows
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
pub fn knitted_band(
    edge: &Edge,
    band: Gauge,
    shorter: u32,
    repeat: Repeat,
    round: Round,
) -> Result<Fitted<Rows>, Error> {
    if shorter > SHORTER {
        let what = "how much shorter the band is, in thousandths,";
        return Err(Error::range(what, shorter, "in 0..=500"));
    }
    let share = Exact::new(i64::from(1_000 - shorter), 1_000)?;
    let length = edge.length().middle()?.scaled(share)?;
    Ok(band.fit::<Rows>(length, repeat, round)?)
}

/// The same count picked up along both fronts, so that the bands agree and buttons
/// meet their holes.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Repeat, Round};
/// use loopwright_seams::{Edge, FrontBands, PickUpLine};
/// let (plain, rib) = ("28 x 40 / 10 cm".parse()?, "24 x 32 / 10 cm".parse()?);
/// let left = PickUpLine::new(rib).along(Edge::read("left front", "200 rows", plain)?);
/// let right = PickUpLine::new(rib).along(Edge::read("right front", "198 rows", plain)?);
/// let bands = FrontBands::new(&left, &right, Repeat::multiple_of(4)?.plus(2)?, Round::HalfUp)?;
/// assert_eq!(bands.each.count.get(), 118); // for 49.75 cm, between 50 and 49.5
/// assert_eq!(bands.difference.low(), Length::literal_mm(5));
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct FrontBands {
    /// The count for each band, from the mean of the two lengths.
    pub each: Fitted<Stitches>,
    /// How much longer the left front is than the right.
    pub difference: Span,
    /// How much longer the band is than the left front; below zero is shorter.
    pub on_left: Length,
    /// How much longer the band is than the right front.
    pub on_right: Length,
}

impl FrontBands {
    /// One count for both fronts.
    ///
    /// # Errors
    /// When either line is empty, or no count can be held.
    pub fn new(
        left: &PickUpLine,
        right: &PickUpLine,
        repeat: Repeat,
        round: Round,
    ) -> Result<Self, Error> {
        let (long, short) = (left.length()?, right.length()?);
        let mean = long.checked_add(short)?.middle()?;
        let mean = mean.scaled(Exact::new(1, 2)?)?;
        let each = left.band().fit::<Stitches>(mean, repeat, round)?;
        Ok(Self {
            each,
            difference: long.checked_sub(short)?,
            on_left: each.length.likely().checked_sub(long.middle()?)?,
            on_right: each.length.likely().checked_sub(short.middle()?)?,
        })
    }
}
