//! Picking up: how many along which edge, at which rate, and where; bands and their
//! buttonholes.

mod apportion;
mod band;
mod button;
mod group;
mod line;
mod place;
mod rate;
#[cfg(feature = "serde")]
mod serial;
mod stair;

pub use band::{FrontBands, knitted_band};
pub use button::{Buttonholes, Gaps, Holes, Leftover};
pub(crate) use group::tell;
pub use group::{PickUpGroup, say};
pub use line::{PickUpLine, Picked};
pub use place::{PickUpSpacing, Placement};
pub use rate::{Rate, RateCandidate, RateKind, pick_up_ratio, rates};
