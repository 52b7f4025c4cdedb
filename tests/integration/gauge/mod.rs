//! Lengths, counts, gauges, rounding.

mod length;
