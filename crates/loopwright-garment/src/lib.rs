//! Bodies, ease and constructions, drafted into pieces that are replayed and checked.
//!
//! A construction takes a [`Body`], [`Fabrics`] and choices, and drafts pieces and
//! seams; [`Draft::finish`] knits every piece in the replay, checks every seam and
//! gives a [`Garment`]. The first construction is the [`DropShoulder`] pullover.
//!
//! ```
//! use loopwright_garment::{Body, DropShoulder, Fabrics, BodyMeasure};
//! use loopwright_pattern::{Bed, Craft};
//!
//! let body = Body::new()
//!     .with(BodyMeasure::Chest, "94 cm".parse()?)?
//!     .with(BodyMeasure::NeckToWrist, "76 cm".parse()?)?
//!     .with(BodyMeasure::UpperArm, "30 cm".parse()?)?
//!     .with(BodyMeasure::Wrist, "16 cm".parse()?)?
//!     .with(BodyMeasure::BodyLength, "60 cm".parse()?)?
//!     .with(BodyMeasure::Head, "56 cm".parse()?)?;
//! let fabrics = Fabrics::plain("28 x 40 / 10 cm".parse()?);
//! let craft = Craft::Machine(Bed::of_needles(200)?);
//! let garment = DropShoulder::new(body, fabrics, craft).draft()?.finish()?;
//! assert!(garment.seams.holds());
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # What this crate does not do
//!
//! It does not read plan files, does not convert between units, and gives no advice on
//! sizes: ease and proportions are the caller's choices, with the trade's usual figures
//! where nothing is said.

mod body;
mod cautions;
mod draft;
mod drop_shoulder;
mod error;
mod fabrics;
mod yarn;

pub use body::{Body, BodyMeasure};
pub use draft::{Draft, EdgeRef, FinishedPiece, Garment, Made, Nearness, Outcome, SeamPlan};
pub use drop_shoulder::{DropShoulder, DropShoulderChoices, DropShoulderEase, Shoulders};
pub use error::Error;
pub use fabrics::Fabrics;
pub use yarn::{YarnFacts, YarnReport};

use loopwright_gauge::Exact;

/// One half.
fn half() -> Result<Exact, loopwright_gauge::Error> {
    Exact::new(1, 2)
}
