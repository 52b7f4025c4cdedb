//! English that more than one kind of shaping says.

use core::fmt;

pub(crate) fn every(f: &mut fmt::Formatter<'_>, every: u32) -> fmt::Result {
    match every {
        1 => f.write_str("every row"),
        n => write!(f, "every {n}{} row", ordinal(n)),
    }
}

fn ordinal(n: u32) -> &'static str {
    match (n % 10, n % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    }
}

pub(crate) fn times(f: &mut fmt::Formatter<'_>, times: u32) -> fmt::Result {
    match times {
        1 => f.write_str(" once"),
        n => write!(f, " {n} times"),
    }
}

pub(crate) const fn rows(n: u32) -> &'static str {
    if n == 1 { "row" } else { "rows" }
}

pub(crate) const fn stitches(n: u32) -> &'static str {
    if n == 1 { "stitch" } else { "stitches" }
}
