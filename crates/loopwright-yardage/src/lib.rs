//! Placeholder page while the room is being built.
