//! Counts rounded together.

mod brute;
