//! How fine a yarn is, and what it weighs.

mod density;
mod mass;
mod notation;
mod quantity;
mod system;
mod yarn;

pub use density::LinearDensity;
pub use mass::{Mass, MassDisplay, MassUnit};
pub use quantity::YarnQuantity;
pub use system::Numbering;
pub use yarn::Yarn;
