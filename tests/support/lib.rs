//! Oracles, generators, assertions and the golden runner that all tests share.
//!
//! Oracles are written from the definitions, not from the solvers they judge.

#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::missing_panics_doc,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code: a panic is a failed test"
)]

pub mod assertions;
pub mod gauge;
pub mod golden;
pub mod grammar;
pub mod joint;
pub mod laws;
pub mod pattern;
pub mod seams;
pub mod shaping;
pub mod sheet;
pub mod yardage;

/// The README's examples, run as tests.
#[cfg(doctest)]
#[doc = include_str!("../../README.md")]
pub struct ReadmeDoctests;
