//! What is measured and counted: lengths, counts, gauges, ease.

pub(crate) mod count;
mod ease;
pub(crate) mod gauge;
mod length;
pub(crate) mod per_length;
mod unit;

pub use count::{Count, Rows, Stitches};
pub use ease::Ease;
pub use gauge::Gauge;
pub use length::{Length, LengthDisplay, Precision};
pub use per_length::PerLength;
pub use unit::Unit;
