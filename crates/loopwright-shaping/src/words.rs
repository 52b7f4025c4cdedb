//! English that more than one kind of shaping says.

use loopwright_gauge::english::agreeing;

pub(crate) fn rows(n: u32) -> &'static str {
    agreeing(n, "row", "rows")
}

pub(crate) fn stitches(n: u32) -> &'static str {
    agreeing(n, "stitch", "stitches")
}

pub(crate) fn are(n: u32) -> &'static str {
    agreeing(n, "is", "are")
}
