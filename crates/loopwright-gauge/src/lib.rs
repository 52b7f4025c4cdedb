//! Exact lengths, counts, gauges and rounding for knitting.
//!
//! Every quantity is a type, every value is an exact rational number, and a
//! length becomes a whole count only where a [`Round`] says how.
//!
//! ```
//! use loopwright_gauge::{Gauge, Length, Repeat, Round};
//!
//! let gauge: Gauge = "28 x 40 / 10 cm".parse()?;
//! let width: Length = "20 1/2 in".parse()?;
//! let fitted = gauge.fit_stitches(width, Repeat::multiple_of(6)?.plus(2), Round::HalfUp)?;
//! assert_eq!(fitted.count.get(), 146);
//! # Ok::<(), loopwright_gauge::Error>(())
//! ```
//!
//! # What this crate does not do
//!
//! It does not decide where shaping falls, does not know what a garment is, and
//! never lets a floating-point number become a count.

#![no_std]

extern crate alloc;
#[cfg(any(test, feature = "std"))]
extern crate std;

mod allowed;
pub mod bounds;
mod change;
mod count;
mod ease;
mod error;
mod exact;
mod fit;
mod gauge;
mod gcd;
mod length;
mod measured;
mod needle;
mod number;
mod numbers;
mod open_range;
mod per_length;
mod range;
mod reading;
mod regauge;
mod repeat;
mod round;
#[cfg(feature = "schema")]
mod schema;
#[cfg(feature = "serde")]
mod serial;
mod swatch;
mod unit;
mod yarn_class;

pub use allowed::CountRange;
pub use change::Change;
pub use count::{Count, Rows, Stitches};
pub use ease::{Ease, EaseChart, EaseClass};
pub use error::Error;
pub use exact::Exact;
pub use fit::Fitted;
pub use gauge::Gauge;
pub use length::{Length, LengthDisplay, Precision};
pub use measured::{Measured, SwatchGauge};
pub use needle::{us_needle_diameters, us_needle_numbers};
pub use numbers::{Number, Numbers, Sum};
pub use open_range::OpenRange;
pub use per_length::PerLength;
pub use range::LengthRange;
pub use reading::{Direction, Reading};
pub use regauge::{Regauge, Regauged, Warning};
pub use repeat::Repeat;
pub use round::Round;
pub use swatch::{Outlier, Swatch, Treatment};
pub use unit::Unit;
pub use yarn_class::YarnClass;
