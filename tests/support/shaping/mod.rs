//! Oracles and generators of the shaping room.
//!
//! Each oracle tries everything and judges it by the definition; none knows how the
//! solvers work.

pub mod edge;
pub mod evenly;
pub mod phrases;
pub mod row;
pub mod staircase;
pub mod turns;
