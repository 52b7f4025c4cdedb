//! A knitted piece as its steps, and the replay that knits them.
//!
//! A [`Piece`] is a list of [`Step`]s and nothing else. [`Piece::replay`] knits them
//! on a bed of numbered needles with a carriage and a row counter, refuses what cannot
//! be knitted, and gives a [`Knitted`] piece. Counts, edges, yarn and words all come
//! out of that.
//!
//! ```
//! use loopwright_gauge::{Rows, Stitches};
//! use loopwright_pattern::{Bed, Craft, Fabric, Piece, Side, Step};
//!
//! let mut piece = Piece::new("swatch", Craft::Machine(Bed::of_needles(200)?))?;
//! piece.push(Step::cast_on(Stitches::new(40)?, Fabric::Plain, Side::Right));
//! piece.push(Step::Knit(Rows::new(60)?));
//! piece.push(Step::bind_off_all("top"));
//! let knitted = piece.replay()?;
//! assert_eq!(knitted.stitches_in(Fabric::Plain), 2400);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # What this crate does not do
//!
//! It does not choose counts or place shaping: a draft does that. It does not know
//! bodies, sizes or seams between pieces.

#![no_std]

extern crate alloc;
#[cfg(any(test, feature = "std"))]
extern crate std;

mod bed;
mod edge;
mod error;
mod fabric;
mod file;
mod knitted;
mod name;
mod pick_up;
mod piece;
mod replay;
mod shapings;
mod step;
mod table;
pub mod words;

pub use bed::{Bed, Craft, Needle, Sides};
pub use edge::{EdgeKind, Heading, KnittedEdge, Leg, Marker};
pub use error::Error;
pub use fabric::Fabric;
pub use file::{Copies, PieceFile};
pub use knitted::{Entry, Facing, Hanging, Knitted, Loops};
pub use name::Name;
pub use pick_up::check_pick_ups;
pub use piece::Piece;
pub use step::{
    About, Along, BindOff, CAST_ON_EDGE, CastOn, Hang, LEFT_EDGE, MAIN_YARN, PickUp, RIGHT_EDGE,
    Shape, ShapeMethod, ShapeRow, Step, Stretch,
};
pub use table::TableRow;

#[doc(no_inline)]
pub use loopwright_gauge::{Rows, Side, Stitches};
#[doc(no_inline)]
pub use loopwright_seams::PickUpGroup;
#[doc(no_inline)]
pub use loopwright_shaping::{Direction, Technique};
