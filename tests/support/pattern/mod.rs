//! A knitter who knows nothing but the printed words: reads a piece line by line, keeps
//! count of needles, sides, rows, edges and loops without ever seeing the steps, and
//! compares every line's check with where the work has got to.

pub mod cells;
mod phrases;
mod reader;
mod work;

pub use phrases::stumble;
pub use reader::{Told, difference, knits_from_its_words, read, told};
pub use work::{EdgeRead, Picked, Read};
