//! Steps, their replay, and the words made from it.

mod by_hand;
mod cells;
mod faults;
mod file;
mod laws;
mod replay;
mod serial;
mod shapings;
mod words;
