//! All integration tests, in one binary.

#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::float_arithmetic,
    clippy::panic,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "test code: a panic is a failed test"
)]

mod demo;
mod garment;
mod gauge;
mod joint;
mod pattern;
mod seams;
mod shaping;
mod workspace;
mod yardage;
