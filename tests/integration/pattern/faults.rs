//! What cannot be knitted is refused, and the text says where and why.

use super::replay::{bind_off, cast_on, knit, machine, piece, shape, stitches};
use loopwright::gauge::{Rows, Stitches};
use loopwright::pattern::{
    Bed, BindOff, Craft, Direction, Fabric, Hang, Needle, PickUp, Piece, Shape, ShapeMethod,
    ShapeRow, Side, Sides, Step, Technique,
};
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
        &[cast_on(20), knit(3), shape(Direction::Increase, Sides::Both, 1)],
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
        &[
            cast_on(10),
            hold.clone(),
            knit(2),
            shape(Direction::Decrease, Sides::One(Side::Left), 1),
        ],
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
        &[cast_on(4), shape(Direction::Decrease, Sides::One(Side::Left), 3)],
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
        &[cast_on(5), shape(Direction::Increase, Sides::Both, 0)],
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

fn hold(side: Side, n: u32) -> Step {
    Step::Hold { side, stitches: stitches(n) }
}

fn take_off(n: u32) -> Step {
    Step::TakeOff { side: Side::Left, stitches: stitches(n), edge: "top".into() }
}

fn set_aside(n: u32) -> Step {
    Step::SetAside {
        side: Side::Left,
        stitches: stitches(n),
        part: "left".into(),
        its_edge: "left inner".into(),
        edge: "right inner".into(),
    }
}

#[test]
fn a_row_where_no_yarn_is() {
    refused(
        &[cast_on(10), Step::Cut, knit(2)],
        "piece, step 3, row 0: the yarn \"main\" is cut, and the row needs it; join it at a side first",
    );
    refused(
        &[cast_on(10), Step::Cut, bind_off(3, None)],
        "piece, step 3, row 0: the yarn \"main\" is cut, and the bind-off needs it; join it at a side first",
    );
    refused(
        &[cast_on(10), Step::Cut, Step::Extend(stitches(3))],
        "piece, step 3, row 0: the yarn \"main\" is cut, and the cast-on needs it; join it at a side first",
    );
    refused(
        &[cast_on(10), Step::ChangeYarn("blue".into()), knit(1)],
        "piece, step 3, row 0: the yarn \"blue\" is cut, and the row needs it; join it at a side first",
    );
}

#[test]
fn a_yarn_that_is_not_where_it_should_be() {
    refused(
        &[cast_on(10), Step::Join { side: Side::Left }],
        "piece, step 2, row 0: the yarn \"main\" still hangs at R5; cut it before it is joined elsewhere",
    );
    refused(
        &[cast_on(10), Step::Cut, Step::Cut],
        "piece, step 3, row 0: the yarn \"main\" is cut already",
    );
    refused(
        &[cast_on(10), knit(2), take_off(10)],
        "piece, step 3, row 2: the yarn \"main\" still hangs at R5 when the piece is finished; cut it with a tail",
    );
    refused(
        &[cast_on(10), Step::ChangeYarn("main".into())],
        "piece, step 2, row 0: the yarn \"main\" is being knitted already",
    );
    let right = Step::TakeOff { side: Side::Right, stitches: stitches(4), edge: "off".into() };
    refused(
        &[cast_on(10), right, Step::BindOffAll { how: BindOff::Plain, edge: "top".into() }],
        "piece, step 3, row 0: the yarn hangs at R5, but the bind-off would begin at R1, a float over 4 needles; work first the side where the yarn hangs, or cut the yarn and join it there",
    );
}

#[test]
fn returns_of_what_is_not_held() {
    let back = |n| Step::ReturnSome { side: Side::Left, stitches: stitches(n) };
    refused(
        &[cast_on(10), hold(Side::Left, 3), knit(1), back(4)],
        "piece, step 4, row 1: 4 stitches at the left are to return, but 3 are on hold there",
    );
    refused(&[cast_on(10), back(0)], "piece, step 2, row 0: a return of no stitches");
    refused(
        &[cast_on(10), hold(Side::Left, 4), knit(1), Step::Return, knit(1)],
        "piece, step 5, row 1: the yarn hangs at L1, but the row would begin at L5, a float over 4 needles; return first the side that the carriage travels to, or cut the yarn and join it there",
    );
}

#[test]
fn parts_that_cannot_be() {
    refused(&[cast_on(10), set_aside(0)], "piece, step 2, row 0: a part of no stitches");
    refused(
        &[cast_on(10), set_aside(10)],
        "piece, step 2, row 0: a part of 10 stitches is wanted, but only 9 can be used",
    );
    refused(
        &[cast_on(10), set_aside(3), set_aside(2)],
        "piece, step 3, row 0: the part \"left\" is waiting already; parts need names of their own",
    );
    let rejoin = |part: &'static str| Step::Rejoin { part: part.into(), side: Side::Right };
    refused(
        &[cast_on(10), set_aside(3), rejoin("left")],
        "piece, step 3, row 0: the part \"left\" lies on needles L5 to L3 and is not next to the stitches at the right",
    );
    refused(
        &[cast_on(10), set_aside(3), rejoin("other")],
        "piece, step 3, row 0: there is no part called \"other\" waiting; there is left",
    );
}

