use super::{rows, st};
use loopwright::shaping::{Larger, ShortRows, Side, Slope, WedgeReach};
use loopwright_tests::assertions::assert_error;
use loopwright_tests::laws::tried_on;
use loopwright_tests::shaping::turns::{End, replay};
use proptest::prelude::*;

fn end(side: Side) -> End {
    match side {
        Side::Left => End::Left,
        Side::Right => End::Right,
    }
}

/// How often every stitch is knitted, by a replay that is told only the turns.
fn knitted(short: &ShortRows, start: Side) -> Vec<usize> {
    let turns: Vec<_> = short.turns().collect();
    let left = |row: u32| {
        turns.iter().find(|turn| turn.row.get() == row).map_or(0, |turn| turn.left.get() as usize)
    };
    let all = u32::try_from(short.rows().len()).unwrap();
    let left: Vec<usize> = (1..=all).map(left).collect();
    replay(short.width().get() as usize, end(start), &left)
}

fn reaches() -> impl Strategy<Value = WedgeReach> {
    prop_oneof![Just(WedgeReach::Growing), Just(WedgeReach::Shrinking)]
}

fn sides() -> impl Strategy<Value = Side> {
    prop_oneof![Just(Side::Left), Just(Side::Right)]
}

#[test]
fn a_wedge_is_within_a_row_of_its_slope() {
    let asked = (1..120_usize, 1..30_usize, sides(), reaches());
    tried_on(256, &asked, 60, 1, |(width, pairs, deep, reach)| {
        let asked = (st(width.try_into().unwrap()), rows((2 * pairs).try_into().unwrap()));
        let Ok(wedge) = ShortRows::wedge(asked.0, asked.1, deep, reach) else {
            prop_assert!(pairs >= width);
            return Ok(false);
        };
        let mut heights = knitted(&wedge, deep);
        if deep == Side::Left {
            heights.reverse();
        }
        // From the thin edge: the slope at the edges of every stitch, twice the width
        // times as high.
        for (i, height) in heights.iter().enumerate() {
            let slope = |at: usize| 2 * pairs * at;
            let high = height * width;
            prop_assert!(high <= slope(i + 1) + width && high + width >= slope(i), "stitch {}", i);
        }
        prop_assert_eq!(wedge.rows().len(), 2 * pairs);
        Ok(true)
    });
}

#[test]
fn a_dart_has_its_rows_at_the_edge_and_none_at_the_point() {
    tried_on(256, &(1..80_usize, 1..30_usize, sides()), 60, 1, |(width, pairs, deep)| {
        let asked = (st(width.try_into().unwrap()), rows((2 * pairs).try_into().unwrap()));
        let Ok(dart) = ShortRows::dart(asked.0, asked.1, deep) else {
            // Half of the pairs, the odd one too, go into hold.
            prop_assert!(pairs.div_ceil(2) >= width);
            return Ok(false);
        };
        let mut heights = knitted(&dart, deep);
        if deep == Side::Left {
            heights.reverse();
        }
        prop_assert_eq!(*heights.last().unwrap(), 2 * pairs);
        prop_assert!(heights.is_sorted());
        Ok(true)
    });
}

#[test]
fn a_raised_neck_is_the_same_at_both_sides() {
    tried_on(
        256,
        &(0..40_u32, 1..40_u32, 1..20_u32, sides()),
        50,
        1,
        |(core, side, pairs, start)| {
            let width = core + 2 * side;
            let Ok(neck) = ShortRows::raised(st(width), st(core), rows(2 * pairs), start) else {
                // A turn for every stitch beside the middle; one fewer, if there is no middle.
                let most = if core == 0 { side - 1 } else { side };
                prop_assert!(pairs > most);
                return Ok(false);
            };
            let heights = knitted(&neck, start);
            let middle = heights[width as usize / 2];
            prop_assert_eq!(middle, 2 * pairs as usize + 1);
            prop_assert_eq!(heights[0], 1);
            prop_assert_eq!(heights[width as usize - 1], 1);
            // One turn of each pair lies a row before the other.
            let other = heights.iter().rev();
            prop_assert!(heights.iter().zip(other).all(|(a, b)| a.abs_diff(*b) <= 1));
            let half = &heights[..=width as usize / 2];
            prop_assert!(half.is_sorted());
            Ok(true)
        },
    );
}

#[test]
fn a_raised_neck_may_turn_at_every_stitch_beside_its_middle() {
    // Three stitches at each side of ten, three turns: 3, 2 and 1 are left, by hand.
    let neck = ShortRows::raised(st(16), st(10), rows(6), Side::Left).unwrap();
    let left: Vec<u32> = neck.turns().map(|turn| turn.left.get()).collect();
    assert_eq!(left, [3, 3, 2, 2, 1, 1]);
}

