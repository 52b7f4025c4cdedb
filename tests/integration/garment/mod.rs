//! The garment room.
