//! Steps, their replay, and the words made from it.

mod faults;
mod laws;
mod replay;
mod words;
