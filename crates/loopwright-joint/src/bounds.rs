//! What a joint rounding may hold: one table that docs, checks and errors read.
//!
//! With these bounds a linear form over counts stays below 2^61 and the whole
//! weighted miss, scaled to whole numbers, below 2^100: every intermediate
//! fits `i64` or `i128`.

/// The largest count, as everywhere else.
pub const COUNT: u32 = loopwright_gauge::bounds::COUNT;

/// The largest coefficient, and the largest numerator or denominator of a ratio
/// with its tolerance.
pub const COEFFICIENT: i64 = 1_000_000_000;

/// The largest total or offset of a sum, either side of zero.
pub const TOTAL: i64 = 1_000_000_000_000_000;

/// The most unknowns, and the most demands, of one problem.
pub const ITEMS: usize = 10_000;

/// The most characters of a name.
pub const NAME: usize = 200;

/// How much work a problem may take, unless it says otherwise: a step is about one
/// cell of a table, and so many are about a tenth of a second.
pub const STEPS: u64 = 5_000_000;

/// A linear form may not reach beyond this, either side of zero.
pub(crate) const FORM: i128 = 1 << 60;

/// The whole scaled weighted miss may not reach beyond this.
pub(crate) const PRICE: i128 = 1 << 100;
