//! Counts that depend on one another, rounded together.
//!
//! A garment has dozens of counts. Each has an exact ideal, and rounding each by
//! itself breaks what ties them: shoulder, neck and shoulder no longer make the
//! back. A [`Problem`] holds the counts as [`Unknown`]s and the ties as
//! [`Demand`]s; [`Problem::solve`] gives the best counts there are, or the smallest
//! set of demands that cannot all hold.
//!
//! # The objective
//!
//! 1. The sum of weight times |count - ideal| is the least possible;
//! 2. among those answers, the largest |count - ideal| is the least possible;
//! 3. among those, the counts come first in the order of numbers, compared unknown
//!    by unknown in the order they were given.
//!
//! So there is one answer, and every run gives it. All arithmetic is on whole
//! numbers over one common denominator; nothing is estimated.
//!
//! # How
//!
//! Equations between two unknowns make one unknown of them. Every other equation
//! gets a price (a Lagrange multiplier), so that each unknown has a reduced cost and
//! the prices a lower bound; a count whose reduced cost lies further above the bound
//! than a known answer does is in no best answer. What is left, a few counts each,
//! is solved by eliminating unknown after unknown, each with a table over its
//! neighbours, which is exact for any shape of problem and quick where the demands
//! are as sparse as a garment's. Where a table would be too large, the search splits
//! a range and solves both halves; where near counts fail, all equations are first
//! solved together, which shows most contradictions at once. Demands that only bound
//! are brought in when an answer breaks them: the best answer to fewer demands that
//! happens to hold all of them is the best answer to all.
//!
//! Sources: Lagrangian bounds, M. L. Fisher, *Management Science* 27 (1981);
//! elimination, R. Dechter, *Artificial Intelligence* 113 (1999).
//!
//! # What this crate does not do
//!
//! It does not make ideals out of measurements, does not know which edges meet, and
//! never guesses: an answer that met the limit of work says that it is not proved.

#![no_std]

extern crate alloc;
#[cfg(any(test, feature = "std"))]
extern crate std;

pub mod bounds;
mod check;
mod classes;
mod conflict;
mod cost;
mod demand;
mod dual;
mod eliminate;
mod error;
mod lattice;
mod network;
mod problem;
mod propagate;
mod search;
mod solution;
mod solve;
mod step;
mod unknown;

pub use demand::Demand;
pub use error::Error;
pub use problem::Problem;
pub use solution::{Conflict, Member, Outcome, Relaxation, Rounded, Solution};
pub use unknown::Unknown;
