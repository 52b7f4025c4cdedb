//! Counts rounded together.

mod brute;
mod errors;
mod general;
mod golden;
mod laws;
mod verbs;
