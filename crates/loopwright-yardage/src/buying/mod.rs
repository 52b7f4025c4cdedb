//! What to buy, and how far what there is goes.

mod growth;
mod plan;
mod purchase;
mod remainder;
mod worked;

pub use growth::{Growth, Section, circle_increase};
pub use plan::{Plan, Stop, widest};
pub use purchase::{Margin, Package, Purchase, buy};
pub use remainder::{Fits, Remainder, largest_size};
pub use worked::Worked;