#[test]
fn rounds_have_no_sides() {
    let round = |step: Step| [cast_on(10), Step::JoinRound, knit(1), step];
    let sides = [
        (shape(Direction::Decrease, Sides::Both, 1), "a shaping at an edge"),
        (hold(Side::Left, 2), "a hold"),
        (bind_off(2, None), "a bind-off"),
        (Step::Extend(stitches(2)), "a cast-on"),
        (set_aside(2), "a part"),
        (take_off(3), "a take-off of some stitches"),
        (Step::JoinRound, "a round"),
    ];
    for (step, what) in sides {
        refused(
            &round(step),
            &format!(
                "piece, step 4, row 1: the work is round and has no sides; {what} needs rows, so divide it first"
            ),
        );
    }
    refused(
        &[cast_on(10), Step::Divide { left: "a".into(), right: "b".into() }],
        "piece, step 2, row 0: the work goes back and forth already",
    );
}

#[test]
fn shapings_along_a_row_that_have_no_room() {
    let row = |width, positions: &[u32], technique| {
        let positions = positions.iter().map(|&at| stitches(at)).collect();
        let (stitches, from) = (stitches(width), Side::Left);
        Step::ShapeRow(ShapeRow { technique, stitches, positions, from })
    };
    refused(
        &[cast_on(10), row(12, &[4], Technique::TwoTogether)],
        "piece, step 2, row 0: the shaping is planned for 12 stitches, but 10 are being worked",
    );
    refused(
        &[cast_on(10), row(10, &[4, 5], Technique::TwoTogether)],
        "piece, step 2, row 0: the shaping after stitch 5 has no room: the next may come after stitch 6 at the earliest and 10 at the latest",
    );
    refused(
        &[cast_on(10), row(10, &[10], Technique::IncreaseBetween)],
        "piece, step 2, row 0: the shaping after stitch 10 has no room: the next may come after stitch 1 at the earliest and 9 at the latest",
    );
    refused(
        &[cast_on(10), row(10, &[], Technique::IncreaseIn)],
        "piece, step 2, row 0: a shaping of no stitches",
    );
    refused(
        &[cast_on(10), hold(Side::Left, 2), knit(2), row(8, &[4], Technique::TwoTogether)],
        "piece, step 4, row 2: stitches at the left are on hold and cannot be moved",
    );
    let eyelet = Shape {
        method: ShapeMethod::Eyelet,
        ..Shape::new(Direction::Decrease, Sides::Both, stitches(1))
    };
    refused(
        &[cast_on(10), Step::Shape(eyelet)],
        "piece, step 2, row 0: the method eyelet is for the other kind of shaping",
    );
}

#[test]
fn hangings_that_cannot_be() {
    let hang = |n, overlap, edge: &'static str| {
        let from = vec![PickUp::one_for_one("piece", edge, stitches(n))];
        Step::Hang(Hang { from, side: Side::Left, overlap: stitches(overlap) })
    };
    refused(
        &[cast_on(10), hang(0, 0, "left edge")],
        "piece, step 2, row 0: a hanging of no stitches",
    );
    refused(
        &[cast_on(10), hang(3, 4, "left edge")],
        "piece, step 2, row 0: 4 stitches are to be hung on top of others, but only 3 are hung",
    );
    refused(
        &[cast_on(10), hang(12, 12, "left edge")],
        "piece, step 2, row 0: an overlap of 12 stitches is wanted, but only 10 can be used",
    );
    refused(
        &[cast_on(10), hang(3, 3, "collar")],
        "piece, step 2, row 0: stitches are picked up along the edge \"collar\", but this piece has only cast-on edge, left edge, right edge",
    );
    assert_error(
        piece(Craft::Hand, &[cast_on(10), hang(3, 0, "left edge")]).replay(),
        "piece, step 2, row 0: by hand stitches are picked up where the yarn hangs, at the right, not at the left",
    );
}

#[test]
fn names_and_remarks_that_are_none() {
    refused(
        &[cast_on(10), Step::Mark { side: Side::Left, marker: "\t".into() }],
        "piece, step 2, row 0: \"\\t\" is no name; it needs letters or digits, at most 200 bytes, and no control characters",
    );
    let mark = Step::Mark { side: Side::Left, marker: "here".into() };
    refused(
        &[cast_on(10), mark.clone(), mark],
        "piece, step 3, row 0: the name \"here\" is used for two markers of the left edge",
    );
    refused(
        &[cast_on(10), Step::Remark(String::new())],
        "piece, step 2, row 0: the remark is empty, or holds control characters",
    );
    refused(
        &[cast_on(10), Step::Knit(Rows::ZERO)],
        "piece, step 2, row 0: no rows are to be knitted; leave the step out",
    );
    refused(
        &[cast_on(10), cast_on(10)],
        "piece, step 2, row 0: stitches are on the needles already",
    );
    assert_error(
        "X4".parse::<Needle>(),
        "a needle is called \"X4\", but must be L or R and a number from 1, such as L40",
    );
}

/// A count beyond what can be held is refused before memory is taken.
#[test]
fn counts_beyond_all_bounds() {
    let most = Stitches::new(10_000_000).unwrap();
    let by_hand = |steps: &[Step]| piece(Craft::Hand, steps).replay();
    let cast_on = Step::cast_on(most, Fabric::Plain, Side::Right);
    let more = Step::Shape(Shape::new(Direction::Increase, Sides::Both, most));
    assert_error(
        by_hand(&[cast_on.clone(), more]),
        "piece, step 2, row 0: 20000000 stitches at once are more than the 10000000 that can be held",
    );
    let error = by_hand(&[cast_on, Step::Extend(stitches(1))]).unwrap_err();
    assert!(error.is_too_large(), "{error}");
    assert_eq!(Needle::at(i64::MIN).to_string(), "L9223372036854775808");
    assert_eq!(Needle::at(i64::MAX).to_string(), "R9223372036854775808");
}
