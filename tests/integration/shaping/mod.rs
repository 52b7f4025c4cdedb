//! The shaping room.

mod bezier;
mod circle;
mod counts;
mod curve;
mod errors;
mod extremes;
mod golden;
mod serial;
mod short;
mod slope;
mod spacing;
mod taper;
mod verbs;
mod words;

use loopwright::gauge::{Rows, Stitches};

fn st(n: u32) -> Stitches {
    Stitches::new(n).unwrap()
}

fn rows(n: u32) -> Rows {
    Rows::new(n).unwrap()
}
