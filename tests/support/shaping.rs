//! Oracles and generators of the shaping room.
