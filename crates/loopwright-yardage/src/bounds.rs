//! What a quantity may be: one table that docs, checks and errors read.
//!
//! A count is at most 10^7 and a rate is held over a common denominator of at
//! most 10^15, so every sum inside an estimate stays below 2^127.

/// The finest yarn, as one tex over this: 1/1000 tex, finer than any fibre.
pub const TEX_FINEST: i64 = 1_000;

/// The coarsest yarn in tex: one kilogram in a metre.
pub const TEX: i64 = 1_000_000;

/// The largest mass in grams: a thousand tonnes.
pub const MASS_G: i64 = 1_000_000_000;

/// The most plies in a yarn, or strands held together.
pub const PLIES: u32 = 100;

/// The most plies that the two numbers of a slash are read as: `10/2` is ten
/// and two plies, never ten plies.
pub const PLIES_IN_SLASH: i64 = 6;

/// The most stitches in one line of a tally, or in one row of a growing piece.
pub const STITCHES: u64 = 10_000_000;

/// The longest loop in millimetres.
pub const LOOP_MM: i64 = 1_000;

/// The most rows that can be asked of a remainder.
pub const ROWS: u32 = 1_000_000;

/// The most packages in one purchase.
pub const PACKAGES: u32 = 100_000;
