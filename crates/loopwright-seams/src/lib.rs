//! Edges that meet: whether they fit, how many stitches to pick up along them,
//! and where.
//!
//! An [`Edge`] is what one piece offers, a [`Join`] is how two edges meet, and
//! [`check`] says whether they do, by how much they miss, and the smallest change
//! on either side that would mend it.
//!
//! ```
//! use loopwright_gauge::{Gauge, Rows};
//! use loopwright_seams::{Edge, Join, check};
//!
//! let gauge: Gauge = "28 x 40 / 10 cm".parse()?;
//! let back = Edge::selvedge("left side of the back", Rows::new(152)?, gauge)?;
//! let front = Edge::selvedge("left side of the front", Rows::new(148)?, gauge)?;
//! let verdict = check(Join::RowSeam, &back, &front, Join::RowSeam.tolerance())?;
//! assert!(!verdict.matches);
//! assert_eq!(
//!     verdict.mend.unwrap().to_string(),
//!     "knit 149 rows instead of 152 for the left side of the back, \
//!      or 151 rows instead of 148 for the left side of the front",
//! );
//! # Ok::<(), loopwright_seams::Error>(())
//! ```
//!
//! Picking up goes by length and gauge: a [`PickUpLine`] of edges gives the count and shares it
//! out, a [`Placement`] says which rows, and [`rates`] what a rule of thumb such as "3 of
//! every 4" would leave over.
//!
//! ```
//! use loopwright_gauge::{Gauge, Repeat, Round, Rows};
//! use loopwright_seams::{Edge, PickUpLine, Rate, PickUpSpacing, pick_up_ratio, say};
//!
//! let gauge: Gauge = "21 x 28 / 10 cm".parse()?;
//! let front = Edge::selvedge("right front", Rows::new(112)?, gauge)?;
//! let band = PickUpLine::new(gauge).along(front);
//! let count = band.fit(Repeat::any(), Round::HalfUp)?.count;
//! assert_eq!(count.get(), 84);
//! assert_eq!(Rate::nearest(pick_up_ratio(gauge, gauge)?, 10)?.to_string(), "3 of every 4");
//! let picked = band.place(count, PickUpSpacing::Blocks)?;
//! assert_eq!(say(&picked[0].groups), "(pick up 3, miss 1) 28 times");
//! # Ok::<(), loopwright_seams::Error>(())
//! ```
//!
//! # What this crate does not do
//!
//! It does not know what a garment is, which edges a piece has or in which order
//! they are sewn, and it does not estimate how far a fabric stretches: a
//! tolerance is always the caller's, or a published one that says where it is from.

#![no_std]

extern crate alloc;
#[cfg(any(test, feature = "std"))]
extern crate std;

pub mod bounds;
mod check;
mod edge;
mod error;
mod join;
mod mend;
mod pickup;

pub use check::{Compared, Seam, SeamReport, SeamSide, Verdict, check, check_all};
pub use edge::{Edge, EdgeCount, EdgeKind, EdgeStep, OutlinePoint, Span};
pub use error::Error;
pub use join::{Join, Pairing, PassRun, Passes, SeamEase, Tolerance};
pub use mend::{ChangedAt, EdgeChange, Mend};
pub use pickup::{
    Buttonholes, FrontBands, Gaps, Holes, Leftover, PickUpGroup, PickUpLine, PickUpSpacing, Picked,
    Placement, Rate, RateCandidate, RateKind, knitted_band, pick_up_ratio, rates, say,
};
