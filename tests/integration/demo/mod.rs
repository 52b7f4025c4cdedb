//! The demo room.
