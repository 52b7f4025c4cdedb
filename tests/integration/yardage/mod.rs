//! The yardage room.
