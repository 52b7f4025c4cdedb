//! The seams room.
