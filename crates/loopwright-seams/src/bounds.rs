//! What an edge may be: one table that docs, checks and errors read.
//!
//! Lengths and counts keep the bounds of [`loopwright_gauge::bounds`]; a length is
//! at most 10^9 mm, which is 10^15 nm, so the sum of two squares on the nanometre
//! grid is below 2^101 and fits `u128`.

/// The most steps of a stepped edge, or points of an outline.
pub const STEPS: usize = 100_000;

/// The most edges that can be joined into one.
pub const PARTS: usize = 1_000;

/// The longest name of an edge, in characters.
pub const NAME: usize = 200;

/// The largest numerator or denominator of a pick-up rate.
pub const RATE: u32 = 10_000;

/// The most places (rows or stitches) to pick up along in one edge, or to space
/// buttonholes over.
pub const PLACES: u32 = 100_000;

/// The most buttonholes of a band.
pub const HOLES: u32 = 10_000;
