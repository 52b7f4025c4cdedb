//! The shaping room.
