//! Yarn numbering, loop length, amounts, buying, and what a remainder can make.

mod amounts;
mod area;
mod backwards;
mod buying;
mod charts;
mod cloth;
mod errors;
mod estimates;
mod evidence;
mod extremes;
mod laws;
mod numbers;
mod production;
mod serial;
mod tails;
mod verbs;

use loopwright::gauge::{Rows, Stitches};

/// A count of stitches, short, as tables of tests have many.
const fn st(n: u32) -> Stitches {
    Stitches::literal(n)
}

/// A count of rows.
const fn rw(n: u32) -> Rows {
    Rows::literal(n)
}
