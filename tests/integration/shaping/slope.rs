use super::{rows, st};
use loopwright::gauge::{Gauge, Length, Repeat, Round, Rows};
use loopwright::shaping::{Larger, LastStep, Side, Slope, SlopeMethod};
use loopwright_tests::assertions::assert_error;
use loopwright_tests::laws::tried_on;
use proptest::prelude::*;

/// Every list of `turns` sizes above zero that add up to `stitches`.
fn each_split(stitches: u32, turns: u32, sizes: &mut Vec<u32>, see: &mut impl FnMut(&[u32])) {
    if turns == 0 {
        if stitches == 0 {
            see(sizes);
        }
        return;
    }
    for size in 1..=stitches {
        sizes.push(size);
        each_split(stitches - size, turns - 1, sizes, see);
        sizes.pop();
    }
}

/// The split with the smallest difference between its steps, in the order asked for.
fn best_split(stitches: u32, turns: u32, larger: Larger) -> Vec<u32> {
    let mut best: Option<(u32, Vec<u32>)> = None;
    each_split(stitches, turns, &mut Vec::new(), &mut |sizes| {
        let ordered = match larger {
            Larger::First => sizes.is_sorted_by(|a, b| a >= b),
            _ => sizes.is_sorted(),
        };
        let spread = sizes.iter().max().unwrap() - sizes.iter().min().unwrap();
        if ordered && best.as_ref().is_none_or(|(old, _)| spread < *old) {
            best = Some((spread, sizes.to_vec()));
        }
    });
    best.unwrap().1
}

#[test]
fn steps_are_the_most_even_there_are() {
    for larger in [Larger::First, Larger::Last] {
        for stitches in 1..=14 {
            for turns in 1..=stitches.min(6) {
                let slope = Slope::builder(st(stitches), turns, larger).build().unwrap();
                let sizes: Vec<u32> = slope.steps().map(|step| step.stitches.get()).collect();
                assert_eq!(sizes, best_split(stitches, turns, larger), "{stitches} in {turns}");
            }
        }
    }
}

#[test]
fn a_spread_slope_keeps_to_the_line() {
    for stitches in 1..60_u32 {
        for turns in 1..=stitches {
            let slope = Slope::builder(st(stitches), turns, Larger::Spread).build().unwrap();
            for (done, step) in (1..).zip(slope.steps()) {
                let off = (done * stitches).abs_diff(step.done.get() * turns);
                assert!(2 * off <= turns, "{stitches} in {turns}");
            }
        }
    }
}

#[test]
fn three_quarters_of_an_inch_is_six_rows() {
    // knittingrobin.blogspot.com, September 2013: 0.75 in at 7 rows to the inch is 5.25,
    // taken as 6.
    let gauge: Gauge = "5x7/1in".parse().unwrap();
    let height: Length = "3/4 in".parse().unwrap();
    let fitted = gauge.fit::<Rows>(height, Repeat::even(), Round::Ceil).unwrap();
    let slope = Slope::over(st(24), fitted.count, Larger::First, LastStep::CostsRows)
        .unwrap()
        .build()
        .unwrap();
    assert_eq!((slope.rows().get(), slope.turns()), (6, 3));
}

#[test]
fn the_last_step_may_cost_nothing() {
    let costs =
        Slope::over(st(24), rows(6), Larger::First, LastStep::CostsRows).unwrap().build().unwrap();
    let free =
        Slope::over(st(24), rows(6), Larger::First, LastStep::Free).unwrap().build().unwrap();
    assert_eq!((costs.turns(), free.turns()), (3, 4));
    assert_eq!((costs.rows().get(), free.rows().get()), (6, 6));
}

#[test]
fn shoulders_of_a_pair_lie_one_row_apart() {
    let slope = Slope::builder(st(23), 3, Larger::Last).build().unwrap();
    let steps: Vec<(Side, u32, u32)> = slope
        .paired(Side::Right)
        .map(|(side, step)| (side, step.row.get(), step.stitches.get()))
        .collect();
    let want = [
        (Side::Right, 1, 7),
        (Side::Left, 2, 7),
        (Side::Right, 3, 8),
        (Side::Left, 4, 8),
        (Side::Right, 5, 8),
        (Side::Left, 6, 8),
    ];
    assert_eq!(steps, want);
}

#[test]
fn slopes_in_words() {
    let slope = Slope::builder(st(16), 3, Larger::Last);
    assert_eq!(
        slope.build().unwrap().to_string(),
        "bind off 5 stitches twice, then 6 stitches once, on every other row"
    );
    assert_eq!(
        slope.method(SlopeMethod::ShortRows).build().unwrap().to_string(),
        "leave 5, then 10 stitches unworked, on every other row, then knit one row over all stitches"
    );
}

#[test]
fn slopes_of_one_or_two_steps_in_words() {
    let told = |stitches, turns, method| {
        let slope = Slope::builder(st(stitches), turns, Larger::Last).method(method);
        slope.build().unwrap().to_string()
    };
    assert_eq!(told(5, 1, SlopeMethod::BindOff), "bind off 5 stitches");
    assert_eq!(told(1, 1, SlopeMethod::BindOff), "bind off 1 stitch");
    assert_eq!(told(5, 1, SlopeMethod::ShortRows), "knit one row over all stitches");
    assert_eq!(
        told(3, 2, SlopeMethod::ShortRows),
        "leave 1 stitch unworked, then knit one row over all stitches"
    );
    assert_eq!(
        told(3, 3, SlopeMethod::ShortRows),
        "leave 1, then 2 stitches unworked, on every other row, then knit one row over all stitches"
    );
}

#[test]
fn a_slope_has_as_many_rows_as_can_be_counted() {
    let slope = |turns| Slope::builder(st(10_000_000), turns, Larger::First).build();
    assert_eq!(slope(5_000_000).unwrap().rows().get(), 10_000_000);
    assert_error(
        slope(5_000_001),
        "the number of steps of the slope is 5000001, but must be in 1..=5000000",
    );
}

#[test]
fn slope_laws() {
    tried_on(300, &(1..2_000_u32, 1..200_u32), 60, 1, |(stitches, turns)| {
        for larger in [Larger::First, Larger::Last, Larger::Spread] {
            let Ok(slope) = Slope::builder(st(stitches), turns, larger).build() else {
                prop_assert!(turns > stitches);
                return Ok(false);
            };
            let sizes: Vec<u32> = slope.steps().map(|step| step.stitches.get()).collect();
            prop_assert_eq!(sizes.iter().sum::<u32>(), stitches);
            prop_assert_eq!(slope.steps().last().unwrap().done.get(), stitches);
            prop_assert!(sizes.iter().max().unwrap() - sizes.iter().min().unwrap() <= 1);
            prop_assert!(slope.steps().all(|step| step.row.get() % 2 == 1));
        }
        Ok(true)
    });
}
