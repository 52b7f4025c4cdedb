//! The trade's tables, as published.

mod fit_chart;
mod needle;
mod open_range;
mod yarn_class;

pub use fit_chart::{EaseChart, EaseClass};
pub use needle::{us_needle_diameters, us_needle_numbers};
pub use open_range::OpenRange;
pub use yarn_class::YarnClass;
