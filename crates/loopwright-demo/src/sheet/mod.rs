//! The instruction sheet of a garment, as text and as JSON.

mod json;
mod text;

pub(crate) use json::json;
pub(crate) use text::{text, yarn};
