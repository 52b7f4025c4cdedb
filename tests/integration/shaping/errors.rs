use super::{rows, st};
use loopwright::gauge::{Length, Repeat, Round};
use loopwright::shaping::{
    AtOnce, Bend, Circle, Convention, Crown, Curve, Doubling, Edges, Ends, Larger, LastStep, Neck,
    Outline, RowGrowth, ShortRows, Side, Slices, Slope, Spacing, Taper, Technique, WedgeReach,
    triangle_rows,
};
use loopwright_tests::assertions::assert_error;

fn cm(n: i64) -> Length {
    Length::cm(n).unwrap()
}

#[test]
fn tapers_are_refused() {
    let taper = |from, to, all| Taper::builder(st(from), st(to), rows(all));
    assert_error(
        taper(40, 43, 20).edges(Edges::Both).build(),
        "the change of stitches is 3, but must be an even number, half at each edge",
    );
    assert_error(
        taper(40, 44, 20).edges(Edges::Both).at_once(st(3)).build(),
        "the change of stitches is 4, but must be a multiple of 6, 3 at each edge",
    );
    assert_error(
        taper(40, 45, 20).at_once(st(2)).build(),
        "the change of stitches is 5, but must be a multiple of 2",
    );
    assert_error(
        taper(40, 80, 10).edges(Edges::Both).build(),
        "20 shaping rows are needed, but there are only 10 rows: 10 more rows would do, or a \
         change smaller by 20 stitches",
    );
    assert_error(
        taper(40, 46, 10).legal_rows(rows(2), rows(2)).build(),
        "6 shaping rows are needed, but only 5 of the 10 rows may shape: 2 more rows would do, \
         or a change smaller by 1 stitch",
    );
    assert_error(
        taper(40, 50, 10).ends(Ends::Full).build(),
        "11 shaping rows are needed, but there are only 10 rows: 1 more row would do, or a change \
         smaller by 1 stitch",
    );
    assert_error(
        taper(40, 44, 10).plain_before(rows(6)).plain_after(rows(5)).build(),
        "the number of plain rows is 11, but must be at most 10, the rows there are",
    );
    assert_error(
        taper(40, 44, 10).legal_rows(rows(0), rows(1)).build(),
        "the first legal row is 0, but must be in 1..=10000000",
    );
    assert_error(
        taper(40, 44, 10).legal_rows(rows(1), rows(0)).build(),
        "the period of legal rows is 0, but must be in 1..=10000000",
    );
    assert_error(
        taper(40, 44, 10).most(st(0)).build(),
        "the most stitches shaped in one row is 0, but must be in 1..=10000000",
    );
    assert_error(
        taper(40, 44, 10).at_once(st(0)).build(),
        "the stitches shaped at once is 0, but must be in 1..=10000000",
    );
    assert_error(
        taper(40, 44, 10).after(rows(9_999_995)).build(),
        "the row before the first is 9999995, but must be in 0..=9999990",
    );
    assert_error(
        taper(40, 44, 10).build().unwrap().rest_after(rows(11)),
        "the row worked is 11, but must be in 0..=10",
    );
}

#[test]
fn slopes_are_refused() {
    let slope = |stitches, turns| Slope::builder(st(stitches), turns, Larger::Last).build();
    assert_error(slope(0, 1), "the stitches of the slope is 0, but must be in 1..=10000000");
    assert_error(slope(5, 0), "the number of steps of the slope is 0, but must be in 1..=5000000");
    assert_error(slope(3, 5), "a slope of 3 stitches has at most 3 steps, not 5");
    assert_error(
        Slope::over(st(20), rows(5), Larger::Last, LastStep::CostsRows),
        "the rows of the slope is 5, but must be an even number",
    );
}

#[test]
fn spacings_are_refused() {
    let row =
        |stitches, technique, events, ends| Spacing::builder(st(stitches), technique, events, ends);
    assert_error(
        row(20, Technique::TwoTogether, 11, Convention::Round).build(),
        "11 decreases of two together need 22 stitches, but there are only 20",
    );
    assert_error(
        row(20, Technique::TwoTogether, 10, Convention::FullGaps).build(),
        "10 decreases of two together need 22 stitches, but there are only 20",
    );
    assert_error(
        row(2, Technique::ThreeTogether, 1, Convention::HalfGaps).build(),
        "1 decrease of three together needs 3 stitches, but there are only 2",
    );
    assert_error(
        row(4, Technique::IncreaseBetween, 4, Convention::HalfGaps).build(),
        "4 increases between stitches need 5 stitches, but there are only 4",
    );
    assert_error(
        row(12, Technique::TwoTogether, 5, Convention::Round).border(st(2)).build(),
        "5 decreases of two together need 10 stitches, but there are only 8 between the borders",
    );
    assert_error(
        row(10, Technique::IncreaseBetween, 8, Convention::BlocksHalved).build(),
        "a first group of 1 stitch cannot be halved: choose half gaps, or two blocks",
    );
    assert_error(
        row(20, Technique::IncreaseBetween, 2, Convention::Round).border(st(11)).build(),
        "the sum of both borders is 22, but must be at most 20, the stitches there are",
    );
    assert_error(
        row(20, Technique::IncreaseIn, 3, Convention::HalfGaps).mirrored().build(),
        "3 increases in a stitch on 20 stitches cannot be mirrored: the middle event cannot lie in the middle \
         of the row",
    );
    assert_error(
        row(21, Technique::TwoTogether, 4, Convention::Blocks).mirrored().build(),
        "4 decreases of two together on 21 stitches cannot be mirrored: this convention does not treat both ends \
         alike here",
    );
    assert_error(
        row(20, Technique::IncreaseBetween, 3, Convention::Round).round(Round::Exact).build(),
        "the events do not all fall between two stitches, and exact rounding was asked for",
    );
    assert_error(
        row(20, Technique::IncreaseBetween, 3, Convention::Round).round(Round::HalfEven).build(),
        "the rounding of a spacing is half even, but must be down, up, nearest, half down or exact",
    );
    assert_error(
        row(12, Technique::TwoTogether, 3, Convention::Round).avoid(st(3), st(10)).build(),
        "the stitches to avoid leave no room for 3 decreases of two together",
    );
    assert_error(
        row(12, Technique::TwoTogether, 3, Convention::Round).avoid(st(5), st(4)).build(),
        "the stitches to avoid is 5 to 4, but must be counted from 1, upwards",
    );
    assert_error(
        row(12, Technique::IncreaseBetween, 3, Convention::Round)
            .between_repeats(st(0), st(0))
            .build(),
        "the repeat to keep whole is 0, but must be in 1..=10000000",
    );
    // The first event, wanted after 278 stitches, would have to go to 2000000: 9000 events
    // with 2 * 1999722 + 1 places each.
    assert_error(
        row(5_000_000, Technique::IncreaseBetween, 9_000, Convention::HalfGaps)
            .avoid(st(1), st(2_000_000))
            .build(),
        "the number of places to choose from is 35995005000, but must be at most 10000000: avoid \
         fewer stitches",
    );
    let exact = Repeat::multiple_of(12).unwrap();
    assert_error(
        Spacing::onto(st(93), exact, Round::Exact, Convention::HalfGaps),
        "the number is 31/4, which is not a whole number, and exact rounding was asked for",
    );
}

