//! Steps, their replay, and the words made from it.

mod cells;
mod faults;
mod laws;
mod replay;
mod words;
