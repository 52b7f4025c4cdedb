//! Outlines as staircases: necks, armholes, sleeve caps, hems.

mod at_once;
mod bound;
mod builder;
mod neck;
mod rules;
mod sample;
mod solve;
mod words;

pub use at_once::AtOnce;
pub use builder::CurveBuilder;
pub use neck::{Neck, NeckBuilder};
pub use words::CurveWords;

use crate::error::Error;
use crate::{Event, Outline};
use alloc::vec::Vec;
use loopwright_gauge::{Exact, Gauge, Length, Rows, Stitches};

/// The staircase nearest to an outline, under the rules of the fabric.
///
/// In every row the stitches done are compared with the outline in the middle of
/// that row. Objective: the smallest largest deviation; then the smallest sum of
/// deviations; then, from the last step back, the staircase whose step comes in the
/// earlier row, or has more done in the same row. The rules, all kept by every
/// staircase that is compared:
///
/// - one stitch only on legal rows, several only on the rows where the carriage is
///   at their side, and never more than the most allowed;
/// - where the outline slows down, no step is quicker than the one before, nor of less
///   than half its stitches; where it quickens, none is slower, nor of more than twice
///   its stitches; along a straight line only the two rates around it are used. So a
///   curve never zig-zags, and a two lies between a three and a one;
/// - steps of several stitches follow one another without a break, from the first row
///   on where the outline slows down from the start.
///
/// The outline is stretched to the given stitches and rows, its corners snapped to
/// [`SUBSTITCH`](crate::bounds::SUBSTITCH)ths of a stitch and a row; deviations are
/// exact for that outline.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Rows, Stitches};
/// use loopwright_shaping::{AtOnce, Bend, Curve, Outline};
/// let quarter = Outline::quarter_ellipse(Length::cm(9)?, Length::cm(8)?, Bend::Slowing)?;
/// let side = Curve::builder(&quarter, Stitches::new(16)?, Rows::new(22)?)
///     .opening(AtOnce::Nearest)
///     .build()?;
/// assert_eq!(side.opening().get(), 3);
/// let sizes: Vec<u32> = side.events().iter().map(|event| event.stitches.get()).collect();
/// assert_eq!(sizes, [4, 2, 2, 1, 1, 1, 1, 1]);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "crate::serial::CurveParts"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Curve {
    pub(crate) stitches: Stitches,
    pub(crate) rows: Rows,
    pub(crate) opening: Stitches,
    pub(crate) events: Vec<Event>,
    pub(crate) closing: Stitches,
    pub(crate) deviation: Exact,
}

impl Curve {
    /// Starts a curve of `stitches` over `rows` along `outline`.
    pub const fn builder(outline: &Outline, stitches: Stitches, rows: Rows) -> CurveBuilder<'_> {
        CurveBuilder::new(outline, stitches, rows)
    }

    /// All stitches shaped.
    #[must_use]
    pub const fn stitches(&self) -> Stitches {
        self.stitches
    }

    /// All rows, the straight ones at the end included.
    #[must_use]
    pub const fn rows(&self) -> Rows {
        self.rows
    }

    /// Stitches shaped at once before the first row.
    #[must_use]
    pub const fn opening(&self) -> Stitches {
        self.opening
    }

    /// Stitches left to be shaped at once after the last row.
    #[must_use]
    pub const fn closing(&self) -> Stitches {
        self.closing
    }

    /// The steps between the opening and the closing, in knitting order.
    #[must_use]
    pub fn events(&self) -> &[Event] {
        &self.events
    }

    /// Stitches shaped once `row` is worked, the opening included.
    #[must_use]
    pub fn done_at(&self, row: Rows) -> Stitches {
        let worked = self.events.partition_point(|event| event.row <= row);
        let steps = self.events.iter().take(worked).map(|event| event.stitches.get());
        Stitches::clamped(self.opening.get() + steps.sum::<u32>())
    }

    /// Straight rows after the last step.
    #[must_use]
    pub fn plain_after(&self) -> Rows {
        self.rows.saturating_sub(self.events.last().map_or(Rows::ZERO, |event| event.row))
    }

    /// The largest deviation from the outline in any row, in stitches.
    #[must_use]
    pub const fn deviation(&self) -> Exact {
        self.deviation
    }

    /// The largest deviation as a width at `gauge`.
    ///
    /// # Errors
    /// When the width cannot be held exactly.
    pub fn deviation_width(&self, gauge: Gauge) -> Result<Length, Error> {
        let mm = self.deviation.checked_div(gauge.per_mm::<Stitches>()?)?;
        Ok(Length::from_millimetres(mm)?)
    }
}
