//! Counts in words.

use crate::Counted;
use alloc::format;
use alloc::string::String;
use loopwright_gauge::{Rows, Stitches};

/// `1 stitch`, `2 stitches`, `1 row`.
pub(crate) fn numbered(count: u32, counted: Counted) -> String {
    match (count, counted) {
        (1, Counted::Stitches) => "1 stitch".into(),
        (1, Counted::Rows) => "1 row".into(),
        _ => format!("{count} {counted}"),
    }
}

/// `3 rows and 1 stitch`, or one of the two where the other is none.
pub(crate) fn both(rows: Rows, stitches: Stitches, and: &str) -> String {
    let across = numbered(stitches.get(), Counted::Stitches);
    let up = numbered(rows.get(), Counted::Rows);
    match (stitches.get(), rows.get()) {
        (_, 0) => across,
        (0, _) => up,
        _ => format!("{up}{and}{across}"),
    }
}

/// `once`, `2 times`.
pub(crate) fn times(count: u32) -> String {
    if count == 1 { "once".into() } else { format!("{count} times") }
}
