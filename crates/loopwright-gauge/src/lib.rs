//! Exact lengths, counts, gauges and rounding for knitting: from what was measured
//! to what can be knitted, with its error.
//!
//! Every quantity is a type, every value is an exact rational number, and a
//! length becomes a whole count only where a [`Round`] says how.
//!
//! ```
//! use loopwright_gauge::{Gauge, Length, Repeat, Round, Stitches};
//!
//! let gauge: Gauge = "28 x 40 / 10 cm".parse()?;
//! let width: Length = "20 1/2 in".parse()?;
//! let fitted = gauge.fit::<Stitches>(width, Repeat::multiple_of(6)?.plus(2)?, Round::HalfUp)?;
//! assert_eq!(fitted.count.get(), 146);
//! # Ok::<(), loopwright_gauge::Error>(())
//! ```
//!
//! A [`Swatch`] is a measurement, so its gauge has a low and a high, and so has every
//! width that comes of it:
//!
//! ```
//! use loopwright_gauge::{Repeat, Round, Stitches, Swatch, Treatment};
//!
//! let readings = ["40 st = 13.3 cm".parse()?, "60 rows = 15.4 cm".parse()?];
//! let gauge = Swatch::new(readings, Treatment::Washed)?.gauge()?;
//! let back = gauge.fit::<Stitches>("52 cm".parse()?, Repeat::even(), Round::HalfUp)?;
//! assert_eq!(back.count.get(), 156);
//! assert!(back.length.low() < "512 mm".parse()? && back.length.high() > "525 mm".parse()?);
//! # Ok::<(), loopwright_gauge::Error>(())
//! ```
//!
//! # Features
//!
//! - `std` (on by default): only the error type needs it; without it the crate needs
//!   `alloc`.
//! - `serde`: every type is read through the same checks as its `new`.
//! - `schema`: JSON Schema of every type, through `schemars`.
//!
//! # What this crate does not do
//!
//! It does not decide where shaping falls, does not know what a garment is, does not
//! round counts that depend on one another together, and never lets a floating-point
//! number become a count.

#![no_std]

extern crate alloc;
#[cfg(any(test, feature = "std"))]
extern crate std;

pub mod bounds;
mod choice;
pub mod english;
mod error;
mod fit;
mod number;
mod quantity;
mod regauge;
#[cfg(feature = "schema")]
pub mod schema;
#[cfg(feature = "serde")]
pub mod serial;
mod side;
mod swatch;
mod tables;

pub use choice::Choice;
pub use error::Error;
pub use fit::{CountRange, Fitted, Parity, Repeat};
pub use number::{Exact, Round, Spread};
pub use quantity::{
    Count, Ease, Gauge, Length, LengthDisplay, PerLength, Precision, Rows, Stitches, Unit,
};
pub use regauge::{EdgeStitches, Number, Numbers, Regauge, Regauged, Sum, Warning};
pub use side::Side;
pub use swatch::{
    DimensionalChange, Outlier, Reading, ReadingDirection, Swatch, SwatchGauge, Treatment,
};
pub use tables::{
    EaseChart, EaseClass, OpenRange, YarnClass, us_needle_diameters, us_needle_numbers,
};

/// What the types promise, held when they are compiled.
const _: () = {
    const fn plain<T: Copy + Send + Sync + 'static>() {}
    const fn shared<T: Clone + Send + Sync + 'static>() {}
    plain::<Exact>();
    plain::<Fitted<Stitches>>();
    plain::<SwatchGauge>();
    plain::<Reading>();
    shared::<Error>();
    shared::<Numbers<Rows>>();
    shared::<Swatch>();
    assert!(size_of::<Length>() == 16, "a length is two words");
    assert!(size_of::<Option<Stitches>>() <= 8, "a count is small");
};
