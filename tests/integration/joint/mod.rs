//! Counts rounded together.

mod brute;
mod general;
