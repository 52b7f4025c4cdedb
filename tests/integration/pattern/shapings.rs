//! Every shaping the library computes can be knitted, and comes out as it was computed.

use super::replay::{cast_on, knit, leg, stitches};
use loopwright::gauge::{Length, Rows, Side, Stitches};
use loopwright::pattern::{
    BindOff, Craft, Direction, Fabric, Heading, Knitted, LEFT_EDGE, Piece, RIGHT_EDGE, Sides, Step,
};
use loopwright::shaping::{
    Bend, Convention, Curve, Edges, Larger, Outline, ShortRows, Slope, Spacing, Taper, Technique,
    WedgeReach,
};
use loopwright_tests::assertions::assert_error;
use loopwright_tests::pattern::knits_from_its_words;
use proptest::prelude::*;

fn rows(n: u32) -> Rows {
    Rows::new(n).unwrap()
}

fn begun(width: u32) -> Piece {
    let mut piece = Piece::new("piece", Craft::Hand).unwrap();
    piece.push(cast_on(width));
    piece
}

fn bound_off(mut piece: Piece) -> Knitted {
    piece.push(Step::bind_off_all("top"));
    piece.replay().unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// After every row there are the stitches that the taper itself counts.
    #[test]
    fn a_taper(from in 10..120_u32, by in 0..30_u32, more: bool, over in 30..150_u32, both: bool) {
        let each = if both { 2 } else { 1 };
        let to = if more { from + each * by } else { from.saturating_sub(each * by) };
        prop_assume!(to > 5);
        let edges = if both { Edges::Both } else { Edges::One };
        let sides = if both { Sides::Both } else { Sides::One(Side::Left) };
        let taper = Taper::builder(stitches(from), stitches(to), rows(over)).edges(edges).build();
        let taper = taper.unwrap();
        let mut piece = begun(from);
        piece.taper(&taper, sides, stitches(2)).unwrap();
        let knitted = bound_off(piece);
        prop_assert_eq!(knitted.rows, rows(over));
        for row in knitted.row_table() {
            prop_assert_eq!(row.stitches, taper.count_at(row.number));
        }
        knits_from_its_words(&knitted);
    }

    /// The row ends with what the spacing makes of it.
    #[test]
    fn a_spacing(width in 12..200_u32, events in 1..6_u32, technique in 0..4_usize) {
        let technique = [
            Technique::IncreaseBetween,
            Technique::IncreaseIn,
            Technique::TwoTogether,
            Technique::ThreeTogether,
        ][technique];
        let spacing = Spacing::builder(stitches(width), technique, events, Convention::HalfGaps);
        let Ok(spacing) = spacing.build() else { return Ok(()) };
        for side in [Side::Left, Side::Right] {
            let mut piece = begun(width);
            piece.push(knit(3));
            piece.space(&spacing, side);
            piece.push(knit(1));
            let knitted = bound_off(piece);
            prop_assert_eq!(knitted.bound_off, spacing.result());
            prop_assert_eq!(knitted.all_loops(), u64::from(3 * width + spacing.result().get()));
        }
    }

    /// Every stitch is knitted as often as the short rows themselves go over it.
    #[test]
    fn short_rows(width in 6..60_u32, turns in 1..6_u32, kind in 0..4_u32, right: bool) {
        let side = if right { Side::Right } else { Side::Left };
        let short = match kind {
            0 => ShortRows::wedge(stitches(width), rows(2 * turns), side, WedgeReach::Shrinking),
            1 => ShortRows::dart(stitches(width), rows(4 * turns), side),
            2 => ShortRows::raised(stitches(width), stitches(width % 2 + 2), rows(2 * turns), side),
            _ => ShortRows::heel(stitches(width), stitches(width % 2 + 2), side),
        };
        let Ok(short) = short else { return Ok(()) };
        let start = if short.rows().first().is_some_and(|row| row.ends == Side::Left) {
            Side::Right
        } else {
            Side::Left
        };
        let mut piece = Piece::new("piece", Craft::Hand).unwrap();
        piece.push(Step::cast_on(stitches(width), Fabric::Plain, start));
        piece.short_rows(&short).unwrap();
        piece.push(Step::Cut);
        piece.push(Step::TakeOff { side: Side::Left, stitches: stitches(width), edge: "top".into() });
        let knitted = piece.replay().unwrap();
        let over = |stitch| u64::from(short.rows_over(stitches(stitch)).get());
        let loops: u64 = (0..width).map(over).sum();
        prop_assert_eq!(knitted.all_loops(), loops);
        let edge = |name: &str| knitted.edge(name).unwrap().rows();
        prop_assert_eq!(edge(LEFT_EDGE.as_str()), over(0));
        prop_assert_eq!(edge(RIGHT_EDGE.as_str()), over(width - 1));
    }

    /// All the stitches of a curve are shaped over all its rows, at either side, inwards and
    /// outwards, and the words say the same.
    #[test]
    fn a_curve(across in 2..24_u32, up in 8..60_u32, left: bool, out: bool, machine: bool) {
        let outline =
            Outline::quarter_ellipse(Length::cm(1).unwrap(), Length::cm(1).unwrap(), Bend::Slowing);
        let Ok(curve) = Curve::builder(&outline.unwrap(), stitches(across), rows(up)).most(stitches(3)).build()
        else {
            return Ok(());
        };
        let (side, change) = (
            if left { Side::Left } else { Side::Right },
            if out { Direction::Increase } else { Direction::Decrease },
        );
        let craft = if machine { super::replay::machine(200, &[]).craft() } else { Craft::Hand };
        let mut piece = Piece::new("piece", craft).unwrap();
        piece.push(cast_on(40));
        piece.curve(&curve, side, change, stitches(1)).unwrap();
        let knitted = bound_off(piece);
        let shaped = curve.stitches().get();
        let left_over = if out { 40 + shaped } else { 40 - shaped };
        prop_assert_eq!(knitted.edge("top").unwrap().stitches(), u64::from(left_over));
        prop_assert!(knitted.rows.get().abs_diff(up) <= 1, "{} rows for {}", knitted.rows, up);
        knits_from_its_words(&knitted);
    }

    /// The steps of a slope come onto one edge, two rows apart.
    #[test]
    fn a_slope(width in 4..60_u32, turns in 1..4_u32) {
        let slope = Slope::builder(stitches(width), turns, Larger::Last).build().unwrap();
        let mut piece = begun(width);
        piece.slope(&slope, Side::Right, "shoulder").unwrap();
        let knitted = piece.replay().unwrap();
        let shoulder = knitted.edge("shoulder").unwrap();
        prop_assert_eq!(shoulder.stitches(), u64::from(width));
        prop_assert_eq!(shoulder.rows(), u64::from(2 * (turns - 1)));
    }
}

