//! What a quantity may be: one table that docs, checks and errors read.
//!
//! An [`Exact`](crate::Exact) holds a numerator and a denominator of 63 bits, so
//! the sum or product of two of them is below 2^127 and fits `i128`; whatever
//! comes back is reduced and must fit 63 bits again, or it is an overflow error.

/// The longest length either side of zero, in whole millimetres (1,000 km: a
/// yarn on a cone, with room to spare).
pub const LENGTH_MM: i64 = 1_000_000_000;

/// The largest count of stitches or rows.
pub const COUNT: u32 = 10_000_000;

/// The most stitches or rows a gauge may have in 10 cm.
pub const GAUGE_PER_10CM: i64 = 1_000;

/// The fewest: one stitch or row in this many decimetres.
pub const GAUGE_DECIMETRES_PER_COUNT: i64 = 10;

/// The largest multiple, extra or edge of a [`Repeat`](crate::Repeat).
pub const REPEAT: u32 = 10_000;

/// The most readings a [`Swatch`](crate::Swatch) may have.
pub const READINGS: usize = 100;

/// The most candidates asked for at each side of an ideal count.
pub const CANDIDATES: u32 = 100;

/// Ease in percent of the body.
pub const EASE_PERCENT: core::ops::RangeInclusive<i32> = -90..=300;

/// The most counts that [`Numbers`](crate::Numbers) may hold.
pub const NUMBERS: usize = 1_000;
