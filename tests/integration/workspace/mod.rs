//! The workspace held against itself: its map, its names, its docs, its golden files.

mod extremes;
mod golden_files;
mod map;
mod sources;

/// The library crates, without the facade.
const ROOMS: [&str; 7] = ["gauge", "shaping", "joint", "seams", "yardage", "pattern", "garment"];