#[test]
fn what_does_not_fit_the_piece_is_refused() {
    let taper = Taper::builder(stitches(20), stitches(30), rows(20)).edges(Edges::Both).build();
    assert_error(
        begun(20).taper(&taper.unwrap(), Sides::One(Side::Left), Stitches::ZERO),
        "the taper and the sides it is knitted at do not agree: both edges need both sides",
    );
    let slope = Slope::builder(stitches(20), 2, Larger::Last).build().unwrap();
    assert_error(
        begun(20).slope(&slope, Side::Left, "shoulder"),
        "several stitches are to be shaped at once at the left, but the yarn is at the other side; knit one row more before, or one fewer",
    );
}

/// A stepped edge as a knitter would write it: 3, 2 and 1 stitches on alternate rows
/// (`zaro.info`: the rest in steps of 3, 2 and 1).
#[test]
fn a_curve_by_hand() {
    let mut piece = super::replay::machine(100, &[cast_on(20)]);
    for n in [3, 2] {
        piece.push(Step::BindOff { stitches: stitches(n), how: BindOff::Plain, edge: None });
        piece.push(knit(2));
    }
    piece.push(super::replay::shape(Direction::Decrease, Sides::One(Side::Right), 1));
    piece.push(knit(2));
    let knitted = bound_off(piece);
    let legs = [
        leg(Heading::UpAndIn, 0, 3),
        leg(Heading::UpAndIn, 2, 2),
        leg(Heading::UpAndIn, 2, 1),
        leg(Heading::UpAndIn, 2, 0),
    ];
    assert_eq!(knitted.edge("right edge").unwrap().legs, legs);
}
