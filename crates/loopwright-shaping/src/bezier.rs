//! Cubic Béziers, flattened to straight lines before anything is counted.
//!
//! The only module with floating-point numbers. What they make is snapped to
//! [`GRID`]ths of a millimetre, and from there on every length is exact; how finely a
//! curve is flattened cannot change a count by more than [`TOLERANCE`] does.

use crate::Outline;
use crate::error::Error;
use alloc::vec::Vec;
use kurbo::{CubicBez, PathEl, Point, Shape};
use loopwright_gauge::{Exact, Length};

/// Parts of a millimetre that points are snapped to.
const GRID: i64 = 65_536;

/// How far a flattened curve may lie from the true one, in millimetres: a stitch of
/// the finest machine is a hundred times as wide.
const TOLERANCE: f64 = 0.01;

/// A point, so far across and so far up from the beginning of the curve.
type Place = (Length, Length);

impl Outline {
    /// Goes on along a cubic Bézier: both control points and the end are given from
    /// where the outline is now, so far across and so far up.
    ///
    /// # Errors
    /// When the curve turns back, across or up, by more than a grid cell; or when a
    /// length is out of bounds.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Length;
    /// use loopwright_shaping::Outline;
    /// let at = |across, up| Ok::<_, loopwright_gauge::Error>((Length::cm(across)?, Length::cm(up)?));
    /// let armhole = Outline::start().cubic(at(4, 0)?, at(6, 3)?, at(6, 8)?)?;
    /// assert_eq!(armhole.width()?, Length::cm(6)?);
    /// assert_eq!(armhole.height()?, Length::cm(8)?);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn cubic(self, first: Place, second: Place, end: Place) -> Result<Self, Error> {
        let mut outline = self;
        let mut last = (0, 0);
        for (across, up) in flatten(first, second, end)? {
            // Rounding alone may step back by one cell; a curve may not.
            let next = (across.max(last.0), up.max(last.1));
            if next.0 - across > 1 || next.1 - up > 1 {
                let given = alloc::format!("{} to {}", say(first), say(end));
                let allowed = "always on, across and up: an outline never turns back";
                return Err(Error::range("the way of a Bézier curve", &given, allowed));
            }
            outline = outline.line(cells(next.0 - last.0)?, cells(next.1 - last.1)?)?;
            last = next;
        }
        // The end is exact, whatever was snapped on the way.
        let (across, up) = (cells(last.0)?, cells(last.1)?);
        outline.line(end.0.checked_sub(across)?, end.1.checked_sub(up)?)
    }
}

fn cells(n: i64) -> Result<Length, Error> {
    Ok(Length::from_millimetres(Exact::new(n, GRID)?)?)
}

fn say(place: Place) -> alloc::string::String {
    alloc::format!("({}, {})", place.0, place.1)
}

/// The corners of the flattened curve, snapped down to the grid, without its beginning.
fn flatten(first: Place, second: Place, end: Place) -> Result<Vec<(i64, i64)>, Error> {
    let curve = CubicBez::new(Point::ZERO, point(first), point(second), point(end));
    let mut corners = Vec::new();
    kurbo::flatten(curve.path_elements(TOLERANCE), TOLERANCE, |element| {
        if let PathEl::LineTo(point) = element {
            corners.push((snap(point.x), snap(point.y)));
        }
    });
    // A cell past the end is rounding, and the end is kept exactly; more is a way back.
    let (across, up) = (grid(end.0)?, grid(end.1)?);
    let kept = |cell: i64, end: i64| if cell == end.saturating_add(1) { end } else { cell };
    for corner in &mut corners {
        *corner = (kept(corner.0, across), kept(corner.1, up));
    }
    Ok(corners)
}

fn grid(length: Length) -> Result<i64, Error> {
    let cells = length.millimetres().checked_mul(Exact::literal(GRID, 1))?;
    Ok(cells.to_whole(loopwright_gauge::Round::Floor)?)
}

fn point(place: Place) -> Point {
    Point::new(place.0.millimetres().to_f64_lossy(), place.1.millimetres().to_f64_lossy())
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::float_arithmetic,
    reason = "a point of a drawn curve is snapped to whole cells here; `as` saturates"
)]
fn snap(millimetres: f64) -> i64 {
    (millimetres * GRID as f64) as i64
}
