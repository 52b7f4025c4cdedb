//! Counts that depend on one another, rounded together.
//!
//! A garment has dozens of counts. Each has an exact ideal, and rounding each by
//! itself breaks what ties them: shoulder, neck and shoulder no longer make the
//! back, and four rounded counts add up to a body that is too short. A [`Problem`]
//! holds the counts as [`Unknown`]s, what a tape measures of them as [`TapeMeasure`]s,
//! and the ties as [`Demand`]s; [`Problem::solve`] gives the best counts there are, or
//! the smallest set of demands that cannot all hold.
//!
//! # The objective
//!
//! The weighted sum of all misses is the least possible, where a wish misses by how far
//! its count is from its ideal and a measure by how far its counts are from its length,
//! both as lengths. Among those answers the largest miss is the least possible. Among
//! those the greater count goes to the unknown that was given first.
//!
//! So there is one answer, and every run gives it. All arithmetic is on whole numbers
//! over one common denominator; nothing is estimated.
//!
//! *By hand:* 24 stitches make 10 cm, and a front of 20 cm (48 stitches) has two bands of
//! 2.3 cm (5.52 stitches each). By themselves the bands round up to 6, and front and
//! bands are 60 stitches, 25 cm instead of 24.6. With the whole as a measure of weight
//! two, the misses in stitches are: 48, 6, 6: 0 + 0.48 + 0.48 + 2 x 0.96 = 2.88;
//! 48, 6, 5: 0 + 0.48 + 0.52 + 2 x 0.04 = 1.08; 47, 6, 6: 1 + 0.48 + 0.48 + 2 x 0.04 =
//! 2.04. The second is best, and between 6, 5 and 5, 6 the first band gets the greater
//! count; if both bands must be alike, the third is.
//!
//! ```
//! use loopwright_gauge::{Exact, Gauge, Length};
//! use loopwright_joint::{Problem, TapeMeasure, Unknown};
//! let gauge: Gauge = "24x32/10cm".parse()?;
//! let mut problem = Problem::new();
//! let front = problem.stitches("front", Unknown::near_length(Length::cm(20)?, gauge))?;
//! let left = problem.stitches("left band", Unknown::near_length(Length::mm(23)?, gauge))?;
//! let right = problem.stitches("right band", Unknown::near_length(Length::mm(23)?, gauge))?;
//! let whole = TapeMeasure::sum([(1, &front), (1, &left), (1, &right)], Length::mm(246)?);
//! problem.measure("all across", whole.weight(Exact::whole(2)))?;
//! let solution = problem.solve()?.into_result()?;
//! assert_eq!([&front, &left, &right].map(|key| solution[key].get()), [48, 6, 5]);
//! // 1.08 stitches of a 24th of 10 cm.
//! assert_eq!(solution.total_miss(), Exact::new(108, 24)?);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # How, and why it is the best
//!
//! Equations between two unknowns make one unknown of them, and what the coefficients of
//! a longer one have in common thins the counts out. Every other equation and every
//! measure gets a price (a Lagrange multiplier; a measure's may not pass its weight), so
//! that each unknown has a reduced cost and the prices a lower bound; a count whose
//! reduced cost lies further above the bound than a known answer does is in no best
//! answer. What is left, a few counts each, is solved by eliminating unknown after
//! unknown, each with a table over its neighbours, which is exact for any shape of
//! problem and quick where demands and measures are as sparse as a garment's. Where a
//! table would be too large, the search splits a range and solves both halves; where near
//! counts fail, all equations are first solved together, which shows most contradictions
//! at once. Demands that only bound are brought in when an answer breaks them: the best
//! answer to fewer demands that happens to hold all of them is the best answer to all.
//!
//! Sources: Lagrangian bounds, M. L. Fisher, *Management Science* 27 (1981);
//! elimination, R. Dechter, *Artificial Intelligence* 113 (1999).
//!
//! # When it is given up
//!
//! Work is counted in steps ([`bounds::STEPS`], about a tenth of a second, unless the
//! problem says otherwise), so a hard problem is given up after the same work on every
//! machine. Then the best counts found are given, [`Solution::is_proved`] is false, and
//! [`Solution::least_total`] is a bound that no counts can beat; or, if none were found,
//! an error says that nothing is known ([`Error::is_unproved`]). A conflict that was not
//! proved smallest says so too.
//!
//! # What this crate does not do
//!
//! It does not make lengths out of bodies, does not know which edges meet, and never
//! guesses.

#![no_std]

extern crate alloc;
#[cfg(any(test, feature = "std"))]
extern crate std;

mod answer;
pub mod bounds;
mod budget;
mod classes;
mod conflict;
mod cost;
mod demand;
mod dive;
mod dual;
mod eliminate;
mod error;
#[cfg(feature = "serde")]
mod form;
mod groups;
mod hitting;
mod key;
mod lattice;
mod measure;
mod network;
mod objective;
mod problem;
mod propagate;
mod search;
mod solution;
mod solve;
mod step;
mod unknown;

pub use answer::{Answer, Conflict, ConflictMember, Release};
pub use demand::{Demand, Limit};
pub use error::Error;
#[cfg(feature = "serde")]
pub use form::ProblemForm;
pub use key::{AnyCount, Key};
pub use measure::TapeMeasure;
pub use problem::Problem;
pub use solution::{RoundedCount, RoundedMeasure, Solution};
pub use unknown::Unknown;

use demand::Link;
