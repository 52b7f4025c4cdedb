//! Oracles and generators of the seams room.
