//! Exact, typed libraries for the arithmetic of knitting: one door to every room.
//!
//! Each module is a crate of its own that can be used alone.
//!
//! # Which crate do I want?
//!
//! | I have ... | and want ... | crate |
//! |---|---|---|
//! | a washed swatch, lengths, a published pattern at another gauge | a gauge with its error, counts, counts at my gauge | [`gauge`] |
//! | two counts and some rows, a curve, a shoulder | where the increases, decreases, steps or short rows fall | [`shaping`] |
//! | many counts that depend on one another | whole numbers chosen together, or why there are none | [`joint`] |
//! | two edges that meet, a band, buttonholes | whether they fit, the smallest mend, what to pick up | [`seams`] |
//! | a yarn, a label, what is left on the cone | how much yarn, what to buy, how far it goes | [`yardage`] |
//! | a piece of my own | its steps, knitted in a replay that follows the yarn, and the words made from that | [`pattern`] |
//! | a body | a whole garment, drafted, knitted in the replay and checked | [`garment`] |
//! | several of these | all of them, with one [`Error`] and a [`prelude`] | this one |
//!
//! # From a swatch to a knitted row
//!
//! A swatch is measured after it was washed; the gauge keeps how far the readings could
//! be off:
//!
//! ```
//! use loopwright::prelude::*;
//! # fn main() -> Result<(), loopwright::Error> {
//! let readings = ["40 st = 14.3 cm".parse()?, "60 rows = 15 cm".parse()?];
//! let gauge = Swatch::new(readings, Treatment::Washed)?.gauge()?;
//! # Ok(())
//! # }
//! ```
//!
//! A length becomes a count where a [`Round`](gauge::Round) says how, and the count keeps
//! what the rounding cost. A cuff in a 2x2 rib wants a multiple of four and two more:
//!
//! ```
//! # use loopwright::prelude::*;
//! # fn main() -> Result<(), loopwright::Error> {
//! # let gauge: Gauge = "28 x 40 / 10 cm".parse()?;
//! let cuff = gauge.fit::<Stitches>("17 cm".parse()?, Repeat::multiple_of(4)?.plus(2)?, Round::HalfUp)?;
//! assert_eq!(cuff.count.to_string(), "46");
//! assert!(cuff.residual < Length::ZERO, "a little narrower than 17 cm");
//! # Ok(())
//! # }
//! ```
//!
//! A sleeve widens from there; the taper is the staircase nearest to the straight line, and
//! says itself in words:
//!
//! ```
//! # use loopwright::prelude::*;
//! # fn main() -> Result<(), loopwright::Error> {
//! let (cuff, top, rows) = (Stitches::new(46)?, Stitches::new(86)?, Rows::new(150)?);
//! let sleeve = Taper::builder(cuff, top, rows).edges(Edges::Both).order(Order::SlowFirst).build()?;
//! assert_eq!(
//!     sleeve.words().to_string(),
//!     "increase 1 stitch at each edge every 8th row 10 times, then every 7th row 10 times"
//! );
//! # Ok(())
//! # }
//! ```
//!
//! Steps make a piece, and the piece is knitted, loop and yarn, before a word of it is
//! printed:
//!
//! ```
//! # use loopwright::prelude::*;
//! use loopwright::pattern::{Fabric, Side, Step, words};
//! # fn main() -> Result<(), loopwright::Error> {
//! let mut cuff = Piece::new("cuff", Craft::Machine(Bed::of_needles(200)?))?;
//! cuff.push(Step::cast_on(Stitches::new(46)?, Fabric::Plain, Side::Right));
//! cuff.push(Step::Knit(Rows::new(60)?));
//! cuff.push(Step::bind_off_all("top"));
//! let knitted = cuff.replay()?;
//! assert_eq!(knitted.stitches_in(Fabric::Plain), 46 * 60, "each is one loop of yarn");
//! let told = words::instructions(&knitted).to_string();
//! assert!(told.contains("60 rows"), "{told}");
//! # Ok(())
//! # }
//! ```
//!
//! A whole garment is the same, from a body: see [`garment`], and the programs in
//! `examples/`.

mod error;
pub mod prelude;

pub use error::Error;
#[doc(inline)]
pub use loopwright_garment as garment;
#[doc(inline)]
pub use loopwright_gauge as gauge;
#[doc(inline)]
pub use loopwright_joint as joint;
#[doc(inline)]
pub use loopwright_pattern as pattern;
#[doc(inline)]
pub use loopwright_seams as seams;
#[doc(inline)]
pub use loopwright_shaping as shaping;
#[doc(inline)]
pub use loopwright_yardage as yardage;
