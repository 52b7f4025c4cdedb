//! Oracles and generators of the joint room.
//!
//! A [`Sketch`] is a joint rounding in plain numbers. It can be given to the library,
//! to [`brute`] force, and to the general [`milp`] solver, which judge each other.

pub mod brute;
pub mod garment;
pub mod milp;
pub mod random;
mod sketch;

pub use sketch::{Count, Demand, Measure, Sketch};
