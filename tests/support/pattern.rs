//! Oracles and generators of the pattern room.
