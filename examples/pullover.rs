//! A pullover from a body and a swatch.

fn main() {}
