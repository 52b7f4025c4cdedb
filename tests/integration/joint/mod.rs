//! Counts rounded together.

mod brute;
mod comes_back;
mod errors;
mod general;
mod golden;
mod laws;
mod serial;
mod verbs;
