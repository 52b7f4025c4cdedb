//! The pattern room.
