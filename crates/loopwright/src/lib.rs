//! Exact, typed libraries for the arithmetic of knitting: one door to every room.
//!
//! Each module is a crate of its own that can be used alone.

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
