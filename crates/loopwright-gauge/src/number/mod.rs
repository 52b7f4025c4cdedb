//! Exact numbers: how they are held, read, rounded and printed, and how sure they are.

pub(crate) mod decimal;
pub(crate) mod divisor;
mod exact;
mod round;
mod spread;
pub(crate) mod text;

pub use exact::Exact;
pub use round::Round;
pub use spread::Spread;
