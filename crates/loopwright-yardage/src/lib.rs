//! Yarn numbering, loop length, and how much yarn a piece takes, with an honest
//! spread.
//!
//! ```
//! use loopwright_gauge::Gauge;
//! use loopwright_yardage::{
//!     Fabric, Relaxation, Structure, Supply, Tally, Yarn, estimate, loop_from_gauge,
//! };
//!
//! let yarn: Yarn = "2/28 Nm".parse()?;
//! let density = yarn.resultant()?;
//! let plain = Fabric::new(Structure::Plain, Relaxation::Wet);
//! let loops = loop_from_gauge("28x40/10cm".parse::<Gauge>()?, plain, Some(density))?;
//! let supply = Supply::new("main", density).fabric("plain", loops);
//! let back = Tally::new("back").cast_on(140).stitches("plain", 140 * 220).bound_off(140);
//! let answer = estimate(&[back], &[supply])?;
//! assert_eq!(answer.totals[0].1.to_string(), "435 m (366 m to 505 m), 31 g (26 g to 36 g)");
//! # Ok::<(), loopwright_yardage::Error>(())
//! ```
//!
//! # Where the figures come from
//!
//! A loop length is best measured: pull out counted stitches ([`unravelled`]) or weigh
//! a counted swatch ([`weighed`]). From a gauge alone it comes through the loop
//! constants of [`constants`], which were fitted to machine-knitted wool and cotton of a
//! few tens of tex at tightness factors of about 1.2 to 1.6 √tex/mm. Thick hand-knits
//! are an extrapolation, and [`loop_from_gauge`] doubles the spread there.
//!
//! Some figures have no published source and are this crate's own working figures: the
//! 16 % of an extrapolated loop, the 2 % that no measurement is trusted below, the slack of
//! a float, and the factors of [`Factor::tabled`]. A measured value always replaces them.
//!
//! # What is exact and what is not
//!
//! Yarn numbers, weights, loop lengths that were measured or follow from kc and kw, and
//! every amount are exact fractions. Not exact, and said so where they stand: a root
//! (rib loop lengths, tightness factors, yarn diameters) is held to a declared grid,
//! rounded outwards at the ends of its spread; π is a declared fraction; and when rates
//! with exotic denominators meet in one supply they are widened outwards to the
//! nanometre and the nanogram. There is no floating point anywhere in this crate.
//!
//! # What this crate does not do
//!
//! It does not count the stitches of a piece: a tally comes from the knitting of a
//! pattern or from the reader. It takes a yarn's number as stated, knows no makers'
//! yarns, and gives no dye-lot advice beyond the margin it is told.

#![no_std]

extern crate alloc;
#[cfg(any(test, feature = "std"))]
extern crate std;

mod area;
pub mod bounds;
mod cloth;
pub mod constants;
mod density;
mod diameter;
mod error;
mod estimate;
mod evidence;
mod factor;
mod grid;
mod growth;
mod loops;
mod loops_per_area;
mod mass;
mod measure;
mod model;
mod notation;
mod numbering;
mod plan;
mod purchase;
mod rates;
mod remainder;
mod root;
mod rough;
#[cfg(feature = "serde")]
mod serial;
mod stripes;
mod supply;
mod tail;
mod tally;
mod worked;
mod yarn;

pub use area::{Area, similar};
pub use cloth::{ArealMass, Handle, Tightness};
pub use constants::{Fabric, LoopConstants, Relaxation, Structure};
pub use density::LinearDensity;
pub use diameter::{cotton_diameter, diameter, peirce_loop};
pub use error::Error;
pub use estimate::{Amount, Estimate, Estimator, PieceAmount, estimate};
pub use evidence::{Unravelled, Weighed, unravelled, weighed};
pub use factor::{Factor, Stitch};
pub use growth::{Growth, Section, circle_increase};
pub use loops::{Agreement, LoopLength, Source};
pub use loops_per_area::LoopsPerArea;
pub use loopwright_gauge::Spread;
pub use mass::{Mass, MassDisplay, MassUnit};
pub use measure::Measure;
pub use model::{loop_from_gauge, loop_from_gauges, loop_from_loops_per_area};
pub use numbering::Numbering;
pub use plan::{Plan, Stop, widest};
pub use purchase::{Margin, Package, Purchase, buy};
pub use remainder::{Fits, Remainder, largest_size};
pub use rough::Rough;
pub use stripes::{Stripe, deal_stripes, deepest_stripes};
pub use supply::{Rules, Supply};
pub use tail::{Edge, EdgeRule, GRAFT_TAIL_LEAST_CM, SeamRule, seaming_strands};
pub use tally::{MAIN_YARN, Tally};
pub use worked::Worked;
pub use yarn::Yarn;
