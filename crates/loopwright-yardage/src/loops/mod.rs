//! The yarn in a stitch, and what it makes of the fabric.

mod area;
mod cloth;
/// The published loop constants, and how far each can be trusted.
///
/// # Examples
/// ```
/// use loopwright_yardage::constants::TABLE;
/// assert!(TABLE.iter().all(|row| row.ks().is_some() && !row.source.is_empty()));
/// ```
pub mod constants;
mod diameter;
mod evidence;
mod factor;
mod length;
mod model;
mod per_area;

pub use area::{Area, similar};
pub use cloth::{ArealMass, Handle, Tightness};
pub use constants::{LoopConstants, RelaxationState, RelaxedFabric, Structure};
pub use diameter::{cotton_diameter, diameter, peirce_loop};
pub use evidence::{Unravelled, Weighed, unravelled, weighed};
pub use factor::{Factor, StitchKind};
pub(crate) use length::length_times;
pub use length::{Agreement, LoopLength, Source};
pub use model::{loop_from_gauge, loop_from_gauges, loop_from_loops_per_area};
pub use per_area::LoopsPerArea;
