//! What cannot be knitted is refused, and the text says where and why.

use super::replay::{bind_off, cast_on, knit, machine, shape, stitches};
use loopwright::pattern::{Bed, Change, Craft, Piece, Side, Sides, Step};
use loopwright_tests::assertions::assert_error;

#[track_caller]
fn refused(steps: &[Step], text: &str) {
    assert_error(machine(20, steps).replay(), text);
}

#[test]
fn a_bed_too_narrow() {
    refused(
        &[cast_on(24)],
        "piece, step 1, row 0: needles L12 to R12 are wanted, 24 stitches, 4 more than the bed of 20 needles takes there",
    );
    refused(
        &[cast_on(20), knit(3), shape(Change::Increase, Sides::Both, 1)],
        "piece, step 3, row 3: needles L11 to R11 are wanted, 22 stitches, 2 more than the bed of 20 needles takes there",
    );
}

#[test]
fn a_hold_at_the_carriage() {
    refused(
        &[cast_on(10), Step::Hold { side: Side::Right, stitches: stitches(3) }],
        "piece, step 2, row 0: the carriage is at the right, so stitches at the right cannot be put on hold: the row would start there",
    );
}

#[test]
fn a_hold_of_everything() {
    refused(
        &[cast_on(10), Step::Hold { side: Side::Left, stitches: stitches(10) }],
        "piece, step 2, row 0: a hold of 10 stitches is wanted, but only 9 can be used",
    );
}

#[test]
fn held_stitches_stay_as_they_are() {
    let hold = Step::Hold { side: Side::Left, stitches: stitches(3) };
    refused(
        &[cast_on(10), hold.clone(), knit(2), shape(Change::Decrease, Sides::One(Side::Left), 1)],
        "piece, step 4, row 2: stitches at the left are on hold and cannot be decreased",
    );
    refused(
        &[cast_on(10), hold.clone(), knit(1), bind_off(2, None)],
        "piece, step 4, row 1: stitches at the left are on hold and cannot be bound off",
    );
    refused(
        &[cast_on(10), hold, knit(2), Step::bind_off_all("top")],
        "piece, step 4, row 2: stitches at the left are on hold and cannot be bound off",
    );
}

#[test]
fn stitches_that_are_not_there() {
    refused(&[], "piece, step 0, row 0: nothing has been cast on");
    refused(&[knit(4)], "piece, step 1, row 0: no stitches are to be worked, and a row needs some");
    refused(
        &[cast_on(6), knit(2), bind_off(6, None)],
        "piece, step 3, row 2: a bind-off of 6 stitches is wanted, but only 5 can be used",
    );
    refused(
        &[cast_on(6), knit(2), bind_off(7, Some("top"))],
        "piece, step 3, row 2: a bind-off of 7 stitches is wanted, but only 6 can be used",
    );
    refused(
        &[cast_on(4), shape(Change::Decrease, Sides::One(Side::Left), 3)],
        "piece, step 2, row 0: a decrease of 4 stitches is wanted, but only 3 can be used",
    );
    refused(
        &[
            cast_on(4),
            Step::TakeOff { side: Side::Left, stitches: stitches(5), edge: "top".into() },
        ],
        "piece, step 2, row 0: a take-off of 5 stitches is wanted, but only 4 can be used",
    );
}

#[test]
fn stitches_left_on_the_needles() {
    refused(&[cast_on(10), knit(5)], "piece, step 2, row 5: 10 stitches are still on the needles");
}

#[test]
fn parts_that_are_not_waiting() {
    let resume = Step::Resume { part: "right shoulder".into() };
    refused(
        &[cast_on(10), Step::bind_off_all("top"), resume.clone()],
        "piece, step 3, row 0: there is no part called \"right shoulder\" waiting",
    );
    refused(&[cast_on(10), resume], "piece, step 2, row 0: 10 stitches are still on the needles");
}

#[test]
fn a_name_for_two_edges() {
    let name = Step::NameEdge { side: Side::Left, edge: "right edge".into() };
    refused(
        &[cast_on(10), name],
        "piece, step 2, row 0: the name \"right edge\" is used for two edges",
    );
}

#[test]
fn nothing_at_all() {
    refused(&[cast_on(0)], "piece, step 1, row 0: a cast-on of no stitches");
    refused(
        &[cast_on(5), shape(Change::Increase, Sides::Both, 0)],
        "piece, step 2, row 0: a shaping of no stitches",
    );
    refused(
        &[cast_on(5), Step::Hold { side: Side::Left, stitches: stitches(0) }],
        "piece, step 2, row 0: a hold of no stitches",
    );
    assert_error(Bed::of_needles(0), "a needle bed of 0 needles is outside 1..=10000");
    assert_error(
        Piece::new(" ", Craft::Hand),
        "a piece is called \" \"; a name has letters or digits, at most 200 bytes, and no control characters",
    );
}

#[test]
fn a_cast_on_beside_held_stitches() {
    let hold = Step::Hold { side: Side::Left, stitches: stitches(3) };
    refused(
        &[cast_on(10), hold, knit(1), Step::Extend(stitches(2))],
        "piece, step 4, row 1: stitches at the left are on hold and cannot be cast on to",
    );
}
