//! How ribs are set up, at the machine and by hand.

use super::dialect::Dialect;
use super::phrase::of;
use crate::Fabric;
use alloc::format;
use alloc::string::String;

/// How the stitches of a rib are shared out between two beds, each stitch on a needle of
/// its own number, and what to do without a second bed.
pub(super) fn beds(fabric: Fabric) -> String {
    let Fabric::Rib { knit, purl } = fabric else { return String::new() };
    let repeat = u32::from(knit) + u32::from(purl);
    format!(
        "from the left, {knit} on the main bed and {purl} on the second bed by turns, needles opposite out of work, full pitch; without a second bed knit them plain and re-form {} of every {repeat}",
        last_of(u32::from(knit), repeat)
    )
}

/// "the 3rd and 4th", the purl stitches of a repeat.
fn last_of(knit: u32, repeat: u32) -> String {
    match repeat - knit {
        1 => "the last".into(),
        many => format!("the last {many}"),
    }
}

/// The first rows of a rib on two beds, which the counter leaves out.
pub(super) const FIRST_ROWS: &str = "cast on with one zigzag row, hang the comb and weights, and knit 3 circular rows, none of them counted";

/// How the rows of a fabric go over the stitches there are, by hand.
pub(super) fn rows(fabric: Fabric, stitches: u32, round: bool, dialect: Dialect) -> String {
    match (fabric, round) {
        (Fabric::Plain, true) => format!("in {}: knit every round", dialect.plain()),
        (Fabric::Plain, false) => {
            format!("in {}: knit the right-side rows, purl the wrong-side rows", dialect.plain())
        }
        (Fabric::Garter, true) => "in garter stitch: knit and purl rounds by turns".into(),
        (Fabric::Garter, false) => "in garter stitch: knit every row".into(),
        (Fabric::Rib { knit, purl }, true) => {
            format!("in {fabric}: (k{knit}, p{purl}) to the end of the round")
        }
        (Fabric::Rib { knit, purl }, false) => {
            format!("in {fabric}: {}", flat(u32::from(knit), u32::from(purl), stitches))
        }
    }
}

/// A rib that fills whole repeats and half a repeat more shows knit at both edges.
fn flat(knit: u32, purl: u32, stitches: u32) -> String {
    let repeat = knit + purl;
    if repeat > 0 && stitches % repeat == knit % repeat {
        return format!(
            "right-side rows k{knit}, (p{purl}, k{knit}) to the end; wrong-side rows p{knit}, (k{purl}, p{knit}) to the end"
        );
    }
    format!(
        "right-side rows (k{knit}, p{purl}) to the end; wrong-side rows knit the knit and purl the purl stitches as they face you"
    )
}

/// "the 31 stitches at the left".
pub(super) fn those(count: u32, side: crate::Side) -> String {
    format!("the {} at the {side}", of(count, "stitch"))
}
