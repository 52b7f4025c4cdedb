//! Lengths, counts, gauges, rounding, swatches.

mod english;
mod errors;
mod exact;
mod fit;
mod length;
mod regauge;
mod serial;
mod swatch;
mod tables;
mod verbs;