proptest! {
    #[test]
    fn a_heel_leaves_one_more_in_every_row(
        core in 1..30_u32,
        side in 0..30_u32,
        start in sides(),
    ) {
        let width = core + 2 * side;
        let heel = ShortRows::heel(st(width), st(core), start).unwrap();
        let worked: Vec<u32> = heel.rows().iter().map(|row| row.to.get() - row.from.get()).collect();
        let down = (core..width).rev();
        let up = core + 1..=width;
        prop_assert!(worked.iter().copied().eq(down.chain(up)));
        let heights = knitted(&heel, start);
        prop_assert!(heights.iter().enumerate().all(|(i, n)| *n == heel.rows_over(st(i.try_into().unwrap())).get() as usize));
        prop_assert_eq!(heights[width as usize / 2], 4 * side as usize);
        // Edges are knitted least: once before they are held, or after, and once at the end.
        let edges = [heights[0], heights[width as usize - 1]];
        prop_assert!(side == 0 || edges == [2, 2]);
    }
}

#[test]
fn turns_follow_from_their_rows() {
    tried_on(256, &(2..60_u32, 1..10_u32, sides()), 60, 1, |(width, pairs, deep)| {
        let Ok(short) = ShortRows::wedge(st(width), rows(2 * pairs), deep, WedgeReach::Growing)
        else {
            return Ok(false);
        };
        let turns: Vec<_> = short.turns().collect();
        prop_assert!(turns.iter().all(|turn| turn.side == deep.other() && turn.wrap));
        prop_assert!(turns.iter().all(|turn| turn.worked.get() + turn.left.get() == width));
        prop_assert!(short.without_wraps().turns().all(|turn| !turn.wrap));
        Ok(true)
    });
}

#[test]
fn what_refuses_too_many_turns_names_rows_that_do() {
    let most = |refused: loopwright::shaping::Error| -> Option<u32> {
        let text = refused.to_string();
        let (_, rows) = text.split_once(": at most ")?;
        Some(rows.strip_suffix(" rows would do").unwrap().parse().unwrap())
    };
    let mut named = 0;
    for width in 1..14 {
        for pairs in 1..30 {
            let kinds: [&dyn Fn(u32) -> Result<ShortRows, _>; 4] = [
                &|all| ShortRows::wedge(st(width), rows(all), Side::Left, WedgeReach::Growing),
                &|all| ShortRows::dart(st(width), rows(all), Side::Left),
                &|all| ShortRows::raised(st(2 * width + 3), st(3), rows(all), Side::Left),
                &|all| ShortRows::raised(st(2 * width), st(0), rows(all), Side::Left),
            ];
            for make in kinds {
                let Err(refused) = make(2 * pairs) else { continue };
                let most = most(refused).unwrap_or(0);
                assert!(most < 2 * pairs && make(most + 2).is_err());
                assert!(most == 0 || make(most).is_ok());
                named += u32::from(most > 0);
            }
        }
    }
    assert!(named > 300, "only {named} were named");
}

#[test]
fn the_most_short_rows_are_told_in_one_go() {
    let wedge =
        ShortRows::wedge(st(9_999_999), rows(100_000), Side::Left, WedgeReach::Growing).unwrap();
    assert_eq!(wedge.to_string().lines().count(), 100_000);
    assert_error(
        ShortRows::wedge(st(9_999_999), rows(1_000_000), Side::Left, WedgeReach::Growing),
        "the number of short rows is 1000000, but must be in 0..=100000",
    );
    assert_error(
        ShortRows::heel(st(9_999_999), st(1), Side::Left),
        "the number of rows of a heel is 19999996, but must be in 0..=100000",
    );
    let slope = Slope::builder(st(9_999_999), 50_001, Larger::First).build().unwrap();
    assert_error(
        ShortRows::stepped(&slope, Side::Left),
        "the number of steps of the short rows is 50001, but must be in 1..=50000",
    );
}

#[test]
fn a_machine_shoulder_of_fifteen() {
    // A machine maker's help page: from COL hold 1 to 5, knit, wrap 5, knit back; hold 6
    // to 10, knit, wrap 10, knit back; all back, one row.
    let slope = Slope::builder(st(15), 3, Larger::Last).build().unwrap();
    let shoulder = ShortRows::stepped(&slope, Side::Left).unwrap();
    let turns: Vec<_> =
        shoulder.turns().map(|turn| (turn.row.get(), turn.left.get(), turn.wrap)).collect();
    assert_eq!(turns, [(1, 5, true), (3, 10, true)]);
    assert_eq!(shoulder.rows().len(), 5);
    let heights = knitted(&shoulder, Side::Right);
    assert_eq!(heights, [[1; 5], [3; 5], [5; 5]].concat());
}

#[test]
fn short_rows_in_words() {
    let heel = ShortRows::heel(st(6), st(4), Side::Right).unwrap();
    assert_eq!(
        heel.to_string(),
        "row 1: knit 5 stitches towards the left, leave 1, wrap and turn\n\
         row 2: knit 4 stitches towards the right, leave 1, wrap and turn\n\
         row 3: knit 5 stitches towards the left to the edge\n\
         row 4: knit 6 stitches towards the right to the edge"
    );
}
