//! The words, as a knitter would check them.

use super::replay::{bind_off, cast_on, knit, machine, piece, shape, stitches};
use loopwright::pattern::{Craft, Direction, Knitted, Side, Sides, Step, words};

fn texts(knitted: &Knitted) -> Vec<String> {
    words::instructions(knitted).lines.into_iter().map(|line| line.text).collect()
}

/// The sleeve of a published example (designyourownsweater.blogspot.com, January 2007;
/// trade methods 2.04): 72 to 156 stitches over 176 rows, every 4th row 34 times, then
/// every 5th row 8 times.
#[test]
fn a_published_sleeve_is_said_in_two_rates() {
    let wider = shape(Direction::Increase, Sides::Both, 1);
    let mut steps = vec![cast_on(72)];
    for _ in 0..34 {
        steps.extend([knit(4), wider.clone()]);
    }
    for _ in 0..8 {
        steps.extend([knit(5), wider.clone()]);
    }
    steps.push(Step::bind_off_all("top"));
    let machine = machine(200, &steps).replay().unwrap();
    assert_eq!(
        texts(&machine)[1],
        "Increase 1 stitch at both edges, 1 stitch in from the edge: every 4th row 34 times, then every 5th row 8 \
         times, the first at RC 004, the last at RC 176."
    );
    assert_eq!(
        words::instructions(&machine).lines[1].check,
        "RC 176, COR, 156 stitches on L78 to R78"
    );
    let hand = piece(Craft::Hand, &steps).replay().unwrap();
    assert_eq!(
        texts(&hand)[1],
        "Increase 1 stitch at each end, 1 stitch in from the edge: every 4th row 34 times, then every 5th row 8 \
         times, the first in row 4, the last in row 176."
    );
    assert_eq!(
        words::instructions(&hand).lines[1].check,
        "after row 176, right side facing next, 156 stitches"
    );
}

#[test]
fn paired_shoulders_are_said_once() {
    let off = |n, edge| bind_off(n, Some(edge));
    let steps = [
        cast_on(30),
        knit(2),
        off(5, "right shoulder"),
        knit(1),
        off(5, "left shoulder"),
        knit(1),
        Step::bind_off_all("neck"),
    ];
    let hand = piece(Craft::Hand, &steps).replay().unwrap();
    assert_eq!(
        texts(&hand)[2],
        "The right shoulder and the left shoulder by turns, at the start of the row: (bind off 5 stitches and work to \
         the end) twice."
    );
}

#[test]
fn short_rows_name_the_turn() {
    let hold = Step::Hold { side: Side::Left, stitches: stitches(5) };
    let steps = [
        cast_on(15),
        hold.clone(),
        knit(2),
        hold,
        knit(2),
        Step::Return,
        knit(1),
        Step::bind_off_all("top"),
    ];
    let knitted = machine(200, &steps).replay().unwrap();
    assert_eq!(
        texts(&knitted)[1],
        "Short rows, wrapping the first held needle each time, moving the weights with the needles in work: (put 5 needles at the left on hold, knit 2 rows) twice."
    );
}
