//! Which edges meet, in the order the garment is put together.
//!
//! Left and right are as the pieces were knitted; with right sides together the left of
//! the back lies on the right of the front.

use super::counts::SEAM_STITCHES;
use super::pieces::{
    BACK, CENTRE_NECK, FRONT, NECKBAND, SLEEVE, armhole, neck_edge, shoulder_edge,
};
use super::shoulder::BACK_NECK;
use super::{Choices, Shoulders};
use crate::draft::{EdgeRef, SeamPlan};
use loopwright_pattern::{Craft, Side};
use loopwright_seams::Join;

/// The side of the front where the pick-up begins, at the shoulder still open: at the
/// machine stitches are hung from left to right, by hand picked up from right to left.
const fn first_side(craft: Craft) -> Side {
    if craft.is_machine() { Side::Left } else { Side::Right }
}

/// The edges of the neck in the order the band is picked up along them.
pub(super) fn neck_edges(craft: Craft) -> Vec<EdgeRef> {
    let first = first_side(craft);
    vec![
        EdgeRef::new(FRONT, &neck_edge(first)),
        EdgeRef::new(FRONT, CENTRE_NECK),
        EdgeRef::new(FRONT, &neck_edge(first.opposite())),
        EdgeRef::new(BACK, BACK_NECK),
    ]
}

pub(super) fn seams(craft: Craft, choices: &Choices, neck: &[EdgeRef]) -> Vec<SeamPlan> {
    let first = first_side(craft);
    let mut seams = vec![
        shoulder(choices, first),
        neckband(neck),
        shoulder(choices, first.opposite()),
        band_ends(),
    ];
    for side in [Side::Left, Side::Right] {
        seams.push(sleeve_into_armhole(side));
    }
    for side in [Side::Left, Side::Right] {
        seams.push(side_seam(side));
    }
    seams.push(sleeve_seam());
    seams
}

/// The shoulder at `side` of the back, with the opposite one of the front.
fn shoulder(choices: &Choices, side: Side) -> SeamPlan {
    let (join, how) = match choices.shoulders {
        Shoulders::ShortRows => {
            (Join::BindOffTogether, "right sides together, bind the stitches of both off as one")
        }
        Shoulders::BindOff => (Join::StitchSeam, "right sides together, sew stitch to stitch"),
    };
    let other = side.opposite();
    SeamPlan {
        name: format!("{side} shoulder of the back, {other} shoulder of the front"),
        join,
        a: vec![EdgeRef::new(BACK, &shoulder_edge(side))],
        b: vec![EdgeRef::new(FRONT, &shoulder_edge(other))],
        words: how.into(),
        times: 1,
    }
}

fn neckband(neck: &[EdgeRef]) -> SeamPlan {
    SeamPlan {
        name: "neckband".into(),
        join: Join::PickUp,
        a: neck.to_vec(),
        b: vec![EdgeRef::new(NECKBAND, "neck")],
        words: "with one shoulder still open, pick up along the neck and knit the band".into(),
        times: 1,
    }
}

fn band_ends() -> SeamPlan {
    SeamPlan {
        name: "ends of the neckband".into(),
        join: Join::RowSeam,
        a: vec![EdgeRef::new(NECKBAND, "left edge")],
        b: vec![EdgeRef::new(NECKBAND, "right edge")],
        words: "sew row to row".into(),
        times: 1,
    }
}

fn sleeve_into_armhole(side: Side) -> SeamPlan {
    SeamPlan {
        name: format!("sleeve at the {side} of the back"),
        join: Join::StitchToRowSeam,
        a: vec![EdgeRef::new(SLEEVE, "top").less(SEAM_STITCHES)],
        b: vec![EdgeRef::new(BACK, &armhole(side)), EdgeRef::new(FRONT, &armhole(side.opposite()))],
        words: "sew the top of a sleeve to the armhole edges, its middle at the shoulder seam"
            .into(),
        times: 1,
    }
}

fn side_seam(side: Side) -> SeamPlan {
    let edge = |side: Side| format!("{side} edge");
    SeamPlan {
        name: format!("side seam at the {side} of the back"),
        join: Join::RowSeam,
        a: vec![EdgeRef::new(BACK, &edge(side))],
        b: vec![EdgeRef::new(FRONT, &edge(side.opposite()))],
        words: "sew row to row, one stitch in from the edge, from the hem to the armhole mark"
            .into(),
        times: 1,
    }
}

fn sleeve_seam() -> SeamPlan {
    SeamPlan {
        name: "sleeve seam, on both sleeves".into(),
        join: Join::RowSeam,
        a: vec![EdgeRef::new(SLEEVE, "left edge")],
        b: vec![EdgeRef::new(SLEEVE, "right edge")],
        words: "sew row to row, one stitch in from the edge, from the cuff to the top".into(),
        times: 2,
    }
}
