//! Where every increase and decrease falls: spacing, tapers, slopes, curves, short
//! rows.
//!
//! Every answer is the optimum of an objective that its page states, and is exact:
//! no floating point, and no rounding that was not asked for.
//!
//! ```
//! use loopwright_gauge::{Rows, Stitches};
//! use loopwright_shaping::{Edges, Taper};
//!
//! let sleeve = Taper::builder(Stitches::new(42)?, Stitches::new(92)?, Rows::new(90)?)
//!     .edges(Edges::Both)
//!     .build()?;
//! assert_eq!(sleeve.events().len(), 25);
//! assert_eq!(sleeve.count_at(Rows::new(90)?).get(), 92);
//! # Ok::<(), loopwright_shaping::Error>(())
//! ```
//!
//! With the feature `bezier` an [`Outline`] may follow cubic Bézier curves too.
//!
//! # What this crate does not do
//!
//! It does not know what a garment is, knits nothing, and chooses no counts for
//! you beyond the rounding you name: counts come from `loopwright-gauge`, and whole
//! pieces are replayed elsewhere.

#![no_std]

extern crate alloc;
#[cfg(any(test, feature = "std"))]
extern crate std;

#[cfg(feature = "bezier")]
mod bezier;
pub mod bounds;
mod circle;
mod curve;
mod error;
pub mod even;
mod outline;
mod phrase;
#[cfg(feature = "serde")]
mod serial;
mod short;
mod slope;
mod spacing;
mod split;
mod taper;
mod words;

pub use circle::{Circle, Crown, Doubling, RowGrowth, Slices, triangle_rows};
pub use curve::{AtOnce, Curve, CurveBuilder, CurveWords, Neck, NeckBuilder};
pub use error::{Error, Remedy};
pub use outline::{Bend, Outline};
pub use phrase::{Phrase, shortest, shortest_of_runs};
pub use short::{ShortRow, ShortRows, Turn, WedgeReach};
pub use slope::{Larger, LastStep, Slope, SlopeBuilder, SlopeMethod, SlopeStep};
pub use spacing::{
    Convention, Positions, RowGroup, RowWords, SpacedGroup, SpacedGroups, Spacing, SpacingBuilder,
    Surplus, Technique,
};
pub use split::Order;
pub use taper::{
    Direction, Edges, Ends, Event, Events, Interval, Segment, Segments, Taper, TaperBuilder,
    TaperWords,
};

/// The vocabulary that shapings take and give.
pub use loopwright_gauge::{
    Choice, Count, Exact, Gauge, Length, Repeat, Round, Rows, Side, Stitches,
};
