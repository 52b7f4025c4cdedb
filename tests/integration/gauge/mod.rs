//! Lengths, counts, gauges, rounding, swatches.

mod length;
mod swatch;
