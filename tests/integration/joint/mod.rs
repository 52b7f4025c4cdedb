//! The joint room.
