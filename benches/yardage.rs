//! Benchmarks of this room.

fn main() {}
