//! The workspace held against itself: its map, its names, its docs, its golden files.

mod examples;
mod extremes;
mod golden_files;
mod map;
mod names;
mod owed;
mod public;
mod serial;
mod sources;

/// The library crates, without the facade.
const ROOMS: [&str; 7] = ["gauge", "shaping", "joint", "seams", "yardage", "pattern", "garment"];
