//! What holds for every piece that can be knitted.

use super::replay::{cast_on, knit, piece, shape, stitches};
use loopwright::pattern::{Craft, Direction, Piece, Side, Sides, Step, words};
use proptest::prelude::*;

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let side =
        prop_oneof![Just(Sides::Both), Just(Sides::One(Side::Left)), Just(Sides::One(Side::Right))];
    let change = prop_oneof![Just(Direction::Increase), Just(Direction::Decrease)];
    let step = prop_oneof![
        4 => (1..9_u32).prop_map(knit),
        3 => (change, side, 1..3_u32).prop_map(|(change, sides, n)| shape(change, sides, n)),
        1 => (1..4_u32).prop_map(|n| Step::bind_off(stitches(n))),
        1 => (1..4_u32).prop_map(|n| Step::Extend(stitches(n))),
        1 => (prop_oneof![Just(Side::Left), Just(Side::Right)], 1..4_u32)
            .prop_map(|(side, n)| Step::Hold { side, stitches: stitches(n) }),
        2 => Just(Step::Return),
        1 => Just(Step::ResetCounter),
    ];
    prop::collection::vec(step, 0..40)
}

/// The steps that can be knitted, one after the other, with a plain end.
fn knittable(width: u32, wanted: &[Step]) -> Piece {
    let mut kept = vec![cast_on(width), knit(1)];
    for step in wanted {
        kept.push(step.clone());
        let mut tried = kept.clone();
        tried.extend([Step::Return, Step::bind_off_all("top")]);
        if piece(Craft::Hand, &tried).replay().is_err() {
            kept.pop();
        }
    }
    kept.extend([Step::Return, Step::bind_off_all("top")]);
    piece(Craft::Hand, &kept)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn stitches_are_neither_made_nor_lost(width in 1..60_u32, wanted in steps()) {
        let piece = knittable(width, &wanted);
        let knitted = piece.replay().unwrap();
        let mut made = 0_i64;
        for step in piece.steps() {
            if let Step::Shape(shape) = step {
                let sides = if shape.sides == Sides::Both { 2 } else { 1 };
                let moved = i64::from(shape.stitches.get()) * sides;
                made += if shape.change == Direction::Increase { moved } else { -moved };
            }
        }
        let on = i64::from(knitted.cast_on.get()) + made;
        prop_assert_eq!(on, i64::from(knitted.bound_off.get() + knitted.live.get()));
    }

    #[test]
    fn a_selvedge_has_every_row_that_reached_it(width in 8..60_u32, wanted in steps()) {
        let knitted = knittable(width, &wanted).replay().unwrap();
        let left = knitted.edge("left edge").unwrap();
        prop_assert!(left.rows() <= u64::from(knitted.rows.get()));
        let holds = knitted.log.iter().any(|entry| entry.held() > 0);
        if !holds {
            prop_assert_eq!(left.rows(), u64::from(knitted.rows.get()));
        }
    }

    #[test]
    fn every_line_ends_where_the_replay_is(width in 8..60_u32, wanted in steps()) {
        let knitted = knittable(width, &wanted).replay().unwrap();
        let lines = words::instructions(&knitted).lines;
        let last = lines.last().unwrap();
        prop_assert_eq!(last.stitches.get(), 0);
        let states: Vec<_> = knitted.log.iter().map(|entry| (entry.row, entry.carriage, entry.stitches)).collect();
        for line in &lines {
            prop_assert!(states.contains(&(line.row, line.carriage, line.stitches)));
        }
    }

    #[test]
    fn a_bed_is_refused_just_when_it_is_too_narrow(width in 1..40_u32, needles in 1..40_u32) {
        let steps = [cast_on(width), knit(2), Step::bind_off_all("top")];
        let replayed = super::replay::machine(needles, &steps).replay();
        prop_assert_eq!(replayed.is_ok(), width <= needles);
    }
}
