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
