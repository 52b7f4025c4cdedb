//! Oracles and generators of the gauge room.