#[test]
fn outlines_and_curves_are_refused() {
    assert_error(
        Outline::quarter_ellipse(cm(0), cm(5), Bend::Slowing),
        "the width of a quarter ellipse is 0 mm, but must be above zero",
    );
    assert_error(
        Outline::quarter_ellipse(cm(5), cm(-5), Bend::Slowing),
        "the height of a quarter ellipse is -50 mm, but must be above zero",
    );
    assert_error(
        Outline::polyline(&[(cm(0), cm(0)), (cm(3), cm(5)), (cm(2), cm(8))]),
        "the way across of an outline is -10 mm, but must be zero or more: an outline never \
         turns back",
    );
    assert_error(
        Outline::polyline(&[(cm(0), cm(0)), (cm(3), cm(5)), (cm(4), cm(4))]),
        "the way up of an outline is -10 mm, but must be zero or more: an outline never turns \
         back",
    );
    let flat = Outline::start().line(cm(5), cm(0)).unwrap();
    assert_error(
        Curve::builder(&flat, st(10), rows(10)).build(),
        "the outline is 50 mm across and 0 mm up, but must be above zero both across and up",
    );
    let quarter = Outline::quarter_ellipse(cm(5), cm(5), Bend::Slowing).unwrap();
    let curve = |stitches, all| Curve::builder(&quarter, st(stitches), rows(all));
    assert_error(curve(10, 0).build(), "the rows of a curve is 0, but must be in 1..=1000");
    assert_error(
        curve(1_001, 10).build(),
        "the stitches of a curve is 1001, but must be in 0..=1000",
    );
    assert_error(
        curve(50, 10).build(),
        "no staircase of 50 stitches in 10 rows has steps of at most 4",
    );
    assert_error(
        curve(10, 10).most(st(0)).build(),
        "the most stitches in one step is 0, but must be in 1..=1000",
    );
    assert_error(
        curve(10, 10).opening(AtOnce::Exactly(st(11))).build(),
        "the stitches shaped at once before is 11, but must be in 0..=10",
    );
    assert_error(
        Neck::builder(&quarter, st(31), rows(20)).centre(AtOnce::Exactly(st(10))).build(),
        "the centre of the neck is 10, but must be odd, as the neck is",
    );
}

#[test]
fn short_rows_and_rounds_are_refused() {
    assert_error(
        ShortRows::wedge(st(20), rows(5), Side::Left, WedgeReach::Growing),
        "the number of short rows is 5, but must be even: every turn goes there and back",
    );
    assert_error(
        ShortRows::wedge(st(3), rows(8), Side::Left, WedgeReach::Growing),
        "4 turns need 5 stitches, since each leaves one more, but there are 3: at most 4 \
         rows would do",
    );
    assert_error(
        ShortRows::heel(st(20), st(9), Side::Left),
        "the stitches in the middle is 9, but must be even, as the width is",
    );
    assert_error(
        ShortRows::heel(st(20), st(0), Side::Left),
        "the stitches a heel is turned down to is 0, but must be in 1..=20",
    );
    assert_error(
        ShortRows::raised(st(20), st(22), rows(4), Side::Left),
        "the stitches in the middle is 22, but must be in 0..=20",
    );
    assert_error(
        Crown::new(st(80), 0, rows(2), st(8)),
        "the crown lines is 0, but must be in 1..=10000000",
    );
    assert_error(
        Doubling::new(st(0)),
        "the stitches of the first round is 0, but must be in 1..=10000000",
    );
    assert_error(
        RowGrowth::new(st(8), st(8), rows(0)),
        "the rows between increases is 0, but must be in 1..=10000000",
    );
    let gauge = "8x10/1in".parse().unwrap();
    assert_error(
        Slices::new(cm(40), gauge, 0, Round::HalfUp),
        "the number of slices is 0, but must be in 1..=10000000",
    );
    assert_error(
        triangle_rows(cm(40), gauge, Round::Exact),
        "the rounding of a triangle is exact, but must be one that rounds",
    );
    assert!(Circle::flat(gauge).unwrap().count_at(rows(7), Round::Exact).is_err());
}
