//! Oracles and generators of the yardage room.
