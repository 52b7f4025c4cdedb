//! Edges that meet, pick-up rates, and counts rounded together.

#![no_std]

extern crate alloc;
#[cfg(any(test, feature = "std"))]
extern crate std;

pub mod joint;
