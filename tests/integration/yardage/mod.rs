//! Yarn numbering, loop length, amounts, buying, and what a remainder can make.

mod amounts;
