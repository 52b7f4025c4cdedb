//! Oracles and generators of the joint room.
