//! The seams room: edges, joins, pick-up, bands.

mod bands;
mod check;
mod edges;
mod errors;
mod extremes;
mod golden;
mod lines;
mod mends;
mod place;
mod rates;
#[path = "serde.rs"]
mod serial;
mod verbs;

use loopwright::gauge::{Gauge, Rows, Stitches};
use loopwright::seams::Edge;

pub(crate) fn gauge() -> Gauge {
    "28x40/10cm".parse().unwrap()
}

pub(crate) fn rows(n: u32) -> Rows {
    Rows::new(n).unwrap()
}

pub(crate) fn stitches(n: u32) -> Stitches {
    Stitches::new(n).unwrap()
}

pub(crate) fn live(name: &str, n: u32) -> Edge {
    Edge::live(name, stitches(n), gauge()).unwrap()
}

pub(crate) fn bound_off(name: &str, n: u32) -> Edge {
    Edge::bound_off(name, stitches(n), gauge()).unwrap()
}

pub(crate) fn selvedge(name: &str, n: u32) -> Edge {
    Edge::selvedge(name, rows(n), gauge()).unwrap()
}
