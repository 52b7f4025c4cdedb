//! What the verbs of shaping share: one bound for all they list, and their nouns.

use crate::answer::Failure;
use loopwright::gauge::{Count as _, Stitches};

/// The most shapings that are listed: a hundred times what a garment has.
const MOST: usize = 100_000;

/// Refuses an answer that would list more than [`MOST`].
pub(super) fn listed(what: &str, given: usize) -> Result<(), Failure> {
    if given <= MOST {
        return Ok(());
    }
    Err(Failure::Input(format!("{what} is {given}, but must be at most {MOST}, to be listed")))
}

/// "1 stitch", "2 stitches".
pub(super) fn say_stitches(stitches: Stitches) -> String {
    stitches.counted().to_string()
}
