//! Yarn numbering, loop length, and how much yarn a piece takes, with an honest
//! spread.
//!
//! ```
//! use loopwright_yardage::{
//!     Gauge, RelaxationState, RelaxedFabric, Stitches, Structure, Supply, Tally, Yarn, estimate,
//!     loop_from_gauge,
//! };
//!
//! let yarn: Yarn = "2/28 Nm".parse()?;
//! let density = yarn.resultant()?;
//! let plain = RelaxedFabric::new(Structure::Plain, RelaxationState::Wet);
//! let loops = loop_from_gauge("28x40/10cm".parse::<Gauge>()?, plain, Some(density))?;
//! let supply = Supply::new("main", density).fabric("plain", loops);
//! let wide = Stitches::new(140)?;
//! let back =
//!     Tally::new("back").cast_on(wide).stitches("plain", wide.checked_mul(220)?).bound_off(wide);
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
//! A yarn's number, a weight, a loop length and an amount are exact fractions as long as
//! the fraction can be held in 63 bits over 63 bits. Where it grows longer, an estimate is
//! not refused but snapped to a stated grid: lengths to the nanometre, the mass of a stitch
//! to the picogram, that of a whole to the nanogram, counts of stitches to a thousandth,
//! shares and packages to a millionth. The low end of a spread is rounded down and the high
//! end up, so that the spread still holds the truth; the likely value goes to the nearest.
//! Yarn numbers that grow too long are held to a billionth of a tex.
//!
//! Never exact, and said so where they stand: a root (rib loop lengths, tightness factors,
//! yarn diameters) is held to a grid in the same way, and π is a stated fraction. There is
//! no floating point anywhere in this crate.
//!
//! A spread holds what its evidence allows, not every mishap: low and high are no
//! guarantee, and the loop model on a gauge alone may be further off for a yarn or a
//! fabric it was not measured on.
//!
//! # Features
//!
//! - `std` (on by default): only the error type needs it; without it the crate needs
//!   `alloc`.
//! - `serde`: every value is read through the same checks as its `new`.
//! - `schema`: JSON Schema of every value, through `schemars`.
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

mod amount;
pub mod bounds;
mod buying;
mod error;
mod grid;
mod loops;
mod numbering;
#[cfg(feature = "schema")]
mod schema;
#[cfg(feature = "serde")]
mod serial;

pub use amount::{
    Amount, EdgeFacts, EdgeRule, Estimate, Estimator, GRAFT_TAIL_LEAST_CM, MAIN_YARN, PieceAmount,
    Rough, Rules, SeamRule, Stripe, Supply, Tally, deal_stripes, deepest_stripes, estimate,
    seaming_strands,
};
pub use buying::{
    Fits, Growth, Margin, Package, Plan, Purchase, Remainder, Section, Stop, Worked, buy,
    circle_increase, largest_size, widest,
};
pub use error::Error;
pub use loops::{
    Agreement, Area, ArealMass, Factor, Handle, LoopConstants, LoopLength, LoopsPerArea,
    RelaxationState, RelaxedFabric, Source, StitchKind, Structure, Tightness, Unravelled, Weighed,
    constants, cotton_diameter, diameter, loop_from_gauge, loop_from_gauges,
    loop_from_loops_per_area, peirce_loop, similar, unravelled, weighed,
};
pub use numbering::{LinearDensity, Mass, MassDisplay, MassUnit, Numbering, Yarn, YarnQuantity};

// What this crate takes and returns.
pub use loopwright_gauge::{
    Exact, Gauge, Length, Precision, Repeat, Round, Rows, Spread, Stitches, SwatchGauge, Unit,
};
