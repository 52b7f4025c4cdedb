//! Which edges meet, in the order the garment is put together.
//!
//! Left and right are as the pieces were knitted; with right sides together the left of
//! the back lies on the right of the front.

use super::counts::SEAM_STITCHES;
use super::pieces::{
    BACK, CENTRE_NECK, FRONT, NECK_OF_BAND, NECKBAND, SLEEVE, TOP, armhole, neck_edge,
    shoulder_edge,
};
use super::shoulder::BACK_NECK;
use super::{DropShoulderChoices, Shoulders};
use crate::Fabrics;
use crate::draft::{EdgeRef, SeamPlan};
use loopwright_gauge::Round;
use loopwright_pattern::{Craft, LEFT_EDGE, RIGHT_EDGE, Side};
use loopwright_seams::{Join, Tolerance};

/// The side of the front where the pick-up begins, at the shoulder still open: at the
/// machine stitches are hung from left to right, by hand picked up from right to left.
const fn first_side(craft: Craft) -> Side {
    if craft.is_machine() { Side::Left } else { Side::Right }
}

/// The edges of the neck in the order the band is picked up along them.
pub(super) fn neck_edges(craft: Craft) -> Vec<EdgeRef> {
    let first = first_side(craft);
    vec![
        EdgeRef::new(FRONT, neck_edge(first)),
        EdgeRef::new(FRONT, CENTRE_NECK),
        EdgeRef::new(FRONT, neck_edge(first.other())),
        EdgeRef::new(BACK, BACK_NECK),
    ]
}

pub(super) fn seams(
    craft: Craft,
    choices: &DropShoulderChoices,
    fabrics: &Fabrics,
    neck: Vec<EdgeRef>,
) -> Vec<SeamPlan> {
    let first = first_side(craft);
    let sides = [Side::Left, Side::Right];
    let mut seams = vec![
        shoulder(choices, first),
        neckband(neck, fabrics),
        shoulder(choices, first.other()),
        SeamPlan::new(
            "ends of the neckband",
            Join::RowSeam,
            vec![EdgeRef::new(NECKBAND, LEFT_EDGE)],
            vec![EdgeRef::new(NECKBAND, RIGHT_EDGE)],
            "sew row to row",
        ),
    ];
    seams.extend(sides.map(|side| sleeve_into_armhole(side, fabrics)));
    seams.extend(sides.map(side_seam));
    seams.push(sleeve_seam());
    seams
}

/// The shoulder at `side` of the back, with the opposite one of the front.
fn shoulder(choices: &DropShoulderChoices, side: Side) -> SeamPlan {
    let (join, words) = match choices.shoulders {
        Shoulders::ShortRows => {
            (Join::BindOffTogether, "right sides together, bind the stitches of both off as one")
        }
        Shoulders::BindOff => (Join::StitchSeam, "right sides together, sew stitch to stitch"),
    };
    let other = side.other();
    SeamPlan::new(
        &format!("{side} shoulder of the back, {other} shoulder of the front"),
        join,
        vec![EdgeRef::new(BACK, shoulder_edge(side))],
        vec![EdgeRef::new(FRONT, shoulder_edge(other))],
        words,
    )
}

/// The band is a whole number of ribs, so it may be half a rib longer or shorter.
fn neckband(neck: Vec<EdgeRef>, fabrics: &Fabrics) -> SeamPlan {
    let half_a_rib = fabrics.rib_stitches().div_ceil(2);
    SeamPlan::new(
        "neckband",
        Join::PickUp,
        neck,
        vec![EdgeRef::new(NECKBAND, NECK_OF_BAND)],
        "with one shoulder still open, pick up along the neck and knit the band",
    )
    .within(Tolerance::near(half_a_rib, 20))
}

/// One stitch of the sleeve, told in rows of the armhole, may be eased in.
fn sleeve_into_armhole(side: Side, fabrics: &Fabrics) -> SeamPlan {
    let rows = fabrics
        .plain
        .rows()
        .and_then(|rows| rows.per_mm().checked_div(fabrics.plain.stitches().per_mm()));
    let rows = rows.and_then(|rows| rows.to_whole(Round::Ceil)).unwrap_or(1);
    SeamPlan::new(
        &format!("sleeve at the {side} of the back"),
        Join::StitchToRowSeam,
        vec![EdgeRef::new(SLEEVE, TOP).less(SEAM_STITCHES)],
        vec![EdgeRef::new(BACK, armhole(side)), EdgeRef::new(FRONT, armhole(side.other()))],
        "sew the top of a sleeve to the armhole edges, its middle at the shoulder seam",
    )
    .within(Tolerance::near(u32::try_from(rows).unwrap_or(1), 20))
}

fn side_seam(side: Side) -> SeamPlan {
    let edge = |side: Side| if side == Side::Left { LEFT_EDGE } else { RIGHT_EDGE };
    SeamPlan::new(
        &format!("side seam at the {side} of the back"),
        Join::RowSeam,
        vec![EdgeRef::new(BACK, edge(side))],
        vec![EdgeRef::new(FRONT, edge(side.other()))],
        "sew row to row, one stitch in from the edge, from the hem to the armhole mark",
    )
}

fn sleeve_seam() -> SeamPlan {
    SeamPlan::new(
        "sleeve seam, on both sleeves",
        Join::RowSeam,
        vec![EdgeRef::new(SLEEVE, LEFT_EDGE)],
        vec![EdgeRef::new(SLEEVE, RIGHT_EDGE)],
        "sew row to row, one stitch in from the edge, from the cuff to the top",
    )
    .times(2)
}
