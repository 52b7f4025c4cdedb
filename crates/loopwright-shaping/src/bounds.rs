//! What a quantity may be: one table that docs, checks and errors read.
//!
//! Counts are at most [`COUNT`], below 2^24, so twice the product of two of them
//! is below 2^49 and every sum of a plan fits `u64`. A curve's samples are held
//! in parts of a stitch, [`SUBSTITCH`] to the stitch, below 2^40.

/// The largest count of stitches, rows or events.
pub const COUNT: u32 = loopwright_gauge::bounds::COUNT;

/// The most rows or stitches of a curve, several times what a garment needs: the
/// search for the nearest staircase grows faster than its rows.
pub const CURVE: u32 = 1_000;

/// The most steps that are tried to find the nearest staircase: a second's work, and a
/// hundred times what a garment needs. Memory grows with rows times stitches, to about
/// 100 MB.
pub const CURVE_STEPS: u32 = 40_000_000;

/// The finest part of a stitch a curve is told apart by: one in this many.
pub const SUBSTITCH: u32 = 65_536;

/// The most short rows of a piece, many times what a garment needs: each is told by itself.
pub const SHORT: u32 = 100_000;

/// The most events for which the shortest of all phrases is looked for.
pub const PHRASE: usize = 256;

pub(crate) mod range {
    use super::COUNT;
    use crate::Error;

    /// `given`, if it is at least `least` and at most [`COUNT`].
    pub(crate) fn count(what: &'static str, given: u32, least: u32) -> Result<u32, Error> {
        within(what, given, least, COUNT)
    }

    /// `given`, if it is in `least..=most`.
    pub(crate) fn within(
        what: &'static str,
        given: u32,
        least: u32,
        most: u32,
    ) -> Result<u32, Error> {
        if (least..=most).contains(&given) {
            return Ok(given);
        }
        Err(Error::range(what, &given, alloc::format!("in {least}..={most}")))
    }
}
